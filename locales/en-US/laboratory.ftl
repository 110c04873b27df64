# The laboratory's record in use: who is asked for what, what came of it, why something was not done.

laboratory-accountability = I alone know my passphrase and give it to nobody. What is signed with my key binds me as my signature by hand does.
laboratory-demonstration = DEMONSTRATION, invented. Nobody in it exists; everybody knows its passphrases.
laboratory-demonstration-made = { DEC($entries) } entries over eighteen months, up to { $today }. Sign in as any of these:
laboratory-demonstration-person =
    { $code }  { $name }, { $role }{ $here ->
        [left] {", left"}
       *[here] {""}
    }. Passphrase: { $passphrase }
laboratory-role =
    .owner = owner
    .quality = looks after quality
    .assessor = trains and assesses
    .technician = technician
    .trainee = trainee
laboratory-ask-passphrase = Passphrase of { $person }:
laboratory-ask-new-passphrase = New passphrase of { $person }, 12 characters or more:
laboratory-ask-again = The same once more:
laboratory-signed = Stored: entry { $entry } (seal { $seal }).
laboratory-lagging = The entry is safe. The file that remembers how far the record goes could not be brought up to it; the next entry does that.
laboratory-founded = The record is open. You are its owner, and your code is { $code }. Write it down: it goes with every signature.
laboratory-founded-next = Next: drybench person add --name "…" --as { $code }
laboratory-is =
    { $name }, workstation { $workstation }: { $entries ->
        [one] { $entries } entry
       *[other] { DEC($entries) } entries
    }, { $people ->
        [one] { $people } person
       *[other] { $people } people
    } here.
laboratory-joined = { $person } has joined. The code { $code } stands for this person wherever a name may not stand.
laboratory-renamed = From now on the name is printed so: { $person }. What was signed before keeps the name it was printed with.
laboratory-erase-for-good = The names of { $person } are about to be erased for good. Nothing brings them back. How long they have to be kept is for local law.
laboratory-erased = The names of { $code } are erased for good. Entries about { $code } stay and verify. Copies of the register that were made before still hold the names.
laboratory-person =
    { $person }, { $here ->
        [here] here
       *[left] left
    }, { $key ->
        [yes] has a key
       *[no] has no key
    }{ $count ->
        [0] .
       *[other] . May: { $rights }
    }
laboratory-key-two-people = Two people sit here now: first whoever issues the key, then { $person }, who chooses a passphrase that nobody else sees.
laboratory-key-then-accept =
    It takes the place of an earlier key, so a second person signs it first; until then the earlier one holds.
    Next: drybench countersign { $entry } --as PERSON, then: drybench key accept { $code }
laboratory-passphrase-changed = The key opens with the new passphrase from now on, at this workstation. Copies of the key file that were made before open with the old one.
laboratory-policy = Due { $due } days before the end; { $grace } days of grace; late after { $late } hours; { $independence }.
laboratory-module-faulty = The module cannot be adopted as it is. Nothing was recorded. Mend its file as told below, then try again.
laboratory-several-title = { DEC($count) } entries, one passphrase
laboratory-held-already = { $person } has this right already: { $authority }, in { $has ->
    [workflow] { $workflow }
   *[all] all workflows
}, by { $entry }. Another grant adds nothing.
laboratory-held-still = { $person } keeps this right by another grant: { $authority }, in { $has ->
    [workflow] { $workflow }
   *[all] all workflows
}, by { $entry }. Take that one back too if it is to end.
laboratory-several-about = Each becomes an entry of its own. They are shown one after the other.
laboratory-several-stopped = Then it did not go on; what is told above is recorded and stays. { $why }
laboratory-asks = { $why } Nothing was recorded.
laboratory-departs-title = Otherwise than the module says
laboratory-departs = { $name }: { $adopted }. The module asks for { $text }.
laboratory-departs-from-default = { $name }: { $adopted }. The module says nothing of it; the default is { $text }.
laboratory-departs-never = never
laboratory-departs-why = Whoever adopts answers for that: the reason says what makes up for it.
laboratory-adopted-next = It holds once a second person has signed it too: drybench countersign ENTRY --as PERSON
laboratory-then-second = It counts once a second person has signed it too: drybench countersign ENTRY --as PERSON
laboratory-sheet-title =
    Observation sheet. One line for each step that was watched: done, prompted (after a word), not-done or not-seen.
    Times may follow: done 10:02:10-10:04:20. Lines marked ! are critical: one that was not watched, and the run does not count.
    judgement: acceptable or not-acceptable. ended: as in 2026-03-03T10:40:00+01:00. written: at-the-bench or from-paper.
    A dangerous act in a real run is stopped, not noted. Safety data sheets, makers' instructions and local law come first.
