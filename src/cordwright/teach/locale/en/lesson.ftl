# The words of a lesson. Lengths, names and notes come in as they are to be shown.
# Every language has the same messages with the same arguments; a test holds them to it.

## Units and lists
decimal-sign = .
unit-in = in
unit-ft = ft
both-units = { $metric } ({ $inch })
range = { $low } to { $high }
up-to = up to { $length }
list-and = { $first } and { $last }
minutes = { $n } min
hours = { $n } h
grams = { $n } g
strand-places = { $n ->
    [one] strand { $places }
   *[other] strands { $places }
}
groups-many = { $first } and so on to { $last }
wrap-round = { $first } with { $last }

## Headings
head-facts = At a glance
head-materials = What to gather
head-tools = At hand
head-cuts = Cutting and folding
head-cut = Cut
head-knots = Knots used
head-setting-up = Setting up
head-work = The work
head-step = Step { $n }
head-check = Before you go on
head-note = Note
head-end = { $use ->
    [hung] Finishing and hanging
    [carried] Finishing and carrying
    [worn] Finishing and wearing
   *[plain] Finishing
}
head-cautions = { $use ->
    [hung] Before anything hangs
    [carried] Before anything is carried in it
   *[unknown] If anything is to hang on it
}

## Knots: as names, and as what is tied
name-larks-head = lark's head
name-half-knot = half knot
name-square-knot = square knot
name-half-hitch = half hitch
name-double-half-hitch = double half hitch
name-overhand = overhand knot
name-gathering = gathering knot
name-braid = braid
tied-half-knot = { $n ->
    [one] a half knot
   *[other] { $n } half knots
}
tied-square-knot = { $n ->
    [one] a square knot
   *[other] { $n } square knots
}
tied-half-hitch = { $n ->
    [one] a half hitch
   *[other] { $n } half hitches
}
tied-overhand = { $n ->
    [one] an overhand knot
   *[other] { $n } overhand knots
}

## At a glance
fact-length = Length from the top to the lowest end: { $length } (as the lengths add up).
fact-hangs = Finished length: { $hangs }; its lengths add up to { $length }.
fact-width = Width over the knots: { $length }.
fact-count = { $cords ->
    [one] One cord
   *[other] { $cords } cords
}, { $knots ->
    [one] one knot
   *[other] { $knots } knots
}.
fact-numbering = { $side ->
    [left] Strands are numbered from the left, in the round from the seam.
   *[right] This is the left-handed edition: everything is the mirror image, and strands are numbered from the right, in the round from the seam.
}
fact-time = Time: about { $likely }; between { $low } and { $high } for quick and slow hands (an estimate from the knots).
fact-difficulty = { $level ->
    [1] Difficulty 1 of 4: a first piece.
    [2] Difficulty 2 of 4: some practice helps.
    [3] Difficulty 3 of 4: for practised hands.
   *[4] Difficulty 4 of 4: for patient, practised hands.
}
fact-reasons = What makes it so: { $reasons }.
reason-round = work in the round
reason-slanted = slanted rows of hitches
reason-many-slanted = many hitches that must keep their line
reason-passes = groups that pass each other
reason-added = cords added half-way
reason-many-strands = many strands at once
reason-many-knots = many knots
reason-many-kinds = several kinds of knot
reason-uneven-folds = cords that are not simply folded in the middle

## What to gather
material = { $length } of cord “{ $name }”: { $kind }, { $thick } thick.
material-weight = It weighs about { $weight }.
mount-ring = A ring, { $inside } wide inside, of wire { $thick } thick.
mount-rod = A rod, { $length } long and { $thick } thick.
tool-scissors = Scissors.
tool-tape-measure = A tape measure.
tool-hook = A hook or rail to hang the work on while you tie.
tool-board = A board and pins to hold the work.
tool-comb = A comb for the fringe.
tool-needle = A blunt needle or a crochet hook, to draw tails in.

## Cutting
cut-line = { $count } × { $length } of “{ $cord }”, { $fold }; { $part }.
cut-given = { $count } × { $length } of “{ $cord }” (already cut), { $fold }; { $part }.
fold-middle = folded in the middle
fold-none = not folded
fold-uneven = folded into { $left } on the left and { $right } on the right
part-mount = hung on at the start
part-added = added during the work
part-holding = laid in as a holding cord
part-wrap = wound as a gathering knot

