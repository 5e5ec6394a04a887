"""What is told about each unit: the records behind `aimcalc solve --json` and every sheet.

Angles are degrees, lengths metres, points ``(x, y, z)``; a thing that does not exist is None. The field
names are the public JSON keys: changing one breaks other people's programs.
"""

from __future__ import annotations

from typing import Any

import msgspec
import numpy as np

from aimcalc.geometry.aim import ROUNDING, Aims, Flags, Indices, Mounted, Signs
from aimcalc.geometry.pools import Pools, per_degree
from aimcalc.geometry.vectors import Array, heading_degrees, to_degrees
from aimcalc.rig.arrays import Words
from aimcalc.rig.places import WORDS
from aimcalc.rig.rig import Tolerances
from aimcalc.scene.model import Point, Unit
from aimcalc.solid.meets import Meets
from aimcalc.solid.tapes import Tapes

NOTHING = 1e-12  # metres or degrees: a picometre is no length on a stage
ATTITUDES = ("upright", "on its side", "upside down", "plumb")


class Pool(msgspec.Struct, frozen=True):
    """The field cone cut by one level plane. `near` and `far` run from the point under the lens."""

    closed: bool
    length: float | None
    width: float | None
    centre: Point | None
    near: float
    far: float | None
    area: float | None


class Loss(msgspec.Struct, frozen=True):
    """What one solid takes of a unit's light: `share` of the field, at the mean `height` above z = 0."""

    name: str
    share: float
    height: float


class Stop(msgspec.Struct, frozen=True):
    """The first surface that an axis meets: a solid's name or "deck", where, how high above the deck."""

    name: str
    point: Point
    height: float


class FurtherAim(msgspec.Struct, frozen=True):
    """One unit's aim at a further trim of its pipe (`name` is the act) or spot of its target ("spot 2")."""

    name: str
    clamp: Point
    pivot: Point
    lens: Point | None
    face: Point
    stand: Point | None
    heading: float | None
    down: float | None
    square: str | None
    pan: float | None
    swing: str | None
    yoke: float | None
    roll: float | None
    attitude: str | None
    throw: float | None
    beam_diameter: float | None
    field_diameter: float | None
    lands: Point | None
    meets: Stop | None
    past_stand: float | None
    sight: float | None
    sight_out: float | None


def further_aim(name: str, answer: Answer) -> FurtherAim:
    """What is told of a unit at a further trim or spot: of all that is told there, its aim."""
    kept = FurtherAim.__struct_fields__[1:]
    return FurtherAim(name, **{key: getattr(answer, key) for key in kept})


class Answer(msgspec.Struct, frozen=True):
    """One unit, solved. `blocked` and `blocked_by` are None until solids are asked for."""

    unit: str
    position: str
    number: str
    kind: str
    target: str | None
    mount: str
    clamp: Point
    pivot: Point
    lens: Point | None
    face: Point
    stand: Point | None
    heading: float | None
    down: float | None  # below level; negative is above level (paper says UP)
    square: str | None  # US, DS, SL or SR
    pan: float | None  # 0 to 90
    swing: str | None  # SL or SR; US or DS; UP or DOWN for a `direct` mount
    yoke: float | None
    roll: float | None  # 0 to 180
    attitude: str | None  # upright, on its side, upside down, plumb
    throw: float | None
    beam_diameter: float | None
    field_diameter: float | None
    lands: Point | None
    meets: Stop | None
    past_stand: float | None
    face_pool: Pool | None
    deck_pool: Pool | None
    sight: float | None  # along the tape from the zero mark, + as `at`
    sight_out: float | None  # how far the tape lies from the pipe, on the square side
    down_tolerance: float
    pan_tolerance: float | None  # at the clamp's own dial, as `pan`
    per_degree_pan: float | None  # the larger move of the two senses, on the level face plane
    per_degree_down: float | None
    blocked: float | None
    blocked_by: tuple[Loss, ...] | None = None  # the largest share first
    chord: str | None = None  # of its truss
    edge: str | None = None  # as the user wrote it: soft or sharp
    note: str | None = None
    further: tuple[FurtherAim, ...] | None = (
        None  # at its pipe's further trims, its target's further spots
    )


class Finding(msgspec.Struct, frozen=True):
    """Something to know before the crew touches the rig."""

    severity: str  # stop, warn, note
    rule: str
    says: str
    do: str
    unit: str | None = None
    position: str | None = None
    row: str | None = None  # of the hang list, where that is what it is about: "hang.xlsx row 14"


