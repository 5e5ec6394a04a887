"""What stands below the units of a list or between them and is none: counts, other lists, empty sockets."""

from __future__ import annotations

from pathlib import Path

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import MORE, scene_of
from tests.scene.hanglist.places import places
from tests.scene.written import write_scene

_HEAD = ["Bar", "Unit", "Distance", "Type", "Focus", "Colour", "Ch"]
_UNITS = [
    ["LX 1", 1, "3 m SL", "spot", "A", "L201", 1],
    ["LX 1", 2, "1 m SR", "wide", "Door", "L103", 2],
]
_BLANK = [""] * 7


def _places(folder: Path, rows: list[list[object]]) -> list[float]:
    """Where the units of a list of these rows are."""
    text = "".join(";".join(map(str, [*row, *_BLANK][:7])) + "\n" for row in rows)
    return places(scene_of(folder, text))


@pytest.mark.parametrize(
    "foot",
    [
        [["Totals"], ["", 1, "", "spots"], ["", 1, "", "wide"]],
        [["", "", "", "spot", "", 1], ["", "", "", "wide", "", 1]],
        [["", "", "", "Total", "", 2], ["", "", "", "Spare lamps", "", 4]],
        [["STOCK"], ["spot", "", "", "12 in store"]],
        [["Type", "Qty"], ["spot", 1], ["wide", 1]],
        [["Type", "Unit", "Ch"], ["spot", 3, ""], ["wide", 2, ""]],
        [["CUES"], ["Q", "Time", "What"], [1, 3, "House to half"], [2, 0, "Blackout"]],
        [["Gel cuts:", "", "", "", "", "L201", "3 off"], ["", "", "", "", "", "L103", "2 off"]],
        [["HIRED IN", "", "", "wide", "", 1, "collect Monday"]],
        [["", "", "", "2 lanterns", "", "2 ways", "8.5 kW"]],
        [["Signed ____", "", "", "Date ____"]],
        [["Spring show", "", "", "page 1 of 2"]],
        [["LX 1", "24 kg", "100 kg"]],
        [["Groups"], [1, "front", "1 thru 3"], [2, "back", "7 thru 9"]],
        [["", "", "", "spot", "wide"], ["", "", "", 1, 1]],
        [["File: rig.xlsx", "", "", "", "", "", "printed 12/3/26"]],
        [["Houselights", "", "", "", "", 12, 22]],
        [["Equipment:"], ["spot", "", "", 1], ["wide", "", "", 1]],
    ],
)
@pytest.mark.parametrize("blank", [True, False])
def test_what_stands_below_the_units_is_none(
    tmp_path: Path, foot: list[list[object]], blank: bool
) -> None:
    headed = any(
        row[0] in ("Groups", "Houselights", "Equipment:") or str(row[0])[:4] == "File"
        for row in foot
    )
    headed = headed or any("Qty" in row or "Unit" in row or "Q" in row for row in foot)
    counted = foot[0][0] == "" and foot[0][3] == "spot"
    between = [_BLANK] if blank or headed or counted else []
    assert _places(tmp_path, [_HEAD, *_UNITS, *between, *foot]) == [3.0, -1.0]


@pytest.mark.parametrize(
    "words",
    [
        *(
            "nothing in this socket",
            "nothing",
            "no lantern",
            "tomt",
            "rien",
            "nichts",
            "do not use",
        ),
        *("dead", "-", "—", "none", "n/a"),
    ],
)
def test_a_socket_with_nothing_in_it_is_no_unit(tmp_path: Path, words: str) -> None:
    empty = ["LX 1", "", "", words, "", "", 20]
    assert _places(tmp_path, [_HEAD, _UNITS[0], empty, _UNITS[1]]) == [3.0, -1.0]


