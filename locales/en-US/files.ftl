# The files of people and workflows, the table of a day, the list of entries, verification: on screens and in reports, `files-…`.

## The day that is asked about, and the reading

files-as-of =
    .now-known = As of { $at }, as now known
    .recorded-then = As of { $at }, as recorded then
    .recorded-by = As of { $at }, as recorded by { $by }
files-as-of-ahead = { $as-of }. That day has not come yet: as far as things are known.
files-ask-day = Which day? As in 2026-03-03:
files-ask-recorded-by = As recorded by which day? As in 2026-03-03:
files-ask-no-day = That is no day.
files-key-this-day = this day
files-key-day-before = day before
files-key-day-after = day after
files-key-month-before = month before
files-key-month-after = month after
files-key-reading = reading
    .long = change the reading: as now known, or as recorded then
files-key-day = day
    .long = type the day that is asked about
files-key-recorded-by = recorded by
    .long = count only what had been written down by a day that you type
files-key-today = today
files-reading-recorded-by = as recorded by { $by }: counting only what had been written down by then.

## What somebody does next in a scope

files-next-cannot-be-shown = Next: have the record verified. Until then nobody can say what comes next.
files-next-not-assigned = Next: nothing, until a need is recorded.
files-next-withdrawn = Next: nothing, until a new need is recorded. Then the whole path begins again.
files-next-left = Next: nothing.
files-next-suspended = Next: clear up what led to the suspension. Somebody who may approve, and a second person, end it.
files-next-ready = Next: have somebody who may approve sign it off. Everything else is there.
files-next-signed-off = Next: nothing is asked for now. Be assessed again before { $until }; practice is worth it at any time.
files-next-due = { $step } All of it before { $until }.
files-next-lapsed = { $step } Until then, work under supervision only.
files-step-edition = Next: have a revision of the workflow adopted, signed by two.
files-step-assigned = Next: have the need recorded.
files-step-workflow = Next: be signed off for { $workflow } first.
files-step-read = Next: read the edition in force, and sign that you have.
files-step-awareness = Next: take note of what changed in revision { $revision }, and sign that you have.
files-step-protection = Next: show a trainer how you protect yourself.
files-step-trained = Next: be trained again on what the failed assessment showed.
files-step-rehearse = Next: { $runs ->
    [one] { DEC($runs) } more clean unaided rehearsal
   *[other] { DEC($runs) } more clean unaided rehearsals
}{ $days ->
    [0] .
    [one] , on { DEC($days) } more day.
   *[other] , on { DEC($days) } more days.
}
files-step-cases = Next: { $more ->
    [one] { DEC($more) } more case
   *[other] { DEC($more) } more cases
} under a named supervisor, found acceptable.
files-step-observed = Next: { $more ->
    [one] { DEC($more) } more observed run
   *[other] { DEC($more) } more observed runs
} that you pass.
files-step-assessors = Next: an observed run that you pass before { $more ->
    [one] another assessor
   *[other] { DEC($more) } other assessors
}.
files-step-in-a-row = Next: { $more ->
    [one] { DEC($more) } more clean observed run
   *[other] { DEC($more) } more clean observed runs
} in a row.
files-step-method = Next: pass { $more ->
    [one] { DEC($more) } more assessment
   *[other] { DEC($more) } more assessments
} by { $method }.
files-step-first-assessor = Next: be signed off as a first assessor, on proof from outside, by somebody who may approve. Nobody is signed off in this scope yet, so what takes another who is signed off is spared.
files-step-evaluated = Next: have an assessor evaluate whether the training worked.

## The file of a person

files-person-history = Entries about the person, the newest first
files-person-about = Where the person stands in each scope as of a day, by which entry, what is missing, and what comes next. Below stands every entry about the person; Tab chooses one, Enter opens it. The day and the reading in the heading can be changed.

## The file of a workflow

files-workflow-about = Who covers the workflow as of a day, who has to be assessed again soon, where everybody stands, which editions were adopted by whom, what a sign-off asks for. Below stands every entry about it; Tab chooses one, Enter opens it.
files-workflows-title = Workflows
files-workflows-none = The record knows no workflow yet. One comes in when whoever publishes adopts a revision of its text: s on the board, then Adopt a revision.
files-workflows-about = The workflows that the record knows. Enter opens the file of one.

files-workflow-title = Workflow { $workflow }
files-workflow-cover = Who covers it
files-workflow-alone = May work alone: { DEC($count) } of { DEC($here) } here.
files-workflow-assess = Of these may assess: { DEC($count) }.
files-workflow-soon = To be assessed again within { DEC($days) } days
files-workflow-by-then = By then: { $cause }
files-workflow-nobody-soon = Nobody, as things stand.
files-workflow-everybody = Where everybody stands
files-workflow-nobody = Nobody has a need recorded for it.
files-workflow-left = Those who left
files-workflow-person = { $person } ({ $profile }, { $wash }, { $cure }): { $told }
files-workflow-editions = Editions
files-workflow-no-edition = None was adopted by then.
files-workflow-edition = { $edition }, from { $effective } on, adopted by { $by }: { $impact }. Entry { $entry }.
files-workflow-in-force = In force since { $start }.
files-workflow-again = From { $start } on. It was adopted again since: the same text, with other numbers for a sign-off.
files-workflow-over = From { $start } on; another one is in force now.
files-workflow-ahead = Comes into force at { $start }.
files-workflow-not-yet = It does not count: a second person has to sign it too.
files-workflow-asks = What a sign-off asks for
files-workflow-entries = Entries about it
files-cli-workflow =
    .about = Show what the record says about a workflow
    .usage = drybench workflow WORKFLOW [OPTIONS]
    .after = Editions, what a sign-off asks for, who covers it, who is to be assessed again. As now known, unless --as-recorded asks for what had been written down by then.

