"""Rows of a hang list that are several units. The pipe LX 1 is 10 m long, its zero in the middle."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.rows.mirrored import mirrored
from aimcalc.scene.hanglist.rows.numberruns import run_of
from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Scene
from tests.scene.written import WAYS, refused, write_scene


def _path(folder: Path, *lines: str) -> str:
    path = write_scene(folder, WAYS, settings='hang = "list.csv"')
    (folder / "list.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def _found(scene: Scene) -> list[tuple[str, str, float, str, str]]:
    return [
        (u.position, str(u.number), round(u.at or 0, 3), str(u.channel), str(u.circuit))
        for u in scene.units
    ]


@pytest.mark.parametrize(
    ("cell", "places"),
    [
        ("+/- 6", ("6 SL", "6 SR")),
        ("±2.5", ("2.5 SL", "2.5 SR")),
        ("+/- 6' 6\"", ("6' 6\" SL", "6' 6\" SR")),
        ("6 ft 6 in both sides", ("6 ft 6 in SL", "6 ft 6 in SR")),
        ("5'-6 1/2\" each way", ("5'-6 1/2\" SL", "5'-6 1/2\" SR")),
        ("2,5 m +/-", ("2,5 m SL", "2,5 m SR")),
        ("14' each side", ("14' SL", "14' SR")),
        ("6' off centre both sides", ("6' SL", "6' SR")),
        ("both sides at 2 m", ("2 m SL", "2 m SR")),
        ("3 m, mirrored", ("3 m SL", "3 m SR")),
        ("3 m beidseitig", ("3 m SL", "3 m SR")),
        ("à 3 m de part et d'autre", ("3 m SL", "3 m SR")),
        ("a 3 m a cada lado", ("3 m SL", "3 m SR")),
        ("3 m aan weerszijden", ("3 m SL", "3 m SR")),
        ("2,5 m da entrambi i lati", ("2,5 m SL", "2,5 m SR")),
        ("2' in from each end", ("2' from SL end", "2' from SR end")),
    ],
)
def test_a_place_on_both_sides_does_not_say_which_is_first(
    cell: str, places: tuple[str, str]
) -> None:
    found = mirrored(cell)
    assert found is not None
    assert found[:2] == (places, False)


@pytest.mark.parametrize(
    ("cell", "side", "places"),
    [
        ("3000", "SL & SR", ("3000 SL", "3000 SR")),
        ("2 m SR & SL", "", ("2 m SR", "2 m SL")),
        ("SL/SR 2 m", "", ("2 m SL", "2 m SR")),
        ("3 m L / 3 m R", "", ("3 m L", "3 m R")),
        ("+3/-3", "", ("+3", "-3")),
        ("je 3 m links und rechts", "", ("3 m links", "3 m rechts")),
        ("3 m cour et jardin", "", ("3 m cour", "3 m jardin")),
        ("3 m PS + 3 m OP", "", ("3 m PS", "3 m OP")),
        ("3 m SL & mirror", "", ("3 m SL", "3 m sr")),
    ],
)
def test_two_sides_are_in_the_order_of_the_cell(
    cell: str, side: str, places: tuple[str, str]
) -> None:
    found = mirrored(cell, side)
    assert found is not None
    assert found[:2] == (places, True)


@pytest.mark.parametrize(
    "cell",
    [
        "3 m SL",
        "10 and 12 SR",
        "3.5 m SL, 2 m US",
        "100 mm SL of CL and SR",
        "6 & 8",
        "12 x 4 m",
        "+3.6 / 0 / -3.6",
        "",
    ],
)
def test_other_places_are_not_on_both_sides(cell: str) -> None:
    assert mirrored(cell) is None


def test_no_cell_takes_long() -> None:
    for cell in ("1 " * 35000, "left and " * 8000, "1' from " * 9, "(" * 59 + "1"):
        assert mirrored(cell) is None
    for cell in ("1" + " " * 70000 + "2", "1, " * 20000, "1 to " * 14000):
        assert run_of(cell) == []


def test_a_count_is_so_many_units_that_are_numbered_on(tmp_path: Path) -> None:
    rows = (
        "Qty,Fixture,On,Focus,Ch",
        "2,spot,LX 1,Left,1",
        "1,spot,LX 1,Right,2",
        "3,spots total,,,",
    )
    scene = load_scene(_path(tmp_path, *rows, "space them evenly please"))
    assert _found(scene) == [
        ("LX 1", "1", 3.333, "1", "None"),
        ("LX 1", "2", 0.0, "1", "None"),
        ("LX 1", "3", -3.333, "2", "None"),
    ]


def test_a_count_without_places_is_spread_as_units_without_numbers_are(tmp_path: Path) -> None:
    scene = load_scene(_path(tmp_path, "Qty,Fixture,On,Focus", "2,spot,LX 1,A", "1,spot,floor,A"))
    assert _found(scene)[:2] == [
        ("LX 1", "1", 0.225, "None", "None"),
        ("LX 1", "2", -0.225, "None", "None"),
    ]
    assert {t.rule for t in scene.taken if t.severity == "warn"} >= {
        "numbers-assumed",
        "places-assumed",
    }


@pytest.mark.parametrize(
    "kind",
    ["2 x spot", "2x spot", "(2) spot", "spot x2", "pair of spot", "2 off spot", "spot (2x)"],
)
def test_a_count_before_or_behind_a_kind_is_one(kind: str, tmp_path: Path) -> None:
    scene = load_scene(_path(tmp_path, "Fixture,On,Place,Focus", f"{kind},LX 1,3 m each side,A"))
    assert [(u.number, u.at, u.kind) for u in scene.units] == [
        ("1", 3.0, "spot"),
        ("2", -3.0, "spot"),
    ]


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("2,spot,LX 1,3 m SL / 3 m SR,A,1,1/6", [(3.0, "1", "1"), (-3.0, "1", "6")]),
        ("2,spot,LX 1,3 m SR & SL,A,1 & 2,5", [(-3.0, "1", "5"), (3.0, "2", "5")]),
        ("2,spot,LX 1,±3,A,4,5", [(3.0, "4", "5"), (-3.0, "4", "5")]),
        ("2,spot,LX 1,3 m SL & SR,A,4,D1 + D2", [(3.0, "4", "D1"), (-3.0, "4", "D2")]),
        ("4,spot,LX 1,evenly spaced,A,4,D1-D4", [(3.75, "4", "D1"), (1.25, "4", "D2")]),
        ('3,spot,LX 1,"2 m SL, CL & 2 m SR",A,4,5', [(2.0, "4", "5"), (0.0, "4", "5")]),
    ],
)
def test_channels_and_circuits_are_shared_out_or_the_same(
    row: str, found: list[tuple[float, str, str]], tmp_path: Path
) -> None:
    scene = load_scene(_path(tmp_path, "Qty,Fixture,On,Place,Focus,Ch,Circuit", row))
    assert [(u.at, str(u.channel), str(u.circuit)) for u in scene.units][:2] == found


def test_a_stroke_that_single_units_have_too_is_of_a_rack(tmp_path: Path) -> None:
    rows = ("2,spot,LX 1,3 m SL & SR,A,4,2/14", "1,spot,LX 1,CL,A,5,1/3")
    scene = load_scene(_path(tmp_path, "Qty,Fixture,On,Place,Focus,Ch,Circuit", *rows))
    assert [u.circuit for u in scene.units] == ["2/14", "2/14", "1/3"]


PAIR = "Position,No,Place,Fixture,Focus,Ch", "LX 1,1 & 4,3 m each side,spot,A,7 & 8"


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("Units count from stage right; channels in the same order", -3.0),
        ("of two in a row the first is on SL", 3.0),
        ("on a +/- line the first mains is the stage left one", 3.0),
        ("pairs: lower number SR", -3.0),
        ("pairs are SL then SR", 3.0),
        ("± = first number SR", -3.0),
        ("unit 1 is always the SR one", -3.0),
    ],
)
def test_a_line_says_which_of_a_pair_is_where(line: str, first: float, tmp_path: Path) -> None:
    scene = load_scene(_path(tmp_path, line, *PAIR))
    assert [(str(u.number), u.at, str(u.channel)) for u in scene.units] == [
        ("1", first, "7"),
        ("4", -first, "8"),
    ]


@pytest.mark.parametrize(
    "rows",
    [
        PAIR,
        ("units count from SL", "units count from SR", *PAIR),
        ("units count from SR", PAIR[0], "LX 1,1 & 4,3 m SL & SR,spot,A,7"),
        ("Fixture,On,Place,Focus,Circuit", "spot,LX 1,+/- 3,A,D1 & D2"),
        ("Qty,Fixture,On,Place,Focus", "2,spot,LX 1,3 m SL,A"),
        ("Qty,Fixture,On,Place,Focus", "3,spot,LX 1,3 m SL & SR,A"),
        ("Qty,Fixture,On,Place,Focus,Ch", '2,spot,LX 1,3 m SL & SR,A,"1, 2, 3"'),
        ("odd numbers SL", *PAIR),
        ("Fixture,On,Place,Focus", "spot,LX 1,3 m +/-,A"),  # about 3 m
        ("Fixture,On,Place,Focus", "spot,LX 1,3 m SL & 1 m US,A"),
        ("Fixture,On,Place,Focus", "spot (19),LX 1,3 m each side,A"),
        ("Position,No,Place,Fixture,Focus", "LX 1,1/2,3 m SL & SR,spot,A"),  # or its second
        ("Qty,No,Fixture,On,Focus", "2,1,spot,LX 1,A"),
        ("Fixture,On,Place,Focus", "spot,side,3 m each side,A"),
    ],
)
def test_what_each_of_several_has_is_asked_where_nobody_says_it(
    rows: tuple[str, ...], tmp_path: Path
) -> None:
    assert refused(_path(tmp_path, *rows))


def test_a_side_column_may_say_both(tmp_path: Path) -> None:
    rows = (
        "Position,No,Place (m),Side,Fixture,Focus",
        "LX 1,8,1,SL,spot,A",
        "LX 1,9 & 10,3,SL & SR,spot,A",
    )
    assert [(str(u.number), u.at) for u in load_scene(_path(tmp_path, *rows)).units] == [
        ("8", 1.0),
        ("9", 3.0),
        ("10", -3.0),
    ]


def test_two_numbers_with_a_stroke_are_two_units_on_two_sides(tmp_path: Path) -> None:
    rows = "Position,No,Place,Fixture,Focus,Ch", "LX 1,3/4,2 m SL/SR,spot,A,5/6"
    assert _found(load_scene(_path(tmp_path, *rows))) == [
        ("LX 1", "3", 2.0, "5", "None"),
        ("LX 1", "4", -2.0, "6", "None"),
    ]


@pytest.mark.parametrize("heading", ["Anz.", "Nb", "Cant.", "Qtde", "Q.tà"])
def test_a_count_in_short_is_no_number_of_a_unit(heading: str, tmp_path: Path) -> None:
    rows = f"{heading},Fixture,Bar,Focus", "2,spot,LX 1,A", "x1,spot,floor,A"
    assert [(u.position, str(u.number)) for u in load_scene(_path(tmp_path, *rows)).units] == [
        ("LX 1", "1"),
        ("LX 1", "2"),
        ("floor", "1"),
    ]


def test_a_place_that_was_is_not_that_of_a_second_unit(tmp_path: Path) -> None:
    rows = "Fixture,On,Place,Focus", 'spot,LX 1,"3 m SL, was 2 m SL",A'
    assert [unit.at for unit in load_scene(_path(tmp_path, *rows)).units] == [3.0]


@pytest.mark.parametrize("key", ["Circuit", "Dimmer"])
def test_a_dash_that_single_units_have_too_is_no_run(key: str, tmp_path: Path) -> None:
    rows = ("2,spot,LX 1,3 m SL & SR,A,1-2", "1,spot,LX 1,CL,A,1-3")
    scene = load_scene(_path(tmp_path, f"Qty,Fixture,On,Place,Focus,{key}", *rows))
    assert [u.circuit for u in scene.units] == ["1-2", "1-2", "1-3"]


@pytest.mark.parametrize(
    ("cell", "circuits"),
    [
        ("1 à 3", ["1", "2", "3"]),
        ("de 1 a 3", ["1", "2", "3"]),
        ("von 4 bis 6", ["4", "5", "6"]),
        ("1 tot en met 3", ["1", "2", "3"]),
        ("5 thru 7", ["5", "6", "7"]),
        ("9, 10 och 12", ["9", "10", "12"]),
        ("7+8+9", ["7", "8", "9"]),
        ("1-2-3", ["1", "2", "3"]),
        ("9 10 11", ["9", "10", "11"]),
        ("A1..A3", ["A1", "A2", "A3"]),
        ("B4 à B6", ["B4", "B5", "B6"]),
        ("D1/D2/D3", ["D1", "D2", "D3"]),
    ],
)
def test_circuits_in_a_series_are_shared_out(
    cell: str, circuits: list[str], tmp_path: Path
) -> None:
    scene = load_scene(_path(tmp_path, "Qty;Fixture;On;Focus;Circuit", f"3;spot;LX 1;A;{cell}"))
    assert [u.circuit for u in scene.units] == circuits
    told = "\n".join(taken.says for taken in scene.taken)
    assert f'"{cell}" is of 3 units: {", ".join(circuits)}' in told


@pytest.mark.parametrize("cell", ["12-11", "2.10", "R1.1-R1.2", "1er 2"])
def test_a_circuit_of_several_figures_that_is_no_series_is_told(cell: str, tmp_path: Path) -> None:
    scene = load_scene(_path(tmp_path, "Qty;Fixture;On;Focus;Circuit", f"2;spot;LX 1;A;{cell}"))
    assert [u.circuit for u in scene.units] == [cell, cell]
    assert any(f'"{cell}" is that of each of 2 units' in taken.says for taken in scene.taken)


@pytest.mark.parametrize("cell", ["1 à 4", "9, 10", "A1..A5"])
def test_circuits_in_a_series_that_are_not_as_many_are_asked(cell: str, tmp_path: Path) -> None:
    path = _path(tmp_path, "Qty;Fixture;On;Focus;Circuit", f"3;spot;LX 1;A;{cell}")
    assert any("one unit a row" in mistake.expected for mistake in refused(path))


@pytest.mark.parametrize("position", ["LX 1", "floor"])
@pytest.mark.parametrize(
    ("cell", "channels"),
    [
        ("1-3", "11-13"),
        ("1 - 3", "11 - 13"),
        ("1–3", "11–13"),
        ("#1-3", "#11-13"),
        ("#1-#3", "11 to 13"),
        ("units 1-3", "ch 11-13"),
        ("1 to 3", "11 thru 13"),
        ("1, 2, 3", "11, 12, 13"),
        ("1 & 2 & 3", "11+12+13"),
        ("1/2/3", "11/12/13"),
        ("1, 2 and 3", "11, 12 and 13"),
        ("1;2;3", "11;12;13"),
        ("1 bis 3", "11 bis 13"),
        ("1 à 3", "11 à 13"),
        ("da 1 a 3", "da 11 a 13"),
        ("1 até 3", "11 até 13"),
        ("1 till 3", "11 till 13"),
    ],
)
def test_a_run_of_numbers_without_places_is_as_many_units(
    position: str, cell: str, channels: str, tmp_path: Path
) -> None:
    rows = f'On;Unit;Fixture;Focus;Channel\n{position};"{cell}";spot;A;"{channels}"'
    scene = load_scene(_path(tmp_path, rows))
    found = [(u.position, str(u.number), u.channel) for u in scene.units]
    assert found == [(position, str(n), f"1{n}") for n in (1, 2, 3)]


@pytest.mark.parametrize("cell", ["1, 2", "1 & 2", "1+2", "1 and 2", "1 und 2", "1 et 2", "1-2"])
@pytest.mark.parametrize("channel", ["7", ""])
def test_two_units_of_one_channel_are_two_beside_plain_numbers(
    cell: str, channel: str, tmp_path: Path
) -> None:
    rows = f"On;Unit;Fixture;Focus;Channel\nLX 1;{cell};spot;A;{channel}\nLX 1;3;spot;A;8"
    found = [(str(u.number), u.channel) for u in load_scene(_path(tmp_path, rows)).units]
    assert found == [("1", channel or None), ("2", channel or None), ("3", "8")]


@pytest.mark.parametrize("other", ["1-1", "1-3"])
def test_numbers_that_all_begin_with_that_of_their_position_are_no_runs(
    other: str, tmp_path: Path
) -> None:
    rows = f"On;Unit;Fixture;Focus;Channel\nLX 1;{other};spot;A;7\nLX 1;1-2;spot;A;8"
    path = _path(tmp_path, rows)
    if other == "1-3":  # three, of which two are told again, or the third and the second
        assert any("may be several" in mistake.expected for mistake in refused(path))
    else:
        assert [str(u.number) for u in load_scene(path).units] == ["1", "2"]


def test_a_count_in_every_cell_of_kinds_shares_out_the_channels(tmp_path: Path) -> None:
    rows = "On,Fixture,Focus,Channel\nLX 1,3 x spot,A,1-3\nfloor,1 x spot,A,9"
    assert [u.channel for u in load_scene(_path(tmp_path, rows)).units] == ["1", "2", "3", "9"]
