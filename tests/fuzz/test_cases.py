"""Every input that once broke a promise of the fuzz run; and that the run sees a promise broken."""

from __future__ import annotations

import subprocess
import sys

import pytest

from aimcalc import cli
from tests.fuzz import inputs
from tests.fuzz.__main__ import CASES

KEPT = sorted(path.parent.name for path in CASES.glob("*/calls.txt"))


def fuzz(*arguments):
    call = [sys.executable, "-m", "tests.fuzz", *arguments]
    return subprocess.run(call, capture_output=True, text=True, cwd=CASES.parents[2], check=False)


@pytest.mark.parametrize("name", KEPT)
def test_a_kept_case_breaks_no_promise(name):
    done = fuzz("--case", str(CASES / name))
    assert done.returncode == 0, done.stdout + done.stderr


PLANTED = """
import os, sys
from pathlib import Path
from aimcalc import cli
from tests.fuzz.__main__ import one
from tests.fuzz.inputs import Input, small
usual = cli.run
def run(arguments):
    out = arguments[arguments.index("-o") + 1]
    {fault}
cli.run = run
call = "prep SCENE -o OUT/set --only lists"
print(one(Input({{"scene.toml": small().encode()}}, (call,)), Path(sys.argv[1]) / "case"))
"""
FAULTS = {
    "return usual(arguments)": "[]",
    "return 3": "exit status 3",
    "raise RuntimeError('x')": "a traceback: RuntimeError: x",
    "import types; cli.commands = types.SimpleNamespace(main=len); return usual(arguments)": "TypeError",
    "open('../elsewhere', 'w'); return 0": "open writes outside the folder asked for",
    "open('secret.csv'); return 0": "open of a file outside the scene's folder",
    "os.mkdir(out); return 0": "the set is not whole",
    "os.mkdir(os.path.dirname(out) + '/.set.aimcalc-part-1'); return 0": "a hidden folder",
    "open(os.path.dirname(out) + '/a.csv', 'w').write('=1+1,2'); return 0": "a live formula in CSV",
    "open(os.path.dirname(out) + '/a.pdf', 'w').write('%PDF'); return 0": "a.pdf is cut off",
    "open('scene/scene.toml', 'a').write('x'); return 0": "the scene's own folder was changed",
    "print(chr(27)); return 0": "a control character",
    "b'0' * (4 << 30); return 0": "MemoryError",
    "os.kill(os.getpid(), 24)": "ended by SIGXCPU",
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_seen(fault, tmp_path):
    """Each fault stands for `aimcalc prep`; without one nothing is found."""
    call = [sys.executable, "-c", PLANTED.format(fault=fault), str(tmp_path)]
    told = subprocess.run(call, capture_output=True, text=True, cwd=CASES.parents[2], check=True)
    assert FAULTS[fault] in told.stdout


@pytest.mark.parametrize(("hang", "kind", "more"), [("", "", ""), ("h.csv", "k.ies", "m.stl")])
def test_the_small_scene_is_sound_before_it_is_spoilt(hang, kind, more, tmp_path):
    """A run of inputs that are all refused for one reason would promise nothing."""
    text = inputs.small(hang, f'[[solid]]\nname = "m"\nmesh = "{more}"\n' if more else "")
    text = inputs.with_photometry(text, kind) if kind else text
    (tmp_path / "scene.toml").write_text(text)
    (tmp_path / "h.csv").write_text("\n".join(inputs.ROWS))
    (tmp_path / "k.ies").write_text(inputs.LM63)
    (tmp_path / "m.stl").write_bytes(inputs.box_mesh("stl"))
    assert cli.run(["check", str(tmp_path)]) == 0
