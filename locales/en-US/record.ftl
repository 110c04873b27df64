# The record: what entries say, member by member and in a sentence, what is signed and shown, and what can be wrong with it. `record-…`.
# Parts are named by the word that is stored: a new kind or value gets a part here.

## Naming people, entries, times, scopes

record-person = { $name } ({ $code })
record-erased = erased person { $code }
record-entry = { $entry } ({ $seal })
record-entry-unknown = an entry that is not here ({ $seal })
record-scope = { $workflow } (profile { $profile }, wash unit { $wash }, curing unit { $cure })
record-edition = revision { $revision }
record-every-workflow = every workflow
record-nothing = nothing
record-number = { DEC($number) }
record-list = { $items }
record-label = { $name }:
record-labelled = { $name }: { $value }
record-language =
    .en-us = English
record-ground =
    { $has ->
        [case] { $day }, { $kind }, case { $case }: { $verdict }, by { $by } ({ $entry })
       *[none] { $day }, { $kind }: { $verdict }, by { $by } ({ $entry })
    }
record-flag =
    .yes = yes
    .no = no
record-step-titled = { $title } [{ $step }]
record-step =
    .critical = { $step } (critical): { $seen }
    .other = { $step }: { $seen }
record-method-count = { $method }: { $count }

record-as-of = As of { $at }, { $reading }
record-reading =
    .as-now-known = as now known: counting everything that is known now about what had happened by then.
    .as-recorded-then = as recorded then: counting only what had been written down by then.
record-no-independent-assessor = No independent assessor: this laboratory has declared that nobody in it can assess independently.

## Words that stand in entries

record-kind =
    .drilled = drilled
    .rehearsed = rehearsed
    .passphrase-refused = passphrase refused
    .backup-made = backup made
    .restore-tested = backup tried out
    .pack-exported = pack handed out
    .founded = record begun
    .joined = joined
    .left = left
    .granted = right given
    .revoked = right taken back
    .key-issued = key issued
    .key-lost = key lost
    .assigned = assigned
    .read = read
    .awareness-acknowledged = change noted
    .trained = trained
    .protection-shown = protection shown
    .supervised-by = supervisor named
    .case-checked = case checked
    .observed = observed
    .evaluated = training evaluated
    .signed-off = signed off
    .suspended = suspended
    .reinstated = reinstated
    .withdrawn = withdrawn
    .called-in = called in
    .countersigned = signed second
    .corrected = corrected
    .voided = voided
    .revision-adopted = revision adopted
    .workflow-retired = workflow retired
    .policy-set = policy set
    .trail-reviewed = entries reviewed
    .restored = backup put back
record-meaning =
    .authored = made
    .trained = trained
    .observed = observed
    .assessed = assessed
    .reviewed = reviewed
    .approved = approved
    .suspended = suspended
    .reinstated = reinstated
    .withdrawn = withdrawn
    .corrected = corrected
    .acknowledged = acknowledged
record-authority =
    .own = own the record: give and take rights, set the policy
    .administer = administer: enter people and their keys
    .train = train: assign and train
    .assess = assess: observe and evaluate
    .approve = approve: sign off, suspend, reinstate, withdraw
    .publish = publish: adopt revisions, retire workflows
    .quality = quality: suspend and review
record-method =
    .direct = watching a real case
    .records = looking through what the person writes down
    .checks = looking through logs and checks of the equipment
    .maintenance = watching maintenance
    .blind-sample = pieces whose faults only the assessor knew
    .problem = a problem solved aloud
record-judgement =
    .acceptable = acceptable
    .not-acceptable = not acceptable
record-seen =
    .done = done unaided
    .prompted = done after a prompt
    .not-done = not done, or done wrongly
    .not-seen = not watched
record-run =
    .clean = clean
    .not-clean = passed, but not clean
    .failed = failed
    .not-counted = does not count, since a critical step was not watched
record-stage =
    .at-assessment = at the assessment
    .later = at work, after the sign-off
record-effect =
    .effective = it worked
    .not-effective = it did not work
record-help =
    .guided = guided
    .prompted = with help on request
    .unaided = unaided
record-ending =
    .clean = clean
    .not-clean = not clean
    .abandoned = given up
