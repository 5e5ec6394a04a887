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


LEFT_AND_RIGHT = [
    ("left", "right"),
    ("vänster", "höger"),
    ("links", "rechts"),
    ("gauche", "droite"),
]
LEFT_AND_RIGHT += [("sinistra", "destra"), ("izquierda", "derecha"), ("venstre", "højre")]
LEFT_AND_RIGHT += [("vasen", "oikea"), ("lewa", "prawa")]
WORDS = dict(
    zip(("en", "sv", "de", "fr", "it", "es", "da", "fi", "pl"), LEFT_AND_RIGHT, strict=True)
)


@pytest.mark.parametrize(
    ("tongue", "heading", "by_stage"),
    [
        ("sv", "Sida sedd från scenen", True),
        ("sv", "Sida från salongen", False),
        ("en", "Side (from stage)", True),
        ("en", "Side from the house", False),
        ("en", "Side facing audience", True),
        ("en", "Which side (facing the stage)", False),
        ("en", "Side when looking at the stage", False),
        ("en", "L/R facing audience", True),
        ("en", "Actor's side", True),
        ("en", "Side (performer)", True),
        ("de", "Seite (vom Zuschauer)", False),
        ("de", "Seite vom Darsteller aus", True),
        ("fr", "côté (vu de la salle)", False),
        ("fr", "Côté vu de la scène", True),
        ("it", "lato (pubblico)", False),
        ("es", "Lado visto desde el escenario", True),
        ("da", "Side set fra salen", False),
        ("fi", "Puoli (katsomosta)", False),
        ("pl", "Strona od widowni", False),
    ],
)
def test_a_heading_of_sides_says_from_where_they_are_seen(
    tmp_path: Path, tongue: str, heading: str, by_stage: bool
) -> None:
    left, right = WORDS[tongue]
    head = ["Bar", "Unit", "Distance (m)", heading, "Type", "Focus"]
    rows = [["LX 1", 1, 2.6, left, "spot", "A"], ["LX 1", 2, 1.5, right, "spot", "A"]]
    sign = 1 if by_stage else -1
    assert places(read(tmp_path, [head, *rows])) == [2.6 * sign, -1.5 * sign]


@pytest.mark.parametrize(
    ("tongue", "heading", "by_stage"),
    [
        ("sv", "Mått (m) sett från scenen", True),
        ("sv", "Avstånd m (från salongen)", False),
        ("en", "Distance (m, facing audience)", True),
        ("en", "Metres off centre as you look at the stage", False),
        ("en", "Off centre in m (looking from stage)", True),
        ("de", "Abstand (m, vom Zuschauer gesehen)", False),
        ("fr", "Distance m (vue de la salle)", False),
        ("es", "Distancia (m, desde el público)", False),
    ],
)
def test_a_heading_of_places_says_from_where_their_sides_are_seen(
    tmp_path: Path, tongue: str, heading: str, by_stage: bool
) -> None:
    left, right = WORDS[tongue]
    head = ["Bar", "Unit", heading, "Type", "Focus"]
    rows = [["LX 1", 1, f"2.6 {left}", "spot", "A"], ["LX 1", 2, f"1.5 {right}", "spot", "A"]]
    sign = 1 if by_stage else -1
    assert places(read(tmp_path, [head, *rows])) == [2.6 * sign, -1.5 * sign]


@pytest.mark.parametrize(
    "heading", ["Distance (from stage)", "Distance (m)", "Distance from seats"]
)
def test_a_distance_from_somewhere_is_nobodys_view(tmp_path: Path, heading: str) -> None:
    head = ["Bar", "Unit", heading, "Type", "Focus"]
    rows = [["LX 1", 1, "2.6 left", "spot", "A"], ["LX 1", 2, "1.5 right", "spot", "A"]]
    assert refused(listed(tmp_path, [head, *rows]))


@pytest.mark.parametrize("remark", ["axe", "CL", "centre", "on centre"])
def test_a_unit_with_no_side_is_in_the_middle_where_its_remark_says_so(
    tmp_path: Path, remark: str
) -> None:
    head = ["Bar", "Unit", "m SL", "m SR", "Type", "Focus", "Notes"]
    rows = [["LX 1", 1, 2.6, "", "spot", "A", ""], ["LX 1", 2, "", "", "spot", "A", remark]]
    assert places(read(tmp_path, [head, *rows])) == [2.6, 0.0]


def test_another_remark_is_no_place(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "m SL", "m SR", "Type", "Focus", "Notes"]
    rows = [["LX 1", 1, 2.6, "", "spot", "A", ""], ["LX 1", 2, "", "", "spot", "A", "iris"]]
    assert refused(listed(tmp_path, [head, *rows]))
