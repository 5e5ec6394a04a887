"""What re-aims close and uncover, by Radiance before and after: the tracer lights the scene edited so.

The threshold is half of the tracer's own mean before, and is kept for after. The tracer works in single
precision and cells within a thousandth of the threshold may go either way: both areas are told with that
much room, and no more.
"""

from __future__ import annotations

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.solid.rig import solve_rig
from tests import ray_tracer
from tests.black_scenery import black
from tests.shows import a_show, rig_of

UP = np.array([0.0, 0.0, 1.0])
NEAR = 2e-3  # of the threshold


@pytest.fixture(scope="module")
def found():
    return a_show(rig_of("playhouse")).survey


def traced(folder, rig, units, points):
    from aimcalc.coverage.sources import sources_of

    lamps = sources_of(rig).lamps.take(units)
    return ray_tracer.lux(folder, ray_tracer.smooth_scene(folder, lamps) + black(rig), points, UP)


def edited(rig, name, face):
    def moved(unit):
        mine = f"{unit.position}/{unit.number}" == name
        return replace(unit, target=None, point=tuple(face)) if mine else unit

    return solve_rig(replace(rig.scene, units=tuple(moved(u) for u in rig.scene.units)))


@pytest.mark.parametrize(("name", "hole"), [("front cool", 0), ("side", 0), ("back", 1)])
def test_what_a_re_aim_closes_and_uncovers_is_what_the_ray_tracer_sees(tmp_path, found, name, hole):
    rig, study = found.study.rig, found.study
    points, cell = study.plane.points, study.plane.grid.cell_area
    offer = found.helpers[name][hole][0]
    after_rig = edited(rig, rig.names[offer.unit], offer.face)
    turned_dark, unsure_dark = np.zeros((2, points.shape[1]), bool)
    for stake in (name, "all"):
        units = study.systems[stake].units
        before = traced(tmp_path, rig, units, points)
        after = traced(tmp_path, after_rig, units, points)
        below = before.mean() / 2
        assert study.systems[stake].below == pytest.approx(below, rel=1e-3)
        near = (np.abs(before - below) < NEAR * below) | (np.abs(after - below) < NEAR * below)
        turned_dark |= (before >= below) & (after < below)
        unsure_dark |= near
        if stake == name:
            mine = np.isin(np.arange(before.size), study.systems[name].gaps[hole].cells)
            closed = ((before < below) & (after >= below) & mine).sum() * cell
            unsure = (near & mine).sum() * cell
    assert abs(offer.gain - closed) <= unsure + 1e-9
    assert abs(offer.uncovers - turned_dark.sum() * cell) <= unsure_dark.sum() * cell + 1e-9
    assert offer.gain > 5 * unsure  # the room left does not hide the gain
