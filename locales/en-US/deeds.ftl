# Deeds: what is signed on screens, what follows from a signature, who could do what somebody may not, and what evidence is worth.

## What observed runs are worth, `deeds-worth-…`

deeds-worth-title = What the observed runs are worth
deeds-worth-nothing = No observed run counts yet, so nothing can be said of how often the work is clean. { DEC($needed) } clean runs in a row would show, with 95 % confidence, that at least 95 in 100 are.
deeds-worth-little = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }): that says little. { DEC($needed) } clean runs in a row would show 95 in 100, { DEC($come) } more than there are.
deeds-worth-little-with-faults = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }): that says little. To show 95 in 100 it would take { DEC($needed) } runs in all without another fault, { DEC($come) } more than there are.
deeds-worth-something = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }). { DEC($needed) } clean runs in a row would show 95 in 100, { DEC($come) } more than there are.
deeds-worth-something-with-faults = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }). To show 95 in 100 it would take { DEC($needed) } runs in all without another fault, { DEC($come) } more than there are.
deeds-worth-enough = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }).
deeds-worth-decides = Numbers support a decision and never make it: whoever signs answers for what was seen.

## Who could do it, `deeds-could-…`

deeds-could = { $texts }
deeds-could-sign = Could sign it now: { $people }.
deeds-could-do = Still to do by { $people }: { $needs }.
deeds-could-nobody = Nobody here can do as things stand: { $needs }.
deeds-refused-lacking = A sign-off needs everything that the edition asks for, and some of it is missing (rule R4).
deeds-more-people = { $count ->
        [one] { DEC($count) } more
       *[other] { DEC($count) } more
    }

## What follows from a signature, `deeds-follows-…`

deeds-follows-title = What follows from it
deeds-follows-from = Standings that change, as they will be at { $at }:
deeds-follows-change = { $person }, { $scope }: { $before }, then { $after }
deeds-follows-second = It counts once a second person has signed it too; above it is counted so. Could be the second: { $people }.
deeds-follows-no-second = It counts once a second person has signed it too, and nobody here could as things stand.
deeds-follows-cases = Cases of the last 30 days that somebody watched or checked, to be looked at again. The record knows no others.
deeds-follows-judged = This person has supervised, watched or evaluated these people, who stand on it. What was signed before keeps counting; it is for you to look at:
deeds-follows-judged-person = { $person }: { $count ->
        [one] { DEC($count) } entry
       *[other] { DEC($count) } entries
    }
deeds-follows-resting = These decisions name the entry as what they rest on:
deeds-follows-entry = { $at }, { $kind }, { $has ->
        [case] case { $case }, { $person }, { $entry }
       *[none] { $person }, { $entry }
    }
deeds-follows-more = { $count ->
        [one] and { DEC($count) } more
       *[other] and { DEC($count) } more
    }

## Forms of deeds, `deeds-…`

deeds-title = Sign something
deeds-about = Everything that can be signed, in groups. What you have no right to can be opened all the same: whoever signs shows who they are. Nothing is signed before it has been shown whole.
deeds-offered = { $group }: { $deed }
deeds-offered-to-others = { $group }: { $deed } (not you)
deeds-not-you = You have no right to this. { $people } could.
deeds-form-about = Answer the rows; Enter then shows everything that will be signed and what follows from it. Nothing is signed on this screen unless it asks for a passphrase. What will not do is told at its row, and what you typed stays.
deeds-key-open = open
deeds-key-go-on = go on
deeds-key-row = row
deeds-key-change = change
deeds-none = nothing to choose from
deeds-several = { DEC($count) } of { DEC($of) } { $mark }
deeds-narrowed = { $has ->
        [typed] Typed: { $sought }. { DEC($count) } fit; Left and Right go through them.
       *[none] { DEC($count) } to choose from: Left and Right go through them, typing narrows them down.
    }
