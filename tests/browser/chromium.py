"""Where the browser of the tests comes from.

`CORDWRIGHT_CHROMIUM` names one; else the first that is installed under a usual name; else, as root
on a system with apt-get, Debian's is installed, once for all workers. Without a browser tests are
skipped with the reason, but fail where `CI` is set: there one is wanted.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome")
# Without a graphics processor WebGL is drawn in software. The page around it need not be drawn
# through that as well: it would take several times as long.
ARGUMENTS = (
    "--no-sandbox",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-gpu-compositing",
)
PATIENCE_S = 600.0


class NoBrowserError(Exception):
    """There is none; the message says what was tried."""


@cache
def browser_path() -> str:
    """A browser's executable.

    Raises:
        NoBrowserError: there is none, and none could be installed.
    """
    named = os.environ.get("CORDWRIGHT_CHROMIUM")
    if named:
        if not Path(named).exists():
            raise NoBrowserError(f"CORDWRIGHT_CHROMIUM names {named}, which is not there")
        return named
    found = _installed()
    if found is None and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        with _one_at_a_time():
            found = _installed() or _install()
    if found is None:
        raise NoBrowserError(
            f"no browser: none of {', '.join(NAMES)} is installed; install one, or name it in "
            "CORDWRIGHT_CHROMIUM"
        )
    return found


def _installed() -> str | None:
    return next((path for path in map(shutil.which, NAMES) if path), None)


def _install() -> str | None:
    """Debian's browser, if it can be had."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (
        ["apt-get", "update"],
        ["apt-get", "install", "-y", "--no-install-recommends", "chromium"],
    ):
        subprocess.run(
            command, check=False, capture_output=True, env=environment, timeout=PATIENCE_S
        )
    return _installed()


@contextmanager
def _one_at_a_time() -> Iterator[None]:
    """Only one worker installs; the others wait for it."""
    lock = Path(tempfile.gettempdir()) / "cordwright-tests-browser.lock"
    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL))
            break
        except FileExistsError:
            if time.monotonic() > until or time.time() - lock.stat().st_mtime > PATIENCE_S:
                lock.unlink(missing_ok=True)  # left behind by a worker that died
            time.sleep(1.0)
    try:
        yield
    finally:
        lock.unlink(missing_ok=True)
