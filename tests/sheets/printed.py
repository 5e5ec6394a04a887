"""What is drawn and printed of the worked scenes, each made once for all tests of a process that look at it.

Tests may look at drawings and files as long as they like, and change neither.
"""

from __future__ import annotations

import atexit
import tempfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from unittest import mock

from aimcalc.paper.drawing import Drawing
from aimcalc.sheets import prep
from aimcalc.sheets.pieces import PIECES, SET, Piece
from aimcalc.sheets.plans.fall_plan import draw_fall_plan
from aimcalc.sheets.plans.gap_map import draw_gap_map
from aimcalc.sheets.plans.pool_plan import draw_plan
from aimcalc.sheets.plans.section import draw_sections
from aimcalc.text.stamp import PaperOptions
from tests.shows import a_show, rig_of


@cache
def plans(name: str, options: PaperOptions) -> list[Drawing]:
    """The pool plan."""
    return draw_plan(rig_of(name), options)


@cache
def falls(name: str, options: PaperOptions) -> list[Drawing]:
    """The fall plan."""
    return draw_fall_plan(rig_of(name), options)


@cache
def maps(name: str, options: PaperOptions) -> list[Drawing]:
    """The gap map."""
    return draw_gap_map(a_show(rig_of(name)), options)


@cache
def sections(name: str, options: PaperOptions) -> list[Drawing]:
    """The sections."""
    return draw_sections(rig_of(name), options)


@cache
def whole_set(name: str) -> tuple[Path, list[prep.Made]]:
    """All that `prep --reproducible` makes, drawn in one lane: its folder, and what was made."""
    return _made(name, SET)


@cache
def apart(name: str) -> tuple[Path, list[prep.Made]]:
    """The same of every piece, in files of its own."""
    return _made(name, PIECES)


def _made(name: str, pieces: Sequence[Piece]) -> tuple[Path, list[prep.Made]]:
    scratch = tempfile.TemporaryDirectory(prefix="aimcalc-set-")
    atexit.register(scratch.cleanup)
    folder, rig = Path(scratch.name) / "sheets", rig_of(name)
    with mock.patch.object(prep, "cores", return_value=1):
        made = prep.prepare(a_show(rig), str(folder), prep.options_for(rig), pieces)
    return folder, made
