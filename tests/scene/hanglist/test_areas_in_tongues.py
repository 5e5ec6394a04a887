"""Targets in another language than the house's, or in other words for the same place."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

HOUSE = """
[scene]
title = "Names"
unit = "m"
hang = "list.csv"

[[pipe]]
name = "Bar 1"
trim = 6
y = 2
from = -5
to = 5

[[kind]]
name = "spot"
family = "ers"
field = 26
"""
Spots = dict[str, tuple[float, float]]
PLACES = ((3.0, 1.0), (0.0, 1.0), (-3.0, 1.0), (3.0, 6.0), (0.0, 6.0), (-3.0, 6.0))


def _six(*names: str) -> Spots:
    """Down left, centre, right, then up, as the actor stands."""
    return dict(zip(names, PLACES, strict=True))


ENGLISH = _six("DSL", "DSC", "DSR", "USL", "USC", "USR")
NINE = {**ENGLISH, "CSL": (3.0, 3.0), "CS": (0.0, 3.0), "CSR": (-3.0, 3.0), "Cyc": (0.0, 8.0)}
FRENCH = _six(
    *("Avant cour", "Avant centre", "Avant jardin"),
    *("Lointain cour", "Lointain centre", "Lointain jardin"),
)
ACTORS = _six(
    *("Proscenio izquierda", "Proscenio centro", "Proscenio derecha"),
    *("Fondo izquierda", "Fondo centro", "Fondo derecha"),
)
# A house that names its sides as the seats see them.
SEATS: Spots = {
    "Vorne links": (-4.0, 1.5),
    "Vorne Mitte": (0.0, 1.5),
    "Vorne rechts": (4.0, 1.5),
    "Mitte": (0.0, 4.0),
    "Hinten": (0.0, 7.0),
    "Horizont": (0.0, 8.5),
}
SET: Spots = {
    "Sofa": (2.0, 3.0),
    "Table": (-2.0, 3.0),
    "Front door": (-4.0, 5.0),
    "Window": (3.0, 6.0),
    "Stairs": (4.0, 5.0),
    "Fireplace": (-4.0, 3.0),
    "Bed": (0.0, 5.0),
    "Bench": (0.0, 1.0),
}
CHURCH: Spots = {
    "Altar": (0.0, 7.0),
    "Pulpit": (-4.0, 1.0),
    "Lectern": (4.0, 1.0),
    "Font": (-5.0, 0.0),
    "Choir": (0.0, 5.0),
    "Chancel step": (0.0, 2.0),
    "Organ": (5.0, 6.0),
    "Nave": (0.0, -1.0),
}
BENCHES: Spots = {"Bench SL": (3.0, 3.0), "Bench SR": (-3.0, 3.0), "Tree": (-4.0, 5.0)}


def _house(spots: Spots) -> str:
    return HOUSE + "".join(
        f'\n[[target]]\nname = "{name}"\nx = {x}\ny = {y}\n' for name, (x, y) in spots.items()
    )


def _lines(said: str, *more: str) -> list[str]:
    rows = [f"Bar 1,{n},{n - 1},spot,{each}" for n, each in enumerate(said.split("; "), 1)]
    return ["position,number,at,kind,target", *rows, *more]


@pytest.mark.parametrize(
    ("spots", "said", "meant"),
    [
        (FRENCH, "DSL; DSC; USR", "Avant cour; Avant centre; Lointain jardin"),
        (FRENCH, "Downstage left; Up right", "Avant cour; Lointain jardin"),
        (FRENCH, "Avanti giardino; Fondo corte", "Avant jardin; Lointain cour"),
        (FRENCH, "vorne Mitte; Back PS", "Avant centre; Lointain cour"),
        (FRENCH, "front centre; D/S centre", "Avant centre; Avant centre"),
        (ACTORS, "DL; USR; avant cour", "Proscenio izquierda; Fondo derecha; Proscenio izquierda"),
        (SEATS, "DSL; DSC; DSR", "Vorne rechts; Vorne Mitte; Vorne links"),
        (SEATS, "Mid; Up; USC; Cyc", "Mitte; Hinten; Hinten; Horizont"),
        (SEATS, "links vorne; avant jardin", "Vorne links; Vorne links"),
        (NINE, "Face jardin; Face centre; Face cour", "DSR; DSC; DSL"),
        (NINE, "Front SL; Front C; Front SR", "DSL; DSC; DSR"),
        (NINE, "Lointain cour; Milieu; nez de scène jardin", "USL; CS; DSR"),
        (NINE, "Proscenio izquierda actor; fondo dx attore", "DSL; USR"),
        (NINE, "hinten links vom Zuschauer; Apron L", "USR; DSL"),
        (NINE, "Rundhorizont; Bühnenmitte; bagerst midt", "Cyc; CS; USC"),
        (SET, "Canapé; Porte; Fenêtre; Escalier", "Sofa; Front door; Window; Stairs"),
        (SET, "Tuer; das Fenster; Kamin; Bett", "Front door; Window; Fireplace; Bed"),
        (SET, "Mesa; Puerta; Chimenea; Banco", "Table; Front door; Fireplace; Bench"),
        (SET, "Bord; Dør; Vindue; Bænk", "Table; Front door; Window; Bench"),
        (CHURCH, "Atril; Escalón; Púlpito; Coro", "Lectern; Chancel step; Pulpit; Choir"),
        (CHURCH, "Kanzel; Lesepult; Taufstein", "Pulpit; Lectern; Font"),
        (CHURCH, "Autel; Lutrin; Chœur; Nef", "Altar; Lectern; Choir; Nave"),
        (BENCHES, "Banc cour; bench stage right; Baum", "Bench SL; Bench SR; Tree"),
    ],
)
def test_a_target_that_means_the_same(tmp_path: Path, spots: Spots, said: str, meant: str) -> None:
    scene = scene_in(tmp_path, _house(spots), _lines(said))
    assert [unit.target for unit in scene.units] == meant.split("; ")
    told = [taken for taken in scene.taken if taken.rule == "list-target"]
    assert all(f'"{each}" is' in told[0].says for each in said.split("; "))


@pytest.mark.parametrize(
    ("spots", "said"),
    [
        (NINE, "Vorne links"),  # nobody says whose left
        (NINE, "Proscenio sx"),
        (NINE, "Front C"),  # the middle, lit from the front, or the front of the middle
        (FRENCH, "front left"),
        (FRENCH, "Centre"),
        (SEATS, "USL"),
        (SEATS, "Front left"),
        (SET, "Bank"),  # a bench in German, a sofa in Dutch
        (SET, "Tischlampe"),
        (BENCHES, "Bank links"),
        (BENCHES, "Bench up left"),
        ({"Table 1": (1.0, 1.0), "Table 2": (2.0, 2.0)}, "Tisch"),
        ({"Door SL": (-3.0, 1.0), "Door SR": (3.0, 1.0)}, "Porte cour"),  # named against its side
    ],
)
def test_a_target_that_may_be_another_is_asked(tmp_path: Path, spots: Spots, said: str) -> None:
    assert said in asked_in(tmp_path, _house(spots), _lines(said))


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("links = Darsteller links", ["DSL", "DSR"]),
        ("links und rechts vom Publikum aus", ["DSR", "DSL"]),
    ],
)
def test_a_bare_left_is_whose_the_list_says(tmp_path: Path, line: str, meant: list[str]) -> None:
    lines = _lines("Vorne links; Vorne rechts", "", f"{line},,,,")
    assert [unit.target for unit in scene_in(tmp_path, _house(NINE), lines).units] == meant
