"""Units whose columns are shared over two tables that name position and number."""

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

Rows = Sequence[Sequence[Any]]

HUNG = [
    ["Position", "No", "Place", "Type", "Focus"],
    ["LX 1", 1, "2 m SL", "spot", "A"],
    ["LX 1", 2, "2 m SR", "wide", "Door"],
    ["LX 2", 1, "1 m SL", "spot", "Table"],
]
PATCH = [
    ["Position", "No", "Channel", "Dimmer"],
    ["LX 1", 1, 11, 6],
    ["LX 1", 2, 12, 7],
    ["LX 2", 1, 13, 8],
]
WHOLE = [("LX 1", "11", "6"), ("LX 1", "12", "7"), ("LX 2", "13", "8")]


def _read(folder: Path, sheets: dict[str, Rows], more: str = "") -> Scene:
    path = write_scene(folder, MORE, settings=f'hang = "hang.xlsx"\n{more}')
    with Workbook(folder / "hang.xlsx") as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for n, row in enumerate(rows):
                sheet.write_row(n, 0, row)
    return load_scene(path)


def _asked(folder: Path, sheets: dict[str, Rows]) -> str:
    with pytest.raises(SceneError) as refused:
        _read(folder, sheets)
    return refused.value.report()


def _plugged(scene: Scene) -> list[tuple[str, str, str]]:
    return [(unit.position, str(unit.channel), str(unit.circuit)) for unit in scene.units]


def _told(scene: Scene) -> str:
    return "\n".join(taken.says for taken in scene.taken)


JOINT = [["Unit", "Channel", "Dimmer"], ["LX 1-1", 11, 6], ["LX 1-2", 12, 7], ["LX 2-1", 13, 8]]
OVER = [["No", "Channel", "Dimmer"], ["LX 1"], [1, 11, 6], [2, 12, 7], ["LX 2"], [1, 13, 8]]
HOOKUP = [
    ["Channel", "Position", "No", "Type", "Focus", "Dimmer"],
    [13, "LX 2", 1, "spot", "Table", 8],
    [12, "LX 1", 2, "wide", "Door", 7],
    [11, "LX 1", 1, "spot", "A", 6],
]


@pytest.mark.parametrize("patch", [PATCH, JOINT, OVER, HOOKUP])
@pytest.mark.parametrize("first", [False, True])
def test_channels_and_dimmers_on_another_sheet(patch: Rows, first: bool, tmp_path: Path) -> None:
    sheets = {"Patch": patch, "Hang": HUNG} if first else {"Hang": HUNG, "Patch": patch}
    scene = _read(tmp_path, sheets)
    assert _plugged(scene) == WHOLE
    assert [unit.at for unit in scene.units] == [2.0, -2.0, 1.0]
    says = "of the units are read from sheet Patch, whose rows are those of sheet Hang"
    assert says in _told(scene)
    assert "not read" not in _told(scene)


def test_places_on_one_sheet_and_what_hangs_there_on_another(tmp_path: Path) -> None:
    places = [row[:3] for row in HUNG]
    scene = _read(tmp_path, {"Rig": places, "Schedule": HOOKUP})
    assert _plugged(scene) == WHOLE
    assert [(unit.kind, unit.target) for unit in scene.units] == [
        ("spot", "A"),
        ("wide", "Door"),
        ("spot", "Table"),
    ]


def test_a_patch_of_two_sheets_of_bars(tmp_path: Path) -> None:
    one, other = [HUNG[0], *HUNG[1:3]], [HUNG[0], HUNG[3]]
    scene = _read(tmp_path, {"LX 1": one, "LX 2": other, "Patch": PATCH})
    assert _plugged(scene) == WHOLE


