# The command line: help, wrong usage, failures.
#
# A command is a message with the attributes `about`, `usage` and `after`, and one for each argument of its own.
# Lines of `after` should stay within 80 columns.

cli-heading-usage = Usage:
cli-heading-commands = Commands
cli-heading-arguments = Arguments
cli-heading-options = Options

# Arguments that several commands share.
cli-option =
    .help = Print this help
    .version = Print the version
    .id = Id of a module, such as stock-teeth
    .case = Choices of the case card, such as teeth=14,wash=orbital
    .profile = Process profile: a name, or a YAML file. Without it: the shipped one, which is common practice and no laboratory's own
    .json = Print the answer for machines, as JSON
    .light = Dark letters on a light ground, for the screens
    .ascii = Only ASCII for lines and figures on the screens
    .data = Folder for data. Without it: the one the system names for a person's data

cli-drybench =
    .about = Learn and rehearse the work of a dental laboratory.
    .usage =
        drybench [OPTIONS]
               drybench COMMAND [OPTIONS]
    .after =
        Without a command the screens open: everything is reached from there.
        The same in plain lines, one after the other:
          drybench read wet-resin-and-solvent
          drybench rehearse wet-resin-and-solvent
          drybench rehearse stock-teeth

        Exit status: 0 done, 1 something was found or failed, 2 wrong usage.
        Results go to standard output, messages to standard error.

        { caution-others-come-first }

cli-module =
    .about = Work with learning modules
    .usage = drybench module COMMAND [OPTIONS]
    .after = A module is a YAML file that teaches one workflow.

cli-check =
    .about = Check modules and tell everything that is wrong with them
    .usage = drybench module check [PATH|ID…] [--json]
    .after =
        Every problem is printed with file, line and column.
        Exit status: 0 nothing wrong, 1 problems found, 2 wrong usage.
    .wanted = Module files, folders of them, or ids of shipped modules. Without any: every shipped module

cli-show =
    .about = Show a module and the plan it gives for one case card
    .usage = drybench module show ID [OPTIONS]
    .after = { caution-others-come-first }

cli-read =
    .about = Read through a module, step by step, with the reasons
    .usage = drybench read ID [OPTIONS]
    .after = { caution-others-come-first }
    .step = Read this step only

cli-rehearse =
    .about = Rehearse a workflow on the simulated bench and read the debrief
    .usage = drybench rehearse ID [OPTIONS]
    .after =
        A script holds one line per action, as typed in a rehearsal; it never waits
        in real time. A run that is left before its end is abandoned.
        Exit status: 0 clean, 1 not clean or abandoned, 2 wrong usage or a line of
        the script that is not understood.

        { caution-teaching-model }
        { caution-others-come-first }
    .level = How much is said on the way: guided (without --level), prompted, or unaided
    .seed = Draw the case card and the disturbances from this number. Without it: a fresh one, which is printed
    .disturbances = drawn (from the seed, without --disturbances), none, or ids of disturbances
    .script = Take the actions from a file of plain lines
    .replay = Take a saved run and grade it again
    .resume = Go on with the run that was broken off

cli-wrong-unknown-option = unknown argument { $argument }
cli-wrong-unknown-command = unknown command { $command }
cli-wrong-value = { $value } will not do for { $argument }
cli-wrong-no-value = { $argument } needs a value
cli-wrong-missing = missing: { $arguments }
cli-wrong-no-command = missing: a command
cli-wrong-together = { $argument } and { $other } can not be used together
cli-wrong-no-text = an argument is no readable text
cli-wrong-otherwise = the arguments can not be understood
cli-hint-similar = hint: did you mean { $similar }?
cli-hint-help = hint: add --help to a command to see what it takes

cli-failure-not-there =
    { $command } is not built yet
    hint: --help shows what it will take
cli-failure-not-written =
    could not write the results: { $reason }
    hint: make room, or send the results somewhere else

cli-hint = hint: { $fix }
cli-problem-at = { $at }: { $what }
cli-warning-at = { $at }: warning: { $what }
cli-more-problems =
    { $count ->
        [one] And { $count } more problem.
       *[other] And { $count } more problems.
    }
