"""Whether a unit set anew has room: its body clear of its neighbours, its light not cut on the way.

Bodies are those of `aimcalc.geometry.bodies`: a kind without length and width has none and cannot be
asked. What a unit touches already, as it hangs, does not speak against a new aim.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Aims
from aimcalc.geometry.blocked import Lenses, blocked
from aimcalc.geometry.bodies import hung, part_hulls, rows, set_parts
from aimcalc.geometry.clearance import to_others
from aimcalc.geometry.hulls import Hulls
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.vectors import Array, cross
from aimcalc.light.lamps import Flags, Indices
from aimcalc.rig.rig import lens_in_tube
from aimcalc.solid.light_lost import lenses_of
from aimcalc.solid.solids import ARM, BOOM, PIPE, STAND, TOUCH

if TYPE_CHECKING:
    from aimcalc.coverage.sources import NewAims
    from aimcalc.solid.rig import SolidRig


MOST_CUT = 0.1  # of the field's light lost before the face (our choice), or what is lost already
Touch = tuple[int, int, int]  # a unit, what lot it touches something of, which one


class Room:
    """The bodies, tubes and scenery round the units of a rig, each made ready when first asked for."""

    def __init__(self, rig: SolidRig) -> None:
        self.rig = rig

    def for_each(self, tries: NewAims) -> Flags:
        """Which of K tries have room, each by itself, all other units as they hang, (K,)."""
        unit = tries.unit
        clear = np.ones(unit.size, np.bool_)
        for row, *touch in self._touches(unit, self._set(unit, tries.aims), self._present):
            clear[row] &= (int(unit[row]), *touch) in self._touched_now
        return np.asarray(clear & self._lit(tries))

    def together(self, tries: NewAims) -> NewAims:
        """The tries that have room when all are made, the later of two that touch left out."""
        tries = tries.take(self._lit(tries))
        while tries.unit.size:
            unit, corners = tries.unit, self.rig.solids.corners.copy()
            corners[:, unit] = self._set(unit, tries.aims)
            found = self._touches(unit, corners[:, unit], part_hulls(corners))
            bad = [row for row, *t in found if (int(unit[row]), *t) not in self._touched_now]
            if not bad:
                break
            tries = tries.take(np.delete(np.arange(unit.size), max(bad)))
        return tries

    @cached_property
    def _present(self) -> Hulls:
        """All units as they hang."""
        return part_hulls(self.rig.solids.corners)

    @cached_property
    def _things(self) -> list[Hulls]:
        """Every tube, and every triangle of scenery."""
        solids = self.rig.solids
        return [solids.rods(PIPE, BOOM, STAND, ARM), solids.scenery_triangles]

    @cached_property
    def _touched_now(self) -> set[Touch]:
        """What touches as the rig hangs."""
        corners = self.rig.solids.corners
        return set(self._touches(np.arange(corners.shape[1]), corners, self._present))

    def _touches(self, unit: Indices, corners: Array, units: Hulls) -> list[Touch]:
        """What units `unit` (K,), set as `corners` (3, K, ...) say, touch: others, tubes, scenery.

        The first number of each is a row of K.
        """
        held = self.rig.solids.held_by()[:, unit]
        found: list[Touch] = []
        for lot, (others, own) in enumerate(
            [(units, unit[None]), *((t, held) for t in self._things)]
        ):
            gaps = to_others(corners, others, within=TOUCH, passed_over=own)
            found += [
                (k, lot, o) for k, o in zip(gaps.unit.tolist(), gaps.other.tolist(), strict=True)
            ]
        return found

    def _set(self, unit: Indices, aims: Aims) -> Array:
        """Corners of units `unit` (K,) set as the K columns of `aims` say."""
        given = self.rig.arrays
        square = given.reference[:, unit] * np.where(aims.square_sign < 0, -1.0, 1.0)
        return set_parts(
            hung(
                rows(self.rig.solids.hung, unit).build,
                clamp=given.clamp[:, unit],
                stem=given.stem[:, unit],
                square=square,
                axis=aims.axis,
                up=aims.up,
            )
        )

    @cached_property
    def _lenses(self) -> Lenses:
        """All units' lenses as they hang."""
        return lenses_of(self.rig, self.rig.solids.own)

    def _lit(self, tries: NewAims) -> Flags:
        """Which tries lose little of their field's light on the way, or no more than now, (K,)."""
        unit, aims, now = tries.unit, tries.aims, self._lenses
        oval = np.isin(unit, self.rig.ovals.rows)
        up = np.where(oval, cross(tries.lamps.across, tries.lamps.axis), aims.up)
        columns = {name: getattr(now, name)[..., unit] for name in ("radius", "own", "which")}
        then = now._replace(lens=aims.lens, axis=aims.axis, up=up, face=tries.face, **columns)
        try:
            lost, before = blocked(self.rig.solids.whole, then).share, self.rig.lost.share[unit]
        except NoRayEngineError:
            return np.ones(unit.size, np.bool_)
        unknown = lens_in_tube(self.rig)[unit]
        return np.asarray((lost <= np.fmax(MOST_CUT, before)) | unknown)
