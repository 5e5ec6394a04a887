"""MATCH: which units of a row may be copied by eye."""

from __future__ import annotations

from math import radians, tan

import pytest

from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stops import SHARE, match_leaders
from tests.rigs import a_kind, a_pipe, a_scene

FAR = (
    8.0  # m out on the level of the pivot, where a sideways step turns the axis by atan(step / FAR)
)


def unit(number, at, point, **values):
    return Unit(
        **{"position": "p", "number": number, "kind": "k", "at": at, "point": point, **values}
    )


def leaders(units, **scene):
    rig = solve_rig(a_scene(units, **scene))
    numbers = [u.number for u in rig.units]
    found = match_leaders(rig)
    return {n: None if k is None else numbers[k] for n, k in zip(numbers, found, strict=True)}


def parallel(*ats, step=0.0, **values):
    """Units at level aim, all pointing US, each next one turned by atan(step / FAR) more."""
    level = 6.0 - 14 * 0.0254  # the pivot's height: trim 6 m less the kind's drop of 14 in
    return [unit(str(k), at, (at + k * step, FAR, level), **values) for k, at in enumerate(ats, 1)]


def test_spacing_equal_to_area_spacing_means_parallel_and_matches_the_first():
    assert leaders(parallel(3, 1, -1, -3)) == {"1": None, "2": "1", "3": "1", "4": "1"}


def panned(*pans, **values):
    """Units 2 m apart at level aim, each so many degrees SL of square."""
    level = 6.0 - 14 * 0.0254
    ats = [4.0 - 2 * k for k in range(len(pans))]
    return [
        unit(str(k), at, (at + FAR * tan(radians(pan)), FAR, level), **values)
        for k, (at, pan) in enumerate(zip(ats, pans, strict=True), 1)
    ]


NARROW = [a_kind(field=4.0)]  # tolerance a quarter of it, 1 degree; half of that 0.5


@pytest.mark.parametrize(
    ("first", "second", "matched"),
    [(3.1, 3.4, True), (2.7, 3.4, True), (3.4, 3.6, False), (0.4, -0.4, True), (0.6, -0.6, False)],
)
def test_a_follower_prints_what_its_leader_prints(first, second, matched):
    # 3.1, 2.7 and 3.4 print SL 3, 3.6 prints SL 4; 0.4 either way prints SQUARE, 0.6 prints a swing. Half a
    # tolerance (3.25) once let a row that says SL 3 copy one that says SQUARE.
    assert leaders(panned(first, second))["2"] == ("1" if matched else None)


@pytest.mark.parametrize(("second", "matched"), [(2.95, True), (3.05, False)])
def test_a_follower_keeps_half_its_tolerance_for_the_eye(second, matched):
    assert SHARE == 0.5
    assert leaders(panned(2.5, second), kinds=NARROW)["2"] == ("1" if matched else None)


def test_a_precise_follower_is_held_to_its_own_smaller_tolerance():
    first, second = panned(2.6, 2.95)  # 0.35 apart
    assert leaders([first, second], kinds=NARROW)["2"] == "1"
    _, precise = panned(2.6, 2.95, precise=True)  # tolerance 0.5, half of it 0.25
    assert leaders([first, precise], kinds=NARROW)["2"] is None


def test_of_leaders_that_are_near_enough_the_one_beside_it_is_named():
    # 2.55 and 3.2 are 0.65 apart; 2.9 is within 0.5 of both.
    assert leaders(panned(2.55, 3.2, 2.9), kinds=NARROW) == {"1": None, "2": None, "3": "2"}


def test_the_leader_that_is_near_enough_is_named_though_another_is_nearer_by():
    assert leaders(panned(2.6, 3.3, 2.7), kinds=NARROW) == {"1": None, "2": None, "3": "1"}


def test_a_follower_is_never_itself_a_leader():
    found = leaders(panned(2.55, 2.9, 3.3, 3.45), kinds=NARROW)
    assert found["2"] == "1"
    assert found["3"] is None  # 0.75 off the first; 0.4 off the second, which only follows
    assert found["4"] == "3"


def test_another_kind_mount_square_side_or_position_never_matches():
    first = parallel(2)[0]
    level = first.point[2]
    kinds = [a_kind(), a_kind("other")]
    assert leaders([first, unit("2", 0, (0, FAR, level), kind="other")], kinds=kinds)["2"] is None
    over = unit("2", 0, (0, FAR, 6.0 + 14 * 0.0254), mount="over")
    assert leaders([first, over])["2"] is None
    behind = unit("2", 0, (0, -FAR, level))
    assert leaders([first, behind])["2"] is None
    pipes = [a_pipe(), a_pipe("q")]
    elsewhere = unit("2", 0, (0, FAR, level), position="q")
    assert leaders([first, elsewhere], pipes=pipes)["2"] is None


def test_stems_that_lean_differently_never_match():
    out = [
        unit("1", 2, (2, FAR, 2), mount="out", swing_out=10, out_to="US"),
        unit("2", 0, (0, FAR, 2), mount="out", swing_out=12, out_to="US"),
    ]
    assert leaders(out)["2"] is None
    same = [out[0], unit("2", 0, (0, FAR, 2), mount="out", swing_out=10, out_to="US")]
    assert leaders(same)["2"] == "1"


def test_plumb_units_and_units_without_an_aim_take_no_part():
    assert leaders([unit("1", 2, (2, 0, 0)), unit("2", 0, (0, 0, 0))]) == {"1": None, "2": None}
    kinds = [a_kind(rise=0.5)]  # the point is nearer to the pivot than the axis is: no aim
    near = 6.0 - 14 * 0.0254
    lost = [unit("1", 2, (2, 0.1, near)), unit("2", 0, (0, 0.1, near))]
    assert leaders(lost, kinds=kinds) == {"1": None, "2": None}


def test_a_scene_without_units_has_no_matches():
    assert match_leaders(solve_rig(a_scene([]))) == []
