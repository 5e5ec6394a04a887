"""A scene as arrays: one column a unit, radians, ready for `aimcalc.geometry.aim`.

The scene's degrees end here.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.aim import Indices, Mounted, direct, swung_out
from aimcalc.geometry.deck import Deck, height
from aimcalc.geometry.vectors import Array, cross, dot, points, to_radians
from aimcalc.light.profiles import default_beam
from aimcalc.named import NamedTuple
from aimcalc.rig.places import (
    DIRECTIONS,
    UP,
    WORDS,
    Place,
    chord_side,
    gripped,
    level,
    nearest_word,
    place,
    upright,
)
from aimcalc.scene.model import Kind, Pipe, Position, Scene, Solid, Target, Unit

PRECISE = (
    0.5  # the share of the usual tolerance left to a `precise` unit (common practice, no source)
)


PAST_LEVEL = 1e-12  # at 90 degrees out square faces straight up or down, and keeps the pipe's word


FOOT = 0.3048  # m, exact
USUAL_METRES, USUAL_FEET = 3.0, 10 * FOOT  # (common practice, no source)


class Words(NamedTuple):
    """Codes into `places.WORDS` for the reference direction and for a positive turn, shape (N,)."""

    square: Indices
    swing: Indices


class RigArrays(NamedTuple):
    """`mounted` for the solver, and what else is known of N units; `surface_z` is under the target.

    `aside` is how far a chord lies to the square side of the line that its sight tape is measured from.
    """

    mounted: Mounted
    words: Words
    surface_z: Array
    aside: Array


def deck_of(scene: Scene) -> Deck:
    """The stage floor with every box, panel and mesh that may be stood on.

    Raises SceneError where the file of such a mesh cannot be used.
    """
    stood_on = [solid for solid in scene.solids if solid.stand_on]
    boxes = [solid.box for solid in stood_on if solid.box]
    panels = [c for solid in stood_on for c in _panel_triangles(solid)]
    ramps = np.array(panels, dtype=float).reshape(-1, 3, 3).transpose(1, 2, 0)
    return Deck(
        scene.stage.rake,
        scene.stage.rake_from,
        np.array(boxes, dtype=float).reshape(-1, 6).T,
        np.concatenate([ramps, *_mesh_triangles(scene, stood_on)], axis=2),
    )


def _mesh_triangles(scene: Scene, stood_on: list[Solid]) -> list[Array]:
    """Corners of the meshes that may be stood on, (3, 3, T) each."""
    names = [solid.name for solid in stood_on if solid.mesh]
    if not names:
        return []
    from aimcalc.rig.meshes import meshes_of

    shapes = [meshes_of(scene)[name].shape for name in names]
    return [shape.vertices[:, shape.faces].transpose(1, 0, 2) for shape in shapes]


def _panel_triangles(solid: Solid) -> list[list[tuple[float, float, float]]]:
    if solid.panel is None:
        return []
    a, b, c, d = solid.panel
    return [[a, b, c], [a, c, d]]


def field_angle(kind: Kind) -> float:
    """Full field angle in degrees; the reader sees to it that there is one, or a file that gives it."""
    return 0.0 if kind.field is None else kind.field


def rig_arrays(scene: Scene, units: tuple[Unit, ...], kinds: tuple[Kind, ...]) -> RigArrays:
    """Arrays for `units` (in any order) of a scene; `kinds` has one entry a unit."""
    deck = deck_of(scene)
    positions = scene.positions
    places = {name: place(position) for name, position in positions.items()}
    owns = [places[unit.position] for unit in units]
    here = [gripped(positions[u.position], u, own) for u, own in zip(units, owns, strict=True)]
    aside = np.array([chord_side(positions[u.position], u.chord) for u in units], dtype=float)
    outs = {name: asked_out(scene, position) for name, position in scene.positions.items()}
    clamp = _clamps(scene, deck, units, here)
    stem, reference, words = _held(units, here)
    point, stand, surface = _points(scene, deck, units)
    field = to_radians([field_angle(kind) for kind in kinds])
    beam = to_radians([kind.beam or default_beam(field_angle(kind)) for kind in kinds])
    share = [scene.settings.tolerance * (PRECISE if unit.precise else 1.0) for unit in units]
    yoke = to_radians([kind.yoke_range or (-180.0, 180.0) for kind in kinds]).reshape(-1, 2)
    drop = np.array([_drop(unit, kind) for unit, kind in zip(units, kinds, strict=True)])
    tape_at, tape_sense = _tapes(owns, clamp + drop * stem, stem, reference)
    mounted = Mounted(
        clamp=clamp,
        stem=stem,
        reference=reference,
        drop=drop,
        nose=np.array([kind.nose for kind in kinds]),
        rise=np.array([kind.rise for kind in kinds]),
        point=point,
        stand=stand,
        field=field,
        beam=beam,
        yoke_min=yoke[:, 0].copy(),
        yoke_max=yoke[:, 1].copy(),
        tolerance=np.array(share) * field,
        tape_at=tape_at,
        tape_sense=tape_sense,
        sight_out=np.array([outs[unit.position] for unit in units], dtype=float),
        tail_up=np.array([unit.hung == "tail up" for unit in units], dtype=np.bool_),
    )
    return RigArrays(mounted, words, surface, aside)


def _drop(unit: Unit, kind: Kind) -> float:
    return kind.drop_over if unit.mount in ("over", "stand") else kind.drop_under


def _clamps(scene: Scene, deck: Deck, units: tuple[Unit, ...], here: list[Place]) -> Array:
    """Where each unit's own clamp is: on the pipe, on the boom, at an arm's end, on the stand."""
    zero = points([p.zero for p in here])
    along = points([p.along for p in here])
    at = np.array([unit.at or 0.0 for unit in units], dtype=float)
    clamp = zero + along * at
    positions = scene.positions
    for name, position in positions.items():
        if isinstance(position, Pipe):
            continue
        mine = np.array([k for k, unit in enumerate(units) if unit.position == name], dtype=int)
        clamp[2, mine] += upright(deck, position).zero
    arms = np.array([unit.arm if unit.mount == "arm" else 0.0 for unit in units], dtype=float)
    return np.asarray(clamp + arms * points([level(unit.arm_to or 0.0) for unit in units]))


def _held(units: tuple[Unit, ...], here: list[Place]) -> tuple[Array, Array, Words]:
    """Stem, reference and words of every unit by its mount."""
    up = np.array([unit.mount in ("over", "stand") for unit in units], dtype=np.bool_)
    under = points([p.under for p in here])
    stem = np.where(up, -under, under)
    reference = points([p.square for p in here])
    square = np.array([p.square_word for p in here], dtype=np.intp)
    plus = np.array([p.plus_word for p in here], dtype=np.intp)
    _swing_out(units, here, stem, reference, square)
    _clamp_direct(units, stem, reference, square, plus)
    swing = _swing_words(here, stem, reference, plus)
    return stem, reference, Words(square, swing)


def _swing_out(
    units: tuple[Unit, ...], here: list[Place], stem: Array, reference: Array, square: Indices
) -> None:
    """Swing clamps out; beyond 90 degrees square is on the pipe's other side, and is named for it."""
    out = np.array([k for k, unit in enumerate(units) if unit.mount == "out"], dtype=int)
    if not out.size:
        return
    words = [units[k].out_to or WORDS[here[k].square_word] for k in out]
    ways = points([DIRECTIONS[word] for word in words])
    signs = np.where(dot(ways, points([here[k].square for k in out])) < 0, -1.0, 1.0)
    level_square, along = (
        points([here[k].square for k in out]),
        points([here[k].along for k in out]),
    )
    angle = to_radians([units[k].swing_out for k in out])
    stem[:, out], reference[:, out] = swung_out(
        stem[:, out], along, level_square, level_square * signs, angle
    )
    square[out] ^= dot(reference[:, out], level_square) < -PAST_LEVEL


