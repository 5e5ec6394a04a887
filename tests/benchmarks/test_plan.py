"""Plans of very many units, in units of a bare `import numpy` in the same run.

CPU time of this process and of its children, so that one clock serves both sides.
"""

from __future__ import annotations

import io

import pytest

from aimcalc.scene.model import Scene, Stage, Target, Unit
from aimcalc.sheets.plans.pool_plan import pool_plan
from aimcalc.sheets.plot.light_plot import light_plot
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.benchmarks.cold import import_numpy, used
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import a_show

STAGE = Stage(outline=((-12, -2), (12, -2), (12, 14), (-12, 14)))
ROUNDS = 2
ALONG = 19.8  # m, from the first unit of a pipe to its last


def a_unit(pipe: str, number: int, at: float, target: str, system: str) -> Unit:
    return Unit(position=pipe, number=str(number), kind="k", at=at, target=target, system=system)


def spread(count: int, pipes: int = 10) -> Scene:
    """Pipes 2 m apart over a stage of 24 by 16 m, three systems on each, 60 targets 2 m apart."""
    each = count // pipes
    targets = [Target(name=f"A{k}", x=-9 + 2 * (k % 10), y=2 * (k // 10)) for k in range(60)]
    units = []
    for row in range(pipes):
        up = (row + 1) % 6 if row < pipes // 2 else (row - 3) % 6
        for k in range(each):
            at = ALONG * (k / (each - 1) - 0.5)
            across = round(min(9.0, max(0.0, (at + 9) / 2)))
            system = f"{('warm', 'cool', 'blue')[k % 3]} {row + 1}"
            units.append(a_unit(f"LX {row + 1}", k + 1, at, f"A{10 * up + across}", system))
    hung = [a_pipe(f"LX {row + 1}", y=-8.0 + 2 * row, trim=8.0) for row in range(pipes)]
    kinds = [a_kind(beam=18.0, length=0.6)]
    return a_scene(units, targets, pipes=hung, kinds=kinds, stage=STAGE)


def in_one_spot(count: int) -> Scene:
    """Units side by side within a few centimetres, all on one mark."""
    units = [a_unit("p", k + 1, 0.0001 * k, "A", "wash") for k in range(count)]
    return a_scene(units, [Target(name="A", x=0.5, y=4)], stage=STAGE)


@pytest.mark.parametrize(
    ("name", "scene", "bar"),
    [("1,000 units", spread(1000), 40), ("500 units in one spot", in_one_spot(500), 25)],
)
def test_the_light_plot_of_very_many_units(ratios, name, scene, bar):
    rigs = [solve_rig(scene) for _ in range(ROUNDS + 2)]
    for rig in rigs:
        assert len(rig.answers) == len(rig.units)

    def make() -> None:
        streams = (io.BytesIO(), io.BytesIO(), io.BytesIO())
        light_plot(a_show(rigs.pop(), []), *streams, PaperOptions())

    name = f"light plot of {name} / import numpy, CPU"
    ratios(name, make, import_numpy, bar=bar, clock=used, rounds=ROUNDS)


@pytest.mark.parametrize(
    ("name", "scene", "bar"),
    [("1,000 units", spread(1000), 25), ("500 units in one spot", in_one_spot(500), 25)],
)
def test_the_pool_plan_of_very_many_units(ratios, name, scene, bar):
    rigs = [solve_rig(scene) for _ in range(ROUNDS + 2)]  # what a rig keeps is worked out in each
    for rig in rigs:
        assert len(rig.answers) == rig.reaches.size

    def make() -> None:
        show = a_show(rigs.pop(), [])
        pool_plan(show, io.BytesIO(), io.BytesIO(), PaperOptions())

    name = f"pool plan of {name} / import numpy, CPU"
    ratios(name, make, import_numpy, bar=bar, clock=used, rounds=ROUNDS)
