"""Where light lands when things are off: against scenes that are plotted so, by hand, and by differences."""

from __future__ import annotations

from math import cos, radians, sin, tan

import msgspec
import numpy as np
import pytest

from aimcalc.landings import forward as f
from aimcalc.rig.places import body_of
from aimcalc.rig.solve import Solved
from aimcalc.scene.model import Pipe, Scene, Target, Unit
from tests.rigs import FOOT, INCH, a_kind, a_pipe, a_scene, random_scene

MOUNTS = [
    (mount, tube) for mount in ("under", "over", "out") for tube in ("straight", "truss", "arc")
] + [("arm", "straight"), ("direct", "foot"), ("stand", "straight")]


def off_by(count: int, seed: int) -> np.ndarray:
    """Random errors of the size that rigs have, (9, N) metres and radians."""
    sizes = np.array([0.1, 0.1, 0.1, 0.02, 0.1, 0.05, 0.05, 0.03, 0.02])
    return np.random.default_rng(seed).normal(size=(9, count)) * sizes[:, None]


def planes(rig: Solved, seed: int) -> f.Plane:
    """A plane through each unit's point, tipped at random, most of them nearly level."""
    normal = np.random.default_rng(seed).normal(size=(3, len(rig.units))) * 0.3
    normal[2] = 1.0
    return f.plane_at(rig.arrays.point, normal / np.sqrt((normal**2).sum(axis=0)))


@pytest.mark.parametrize(("mount", "tube"), MOUNTS)
def test_the_moves_are_those_of_finite_differences_for_every_mount(mount: str, tube: str) -> None:
    rig = Solved(random_scene(mount, 60, 11, tube))
    units, given = f.held(rig), f.exact(rig)
    plane, off = planes(rig, 5), off_by(60, 7)
    marks = np.random.default_rng(3).normal(size=(3, 60)) * 3
    sighted = given._replace(by=np.where(np.arange(60) % 3 == 0, f.SIGHT, given.by), mark=marks)
    told = f.landed(units, sighted, plane, off)
    # What all but grazes its plane runs off too far for differences of any step to be exact.
    good = told.there & (np.abs(told.moves).max(axis=(0, 1)) < 100)
    assert good.sum() > 30

    def at(k: int, step: float) -> np.ndarray:
        moved = off.copy()
        moved[k] += step
        return f.landed(units, sighted, plane, moved).point[:, good]

    h = 1e-4
    for k, name in enumerate(f.ERRORS):
        near, far = at(k, h) - at(k, -h), at(k, 2 * h) - at(k, -2 * h)
        differences = (8 * near - far) / (12 * h)  # Richardson's, of the fourth order
        moves = told.moves[k][:, good]
        assert np.all(np.abs(moves - differences) < 1e-6 * (1 + np.abs(moves))), name


@pytest.mark.parametrize(("mount", "tube"), MOUNTS)
def test_with_nothing_off_the_light_goes_through_its_point(mount: str, tube: str) -> None:
    rig = Solved(random_scene(mount, 60, 12, tube))
    told = f.landed(f.held(rig), f.exact(rig), planes(rig, 6), np.zeros((9, 60)))
    far = np.sqrt(((told.point - rig.arrays.point) ** 2).sum(axis=0))
    assert far[told.there].max() < 1e-7
    assert told.there.sum() > 50


