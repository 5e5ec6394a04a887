"""Where light stops: scenes worked out by hand; `tests/outside/test_meets.py` has another engine's rays."""

from __future__ import annotations

import sys
from pathlib import Path

import msgspec
import numpy as np
import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Solid, Stage, Stand, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import FOOT, a_kind, a_pipe, a_scene

SCENES = Path(__file__).parents[2] / "scenes"

# A pivot at (0, 0, 6) and a face at 4 m US, 2 m up: the axis falls 1 m for each 1 m upstage.
FLAT = ((-1.0, 4.5, 0.0), (1.0, 4.5, 0.0), (1.0, 4.5, 3.0), (-1.0, 4.5, 3.0))
SQUARE = ((-5.0, 0.0), (5.0, 0.0), (5.0, 8.0), (-5.0, 8.0))


def stop(*solids, stage=None, **target):
    face = {"name": "t", "x": 0.0, "y": 4.0, "z": 0.0, "face_height": 2.0, **target}
    scene = a_scene(
        [Unit(position="p", number="1", at=0.0, kind="k", target="t")],
        [Target(**face)],
        kinds=[a_kind(drop_under=0.0, nose=0.0)],
        pipes=[a_pipe(trim=6.0)],
        solids=tuple(solids),
        stage=stage or Stage(),
    )
    rig = solve_rig(scene)
    return rig.answers[0].meets, rig.meets


def box(name, *corners, stand_on=False):
    return Solid(name=name, box=corners, stand_on=stand_on)


HAND = {
    # 6 m up at y = 0, falling 1 m for each metre: z = 6 - y on the way.
    "bare deck": ([], None, ("deck", 6.0, 0.0, 0.0, "top")),
    "platform top": ([box("riser", -1, 5, 0, 1, 9, 0.5)], None, ("riser", 5.5, 0.5, 0.5, "top")),
    "platform front": ([box("riser", -1, 5, 0, 1, 9, 1.5)], None, ("riser", 5, 1, 1, "upright")),
    "a flat": ([Solid(name="flat", panel=FLAT)], None, ("flat", 4.5, 1.5, 1.5, "upright")),
    "a border on the way to the face": (
        [Solid(name="border", panel=((-9, 2, 3), (9, 2, 3), (9, 2, 5), (-9, 2, 5)))],
        None,
        ("border", 2.0, 4.0, 4.0, "upright"),
    ),
    "beside a flat": ([box("flat", 1, 4.5, 0, 2, 4.6, 3)], None, ("deck", 6.0, 0.0, 0.0, "top")),
    "a cloth is the deck": ([box("cloth", -1, 4, 0, 1, 9, 0.0005)], None, ("deck", 6, 0, 0, "top")),
    # Deck at 0.1 (y - 2): 6 - y = 0.1 y - 0.2, y = 6.2 / 1.1.
    "a rake": (
        [],
        Stage(rake=0.1, rake_from=2.0),
        ("deck", 6.2 / 1.1, 6 - 6.2 / 1.1, 0.0, "top"),
    ),
    # The top at z = 1 is met at y = 5, where the deck is 0.3 up.
    "a platform on a rake": (
        [box("riser", -1, 4.8, 0, 1, 9, 1)],
        Stage(rake=0.1, rake_from=2.0),
        ("riser", 5.0, 1.0, 0.7, "top"),
    ),
    "within the outline": ([], Stage(outline=SQUARE), ("deck", 6.0, 0.0, 0.0, "top")),
    "past the outline": ([], Stage(outline=((-5, 0), (5, 0), (5, 5.5), (-5, 5.5))), None),
}


@pytest.mark.parametrize("case", HAND)
@pytest.mark.parametrize("stand_on", [True, False])
def test_the_axis_stops_where_it_does_by_hand(case, stand_on):
    solids, stage, expected = HAND[case]
    told, arrays = stop(
        *(msgspec.structs.replace(s, stand_on=stand_on) for s in solids), stage=stage
    )
    if expected is None:
        assert told is None
        assert (arrays.surface[0], arrays.top[0], arrays.upright[0]) == (-1, False, False)
        return
    name, y, z, height, sort = expected
    assert told.name == name
    assert told.point == pytest.approx((0.0, y, z), abs=1e-9)
    assert told.height == pytest.approx(height, abs=1e-9)
    assert (arrays.top[0], arrays.upright[0]) == (sort == "top", sort == "upright")
    assert arrays.on_deck[0] == (name == "deck")
    assert arrays.on_solid[0] == (name != "deck")


def test_a_performer_on_a_platform_is_passed_and_the_top_behind_is_met():
    """Feet at 1 m, face at 3 m: 3 down in 4, so the top is met where 6 - 0.75 y = 1, y = 20 / 3."""
    told, arrays = stop(box("riser", -1, 3, 0, 1, 9, 1, stand_on=True), z=None)
    assert told.name == "riser"
    assert told.point == pytest.approx((0.0, 20 / 3, 1.0))
    assert arrays.top[0]


