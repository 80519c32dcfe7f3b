"""Pictures as PNG, with the lettering's own font and no other."""

from __future__ import annotations

from cordwright.draw.ink import PAPER
from cordwright.draw.piece_text import FAMILY, font_files

DOTS_PER_MM = 8.0
"""About 200 dots an inch, as prints want."""

MOST_PIXELS = 6000
"""Of the longer side; larger pictures are made as large as this."""


def png(svg: str, width: float, height: float, dots_per_mm: float = DOTS_PER_MM) -> bytes:
    """A picture as PNG.

    Args:
        svg: the picture.
        width: of its page, mm.
        height: of its page, mm.
        dots_per_mm: how fine; less where the picture would be too large.
    """
    from resvg_py import svg_to_bytes

    fine = min(dots_per_mm, MOST_PIXELS / max(width, height))
    return bytes(
        svg_to_bytes(
            svg_string=svg,
            background=PAPER,
            width=max(1, round(width * fine)),
            height=max(1, round(height * fine)),
            dpi=96.0,  # without it, sizes in mm are none
            skip_system_fonts=True,
            font_files=font_files(),
            font_family=FAMILY,
            sans_serif_family=FAMILY,
        )
    )
