# Wörter in Bildern; welche es gibt, sagt cordwright.draw.wording.
draw-chart-title = { $title }: Knüpfschrift
draw-chart-about = Knüpfschrift, von oben nach unten zu arbeiten.
draw-leave = { $lengths } frei
draw-repeat = { $times }-mal, Reihen { $first } bis { $last }
draw-strand = { $title }: Strang { $name }
draw-cord = { $title }: Faden { $name }
draw-thick = { $mm } mm
draw-knot-square-knot = { $n ->
    [one] Kreuzknoten um 1 Leitfaden
   *[other] Kreuzknoten um { $n } Leitfäden
}, { $hand ->
    [left] linke Hand
   *[right] rechte Hand
}
draw-knot-half-knot = { $n ->
    [one] Halbe Knoten um 1 Leitfaden
   *[other] Halbe Knoten um { $n } Leitfäden
}, { $hand ->
    [left] linke Hand
   *[right] rechte Hand
}
draw-knot-half-hitch = { $n ->
    [one] Halber Schlag um 1 Leitfaden
   *[other] Halber Schlag um { $n } Leitfäden
}, { $hand ->
    [left] linke Hand
   *[right] rechte Hand
}
draw-knot-double-half-hitch = Rippenknoten nach { $hand ->
    [left] links
   *[right] rechts
}
draw-knot-double-half-hitch-slanted = Rippenknoten, { $degrees }° geneigt, nach { $hand ->
    [left] links
   *[right] rechts
}
draw-knot-larks-head = Ankerstich
draw-knot-larks-head-reverse = Ankerstich, umgekehrt
draw-knot-gathering = Wickelknoten mit { $turns } Windungen um { $n ->
    [one] 1 Strang
   *[other] { $n } Stränge
}
draw-knot-overhand = Überhandknoten aus { $n ->
    [one] 1 Strang
   *[other] { $n } Strängen
}, { $hand ->
    [left] linke Hand
   *[right] rechte Hand
}
draw-knot-braid = Zopf aus { $n } Strängen
draw-knot-on-ring = { $knot }, an einem Ring, { $times }-mal so dick wie der Faden
draw-knot-on-rod = { $knot }, an einem Stab, { $times }-mal so dick wie der Faden
draw-knot-filler = { $knot }, Leitfäden { $times }-mal so dick wie der Arbeitsfaden
draw-knot-holding = { $knot }, Trägerfaden { $times }-mal so dick wie der Arbeitsfaden
draw-step = { $knot }: Schritt { $number } von { $of }
draw-step-last = { $knot }: Schritt { $number } von { $of }, festgezogen
draw-cords = Fäden: { $inks }.
draw-ink = { $colour }, { $mark }
draw-colour-terracotta = Terrakotta
draw-colour-teal = Petrol
draw-colour-ochre = Ocker
draw-colour-plum = Pflaume
draw-colour-mist = Nebelblau
draw-colour-leaf = Blattgrün
draw-colour-flax = Flachs
draw-colour-wood = Holz
draw-mark-plain = glatt
draw-mark-line = Linie
draw-mark-ticks = Striche
draw-mark-dots = Punkte
draw-mark-bands = Bänder
draw-mark-dashes = Strichel
