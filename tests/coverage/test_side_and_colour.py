"""What a re-aim leaves alone, case by case, and that no offer on the worked scenes breaks a rule."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from msgspec.structs import replace

from aimcalc.coverage.new_aims import free_to_re_aim, new_aims_at
from aimcalc.coverage.study import study_of
from aimcalc.coverage.survey import CoverOptions, survey_of
from aimcalc.scene.model import Solid
from aimcalc.solid.rig import solve_rig
from tests.lit import a_lamp, a_rig, a_unit
from tests.shows import a_show, rig_of

WIDE = ((-6.0, -6.0), (6.0, -6.0), (6.0, 6.0), (-6.0, 6.0))


def free(units, **more):
    rig = a_rig(units, **more)
    return [rig.units[k].number for k in np.flatnonzero(free_to_re_aim(rig))]


def test_specials_precise_units_and_patterns_are_not_free():
    units = [
        a_unit(1, 3.0),
        a_unit(2, 2.0),
        a_unit(3, 1.0, precise=True),
        a_unit(4, 0.0, kind="pattern"),
        a_unit(5, -1.0, system=None),
        a_unit(6, -2.0, system="throne"),  # the only one of its system
    ]
    assert free(units, kinds=[a_lamp(), a_lamp("pattern", has_gobo=True)]) == ["1", "2"]


def test_a_colour_that_is_not_the_systems_is_not_free():
    def row(*colours):
        return free([a_unit(k, 3.0 - k, colour=c) for k, c in enumerate(colours)])

    assert row("L201", "L201", "l201", "R26") == ["0", "1", "2"]
    assert row("L201", "L201", "R80", "R80") == ["0", "1", "2", "3"]  # one that is in two
    assert row(None, None, None, "R26") == ["0", "1", "2"]  # no colour is one


# A lens 4 m over the face plane; headings and downs by hand: atan2(x, y), atan(4 / hypot(x, y)).
@pytest.mark.parametrize(
    ("now", "to", "can"),
    [
        ((0.0, 4.0), (1.0, 4.0), True),  # heading 14, down 44
        ((0.0, 4.0), (2.25, 4.0), True),  # heading 29.4
        ((0.0, 4.0), (2.5, 4.0), False),  # heading 32
        ((0.0, 4.0), (0.0, 5.95), True),  # 11 flatter
        ((0.0, 4.0), (0.0, 1.0), False),  # from 45 to 76 down: 31 steeper
        ((0.0, 4.0), (0.0, -4.0), False),  # a front light turned to the house
        ((1.5, 4.0), (-0.5, 4.0), False),  # heading 20.6 SL to 7.1 SR: comes from the other side
        ((0.5, 4.0), (-0.5, 4.0), True),  # 7.1 SL to 7.1 SR: straight front before and after
        ((0.0, 0.0), (1.0, 0.0), True),  # a top light stays one, 14 off plumb
        ((0.0, 0.5), (0.0, -0.5), True),  # 83 down either way: from above
        ((0.0, 0.0), (3.0, 0.0), False),  # 37 off plumb
    ],
)
def test_a_unit_keeps_the_side_it_lights_from(now, to, can):
    study = study_of(a_rig([a_unit(1, 0.0, to=now), a_unit(2, 1.0)], acting=WIDE))
    found = new_aims_at(study, np.array([0]), *(np.array([v]) for v in to))
    assert found.unit.size == can


def test_a_new_face_is_in_the_acting_area_on_open_ground_and_seen():
    tower = Solid(name="tower", box=(1.0, -0.5, 0.0, 1.4, 0.5, 3.0))
    wall = Solid(name="wall", panel=((0.5, 0.9, 0), (1.5, 0.9, 0), (1.5, 0.9, 3), (0.5, 0.9, 3)))
    study = study_of(a_rig([a_unit(1, 1.9)], solids=[tower, wall]))
    x, y = np.array([1.9, 1.2, 1.0, 1.9, 2.4]), np.array([1.5, 0.0, 1.5, 2.05, 0.0])
    found = new_aims_at(study, np.zeros(5, int), x, y)
    # the second is in the tower, the third behind the wall, the fourth 5 cm out of the acting area
    assert found.face[:2].T.tolist() == [[pytest.approx(1.9), 1.5], [pytest.approx(2.4), 0.0]]


def side(heading):
    """Front, back, from SR or from SL, by which way a light heads."""
    return (
        "US" if abs(heading) < 45 else "DS" if abs(heading) > 135 else "SL" if heading > 0 else "SR"
    )


@pytest.fixture(scope="module", params=["studio", "raked", "playhouse"])
def found(request):
    return survey_of(a_show(rig_of(request.param)).light, CoverOptions())


def test_no_offer_on_a_worked_scene_takes_a_unit_from_its_job(found):
    rig = found.study.rig
    members = Counter(unit.system for unit in rig.units)
    offers = [
        (h.unit, h.face, np.degrees(h.heading), np.degrees(h.down))
        for system in found.helpers.values()
        for helpers in system
        for h in helpers
    ]
    for fewest in found.fewest.values():
        t = fewest.new
        rows = zip(t.unit.tolist(), t.face.T, t.aims.heading, t.aims.down, strict=True)
        offers += [(k, face, np.degrees(h), np.degrees(d)) for k, face, h, d in rows]
    assert offers
    for unit, face, heading, down in offers:
        asked = rig.units[unit]
        assert asked.system
        assert members[asked.system] > 1
        assert not asked.precise
        assert not rig.kinds[unit].has_gobo
        same = [u.colour for u in rig.units if u.system == asked.system]
        assert same.count(asked.colour) > len(same) / 3
        turned = (heading - np.degrees(rig.aims.heading[unit]) + 180) % 360 - 180
        assert abs(turned) <= 30.001 or max(down, np.degrees(rig.aims.down[unit])) >= 80
        area = np.array(rig.scene.stage.acting or rig.scene.stage.outline)
        assert (area.min(axis=0) - 1e-9 <= face[:2]).all()
        assert (face[:2] <= area.max(axis=0) + 1e-9).all()


def test_closes_is_of_the_hole_and_each_unit_is_offered_once_in_a_system(found):
    for name, system in found.study.systems.items():
        offered = [h.unit for helpers in found.helpers[name] for h in helpers]
        assert len(offered) == len(set(offered)), name
        for gap, helpers, other in zip(
            system.gaps, found.helpers[name], found.elsewhere[name], strict=False
        ):
            assert all(0 < h.gain <= gap.area + 1e-9 for h in helpers)
            for unit, hole in other.items():
                assert unit in [h.unit for h in found.helpers[name][hole]]


def test_what_is_offered_shows_in_a_scene_edited_so_and_touches_nothing_new(found):
    """From scratch: the edited scene finds no stop that was not there, and loses little on the way."""

    rig = found.study.rig
    before = {(f.rule, f.unit) for f in a_show(rig).findings if f.severity == "stop"}
    offers = [h for system in found.helpers.values() for helpers in system for h in helpers[:1]]
    for offer in offers[:6]:
        units = tuple(
            replace(u, target=None, point=tuple(offer.face))
            if f"{u.position}/{u.number}" == rig.names[offer.unit]
            else u
            for u in rig.scene.units
        )
        after = solve_rig(replace(rig.scene, units=units))
        stops = {(f.rule, f.unit) for f in a_show(after).findings if f.severity == "stop"}
        assert stops <= before, rig.names[offer.unit]
        assert after.lost.share[offer.unit] <= max(0.1, rig.lost.share[offer.unit]) + 0.01
        assert after.aims.in_travel[offer.unit]
        assert after.aims.attitude[offer.unit] in (0, 3, rig.aims.attitude[offer.unit])
