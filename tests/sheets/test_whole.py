"""Files appear whole or not at all, whatever happens on the way."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from aimcalc.sheets.whole import HIDDEN, whole_set, write_whole


def put(folder, name, text):
    (Path(folder) / name).write_text(text)


def fill(folder, files, mishap=None):
    with whole_set(str(folder)) as hidden:
        for name, text in files.items():
            put(hidden, name, text)
        if mishap is not None:
            raise mishap


def hidden_ones(folder):
    return [p for p in folder.iterdir() if HIDDEN in p.name]


def test_a_new_folder_appears_with_all_its_files(tmp_path):
    with whole_set(str(tmp_path / "out")) as hidden:
        put(hidden, "a.txt", "a")
        assert not (tmp_path / "out").exists()
        put(hidden, "b.txt", "b")
    assert sorted(os.listdir(tmp_path / "out")) == ["a.txt", "b.txt"]
    assert hidden_ones(tmp_path) == []


def test_folders_above_a_new_one_are_made(tmp_path):
    with whole_set(str(tmp_path / "deep" / "er" / "out")) as hidden:
        put(hidden, "a.txt", "a")
    assert (tmp_path / "deep" / "er" / "out" / "a.txt").read_text() == "a"


def test_a_new_folder_has_the_permissions_of_any_other(tmp_path):
    with whole_set(str(tmp_path / "out")) as hidden:
        put(hidden, "a.txt", "a")
    (tmp_path / "plain").mkdir()
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_files_of_the_last_run_are_replaced_and_others_are_left(tmp_path):
    out = tmp_path / "out"
    out.mkdir()
    put(out, "a.txt", "old")
    put(out, "mine.txt", "my own notes")
    with whole_set(str(out)) as hidden:
        put(hidden, "a.txt", "new")
        assert (out / "a.txt").read_text() == "old"
    assert (out / "a.txt").read_text() == "new"
    assert (out / "mine.txt").read_text() == "my own notes"
    assert hidden_ones(tmp_path) == []


@pytest.mark.parametrize("mishap", [ValueError, KeyboardInterrupt, OSError])
def test_nothing_arrives_when_the_work_fails(tmp_path, mishap):
    out = tmp_path / "out"
    out.mkdir()
    put(out, "a.txt", "old")
    with pytest.raises(mishap):
        fill(out, {"a.txt": "half"}, mishap)
    assert (out / "a.txt").read_text() == "old"
    assert hidden_ones(tmp_path) == []


def test_no_folder_is_left_when_the_first_run_fails(tmp_path):
    with pytest.raises(ValueError, match="x"), whole_set(str(tmp_path / "out")):
        raise ValueError("x")
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_place_of_the_folder_is_refused(tmp_path):
    put(tmp_path, "out", "not a folder")
    with pytest.raises(NotADirectoryError, match="name a folder"), whole_set(str(tmp_path / "out")):
        pytest.fail("the work must not start")
    assert (tmp_path / "out").read_text() == "not a folder"


def test_a_folder_in_place_of_a_file_is_refused_before_anything_moves(tmp_path):
    out = tmp_path / "out"
    (out / "b.txt").mkdir(parents=True)
    put(out, "a.txt", "old")
    with pytest.raises(IsADirectoryError, match="move it away"):
        fill(out, {"a.txt": "new", "b.txt": "new"})
    assert (out / "a.txt").read_text() == "old"


def test_a_link_to_a_folder_is_followed(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    with whole_set(str(tmp_path / "link")) as hidden:
        put(hidden, "a.txt", "a")
    assert (tmp_path / "real" / "a.txt").read_text() == "a"
    assert (tmp_path / "link").is_symlink()


def test_one_file_is_written_whole(tmp_path):
    write_whole(str(tmp_path / "new" / "a.bin"), b"\x00\x01")
    assert (tmp_path / "new" / "a.bin").read_bytes() == b"\x00\x01"
    write_whole(str(tmp_path / "new" / "a.bin"), b"\x02")
    assert (tmp_path / "new" / "a.bin").read_bytes() == b"\x02"
    assert hidden_ones(tmp_path) == []


WRITER = """
import sys, time
from aimcalc.sheets.whole import whole_set
with whole_set(sys.argv[1]) as hidden:
    with open(hidden + "/a.txt", "w") as file:
        file.write("half of it")
        file.flush()
        print("writing", flush=True)
        time.sleep(60)
"""


def killed_while_writing(folder):
    with subprocess.Popen(
        [sys.executable, "-c", WRITER, str(folder)], stdout=subprocess.PIPE, text=True
    ) as run:
        assert run.stdout.readline() == "writing\n"
        run.send_signal(signal.SIGKILL)


@pytest.mark.skipif(os.name != "posix", reason="needs a kill that cannot be caught")
@pytest.mark.parametrize("exists", [True, False])
def test_a_killed_run_leaves_no_half_file_and_the_next_run_clears_up(tmp_path, exists):
    out = tmp_path / "out"
    if exists:
        out.mkdir()
        put(out, "a.txt", "old")
    killed_while_writing(out)
    assert (out / "a.txt").read_text() == "old" if exists else not out.exists()
    assert len(hidden_ones(tmp_path)) == 1
    with whole_set(str(out)) as hidden:
        put(hidden, "a.txt", "new")
    assert (out / "a.txt").read_text() == "new"
    assert hidden_ones(tmp_path) == []


@pytest.mark.skipif(os.name != "posix", reason="locks are those of POSIX")
def test_a_run_at_work_is_not_cleared_away_by_another(tmp_path):
    out = tmp_path / "out"
    with whole_set(str(out)) as first:
        put(first, "a.txt", "first")
        with whole_set(str(out)) as second:
            put(second, "b.txt", "second")
        assert (Path(first) / "a.txt").exists()
    assert sorted(os.listdir(out)) == ["a.txt", "b.txt"]


def test_the_folder_is_never_seen_half_filled(tmp_path):
    """A watcher that lists the folder all the time sees it absent or complete."""
    out = tmp_path / "out"
    watch = (
        "import os, sys, time\nseen = set()\nprint('on', flush=True)\n"
        "end = time.monotonic() + 20\n"
        "while 5 not in seen and time.monotonic() < end:\n"
        "    seen.add(len(os.listdir(sys.argv[1])) if os.path.exists(sys.argv[1]) else 0)\n"
        "print(sorted(seen))\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", watch, str(out)], stdout=subprocess.PIPE, text=True
    ) as run:
        assert run.stdout.readline() == "on\n"
        time.sleep(0.02)
        with whole_set(str(out)) as hidden:
            for name in "abcde":
                put(hidden, name, name * 1000)
        assert run.stdout.readline() == "[0, 5]\n"
