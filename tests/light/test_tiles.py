"""Tiles of units by points."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light import tiles
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
        for block in tiles.blocks(lot, rig, places):
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
        for block in tiles.blocks(lot, rig, points):
            room = tiles.cut(tiles.buffers(), block.units.size, 50)
            tiles.distances(block, operand, room)
            ray = points[:, None] - rig.lens[:, block.units, None]
            distance = np.linalg.norm(ray, axis=0)
            cosine = (ray * rig.axis[:, block.units, None]).sum(axis=0) / distance
            np.testing.assert_allclose(room.distance, distance, rtol=1e-12)
            np.testing.assert_allclose(room.cosine, cosine, atol=1e-13)
