"""Which unit could fill a hole."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.gaps import find_gaps
from aimcalc.light.grid import grid_over
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import smooth_lamps
from aimcalc.light.reach import changes, pointed, points_between, try_aims

STAGE = grid_over([(-6, 0), (6, 0), (6, 3), (-6, 3)], spacing=0.15)
POINTS = STAGE.points(1.65)


def row(at):
    """Units 6 m up over y = 1.5, each straight down at its place along x."""
    lens = np.array([[x, 1.5, 6.0] for x in at]).T
    down = np.tile([[0.0], [0], [-1]], len(at))
    return smooth_lamps(lens, down, peak_cd=20000, beam=np.radians(35), field=np.radians(55))


# One unit of the row is missing at x = 2, and two hang at x = -4.
LAMPS = row([-6, -4, -4, -2, 0, 4, 6])
LEVEL = illuminance(LAMPS, POINTS)[0]
BELOW = LEVEL.mean() / 2


def test_only_the_changed_units_own_light_is_exchanged():
    turned = pointed(LAMPS, [1, 4], np.array([[2.0, 3], [1.5, 1], [1.65, 1.65]]))
    got = np.concatenate(list(changes(LAMPS, [1, 4], turned, POINTS)))
    for k, unit in enumerate([1, 4]):
        axis = LAMPS.axis.copy()
        axis[:, unit] = turned.axis[:, k]
        whole = illuminance(LAMPS._replace(axis=axis), POINTS)[0]
        np.testing.assert_allclose(LEVEL + got[k], whole, rtol=1e-9, atol=1e-9)


def test_a_doubled_unit_is_a_better_helper_than_a_lone_one():
    hole = find_gaps(STAGE, LEVEL, BELOW)[0]
    assert hole.centre[0] == pytest.approx(2, abs=0.3)
    face = np.array([[hole.centre[0]], [hole.centre[1]], [1.65]])
    units = np.arange(LAMPS.size)
    turned = pointed(LAMPS, units, np.tile(face, LAMPS.size))
    trial = try_aims(
        LAMPS,
        units,
        turned,
        points=POINTS,
        level=LEVEL,
        below=BELOW,
        cell_area=STAGE.cell_area,
        hole=hole.cells,
    )
    net = trial.gain - trial.uncovers
    assert net[1] == net[2] > 2  # the two at x = -4
    assert net[1] > net[4]
    assert trial.uncovers[1] < 1 < trial.uncovers[4]  # the lone unit at x = 0 leaves a hole
    assert (trial.here <= trial.gain).all()
    # By areas before and after, counted afresh.
    after = LEVEL + np.concatenate(list(changes(LAMPS, units, turned, POINTS)))
    closed = ((after >= BELOW) & (LEVEL < BELOW)).sum(axis=1) * STAGE.cell_area
    np.testing.assert_allclose(trial.gain, closed, atol=2 * STAGE.cell_area)


def test_blocked_rays_are_asked_by_the_units_own_numbers():
    lamps = LAMPS._replace(part_blocked=np.arange(LAMPS.size) == 4)
    turned = pointed(lamps, [4, 1, 4], np.array([[2.0, 2, 1], [1.5, 1.5, 1.5], [1.65] * 3]))
    before, after = set(), set()

    def now(unit, which):
        before.add(unit)
        return np.ones(which.size, bool)

    def then(trial, which):
        after.add(trial)
        return np.zeros(which.size, bool)

    (change,) = changes(lamps, [4, 1, 4], turned, POINTS, visible=now, visible_turned=then)
    assert (before, after) == ({4}, {0, 2})
    own = illuminance(LAMPS.take([4]), POINTS)[0]
    np.testing.assert_allclose(change[0], -own, atol=1e-4)  # all of its new light is blocked


def test_a_change_of_nothing_closes_and_uncovers_nothing():
    trial = try_aims(
        LAMPS,
        np.arange(LAMPS.size),
        LAMPS,
        points=POINTS,
        level=LEVEL,
        below=BELOW,
        cell_area=STAGE.cell_area,
    )
    assert not np.any(trial)


def test_points_to_try_lie_on_the_way_to_the_hole():
    got = points_between(np.array([0.0, 2, 1.65]), np.array([4.0, 0, 1.65]), (0.25, 1.0))
    np.testing.assert_allclose(got, [[1, 4], [1.5, 0], [1.65, 1.65]])
