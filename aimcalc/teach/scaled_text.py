"""The practice pipe in words, for a terminal and for its sheet; and the same as JSON."""

from __future__ import annotations

from typing import Any

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.rig.wording import joined, listed
from aimcalc.teach.scaled import ON_FLOOR, Floor, Scaled, floor_of
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.lists import json_bytes
from aimcalc.text.rows import along, rows_of, zero_mark

UNITS = ("unit", "mark on pipe", "PAN", "tip", "plumb", "tape", "spot", "throw")
SPOTS = ("spot", "along the pipe", "out from under it", "height", "units")
MIN_TOLD = 0.0025  # m, what is less is no difference that a tape shows
CHECK = {
    "m": 0.01,
    "ft": 0.0127,
}  # m: a mark set wrong by this is told as what it would be on stage


def scaled_text(practice: Scaled, unit: w.LengthUnit, width: int | None = None) -> str:
    """The practice pipe: the units' marks and figures, the spots, how to lay it out, what cannot be kept."""
    blocks = [
        [headline(practice, unit)],
        ["UNITS", *table(UNITS, unit_rows(practice, unit), width)],
        ["SPOTS", *table(SPOTS, spot_rows(practice, unit), width)],
        ["LAY IT OUT", *(f"  {k}. {line}" for k, line in enumerate(layout(practice, unit), 1))],
        ["WHAT CANNOT BE KEPT", *(f"  {line}" for line in lost(practice, unit))],
    ]
    return folded("\n\n".join("\n".join(block) for block in blocks), width)


def headline(practice: Scaled, unit: w.LengthUnit) -> str:
    """What it is, and the scale."""
    height = w.length(practice.height, unit, w.HANG)
    return f"{practice.position} on a practice pipe {height} high, scale {practice.scale:.3f}"


def unit_rows(practice: Scaled, unit: w.LengthUnit) -> list[tuple[str, ...]]:
    """A row a unit: its mark, the figures of its own sheet, its spot."""
    rig = practice.show.rig
    rows, pipe = rows_of(rig, (), unit), practice.show.scene.pipes[0]
    told: list[tuple[str, ...]] = []
    for row, answer in zip(rows, rig.answers, strict=True):
        at = rig.units[row.k].at or 0.0
        sight = answer.sight
        tape = row.sight if sight is None else w.mark(sight, along(pipe), "AT ZERO", unit, w.HANG)
        turn = f"dial {row.turn}" if row.counted.dial else row.turn
        told.append(
            (
                row.number,
                w.mark(at, along(pipe), zero_mark(pipe), unit, w.HANG),
                f"{turn} {row.counted.side_words}".strip(),
                f"{row.tip.word} {row.tip.angle}".strip(),
                row.tip.plumb,
                tape,
                answer.target or "",
                w.length(answer.throw or 0.0, unit, w.SIZE),
            )
        )
    return told


def spot_rows(practice: Scaled, unit: w.LengthUnit) -> list[tuple[str, ...]]:
    """A row a spot: where two tapes find it, how high, and for which units."""
    told: list[tuple[str, ...]] = []
    for name, units in spots(practice).items():
        spot = floor_of(practice, practice.show.rig.arrays.point[:, units[0]])
        numbers = ", ".join(practice.show.rig.units[k].number for k in units)
        told.append((name, *floor_words(spot, unit), numbers))
    return told


def spots(practice: Scaled) -> dict[str, list[int]]:
    """The units of each spot, by its name."""
    found: dict[str, list[int]] = {}
    for k, each in enumerate(practice.show.rig.units):
        found.setdefault(each.target or "", []).append(k)
    return found


def floor_words(spot: Floor, unit: w.LengthUnit) -> tuple[str, str, str]:
    """ "0.49 m SL", "2.10 m US", "0.52 m up"."""
    along_, out = (w.length(far, unit, w.HANG) for far in (spot.along, spot.out))
    up = "on the floor" if spot.up <= ON_FLOOR else f"{w.length(spot.up, unit, w.HANG)} up"
    first = f"{along_} {spot.along_side}" if w.rounded(spot.along, unit, w.HANG) else "at zero"
    second = f"{out} {spot.out_side}" if w.rounded(spot.out, unit, w.HANG) else "under the pipe"
    return first, second, up


