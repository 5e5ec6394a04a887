"""Cells and columns that hold more than their key: a kind with its number, a key beside the table, a spare
row whose words fall into other columns, lengths under their unit alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, scene_of, told_of, units_of

KINDS = """
Instr.: 1 - spot, 2 - wide | Instrument: 1: spot, 2: wide | Unit: #1 spot, #2 wide | Lantern: 1. spot, 2. wide
Lamp: 1) spot, 2) wide | Lamp: 1 / spot, 2 / wide | Unit: No. 1 spot, No. 2 wide
Instr.: Unit 1: spot, Unit 2: wide | Lantern: spot #1, wide #2 | Lantern: spot (1), wide (2)
Fixture: 1 – spot, 2 – wide | Unit: 1 - spot, 2 - wide
"""


@pytest.mark.parametrize("said", KINDS.strip().replace("\n", " | ").split(" | "))
def test_the_number_of_a_unit_in_the_cell_of_its_kind(tmp_path: Path, said: str) -> None:
    heading, _, cells = said.partition(": ")
    one, two = cells.split(", ")
    text = (
        f"Pos;{heading};Place;Focus\nLX 1;{one};2 m SL;A\nLX 1;{two};1 m SR;Door\nLX 2;{one};0;A\n"
    )
    assert units_of(tmp_path, text) == [
        ("LX 1", "1", "spot", "A"),
        ("LX 1", "2", "wide", "Door"),
        ("LX 2", "1", "spot", "A"),
    ]
    assert "is number 1, kind spot" in told_of(tmp_path, text)


def test_a_number_before_a_kind_without_a_mark_counts_along_each_position(tmp_path: Path) -> None:
    text = (
        "Pos;Lantern;Place;Focus\nLX 1;1 spot;2 m SL;A\nLX 1;2 wide;1 m SR;Door\nLX 2;1 wide;0;A\n"
    )
    assert [number for _, number, _, _ in units_of(tmp_path, text)] == ["1", "2", "1"]


@pytest.mark.parametrize(
    ("first", "second"), [("1 - spot", "1 - wide"), ("1 spot", "2 wide"), ("2 x spot", "1 x wide")]
)
def test_figures_that_may_count_units_are_asked_about(
    tmp_path: Path, first: str, second: str
) -> None:
    text = f"Pos;Lantern;Place;Focus\nLX 1;{first};2 m SL;A\nLX 1;{second};1 m SR;Door\n"
    assert first in asked_of(tmp_path, text)


def test_numbers_in_a_column_and_before_the_kinds(tmp_path: Path) -> None:
    text = "Pos;No;Instr.;Place;Focus\nLX 1;4;4 - spot;2 m SL;A\nLX 1;5;{} - wide;1 m SR;Door\n"
    found = units_of(tmp_path, text.format("5"))
    assert found == [("LX 1", "4", "spot", "A"), ("LX 1", "5", "wide", "Door")]
    assert "4 - spot" in asked_of(tmp_path / "other", text.format("6"))


BESIDE = "Pos;Unit;Place;Kind;Focus;Gel;;{}\nLX 1;1;2 m SL;spot;A;L201;;{}\n"
BESIDE += "LX 1;2;1 m SR;spot;Door;L202;;{}\nLX 2;1;0;wide;A;;;{}\n"


@pytest.mark.parametrize(
    ("heads", "first", "second", "third"),
    [
        ("area;what is there", "1;steps", "2;board", "3;tree"),
        ("Area;Meaning", "A;steps", "Door;board", ";"),
        ("Focus;is", "A;steps", "B;board", "C;tree"),
        ("Gel;Name", "L201;blue", "L202;half blue", ";"),
    ],
)
def test_a_key_beside_the_table_is_no_column_of_it(
    tmp_path: Path, heads: str, first: str, second: str, third: str
) -> None:
    scene = scene_of(tmp_path, BESIDE.format(heads, first, second, third))
    assert [(unit.target, unit.colour) for unit in scene.units] == [
        ("A", "L201"),
        ("Door", "L202"),
        ("A", None),
    ]


def test_a_second_column_of_targets_behind_an_empty_one_is_asked_about(tmp_path: Path) -> None:
    text = BESIDE.format("Area;Remark", "Door;x", "A;y", "Table;z")
    assert "one column that holds the target" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    "row",
    [
        "spare;;;2 x spot;not hung, keep under stage",
        "SPARE;;;spot;in the store",
        "Total;;;4;lanterns",
        "Reserve;;;1 wide;bleibt unten",
        "In reserve;;;spot;do not hang",
    ],
)
def test_words_of_a_spare_row_tell_nothing_of_the_columns(tmp_path: Path, row: str) -> None:
    text = "hang;unit;m off centre;instrument;lights\nLX 1;1;2 SL;spot;A\nLX 1;2;1 SR;spot;Door\n"
    text += f"LX 2;1;0;wide;Table\n{row}\n"
    assert [target for _, _, _, target in units_of(tmp_path, text)] == ["A", "Door", "Table"]


def test_a_unit_on_no_known_position_is_no_spare_where_it_has_a_place(tmp_path: Path) -> None:
    text = "hang;unit;m off centre;instrument;focus\nLX 1;1;2 SL;spot;A\nLX 2;1;0;spot;A\n"
    text += "spare;2;1 SR;spot;Door\n"
    assert "spare" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    ("unit", "places"),
    [
        ("MM", "4200 SL, 600 SR, 3600, 2700.0, 900"),
        ("cm", "420 SL, 60 SR, 360, 270, 90"),
        ("m", "4.2 SL, 0.6 SR, 3.6, 2.7, 0.9"),
    ],
)
def test_places_and_heights_under_a_unit_of_length_alone(
    tmp_path: Path, unit: str, places: str
) -> None:
    one, two, *heights = places.split(", ")
    text = f"Pos;No;{unit};Kind;Focus\nLX 1;1;{one};spot;A\nLX 1;2;{two};spot;Door\n"
    text += "".join(f"boom SR;{k};{height};spot;A\n" for k, height in enumerate(heights, 1))
    assert places_of(tmp_path, text) == pytest.approx([4.2, -0.6, 3.6, 2.7, 0.9])


@pytest.mark.parametrize(
    "word",
    ["ohne", "sans", "sin", "ingen", "zonder", "brak", "bez", "rien", "nichts", "tyhjä", "geen"],
)
def test_no_colour_in_any_language(tmp_path: Path, word: str) -> None:
    text = f"Pos;No;Place;Kind;Focus;Gel\nLX 1;1;2 m SL;spot;A;{word}\nLX 1;2;1 m SL;spot;A;L201\n"
    assert [unit.colour for unit in scene_of(tmp_path, text).units] == [None, "L201"]


@pytest.mark.parametrize(
    ("heading", "cell"),
    [
        ("Hang at", "LX 2 @ 2m SL"),
        ("Where", "LX2 / 2 m SL"),
        ("Place", "LX 2 - 2m SL"),
        ("Location", "LX 2 (2m SL)"),
        ("Position & place", "LX 2, 2m SL"),
    ],
)
def test_a_position_and_a_place_in_one_cell(tmp_path: Path, heading: str, cell: str) -> None:
    text = f"Unit;{heading};Kind;Target\n1;{cell};spot;A\n2;LX 1 @ centre;spot;Door\n"
    scene = scene_of(tmp_path, text)
    assert [(unit.position, unit.at) for unit in scene.units] == [("LX 2", 2.0), ("LX 1", 0.0)]


def test_a_key_of_areas_beside_the_table_says_what_they_are(tmp_path: Path) -> None:
    text = "Pos;Unit;Place;Kind;Focus;;area;what is there\nLX 1;1;2 m SL;spot;7;;7;Door\n"
    text += "LX 1;2;1 m SR;spot;8;;8;Table\nLX 2;1;0;wide;A;;;\n"
    assert [target for _, _, _, target in units_of(tmp_path, text)] == ["Door", "Table", "A"]
    # A target of the scene's own is none that a key renames.
    other = units_of(tmp_path / "b", text.replace(";7;;7;Door", ";A;;A;Door"))
    assert [target for _, _, _, target in other] == ["A", "Table", "A"]
