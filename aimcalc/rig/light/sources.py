"""The units of a rig as sources of light: candela from their kinds, turned as they hang, dimmed by colour."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import Aims
from aimcalc.geometry.ovals import level_across
from aimcalc.geometry.vectors import Array
from aimcalc.light.lamps import (
    SMOOTH,
    Indices,
    Lamps,
    body_right,
    joined,
    measured_lamps,
    smooth_lamps,
)
from aimcalc.light.profiles import SHARPEST, peak_from_lumens
from aimcalc.rig.ovals import light_turns

if TYPE_CHECKING:
    from aimcalc.light.photometry import Photometry, Tilt
    from aimcalc.rig.solve import Rig
    from aimcalc.scene.model import Kind

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


def sources_of(rig: Rig) -> Sources:
    """Every unit of a rig with its candela profile, in hang order; dark where unknown or without an aim.

    The candela come from the kind's `peak_cd`, or from its `lumens` over its own profile, or from its
    photometric file; a file is scaled to a `peak_cd` or `lumens` that stands beside it.
    """
    count = len(rig.units)
    at_rest = np.repeat(DOWN, count, axis=1)
    whole = _unaimed(rig, at_rest)
    turn = light_turns(rig)
    full = np.array([unit.transmission for unit in rig.units], dtype=np.float64)
    files = [rig.photometry.get(unit.kind) for unit in rig.units]
    tilts = tuple(None if file is None else file.tilt for file in files)
    sources = Sources(whole, turn, full, tilts)
    return sources._replace(lamps=posed(sources, np.arange(count), rig.aims))


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


def kinds_without_candela(rig: Rig) -> list[str]:
    """Kinds in use whose light nobody has given: no `peak_cd`, no `lumens`, no photometric file."""
    used = dict.fromkeys(unit.kind for unit in rig.units)
    kinds = {kind.name: kind for kind in rig.kinds}
    return [
        n for n in used if not kinds[n].peak_cd and not kinds[n].lumens and not kinds[n].photometry
    ]


def units_without_candela(rig: Rig) -> Indices:
    """The units whose light nobody has given."""
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


def _unaimed(rig: Rig, axis: Array) -> Lamps:
    """The units' candela and profiles, all pointing along `axis` from the origin."""
    by_file: dict[str, list[int]] = {}
    smooth: list[int] = []
    for k, unit in enumerate(rig.units):
        (by_file.setdefault(unit.kind, []) if unit.kind in rig.photometry else smooth).append(k)
    parts = [_smooth(rig, smooth, axis)]
    parts += [_measured(rig, kind, rows, axis) for kind, rows in by_file.items()]
    order = np.concatenate([smooth, *by_file.values()]).astype(np.intp)
    return joined(*parts).take(np.argsort(order, kind="stable"))


def _smooth(rig: Rig, rows: list[int], axis: Array) -> Lamps:
    field = rig.arrays.field[rows]
    beam = np.minimum(rig.arrays.beam[rows], SHARPEST * field)
    ovals = [rig.kinds[k].oval for k in rows]
    pairs = [np.radians(oval) if oval else (f, f) for oval, f in zip(ovals, field, strict=True)]
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


def _measured(rig: Rig, kind: str, rows: list[int], axis: Array) -> Lamps:
    from aimcalc.light.tables import candela_table

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
