"""Steps as the page takes them: lines, what to check, ticks for rows, cords that come in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from cordwright.teach.labels import Labels
from cordwright.teach.measures import duration
from cordwright.teach.places import strands

if TYPE_CHECKING:
    from cordwright.teach.pagelines import Lines
    from cordwright.teach.steps import Begun, Step
    from cordwright.teach.told import ToldSection, ToldStep
    from cordwright.teach.words import Words

MOST_BESIDE = 2
"""Pictures beside one step; the part on knots has them all."""

TOLD_FROM_S = 60.0
"""A step that takes less is not timed."""

MOST_TICKS = 60
"""A step with more rows than this has no tick for each."""


class Steps:
    """Makes steps.

    Args:
        lines: of the same lesson.
        beside: pictures by index of their knot.
        words: the language and units.
    """

    def __init__(self, lines: Lines, beside: Mapping[int, dict[str, Any]], words: Words) -> None:
        self._lines, self._beside, self._words = lines, beside, words

    def section(self, section: ToldSection) -> dict[str, Any]:
        """A part of the work; a knot's picture stands beside the first step that ties it."""
        seen: set[int] = set()
        steps = {s.step.number: s.step for s in section.steps}
        return {
            "heading": section.heading,
            "steps": [self._step(s, steps, seen) for s in section.steps],
        }

    def _step(self, told: ToldStep, others: Mapping[int, Step], seen: set[int]) -> dict[str, Any]:
        step = told.step
        kinds = [f.knot for f in told.figures if f.knot in self._beside]
        new = [k for k in kinds if k not in seen]
        seen.update(new)
        said = self._lines.step(told)
        found: dict[str, Any] = {
            "number": step.number,
            "title": told.title,
            "lines": [
                {"parts": parts, "item": line.item}
                for parts, line in zip(said, told.lines, strict=True)
            ],
            "checks": [self._lines.check(c, line) for c, line in told.checks],
            "note": told.note,
            "figures": [self._beside[k] for k in new[:MOST_BESIDE]],
            "along": [self._beside[k] for k in kinds[:MOST_BESIDE]],
            "ticks": _ticks(step),
            "again": step.again is not None,
            **self._cords(step, others),
        }
        if step.time.likely_s >= TOLD_FROM_S:
            say = Labels(self._words)
            found["time"] = say("step-time", time=duration(step.time.likely_s, say))
        return found

    def _cords(self, step: Step, others: Mapping[int, Step]) -> dict[str, Any]:
        """Cords that come in: those that are told by one mark, and all of them one by one.

        The page tells them one by one where the reader's measures part what had one mark.
        """
        own = list(_begun(step))
        if not own:
            return {}
        said = list(own)
        if step.again is not None:
            for number in range(step.again.first, step.again.last + 1):
                said += _begun(others[number]) if number in others else ()
        groups: dict[str, list[int]] = {}
        for b in said:
            groups.setdefault(b.cut, []).append(b.number - 1)
        head = ""
        if step.verb == "mount":
            face = next((b.face for b in own if b.face), "")
            key = "set-in-turn" if face else "set-in-turn-pinned"
            head = self._words.text(key, **({"face": face} if face else {}))
        return {
            "marks": list(groups.values()),
            "cords": [[b.number - 1, self._where(b)] for b in own],
            "head": head,
            "replaced": step.verb in ("mount", "add"),
        }

    def _where(self, begun: Begun) -> str:
        return strands(self._words, begun.places).text if begun.places else ""


def _begun(step: Step) -> Iterable[Begun]:
    yield from step.begun
    for inner in step.inner:
        yield from inner.begun


def _ticks(step: Step) -> int:
    """Rows, or repeats, to tick one by one."""
    many = step.again.times if step.again is not None else len(step.rows)
    return many if 1 < many <= MOST_TICKS else 0