def layout(practice: Scaled, unit: w.LengthUnit) -> list[str]:
    """What is done in the room, in its order."""
    rig = practice.show.rig
    pipe = practice.show.scene.pipes[0]
    ends = [floor_of(practice, np.array([*end[:2], 0.0])) for end in (pipe.start, pipe.end)]
    reach = " to ".join(floor_words(end, unit)[0] for end in ends)
    outs = sorted(
        {(float(rig.tapes.out[k]), a.square) for k, a in enumerate(rig.answers) if a.sight}
    )
    told = [
        "Pan, down, heading and yoke are those of the stage; marks, spots and tape are not.",
        "A qualified person puts up the pipe, level, at its height, and says what it may carry.",
        "Lay a tape along the floor straight under it, its 0 under the zero mark; the pipe goes from "
        f"{reach}.",
    ]
    for out, side in outs:
        told.append(
            f"Lay the sight tape {w.length(out, unit, w.HANG)} {side} of it, along it, its 0 square "
            "off the first tape's 0."
        )
    told += [
        "Put down each spot by its two distances; one that is up goes on a stick or a stand at that height.",
        "Hang, lock, safety cable, sign. Set each unit by its figures. Then light it: the centre of its "
        "light is on the spot.",
        "Lenses are hot and bright at head height: no paper, cloth, hair or eyes near them; keep the "
        "distance on each unit's label.",
    ]
    if len(practice.rounds) > 1:
        groups = "; ".join(
            joined([rig.units[k].number for k in group]) for group in practice.rounds
        )
        told.append(f"They have no room side by side: hang them in rounds: {groups}.")
    return told


def lost(practice: Scaled, unit: w.LengthUnit) -> list[str]:
    """What a smaller scale cannot keep, and by how much."""
    rig, scale = practice.show.rig, practice.scale
    stage = practice.stage.rig
    rows = np.array(practice.rows)
    told: list[str] = []

    def far(sizes: Array) -> str:
        return w.length(float(np.abs(sizes).max()), unit, w.HANG)

    nose = (1 - scale) * stage.arrays.nose[rows]
    short = scale * stage.aims.throw[rows] - rig.aims.throw
    widths = rig.aims.field_diameter - scale * stage.aims.field_diameter[rows]
    if np.abs(nose).max() > MIN_TOLD:
        told.append(
            f"A nose is as long as ever: throws are up to {far(short)} less than to scale, pools up to "
            f"{far(widths)} smaller."
        )
    drops = f"The drop is as long as ever; for {w.length(practice.drop, unit, w.HANG)} the floor is the deck."
    told.append(drops)
    for k in np.flatnonzero(np.abs(practice.lowered) > MIN_TOLD).tolist():
        if not practice.nearer[k]:
            way = "higher" if practice.lowered[k] > 0 else "lower"
            told.append(
                f"Unit {rig.units[k].number}: its spot is {far(practice.lowered[k])} {way} than to scale "
                "(its drop or stem)."
            )
    under = [rig.units[k].number for k, near in enumerate(practice.nearer) if near]
    if under:
        told.append(
            f"Unit {listed(under)}: the spot would lie under the floor; it is where the light meets that."
        )
    gaps = np.diff(np.sort(np.array([each.at or 0.0 for each in rig.units])))
    if len(practice.rounds) > 1:
        near = w.length(float(gaps.min()), unit, w.HANG)
        told.append(
            f"Marks are closer: down to {near}, less than bodies and hands need. Hang in rounds."
        )
    worth = w.length(CHECK[unit] / scale, unit, w.HANG)
    told.append(
        f"A mark or spot that is {w.length(CHECK[unit], unit, w.HANG)} out here is worth {worth} on stage."
    )
    told.append(
        "Borders, platforms and all else of the stage are not there; nothing here is about its load."
    )
    return told


def scaled_json(practice: Scaled) -> bytes:
    """The same in metres and degrees."""
    rig = practice.show.rig
    units: list[dict[str, Any]] = []
    for k, answer in enumerate(rig.answers):
        spot = floor_of(practice, rig.arrays.point[:, k])
        units.append(
            {
                "unit": answer.unit,
                "at": rig.units[k].at,
                "square": answer.square,
                "pan": answer.pan,
                "swing": answer.swing,
                "heading": answer.heading,
                "down": answer.down,
                "yoke": answer.yoke,
                "attitude": answer.attitude,
                "sight": answer.sight,
                "sight_out": answer.sight_out,
                "throw": answer.throw,
                "field_diameter": answer.field_diameter,
                "spot": answer.target,
                "spot_at": {
                    "along": spot.along,
                    "along_side": spot.along_side,
                    "out": spot.out,
                    "out_side": spot.out_side,
                    "up": spot.up,
                },
                "spot_off_scale": float(practice.lowered[k]),
                "on_floor_instead": practice.nearer[k],
            }
        )
    return json_bytes(
        {
            "position": practice.position,
            "height": practice.height,
            "scale": practice.scale,
            "drop": practice.drop,
            "units": units,
            "rounds": [[rig.units[k].number for k in group] for group in practice.rounds],
            "cannot_be_kept": lost(practice, "m"),
        }
    )
