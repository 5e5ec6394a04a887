"""Dates that were feet and inches, on pages of American words and on others."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.americandays import months_first, says_feet_and_inches
from tests.scene.hanglist.listed import ALTAR, HALL, asked_in, scene_in

HOUSE = (
    HALL.replace('"Hall"', '"Hall"\nunit = "ft"')
    + """
[[pipe]]
name = "2nd Electric"
trim = 18
y = 6
from = -20
to = 20
"""
    + ALTAR
)
HEAD = "Position;No;Ft-In;Side;Lamp;Focus;Color"


def _rows(*cells: str, gel: str = "R60") -> list[str]:
    return [f"2nd Electric;{n};{c};SL;Spot;Altar;{gel}" for n, c in enumerate(cells, 1)]


@pytest.mark.parametrize(
    "head", [HEAD, HEAD.replace("Ft-In", "Dist (ft-in)"), HEAD.replace("Ft-In", "Feet-Inches")]
)
def test_on_an_american_page_the_month_is_the_feet(tmp_path: Path, head: str) -> None:
    """6'-2" is 1.8796 m, 11'-3" is 3.429 m."""
    scene = scene_in(tmp_path, HOUSE, [head, *_rows("14-0", "2-Jun", "3-Nov")])
    assert [round(float(unit.at or 0), 4) for unit in scene.units] == [4.2672, 1.8796, 3.429]
    warned = [taken.says for taken in scene.taken if taken.severity == "warn"]
    assert any('"2-Jun" as 6\'-2", and not as 2\'-6"' in says for says in warned)


@pytest.mark.parametrize(
    ("head", "line", "gel"),
    [
        (HEAD.replace("Ft-In", "Dist"), "", "R60"),  # nobody says feet and inches
        (HEAD, "ft-in from the centre", "R60"),
        (HEAD, "12 lanterns", "R60"),
        (HEAD.replace("Color", "Colour"), "", "R60"),
        (HEAD.replace("Color", "Filter"), "LX plot", "R60"),
    ],
)
def test_on_another_page_it_is_asked(tmp_path: Path, head: str, line: str, gel: str) -> None:
    rows = _rows("14-0", "2-Jun", gel=gel)
    assert "6'-2\" or 2'-6\"" in asked_in(tmp_path, HOUSE, [line, head, *rows])


def test_a_month_past_the_end_of_the_pipe_is_asked(tmp_path: Path) -> None:
    house = HOUSE.replace("20", "10")
    assert "3-Nov" in asked_in(tmp_path, house, [HEAD, *_rows("2-Jun", "3-Nov")])


def test_dates_of_which_one_cannot_be_read_by_its_month_tell_nothing() -> None:
    assert months_first(["2-Jun", "15-Mar"]) is None  # 3'-15"
    assert months_first(["06-Feb"]) is None
    assert months_first(["Jun-2"]) is None
    assert months_first(["3-Mar"]) is None  # either way
    assert months_first(["3-Mar", "14-0", "2-Jun"]) is not None


def test_what_says_feet_and_inches() -> None:
    said = ("Ft-In", "ft-in from center", "Dist (ft-in)", "feet and inches", "Ft. In.")
    assert all(map(says_feet_and_inches, said))
    assert not says_feet_and_inches("10 ft in the air")
    assert not says_feet_and_inches("Dist (ft)")
