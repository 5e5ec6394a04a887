"""The units of a rig as sources of light: candela from their kinds, turned as they hang, dimmed by colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.aim import Aims, cut
from aimcalc.geometry.pools import level_across
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.light.illuminance import Visible
from aimcalc.light.lamps import (
    SMOOTH,
    Flags,
    Indices,
    Lamps,
    body_right,
    joined,
    measured_lamps,
    smooth_lamps,
)
from aimcalc.light.profiles import SHARPEST, peak_from_lumens
from aimcalc.named import NamedTuple
from aimcalc.rig.kinds import light_turns

if TYPE_CHECKING:
    from aimcalc.geometry.rays import Caster
    from aimcalc.light.photometry import Photometry, Tilt
    from aimcalc.scene.model import Kind
    from aimcalc.solid.rig import SolidRig


DOWN = np.array([[0.0], [0.0], [-1.0]])


class Sources(NamedTuple):
    """What the N units of a rig send out, however they are pointed. `lamps` has them as they hang.

    `turn` (N,) is the long way of a kind's own oval, or the C = 0 of a file, from level, radians
    anti-clockwise as seen along the beam; NaN where nobody said. `tilts` has for each unit its file's table
    of what tipping costs, or None. `full` (N,) is the transmission of its colour.
    """

    lamps: Lamps
    turn: Array
    full: Array
    tilts: tuple[Tilt | None, ...]


def sources_of(rig: SolidRig) -> Sources:
    """Every unit of a rig with its candela profile, in hang order; dark where unknown or without an aim.

    The candela come from the kind's `peak_cd`, or from its `lumens` over its own profile, or from its
    photometric file; a file is scaled to a `peak_cd` or `lumens` that stands beside it.
    """
    sources = rig.kept.ask(_at_rest)
    return sources._replace(lamps=posed(sources, np.arange(len(rig.units)), rig.aims))


def _at_rest(rig: SolidRig) -> Sources:
    """The same of every unit at the origin, straight down."""
    whole = _unaimed(rig, np.repeat(DOWN, len(rig.units), axis=1))
    full = np.array([unit.transmission for unit in rig.units], dtype=np.float64)
    files = [rig.photometry.get(unit.kind) for unit in rig.units]
    tilts = tuple(None if file is None else file.tilt for file in files)
    return Sources(whole, light_turns(rig), full, tilts)


def posed(sources: Sources, which: Indices, aims: Aims) -> Lamps:
    """Units `which` (K,) set as the K columns of `aims` say. A unit without an aim is dark.

    An oval lies level across unless its `turn` says otherwise; a photometric file lies as the body does.
    """
    chosen = sources.lamps.take(which)
    aimed = np.isfinite(aims.throw)
    lens, axis = np.where(aimed, aims.lens, 0.0), np.where(aimed, aims.axis, DOWN)
    turn = sources.turn[which]
    across = level_across(axis, np.nan_to_num(turn))
    as_body = (chosen.table != SMOOTH) & np.isnan(turn) & aimed
    if as_body.any():
        across[:, as_body] = body_right(aims.axis[:, as_body], aims.up[:, as_body])
    share = (
        sources.full[which] * _tipped(sources.tilts, which, axis, np.nan_to_num(aims.up)) * aimed
    )
    return chosen.moved(lens, axis, across)._replace(transmission=share)


def kinds_without_candela(rig: SolidRig) -> list[str]:
    """Kinds in use whose light nobody has given: no `peak_cd`, no `lumens`, no photometric file."""
    used = dict.fromkeys(unit.kind for unit in rig.units)
    kinds = {kind.name: kind for kind in rig.kinds}
    return [
        n for n in used if not kinds[n].peak_cd and not kinds[n].lumens and not kinds[n].photometry
    ]


def units_without_candela(rig: SolidRig) -> Indices:
    """The units whose light nobody has given, rows of the rig (K,), rising."""
    dark = set(kinds_without_candela(rig))
    return np.flatnonzero([unit.kind in dark for unit in rig.units])


def _tipped(sources: Sequence[Tilt | None], which: Indices, axis: Array, up: Array) -> Array:
    """What tipping leaves of each unit's light, by its file's table; `axis`, `up` (3, K) of the bodies."""
    share = np.ones(which.size)
    for k, unit in enumerate(which.tolist()):
        tilt = sources[unit]
        if tilt is not None:
            share[k] = tilt.factor(tilt.lamp_angle(axis[:, k], up[:, k]))
    return share


def _unaimed(rig: SolidRig, axis: Array) -> Lamps:
    """The units' candela and profiles, all pointing along `axis` from the origin."""
    by_file: dict[str, list[int]] = {}
    smooth: list[int] = []
    for k, unit in enumerate(rig.units):
        (by_file.setdefault(unit.kind, []) if unit.kind in rig.photometry else smooth).append(k)
    parts = [_smooth(rig, smooth, axis)]
    parts += [_measured(rig, kind, rows, axis) for kind, rows in by_file.items()]
    order = np.concatenate([smooth, *by_file.values()]).astype(np.intp)
    return joined(*parts).take(np.argsort(order, kind="stable"))


