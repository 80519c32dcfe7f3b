"""The doors, on a workbench that runs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import trimesh

from cordwright.bench.models import Conflict, Document, Hanging, History, Numbers, Pieces, Trouble
from cordwright.plan.layout import layout

if TYPE_CHECKING:
    from tests.bench.serving import Page


def test_a_new_piece_is_a_file_in_the_folder(page: Page, folder: Path) -> None:
    document = Document.model_validate(page.begun("first"))
    assert document.good
    assert (folder / "first.yaml").read_text() == document.text
    listed = Pieces.model_validate(page.get("/api/pieces").json())
    card = next(c for c in listed.pieces if c.name == "first")
    assert (card.title, card.revision) == (document.title, document.revision)
    assert len(listed.examples) >= 12
    assert all(e.about for e in listed.examples)


@pytest.mark.parametrize("mount", ["ring", "rod", "cord", "nothing"])
def test_a_bare_mount_can_be_worked(page: Page, mount: str) -> None:
    begin = {"kind": "blank", "mount": mount, "cords": 6}
    answer = page.post("/api/pieces", json={"name": f"bare {mount}", "begin": begin})
    document = Document.model_validate(answer.json())
    assert document.good, document.problems
    assert document.outline is not None
    assert document.outline.title == f"bare {mount}"
    assert document.outline.mount.kind == mount
    numbers = Numbers.model_validate(page.get(f"/api/pieces/bare {mount}/numbers").json())
    assert sum(c.count for c in numbers.cut.cords) >= 6


def test_a_copy_and_a_text_are_pieces_of_their_own(page: Page) -> None:
    first = page.begun("model")
    copied = page.post(
        "/api/pieces", json={"name": "its copy", "begin": {"kind": "copy", "piece": "model"}}
    ).json()
    assert copied["text"] == first["text"]
    begin = {"kind": "text", "text": "no plan: at all"}
    bad = page.post("/api/pieces", json={"name": "no plan", "begin": begin}).json()
    assert (bad["good"], bad["good_revision"], bad["outline"]) == (False, None, None)
    assert bad["problems"][0]["line"] == 1
    answer = page.get("/api/pieces/no plan/numbers")
    assert (answer.status_code, Trouble.model_validate(answer.json()).what[:8]) == (422, "No state")


def test_a_change_is_made_in_the_text_and_shown_in_the_outline(page: Page) -> None:
    document = page.begun("changed", "oxbow-planter")
    after = page.changed(document, do="set", path="sizes.arm", value="20 cm")
    assert after["revision"] == document["revision"] + 1
    assert after["text"] == document["text"].replace("arm: {value: 18 cm", "arm: {value: 20 cm")
    arm = next(s for s in after["outline"]["sizes"] if s["name"] == "arm")
    assert (arm["text"], arm["number"], arm["least"], arm["most"]) == ("20 cm", 200, 50, 500)
    sections = [p["name"] for p in after["outline"]["parts"]]
    assert sections == ["Crown", "Arms", "Basket", "Foot"]
    moved = page.changed(after, do="move", path="work.1", to="work", index=2)
    assert [p["name"] for p in moved["outline"]["parts"]][1:3] == ["Basket", "Arms"]
    assert [v["path"] for v in moved["outline"]["parts"][2]["parts"][0]["values"]][:2] == [
        "work.2.work.0.tie", "work.2.work.0.each"
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"do": "mount", "mount": {"rod": {"length": "40 cm", "thick": "2 cm"}}}, "mount.rod"),
        ({"do": "holds", "holds": None}, ""),
        (
            {"do": "holds", "holds": {"sphere": {"across": "15 cm", "weight": "500 g"}}},
            "hang.holds.sphere",
        ),
        (
            {"do": "cord", "name": "main", "cord": {"fibre": "jute", "diameter": "5 mm"}},
            "cords.main",
        ),
        ({"do": "remove", "path": "work.3.work.2"}, ""),
        ({"do": "copy", "path": "work.1", "to": "work", "index": 2}, "work.2"),
        ({"do": "add", "path": "work", "index": 4, "value": {"free": "2 cm"}}, "work.4"),
        (
            {"do": "several", "changes": [
                {"do": "set", "path": "sizes.knots", "value": 7},
                {"do": "set", "path": "sizes.spiral", "value": 9},
            ]},
            "sizes.spiral",
        ),
    ],
    ids=lambda x: x["do"] if isinstance(x, dict) else x,
)  # fmt: skip
def test_every_kind_of_change_can_be_made_and_undone(
    page: Page, change: dict[str, Any], path: str, request: pytest.FixtureRequest
) -> None:
    name = f"kind {abs(hash(request.node.name))}"
    document = page.begun(name, "oxbow-planter")
    after = page.changed(document, **change)
    assert after["text"] != document["text"]
    if path:
        layout(after["text"]).node(tuple(int(p) if p.isdecimal() else p for p in path.split(".")))
    undone = page.ask(after, "undo").json()
    assert undone["text"] == document["text"]
    assert page.ask(undone, "redo").json()["text"] == after["text"]


def test_two_tabs_do_not_write_over_each_other(page: Page) -> None:
    document = page.begun("tabs", "oxbow-planter")
    after = page.changed(document, do="set", path="sizes.arm", value="20 cm")
    for door, body in (
        ("change", {"change": {"do": "set", "path": "sizes.arm", "value": "30 cm"}}),
        ("text", {"text": "mine"}),
        ("undo", {}),
        ("redo", {}),
        ("restore", {"to": 1}),
    ):
        answer = page.ask(document, door, **body)
        assert answer.status_code == 409
        assert Conflict.model_validate(answer.json()).document.text == after["text"]


def test_what_an_editor_saved_is_taken_over(page: Page, folder: Path) -> None:
    document = page.begun("edited", "oxbow-planter")
    path = folder / "edited.yaml"
    path.write_text(path.read_text().replace("value: 18 cm", "value: 25 cm"))
    answer = page.ask(document, "change", change={"do": "set", "path": "tail", "value": "9 cm"})
    assert answer.status_code == 409
    now = answer.json()["document"]
    assert "value: 25 cm" in now["text"]
    states = History.model_validate(page.get("/api/pieces/edited/history").json()).states
    assert [s.what for s in states] == ["Changed in another program", "Begun from oxbow-planter"]
    assert [s.present for s in states] == [True, False]


def test_a_broken_text_is_kept_and_the_last_good_state_is_shown(page: Page, folder: Path) -> None:
    document = page.begun("broken")
    text = document["text"].replace("tie: square-knot", "tie: squere-knot", 1)
    assert text != document["text"]
    after = page.ask(document, "text", text=text).json()
    assert (folder / "broken.yaml").read_text() == text
    assert (after["good"], after["good_revision"]) == (False, document["revision"])
    assert after["outline"] == document["outline"]
    problem = after["problems"][0]
    line = text.splitlines()[problem["line"] - 1]
    assert "squere" in line
    assert "square-knot" in problem["remedy"]
    assert page.get("/api/pieces/broken/numbers").json()["revision"] == document["revision"]


def test_a_plan_that_cannot_be_worked_is_kept_and_told(page: Page) -> None:
    document = page.begun("too many", "oxbow-planter")
    after = page.changed(document, do="set", path="work.1.work.0.each", value=40)
    assert not after["good"]
    problem = after["problems"][0]
    assert problem["level"] == "error"
    assert problem["path"].startswith("work.1.work.0")


@pytest.mark.parametrize(
    ("change", "part"),
    [
        ({"do": "set", "path": "sizes.arm", "value": "9 m"}, "at most"),
        ({"do": "set", "path": "sizes.arm", "value": "long"}, "not a name"),
        ({"do": "set", "path": "work.99.each", "value": 1}, "nothing at"),
        ({"do": "add", "path": "work", "index": 0, "value": {"weave": 3}}, "."),
        ({"do": "move", "path": "work.0", "to": "work", "index": 50}, "no place"),
        ({"do": "mount", "mount": {"cloud": {}}}, "cloud"),
        ({"do": "cord", "name": "a.b", "cord": {}}, "name"),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(
    page: Page, change: dict[str, Any], part: str
) -> None:
    name = "refusing"
    found = page.get(f"/api/pieces/{name}")
    document = found.json() if found.status_code == 200 else page.begun(name, "oxbow-planter")
    answer = page.ask(document, "change", change=change)
    assert answer.status_code == 422
    trouble = Trouble.model_validate(answer.json())
    assert part in trouble.what + trouble.remedy
    assert trouble.problems
    assert page.get(f"/api/pieces/{name}").json() == document


def test_a_deleted_piece_comes_back_with_its_history(page: Page, folder: Path) -> None:
    document = page.begun("passing")
    assert page.delete("/api/pieces/passing").status_code == 204
    assert not (folder / "passing.yaml").exists()
    assert page.get("/api/pieces/passing").status_code == 404
    listed = page.get("/api/pieces").json()
    card = next(c for c in listed["deleted"] if c["name"] == "passing")
    back = page.post("/api/pieces/passing/restore", json={"revision": None, "to": card["revision"]})
    assert back.json()["text"] == document["text"]
    assert page.get("/api/pieces/passing/history/1").text == document["text"]
    assert page.get("/api/pieces/passing/history/99").status_code == 404


def test_pictures_are_of_the_piece(page: Page) -> None:
    document = page.begun("seen")
    for detail in ("low", "high"):
        answer = page.get(f"/api/pieces/seen/scene.glb?detail={detail}")
        assert answer.headers["content-type"] == "model/gltf-binary"
        with_knots = trimesh.load(trimesh.util.wrap_as_stream(answer.content), file_type="glb")
        assert isinstance(with_knots, trimesh.Scene)
        knots = sum(p["knots"] for p in document["outline"]["parts"])
        named = [n for n in with_knots.graph.nodes if str(n).startswith("knot ")]
        assert len(named) >= knots > 0
    assert page.get("/api/pieces/seen/scene.glb?revision=77").status_code == 409
    for path in ("picture.svg", "chart.svg", "strand/1L", "picture.svg?units=inch"):
        answer = page.get(f"/api/pieces/seen/{path}")
        assert answer.headers["content-type"].startswith("image/svg+xml")
        assert answer.text.startswith(("<svg", "<?xml"))
        assert "sandbox" in answer.headers["content-security-policy"]
    answer = page.get("/api/pieces/seen/strand/99R")
    assert (answer.status_code, "99R" in answer.json()["what"]) == (422, True)
    hanging = Hanging.model_validate(page.get("/api/pieces/seen/hanging").json())
    assert hanging.load is not None or hanging.problems


@pytest.mark.parametrize(
    "name",
    ["..", "../secret", "..%2fsecret", "%2e%2e%2fsecret", "a/../../secret", "..%5csecret",
     "%00", "con", ".cordwright", "x" * 200, "%2fetc%2fpasswd", "a%0ab"],
)  # fmt: skip
def test_no_name_leads_out_of_the_folder(page: Page, folder: Path, name: str) -> None:
    (folder.parent / "secret.yaml").write_text("title: secret")
    for method, end in (("GET", ""), ("DELETE", ""), ("GET", "/numbers"), ("GET", "/history")):
        answer = page.request(method, f"/api/pieces/{name}{end}")
        assert answer.status_code in (400, 404, 405, 422)
        assert "title: secret" not in answer.text
    assert (folder.parent / "secret.yaml").exists()


@pytest.mark.parametrize(
    ("body", "status"),
    [(b"{", 400), (b"", 422), (b"[]", 422), (b'{"revision": 1}', 422),
     (b'{"revision": 0, "change": {"do": "set", "path": "a", "value": 1}}', 422),
     (b'{"revision": 1, "change": {"do": "rm", "path": "a"}}', 422),
     (b'{"revision": 1, "change": {"do": "set", "path": "a", "value": 1, "x": 1}}', 422),
     (b'{"revision": 1e99, "change": {"do": "undo"}}', 422),
     (b'\xff\xfe', 400), (b'{"a":' * 5000, 400)],
)  # fmt: skip
def test_what_is_no_request_is_told_in_one_form(page: Page, body: bytes, status: int) -> None:
    kind = {"Content-Type": "application/json"}
    answer = page.post("/api/pieces/first/change", content=body, headers=kind)
    assert answer.status_code == status, answer.text
    Trouble.model_validate(answer.json())


def test_the_page_is_given_out_and_nothing_beside_it(page: Page) -> None:
    assert page.get("/").status_code in (200, 503)  # 503: it is not built here, and says so
    assert page.get("/fonts/SourceSansPro-Regular.ttf").headers["content-type"] == "font/ttf"
    icon = page.get("/favicon.ico")  # browsers ask for it unasked
    assert icon.status_code == page.get("/icon.svg").status_code
    for path in ("/../app.py", "/%2e%2e/app.py", "/fonts/../pagefiles.py", "/docs", "/openapi.json",
                 "/fonts/", "//etc/passwd"):  # fmt: skip
        assert page.get(path).status_code == 404


def test_changes_one_after_the_other_all_count(page: Page) -> None:
    document = page.begun("busy")
    for i in range(20):
        document = page.changed(document, do="set", path="tail", value=f"{i + 3} cm")
    assert "tail: 22 cm" in document["text"]
