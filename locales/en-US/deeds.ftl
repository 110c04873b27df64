# Everything that can be signed on the screens, `deeds-…`.

deeds-list-title = Sign something
deeds-list-about = Everything that can be written into the record, in groups. Enter opens a form; nothing is signed before you have seen all of it. What you have no right to is refused with the reason, and nothing is recorded then.
deeds-group-learning = Learning
deeds-group-working = Under supervision
deeds-group-deciding = Deciding
deeds-group-amending = About an entry
deeds-group-keeping = The laboratory

deeds-title =
    .assign = Assign somebody to a workflow
    .read = I have read it
    .change = I have taken note of a change
    .train = I have trained somebody
    .protection = Somebody can protect themself
    .supervise = I supervise somebody
    .check-case = I have checked a case
    .evaluate = Whether training worked
    .sign-off = Sign somebody off
    .first-assessor = Sign off a first assessor
    .outside = Sign off on evidence from outside
    .suspend = Suspend somebody
    .reinstate = Reinstate somebody
    .withdraw = Withdraw a sign-off
    .call-in = Call somebody in
    .correct = Correct an entry
    .void = Void an entry
    .countersign = Sign as the second person
    .adopt = Adopt a revision
    .retire = Retire a workflow
    .policy = Set the policy
    .review = I have gone through the entries
    .grant = Give somebody rights
    .revoke = Take a right back
    .leave = Somebody leaves
    .key-lost = A key is lost
    .join = Somebody joins
    .key = Give somebody a key
    .passphrase = Change my passphrase

deeds-explained =
    .assign = From now on the person needs this workflow: training begins. The scope says with which numbers and machines.
    .read = You have read this edition of a workflow, all of it: on paper, or here by p on the board, then r. It comes before supervised work.
    .change = You have taken note of what a new revision changes. Where the laboratory decided that this is enough, your sign-off goes on.
    .train = You have trained the person on this edition. After a failed run it leads back to assessment.
    .protection = The person put on, ran and took off everything that this work asks for, in front of you. It comes before supervised work.
    .supervise = For this time you stand by the person's work on real cases. You have to be signed off in the scope yourself.
    .check-case = You looked at a case that the person did under your supervision.
    .evaluate = Did training lead to what it should? Asked at the assessment, and once more after some weeks of work.
    .sign-off = You declare the person competent in this scope, on what was seen since the last sign-off. If you also trained or watched the person, every report says so.
    .first-assessor = There is nobody yet who could assess. The person's competence was shown elsewhere, and a document says so. Somebody else with the right to approve signs; the person has been assigned, has read and has rehearsed before. In a laboratory of two the other one signs this; then the first assessor may train, watch and sign off the other, and every report says so.
    .outside = Somebody from outside watched or judged the work. Only where the policy says that nobody here can assess independently.
    .suspend = The person stops at once, in every scope of the workflow. What is allowed meanwhile is for you to say.
    .reinstate = The person goes on after a suspension, on what was seen since. A second person has to approve of it before it counts.
    .withdraw = The sign-off ends for good. Only a new assignment leads back.
    .call-in = Something happened after which the person has to be assessed again: a complaint, a remake, a long absence.
    .correct = One value in an entry was wrong. The entry stays as it is; the correction stands beside it. Assessments and decisions need a second person.
    .void = An entry should never have been made. It stays where it is, and counts no more. Assessments and decisions need a second person.
    .countersign = You approve of what somebody else signed, or take note of what was signed about you.
    .adopt = This text of a workflow holds from a day on, and you say what it asks of those who are signed off. A second person has to approve of it before it holds.
    .retire = The workflow is no longer done here. All sign-offs for it end.
    .policy = The laboratory's numbers: when a sign-off is due, when an entry is late, whether somebody can assess independently.
    .review = You have looked through the entries of a while, and say how you found them.
    .grant = The person may do something from now on: train, assess, approve, publish and so on. In one workflow, or in all.
    .revoke = The person may no longer do it. What was signed under the right stays as it is.
    .leave = The person is no longer here. Keys, rights and sign-offs end; the code is never issued again.
    .key-lost = Nothing can be signed with the key from now on. What was signed with it stays.
    .join = A new person gets a code. In the record stands only the code; the name stands in a register beside it, and can be erased there.
    .key = With a key a person can sign. You make sure who it is; the person chooses the passphrase and tells it to nobody, you included.
    .passphrase = The key stays the same; only what opens it changes.

