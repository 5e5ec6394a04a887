"""Slips of the keyboard in places and beside names, and targets over their units in words that say more."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.sidewording import respelled
from tests.scene.hanglist.listed import asked_of, places_of, told_of, units_of


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("12ft stage rigth", "12ft stage right"),
        ("3 m Stage lfet", "3 m Stage left"),
        ("2 m stage rihgt", "2 m stage right"),
        ("2 m hosue left", "2 m house left"),
        ("on cenre line", "on centre line"),
        ("1.5 m stage rightt", "1.5 m stage right"),
        ("1.5 m stagge left", "1.5 m stage left"),
        ("1 m upstge", "1 m upstage"),
        ("1 m downsatge", "1 m downstage"),
    ],
)
def test_a_word_of_a_place_is_read_in_spite_of_a_slip(typed: str, meant: str) -> None:
    assert respelled(typed) == meant


@pytest.mark.parametrize(
    "typed", ["3 m from light 2", "eight ft SL", "on the lift", "by the loft", "2 m from horse"]
)
def test_another_word_is_no_slip(typed: str) -> None:
    assert respelled(typed) == typed


def test_a_place_with_a_slip_is_read_and_told(tmp_path: Path) -> None:
    text = "pipe,unit,at,kind,target\nLX 1,1,2 m stage rigth,spot,A\nLX 1,2,1 m stage lfet,spot,A\n"
    assert places_of(tmp_path, text) == [-2, 1]
    assert '"2 m stage rigth" is' in told_of(tmp_path, text)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("Tabel backlight", "Table"),
        ("front light dooor", "Door"),
        ("Tbale (warm)", "Table"),
        ("key Talbe", "Table"),
        ("Doro - special", "Door"),
    ],
)
def test_a_target_with_a_slip_beside_more_words(tmp_path: Path, typed: str, meant: str) -> None:
    text = f"pipe,unit,at,kind,target\nLX 1,1,2 m SR,spot,{typed}\n"
    assert units_of(tmp_path, text) == [("LX 1", "1", "spot", meant)]
    assert f'"{typed}" is {meant}, with the remark' in told_of(tmp_path, text)


@pytest.mark.parametrize("typed", ["Tree backlight", "front light", "Foor wash"])
def test_another_word_is_no_slip_of_a_target(tmp_path: Path, typed: str) -> None:
    text = f"pipe,unit,at,kind,target\nLX 1,1,2 m SR,spot,{typed}\n"
    if typed.startswith("Foor"):  # of floor, or of door: one letter off Door alone
        assert units_of(tmp_path, text)[0][3] == "Door"
    else:
        assert "the name of a target" in asked_of(tmp_path, text)


@pytest.mark.parametrize(
    "over",
    [
        "FOCUS: DOOR",
        "Focus - Door",
        "focused on the Door",
        "Focussed to: Door",
        "Aimed at Door",
        "all on the door",
        "Target: Door (both)",
        "DOOR WASH",
        "Door lights",
        "specials for the door",
        "Lighting the door:",
    ],
)
def test_a_target_over_its_units_in_words_that_say_more(tmp_path: Path, over: str) -> None:
    text = (
        f"pipe,unit,at,kind\n{over},,,\nLX 1,1,2 m SR,spot\nFOCUS: TABLE,,,\n"
        "LX 1,2,1 m SR,spot\nLX 2,1,1 m SL,spot\n"
    )
    assert [unit[3] for unit in units_of(tmp_path, text)] == ["Door", "Table", "Table"]
    assert "over the units" in told_of(tmp_path, text)


@pytest.mark.parametrize(
    "over", ["FOCUS: WINDOW", "not the door", "door 2 wash", "FOCUS CALL 2 PM"]
)
def test_words_over_units_that_name_no_target_are_asked_about(tmp_path: Path, over: str) -> None:
    text = f"pipe,unit,at,kind\n{over},,,\nLX 1,1,2 m SR,spot\nLX 1,2,1 m SR,spot\n"
    assert "expected:" in asked_of(tmp_path, text)


@pytest.mark.parametrize("heading", ["CTO/CTB", "CTB", "Correction", "Gel/correction"])
def test_a_heading_of_correction_is_one_of_colours(tmp_path: Path, heading: str) -> None:
    text = f"pipe,unit,at,kind,target,{heading},remarks\nLX 1,1,2 m SR,spot,A,L201,x\n"
    told = told_of(tmp_path, text)
    assert f'"{heading}" as colour' in told
