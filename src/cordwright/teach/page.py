"""The lesson page: one HTML file that needs nothing else, written from `web/` and the page's data.

What the plan says goes in as data: JSON in a script of a type that is never run, with every ``<``
escaped, so that no word can end it. The page's script puts words in as text, never as markup. The
content security policy lets only the page's own script and style run, by their hashes, and loads
nothing: no network, no frames, no forms; pictures and fonts are data within the page.
"""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping, Sequence
from functools import cache
from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING, Any, Final

from cordwright.teach.drawn import drawn
from cordwright.teach.labels import Labels
from cordwright.teach.pagedata import Published, Sureness, page_data
from cordwright.teach.webfonts import faces

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.publish import Taught
    from cordwright.teach.words import Words

SCRIPTS: Final = (
    "measure", "chance", "cutlist", "fit", "store", "dom", "lines", "notes", "panel", "cuts",
    "steps", "along", "parts", "main",
)  # fmt: skip
"""Parts of the page's script, in the order in which they stand in it."""

STYLES: Final = ("look", "parts", "along", "print")


def lesson_page(
    editions: Sequence[Taught],
    atlas: Atlas,
    words: Words,
    published: Published | None = None,
    *,
    sureness: Sureness | None = None,
    pictures: Pictures | None = None,
) -> str:
    """The page of all editions; pictures are of the first.

    Args:
        editions: worked and told.
        atlas: where tight curves come from.
        words: the language and units.
        published: its version and licence.
        sureness: what spare is for; as when the editions were worked.
        pictures: as drawn for the booklet; drawn here if None.
    """
    if pictures is None:
        versions = [edition.version for edition in editions]
        pieces = [edition.piece for edition in editions]
        # Measures in pictures are the plan's, not the reader's: the page has none.
        pictures = drawn(pieces, versions, atlas, Labels(words), measured=False)
    end, sure = published or Published(), sureness or Sureness()
    return page_html(page_data(editions, pictures, words, end, sure))


def page_html(data: Mapping[str, Any]) -> str:
    """The page that shows some data."""
    script, style = _script(), _style()
    policy = (
        f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; "
        "img-src data:; font-src data:; base-uri 'none'; form-action 'none'"
    )
    words = data["words"]
    places = {
        "lang": escape(data["lang"]),
        "policy": policy,
        "title": escape(data["title"]),
        "style": style,
        "skip": escape(words["skip"]),
        "needs": escape(words["needs-script"]),
        "data": _data(data),
        "script": script,
    }
    html = _text("lesson.html")
    parts = html.split("%%")  # every second part is the name of what goes there
    parts[1::2] = [places[name] for name in parts[1::2]]
    return "".join(parts)


def _data(data: Mapping[str, Any]) -> str:
    """JSON that ends no script and opens no comment in HTML."""
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    for sign in "<>&\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text


def _hash(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


@cache
def _script() -> str:
    """The whole script, strict and with no name of its own in the page."""
    parts = "\n".join(_text(f"{name}.js") for name in SCRIPTS)
    return f'"use strict";\n(() => {{\n{parts}\n}})();\n'


@cache
def _style() -> str:
    return "\n".join((faces(), *(_text(f"{name}.css") for name in STYLES)))


@cache
def _text(name: str) -> str:
    return (files("cordwright.teach") / "web" / name).read_text(encoding="utf-8")
