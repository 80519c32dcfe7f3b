"""The page of the format says what the reader does."""

import re
from pathlib import Path

from cordwright.plan.model import VERBS
from cordwright.plan.read import parse_plan
from cordwright.plan.wording import keys_of

PAGE = (Path(__file__).parents[2] / "docs" / "plan-format.md").read_text(encoding="utf-8")


def test_the_page_s_plan_reads() -> None:
    found = re.search(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    assert found
    plan = parse_plan(found[1].replace("[...]", "[{tie: overhand}]"))
    assert plan.title == "Fern cradle"


def test_the_page_names_every_verb_and_key() -> None:
    for verb, kind in VERBS.items():
        assert f"`{verb}" in PAGE
        for key in keys_of(kind):
            assert re.search(rf"`[^`]*\b{key}\b[^`]*`|^ *{key}:", PAGE, re.MULTILINE), key
