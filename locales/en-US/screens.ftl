# The screens, `screens-…`.

## Keys

screens-key-enter = Enter
screens-key-esc = Esc
screens-key-space = Space
screens-key-tab = Tab
screens-key-f1 = F1
screens-key-page = PgUp/PgDn
screens-key-up-down = ↑↓
    .ascii = Up/Down
screens-key-left-right = ←→
    .ascii = Left/Right
screens-key-arrows = arrows
screens-key-ctrl-t = Ctrl-T
screens-key-ctrl-g = Ctrl-G
screens-key-ctrl-q = Ctrl-Q
screens-key-help = help
screens-key-back = back
screens-key-quit = quit
screens-key-choose = choose
screens-key-scroll = scroll
    .long = scroll what does not fit
screens-key-theme = dark or light
screens-key-glyphs = fine characters or ASCII, if lines and dots look wrong
screens-key-leave = leave the program; a rehearsal that is kept can be gone on with

screens-farewell = The rehearsal is kept in { $path }. Start again, choose its workflow and press c to go on with it.
screens-leave-loses = This rehearsal is not kept. Leaving the program now would lose it. Press Ctrl-Q again to leave all the same.
screens-leave-drops = What you filled in has not been recorded. Leaving the program now drops it. Press Ctrl-Q again to leave all the same.
screens-yes = yes
screens-no = no
screens-help-title = What this screen is for (Enter or Esc closes it)
screens-help-mouse = The mouse works too: click a row to choose it, click it again to take it; click a key at the bottom of the screen to press it.
screens-notice-title = Please read
screens-notice-close = Enter or Esc closes this
screens-work-title = One moment
screens-drop-title = Drop it?
screens-drop = What you filled in or changed here is kept nowhere. Going back now drops it.
screens-drop-keys = Enter goes on filling in. Esc drops it.
screens-throw-away-title = Leave the demonstration?
screens-throw-away = What was done in the demonstration is thrown away when the program is left. Nothing of it is kept.
screens-throw-away-keys = Enter or Esc goes on with the demonstration. q leaves and throws it away.
screens-too-small = This terminal is smaller than { $wide } columns by { $tall } rows, too small for the screens. Make it larger, or press q and use plain lines: drybench rehearse stock-teeth

## What cannot be started or kept

screens-not-kept = It cannot be written down: { $why }
screens-no-name-left = Too many runs began in the same second. Nothing has been started. Try again.
screens-damaged = The run that was kept last cannot be taken up: { $path }
screens-nothing-broken-off = No rehearsal of this workflow is waiting to be gone on with.

## The first screen

screens-start-title = Drybench: practice without a record
screens-start-title-signed-in = Practice at the dry bench
screens-start-question = What do you want to practise?
screens-start-none = There is no workflow on the shelf.
screens-start-waiting =
    { $count ->
        [one] A rehearsal waits, after { $actions ->
            [one] one action
           *[other] { $actions } actions
        }. Press c to go on with it; Enter begins another.
       *[other] { $count } rehearsals wait to be gone on with. Press c to choose one; Enter begins another.
    }
screens-start-requires = Do this first: { $modules }.
screens-start-size = { $steps } steps. At the bench at least { $time }; here it goes faster, because nobody waits for a machine.
screens-start-take = rehearse
screens-start-read = read it through
screens-start-go-on = go on
    .long = go on with the rehearsal that broke off
screens-start-debrief = last debrief
    .long = read the debrief of the rehearsal that was handed over last
screens-start-no-debrief = No rehearsal of this workflow has been handed over yet.
screens-start-about = Choose a workflow. Read it through first: one page per step, with reasons, limits and protection. Then rehearse it on a simulated bench. Nothing that is done here is evidence that anybody is competent; it is practice.

## Several rehearsals that wait

screens-waiting-title = { $module }: rehearsals that wait
screens-waiting-question = Which one do you want to go on with?
screens-waiting-row =
    { $count ->
        [one] begun { $begun }, { $count } action done, { $help }, case number { $seed }
       *[other] begun { $begun }, { $count } actions done, { $help }, case number { $seed }
    }
screens-waiting-about = Every rehearsal that was left before it was handed over, the latest first. Enter goes on with it where it stood. None of them is lost when another one is begun.

## Before a rehearsal

