"""Type that fits its width."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.text import typeset
from aimcalc.text.typeset import BOLD, NARROWEST, REGULAR, fit, shorten, text_width, wrap

TEXT = "Numbers on this sheet are never a reason to lean or reach"


def test_fitting_squeezes_before_it_shrinks():
    natural = text_width("SR 23°", BOLD, 20)
    assert fit("SR 23°", BOLD, 20, natural).size == 20
    squeezed = fit("SR 23°", BOLD, 20, natural * 0.9)
    assert (squeezed.size, squeezed.squeeze) == (20, pytest.approx(0.9))
    smaller = fit("SR 23°", BOLD, 20, natural * 0.4)
    assert smaller.squeeze == NARROWEST
    assert smaller.size == pytest.approx(10)  # 0.4 = 0.8 squeezed x 1/2 the size


def test_a_number_is_never_cut_but_a_name_may_be():
    assert fit("18'-6 1/2\" SR", BOLD, 20, 10).words == "18'-6 1/2\" SR"
    # (A name used to be cut at its end here, by itself: two of one beginning came out alike.)
    name = fit("an extremely long name of a company", REGULAR, 12, 80)
    assert name.words == "an extremely long name of a company"
    assert name.size < 12
    assert name.width <= 80


def test_wrapped_lines_fit_and_say_every_word():
    lines = wrap(TEXT, REGULAR, 10, 90)
    assert " ".join(lines) == TEXT
    assert len(lines) > 2
    assert max(text_width(line, REGULAR, 10) for line in lines) <= 90


def test_a_word_longer_than_the_line_is_cut_into_pieces():
    lines = wrap("x" * 200, REGULAR, 10, 90)
    assert "".join(lines) == "x" * 200
    assert max(text_width(line, REGULAR, 10) for line in lines) <= 90


def test_shortening_keeps_short_names_and_one_line():
    assert shorten("Pipe 3", 10) == "Pipe 3"
    assert shorten("two\nlines", 20) == "two lines"
    assert shorten("abcdefghijkl", 6) == "abcde…"
    assert shorten("2026-05-01 draft B", 12, keep_end=True) == "2026-05…ft B"


# The typeface's own tables, read by another reader (fontTools).
@pytest.mark.parametrize("font", [REGULAR, BOLD])
def test_a_line_is_as_wide_as_the_typeface_says(font):
    face = TTFont(typeset.font_file(font))
    letters = face.getBestCmap()
    advance = sum(face["hmtx"][letters[ord(letter)]][0] for letter in "12'-6 1/2\" SR 23°")
    assert text_width("12'-6 1/2\" SR 23°", font, 20) == pytest.approx(
        advance / face["head"].unitsPerEm * 20, rel=1e-3
    )


@given(
    st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), max_size=80), st.floats(5, 400)
)
def test_fitted_text_is_never_wider_than_its_width(words, width):
    fitted = fit(words, BOLD, 20, width)
    assert fitted.width <= width + 1e-6
    assert fitted.words == " ".join(words.split())


def test_an_indented_first_line_is_shorter_and_loses_no_word():
    lines = wrap(TEXT, REGULAR, 10, 120, indent=80)
    assert text_width(lines[0], REGULAR, 10) <= 40
    assert " ".join(lines).split() == TEXT.split()
    assert max(text_width(line, REGULAR, 10) for line in lines) <= 120


def test_the_first_line_is_left_empty_where_no_word_fits_beside_the_indent():
    assert wrap("extraordinarily long", REGULAR, 10, 120, indent=110)[0] == ""


def test_no_text_gives_no_lines():
    assert wrap("  ", REGULAR, 10, 90) == []
