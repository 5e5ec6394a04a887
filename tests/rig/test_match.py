"""MATCH: which units of a row may be copied by eye."""

from __future__ import annotations

import pytest

from aimcalc.rig.match import SHARE, match_leaders
from aimcalc.rig.solve import solve_rig
from aimcalc.scene.model import Unit
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


# Field 26 degrees and the default quarter give a tolerance of 6.5; atan(x / 8) is worked by hand.
@pytest.mark.parametrize(
    ("step", "matched"),
    [(0.452, True), (0.460, False)],  # 3.234 and 3.291 degrees, either side of 3.25
)
def test_a_follower_keeps_half_its_tolerance_for_the_eye(step, matched):
    assert SHARE == 0.5
    assert leaders(parallel(2, 0, step=step))["2"] == ("1" if matched else None)


def test_a_precise_follower_is_held_to_its_own_smaller_tolerance():
    first, second = parallel(2, 0, step=0.3)  # 2.15 degrees apart
    assert leaders([first, second])["2"] == "1"
    precise = unit("2", 0, second.point, precise=True)  # tolerance 3.25, half of it 1.62
    assert leaders([first, precise])["2"] is None


def test_of_leaders_that_are_near_enough_the_one_beside_it_is_named():
    level = 6.0 - 14 * 0.0254
    first = unit("1", 4, (4, FAR, level))
    second = unit("2", 1, (1 + 0.56, FAR, level))  # atan(0.56 / 8) = 4.00 degrees off the first
    third = unit("3", 0, (0 + 0.25, FAR, level))  # 1.79 off the first, 2.21 off the second
    assert leaders([first, second, third]) == {"1": None, "2": None, "3": "2"}


def test_the_leader_that_is_near_enough_is_named_though_another_is_nearer_by():
    units = parallel(4, 2, 0)
    turned = unit("2", 2, (2 + 1.4, FAR, units[0].point[2]))  # 9.9 degrees off the first
    nearly = unit(
        "3", 0, (0 + 1.3, FAR, units[0].point[2])
    )  # 9.2 degrees off it, 0.7 off the second
    assert leaders([units[0], turned, nearly]) == {"1": None, "2": None, "3": "2"}


def test_a_follower_is_never_itself_a_leader():
    found = leaders(parallel(4, 2, 0, -2, step=0.3))  # each 2.15 more than the one before
    assert found["2"] == "1"
    assert found["3"] is None  # 4.3 off the first; 2.15 off the second, which only follows
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
