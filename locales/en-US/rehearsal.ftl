# What is asked and answered while a run is under way, `rehearsal-…`.

rehearsal-opening = { $title }, revision { $revision }, seed { $seed }
rehearsal-choice = { $choice } { $value }
rehearsal-case = Case card: { $card }.
rehearsal-how-to-begin = Type what you do, one line at a time. "help" tells how, "moves" lists what there is, "finish" hands the work over. The clock in front of the line is the clock of the bench.
rehearsal-kept = Every line is kept in { $path }. A run that breaks off goes on with --resume.
rehearsal-resumed =
    { $count ->
        [one] Taken up again after { $count } action.
       *[other] Taken up again after { $count } actions.
    }
rehearsal-passed-over = An earlier run is taken up in its place.
rehearsal-of-saved-run = Case, seed and profile are those of the kept run; what was named for them is not used.
rehearsal-torn = The last line of the kept run was cut off while it was being written. It had not been confirmed; type it again.
rehearsal-torn-replay = The last line of the saved run was cut off while it was being written. It is left out.
rehearsal-prompt = { $clock } >

rehearsal-done = { $what }: { $time }
rehearsal-refused = { $what }: that cannot be done. { $state }
rehearsal-worn = On: { $item }
rehearsal-off = Off: { $item }
rehearsal-running = Running: { $item }
rehearsal-stopped = Stopped: { $item }
rehearsal-disturbed = ! { $seen }
rehearsal-held-back = The step has not been started. Answer first, or type it again to go on as if nothing were.
    .screen = The step has not been started. Answer first, or go on as if nothing were.
rehearsal-response = respond { $id } : { $title }
rehearsal-or-go-on = Or go on working.
rehearsal-answered = { $what }: { $time }
rehearsal-carried-on = You go on as if nothing were.
rehearsal-waited = Waited { $time }
rehearsal-finished = The work is handed over.
rehearsal-abandoned = The run is given up.

rehearsal-seen = { $aspect }: { $looks }
rehearsal-seen-at = { $aspect }, { $places }: { $looks }
rehearsal-look-untouched = Everything is as it was at the start.
rehearsal-look-bare = Nothing is worn and nothing runs.
rehearsal-look-worn = Worn for { $time }: { $item }
rehearsal-look-running = Running for { $time }: { $item }

rehearsal-next = { $id } : { $title }
rehearsal-next-if-needed = { $id } : { $title } (only if needed)
rehearsal-next-at = { $id } ({ $places }): { $title }
rehearsal-next-before = { $line } (start within { $left })
rehearsal-next-too-late = The rules about time can no longer all be kept. Go on all the same.
rehearsal-guide = Next: { $typed } : { $title }
    .screen = Next: { $what }
rehearsal-guide-passed = Passed by, and still to be done: { $typed } : { $title }
    .screen = Passed by, and still to be done: { $what }. Do it now all the same.
rehearsal-guide-again = Once more, it does not look right yet: { $typed } : { $title }
    .screen = Once more, it does not look right yet: { $what }
rehearsal-nothing-left = Every step has been done. Type finish to hand the work over.
    .screen = Every step has been done. Hand the work over.
rehearsal-about = { $title }
rehearsal-why = Why: { $why }
rehearsal-good = Good: { $good }
rehearsal-timer = Time, by the machine's timer: { $target } ({ $least } to { $most }). Type it behind the step: for { $target }
    .screen = Time, by the machine's timer: { $target } ({ $least } to { $most }).
rehearsal-count = Time, counted: { $target } ({ $least } to { $most }). Typed without a time, it lets you count.
    .screen = Time, counted in the head: { $target } ({ $least } to { $most }).
rehearsal-watch = Watch for this sign: { $sign }. End it within { $within } of it. Typed without a time, it lets you look again and again; "stop" ends it.
    .screen = Watch for this sign: { $sign }. End it within { $within } of it.
rehearsal-judge = Go on until you see this: { $until }. Typed without a time, it lets you look after every { $portion }; "stop" ends it.
    .screen = Go on until you see this: { $until }. One portion takes { $portion }.
rehearsal-wear = Put on first: wear { $id } ({ $item })
    .screen = Put on first: { $item }
rehearsal-wear-on = On: { $item }
rehearsal-wear-on-since = On for { $age }, to be changed every { $every }: { $item }
rehearsal-wear-change = Change first: wear { $id } ({ $item }, on for { $age }, to be changed every { $every })
    .screen = Change first: { $item } (on for { $age }, to be changed every { $every })
rehearsal-run = Start first: run { $id } ({ $item })
    .screen = Start first: { $item }
