"""Files that a scene names stay in its folder, and are read whole or refused."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from aimcalc.scene.files import as_text, named_file, read_whole
from aimcalc.scene.mistakes import Wrong


def test_a_file_in_the_folder_or_below_is_found(tmp_path: Path) -> None:
    (tmp_path / "set").mkdir()
    (tmp_path / "set" / "wall.stl").write_text("solid")
    for name in ("set/wall.stl", "set\\wall.stl", "./set/wall.stl"):
        found = named_file(os.fspath(tmp_path), name, (".stl",))
        assert os.path.samefile(found, tmp_path / "set" / "wall.stl")


@pytest.mark.parametrize(
    "name",
    [
        *("/etc/passwd", "../out.stl", "set/../../out.stl", "..\\out.stl"),
        *("C:\\out.stl", "\\\\server\\out.stl", "file:out.stl"),
    ],
)
def test_a_path_that_leaves_the_folder_is_refused(tmp_path: Path, name: str) -> None:
    (tmp_path / "show").mkdir()
    (tmp_path / "out.stl").write_text("solid")
    with pytest.raises(Wrong, match="in the scene's folder or below"):
        named_file(os.fspath(tmp_path / "show"), name)


def test_a_link_that_leaves_the_folder_is_refused_and_one_inside_is_not(tmp_path: Path) -> None:
    show = tmp_path / "show"
    show.mkdir()
    (tmp_path / "out.stl").write_text("solid")
    (show / "in.stl").write_text("solid")
    (show / "out").symlink_to(tmp_path / "out.stl")
    (show / "up").symlink_to(tmp_path)
    (show / "link").symlink_to(show / "in.stl")
    for name in ("out", "up/out.stl"):
        with pytest.raises(Wrong, match="folder or below") as caught:
            named_file(os.fspath(show), name)
        assert "link" in caught.value.do
    assert named_file(os.fspath(show), "link") == os.path.realpath(show / "in.stl")


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(Wrong) as caught:
        named_file(os.fspath(tmp_path), "wall.stl")
    assert caught.value.came is not None
    assert '"wall.stl": no such file' in caught.value.came


def test_a_file_of_another_sort_is_refused(tmp_path: Path) -> None:
    (tmp_path / "wall.txt").write_text("solid")
    with pytest.raises(Wrong, match=r"ending in \.stl or \.obj"):
        named_file(os.fspath(tmp_path), "wall.txt", (".stl", ".obj"))
    (tmp_path / "folder.stl").mkdir()
    with pytest.raises(Wrong, match="a plain file"):
        named_file(os.fspath(tmp_path), "folder.stl")


def test_a_file_over_the_limit_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "big"
    with open(path, "wb") as file:
        file.truncate(50_000_000)  # a hole: reading is what would take the time
    with pytest.raises(Wrong, match="at most 3 MB") as caught:
        read_whole(os.fspath(path), 3)
    assert caught.value.came == "a file of 50.0 MB"


def test_a_pipe_that_would_wait_for_ever_is_refused(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "fifo")
    with pytest.raises(Wrong, match="a plain file"):
        read_whole(os.fspath(tmp_path / "fifo"), 1)


def test_a_file_one_may_not_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "locked"
    path.write_text("x")

    def denied(*args: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("builtins.open", denied)
    with pytest.raises(Wrong) as caught:
        read_whole(os.fspath(path), 1)
    assert caught.value.came == '"locked": permission denied'


def test_text_is_utf8_with_or_without_its_mark() -> None:
    assert as_text("Café".encode()) == "Café"
    assert as_text(b"\xef\xbb\xbf" + "Café".encode()) == "Café"


@pytest.mark.parametrize(
    ("data", "came"),
    [
        ("one\nCafé".encode("latin-1"), "byte 0xe9 in line 2, which is not UTF-8"),
        ("one".encode("utf-16"), "UTF-16"),
        (b"\x7fELF\x00\x01", "binary data"),
    ],
)
def test_what_is_no_text_is_refused_with_its_reason(data: bytes, came: str) -> None:
    with pytest.raises(Wrong, match="text in UTF-8") as caught:
        as_text(data)
    assert caught.value.came == came
