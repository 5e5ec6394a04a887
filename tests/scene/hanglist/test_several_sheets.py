"""Units on several sheets: each named after its position, with positions among the headings or in the number,
and what one sheet says of the places on all of them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import MORE
from tests.scene.written import write_scene

TOWERS = """
[[boom]]
name = "Tower SL"
x = 4
y = 2
height = 4

[[boom]]
name = "Tower SR"
x = -4
y = 2
height = 4
"""


def _read(folder: Path, sheets: dict[str, Sequence[Sequence[Any]]]) -> Scene:
    path = write_scene(folder, MORE + TOWERS, settings='hang = "hang.xlsx"')
    with Workbook(folder / "hang.xlsx") as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for n, row in enumerate(rows):
                sheet.write_row(n, 0, row)
    return load_scene(path)


def _placed(scene: Scene) -> list[tuple[str, float | None]]:
    return [(unit.position, unit.at) for unit in scene.units]


WHERE = ["Unit", "Where", "Type", "Focus"]


def test_a_sheet_a_bar_with_the_side_before_each_place(tmp_path: Path) -> None:
    notes = [["L = stage left, R = stage right (actors' side)"]]
    one = [WHERE, [1, "L 2.5", "spot", "A"], [2, "R 1", "spot", "A"]]
    other = [WHERE, [1, "L 2", "spot", "A"], [2, "R 2", "spot", "A"]]
    scene = _read(tmp_path, {"Notes": notes, "LX 1": one, "LX 2": other})
    assert _placed(scene) == [("LX 1", 2.5), ("LX 1", -1.0), ("LX 2", 2.0), ("LX 2", -2.0)]


def test_l_and_r_of_nobody_are_asked(tmp_path: Path) -> None:
    one = [WHERE, [1, "L 2.5", "spot", "A"], [2, "R 1", "spot", "A"]]
    other = [WHERE, [1, "L 2", "spot", "A"], [2, "R 2", "spot", "A"]]
    with pytest.raises(SceneError):
        _read(tmp_path, {"LX 1": one, "LX 2": other})


@pytest.mark.parametrize(("plus", "sign"), [("SL", 1.0), ("SR", -1.0)])
def test_a_line_of_one_sheet_says_which_side_plus_is_on_the_others(
    tmp_path: Path, plus: str, sign: float
) -> None:
    minus = "SR" if plus == "SL" else "SL"
    one = [["ID", "Offset (m)", "Type", "Focus"], [1, -2.5, "spot", "A"], [2, 1.5, "spot", "A"]]
    towers = [
        ["ID", "Height (m)", "Type", "Focus"],
        ["Tower SL 1", 2.5, "spot", "A"],
        ["Tower SR 1", 3, "spot", "A"],
        [f"Offsets: minus = {minus}, plus = {plus}"],
    ]
    scene = _read(tmp_path, {"LX 1": one, "FLOOR": towers})
    assert _placed(scene) == [
        ("LX 1", -2.5 * sign),
        ("LX 1", 1.5 * sign),
        ("Tower SL", 2.5),
        ("Tower SR", 3.0),
    ]


def test_numbers_of_bars_beside_towers(tmp_path: Path) -> None:
    bars = [
        ["pipe no", "unit", "off centre", "type", "focus"],
        [1, 1, "2 SL", "spot", "A"],
        [2, 1, "2 SR", "spot", "A"],
    ]
    towers = [["tower", "unit", "height", "type", "focus"], ["SL", 1, 2.5, "spot", "A"]]
    scene = _read(tmp_path, {"overhead": bars, "towers": towers})
    assert _placed(scene) == [("LX 1", 2.0), ("LX 2", -2.0), ("Tower SL", 2.5)]


def test_positions_among_the_headings_of_each_sheet(tmp_path: Path) -> None:
    bars = [
        ["Unit", "LX 1", "Type", "Focus"],
        [1, "2 SL", "spot", "A"],
        ["Unit", "LX 2", "Type", "Focus"],
        [1, "2 SR", "spot", "A"],
    ]
    towers = [["Unit", "TOWER SL (ht.)", "Type", "Focus"], [1, 2.5, "spot", "A"]]
    scene = _read(tmp_path, {"STAGE": bars, "SIDES": towers})
    assert _placed(scene) == [("LX 1", 2.0), ("LX 2", -2.0), ("Tower SL", 2.5)]


PLAIN = ["Bar", "Unit", "Place", "Type", "Focus"]
SUMMARY = [["Position", "Units"], ["LX 1", 1], ["LX 2", 1], ["TOTAL", 2]]


def test_a_summary_of_the_sheets_is_none_of_units(tmp_path: Path) -> None:
    one, other = (WHERE, [1, "2.5 SL", "spot", "A"]), (WHERE, [1, "1 SR", "spot", "A"])
    scene = _read(tmp_path, {"Summary": SUMMARY, "LX 1": one, "LX 2": other})
    assert _placed(scene) == [("LX 1", 2.5), ("LX 2", -1.0)]
    assert any('not read: "Summary"' in taken.says for taken in scene.taken)


def test_a_sheet_of_further_units_is_not_left_out_for_want_of_places(tmp_path: Path) -> None:
    bar = (PLAIN, ["LX 1", 1, "2.5 SL", "spot", "A"])
    further = (["Bar", "Unit", "Type", "Focus"], ["LX 1", 2, "spot", "A"], ["LX 2", 1, "spot", "A"])
    with pytest.raises(SceneError) as refused:
        _read(tmp_path, {"Bars": bar, "More": further})
    assert "one sheet that holds the units" in refused.value.report()


def test_a_patch_of_the_same_units_is_left_out(tmp_path: Path) -> None:
    bar = (PLAIN, ["LX 1", 1, "2.5 SL", "spot", "A"])
    patch = (["Bar", "Unit", "Type", "Focus", "Channel"], ["LX 1", 1, "spot", "A", 7])
    assert _placed(_read(tmp_path, {"Bars": bar, "Patch": patch})) == [("LX 1", 2.5)]


_HEAD = ["Position", "No", "Place", "Lamp", "Focus"]


@pytest.mark.parametrize(
    "line", ["v1 - SUPERSEDED, do not use", "DO NOT USE!", "obsolete", "veraltet, nicht verwenden"]
)
def test_a_sheet_that_says_not_to_use_it_is_left_out(line: str, tmp_path: Path) -> None:
    now = [["v2, USE THIS ONE"], _HEAD, ["LX 1", 1, "1 m SL", "spot", "A"]]
    old = [[line], _HEAD, ["LX 1", 1, "2 m SL", "spot", "A"]]
    scene = _read(tmp_path, {"Now": now, "Before": old})
    assert [unit.at for unit in scene.units] == [1.0]
    assert any('not to be used: sheet "Before"' in taken.says for taken in scene.taken)


@pytest.mark.parametrize("line", ["last year", "do not use circuit 5", "supersedes v1: superseded"])
def test_a_sheet_that_does_not_say_so_is_asked_about(line: str, tmp_path: Path) -> None:
    now = [["v2"], _HEAD, ["LX 1", 1, "1 m SL", "spot", "A"]]
    old = [[line], _HEAD, ["LX 1", 1, "2 m SL", "spot", "A"]]
    with pytest.raises(SceneError) as refused:
        _read(tmp_path, {"Now": now, "Before": old})
    assert "one sheet that holds the units" in refused.value.report()
