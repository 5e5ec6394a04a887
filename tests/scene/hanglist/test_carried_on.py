"""Sheets of the same headings that hold different units of one rig, whose numbers go on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.test_joined import Rows, _asked, _read, _told

HEAD = ["Position", "No", "Place", "Type", "Focus", "Channel"]
HOUSE: Rows = [
    HEAD,
    ["LX 1", 1, "3 m SL", "spot", "A", 1],
    ["LX 1", 2, "3 m SR", "spot", "A", 2],
]
MORE_UNITS: Rows = [
    HEAD,
    ["LX 1", 3, "1 m SL", "wide", "Door", 11],
    ["LX 2", 1, "1 m SR", "wide", "Table", 12],
]
ALL = [("LX 1", "1", 3.0), ("LX 1", "2", -3.0), ("LX 1", "3", 1.0), ("LX 2", "1", -1.0)]


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("Specials", []),
        ("Specials", [["Added for the one-acts"]]),
        ("Opera", [["Additional units for the opera"]]),
        ("House rig continued", []),
        ("Extras", [["hung on the house rig"], []]),
    ],
)
def test_specials_added_to_a_house_rig(name: str, title: Rows, tmp_path: Path) -> None:
    scene = _read(
        tmp_path, {"House rig": [["Stays up all week"], *HOUSE], name: [*title, *MORE_UNITS]}
    )
    assert [(unit.position, unit.number, unit.at) for unit in scene.units] == ALL
    assert "of one rig, whose numbers go on from one to the next" in _told(scene)
    assert f"House rig, {name}" in _told(scene)


def test_pages_of_one_list(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Page 1": HOUSE, "Page 2": MORE_UNITS})
    assert [(unit.position, unit.number, unit.at) for unit in scene.units] == ALL


def test_specials_before_the_house_rig(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Specials": MORE_UNITS, "House rig": HOUSE})
    assert len(scene.units) == len(ALL)


def test_specials_under_their_positions(tmp_path: Path) -> None:
    house: Rows = [HEAD[1:], ["LX 1"], *(row[1:] for row in HOUSE[1:])]
    more: Rows = [HEAD[1:], ["LX 1"], MORE_UNITS[1][1:], ["LX 2"], MORE_UNITS[2][1:]]
    scene = _read(tmp_path, {"House rig": house, "Specials": more})
    assert [(unit.position, unit.number, unit.at) for unit in scene.units] == ALL


@pytest.mark.parametrize(
    "name",
    [
        "Alternative specials",
        "Specials v2",
        "Old specials",
        "Specials night 2",
        "Specials Friday",
        "Spare specials",
        "Strike specials",
        "Extras in store",
        "Specials act 2",
        "Hamlet",
        "Rig B",
    ],
)
def test_a_sheet_of_another_time_or_of_no_addition_is_asked(name: str, tmp_path: Path) -> None:
    asked = _asked(tmp_path, {"House rig": HOUSE, name: MORE_UNITS})
    assert "one sheet that holds the units, and 2 may" in asked


@pytest.mark.parametrize(
    "title", ["For the second show", "Hung instead of units 1 and 2", "replaces the house rig"]
)
def test_a_title_of_another_show_or_instead_of_the_units_is_asked(
    title: str, tmp_path: Path
) -> None:
    asked = _asked(tmp_path, {"House rig": HOUSE, "Specials": [[title], *MORE_UNITS]})
    assert "one sheet that holds the units, and 2 may" in asked


def test_a_remark_that_units_hang_instead_of_others_is_asked(tmp_path: Path) -> None:
    rows: Rows = [*MORE_UNITS, [], ["LX 1-3 swapped for LX 1-2 on tour"]]
    assert "2 may" in _asked(tmp_path, {"House rig": HOUSE, "Specials": rows})


@pytest.mark.parametrize(
    "row",
    [
        ["LX 1", 2, "2 m SL", "wide", "Door", 14],  # a unit of the house rig again
        ["LX 1", 4, "3 m SR", "wide", "Door", 14],  # where one of it hangs
        ["LX 1", 4, "2 m SR", "wide", "Door", 2],  # on its channel
        ["LX 1", "3a", "2 m SR", "wide", "Door", 14],
        ["LX 1", "", "2 m SR", "wide", "Door", 14],
    ],
)
def test_units_that_may_be_those_of_the_house_rig_are_asked(
    row: list[object], tmp_path: Path
) -> None:
    asked = _asked(tmp_path, {"House rig": HOUSE, "Specials": [*MORE_UNITS, row]})
    assert "one sheet that holds the units, and 2 may" in asked


def test_pages_with_a_gap_between_their_numbers_are_asked(tmp_path: Path) -> None:
    more: Rows = [HEAD, ["LX 1", 7, "1 m SL", "wide", "Door", 11]]
    assert "2 may" in _asked(tmp_path, {"Page 1": HOUSE, "Page 2": more})


def test_specials_of_two_shows_are_asked(tmp_path: Path) -> None:
    more: Rows = [HEAD, ["LX 1", 4, "2 m SL", "wide", "Door", 21]]
    sheets = {"House rig": HOUSE, "Hamlet specials": MORE_UNITS, "Tempest specials": more}
    assert "and 3 may" in _asked(tmp_path, sheets)
