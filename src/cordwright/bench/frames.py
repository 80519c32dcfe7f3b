"""Messages between the bench and its workers: a length in four bytes, then a pickled value.

Both ends are the same program on the same machine, joined by pipes that nobody else has.
"""

from __future__ import annotations

import pickle
import struct
from dataclasses import dataclass
from typing import BinaryIO, Final

HEAD: Final = struct.Struct(">I")


@dataclass(frozen=True, slots=True)
class Asked:
    """A job for a worker, with the number that its answers carry."""

    number: int
    job: object


@dataclass(frozen=True, slots=True)
class Cancelled:
    """To a worker: end that job. From it: the job has ended so."""

    number: int


@dataclass(frozen=True, slots=True)
class Done:
    """A job's result."""

    number: int
    value: object


@dataclass(frozen=True, slots=True)
class Wrong:
    """A maker's error: why a job has no result. ``problems`` is JSON of a list of `Problem`."""

    number: int
    what: str
    remedy: str
    problems: bytes


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault of the program, as text for whoever mends it."""

    number: int
    text: str


@dataclass(frozen=True, slots=True)
class Doing:
    """What a job is at, and which share of it is done, if that is known."""

    number: int
    what: str
    share: float | None


def packed(value: object) -> bytes:
    """A message as bytes."""
    data = pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)
    return HEAD.pack(len(data)) + data


def unpacked(data: bytes) -> object:
    """A message from its bytes, without the head."""
    return pickle.loads(data)  # noqa: S301 - from our own process, see above


def read(stream: BinaryIO) -> object | None:
    """The next message of a stream, None at its end."""
    head = stream.read(HEAD.size)
    if len(head) < HEAD.size:
        return None
    (size,) = HEAD.unpack(head)
    data = stream.read(size)
    return unpacked(data) if len(data) == size else None
