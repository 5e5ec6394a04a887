"""Tolerances of ovals and of clamps that are swung out, against the rim of the field turned by scipy."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stops import match_leaders
from tests.rigs import a_kind, a_scene

DROP = 14 * 0.0254
DOWN_30 = (0.0, 4.35 * np.sqrt(3), 6.0 - DROP - 4.35)  # 4.35 below the pivot of a pipe at 6 m


def solved(*, oval=None, turn=None, share=0.25, point=DOWN_30, mount="under", **more) -> Rig:
    unit = Unit(
        position="p", number="1", at=0.0, kind="k", point=point, turn=turn, mount=mount, **more
    )
    kind = a_kind(oval=oval, field=20.0)
    return solve_rig(a_scene([unit], kinds=[kind], tolerance=share))


@pytest.mark.parametrize(
    ("turn", "down", "across"), [(0.0, 15, 30), (90.0, 30, 15), (None, 15, 30)]
)
def test_an_oval_allows_a_share_of_its_width_along_each_miss(turn, down, across):
    """15 by 30 degrees, a quarter: 3.75 one way, 7.5 the other; pan has more by cos 30."""
    (told,) = solved(oval=(15.0, 30.0), turn=turn).answers
    assert told.down == pytest.approx(30)
    assert told.down_tolerance == pytest.approx(down / 4)
    assert told.pan_tolerance == pytest.approx(across / 4 / np.cos(np.radians(30)))


def test_a_round_field_allows_the_same_every_way():
    rig = solved()
    (told,) = rig.answers
    assert told.down_tolerance == pytest.approx(5)
    assert told.pan_tolerance == pytest.approx(5 / np.cos(np.radians(30)))
    assert np.degrees(rig.tolerances.heading) == pytest.approx([told.pan_tolerance])
    assert np.degrees(rig.tolerances.least) == pytest.approx([5])


def rim_at(rig: Rig, turned: Rotation, level: np.ndarray | None = None) -> float:
    """Where the point lies in the field of the unit turned so: 1 on the oval's rim, 0 in its middle."""
    point = turned.inv().apply(rig.arrays.point[:, 0] - rig.aims.lens[:, 0])
    axis = rig.aims.axis[:, 0]
    right = np.array((axis[1], -axis[0], 0.0)) / np.hypot(axis[0], axis[1])
    a = np.radians(rig.units[0].turn or 0.0)
    wide = np.cos(a) * right + np.sin(a) * np.cross(right, axis)
    narrow = np.cross(axis, wide)
    halves = [np.tan(np.radians(full / 2)) for full in rig.kinds[0].oval or ()]
    return float(np.hypot(point @ narrow / halves[0], point @ wide / halves[1]) / (point @ axis))


@pytest.mark.parametrize("turn", [0.0, 20.0, 45.0, 70.0, 90.0, 130.0, -35.0])
def test_of_an_askew_oval_half_the_field_is_to_its_rim_up_and_down(turn):
    """A share of a half: tipped by what is allowed, the point lies on the rim. Exact at any angle."""
    rig = solved(oval=(16.0, 40.0), turn=turn, share=0.5)
    x, y, _ = rig.aims.axis[:, 0]
    about = np.array((y, -x, 0.0)) / np.hypot(x, y)
    tip = Rotation.from_rotvec(about * rig.tolerances.down[0])
    assert rim_at(rig, tip) == pytest.approx(1)


@pytest.mark.parametrize("turn", [0.0, 20.0, 90.0, -35.0])
@pytest.mark.parametrize("mount", ["under", "out"])
def test_turned_at_its_dial_by_what_is_allowed_the_point_lies_on_the_rim(mount, turn):
    """A field of 1 by 2.5 degrees, so that small angles hold; swung out 40 the dial is not the heading."""
    more = {"swing_out": 40.0, "out_to": "US"} if mount == "out" else {}
    rig = solved(oval=(1.0, 2.5), turn=turn, share=0.5, point=(2.0, 5.0, 1.5), mount=mount, **more)
    for about, angle in (
        (rig.arrays.stem[:, 0], rig.tolerances.pan[0]),
        (np.array((0.0, 0.0, 1.0)), rig.tolerances.heading[0]),
    ):
        sides = [rim_at(rig, Rotation.from_rotvec(about * angle * sense)) for sense in (1.0, -1.0)]
        assert sides == pytest.approx([1, 1], abs=0.03)
    same = rig.tolerances.pan[0] == pytest.approx(rig.tolerances.heading[0])
    assert same == (mount == "under")


def test_a_match_spends_half_of_the_narrow_way():
    """Axes 0.7 degrees apart, both printed as 1; a quarter of 4 is 1: half of it is too little."""
    pans = np.radians((0.65, 1.35))
    points = [(0.5 * k + 50 * np.sin(p), 50 * np.cos(p), 5.6) for k, p in enumerate(pans)]
    units = [
        Unit(position="p", number=str(k), at=0.5 * k, kind="k", point=p)
        for k, p in enumerate(points)
    ]

    def leaders(oval: tuple[float, float]) -> list[int | None]:
        return match_leaders(solve_rig(a_scene(units, kinds=[a_kind(oval=oval)])))

    assert leaders((14.0, 14.0)) == [None, 0]
    assert leaders((4.0, 49.0)) == [None, None]


def test_straight_along_the_stem_any_pan_will_do_for_an_oval_too():
    (told,) = solved(oval=(15.0, 30.0), point=(0.0, 0.0, 1.0)).answers
    assert (told.pan, told.pan_tolerance) == (None, None)


def test_an_oval_without_an_aim_tells_a_share_of_its_round_field():
    kind = a_kind(oval=(15.0, 30.0), field=20.0, rise=0.1)
    unit = Unit(position="p", number="1", at=0.0, kind="k", point=(0.0, 0.05, 6.0 - DROP))
    (told,) = solve_rig(a_scene([unit], kinds=[kind])).answers
    assert (told.yoke, told.pan_tolerance) == (None, None)
    assert told.down_tolerance == pytest.approx(5)