deeds-field =
    .person = Person
    .scope = Scope
    .workflow = Workflow
    .edition = Revision
    .module = Workflow
    .profile = Process profile
    .wash = Wash unit
    .cure = Curing unit
    .from = From
    .until = Until
    .happened = When it happened
    .reason = Reason
    .case = Case
    .judgement = Judgement
    .stage = When it was asked
    .effect = Did it work?
    .how = How it was shown
    .way = In which way
    .assessor = Who from outside
    .proof = Document
    .allowed = Still allowed
    .suspension = Suspension
    .cause = Cause
    .entry = Entry
    .meaning = My signature means
    .member = What was wrong
    .new = What is right
    .evidence = Rests on
    .effective = Holds from
    .impact = Asks of others
    .clean-rehearsals = Clean rehearsals
    .clean-days = Rehearsal days
    .supervised-cases = Supervised cases
    .observed = Observed runs
    .assessors = Assessors
    .clean-in-a-row = Last clean in a row
    .valid-months = Holds, in months
    .renewal-observed = Renewal, observed
    .renewal-assessors = Renewal, assessors
    .renewal-clean-in-a-row = Renewal, in a row
    .effect-check-days = Effect asked, days
    .due-days = Due, days before
    .grace-days = Grace, days after
    .late-hours = Late after hours
    .independence = Independence
    .result = Found to be
    .authority = Right
    .authorities = Rights

deeds-about =
    .person = Whom it is about. Type the beginning of a name to seek.
    .scope = The person's workflow with profile, wash unit and curing unit. Somebody without a scope has to be assigned first.
    .workflow = Which workflow.
    .workflow-optional = Which workflow. Empty: all of them.
    .edition = Which revision. The one that holds now stands first, or the newest where it is read ahead.
    .module = A workflow on the shelf: those of this program, and your own, whose files lie in the folder "modules" of the folder for data.
    .profile = Empty: common-practice, the shipped numbers; a workflow of your own keeps its own. Other numbers lie in modules/profiles of the folder for data.
    .wash = With which wash unit, such as ultrasonic. Those that were named before can be chosen; type to name another. Empty: none.
    .cure = With which curing unit, such as light-chamber. Those that were named before can be chosen; type to name another. Empty: none.
    .from = A day, from its beginning, or a day and a time: 2026-03-03 or 2026-03-03 10:40.
    .from-optional = A day, from its beginning, or a day and a time: 2026-03-03 or 2026-03-03 10:40. Empty: now.
    .until = A day, until its end, or a day and a time: 2026-03-31 or 2026-03-31 16:00.
    .until-optional = A day, until its end, or a day and a time: 2026-03-31 or 2026-03-31 16:00. Empty: now.
    .happened = A day, or a day and a time: 2026-03-03 10:40. Empty: now. What is entered later than the policy allows needs a reason.
    .reason = One line that an inspector understands years later.
    .case = The laboratory's own name for the case, in small letters, digits and hyphens: c-0312. No patient's name.
    .judgement = Acceptable: it could go on to the next station as it is. Not acceptable: it could not.
    .stage = At the assessment, or later at work.
    .effect = Whether the person can now do what the training was for.
    .how = Where the competence comes from.
    .way = What the person from outside did.
    .assessor = The name of the person from outside. In the record stands only a commitment to it.
    .proof = The path of a file that shows it: a certificate, a report. It is kept beside the record and can be erased.
    .allowed = What the person may do until it is lifted.
    .suspension = The suspension that ends.
    .cause = Why the person has to be assessed again.
    .entry = Its place, such as front-desk/12, or the first eight digits of its seal.
    .meaning = Approved: you looked at it and stand by it. Acknowledged: you have taken note of it. Reviewed: you went through it.
    .member = Which value of the entry was wrong.
    .new = The value as it should have been. Empty: nothing should stand there.
    .evidence = What was seen of the person since. Enter shows it piece by piece; any can be left out, for a reason that is given. The rules look at all of it, left out or not.
    .effective = From which day it holds. Empty: from now, once a second person has signed.
    .impact = What it asks of those who are signed off on the revision before.
    .clean-rehearsals = Clean unaided rehearsals on the simulated bench before supervised work. 0: none is asked for; then the days are 0 too.
    .clean-days = The clean rehearsals are spread over so many days at least. Never more than there are rehearsals.
    .supervised-cases = Real cases that a named supervisor found acceptable. 0: none.
    .observed = Runs at the bench that an assessor watched and that were passed.
    .assessors = By so many different people. A laboratory with one assessor sets 1: then nobody else looks.
    .clean-in-a-row = The last so many of the observed runs were clean. 0: none has to be.
    .valid-months = For how many months the first sign-off holds, then later ones; the last number repeats: 6, 12, 12.
    .renewal-observed = Observed runs for each later sign-off, also after another revision that asks for one.
    .renewal-assessors = By so many different people at a renewal.
    .renewal-clean-in-a-row = The last so many of a renewal's observed runs were clean; 0: none has to be.
    .effect-check-days = Between which days after a sign-off it is asked whether training worked: 30, 90. 0: it is not asked.
    .due-days = So many days before a sign-off ends it is due. Empty: as it is.
    .grace-days = So many days after its end it still holds. Empty: as it is.
    .late-hours = An entry that is made more hours after it happened is late and needs a reason. Empty: as it is.
    .independence = Whether somebody here can assess whom they did not train. Where nobody can, as in a laboratory of one, a sign-off rests on what a person from outside saw, and every report says so. Two who sign each other off as first assessors can. Empty: as it is.
    .result = As it should be, or not.
    .authority = What the person may do.
    .authorities = What the person may do. Enter shows all rights; several can be taken at once. Each becomes an entry of its own, all with one passphrase.

