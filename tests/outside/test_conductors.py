"""Resistance of conductors against the printed tables.

[NFPA] NFPA 70, chapter 9, Table 8, copper at 75 C, uncoated, ohm per 1000 ft, as sfasoft.com and
voltdropcalc.com print it. [IEC] IEC 60228:2004, plain copper at 20 C, ohm per km at most, flexible
conductors (class 5), as mycableengineering.com prints it.
"""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.hang.records import ALPHA, CONDUCTORS

FEET_1000 = 304.8  # metres, exact


def test_wire_of_a_gauge_has_the_area_its_resistance_says():
    # 12 AWG is 2.052525 mm thick (GNU units 2.22, awg(12)). Copper at 75 C has 1.724e-8 x (1 + 0.00393 x 55)
    # ohm m (IEC 60028, from memory); stranding makes the path some 2 % longer.
    area = np.pi * 2.052525e-3**2 / 4
    solid = 1.724e-8 * (1 + 0.00393 * 55) / area
    assert CONDUCTORS["12 AWG"] == pytest.approx(1.02 * solid, rel=0.01)


def test_conductors_are_those_of_the_tables():
    # [NFPA], stranded.
    for name, ohms in (("14 AWG", 3.14), ("12 AWG", 1.98), ("10 AWG", 1.24)):
        assert CONDUCTORS[name] * FEET_1000 == pytest.approx(ohms, rel=1e-12)
    # [IEC]; warmed to 75 C with 0.393 % a degree: 1.21615 times.
    for name, ohms in (("1.5 mm2", 13.3), ("2.5 mm2", 7.98), ("4 mm2", 4.95), ("6 mm2", 3.30)):
        assert CONDUCTORS[name] * 1000 == pytest.approx(ohms * 1.21615, rel=1e-12)


@pytest.mark.parametrize(
    ("mils", "ohms"), [(4110, 3.07), (6530, 1.93), (10380, 1.21)], ids=["14", "12", "10"]
)
def test_the_temperature_coefficient_gives_the_printed_resistance_at_75(
    mils: int, ohms: float
) -> None:
    # [NFPA], solid, and its circular mils. From the other end:
    # copper of 1.7241e-8 ohm m at 20 C (the international standard of annealed copper, from memory).
    area = mils * np.pi / 4 * (0.0254e-3) ** 2
    at_75 = 1.7241e-8 / area * (1 + ALPHA * 55)
    assert at_75 * FEET_1000 == pytest.approx(ohms, rel=0.005)  # three printed digits
    # Without it the same sum misses the table by far more than its last digit.
    assert abs(1.7241e-8 / area * FEET_1000 - ohms) > 0.1
