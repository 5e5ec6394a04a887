"""Aiming and pools of a million units, against numpy's own arctan2, hypot and sqrt on as many pairs."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest

from aimcalc.geometry import aim as mounts
from aimcalc.geometry.aim import Mounted, aim
from aimcalc.geometry.deck import Deck
from aimcalc.geometry.pools import level_pools
from tests.benchmarks.conftest import NOISE_OF_THREADS

MILLION = 1_000_000
DECK = Deck(rake=1 / 12)


def mixed_rig(n: int, *, rise: float = 0.0) -> Mounted:
    """`n` units whose mounts alternate: under, over, out, arm, direct, stand."""
    rng = np.random.default_rng(1)
    mount = np.arange(n) % 6
    clamp = rng.uniform((-8, -8, 2), (8, 8, 8), (n, 3)).T.copy()
    point = rng.uniform((-6, 0, 1), (6, 8, 2), (n, 3)).T.copy()
    stem = np.tile([[0.0], [0.0], [-1.0]], n)
    stem[2, (mount == 1) | (mount == 5)] = 1.0
    square = np.tile([[0.0], [1.0], [0.0]], n)
    out, direct = np.flatnonzero(mount == 2), np.flatnonzero(mount == 4)
    along = np.tile([[1.0], [0.0], [0.0]], out.size)
    angle = rng.uniform(0, 1.2, out.size)
    stem[:, out], square[:, out] = mounts.swung_out(
        stem[:, out], along, square[:, out], square[:, out], angle
    )
    stem[:, direct], square[:, direct] = mounts.direct(rng.uniform(-3, 3, direct.size))
    field = rng.uniform(0.2, 0.9, n)
    return Mounted(
        clamp=clamp,
        stem=stem,
        reference=square,
        drop=np.full(n, 0.36),
        nose=np.full(n, 0.3),
        rise=np.full(n, rise),
        point=point,
        stand=point - np.array([[0.0], [0.0], [1.0]]),
        field=field,
        beam=field * 0.55,
        yoke_min=np.full(n, -np.pi),
        yoke_max=np.full(n, np.pi),
        tolerance=field / 4,
        tape_at=np.where(np.abs(stem[2]) == 1, clamp[0], np.nan),
        tape_sense=np.ones(n),
        sight_out=np.full(n, 3.0),
        tail_up=np.zeros(n, bool),
    )


@pytest.fixture(scope="module")
def pairs():
    return np.random.default_rng(0).normal(size=(2, MILLION))


def floor(pairs):
    x, y = pairs
    return np.arctan2(x, y), np.hypot(x, y), np.sqrt(np.abs(x))


@pytest.mark.parametrize("rise", [0.0, 0.02])
def test_aiming_a_million_units_of_mixed_mounts(ratios, pairs, rise):
    rig = mixed_rig(MILLION, rise=rise)
    name = f"aim, a million units, rise {rise:g} m / arctan2+hypot+sqrt"
    ours = {"bar": 4.0, "rounds": 7, "noise": NOISE_OF_THREADS}
    ratios(name, lambda: aim(rig, DECK), lambda: floor(pairs), **ours)
    told = aim(rig, DECK)
    assert np.isfinite(told.yoke).all()


def test_pools_of_a_million_units(ratios, pairs):
    rig = mixed_rig(MILLION)
    told = aim(rig, DECK)
    half = rig.field / 2

    def ours():
        return level_pools(told.lens, told.axis, half, rig.point[2])

    name = "pools, a million units / arctan2+hypot+sqrt"
    ratios(name, ours, lambda: floor(pairs), bar=4.0, rounds=7, noise=NOISE_OF_THREADS)


def test_aiming_and_pools_take_400_bytes_a_unit_at_most():
    n = MILLION
    rig = mixed_rig(n)
    tracemalloc.start()
    told = aim(rig, DECK)
    pools = [level_pools(told.lens, told.axis, rig.field / 2, rig.point[2]) for _ in range(2)]
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert len(pools) == 2
    assert peak / n <= 400
