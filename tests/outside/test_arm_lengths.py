"""Forearms as a measure, against the published measurements of people.

[ANSUR] C. C. Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007 (2014),
public data files of 4,082 men and 1,986 women: forearm-hand length, elbow to fingertip. Mean of men 18.906
in, of women 17.317 in; 5th percentile of women 404 mm, 95th of men 520 mm.
"""

import pytest

from aimcalc.hang.position import by_forearm

INCH = 0.0254


def test_ten_forearms_are_not_ten_spacings():
    ten = by_forearm(10 * 18 * INCH)
    assert ten.men / INCH == pytest.approx(10 * (18.906 - 18), abs=0.01)
    assert ten.women / INCH == pytest.approx(10 * (17.317 - 18), abs=0.01)
    assert ten.shortest == pytest.approx(10 * (0.404 - 18 * INCH), abs=1e-9)
    assert ten.longest == pytest.approx(10 * (0.520 - 18 * INCH), abs=1e-9)
