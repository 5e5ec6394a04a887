"""Bodies that touch, and bodies that nearly do."""

from __future__ import annotations

from math import cos, radians, sin

import msgspec
import pytest

from aimcalc.findings.pose import yoke_travel
from aimcalc.findings.touching import own_yoke
from aimcalc.scene.model import Scene, Solid, Stand
from aimcalc.solid.rig import solve_rig
from tests.findings.clean import (
    CLEAN,
    a_kind,
    a_unit,
    changed,
    with_kind,
    with_pipe,
    with_units,
)
from tests.findings.judged import found, says, told, upright, with_solids

FACE = (0.0, 2.0, 1.65)


def row(gap: float, **kind: object) -> Scene:
    """back/4 and back/5 parallel, square DS, their yokes `gap` metres apart.

    A yoke stands 5 cm outside its body on each side (`aimcalc.geometry.bodies`), so that bodies 0.25 m wide
    whose clamps are s apart have yokes s - 0.35 m apart.
    """
    spacing = 0.35 + gap
    units = [
        a_unit(
            "back", n, -4.0 - k * spacing, None, point=(-4.0 - k * spacing, 1.0, 1.65), kind="body"
        )
        for k, n in enumerate((4, 5))
    ]
    return with_units(*units, scene=with_kind(a_kind("body", **kind)))


def test_nothing_is_found_where_there_is_nothing_to_find():
    assert told(CLEAN) == []


def test_yokes_that_overlap_are_a_warning_since_nobody_has_measured_them():
    # It used to stop the print.
    assert told(row(-0.02)) == [("warn", "bodies-touch", "back")]
    assert says(row(-0.02), "bodies-touch") == (
        "The yoke of unit 4 and the yoke of unit 5 touch as aimed. By assumed sizes of yokes, clamps and "
        "tubes."
    )


# Bodies 0.25 m wide touch where their clamps are 0.25 m apart: 0.10 m of overlap of the yokes.
@pytest.mark.parametrize(
    ("gap", "kind", "severity"),
    [
        (-0.09, {}, "warn"),
        (-0.11, {}, "stop"),
        (-0.11, {"typical": True}, "warn"),
        (-0.2, {"length": None}, "warn"),
        (-0.2, {"width": None}, "warn"),
    ],
)
def test_bodies_that_overlap_are_a_stop_only_by_the_users_own_sizes(gap, kind, severity):
    touching = [f for f in told(row(gap, **kind)) if f[1] == "bodies-touch"]
    assert touching == [(severity, "bodies-touch", "back")]
    own = "By typical sizes of body." not in says(row(gap, **kind), "bodies-touch")
    assert own is (not kind)


@pytest.mark.parametrize(("gap", "tells"), [(0.04, True), (0.06, False)])
def test_a_gap_under_5_cm_is_a_warn_with_its_width(gap: float, tells: bool):
    assert told(row(gap)) == ([("warn", "bodies-close", "back")] if tells else [])
    if tells:
        assert "are 0.04 m apart" in says(row(gap), "bodies-close")


def test_units_of_two_positions_are_told_on_the_first_ones_row():
    pipe = msgspec.structs.replace(
        CLEAN.pipes[1], name="next", start=(-6.0, 6.3, 5.5), end=(6.0, 6.3, 5.5)
    )
    units = [
        a_unit("back", 4, -4.0, None, point=(-4.0, 1.0, 1.65)),
        a_unit("next", 1, -4.0, None, point=(-4.0, 1.3, 1.65)),
    ]
    scene = with_units(*units, scene=changed(pipes=(*CLEAN.pipes, pipe)))
    assert told(scene)[0] == ("stop", "bodies-touch", "back/4")
    assert "and the body of unit next/1 touch" in says(scene, "bodies-touch")


def steep(down: float, *, drop: float = 0.36, **kind: object) -> Scene:
    """back/4 straight DS, `down` degrees, 3 m from its pivot."""
    a = radians(down)
    point = (-4.0, 6.0 - 3 * cos(a), 5.5 - drop - 3 * sin(a))
    scene = with_kind(a_kind("body", drop_under=drop, **kind))
    return with_units(a_unit("back", 4, -4.0, None, point=point, kind="body"), scene=scene)


