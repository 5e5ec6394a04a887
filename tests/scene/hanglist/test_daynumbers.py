"""Unit numbers that a spreadsheet took for days are written as the list writes such numbers."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, BAR, HALL, asked_in, scene_in

HOUSE = HALL + BAR + ALTAR
HEAD = "Position;No;Place;Lamp;Focus"
DAYS = "Bar 1;3-Jan;2 SL;Spot;Altar"


@pytest.mark.parametrize(
    ("line", "number"),
    [
        ("Plot of the hall", "1-3"),
        ("unit = bar/unit", "1/3"),
        ("unit = bar-unit", "1-3"),
        ("Numbers are boom-unit (1-2 is boom 1, 2nd up)", "1-3"),
        ("Unit nos are bar.unit", "1.3"),
        ("1-2 is bar 1, unit 2", "1-3"),
        ("Sorry, 4-Jan is really 1-4", "1-3"),
    ],
)
def test_days_are_numbers_with_the_mark_that_a_line_writes(
    tmp_path: Path, line: str, number: str
) -> None:
    for lines in ([line, HEAD, DAYS], [HEAD, DAYS, "", line]):
        scene = scene_in(tmp_path, HOUSE, lines)
        assert [unit.number for unit in scene.units] == [number]
        assert any(f'"3-Jan" is {number}' in taken.says for taken in scene.taken)


def test_days_are_numbers_with_the_mark_of_the_others(tmp_path: Path) -> None:
    lines = [HEAD, DAYS, "Bar 1;1-13;1 SL;Spot;Altar"]
    assert [unit.number for unit in scene_in(tmp_path, HOUSE, lines).units] == ["1-3", "1-13"]


@pytest.mark.parametrize(
    ("cell", "number"), [("bar 1-3", "3"), ("Bar 1/13", "13"), ("1-13", "1-13")]
)
def test_a_number_behind_the_name_of_its_bar_is_read_beside_days_too(
    tmp_path: Path, cell: str, number: str
) -> None:
    lines = [HEAD, DAYS.replace("3-", "4-"), f"Bar 1;{cell};1 SL;Spot;Altar"]
    scene = scene_in(tmp_path, HOUSE, lines)
    assert [unit.number for unit in scene.units] == ["1-4", number]
    assert (cell == number) or any(cell in taken.says for taken in scene.taken)


def test_days_of_which_nothing_tells_the_order_are_asked_about(tmp_path: Path) -> None:
    other = "Bar 1;3-Feb;2 SL;Spot;Altar"
    assert "2-3 or 3-2" in asked_in(tmp_path, HOUSE, ["unit = bar-unit", HEAD, other])
    lines = ["4-Jan is really 1-4", HEAD, other]
    assert [unit.number for unit in scene_in(tmp_path, HOUSE, lines).units] == ["2-3"]


BARS = HALL + BAR.replace("Bar 1", "Bar A") + BAR.replace("Bar 1", "Bar B") + ALTAR
LINE = "unit numbers are bar-lantern (1-2 = first bar, 2nd lantern)"


def _numbers(tmp_path: Path, *rows: str, line: str = "") -> list[str]:
    lines = [line, HEAD, *(f"{row};{n} SL;Spot;Altar" for n, row in enumerate(rows))]
    return [unit.number for unit in scene_in(tmp_path, BARS, lines).units]


@pytest.mark.parametrize("line", ["", LINE])
def test_the_part_of_the_days_that_is_one_on_each_position_is_its_number(
    tmp_path: Path, line: str
) -> None:
    found = ["1-1", "1-2", "1-3", "2-1", "2-2"]
    for days in (
        ["1-Jan", "2-Jan", "3-Jan", "1-Feb", "2-Feb"],
        ["1-Jan", "1-Feb", "1-Mar", "2-Jan", "2-Feb"],
    ):
        rows = [f"Bar {bar};{day}" for bar, day in zip("AAABB", days, strict=True)]
        assert _numbers(tmp_path, *rows, line=line) == found
        rows = [rows[0], rows[1].replace("Bar A", ""), *rows[2:]]
        assert _numbers(tmp_path, *rows, line=line) == found


@pytest.mark.parametrize(
    ("rows", "line"),
    [
        (("Bar A;1-Jan", "Bar A;2-Jan", "Bar B;1-Jan", "Bar B;2-Jan"), ""),  # not of the bars
        (("Bar A;1-Jan", "Bar A;3-Jan", "Bar B;1-Feb"), ""),  # one is missing
        (("Bar A;1-Jan", "Bar B;2-Jan"), ""),  # one on each: either
        (("Bar A;1-Jan", "Bar A;2-Jan", "Bar B;1-Feb"), "units are lantern-bar"),
    ],
)
def test_days_that_do_not_count_on_their_positions_are_asked_about(
    tmp_path: Path, rows: tuple[str, ...], line: str
) -> None:
    lines = [line, HEAD, *(f"{row};{n} SL;Spot;Altar" for n, row in enumerate(rows))]
    assert "a spreadsheet made a date of it" in asked_in(tmp_path, BARS, lines)


ON_STANDS = """
[[stand]]
name = "Stand 1"
x = -4
y = 1
z = 2

[[stand]]
name = "Stand 2"
x = 4
y = 1
z = 2
"""
SAID = "Unit = bar, then lantern. 2-1 is bar A lantern 1, and so on"


def _with_stands(tmp_path: Path, rows: list[str], line: str) -> list[str]:
    lines = [HEAD, *(f"{row};Spot;Altar" for row in rows), "", f";{line}"]
    return [unit.number for unit in scene_in(tmp_path, BARS + ON_STANDS, lines).units]


def test_days_on_bars_beside_numbers_of_lone_stands_are_read_as_the_line_says(
    tmp_path: Path,
) -> None:
    bars = ["Bar A;1-Feb;1 SL", "Bar A;2-Feb;1 SR", "Bar B;1-Mar;1 SL", "Bar B;2-Mar;1 SR"]
    stands = ["Stand 1;4-1;", "Stand 2;4-2;"]
    found = ["2-1", "2-2", "3-1", "3-2", "4-1", "4-2"]
    assert _with_stands(tmp_path, [*bars, *stands], SAID) == found
    assert _with_stands(tmp_path, [*bars, *stands], "") == found
    assert _with_stands(tmp_path, stands, SAID) == found[4:]


def test_a_run_beside_them_is_asked_about(tmp_path: Path) -> None:
    rows = [HEAD, "Stand 1;4-1;;Spot;Altar", "Stand 2;4-2;;Spot;Altar"]
    for line in ("Bar - lamps 1-3 are spots", "4-2 for bar A"):
        assert "may be several" in asked_in(tmp_path, BARS + ON_STANDS, [*rows, "", line])
