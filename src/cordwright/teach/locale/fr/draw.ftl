# Mots dans les images ; cordwright.draw.wording dit lesquels il y a.
draw-chart-title = { $title } : diagramme
draw-chart-about = Diagramme, à travailler de haut en bas.
draw-leave = laisser { $lengths }
draw-repeat = { $times } fois, rangs { $first } à { $last }
draw-strand = { $title } : brin { $name }
draw-cord = { $title } : fil { $name }
draw-thick = { $mm } mm
draw-knot-square-knot = { $n ->
    [one] Nœud plat autour d'un fil porteur
   *[other] Nœud plat autour de { $n } fils porteurs
}, main { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-half-knot = { $n ->
    [one] Demi-nœuds autour d'un fil porteur
   *[other] Demi-nœuds autour de { $n } fils porteurs
}, main { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-half-hitch = { $n ->
    [one] Demi-clé autour d'un fil porteur
   *[other] Demi-clé autour de { $n } fils porteurs
}, main { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-double-half-hitch = Double demi-clé vers la { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-double-half-hitch-slanted = Double demi-clé inclinée de { $degrees }°, vers la { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-larks-head = Tête d'alouette
draw-knot-larks-head-reverse = Tête d'alouette inversée
draw-knot-gathering = Surliure de { $turns } tours autour de { $n ->
    [one] 1 brin
   *[other] { $n } brins
}
draw-knot-overhand = Nœud simple à { $n ->
    [one] 1 brin
   *[other] { $n } brins
}, main { $hand ->
    [left] gauche
   *[right] droite
}
draw-knot-braid = Tresse à { $n } brins
draw-knot-on-ring = { $knot }, sur un anneau { $times } fois aussi épais que le fil
draw-knot-on-rod = { $knot }, sur un bâton { $times } fois aussi épais que le fil
draw-knot-filler = { $knot }, fils porteurs { $times } fois aussi épais que le fil de travail
draw-knot-holding = { $knot }, fil porte-nœud { $times } fois aussi épais que le fil de travail
draw-step = { $knot } : étape { $number } sur { $of }
draw-step-last = { $knot } : étape { $number } sur { $of }, serré
draw-cords = Fils : { $inks }.
draw-ink = { $colour }, { $mark }
draw-colour-terracotta = terre cuite
draw-colour-teal = bleu canard
draw-colour-ochre = ocre
draw-colour-plum = prune
draw-colour-mist = bleu brume
draw-colour-leaf = vert feuille
draw-colour-flax = lin
draw-colour-wood = bois
draw-mark-plain = uni
draw-mark-line = ligne
draw-mark-ticks = traits
draw-mark-dots = points
draw-mark-bands = bandes
draw-mark-dashes = tirets
