"""What `aimcalc hang` prints."""

from __future__ import annotations

import json
import re

import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.rig.rig import Rig
from aimcalc.sheets.hang_table import hang_json, hang_text
from aimcalc.solid.rig import solve_rig
from aimcalc.text.columns import table
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

SCENES = ["studio", "playhouse", "raked"]


def told_as_json(rig: Rig) -> dict:
    def refuse(word):
        raise AssertionError(f"{word} is no JSON")

    return json.loads(hang_json(rig, hang_plan(rig), a_show(rig).findings), parse_constant=refuse)


@pytest.mark.parametrize("scene", SCENES)
def test_json_has_the_promised_keys(scene):
    rig = rig_of(scene)
    data = told_as_json(rig)
    assert data["scene"] == rig.scene.settings.title
    assert data["unit_of_length"] == "m"
    assert [p["position"] for p in data["positions"]] == list(rig.scene.positions)
    for position in data["positions"]:
        assert {"position", "weight", "lines", "units"} <= set(position)
        for line in position["lines"]:
            assert {"at", "load"} <= set(line)
        for unit in position["units"]:
            promised = {
                "unit",
                "at",
                "from_start",
                "from_end",
                "spacing",
                "connector",
                "tail",
                "cable",
            }
            assert promised <= set(unit)
            assert {"side", "furthest"} <= set(unit["connector"])
            assert {"worst", "usable"} <= set(unit["tail"])
            assert {"run", "stock", "double_back", "ties"} <= set(unit["cable"])
    for circuit in data["circuits"]:
        assert {"circuit", "watts", "amps", "limit", "units"} <= set(circuit)


@pytest.mark.parametrize("scene", SCENES)
def test_json_weights_and_loads_are_sums_of_what_the_scene_says(scene):
    """A second way: kinds' weights and watts added up from the scene's own units."""
    rig = rig_of(scene)
    data = told_as_json(rig)
    for position in data["positions"]:
        units = [u for u in rig.scene.units if u.position == position["position"]]
        hung = sum(rig.scene.kinds[u.kind].weight for u in units)
        pipe = next((p for p in rig.scene.pipes if p.name == position["position"]), None)
        own = 0.0
        if pipe is not None and pipe.pipe_weight is not None:
            long = sum((b - a) ** 2 for a, b in zip(pipe.start, pipe.end, strict=True)) ** 0.5
            own = pipe.pipe_weight * long
        assert position["weight"] == pytest.approx(hung + own)
        if position["lines"]:
            assert sum(line["load"] for line in position["lines"]) == pytest.approx(hung + own)
    for circuit in data["circuits"]:
        on = [u for u in rig.scene.units if u.circuit == circuit["circuit"]]
        watts = sum(rig.scene.kinds[u.kind].watts for u in on)
        assert circuit["watts"] == pytest.approx(watts)
        assert circuit["amps"] == pytest.approx(watts / rig.scene.settings.volts)


@pytest.mark.parametrize(
    ("scene", "length"), [("studio", "m"), ("playhouse", "ft"), ("raked", "m")]
)
def test_the_table_has_every_unit_under_its_position(scene, length):
    rig = rig_of(scene)
    text = hang_text(rig, hang_plan(rig), length)
    blocks = {block.split(":")[0]: block for block in text.split("\n\n")[1:]}
    for name, rows in rig.rows.items():
        if not rows:
            continue
        lines = blocks[name].splitlines()
        numbers = [line.split()[0] for line in lines if re.match(r"  \d", line)]
        assert numbers == [rig.units[k].number for k in rows]
        assert any(line.startswith("  WEIGHT: ") for line in lines)
    assert "Cable, in laying order" in text
    assert "Circuits in use" in text
    assert "Pull for the whole show" in text
    assert f"Still to hang: {len(rig.units)} units." in text


@pytest.mark.parametrize(
    ("scene", "length"), [("playhouse", "ft"), ("playhouse", "m"), ("raked", "m")]
)
def test_the_table_has_neither_minus_signs_nor_bare_sides(scene, length):
    rig = rig_of(scene)
    text = hang_text(rig, hang_plan(rig), length)
    assert pdf_reading.minus_signs(text) == []
    assert pdf_reading.bare_sides(text) == []


def test_columns_are_as_wide_as_they_must_be_and_empty_ones_left_out():
    told = table(("unit", "none", "mark"), [["1", "", "3.00 m SL"], ["12", "", "0.50 m SR"]])
    assert told == [
        "  unit  mark",
        "  1     3.00 m SL",
        "  12    0.50 m SR",
    ]


def test_a_scene_without_units_has_nothing_but_its_title():
    rig = solve_rig(a_scene([]))
    text = hang_text(rig, hang_plan(rig), "m")
    assert text == "Test rig: 0 units"
    assert told_as_json(rig)["circuits"] == []
