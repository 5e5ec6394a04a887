"""How long a command takes from a cold start, in units of a bare `import numpy` in the same run.

Processes are timed by turns, and the quickest of each kind counts: what else the machine does can only
make a run slower.
"""

import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLAYHOUSE = "scenes/playhouse"
ENTRY = [sys.executable, "-c", "from aimcalc.cli import main; main()"]
FLOOR = [sys.executable, "-c", "import numpy"]


def seconds(command):
    start = time.perf_counter()
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return time.perf_counter() - start


def ratio(command, turns):
    """Time of a command over that of the floor, the quickest of `turns` each."""
    seconds(command)  # its modules are compiled once
    times = [(seconds(FLOOR), seconds(command)) for _ in range(turns)]
    floor, taken = (min(column) for column in zip(*times, strict=True))
    return taken / floor


@pytest.mark.parametrize(
    ("arguments", "bar"),
    [
        (["--help"], 0.7),
        (["check", PLAYHOUSE], 2.0),
        (["solve", PLAYHOUSE], 2.0),
        (["solve", PLAYHOUSE, "--json"], 2.0),
    ],
)
def test_a_command_starts_quickly(arguments, bar):
    assert ratio(ENTRY + arguments, turns=9) <= bar


def test_all_sheets_of_the_playhouse_are_made_in_twenty_imports(tmp_path):
    assert ratio([*ENTRY, "prep", PLAYHOUSE, "-o", str(tmp_path / "out")], turns=3) <= 20
