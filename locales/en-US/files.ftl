# The files of people and workflows, the table of a day, the list of entries, verification: on screens and in reports, `files-…`.

## The day that is asked about, and the reading

files-as-of =
    .now-known = As of { $at }, as now known
    .recorded-then = As of { $at }, as recorded then
    .recorded-by = As of { $at }, as recorded by { $by }
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
files-step-evaluated = Next: have an assessor evaluate whether the training worked.

## The file of a workflow

files-workflow-title = Workflow { $workflow }
files-workflow-cover = Who covers it
files-workflow-alone = May work alone: { DEC($count) } of { DEC($here) } here.
files-workflow-assess = Of these may assess: { DEC($count) }.
files-workflow-soon = To be assessed again within { DEC($days) } days
files-workflow-nobody-soon = Nobody, as things stand.
files-workflow-everybody = Where everybody stands
files-workflow-nobody = Nobody has a need recorded for it.
files-workflow-left = Those who left
files-workflow-person = { $person } ({ $profile }, { $wash }, { $cure }): { $told }
files-workflow-editions = Editions
files-workflow-no-edition = None was adopted by then.
files-workflow-edition = { $edition }, from { $effective } on, adopted by { $by }: { $impact }. Entry { $entry }.
files-workflow-in-force = In force since { $start }.
files-workflow-holds = Holds from { $start }; another one is in force at this time.
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
files-link-names = It names
files-link-under = Signed under
files-link-amends = Said about it later
files-link-named-by = Names it
files-cell-scope = { $told } Scope: { $profile }, { $wash }, { $cure }.
