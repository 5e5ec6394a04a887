"""Names whose short form stands in brackets behind the words for which it stands."""

from __future__ import annotations

import pytest

from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.morethannames import short_in_brackets

KINDS = Names(("PAR 64 WFL", "PAR 64 MFL", "Fresnel 1k"))
PLACES = Names(("Boom SL 1", "Boom SR 1", "Area DL"))


@pytest.mark.parametrize(
    ("cell", "name"),
    [
        ("par 64 wide flood (WFL)", "PAR 64 WFL"),
        ("Par 64 medium flood [mfl]", "PAR 64 MFL"),
        ("par 64 very narrow spot (VNSP)", ""),  # none of the house's
        ("par 64 wide (MFL)", ""),  # short for other words
        ("Fresnel 1k (WFL)", ""),
    ],
)
def test_a_short_form_stands_for_the_words_before_it(cell: str, name: str) -> None:
    assert short_in_brackets(cell, KINDS) == name


def test_of_targets_and_positions_too() -> None:
    assert short_in_brackets("Area down left (DL)", PLACES) == "Area DL"
    assert short_in_brackets("Boom stage left (SL) 1", PLACES) == "Boom SL 1"
    assert short_in_brackets("Area down right (DL)", PLACES) == ""
    assert short_in_brackets("Boom 2 (1)", PLACES) == ""
