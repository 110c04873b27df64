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
    .profile = Process profile: a YAML file, or the name of one in modules/profiles of the folder for data. Without it: the shipped one, which is common practice and no laboratory's own
    .json = Print the answer for machines, as JSON
    .light = Dark letters on a light ground, for the screens
    .ascii = Only ASCII for lines and figures on the screens
    .data = Folder for data. Without it: the one the system names for a person's data
    .as = Who signs: a code, or a part of a name that fits one person only
    .reason = Why, in one line
    .passphrase-fd = Read passphrases from this open file, one a line, instead of the terminal
    .happened = When it happened, as in 2026-03-03 or "2026-03-03 10:40". Without it: now
    .person = Whom it is about: a code, or a part of a name that fits one person only
    .workflow = The workflow, as in stock-teeth
    .scope-profile = The process profile: the shipped one, or the name of one in modules/profiles of the folder for data. Without it: the one that the person has, or the shipped one
    .wash = The wash unit, as in ultrasonic
    .cure = The curing unit, as in two-sides
    .revision = The revision. Without it: the one in force
    .on = As of the end of this day. Without it: now
    .as-recorded = Count only what had been written down by the end of this day. Without --on: also as of it
    .evidence = The entries that it rests on
    .proof = A document that shows it; it is kept beside the record
    .entry = An entry, as in front-desk/12, or the first digits of its seal

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
    .about = Check modules and process profiles and tell everything that is wrong with them
    .usage = drybench module check [PATH|ID…] [--data DIR] [--json]
    .after =
        Every problem is printed with file, line and column.
        Exit status: 0 nothing wrong, 1 problems found, 2 wrong usage.
    .wanted = Files of modules, folders of them, ids of modules or names of process profiles. Without any: every shipped module

cli-show =
    .about = Show a module and the plan it gives for one case card
    .usage = drybench module show ID [OPTIONS]
    .after = { caution-others-come-first }

cli-board =
    .about = Say what there is to do for a person: what waits for a signature, who is ready, due or lapsed, what is missing
    .usage = drybench board PERSON [OPTIONS]
    .after = { caution-others-come-first }

cli-demo =
    .about = Open the screens on a fresh copy of the invented demonstration laboratory, which is thrown away afterwards
    .usage = drybench demo [OPTIONS]
    .after = { caution-others-come-first }

cli-practise =
    .about = Open the screens on the dry bench, without a record
    .usage = drybench practise [OPTIONS]
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
    .as = Whose practice it is: a code, or a part of a name that fits one person only. It becomes an entry of the record
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
cli-too-many-files = There are { DEC($count) } files of modules in { $path }; no more than { DEC($most) } are read, so none was.
    .fix = a folder that holds fewer, or its folders one by one
cli-module-twice = Several files give the module { $id }: { $files }. None of them is used.
    .fix = keep one of them; give another workflow another id
cli-no-such-profile = There is no profile { $found } here.
    .fix = there are { $known }; a laboratory's own lie as NAME.yaml in modules/profiles of the folder for data; one that lies on another workstation has to be copied there
cli-profile-gone = There is no profile { $found } here, and the run was made under it. The run is untouched.
cli-profile-of-shipped-name = { $file } has the name of a shipped profile, { $name }. The record names profiles, and one name must not mean two sets of numbers; so neither is used.
    .fix = give the file, and the id in it, a name of its own
cli-profile-of-other-name = The profile calls itself { $id }, and its file is called { $name }.
    .fix = give both one name; a set of other numbers gets a new one
cli-profile-twice = Several files are the profile { $name }: { $files }. None of them is used.
    .fix = keep one of them; a set of other numbers gets another name
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
cli-other-numbers = The run was made under other numbers than the profile { $profile } has here. The run is untouched.
    .fix = Bring back the numbers it was made under. Numbers that change make a new profile, with a name of its own.
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

# The record. Arguments that several of its commands share are attributes of cli-option.

cli-lab =
    .about = The laboratory's record: open one, see what it is
    .usage = drybench lab COMMAND [OPTIONS]
    .after = The record stands in the folder laboratory inside the folder for data.

cli-lab-open =
    .about = Open a record, with you as its owner
    .usage = drybench lab open --name TEXT --owner TEXT [OPTIONS]
    .after = You are asked for a passphrase, twice. Nobody can look it up or reset it.
    .name = What the laboratory is called
    .owner = Your name, as it is printed beside your signature
    .workstation = A name for this workstation, of small letters, digits and hyphens. Without it: front-desk

