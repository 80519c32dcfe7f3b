"""The live channel, on a workbench that runs."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from websockets.exceptions import ConnectionClosed

from cordwright.bench import routes_live
from cordwright.bench.live import SERVER
from tests.bench.serving import PATIENCE_S, Page, heard


def keys_of(parts: bytes) -> set[str]:
    """What a scene's parts say that they are."""
    text: dict[str, Any] = json.loads(parts[20 : 20 + int.from_bytes(parts[12:16], "little")])
    return {str(value) for node in text["nodes"] for value in node["extras"].values()}


def keys_in(poses: dict[str, Any]) -> set[str]:
    """The parts that a scene needs."""
    looks = {skin["surface"] for skin in poses["skins"]}
    return {*poses["shapes"], *looks, *(thing["key"] for thing in poses["things"])}


def test_a_page_hears_numbers_then_pictures_then_loads(page: Page) -> None:
    document = page.begun("heard")
    with page.channel("heard") as channel:
        kinds = []
        while "hanging" not in kinds:
            message = SERVER.validate_json(channel.recv(PATIENCE_S))
            kinds.append(message.kind)
        told = [k for k in kinds if k != "progress"]
        assert told == ["document", "numbers", "picture", "hanging"]
        after = page.changed(document, do="set", path="tail", value="5 cm")
        assert heard(channel, "document")["document"] == after
        numbers = heard(channel, "numbers", revision=after["revision"])["numbers"]
        assert numbers == page.get("/api/pieces/heard/numbers").json()
        picture = heard(channel, "picture", revision=after["revision"])["picture"]
        for detail in ("low", "high"):
            glb = page.get(f"{picture['scene']}&detail={detail}").content
            assert keys_of(glb) >= keys_in(picture["poses"])
        assert set(picture["steps"]) <= set(picture["parts"])
        parts = [picture["parts"][p["path"]] for p in after["outline"]["parts"] if p["knots"]]
        assert all(p["top"] > p["bottom"] for p in parts)
        assert len(picture["knots"]) == numbers["cut"]["knots"]


def test_every_tab_hears_of_a_change_and_of_an_editor(page: Page, folder: Path) -> None:
    document = page.begun("both")
    with page.channel("both") as one, page.channel("both") as two:
        heard(one, "document")
        heard(two, "document")
        after = page.changed(document, do="set", path="tail", value="5 cm")
        for channel in (one, two):
            assert heard(channel, "document")["document"]["revision"] == after["revision"]
        path = folder / "both.yaml"
        path.write_text(path.read_text().replace("tail: 5 cm", "tail: 6 cm"))
        for channel in (one, two):
            assert "tail: 6 cm" in heard(channel, "document")["document"]["text"]
        page.delete("/api/pieces/both")
        for channel in (one, two):
            heard(channel, "gone")


def test_a_try_is_answered_and_not_kept(page: Page, folder: Path) -> None:
    document = page.begun("tried", "oxbow-planter")
    with page.channel("tried") as channel:
        numbers = heard(channel, "numbers")["numbers"]
        for i in range(5):
            change = {"do": "set", "path": "sizes.arm", "value": f"{30 + i} cm"}
            asked = {"kind": "try", "revision": document["revision"], "trying": i}
            channel.send(json.dumps({**asked, "changes": [change]}))
        tried = heard(channel, "numbers", trying=4)["numbers"]
        assert tried["cut"]["total_mm"] > numbers["cut"]["total_mm"]
        picture = heard(channel, "picture", trying=4)["picture"]
        parts = page.get(f"{picture['scene']}&detail=low").content
        assert keys_of(parts) >= keys_in(picture["poses"])
        wrong = {"do": "set", "path": "sizes.arm", "value": "9 m"}
        asked = {"kind": "try", "revision": document["revision"], "trying": 9}
        channel.send(json.dumps({**asked, "changes": [wrong]}))
        assert "at most" in heard(channel, "problem", trying=9)["problems"][0]["what"]
    assert page.get("/api/pieces/tried").json() == document
    assert (folder / "tried.yaml").read_text() == document["text"]


def test_what_is_dragged_on_and_on_is_seen_meanwhile(
    page: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(routes_live, "GRACE_S", 60.0)  # however slow this machine is
    document = page.begun("dragged", "oxbow-planter")
    with page.channel("dragged") as channel:
        heard(channel, "picture")
        for i in range(1, 200):  # faster than any can be worked out
            change = {"do": "set", "path": "sizes.arm", "value": f"{200 + i} mm"}
            asked = {"kind": "try", "revision": document["revision"], "trying": i}
            channel.send(json.dumps({**asked, "changes": [change]}))
        tried = [heard(channel, "numbers")["numbers"]["trying"]]
        while tried[-1] != 199:
            tried.append(heard(channel, "numbers")["numbers"]["trying"])
    assert 1 < len(tried) < 199  # the first and the last, and none for nothing
    assert tried == sorted(tried)


def test_a_change_that_is_refused_leaves_the_picture_as_it_is(page: Page) -> None:
    document = page.begun("refused", "tally-fob")
    with page.channel("refused") as channel:
        heard(channel, "hanging")
        wrong = {"do": "set", "path": "tail", "value": "five"}
        assert page.ask(document, "change", change=wrong).status_code == 422
        after = page.changed(document, do="set", path="tail", value="7 cm")
        picture = heard(channel, "picture")["picture"]
        assert picture["revision"] == after["revision"] == document["revision"] + 1


def test_what_takes_long_can_be_cancelled_and_begun_again(page: Page) -> None:
    page.begun("long", "oxbow-planter")
    with page.channel("long") as channel:
        heard(channel, "numbers")
        channel.send('{"kind": "cancel"}')
        channel.send('{"kind": "refresh"}')
        heard(channel, "picture")
        channel.send('{"kind": "cancel"}')
    assert page.get("/api/pieces/long").status_code == 200


@pytest.mark.parametrize(
    "sent", ["", "{", "[]", '{"kind": "try"}', '{"kind": "run"}', "x" * 150_000, b"\x00\x01"]
)
def test_a_channel_on_which_nonsense_is_said_is_closed(page: Page, sent: str | bytes) -> None:
    if page.get("/api/pieces/sense").status_code == 404:
        page.begun("sense")
    with page.channel("sense") as channel:
        channel.send(sent)
        with pytest.raises(ConnectionClosed):
            heard(channel, "anything")


def test_there_is_no_channel_to_what_is_not_there(page: Page) -> None:
    for name in ("nothing", "..", "%2e%2e%2fsecret"):
        with page.channel(name) as channel, pytest.raises(ConnectionClosed):
            channel.recv(PATIENCE_S)
