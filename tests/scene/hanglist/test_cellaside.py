"""Cells of a number, a channel, a circuit or a colour that say more than it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, scene_of, told_of

HEAD = "position,number,at,kind,target,channel,circuit,colour\n"
FIRST = "LX 1,1,1 m SL,spot,A,1,5,L201\n"


def _second(tmp_path: Path, **cells: str) -> tuple[str, ...]:
    """Number, channel, circuit, colour and note of a unit with these cells."""
    given = {"number": "3", "channel": "12", "circuit": "", "colour": "L201", **cells}
    row = "LX 1,{number},2 m SL,spot,A,{channel},{circuit},{colour}\n".format(**given)
    text = f"{HEAD}{FIRST}{row}"
    (unit,) = (unit for unit in scene_of(tmp_path, text).units if unit.at == 2)
    told = (unit.number, unit.channel, unit.circuit, unit.colour, unit.note)
    return tuple(str(value) if value is not None else "" for value in told)


@pytest.mark.parametrize(
    ("cell", "number", "note"),
    [
        ("3 (new)", "3", "new"),
        ("3 new", "3", "new"),
        ("#3 - top hat", "3", "top hat"),
        ("No 3: iris", "3", "iris"),
        ("3a - iris & top hat", "3a", "iris & top hat"),
        ("3*", "3", "*"),
        ("3rd", "3", ""),
        ("12th", "12", ""),
        ("3A", "3A", ""),
        ("3 A", "3 A", ""),
        ("3 upper", "3 upper", ""),  # beside a "3 lower"
        ("3 SL", "3 SL", ""),
        ("3 of 5", "3 of 5", ""),
    ],
)
def test_numbers(tmp_path: Path, cell: str, number: str, note: str) -> None:
    assert _second(tmp_path, number=cell) == (number, "12", "", "L201", note)


@pytest.mark.parametrize("cell", ["3 CUT", "3 (cut)", "#3 - struck", "3 deleted"])
def test_a_number_that_is_called_cut(tmp_path: Path, cell: str) -> None:
    text = f"{HEAD}{FIRST}LX 1,{cell},2 m SL,spot,A,12,,\n"
    assert len(scene_of(tmp_path / "a", text).units) == 1
    assert "called cut" in told_of(tmp_path / "b", text)


def test_a_number_of_which_it_is_asked_whether_it_is_cut(tmp_path: Path) -> None:
    assert "hangs" in asked_of(tmp_path, f"{HEAD}{FIRST}LX 1,3 (cut?),2 m SL,spot,A,12,,\n")


@pytest.mark.parametrize(
    ("cell", "channel", "circuit", "note"),
    [
        ("12 (spare)", "12", "", "spare"),
        ("(12)", "12", "", ""),
        ("12 new", "12", "", "new"),
        ("12 warm", "12", "", "warm"),
        ("12 (was 14)", "12", "", "was 14"),
        ("12*", "12", "", "*"),
        ("Ch 12 / Dim 34", "12", "34", ""),
        ("12 / D34", "12", "34", ""),
        ("12 (dim 34)", "12", "34", ""),
        ("ch12 cct A7", "12", "A7", ""),
        ("12/13", "12/13", "", ""),  # two channels, or a channel and who knows
        ("12a", "12a", "", ""),
        ("12 (L)", "12 (L)", "", ""),
        ("12 ND", "12 ND", "", ""),
    ],
)
def test_channels(tmp_path: Path, cell: str, channel: str, circuit: str, note: str) -> None:
    assert _second(tmp_path, channel=cell) == ("3", channel, circuit, "L201", note)


def test_a_circuit_beside_a_channel_that_is_another_than_its_own(tmp_path: Path) -> None:
    found = _second(tmp_path, channel="Ch 12 / Dim 34", circuit="40")
    assert found == ("3", "12", "40", "L201", "circuit: 34")


@pytest.mark.parametrize(
    ("cell", "colour", "note"),
    [
        ("L201 gobo 77105", "L201", "gobo 77105"),
        ("L201 / R77804", "L201", "R77804"),
        ("L201 (new)", "L201", "new"),
        ("L201 Full CT Blue", "L201", "Full CT Blue"),
        ("R02 Bastard Amber", "R02", "Bastard Amber"),
        ("L106 (red)", "L106", "red"),
        ("G 905 - Dark Salmon", "G 905", "Dark Salmon"),
        ("132 Medium Blue", "132", "Medium Blue"),
        ("L201 / Full CTB", "L201", "Full CTB"),
        ("L201 / Frost", "L201 / Frost", ""),
        ("R80 PRIMARY BLUE", "R80", "PRIMARY BLUE"),
        ("L201 Frost", "L201 Frost", ""),
        ("L119 Dark Blue + Frost", "L119 Dark Blue + Frost", ""),
        ("L201 and R119", "L201 and R119", ""),
        ("R02 amber", "R02 amber", ""),
        ("L201+R119", "L201+R119", ""),
        ("R02 + frost", "R02 + frost", ""),
        ("nessuna", "", ""),
        ("n/a", "", ""),
    ],
)
def test_colours(tmp_path: Path, cell: str, colour: str, note: str) -> None:
    assert _second(tmp_path, colour=cell) == ("3", "12", "", colour, note)
