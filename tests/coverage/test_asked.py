"""What lights a place: held to a sum written here, and to rigs solved again, a unit taken out or turned."""

from __future__ import annotations

import math
from functools import cache

import msgspec
import numpy as np
import pytest

from aimcalc.coverage.asked import (
    LIKE,
    Place,
    at_point,
    at_target,
    fader,
    gone_without,
    of_channel,
)
from aimcalc.coverage.study import Study, study_of
from aimcalc.coverage.systems import Below
from aimcalc.scene.model import Target
from aimcalc.solid.rig import SolidRig, solve_rig
from tests.lit import FACE, a_lamp, a_rig, a_unit
from tests.shows import rig_of

replace = msgspec.structs.replace
TARGETS = [
    Target(name="SL", x=2.0, y=0.5),
    Target(name="SR", x=-2.0, y=0.5),
    Target(name="US", x=0.5, y=1.5, faces=90.0),
]
KINDS = [
    a_lamp(),
    a_lamp("spot", field=12.0, beam=9.0, peak_cd=60_000.0),
    a_lamp("wide", field=70.0, beam=40.0, peak_cd=5_000.0),
]
UNITS = [  # in hang order, from the SL end
    a_unit(1, 3.0, target="SL", channel="11", system="wash", colour="straw"),
    a_unit(2, 2.4, to=(1.6, 0.1), channel="14", system="wash", colour="blue"),
    a_unit(3, 1.2, target="SL", channel="15", kind="wide", system="blue", transmission=0.4),
    a_unit(4, 0.5, target="US", channel="13", system="wash", colour="straw", kind="wide"),
    a_unit(5, -1.0, target="US", channel="15", kind="spot", system="blue", colour="blue"),
    a_unit(6, -3.0, target="SR", channel="12", system="wash", colour="straw"),
]
PAIR = [2, 4]  # of channel 15, system blue


@cache
def _study() -> Study:
    study = study_of(a_rig(UNITS, TARGETS, kinds=KINDS), spacing=0.25)
    assert [unit.number for unit in study.rig.units] == [unit.number for unit in UNITS]
    return study


class _Sum:
    """One unit's light at a point by the written formulas, in plain numbers.

    I = I0 exp(-(theta / w)^n), half at half the beam, a tenth at half the field: n = ln(ln 10 / ln 2) /
    ln(field / beam), w = (field / 2) / (ln 10)^(1/n); E = I cos t / d^2. A lens here is where its clamp is.
    """

    def __init__(self, rig: SolidRig, k: int, point: tuple[float, float, float]) -> None:
        unit, kind = rig.units[k], rig.kinds[k]
        lens = (unit.at, 0.0, 5.0)
        target = next((t for t in TARGETS if t.name == unit.target), None)
        aim = unit.point or (target.x, target.y, FACE)
        axis, ray = [[b - a for a, b in zip(lens, end, strict=True)] for end in (aim, point)]
        self.far = math.dist(lens, point)
        cosine = sum(a * b for a, b in zip(axis, ray, strict=True)) / math.hypot(*axis) / self.far
        angle = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
        beam = kind.beam or kind.field / 1.8226157
        power = math.log(math.log(10) / math.log(2)) / math.log(kind.field / beam)
        width = kind.field / 2 / math.log(10) ** (1 / power)
        shape = math.exp(-((angle / width) ** power)) if angle < 90 else 0.0
        self.square_on = kind.peak_cd * shape * unit.transmission / self.far**2
        self.ray = [part / self.far for part in ray]
        self.bearing = math.degrees(math.atan2(-ray[0], -ray[1])) % 360
        self.up = math.degrees(math.atan2(-ray[2], math.hypot(ray[0], ray[1])))

    def on(self, way: tuple[float, float, float]) -> float:
        """Lux on a card that faces `way`."""
        return self.square_on * max(0.0, -sum(a * b for a, b in zip(self.ray, way, strict=True)))


