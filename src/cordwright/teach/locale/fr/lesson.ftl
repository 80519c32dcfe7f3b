# Les mots d'une leçon. Termes du métier, et d'où ils viennent :
# nœud d'alouette ou tête d'alouette, fils porteurs et fils de travail : vbs-hobby.fr, « Fiche de base
# macramé », et labelleadresse.com, « DIY macramé : les 3 nœuds de base » ; nœud plat fait de deux
# demi-nœuds : pratique.fr, « DIY : la tendance macramé », et arts.savoir.fr, « Macramé » ; demi-clé :
# lafranceagricole.fr, « Le macramé fait son retour ».
# Surliure (gathering knot) : espritlaita.fr/diy-tuto-suspension-macrame-exterieur ; fil porte-nœud (holding
# cord) : vbs-hobby.be/fr/photophores-en-macrame-gypset-t1542 ; nœud simple (overhand) :
# martes.tuxfamily.org, « Les nœuds utiles ».
# Double demi-clé : de mémoire, non vérifié (from memory, unchecked).

## Unités et listes
decimal-sign = ,
unit-in = po
unit-ft = pi
both-units = { $metric } ({ $inch })
range = { $low } à { $high }
up-to = jusqu’à { $length }
list-and = { $first } et { $last }
minutes = { $n } min
hours = { $n } h
grams = { $n } g
strand-places = { $n ->
    [one] le brin { $places }
   *[other] les brins { $places }
}
groups-many = { $first } et ainsi de suite jusqu’à { $last }
wrap-round = { $first } avec { $last }

## Titres
head-facts = En bref
head-materials = Fournitures
head-tools = Outils
head-cuts = Coupe et pliage
head-cut = Coupe
head-knots = Nœuds utilisés
head-setting-up = Mise en place
head-work = L’ouvrage
head-step = Étape { $n }
head-check = Avant de continuer
head-note = Remarque
head-end = { $use ->
    [hung] Finitions et suspension
    [carried] Finitions et transport
    [worn] Finitions et port
   *[plain] Finitions
}
head-cautions = { $use ->
    [hung] Avant de suspendre quoi que ce soit
    [carried] Avant d’y porter quoi que ce soit
   *[unknown] Si quelque chose doit y être suspendu
}

## Nœuds
name-larks-head = tête d’alouette
name-half-knot = demi-nœud
name-square-knot = nœud plat
name-half-hitch = demi-clé
name-double-half-hitch = double demi-clé
name-overhand = nœud simple
name-gathering = surliure
name-braid = tresse
tied-half-knot = { $n ->
    [one] un demi-nœud
   *[other] { $n } demi-nœuds
}
tied-square-knot = { $n ->
    [one] un nœud plat
   *[other] { $n } nœuds plats
}
tied-half-hitch = { $n ->
    [one] une demi-clé
   *[other] { $n } demi-clés
}
tied-overhand = { $n ->
    [one] un nœud simple
   *[other] { $n } nœuds simples
}

## En bref
fact-length = Longueur du haut jusqu’au bout le plus bas : { $length } (somme des longueurs).
fact-hangs = Longueur finie : { $hangs } ; ses longueurs additionnées font { $length }.
fact-width = Largeur sur les nœuds : { $length }.
fact-count = { $cords ->
    [one] Un fil
   *[other] { $cords } fils
}, { $knots ->
    [one] un nœud
   *[other] { $knots } nœuds
}.
fact-numbering = { $side ->
    [left] Les brins se comptent depuis la gauche ; en rond, depuis la couture.
   *[right] Ceci est l’édition pour gauchers : tout est en miroir, et les brins se comptent depuis la droite ; en rond, depuis la couture.
}
fact-time = Durée : environ { $likely } ; entre { $low } et { $high } selon les mains (estimation d’après les nœuds).
fact-difficulty = { $level ->
    [1] Difficulté 1 sur 4 : un premier ouvrage.
    [2] Difficulté 2 sur 4 : un peu de pratique aide.
    [3] Difficulté 3 sur 4 : pour mains exercées.
   *[4] Difficulté 4 sur 4 : pour mains patientes et exercées.
}
fact-reasons = Pourquoi : { $reasons }.
reason-round = travail en rond
reason-slanted = barres obliques de doubles demi-clés
reason-many-slanted = beaucoup de doubles demi-clés à tenir en ligne
reason-passes = groupes qui se croisent
reason-added = fils ajoutés en cours de route
reason-many-strands = beaucoup de brins à la fois
reason-many-knots = beaucoup de nœuds
reason-many-kinds = plusieurs sortes de nœuds
reason-uneven-folds = fils qui ne sont pas simplement pliés au milieu

