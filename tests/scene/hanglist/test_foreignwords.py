"""Headings in the languages that visiting companies keep their lists in."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from tests.scene.hanglist.listed import places_of, scene_of, units_of


@pytest.mark.parametrize(
    ("heading", "key"),
    [
        *(("Maß", "at"), ("Maß (cm)", "at"), ("Gerät", "kind"), ("Geraet", "kind")),
        *(("Ziel", "target"), ("Kreis", "circuit"), ("Lfd.Nr.", "number"), ("Farbe", "colour")),
        *(("Posición", "position"), ("Medida", "at"), ("Foco a", "target"), ("Canal", "channel")),
        *(
            ("Visée / focus", "target"),
            ("Côté", "side"),
            ("Gélat.", "colour"),
            ("Perche", "position"),
        ),
        *(("Puntamento", "target"), ("Filtro", "colour"), ("Kleur", "colour"), ("Opm.", "note")),
        *(("Höhe", "height"), ("Avstånd", "at"), ("Färg", "colour"), ("Strålkastare", "kind")),
    ],
)
def test_a_heading_means_what_it_does_in_its_language(heading: str, key: str) -> None:
    assert meaning(heading).keys[:1] == (key,)


def test_the_words_of_the_trade_come_before_those_of_other_languages() -> None:
    assert meaning("place").keys == ("at",)
    assert meaning("point").keys == ("point",)
    assert meaning("Ligature").keys == ()


GERMAN = """Position;Nr.;Maß;Seite;Gerät;Ziel;Filter;Kreis
LX 1;1;3,50;SR;spot;Door;L201;11
LX 1;2;1,25;SL;wide;Table;L200;12
"""


def test_a_list_with_german_headings_is_read_whole(tmp_path: Path) -> None:
    assert units_of(tmp_path, GERMAN, encoding="cp1252") == [
        ("LX 1", "1", "spot", "Door"),
        ("LX 1", "2", "wide", "Table"),
    ]
    assert [unit.circuit for unit in scene_of(tmp_path, GERMAN).units] == ["11", "12"]
    assert places_of(tmp_path, GERMAN) == [-3.5, 1.25]


def test_foco_is_the_unit_or_the_target_as_its_cells_tell(tmp_path: Path) -> None:
    rows = "Barra,N,Medida,{},{}\nLX 1,1,2 m SL,spot,A\nLX 1,2,1 m SR,wide,Door\n"
    kind = units_of(tmp_path / "kind", rows.format("Foco", "Ilumina"))
    target = units_of(tmp_path / "target", rows.format("Aparato", "Foco"))
    assert kind == target == [("LX 1", "1", "spot", "A"), ("LX 1", "2", "wide", "Door")]
