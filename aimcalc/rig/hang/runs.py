"""The cable of every unit of a rig: need, stock given out over the whole rig, how it lies."""

from __future__ import annotations

from math import inf

from aimcalc.rig.hang.cable import assign, laid, ties
from aimcalc.rig.hang.joints import Joint
from aimcalc.rig.hang.records import CableRun, HangOptions, PullCable
from aimcalc.rig.hang.tubes import span
from aimcalc.rig.solve import Rig
from aimcalc.scene.model import Circuit, Position, Stand

NO_CABLE = CableRun(None, None, None, None, None, None, None, None, None, None, False)


def cable_runs(
    rig: Rig, shared: list[Joint], places: list[float | None], options: HangOptions
) -> list[CableRun]:
    """Cable of every unit, in hang order. `places` of the connectors are from the clamps.

    Cable of a plug that `[[cable]]` names goes to circuits of that plug alone; circuits of any other plug
    take the cables written without one.
    """
    cabled = [joint for joint in shared if joint.outlet is not None and not joint.plugs_in]
    needs = [_need(rig, joint, places, options) for joint in cabled]
    stock = _given_out(rig, cabled, needs)
    runs = [NO_CABLE] * len(rig.units)
    ends = {name: _ends(position) for name, position in rig.scene.positions.items()}
    for joint, need, length in zip(cabled, needs, stock, strict=True):
        room = ends[rig.units[joint.units[0]].position]
        runs[joint.units[0]] = _run(rig, joint, places, need, length, room, options)
    for joint in shared:
        if joint.plugs_in:
            runs[joint.units[0]] = _plugged_in(rig, joint)
        for k in joint.units[1:]:
            runs[k] = _guest(rig, joint, k)
    return runs


def pull_list(rig: Rig, shared: list[Joint], runs: list[CableRun]) -> list[PullCable]:
    """Cables in the order of laying: position by position, the longest way first."""
    cables = []
    for joint in shared:
        first = rig.units[joint.units[0]]
        run = runs[joint.units[0]]
        if run.need and first.circuit is not None:
            names = [rig.names[k] for k in joint.units]
            plug = None if joint.outlet is None else joint.outlet.plug
            row = PullCable(first.position, first.circuit, names, run.stock, run.need, plug)
            cables.append(row)
    order = {name: i for i, name in enumerate(rig.scene.positions)}
    return sorted(cables, key=lambda cable: (order[cable.position], -cable.need))


def _arm(rig: Rig, k: int) -> float:
    unit = rig.units[k]
    return unit.arm if unit.mount == "arm" else 0.0


def _landing(rig: Rig, k: int, places: list[float | None]) -> tuple[float, float]:
    """Where a cable leaves the position for its connector, as `at`, and how far it goes beyond."""
    unit, place = rig.units[k], places[k] or 0.0
    if unit.mount == "arm":
        return unit.at or 0.0, max(0.0, unit.arm - place)
    return (unit.at or 0.0) + place, 0.0


def _outlet_at(rig: Rig, joint: Joint) -> float:
    return joint.outlet.at if joint.outlet is not None else 0.0


def _need(rig: Rig, joint: Joint, places: list[float | None], options: HangOptions) -> float:
    """To the clamp or to the connector, whichever is farther, and what is kept at the unit."""
    landing, beyond = _landing(rig, joint.units[0], places)
    to_connector = abs(landing - _outlet_at(rig, joint)) + beyond
    return max(to_connector, _distance(rig, joint, joint.units[0])) + options.cable_extra


def _given_out(rig: Rig, shared: list[Joint], needs: list[float]) -> list[float | None]:
    """Stock length for each need, None where none is left that reaches."""
    pools: dict[str | None, list[int]] = {}
    for i, joint in enumerate(shared):
        pools.setdefault(cable_plug(rig, joint.outlet), []).append(i)
    given: list[float | None] = [None] * len(needs)
    for plug, mine in pools.items():
        stock = [(c.length, c.count) for c in rig.scene.cables if c.plug == plug]
        chosen = assign([needs[i] for i in mine], stock)
        for i, k in zip(mine, chosen, strict=True):
            given[i] = None if k is None else stock[k][0]
    return given


def cable_plug(rig: Rig, outlet: Circuit | None) -> str | None:
    """The plug of the cables that serve an outlet: its own where `[[cable]]` names it, else none."""
    plug = None if outlet is None else outlet.plug
    return plug if any(cable.plug == plug for cable in rig.scene.cables) else None


def _run(
    rig: Rig,
    joint: Joint,
    places: list[float | None],
    need: float,
    stock: float | None,
    room: tuple[float, float],
    options: HangOptions,
) -> CableRun:
    k = joint.units[0]
    outlet = _outlet_at(rig, joint)
    landing, beyond = _landing(rig, k, places)
    length = need if stock is None else stock
    lie = laid(outlet, landing, length - beyond - options.cable_extra, room)
    extra = length - beyond - abs(landing - outlet)
    on_deck = isinstance(rig.positions[k], Stand)
    return CableRun(
        outlet=outlet,
        run=_distance(rig, joint, k),
        need=need,
        stock=stock,
        extra=extra,
        double_back=None if stock is None else lie.turn,
        covers=lie.covers,
        folds=None if stock is None else lie.folds,
        ties=1 if on_deck else ties(lie.covers + beyond, options.tie_spacing),
        with_unit=None,
        plugs_in=False,
    )


def _plugged_in(rig: Rig, joint: Joint) -> CableRun:
    """A connector at its outlet: no cable, one tie."""
    outlet, run = _outlet_at(rig, joint), _distance(rig, joint, joint.units[0])
    return CableRun(outlet, run, 0.0, None, None, None, None, None, 1, None, True)


def _guest(rig: Rig, joint: Joint, k: int) -> CableRun:
    """A unit that plugs into another's twofer."""
    first = rig.names[joint.units[0]]
    if joint.outlet is None:
        return CableRun(None, None, None, None, None, None, None, None, None, first, False)
    run = _distance(rig, joint, k)
    return CableRun(
        joint.outlet.at, run, None, None, None, None, None, None, None, first, joint.plugs_in
    )


def _distance(rig: Rig, joint: Joint, k: int) -> float:
    return abs((rig.units[k].at or 0.0) - _outlet_at(rig, joint)) + _arm(rig, k)


def _ends(position: Position) -> tuple[float, float]:
    """How far cable can lie along a position; a stand's lies on the deck, as far as need be."""
    ends = span(position)
    return (-inf, inf) if ends is None else (ends.start, ends.end)