## Fournitures
material = { $length } de fil « { $name } » : { $kind }, épaisseur { $thick }.
material-weight = Poids : environ { $weight }.
mount-ring = Un anneau de { $inside } de diamètre intérieur, en fil métallique de { $thick }.
mount-rod = Un bâton de { $length } de long et { $thick } d’épaisseur.
tool-scissors = Des ciseaux.
tool-tape-measure = Un mètre ruban.
tool-hook = Un crochet ou une barre où suspendre l’ouvrage pendant le travail.
tool-board = Une planche et des épingles pour tenir l’ouvrage.
tool-comb = Un peigne pour la frange.
tool-needle = Une aiguille à bout rond ou un crochet, pour rentrer les bouts.

## Coupe
cut-line = { $count } × { $length } de « { $cord } », { $fold } ; { $part }.
cut-given = { $count } × { $length } de « { $cord } » (déjà coupé), { $fold } ; { $part }.
fold-middle = plié au milieu
fold-none = non plié
fold-uneven = plié en { $left } à gauche et { $right } à droite
part-mount = monté au début
part-added = ajouté en cours de travail
part-holding = posé comme fil porte-nœud
part-wrap = pour la surliure

## Mise en place
set-holding-cord = Tendre le fil { $cut } à l’horizontale devant soi et l’épingler, en laissant dépasser { $tail } à chaque bout.
set-larks-head = { $count ->
    [one] Plier un fil { $cut } au milieu et le monter en tête d’alouette
   *[other] Plier { $count } fils { $cut } au milieu et les monter côte à côte, chacun en tête d’alouette
}, { $face ->
    [reverse] la barre derrière
   *[face] la barre devant
}. Cela donne { $strands }.
set-larks-head-uneven = { $count ->
    [one] Plier un fil { $cut } en parts de { $short } et { $long } et le monter en tête d’alouette
   *[other] Plier { $count } fils { $cut } en parts de { $short } et { $long } et les monter côte à côte, chacun en tête d’alouette
}, { $face ->
    [reverse] la barre derrière
   *[face] la barre devant
}, la part longue { $side ->
    [left] à gauche
   *[right] à droite
}. Cela donne { $strands }.
set-folded = { $count ->
    [one] Plier un fil { $cut } au milieu et l’épingler par le pli
   *[other] Plier { $count } fils { $cut } au milieu et les épingler par le pli, côte à côte
}. Cela donne { $strands }.
set-folded-uneven = { $count ->
    [one] Plier un fil { $cut } en parts de { $short } et { $long } et l’épingler par le pli
   *[other] Plier { $count } fils { $cut } en parts de { $short } et { $long } et les épingler par le pli, côte à côte
}, la part longue { $side ->
    [left] à gauche
   *[right] à droite
}. Cela donne { $strands }.
set-single = { $count ->
    [one] Fixer un fil { $cut } sans le plier
   *[other] Fixer { $count } fils { $cut } sans les plier, côte à côte
}, { $tail } dépassant en haut. Cela donne { $strands }.
set-again = Continuer dans le même ordre, encore { $times } fois, jusqu’au brin { $last }.
set-in-turn = Monter les fils côte à côte dans cet ordre, chacun plié comme indiqué et en tête d’alouette, { $face ->
    [reverse] la barre derrière
   *[face] la barre devant
}. Les nombres devant sont ceux des brins que cela donne.
set-in-turn-pinned = Épingler les fils côte à côte dans cet ordre, chacun par son pli. Les nombres devant sont ceux des brins que cela donne.
set-item = { $places } : { $count ->
    [one] un fil { $cut }, plié
   *[other] { $count } fils { $cut }, pliés
} au milieu
set-item-uneven = { $places } : { $count ->
    [one] un fil { $cut }
   *[other] { $count } fils { $cut }
}, { $left } à gauche, { $right } à droite
set-items-again = Puis continuer dans le même ordre, encore { $times } fois, jusqu’au brin { $last }.

