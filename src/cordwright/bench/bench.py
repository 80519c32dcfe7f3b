"""The bench itself: pieces that are open, their changes one after the other, and what follows."""

from __future__ import annotations

import asyncio
import contextlib
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, Literal, Protocol, TypeVar, cast

from cordwright.bench import models
from cordwright.bench.changes import FromCopy, FromExample, FromMount, NewPiece
from cordwright.bench.desk import Desk
from cordwright.bench.folder import ExistsError, Folder, FolderError, NoSuchPieceError
from cordwright.bench.follow import Follower
from cordwright.bench.history import Row, StaleError
from cordwright.bench.jobs import Build, Draw, Look, Rewrite, Warm
from cordwright.bench.listing import listed
from cordwright.bench.live import GoneMessage
from cordwright.bench.names import checked
from cordwright.bench.pieces import NothingThereError, Pieces
from cordwright.bench.rewriting import said
from cordwright.bench.rooms import Good, Room, State, as_typed, message
from cordwright.bench.starting import blank, example_text
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.bench.changes import Change
    from cordwright.bench.shaping import Detail
    from cordwright.bench.study import Told
    from cordwright.units.length import System

LOOK_S: Final = 1.0
"""How often files of open pieces are looked at for changes by other programs."""

WARM: Final = "oxbow-planter"
"""The plan that workers warm up with."""

T = TypeVar("T")


class ConflictError(Exception):
    """The piece has moved on from the state that a change was meant for.

    Args:
        document: JSON of how it stands now.
    """

    def __init__(self, document: bytes) -> None:
        super().__init__()
        self.document = document


class NotWorkedError(CordwrightError):
    """The piece has no state yet that could be worked."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Where things are.

    Args:
        folder: the maker's folder of plans.
        shelf: the maker's shelf, the usual one if None.
    """

    folder: Path
    shelf: Path | None = None