## Setting up
set-holding-cord = Stretch cord { $cut } level in front of you and pin it down, with { $tail } standing out at either end.
set-larks-head = { $count ->
    [one] Fold one cord { $cut } in the middle and hang it on with a lark's head
   *[other] Fold { $count } cords { $cut } in the middle and hang them on side by side, each with a lark's head
}, { $face ->
    [reverse] its bar behind
   *[face] its bar in front
}. { $count ->
    [one] It makes
   *[other] They make
} { $strands }.
set-larks-head-uneven = { $count ->
    [one] Fold one cord { $cut } into parts of { $short } and { $long } and hang it on with a lark's head
   *[other] Fold { $count } cords { $cut } into parts of { $short } and { $long } and hang them on side by side, each with a lark's head
}, { $face ->
    [reverse] its bar behind
   *[face] its bar in front
}, the long part { $side ->
    [left] on the left
   *[right] on the right
}. { $count ->
    [one] It makes
   *[other] They make
} { $strands }.
set-folded = { $count ->
    [one] Fold one cord { $cut } in the middle and pin it down by its fold
   *[other] Fold { $count } cords { $cut } in the middle and pin them down by their folds, side by side
}. { $count ->
    [one] It makes
   *[other] They make
} { $strands }.
set-folded-uneven = { $count ->
    [one] Fold one cord { $cut } into parts of { $short } and { $long } and pin it down by its fold
   *[other] Fold { $count } cords { $cut } into parts of { $short } and { $long } and pin them down by their folds, side by side
}, the long part { $side ->
    [left] on the left
   *[right] on the right
}. { $count ->
    [one] It makes
   *[other] They make
} { $strands }.
set-single = { $count ->
    [one] Fix one cord { $cut } unfolded
   *[other] Fix { $count } cords { $cut } unfolded, side by side
}, with { $tail } standing above the work. { $count ->
    [one] It makes
   *[other] They make
} { $strands }.
set-again = Go on in the same order, { $times ->
    [one] once more
   *[other] { $times } more times
}, up to strand { $last }.
set-in-turn = Hang the cords on side by side in this order, each folded as it says and with a lark's head, { $face ->
    [reverse] its bar behind
   *[face] its bar in front
}. The numbers in front are the strands that they make.
set-in-turn-pinned = Pin the cords down side by side in this order, each by its fold. The numbers in front are the strands that they make.
set-item = { $places }: { $count ->
    [one] one cord { $cut }
   *[other] { $count } cords { $cut }
}, folded in the middle
set-item-uneven = { $places }: { $count ->
    [one] one cord { $cut }
   *[other] { $count } cords { $cut }
}, { $left } left, { $right } right
set-items-again = Then go on in the same order, { $times ->
    [one] once more
   *[other] { $times } more times
}, up to strand { $last }.

## Titles of steps
title-mount = Set up the cords
title-half-knot = { $n ->
    [one] Half knot
   *[other] Half knots
}
title-square-knot = { $n ->
    [one] Square knot
   *[other] Square knots
}
title-half-hitch = { $n ->
    [one] Half hitch
   *[other] Half hitches
}
title-double-half-hitch = { $n ->
    [one] Double half hitch
   *[other] Double half hitches
}
title-overhand = { $n ->
    [one] Overhand knot
   *[other] Overhand knots
}
title-gathering = Gathering knot
title-braid = { $n ->
    [one] Braid
   *[other] Braids
}
title-free = Free cord
title-pass = Change places
title-reorder = A new order
title-join = Close the round
title-open = Open the round
title-seam = Count anew
title-add = Add cords
title-leave = Strands that end here
title-fringe = Trim the fringe
title-tail = Trim the ends
title-again = Once more

