"""Tying the steps back gives the piece: every strand, knot, place, count and free cord."""

from __future__ import annotations

import json
from typing import Any

import pytest

from cordwright.teach.mirror import mirrored, name
from cordwright.teach.steps import plain
from tests.teach.conftest import NAMES, lesson, worked
from tests.teach.tying import Tied


def data_of(which: str, left_handed: bool = False) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(json.dumps(plain(lesson(which, left_handed))))
    return data


def same(length: dict[str, Any], form: Any, values: Any) -> bool:
    value = length["fixed_mm"] + sum(k * values[s] for s, k in length["terms"].items())
    return bool(abs(value - form.at(values)) < 1e-6 and abs(length["mm"] - value) < 1e-6)


@pytest.mark.parametrize("left_handed", [False, True])
@pytest.mark.parametrize("which", NAMES)
def test_tying_the_steps_back_gives_every_strand_its_course(which: str, left_handed: bool) -> None:
    piece = worked(which)
    data = data_of(which, left_handed)
    tied = Tied(data)
    assert tied.line == []
    names = [piece.name(s.id) for s in piece.strands]
    shown = [name(n) for n in names] if left_handed else names
    assert sorted(tied.courses) == sorted(shown)
    for strand, known in zip(piece.strands, shown, strict=True):
        course = tied.courses[known]
        specs = [data["knots"][int(k)]["spec"] for k, *_ in course]
        wanted = [piece.knots[s.knot].spec for s in strand.course]
        fields = wanted[0].__slots__ if wanted else ()
        assert [[s[f] for f in fields] for s in specs] == [
            [getattr(s, f) for f in fields] for s in wanted
        ]
        assert [(p, r) for _, p, r, _ in course] == [(s.place, s.role.value) for s in strand.course]
        for free, stop in zip(tied.free[known], strand.course, strict=True):
            assert same(free, stop.free, piece.values), (known, stop)
        assert same(tied.starts[known], strand.start, piece.values)
        assert same(tied.ends[known], strand.end.length, piece.values)


@pytest.mark.parametrize("which", NAMES)
def test_knots_of_the_lesson_are_those_of_the_piece(which: str) -> None:
    piece, data = worked(which), data_of(which)
    assert sum(k["count"] for k in data["knots"]) == len(piece.knots)
    tied = sum(
        len(g["ties"])
        for part in data["sections"]
        for top in part["steps"]
        for step in (top["inner"] if top["verb"] == "again" else [top])
        for row in step["rows"]
        for g in row["groups"]
    )
    assert tied == len(piece.knots)


@pytest.mark.parametrize("which", NAMES)
def test_what_is_told_of_a_sinnet_is_what_is_tied(which: str) -> None:
    made = lesson(which)
    for step in (s for part in made.sections for s in part.steps):
        if step.verb != "tie":
            continue
        for group in (g for row in step.rows for g in row.groups):
            assert len(group.ties) == step.times
            hands = {made.knots[t.knot].hand for t in group.ties}
            if step.hand in ("left", "right"):
                assert hands == {step.hand}
            work = {
                n
                for n, role in zip(
                    group.ties[0].names, made.knots[group.ties[0].knot].roles, strict=True
                )
                if role == "working" and step.workers
            }
            assert work == {group.names[w - 1] for w in step.workers} or step.hand == "alternate"


def test_a_wrong_place_is_noticed() -> None:
    data = data_of("tally-fob")
    step = data["sections"][1]["steps"][0]
    group = step["rows"][0]["groups"][0]
    group["places"][0], group["places"][1] = group["places"][1], group["places"][0]
    tied = Tied(data)
    piece = worked("tally-fob")
    strand = piece.strands[0]
    assert [p for _, p, _, _ in tied.courses["1L"]] != [s.place for s in strand.course]


@pytest.mark.parametrize("which", NAMES)
def test_mirrored_twice_is_the_same_again(which: str) -> None:
    assert mirrored(mirrored(lesson(which))) == lesson(which)
