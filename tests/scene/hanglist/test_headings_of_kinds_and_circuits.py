"""Columns of kinds, targets, numbers and circuits under words that do not tell them alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.listed import asked_of, scene_of, told_of, units_of
from tests.scene.hanglist.test_legend import KINDS
from tests.scene.written import write_scene

CANS = """
[[kind]]
name = "Par 64 CP62"
family = "par"
field = 30

[[kind]]
name = "Par 64 CP61"
family = "par"
field = 20
"""


def _house(folder: Path, text: str) -> list[tuple[str, str, str]]:
    path = write_scene(folder, KINDS, CANS, settings='hang = "hang.csv"')
    (folder / "hang.csv").write_text(text, encoding="utf-8")
    return [(str(u.number), str(u.kind), str(u.target)) for u in load_scene(path).units]


@pytest.mark.parametrize("heading", ["Fix", "Fixture", "Lantern", "Head"])
def test_numbers_under_a_word_for_kinds_beside_the_kinds(tmp_path: Path, heading: str) -> None:
    text = (
        f"Pipe,{heading},Offset,Unit,Who\nLX 1,1,2 m SR,Profile 26,A\nLX 1,2,1 m SR,8in Fresnel,A\n"
        "LX 1,3,1 m SL,6in Fresnel,A\n"
    )
    units = _house(tmp_path, text)
    assert [unit[0] for unit in units] == ["1", "2", "3"]
    assert [unit[1] for unit in units] == ["Profile 26", "8in Fresnel", "6in Fresnel"]


@pytest.mark.parametrize("heading", ["Unit", "Item"])
def test_short_kinds_that_could_be_numbers(tmp_path: Path, heading: str) -> None:
    text = (
        f"Pipe,no,Offset,{heading},Who\nLX 1,1,2 m SR,P26,A\nLX 1,2,1 m SR,P26,A\n"
        "LX 1,3,1 m SL,CP62,A\nLX 1,4,2 m SL,CP62,A\n"
    )
    kinds = [unit[1] for unit in _house(tmp_path, text)]
    assert kinds == ["Profile 26", "Profile 26", "Par 64 CP62", "Par 64 CP62"]


@pytest.mark.parametrize("heading", ["what", "lamp", "source"])
def test_kinds_by_their_figures_among_words(tmp_path: Path, heading: str) -> None:
    text = (
        f"pipe,no,where,{heading},who\nLX 1,1,2 m SR,62,A\nLX 1,2,1 m SR,62,A\n"
        "LX 1,3,1 m SL,61,A\nLX 1,4,2 m SL,profile,A\n"
    )
    kinds = [unit[1] for unit in _house(tmp_path, text)]
    assert kinds == ["Par 64 CP62", "Par 64 CP62", "Par 64 CP61", "Profile 26"]


def test_figures_that_fit_several_kinds_or_none_are_asked_about(tmp_path: Path) -> None:
    text = "pipe,no,at,what,who\nLX 1,1,2 m SR,64,A\nLX 1,2,1 m SR,64,A\nLX 1,3,0,profile,A\n"
    with pytest.raises(Exception, match="kind"):
        _house(tmp_path, text)


@pytest.mark.parametrize("heading", ["Power", "Mains", "POWER SUPPLY"])
@pytest.mark.parametrize("cells", [("S1", "S2"), ("N-1", "N-1"), ("1/4", "2/4"), ("A 12", "B 3")])
def test_power_over_codes_is_the_circuit(
    tmp_path: Path, heading: str, cells: tuple[str, str]
) -> None:
    text = f"pipe,unit,at,kind,target,{heading}\nLX 1,1,2 m SR,spot,A,{cells[0]}\n"
    text += f"LX 1,2,1 m SR,spot,A,{cells[1]}\n"
    assert [unit.circuit for unit in scene_of(tmp_path, text).units] == list(cells)
    assert "as circuit" in told_of(tmp_path, text)


@pytest.mark.parametrize("cells", [("750", "575"), ("575W", "1kW"), ("3.2A", "2A"), ("yes", "no")])
def test_power_over_watts_is_a_remark(tmp_path: Path, cells: tuple[str, str]) -> None:
    text = f"pipe,unit,at,kind,target,Power\nLX 1,1,2 m SR,spot,A,{cells[0]}\n"
    text += f"LX 1,2,1 m SR,spot,A,{cells[1]}\n"
    assert [unit.circuit for unit in scene_of(tmp_path, text).units] == [None, None]


@pytest.mark.parametrize("heading", ["Power", "Mains", "Power supply", "Mains supply"])
@pytest.mark.parametrize("cells", [(101, 102, 103, 104), (1, 2, 3, 4), (17, 4, 22, 35)])
def test_power_over_four_numbers_that_are_no_watts_is_the_circuit(
    tmp_path: Path, heading: str, cells: tuple[int, ...]
) -> None:
    text = f"pipe,unit,at,kind,target,{heading}\n"
    text += "".join(f"LX 1,{n},{n} m SR,spot,A,{cell}\n" for n, cell in enumerate(cells, 1))
    assert [unit.circuit for unit in scene_of(tmp_path, text).units] == [str(c) for c in cells]


@pytest.mark.parametrize("cells", [(500, 650, 750, 1000), (36, 36, 18, 64)])
def test_power_over_four_figures_of_watts_is_a_remark(
    tmp_path: Path, cells: tuple[int, ...]
) -> None:
    text = "pipe,unit,at,kind,target,Power\n"
    text += "".join(f"LX 1,{n},{n} m SR,spot,A,{cell}\n" for n, cell in enumerate(cells, 1))
    assert [unit.circuit for unit in scene_of(tmp_path, text).units] == [None] * 4


def test_letters_under_which_one_number_the_units(tmp_path: Path) -> None:
    text = "which one,hung on,at,kind,target\nA,LX 1,2 m SR,spot,A\nB,LX 1,1 m SR,spot,A\n"
    assert [unit[1] for unit in units_of(tmp_path, text)] == ["A", "B"]
    assert asked_of(tmp_path, text) == ""


@pytest.mark.parametrize("heading", ["At", "Lights", "Spot", "On", "Light", "Place", "for", "Auf"])
def test_a_heading_of_something_else_over_names_of_targets(tmp_path: Path, heading: str) -> None:
    text = (
        f"pipe,unit,m from SL end,lamp,{heading},ch\nLX 1,1,1,spot,Door,1\nLX 1,2,2,spot,A,2\n"
        "LX 1,3,3,spot,Table,3\n"
    )
    units = scene_of(tmp_path, text).units
    assert [(unit.at, unit.target) for unit in units] == [(4.0, "Door"), (3.0, "A"), (2.0, "Table")]
    assert "target" in told_of(tmp_path, text)


def test_single_letters_under_lights_are_the_targets_beside_the_kinds(tmp_path: Path) -> None:
    text = "pipe,unit,at,lamp,Lights\nLX 1,1,2 m SR,spot,A\nLX 1,2,1 m SR,spot,A\n"
    assert [unit[3] for unit in units_of(tmp_path, text)] == ["A", "A"]


def test_two_columns_of_targets_under_odd_headings_are_asked_about(tmp_path: Path) -> None:
    text = (
        "pipe,unit,m from SL end,lamp,At,Lights\nLX 1,1,1,spot,Door,Table\nLX 1,2,2,spot,A,Door\n"
    )
    assert "target" in asked_of(tmp_path, text)


@pytest.mark.parametrize("heading", ["Where", "Position", "Location", "Dove", "Var", "pos"])
@pytest.mark.parametrize("lamp", ["lamp", "unit type", "What"])
def test_targets_under_a_word_for_positions_are_no_second_table(
    tmp_path: Path, heading: str, lamp: str
) -> None:
    text = (
        f"pipe,unit,at,{lamp},{heading},ch\nLX 1,1,2 m SR,spot,Door,1\nLX 1,2,1 m SR,spot,A,2\n"
        "LX 2,1,1 m SL,spot,Table,3\n"
    )
    units = scene_of(tmp_path, text).units
    assert [(u.target, u.kind, u.channel) for u in units] == [
        ("Door", "spot", "1"),
        ("A", "spot", "2"),
        ("Table", "spot", "3"),
    ]


def test_two_words_for_kinds_over_places_and_targets_beside_the_lamps(tmp_path: Path) -> None:
    text = "pipe,unit,Spot,lamp,Lights\nLX 1,1,2 m SR,spot,Door\nLX 1,2,1 m SL,spot,A\n"
    units = scene_of(tmp_path, text).units
    assert [(u.at, u.kind, u.target) for u in units] == [(-2.0, "spot", "Door"), (1.0, "spot", "A")]


@pytest.mark.parametrize("heading", ["Addr/dim", "Address / dimmer", "Dimmer/Addr"])
def test_a_dimmer_or_its_address_is_a_circuit(heading: str) -> None:
    assert meaning(heading).keys == ("circuit",)


@pytest.mark.parametrize("heading", ["Addr", "DMX addr", "Addr/Univ", "Ch/Addr/Dim"])
def test_an_address_alone_is_none(heading: str) -> None:
    assert meaning(heading).keys != ("circuit",)
