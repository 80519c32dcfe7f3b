from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from cordwright.bench.folder import ExistsError, Folder, FolderError, NoSuchPieceError, digest


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    made = Folder(tmp_path / "plans")
    made.prepare()
    return made


def test_what_was_written_is_read(folder: Folder) -> None:
    folder.write("a b", "title: ü\r\n")
    read = folder.read("a b")
    assert read.text == "title: ü\r\n"
    assert read.digest == digest("title: ü\r\n")
    assert list(folder.names()) == ["a b"]
    assert [p.name for p in folder.own.iterdir()] == []


def test_a_new_file_never_takes_the_place_of_another(folder: Folder) -> None:
    folder.write("a", "one", new=True)
    with pytest.raises(ExistsError, match="already"):
        folder.write("a", "two", new=True)
    assert folder.read("a").text == "one"


def test_the_other_ending_is_known_and_kept(folder: Folder) -> None:
    (folder.path / "a.yml").write_text("one")
    folder.write("a", "two")
    assert (folder.path / "a.yml").read_text() == "two"
    assert not (folder.path / "a.yaml").exists()


@pytest.mark.skipif(os.name != "posix", reason="rights are others there")
def test_a_file_keeps_its_rights(folder: Folder) -> None:
    path = folder.path / "a.yaml"
    path.write_text("one")
    path.chmod(0o640)
    folder.write("a", "two")
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name != "posix", reason="links need rights there")
def test_links_are_neither_listed_nor_followed(folder: Folder, tmp_path: Path) -> None:
    secret = tmp_path / "secret.yaml"
    secret.write_text("secret")
    (folder.path / "a.yaml").symlink_to(secret)
    assert list(folder.names()) == []
    with pytest.raises(FolderError):
        folder.read("a")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are none")
def test_a_pipe_is_no_plan_and_is_not_waited_for(folder: Folder) -> None:
    os.mkfifo(folder.path / "a.yaml")
    with pytest.raises(FolderError, match="no plain file"):
        folder.read("a")


@pytest.mark.parametrize(("data", "part"), [(b"\xff\xfe", "UTF-8"), (b"x" * 1_000_001, "1 MB")])
def test_what_cannot_be_a_plan_is_said(folder: Folder, data: bytes, part: str) -> None:
    (folder.path / "a.yaml").write_bytes(data)
    with pytest.raises(FolderError, match=part):
        folder.read("a")


def test_what_is_not_there_is_said(folder: Folder) -> None:
    with pytest.raises(NoSuchPieceError, match="no piece called 'a'"):
        folder.read("a")
    folder.remove("a")


def test_what_a_killed_program_left_is_cleared_away(folder: Folder) -> None:
    left = folder.own / "0123.part"
    left.write_text("half")
    folder.prepare()
    assert not left.exists()


def test_a_folder_that_cannot_be_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(FolderError, match="cannot be used"):
        Folder(tmp_path / "file").prepare()
