# The board of the day: what there is to do for one person, `board-…`.

board-waits-for-you = Waits for your signature
board-others = People
board-own = Your own workflows
board-waits-for-others = Waits for somebody else's signature
board-record = The record
board-set-up = Setting up
board-title = Board of { $person }
board-nothing = Nothing is to be done.

board-step =
    .people = Let people join: each gets a code; the name stands in the register only. If nobody else ever will, say so in the policy.
    .keys = Give everybody a key: whoever has none can sign nothing. The person chooses the passphrase; you make sure who it is.
    .rights = Give these rights; nobody holds them yet: { $rights }. One person may have several.
    .workflow = Adopt a workflow: its revision, from when it holds, and what it asks of a sign-off. A second person approves of it.
    .assigned = Assign people to the workflows that they are to learn.
    .first-assessor = Sign off a first assessor for each workflow, who has read and rehearsed it, on proof from outside; somebody else with the right to approve signs{ $assessors ->
        [0] .
        [one] .
       *[other] ; what is adopted asks for { DEC($assessors) } assessors, so { DEC($assessors) } of them, before the first begins.
    }
    .from-outside = Sign somebody off on what a person from outside watched or judged, for each workflow: your policy says that nobody here can assess independently.

board-second = A second signature is wanted: { $said } ({ $at })
board-second-of-others = It does not count yet: { $said } ({ $at }) { $who }
board-second-by-nobody = Nobody here could be the second as things stand.
board-acknowledge = { $by } watched you at { $workflow } on { $day }, case { $case }: { $judgement }. Sign that you have taken note of it.
board-scope = { $workflow }: { $told }
board-other = { $person }, { $told }
board-ready = ready for sign-off. Everything is there but the signature.
board-signed-off = signed off until { $until }.
board-set-back =
    .failed = back in training: a run was failed, and no training came after it yet.
    .missing = back in training after work under supervision. { $step }
    .unsupervised = back in training: nobody supervises any more. Somebody has to take it over.
board-due = due; may work alone until { $until }. { $why }
board-lapsed = lapsed; was signed off until { $until }. { $why }
board-next = { $told }. { $step }
board-never = never
board-looked-after = Last gone through and signed: { $reviewed }. Last copy: { $copied }.
