"""The light as lists: channels by area, areas by channel and angles as CSV; its figures in words."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite, isnan
from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.coverage.angles import face_lights
from aimcalc.coverage.areas import channel_key, channels_of
from aimcalc.coverage.sources import units_without_candela
from aimcalc.geometry.vectors import heading_degrees, to_degrees
from aimcalc.light.evenness import SMALLEST
from aimcalc.rig.wording import area as area
from aimcalc.rig.wording import count
from aimcalc.text import words as w
from aimcalc.text.lists import Cell, csv_bytes

if TYPE_CHECKING:
    from aimcalc.coverage.survey import Survey
    from aimcalc.coverage.systems import Plane, SystemLight
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


AREA_HEADS = (
    "target",
    "channel",
    "unit",
    "system",
    "colour",
    "aimed here",
    "comes from (deg)",  # plan direction from the target to the unit: 0 US, 90 SL
    "down (deg)",
    "square on (lx)",
    "share",  # of all the light at the target, square on
    "balanced level",
    "on upright (lx)",
    "upright faces (deg)",  # plan direction: 180 DS, to the audience
)
ANGLE_HEADS = (
    "unit",
    "channel",
    "system",
    "target",
    "elevation (deg)",
    "plan angle from straight on (deg)",
    "side",
    "elevation in the section (deg)",
    "shadow on deck x (m)",
    "shadow on deck y (m)",
    "shadow on deck z (m)",
    "upright",
    "shadow on upright x (m)",
    "shadow on upright y (m)",
    "shadow on upright z (m)",
)
CHANNEL_HEADS = ("channel", "units", "systems", "colours", "targets")


def areas_csv(found: Survey, options: PaperOptions | None = None) -> bytes:
    """`by-area.csv`: a row for every unit at every target it lights, the brightest first."""
    return csv_bytes(AREA_HEADS, area_rows(found), options)


def channels_csv(found: Survey, options: PaperOptions | None = None) -> bytes:
    """`by-channel.csv`: a row for every channel, with the targets it lights, the brightest first."""
    return csv_bytes(CHANNEL_HEADS, channel_rows(found), options)


def angles_csv(rig: SolidRig, options: PaperOptions | None = None) -> bytes:
    """`angles.csv`: how each unit's light comes to its face, and where the head's shadow falls."""
    return csv_bytes(ANGLE_HEADS, angle_rows(rig), options)


def angle_rows(rig: SolidRig) -> Iterator[list[Cell]]:
    """The cells of `angles.csv`, in hang order."""
    nowhere = (None, None, None)
    for light in face_lights(rig):
        unit = rig.units[light.unit]
        yield [
            rig.names[light.unit],
            unit.channel,
            unit.system,
            light.target,
            light.elevation,
            light.plan,
            light.side,
            light.section,
            *(light.on_deck or nowhere),
            light.drop,
            *(light.on_drop or nowhere),
        ]


def levels_of(found: Survey) -> dict[int, float]:
    """The balanced level of every unit that has one, 1 = full."""
    return {
        unit: level
        for each in found.balances
        for unit, level in zip(each.unit.tolist(), each.level.tolist(), strict=True)
    }


def area_rows(found: Survey) -> Iterator[list[Cell]]:
    """The cells of `by-area.csv`."""
    rig = found.study.rig
    levels = levels_of(found)
    for lit in found.areas:
        for comes in lit.light:
            unit = rig.units[comes.unit]
            yield [
                lit.target,
                unit.channel,
                rig.names[comes.unit],
                unit.system,
                unit.colour,
                "yes" if comes.aimed else "no",
                comes.bearing,
                comes.down,
                _known(comes.lux),
                _known(comes.share),
                levels.get(comes.unit),
                _known(comes.upright),
                lit.faces,
            ]


def _known(value: float) -> float | None:
    return value if isfinite(value) else None


def channel_rows(found: Survey) -> Iterator[list[Cell]]:
    """The cells of `by-channel.csv`."""
    rig = found.study.rig
    for lights in channels_of(found.study, found.areas):
        units = [rig.units[k] for k in lights.units]
        yield [
            lights.channel,
            "; ".join(rig.names[k] for k in lights.units),
            "; ".join(dict.fromkeys(unit.system for unit in units if unit.system)),
            "; ".join(dict.fromkeys(unit.colour for unit in units if unit.colour)),
            "; ".join(lights.targets),
        ]


NOT_KNOWN = "not known"
CELLS = 4  # of a grid in the smallest hole told of, at least


def lux(value: float) -> str:
    """Light on a plane, lux: "836 lx", "4.2 lx", "not known" where it is NaN."""
    if isnan(value):
        return NOT_KNOWN
    return f"{value:.0f} lx" if value >= 10 or value < 0.05 else f"{value:.1f} lx"


def share(value: float) -> str:
    """A share, 0 to 1: "31 %", "not known" where it is NaN."""
    return NOT_KNOWN if isnan(value) else f"{100 * value:.0f} %"


def grid(plane: Plane, unit: w.LengthUnit) -> str:
    """How fine a grid is, and what it does not show."""
    apart = w.length(plane.grid.spacing, unit, w.HANG)
    if plane.grid.cell_area > SMALLEST / CELLS:
        return f"{apart} from point to point; a hole narrower than that can slip through."
    return f"{apart} from point to point; holes under {area(SMALLEST, unit)} are not shown."


def unknown_light(rig: SolidRig, system: SystemLight) -> str:
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
    from aimcalc.coverage.new_aims import free_to_re_aim

    rig = found.study.rig
    if elsewhere := found.elsewhere[system.name][hole]:
        holes = sorted({n + 1 for n in elsewhere.values()})
        return f"what could help is used for {count([str(n) for n in holes], 'hole')}"
    if not free_to_re_aim(rig)[system.units].any():
        return "every unit has a job of its own: none is re-aimed"
    return "no re-aim closes more of it than it uncovers"


def channel(rig: SolidRig, unit: int) -> str:
    """A unit's channel: "ch 23", empty where it has none."""
    number = rig.units[unit].channel
    return f"ch {number}" if number else ""


