"""What is told about the light: the records behind `aimcalc cover --json`.

Lengths are metres, areas square metres, light lux, angles degrees. The field names of systems, gaps, help and
points are public JSON keys: changing one breaks other people's programs.
"""

from __future__ import annotations

import msgspec

from aimcalc.solid.answers import Finding

Point = tuple[float, float, float]


class Help(msgspec.Struct, frozen=True):
    """One unit that could help with a hole, as it would be set: `point` is its new face point.

    `gain` is the area of that hole that it closes, `uncovers` what it opens in any system of the unit,
    dark staying the lux it was before.
    """

    unit: str
    point: Point
    heading: float  # 0 up to 360
    down: float  # below level
    gain: float
    uncovers: float


class Hole(msgspec.Struct, frozen=True):
    """A connected part of the area below the threshold; `least` is the light where it is darkest."""

    centre: tuple[float, float]
    area: float
    least: float
    help: list[Help]  # best first: by gain less what it uncovers


class System(msgspec.Struct, frozen=True):
    """One system on the level plane at face height, "all" for every unit together.

    `plane_z` is the height of that plane above whatever is stood on: on a level stage its z. `spacing`
    is the larger distance between the points of the one grid of figures and holes. Figures are None where
    the light is not known, or the area has no point to stand on.
    """

    system: str
    plane_z: float
    spacing: float
    mean: float | None
    least: float | None
    most: float | None
    u0: float | None
    share_above_half: float | None
    gaps: list[Hole]


class PointReading(msgspec.Struct, frozen=True):
    """One system's light at a point asked for; None where it is not known."""

    x: float
    y: float
    z: float
    system: str
    level: float | None
    house: float | None
    cylindrical: float | None


class Move(msgspec.Struct, frozen=True):
    """One unit of a set of re-aims."""

    unit: str
    point: Point
    heading: float
    down: float


class Reaim(msgspec.Struct, frozen=True):
    """The smallest set of re-aims found for a system.

    `closed`: no hole is left that can be closed. `at_least`: fewer moves are proved not to do, among the
    aims tried; `proved`: no smaller set does, or no set does at all. `left` is the area of holes after
    it, `out_of_reach` the area that would be dark with every unit of the system pointed straight at it.
    """

    system: str
    moves: list[Move]
    closed: bool
    proved: bool
    at_least: int
    left: float
    out_of_reach: float


class Reading(msgspec.Struct, frozen=True):
    """What a target reads, lux on a card square to each unit: at full, and once balanced."""

    target: str
    at_full: float
    balanced: float


class Level(msgspec.Struct, frozen=True):
    """The level of one unit, 1 = full."""

    unit: str
    channel: str | None
    level: float


class Balance(msgspec.Struct, frozen=True):
    """Levels at which the targets of a system read alike, as far as they can (`alike`)."""

    system: str
    spread_at_full: float  # most over least
    spread: float
    alike: bool
    targets: list[Reading]
    units: list[Level]


class Cover(msgspec.Struct, frozen=True, omit_defaults=True):
    """The whole answer. `points` is there where points were asked for."""

    scene: str
    unit_of_length: str
    systems: list[System]
    reaims: list[Reaim]
    balance: list[Balance]
    findings: list[Finding]
    points: list[PointReading] | None = None
