# Die Wörter einer Anleitung. Fachwörter, und woher sie sind:
# Kreuzknoten (auch Weber- oder Flachknoten), Rippenknoten (zwei halbe Schläge), halber Knoten, halber
# Schlag, Trägerfaden, Leitfaden (filler), Arbeitsfaden (working strand): so in der deutschen
# Wikipedia, Artikel "Makramee" (oldid 236548265 und neuere Fassungen).
# Ankerstich (lark's head): so dort und in Zeitungsanleitungen (otv.de, "Makramee: Knüpftechnik aus dem
# Orient"). Überhandknoten: edgar-saenger.de und yachtcharter-balearen.de, "Der Überhandknoten".
# Wickelknoten (gathering knot), Knüpfschrift (chart): aus dem Gedächtnis, ungeprüft (from memory,
# unchecked).

## Einheiten und Aufzählungen
decimal-sign = ,
unit-in = Zoll
unit-ft = Fuß
both-units = { $metric } ({ $inch })
range = { $low } bis { $high }
up-to = bis zu { $length }
list-and = { $first } und { $last }
minutes = { $n } Min.
hours = { $n } Std.
grams = { $n } g
strand-places = { $n ->
    [one] Strang { $places }
   *[other] Strängen { $places }
}
groups-many = { $first } und so fort bis { $last }
wrap-round = { $first } mit { $last }

## Überschriften
head-facts = Auf einen Blick
head-materials = Was man braucht
head-tools = Werkzeug
head-cuts = Zuschneiden und Falten
head-cut = Zuschnitt
head-knots = Verwendete Knoten
head-setting-up = Vorbereiten
head-work = Die Arbeit
head-step = Schritt { $n }
head-check = Bevor es weitergeht
head-note = Hinweis
head-end = { $use ->
    [hung] Fertigstellen und aufhängen
    [carried] Fertigstellen und tragen
    [worn] Fertigstellen und anlegen
   *[plain] Fertigstellen
}
head-cautions = { $use ->
    [hung] Bevor etwas aufgehängt wird
    [carried] Bevor etwas darin getragen wird
   *[unknown] Falls etwas daran hängen soll
}

## Knoten
name-larks-head = Ankerstich
name-half-knot = halber Knoten
name-square-knot = Kreuzknoten
name-half-hitch = halber Schlag
name-double-half-hitch = Rippenknoten
name-overhand = Überhandknoten
name-gathering = Wickelknoten
name-braid = Flechtzopf
tied-half-knot = { $n ->
    [one] einen halben Knoten
   *[other] { $n } halbe Knoten
}
tied-square-knot = { $n ->
    [one] einen Kreuzknoten
   *[other] { $n } Kreuzknoten
}
tied-half-hitch = { $n ->
    [one] einen halben Schlag
   *[other] { $n } halbe Schläge
}
tied-overhand = { $n ->
    [one] einen Überhandknoten
   *[other] { $n } Überhandknoten
}

## Auf einen Blick
fact-length = Länge von oben bis zum tiefsten Ende: { $length } (so, wie sich die Längen addieren).
fact-hangs = Fertige Länge: { $hangs }; die Längen ergeben zusammen { $length }.
fact-width = Breite über die Knoten: { $length }.
fact-count = { $cords ->
    [one] Ein Faden
   *[other] { $cords } Fäden
}, { $knots ->
    [one] ein Knoten
   *[other] { $knots } Knoten
}.
fact-numbering = { $side ->
    [left] Die Stränge werden von links gezählt, in der Runde von der Naht an.
   *[right] Dies ist die Ausgabe für Linkshänder: alles ist spiegelverkehrt, und die Stränge werden von rechts gezählt, in der Runde von der Naht an.
}
fact-time = Zeit: etwa { $likely }; zwischen { $low } und { $high } bei schnellen und langsamen Händen (aus den Knoten geschätzt).
fact-difficulty = { $level ->
    [1] Schwierigkeit 1 von 4: ein erstes Stück.
    [2] Schwierigkeit 2 von 4: etwas Übung hilft.
    [3] Schwierigkeit 3 von 4: für geübte Hände.
   *[4] Schwierigkeit 4 von 4: für geduldige, geübte Hände.
}
fact-reasons = Was dazu beiträgt: { $reasons }.
reason-round = Arbeit in der Runde
reason-slanted = schräge Reihen von Rippenknoten
reason-many-slanted = viele Rippenknoten, die ihre Linie halten müssen
reason-passes = Gruppen, die einander kreuzen
reason-added = Fäden, die unterwegs dazukommen
reason-many-strands = viele Stränge zugleich
reason-many-knots = viele Knoten
reason-many-kinds = mehrere Arten von Knoten
reason-uneven-folds = Fäden, die nicht einfach in der Mitte gefaltet werden

