"""Everything on the lesson page, as values that JSON can hold; `web/` has what shows them.

Words are told, but for what changes with the reader's measures (`cordwright.teach.pagelines`).
Every picture stands in it once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cordwright import __version__
from cordwright.piece.risk import DEFAULT_RISK, unknown
from cordwright.teach.fingerprint import fingerprint
from cordwright.teach.general import glance, mount_lines
from cordwright.teach.labels import Labels
from cordwright.teach.measures import duration
from cordwright.teach.pagecuts import Forms, cut_data
from cordwright.teach.pagedoubts import constants
from cordwright.teach.pageforms import Source, open_forms, plain_piece
from cordwright.teach.pagelimits import Limits, closings, girth_of, net_of
from cordwright.teach.pagelines import Lines, marked
from cordwright.teach.pagesteps import Steps
from cordwright.teach.pagewords import endings, signs, words_of
from cordwright.teach.plaintext import plain_text
from cordwright.teach.telling import tell

if TYPE_CHECKING:
    from cordwright.piece.risk import Known
    from cordwright.teach.bookdata import Picture
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.publish import Taught
    from cordwright.teach.steps import Lesson
    from cordwright.teach.told import Told
    from cordwright.teach.words import Words


@dataclass(frozen=True, slots=True)
class Published:
    """What stands at the page's end: its version as its maker counts, and what may be done."""

    version: str = "1"
    licence: str = ""


@dataclass(frozen=True, slots=True)
class Sureness:
    """What spare is for: what swatches told of the cords, and the chance that one is too short."""

    known: Known | None = None
    risk: float = DEFAULT_RISK


class Figures:
    """Pictures by their place in one list; the same picture stands in it once."""

    def __init__(self) -> None:
        self._places: dict[str, int] = {}
        self._svgs: list[str] = []

    def of(self, picture: Picture) -> dict[str, Any]:
        """A picture as the page shows it."""
        if picture.svg not in self._places:
            self._places[picture.svg] = len(self._svgs)
            self._svgs.append(picture.svg)
        return {
            "svg": self._places[picture.svg],
            "alt": plain_text(picture.alt),
            "wide": round(picture.width_mm, 2),
            "high": round(picture.height_mm, 2),
        }

    def table(self) -> list[str]:
        """All of them, as SVG text."""
        return self._svgs


def page_data(
    editions: Sequence[Taught],
    pictures: Pictures,
    words: Words,
    published: Published,
    sureness: Sureness,
) -> dict[str, Any]:
    """The page of some editions of a plan; pictures are of the first.

    Args:
        editions: worked and told.
        pictures: drawn for a booklet.
        words: the language and units.
        published: what stands at its end.
        sureness: what spare is for; as when the editions were worked.
    """
    say = Labels(words)
    figures = Figures()
    first = editions[0].version.lesson
    mark = fingerprint(e.version.lesson for e in editions)
    return {
        "lang": words.language,
        "mark": mark,
        "units": words.units,
        "mirrored": first.mirrored,
        "title": plain_text(first.title),
        "about": plain_text(first.about),
        "words": words_of(words) | endings(words, first),
        "signs": signs(words),
        "chances": constants(sureness.risk),
        "cover": figures.of(pictures.cover),
        "charts": [
            {"title": c.title, "figure": figures.of(c.figure), "about": c.about}
            for c in pictures.charts
            if c.title != say("whole")  # its measures are those of the plan, not of the reader
        ],
        "knots": [
            {
                "name": part.name,
                "steps": [{"figure": figures.of(s.figure), "text": s.text} for s in part.steps],
            }
            for part in pictures.knots
        ],
        "editions": [
            {
                **_edition(e, {k: figures.of(p) for k, p in beside.items()}, words, sureness.known),
                "hangs": hangs,
            }
            for e, beside, hangs in zip(
                editions,
                (pictures.beside, *pictures.others),
                _hanging(editions, pictures),
                strict=True,
            )
        ],
        "colophon": [
            say("version", edition=published.version, print=mark),
            plain_text(published.licence) or say("licence-default"),
            words.text("page-made-with", version=__version__),
        ],
        "figures": figures.table(),
    }


def _hanging(editions: Sequence[Taught], pictures: Pictures) -> Sequence[float | None]:
    """How long every edition hangs as planned, mm, with what it holds; None if not known."""
    return pictures.tall_mm or [None] * len(editions)


def _edition(
    edition: Taught, beside: Mapping[int, dict[str, Any]], words: Words, known: Known | None
) -> dict[str, Any]:
    version, say = edition.version, Labels(words)
    source = Source(edition.piece, version.edition)
    opens = open_forms(source)
    piece = plain_piece(edition.piece, opens)
    forms = Forms(source.symbols())
    limits = Limits(source, piece, forms)
    lesson = marked(version.lesson)
    told = tell(lesson, words)
    lines = Lines(lesson, forms, opens)
    steps = Steps(lines, beside, words)
    found: dict[str, Any] = {
        "name": plain_text(version.edition.name),
        "cuts": cut_data(piece, known or unknown(edition.piece), forms),
        "net": net_of(piece, forms),
        "girth": girth_of(edition.piece),
        "closings": closings(piece, forms),
        "shape": any(form.terms for form in opens.values()) and lesson.width_mm is not None,
        "cords": [
            {**cord, "words": _cord_words(version.lesson, cord["name"])} for cord in limits.cords()
        ],
        "sections": [steps.section(s) for s in told.sections],
        **_around(words, told, lesson, lines),
        "time": duration(lesson.time.likely_s, say),
        "level": say("level", level=lesson.difficulty.level),
    }
    found["sizes"] = limits.sizes()
    return {
        **found,
        "symbols": list(forms.symbols),
        "values": [edition.piece.values[s] for s in forms.symbols],
        "forms": forms.table(),
    }


def _around(words: Words, told: Told, lesson: Lesson, lines: Lines) -> dict[str, Any]:
    """What stands around the steps: facts but for those that the page has itself, and the rest."""
    return {
        "facts": lines.all(glance(words, lesson)),
        "width": lesson.width_mm is not None,
        "mount": lines.all(mount_lines(words, lesson.mount)),
        "tools": lines.all(told.tools),
        "ending": lines.all((*told.finishing, *told.using)),
        "cautions": lines.all(told.cautions),
    }


def _cord_words(lesson: Lesson, name: str) -> str:
    """What a cord is, but for its diameter."""
    m = next(m for m in lesson.materials if m.name == name)
    return ", ".join(plain_text(p) for p in (m.build, m.fibre, m.colour) if plain_text(p))
