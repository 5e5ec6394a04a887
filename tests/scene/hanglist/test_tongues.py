"""Places in the words of other languages: whose left and right is meant they say, or it is asked."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.tongues.tongues import in_english
from tests.scene.hanglist.places import listed, places, read, told, units
from tests.scene.written import refused

HEADS = ["Bar", "Unit", "{}", "Type", "Focus"]


def rows_under(heading: str, *cells: Any) -> list[list[Any]]:
    return [[word.format(heading) for word in HEADS], *units("LX 1", *cells)]


@pytest.mark.parametrize(
    ("line", "heading", "cells"),
    [
        (
            "links / rechts vom Zuschauer aus gesehen",
            "Abstand",
            ("2,5 m links", "Mitte", "1,5 m rechts"),
        ),
        (
            "Links und rechts aus Publikumssicht",
            "Maß ab Mitte",
            ("2,5 lks.", "mittig", "1,5 rechts"),
        ),
        (
            "rechts/links von der Bühne aus gesehen",
            "Abstand",
            ("2,5 m rechts", "Mitte", "1,5 m links"),
        ),
        ("izq. / der. = del actor", "Distancia", ("2,5 m der.", "centro", "1,5 m izq.")),
        (
            "Derecha e izquierda del público.",
            "Desde el eje",
            ("2,5 izquierda", "eje", "1,5 derecha"),
        ),
        ("sx / dx dell'attore, misure dal centro", "Misura", ("2,50 dx", "centro", "1,50 sx")),
        (
            "destra e sinistra viste dalla platea",
            "Misura",
            ("2,50 m sinistra", "asse", "1,50 m destra"),
        ),
        (
            "gauche et droite vus de la salle",
            "Cotes",
            ("2,50 m à gauche", "axe", "1,50 m à droite"),
        ),
        (
            "gauche / droite du comédien",
            "Distance de l'axe",
            ("2,5 droite", "milieu", "1,5 gauche"),
        ),
        (
            "links en rechts gezien vanuit de zaal",
            "Afstand",
            ("2,5 m links", "midden", "1,5 m rechts"),
        ),
        ("esquerda e direita do ator", "Distância", ("2,5 m dir.", "centro", "1,5 m esq.")),
        ("vänster/höger sett från salongen", "Avstånd", ("2,5 m vänster", "mitten", "1,5 m höger")),
        ("venstre og højre set fra salen", "Afstand", ("2,5 m venstre", "midten", "1,5 m højre")),
        (
            "høyre/venstre sett fra skuespilleren",
            "Avstand",
            ("2,5 m høyre", "midten", "1,5 m venstre"),
        ),
        ("lewa i prawa od widowni", "Odległość od osi", ("2,5 m lewa", "środek", "1,5 m prawa")),
        (
            "vlevo a vpravo z pohledu diváka",
            "Vzdálenost od osy",
            ("2,5 vlevo", "střed", "1,5 vpravo"),
        ),
        (
            "esquerra i dreta del públic",
            "Distància al centre",
            ("2,5 m esquerra", "eix", "1,5 m dreta"),
        ),
        ("J = jardin, C = cour", "Hauteur ou cote", ("2,5 m J", "axe", "1,5 m C")),
        (
            "D = derecha, I = izquierda (vista del público)",
            "Distancia",
            ("2,5 m I", "0", "1,5 m D"),
        ),
        ("", "Misura", ("2,5 m lato giardino", "centro", "1,5 m lato corte")),
        ("", "Afstand", ("2,5 m tuinkant", "midden", "1,5 m hofkant")),
        ("", "Cote", ("2,5 m côté jardin", "axe", "1,5 m côté cour")),
        ("", "Desde el centro", ("2,5 m derecha actor", "centro", "1,5 m izquierda actor")),
        (
            "",
            "Abstand zur Mitte",
            ("2,5 m rechts vom Darsteller", "0", "1,5 m links vom Darsteller"),
        ),
    ],
)
def test_sides_in_other_languages(
    tmp_path: Path, line: str, heading: str, cells: tuple[str, ...]
) -> None:
    scene = read(tmp_path, [[line], *rows_under(heading, *cells)])
    assert places(scene) == [-2.5, 0.0, 1.5]
    assert told(scene, cells[0].strip())


@pytest.mark.parametrize(
    ("heading", "cells"),
    [
        ("Abstand", ("2,5 m links", "Mitte", "1,5 m rechts")),
        ("Abstand", ("2,5 m Bühne links", "Mitte", "1,5 m Bühne rechts")),
        ("Afstand", ("2,5 m toneel links", "midden", "1,5 m toneel rechts")),
        ("Distancia", ("2,5 m der.", "centro", "1,5 m izq.")),
        ("Misura", ("2,50 dx", "centro", "1,50 sx")),
        ("Cotes", ("2,50 m gauche", "axe", "1,50 m droite")),
        ("Avstånd", ("2,5 m vänster", "mitten", "1,5 m höger")),
        ("Vzdálenost", ("2,5 vlevo", "střed", "1,5 vpravo")),
    ],
)
def test_left_and_right_of_nobody_is_asked(
    tmp_path: Path, heading: str, cells: tuple[str, ...]
) -> None:
    mistakes = refused(listed(tmp_path, rows_under(heading, *cells)))
    assert any("SL or SR" in mistake.expected for mistake in mistakes)


@pytest.mark.parametrize(
    ("line", "heading", "first"),
    [
        ("", "X en metros (+ = izquierda del actor)", 2.5),
        ("", "Abstand (m, + = links vom Zuschauer)", -2.5),
        ("", "Mesure (+ = jardin)", -2.5),
        ("Maße in Metern; + = linke Bühnenseite vom Darsteller aus", "Maß", 2.5),
        ("Maten in m; min = links gezien vanuit de zaal", "Maat", 2.5),
        ("cotes depuis l'axe, + = cour, - = jardin", "Cote", 2.5),
        ("misure dal centro, + = destra del pubblico", "Misura", 2.5),
        ("Mått i m från mitten, plus = vänster sett från salongen", "Mått", -2.5),
    ],
)
def test_what_plus_is(tmp_path: Path, line: str, heading: str, first: float) -> None:
    scene = read(tmp_path, [[line], *rows_under(heading, 2.5, 0, -1.5)])
    assert places(scene) == [first, 0.0, -first * 0.6]


@pytest.mark.parametrize("line", ["+ = links, Maße ab Mitte", "mesures depuis l'axe, + = à droite"])
def test_plus_to_a_side_of_nobody_is_asked(tmp_path: Path, line: str) -> None:
    assert refused(listed(tmp_path, [[line], *rows_under("Maß", 2.5, 0, -1.5)]))


@pytest.mark.parametrize(
    ("line", "one", "other", "first"),
    [
        ("", "Jardin", "Cour", -2.5),
        ("", "Lato giardino", "Lato corte", -2.5),
        ("links und rechts vom Zuschauer aus", "links", "rechts", -2.5),
        ("izquierda y derecha del actor", "Izquierda", "Derecha", 2.5),
    ],
)
def test_a_column_a_side(tmp_path: Path, line: str, one: str, other: str, first: float) -> None:
    head = ["Bar", "Unit", one, other, "Type", "Focus"]
    rows = [["LX 1", 1, 2.5, "", "spot", "A"], ["LX 1", 2, "", 1.5, "spot", "A"]]
    assert places(read(tmp_path, [[line], head, *rows])) == [first, -first * 0.6]


@pytest.mark.parametrize(
    ("heading", "key", "unit"),
    [
        ("Distancia al centro (pies)", "at", "ft"),
        ("Distance de l'axe (en cm)", "at", "cm"),
        ("Abstand von der Mitte (cm)", "at", "cm"),
        ("Distanza dall'asse (cm)", "at", "cm"),
        ("Avstånd från mitten (cm)", "at", "cm"),
        ("Odległość od osi (cm)", "at", "cm"),
        ("Altezza da terra", "height", ""),
        ("Höhe über Boden", "height", ""),
        ("Hoogte boven de vloer (cm)", "height", "cm"),
        ("Altura desde el suelo", "height", ""),
        ("Kring", "circuit", ""),
        ("Obvod", "circuit", ""),
    ],
)
def test_headings(heading: str, key: str, unit: str) -> None:
    found = meaning(heading)
    assert (found.keys[:1], found.unit) == ((key,), unit)


@pytest.mark.parametrize(
    "text",
    ["Lead Vocal", "half a metre SR", "15' SL", "3 m hoger", "chain link", "Position", "1.2 m SL"],
)
def test_other_texts_stay_as_they_are(text: str) -> None:
    assert in_english(text) == text


def test_a_column_of_lengths_with_words_of_nobody_knows_what_is_asked(tmp_path: Path) -> None:
    rows = rows_under("Wohin", "2,5 m xanadu", "1,5 m xanadu", "0,5 m brolly")
    mistakes = refused(listed(tmp_path, rows))
    assert any("column C" in mistake.expected for mistake in mistakes)


@pytest.mark.parametrize(
    "word", ["Totaal", "Summe", "Totale", "Gesamt", "Celkem", "Razem", "En total"]
)
def test_a_row_of_totals(tmp_path: Path, word: str) -> None:
    rows = [*rows_under("Distance", "2.5 m SL", "1 m SL"), [word, "", "", "2 spots", ""]]
    assert places(read(tmp_path, rows)) == [2.5, 1.0]


@pytest.mark.parametrize(
    "row",
    [
        ["spot: 1", "", "", "wide: 1", ""],
        ["spot x 1", "", "wide x 1", "", ""],
        ["1 x spot", "", "", "1 x wide", ""],
        ["spot", "1", "wide", "1", ""],
    ],
)
def test_a_row_that_counts_the_kinds(tmp_path: Path, row: list[Any]) -> None:
    from tests.scene.hanglist.listed import MORE
    from tests.scene.written import write_scene

    path = write_scene(tmp_path, MORE, settings='hang = "hang.csv"')
    rows = [*rows_under("Distance", "2.5 m SL", "1 m SL"), row]
    text = "\n".join(",".join(map(str, each)) for each in rows)
    (tmp_path / "hang.csv").write_text(text, encoding="utf-8")
    from aimcalc.scene.loading import load_scene

    assert places(load_scene(path)) == [2.5, 1.0]


@pytest.mark.parametrize(
    ("own", "house"),
    [("Our bar", "House position"), ("Gastspiel Zug", "Zug Haus"), ("Show pipe", "Venue bar")],
)
def test_the_houses_names_of_positions_come_before_the_companys(
    tmp_path: Path, own: str, house: str
) -> None:
    head = [own, house, "Unit", "Distance", "Type", "Focus"]
    rows = [["LX 1", "LX 1", 1, "2.5 m SL", "spot", "A"]]
    assert places(read(tmp_path, [head, *rows])) == [2.5]
