"""``cordwright`` and ``cordwright bench``."""

from __future__ import annotations

from pathlib import Path

import click


def bench(folder: Path | None, port: int | None, *, browser: bool, shelf: Path | None) -> None:
    """Open the workbench in the maker's browser, and serve it until it is interrupted.

    Args:
        folder: of plans; None for the usual one.
        port: None for the first that is free from 8350, 0 for any free one.
        browser: whether to open the browser.
        shelf: the maker's shelf, None for the usual one.

    Raises:
        CordwrightError: the port or the folder cannot be used.
    """
    from cordwright.bench.serve import Wanted, serve

    serve(Wanted(folder, port, browser, shelf), click.echo)
