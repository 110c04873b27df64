# Deeds: what is signed on screens, what follows from a signature, who could do what somebody may not, and what evidence is worth.

## What observed runs are worth, `standing-worth-…`

standing-worth-title = What the observed runs are worth
standing-worth-nothing = No observed run counts yet, so nothing can be said of how often the work is clean. { DEC($needed) } clean runs in a row would show, with 95 % confidence, that at least 95 in 100 are.
standing-worth-little = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }): that says little. { DEC($needed) } clean runs in a row would show 95 in 100, { DEC($come) } more than there are.
standing-worth-little-with-faults = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }): that says little. To show 95 in 100 it would take { DEC($needed) } runs in all without another fault, { DEC($come) } more than there are.
standing-worth-something = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }). { DEC($needed) } clean runs in a row would show 95 in 100, { DEC($come) } more than there are.
standing-worth-something-with-faults = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }). To show 95 in 100 it would take { DEC($needed) } runs in all without another fault, { DEC($come) } more than there are.
standing-worth-enough = { DEC($clean) } of { DEC($of) } observed runs were clean. With 95 % confidence at least { $least } in 100 would be (two-sided: { $low } to { $high }).
standing-worth-decides = Numbers support a decision and never make it: whoever signs answers for what was seen.
