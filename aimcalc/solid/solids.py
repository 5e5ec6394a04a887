"""The solids of one rig, each made ready when it is first asked for.

Owner numbers, by which whatever is met is named, count the obstacles (`obstacles_of`) first and then the
units in hang order.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags
from aimcalc.geometry.bodies import (
    BODY,
    PARTS,
    TOP_HAT,
    Build,
    Hung,
    body_soup,
    hung,
    pivots,
    set_parts,
    swing_radius,
)
from aimcalc.geometry.clearance import (
    Bodies,
    Gaps,
    between_units,
    bodies_of,
    in_one_plane,
    most_crowded,
    to_others,
)
from aimcalc.geometry.deck import bare_height
from aimcalc.geometry.hulls import Hulls, rods, triangles
from aimcalc.geometry.polygon import split, triangulated
from aimcalc.geometry.rays import Caster, caster
from aimcalc.geometry.solids import Indices, Shape, Soup, box, joined, merged, panel, soup, tube
from aimcalc.geometry.vectors import Array, among, points
from aimcalc.named import NamedTuple
from aimcalc.rig.places import TUBE_RADIUS, tubes_of, upright
from aimcalc.rig.rig import MOST_BESIDE, with_room
from aimcalc.scene.model import Boom, Pipe, Point

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig


SOLID, PIPE, BOOM, ARM, STAND = "solid", "pipe", "boom", "arm", "stand"


class Obstacle(NamedTuple):
    """One solid: `sort` is SOLID (of the scene's own table), PIPE, BOOM, ARM or STAND.

    `ends` are the two ends of a tube's middle line; `unit` the row of the unit that an arm holds, -1 for
    all else; `held` the position and chord of what grips a pipe.
    """

    name: str
    sort: str
    shape: Shape
    ends: tuple[Point, Point] | None = None
    unit: int = -1
    held: tuple[str, str | None] | None = None


def obstacles_of(rig: Rig) -> tuple[Obstacle, ...]:
    """The scene's solids in the order written, then its pipes, booms, side arms and raised stands.

    Raises SceneError where a mesh file cannot be used.
    """
    return (*solids_of(rig), *_positions(rig), *_arms(rig))


def solids_of(rig: Rig) -> Iterator[Obstacle]:
    """The scene's own solids, in the order written."""
    for solid in rig.scene.solids:
        if solid.box:
            yield Obstacle(solid.name, SOLID, box(solid.box[:3], solid.box[3:]))
        elif solid.panel:
            yield Obstacle(solid.name, SOLID, panel(solid.panel))
        else:
            yield Obstacle(solid.name, SOLID, rig.meshes[solid.name].shape)


def _positions(rig: Rig) -> Iterator[Obstacle]:
    for name, position in rig.scene.positions.items():
        if isinstance(position, Pipe):
            yield from _pipe(position)
            continue
        _, foot, top = upright(rig.deck, position)
        if top > foot:
            sort = BOOM if isinstance(position, Boom) else STAND
            ends = (position.x, position.y, foot), (position.x, position.y, top)
            yield _tube(name, sort, *ends)


def _pipe(pipe: Pipe) -> Iterator[Obstacle]:
    """A pipe as one tube, a truss as one for each chord, a curved pipe in straight pieces."""
    for chord, line in tubes_of(pipe):
        name = pipe.name if chord is None else f"{pipe.name}, {chord}"
        ends: list[Point] = [(x, y, z) for x, y, z in line.T.tolist()]
        for start, end in pairwise(ends):
            yield _tube(name, PIPE, start, end)._replace(held=(pipe.name, chord))


def _arms(rig: Rig) -> Iterator[Obstacle]:
    for k, (unit, position) in enumerate(zip(rig.units, rig.positions, strict=True)):
        if unit.mount == "arm" and unit.arm > 0 and isinstance(position, Boom):
            x, y, z = rig.arrays.clamp[:, k].tolist()
            inner = (position.x, position.y, z)
            yield _tube(f"arm of {rig.names[k]}", ARM, inner, (x, y, z), unit=k)


def _tube(name: str, sort: str, start: Point, end: Point, *, unit: int = -1) -> Obstacle:
    return Obstacle(name, sort, _tube_shape(start, end), (start, end), unit)


@lru_cache(maxsize=4096)
def _tube_shape(start: Point, end: Point) -> Shape:
    return tube(start, end, radius=TUBE_RADIUS)


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


NEAR = 0.05  # m; 2 in, knobs and cable included (common practice, no source)
TOUCH = 0.001  # m; nearer than this is touching
ROOM = 0.01  # m about a box: far more than single precision loses on a stage
SQUARE_BODIES = ("cyc", "flood")


class Solids:
    """Scenery, tubes and bodies of one rig."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        self.obstacles: tuple[Obstacle, ...] = rig.kept.ask(obstacles_of)

    @cached_property
    def names(self) -> list[str]:
        """The name of every owner: the obstacles', then the units' ("position/number")."""
        return [thing.name for thing in self.obstacles] + self.rig.names

    @cached_property
    def own(self) -> Indices:
        """Each unit's own owner number, (N,)."""
        return len(self.obstacles) + np.arange(len(self.rig.units))

    def of(self, *sorts: str) -> Indices:
        """The owner numbers (K,) of the obstacles of some sorts, rising."""
        return np.array(
            [k for k, thing in enumerate(self.obstacles) if thing.sort in sorts], dtype=int
        )

    def held_by(self) -> Indices:
        """Owner numbers of the tubes that hold each unit: position and side arm, -1 for none, (M, N).

        A curved pipe is in pieces, as many rows as the most of them.
        """
        tubes: dict[tuple[str, str | None], list[int]] = {}
        for k, thing in enumerate(self.obstacles):
            if thing.sort not in (SOLID, ARM):
                tubes.setdefault(thing.held or (thing.name, None), []).append(k)
        arms = {thing.unit: k for k, thing in enumerate(self.obstacles) if thing.sort == ARM}
        by = [
            [*tubes.get((unit.position, unit.chord), [-1]), arms.get(k, -1)]
            for k, unit in enumerate(self.rig.units)
        ]
        most = max(map(len, by), default=2)
        rows = [row + [-1] * (most - len(row)) for row in by]
        return np.array(rows, dtype=int).reshape(-1, most).T

    @cached_property
    def hung(self) -> Hung:
        """The units as bodies, as they hang and as they are set; those left out have no size."""
        build = self._hung.build
        length = np.where(self.left_out, np.nan, build.length)
        return self._hung._replace(build=build._replace(length=length))

    @cached_property
    def left_out(self) -> Flags:
        """Units that cannot be where they are told to be: what they touch is not looked at, (N,)."""
        out = ~self.rig.kept.ask(with_room)
        out[self.crowded] = True
        return out

    @cached_property
    def crowded(self) -> Indices:
        """Rows (K,) of units with more others about them than can be, of those with a spot to themselves."""
        every, build = self._hung, self._sized(self._hung.build)
        sized, room = every._replace(build=build), self.rig.kept.ask(with_room)
        reach = np.where(room, swing_radius(sized), np.nan)
        return self.rig.kept.ask(_crowded, pivots(sized), reach)

    @cached_property
    def _hung(self) -> Hung:
        rig = self.rig
        square = rig.arrays.reference * np.where(rig.aims.square_sign < 0, -1.0, 1.0)
        return hung(
            builds(rig),
            clamp=rig.arrays.clamp,
            stem=rig.arrays.stem,
            square=square,
            axis=rig.aims.axis,
            up=rig.aims.up,
        )

    @cached_property
    def corners(self) -> Array:
        """Corners of every unit's parts at its aim, (3, N, PARTS, CORNERS), m.

        `aimcalc.geometry.bodies.parts`.
        """
        return set_parts(self.hung)

    @cached_property
    def taken(self) -> Array:
        """`corners`, of that shape, with bodies of unknown size as their family's: for warnings only."""
        build = self.hung.build
        unknown = ~np.isfinite(build.length + build.width) & ~self.left_out
        if not unknown.any():
            return self.corners
        full = self._sized(build)
        length = np.where(self.left_out, np.nan, full.length)
        return set_parts(self.hung._replace(build=full._replace(length=length)))

    def _sized(self, build: Build) -> Build:
        """What units are made of, with the sizes of their families where their own are unknown."""
        sizes = self.rig.sizes
        nose = np.where(np.isfinite(build.length + build.width), build.nose, sizes.nose)
        return build._replace(length=sizes.length, width=sizes.width, nose=nose)

    @cached_property
    def sure(self) -> Array:
        """`corners`, of that shape, of what the user typed alone.

        Bodies and top hats, NaN for all that is assumed.
        """
        bodies = self.corners[:, :, [BODY, TOP_HAT, *[BODY] * (PARTS - 2)]]
        return np.where(self.rig.sizes.typed[:, None, None], bodies, np.nan)

    @cached_property
    def close_units(self) -> Gaps:
        """Every two units nearer than NEAR to each other at their aims."""
        return between_units(self.taken_bodies, within=NEAR)

    @cached_property
    def taken_bodies(self) -> Bodies:
        """What is `taken`, as convex bodies."""
        return bodies_of(self.taken)

    def gaps(self, others: Hulls, *, passed_over: Indices, key: str) -> Gaps:
        """`to_others` nearer than NEAR, m, of what is `taken`, (K, N) passed over; once by each `key`."""
        if not self.rig.kept.keeps:
            return to_others(self.taken_bodies, others, within=NEAR, passed_over=passed_over)
        columns = self.taken.transpose(1, 0, 2, 3), np.atleast_2d(passed_over).T
        return self.rig.kept.of_units(_gaps, columns, others, key=key)

    @cached_property
    def soup(self) -> Soup:
        """All obstacles, without the units."""
        return self.rig.kept.ask(_soup_of, self.obstacles)

    @cached_property
    def bodies(self) -> Soup:
        """All units at their aims."""
        return body_soup(self.corners, self.hung.build, self.own)

    @cached_property
    def scenery(self) -> Caster:
        """All obstacles, ready for rays; raises NoRayEngineError."""
        return self.rig.kept.ask(_ready, self.soup, key="all")

    def without(self, obstacles: list[int]) -> Caster:
        """All obstacles but some, ready for rays; raises NoRayEngineError."""
        others = ~among(self.soup.owner, np.array(obstacles, dtype=np.int64))
        some = Soup(self.soup.vertices, self.soup.faces[:, others], self.soup.owner[others])
        return self.rig.kept.ask(_ready, some, key="but some")

    @cached_property
    def everything(self) -> Soup:
        """Things and units."""
        return merged(self.soup, self.bodies)

    @cached_property
    def face_on_face(self) -> Array:
        """Boxes about where two obstacles lie face on face, (K, 2, 3)."""
        solids = self.rig.scene.solids
        boxes = [k < len(solids) and bool(solids[k].box) for k in range(len(self.obstacles))]
        return self.rig.kept.ask(_face_on_face, self.soup, np.array(boxes, np.bool_))

    @cached_property
    def centre(self) -> Array:
        """The middle of the box round everything, (3,), in whole metres: a small change does not move it.

        Zero where there is nothing.
        """
        there = self.boxes[np.isfinite(self.boxes).all(axis=(1, 2))]
        if not there.size:
            return np.zeros(3)
        return np.asarray(np.round((there[:, 0].min(axis=0) + there[:, 1].max(axis=0)) / 2))

    @cached_property
    def whole(self) -> Caster:
        """Things and units, ready for rays; raises NoRayEngineError."""
        return caster(self.everything, self.centre)

    @cached_property
    def boxes(self) -> Array:
        """A box about each owner's corners, lowest and highest, (owners, 2, 3); NaN for one without any."""
        boxes = np.full((len(self.names), 2, 3), np.nan)
        counts = np.array([thing.shape.vertices.shape[1] for thing in self.obstacles], dtype=int)
        there = np.flatnonzero(counts)
        if there.size:
            first, corners = (np.cumsum(counts) - counts)[there], self.soup.vertices
            boxes[there, 0] = np.minimum.reduceat(corners, first, axis=1).T
            boxes[there, 1] = np.maximum.reduceat(corners, first, axis=1).T
        same = self.taken is self.corners
        bodies = self.taken_bodies if same else bodies_of(self.corners)
        boxes[self.own] = bodies.whole.transpose(2, 0, 1)
        return boxes

    def among(self, wanted: Flags, key: str) -> Caster:
        """Things and units ready for rays that meet no others than those `wanted`, (owners,).

        Quicker to make ready where they are few; asked once by each `key`. Raises NoRayEngineError.
        """
        if "whole" in vars(self):
            return self.whole
        every = self.everything
        some = wanted[every.owner]
        wanted_ones = Soup(every.vertices, every.faces[:, some], every.owner[some]).packed()
        return self.rig.kept.ask(_ready, wanted_ones, self.centre, key=key)

    def between(self, start: Array, end: Array, key: str = "") -> Caster:
        """Things and units ready for rays from points (3, K) to others; raises NoRayEngineError."""
        low, high = self.boxes[:, 0, :, None] - ROOM, self.boxes[:, 1, :, None] + ROOM
        with np.errstate(divide="ignore", invalid="ignore"):
            into, out_of = ((side - start) / (end - start) for side in (low, high))
        enters = np.fmax.reduce(np.fmin(into, out_of), axis=1)
        leaves = np.fmin.reduce(np.fmax(into, out_of), axis=1)
        passed = (enters <= leaves) & (leaves >= 0) & (enters <= 1)
        return self.among(passed.any(axis=1), f"between {key}")

    def rods(self, *sorts: str, radius: float = TUBE_RADIUS) -> Hulls:
        """The tubes of some sorts as convex bodies."""
        some = self.of(*sorts)
        ends = [self.obstacles[k].ends or ((0.0,) * 3,) * 2 for k in some.tolist()]
        return rods(
            points([start for start, _ in ends]),
            points([end for _, end in ends]),
            radius=radius,
            owner=some,
        )

    @cached_property
    def scenery_triangles(self) -> Hulls:
        """Every triangle of the scene's own solids as a convex body."""
        mine = among(self.soup.owner, self.of(SOLID))
        return triangles(Soup(self.soup.vertices, self.soup.faces[:, mine], self.soup.owner[mine]))


def _gaps(corners: Array, passed_over: Indices, others: Hulls) -> Gaps:
    given = corners.transpose(1, 0, 2, 3), others
    return to_others(*given, within=NEAR, passed_over=passed_over.T)


def _crowded(_: Rig, pivot: Array, reach: Array) -> Indices:
    return most_crowded(pivot, reach, MOST_BESIDE)


def _soup_of(_: Rig, things: Sequence[Obstacle]) -> Soup:
    return soup([thing.shape for thing in things])


def _ready(_: Rig, wanted: Soup, centre: Array | None = None) -> Caster:
    return caster(wanted, centre)


def _face_on_face(_: Rig, every: Soup, closed: Flags) -> Array:
    return in_one_plane(every, closed)


def builds(rig: Rig) -> Build:
    """What the units of a rig are made of; NaN where a kind says no length or width."""
    kinds = rig.kinds
    return Build(
        length=np.array([kind.length or np.nan for kind in kinds], dtype=float),
        width=np.array([kind.width or np.nan for kind in kinds], dtype=float),
        nose=rig.arrays.nose,
        rise=rig.arrays.rise,
        drop=rig.arrays.drop,
        hat=np.array([kind.top_hat or 0.0 for kind in kinds], dtype=float),
        boxy=_boxy(rig),
    )


def _boxy(rig: Rig) -> Flags:
    return np.array([kind.family in SQUARE_BODIES for kind in rig.kinds], dtype=bool)