screens-setup-title = { $module }: before the rehearsal
screens-setup-question = How do you want to rehearse? Enter begins as it stands.
screens-setup-help = Help
screens-setup-guided = guided
screens-setup-prompted = prompted
screens-setup-unaided = unaided
screens-setup-profile = Process profile
screens-setup-profile-missing = { $profile } (not on this machine)
screens-setup-profile-faulty = { $profile } (faulty)
screens-setup-drawn = drawn for you
screens-setup-disturbances = Things come in between
screens-setup-disturbed = as in life
screens-setup-undisturbed = no
screens-setup-kept = Keep the rehearsal
screens-setup-seed = Case number
screens-setup-without = To rehearse all the same, set "Keep the rehearsal" to no.
screens-setup-begin = begin
screens-setup-change = change
screens-setup-about-guided = Guided: the next step, its reason, its limits and its protection stand on the screen. Begin with this.
screens-setup-about-prompted = Prompted: you decide what comes next. Help comes when you ask for it, and a wrong move is explained at once.
screens-setup-about-unaided = Unaided: no help and no remark before the debrief. This shows what you can do alone.
screens-setup-about-profile = Whose times and temperatures hold. common-practice is the shipped set; others are your laboratory's own.
screens-setup-about-case = What varies from case to case. As drawn: you find out when it begins, as with a ticket.
screens-setup-about-disturbances = As in life: now and then something comes up that you have to answer, or that needs no answer.
screens-setup-about-undisturbed = Nothing comes up around you. Good for the first time; the bench is never so kind.
screens-setup-about-unkept = Nothing is written to the disk. A rehearsal that is left, or broken off by a power cut, is gone.
screens-setup-about-kept = Every step is written to the disk as it is done. You can leave at any time and go on later, also after a power cut.
screens-setup-about-seed = The same number gives the same case and the same bench. Leave it empty for a new case, or type digits to repeat one.
screens-setup-helped-counts-not = With help it stands in the record as practice and counts towards no sign-off: only clean unaided rehearsals do.
screens-setup-unkept-counts-not = A rehearsal that is not kept is not written into the record and counts towards no sign-off.
screens-setup-about = Everything can stay as it is: Enter begins a guided rehearsal of a case that is drawn for you. Change a row with the arrow keys.

## Reading through

screens-reading-sign = I have read it
    .long = sign that you have read this revision to its end
screens-reading-other = ! This text is revision { $here }. The laboratory works by revision { $adopted }, another text: what you sign as read is that one, not this.
screens-reading-last = This is the last step. You have not signed yet that you have read revision { $revision }: s opens the form.
screens-reading-title = { $module }: step { $number } of { $all }
screens-reading-title-overview = { $module }: overview, { $all } steps follow
screens-reading-turn = turn the page
screens-reading-on = read on
screens-reading-contents = contents
screens-reading-look-for = look for words
screens-reading-again = next place
screens-reading-open = open
screens-reading-find = find
screens-reading-search = Look for:
screens-reading-not-found = No page holds "{ $sought }".
screens-reading-about = One page per step: why it is done, what good looks like, its limits for this case, its protection, and what goes wrong. Space reads on through everything.

## A rehearsal under way

