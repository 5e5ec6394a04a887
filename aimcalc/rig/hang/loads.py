"""Electrical sums of a circuit: watts, amperes, what a limit leaves, and the drop along a run.

A limit is always what the user typed. The continuous-load rule is NFPA 70 (National Electrical Code)
210.19(A)(1) and 210.20(A): conductor and breaker for 1.25 times the load that lasts three hours or more
plus the rest. Whether it applies to a given stage circuit is for local code and a qualified person.
"""

from __future__ import annotations

from typing import NamedTuple

CONTINUOUS = 1.25  # NFPA 70 210.19(A)(1), 210.20(A)
ARTICLE = "NFPA 70 210.19(A)(1) and 210.20(A)"
LONG_DROP = 0.03  # of the volts; a figure commonly advised for a branch circuit, from memory
FEET = 0.3048

# Ohms per metre of one conductor. Copper at 75 C, uncoated, stranded: NFPA 70 ch. 9 Table 8. Flexible
# (class 5) plain copper at 20 C, the most allowed: IEC 60228:2004.
CONDUCTORS = {
    "14 AWG": 3.14 / (1000 * FEET),
    "12 AWG": 1.98 / (1000 * FEET),
    "10 AWG": 1.24 / (1000 * FEET),
    "1.5 mm2": 13.3e-3,
    "2.5 mm2": 7.98e-3,
    "4 mm2": 4.95e-3,
    "6 mm2": 3.30e-3,
}


class Posted(NamedTuple):
    """A limit that was typed for a circuit; `unit` is "A" or "W"."""

    value: float
    unit: str


def amps(watts: float, volts: float | None) -> float | None:
    """Current of a resistive load; None where the volts are not known."""
    return watts / volts if volts else None


def used(
    watts: float, limit: Posted | None, volts: float | None, *, continuous: bool
) -> float | None:
    """Share of the limit that a load takes: 1 is all of it; with the rule, counted 1.25 times.

    A limit in amperes needs the volts. None where there is no limit or no way to compare; infinite for
    any load on a limit of nothing.
    """
    if limit is None:
        return None
    load = amps(watts, volts) if limit.unit == "A" else watts
    if load is None:
        return None
    counted = needed(load) if continuous else needed(0.0, load)
    if limit.value == 0:
        return float("inf") if counted > 0 else 0.0
    return counted / limit.value


def needed(continuous: float, other: float = 0.0) -> float:
    """What the rule asks the circuit to be good for: 1.25 continuous + other, in the unit given."""
    return CONTINUOUS * continuous + other


def voltage_drop(length: float, ohms_per_metre: float, current: float) -> float:
    """Volts lost along a run out and back: 2 L R I."""
    return 2 * length * ohms_per_metre * current
