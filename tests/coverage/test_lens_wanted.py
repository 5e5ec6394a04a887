"""The field that is wanted of each unit."""

from __future__ import annotations

import math

import numpy as np
import pytest

from aimcalc.coverage.lens_wanted import AS_IS, KEPT, MEETS, POOL, wanted_of
from aimcalc.light.illuminance import contributions
from aimcalc.scene.model import Target
from tests.lit import a_lamp, a_rig, a_unit, lamps_of

ROW = [Target(name=f"area {k}", x=2.0 * k - 2, y=0.0) for k in range(3)]
UNITS = [a_unit(k, 2.0 * k - 2, target=f"area {k}") for k in range(3)]


def wanted(units=UNITS, **more):
    rig = a_rig(units, ROW, **more)
    pool, keep = more.pop("pool", None), more.pop("keep", ())
    return rig, dict(zip(rig.names, wanted_of(rig, pool, keep), strict=True))


def test_with_the_wanted_field_half_the_middles_light_is_left_half_way():
    _, found = wanted()
    assert {want.why for want in found.values()} == {MEETS}
    middle = found["p/1"]
    assert set(middle.meets) == {"area 0", "area 2"}
    assert found["p/0"].meets == ("area 1",)
    kinds = [a_lamp(field=math.degrees(middle.field))]
    lamps = lamps_of(a_rig(UNITS, ROW, kinds=kinds))
    at = {tuple(lens.round(6)): k for k, lens in enumerate(lamps.lens.T)}[(0.0, 0.0, 5.0)]
    points = np.array([[0.0, 1.0], [0, 0], [1, 1]])
    own, seam = contributions(lamps, points)[0, at]
    assert seam / own == pytest.approx(0.5)


# The seam is 1 m aside at 4 m: t = atan(1 / 4) off the axis, where a level plane has cos^3 t of the
# middle's light. (t / w)^n = ln(2 cos^3 t) leaves half of it, the field's edge has (field / 2 / w)^n = ln
# 10, and n follows from beam over field. A beam as wide as its field is full to the edge: the field just
# reaches the seam.
@pytest.mark.parametrize("share", [1.0, 0.95, 0.5])
def test_the_sharper_the_profile_the_narrower_the_wanted_field(share):
    _, found = wanted(kinds=[a_lamp(beam=60.0 * share)])
    t = math.atan(1 / 4)
    if share == 1.0:
        assert found["p/1"].field == pytest.approx(2 * t, rel=0.002)
        return
    n = math.log(math.log(10) / math.log(2)) / math.log(1 / share)
    over = math.log(10) / math.log(2 * math.cos(t) ** 3)
    assert found["p/1"].field == pytest.approx(2 * t * over ** (1 / n))


def test_neighbours_on_the_diagonal_are_none():
    square = [Target(name=f"{i}{j}", x=2.0 * i, y=2.0 * j) for i in range(2) for j in range(2)]
    units = [a_unit(k, 0.0, target=t.name) for k, t in enumerate(square)]
    rig = a_rig(units, square)
    first = wanted_of(rig)[rig.names.index("p/0")]
    assert set(first.meets) == {"01", "10"}


def test_a_pool_is_never_wanted_narrower_than_the_way_to_the_nearest_face():
    # the neighbour lies nearly on the ray itself, so that a pencil of light would do to "meet" it
    targets = [Target(name="here", x=0.0, y=1.0), Target(name="next", x=0.0, y=0.95, z=0.15)]
    units = [a_unit(1, 0.0, target="here"), a_unit(2, 3.0, target="next")]
    rig = a_rig(units, targets)
    want = wanted_of(rig)[rig.names.index("p/1")]
    assert want.why == MEETS
    throw = math.dist((0, 0, 5), (0, 1, 1))
    assert 2 * throw * math.tan(want.field / 2) == pytest.approx(0.05)


# 8 ft at a throw of 28 ft is 16.2602 degrees (multiplying factor 0.285714).
def test_a_pool_that_is_asked_for_is_wanted_of_every_system():
    targets = [Target(name="a", x=0.0, y=0.0, z=5 - 28 * 0.3048 - 1)]
    units = [a_unit(1, 0.0, target="a"), a_unit(2, 1.0, target="a", system=None)]
    rig = a_rig(units, targets)
    found = dict(zip(rig.names, wanted_of(rig, 8 * 0.3048), strict=True))
    assert found["p/1"].why == POOL
    assert math.degrees(found["p/1"].field) == pytest.approx(16.2602, abs=1e-4)
    assert found["p/2"].why == AS_IS


def test_specials_patterns_and_units_without_a_neighbour_stay_as_they_are():
    special = [a_unit(k, u.at, target=u.target, system=None) for k, u in enumerate(UNITS)]
    assert {w.why for w in wanted(special)[1].values()} == {AS_IS}
    pattern = wanted(kinds=[a_lamp(has_gobo=True)])[1]
    assert {w.why for w in pattern.values()} == {AS_IS}
    alone = wanted(UNITS[:1])[1]
    assert {w.why for w in alone.values()} == {AS_IS}
    assert math.degrees(alone["p/0"].field) == pytest.approx(60.0)


def test_a_unit_without_an_aim_stays_as_it_is():
    units = [*UNITS[1:], a_unit(9, 0.0, point=(0.0, 0.0, 4.95))]
    rig = a_rig(units, ROW, kinds=[a_lamp(nose=0.1)])
    assert wanted_of(rig)[rig.names.index("p/9")].why == AS_IS


def test_systems_that_are_kept_say_so():
    rig = a_rig(UNITS, ROW)
    assert {w.why for w in wanted_of(rig, keep=["wash"])} == {KEPT}
    assert {w.why for w in wanted_of(rig, keep=["other"])} == {MEETS}