deeds-leave-loses = What you have filled in here is not kept anywhere. Esc once more leaves it; any other key goes on.
deeds-wrong-missing = This has to be answered.
deeds-wrong-value = This is none that may stand here.
deeds-wrong-time = This is no time. Write 2026-03-03, or 2026-03-03 10:40.
deeds-wrong-differ = The two passphrases differ. Type both again.
deeds-whom = { $person }: { $scope }
deeds-entry = { $kind } { $at }, { $entry }
deeds-suspension = { $person }: { $workflow }, since { $entry }
deeds-held = { $person }: { $authority }, { $workflow }
deeds-done = Stored: entry { $entry }.
deeds-key-then = The key replaces an earlier one, so a second person signs the entry first. Then the person accepts the key.

deeds-group-training = Training
deeds-group-work = Work that others see
deeds-group-deciding = Deciding about a person
deeds-group-amending = Signing again, putting right
deeds-group-everybody = What holds for everybody
deeds-group-people = People and keys
deeds-row-person = Person
    .about = Whom it is about: by name or code.
deeds-row-whom = Whom, for what
    .about = The person with the scope: workflow, profile, wash unit and curing unit.
deeds-row-workflow = Workflow
    .about = Which workflow.
deeds-row-revision = Revision
    .about = The number of the edition. Left empty, it is the edition in force, or for reading and training the newest.
deeds-row-happened = When it was
    .about = As in 2026-03-03 or 2026-03-03 10:40. Left empty, it is now. What is written down late needs a reason.
deeds-row-reason = Reason
    .about = Why: one line that stands in the record for good. Some deeds ask for one always. For a key: how you made sure who the person is.
deeds-row-entry = Entry
    .about = As in front-desk/12, or the first eight digits or more of its seal.
deeds-row-proof = Document
    .about = The path of the file that shows it. It is kept beside the record, by its digest.
deeds-row-evidence = Evidence
    .about = What it rests on: Left and Right go through the entries, the space bar takes one out or in.
deeds-row-profile = Profile
    .about = The process profile: the numbers that the laboratory works by.
deeds-row-wash = Wash unit
    .about = The id of the wash unit; none where the workflow has none.
deeds-row-cure = Curing unit
    .about = The id of the curing unit; none where the workflow has none.
deeds-row-language = Language
    .about = In which language the training was given, as in en-us.
deeds-row-supervised-from = Begins
    .about = From when, as in 2026-03-03. Left empty, it begins now.
deeds-row-until = Ends
    .about = Until when, as in 2026-03-31: that day included, at most a quarter of a year.
deeds-row-case = Case
    .about = The id of the case: small letters, digits and hyphens.
deeds-row-judgement = Judgement
    .about = What the supervisor thinks of the case.
deeds-row-stage = When asked
    .about = At the assessment, or later at work.
deeds-row-effect = Effect
    .about = Whether the training worked.
deeds-row-from = Begins
    .about = From when the sign-off holds. Left empty, from the signature; never before it.
deeds-row-allowed = Still allowed
    .about = What the person may still do in this workflow.
deeds-row-cause = Cause
    .about = Why the person has to be assessed again.
deeds-row-how = How shown
    .about = How the person came to be able to do it without an assessor here.
deeds-row-way = In which way
    .about = What somebody from outside did.
deeds-row-assessor = Outside assessor
    .about = The name of whoever assessed. The record holds only a commitment to it.
deeds-row-suspension = Suspension
    .about = The open suspension that ends.
deeds-row-member = Member
    .about = Which member of the entry is wrong, by the word that is stored, as in case.
deeds-row-to = New value
    .about = What should stand there. Left empty, nothing should.
deeds-row-meaning = Meaning
    .about = Approved makes an entry of two count. Acknowledged is for the person that it is about.
deeds-row-module = Module
    .about = The module whose revision is adopted.
deeds-row-effective = Holds from
    .about = From which day, as in 2026-03-03. Left empty, from the second signature.
deeds-row-impact = It asks for
    .about = What it asks of those who were signed off before. Assessing again is the strictest.