cli-known = There are: { $known }.
cli-no-such-module = There is no module { $found }.
cli-no-terminal = The screens need a terminal for input and output, and here is none.
    .fix = hint: use plain lines, for example drybench rehearse stock-teeth; drybench --help names all commands
cli-terminal-refused = The terminal cannot be used for the screens: { $reason }
    .fix = hint: use plain lines, for example drybench rehearse stock-teeth
cli-terminal-broken = The terminal broke off: { $reason }
    .fix = A rehearsal that was under way is kept. Start again and press c to go on with it.
cli-no-modules =
    There is no module in { $path }.
    hint: name a folder with YAML files of modules
cli-too-many-files =
    There are { DEC($count) } files of modules in { $path }; no more than { DEC($most) } are checked.
    hint: name a folder that holds fewer, or its folders one by one
cli-no-such-profile = There is no profile { $found }.
cli-no-such-disturbance = The module has no disturbance { $found }.
    .fix = There are: { $known }.
cli-no-run = Line { $line } is no part of a saved run: { $why }
    .fix = Name the file that a rehearsal said it was kept in.
cli-damaged-run = hint: move the file elsewhere to take up an earlier run, or leave --resume out to start one
cli-empty-run = There is no saved run in it.
    .fix = Name the file that a rehearsal said it was kept in.
cli-other-run =
    The saved run is one of { $found }, not of { $wanted }.
    hint: name { $found } before --replay
cli-newer-format = The run was saved by a newer program (format { $format }). It is untouched.
    .fix = Use that program, or a newer one.
cli-other-module = The run was made on revision { $saved } of the module; here is revision { $shelf }, and its content differs. The run is untouched.
    .fix = Replay it with the module it was made on.
cli-nothing-to-resume =
    There is no run of { $module } to take up again.
    hint: leave --resume out to start one

cli-machine-missing = { $path } is not there.
cli-machine-too-long = { $path } is longer than { DEC($limit) } bytes.
cli-machine-not-text = { $path } is no text.
cli-machine-input = What was typed
cli-machine-not-read = { $path } could not be read: { $reason }
cli-machine-not-written = { $path } could not be written: { $reason }
cli-machine-not-confirmed = { $path } is written, but the machine does not confirm it: { $reason }
cli-machine-in-use = { $path } is held by another program.
cli-machine-several-lines = { $path } takes one line at a time.
cli-machine-no-home = The system names no folder for a person's data.
cli-kept-everything = Nothing was changed.
cli-kept-earlier-lines = Everything before is kept; the last action is not.
cli-kept-new-or-old = The new content is there; after a power cut it could be the old one.
cli-kept-look-again = The last action may be kept or not. --resume tells.
cli-remedy-check-path = hint: check the path
cli-remedy-make-room = hint: make room on the disk
cli-remedy-allow-or-move = hint: allow it, or choose another place
cli-remedy-other-file = hint: choose another file
cli-remedy-close-other = hint: end the other program
cli-remedy-name-folder = hint: name a folder with --data
cli-remedy-resume = hint: a rehearsal that broke off goes on with --resume
cli-remedy-try-again = hint: try again; if it stays so, look at the disk

cli-checked = { $file }: { $problems ->
        [0] no problem
        [one] { $problems } problem
       *[other] { $problems } problems
    }, { $warnings ->
        [0] no warning
        [one] { $warnings } warning
       *[other] { $warnings } warnings
    }
cli-check-card = Case card
cli-check-tasks = Tasks
cli-check-hands-on = Hands on
cli-check-chain = Longest chain
cli-check-least = Least
cli-check-greatest = Greatest
cli-check-path = The longest chain for { $card }: { $steps }.
cli-check-path-any = The longest chain: { $steps }.
cli-check-any-card = any

cli-show-plan = The plan
cli-show-task = Task
cli-show-station = Station
cli-show-time = Time
cli-show-after = After
cli-show-window = { $least } to { $most }

cli-read-on = Enter for the next page, q to leave:
