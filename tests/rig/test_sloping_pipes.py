"""A clamp grips square to its tube: what is told for a sloping pipe, thrown forward through scipy's matrices.

Nothing of the program is used but what it tells: the pipe's frame by heading and slope, over or under by
half a turn about the pipe, the dial about the true stem, the yoke about its bolts, each a 3 x 3 matrix.
The same throw of a dial and a yoke that were worked out for a plumb stem shows by how much those miss.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Pipe, Scene, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import WORD, a_kind, a_scene

DROP, NOSE = 0.35, 0.3
SIGHT_OUT = 3.0
SCENES = Path(__file__).parents[2] / "scenes"
MOUNTS = ["under", "over"]


def turn(axis: str, degrees: float) -> np.ndarray:
    return Rotation.from_euler(axis, degrees, degrees=True).as_matrix()


def pipe_frame(pipe: Pipe) -> np.ndarray:
    """Columns: along the pipe (start to end), level and square to it, the third; at a slope."""
    x, y, z = np.subtract(pipe.end, pipe.start)
    return turn("z", np.degrees(np.arctan2(y, x))) @ turn(
        "y", -np.degrees(np.arctan2(z, np.hypot(x, y)))
    )


def set_unit(
    pipe: Pipe, mount: str, told: dict, clamp: np.ndarray, drop: float = DROP
) -> tuple[np.ndarray, np.ndarray]:
    """Pivot and lens axis of a unit set by its dial (square side, swing, pan) and its yoke.

    On the shelf the unit hangs under a tube along x, lens along y, bolts along x.
    """
    frame = pipe_frame(pipe) @ (turn("x", 180.0) if mount == "over" else np.eye(3))

    def facing(dial: float) -> np.ndarray:
        return frame @ turn("z", dial) @ (0, 1, 0)

    (square,) = (d for d in (0.0, 180.0) if facing(d) @ WORD[told["square"]] > 0)
    dials = [square + sense * told["pan"] for sense in (1, -1)]
    swing = WORD[told["swing"]] if told["swing"] else (0, 0, 0)
    dial = max(dials, key=lambda d: facing(d) @ (frame[:, 0] * np.sign(frame[:, 0] @ swing)))
    over_in_yoke = (
        180.0 if abs(told["yoke"]) > 90 else 0.0
    )  # the lens comes out at the yoke's other side
    body = frame @ turn("z", dial + over_in_yoke) @ turn("x", -told["yoke"])
    return clamp + drop * frame @ (0, 0, -1), body @ (0, 1, 0)


def missed_by(pivot: np.ndarray, axis: np.ndarray, face: np.ndarray) -> float:
    """How far the axis passes from the face, metres."""
    return float(np.linalg.norm(np.cross(face - pivot, axis)))


def sloping_rig(slope: float, mount: str, count: int = 200) -> Scene:
    """`count` units, each on a pipe of its own, turned anyhow in plan, at a slope of so many degrees."""
    rng = np.random.default_rng(int(slope * 10))
    pipes, units = [], []
    for k in range(count):
        plan, (x, y) = rng.uniform(0, 2 * np.pi), rng.uniform(-4, 4, 2)
        run = np.array((np.cos(plan), np.sin(plan), np.tan(np.radians(slope)))) * 5
        middle = np.array((x, y, rng.uniform(4.5, 7)))
        pipes.append(
            Pipe(name=f"p{k}", start=tuple(middle - run), end=tuple(middle + run), zero="middle")
        )
        away, off = rng.uniform(3, 7), rng.uniform(0, 2 * np.pi)
        point = (x + away * np.sin(off), y + away * np.cos(off), 1.65)
        units.append(
            Unit(
                position=f"p{k}",
                number="1",
                kind="k",
                at=rng.uniform(-2, 2),
                point=point,
                mount=mount,
            )
        )
    return a_scene(units, pipes=pipes, kinds=[the_kind()])


def the_kind() -> object:
    return a_kind(drop_under=DROP, drop_over=DROP, nose=NOSE)


def as_if_plumb(
    pipe: Pipe, mount: str, clamp: np.ndarray, face: np.ndarray, drop: float = DROP
) -> dict:
    """Dial and yoke as they would be on a plumb stem: heading off square, and down."""
    v = face - clamp + np.array((0, 0, drop if mount == "under" else -drop))
    along = np.subtract(pipe.end, pipe.start)[:2]
    along /= np.hypot(*along)
    square = max(WORD, key=lambda word: np.dot(WORD[word][:2], square_side(along, v)))
    swing = max(WORD, key=lambda word: np.dot(WORD[word][:2], along * np.sign(along @ v[:2])))
    down = np.degrees(np.arctan2(-v[2], np.hypot(*v[:2])))
    pan = np.degrees(np.arctan2(abs(along @ v[:2]), abs(square_side(along, v) @ v[:2])))
    yoke = down if mount == "under" else down - 180.0  # towards the clamp
    return {"square": square, "swing": swing, "pan": pan, "yoke": yoke}


def square_side(along: np.ndarray, v: np.ndarray) -> np.ndarray:
    """The level direction square to the pipe on the side of v."""
    square = np.array((-along[1], along[0]))
    return np.asarray(square * np.sign(square @ v[:2]))


@pytest.mark.parametrize("mount", MOUNTS)
@pytest.mark.parametrize("slope", [0.0, 0.5, 2.0, 5.0, 10.0, 30.0, 60.0])
def test_dial_and_yoke_as_told_put_the_axis_through_the_face(slope, mount):
    scene = sloping_rig(slope, mount)
    for pipe, told in zip(scene.pipes, solve_rig(scene).answers, strict=True):
        pivot, axis = set_unit(pipe, mount, vars_of(told), np.array(told.clamp))
        np.testing.assert_allclose(pivot, told.pivot, atol=1e-12)
        assert missed_by(pivot, axis, np.array(told.face)) < 1e-9, told.unit
        assert axis @ (np.array(told.face) - pivot) > 0
        assert 0 <= told.pan <= 90


def vars_of(told: object) -> dict:
    return {key: getattr(told, key) for key in ("square", "swing", "pan", "yoke")}


# Means of 400 units (200 each way). Another solver found 0.17 m at 2 degrees, 0.43 at 5 and 0.86 at 10 on
# rigs of its own; here pipes and throws are others, so a fifth either way is granted.
@pytest.mark.parametrize(("slope", "mean"), [(0.0, 0.0), (2.0, 0.17), (5.0, 0.43), (10.0, 0.86)])
def test_dial_and_yoke_of_a_plumb_stem_miss_the_face_on_a_sloping_pipe(slope, mean):
    missed = []
    for mount in MOUNTS:
        scene = sloping_rig(slope, mount)
        for pipe, told in zip(scene.pipes, solve_rig(scene).answers, strict=True):
            clamp, face = np.array(told.clamp), np.array(told.face)
            old = as_if_plumb(pipe, mount, clamp, face)
            missed.append(missed_by(*set_unit(pipe, mount, old, clamp), face))
    assert np.mean(missed) == pytest.approx(mean, rel=0.2, abs=1e-9)


def sighted(pipe: Pipe, square: str, sight: float, down: float, pivot: np.ndarray) -> np.ndarray:
    """The axis of a unit sighted from its pivot to its mark on the deck, tipped by a level.

    The tape lies parallel to the pipe in plan, on the square side, its zero square off the pipe's middle.
    """
    along = np.subtract(pipe.end, pipe.start)[:2]
    along /= np.hypot(*along)
    plus = along * np.sign(
        along[np.argmax(np.abs(along))]
    )  # to SL, or US: stage words of the + end
    out = np.array((-along[1], along[0]))
    out *= np.sign(out @ WORD[square][:2])
    middle = np.add(pipe.start, pipe.end)[:2] / 2
    way = middle + sight * plus + SIGHT_OUT * out - pivot[:2]
    level = np.cos(np.radians(down)) * way / np.hypot(*way)
    return np.array((*level, -np.sin(np.radians(down))))


@pytest.mark.parametrize("mount", MOUNTS)
@pytest.mark.parametrize("slope", [0.0, 0.5, 2.0, 5.0, 10.0, 30.0])
def test_tape_and_level_as_told_put_the_axis_through_the_face(slope, mount):
    scene, marks = sloping_rig(slope, mount), 0
    for pipe, told in zip(scene.pipes, solve_rig(scene).answers, strict=True):
        if told.sight is None:
            continue
        marks += 1
        pivot = np.array(told.pivot)
        axis = sighted(pipe, told.square, told.sight, told.down, pivot)
        assert missed_by(pivot, axis, np.array(told.face)) < 1e-9, told.unit
    assert marks > 100  # most are within 60 degrees of square


@pytest.mark.parametrize(("slope", "least", "most"), [(2.0, 0.005, 0.02), (10.0, 0.02, 0.07)])
def test_a_tape_mark_of_a_plumb_stem_is_off_by_centimetres_only(slope, least, most):
    """Why a tape is told for a sloping pipe: it hardly minds the lean that throws the dial off."""
    missed = []
    for mount in MOUNTS:
        scene = sloping_rig(slope, mount)
        for pipe, told in zip(scene.pipes, solve_rig(scene).answers, strict=True):
            clamp, face = np.array(told.clamp), np.array(told.face)
            old = as_if_plumb(pipe, mount, clamp, face)
            if told.sight is None or old["pan"] > 60:
                continue
            down = old["yoke"] if mount == "under" else old["yoke"] + 180.0
            x = (clamp - np.add(pipe.start, pipe.end) / 2)[:2]
            along = np.subtract(pipe.end, pipe.start)[:2]
            plus = along / np.hypot(*along) * np.sign(along[np.argmax(np.abs(along))])
            side = np.sign(plus @ WORD[old["swing"]][:2])
            sight = x @ plus + side * SIGHT_OUT * np.tan(np.radians(old["pan"]))
            axis = sighted(pipe, old["square"], sight, down, np.array(told.pivot))
            missed.append(missed_by(np.array(told.pivot), axis, face))
    assert least < np.mean(missed) < most


def test_on_the_roof_bar_of_raked_dial_and_yoke_of_a_plumb_stem_miss_by_over_20_cm():
    """The bar slopes 3.4 degrees; measured square to the beam. As told, its four units hit."""
    scene = load_scene(str(SCENES / "raked"))
    (bar,) = (pipe for pipe in scene.pipes if pipe.name == "roof bar")
    told = [a for a in solve_rig(scene).answers if a.position == bar.name and a.mount == "under"]
    assert len(told) == 4
    missed = []
    for answer in told:
        clamp, face = np.array(answer.clamp), np.array(answer.face)
        drop = scene.kinds[answer.kind].drop_under
        pivot, axis = set_unit(bar, "under", vars_of(answer), clamp, drop)
        assert missed_by(pivot, axis, face) < 1e-9
        old = as_if_plumb(bar, "under", clamp, face, drop)
        missed.append(missed_by(*set_unit(bar, "under", old, clamp, drop), face))
    assert min(missed) > 0.2
