"""Tables and text for a terminal of any width, for a pipe, and for programs.

In a terminal tables have rules and colour, and turn into one short list per row where they do
not fit. In a pipe they are columns of plain text, one line a row, however long.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from cordwright.cli.text import clean

if TYPE_CHECKING:
    from rich.console import Console
    from rich.table import Table

PIPE_COLUMNS = 10_000  # wide enough for any row
NARROWEST = 10  # a column of words narrower than this is no longer readable
Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its heading, and the side that its texts keep to."""

    heading: str
    side: Side = "left"


class Screen:
    """Where a command shows its answer."""

    def __init__(self) -> None:
        from rich.console import Console

        probe = Console(highlight=False, markup=False, emoji=False)
        self.terminal = probe.is_terminal
        self.console: Console = (
            probe
            if self.terminal
            else Console(
                highlight=False, markup=False, emoji=False, width=PIPE_COLUMNS, color_system=None
            )
        )

    def line(self, text: str, style: str | None = None) -> None:
        """One paragraph, wrapped to the terminal's width."""
        self.console.print(clean(text), style=style)

    def command(self, text: str) -> None:
        """Something to type, on a line of its own that is never broken."""
        self.console.print(f"  {clean(text)}", soft_wrap=True)

    def heading(self, text: str) -> None:
        """A line that stands out where there is colour, after an empty one."""
        self.console.print()
        self.line(text, style="bold")

    def table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
        """Rows under headings; one list per row if the terminal is too narrow."""
        if not rows:
            return
        table = self._table(columns, rows)
        anywhere = self.console.options.update(width=PIPE_COLUMNS)
        narrowest = self.console.measure(table, options=anywhere).minimum
        if self.terminal and narrowest > self.console.width:
            self._lists(columns, rows)
        elif self.terminal:
            self.console.print(table)
        else:
            with self.console.capture() as capture:
                self.console.print(table)
            for line in capture.get().splitlines():
                self.console.out(line.rstrip(), highlight=False)

    def _table(self, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> Table:
        from rich import box
        from rich.table import Table

        table = Table(
            box=box.SIMPLE_HEAD if self.terminal else None,
            pad_edge=False,
            header_style="bold",
            padding=(0, 2, 0, 0),
        )
        for i, column in enumerate(columns):
            longest = max(len(text) for text in (column.heading, *(row[i] for row in rows)))
            table.add_column(
                column.heading,
                justify=column.side,
                no_wrap=column.side == "right",  # figures never break; words may
                overflow="fold",
                min_width=min(longest, NARROWEST),
            )
        for row in rows:
            table.add_row(*(clean(cell) for cell in row))
        return table

    def _lists(self, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
        for row in rows:
            self.console.print()
            for column, cell in zip(columns, row, strict=True):
                if cell:
                    self.line(f"{column.heading}: {cell}")


def show_json(value: Any) -> None:
    """Write a value for programs: JSON, keys in the order given, numbers finite."""
    encoding = (sys.stdout.encoding or "").lower().replace("-", "")
    text = json.dumps(value, indent=2, ensure_ascii=encoding != "utf8", allow_nan=False)
    sys.stdout.write(text + "\n")
