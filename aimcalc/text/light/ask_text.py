"""What lights a place, or what a channel lights, in one screen; and the same as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import isnan
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.coverage.asked import LIKE, fader
from aimcalc.coverage.sources import units_without_candela
from aimcalc.coverage.systems import ALL
from aimcalc.text import words as w
from aimcalc.text.columns import MARGIN, folded, table
from aimcalc.text.light import cover_lists as lw
from aimcalc.text.lists import json_bytes

if TYPE_CHECKING:
    from aimcalc.coverage.asked import Channel, ChannelUnit, Contributor, Fill, Gone, Place
    from aimcalc.solid.rig import SolidRig

HEADS = ("ch", "system", "from", "up", "share", "face", "level", "fader", "dark", "could fill in")
UNIT_HEADS = ("unit", "system", "colour", "aimed at", "fader", "could fill in")
AREA_HEADS = ("lights", "square on", "of its light")
TOLD = 2  # who could fill in, for each unit: as many as a line holds
BRIGHT = 0.1  # share from which a unit's stand-ins are told, where none is aimed at the place
LAW_WORDS = {
    "linear": "light as the level (linear law)",
    "square": "light as its square (square law)",
}

_FILL_WORDS = f"Fill in: light within {LIKE:.0f}° of its way, own colour first."


def place_text(
    rig: SolidRig, place: Place, law: str, unit: w.LengthUnit, width: int | None = None
) -> str:
    """A place: every unit that lights it, one line each, and one more for who could fill in."""
    faces = w.heading(place.faces)
    head = f"{_where(rig, place, unit)}, facing {faces}: {lw.lux(place.lux)} square on"
    if not place.light:
        return "\n".join([folded(head, width), "Nothing lights it.", *_reach(rig, place, width)])
    rows = [_row(rig, place, each, law, unit) for each in place.light]
    if place.rest >= 0.005:
        rows.append(["", "all others", "", "", lw.share(place.rest), *[""] * (len(HEADS) - 5)])
    foot = (
        "> aimed here; all at full. Up: at the face. Face, level: lux on an upright "
        f"card that looks {faces}, on a level one. {_law_words(law)} "
        f"Dark: of its system's area, without it. {_FILL_WORDS}"
    )
    lines = table(HEADS, rows, width, HEADS[-1:])
    return "\n".join([folded(head, width), *lines, folded(foot, width)])


def channel_text(
    rig: SolidRig, found: Channel, law: str, unit: w.LengthUnit, width: int | None = None
) -> str:
    """A channel: its units, the areas they light, what goes dark without them."""
    units = [_channel_unit(rig, each, law) for each in found.units]
    areas = [(each.target, lw.lux(each.lux), lw.share(each.share)) for each in found.areas]
    count = w.count(len(units), "unit")
    told = [f"channel {found.channel}: {count}", *table(UNIT_HEADS, units, width, UNIT_HEADS[-1:])]
    told += (
        table(AREA_HEADS, areas, width) if areas else [f"{MARGIN}It lights no area of the scene."]
    )
    gone = _gone(found.gone, unit) or "nothing"
    gone = "what, is not known (no candela)" if _unknown(rig, found) else gone
    them = "it" if len(units) == 1 else "them"
    foot = f"Without {them} falls dark: {gone}. {_law_words(law)} {_FILL_WORDS}"
    return "\n".join([*told, folded(foot, width)])


def _unknown(rig: SolidRig, found: Channel) -> bool:
    """Whether the light of one of a channel's units is not known."""
    return bool(np.isin([each.unit for each in found.units], units_without_candela(rig)).any())


def _where(rig: SolidRig, place: Place, unit: w.LengthUnit) -> str:
    x, y, z = place.point
    at = f"{w.place(x, y, unit)}, {w.length(z, unit, w.SIZE)} up"
    return f"{place.name}, {at}" if place.name else at


def _row(rig: SolidRig, place: Place, each: Contributor, law: str, unit: w.LengthUnit) -> list[str]:
    comes, own = each.comes, rig.units[each.comes.unit]
    fills = ""
    if each in stood_in_for(place):
        colour = f"{own.colour}: " if own.colour else ""
        fills = f"{colour}{fills_words(rig, each.fills, TOLD)}"
    return [
        f"{'>' if comes.aimed else ''}{own.channel or lw.named(rig, comes.unit)}",
        own.system or "",
        w.heading(comes.bearing),
        w.angle(comes.down) if comes.down > -0.5 else f"{w.angle(comes.down)} below",
        lw.share(comes.share),
        lw.lux(comes.upright),
        lw.lux(comes.level),
        fader_words(each.even, law),
        dark_words(each, own.system, unit),
        fills,
    ]


def stood_in_for(place: Place) -> list[Contributor]:
    """Whose stand-ins are told: units aimed at a place; where none is, those with much of its light."""
    aimed = [each for each in place.light if each.comes.aimed]
    return aimed or [each for each in place.light if each.comes.share >= BRIGHT]


def _law_words(law: str) -> str:
    return f"Fader: evens its system, {LAW_WORDS[law]}."