cli-lab-show =
    .about = Say what the record is
    .usage = drybench lab show [OPTIONS]
    .after = { "" }

cli-lab-demonstration =
    .about = Write the demonstration into a folder: an invented laboratory to try things on
    .usage = drybench lab demonstration --data DIR [OPTIONS]
    .after = Nobody in it exists. Its keys are refused in every other laboratory.

cli-person =
    .about = People: who joins, leaves, may do what
    .usage = drybench person COMMAND [OPTIONS]
    .after = Names stand in a register of their own. The record holds codes.
    .authority = own, administer, train, assess, approve, publish or quality
    .workflow = Only for this workflow. Without it: for every one

cli-person-add =
    .about = Have a person join
    .usage = drybench person add --name TEXT --as PERSON [OPTIONS]
    .after = { "" }
    .name = The name as it is printed

cli-person-list =
    .about = List who is here, and who may do what
    .usage = drybench person list [OPTIONS]
    .after = { "" }
    .all = Those who left too

cli-person-leave =
    .about = Write down that a person left
    .usage = drybench person leave PERSON --as PERSON [OPTIONS]
    .after = Keys, rights and sign-offs of the person end. Nothing is deleted.

cli-person-grant =
    .about = Give a person a right
    .usage = drybench person grant PERSON AUTHORITY... --as PERSON [OPTIONS]
    .after = { "" }

cli-person-revoke =
    .about = Take a right back
    .usage = drybench person revoke PERSON AUTHORITY --as PERSON [OPTIONS]
    .after = { "" }

cli-person-rename =
    .about = Print another name from now on
    .usage = drybench person rename PERSON --name TEXT --as PERSON [OPTIONS]
    .after = { "" }

cli-person-erase =
    .about = Forget the names of a person who left, for good
    .usage = drybench person erase PERSON --as PERSON [OPTIONS]
    .after =
        How long names have to be kept, and when they have to go, is for local law.
        Copies that were made before still hold them.

cli-key =
    .about = Keys to sign with, and their passphrases
    .usage = drybench key COMMAND [OPTIONS]
    .after = A key file opens with its passphrase in common tools too: openssl pkey -in FILE

cli-key-issue =
    .about = Issue a key to a person
    .usage = drybench key issue PERSON --identity TEXT --as PERSON [OPTIONS]
    .after =
        Two people sit here: whoever issues it, and the person, who chooses a passphrase.
        A key in the place of an earlier one takes the signature of a third.
    .identity = How you made sure who the person is

cli-key-accept =
    .about = Sign that what is signed with your key binds you
    .usage = drybench key accept PERSON [OPTIONS]
    .after = { "" }

cli-key-passphrase =
    .about = Change the passphrase of your key
    .usage = drybench key passphrase PERSON [OPTIONS]
    .after = { "" }

cli-key-lost =
    .about = Write down that a key is lost, or that somebody else may know its passphrase
    .usage = drybench key lost PERSON --as PERSON [OPTIONS]
    .after = Nothing can be signed with it from then on. What was signed before stays.

cli-policy =
    .about = The laboratory's own numbers
    .usage = drybench policy COMMAND [OPTIONS]
    .after = { "" }

cli-policy-show =
    .about = Show the numbers in force
    .usage = drybench policy show [OPTIONS]
    .after = { "" }

cli-policy-set =
    .about = Set other numbers
    .usage = drybench policy set --reason TEXT --as PERSON [OPTIONS]
    .after = What is left out stays as it is.
    .due-days = So many days before its end a sign-off is due
    .grace-days = So many days after its end it lapses
    .late-hours = An entry made more than so many hours later is late and needs a reason
    .independence = independent, or no-independent-assessor for a laboratory of one person. Every report prints that

