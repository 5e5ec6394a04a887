"""Where the light falls: the pool plan's pages with each field's true outline on whatever it falls on.

On a platform the outline is drawn at the platform's height, on a riser, a wall or a cloth along its foot.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.vectors import Array
from aimcalc.paper.drawing import Dash, Drawing
from aimcalc.paper.drawpdf import write_drawings
from aimcalc.paper.plancanvas import Canvas
from aimcalc.sheets.plans.plandraw import runs_up
from aimcalc.sheets.plans.pool_plan import Look, draw_plan
from aimcalc.solid.light_fall import LightFall, light_falls
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


ON_LEVEL, UP_A_WALL = 1.75, 3.0  # pt, thicker than all else on the page
SHEET = "where light falls"
MOST_FALLS = 5  # units on a page: more outlines cannot be told apart
LINES: tuple[tuple[str, float, Dash], ...] = (
    ("field's edge", ON_LEVEL, "solid"),
    ("up a wall", UP_A_WALL, "solid"),
)
TOLD = (
    "Seen from above. The field's edge on what it falls on: deck, platform, scenery. The axis stops at "
    "LANDS, or ON something upright."
)
NOT_KNOWN = "Where light falls is not known: the library embreex is not installed."


def fall_plan(show: Show, pdf: BinaryIO, options: PaperOptions) -> int:
    """Number of pages: a page a system, as the pool plan has them, fewer units on each."""
    rig = show.rig
    return write_drawings(rig, SHEET, draw_fall_plan(rig, options), options, pdf)


def draw_fall_plan(rig: SolidRig, options: PaperOptions) -> list[Drawing]:
    """One drawing per system; without the library for rays they say that nobody knows."""
    try:
        found, told = light_falls(rig), TOLD
    except NoRayEngineError:
        found, told = [], NOT_KNOWN
    pieces: dict[int, list[LightFall]] = {}
    for fall in found:
        pieces.setdefault(fall.unit, []).append(fall)

    def light(inside: Canvas, k: int) -> list[Array]:
        drawn = []
        for line in map(outline_of, pieces.get(k, ())):
            runs = inside.line(line, UP_A_WALL if runs_up(line) else ON_LEVEL)
            drawn += [run.points for run in runs]
        return drawn

    return draw_plan(rig, options, Look(SHEET, told, LINES, light, MOST_FALLS))


def outline_of(fall: LightFall) -> Array:
    """The plan points of a piece, (n, 2); a closed one comes back to its first."""
    plan = fall.points[:2].T
    return np.concatenate((plan, plan[:1])) if fall.closed else plan
