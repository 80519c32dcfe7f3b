# Words within pictures; which there are, cordwright.draw.wording says.
draw-chart-title = { $title }: chart
draw-chart-about = Chart, worked from the top down.
draw-leave = leave { $lengths }
draw-repeat = { $times } times, rows { $first } to { $last }
draw-strand = { $title }: strand { $name }
draw-cord = { $title }: cord { $name }
draw-thick = { $mm } mm
draw-knot-square-knot = { $n ->
    [one] Square knot round 1 filler
   *[other] Square knot round { $n } fillers
}, { $hand ->
    [left] left
   *[right] right
} hand
draw-knot-half-knot = { $n ->
    [one] Half knots round 1 filler
   *[other] Half knots round { $n } fillers
}, { $hand ->
    [left] left
   *[right] right
} hand
draw-knot-half-hitch = { $n ->
    [one] Half hitch round 1 filler
   *[other] Half hitch round { $n } fillers
}, { $hand ->
    [left] left
   *[right] right
} hand
draw-knot-double-half-hitch = Double half hitch, to the { $hand ->
    [left] left
   *[right] right
}
draw-knot-double-half-hitch-slanted = Double half hitch, slanted by { $degrees }°, to the { $hand ->
    [left] left
   *[right] right
}
draw-knot-larks-head = Lark's head
draw-knot-larks-head-reverse = Lark's head in reverse
draw-knot-gathering = Gathering knot of { $turns } turns round { $n ->
    [one] 1 strand
   *[other] { $n } strands
}
draw-knot-overhand = Overhand knot of { $n ->
    [one] 1 strand
   *[other] { $n } strands
}, { $hand ->
    [left] left
   *[right] right
} hand
draw-knot-braid = Braid of { $n } strands
draw-knot-on-ring = { $knot }, on a ring { $times } times as thick as the cord
draw-knot-on-rod = { $knot }, on a rod { $times } times as thick as the cord
draw-knot-filler = { $knot }, fillers { $times } times as thick as the working cord
draw-knot-holding = { $knot }, holding cord { $times } times as thick as the working cord
draw-step = { $knot }: step { $number } of { $of }
draw-step-last = { $knot }: step { $number } of { $of }, drawn up
draw-cords = Cords: { $inks }.
draw-ink = { $colour }, { $mark }
draw-colour-terracotta = terracotta
draw-colour-teal = teal
draw-colour-ochre = ochre
draw-colour-plum = plum
draw-colour-mist = mist
draw-colour-leaf = leaf
draw-colour-flax = flax
draw-colour-wood = wood
draw-mark-plain = plain
draw-mark-line = line
draw-mark-ticks = ticks
draw-mark-dots = dots
draw-mark-bands = bands
draw-mark-dashes = dashes
