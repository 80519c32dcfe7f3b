"""The knot room's doors: every shape answers, with figures of the atlas."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET  # our own pictures, nothing from outside

import pytest

from cordwright.bench.knotlist import FAMILIES, name_of, spec_named
from cordwright.bench.models_knots import Knot, KnotMotion, Knots
from cordwright.knots.atlas import Atlas
from cordwright.knots.canonical import key
from cordwright.knots.shipped import SHIPPED
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from tests.bench.serving import Page

ATLAS = Atlas()
FAMILY_NAMES = [spec.name.value for spec, _, _ in FAMILIES]


def test_all_shapes_of_the_atlas_are_listed_once(page: Page) -> None:
    found = Knots.model_validate(page.get("/api/knots").json())
    listed = [k for f in found.families for k in f.knots]
    assert sorted(k.name for k in listed) == sorted(name_of(s) for s in SHIPPED)
    assert len({k.title for k in listed}) == len(listed) == 68
    assert all(f.usual in {k.name for k in f.knots} for f in found.families)
    assert not any(word in k.title for k in listed for word in (" hand", "to the", "{"))


@pytest.mark.parametrize("spec", SHIPPED, ids=key)
def test_every_shape_has_its_figures(page: Page, spec: object) -> None:
    name = name_of(spec)
    asked = page.get(f"/api/knots/{name}", params={"cord_mm": 5, "hand": "right"})
    found = Knot.model_validate(asked.json())
    figures = ATLAS.figures(spec_named(name, "right"))
    assert found.height.d == pytest.approx(figures.height_d, abs=6e-4)
    assert found.width.mm == pytest.approx(5 * figures.width_d, abs=6e-3)
    used = sum(t.strands * t.each.d for t in found.take_up)
    assert used == pytest.approx(sum(figures.take_up_d), abs=0.02)
    assert sum(t.strands for t in found.take_up) == len(figures.take_up_d)


@pytest.mark.parametrize("family", FAMILY_NAMES)
def test_a_kind_of_knot_has_figure_motion_and_steps(page: Page, family: str) -> None:
    figure = page.get(f"/api/knots/{family}.svg")
    assert figure.headers["content-type"].startswith("image/svg+xml")
    assert ET.fromstring(figure.text).tag.endswith("svg")  # noqa: S314
    found = KnotMotion.model_validate(page.get(f"/api/knots/{family}/motion").json())
    assert found.name in {name_of(s) for s in SHIPPED}
    assert all(len(shown) == len(found.cords) for shown in (k.shown for k in found.keys))
    assert [s.number for s in found.steps] == list(range(1, len(found.steps) + 1))
    assert all(s.text and s.from_s < s.to_s for s in found.steps)
    assert found.steps[-1].to_s == found.keys[-1].at_s
    last = f"/api/knots/{family}/steps/{len(found.steps)}.svg"
    assert "drawn up" in page.get(last).text
    beyond = page.get(f"/api/knots/{family}/steps/{len(found.steps) + 1}.svg")
    assert (beyond.status_code, beyond.json()["what"][:10]) == (404, "Its tying ")


def test_both_hands_are_drawn(page: Page) -> None:
    left, right = (
        page.get("/api/knots/square-knot-n4.svg", params={"hand": hand}).text
        for hand in ("left", "right")
    )
    assert "left hand" in left
    assert "right hand" in right
    assert left != right


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/api/knots/square-knot-n99", 422),
        ("/api/knots/granny.svg", 404),
        ("/api/knots/granny/motion", 404),
        ("/api/knots/granny/steps/1.svg", 404),
        ("/api/knots/square-knot?hand=both", 422),
        ("/api/knots?cord_mm=0", 422),
        ("/api/knots?cord_mm=nan", 422),
        ("/api/knots/square-knot/steps/0.svg", 422),
    ],
)
def test_what_is_not_there_is_said_plainly(page: Page, address: str, status: int) -> None:
    answer = page.get(address)
    assert answer.status_code == status
    assert answer.json()["what"]


def test_a_shape_that_the_atlas_does_not_come_with_has_a_form_of_its_own(page: Page) -> None:
    spec = KnotSpec(KnotName.HALF_HITCH, 2, filler_d=1.4)
    name = name_of(spec)
    assert spec_named(name, "left") == spec
    found = Knot.model_validate(page.get(f"/api/knots/{name}").json())
    usual = Knot.model_validate(page.get("/api/knots/half-hitch-n2").json())
    assert (found.name, found.family) == (name, "half-hitch")
    assert found.take_up[0].each.d > usual.take_up[0].each.d  # round a thicker cord
    figure = page.get(f"/api/knots/{name}.svg")
    assert figure.headers["content-type"].startswith("image/svg+xml")
    # A picture may be opened in a tab of its own, where it can do nothing.
    assert "sandbox" in figure.headers["content-security-policy"]
    assert figure.headers["cross-origin-opener-policy"] == "unsafe-none"


@pytest.mark.parametrize(
    "name",
    ["half-hitch-n2-f1.40", "half-hitch-n02", "square-knot-n4-t3", "bow-n2", "half-hitch-n2-f",
     "overhand-n100", "larks-head-n2-wall-2"],
)  # fmt: skip
def test_what_is_no_name_of_a_knot_is_told_so(page: Page, name: str) -> None:
    answer = page.get(f"/api/knots/{name}")
    assert (answer.status_code, name in answer.json()["what"]) == (404, True)
    assert page.get(f"/api/knots/{name}.svg").status_code == 404


def test_every_shape_that_a_plan_ties_has_a_name(page: Page) -> None:
    document = page.begun("shapes", "pellow-planter")

    def shapes(parts: list[dict[str, Any]]) -> Iterator[tuple[int, list[str]]]:
        for part in parts:
            if not part["parts"]:
                yield part["knots"], part["shapes"]
            yield from shapes(part["parts"])

    steps = list(shapes(document["outline"]["parts"]))
    assert any(knots for knots, _ in steps)
    assert all(bool(knots) == bool(names) for knots, names in steps)
    assert all(name_of(spec_named(n, "left")) == n for _, names in steps for n in names)
