# What is wrong with a file, a module or a case card, and what to do. One message per kind of problem, `problems-…`.
# A message says what is wrong; its `fix` says what to do.

problems-at = { $file }:{ $line }:{ $column }
problems-meant = Did you mean { $name }?
problems-known = There are: { $all }.
problems-known-none = There are none.
problems-such-as = Write it like this: { $all }.
problems-between = Stay between { $all }.
problems-in-order = Use these, in this order: { $all }.

## Reading a file

problems-too-large = The file has more than { DEC($most) } bytes, so it was not read.
    .fix = Split the module into stages, or leave out what does not belong to it.
problems-not-utf8 = There is a byte here ({ $byte }) that is no UTF-8 text.
    .fix = Save the file as UTF-8.
problems-control-character = There is a control character here ({ $code }).
    .fix = Delete it. No text needs it.
problems-too-deep = Lists and maps stand in each other more than { DEC($most) } deep.
    .fix = Write it flatter.
problems-too-many = The file has more than { DEC($most) } values.
    .fix = Split the module into stages.
problems-not-used-anchor = An anchor (&) is not used in modules.
    .fix = Write the value out, or put it in quotation marks if it is text.
problems-not-used-alias = An alias (*) is not used in modules.
    .fix = Write the value out, or put it in quotation marks if it is text.
problems-not-used-tag = A tag (!) is not used in modules.
    .fix = Take it out, or put the value in quotation marks if it is text.
problems-not-used-merge-key = A merge key (<<) is not used in modules.
    .fix = Write the keys out, or make a stage of what is shared.
problems-not-used-directive = A directive (%) is not used in modules.
    .fix = Take the line out.
problems-not-used-second-document = A second document begins here.
    .fix = Put each module into a file of its own.
problems-key-is-no-text = The key of this entry is no plain text.
    .fix = Use a word as the key.
problems-duplicate-key = { $key } stands here a second time. The first one is in line { $line }.
    .fix = Keep one of them.
problems-unknown-key = { $found } is no key of this map.
problems-missing-key = { $key } is missing here.
    .fix = Add it.
problems-one-key-of = { $count ->
    [0] One key is needed here, and there is none.
    [one] One other key is needed here.
   *[other] One key is needed here, and there are { DEC($count) }.
}
problems-wrong-shape = Here is { $found }. Needed: { $expected }.
    .fix = Change it to what is needed.
problems-unknown-word = { $found } is no word that can stand here.
problems-word-needs-more = { $word } needs more to be said.
    .fix = Give it what belongs to it, as a map under it.
problems-word-stands-alone = { $word } stands alone.
    .fix = Take out what stands under it.
problems-no-quantity = { $found } is no { $kind }.
problems-wrong-form = { $found } has not the form that is needed here.
problems-out-of-range = { $found } is out of range.
    .fix = Stay between { $least } and { $most }.
problems-unknown-stage = There is no stage { $found }.
    .fix = Name a stage that stands in the folder stages.
problems-stage-named-otherwise = The stage in this file says its id is { $found }, and it is used as { $expected }.
    .fix = Give both the same id.
problems-stage-twice = This stage is used already.
    .fix = Use it once.
problems-unknown-stage-step = The stage has no step { $found } that could be changed.
problems-nothing = There is nothing here.
    .fix = Write something, or take the key out.
problems-refused = This value cannot be used here.
    .fix = Look up what stands here in a module that works.

problems-syntax-tab = There is a tab here.
    .fix = Use spaces.
problems-syntax-indentation = This line starts too far left or right.
    .fix = Line it up with the lines that it belongs to.
problems-syntax-bracket-open = The bracket { $open } is never closed.
    .fix = Close it.
problems-syntax-bracket-mismatch = The bracket { $open } is closed by { $close }.
    .fix = Close it with its own kind.
problems-syntax-bracket-stray = This bracket closes nothing.
    .fix = Take it out, or open it.
problems-syntax-quote-open = The quotation mark is never closed.
    .fix = Close it.
problems-syntax-after-quote = Something follows the closing quotation mark.
    .fix = Put the whole text between the marks.
