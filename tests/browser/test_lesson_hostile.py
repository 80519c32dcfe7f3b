"""Words of a plan are words on the page too: nothing in them runs, loads or becomes markup."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from cordwright.plan.read import read_plan
from cordwright.teach.editions import parse_editions
from cordwright.teach.page import page_html
from cordwright.teach.pagedata import Published, Sureness, page_data
from cordwright.teach.plaintext import plain_text
from cordwright.teach.publish import taught
from cordwright.teach.telling import tell
from cordwright.teach.words import Words
from tests.browser.lessons import blank_pictures
from tests.examples.conftest import ATLAS
from tests.teach.test_booklet_hostile import WORDS, plan_with

if TYPE_CHECKING:
    from pathlib import Path

    from tests.browser.conftest import Open

HOSTILE = {
    **WORDS,
    "end of script": "</script><script>globalThis.ran = 1</script><!--<script>",
    "end of title": "</title><img src=x onerror='globalThis.ran = 1'>",
    "attribute": '" onfocus="globalThis.ran = 1" autofocus x=\'',
    "address": "javascript:globalThis.ran=1 https://example.org/x.png",
    "places": "{n} {name} ${ran} %%data%% {{ran}}",
    "prototype": "__proto__ constructor toString",
    "lines": "one\u2028two\u2029three",
    "signs of ours": "\u27ecA\u27ed \ue0000\ue001",
}
ELEMENTS = """() => [...document.querySelectorAll("*")].map((e) =>
  [e.tagName, ...e.getAttributeNames().filter((n) => n.startsWith("on"))].join(" "))"""


def _page(words: str, path: Path) -> str:
    plan = read_plan(plan_with(words, path))
    edition = parse_editions([f"{words[:8].strip().replace(':', '')}: drop=30cm"], {}, {})
    said = Words("en")
    worked = taught(plan, ATLAS, edition, said, tell)
    published = Published(words[:200], words)
    return page_html(
        page_data(worked, blank_pictures([w.version for w in worked]), said, published, Sureness())
    )


@pytest.mark.parametrize("kind", list(HOSTILE))
def test_hostile_words_stay_words(open_page: Open, kind: str, tmp_path: Path) -> None:
    plain = open_page(_page("Plain", tmp_path)).evaluate(ELEMENTS)
    page = open_page(_page(HOSTILE[kind], tmp_path))
    assert page.evaluate(ELEMENTS) == plain  # not an element or listener more
    assert page.evaluate("globalThis.ran") is None
    words = plain_text(HOSTILE[kind].strip())
    squeezed = "".join(page.evaluate("document.body.textContent").split())
    assert "".join(words.split()) in squeezed
    assert page.title() == " ".join(plain_text(HOSTILE[kind].strip()[:120]).split())
    page.click("#along-start")
    page.keyboard.press("ArrowRight")
    assert page.evaluate("globalThis.ran") is None


def test_a_script_that_is_not_the_pages_own_does_not_run(open_page: Open, tmp_path: Path) -> None:
    """The policy holds by itself: markup that got in all the same is not run."""
    html = _page("Plain", tmp_path)
    injected = '<img src="data:," onerror="globalThis.ran = 1"><script>globalThis.ran = 2</script>'
    page = open_page("<!doctype html><title>x</title>")
    page.set_content(html.replace('<div id="page">', f'{injected}<div id="page">'))
    assert page.evaluate("globalThis.ran") is None
    assert page.locator("h1").inner_text() == "Plain"
    assert len(open_page.said) == 2
    assert all("Content Security Policy" in words for words in open_page.said)
    open_page.said.clear()


def test_the_policy_lets_nothing_be_loaded(tmp_path: Path) -> None:
    html = _page("Plain", tmp_path)
    policy = html.split('content="default-src', 1)[1].split('"', 1)[0]
    assert policy.startswith(" 'none';")
    assert "unsafe" not in policy
    assert "http" not in policy
    head = html.split('id="data"')[0].replace("url(data:font/woff;base64,", "")
    for outside in ("src=", "@import", "url(", "fetch(", "XMLHttpRequest", "innerHTML", "eval("):
        assert outside not in head, outside
    data = html.split('id="data">', 1)[1].split("</script>", 1)[0]
    assert "<" not in data
    assert json.loads(data)["title"] == "Plain"
