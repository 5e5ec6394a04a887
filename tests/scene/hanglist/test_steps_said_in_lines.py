"""Lines that say how far apart the units without a place are, and from where a whole gallery counts."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import asked_of, places_of, scene_in

HOUSE = """[scene]
title = "House"
hang = "list.csv"
[[pipe]]
name = "Rail A"
start = [4, {near}, 5]
end = [4, {far}, 5]
[[pipe]]
name = "Rail B"
start = [-4, {near}, 5]
end = [-4, {far}, 5]
[[pipe]]
name = "Grid 1"
trim = 5
y = 1
from = -6
to = 6
[[target]]
name = "Left chair"
x = 3
y = 3
[[target]]
name = "Right chair"
x = -3
y = 3
[[kind]]
name = "spot"
family = "ers"
field = 26
"""


@pytest.mark.parametrize(
    ("line", "step"),
    [
        ("Units evenly spaced at 1 m, centred", 1),
        ("even spacing, 1.5 m, unit 1 SL", 1.5),
        ("Spacing 1.5 m, unit 1 at SL", 1.5),
        ("spacing = 50 cm", 0.5),
        ("Even spacing of 2'", 0.6096),
        ("2'-6\" spacing", 0.762),
        ("LX 1, unit spacing 1 m", 1),
        ("LX 1, units 2 ft apart", 0.6096),
        ("LX 1, all units 1.5 m apart", 1.5),
        ("LX 1, 1.5 m centres, unit 1 SL", 1.5),
        ("2 ft 6 in apart", 0.762),
        ("every 2 ft, centered", 0.6096),
        ("Abstand 1,5 m, symmetrisch zur Mitte", 1.5),
        ("alle 1,5 m, gleichmäßig", 1.5),
        ("espacement régulier de 1,5 m", 1.5),
        ("tous les 1,5 m, centrés", 1.5),
    ],
)
def test_a_line_says_how_far_apart_units_are(tmp_path: Path, line: str, step: float) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    quoted = line.replace('"', '""')
    text = "\n".join([f'"{quoted}",,,', *rows]) + "\n"
    assert places_of(tmp_path, text) == [pytest.approx(at) for at in (step, 0, -step)]


@pytest.mark.parametrize(
    "line",
    [
        "LX 1: units 1 m apart about the centre line, number 1 stage right",
        "LX 1, 1 m centres about centre, 1 = SR end",
        "All units at 1 m spacing either side of CL, unit 1 SR",
        "LX 1 @ 1 m spacing, centred, 1 = SR",
        "LX 1: spaced 1 m symmetrically, no 1 SR",
    ],
)
def test_about_the_centre_line_from_the_side_that_a_line_says(tmp_path: Path, line: str) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    for k, lines in enumerate(([f'"{line}",,,', *rows], [*rows, f'"{line}",,,'])):
        (tmp_path / str(k)).mkdir()
        assert places_of(tmp_path / str(k), "\n".join(lines) + "\n") == [-1, 0, 1]


@pytest.mark.parametrize(
    ("line", "side"),
    [
        ("LX 1, 1 m apart, unit 1 SR", "SR"),
        ("LX 1, 1 m apart, SR to SL", "SR"),
        ("LX 1 - 1 m apart, 1 SR to 3 SL", "SR"),
        ("LX 1: 1 m apart, 1 = SR", "SR"),
        ("Bars spaced 1 m on centre from the stage left end", "SL"),
    ],
)
def test_a_spacing_from_a_side_that_is_about_nothing_is_asked(
    tmp_path: Path, line: str, side: str
) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    with pytest.raises(SceneError, match=f"count from {side}"):
        places_of(tmp_path, "\n".join([f'"{line}",,,', *rows]) + "\n")


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("evenly spaced 1 m in from each end", (4, 0, -4)),
        ("spacing 1 m, unit 1 at SL end 50 cm in", (4.5, 3.5, 2.5)),
        ("All 6 m high, evenly spaced", (10 / 3, 0, -10 / 3)),
    ],
)
def test_and_how_far_the_first_is_from_the_end(
    tmp_path: Path, line: str, at: Sequence[float]
) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    text = "\n".join([f'"{line}",,,', *rows]) + "\n"
    assert places_of(tmp_path, text) == [pytest.approx(one) for one in at]


def read(tmp_path: Path, rows: Sequence[str], near: float = -4, far: float = 6) -> list[float]:
    """Where units are, metres from the middle of their pipe, in the order of the list."""
    scene = scene_in(tmp_path, HOUSE.format(near=near, far=far), rows)
    return [round(unit.at, 6) for unit in scene.units]


RAILS = ["Rail A,1,-2.5,spot,Left chair,", "Rail A,2,1,spot,Left chair,"]


def test_a_remark_on_the_first_place_of_each_rail_speaks_of_all(tmp_path: Path) -> None:
    head = "Bar,Unit,m,Type,Focus,Note"
    rows = [head, f"{RAILS[0]}y ab Portal", RAILS[1]]
    assert read(tmp_path, rows) == [-3.5, 0]  # the middle is 1 m upstage
    more = [*rows, "Rail B,1,2,spot,Left chair,"]
    with pytest.raises(SceneError, match="where the places on Rail A count from"):
        read(tmp_path, more)


def test_figures_that_only_the_plaster_line_leaves_on_their_pipes(tmp_path: Path) -> None:
    rows = ["Bar,Unit,m,Type,Focus", "Rail A,1,5.5,spot,Left chair", "Rail A,2,9,spot,Left chair"]
    assert read(tmp_path, rows, 5, 10) == [-2, 1.5]  # 9 m is past both ends of a pipe of 5 m
    with pytest.raises(SceneError, match="where the places on Rail A count from"):
        read(tmp_path, [*rows[:2], "Rail A,2,8,spot,Left chair"], 1, 10)


def test_a_position_and_a_bare_side_in_one_cell(tmp_path: Path) -> None:
    cells = ["Grid 1 @ 3 m L", "Grid 1 @ 4 m L", "Grid 1 @ 3 m R", "Grid 1 @ centre"]
    aims = ["Left chair", "Left chair", "Right chair", "Right chair"]
    rows = [f"{n},{cell},spot,{aim}" for n, (cell, aim) in enumerate(zip(cells, aims, strict=True))]
    assert read(tmp_path, ["Unit,Hang at,Type,Focus", *rows]) == [3, 4, -3, 0]
    with pytest.raises(SceneError, match="SL or SR"):
        read(tmp_path, ["Unit,Hang at,Type,Focus", *rows[:1]])


def test_a_line_below_two_tables_side_by_side_is_said_of_both(tmp_path: Path) -> None:
    head = "Bar,Unit,m,Type,Focus"
    rows = [f"{head},,{head}"]
    rows += ["Rail A,1,4.5,spot,Left chair,,Rail B,1,2,spot,Right chair"]
    rows += ["metres upstage of the plaster line on the rails" + "," * 10]
    assert read(tmp_path, rows) == [3.5, 1]


@pytest.mark.parametrize(
    ("line", "step"),
    [
        ("spaced 900 about the centre line", 0.9),
        ("LX 1 spaced 1.2 m about the centre line", 1.2),
        ("spaced 3' about CL", 0.9144),
        ("units spaced at 600 either side of centre", 0.6),
        ("LX 1 - 900 centres", 0.9),
        ("LX 1 at 900 c/c", 0.9),
        ("spaced 1.2 about the centre line", 1.2),
        ("Channels 900 apart", 0.45),  # of something else: the usual
        ("Fresnel 650 centres", 0.45),
        ("Sockets at 600 centres", 0.45),
        ("Grid slots at 600 centres", 0.45),
        ("Battens at 900 centres", 0.45),
        ("All battens: 900 centres", 0.9),
        ("Lamps on the grid at 900 centres", 0.9),
        ("On house dimmers, all units 900 apart", 0.9),
    ],
)
def test_a_figure_without_a_unit_says_it_too(tmp_path: Path, line: str, step: float) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    text = "\n".join([f'"{line}",,,', *rows]) + "\n"
    assert places_of(tmp_path, text) == [pytest.approx(at) for at in (step, 0, -step)]


@pytest.mark.parametrize(
    ("line", "step"),
    [
        ("spaced 900 about the centre line, unit 1 SR", 0.9),
        ("LX 1: spaced 1.2 m about the centre line, 1 = SR", 1.2),
    ],
)
def test_a_figure_behind_spaced_is_about_the_centre_line_from_sr(
    tmp_path: Path, line: str, step: float
) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    found = places_of(tmp_path, "\n".join([f'"{line}",,,', *rows]) + "\n")
    assert found == [pytest.approx(at) for at in (-step, 0, step)]


@pytest.mark.parametrize("line", ["Lamps 0.00 apart", "units 0 m apart", "Spaced 1 mm apart"])
def test_units_that_cannot_hang_so_close_are_asked(tmp_path: Path, line: str) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    asked = asked_of(tmp_path, "\n".join([f'"{line}",,,', *rows]) + "\n")
    assert "expected: a distance from unit to unit of 0.05 m" in asked


def test_centres_from_an_end_are_asked(tmp_path: Path) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    with pytest.raises(SceneError, match="count from SL"):
        places_of(tmp_path, "\n".join(["LX 1 - 900 centres from SL end,,,", *rows]) + "\n")


@pytest.mark.parametrize(
    ("first", "side"),
    [
        ("No 1 is SR end", -1),
        ("no. 1 = SR end", -1),
        ("number one at the SR end", -1),
        ("1 is at SL end", 1),
        ("1 is at SR end", -1),
        ("unit 1 SR", -1),
        ("No 1 is nearest the SR end", -1),
        ("SR end is No 1", -1),
        ("lowest number SR", -1),
        ("first unit SR", -1),
        ("first one is SR end", -1),
        ("numbering starts SR", -1),
        ("No 1 is SL end", 1),
    ],
)
def test_all_bars_about_the_centre_line_with_their_first_unit_at_a_side(
    tmp_path: Path, first: str, side: int
) -> None:
    line = f"All bars: 900 mm centres about the centre line, {first}"
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    found = places_of(tmp_path, "\n".join([f'"{line}",,,', *rows]) + "\n")
    assert found == [pytest.approx(side * at) for at in (0.9, 0, -0.9)]


@pytest.mark.parametrize("line", ["900 mm centres from the SR end", "900 mm centres"])
@pytest.mark.parametrize("first", ["No 1 is SR end", "first one is SR end"])
def test_the_first_unit_at_a_side_of_bars_that_count_from_an_end(
    tmp_path: Path, line: str, first: str
) -> None:
    rows = ["Bar,Unit,Type,Focus", *(f"LX 1,{n},spot,A" for n in (1, 2, 3))]
    with pytest.raises(SceneError, match="count from SR"):
        places_of(tmp_path, "\n".join([f'"All bars: {line}, {first}",,,', *rows]) + "\n")


def test_all_bars_are_more_than_the_one_called_so(tmp_path: Path) -> None:
    house = HOUSE.format(near=-4, far=6).replace("[[target]]", f"{OF_TWO}[[target]]", 1)
    rows = [
        "All bars: 1 m centres about the centre line, No 1 is SR end",
        "",
        "Bar,Unit,Type,Focus",
    ]
    rows += [f"{bar},{n},spot,Left chair" for bar in ("FOH Bar", "Grid 1") for n in (1, 2, 3)]
    rows[0] = f'"{rows[0]}",,,'
    assert [unit.at for unit in scene_in(tmp_path, house, rows).units] == [-1, 0, 1, -1, 0, 1]


OF_TWO = """[[pipe]]
name = "FOH Bar"
trim = 5
y = -1
from = -6
to = 6
"""
