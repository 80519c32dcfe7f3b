"""The fonts that the lesson page brings along."""

from __future__ import annotations

import io
import re
from functools import cache
from importlib.resources import files
from typing import Any

import pytest
from fontTools.ttLib import TTFont

from cordwright.teach.page import SCRIPTS
from cordwright.teach.pagewords import signs, words_of
from cordwright.teach.webfonts import FACES, LICENCE, Face, faces
from cordwright.teach.words import LANGUAGES, Words
from tools.cut_fonts import cut, licence

WEB = files("cordwright.teach") / "web"
FEW_BYTES = 120_000


def opened(face: Face) -> Any:
    return TTFont(io.BytesIO((WEB / "fonts" / face.file).read_bytes()))


@cache
def page_words() -> str:
    """Every word of the page's own, in every language and in both systems of units."""
    said = [Words(language, "both") for language in LANGUAGES]
    words = [w for s in said for w in (*words_of(s).values(), *signs(s).values())]
    catalogues = [p for p in (files("cordwright.teach") / "locale").iterdir() if p.is_dir()]
    words += [f.read_text(encoding="utf-8") for c in catalogues for f in c.iterdir()]
    return "".join(words)


@pytest.mark.parametrize("face", FACES, ids=lambda f: f.file)
def test_every_letter_of_the_pages_own_words_is_in_every_face(face: Face) -> None:
    shown = {chr(c) for c in opened(face).getBestCmap()}
    bare = {c for c in page_words() if c not in "\n\r\u2068\u2069\u200b"}
    assert bare - shown == set()
    assert set("0123456789½¼¾⅛⅜⅝⅞″→↓✓ÄÖÜäöüßÉÈÇéèçœŒñøåŁž") <= shown


@pytest.mark.parametrize("face", FACES, ids=lambda f: f.file)
def test_kept_fonts_are_as_they_are_cut(face: Face) -> None:
    kept, fresh = opened(face), TTFont(io.BytesIO(cut(face)))
    assert kept.flavor == "woff"
    assert kept.getBestCmap() == fresh.getBestCmap()
    assert kept["hmtx"].metrics == fresh["hmtx"].metrics
    assert "kern" in _features(kept)
    widths = {kept["hmtx"].metrics[kept.getBestCmap()[ord(c)]][0] for c in "0123456789"}
    assert len(widths) == 1  # figures stand one below the other in tables


def _features(font: Any) -> set[str]:
    records = (font[table].table.FeatureList.FeatureRecord for table in ("GPOS", "GSUB"))
    return {record.FeatureTag for found in records for record in found}


@pytest.mark.parametrize("face", FACES, ids=lambda f: f.file)
def test_changed_fonts_do_not_go_by_the_reserved_name(face: Face) -> None:
    names = {r.nameID: str(r) for r in opened(face)["name"].names}
    for shown in (1, 4, 6, 16):
        assert "Source" not in names.get(shown, "")
    assert "Adobe" in names[0]  # the copyright stays
    assert "Open Font License" in names[13]


def test_the_licence_stands_beside_the_fonts() -> None:
    kept = (WEB / "fonts" / LICENCE).read_text(encoding="utf-8")
    assert kept == licence()
    assert kept.count("Reserved Font Name 'Source'") == len({f.source[0] for f in FACES})


def test_the_style_has_every_face_and_is_small() -> None:
    style = faces()
    assert len(style) < FEW_BYTES
    assert len(re.findall(r"url\(", style)) == len(re.findall(r"url\(data:font/woff;", style)) == 3
    used = "".join((WEB / f"{n}.css").read_text(encoding="utf-8") for n in ("look", "parts"))
    assert all(f'"{face.family}"' in used for face in FACES)
    assert "italic" not in used  # no face of the page is


def test_scripts_make_no_letters_that_the_fonts_lack() -> None:
    shown = set.intersection(*({chr(c) for c in opened(f).getBestCmap()} for f in FACES))
    text = "".join((WEB / f"{s}.js").read_text(encoding="utf-8") for s in SCRIPTS)
    assert {c for c in text if ord(c) > 0x7F} - shown == set()
