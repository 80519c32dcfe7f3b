"""A server on a port of its own, in a thread, and a page that talks to it as a browser does."""

from __future__ import annotations

import json
import socket
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import httpx
import uvicorn
from websockets.sync.client import ClientConnection, connect

from cordwright.bench.guard import Lock, new_key

if TYPE_CHECKING:
    from starlette.types import ASGIApp

PATIENCE_S = 60.0


@contextmanager
def served(make: Callable[[Lock], ASGIApp]) -> Iterator[Page]:
    """An application that runs, and a page that has not opened it yet."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listening:
        listening.bind(("127.0.0.1", 0))
        lock = Lock(listening.getsockname()[1], new_key())
        config = uvicorn.Config(make(lock), log_level="critical", ws="websockets-sansio")
        server = uvicorn.Server(config)
        running = threading.Thread(target=server.run, kwargs={"sockets": [listening]})
        running.start()
        while not server.started:
            assert running.is_alive()
            time.sleep(0.01)
        try:
            with Page(lock) as page:
                yield page
        finally:
            server.should_exit = True
            running.join(PATIENCE_S)


class Page(httpx.Client):
    """What a browser would send, and may be told to send instead."""

    def __init__(self, lock: Lock) -> None:
        self.lock = lock
        self.own = f"http://127.0.0.1:{lock.port}"
        super().__init__(base_url=self.own, timeout=PATIENCE_S)

    def open(self) -> Page:
        """Open the launch's address: from now on it has the cookie, and says who it is."""
        answer = self.get(self.lock.address())
        assert answer.status_code == 200
        self.headers["Origin"] = self.own
        self.headers["Sec-Fetch-Site"] = "same-origin"
        return self

    def channel(self, piece: str, **headers: str) -> ClientConnection:
        """The live channel of a piece; ``headers`` with _ for - replace what a page sends."""
        sent = {"Origin": self.own, "Sec-Fetch-Site": "same-origin", "Host": self.own[7:]}
        sent["Cookie"] = "; ".join(f"{k}={v}" for k, v in self.cookies.items())
        sent |= {k.replace("_", "-"): v for k, v in headers.items()}
        host = sent.pop("Host")
        return connect(
            f"ws://{host}/api/live?piece={piece}",
            additional_headers={k: v for k, v in sent.items() if v},
            sock=socket.create_connection(("127.0.0.1", self.lock.port)),
            max_size=None,
            user_agent_header=None,
        )

    def begun(self, name: str, example: str = "tally-fob") -> dict[str, Any]:
        """A new piece from an example: its document."""
        begin = {"kind": "example", "example": example}
        answer = self.post("/api/pieces", json={"name": name, "begin": begin})
        assert answer.status_code == 201, answer.text
        found: dict[str, Any] = answer.json()
        return found

    def changed(self, document: dict[str, Any], **change: Any) -> dict[str, Any]:
        """The document after a change that is accepted."""
        answer = self.ask(document, "change", change=change)
        assert answer.status_code == 200, answer.text
        found: dict[str, Any] = answer.json()
        return found

    def ask(self, document: dict[str, Any], door: str, **body: Any) -> httpx.Response:
        """Ask something of a piece as it stood."""
        path = f"/api/pieces/{document['name']}/{door}"
        how = self.put if door == "text" else self.post
        return how(path, json={"revision": document["revision"], **body})


def heard(channel: ClientConnection, kind: str, **wanted: Any) -> dict[str, Any]:
    """The next message of a kind whose part has these values; others are passed over."""
    for _ in range(300):
        found: dict[str, Any] = json.loads(channel.recv(PATIENCE_S))
        part = found.get(kind, found)
        if found["kind"] == kind and all(part.get(k) == v for k, v in wanted.items()):
            return found
    raise AssertionError(f"no {kind} came")
