"""Tails of solved rigs: the exit from the solver's own axis and up, paths turned by another package."""

import msgspec
import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from aimcalc.hang.records import HangOptions
from aimcalc.hang.tails import (
    allowed_places,
    exit_point,
    poses,
    stretches,
    tail_bodies,
    usable_tails,
)
from aimcalc.hang.tubes import tubes
from aimcalc.scene.model import Boom, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_scene, random_scene

MOUNTS = ["under", "over", "out", "arm", "direct", "stand"]
OPTIONS = HangOptions()


def with_tails(scene, **tail):
    """The same scene, every kind with a tail of 0.9 m that leaves 0.24 behind and 0.1 below."""
    given = {"tail": 0.9, "tail_exit": (0.24, 0.1), **tail}
    kinds = {name: msgspec.structs.replace(k, **given) for name, k in scene.kinds.items()}
    return msgspec.structs.replace(scene, kinds=kinds)


def tail_rig(mount, count=60, seed=1):
    return solve_rig(with_tails(random_scene(mount, count, seed)))


def exits(rig):
    """Where the tail leaves: behind along the axis and below along body-up, as the solver gives them."""
    return rig.aims.pivot - 0.24 * rig.aims.axis - 0.1 * rig.aims.up


@pytest.mark.parametrize("mount", MOUNTS)
def test_the_exit_is_behind_the_axis_and_below_the_body_at_the_aim(mount):
    rig = tail_rig(mount)
    swings = poses(rig, OPTIONS)
    found = exit_point(tail_bodies(rig), swings.turn, swings.yoke)
    assert found == pytest.approx(exits(rig), abs=1e-9)


def test_a_body_reported_tail_up_has_its_exit_on_the_other_side():
    scene = with_tails(random_scene("under", 30, 2))
    reported = [msgspec.structs.replace(unit, hung="tail up") for unit in scene.units]
    rig = solve_rig(msgspec.structs.replace(scene, units=tuple(reported)))
    swings = poses(rig, OPTIONS)
    found = exit_point(tail_bodies(rig), swings.turn, swings.yoke)
    assert found == pytest.approx(exits(rig), abs=1e-9)
    moved = exits(rig) - exits(solve_rig(scene))
    assert np.linalg.norm(moved, axis=0) == pytest.approx(2 * 0.1)


@pytest.mark.parametrize("mount", MOUNTS)
def test_the_worst_on_the_way_is_that_of_a_turn_about_the_stem_from_square(mount):
    # The second method turns the solved exit about the stem, by scipy's rotations, back to square. The
    # nose swings towards b = a x r with `swing_sign` +; seen from square -r that is a negative turn.
    rig = tail_rig(mount, 20)
    held, body = tubes(rig), tail_bodies(rig)
    place = np.linspace(-0.3, 0.3, 20)
    got = stretches(body, poses(rig, OPTIONS), held, place)
    tie = held.base + place * held.along
    stem, pivot, at_aim = rig.arrays.stem, rig.aims.pivot, exits(rig)
    sense = rig.aims.swing_sign * rig.aims.square_sign
    for k in range(20):
        arm = at_aim[:, k] - pivot[:, k]
        back = [
            -share * sense[k] * rig.aims.pan[k] * stem[:, k] for share in np.linspace(0, 1, 181)
        ]
        turned = pivot[:, k] + Rotation.from_rotvec(back).apply(arm)
        sampled = np.linalg.norm(turned - tie[:, k], axis=1).max()
        assert got.worst[k] == pytest.approx(sampled, abs=1e-4)
        assert got.worst[k] >= sampled - 1e-12
        assert got.aim[k] == pytest.approx(np.linalg.norm(at_aim[:, k] - tie[:, k]), abs=1e-12)


def test_the_way_back_to_square_ends_with_the_body_facing_square():
    rig = tail_rig("under")
    way = poses(rig, OPTIONS).way
    ends = np.stack((way.turn_low, way.turn_high))
    nearest = np.abs(np.sin(ends)).min(axis=0)
    assert nearest == pytest.approx(0, abs=1e-9)
    assert way.turn_high - way.turn_low == pytest.approx(rig.aims.pan, abs=1e-9)


