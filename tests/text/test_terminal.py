"""Text that fits a terminal, and one line for a row where there is none."""

from __future__ import annotations

import pytest

from aimcalc.text.columns import folded, table

HEADS = ("unit", "kind", "note", "where")
ROWS = [("1", "ers-30", "", "here"), ("12", "par", "", "over there")]


def test_columns_are_as_wide_as_their_widest_cell_and_empty_ones_are_left_out():
    assert table(HEADS, ROWS) == [
        "  unit  kind    where",
        "  1     ers-30  here",
        "  12    par     over there",
    ]


def test_a_table_that_fits_is_the_same_with_and_without_a_terminal():
    assert table(HEADS, ROWS, 26, ("where",)) == table(HEADS, ROWS)  # the longest line has 26


def test_columns_that_do_not_fit_go_on_in_a_line_of_their_own():
    assert table(HEADS, ROWS, 25) == [
        "  unit  kind",
        "      where",
        "  1     ers-30",
        "      here",
        "  12    par",
        "      over there",
    ]


def test_a_narrow_table_goes_on_where_it_is_told_to():
    assert table(HEADS, ROWS, 25, ("kind",))[:3] == ["  unit", "      kind    where", "  1"]


def test_a_line_that_would_be_empty_is_left_out():
    rows = [("1", "ers-30", "", ""), ("12", "par", "", "over there")]
    assert table(HEADS, rows, 25)[2:4] == ["  1     ers-30", "  12    par"]


@pytest.mark.parametrize("width", [12, 20, 33, 80])
def test_no_line_is_wider_than_the_terminal_but_one_long_word(width):
    words = "    Do: put up one two three four five six seven eight nine ten and tell."
    lines = folded(words, width).split("\n")
    assert max(map(len, lines)) <= width
    assert " ".join(line.strip() for line in lines) == words.strip()
    assert all(line.startswith("    ") for line in lines)
    assert folded("incomprehensibilities", 5) == "incomprehensibilities"


def test_without_a_terminal_a_text_stays_as_it_is():
    assert folded("a " * 500, None) == "a " * 500
