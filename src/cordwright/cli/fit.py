"""``cordwright fit``."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf, shelf_cords
from cordwright.cli.show import show_json
from cordwright.cli.writing import unwritable
from cordwright.errors import CordwrightError, Place, UnitsError, WorkError

if TYPE_CHECKING:
    from cordwright.hang.fitanswer import FitReport
    from cordwright.hang.refit import Asked, Hands
    from cordwright.piece.figures import FiguresSource
    from cordwright.plan.model import Plan
    from cordwright.units.length import System

UNWEIGHED = {"material": "terracotta", "wall": "8 mm"}
"""What a pot of the command line is taken for that says neither weight nor material; 8 mm is a
common wall (common practice)."""
POT_KEYS = ("rim", "base", "height", "weight", "material", "wall", "filled", "with")


@dataclass(frozen=True, slots=True)
class Wanted:
    """The command's options as they were given; lengths in any unit."""

    pot: str | None = None
    hook: str | None = None
    clear: str | None = None
    cord: str | None = None
    length: str | None = None
    base: str | None = None
    diameters: Sequence[str] = ()
    sizes: Sequence[str] = ()
    out: Path | None = None
    units: str = "metric"
    as_json: bool = False
    shelf: Path | None = None
    maker: str = ""


def fit(path: Path, wanted: Wanted) -> None:
    """Show how a piece fits what it holds, or write a plan whose sizes make it fit.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, there is nothing to
            hang from or to hold, or no sizes make it fit.
    """
    from cordwright.cli.fitview import show_fit
    from cordwright.hang.refit import Asked, Hands, refit

    asked = _asked(wanted)
    if wanted.out is None and asked is not None:
        raise CordwrightError(
            "--cord, --length and --base ask for other sizes, and so for a new plan.",
            remedy="name the file to write: --out new-plan.yaml",
        )
    if wanted.out is not None and wanted.out.exists():
        raise _there_already(wanted.out)
    read_plan_with_shelf(path, wanted.shelf)  # its own mistakes are told with their places
    text, plan = _changed(path, wanted)
    with atlas_access.figures_source() as source:
        hands = Hands(*hands_of(plan, wanted.shelf, wanted.maker, source))
        if wanted.out is None:
            report = _found(plan, source, hands)
        else:
            report = refit(plan, source, asked or Asked(), _tell, hands).answer()
    missed = report.refit.missed if report.refit else []
    if wanted.out is not None and not missed:
        _write(wanted.out, text, report, path, wanted.shelf)
    answer = report.model_dump(mode="json")
    if wanted.as_json:
        show_json(answer)
    else:
        show_fit(answer, cast("System", wanted.units), wanted.out)
    if missed:
        raise WorkError(
            f"No sizes within their bounds make it fit, and no plan was written: {missed[0]}",
            remedy="widen the bounds in the plan, or ask for less",
        )


def _found(plan: Plan, source: FiguresSource, hands: Hands) -> FitReport:
    from cordwright.hang.fit import fit_report
    from cordwright.hang.refit import lengthening
    from cordwright.piece.work import work
    from cordwright.plan.hung import hung
    from cordwright.plan.sizes import resolve_sizes

    piece, sizes = work(plan, source, handling=hands.handling), resolve_sizes(plan)
    told = hung(plan.hang, sizes) if plan.hang else None
    report = fit_report(piece, told, sizes, known=hands.known)
    if not any(t.kind == "too tight" for t in report.troubles):
        return report
    return report.model_copy(update={"lengthen": lengthening(plan, source, report, _tell, hands)})


def _tell(tried: str, share: float) -> None:
    """A line on stderr for every try: a shape takes a second or more."""
    click.echo(f"Trying {tried} ({100 * share:.0f} %) ...", err=True)


def _asked(wanted: Wanted) -> Asked | None:
    from cordwright.hang.refit import Asked

    if wanted.cord is wanted.length is wanted.base is None:
        return None
    return Asked(
        _mm("--cord", wanted.cord), _mm("--length", wanted.length), _mm("--base", wanted.base)
    )


def _mm(option: str, text: str | None) -> float | None:
    from cordwright.units.length import parse_length

    if text is None:
        return None
    try:
        return parse_length(text)
    except UnitsError as error:
        raise UnitsError(error.what, remedy=error.remedy, place=Place(f"{option} {text}")) from None


