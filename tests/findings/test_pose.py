"""Right way up, within the yoke's travel, with a turn that can be set."""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin

import pytest

from aimcalc.scene.model import Boom, Stand
from tests.findings.clean import (
    DROP,
    SLIM,
    a_kind,
    a_unit,
    changed,
    says,
    told,
    with_kind,
    with_special,
    with_unit,
    with_units,
)

PIVOT = 5.5 - DROP


def below(off_plumb: float) -> tuple[float, float, float]:
    """A point 4 m from the pivot of back/4, on the deck side, some degrees US of straight down."""
    a = radians(off_plumb)
    return (-4.0, 6.0 + 4 * sin(a), PIVOT - 4 * cos(a))


def test_a_unit_reported_tail_up_stops() -> None:
    assert told(with_unit("back/1", hung="tail up")) == [("stop", "upside-down", "back/1")]
    assert told(with_unit("back/1", hung="tail down")) == []


def test_a_unit_over_its_pipe_stops_where_its_yoke_cannot_turn_the_body_over() -> None:
    # Over-hung, upright only with the body turned over in its yoke (more than 90 degrees).
    kind = a_kind("stiff", yoke_range=(-90.0, 90.0), **SLIM)
    scene = with_unit("back/1", with_kind(kind), kind="stiff", mount="over")
    assert told(scene) == [("stop", "upside-down", "back/1")]
    assert "rolled 180° from upright" in says(scene, "upside-down")
    free = with_unit("back/1", with_kind(a_kind("free", **SLIM)), kind="free", mount="over")
    assert told(free) == []


def direct(down: float, **kind: object) -> object:
    """A unit clamped straight to a boom, its stem DS, aimed a little US of across and so far down."""
    a = radians(down)
    point = (4.6 - 5 * cos(a), 2.0, 5.0 - 5 * sin(a))
    unit = a_unit("mast", 1, 5.0, None, point=point, mount="direct", arm_to=180.0, kind="body")
    scene = with_units(unit, scene=with_kind(a_kind("body", **kind)))
    return changed(scene, booms=(*scene.booms, Boom(name="mast", x=4.6, y=2.0, height=6.0)))


def test_a_body_on_its_side_warns_only_with_a_frame_or_a_pattern() -> None:
    # Clamped straight to a boom the yoke bolts are upright, so the body lies on its side (roll near 90).
    assert told(direct(30.0)) == []
    for fitted in ("has_frame", "has_gobo"):
        scene = direct(30.0, **{fitted: True})
        told_of = [t for t in told(scene) if t[1] != "no-turn"]
        assert told_of == [("warn", "on-its-side", "mast/1")]


def swung(off: float) -> object:
    """A unit swung so far round its pipe to US, and aimed level along the pipe."""
    a = radians(off)
    point = (0.0, 6.0 + DROP * sin(a), 5.5 - DROP * cos(a))
    scene = with_kind(a_kind("framed", **SLIM, has_frame=True))
    return with_special(point, scene, kind="framed", mount="out", swing_out=off, out_to="US")


@pytest.mark.parametrize(("off", "warns"), [(59.0, False), (61.0, True)])
def test_a_body_counts_as_sideways_from_60_degrees(off: float, warns: bool) -> None:
    # Aimed along the pipe, body-up points to the clamp: rolled by as much as the clamp is swung.
    assert (("warn", "on-its-side", "back/4") in told(swung(off))) is warns


def test_plumb_is_noted_within_3_degrees_and_the_tail_is_named() -> None:
    def aimed(off: float) -> object:
        return with_special(below(off))

    assert ("note", "plumb", "back/4") in told(aimed(2.9))
    assert ("note", "plumb", "back/4") not in told(aimed(3.1))
    # Tipped US of plumb from straight down: the clip is on the US side, the tail under it on the DS side.
    assert "4 tail DS" in says(aimed(2.0), "plumb")
    assert "within 2.0° of plumb" in says(aimed(2.0), "plumb")


