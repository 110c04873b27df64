# The board of the day: what there is to do for one person, `board-…`.

board-waits-for-you = Waits for your signature
board-others = People
board-own = Your own workflows
board-waits-for-others = Waits for somebody else's signature
board-record = The record

board-second = A second signature is wanted: { $said } ({ $at })
board-second-of-others = It does not count yet: { $said } ({ $at })
board-acknowledge = You were watched and have not taken note of it: { $said } ({ $at })
board-scope = { $workflow }: { $told }
board-other = { $person }, { $told }
board-missing = Missing first: { $need }.
board-worth-practising = Worth practising. { $need }.
board-never = never
board-looked-after = Last gone through and signed: { $reviewed }. Last copy: { $copied }.
