"""A scene solved: every unit's aim, in the order of the sheets."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Aims, Flags, Mounted, aim
from aimcalc.geometry.deck import Deck
from aimcalc.geometry.pools import Pools, level_pools
from aimcalc.geometry.vectors import Array
from aimcalc.rig.answers import Answer, answers_of
from aimcalc.rig.arrays import Words, deck_of, rig_arrays
from aimcalc.rig.meets import AT_POINT, Meets, meets, scenery_of
from aimcalc.rig.order import hang_order
from aimcalc.rig.ovals import Ovals, ovals_of, with_ovals
from aimcalc.rig.photometry import file_ovals, filled, photometry_of
from aimcalc.rig.sizes import Sizes, sizes_of
from aimcalc.rig.tapes import Tapes, tapes_of
from aimcalc.rig.tolerances import Tolerances, tolerances
from aimcalc.scene.model import Kind, Position, Scene, Unit

if TYPE_CHECKING:
    from aimcalc.geometry.blocked import Blocked
    from aimcalc.geometry.solids import Soup
    from aimcalc.rig.solid.solids import Solids


class Rig:
    """One scene, its units in hang order, and the arrays of what goes in and what comes out."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.units: tuple[Unit, ...] = hang_order(scene)
        self.photometry = photometry_of(scene)
        self.file_ovals = file_ovals(scene, self.photometry)
        kinds = {name: filled(k, self.photometry.get(name)) for name, k in scene.kinds.items()}
        self.kinds: tuple[Kind, ...] = tuple(kinds[unit.kind] for unit in self.units)
        positions = scene.positions
        self.positions: tuple[Position, ...] = tuple(positions[u.position] for u in self.units)
        self.deck: Deck = deck_of(scene)
        given = rig_arrays(scene, self.units, self.kinds)
        self.arrays: Mounted = given.mounted
        self.words: Words = given.words
        self.surface_z: Array = given.surface_z
        self.aims: Aims = aim(self.arrays, self.deck)

    @cached_property
    def solids(self) -> Solids:
        """Scenery, tubes and bodies. Raises SceneError where a mesh file cannot be used."""
        from aimcalc.rig.solid.solids import Solids

        return Solids(self)

    @cached_property
    def scenery(self) -> Soup:
        """The scene's own solids as triangles. Raises SceneError where a mesh file cannot be used."""
        return scenery_of(self)

    @cached_property
    def meets(self) -> Meets:
        """Where each unit's axis stops: what it meets first, by name and place, and how that stands.

        Raises SceneError where a mesh file cannot be used.
        """
        return meets(self, self.aims.lens, self.aims.axis)

    @cached_property
    def reaches(self) -> Flags:
        """Whether each axis gets to the unit's point before anything stops it."""
        stopped = self.meets.reach < self.aims.throw - AT_POINT
        return np.asarray(~stopped & np.isfinite(self.aims.throw))

    @cached_property
    def sizes(self) -> Sizes:
        """How big the units are taken to be."""
        return sizes_of(self)

    @cached_property
    def tapes(self) -> Tapes:
        """Where the sight tapes lie. Raises SceneError where a mesh file cannot be used."""
        return tapes_of(self)

    @cached_property
    def lost(self) -> Blocked:
        """What each unit loses of its light, and to what. Raises NoRayEngineError."""
        from aimcalc.rig.solid.lost import lost

        return lost(self)

    @cached_property
    def axis(self) -> Array:
        """Unit direction of each lens axis, (3, N)."""
        return self.aims.axis

    @cached_property
    def up(self) -> Array:
        """Each body's own up, a unit direction, (3, N)."""
        return self.aims.up

    @cached_property
    def names(self) -> list[str]:
        """Every unit as "position/number"."""
        return [f"{unit.position}/{unit.number}" for unit in self.units]

    @cached_property
    def by_name(self) -> dict[str, int]:
        """The index of each unit by its "position/number", which is never taken apart again."""
        return {name: k for k, name in enumerate(self.names)}

    def number(self, name: str) -> str:
        """The number of the unit that is called "position/number"."""
        return self.units[self.by_name[name]].number

    @cached_property
    def rows(self) -> dict[str, list[int]]:
        """Indices of the units of each position, in ladder order; positions without units too."""
        rows: dict[str, list[int]] = {name: [] for name in self.scene.positions}
        for k, unit in enumerate(self.units):
            rows[unit.position].append(k)
        return rows

    @cached_property
    def ovals(self) -> Ovals:
        """The units with oval fields, and how they lie."""
        return ovals_of(self)

    @cached_property
    def tolerances(self) -> Tolerances:
        """How far off each unit may be and still hit."""
        return tolerances(self)

    @cached_property
    def face_pools(self) -> Pools:
        """Field pools on the level plane through each unit's point."""
        return self._pools(self.arrays.point[2])

    @cached_property
    def deck_pools(self) -> Pools:
        """Field pools on the level plane of the surface under each unit's point."""
        return self._pools(self.surface_z)

    def _pools(self, plane_z: Array) -> Pools:
        half = self.arrays.field / 2
        round_ones = level_pools(self.aims.lens, self.aims.axis, half, plane_z)
        return with_ovals(round_ones, self.ovals, self.aims, plane_z)

    def answers(self) -> list[Answer]:
        """What is told about each unit, in hang order."""
        pools = (self.face_pools, self.deck_pools)
        given = (self.arrays, self.words, self.aims, self.meets, self.tolerances)
        return answers_of(self.units, *given, self.tapes, pools)


def solve_rig(scene: Scene) -> Rig:
    """Every unit of a scene, aimed.

    Raises SceneError where a kind's photometric file cannot be trusted.
    """
    return Rig(scene)
