# What a learner reads after a run, and the words that reports share, `debrief-…`.

debrief-title = Debrief: { $module }

## How things are named

# A place within a place: the pair 5-6, its facial side.
debrief-place-within = { $first } { $rest }
debrief-at-places = { $what }: { $places }
debrief-at-all-places = { $what }: all { DEC($count) }
debrief-and-more = { $named } and { DEC($count) } more
# One thing that is true of a part: "Surface: matt and dry".
debrief-state = { $aspect }: { $values }
debrief-state-not = { $aspect }: not yet or no longer "{ $values }"
debrief-state-one-of = { $aspect }: one of { $values }
debrief-quoted = "{ $title }"
debrief-choice = { $choice }: { $value }
debrief-vapour = { DEC($number) } ppm
debrief-of = { $part } of { $whole }

debrief-critical = critical
debrief-major = major
debrief-minor = minor

## Three questions

debrief-what-happened = What happened
debrief-clean = Clean. You handed the work over after { $time }.
debrief-not-clean = Not clean. You handed the work over after { $time }.
debrief-abandoned = Abandoned after { $time }. You gave the run up, so it is not clean. What was done until then is told below.
debrief-unfinished = Not finished. The run stops after { $time } without being handed over, so it is not clean.
debrief-verdict = { $verdict } { $counted }
debrief-nothing-found = Nothing was found that should have gone another way.
debrief-counted = { $count ->
    [one] One mistake: { $parts }.
   *[other] { DEC($count) } mistakes: { $parts }.
}
debrief-counted-critical = { DEC($count) } critical
debrief-counted-major = { DEC($count) } major
debrief-counted-minor = { DEC($count) } minor
debrief-named-more = And { DEC($count) } more, told further down.

debrief-why-it-matters = Why it matters
debrief-matters-unfinished = A case that is left in the middle helps nobody, and nobody can say what became of it.
debrief-matters-clean = Done like this, the work goes on without a flaw from this bench.
debrief-matters-shown = This is what the bench ended with:
debrief-matters-can = Nothing of it showed on the bench this time. The gravest mistake can still lead to this:
debrief-matters-critical = A person or the case would have come to harm.
debrief-matters-major = The work could not have been passed on like this.
debrief-matters-minor = A small miss. Repeated, it becomes a habit.

debrief-what-next = What to do next time
debrief-next-more =
    { $count ->
        [one] And { $count } thing more: the findings tell it.
       *[other] And { $count } things more: the findings tell them.
    }
debrief-next-same = Do it the same way again.
debrief-next-finish = Go through to the end next time, also when something went wrong. The end is part of the work.
debrief-next-skipped = Do not leave this out: { $what }.
debrief-next-after = First this: { $other }. Only then this: { $what }.
debrief-next-before = Do this earlier: { $what }. It belongs before { $other }.
debrief-next-once = Once is enough: { $what }.
debrief-next-time = { $what }: aim at { $target }, never under { $least }, never over { $most }.
debrief-next-wait = { $what }: go on until you see this: { $sign }.
debrief-next-at-sign = { $what }: stay with it, and end within { $within } of the sign. The sign: { $sign }.
debrief-next-way = { $what }. The right way: { $right }.
debrief-next-ready = { $what }: before you start, see to this: { $state }.
debrief-next-sooner = Start sooner: from { $from } to { $to } at most { $most }.
debrief-next-later = Give it time: from { $from } to { $to } at least { $least }.
debrief-next-cap = Keep the sum under { $most }: { $what }.
debrief-next-fewer = Keep to { DEC($most) } at a time. Bring them to their end before you begin the next.
debrief-next-never = Never do this: { $act }. { $text }
debrief-next-protection = { $asked }. See to it before you start, and until it is over.
debrief-next-change = Change it every { $every }: { $item }.
debrief-next-answer = When you see this: { $seen } Do this: { $right }.
debrief-next-harm = Look for the cause of this, step by step: { $harm }

## What was found

debrief-findings = What was found
debrief-decides = A run is clean when it is handed over without a critical and without a major mistake. What followed from a mistake stands under it and does not count again.
debrief-root = { $number }. { $severity }: { $what }
debrief-followed = Followed from it ({ $severity }): { $what }
debrief-why = Why it is done: { $why }
debrief-right-for = { $was } is the time for { $choice }: { $value }. This case card says { $card }.
debrief-leads-shown = Showed this time: { $text }
debrief-leads-unshown = Can follow, did not show this time: { $text }
debrief-hazards-here = Hazards here: { $hazards }. Protection and precautions stand at the end of the debrief.