## Steps
tie-one = Tie { $what } on { $where }.
tie-each = Tie { $what } on each of these { $n } groups: { $where }.
tie-rows = Tie { $rows } rows; at each place { $what }.
row-on = Row { $row }: { $n ->
    [one] one group
   *[other] { $n } groups
}, { $where }.
rows-again = { $n ->
    [one] Row { $from }: as row { $first }.
   *[other] Rows { $from } to { $to }: as rows { $first } to { $last }.
}
rows-again-two = { $n ->
    [one] Row { $from }: as row { $first }.
   *[other] Rows { $from } to { $to }: as rows { $first } and { $last }.
}
row-as = Rows { $from } to { $to }: all as row { $first }.
rows-shrink = Rows { $from } to { $to }: in every row leave { $strands } more { $strands ->
    [one] strand
   *[other] strands
} out at each side; the last row has { $last ->
    [one] one group
   *[other] { $last } groups
}.
rows-grow = Rows { $from } to { $to }: in every row take { $strands } more { $strands ->
    [one] strand
   *[other] strands
} in at each side; the last row has { $last ->
    [one] one group
   *[other] { $last } groups
}.
hand-working = { $hand ->
    [left] Begin each knot with the left working strand in front.
    [right] Begin each knot with the right working strand in front.
   *[alternate] Begin the knots by turns: the first with the left working strand in front, the next with the right one.
}
hand-spiral = { $hand ->
    [left] Begin every half knot with the left working strand in front: the sinnet turns by itself.
    [right] Begin every half knot with the right working strand in front: the sinnet turns by itself.
   *[alternate] Begin the half knots by turns with the left and with the right working strand in front.
}
hand-hitch = { $hand ->
    [left] Hitch with the left strand round the others.
    [right] Hitch with the right strand round the others.
   *[alternate] Hitch by turns with the left strand and with the right one round the others.
}
workers = Within each group strands { $places } work, round the others.
workers-outer = { $fillers ->
    [one] The two outer strands of a group work; the one between them is the filler and hangs straight.
   *[other] The two outer strands of a group work; the { $fillers } between them are the fillers and hang straight.
}
free-above = Leave { $length } of free cord above the first knot.
gap-between = Leave { $length } of free cord between one knot and the next.
gap-rows = Leave { $length } of free cord between one row and the next.
open-cord = The cord above these knots settles by itself: { $range } stay free.
hitch-on = Strand { $holding } is the holding cord. Lead it to the { $side ->
    [left] left
   *[right] right
}, { $slant }, and tie a double half hitch on it with { $strands }{ $n ->
    [one] .
   *[other] , in this order.
}
hitch-laid = Lay in cord { $cut } as a holding cord, { $slant }, with { $tail } standing out at either end. Work towards the { $side ->
    [left] left
   *[right] right
} and tie a double half hitch on it with { $strands }{ $n ->
    [one] .
   *[other] , in this order.
}
hitch-rows = { $n ->
    [one] Then one more row below it on the same places, with the strand that now stands first as the holding cord.
   *[other] Then { $n } more rows below it on the same places, each with the strand that then stands first as the holding cord.
}
slant-level = level
slant-steep = sloping down { $degrees }°
braid-on = Braid strands { $where }, { $times ->
    [one] one full round
   *[other] { $times } full rounds
}.
braid-each = Make { $n } braids: { $where }; each { $times ->
    [one] one full round
   *[other] { $times } full rounds
}.
gather-with = Bind { $strands } with a gathering knot: lay cord { $cut } along them in a loop that points down, then wind it round strands and loop, from the top down, { $turns ->
    [one] one turn
   *[other] { $turns } turns side by side
}. Put the end through the loop, pull the upper end until the loop has slipped under the turns, and trim both ends.
gather-strand = Bind { $strands } with a gathering knot of strand { $wrap }: lay it along them in a loop that points down, then wind it round strands and loop, from the top down, { $turns ->
    [one] one turn
   *[other] { $turns } turns side by side
}. Put its end through the loop and draw the loop in under the turns.
free-cord = Leave { $length } of free cord on { $strands } before the next knot.
pass-front = Lead { $front } in front of { $behind }: the two groups change places. Nothing is tied.
reorder-groups = { $n ->
    [one] Number the strands of the group ({ $where })
   *[other] Number the strands of each group ({ $where })
} from 1 to { $size }, then lay them in this order: { $order }. From here on they count by their new places.
join-round = Close the work into a round: the last strand now lies beside the first.
open-flat = Open the round at the seam: the work is flat again, and strand { $first } is number 1.
seam-moves = Count anew: strand { $first } is number 1 from here.
add-folded = { $count ->
    [one] Add one cord { $cut }, folded
   *[other] Add { $count } cords { $cut }, folded
}; { $count ->
    [one] the next knot holds it
   *[other] the next knot holds them
}. New: { $strands }.
add-uneven = { $count ->
    [one] Add one cord { $cut }, folded into parts of { $short } and { $long }
   *[other] Add { $count } cords { $cut }, folded into parts of { $short } and { $long }
}, the long part { $side ->
    [left] on the left
   *[right] on the right
}; { $count ->
    [one] the next knot holds it
   *[other] the next knot holds them
}. New: { $strands }.
add-single = { $count ->
    [one] Add one cord { $cut }, unfolded
   *[other] Add { $count } cords { $cut }, unfolded
}, with a tail of { $tail } standing out; { $count ->
    [one] the next knot holds it
   *[other] the next knot holds them
}. New: { $strands }.
leave-strands = Here { $strands } end: cut them { $length } below their last knot.
fringe-level = Trim { $strands } along a level line: { $length } below their last knot.
fringe-point = Trim { $strands } to a point, longest in the middle: { $length } below their last knot.
fringe-slant = Trim { $strands } at a slant, longest { $side ->
    [left] on the left
   *[right] on the right
}: { $length } below their last knot.
fringe-falls = Trim { $strands } each for itself: { $length } below its last knot.
tails-trim = Trim { $strands } to { $length } below their last knot.
again-same = Do { $steps } again, { $times ->
    [one] once more
   *[other] { $times } more times
}.
again-on = Do { $steps } again in the same way, on { $strands }.
again-moved = Do { $steps } again, { $times ->
    [one] once more
   *[other] { $times } more times
}, each time { $shift } strands further on.
steps-one = step { $first }
steps-two = steps { $first } and { $last }
steps-many = steps { $first } to { $last }

