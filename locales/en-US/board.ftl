# The board of the day: what there is to do for one person, `board-…`.

board-waits-for-you = Waits for your signature
board-others = People
board-own = Your own workflows
board-waits-for-others = Waits for somebody else's signature
board-record = The record

board-second = A second signature is wanted: { $said } ({ $at })
board-second-of-others = It does not count yet: { $said } ({ $at })
board-acknowledge = { $by } watched you at { $workflow } on { $day }, case { $case }: { $judgement }. Sign that you have taken note of it.
board-scope = { $workflow }: { $told }
board-other = { $person }, { $told }
board-ready = ready for sign-off. Everything is there but the signature.
board-signed-off = signed off until { $until }.
board-due = due; may work alone until { $until }. { $why }
board-lapsed = lapsed; was signed off until { $until }. { $why }
board-missing = { $told }. Missing first: { $need }.
board-worth-practising = { $told }. Worth practising: { $need }.
board-never = never
board-looked-after = Last gone through and signed: { $reviewed }. Last copy: { $copied }.
