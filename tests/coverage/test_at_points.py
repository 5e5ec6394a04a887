"""Light at listed points, by system, with the units that give most of it."""

from __future__ import annotations

import math

import numpy as np
import pytest

from aimcalc.coverage.study import study_of
from aimcalc.coverage.survey import light_at
from aimcalc.light.illuminance import illuminance
from aimcalc.scene.model import Solid
from tests.lit import FACE, a_rig, a_unit

UNITS = [
    a_unit(1, 0.0, to=(0.0, 3.0), system="front"),
    a_unit(2, 1.0, to=(0.0, 3.0), system="front"),
    a_unit(3, -1.0, to=(0.0, 3.0), system="side"),
    a_unit(4, 3.0, to=(0.0, 3.0), system=None),
]
POINT = (0.0, 3.0, FACE)


def test_one_unit_by_hand():
    # 16000 cd, 5 m away (3 up the stage, 4 down): on the level 16000/25 * 4/5, facing it 16000/25 * 3/5,
    # on the cylinder 16000/25 * 3/5 / pi
    rig = a_rig([UNITS[0]])
    (front, every) = light_at(study_of(rig), [POINT])
    assert front.level == pytest.approx(512.0)
    assert front.house == pytest.approx(384.0)
    assert front.cylindrical == pytest.approx(384.0 / math.pi)
    assert front.strongest == [(0, pytest.approx(1.0))]
    assert (every.system, every.level) == ("all", pytest.approx(512.0))


def test_every_point_has_every_system_and_all_is_their_sum_and_the_rest():
    study = study_of(a_rig(UNITS))
    points = [POINT, (1.0, 1.0, 0.5)]
    found = light_at(study, points)
    names = list(study.systems)
    assert set(names) == {"front", "side", "all"}
    assert [(f.point, f.system) for f in found] == [(p, s) for p in points for s in names]
    lamps = study.sources.lamps
    whole = illuminance(lamps, np.array(points).T, ("level", "house", "cylindrical"))
    for k, every in enumerate(found[2::3]):
        np.testing.assert_allclose((every.level, every.house, every.cylindrical), whole[:, k])


def test_the_strongest_units_come_first_and_at_most_three():
    every = light_at(study_of(a_rig(UNITS)), [POINT])[-1]
    shares = [share for _, share in every.strongest]
    assert len(shares) == 3
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) <= 1


def test_a_point_behind_a_wall_is_dark_and_names_nobody():
    wall = Solid(name="wall", panel=((-9, 2, 0), (9, 2, 0), (9, 2, 9), (-9, 2, 9)))
    for light in light_at(study_of(a_rig(UNITS, solids=[wall])), [POINT]):
        assert (light.level, light.house, light.cylindrical) == (0, 0, 0)
        assert light.strongest == []


def test_many_points_go_in_lots(monkeypatch):
    study = study_of(a_rig(UNITS))
    points = [(x / 10, 1.0, FACE) for x in range(20)]
    whole = light_at(study, points)
    monkeypatch.setattr("aimcalc.coverage.study.AT_ONCE", 12)
    for one, other in zip(light_at(study, points), whole, strict=True):
        assert one[:2] == other[:2]
        assert one[2:5] == pytest.approx(other[2:5])
    assert light_at(study, []) == []