debrief-found-skipped = Left out: { $what }
debrief-found-early = Too early in the order: { $what }
debrief-found-late = Too late in the order: { $what }
debrief-found-too-soon = Before it was allowed: { $what }
debrief-found-again = Done again: { $what }
debrief-found-short = Too short: { $what }
debrief-found-long = Too long: { $what }
debrief-found-before-sign = Ended before the sign: { $what }
debrief-found-after-sign = Ended too long after the sign: { $what }
debrief-found-not-yet-right = Stopped before it looked right: { $what }
debrief-found-wrong-way = { $what }. Done the wrong way: { $taken }
debrief-found-unready = Started before things were ready: { $what }. Not so yet: { $state }
debrief-found-gap-long = Too much time between { $from } and { $to }
debrief-found-gap-short = Too little time between { $from } and { $to }
debrief-found-cap = Too long in all: { $what }
debrief-found-crowded = Too many at once: { $state }
debrief-found-forbidden = Forbidden: { $act }
debrief-found-not-worn = Not worn: { $item }
debrief-found-not-worn-at = Not worn: { $item }, at { $steps }
debrief-found-not-running = Not running: { $item }
debrief-found-not-running-at = Not running: { $item }, at { $steps }
debrief-found-stale = Not changed in time: { $item }
debrief-found-wrong-answer = Wrong answer to this: { $seen }
debrief-found-carried-on = Went on in spite of this: { $seen }

debrief-expected-done = { $all ->
    [one] Expected: done once. Found: left out.
   *[other] Expected: done at { DEC($all) } places. Found: left out at { DEC($count) }.
}
debrief-expected-after = Expected: after { $other }. Found: before it.
debrief-expected-before = Expected: before { $other }. Found: after it.
debrief-expected-only-after = Expected: only once this is done: { $other }. Found: done before that.
debrief-expected-once = Expected: once. Found: done again.
debrief-expected-longer = Expected: { $target } (from { $least } to { $most }). Found: { $was }. That is { $by } or { $share } under the least.
debrief-expected-shorter = Expected: { $target } (from { $least } to { $most }). Found: { $was }. That is { $by } or { $share } over the most.
debrief-expected-sign = Expected: until the sign ({ $sign }). Found: ended { $by } before it.
debrief-expected-sign-never = Expected: until the sign ({ $sign }). Found: ended, and it would not have come.
debrief-expected-soon-after-sign = Expected: ended within { $within } of the sign ({ $sign }). Found: { $by } after it. That is { $over } or { $share } of the allowed time too late.
debrief-expected-look = Expected: until { $look }. Found: stopped before that.
debrief-expected-way = { $question } Right: { $right }. Found: { $taken }.
debrief-expected-state = Expected at the start: { $state }. Found: not so.
debrief-expected-at-most = Expected: at most { $most }. Found: { $was }. That is { $by } or { $share } over it.
debrief-expected-at-least = Expected: at least { $least }. Found: { $was }. That is { $by } or { $share } under it.
debrief-expected-no-more-than = Expected: no more than { DEC($most) } at a time. Found: { DEC($count) }.
debrief-expected-never = Expected: never. Found: done.
debrief-expected-protection = { $asked }. Found: { $time } without.
debrief-expected-change = Expected: changed every { $every }. Found: { $by } over that.
debrief-expected-answer = Right: { $right }. Found: { $taken }.
debrief-expected-stop = Right: { $right }. Found: nothing was done.
debrief-expected-limit = Limit: { $limit }. Found: { $found }.

debrief-harm-at-teeth = { $harm } (teeth { $teeth })
debrief-harm-veil = A white veil on the dry part
debrief-harm-locked-veil = A veil fixed in place by light
debrief-harm-socket-gel = Loose gel left in a socket
debrief-harm-softened = Softened by too much time in solvent
debrief-harm-damp-joint = Resin on a damp or filmed socket
debrief-harm-weak-primer = Primer that does not hold
debrief-harm-no-primer = No primer where it is needed
debrief-harm-warm-primer = Primer too warm
debrief-harm-hot-primer = Primer far too warm
debrief-harm-wet-primer = Resin over wet primer
debrief-harm-starved-joint = Too little resin in a joint
debrief-harm-gelled-socket = Resin that gelled before the tooth was seated
debrief-harm-hard-flash = Excess that was cured hard
debrief-harm-moved-tooth = A tooth that moves
debrief-harm-wrong-tooth = A tooth in the wrong place
debrief-harm-wrong-product = A wrong product in the joint
debrief-harm-open-seam = An open seam
debrief-harm-under-cured = A side that is not cured through
debrief-harm-warped = A base that has lost its shape
debrief-harm-polished-tissue = A tissue side that was polished away
debrief-harm-scratched = Scratches under the polish
debrief-harm-vapour-near-heat = Solvent vapor near heat
debrief-harm-vapour-peak = Too much solvent vapor in the air
debrief-harm-skin-contact = Wet resin on bare skin
debrief-harm-eye-exposure = Light in an unprotected eye
debrief-harm-spoiled = Waste or resin where it must not go

