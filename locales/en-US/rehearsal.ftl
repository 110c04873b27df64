# What is asked and answered while a run is under way, `rehearsal-…`.

## Lines that can not be read

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
rehearsal-how-long = This takes time. Say how long.
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
