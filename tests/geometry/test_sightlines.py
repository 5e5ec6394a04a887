"""How high a border may hang, against fields cut into rays and lines of sight worked by hand."""

from __future__ import annotations

from math import atan2, degrees, radians, tan

import numpy as np
import pytest

from aimcalc.geometry.rays import caster, lens_frames
from aimcalc.geometry.sightlines import Fields, Sightlines, field_tops, trims
from aimcalc.geometry.solids import panel, soup
from tests.lenses import facing
from tests.studies import cases

OPEN = caster(soup([]))
NOBODY = Sightlines(np.zeros((3, 0, 1)), np.zeros((3, 0)))


def border(y, low=5.0, *, half=8.0, skew=0.0):
    """Corners (3, 4) of a border across the stage."""
    return np.array(
        [(-half, y - skew, low), (half, y + skew, low), (half, y + skew, 8), (-half, y - skew, 8)]
    ).T


def fields(lens, face, field):
    """Fields of units at some points (rows) that face some points."""
    lens, face = (np.array(p, dtype=float).reshape(-1, 3).T for p in (lens, face))
    axis, _ = facing(lens, face)
    return Fields(lens, axis, face, np.full(lens.shape[1], radians(field) / 2))


def tops_by_rays(corners, some, rings=160, round_steps=720):
    """Highest crossing of the border's plane by many rays of each field, the plain way."""
    middle = corners.mean(axis=1)
    across = corners[:, 1] - corners[:, 0]
    across = across / np.linalg.norm(across)
    normal = np.array([-across[1], across[0], 0.0])
    reach = across @ (corners - middle[:, None])
    up = np.cross(np.cross(some.axis, [[0], [0], [1.0]], axis=0), some.axis, axis=0)
    frames = lens_frames(some.axis, up / np.linalg.norm(up, axis=0))
    best = np.full(some.half.size, -np.inf)
    for k in range(best.size):
        off, turn = np.meshgrid(
            np.linspace(0, some.half[k], rings), np.linspace(0, 2 * np.pi, round_steps)
        )
        local = np.stack((np.cos(off), np.sin(off) * np.cos(turn), np.sin(off) * np.sin(turn)))
        way = np.einsum("ij,jrc->irc", frames[:, k], local).reshape(3, -1)
        lens, face, axis = some.lens[:, k], some.face[:, k], some.axis[:, k]
        with np.errstate(divide="ignore", invalid="ignore"):
            length = normal @ (middle - lens) / (normal @ way)
        x = lens[:, None] + length * way
        beside = across @ (x - middle[:, None])
        good = (length > 0) & (axis @ (x - face[:, None]) <= 0)
        good &= (beside >= reach.min()) & (beside <= reach.max())
        if lens[2] > face[2]:
            good &= x[2] >= face[2]
        if good.any():
            best[k] = x[2, good].max()
    return best


def test_straight_at_a_border_the_top_of_a_field_is_its_upper_edge():
    # Down 35.9 from (0, -6, 6), field 26: the upper edge falls 22.9 and is 8 m on at the border.
    top = field_tops(border(2.0), fields((0, -6, 6), (0, 4, 6 - 10 * tan(radians(35.9))), 26))
    assert top == pytest.approx([6 - 8 * tan(radians(22.9))])


@pytest.mark.long
def test_tops_agree_with_many_rays_for_units_from_every_side():
    rng, count = np.random.default_rng(12), cases(30, 60)
    lens = rng.uniform((-9, -8, 4), (9, 9, 7), (count, 3))
    face = rng.uniform((-5, -1, 1), (5, 8, 2), (count, 3))
    some = fields(lens, face, 30)
    for corners in (border(2.0), border(3.0, half=2.0), border(4.0, skew=1.5)):
        exact, by_rays = field_tops(corners, some), tops_by_rays(corners, some)
        both = np.isfinite(by_rays)
        assert count / 6 < both.sum() < count
        # Rays may miss a corner of what passes by their spacing, and never find more than there is.
        assert (by_rays[both] <= exact[both] + 1e-6).all()
        assert by_rays[both] == pytest.approx(exact[both], abs=0.05)
        assert np.median(exact[both] - by_rays[both]) < 2e-3


