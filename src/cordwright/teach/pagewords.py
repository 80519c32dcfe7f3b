"""The words of the lesson page's own controls, and the signs that it writes lengths with.

Sentences that the page fills in come with places such as ``{n}``; none of them has a plural.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cordwright.teach.general import headings

if TYPE_CHECKING:
    from cordwright.teach.steps import Lesson
    from cordwright.teach.words import Words

PLAIN: Final = (
    "kind", "skip", "contents", "needs-script", "fit", "fit-about", "edition", "units",
    "units-metric", "units-inch", "units-both", "size-fixed", "pot", "pot-about",
    "drop", "drop-about", "drop-by", "plan-measures", "notes", "cuts-done",
    "done", "along", "along-leave", "along-next", "along-back", "along-end", "along-again",
    "along-help", "reset", "reset-ask", "reset-yes", "reset-no", "reset-said", "kept", "not-kept",
    "print", "as-planned", "chart-planned", "rows", "times", "note-counts", "note-slack",
    "note-hangs-changed", "note-shape", "note-trial",
    "cords-here", "fold-middle", "fold-none", "already", "bounds-bad",
    "note-fit-other", "to-top", "fitted-none",
)  # fmt: skip
"""Messages without places, by their key behind ``page-``."""

FILLED: Final = {
    "diameter": ("name",),
    "bounds": ("low", "high"),
    "bounds-held": ("low", "high"),
    "size-label": ("about", "name"),
    "step": ("n",),
    "step-of": ("n", "of"),
    "progress": ("done", "of"),
    "row": ("n",),
    "cut-one": ("n", "of", "cut"),
    "cut-many": ("n", "cut"),
    "fold-uneven": ("left", "right"),
    "cord-item": ("where", "cut", "fold"),
    "fitted": ("what",),
    "fitted-one": ("name", "value"),
    "note-thick": ("cord", "percent"),
    "note-thin": ("cord", "percent"),
    "note-same": ("cord", "low", "high"),
    "note-ring": ("wide", "room"),
    "note-rod": ("wide", "room"),
    "note-row": ("wide", "room"),
    "note-tight": ("pot", "net"),
    "note-loose": ("pot", "net"),
    "note-hangs": ("hangs", "summed"),
    "changed": ("total", "finished"),
}
"""Messages with places, and which."""

HEADINGS: Final = ("materials", "tools", "cuts", "knots", "check", "note")

COLUMNS: Final = ("id", "done", "spare", "material", "total", "weight", "size", "about", "here")
"""Heads of tables that the booklet has as well; `OWN_COLUMNS` are the page's."""

OWN_COLUMNS: Final = ("count", "cord", "length", "fold")

PRINTED: Final = (
    "steps", "chart", "left-handed", "knots-about", "fact-length",
    "fact-cord", "fact-time", "fact-level", "before", "before-read", "before-swatch",
    "before-count", "before-count-mirrored", "sizes",
)  # fmt: skip

PARTS: Final = ("mount", "added", "holding", "wrap")


def words_of(words: Words) -> dict[str, str]:
    """Every message of the page by its key; places stand in braces."""
    found = {key: words.text(f"page-{key}") for key in PLAIN}
    for key, places in FILLED.items():
        found[key] = words.text(f"page-{key}", **{place: f"{{{place}}}" for place in places})
    for key in HEADINGS:
        found[f"head-{key}"] = words.text(f"head-{key}")
    for key in COLUMNS:
        found[f"col-{key}"] = words.text(f"print-col-{key}")
    for key in OWN_COLUMNS:
        found[f"col-{key}"] = words.text(f"page-col-{key}")
    for key in PRINTED:
        found[f"print-{key}"] = words.text(f"print-{key}")
    for key in PARTS:
        found[f"part-{key}"] = words.text(f"part-{key}")
    return found


def endings(words: Words, lesson: Lesson) -> dict[str, str]:
    """The headings that go by what becomes of the piece."""
    heads = headings(words, lesson)
    return {f"head-{key}": heads[key] for key in ("end", "cautions")}


def signs(words: Words) -> dict[str, str]:
    """Decimal sign, names of units, and how two lengths stand together."""
    return {
        "decimal": words.text("decimal-sign"),
        "inch": words.text("unit-in"),
        "foot": words.text("unit-ft"),
        "both": words.text("both-units", metric="{metric}", inch="{inch}"),
        "range": words.text("range", low="{low}", high="{high}"),
    }
