"""Which channels light an area, and what a channel lights."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.areas import areas_of, channel_key, channels_of
from aimcalc.coverage.study import study_of
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
    assert names == ["1", "3"]  # the second is its own, under the 2 % that a stranger must give
    # the share is of all the light there: unit 2 spills on it, 45 off its axis, and is told with the rest
    total = sum(lux.values()) + candela(45.0) / 32
    assert sl.rest == pytest.approx(candela(45.0) / 32 / total, rel=1e-6)
    for comes in sl.light:
        number = study.rig.units[comes.unit].number
        assert comes.lux == pytest.approx(lux[number])
        assert comes.share == pytest.approx(lux[number] / total, rel=1e-6)
        assert comes.aimed
    assert sl.light[0].down == pytest.approx(90.0)
    assert sl.light[1].bearing == pytest.approx(270.0)  # from SR
    assert sl.light[1].down == pytest.approx(np.degrees(np.arctan2(LENS - FACE, 2.0)))


def test_a_spill_under_a_fiftieth_of_all_the_light_is_told_with_the_rest():
    _, areas = found()
    sr = next(area for area in areas if area.target == "SR")
    spot = 16000 / (16 + 9)
    spill = candela(np.degrees(np.arctan2(4, 4))) / 32  # unit 1, 45 off its axis
    assert spill < 0.02 * 1000
    assert [c.aimed for c in sr.light] == [True, True]
    assert [c.lux for c in sr.light] == pytest.approx([1000.0, spot])
    spill += 0.01 * candela(2 * np.degrees(np.arctan(0.5))) / 20  # unit 3, 53 off its axis
    assert sr.rest == pytest.approx(spill / (1000 + spot + spill), rel=1e-6)
    assert sum(c.share for c in sr.light) + sr.rest == pytest.approx(1.0)


# A dim one beside a bright one used to be left out: under a tenth of the brightest.
def test_a_useful_share_is_told_however_bright_the_brightest_is():
    key = a_lamp("key", peak_cd=320_000.0)  # 20000 lx under it
    units = [a_unit(1, 2.0, target="SL", kind="key"), a_unit(2, 0.0, to=(2.0, 0.0))]
    (sl, _) = areas_of(study_of(a_rig(units, TARGETS, kinds=[*KINDS, key])))
    assert [c.lux for c in sl.light] == pytest.approx([20_000.0, 16_000 / 20])
    assert sl.light[1].share == pytest.approx(
        800 / 20_800
    )  # 3.8 %, not aimed at the target by name


def test_the_upright_card_faces_the_audience_or_as_the_drop_that_is_lit():
    wall = Solid(name="wall", panel=((-4, 1, 0), (-2, 3, 0), (-2, 3, 4), (-4, 1, 4)))
    marks = [*TARGETS, Target(name="wall", x=-3.0, y=2.0, z=2.0, plane="point")]
    units = [
        a_unit(1, 2.0, target="SL", channel="1"),
        a_unit(2, 2.0, to=(2.0, 1.5), system="front"),
        a_unit(3, 0.0, target="wall", system="wall"),
    ]
    acting = ((-4.0, -2.0), (4.0, -2.0), (4.0, 4.0), (-4.0, 4.0))
    sl, _, on_wall = areas_of(study_of(a_rig(units, marks, solids=[wall], acting=acting)))
    assert sl.faces == pytest.approx(180.0)
    # the wall runs from 4 SR 1 US to 2 SR 3 US: it faces half-way between DS and SL, heading 135
    assert on_wall.faces == pytest.approx(135.0)
    (one,) = [c for c in on_wall.light if c.aimed]
    # from (0, 0, 5) to (-3, 2, 2): d^2 = 22; the wall's (1, -1, 0) / sqrt 2 . (3, -2, 3) = 5 / sqrt 2
    assert one.lux == pytest.approx(16_000 / 22)
    assert one.upright == pytest.approx(16_000 / 22 * 5 / np.sqrt(2) / np.sqrt(22))


def test_light_from_above_and_behind_gives_an_upright_nothing():
    units = [a_unit(1, 2.0, target="SL"), a_unit(2, 0.0, to=(2.0, 0.0))]
    (sl, _) = areas_of(study_of(a_rig(units, TARGETS)))
    assert [c.upright for c in sl.light] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_light_that_nobody_gave_is_told_as_not_known():
    kinds = [*KINDS, a_lamp("x", peak_cd=None)]
    units = [a_unit(1, 2.0, target="SL"), a_unit(2, 1.5, to=(2.0, 0.0), kind="x", channel="9")]
    study = study_of(a_rig(units, TARGETS, kinds=kinds))
    areas = areas_of(study)
    one, other = areas[0].light
    assert (one.unit, one.share) == (0, 1.0)
    assert other.unit == 1
    assert np.isnan([other.lux, other.share, other.upright]).all()
    assert channels_of(study, areas)[0].targets == ["SL"]


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
