from __future__ import annotations

import pytest

from cordwright.cli.options import diameters, sizes
from cordwright.errors import UnitsError


def test_reads_names_and_values() -> None:
    assert diameters(["main=3mm", " fine = 1/8 in"]) == {"main": 3.0, "fine": 3.175}
    assert sizes(["arm=40cm", "rows=2 * 3", "drop=arm + 1 cm"]) == {
        "arm": "40cm",
        "rows": "2 * 3",
        "drop": "arm + 1 cm",
    }


@pytest.mark.parametrize("text", ["main", "main=", "=3mm", ""])
def test_wants_a_name_and_a_value(text: str) -> None:
    with pytest.raises(UnitsError) as raised:
        diameters([text])
    assert raised.value.remedy == "write it like --diameter main=3mm"


def test_says_which_option_is_wrong() -> None:
    with pytest.raises(UnitsError) as raised:
        diameters(["main=3"])
    assert str(raised.value.place) == "--diameter main=3"
    assert "no unit" in raised.value.what


def test_refuses_a_name_given_twice() -> None:
    with pytest.raises(UnitsError, match="twice"):
        sizes(["arm=40cm", "arm=50cm"])
