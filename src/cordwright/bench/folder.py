"""The maker's folder: which plan files there are, reading them, and writing them whole.

A file is written beside the others, in the folder's own ``.cordwright``, brought to the disk, and
then given its name: whatever happens meanwhile, there is the old file or the new one, never half.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import secrets
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from cordwright.bench.names import ENDINGS, NameError_, checked
from cordwright.errors import CordwrightError, Place
from cordwright.plan.yamltree import MOST_BYTES

OWN: Final = ".cordwright"
"""Folder in the maker's folder for what is being written, and for the history."""

PART: Final = ".part"


class FolderError(CordwrightError):
    """Something in the maker's folder cannot be read or written."""


class NoSuchPieceError(FolderError):
    """There is no file of that name."""


class ExistsError(FolderError):
    """There is a file of that name already."""


@dataclass(frozen=True, slots=True)
class Read:
    """A file's text as it was read.

    Args:
        text: all of it.
        digest: of its bytes.
        changed_at: seconds since 1970 at which it was changed.
    """

    text: str
    digest: str
    changed_at: float


def digest(text: str) -> str:
    """A fingerprint of a text as it stands in a file."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder of plan files.

    Args:
        path: where it is.
    """

    path: Path

    @property
    def own(self) -> Path:
        """Where the workbench keeps what is its own."""
        return self.path / OWN

    def prepare(self) -> None:
        """Make the folder if it is not there, and clear away what a killed program left half.

        Raises:
            FolderError: it cannot be made or used.
        """
        try:
            self.own.mkdir(parents=True, exist_ok=True)
            for left in self.own.glob(f"*{PART}"):
                left.unlink(missing_ok=True)
        except OSError as error:
            raise _failed(self.path, "used", error) from None

    def names(self) -> Iterator[str]:
        """Names of all pieces, sorted; files whose names no piece can have are passed over."""
        found = set()
        try:
            with os.scandir(self.path) as entries:
                for entry in entries:
                    path = Path(entry.name)
                    if path.suffix in ENDINGS and entry.is_file(follow_symlinks=False):
                        with contextlib.suppress(NameError_):
                            if self.file(path.stem).exists():  # its composed form, on strict disks
                                found.add(checked(path.stem))
        except OSError as error:
            raise _failed(self.path, "read", error) from None
        yield from sorted(found, key=lambda n: (n.casefold(), n))

    def file(self, name: str) -> Path:
        """The file of a piece, whether or not it is there.

        Raises:
            NameError_: no piece can have that name.
        """
        stem = checked(name)
        for ending in ENDINGS:
            path = self.path / f"{stem}{ending}"
            if path.exists() or path.is_symlink():
                return path
        return self.path / f"{stem}{ENDINGS[0]}"

    def read(self, name: str) -> Read:
        """The text of a piece.

        Raises:
            NoSuchPieceError: there is no such file.
            FolderError: it cannot be read, is no text in UTF-8, too large, or no plain file.
        """
        path = self.file(name)
        try:
            flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
            with os.fdopen(os.open(path, flags), "rb") as stream:
                about = os.fstat(stream.fileno())
                if not stat.S_ISREG(about.st_mode):
                    raise FolderError("This is no plain file.", place=Place(path.name))
                data = stream.read(MOST_BYTES + 1)
        except FileNotFoundError:
            raise NoSuchPieceError(
                f"There is no piece called '{name}'.",
                remedy="look at the list of pieces; it may have been deleted or renamed",
            ) from None
        except OSError as error:
            raise _failed(path, "read", error) from None
        if len(data) > MOST_BYTES:
            raise FolderError(
                f"'{path.name}' is larger than 1 MB.",
                remedy="use repeat and motifs; keep pictures and notes elsewhere",
            )
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            raise FolderError(
                f"'{path.name}' is not text in UTF-8 (byte {error.start + 1}).",
                remedy="save it as UTF-8 in your editor",
            ) from None
        return Read(text, hashlib.sha256(data).hexdigest(), about.st_mtime)

    def write(self, name: str, text: str, *, new: bool = False) -> None:
        """Write the text of a piece, whole or not at all.

        Args:
            name: of the piece.
            text: all of it.
            new: there must be no such file yet.

        Raises:
            ExistsError: ``new``, and there is one.
            FolderError: it cannot be written; then the old file stands as it was.
        """
        path = self.file(name)
        part = self.own / f"{secrets.token_hex(8)}{PART}"
        try:
            self._filled(part, text.encode("utf-8"), path)
            if new:
                _named_anew(part, path)
            else:
                part.replace(path)
            _to_disk(self.path)
        except FileExistsError:
            raise ExistsError(
                f"There is a piece called '{name}' already.", remedy="choose another name"
            ) from None
        except (OSError, UnicodeEncodeError) as error:
            raise _failed(path, "written", error) from None
        finally:
            with contextlib.suppress(OSError):
                part.unlink(missing_ok=True)

    def _filled(self, part: Path, data: bytes, like: Path) -> None:
        """A file with these bytes, on the disk, with the rights of the one it will replace."""
        with part.open("xb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        with contextlib.suppress(OSError):
            part.chmod(stat.S_IMODE(like.stat(follow_symlinks=False).st_mode))

    def remove(self, name: str) -> None:
        """Take the file of a piece away.

        Raises:
            FolderError: it cannot be.
        """
        path = self.file(name)
        try:
            path.unlink(missing_ok=True)
            _to_disk(self.path)
        except OSError as error:
            raise _failed(path, "deleted", error) from None


def _named_anew(part: Path, path: Path) -> None:
    """Give a file a name that must be free."""
    try:
        os.link(part, path)  # fails where the name is taken, in one step
    except FileExistsError:
        raise
    except OSError:  # a file system without links
        if path.exists():
            raise FileExistsError from None
        part.replace(path)


def _to_disk(folder: Path) -> None:
    """Bring a folder's list of names to the disk, where the system can."""
    flags = getattr(os, "O_DIRECTORY", None)
    if flags is None:  # Windows has no such thing
        return
    with contextlib.suppress(OSError):
        number = os.open(folder, os.O_RDONLY | flags)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def _failed(path: Path, what: str, error: Exception) -> FolderError:
    reason = getattr(error, "strerror", None) or str(error)
    return FolderError(
        f"'{path.name}' cannot be {what}: {reason}.",
        remedy="check the folder, its rights and whether the disk is full",
        place=Place(path.name),
    )