## Titres des étapes
title-mount = Monter les fils
title-half-knot = { $n ->
    [one] Demi-nœud
   *[other] Demi-nœuds
}
title-square-knot = { $n ->
    [one] Nœud plat
   *[other] Nœuds plats
}
title-half-hitch = { $n ->
    [one] Demi-clé
   *[other] Demi-clés
}
title-double-half-hitch = { $n ->
    [one] Double demi-clé
   *[other] Doubles demi-clés
}
title-overhand = { $n ->
    [one] Nœud simple
   *[other] Nœuds simples
}
title-gathering = Surliure
title-braid = { $n ->
    [one] Tresse
   *[other] Tresses
}
title-free = Fil libre
title-pass = Échanger les places
title-reorder = Nouvel ordre
title-join = Fermer le rond
title-open = Ouvrir le rond
title-seam = Nouvelle numérotation
title-add = Ajouter des fils
title-leave = Brins qui finissent ici
title-fringe = Couper la frange
title-tail = Couper les bouts
title-again = Encore une fois

## Étapes
tie-one = Faire { $what } avec { $where }.
tie-each = Faire { $what } avec chacun de ces { $n } groupes : { $where }.
tie-rows = Faire { $rows } rangs ; à chaque endroit { $what }.
row-on = Rang { $row } : { $n ->
    [one] un groupe
   *[other] { $n } groupes
}, { $where }.
rows-again = { $n ->
    [one] Rang { $from } : comme le rang { $first }.
   *[other] Rangs { $from } à { $to } : comme les rangs { $first } à { $last }.
}
rows-again-two = { $n ->
    [one] Rang { $from } : comme le rang { $first }.
   *[other] Rangs { $from } à { $to } : comme les rangs { $first } et { $last }.
}
row-as = Rangs { $from } à { $to } : tous comme le rang { $first }.
rows-shrink = Rangs { $from } à { $to } : à chaque rang, laisser { $strands } { $strands ->
    [one] brin
   *[other] brins
} de plus de chaque côté ; le dernier rang a { $last ->
    [one] un groupe
   *[other] { $last } groupes
}.
rows-grow = Rangs { $from } à { $to } : à chaque rang, prendre { $strands } { $strands ->
    [one] brin
   *[other] brins
} de plus de chaque côté ; le dernier rang a { $last ->
    [one] un groupe
   *[other] { $last } groupes
}.
hand-working = { $hand ->
    [left] Commencer chaque nœud avec le brin de travail de gauche devant.
    [right] Commencer chaque nœud avec le brin de travail de droite devant.
   *[alternate] Commencer les nœuds en alternance : le premier avec le brin de travail de gauche devant, le suivant avec celui de droite.
}
hand-spiral = { $hand ->
    [left] Commencer chaque demi-nœud avec le brin de travail de gauche devant : le cordon se torsade de lui-même.
    [right] Commencer chaque demi-nœud avec le brin de travail de droite devant : le cordon se torsade de lui-même.
   *[alternate] Commencer les demi-nœuds en alternance, le brin de travail de gauche devant, puis celui de droite.
}
hand-hitch = { $hand ->
    [left] Passer le brin de gauche autour des autres.
    [right] Passer le brin de droite autour des autres.
   *[alternate] Passer en alternance le brin de gauche et celui de droite autour des autres.
}
workers = Dans chaque groupe, les brins { $places } travaillent autour des autres.
workers-outer = { $fillers ->
    [one] Les deux brins extérieurs d’un groupe travaillent ; celui du milieu est le fil porteur et reste droit.
   *[other] Les deux brins extérieurs d’un groupe travaillent ; les { $fillers } du milieu sont les fils porteurs et restent droits.
}
free-above = Laisser { $length } de fil libre au-dessus du premier nœud.
gap-between = Laisser { $length } de fil libre d’un nœud au suivant.
gap-rows = Laisser { $length } de fil libre d’un rang au suivant.
open-cord = Au-dessus de ces nœuds, le fil se règle de lui-même : { $range } restent libres.
hitch-on = Le brin { $holding } est le fil porte-nœud. Le mener vers la { $side ->
    [left] gauche
   *[right] droite
}, { $slant }, et y nouer une double demi-clé avec { $strands }{ $n ->
    [one] .
   *[other] , dans cet ordre.
}
hitch-laid = Poser le fil { $cut } comme fil porte-nœud, { $slant }, en laissant dépasser { $tail } à chaque bout. Travailler vers la { $side ->
    [left] gauche
   *[right] droite
} et y nouer une double demi-clé avec { $strands }{ $n ->
    [one] .
   *[other] , dans cet ordre.
}
hitch-rows = { $n ->
    [one] Puis encore un rang dessous aux mêmes places, avec pour fil porte-nœud le brin qui est maintenant le premier.
   *[other] Puis encore { $n } rangs dessous aux mêmes places, chacun avec pour fil porte-nœud le brin qui est alors le premier.
}
slant-level = à l’horizontale
slant-steep = en descendant de { $degrees }°
braid-on = Tresser les brins { $where }, { $times ->
    [one] un tour complet
   *[other] { $times } tours complets
}.
braid-each = Faire { $n } tresses : { $where } ; chacune { $times ->
    [one] un tour complet
   *[other] { $times } tours complets
}.
gather-with = Serrer ensemble { $strands } par une surliure : poser le fil { $cut } le long du faisceau en une boucle tournée vers le bas, puis l’enrouler autour du faisceau et de la boucle, de haut en bas, { $turns ->
    [one] un tour
   *[other] { $turns } tours côte à côte
}. Passer le bout dans la boucle, tirer le bout du haut jusqu’à ce que la boucle glisse sous les tours, et couper les deux bouts.
gather-strand = Serrer ensemble { $strands } par une surliure du brin { $wrap } : le poser le long du faisceau en une boucle tournée vers le bas, puis l’enrouler autour du faisceau et de la boucle, de haut en bas, { $turns ->
    [one] un tour
   *[other] { $turns } tours côte à côte
}. Passer son bout dans la boucle et tirer la boucle sous les tours.
free-cord = Laisser { $length } de fil libre avant le nœud suivant, pour { $strands }.
pass-front = Faire passer { $front } devant { $behind } : les deux groupes échangent leurs places. On ne noue rien.
reorder-groups = { $n ->
    [one] Compter les brins du groupe ({ $where })
   *[other] Compter les brins de chaque groupe ({ $where })
} de 1 à { $size }, puis les poser dans cet ordre : { $order }. À partir d’ici, c’est leur nouvelle place qui compte.
join-round = Fermer l’ouvrage en rond : le dernier brin est maintenant à côté du premier.
open-flat = Ouvrir le rond à la couture : l’ouvrage est de nouveau plat, et le brin { $first } porte le numéro 1.
seam-moves = Renuméroter : à partir d’ici, le brin { $first } porte le numéro 1.
add-folded = { $count ->
    [one] Ajouter un fil { $cut } plié
   *[other] Ajouter { $count } fils { $cut } pliés
} ; le nœud suivant tient le tout. On a maintenant { $strands }.
add-uneven = { $count ->
    [one] Ajouter un fil { $cut } plié en parts de { $short } et { $long }
   *[other] Ajouter { $count } fils { $cut } pliés en parts de { $short } et { $long }
}, la part longue { $side ->
    [left] à gauche
   *[right] à droite
} ; le nœud suivant tient le tout. On a maintenant { $strands }.
add-single = { $count ->
    [one] Ajouter un fil { $cut } non plié
   *[other] Ajouter { $count } fils { $cut } non pliés
}, { $tail } dépassant ; le nœud suivant tient le tout. On a maintenant { $strands }.
leave-strands = Ici finissent { $strands } : couper à { $length } sous leur dernier nœud.
fringe-level = Couper { $strands } selon une ligne horizontale : à { $length } sous leur dernier nœud.
fringe-point = Couper { $strands } en pointe, plus longs au milieu : à { $length } sous leur dernier nœud.
fringe-slant = Couper { $strands } en biais, plus long { $side ->
    [left] à gauche
   *[right] à droite
} : à { $length } sous leur dernier nœud.
fringe-falls = Couper { $strands } séparément : chacun à { $length } sous son dernier nœud.
tails-trim = Couper { $strands } à { $length } sous leur dernier nœud.
again-same = Refaire { $steps }, encore { $times } fois.
again-on = Refaire { $steps } de la même façon, avec { $strands }.
again-moved = Refaire { $steps }, encore { $times } fois, en avançant chaque fois de { $shift } brins.
steps-one = l’étape { $first }
steps-two = les étapes { $first } et { $last }
steps-many = les étapes { $first } à { $last }

