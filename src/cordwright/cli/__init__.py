"""The command line: reads what is asked, calls the rooms below, shows what they say.

Nothing is computed here. Modules load numerical libraries inside their functions, so that
``cordwright --help`` answers at once.
"""

from __future__ import annotations

from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command line and give its exit status.

    0: done; 1: the terminal's reader went away; 2: something in the command, the plan or the knot
    is wrong, and a message on stderr says what; 3: a fault of the program; 130: interrupted.

    Args:
        arguments: what stands after the program's name; None takes it from the shell.
    """
    from cordwright.cli.app import app
    from cordwright.cli.trouble import run

    return run(app, arguments)
