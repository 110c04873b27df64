# A real run that is watched at the bench, at the screens and in plain lines, `watching-…`.

## How a row stands

watching-of = { DEC($times) } of { DEC($all) }
watching-beside = { $first }; { $rest }
watching-lasted = { $time }{ $length }
watching-length =
    .free = { "" }
    .within = , within its window
    .under = , { $by } under the least
    .over = , { $by } over the most
watching-runs = running for { $time }
watching-timer-left = running for { $time }, timer ends in { $left }
watching-timer-over = running for { $time }, timer over since { $over }
watching-runs-elsewhere =
    .runs = { $row } ({ $time })
    .over = { $row } (timer over since { $time })
watching-runs-out-of-sight = { $count ->
    [one] Runs: { $rows }
   *[other] { DEC($count) } run: { $rows }
}
watching-time = { $more ->
    [more] { $number }: { $said } (more often than the case card asks for)
   *[asked] { $number }: { $said }
}
watching-unmarked = not marked yet
watching-seen =
    .done = done
    .prompted = done after a prompt
    .not-done = not done
    .not-seen = not seen
watching-value = Read: { $text }
watching-remark = Remark: { $text }
watching-lot = Lot or equipment: { $text }
watching-kept-begun = Begun { $at }
watching-kept-row = { $row }: { $said }
watching-kept-time = from { $from }, { $time }
watching-kept-open = from { $from }, not stopped
watching-kept-danger = Stopped for danger: { $text }
watching-kept-undone = { $count ->
    [one] One tap was taken back.
   *[other] { $count } taps were taken back.
}
watching-hazards = Hazards here: { $hazards }
watching-case = Case { $case }: { $card }
watching-finding = { $what } { $against }
watching-clock-back = At { $at } the clock on the wall had been set back by { $by }. Times went on all the same.
watching-clock-ahead = At { $at } the clock on the wall had gone ahead by { $by }: the computer slept, or the clock was set. That time is counted.

## What is acknowledged

watching-nothing-yet = Nothing is tapped yet.
watching-kept-tap = Kept at { $at }: { $what }
watching-kept-tap-stopped = Kept at { $at }, clock stopped: { $what }
watching-kept-tap-runs-on = Kept at { $at }, clock runs on, { DEC($times) } of { DEC($all) }: { $what }
watching-tap =
    .start = started: { $row }
    .stop = stopped: { $row }
    .seen = { $row }: { $seen }
    .value = { $row }, read: { $text }
    .remark = { $row }, remark: { $text }
    .remark-all = remark: { $text }
    .lot = lot or equipment: { $text }
    .danger = stopped for a danger: { $text }
    .end = the run is over
    .undo = the last tap is taken back
    .dropped = begun by mistake, and dropped
    .signed = the observation is signed
watching-taken-back =
    .start = Taken back ({ $at }): start of { $row }
    .stop = Taken back ({ $at }): stop of { $row }
    .end = Taken back ({ $at }): the end. The run goes on.
    .other = Taken back ({ $at }): { $what }

## The end

# How the run counts: as it was judged, or as it would be.
watching-counts-clean = { $judged ->
    [judged] The run counts as clean.
   *[open] Called acceptable, the run counts as clean.
}
watching-counts-not-clean = { $judged ->
    [judged] { $count ->
        [one] The run is passed, but not clean, because a row was done after a prompt or not done.
       *[other] The run is passed, but not clean, because { DEC($count) } rows were done after a prompt or not done.
    }
   *[open] { $count ->
        [one] Called acceptable, the run is passed, but not clean, because a row was done after a prompt or not done.
       *[other] Called acceptable, the run is passed, but not clean, because { DEC($count) } rows were done after a prompt or not done.
    }
}
watching-counts-not = { $judged ->
    [judged] { $count ->
        [one] The run does not count, because a critical row was not seen.
       *[other] The run does not count, because { DEC($count) } critical rows were not seen.
    }
   *[open] { $count ->
        [one] Called acceptable, the run does not count, because a critical row was not seen.
       *[other] Called acceptable, the run does not count, because { DEC($count) } critical rows were not seen.
    }
}
watching-counts-failed-rows =
    { $count ->
        [one] The run fails, whatever the judgement, because a critical row was not done.
       *[other] The run fails, whatever the judgement, because { DEC($count) } critical rows were not done.
    }
