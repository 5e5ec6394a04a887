"""A rig with its scenery and bodies: what the light meets, where tapes lie, what is lost, each made once."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import msgspec
import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.geometry.solids import Soup
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.rig.kept import Kept
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Scene, Variant, variants
from aimcalc.solid.answers import Answer, Loss, answers_of, further_aim
from aimcalc.solid.meets import AT_POINT, Meets, meets, scenery_of
from aimcalc.solid.tapes import Tapes, tapes_of

if TYPE_CHECKING:
    from aimcalc.geometry.blocked import Blocked
    from aimcalc.geometry.sweep import Tried
    from aimcalc.solid.solids import Solids


class Misses(NamedTuple):
    """How far the middle of each unit's light may be out square to its axis, metres, (N,); NaN: no aim.

    `face` where the axis goes through the face, `met` where it stops.
    """

    face: Array
    met: Array


class SolidRig(Rig):
    """A solved scene, and what its solids make of it; each is made on first use and kept.

    `before` is the rig that this one was made from by a change, if it was: what did not change is taken from
    there. Raises SceneError, on first use of anything solid, where a mesh file cannot be used.
    """

    def __init__(self, scene: Scene, before: SolidRig | None = None) -> None:
        super().__init__(scene)
        self.before = before
        self.kept = Kept(self, None if before is None else before.kept)
        if before is not None:
            before.before = None  # or every rig since the first would be kept

    @cached_property
    def solids(self) -> Solids:
        """Scenery, tubes and bodies."""
        from aimcalc.solid.solids import Solids

        return Solids(self)

    @cached_property
    def scenery(self) -> Soup:
        """The scene's own solids as triangles."""
        return self.kept.ask(scenery_of)

    @cached_property
    def meets(self) -> Meets:
        """Where each unit's axis stops: what it meets first, by name and place, and how that stands."""
        return self.meets_along(self.aims.lens, self.aims.axis)

    def meets_along(self, start: Array, direction: Array) -> Meets:
        """What rays from `start` along `direction` (unit length), (3, N), meet first."""
        return meets(self, self.scenery, start, direction)

    @cached_property
    def reaches(self) -> Flags:
        """Whether each axis gets to the unit's point before anything stops it, (N,)."""
        stopped = self.meets.reach < self.aims.throw - AT_POINT
        return np.asarray(~stopped & np.isfinite(self.aims.throw))

    @cached_property
    def misses(self) -> Misses:
        """How big a miss is a miss, where the light is read.

        Its distance from the pivot, which the unit turns about, times the tangent of what down may be out:
        the least of all ways across a surface.
        """
        share = np.tan(self.tolerances.down)
        face, met = (
            np.linalg.norm(read - self.aims.pivot, axis=0) * share
            for read in (self.arrays.point, self.meets.point)
        )
        return Misses(face, met)

    @cached_property
    def tapes(self) -> Tapes:
        """Where the sight tapes lie."""
        before = None if self.before is None else vars(self.before).get("tapes")
        return tapes_of(self, self.scenery, before)

    @cached_property
    def lost(self) -> Blocked:
        """What each unit loses of its light, and to what. Raises NoRayEngineError."""
        from aimcalc.solid.light_lost import Known, lost

        before = self.before
        then = None
        if before is not None and "lost" in vars(before):
            then = Known(before, before.solids, before.lost)
        return lost(self, self.solids, then)

    @cached_property
    def tried(self) -> Tried | None:
        """The ways past one another that were tried; None for a rig that was not made by a change."""
        from aimcalc.geometry.sweep import Tried

        return None if self.before is None else Tried(self.before.tried)

    @cached_property
    def own_gaps(self) -> Array:
        """Gap between each body and the tube that holds it, metres, (N,); negative: it strikes.

        Infinite where it is more than NEAR, and for kinds without all their sizes.
        """
        from aimcalc.solid.own_pipe import all_own_gaps
        from aimcalc.solid.solids import NEAR

        return all_own_gaps(self, within=NEAR)

    @cached_property
    def further(self) -> tuple[Further, ...]:
        """The rig at its further trims and at its targets' further spots; mostly none."""
        return tuple(_further(variant) for variant in variants(self.scene))

    @cached_property
    def answers(self) -> list[Answer]:
        """What is told about each unit, in hang order."""
        pools = (self.face_pools, self.deck_pools)
        given = (self.arrays, self.words, self.aims, self.meets, self.tolerances)
        answers = answers_of(self.units, *given, self.tapes, pools)
        for further in self.further:
            for k in further.rows:
                aims = (
                    *(answers[k].further or ()),
                    further_aim(further.name, further.rig.answers[k]),
                )
                answers[k] = msgspec.structs.replace(answers[k], further=aims)
        return answers

    @cached_property
    def answers_with_losses(self) -> list[Answer]:
        """What is told about each unit, `blocked` and `blocked_by` filled in.

        They stay None where the ray engine is not installed, and for a unit that throws no light.
        """
        answers = self.answers
        try:
            told = self.lost
        except NoRayEngineError:
            return answers
        rows: dict[int, list[Loss]] = {}
        for k, owner, part, height in zip(*(c.tolist() for c in told[1:5]), strict=True):
            rows.setdefault(k, []).append(Loss(self.solids.names[owner], part, height))
        lit = np.isfinite(told.share).tolist()
        return [
            msgspec.structs.replace(answer, blocked=share, blocked_by=tuple(rows.get(k, ())))
            if lit[k]
            else answer
            for k, (answer, share) in enumerate(zip(answers, told.share.tolist(), strict=True))
        ]


class Further(NamedTuple):
    """The rig at a further trim or spot: the same units in the same order, of which `rows` differ.

    `positions` are the pipes that are at another trim; none where targets are at another spot.
    """

    name: str
    positions: frozenset[str]
    rig: SolidRig
    rows: list[int]


def _further(variant: Variant) -> Further:
    rig = SolidRig(variant.scene)
    rows = [
        k
        for k, unit in enumerate(rig.units)
        if unit.position in variant.pipes or unit.target in variant.targets
    ]
    return Further(variant.name, variant.pipes, rig, rows)


def solve_rig(scene: Scene, before: SolidRig | None = None) -> SolidRig:
    """Every unit of a scene, aimed; `before` is a rig of nearly the same scene, if there is one.

    Raises SceneError where a kind's photometric file cannot be trusted.
    """
    return SolidRig(scene, before)