def test_units_without_a_row_there_are_told(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Hang": HUNG, "Patch": PATCH[:3]})
    assert _plugged(scene)[2] == ("LX 2", "None", "None")
    assert "1 have no row there" in _told(scene)


def test_names_read_on_the_other_sheet_are_told(tmp_path: Path) -> None:
    patch = [PATCH[0], *([row[0].replace("LX", "Electric"), *row[1:]] for row in PATCH[1:])]  # type: ignore[attr-defined]
    scene = _read(tmp_path, {"Hang": HUNG, "Patch": patch})
    assert _plugged(scene) == WHOLE
    assert '"Electric 1" is LX 1' in _told(scene)


def test_a_row_that_is_none_of_the_units_is_asked(tmp_path: Path) -> None:
    asked = _asked(tmp_path, {"Hang": HUNG, "Patch": [*PATCH, ["LX 2", 2, 14, 9]]})
    assert "sheet Patch, row 5" in asked
    assert "LX 2 2" in asked
    assert "hang_sheet" in asked


def test_a_unit_that_has_two_rows_is_asked(tmp_path: Path) -> None:
    asked = _asked(tmp_path, {"Hang": HUNG, "Patch": [*PATCH, ["LX 2", 1, 14, 9]]})
    assert "a row for each unit, and row 4 has it too" in asked


@pytest.mark.parametrize(("column", "key"), [(3, "kind"), (4, "target")])
def test_two_sheets_that_do_not_say_the_same_are_asked(
    column: int, key: str, tmp_path: Path
) -> None:
    other = [list(row) for row in HOOKUP]
    other[1][column] = {3: "wide", 4: "Door"}[column]
    asked = _asked(tmp_path, {"Hang": HUNG, "Patch": other})
    assert f"the same {key} as in row 4 of sheet Hang" in asked


def test_the_sheet_that_the_scene_names_is_read_alone(tmp_path: Path) -> None:
    sheets = {"Hang": HUNG, "Patch": [*PATCH, ["LX 2", 2, 14, 9]]}
    scene = _read(tmp_path, sheets, 'hang_sheet = "Hang"')
    assert _plugged(scene)[0] == ("LX 1", "None", "None")


@pytest.mark.parametrize("name", ["Old patch", "Patch"])
def test_another_time_and_other_units_are_not_read(name: str, tmp_path: Path) -> None:
    patch = PATCH if name != "Patch" else [PATCH[0], ["LX 1", 31, 1, 1], ["LX 2", 32, 2, 2]]
    scene = _read(tmp_path, {"Hang": HUNG, name: patch})
    assert _plugged(scene)[0] == ("LX 1", "None", "None")
    assert f'"{name}"' in _told(scene)
    assert "not read" in _told(scene)


def _below(folder: Path, *tables: Rows) -> Scene:
    rows = [row for table in tables for row in (*table, [])]
    return _read(folder, {"Hang": rows})


def _beside(left: Rows, right: Rows, gap: int) -> Rows:
    wide = len(left[0])
    return [
        [*row, *[""] * (wide - len(row) + gap), *other]
        for row, other in zip(left, right, strict=True)
    ]


@pytest.mark.parametrize("title", [[], [["PATCH"]], [["PATCH"], []]])
def test_a_second_table_below_the_first(title: Rows, tmp_path: Path) -> None:
    scene = _below(tmp_path, HUNG, [*title, *PATCH])
    assert _plugged(scene) == WHOLE
    assert "channel and circuit of the units are read from the table from row" in _told(scene)


@pytest.mark.parametrize("gap", [0, 1, 2])
def test_a_second_table_beside_the_first(gap: int, tmp_path: Path) -> None:
    patch = [PATCH[0], PATCH[3], PATCH[1], PATCH[2]]
    scene = _read(tmp_path, {"Hang": _beside(HUNG, patch, gap)})
    assert _plugged(scene) == WHOLE
    assert "the table beside it" in _told(scene)


def test_a_row_of_a_second_table_that_is_none_of_the_units_is_asked(tmp_path: Path) -> None:
    with pytest.raises(SceneError) as refused:
        _below(tmp_path, HUNG, [*PATCH, ["LX 2", 2, 14, 9]])
    assert "sheet Hang, row 10" in refused.value.report()
    assert "one unit of the first table" in refused.value.report()


def test_more_units_under_other_headings_are_units(tmp_path: Path) -> None:
    more = [["No", "Position", "Channel", "Type", "Place", "Focus"]]
    more += [[2, "LX 2", 14, "spot", "2 m SR", "A"]]  # type: ignore[list-item]
    scene = _below(tmp_path, HUNG, more)
    assert [(u.position, str(u.channel)) for u in scene.units][-1] == ("LX 2", "14")
    assert len(scene.units) == 4


def test_units_above_wider_headings_are_read_too(tmp_path: Path) -> None:
    wider = [["Position", "No", "Place", "Type", "Focus", "Channel", "Colour"]]
    wider += [["LX 2", 2, "2 m SR", "spot", "A", 14, "L201"]]  # type: ignore[list-item]
    scene = _below(tmp_path, HUNG, wider)
    assert [(u.position, u.number, u.colour) for u in scene.units] == [
        ("LX 1", "1", None),
        ("LX 1", "2", None),
        ("LX 2", "1", None),
        ("LX 2", "2", "L201"),
    ]


def test_particulars_above_the_headings_are_no_headings(tmp_path: Path) -> None:
    above = [["Channel", "Position", "Type", "Focus"], ["see", "the", "legend", "below"]]
    scene = _read(tmp_path, {"Hang": [*above, *HUNG]})
    assert [unit.at for unit in scene.units] == [2.0, -2.0, 1.0]