cli-adopt =
    .about = Adopt the revision of a workflow that a module is
    .usage = drybench adopt ID --reason TEXT --as PERSON [OPTIONS]
    .after = It holds once a second person has signed it too. The revision in force can be adopted again with other numbers: they hold for later sign-offs, and those that were given before stay as they are.
    .id = Id of a module, shipped or from your own folder, or the file of one
    .effective = From which day on. Without it: from now on
    .impact = none, awareness, retrain or re-assess for those who were signed off before. Without it: re-assess, or what was decided where the revision is adopted again
    .clean-rehearsals = How many clean unaided rehearsals a first sign-off asks for, 0 for none. Without it: as the module says, and so for those below
    .clean-days = On how many different days, never more than rehearsals
    .supervised-cases = How many supervised cases found acceptable
    .observed = How many observed runs, one at least
    .assessors = By how many assessors, one at least
    .clean-in-a-row = How many of the last runs were clean, one after the other
    .valid-months = For how many months sign-offs hold, the first and then later ones: 6,12,12
    .renewal-observed = How many observed runs a later sign-off asks for. A module says nothing of it: without it 1, and so for the two below
    .renewal-assessors = By how many assessors, one at least
    .renewal-clean-in-a-row = How many of the last runs were clean, one after the other
    .effect-check-days = Between which days after a sign-off it is asked whether training worked: 30,90. 0: it is not asked

cli-retire =
    .about = Write down that a workflow is no longer done
    .usage = drybench retire WORKFLOW --reason TEXT --as PERSON [OPTIONS]
    .after = { "" }

cli-assign =
    .about = Record that a person is to be able to do a workflow
    .usage = drybench assign PERSON WORKFLOW --as PERSON [OPTIONS]
    .after = { "" }

cli-confirm =
    .about = Confirm that you have read a revision, or know what changed
    .usage = drybench confirm COMMAND [OPTIONS]
    .after = { "" }

cli-confirm-read =
    .about = Confirm that you have read a revision
    .usage = drybench confirm read WORKFLOW --as PERSON [OPTIONS]
    .after = { "" }

cli-confirm-change =
    .about = Confirm that you have taken note of what changed
    .usage = drybench confirm change WORKFLOW --as PERSON [OPTIONS]
    .after = { "" }

cli-train =
    .about = Write down that you trained a person
    .usage = drybench train PERSON WORKFLOW --as PERSON [OPTIONS]
    .after = { "" }
    .language = In which language, as in en-us

cli-protection =
    .about = Write down that a person showed you how to protect themself
    .usage = drybench protection PERSON WORKFLOW --as PERSON [OPTIONS]
    .after = { caution-others-come-first }

cli-supervise =
    .about = Name yourself as the supervisor of a person for a while
    .usage = drybench supervise PERSON WORKFLOW --until TIME --as PERSON [OPTIONS]
    .after = { "" }
    .from = From when on. Without it: from now on
    .until = Until when, at most a quarter of a year

cli-check-case =
    .about = Write down that you checked a case of the person you supervise
    .usage = drybench check-case PERSON WORKFLOW --case ID --as PERSON [OPTIONS]
    .after = { "" }
    .case = The id of the case. Never a patient's name
    .judgement = acceptable or not-acceptable

cli-observe =
    .about = An observed run, tapped at the bench or from a sheet
    .usage = drybench observe COMMAND [OPTIONS]
    .after =
        A dangerous act in a real run is stopped, not noted.
        { caution-others-come-first }

cli-observe-sheet =
    .about = Print an empty observation sheet
    .usage = drybench observe sheet ID
    .after =
        Print it for the bench, or write it into a file and fill that in.
        { caution-others-come-first }

cli-observe-enter =
    .about = Enter a filled sheet
    .usage = drybench observe enter FILE --as PERSON [OPTIONS]
    .after = { "" }
    .sheet = The filled sheet
    .module = The file of the module that was worked by, where it is neither shipped nor in your own folder

cli-observe-run =
    .about = Watch somebody at a real case, with the clock, and sign what was seen
    .usage = drybench observe run WORKFLOW PERSON --case-ref REF --as PERSON [OPTIONS]
    .after =
        One line per tap, from the keyboard or a pipe; "help" lists them. Each is
        kept before it is acknowledged, and --resume goes on after a power cut.
        What the clock and the order say is told and decides nothing: you judge.
        Exit status: 0 signed, or left with quit; 1 not signed; 2 wrong usage.

        A dangerous act in a real run is stopped, not noted.
        { caution-others-come-first }
    .case-ref = Which case: small letters, digits and hyphens
    .lot = A lot number, or which equipment; may stand several times
    .method = In which way it is watched; without --method: direct, at a real case
    .resume = Go on with the last run of this workflow and person that is not signed

cli-evaluate =
    .about = Write down whether training worked
    .usage = drybench evaluate PERSON WORKFLOW --effect WORD --as PERSON [OPTIONS]
    .after = { "" }
    .stage = at-assessment, or later at work
    .effect = effective or not-effective