def as_it_hangs(scene: Scene, off: np.ndarray, spots: np.ndarray) -> Scene:
    """The scene plotted as it really hangs, each unit aimed at a spot; made from the words of `ERRORS`.

    Only for units under pipes: a kick is then a clamp swung out.
    """
    pipes, units, kinds = [], [], {}
    for k, (pipe, unit) in enumerate(zip(scene.pipes, scene.units, strict=True)):
        trim, slope, moved, skew, marks, drop, kick, _, _ = off[:, k]
        start, end = np.array(pipe.start), np.array(pipe.end)
        middle, half = (start + end) / 2, (end - start) / 2
        axis = 0 if abs(half[0]) >= abs(half[1]) else 1
        plus = 1.0 if half[axis] > 0 else -1.0  # whether the SL (US) end is written last
        level = np.array([-half[1], half[0], 0.0]) * plus / np.hypot(half[0], half[1])
        level = level if axis == 0 else -level  # to US; to SL where it runs up the stage
        half = half * np.array([1, 1, 1]) + np.array([0, 0, plus * slope / 2])
        half /= np.linalg.norm(half) / np.linalg.norm((end - start) / 2)
        turn = np.array([[cos(skew), sin(skew), 0], [-sin(skew), cos(skew), 0], [0, 0, 1]])
        middle = middle + level * moved + np.array([0, 0, trim])
        ends = [middle + turn @ half * sign for sign in (-1, 1)]
        pipes.append(
            msgspec.structs.replace(
                pipe, start=tuple(ends[0].tolist()), end=tuple(ends[1].tolist())
            )
        )
        kind = scene.kinds[unit.kind]
        kinds[kind.name] = msgspec.structs.replace(kind, drop_under=kind.drop_under + drop)
        sides = ("US", "DS") if axis == 0 else ("SL", "SR")
        units.append(
            msgspec.structs.replace(
                unit,
                at=unit.at + marks,
                point=tuple(spots[:, k].tolist()),
                mount="out",
                swing_out=abs(np.degrees(kick)),
                out_to=sides[int(kick < 0)],
            )
        )
    return msgspec.structs.replace(scene, pipes=tuple(pipes), units=tuple(units), kinds=kinds)


def test_a_scene_plotted_as_it_hangs_and_aimed_where_the_light_landed_is_set_as_it_was() -> None:
    """The other way round, through the aims of another scene: from the spot back to pan and down."""
    rig = Solved(random_scene("under", 80, 21))
    off = off_by(80, 22)
    given = f.exact(rig)
    told = f.landed(f.held(rig), given, planes(rig, 23), off)
    keep = np.flatnonzero(told.there & (np.abs(told.point).max(axis=0) < 50))
    assert keep.size > 50
    real = Solved(as_it_hangs(rig.scene, off, told.point))
    order = [real.by_name[name] for name in rig.names]
    turn, down = real.aims.turn[order] - off[f.PAN], real.aims.down[order] - off[f.DOWN]
    same = np.abs(np.angle(np.exp(1j * (turn - given.turn))))[keep] < 1e-9
    # The other way to point there (the body turned over) is told where that is the more upright.
    assert same.mean() > 0.9
    assert np.abs(down - given.down)[keep][same].max() < 1e-9


def one(down_degrees: float, pan: float = 0.0, trim: float = 18 * FOOT, **kind: float) -> Solved:
    """A unit on the centre line of a pipe over the plaster line, aimed so, at a point on the deck."""
    drop = kind.get("drop_under", 14 * INCH)
    far = (trim - drop) / tan(radians(down_degrees))
    point = (far * sin(radians(pan)), far * cos(radians(pan)), 0.0)
    unit = Unit(position="p", number="1", kind="k", at=0.0, point=point)
    return Solved(a_scene([unit], pipes=[a_pipe(trim=trim)], kinds=[a_kind(**kind)]))


FLOOR = f.Plane(np.array([[0.0], [0.0], [1.0]]), np.array([0.0]))


def alone(**values: float) -> np.ndarray:
    found = np.zeros((9, 1))
    for name, value in values.items():
        found[f.ERRORS.index(name)] = value
    return found