# Over the pivot the top of the body stands r / cos t high, and 2 cm along it (half the bar's width)
# (r + 0.02 sin t) / cos t; the bar is 0.30 m off (0.36 less 6 cm of clamp) and 3 mm thick each way:
# (0.125 + 0.02 sin t) / cos t = 0.297 at t = 61.
LONG = {"length": 0.7, "nose": 0.2, "width": 0.25}


@pytest.mark.parametrize(("down", "tells"), [(55.0, False), (66.0, True)])
def test_a_long_back_strikes_the_bar_of_its_own_yoke_when_tipped(down: float, tells: bool):
    rules = [f.rule for f in found(steep(down, **LONG))]
    assert ("strikes-own-yoke" in rules) is tells


@pytest.mark.parametrize("known", [{}, {"typical": True}])
def test_an_own_yoke_is_never_a_stop_since_its_bar_is_not_measured(known):
    # It used to stop a print on where the bar was taken to be.
    (finding,) = [f for f in found(steep(66.0, **LONG, **known)) if f.rule == "strikes-own-yoke"]
    assert finding.severity == "warn"
    assert finding.says == (
        "Unit 4 may strike its own yoke at 66° down: the bar is taken 0.30 m from the pivot of body, "
        "not measured."
    )


@pytest.mark.parametrize(("furthest", "rules"), [(150.0, []), (60.0, ["yoke-travel"])])
def test_the_travel_that_was_tried_takes_the_place_of_the_assumed_bar(furthest, rules):
    # As the finding advises: the warning goes, or a stop says that 66 degrees is more than the yoke has.
    rig = solve_rig(steep(66.0, **LONG, yoke_range=(-furthest, furthest)))
    assert [f.rule for f in (*own_yoke(rig), *yoke_travel(rig))] == rules


def test_a_body_close_to_its_own_pipe_is_a_warn_with_the_gap():
    # Drop 0.36, body 0.125 and pipe 0.02415 in radius: at 55 down 0.36 cos 55 - 0.149 = 0.057 m, at 58
    # 0.0416 m; the body reaches past the point beside the pipe on both sides.
    sizes = {"length": 0.8, "nose": 0.4, "width": 0.25, "yoke_range": (-150.0, 150.0)}
    close = [f for f in found(steep(58.0, **sizes)) if f.rule == "close-to-own-pipe"]
    assert [f.severity for f in close] == ["warn"]
    assert close[0].says == "Unit 4 comes within 0.042 m of the tube that holds it."
    assert "close-to-own-pipe" not in [f.rule for f in found(steep(55.0, **sizes))]


def test_a_body_that_strikes_its_own_pipe_is_not_told_twice():
    sizes = {"length": 0.8, "nose": 0.4, "width": 0.25, "yoke_range": (-150.0, 150.0)}
    assert "close-to-own-pipe" not in [f.rule for f in found(steep(75.0, **sizes))]


def test_another_pipe_through_a_body_is_a_stop():
    through = msgspec.structs.replace(
        CLEAN.pipes[0], name="wire", start=(-6, 5.9, 5.14), end=(6, 5.9, 5.14)
    )
    scene = changed(pipes=(*CLEAN.pipes, through))
    assert told(scene) == [("stop", "touches-solid", "back")]
    assert says(scene, "touches-solid") == "All 3 units touch wire as aimed."


def test_another_units_arm_counts_and_ones_own_does_not():
    arm = a_unit("boom", 2, 5.05, None, point=(-2.0, 6.0, 1.65), mount="arm", arm=0.4, arm_to=270.0)
    rules = [(f.rule, f.unit or f.position) for f in found(with_units(arm))]
    assert ("touches-solid", "boom/1") in rules
    assert "arm of boom/2" in next(f.says for f in found(with_units(arm)) if f.unit == "boom/1")


def flat(y: float) -> Scene:
    """A flat US of the back pipe's units: their bodies reach 0.3 m cos 41 + 0.125 sin 41 = 0.309 m US."""
    return with_solids(upright("flat", y, 0.0, 7.0))