## Entries on one line, and how they are connected

files-row = { $day }  { $entry }  { $said }
files-row-void = { $day }  { $entry }  VOID: { $said }
files-lead = { $lead }: { $row }
files-entries-below = Entries
files-entries-connected = Entries that it has to do with
files-entry-not-here = That entry is not among those that count here. It may be in a part of the record that is not here, or nobody had the right to make it.
files-search = Look for:
files-not-found = "{ $sought }" does not stand here.
files-key-open = open
files-key-next-entry = next entry
    .long = go to the next entry below the text; the digits 1 to 9 open the first nine at once
files-page-about = A text to be read. The arrow keys scroll, / looks for words.
files-one-entry-about = One entry in full: what it says, how it came about, who signed it, what was said about it later. Below stand the entries that it names and those that name it; Tab goes from one to the next, Enter opens it, Esc comes back.
files-link-names = It names
files-link-under = Signed under
files-link-amends = Said about it later
files-link-named-by = Names it
files-cell-scope = { $told } Scope: { $profile }, { $wash }, { $cure }.

## The table of people and workflows on a screen

files-ask-names = Names or codes that hold:
files-key-names = only these
files-key-find-names = names
    .long = show only people whose name or code holds what you type; nothing typed shows everybody
files-key-person = person's file
    .long = open the person's file, the scopes of this workflow first
files-key-proof = entry
    .long = open the entry that proves the cell, in full
files-key-workflow = workflow
    .long = open the file of the workflow
files-key-left = who left
    .long = show those who left too, or not
files-matrix-who =
    .here = { $count ->
        [one] { DEC($count) } person who was here.
       *[other] { DEC($count) } people who were here.
    }
    .all = { $count ->
        [one] { DEC($count) } person, those who left included.
       *[other] { DEC($count) } people, those who left included.
    }
    .here-called = Called "{ $names }": { $count ->
        [one] { DEC($count) } person who was here.
       *[other] { DEC($count) } people who were here.
    }
    .all-called = Called "{ $names }": { $count ->
        [one] { DEC($count) } person, those who left included.
       *[other] { DEC($count) } people, those who left included.
    }
files-matrix-still = Still looking: { DEC($known) } of { DEC($all) } cells. What is not known yet shows as …
files-matrix-empty = There is nobody to show, or no workflow. Another day, another name or those who left may change that.
files-matrix-cover = May work alone
files-matrix-covered = { DEC($alone) } of { DEC($all) }
files-matrix-cell = { $name } ({ $code }) in { $workflow } ({ $short })
files-matrix-letters = { $short } = { $standing }
# Of the words that stand in a cell as they are. As short as they can be: they share a line.
files-matrix-means =
    .due = to be assessed again
    .lapsed = sign-off has ended
    .left = no longer here, or no longer at it
files-matrix-several = + = several scopes differ; the strictest shows
files-matrix-no-proof = No entry up to this day assigns the person to this workflow, so none can be opened; the file of the person (Enter) shows everything that there was by then. Or it cannot be shown, because something is wrong with entries.
files-matrix-about = Who may do what as of a day. Each cell says the standing in a few letters, which are explained below the table; the chosen cell stands there in full words, with since when and until when. Under the table stands how many of those shown may work alone. As now known counts everything that is known now about that day; as recorded then counts only what had been written down by then.

## The list of entries

files-by-person = person
    .ask = About or by whom? Part of a name or code, nothing for everybody:
    .long = list only entries about a person, or made by that person
files-by-workflow = workflow
    .ask = About which workflow? Part of its name, nothing for all:
    .long = list only entries about a workflow
files-by-kind = kind
    .ask = Which kind? As in signed off, nothing for all:
    .long = list only entries of a kind
files-by-word = word
    .ask = Which words does the line hold? Nothing for all:
    .long = list only entries whose line holds what you type
files-key-only-these = only these
files-key-all = all
    .long = list all entries again
files-entries-count = { $all ->
    [one] { DEC($listed) } of { DEC($all) } entry, the newest first.
   *[other] { DEC($listed) } of { DEC($all) } entries, the newest first.
}
files-entries-by = { $by }: "{ $text }".
files-entries-still = Still looking: { DEC($count) } looked at.
files-entries-none = No entry fits.
files-entries-about = Every entry of the record, the newest first: the day when it happened, strand and number, what it says. Enter opens one in full. Several choices hold together.

## Verification

files-verifying-told = Every entry is gone through: its seal, its place in the chain, its signature, the right of whoever signed. Esc stops it; nothing is changed either way.
files-verifying-done = { DEC($done) } of { DEC($all) } entries
files-verifying-stopped = The verification was stopped before its end, so it says nothing. Nothing was changed.
files-repeat-heading = How a stranger repeats this
files-repeat = With common tools and without this program: drybench comes with verify.md, which says what is stored and what to check, and verify.py, which does it with the standard library of Python and the openssl command. It prints a root for each strand; it has to be the one above, and the one on paper.
files-wrong-not-read = It is not among the entries that count, so there is nothing more to open. Its bytes are still stored; in plain lines drybench record verify --json names it for machines.
files-key-stop = stop
files-key-first-wrong = the first
    .long = open the first entry with something wrong
files-key-all-wrong = all of them
    .long = list everything that is wrong, to open one
files-verifying-about = Whether the record is what was written: seals, chains, signatures, rights and the heads that are remembered outside. It shows alteration, within stated limits; the limits stand below the result.
