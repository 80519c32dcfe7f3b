"""The example plans as lessons, made once."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from cordwright.hang.counted import as_worked, counted
from cordwright.piece.cutlist import cut_list
from cordwright.piece.work import work
from cordwright.teach.lesson import lesson_of
from tests.examples.conftest import ATLAS, NAMES, plan_of

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.teach.steps import Lesson

__all__ = ["NAMES", "lesson", "worked"]


@cache
def worked(name: str) -> Piece:
    return counted(as_worked(work(plan_of(name), ATLAS, record=True)))


@cache
def lesson(name: str, left_handed: bool = False) -> Lesson:
    piece = worked(name)
    return lesson_of(piece, cut_list(piece), left_handed=left_handed)