@pytest.mark.parametrize(
    ("gap", "expected"),
    [(-0.05, ("stop", "touches-solid")), (0.03, ("warn", "close-to-solid")), (0.08, None)],
)
def test_scenery_that_touches_is_a_stop_and_under_5_cm_a_warn(gap, expected):
    scene = flat(6.0 + 0.3 * cos(radians(41)) + 0.125 * sin(radians(41)) + gap)
    assert [f[:2] for f in told(scene)] == ([expected] if expected else [])


def test_what_a_floor_stand_stands_on_does_not_touch_it():
    stage = Solid(name="platform", box=(-6.0, 0.5, 0.0, -4.5, 1.5, 0.4), stand_on=True)
    unit = a_unit("floor", 1, None, None, point=FACE, mount="stand")
    scene = changed(with_units(unit), stands=(Stand(name="floor", x=-5.0, y=1.0),), solids=(stage,))
    assert [f for f in told(scene) if "solid" in f[1]] == []


def test_a_unit_in_the_way_of_a_flown_pipe_is_a_stop_on_a_pipe_and_a_warn_on_a_boom():
    flown = msgspec.structs.replace(
        CLEAN.pipes[0], name="fly", start=(-6, 5.8, 7.5), end=(6, 5.8, 7.5), lines=(-4.0, 4.0)
    )
    scene = changed(pipes=(*CLEAN.pipes, flown))
    assert told(scene) == [("stop", "in-line-set", "back")]
    assert says(scene, "in-line-set") == "All 3 units are in the way of fly as it flies."
    over_boom = msgspec.structs.replace(flown, start=(-6, 2.0, 7.5), end=(6, 2.0, 7.5))
    assert told(changed(pipes=(*CLEAN.pipes, over_boom))) == [("warn", "under-line-set", "boom/1")]


def test_near_the_way_of_a_flown_pipe_is_a_warn():
    # Square and 41 down, a back unit's body reaches 0.3 cos 41 + 0.125 sin 41 = 0.308 m DS of its pipe.
    y = 6.0 - 0.308 - 0.02415 - 0.03
    flown = msgspec.structs.replace(
        CLEAN.pipes[0], name="fly", start=(-6, y, 7.5), end=(6, y, 7.5), lines=(-4.0, 4.0)
    )
    scene = changed(pipes=(*CLEAN.pipes, flown))
    assert told(scene) == [("warn", "close-to-line-set", "back")]
    assert "within 0.0" in says(scene, "close-to-line-set")


def test_a_unit_is_not_in_the_way_of_its_own_flown_pipe():
    scene = CLEAN
    for pipe in CLEAN.pipes:
        scene = with_pipe(pipe.name, scene, lines=(-5.5, 5.5))
    assert told(scene) == []


def test_a_pipe_through_the_edge_of_a_body_is_a_warning_since_its_thickness_is_not_typed():
    # The bodies are 0.125 m in radius about axes 41 degrees down: 0.135 m below the pivot, square to it,
    # the middle of a tube is 1 cm clear of them.
    a, off = radians(41), 0.135
    y, z = 6.0 + off * sin(a), 5.14 - off * cos(a)
    grazes = msgspec.structs.replace(CLEAN.pipes[0], name="wire", start=(-6, y, z), end=(6, y, z))
    assert told(changed(pipes=(*CLEAN.pipes, grazes))) == [("warn", "touches-solid", "back")]


@pytest.mark.parametrize(
    ("drop", "typical", "severity"),
    [(0.13, False, None), (0.12, False, "stop"), (0.12, True, "warn")],
)
def test_a_body_that_reaches_under_the_deck_stops_by_typed_sizes(drop, typical, severity):
    """A unit 0.25 m wide shines level, its pivot `drop` above a deck on which its stand has no height."""
    kind = a_kind("low", drop_over=drop, typical=typical)
    stand = Stand(name="floor", x=-5.0, y=1.0, z=0.0)
    scene = changed(with_kind(kind), stands=(stand,))
    unit = a_unit("floor", 1, None, None, mount="stand", kind="low", point=(-5.0, 5.0, drop))
    under = [t for t in told(with_units(unit, scene=scene)) if t[1] == "under-deck"]
    assert under == ([(severity, "under-deck", "floor/1")] if severity else [])
