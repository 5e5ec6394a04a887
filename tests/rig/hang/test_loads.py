"""Shares of a circuit's limit."""

from math import isinf

import pytest

from aimcalc.rig.hang.loads import Posted, amps, used


def test_amperes_are_watts_over_volts():
    assert amps(1150, 230) == 5.0
    assert amps(0.0, 230) == 0.0


def test_amperes_without_volts_are_unknown():
    assert amps(1000, None) is None
    assert amps(1000, 0) is None


def test_a_limit_in_watts_needs_no_volts():
    assert used(1200, Posted(2400, "W"), None, continuous=False) == 0.5


def test_a_limit_in_amperes_needs_the_volts():
    assert used(1200, Posted(20, "A"), 120, continuous=False) == 0.5
    assert used(1200, Posted(20, "A"), None, continuous=False) is None


def test_the_continuous_rule_counts_the_load_a_quarter_more():
    # 16 A on 20 A is all of it under the rule (20 / 1.25), 80 % without.
    assert used(1920, Posted(20, "A"), 120, continuous=True) == pytest.approx(1.0)
    assert used(1920, Posted(20, "A"), 120, continuous=False) == pytest.approx(0.8)


def test_no_posted_limit_gives_no_share():
    assert used(1200, None, 120, continuous=True) is None


def test_any_load_is_too_much_for_a_dead_circuit():
    share = used(100, Posted(0, "A"), 120, continuous=True)
    assert share is not None
    assert isinf(share)
    assert used(0, Posted(0, "A"), 120, continuous=True) == 0
