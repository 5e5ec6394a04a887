"""Lengths: what people write comes out in metres, and nothing else comes out at all.

foot 0.3048 m and inch 25.4 mm exactly: international yard and pound agreement, 1959.
"""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.scene.lengths import parse_length, parse_number
from aimcalc.scene.mistakes import Wrong

# Worked by hand: 18'-6" = 222 in; 222 * 25.4 = 5638.8 mm; half an inch more is 5651.5 mm.
FEET_AND_INCHES = [
    ("18'-6\"", 5.6388),
    ("18'-6 1/2\"", 5.6515),
    ("18'-6-1/2\"", 5.6515),
    ("18' 6 1/2\"", 5.6515),
    ("18'6", 5.6388),
    ("18' 6''", 5.6388),
    ("18 ft 6 in", 5.6388),
    ("18 ft. 6 in.", 5.6388),
    ("18 feet 6 inches", 5.6388),
    ("18'", 5.4864),
    ("18.5'", 5.6388),
    ("18 1/2'", 5.6388),
    ("222in", 5.6388),
    ('222"', 5.6388),
    ("18′-6½″", 5.6515),
    ("18’ 6 ½”", 5.6515),
    ('¼"', 0.00635),
    ('3⁄8"', 0.009525),  # 0.375 * 25.4 mm
    ("0'-9\"", 0.2286),
]
METRIC = [
    ("5.64 m", 5.64),
    ("5.64m", 5.64),
    ("564cm", 5.64),
    ("5640 mm", 5.64),
    ("5,64 m", 5.64),
    ("0,125 m", 0.125),
    ("5 metres", 5.0),
    (".5 m", 0.5),
    ("5.64\u00a0m", 5.64),
    ("1/2 m", 0.5),
]
SIGNED = [
    ("-3 m", "", -3.0),
    ("−3 m", "", -3.0),
    ("+3 m", "", 3.0),
    ("-6'-2\"", "", -1.8796),  # 74 in * 25.4 mm
    ("6'-2\" SR", "x", -1.8796),
    ("6'-2\"SL", "x", 1.8796),
    ("SR 6'-2\"", "x", -1.8796),
    ("3.2 m DS", "y", -3.2),
    ("3.2 m us", "y", 3.2),
    ("0 SR", "x", 0.0),
    ("centre", "x", 0.0),
    ("Center Line", "x", 0.0),
    ("3 m DS", "any", -3.0),
    ("3 m SL", "any", 3.0),
]


@pytest.mark.parametrize(("text", "metres"), FEET_AND_INCHES + METRIC)
def test_a_length_with_a_unit_means_the_same_in_every_scene(text: str, metres: float) -> None:
    assert parse_length(text, "m") == metres
    assert parse_length(text, "in") == metres


@pytest.mark.parametrize(("text", "axis", "metres"), SIGNED)
def test_a_sign_or_a_stage_word_gives_the_direction(text: str, axis: str, metres: float) -> None:
    assert parse_length(text, "m", axis) == metres


@pytest.mark.parametrize(
    ("unit", "metres"), [("m", 12.0), ("cm", 0.12), ("mm", 0.012), ("ft", 3.6576), ("in", 0.3048)]
)
def test_a_bare_number_is_in_the_unit_of_the_scene(unit: str, metres: float) -> None:
    assert parse_length(12, unit) == metres
    assert parse_length(12.0, unit) == metres
    assert parse_length("12", unit) == metres


def test_zero_has_no_minus_sign() -> None:
    assert str(parse_length(-0.0)) == "0.0"
    assert str(parse_length("0 m SR", "m", "x")) == "0.0"


@pytest.mark.parametrize(
    "raw",
    [
        *("", " ", "3 furlongs", "ft", '"', "18'-", "18 6", "1//2", "1/2/3", "--3 m", "5 m 20 cm"),
        *("nan", "inf", "1e308", "٣ m", "² m", "1_000 mm", "(3 m)", "3usa", "x" * 10_000, "5 m 3"),
        *("6\"-2'", None, True, [1], {"m": 1}),
    ],
)
def test_what_is_no_length_is_refused_with_an_example(raw: object) -> None:
    with pytest.raises(Wrong, match="a length such as"):
        parse_length(raw)


@pytest.mark.parametrize("raw", [nan, inf, -inf, 1e308, 10**400, 1001, "1001 m", "-40000 in"])
def test_no_length_is_over_a_kilometre(raw: object) -> None:
    with pytest.raises(Wrong, match="at most 1000 m"):
        parse_length(raw)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("18.5' 6\"", "whole feet"),
        ("18'-12\"", "less than 12 inches"),
        ("18' 20 cm", "a length such as"),
        ("1/0 in", "divided by zero"),
        ("5,640 m", "one way only"),
        ("1,234.5 m", "one decimal mark"),
        ("1.2.3 m", "a number"),
    ],
)
def test_a_length_that_reads_in_two_ways_is_refused(text: str, reason: str) -> None:
    with pytest.raises(Wrong, match=reason):
        parse_length(text)


@pytest.mark.parametrize(
    ("text", "axis"), [("3 m SL", ""), ("3 m US", "x"), ("3 m SR", "y"), ("centre", "")]
)
def test_a_stage_word_is_refused_where_its_axis_is_another(text: str, axis: str) -> None:
    with pytest.raises(Wrong, match="a length such as"):
        parse_length(text, "m", axis)


def test_a_sign_and_a_word_together_are_refused() -> None:
    with pytest.raises(Wrong, match="a sign or SR, not both"):
        parse_length("-6' SR", "ft", "x")


def test_centre_is_refused_where_the_zero_mark_is_elsewhere() -> None:
    with pytest.raises(Wrong):
        parse_length("centre", "m", "x", centre=False)


def test_a_comma_that_may_part_thousands_names_both_readings() -> None:
    with pytest.raises(Wrong) as caught:
        parse_number("5,640")
    assert caught.value.do == "Write 5.640 or 5640."


@given(feet=st.integers(0, 999), inches=st.integers(0, 11), sixteenths=st.integers(1, 15))
def test_feet_inches_and_sixteenths_come_back_exactly(
    feet: int, inches: int, sixteenths: int
) -> None:
    # Rational arithmetic, rounded once.
    exact = float((feet * 12 + inches + Fraction(sixteenths, 16)) * Fraction(254, 10000))
    assert parse_length(f"{feet}'-{inches} {sixteenths}/16\"") == exact
    assert parse_length(f"{feet}'-{inches + sixteenths / 16}\" SR", "m", "x") == -exact


@given(st.integers(-1_000_000, 1_000_000))
def test_millimetres_come_back_in_every_metric_unit(millimetres: int) -> None:
    exact = millimetres / 1000
    assert parse_length(f"{millimetres} mm") == exact
    assert parse_length(f"{exact!r} m") == exact
    assert parse_length(millimetres, "mm") == exact
    assert parse_length(f"{millimetres / 10!r}cm") == pytest.approx(exact, rel=1e-15)


@given(st.text(max_size=50))
def test_any_text_gives_a_length_or_a_reason(text: str) -> None:
    with suppress(Wrong):
        assert abs(parse_length(text, "ft", "any")) <= 1000.0


@given(st.text(alphabet="0123456789.,/'\" -+½SLRUDmcinft", max_size=20))
def test_any_text_of_length_signs_gives_a_length_or_a_reason(text: str) -> None:
    with suppress(Wrong):
        assert abs(parse_length(text, "ft", "any")) <= 1000.0
