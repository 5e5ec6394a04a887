"""Names that only what stands round them tells: a target over its units, a position over two rows, with a
number in its cell, or a letter among others; sheets of towers beside sheets of bars; totals."""

from __future__ import annotations

from pathlib import Path

import pytest
from xlsxwriter import Workbook

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.written import write_scene

HOUSE = """
[scene]
title = "Names"
hang = "{hang}"
{settings}
"""
KIND = '\n[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'


def _pipes(*names: str) -> str:
    return "".join(f'\n[[pipe]]\nname = "{n}"\ntrim = 6\ny = 2\nfrom = -5\nto = 5\n' for n in names)


def _booms(**places: tuple[float, float]) -> str:
    return "".join(
        f'\n[[boom]]\nname = "{n.replace("_", " ")}"\nx = {x}\ny = {y}\nheight = 4\n'
        for n, (x, y) in places.items()
    )


def _targets(*names: str) -> str:
    return "".join(f'\n[[target]]\nname = "{n}"\nx = 0\ny = 3\n' for n in names)


def _read(folder: Path, house: str, text: str, name: str = "hang.csv") -> Scene:
    base = HOUSE.replace("{hang}", name) + house + KIND
    path = write_scene(folder, base=base)
    (folder / name).write_text(text, encoding="utf-8")
    return load_scene(path)


def test_a_target_over_its_units(tmp_path: Path) -> None:
    house = _pipes("Nave Beam", "Rear Pipe") + _targets("Altar", "Pulpit")
    text = (
        "hangs on,no,at,kind\nPULPIT (Narrator),,,\nNave Beam,1,1 m SR,spot\n"
        "ALTAR,,,\nNave Beam,2,1 m SL,spot\nRear Pipe,1,centre,spot\n"
    )
    units = _read(tmp_path / "a", house, text).units
    assert [unit.target for unit in units] == ["Pulpit", "Altar", "Altar"]
    with pytest.raises(SceneError):  # nobody knows what is lit under a heading that is no target
        _read(tmp_path / "b", house, text.replace("ALTAR", "Crossing"))


def test_a_position_over_two_rows(tmp_path: Path) -> None:
    house = _booms(Tower_SL=(5, 1), Tower_SR=(-5, 1), Gallery_SL=(6, 1)) + _targets("A")
    text = (
        "pos,no,at,kind,target\nTOWER,1,3 m,spot,A\nSL,2,2 m,spot,A\n,3,1 m,spot,A\n"
        "TOWER,1,3 m,spot,A\nSR,2,2 m,spot,A\n"
    )
    units = _read(tmp_path / "a", house, text).units
    assert [unit.position for unit in units] == ["Tower SL"] * 3 + ["Tower SR"] * 2
    with pytest.raises(SceneError):
        _read(tmp_path / "b", house, text.replace("\nSL,", "\n,"))


def test_a_heading_is_no_part_of_a_position_below_it(tmp_path: Path) -> None:
    head = "tower,no,at,kind,target\n"
    text = f"{head}SL,1,3 m,spot,A\n{head}SR,1,3 m,spot,A\n"
    house = _booms(Tower_SL=(5, 1), Tower_SR=(-5, 1)) + _targets("A")
    assert [u.position for u in _read(tmp_path, house, text).units] == ["Tower SL", "Tower SR"]


def test_a_position_and_its_number_in_one_cell_without_a_column_of_numbers(tmp_path: Path) -> None:
    house = _pipes("FOH Bar", "Bar A", "Bar B") + _booms(Boom_SL_1=(5, 1), Boom_SR_1=(-5, 1))
    text = "bar,at,kind,target\nFOH/1,1,spot,A\nFOH/2,2,spot,A\nB/1,0,spot,A\n"
    units = _read(tmp_path / "a", house + _targets("A"), text).units
    found = [(unit.position, str(unit.number)) for unit in units]
    assert found == [("FOH Bar", "1"), ("FOH Bar", "2"), ("Bar B", "1")]


def test_a_letter_is_of_the_sort_of_the_others_of_its_column(tmp_path: Path) -> None:
    house = _pipes("Grid A", "Grid C", "Grid D") + _targets("X")
    house += '\n[[boom]]\nname = "Boom A"\nx = 1\ny = 3\nheight = 4\n'
    text = "bar,no,at,kind,target\nA,1,1,spot,X\nC,1,1,spot,X\nD,1,1,spot,X\n"
    units = _read(tmp_path / "a", house, text).units
    assert [unit.position for unit in units] == ["Grid A", "Grid C", "Grid D"]
    with pytest.raises(SceneError):  # no other letter tells
        _read(tmp_path / "b", house, text.replace("C,1", "Grid C,1").replace("D,1", "Grid D,1"))


@pytest.mark.parametrize("words", ["fixtures total", "Lamp count", "TOTAL", "units: total"])
def test_a_count_below_the_units_is_no_unit(tmp_path: Path, words: str) -> None:
    text = f"position,no,at,kind,target\nBar 1,1,1,spot,A\n,,1,{words},\n"
    assert len(_read(tmp_path, _pipes("Bar 1") + _targets("A"), text).units) == 1


