"""What a lesson ends with: it goes by what becomes of the piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, get_args

import pytest

from cordwright.teach.general import CARRIED, CAUTIONS
from cordwright.teach.needs import Mount
from cordwright.teach.steps import Lesson, Use
from cordwright.teach.telling import tell
from cordwright.teach.words import LANGUAGES, Words
from tests.teach.conftest import NAMES, lesson

if TYPE_CHECKING:
    from cordwright.teach.told import Line, Told

MOUNTS = (
    Mount("ring"), Mount("ring", level=True), Mount("rod"), Mount("cord"), Mount("nothing"),
)  # fmt: skip
HUNG = {
    "oxbow-planter", "pellow-planter", "lantry-wall-planter", "weir-meadow-hanging",
    "cressing-shade",
}  # fmt: skip


def said(lines: tuple[Line, ...]) -> list[str]:
    return [line.text for line in lines]


def ended(made: Lesson, use: Use, mount: Mount, language: str = "en") -> Told:
    return tell(replace(made, use=use, mount=mount, sections=()), Words(language))


@pytest.mark.parametrize("name", NAMES)
def test_only_what_hangs_is_told_to_be_hung(name: str) -> None:
    made = lesson(name)
    told = tell(made, Words())
    hangs = name in HUNG
    assert any(text.startswith("Hang the piece") for text in said(told.using)) == hangs
    assert ("hanging" in told.headings["end"]) == hangs
    assert (said(told.cautions) == [Words().text(key) for key in CAUTIONS]) == hangs


@pytest.mark.parametrize("name", ["ferry-sling", "haverley-bag"])
def test_what_carries_has_its_cautions_too(name: str) -> None:
    told = tell(lesson(name), Words())
    assert said(told.cautions) == [Words().text(key) for key in CARRIED]
    assert "carrying" in told.headings["end"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_use_has_its_own_words_on_every_mount(language: str) -> None:
    made = lesson("tally-fob")
    heads = {use: ended(made, use, MOUNTS[0], language).headings["end"] for use in get_args(Use)}
    assert len(set(heads.values())) == 4  # nothing is said of plain and of unknown use
    assert heads["plain"] == heads[""]
    for use in ("hung", "worn"):
        told = {ended(made, use, m, language).using for m in MOUNTS[: 4 if use == "hung" else 5]}
        assert len(told) == 4  # worn on a ring, it does not matter how the ring lies


@pytest.mark.parametrize("mount", MOUNTS)
def test_a_load_never_goes_without_cautions(mount: Mount) -> None:
    made = lesson("tally-fob")
    for use in get_args(Use):
        cautions = ended(made, use, mount).cautions
        may_hang = use in ("hung", "carried") or (use == "" and mount.kind != "nothing")
        assert bool(cautions) == may_hang, use
