"""Lines round a table that speak of some of its positions alone. The pipes are 10 m long, their zero in the
middle; the rails count from their downstage end, which is on the plaster line."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.pagelines.ownlines import OwnLines
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

MORE = """
[[pipe]]
name = "LX 2"
trim = 6
y = 4
from = -5
to = 5
"""
HOUSE = BASE.format(settings='hang = "list.csv"') + MORE


def _rows(lines: Sequence[str], cells: Sequence[str], heading: str = "Distance") -> list[str]:
    units = [f"LX {p};{n};{cell};spot;A" for p in (1, 2) for n, cell in enumerate(cells, 1)]
    return [*lines, f"Bar;Unit;{heading};Type;Focus", *units]


def _read(tmp_path: Path, rows: Sequence[str]) -> list[float]:
    units = scene_in(tmp_path, HOUSE, rows).units
    return [round(u.at, 6) for u in units if u.at is not None]


@pytest.mark.parametrize(
    "lines",
    [
        ("LX 1: from SL end", "LX 2: from SR end"),
        ("LX 1 measured from the SL end, LX 2 measured from the SR end",),
        ("LX 1: taken from the SL end of the bar. LX 2: taken from the SR end of the bar.",),
        ("LX 1 (metres from SL end)", "LX 2 (metres from SR end)"),
        ("Pipe 1: from SL end", "Pipe 2: from SR end"),
        ("All from the SR end except LX 1 which is from the SL end",),
        ("SL end is zero on LX 1, SR end is zero on LX 2",),
    ],
)
def test_each_is_read_as_its_line_says(lines: Sequence[str], tmp_path: Path) -> None:
    assert _read(tmp_path, _rows(lines, ("2", "3"))) == [3, 2, -3, -2]


def test_each_has_the_sign_that_its_line_says(tmp_path: Path) -> None:
    rows = _rows(("LX 1: + = SR", "LX 2: + = SL"), ("2", "-1"))
    assert _read(tmp_path, rows) == [-2, 1, 2, -1]


@pytest.mark.parametrize(
    "line", ["LX 1, LX 2: from SR end", "LX 1 and LX 2 from SR end", "Bars: all from the SR end"]
)
def test_a_line_of_all_holds_for_all(line: str, tmp_path: Path) -> None:
    assert _read(tmp_path, _rows([line], ("2", "3"))) == [-3, -2, -3, -2]


@pytest.mark.parametrize(
    "line",
    [
        "LX 1: from SL end",  # and LX 2 from where?
        "1: from the SL end of the bar, 2: from the SR end of the bar",  # of which names?
        "Measured from the SL end or from the SR end",
    ],
)
def test_where_nobody_says_from_where_it_is_asked(line: str, tmp_path: Path) -> None:
    assert "tells where it counts from" in asked_in(tmp_path, HOUSE, _rows([line], ("2", "3")))


RULES = [
    (
        "LX 1: first unit 3 m SL of centre, then 1.5 m on centres working to SR",
        "LX 2: first unit 4 m SR, then every 2 m to SL",
    ),
    (
        "First unit on LX 1 is 3 m SL, then 1.5 m apart towards SR",
        "First unit on LX 2 is 4 m SR, then 2 m apart towards SL",
    ),
    ("Pipe 1: 3 m SL, then 1.5 m centres to SR", "Pipe 2: 4 m SR, then 2 m centres to SL"),
]


@pytest.mark.parametrize("lines", RULES)
def test_units_spaced_as_the_line_of_their_position_says(
    lines: Sequence[str], tmp_path: Path
) -> None:
    units = [f"LX {p};{n};spot;A" for p in (1, 2) for n in (1, 2, 3)]
    rows = [*lines, "Bar;Unit;Type;Focus", *units]
    assert _read(tmp_path, rows) == [3, 1.5, 0, -4, -2, 0]


def test_two_lines_that_name_no_position_are_asked(tmp_path: Path) -> None:
    lines = ("first unit 3 m SL, then 1.5 m apart to SR", "first unit 4 m SR, then 2 m apart to SL")
    units = [f"LX {p};{n};spot;A" for p in (1, 2) for n in (1, 2, 3)]
    asked = asked_in(tmp_path, HOUSE, [*lines, "Bar;Unit;Type;Focus", *units])
    assert "one line that tells where each unit of LX 1 hangs" in asked


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("2E: from SL end", ("2E",)),
        ("Galleries: metres from the back end", ("North Gallery", "South Gallery")),
        ("First unit on a pipe: from the SR end", ()),  # none of Pipe A
        ("All others from centre", ()),
        ("Type: from the catalogue", ()),
        ("Pipe A is measured from SR end", ("Pipe A",)),
    ],
)
def test_the_positions_that_lead_a_line(line: str, expected: Sequence[str]) -> None:
    names = Names(("1E", "2E", "North Gallery", "South Gallery", "Pipe A", "Pipe B"), sides=True)
    assert set(OwnLines(names).named(line)) == set(expected)


ACROSS = (
    'name = "side"\nstart = [4, 0, 5]\nend = [4, 6, 5]',
    'name = "unused"\ntrim = 5\ny = 1\nfrom = -1\nto = 1',
)
GALLERIES = """
[[pipe]]
name = "North Gallery"
start = [-5, -8, 4]
end = [-5, 2, 4]
zero = "middle"
"""


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("from the back end, farthest from the altar", -4),
        ("from the end furthest from the altar", -4),
        ("from the end nearest the altar", 4),
    ],
)
def test_an_end_by_what_is_at_it_or_at_the_other(
    line: str, expected: float, tmp_path: Path
) -> None:
    altar = '[[target]]\nname = "Altar"\nx = 0\ny = 3\n'
    base = BASE.replace(*ACROSS)
    house = base.format(settings='hang = "list.csv"') + GALLERIES + altar
    rows = [f"Galleries: metres {line}", "Bar;Unit;Distance;Type;Focus"]
    units = scene_in(tmp_path, house, [*rows, "North Gallery;1;1;spot;A"]).units
    assert [round(unit.at, 6) for unit in units] == [expected]


def test_the_back_end_of_a_gallery_over_the_seats_is_not_known(tmp_path: Path) -> None:
    base = BASE.replace(*ACROSS)
    rows = ["Metres from the back end", "Bar;Unit;Distance;Type;Focus", "North Gallery;1;1;spot;A"]
    assert asked_in(tmp_path, base.format(settings='hang = "list.csv"') + GALLERIES, rows)


def test_two_ends_of_one_position_are_asked_about(tmp_path: Path) -> None:
    rows = [
        "LX 1: from SL end. LX 1: from SR end",
        "Bar;Unit;Distance;Type;Focus",
        "LX 1;1;2;spot;A",
    ]
    said = asked_in(tmp_path, HOUSE, rows)
    assert "from the SL end and from the SR end" in said


OF_SORTS = """[scene]
title = "Hall"
hang = "list.csv"
[[pipe]]
name = "Zug 1"
trim = 6
y = 3
from = -8
to = 8
[[pipe]]
name = "Zug 2"
trim = 6
y = 5
from = -8
to = 8
[[pipe]]
name = "Galerie links"
start = [7, -2, 5]
end = [7, 8, 5]
[[pipe]]
name = "Galerie rechts"
start = [-7, -2, 5]
end = [-7, 8, 5]
[[boom]]
name = "Turm 1"
x = 6
y = 2
height = 5
[[target]]
name = "Mitte"
x = 0
y = 4
[[kind]]
name = "Spot"
family = "ers"
field = 30
"""


@pytest.mark.parametrize(
    ("heading", "plus"),
    [
        (
            "m (Züge: ab Mitte, + = vom Zuschauer aus rechts; Galerien: ab Portal; Türme: ab Boden)",
            1,
        ),
        ("m (Züge: ab Mitte, + = Zuschauer links; Galerien: ab Portal nach hinten)", -1),
        ("Maß in m (Züge: + = SL / Galerien: ab Portallinie)", 1),
        ("Dist m (pipes: from centre, + = SL; Galerien: from the plaster line, upstage)", 1),
        ("Position [Zug 1, Zug 2: + = house left; Galerien: upstage of plaster]", -1),
    ],
)
def test_one_heading_says_it_of_each_sort_of_position(
    tmp_path: Path, heading: str, plus: int
) -> None:
    rows = [("Zug 1", "3"), ("Zug 2", "-2"), ("Galerie links", "2,5"), ("Galerie rechts", "6")]
    lines = [f'Standort;Nr;"{heading}";Lampe;Ziel', *(f"{p};1;{at};Spot;Mitte" for p, at in rows)]
    read = [unit.at for unit in scene_in(tmp_path, OF_SORTS, lines).units]
    assert read == [3 * plus, -2 * plus, 2.5 - 3, 6 - 3]  # the middle is 3 m upstage
