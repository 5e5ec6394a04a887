"""What the sheets of the work at the pipe add to a run that makes sheets anyway.

CPU time of this process and of its children, so that one clock serves both sides.
"""

from __future__ import annotations

import io
from importlib import import_module
from pathlib import Path

from aimcalc.scene.loading import load_scene
from aimcalc.sheets.pieces import chosen
from aimcalc.show import Show
from aimcalc.text.stamp import PaperOptions
from tests.benchmarks.cold import import_numpy, used

ROOT = Path(__file__).parents[2]
HANG = chosen("hang-sheets,hang-strip,pan-dial,plumb-card,test-sheet,counts")


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
