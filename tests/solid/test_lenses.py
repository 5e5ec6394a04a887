"""Units as lenses."""

from __future__ import annotations

from math import log, radians, sin, tan

import numpy as np
import pytest
from scipy.integrate import quad

from aimcalc.geometry.rays import lens_frames
from aimcalc.solid.light_lost import field_edges, lenses_of, stretches
from tests.solid.hanging import a_body, a_rig, a_unit

OVAL = {"oval": (24.0, 48.0), "field": 34.0}


def world_rays(rig, k, rays=2000):
    """Directions of one unit's rays on the stage, (3, R)."""
    lenses = lenses_of(rig, np.arange(len(rig.units)), rays=rays)
    frame = lens_frames(lenses.axis[:, [k]], lenses.up[:, [k]])[:, 0]
    return frame @ lenses.patterns[lenses.which[k]]


def spread(rig, k, across):
    """Greatest angle of a unit's rays off its axis towards a direction, degrees."""
    ways = world_rays(rig, k)
    return np.degrees(np.arctan2(np.abs(across @ ways), rig.aims.axis[:, k] @ ways)).max()


def test_units_of_one_kind_share_their_rays():
    kinds = [a_body(), a_body("w", field=40.0)]
    rig = a_rig([a_unit(1), a_unit(2, 1.0), a_unit(3, 2.0, kind="w")], kinds=kinds)
    lenses = lenses_of(rig, np.arange(3))
    assert lenses.patterns.shape == (2, 3, 500)
    by_kind = [kind.name for kind in rig.kinds]
    assert [by_kind[k] for k in np.argsort(lenses.which, kind="stable")] in (
        ["k", "k", "w"],
        ["w", "k", "k"],
    )


def test_a_lens_is_three_quarters_of_its_body_across_and_a_point_where_none_is_known():
    rig = a_rig(
        [a_unit(1), a_unit(2, 1.0, kind="bare")], kinds=[a_body(), a_body("bare", width=None)]
    )
    radius = dict(zip(rig.names, lenses_of(rig, np.arange(2)).radius.tolist(), strict=True))
    assert radius["p/1"] == pytest.approx(3 * 0.0254)  # 6 in of 8 in
    assert radius["p/2"] == 0.0


def test_round_rays_fill_the_field_to_its_edge_and_no_further():
    rig = a_rig()
    ways = world_rays(rig, 0)
    off = np.degrees(np.arccos(np.clip(rig.aims.axis[:, 0] @ ways, -1, 1)))
    assert 12.7 < off.max() <= 13.0


@pytest.mark.parametrize("beam", [26.0, 24.7, 18.0])
def test_rays_are_spread_as_the_light_is_whatever_the_beam(beam):
    # The share within 0.9 of the way to the edge, by quadrature of exp(-(t / w)^n) sin t; a beam as wide as
    # its field is even up to the edge: (1 - cos 11.7) / (1 - cos 13).
    ways = world_rays(a_rig(kinds=[a_body(field=26.0, beam=beam)]), 0, rays=4000)
    axis = a_rig(kinds=[a_body(field=26.0, beam=beam)]).aims.axis[:, 0]
    within = np.mean(axis @ ways >= np.cos(np.radians(11.7)))
    n = np.inf if beam == 26 else log(log(10) / log(2)) / log(26.0 / beam)

    def light(t):
        return sin(t) * (1.0 if n == np.inf else 10 ** -((t / radians(13)) ** n))

    whole, inner = (quad(light, 0, radians(end))[0] for end in (13, 11.7))
    assert within == pytest.approx(inner / whole, abs=0.004)


@pytest.mark.parametrize(("turn", "wide"), [(None, "across"), (0.0, "across"), (90.0, "up")])
def test_an_oval_lies_across_unless_it_is_turned(turn, wide):
    rig = a_rig([a_unit(turn=turn)], kinds=[a_body(**OVAL)])
    # The unit faces straight US: level across its axis is the stage's own across.
    across = np.array([1.0, 0.0, 0.0])
    up = np.cross(across, rig.aims.axis[:, 0])
    expected = {"across": (24.0, 12.0), "up": (12.0, 24.0)}[wide]
    assert (spread(rig, 0, across), spread(rig, 0, up)) == pytest.approx(expected, rel=0.03)


def test_a_turn_goes_anticlockwise_as_seen_along_the_beam():
    # Straight US, SL is on the right: anticlockwise by 30 lifts the SL end of the long way.
    rig = a_rig([a_unit(turn=30.0)], kinds=[a_body(**OVAL)])
    right = np.array([1.0, 0.0, 0.0])
    up = np.cross(right, rig.aims.axis[:, 0])
    lifted = np.cos(radians(30)) * right + np.sin(radians(30)) * up
    lowered = np.cos(radians(30)) * right - np.sin(radians(30)) * up
    assert spread(rig, 0, lifted) == pytest.approx(24.0, rel=0.03)
    assert spread(rig, 0, lowered) < 20.0


def test_an_oval_straight_down_lies_across_the_stage():
    rig = a_rig([a_unit(point=(0.0, 0.0, 0.0))], kinds=[a_body(**OVAL)])
    assert spread(rig, 0, np.array([1.0, 0.0, 0.0])) == pytest.approx(24.0, rel=0.03)
    assert spread(rig, 0, np.array([0.0, 1.0, 0.0])) == pytest.approx(12.0, rel=0.03)


def test_the_edge_of_a_field_is_half_of_it_off_the_axis():
    rig = a_rig([a_unit(1), a_unit(2, 1.0, kind="o")], kinds=[a_body(), a_body("o", **OVAL)])
    plain, oval = rig.names.index("p/1"), rig.names.index("p/2")
    edges = field_edges(rig, np.array([plain, oval]), 360)
    off = np.degrees(np.arccos((edges * rig.aims.axis[:, [plain, oval], None]).sum(axis=0)))
    assert off[0] == pytest.approx(13.0)
    assert (off[1].min(), off[1].max()) == pytest.approx((12.0, 24.0), abs=0.01)


def test_stretches_are_the_tangents_of_an_oval_over_the_round_field():
    rig = a_rig([a_unit(1, kind="o")], kinds=[a_body("o", **OVAL)])
    half = tan(radians(17.0))
    assert stretches(rig)[:, 0] == pytest.approx([tan(radians(12)) / half, tan(radians(24)) / half])
    assert stretches(a_rig())[:, 0].tolist() == [1.0, 1.0]


def test_a_kind_whose_beam_is_its_field_is_taken_all_the_same():
    rig = a_rig(kinds=[a_body(beam=26.0)])
    assert np.isfinite(lenses_of(rig, np.arange(1)).patterns).all()


def test_a_rig_without_units_has_no_lenses():
    assert lenses_of(a_rig([]), np.zeros(0, dtype=int)).patterns.shape == (0, 3, 500)
