"""Small booklets made by hand, for tests of how pages are set."""

from __future__ import annotations

from typing import Any

from cordwright.teach.bookdata import Booklet, Picture

WORDS = {
    key: key.capitalize()
    for key in (
        "kind", "running_right", "contents", "before", "materials", "tools", "cuts", "knots",
        "steps", "chart", "sizes", "end", "cautions", "colophon",
    )
}  # fmt: skip

CIRCLE = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20" width="20mm" height="20mm">'
    '<circle cx="10" cy="10" r="8" fill="#cb5f38"/></svg>'
)


def picture(alt: str = "A circle.") -> Picture:
    """A circle."""
    return Picture(CIRCLE, alt, 20.0, 20.0)


def book(**changed: Any) -> Booklet:
    """A booklet with next to nothing in it, but for what is given."""
    plain: dict[str, Any] = {
        "paper": "a4", "lang": "en", "title": "A piece", "about": "", "running": "A piece",
        "footer": "Edition 1", "words": WORDS, "cover": picture(),
    }  # fmt: skip
    return Booklet(**{**plain, **changed})