## Contrôles
check-sinnet = { $groups ->
    [one] Le cordon noué mesure maintenant environ { $length }.
   *[other] Chaque cordon noué mesure maintenant environ { $length }.
}
check-braid = { $groups ->
    [one] La tresse mesure maintenant environ { $length }.
   *[other] Chaque tresse mesure maintenant environ { $length }.
}
check-rows = Du premier au dernier rang, cela mesure environ { $length }.
check-wrap = L’enroulement a environ { $length } de haut.
check-left-working = Il reste aux brins de travail environ { $length }, réserve comprise.
check-left-holding = { $n ->
    [one] Il reste au fil porte-nœud environ { $length }, réserve comprise.
   *[other] Il reste aux fils porte-nœud environ { $length }, réserve comprise.
}
check-depth = L’ouvrage descend maintenant à environ { $length } sous le haut.

## Finitions et suspension
finish-tighten = Reprendre les derniers nœuds et bien les serrer.
finish-tails = Rentrer au dos, à travers les nœuds, les bouts des fils posés ou abandonnés, puis les couper.
finish-fringe = Peigner la frange, ou nouer chaque bout, et l’égaliser une dernière fois quand elle pend droit.
hang-on = Suspendre l’ouvrage par { $mount ->
    [ring] son anneau
    [level] son anneau, bien à plat
    [rod] son bâton, bien de niveau
   *[cord] son fil porte-nœud, les deux bouts attachés
}, et le mettre en forme.
hang-load = Poser en dernier { $load ->
    [pot] le pot
    [bowl] la coupe
    [box] la boîte
    [sphere] la boule
   *[thing] la charge
}, et vérifier que tout est de niveau et touche le fil tout autour.
carry-try = Y mettre ce qu’il doit porter, soulever l’ouvrage un peu au-dessus de quelque chose de souple et examiner chaque nœud : aucun ne doit glisser.
carry-settle = Sous les premières charges, le fil cède et les nœuds se resserrent : reprendre tous les nœuds après quelques jours.
wear-fit = L’essayer avant de couper les bouts pour de bon, et vérifier qu’il va bien : les nœuds se resserrent et le fil cède quand on le porte.
wear-settle = Après les premiers jours, resserrer les nœuds près { $mount ->
    [ring] de l’anneau
    [rod] de la barre
    [cord] du fil porte-nœud
   *[nothing] des deux bouts
} : c’est là que l’ouvrage est le plus tiré.
caution-sums = Ce sont des calculs sur des chiffres publiés, pas un essai de votre fil. Des cordons de coton de même épaisseur diffèrent jusqu’à six fois : un essai de traction de votre propre fil vaut mieux que tout tableau.
caution-ages = Le fil vieillit, s’effiloche et pourrit, les nœuds glissent et se desserrent : examiner souvent l’ouvrage, et le décrocher en cas de doute.
caution-try = L’essayer d’abord avec plus que sa charge, à faible hauteur au-dessus d’un sol souple, et l’y laisser un jour.
caution-hook = Choisir crochet, cheville et vis selon les indications du fabricant et la réglementation locale ; d’en bas, on ne connaît pas un plafond.
caution-people = Pour tout ce qui pend au-dessus des têtes, d’un lit ou d’un berceau, ou à quoi des personnes ou des animaux grimpent ou se suspendent, s’adresser à un professionnel agréé.
caution-carry = Il est fait pour des objets : ni personne ni animal ne doit être porté, soulevé ou retenu avec.
