"""One degree of pan and of down, against bodies turned by scipy and their axes met with the plane."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from aimcalc.geometry.aim import aim
from aimcalc.geometry.deck import Deck
from aimcalc.geometry.pools import per_degree
from tests.geometry.test_aim import mounted

LEAN = np.array((0.3, -0.5, -0.8)) / np.linalg.norm((0.3, -0.5, -0.8))
SIDE = np.cross(LEAN, (0.2, 0.9, 0.1)) / np.linalg.norm(np.cross(LEAN, (0.2, 0.9, 0.1)))
STEMS = {
    "plumb": (np.array((0.0, 0, -1)), np.array((0.0, 1, 0))),
    "over": (np.array((0.0, 0, 1)), np.array((0.0, 1, 0))),
    "leaning": (LEAN, SIDE),
    "level": (np.array((1.0, 0, 0)), np.array((0.0, 1, 0))),
}


def moved(given, told, about: np.ndarray, degrees: float) -> float:
    """How far the spot goes when everything from the pivot on turns about a line; infinite: off the plane."""
    pivot, point = told.pivot[:, 0], given.point[:, 0]
    turn = Rotation.from_rotvec(about * np.radians(degrees))
    lens, axis = pivot + turn.apply(told.lens[:, 0] - pivot), turn.apply(told.axis[:, 0])
    reach = (point[2] - lens[2]) / axis[2]
    return float(np.linalg.norm(lens + reach * axis - point)) if reach > 0 else np.inf


def level_across(axis: np.ndarray) -> np.ndarray:
    across = np.array((axis[1], -axis[0], 0.0))
    return across / np.linalg.norm(across)


@pytest.mark.parametrize("rise", [0.0, 0.05])
@pytest.mark.parametrize("stem", STEMS)
@pytest.mark.parametrize(
    "point", [(1.5, 4, -3), (1.5, 4, -0.3), (-2, 3, 2), (0.3, 0.2, -4), (3, 1, -0.1)]
)
def test_the_larger_move_of_both_senses_is_told(point, stem, rise):
    a, r = (part[:, None] for part in STEMS[stem])
    given = mounted([point], stem=a, reference=r, drop=0.4, nose=0.2, rise=rise)
    told = aim(given, Deck())
    turned, tipped = per_degree(given, told)
    for about, found in ((STEMS[stem][0], turned), (level_across(told.axis[:, 0]), tipped)):
        larger = max(moved(given, told, about, sense) for sense in (1.0, -1.0))
        assert found[0] == (
            pytest.approx(larger) if np.isfinite(larger) else pytest.approx(np.nan, nan_ok=True)
        )


def test_a_degree_over_the_edge_has_no_move():
    """0.9 degrees down: a degree further up the axis is above level. 1.1 down it still lands, far off."""
    off, on = (mounted([(0, 5, -5 * np.tan(np.radians(down)))]) for down in (0.9, 1.1))
    assert np.isnan(per_degree(off, aim(off, Deck()))[1][0])
    fall = 5 * np.tan(np.radians(1.1))
    assert per_degree(on, aim(on, Deck()))[1] == pytest.approx([fall / np.tan(np.radians(0.1)) - 5])


def test_a_level_axis_under_a_plumb_stem_pans_within_the_plane():
    given = mounted([(0, 5, 0)])
    turned, tipped = per_degree(given, aim(given, Deck()))
    assert turned == pytest.approx([10 * np.sin(np.radians(0.5))])
    assert np.isnan(tipped[0])


def test_no_aim_has_no_move():
    given = mounted([(0, 0.03, 0)], rise=0.05)
    assert np.isnan(np.concatenate(per_degree(given, aim(given, Deck())))).all()
