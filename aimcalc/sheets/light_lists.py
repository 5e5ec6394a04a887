"""The light as lists: JSON of `aimcalc cover`; channels by area, areas by channel and angles as CSV."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite
from typing import TYPE_CHECKING

import msgspec

from aimcalc.rig.light.angles import face_lights
from aimcalc.rig.light.areas import channels_of
from aimcalc.rig.light.cover import as_record
from aimcalc.sheets.lists import Cell, csv_bytes

if TYPE_CHECKING:
    from aimcalc.rig.light.survey import Survey
    from aimcalc.rig.solve import Rig
    from aimcalc.sheets.paper import PaperOptions

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


def cover_json(found: Survey) -> bytes:
    """The whole answer as one JSON object, indented; metres, lux, degrees. What does not exist is null."""
    return msgspec.json.format(msgspec.json.encode(as_record(found)), indent=1) + b"\n"


def areas_csv(found: Survey, options: PaperOptions | None = None) -> bytes:
    """`by-area.csv`: a row for every unit at every target it lights, the brightest first."""
    return csv_bytes(AREA_HEADS, area_rows(found), options)


def channels_csv(found: Survey, options: PaperOptions | None = None) -> bytes:
    """`by-channel.csv`: a row for every channel, with the targets it lights, the brightest first."""
    return csv_bytes(CHANNEL_HEADS, channel_rows(found), options)


def angles_csv(rig: Rig, options: PaperOptions | None = None) -> bytes:
    """`angles.csv`: how each unit's light comes to its face, and where the head's shadow falls."""
    return csv_bytes(ANGLE_HEADS, angle_rows(rig), options)


def angle_rows(rig: Rig) -> Iterator[list[Cell]]:
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
    for area in found.areas:
        for comes in area.light:
            unit = rig.units[comes.unit]
            yield [
                area.target,
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
                area.faces,
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
