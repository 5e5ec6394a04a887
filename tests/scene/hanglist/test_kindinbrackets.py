"""Kinds whose words and brackets name different ones of the house."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.names.kindinbrackets import at_odds
from aimcalc.scene.hanglist.names.meant import Names

KINDS = Names(("PAR 64 WFL", "PAR 64 MFL", "Profile 26", "Fresnel 1k"), mixed=True)


@pytest.mark.parametrize(
    "cell",
    [
        *("par 64 wide (MFL)", "PAR 64 MFL (wide)", "Par 64 (wide) MFL", "par can wide [CP62]"),
        *("Profile 26 (Fresnel 1k)", "Fresnel 1k (profile 26)", "fresnel (Profile 26)"),
    ],
)
def test_words_and_brackets_that_differ_are_asked(cell: str) -> None:
    assert len(at_odds(cell, KINDS)) == 2


@pytest.mark.parametrize(
    "cell",
    [
        *(
            "par 64 wide (WFL)",
            "par 64 wide flood (WFL)",
            "PAR 64 medium (MFL)",
            "Profile 26 (spot)",
        ),
        *(
            "par 64 very narrow (VNSP)",
            "Profile 26 (new)",
            "PAR 64 MFL",
            "Fresnel 1k (1kW)",
            "par (WFL)",
        ),
    ],
)
def test_those_that_agree_or_name_one_kind_are_not(cell: str) -> None:
    assert at_odds(cell, KINDS) == ()


def test_a_house_without_the_other_kind_has_nothing_to_ask() -> None:
    assert at_odds("par 64 wide (MFL)", Names(("PAR 64 MFL", "Profile 26"), mixed=True)) == ()