def test_a_cell_that_lines_up_with_another_heading_is_of_that(tmp_path: Path) -> None:
    text = (
        "bar      no   at      kind    target      gel\n"
        "Bar 1    1    1.0 SL  spot    Solo chair  L201\n"
        "Bar 1    2    2.0 SL  spot    Solo chair  L202\n"
        "Bar 1    3    3.0 SL  spot    Long stairs L203\n"
    )
    house = _pipes("Bar 1") + _targets("Solo chair", "Long stairs")
    units = _read(tmp_path, house, text, "hang.txt").units
    assert [(unit.target, unit.colour) for unit in units][1:] == [
        ("Solo chair", "L202"),
        ("Long stairs", "L203"),
    ]


def _two_sheets(folder: Path, house: str, heading: str) -> Scene:
    base = HOUSE.replace("{hang}", "hang.xlsx") + house + KIND
    path = write_scene(folder, base=base)
    with Workbook(folder / "hang.xlsx") as book:
        bars, towers = book.add_worksheet("Bars"), book.add_worksheet("Towers")
        for n, row in enumerate(
            [["Bar", "Unit", "at", "Lamp", "Focus"], ["Bar 1", 1, 2, "spot", "A"]]
        ):
            bars.write_row(n, 0, row)
        for n, row in enumerate(
            [["Tower", "Unit", heading, "Lamp", "Focus"], ["L2", 1, 2, "spot", "A"]]
        ):
            towers.write_row(n, 0, row)
    return load_scene(path)


@pytest.mark.parametrize("heading", ["H (m)", "m above floor", "height (m)"])
def test_a_sheet_of_towers_beside_one_of_bars(tmp_path: Path, heading: str) -> None:
    house = _pipes("Bar 1") + _booms(Tower_L2=(5, 1)) + _targets("A")
    units = _two_sheets(tmp_path, house, heading).units
    assert [(unit.position, unit.at) for unit in units] == [("Bar 1", 2.0), ("Tower L2", 2.0)]


def test_a_boom_on_the_centre_line_in_the_house_faces_the_stage(tmp_path: Path) -> None:
    text = "position,no,at,kind,target\nDelay,1,2,spot,A\n"
    scene = _read(tmp_path / "a", _booms(Delay=(0, -20)) + _targets("A"), text)
    assert scene.units[0].arm_to == 0.0
    assert any("assumed US of the boom" in taken.says for taken in scene.taken)
    with pytest.raises(SceneError):  # on the stage it may face either way
        _read(tmp_path / "b", _booms(Delay=(0, 2)) + _targets("A"), text)


def test_left_and_right_in_a_position_are_whose_the_list_says(tmp_path: Path) -> None:
    house = _booms(Pipe_SL=(5, 1), Pipe_SR=(-5, 1)) + _targets("A")
    text = "position,no,at,kind,target\nLeft pipe,1,2,spot,A\n"
    own = "L = stage left,,,,\n"
    assert _read(tmp_path / "a", house, own + text).units[0].position == "Pipe SL"
    assert (
        _read(tmp_path / "b", house, own.replace("left", "right") + text).units[0].position
        == "Pipe SR"
    )
    with pytest.raises(SceneError):
        _read(tmp_path / "c", house, text)


def test_a_position_among_places(tmp_path: Path) -> None:
    house = _pipes("Bar 1") + _targets("A")
    house += '\n[[stand]]\nname = "Stand SR"\nx = -4\ny = 3\n'
    rows = "".join(f"{n},{n} m SL,spot,A\n" for n in range(1, 5))
    text = f"BAR 1,,,\nno,at,what,focus\n{rows}floor,,,\n1,stand SR,spot,A\n"
    units = _read(tmp_path, house, text).units
    assert [unit.position for unit in units] == ["Bar 1"] * 4 + ["Stand SR"]


def test_stands_under_the_word_that_they_have_in_common(tmp_path: Path) -> None:
    stands = "".join(
        f'\n[[stand]]\nname = "Tripod {n}"\nx = {x}\ny = 3\n'
        for n, x in (("North", 4), ("South", -4))
    )
    text = "no,at,kind,target\nBAR 1,,,\n1,1,spot,A\nTRIPODS,,,\n{},,spot,A\n{},,spot,A\n"
    house = _pipes("Bar 1") + stands + _targets("A")
    log = _read_asked(tmp_path / "a", house, text.format("N", "Sth"))
    assert "position" not in log
    assert "position" in _read_asked(tmp_path / "b", house, text.format("1", "2"))


def _read_asked(folder: Path, house: str, text: str) -> str:
    try:
        _read(folder, house, text)
    except SceneError as error:
        return "\n".join(line for line in error.report().splitlines() if line[:1].isdigit())
    return ""


def test_spots_that_are_places_are_no_kinds(tmp_path: Path) -> None:
    house = _pipes("Bar 1") + _targets("A")
    text = "hangs on,no,spot,lamp,focus\nBar 1,1,1.5 m SL,spot,A\nBar 1,2,centre,spot,A\n"
    units = _read(tmp_path / "a", house, text).units
    assert [(unit.at, unit.kind) for unit in units] == [(1.5, "spot"), (0.0, "spot")]
    text = "hangs on,no,at,spot,focus\nBar 1,1,1.5 m SL,spot,A\nBar 1,2,centre,ers-30,A\n"
    assert [unit.kind for unit in _read(tmp_path / "b", house, text).units] == ["spot", "ers-30"]
