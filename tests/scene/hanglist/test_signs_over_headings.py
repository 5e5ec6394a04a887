"""A row over the headings that says which side a sign is, cell by cell, and circuits by more headings."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, scene_of

UNDER = "Bar,Fix,mm,Type,Focus,Ch\nLX 1,101,1500,spot,Door,101\nLX 1,102,-500,spot,Table,102\n"


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("mm from centre,SL +,SR -", 1),
        ("mm from centre,SR +,SL -", -1),
        ("mm,SR +,SL -", -1),
        ("SR plus,SL minus", -1),
        ("+ SL,- SR", 1),
        (",,house left +,house right -", -1),
        ("cour +,jardin -", 1),
    ],
)
def test_cells_over_the_headings_say_which_side_a_sign_is(
    tmp_path: Path, line: str, plus: int
) -> None:
    assert places_of(tmp_path, f"{line}\n{UNDER}") == [1.5 * plus, -0.5 * plus]


def test_a_sign_of_a_left_that_nobody_says_whose_it_is_is_asked_about(tmp_path: Path) -> None:
    assert "+ = left" in asked_of(tmp_path, f"left +,right -\n{UNDER}")


def _circuits(tmp_path: Path, heading: str, cells: list[str]) -> list[str | None]:
    rows = "".join(
        f"LX {1 + k // 3},{k % 3 + 1},{k % 3 + 1} m SL,spot,Door,{cell}\n"
        for k, cell in enumerate(cells)
    )
    units = scene_of(tmp_path, f"position,number,at,kind,target,{heading}\n{rows}").units
    return [unit.circuit for unit in units]


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Multi-tail", ["A-1", "A-2", "A-3", "B-1"]),
        ("Loom", ["1/1", "1/2", "1/3", "2/1"]),
        ("Breakout", ["A1", "A2", "A3", "B1"]),
        ("Grupp", ["1", "3", "5", "21"]),
        ("Gruppe", ["1", "3", "5", "5"]),
        ("Cable", ["11", "13", "16", "18"]),
    ],
)
def test_circuits_by_what_they_are_plugged_to(
    tmp_path: Path, heading: str, cells: list[str]
) -> None:
    assert _circuits(tmp_path, heading, cells) == cells


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Grupp", ["fram", "fram", "bak", "bak"]),  # a system
        ("Cable", ["5", "10", "10", "5"]),  # metres of cable
        ("Cable", ["5", "10", "15", "20"]),
        ("Tail", ["11", "13", "16", "18"]),
    ],
)
def test_columns_that_hold_no_circuits(tmp_path: Path, heading: str, cells: list[str]) -> None:
    assert _circuits(tmp_path, heading, cells) == [None] * 4
