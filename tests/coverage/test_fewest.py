"""The fewest re-aims: that they close, that fewer do not, and what is told where nothing does."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.fewest import fewest_for
from aimcalc.coverage.helpers import helpers_for
from aimcalc.coverage.new_aims import new_aims_at
from aimcalc.coverage.outcomes import outcomes
from aimcalc.coverage.study import study_of
from aimcalc.light.evenness import open_area
from aimcalc.scene.model import Solid
from tests.coverage.holes import STRIP, a_row, edited
from tests.shows import rig_of


def sought(rig, system="wash", progress=None):
    study = study_of(rig)
    home = study.systems[system]
    tries = [helpers_for(study, home, gap)[1] for gap in home.gaps]
    tries = [each for each in tries if each.unit.size]
    return study, home, fewest_for(study, home, tries, progress)


def holes_after(rig, study, home, found):
    """m2 of holes in the edited scene, by the threshold that held before."""
    moves = {rig.names[u]: tuple(found.new.face[:, k]) for k, u in enumerate(found.new.unit)}
    after = edited(rig, moves).systems[home.name]
    return open_area(study.plane.grid, after.level < home.below)


def test_in_place_the_row_has_no_hole():
    assert study_of(a_row({}, acting=STRIP)).systems["wash"].gaps == []


def test_one_unit_astray_takes_one_re_aim():
    rig = a_row({2: (3.0, 0.0)}, acting=STRIP)
    study, home, found = sought(rig)
    assert home.gaps
    assert found.new.unit.size == 1
    assert (found.closed, found.proved, found.at_least) == (True, True, 1)
    assert holes_after(rig, study, home, found) == found.left == 0


def test_two_astray_take_two_and_no_single_re_aim_of_any_unit_would_do():
    rig = a_row({1: (0.0, 0.0), 4: (0.0, 0.0)}, acting=STRIP)
    study, home, found = sought(rig)
    assert found.new.unit.size == 2
    assert found.closed
    assert holes_after(rig, study, home, found) == 0
    # by trying every unit at every half metre of the strip
    x, y = (v.ravel() for v in np.meshgrid(np.arange(-3.5, 3.6, 0.5), np.arange(-0.5, 0.6, 0.5)))
    for unit in range(4):
        tries = new_aims_at(study, np.full(x.size, unit), x, y)
        every = outcomes(study, home, np.arange(home.level.size), tries)
        assert every.net.max() < sum(g.area for g in home.gaps)


def most_past_the_lid(study):
    """Light at each point with every unit straight at it, save those that the lid at 1.3 m hides."""
    x, y, z = study.plane.points
    lux = np.zeros(x.size)
    for lens in study.sources.lamps.lens.T:
        share = (1.3 - z) / (
            lens[2] - z
        )  # of the way up, where the line of sight passes the lid's height
        over_x, over_y = x + share * (lens[0] - x), y + share * (lens[1] - y)
        seen = (over_x < 2.4) | (over_x > 3.6) | (np.abs(over_y) > 0.9)
        square = (lens[0] - x) ** 2 + (lens[1] - y) ** 2 + (lens[2] - z) ** 2
        lux += seen * 16000 * (lens[2] - z) / square**1.5
    return lux


def test_what_no_unit_could_reach_is_told_and_not_counted_as_left_open():
    lid = Solid(
        name="lid",
        panel=((2.4, -0.9, 1.3), (3.6, -0.9, 1.3), (3.6, 0.9, 1.3), (2.4, 0.9, 1.3)),
    )
    rig = a_row({2: (-1.0, 0.0)}, acting=STRIP, solids=[lid])
    study, home, found = sought(rig)
    expected = open_area(study.plane.grid, most_past_the_lid(study) < home.below)
    assert found.out_of_reach == pytest.approx(expected)
    assert expected > 1.0
    assert holes_after(rig, study, home, found) == pytest.approx(found.left)
    assert found.left >= found.out_of_reach - 1e-9


@pytest.mark.parametrize("scene", ["studio", "raked"])
def test_what_is_left_is_what_the_edited_scene_shows(scene):
    rig = rig_of(scene)
    for system in list(study_of(rig).systems)[:2]:
        study, home, found = sought(rig, system)
        assert holes_after(rig, study, home, found) == pytest.approx(found.left)
        assert found.left <= sum(g.area for g in home.gaps) + 1e-9
        assert len(set(found.new.unit.tolist())) == found.new.unit.size


def test_progress_is_told_in_shares_of_the_system():
    told = []
    sought(a_row({2: (3.0, 0.0)}), progress=lambda name, share: told.append((name, share)))
    assert {name for name, _ in told} == {"wash"}
    shares = [share for _, share in told]
    assert shares == sorted(shares)
    assert 0 < shares[-1] <= 1
