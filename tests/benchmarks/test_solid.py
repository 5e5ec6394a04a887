"""A worked scene made solid: light lost against the bare occlusion query, and a section from a cold start."""

from __future__ import annotations

import time
from pathlib import Path

import numpy as np
import pytest

from aimcalc.findings import body_findings
from aimcalc.geometry.blocked import field_rays
from aimcalc.rig.rig import Rig
from aimcalc.scene.loading import load_scene
from aimcalc.solid.light_lost import FINE, lenses_of, lost
from aimcalc.solid.rig import solve_rig
from tests.benchmarks.cold import ENTRY, import_numpy, process, used
from tests.benchmarks.test_findings import long_rig

ROOT = Path(__file__).parents[2]
PLAYHOUSE = ROOT / "scenes" / "playhouse"


@pytest.fixture(scope="module")
def rig() -> Rig:
    return solve_rig(load_scene(PLAYHOUSE))


def test_light_lost_by_every_unit_of_the_playhouse(ratios, rig):
    """The floor casts the same rays: 500 a unit, and `FINE` more of those that lose some of their light."""
    ready, count = rig.solids.whole, len(rig.units)
    some = np.flatnonzero((rig.lost.share > 0) & (rig.lost.share < 1))
    few = field_rays(lenses_of(rig, rig.solids.own), np.arange(count), ready.centre)
    fine = lenses_of(rig, rig.solids.own, rays=FINE, units=some)
    many = field_rays(fine, np.arange(some.size), ready.centre)
    assert len(few.limit) == 500 * count >= 36_000
    assert len(many.limit) == FINE * some.size >= 60_000
    ratios(
        "light lost, playhouse: all solids, 500 or 4,000 rays a unit / raw occlusion",
        lambda: lost(rig, rig.solids),
        lambda: [ready.engine.run(*r[:2], dists=r.limit, query="OCCLUDED") for r in (few, many)],
        bar=2.0,
        rounds=15,
    )


def test_light_lost_and_the_section_of_the_playhouse_in_two_seconds_from_a_cold_start(
    ratios, tmp_path
):
    made = process(*ENTRY, "prep", str(PLAYHOUSE), "--only", "section,lists", "-o", str(tmp_path))
    made()  # whatever has no bytecode yet is compiled
    start = time.perf_counter()
    made()
    assert time.perf_counter() - start < 2.0
    name = "cold: section and lists with light lost, playhouse / import numpy, wall"
    ratios(name, made, import_numpy, bar=6.0, rounds=4)


def test_bodies_of_500_units_close_together(ratios):
    """Pipes of 50 units half a metre apart: nearly every unit has to be turned past another.

    The floor starts a process that imports numpy; the bar stands for half a second.
    """
    scene = long_rig(500)
    name = "bodies of 500 units close together / import numpy, CPU"
    ratios(name, lambda: body_findings(solve_rig(scene)), import_numpy, bar=4.0, clock=used)


@pytest.mark.parametrize("count", [500])
def test_bodies_of_a_long_rig_are_judged_in_proportion(ratios, count):
    few, many = long_rig(count), long_rig(4 * count)
    ratios(
        f"bodies of {4 * count:,} units / of {count:,}, pipes closing up",
        lambda: body_findings(solve_rig(many)),
        lambda: body_findings(solve_rig(few)),
        bar=16.0,  # four times the units, each in four times the company
        rounds=1,
    )
