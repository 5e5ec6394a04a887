"""Positions that rows and headings name in more words than one."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS
from aimcalc.scene.hanglist.names.overunits import named_on_tab, named_twice
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import MORE, asked_of, units_of
from tests.scene.written import write_scene

READ = [("LX 1", "1", "spot", "A"), ("LX 2", "1", "spot", "Door")]


def _list(first: str, second: str) -> str:
    return f"unit,at,kind,target\n{first}\n1,2 m SL,spot,A\n{second}\n1,1 m SL,spot,Door\n"


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Spot Bar (LX1)", "No. 2 (LX2)"),
        ("Front bar [house LX 1]", "Cyc bar [house LX 2]"),
        ("Spot Bar: LX 1", "Cyc Bar: LX 2"),
        ("LX1 - spot bar - 2 units", "LX2 - cyc bar - 1 unit"),
        ("LX1 spot bar", "LX2 cyc bar"),
        ("1. LX 1", "2. LX 2"),
        ("Spot bar aka LX 1", "Cyc bar aka LX 2"),
        ("Beleuchtungszug 1 (LX 1)", "Beleuchtungszug 2 (LX 2)"),
        ("LX 1 units", "LX 2 units"),
        ("LX,1", "LX,2"),
        ("Position,LX 1,Trim,6 m", "Position,LX 2,Trim,6 m"),
        ("LX 1,LX 1,LX 1,LX 1", "LX 2,LX 2,LX 2,LX 2"),
    ],
)
def test_a_position_over_its_units_has_other_words_beside_it(
    tmp_path: Path, first: str, second: str
) -> None:
    assert units_of(tmp_path, _list(first, second)) == READ


@pytest.mark.parametrize("second", ["LX 1 / LX 2", "Spot bar 2"])
def test_another_position_or_two_of_them_are_asked(tmp_path: Path, second: str) -> None:
    assert "position" in asked_of(tmp_path, _list("LX 1", second))


@pytest.mark.parametrize(
    "words", ["Boom 3 (LX 2)", "Truss (near LX 2)", "Gallery - LX 2", "total: LX 2", "LX 2 boom"]
)
def test_words_for_another_sort_or_for_none_name_no_position(words: str) -> None:
    assert named_twice(words, Names(("LX 1", "LX 2"), POSITION_WORDS, POSITION_SPARE)) is None


GRID = "".join(
    f'[[pipe]]\nname = "Grid {letter}"\ntrim = 5\ny = {k}\nfrom = -5\nto = 5\n'
    for k, letter in enumerate("ABC")
)


@pytest.mark.parametrize("heading", ["Grid", "grid line", "GRID POS."])
def test_a_heading_and_its_cells_spell_positions(tmp_path: Path, heading: str) -> None:
    path = write_scene(tmp_path, MORE, GRID, settings='hang = "hang.csv"')
    rows = f"{heading},unit,at,kind,target\nA,1,2 m SL,spot,Door\nC,1,0,spot,Door\n"
    (tmp_path / "hang.csv").write_text(rows, encoding="utf-8")
    assert [unit.position for unit in load_scene(path).units] == ["Grid A", "Grid C"]


def test_a_heading_that_no_position_has_spells_none(tmp_path: Path) -> None:
    rows = "Row,unit,at,kind,target\nA,1,2 m SL,spot,Door\nC,1,0,spot,Door\n"
    assert "position" in asked_of(tmp_path, rows)


@pytest.mark.parametrize(
    ("tab", "name"),
    [
        ("LX1", "LX 1"),
        ("01_LX1", "LX 1"),
        ("1. LX 1", "LX 1"),
        ("Hang LX1", "LX 1"),
        ("LX 2 rev3", "LX 2"),
        ("LX 2 (4)", "LX 2"),
        ("Show - LX2", "LX 2"),
        ("Spot bar (LX1)", "LX 1"),
        ("LX1 - LX2", None),
        ("LX1 old", None),
        ("Hang list", None),
        ("2", None),
    ],
)
def test_a_sheet_is_named_after_its_position_and_more(tab: str, name: str | None) -> None:
    positions = Names(("LX 1", "LX 2", "LX 2 US"), POSITION_WORDS, POSITION_SPARE)
    assert named_on_tab(tab, positions) == name


@pytest.mark.parametrize(
    "mark", ["LX 1 cont.", "LX1 cont'd", "same bar", "↑", "as previous", '"   "', "(contd)"]
)
def test_a_position_that_goes_on_is_that_of_the_row_above(tmp_path: Path, mark: str) -> None:
    quoted = mark.replace('"', '""')
    rows = f'position,number,at,kind,target\nLX 1,1,2 m SL,spot,A\n"{quoted}",2,0,spot,Door\n'
    assert [unit[0] for unit in units_of(tmp_path, rows)] == ["LX 1", "LX 1"]


@pytest.mark.parametrize("mark", ["...", "LX 9 cont.", "-"])
def test_another_mark_for_a_position_is_asked(tmp_path: Path, mark: str) -> None:
    rows = f"position,number,at,kind,target\nLX 1,1,2 m SL,spot,A\n{mark},2,0,spot,Door\n"
    assert "position" in asked_of(tmp_path, rows)


def _coded(
    tmp_path: Path,
    heading: str,
    sorts: tuple[str, str],
    cells: Sequence[str],
    place: str = "2 m SL",
) -> Path:
    """A house with a pipe of one sort and a boom of another, both with number 1, and a list of codes."""
    one, other = sorts
    house = (
        f'[[pipe]]\nname = "{one} 1"\ntrim = 5\ny = 1\nfrom = -5\nto = 5\n'
        f'[[pipe]]\nname = "{one} 3"\ntrim = 5\ny = 2\nfrom = -5\nto = 5\n'
        f'[[boom]]\nname = "{other} 1"\nx = 4\ny = 3\nheight = 4\n'
    )
    path = write_scene(tmp_path, MORE, house, settings='hang = "hang.csv"')
    rows = [f"{cell},{k},2 m,spot,Door" for k, cell in enumerate(cells, 1)]
    rows = [row.replace("2 m", place) if not row.startswith(other) else row for row in rows]
    text = "\n".join([f"{heading},unit,at,kind,target", *rows, ""])
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("heading", "sorts", "code"),
    [
        ("Perche", ("Perche", "Pied"), "P1"),
        ("Perches", ("Perche", "Pied"), "P.1"),
        ("Perche n°", ("Perche", "Pied"), "p 1"),
        ("Bar", ("Bar", "Boom"), "B1"),
        ("Bar no", ("Bar", "Boom"), "B-1"),
        ("Truss", ("Truss", "Tower"), "T1"),
        ("Traverse", ("Traverse", "Turm"), "T1"),
    ],
)
def test_a_code_is_of_the_sort_that_its_heading_names(
    tmp_path: Path, heading: str, sorts: tuple[str, str], code: str
) -> None:
    one, other = sorts
    path = _coded(tmp_path, heading, sorts, (code, f"{code[:-1]}3", f"{other} 1"))
    found = [unit.position for unit in load_scene(path).units]
    assert found == [f"{one} 1", f"{one} 3", f"{other} 1"]


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Position", ("B1", "B1")),
        ("Where", ("B1", "B1")),
        ("Bar / Boom", ("B1", "B1")),
        ("Bar", ("Bar 1", "B1")),
    ],
)
def test_a_code_whose_heading_names_no_sort_or_several_is_asked(
    tmp_path: Path, heading: str, cells: Sequence[str]
) -> None:
    path = _coded(tmp_path, heading, ("Bar", "Boom"), cells, "2 m")
    with pytest.raises(SceneError, match="may be Bar 1 or Boom 1"):
        load_scene(path)


def test_a_code_whose_row_has_a_side_is_no_boom(tmp_path: Path) -> None:
    path = _coded(tmp_path, "Position", ("Bar", "Boom"), ("B1", "B1"))
    assert {unit.position for unit in load_scene(path).units} == {"Bar 1"}


def test_a_cell_of_90000_brackets_is_soon_seen_to_name_no_position(tmp_path: Path) -> None:
    text = "Name,Bar,Light\n" + "(" * 90_000 + ",LX 1,spot\n"  # it took minutes
    assert "target" in asked_of(tmp_path, text)
