"""Solving and judging long rigs: how time grows with the number of units."""

from __future__ import annotations

import json
import time

import pytest
from msgspec.structs import asdict

from aimcalc.findings import findings
from aimcalc.scene.model import Kind, Pipe, Scene, Settings, Stage, Target, Unit
from aimcalc.solid.rig import solve_rig

ON_A_PIPE = 50
STAGE = ((-8.0, -1.0), (8.0, -1.0), (8.0, 10.0), (-8.0, 10.0))


def long_rig(count: int) -> Scene:
    """`count` units on pipes of 50, four systems over 25 areas; some of everything is wrong with it."""
    pipes = [f"pipe {n}" for n in range(count // ON_A_PIPE)]
    units = tuple(a_unit(pipe, n, k) for n, pipe in enumerate(pipes) for k in range(ON_A_PIPE))
    body = {"drop_under": 0.36, "drop_over": 0.36, "nose": 0.34, "length": 0.6, "width": 0.3}
    kinds = {
        "spot": Kind(name="spot", family="ers", field=26.0, has_frame=True, **body),
        "oval": Kind(name="oval", family="par", field=34.0, oval=(24.0, 48.0), **body),
    }
    return Scene(
        settings=Settings(title="A long rig"),
        stage=Stage(outline=STAGE, acting=STAGE),
        pipes=tuple(a_pipe(name, n / len(pipes)) for n, name in enumerate(pipes)),
        booms=(),
        stands=(),
        targets=tuple(Target(name=f"T{k}", x=k % 5 * 3.0 - 6, y=k // 5 * 2.0) for k in range(25)),
        kinds=kinds,
        units=units,
    )


def a_pipe(name: str, share: float) -> Pipe:
    """A pipe somewhere between the house and the back wall, one in two measured."""
    y, trim = -6 + 16 * share, 6 + share
    measured = name.endswith(tuple("02468"))
    return Pipe(
        name=name, start=(-13.0, y, trim), end=(13.0, y, trim), measured=measured, lines=(0.0,)
    )


def a_unit(pipe: str, row: int, k: int) -> Unit:
    return Unit(
        position=pipe,
        number=str(k + 1),
        at=12.25 - 0.5 * k,
        kind="oval" if k % 10 == 9 else "spot",
        target=f"T{(7 * k + row) % 25}",
        mount="over" if k % 25 == 24 else "under",
        system=("front warm", "front cool", "back", "side")[k % 4],
        channel=str(row * ON_A_PIPE + k - k % 20 // 19),
    )


@pytest.fixture(scope="module")
def rigs() -> dict[int, Scene]:
    return {count: long_rig(count) for count in (1_000, 10_000, 100_000)}


def judged(scene: Scene) -> int:
    return len(findings(solve_rig(scene)))


@pytest.mark.parametrize(("many", "few", "rounds"), [(10_000, 1_000, 5), (100_000, 10_000, 2)])
def test_ten_times_the_units_take_about_ten_times_as_long(ratios, rigs, many, few, rounds) -> None:
    ratios(
        f"solve and findings, {many:,} units / {few:,} units",
        lambda: judged(rigs[many]),
        lambda: judged(rigs[few]),
        bar=12.0,
        rounds=rounds,
        clock=time.process_time,
    )


def test_ten_thousand_units_are_solved_and_judged_in_the_time_of_writing_them_down(
    ratios, rigs
) -> None:
    """A second of one core on a slow machine, less than half of one on a quick one: hence a floor."""
    scene = rigs[10_000]
    assert judged(scene) > 500  # it has something to say about every pipe

    def written_and_read():
        return json.loads(json.dumps([asdict(unit) for unit in scene.units]))

    assert len(written_and_read()) == len(scene.units)
    ratios(
        "solve and findings, 10,000 units / the units as JSON and back",
        lambda: judged(scene),
        written_and_read,
        bar=4.0,
        rounds=5,
        clock=time.process_time,
    )
