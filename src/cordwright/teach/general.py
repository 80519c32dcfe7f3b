"""Everything that is told around the steps: facts, materials, cutting, finishing, use."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Final

from cordwright.teach.amounts import Length
from cordwright.teach.measures import Measures
from cordwright.teach.plaintext import plain_text
from cordwright.teach.told import Line, Quantity

if TYPE_CHECKING:
    from cordwright.teach.needs import Cut, Material, Mount
    from cordwright.teach.steps import Lesson
    from cordwright.teach.words import Words

HEADINGS: Final = (
    "facts", "materials", "tools", "cuts", "cut", "knots", "setting-up", "work", "check", "note",
)  # fmt: skip
CAUTIONS: Final = (
    "caution-sums", "caution-ages", "caution-try", "caution-hook", "caution-people",
)  # fmt: skip
"""What goes with everything that can be hung, as in `cordwright.hang.verdict`, which has one more,
about the pulls that it tells."""

CARRIED: Final = ("caution-sums", "caution-ages", "caution-try", "caution-carry")
"""What goes with everything that something is carried in."""

HOUR_MIN = 90
"""From so many minutes on, hours are told."""


def headings(words: Words, lesson: Lesson) -> Mapping[str, str]:
    """The heading of every part, by its key; those of the end go by what becomes of the piece."""
    found = {key: words.text(f"head-{key}") for key in HEADINGS}
    return found | {
        key: words.text(f"head-{key}", use=lesson.use or "unknown") for key in ("end", "cautions")
    }


def _fixed(mm: float) -> Length:
    return Length(mm, mm)


def duration(words: Words, seconds: float) -> str:
    """A time as people tell it: to 5 minutes, from an hour and a half on to half an hour."""
    minutes = seconds / 60.0
    if minutes < HOUR_MIN:
        step = 1 if minutes < 10 else 5
        return words.text("minutes", n=max(1, round(minutes / step) * step))
    return words.text("hours", n=round(minutes / 30.0) / 2)


def facts(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """Size, counts, how strands are numbered, time, difficulty."""
    numbering = words.line("fact-numbering", side="right" if lesson.mirrored else "left")
    size, rest = words.line("fact-length", length=lesson.finished), glance(words, lesson)
    return (size, *rest, numbering)


def measured(words: Words, lesson: Lesson, tall_mm: float) -> Line:
    """How long the piece is when it hangs or lies, as its pictures show it, and by adding up."""
    hangs = words.quantity(_fixed(tall_mm), about=True)
    return words.line("fact-hangs", hangs=hangs, length=words.quantity(lesson.finished, about=True))


def glance(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """What else there is to know at a glance: width, counts, time, difficulty."""

    def found() -> Iterator[Line]:
        if lesson.width_mm is not None:
            yield words.line("fact-width", length=_fixed(lesson.width_mm))
        cords, knots = sum(c.count for c in lesson.cuts), sum(k.count for k in lesson.knots)
        yield words.line("fact-count", cords=cords, knots=knots)
        low, likely, high = (
            duration(words, s)
            for s in (lesson.time.low_s, lesson.time.likely_s, lesson.time.high_s)
        )
        yield words.line("fact-time", likely=likely, low=low, high=high)
        yield words.line("fact-difficulty", level=lesson.difficulty.level)
        if lesson.difficulty.reasons:
            reasons = [words.text(f"reason-{key}") for key in lesson.difficulty.reasons]
            yield words.line("fact-reasons", reasons=words.listed(reasons))

    return tuple(found())


def materials(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """Cord of every kind, and what the piece begins on."""
    return (*(_material(words, m) for m in lesson.materials), *mount_lines(words, lesson.mount))


def _material(words: Words, material: Material) -> Line:
    said = (material.fibre, material.build, material.colour)
    kind = ", ".join(plain_text(s) for s in said if plain_text(s))
    line = words.line(
        "material",
        length=_fixed(material.total_mm),
        name=material.name,
        kind=kind,
        thick=words.thick(material.diameter_mm),
    )
    if material.weight_g is None:
        return line
    grams = words.text("grams", n=max(1, round(material.weight_g)))
    return Line((*line.parts, " ", *words.line("material-weight", weight=grams).parts))


def mount_lines(words: Words, mount: Mount) -> Iterator[Line]:
    """The ring or rod to have; nothing for other mounts."""
    thick = words.thick(mount.thick_mm) if mount.thick_mm is not None else ""
    if mount.kind == "ring" and mount.inside_mm is not None:
        yield words.line("mount-ring", inside=_fixed(mount.inside_mm), thick=thick)
    if mount.kind == "rod" and mount.length_mm is not None:
        yield words.line("mount-rod", length=_fixed(mount.length_mm), thick=thick)


def tools(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """What else to have at hand."""
    return tuple(words.line(f"tool-{key}") for key in lesson.tools)


def cuts(words: Words, lesson: Lesson) -> dict[str, Line]:
    """Every entry of the cut list."""
    return {cut.id: _cut(words, cut) for cut in lesson.cuts}


def _cut(words: Words, cut: Cut) -> Line:
    if cut.fold_mm is not None:
        left, right = (_fixed(mm) for mm in cut.fold_mm)
        fold = words.line("fold-uneven", left=left, right=right)
    else:
        fold = words.line("fold-middle" if cut.fold == "middle" else "fold-none")
    return words.line(
        "cut-given" if cut.already_cut else "cut-line",
        count=cut.count,
        length=Quantity(Measures(words).to_cut(cut.length_mm), _fixed(cut.length_mm)),
        cord=cut.cord,
        fold=fold,
        part=words.line(f"part-{cut.part}"),
    )


def finishing(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """What is done when the last knot is tied."""
    keys = ["finish-tighten"]
    keys += ["finish-tails"] if "needle" in lesson.tools else []
    keys += ["finish-fringe"] if "comb" in lesson.tools else []
    return tuple(words.line(key) for key in keys)


def using(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """How the piece is hung, carried or worn; nothing where the plan says none of these."""
    mount = "level" if lesson.mount.level else lesson.mount.kind
    match lesson.use:
        case "hung":
            lines = [words.line("hang-on", mount=mount)]
            lines += [words.line("hang-load", load=lesson.load)] if lesson.load else []
        case "carried":
            lines = [words.line("carry-try"), words.line("carry-settle")]
        case "worn":
            lines = [words.line("wear-fit"), words.line("wear-settle", mount=lesson.mount.kind)]
        case _:
            lines = []
    return tuple(lines)


def cautions(words: Words, lesson: Lesson) -> tuple[Line, ...]:
    """What to mind before anything is hung or carried.

    Where the plan does not say what becomes of the piece, but it is mounted on something that it
    can hang from, they stand too.
    """
    if lesson.use in ("worn", "plain") or (not lesson.use and lesson.mount.kind == "nothing"):
        return ()
    return tuple(words.line(key) for key in (CARRIED if lesson.use == "carried" else CAUTIONS))
