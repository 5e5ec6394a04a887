"""Targets: on the stage, clear of scenery, at the height of what is there."""

from __future__ import annotations

import pytest

from aimcalc.scene.model import Solid, Stage, Target
from tests.findings.clean import (
    OUTLINE,
    a_face,
    a_unit,
    changed,
    says,
    told,
    with_special,
    with_target_on_back,
    with_unit,
    with_units,
)


def spot(x: float = -4.0, y: float = 3.0, **more: object) -> Target:
    """A target for unit back/4, straight DS of it unless said otherwise."""
    given = {"plane": "face", "plane_given": True, **more}
    return Target(name="S", x=x, y=y, **given)  # type: ignore[arg-type]


@pytest.mark.parametrize(("x", "warns"), [(-6.99, False), (-7.02, True)])
@pytest.mark.parametrize("plane", ["face", "deck"])
def test_a_target_off_the_stages_outline_warns(x: float, warns: bool, plane: str) -> None:
    scene = with_target_on_back(spot(x, 4.0, plane=plane))
    assert told(scene) == ([("warn", "target-off-stage", "back/4")] if warns else [])


def test_a_target_off_stage_is_told_once_with_all_its_units() -> None:
    scene = with_target_on_back(spot(-7.5, 3.5))
    scene = with_units(a_unit("back", 5, -5.0, "S"), scene=scene)
    assert told(scene) == [("warn", "target-off-stage", None)]
    assert says(scene, "target-off-stage") == (
        "Target S (units back/4 and back/5) is off the stage's outline (7.50 m SR, 3.50 m US)."
    )


def test_a_thing_may_be_lit_off_the_stage_and_without_an_outline_nothing_is_off_it() -> None:
    assert told(with_target_on_back(spot(-7.5, 3.5, plane="point", z=2.0))) == []
    assert told(with_target_on_back(spot(-7.5, 3.5), changed(stage=Stage()))) == []


WARDROBE = Solid(name="wardrobe", box=(-5.0, 2.5, 0.0, -3.0, 3.5, 2.5))


@pytest.mark.parametrize(("y", "warns"), [(3.4, True), (3.6, False)])
def test_a_face_inside_scenery_warns(y: float, warns: bool) -> None:
    scene = with_target_on_back(spot(y=y), changed(solids=(WARDROBE,)))
    assert told(scene) == ([("warn", "target-in-scenery", "back/4")] if warns else [])


def test_a_face_above_a_low_piece_of_scenery_is_clear_of_it() -> None:
    bench = Solid(name="bench", box=(-5.0, 2.5, 0.0, -3.0, 3.5, 1.6))
    assert told(with_target_on_back(spot(), changed(solids=(bench,)))) == []


@pytest.mark.parametrize(("z", "warns"), [(0.05, False), (0.06, True), (-0.06, True)])
def test_a_z_that_is_not_the_decks_warns(z: float, warns: bool) -> None:
    scene = with_target_on_back(spot(z=z))
    assert told(scene) == ([("warn", "height-differs", "back/4")] if warns else [])


PLATFORM = Solid(name="platform", box=(-5.0, 2.5, 0.0, -3.0, 3.5, 1.0), stand_on=True)


def test_a_target_on_a_platform_wants_the_platforms_height() -> None:
    stage = changed(solids=(PLATFORM,))
    assert told(with_target_on_back(spot(z=1.0), stage)) == []
    assert told(with_target_on_back(spot(), stage)) == []
    floor = with_target_on_back(spot(z=0.0), stage)
    assert told(floor) == [("warn", "height-differs", "back/4")]
    assert says(floor, "height-differs") == (
        "Target S (unit back/4) is given level with the deck at the plaster line, 1.00 m below deck or "
        "platform there (1.00 m up)."
    )


def test_the_floor_under_a_bridge_is_a_floor() -> None:
    bridge = Solid(name="bridge", box=(-5.0, 2.5, 2.4, -3.0, 3.5, 2.5), stand_on=True)
    assert told(with_target_on_back(spot(z=0.0), changed(solids=(bridge,)))) == []


def test_on_a_rake_z_counts_from_the_plaster_line() -> None:
    rake = changed(stage=Stage(outline=OUTLINE, acting=OUTLINE, rake=1 / 16))
    # 3 m US: 3 / 16 = 0.1875 m up.
    assert told(with_target_on_back(spot(z=0.1875), rake)) == []
    assert told(with_target_on_back(spot(z=0.0), rake)) == [("warn", "height-differs", "back/4")]


def test_a_ramp_to_stand_on_counts_as_deck() -> None:
    corners = ((-6.0, 0.0, 0.0), (-3.0, 0.0, 0.0), (-3.0, 6.0, 1.2), (-6.0, 6.0, 1.2))
    ramp = changed(solids=(Solid(name="ramp", panel=corners, stand_on=True),))
    # Half way up at y = 3: 0.6 m.
    assert told(with_target_on_back(spot(z=0.6), ramp)) == []
    assert told(with_target_on_back(spot(z=0.0), ramp)) == [("warn", "height-differs", "back/4")]


@pytest.mark.parametrize(("z", "warns"), [(3.0, False), (0.0, False), (-0.06, True)])
def test_a_point_may_be_anywhere_but_under_the_deck(z: float, warns: bool) -> None:
    expected = [("warn", "height-differs", "back/4")] if warns else []
    assert told(with_special((-4.0, 7.5, z))) == expected
    assert told(with_target_on_back(spot(y=7.5, plane="point", z=z))) == expected


@pytest.mark.parametrize(("z", "rule"), [(0.89, "height-differs"), (0.91, "z-or-face")])
def test_a_high_z_without_a_plane_may_have_meant_the_face(z: float, rule: str) -> None:
    assert told(with_target_on_back(spot(z=z, plane_given=False))) == [("warn", rule, "back/4")]
    assert told(with_target_on_back(spot(z=z))) == [("warn", "height-differs", "back/4")]


def test_a_high_z_is_said_with_what_was_made_of_it() -> None:
    scene = with_target_on_back(spot(z=1.65, plane_given=False))
    assert says(scene, "z-or-face") == (
        "Target S (unit back/4) gives 1.65 m up without a plane: taken as what somebody stands on, "
        "with a face 1.65 m above."
    )


def test_targets_without_a_plane_are_noted_once() -> None:
    targets = tuple(Target(name=t, x=x, y=2.0) for t, x in (("A", 2.0), ("B", 0.0), ("C", -2.0)))
    scene = changed(targets=targets)
    assert told(scene) == [("note", "no-plane", None)]
    assert (
        says(scene, "no-plane")
        == "No plane is given for targets A, B and C: taken as faces 1.65 m up."
    )


def test_targets_that_nothing_aims_at_are_noted() -> None:
    scene = changed(targets=(*changed().targets, a_face("D", 4.0, 4.0)))
    assert told(scene) == [("note", "target-unused", None)]
    assert told(with_unit("boom/1", scene, target="D")) == []
