"""Units of a hang list that have no numbers."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from tests.scene.written import UNIT, WAYS, refused, write_scene


def _list(tmp_path: Path, text: str, *parts: str, settings: str = "") -> str:
    path = write_scene(tmp_path, *parts, settings=f'hang = "list.csv"\n{settings}')
    (tmp_path / "list.csv").write_text(text.strip() + "\n", encoding="utf-8")
    return path


def _numbers(path: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for unit in load_scene(path).units:
        found.setdefault(unit.position, []).append(str(unit.number))
    return found


def _warned(path: str) -> list[str]:
    taken = load_scene(path).taken
    return [one.says for one in taken if one.rule == "numbers-assumed" and one.severity == "warn"]


WITHOUT = """
Position,Fixture,Place,Focus
LX 1,spot,2 m SL,A
LX 1,spot,centre,A
floor,spot,,A
LX 1,spot,2 m SR,A
"""


def test_units_without_numbers_are_numbered_along_the_list_on_each_position(tmp_path: Path) -> None:
    path = _list(tmp_path, WITHOUT)
    assert _numbers(path) == {"LX 1": ["1", "2", "3"], "floor": ["1"]}
    (warned,) = _warned(path)
    assert warned.startswith("4 units have no number in list.csv: numbered along the list from 1")
    assert "LX 1, floor" in warned


def test_one_position_without_numbers_among_others_with_them_is_numbered(tmp_path: Path) -> None:
    text = "Position,No,Fixture,Place,Focus\nLX 1,7,spot,centre,A\nfloor,,spot,,A\n"
    path = _list(tmp_path, text)
    assert _numbers(path) == {"LX 1": ["7"], "floor": ["1"]}
    assert _warned(path) == [
        "1 unit has no number in list.csv: numbered along the list from 1 on floor."
    ]


def test_a_position_of_which_some_units_have_numbers_is_asked_about(tmp_path: Path) -> None:
    text = "Position,No,Fixture,Place,Focus\nLX 1,7,spot,centre,A\nLX 1,,spot,2 m SL,A\n"
    assert [m.key for m in refused(_list(tmp_path, text))] == ["column B (number)"]


def test_a_position_with_units_in_the_scene_is_asked_about(tmp_path: Path) -> None:
    assert {m.key for m in refused(_list(tmp_path, WITHOUT, UNIT))} == {"number"}


def test_a_total_and_a_remark_are_no_units_without_numbers(tmp_path: Path) -> None:
    text = WITHOUT + "Total,4 spots,,\nall to be checked,,,\n"
    assert _numbers(_list(tmp_path, text)) == {"LX 1": ["1", "2", "3"], "floor": ["1"]}


def test_a_column_that_may_hold_the_numbers_is_asked_about(tmp_path: Path) -> None:
    text = """
Position,Zettel,Fixture,Place,Focus
LX 1,14,spot,2 m SL,A
LX 1,12,spot,centre,A
floor,19,spot,,A
"""
    path = _list(tmp_path, text)
    (mistake,) = refused(path)
    assert "column B" in mistake.text()
    assert "[hang_columns]" in mistake.text()
    settled = '\n[hang_columns]\n{} = "Zettel"\n'
    path = _list(tmp_path, text, settled.format("number"))
    assert _numbers(path) == {"LX 1": ["14", "12"], "floor": ["19"]}
    path = _list(tmp_path, text, settled.format("remark"))
    assert _numbers(path) == {"LX 1": ["1", "2"], "floor": ["1"]}


def test_an_address_numbers_no_units(tmp_path: Path) -> None:
    text = "Position,DMX,Fixture,Place,Focus\nLX 1,14,spot,2 m SL,A\nLX 1,12,spot,centre,A\n"
    assert _numbers(_list(tmp_path, text)) == {"LX 1": ["1", "2"]}


def test_a_position_and_a_number_in_one_cell_are_parted_under_a_heading_of_positions(
    tmp_path: Path,
) -> None:
    text = "Bar / no.,Fixture,Place,Focus\nLX 1/1,spot,2 m SL,A\nLX 1/2,spot,centre,A\n"
    assert _numbers(_list(tmp_path, text)) == {"LX 1": ["1", "2"]}


def test_the_number_along_a_position_comes_before_an_id_down_the_list(tmp_path: Path) -> None:
    text = """