class Bench:
    """All that the workbench does, for whoever may ask.

    Args:
        setting: where things are.
    """

    def __init__(self, setting: Setting) -> None:
        self.setting = setting
        self._disk = ThreadPoolExecutor(max_workers=1, thread_name_prefix="folder")
        self._pieces: Pieces | None = None
        self._rooms: dict[str, Room] = {}
        self.counting = Desk(setting.shelf)
        self.shaping = Desk(setting.shelf)
        self.follower = Follower(self.counting, self.shaping, self.report)
        self.channels: dict[int, Tries] = {}
        self._looking: asyncio.Task[None] | None = None
        self._warming: list[asyncio.Task[Any]] = []

    async def start(self) -> None:
        """Open the folder, and start the workers.

        Raises:
            FolderError: the folder cannot be used.
        """
        folder = Folder(self.setting.folder)
        self._pieces = await self._on_disk(lambda: Pieces(folder))
        for desk in (self.counting, self.shaping):
            await desk.start()
            warm = desk.do(Warm(example_text(WARM), hang=desk is self.shaping), ("warm",))
            self._warming.append(asyncio.create_task(warm))
        self._looking = asyncio.create_task(self._look_out())

    async def warm(self) -> None:
        """Wait until the workers have loaded what they need."""
        await asyncio.gather(*map(asyncio.shield, self._warming), return_exceptions=True)

    async def stop(self) -> None:
        """Close everything; all that was accepted is on the disk already."""
        for room in self._rooms.values():
            self.follower.end(room)
        if self._looking is not None:
            self._looking.cancel()
        await asyncio.gather(self.counting.stop(), self.shaping.stop())
        left = [*self._warming, *([self._looking] if self._looking else [])]
        await asyncio.gather(*left, return_exceptions=True)
        if self._pieces is not None:
            await self._on_disk(self._pieces.close)
        self._disk.shutdown()

    async def _on_disk(self, do: Callable[[], T]) -> T:
        """Something that waits for the disk, one thing at a time."""
        return await asyncio.get_running_loop().run_in_executor(self._disk, do)

    @property
    def pieces_(self) -> Pieces:
        """The folder's pieces."""
        assert self._pieces is not None  # noqa: S101 - nobody asks before it has started
        return self._pieces

    def report(self, fault: str) -> None:
        """Tell of a fault of the program, where it was started."""
        sys.stderr.write(f"A fault in a worker of the workbench:\n{fault}\n")

    # --- the folder

    async def pieces(self) -> models.Pieces:
        """All pieces, deleted ones, and what can be begun from."""
        return await self._on_disk(lambda: listed(self.pieces_))

    async def begin(self, new: NewPiece) -> bytes:
        """A new piece; JSON of its document.

        Raises:
            ExistsError: there is one of that name.
            CordwrightError: it cannot begin from that.
        """
        name = checked(new.name)
        match new.begin:
            case FromExample(example=example):
                text, what = example_text(example), f"Begun from {example}"
            case FromMount():
                text, what = blank(name, new.begin), f"Begun on {new.begin.mount}"
            case FromCopy(piece=piece):
                text = (await self._on_disk(lambda: self.pieces_.standing(piece))).text
                what = f"Copied from {checked(piece)}"
            case _:
                text, what = new.begin.text, "Begun from a file"
        room = self._room(name)
        async with room.lock:
            told = await self._look(text)
            row = await self._on_disk(lambda: self.pieces_.begin(name, text, told.good, what))
            return await self._stands(room, row, text, told)

    async def delete(self, name: str) -> None:
        """Take a piece's file away; its history stays.

        Raises:
            NoSuchPieceError: there is no such piece.
        """
        room = self._room(name)
        async with room.lock:
            await self._on_disk(lambda: self.pieces_.delete(room.name))
            self._gone(room, "The piece was deleted.")

    async def history(self, name: str, before: int | None, count: int) -> models.History:
        """States of a piece, the newest first.

        Raises:
            NoSuchPieceError: it never was.
        """
        name = checked(name)
        rows = await self._on_disk(lambda: self.pieces_.history.states(name, before, count + 1))
        if not rows and before is None:
            await self.room(name)  # opens it, or says that there is none
            rows = await self._on_disk(lambda: self.pieces_.history.states(name, None, count + 1))
        newest = await self._on_disk(lambda: self.pieces_.history.last(name))
        states = [
            models.State(
                revision=r.revision,
                at=r.at,
                what=r.what,
                present=newest is not None and r.revision == newest.revision and not r.gone,
            )
            for r in rows[:count]
        ]
        return models.History(name=name, states=states, more=len(rows) > count)

    async def past_text(self, name: str, revision: int) -> str:
        """The text of a state.

        Raises:
            NoSuchPieceError: there is no such state.
        """
        name = checked(name)
        text = await self._on_disk(lambda: self.pieces_.history.text(name, revision))
        if text is None:
            raise NoSuchPieceError(f"There is no state {revision} of '{name}'.")
        return text

    # --- documents

    async def document(self, name: str) -> bytes:
        """A piece as it stands: JSON of its document."""
        return _state(await self.room(name)).document()

    async def room(self, name: str) -> Room:
        """A piece that is open, as its file has it now.

        Raises:
            NoSuchPieceError: there is no such piece.
            FolderError: it cannot be read.
        """
        room = self._room(name)
        async with room.lock:
            await self._read(room)
        return room

    async def change(self, name: str, revision: int, change: Change) -> bytes:
        """Change something in a plan.

        Raises:
            ConflictError: the piece has moved on from that state.
            RefusedJobError: the change cannot be made.
        """
        room = self._room(name)
        async with room.lock:
            now = await self._expected(room, revision)
            with self.follower.ahead(room, now, change):
                job = Rewrite(now.text, change)
                text, told = await self.counting.do(job, ("rewrite", room.name), urgent=True)
                self.follower.count_ahead(room, now, text)
                return await self._accepted(room, now, text, told, said(change))

    async def retype(self, name: str, revision: int, text: str) -> bytes:
        """Take over a whole text; it need not be a plan.

        Raises:
            ConflictError: the piece has moved on from that state.
        """
        room = self._room(name)
        async with room.lock:
            now = await self._expected(room, revision)
            text = as_typed(text, now.text)
            told = await self._look(text)
            return await self._accepted(room, now, text, told, "Text changed")

    async def _accepted(self, room: Room, now: State, text: str, told: Told, what: str) -> bytes:
        if text == now.text:
            return now.document()
        name, revision = room.name, now.row.revision
        return await self._kept(
            room, text, told, lambda: self.pieces_.accept(name, revision, text, told.good, what)
        )

    async def undo(self, name: str, revision: int) -> bytes:
        """Undo; as `change`."""
        return await self._gone_back(name, revision, lambda n: self.pieces_.undo(n, revision))

    async def redo(self, name: str, revision: int) -> bytes:
        """Do again; as `change`."""
        return await self._gone_back(name, revision, lambda n: self.pieces_.redo(n, revision))

    async def restore(self, name: str, revision: int | None, to: int) -> bytes:
        """Go back to an earlier state, or bring a deleted piece back; as `change`."""
        return await self._gone_back(
            name, revision, lambda n: self.pieces_.restore(n, revision, to)
        )

    async def _gone_back(
        self, name: str, revision: int | None, move: Callable[[str], Row]
    ) -> bytes:
        room = self._room(name)
        async with room.lock:
            if revision is not None:
                await self._expected(room, revision)
            return await self._kept(room, None, None, lambda: move(room.name))

    async def _kept(
        self, room: Room, text: str | None, told: Told | None, keep: Callable[[], Row]
    ) -> bytes:
        try:
            row = await self._on_disk(keep)
        except (StaleError, ExistsError):
            await self._read(room)
            raise ConflictError(_state(room).document()) from None
        if text is None:
            text = await self._on_disk(lambda: self.pieces_.folder.read(room.name).text)
        return await self._stands(room, row, text, told or await self._look(text))

    async def _expected(self, room: Room, revision: int) -> State:
        await self._read(room)
        now = _state(room)
        if now.row.revision != revision:
            raise ConflictError(now.document())
        return now

    async def _look(self, text: str) -> Told:
        return cast("Told", await self.counting.do(Look(text), ("look", text), urgent=True))

    async def _read(self, room: Room) -> None:
        """Bring a room up to date with its file."""
        name = room.name
        for _ in range(5):
            try:
                found = await self._on_disk(lambda: self.pieces_.standing(name))
            except NoSuchPieceError:
                self._gone(room, "The file was deleted, or given another name.")
                raise
            row = found.row
            if found.known and room.state and row and room.state.row.revision == row.revision:
                return
            told = await self._look(found.text)
            if row is None or not found.known:
                notice = partial(self.pieces_.notice, name, found.text, told.good)
                try:
                    row = await self._on_disk(notice)
                except StaleError:
                    continue  # another workbench was quicker
            await self._stands(room, row, found.text, told)
            return
        raise FolderError(f"'{name}' is being changed by another program all the time.")

    async def _stands(self, room: Room, row: Row, text: str, told: Told) -> bytes:
        """Take over a state, tell everybody, and begin what follows."""
        good: Good | None = None
        if told.good and told.outline is not None:
            good = Good(row.revision, text, told.title, told.outline)
        elif room.state is not None:
            good = room.state.good
        else:
            good = await self._last_good(row)
        room.stand(State(row, text, told, good))
        document = _state(room).document()
        room.tell(message("document", document=document))
        self.follower.begin(room)
        return document

    async def _last_good(self, row: Row) -> Good | None:
        """The last state in the history that can be worked."""
        found = await self._on_disk(lambda: self.pieces_.history.last_good(row.piece, row.revision))
        if found is None:
            return None
        text = await self.past_text(found.piece, found.revision)
        told = await self._look(text)
        if told.outline is None:
            return None
        return Good(found.revision, text, told.title, told.outline)

    def _room(self, name: str) -> Room:
        name = checked(name)
        return self._rooms.setdefault(name, Room(name))

    def _gone(self, room: Room, what: str) -> None:
        self.follower.end(room)
        if room.state is not None:
            gone = GoneMessage(what=what).model_dump_json().encode()
            room.tell(gone)
        room.state = None

    async def _look_out(self) -> None:
        """Look at the files of open pieces again and again."""
        while True:
            await asyncio.sleep(LOOK_S)
            for room in list(self._rooms.values()):
                if room.watchers:
                    with contextlib.suppress(CordwrightError):
                        async with room.lock:
                            await self._read(room)

    # --- what follows

    async def good(self, name: str) -> Good:
        """The last state of a piece that could be worked.

        Raises:
            NoSuchPieceError: there is no such piece.
            NotWorkedError: no state of it could.
        """
        return _good(await self.room(name))

    async def numbers(self, name: str) -> bytes:
        """JSON of `Numbers` of the last state that could be worked."""
        room = await self.room(name)
        return await self.follower.numbers(room, _good(room))

    async def hanging(self, name: str) -> bytes:
        """JSON of `Hanging` of the last state that could be worked."""
        room = await self.room(name)
        return await self.follower.hanging(room, _good(room))

    async def built(
        self, name: str, revision: int | None, what: Literal["scene", "parts"], detail: Detail
    ) -> bytes:
        """The scene of the last state that could be worked, or its parts: glTF binary.

        Raises:
            ConflictError: that is another state than the one asked for.
        """
        room = await self.room(name)
        good = _good(room)
        if revision is not None and revision != good.revision:
            raise ConflictError(_state(room).document())
        key = f"{what} {detail}"
        job = Build(good.text, room.name, what, detail)
        made = await room.known.of(key, lambda: self.shaping.do(job, (key, room.name), urgent=True))
        return cast("bytes", made)

    async def tried(self, name: str, tab: int, trying: int, detail: Detail) -> bytes:
        """The parts of a try's scene: glTF binary.

        Raises:
            NothingThereError: it is gone, or never was.
        """
        channel = self.channels.get(tab)
        if channel is None or trying not in channel.tries:
            raise NothingThereError("That try is no longer there.", remedy="try again")
        job = Build(channel.tries[trying], checked(name), "parts", detail)
        return cast("bytes", await self.shaping.do(job, ("build", tab, trying, detail)))

    async def drawn(self, name: str, job: Callable[[str], Draw], key: str) -> bytes:
        """A picture of the last state that could be worked."""
        room = await self.room(name)
        desk = self.counting if key == "chart" else self.shaping
        return cast("bytes", await desk.do(job(_good(room).text), ("draw", room.name, key)))

    async def picture(self, name: str, system: System) -> bytes:
        """The hanging piece, flat, as SVG."""
        return await self.drawn(name, lambda t: Draw(t, checked(name), "piece", system), system)

    async def chart(self, name: str, system: System) -> bytes:
        """The chart as SVG."""
        return await self.drawn(name, lambda t: Draw(t, checked(name), "chart", system), "chart")

    async def strand(self, name: str, strand: str, system: System) -> bytes:
        """The piece with one strand or cord picked out, as SVG."""
        return await self.drawn(
            name, lambda t: Draw(t, checked(name), "strand", system, strand), f"{strand} {system}"
        )


def _state(room: Room) -> State:
    assert room.state is not None  # noqa: S101 - it was read, or an error told that it cannot be
    return room.state


def _good(room: Room) -> Good:
    good = _state(room).good
    if good is None:
        raise NotWorkedError(
            "No state of this piece could be worked yet.",
            remedy="mend what is wrong in the plan first",
        )
    return good


class Tries(Protocol):
    """A page that tries changes, and may fetch parts of their scenes: texts by their numbers."""

    tries: dict[int, str]
