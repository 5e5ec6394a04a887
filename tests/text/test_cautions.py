"""The cautions on every sheet."""

from __future__ import annotations

import re

import pytest

from aimcalc.text import facts
from tests.sheets.pdf_reading import bare_sides, minus_signs

EVERYTHING = " ".join([facts.SHORT, facts.CARD, *(h + " " + t for h, t in facts.LONG)])


@pytest.mark.parametrize(
    "subject",
    ["height", "overhead", "unit", "load", "electrical", "hot", "numbers can be wrong", "class"],
)
def test_the_long_form_has_every_subject(subject):
    assert any(heading.lower().startswith(subject) for heading, _ in facts.LONG)


def test_nothing_is_ever_called_safe_and_nothing_is_permitted():
    assert not re.search(r"\b(?:is|are|be|was) safe\b|\bsafely\b|\bsafe to\b", EVERYTHING)
    assert "permits nothing" in facts.SHORT
    assert "no permission" in " ".join(text for _, text in facts.LONG)


def test_limits_are_left_to_ratings_codes_and_qualified_people():
    long = " ".join(text for _, text in facts.LONG)
    for words in ("rating posted by the venue", "qualified person", "local code"):
        assert words in long


def test_the_short_form_keeps_to_what_saves_a_life_and_to_who_decides():
    for words in (
        "nobody stands under work",
        "safety cable",
        "local code",
        "qualified people",
        "STOP",
    ):
        assert words in facts.SHORT


def test_cautions_name_no_bare_side_and_no_minus():
    assert bare_sides(EVERYTHING) == []
    assert minus_signs(EVERYTHING) == []