def _clamp_direct(
    units: tuple[Unit, ...], stem: Array, reference: Array, square: Indices, plus: Indices
) -> None:
    mine = np.array([k for k, unit in enumerate(units) if unit.mount == "direct"], dtype=int)
    if not mine.size:
        return
    headings = to_radians([units[k].arm_to or 0.0 for k in mine])
    stem[:, mine], reference[:, mine] = direct(headings)
    square[mine] = [nearest_word(tuple(reference[:, k])) for k in mine]
    plus[mine] = UP


def _swing_words(here: list[Place], stem: Array, reference: Array, plus: Indices) -> Indices:
    """The word a positive turn about the stem leads to: `plus` or its opposite."""
    ways = points([p.plus for p in here])
    ways[:, plus == UP] = np.array([[0.0], [0.0], [1.0]])
    return np.where(dot(cross(stem, reference), ways) >= 0, plus, plus ^ 1)


def _tapes(here: list[Place], pivot: Array, stem: Array, reference: Array) -> tuple[Array, Array]:
    """Sight-tape place of each pivot (NaN: none) and which way along the tape a positive turn goes.

    Only units right under or over their pipe have a tape. Where the pipe slopes their stems lean along
    it: a pivot then lies along the tape from its clamp, and as far from the tape as the pipe.
    """
    zero, along = points([p.zero for p in here]), points([p.along for p in here])
    along[2] = 0.0
    along /= np.maximum(np.sqrt(along[0] ** 2 + along[1] ** 2), 1e-300)
    upright = np.abs(dot(stem, points([p.under for p in here]))) > 1.0 - 1e-12
    taped = np.array([p.has_tape for p in here], dtype=np.bool_) & upright
    at = np.where(taped, dot(pivot - zero, along), np.nan)
    return at, np.sign(dot(cross(stem, reference), along))