def a_system(points, **unit):
    """One unit of a system whose other units are aimed at `points`; all at one place of pipe `p`."""
    targets = [
        Target(name=f"t{k}", x=x, y=y, z=z, plane="point") for k, (x, y, z) in enumerate(points)
    ]
    units = [
        Unit(
            position="p",
            number=str(k + 1),
            at=1.0,
            kind="k",
            target=target.name,
            system="wash",
            **unit,
        )
        for k, target in enumerate(targets)
    ]
    kind = a_kind(tail=0.9, tail_exit=(0.24, 0.1))
    return a_scene(units, targets, kinds=[kind])


def test_the_focus_swing_takes_in_every_target_of_the_system():
    points = [(-3, 4, 1.6), (3, 5, 1.6), (0.5, 2, 1.6), (5, 6, 1.6)]
    rig = solve_rig(a_system(points))
    body, held = tail_bodies(rig), tubes(rig)
    got = stretches(body, poses(rig, OPTIONS), held, np.full(4, 0.25))
    # All four hang at one place, so each one's aim is a pose that the others must be able to take.
    assert (got.focus >= got.aim.max() - 1e-12).all()


def test_the_focus_swing_goes_fifteen_degrees_past_a_lone_aim():
    rig = solve_rig(a_system([(1.0, 5.0, 1.6)]))
    swings = poses(rig, OPTIONS)
    pan, yoke = np.degrees(swings.turn), np.degrees(swings.yoke)
    assert np.degrees(swings.focus.turn_low) == pytest.approx(pan - 15)
    assert np.degrees(swings.focus.turn_high) == pytest.approx(pan + 15)
    assert np.degrees(swings.focus.yoke_low) == pytest.approx(yoke - 15)
    assert np.degrees(swings.focus.yoke_high) == pytest.approx(yoke + 15)


def test_the_focus_swing_stays_within_the_yokes_travel():
    scene = a_system([(1.0, 5.0, 1.6)])
    yoke = float(np.degrees(solve_rig(scene).aims.yoke[0]))
    kind = a_kind(tail=0.9, tail_exit=(0.24, 0.1), yoke_range=(yoke - 5, yoke + 4))
    rig = solve_rig(msgspec.structs.replace(scene, kinds={"k": kind}))
    focus = poses(rig, OPTIONS).focus
    assert np.degrees(focus.yoke_low) == pytest.approx(yoke - 5)
    assert np.degrees(focus.yoke_high) == pytest.approx(yoke + 4)


def test_many_targets_count_by_those_farthest_out():
    rng = np.random.default_rng(3)
    around = [(4 * np.cos(a), 8 + 4 * np.sin(a), 1.6) for a in np.arange(0, 2 * np.pi, np.pi / 8)]
    inside = [(rng.uniform(-2, 2), rng.uniform(7, 9), 1.6) for _ in range(40)]
    few = poses(solve_rig(a_system(around)), OPTIONS).focus
    many = poses(solve_rig(a_system(around + inside)), OPTIONS).focus
    for one, other in zip(few, many, strict=True):
        assert one[0] == pytest.approx(other[0])


def test_usable_tail_is_the_tail_less_the_allowance():
    rig = solve_rig(a_system([(1.0, 5.0, 1.6)]))
    assert usable_tails(rig, OPTIONS) == pytest.approx([0.75])
    assert usable_tails(rig, HangOptions(allowance=0.2)) == pytest.approx([0.7])
    assert usable_tails(rig, HangOptions(allowance=2.0)) == pytest.approx([0.0])


def test_a_kind_without_a_tail_has_no_allowed_place():
    scene = a_scene([Unit(position="p", number="1", at=0.0, kind="k", point=(0, 4, 1.6))])
    rig = solve_rig(scene)
    low, high = allowed_places(
        tail_bodies(rig), poses(rig, OPTIONS), tubes(rig), usable_tails(rig, OPTIONS)
    )
    assert np.isnan(low).all()
    assert np.isnan(high).all()


def test_allowed_places_stop_at_the_end_of_the_pipe():
    near_the_end = Unit(position="p", number="1", at=9.9, kind="k", point=(9.9, 4, 1.6))
    kind = a_kind(tail=0.9, tail_exit=(0.24, 0.1))
    rig = solve_rig(a_scene([near_the_end], kinds=[kind]))
    low, high = allowed_places(
        tail_bodies(rig), poses(rig, OPTIONS), tubes(rig), usable_tails(rig, OPTIONS)
    )
    assert high == pytest.approx([0.1])
    assert low[0] < -0.3


