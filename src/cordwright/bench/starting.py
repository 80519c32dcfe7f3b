"""What a new piece can begin from: plans that come with Cordwright, and bare mounts."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Final

from cordwright.bench.folder import FolderError
from cordwright.bench.models import Example
from cordwright.errors import PlanError
from cordwright.plan.flow import flow_text
from cordwright.plan.layout import BOM, layout
from cordwright.plan.problems import nearest

if TYPE_CHECKING:
    from cordwright.bench.changes import FromMount

MOUNTS: Final = {
    "ring": "ring: {inside: 50 mm, wire: 5 mm}",
    "rod": "rod: {length: 60 cm, thick: 20 mm}",
    "cord": "cord: {cord: main, tail: 10 cm}",
    "nothing": "nothing: {}",
}
"""Common sizes to begin with (common practice); the maker changes them."""

BLANK: Final = """\
cordwright: 1
title: {title}
cords:
  main: {{fibre: cotton, build: single twist, diameter: 4 mm, colour: undyed}}
tail: 10 cm
mount:
  {mount}
  cords:
    - {{cord: main, count: {cords}{fold}}}
work:
  - section: Beginning
    work:
      - free: 2 cm
"""


def blank(name: str, start: FromMount) -> str:
    """A plan with cords on a mount and nothing tied yet; its title is the piece's name."""
    fold = ", fold: none" if start.mount == "nothing" else ""
    return BLANK.format(
        title=flow_text(name), mount=MOUNTS[start.mount], cords=start.cords, fold=fold
    )


@cache
def examples() -> tuple[Example, ...]:
    """The plans that come with Cordwright."""
    found = []
    for entry in sorted((files("cordwright") / "examples").iterdir(), key=lambda e: e.name):
        if entry.name.endswith(".yaml"):
            plain = layout(entry.read_text(encoding="utf-8")).root.plain
            name = entry.name.removesuffix(".yaml")
            about = str(plain.get("about", ""))
            found.append(Example(name=name, title=str(plain["title"]), about=about))
    return tuple(found)


def example_text(name: str) -> str:
    """The text of a plan that comes with Cordwright.

    Raises:
        FolderError: there is none of that name.
    """
    known = [e.name for e in examples()]
    if name not in known:
        raise FolderError(
            "No plan of that name comes with Cordwright.", remedy=nearest(name, known)
        )
    return (files("cordwright") / "examples" / f"{name}.yaml").read_text(encoding="utf-8")


def title_of(text: str, otherwise: str) -> str:
    """The title of a plan from its text alone, whether or not all of it is a plan."""
    for line in text.removeprefix(BOM).splitlines()[:200]:
        if line.startswith("title:"):
            try:
                title = layout(line).root.plain["title"]
            except PlanError:
                break
            return str(title)[:200] if title else otherwise
    return otherwise
