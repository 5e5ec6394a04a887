"""How light comes to a face, against both readings of 45 and 45, and where the head's shadow falls."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.angles import CUBE_DIAGONAL, face_lights
from aimcalc.scene.model import Solid, Stage, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp
from tests.rigs import a_pipe, a_scene

FACE = 1.0


def from_place(x, y, z, *, solids=(), target=None):
    """The light of one unit whose lens is at (x, y, z) on a face 1 m over the origin."""
    scene = a_scene(
        [Unit(position="p", number="1", kind="k", at=x, target="mark")],
        [target or Target(name="mark", x=0.0, y=0.0)],
        pipes=[a_pipe("p", y=y, trim=z)],
        kinds=[a_lamp()],
        stage=Stage(),
        solids=list(solids),
        face_height=FACE,
    )
    return face_lights(solve_rig(scene))


# 14 above the target, plan offsets 9.899495 each: true elevation 45 (pymap3d agrees).
def test_true_45_and_45():
    (light,) = from_place(9.899495, -9.899495, 15.0)
    assert light.elevation == pytest.approx(45.0, abs=1e-5)
    assert light.plan == pytest.approx(45.0)
    assert light.section == pytest.approx(np.degrees(np.arctan2(14, 9.899495)))
    assert (light.side, light.from_front) == ("SL", True)


# The diagonal of a cube: 14 above and plan offsets 14 each: elevation 35.264390.
def test_the_diagonal_of_a_cube_is_45_on_plan_and_section_and_35_in_truth():
    (light,) = from_place(-9.0, -9.0, 10.0)
    assert light.elevation == pytest.approx(35.264390, abs=1e-6)
    assert pytest.approx(35.264390, abs=1e-6) == CUBE_DIAGONAL
    assert light.plan == pytest.approx(45.0)
    assert light.section == pytest.approx(45.0)
    assert light.side == "SR"


def test_back_light_is_not_from_the_front():
    (light,) = from_place(0.0, 5.0, 6.0)
    assert light.plan == pytest.approx(180.0)
    assert (light.side, light.from_front) == ("", False)


# Similar triangles: 4 m over the face and 4 m DS of it, the head 1 m up: the shadow lies 1 m US.
def test_the_heads_shadow_on_the_deck():
    (light,) = from_place(0.0, -4.0, 5.0)
    np.testing.assert_allclose(light.on_deck, (0, 1, 0), atol=1e-12)
    assert light.on_drop is None
    assert light.drop is None


DROP = Solid(name="drop", panel=((-5, 0.5, 0), (5, 0.5, 0), (5, 0.5, 6), (-5, 0.5, 6)))


def test_it_falls_on_a_drop_that_it_meets_before_the_deck():
    (light,) = from_place(0.0, -4.0, 5.0, solids=[DROP])
    np.testing.assert_allclose(light.on_drop, (0, 0.5, 0.5), atol=1e-12)
    assert light.drop == "drop"


@pytest.mark.parametrize(
    "panel",
    [
        ((-5, 2, 0), (5, 2, 0), (5, 2, 6), (-5, 2, 6)),  # beyond the deck's own shadow
        ((1, 0.5, 0), (5, 0.5, 0), (5, 0.5, 6), (1, 0.5, 6)),  # beside it
        ((-5, -1, 0), (5, -1, 0), (5, -1, 6), (-5, -1, 6)),  # before the person
        ((-5, 0.2, 0.6), (5, 0.2, 0.6), (5, 0.9, 0.6), (-5, 0.9, 0.6)),  # level: no drop
    ],
)
def test_it_falls_on_no_other_panel(panel):
    (light,) = from_place(0.0, -4.0, 5.0, solids=[Solid(name="other", panel=panel)])
    assert light.on_drop is None


def test_of_two_drops_the_nearer_one_has_it():
    near = Solid(name="near", panel=((-5, 0.3, 0), (5, 0.3, 0), (5, 0.3, 6), (-5, 0.3, 6)))
    (light,) = from_place(0.0, -4.0, 5.0, solids=[DROP, near])
    assert light.drop == "near"


def test_only_faces_have_such_angles():
    spot = Target(name="mark", x=0.0, y=0.0, plane="deck")
    assert from_place(0.0, -4.0, 5.0, target=spot) == []
    thing = Target(name="mark", x=0.0, y=0.0, z=2.0, plane="point")
    assert from_place(0.0, -4.0, 5.0, target=thing) == []


def test_level_light_has_no_shadow_on_the_deck():
    (light,) = from_place(0.0, -4.0, FACE)
    assert light.on_deck is None
    assert light.elevation == pytest.approx(0.0)
