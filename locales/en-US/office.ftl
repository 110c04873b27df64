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
screens-who-nobody = Nobody with a key is called that.
screens-who-take = this person
screens-passphrase = Passphrase of { $person }:
screens-passphrase-hidden = What is typed does not show. Esc goes back without signing.
screens-passphrase-open = In the demonstration it is: { $passphrase }. Tab types it for you.
screens-passphrase-fill = type it for me
screens-sign-in-title = Who is here?
screens-sign-in-first = Sign in to see your board and have practice counted as yours. Signing in signs nothing: each signature asks again.
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
