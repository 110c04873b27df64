# The screens of the laboratory's record, `office-…`.

## The bar at the top

office-bar = { $here ->
    [somebody] { $name } · { $who }
   *[nobody] { $name }
}
office-bar-demonstration = { $here ->
    [somebody] DEMONSTRATION, invented · { $who }
   *[nobody] DEMONSTRATION, invented
}

## Who is here

office-who = Who is it? Type the beginning of a name or code.
office-who-role = { $person }, { $role }
office-who-likely = Who is it? Enter if it is { $person }; somebody else: type the beginning of a name or code. The passphrase is asked for next.
office-who-nobody = Nobody with a key is called that. A passphrase does not belong here: it is asked for once it is known who it is. Esc goes back.
office-who-take = this person
office-passphrase = Passphrase of { $person }:
office-passphrase-hidden = What is typed shows as dots only. Esc goes back without signing.
office-passphrase-open = In the demonstration it is: { $passphrase }. Tab types it for you.
office-passphrase-fill = type it for me
office-key-opens = Please wait: the key is being opened with the passphrase. That is slow by design, so that nobody can try many of them.
office-sign-in-title = Who is here?
office-sign-in-first = Sign in to see your board and have practice counted as yours. Signing in signs nothing: each signature asks again.
office-sign-in-demonstration = Everything here is invented, and nothing is secret. Choose who you want to be; the passphrase is shown then. Somebody who trains and assesses has the fullest board, a trainee learns, the owner answers to inspectors. All of it is thrown away when you leave.
office-sign-in-again = Nobody pressed a key for ten minutes. What was open stays as it was; show who you are to go on with it. Somebody else begins at their own board.
office-sign-in-take = sign in
office-sign-in-about = Here a person shows who they are, by name or code and passphrase. After several wrong passphrases the next try has to wait, and the record says so.

## Before a signature

office-signing-title = Before you sign
office-signing-nobody = Nobody is signed in, so there is nobody to sign. Nothing was recorded. Sign in first.
office-signing-other = That is another person than the one this was drafted for. It has been drafted anew and is shown again. Nothing is signed yet.
office-signing-read-on = read on
office-signing-go-on = I have read it: sign
office-signing-leave = do not sign
office-signing-sign = sign
office-signing-about = This is everything that will be signed, as it will stand in the record for good. Read to the end; then the person who signs and the passphrase are asked for. Esc leaves without a trace.

## The board of the day

office-board-title = Today, { $day }
office-board-about = What there is to do today for the person who is signed in: first what waits for a signature, then people for whom something is to be done, then one's own workflows. Enter opens what it is about. The letters below lead to everything else.
office-board-take = open
office-board-way = { $key } { $way }
office-board-nothing = Nothing waits for you. Practise, or look at your file.
office-board-runs = { $count ->
    [one] A case that you watch is not signed yet: b goes on with it.
   *[other] { DEC($count) } cases that you watch are not signed yet: b goes on with them.
}
office-board-still = still looking…

office-way-matrix = who may do what
office-way-own-file = my file
office-way-workflows = workflows
office-way-entries = entries
office-way-bench-run = watch a case
office-way-sign = sign something
office-way-practise = practise
office-way-sign-about = sign about it
office-way-verify = verify the record
office-way-change-person = somebody else

## The first start

office-welcome-title = Drybench
office-welcome-greeting = There is no record in this folder yet. What would you like to do?
office-welcome-take = begin
office-welcome-demonstration = Look at the demonstration laboratory
    .about = Nine invented people, one of whom has left, over eighteen months: practice, observed runs, sign-offs, a suspension, a lapsed one. It opens as a fresh copy and is thrown away when you leave. On its first screen it says how to sign in as whom.
office-welcome-set-up = Set up this laboratory
    .about = Its name, its owner, a passphrase: that opens the record. Workflows, people and rights follow in any order and can wait; the board says what is still missing. Takes a few minutes.
office-welcome-again = Try once more to open the record
    .about = Once no other program holds it, or a good copy stands in its place, it opens. Nothing else is set up in this folder while a record is there.
office-welcome-untouched = Nothing that is recorded was changed.
office-welcome-practise = Practise without a record
    .about = The dry bench for everybody: read, rehearse, see what went wrong. Nothing is written into a record, and nothing counts towards a sign-off.
office-welcome-about = The first screen where there is no record yet. The demonstration needs nothing; setting up makes a folder for the record; practice can be had at once.

office-opening-told = { $name }: the record is being read. Practising is possible meanwhile.
office-opening-about = The record is being read from its folder. Then whoever is here signs in.

office-founding-title = Set up this laboratory
office-founding-place = { DEC($at) } of { DEC($of) }
office-founding-laboratory = What is the laboratory called?
office-founding-laboratory-about = It stands at the top of every screen and report. In the record itself stands only a commitment to it.
office-founding-owner = What is the owner's name, as it should be printed?
office-founding-owner-about = The owner gives everybody else their rights. The name is kept in a register beside the record and can be erased there; in the record stands a code.
office-founding-workstation = What is this workstation called?
office-founding-workstation-name = front-desk
office-founding-workstation-about = Small letters, digits and hyphens. Entries that are written here carry this name and a number: front-desk/1.
office-founding-binds = Your signature binds you. Read this; by going on you agree:
office-founding-passphrase = Choose a passphrase:
office-founding-passphrase-about = It opens your key, and nobody can tell you what it was. Four or more words that do not belong together are good, 12 characters at least. Not your name, not the laboratory's.
office-founding-again = The same passphrase again:
office-founding-empty = Nothing was typed yet.
office-founding-differ = The two passphrases differ. Nothing was recorded. Type both again.
office-founding-agree = I agree
office-founding-next = next
office-founding-open = open the record
office-founding-opens = Please wait: your key is being made and locked with the passphrase. That is slow by design, so that nobody can try many passphrases.
office-founding-then = Next: let people join, give them keys and rights (the right to publish is needed to adopt), adopt a workflow. The board says what is still missing; each can wait.
office-founding-about = These few questions open the record. Esc goes back to the question before; nothing is recorded before the last one.

## Real cases that are watched

office-runs-title = Watch a case
office-runs-question = These cases are not signed yet. Go on with one, or watch another.
office-runs-one = { $person }, { $workflow }, case { $case }, begun { $at }: { $taps ->
    [one] { DEC($taps) } tap
   *[other] { DEC($taps) } taps
}
office-runs-another = Watch another case
office-runs-nobody = There is nobody to watch: nobody else is assigned to a workflow. Assign somebody first: s on the board.
office-runs-no-text = There is nobody to watch: others are assigned, but no text of their workflows can be used.
office-runs-refused = { $workflow } ({ $profile })
office-runs-take = go on
office-runs-about = Real cases that you watch and have not signed yet. Each is kept tap by tap, so that nothing is lost when the machine stops.
