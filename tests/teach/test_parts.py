"""The parts of one lesson agree with each other."""

from __future__ import annotations

import io
import json
import re

import pypdf
import pytest

from cordwright.teach import parts
from cordwright.teach.editions import parse_editions
from cordwright.teach.words import Words
from tests.examples.conftest import ATLAS, plan_of


@pytest.mark.parametrize("name", ["oxbow-planter", "cobble-belt"])
def test_steps_cover_and_page_tell_one_finished_length(name: str) -> None:
    words = Words()
    asked = parts.Asked(parse_editions([], {}, {}), words)
    made = parts.ready(plan_of(name), ATLAS, asked)
    tall = made.pictures().tall_mm[0]
    told = re.search(r"Finished length: ([^;]+);", parts.steps(made)["steps.md"].decode())
    assert told is not None
    assert told[1] == words.length(tall, about=True)
    cover = pypdf.PdfReader(io.BytesIO(parts.booklet(made)["booklet.pdf"])).pages[0]
    assert words.length(tall, about=True) in cover.extract_text()
    html = parts.page(made)["lesson.html"].decode()
    data = json.loads(html.split('id="data">', 1)[1].split("</script>", 1)[0])
    assert data["editions"][0]["hangs"] == tall
