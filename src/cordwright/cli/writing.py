"""Writing the files that commands make."""

from __future__ import annotations

from pathlib import Path

from cordwright.errors import CordwrightError, Place


def write_file(target: Path, data: bytes, remedy: str) -> None:
    """Write a file, its folder too if that is not there; what stood there before is replaced.

    Args:
        target: the file.
        data: what stands in it.
        remedy: what to try if it cannot be written.

    Raises:
        CordwrightError: it cannot be written.
    """
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        raise unwritable(target, error, remedy) from None


def unwritable(
    target: Path,
    error: Exception,
    remedy: str = "check the name, the directory and the disk",
) -> CordwrightError:
    """The error of a file that cannot be written."""
    reason = getattr(error, "strerror", None) or str(error)
    return CordwrightError(
        f"The file cannot be written: {reason}.", remedy=remedy, place=Place(str(target))
    )
