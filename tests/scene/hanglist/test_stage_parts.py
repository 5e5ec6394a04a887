"""Targets that are parts of the stage, in letters and in words, and what says from where one is lit."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.stageparts import Part, part_of
from aimcalc.scene.hanglist.names.targetwords import (
    TARGET_SPARE,
    TARGET_WORDS,
    apart_from_light,
)
from tests.scene.hanglist.listed import asked_of, units_of

LONG = (
    "Downstage Left",
    "Downstage Centre",
    "Centre Left",
    "Centre",
    "Centre Right",
    "Upstage Left",
)
SHORT = ("Down Left", "Down Center", "Center", "Up Left", "Up Right")
MIDS = ("Mid Left", "Mid Centre", "Mid Right")


def _found(came: str, names: tuple[str, ...], whose: str = "") -> str | None:
    targets = Names(names, TARGET_WORDS, TARGET_SPARE, ordered=True, sides=True)
    targets.bare = whose
    return targets.find(came).name


@pytest.mark.parametrize(
    ("came", "names", "name"),
    [
        *((way, LONG, "Centre Left") for way in ("CSL", "MSL", "mid SL", "C-SL", "Cntr Left")),
        *((way, SHORT, "Down Left") for way in ("DL area", "D/L", "Dn Left", "area: DL", "DSL")),
        *((way, SHORT, "Up Right") for way in ("UPR", "UR zone", "USR", "acting area UR")),
        *((way, MIDS, "Mid Right") for way in ("CSR", "CR", "centre right", "MSR")),
        ("MSC", LONG, "Centre"),
    ],
)
def test_a_part_of_the_stage_is_the_same_in_other_words(
    came: str, names: tuple[str, ...], name: str
) -> None:
    assert _found(came, names) == name


@pytest.mark.parametrize("came", ["DLC", "SLC", "CSR", "L", "left", "M", "DL 2"])
def test_another_part_or_a_bare_side_is_none(came: str) -> None:
    assert _found(came, SHORT) is None


def test_two_that_are_the_same_part_are_asked() -> None:
    targets = Names(("Centre Left", "Mid Left"), TARGET_WORDS, TARGET_SPARE, sides=True)
    assert set(targets.find("CSL").several) == {"Centre Left", "Mid Left"}


def test_the_houses_left_is_no_part_of_the_stage() -> None:
    assert _found("mid left", ("CSL", "CSR"), "house") is None


def test_an_upright_piano_is_no_corner() -> None:
    assert part_of("upright") is None
    assert part_of("up right") == Part("u", "r")
    assert part_of("down left centre") == Part("d", "lc")


@pytest.mark.parametrize(
    ("cell", "plain"),
    [
        ("Cyc from above", "Cyc"),
        ("Sofa blue from SL", "Sofa"),
        ("Altar von hinten", "Altar"),
        ("Altar (lit from behind)", "Altar"),
        ("hits the Desk", "Desk"),
        ("onto A1", "A1"),
        ("Bench LQ 12", "Bench"),
        ("Tree gobo", "Tree"),
        ("Bench 12", "Bench 12"),
        ("Scen bakifrån", "Scen"),
        ("Desk from Window", "Desk from Window"),
    ],
)
def test_from_where_a_target_is_lit_is_beside_it(cell: str, plain: str) -> None:
    assert apart_from_light(cell)[0] == plain


def test_a_target_lit_from_another_is_asked(tmp_path: Path) -> None:
    rows = "position,number,at,kind,target\nLX 1,1,2 m SL,spot,{}\n"
    assert units_of(tmp_path, rows.format("Door from above")) == [("LX 1", "1", "spot", "Door")]
    assert "Door from Table" in asked_of(tmp_path, rows.format("Door from Table"))


@pytest.mark.parametrize("cell", ["Door (act 1)", "Door, part 1 only", "Act 1: Door"])
def test_a_target_for_the_first_part_of_a_show(tmp_path: Path, cell: str) -> None:
    rows = f'position,number,at,kind,target\nLX 1,1,2 m SL,spot,"{cell}"\n'
    assert units_of(tmp_path, rows) == [("LX 1", "1", "spot", "Door")]
