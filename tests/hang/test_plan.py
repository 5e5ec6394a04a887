"""The whole plan: its keys, its calm with little, and the worked scenes."""

import math
from pathlib import Path

import msgspec
import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_scene, random_scene
from tests.shows import rig_of

SCENES = Path(__file__).parents[2] / "scenes"
WORKED = ["studio", "playhouse", "raked"]


def as_json(scene):
    return msgspec.json.decode(msgspec.json.encode(hang_plan(solve_rig(scene))))


def test_the_json_has_the_promised_keys():
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=(0, 4, 1.6), circuit="a")
    told = as_json(a_scene([unit]))
    assert {"positions", "circuits"} <= told.keys()
    position = told["positions"][0]
    assert {"position", "weight", "lines", "units"} <= position.keys()
    row = position["units"][0]
    assert {"unit", "at", "from_start", "from_end", "spacing"} <= row.keys()
    assert {"side", "furthest"} <= row["connector"].keys()
    assert {"worst", "usable"} <= row["tail"].keys()
    assert {"run", "stock", "double_back", "ties"} <= row["cable"].keys()
    assert {"circuit", "watts", "amps", "limit", "units"} <= told["circuits"][0].keys()


def test_an_empty_scene_has_an_empty_plan():
    told = as_json(a_scene([], pipes=[]))
    assert (told["positions"], told["circuits"], told["cables"], told["counts"]) == ([], [], [], [])


@pytest.mark.parametrize("mount", ["under", "over", "out", "arm", "direct", "stand"])
def test_units_that_say_little_are_planned_all_the_same(mount):
    told = as_json(random_scene(mount, 5, 9))
    for position in told["positions"]:
        for unit in position["units"]:
            assert unit["tail"]["worst"] is None
            assert unit["cable"]["run"] is None


@pytest.mark.parametrize("name", WORKED)
def test_weights_of_the_worked_scenes_hang_on_their_lines(name):
    scene = load_scene(str(SCENES / name))
    checked = 0
    for position in hang_plan(solve_rig(scene)).positions:
        if position.lines:
            assert math.fsum(line.load for line in position.lines) == pytest.approx(position.weight)
            checked += 1
    assert checked or name == "raked"


@pytest.mark.parametrize("name", WORKED)
def test_cables_of_the_worked_scenes_reach_and_are_not_used_twice(name):
    scene = load_scene(str(SCENES / name))
    plan = hang_plan(solve_rig(scene))
    used = {}
    for cable in plan.cables:
        if cable.stock is not None:
            assert cable.stock >= cable.need
            used[cable.stock] = used.get(cable.stock, 0) + 1
    owned = {c.length: c.count for c in scene.cables}
    assert used
    assert all(count <= owned[length] for length, count in used.items())


@pytest.mark.parametrize("name", WORKED)
def test_connectors_nobody_placed_keep_the_loop_over_the_focus_swing(name):
    for position in hang_plan(rig_of(name)).positions:
        for unit in position.units:
            if unit.connector.place is not None and not unit.connector.typed:
                assert unit.tail.focus <= unit.tail.usable + 1e-6
                assert unit.tail.worst <= unit.tail.tipping + 1e-12
                assert unit.tail.aim <= unit.tail.worst + 1e-12
