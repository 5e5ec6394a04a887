"""Rigs that are not as plotted, made at random, and what lands on their decks.

The light is thrown by the forward model, which its own tests hold to scenes plotted as they hang.
"""

from __future__ import annotations

from typing import NamedTuple

import msgspec
import numpy as np

from aimcalc.landings import forward as f
from aimcalc.landings.spots import Direct, Problem, Spots
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Errors, Pipe, Target, Unit
from tests.rigs import a_kind, a_scene

Array = np.ndarray


def a_rig(rng: np.random.Generator, pipes: int = 3, units: int = 6, **errors: float) -> Rig:
    """Some level pipes across the stage, each unit of them at a face of its own US or DS of it."""
    tubes, hung, targets = [], [], []
    kinds = [a_kind(f"k{n}", field=field, drop_under=0.35) for n, field in enumerate((19.0, 26.0))]
    for n in range(pipes):
        name, trim, y = f"pipe {n}", rng.uniform(5.0, 7.5), -4.0 + 4.0 * n
        tubes.append(Pipe(name=name, start=(-6.0, y, trim), end=(6.0, y, trim)))
        for k, at in enumerate(np.linspace(5.0, -5.0, units)):
            far = rng.uniform(2.0, 6.0) * rng.choice((-1.0, 1.0) if n else (1.0,))
            x = float(np.clip(at + rng.uniform(-4.0, 4.0), -6.0, 6.0))
            targets.append(Target(name=f"{name}/{k}", x=x, y=y + far))
            hung.append(
                Unit(
                    position=name,
                    number=str(k + 1),
                    kind=f"k{rng.integers(2)}",
                    at=float(at),
                    target=f"{name}/{k}",
                )
            )
    scene = a_scene(hung, targets, pipes=tubes, kinds=kinds)
    return Rig(msgspec.structs.replace(scene, errors=Errors(**errors)))


class Truth(NamedTuple):
    """A rig as it really hangs: its problem with the spots read, what is out in prior widths (P,), and which
    readings are gross."""

    problem: Problem
    state: Array
    gross: Array


def read_from(
    rig: Rig,
    rng: np.random.Generator,
    unit: Array,
    *,
    out: dict[tuple[str, str], float] | None = None,
    usual: float = 1.0,
    gross: float = 0.0,
    back: bool = False,
    direct: tuple[Direct, ...] = (),
    really: f.Set | None = None,
) -> Truth:
    """Spots read of some units of a rig with random things out.

    `out` fixes some of the unknowns (by what and of; metres or radians), the others are drawn from their
    priors times `usual`; a share `gross` of the readings is out by 1 to 3 m; `back`: angles were read back.
    `really` is how the units were set, where that is not as printed.
    """
    errors = rig.scene.errors
    count = unit.size
    given = f.some(f.printed(rig), unit)
    level = np.tile([[0.0], [0.0], [1.0]], count)
    pan, down = (errors.read_pan, errors.read_down) if back else (errors.set_pan, errors.set_down)
    spots = Spots(
        unit=unit,
        given=given,
        plane=f.plane_at(np.zeros((3, count)), level),
        point=np.zeros((3, count)),
        rows=np.tile(np.eye(3)[:2], (count, 1, 1)),
        used=np.tile([True, True, False], (count, 1)),
        throw=np.zeros(count),
        pan=np.full(count, np.radians(pan)),
        down=np.full(count, np.radians(down)),
        read_back=np.full(count, back),
    )
    blank = Problem(rig, spots, direct)
    state = rng.normal(size=len(blank.unknowns)) * usual
    for key, value in (out or {}).items():
        state[blank.place[key]] = value / blank.widths[blank.place[key]]
    off = blank._at(state[None])[:, 0]
    off[f.PAN] += spots.pan * rng.normal(size=count)
    off[f.DOWN] += spots.down * rng.normal(size=count)
    off[f.MARKS] += errors.mark * rng.normal(size=count)
    told = f.landed(blank.units, really or given, spots.plane, off)
    point = told.point.copy()
    point[:2] += errors.landing * rng.normal(size=(2, count))
    wrong = rng.random(count) < gross
    way, far = rng.uniform(0, 2 * np.pi, count), rng.uniform(1.0, 3.0, count)
    point[:2] += wrong * far * np.stack((np.cos(way), np.sin(way)))
    measured = tuple(
        d._replace(
            value=d.value + float(blank.direct_moves[k] @ state) + d.width * float(rng.normal())
        )
        for k, d in enumerate(direct)
    )
    return Truth(Problem(rig, spots._replace(point=point), measured), state, wrong)