record-cause =
    .complaint = a complaint, an error or a remake
    .equipment = new equipment or material
    .trend = results that point the wrong way
    .absence = a long absence
record-allowed =
    .nothing = nothing in this workflow
    .supervised = work under supervision
record-impact =
    .none = nothing is asked of whoever was signed off
    .awareness = whoever was signed off must take note of it
    .retrain = whoever was signed off must be trained on it
    .re-assess = whoever was signed off must be assessed on it
record-independence =
    .independent = somebody can assess independently
    .no-independent-assessor = nobody can assess independently
record-result =
    .good = as it should be
    .bad = not as it should be
record-how =
    .external-training = training outside the laboratory
    .validation-work = work on the validation of the process
    .maker-training = training by the maker of equipment or material
record-way =
    .observation = watched the work
    .blind-sample = judged pieces
record-basis =
    .evidence = What assessors of this laboratory saw
    .first-assessor = First assessor: nobody could assess yet
    .outside = Somebody from outside: nobody in the laboratory can assess independently

## Members by name

record-member =
    .again = A renewal asks for
    .allowed = Still allowed
    .assessor = Commitment to the outside assessor's name
    .assessors = By so many assessors
    .authority = Right
    .basis = Ground
    .case = Case
    .cause = Why
    .clean-days = On so many days
    .clean-in-a-row = Clean ones in a row, up to now
    .clean-runs = Clean unaided rehearsals
    .copy = Digest of the copy
    .count = How many
    .critical = Critical
    .cure = Curing unit
    .digest = Digest of the text
    .drill = Drill
    .due-days = Due so many days before the end
    .edition = Edition
    .effect = Did training work
    .effect-check = To be asked whether training worked
    .effective = Holds from
    .ending = Ended
    .evidence = Shown by
    .first = The first sign-off asks for
    .from = From
    .from-days = Not before so many days
    .grace-days = Lapses so many days after the end
    .grant = Given in
    .help = Help
    .how = How competence was established
    .impact = What it asks
    .independence = Independence
    .judgement = Judgement of the whole
    .key = Key
    .laboratory = Commitment to the laboratory's name
    .language = Language
    .late-hours = Late after so many hours
    .lost-number = Number of the last lost entry
    .lost-seal = The last lost entry
    .lost-strand = Strand that lost entries
    .member = What was put right
    .method = Way of assessing
    .name = Commitment to the name
    .new = New value
    .observed = Observed runs that were passed
    .of = Of
    .old = Old value
    .others = Passed in other ways
    .pack = Digest of the pack
    .person = Person
    .profile = Process profile
    .proof = Digest of the document that shows it
    .remark = Digest of a remark that is kept apart
    .taps = Digest of the sheet with its times, kept apart
    .transcribed = Written down from paper later
    .requires = Signed off before for
    .result = Found
    .revision = Revision
    .right = Right answers
    .run = Digest of the saved run
    .scope = Scope
    .seen = How it went
    .sign-off-profile = What a sign-off asks for
    .stage = When
    .step = Step
    .steps = Step by step
    .supervised-cases = Supervised cases found acceptable
    .suspension = Suspension that ends
    .target = Entry
    .times = Times in a row
    .to-days = Not after so many days
    .until = Until
    .valid-from = Valid from
    .valid-months = Valid for months, first and later
    .wash = Wash unit
    .way = What somebody from outside did
    .workflow = Workflow

## What an entry says, in a sentence

