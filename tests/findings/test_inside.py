"""Targets where scenery already is."""

from __future__ import annotations

import os

import msgspec
import pytest

from aimcalc.geometry.solids import box
from aimcalc.scene.model import Solid, Target
from tests.findings.clean import CLEAN, changed, with_special, with_target_on_back
from tests.findings.judged import says, told, upright, with_solids

RULE = "target-in-scenery"


def rules(scene):
    return [f for f in told(scene) if f[1] == RULE]


@pytest.mark.parametrize(("y", "tells"), [(2.09, True), (2.11, False), (1.89, False)])
def test_a_face_whose_owner_would_stand_through_a_flat_is_a_warn(y: float, tells: bool):
    # Somebody is drawn 20 cm thick; targets A, B and C are at y = 2.
    scene = with_solids(upright("flat", y, 0.0, 2.5, -0.5, 0.5))
    assert rules(scene) == ([("warn", RULE, None)] if tells else [])
    if tells:
        assert says(scene, RULE) == ("Target B (units front/2, front/5 and back/2) is inside flat.")


def test_a_sill_that_is_stepped_over_and_a_border_overhead_do_not_count():
    assert rules(with_solids(upright("sill", 2.0, 0.0, 0.29, -0.5, 0.5))) == []
    assert rules(with_solids(upright("wall", 2.0, 0.0, 0.31, -0.5, 0.5))) == [("warn", RULE, None)]
    assert rules(with_solids(upright("border", 2.0, 3.0, 5.0, -0.5, 0.5))) == []


def test_a_point_on_a_drop_is_what_is_aimed_at():
    drop = upright("drop", 7.0, 0.0, 5.0)
    assert rules(with_special((-4.0, 7.0, 2.0), with_solids(drop))) == []


@pytest.fixture
def rock(tmp_path):
    """A scene folder with a mesh 1 m wide, 1 m deep and 1.2 m high, its middle at (-4, 3)."""
    shape = box((-0.5, -0.5, 0.0), (0.5, 0.5, 1.2))
    lines = [f"v {x} {y} {z}" for x, y, z in shape.vertices.T]
    lines += [f"f {a + 1} {b + 1} {c + 1}" for a, b, c in shape.faces.T]
    (tmp_path / "rock.obj").write_text("\n".join(lines) + "\n")
    solid = Solid(name="rock", mesh="rock.obj", move=(-4.0, 3.0, 0.0))
    return changed(CLEAN, folder=os.fspath(tmp_path), solids=(solid,))


@pytest.mark.parametrize(
    ("point", "tells"),
    [
        ((-4.0, 3.0, 0.6), True),
        ((-4.0, 2.5, 0.6), False),  # on its face
        ((-4.0, 2.2, 0.6), False),
        ((-4.0, 3.0, 1.6), False),  # over it
    ],
)
def test_a_point_inside_a_mesh_is_a_warn_and_one_on_it_is_not(rock, point, tells):
    expected = [("warn", RULE, "back/4")] if tells else []
    assert rules(with_special(point, rock)) == expected


def test_a_face_whose_owner_would_stand_in_a_mesh_is_a_warn(rock):
    target = Target(name="D", x=-4.0, y=3.4, plane="face", plane_given=True)
    assert rules(with_target_on_back(target, rock)) == [("warn", RULE, "back/4")]
    stood_on = changed(rock, solids=(msgspec.structs.replace(rock.solids[0], stand_on=True),))
    assert rules(with_target_on_back(target, stood_on)) == []