problems-syntax-escape = This backslash means nothing here.
    .fix = Write two, or use single quotation marks.
problems-syntax-no-colon = Here should be a key with a colon and a space after it.
    .fix = Write it as key: value.
problems-syntax-stray-colon = There is a colon here that no key can have.
    .fix = Put the text in quotation marks.
problems-syntax-no-comma = A comma or a closing bracket is missing here.
    .fix = Add it.
problems-syntax-dash = This dash begins no list, or an item lacks its dash.
    .fix = Begin every item of the list with a dash and a space, one under the other.
problems-syntax-reserved = A text cannot begin with { $sign }.
    .fix = Put the text in quotation marks.
problems-syntax-comment = This # touches what stands before it.
    .fix = Put a space before it, or the text in quotation marks.
problems-syntax-block-text = The text after | or > is not written as it has to be.
    .fix = Indent its lines more than its key, all the same.
problems-syntax-end = The file ends in the middle of something.
    .fix = Look whether the end was cut off.
problems-syntax-other = This cannot be read as YAML.
    .fix = Compare it with a module that works.

problems-unit-no-number = Begin with a number.
problems-unit-no-unit = Put a unit behind the number: { $known }.
problems-unit-unknown = { $found } is no unit for it. Use one of these: { $known }.
problems-unit-too-fine = The number has too many digits. Round it.
problems-unit-too-large = The number is too large.

problems-shape-empty = nothing
problems-shape-scalar = a single value
problems-shape-list = a list
problems-shape-map = a map
problems-kind-duration = span of time
problems-kind-temperature = temperature
problems-kind-length = length
problems-kind-volume = volume
problems-kind-mass = mass
problems-kind-irradiance = light on a surface
problems-kind-dose = dose of light
problems-kind-share = share
problems-kind-rate = rate
problems-kind-chance = chance
problems-form-name = Use letters without accents and digits, joined by single hyphens, a letter first, at most 64 of them.
problems-form-whole-number = Use a whole number.
problems-form-date = Use a day such as 2026-12-01.
problems-form-language = Use a language tag such as en-US.
problems-form-origin = Name a source of the list, or write one of these: common practice, no source; from memory; calculated from …; our default.
problems-form-calendar-span = Use a span such as 6 months.

## The meaning of a module

problems-name-step = step
problems-name-act = forbidden act
problems-name-station = station
problems-name-station-kind = kind of station
problems-name-part = part
problems-name-aspect = aspect
problems-name-value = value
problems-name-repeat = repeat
problems-name-named-place = named place
problems-name-choice = case choice
problems-name-choice-value = value of a case choice
problems-name-product = product
problems-name-item = protection item
problems-name-way = way
problems-name-option = option
problems-name-consequence = consequence
problems-name-disturbance = disturbance
problems-name-hazard = hazard
problems-name-fault = fault
problems-name-source = source
problems-name-module = module

problems-unknown-name = There is no { $kind } with the name { $found }.
problems-taken-word = { $name } is a word of plain mode already, so it cannot be the id of a step or an act.
    .fix = Give it another id.
problems-duplicate-id = There are two of one id: { $kind } { $name }. The first one is at { $first }.
    .fix = Give one of them another id.
problems-not-expected = The stage { $stage } uses something from outside that it does not say it expects: { $kind } { $name }.
    .fix = Add { $name } to what the stage expects.
problems-expected-missing = The stage { $stage } expects { $name }, and the module does not have it.
    .fix = Add it to the module, or take it out of what the stage expects.
problems-wrong-kind = { $name } is of the kind { $found } and is used as { $expected }.
    .fix = Name one of the kind that is needed.
problems-makes-not-one = What is made of { $name } is not exactly one value.
    .fix = Name one value.
problems-gauge-values = { $name } is decided by the bench and has other values than its reading.
    .fix = Use these, in this order: { $expected }.
problems-sign-not-decided = The sign { $name } is not decided by the bench, so nobody could wait for it.
    .fix = Watch for something that the bench shows.
problems-too-many-values = { $name } has more than { DEC($most) } values.
    .fix = Join some of them, or make two aspects.
