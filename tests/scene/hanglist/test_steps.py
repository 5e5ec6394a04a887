"""Units that hang so far on from another, by their words or by a line that says what + stands for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.places.steps import steps_said
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ('"+" = metres from the lamp before, going towards SR', "4 SL"),
        ("+ = mètres depuis le projecteur précédent, vers jardin", "4 SL"),
        (
            'sx = sinistra guardando dalla platea, poi "+" = metri dal precedente andando verso sinistra',
            "4 dx",
        ),
        ("Distance is from the unit before it, working to SR; the first from centre", "4 SL"),
    ],
)
@pytest.mark.parametrize("steps", [("+1,50", "+3,00"), ("+ 1.5", "+ 3")])
def test_a_line_says_what_plus_stands_for(
    tmp_path: Path, line: str, first: str, steps: tuple[str, ...]
) -> None:
    rows = [[line], HEADINGS, *units("LX 1", first, *steps)]
    assert places(read(tmp_path, rows)) == [4.0, 2.5, -0.5]


def test_a_heading_that_a_line_explains_needs_no_plus(tmp_path: Path) -> None:
    line = "First figure from centre; Distance is then from the lamp before, towards stage right"
    rows: list[list[Any]] = [[line], HEADINGS, *units("LX 1", "4 SL", 1.5, 3)]
    assert places(read(tmp_path, rows)) == [4.0, 2.5, -0.5]


@pytest.mark.parametrize(
    "line",
    [
        "+ = SL, heights above the deck",
        "plus is stage left. the previous rig hung lower",
        "all in m",
    ],
)
def test_lines_that_explain_no_steps(line: str) -> None:
    assert steps_said(line) == ()


def test_plus_that_is_a_side_stays_one(tmp_path: Path) -> None:
    rows = [["+ = SL, - = SR, metres"], HEADINGS, *units("LX 1", "+3", "+1", "-2")]
    assert places(read(tmp_path, rows)) == [3.0, 1.0, -2.0]


@pytest.mark.parametrize("words", ["espaço igual", "evenly"])
def test_an_even_spread_in_other_languages(tmp_path: Path, words: str) -> None:
    rows = [HEADINGS, *units("LX 1", words, words)]
    assert places(read(tmp_path, rows)) == [2.5, -2.5]


def test_a_line_on_one_position_over_a_column_of_positions(tmp_path: Path) -> None:
    line = "LX 2: space the two evenly along the bar, no need for a tape"
    rows = [[line], ["Bars", "Unit", "Distance", "Type", "Focus"], *units("LX 1", "3 SL", "2 SR")]
    assert places(read(tmp_path, rows)) == [3.0, -2.0]


@pytest.mark.parametrize(
    ("cells", "wanted"),
    [
        (("3 SL", "2 further to SR", "1.5 m SR of last", "another 1 m to SR"), [3, 1, -0.5, -1.5]),
        (("2 SL", "1 further to SR", "0.5 further to SL"), [2, 1, 1.5]),
        (("2 SR", "1 m to SL of last", "2 m SL of unit 2", "0.5 SR of last"), [-2, -1, 1, 0.5]),
        (("2 SL", "1 further to SR", "1.5 m from last"), [2, 1, -0.5]),
    ],
)
def test_gaps_may_go_to_a_side_each(
    tmp_path: Path, cells: tuple[str, ...], wanted: list[float]
) -> None:
    assert places(read(tmp_path, [HEADINGS, *units("LX 1", *cells)])) == wanted


@pytest.mark.parametrize(
    "cells",
    [
        ("1 SL", "1.5 past unit 1", "another 1.2 m to SR"),  # the third says nothing of the second
        ("1 SL", "1 further to SR", "0.5 further to SL", "0.5 m from last"),
        ("1 SL", "1 further to US"),
    ],
)
def test_gaps_whose_side_nobody_says_are_asked(tmp_path: Path, cells: tuple[str, ...]) -> None:
    mistakes = refused(listed(tmp_path, [HEADINGS, *units("LX 1", *cells)]))
    assert mistakes[0].entry == "row 2"