Fixture ID,Position,Slot,Type,Place,Focus
1,LX 1,1,spot,2 m SL,A
2,LX 1,2,spot,centre,A
11,floor,1,spot,,A
"""
    path = _list(tmp_path, text)
    assert _numbers(path) == {"LX 1": ["1", "2"], "floor": ["1"]}
    assert [unit.channel for unit in load_scene(path).units] == ["1", "2", "11"]


PAIR = "{},,,,\nPosition,No,Place,Fixture,Focus\nLX 1,1 & 2,3 m each side,spot,A\n"


def test_a_pair_on_each_side_is_two_units_where_a_line_says_which_is_where(tmp_path: Path) -> None:
    path = _list(tmp_path, PAIR.format("pairs sit each side of centre (lower number stage right)"))
    assert [(str(u.number), u.at) for u in load_scene(path).units] == [("1", -3.0), ("2", 3.0)]


def test_a_pair_of_which_nobody_says_which_is_where_is_asked_about(tmp_path: Path) -> None:
    asked = {mistake.key for mistake in refused(_list(tmp_path, PAIR.format("all in metres")))}
    assert "column B (number)" in asked


def test_a_total_behind_its_word_is_no_unit(tmp_path: Path) -> None:
    text = WITHOUT + ",spots total,4,\n"
    assert _numbers(_list(tmp_path, text)) == {"LX 1": ["1", "2", "3"], "floor": ["1"]}


def test_a_total_with_remarks_beside_it_is_no_unit(tmp_path: Path) -> None:
    text = WITHOUT + ",TOTAL 4,,cable: 12 x 10 m\n"
    assert _numbers(_list(tmp_path, text)) == {"LX 1": ["1", "2", "3"], "floor": ["1"]}


def test_a_dash_for_a_number_is_none(tmp_path: Path) -> None:
    text = "Position,No,Fixture,Place,Focus\nLX 1,7,spot,centre,A\nfloor,-,spot,,A\nboom SR,n/a,spot,2,A\n"
    path = _list(tmp_path, text)
    assert _numbers(path) == {"LX 1": ["7"], "floor": ["1"], "boom SR": ["1"]}


SPREAD = """
{}
Position,Fixture,Focus
LX 1,spot,A
LX 1,spot,A
LX 1,spot,A
LX 1,spot,A
side,spot,A
side,spot,A
"""


@pytest.mark.parametrize(
    ("line", "places"),
    [  # LX 1 is 10 m; side is 6 m, counted from its middle
        ("Space each pipe out evenly please", [3.75, 1.25, -1.25, -3.75, -1.5, 1.5]),
        ("All equally spaced - stage right end first", [-3.75, -1.25, 1.25, 3.75, -1.5, 1.5]),
        ("hang evenly along the bars - no. 1 at the SR end", [-3.75, -1.25, 1.25, 3.75, -1.5, 1.5]),
    ],
)
def test_units_spread_evenly_have_half_a_gap_at_each_end(
    line: str, places: list[float], tmp_path: Path
) -> None:
    scene = load_scene(_list(tmp_path, SPREAD.format(line)))
    assert [unit.at for unit in scene.units] == pytest.approx(places)
    warned = [t.says for t in scene.taken if t.rule == "places-assumed" and t.severity == "warn"]
    assert len(warned) == 2
    assert all("spread evenly from end to end" in says for says in warned)


def _across(*lines: str, aims: Sequence[str] = ("A",) * 3) -> str:
    rows = "".join(f"LX 1,spot,{aim}\n" for aim in aims)
    return "\n".join([*lines, "Position,Fixture,Focus", rows])


def _places(tmp_path: Path, text: str) -> list[float]:
    scene = load_scene(_list(tmp_path, text, WAYS))
    warned = [t.says for t in scene.taken if t.rule == "places-assumed" and t.severity == "warn"]
    assert len(warned) == 1
    assert "number 1 at the S" in warned[0]
    return [round(unit.at, 3) for unit in scene.units]


@pytest.mark.parametrize("line", ["An even wash of cool light", "Rehearsal plot"])
def test_units_with_neither_number_nor_place_hang_as_they_are_listed(
    line: str, tmp_path: Path
) -> None:
    """They were asked about before; a list without numbers tells no less than one whose numbers go on by one,
    which is read with a warning."""
    assert _places(tmp_path, _across(line)) == [0.45, 0.0, -0.45]


@pytest.mark.parametrize(
    ("aims", "places"),
    [
        (("Right", "A", "Left"), [-0.45, 0.0, 0.45]),
        (("Right", "Left", "Left"), [-0.45, 0.0, 0.45]),
        (("Left", "A", "Right"), [0.45, 0.0, -0.45]),
        (("Right", "Left", "Right"), [0.45, 0.0, -0.45]),  # tells nothing: as numbered ones
    ],
)
def test_they_go_from_the_side_that_their_aims_do(
    aims: tuple[str, ...], places: list[float], tmp_path: Path
) -> None:
    assert _places(tmp_path, _across("Quiz night lights", aims=aims)) == places


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("Rows go from SR to SL", -0.45),
        ("SR first", -0.45),
        ("Lamps are listed from stage right", -0.45),
        ("All left to right as the audience sees it", -0.45),
        ("von links nach rechts, vom Publikum gesehen", -0.45),
        ("de jardin à cour", -0.45),
        ("listed PS to OP", 0.45),
        ("top of the list is stage left", 0.45),
        ("bottom of list = stage right", 0.45),
        ("distances were measured from SR, see the drawing", 0.45),  # no order
    ],
)
def test_a_line_says_from_which_side_they_go(line: str, first: float, tmp_path: Path) -> None:
    assert _places(tmp_path, _across(line))[0] == first


@pytest.mark.parametrize(
    "lines",
    [
        ("SR to SL", "no! SL comes first"),
        ("left to right as you face the seats, so stage right comes first",),
        ("is this SL to SR?",),
        ("which end do they start from?",),
        ("lamps go from left to right",),  # whose?
    ],
)
def test_lines_that_do_not_tell_the_order_are_asked_about(
    lines: tuple[str, ...], tmp_path: Path
) -> None:
    assert "at" in {mistake.key for mistake in refused(_list(tmp_path, _across(*lines), WAYS))}


def test_a_left_of_nobody_is_that_of_the_aims(tmp_path: Path) -> None:
    text = _across("lamps go from left to right", aims=("Right", "A", "Left"))
    assert _places(tmp_path, text) == [-0.45, 0.0, 0.45]


def test_units_beside_a_position_with_places_are_spread_alike(tmp_path: Path) -> None:
    text = "Position,Place,Fixture,Focus\nboom SR,2 m,spot,A\nLX 1,,spot,Left\nLX 1,,spot,Right\n"
    scene = load_scene(_list(tmp_path, text, WAYS))
    assert [unit.at for unit in scene.units] == [2.0, 0.225, -0.225]


def test_a_height_column_that_is_empty_for_a_pipe_is_no_question_of_its_units(
    tmp_path: Path,
) -> None:
    text = (
        "Position,Height on tower,Fixture,Focus\nboom SR,2 m,spot,A\nLX 1,,spot,A\nfloor,,spot,A\n"
    )
    assert [unit.at for unit in load_scene(_list(tmp_path, text)).units][:2] == [2.0, 0.0]


def test_some_places_on_a_pipe_and_some_not_are_asked_about(tmp_path: Path) -> None:
    text = "Position,Place,Fixture,Focus\nLX 1,2 m SL,spot,A\nLX 1,,spot,A\n"
    assert "at" in {
        mistake.key.split("(")[-1].strip(")") for mistake in refused(_list(tmp_path, text))
    }


TAGGED = """
Tag,Ch,Where,Off centre,Fixture,Focus
{0},1,LX 1,2.9 SR,spot,A
{1},2,LX 1,centre,spot,A
{2},3,LX 1,2.9 SL,spot,A
{3},4,side,2 US,spot,A
"""


@pytest.mark.parametrize(
    "tags", [("K-014", "K-017", "K-022", "K-101"), ("INV00317", "INV00020", "INV01400", "INV00022")]
)
def test_tags_of_a_store_number_no_units(tags: tuple[str, ...], tmp_path: Path) -> None:
    path = _list(tmp_path, TAGGED.format(*tags))
    assert _numbers(path) == {"LX 1": ["1", "2", "3"], "side": ["1"]}
    assert len(_warned(path)) == 1


@pytest.mark.parametrize(
    "tags",
    [
        ("K-1", "K-2", "K-3", "K-9"),
        ("L-101", "L-102", "L-103", "L-201"),
        ("A-014", "A-017", "A-022", "B-101"),
        ("14", "17", "22", "31"),
    ],
)
def test_codes_that_may_number_the_units_are_asked_about(
    tags: tuple[str, ...], tmp_path: Path
) -> None:
    text = TAGGED.format(*tags).replace("Tag", "Mark code")
    assert "may hold it" in str(refused(_list(tmp_path, text)))


def test_units_without_numbers_on_one_pipe_in_two_tables_are_asked_about(tmp_path: Path) -> None:
    """Each table alone would put its first unit where the other has one."""
    rows = ("Bar,Type,Focus,,Bar,Type,Focus", "LX 1,spot,A,,{},spot,A", "LX 1,spot,A,,floor,spot,A")
    two = "\n".join(rows)
    assert len(load_scene(_list(tmp_path, two.format("floor"))).units) == 4
    assert "at" in {mistake.key for mistake in refused(_list(tmp_path, two.format("LX 1")))}


@pytest.mark.parametrize("heading", ["Name", "Who", "Crew", "By", "Person", "Hung by"])
def test_those_who_hang_the_units_are_no_places_of_them(heading: str, tmp_path: Path) -> None:
    text = f"{heading},Light,Hang,Aim\nKayla,spot,LX 1,A\nDevon,spot,LX 1,A\n"
    path = _list(tmp_path, text)
    assert _numbers(path) == {"LX 1": ["1", "2"]}
    warned = [one.says for one in load_scene(path).taken if one.severity == "warn"]
    assert len(warned) == 2
    assert warned[0].startswith("2 units have no place in list.csv: assumed")


@pytest.mark.parametrize(
    "cells", [("2 m", "1 m"), ("left", "centre"), ("Far left", "Middle"), ("Mitte", "ganz links")]
)
def test_a_column_of_names_that_may_be_places_is_asked_about(
    cells: tuple[str, str], tmp_path: Path
) -> None:
    text = f"Name,Light,Hang,Aim\n{cells[0]},spot,LX 1,A\n{cells[1]},spot,LX 1,A\n"
    assert {m.key for m in refused(_list(tmp_path, text))} == {"at"}