problems-repeat-unresolved = The repeat { $name } cannot be counted.
    .fix = Count up to a case choice that is a whole number, or group a repeat that stands before it.
problems-shapes-plan = The plan depends on the choice { $name }, and the choice does not say so.
    .fix = Add shapes-plan: yes to it.
problems-goes-with-circle = These steps go with each other in a circle: { $chain }.
    .fix = Let one of them stand for itself.
problems-window-order = The limits of { $name } are the wrong way round for this case card: { $card }.
    .fix = Order them: least, target, most, with what the case card adds.
problems-clash = Rules about time cannot all be kept for this case card: { $card }.
problems-targets-clash = Rules about time cannot be kept with every time on its target, for this case card: { $card }.
problems-clash-chain = Change one of these: { $links }.
problems-clash-takes = { $task } takes at least { $time }
problems-clash-takes-at-most = { $task } takes at most { $time }
problems-clash-order = { $first } comes before { $then }
problems-clash-gap-at-least = from { $from } to { $to } at least { $time }
problems-clash-gap-at-most = from { $from } to { $to } at most { $time }
problems-clash-done = { $task } has been done, and its times stand
problems-cap-too-small = The cap of { $most } is smaller than the { $sum } that the windows allow, for this case card: { $card }.
    .fix = Raise the cap to { $sum }, or narrow the windows.
problems-raised-cap-too-small = The cap of { $most } after { $steps } is smaller than the { $sum } that the windows allow, for this case card: { $card }.
    .fix = Raise the cap to { $sum }, or narrow the windows.
problems-nobody-makes = { $step } needs { $aspect } to be { $values }, and nothing makes it so.
    .fix = Let a step make it, or drop the need.
problems-made-too-late = { $task } needs { $aspect }, which is only made after it by { $makers } (case card { $card }).
    .fix = Let it come after what makes it.
problems-undone = { $task } needs { $aspect }, which { $by } always undoes before it (case card { $card }).
    .fix = Make it again before the task, or change the order.
problems-plan-too-large = With { $name } there are more than { DEC($most) } tasks or places.
    .fix = Repeat less, or split the workflow.
problems-too-many-cards = Only { DEC($compiled) } of { DEC($all) } case cards were looked at.
    .fix = Let fewer choices shape the plan.
problems-critical-without-consequence = { $name } is critical and does not say what follows when it is left out.
    .fix = Add what happens under errors, skipped.
problems-no-precautions = The hazard { $name } has no precautions.
    .fix = Add them to the list of hazards.
problems-hazard-not-listed = A step touches the hazard { $name }, and the module does not list it.
    .fix = Add it to the hazards of the module.
problems-no-right-option = The way { $name } has no right option.
    .fix = Take the word wrong off one of them, or add a right one.
problems-no-right-response = Nothing is right to do about { $name }, not even going on.
    .fix = Add a right response.
problems-consequence-unused = Nothing leads to { $name }, and the bench never shows it.
    .fix = Let a mistake lead to it, or take it out.
problems-tier-order = The tiers of { $name } do not go from mild to grave.
    .fix = Write the mildest first.
problems-no-cautions = The module has no cautions.
    .fix = Add what has to be known before anybody starts.
problems-sign-off-more-days-than-rehearsals = The sign-off asks for clean unaided rehearsals on more days than there are rehearsals. Each day takes one rehearsal at least.
    .fix = Ask for as many rehearsals as days, or for fewer days. Where no rehearsal is asked for, both are 0.
problems-sign-off-nothing-observed =
    { $which ->
        [again] A renewal
       *[first] The sign-off
    } asks for no observed run, so nobody would have been seen at work.
    .fix = Ask for one observed run at least.
problems-sign-off-no-assessor =
    { $which ->
        [again] A renewal
       *[first] The sign-off
    } asks for no assessor, so nobody would have to look.
    .fix = Ask for one assessor at least.
problems-sign-off-more-assessors-than-runs =
    { $which ->
        [again] A renewal
       *[first] The sign-off
    } asks for more assessors than observed runs. Each assessor watches one run at least.
    .fix = Ask for as many observed runs as assessors, or for fewer assessors.
