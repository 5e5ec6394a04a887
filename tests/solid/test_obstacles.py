"""What is solid in a scene and no unit."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.rig.places import TUBE_RADIUS
from aimcalc.scene.model import Boom, Solid, Stand
from aimcalc.solid.solids import ARM, BOOM, PIPE, SOLID, STAND, obstacles_of
from tests.solid.hanging import a_panel, a_rig, a_unit

PLATFORM = Solid(name="platform", box=(4.0, 1.0, 0.0, 6.0, 3.0, 0.5), stand_on=True)


@pytest.fixture(scope="module")
def rig():
    boom = Boom(name="boom", x=5.0, y=2.0, height=3.0)
    stands = [Stand(name="floor", x=0.0, y=1.0), Stand(name="high", x=1.0, y=1.0, z=1.2)]
    units = [
        a_unit(1),
        a_unit(1, 2.5, position="boom", mount="arm", arm=0.4, arm_to=270.0),
        a_unit(1, position="floor", mount="stand"),
        a_unit(1, position="high", mount="stand"),
    ]
    return a_rig(units, solids=[a_panel("wall", 8, 0, 4), PLATFORM], booms=[boom], stands=stands)


def test_things_come_as_written_solids_first_then_positions_then_arms(rig):
    told = [(thing.name, thing.sort) for thing in obstacles_of(rig)]
    assert told == [
        ("wall", SOLID),
        ("platform", SOLID),
        ("p", PIPE),
        ("boom", BOOM),
        ("high", STAND),  # a stand on the deck is no tube
        ("arm of boom/1", ARM),
    ]


def test_tubes_run_from_end_to_end_and_are_as_thick_as_a_pipe(rig):
    things = {thing.name: thing for thing in obstacles_of(rig)}
    assert things["p"].ends == ((-10.0, 0.0, 6.0), (10.0, 0.0, 6.0))
    # The boom stands on the platform, 0.5 m up; the arm reaches 0.4 m SR from it at the clamp's height.
    assert np.array(things["boom"].ends) == pytest.approx(np.array([(5, 2, 0.5), (5, 2, 3.5)]))
    assert np.array(things["arm of boom/1"].ends) == pytest.approx(
        np.array([(5, 2, 3), (4.6, 2, 3)])
    )
    assert np.array(things["high"].ends) == pytest.approx(np.array([(1, 1, 0), (1, 1, 1.2)]))
    away = np.hypot(things["p"].shape.vertices[1], things["p"].shape.vertices[2] - 6.0)
    assert away == pytest.approx(TUBE_RADIUS, rel=0.02)


def test_an_arm_knows_its_unit_and_nothing_else_does(rig):
    assert [thing.unit for thing in obstacles_of(rig)] == [-1, -1, -1, -1, -1, 1]


def test_a_pipe_is_taken_for_the_tube_of_the_trade():
    # NPS 1-1/2: 1.900 in outside diameter (ASME B36.10M).
    outside = 2 * TUBE_RADIUS
    assert outside == pytest.approx(1.900 * 0.0254, abs=5e-5)


def test_boxes_and_panels_have_their_triangles(rig):
    things = {thing.name: thing.shape for thing in obstacles_of(rig)}
    assert things["wall"].faces.shape == (3, 2)
    assert things["platform"].faces.shape == (3, 12)
    assert things["platform"].vertices.max(axis=1) == pytest.approx([6, 3, 0.5])
