"""The filming sheet: minutes that add up, chapters that fit, stages worth tying."""

from __future__ import annotations

import re

import pytest

from cordwright.teach import publish
from cordwright.teach.filming import LEAST_S, SWAP_FROM_S, clock, film, spoken_s
from cordwright.teach.filmsheet import shown
from cordwright.teach.words import Words
from tests.teach.published import edition_of, example, outside, sheet_of, words_of

NAMES = ("pellow-planter", "tally-fob", "weir-meadow-hanging")


@pytest.mark.parametrize("name", NAMES)
def test_shots_follow_each_other_and_hold_what_is_said(name: str) -> None:
    version = edition_of(example(name))[0].version
    plan = film(version.lesson, version.told)
    at = 0
    for number, shot in enumerate(plan.shots, start=1):
        assert (shot.number, shot.begins_s) == (number, at)
        assert shot.seconds >= max(LEAST_S, spoken_s(shot.says))
        at += shot.seconds
    assert plan.seconds == at


@pytest.mark.parametrize("name", NAMES)
def test_every_step_is_filmed_once_and_in_order(name: str) -> None:
    version = edition_of(example(name))[0].version
    steps = [s.number for section in version.lesson.sections for s in section.steps]
    shots = film(version.lesson, version.told).shots
    assert [shot.step for shot in shots if shot.kind == "step"] == steps


@pytest.mark.parametrize("name", NAMES)
def test_stages_add_up_to_the_time_of_tying(name: str) -> None:
    version = edition_of(example(name))[0].version
    plan = film(version.lesson, version.told)
    spent = {}
    tied = 0.0
    for section in version.lesson.sections:
        for step in section.steps:
            tied += step.time.likely_s
            spent[step.number] = tied
    for stage in plan.stages:
        assert stage.tied_s == pytest.approx(spent[stage.step])
        assert stage.off_s >= SWAP_FROM_S
    assert [s.number for s in plan.stages] == [shot.stage for shot in plan.shots if shot.stage]


@pytest.mark.parametrize("name", NAMES)
def test_chapters_begin_at_nought_and_rise(name: str) -> None:
    version = edition_of(example(name))[0].version
    marks = [c.begins_s for c in film(version.lesson, version.told).chapters]
    assert marks[0] == 0
    assert marks == sorted(set(marks))


def test_a_chapter_mark_is_minutes_and_seconds() -> None:
    assert clock(0) == "00:00"
    assert clock(3599) == "59:59"
    assert clock(3600) == "1:00:00"


@pytest.mark.parametrize("language", ["en", "de", "fr"])
def test_the_description_has_materials_and_cuts_in_both_systems(language: str) -> None:
    sheet = sheet_of(example("pellow-planter"), "letter", language)
    version = edition_of(example("pellow-planter"), language)[0].version
    text = "\n".join(sheet.description)
    metric, inch = Words(language, "metric"), Words(language, "inch")
    for cut in version.lesson.cuts:
        assert f"{cut.id}: {cut.count}" in text
        assert metric.length(cut.length_mm) in text
    for material in version.lesson.materials:
        assert inch.length(material.total_mm) in text
    pdf = publish.filming_pdf(sheet)
    assert outside(pdf, "letter") == []
    assert sheet.groups[0].title in words_of(pdf)


def test_the_markdown_has_every_shot_to_tick() -> None:
    sheet = sheet_of(example("pellow-planter"))
    text = publish.filming_markdown(sheet)
    numbers = re.findall(r"^\* \[ \] \*\*(\d+)\*\*", text, re.MULTILINE)
    assert numbers == [shot.number for group in sheet.groups for shot in group.shots]
    assert shown("[x](y)\n# z") == r"\[x\](y) \# z"
