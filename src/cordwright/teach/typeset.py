"""Setting pages: a template of this room, filled with data, becomes a PDF.

Typst sets the type (Apache-2.0, offline, in process). Words arrive in the template as JSON
strings and are never evaluated: `json(bytes(sys.inputs.data))` gives strings, and a string in Typst
is text. System fonts are not looked at, a warning is an error, and the file is PDF/UA-1 (ISO
14289-1: tagged, with a language, a title and words for every picture) or there is no file.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from cordwright.errors import CordwrightError
from cordwright.teach.fonts import font_folders

if TYPE_CHECKING:
    import typst

Paper = Literal["a4", "letter"]
Template = Literal["booklet", "filming"]

PAPERS_MM: Mapping[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height of the papers (ISO 216; ANSI/ASME Y14.1), mm."""

EPOCH = 0
"""The time written into files: always the same, so that the same plan gives the same bytes."""


class TypesettingError(CordwrightError):
    """The pages could not be set."""


def typeset(template: Template, data: Mapping[str, Any]) -> bytes:
    """A PDF of the template, filled with data.

    Args:
        template: which of this room's templates.
        data: JSON values; words are text and stay text.

    Raises:
        TypesettingError: the pages cannot be set as they should be: a character without a font, a
            picture that cannot be read.
    """
    return b"".join(_compiled(template, data, format="pdf", pdf_standards=["ua-1"]))


def pictured(template: Template, data: Mapping[str, Any], ppi: float) -> tuple[bytes, ...]:
    """The same pages as pictures (PNG), one each.

    Args:
        template: which of this room's templates.
        data: JSON values; words are text and stay text.
        ppi: pixels an inch.

    Raises:
        TypesettingError: as for `typeset`.
    """
    return tuple(_compiled(template, data, format="png", ppi=ppi))


def _compiled(template: Template, data: Mapping[str, Any], **output: Any) -> list[bytes]:
    import typst

    inputs = {"data": json.dumps(data, ensure_ascii=False, allow_nan=False)}
    try:
        compiled, warnings = _compiler().compile_with_warnings(
            input=templates() / f"{template}.typ", sys_inputs=inputs, timestamp=EPOCH, **output
        )
    except typst.TypstError as error:
        raise TypesettingError(
            f"The pages could not be set: {error.message}.",
            remedy="; ".join(error.hints) or "leave out what the message names",
        ) from error
    if warnings:
        raise TypesettingError(
            f"The pages are not as they should be: {warnings[0].message}.",
            remedy="; ".join(warnings[0].hints) or "leave out what the message names",
        )
    assert compiled is not None  # noqa: S101 - no output path was given, so bytes come back
    return [compiled] if isinstance(compiled, bytes) else compiled


def templates() -> Path:
    """The folder of the templates; nothing outside it can be read while pages are set."""
    return Path(str(files("cordwright.teach") / "typst"))


@cache
def _compiler() -> typst.Compiler:
    import typst

    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(p) for p in font_folders()])
    return typst.Compiler(root=templates(), font_paths=fonts, ignore_system_fonts=True)
