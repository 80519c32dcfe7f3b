"""The errors a craftsperson can meet, each with its place, what is wrong and what to try."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a file something stands: 1-based line and column, as editors count them."""

    file: str
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        parts = [self.file]
        if self.line is not None:
            parts.append(str(self.line))
            if self.column is not None:
                parts.append(str(self.column))
        return ":".join(parts)


class CordwrightError(Exception):
    """What went wrong, told to a maker.

    Args:
        what: one sentence that says what is wrong, with what was given.
        remedy: what to try; empty if nothing better than the message is known.
        place: where in the maker's file, if it is in one.
    """

    def __init__(self, what: str, *, remedy: str = "", place: Place | None = None) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy
        self.place = place

    def __str__(self) -> str:
        text = f"{self.place}: {self.what}" if self.place else self.what
        return f"{text}\n  try: {self.remedy}" if self.remedy else text


class PlanError(CordwrightError):
    """The plan file cannot be read as a plan."""


class WorkError(CordwrightError):
    """The plan reads well but cannot be worked: the strands and knots do not fit together."""


class UnitsError(CordwrightError):
    """A length or other measure is not written in a way that can be read."""


class KnotError(CordwrightError):
    """A knot cannot be made as asked: unknown name, unusable parameters."""


class TighteningError(KnotError):
    """The tightening did not arrive at a knot that can be trusted."""


class SupplyError(CordwrightError):
    """The stock, the prices or what is asked of them are not possible."""