def test_an_aim_that_does_not_exist_has_no_stretch():
    kind = a_kind(rise=0.3, tail=0.9, tail_exit=(0.24, 0.1))
    inside = Unit(position="p", number="1", at=0.0, kind="k", point=(0.0, 0.1, 6.0 - 14 * 0.0254))
    rig = solve_rig(a_scene([inside], kinds=[kind]))
    got = stretches(tail_bodies(rig), poses(rig, OPTIONS), tubes(rig), np.array([0.25]))
    assert np.isnan(got.worst).all()
    assert np.isnan(got.focus).all()


def sampled_focus(rig, place, turns, tips):
    """Longest distance from exit to tie while the body swings about its own two axes, sampled densely.

    The solved exit is turned about the yoke's bolts (square to axis and body-up), then about the stem, by
    scipy's rotations: `turns` and `tips` are (N, samples) radians from the aim.
    """
    held, at_aim = tubes(rig), exits(rig)
    tie = held.base + place * held.along
    bolts = np.cross(rig.aims.up.T, rig.aims.axis.T)
    found = []
    for k in range(len(rig.units)):
        arm, pivot = at_aim[:, k] - rig.aims.pivot[:, k], rig.aims.pivot[:, k]
        tipped = Rotation.from_rotvec(np.outer(tips[k], bolts[k])).apply(arm)
        turned = [Rotation.from_rotvec(t * rig.arrays.stem[:, k]).apply(tipped) for t in turns[k]]
        found.append(np.linalg.norm(pivot + np.concatenate(turned) - tie[:, k], axis=1).max())
    return np.array(found)


@pytest.mark.parametrize("mount", MOUNTS)
def test_the_focus_loop_lasts_over_the_whole_swing_where_no_travel_is_typed(mount):
    # Bodies that stand over their clamp, or are clamped direct and face away, lie near yoke 180: the swing
    # goes on past it. Stopped there it told 0.468 m of one unit where 0.518 m are needed.
    rig = tail_rig(mount, 60, seed=4)
    assert rig.arrays.yoke_max == pytest.approx(np.pi)
    place = np.linspace(-0.3, 0.3, 60)
    extra = np.radians(np.linspace(-15, 15, 31))
    there = np.tile(extra, (60, 1))
    got = stretches(tail_bodies(rig), poses(rig, OPTIONS), tubes(rig), place).focus
    lone = np.array([unit.system is None for unit in rig.units])
    needed = sampled_focus(rig, place, there, there)
    assert (got >= needed - 1e-9).all()
    assert got[lone] == pytest.approx(needed[lone], abs=1e-3)


@pytest.mark.parametrize("mount", ["under", "over", "direct"])
def test_the_focus_loop_lasts_over_the_swing_to_every_target_of_the_system(mount):
    # All units hang at one place, so each must be able to take every other's pose, and all between.
    units = [(x, 4.0, 1.6) for x in (-3.0, 0.5, 3.0)]
    scene = a_system(units)
    if mount != "under":
        given = {"mount": mount, "arm_to": 270.0 if mount == "direct" else None}
        some = tuple(msgspec.structs.replace(u, **given) for u in scene.units)
        scene = msgspec.structs.replace(scene, units=some)
    if mount == "direct":
        boom = Boom(name="p", x=4.0, y=0.0, height=6.0)
        scene = msgspec.structs.replace(scene, pipes=(), booms=(boom,))
    rig = solve_rig(scene)
    place = np.full(3, 0.25)
    got = stretches(tail_bodies(rig), poses(rig, OPTIONS), tubes(rig), place).focus
    extra = np.radians(15.0)
    spans = []
    for angle in (rig.aims.turn, rig.aims.yoke):
        off = (angle[None, :] - angle[:, None] + np.pi) % (2 * np.pi) - np.pi
        spans.append(np.linspace(off.min(axis=1) - extra, off.max(axis=1) + extra, 61, axis=1))
    needed = sampled_focus(rig, place, *spans)
    assert (got >= needed - 1e-9).all()
