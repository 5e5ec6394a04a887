"""Electrical sums of a circuit: watts, amperes, what a limit leaves, and the drop along a run.

A limit is always what the user typed, and so is the share of it that a load kept on for hours may take
(`[scene] continuous_share`). Nothing typed, nothing held against it: some codes have such a rule (NFPA 70,
National Electrical Code, 210.19(A)(1) and 210.20(A): conductor and breaker for 1.25 times the load that
lasts three hours or more, so 80 % of them), most 230 V halls have none, and whether one applies to a given
stage circuit is for local code and a qualified person. A load over that share is only noted.
"""

from __future__ import annotations

from typing import NamedTuple

ARTICLE = "NFPA 70 210.19(A)(1) and 210.20(A)"
ARTICLE_SHARE = 1 / 1.25  # of a limit: what ARTICLE leaves to a continuous load
LONG_DROP = 0.03  # of the volts; a figure commonly advised for a branch circuit, from memory
FEET = 0.3048
WARM = 75  # °C, of every conductor here: a loaded cable is warm, and the drop errs towards too much
ALPHA = 0.00393  # per °C at 20 °C: annealed copper (IEC 60028, from memory)
WARMER = 1 + ALPHA * (WARM - 20)  # resistance at WARM over that at 20 °C

# Ohms per metre of one conductor at WARM. AWG: copper, uncoated, stranded, at 75 °C: NFPA 70 ch. 9 Table 8.
# mm2: flexible (class 5) plain copper, the most allowed at 20 °C (IEC 60228:2004), warmed.
CONDUCTORS = {
    "14 AWG": 3.14 / (1000 * FEET),
    "12 AWG": 1.98 / (1000 * FEET),
    "10 AWG": 1.24 / (1000 * FEET),
    "1.5 mm2": 13.3e-3 * WARMER,
    "2.5 mm2": 7.98e-3 * WARMER,
    "4 mm2": 4.95e-3 * WARMER,
    "6 mm2": 3.30e-3 * WARMER,
}


class Posted(NamedTuple):
    """A limit that was typed for a circuit; `unit` is "A" or "W"."""

    value: float
    unit: str


def amps(watts: float, volts: float | None) -> float | None:
    """Current of a resistive load; None where the volts are not known."""
    return watts / volts if volts else None


def used(watts: float, limit: Posted | None, volts: float | None) -> float | None:
    """Share of the limit that a load takes: 1 is all of it.

    A limit in amperes needs the volts. None where there is no limit or no way to compare; infinite for
    any load on a limit of nothing.
    """
    if limit is None:
        return None
    load = amps(watts, volts) if limit.unit == "A" else watts
    if load is None:
        return None
    if limit.value == 0:
        return float("inf") if load > 0 else 0.0
    return load / limit.value


def voltage_drop(length: float, ohms_per_metre: float, current: float) -> float:
    """Volts lost along a run out and back: 2 L R I."""
    return 2 * length * ohms_per_metre * current
