"""What stands below the units of a list or between them and is none: counts, other lists, empty sockets."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import scene_of
from tests.scene.hanglist.places import places

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
