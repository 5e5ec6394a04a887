"""`aimcalc hang`, and the work at the pipe in `check` and `prep`, through the command line."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from aimcalc.cli import run

ROOT = Path(__file__).parent.parent
PLAYHOUSE = str(ROOT / "scenes" / "playhouse")
OVERLOADED = """
[scene]
title = "Too much"
volts = 230
[[pipe]]
name = "bar"
trim = 5
y = 0
from = -3
to = 3
circuits = [{ name = "A1", at = 0, limit = "500 W" }]
[[target]]
name = "mark"
x = 0
y = 4
[[kind]]
name = "spot"
family = "ers"
field = 26
watts = 750
[[unit]]
position = "bar"
number = "1"
at = 0
kind = "spot"
target = "mark"
circuit = "A1"
"""


@pytest.fixture
def overloaded(tmp_path) -> str:
    (tmp_path / "scene.toml").write_text(OVERLOADED)
    return str(tmp_path)


def test_hang_prints_the_lists_and_the_count_of_findings(capsys):
    assert run(["hang", PLAYHOUSE]) == 0
    out = capsys.readouterr().out
    assert out.startswith("The Orchard Clock, Quillbrook Playhouse Company, revision D: 78 units")
    assert "house pipe: 20 units, trim 20'-0\" measured" in out
    assert out.splitlines()[-1].startswith("0 stops, ")


def test_hang_as_json_is_one_object(capsys):
    assert run(["hang", PLAYHOUSE, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert {"positions", "circuits", "findings"} <= set(data)
    assert sum(len(position["units"]) for position in data["positions"]) == 78


def test_an_overloaded_circuit_stops_check_hang_and_prep(overloaded, capsys, tmp_path):
    assert run(["check", overloaded]) == 1
    assert "STOP  circuit-over  bar" in capsys.readouterr().out
    assert run(["hang", overloaded]) == 1
    assert "750 W of 500 W" in capsys.readouterr().out
    out = tmp_path / "sheets"
    assert run(["prep", overloaded, "-o", str(out)]) == 1
    assert not out.exists()
    assert "circuit-over" in capsys.readouterr().err


def test_what_was_typed_back_is_told_by_check(overloaded, capsys):
    scene = Path(overloaded) / "scene.toml"
    scene.write_text(OVERLOADED.replace("500 W", "2000 W") + 'hung = "tail down"\nworks = false\n')
    assert run(["check", overloaded]) == 0
    out = capsys.readouterr().out
    assert "does-not-work" in out
    assert "1 of 1 units hung, 1 tested" in out


def test_the_pieces_of_the_hang_can_be_made_by_themselves(overloaded, tmp_path):
    out = tmp_path / "sheets"
    names = "hang-sheets,hang-strip,pan-dial,plumb-card,test-sheet,counts"
    assert run(["prep", overloaded, "-o", str(out), "--draft", "--only", names]) == 1
    assert sorted(os.listdir(out)) == [
        "counts.pdf",
        "counts.xlsx",
        "hang-sheets.pdf",
        "hang-strip.pdf",
        "pan-dial.pdf",
        "plumb-card.pdf",
        "set.json",
        "test-sheet.pdf",
    ]