record-said =
    .drilled = { $person } did the drill { $drill } of { $workflow }, { $edition }: { DEC($right) } of { DEC($of) } right.
    .rehearsed = { $person } rehearsed { $workflow }, { $edition }, { $help }: { $ending }.
    .passphrase-refused = { $times ->
        [one] A wrong passphrase was given for the key of { $person }.
       *[other] A wrong passphrase was given { DEC($times) } times in a row for the key of { $person }.
    }
    .backup-made = A backup of the record was made.
    .restore-tested = A backup was put back for a trial and found { $result }.
    .pack-exported = A pack was made to be handed out.
    .founded = { $by } began the record and owns it.
    .joined = { $by } entered { $person }, who joined the laboratory.
    .left = { $by } recorded that { $person } left.
    .granted = { $by } gave { $person } a right for { $workflow } ({ $authority }).
    .revoked = { $by } took a right back from { $person } that was given in { $grant }.
    .key-issued = { $by } issued a signing key to { $person }.
    .key-lost = { $by } declared a signing key of { $person } lost.
    .assigned = { $by } assigned { $person } to { $scope }.
    .read = { $person } read { $workflow }, { $edition }.
    .awareness-acknowledged = { $person } took note of what changed in { $workflow }, { $edition }.
    .trained = { $by } trained { $person } in { $workflow }, { $edition }, in the language { $language }.
    .protection-shown = { $by } saw { $person } show how to use protection in { $workflow }, { $edition }.
    .supervised-by = { $by } took on the supervision of { $person } at { $scope } from { $from } until { $until }.
    .case-checked = { $by } checked case { $case }, on which { $person } worked at { $scope }, { $edition }: { $judgement }.
    .observed = { $by } assessed { $person } at { $scope }, { $edition }, on case { $case }, by { $method }: { $judgement }.
    .evaluated = { $by } evaluated, { $stage }, the training of { $person } for { $scope }, { $edition }: { $effect }.
    .signed-off = { $by } signed off { $person } for { $scope }, { $edition }, valid from { $valid-from }.
    .suspended = { $by } suspended { $person } in { $workflow }. Still allowed: { $allowed }.
    .reinstated = { $by } reinstated { $person } in { $workflow } and so ended the suspension { $suspension }.
    .withdrawn = { $by } ended what { $person } was signed off for: { $scope }.
    .called-in = { $by } called { $person } in to be assessed again at { $scope }: { $cause }.
    .countersigned = { $by } signed { $target } as a second person. Meaning: { $meaning }.
    .corrected = { $by } corrected { $target }: { $member }, from { $old } to { $new }.
    .voided = { $by } voided { $target }.
    .revision-adopted = { $by } adopted { $workflow }, { $edition }, from { $effective } on: { $impact }.
    .workflow-retired = { $by } recorded that { $workflow } is no longer done.
    .policy-set = { $by } set the policy of the laboratory: { $independence }.
    .trail-reviewed = { $by } looked through the entries from { $from } until { $until } and found them { $result }.
    .restored = { $by } put a backup back. The strand { $lost-strand } lost its entries up to { DEC($lost-number) }.
record-said-run = { $said } Result of the run: { $run }.

## Who may make an entry

record-right =
    .own = own
    .administer = administer
    .train = train
    .assess = assess
    .approve = approve
    .publish = publish
    .quality = quality
record-right-not-founded = The record has not been begun yet.
    .fix = Begin it first: its first entry makes somebody its owner.
record-right-founded-again = The record was begun before, and can be begun only once.
    .fix = Have the owner enter people and give rights.
record-right-unknown-person = The code of { $person } was never given to anybody in this record.
    .fix = Check the code, or have the person join first.
record-right-not-here = { $person } is not in the laboratory, or no longer.
    .fix = Have the person join again first.
record-right-here-already = { $person } is in the laboratory already.
    .fix = There is nothing to do.
record-right-code-used = The code of { $person } belonged to somebody who left. A code is never issued again.
    .fix = Whoever comes back joins with a new code.
record-right-last-owner = { $person } is the last who owns the record. Without an owner nobody could give a right again.
    .fix = Give somebody else the right to own it first.
record-right-last-own-grant = The right given in { $entry } is the last by which anybody owns the record.
    .fix = Give somebody else the right to own it first.
record-right-key-not-seconded = The key { $key } takes the place of an earlier one, and nobody else has approved of that yet.
    .fix = Have a second person, neither who issued it nor its holder, sign the entry that issued it.
record-right-unknown-key = The signing key { $key } was never issued.
    .fix = Have a key issued to the person first.
record-right-key-again = The signing key { $key } was issued before. A key stands for one person, for good.
    .fix = Make a new key.
record-right-key-ended = The signing key { $key } is lost, or its person left.
    .fix = Have a new key issued.
record-right-key-of-another = The signing key { $key } is another person's.
    .fix = Sign with your own key.
