"""Pieces drawn side by side: the same set as in one lane, one whole set or none whatever happens to a lane.

Every run is a process of its own: one that runs tests has threads, and is not forked.
"""

import json
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from aimcalc.sheets.pieces import PieceError
from aimcalc.text.whole import HIDDEN, mend
from tests.sheets.printed import whole_set

ROOT = Path(__file__).parents[2]
STUDIO = ROOT / "scenes" / "studio"
LONG = 60.0  # s, after which a run that hangs has failed
CALL = "from aimcalc.cli import main; main()"
LIBRARY = """
import json, os
os.environ["FIRST"] = str(os.getpid())
told = []
try:
    made = prep.prepare(show, FOLDER, prep.options_for(show.rig), pieces, told.append)
    print(json.dumps([[p.name for p in told], [[m.piece.name, m.pages] for m in made]]))
except Exception as error:
    print(json.dumps([type(error).__name__, str(error)]))
"""

OVERTAKEN = """
from aimcalc.sheets import lanes as of
def overtaken(lines, told=of._told):
    news = [*told(lines)]
    return iter([*((k, how) for k, how in reversed(news) if how == of.BEGUN), *news])
of._told = overtaken
"""  # the lane that took the last piece is always heard first

pytestmark = pytest.mark.skipif(
    sys.platform in ("win32", "darwin"), reason="there is one lane where no process can be forked"
)


def command(*arguments, lanes, code=CALL):
    """A call of `aimcalc`, or some lines of Python, that believes in so many cores."""
    believe = f"from aimcalc.sheets import prep; prep.cores = lambda: {lanes}"
    return [sys.executable, "-c", f"{believe}\n{code}", *map(str, arguments)]


def prepared(folder, *makers, lanes, light=(), before=""):
    """What `prepare` told and gave in a process of its own, of pieces that functions of this file make.

    `before` is run there first.
    """
    pieces = ", ".join(
        f'Piece("{maker}", ("{maker}.txt",), "tests.sheets.test_lanes:{maker}", {maker in light})'
        for maker in makers
    )
    lines = [
        "from aimcalc.sheets.pieces import Piece",
        "from aimcalc.show import Show",
        f"show = Show.read({str(STUDIO)!r})",
        f"pieces = [{pieces}]",
        f"FOLDER = {str(folder)!r}",
        before,
        LIBRARY,
    ]
    run = subprocess.run(
        command(lanes=lanes, code="\n".join(lines)),
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=LONG,
        check=True,
    )
    return json.loads(run.stdout)


def plain(show, stream, options):
    stream.write(b"plain\n")
    return 3


def first(show, stream, options):
    """Done only while `second` is at work too."""
    meet(stream, "first", "second")


def second(show, stream, options):
    meet(stream, "second", "first")


def meet(stream, own, other):
    stream.write(own.encode())
    stream.flush()
    deadline = time.monotonic() + LONG / 4
    while not (Path(stream.name).parent / f"{other}.txt").exists():
        assert time.monotonic() < deadline, f"{other} is not at work"
        time.sleep(0.01)


def says_who(show, stream, options):
    stream.write(b"%d" % os.getpid())


says_who_too = says_who


def full(show, stream, options):
    stream.write(b"half")
    raise OSError(28, "disk is full")


def impossible(show, stream, options):
    raise PieceError("This cannot be made. Do: something else.")


def killed(show, stream, options):
    """Done by the first process only: a lane is killed at it."""
    stream.write(b"half")
    stream.flush()
    if os.environ["FIRST"] != str(os.getpid()):
        os.kill(os.getpid(), signal.SIGKILL)
    stream.write(b" and whole\n")


def sleeps(show, stream, options):
    stream.write(b"half")
    stream.flush()
    time.sleep(LONG)


@pytest.mark.parametrize("lanes", [2, 5])
def test_lanes_give_the_bytes_of_one_in_another_process(tmp_path, lanes):
    one, _ = whole_set("studio")
    asked = ("-o", tmp_path, "--reproducible")
    call = command("prep", STUDIO, *asked, lanes=lanes)
    subprocess.run(call, cwd=ROOT, check=True, capture_output=True, timeout=2 * LONG)
    names = sorted(os.listdir(one))
    assert len(names) == 17
    assert sorted(os.listdir(tmp_path)) == names
    for name in names:
        assert (tmp_path / name).read_bytes() == (one / name).read_bytes(), name


