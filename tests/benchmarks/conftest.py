"""Timings as ratios to a floor named and run in the same test, so that a slow machine is no excuse.

Both sides run alternately and the best of each counts: what else the machine does then hits both. The
ratios are printed at the end of the run, each beside its bar and whether it is met. A test fails only
where a ratio is beyond its bar by NOISE, which a busy machine does not reach but a lost algorithm does.
What runs on every core is given twice that: where somebody else holds one of two cores, it takes twice as
long and its floor does not.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest

NOISE = 2.5
NOISE_OF_THREADS = 2 * NOISE
ROWS: list[tuple[str, float, float, float]] = []


class Ratios:
    """Times `ours` against `floor` and keeps the ratio for the summary and for the benchmark's record."""

    def __init__(self, benchmark):
        self.benchmark = benchmark

    def __call__(
        self,
        name: str,
        ours: Callable[[], object],
        floor: Callable[[], object],
        *,
        bar: float,
        rounds: int = 5,
        clock: Callable[[], float] = time.perf_counter,
        noise: float = NOISE,
    ) -> float:
        """Best of `ours` over best of `floor`; fails beyond `bar` times `noise`."""
        best = [float("inf")] * 2
        floor(), ours()  # warm caches and imports
        for _ in range(rounds):
            for k, run in enumerate((floor, ours)):
                start = clock()
                run()
                best[k] = min(best[k], clock() - start)
        ratio = best[1] / best[0]
        self.benchmark.extra_info |= {
            "floor_s": best[0],
            "ours_s": best[1],
            "ratio": ratio,
            "bar": bar,
        }
        self.benchmark.pedantic(ours, rounds=1)
        ROWS.append((name, ratio, bar, bar * noise))
        assert ratio < bar * noise, f"{name}: {ratio:.2f} times the floor, far beyond the bar {bar}"
        return ratio


@pytest.fixture
def ratios(benchmark):
    """`ratios(name, ours, floor, bar=...)` times two callables against each other."""
    return Ratios(benchmark)


def pytest_collection_modifyitems(items):
    """Every test here is a timing: it runs by itself, after the others and on idle cores."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.timing)


def pytest_terminal_summary(terminalreporter):
    if not ROWS:
        return
    terminalreporter.section("times as ratios to a floor")
    for name, ratio, bar, most in ROWS:
        told = "over it" if ratio >= bar else "met"
        terminalreporter.write_line(
            f"{name:<72} {ratio:6.2f}   bar {bar:g}, {told}; a test fails from {most:g}"
        )
