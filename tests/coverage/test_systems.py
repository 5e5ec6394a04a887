"""The light of systems by hand, and what must hold of sums and unions."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.coverage.study import study_of
from aimcalc.coverage.systems import ALL, Below, systems_of
from tests.lit import FACE, a_rig, a_unit, lux_by_hand

TWO = [a_unit(1, 2.0), a_unit(2, -2.0)]


# Two lamps of 16000 cd, 60 degrees of field, 4 m over the face plane, 4 m apart, pointing straight down.
# Under either: 16000 / 4^2 = 1000 lx of its own; of the other, 45 degrees off its axis and sqrt(32) m away,
# 16000 * 10^-(45/30)^2 = 89.9746 cd, * cos 45 / 32 = 1.988177 lx: 1001.988177 lx.
# Half-way: 26.565051 degrees off both axes, d^2 = 20: 2 * 16000 * 10^-(26.565051/30)^2 * 0.894427 / 20
# = 2 * 117.6310 lx; 10^-0.7841132 = 0.1643943.
def test_two_lamps_worked_by_hand():
    study = study_of(a_rig(TWO), spacing=0.1)
    system = study.systems["wash"]
    x, y = study.plane.grid.plan()

    def at(px, py):
        return system.level[np.argmin(np.hypot(x - px, y - py))]

    np.testing.assert_allclose(at(2.05, 0.05), lux_by_hand(TWO, (2.05, 0.05, FACE)), rtol=1e-12)
    assert lux_by_hand(TWO, (2.0, 0.0, FACE)) == pytest.approx(1001.988177, abs=1e-6)
    assert lux_by_hand(TWO, (0.0, 0.0, FACE)) == pytest.approx(2 * 117.6310, abs=2e-4)
    assert system.figures.most == pytest.approx(1001.988, rel=5e-3)


def test_every_figure_is_that_of_the_points_by_hand():
    study = study_of(a_rig(TWO))
    lux = np.array([lux_by_hand(TWO, tuple(p)) for p in study.plane.points.T])
    figures = study.systems["wash"].figures
    assert figures.mean == pytest.approx(lux.mean())
    assert figures.least == pytest.approx(lux.min())
    assert figures.most == pytest.approx(lux.max())
    assert figures.u0 == pytest.approx(lux.min() / lux.mean())
    assert figures.share_above_half == pytest.approx(np.mean(lux >= lux.mean() / 2))


def test_counts_are_of_units_whose_field_holds_the_point():
    study = study_of(a_rig(TWO))
    x, y, z = study.plane.points
    expected = np.zeros(x.size)
    for unit in TWO:
        off = np.degrees(np.arctan2(np.hypot(x - unit.at, y), 5.0 - z))
        expected += off <= 30.0
    np.testing.assert_array_equal(study.systems["wash"].counts, expected)


def many_systems():
    rng = np.random.default_rng(4)
    names = ("warm", "cool", None, "back")
    return [
        a_unit(k, x, to=tuple(rng.uniform((-4, -2), (4, 2))), system=names[k % 4])
        for k, x in enumerate(rng.uniform(-4, 4, 16))
    ]


def test_units_without_a_system_count_in_all_only():
    rig = a_rig(many_systems())
    found = systems_of(rig)
    assert set(found) == {"warm", "cool", "back", ALL}
    assert list(found)[-1] == ALL
    assert found[ALL].tolist() == list(range(16))
    named = np.concatenate([found[n] for n in ("warm", "cool", "back")])
    assert sorted(named) == [k for k, unit in enumerate(rig.units) if unit.system]


def test_all_is_the_sum_and_a_union_never_exceeds_it():
    units = many_systems()
    study = study_of(a_rig(units))
    systems = [s for name, s in study.systems.items() if name != ALL]
    alone = study_of(a_rig([u for u in units if u.system is None])).systems[ALL]
    every = study.systems[ALL]
    np.testing.assert_allclose(every.level, sum(s.level for s in systems) + alone.level)
    np.testing.assert_allclose(every.counts, sum(s.counts for s in systems) + alone.counts)
    lit = [np.mean(s.counts > 0) for s in [*systems, alone]]
    assert max(lit) <= np.mean(every.counts > 0) <= sum(lit)


def test_a_system_called_all_is_no_second_total():
    rig = a_rig([a_unit(1, 0.0, system=ALL), a_unit(2, 1.0)])
    assert list(systems_of(rig)) == ["wash", ALL]
    assert study_of(rig).stakes(0)[-1].name == ALL


def test_the_threshold_is_half_the_mean_unless_scene_or_call_say_otherwise():
    plain = study_of(a_rig(TWO)).systems["wash"]
    assert plain.below == pytest.approx(plain.figures.mean / 2)
    scene = study_of(a_rig(TWO, gap_below=0.3)).systems["wash"]
    assert scene.below == pytest.approx(0.3 * plain.figures.mean)
    call = study_of(a_rig(TWO, gap_below=0.3), below=Below(share=0.7)).systems["wash"]
    assert call.below == pytest.approx(0.7 * plain.figures.mean)
    lux = study_of(a_rig(TWO, gap_below=0.3), below=Below(lux=300.0)).systems["wash"]
    assert lux.below == 300.0
    dark = np.array([lux_by_hand(TWO, tuple(p)) for p in lux_points()]) < 300.0
    assert sum(g.area for g in lux.gaps) == pytest.approx(dark.sum() * 32.0 / dark.size, abs=0.1)


def lux_points():
    """Middles of 54 by 27 cells over the square, by hand."""
    x, y = (np.arange(54) + 0.5) * 8 / 54 - 4, (np.arange(27) + 0.5) * 4 / 27 - 2
    return [(px, py, FACE) for py in y for px in x]


# The figures were once of a coarser grid: "least 453 lx" beside a hole of 97.
def test_the_least_light_is_that_of_the_darkest_hole():
    for system in study_of(a_rig(TWO)).systems.values():
        assert system.gaps
        assert system.figures.least == min(gap.least for gap in system.gaps)


def test_holes_are_the_connected_dark_points_and_small_ones_are_left_out():
    study = study_of(a_rig(TWO))
    system = study.systems["wash"]
    dark = system.level < system.below
    in_holes = np.zeros(dark.size, bool)
    for gap in system.gaps:
        assert gap.area >= 0.1
        assert gap.area == pytest.approx(gap.cells.size * study.plane.grid.cell_area)
        assert gap.least == pytest.approx(system.level[gap.cells].min())
        assert not in_holes[gap.cells].any()
        in_holes[gap.cells] = True
    assert not (in_holes & ~dark).any()
    assert (dark & ~in_holes).sum() * study.plane.grid.cell_area < 0.1 * 8


def test_a_system_that_lights_nothing_is_one_hole():
    up = [a_unit(1, 0.0, point=(0.0, 0.0, 9.0), mount="over")]
    system = study_of(a_rig(up)).systems["wash"]
    assert system.figures.mean == 0
    assert [gap.area for gap in system.gaps] == [pytest.approx(32.0)]


def test_a_rig_without_units_is_dark_and_whole():
    study = study_of(a_rig([]))
    assert list(study.systems) == [ALL]
    assert study.systems[ALL].figures.mean == 0