def test_an_aim_beyond_the_yokes_travel_stops() -> None:
    # back/1 to A: 4 m out, 5.14 - 1.65 down: yoke = down = atan(3.49 / 4) = 41.1 degrees.
    assert degrees(atan2(PIVOT - 1.65, 4.0)) == pytest.approx(41.1, abs=0.05)

    def limited(most: float) -> object:
        kind = a_kind("limited", yoke_range=(-most, most))
        return with_unit("back/1", with_kind(kind), kind="limited")

    assert told(limited(42.0)) == []
    assert told(limited(40.0)) == [("stop", "yoke-travel", "back/1")]
    assert "needs its yoke at 41° away from the clamp" in says(limited(40.0), "yoke-travel")


def test_a_target_within_the_unit_stops() -> None:
    # nose 0.3: a point 0.29 from the pivot lies behind the lens.
    def near(reach: float) -> object:
        a = radians(30)
        return with_special((-4.0, 6.0 - reach * cos(a), PIVOT - reach * sin(a)))

    assert ("stop", "target-too-near", "back/4") in told(near(0.29))
    assert ("stop", "target-too-near", "back/4") not in told(near(0.31))


def test_a_target_nearer_than_the_rise_stops() -> None:
    scene = with_special(
        (-4.0, 6.0, PIVOT - 0.1), with_kind(a_kind("risen", rise=0.2)), kind="risen"
    )
    assert [t for t in told(scene) if t[0] == "stop"] == [("stop", "target-too-near", "back/4")]


def test_a_boom_unit_facing_away_from_the_declared_square_warns() -> None:
    boom = Boom(name="boom", x=5.0, y=2.0, height=6.0, square="SL")
    assert told(changed(booms=(boom,))) == [("warn", "faces-away", "boom/1")]
    assert "faces SR; the square of its boom is SL" in says(changed(booms=(boom,)), "faces-away")
    right = Boom(name="boom", x=5.0, y=2.0, height=6.0, square="SR")
    assert told(changed(booms=(right,))) == []


@pytest.mark.parametrize(("pan", "notes"), [(59.5, False), (60.5, True)])
def test_a_pan_over_60_on_a_pipe_has_no_sight_mark(pan: float, notes: bool) -> None:
    out = 5.0  # m from the pipe on plan, 3.49 m down: 34.9 degrees down
    point = (out * sin(radians(pan)) - 4.0, 6.0 - out * cos(radians(pan)), 1.65)
    assert told(with_special(point)) == ([("note", "wide-pan", "back/4")] if notes else [])


def test_a_boom_or_stand_has_no_sight_tape_to_lose() -> None:
    stand = Stand(name="stand", x=6.0, y=7.0, z=5.0)
    unit = a_unit("stand", 1, None, "C", mount="stand")
    scene = changed(with_units(unit), stands=(stand,))
    assert hypot(8, 5) > 5  # heading 58 degrees DS of straight across
    assert told(scene) == []


@pytest.mark.parametrize("odd", [{"oval": (20.0, 40.0)}, {"has_gobo": True}])
def test_an_oval_lamp_or_a_pattern_needs_a_direction(odd: dict[str, object]) -> None:
    scene = with_unit("back/1", with_kind(a_kind("odd", **odd)), kind="odd")
    assert told(scene) == [("warn", "no-turn", "back/1")]
    assert told(with_unit("back/1", scene, turn=0.0)) == []


def test_several_units_of_a_position_share_one_finding() -> None:
    scene = with_kind(a_kind(has_gobo=True))
    assert told(scene) == [
        ("warn", "no-turn", "front"),
        ("warn", "no-turn", "back"),
        ("warn", "no-turn", "boom/1"),
    ]
    some = with_unit("front/2", with_unit("front/5", scene, turn=0.0), turn=0.0)
    assert "Units 1, 3, 4 and 6 have" in says(changed(some, units=some.units[:6]), "no-turn")
    assert "All 6 units have" in says(changed(scene, units=scene.units[:6]), "no-turn")
