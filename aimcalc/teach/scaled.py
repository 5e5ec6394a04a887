"""A low practice pipe with the angles of a pipe at trim: marks, floor spots and tape to a smaller scale.

Everything on plan is shortened by one number k, pipe and spots alike; the drop is not, since it is the same
unit. So triangles are similar about the pivot: with pivot P, lens L, light f and the way s along it from the
foot of the pivot to the face, the practice spot is

    P' + (L - P) + (k s - nose) f        P' = the practice clamp + the unit's own drop, along its own stem

which is hit at the same pan, heading, down and yoke. k is chosen so that for the usual drop the stage's deck
comes to lie on the practice floor: k = (height - drop) / (trim - drop).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.rig.arrays import FOOT, in_feet
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Scene, Stage, Target, Unit
from aimcalc.show import Show

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


LEAST_THROW = 0.3  # m from a lens to its spot: nearer, a head would be in the way (our choice)
LEAST_SCALE = 0.05
ROOM = 0.10  # m between two bodies, for the hands (our choice)
ON_FLOOR = 0.005  # m: a spot no higher is a mark on the floor
SAME = 1e-6  # m


class Scaled(NamedTuple):
    """A practice pipe: its own show, and how it stands to the stage.

    `scale` is k; `drop` the drop that the deck is kept for; `rows` the K stage units in the practice show's
    order. `lowered` (K,) metres: how far each spot lies above where k alone would put it (below: negative).
    `nearer` marks spots that would lie under the floor and are moved up along the light. `rounds` are groups
    of practice units that have room beside each other.
    """

    show: Show
    stage: Show
    position: str
    height: float
    scale: float
    drop: float
    rows: tuple[int, ...]
    lowered: Array
    nearer: tuple[bool, ...]
    rounds: tuple[tuple[int, ...], ...]


def scaled(show: Show, position: str, height: float) -> Scaled:
    """The practice pipe for a pipe of a show, hung `height` metres over a level floor, at its zero mark.

    Raises Wrong for what is no straight pipe, has no units that can be aimed, or a height that will not do.
    """
    rig, pipe = show.rig, show.scene.positions[position]
    rows = [k for k in rig.rows[position] if np.isfinite(rig.aims.throw[k])]
    if not isinstance(pipe, Pipe) or pipe.through is not None:
        raise Wrong("a straight pipe or truss", "Practise booms and curved pipes at full size.")
    if not rows:
        raise Wrong("a pipe with units that have an aim", "See aimcalc check.")
    zero = np.array(place(pipe).zero)
    drop = Counter(round(float(rig.arrays.drop[k]), 6) for k in rows).most_common(1)[0][0]
    trim = float(zero[2])
    if not drop < height < trim:
        raise Wrong(
            f"a height between the drop, {drop:.2f} m, and the trim, {trim:.2f} m",
            came=f"{height:.2f} m",
        )
    scale = (height - drop) / (trim - drop)
    scene, lowered, nearer = _practice(rig, pipe, zero, rows, height, scale)
    practice = Show(scene)
    short = float(np.nanmin(practice.rig.aims.throw, initial=np.inf))
    if scale < LEAST_SCALE or not short >= LEAST_THROW:
        raise Wrong(
            f"a height that leaves {LEAST_THROW:g} m from each lens to its spot",
            "Hang the practice pipe higher.",
            came=f"{height:.2f} m",
        )
    order = [rows[j] for j in _order(rig, rows, practice.rig)]
    back = [rows.index(k) for k in order]
    return Scaled(
        show=practice,
        stage=show,
        position=position,
        height=height,
        scale=scale,
        drop=drop,
        rows=tuple(order),
        lowered=lowered[back],
        nearer=tuple(nearer[j] for j in back),
        rounds=tuple(_rounds(practice.rig)),
    )


def _order(rig: SolidRig, rows: Sequence[int], practice: SolidRig) -> list[int]:
    """Which of the stage rows each practice unit is."""
    known: dict[tuple[str, str], list[int]] = {}
    for j, k in enumerate(rows):
        known.setdefault((rig.units[k].number, rig.units[k].source), []).append(j)
    return [known[unit.number, unit.source].pop(0) for unit in practice.units]


def _practice(
    rig: SolidRig, pipe: Pipe, zero: Array, rows: Sequence[int], height: float, scale: float
) -> tuple[Scene, Array, list[bool]]:
    """The practice scene, the plan's zero under the pipe's zero mark; as `Scaled`: lowered, nearer."""
    foot = np.array([0.0, 0.0, height])
    start, end = (foot + scale * (np.array(point) - zero) for point in (pipe.start, pipe.end))
    targets: dict[str, Target] = {}
    units, lowered, nearer = [], [], []
    for k in rows:
        spot, extra, moved = _spot(rig, k, zero, foot, scale)
        target = _named(targets, rig.units[k], spot)
        targets[target.name] = target
        units.append(_moved(rig.units[k], scale, target.name))
        lowered.append(extra)
        nearer.append(moved)
    settings = msgspec.structs.replace(
        rig.scene.settings,
        title=f"{rig.scene.settings.title}: practice pipe",
        sight_out=_tape(rig, rows, scale),
        corrections=None,
        hang=None,
    )
    low = Pipe(
        name=pipe.name,
        start=_point(start),
        end=_point(end),
        zero=pipe.zero,
        zero_off=0.0 if pipe.zero == "centre line" else scale * pipe.zero_off,
        clamp_opens=pipe.clamp_opens,
    )
    scene = Scene(
        settings=settings,
        stage=Stage(),
        pipes=(low,),
        booms=(),
        stands=(),
        targets=tuple(targets.values()),
        kinds=rig.scene.kinds,
        units=tuple(units),
        errors=rig.scene.errors,
        folder=rig.scene.folder,
        file=rig.scene.file,
        what_if=rig.scene.what_if,
    )
    return scene, np.array(lowered), nearer


def _spot(
    rig: SolidRig, k: int, zero: Array, foot: Array, scale: float
) -> tuple[Array, float, bool]:
    """A unit's practice spot (3,), how much higher it is than k alone would have it, and if it was moved."""
    aims, given = rig.aims, rig.arrays
    along = np.array(place(rig.positions[k]).along)
    clamp = foot + scale * (rig.units[k].at or 0.0) * along
    pivot = clamp + given.drop[k] * given.stem[:, k]
    lens = pivot + aims.lens[:, k] - aims.pivot[:, k]
    reach = scale * (aims.throw[k] + given.nose[k]) - given.nose[k]
    axis = rig.axis[:, k]
    spot = lens + reach * axis
    plain = foot + scale * (given.point[:, k] - zero)
    deck = foot[2] - scale * zero[2]  # where k alone puts the stage's deck
    extra = float(spot[2] - plain[2] + deck)
    if spot[2] < -SAME and axis[2] < 0:
        return lens + lens[2] / -axis[2] * axis, extra, True
    return spot, extra, False


