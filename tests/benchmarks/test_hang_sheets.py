"""What the sheets of the work at the pipe add to a run that makes sheets anyway.

CPU time of this process and of its children, so that one clock serves both sides.
"""

from __future__ import annotations

import io
import resource
import subprocess
import sys
from importlib import import_module
from pathlib import Path

from aimcalc.scene.loading import load_scene
from aimcalc.sheets.pieces import chosen
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions

ROOT = Path(__file__).parents[2]
HANG = chosen("hang-sheets,hang-strip,pan-dial,plumb-card,test-sheet,counts")


def used() -> float:
    """Seconds of CPU so far."""
    both = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(usage.ru_utime + usage.ru_stime for usage in both)


def import_numpy() -> None:
    subprocess.run([sys.executable, "-c", "import numpy"], check=True)


def test_all_of_the_hang_of_the_playhouse_in_two_imports(ratios):
    scene = load_scene(ROOT / "scenes" / "playhouse")

    def make() -> None:
        show = Show(scene)
        show.findings = []  # that takes its own time
        for piece in HANG:
            module, function = piece.maker.split(":")
            streams = [io.BytesIO() for _ in piece.files]
            options = PaperOptions(paper="letter", length="ft")
            getattr(import_module(module), function)(show, *streams, options)

    ratios(
        "hang sheets, strip, dial, card, lists: playhouse", make, import_numpy, bar=2.0, clock=used
    )
