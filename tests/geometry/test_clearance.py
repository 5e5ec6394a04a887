"""Gaps between units, yokes, pipes, solids and line sets."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.geometry import bodies, clearance
from aimcalc.geometry.hulls import rods, spaces, triangles
from aimcalc.geometry.solids import box, panel, soup
from tests.hung import INCH, a_row

PIPE_RADIUS = 1.0 * INCH


def pipe_of_the_row(radius=PIPE_RADIUS, owner=0):
    start, end = np.array([[-9.0], [0], [5]]), np.array([[9.0], [0], [5]])
    return rods(start, end, radius=radius, owner=np.array([owner]))


def corners(*args, **kwargs):
    return bodies.set_parts(a_row(*args, **kwargs))


@pytest.mark.parametrize("spacing", [11.0, 14.0, 18.0])
def test_parallel_neighbours_are_apart_by_spacing_less_the_width_of_a_yoke(spacing):
    gaps = clearance.between_units(corners([0, 0], 30, spacing=spacing), within=0.5)
    yoke = 8 * INCH + 2 * bodies.YOKE_CLEAR
    apart = spacing * INCH - yoke
    assert (gaps.unit.tolist(), gaps.other.tolist()) == ([0], [1])
    # Yokes that overlap are at no distance, however far they overlap.
    assert gaps.gap == pytest.approx([max(apart, 0.0)], abs=1e-6)


def test_the_parts_nearest_to_each_other_are_named():
    gaps = clearance.between_units(corners([60, 0], 35, hat=6, spacing=22), within=0.5)
    assert bodies.PART_NAMES[gaps.part[0]] == "top hat"
    straight = clearance.between_units(corners([0, 0], 35, spacing=22), within=0.5)
    assert bodies.PART_NAMES[straight.part[0]] == "yoke"


def test_only_gaps_under_what_was_asked_are_told():
    row = corners([0, 0, 0], 30, spacing=18)
    near = clearance.between_units(row, within=0.2)
    assert list(zip(near.unit, near.other, strict=True)) == [(0, 1), (1, 2)]
    assert clearance.between_units(row, within=0.1).gap.size == 0
    far = clearance.between_units(row, within=0.7)
    assert list(zip(far.unit, far.other, strict=True)) == [(0, 1), (0, 2), (1, 2)]


def test_many_units_at_once_are_told_as_two_by_two():
    pans = np.random.default_rng(2).uniform(-80, 80, 12)
    together = clearance.between_units(corners(pans, 40), within=0.1)
    pairs = []
    for k in range(11):
        two = clearance.between_units(corners(pans, 40)[:, k : k + 2], within=0.1)
        pairs += [(k, k + 1, gap) for gap in two.gap]
    told = list(zip(together.unit, together.other, together.gap, strict=True))
    assert [t for t in told if t[1] == t[0] + 1] == pairs
    assert len(pairs) > 3


def test_a_body_that_passes_between_the_arms_clears_its_own_yoke():
    # Arms 5 cm off each side of the body, 6 mm thick.
    gap = clearance.to_own_yoke(corners([0, 40], 30, nose=19))
    assert gap == pytest.approx(bodies.YOKE_CLEAR - bodies.YOKE_THICK, abs=1e-6)


def test_a_long_tail_tipped_to_plumb_strikes_the_bar_of_its_own_yoke():
    level, plumb = clearance.to_own_yoke(corners([0, 0], [10, 85], nose=10))
    assert level > 0
    assert plumb <= 0


def test_gaps_to_solids_name_the_solid():
    wall = panel([(-1, 0.5, 3), (1, 0.5, 3), (1, 0.5, 6), (-1, 0.5, 6)])
    far = box((-1, 5, 3), (1, 6, 6))
    told = clearance.to_others(corners([0], 0), triangles(soup([far, wall])), within=0.5)
    assert (told.unit.tolist(), told.other.tolist(), told.other_part.tolist()) == ([0], [1], [-1])
    nose = 13 * INCH - bodies.LIP
    assert told.gap == pytest.approx([0.5 - nose], abs=1e-6)
    assert bodies.PART_NAMES[told.part[0]] == "body"


def test_the_space_of_the_next_line_set_is_entered_by_what_reaches_over_it():
    # Pipes at y = 0 and y = 0.4; the body's nose is 13 in (0.33 m) out and level with its pipe's plan.
    start = np.array([[-9.0, -9.0], [0.0, 0.4], [5.0, 9.0]])
    end = start + np.array([[18.0], [0], [0]])
    slabs = spaces(start, end, half_width=0.1, low=0.0, high=20.0)
    told = clearance.to_others(corners([0], 0), slabs, within=0.05, passed_over=np.array([0]))
    assert told.other.tolist() == [1]
    assert told.gap[0] == pytest.approx(
        0.4 - 0.1 - (13 * INCH - bodies.LIP), abs=1e-6
    )  # under zero
    assert told.gap[0] < 0


def test_a_tall_stack_of_solids_is_searched_in_parts(monkeypatch):
    pans = np.linspace(-60, 60, 9)
    wall = soup(
        [panel([(x, 0.3, 4), (x + 0.3, 0.3, 4), (x + 0.3, 0.3, 5), (x, 0.3, 5)]) for x in range(5)]
    )
    whole = clearance.to_others(corners(pans, 20), triangles(wall), within=0.3)
    monkeypatch.setattr(clearance, "PAIRS_AT_ONCE", 12)
    parts = clearance.to_others(corners(pans, 20), triangles(wall), within=0.3)
    assert whole.gap.size > 3
    for one, other in zip(whole, parts, strict=True):
        assert one.tolist() == other.tolist()


def test_a_unit_of_unknown_size_is_near_nothing():
    row = corners([0, 0, 0], 30, spacing=10, length=[26, np.nan, 26])
    told = clearance.between_units(row, within=0.5)
    assert list(zip(told.unit, told.other, strict=True)) == [(0, 2)]


def test_a_rig_of_unknown_sizes_has_no_gaps():
    row = corners([0, 0], 30, length=np.nan)
    assert clearance.between_units(row, within=9.0).gap.size == 0
    assert clearance.to_others(row, pipe_of_the_row(), within=9.0).gap.size == 0
    assert np.isnan(clearance.to_own_yoke(row)).all()


def test_nothing_is_near_where_there_is_nothing():
    none = corners([], [])
    assert clearance.between_units(none, within=1.0).gap.size == 0
    assert clearance.to_others(none, pipe_of_the_row(), within=1.0).gap.size == 0
    assert clearance.to_own_yoke(none).size == 0
    assert clearance.to_others(corners([0], 0), triangles(soup([])), within=1.0).gap.size == 0


def test_gaps_to_an_own_yoke_beyond_what_was_asked_are_not_worked_out():
    row = corners([0, 0], [10, 85], nose=10)
    level, plumb = clearance.to_own_yoke(row)
    assert clearance.to_own_yoke(row, within=level - 1e-3).tolist() == [np.inf, plumb]
    assert clearance.to_own_yoke(row, within=level + 1e-3).tolist() == [level, plumb]


def test_several_owners_may_be_passed_over():
    pipes = [pipe_of_the_row(owner=k) for k in (3, 5)]
    row, own = corners([0], 85), np.array([[3], [5]])
    for pipe in pipes:
        assert clearance.to_others(row, pipe, within=0.5).unit.size == 1
        assert clearance.to_others(row, pipe, within=0.5, passed_over=own).unit.size == 0
    assert (
        clearance.to_others(row, pipe_of_the_row(owner=4), within=0.5, passed_over=own).unit.size
        == 1
    )
