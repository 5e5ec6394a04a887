"""Scenes made for tests, and a second way to throw a unit's ray that shares nothing with the package."""

from __future__ import annotations

import msgspec
import numpy as np
from scipy.spatial.transform import Rotation

from aimcalc.scene.model import (
    Boom,
    Chord,
    Kind,
    Pipe,
    Scene,
    Settings,
    Solid,
    Stage,
    Stand,
    Target,
    Unit,
)
from aimcalc.solid.answers import Answer

# The public keys of a unit, in their order.
ANSWER_KEYS = [
    "unit",
    "position",
    "number",
    "kind",
    "target",
    "mount",
    "clamp",
    "pivot",
    "lens",
    "face",
    "stand",
    "heading",
    "down",
    "square",
    "pan",
    "swing",
    "yoke",
    "roll",
    "attitude",
    "throw",
    "beam_diameter",
    "field_diameter",
    "lands",
    "meets",
    "past_stand",
    "face_pool",
    "deck_pool",
    "sight",
    "sight_out",
    "down_tolerance",
    "pan_tolerance",
    "per_degree_pan",
    "per_degree_down",
    "blocked",
    "blocked_by",
    "chord",
    "edge",
    "note",
    "further",
]

FOOT = 0.3048
INCH = 0.0254
WORD = {
    "SL": (1, 0, 0),
    "SR": (-1, 0, 0),
    "US": (0, 1, 0),
    "DS": (0, -1, 0),
    "UP": (0, 0, 1),
    "DOWN": (0, 0, -1),
}


def a_kind(name: str = "k", **values: object) -> Kind:
    """A plain kind: 26 degrees, 14 in drop both ways, unless `values` say otherwise."""
    given = {"family": "ers", "field": 26.0, "drop_under": 14 * INCH, "drop_over": 14 * INCH}
    return Kind(name=name, **{**given, **values})  # type: ignore[arg-type]


def a_pipe(name: str = "p", *, y: float = 0.0, trim: float = 6.0, **values: object) -> Pipe:
    """A level pipe across the stage, 10 m each way from the centre line."""
    return Pipe(name=name, start=(-10.0, y, trim), end=(10.0, y, trim), **values)  # type: ignore[arg-type]


def a_scene(
    units: list[Unit],
    targets: list[Target] | None = None,
    *,
    pipes: list[Pipe] | None = None,
    booms: list[Boom] | None = None,
    stands: list[Stand] | None = None,
    kinds: list[Kind] | None = None,
    solids: list[Solid] | None = None,
    stage: Stage | None = None,
    **settings: object,
) -> Scene:
    """A scene from a few records; one plain pipe `p` and one kind `k` where none are given."""
    return Scene(
        settings=Settings(title="Test rig", **settings),  # type: ignore[arg-type]
        stage=stage or Stage(),
        pipes=tuple([a_pipe()] if pipes is None else pipes),
        booms=tuple(booms or ()),
        stands=tuple(stands or ()),
        targets=tuple(targets or ()),
        kinds={kind.name: kind for kind in kinds or [a_kind()]},
        units=tuple(units),
        solids=tuple(solids or ()),
    )


def random_scene(mount: str, count: int, seed: int, tube: str = "straight") -> Scene:
    """`count` units of one mount, each on a position of its own, skewed, sloped and offset.

    Their pipes are `straight`, chords of a `truss`, or each an `arc`; booms with a `foot` start in the air.
    """
    rng = np.random.default_rng(seed)
    pipes, booms, stands, kinds, units = [], [], [], [], []
    for k in range(count):
        name, kind, x, y = f"{mount} {k}", f"kind {k}", *rng.uniform((-8, -12), (8, 12))
        kinds.append(_random_kind(kind, rng))
        extra: dict[str, object] = {"at": rng.uniform(0.5, 4.0)}
        if mount in ("arm", "direct"):
            foot = rng.uniform(0.1, 0.5) if tube == "foot" else None
            booms.append(Boom(name=name, x=x, y=y, height=5.0, foot=foot))
            extra |= {"arm": rng.uniform(0.2, 1.0), "arm_to": rng.uniform(0, 360)}
        elif mount == "stand":
            stands.append(Stand(name=name, x=x, y=y, z=rng.uniform(0, 1.5)))
            extra = {}
        else:
            pipes.append(random_arc(name, rng) if tube == "arc" else _random_pipe(name, rng))
            extra = {"at": rng.uniform(-3, 3), "swing_out": rng.uniform(0, 180)}
            if tube == "truss":
                chord = Chord(name="c", side=rng.uniform(-0.6, 0.6), up=rng.uniform(-0.6, 0.6))
                pipes[-1] = msgspec.structs.replace(pipes[-1], chords=(chord,))
                extra["chord"] = "c"
        point = tuple(rng.uniform((-7, -3, -0.5), (7, 9, 3)).tolist())
        units.append(
            Unit(position=name, number="1", kind=kind, mount=mount, point=point, **extra)  # type: ignore[arg-type]
        )
    return a_scene(units, pipes=pipes, booms=booms, stands=stands, kinds=kinds)


def _random_pipe(name: str, rng: np.random.Generator) -> Pipe:
    start = rng.uniform((-9, -9, 3), (9, 9, 9))
    run = rng.normal(size=3) * (1, 1, 0.2)
    end = start + run * rng.uniform(2, 8) / np.linalg.norm(run)
    return Pipe(name=name, start=tuple(start.tolist()), end=tuple(end.tolist()), zero="middle")