@pytest.mark.parametrize(("slope", "sort"), [(30, "top"), (44, "top"), (46, "upright")])
def test_a_face_is_upright_from_where_height_places_a_mark_better_than_the_plan(slope, sort):
    rise = np.tan(np.radians(slope))
    bank = Solid(name="bank", panel=((-1, 4, 0), (1, 4, 0), (1, 7, 3 * rise), (-1, 7, 3 * rise)))
    told, arrays = stop(bank)
    y = (6 + 4 * rise) / (1 + rise)  # 6 - y = rise (y - 4)
    assert told.point == pytest.approx((0.0, y, 6 - y))
    assert (arrays.top[0], arrays.upright[0]) == (sort == "top", sort == "upright")
    assert arrays.normal[:, 0] == pytest.approx(
        (0, -np.sin(np.radians(slope)), np.cos(np.radians(slope)))
    )


def test_the_underside_of_what_is_level_is_no_place_to_land():
    ceiling = Solid(name="ceiling", panel=((-1, 4, 8), (1, 4, 8), (1, 7, 8), (-1, 7, 8)))
    told, arrays = stop(ceiling, z=5.0)  # a face at 7 m: up 1 in 4, never at 8 below y = 8
    assert told is None
    told, arrays = stop(ceiling, z=5.6)  # at 7.6: up 1.6 in 4, 8 is reached at y = 5
    assert (told.name, told.point) == ("ceiling", pytest.approx((0, 5, 8)))
    assert (arrays.top[0], arrays.upright[0]) == (False, True)


def test_a_unit_below_the_deck_shines_through_its_trap():
    """0.5 m down, a face at 1.65: the deck has an opening there, or nothing would be lit."""
    scene = a_scene(
        [Unit(position="pit", number="1", kind="k", target="t", mount="stand")],
        [Target(name="t", x=0.0, y=4.0)],
        stands=[Stand(name="pit", x=0.0, y=2.0, z=-0.5)],
        kinds=[a_kind(drop_over=0.0, nose=0.0)],
        solids=[Solid(name="wall", panel=((-9, 6, 0), (9, 6, 0), (9, 6, 6), (-9, 6, 6)))],
    )
    told = solve_rig(scene).answers[0].meets  # up 2.15 in 2, so 3.8 m up at the wall
    assert (told.name, told.height) == ("wall", pytest.approx(3.8))


def test_nothing_that_casts_rays_is_needed(monkeypatch):
    """The same with embreex out of reach, and with trimesh too where no mesh file needs it."""
    there = solve_rig(load_scene(SCENES / "playhouse")).answers
    for name in ("embreex", "embreex.mesh_construction", "embreex.rtcore_scene", "trimesh"):
        monkeypatch.setitem(sys.modules, name, None)
    without = solve_rig(load_scene(SCENES / "playhouse")).answers
    assert [a.meets for a in without] == [a.meets for a in there]


# --- The units of the playhouse that were sent to floor marks that their light cannot reach ------------

FRONT = {f"house pipe/{n}": ("platform", "upright") for n in (3, 5, 7, 14, 16, 18)}
CYC = {f"pipe 5/{n}": ("painted drop", "upright") for n in (1, 2, 4, 6, 8, 9)}
DOOR = dict.fromkeys(("house pipe/1", "house pipe/10", "pipe 1/4"), ("door flat", "upright"))
TOPS = dict.fromkeys(("pipe 3/1", "pipe 3/7", "pipe 4/1", "pipe 4/6"), ("platform", "top"))


@pytest.mark.parametrize("unit", [*FRONT, *CYC, *DOOR, *TOPS])
def test_the_playhouse_units_that_never_reach_the_deck(unit):
    rig = solve_rig(load_scene(SCENES / "playhouse"))
    name, sort = {**FRONT, **CYC, **DOOR, **TOPS}[unit]
    k = rig.names.index(unit)
    told = rig.answers[k].meets
    assert told.name == name
    assert rig.meets.upright[k] == (sort == "upright")
    if unit in FRONT:  # 3'-1" up the front, at 12'-0" US (issued figures)
        assert told.point[1] / FOOT == pytest.approx(12.0)
        assert told.height / FOOT == pytest.approx(3 + 1 / 12, abs=1 / 24)
    if unit in CYC:  # aimed at a point of the drop itself, 8'-0" up
        assert (told.point[1] / FOOT, told.height / FOOT) == pytest.approx((27.5, 8.0))
    if unit in TOPS:
        assert told.height / FOOT == pytest.approx(4.0)