laboratory-steps-left-out = Not on the sheet, so not watched: { $steps }
laboratory-nothing-lost = No entries are missing at the end of any strand, so there is nothing to declare.
laboratory-verified-so-far = { DEC($count) } entries so far …
laboratory-misfiled = { $strand }/{ $number }: the row of the file does not say what its entry says.
laboratory-copied = Copied to { $path } and looked through (digest { $digest }).

laboratory-unknown = Nobody can tell whether the entry with the seal { $seal } was stored.
    .fix = Look for it before you sign again: drybench record list. It is there once or not at all.
    .fix-on-screens = Look among the entries before you sign again. It is there once or not at all.
laboratory-not-opened = There is no record here yet.
    .fix = Open one: drybench lab open --name "…" --owner "…". Or name its folder with --data.
    .fix-on-screens = Open one on the first screen. Or start the program with --data and the folder that the record is in.
laboratory-opened-already = There is a record here already. It is untouched.
    .fix = Name another folder with --data, or go on with this one.
    .fix-on-screens = Go on with this one, or start the program with --data and another folder.
laboratory-cut-off = Entries are missing at the end of { $strand }, from number { $number } on. Nothing is written behind a gap.
    .fix = Where an older copy was put back, say so: drybench record restored --reason "…" --as PERSON. Otherwise put the newest copy back.
    .fix-on-screens = Where an older copy was put back, say so in plain lines: drybench record restored --reason "…" --as PERSON. Otherwise put the newest copy back.
laboratory-no-such-person = Nobody here has the code { $code }.
    .fix = hint: drybench person list names everybody who is here
    .fix-on-screens = Choose somebody who is here.
laboratory-still-here = { $person } is still here. Names are erased after somebody has left and the time for keeping them is over.
    .fix = hint: drybench person leave comes first
    .fix-on-screens = "{ deeds-title.leave }" comes first.
laboratory-no-such-grant = { $person } has no such right: { $authority }.
    .fix = hint: drybench person list shows who may do what
    .fix-on-screens = Choose a right that the person has. Where it was given for one workflow only, name that one.
laboratory-no-key = { $person } has no key to sign with.
    .fix = hint: drybench key issue gives one; whoever issues it makes sure who the person is
    .fix-on-screens = "{ deeds-title.key }" gives one; whoever issues it makes sure who the person is.
laboratory-not-accepted = { $person } has not signed yet that the key binds them. Nothing else can be signed before.
    .fix = hint: drybench key accept { $code }
    .fix-on-screens = The person does that in plain lines, not on the screens: drybench key accept { $code }
laboratory-passphrase =
    The passphrase is wrong. { $times ->
        [one] The try is in the record.
       *[other] It was wrong { $times } times in a row; each try is in the record.
    }
    .fix = Nothing was signed. A key whose passphrase is forgotten is lost: drybench key lost, and a new one.
    .fix-on-screens = Nothing was signed. A key whose passphrase is forgotten is lost: "{ deeds-title.key-lost }", then "{ deeds-title.key }".
laboratory-wait =
    After so many wrong passphrases the next try has to wait: { $seconds ->
        [one] { $seconds } second
       *[other] { $seconds } seconds
    } more.
    .fix = Nothing was signed. Where somebody else has been trying, tell the owner.
laboratory-weak-short = The passphrase is too short: { $least } characters at least.
    .fix = hint: four or five words that do not belong together are long and easy to keep
