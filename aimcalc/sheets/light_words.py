"""Light, areas and re-aims as the words that a terminal and the sheets about light show."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, isnan
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.light.gaps import SMALLEST
from aimcalc.rig.light.areas import channel_key
from aimcalc.rig.light.jobs import free_to_re_aim
from aimcalc.rig.light.sources import units_without_candela
from aimcalc.rig.wording import count
from aimcalc.sheets import words as w

if TYPE_CHECKING:
    from aimcalc.rig.light.plane import Plane
    from aimcalc.rig.light.survey import Survey
    from aimcalc.rig.light.systems import SystemLight
    from aimcalc.rig.solve import Rig

SQUARE_FOOT = 0.3048**2  # m2; the foot is 0.3048 m exactly
NOT_KNOWN = "not known"
CELLS = 4  # of a grid in the smallest hole told of, at least


def area(m2: float, unit: w.LengthUnit) -> str:
    """An area: "0.82 m2", "8.8 ft2"."""
    return f"{m2 / SQUARE_FOOT:.1f} ft2" if unit == "ft" else f"{m2:.2f} m2"


def lux(value: float) -> str:
    """Light on a plane: "836 lx", "4.2 lx", "not known" where it is NaN."""
    if isnan(value):
        return NOT_KNOWN
    return f"{value:.0f} lx" if value >= 10 or value < 0.05 else f"{value:.1f} lx"


def share(value: float) -> str:
    """A share: "31 %", "not known" where it is NaN."""
    return NOT_KNOWN if isnan(value) else f"{100 * value:.0f} %"


def grid(plane: Plane, unit: w.LengthUnit) -> str:
    """How fine a grid is, and what it does not show."""
    apart = w.length(plane.grid.spacing, unit, w.HANG)
    if plane.grid.cell_area > SMALLEST / CELLS:
        return f"{apart} from point to point; a hole narrower than that can slip through."
    return f"{apart} from point to point; holes under {area(SMALLEST, unit)} are not shown."


def unknown_light(rig: Rig, system: SystemLight) -> str:
    """Of how many of a system's units the light is not known, and what that means; "" where it is."""
    unknown = np.intersect1d(system.units, units_without_candela(rig)).size
    if not unknown:
        return ""
    if unknown == system.units.size:
        return f"{system.name}: light not known. Give its kinds peak_cd, lumens or photometry."
    return (
        f"{system.name}: the light of {unknown} of {system.units.size} units is not known; the figures "
        f"leave out the deck inside their fields."
    )


def why_no_help(found: Survey, system: SystemLight, hole: int) -> str:
    """Why no unit is offered for a hole that was asked about."""
    rig = found.study.rig
    if elsewhere := found.elsewhere[system.name][hole]:
        holes = sorted({n + 1 for n in elsewhere.values()})
        return f"what could help is used for {count([str(n) for n in holes], 'hole')}"
    if not free_to_re_aim(rig)[system.units].any():
        return "every unit has a job of its own: none is re-aimed"
    return "no re-aim closes more of it than it uncovers"


def channel(rig: Rig, unit: int) -> str:
    """A unit's channel: "ch 23", empty where it has none."""
    number = rig.units[unit].channel
    return f"ch {number}" if number else ""


def channels(rig: Rig, units: list[int]) -> str:
    """The channels of some units in their order, or the names of those without: "ch 3, 4, pipe 1/2"."""
    numbers = {rig.units[k].channel: None for k in units if rig.units[k].channel}
    told = ", ".join(sorted(filter(None, numbers), key=channel_key))
    names = [rig.names[k] for k in units if not rig.units[k].channel]
    return ", ".join(([f"ch {told}"] if told else []) + names)


def named(rig: Rig, unit: int) -> str:
    """A unit with its channel: "house pipe/6 (ch 23)"."""
    number = channel(rig, unit)
    return f"{rig.names[unit]} ({number})" if number else rig.names[unit]


def new_aim(x: float, y: float, heading: float, down: float, unit: w.LengthUnit) -> str:
    """A new face point and how the unit is then set: "1'-0" SR, 9'-0" US (23° SR of US, DOWN 28°)".

    Metres and radians.
    """
    tip = w.tip(degrees(down))
    turn = w.heading(degrees(heading) % 360.0)
    return f"{w.place(x, y, unit)} ({turn}, {tip.word} {tip.angle})".replace(" )", ")")


def table(rows: Sequence[Sequence[str]]) -> str:
    """Rows as lines of text, each column as wide as its widest cell."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join("  " + "  ".join(map(str.ljust, row, widths)).rstrip() for row in rows)
