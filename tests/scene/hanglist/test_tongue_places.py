"""Middles, heights and names with a side as other languages write, shorten and bend them.

By hand: a height on a boom is what its figure says; a tower called dx stands where Torre destra does.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.places.heights import height_alone
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused


@pytest.mark.parametrize(
    "word",
    """mitt|i mitten|midt|midtpå|oś|w osi|na osi|pośrodku|osa|uprostřed|keskellä|Mitte|auf Achse|op de as|hart
    milieu
    dans l'axe|al eje|en el centro|in mezzo|mezzeria|no eixo|ao centro|meio|a l'eix|0 (oś)
    senter|mittlinjen""".replace("\n", "|").split("|"),
)
def test_a_word_for_the_middle_alone_is_the_centre(tmp_path: Path, word: str) -> None:
    scene = read(tmp_path, [HEADINGS, *units("LX 1", word.strip(), "2 m SL")])
    assert places(scene) == [0, 2]


def test_a_middle_beside_a_figure_is_asked(tmp_path: Path) -> None:
    """Two metres of the middle, to a side that is not said."""
    refused(listed(tmp_path, [HEADINGS, *units("LX 1", "2 mitt", "2 m SL")]))


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        ("vänster/höger sett från scenen", ("2 m vä", "1,5 hö", "vä 2", "1,5 m höger om mitten")),
        ("venstre/højre set fra scenen", ("2 ve", "1,5 m hø.", "v 2", "1,5 m højre for midten")),
        ("lewa/prawa aktora", ("2 m w lewo", "1,5 na prawo", "2 po lewej", "1,5 pr.")),
        ("vlevo/vpravo z pohledu herce", ("2 m doleva", "1,5 doprava", "vlevo 2", "1,5 vpravo")),
        ("vasen/oikea näyttelijän", ("2 m vasemmalle", "1,5 oikealle", "2 V", "1,5 O")),
        ("izq/der del actor", ("2 izda.", "der. 1,5", "2 I", "1,5 D")),
        ("gauche et droite de l'acteur", ("2 g", "côté droit 1,5", "2 gche", "1,5mD")),
    ],
)
def test_sides_are_shortened_and_bent(tmp_path: Path, line: str, cells: tuple[str, ...]) -> None:
    scene = read(tmp_path, [[line], HEADINGS, *units("LX 1", *cells)])
    assert places(scene) == [2, -1.5, 2, -1.5]


@pytest.mark.parametrize(
    "cell",
    """260 cm upp|wys. 260 cm|260 cm wys.|2,60 m de alto|2,6 m nad podłogą|na wys. 2,6 m|výška 2,6 m
    hö 2,6|in 2,6 m Höhe
    op 2,6 m hoogte|à 2,6 m|2,6 m du sol|h 2,6|a 2,6 m de altura|2,6 m d'altezza|2,6 m do chão
    korkeus 2,6
    2,6 m över golv
    260 cm op|2,6 m d'alçada|2,6 m vysoko""".replace("\n", "|").split("|"),
)
def test_a_figure_on_a_boom_is_a_height_whatever_says_so(tmp_path: Path, cell: str) -> None:
    scene = read(tmp_path, [HEADINGS, *units("boom SR", cell.strip()), *units("LX 1", "2 m SL")])
    assert places(scene, "boom SR") == [2.6]


@pytest.mark.parametrize(
    "cell",
    ["1 m von oben", "1 m dall'alto", "1 m du haut", "1 m de cima", "2 m SL", "2.5", "3 up 2"],
)
def test_what_counts_from_the_top_or_says_no_height_stays(cell: str) -> None:
    assert height_alone(cell) == cell


def test_a_height_is_no_place_along_a_bar(tmp_path: Path) -> None:
    refused(listed(tmp_path, [HEADINGS, *units("LX 1", "wys. 260", "2 m SL")]))


@pytest.mark.parametrize(
    ("names", "came", "meant"),
    [
        ("Torre destra, Torre sinistra", "Torre dx", "Torre destra"),
        ("Torre destra, Torre sinistra", "Torre sx", "Torre sinistra"),
        ("Proscenio destra, Proscenio centro, Proscenio sinistra", "Prosc. sx", "Proscenio sinistra"),
        ("Wieża lewa, Wieża prawa", "Lewy wieża", "Wieża lewa"),
        ("Torre esquerda, Torre direita", "Torre dta.", "Torre direita"),
        ("Calle izquierda, Calle derecha", "Calle dcha", "Calle derecha"),
        ("Turm links, Turm rechts", "linker Turm", "Turm links"),
        ("Věž levá, Věž pravá", "Věž vpravo", "Věž pravá"),
        ("Fram mitt, Fram vänster", "Fram mitten", "Fram mitt"),
        ("For venstre, For højre", "For h", "For højre"),
        ("Tour gauche, Tour droite", "Tour dte", "Tour droite"),
        # No other language's side, none of two, and no side alone.
        ("Tower Left, Tower Right", "Tower dx", None),
        ("Torre destra, Torre sinistra", "dx", None),
        ("Torre destra 1, Torre destra 2", "Torre dx", None),
    ],
)  # fmt: skip
def test_names_have_their_sides_shortened_and_bent(
    names: str, came: str, meant: str | None
) -> None:
    assert Names(names.split(", "), sides=True).find(came).name == meant
