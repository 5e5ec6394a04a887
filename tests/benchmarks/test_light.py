"""Light of many units at many points, against tiled numpy kernels written by hand with reused buffers.

The floors do the least that the same answer needs: one unit at a time over a strip of points that stays in
the cache, every step in place, the smooth profile by one arccos, one log and two exp.
"""

from __future__ import annotations

import time
import tracemalloc

import numpy as np
import pytest

from aimcalc.geometry.pools import level_across
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import candela_table, measured_lamps, smooth_lamps
from aimcalc.light.photometry import Photometry

STRIP = 8192
THREE = ("level", "house", "cylindrical")


def places(count):
    """Lenses and axes of a rig over a stage of 12 by 8 m, each pointed at a face."""
    rng = np.random.default_rng(1)
    lens = rng.uniform([[-8], [-8], [5]], [[8], [9], [8]], (3, count))
    face = np.vstack((rng.uniform(-6, 6, count), rng.uniform(0, 8, count), np.full(count, 1.65)))
    return lens, face - lens


def smooth_rig(count):
    rng = np.random.default_rng(2)
    lens, axis = places(count)
    field = np.radians(rng.choice([19.0, 26, 36, 50], count))
    beam = field / rng.uniform(1.3, 1.7, count)
    return smooth_lamps(lens, axis, peak_cd=rng.uniform(2e4, 1e5, count), beam=beam, field=field)


def measured_rig(count, *, all_round=False):
    gamma, c = np.arange(0, 92.5, 2.5), np.arange(0, 382.5, 22.5) if all_round else np.zeros(1)
    wave = 1 + 0.2 * np.sin(np.radians(2 * c))[:, None] * np.sin(np.radians(gamma))
    file = Photometry(
        path="invented",
        standard="LM-63-2002",
        layout="C",
        c_deg=c,
        gamma_deg=gamma,
        candela=50000 * np.exp(-((gamma / 12) ** 2)) * wave,
    )
    lens, axis = places(count)
    return measured_lamps(lens, axis, table=candela_table(file), across=level_across(axis))


def points(count):
    rng = np.random.default_rng(3)
    return np.vstack((rng.uniform(-6, 6, count), rng.uniform(0, 8, count), np.full(count, 1.65)))


def by_hand(lamps, at, shape, *, three=False):
    """Light on the level plane (or the three), with `shape(lamps, unit, cosine, ray, spare)` in place."""
    total = np.zeros((3 if three else 1, at.shape[1]))
    for start in range(0, at.shape[1], STRIP):
        span = slice(start, min(start + STRIP, at.shape[1]))
        p, out = at[:, span], total[:, span]
        ray = np.empty((3, p.shape[1]))
        square, distance, cosine, spare = np.empty((4, p.shape[1]))
        for k in range(lamps.size):
            for row in range(3):
                np.subtract(p[row], lamps.lens[row, k], out=ray[row])
            np.multiply(ray[0], ray[0], out=square)
            for row in (1, 2):
                np.multiply(ray[row], ray[row], out=spare)
                np.add(square, spare, out=square)
            np.sqrt(square, out=distance)
            np.multiply(ray[0], lamps.axis[0, k], out=cosine)
            for row in (1, 2):
                np.multiply(ray[row], lamps.axis[row, k], out=spare)
                np.add(cosine, spare, out=cosine)
            np.divide(cosine, distance, out=cosine)
            np.minimum(cosine, 1.0, out=cosine)
            shape(lamps, k, cosine, ray, spare)
            np.multiply(square, distance, out=spare)
            np.divide(cosine, spare, out=cosine)
            np.multiply(cosine, lamps.peak_cd[k], out=cosine)
            np.minimum(ray[2], 0.0, out=spare)
            np.multiply(spare, cosine, out=spare)
            np.subtract(out[0], spare, out=out[0])
            if three:
                np.maximum(ray[1], 0.0, out=spare)
                np.multiply(spare, cosine, out=spare)
                np.add(out[1], spare, out=out[1])
                np.multiply(ray[0], ray[0], out=spare)
                np.multiply(ray[1], ray[1], out=distance)
                np.add(spare, distance, out=spare)
                np.sqrt(spare, out=spare)
                np.multiply(spare, cosine, out=spare)
                np.multiply(spare, 1 / np.pi, out=spare)
                np.add(out[2], spare, out=out[2])
    return total


def smooth_shape(lamps, k, cosine, ray, spare):
    np.maximum(cosine, 0.0, out=cosine)
    np.ceil(cosine, out=spare)  # 1 in front of the unit, 0 behind it
    np.arccos(cosine, out=cosine)
    np.divide(cosine, lamps.wide[k], out=cosine)
    np.log(cosine, out=cosine)
    np.multiply(cosine, lamps.power[k], out=cosine)
    np.exp(cosine, out=cosine)
    np.negative(cosine, out=cosine)
    np.maximum(cosine, -100.0, out=cosine)
    np.exp(cosine, out=cosine)
    np.multiply(cosine, spare, out=cosine)


