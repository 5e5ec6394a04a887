"""Columns of figures under loose words, and headings with signs in other words: places, where it is known
from where they count. The pipe is 10 m long, its zero in the middle."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.written import BASE

HOUSE = BASE.format(settings='hang = "list.csv"')


def _rows(line: str, heading: str, cells: Sequence[str]) -> list[str]:
    units = [f"LX 1;{n};{cell};spot;A" for n, cell in enumerate(cells, 1)]
    return [line, f"Bar;Unit;{heading};Type;Focus", *units]


def _read(tmp_path: Path, rows: Sequence[str]) -> list[float]:
    units = scene_in(tmp_path, HOUSE, rows).units
    return [round(u.at, 6) for u in units if u.at is not None]


@pytest.mark.parametrize("heading", ["Where", "Pos", "Value", "Dim", "Reading", "Size", "Spot"])
def test_signed_figures_where_a_line_says_the_signs(heading: str, tmp_path: Path) -> None:
    rows = _rows("all mm, + = SL, - = SR", heading, ("+3900", "450", "-3900"))
    assert _read(tmp_path, rows) == [3.9, 0.45, -3.9]


@pytest.mark.parametrize("heading", ["Dim", "Dims", "Dim (cm)", "Where", "Reading"])
def test_figures_where_a_line_says_the_end(heading: str, tmp_path: Path) -> None:
    rows = _rows("all dims in cm from the SR end of the pipe", heading, ("30", "500", "870"))
    assert _read(tmp_path, rows) == [-4.7, 0.0, 3.7]


def test_a_column_of_dimmers_stays_one(tmp_path: Path) -> None:
    rows = ["all dims from CL", "Bar;Unit;Dist;Dim;Type;Focus", "LX 1;1;2 m SL;7;spot;A"]
    unit = scene_in(tmp_path, HOUSE, rows).units[0]
    assert (unit.at, unit.circuit) == (2.0, "7")


@pytest.mark.parametrize(
    ("line", "heading"),
    [
        ("Le zéro du mètre est au bout jardin de la perche", "cm depuis jardin"),
        ("Mesures depuis le bout de la perche", "cm depuis jardin"),
        ("measured from the end of the pipe", "cm from SR"),
        ("all from stage right, cm", "from end"),
    ],
)
def test_a_line_and_the_heading_say_the_end_together(
    line: str, heading: str, tmp_path: Path
) -> None:
    assert _read(tmp_path, _rows(line, heading, ("60", "450", "840"))) == [-4.4, -0.5, 3.4]


@pytest.mark.parametrize(
    ("line", "heading"),
    [
        ("measured from SR end", "cm from SL"),  # they do not agree
        ("measured from end of pipe", "cm from SL of CL"),
        ("Gala evening", "cm from SL"),
    ],
)
def test_what_does_not_say_one_end_is_asked(line: str, heading: str, tmp_path: Path) -> None:
    asked_in(tmp_path, HOUSE, _rows(line, heading, ("60", "450", "840")))


@pytest.mark.parametrize(
    ("heading", "plus"),
    [
        ("Feet left (+) or right (-) of center, actor's", "SL"),
        ("Feet left (+) / right (-) of center (actor's)", "SL"),
        ("ft, + = actor's left", "SL"),
        ("Feet to performer's left (+) or right (-) of center line", "SL"),
        ("Feet left (+) or right (-) of center, audience view", "SR"),
        ("Distance from center in feet, positive to stage left, negative to stage right", "SL"),
        ("Feet left (+) or right (-) of center", ""),  # whose?
        ("Dim (in)", ""),
    ],
)
def test_headings_with_signs_in_other_words(heading: str, plus: str) -> None:
    found = meaning(heading)
    assert found.plus == plus
    assert (found.keys[:1] == ("at",)) is (bool(plus) or heading == "Dim (in)")
