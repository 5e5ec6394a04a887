"""A rig from the side."""

from __future__ import annotations

from math import atan, cos, degrees, radians, sin, tan

import numpy as np
import pytest

from aimcalc.scene.model import Pipe, Solid
from aimcalc.solid.side_view import (
    NOWHERE,
    beams,
    body_corners,
    centre_plane,
    crossings,
    cut_solids,
    plane_of,
)
from tests.solid.hanging import a_body, a_panel, a_rig, a_unit


def test_seen_from_stage_left_upstage_is_on_the_right():
    seen = centre_plane().seen(np.array([[5.0, -2.0], [3.0, -4.0], [1.0, 2.0]]))
    assert seen.tolist() == [[3.0, -4.0], [1.0, 2.0]]


def test_the_plane_of_a_unit_holds_its_axis_and_runs_upstage():
    rig = a_rig([a_unit(point=(3.0, 4.0, 1.65)), a_unit(2, 1.0, point=(4.0, -4.0, 1.65))])
    for k in range(2):
        plane = plane_of(rig, k)
        square = np.array([plane.along[1], -plane.along[0], 0.0])
        for point in (rig.aims.lens[:, k], rig.arrays.point[:, k]):
            assert square @ (point - plane.origin) == pytest.approx(0, abs=1e-12)
        assert plane.along[1] > 0
        assert plane.origin == pytest.approx([*rig.aims.pivot[:2, k], 0.0])


def test_the_plane_of_a_unit_that_points_across_runs_to_stage_left_and_a_plumb_one_upstage():
    rig = a_rig([a_unit(1, point=(-4.0, 0.0, 1.65)), a_unit(2, 1.0, point=(1.0, 0.0, 0.0))])
    across, plumb = (plane_of(rig, rig.names.index(name)).along for name in ("p/1", "p/2"))
    assert across == pytest.approx([1.0, 0.0, 0.0])
    assert plumb == pytest.approx([0.0, 1.0, 0.0])


def test_solids_are_cut_where_the_plane_goes_through_them():
    stand = Solid(name="platform", box=(-1.0, 2.0, 0.0, 4.0, 5.0, 0.8))
    aside = Solid(name="aside", box=(2.0, 2.0, 0.0, 4.0, 5.0, 0.8))
    told = dict(cut_solids(a_rig(solids=[stand, aside, a_panel("wall", 8, 0, 4)]), centre_plane()))
    assert set(told) == {"platform", "wall"}
    assert told["platform"].min(axis=(1, 2)) == pytest.approx([2.0, 0.0])
    assert told["platform"].max(axis=(1, 2)) == pytest.approx([5.0, 0.8])
    assert told["wall"][0] == pytest.approx(8.0)


def test_a_pipe_passes_through_the_plane_where_its_own_line_does():
    sloping = Pipe(name="s", start=(-2.0, 1.0, 5.0), end=(6.0, 3.0, 7.0))
    (here,) = crossings(sloping, centre_plane())
    assert here == pytest.approx([0.0, 1.5, 5.5])
    beside = Pipe(name="b", start=(2.0, 0.0, 5.0), end=(6.0, 0.0, 5.0))
    along = Pipe(name="a", start=(0.0, -3.0, 5.0), end=(0.0, 3.0, 5.0))
    assert crossings(beside, centre_plane()) == []
    assert crossings(along, centre_plane()) == []


def test_a_curved_pipe_passes_through_the_plane_once_for_each_time_it_crosses_it():
    """Half a circle of 3 m round (0, 5), open to SL: it crosses the centre line at y = 2 and y = 8."""
    bow = Pipe(name="c", start=(0.5, 2.042, 5), through=(-3.0, 5.0, 5), end=(0.5, 7.958, 5))
    first, last = crossings(bow, centre_plane())
    assert first == pytest.approx([0.0, 2.0, 5.0], abs=0.005)
    assert last == pytest.approx([0.0, 8.0, 5.0], abs=0.005)


def test_field_edges_fall_where_the_cone_of_the_trade_says():
    # H / tan(b + g) and H / tan(b - g) from under the lens, b the tip and g half the field.
    rig = a_rig([a_unit(point=(0.0, 3.0, 0.0))])
    shown = beams(rig, np.array([0]))
    lens, b, g = rig.aims.lens[:, 0], rig.aims.down[0], radians(13)
    for end, angle in ((shown.lower, b + g), (shown.upper, b - g), (shown.axis, b)):
        assert end[:, 0] == pytest.approx([0.0, lens[1] + lens[2] / tan(angle), 0.0], abs=1e-5)
    assert shown.fell.all()


def test_an_edge_above_level_falls_on_nothing():
    rig = a_rig([a_unit(point=(0.0, 9.0, 5.0))])
    shown = beams(rig, np.array([0]))
    assert shown.fell[:, 0].tolist() == [True, False, True]
    assert np.linalg.norm(shown.upper[:, 0] - rig.aims.lens[:, 0]) == pytest.approx(NOWHERE)


@pytest.mark.parametrize(("turn", "half"), [(0.0, 12.0), (90.0, 24.0)])
def test_an_ovals_edges_are_those_of_the_way_it_lies(turn, half):
    rig = a_rig(
        [a_unit(point=(0.0, 3.0, 0.0), turn=turn)], kinds=[a_body(oval=(24.0, 48.0), field=34.0)]
    )
    shown = beams(rig, np.array([0]))
    way = shown.upper[:, 0] - rig.aims.lens[:, 0]
    off = degrees(np.arccos(way @ rig.aims.axis[:, 0] / np.linalg.norm(way)))
    assert off == pytest.approx(half, abs=0.01)


def test_an_oval_at_an_angle_has_the_edge_of_its_ellipse():
    # Tangents of an ellipse with half-axes tan 12 (up) and tan 24 (across), turned by 30.
    rig = a_rig(
        [a_unit(point=(0.0, 3.0, 0.0), turn=30.0)], kinds=[a_body(oval=(24.0, 48.0), field=34.0)]
    )
    shown = beams(rig, np.array([0]))
    way = shown.lower[:, 0] - rig.aims.lens[:, 0]
    off = degrees(np.arccos(way @ rig.aims.axis[:, 0] / np.linalg.norm(way)))
    a, b = tan(radians(12)), tan(radians(24))
    edge = 1 / np.hypot(cos(radians(30)) / a, sin(radians(30)) / b)
    assert off == pytest.approx(degrees(atan(edge)), abs=0.01)


def test_without_the_ray_engine_light_falls_on_deck_and_platforms_all_the_same(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "embreex.mesh_construction", None)
    stand = Solid(name="platform", box=(-1.0, 1.0, 0.0, 1.0, 9.0, 0.8), stand_on=True)
    shown = beams(a_rig([a_unit(point=(0.0, 3.0, 1.0))], solids=[stand]), np.array([0]))
    assert shown.axis[2, 0] == pytest.approx(0.8)


def test_a_body_is_seen_in_the_outline_of_its_corners():
    rig = a_rig(
        [a_unit(1), a_unit(2, 1.0, kind="bare")], kinds=[a_body(), a_body("bare", width=None)]
    )
    corners = body_corners(rig, rig.names.index("p/1"))
    assert corners.shape == (3, 32)
    assert body_corners(rig, rig.names.index("p/2")).shape == (3, 0)
