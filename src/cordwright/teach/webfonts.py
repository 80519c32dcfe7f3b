"""The letters of the lesson page, which stand in its style as data.

A page that works from disk cannot rely on fonts of the reader's device, and may load none. So it
brings the faces that the booklet is set in, cut down by `tools/cut_fonts.py` to the letters of
Western languages, figures, fractions and signs. What else a plan's words have is shown in fonts of
the reader's device.

Source Sans Pro and Source Serif Pro are under the SIL Open Font License 1.1, which keeps the name
'Source' for fonts that are unchanged: cut down, they go by another name, with their copyright and
licence in them and beside them.
"""

from __future__ import annotations

import base64
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Final


@dataclass(frozen=True, slots=True)
class Face:
    """A face of the page.

    Args:
        family: its name in CSS.
        weight: in CSS; two for all between them.
        source: the package that it is cut from, and its file there.
        file: as it is kept in `web/fonts`.
    """

    family: str
    weight: str
    source: tuple[str, str]
    file: str


SANS, SERIF = "Lesson Sans", "Lesson Serif"

FACES: Final = (
    Face(SANS, "400", ("font_source_sans_pro", "SourceSansPro-Regular.ttf"), "sans-400.woff"),
    Face(SANS, "600 700", ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"), "sans-600.woff"),
    Face(SERIF, "600", ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf"), "serif-600.woff"),
)

LICENCE: Final = "LICENSE.txt"
"""The fonts' licence, beside them."""


@cache
def faces() -> str:
    """Style that gives the page its fonts."""
    return "\n".join(
        f'@font-face {{ font-family: "{face.family}"; font-weight: {face.weight}; '
        f"font-display: block; src: url(data:font/woff;base64,{_kept(face)}) "
        'format("woff"); }'
        for face in FACES
    )


def _kept(face: Face) -> str:
    font = files("cordwright.teach") / "web" / "fonts" / face.file
    return base64.b64encode(font.read_bytes()).decode()
