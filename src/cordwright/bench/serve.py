"""Starting the workbench: a free port on this computer, the server, and the maker's browser."""

from __future__ import annotations

import logging
import os
import socket
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from cordwright.bench.bench import Bench, Setting
from cordwright.bench.guard import Lock, new_key
from cordwright.bench.routes_live import MOST_MESSAGE
from cordwright.errors import CordwrightError, Place

LOOPBACK: Final = "127.0.0.1"
PORTS: Final = range(8350, 8360)
"""Tried one after the other, so that a second workbench finds a place too; then any free one."""

BACKLOG: Final = 128
"""Connections that wait to be taken; a page opens a handful."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """How a workbench is started.

    Args:
        folder: of plans; None for the usual one.
        port: None for the first that is free from 8350, 0 for any free one.
        browser: whether to open the maker's browser.
        shelf: the maker's shelf, None for the usual one.
    """

    folder: Path | None = None
    port: int | None = None
    browser: bool = True
    shelf: Path | None = None


def usual_folder() -> Path:
    """Where a maker's plans are unless another folder is named: Cordwright in their documents."""
    from platformdirs import user_documents_path

    return user_documents_path() / "Cordwright"


def serve(wanted: Wanted, say: Callable[[str], None]) -> None:
    """Serve the workbench until it is interrupted.

    Args:
        wanted: how.
        say: is told the address that opens it.

    Raises:
        CordwrightError: the port is taken, or the folder cannot be used.
    """
    import uvicorn

    from cordwright.bench.app import make_app

    folder = (wanted.folder if wanted.folder is not None else usual_folder()).expanduser()
    _usable(folder)
    with _listening(wanted.port) as listening:
        lock = Lock(listening.getsockname()[1], new_key())

        def ready() -> None:
            say(f"The workbench is open at {lock.address()}")
            say(f"Plans are in {folder}. Close it with Ctrl+C; everything is saved as you go.")
            if wanted.browser:
                webbrowser.open(lock.address())

        app = make_app(Bench(Setting(folder.resolve(), wanted.shelf)), lock, ready)
        config = uvicorn.Config(
            app,
            log_level="warning",
            server_header=False,
            ws="websockets-sansio",
            ws_max_size=MOST_MESSAGE,
            h11_max_incomplete_event_size=65_536,
            timeout_graceful_shutdown=2,
        )
        logging.getLogger("uvicorn.error").addFilter(_needed)
        uvicorn.Server(config).run(sockets=[listening])


def _needed(record: logging.LogRecord) -> bool:
    """Whether a maker needs to read what the server says.

    That answers are broken off when the workbench is closed is no matter of theirs: all that was
    accepted is on the disk.
    """
    return "timeout graceful shutdown exceeded" not in record.getMessage()


def _usable(folder: Path) -> None:
    """Said before the server starts, so that it is said plainly."""
    from cordwright.bench.folder import Folder

    if folder.exists() and not folder.is_dir():
        raise CordwrightError(
            "This is no folder.", remedy="name a folder for plans", place=Place(str(folder))
        )
    Folder(folder).prepare()


def _listening(port: int | None) -> socket.socket:
    """A socket that listens on this computer only.

    It listens at once: a port that is only bound can be bound a second time (SO_REUSEADDR), and of
    two workbenches started together one would fail later, after its address has been shown.
    """
    for number in (port,) if port is not None else (*PORTS, 0):
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name == "posix":  # elsewhere it would let two programs have one port
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((LOOPBACK, number))
            listening.listen(BACKLOG)
        except OSError as error:
            listening.close()
            reason = error.strerror or str(error)
            continue
        listening.set_inheritable(False)
        return listening
    raise CordwrightError(
        f"Port {port} cannot be used: {reason}.",
        remedy="leave --port out, or choose another from 1024 to 65535",
    )
