"""Rows of which a remark says that their unit hangs on the other side too."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

_BOOM = '[[boom]]\nname = "{}"\nx = {}\ny = 2\nheight = 5\n'
HOUSE = (
    '[scene]\ntitle = "House"\nunit = "m"\nhang = "list.csv"\n'
    + "".join(_BOOM.format(name, x) for name, x in (("SL 1", 5), ("SR 1", -5), ("SL 2", 6)))
    + '[[pipe]]\nname = "LX 1"\ntrim = 6\ny = 2\nfrom = -5\nto = 5\n'
    + '[[target]]\nname = "Door"\nx = 0\ny = 4\n[[target]]\nname = "Table"\nx = -1\ny = 4\n'
    + '[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'
)
HEAD = "Position,Unit,Place,Type,Focus,Channel,{}"


def _read(root: Path, *rows: str, head: str = "Notes") -> list[tuple[str, str, float, object]]:
    units = scene_in(root, HOUSE, [HEAD.format(head), *rows]).units
    return [(u.position, str(u.number), round(u.at or 0, 3), u.channel) for u in units]


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("Mirror", "yes"),
        ("Mirrored?", "Y"),
        ("Both sides", "x"),
        ("Notes", "mirrored"),
        ("Notes", "mirror SR"),
        ("Notes", "both sides"),
        ("Notes", "x2 (SL+SR)"),
        ("Notes", "each side"),
        ("Notes", "same other side"),
        ("Bemerkung", "gespiegelt"),
        ("Bemerkung", "beidseitig"),
        ("Remarques", "des deux côtés"),
        ("Notas", "ambos lados"),
        ("Note", "a specchio"),
    ],
)
def test_a_unit_on_either_side_is_two(tmp_path: Path, head: str, said: str) -> None:
    read = _read(tmp_path, f"SL 1,1,2,spot,Door,11/21,{said}", head=head)
    assert read == [("SL 1", "1", 2.0, "11"), ("SR 1", "1", 2.0, "21")]
    (tmp_path / "pipe").mkdir()
    read = _read(tmp_path / "pipe", f"LX 1,3/4,2 m SL,spot,Door,11/21,{said}", head=head)
    assert read == [("LX 1", "3", 2.0, "11"), ("LX 1", "4", -2.0, "21")]


def test_one_that_has_a_row_of_its_own_is_no_second(tmp_path: Path) -> None:
    rows = ["SL 1,1,2,spot,Door,11,mirrored", "SR 1,1,2,spot,Door,21,mirrored"]
    rows += ["LX 1,1,2 m SL,spot,Door,1,both sides", "LX 1,2,2 m SR,spot,Door,2,both sides"]
    assert [unit[3] for unit in _read(tmp_path, *rows)] == ["11", "21", "1", "2"]


@pytest.mark.parametrize(
    "row",
    [
        "SL 1,1,2,spot,Door,11,mirrored",  # one channel
        "SL 2,1,2,spot,Door,11/21,mirrored",  # no boom over against it
        "LX 1,1,2 m SL,spot,Door,11/21,mirrored",  # one number
        "SL 1,1,2,spot,Table,11/21,mirrored",  # is that aimed at another too?
        "SR 1,1,2,spot,Door,11/21,x2 (SL+SR)",  # whose is 11?
        "LX 1,1/2,0,spot,Door,11/21,mirrored",  # in the middle
    ],
)
def test_what_the_second_has_is_asked_about_where_it_is_open(tmp_path: Path, row: str) -> None:
    assert "Write a row for each of the two" in asked_in(
        tmp_path, HOUSE, [HEAD.format("Notes"), row]
    )


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("Notes", "mirror ball"),
        ("Notes", "barndoor both sides"),
        ("Notes", "mirrors unit 2"),
        ("Mirror", "no"),
    ],
)
def test_other_remarks_are_of_one_unit(tmp_path: Path, head: str, said: str) -> None:
    assert len(_read(tmp_path, f"SL 1,1,2,spot,Door,11,{said}", head=head)) == 1
