from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.bench.folder import Folder
from cordwright.bench.names import NameError_, checked


@pytest.mark.parametrize(
    "name", ["oxbow-planter", "Oxbow planter 2", "Näpfchen", "a", "x" * 80, "5"]
)
def test_plain_names_may_be(name: str) -> None:
    assert checked(name) == name


@pytest.mark.parametrize(
    "name",
    ["", " a", "a ", ".hidden", "~a", "a.", "..", ".", "a/b", "../a", "a\\b", "C:a", "a\0", "a\nb",
     "con", "COM1", "nul.x", "x" * 81, "ü" * 101, "a.yaml", "a.YML", "a\u202eb", "a\u200bb", "a?b"],
)  # fmt: skip
def test_other_names_are_refused(name: str) -> None:
    with pytest.raises(NameError_):
        checked(name)


def test_two_ways_of_writing_a_letter_are_one_name() -> None:
    assert checked("Na\u0308pfchen") == checked("N\u00e4pfchen")


@given(st.text(max_size=100) | st.text("./\\~:.. ab", max_size=12))
def test_no_name_leads_out_of_the_folder(name: str) -> None:
    try:
        path = Folder(Path("/plans")).file(name)
    except NameError_:
        return
    assert path.parent == Path("/plans")
    assert path.name not in ("", ".", "..")
    assert path.resolve().parent == Path("/plans").resolve()
