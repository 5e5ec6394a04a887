"""How long one moved target takes when all was worked out before it, beside a show made from nothing."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Scene
from aimcalc.show import Show
from tests.benchmarks.conftest import NOISE, ROWS
from tests.wide_rigs import a_wide_wash

PLAYHOUSE = Path(__file__).parents[2] / "scenes" / "playhouse"
MOVES = 30
FEWEST = 6  # of shows from nothing


def solved(show: Show) -> None:
    """Every aim, what is told of it and what it loses."""
    _ = show.rig.answers_with_losses


def lit(show: Show) -> None:
    """The same, and the light of every system with its holes."""
    solved(show)
    _ = show.light


def checked(show: Show) -> None:
    """The same, and everything that is found."""
    lit(show)
    _ = show.findings


def moved(scene: Scene, k: int) -> Scene:
    """The k-th target 10 cm to one side, or on later rounds back again."""
    targets = list(scene.targets)
    rounds, place = divmod(k, len(targets))
    targets[place] = replace(targets[place], x=targets[place].x + 0.1 * (-1) ** rounds)
    return replace(scene, targets=tuple(targets))


def medians(scene: Scene, work: Callable[[Show], None]) -> tuple[float, float]:
    """Processor seconds of a move, and of the same scene from nothing, taken turn about."""
    show, times = Show(scene), ([], [])
    for k in range(MOVES + 2):
        scene = moved(scene, k)
        tries = [show.changed(scene)]
        if k % (MOVES // FEWEST) == 0:
            tries.append(Show(scene))
        for one, taken in zip(tries, times, strict=False):
            start = time.process_time()
            work(one)
            taken.append(time.process_time() - start)
        show = tries[0]
    return statistics.median(times[0][2:]), statistics.median(times[1])


@pytest.mark.parametrize(("work", "bar"), [(solved, 0.45), (lit, 0.35), (checked, 0.65)])
def test_one_target_of_the_playhouse_moved(work, bar, benchmark):
    ours, floor = medians(load_scene(PLAYHOUSE), work)
    told("one target of the playhouse moved", work, ours, floor, bar, benchmark)


@pytest.mark.parametrize(("work", "bar"), [(lit, 0.2), (checked, 0.35)])
def test_one_target_of_300_units_moved(work, bar, benchmark, tmp_path):
    scene = load_scene(a_wide_wash(tmp_path, across=15, rows=10, systems=2))
    assert len(scene.units) == 300
    ours, floor = medians(scene, work)
    told("one target of 300 units, 15,040 points", work, ours, floor, bar, benchmark)


def told(name: str, work, ours: float, floor: float, bar: float, benchmark) -> None:
    """The ratio among the others', with the milliseconds of one move."""
    benchmark.extra_info |= {"ours_s": ours, "floor_s": floor, "bar": bar}
    benchmark.pedantic(lambda: None, rounds=1)
    words = f"{name}, {work.__name__}: {1000 * ours:.0f} ms, from nothing 1"
    ROWS.append((words, ours / floor, bar, bar * NOISE))
    assert ours < floor * bar * NOISE