watching-counts-failed-danger = The run counts as failed, because it was stopped for a danger.
watching-counts-failed-judgement = The run counts as failed, because it is called not acceptable.
watching-counts-otherwise = Called not acceptable, it counts as failed.
watching-counts-rows =
    { $count ->
        [one] The row that makes it so:
       *[other] The rows that make it so:
    }
watching-row-asked =
    { $of ->
        [one] For a sign-off revision { $revision } asks that the last observed run is clean.
       *[other] For a sign-off revision { $revision } asks that the last { DEC($of) } observed runs are clean, one after the other; before this one { DEC($have) } of { DEC($of) } are. One that is not clean starts the row anew; one that does not count leaves it as it is.
    }
watching-clean-means = Clean means: acceptable, every critical row seen, and of what was seen nothing done after a prompt, left out or done wrongly.
watching-still-running = Still running, with no end noted:
watching-not-marked = Not marked, so written down as not seen:
watching-all-marked = Every row is marked.
watching-never-timed =
    { $count ->
        [one] Marked as done and never timed, so that nothing can be said of its time:
       *[other] Marked as done and never timed, so that nothing can be said of their times ({ DEC($count) } rows):
    }
watching-places-counted = Places are counted, not tapped: the first start of a row counts as its first place, the second as its second.
watching-anchor =
    .acceptable = Acceptable: from what I saw, this person could have handed this case on alone. Every critical row that I saw was done rightly, and what was missed harms neither the case nor anybody.
    .not-acceptable = Not acceptable: from what I saw, this case could not have been handed on, or only because somebody stepped in; or somebody was or could have been harmed.
watching-stopped = The run was stopped for a danger, so it is not acceptable: { $text }

## What is not taken

watching-no-such-row = The workflow has no row { $row }.
    .fix = Use one of the names that "look" lists.
watching-runs-already = { $row } runs already.
    .fix = Stop it before it is started again.
watching-does-not-run = { $row } does not run.
    .fix = Start it first.
watching-empty = Nothing was typed, so nothing is noted.
    .fix = Type a text.
watching-too-long = The text is longer than { $most } characters.
    .fix = Say it more shortly, or in two remarks.
watching-control = The text holds a character that is no letter, digit or sign, such as a tab.
    .fix = Type it without.
watching-over = The run is over. What is tapped now is not noted.
    .fix = Take the last tap back to go on with the run.
watching-nothing-to-undo = There is nothing to take back.
    .fix = Go on.
watching-not-over = The run is not over yet.
    .fix = End it with a judgement first.
watching-signed-already = The observation is signed. Nothing changes any more.
    .fix = Correct the entry instead.
watching-stands = Something that was tapped stands, so the run is not dropped.
    .fix = Take every tap back first; or end it with a judgement, and say in a remark what happened.
watching-dropped-already = The run was dropped. Nothing changes any more.
    .fix = Begin another.
watching-dropped = The case { $case } was begun by mistake: nothing stands of it, and it is not gone on with.
watching-tap-lost = This tap could not be kept, so it is not noted. Every earlier one is.
watching-unwritable = It cannot be written down: { $why }
watching-no-name-left = Too many runs began in the same second. Nothing has been started. Try again.
watching-nothing-kept = Nothing had been kept yet in { $path }.
watching-damaged = The kept run { $path } is damaged in line { $line }: { $why }
    .fix = It is left as it is. Keep the file, and write what is still known on a sheet: drybench observe sheet.
watching-newer = The kept run { $path } has format { $format }, which a newer program wrote. Use that program to go on with it.
watching-no-workflow = The workflow of the kept run { $path } cannot be laid out here.
watching-other-edition = The kept run { $path } was begun with another text of the workflow (revision { $kept }; on the shelf is revision { $shelf }). It is left as it is.

## Plain lines

watching-opening = { $workflow }, revision { $revision }: { $person } is watched ({ $method }).
watching-resumed =
    { $count ->
        [one] Taken up again after { $count } tap. Nothing is lost.
       *[other] Taken up again after { $count } taps. Nothing is lost.
    }
