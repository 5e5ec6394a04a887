"""Files appear whole or not at all, whatever happens on the way."""

import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from aimcalc.text.whole import HIDDEN, MixedError, mend, whole_set, write_whole

SET = ("a.txt", "b.txt", "c.txt", "d.txt")
posix = pytest.mark.skipif(os.name != "posix", reason="needs the signals and locks of POSIX")


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
from aimcalc.text.whole import whole_set
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


@posix
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


@posix
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


# --- old and new never mix -----------------------------------------------------------------------


@pytest.fixture
def out(tmp_path):
    """A folder with an old set of three files (d.txt is new to it) and a file of the user's own."""
    folder = tmp_path / "out"
    folder.mkdir()
    for name in SET[:3]:
        put(folder, name, "old")
    put(folder, "mine.txt", "my own notes")
    return folder


def is_old(folder):
    found = {name: (folder / name).read_text() for name in os.listdir(folder)}
    return found == {**dict.fromkeys(SET[:3], "old"), "mine.txt": "my own notes"}


def is_new(folder):
    found = {name: (folder / name).read_text() for name in os.listdir(folder)}
    return found == {**dict.fromkeys(SET, "new"), "mine.txt": "my own notes"}


def failing(monkeypatch, call, at):
    """The `at`-th call (from 0) of a function of `os` fails; the calls are noted."""
    usual, calls = getattr(os, call), []

    def fails(*arguments, **settings):
        calls.append(arguments)
        if len(calls) - 1 == at:
            raise PermissionError(1, "Operation not permitted", *arguments[:1])
        return usual(*arguments, **settings)

    monkeypatch.setattr(os, call, fails)
    return calls


@pytest.mark.parametrize(
    ("call", "at"),
    [
        *(("rename", at) for at in range(4)),  # the list of names, then three old files aside
        *(("replace", at) for at in range(4)),  # four new files in
    ],
)
def test_when_one_file_cannot_be_replaced_all_go_back(out, monkeypatch, call, at):
    calls = failing(monkeypatch, call, at)
    with pytest.raises(PermissionError):
        fill(out, dict.fromkeys(SET, "new"))
    assert len(calls) > at
    assert is_old(out)
    assert hidden_ones(out.parent) == []


def test_the_file_that_cannot_be_replaced_is_named_as_the_user_knows_it(out, monkeypatch):
    failing(monkeypatch, "replace", 2)
    with pytest.raises(PermissionError) as told:
        fill(out, dict.fromkeys(SET, "new"))
    assert told.value.filename == str(out / "c.txt")


@pytest.mark.skipif(shutil.which("chattr") is None, reason="needs files that cannot be moved")
def test_a_file_that_may_not_be_moved_stays_with_its_whole_set(out):
    if subprocess.run(["chattr", "+i", out / "b.txt"], capture_output=True).returncode:
        pytest.skip("this disk or this user has no immutable files")
    try:
        with pytest.raises(PermissionError):
            fill(out, dict.fromkeys(SET, "new"))
    finally:
        subprocess.run(["chattr", "-i", out / "b.txt"], check=True)
    assert is_old(out)
    assert hidden_ones(out.parent) == []


def test_what_cannot_be_put_back_is_kept_for_the_next_run(out, monkeypatch):
    usual = os.rename

    def fails(old, new):
        if new == str(out / "a.txt"):  # a.txt can be moved aside, but not back
            raise OSError(5, "Input/output error")
        usual(old, new)

    monkeypatch.setattr(os, "rename", fails)
    failing(monkeypatch, "replace", 1)
    with pytest.raises(MixedError) as told:
        fill(out, dict.fromkeys(SET, "new"))
    assert told.value.filename == str(out / "a.txt")
    assert (Path(told.value.hidden) / "old" / "a.txt").read_text() == "old"
    with pytest.raises(MixedError):
        mend(str(out))
    monkeypatch.undo()
    assert mend(str(out))
    assert is_old(out)
    assert hidden_ones(out.parent) == []
    assert not mend(str(out))


@posix
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("at", range(8))
def test_a_signal_between_two_moves_sends_all_back(out, monkeypatch, number, at):
    """A second one while all goes back does no harm; after the last move it is too late to go back."""
    moves = []

    def then_signal(usual):
        def moved(*arguments):
            usual(*arguments)
            moves.append(arguments)
            if len(moves) - 1 in (at, at + 1):
                signal.raise_signal(number)

        return moved

    for name in ("rename", "replace"):
        monkeypatch.setattr(os, name, then_signal(getattr(os, name)))

    def ends(number, frame):
        raise KeyboardInterrupt

    usual = signal.signal(number, ends)
    try:
        with pytest.raises(KeyboardInterrupt):
            fill(out, dict.fromkeys(SET, "new"))
    finally:
        signal.signal(number, usual)
    assert is_old(out)
    assert hidden_ones(out.parent) == []


