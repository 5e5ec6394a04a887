"""Cable habits of the trade and the voltage a run costs, worked by hand."""

import pytest

from aimcalc.rig.hang.cable import assign, laid, ties
from aimcalc.rig.hang.loads import CONDUCTORS, voltage_drop


def test_wire_of_a_gauge_has_the_area_its_resistance_says():
    # ELE-1 and ELE-4: 12 AWG is 0.127 mm x 92^((36 - n) / 39) thick, 2.052525 mm (GNU units 2.22,
    # awg(12)). Copper at 75 C has 1.724e-8 x (1 + 0.00393 x 55) ohm m (IEC 60028, from memory);
    # stranding makes the path some 2 % longer. NFPA 70 ch. 9 Table 8 prints 1.98 ohm per 1000 ft.
    diameter = 0.127e-3 * 92 ** ((36 - 12) / 39)
    assert diameter == pytest.approx(2.052525e-3, abs=1e-9)
    area = 3.141592653589793 * diameter**2 / 4
    solid = 1.724e-8 * (1 + 0.00393 * 55) / area
    assert CONDUCTORS["12 AWG"] == pytest.approx(1.02 * solid, rel=0.01)


def test_twice_the_run_costs_twice_the_volts():
    one = voltage_drop(15, CONDUCTORS["2.5 mm2"], 10)
    # ELE-8 at half its length: 2.394 V.
    assert one == pytest.approx(2.394, abs=1e-9)
    assert voltage_drop(30, CONDUCTORS["2.5 mm2"], 10) == pytest.approx(2 * one)


def test_spare_cable_is_doubled_back_past_the_unit_and_ends_at_the_connector():
    # Common practice, no source: spare cable lies doubled back along the pipe, never coiled. Outlet
    # at centre line, connector 14 ft SL, a 20 ft cable: 3 ft past the connector and 3 ft back.
    lie = laid(0.0, 14.0, 20.0, (-21.0, 21.0))
    assert lie.turn == 17.0
    assert lie.covers == 17.0


def test_a_tie_every_two_feet_holds_ten_feet_with_six():
    assert ties(10.0, 2.0) == 6


def test_three_runs_and_the_four_cables_of_a_small_store():
    # By hand: 23 needs the 25, 9 the 10, 12 the 15; the second 10 stays in the box. Taking the
    # short runs first would serve them too, but never with less cable.
    assert assign([12, 9, 23], [(10, 2), (15, 1), (25, 1)]) == [1, 0, 2]
