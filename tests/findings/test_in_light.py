"""Light that is cut, and by whom."""

from __future__ import annotations

import pytest

from tests.findings.clean import CLEAN, a_kind, a_unit, changed, with_kind, with_units, without
from tests.findings.judged import found, says, told, upright, with_solids


def border(low: float):
    """A border 1 m US of the front pipe, whose units are 27 degrees down with fields of 26."""
    return with_solids(upright("border 2", -3.0, low, 7.0))


def cut(scene):
    return [f for f in told(scene) if f[1] == "field-cut"]


def test_a_border_that_hangs_clear_is_not_told():
    # The upper edge of the field leaves the lens (y = -3.75, z = 5.0) at 14 degrees down.
    assert cut(border(5.1)) == []


def test_a_border_in_the_light_is_told_once_for_the_row_with_shares_and_height():
    scene = border(4.7)
    assert cut(scene) == [("warn", "field-cut", "front")]
    text = says(scene, "field-cut")
    assert text.startswith("All 6 units lose ")
    assert " of their field to border 2, from 4.70 m up" in text


def test_a_wall_before_one_unit_is_told_on_its_row():
    scene = with_solids(upright("wall", -2.5, 0.0, 7.0, 4.2, 6.0), scene=without("front/4"))
    (told_of,) = [f for f in found(scene) if f.rule == "field-cut" and f.unit]
    assert told_of.unit == "front/1"
    assert "of its field to wall, from" in told_of.says


def test_under_one_part_in_a_hundred_is_not_told():
    # A wire of 1 mm at 1 m covers less than 1 % of a field of 26.
    wire = upright("wire", -3.0, 4.6, 4.601)
    assert cut(with_solids(wire)) == []


def facing(pan_first: float, spacing: float):
    """Two units on the back pipe, the first turned across the second's place, both 35 down or so."""
    from math import cos, radians, sin

    turn, level = radians(pan_first), 3.0
    kind = a_kind("spot", length=26 * 0.0254, width=8 * 0.0254, nose=13 * 0.0254)
    first = a_unit(
        "back",
        4,
        -4.0,
        None,
        point=(-4.0 - level * sin(turn), 6.0 - level * cos(turn), 5.14 - 2.1),
        kind="spot",
    )
    second = a_unit("back", 5, -4.0 - spacing, None, point=(-4.0 - spacing, 3.0, 3.04), kind="spot")
    return with_units(first, second, scene=with_kind(kind))


def test_a_neighbour_that_takes_over_two_parts_in_a_hundred_is_told():
    # Common practice, no source: on 18 in centres, both 35 down, panned 60 towards a neighbour that hangs
    # square, a 26 degree field is some 10 % blocked.
    scene = facing(60.0, 18 * 0.0254)
    (finding,) = [f for f in found(scene) if f.rule == "neighbour-in-light"]
    assert (finding.severity, finding.unit) == ("warn", "back/4")
    assert finding.says.endswith(" of its field to unit 5.")
    assert not [f for f in found(facing(0.0, 0.9)) if f.rule == "neighbour-in-light"]


@pytest.mark.parametrize("empty", [changed(units=()), changed(CLEAN, units=(), targets=())])
def test_a_rig_without_units_loses_nothing(empty):
    assert told(empty) == []


def test_units_whose_light_is_all_stopped_are_told_so_and_not_as_cut():
    scene = with_solids(upright("wall", -3.0, 0.0, 9.0))
    assert cut(scene) == []
    assert ("warn", "all-lost", "front") in told(scene)
    assert says(scene, "all-lost").startswith(
        "All 6 units lose all light on the way to the target, to wall."
    )


def test_light_that_two_walls_stop_between_them_is_all_lost_too():
    halves = [upright(f"wall {n}", -3.0, 0.0, 9.0, x, x + 7.0) for n, x in ((1, -7.0), (2, 0.0))]
    assert "to wall 2 and wall 1." in says(with_solids(*halves), "all-lost")


def test_light_of_which_a_sliver_passes_is_cut_and_not_all_lost():
    """A slot 0.4 m high at the height of the axis: well over half a hundredth of the field passes."""
    walls = [upright("sill", -3.0, 0.0, 4.3), upright("head", -3.0, 4.7, 9.0)]
    scene = with_solids(*walls)
    assert [f for f in told(scene) if f[1] == "all-lost"] == []
    assert len(cut(scene)) == 2