@pytest.mark.parametrize("said", [["—", "—"], ["-", "-"], ["n/a", "none"]])
def test_a_place_with_neither_a_kind_nor_a_target_is_empty(tmp_path: Path, said: list[str]) -> None:
    empty = ["LX 1", 3, "0", *said, "", 20]
    assert _places(tmp_path, [_HEAD, _UNITS[0], empty, _UNITS[1]]) == [3.0, -1.0]


@pytest.mark.parametrize("blank", [True, False])
@pytest.mark.parametrize(
    "row",
    [
        ["LX 1", 3, "0", "none", "A"],  # a unit whose kind is missing
        ["LX 1", 3, "0", "-", "A"],
        ["", 3, "", "spot"],  # one that is not placed yet
        ["", "", "", "spot", "", "", 3],
        ["LX 1", 3, "", "spot"],
        ["LX 9", 3, "0", "spott", "", "L201"],
    ],
)
def test_a_unit_that_lacks_something_is_asked_about(
    tmp_path: Path, row: list[object], blank: bool
) -> None:
    with pytest.raises(SceneError):
        _places(tmp_path, [_HEAD, *_UNITS, *([_BLANK] if blank else []), row])


def _book(folder: Path, sheets: dict[str, list[list[object]]]) -> str:
    path = write_scene(folder, MORE, settings='hang = "hang.xlsx"')
    with Workbook(folder / "hang.xlsx") as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for k, row in enumerate(rows):
                sheet.write_row(k, 0, row)
    return path


@pytest.mark.parametrize(
    "other",
    [
        ("Print", [_HEAD, *_UNITS]),
        ("By colour", [_HEAD, *_UNITS[::-1]]),
        ("By channel", [[row[-1], *row[:-1]] for row in (_HEAD, *_UNITS)]),
        ("Stock", [_HEAD, ["store", "", "", "spot"], ["store", "", "", "wide"]]),
        ("Spares", [_HEAD, ["", 1, "", "spot"]]),
    ],
)
@pytest.mark.parametrize("first", [True, False])
def test_a_sheet_that_says_the_same_again_or_holds_stock_is_left_out(
    tmp_path: Path, other: tuple[str, list[list[object]]], first: bool
) -> None:
    both = [("Hang", [_HEAD, *_UNITS]), other]
    scene = load_scene(_book(tmp_path, dict(both[::-1] if first else both)))
    assert places(scene) == [3.0, -1.0]


def test_two_sheets_of_the_same_units_otherwise_are_asked_about(tmp_path: Path) -> None:
    changed = [[*row[:5], "L202", row[6]] for row in _UNITS]
    with pytest.raises(SceneError, match="sheets"):
        load_scene(_book(tmp_path, {"Hang": [_HEAD, *_UNITS], "Day 2": [_HEAD, *changed]}))


@pytest.mark.parametrize(
    "row",
    [
        [1, "2.0", "Moving Spot", "Throne"],
        [3, "2.0", "", "Throne"],
        [3, "2.0", "Moving Spot"],
        [3, "", "spot"],
    ],
)
def test_a_row_below_a_blank_one_that_may_be_a_unit_is_asked_about(
    tmp_path: Path, row: list[object]
) -> None:
    head = ["No", "From centre (+ = SL)", "Type", "Focus"]
    rows = [head, ["LX 1"], [1, "3", "spot", "A"], [2, "-1", "wide", "Door"], _BLANK, row]
    with pytest.raises(SceneError):
        _places(tmp_path, rows)


def test_a_count_beside_the_table_is_none_of_its_columns(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "Distance", "Type", "Focus", "", "Type", "Count"]
    beside = [["", "spot", 2], ["", "wide", 1], ["", "", ""]]
    bare = [*_UNITS, ["LX 1", 3, "2 m SR", "spot", "A"]]
    rows = [head, *([*row[:5], *more] for row, more in zip(bare, beside, strict=True))]
    text = "".join(";".join(map(str, row)) + "\n" for row in rows)
    assert places(scene_of(tmp_path, text)) == [3.0, -1.0, -2.0]
