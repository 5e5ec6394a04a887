"""The only column of lengths under words that nobody knows: the place, where it is known from where.
The pipe is 10 m long, its zero in the middle; the boom is 4 m."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.model import Scene
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HOUSE = BASE.format(settings='hang = "list.csv"')


def _rows(line: str, heading: str, cells: Sequence[str], position: str = "LX 1") -> list[str]:
    units = [f"{position};{n};{cell};spot;A" for n, cell in enumerate(cells, 1)]
    return [line, f"Position;No;{heading};Lamp;Focus", *units]


def _places(scene: Scene) -> list[float | None]:
    return [None if unit.at is None else round(unit.at, 6) for unit in scene.units]


@pytest.mark.parametrize(
    ("line", "heading", "cells", "places"),
    [
        ("Hook the tape on the stage right end", "Tape reads", ("1 m", "7 m"), [-4, 2]),
        ("Tape is hooked on the SR end", "Reading (m)", ("1", "7"), [-4, 2]),
        ("All measured from stage left end", "Metres in", ("0.5", "7.25"), [4.5, -2.25]),
        ("All measured from stage left end", "In", ("0.5", "7.25"), [4.5, -2.25]),
        ("From the left-hand end as you face the stage", "Metres in", ("1", "7"), [-4, 2]),
        ("From the left-hand end, as the audience sees it", "Metres in", ("1", "7"), [-4, 2]),
        ("From the left end as seen by the actors", "Metres in", ("1", "7"), [4, -2]),
        ("Minus is house left", "Out", ("-1.5", "3.25"), [-1.5, 3.25]),
        ("+ is SR", "Reads", ("-1.5", "3.25"), [1.5, -3.25]),  # and no lead
        ("+ is house left of centre", "Rides", ("-1.5", "3.25"), [1.5, -3.25]),
        ('"Walk" = from the SR end', "Walk", ("1", "2.5"), [-4, -2.5]),
        ("'In' means in from SR end of pipe", "In", ("1", "2.5"), [-4, -2.5]),
    ],
)
def test_it_is_the_place_where_a_line_says_from_where(
    line: str, heading: str, cells: Sequence[str], places: list[float], tmp_path: Path
) -> None:
    assert _places(scene_in(tmp_path, HOUSE, _rows(line, heading, cells))) == places


def test_signs_tell_that_it_is_the_place(tmp_path: Path) -> None:
    scene = scene_in(tmp_path, HOUSE, _rows("Tuesday", "Rides", ("-1 m", "0 m", "3 m")))
    assert _places(scene) == [-1, 0, 3]
    assert any("plus is read as SL" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("line", "heading"),
    [
        ("Hang on Tuesday", "Tape reads"),  # nobody says from where
        ("All measured from the SL end", "Reel"),  # of a cable
        ("All measured from the SL end", "Jumper"),
        ("All measured from the SL end", "Old tape"),
    ],
)
def test_it_is_asked_about_else(line: str, heading: str, tmp_path: Path) -> None:
    asked = asked_in(tmp_path, HOUSE, _rows(line, heading, ("1 m", "4 m", "7 m")))
    assert f'("{heading}") may hold it' in asked


def test_an_end_of_nobody_knows_whom_is_asked_about(tmp_path: Path) -> None:
    rows = _rows("From the left-hand end", "Tape reads", ("1 m", "4 m", "7 m"))
    assert "where it counts from" in asked_in(tmp_path, HOUSE, rows)


def test_how_far_from_the_centre_is_asked_about_where_no_place_says_which_way(
    tmp_path: Path,
) -> None:
    cells = ("1 m", "2 m", "3 m", "4 m")
    rows = _rows("Figures in metres from centre", "Tape reads", cells)
    assert '("Tape reads") may hold it' in asked_in(tmp_path, HOUSE, rows)


def test_an_end_of_the_stage_is_nobodys_left(tmp_path: Path) -> None:
    rows = _rows("From the left end of the stage, from the wall", "Tape reads", ("1 m", "4 m"))
    assert "where it counts from" in asked_in(tmp_path, HOUSE, rows)


@pytest.mark.parametrize(
    ("heading", "line"),
    [
        ("Down", '"Down" = from the top of the boom down to the clamp'),
        ("Drop", '"Drop": from top of boom to clamp'),
        ("Drop", "Drop is measured from the top of the boom"),
        ("Tape", "All booms measured down from the top"),
    ],
)
def test_down_of_a_boom_is_from_its_top_where_a_line_says_so(
    heading: str, line: str, tmp_path: Path
) -> None:
    scene = scene_in(tmp_path, HOUSE, _rows(line, heading, ("0.5 m", "2 m"), "boom SR"))
    assert _places(scene) == [3.5, 2]


@pytest.mark.parametrize("heading", ["cm up", "Up (cm)", "AFF (cm)", "cm above floor"])
def test_a_unit_and_up_are_a_height(heading: str, tmp_path: Path) -> None:
    rows = [
        f"Position;No;cm SL;cm SR;{heading};Lamp;Focus",
        "LX 1;1;120;;;spot;A",
        "LX 1;2;;120;;spot;A",
        "boom SR;1;;;180;spot;A",
    ]
    assert _places(scene_in(tmp_path, HOUSE, rows)) == [1.2, -1.2, 1.8]


@pytest.mark.parametrize("turned", [False, True])
def test_two_columns_of_one_place_a_row_keep_the_end_that_each_counts_from(
    turned: bool, tmp_path: Path
) -> None:
    one, other = ("{0}", "") if not turned else ("", "{0}")
    first, second = ("From SL end", "From CL") if not turned else ("From CL", "From SL end")
    rows = [
        f"Position;No;{first};{second};Lamp;Focus",
        f"LX 1;1;{one.format('1 m')};{other.format('1 m')};spot;A",
        f"LX 1;2;{one.format('7 m')};{other.format('7 m')};spot;A",
        f"LX 1;3;{other.format('3 m SR')};{one.format('3 m SR')};spot;A",
    ]
    assert _places(scene_in(tmp_path, HOUSE, rows)) == [4, -2, -3]


def test_two_ends_of_one_pipe_in_two_columns_are_never_mistaken(tmp_path: Path) -> None:
    rows = [
        "Position;No;From SL end;From SR end;Lamp;Focus",
        "LX 1;1;1 m;;spot;A",
        "LX 1;2;;1 m;spot;A",
    ]
    assert _places(scene_in(tmp_path, HOUSE, rows)) == [4, -4]


def test_feet_and_inches_may_have_a_sign_before_them(tmp_path: Path) -> None:
    house = HOUSE.replace('title = "Read me"', 'title = "Read me"\nunit = "ft"')
    house = house.replace("from = -5", "from = -20").replace("to = 5", "to = 20")
    rows = _rows("From CL, + is SL", "Loc", ("+16-00", "-5-06", "0-00"))
    assert _places(scene_in(tmp_path, house, rows)) == [4.8768, -1.6764, 0]


@pytest.mark.parametrize(
    "heading",
    [
        "0 at SR end",
        "Zero SR end",
        "Pull from SR end",
        "Walk (from SR end)",
        "Tape reads, SR end = 0",
    ],
)
def test_ways_to_say_that_a_tape_lies_from_an_end(heading: str, tmp_path: Path) -> None:
    assert _places(scene_in(tmp_path, HOUSE, _rows("x", heading, ("1 m", "7 m")))) == [-4, 2]


@pytest.mark.parametrize("heading", ["Cable from SR end", "From SR (m)", "Numbered from SR end"])
def test_what_else_is_said_with_a_side_is_no_place(heading: str, tmp_path: Path) -> None:
    assert "may hold it" in asked_in(tmp_path, HOUSE, _rows("x", heading, ("1 m", "7 m")))
