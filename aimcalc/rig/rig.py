"""A solved rig: its ovals, sizes and pools, and how far off each unit may be.

How far off a unit may be and still hit: up and down, in heading, at its own dial, any way at all.

A miss may take a share of the field's full angle. A round field allows the same every way. An oval one
allows, along each way, that share of its own angle along that way, through its middle: across for a miss
in heading, up and down for one of the level, as the oval lies. A unit turned by a small angle p about a
stem a moves its axis f by p (a x f), whose size is cos(yoke); one whose heading is off by p, by p cos(down).

Crowds are units that cannot all hang where they are told to: clamps on one spot of a tube, bodies in one
heap. Each such place is told once, and what looks at every two units that could touch leaves all but the
first of them out.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.pools import Pools, level_across, level_pools
from aimcalc.geometry.vectors import Array, among, cross, dot
from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Kept
from aimcalc.rig.kinds import Ovals, Sizes, ovals_of, sizes_of, with_ovals
from aimcalc.rig.letters import Lent, written
from aimcalc.rig.places import TUBE_RADIUS
from aimcalc.rig.solve import Solved
from aimcalc.scene.model import Boom, Pipe

if TYPE_CHECKING:
    from aimcalc.rig.meshes import Mesh


class Tolerances(NamedTuple):
    """Angles in radians, each (N,): `pan` at the clamp's own dial, `least` whichever way the miss goes.

    Infinite where any heading or any pan will do.
    """

    down: Array
    heading: Array
    pan: Array
    least: Array


def tolerances(rig: Rig) -> Tolerances:
    """The tolerances of every unit of a rig."""
    given, aims, every = rig.arrays, rig.aims, np.arange(len(rig.units))
    axis, ovals = aims.axis, rig.ovals.rows
    level = level_across(axis)
    pan, least = aims.pan_tolerance.copy(), given.tolerance.copy()
    with np.errstate(divide="ignore", invalid="ignore"):
        down = allowed(rig, every, cross(level, axis))
        heading = allowed(rig, every, level) / np.hypot(axis[0], axis[1])
        by_dial = allowed(rig, ovals, cross(given.stem, axis)[:, ovals])
        by_dial /= np.abs(np.cos(aims.yoke[ovals]))
    pan[ovals] = np.where(np.isinf(pan[ovals]), pan[ovals], by_dial)
    least[ovals] *= rig.ovals.field[0] / given.field[ovals]
    return Tolerances(down, heading, pan, least)


def allowed(rig: Rig, units: Indices, ways: Array) -> Array:
    """Angle (K,) by which the axis of each of these units (K,) may be off along a way (3, K), of any size.

    Along the unit way w the oval's edge, at E1 and E2 from the axis, is 1 / hypot(w . E1 / |E1|^2, w . E2 /
    |E2|^2) off. Without a way (and without an aim) the round field of the same share is taken.
    """
    limit = rig.arrays.tolerance[units]
    oval = np.flatnonzero(among(units, rig.ovals.rows))
    if not oval.size:
        return limit
    mine, axis = units[oval], rig.aims.axis
    rims = rig.ovals.rims(rig.ovals.field, axis)
    first, second = (edge[:, np.searchsorted(rig.ovals.rows, mine)] for edge in rims)
    way = ways[:, oval] - axis[:, mine] * dot(ways[:, oval], axis[:, mine])
    with np.errstate(divide="ignore", invalid="ignore"):
        inverse = np.hypot(
            dot(way, first) / dot(first, first), dot(way, second) / dot(second, second)
        )
        full = 2 * np.arctan(np.sqrt(dot(way, way)) / inverse)
    round_field = rig.arrays.field[mine]
    limit[oval] *= np.where(np.isnan(full), 1.0, full / round_field)
    return limit


def upright_halves(rig: Rig) -> Array:
    """Half field angles (N,) as they tip a pool open or shut: half of the field, an oval's by how it lies.

    It is the half angle of the round cone that rises from its axis as far as the oval does.
    """
    half, ovals, axis = rig.arrays.field / 2, rig.ovals, rig.aims.axis
    if ovals.rows.size:
        first, second = ovals.rims(ovals.field, axis)
        rise = np.hypot(first[2], second[2])
        half[ovals.rows] = np.arctan2(rise, np.hypot(axis[0, ovals.rows], axis[1, ovals.rows]))
    return half


class Rig(Solved):
    """A solved scene, and what follows from its aims, each made on first use."""

    @cached_property
    def kept(self) -> Kept:
        """What was made of this rig, for the rig after a change."""
        return Kept(self, None)

    @cached_property
    def written(self) -> str:
        """All that is written in the scene, one text."""
        return written(self.scene)

    @cached_property
    def lent(self) -> Lent:
        """The letters that DejaVu Sans lacks and other typefaces lend; raises SceneError for a broken one."""
        from aimcalc.rig.typeface import lent_to

        return lent_to(self.scene)

    @cached_property
    def meshes(self) -> dict[str, Mesh]:
        """The mesh of every solid that is one, by its name."""
        from aimcalc.rig.meshes import meshes_of

        return meshes_of(self.scene)

    @cached_property
    def sizes(self) -> Sizes:
        """How big the units are taken to be."""
        return sizes_of(self)

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


def lens_in_tube(rig: Rig) -> Flags:
    """Units, (N,), whose lens lies within the tube at their clamp: their kind has neither drop nor nose."""
    out = rig.aims.lens - rig.arrays.clamp
    return np.asarray(dot(out, out) < TUBE_RADIUS**2)


# m. The width of an ordinary clamp (common practice, no source): centres nearer than that are one clamp on
# another. It stops although nobody typed it: the few narrower clamps leave no room for two bodies or bolts.
ONE_SPOT = 0.05
CLOSE = 1e-9  # m
MOST_BESIDE = 30  # units whose swing meets that of one; a full pipe has some ten (our choice)


def tubes(rig: Rig) -> Iterator[tuple[str, list[list[int]]]]:
    """The units of every pipe and boom, apart by the tube they grip: the position, or an arm's direction."""
    for position, rows in rig.rows.items():
        if rows and isinstance(rig.positions[rows[0]], Pipe | Boom):
            apart: dict[tuple[float, float] | str | None, list[int]] = {}
            for k in rows:
                unit = rig.units[k]
                arm = (unit.arm_to or 0.0, round(unit.arm, 2)) if unit.mount == "arm" else None
                apart.setdefault(arm or unit.chord, []).append(k)
            yield position, list(apart.values())


def on_one_spot(rig: Rig, rows: list[int], within: float) -> Iterator[list[int]]:
    """Runs of units along one tube, each within a distance in metres of the one before it, rising."""
    at = places(rig, rows)
    order = np.argsort(at, kind="stable")
    near = np.diff(at[order]) <= within + CLOSE
    if near.any():
        for run in np.split(order, np.flatnonzero(~near) + 1):
            if run.size > 1:
                yield sorted(rows[j] for j in run.tolist())


def with_room(rig: Rig) -> Flags:
    """Units that have their spot of the tube to themselves, and of others the first on each spot, (N,)."""
    room = np.ones(len(rig.units), dtype=bool)
    for _, every in tubes(rig):
        for run in (run for rows in every for run in on_one_spot(rig, rows, ONE_SPOT)):
            last = np.inf
            for k, at in zip(run, places(rig, run).tolist(), strict=True):
                room[k] = abs(at - last) > ONE_SPOT + CLOSE
                last = at if room[k] else last
    return room


def places(rig: Rig, rows: list[int]) -> Array:
    """Where some units are clamped along their position, (K,) metres; 0 on a stand."""
    return np.array([rig.units[k].at or 0.0 for k in rows])
