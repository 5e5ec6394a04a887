"""Numbers as words for paper."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.text import words as w

FOOT = 0.3048  # m, exact: international foot, 1959 agreement

metres = st.floats(-200, 200, allow_nan=False)
degrees = st.floats(-180, 180, allow_nan=False)


def read_back(text: str) -> float:
    """A second reading of a printed length, in metres."""
    if text.endswith(" m"):
        return float(text[:-2])
    feet, inches, over, under = re.fullmatch(r"(\d+)'-(\d+)(?: (\d)/(\d))?\"", text).groups()
    return (int(feet) * 12 + int(inches) + (int(over) / int(under) if over else 0)) * FOOT / 12


# Worked by hand: 18 ft 6 1/2 in = 222.5 in = 5.6515 m; 5 ft 4 in = 1.6256 m, nearest 3 in is 5'-3".
@pytest.mark.parametrize(
    ("value", "unit", "step", "text"),
    [
        (5.6515, "ft", w.HANG, "18'-6 1/2\""),
        (5.6515, "ft", w.DECK, "18'-6\""),
        (5.6515, "m", w.HANG, "5.65 m"),
        (5.6535, "m", w.HANG, "5.655 m"),
        (1.6256, "ft", w.DECK, "5'-3\""),
        (1.6256, "ft", w.SIZE, "5'-4\""),
        (1.6256, "m", w.DECK, "1.65 m"),
        (1.60, "m", w.DECK, "1.60 m"),
        (0.1524, "ft", w.HANG, "0'-6\""),
        (0.0, "ft", w.HANG, "0'-0\""),
        (0.0, "m", w.DECK, "0.00 m"),
        (3.6567, "ft", w.DECK, "12'-0\""),  # 11'-11.97" carries into the feet
        (0.3032, "ft", w.HANG, "1'-0\""),  # 11.94" carries too
        (0.025, "m", w.DECK, "0.05 m"),  # a half counts as a whole one
    ],
)
def test_a_length_is_rounded_to_what_a_person_can_set(value, unit, step, text):
    assert w.length(value, unit, step) == text


@given(metres, st.sampled_from(["m", "ft"]), st.sampled_from([w.HANG, w.DECK, w.SIZE]))
def test_a_printed_length_is_within_half_a_step_and_has_no_sign(value, unit, step):
    half = (step.metres if unit == "m" else step.inches * FOOT / 12) / 2
    text = w.length(value, unit, step)
    assert abs(read_back(text) - abs(value)) <= half + 1e-6
    assert not re.search(r"(?<!')-|\u2212", text)
    assert w.rounded(value, unit, step) == pytest.approx(
        read_back(text) * (-1 if value < 0 else 1), abs=1e-9
    )


# 64 in and 181 in, whole inches; the metric pairs are rounded by hand to 5 cm.
def test_a_point_is_told_by_sides_and_never_by_sign():
    assert w.place(-5 * FOOT - 4 * FOOT / 12, 15 * FOOT + FOOT / 12, "ft", w.SIZE) == (
        "5'-4\" SR, 15'-1\" US"
    )
    assert w.place(-1.62, 4.59, "m") == "1.60 m SR, 4.60 m US"
    assert w.place(1.62, -4.59, "m") == "1.60 m SL, 4.60 m DS"


def test_a_point_on_an_axis_names_the_line():
    assert w.place(0.01, -0.01, "m") == "CENTRE LINE, PLASTER LINE"


def test_a_mark_along_a_pipe_up_and_down_the_stage_uses_its_own_sides():
    assert w.mark(-0.5, ("US", "DS"), "ZERO", "m", w.HANG) == "0.50 m DS"
    assert w.mark(0.002, ("US", "DS"), "ZERO", "m", w.HANG) == "ZERO"


@pytest.mark.parametrize(
    ("down", "expected"),
    [
        (51.6, ("DOWN", "52°", "38°")),
        (-12.2, ("UP", "12°", "78°")),
        (0.4, ("LEVEL", "", "90°")),
        (-0.4, ("LEVEL", "", "90°")),
        (89.7, ("DOWN", "90°", "0°")),
        (45.5, ("DOWN", "46°", "44°")),
    ],
)
def test_down_and_plumb_are_both_told(down, expected):
    assert tuple(w.tip(down)) == expected


@given(st.floats(-90, 90, allow_nan=False))
def test_printed_down_and_plumb_sum_to_ninety(down):
    tip = w.tip(down)
    assert int(tip.angle[:-1] or 0) + int(tip.plumb[:-1]) == 90


@pytest.mark.parametrize(
    ("pan", "swing", "text"),
    [
        (22.6, "SR", "SR 23°"),
        (0.3, "SL", "SQUARE"),
        (0.0, None, "SQUARE"),
        (None, None, "PAN FREE"),
    ],
)
def test_pan_is_a_side_and_an_angle(pan, swing, text):
    assert w.turn(pan, swing) == text


# The frame: 0 = US, 90 = SL, 180 = DS, 270 = SR, clockwise seen from above.
@pytest.mark.parametrize(
    ("heading", "base", "text"),
    [
        (0, None, "US"),
        (340, None, "20° SR of US"),
        (20, None, "20° SL of US"),
        (100, None, "10° DS of SL"),
        (80, None, "10° US of SL"),
        (250, None, "20° DS of SR"),
        (200, None, "20° SR of DS"),
        (359.7, None, "US"),
        (84.3, "SL", "6° US of SL"),
        (30, "SL", "60° US of SL"),
    ],
)
def test_a_heading_is_counted_from_a_side(heading, base, text):
    assert w.heading(heading, base) == text


@given(st.floats(0, 360, exclude_max=True))
def test_a_heading_in_words_points_where_the_heading_does(heading):
    text = w.heading(heading)
    angle, towards, base = re.fullmatch(r"(?:(\d+)° (\w\w) of )?(\w\w)", text).groups()
    east_of = {"US": 0, "SL": 90, "DS": 180, "SR": 270}
    back = east_of[base]
    if angle:
        sense = 1 if (east_of[towards] - back) % 360 == 90 else -1
        back += sense * int(angle)
    assert abs((back - heading + 180) % 360 - 180) <= 0.5 + 1e-6


@pytest.mark.parametrize(
    ("degrees", "text"),
    [(6.5, "6°"), (7.0, "7°"), (0.6, "1°"), (44.9, "44°"), (45, "any"), (None, "any")],
)
def test_paper_never_allows_more_than_the_tolerance_but_for_the_first_degree(degrees, text):
    assert w.within(degrees) == text


def test_counts_agree_with_their_noun():
    assert w.count(1, "unit") == "1 unit"
    assert w.count(2, "unit") == "2 units"
    assert w.count(2, "box", "boxes") == "2 boxes"


@pytest.mark.parametrize(
    ("headings", "told"),
    [
        ([80.0, 100.0], ["SL", "SL"]),  # neither US nor DS serves both
        ([350.0, 10.0], ["US", "US"]),
        ([80.0, 90.0], ["US", "US"]),
        ([100.0, 120.0], ["DS", "DS"]),
        ([0.0, 100.0], ["US", "DS"]),  # far apart: each from square or its opposite
        ([260.0, 280.0, 10.0], ["SR", "SR", "US"]),
        ([float(h) for h in range(0, 360, 30)], ["US"] * 4 + ["DS"] * 5 + ["US"] * 3),
        ([None, 95.0], ["US", "DS"]),
        ([], []),
    ],
)
def test_neighbours_are_counted_from_one_side(headings, told):
    assert w.bases(headings, "US") == told
