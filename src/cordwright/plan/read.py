"""Reads plan files; docs/plan-format.md is the format."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from cordwright.errors import Place, PlanError
from cordwright.plan.check import check_plan
from cordwright.plan.marks import MarkedDict
from cordwright.plan.model import FORMAT_VERSION, Plan
from cordwright.plan.problems import raise_all
from cordwright.plan.shelved import ShelfCords, fill_in
from cordwright.plan.wording import reworded
from cordwright.plan.yamltree import MOST_BYTES, read_tree


def read_plan(path: str | Path, shelf: ShelfCords | None = None) -> Plan:
    """Read a plan file; ``shelf`` gives the cords that it may name, if there is one at hand.

    Raises:
        PlanError: the file is missing, unreadable, not UTF-8, too large, or not a plan;
            ``PlanErrors`` where several things are wrong.
    """
    return parse_plan(_text(Path(path)), str(path), shelf)


def _text(path: Path) -> str:
    place = Place(str(path))
    try:
        if path.is_dir():
            raise PlanError(
                "This is a directory, not a plan.",
                remedy="name a plan file inside it",
                place=place,
            )
        if path.exists() and not path.is_file():
            raise PlanError("This is not a file.", remedy="name a plan file", place=place)
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise PlanError(
            "There is no such file.", remedy="check the name and the directory", place=place
        ) from None
    except PermissionError:
        raise PlanError(
            "The file may not be read.", remedy="check who may read it", place=place
        ) from None
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        reason = getattr(error, "strerror", None) or str(error)
        raise PlanError(
            f"The file cannot be read: {reason}.", remedy="check the name and the disk", place=place
        ) from None
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        if len(data) > MOST_BYTES:  # perhaps only cut through a character; the size says it
            return data.decode("utf-8", "replace")
        line = data.count(b"\n", 0, error.start) + 1
        raise PlanError(
            "The file is not text in UTF-8.",
            remedy="save it as UTF-8 in your editor, and check that it is a plan",
            place=Place(str(path), line),
        ) from None


def parse_plan(text: str, file: str = "<text>", shelf: ShelfCords | None = None) -> Plan:
    """Read a plan from its text; ``file`` is the name that errors show.

    Raises:
        PlanError: not a plan; ``PlanErrors`` where several things are wrong.
    """
    tree = read_tree(text, file)
    if not isinstance(tree, MarkedDict):
        raise PlanError(
            "A plan is made of keys, such as title: and work:.",
            remedy="start from an example plan",
            place=Place(file, 1, 1),
        )
    version = tree.get("cordwright")
    if isinstance(version, int) and version != FORMAT_VERSION:
        raise PlanError(
            f"The plan says format {version}; this program reads format {FORMAT_VERSION}.",
            remedy="write cordwright: 1, or use a program that reads the newer format",
            place=tree.places["cordwright"],
        )
    fill_in(tree, shelf)
    try:
        plan = Plan.model_validate(tree)
    except ValidationError as error:
        found = error.errors(include_url=False, include_input=False)
        raise_all(reworded(details, tree, file) for details in found)
        raise  # pragma: no cover - a validation error has at least one finding
    raise_all(check_plan(plan))
    return plan
