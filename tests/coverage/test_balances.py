"""Levels at which the faces of a system read alike."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.areas import balances
from aimcalc.coverage.study import study_of
from aimcalc.scene.model import Solid, Target
from tests.lit import a_lamp, a_rig, a_unit
from tests.shows import rig_of

FAR = [Target(name="near", x=3.0, y=0.0), Target(name="far", x=-3.0, y=0.0, z=-4.0)]


def one(rig):
    (found,) = balances(study_of(rig))
    return found


# Throws of 4 and 8 m: the nearer face is lit four times as bright, so its unit goes to a quarter.
# Fields of 5 degrees keep the two apart.
def test_twice_the_throw_is_a_quarter_of_the_light():
    units = [a_unit(1, 3.0, target="near"), a_unit(2, -3.0, target="far")]
    found = one(a_rig(units, FAR, kinds=[a_lamp(field=5.0)]))
    assert found.spread_at_full == pytest.approx(4.0)
    assert found.spread == pytest.approx(1.0)
    assert found.alike
    levels = dict(zip(found.unit.tolist(), found.level.tolist(), strict=True))
    rig_levels = sorted(levels.values())
    assert rig_levels == pytest.approx([0.25, 1.0])
    assert dict(zip(found.targets, found.at_full.tolist(), strict=True)) == pytest.approx(
        {"near": 1000.0, "far": 250.0}
    )


def test_colour_counts():
    targets = [Target(name="a", x=3.0, y=0.0), Target(name="b", x=-3.0, y=0.0)]
    units = [a_unit(1, 3.0, target="a", transmission=0.2), a_unit(2, -3.0, target="b")]
    found = one(a_rig(units, targets, kinds=[a_lamp(field=5.0)]))
    assert sorted(found.level.tolist()) == pytest.approx([0.2, 1.0])


def test_spill_counts_and_levels_make_every_target_read_alike():
    rig = rig_of("playhouse")
    found = balances(study_of(rig))
    assert {b.system for b in found} == {"front cool", "front warm", "side", "back"}
    for balance in found:
        assert balance.alike
        np.testing.assert_allclose(balance.reading, balance.reading[0])
        assert balance.level.max() == pytest.approx(1.0)
        assert (balance.level > 0).all()
        assert (balance.reading <= balance.at_full + 1e-9).all()


def test_where_spill_alone_is_too_much_each_unit_goes_by_its_own_light():
    # Unit 2's axis goes through the nearer face on its way to the further one, so whatever its level it gives
    # the nearer one more: sqrt(4 + 16/9) m and sqrt(52) m away. Unit 1 hangs 4/3 m above the nearer.
    targets = [Target(name="a", x=-1.0, y=0.0, z=5 - 4 / 3 - 1), Target(name="b", x=3.0, y=0.0)]
    units = [a_unit(1, -1.0, target="a"), a_unit(2, -3.0, target="b")]
    rig = a_rig(units, targets)
    found = one(rig)
    assert not found.alike
    assert found.spread > 1.01
    own = {"1": 16000 / (16 / 9), "2": 16000 / 52}
    levels = {rig.units[k].number: v for k, v in zip(found.unit, found.level, strict=True)}
    assert levels == pytest.approx({"1": own["2"] / own["1"], "2": 1.0})


def test_a_unit_that_does_not_light_its_own_target_is_left_out():
    wall = Solid(name="wall", panel=((2, -1, 0), (2, 1, 0), (2, 1, 4.5), (2, -1, 4.5)))
    targets = [Target(name="a", x=-3.0, y=0.0), Target(name="hidden", x=3.5, y=0.0)]
    units = [a_unit(1, -3.0, target="a"), a_unit(2, 0.0, target="hidden")]
    found = one(a_rig(units, targets, solids=[wall]))
    assert found.targets == ["a"]
    assert found.unit.size == 1


def test_a_system_in_the_dark_has_no_balance():
    assert balances(study_of(a_rig([a_unit(1, 0.0)], kinds=[a_lamp(peak_cd=None)]))) == []