laboratory-weak-long = The passphrase is too long: { $most } characters at most.
    .fix = hint: a sentence is long enough
laboratory-weak-character = The passphrase holds a character that cannot be typed everywhere, such as a tab.
    .fix = hint: use letters, digits, spaces and marks
laboratory-weak-one-character = The passphrase is one character over and over.
    .fix = hint: four or five words that do not belong together are long and easy to keep
laboratory-weak-name = The passphrase is mainly your name or code, which everybody here knows.
    .fix = hint: four or five words that do not belong together are long and easy to keep
laboratory-weak-well-known = The passphrase is one of those that are guessed first.
    .fix = hint: four or five words that do not belong together are long and easy to keep
laboratory-key-missing = The key is not at this workstation.
    .fix = hint: keys stand in the folder keys of the laboratory; put the file back from a copy
laboratory-key-refused = The passphrase is wrong.
    .fix = Nothing was signed.
laboratory-key-damaged = The key file is damaged. Nothing was signed.
    .fix = hint: put the file back from a copy, or declare the key lost
laboratory-key-other = The key file holds another key than the record knows. Nothing was signed.
    .fix = hint: somebody has exchanged the file; put it back from a copy and tell the owner
laboratory-demonstration-key = That key belongs to the demonstration, and everybody knows its passphrase. It is not issued here.
    .fix = hint: let the program make a new key
laboratory-nothing-adopted = No revision of { $workflow } is adopted yet, signed by two.
    .fix = hint: drybench adopt { $workflow }, then drybench countersign
    .fix-on-screens = "{ deeds-title.adopt }" comes first; then another person: "{ deeds-title.countersign }".
laboratory-no-such-revision = Revision { $revision } of { $workflow } is not adopted.
    .fix = Adopted are: { $known }
laboratory-no-scope = The person has no need recorded for { $workflow } that fits.
    .fix = hint: drybench assign comes first; --profile, --wash and --cure say which
    .fix-on-screens = "{ deeds-title.assign }" comes first.
laboratory-which-scope = The person has { $count } scopes in { $workflow }, and it has to be said which.
    .fix = hint: name it with --profile, --wash, --cure
    .fix-on-screens = Choose which one.
laboratory-no-such-entry = There is no entry { $found }.
    .fix = hint: an entry is named as in front-desk/12, or by the first eight digits or more of its seal; drybench record list shows them
    .fix-on-screens = An entry is named as in front-desk/12, or by the first eight digits or more of its seal; the list of entries shows both.
laboratory-several-entries = Several entries begin with { $found }.
    .fix = hint: give more digits
laboratory-no-profile = The module { $module } does not say what a sign-off asks for.
    .fix = hint: add sign-off to the module
laboratory-bad-module = { $found } cannot stand in the record.
    .fix = hint: ids have small letters, digits and hyphens
laboratory-nobody = Nobody here is called { $found } or has that code.
    .fix = hint: drybench person list names everybody who is here
laboratory-several-people = { $count } people here are called { $found }.
    .fix = hint: give the code, or more of the name
laboratory-no-sheet = That is no observation sheet: { $why }
    .fix = hint: drybench observe sheet prints an empty one
laboratory-newer-sheet = The sheet has format { $format }, which a newer program made.
    .fix = Use that program, or a newer one.
laboratory-sheet-value = On the sheet, { $name } is { $found }, which will not do.
    .fix = It can be: { $known }
laboratory-no-such-step = The workflow has no step { $found }.
    .fix = It has: { $known }
laboratory-step-twice = The sheet names the step { $step } twice.
    .fix = hint: one line for each step
laboratory-not-one-step = A line below steps has to name one step, as in: - first-wash: done
    .fix = hint: drybench observe sheet prints an empty one
laboratory-other-revision = The sheet is of revision { $sheet }, and the module at hand is revision { $shelf }.
    .fix = hint: name the file of the module that was worked by with --module
laboratory-other-workflow = The sheet is of { $found }, which the module at hand is not.
    .fix = hint: name the module with --module
