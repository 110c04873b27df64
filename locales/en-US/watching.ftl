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
watching-timer-over = running for { $time }, timer over since { $left }
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
watching-hazards = Hazards here: { $hazards }
watching-case = Case { $case }: { $card }
watching-finding = { $what } { $against }
watching-clock-back = At { $at } the clock on the wall had been set back by { $by }. Times went on all the same.
watching-clock-ahead = At { $at } the clock on the wall had gone ahead by { $by }: the computer slept, or the clock was set. That time is counted.

## What is acknowledged

watching-nothing-yet = Nothing is tapped yet.
watching-kept-tap = Kept at { $at }: { $what }
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
    .signed = the observation is signed

## The end

watching-critical-unseen = The run will not count, because a critical row was not seen: { $rows }.
watching-critical-not-done = The run fails, whatever the judgement, because a critical row was not done: { $rows }.
watching-still-running = Still running, with no end noted: { $rows }.
watching-not-marked = Not marked, so written down as not seen: { $rows }.
watching-all-marked = Every row is marked.
watching-anchor =
    .acceptable = Acceptable: from what I saw, this person could have handed this case on alone. Every critical row was done rightly, and what was missed harms neither the case nor anybody.
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
watching-tap-lost = This tap could not be kept, so it is not noted. Every earlier one is.
watching-unwritable = It cannot be written down: { $why }
watching-no-name-left = Too many runs began in the same second. Nothing has been started. Try again.
watching-nothing-kept = Nothing had been kept yet in { $path }.
watching-damaged = The kept run { $path } is damaged in line { $line }: { $why }
    .fix = It is left as it is. Keep the file, and write what is still known on a sheet: drybench observe sheet.
watching-newer = The kept run { $path } has format { $format }, which a newer program wrote. Use that program to go on with it.
watching-no-workflow = The workflow of the kept run { $path } cannot be laid out here.
watching-other-edition = The kept run { $path } was begun with another text of the workflow (revision { $kept }; on the shelf is revision { $shelf }). It is left as it is.
