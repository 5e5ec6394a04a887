"""What is told about each unit: the records behind `aimcalc solve --json` and every sheet.

Angles are degrees, lengths metres, points ``(x, y, z)``; a thing that does not exist is None. The field
names are the public JSON keys: changing one breaks other people's programs.
"""

from __future__ import annotations

import msgspec

from aimcalc.scene.model import Point


class Pool(msgspec.Struct, frozen=True):
    """The field cone cut by one level plane. `near` and `far` run from the point under the lens."""

    closed: bool
    length: float | None
    width: float | None
    centre: Point | None
    near: float
    far: float | None
    area: float | None


class Answer(msgspec.Struct, frozen=True):
    """One unit, solved."""

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
    past_stand: float | None
    face_pool: Pool | None
    deck_pool: Pool | None
    sight: float | None  # along the tape from the zero mark, + as `at`
    down_tolerance: float
    pan_tolerance: float | None
    per_degree_pan: float | None
    per_degree_down: float | None
    blocked: float | None


class Finding(msgspec.Struct, frozen=True):
    """Something to know before the crew touches the rig."""

    severity: str  # stop, warn, note
    rule: str
    says: str
    do: str
    unit: str | None = None
    position: str | None = None
