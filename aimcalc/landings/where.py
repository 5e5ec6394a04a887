"""Where a unit that hangs as plotted lands, set as somebody reads it back: by dial or tape, level or yoke.

What is not told is as printed: the dial and the down, in whole degrees; the yoke in place of the down where
the stem leans too far for a dial and a level. Of the two ways round that come to one down, the one nearer to
the unit's plotted aim is meant. With h as the clamp is turned, at turn p, and the yoke angle t (DESIGN, 6):

    down:  cos t h_z + sin t a_z = -sin(down)      sight:  f in the upright plane from the pivot to the mark

A miss is the angle at the lens between its axis and the face, held against what the unit may be off that way.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import cut, pose
from aimcalc.geometry.vectors import (
    Array,
    angles_between,
    dot,
    heading_degrees,
    to_degrees,
    to_radians,
    turned,
)
from aimcalc.landings.forward import FAR, LEANING
from aimcalc.landings.said import Said
from aimcalc.named import NamedTuple
from aimcalc.rig.places import WORDS, place
from aimcalc.rig.rig import allowed
from aimcalc.rig.wording import whole
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig

STEEP = np.sin(to_radians(15.0))  # of an axis that is caught on the level plane through the face
ALONG = 1e-9


class Where(NamedTuple):
    """Where unit `unit` lands: points and directions (3,), metres; angles in degrees, words as on paper.

    `past` (3,) is from the face to where the axis passes: on the level plane through it, or where `upright`
    on the upright plane square to its heading, or (NaN) nowhere. `miss` is its angle off the face at the
    lens, `may` what it may be off that way. `swing` (to `swing_to`) and `tip` (to `tip_to`) lead to its
    plotted aim; where the stem `leans` the tip is of its yoke.
    """

    unit: int
    lens: Array
    axis: Array
    heading: float
    down: float
    pan: float
    side: str
    yoke: float
    in_travel: bool
    past: Array
    upright: bool
    miss: float
    may: float
    swing: float
    swing_to: str
    tip: float
    tip_to: str
    leans: bool

    @property
    def will_do(self) -> bool:
        """Whether the face is as near to the axis as it must be."""
        return self.miss <= self.may


def where(rig: Rig, k: int, given: Said, sight_out: float) -> Where:
    """Where unit `k` lands, set so; `sight_out` is how far out its tape lies, metres (NaN: none).

    Raises Wrong where the unit cannot be set so.
    """
    if not np.isfinite(rig.aims.yoke[k]):
        raise Wrong("a unit that can point at its target", "See aimcalc check.")
    aims = cut(rig.aims, np.array([k]))
    leans = abs(float(rig.arrays.stem[2, k])) < LEANING
    if given.sight is not None:
        turn, yoke = _by_sight(rig, k, given, sight_out, leans)
    else:
        turn = _turn(rig, k, given.pan)
        yoke = _yoke_at(rig, k, turn, given, leans)
    held = aims.stem, aims.reference, np.array([turn]), np.array([yoke])
    axis, up = (v[:, 0] for v in pose(*held))
    arrays = rig.arrays
    lens = aims.pivot[:, 0] + arrays.nose[k] * axis + arrays.rise[k] * up
    return _told(rig, k, (turn, yoke, leans), (lens, axis))


def _turn(rig: Rig, k: int, pan: tuple[float, str] | None) -> float:
    """The turn at the clamp of a pan that was read, else of the one printed."""
    aims = cut(rig.aims, np.array([k]))
    if pan is None:
        return float(aims._replace(pan=to_radians(whole(to_degrees(aims.pan)))).turn[0])
    degrees_, side = pan
    plus = int(rig.words.swing[k])
    sides = WORDS[plus], WORDS[plus ^ 1]
    if side not in (*sides, ""):
        raise Wrong(f"the side that it swings to, {sides[0]} or {sides[1]}", came=side)
    if degrees_ and not side:
        raise Wrong(f"a pan with its side, {sides[0]} or {sides[1]}", came=f"{degrees_:g}")
    sign = np.array([1 if side == sides[0] else -1], dtype=np.int8)
    return float(aims._replace(pan=to_radians(np.array([degrees_])), swing_sign=sign).turn[0])


def _yoke_at(rig: Rig, k: int, turn: float, given: Said, leans: bool) -> float:
    """The yoke angle that was read, or that brings the lens to its down at this turn."""
    aims = rig.aims
    if given.yoke is not None:
        return to_radians(given.yoke)
    if leans and given.down is None:
        return float(to_radians(whole(to_degrees(aims.yoke[k : k + 1])))[0])
    down = _down_of(rig, k, given)
    stem, reference = aims.stem[:, [k]], aims.reference[:, [k]]
    h = turned(reference, stem, np.array([turn]))[:, 0]
    size = float(np.hypot(h[2], stem[2, 0]))
    if abs(np.sin(down)) > size + ALONG:
        most = float(to_degrees(np.arcsin(min(size, 1.0))))
        raise Wrong(
            f"a down that it comes to with its clamp turned so, at most {most:.0f} degrees",
            "Read its yoke instead.",
            came=f"{abs(to_degrees(down)):g}",
        )
    half = np.arccos(np.clip(-np.sin(down) / max(size, ALONG), -1.0, 1.0))
    yokes = np.arctan2(stem[2, 0], h[2]) + np.array([half, -half])
    ways = np.cos(yokes) * h[:, None] + np.sin(yokes) * stem
    nearer = int(np.argmax(dot(ways, np.repeat(aims.axis[:, [k]], 2, axis=1))))
    return float((yokes[nearer] + np.pi) % (2 * np.pi) - np.pi)


def _down_of(rig: Rig, k: int, given: Said) -> float:
    """The down that was read, else the one printed, radians."""
    if given.down is not None:
        return to_radians(given.down)
    return float(to_radians(whole(to_degrees(rig.aims.down[k : k + 1])))[0])


def _by_sight(rig: Rig, k: int, given: Said, sight_out: float, leans: bool) -> tuple[float, float]:
    """Turn and yoke of a unit sighted along its barrel to a mark on its tape."""
    position = rig.positions[k]
    if not (isinstance(position, Pipe) and np.isfinite(sight_out)):
        raise Wrong("a unit that has a sight tape", "Read its dial instead.")
    if given.yoke is not None and abs(rig.arrays.stem[2, k]) < 1 - ALONG:
        raise Wrong("a down beside a sight: its stem is not plumb", "Read a level on the barrel.")
    here, aims = place(position), rig.aims
    level = np.array([*here.along[:2], 0.0]) / np.hypot(*here.along[:2])
    square = np.array(here.square) * float(aims.square_sign[k])
    way = np.array(here.zero) + (given.sight or 0.0) * level + sight_out * square - aims.pivot[:, k]
    way = np.array([way[0], way[1], 0.0]) / np.hypot(way[0], way[1])
    stem, reference = aims.stem[:, k], aims.reference[:, k]
    if given.yoke is not None:
        yoke = to_radians(given.yoke)
        h = way * (-1.0 if np.cos(yoke) < 0 else 1.0)
    else:
        down = _down_of(rig, k, given)
        axis = way * np.cos(down) - np.array([0.0, 0.0, np.sin(down)])
        sine = float(axis @ stem)
        cosine = np.copysign(np.sqrt(max(1 - sine**2, ALONG**2)), np.cos(aims.yoke[k]))
        h, yoke = (axis - sine * stem) / cosine, float(np.arctan2(sine, cosine))
    return float(np.arctan2(np.cross(stem, reference) @ h, reference @ h)), yoke


def _told(rig: Rig, k: int, held: tuple[float, float, bool], ray: tuple[Array, Array]) -> Where:
    """How far off the face the ray passes, and what leads to the plotted aim."""
    (turn, yoke, leans), (lens, axis), aims = held, ray, rig.aims
    face = rig.arrays.point[:, k]
    way = (face - lens) / np.sqrt((face - lens) @ (face - lens))
    miss = float(angles_between(axis[:, None], way[:, None])[0])
    may = float(allowed(rig, np.array([k]), (axis - way)[:, None])[0])
    past, upright = _past(lens, axis, face)
    plotted = cut(aims, np.array([k]))
    apart = _wrapped(float(plotted.turn[0]) - turn) * float(aims.square_sign[k])
    swung = float(aims.swing_sign[k] * aims.pan[k])
    now = _wrapped(swung - apart)
    plus = int(rig.words.swing[k])
    down = float(np.arcsin(np.clip(-axis[2], -1.0, 1.0)))
    tip = float(aims.yoke[k]) - yoke if leans else float(aims.down[k]) - down
    tip = _wrapped(tip)
    to = ("away from the clamp", "towards the clamp") if leans else ("DOWN", "UP")
    free = bool(np.isinf(aims.pan_tolerance[k]))
    return Where(
        unit=k,
        lens=lens,
        axis=axis,
        heading=float(heading_degrees(np.arctan2(axis[0], axis[1]))),
        down=to_degrees(down),
        pan=abs(to_degrees(now)),
        side=_side_of(now, plus),
        yoke=to_degrees(yoke),
        in_travel=bool(rig.arrays.yoke_min[k] - ALONG <= yoke <= rig.arrays.yoke_max[k] + ALONG),
        past=past,
        upright=upright,
        miss=to_degrees(miss),
        may=to_degrees(may),
        swing=0.0 if free else abs(to_degrees(apart)),
        swing_to=_side_of(apart, plus),
        tip=abs(to_degrees(tip)),
        tip_to=to[0] if tip >= 0 else to[1],
        leans=leans,
    )


def _side_of(turn: float, plus: int) -> str:
    return "" if turn == 0 else WORDS[plus if turn > 0 else plus ^ 1]


def _wrapped(angle: float) -> float:
    return float((angle + np.pi) % (2 * np.pi) - np.pi)


def _past(lens: Array, axis: Array, face: Array) -> tuple[Array, bool]:
    """From the face to where the axis passes it, on a level plane or, of a flat one, on an upright plane."""
    upright = bool(abs(axis[2]) < STEEP)
    normal = np.array([axis[0], axis[1], 0.0]) if upright else np.array([0.0, 0.0, 1.0])
    reach = float((face - lens) @ normal / (axis @ normal))
    if not 0 < reach < FAR:
        return np.full(3, np.nan), upright
    return lens + reach * axis - face, upright
