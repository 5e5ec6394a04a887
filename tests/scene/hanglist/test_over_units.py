"""Rows that say the kind, the colour or the channel of the units below them, and no column does."""

from __future__ import annotations

from pathlib import Path

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import MORE, asked_of, scene_of
from tests.scene.written import write_scene

HEADS = "position,no,place,focus,ch,gel\n"
FIRST = "LX 1,1,2 SL,A,1,L201\nLX 1,2,2 SR,A,2,L201\n"
SECOND = "LX 2,1,1 SL,Door,3,L201\n"
UNDER = "no,place,focus,ch,gel\n"


def _kinds(tmp_path: Path, text: str) -> list[tuple[str, object]]:
    return [(unit.position, unit.kind) for unit in scene_of(tmp_path, text).units]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("spot", "wide"),
        ("Spots (2)", "Wides x 1"),
        ("Type: spot", "Type: wide"),
        ("Fixture - spot", "Fixture - wide"),
        ("All units are spot", "All lamps are wide"),
    ],
)
def test_a_kind_over_its_units_with_their_headings_below_it(
    one: str, other: str, tmp_path: Path
) -> None:
    read = [("LX 1", "spot"), ("LX 1", "spot"), ("LX 2", "wide")]
    assert _kinds(tmp_path, f"{one}\n{HEADS}{FIRST}{other}\n{HEADS}{SECOND}") == read
    assert _kinds(tmp_path, f"{HEADS}{one}\n{FIRST}{other}\n{SECOND}") == read


def test_a_kind_over_several_positions_is_that_of_all(tmp_path: Path) -> None:
    text = f"{UNDER}spot\nLX 1\n1,2 SL,A,1,\nLX 2\n1,1 SL,A,2,\nwide\nLX 2\n2,3 SL,Door,3,\n"
    read = [("LX 1", "spot"), ("LX 2", "spot"), ("LX 2", "wide")]
    assert _kinds(tmp_path, text) == read


def test_a_kind_below_a_position_is_not_that_of_the_next(tmp_path: Path) -> None:
    text = f"{UNDER}LX 1\nspot\n1,2 SL,A,1,\nLX 2\n1,1 SL,A,2,\nwide\n2,3 SL,Door,3,\n"
    assert "row 6, kind" in asked_of(tmp_path, text)


def test_below_another_kind_over_positions_the_position_is_asked(tmp_path: Path) -> None:
    text = f"{UNDER}spot\nLX 1\n1,2 SL,A,1,\nwide\n2,3 SL,Door,3,\n"
    assert "row 6, position" in asked_of(tmp_path, text)


@pytest.mark.parametrize("title", ["Night of the spots", "Hang list"])
def test_a_title_is_no_kind(title: str, tmp_path: Path) -> None:
    assert "kind" in asked_of(tmp_path, f"{title}\n{HEADS}{FIRST}")


@pytest.mark.parametrize(("one", "other"), [("Channel 12", "Ch. 13"), ("Channel,12", "CHANNEL,13")])
def test_a_channel_over_its_units(one: str, other: str, tmp_path: Path) -> None:
    heads = "position,no,type,place,focus,gel\n"
    text = f"{heads}{one}\nLX 1,1,spot,2 SL,A,L201\n{other}\nLX 1,2,spot,2 SR,A,L201\n"
    scene = scene_of(tmp_path, text)
    assert [unit.channel for unit in scene.units] == ["12", "13"]
    assert any("are the channels of the units below" in taken.says for taken in scene.taken)


def test_a_colour_over_its_units(tmp_path: Path) -> None:
    heads = "position,no,type,place,focus,ch\n"
    rows = [f"LX 1,{n},spot,{n} SL,A,{n}\n" for n in (1, 2, 3)]
    text = f"{heads}L201\n{rows[0]}Colour: L202,,,,,\n{rows[1]}Gel 132,,,,,\n{rows[2]}"
    assert [unit.colour for unit in scene_of(tmp_path, text).units] == ["L201", "L202", "132"]


def _of_sheets(folder: Path, sheets: dict[str, list[list[object]]]) -> list[tuple[str, object]]:
    path = write_scene(folder, MORE, settings='hang = "hang.xlsx"')
    with Workbook(folder / "hang.xlsx") as book:
        for called, rows in sheets.items():
            sheet = book.add_worksheet(called)
            for n, row in enumerate(rows):
                sheet.write_row(n, 0, row)
    return [(str(unit.number), unit.kind) for unit in load_scene(path).units]


def _sheet(number: int, place: str, position: str = "LX 1") -> list[list[object]]:
    return [["Pipe", "No", "Place", "Focus"], [position, number, place, "A"]]


@pytest.mark.parametrize("names", [("spot", "wide"), ("Spots", "WIDES")])
@pytest.mark.parametrize("other", ["LX 1", "LX 2"])
def test_sheets_named_after_the_kind_of_their_units(
    names: tuple[str, str], other: str, tmp_path: Path
) -> None:
    sheets = {names[0]: _sheet(1, "2 m SL"), names[1]: _sheet(2, "2 m SR", other)}
    assert _of_sheets(tmp_path, sheets) == [("1", "spot"), ("2", "wide")]


@pytest.mark.parametrize(
    ("names", "number"), [(("spot", "wide"), 1), (("spot", "Later"), 2), (("First", "Later"), 2)]
)
def test_other_sheets_without_kinds_are_asked_about(
    names: tuple[str, str], number: int, tmp_path: Path
) -> None:
    sheets = {names[0]: _sheet(1, "2 m SL"), names[1]: _sheet(number, "2 m SR")}
    with pytest.raises(SceneError) as refused:
        _of_sheets(tmp_path, sheets)
    assert "one sheet that holds the units, and 2 may" in refused.value.report()


def test_of_several_kinds_above_the_headings_none_is_that_of_the_units(tmp_path: Path) -> None:
    assert "kind" in asked_of(tmp_path, f"spot\nwide\n{HEADS}{FIRST}")
    assert "kind" in asked_of(tmp_path, f"spots: 2\nwides: 1\n{HEADS}{FIRST}")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("LX 1 - spot", "LX 2 - wide"),
        ("spot on LX 1", "wide on LX 2"),
        ("LX 1 (spots)", "LX 2 (wides)"),
        ("LX 1: spot", "wides: LX 2"),
        ("LX 1,spot", "LX 2,wide"),
    ],
)
def test_a_position_and_a_kind_in_one_row(one: str, other: str, tmp_path: Path) -> None:
    read = [("LX 1", "spot"), ("LX 2", "wide")]
    first, second = "1,2 SL,A,1,L201\n", "1,1 SL,Door,3,L201\n"
    assert _kinds(tmp_path, f"{UNDER}{one}\n{first}{other}\n{second}") == read
    assert _kinds(tmp_path, f"{one}\n{UNDER}{first}{other}\n{UNDER}{second}") == read


def test_a_kind_beside_a_position_is_not_that_of_the_next(tmp_path: Path) -> None:
    text = f"{UNDER}LX 1 - spot\n1,2 SL,A,1,\nLX 2\n1,1 SL,A,2,\n"
    assert "row 5, kind" in asked_of(tmp_path, text)
