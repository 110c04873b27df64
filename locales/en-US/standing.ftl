# Where somebody stands: the standings, what makes them so, what is met and missing, and what the rules refuse. `standing-…`.

## The standings

standing-word =
    .not-assigned = not assigned
    .in-training = in training
    .under-supervision = under supervision
    .ready-for-sign-off = ready for sign-off
    .signed-off = signed off
    .due = due
    .lapsed = lapsed
    .suspended = suspended
    .withdrawn = withdrawn
    .left = left
    .cannot-be-shown = cannot be shown

# In a cell of a table: letters only, each explained below the table. Not longer than seven columns.
standing-short =
    .not-assigned = -
    .in-training = train
    .under-supervision = superv
    .ready-for-sign-off = ready
    .signed-off = signed
    .due = due
    .lapsed = lapsed
    .suspended = stopped
    .withdrawn = ended
    .left = left
    .cannot-be-shown = unshown

standing-means =
    .not-assigned = Not assigned by anybody: may not work in this workflow.
    .in-training = In training: what comes before supervised work is not complete, or nobody is named to supervise it. No product work.
    .under-supervision = Under supervision: may work beside the named supervisor, who checks each case.
    .ready-for-sign-off = Ready for sign-off: everything is there but the signature. May work as under supervision.
    .signed-off = Signed off: may work alone within the scope.
    .due = Due: may still work alone, and has to be assessed again.
    .lapsed = Lapsed: the sign-off has ended. May work under supervision only.
    .suspended = Suspended: stopped for cause. May do only what the suspension allows.
    .withdrawn = Withdrawn: the sign-off was ended. Only a new need and the whole path lead back.
    .left = Left: the person left, or the workflow is no longer done.
    .cannot-be-shown = Cannot be shown: verification found something wrong with entries that this rests on.

# The standing with its circumstances, as the file of a person tells it.
standing-told =
    .not-assigned = May not work in it: nobody had assigned the person to it by then.
    .in-training = In training. Assigned { $since }.
    .under-supervision = Under supervision of { $by } from { $since } until { $until }.
    .ready-for-sign-off = Ready for sign-off: everything is there but the signature. Assigned { $since }.
    .signed-off = Signed off from { $since } until { $until }, by { $by }, on { $edition }.
    .due = Due: may still work alone, until { $until }. Signed off from { $since }, by { $by }, on { $edition }.
    .lapsed = Lapsed: was signed off from { $since } until { $until }, by { $by }, on { $edition }.
    .suspended = Suspended since { $since }, by { $by }. Still allowed: { $allowed }. Reason: "{ $reason }"
    .withdrawn = Withdrawn since { $since }, by { $by }.
    .left = Left: { $since }, recorded by { $by }.
    .retired = Left: the workflow is no longer done since { $since }, recorded by { $by }.
    .cannot-be-shown = Cannot be shown: something is wrong in the strand { $strand } from entry { DEC($number) } on, and this rests on it.
standing-entry = Shown by the entry { $entry }.
standing-carried =
    .none = Covers revision { $revision } too, which asked nothing of those who were signed off.
    .by = Covers revision { $revision } too: { $said } ({ $entry })
standing-ended-by = Ended by the entry { $entry }.

## Why somebody is due, and why a sign-off ended

standing-due-interval = Due because its end is near or has passed.
standing-due-called-in = Due because the person was called in: { $cause }.
standing-due-failed = Due because an assessment was failed: { $entry }.
standing-due-not-effective = Due because training was found not to have worked: { $entry }.
standing-due-effect-not-checked = Due because nobody has asked in time whether training worked.
standing-due-revision = Due because revision { $revision } was adopted, which this sign-off does not cover.
standing-due-to-review = Due because an entry that it rests on counts no longer: { $entry }.
standing-lapsed-interval = Lapsed because its time was over.
standing-lapsed-not-reassessed = Lapsed because it was due for cause and the person was not assessed again in time.
standing-lapsed-revision = Lapsed because revision { $revision } holds, which this sign-off does not cover.

## What has to be printed with a sign-off

standing-remark-approver-trained = Remark: whoever approved had also trained the person.
standing-remark-approver-assessed = Remark: whoever approved had also assessed the person.
standing-remark-first-assessor = Remark: signed off as the first assessor. Nobody else could assess yet.
standing-remark-no-independent-assessor = Remark: no independent assessor. Signed off on what somebody from outside saw.

## What a sign-off asks for

standing-met = There:
standing-missing = Missing:
standing-none-missing = Nothing is missing.
standing-asks = What the next sign-off asks for
standing-need-edition = a revision of the workflow in force
standing-need-assigned = the need, recorded
standing-need-no-suspension = no open suspension
standing-need-workflow = a sign-off for { $workflow }
standing-need-read = the edition read
standing-need-awareness = note taken of revision { $revision }
standing-need-protection = protection shown
standing-need-trained-after-failure = training after the failed assessment
standing-need-clean-runs = clean unaided rehearsals ({ DEC($have) } of { DEC($of) })
standing-need-clean-days = different days with a clean unaided rehearsal ({ DEC($have) } of { DEC($of) })
standing-need-supervised-cases = supervised cases found acceptable ({ DEC($have) } of { DEC($of) })
standing-need-observed = observed runs that were passed ({ DEC($have) } of { DEC($of) })
standing-need-assessors = different assessors ({ DEC($have) } of { DEC($of) })
standing-need-clean-in-a-row = clean observed runs in a row, up to now ({ DEC($have) } of { DEC($of) })
standing-need-method = passed assessments by { $method } ({ DEC($have) } of { DEC($of) })
standing-need-evaluated = the training evaluated at the assessment, and found to have worked