deeds-row-due-days = Due, days before
    .about = So many days before its end a sign-off is due.
deeds-row-grace-days = Days of grace
    .about = So many days after its end it lapses.
deeds-row-late-hours = Late after, hours
    .about = What is written down later than that needs a reason.
deeds-row-independence = Independence
    .about = Whether somebody here can assess independently. Where nobody can, every report says so.
deeds-row-name = Name
    .about = As it is printed. Only the register holds it.
deeds-row-authority = Right
    .about = What the person may do.
deeds-row-grant = Right
    .about = The right that ends.
deeds-row-own-passphrase = Your passphrase
    .about = Of whoever is signed in and signs this: I made this entry and stand by it. It does not show.
deeds-row-passphrase = Passphrase
    .about = Of the person named above. It does not show. By accepting a key its owner signs that what is signed with it binds them.
deeds-row-new-passphrase = New passphrase
    .about = The person named above types it, and nobody else sees it: 12 characters or more.
deeds-row-again = Once more
    .about = The same once more.

deeds-assign = Record a need
    .about = A person has to become able to do something: training begins.
deeds-confirm-read = Confirm that I have read an edition
    .about = You have read the workflow as it is now.
deeds-confirm-change = Take note of a change
    .about = You have taken note of a revision that asks for no more.
deeds-train = Write down a training
    .about = You trained the person on an edition.
deeds-protection = Write down that protection was shown
    .about = The person has shown you how to protect themself. It comes before supervised work.
deeds-supervise = Supervise a person
    .about = You supervise the person for a while and check each case.
deeds-check-case = Check a supervised case
    .about = You looked at a case that the person worked on under your supervision.
deeds-evaluate = Evaluate a training
    .about = Whether the training worked: at the assessment, or later at work.
deeds-sign-off = Sign off
    .about = You declare that the person may work alone within the scope, on the evidence that is named.
deeds-first-assessor = Sign off the first who can assess
    .about = Nobody can assess yet, so a document shows how this person came to be able to.
deeds-outside = Sign off on evidence from outside
    .about = Only where the policy says that nobody here can assess independently. Every report says so.
deeds-suspend = Suspend
    .about = The person is stopped at once in every scope of the workflow. It needs a reason.
deeds-reinstate = Reinstate
    .about = A suspension ends, on evidence, once a second person has signed too.
deeds-withdraw = Withdraw a sign-off
    .about = It ends for good; only a new need and the whole path lead back. It needs a reason.
deeds-call-in = Call in for assessment
    .about = The person has to be assessed again in time. It needs a reason.
deeds-correct = Correct an entry
    .about = One member of an entry was wrong. The old value stays visible. It needs a reason.
deeds-void = Void an entry
    .about = An entry should not have been made. It stays visible and counts for nothing. It needs a reason.
deeds-countersign = Sign as the second person
    .about = Approve what another has signed, look through it, or take note of what is about you.
deeds-policy = Set the policy
    .about = The laboratory’s own numbers. Whose standing changes is shown first.
deeds-adopt = Adopt a revision
    .about = From its day on the laboratory works by it, once a second person has signed. Who is affected is shown first.
deeds-retire = Retire a workflow
    .about = It is no longer done, and all sign-offs for it end.
deeds-join = Have a person join
    .about = The person gets a code that was never issued before.
deeds-grant = Give a right
    .about = What a person may do from now on.
deeds-revoke = Take a right back
    .about = What was signed under it before stays valid.
deeds-leave = Write down that a person left
    .about = All their rights, keys and sign-offs end.
deeds-issue-key = Issue a key
    .about = Two people sit here: you, and the person who chooses a passphrase that nobody else sees.
deeds-accept-key = Accept my key
    .about = I alone know my passphrase and give it to nobody. What is signed with my key binds me as my signature by hand does.
deeds-lose-key = Declare a key lost
    .about = Nothing can be signed with it from now on.
deeds-passphrase = Choose another passphrase
    .about = The key stays the same; only what opens it changes. Nothing goes into the record.
