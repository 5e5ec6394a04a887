"""Small solid rigs for tests: one unit, or a few, on plain pipes, with what stands about."""

from __future__ import annotations

from typing import Any

import msgspec

from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Pipe, Scene, Seats, Solid, Target, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import INCH, a_kind, a_pipe, a_scene

FACE = (0.0, 4.0, 1.65)
BODY = {"length": 26 * INCH, "width": 8 * INCH, "nose": 13 * INCH}


def a_body(name: str = "k", **values: object):
    """A kind whose size is known: body 26 by 8 in, pivot 13 in behind the lens, drop 14 in."""
    return a_kind(name, **{**BODY, **values})


def a_unit(number: int | str = 1, at: float = 0.0, **more: Any) -> Unit:
    given = {"position": "p", "kind": "k", "point": FACE, **more}
    return Unit(number=str(number), at=at, **given)


def a_rig(
    units: list[Unit] | None = None,
    *,
    solids: list[Solid] | None = None,
    seats: list[Seats] | None = None,
    folder: str = ".",
    **more: Any,
) -> Rig:
    """One unit at the middle of a pipe 6 m up over y = 0 that faces a point 4 m US, unless said."""
    more.setdefault("kinds", [a_body()])
    scene = a_scene(units if units is not None else [a_unit()], solids=solids, **more)
    return solve_rig(msgspec.structs.replace(scene, seats=tuple(seats or ()), folder=folder))


def a_panel(name: str, y: float, low: float, high: float, *, half: float = 8.0) -> Solid:
    """An upright panel across the stage."""
    corners = ((-half, y, low), (half, y, low), (half, y, high), (-half, y, high))
    return Solid(name=name, panel=corners)


def a_border(y: float, low: float, name: str = "border 1", high: float = 9.0) -> Solid:
    return a_panel(name, y, low, high)


__all__ = [
    "FACE",
    "Pipe",
    "Scene",
    "Seats",
    "Solid",
    "Target",
    "a_body",
    "a_border",
    "a_panel",
    "a_pipe",
    "a_rig",
    "a_unit",
]
