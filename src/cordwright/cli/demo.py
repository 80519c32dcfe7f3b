"""``cordwright demo``."""

from __future__ import annotations

from importlib.resources import as_file, files
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.cli.show import Screen
from cordwright.cli.writing import unwritable
from cordwright.errors import CordwrightError, Place

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

DEMO = "oxbow-planter.yaml"


def demo_plan() -> Traversable:
    """The plan that the demo works, where the package keeps it."""
    return files("cordwright") / "examples" / DEMO


def save_demo(target: Path) -> None:
    """Write the demo plan to a file of the maker's own.

    Raises:
        CordwrightError: there is such a file already, or it cannot be written.
    """
    try:
        with target.open("x", encoding="utf-8") as stream:
            stream.write(demo_plan().read_text(encoding="utf-8"))
    except FileExistsError:
        raise CordwrightError(
            "There is such a file already; it stays as it is.",
            remedy="give another name",
            place=Place(str(target)),
        ) from None
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        raise unwritable(target, error) from None
    screen = Screen()
    screen.line(f"Wrote {target}. Change it in any editor; then see what it needs:")
    screen.command(f"cordwright cut {target}")


def show_demo(units: str) -> None:
    """Work the demo plan and show its cut list, and how to go on from there."""
    from cordwright.cli.cut import cut

    with as_file(demo_plan()) as path:
        cut(path, (), (), units, as_json=False)
        screen = Screen()
        screen.heading("Make it your own")
        screen.line(f"The demo plan is the file {path}.")
    screen.line("For a copy of it to change, and what the changed plan needs:")
    screen.command("cordwright demo --save my-plan.yaml")
    screen.command("cordwright cut my-plan.yaml")
