"""Washes with holes in them, and what edited copies of them show when worked out from the beginning."""

from __future__ import annotations

import numpy as np

from aimcalc.coverage.new_aims import lit, lit_anew
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study, study_of
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Solid
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp, a_unit, a_wash, moved

ROW = (3.0, 1.0, -1.0, -3.0)
# Narrow acting area under the row: four units in place leave no hole in it.
STRIP = ((-3.6, -0.9), (3.6, -0.9), (3.6, 0.9), (-3.6, 0.9))
FLAT = Solid(
    name="flat", panel=((1.6, -1.0, 0), (3.0, -1.0, 0), (3.0, -1.0, 3.5), (1.6, -1.0, 3.5))
)


def a_row(wrong: dict[int, tuple[float, float]], **more: object) -> Rig:
    """Four units straight over the middle line, some of them (by number, from SL) pointed elsewhere."""
    units = [a_unit(k, x, to=wrong.get(k)) for k, x in enumerate(ROW, 1)]
    return solve_rig(a_wash(units, kinds=[a_lamp(field=70.0)], **more))


def edited(rig: Rig, moves: dict[str, tuple[float, float, float]]) -> Study:
    """The light of a copy of the scene with some units pointed elsewhere, from scratch."""
    scene = rig.scene
    for unit, face in moves.items():
        scene = moved(scene, unit, face)
    return study_of(solve_rig(scene))


def closed_and_opened(
    before: Study, after: Study, system: str, unit: int, hole: np.ndarray | None = None
) -> tuple[float, float]:
    """m2 of a system (of one hole's cells) that turned light, and that turned dark in any of the unit's.

    Judged by the thresholds that held before.
    """
    cell = before.plane.grid.cell_area
    home, then = before.systems[system], after.systems[system]
    closed = (home.level < home.below) & (then.level >= home.below)
    if hole is not None:
        closed &= np.isin(np.arange(closed.size), hole)
    opened = np.zeros(closed.size, bool)
    for stake in before.stakes(unit):
        dark = after.systems[stake.name].level < stake.below
        opened |= (stake.level >= stake.below) & dark
    return float(closed.sum() * cell), float(opened.sum() * cell)


def changes(study: Study, new: NewAims, *, exact: bool = False) -> np.ndarray:
    """Lux that each new aim adds (or takes) at the points of the study's plane, (K, M).

    What a unit sees from its new lens is what it sees from the present one, or `exact`, rays cast anew.
    """
    points, seen = study.plane.points, study.seen.of(new.unit)
    now = lit(study.sources.lamps.take(new.unit), points, seen)
    return (lit_anew(study, new.lamps, points) if exact else lit(new.lamps, points, seen)) - now