cli-sign-off =
    .about = Sign a person off for a workflow
    .usage = drybench sign-off PERSON WORKFLOW --as PERSON [OPTIONS]
    .after = It rests on the assessments since the last sign-off, unless --evidence names others.
    .from = From when it holds. Without it: from the signature on, never before
    .first-assessor = external-training, validation-work or maker-training: nobody here could assess yet
    .outside = observation or blind-sample: a laboratory of one person
    .assessor = The name of the assessor from outside

cli-suspend =
    .about = Stop a person in a workflow, at once
    .usage = drybench suspend PERSON WORKFLOW --reason TEXT --as PERSON [OPTIONS]
    .after = { "" }
    .allowed = nothing, or supervised

cli-reinstate =
    .about = Let a suspended person work again
    .usage = drybench reinstate PERSON WORKFLOW --as PERSON [OPTIONS]
    .after = It counts once a second person has signed it too.
    .suspension = The suspension that ends. Without it: the one that holds

cli-withdraw =
    .about = End what a person is signed off for
    .usage = drybench withdraw PERSON WORKFLOW --reason TEXT --as PERSON [OPTIONS]
    .after = Only a new need and the whole path lead back.

cli-call-in =
    .about = Write down that a person has to be assessed again
    .usage = drybench call-in PERSON WORKFLOW --cause WORD --as PERSON [OPTIONS]
    .after = { "" }
    .cause = complaint, equipment, trend or absence

cli-correct =
    .about = Put one member of an entry right
    .usage = drybench correct ENTRY MEMBER --reason TEXT --as PERSON [OPTIONS]
    .after = The entry stays as it is, and is read with the new value.
    .member = The member, as drybench record show names it with --json
    .to = The new value. Without it: none

cli-void =
    .about = Declare that an entry should not have been made
    .usage = drybench void ENTRY --reason TEXT --as PERSON [OPTIONS]
    .after = It stays in the record, struck through, and counts for nothing.

cli-countersign =
    .about = Sign second, or take note of an entry about you
    .usage = drybench countersign ENTRY --as PERSON [OPTIONS]
    .after = { "" }
    .meaning = approved, reviewed or acknowledged. Without it: approved

cli-technician =
    .about = Show what the record says about a person
    .usage = drybench technician PERSON [OPTIONS]
    .after = As now known, unless --as-recorded asks for what had been written down by then.

cli-matrix =
    .about = Show who may do what
    .usage = drybench matrix [OPTIONS]
    .after = As now known, unless --as-recorded asks for what had been written down by then.
    .all = Those who left too

cli-record =
    .about = The entries themselves: list, show, verify, copy
    .usage = drybench record COMMAND [OPTIONS]
    .after = { "" }

cli-record-list =
    .about = List entries
    .usage = drybench record list [OPTIONS]
    .after = { "" }
    .whom = Only those about or by this person
    .workflow = Only those about this workflow
    .kind = Only those of this kind, as in signed-off
    .from = Only what happened on this day or later
    .until = Only what happened on this day or earlier

cli-record-show =
    .about = Show one entry in full, with its history
    .usage = drybench record show ENTRY [OPTIONS]
    .after = { "" }
    .bytes = Print the stored bytes instead

cli-record-verify =
    .about = Verify everything that is stored
    .usage = drybench record verify [OPTIONS]
    .after =
        Shows alteration, within stated limits; the limits are printed.
        Exit status: 0 nothing found, 1 something found, 2 wrong usage.

cli-record-copy =
    .about = Copy record, remembered heads, register, keys and attachments to a new folder
    .usage = drybench record copy DIR [OPTIONS]
    .after = The copy is looked through before it is called one. Not in it: modules of your own and runs that are kept; they lie in the folder for data.
    .to = A folder that is not there yet

cli-record-restored =
    .about = Declare that an older copy was put back and entries are lost
    .usage = drybench record restored --reason TEXT --as PERSON [OPTIONS]
    .after = { "" }

cli-no-passphrase = A passphrase is needed, and nobody can be asked for it here.
    .fix = hint: run it at a terminal, or give --passphrase-fd the number of an open file that holds it on a line
cli-not-signed = No passphrase was typed. Nothing was signed and nothing written.
cli-passphrases-differ = The two passphrases differ. Nothing was done.
cli-copy-taken = There is something at { $path } already. Nothing is ever overwritten.
cli-copy-differs = The copy at { $path } was not what was copied, and was taken away again.