deeds-not-yours = { $title } (not yours)
deeds-not-yours-has = Not yours. Has the right: { $people }.
deeds-to-fill = …
deeds-left-empty = (may stay empty)
deeds-go-on = Show what will be signed
deeds-go-on-about = Enter shows everything as it will stand in the record. Nothing is signed yet.
deeds-module-own = { $id } (your own)
deeds-module-not-sound = { $id } (faulty: go on to read why)
deeds-another = { $name }, named for the first time
deeds-name-another = Type a name: small letters, digits, hyphens.
deeds-gives-way = Typing puts another in its place; Backspace changes what stands there.
deeds-module-asks = The module asks for { $began }.
deeds-module-says-nothing = The module says nothing of it; the default is { $began }.
deeds-policy-holds = It is { $began } now.
deeds-not-the-newest = You are about to sign for revision { $signed }. The newest that the laboratory adopted is revision { $other }: that is the one that is asked for.
deeds-other-text-here = The text of revision { $signed } is not on this machine: what can be read here is revision { $other }. Sign only if you had revision { $signed } before you, on paper or elsewhere.
deeds-no-text-here = No text of this workflow can be read here. Sign only if you had revision { $signed } before you, on paper or elsewhere.
deeds-profile-not-here = Nobody can rehearse or be watched by the numbers of the profile { $profile } on this machine as things stand. Sign only if it lies elsewhere, or is about to.
deeds-missing = { $field } is still to be filled in.
deeds-wrong = { $field }: "{ $text }" cannot stand there. Nothing was recorded.
deeds-times = Write a day as 2026-03-03, or a day and a time as 2026-03-03 10:40.
deeds-evidence-all =
    { $all ->
        [one] the one piece that there is
       *[other] all { DEC($all) } pieces that there are
    }
deeds-evidence-some = { DEC($taken) } of { DEC($all) } pieces, the others left out
deeds-evidence-none = nothing so far
deeds-some-marks = [x] is taken. Esc when you have all.
deeds-evidence-marks = [x] is named in what you sign, [ ] is left out.
deeds-nothing-found = Nothing is called so. Backspace takes a letter back.
deeds-nothing-to-choose = There is nothing to choose from yet: what stands above has to be chosen first, or the record holds none.
deeds-form-about = Fill in row by row. Enter on a row shows its answers, or goes on to the next; left and right change an answer; typing seeks. The last row shows what will be signed. Esc leaves the form without recording anything.
deeds-key-take = take it
deeds-key-show = show it
deeds-key-next = next row
deeds-key-list = answers
deeds-key-pieces = pieces
deeds-key-take-some = take or not
deeds-key-leave-out = leave out or take
deeds-key-done = done
deeds-key-other = another answer
deeds-key-field = row
deeds-key-leave = leave it
deeds-key-form = open the form

