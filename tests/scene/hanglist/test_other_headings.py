"""A second table below the first, or beside it, with other headings for other positions."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import MORE
from tests.scene.written import write_scene

HOUSE = """
[[boom]]
name = "Boom SL"
x = 5
y = 2
height = 5

[[boom]]
name = "Boom OP"
x = -5
y = 2
height = 5

[[pipe]]
name = "Gallery jardin"
start = [-6, 0, 5]
end = [-6, 8, 5]

[[pipe]]
name = "Gallery cour"
start = [6, 0, 5]
end = [6, 8, 5]
"""
PIPES = "Pipe,No,Place,Type,Focus\nLX 1,1,2 SL,spot,A\nLX 1,2,2 SR,spot,A\n"
ON_PIPES = [("LX 1", "1", 2.0), ("LX 1", "2", -2.0)]


def _read(folder: Path, text: str) -> list[tuple[str, str, float | None]]:
    path = write_scene(folder, MORE, HOUSE, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(text, encoding="utf-8")
    return [(unit.position, str(unit.number), unit.at) for unit in load_scene(path).units]


def _asked(folder: Path, text: str) -> str:
    with pytest.raises(SceneError) as refused:
        _read(folder, text)
    return refused.value.report()


BOOMS = "SL,1,2.5,spot,A\nOP,1,1.5,spot,A\n"
ON_BOOMS = [("Boom SL", "1", 2.5), ("Boom OP", "1", 1.5)]


@pytest.mark.parametrize("between", ["", ",,,,\n", ",,,,\nBOOMS,,,,\n", "Side light,,,,\n"])
@pytest.mark.parametrize(
    "heads",
    ["Boom,Unit,Height,Type,Focus", "Boom,Lamp,Up (m),Lantern,Onto", "Boom,Ref,Height,Kind,Target"],
)
def test_booms_below_pipes(between: str, heads: str, tmp_path: Path) -> None:
    assert _read(tmp_path, f"{PIPES}{between}{heads}\n{BOOMS}") == ON_PIPES + ON_BOOMS


@pytest.mark.parametrize(
    "heads",
    [
        "Gallery,No,m from plaster line,Type,Focus",
        "Gallery,No,m du cadre de scène,Type,Focus",
        "Which,No,m from plaster line,Type,Focus",
    ],
)
def test_galleries_below_pipes_are_named_by_their_sides(heads: str, tmp_path: Path) -> None:
    # 2.5 m and 6 m of a rail whose middle, its zero, is 4 m from the plaster line.
    rows = "jardin,1,2.5,spot,A\ncour,1,6,spot,A\n"
    read = _read(tmp_path, f"{PIPES},,,,\nGALLERIES,,,,\n{heads}\n{rows}")
    assert read == [*ON_PIPES, ("Gallery jardin", "1", -1.5), ("Gallery cour", "1", 2.0)]


def test_below_other_headings_without_a_position_nothing_hangs_on_the_one_before(
    tmp_path: Path,
) -> None:
    text = f"{PIPES},,,,\nNo,m US of plaster line,Type,Focus,\n1,2.5,spot,A,\n"
    assert "position" in _asked(tmp_path, text)


def test_a_table_beside_the_first_with_other_headings(tmp_path: Path) -> None:
    text = (
        "Pipe,No,Place,Type,Focus,,Boom,Unit,Height,Lantern,Target\n"
        "LX 1,1,2 SL,spot,A,,SL,1,2.5,spot,A\nLX 1,2,2 SR,spot,A,,OP,1,1.5,spot,A\n"
    )
    assert _read(tmp_path, text) == ON_PIPES + ON_BOOMS


def test_two_kinds_beside_each_other_are_asked(tmp_path: Path) -> None:
    text = "Pipe,No,Place,Type,Focus,,Lantern\nLX 1,1,2 SL,spot,A,,wide\n"
    assert "column that holds the kind" in _asked(tmp_path, text)


def test_the_first_headings_may_come_again_below_others(tmp_path: Path) -> None:
    text = f"{PIPES}Boom,Unit,Height,Type,Focus\n{BOOMS}{PIPES.replace('LX 1', 'LX 2')}"
    again = [("LX 2", number, at) for _, number, at in ON_PIPES]
    assert _read(tmp_path, text) == ON_PIPES + ON_BOOMS + again


def test_headings_by_side_that_come_again_are_read_as_the_first(tmp_path: Path) -> None:
    heads = "No,Type,m jardin,m cour,Focus\n"
    text = f"LX 1\n{heads}1,spot,2,,A\n2,spot,,1,A\n\nLX 2\n{heads}1,spot,,3,A\n"
    assert _read(tmp_path, text) == [("LX 1", "1", -2.0), ("LX 1", "2", 1.0), ("LX 2", "1", 3.0)]
