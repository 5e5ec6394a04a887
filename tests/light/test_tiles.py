"""Tiles of units by points."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light import tiles
from aimcalc.light.illuminance import contributions, illuminance
from aimcalc.light.lamps import smooth_lamps


def lamps(count, rng):
    v = rng.normal(size=(3, count))
    field = np.where(np.arange(count) % 2, 0.3, 0.5)
    beam = np.where(np.arange(count) % 3, field / 1.5, field / 1.8226156753418)
    made = smooth_lamps(
        10 * v, -v, peak_cd=1, beam=beam, field=field, oval=(field, np.full(count, 0.5))
    )
    return made._replace(part_blocked=np.arange(count) % 5 == 0)


@pytest.mark.parametrize("points", [1, 3, 2000, 50_000])
@pytest.mark.parametrize("ask", [True, False])
def test_every_unit_meets_every_point_exactly_once_and_no_tile_is_too_large(points, ask):
    rig = lamps(37, np.random.default_rng(1))
    met = np.zeros((37, points), np.int8)
    places = np.zeros((3, points))
    for lot in tiles.lots(rig, ask=ask):
        for units in tiles.units_of(lot, rig, places):
            block = tiles.block_of(lot, units, rig, tiles.middle_of(places))
            for span in tiles.columns(block, points):
                assert block.units.size * (span.stop - span.start) <= tiles.TILE
                if ask and rig.part_blocked[block.units].any():
                    assert block.units.size == 1
                met[block.units, span] += 1
    assert (met == 1).all()


def test_a_lot_holds_units_of_one_arithmetic_only():
    rig = lamps(60, np.random.default_rng(1))
    for lot in tiles.lots(rig, ask=True):
        assert ((rig.wide[lot.units] != rig.narrow[lot.units]) == lot.oval).all()
        assert (rig.part_blocked[lot.units] == lot.blocked).all()
        assert ((np.abs(rig.power[lot.units] - 2) < 1e-12) == lot.gaussian).all()


def test_distances_and_cosines_are_those_of_the_plain_formulas():
    rng = np.random.default_rng(3)
    rig, points = lamps(6, rng), rng.uniform(-9, 9, (3, 50))
    operand = tiles.point_operand(points - tiles.middle_of(points))
    for lot in tiles.lots(rig, ask=False):
        for units in tiles.units_of(lot, rig, points):
            block = tiles.block_of(lot, units, rig, tiles.middle_of(points))
            room = tiles.cut(tiles.buffers(), block.units.size, 50)
            tiles.distances(block, operand, room)
            ray = points[:, None] - rig.lens[:, block.units, None]
            distance = np.linalg.norm(ray, axis=0)
            cosine = (ray * rig.axis[:, block.units, None]).sum(axis=0) / distance
            np.testing.assert_allclose(room.distance, distance, rtol=1e-12)
            np.testing.assert_allclose(room.cosine, cosine, atol=1e-13)


def over_a_stage(rng, count=60):
    """Units of many beams, ovals among them, some near the stage, and points over 30 by 12 m of it."""
    lens = rng.uniform((-15, 0, 0.5), (15, 12, 9), (count, 3)).T
    toward = rng.uniform((-15, 0, -2), (15, 12, 3), (count, 3)).T
    field = rng.uniform(0.1, 2.5, count)
    beam = field * rng.uniform(0.4, 0.95, count)
    rig = smooth_lamps(
        lens,
        toward - lens,
        peak_cd=rng.uniform(1e3, 1e5, count),
        beam=beam,
        field=field,
        oval=(field * rng.uniform(0.5, 1.0, count), field),
    )
    rig = rig._replace(part_blocked=np.arange(count) % 3 == 0)
    points = rng.uniform((-15, 0, 0.2), (15, 12, 2), (3 * tiles.MANY, 3)).T
    return rig, points


@pytest.mark.parametrize("turned", [False, True])
def test_sums_over_many_points_leave_out_only_what_is_next_to_nothing(turned):
    rng = np.random.default_rng(8)
    rig, points = over_a_stage(rng)
    hidden = rng.random((rig.size, points.shape[1])) < 0.3
    of = ("level", "cylindrical", "count", rng.normal(size=3))
    if turned:  # the longer side up and down the stage
        points = points[[1, 0, 2]]
        rig = rig.moved(rig.lens[[1, 0, 2]], rig.axis[[1, 0, 2]], rig.across[[1, 0, 2]])

    def visible(unit, which):
        return ~hidden[unit, which]

    found = illuminance(rig, points, of, visible=visible)
    each = contributions(rig, points, of, visible=visible)
    expected = each.sum(axis=1)
    np.testing.assert_array_equal(found[2], expected[2])
    ray = points[:, None] - rig.lens[:, :, None]
    square = np.maximum((ray * ray).sum(axis=0), tiles.NEAREST**2)
    most = 2 * (rig.peak_cd[:, None] * tiles.NOTHING / square).sum(axis=0)
    assert (np.abs(found - expected) <= most + 1e-9 * expected).all()


def test_a_unit_is_asked_about_every_point_that_it_reaches_and_not_about_all():
    rig, points = over_a_stage(np.random.default_rng(9))
    cells = tiles.cells_of(points)
    spans = cells.reached(rig.lens, rig.axis, tiles.reach(rig))
    share = contributions(rig, points, (np.array([0.0, 0, 1]), np.array([0.0, 0, -1]))).sum(axis=0)
    ray = points[:, None] - rig.lens[:, :, None]
    over = np.abs(ray[2]) / np.maximum((ray * ray).sum(axis=0), tiles.NEAREST**2) ** 1.5
    reached = share > 1.001 * tiles.NOTHING * rig.peak_cd[:, None] * over
    place = np.empty(points.shape[1], int)
    place[cells.order] = np.arange(place.size)
    assert reached.any(axis=1).sum() > 40
    for k in range(rig.size):
        mine = place[reached[k]]
        assert (mine >= spans[0, k]).all()
        assert (mine < spans[1, k]).all()
    assert (spans[1] - spans[0]).mean() < 0.8 * place.size
    assert (np.sort(cells.order) == np.arange(place.size)).all()
    assert tiles.cells_of(points[:, : tiles.MANY - 1]) is None
