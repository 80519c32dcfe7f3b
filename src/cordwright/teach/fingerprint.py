"""A short sign that tells one version of a lesson from another, the same for the same lesson."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from typing import TYPE_CHECKING

from cordwright.teach.steps import plain

if TYPE_CHECKING:
    from cordwright.teach.steps import Lesson

LETTERS = 8


def fingerprint(lessons: Iterable[Lesson]) -> str:
    """Eight hexadecimal digits of the SHA-256 of everything in the lessons."""
    text = json.dumps([plain(lesson) for lesson in lessons], sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()[:LETTERS]
