"""How long the light takes: from a cold start, of wide rigs, and beside a ray tracer on the same work."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from aimcalc.coverage.sources import seen_from
from aimcalc.coverage.study import study_of
from aimcalc.coverage.survey import CoverOptions, survey
from aimcalc.coverage.systems import face_z, light_of, systems_of
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig
from tests import ray_tracer
from tests.benchmarks.cold import ENTRY, children_used, import_numpy, installed, process
from tests.black_scenery import black
from tests.wide_rigs import a_stock_of_thousands, a_wide_wash

ROOT = Path(__file__).parents[2]
PLAYHOUSE = str(ROOT / "scenes" / "playhouse")
POINTS = 20_000
UP = np.array([0.0, 0, 1])


def seconds(work):
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@pytest.fixture(scope="module")
def rig():
    return solve_rig(load_scene(PLAYHOUSE))


HELD = """
import os, subprocess, sys
started = subprocess.Popen(sys.argv[1:], stdout=subprocess.DEVNULL)
_, status, used = os.wait4(started.pid, 0)
started.returncode = os.waitstatus_to_exitcode(status)
print(started.returncode, used.ru_maxrss)
"""


def megabytes(*command):
    """The most memory that a process ever held, started by a small one: it counts what it was forked from."""
    small = [sys.executable, "-c", HELD, *command]
    told = subprocess.run(small, env=installed(), capture_output=True, text=True, check=True).stdout
    status, kilobytes = map(int, told.split())
    assert status in (0, 1)
    return kilobytes / 1024


def told(ratios, command, scene, bar, rounds):
    ours = process(*ENTRY, command, str(scene))
    name = f"cold: aimcalc {command} {Path(scene).stem} / import numpy, processor time"
    ratios(name, ours, import_numpy, bar=bar, rounds=rounds, clock=children_used)


@pytest.mark.parametrize(("command", "bar"), [("cover", 10), ("lens", 9)])
def test_the_playhouses_light_is_told_from_a_cold_start(ratios, command, bar):
    told(ratios, command, PLAYHOUSE, bar, 3)
    assert seconds(process(*ENTRY, command, PLAYHOUSE)) < 3.0


def test_the_light_of_72_units_over_14_by_24_metres_stays_in_proportion(ratios, tmp_path):
    scene = a_wide_wash(tmp_path)
    told(ratios, "cover", scene, 40, 1)
    assert megabytes(*ENTRY, "cover", str(scene)) < 200


def test_a_kind_is_proposed_for_three_thousand_units(ratios, tmp_path):
    scene = a_stock_of_thousands(tmp_path)
    told(ratios, "lens", scene, 40, 1)
    assert megabytes(*ENTRY, "lens", str(scene)) < 250


def test_a_system_is_summed_up_faster_than_by_the_ray_tracer(ratios, rig, tmp_path):
    # All units past all scenery on the level plane; the tracer's reading of the scene is not counted.
    study = study_of(rig)
    lamps = study.sources.lamps
    rng = np.random.default_rng(6)
    x, y = rng.uniform(-4, 4, POINTS), rng.uniform(0, 5.4, POINTS)
    points = np.stack((x, y, face_z(rig, x, y)))
    ray_tracer.lux(
        tmp_path, ray_tracer.smooth_scene(tmp_path, lamps) + black(rig), points[:, :1], UP
    )
    rays = np.vstack((points, np.broadcast_to(UP[:, None], points.shape))).T.astype("<f8").tobytes()
    trace = ["rtrace", "-I", "-h", "-fdd", *ray_tracer.DIRECT_ONLY, "scene.oct"]
    systems = {"all": systems_of(rig)["all"]}

    def ours():
        seen = seen_from(study.sight, lamps.lens, points)
        return light_of(lamps, seen, points, systems, ("level",))["all"][0]

    def theirs():
        answer = ray_tracer.run(tmp_path, *trace, given=rays)
        return np.frombuffer(answer, "<f8").reshape(-1, 3)[:, 1]

    close = np.isclose(ours(), theirs(), rtol=1e-3, atol=1e-4)
    assert close.mean() > 0.9995  # a point or two may lie on the very edge of a shadow
    ratios(f"78 units, scenery, {POINTS:,} points / rtrace", ours, theirs, bar=1.0, rounds=3)


def test_the_fine_grid_and_who_fills_its_holes_are_found_in_a_second_or_so(rig):
    start = time.process_time()
    found = survey(rig, CoverOptions(fewest=False))
    assert time.process_time() - start < 2.5
    assert sum(len(system.gaps) for system in found.study.systems.values()) > 10
