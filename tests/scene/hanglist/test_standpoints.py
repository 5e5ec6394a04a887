"""Whose left and right a line means that says from where somebody looks and at what, in many languages.

By hand: who stands on the stage and looks at the seats has stage left to the left; who sits in the house and
looks at the stage has it to the right.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.pagelines.titles import said_by
from tests.scene.hanglist.listed import asked_in, scene_in

STAGE = [
    "v = venstre, h = højre, set fra scenen mod salen",
    "V = scenens venstre, H = scenens højre (set fra scenen mod salen). cm fra midten.",
    "venstre og højre set fra scenen ud mod publikum",
    "venstre/højre: når man står på scenen og kigger ud i salen",
    "vänster/höger sett från scenen mot salongen",
    "vänster/höger sett från scenen ut i salongen",
    "höger/vänster är skådespelarens",
    "venstre/høyre sett fra scenen ut mot salen",
    "esquerda e direita vistas do palco para a plateia",
    "E = esquerda e D = direita de quem está no palco",
    "sx/dx viste dal palco verso la platea",
    "destra e sinistra di chi sta in palcoscenico",
    "izquierda y derecha vistas desde el escenario hacia el público",
    "gauche/droite vu de la scène vers la salle",
    "links/rechts von der Bühne zum Publikum gesehen",
    "links und rechts von der Bühne aus Richtung Zuschauerraum",
    "links/rechts vanaf het toneel naar de zaal gezien",
    "links/rechts gezien vanaf het podium richting zaal",
    "lewa/prawa ze sceny patrząc na widownię",
    "lewa/prawa patrząc ze sceny",
    "vlevo a vpravo z jeviště do hlediště",
    "L/P čelem k publiku",
    "vasen/oikea näyttämöltä katsomoon päin",
    "V og H er skuespillerens venstre og højre",
]
HOUSE = [
    "venstre/højre set fra salen mod scenen",
    "vänster/höger sett från salongen mot scenen",
    "sett mot scenen: vänster/höger",
    "esquerda/direita vistas da plateia para o palco",
    "sx/dx visti dalla platea verso il palco",
    "izquierda y derecha desde la sala hacia el escenario",
    "gauche/droite vu de la salle vers la scène",
    "links/rechts vom Publikum zur Bühne gesehen",
    "links/rechts mit Blick auf die Bühne",
    "links/rechts vanuit de zaal naar het toneel gezien",
    "links/rechts kijkend naar het podium",
    "L / P = lewa / prawa strona patrząc z widowni; odległość od osi w metrach",
    "lewa/prawa patrząc z widowni na scenę",
    "lewa/prawa patrząc na scenę",
    "vlevo a vpravo z hlediště na jeviště",
    "L/P čelem k jevišti",
    "vasen ja oikea yleisöstä näyttämölle katsottuna",
]


@pytest.mark.parametrize(
    ("line", "whose"), [*((each, "stage") for each in STAGE), *((each, "house") for each in HOUSE)]
)
def test_a_line_says_from_where_somebody_looks_and_at_what(line: str, whose: str) -> None:
    said = said_by([(1, [line])])
    left = {"SL": "stage", "SR": "house"}
    right = {"SR": "stage", "SL": "house"}
    letters = {left[side] for word, side in said.sides if word in ("v", "e", "g", "i", "l")}
    letters |= {right[side] for word, side in said.sides if word in ("h", "d", "p", "o")}
    assert {said.bare, *letters} - {""} == {whose}


@pytest.mark.parametrize(
    "line", ["venstre og højre", "links/rechts, Blickrichtung", "lewa/prawa, cm"]
)
def test_a_line_that_says_of_nobody_says_of_nobody(line: str) -> None:
    said = said_by([(1, [line])])
    assert (said.bare, said.sides) == ("", ())


def house(left: str, right: str, turned: bool = False) -> str:
    """A bar and two towers that are named after the sides, the left one at stage left or `turned`."""
    towers = zip((left, right), (-6, 6) if turned else (6, -6), strict=True)
    return (
        '[scene]\ntitle = "Hall"\nhang = "list.csv"\n'
        '\n[[pipe]]\nname = "Bar"\ntrim = 5\ny = 1\nfrom = -5\nto = 5\n'
        + "".join(f'\n[[boom]]\nname = "{n}"\nx = {x}\ny = 2\nheight = 4\n' for n, x in towers)
        + '\n[[target]]\nname = "A"\nx = 0\ny = 3\n'
        + '\n[[kind]]\nname = "Spot"\nfamily = "ers"\nfield = 26\n'
    )


def at(folder: Path, scene: str, line: str, *cells: str) -> list[float]:
    rows = [f"Bar;{n};{cell};Spot;A" for n, cell in enumerate(cells, 1)]
    lines = [f"{line};;;;", "Position;No;Distance;Lamp;Focus", *rows]
    return [round(unit.at or 0.0, 6) for unit in scene_in(folder, scene, lines).units]


SWEDISH, PORTUGUESE = ("Torn vänster", "Torn höger"), ("Torre esquerda", "Torre direita")


@pytest.mark.parametrize(
    ("names", "line", "cells"),
    [
        (PORTUGUESE, "E = esquerda de cena, D = direita de cena; metros", ("2 E", "1,5 D")),
        (PORTUGUESE, "Montagem", ("2 esq. de cena", "1,5 m direita de cena")),
        (SWEDISH, "SV = scenvänster, SH = scenhöger", ("2 SV", "1,5 SH")),
        (SWEDISH, "Revyn", ("2 SV", "1,5 m scenhöger")),
        (("Torre sinistra", "Torre destra"), "Opera", ("2 sinistra della scena", "1,5 dx del palco")),
        (("Tour gauche", "Tour droite"), "Opéra", ("2 gauche de la scène", "1,5 scène droite")),
        (("Turm links", "Turm rechts"), "Oper", ("2 m Bühne links", "1,5 m Bühnen-rechts")),
    ],
)  # fmt: skip
def test_the_sides_of_the_stage_are_those_of_the_names_of_the_house(
    tmp_path: Path, names: tuple[str, str], line: str, cells: tuple[str, ...]
) -> None:
    assert at(tmp_path, house(*names), line, *cells) == [2, -1.5]


@pytest.mark.parametrize(
    ("names", "line", "cells"),
    [
        (PORTUGUESE, "E = esquerda de cena, D = direita de cena; metros", ("2 E", "1,5 D")),
        (SWEDISH, "Revyn", ("2 SV", "1,5 SH")),
    ],
)
def test_they_are_asked_where_the_names_stand_the_other_way(
    tmp_path: Path, names: tuple[str, str], line: str, cells: tuple[str, ...]
) -> None:
    rows = [f"Bar;{n};{cell};Spot;A" for n, cell in enumerate(cells, 1)]
    lines = [f"{line};;;;", "Position;No;Distance;Lamp;Focus", *rows]
    assert "SR" in asked_in(tmp_path, house(*names, turned=True), lines)


def test_what_the_list_says_of_the_players_comes_before_the_names_of_the_house(
    tmp_path: Path,
) -> None:
    turned = house(*SWEDISH, turned=True)
    line = "SV = scenvänster, SH = scenhöger (skådespelarens)"
    assert at(tmp_path, turned, line, "2 SV", "1,5 SH") == [2, -1.5]


@pytest.mark.parametrize(
    ("names", "line", "left", "right"),
    [
        (("Wieża lewa", "Wieża prawa"), "lewa / prawa: patrząc z widowni", "lewa", "prawa"),
        (("Torni vasen", "Torni oikea"), "vasen/oikea yleisöstä katsottuna", "vasen", "oikea"),
        (("Torre esquerra", "Torre dreta"), "esquerra i dreta del públic", "esquerra", "dreta"),
        (("Stativ V", "Stativ H"), "V = venstre, H = højre set fra salen", "V", "H"),
    ],
)
def test_names_of_the_house_do_not_turn_what_the_list_says_round(
    tmp_path: Path, names: tuple[str, str], line: str, left: str, right: str
) -> None:
    """The towers are named as the players see them, the list is written as the house does."""
    assert at(tmp_path, house(*names), line, f"2 {left}", f"1,5 {right}") == [-2, 1.5]


@pytest.mark.parametrize("cells", [("2 lewa", "1,5 prawa"), ("2 m w lewo", "1,5 m na prawo")])
def test_bare_sides_of_which_nobody_says_whose_they_are_asked(
    tmp_path: Path, cells: tuple[str, str]
) -> None:
    rows = [f"Bar;{n};{cell};Spot;A" for n, cell in enumerate(cells, 1)]
    lines = ["Position;No;Distance;Lamp;Focus", *rows]
    assert "SL or SR" in asked_in(tmp_path, house("Wieża lewa", "Wieża prawa"), lines)