def channels(rig: SolidRig, units: list[int]) -> str:
    """The channels of some units in their order, or the names of those without: "ch 3, 4, pipe 1/2"."""
    numbers = {rig.units[k].channel: None for k in units if rig.units[k].channel}
    told = ", ".join(sorted(filter(None, numbers), key=channel_key))
    names = [rig.names[k] for k in units if not rig.units[k].channel]
    return ", ".join(([f"ch {told}"] if told else []) + names)


def named(rig: SolidRig, unit: int) -> str:
    """A unit with its channel: "house pipe/6 (ch 23)"."""
    number = channel(rig, unit)
    return f"{rig.names[unit]} ({number})" if number else rig.names[unit]


def new_aim(x: float, y: float, heading: float, down: float, unit: w.LengthUnit) -> str:
    """A new face point and how the unit is then set: "1'-0" SR, 9'-0" US (23° SR of US, DOWN 28°)".

    Metres and radians.
    """
    tip = w.tip(to_degrees(down))
    turn = w.heading(heading_degrees(heading))
    return f"{w.place(x, y, unit)} ({turn}, {tip.word} {tip.angle})".replace(" )", ")")


def light_lists(
    show: Show, areas: BinaryIO, channels: BinaryIO, angles: BinaryIO, options: PaperOptions
) -> None:
    """Write the programmer's lists as CSV; without light, those of areas and channels have heads alone."""
    found = show.areas
    if isinstance(found, str):
        areas.write(csv_bytes(AREA_HEADS, [], options))
        channels.write(csv_bytes(CHANNEL_HEADS, [], options))
    else:
        areas.write(areas_csv(found, options))
        channels.write(channels_csv(found, options))
    angles.write(angles_csv(show.rig, options))
