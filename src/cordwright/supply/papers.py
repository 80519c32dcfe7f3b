"""Sheets as plain text, Markdown, CSV and a page of HTML to print.

Whatever a maker wrote stays text in each of them: it is escaped in HTML and Markdown, and in CSV a
cell never begins like a formula of a spreadsheet.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Mapping, Sequence
from html import escape
from types import MappingProxyType
from typing import TYPE_CHECKING

from cordwright.supply.kits import TICK

if TYPE_CHECKING:
    from cordwright.supply.kits import Sheet

_STYLE = (
    "@page{margin:16mm}"
    "body{font:11pt/1.45 'Source Sans 3','Source Sans Pro',Calibri,Carlito,'Segoe UI',sans-serif;"
    "margin:2em auto;max-width:178mm;color:#1c1a17;background:#fff}"
    "h1{font-size:19pt;line-height:1.2;margin:0 0 6mm;overflow-wrap:anywhere}"
    "table{border-collapse:collapse;width:100%}"
    "th{font-weight:600;border-bottom:1.5pt solid;vertical-align:bottom}"
    "td{border-bottom:.5pt solid #999;vertical-align:top}"
    "th,td{padding:2mm 4mm 2mm 0;text-align:left;overflow-wrap:anywhere}"
    ".n{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}"
    ".t{width:8mm}.t i{display:block;width:4mm;height:4mm;border:.8pt solid;margin-top:.7mm}"
    "section{break-after:page;margin-bottom:12mm}section:last-child{break-after:auto}"
    "tr,article{break-inside:avoid}"
    ".c{display:grid;grid-template-columns:1fr 1fr;padding:1pt}"
    "article{border:.5pt dashed #777;margin:-.25pt;padding:6mm;min-height:33mm}"
    "h2{font-size:14pt;line-height:1.25;margin:0 0 1mm;overflow-wrap:anywhere}"
    "article p{margin:0;overflow-wrap:anywhere}article p:last-child{margin-top:3mm}"
    "@media print{body{margin:0;max-width:none}}"
)
_MARKS = re.compile(r"([\\`*_{}\[\]()#+!|<>&~-])")


def as_text(sheets: Sequence[Sheet]) -> str:
    """Columns of plain text."""
    return "\n".join(_text(sheet) for sheet in sheets)


def _text(sheet: Sheet) -> str:
    rows = [[_line(cell) for cell in row] for row in (sheet.heads, *sheet.rows)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(sheet.heads))]
    lines = ("  ".join(c.ljust(w) for c, w in zip(r, widths, strict=True)).rstrip() for r in rows)
    return f"{_line(sheet.title)}\n\n" + "\n".join(lines) + "\n"


def as_markdown(sheets: Sequence[Sheet]) -> str:
    """Tables with bars."""
    return "\n".join(_markdown(sheet) for sheet in sheets)


def _markdown(sheet: Sheet) -> str:
    def row(cells: Sequence[str]) -> str:
        return "| " + " | ".join(map(_escaped, cells)) + " |"

    rule = "|" + " --- |" * len(sheet.heads)
    lines = [row(sheet.heads), rule, *(row(r) for r in sheet.rows)]
    return f"## {_escaped(sheet.title)}\n\n" + "\n".join(lines) + "\n"


def _escaped(text: str) -> str:
    return _MARKS.sub(r"\\\1", _line(text))


def as_csv(sheets: Sequence[Sheet]) -> str:
    """Rows with commas, the name of the sheet first in each; RFC 4180."""
    stream = io.StringIO()
    writer = csv.writer(stream)
    for sheet in sheets:
        for row in (sheet.heads, *sheet.rows):
            writer.writerow([_cell(text) for text in (sheet.title, *row)])
    return stream.getvalue()


def _cell(text: str) -> str:
    line = _line(text)
    return f"'{line}" if line.startswith(("=", "+", "-", "@")) else line


def as_html(sheets: Sequence[Sheet]) -> str:
    """A page that prints each sheet on paper of its own."""
    title = escape(_line(sheets[0].title)) if sheets else ""
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n"
        + "".join(_html(sheet) for sheet in sheets)
        + "</body>\n</html>\n"
    )


def _html(sheet: Sheet) -> str:
    inside = _cards(sheet) if sheet.cards else _table(sheet)
    return f"<section>\n<h1>{escape(_line(sheet.title))}</h1>\n{inside}</section>\n"


def _table(sheet: Sheet) -> str:
    def row(cells: Sequence[str], tag: str, scope: str = "") -> str:
        return "".join(
            f"<{tag}{scope}{_class(sheet, i, cell)}>{_inside(cell)}</{tag}>"
            for i, cell in enumerate(cells)
        )

    rows = "".join(f"<tr>{row(cells, 'td')}</tr>\n" for cells in sheet.rows)
    heads = row(sheet.heads, "th", ' scope="col"')
    return f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n"


def _class(sheet: Sheet, column: int, cell: str) -> str:
    if column in sheet.numbers:
        return ' class="n"'
    return ' class="t"' if cell == TICK else ""


def _inside(cell: str) -> str:
    return '<i role="img" aria-label="to tick"></i>' if cell == TICK else escape(_line(cell))


def _cards(sheet: Sheet) -> str:
    """Cards in two columns, with lines to cut along."""
    cards = []
    for title, *others in sheet.rows:
        lines = "".join(f"<p>{escape(_line(text))}</p>" for text in others if text)
        cards.append(f"<article><h2>{escape(_line(title))}</h2>{lines}</article>\n")
    return f'<div class="c">\n{"".join(cards)}</div>\n'


def _line(text: str) -> str:
    """On one line, with nothing that does not print."""
    return "".join(c if c.isprintable() else " " for c in text).strip()


FORMATS: Mapping[str, Callable[[Sequence[Sheet]], str]] = MappingProxyType(
    {".txt": as_text, ".md": as_markdown, ".csv": as_csv, ".html": as_html}
)
"""How papers are written, by the ending of the file's name."""