def _points(scene: Scene, deck: Deck, units: tuple[Unit, ...]) -> tuple[Array, Array, Array]:
    """The point each axis goes through, where somebody stands (NaN: nobody), the surface there."""
    targets = {target.name: target for target in scene.targets}
    aims = [targets[unit.target] if unit.target else unit.point for unit in units]
    x = np.array([a.x if isinstance(a, Target) else a[0] for a in aims if a is not None])
    y = np.array([a.y if isinstance(a, Target) else a[1] for a in aims if a is not None])
    under = height(deck, x, y)
    given = [_surface(a) for a in aims]
    surface = np.where(np.isnan(given), under, given)
    rise = np.array([_face_rise(scene, a) for a in aims], dtype=float)
    exact = np.array([a[2] if isinstance(a, tuple) else np.nan for a in aims], dtype=float)
    point = np.stack((x, y, np.where(np.isnan(exact), surface + rise, exact)))
    nobody = np.array([not isinstance(a, Target) or a.plane == "point" for a in aims], dtype=bool)
    floor = np.where(nobody, under, surface)
    stand = np.stack((x, y, floor))
    stand[:, nobody] = np.nan
    return point, stand, floor


def _surface(aim: Target | tuple[float, float, float] | None) -> float:
    z = aim.z if isinstance(aim, Target) else None
    return np.nan if z is None else z


def _face_rise(scene: Scene, aim: Target | tuple[float, float, float] | None) -> float:
    """Height of the point above the surface: a face above somebody's feet, else nothing."""
    if not isinstance(aim, Target) or aim.plane != "face":
        return 0.0
    return scene.settings.face_height if aim.face_height is None else aim.face_height


def usual_out(scene: Scene) -> float:
    """How far out a sight tape lies where nothing is said and nothing is in the way."""
    return USUAL_FEET if in_feet(scene) else USUAL_METRES


def in_feet(scene: Scene) -> bool:
    """Whether a whole distance is one of feet."""
    return scene.settings.unit in ("ft", "in")


def asked_out(scene: Scene, position: Position) -> float:
    """How far out a position's tape is to lie: as typed for it, for the scene, else the usual distance."""
    own = position.sight_out if isinstance(position, Pipe) else None
    return own or scene.settings.sight_out or usual_out(scene)
