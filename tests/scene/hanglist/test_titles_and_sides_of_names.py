"""Positions that a title names, alone or among other cells, or a group of them by its word, with the side in
another column; L and R in their names, and whose left and right these are."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.written import write_scene


def _pipe(name: str, y: float) -> str:
    return f'\n[[pipe]]\nname = "{name}"\ntrim = 6\ny = {y}\nfrom = -5\nto = 5\n'


def _boom(name: str, x: float, y: float = 1) -> str:
    return f'\n[[boom]]\nname = "{name}"\nx = {x}\ny = {y}\nheight = 4\n'


def _target(name: str, x: float) -> str:
    return f'\n[[target]]\nname = "{name}"\nx = {x}\ny = 3\n'


HOUSE = (
    '[scene]\ntitle = "Sides"\nhang = "{hang}"\n'
    + _pipe("LX 1", 2)
    + _pipe("LX 2", 4)
    + _boom("Perch SL", 5)
    + _boom("Perch SR", -5)
    + _boom("Wing Boom SL", 5, 3)
    + _boom("Wing Boom SR", -5, 3)
    + _target("Left", 3)
    + _target("Middle", 0)
    + _target("Right", -3)
    + '\n[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'
)
Rows = Sequence[Sequence[Any]]


def _sheets(folder: Path, sheets: dict[str, Rows], house: str = HOUSE) -> Scene:
    path = write_scene(folder, base=house.replace("{hang}", "hang.xlsx"))
    with Workbook(folder / "hang.xlsx") as book:
        for name, rows in sheets.items():
            sheet = book.add_worksheet(name)
            for n, row in enumerate(rows):
                sheet.write_row(n, 0, row)
    return load_scene(path)


def _text(folder: Path, text: str, house: str = HOUSE, name: str = "hang.txt") -> Scene:
    path = write_scene(folder, base=house.replace("{hang}", name))
    (folder / name).write_text(text, encoding="utf-8")
    return load_scene(path)


def _hung(scene: Scene) -> list[tuple[str, float | None]]:
    return [(unit.position, unit.at) for unit in scene.units]


def _told(scene: Scene, *words: str) -> bool:
    return any(all(word in taken.says for word in words) for taken in scene.taken)


HEAD = ["Unit", "Distance", "Type", "Focus"]
BAR: Rows = [HEAD, [1, "2 m SL", "spot", "Left"], [2, "1 m SR", "spot", "Middle"]]
ON_LX_1 = [("LX 1", 2.0), ("LX 1", -1.0)]


@pytest.mark.parametrize(
    "sheet",
    [
        [["Boom", *HEAD], ["SL", 1, 2, "spot", "Left"], ["SR", 1, 3, "spot", "Right"]],
        [["Side", *HEAD], ["SL", 1, 2, "spot", "Left"], ["SR", 1, 3, "spot", "Right"]],
    ],
)
def test_sides_alone_on_a_sheet_named_after_its_booms(tmp_path: Path, sheet: Rows) -> None:
    scene = _sheets(tmp_path, {"LX 1": BAR, "Wing Booms": sheet})
    assert _hung(scene) == [*ON_LX_1, ("Wing Boom SL", 2.0), ("Wing Boom SR", 3.0)]
    assert _told(scene, "Wing Boom SL")


@pytest.mark.parametrize("whose", ["stage", "house"])
@pytest.mark.parametrize(
    "title", ["Perches - metres off the deck", "PERCHES (side stage)", "Perches"]
)
def test_a_title_with_several_positions_and_a_column_of_sides(
    tmp_path: Path, title: str, whose: str
) -> None:
    facing = "audience" if whose == "stage" else "stage"
    head = ["No", "Lantern", "Metres", f"L or R (facing {facing})", "Lights up"]
    bar = [["LX 1"], head, [1, "spot", 2, "L", "Middle"], [2, "spot", 1, "R", "Middle"]]
    perches = [[title], head, [1, "spot", 2, "L", "Middle"], [1, "spot", 3, "R", "Middle"]]
    scene = _sheets(tmp_path, {"LX 1": bar, "Perches": perches})
    assert scene.units[0].at == (2.0 if whose == "stage" else -2.0)
    left, right = ("SL", "SR") if whose == "stage" else ("SR", "SL")
    assert _hung(scene)[2:] == [(f"Perch {left}", 2.0), (f"Perch {right}", 3.0)]


def test_sides_on_a_sheet_of_booms_of_two_sorts_are_asked_about(tmp_path: Path) -> None:
    house = HOUSE + _boom("Box Boom SL", 6, -3) + _boom("Box Boom SR", -6, -3)
    sheet = [["Boom", *HEAD], ["SL", 1, 2, "spot", "Left"], ["SR", 1, 3, "spot", "Right"]]
    with pytest.raises(SceneError):
        _sheets(tmp_path, {"LX 1": BAR, "Booms": sheet}, house)


@pytest.mark.parametrize(
    ("said", "bare"),
    [
        ("L or R (facing audience)", "stage"),
        ("L/R (looking out at the seats)", "stage"),
        ("L/R (facing the stage)", "house"),
        ("left or right of centre, facing the house", "stage"),
    ],
)
def test_whose_left_and_right_a_heading_says(said: str, bare: str) -> None:
    assert meaning(said).bare == bare


@pytest.mark.parametrize(
    "title",
    [
        ["HANG CARD", "LX 1", "", "Crew: blue"],
        ["Position", "LX 1"],
        ["Rig sheet 2 of 4", "LX 1", "Show: Peter and Wendy", "Date: 3 May"],
    ],
)
def test_a_title_of_several_cells_names_the_position(tmp_path: Path, title: list[str]) -> None:
    again = [*title]
    again[title.index("LX 1")] = "LX 2"
    scene = _sheets(tmp_path, {"Card": [title, *BAR, again, *BAR]})
    assert _hung(scene) == [*ON_LX_1, ("LX 2", 2.0), ("LX 2", -1.0)]


def test_cards_a_sheet(tmp_path: Path) -> None:
    cards = {f"Card {n}": [["HANG CARD", f"LX {n}", "", "Crew: red"], *BAR] for n in (1, 2)}
    assert _hung(_sheets(tmp_path, cards)) == [*ON_LX_1, ("LX 2", 2.0), ("LX 2", -1.0)]


@pytest.mark.parametrize(
    "title", [["HANG CARD", "LX 1", "LX 2"], ["HANG CARD", "above LX 1", "Crew: blue"]]
)
def test_a_card_that_names_no_position_or_two_is_asked_about(
    tmp_path: Path, title: list[str]
) -> None:
    with pytest.raises(SceneError):
        _sheets(tmp_path, {"Card": [title, *BAR]})


def _perches(line: str, left: str = "PERCH L", right: str = "PERCH R") -> str:
    return (
        f"{line}\n\nPOS       #   DIST   UNIT   FOCUS\n"
        "LX 1      1   -2.5   spot   Middle\nLX 1      2   1.5    spot   Middle\n"
        f"{left:<10}1   3.0    spot   Middle\n{right:<10}1   2.0    spot   Middle\n"
    )


@pytest.mark.parametrize(
    ("left", "right"), [("PERCH L", "PERCH R"), ("L Perch", "R Perch"), ("Perch L.", "Perch R.")]
)
def test_l_and_r_in_names_are_the_stages_where_the_list_says_other_sides_so(
    tmp_path: Path, left: str, right: str
) -> None:
    scene = _text(tmp_path, _perches("dist = metres from centre, minus = SR", left, right))
    assert _hung(scene)[2:] == [("Perch SL", 3.0), ("Perch SR", 2.0)]
    assert _told(scene, "names of positions", "Perch SL")


@pytest.mark.parametrize(
    "line",
    [
        "dist = metres from centre, minus = SR (drawn looking from the house)",
        "dist in metres from centre, the minus is on the window side",
    ],
)
def test_l_and_r_of_nobody_in_names_are_asked_about(tmp_path: Path, line: str) -> None:
    with pytest.raises(SceneError):
        _text(tmp_path, _perches(line))


def test_l_and_r_in_names_are_those_of_the_units_that_are_aimed_to_their_side(
    tmp_path: Path,
) -> None:
    text = (
        "POS,#,DIST,UNIT,FOCUS\nLX 1,1,L 2.5,spot,Left\nLX 1,2,L 1.5,spot,Left\nLX 1,3,R 2,spot,Right\n"
        "Perch L,1,3,spot,Middle\n"
    )
    assert _hung(_text(tmp_path, text, name="hang.csv"))[3] == ("Perch SL", 3.0)


SIDED = ["Unit", "Distance", "Side", "Type", "Focus"]


def _aimed(*pairs: tuple[str, str]) -> Rows:
    return [SIDED, *([n, n, side, "spot", aim] for n, (side, aim) in enumerate(pairs, 1))]


def test_several_tables_say_together_whose_left_and_right_it_is(tmp_path: Path) -> None:
    one = _aimed(("L", "Left"), ("L", "Left"), ("R", "Right"), ("R", "Right"))
    other = _aimed(("L", "Right"), ("L", "Left"), ("R", "Right"), ("R", "Left"))
    scene = _sheets(tmp_path / "a", {"LX 1": one, "LX 2": other})
    assert [unit.at for unit in scene.units if unit.position == "LX 2"] == [1.0, 2.0, -3.0, -4.0]
    assert _told(scene, "aimed to their own side")
    across = _aimed(("L", "Right"), ("L", "Right"), ("R", "Left"))
    with pytest.raises(SceneError):  # one table says the other
        _sheets(tmp_path / "b", {"LX 1": one, "LX 2": across})
    with pytest.raises(SceneError):  # and two that say nothing do not tell
        _sheets(tmp_path / "c", {"LX 1": other, "LX 2": other})


BASES = HOUSE + "".join(
    f'\n[[stand]]\nname = "Floor Base {side}"\nx = {x}\ny = 2\n'
    for side, x in (("SL", 4), ("SR", -4))
)
PAGE = """Pos       U#   Dist       Type   Focus
LX 2       1   L 2.5      spot   Left
           2   L  1.5     spot   Left
           3   R 2.5      spot   Right
FLR BASE   L   (floor)    spot   Left
FLR BASE   R   (floor)    spot   Right
{}
"""


def test_the_side_of_a_stand_in_the_column_of_numbers(tmp_path: Path) -> None:
    scene = _text(tmp_path, PAGE.format("L/R = stage."), BASES)
    assert _hung(scene)[:3] == [("LX 2", 2.5), ("LX 2", 1.5), ("LX 2", -2.5)]
    assert [unit.position for unit in scene.units[3:]] == ["Floor Base SL", "Floor Base SR"]


def test_a_letter_for_a_number_that_makes_no_name_is_one(tmp_path: Path) -> None:
    text = "Pos,U#,Dist,Type,Focus\nLX 1,L,1 m SL,spot,Left\nLX 1,M,2 m SL,spot,Left\n"
    assert [unit.number for unit in _text(tmp_path, text, name="hang.csv").units] == ["L", "M"]
