"""The light as lists: JSON of `aimcalc cover`, and for the programmer the channels by area as CSV."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import msgspec

from aimcalc.rig.light.areas import channels_of
from aimcalc.rig.light.cover import as_record
from aimcalc.sheets.lists import Cell, csv_bytes

if TYPE_CHECKING:
    from aimcalc.rig.light.survey import Survey

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
    "share",
    "balanced level",
)
CHANNEL_HEADS = ("channel", "units", "systems", "colours", "targets")


def cover_json(found: Survey) -> bytes:
    """The whole answer as one JSON object, indented; metres, lux, degrees. What does not exist is null."""
    return msgspec.json.format(msgspec.json.encode(as_record(found)), indent=1) + b"\n"


def areas_csv(found: Survey) -> bytes:
    """`by-area.csv`: a row for every unit at every target it lights, the brightest first."""
    return csv_bytes(AREA_HEADS, area_rows(found))


def channels_csv(found: Survey) -> bytes:
    """`by-channel.csv`: a row for every channel, with the targets it lights, the brightest first."""
    return csv_bytes(CHANNEL_HEADS, channel_rows(found))


def area_rows(found: Survey) -> Iterator[list[Cell]]:
    """The cells of `by-area.csv`."""
    rig = found.study.rig
    levels = {
        unit: level
        for each in found.balances
        for unit, level in zip(each.unit.tolist(), each.level.tolist(), strict=True)
    }
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
                comes.lux,
                comes.share,
                levels.get(comes.unit),
            ]


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
