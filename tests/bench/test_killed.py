"""The program killed in the middle of its writing, again and again: nothing accepted is lost."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from pathlib import Path

from cordwright.bench.folder import Folder
from cordwright.bench.pieces import Pieces

KILLS = 25
WRITER = """
import sys
from pathlib import Path
from cordwright.bench.folder import Folder
from cordwright.bench.pieces import Pieces

pieces = Pieces(Folder(Path(sys.argv[1])))
found = pieces.standing("a")
if not found.known:
    pieces.notice("a", found.text, True)
revision = pieces.history.last("a").revision
print("ready", flush=True)
while True:
    text = f"{revision + 1} " * 5000 + "end"
    revision = pieces.accept("a", revision, text, True, "Changed").revision
    print(revision, flush=True)
"""


def whole(text: str) -> int:
    """The number that a text is made of; fails on anything but a whole one."""
    words = text.split(" ")
    assert words[-1] == "end"
    assert len(words) == 5001
    assert len(set(words[:-1])) == 1
    return int(words[0])


def test_nothing_accepted_is_lost_whenever_it_is_killed(tmp_path: Path) -> None:
    chance = random.Random(7)  # noqa: S311 - moments to kill at, not secrets
    first = Pieces(Folder(tmp_path))
    first.begin("a", "1 " * 5000 + "end", True, "Begun")
    first.close()
    accepted = 1
    for _ in range(KILLS):
        with subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path)], stdout=subprocess.PIPE, text=True
        ) as writer:
            assert writer.stdout is not None
            assert writer.stdout.readline() == "ready\n"
            time.sleep(chance.uniform(0.0, 0.05))
            writer.kill()
            said = [int(line) for line in writer.stdout.read().splitlines() if line]
        accepted = max([accepted, *said])
        pieces = Pieces(Folder(tmp_path))
        standing = pieces.standing("a")
        number = whole(standing.text)
        row = pieces.history.last("a")
        assert row is not None
        assert row.revision >= accepted
        assert number >= accepted
        for revision in range(1, row.revision + 1):
            text = pieces.history.text("a", revision)
            assert text is not None
            whole(text)
        if not standing.known:
            row = pieces.notice("a", standing.text, True)
        accepted = row.revision
        pieces.close()
    assert accepted > KILLS  # it did write between being killed