def _named(known: dict[str, Target], unit: Unit, spot: Array) -> Target:
    """The spot as a target: that of its target where others share it, else one of the unit's own."""
    name = unit.target or f"point of {unit.number}"
    x, y, z = (round(float(part), 9) + 0.0 for part in spot)
    for tried in (name, f"{name}, unit {unit.number}", f"{name}, unit {unit.number} again"):
        there = known.get(tried)
        on_floor = z <= ON_FLOOR
        made = Target(
            name=tried,
            x=x,
            y=y,
            z=0.0 if not on_floor else z,
            face_height=None if on_floor else z,
            plane="deck" if on_floor else "face",
        )
        if there is None:
            return made
        if np.hypot(there.x - x, there.y - y) < SAME and abs(_height(there) - z) < SAME:
            return there
    return msgspec.structs.replace(made, name=f"{name}, spot {len(known) + 1}")


def _height(target: Target) -> float:
    return (target.z or 0.0) + (target.face_height or 0.0)


def _moved(unit: Unit, scale: float, target: str) -> Unit:
    return msgspec.structs.replace(
        unit,
        at=(unit.at or 0.0) * scale,
        chord=None,
        target=target,
        point=None,
        circuit=None,
        connector=None,
    )


def _tape(rig: SolidRig, rows: Sequence[int], scale: float) -> float:
    """How far out the practice tape lies: the stage's to scale, to a whole step."""
    step = FOOT if in_feet(rig.scene) else 0.5
    out = float(rig.arrays.sight_out[rows[0]])
    return float(max(1.0, np.floor(scale * out / step + 0.5)) * step)


def _point(point: Array) -> tuple[float, float, float]:
    x, y, z = (float(part) for part in point)
    return x, y, z


def _rounds(rig: SolidRig) -> list[tuple[int, ...]]:
    """Practice units in groups that have room for bodies and hands beside each other, as few as can be."""
    at = np.array([unit.at or 0.0 for unit in rig.units])
    left = np.argsort(at, kind="stable").tolist()
    rounds = []
    while left:
        group: list[int] = []
        for k in left:
            if not group or at[k] - at[group[-1]] >= _needs(rig, k, group[-1]):
                group.append(k)
        rounds.append(tuple(sorted(group)))
        left = [k for k in left if k not in group]
    return rounds


def _needs(rig: SolidRig, one: int, other: int) -> float:
    """From mark to mark of two units side by side, m."""
    return float(rig.sizes.width[one] + rig.sizes.width[other]) / 2 + ROOM


class Floor(NamedTuple):
    """A place in the practice room as a tape finds it: along the pipe from its zero mark, out from under it.

    Metres with the words of their sides; `up` is over the floor.
    """

    along: float
    along_side: str
    out: float
    out_side: str
    up: float


def floor_of(practice: Scaled, point: Array) -> Floor:
    """A point (3,) of the practice room, metres, as a tape along the pipe and one square to it find it."""
    here = place(practice.show.scene.pipes[0])
    level = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    plus, square = WORDS[here.plus_word], WORDS[here.square_word]
    other = {WORDS[code]: WORDS[code ^ 1] for code in range(4)}
    along, out = float(point[:2] @ level), float(point[:2] @ np.array(here.square[:2]))
    return Floor(
        abs(along),
        plus if along >= 0 else other[plus],
        abs(out),
        square if out >= 0 else other[square],
        float(point[2]),
    )
