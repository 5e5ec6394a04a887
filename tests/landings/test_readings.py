"""Landings as people note them, each file with the right reading typed beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.landings.readings import Measured, Noted, Reading, read_landings
from aimcalc.rig.rig import Rig
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Pipe, Target, Unit
from tests.rigs import a_kind, a_scene


def a_rig(unit: str = "m") -> Rig:
    """Two pipes of two units, of two kinds."""
    units = [
        Unit(position=p, number=n, kind=k, at=at, target="t", channel=c)
        for p, n, k, at, c in (
            ("LX 1", "1", "ers-26", 1.0, "11"),
            ("LX 1", "2", "ers-26", -1.0, "12"),
            ("house bar", "7", "par", 0.5, "13"),
            ("house bar", "8", "par", 0.0, "14"),
        )
    ]
    pipes = [
        Pipe(name="LX 1", start=(-5.0, 1.0, 6.0), end=(5.0, 1.0, 6.0)),
        Pipe(name="house bar", start=(-5.0, -6.0, 7.0), end=(5.0, -6.0, 7.0)),
    ]
    kinds = [a_kind("ers-26"), a_kind("par")]
    return Rig(a_scene(units, [Target(name="t", x=0, y=4)], pipes=pipes, kinds=kinds, unit=unit))


def read(tmp_path: Path, text: str, name: str = "l.csv", unit: str = "m") -> Noted:
    file = tmp_path / name
    file.write_text(text, encoding="utf-8")
    return read_landings(str(file), a_rig(unit))


def spot(noted: Noted, k: int = 0) -> Reading:
    return noted.spots[k]


def test_the_plain_form_is_read(tmp_path: Path) -> None:
    noted = read(tmp_path, 'unit,x,y\nLX 1/1,1.23 m SL,3.2 m US\nLX 1/2,"0.5 m SR",1 m DS\n')
    assert [(r.unit, r.x, r.y) for r in noted.spots] == [(0, 1.23, 3.2), (1, -0.5, -1.0)]
    assert spot(noted).down is spot(noted).pan is spot(noted).on is None


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("LX 1/2", 1),
        ("lx1/2", 1),
        ("LX 1-2", 1),
        ("LX1 #2", 1),
        ("7", 2),
        ("ch 14", 3),
        ("house bar 8", 3),
    ],
)
def test_a_unit_is_found_as_people_write_it(tmp_path: Path, name: str, unit: int) -> None:
    assert spot(read(tmp_path, f"unit,x,y\n{name},1 m SL,2 m US\n")).unit == unit


def test_other_headings_marks_and_feet_are_read(tmp_path: Path) -> None:
    text = (
        "Deck sheet of Tuesday;;;;;\n\nPipe;Unit;Landed across;Landed up;Tilt;Dial;Initials\n"
        "LX 1;1;6'-2\" SR;10' US;DOWN 47;22 SL;AB\nLX 1;2;;;;;\n"
    )
    noted = read(tmp_path, text, unit="ft")
    assert len(noted.spots) == 1
    told = spot(noted)
    assert told.x == pytest.approx(-(6 * 12 + 2) * 0.0254)
    assert told.y == pytest.approx(10 * 0.3048)
    assert (told.down, told.pan) == (47.0, (22.0, "SL"))


@pytest.mark.parametrize(
    ("cell", "down"), [("47", 47), ("DOWN 47", 47), ("plumb 43", 47), ("UP 5", -5), ("47.5°", 47.5)]
)
def test_a_down_is_read_from_level_or_from_plumb(tmp_path: Path, cell: str, down: float) -> None:
    assert spot(read(tmp_path, f"unit,x,y,down\nLX 1/1,0 m,2 m US,{cell}\n")).down == down


@pytest.mark.parametrize(
    ("cell", "pan"),
    [("22 SL", (22, "SL")), ("SR 5°", (5, "SR")), ("square", (0, "")), ("9", (9, ""))],
)
def test_a_pan_is_read_with_its_side(tmp_path: Path, cell: str, pan: tuple[float, str]) -> None:
    assert spot(read(tmp_path, f"unit,x,y,pan\nLX 1/1,0 m,2 m US,{cell}\n")).pan == pan


def test_direct_measurements_are_read(tmp_path: Path) -> None:
    text = (
        "unit,x,y,throw,trim,at,drop,plaster\nLX 1/1,1 m SL,2 m US,5.5 m,,,,\nLX 1,,,,5.8 m,2 m SL,,\n"
        "house bar,,,,,,,6.1 m DS\npar,,,,,,0.41 m,\n"
    )
    noted = read(tmp_path, text)
    assert spot(noted).throw == 5.5
    assert [each[:4] for each in noted.direct] == [
        ("trim", "LX 1", 5.8, 2.0),
        ("plaster", "house bar", -6.1, None),
        ("drop", "par", 0.41, None),
    ]
    assert all(isinstance(each, Measured) for each in noted.direct)


def test_toml_is_read(tmp_path: Path) -> None:
    text = (
        '[[landing]]\nunit = "LX 1/1"\nx = "1 m SL"\ny = 2\ndown = 47\nnote = "first"\n\n'
        '[[measured]]\nunit = "LX 1"\ntrim = "5.8 m"\n'
    )
    noted = read(tmp_path, text, "l.toml")
    assert (spot(noted).x, spot(noted).y, spot(noted).down) == (1.0, 2.0, 47.0)
    assert noted.direct[0][:3] == ("trim", "LX 1", 5.8)


def test_a_workbook_is_read(tmp_path: Path) -> None:
    xlsxwriter = pytest.importorskip("xlsxwriter")
    with xlsxwriter.Workbook(tmp_path / "l.xlsx") as book:
        sheet = book.add_worksheet("landings")
        for k, row in enumerate((["unit", "x", "y"], ["LX 1/1", "1 m SL", 2.5])):
            sheet.write_row(k, 0, row)
    noted = read_landings(str(tmp_path / "l.xlsx"), a_rig())
    assert (spot(noted).x, spot(noted).y) == (1.0, 2.5)


def test_the_same_spot_noted_twice_is_one(tmp_path: Path) -> None:
    assert len(read(tmp_path, "unit,x,y\nLX 1/1,1 m,2 m\nLX 1/1,1.05 m,2 m\n").spots) == 1


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("unit,x,y\nLX 9/1,1 m,2 m\n", ("row 2", "a unit of the scene", "LX 9/1")),
        ("unit,x,y\nLX 1/1,1 m,2 m\nLX 1/1,3 m,2 m\n", ("row 3", "one spot of LX 1/1", "row 2")),
        ("unit,x,y\nLX 1/1,one,2 m\n", ("row 2, column B (x)", "a length")),
        ("unit,x,y,pan\nLX 1/1,1 m,2 m,95 SL\n", ("column D (pan)", "0 to 90")),
        ("unit,x,y,down\nLX 1/1,1 m,2 m,-5\n", ("column D (down)", "Say UP, without a sign")),
        ("what,ever\n1,2\n", ("a row of headings: unit, x, y",)),
        ("unit,x,y\n", ("at least one landing", "none")),
        ("unit,trim\nLX 1/1,5 m\n", ("a unit has none; name its position",)),
        ("unit,trim\npar,5 m\n", ("a kind has a drop alone",)),
        ("unit,throw\nLX 1/1,5 m\n", ("the spot that the throw goes to",)),
        ("unit,x,y\nLX 1,1 m,2 m\n", ("a unit, position/number: a spot is one unit's",)),
    ],
)
def test_a_mistake_is_told_with_its_place(tmp_path: Path, text: str, says: tuple[str, ...]) -> None:
    with pytest.raises(SceneError) as caught:
        read(tmp_path, text)
    report = caught.value.report()
    for words in (*says, "Nothing was written"):
        assert words in report


def test_an_unknown_ending_and_an_unknown_table_are_told(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match=r"landings in a file ending in \.toml"):
        read(tmp_path, "unit,x,y\n", "l.pdf")
    with pytest.raises(SceneError, match="landing"):
        read(tmp_path, '[[landings]]\nunit = "LX 1/1"\n', "l.toml")
