"""A progress bar for knots that are tightened while the maker waits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

Report = Callable[[str, float], None]


@contextmanager
def progress_bar() -> Iterator[Report]:
    """Something to tell the progress of tightening to: the knot in words, the share done, 0 to 1.

    The bar stands on stderr, begins with the first knot and is gone at the end. Where stderr is no
    terminal there is a line for each knot instead, so that a log says what took so long.
    """
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn

    console = Console(stderr=True, highlight=False, markup=False, emoji=False)
    bar = Progress(
        TextColumn("Tightening {task.description}", markup=False),
        BarColumn(),
        TimeElapsedColumn(),
        console=console,
        transient=True,
    )
    tasks: dict[str, TaskID] = {}

    def report(knot: str, share: float) -> None:
        if knot not in tasks:
            if console.is_terminal:
                bar.start()
            else:
                console.print(f"Tightening {knot} ...", soft_wrap=True)
            tasks[knot] = bar.add_task(knot, total=1.0)
        bar.update(tasks[knot], completed=share, visible=share < 1.0)

    try:
        yield report
    finally:
        if bar.live.is_started:
            bar.stop()
