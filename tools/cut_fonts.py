"""Cuts the fonts of the lesson page down to what it shows, as `src/cordwright/teach/web/fonts`.

Run after the fonts' packages have changed: `python tools/cut_fonts.py`. Fonts are packed as
WOFF 1.0 (W3C recommendation) by fontTools, without their hints, which only matter at sizes that
the page does not use.
"""

from __future__ import annotations

import io
import sys
from importlib.resources import files
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from cordwright.teach.webfonts import FACES, LICENCE, Face

FOLDER = Path(__file__).parents[1] / "src" / "cordwright" / "teach" / "web" / "fonts"

SHOWN = frozenset(
    (*range(0x20, 0x7F), *range(0xA0, 0x180))  # Basic Latin, Latin-1, Latin Extended-A
) | frozenset(map(ord, "ȘșȚț–—‘’‚“”„†•…′″⁄€−×≈≤≥⅓⅔⅛⅜⅝⅞←↑→↓✓□‐‑\u2009\u202f"))  # noqa: RUF001
"""Every sign that the page's own words have, in any of its languages, and more for a plan's."""

FEATURES = ("kern", "liga", "ccmp", "locl", "mark", "mkmk")
"""What of a font's typesetting is kept: pairs, joined letters, accents."""

RENAMED = (1, 3, 4, 6, 16, 18, 21)
"""Entries of a font's name table that present it to users (OpenType, 'name')."""


def cut(face: Face) -> bytes:
    """A face, cut down and renamed, as WOFF."""
    options = Options(
        hinting=False,
        layout_features=list(FEATURES),
        name_IDs=list(range(15)),
        notdef_outline=True,
    )
    package, name = face.source
    out = io.BytesIO()
    with TTFont(str(files(package) / "files" / name), recalcTimestamp=False) as font:
        subsetter = Subsetter(options)
        subsetter.populate(unicodes=SHOWN)
        subsetter.subset(font)
        for record in font["name"].names:
            if record.nameID in RENAMED:
                record.string = face.family.replace(" ", "" if record.nameID == 6 else " ")
        font.flavor = "woff"
        font.save(out)
    return out.getvalue()


def licence() -> str:
    """The fonts' licence: their copyright notices, and the text that they share."""
    notices, text = [], ""
    for package in dict.fromkeys(face.source[0] for face in FACES):
        whole = (files(package) / "files" / "LICENSE.txt").read_text(encoding="utf-8")
        notice, _, text = whole.partition("\n")
        notices.append(notice.strip())
    cut_down = "These fonts were cut down from them and renamed, and are under the same licence."
    return "\n".join((*notices, "", cut_down, *(line.rstrip() for line in text.splitlines()), ""))


def main() -> None:
    """Writes all of them."""
    FOLDER.mkdir(exist_ok=True)
    for face in FACES:
        packed = cut(face)
        (FOLDER / face.file).write_bytes(packed)
        sys.stdout.write(f"{face.file}: {len(packed)} bytes\n")
    (FOLDER / LICENCE).write_text(licence(), encoding="utf-8")


if __name__ == "__main__":
    main()