watching-torn = The last line was cut off while it was being written. It had not been acknowledged; tap it again.
watching-stop-danger = Stop a dangerous act with your voice and hands first, then with "danger". It ends the run; it is not graded.
watching-kept = Every tap is kept in { $path }. A run that breaks off goes on with --resume. "help" tells what can be typed.
watching-could-not-sign = As things stand, what is seen here could not be signed. Put that right first, or watch and sign when it has been put right.
watching-is-over = The run is over and not signed. "sign" goes on to the signature, "undo" takes the end back, "quit" leaves it as it is.
watching-none-open = No bench run of this workflow and person waits to be gone on with.
watching-lines-ended = The lines ended before the run did. Every tap is kept; go on with --resume.
watching-quit = The run is kept in { $path }. Go on with --resume.
watching-kept-unsigned = Nothing was signed. The run is kept in { $path }; go on with --resume.
watching-signed-before = This run had been signed already, just before the program broke off. It is not signed twice.
watching-countersign = Next, the technician reads it and signs too: drybench countersign { $entry } --as { $person } --meaning acknowledged
watching-clock-heading = What the clock and the order of the taps say. It decides nothing; you judge.
watching-to-be-signed = This is what you sign now: { $judgement }.
watching-row =
    { $critical ->
        [critical] { $id } : { $title } [critical]. { $stands }
       *[other] { $id } : { $title }. { $stands }
    }
watching-line =
    .unknown = No line begins with "{ $found }". "help" tells what can be typed.
    .needs-row = "{ $found }" needs the name of a row, as "look" lists it.
    .needs-text = "{ $found }" needs a text.
    .too-much = "{ $found }" is too much for this line.
    .no-judgement = "{ $found }" is no judgement. Type: end acceptable, or: end not-acceptable.
watching-help =
    start STEP, stop STEP       the clock of a row; several rows may run
    done STEP                   done without help
    prompted STEP               done after a prompt
    not-done STEP               not done, or done wrongly
    not-seen STEP               you did not see it
    value STEP TEXT             a value that was read
    remark-on STEP TEXT         a remark on a row
    remark TEXT                 a remark on the whole
    lot TEXT                    a lot number, or which equipment
    undo                        takes the last tap back
    drop                        begun by mistake: only while no tap stands
    look                        how every row stands
    about STEP                  its limits, protection, reasons and times
    clock                       what the clock and the order say
    danger TEXT                 stops the run; it is not acceptable
    end acceptable              you could have let this case go on
    end not-acceptable          you could not
    quit                        leaves; the run is kept

## The screen

watching-title = { $clock }, real case: { $module }
watching-farewell = The bench run is kept in { $path }. Sign in again and take it up where it stood.
watching-status =
    { $all ->
        [one] { $person } · case { $case }
       *[other] { $person } · case { $case } · { $at } of { $all } open
    }
watching-spelled-clock = c: what the clock and the order say
watching-spelled-reason = y: why it is signed late
watching-no-stage = The workflow
watching-critical = { $title } (critical)
watching-critical-means = Critical: not done, the run fails; not seen, it does not count.
watching-on-all = Noted on the whole
watching-words = In words: done = without help; done after a prompt = somebody had to say something; not done = left out or done wrongly; not seen = you were not looking. A window is the time that the module allows.
watching-note = Note
watching-note-danger = Stop for a danger
watching-ask-value = { $row }: which value was read?
watching-ask-value-again = Is that what was read? "{ $letter }" is also a key. Enter once more keeps it.
watching-ask-remark = A remark on: { $row }
watching-ask-remark-on-all = A remark on the whole run
watching-ask-lot = Which lot, or which equipment?
watching-ask-danger = Stop the dangerous act first, with voice and hands. Then say here what it was: Enter ends the run as not acceptable, which counts as failed. Until it is signed, u takes that back.
watching-ask-reason = Why is it signed late? This stays in the record for good.
watching-no-reason = A reason is one line of at most 200 characters.
watching-reason = Signed late, because: { $text }
watching-clock-nothing = Nothing of what was timed lies outside a window so far, and nothing is out of order.
watching-over-not-signed = The run is over and not signed yet. Enter goes on to the signature; u takes the end back.
watching-over-late = By now it would be signed late, which needs a reason: y says why.
watching-then-technician = Next, the technician signs in, reads it and takes note of it on their own board. A sign-off asks too whether training worked: whoever assesses signs that apart from this, under "Sign something".
watching-now-other = It is signed. The screen now shows the other case that is open: { $person }, case { $case }.
watching-contradicts = You said acceptable, and you marked as not done, though critical: { $rows }. The two contradict each other; in the record the run fails, whatever the judgement. Take the end back and put right what is wrong, or say not acceptable.
watching-left = { $person }: every tap is kept in { $path }. Take the run up again where it stood.
watching-left-empty = { $person }: nothing stands of it yet. It is kept in { $path }; if it was begun by mistake, take it up and drop it with x.
watching-key-start = start
    .long = start the clock of the chosen row