def random_arc(name: str, rng: np.random.Generator) -> Pipe:
    """Three points of a circle in random order round it, the first and last well apart."""
    x, y, z = rng.uniform((-9, -9, 3), (9, 9, 9))
    turns = rng.uniform(0, 2 * np.pi) + np.cumsum(rng.uniform(0.4, 1.8, 3)) * rng.choice((-1, 1))
    radius = rng.uniform(3, 8)
    ends = [(x + radius * np.cos(t), y + radius * np.sin(t), z) for t in turns.tolist()]
    return Pipe(name=name, start=ends[0], through=ends[1], end=ends[2], zero="middle")


def _random_kind(name: str, rng: np.random.Generator) -> Kind:
    drop, nose, rise = rng.uniform((0, 0, -0.05), (0.6, 0.3, 0.05)).tolist()
    field = rng.uniform(5, 60)
    return a_kind(name, field=field, drop_under=drop, drop_over=drop, nose=nose, rise=rise)


def thrown(answer: Answer, scene: Scene) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Lens, axis and body-up that follow from what is *told* about a unit, by scipy's rotations.

    The unit is taken from the shelf (lens pointing along +x, up +z, clamp above its pivot), its yoke is
    turned, its stem is laid where the mount says, and it is turned at the clamp from square by the
    pan and the words told.
    """
    unit = next(u for u in scene.units if f"{u.position}/{u.number}" == answer.unit)
    kind = scene.kinds[answer.kind]
    stem, square, swing = _mount_directions(unit, answer, scene)
    assert answer.pan is not None
    assert answer.yoke is not None
    facing = _turned_towards(square, swing, stem, answer.pan)
    sense = 1.0 if abs(answer.yoke) <= 90 else -1.0
    h = sense * facing
    across = np.cross(h, stem)  # the yoke's bolts: turning about them takes h to the stem
    tip = Rotation.from_rotvec(across * np.radians(answer.yoke))
    axis, up = tip.apply(h), tip.apply(-stem)
    drop = kind.drop_over if answer.mount in ("over", "stand") else kind.drop_under
    pivot = np.array(answer.clamp) + drop * stem
    return pivot + kind.nose * axis + kind.rise * up, axis, up


def _turned_towards(
    square: np.ndarray, swing: np.ndarray, stem: np.ndarray, pan: float
) -> np.ndarray:
    sense = np.sign(np.dot(np.cross(stem, square), swing)) or 1.0
    return Rotation.from_rotvec(sense * np.radians(pan) * stem).apply(square)


def _mount_directions(
    unit: Unit, answer: Answer, scene: Scene
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Stem, square and swing as directions, from the mount's plain description and the words told."""
    position = scene.positions[unit.position]
    stem = np.array((0.0, 0.0, 1.0 if unit.mount in ("over", "stand") else -1.0))
    square = np.array(WORD[answer.square], float)
    if isinstance(position, Pipe):
        along = np.subtract(position.end, position.start)
        if position.through is not None:
            along = _tangent(position, answer)
        along /= np.linalg.norm(along)
        level = np.cross(along, (0, 0, 1.0))
        level /= np.linalg.norm(level)
        # A clamp grips square to its tube: what is plumb under a level pipe tips with the pipe's slope.
        climb = np.arcsin(along[2])
        stem = Rotation.from_rotvec(level * climb).apply(stem)
        assert abs(np.dot(stem, along)) < 1e-12
        level *= np.sign(np.dot(level, square))
        if unit.mount == "out":
            first = Rotation.from_rotvec(along * np.radians(unit.swing_out))
            side = np.dot(level, _out_side(unit, along))
            if np.dot(first.apply(stem), level) * side < 0:
                first = first.inv()
            turned = first.apply(level)  # of the two ways it may face, the one on the side named
            return first.apply(stem), turned * np.sign(turned @ level), _swing(answer, along)
        return stem, level, _swing(answer, along)
    if unit.mount == "direct":
        heading = np.radians(unit.arm_to or 0.0)
        stem = np.array((np.sin(heading), np.cos(heading), 0.0))
        level = np.cross(stem, (0, 0, 1.0))
        return (
            stem,
            level * np.sign(np.dot(level, square)),
            np.array(WORD[answer.swing or "UP"], float),
        )
    return stem, square, np.array(WORD[answer.swing or "US"], float)


def circle_of(pipe: Pipe) -> np.ndarray:
    """The plan centre of the circle through three points, from |p - c|^2 alike for all: linear in c."""
    a, b, c = (np.array(point[:2]) for point in (pipe.start, pipe.through, pipe.end))  # type: ignore[index]
    return np.linalg.solve(2 * np.array([b - a, c - a]), np.array([b @ b - a @ a, c @ c - a @ a]))


def _tangent(pipe: Pipe, answer: Answer) -> np.ndarray:
    """Along a curved pipe at the clamp: level, square to the line from its circle's centre."""
    x, y = np.array(answer.clamp[:2]) - circle_of(pipe)
    return np.array([-y, x, 0.0])


def _out_side(unit: Unit, along: np.ndarray) -> np.ndarray:
    """The side the clamp is swung to; unsaid, it is upstage (stage left for a pipe up the stage)."""
    across = abs(along[0]) >= abs(along[1])
    return np.array(WORD[unit.out_to or ("US" if across else "SL")], float)


def _swing(answer: Answer, along: np.ndarray) -> np.ndarray:
    word = np.array(WORD[answer.swing or "SL"], float)
    return along * np.sign(np.dot(along, word) or 1.0)
