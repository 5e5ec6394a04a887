"""Targets of which a cell says more than one, at different times, or one with a remark of figures."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.targetasides import now_meant
from aimcalc.scene.hanglist.names.targetwords import TARGET_SPARE, TARGET_WORDS
from tests.scene.hanglist.listed import asked_of, scene_of, told_of, units_of

NAMES = ("Cross", "Altar", "Desk", "Window", "Zone 5", "Zone 6", "Tisch", "Fenster", "Letto")
TARGETS = Names((*NAMES, "Balcone", "Banc", "Arbre"), TARGET_WORDS, TARGET_SPARE, ordered=True)


@pytest.mark.parametrize(
    ("cell", "name"),
    [
        ("was Cross, now Altar", "Altar"),
        ("Altar (was Cross)", "Altar"),
        ("Altar - was Cross", "Altar"),
        ("Cross, now Altar", "Altar"),
        ("Cross now Altar 12/11", "Altar"),
        ("Altar instead of Cross", "Altar"),
        ("Cross changed to Altar", "Altar"),
        ("Zone 5 (was Zone 6)", "Zone 5"),
        ("war Tisch, jetzt Fenster", "Fenster"),
        ("Fenster statt Tisch", "Fenster"),
        ("era Letto, ora Balcone", "Balcone"),
        ("était Banc, maintenant Arbre", "Arbre"),
        ("Desk (part 2: refocus to Window)", "Desk"),
        ("Desk / Act 2 Window", "Desk"),
        ("Desk, then Window", "Desk"),
        ("Desk; refocus to Window for Act 2", "Desk"),
        ("Desk (refocus Window at interval)", "Desk"),
        ("Part 1: Desk, Part 2: Window", "Desk"),
        ("Zone 5 (part 2: same)", "Zone 5"),
        ("Zone 5 (part 2: Zone 6)", "Zone 5"),
        ("part 2: Window", "Window"),
        ("Tisch, nach der Pause Fenster", "Tisch"),
        ("Letto (parte 2: Balcone)", "Letto"),
        ("Banc puis Arbre", "Banc"),
        ("Zone 5 (see note 3)", "Zone 5"),
        ("Zone 5 (with unit 4)", "Zone 5"),
    ],
)
def test_the_target_of_now_and_of_the_first_part(cell: str, name: str) -> None:
    found = now_meant(cell, TARGETS)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize(
    "cell",
    [
        "Altar",
        "was Cross",
        "Cross -> Altar",
        "Cross / Altar",
        "Window (part 2: from Desk)",
        "Zone 5 (6)",
        "Zone 5 (and 6)",
        "Zone 5 (Zone 6)",
        "Zone 5 (left of 6)",
        "was Park, now Bench",
        "now",
        "",
        "Desk " * 40,
    ],
)
def test_what_does_not_tell_which_is_left_to_others(cell: str) -> None:
    assert now_meant(cell, TARGETS) is None


def test_the_words_of_the_cell_become_a_remark_and_are_told(tmp_path: Path) -> None:
    text = 'Bar,Unit,Distance,Type,Focus\nLX 1,1,2 m SL,spot,"was Door, now Table"\n'
    (unit,) = scene_of(tmp_path, text).units
    assert (unit.target, unit.note) == ("Table", "was Door, now Table")
    assert '"was Door, now Table" is Table' in told_of(tmp_path / "told", text)


def test_the_second_look_is_no_other_target_of_the_unit(tmp_path: Path) -> None:
    text = "Bar,Unit,Distance,Type,Focus\nLX 1,1,2 m SL,spot,Door (part 2: refocus to Table)\n"
    assert units_of(tmp_path, text) == [("LX 1", "1", "spot", "Door")]


def test_two_targets_of_one_time_are_asked_about(tmp_path: Path) -> None:
    asked = asked_of(tmp_path, "Bar,Unit,Distance,Type,Focus\nLX 1,1,2 m SL,spot,Door / Table\n")
    assert "Door, Table" in asked
    assert "None" not in asked_of(
        tmp_path / "more", "Bar,Unit,Distance,Type,Focus\nLX 1,1,2 m SL,spot,Door (5 ft off)\n"
    )
