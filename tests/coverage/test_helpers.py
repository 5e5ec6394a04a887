"""Who could fill a hole: told numbers against edited scenes, and who is not offered."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest

from aimcalc.coverage.helpers import Helper, each_once, helpers_for
from aimcalc.coverage.study import study_of
from aimcalc.scene.model import Solid
from aimcalc.solid.rig import solve_rig
from tests.coverage.holes import FLAT, ROW, STRIP, a_row, closed_and_opened, edited
from tests.lit import a_lamp, a_unit, a_wash
from tests.shows import rig_of

WRONG = {2: (3.0, 0.0)}  # unit 2 belongs over x = 1


def helpers(rig, system="wash", hole=0):
    study = study_of(rig)
    home = study.systems[system]
    return study, home, helpers_for(study, home, home.gaps[hole])[0]


def test_of_two_units_over_one_place_one_is_sent_towards_the_hole():
    rig = a_row(WRONG, acting=STRIP)
    _, _, found = helpers(rig)
    assert rig.names[found[0].unit] in ("p/1", "p/2")
    assert 0.0 < found[0].face[0] < 2.8  # both are over x = 3, the hole is round x = 1
    assert found[0].gain > found[0].uncovers


def test_closing_a_hole_raises_its_light_above_the_threshold_in_the_edited_scene():
    rig = a_row(WRONG, acting=STRIP)
    _, home, found = helpers(rig)
    best = found[0]
    after = edited(rig, {rig.names[best.unit]: best.face}).systems["wash"]
    hole = home.gaps[0].cells
    assert (home.level[hole] < home.below).all()
    assert (after.level[hole] >= home.below).all()
    assert best.gain == pytest.approx(home.gaps[0].area)


@pytest.mark.parametrize("scene", ["studio", "raked"])
def test_what_is_told_of_every_helper_is_what_the_edited_scene_shows(scene):
    rig = rig_of(scene)
    study = study_of(rig)
    told = 0
    for name in list(study.systems)[:2]:
        system = study.systems[name]
        for gap in system.gaps[:2]:
            for helper in helpers_for(study, system, gap)[0][:2]:
                after = edited(rig, {rig.names[helper.unit]: helper.face})
                closed, opened = closed_and_opened(study, after, name, helper.unit, gap.cells)
                assert helper.gain == pytest.approx(closed, abs=1e-9)
                assert helper.uncovers == pytest.approx(opened, abs=1e-9)
                new = after.rig.aims
                assert new.down[helper.unit] == pytest.approx(helper.down, abs=1e-9)
                assert np.cos(new.heading[helper.unit] - helper.heading) == pytest.approx(1.0)
                told += 1
    assert told >= 4


def test_the_best_comes_first_and_each_closes_something():
    rig = rig_of("studio")
    study = study_of(rig)
    for system in study.systems.values():
        for gap in system.gaps:
            found = helpers_for(study, system, gap)[0]
            net = [h.gain - h.uncovers for h in found]
            assert net == sorted(net, reverse=True)
            assert all(h.gain > 0 for h in found)
            assert all(h.unit in system.units for h in found)
            assert len({h.unit for h in found}) == len(found)


def test_a_unit_whose_yoke_does_not_go_there_is_not_offered():
    def row(travel):
        kinds = [a_lamp(field=70.0), a_lamp("held", field=70.0, yoke_range=travel)]
        units = [a_unit(k, x, kind="held" if k == 2 else "k") for k, x in enumerate(ROW, 1)]
        units[1] = a_unit(2, 1.0, to=(3.0, 0.0), kind="held")
        rig = solve_rig(a_wash(units, kinds=kinds, acting=STRIP))
        return [rig.names[h.unit] for h in helpers(rig)[2]]

    # it hangs 63.4 degrees down (4 m down, 2 m out): with 60 to 65 of travel the hole is too steep for it
    assert "p/2" in row((-180.0, 180.0))
    assert "p/2" not in row((60.0, 65.0))


def test_a_hole_that_scenery_hides_from_every_unit_has_no_helper():
    # a lid a little above face height, open below: no lens sees under it
    lid = Solid(
        name="lid", panel=((2.0, -1.0, 1.3), (4.0, -1.0, 1.3), (4.0, 1.0, 1.3), (2.0, 1.0, 1.3))
    )
    rig = a_row({}, solids=[lid])
    study = study_of(rig)
    home = study.systems["wash"]
    under = [g for g in home.gaps if g.least == 0]
    assert under
    found, tries = helpers_for(study, home, under[0])
    assert found == []
    assert tries.unit.size == 0


def test_what_is_offered_behind_a_flat_is_what_the_edited_scene_shows():
    rig = a_row({2: (-1.0, 0.0)}, solids=[FLAT], acting=STRIP)
    study, home, found = helpers(rig)
    hole = home.gaps[0].cells
    assert found
    for helper in found:
        after = edited(rig, {rig.names[helper.unit]: helper.face})
        closed = closed_and_opened(study, after, "wash", helper.unit, hole)[0]
        assert helper.gain == pytest.approx(closed)


def offer(unit, gain):
    return Helper(unit, (0.0, 0.0, 1.0), 0.0, 0.0, gain, 0.0)


def test_each_unit_is_offered_for_one_hole_and_as_many_holes_as_can_be_have_one():
    # Unit 1 is the best of both holes. Hole 0 has another, so hole 1 gets unit 1; unit 3 does more there.
    holes = [[offer(1, 5.0), offer(2, 4.0), offer(3, 1.0)], [offer(1, 4.5), offer(3, 2.0)]]
    assert [[h.unit for h in hole] for hole in each_once(holes)] == [[2], [1, 3]]
    assert each_once([[offer(1, 1.0)], [offer(1, 9.0)]])[1] == []  # the largest hole comes first
    assert each_once([]) == []


def test_offering_each_unit_once_serves_as_many_holes_as_trying_every_way():
    rng = np.random.default_rng(3)
    for _ in range(200):
        can = rng.uniform(size=(4, 5)) < 0.35
        holes = [[offer(u, 1.0 + rng.uniform()) for u in np.flatnonzero(row)] for row in can]
        served = sum(bool(hole) for hole in each_once(holes))
        ways = (
            sum(can[hole, unit] for hole, unit in enumerate(units))
            for units in permutations(range(5), 4)
        )
        assert served == max(ways)