def _changed(path: Path, wanted: Wanted) -> tuple[str, Plan]:
    """The plan's text and the plan, with what the options say of it."""
    from cordwright.hang.asking import with_hang
    from cordwright.plan.problems import PlanErrors
    from cordwright.plan.read import parse_plan
    from cordwright.plan.write import edit_plan

    text = path.read_text(encoding="utf-8")
    cords = partial(shelf_cords, wanted.shelf)
    plan = parse_plan(text, str(path), cords)
    changes = {**_diameters(plan, wanted.diameters), **_sizes(plan, wanted.sizes)}
    _mm("--hook", wanted.hook)
    _mm("--clear", wanted.clear)
    pot = _pot(wanted.pot) if wanted.pot is not None else None
    if plan.mount.nothing is not None:
        pot = None  # it can hold nothing, which is told below
    if not changes and pot is None and wanted.hook is wanted.clear is None:
        return text, plan
    file = f"{path}, with these options"
    try:
        text = with_hang(
            text, str(path), hook=wanted.hook, clear=wanted.clear, pot=pot, shelf=cords
        )
        text = edit_plan(text, changes, file, cords) if changes else text
        return text, parse_plan(text, file, cords)
    except CordwrightError as error:
        first = error.errors[0] if isinstance(error, PlanErrors) else error
        raise CordwrightError(first.what, remedy=first.remedy, place=Place(file)) from None


def _diameters(plan: Plan, given: Sequence[str]) -> dict[str, str]:
    found = options.diameters(given)
    for name in found:
        if name not in plan.cords:
            raise CordwrightError(
                f"The plan has no cord called '{name}'.",
                remedy=f"it has {', '.join(plan.cords)}",
                place=Place(f"--diameter {name}"),
            )
    return {f"cords.{name}.diameter": f"{mm:g} mm" for name, mm in found.items()}


def _sizes(plan: Plan, given: Sequence[str]) -> dict[str, str]:
    from cordwright.plan.sizes import resolve_sizes

    found = options.sizes(given)
    resolve_sizes(plan, found)  # says what is wrong with any of them
    return {f"sizes.{name}": text for name, text in found.items()}


def _pot(text: str) -> Mapping[str, str]:
    """The pot that an option describes, as in ``rim=16cm,base=11cm,height=14cm,weight=900g``."""
    from cordwright.units.mass import parse_mass

    place = Place(f"--pot {text}")
    found: dict[str, str] = {}
    for part in text.split(","):
        key, equals, value = (p.strip() for p in part.partition("="))
        if not (equals and value) or key not in POT_KEYS or key in found:
            raise UnitsError(
                f"'{part.strip()}' is nothing that is said of a pot, or is said twice.",
                remedy=f"write {', '.join(POT_KEYS)}, each as in rim=16cm",
                place=place,
            )
        found[key] = value
    missing = [key for key in ("rim", "base", "height") if key not in found]
    if missing:
        raise UnitsError(
            f"The pot has no {' and no '.join(missing)}.",
            remedy="give all three: --pot rim=16cm,base=11cm,height=14cm",
            place=place,
        )
    for key in ("rim", "base", "height", "wall"):
        _mm(f"--pot {key}", found.get(key))
    if "weight" in found:
        try:
            parse_mass(found["weight"])
        except UnitsError as error:
            raise UnitsError(error.what, remedy=error.remedy, place=place) from None
    if "weight" not in found and not {"material", "wall"} & found.keys():
        found.update(UNWEIGHED)
    return found


def _write(out: Path, text: str, report: FitReport, path: Path, shelf: Path | None) -> None:
    from cordwright.plan.write import edit_plan

    changes = report.refit.changes if report.refit else []
    text = edit_plan(
        text, {f"sizes.{c.size}": c.after for c in changes}, str(path), partial(shelf_cords, shelf)
    )
    try:
        with out.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise _there_already(out) from None
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        raise unwritable(out, error) from None


def _there_already(out: Path) -> CordwrightError:
    return CordwrightError(
        "There is such a file already; it stays as it is.",
        remedy="give another name",
        place=Place(str(out)),
    )
