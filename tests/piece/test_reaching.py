from collections.abc import Callable
from typing import Any

import pytest

from cordwright.errors import WorkError
from cordwright.piece.model import Piece

Worked = Callable[..., Piece]
Mount = Callable[..., dict[str, Any]]

# strands 1 and 4 work: 64 mm a knot; 2 and 3 fill: 16 mm; the tail is 100 mm


def test_a_cord_that_reaches_is_accepted(worked: Worked, mount_of: Mount) -> None:
    work = [{"tie": "square-knot", "on": "1-4", "times": 5}]
    # in all 5 * (64 + 16) + 200 = 600; folded in the middle twice 420
    assert worked(work, mount=mount_of(2, cut="600 mm"))
    assert worked(work, mount=mount_of(2, cut="840 mm", fold="middle"))


@pytest.mark.parametrize(
    ("cut", "fold", "message"),
    [
        ("599 mm", "needed", r"Strand 1R runs out at its end \(tail\).*59.9 cm.*1 mm is missing"),
        ("839 mm", "middle", r"Strand 1L runs out at its end \(tail\).*83.9 cm.*1 mm is missing"),
        ("30 cm", "middle", r"Strand 1L runs out at knot 3, a square-knot.*30 cm, and 54 cm"),
        ("10 cm", "needed", r"Strand 1L runs out at knot 2, a square-knot.*10 cm, and 50 cm"),
    ],
)
def test_a_cord_that_runs_out_is_refused(
    worked: Worked, mount_of: Mount, cut: str, fold: str, message: str
) -> None:
    work = [{"tie": "square-knot", "on": "1-4", "times": 5}]
    with pytest.raises(WorkError, match=message):
        worked(work, mount=mount_of(2, cut=cut, fold=fold))


def test_unfolded_cords_run_out_too(worked: Worked, mount_of: Mount) -> None:
    mount = mount_of(4, {"nothing": {"tail": "2 cm"}}, cut="15 cm", fold="none")
    with pytest.raises(WorkError, match=r"Strand 1 runs out at knot 3"):
        worked([{"tie": "square-knot", "times": 5}], mount=mount)
