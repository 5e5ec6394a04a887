"""How long a command takes from a cold start, in units of a bare `import numpy` in the same run."""

import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLAYHOUSE = "scenes/playhouse"
ENTRY = [sys.executable, "-c", "from aimcalc.cli import main; main()"]


def process(*command):
    """A whole process from its start to its end, as something to be timed."""
    return partial(subprocess.run, command, cwd=ROOT, check=True, capture_output=True)


FLOOR = process(sys.executable, "-c", "import numpy")


@pytest.mark.parametrize(
    ("arguments", "bar"),
    [
        (["--help"], 0.7),
        (["check", PLAYHOUSE], 2.0),
        (["solve", PLAYHOUSE], 2.0),
        (["solve", PLAYHOUSE, "--json"], 2.0),
    ],
)
def test_a_command_starts_quickly(arguments, bar, ratios):
    ratios(f"cold: aimcalc {' '.join(arguments)}", process(*ENTRY, *arguments), FLOOR, bar=bar)


def test_all_sheets_of_the_playhouse_are_made_in_twenty_imports(tmp_path, ratios):
    made = process(*ENTRY, "prep", PLAYHOUSE, "-o", str(tmp_path / "out"))
    ratios("cold: aimcalc prep scenes/playhouse, all pieces", made, FLOOR, bar=20, rounds=3)
