"""``cordwright knots --draw``."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.describe import describe
from cordwright.cli.progress import progress_bar
from cordwright.cli.show import Screen
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.draw.sheet import Pictures
    from cordwright.knots.spec import KnotSpec


def draw_knots(specs: Sequence[KnotSpec], folder: Path) -> None:
    """Write the figure and the tying steps of every knot, and a sheet of all if they are several.

    Raises:
        KnotError: one of the knots cannot be tied as specified.
        CordwrightError: the folder cannot be written.
    """
    from cordwright.draw.sheet import pictures
    from cordwright.knots.atlas import Atlas

    with progress_bar() as report:
        atlas = Atlas(watch=lambda spec, share: report(describe(spec), share))
        done = [pictures(atlas, spec) for spec in specs]
    files: dict[str, bytes] = {
        name: svg.encode() for drawn in done for name, svg in drawn.files().items()
    }
    if len(done) > 1:
        files |= _sheets(done)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in files.items():
            (folder / name).write_bytes(data)
    except OSError as problem:
        raise CordwrightError(
            f"The pictures could not be written to {folder}: {problem.strerror}.",
            remedy="name another folder with --out",
        ) from problem
    Screen().line(f"Wrote {len(files)} files to {folder}.")


def _sheets(done: Sequence[Pictures]) -> dict[str, bytes]:
    """A page with all knots and their steps, and all tight knots as one picture."""
    from cordwright.draw.piece_png import png
    from cordwright.draw.sheet import sheet_html, sheet_svg

    svg, width, height = sheet_svg(done)
    return {
        "sheet.html": sheet_html(done).encode(),
        "sheet.svg": svg.encode(),
        "sheet.png": png(svg, width, height),
    }
