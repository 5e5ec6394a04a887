"""Shares of a circuit's limit."""

from math import isinf

import pytest

from aimcalc.hang.records import ARTICLE_SHARE, CONDUCTORS, Posted, amps, used, voltage_drop


def test_amperes_are_watts_over_volts():
    assert amps(1150, 230) == 5.0
    assert amps(0.0, 230) == 0.0


def test_amperes_without_volts_are_unknown():
    assert amps(1000, None) is None
    assert amps(1000, 0) is None


def test_a_limit_in_watts_needs_no_volts():
    assert used(1200, Posted(2400, "W"), None) == 0.5


def test_a_limit_in_amperes_needs_the_volts():
    assert used(1200, Posted(20, "A"), 120) == 0.5
    assert used(1200, Posted(20, "A"), None) is None


def test_a_share_is_the_load_over_the_limit_and_nothing_else():
    # 16 A on 20 A. It was told as 100 % before, a code's 1.25 times counted in, wherever the hall was.
    assert used(1920, Posted(20, "A"), 120) == pytest.approx(0.8)


def test_no_posted_limit_gives_no_share():
    assert used(1200, None, 120) is None


def test_any_load_is_too_much_for_a_dead_circuit():
    share = used(100, Posted(0, "A"), 120)
    assert share is not None
    assert isinf(share)
    assert used(0, Posted(0, "A"), 120) == 0


def test_voltage_drop_is_out_and_back():
    # 2 L R I: 2 x 100 ft x 1.98 ohm / 1000 ft x 16 A; 2 x 30 m x 7.98 ohm / km x 10 A.
    assert voltage_drop(30.48, CONDUCTORS["12 AWG"], 16) == pytest.approx(6.336)
    assert voltage_drop(30, 7.98e-3, 10) == pytest.approx(4.788)


def test_the_share_of_the_article_is_what_its_printed_factor_leaves():
    # NFPA 70 210.20(A), as a forum quotes it: 1.25 times the continuous load. 20 A at 120 V: 16 A, 1920 W.
    assert used(1920, Posted(20, "A"), 120) == pytest.approx(ARTICLE_SHARE)
    assert pytest.approx(1 / 1.25) == ARTICLE_SHARE
