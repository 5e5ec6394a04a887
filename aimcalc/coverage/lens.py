"""Which kind of unit each place should have, from what the venue owns.

A unit may be changed for one of its own family only, and the rig is settled as a whole, by an exact
assignment over the stock (`aimcalc.coverage.lens_wanted`). What a kind costs at a place is how far the
logarithm of its pool's size is from the wanted one's, twice that where it is too small. Where neighbours
are to be met, as much is added for how far the logarithm of its light at the face is from the middle of its
system's now: a wash of well-chosen pools, some twice as bright as others, has holes where the dim ones are.
"""

from __future__ import annotations

from collections.abc import Collection
from math import isfinite
from typing import TYPE_CHECKING

import msgspec
import numpy as np
from msgspec.structs import replace

from aimcalc.coverage.lens_wanted import (
    KEPT,
    MEETS,
    NONE,
    Assignment,
    Wanted,
    assigned,
    mismatch,
    pool_diameter,
    wanted_of,
)
from aimcalc.coverage.sources import sources_of
from aimcalc.coverage.study import study_of
from aimcalc.coverage.systems import ALL, systems_of
from aimcalc.geometry.vectors import Array, to_degrees, to_radians
from aimcalc.light.evenness import SMALLEST, Uniformity
from aimcalc.light.lamps import Indices
from aimcalc.named import NamedTuple
from aimcalc.rig.solve import files_of, filled
from aimcalc.scene.model import Kind
from aimcalc.solid.rig import SolidRig

if TYPE_CHECKING:
    from aimcalc.coverage.study import Study


TO_CHANGE = 1e-6  # cost of a change by itself: settles only between equals
TO_TAKE = 100.0  # cost of taking its kind from a unit that is to keep it


class Proposal(msgspec.Struct, frozen=True, kw_only=True):
    """One unit: what it has, what is wanted, what is proposed. Degrees (full angles) and metres.

    `why` is "meets" (the targets in `meets`), "pool", "as it is" or "kept". Pools are the field square to the
    axis at the face. `light` is the proposed kind's light at the face over the middle of its system's now.
    What does not exist is None: `proposed` where the stock has nothing left that could go there, `next_best`
    where no other kind has any left, `light` for kinds without candela and units without a system.
    """

    unit: str
    system: str | None
    kind: str
    field: float
    why: str
    meets: tuple[str, ...]
    wanted_field: float
    wanted_pool: float | None
    proposed: str | None
    proposed_field: float | None
    pool: float | None
    light: float | None
    cost: float | None
    first_choice: str | None
    next_best: str | None
    next_field: float | None
    next_cost: float | None

    @property
    def changes(self) -> bool:
        """The proposal is another kind than the unit has."""
        return self.proposed is not None and self.proposed != self.kind

    @property
    def off(self) -> float | None:
        """How much larger the pool is than wanted: 0.25 is a quarter larger, negative is smaller."""
        if self.pool is None or self.wanted_pool is None:
            return None
        return self.pool / self.wanted_pool - 1.0


class StockUse(msgspec.Struct, frozen=True):
    """One kind of the stock: how many there are, are used, are left, and are wanted beyond what there are."""

    kind: str
    count: int
    used: int
    left: int
    short: int


class LensPlan(msgspec.Struct, frozen=True):
    """Every unit in hang order, what that takes of the stock (empty where the scene has none), the cost."""

    units: list[Proposal]
    stock: list[StockUse]
    cost: float


class _Choice(NamedTuple):
    """N places and K kinds: what is wanted, what each kind gives and costs, what was settled."""

    wanted: list[Wanted]
    kinds: list[Kind]
    light: Array  # (N, K) over the middle of the system's, NaN where not known
    found: Assignment


