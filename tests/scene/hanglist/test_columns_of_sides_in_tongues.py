"""Places in one column a side under letters of other languages, and a unit of length of booms alone.

By hand: V is the players' left where a line says so, and then stage left; nobody knows where none does.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused

ROWS = [["LX 1", 1, 2.6, "", "spot", "A"], ["LX 1", 2, "", 1.5, "spot", "A"]]


def table(line: str, left: str, right: str) -> list[list[object]]:
    return [[line], ["Bar", "Unit", left, right, "Type", "Focus"], *ROWS]


@pytest.mark.parametrize(
    ("line", "left", "right", "at"),
    [
        ("V = venstre set fra scenen, H = højre", "V", "H", [2.6, -1.5]),
        ("V = venstre set fra salen, H = højre", "V", "H", [-2.6, 1.5]),
        ("G = gauche du comédien, D = droite du comédien", "G", "D", [2.6, -1.5]),
        ("E = esquerda do actor, D = direita do actor", "E", "D", [2.6, -1.5]),
        ("L/P z punktu widzenia aktora", "L", "P", [2.6, -1.5]),
        ("vänster/höger sett från scenen mot salongen", "Vä", "Hö", [2.6, -1.5]),
        ("esquerda e direita do público", "Esq. (m)", "Dir. (m)", [-2.6, 1.5]),
    ],
)
def test_two_columns_under_the_letters_of_the_sides(
    tmp_path: Path, line: str, left: str, right: str, at: list[float]
) -> None:
    assert places(read(tmp_path, table(line, left, right))) == at


@pytest.mark.parametrize("pair", [("V", "H"), ("G", "D"), ("Vä", "Hö")])
def test_they_are_asked_where_no_line_tells_which_is_which(
    tmp_path: Path, pair: tuple[str, str]
) -> None:
    """And no place is made up by the spacing."""
    mistakes = refused(listed(tmp_path, table("liste", *pair)))
    assert "a place for each unit" in mistakes[0].text()


@pytest.mark.parametrize(
    ("line", "unit"),
    [
        ("Bars: metres, + = SL, - = SR. Booms: cm from floor", 0.01),
        ("Booms in cm. Bars in m", 0.01),
        ("Torn: höjd över golv. Avstånd i meter", 1),
    ],
)
def test_a_line_says_a_unit_of_booms_alone(tmp_path: Path, line: str, unit: float) -> None:
    rows = [*units("LX 1", "2.50 SL", "1.5 SR"), *units("boom SR", 2.6 / unit)]
    scene = read(tmp_path, [[line], HEADINGS, *rows])
    assert (places(scene), places(scene, "boom SR")) == ([2.5, -1.5], [2.6])


@pytest.mark.parametrize(
    "line",
    [
        "Torn: höjd över golv i cm. Avstånd i meter från mittlinjen",
        "Torri: altezza in cm; distanze in metri dal centro",
        "Wieże: wysokość w cm; odległość w m od osi",
    ],
)
def test_lines_of_other_languages_say_one_of_booms_too(line: str) -> None:
    said = said_by([(1, [line])])
    assert (said.boom_unit, said.unit) == ("cm", "m")
