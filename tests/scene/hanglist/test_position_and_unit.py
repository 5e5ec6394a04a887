"""Columns headed as positions and numbers, centre lines among sides, and bars by their numbers alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import scene_in, scene_of
from tests.scene.written import BASE


def test_names_alone_under_both_are_positions_where_units_are_numbered_beside(
    tmp_path: Path,
) -> None:
    for k, heading in enumerate(("Position & unit", "Pos / unit no", "Position and number")):
        (tmp_path / str(k)).mkdir()
        rows = f"{heading},Unit,at,kind,target\n"
        rows += "LX 1,1,1 m SL,spot,A\nLX 1,2,1 m SR,spot,A\nLX 2,1,2 m SL,spot,A\n"
        units = scene_of(tmp_path / str(k), rows + "boom SR,1,ht 2.2 m,spot,A\n").units
        assert [(u.position, u.number, u.at) for u in units] == [
            *(("LX 1", "1", 1.0), ("LX 1", "2", -1.0), ("LX 2", "1", 2.0), ("boom SR", "1", 2.2)),
        ]


@pytest.mark.parametrize(
    "height",
    ["ht. 2.2 m", "height 2.2", "h 2.2 m", "@ 2.2 m", "hgt 7'-2 5/8\"", "2.2 m ht", "HT 2.2m"],
)
def test_heights_on_a_boom_among_places_of_bars(tmp_path: Path, height: str) -> None:
    cell = height.replace('"', '""')
    rows = f'position,number,dist,kind,target\nLX 1,1,SL 1 m,spot,A\nboom SR,1,"{cell}",spot,A\n'
    assert [round(u.at or 0, 2) for u in scene_of(tmp_path, rows).units] == [1.0, 2.2]


@pytest.mark.parametrize("cell", ["C.L.", "on C.L.", "C/L", "C. L.", "CL", "0.0 C.L."])
def test_the_centre_line_under_a_heading_of_sides_is_no_left(tmp_path: Path, cell: str) -> None:
    rows = f"position,number,S.L./S.R. from C.L.,kind,target\nLX 1,1,2.9 S.L.,spot,A\nLX 1,2,{cell},spot,A\n"
    assert [u.at for u in scene_of(tmp_path, rows + "LX 1,3,2.9 S.R.,spot,A\n").units] == [
        2.9,
        0.0,
        -2.9,
    ]


BARS = """
[[pipe]]
name = "No. 1 Bar"
trim = 6
y = 5
from = -5
to = 5
[[boom]]
name = "PS Boom 1"
x = 5
y = 5
height = 4
[[boom]]
name = "OP Boom 1"
x = -5
y = 5
height = 4
"""


def test_a_heading_of_bars_numbers_no_booms_of_the_side_beside(tmp_path: Path) -> None:
    base = BASE.format(settings='hang = "list.csv"') + BARS
    rows = ["Unit;{};mm;Side;Lamp;Focus", "1;1;3200;PS;spot;A", "2;1;3200;OP;spot;A"]
    scene = scene_in(tmp_path, base, [rows[0].format("Bar No."), *rows[1:]])
    assert [(u.position, u.at) for u in scene.units] == [("No. 1 Bar", 3.2), ("No. 1 Bar", -3.2)]
    booms = scene_in(tmp_path, base, [rows[0].format("Boom"), *rows[1:]])
    assert [u.position for u in booms.units] == ["PS Boom 1", "OP Boom 1"]
