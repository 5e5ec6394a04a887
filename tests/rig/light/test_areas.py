"""Which channels light an area, and what a channel lights."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.rig.light.areas import areas_of, channel_key, channels_of
from aimcalc.rig.light.study import study_of
from aimcalc.scene.model import Solid, Target
from tests.lit import FACE, LENS, a_lamp, a_rig, a_unit, candela

TARGETS = [Target(name="SL", x=2.0, y=0.0), Target(name="SR", x=-2.0, y=0.0)]
UNITS = [
    a_unit(1, 2.0, target="SL", channel="11"),
    a_unit(2, -2.0, target="SR", channel="2"),
    a_unit(3, 0.0, target="SL", channel="11", transmission=0.01),
    a_unit(4, 1.0, target="SR", kind="spot"),
]
KINDS = [a_lamp(), a_lamp("spot", field=5.0)]


def found(**more):
    study = study_of(a_rig(UNITS, TARGETS, kinds=KINDS, **more))
    return study, areas_of(study)


def test_light_at_a_target_comes_from_its_units_with_direction_slope_and_share():
    study, areas = found()
    sl = next(area for area in areas if area.target == "SL")
    names = [study.rig.units[c.unit].number for c in sl.light]
    lux = {
        "1": 16000 / 16,  # 4 m straight above
        "3": 0.01 * 16000 / (16 + 4),  # 4 m up, 2 m to SR
    }
    assert names == ["1", "3"]  # the second is its own, far under a tenth of the first
    for comes in sl.light:
        number = study.rig.units[comes.unit].number
        assert comes.lux == pytest.approx(lux[number])
        assert comes.share == pytest.approx(lux[number] / sum(lux.values()))
        assert comes.aimed
    assert sl.light[0].down == pytest.approx(90.0)
    assert sl.light[1].bearing == pytest.approx(270.0)  # from SR
    assert sl.light[1].down == pytest.approx(np.degrees(np.arctan2(LENS - FACE, 2.0)))


def test_a_spill_of_a_tenth_of_the_brightest_counts():
    _, areas = found()
    sr = next(area for area in areas if area.target == "SR")
    spot = 16000 / (16 + 9)
    spill = candela(np.degrees(np.arctan2(4, 4))) / 32  # unit 1, 45 off its axis
    assert spill < 0.1 * 1000
    assert [c.aimed for c in sr.light] == [True, True]
    assert [c.lux for c in sr.light] == pytest.approx([1000.0, spot])
    assert sum(c.share for c in sr.light) == pytest.approx(1.0)


def test_channels_come_in_the_order_of_their_numbers_with_what_they_light():
    study, areas = found()
    channels = channels_of(study, areas)
    assert [c.channel for c in channels] == ["2", "11"]
    assert channels[0].targets == ["SR"]
    assert channels[1].targets == ["SL"]
    assert sorted(study.rig.units[k].number for k in channels[1].units) == ["1", "3"]
    assert sorted(["10", "house", "9", "1.5"], key=channel_key) == ["1.5", "9", "10", "house"]


def test_scenery_in_the_way_takes_a_unit_off_the_list():
    wall = Solid(name="wall", panel=((1, -1, 0), (1, 1, 0), (1, 1, 4), (1, -1, 4)))
    study, areas = found(solids=[wall])
    sl = next(area for area in areas if area.target == "SL")
    assert [study.rig.units[c.unit].number for c in sl.light] == ["1"]


def test_a_target_that_nothing_lights_has_an_empty_list():
    study = study_of(a_rig([], TARGETS))
    assert [area.light for area in areas_of(study)] == [[], []]
    assert channels_of(study, areas_of(study)) == []
    assert areas_of(study_of(a_rig([a_unit(1, 0.0)]))) == []
