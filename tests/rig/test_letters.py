"""The letters that paper can show."""

from unicodedata import bidirectional, name

import pytest
from fontTools.ttLib import TTFont

from aimcalc.rig.letters import _known, from_the_right, lacking, spelled
from aimcalc.text import typeset


def test_every_letter_of_the_table_is_in_the_plain_and_in_the_bold_typeface():
    """The typefaces' own tables, read by another reader (fontTools)."""
    fonts = [TTFont(typeset.font_file(font)) for font in (typeset.REGULAR, typeset.BOLD)]
    plain, bold = (set(map(chr, font.getBestCmap())) for font in fonts)
    assert _known() <= plain & bold
    left_out = {c for c in (plain & bold) - _known() if c.isprintable()}
    scripts = {name(c, "").split()[0] for c in left_out if c < "\u2000"}
    assert scripts <= {"HEBREW", "ARABIC", "ARABIC-INDIC", "EXTENDED", "NKO", "LAO", "THAI"}


def test_no_letter_of_the_table_runs_from_the_right():
    assert not [c for c in _known() if bidirectional(c) in ("R", "AL", "AN")]


@pytest.mark.parametrize(
    "text",
    [
        "Café Über Ångström",
        "Łódź Dvořák İstanbul",
        "Θέατρο",
        "Большой театр",
        "½″ × 3′ — “a” → b",
        "₹ € №",
    ],
)
def test_latin_greek_and_cyrillic_print(text):
    assert lacking(text) == []
    assert spelled(text) == text


@pytest.mark.parametrize(
    ("text", "wanting", "printed"),
    [
        ("舞台 1", ["舞", "台"], "[821E][53F0] 1"),
        ("무대", ["무", "대"], "[BB34][B300]"),
        ("เวที", ["เ", "ว", "ท", "ี"], "[E40][E27][E17][E35]"),
        ("Hamlet 🎭", ["🎭"], "Hamlet [1F3AD]"),
        ("מסך", ["מ", "ס", "ך"], "[5DE][5E1][5DA]"),
        ("ستارة", ["س", "ت", "ا", "ر", "ة"], "[633][62A][627][631][629]"),
    ],
)
def test_other_letters_are_named_and_spelled_by_their_numbers(text, wanting, printed):
    assert lacking(text) == wanting
    assert spelled(text) == printed
    assert lacking(printed) == []


def test_hebrew_and_arabic_run_from_the_right():
    assert [from_the_right(c) for c in "מسa台"] == [True, True, False, False]
