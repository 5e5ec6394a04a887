"""The surface that each spot was read on, and the spots as arrays."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.deck import bare_height, height
from aimcalc.geometry.vectors import Array, cross, points, to_radians
from aimcalc.landings.forward import (
    DIAL,
    HEADING,
    SIGHT,
    Plane,
    Set,
    held,
    landed,
    plane_at,
    printed,
    some,
)
from aimcalc.landings.readings import DECK, POLE, Measured, Noted, Reading
from aimcalc.landings.sighted import hand_widths, mark_at
from aimcalc.landings.spots import Direct, Spots
from aimcalc.named import NamedTuple
from aimcalc.rig.places import WORDS, body_of, inside, pipe_ends
from aimcalc.scene.mistakes import MISSING, UNKNOWN, Log, SceneError, Wrong
from aimcalc.scene.model import Pipe, Solid

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved

SMALL = 1e-3  # m: over which a surface's slope is looked at
LEAST_Z = np.sqrt(0.5)  # of a normal: a face steeper than 45 degrees is upright
NEAR = 0.5  # m that a spot may be noted off the surface it is said to be on (our choice)
NOT_READ = float("nan")
UP = np.array([0.0, 0.0, 1.0])


class _Spot(NamedTuple):
    """One spot on its surface: point and normal (3,), which of its two ways in the plane were measured."""

    point: Array
    normal: Array
    across: bool = True
    upward: bool = True


def spots_of(
    rig: Solved, noted: Noted, sight_out: Array, file: str, stands: Set | None = None
) -> tuple[Spots, tuple[Direct, ...]]:
    """What was noted as arrays; `sight_out` (N,) is how far out each unit's tape lies (NaN: none).

    `stands` is how the N units stand but for what was read back: by default as printed. Raises SceneError,
    with every spot that lies on nothing or that its unit's light cannot get to.
    """
    log = Log()
    found = [_spot(rig, reading, log) for reading in noted.spots]
    stands = printed(rig) if stands is None else stands
    sets = [
        _set(rig, reading, sight_out, some(stands, [reading.unit]), log) for reading in noted.spots
    ]
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    sets.append(some(stands, []))  # so that none are joined to none
    hand = hand_widths(rig, stands)[[reading.unit for reading in noted.spots]]
    spots = _arrays(rig, noted.spots, [spot for spot in found if spot is not None], sets, hand)
    _check_reached(rig, noted.spots, spots, log)
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    return spots, tuple(_direct(rig, each) for each in noted.direct)


def _arrays(
    rig: Solved, noted: Sequence[Reading], found: Sequence[_Spot], sets: list[Set], hand: Array
) -> Spots:
    count, errors = len(noted), rig.scene.errors
    normal, point = points([s.normal for s in found]), points([s.point for s in found])
    across = cross(np.tile(UP[:, None], count), normal)
    across += np.array([[1.0], [0.0], [0.0]]) * (np.abs(normal[2]) > 1 - 1e-12)
    across /= np.maximum(np.sqrt((across**2).sum(axis=0)), 1e-300)
    turned = [reading.pan is not None or reading.sight is not None for reading in noted]
    tipped = [reading.down is not None for reading in noted]
    throw = [np.nan if r.throw is None else r.throw for r in noted]
    used = [(s.across, s.upward, r.throw is not None) for s, r in zip(found, noted, strict=True)]
    return Spots(
        unit=np.array([reading.unit for reading in noted], dtype=np.intp),
        given=Set._make(np.concatenate(columns, axis=-1) for columns in zip(*sets, strict=True)),
        plane=plane_at(point, normal),
        point=point,
        rows=np.stack((across.T, cross(normal, across).T), axis=1).reshape(count, 2, 3),
        used=np.array(used, dtype=bool).reshape(count, 3),
        throw=np.nan_to_num(np.array(throw, dtype=float)),
        pan=np.where(turned, to_radians(errors.read_pan), hand),
        down=to_radians(np.where(tipped, errors.read_down, errors.set_down).astype(float)),
        read_back=np.array(turned, dtype=bool) | np.array(tipped, dtype=bool),
    )


def _set(rig: Solved, reading: Reading, sight_out: Array, given: Set, log: Log) -> Set:
    """How one unit was set: as it is `given`, but for what was read back."""
    k = reading.unit
    if reading.down is not None:
        given = given._replace(down=to_radians(np.array([reading.down])))
    if reading.sight is not None:
        out = sight_out[k] if np.isfinite(sight_out[k]) else rig.arrays.sight_out[k]
        if np.isnan(rig.arrays.tape_at[k]):
            do = "Leave out sight, or give its pan."
            log.add(reading.where, "sight", Wrong("a unit that has a sight tape", do), rig.names[k])
            return given
        mark = mark_at(rig, k, reading.sight, float(out))
        return given._replace(by=np.array([SIGHT]), mark=mark[:, None])
    if reading.pan is not None and given.by[0] != HEADING:
        given = given._replace(by=np.array([DIAL]), turn=_turn(rig, reading, log))
    return given


def _turn(rig: Solved, reading: Reading, log: Log) -> Array:
    """The turn at the clamp of a pan that was read back, its side as printed where none is told."""
    k, (pan, side) = reading.unit, reading.pan or (0.0, "")
    aims, plus = rig.aims, int(rig.words.swing[k])
    sides = WORDS[plus], WORDS[plus ^ 1]
    if side and side not in sides:
        wrong = Wrong(f"the side swung to, {' or '.join(sorted(sides))}")
        log.add(reading.where, "pan", wrong, side)
    sign = int(aims.swing_sign[k]) if not side else 1 if side == sides[0] else -1
    if pan and not sign:
        wrong = Wrong(f"a pan with its side, {sides[0]} or {sides[1]}", rank=MISSING)
        log.add(reading.where, "pan", wrong, f"{pan:g}")
    swung = aims.swing_sign.copy()
    swung[k] = sign
    turned = aims.pan.copy()
    turned[k] = to_radians(pan)
    return aims._replace(pan=turned, swing_sign=swung).turn[k : k + 1]


def _direct(rig: Solved, measured: Measured) -> Direct:
    """A direct measurement as measured minus plotted."""
    if measured.what == "drop":
        plotted = max(
            float(rig.arrays.drop[k]) for k, u in enumerate(rig.units) if u.kind == measured.of
        )
        return Direct("drop", measured.of, measured.value - plotted)
    pipe = rig.scene.positions[measured.of]
    assert isinstance(pipe, Pipe)
    middle, run, _ = body_of(pipe)
    least, most = pipe_ends(pipe)
    at = 0.0 if measured.at is None else measured.at - (least + most) / 2
    if measured.what == "trim":
        return Direct("trim", measured.of, measured.value - (middle[2] + at * run[2]), at)
    return Direct("moved", measured.of, measured.value - (middle[1] + at * run[1]), at)


# --- Surfaces -------------------------------------------------------------------------------------


def _spot(rig: Solved, reading: Reading, log: Log) -> _Spot | None:
    """One spot on its surface; None, and a mistake, where it lies on nothing."""
    try:
        on = (reading.on or "").strip()
        if on.casefold() in POLE or (not on and reading.height is not None):
            return _on_pole(rig, reading)
        if on and on.casefold() not in DECK:
            return _on_solid(rig, reading, _named(rig, on))
        return _on_deck(rig, reading, bare=bool(on))
    except Wrong as wrong:
        log.add(reading.where, "", wrong, _told(reading))
        return None


def _told(reading: Reading) -> str:
    parts = (("x", reading.x), ("y", reading.y), ("height", reading.height))
    told = [f"{key} {value:.2f} m" for key, value in parts if value is not None]
    return ", ".join([*told, *([f"on {reading.on}"] if reading.on else [])])


def _needed(value: float | None, key: str, where: str) -> float:
    if value is None:
        raise Wrong(f"{key} of the spot {where}", f"Add {key}.", rank=MISSING)
    return value


def _on_deck(rig: Solved, reading: Reading, *, bare: bool) -> _Spot:
    x, y = _needed(reading.x, "x", "on the deck"), _needed(reading.y, "y", "on the deck")
    plan = np.array([[x, x + SMALL, x], [y, y, y + SMALL]])
    over = bare_height(rig.deck, plan[1])
    top = over if bare else height(rig.deck, *plan)
    if abs(top[1] - top[0]) > SMALL or abs(top[2] - top[0]) > SMALL:
        top = np.full(3, top[0])  # at the edge of a platform: as level as its top
    outline = rig.scene.stage.outline
    on_platform = top[0] > over[0] + SMALL
    if outline and not on_platform and not inside(outline, plan[0, :1], plan[1, :1])[0]:
        raise Wrong(
            "a spot on the deck or on something of the scene",
            "Correct x and y, or say in `on` which solid it is on; past the deck nothing is known.",
        )
    normal = np.array([(top[0] - top[1]) / SMALL, (top[0] - top[2]) / SMALL, 1.0])
    return _Spot(np.array([x, y, top[0]]), normal / np.sqrt(normal @ normal))


def _on_pole(rig: Solved, reading: Reading) -> _Spot:
    """A spot on a pole, at the place noted, else where the performer stands: square to the light on plan."""
    up = _needed(reading.height, "height", "on a pole")
    k = reading.unit
    stand = rig.arrays.stand[:, k]
    noted = reading.x is not None and reading.y is not None
    if not noted and not np.isfinite(stand[0]):
        raise Wrong("x and y of the pole: nobody stands where this unit points", rank=MISSING)
    x, y = (reading.x, reading.y) if noted else stand[:2]
    foot = float(height(rig.deck, np.array([x], dtype=float), np.array([y], dtype=float))[0])
    way = np.array([x, y], dtype=float) - rig.aims.pivot[:2, k]
    far = float(np.hypot(*way))
    if far < NEAR:
        raise Wrong("a pole that the light comes to from the side", "Note the spot on the deck.")
    normal = np.array([-way[0] / far, -way[1] / far, 0.0])
    return _Spot(np.array([x, y, foot + up], dtype=float), normal, across=noted)


def _named(rig: Solved, on: str) -> Solid:
    plain = on.casefold()
    for solid in rig.scene.solids:
        if solid.name.casefold() == plain:
            return solid
    known = (*(solid.name for solid in rig.scene.solids), "deck", "pole")
    raise Wrong(
        "the name of a solid of the scene, deck or pole", choices=known, rank=UNKNOWN, came=on
    )


def _on_solid(rig: Solved, reading: Reading, solid: Solid) -> _Spot:
    """A spot on a solid: the face of it that fits what was noted and that the light can come to."""
    lens = rig.aims.lens[:, reading.unit]
    best: tuple[float, _Spot] | None = None
    for corner, normal in _faces(rig, solid):
        if normal @ (lens - corner.mean(axis=1)) < 0:
            normal = -normal
        upright = abs(normal[2]) < LEAST_Z
        if upright and reading.height is None:
            continue
        point = _in_plane(rig, reading, corner[:, 0], normal)
        if point is None:
            continue
        off = _outside(corner, point) + abs(float((point - corner[:, 0]) @ normal))
        if best is None or off < best[0]:
            best = off, _Spot(point, normal)
    if best is None:
        need = "x and y, or height with x or y"
        raise Wrong(f"a spot on {solid.name}: {need}", "Add what is missing.", rank=MISSING)
    if best[0] > NEAR:
        raise Wrong(f"a spot on {solid.name}", "Correct it, or what it is on.")
    return best[1]


def _in_plane(rig: Solved, reading: Reading, corner: Array, normal: Array) -> Array | None:
    """The point noted, what was not noted of it found on the plane; None where that cannot be."""
    x, y, up = reading.x, reading.y, reading.height
    constant = float(normal @ corner)
    z = (
        None
        if up is None
        else up + (0.0 if y is None else float(bare_height(rig.deck, np.array([y]))[0]))
    )
    values = [x, y, z]
    missing = [k for k, value in enumerate(values) if value is None]
    if len(missing) > 1:
        return None
    if missing:
        k = missing[0]
        if abs(normal[k]) < 1e-6:
            return None
        rest = sum(normal[j] * value for j, value in enumerate(values) if value is not None)
        values[k] = (constant - rest) / float(normal[k])
    return np.array(values, dtype=float)


def _outside(corner: Array, point: Array) -> float:
    """How far a point lies outside the box round a face."""
    low, high = corner.min(axis=1), corner.max(axis=1)
    off = np.maximum(np.maximum(low - point, point - high), 0.0)
    return float(np.sqrt(off @ off))


def _faces(rig: Solved, solid: Solid) -> list[tuple[Array, Array]]:
    """The corners (3, V) and the unit normal of each face of a solid."""
    if solid.box:
        return list(_box_faces(solid.box))
    if solid.panel:
        corners = [np.array(solid.panel).T]
    else:
        from aimcalc.rig.meshes import meshes_of

        shape = meshes_of(rig.scene)[solid.name].shape
        corners = [shape.vertices[:, face] for face in shape.faces.T]
    found = []
    for corner in corners:
        normal = np.cross(corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0])
        size = float(np.sqrt(normal @ normal))
        if size > 0:
            found.append((corner, normal / size))
    return found


def _box_faces(box: Sequence[float]) -> list[tuple[Array, Array]]:
    low, high = np.array(box[:3]), np.array(box[3:])
    faces = []
    for axis in range(3):
        for end, sign in ((low, -1.0), (high, 1.0)):
            corner = np.stack((low, high), axis=1)
            corner[axis] = end[axis]
            normal = np.zeros(3)
            normal[axis] = sign
            faces.append((corner, normal))
    return faces


def _check_reached(rig: Solved, noted: Sequence[Reading], spots: Spots, log: Log) -> None:
    """Note every spot on a surface that its unit, as printed, never sends light to."""
    if not noted:
        return
    units = some(held(rig), spots.unit)
    told = landed(units, spots.given, Plane(*spots.plane), np.zeros((9, len(noted))))
    for reading, there in zip(noted, told.there.tolist(), strict=True):
        if not there:
            wrong = Wrong(
                f"a surface that the light of {rig.names[reading.unit]} comes to, set so",
                "Note a height on a pole or a wall, or correct what was set.",
            )
            log.add(reading.where, "", wrong, _told(reading))