def test_pieces_are_drawn_side_by_side(tmp_path):
    told, made = prepared(tmp_path / "out", "first", "second", "plain", lanes=2)
    assert told == [
        "first",
        "second",
        "plain",
    ]  # each once, as begun, by the process that was called
    assert made == [["first", None], ["second", None], ["plain", 3]]
    assert (tmp_path / "out" / "second.txt").read_bytes() == b"second"


def test_pieces_are_told_of_in_the_order_they_were_taken_whichever_lane_is_heard_first(tmp_path):
    makers = ("plain", "says_who", "says_who_too")
    told, _ = prepared(tmp_path, *makers, lanes=2, before=OVERTAKEN)
    assert told == [*makers]


def test_what_needs_the_light_is_drawn_by_one_lane(tmp_path):
    light = ("says_who", "says_who_too")
    prepared(tmp_path, "says_who", "plain", "says_who_too", lanes=3, light=light)
    assert (tmp_path / "says_who.txt").read_text() == (tmp_path / "says_who_too.txt").read_text()


@pytest.mark.parametrize("lanes", [1, 2])
@pytest.mark.parametrize(
    ("maker", "told"),
    [
        ("full", ["OSError", "[Errno 28] disk is full"]),
        ("impossible", ["PieceError", "This cannot be made. Do: something else."]),
    ],
)
def test_a_piece_that_fails_is_told_as_in_one_lane_and_nothing_is_left(
    tmp_path, lanes, maker, told
):
    assert prepared(tmp_path / "out", "plain", maker, "says_who", lanes=lanes) == told
    assert list(tmp_path.iterdir()) == []


def test_a_lane_that_is_killed_costs_nothing_but_time(tmp_path):
    told, made = prepared(tmp_path / "out", "killed", "plain", "says_who", lanes=2)
    assert sorted(told) == ["killed", "plain", "says_who"]
    assert [name for name, _ in made] == ["killed", "plain", "says_who"]
    assert (tmp_path / "out" / "killed.txt").read_bytes() == b"half and whole\n"
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def running(tmp_path):
    """A run of `prep` with a lane that is asleep over a half written file, and its processes."""
    asleep = "prep.PIECES[0]._replace(maker='tests.sheets.test_lanes:sleeps')"
    code = f"from aimcalc.cli import prep as of; of.chosen = lambda only: [{asleep}, *prep.PIECES[1:3]]\n"
    call = command("prep", STUDIO, "-o", tmp_path / "out", lanes=2, code=code + CALL)
    run = subprocess.Popen(call, cwd=ROOT, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL)
    deadline = time.monotonic() + LONG
    while not any(path.stat().st_size for path in tmp_path.glob(f".*{HIDDEN}*/new/aim-sheets.pdf")):
        assert time.monotonic() < deadline
        assert run.poll() is None
        time.sleep(0.01)
    return run, children_of(run.pid)


def children_of(process):
    return [
        int(found[1])
        for status in Path("/proc").glob("[0-9]*/stat")
        if (found := re.match(r"(\d+) \(.*\) \S (\d+) ", text_of(status)))
        and int(found[2]) == process
    ]


def text_of(path):
    try:
        return path.read_text()
    except OSError:
        return ""


def gone(processes):
    """Whether some processes end soon, or wait only to be forgotten."""
    deadline = time.monotonic() + LONG / 6
    while any(re.search(r"\) [^ZX] ", text_of(Path(f"/proc/{p}/stat"))) for p in processes):
        if time.monotonic() > deadline:
            return False
        time.sleep(0.01)
    return True


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks for processes in /proc")
@pytest.mark.parametrize(("number", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_ends_all_lanes_and_leaves_nothing(tmp_path, number, status):
    run, children = running(tmp_path)
    assert children
    run.send_signal(number)
    _, said = run.communicate(timeout=LONG)
    assert run.returncode == status
    assert said.count(b"Stopped.") == 1  # one process speaks
    assert b"Nothing was changed" in said
    assert gone(children)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks for processes in /proc")
def test_lanes_end_with_the_run_that_is_killed_and_its_folder_can_be_cleared(tmp_path):
    run, children = running(tmp_path)
    assert children
    run.send_signal(signal.SIGKILL)
    run.communicate(timeout=LONG)
    assert gone(children)
    mend(str(tmp_path / "out"))
    assert list(tmp_path.iterdir()) == []
