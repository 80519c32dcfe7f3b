# Headings and labels of printed pages. Sentences of the lesson are not here.
print-kind-booklet = A plan to tie
print-kind-filming = Filming sheet
print-contents = Inside
print-glance = At a glance
print-before = Before you begin
print-before-read = Read it through once with the pictures before you cut anything.
print-before-swatch = Tie a trial of ten knots in your own cord: hands and cords differ, and the spare in the cut list is for that.
print-before-count = Strands are numbered through the whole line-up from the left, in the round from the seam.
print-before-count-mirrored = Strands are numbered through the whole line-up from the right, in the round from the seam. All pictures are mirrored.
print-before-editions = Where lengths differ they stand in this order: { $names }.
print-materials = Materials
print-tools = At hand
print-cuts = Cut list
print-cuts-tick = Tick a box for every cord that is cut. Where there is one box for many cords, tick it when all are cut.
print-knots = Knots in this piece
print-knots-about = Each picture is one move; what moves in it is in full colour, with an arrow. The last picture is the knot drawn tight.
print-steps = Step by step
print-chart = Chart
print-chart-about = The whole work in signs, row by row from the top down.
print-whole = The whole piece
print-sizes = Sizes
print-colophon = About this booklet
print-left-handed = Left-handed edition
print-editions = Sizes in this booklet: { $names }
print-col-id = Mark
print-col-done = Cut
print-col-cord = Cords
print-col-length = Length and fold
print-col-spare = Spare in it
print-col-material = Cord
print-col-total = In all
print-col-weight = Weight
print-col-size = Size
print-col-about = What it is
print-col-here = Here
print-fold-middle = fold in the middle
print-fold-none = do not fold
print-fold-uneven = fold: { $left } left, { $right } right
print-already = already cut
print-fact-length = Finished length
print-fact-cord = Cord
print-fact-time = Time
print-fact-level = Difficulty
print-level = { $level } of 4
print-time-hours = { $minutes ->
    [0] { $hours } h
   *[other] { $hours } h { $minutes } min
}
print-time-minutes = { $minutes } min
print-step-time = about { $time }
print-alt-cover = { $title }: the whole piece, drawn knot by knot.
print-alt-measured = { $title }: the whole piece with its measures.
print-alt-chart = Chart of { $title }; the steps say the same in words.
print-alt-tying = { $knot }, picture { $number } of { $of }. { $moves }
print-alt-knot = { $knot }, tied and drawn tight.
print-knot-round = { $n ->
    [one] { $knot } round one filler
   *[other] { $knot } round { $n } fillers
}
print-knot-of = { $knot } of { $n } strands
print-knot-on = { $knot } { $over ->
    [ring] on a ring
    [rod] on a rod
   *[none] on a cord
}
print-knot-bar = { $knot }, { $face ->
    [reverse] its bar behind
   *[face] its bar in front
}
print-knot-towards = { $knot }, towards the { $hand ->
    [left] left
   *[right] right
}
print-knot-with = { $knot } with the { $hand ->
    [left] left
   *[right] right
} strand
print-knot-begun = { $knot }, { $hand ->
    [left] left
   *[right] right
} strand in front
print-move = { $colour }: { $passes }.
print-both-ends = Both ends
print-together = All { $n } strands together
print-fold = Fold the cord and hold its fold at { $over ->
    [ring] the ring
    [rod] the rod
   *[none] the holding cord
}.
print-own-loop = make a loop, the { $n ->
    [one] end
   *[other] ends
} { $side ->
    [front] in front
   *[behind] behind
}
print-own-past = lead the { $n ->
    [one] end
   *[other] ends
} on, { $side ->
    [front] in front of
   *[behind] behind
} the part that comes from above
print-own-into = put the { $n ->
    [one] end
   *[other] ends
} into the loop from { $side ->
    [front] the front
   *[behind] behind
}
print-own-out = draw the { $n ->
    [one] end
   *[other] ends
} out of the loop { $side ->
    [front] to the front
   *[behind] to the back
}
print-loop = { $of ->
    [terracotta] the loop of the terracotta cord
    [teal] the loop of the teal cord
    [ochre] the loop of the ochre cord
    [plum] the loop of the plum cord
    [mist] the loop of the mist cord
    [leaf] the loop of the leaf green cord
    [fold] the loop at the fold
   *[itself] its own loop
}
print-through-front = forward through { $loop }
print-through-back = back through { $loop }
print-drawn-up = Draw it up evenly.
print-drawn-up-wrap = Pull the upper end until the loop has slipped under the turns, and trim both ends.
print-wrap-loop = Lay it down along the bundle and up again, so that it makes a loop that points down.
print-wrap-round = { $n ->
    [one] Turn { $last }
   *[other] Turns { $first } to { $last }
}: round the bundle and its own loop.
print-wrap-behind = Lead it on behind the bundle.
print-wrap-through = Put the end through the loop, from the front.
print-over = in front of { $what }
print-under = behind { $what }
print-what-filler = { $n ->
    [one] the filler
   *[other] the fillers
}
print-what-holding = the holding cord
print-what-ring = the ring
print-what-rod = the rod
print-what-itself = itself
print-what-other = another strand
print-what-terracotta = the terracotta cord
print-what-teal = the teal cord
print-what-ochre = the ochre cord
print-what-plum = the plum cord
print-what-mist = the mist cord
print-what-leaf = the leaf green cord
print-what-flax = the pale cord
print-what-wood = the bar
print-then = { "," } then{ " " }
print-colour-terracotta = Terracotta cord
print-colour-teal = Teal cord (with a line)
print-colour-ochre = Ochre cord (with ticks)
print-colour-plum = Plum cord (with dots)
print-colour-mist = Mist cord (with bands)
print-colour-leaf = Leaf green cord (with dashes)
print-colour-flax = Pale cord
print-colour-wood = The bar
print-version = Edition { $edition } · fingerprint { $print }
print-licence-default = All rights in text and pictures remain with the maker of this plan.
print-made-with = Computed and set with Cordwright { $version }. Figures and lengths come from knots that were tightened by computation: ideal round cord, pulled tight. Your cord will differ.
print-fonts = Set in Source Serif Pro and Source Sans Pro (SIL Open Font License 1.1).
print-shots = Shots
print-shots-about = A knot that comes for the first time is shown { $shown } times, slowly; after that one of each kind is shown as it is tied, and the rest is tied with the camera off. Minutes follow from what is said ({ $words } words a minute) and shown.
print-ready = To have tied
print-ready-about = The piece at these stages, to swap in; or tie on between shots, for the time in the last column.
print-chapters = Chapter marks
print-description = Text for the description
print-description-about = Ready to paste under the film.
print-col-shot = Shot
print-col-begins = At
print-col-says = What to say and show
print-col-minutes = Length
print-col-stage = Stage
print-col-done-to = Tied up to
print-col-tied = From nothing
print-col-off = Camera off
print-col-mark = Mark
print-col-chapter = Chapter
print-done-to = step { $step }, { $title } ({ $section })
print-swap = Swap in stage { $stage }: { $time } of tying with the camera off.
print-shot-opening = The finished piece
print-shot-materials = What you need
print-shot-cutting = Cutting
print-shot-closing = Before you go
print-fact-film = Film
print-fact-off = Camera off
print-fact-shots = Shots
print-fact-stages = Stages to tie