## Checks
check-sinnet = { $groups ->
    [one] The sinnet now measures about { $length }.
   *[other] Each sinnet now measures about { $length }.
}
check-braid = { $groups ->
    [one] The braid now measures about { $length }.
   *[other] Each braid now measures about { $length }.
}
check-rows = From the first row to the last it measures about { $length }.
check-wrap = The wrapping is about { $length } high.
check-left-working = Working strands still have about { $length }, spare included.
check-left-holding = { $n ->
    [one] The holding strand still has about { $length }, spare included.
   *[other] Holding strands still have about { $length }, spare included.
}
check-depth = The work now reaches about { $length } below the top.

## Finishing and hanging
finish-tighten = Go over the last knots once more and pull them tight.
finish-tails = Draw the tails of laid-in and ended cords through the knots at the back, then trim them.
finish-fringe = Comb out the fringe, or knot every end, and trim it once more when it hangs straight.
hang-on = Hang the piece by its { $mount ->
    [ring] ring
    [level] ring, so that the ring lies level
    [rod] rod, so that it hangs level
   *[cord] holding cord, with both ends made fast
}, and pull it into shape.
hang-load = Put the { $load ->
    [pot] pot
    [bowl] bowl
    [box] box
    [sphere] ball
   *[thing] load
} in last, and see that it stands level and touches cord all round.
carry-try = Put in what it is to carry, lift it a little way above something soft, and look at every knot: none may slip.
carry-settle = Under its first loads cord gives and knots draw together: go over all knots again after some days.
wear-fit = Put it on before you trim the ends for good, and see that it fits: knots draw together and cord gives as it is worn.
wear-settle = After the first days go over the knots near { $mount ->
    [ring] the ring
    [rod] the bar
    [cord] the holding cord
   *[nothing] both ends
} once more: there it is pulled most.
caution-sums = These are sums over published figures, not a test of your cord. Cotton cords of one thickness differ up to six-fold: a pull test of your own cord beats any table.
caution-ages = Cord ages, frays and rots, knots slip and loosen: look at the piece often, and take it down when in doubt.
caution-try = Try it first with more than its load, low above a soft floor, and leave it there for a day.
caution-hook = Choose hook, plug and screw by their maker's data and the local code; a ceiling is not known from below.
caution-people = For anything over people's heads, above a bed or a cot, or that people or animals climb on or hang from, ask a licensed person.
caution-carry = It is made for things: no person and no animal may be carried, lifted or held by it.
