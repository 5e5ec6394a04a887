"""Light from a beam's table against the profile itself."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.light.beam_table import MOST_ERROR, Beams, beam_table
from aimcalc.light.illuminance import contributions
from aimcalc.light.lamps import smooth_lamps
from aimcalc.light.profiles import profile_power, profile_width, relative_intensity
from aimcalc.light.tiles import NOTHING

BEAMS = [(20, 13), (36, 25), (50, 30), (40, 10), (60, 32.9), (120, 80), (170, 40), (30, 29.97)]


def some_lamps(field, beam, count=4):
    rng = np.random.default_rng(int(field))
    lens = rng.uniform((-5, -5, 4), (5, 5, 8), (count, 3)).T
    axis = rng.uniform((-1, -1, -1), (1, 1, -0.2), (count, 3)).T
    angles = {"beam": np.radians(beam), "field": np.radians(field)}
    return smooth_lamps(lens, axis, peak_cd=20_000.0, **angles)


@pytest.mark.parametrize(("field", "beam"), BEAMS)
def test_light_by_table_is_within_a_thousandth_of_the_peak(field, beam):
    lamps = some_lamps(field, beam)
    points = np.random.default_rng(1).uniform((-9, -9, 0), (9, 9, 3), (4000, 3)).T
    apart = np.abs(Beams(points).level(lamps) - contributions(lamps, points)[0])
    square = ((lamps.lens[:, :, None] - points[:, None]) ** 2).sum(axis=0)
    assert (apart * square / 20_000.0).max() <= MOST_ERROR


@pytest.mark.parametrize(("field", "beam"), BEAMS)
def test_the_tables_own_word_on_its_error_holds_between_its_entries(field, beam):
    pair = np.radians(beam), np.radians(field)
    power = float(profile_power(*pair))
    table = beam_table(power, float(profile_width(pair[1], power)))
    place = np.random.default_rng(2).uniform(0, table.value.size - 4, 3000)
    entry = place.astype(int)
    told = table.value[entry] + (place - entry) * table.rise[entry]
    theta = 2 * np.arcsin(place / table.scale / 2)
    apart = np.abs(told - relative_intensity(theta, beam=pair[0], field=pair[1])).max()
    assert apart <= 1.5 * table.error + NOTHING


@pytest.mark.parametrize(("field", "beam"), BEAMS[:-1])
def test_no_aim_within_the_leeway_gives_more_than_the_most(field, beam):
    lamps = some_lamps(field, beam)
    rng = np.random.default_rng(5)
    points = rng.uniform((-9, -9, 0), (9, 9, 3), (400, 3)).T
    beams = Beams(points)
    table = beams.table(lamps)
    assert table is not None
    rays = beams.rays(lamps)
    near = 0
    for chord, far in ((0.0, 0.0), (0.02, 0.0), (0.1, 0.05), (0.5, 0.3)):
        leeway = np.full(4, chord), np.full(4, far)
        most = beams.most(table, rays, beams.operand, *leeway)
        for _ in range(20):
            off, way = rng.normal(size=(2, 3, 4))
            off -= lamps.axis * (off * lamps.axis).sum(axis=0)
            turn = 2 * np.arcsin(chord / 2) * rng.choice([0.5, 1.0])
            axis = np.cos(turn) * lamps.axis + np.sin(turn) * off / np.linalg.norm(off, axis=0)
            lens = lamps.lens + far * way / np.linalg.norm(way, axis=0)
            lux = contributions(lamps.moved(lens, axis, lamps.across), points)[0]
            assert (lux <= most * (1 + 1e-12)).all()
            near = max(near, np.max(lux / most))
    assert near > 0.99  # the most is no more than that, where nothing moves


def test_a_beam_too_sharp_for_a_table_is_asked_itself():
    # field over beam of 40: the exponent is 0.33, and the profile falls from its peak like a needle
    lamps = some_lamps(80, 2)
    pair = np.radians(2.0), np.radians(80.0)
    power = float(profile_power(*pair))
    assert beam_table(power, float(profile_width(pair[1], power))).error > MOST_ERROR
    points = np.random.default_rng(1).uniform((-3, -3, 0), (3, 3, 2), (50, 3)).T
    np.testing.assert_array_equal(Beams(points).level(lamps), contributions(lamps, points)[0])


def test_ovals_are_asked_themselves_and_no_points_give_no_light():
    oval = some_lamps(30, 20)._replace(narrow=np.full(4, 0.1))
    points = np.random.default_rng(1).uniform((-3, -3, 0), (3, 3, 2), (50, 3)).T
    np.testing.assert_array_equal(Beams(points).level(oval), contributions(oval, points)[0])
    assert Beams(points).level(some_lamps(30, 20), np.zeros(0, int)).shape == (4, 0)
