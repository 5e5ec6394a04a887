"""Numbers inside a sentence."""

from __future__ import annotations

import pytest

from aimcalc.rig import wording as w

FOOT, INCH = 0.3048, 0.0254


@pytest.mark.parametrize(
    ("metres", "unit", "text"),
    [
        (1.65, "m", "1.65 m"),
        (12.0, "m", "12.00 m"),
        (0.4572, "m", "0.46 m"),  # as a person writes it; it was 0.457
        (0.125, "m", "0.13 m"),  # a half goes up, as on paper
        (0.042, "m", "0.042 m"),
        (0.004, "m", "0.004 m"),
        (0.04, "m", "0.04 m"),
        (0.25, "m", "0.25 m"),
        (0.0, "m", "0.00 m"),
        (-0.25, "m", "0.25 m"),
        (1.65, "cm", "165 cm"),
        (0.457, "cm", "46 cm"),
        (0.042, "cm", "4.2 cm"),
        (1.65, "mm", "1650 mm"),
        (18 * FOOT + 6.5 * INCH, "ft", "18'-6 1/2\""),
        (INCH * 11.9, "ft", "1'-0\""),  # rounds up to a whole foot, never to 12 in
        (-0.5 * FOOT, "ft", "0'-6\""),
        (222.25 * INCH, "in", "222 1/4 in"),
    ],
)
def test_lengths_in_the_scenes_own_unit(metres: float, unit: str, text: str) -> None:
    assert w.length(metres, unit) == text


def test_sides_stand_for_signs() -> None:
    assert w.along(-1.2, ("SL", "SR"), "m") == "1.20 m SR"
    assert w.along(1.2, ("SL", "SR"), "m") == "1.20 m SL"
    assert w.along(0.0, ("SL", "SR"), "m") == "the zero mark"
    assert w.plan(-1.6, 4.6, "m") == "1.60 m SR, 4.60 m US"
    assert w.plan(0.0, -4.6, "m") == "on the centre line, 4.60 m DS"
    assert w.plan(2.0, 0.0, "ft") == "6'-6 3/4\" SL, on the plaster line"


def test_heights_count_from_the_deck_at_the_plaster_line() -> None:
    assert w.level(1.22, "m") == "1.22 m up"
    assert w.level(-0.3, "m") == "0.30 m below the deck at the plaster line"
    assert w.level(0.0, "m") == "level with the deck at the plaster line"


def test_angles_have_words_for_their_sense() -> None:
    assert [w.tip(d) for d in (30.2, -12.0, 0.3)] == ["30° down", "12° up", "level"]
    assert w.angle(-23.4) == "23°"
    assert w.angle(0.687, 2) == "0.69°"
    assert w.span(8.2, 14.4) == "8° to 14°"
    assert w.span(8.2, 8.4) == "8°"


def test_long_rows_of_names_are_cut_short_and_still_counted() -> None:
    names = [str(n) for n in range(1, 13)]
    assert w.listed(names[:1]) == "1"
    assert w.listed(names[:3]) == "1, 2 and 3"
    assert w.listed(names[:8]) == "1, 2, 3, 4, 5, 6, 7 and 8"
    assert w.listed(names) == "1, 2, 3, 4, 5, 6, 7 and 5 more"
    assert w.count(names[:1], "unit") == "unit 1"
    assert w.count(names[:2], "unit") == "units 1 and 2"
