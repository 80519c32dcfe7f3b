"""Tie-along: the lesson page on a phone in the same network, while the maker wants it.

Off unless it is turned on, and off again when the workbench ends. While it is on there is a second
listener, on this computer's address in its network; the workbench's own stays on loopback.
"""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

import uvicorn
from pydantic import Field

from cordwright.bench.lending import Lent
from cordwright.bench.wire import Wire
from cordwright.errors import CordwrightError

ELSEWHERE: Final = ("192.0.2.1", 9)
"""An address that is nobody's (RFC 5737): asked for the way there, and sent nothing."""


class TieAlongState(Wire):
    """Whether a lesson page is lent out in the network, and how it is opened."""

    on: bool
    title: str = Field(description="Of the piece; empty while off.")
    address: str = Field(description="What is typed on the phone.")
    code: str = Field(description="Works once; empty when it is used up or void.")
    seconds: int = Field(ge=0, description="How long the code may still be used.")


OFF: Final = TieAlongState(on=False, title="", address="", code="", seconds=0)


def lan_address() -> str:
    """The address that the computer has in its network.

    Raises:
        CordwrightError: it is in none.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(ELSEWHERE)  # a datagram socket sends nothing by this
            found = str(asking.getsockname()[0])
        except OSError:
            found = ""
    if not found or found.startswith(("127.", "0.")):
        raise CordwrightError(
            "This computer is in no network that a phone could be in.",
            remedy="connect it to the network that the phone is in, and turn it on again",
        )
    return found


class _Server(uvicorn.Server):
    """A server beside another: signals are the other's matter."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leave them alone."""
        yield


@dataclass(slots=True)
class TieAlong:
    """The second listener, while there is one."""

    _lent: Lent | None = None
    _server: _Server | None = None
    _task: asyncio.Task[None] | None = None

    def state(self) -> TieAlongState:
        """How it stands."""
        lent = self._lent
        if lent is None:
            return OFF
        left = lent.left_s
        return TieAlongState(
            on=True,
            title=lent.title,
            address=f"http://{lent.host}/",
            code=lent.code if left else "",
            seconds=int(left),
        )

    async def turn_on(self, title: str, page: bytes) -> TieAlongState:
        """Lend a page out, in the place of any other.

        Raises:
            CordwrightError: this computer is in no network, or nothing can listen there.
        """
        await self.turn_off()
        listening = _listening(lan_address())
        host, port = listening.getsockname()
        self._lent = Lent(f"{host}:{port}", title, page)
        config = uvicorn.Config(
            self._lent, log_level="critical", server_header=False, ws="none", lifespan="off",
            h11_max_incomplete_event_size=16_384, limit_concurrency=40,
            timeout_graceful_shutdown=1,
        )  # fmt: skip
        self._server = _Server(config)
        self._task = asyncio.create_task(self._server.serve(sockets=[listening]))
        while not self._server.started and not self._task.done():
            await asyncio.sleep(0.01)
        return self.state()

    def renew(self) -> TieAlongState:
        """Another code, for another phone."""
        if self._lent is not None:
            self._lent.renew()
        return self.state()

    async def turn_off(self) -> TieAlongState:
        """Lend nothing out; the listener is gone when this comes back."""
        server, task = self._server, self._task
        self._lent = self._server = self._task = None
        if server is not None and task is not None:
            server.should_exit = True
            await task
        return OFF


def _listening(host: str) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        listening.bind((host, 0))
    except OSError as error:
        listening.close()
        raise CordwrightError(
            f"Nothing can listen at {host}: {error.strerror or error}.",
            remedy="check the network, and turn it on again",
        ) from None
    listening.set_inheritable(False)
    return listening
