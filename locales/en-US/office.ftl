# The screens of the laboratory's record, `screens-…`.

## The bar at the top

screens-bar = { $here ->
    [somebody] { $name } · { $who }
   *[nobody] { $name }
}
screens-bar-demonstration = { $here ->
    [somebody] DEMONSTRATION, invented · { $who }
   *[nobody] DEMONSTRATION, invented
}

## Who is here

screens-who = Who is it? Type the beginning of a name or code.
screens-who-role = { $person }, { $role }
screens-who-nobody = Nobody with a key is called that.
screens-who-take = this person
screens-passphrase = Passphrase of { $person }:
screens-passphrase-hidden = What is typed does not show. Esc goes back without signing.
screens-passphrase-open = In the demonstration it is: { $passphrase }. Tab types it for you.
screens-passphrase-fill = type it for me
screens-sign-in-title = Who is here?
screens-sign-in-first = Sign in to see your board and have practice counted as yours. Signing in signs nothing: each signature asks again.
screens-sign-in-demonstration = Everything here is invented, and nothing is secret. Choose who you want to be; the passphrase is shown then. Somebody who trains and assesses has the fullest board, a trainee learns, the owner answers to inspectors. All of it is thrown away when you leave.
screens-sign-in-again = Nobody pressed a key for ten minutes. What was open stays as it was; show who you are to go on with it. Somebody else begins at their own board.
screens-sign-in-take = sign in
screens-sign-in-about = Here a person shows who they are, by name or code and passphrase. After several wrong passphrases the next try has to wait, and the record says so.

## Before a signature

screens-signing-title = Before you sign
screens-signing-nobody = Nobody is signed in, so there is nobody to sign. Nothing was recorded. Sign in first.
screens-signing-other = That is another person than the one this was drafted for. It has been drafted anew and is shown again. Nothing is signed yet.
screens-signing-read-on = read on
screens-signing-go-on = I have read it: sign
screens-signing-leave = do not sign
screens-signing-sign = sign
screens-signing-about = This is everything that will be signed, as it will stand in the record for good. Read to the end; then the person who signs and the passphrase are asked for. Esc leaves without a trace.

## The board of the day

screens-board-title = Today, { $day }
screens-board-about = What there is to do today for the person who is signed in: first what waits for a signature, then people for whom something is to be done, then one's own workflows. Enter opens what it is about. The letters below lead to everything else.
screens-board-take = open
screens-board-way = { $key } { $way }
screens-board-nothing = Nothing waits for you. Practise, or look at your file.
screens-board-still = still looking…

screens-way-matrix = who may do what
screens-way-own-file = my file
screens-way-workflows = workflows
screens-way-entries = entries
screens-way-bench-run = watch a case
screens-way-sign = sign something
screens-way-practise = practise
screens-way-verify = verify the record
screens-way-change-person = somebody else

## The first start

screens-welcome-title = Drybench
screens-welcome-greeting = There is no record in this folder yet. What would you like to do?
screens-welcome-take = begin
screens-welcome-demonstration = Look at the demonstration laboratory
    .about = Nine invented people over eighteen months: practice, observed runs, sign-offs, a suspension, a lapsed one. It opens as a fresh copy and is thrown away when you leave. On its first screen it says how to sign in as whom.
screens-welcome-set-up = Set up this laboratory
    .about = Its name, its owner, a passphrase: that opens the record. Workflows, people and rights follow in any order and can wait; the board says what is still missing. Takes a few minutes.
screens-welcome-practise = Practise without a record
    .about = The dry bench for everybody: read, rehearse, see what went wrong. Nothing is written into a record, and nothing counts towards a sign-off.
screens-welcome-about = The first screen where there is no record yet. The demonstration needs nothing; setting up makes a folder for the record; practice can be had at once.

screens-opening-told = { $name }: the record is being read. Practising is possible meanwhile.
screens-opening-about = The record is being read from its folder. Then whoever is here signs in.

screens-founding-title = Set up this laboratory
screens-founding-place = { DEC($at) } of { DEC($of) }
screens-founding-laboratory = What is the laboratory called?
screens-founding-laboratory-about = It stands at the top of every screen and report. In the record itself stands only a commitment to it.
screens-founding-owner = What is the owner's name, as it should be printed?
screens-founding-owner-about = The owner gives everybody else their rights. The name is kept in a register beside the record and can be erased there; in the record stands a code.
screens-founding-workstation = What is this workstation called?
screens-founding-workstation-name = front-desk
screens-founding-workstation-about = Small letters, digits and dashes. Entries that are written here carry this name and a number: front-desk/1.
screens-founding-binds = Your signature binds you. Read this; by going on you agree:
screens-founding-passphrase = Choose a passphrase:
screens-founding-passphrase-about = It opens your key, and nobody can tell you what it was. Four or more words that do not belong together are good. Not your name, not the laboratory's.
screens-founding-again = The same passphrase again:
screens-founding-empty = Nothing was typed yet.
screens-founding-differ = The two passphrases differ. Nothing was recorded. Type both again.
screens-founding-agree = I agree
screens-founding-next = next
screens-founding-open = open the record
screens-founding-then = Next: adopt a workflow, let people join, give them rights and keys. The board says what is still missing; each can wait.
screens-founding-about = These few questions open the record. Esc goes back to the question before; nothing is recorded before the last one.
