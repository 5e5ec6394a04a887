"""Everything solid of a scene that is no unit, each thing with its name and its triangles."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.deck import bare_height, height
from aimcalc.geometry.polygon import split, triangulated
from aimcalc.geometry.solids import Shape, box, joined, panel, tube
from aimcalc.rig.solid.mesh_files import meshes_of
from aimcalc.rig.tube import TUBE_RADIUS
from aimcalc.scene.model import Boom, Pipe, Point, Scene, Stand

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

SOLID, PIPE, BOOM, ARM, STAND = "solid", "pipe", "boom", "arm", "stand"


class Thing(NamedTuple):
    """One solid: `sort` is SOLID (of the scene's own table), PIPE, BOOM, ARM or STAND.

    `ends` are the two ends of a tube's middle line; `unit` the row of the unit that an arm holds, -1 for
    all else.
    """

    name: str
    sort: str
    shape: Shape
    ends: tuple[Point, Point] | None = None
    unit: int = -1


def things_of(rig: Rig) -> tuple[Thing, ...]:
    """The scene's solids in the order written, then its pipes, booms, side arms and raised stands.

    Raises SceneError where a mesh file cannot be used.
    """
    return (*solids_of(rig.scene), *_positions(rig), *_arms(rig))


def solids_of(scene: Scene) -> Iterator[Thing]:
    """The scene's own solids, in the order written."""
    meshes = meshes_of(scene)
    for solid in scene.solids:
        if solid.box:
            yield Thing(solid.name, SOLID, box(solid.box[:3], solid.box[3:]))
        elif solid.panel:
            yield Thing(solid.name, SOLID, panel(solid.panel))
        else:
            yield Thing(solid.name, SOLID, meshes[solid.name].shape)


def _positions(rig: Rig) -> Iterator[Thing]:
    for name, position in rig.scene.positions.items():
        if isinstance(position, Pipe):
            yield _tube(name, PIPE, position.start, position.end)
            continue
        foot = float(height(rig.deck, np.array([position.x]), np.array([position.y]))[0])
        top = _top(position, foot)
        if top > foot:
            sort = BOOM if isinstance(position, Boom) else STAND
            ends = (position.x, position.y, foot), (position.x, position.y, top)
            yield _tube(name, sort, *ends)


def _top(position: Boom | Stand, foot: float) -> float:
    if isinstance(position, Boom):
        return foot + position.height
    return foot if position.z is None else position.z


def _arms(rig: Rig) -> Iterator[Thing]:
    for k, (unit, position) in enumerate(zip(rig.units, rig.positions, strict=True)):
        if unit.mount == "arm" and unit.arm > 0 and isinstance(position, Boom):
            x, y, z = rig.arrays.clamp[:, k].tolist()
            inner = (position.x, position.y, z)
            yield _tube(f"arm of {rig.names[k]}", ARM, inner, (x, y, z), unit=k)


def _tube(name: str, sort: str, start: Point, end: Point, *, unit: int = -1) -> Thing:
    return Thing(name, sort, tube(start, end, radius=TUBE_RADIUS), (start, end), unit)


def deck_shape(rig: Rig) -> Shape | None:
    """The deck within the stage's outline; None where no outline is given."""
    outline = np.array(rig.scene.stage.outline, dtype=float).reshape(-1, 2).T
    if not outline.size:
        return None
    parts = split(outline, rig.deck.rake_from) if rig.deck.rake else (outline,)
    shapes = []
    for plan in parts:
        if plan.shape[1] >= 3:
            corners = np.concatenate((plan, bare_height(rig.deck, plan[1])[None]))
            shapes.append(Shape(corners, triangulated(plan)))
    return joined(shapes)
