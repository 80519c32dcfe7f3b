"""A piece that is open: how it stands, what is known of it, and who is watching."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Protocol

from cordwright.bench.starting import title_of
from cordwright.plan.layout import BOM

if TYPE_CHECKING:
    from cordwright.bench.follow import Ahead
    from cordwright.bench.history import Row
    from cordwright.bench.study import Told


class Watcher(Protocol):
    """A page that shows the piece."""

    def send(self, message: bytes) -> None:
        """Send a message of the live channel; never waits."""


@dataclass(frozen=True, slots=True)
class Good:
    """The last state that could be worked.

    Args:
        revision: its number.
        text: its plan.
        title: the plan's.
        outline: JSON of its `Outline`.
    """

    revision: int
    text: str
    title: str
    outline: bytes


@dataclass(slots=True)
class Known:
    """What has been worked out of the good state so far, and what is being worked out.

    Args:
        done: results by what they are.
        pending: work that several may wait for.
    """

    done: dict[str, Any] = field(default_factory=dict)
    pending: dict[str, asyncio.Task[Any]] = field(default_factory=dict)

    async def of(self, what: str, work: Callable[[], Coroutine[Any, Any, Any]]) -> Any:
        """A result, worked out now unless it is there or somebody else waits for it already."""
        if what in self.done:
            return self.done[what]
        task = self.pending.get(what)
        if task is None:
            task = asyncio.create_task(work())
            self.pending[what] = task
            task.add_done_callback(lambda t: self._take(what, t))
        return await asyncio.shield(task)

    def _take(self, what: str, task: asyncio.Task[Any]) -> None:
        self.pending.pop(what, None)
        if not task.cancelled() and task.exception() is None:
            self.done[what] = task.result()


@dataclass(frozen=True, slots=True)
class State:
    """How a piece stands.

    Args:
        row: its newest state in the history.
        text: what its file holds.
        told: what is told of that text.
        good: the last state that could be worked, if there is one.
    """

    row: Row
    text: str
    told: Told
    good: Good | None

    def document(self) -> bytes:
        """JSON of `Document`."""
        good = self.good
        title = self.told.title or title_of(self.text, self.row.piece)
        plain = {
            "name": self.row.piece,
            "revision": self.row.revision,
            "text": self.text,
            "title": title,
            "good": self.told.good,
            "good_revision": good.revision if good else None,
            "can_undo": self.row.undo_to is not None,
            "can_redo": self.row.redo_to is not None,
            "saved_at": self.row.at,
        }
        head = json.dumps(plain, ensure_ascii=False, separators=(",", ":")).encode()
        return b'%s,"problems":%s,"outline":%s}' % (
            head[:-1],
            self.told.problems,
            good.outline if good else b"null",
        )


@dataclass(slots=True, eq=False)
class Room:
    """A piece that is open.

    Args:
        name: of the piece.
        state: how it stands; None until it was read.
        known: what has been worked out of its good state.
        lock: held by whoever changes it.
        watchers: pages that show it.
        following: the work that follows the last change.
        ahead: what was begun of a change that is being kept.
        shown: the latest state whose picture was told.
        cancelled: whether the maker ended that work.
    """

    name: str
    state: State | None = None
    known: Known = field(default_factory=Known)
    lock: asyncio.Lock = field(default_factory=asyncio.Lock)
    watchers: set[Watcher] = field(default_factory=set)
    following: asyncio.Task[None] | None = None
    ahead: Ahead | None = None
    shown: int = 0
    cancelled: bool = False

    def tell(self, message: bytes) -> None:
        """Send a message to every page that shows the piece."""
        for watcher in list(self.watchers):
            watcher.send(message)

    def stand(self, state: State) -> None:
        """Take over how the piece stands now."""
        before = self.state.good if self.state else None
        if before is None or state.good is None or state.good.revision != before.revision:
            self.known = Known()
        self.state = state


def message(kind: str, **parts: bytes) -> bytes:
    """A message of the live channel from parts that are JSON already.

    >>> message("numbers", numbers=b"{}")
    b'{"kind":"numbers","numbers":{}}'
    """
    rest = b"".join(b',"%s":%s' % (name.encode(), part) for name, part in parts.items())
    return b'{"kind":"%s"%s}' % (kind.encode(), rest)


def as_typed(new: str, old: str) -> str:
    r"""A text from a page with the line ends, and the byte order mark, that the file has.

    >>> as_typed("a\nb", "x\r\ny")
    'a\r\nb'
    """
    new = new.replace("\r\n", "\n").replace("\r", "\n")
    if old.count("\r\n") * 2 > old.count("\n"):
        new = new.replace("\n", "\r\n")
    return BOM + new if old.startswith(BOM) and not new.startswith(BOM) else new
