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

if TYPE_CHECKING:
    from cordwright.supply.kits import Sheet

_STYLE = (
    "body{font:11pt/1.4 sans-serif;margin:2em;color:#000;background:#fff}"
    "table{border-collapse:collapse;margin:1em 0}"
    "th,td{border:1px solid #555;padding:.3em .6em;text-align:left;vertical-align:top}"
    "section{break-after:page}section:last-child{break-after:auto}tr{break-inside:avoid}"
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
    heads = "".join(f'<th scope="col">{escape(_line(h))}</th>' for h in sheet.heads)
    rows = "".join(
        "<tr>" + "".join(f"<td>{escape(_line(c))}</td>" for c in row) + "</tr>\n"
        for row in sheet.rows
    )
    return (
        f"<section>\n<h1>{escape(_line(sheet.title))}</h1>\n<table>\n<thead><tr>{heads}</tr>"
        f"</thead>\n<tbody>\n{rows}</tbody>\n</table>\n</section>\n"
    )


def _line(text: str) -> str:
    """On one line, with nothing that does not print."""
    return "".join(c if c.isprintable() else " " for c in text).strip()


FORMATS: Mapping[str, Callable[[Sequence[Sheet]], str]] = MappingProxyType(
    {".txt": as_text, ".md": as_markdown, ".csv": as_csv, ".html": as_html}
)
"""How papers are written, by the ending of the file's name."""
