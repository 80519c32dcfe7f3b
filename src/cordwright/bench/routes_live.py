"""The live channel: what the page is told as it happens, and what it may ask meanwhile."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator
from itertools import count
from typing import TYPE_CHECKING, Final

from fastapi import APIRouter, WebSocket
from pydantic import ValidationError
from starlette.websockets import WebSocketDisconnect, WebSocketState

from cordwright.bench.changes import Several
from cordwright.bench.desk import FaultError, RefusedJobError, SupersededError
from cordwright.bench.follow import GRACE_S, problem
from cordwright.bench.jobs import Count, Show
from cordwright.bench.live import CLIENT, CancelMessage, RefreshMessage, TryMessage
from cordwright.bench.rooms import Room, message
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from cordwright.bench.bench import Bench
    from cordwright.bench.live import ClientMessage

router = APIRouter()

MOST_MESSAGE: Final = 200_000
"""Bytes of a message from the page."""

MOST_WAITING: Final = 1000
"""Messages that may wait for a page that does not take them; then it has gone to sleep."""

UNREADABLE, NO_PIECE, TOO_SLOW = 1007, 4404, 4408  # how a channel is closed

KEPT_TRIES: Final = 4
_numbers = count(1)


class Channel:
    """One page's end of the live channel.

    Args:
        socket: the connection.
    """

    def __init__(self, socket: WebSocket) -> None:
        self.socket = socket
        self.number = next(_numbers)
        self.tries: dict[int, str] = {}
        self.trying: asyncio.Task[None] | None = None
        self.wanted: TryMessage | None = None
        self._out: asyncio.Queue[bytes] = asyncio.Queue(MOST_WAITING)
        self._slow = False

    def send(self, message: bytes) -> None:
        """Send a message; never waits."""
        try:
            self._out.put_nowait(message)
        except asyncio.QueueFull:
            self._slow = True

    async def deliver(self) -> None:
        """Send what is to be sent, until the page has gone."""
        while not self._slow:
            data = await self._out.get()
            await self.socket.send_text(data.decode())
        await self.socket.close(TOO_SLOW)

    async def asked(self) -> AsyncIterator[ClientMessage]:
        """What the page asks, until it goes or says what cannot be read."""
        while True:
            try:
                text = await self.socket.receive_text()
            except (WebSocketDisconnect, KeyError):  # KeyError: it was no text
                return
            try:
                if len(text) > MOST_MESSAGE:
                    raise ValueError
                yield CLIENT.validate_json(text)
            except (ValidationError, ValueError):
                await self.socket.close(UNREADABLE)
                return

    def keep(self, trying: int, text: str) -> None:
        """Keep the text of a try until the page has fetched what it needs, or others have come."""
        self.tries[trying] = text
        while len(self.tries) > KEPT_TRIES:
            del self.tries[next(iter(self.tries))]


@router.websocket("/api/live")
async def live(socket: WebSocket, piece: str) -> None:
    """Everything that happens to a piece, as `cordwright.bench.live` has it."""
    bench: Bench = socket.app.state.bench
    await socket.accept()
    channel = Channel(socket)
    try:
        room = await bench.room(piece)
    except (CordwrightError, SupersededError):
        await socket.close(NO_PIECE)
        return
    bench.channels[channel.number] = channel
    room.watchers.add(channel)
    _greet(bench, room, channel)
    delivering = asyncio.create_task(channel.deliver())
    try:
        async for message_ in channel.asked():
            _answer(bench, room, channel, message_)
    finally:
        room.watchers.discard(channel)
        bench.channels.pop(channel.number, None)
        await _ended(delivering, channel.trying)
        if not room.watchers:
            bench.follower.end(room)
        if socket.client_state is WebSocketState.CONNECTED:
            with contextlib.suppress(RuntimeError):
                await socket.close()


def _greet(bench: Bench, room: Room, channel: Channel) -> None:
    """The piece as it stands, and what is known of it; the rest is worked out."""
    if room.state is None:
        return
    channel.send(message("document", document=room.state.document()))
    if room.following is None or room.following.done():
        bench.follower.begin(room)
        return
    # Others watch: what they were told already.
    known, good = room.known.done, room.state.good
    if "numbers" in known:
        channel.send(message("numbers", numbers=known["numbers"]))
    if "picture" in known and good is not None:
        told = known["picture"].told(room.name, good.revision, None, None)
        channel.send(message("picture", picture=told.model_dump_json().encode()))
    if "hanging" in known:
        channel.send(message("hanging", hanging=known["hanging"]))


def _answer(bench: Bench, room: Room, channel: Channel, asked: ClientMessage) -> None:
    match asked:
        case CancelMessage():
            bench.follower.cancel(room)
        case RefreshMessage():
            bench.follower.begin(room)
        case TryMessage():
            channel.wanted = asked
            if channel.trying is None or channel.trying.done():
                channel.trying = asyncio.create_task(_trying(bench, room, channel))
            else:
                loop = asyncio.get_running_loop()
                loop.call_later(GRACE_S, _hurry, bench, room, channel, asked)


def _hurry(bench: Bench, room: Room, channel: Channel, asked: TryMessage) -> None:
    """Break an older try off for one that still waits."""
    if channel.wanted is asked and channel.trying is not None:
        channel.trying.cancel()
        channel.trying = asyncio.create_task(_trying(bench, room, channel))


async def _trying(bench: Bench, room: Room, channel: Channel) -> None:
    """One try after the other, each time the latest: what is dragged is seen to move meanwhile."""
    while (asked := channel.wanted) is not None:
        channel.wanted = None
        await _try(bench, room, channel, asked)


async def _try(bench: Bench, room: Room, channel: Channel, asked: TryMessage) -> None:
    """Numbers of changes that are not kept, and their picture."""
    state, revision = room.state, asked.revision
    if state is None or state.row.revision != revision or state.good is None:
        return  # the page hears of the new state anyway
    changes = Several(do="several", changes=asked.changes)

    async def numbers() -> None:
        job = Count(state.text, room.name, revision, asked.trying, changes)
        _, found = await bench.counting.do(job, ("try", channel.number), urgent=True)
        channel.send(message("numbers", numbers=found))

    async def picture() -> None:
        job, key = Show(state.text, room.name, changes), ("try", room.name)
        text, posed = await bench.shaping.do(job, key, urgent=True)
        channel.keep(asked.trying, text)
        told = posed.told(room.name, revision, asked.trying, channel.number)
        channel.send(message("picture", picture=told.model_dump_json().encode()))

    try:
        async with asyncio.TaskGroup() as group:
            group.create_task(numbers())
            group.create_task(picture())
    except* SupersededError:
        pass
    except* RefusedJobError as refused:
        channel.send(problem(revision, asked.trying, refused.exceptions[0]))
    except* FaultError as faults:
        for fault in faults.exceptions:
            bench.report(str(fault))


async def _ended(*tasks: asyncio.Task[None] | None) -> None:
    for task in tasks:
        if task is not None:
            task.cancel()
            with contextlib.suppress(asyncio.CancelledError, WebSocketDisconnect, RuntimeError):
                await task