def answers_of(
    units: tuple[Unit, ...],
    mounted: Mounted,
    words: Words,
    aims: Aims,
    meets: Meets,
    tolerances: Tolerances,
    tapes: Tapes,
    pools: tuple[Pools, Pools],
) -> list[Answer]:
    """The records of N units from their arrays; `pools` at the face and on the deck."""
    free = (aims.pan == 0) & np.isinf(aims.pan_tolerance)  # straight along the stem: any pan
    plumb = np.abs(aims.axis[2]) >= 1 - 1e-15  # straight down or up: no heading
    lost = np.isnan(aims.yoke)
    moved_by_pan, moved_by_down = per_degree(mounted, aims)
    columns: dict[str, list[Any]] = {
        "clamp": _points(mounted.clamp),
        "pivot": _points(aims.pivot),
        "lens": _points(aims.lens),
        "face": _points(mounted.point),
        "stand": _points(mounted.stand),
        "heading": _numbers(np.where(plumb, np.nan, heading_degrees(aims.heading))),
        "down": _numbers(to_degrees(aims.down)),
        "square": _words(words.square, aims.square_sign, lost),
        "pan": _numbers(np.where(free | lost, np.nan, to_degrees(aims.pan))),
        "swing": _words(words.swing, aims.swing_sign, lost | (aims.pan < ROUNDING)),
        "yoke": _numbers(_half_open(to_degrees(aims.yoke))),
        "roll": _numbers(to_degrees(aims.roll)),
        "attitude": [
            None if gone else ATTITUDES[code]
            for code, gone in zip(aims.attitude.tolist(), lost.tolist(), strict=True)
        ],
        "throw": _numbers(aims.throw),
        "beam_diameter": _numbers(aims.beam_diameter),
        "field_diameter": _numbers(aims.field_diameter),
        "lands": _points(aims.lands),
        "meets": _stops(meets),
        "past_stand": _numbers(aims.past_stand),
        "face_pool": _pools(pools[0]),
        "deck_pool": _pools(pools[1]),
        "sight": _numbers(tapes.sight),
        "sight_out": _numbers(np.where(np.isnan(tapes.sight), np.nan, tapes.out)),
        "down_tolerance": _numbers(to_degrees(tolerances.down)),
        "pan_tolerance": _numbers(to_degrees(tolerances.pan)),
        "per_degree_pan": _numbers(moved_by_pan),
        "per_degree_down": _numbers(moved_by_down),
    }
    rows = zip(*columns.values(), strict=True)
    return [
        Answer(
            unit=f"{unit.position}/{unit.number}",
            position=unit.position,
            number=unit.number,
            kind=unit.kind,
            target=unit.target,
            mount=unit.mount,
            blocked=None,
            chord=unit.chord,
            edge=unit.edge,
            note=unit.note,
            **dict(zip(columns, row, strict=True)),
        )
        for unit, row in zip(units, rows, strict=True)
    ]


def _numbers(values: Array) -> list[float | None]:
    """Python numbers, None for what does not exist; no minus zero."""
    there = np.isfinite(values).tolist()
    return [v if ok else None for v, ok in zip(_clean(values).tolist(), there, strict=True)]


def _points(values: Array) -> list[Point | None]:
    there: list[bool] = np.all(np.isfinite(values), axis=0).tolist()
    rows = _clean(values).T.tolist()
    return [(p[0], p[1], p[2]) if ok else None for p, ok in zip(rows, there, strict=True)]


def _stops(meets: Meets) -> list[Stop | None]:
    rows = zip(meets.surface.tolist(), _points(meets.point), _numbers(meets.height), strict=True)
    return [
        None if point is None or height is None else Stop(meets.names[k], point, height)
        for k, point, height in rows
    ]


def _clean(values: Array) -> Array:
    """The values, 0 for what is nothing but the rounding of a sum; no minus zero."""
    return np.where(np.abs(values) < NOTHING, 0.0, values) + 0.0


def _words(plus: Indices, sign: Signs, lost: Flags) -> list[str | None]:
    """Stage words for signed directions; None where the sign is 0 or no aim exists."""
    codes = np.where(sign < 0, plus ^ 1, plus).tolist()
    gone = ((sign == 0) | lost).tolist()
    return [None if no else WORDS[code] for code, no in zip(codes, gone, strict=True)]


def _half_open(angle: Array) -> Array:
    """Angles in (-180, 180]."""
    return np.where(angle <= -180.0, 180.0, angle)


def _pools(pools: Pools) -> list[Pool | None]:
    numbers = [_numbers(c) for c in (pools.length, pools.width)]
    centre, edges = _points(pools.centre), [_numbers(c) for c in (pools.near, pools.far)]
    closed, area = pools.closed.tolist(), _numbers(pools.area)
    rows = zip(closed, *numbers, centre, *edges, area, strict=True)
    return [None if row[4] is None else Pool(*row) for row in rows]