def _held(
    place: Place, point: tuple[float, float, float], faces: tuple[float, float, float]
) -> None:
    rig = _study().rig
    sums = [_Sum(rig, k, point) for k in range(len(UNITS))]
    total = sum(each.square_on for each in sums)
    assert place.lux == pytest.approx(total, rel=1e-6)
    told = 0.0
    for each in place.light:
        mine, comes = sums[each.comes.unit], each.comes
        told += mine.square_on
        assert comes.lux == pytest.approx(mine.square_on, rel=1e-6)
        assert comes.share == pytest.approx(mine.square_on / total, rel=1e-6)
        assert comes.upright == pytest.approx(mine.on(faces), rel=1e-6, abs=1e-9)
        assert comes.level == pytest.approx(mine.on((0, 0, 1)), rel=1e-6)
        assert comes.bearing == pytest.approx(mine.bearing, abs=1e-6)
        assert comes.down == pytest.approx(mine.up, abs=1e-6)
    assert place.rest == pytest.approx(1 - told / total, abs=1e-7)
    assert [e.comes.lux for e in place.light] == sorted(e.comes.lux for e in place.light)[::-1]


@pytest.mark.parametrize("target", TARGETS, ids=[t.name for t in TARGETS])
def test_what_lights_a_target_is_the_sum_over_the_units(target: Target) -> None:
    faces = (1.0, 0.0, 0.0) if target.faces else (0.0, -1.0, 0.0)
    place = at_target(_study(), target.name)
    assert place.point == pytest.approx((target.x, target.y, FACE))
    assert {_study().rig.units[e.comes.unit].target for e in place.light if e.comes.aimed} == {
        target.name
    }
    _held(place, (target.x, target.y, FACE), faces)


@pytest.mark.parametrize(("x", "y"), [(0.0, -1.0), (-2.3, 1.1), (3.1, -0.4)])
def test_what_lights_a_point_is_the_sum_over_the_units(x: float, y: float) -> None:
    place = at_point(_study(), x, y)
    near = min(TARGETS, key=lambda t: math.hypot(t.x - x, t.y - y))
    faces = (1.0, 0.0, 0.0) if near.faces else (0.0, -1.0, 0.0)
    _held(place, (x, y, FACE), faces)
    assert not any(each.comes.aimed for each in place.light)


def test_a_height_may_be_given_with_a_point() -> None:
    _held(at_point(_study(), 1.0, 0.0, 2.2), (1.0, 0.0, 2.2), (0.0, -1.0, 0.0))


@pytest.mark.parametrize("without", [[0], [1], [3], [4], [2, 4], [0, 3, 5]])
def test_what_goes_dark_is_what_the_rig_without_the_units_lacks(without: list[int]) -> None:
    """Solved again without them, against the threshold as it was."""
    study = _study()
    left = [unit for k, unit in enumerate(UNITS) if k not in without]
    found = {each.system: each.area for each in gone_without(study, without)}
    for name, system in study.systems.items():
        again = study_of(
            a_rig(left, TARGETS, kinds=KINDS), spacing=0.25, below=Below(lux=system.below)
        )
        touched = name == "all" or any(UNITS[k].system == name for k in without)
        now = again.systems.get(name)
        level = np.zeros_like(system.level) if now is None else now.level
        newly = (level < system.below) & (system.level >= system.below)
        dark = np.count_nonzero(newly) * study.plane.grid.cell_area if touched else 0.0
        assert found.get(name, 0.0) == pytest.approx(dark), name
    assert found


def test_in_the_playhouse_a_unit_taken_out_leaves_what_is_told() -> None:
    rig, unit = rig_of("playhouse"), "house pipe/6"
    study = study_of(rig, spacing=0.3)
    k = rig.names.index(unit)
    scene = rig.scene
    less = replace(scene, units=tuple(u for u in scene.units if f"{u.position}/{u.number}" != unit))
    system = study.systems["front cool"]
    again = study_of(solve_rig(less), spacing=0.3, below=Below(lux=system.below))
    newly = (again.systems["front cool"].level < system.below) & (system.level >= system.below)
    dark = {each.system: each.area for each in gone_without(study, [k])}
    assert np.count_nonzero(newly) > 5
    assert dark["front cool"] == pytest.approx(np.count_nonzero(newly) * study.plane.grid.cell_area)