screens-sitting-title = { $clock }  { $module } ({ $help })
screens-sitting-status = Worn: { $worn }. Running: { $running }.
screens-sitting-on = { $item } { $time }
screens-sitting-nothing = nothing
screens-sitting-begin = The bench is before you. Choose a place by its capital letter, then what to do there by its small letter. The clock at the top left is the clock of the bench.
screens-sitting-torn = The last line of the kept run had been cut off. It had not been confirmed; do it again.
screens-sitting-guide = The guide says
screens-sitting-seen = What can be seen
screens-sitting-unanswered = ! Something waits for an answer. Press the key !
screens-sitting-protection = Protection
screens-sitting-time = Time and end
screens-sitting-look = Look at everything
screens-sitting-wait = Let time pass
screens-sitting-finish = Hand the work over
screens-sitting-abandon = Give the run up
screens-sitting-put-on = Put on: { $item }
screens-sitting-change = Put on fresh: { $item }
screens-sitting-take-off = Take off: { $item }
screens-sitting-switch-on = Switch on: { $item }
screens-sitting-switch-off = Switch off: { $item }
screens-sitting-done = (done)
screens-sitting-done-at = ({ $done } of { $all })
screens-sitting-go-on = Go on working
screens-sitting-ask = At the bench
screens-sitting-came-up = What do you do?
screens-sitting-leave-kept = Leave the bench? The rehearsal is kept. Press c on the first screen to go on with it.
screens-sitting-leave-unkept = Leave the bench? This rehearsal is not kept, so it would be gone.
screens-sitting-stay = Stay at the bench
screens-sitting-leave = Leave, and go on another time
screens-sitting-leave-lose = Leave, and lose it
screens-sitting-finish-sure = Hand the work over? The debrief comes next; nothing can be done after it.
screens-sitting-abandon-sure = Give the run up? It then counts as given up, and the debrief comes next.
screens-sitting-no-longer-kept = The rehearsal goes on, but from here on it is no longer kept.
screens-sitting-no-page = Only steps have a page. Choose one, then press Tab.
screens-sitting-wait-how = How long? Type it, like 90 s or 2 min, and press Enter.
screens-sitting-wait-until = Or leave it empty and choose what to wait for:
screens-sitting-sign-never = Something that has to come before it is missing. Look at everything to see how things stand.
screens-sitting-find = Find something to do
screens-sitting-found = { $what } ({ $station })
screens-sitting-at = Where: { $places }
screens-sitting-answered = { $question } { $option }
screens-sitting-where = Where? Mark one place or several, then press Enter.
screens-sitting-where-one = Where? Its time is kept by hand, so one place at a time. Mark it, then press Enter.
screens-sitting-timer = Set the timer. How long? Type it, like 90 s or 2 min, and press Enter.
screens-sitting-count = Count in your head: Space starts, Space stops. No clock is shown. Where a unit has a timer, use it in the laboratory.
screens-sitting-counting = Counting. Space stops.
screens-sitting-no-clock = …
screens-sitting-watch = Watch it: Space starts, Space ends it. The bench runs { $speed } times as fast as the clock on the wall.
screens-sitting-watching = Watch for the sign. Space ends it.
screens-sitting-minute = minute hand
screens-sitting-judge = Go on until it looks right: Space goes on for { $portion }, Enter leaves it as it is.
screens-sitting-so-far = So far { $clock } on the bench.
screens-sitting-key-do = do it
    .long = do what is chosen
screens-sitting-key-place = place
    .long = choose a place by its capital letter; ←→ go from place to place
screens-sitting-key-move = do
    .long = do what stands behind this letter; ↑↓ choose, Enter does it
screens-sitting-key-hint = hint
    .long = ask what comes next, or put the answer away
screens-sitting-key-read = page
    .long = open the page of the chosen step; Esc comes back
screens-sitting-key-find = find
    .long = find something to do by a word of it
screens-sitting-key-leave = leave
    .long = leave the bench; it is asked how
screens-sitting-key-answer = answer
screens-sitting-key-wait = wait
screens-sitting-key-go = go there
screens-sitting-key-take = take it
screens-sitting-key-mark = mark
screens-sitting-key-all = all
screens-sitting-key-set = set
screens-sitting-key-start = start
screens-sitting-key-stop = stop
screens-sitting-key-portion = go on
screens-sitting-key-enough = enough
screens-sitting-key-as-before = as last time
    .long = answer the rest as the last time
screens-sitting-about = The bench. On the left every place with everything that can be done there, the right things and the tempting ones. A capital letter chooses a place, a small letter does what stands behind it; arrow keys and Enter do the same. On the right stands what came of it, what the guide says, and what can be seen. What you wear and what runs stands at the top.

## The debrief

screens-debrief-title = Debrief, not clean: { $module }, case number { $seed }
screens-debrief-title-clean = Debrief, clean: { $module }, case number { $seed }
screens-debrief-recorded = Written down as practice of { $who }: entry { $entry }.
screens-debrief-helped-counts-not = It counts towards no sign-off, because it was rehearsed with help: only clean unaided rehearsals do.
screens-debrief-outcome = Outcome
screens-debrief-findings = Findings ({ $count })
screens-debrief-figures = Figures
screens-debrief-rest = More
screens-debrief-no-figures = There is nothing to draw: no timed part of this rehearsal was done, nothing was washed, warmed or lit.
screens-debrief-nothing = Nothing was found that should have gone another way.
screens-debrief-no-page = This finding is about no single step, so there is no page to open.
screens-debrief-saved = Saved as text and for machines:
screens-debrief-key-findings = the findings
screens-debrief-key-page = the step's page
screens-debrief-key-tab = part
    .long = to the next part of the debrief; 1 to 4 choose one
screens-debrief-key-again = again
    .long = rehearse the same case again
screens-debrief-key-new = new case
    .long = rehearse another case
screens-debrief-key-save = save
    .long = save the debrief as text and for machines
screens-debrief-about = What happened, why it matters and what to do next time come first. Then each finding with what followed from it; Enter opens the page of its step. Then the figures, and what else there is to know.