def lens_plan(rig: SolidRig, *, pool: float | None = None, keep: Collection[str] = ()) -> LensPlan:
    """The best kinds for a whole rig from its stock.

    `pool` is a diameter in metres, wanted of all systems; units of the systems `keep` keep their kinds
    as long as the stock has them.
    Without a stock every kind of the scene is taken as unlimited.
    """
    stock = {entry.kind: entry.count for entry in rig.scene.stock}
    kinds, wanted = _offered(rig), wanted_of(rig, pool, keep)
    light = _light(rig, kinds)
    counts = np.array([stock.get(k.name, 0) if stock else len(rig.units) for k in kinds], np.intp)
    fit = _misfits(rig, kinds, wanted, light)
    found = assigned(fit + _changes(rig, kinds, wanted), counts)
    found = found._replace(cost=_at(fit, found.kind), next_cost=_at(fit, found.next_best))
    choice = _Choice(wanted, kinds, light, found)
    return LensPlan(
        units=[_proposal(rig, choice, k) for k in range(len(rig.units))],
        stock=_uses(choice, counts) if stock else [],
        cost=found.total,
    )


def _offered(rig: SolidRig) -> list[Kind]:
    """The kinds of the stock, or every kind of the scene where it has none."""
    own = {kind.name: kind for kind in rig.kinds}
    names = [entry.kind for entry in rig.scene.stock] or list(rig.scene.kinds)
    return [own[name] if name in own else _with_field(rig, name) for name in dict.fromkeys(names)]


def _with_field(rig: SolidRig, name: str) -> Kind:
    """A kind that no unit uses, its field read from its file where need be."""
    kind = rig.scene.kinds[name]
    return filled(kind, files_of(rig.scene, [kind] if kind.field is None else []).get(name))


def _light(rig: SolidRig, kinds: list[Kind]) -> Array:
    """Light of each kind at each unit's face over the middle of what its system's units give theirs."""
    sources = sources_of(rig)
    lamps = sources.lamps
    here = sources.full / rig.aims.throw**2
    now = lamps.peak_cd * here
    peaks = {unit.kind: float(peak) for unit, peak in zip(rig.units, lamps.peak_cd, strict=True)}
    peak = np.array([peaks.get(k.name) or k.peak_cd or np.nan for k in kinds], dtype=np.float64)
    middle = np.full(len(rig.units), np.nan)
    for system, units in systems_of(rig).items():
        lit = now[units][now[units] > 0]
        if system != ALL and lit.size:
            middle[units] = np.median(lit)
    return np.asarray(peak * (here / middle)[:, None])


def _misfits(rig: SolidRig, kinds: list[Kind], wanted: list[Wanted], light: Array) -> Array:
    """How badly each kind does at each unit, (N, K); infinite where it may not go."""
    fields = to_radians([kind.field or np.nan for kind in kinds])
    cost = mismatch(fields, np.array([[want.field] for want in wanted]))
    for k, want in enumerate(wanted):
        if want.why == MEETS:
            cost[k] += np.nan_to_num(np.abs(np.log(light[k])))
    shape = (len(wanted), len(kinds))
    may = np.array([[_may_go(have, kind) for kind in kinds] for have in rig.kinds], dtype=bool)
    cost = cost.reshape(shape)
    return np.where(may.reshape(shape) & np.isfinite(cost), cost, np.inf)


def _changes(rig: SolidRig, kinds: list[Kind], wanted: list[Wanted]) -> Array:
    """What a change costs by itself, (N, K): it settles who changes, and is no part of what is told."""
    same = np.array([[have.name == kind.name for kind in kinds] for have in rig.kinds], dtype=bool)
    change = np.array([[TO_TAKE if want.why == KEPT else TO_CHANGE] for want in wanted])
    shape = (len(wanted), len(kinds))
    return np.where(same.reshape(shape), 0.0, change.reshape(-1, 1))


def _at(fit: Array, kind: Indices) -> Array:
    """Of each row what one kind has, NaN where there is none."""
    told = np.full(kind.size, np.nan)
    has = np.flatnonzero(kind != NONE)
    told[has] = fit[has, kind[has]]
    return told


def _may_go(present: Kind, other: Kind) -> bool:
    return present.family == other.family and present.has_gobo == other.has_gobo