record-right-only-the-person = Only the person that the entry is about may sign it.
    .fix = Let that person sign.
record-right-not-the-person = The person that the entry is about may not sign it.
    .fix = Ask somebody else.
record-right-no-grant = This needs a right ({ $rights }), and the signature names none.
    .fix = Ask somebody who has it, or have the owner give it.
record-right-unknown-grant = The right that the signature names was never given: { $entry }.
    .fix = Name a right that was given.
record-right-grant-ended = The right given in { $entry } was taken back, or its person left.
    .fix = Have the owner give it again.
record-right-grant-of-another = The right given in { $entry } is another person's.
    .fix = Ask that person, or have the owner give you the right.
record-right-grant-too-narrow = The right given in { $entry } is not enough: it is another right, or for another workflow.
    .fix = Ask somebody who has the right for this workflow, or have the owner give it.
record-right-refers-to-nothing = It names an entry that is not there ({ $seal }).
    .fix = Check which entry is meant. It may be in a part of the record that is not here.

## What is no entry

record-bad-json = It cannot be read: { $why }, after { $at ->
        [one] { DEC($at) } byte
       *[other] { DEC($at) } bytes
    }.
record-json =
    .not-utf8 = it is no UTF-8 text
    .syntax = it is not JSON
    .not-whole = a number is not a whole one
    .too-large = a number is too large
    .twice = a member is there twice
    .too-deep = it is nested too deep
    .lone-surrogate = a character is incomplete
record-bad-too-long = It is longer than an entry may be.
    .fix = Keep long texts apart and name them by their digest.
record-bad-not-canonical = It is not written in the one form in which entries are stored.
record-bad-newer = A newer program wrote it, in format { $format }.
    .fix = Use that program, or a newer one.
record-bad-unknown-kind = There is no kind of entry { $kind }.
    .fix = A newer program may know it.
record-bad-member-missing = { $member } is missing in it.
record-bad-member-wrong = The value of { $member } is none that may stand there.
record-bad-member-unknown = Nothing called { $member } may stand in it.
record-bad-whole = the whole
record-bad-unsigned = Somebody has to answer for an entry of this kind, and it is not signed.
record-bad-needlessly-signed = Nobody answers for an entry of this kind, and it is signed.
record-bad-meaning = A signature under an entry of this kind cannot mean: { $meaning }.
    .fix = Choose a meaning that this kind of entry has.
record-bad-no-reason = An entry of this kind needs a reason, and there is none.
    .fix = Say why.

## What verification finds

record-found-unreadable = The entry cannot be read. { $why }
record-found-missing = Entries are missing from here to number { DEC($until) }.
    .fix = Look for them in a backup or at another workstation.
record-found-misplaced = An entry stands here that belongs to { $entry }.
record-found-previous-differs = The seal of the entry before is not the one that this entry holds.
record-found-altered = The entry is not what was sealed: the entry after it holds another seal.
    .fix = Compare it with a backup.
record-found-signature = The signature does not belong to this text and this key.
    .fix = Compare the entry with a backup.
record-found-authority = Nobody had the right to make this entry. { $why }
record-found-clock-went-back = It was written down before the entry ahead of it, and does not say that the clock was set back.
record-found-dated-ahead = It happened later than it was written down.
record-found-cut-off = The strand ends too early: entry { DEC($number) } was there before.
    .fix = Put back a newer backup, or declare that a backup was put back.
record-found-head-differs = Another entry was remembered for this place.
    .fix = Compare it with a backup.
record-found-checkpoint-differs = The entries up to here do not give the value that left the house.
    .fix = Compare them with a backup from that time.

## What no verification of this kind can show

record-limit-no-head = The end of the strand { $strand } is remembered nowhere else: its newest entries could have been cut off unseen.
record-limit-no-checkpoint = No value over the strand { $strand } has left the house: whoever has all keys could have written it anew.
record-limit-restored = A backup was put back: entries of the strand { $strand } up to { DEC($number) } are lost.
record-limit-untrue-but-entered = What was entered properly can still be untrue. It shows who answers for it.
record-limit-clock-of-machine = The order within a strand is shown. That a workstation's clock was right is not.

