"""New aims: which can be set, and their effect against a copy of the scene worked out from scratch."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.new_aims import joined_aims, leeway, new_aims_at
from aimcalc.coverage.outcomes import outcomes
from aimcalc.coverage.study import study_of
from aimcalc.rig.wording import DECK
from aimcalc.scene.model import Solid
from tests.coverage.holes import FLAT, a_row, changes, closed_and_opened, edited
from tests.lit import FACE, a_lamp, a_rig, a_unit

WIDE = ((-6.0, -6.0), (6.0, -6.0), (6.0, 6.0), (-6.0, 6.0))


def tried(rig, x, y=0.0, unit=0):
    x, y = np.broadcast_arrays(np.atleast_1d(np.float64(x)), np.atleast_1d(np.float64(y)))
    return new_aims_at(study_of(rig), np.full(x.size, unit), x, y)


def test_a_try_is_aimed_at_the_face_over_a_place_that_can_be_marked():
    tries = tried(a_rig([a_unit(1, 0.0)]), 1.234, 0.777)
    np.testing.assert_allclose(tries.face[:, 0], (1.25, 0.8, FACE))
    way = tries.face[:, 0] - tries.lamps.lens[:, 0]
    np.testing.assert_allclose(tries.lamps.axis[:, 0], way / np.linalg.norm(way))


def test_marks_go_to_five_centimetres_or_three_inches():
    assert DECK.size("m") == DECK.size("mm") == 0.05
    assert DECK.size("ft") == DECK.size("in") == pytest.approx(3 * 0.0254)


def test_the_yokes_travel_is_kept():
    # hung under, the yoke angle is the angle below level: 4 m down at 3 m out is 53.1, at 4 m out 45
    rig = a_rig([a_unit(1, 0.0, to=(3.0, 0.0))], kinds=[a_lamp(yoke_range=(50.0, 100.0))])
    assert tried(rig, [3.0, 4.0, 2.0]).face[0].tolist() == [3.0, 2.0]


def test_a_body_does_not_strike_its_own_pipe():
    # 4 in of body and 1 in of pipe, 14 in over it: it strikes from about 69 degrees down (14 cos t < 5)
    inch = 0.0254
    over = a_lamp(drop_over=14 * inch, nose=0.45, length=0.75, width=8 * inch)
    rig = a_rig([a_unit(1, 0.0, mount="over", to=(0.0, 2.5))], kinds=[over], acting=WIDE)
    down = tried(rig, np.zeros(40), np.linspace(0.5, 6.0, 40)).aims.down
    assert np.degrees(down).max() == pytest.approx(69, abs=1.0)
    under = a_rig([a_unit(1, 0.0, to=(0.0, 2.0))], kinds=[a_lamp(drop_under=14 * inch, nose=0.3)])
    assert np.degrees(tried(under, 0.0, 0.5).aims.down).max() > 80


def test_an_upright_unit_is_not_turned_upside_down():
    # 0 to 60 of yoke reaches faces up to 60 below level upright; -180 to -120 the same ones clip underneath
    def row(travel, at_now):
        kinds = [a_lamp(yoke_range=travel)]
        rig = a_rig([a_unit(1, 0.0, to=at_now)], kinds=kinds, acting=WIDE)
        return rig.aims.attitude[0], tried(rig, 0.0, [3.0, 2.5, 0.5]).face[1].tolist()

    assert row((0.0, 60.0), (0.0, 3.0)) == (0, [3.0, 2.5])  # 53, 58 and 83 down
    both = (90.0, 180.0)  # nothing but the other way round
    assert row(both, (0.0, 3.0)) == (2, [3.0, 2.5, 0.5])
    plumb = (90.0, 180.0)  # straight down now, and nothing but upside down from there
    assert row(plumb, (0.0, 0.0)) == (3, [])


def test_no_unit_turns_further_than_its_leeway_while_its_face_is_moved_by_steps():
    steps, most = (0.4, 0.2, 0.1), 0.7
    kinds = [a_lamp(nose=0.3), a_lamp("high", nose=0.4, rise=0.15)]
    box = Solid(name="p", box=(0.4, -0.4, 0.0, 2.0, 1.0, 0.5), stand_on=True)
    units = [a_unit(k, x, kind=kinds[k % 2].name) for k, x in enumerate((-1.0, 0.0, 1.5), 1)]
    rig = a_rig(units, kinds=kinds, acting=WIDE, solids=[box], unit="ft")
    rng = np.random.default_rng(2)
    tightest = 0.0
    for unit in range(3):
        here = tried(rig, *rng.uniform(-1.5, 1.5, (2, 12)), unit=unit)
        turned, moved = leeway(rig, here, steps)
        for k in range(here.unit.size):
            away = here.face[:2, [k]] + rng.uniform(-most, most, (2, 60))
            there = tried(rig, *away, unit=unit)
            axis, lens = there.lamps.axis, there.lamps.lens
            chord = np.linalg.norm(axis - here.lamps.axis[:, [k]], axis=0)
            shift = np.linalg.norm(lens - here.lamps.lens[:, [k]], axis=0)
            assert (chord <= turned[k]).all()
            assert (shift <= moved[k]).all()
            tightest = max(tightest, np.max(chord / turned[k], initial=0.0))
    assert 0.6 < tightest <= 1.0
    assert not np.any(leeway(rig, here, ()))


def test_tries_join_in_order():
    study = study_of(a_row({}))
    one = new_aims_at(study, np.array([0, 1]), np.array([1.0, 2.0]), np.zeros(2))
    two = new_aims_at(study, np.array([2]), np.array([-1.0]), np.ones(1))
    both = joined_aims([one, two])
    assert both.unit.tolist() == [0, 1, 2]
    np.testing.assert_array_equal(both.face, np.hstack((one.face, two.face)))
    np.testing.assert_array_equal(both.aims.down, np.hstack((one.aims.down, two.aims.down)))


@pytest.mark.parametrize("solids", [[], [FLAT]])
def test_what_a_try_adds_is_the_difference_of_two_scenes(solids):
    rig = a_row({2: (3.0, 1.0)}, solids=solids)
    study = study_of(rig)
    tries = new_aims_at(study, np.array([1, 0]), np.array([1.0, 2.0]), np.array([0.5, -0.5]))
    added = changes(study, tries, exact=True)
    for k in range(2):
        after = edited(rig, {rig.names[tries.unit[k]]: tuple(tries.face[:, k])})
        np.testing.assert_allclose(
            study.systems["wash"].level + added[k], after.systems["wash"].level, atol=1e-9
        )


def test_seen_from_the_present_lens_a_unit_without_a_nose_sees_the_same():
    study = study_of(a_row({2: (3.0, 1.0)}, solids=[FLAT]))
    tries = new_aims_at(study, np.array([1, 0]), np.array([1.0, 2.0]), np.array([0.5, -0.5]))
    np.testing.assert_allclose(changes(study, tries), changes(study, tries, exact=True), atol=1e-9)


def test_outcomes_are_areas_closed_and_opened_in_every_system_of_the_unit():
    rig = a_row({2: (3.0, 1.0)})
    study = study_of(rig)
    system = study.systems["wash"]
    tries = new_aims_at(study, np.array([1, 0, 3]), np.array([1.0, 1.5, -2.0]), np.zeros(3))
    gap = system.gaps[0]
    found = outcomes(study, system, gap.cells, tries, exact=True)
    whole = outcomes(study, system, np.arange(system.level.size), tries, exact=True)
    for k in range(3):
        after = edited(rig, {rig.names[tries.unit[k]]: tuple(tries.face[:, k])})
        closed, opened = closed_and_opened(study, after, "wash", int(tries.unit[k]))
        assert whole.here[k] == pytest.approx(closed)
        assert found.uncovers[k] == pytest.approx(opened)
        assert found.here[k] <= whole.here[k] + 1e-12
        here, _ = closed_and_opened(study, after, "wash", int(tries.unit[k]), gap.cells)
        assert found.here[k] == pytest.approx(here)
        assert found.net[k] == pytest.approx(here - opened)
    assert whole.here[0] > 0
