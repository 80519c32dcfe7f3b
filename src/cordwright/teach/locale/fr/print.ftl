# Titres et étiquettes des pages imprimées.
print-kind-booklet = Un modèle à nouer
print-kind-filming = Plan de tournage
print-contents = Sommaire
print-glance = En bref
print-before = Avant de commencer
print-before-read = Tout lire une fois, images comprises, avant de couper.
print-before-swatch = Nouer un essai de dix nœuds dans son propre fil : les mains et les fils diffèrent, et la réserve de la liste de coupe est là pour cela.
print-before-count = Les brins se comptent sur toute la largeur depuis la gauche, en rond depuis la couture.
print-before-count-mirrored = Les brins se comptent sur toute la largeur depuis la droite, en rond depuis la couture. Toutes les images sont en miroir.
print-before-editions = Là où les longueurs diffèrent, elles sont dans cet ordre : { $names }.
print-materials = Fournitures
print-tools = À portée de main
print-cuts = Liste de coupe
print-cuts-tick = Cocher une case pour chaque fil coupé. Là où une case vaut pour plusieurs fils, la cocher quand tous sont coupés.
print-knots = Les nœuds de cet ouvrage
print-knots-about = Chaque image est un geste ; ce qui bouge est en pleine couleur, avec une flèche. La dernière image est le nœud serré.
print-steps = Pas à pas
print-chart = Diagramme
print-chart-about = Tout l’ouvrage en signes, rang par rang de haut en bas.
print-whole = L’ouvrage entier
print-sizes = Tailles
print-colophon = À propos de ce livret
print-left-handed = Édition pour gauchers
print-editions = Tailles dans ce livret : { $names }
print-col-id = Repère
print-col-done = Coupé
print-col-cord = Fils
print-col-length = Longueur et pli
print-col-spare = Dont réserve
print-col-material = Fil
print-col-total = En tout
print-col-weight = Poids
print-col-size = Taille
print-col-about = Ce que c’est
print-col-here = Ici
print-fold-middle = plier au milieu
print-fold-none = ne pas plier
print-fold-uneven = plier : { $left } à gauche, { $right } à droite
print-already = déjà coupé
print-fact-length = Longueur finie
print-fact-cord = Fil
print-fact-time = Temps
print-fact-level = Difficulté
print-level = { $level } sur 4
print-time-hours = { $minutes ->
    [0] { $hours } h
   *[other] { $hours } h { $minutes } min
}
print-time-minutes = { $minutes } min
print-step-time = environ { $time }
print-alt-cover = { $title } : l’ouvrage entier, dessiné nœud par nœud.
print-alt-measured = { $title } : l’ouvrage entier avec ses mesures.
print-alt-chart = Diagramme de { $title } ; les étapes disent la même chose en mots.
print-alt-tying = { $knot }, image { $number } sur { $of }. { $moves }
print-alt-knot = { $knot }, noué et serré.
print-knot-round = { $n ->
    [one] { $knot } autour d’un fil porteur
   *[other] { $knot } autour de { $n } fils porteurs
}
print-knot-of = { $knot } à { $n } brins
print-knot-on = { $knot } { $over ->
    [ring] sur un anneau
    [rod] sur un bâton
   *[none] sur un fil
}
print-knot-bar = { $knot }, { $face ->
    [reverse] la barre derrière
   *[face] la barre devant
}
print-knot-towards = { $knot } vers la { $hand ->
    [left] gauche
   *[right] droite
}
print-knot-with = { $knot } avec le brin de { $hand ->
    [left] gauche
   *[right] droite
}
print-knot-begun = { $knot }, brin de { $hand ->
    [left] gauche
   *[right] droite
} devant
print-move = { $colour } : { $passes }.
print-both-ends = Les deux bouts
print-together = Les { $n } brins ensemble
print-fold = Plier le fil et tenir le pli contre { $over ->
    [ring] l’anneau
    [rod] le bâton
   *[none] le fil porte-nœud
}.
print-own-loop = faire une boucle, { $n ->
    [one] le bout
   *[other] les bouts
} { $side ->
    [front] devant
   *[behind] derrière
}
print-own-past = mener { $n ->
    [one] le bout
   *[other] les bouts
} plus loin, { $side ->
    [front] devant
   *[behind] derrière
} la partie qui vient d’en haut
print-own-into = passer { $n ->
    [one] le bout
   *[other] les bouts
} dans la boucle, par { $side ->
    [front] devant
   *[behind] derrière
}
print-own-out = sortir { $n ->
    [one] le bout
   *[other] les bouts
} de la boucle vers { $side ->
    [front] l’avant
   *[behind] l’arrière
}
print-loop = { $of ->
    [terracotta] la boucle du fil terre cuite
    [teal] la boucle du fil bleu canard
    [ochre] la boucle du fil ocre
    [plum] la boucle du fil prune
    [mist] la boucle du fil bleu brume
    [leaf] la boucle du fil vert feuille
    [fold] la boucle du pli
   *[itself] sa propre boucle
}
print-through-front = vers l’avant dans { $loop }
print-through-back = vers l’arrière dans { $loop }
print-drawn-up = Serrer régulièrement.
print-drawn-up-wrap = Tirer le bout du haut jusqu’à ce que la boucle ait glissé sous les tours, puis couper les deux bouts.
print-wrap-loop = Le poser le long du faisceau vers le bas, puis vers le haut, en une boucle tournée vers le bas.
print-wrap-round = { $n ->
    [one] Tour { $last }
   *[other] Tours { $first } à { $last }
} : autour du faisceau et de sa propre boucle.
print-wrap-behind = Le mener plus loin, derrière le faisceau.
print-wrap-through = Passer le bout dans la boucle, par devant.
print-over = devant { $what }
print-under = derrière { $what }
print-what-filler = { $n ->
    [one] le fil porteur
   *[other] les fils porteurs
}
print-what-holding = le fil porte-nœud
print-what-ring = l’anneau
print-what-rod = le bâton
print-what-itself = lui-même
print-what-other = un autre brin
print-what-terracotta = le fil terre cuite
print-what-teal = le fil bleu canard
print-what-ochre = le fil ocre
print-what-plum = le fil prune
print-what-mist = le fil bleu brume
print-what-leaf = le fil vert feuille
print-what-flax = le fil clair
print-what-wood = la barre
print-then = { "," } puis{ " " }
print-colour-terracotta = Fil terre cuite
print-colour-teal = Fil bleu canard (à ligne)
print-colour-ochre = Fil ocre (à traits)
print-colour-plum = Fil prune (à points)
print-colour-mist = Fil bleu brume (à bandes)
print-colour-leaf = Fil vert feuille (à tirets)
print-colour-flax = Fil clair
print-colour-wood = La barre
print-version = Édition { $edition } · empreinte { $print }
print-licence-default = Tous les droits sur le texte et les images restent à la personne qui a fait ce modèle.
print-made-with = Calculé et composé avec Cordwright { $version }. Les figures et les longueurs viennent de nœuds serrés par le calcul : un fil rond idéal, bien serré. Votre fil sera différent.
print-fonts = Composé en Source Serif Pro et Source Sans Pro (SIL Open Font License 1.1).
print-shots = Plans
print-shots-about = Un nœud qui vient pour la première fois est montré { $shown } fois, lentement ; ensuite on en montre un de chaque sorte, et le reste se noue caméra éteinte. Les minutes suivent de ce qui est dit ({ $words } mots par minute) et montré.
print-ready = À nouer d’avance
print-ready-about = L’ouvrage à ces étapes, pour l’échanger ; ou continuer de nouer entre les plans, le temps de la dernière colonne.
print-chapters = Repères de chapitres
print-description = Texte de la description
print-description-about = Prêt à coller sous le film.
print-col-shot = Plan
print-col-begins = À
print-col-says = À dire et à montrer
print-col-minutes = Durée
print-col-stage = Étape
print-col-done-to = Noué jusqu’à
print-col-tied = Depuis le début
print-col-off = Caméra éteinte
print-col-mark = Repère
print-col-chapter = Chapitre
print-done-to = étape { $step }, { $title } ({ $section })
print-swap = Échanger contre l’étape { $stage } : { $time } de nouage caméra éteinte.
print-shot-opening = L’ouvrage fini
print-shot-materials = Ce qu’il faut
print-shot-cutting = La coupe
print-shot-closing = Pour finir
print-fact-film = Film
print-fact-off = Caméra éteinte
print-fact-shots = Plans
print-fact-stages = À préparer
