"""Where a unit as set will land, in a few lines; and the same as JSON."""

from __future__ import annotations

from math import hypot, isnan
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.text import words as w
from aimcalc.text.columns import folded
from aimcalc.text.lists import json_bytes

if TYPE_CHECKING:
    from aimcalc.landings.where import Where
    from aimcalc.solid.meets import Meets
    from aimcalc.solid.rig import SolidRig

LEAST = 0.5  # degrees: less than that nobody turns
SMALL = 0.01  # m


def where_text(rig: SolidRig, found: Where, unit: w.LengthUnit, width: int | None = None) -> str:
    """Where it lands, by how much it misses, whether that will do, what to change."""
    name = rig.names[found.unit]
    lines = [
        f"{name}: {_set(rig, found)}.",
        f"Lands {_lands(rig, found, unit)}.",
        f"Passes {_past(found, unit)}: {_degrees(found.miss)} off at the lens, "
        f"may be {_degrees(found.may)}.",
        _verdict(found),
    ]
    if not found.in_travel:
        lines.append("Its yoke does not turn that far (yoke_range).")
    return "\n".join(folded(line, width) for line in lines)


def _degrees(angle: float) -> str:
    """A miss as people tell it: "0.4°", "12°"."""
    return f"{angle:.1f}°" if angle < 9.95 else f"{angle:.0f}°"


def _set(rig: SolidRig, found: Where) -> str:
    """How it is set: "dial SL 22°, DOWN 47°, true heading 22° SL of US"."""
    turn = w.turn(found.pan, found.side or None)
    tip = w.tip(found.down)
    dial = "clamp" if rig.units[found.unit].mount == "direct" else "dial"
    told = [
        f"{dial} {turn}",
        f"{tip.word} {tip.angle}".strip(),
        f"true heading {w.heading(found.heading)}",
    ]
    if found.leans:
        way = "away from" if found.yoke >= 0 else "towards"
        told.append(f"yoke {w.angle(found.yoke)} {way} the clamp")
    return ", ".join(told)


def _lands(rig: SolidRig, found: Where, unit: w.LengthUnit) -> str:
    """What the light meets, and where: "on deck at 1.20 m SR, 4.30 m US"."""
    met = _met(rig, found)
    if met.surface[0] < 0:
        return "nowhere in the scene: its light goes past all of it"
    x, y, _ = met.point[:, 0].tolist()
    place = w.place(x, y, unit)
    on = met.names[int(met.surface[0])]
    up = float(met.height[0])
    height = f", {w.length(up, unit, w.SIZE)} up" if abs(up) > SMALL else ""
    return f"on {on} at {place}{height}"


def _met(rig: SolidRig, found: Where) -> Meets:
    return rig.meets_along(found.lens[:, None], found.axis[:, None])


def _past(found: Where, unit: w.LengthUnit) -> str:
    """How the axis passes the face: "0.42 m US and 0.10 m SL of its face, at face height"."""
    if isnan(found.past[0]):
        return "nowhere near its face"
    x, y, z = found.past.tolist()
    parts = [
        f"{w.length(size, unit, w.SIZE)} {words[size < 0]}"
        for size, words in ((y, ("US", "DS")), (x, ("SL", "SR")), (z, ("over", "under")))
        if abs(size) >= SMALL
    ]
    if not parts:
        return "through its face"
    return (
        f"{' and '.join(parts)} of its face"
        if found.upright
        else (f"{' and '.join(parts)} of its face, at face height")
    )


def _verdict(found: Where) -> str:
    """Whether that will do, and what leads to the plotted aim."""
    change = changes(found)
    if found.will_do and not change:
        return "That will do."
    if found.will_do:
        return f"That will do; dead on, {change}."
    return f"That will not do: {change or 'aim it anew'}."


def changes(found: Where) -> str:
    """What leads from how a unit is set to its plotted aim: "swing 3° SL and tip 5° DOWN"."""
    parts = []
    if found.swing >= LEAST:
        parts.append(f"swing {w.angle(found.swing)} {found.swing_to}")
    if found.tip >= LEAST:
        verb = "turn the yoke" if found.leans else "tip"
        parts.append(f"{verb} {w.angle(found.tip)} {found.tip_to}")
    return " and ".join(parts)


def where_json(rig: SolidRig, found: Where) -> bytes:
    """The same in metres and degrees; what does not exist is null."""
    met = _met(rig, found)
    there = met.surface[0] >= 0
    past: Any = None if np.isnan(found.past).any() else found.past.tolist()
    return json_bytes(
        {
            "unit": rig.names[found.unit],
            "set": {
                "pan": found.pan,
                "swing": found.side or None,
                "heading": found.heading,
                "down": found.down,
                "yoke": found.yoke,
                "in_travel": found.in_travel,
            },
            "lens": found.lens.tolist(),
            "meets": {
                "name": met.names[int(met.surface[0])],
                "point": met.point[:, 0].tolist(),
                "height": float(met.height[0]),
            }
            if there
            else None,
            "past_face": past,
            "miss": None if past is None else hypot(*past),
            "miss_angle": found.miss,
            "may_be": found.may,
            "will_do": found.will_do,
            "change": {
                "swing": found.swing,
                "swing_to": found.swing_to or None,
                ("yoke" if found.leans else "tip"): found.tip,
                ("yoke_to" if found.leans else "tip_to"): found.tip_to,
            },
        }
    )
