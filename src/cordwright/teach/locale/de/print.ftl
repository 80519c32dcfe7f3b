# Überschriften und Beschriftungen gedruckter Seiten.
print-kind-booklet = Anleitung zum Knüpfen
print-kind-filming = Drehplan
print-contents = Inhalt
print-before = Vor dem Anfangen
print-before-read = Vor dem Zuschneiden alles einmal mit den Bildern durchlesen.
print-before-swatch = Zehn Knoten im eigenen Garn zur Probe knüpfen: Hände und Garne sind verschieden, dafür ist die Zugabe im Zuschnitt da.
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
print-hanging = Aufhängen
print-finishing = Fertigstellen
print-cautions = Bevor etwas hängt
print-colophon = Zu diesem Heft
print-left-handed = Ausgabe für Linkshänder
print-editions = Größen in diesem Heft: { $names }
print-col-id = Zeichen
print-col-done = Fertig
print-col-count = Fäden
print-col-cord = Garn
print-col-length = Länge
print-col-fold = Faltung
print-col-spare = Zugabe darin
print-col-material = Garn
print-col-total = Insgesamt
print-col-weight = Gewicht
print-col-size = Größe
print-col-about = Was es ist
print-col-here = Hier
print-fold-middle = in der Mitte
print-fold-none = nicht gefaltet
print-fold-uneven = { $left } links, { $right } rechts
print-already = schon zugeschnitten
print-fact-length = Länge
print-fact-cord = Garn
print-fact-time = Zeit
print-fact-level = Schwierigkeit
print-level = { $level } von 4
print-time-hours = { $hours } Std. { $minutes } Min.
print-time-minutes = { $minutes } Min.
print-step-time = etwa { $time }
print-alt-cover = { $title }: das ganze Stück, Knoten für Knoten gezeichnet.
print-alt-chart = Knüpfschrift zu { $title }; die Schritte sagen dasselbe in Worten.
print-alt-tying = { $knot }, Bild { $number } von { $of }. { $moves }
print-alt-knot = { $knot }, geknüpft und festgezogen.
print-move = { $colour }: { $passes }.
print-move-start = { $colour }: legen, wie der Pfeil zeigt.
print-moves-shown = Die Fäden legen, wie die Pfeile zeigen.
print-drawn-up = Gleichmäßig festziehen.
print-over-working = { $n ->
    [one] vor einem Arbeitsfaden
   *[other] vor { $n } Arbeitsfäden
 }
print-under-working = { $n ->
    [one] hinter einem Arbeitsfaden
   *[other] hinter { $n } Arbeitsfäden
 }
print-over-filler = { $n ->
    [one] vor einem Leitfaden
   *[other] vor { $n } Leitfäden
 }
print-under-filler = { $n ->
    [one] hinter einem Leitfaden
   *[other] hinter { $n } Leitfäden
 }
print-over-holding = vor dem, woran es hängt
print-under-holding = hinter dem, woran es hängt
print-over-itself = vor sich selbst
print-under-itself = hinter sich selbst
print-then = { "," } dann{ " " }
print-colour-terracotta = Terrakotta
print-colour-teal = Petrol, mit Linie
print-colour-ochre = Ocker, mit Strichen
print-colour-plum = Pflaume, mit Punkten
print-colour-mist = Nebelblau, mit Bändern
print-colour-leaf = Blattgrün, mit Stricheln
print-colour-flax = Der helle Faden
print-colour-wood = Der Stab
print-version = Ausgabe { $edition } · Kennzeichen { $print }
print-licence-default = Alle Rechte an Text und Bildern bleiben bei der Person, die diese Anleitung gemacht hat.
print-made-with = Berechnet und gesetzt mit Cordwright { $version }. Bilder und Längen kommen von Knoten, die rechnerisch festgezogen wurden: ideales rundes Garn, fest gezogen. Das eigene Garn wird abweichen.
print-fonts = Gesetzt in Source Serif Pro und Source Sans Pro (SIL Open Font License 1.1).
print-shots = Einstellungen
print-shots-about = Knoten, die immer wiederkehren, werden { $shown }-mal langsam gezeigt; der Rest wird bei ausgeschalteter Kamera geknüpft. Die Minuten folgen aus dem, was gesagt ({ $words } Wörter in der Minute) und gezeigt wird.
print-ready = Vorher geknüpft
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
print-done-to = Schritt { $step }, { $section }
print-swap = Zustand { $stage } einsetzen: { $time } Knüpfen bei ausgeschalteter Kamera.
print-shot-opening = Das fertige Stück
print-shot-materials = Was man braucht
print-shot-cutting = Zuschneiden
print-shot-finishing = Fertigstellen und Aufhängen
print-shot-closing = Zum Schluss
print-fact-film = Film
print-fact-off = Kamera aus
print-fact-shots = Einstellungen
print-fact-stages = Vorzubereiten
