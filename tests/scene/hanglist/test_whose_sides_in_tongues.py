"""Whose left and right it is in the words of other languages, beside no side: in a heading, in brackets, in a
title; and the sides as these languages shorten them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.tongues.tongues import in_english
from tests.scene.hanglist.places import listed, places, read, units
from tests.scene.written import refused

HEADS = ["Bar", "Unit", "{}", "Type", "Focus"]


def rows_under(heading: str, *cells: Any) -> list[list[Any]]:
    return [[word.format(heading) for word in HEADS], *units("LX 1", *cells)]


@pytest.mark.parametrize(
    ("heading", "whose"),
    [
        ("Plaats (cm uit het midden, gezien vanuit de zaal)", "house"),
        ("Plek (cm uit het midden, gezien vanaf het toneel)", "stage"),
        ("Abstand von Mitte (m, vom Zuschauer aus)", "house"),
        ("Maß ab Mitte in m, aus Zuschauersicht", "house"),
        ("Abstand Mitte (m, Darstellersicht)", "stage"),
        ("Distance de l'axe (m, vue de la salle)", "house"),
        ("Distanza dal centro (m, vista platea)", "house"),
        ("Posizione (m dal centro, viste dal palcoscenico)", "stage"),
        ("Distancia al centro (m, vista desde el público)", "house"),
        ("Avstånd från mitten (m, sett från salongen)", "house"),
        ("Afstand fra midten (m, set fra salen)", "house"),
        ("Distanza dal centro (m, vista camere)", "house"),
        ("Distance (m, audience view)", "house"),
        ("Distance from centre (m, seen from the stage)", "stage"),
    ],
)
def test_a_heading_of_places_says_whose_sides_are_in_its_cells(heading: str, whose: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.bare) == (("at",), whose)


@pytest.mark.parametrize(
    ("heading", "whose"),
    [
        ("Lato (attore)", "stage"),
        ("Lato (dal pubblico)", "house"),
        ("Seite (aus Zuschauersicht)", "house"),
        ("Zijde (gezien vanuit de zaal)", "house"),
        ("Lado (visto desde el público)", "house"),
        ("Sida (sett från scenen)", "stage"),
        ("Côté (vu de la salle)", "house"),
        ("Côté (public)", "house"),
        ("Côté (acteur)", "stage"),
        ("Lato (vista regia)", "house"),
        ("Seite (v. Zuschauer)", "house"),
    ],
)
def test_a_heading_of_sides_says_whose_they_are(heading: str, whose: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.bare) == (("side",), whose)


@pytest.mark.parametrize(
    ("line", "whose"),
    [
        ("(Richtungen vom Publikum aus)", "house"),
        ("Seiten aus Zuschauersicht", "house"),
        ("Rig, Seiten aus Sicht der Darsteller", "stage"),
        ("Maße in cm ab Mitte, vom Zuschauer aus", "house"),
        ("Distanze in metri dal centro (viste dal palcoscenico)", "stage"),
        ("sx / dx visti dalle camere, metri dal centro", "house"),
        ("Distanze (sin. / des. viste dal palcoscenico, lato attore)", "stage"),
        ("mesures en m depuis l'axe, vues de la salle", "house"),
        ("direcciones vistas desde el público", "house"),
        ("Richtingen gezien vanuit de zaal", "house"),
        ("links/rechts v. Publikum aus", "house"),
        ("Richtungen v. d. Bühne aus", "stage"),
        ("riktningar sett från salongen", "house"),
        ("links/rechts aus Kamerasicht", "house"),
        ("izquierda y derecha vistas desde las cámaras", "house"),
    ],
)
def test_a_line_says_whose_sides_are(line: str, whose: str) -> None:
    assert said_by([(1, [line])]).bare == whose


@pytest.mark.parametrize(
    "line",
    [
        "Foto vom Publikum aus",
        "Foyer an, Saal aus",
        "Kamera steht links, Monitor rechts",
        "cm vanaf de zaalkant, links en rechts gelijk",
        "vista palco, misure in metri",
    ],
)
def test_a_line_of_something_else_says_nothing_of_sides(line: str) -> None:
    assert said_by([(1, [line])]).bare == ""


@pytest.mark.parametrize(
    ("heading", "first"),
    [
        ("cm desde el centro (+ izquierda del actor, - derecha del actor)", 2.5),
        ("cm desde el centro (+ derecha del público, - izquierda del público)", 2.5),
        ("cm ab Mitte (+ = links vom Zuschauer aus, - = rechts vom Zuschauer aus)", -2.5),
    ],
)
def test_a_long_heading_says_which_side_plus_is(tmp_path: Path, heading: str, first: float) -> None:
    assert places(read(tmp_path, rows_under(heading, 250, -100))) == [first, -first * 0.4]


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        (("2,5 m sin.", "1,5 m des."), [-2.5, 1.5]),
        (("2,5 sin", "1,5 des"), [-2.5, 1.5]),
        (("2,5 m gche", "1,5 m dte"), [-2.5, 1.5]),
        (("2,5 m vas.", "1,5 m oik."), [-2.5, 1.5]),
        (("2,5 m vä.", "1,5 m hö."), [-2.5, 1.5]),
        (("2,5 m ve.", "1,5 m hø."), [-2.5, 1.5]),
        (("2,5 esq.", "1,5 dta."), [-2.5, 1.5]),
        (("2,5 m a sinistra (vista camere)", "1,5 m a destra (vista camere)"), [-2.5, 1.5]),
    ],
)
def test_shortened_sides(tmp_path: Path, cells: tuple[str, ...], expected: list[float]) -> None:
    rows = rows_under("Distance (m, seen from the house)", *cells)
    assert places(read(tmp_path, rows)) == expected


@pytest.mark.parametrize("cells", [("2,5 m sin.", "1,5 m des."), ("2,5 gche", "1,5 dte")])
def test_shortened_sides_of_nobody_are_asked(tmp_path: Path, cells: tuple[str, ...]) -> None:
    assert refused(listed(tmp_path, rows_under("Distance", *cells)))


@pytest.mark.parametrize(
    "text", ["sin filtro", "Lámpara 3 sin filtro", "Color: sin", "vas", "Dr. No"]
)
def test_what_is_no_side_stays(text: str) -> None:
    assert "left" not in in_english(text) or text == "vas"


@pytest.mark.parametrize(
    "text",
    [
        "cm vanaf het uiteinde aan de zaalkant",
        "cm vanaf de zaalkant",
        "cm ab Ende auf der Saalseite",
        "cm vom zuschauerseitigen Ende",
        "cm dall'estremità lato platea",
        "cm depuis l'extrémité côté salle",
        "cm desde el extremo del lado del público",
    ],
)
def test_the_end_on_the_side_of_the_house_is_downstage(text: str) -> None:
    assert meaning(text).end == "DS"


def test_an_end_on_the_side_of_the_house_is_none_of_a_pipe_across(tmp_path: Path) -> None:
    assert refused(listed(tmp_path, rows_under("cm vanaf het uiteinde aan de zaalkant", 250, 100)))


@pytest.mark.parametrize(
    ("heading", "cells", "first"),
    [
        ("Distance (m, G/D vus de la salle)", ("2,5 G", "1,5 D"), -2.5),
        ("Distancia (m, I/D del público)", ("2,5 I", "1,5 D"), -2.5),
        ("Distanza (m, S/D visti dalla platea)", ("2,5 S", "1,5 D"), -2.5),
        ("Distanza (m, D/S attore)", ("2,5 S", "1,5 D"), 2.5),
        ("Avstånd (m, V/H sett från salongen)", ("2,5 V", "1,5 H"), -2.5),
        ("Abstand (m, L/R vom Publikum)", ("2,5 L", "1,5 R"), -2.5),
        ("Afstand (m, L/R vanuit de zaal)", ("2,5 L", "1,5 R"), -2.5),
    ],
)
def test_a_heading_says_whose_the_letters_of_its_cells_are(
    tmp_path: Path, heading: str, cells: tuple[str, ...], first: float
) -> None:
    assert places(read(tmp_path, rows_under(heading, *cells))) == [first, -first * 0.6]


def test_letters_of_nobody_are_asked(tmp_path: Path) -> None:
    assert refused(listed(tmp_path, rows_under("Distance (m, G/D)", "2,5 G", "1,5 D")))


@pytest.mark.parametrize("cell", ["2,5 m links, zaalkant", "2,5 m links (saalseitig)"])
def test_a_left_towards_the_house_is_still_nobodys(tmp_path: Path, cell: str) -> None:
    assert refused(listed(tmp_path, rows_under("Distance", cell, "1 m SL")))


@pytest.mark.parametrize("heading", ["Camera view", "Audience view", "Seen from house", "Kamera"])
def test_a_view_alone_is_no_column(heading: str) -> None:
    assert meaning(heading).keys == ()


@pytest.mark.parametrize(
    ("heading", "left", "right", "first"),
    [
        ("Côté (public)", "gauche", "droite", -2.5),
        ("Lato (attore)", "sin.", "des.", 2.5),
        ("Seite (v. Zuschauer)", "li", "re", -2.5),
        ("Kant (vanuit de zaal)", "links", "rechts", -2.5),
        ("Lado (del actor)", "izq.", "der.", 2.5),
    ],
)
def test_a_column_of_sides_says_whose(
    tmp_path: Path, heading: str, left: str, right: str, first: float
) -> None:
    head = ["Bar", "Unit", "Distance", heading, "Type", "Focus"]
    rows = [["LX 1", 1, "2.5 m", left, "spot", "A"], ["LX 1", 2, "1.5 m", right, "spot", "A"]]
    assert places(read(tmp_path, [head, *rows])) == [first, -first * 0.6]


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        ("Abstand (cm, L/R vom Publikum)", "cm"),
        ("Distance (ft, L/R seen from the house)", "ft"),
        ("Distance (mm; stage left / stage right)", "mm"),
        ("Distance (L/R seen from the house)", ""),
    ],
)
def test_a_unit_may_stand_first_in_a_bracket(heading: str, unit: str) -> None:
    found = meaning(heading)
    assert (found.keys, found.unit) == (("at",), unit)