## Storing

record-trouble-full = There is no room left where the record is kept.
    .fix = Make room, then try again.
record-trouble-read-only = The record may be read only.
    .fix = Check who may write to the folder of the record.
record-trouble-unreachable = The record cannot be reached.
    .fix = Check that its folder is there and that no other program holds it.
record-trouble-damaged = What was read from the record is damaged.
    .fix = Verify the record, and compare it with a backup.
record-trouble-newer = A newer program wrote the record, in format { $format }.
    .fix = Use that program, or a newer one.
record-not-stored-head-moved = Not recorded: another entry came first. The strand ends with entry { DEC($number) } now.
    .fix = Look at what was added, then sign again.
record-not-stored-strand-empty = Not recorded: the strand has no entries any more.
    .fix = Verify the record before you go on.
record-not-stored-out-of-line = Not recorded: the entry does not follow the last one.
    .fix = Make it again and sign it again.

## What people type

record-text-empty = It is empty.
    .fix = Write something.
record-text-too-long = It has more than { $most ->
        [one] { DEC($most) } character
       *[other] { DEC($most) } characters
    }.
    .fix = Write less. Keep long texts apart.
record-text-character = It holds a character that may not stand there, or spaces around it.
    .fix = Ids are small letters, digits and hyphens. Texts are one line.
record-code-shape = This is no person's code. A code is P- and six letters or digits, as in P-7K3MQ1.
    .fix = Write the code as it is printed.
record-code-check = Something in the code is mistyped.
    .fix = Compare it with what is printed.
record-name-empty = The name is empty.
    .fix = Write the name as it is to be printed.
record-name-too-long = The name has more than { $most ->
        [one] { DEC($most) } character
       *[other] { DEC($most) } characters
    }.
    .fix = Shorten it.
record-name-character = The name holds a character that does not show, or that turns the direction of writing.
    .fix = Take it out.
record-register-no-free-code = No free code was found for the person.
    .fix = Try again.
record-register-unknown-code = The code { $code } was never given to anybody.
    .fix = Check the code.
record-register-erased = The name behind { $code } is erased and cannot be brought back.
    .fix = Give a person who comes back a new code.
record-register-salt-used = The random bytes that hide a name were used before.
    .fix = Try again.
record-register-before-last = The new name would begin before the one that it takes the place of.
    .fix = Check the clock of this workstation.
record-register-code-taken = The code { $code } stands in the register twice.
    .fix = Compare the register with a backup.

## One entry among others

record-line = { $at }, { $entry }: { $said }
record-line-void = { $at }, { $entry }, VOID: { $said }
record-reason = Reason: { $reason }
record-late-days = Written down late, by { $days ->
        [one] { DEC($days) } day
       *[other] { DEC($days) } days
    }.
record-late-hours = Written down late, by { $hours ->
        [one] { DEC($hours) } hour
       *[other] { DEC($hours) } hours
    }.
record-second = Also signed by { $by }, { $at }: { $meaning }. Entry { $entry }.
record-was-corrected = Corrected by { $by }, { $at }: { $member }, from { $old } to { $new }. Reason: { $reason }. Entry { $entry }.
record-was-voided = Voided by { $by }, { $at }. Reason: { $reason }. Entry { $entry }.
record-not-in-force =
    .waits = { $said } This does not count yet: it waits for a second person.
    .fails = { $said } This does not count: it was voided, or names a value that did not stand there.
record-amendment-waits = { $said } · a correction or voiding of it waits for a second person

## The file of a person

record-file-title = Record of { $person }
record-file-not-here = Not in the laboratory at that time.
record-file-standings = Standing in each scope
record-file-no-scope = No need is recorded.
record-file-history = Entries about the person
record-file-no-history = None.

## The table of people and workflows

record-matrix-title = Who stands where
record-matrix-empty = There is nobody to show, or no workflow.
record-matrix-person = Person
record-matrix-code = Code
record-matrix-workflows = Workflows
record-matrix-key = { $short } = { $workflow }: { $counts }. May work alone: { DEC($alone) } of { DEC($all) }.
record-matrix-count = { DEC($count) } { $standing }
record-matrix-legend = What the letters mean
record-matrix-letters = Letters
record-matrix-meaning = Meaning
record-matrix-several = Several words in a cell: the person has several scopes in the workflow, and they differ. The counts have the person under each of these words.

