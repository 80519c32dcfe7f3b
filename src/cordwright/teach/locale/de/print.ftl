# Überschriften und Beschriftungen gedruckter Seiten.
print-kind-booklet = Anleitung zum Knüpfen
print-kind-filming = Drehplan
print-contents = Inhalt
print-glance = Auf einen Blick
print-before = Bevor es losgeht
print-before-read = Vor dem Zuschneiden alles einmal mit den Bildern durchlesen.
print-before-swatch = Zehn Knoten mit dem eigenen Garn zur Probe knüpfen: Hände und Garne sind verschieden; dafür ist die Zugabe im Zuschnitt da.
print-before-count = Die Stränge werden über die ganze Breite von links gezählt, in der Runde von der Naht an.
print-before-count-mirrored = Die Stränge werden über die ganze Breite von rechts gezählt, in der Runde von der Naht an. Alle Bilder sind gespiegelt.
print-before-editions = Wo Längen verschieden sind, stehen sie in dieser Reihenfolge: { $names }.
print-materials = Material
print-tools = Bereitlegen
print-cuts = Zuschnitt
print-cuts-tick = Für jeden zugeschnittenen Faden ein Kästchen abhaken. Wo ein Kästchen für viele steht: abhaken, wenn alle geschnitten sind.
print-knots = Knoten in diesem Stück
print-knots-about = Jedes Bild ist ein Handgriff; was sich bewegt, hat volle Farbe und einen Pfeil. Das letzte Bild ist der festgezogene Knoten.
print-steps = Schritt für Schritt
print-chart = Knüpfschrift
print-chart-about = Die ganze Arbeit in Zeichen, Reihe für Reihe von oben nach unten.
print-whole = Das ganze Stück
print-sizes = Größen
print-colophon = Zu diesem Heft
print-left-handed = Ausgabe für Linkshänder
print-editions = Größen in diesem Heft: { $names }
print-col-id = Zeichen
print-col-done = Fertig
print-col-cord = Fäden
print-col-length = Länge und Faltung
print-col-spare = Zugabe darin
print-col-material = Garn
print-col-total = Insgesamt
print-col-weight = Gewicht
print-col-size = Größe
print-col-about = Was es ist
print-col-here = Hier
print-fold-middle = in der Mitte falten
print-fold-none = nicht falten
print-fold-uneven = falten: { $left } links, { $right } rechts
print-already = schon zugeschnitten
print-fact-length = Fertige Länge
print-fact-cord = Garn
print-fact-time = Zeit
print-fact-level = Schwierigkeit
print-level = { $level } von 4
print-time-hours = { $minutes ->
    [0] { $hours } Std.
   *[other] { $hours } Std. { $minutes } Min.
}
print-time-minutes = { $minutes } Min.
print-step-time = etwa { $time }
print-alt-cover = { $title }: das ganze Stück, Knoten für Knoten gezeichnet.
print-alt-measured = { $title }: das ganze Stück mit seinen Maßen.
print-alt-chart = Knüpfschrift zu { $title }; die Schritte sagen dasselbe in Worten.
print-alt-tying = { $knot }, Bild { $number } von { $of }. { $moves }
print-alt-knot = { $knot }, geknüpft und festgezogen.
print-knot-round = { $n ->
    [one] { $knot } um einen Leitfaden
   *[other] { $knot } um { $n } Leitfäden
}
print-knot-of = { $knot } aus { $n } Strängen
print-knot-on = { $knot } { $over ->
    [ring] am Ring
    [rod] am Stab
   *[none] an einem Faden
}
print-knot-bar = { $knot }, { $face ->
    [reverse] der Steg hinten
   *[face] der Steg vorn
}
print-knot-towards = { $knot } nach { $hand ->
    [left] links
   *[right] rechts
}
print-knot-with = { $knot } mit dem { $hand ->
    [left] linken
   *[right] rechten
} Strang
print-knot-begun = { $knot }, { $hand ->
    [left] linker
   *[right] rechter
} Strang vorn
print-move = { $colour }: { $passes }.
print-both-ends = Beide Enden
print-together = Alle { $n } Stränge gemeinsam
print-fold = Den Faden falten und den Bug an { $over ->
    [ring] den Ring
    [rod] den Stab
   *[none] den Trägerfaden
} halten.
print-own-loop = eine Schlaufe legen, { $n ->
    [one] das Ende
   *[other] die Enden
} { $side ->
    [front] vorn
   *[behind] hinten
}
print-own-past = { $n ->
    [one] das Ende
   *[other] die Enden
} weiterführen, { $side ->
    [front] vor
   *[behind] hinter
} dem Teil, der von oben kommt
print-own-into = { $n ->
    [one] das Ende
   *[other] die Enden
} von { $side ->
    [front] vorn
   *[behind] hinten
} in die Schlaufe stecken
print-own-out = { $n ->
    [one] das Ende
   *[other] die Enden
} nach { $side ->
    [front] vorn
   *[behind] hinten
} aus der Schlaufe ziehen
print-loop = { $of ->
    [terracotta] die Schlaufe des Fadens in Terrakotta
    [teal] die Schlaufe des Fadens in Petrol
    [ochre] die Schlaufe des Fadens in Ocker
    [plum] die Schlaufe des Fadens in Pflaume
    [mist] die Schlaufe des Fadens in Nebelblau
    [leaf] die Schlaufe des Fadens in Blattgrün
    [fold] die Schlaufe am Bug
   *[itself] die eigene Schlaufe
}
print-through-front = durch { $loop } nach vorn
print-through-back = durch { $loop } nach hinten
print-drawn-up = Gleichmäßig festziehen.
print-drawn-up-wrap = Am oberen Ende ziehen, bis die Schlaufe unter die Windungen gerutscht ist; beide Enden abschneiden.
print-wrap-loop = Am Bündel hinunter und wieder hinauf legen, sodass eine Schlaufe nach unten zeigt.
print-wrap-round = { $n ->
    [one] Windung { $last }
   *[other] Windungen { $first } bis { $last }
}: um das Bündel und die eigene Schlaufe.
print-wrap-behind = Hinter dem Bündel weiterführen.
print-wrap-through = Das Ende von vorn durch die Schlaufe stecken.
print-over = vor { $what }
print-under = hinter { $what }
print-what-filler = { $n ->
    [one] dem Leitfaden
   *[other] den Leitfäden
}
print-what-holding = dem Trägerfaden
print-what-ring = dem Ring
print-what-rod = dem Stab
print-what-itself = sich selbst
print-what-other = einem anderen Strang
print-what-terracotta = dem Faden in Terrakotta
print-what-teal = dem Faden in Petrol
print-what-ochre = dem Faden in Ocker
print-what-plum = dem Faden in Pflaume
print-what-mist = dem Faden in Nebelblau
print-what-leaf = dem Faden in Blattgrün
print-what-flax = dem hellen Faden
print-what-wood = dem Stab
print-then = { "," } dann{ " " }
print-colour-terracotta = Faden in Terrakotta
print-colour-teal = Faden in Petrol (mit Linie)
print-colour-ochre = Faden in Ocker (mit Strichen)
print-colour-plum = Faden in Pflaume (mit Punkten)
print-colour-mist = Faden in Nebelblau (mit Bändern)
print-colour-leaf = Faden in Blattgrün (mit Stricheln)
print-colour-flax = Heller Faden
print-colour-wood = Der Stab
print-version = Ausgabe { $edition } · Kennzeichen { $print }
print-licence-default = Alle Rechte an Text und Bildern bleiben bei der Person, die diese Anleitung gemacht hat.
print-made-with = Berechnet und gesetzt mit Cordwright { $version }. Bilder und Längen kommen von Knoten, die rechnerisch festgezogen wurden: ideales rundes Garn, fest gezogen. Das eigene Garn wird abweichen.
print-fonts = Gesetzt in Source Serif Pro und Source Sans Pro (SIL Open Font License 1.1).
print-shots = Einstellungen
print-shots-about = Ein Knoten, der zum ersten Mal kommt, wird { $shown }-mal langsam gezeigt; danach wird von jeder Art einer gezeigt, und der Rest wird bei ausgeschalteter Kamera geknüpft. Die Minuten folgen aus dem, was gesagt ({ $words } Wörter in der Minute) und gezeigt wird.
print-ready = Vorab zu knüpfen
print-ready-about = Das Stück in diesen Zuständen, zum Austauschen; oder zwischen den Einstellungen weiterknüpfen, so lange wie in der letzten Spalte steht.
print-chapters = Kapitelmarken
print-description = Text zur Beschreibung
print-description-about = Fertig zum Einfügen unter den Film.
print-col-shot = Nr.
print-col-begins = Bei
print-col-says = Was zu sagen und zu zeigen ist
print-col-minutes = Dauer
print-col-stage = Zustand
print-col-done-to = Geknüpft bis
print-col-tied = Von Anfang an
print-col-off = Kamera aus
print-col-mark = Marke
print-col-chapter = Kapitel
print-done-to = Schritt { $step }, { $title } ({ $section })
print-swap = Zustand { $stage } einsetzen: { $time } Knüpfen bei ausgeschalteter Kamera.
print-shot-opening = Das fertige Stück
print-shot-materials = Was man braucht
print-shot-cutting = Zuschneiden
print-shot-closing = Zum Schluss
print-fact-film = Film
print-fact-off = Kamera aus
print-fact-shots = Einstellungen
print-fact-stages = Vorzubereiten