## What the rules refuse: what the rule is, and what to do

standing-by-rule = { $what } (rule { $rule })
    .on-screens = { $what }
standing-refused-dated-ahead = Nothing may be dated later than the time at which it is written down.
    .fix = Put in the time at which it happened, and check the clock of this workstation.
standing-refused-late-without-reason = What is written down late needs a reason, and there is none.
    .fix = Say why it is late.
standing-refused-before-signature = A sign-off never begins before its signature.
    .fix = Let it begin now or later.
standing-refused-signed-at-another-time = A sign-off is the signing itself, so it cannot have happened at another time.
    .fix = Leave out the time at which it happened.
standing-refused-missing = A sign-off needs everything that the edition asks for. Missing: { $needs }.
    .fix = Record what is missing first, then sign off.
standing-refused-no-evidence = A sign-off may rest only on assessments of this person in this scope that count. This is none: { $entry }.
    .fix = Leave that entry out, or name another one. Practice is no evidence.
standing-refused-left-out-without-reason =
    { $count ->
        [one] One assessment that it could rest on is left out, and no reason is given.
       *[other] { DEC($count) } assessments that it could rest on are left out, and no reason is given.
    }
    .fix = Say in the reason why, or leave nothing out.
standing-refused-self-sign-off = Nobody signs off themself.
    .fix = Ask somebody else who may approve.
standing-refused-self-assessment = Nobody assesses themself.
    .fix = Ask another assessor.
standing-refused-assessor-not-in-force = Only somebody who is signed off in the same scope may assess. At that time { $person } was not.
    .fix = Ask an assessor who is signed off for it.
standing-refused-trainer-not-in-force = Only somebody who is signed off in the workflow may train in it. At that time { $person } was not.
    .fix = Ask a trainer who is signed off for it.
standing-refused-supervisor-not-in-force = Only somebody who is signed off in the same scope may supervise. At that time { $person } was not.
    .fix = Ask somebody who is signed off for it.
standing-refused-not-the-supervisor = Only the supervisor of that time may check the case, and { $person } was not named as one.
    .fix = Name the supervisor before the work. The supervisor of that time signs.
standing-refused-supervision-too-long = Supervision ends after it begins, and lasts at most { $days ->
        [one] { DEC($days) } day
       *[other] { DEC($days) } days
    }.
    .fix = Choose an earlier end. It can be renewed.
standing-refused-not-the-first = Only the first who can assess a scope may be signed off without an assessment. { $person } is signed off already and could assess.
    .fix = Have { $person } or another assessor assess, and sign off on that.
standing-refused-not-alone = What somebody from outside saw is enough only where the policy says that nobody in the laboratory can assess independently. It does not say so.
    .fix = Sign off on what an assessor of the laboratory saw, or have the owner set the policy.
standing-refused-not-adopted = The laboratory has not adopted revision { $revision }.
    .fix = Name a revision that is adopted, or have this one adopted first.
standing-refused-other-text = The laboratory adopted revision { $revision } with another text.
    .fix = Use the module as it was adopted, or give the changed text a new revision.
standing-refused-superseded = A sign-off is on the revision in force, and that is revision { $revision } now.
    .fix = Sign off on revision { $revision }, once what it asks for is there.
standing-too-few-assessors = It takes { DEC($of) } assessors, and { $here ->
        [0] nobody else here has the right to assess
        [one] only { DEC($here) } other person here has the right to assess
       *[other] only { DEC($here) } other people here have the right to assess
    }. Ways out: give another person the right to assess; where the policy says "no independent assessor", let somebody from outside assess; or adopt the revision again and ask for fewer assessors.
standing-refused-not-newer = A new revision has a higher number than every one before. The newest so far is { $revision }. The same text can be adopted again where other numbers for a sign-off are set, and once two have signed it the first time.
    .fix = Give the new text a higher number; or adopt the same text with other numbers.
standing-refused-other-impact = This revision was adopted before, and what it asks of those who are signed off was decided then: { $impact }. Adopting it again changes only what later sign-offs ask for.
    .fix = Leave that as it was decided. To have somebody assessed again, call them in.
standing-refused-no-such-suspension = Only an open suspension of this person in this workflow can be ended. This is none: { $entry }.
    .fix = Name the suspension that is open.
standing-refused-no-reinstating-evidence = Nobody is reinstated without something that shows they can go on.
    .fix = Watch the person or check a case first, or name a document that shows it.
standing-refused-self-reinstatement = Nobody reinstates themself.
    .fix = Ask somebody else who may approve.
standing-refused-not-a-second-person = The second signature is that of another person: neither who signed first nor whom the entry is about.
    .fix = Ask somebody else.
standing-refused-second-not-entitled = The second person has no right that is enough for this.
    .fix = Ask somebody who may approve, or have the owner give the right first.
standing-refused-not-theirs = Only the person that an entry is about takes note of it.
    .fix = Let that person sign.
standing-refused-not-amendable = Entries of this kind are never corrected or voided. What holds from now on is said by another entry.
    .fix = Make a new entry that says what holds.
standing-refused-not-correctable = This member cannot be corrected: with another value it would be another entry.
    .fix = Void the entry and make a new one.
standing-refused-old-differs = The value to be corrected is not what stands there now.
    .fix = Look at the entry again and name what stands there.
standing-refused-new-wrong = The new value is none that may stand there.
    .fix = Look at how the member is written in other entries of this kind.
standing-refused-void-already = The entry is void already.
    .fix = There is nothing to do.
