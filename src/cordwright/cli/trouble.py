"""How trouble is told: one clear message on stderr, and the exit status."""

from __future__ import annotations

import os
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path

import click

from cordwright.cli.text import clean
from cordwright.errors import CordwrightError, Place

OK, WRONG, FAULT, INTERRUPTED, NOBODY_READS = 0, 2, 3, 130, 1
MOST_TOLD = 20  # errors told at once; nobody reads more
EXCERPT_COLUMNS = 76  # of the source line that are shown round the caret
EXCERPT_FILE_BYTES = 4_000_000  # no excerpt is looked for in larger files


def run(app: click.Command, arguments: Sequence[str] | None) -> int:
    """Run a click command and turn whatever goes wrong into a message and an exit status."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a character shows another one; that is no reason to stop.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        result = app.main(args=arguments, prog_name="cordwright", standalone_mode=False)
        sys.stdout.flush()
    except CordwrightError as error:
        click.echo(told(error), err=True)
        return WRONG
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        return INTERRUPTED
    except BrokenPipeError:
        _stop_writing()
        return NOBODY_READS
    except SystemExit as leaving:  # click and rich leave so when nobody reads the output
        return leaving.code if isinstance(leaving.code, int) else NOBODY_READS
    except Exception as error:  # noqa: BLE001 - the last resort, so that no maker meets a traceback
        click.echo(fault(error), err=True)
        return FAULT
    return result if isinstance(result, int) else OK


def told(error: CordwrightError) -> str:
    """The message for a maker; several of them where several things are wrong."""
    errors = parts(error)
    messages = [_told_one(e) for e in errors[:MOST_TOLD]]
    if len(errors) > MOST_TOLD:
        messages.append(f"... and {len(errors) - MOST_TOLD} more.")
    return "\n".join(messages)


def parts(error: CordwrightError) -> Sequence[CordwrightError]:
    """The errors that one error stands for."""
    # Errors of plans and of tables carry all that was found; importing neither keeps this quick.
    found: Sequence[CordwrightError] = getattr(error, "errors", ())
    return found or (error,)


def _told_one(error: CordwrightError) -> str:
    """Place, what is wrong, the line that it is in, what to try."""
    place = f"{clean(str(error.place))}: " if error.place else ""
    lines = [f"{click.style(place, bold=True)}{clean(error.what)}"]
    if error.place:
        lines += excerpt(error.place)
    if error.remedy:
        lines.append(f"  {click.style('try:', fg='green')} {clean(error.remedy)}")
    return "\n".join(lines)


def excerpt(place: Place) -> list[str]:
    """The source line with a caret under the column, or nothing if it cannot be had."""
    text = _line_of(place)
    if text is None:
        return []
    text = clean(text.replace("\t", " "), keep_ends=True)
    label = f"{place.line:>6} | "
    if place.column is None:
        return [label + text[:EXCERPT_COLUMNS].rstrip()]
    at = min(place.column - 1, len(text))
    first = max(0, at - EXCERPT_COLUMNS + 16)
    shown = text[first : first + EXCERPT_COLUMNS].rstrip()
    gap = " " * (len(label) - 2) + "| " + " " * (at - first)
    return [label + shown, gap + click.style("^", fg="red", bold=True)]


def _line_of(place: Place) -> str | None:
    path = Path(place.file)
    try:
        if place.line is None or not path.is_file() or path.stat().st_size > EXCERPT_FILE_BYTES:
            return None
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, ValueError):  # gone, unreadable, not UTF-8: the message stands by itself
        return None
    return lines[place.line - 1] if 0 < place.line <= len(lines) else None


def fault(error: Exception) -> str:
    """What to say about an error that no maker should ever meet."""
    if os.environ.get("CORDWRIGHT_DEBUG"):
        return "".join(traceback.format_exception(error)).rstrip()
    return (
        f"Cordwright met something it does not know how to handle: {type(error).__name__}: "
        f"{clean(str(error))}. This is a fault in the program, not in your work. Run the same "
        "command again with CORDWRIGHT_DEBUG=1 in the environment to see where it happens, and "
        "report that together with the plan."
    )


def _stop_writing() -> None:
    """Let what is left in the buffer go nowhere, so that leaving does not fail on it again."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):  # stdout is closed or is no file: nothing is left to do
        return