def table_shape(lamps, k, cosine, ray, spare):
    table = lamps.tables[lamps.table[k]]
    np.maximum(cosine, -1.0, out=cosine)
    np.arccos(cosine, out=cosine)
    np.multiply(cosine, 1 / table.step[1], out=cosine)
    index = cosine.astype(np.intp)
    np.subtract(cosine, index, out=cosine)
    np.take(table.values[0], index, out=spare, mode="clip")
    np.add(index, 1, out=index)
    after = np.take(table.values[0], index, mode="clip")
    np.subtract(after, spare, out=after)
    np.multiply(after, cosine, out=after)
    np.add(spare, after, out=cosine)


def all_round_shape(lamps, k, cosine, ray, spare):
    table = lamps.tables[lamps.table[k]]
    up = np.cross(lamps.across[:, k], lamps.axis[:, k])
    turn = np.arctan2(up @ ray, lamps.across[:, k] @ ray)
    np.subtract(turn, table.start[0], out=turn)
    np.multiply(turn, 1 / table.step[0], out=turn)
    np.maximum(cosine, -1.0, out=cosine)
    np.arccos(cosine, out=cosine)
    np.multiply(cosine, 1 / table.step[1], out=cosine)
    row, column = turn.astype(np.intp), cosine.astype(np.intp)
    np.subtract(turn, row, out=turn)
    np.subtract(cosine, column, out=cosine)
    row *= table.values.shape[1]
    row += column
    flat, wide = table.values.reshape(-1), table.values.shape[1]
    corners = [np.take(flat, row + step, mode="clip") for step in (0, 1, wide, wide + 1)]
    low = corners[0] + (corners[1] - corners[0]) * cosine
    high = corners[2] + (corners[3] - corners[2]) * cosine
    np.add(low, (high - low) * turn, out=cosine)


@pytest.mark.parametrize(
    ("units", "count", "bar", "rounds"), [(600, 50_000, 1.3, 3), (60, 2000, 2.0, 30)]
)
def test_level_light_of_many_units_at_many_points(ratios, units, count, bar, rounds):
    lamps, at = smooth_rig(units), points(count)
    with np.errstate(divide="ignore", over="ignore"):
        np.testing.assert_allclose(
            illuminance(lamps, at), by_hand(lamps, at, smooth_shape), rtol=1e-9
        )
        ratios(
            f"light, {units} units by {count} points",
            lambda: illuminance(lamps, at),
            lambda: by_hand(lamps, at, smooth_shape),
            bar=bar,
            rounds=rounds,
            clock=time.process_time,
        )


def test_all_three_quantities_in_one_pass(ratios):
    lamps, at = smooth_rig(80), points(50_000)
    with np.errstate(divide="ignore", over="ignore"):
        expected = by_hand(lamps, at, smooth_shape, three=True)
        np.testing.assert_allclose(illuminance(lamps, at, THREE), expected, rtol=1e-9)
        ratios(
            "light, level, house and cylindrical",
            lambda: illuminance(lamps, at, THREE),
            lambda: by_hand(lamps, at, smooth_shape, three=True),
            bar=1.3,
            clock=time.process_time,
        )


@pytest.mark.parametrize("all_round", [False, True], ids=["rotational", "all round"])
def test_a_rig_with_measured_photometry(ratios, all_round):
    lamps, at = measured_rig(60, all_round=all_round), points(50_000)
    shape = all_round_shape if all_round else table_shape
    np.testing.assert_allclose(illuminance(lamps, at), by_hand(lamps, at, shape), rtol=1e-9)
    ratios(
        f"light by photometric file, {'all round' if all_round else 'rotational'}",
        lambda: illuminance(lamps, at),
        lambda: by_hand(lamps, at, shape),
        bar=1.3,
        clock=time.process_time,
    )


def test_units_whose_light_is_not_blocked_pay_nothing_for_those_that_are(ratios):
    lamps, at = smooth_rig(300), points(10_000)
    flags = np.arange(lamps.size) == 7
    ratios(
        "light, one unit of 300 partly blocked",
        lambda: illuminance(
            lamps._replace(part_blocked=flags), at, visible=lambda _, which: which % 2 == 0
        ),
        lambda: illuminance(lamps, at),
        bar=1.1,
        clock=time.process_time,
    )


def test_600_units_by_50000_points_take_less_than_64_mib():
    lamps, at = smooth_rig(600), points(50_000)
    illuminance(lamps.take([0]), at[:, :10], THREE)
    tracemalloc.start()
    illuminance(lamps, at, THREE)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak <= 64 * 2**20
