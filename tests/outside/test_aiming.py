"""Aims against packages for angles and robots, another root finder and a renderer's rotations."""

from __future__ import annotations

from itertools import product

import numpy as np
import pymap3d
import pyradiance
import pytest
from scipy.optimize import least_squares

from aimcalc.scene.model import Stand, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene, random_scene
from tests.studies import cases

MOUNTS = ["under", "over", "out", "arm", "direct", "stand"]


def lens_at_origin(points: np.ndarray) -> list:
    """Answers of units whose lens is the origin, each pointed at one of `points` (N, 3)."""
    units = [
        Unit(position=f"s{k}", number="1", kind="k", mount="stand", point=tuple(p))
        for k, p in enumerate(points.tolist())
    ]
    stands = [Stand(name=f"s{k}", x=0.0, y=0.0, z=0.0) for k in range(len(points))]
    kind = a_kind(drop_under=0.0, drop_over=0.0)
    return solve_rig(a_scene(units, stands=stands, pipes=[], kinds=[kind])).answers


# Azimuth, elevation, range by pymap3d 3.2.0 `enu2aer`; the third also by astropy 8.0.2 and skyfield 1.55.
GEO = [
    ((1, 1, 1), 45, 35.2643896828, 1.7320508076),
    ((3, 4, 0), 36.8698976458, 0, 5),
    ((3, 4, -12), 36.8698976458, -67.3801350520, 13),
    ((-5, 0, -5), 270, -45, 7.0710678119),
    ((0, -7, -7), 180, -45, 9.8994949366),
    ((2, -10, -18), 168.6900675260, -60.4659427495, 20.6881608656),
    ((-8, 6, -24), 306.8698976458, -67.3801350520, 26),
    ((1, 2, -2), 26.5650511771, -41.8103148958, 3),
    ((-4.5, 10.5, -14), 336.8014094864, -50.7863910005, 18.0693109996),
]


@pytest.mark.parametrize(("point", "azimuth", "elevation", "distance"), GEO)
def test_heading_down_and_throw_agree_with_the_printed_rows(point, azimuth, elevation, distance):
    (told,) = lens_at_origin(np.array([point], float))
    assert told.heading == pytest.approx(azimuth, abs=1e-9)
    assert told.down == pytest.approx(-elevation, abs=1e-9)
    assert told.throw == pytest.approx(distance, abs=1e-9)


def test_heading_and_down_agree_with_pymap3d_on_random_points():
    points = np.random.default_rng(3).uniform(-12, 12, (2000, 3))
    azimuth, elevation, distance = pymap3d.enu2aer(*points.T, deg=True)
    told = lens_at_origin(points)
    np.testing.assert_allclose([t.heading for t in told], azimuth, atol=1e-9)
    np.testing.assert_allclose([t.down for t in told], -elevation, atol=1e-9)
    np.testing.assert_allclose([t.throw for t in told], distance, atol=1e-9)


def test_an_axis_off_its_pivot_turns_as_a_robot_arm_with_an_offset_shoulder_does():
    """roboticstoolbox-python 1.5.0, `Puma560().fkine`: its shoulder is 0.15005 m off its waist.

    At 0.3 rad the wrist is at (0.40240737, -0.03258589) from the waist, so 0.3 rad is what turns an axis
    that far off its pivot through that point. Here the waist is the pivot: 0.40240737 US, 0.03258589
    higher.
    """
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=(0.0, 0.40240737, 6.03258589))
    kind = a_kind(drop_under=0.0, rise=0.15005, nose=0.0)
    (told,) = solve_rig(a_scene([unit], pipes=[a_pipe()], kinds=[kind])).answers
    assert np.radians(told.yoke) == pytest.approx(0.3, abs=1e-7)
    assert told.heading == 0


@pytest.mark.long
@pytest.mark.parametrize("mount", MOUNTS)
def test_of_both_ways_to_hit_the_higher_body_up_is_chosen(mount):
    """A second root finder from many starts finds no way that is more upright."""
    count = cases(3, 60)
    scene = random_scene(mount, count, seed=40 + MOUNTS.index(mount))
    rig = solve_rig(scene)
    given, aims = rig.arrays, rig.aims
    for k in range(count):
        best = -1.0
        for start in product((-2.4, -0.8, 0.8, 2.4), (-2.6, -0.6, 0.6, 2.6)):
            found = least_squares(_miss, start, args=(given, k), xtol=1e-14, ftol=1e-14, gtol=1e-14)
            if np.linalg.norm(found.fun) < 1e-8 and _ahead(found.x, given, k):
                best = max(best, _held(found.x, given, k)[1][2])
        assert best > -1.0
        assert aims.up[2, k] == pytest.approx(best, abs=1e-6)


def _held(x, given, k):
    """Axis, body-up and lens for turn and yoke x, by rotating vectors with scipy."""
    from scipy.spatial.transform import Rotation

    a, r = given.stem[:, k], given.reference[:, k]
    h = Rotation.from_rotvec(a * x[0]).apply(r)
    tip = Rotation.from_rotvec(np.cross(h, a) * x[1])
    axis, up = tip.apply(h), tip.apply(-a)
    lens = given.clamp[:, k] + given.drop[k] * a + given.nose[k] * axis + given.rise[k] * up
    return axis, up, lens


def _miss(x, given, k):
    axis, _, lens = _held(x, given, k)
    return np.cross(given.point[:, k] - lens, axis)


def _ahead(x, given, k):
    axis, _, lens = _held(x, given, k)
    return np.dot(given.point[:, k] - lens, axis) > 0


@pytest.mark.parametrize("mount", ["under", "over", "arm", "stand"])
def test_turning_a_shelf_unit_with_radiance_xform_puts_its_axis_on_the_face(mount):
    """Radiance's `xform` (pyradiance) rolls, tips, turns and carries a drawn unit: an independent rotation.

    Roll is told without its sense, so one of both senses has to fit; under a level pipe both do.
    """
    scene = random_scene(mount, 12, seed=90)
    told = [a for a in solve_rig(scene).answers if a.throw is not None]
    assert told
    for answer in told:
        kind = scene.kinds[answer.kind]
        ahead = kind.nose + answer.throw
        # Pivot, lens and face of a unit lying level, lens upstage, clip on top.
        shelf = (
            f"void polygon u 0 0 9 0 0 0 0 {kind.nose!r} {kind.rise!r} 0 {ahead!r} {kind.rise!r}\n"
        )
        told_points = np.array((answer.lens, answer.face))
        off = []
        for roll in (answer.roll, -answer.roll):
            move = pyradiance.Xform(shelf.encode()).rotatey(roll)
            out = move.rotatex(-answer.down).rotatez(-answer.heading).translate(*answer.pivot)()
            corners = np.array(out.split()[-9:], float).reshape(3, 3)
            off.append(np.abs(corners[1:] - told_points).max())
        assert min(off) < 1e-9, answer.unit
