"""Booms named by side and bay in other words than those of the house: they stand where they stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

_BOOM = '[[boom]]\nname = "{}"\nx = {}\ny = 2\nheight = 5\n'
REST = (
    '[[target]]\nname = "Door"\nx = 1\ny = 4\n[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'
)


def _house(*booms: tuple[str, float]) -> str:
    start = '[scene]\ntitle = "House"\nunit = "m"\nhang = "list.csv"\n'
    return start + "".join(_BOOM.format(name, x) for name, x in booms) + REST


LETTERED = _house(("Boom 1L", 5), ("Boom 1R", -5), ("Boom 2L", 5), ("Boom 2R", -5))
SEEN_FROM_THE_HOUSE = _house(("Boom 1L", -5), ("Boom 1R", 5), ("Boom 2L", -5), ("Boom 2R", 5))
FRENCH = _house(("Tour gauche", -5), ("Tour droite", 5))


def _read(
    root: Path, house: str, *rows: str, head: str = "Boom,Unit,Height,Type,Focus"
) -> list[str]:
    return [u.position for u in scene_in(root, house, [head, *rows]).units]


@pytest.mark.parametrize(
    "names",
    [
        "SL 1|SR 2",
        "SL1|SR2",
        "1 SL|2 SR",
        "Boom SL 1|Boom SR 2",
        "Stage Left 1|Stage Right 2",
        "PS 1|OP 2",
        "PS1|OP2",
        "HR 1|HL 2",
        "1L|2R",
        "L1|R2",
        "SL bay 1|SR bay 2",
        "1-SL|2-SR",
    ],
)
def test_a_boom_by_side_and_bay(tmp_path: Path, names: str) -> None:
    rows = [f"{name},1,2,spot,Door" for name in names.split("|")]
    assert _read(tmp_path, LETTERED, *rows) == ["Boom 1L", "Boom 2R"]


def test_it_is_the_one_that_stands_there_whoever_named_it(tmp_path: Path) -> None:
    rows = ["SL 1,1,2,spot,Door", "SR 2,1,2,spot,Door"]
    assert _read(tmp_path, SEEN_FROM_THE_HOUSE, *rows) == ["Boom 1R", "Boom 2L"]
    rows = ["Tour SL,1,2,spot,Door", "Tour SR,1,2,spot,Door"]
    (tmp_path / "french").mkdir()
    assert _read(tmp_path / "french", FRENCH, *rows) == ["Tour droite", "Tour gauche"]


def test_the_side_may_stand_in_a_column_of_its_own(tmp_path: Path) -> None:
    rows = ["1,SL,1,2,spot,Door", "2,SR,1,2,spot,Door"]
    read = _read(tmp_path, LETTERED, *rows, head="Boom,Side,Unit,Height,Type,Focus")
    assert read == ["Boom 1L", "Boom 2R"]


def test_a_side_without_a_bay_is_asked_about(tmp_path: Path) -> None:
    rows = ["Boom,Unit,Height,Type,Focus", "SL,1,2,spot,Door", "SR 1,1,2,spot,Door"]
    assert "Boom 1L or Boom 2L" in asked_in(tmp_path, LETTERED, rows)


def test_letters_that_do_not_stand_on_either_side_are_no_sides(tmp_path: Path) -> None:
    house = _house(("Boom L", 5), ("Boom M", 6), ("Boom R", 7))
    rows = ["Boom,Unit,Height,Type,Focus", "Boom SL,1,2,spot,Door", "Boom M,1,2,spot,Door"]
    assert "position" in asked_in(tmp_path, house, rows)


def test_booms_called_as_places_are_written_are_no_places_on_the_one_pipe(tmp_path: Path) -> None:
    pipe = '[[pipe]]\nname = "LX 1"\ntrim = 6\ny = 2\nfrom = -5\nto = 5\n'
    house = _house(("SL 1", 5), ("SR 1", -5)) + pipe
    head = "Position,Unit,Place,Type,Focus"
    assert _read(tmp_path, house, "SL 1,1,2,spot,Door", "SR 1,1,2,spot,Door", head=head) == [
        "SL 1",
        "SR 1",
    ]


def test_a_boom_that_says_house_left_is_no_other_by_where_it_stands(tmp_path: Path) -> None:
    house = _house(("Box Boom House Left", -5), ("Box Boom House Right", 5))
    rows = ["BOX BOOM HL,1,2,spot,Door", "BOX BOOM HR,1,2,spot,Door,L is stage left"]
    assert _read(tmp_path, house, *rows, head="Boom,Unit,Height,Type,Focus,Notes") == [
        "Box Boom House Left",
        "Box Boom House Right",
    ]
