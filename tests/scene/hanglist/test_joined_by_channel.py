"""Units whose focus, colour or channels stand in another table by channel or circuit alone."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from tests.scene.hanglist.test_joined import HUNG, Rows, _asked, _read, _told

RIG: Rows = [
    ["Position", "No", "Place", "Type", "Channel", "Dimmer"],
    ["LX 1", 1, "2 m SL", "spot", 11, 6],
    ["LX 1", 2, "2 m SR", "wide", 12, 7],
    ["LX 2", 1, "1 m SL", "spot", 13, 8],
]
FOCUS: Rows = [
    ["Channel", "Focus", "Colour"],
    [11, "A", "L201"],
    [12, "Door", ""],
    [13, "Table", "L103"],
]
AIMED = [("A", "L201"), ("Door", None), ("Table", "L103")]
TURNED: Rows = [[row[2], row[1], row[0]] for row in FOCUS]
UNDER: Rows = [["Focus by channel"], [], *FOCUS]
NUMBERED: Rows = [["Ch", "Focus", "Gel", "Notes"], *([*row, "sharp"] for row in FOCUS[1:])]
ON_BARS: Rows = [
    ["Position", *FOCUS[0]],
    ["LX 1", *FOCUS[1]],
    ["LX 1", *FOCUS[2]],
    ["LX 2", *FOCUS[3]],
]
PAIRED: Rows = [*RIG[:3], ["LX 2", 1, "1 m SL", "spot", 11, 8]]


@pytest.mark.parametrize("focus", [FOCUS, TURNED, UNDER, NUMBERED, ON_BARS])
@pytest.mark.parametrize("first", [False, True])
def test_focus_and_colour_by_channel(focus: Rows, first: bool, tmp_path: Path) -> None:
    sheets = {"Focus": focus, "Rig": RIG} if first else {"Rig": RIG, "Focus": focus}
    scene = _read(tmp_path, sheets)
    assert [(unit.target, unit.colour) for unit in scene.units] == AIMED
    says = "read from sheet Focus, whose rows are those of sheet Rig by channel."
    assert says in _told(scene)


def test_channels_by_dimmer(tmp_path: Path) -> None:
    hung: Rows = [[*row[:4], row[5]] for row in RIG]
    patch: Rows = [
        ["Dimmer", "Channel", "Focus"],
        [6, 11, "A"],
        [7, 12, "Door"],
        [8, 13, "Table"],
        [9, 14, ""],
        [10],
    ]
    scene = _read(tmp_path, {"Hang": hung, "Patch": patch})
    assert [str(unit.channel) for unit in scene.units] == ["11", "12", "13"]
    assert "by circuit" in _told(scene)
    assert "left out, being of no unit: rows 5" in _told(scene)


def test_kinds_by_channel(tmp_path: Path) -> None:
    rig = [[*row[:3], *row[4:]] for row in RIG]
    kinds = [["spot"], ["wide"], ["spot"]]
    rows = [[*row, *kind] for row, kind in zip(FOCUS, [["Type"], *kinds], strict=True)]
    scene = _read(tmp_path, {"Rig": rig, "Focus": rows})
    assert [unit.kind for unit in scene.units] == ["spot", "wide", "spot"]


def test_a_table_by_channel_below_the_first(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Hang": [*RIG, [], *FOCUS]})
    assert [(unit.target, unit.colour) for unit in scene.units] == AIMED


def test_all_units_of_a_channel_take_its_focus(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Rig": PAIRED, "Focus": FOCUS[:3]})
    assert [unit.target for unit in scene.units] == ["A", "Door", "A"]
    assert "all units of one channel take what sheet Focus says of it: channel 11" in _told(scene)


def test_units_of_a_channel_do_not_share_a_kind(tmp_path: Path) -> None:
    rig = [[*row[:3], *row[4:]] for row in PAIRED]
    rows = [[*row, kind] for row, kind in zip(FOCUS[:3], ["Type", "spot", "wide"], strict=True)]
    asked = _asked(tmp_path, {"Rig": rig, "Focus": rows})
    assert "for the kind of a row, and 2 have its channel" in asked


def test_a_channel_without_a_row_is_asked_for_its_focus(tmp_path: Path) -> None:
    assert "Add target" in _asked(tmp_path, {"Rig": RIG, "Focus": FOCUS[:3]})


@pytest.mark.parametrize("row", [[14, "A", ""], [14, "Sofa", "L201"], ["", "Door", "L201"]])
def test_a_light_of_a_channel_that_no_unit_has_is_asked(row: Sequence[Any], tmp_path: Path) -> None:
    asked = _asked(tmp_path, {"Rig": RIG, "Focus": [*FOCUS, row]})
    assert "sheet Focus, row 5" in asked
    assert "a channel that a unit of sheet Rig has" in asked


def test_a_channel_of_no_light_is_told(tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Rig": RIG, "Focus": [*FOCUS, [99, "House lights", ""]]})
    assert [(unit.target, unit.colour) for unit in scene.units] == AIMED
    assert "of sheet Focus, left out, being of no unit: rows 5" in _told(scene)


def test_a_channel_with_two_rows_is_asked(tmp_path: Path) -> None:
    asked = _asked(tmp_path, {"Rig": RIG, "Focus": [*FOCUS, [13, "Door", ""]]})
    assert "a row for each channel, and row 4 has it too" in asked


def test_two_sheets_that_do_not_say_the_same_of_a_channel_are_asked(tmp_path: Path) -> None:
    rig = [[*row, aim] for row, aim in zip(RIG, ["Focus", "A", "Table", "Table"], strict=True)]
    asked = _asked(tmp_path, {"Rig": rig, "Focus": FOCUS})
    assert "the same target as in row 3 of sheet Rig" in asked


@pytest.mark.parametrize("name", ["Old focus", "Focus v1"])
def test_a_sheet_of_another_time_is_not_joined(name: str, tmp_path: Path) -> None:
    assert "Add target" in _asked(tmp_path, {"Rig": RIG, name: FOCUS})


def test_channels_of_other_units_are_not_joined(tmp_path: Path) -> None:
    hung: Rows = [[*row, ch] for row, ch in zip(HUNG, ("Channel", 11, 12, 13), strict=True)]  # type: ignore[misc]
    cues: Rows = [["Channel", "Focus", "Colour"], [101, "A", "L201"], [102, "Door", "L103"]]
    scene = _read(tmp_path, {"Hang": hung, "Cues": cues})
    assert [unit.colour for unit in scene.units] == [None, None, None]
    assert "of which no row is one of the units" in _told(scene)


@pytest.mark.parametrize("channels", ["11-12", "11, 12", "11 + 12", "11 thru 12", "11 & 12"])
def test_several_channels_in_one_row(channels: str, tmp_path: Path) -> None:
    focus: Rows = [FOCUS[0], [channels, "A", "L201"], [13, "Table", "L103"]]
    scene = _read(tmp_path, {"Rig": RIG, "Focus": focus})
    assert [(unit.target, unit.colour) for unit in scene.units] == [
        ("A", "L201"),
        ("A", "L201"),
        ("Table", "L103"),
    ]
    assert (
        f"all units of one channel take what sheet Focus says of it: channel {channels}"
        in _told(scene)
    )


@pytest.mark.parametrize("channels", ["12-15", "11/12", "13-11", "12-13-14", "11-13"])
def test_channels_that_not_all_are_those_of_units_are_asked(channels: str, tmp_path: Path) -> None:
    focus: Rows = [*FOCUS[:2], [channels, "A", "L201"], [13, "Table", "L103"]]
    assert "sheet Focus, row" in _asked(tmp_path, {"Rig": RIG, "Focus": focus})


@pytest.mark.parametrize("patch", [["Dimmer", "Channel"], ["Channel", "Dimmer"]])
def test_a_sheet_of_circuits_and_channels_alone(patch: list[str], tmp_path: Path) -> None:
    hung: Rows = [[*row[:4], aim, row[5]] for row, aim in zip(RIG, _AIMS, strict=True)]
    first = patch[0] == "Dimmer"
    rows = [[6, 11], [7, 12], [8, 12]]
    scene = _read(
        tmp_path, {"Hang": hung, "Patch": [patch, *(r if first else r[::-1] for r in rows)]}
    )
    assert [str(unit.channel) for unit in scene.units] == ["11", "12", "12"]
    assert "channel of the units is read from sheet Patch" in _told(scene)


@pytest.mark.parametrize("head", [["Universe", "Channel"], ["Channel", "Cue"], ["Dimmer", "Watts"]])
def test_a_sheet_of_other_things_is_told_as_not_read(head: list[str], tmp_path: Path) -> None:
    hung: Rows = [[*row[:4], aim, row[5]] for row, aim in zip(RIG, _AIMS, strict=True)]
    scene = _read(tmp_path, {"Hang": hung, "Patch": [head, [6, 11], [7, 12]]})
    assert [unit.channel for unit in scene.units] == [None, None, None]
    assert 'not read: "Patch"' in _told(scene)


_AIMS = ["Focus", "A", "Door", "Table"]