deeds-then-second = It counts once a second person has signed it; it waits on the board of whoever may.
deeds-then-perhaps-second = Where it is about an assessment or a decision it counts once a second person has signed it; then it waits on the board of whoever may.

deeds-join-name = The person's name, as it should be printed:
deeds-join-about = The name goes into the register, the code into the record. Then whoever enters the person signs.
deeds-joined = { $person } has joined: entry { $entry }.
deeds-joined-next = The code is { $code }; it goes with every signature. Next: give a key, so that the person can sign.

deeds-key-person = { $person }{ $has ->
    [yes] {" "}(has a key; another would take its place)
   *[no] {""}
}
deeds-key-who = Who gets a key?
deeds-key-identity = How did you make sure that this is { $person }?
deeds-key-identity-about = For instance: passport seen, known for eight years. It stands in the record.
deeds-key-identity-read = How it was made sure who this is, as it will stand in the record; Esc goes back to change it: "{ $identity }"
deeds-key-no-identity = Say how you made sure that this is { $person }.
deeds-key-agree = Give the keyboard to { $person }. Read this; by going on you agree:
deeds-key-first = { $person }, choose a passphrase:
deeds-key-hand-back = The passphrase is chosen. Give the keyboard back to whoever issues the key: they sign now.
deeds-key-about = The person who gets the key chooses the passphrase, unseen. Then whoever issues the key signs.
deeds-key-issued = { $person } has a key now: entry { $entry }.
deeds-key-accepted = { $person } has agreed that what is signed with it binds: entry { $entry }.
deeds-key-not-accepted = It takes the place of another key, so it waits for a second person: Sign as the second person, entry { $entry }. Until then the key before it holds. Then the person agrees that it binds, in plain lines: drybench key accept { $code }.
deeds-passphrase-new = Choose a new passphrase:
deeds-passphrase-about = First who you are and the old passphrase, then the new one twice. The record says nothing of it.

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
deeds-could-has = Has the right: { $people }. As things stand something else speaks against it too.
deeds-could-give = Nobody else here has the right. Could give it: { $people }.
deeds-refused-lacking = A sign-off needs everything that the edition asks for, and some of it is missing (rule R4).
    .on-screens = A sign-off needs everything that the edition asks for, and some of it is missing.
deeds-more-people = { $count ->
        [one] { DEC($count) } more
       *[other] { DEC($count) } more
    }

## What follows from a signature, `deeds-follows-…`

deeds-follows-title = What follows from it
deeds-follows-from = Standings that change, as they will be at { $at }:
deeds-follows-change = { $person }, { $scope }: { $before }, then { $after }
deeds-follows-still = { $person }, { $scope }: { $after } as before, but not in the same way
deeds-follows-second = It counts once a second person has signed it too; above it is counted so. Could be the second: { $people }.
    .alone = It counts once a second person has signed it too. Nobody's standing changes by it then. Could be the second: { $people }.
deeds-follows-no-second = It counts once a second person has signed it too, and nobody here could as things stand.
deeds-follows-cases = Cases of the last 30 days that somebody watched or checked, to be looked at again. The record knows no others.
deeds-follows-judged = This person has supervised, watched or evaluated these people, who stand on it. What was signed before keeps counting; it is for you to look at:
deeds-follows-judged-person = { $person }, { $workflow }: { $count ->
        [one] { DEC($count) } entry
       *[other] { DEC($count) } entries
    }
deeds-follows-left-out = These were seen and are left out of what it rests on. The entry will show that, with the reason.
deeds-follows-new-scope = Nobody was assigned to this scope before. Another process profile or unit is another scope, in which a person begins anew; look whether a name has a slip in it. So far somebody was assigned to:
deeds-follows-resting = These decisions name the entry as what they rest on:
deeds-follows-entry = { $at }, { $kind }, { $has ->
        [case] case { $case }, { $person }, { $entry }
       *[none] { $person }, { $entry }
    }
deeds-follows-more = { $count ->
        [one] and { DEC($count) } more
       *[other] and { DEC($count) } more
    }
