"""Weights, loads, angles and slopes: the unit is read, a missing one is asked for."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from aimcalc.scene import quantities as q
from aimcalc.scene.mistakes import Wrong


def test_a_pound_is_its_exact_kilograms() -> None:
    # 0.45359237 kg exactly (international yard and pound agreement, 1959)
    assert q.weight("1 lb") == 0.45359237
    assert q.weight("100 lbs") == pytest.approx(45.359237, rel=1e-15)
    assert q.weight("12 kg") == 12.0
    assert q.weight("12,5kg") == 12.5


def test_a_pound_per_foot_is_its_kilograms_per_metre() -> None:
    # 1 lb/ft = 1.48816394357 kg/m, to 1e-11 (pint 0.25.3)
    assert q.weight_per_length("1 lb/ft") == pytest.approx(1.48816394357, rel=1e-11)
    assert q.weight_per_length("4.05 kg/m") == 4.05


@pytest.mark.parametrize("raw", [12, 12.0, "12"])
@pytest.mark.parametrize("read", [q.weight, q.weight_per_length])
def test_a_weight_without_a_unit_is_asked_for_it(
    read: Callable[[object], float], raw: object
) -> None:
    with pytest.raises(Wrong) as caught:
        read(raw)
    assert "with its unit" in caught.value.expected
    assert caught.value.do == "Add the unit."


@pytest.mark.parametrize("raw", ["12 stone", "kg", "", "12 kg kg", "1.2.3 kg", True, None, "12 m"])
def test_what_is_no_weight_is_refused(raw: object) -> None:
    with pytest.raises(Wrong):
        q.weight(raw)


def test_a_limit_stays_in_the_unit_it_was_typed_in() -> None:
    assert q.limit("20 A") == q.Limit(20.0, None)
    assert q.limit("2400 W") == q.Limit(None, 2400.0)
    assert q.limit("2.4 kW") == q.Limit(None, 2400.0)


@pytest.mark.parametrize("raw", [20, "20", "0 A", "-5 A", "20 V", "A"])
def test_a_limit_needs_amperes_or_watts(raw: object) -> None:
    with pytest.raises(Wrong, match='"20 A" or "2400 W"'):
        q.limit(raw)


def test_loads_and_volts_may_carry_their_unit() -> None:
    assert (q.watts(750), q.watts("750 W"), q.watts("1.2kW")) == (750.0, 750.0, 1200.0)
    assert (q.volts(120), q.volts("230 V")) == (120.0, 230.0)


@pytest.mark.parametrize("raw", [25, "25", "25 deg", "25°", "25 degrees", "25,0"])
def test_degrees_are_read_in_every_way_they_are_written(raw: object) -> None:
    assert q.degrees(raw) == 25.0


@pytest.mark.parametrize(
    ("raw", "degrees"), [("US", 0), ("sl", 90), ("DS", 180), ("SR", 270), (45, 45), (-90, 270)]
)
def test_a_heading_is_a_word_or_clockwise_from_upstage(raw: object, degrees: float) -> None:
    # 0 = US, 90 = SL, 180 = DS, 270 = SR: the frame's own definition of heading
    assert q.heading(raw) == degrees


@pytest.mark.parametrize("raw", ["left", 361, -181, nan, None])
def test_a_heading_elsewhere_is_refused(raw: object) -> None:
    with pytest.raises(Wrong, match="SL, SR, US, DS or a heading"):
        q.heading(raw)


def test_a_swing_carries_its_side() -> None:
    assert q.swing_out("30 DS") == (30.0, "DS")
    assert q.swing_out("30° us") == (30.0, "US")
    assert q.swing_out(45) == (45.0, None)


@pytest.mark.parametrize("raw", [0, 180, -30, "DS", "30 DSX", nan, "thirty US"])
def test_a_swing_that_is_none_is_refused(raw: object) -> None:
    with pytest.raises(Wrong, match="over 0 and under 180"):
        q.swing_out(raw)


@pytest.mark.parametrize("raw", ["1:16", "1/16", "1 in 16", 0.0625, "0.0625"])
def test_a_rake_of_one_in_sixteen_is_read_in_every_way(raw: object) -> None:
    assert q.rake(raw) == 1 / 16


@pytest.mark.parametrize("raw", ["1:0", "1:-16", 1.5, "steep", nan])
def test_a_deck_that_cannot_be_is_refused(raw: object) -> None:
    with pytest.raises(Wrong):
        q.rake(raw)


def test_a_turn_is_from_level() -> None:
    assert (q.turn("across"), q.turn("Up and down"), q.turn(30)) == (0.0, 90.0, 30.0)
    with pytest.raises(Wrong, match="across"):
        q.turn("sideways")


@pytest.mark.parametrize("raw", [nan, inf, 1e308, 10**400, "1e308"])
def test_numbers_beyond_sense_are_refused(raw: object) -> None:
    with pytest.raises(Wrong):
        q.number(raw)


def test_a_number_has_no_unit() -> None:
    assert q.number("2,5") == 2.5
    assert q.number("1e-05") == 1e-05
    with pytest.raises(Wrong, match="without a unit"):
        q.number("25 %")


@given(st.text(max_size=45))
def test_any_text_gives_a_quantity_or_a_reason(text: str) -> None:
    for read in (q.number, q.weight, q.limit, q.degrees, q.heading, q.swing_out, q.rake, q.turn):
        with suppress(Wrong):
            assert read(text) is not None
