"""What was measured, as arrays: spots on their surfaces, direct measurements, and what may be out.

The unknowns are what a whole rig can have out: of every position that something was measured on its trim,
slope, place up or down stage, skew and marks; the dial, the level; the drop of each kind; the kick of each
clamp that a spot is known of. Each counts in its own prior widths, so that all are alike to the fit. What
hand and reader add at one unit (its pan, its down, its mark, the reading of its spot) is noise of that spot.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.landings.forward import (
    BY_TAPE,
    DIAL,
    DOWN,
    DROP,
    ERRORS,
    KICK,
    LOCAL,
    MARKS,
    PAN,
    Held,
    Plane,
    Set,
    Table,
    held,
    landed,
    some,
)
from aimcalc.named import NamedTuple
from aimcalc.rig.places import body_of
from aimcalc.scene.corrected import AT_THE_RIG
from aimcalc.scene.corrected import RIG as RIG
from aimcalc.scene.model import Boom, Pipe, Scene, Stand

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved

LEAST = 1e-6  # m or radian: the width of what is told to be known exactly
NORMAL_95 = 1.959964  # half of an interval that holds 95 % of a normal, in its widths
OF_PIPE = tuple(LOCAL)
OF_BOOM = ("skew", "marks")
ANGLES = ("skew", "dial", "level", "kick")


class Spots(NamedTuple):
    """K spots: their `unit` (K,), how it was set, the plane and the point (3, K) of each.

    `rows` (K, 2, 3) are the two ways in the plane that count, `used` (K, 3) whether each of them and the
    throw was measured; `throw` (K,) is from lens to spot. `pan` and `down` (K,) are widths in radians of how
    a unit was turned and tipped: as a hand sets it, or as it was `read_back`.
    """

    unit: Indices
    given: Set
    plane: Plane
    point: Array
    rows: Array
    used: Flags
    throw: Array
    pan: Array
    down: Array
    read_back: Flags


class Direct(NamedTuple):
    """One direct measurement: a trim, a place up or down stage, a drop. `value` is measured minus plotted.

    `at` is where along its position, from its middle towards its SL (US) end, metres.
    """

    what: str  # trim, moved, drop
    of: str
    value: float
    at: float = 0.0
    width: float = BY_TAPE


class Unknown(NamedTuple):
    """One thing that may be out, `of` a position, kind, unit or the rig, and its prior width."""

    what: str
    of: str
    width: float


class System(NamedTuple):
    """Everything linear at one state, or at several (..., first): `off` (M,) is measured minus predicted,
    `moves` (M, P) what one prior width of each unknown adds to the prediction, `noise` (K, R, R) the
    covariance of each spot's rows and `direct` (Q,) the variance of each direct measurement. Of the M rows
    the first R K are the spots', with nothing in those that were not measured; then the direct ones.
    """

    off: Array
    moves: Array
    noise: Array
    direct: Array

    def covariance(self, wide: Array) -> Array:
        """Of all that was measured (..., M, M), the unknowns having prior widths `wide` (..., P)."""
        scaled = self.moves * wide[..., None, :]
        found = scaled @ np.swapaxes(scaled, -1, -2)
        count, size = self.noise.shape[-3:-1]
        rows = np.arange(count * size).reshape(count, size)
        found[..., rows[:, :, None], rows[:, None, :]] += self.noise
        tail = np.arange(count * size, found.shape[-1])
        found[..., tail, tail] += self.direct
        return found


class Problem:
    """What was measured on one rig, and what may be out of it."""

    def __init__(self, rig: Solved, spots: Spots, direct: tuple[Direct, ...] = ()) -> None:
        self.rig, self.spots, self.direct = rig, spots, direct
        self.names = [rig.names[k] for k in spots.unit]
        self.unknowns = tuple(_unknowns(rig, spots, direct))
        self.place = {(u.what, u.of): k for k, u in enumerate(self.unknowns)}
        self.widths = np.array([u.width for u in self.unknowns], dtype=float)
        self.who = _who(rig, spots, self.place)
        self.nose = rig.arrays.nose[spots.unit]
        self.units: Held = some(held(rig), spots.unit)
        errors = rig.scene.errors
        self.rows = 3 if spots.used[:, 2].any() else 2
        mark = np.full(self.count, max(errors.mark, LEAST))
        self.own = np.stack((spots.pan, spots.down, mark), axis=1)  # widths of one unit's own
        read = max(errors.landing, LEAST)
        self.plain = np.where(spots.used, (read, read, BY_TAPE), 1.0)[:, : self.rows] ** 2
        self.direct_moves = _direct_moves(rig, direct, self.place, self.widths)

    @property
    def count(self) -> int:
        """How many spots there are."""
        return int(self.spots.unit.size)

    def system(self, state: Array, given: Set | None = None, units: Held | None = None) -> System:
        """The linear system at a state (P,) in prior widths, for units set or held otherwise if so asked."""
        found = self.systems(state[None], [(given, units)])
        return System._make(column[0] for column in found)

    def systems(self, states: Array, how: Sequence[tuple[Set | None, Held | None]]) -> System:
        """The same at several states (H, P), all light thrown in one go."""
        spots, count, every = self.spots, self.count, len(how)
        units = _side_by_side([units or self.units for _, units in how])
        given = _side_by_side([given or spots.given for given, _ in how])
        plane = _side_by_side([spots.plane] * every)
        told = landed(units, given, plane, self._at(states).reshape(len(ERRORS), -1))
        away = spots.point[:, None] - told.point.reshape(3, every, count)
        off = np.zeros((every, count, self.rows))
        by = np.zeros((every, count, self.rows, len(ERRORS)))
        moves = told.moves.reshape(len(ERRORS), 3, every, count)
        off[..., :2] = np.einsum("krc,chk->hkr", spots.rows, away)
        by[..., :2, :] = np.einsum("krc,jchk->hkrj", spots.rows, moves)
        if self.rows == 3:
            off[..., 2] = spots.throw - (told.reach.reshape(every, count) - self.nose)
            by[..., 2, :] = np.moveaxis(told.reach_moves.reshape(-1, every, count), 0, -1)
        used = spots.used[:, : self.rows]
        return self._system(np.where(used, off, 0.0), by * used[..., None], states)

    def _at(self, states: Array) -> Array:
        """What is off at each spot, (9, H, K), from states (H, P)."""
        padded = np.concatenate((states * self.widths, np.zeros((len(states), 1))), axis=1)
        return np.moveaxis(padded[:, self.who], 0, 1)

    def _system(self, off: Array, by: Array, states: Array) -> System:
        """From rows (H, K, R) and their moves by the errors of their own unit (H, K, R, 9)."""
        (every, count), unknowns = off.shape[:2], len(self.unknowns)
        moves = np.zeros((every, count, self.rows, unknowns + 1))
        for error in range(len(ERRORS)):
            here = (slice(None), np.arange(count), slice(None), self.who[error])
            moves[here] += np.moveaxis(by[..., error], 1, 0)
        moves = (moves[..., :unknowns] * self.widths).reshape(every, -1, unknowns)
        direct = np.broadcast_to(self.direct_moves, (every, *self.direct_moves.shape))
        measured = np.array([d.value for d in self.direct], dtype=float)
        left = measured - states @ self.direct_moves.T
        own = by[..., (PAN, DOWN, MARKS)] * self.own[:, None]
        noise = own @ np.swapaxes(own, -1, -2) + self.plain[:, :, None] * np.eye(self.rows)
        return System(
            np.concatenate((off.reshape(every, -1), left), axis=1),
            np.concatenate((moves, direct), axis=1),
            noise,
            np.broadcast_to([d.width**2 for d in self.direct], left.shape),
        )


def _side_by_side(tables: Sequence[Table]) -> Table:
    """The columns of several tables one after the other."""
    made = (np.concatenate(columns, axis=-1) for columns in zip(*tables, strict=True))
    return type(tables[0])._make(made)


def _unknowns(rig: Solved, spots: Spots, direct: tuple[Direct, ...]) -> list[Unknown]:
    errors = rig.scene.errors
    mine = [rig.units[k] for k in spots.unit]
    kinds = {k.name for k in rig.kinds}
    positions = dict.fromkeys(
        [u.position for u in mine] + [d.of for d in direct if d.of not in kinds]
    )
    found: list[Unknown] = []
    for name in positions:
        position = rig.scene.positions[name]
        if isinstance(position, Pipe):
            widths = {
                "trim": errors.trim_of(position),
                "slope": errors.slope,
                "moved": errors.pipe,
                "skew": to_radians(errors.skew),
                "marks": errors.marks,
            }
        else:
            widths = {"skew": to_radians(errors.skew)}
            if isinstance(position, Boom):
                widths["marks"] = errors.marks
        found += [Unknown(what, name, width) for what, width in widths.items()]
    if (spots.given.by == DIAL).any():
        found.append(Unknown("dial", RIG, to_radians(errors.dial)))
    if spots.unit.size:
        found.append(Unknown("level", RIG, to_radians(errors.level)))
    used = dict.fromkeys([u.kind for u in mine] + [d.of for d in direct if d.what == "drop"])
    found += [Unknown("drop", kind, errors.drop) for kind in used]
    clamped = dict.fromkeys(
        rig.names[k] for k in spots.unit if not isinstance(rig.positions[k], Stand)
    )
    found += [Unknown("kick", name, to_radians(errors.kick)) for name in clamped]
    left = left_of(rig.scene)  # learned from before
    return [
        u._replace(width=max(min(u.width, left.get((u.what, u.of), np.inf)), LEAST)) for u in found
    ]


def left_of(scene: Scene) -> dict[tuple[str, str], float]:
    """What made corrections leave open of each thing and what it is of: a width, metres or radians."""
    found: dict[tuple[str, str], float] = {}
    for made in scene.made:
        if made.what not in AT_THE_RIG and made.low is not None and made.high is not None:
            left = (made.high - made.low) / (2 * NORMAL_95)
            found[made.what, made.of] = to_radians(left) if made.what in ANGLES else left
    return found


def _who(rig: Solved, spots: Spots, place: dict[tuple[str, str], int]) -> Indices:
    """Which unknown each of `ERRORS` of each spot is, (9, K); past the last one where it is none."""
    none = len(place)
    who = np.full((len(ERRORS), spots.unit.size), none)
    for column, k in enumerate(spots.unit):
        unit = rig.units[k]
        for what, error in LOCAL.items():
            who[error, column] = place.get((what, unit.position), none)
        who[DROP, column] = place[("drop", unit.kind)]
        who[KICK, column] = place.get(("kick", rig.names[k]), none)
        who[DOWN, column] = place[("level", RIG)]
        if spots.given.by[column] == DIAL:
            who[PAN, column] = place[("dial", RIG)]
    return who


def _direct_moves(
    rig: Solved, direct: tuple[Direct, ...], place: dict[tuple[str, str], int], widths: Array
) -> Array:
    """What one prior width of each unknown adds to each direct measurement, (Q, P)."""
    moves = np.zeros((len(direct), len(place)))
    for row, each in enumerate(direct):
        moves[row, place[(each.what, each.of)]] = 1.0
        if each.what == "drop":
            continue
        position = rig.scene.positions[each.of]
        assert isinstance(position, Pipe)
        _, run, length = body_of(position)
        if each.what == "trim":
            moves[row, place[("slope", each.of)]] = each.at / length
        else:  # turned clockwise, its SL end goes downstage
            moves[row, place[("moved", each.of)]] = abs(run[0]) / np.hypot(run[0], run[1])
            moves[row, place[("skew", each.of)]] = -each.at * run[0]
    return moves * widths
