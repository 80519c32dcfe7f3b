"""Ties a lesson back into strands' courses, from its JSON alone, as a pupil would.

Strands are found by their places in a line-up that is kept here; a repeat is worked from the steps
that it points to, moved on by its shift, not from what the lesson has worked out for it; only free
cord and the names of new cords are taken from there.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

Data = dict[str, Any]
Stop = tuple[str, int, str, str]


class Tied:
    """What comes out: per strand its stops, its tail above and its end below."""

    def __init__(self, lesson: Data) -> None:
        self.lesson = lesson
        self.line: list[str] = []
        self.courses: dict[str, list[Stop]] = {}
        self.free: dict[str, list[Data]] = {}
        self.starts: dict[str, Data] = {}
        self.ends: dict[str, Data] = {}
        for step in told(lesson):
            self.work(step)

    def work(self, step: Data) -> None:
        self._begin(step)
        for row in step["rows"]:
            # The groups of a row come in side by side, before any of them has left.
            names = [[self.line[p - 1] for p in g["places"]] for g in row["groups"]]
            for group, strands in zip(row["groups"], names, strict=True):
                self._group(step, group, strands)
        if step["verb"] == "pass":
            self._pass(step["places"], step["behind"])
        if step["verb"] in ("seam", "join", "open"):
            first = step["places"][0] - 1
            self.line = self.line[first:] + self.line[:first]
        for end in step["ended"]:
            self.ends[self.line[end["place"] - 1]] = end["length"]
        gone = {self.line[end["place"] - 1] for end in step["ended"]}
        self.line = [s for s in self.line if s not in gone]
        if step["line_up"] is not None:
            assert self.line == step["line_up"], step["number"]

    def _begin(self, step: Data) -> None:
        found: list[tuple[int, str]] = []
        for cord in step["begun"]:
            for name in cord["names"]:
                self.courses[name], self.free[name] = [], []
                self.starts[name] = cord["tail"]
            if cord["end"] is not None:
                self.ends[cord["names"][0]] = cord["end"]
            found += zip(cord["places"], cord["names"], strict=False)
        for place, name in sorted(found):
            self.line.insert(place - 1, name)

    def _group(self, step: Data, group: Data, strands: list[str]) -> None:
        now = dict(zip(group["names"], strands, strict=True))
        if group["lying"]:
            now[group["lying"]] = group["lying"]
        for tie in group["ties"]:
            kind = self.lesson["knots"][tie["knot"]]
            for place, (name, free) in enumerate(zip(tie["names"], tie["free"], strict=True)):
                self._stop(now[name], tie["knot"], place, kind["roles"][place], free)
            if tie["over"]:
                none = {"mm": 0.0, "fixed_mm": 0.0, "terms": {}}
                self._stop(tie["over"], tie["knot"], len(tie["names"]), "holding", none)
        slots = group["places"] if step["side"] != self._back() else group["places"][::-1]
        for slot, name in zip(slots, group["leaves"], strict=True):
            self.line[slot - 1] = now[name]

    def _back(self) -> str:
        """Rows of hitches that run this way name their places from the far end."""
        return "right" if self.lesson["mirrored"] else "left"

    def _stop(self, name: str, knot: int, place: int, role: str, free: Data) -> None:
        self.courses[name].append((str(knot), place, role, ""))
        self.free[name].append(free)

    def _pass(self, front: list[int], behind: list[int]) -> None:
        first = front[-1] % len(self.line) + 1 == behind[0]
        left, right = (front, behind) if first else (behind, front)
        names = [self.line[p - 1] for p in (*right, *left)]
        for place, name in zip((*left, *right), names, strict=True):
            self.line[place - 1] = name


def told(lesson: Data) -> Iterator[Data]:
    """All steps in order, repeats worked from the steps that they point to."""
    by_number = {s["number"]: s for part in lesson["sections"] for s in part["steps"]}
    for number in sorted(by_number):
        yield from _told(by_number, by_number[number])


def _told(by_number: dict[int, Data], step: Data) -> Iterator[Data]:
    if step["verb"] != "again":
        yield step
        return
    again = step["again"]
    worked = iter(step["inner"])
    for shift in again["shifts"]:
        for number in range(again["first"], again["last"] + 1):
            for one in _told(by_number, by_number[number]):
                yield _moved(one, shift, next(worked))
    assert next(worked, None) is None, "the repeat is longer than the steps that it points to"


def _moved(step: Data, shift: int, worked: Data) -> Data:
    """A step done once more, further on. New cords are new; free cord is as the shape makes it."""
    rows = [
        {"groups": [_group(g, shift, w) for g, w in zip(r["groups"], v["groups"], strict=True)]}
        for r, v in zip(step["rows"], worked["rows"], strict=True)
    ]
    return {
        **step,
        "rows": rows,
        "line_up": worked["line_up"],
        "places": [p + shift for p in step["places"]],
        "behind": [p + shift for p in step["behind"]],
        "begun": [
            {**new, "places": [p + shift for p in old["places"]], "tail": old["tail"]}
            for old, new in zip(step["begun"], worked["begun"], strict=True)
        ],
        "ended": [{**e, "place": e["place"] + shift} for e in step["ended"]],
    }


def _group(group: Data, shift: int, worked: Data) -> Data:
    lying = {group["lying"]: worked["lying"]} if group["lying"] else {}

    def named(names: list[str]) -> list[str]:
        return [lying.get(n, n) for n in names]

    ties = [
        {**t, "names": named(t["names"]), "free": w["free"]}
        for t, w in zip(group["ties"], worked["ties"], strict=True)
    ]
    return {
        **group,
        "places": [p + shift for p in group["places"]],
        "ties": ties,
        "lying": worked["lying"],
    }
