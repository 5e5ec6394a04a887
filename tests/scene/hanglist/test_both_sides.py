"""Rows that stand for a unit on each of several positions."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

_BOOM = '[[boom]]\nname = "{}"\nx = {}\ny = 2\nheight = 5\n'
HOUSE = (
    '[scene]\ntitle = "House"\nunit = "m"\nhang = "list.csv"\n'
    + "".join(_BOOM.format(name, x) for name, x in (("SL 1", 5), ("SR 1", -5), ("SL 2", 6)))
    + '[[target]]\nname = "Door"\nx = 1\ny = 4\n[[target]]\nname = "Table"\nx = -1\ny = 4\n'
    + '[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'
)
HEAD = "Boom,Unit,Height,Type,Focus,Channel,Dimmer"


def _read(tmp_path: Path, *lines: str) -> list[tuple[str, object, str, str]]:
    units = scene_in(tmp_path, HOUSE, [*lines[:-1], HEAD, lines[-1]]).units
    return [(u.position, u.channel, str(u.circuit), str(u.target)) for u in units]


@pytest.mark.parametrize(
    ("named", "channels"),
    [
        ("SL 1 / SR 1", "11 / 21"),
        ("SL1/SR1", "11/21"),
        ("SL 1 & SR 1", "11 & 21"),
        ("SL 1 and SR 1", "11 and 21"),
        ("SL/SR 1", "11/21"),
        ("SL + SR 1", "11 + 21"),
    ],
)
def test_a_row_of_both_sides_is_a_unit_on_each(tmp_path: Path, named: str, channels: str) -> None:
    row = f"{named},1,2,spot,Door,{channels},5 / 6"
    assert _read(tmp_path, row) == [("SL 1", "11", "5", "Door"), ("SR 1", "21", "6", "Door")]


def test_what_is_said_once_holds_for_both_and_a_blank_position_is_that_above(
    tmp_path: Path,
) -> None:
    rows = (
        "SL 1 / SR 1,1,2,spot,Door / Table,11/21,5\n,2,3,spot,Door,12/22,6\nSL 2,1,2,spot,Door,13,7"
    )
    read = _read(tmp_path, rows + "\n,2,3,spot,Door,14,8")
    assert read == [
        ("SL 1", "11", "5", "Door"),
        ("SR 1", "21", "5", "Table"),
        ("SL 1", "12", "6", "Door"),
        ("SR 1", "22", "6", "Door"),
        ("SL 2", "13", "7", "Door"),
        ("SL 2", "14", "8", "Door"),
    ]


def test_a_line_may_say_the_order(tmp_path: Path) -> None:
    row = "SL 1 / SR 1,1,2,spot,Door,11 / 21,5 / 6"
    said = "Pairs: first number is the SL boom and second the SR boom"
    assert _read(tmp_path, said, row)[0] == ("SL 1", "11", "5", "Door")
    other = "Pairs: first number is the SR boom and second the SL boom"
    assert "holds 2" in asked_in(tmp_path, HOUSE, [other, HEAD, row])


@pytest.mark.parametrize("channels", ["11", "11/12/13", "11/11"])
def test_a_row_of_both_sides_without_a_channel_each_is_asked_about(
    tmp_path: Path, channels: str
) -> None:
    row = f"SL 1 / SR 1,1,2,spot,Door,{channels},5"
    assert "holds 2" in asked_in(tmp_path, HOUSE, [HEAD, row])


NAMED_ALIKE = HOUSE + (
    '[[target]]\nname = "Fond"\nx = 0\ny = 6\n[[kind]]\nname = "Fondljus"\nfamily = "fresnel"\nfield = 60\n'
)


def test_lights_over_targets_of_which_one_is_named_much_as_a_kind(tmp_path: Path) -> None:
    rows = ["SL 1,1,spot,Door,2", "SR 1,1,spot,Table,2", "SL 2,1,Fondljus,Fond,2"]
    units = scene_in(tmp_path, NAMED_ALIKE, ["Boom,Nr,Lamp,Lights,Height", *rows]).units
    read = [(str(unit.kind), str(unit.target)) for unit in units]
    assert read == [("spot", "Door"), ("spot", "Table"), ("Fondljus", "Fond")]


def test_lights_over_kinds_are_kinds(tmp_path: Path) -> None:
    rows = ["SL 1,1,Door,spot,2", "SR 1,1,Table,spot,2", "SL 2,1,Fond,Fondljus,2"]
    units = scene_in(tmp_path, NAMED_ALIKE, ["Boom,Nr,Focus,Lights,Height", *rows]).units
    read = [(str(unit.kind), str(unit.target)) for unit in units]
    assert read == [("spot", "Door"), ("spot", "Table"), ("Fondljus", "Fond")]