problems-sign-off-row-longer-than-runs =
    { $which ->
        [again] A renewal
       *[first] The sign-off
    } asks for more clean runs in a row than observed runs.
    .fix = Ask for as many observed runs, or for fewer in a row.
problems-sign-off-too-many = The sign-off asks for more than { DEC($most) } of something.
    .fix = Ask for fewer.
problems-sign-off-months = A sign-off holds for 1 to { DEC($most) } months, and there is one number at least.
    .fix = Write the months of the first sign-off, then those of later ones: 6, 12, 12.
problems-sign-off-effect-window = The window in which it is asked whether training worked ends before it begins, or on the same day.
    .fix = Write two numbers of days after the sign-off, the smaller first: 30, 90.
problems-no-reason = { $name } does not say why it is done or what good looks like.
    .fix = Add both.
problems-no-time = { $name } takes no time at all.
    .fix = Say how long its handling takes.
problems-title-too-long = The title takes { DEC($columns) } columns. The most is { DEC($most) }.
    .fix = Shorten it.
problems-word-too-long = The word { $word } is too long for a line of { DEC($most) } columns.
    .fix = Put spaces in it, or use another word.

## Profiles

problems-profile-not-covered = The profile does not cover the module { $module }.
    .fix = Add the module to the profile once its numbers are proven for it.
problems-profile-no-such-module = The profile lists the module { $found }, and there is none of that name.
problems-profile-unknown = The profile names { $found }, and the module has nothing of that name.
problems-profile-no-such-cap = No cap of the module sums exactly these steps.
    .fix = Name the same steps as the module.
problems-profile-no-such-gap = No gap of the module is between exactly these moments.
    .fix = Name the same moments as the module.
problems-profile-other-keeping = { $step } keeps its time in another way than these numbers are for.
    .fix = Give the numbers that its own way of keeping time has.

## Plans

problems-plan-unknown = { $name } stands for nothing.
problems-plan-repeat = The repeat { $repeat } cannot be counted for this case card.
    .fix = Count up to a case choice that is a whole number.
problems-plan-circle = These come before each other in a circle: { $chain }.
    .fix = Take one of the links out.
problems-plan-window = The limits of { $step } are the wrong way round for this case card.
    .fix = Order them: least, target, most, with what the case card adds.
problems-plan-too-many-tasks = The plan would have { DEC($count) } tasks, more than a plan may have.
    .fix = Repeat less, or split the workflow.
problems-order-no-such-task = There is no task number { $number }.

## The bench

problems-bench-station-kind = The bench has no kind of station { $found }.
problems-bench-number-name = The station has no number { $found }.
problems-bench-number-text = { $found } cannot be read as this number.
problems-bench-number-range = { $found } is more or less than the bench can work with.
problems-bench-station = { $found } is no station that can be used for this.
problems-bench-part = { $found } is no part that can be used for this.
problems-bench-product = There is no product { $found }.
problems-bench-way = The step has no way { $found }.
problems-bench-way-option = { $found } means nothing to the bench here.
problems-bench-gauge-values = { $found } has other values than its reading.
problems-bench-gauge-of = { $found } cannot be read like this.

## Case cards

problems-case-no-pair = { $found } is no choice with a value.
    .fix = Write it as name=value.
problems-case-unknown-choice = The module has no choice { $found }.
problems-case-twice = { $found } is decided twice.
    .fix = Decide it once.
problems-case-unknown-word = { $choice } cannot be { $found }.
problems-case-out-of-range = { $choice } cannot be { $found }.
    .fix = Use a whole number from { DEC($from) } to { DEC($to) }.
problems-case-missing = { $found } is not decided.
    .fix = Add { $found }=value.

## Saved runs

problems-replay-no-such-disturbance = The saved run names a disturbance that the module does not have: { $found }.
    .fix = Use the revision of the module that the run was saved with.
problems-replay-action = Action { $number } of the saved run makes no sense on this module: { $why }
    .fix = Use the revision of the module that the run was saved with.