watching-key-stop = stop
    .long = stop the clock of the chosen row
watching-key-done = done
    .long = the row was done without help
watching-key-prompted = prompted
    .long = the row was done after a prompt
watching-key-not-done = not done
    .long = the row was not done, or done wrongly
watching-key-not-seen = not seen
    .long = you did not see the row
watching-key-undo = undo
    .long = take the last tap back
watching-key-danger = danger
    .long = stop the run for a danger
watching-key-finish = finish
    .long = end the run with your judgement
watching-key-value = value
    .long = write down a value that was read
watching-key-remark = remark
    .long = a remark on the chosen row
watching-key-remark-on-all = on all
    .long = a remark on the whole run
watching-key-lot = lot
    .long = a lot number, or which equipment
watching-key-clock = clock
    .long = what the clock and the order of the taps say
watching-key-other = other run
    .long = go to the other run that is open
watching-key-stage = stage
    .long = go to the stage before or after
watching-key-drop = drop
    .long = begun by mistake: drop it, while nothing of it stands
watching-key-leave = leave
    .long = leave; the run is kept and can be taken up again
watching-key-note = note it
watching-key-note-danger = end the run, not acceptable
watching-key-judge = this judgement
watching-key-sign = sign
    .long = read everything once more and sign it
watching-key-reason = why late
    .long = say why it is signed late
watching-about = You watch a real case. Choose a row and press Enter when it starts and when it stops; several rows may run. Then say how it went, which stops the clock of the row too; where it has more places to come the clock runs on. Every tap is kept at once. What the clock says helps you and decides nothing. A dangerous act is stopped first, with voice and hands.
watching-begin-title = Watch a real case
watching-adopted-edition = Careful: the laboratory works by revision { $held }, and the text on the shelf is revision { $watched }. What is watched by it does not count towards a sign-off on revision { $held }.
watching-begin-other-edition = Will not count: revision { $held } holds, this text is { $watched }. Ask whoever publishes for the text of revision { $held }.
watching-noted-with-it = Noted, and kept with the taps beside the entry:
watching-begin-about-person = Type a piece of the name or code to find somebody.
watching-begin-sought = Looked for: { $text }
watching-begin-allowed = Work under the eye of whoever watches is still work: look whether it is allowed.
watching-begin-reinstating = Watching is not refused here: a reinstatement asks for evidence, and a watched case can be it.
watching-begin-about-case = The laboratory's own name for the case, in small letters, digits and hyphens, such as c-0312. No patient's name.
watching-begin-about-lots = As it stands on bottles and machines; more can be noted while you watch. It is kept with the taps and can be erased.
watching-begin-question = Whom do you watch, and on which case? Enter begins; the clock starts then.
watching-begin-missing = Not to be chosen here, since the module or the profile cannot be taken from the shelf: { $workflows }. What is wrong is told where it is prepared to be practised: p on the board.
watching-begin-person = Who
watching-begin-workflow = At what
watching-begin-scope = { $workflow } ({ $profile }, { $wash }, { $cure })
watching-begin-case = Case
watching-begin-lots = Lots, equipment
watching-begin-take = begin
watching-begin-nobody = Nobody has a need recorded for a workflow that is on the shelf, so there is nobody to watch.
watching-begin-no-case = Say which case it is: small letters, digits and hyphens, as on its ticket.
watching-begin-about = Choose who is watched, by typing a piece of the name or with the arrows, at which workflow, and what was decided for the case. The case is named by the number of its ticket, never by a patient's name. More lots can be noted on the way.