def _uses(choice: _Choice, counts: Indices) -> list[StockUse]:
    found = choice.found
    used = np.bincount(found.kind[found.kind != NONE], minlength=counts.size)
    columns = (column.tolist() for column in (counts, used, found.left, found.short))
    names = [kind.name for kind in choice.kinds]
    return [StockUse(name, *row) for name, *row in zip(names, *columns, strict=True)]


def _proposal(rig: SolidRig, choice: _Choice, k: int) -> Proposal:
    want, found, throw = choice.wanted[k], choice.found, float(rig.aims.throw[k])
    chosen, other, first = (
        None if row[k] == NONE else choice.kinds[row[k]]
        for row in (found.kind, found.next_best, found.first_choice)
    )
    return Proposal(
        unit=rig.names[k],
        system=rig.units[k].system,
        kind=rig.units[k].kind,
        field=to_degrees(rig.arrays.field[k]),
        why=want.why,
        meets=want.meets,
        wanted_field=to_degrees(want.field),
        wanted_pool=_pool(to_degrees(want.field), throw),
        proposed=chosen and chosen.name,
        proposed_field=chosen and chosen.field,
        pool=_pool(chosen and chosen.field, throw),
        light=_number(choice.light[k, found.kind[k]]) if chosen else None,
        cost=_number(found.cost[k]),
        first_choice=first and first.name,
        next_best=other and other.name,
        next_field=other and other.field,
        next_cost=_number(found.next_cost[k]),
    )


def _pool(field: float | None, throw: float) -> float | None:
    if field is None or not throw > 0:
        return None
    return float(pool_diameter(to_radians(field), throw))


def _number(value: float) -> float | None:
    return None if np.isnan(value) else float(value) + 0.0


WORSE = 1.1


class Forecast(NamedTuple):
    """One system now and as proposed: its figures, and the m2 of its holes."""

    system: str
    now: Uniformity
    then: Uniformity
    holes_now: float
    holes_then: float


class Outlook(NamedTuple):
    """A proposal, what it would do to each system, and the systems that keep what they have."""

    plan: LensPlan
    systems: list[Forecast]
    kept: list[str]


def lens_outlook(rig: SolidRig, *, pool: float | None = None) -> Outlook:
    """The proposal for a rig and its outlook; a `pool` (m) that is wanted is proposed whatever it does.

    Raises NoAreaError where the scene has no area to cover.
    """
    kept: list[str] = []
    studies = [study_of(rig)]
    while True:
        plan = lens_plan(rig, pool=pool, keep=kept)
        systems = forecast(rig, plan, studies)
        known = [
            s for s in systems if isfinite(s.now.mean)
        ]  # the light of the rest may only get known
        worse = [s.system for s in known if s.holes_then > WORSE * s.holes_now + SMALLEST]
        worse = [name for name in worse if name != ALL and name not in kept]
        if pool is not None or not worse:
            return Outlook(plan, systems, kept)
        kept += worse


def forecast(rig: SolidRig, plan: LensPlan, studies: list[Study] | None = None) -> list[Forecast]:
    """Every system's light with the proposed kinds in place of the present ones, aims staying.

    `studies` are the rig's own, first, and those of earlier proposals: what they share is not worked out
    again, and this proposal's is added. Raises NoAreaError where the scene has no area to cover.
    """
    made = [study_of(rig)] if studies is None else studies
    made.append(study_of(as_proposed(rig, plan), known=made))
    now, then = made[0].systems, made[-1].systems
    return [
        Forecast(
            name, now[name].figures, then[name].figures, now[name].dark_area, then[name].dark_area
        )
        for name in now
    ]


def as_proposed(rig: SolidRig, plan: LensPlan) -> SolidRig:
    """The same rig with the proposed kinds; units without a proposal keep theirs."""
    kinds = {id(u): p.proposed or u.kind for u, p in zip(rig.units, plan.units, strict=True)}
    units = tuple(replace(unit, kind=kinds[id(unit)]) for unit in rig.scene.units)
    return SolidRig(replace(rig.scene, units=units))