def fader_words(even: float | None, law: str) -> str:
    """The level that evens a unit's system, by a law: "88 %", "full"; empty where it is in no balance."""
    if even is None:
        return ""
    level = fader(even, law)
    return "full" if level >= 0.995 else lw.share(level)


def dark_words(each: Contributor, system: str | None, unit: w.LengthUnit) -> str:
    """What of a unit's system (of all light where it has none) falls dark without it; empty: nothing does."""
    if isnan(each.comes.lux):
        return lw.NOT_KNOWN
    named = system or ALL
    return _gone([gone for gone in each.gone if gone.system == named], unit, named=False)


def _gone(gone: Iterable[Gone], unit: w.LengthUnit, *, named: bool = True) -> str:
    parts = (f"{lw.area(each.area, unit)}{f' of {each.system}' if named else ''}" for each in gone)
    return ", ".join(parts)


def fills_words(rig: SolidRig, fills: Sequence[Fill], most: int) -> str:
    """Who could fill in, best first: "ch 7 (5°, 99 lx, from area 2), ch 4 (9°, 87 lx, as it is)"."""
    return ", ".join(_fill(rig, fill) for fill in fills[:most]) or "nobody from nearly its way"


def _fill(rig: SolidRig, fill: Fill) -> str:
    """Channel, how far off its way, its lux, where from: "ch 7 (5°, 99 lx, from area 2)"."""
    unit = rig.units[fill.unit]
    colour = "" if fill.same_colour else f"{unit.colour or 'no colour'}, "
    start = f"from {unit.target or 'a point'}" if fill.turned else "as it is"
    name = lw.channel(rig, fill.unit) or rig.names[fill.unit]
    return f"{name} ({w.angle(fill.off)}, {colour}{lw.lux(fill.lux)}, {start})"


def _reach(rig: SolidRig, place: Place, width: int | None) -> list[str]:
    """Who could be turned to a dark place."""
    told = ", ".join(
        f"{lw.named(rig, fill.unit)} {lw.lux(fill.lux)} from {rig.units[fill.unit].target or 'a point'}"
        for fill in place.reach[:TOLD]
    )
    nobody = "nobody, by a turn of at most 30° within the acting area"
    return [folded(f"Could be turned there: {told or nobody}.", width)]


def _channel_unit(rig: SolidRig, each: ChannelUnit, law: str) -> list[str]:
    unit = rig.units[each.unit]
    return [
        rig.names[each.unit],
        unit.system or "",
        unit.colour or "",
        unit.target or "a point",
        fader_words(each.even, law),
        fills_words(rig, each.fills, TOLD),
    ]


def place_json(rig: SolidRig, place: Place, law: str) -> bytes:
    """A place as JSON: metres, degrees, lux; what is not known is null."""
    return json_bytes(
        {
            "place": place.name or None,
            "point": list(place.point),
            "faces": place.faces,
            "lux": place.lux,
            "law": law,
            "light": [_comes(rig, each, law) for each in place.light],
            "all_others_share": place.rest,
            "could_be_turned_there": [_fill_record(rig, fill) for fill in place.reach],
        }
    )


def channel_json(rig: SolidRig, found: Channel, law: str) -> bytes:
    """A channel as JSON: metres, degrees, lux; what is not known is null."""
    return json_bytes(
        {
            "channel": found.channel,
            "law": law,
            "units": [
                _named(rig, each.unit)
                | {
                    "target": rig.units[each.unit].target,
                    **_levels(each.even, law),
                    "could_fill_in": [_fill_record(rig, fill) for fill in each.fills],
                }
                for each in found.units
            ],
            "lights": [each._asdict() for each in found.areas],
            "dark_without": None if _unknown(rig, found) else [g._asdict() for g in found.gone],
        }
    )


def _comes(rig: SolidRig, each: Contributor, law: str) -> dict[str, Any]:
    comes = each.comes
    return _named(rig, comes.unit) | {
        "aimed": comes.aimed,
        "from": comes.bearing,
        "up": comes.down,
        "lux": comes.lux,
        "share": comes.share,
        "upright": comes.upright,
        "level": comes.level,
        **_levels(each.even, law),
        "dark_without": None if isnan(comes.lux) else [gone._asdict() for gone in each.gone],
        "could_fill_in": [_fill_record(rig, fill) for fill in each.fills],
    }


def _levels(even: float | None, law: str) -> dict[str, float | None]:
    return {"even_light": even, "fader": None if even is None else fader(even, law)}


def _named(rig: SolidRig, k: int) -> dict[str, Any]:
    unit = rig.units[k]
    return {
        "unit": rig.names[k],
        "channel": unit.channel,
        "system": unit.system,
        "colour": unit.colour,
    }


def _fill_record(rig: SolidRig, fill: Fill) -> dict[str, Any]:
    return _named(rig, fill.unit) | {
        "off": fill.off,
        "same_colour": fill.same_colour,
        "lux": fill.lux,
        "turned": fill.turned,
        "from_target": rig.units[fill.unit].target,
    }
