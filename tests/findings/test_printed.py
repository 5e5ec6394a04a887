"""What the printed, rounded figures miss by."""

from __future__ import annotations

from math import cos, degrees, hypot, radians, sin

import pytest

from aimcalc.findings.targets import printed_miss
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import (
    DROP,
    INCH,
    SLIM,
    Scene,
    a_kind,
    changed,
    says,
    told,
    with_kind,
    with_settings,
    with_special,
    with_unit,
)

PIVOT = 5.5 - DROP


def set_to(pan: float, down: float, field: float, *, precise: bool = False) -> Scene:
    """back/4 facing US with this pan to SL and this down, 5 m from its pivot."""
    p, d = radians(pan), radians(down)
    point = (-4.0 + 5 * sin(p) * cos(d), 6.0 + 5 * cos(p) * cos(d), PIVOT - 5 * sin(d))
    scene = with_kind(a_kind("narrow", field=field, **SLIM))
    return with_special(point, scene, kind="narrow", precise=precise)


def miss_of_back_4(scene: Scene) -> float:
    """What the printed figures of back/4 miss by, in degrees."""
    rig = solve_rig(scene)
    return degrees(printed_miss(rig)[rig.names.index("back/4")])


def test_figures_that_come_out_whole_miss_nothing() -> None:
    assert miss_of_back_4(set_to(20.0, 31.0, 5.0)) == pytest.approx(0.0, abs=1e-7)


def test_half_a_degree_each_way_adds_up_as_the_axis_turns() -> None:
    # A miss by dp in pan and dt in down turns the axis by sqrt((cos down dp)^2 + dt^2).
    miss = miss_of_back_4(set_to(20.49, 30.49, 5.0))
    # Seen from the lens, 0.3 m in front of the pivot, 5 m away: 5 / 4.7 as much. True to first order.
    assert miss == pytest.approx(0.49 * hypot(cos(radians(30.49)), 1.0) * 5 / 4.7, rel=2e-3)


@pytest.mark.parametrize(
    ("field", "precise", "stops"),
    [(5.0, True, True), (5.0, False, False), (2.5, False, True), (7.0, True, False)],
)
def test_a_miss_over_the_tolerance_stops(field: float, precise: bool, stops: bool) -> None:
    # 0.69 degrees, as above, against a quarter of the field, or half of that where precise.
    scene = set_to(20.49, 30.49, field, precise=precise)
    assert told(scene) == ([("stop", "printed-miss", "back/4")] if stops else [])


def test_the_miss_is_told_beside_the_tolerance() -> None:
    sentence = says(set_to(20.49, 30.49, 2.0), "printed-miss")
    assert "misses by 0.69°" in sentence
    assert "its tolerance is 0.50°" in sentence


@pytest.mark.parametrize(("turn", "stops"), [(0.0, False), (90.0, True)])
def test_an_oval_allows_what_it_is_wide_along_the_miss(turn: float, stops: bool) -> None:
    # 0.49 of pan at 31 down, seen from the lens: 0.49 cos 31 x 5 / 4.7 = 0.45 across. A quarter of 12 is 3,
    # of 1.5 it is 0.375.
    scene = set_to(20.49, 31.0, 5.0)
    kind = a_kind("narrow", field=5.0, **SLIM, oval=(1.5, 12.0))
    scene = with_unit("back/4", with_kind(kind, scene), turn=turn)
    assert told(scene) == ([("stop", "printed-miss", "back/4")] if stops else [])
    if stops:
        assert "misses by 0.45°" in says(scene, "printed-miss")
        assert "its tolerance is 0.38°" in says(scene, "printed-miss")


@pytest.mark.parametrize(
    ("unit", "mark"), [("m", 0.005), ("cm", 0.005), ("ft", INCH / 4), ("in", INCH / 4)]
)
def test_a_hang_mark_is_rounded_to_5_mm_or_a_quarter_inch(unit: str, mark: float) -> None:
    off = 0.45 * mark
    scene = with_settings(changed(units=(set_to(0.0, 30.0, 26.0).units[-1],)), unit=unit)
    at = -100 * mark - off
    point = (at, 6.0 - 5 * cos(radians(30)), PIVOT - 5 * sin(radians(30)))
    scene = with_unit("back/4", with_kind(a_kind("narrow", nose=0.0), scene), at=at, point=point)
    # Moved sideways by `off`, 5 m away.
    assert printed_miss(solve_rig(scene))[0] == pytest.approx(off / 5, rel=1e-4)


def test_over_hung_and_swung_out_units_are_judged_by_their_own_dial() -> None:
    for more in ({"mount": "over"}, {"mount": "out", "swing_out": 40.0, "out_to": "US"}):
        scene = with_special((-3.2, 2.3, 1.1), with_kind(a_kind("n", **SLIM)), kind="n", **more)
        worst = hypot(0.5, 0.5) * 1.1 + 0.05  # half a degree each way, the lens, the hang mark
        assert 0 < miss_of_back_4(scene) < worst
