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

## Who could do it, `standing-could-…`

standing-could = { $texts }
standing-could-sign = Could sign it now: { $people }.
standing-could-do = For “{ $need }”: { $people }.
standing-could-nobody = For “{ $need }”: nobody here can as things stand.
standing-more-people = { $count ->
        [one] { DEC($count) } more
       *[other] { DEC($count) } more
    }

## What follows from a signature, `standing-follows-…`

standing-follows-title = What follows from it
standing-follows-from = Standings that change, as they will be at { $at }:
standing-follows-change = { $person }, { $scope }: { $before }, then { $after }
standing-follows-second = It counts once a second person has signed it too; above it is counted so. Could be the second: { $people }.
standing-follows-no-second = It counts once a second person has signed it too, and nobody here could as things stand.
standing-follows-cases = Cases of the last 30 days that somebody watched or checked, to be looked at again. The record knows no others.
standing-follows-judged = This person has supervised, watched or evaluated these people, who stand on it. What was signed before keeps counting; it is for you to look at:
standing-follows-judged-person = { $person }: { $count ->
        [one] { DEC($count) } entry
       *[other] { DEC($count) } entries
    }
standing-follows-resting = These decisions name the entry as what they rest on:
standing-follows-entry = { $at }, { $kind }, { $has ->
        [case] case { $case }, { $person }, { $entry }
       *[none] { $person }, { $entry }
    }
standing-follows-more = { $count ->
        [one] and { DEC($count) } more
       *[other] and { DEC($count) } more
    }
