"""Rigs whose light can be worked out by hand: point-like units over a flat stage, Gaussian profiles.

Second methods for the light of such units, which share nothing with `aimcalc.light`: plain loops and the
written formulas E = I cos t / d^2 and I = I0 10^-(t / half field)^2 (a Gaussian falls to a tenth at the edge
of the field).
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np

from aimcalc.coverage.sources import sources_of
from aimcalc.light.lamps import Lamps
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Kind, Scene, Stage, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_pipe, a_scene

FIELD = 60.0  # degrees
PEAK = 16000.0  # cd
FACE = 1.0  # m
LENS = 5.0  # m: the pipe's trim, since these units have no drop and no nose
SQUARE = ((-4.0, -2.0), (4.0, -2.0), (4.0, 2.0), (-4.0, 2.0))


def a_lamp(name: str = "k", **values: object) -> Kind:
    """A unit without size: its lens is where its clamp is."""
    given = {"family": "ers", "field": FIELD, "peak_cd": PEAK}
    return Kind(name=name, **{**given, **values})  # type: ignore[arg-type]


def a_unit(number: int, x: float, to: tuple[float, float] | None = None, **values: object) -> Unit:
    """A unit at `x` along pipe "p", pointed at the face over `to`, or straight down."""
    point = (*(to or (x, 0.0)), FACE)
    given = {"position": "p", "kind": "k", "at": x, "point": point, "system": "wash"}
    if values.get("target"):
        given.pop("point")
    return Unit(number=str(number), **{**given, **values})  # type: ignore[arg-type]


def a_wash(
    units: Iterable[Unit],
    targets: Iterable[Target] = (),
    *,
    kinds: Iterable[Kind] = (),
    acting: tuple[tuple[float, float], ...] = SQUARE,
    **more: object,
) -> Scene:
    """Units on a pipe over the plaster line, 5 m up, faces at 1 m, over `acting`."""
    stage = more.pop("stage", None) or Stage(outline=acting, acting=acting)
    return a_scene(
        list(units),
        list(targets),
        kinds=list(kinds) or [a_lamp()],
        pipes=[a_pipe("p", trim=LENS)],
        stage=stage,
        face_height=FACE,
        **more,
    )


def a_rig(*args: object, **more: object) -> Rig:
    """`a_wash`, solved."""
    return solve_rig(a_wash(*args, **more))  # type: ignore[arg-type]


def lamps_of(rig: Rig) -> Lamps:
    """Every unit of a rig as a source, in hang order."""
    return sources_of(rig).lamps


def candela(off_axis: float, *, field: float = FIELD, peak: float = PEAK) -> float:
    """Intensity `off_axis` degrees off the axis."""
    return peak * 10 ** -((off_axis / (field / 2)) ** 2) if off_axis < 90 else 0.0


def lux_by_hand(units: Iterable[Unit], point: tuple[float, float, float]) -> float:
    """Light on the level plane at a point, unit by unit."""
    total = 0.0
    for unit in units:
        lens = np.array([unit.at, 0.0, LENS])
        axis, ray = np.subtract(unit.point, lens), np.subtract(point, lens)
        d, a = math.dist(point, lens), np.linalg.norm(axis)
        off = math.degrees(math.acos(min(1.0, float(axis @ ray) / (a * d))))
        total += unit.transmission * candela(off) * max(0.0, -ray[2] / d) / d**2
    return total


def moved(scene: Scene, unit: str, point: tuple[float, float, float]) -> Scene:
    """The scene with one unit, "position/number", pointed elsewhere."""
    from msgspec.structs import replace

    def edited(u: Unit) -> Unit:
        return replace(u, target=None, point=point) if f"{u.position}/{u.number}" == unit else u

    return replace(scene, units=tuple(edited(u) for u in scene.units))