## One entry in full

record-one-title = Entry { $entry }
record-one-void = VOID: this entry counts for nothing. It stays in the record.
record-one-facts = What it says
record-one-origin = How it came about
record-one-signature = Signature
record-one-seals = Seals
record-one-names = Entries that it names
record-one-named = { $entry }: { $said }
record-beside = What is kept beside it
record-beside-of =
    .proof = The document that shows it
    .remark = The remark
    .run = The saved run
    .taps = The sheet with its times
record-beside-rehearsal = A rehearsal of { $module }, revision { $revision }: { $actions ->
    [one] one action
   *[other] { $actions } actions
}, seed { $seed }.
record-beside-other = { $bytes ->
    [one] One byte that is no text.
   *[other] { $bytes } bytes that are no text.
}
record-beside-gone = It is not here: it was erased, or never came to this laboratory. Its digest stands above.
record-beside-more = { $count ->
    [one] One more line.
   *[other] { $count } more lines.
}
record-one-left-out = Assessments that were there and that it does not name
record-one-later = What was said about it later
record-one-no-later = Nothing.
record-frame-happened = Happened: { $at }
record-frame-recorded = Written down: { $at }
record-frame-clock-set-back = The clock stood earlier than at the entry before.
record-frame-enterer = Typed in by: { $person }
record-frame-machine = Typed in by: nobody. The program made it.
record-frame-workstation = Workstation: { $workstation }
record-frame-program = Version of the program: { $program }
record-signing-none = Nobody signed it: the program noted it.
record-signing-by = Signed by: { $person }
record-signing-meaning = Meaning: { $meaning }
record-signing-declaration = Sentence that the signer was shown: { $sentence }
record-signing-other-declaration = Sentence that the signer was shown: another than today's, or in another language (digest { $digest })
record-signing-under = Under the right given in { $entry }: { $said }
record-signing-under-nothing = Under no particular right: this kind of entry needs none from this person.
record-signing-key = Key: { $key }
record-signing-name = Commitment to the signer's name: { $name }
record-seal = Seal: { $seal }
record-seal-previous = Seal of the entry before: { $seal }
record-seal-first = It is the first entry of its strand.

## The list of entries

record-list-title = Entries
record-list-count = { $count ->
    [0] There are no entries.
    [one] There is { DEC($count) } entry.
   *[other] There are { DEC($count) } entries.
}
record-list-entry = Entry
record-list-happened = Happened
record-list-what = What
record-list-about = About
record-list-by = By
record-list-void = { $kind }, VOID
record-list-machine = program
record-list-nobody = -

## The result of a verification

record-verified-title = Verification of the record
record-verified-good = Nothing wrong was found. Checked: { $entries ->
        [one] { DEC($entries) } entry
       *[other] { DEC($entries) } entries
    } in { $strands ->
        [one] { DEC($strands) } strand
       *[other] { DEC($strands) } strands
    }, { $signatures ->
        [one] { DEC($signatures) } signature
       *[other] { DEC($signatures) } signatures
    }.
record-verified-bad = Something is wrong: { $faults ->
        [one] { DEC($faults) } fault was found
       *[other] { DEC($faults) } faults were found
    }. Checked: { $entries ->
        [one] { DEC($entries) } entry
       *[other] { DEC($entries) } entries
    } in { $strands ->
        [one] { DEC($strands) } strand
       *[other] { DEC($strands) } strands
    }, { $signatures ->
        [one] { DEC($signatures) } signature
       *[other] { DEC($signatures) } signatures
    }.
record-verified-shows = This shows alteration, within stated limits. The limits stand below.
record-verified-faults = What is wrong
record-verified-fault = { $entry }: { $what }
record-verified-more = { $count ->
    [one] And { DEC($count) } more.
   *[other] And { DEC($count) } more.
}
record-verified-strands = Strands
record-verified-strand = { $strand }: { $entries ->
        [one] { DEC($entries) } entry
       *[other] { DEC($entries) } entries
    }