@pytest.mark.parametrize(("down", "inches"), [(30, 10.4), (45, 6.0), (60, 3.5)])
def test_a_trim_wrong_by_six_inches_moves_the_spot_by_its_share_of_the_tangent(
    down: float, inches: float
) -> None:
    # e / tan(down): 6 / 0.5774 = 10.39, 6 / 1 = 6, 6 / 1.732 = 3.46 (by hand)
    rig = one(down)
    units, given = f.held(rig), f.exact(rig)
    spots = [f.landed(units, given, FLOOR, alone(trim=e)).point for e in (0.0, 6 * INCH)]
    assert (spots[1] - spots[0])[1, 0] / INCH == pytest.approx(inches, abs=0.05)
    assert (spots[1] - spots[0])[0, 0] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    ("kick", "down", "heading"),
    [
        (5, 50, 40.7),
        (5, 65, 37.3),
        (10, 50, 36.1),
        (10, 65, 29.2),
        (-5, 50, 49.1),
        (-5, 65, 52.5),
    ],
)
def test_a_kicked_clamp_turns_the_true_heading_of_a_dial_at_45(
    kick: float, down: float, heading: float
) -> None:
    """The foot of the yoke swung towards square, here US: PRACTICE 2.5, computed there on its own."""
    rig = one(down, 45.0)
    told = f.landed(f.held(rig), f.exact(rig), FLOOR, alone(kick=radians(kick)))
    swing = np.array([0.0, -sin(radians(kick)), 0.0]) * 14 * INCH
    rise = 14 * INCH * (cos(radians(kick)) - 1)
    pivot = rig.aims.pivot[:, 0] - swing + np.array([0, 0, -rise])
    way = told.point[:, 0] - pivot
    assert np.degrees(np.arctan2(way[0], way[1])) == pytest.approx(heading, abs=0.06)
    assert np.degrees(np.arctan2(-way[2], np.hypot(way[0], way[1]))) == pytest.approx(
        down, abs=1e-9
    )


def test_a_pipe_found_15_inches_low_lands_13_inches_short() -> None:
    """Trim 18'-0" plotted, 16'-9" measured, face 5'-6" and 10'-0" out: set down 48.6 (PRACTICE, case 11)."""
    drop, face, out = 14 * INCH, 5.5 * FOOT, 10 * FOOT
    unit = Unit(position="p", number="1", kind="k", at=0.0, target="t")
    target = Target(name="t", x=0.0, y=out, face_height=face)
    rig = Solved(
        a_scene([unit], [target], pipes=[a_pipe(trim=18 * FOOT)], kinds=[a_kind(drop_under=drop)])
    )
    assert np.degrees(rig.aims.down[0]) == pytest.approx(48.6, abs=0.05)
    level = f.Plane(FLOOR.normal, np.array([face]))
    told = f.landed(f.held(rig), f.exact(rig), level, alone(trim=-15 * INCH))
    assert (out - told.point[1, 0]) / INCH == pytest.approx(13, abs=0.5)


def test_a_sighted_unit_keeps_its_heading_when_its_clamp_is_kicked_or_its_pipe_is_low() -> None:
    rig = one(50.0, 20.0)
    units, given = f.held(rig), f.exact(rig)
    out = 3.0
    sighted = given._replace(
        by=np.array([f.SIGHT]), mark=np.array([[out * tan(radians(20.0))], [out], [0.0]])
    )
    low = f.landed(units, sighted, FLOOR, alone(trim=-0.4)).point[:, 0]
    assert np.degrees(np.arctan2(low[0], low[1])) == pytest.approx(20.0)
    # Kicked, its pivot is swung to US by drop x sin(5): it still points from there at the mark.
    kicked = f.landed(units, sighted, FLOOR, alone(kick=radians(5.0))).point[:, 0]
    pivot_y = 14 * INCH * sin(radians(5.0))
    to_mark = (out * tan(radians(20.0))) / (out - pivot_y)
    assert kicked[0] / (kicked[1] - pivot_y) == pytest.approx(to_mark)


def test_a_light_that_never_comes_down_to_its_surface_is_said_to_be_nowhere() -> None:
    rig = one(45.0)
    told = f.landed(f.held(rig), f.exact(rig), FLOOR, alone(down=radians(-60)))
    assert not told.there[0]
    assert not told.moves.any()


def test_the_printed_angles_are_what_is_set() -> None:
    rig = one(48.6, 20.4)
    given = f.printed(rig)
    assert np.degrees(given.down[0]) == pytest.approx(49.0)
    assert np.degrees(given.turn[0]) == pytest.approx(20.0)  # clockwise from above, towards SL


def test_the_middle_of_a_curved_pipe_lies_on_its_arc() -> None:
    # half a circle of 3 m about the origin, from SR over US to SL: its middle is 3 m upstage
    arc = Pipe(name="a", start=(-3.0, 0.0, 5.0), through=(0.0, 3.0, 5.0), end=(3.0, 0.0, 5.0))
    middle, run, length = body_of(arc)
    assert middle == pytest.approx((0.0, 3.0, 5.0))
    assert run == pytest.approx((1.0, 0.0, 0.0))
    assert length == pytest.approx(6.0)