def test_who_could_fill_in_comes_from_nearly_the_same_way_its_own_colour_first() -> None:
    study = _study()
    seen = 0
    for target in TARGETS:
        point = (target.x, target.y, FACE)
        for each in at_target(study, target.name).light:
            own = _Sum(study.rig, each.comes.unit, point)
            for fill in each.fills:
                other = _Sum(study.rig, fill.unit, point)
                between = sum(a * b for a, b in zip(own.ray, other.ray, strict=True))
                assert fill.off == pytest.approx(math.degrees(math.acos(between)), abs=1e-4)
                assert fill.off <= LIKE
                assert fill.lux >= each.comes.lux / 2
                colours = [UNITS[k].colour for k in (each.comes.unit, fill.unit)]
                assert fill.same_colour == (colours[0] == colours[1])
                assert fill.turned or fill.lux == pytest.approx(other.square_on, rel=1e-6)
                seen += 1
            order = [(not fill.same_colour, fill.off) for fill in each.fills]
            assert order == sorted(order)
    assert seen > 3


def test_a_unit_turned_to_fill_in_gives_what_the_rig_with_it_turned_has() -> None:
    """The playhouse solved again, each of the units offered for one pointed at the area."""
    rig, area = rig_of("playhouse"), "area 3"
    light = at_target(study_of(rig, spacing=0.5), area).light
    (asked,) = (each for each in light if rig.names[each.comes.unit] == "house pipe/6")
    assert len([fill for fill in asked.fills if fill.turned]) >= 3
    for fill in asked.fills[:3]:
        name = rig.names[fill.unit]
        units = [
            replace(u, target=area, point=None) if f"{u.position}/{u.number}" == name else u
            for u in rig.scene.units
        ]
        again = solve_rig(replace(rig.scene, units=tuple(units)))
        turned = at_target(study_of(again, spacing=0.5), area).light
        (now,) = (each.comes for each in turned if again.names[each.comes.unit] == name)
        assert fill.turned
        assert now.aimed
        assert fill.lux == pytest.approx(now.lux, rel=1e-6)


def test_a_dark_place_is_told_who_could_be_turned_there() -> None:
    units = [a_unit(1, 2.0, kind="spot"), a_unit(2, 0.5, kind="spot")]
    study = study_of(a_rig(units, kinds=KINDS), spacing=0.5)
    place = at_point(study, -0.5, 0.0)
    assert place.light == []
    assert [fill.unit for fill in place.reach] == [1]  # 14 degrees of turn; the other would need 32
    # The lens is 4 m above the face and 1 m beside it, in the middle of its beam.
    assert place.reach[0].lux == pytest.approx(60_000 / 17)


def test_a_channel_lights_what_its_units_light_together() -> None:
    study = _study()
    found = of_channel(study, "15")
    assert [each.unit for each in found.units] == PAIR
    for target in TARGETS:
        point = (target.x, target.y, FACE)
        sums = [_Sum(study.rig, k, point).square_on for k in range(len(UNITS))]
        mine = [k for k in PAIR if sums[k] / sum(sums) >= 0.02 or UNITS[k].target == target.name]
        told = {each.target: each for each in found.areas}
        if mine:
            lux = sum(sums[k] for k in mine)
            assert told[target.name].lux == pytest.approx(lux, rel=1e-6)
            assert told[target.name].share == pytest.approx(lux / sum(sums), rel=1e-6)
        else:
            assert target.name not in told
    for each in found.units:  # nobody of the channel fills in for it
        assert not {fill.unit for fill in each.fills} & set(PAIR)


def test_the_levels_even_a_system_by_the_law_that_is_stated() -> None:
    """At their levels the areas of a system read alike, whichever law turns light into levels."""
    study = _study()
    even = {
        each.comes.unit: each.even
        for target in TARGETS
        for each in at_target(study, target.name).light
    }
    blue = [k for k in PAIR if even.get(k) is not None]
    assert blue == PAIR
    for law, power in (("linear", 1), ("square", 2)):
        reading = []
        for target in ("US", "SL"):
            place = next(t for t in TARGETS if t.name == target)
            point = (place.x, place.y, FACE)
            reading.append(
                sum(
                    fader(even[k], law) ** power * _Sum(study.rig, k, point).square_on for k in blue
                )
            )
        assert max(reading) / min(reading) == pytest.approx(1.0, abs=0.01)
    assert fader(0.25, "linear") == 0.25
    assert fader(0.25, "square") == 0.5


def test_names_that_are_none_are_refused() -> None:
    with pytest.raises(KeyError):
        at_target(_study(), "nowhere")
    with pytest.raises(KeyError):
        of_channel(_study(), "99")