## Was man braucht
material = { $length } Garn „{ $name }“: { $kind }, { $thick } dick.
material-weight = Es wiegt etwa { $weight }.
mount-ring = Ein Ring, innen { $inside } weit, aus { $thick } dickem Draht.
mount-rod = Ein Stab, { $length } lang und { $thick } dick.
tool-scissors = Eine Schere.
tool-tape-measure = Ein Maßband.
tool-hook = Ein Haken oder eine Stange, an der die Arbeit beim Knüpfen hängt.
tool-board = Ein Brett und Stecknadeln, die die Arbeit halten.
tool-comb = Ein Kamm für die Fransen.
tool-needle = Eine stumpfe Nadel oder Häkelnadel, um Enden einzuziehen.

## Zuschneiden
cut-line = { $count } × { $length } von „{ $cord }“, { $fold }; { $part }.
cut-given = { $count } × { $length } von „{ $cord }“ (schon zugeschnitten), { $fold }; { $part }.
fold-middle = in der Mitte gefaltet
fold-none = nicht gefaltet
fold-uneven = gefaltet in { $left } links und { $right } rechts
part-mount = wird am Anfang angebracht
part-added = kommt während der Arbeit dazu
part-holding = wird als Trägerfaden eingelegt
part-wrap = zum Wickeln

## Vorbereiten
set-holding-cord = Faden { $cut } waagerecht vor sich spannen und feststecken; an beiden Enden stehen { $tail } über.
set-larks-head = { $count ->
    [one] Einen Faden { $cut } in der Mitte falten und mit einem Ankerstich anhängen
   *[other] { $count } Fäden { $cut } in der Mitte falten und nebeneinander mit je einem Ankerstich anhängen
}, { $face ->
    [reverse] mit dem Steg hinten
   *[face] mit dem Steg vorn
}: das wird zu { $strands }.
set-larks-head-uneven = { $count ->
    [one] Einen Faden { $cut } in { $short } und { $long } falten und mit einem Ankerstich anhängen
   *[other] { $count } Fäden { $cut } in { $short } und { $long } falten und nebeneinander mit je einem Ankerstich anhängen
}, { $face ->
    [reverse] mit dem Steg hinten
   *[face] mit dem Steg vorn
}, den langen Teil { $side ->
    [left] links
   *[right] rechts
}: das wird zu { $strands }.
set-folded = { $count ->
    [one] Einen Faden { $cut } in der Mitte falten und am Bug feststecken
   *[other] { $count } Fäden { $cut } in der Mitte falten und nebeneinander am Bug feststecken
}: das wird zu { $strands }.
set-folded-uneven = { $count ->
    [one] Einen Faden { $cut } in { $short } und { $long } falten und am Bug feststecken
   *[other] { $count } Fäden { $cut } in { $short } und { $long } falten und nebeneinander am Bug feststecken
}, den langen Teil { $side ->
    [left] links
   *[right] rechts
}: das wird zu { $strands }.
set-single = { $count ->
    [one] Einen Faden { $cut } ungefaltet festmachen
   *[other] { $count } Fäden { $cut } ungefaltet nebeneinander festmachen
}, oben stehen { $tail } über: das wird zu { $strands }.
set-again = In derselben Folge weiter, { $times ->
    [one] noch einmal
   *[other] noch { $times }-mal
}, bis zu Strang { $last }.
set-in-turn = Die Fäden in dieser Folge nebeneinander anhängen, jeden gefaltet, wie es dasteht, und mit einem Ankerstich, { $face ->
    [reverse] mit dem Steg hinten
   *[face] mit dem Steg vorn
}. Die Zahlen davor sind die Stränge, die daraus werden.
set-in-turn-pinned = Die Fäden in dieser Folge nebeneinander feststecken, jeden an seinem Bug. Die Zahlen davor sind die Stränge, die daraus werden.
set-item = { $places }: { $count ->
    [one] ein Faden { $cut }
   *[other] { $count } Fäden { $cut }
}, in der Mitte gefaltet
set-item-uneven = { $places }: { $count ->
    [one] ein Faden { $cut }
   *[other] { $count } Fäden { $cut }
}, { $left } links, { $right } rechts
set-items-again = Dann in derselben Folge weiter, { $times ->
    [one] noch einmal
   *[other] noch { $times }-mal
}, bis zu Strang { $last }.