rehearsal-run-on = Running: { $item }
rehearsal-right-way = { $question } { $right }
rehearsal-no-ways = There is only one way to do it.
rehearsal-wait-for = Not so yet: { $state }. Let time pass: wait until { $sign }
    .screen = Not so yet: { $state }. Let time pass until it is.
rehearsal-not-so-yet = Not so yet: { $state }.
rehearsal-way = { $title }
rehearsal-option = { $way }={ $option } : { $title }

rehearsal-notice = Careful: { $text }
rehearsal-notice-early = Careful: this came too soon. First: { $missing }.
rehearsal-notice-need = Careful: this was not so yet: { $state }.
rehearsal-notice-time = Careful: { $was } is outside { $least } to { $most }.
rehearsal-notice-before-sign = Careful: the sign had not shown.
rehearsal-notice-after-sign = Careful: the sign had shown { $by } before.
rehearsal-notice-not-yet = Careful: it does not look right yet.

rehearsal-station = { $title }:
rehearsal-move = { $id } : { $title }
rehearsal-protection = Protection:
rehearsal-move-wear = wear { $id } : { $title }
rehearsal-move-run = run { $id } : { $title }

rehearsal-ask-how-long = For how long? (like 90 s or 2 min)
rehearsal-count-start = Press Enter, count, and press Enter again.
rehearsal-counting = …
rehearsal-counted = Counted { $time }.
rehearsal-watch-how = Enter looks again after { $portion }. "stop" ends it now.
rehearsal-judge-how = Enter goes on for { $portion }. "stop" leaves it as it is.
rehearsal-so-far = After { $time }
rehearsal-line = Line { $number }: { $text }
rehearsal-no-finish = The lines ended without "finish": the run counts as given up.
rehearsal-no-help = Without help nothing is explained before the debrief.
rehearsal-no-such-sign = Nothing here shows a sign { $found }.
rehearsal-no-such-sign-fix = There are: { $known }.
rehearsal-sign-never = The sign would not show within an hour.
rehearsal-sign-never-fix = Something that has to come before it is missing. "look" shows how things stand.
rehearsal-before-it-begins = It would end before it begins.

rehearsal-help =
    A step is typed by its name, then where, how and how long:
    lift-off : a step that is done once
    dry-fit all : a step at all its places
    fill 5-6 amount=bead : the sockets 5 and 6, and the way to do it
    tack 5-6 facial for 10 s : a place within a place, and a time
    warm-primer until strip-turned + 5 s : 5 s after that sign
    A way that is not named is done as it should be; "ways STEP" lists the ways.
    A time that is not typed is asked for.
    wear ITEM, take-off ITEM : protection on the body; worn again, it is fresh
    run ITEM, stop ITEM : what runs in the room
    look : what can be seen, what is worn, what runs
    wait 30 s : let time pass
    wait until plate-state-ready : let time pass until it shows
    respond NAME : answer what has come up
    next : what may come next
    ways STEP : in which ways a step can be done
    why STEP : reason, limits and protection of a step
    moves : everything that can be done, by station
    help : this list
    finish : hand the work over and read the debrief
    abandon : give the run up

## Lines that cannot be read

rehearsal-line-needs-one-word = { $found } needs one more word.
    .fix = Say what is meant, for example an item or a step.
rehearsal-line-time = { $found } is no time.
rehearsal-line-way = { $found } is no way with an option.
    .fix = Write it as way=option, without spaces.
rehearsal-line-too-much = { $found } is one word too many.
    .fix = Take it out.

## Moves that make no sense. Nothing has changed.

rehearsal-no-such-move = There is no step or act { $found }.
    .fix = Type moves to see what there is.
rehearsal-no-such-place = This is not done at { $found }.
rehearsal-where-to = This is done at several places. Say where.
rehearsal-no-time-said = This takes time. Say how long.
    .fix = Add for and a time, for example: for 2 min
rehearsal-not-timed = This is not timed.
    .fix = Leave the time out.
rehearsal-time-out-of-range = The time is below zero or longer than a day.
    .fix = Check the unit.
rehearsal-no-such-way = The step has no way { $found }.
rehearsal-no-such-option = The way has no option { $found }.
rehearsal-no-such-item = There is no item { $found } for this.
rehearsal-nothing-to-answer = Nothing waits for an answer.
    .fix = Go on with the work.
rehearsal-no-such-response = { $found } is no answer to this.
rehearsal-over = The run is over.
    .fix = Start another one.

rehearsal-recorded = Written down as practice: entry { $entry }.
rehearsal-not-recorded = The rehearsal is not in the record. Its run is kept in the file that was named at the beginning.