record-verified-last = Last one in its place: { $entry } ({ $seal })
record-verified-first-bad = First one with something wrong: { $entry }
record-verified-root = Over all of them: { $root }
record-verified-limits = What this cannot show

## Before a signature

record-preview-title = You are about to sign
record-preview-who = Signer: { $person }. Meaning of the signature: { $meaning }.
record-preview-what = What you sign
record-preview-named = The entries that it names
record-preview-changes = What it changes
record-preview-stands = { $person } now, at { $scope }
record-preview-stays = Times of now are taken again when it is signed. Once it is recorded it stays in the record for good. What is wrong can be put right by further entries only.
record-preview-with-it = What is stored with it

record-declaration =
    .authored = I made this entry, and what it says is true as far as I know. I answer for it with my name.
    .trained = I trained this person myself, as the entry says. I answer for it with my name.
    .observed = I saw with my own eyes what the entry says. I answer for it with my name.
    .assessed = I judged this myself, by what I saw and read. I answer for it with my name.
    .reviewed = I looked through what the entry names and found it as the entry says. I answer for it with my name.
    .approved = I approve what the entry says, and I have the right to. I answer for it with my name.
    .suspended = I stop this person for the reason that I gave. I answer for it with my name.
    .reinstated = I let this person work again, on the evidence that the entry names. I answer for it with my name.
    .withdrawn = I end what this person was signed off for, for the reason that I gave. I answer for it with my name.
    .corrected = I put right what was wrong, for the reason that I gave. I answer for it with my name.
    .acknowledged = I have read or heard what the entry names, and I have understood it. I answer for it with my name.

# What a signature under each kind of entry changes.
record-changes =
    .founded = The record begins. The signer owns it: may give rights and set the policy.
    .joined = The person belongs to the laboratory from now on. Rights and keys are given by further entries.
    .left = The person no longer belongs to the laboratory. All their rights, keys and sign-offs end.
    .granted = The person may use this right from now on.
    .revoked = The person may no longer use this right. What was signed under it before stays valid.
    .key-issued = The person can sign with this key from now on.
    .key-lost = Nothing can be signed with this key from now on. What was signed with it before stays valid.
    .assigned = The person has to become able to do this: training begins. A sign-off that was ended does not come back.
    .read = Reading counts as done for this edition.
    .awareness-acknowledged = A sign-off on the revision before covers this one too, where the laboratory asks for no more.
    .trained = The training counts for this edition. It also leads out of training after a failed assessment.
    .protection-shown = Protection counts as shown in this workflow. It comes before any supervised work.
    .supervised-by = The person may work under this supervision for that time, once what comes before it is complete.
    .case-checked = An acceptable case counts toward the sign-off.
    .observed = A run that was passed counts toward the sign-off. A failed one stays in the file, ends a row of clean ones, makes a sign-off due and sends a trainee back into training.
    .evaluated = It counts toward the sign-off that training worked. That it did not work makes a sign-off due.
    .signed-off = The person may work alone within this scope from the day that is named, until the sign-off lapses or is stopped.
    .suspended = The person is stopped at once, in every scope of this workflow. It takes evidence and two people to go on.
    .reinstated = The suspension ends once a second person has signed this.
    .withdrawn = The sign-off ends. Only a new need and the whole path lead back.
    .called-in = The sign-off is due: the person has to be assessed again in time, or it lapses.
    .countersigned = The entry that is named counts as signed by a second person, or as noted by the person that it is about.
    .corrected = The entry is read with the new value. The old one stays visible. Where an entry decides about somebody, it counts once a second person has signed it.
    .voided = The entry counts for nothing and stays visible. Where an entry decides about somebody, it counts once a second person has signed it.
    .revision-adopted = The revision holds from its day on, once a second person has signed this. Sign-offs on the revision before hold on only as far as it says.
    .workflow-retired = The workflow is no longer done. All sign-offs for it end.
    .policy-set = The numbers of the laboratory hold from now on. They can make sign-offs due or lapse at once.
    .trail-reviewed = The entries of that time count as looked through.
    .restored = It is declared that these entries are lost. Verification prints it from now on.