## Überschriften der Schritte
title-mount = Die Fäden anbringen
title-half-knot = { $n ->
    [one] Halber Knoten
   *[other] Halbe Knoten
}
title-square-knot = { $n ->
    [one] Ein Kreuzknoten
   *[other] Kreuzknoten
}
title-half-hitch = { $n ->
    [one] Halber Schlag
   *[other] Halbe Schläge
}
title-double-half-hitch = { $n ->
    [one] Ein Rippenknoten
   *[other] Rippenknoten
}
title-overhand = { $n ->
    [one] Ein Überhandknoten
   *[other] Überhandknoten
}
title-gathering = Wickelknoten
title-braid = { $n ->
    [one] Zopf
   *[other] Zöpfe
}
title-free = Freies Stück
title-pass = Plätze tauschen
title-reorder = Neue Reihenfolge
title-join = Zur Runde schließen
title-open = Die Runde öffnen
title-seam = Neu zählen
title-add = Fäden dazunehmen
title-leave = Stränge, die hier enden
title-fringe = Die Fransen schneiden
title-tail = Die Enden kürzen
title-again = Noch einmal

## Schritte
tie-one = Mit { $where } { $what } knüpfen.
tie-each = In jeder dieser { $n } Gruppen { $what } knüpfen: mit { $where }.
tie-rows = { $rows } Reihen knüpfen; an jeder Stelle { $what }.
row-on = Reihe { $row }: { $n ->
    [one] eine Gruppe
   *[other] { $n } Gruppen
}, mit { $where }.
rows-again = { $n ->
    [one] Reihe { $from }: wie Reihe { $first }.
   *[other] Reihen { $from } bis { $to }: wie die Reihen { $first } bis { $last }.
}
rows-again-two = { $n ->
    [one] Reihe { $from }: wie Reihe { $first }.
   *[other] Reihen { $from } bis { $to }: wie die Reihen { $first } und { $last }.
}
row-as = Reihen { $from } bis { $to }: alle wie Reihe { $first }.
rows-shrink = Reihen { $from } bis { $to }: in jeder Reihe auf jeder Seite { $strands ->
    [one] einen Strang
   *[other] { $strands } Stränge
} mehr auslassen; die letzte Reihe hat { $last ->
    [one] eine Gruppe
   *[other] { $last } Gruppen
}.
rows-grow = Reihen { $from } bis { $to }: in jeder Reihe auf jeder Seite { $strands ->
    [one] einen Strang
   *[other] { $strands } Stränge
} mehr dazunehmen; die letzte Reihe hat { $last ->
    [one] eine Gruppe
   *[other] { $last } Gruppen
}.
hand-working = { $hand ->
    [left] Jeden Knoten mit dem linken Arbeitsfaden vorn beginnen.
    [right] Jeden Knoten mit dem rechten Arbeitsfaden vorn beginnen.
   *[alternate] Die Knoten abwechselnd beginnen: den ersten mit dem linken Arbeitsfaden vorn, den nächsten mit dem rechten.
}
hand-spiral = { $hand ->
    [left] Jeden halben Knoten mit dem linken Arbeitsfaden vorn beginnen: das Band dreht sich von selbst.
    [right] Jeden halben Knoten mit dem rechten Arbeitsfaden vorn beginnen: das Band dreht sich von selbst.
   *[alternate] Die halben Knoten abwechselnd mit dem linken und dem rechten Arbeitsfaden vorn beginnen.
}
hand-hitch = { $hand ->
    [left] Den linken Strang um die anderen schlagen.
    [right] Den rechten Strang um die anderen schlagen.
   *[alternate] Abwechselnd den linken und den rechten Strang um die anderen schlagen.
}
workers = In jeder Gruppe knüpfen die Stränge { $places } um die anderen.
workers-outer = { $fillers ->
    [one] Die beiden äußeren Stränge einer Gruppe arbeiten; der mittlere ist der Leitfaden und hängt gerade.
   *[other] Die beiden äußeren Stränge einer Gruppe arbeiten; die { $fillers } dazwischen sind die Leitfäden und hängen gerade.
}
free-above = Über dem ersten Knoten { $length } frei lassen.
gap-between = Von Knoten zu Knoten { $length } frei lassen.
gap-rows = Von Reihe zu Reihe { $length } frei lassen.
open-cord = Das Stück über diesen Knoten ergibt sich von selbst: { $range } bleiben frei.
hitch-on = Strang { $holding } ist der Trägerfaden. Ihn nach { $side ->
    [left] links
   *[right] rechts
} führen, { $slant }, und darauf je einen Rippenknoten knüpfen mit { $strands }{ $n ->
    [one] .
   *[other] , in dieser Folge.
}
hitch-laid = Faden { $cut } als Trägerfaden einlegen, { $slant }; an beiden Enden stehen { $tail } über. Nach { $side ->
    [left] links
   *[right] rechts
} arbeiten und darauf je einen Rippenknoten knüpfen mit { $strands }{ $n ->
    [one] .
   *[other] , in dieser Folge.
}
hitch-rows = { $n ->
    [one] Darunter noch eine Reihe an denselben Plätzen; Trägerfaden ist der Strang, der jetzt zuvorderst steht.
   *[other] Darunter noch { $n } Reihen an denselben Plätzen; Trägerfaden ist jeweils der Strang, der dann zuvorderst steht.
}
slant-level = waagerecht
slant-steep = { $degrees }° abwärts
braid-on = Die Stränge { $where } flechten, { $times ->
    [one] eine volle Runde
   *[other] { $times } volle Runden
}.
braid-each = { $n } Zöpfe flechten, mit { $where }; jeder { $times ->
    [one] eine volle Runde
   *[other] { $times } volle Runden
}.
gather-with = Mit Faden { $cut } einen Wickelknoten um das Bündel aus { $strands } legen: den Faden als Schlaufe, die nach unten zeigt, an das Bündel legen, dann von oben nach unten um Bündel und Schlaufe wickeln, { $turns ->
    [one] eine Windung
   *[other] { $turns } Windungen dicht an dicht
}. Das Ende durch die Schlaufe stecken, am oberen Ende ziehen, bis die Schlaufe unter den Windungen liegt, und beide Enden abschneiden.
gather-strand = Mit Strang { $wrap } einen Wickelknoten um das Bündel aus { $strands } legen: den Strang als Schlaufe, die nach unten zeigt, an das Bündel legen, dann von oben nach unten um Bündel und Schlaufe wickeln, { $turns ->
    [one] eine Windung
   *[other] { $turns } Windungen dicht an dicht
}. Sein Ende durch die Schlaufe stecken und die Schlaufe unter die Windungen ziehen.
free-cord = An { $strands } bis zum nächsten Knoten { $length } frei lassen.
pass-front = Die Gruppe aus { $front } vor der Gruppe aus { $behind } vorbeiführen: die beiden tauschen die Plätze. Geknüpft wird nichts.
reorder-groups = { $n ->
    [one] Die Stränge der Gruppe (aus { $where })
   *[other] Die Stränge jeder Gruppe (aus { $where })
} von 1 bis { $size } zählen, dann in diese Folge legen: { $order }. Von hier an zählt ihr neuer Platz.
join-round = Die Arbeit zur Runde schließen: der letzte Strang liegt jetzt neben dem ersten.
open-flat = Die Runde an der Naht öffnen: die Arbeit ist wieder flach, und Strang { $first } ist Nummer 1.
seam-moves = Neu zählen: von hier an ist Strang { $first } Nummer 1.
add-folded = { $count ->
    [one] Einen Faden { $cut } gefaltet einlegen
   *[other] { $count } Fäden { $cut } gefaltet einlegen
}; der nächste Knoten hält alles fest. Das wird zu { $strands }.
add-uneven = { $count ->
    [one] Einen Faden { $cut }, gefaltet in { $short } und { $long }, einlegen
   *[other] { $count } Fäden { $cut }, gefaltet in { $short } und { $long }, einlegen
}, der lange Teil { $side ->
    [left] links
   *[right] rechts
}; der nächste Knoten hält alles fest. Das wird zu { $strands }.
add-single = { $count ->
    [one] Einen Faden { $cut } ungefaltet einlegen
   *[other] { $count } Fäden { $cut } ungefaltet einlegen
}, { $tail } stehen über; der nächste Knoten hält alles fest. Das wird zu { $strands }.
leave-strands = Hier enden die Knoten an { $strands }: { $length } unter dem letzten Knoten abschneiden.
fringe-level = Die Fransen an { $strands } auf einer waagerechten Linie abschneiden: { $length } unter dem letzten Knoten.
fringe-point = Die Fransen an { $strands } spitz zuschneiden, in der Mitte am längsten: { $length } unter dem letzten Knoten.
fringe-slant = Die Fransen an { $strands } schräg zuschneiden, { $side ->
    [left] links
   *[right] rechts
} am längsten: { $length } unter dem letzten Knoten.
fringe-falls = Die Fransen an { $strands } einzeln schneiden: jeden Strang { $length } unter seinem letzten Knoten.
tails-trim = An { $strands } die Enden { $length } unter dem letzten Knoten abschneiden.
again-same = { $steps } wiederholen, { $times ->
    [one] noch einmal
   *[other] noch { $times }-mal
}.
again-on = { $steps } ebenso wiederholen, mit { $strands }.
again-moved = { $steps } wiederholen, { $times ->
    [one] noch einmal
   *[other] noch { $times }-mal
}, jedes Mal { $shift } Stränge weiter.
steps-one = Schritt { $first }
steps-two = Schritte { $first } und { $last }
steps-many = Schritte { $first } bis { $last }

