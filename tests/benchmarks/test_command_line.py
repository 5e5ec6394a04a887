"""How long a command takes from a cold start, in units of a bare `import numpy` in the same run."""

import resource
import subprocess
import sys
import time
from functools import partial
from pathlib import Path
from tempfile import gettempdir

import pytest

PLAYHOUSE = str(Path(__file__).parents[2] / "scenes" / "playhouse")
ENTRY = [sys.executable, "-c", "from aimcalc.cli import main; main()"]


def process(*command):
    """A whole process from its start to its end, as something to be timed.

    It runs elsewhere, so that the package as installed is timed and not its sources, compiled each time.
    """
    return partial(subprocess.run, command, cwd=gettempdir(), check=True, capture_output=True)


FLOOR = process(sys.executable, "-c", "import numpy")


@pytest.mark.parametrize(
    ("arguments", "bar"),
    [
        (["--help"], 0.7),
        (["keys"], 0.8),
        (["solve", PLAYHOUSE], 2.0),  # all but the rays
        (["solve", PLAYHOUSE, "--json"], 2.0),  # and the solids: 78 bodies, 39,000 rays
        (["check", PLAYHOUSE], 2.0),  # and the work at the pipe
    ],
)
def test_a_command_starts_quickly(arguments, bar, ratios):
    words = " ".join(arguments).replace(PLAYHOUSE, "playhouse")
    ratios(f"cold: aimcalc {words} / import numpy", process(*ENTRY, *arguments), FLOOR, bar=bar)


def used() -> float:
    """Seconds of CPU of the processes that have ended."""
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


@pytest.mark.parametrize(
    ("only", "clock", "bar"),
    [
        ("section,lists", used, 6),
        ("aim-sheets,cards,plan,lists", used, 16),  # what the crew aims by
        (None, used, 18),  # and the hang and the light
        (None, time.perf_counter, 18),  # the same by the clock on the wall, a lane to a core
    ],
)
def test_the_sheets_of_the_playhouse_are_made_in_few_imports(tmp_path, ratios, only, clock, bar):
    pieces = [] if only is None else ["--only", only]
    made = process(*ENTRY, "prep", PLAYHOUSE, "-o", str(tmp_path / "out"), *pieces)
    of = "CPU" if clock is used else "wall"
    name = f"cold: aimcalc prep playhouse, {only or 'all pieces'} / import numpy, {of}"
    ratios(name, made, FLOOR, bar=bar, rounds=3, clock=clock)