def _smooth(rig: SolidRig, rows: list[int], axis: Array) -> Lamps:
    field = rig.arrays.field[rows]
    beam = np.minimum(rig.arrays.beam[rows], SHARPEST * field)
    ovals = [rig.kinds[k].oval for k in rows]
    pairs = [to_radians(oval) if oval else (f, f) for oval, f in zip(ovals, field, strict=True)]
    narrow, wide = np.array(pairs, dtype=np.float64).reshape(-1, 2).T
    given = np.array([rig.kinds[k].peak_cd or np.nan for k in rows], dtype=np.float64)
    lumens = np.array([rig.kinds[k].lumens or 0.0 for k in rows], dtype=np.float64)
    peak = given
    if np.isnan(given).any():
        worked_out = peak_from_lumens(lumens, beam=beam, field=field, narrow=narrow, wide=wide)
        peak = np.where(np.isnan(given), worked_out, given)
    none = np.zeros((3, len(rows)))
    return smooth_lamps(
        none, axis[:, rows], peak_cd=peak, beam=beam, field=field, oval=(narrow, wide)
    )


def _measured(rig: SolidRig, kind: str, rows: list[int], axis: Array) -> Lamps:
    from aimcalc.light.lamps import candela_table

    file = rig.photometry[kind]
    across = np.zeros((3, len(rows)))
    across[0] = 1.0
    return measured_lamps(
        np.zeros((3, len(rows))),
        axis[:, rows],
        table=candela_table(file),
        across=across,
        peak_cd=_file_peak(rig.kinds[rows[0]], file),
    )


def _file_peak(kind: Kind, file: Photometry) -> float:
    if kind.peak_cd:
        return kind.peak_cd
    return file.peak_cd * (kind.lumens / file.lumens if kind.lumens else 1.0)


RAYS_AT_ONCE = 200_000
SHORT = (
    2e-4  # share of the way left out at a ray's end, which lies on no solid but may come near one
)


class Sight(NamedTuple):
    """The solids of a scene made ready for rays; None where it has none."""

    ready: Caster | None


def sight_of(rig: SolidRig) -> Sight:
    """The scenery of a rig; the same object after a change that has not touched it.

    Raises NoRayEngineError, and SceneError where a mesh cannot be used.
    """
    return rig.kept.ask(_sight)


def _sight(rig: SolidRig) -> Sight:
    if not rig.scene.solids:
        return Sight(None)
    from aimcalc.geometry.rays import caster

    return Sight(caster(rig.scenery))


class Seen(NamedTuple):
    """Which points N lenses see: flags (N, M), or None where nothing hides any."""

    flags: Flags | None

    def of(self, units: Indices) -> Seen:
        """The same of some of the units, by their indices (K,)."""
        return self if self.flags is None else Seen(self.flags[units])

    def mark(self, lamps: Lamps) -> Lamps:
        """The units, those that something hides a point from marked as part blocked."""
        if self.flags is None:
            return lamps
        return lamps._replace(part_blocked=np.asarray(~self.flags.all(axis=1)))

    @property
    def visible(self) -> Visible | None:
        """The question that `illuminance` asks."""
        flags = self.flags
        return None if flags is None else lambda unit, which: flags[unit, which]


def sees(sight: Sight, lens: Array, points: Array) -> Flags:
    """Whether each of K lenses (3, K) sees its own one of K points (3, K): (K,), m."""
    if sight.ready is None:
        return np.ones(lens.shape[1], np.bool_)
    return _clear(sight.ready, lens, points - lens, 0.0)


def seen_from(sight: Sight, lens: Array, points: Array, *, short: float = 0.0) -> Seen:
    """Which of M points (3, M) each of N lenses (3, N) sees; metres.

    The last `short` metres of the way do not count: a point on a painted drop is seen.
    """
    if sight.ready is None:
        return Seen(None)
    count, size = lens.shape[1], points.shape[1]
    flags = np.empty((count, size), np.bool_)
    step = max(1, RAYS_AT_ONCE // max(1, size))
    for first in range(0, count, step):
        rows = slice(first, first + step)
        some = lens[:, rows]
        start = np.repeat(some, size, axis=1)
        way = (points[:, None, :] - some[:, :, None]).reshape(3, -1)
        flags[rows] = _clear(sight.ready, start, way, short).reshape(some.shape[1], size)
    return Seen(flags)


def _clear(ready: Caster, start: Array, way: Array, short: float) -> Flags:
    """Whether the ways (3, R) from `start` (3, R) meet nothing, their last `short` metres left out."""
    from aimcalc.geometry.rays import occluded

    reach = np.sqrt((way * way).sum(axis=0))
    limit = reach * (1 - SHORT) - short
    return np.asarray(~occluded(ready, start, way / np.maximum(reach, 1e-300), limit))


class NewAims(NamedTuple):
    """K new aims that can be set: `unit` (K,) of the rig, `face` (3, K), m, the unit as it would light."""

    unit: Indices
    face: Array
    lamps: Lamps
    aims: Aims

    def take(self, which: Indices | Flags) -> NewAims:
        """Some of them, by their indices or by flags (K,)."""
        return NewAims(
            self.unit[which],
            self.face[:, which],
            self.lamps.take(which),
            cut(self.aims, np.arange(self.unit.size)[which]),
        )
