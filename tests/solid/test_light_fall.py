"""Where fields fall, by the names of what they fall on."""

from __future__ import annotations

from math import radians, tan

import numpy as np
import pytest

from aimcalc.scene.model import Solid, Stage, Target
from aimcalc.solid.light_fall import light_an_upright, light_falls, room_of, trace
from tests.solid.hanging import a_body, a_panel, a_pipe, a_rig, a_unit

DOWN = (0.0, 0.0, 0.0)


def test_straight_down_on_an_open_deck_a_field_is_a_circle():
    rig = a_rig([a_unit(point=DOWN)])
    (fall,) = light_falls(rig)
    assert (fall.unit, fall.surface, fall.closed) == (0, "deck", True)
    height = rig.aims.lens[2, 0]
    assert np.hypot(*fall.points[:2]) == pytest.approx(height * tan(radians(13)))
    assert fall.points[2] == pytest.approx(0, abs=1e-6)


def test_what_falls_on_a_platform_is_told_as_its_own_and_lies_on_its_top():
    stand = Solid(name="platform", box=(-0.4, -4.0, 0.0, 4.0, 4.0, 1.0), stand_on=True)
    found = light_falls(a_rig([a_unit(point=DOWN)], solids=[stand]))
    assert {fall.surface for fall in found} == {"deck", "platform"}
    on_top = [f for f in found if f.surface == "platform" and f.points[2].min() > 0.999]
    assert on_top
    assert not any(fall.closed for fall in found)


def test_a_wall_catches_the_light_and_pipes_and_units_do_not():
    rig = a_rig([a_unit(1), a_unit(2, 0.3)], solids=[a_panel("wall", 3.0, 0.0, 9.0)])
    assert {fall.surface for fall in light_falls(rig)} == {"wall"}


def test_only_the_units_asked_for_are_told():
    rig = a_rig([a_unit(1), a_unit(2, 1.0), a_unit(3, 2.0)])
    assert {fall.unit for fall in light_falls(rig, np.array([2, 0]))} == {0, 2}


def test_on_a_rake_the_outline_lies_on_the_rake():
    rig = a_rig([a_unit(point=(0.0, 5.0, 1.0))], stage=Stage(rake=1 / 12, rake_from=1.0))
    for fall in light_falls(rig):
        assert fall.points[2] == pytest.approx(np.maximum(0, fall.points[1] - 1.0) / 12, abs=1e-6)


def test_an_oval_falls_as_an_oval():
    rig = a_rig([a_unit(point=DOWN)], kinds=[a_body(oval=(24.0, 48.0), field=34.0)])
    (fall,) = light_falls(rig)
    height = rig.aims.lens[2, 0]
    assert fall.points[0].max() == pytest.approx(height * tan(radians(24)), rel=1e-3)
    assert fall.points[1].max() == pytest.approx(height * tan(radians(12)), rel=1e-3)


def test_the_room_is_the_scenes_own_solids_and_its_deck():
    rig = a_rig(solids=[a_panel("wall", 3.0, 0.0, 9.0)])
    assert set(room_of(rig).soup.owner.tolist()) == {0, len(rig.solids.obstacles)}


def test_light_past_the_decks_edge_falls_on_nothing():
    """Straight down over the edge of a deck at y = 0: half a circle, none of it off the deck."""
    deck = Stage(outline=((-5.0, 0.0), (5.0, 0.0), (5.0, 8.0), (-5.0, 8.0)))
    rig = a_rig([a_unit(point=DOWN)], stage=deck)
    (fall,) = light_falls(rig)
    radius = rig.aims.lens[2, 0] * tan(radians(13))
    assert (fall.surface, fall.closed) == ("deck", False)
    assert np.hypot(*fall.points[:2]) == pytest.approx(radius)
    assert fall.points[1].min() == pytest.approx(0.0, abs=1e-4)
    assert sorted(fall.points[0, [0, -1]]) == pytest.approx([-radius, radius], abs=1e-4)


def a_level_one(**more):
    """A unit that shines level on a wall 4 m upstage of its pipe, with 26 degrees of field."""
    kind = a_body(drop_under=0.0, nose=0.0)
    return a_rig([a_unit(point=(0.0, 4.0, 2.5))], pipes=[a_pipe(trim=2.5)], kinds=[kind], **more)


def test_a_level_cone_covers_a_wall_as_far_as_its_half_angle_reaches():
    """4 tan(13) = 0.92 m each side; a panel of half a metre is covered from edge to edge."""
    for half, reach in ((8.0, 4 * tan(radians(13))), (0.5, 0.5)):
        rig = a_level_one(solids=[a_panel("wall", 4.0, 0.0, 6.0, half=half)])
        assert light_an_upright(rig).tolist() == [True]
        x, y = trace(rig, 0)
        assert [x.min(), x.max()] == pytest.approx([-reach, reach], abs=2e-3)
        assert y == pytest.approx(4.0, abs=1e-9)


def test_what_a_nearer_thing_shades_of_a_wall_is_not_covered():
    """A post whose edge is 0.1 m SL of the axis at 2 m shades all beyond 0.2 m SL of it at 4 m."""
    post = Solid(
        name="post", panel=((0.1, 2.0, 0.0), (3.0, 2.0, 0.0), (3.0, 2.0, 6.0), (0.1, 2.0, 6.0))
    )
    wall = a_panel("wall", 4.0, 0.0, 6.0)
    x, _ = trace(a_level_one(solids=[wall, post]), 0)
    assert x.min() == pytest.approx(-4 * tan(radians(13)), abs=2e-3)
    assert x.max() < 0.2


def test_a_unit_that_lights_somebody_before_a_wall_lights_no_upright():
    target = Target(name="A", x=0.0, y=3.0)
    unit = a_unit(point=None, target="A")
    wall = a_panel("wall", 3.5, 0.0, 6.0)
    rig = a_rig([unit], targets=[target], solids=[wall])
    assert rig.meets.upright.tolist() == [True]
    assert light_an_upright(rig).tolist() == [False]
    before = a_panel("wall", 2.5, 0.0, 6.0)
    assert light_an_upright(a_rig([unit], targets=[target], solids=[before])).tolist() == [True]