debrief-well = What went well
debrief-well-done = Done: { DEC($done) } of { DEC($all) } required tasks. In time: { DEC($kept) } of { DEC($timed) } timed parts.

## The score

debrief-score = The score in its parts
debrief-score-note = These numbers decide nothing. Clean or not clean decides. Nobody is ranked by speed.
debrief-score-part = Part
debrief-score-found = Found
debrief-score-order = Order kept
debrief-score-time = Timed parts in time
debrief-score-protection = Time with all protection that was called for
debrief-score-harms = Harms that the bench ended with

## What came from outside

debrief-disturbances = What came in between
debrief-undisturbed = Nothing came in between.
debrief-answered-right = You chose: { $taken }. That was right.
debrief-answered-wrong = You chose: { $taken }. Right would have been: { $right }.
debrief-went-on-right = You went on. That was right.
debrief-went-on-wrong = You went on. Right would have been: { $right }.
debrief-unanswered = The run ended before you answered. Right would have been: { $right }.

## Figures

debrief-figures = Figures
debrief-timeline = Times that you kept, against the times that are allowed
debrief-timeline-key = [ and ] stand at the least and the most. A star is a time within them, an X one outside. Each line has its own scale.
debrief-timeline-once = { $longest } (allowed { $least } to { $most })
debrief-timeline-alike = { DEC($count) } times, { $longest } each (allowed { $least } to { $most })
debrief-timeline-often = { $missed ->
    [0] { DEC($count) } times, { $shortest } to { $longest } (allowed { $least } to { $most })
   *[other] { DEC($count) } times, { $shortest } to { $longest } (allowed { $least } to { $most }), { DEC($missed) } outside
}
debrief-bars-key = The upright line stands at the limit. An X stands before a bar on its wrong side. A bar that ends in > goes on beyond the drawing.
debrief-axis-time = Time since the start of the run
debrief-axis-temperature = Temperature
debrief-axis-vapour = Solvent vapor in the air
debrief-warmth = How warm it got: { $vessel }
debrief-warmth-target = The sign turns at { $limit }
debrief-warmth-warm = Too warm from { $limit }
debrief-warmth-hot = Far too warm from { $limit }
debrief-residue = Resin left after each cleaning: { $part }
debrief-residue-limit = At most { $limit } may be left when it dries
debrief-region-tissue = Tissue side
debrief-region-outer = Outer faces
debrief-region-posts = Posts
debrief-region-socket = Socket { $tooth }
debrief-region-worst-socket = { $socket }, the worst of the sockets
debrief-cleaning-brush = Brush
debrief-dose-teeth = Light on each tooth
debrief-dose-bodies = Light on each side
debrief-dose-limit = At least { $limit }
debrief-dose-less = Less than that
debrief-dose-none = No light at all
debrief-arch-key = Outside stands { $outer }, inside { $inner }. Tooth 1 is at the left end. An upper and a lower arch are drawn alike.
debrief-arch-said = { $missed ->
    [0] All { DEC($count) } sides got enough light.
   *[other] { DEC($missed) } of { DEC($count) } sides got too little light or none:
}
debrief-arch-missed = { $side }: { $teeth }
debrief-arch-tooth = Tooth
debrief-side = Side { $number }
debrief-side-tooth = Tooth side
debrief-side-tissue = Tissue side
debrief-air = Vapor in the air of the room
debrief-air-room = Room
debrief-air-limit = At most { $limit } as an average over 15 minutes
debrief-air-measure = Measure
debrief-air-average = Average over 8 hours, clean air outside the run
debrief-air-highest = Highest average over 15 minutes
debrief-air-explosive = Highest level, as a share of the lower explosive limit

## Protection

debrief-protection = Protection and precautions
debrief-wear = Wear: { $item }
debrief-wear-when = Wear: { $item } ({ $when })
debrief-run = Keep running: { $item }
debrief-run-when = Keep running: { $item } ({ $when })
debrief-while = while { $state }
debrief-until = until { $state }
debrief-during = at: { $stations }

## The run

debrief-facts = This run
debrief-fact = What
debrief-fact-value = Value
debrief-fact-module = Module
debrief-revision = { $module }, revision { $revision }, digest { $digest }
debrief-fact-profile = Process profile
debrief-fact-card = Case card
debrief-fact-help = Help
debrief-fact-seed = Case number (seed)
debrief-help-guided = guided
debrief-help-prompted = prompted
debrief-help-unaided = unaided
debrief-repeat = To repeat this case with the same revision: drybench rehearse { $module } --profile { $profile } --case { $card } --seed { $seed } --disturbances { $disturbances }

# A mistake in the list of the first page.
debrief-named = { $severity }: { $what }