def test_a_field_that_does_not_pass_the_border_before_its_face_sets_no_bound():
    some = fields(
        [(0, -6, 6), (0, 6, 6), (20, 0, 6)], [(0, 0, 1.65), (0, 12, 1.65), (20, 6, 1.65)], 20
    )
    assert np.isneginf(field_tops(border(3.0), some)).all()


def test_a_floor_unit_that_points_up_past_a_border_has_its_top_there():
    some = fields((0, -4, 0.2), (0, 4, 5.8), 20)
    top = 0.2 + 5 * tan(atan2(5.6, 8) + radians(10))
    assert field_tops(border(1.0), some) == pytest.approx([top])


def test_the_lowest_bottom_is_set_by_the_field_that_passes_highest():
    some = fields([(0, -6, 6), (2, -6, 6.5)], [(0, 4, 1.65), (2, 4, 1.65)], 26)
    (told,) = trims([border(2.0)], some, NOBODY, OPEN)
    assert told.low == pytest.approx(field_tops(border(2.0), some).max())
    assert told.low_unit == 1
    assert (told.high, told.high_unit) == (np.inf, -1)


def sights(points, eyes):
    """Points (rows) that are one unit each, seen from eyes (rows)."""
    points, eyes = (np.array(p, dtype=float).reshape(-1, 3).T for p in (points, eyes))
    return Sightlines(points[:, :, None], eyes)


def no_fields():
    return fields([], [], 20)


def test_the_highest_bottom_is_the_lowest_line_of_sight_to_a_unit_behind():
    # From (0, -6, 1.2) to (0, 4, 6): 1.2 + 4.8 * 0.8 = 5.04 at y = 2; to (0, 4, 6.5): 5.44.
    seen = sights([(0, 4, 6.5), (0, 4, 6)], [(0, -9, 1.2), (0, -6, 1.2)])
    (told,) = trims([border(2.0)], no_fields(), seen, OPEN)
    assert told.high == pytest.approx(5.04)
    assert told.high_unit == 1
    assert (told.low, told.low_unit) == (-np.inf, -1)


def test_a_border_has_no_say_over_units_before_it_or_lines_that_pass_its_ends():
    before = sights([(0, 1, 6)], [(0, -6, 1.2)])
    assert trims([border(2.0)], no_fields(), before, OPEN)[0].high == np.inf
    beside = sights([(9, 4, 6)], [(9, -6, 1.2)])
    assert trims([border(2.0)], no_fields(), beside, OPEN)[0].high == np.inf


def test_each_line_of_sight_is_the_charge_of_the_last_border_before_the_unit():
    seen = sights([(0, 4, 6)], [(0, -6, 1.2)])
    first, second = trims([border(-1.0), border(3.0)], no_fields(), seen, OPEN)
    assert first.high == np.inf
    assert second.high == pytest.approx(1.2 + 4.8 * 0.9)


def test_a_unit_hidden_by_something_else_leaves_the_border_free():
    flat = panel([(-2, 0, 0), (2, 0, 0), (2, 0, 9), (-2, 0, 9)])
    seen = sights([(0, 4, 6)], [(0, -6, 1.2)])
    assert trims([border(2.0)], no_fields(), seen, caster(soup([flat])))[0].high == np.inf


def test_an_empty_range_is_one_whose_low_is_above_its_high():
    # A flat field over the border's place and a unit hung low behind it.
    some = fields((0, -6, 6), (0, 4, 3.5), 26)
    seen = sights([(0, 4, 4.5)], [(0, -6, 1.2)])
    (told,) = trims([border(2.0)], some, seen, OPEN)
    assert told.low > told.high
    # The upper edge of the field climbs: 13 less down 14.0 is 1.04 down over 8 m.
    assert told.low == pytest.approx(6 - 8 * tan(atan2(2.5, 10) - radians(13)))
    assert degrees(atan2(2.5, 10)) == pytest.approx(14.036, abs=1e-3)
    assert told.high == pytest.approx(1.2 + 3.3 * 0.8)
