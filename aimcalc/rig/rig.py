"""A solved rig: its ovals, sizes and pools, and how far off each unit may be.

How far off a unit may be and still hit: up and down, in heading, at its own dial, any way at all.

A miss may take a share of the field's full angle. A round field allows the same every way. An oval one
allows, along each way, that share of its own angle along that way, through its middle: across for a miss
in heading, up and down for one of the level, as the oval lies. A unit turned by a small angle p about a
stem a moves its axis f by p (a x f), whose size is cos(yoke); one whose heading is off by p, by p cos(down).
"""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.pools import Pools, level_across, level_pools
from aimcalc.geometry.vectors import Array, cross, dot
from aimcalc.rig.kinds import Ovals, Sizes, ovals_of, sizes_of, with_ovals
from aimcalc.rig.places import TUBE_RADIUS
from aimcalc.rig.solve import Solved


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
    oval = np.flatnonzero(np.isin(units, rig.ovals.rows))
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
    """Units whose lens lies within the tube at their clamp: their kind has neither drop nor nose."""
    out = rig.aims.lens - rig.arrays.clamp
    return np.asarray(dot(out, out) < TUBE_RADIUS**2)