@posix
def test_a_signal_after_the_last_move_leaves_the_new_set_and_says_so(out, monkeypatch):
    usual = os.unlink

    def unlinked(path):
        usual(path)
        signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(os, "unlink", unlinked)
    with pytest.raises(KeyboardInterrupt, match="in place"):
        fill(out, dict.fromkeys(SET, "new"))
    assert is_new(out)
    assert hidden_ones(out.parent) == []


KILLED_AT = """
import os, signal, sys
from aimcalc.text.whole import whole_set
left = [int(sys.argv[2])]
def then_killed(usual):
    def call(*arguments):
        if not left[0]:
            os.kill(os.getpid(), signal.SIGKILL)
        left[0] -= 1
        return usual(*arguments)
    return call
with whole_set(sys.argv[1]) as hidden:
    for name in ("a.txt", "b.txt", "c.txt", "d.txt"):
        with open(os.path.join(hidden, name), "w") as file:
            file.write("new")
    for name in ("mkdir", "rename", "replace", "unlink", "rmdir"):
        setattr(os, name, then_killed(getattr(os, name)))
"""


@posix
def test_killed_at_every_step_of_the_moves_the_next_run_puts_it_right(out):
    """What stands after a kill is never old beside new; then the old set is whole, or the new one."""
    ends = []
    for at in range(40):
        for name in (*SET, "mine.txt"):
            (out / name).unlink(missing_ok=True)
        for name in SET[:3]:
            put(out, name, "old")
        put(out, "mine.txt", "my own notes")
        run = subprocess.run([sys.executable, "-c", KILLED_AT, str(out), str(at)])
        mixed = {(out / name).read_text() for name in SET if (out / name).exists()}
        assert len(mixed) <= 1
        if run.returncode == 0:
            break
        told = mend(str(out))
        assert is_old(out) or is_new(out)
        assert told == (is_old(out) and at > 0)  # from when the names of the set are noted
        assert hidden_ones(out.parent) == []
        ends.append(is_new(out))
    assert at > 15
    assert ends == sorted(ends)  # old before the last move, new after it
    assert set(ends) == {False, True}


ENDED = """
import os, random, signal, sys, time
from aimcalc import cli
from aimcalc.text.whole import whole_set
folder, number, times = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
moments = random.Random(9)
def sets(arguments):
    try:
        os.write(on, b"on")
        for k in range(100000):
            with whole_set(folder) as hidden:
                for name in ("a.txt", "b.txt", "c.txt", "d.txt"):
                    with open(os.path.join(hidden, name), "w") as file:
                        file.write(f"{run} {k}")
    except KeyboardInterrupt:
        return 128 + number
cli.run = sets
for run in range(times):
    ready, on = os.pipe()
    child = os.fork()
    if not child:
        cli.main()
    os.read(ready, 2)
    time.sleep(moments.uniform(0.0, 0.02))
    os.kill(child, number)
    ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    print(ended, flush=True)
    sys.stdin.readline()
"""


@posix
@pytest.mark.parametrize(("number", "status"), [(signal.SIGKILL, -9), (signal.SIGTERM, 143)])
def test_ended_at_a_hundred_random_moments_there_is_one_whole_set(out, number, status):
    """Sets are made one after the other until the process is ended, a hundred times by each signal."""
    call = [sys.executable, "-c", ENDED, str(out), str(int(number)), "100"]
    with subprocess.Popen(call, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as runs:
        for _ in range(100):
            assert int(runs.stdout.readline()) == status
            if number == signal.SIGKILL:
                mend(str(out))
            assert hidden_ones(out.parent) == []
            assert (out / "mine.txt").read_text() == "my own notes"
            told = [(out / name).read_text() for name in SET if (out / name).exists()]
            assert told == ["old"] * 3 or told == told[:1] * 4
            runs.stdin.write("next\n")
            runs.stdin.flush()


def test_two_runs_at_once_do_not_mix(out):
    done = []

    def make(words):
        for _ in range(30):
            fill(out, dict.fromkeys(SET, words))
        done.append(words)

    runs = [threading.Thread(target=make, args=(words,)) for words in ("one", "two")]
    for run in runs:
        run.start()
    for run in runs:
        run.join()
    assert sorted(done) == ["one", "two"]
    assert len({(out / name).read_text() for name in SET}) == 1
    assert hidden_ones(out.parent) == []