## Prüfen
check-sinnet = { $groups ->
    [one] Das Knotenband misst jetzt etwa { $length }.
   *[other] Jedes Knotenband misst jetzt etwa { $length }.
}
check-braid = { $groups ->
    [one] Der Zopf misst jetzt etwa { $length }.
   *[other] Jeder Zopf misst jetzt etwa { $length }.
}
check-rows = Von der ersten bis zur letzten Reihe sind es etwa { $length }.
check-wrap = Die Wicklung ist etwa { $length } hoch.
check-left-working = Arbeitsfäden haben noch etwa { $length }, Zugabe eingerechnet.
check-left-holding = { $n ->
    [one] Der Trägerfaden hat noch etwa { $length }, Zugabe eingerechnet.
   *[other] Trägerfäden haben noch etwa { $length }, Zugabe eingerechnet.
}
check-depth = Die Arbeit reicht jetzt etwa { $length } unter die Oberkante.

## Fertigstellen und Aufhängen
finish-tighten = Die letzten Knoten noch einmal durchgehen und festziehen.
finish-tails = Die Enden eingelegter und ausgelassener Fäden auf der Rückseite durch die Knoten ziehen, dann abschneiden.
finish-fringe = Die Fransen auskämmen oder jedes Ende verknoten und noch einmal nachschneiden, wenn sie gerade hängen.
hang-on = Das Stück { $mount ->
    [ring] am Ring
    [level] am Ring, der dabei waagerecht liegt,
    [rod] waagerecht am Stab
   *[cord] am Trägerfaden, beide Enden festgemacht,
} aufhängen und in Form ziehen.
hang-load = Zuletzt { $load ->
    [pot] den Topf
    [bowl] die Schale
    [box] den Kasten
    [sphere] die Kugel
   *[thing] die Last
} einsetzen und prüfen, ob alles gerade steht und ringsum an den Fäden anliegt.
carry-try = Hineinlegen, was darin getragen werden soll, das Stück über etwas Weichem ein wenig anheben und jeden Knoten ansehen: keiner darf rutschen.
carry-settle = Unter den ersten Lasten gibt die Schnur nach, und die Knoten ziehen sich zusammen: nach einigen Tagen alle Knoten nachziehen.
wear-fit = Das Stück anlegen, bevor die Enden endgültig gekürzt werden, und prüfen, ob es passt: Knoten ziehen sich zusammen, und Schnur gibt beim Tragen nach.
wear-settle = Nach den ersten Tagen die Knoten { $mount ->
    [ring] am Ring
    [rod] am Steg
    [cord] am Trägerfaden
   *[nothing] an beiden Enden
} noch einmal nachziehen: dort ist der Zug am größten.
caution-sums = Dies sind Rechnungen mit veröffentlichten Werten, keine Prüfung der eigenen Schnur. Baumwollschnüre gleicher Dicke unterscheiden sich bis zum Sechsfachen: ein Zugversuch damit ist besser als jede Tabelle.
caution-ages = Schnur altert, scheuert durch und verrottet, Knoten rutschen und lockern sich: das Stück oft ansehen und im Zweifel abnehmen.
caution-try = Zuerst mit mehr als der vorgesehenen Last ausprobieren, niedrig über weichem Boden, und einen Tag so hängen lassen.
caution-hook = Haken, Dübel und Schraube nach den Angaben ihres Herstellers und den örtlichen Vorschriften wählen; eine Decke kennt man von unten nicht.
caution-people = Für alles, was über den Köpfen von Menschen, über einem Bett oder Kinderbett hängt oder woran Menschen oder Tiere klettern oder hängen, eine zugelassene Fachkraft fragen.
caution-carry = Es ist für Dinge gemacht: weder Mensch noch Tier darf damit getragen, gehoben oder gehalten werden.
