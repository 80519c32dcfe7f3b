"""A progress bar for knots that are tightened while the maker waits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

Report = Callable[[str, float], None]


@contextmanager
def progress_bar() -> Iterator[Report]:
    """Something to tell the progress of tightening to: the knot in words, the share done, 0 to 1.

    The bar stands on stderr, begins with the first knot and is gone at the end. Where stderr is no
    terminal there is a line for each knot instead, so that a log says what took so long.
    """
    with ExitStack() as ends:
        bar: Progress | None = None
        tasks: dict[str, TaskID] = {}

        def report(knot: str, share: float) -> None:
            nonlocal bar
            if bar is None:
                bar = _bar()
                if bar.console.is_terminal:
                    ends.enter_context(bar)
            if knot not in tasks:
                for done in tasks.values():
                    bar.update(done, visible=False)
                tasks[knot] = bar.add_task(knot, total=1.0)
                if not bar.console.is_terminal:
                    bar.console.print(f"Tightening {knot} ...", soft_wrap=True)
            bar.update(tasks[knot], completed=share)

        yield report


def _bar() -> Progress:
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn

    return Progress(
        TextColumn("Tightening {task.description}", markup=False),
        BarColumn(),
        TimeElapsedColumn(),
        console=Console(stderr=True, highlight=False, markup=False, emoji=False),
        transient=True,
    )
