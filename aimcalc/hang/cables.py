"""The cable of every unit of a rig: need, stock given out over the whole rig, how it lies."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from math import ceil, inf

from aimcalc.hang.circuits import Joint
from aimcalc.hang.records import CableRun, HangOptions, PullCable
from aimcalc.hang.tubes import span
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Position, Stand


class Laid(NamedTuple):
    """How one cable lies: where it is doubled back, and how much of the position it covers.

    `folds` is false where the position has no room to double all of it back in one turn; `again` is where
    it then turns once more, None where two turns do not take it up either.
    """

    turn: float
    covers: float
    folds: bool
    again: float | None = None


def assign(needs: Sequence[float], stock: Sequence[tuple[float, int]]) -> list[int | None]:
    """Which entry of `stock` (length, count) serves each need; None where nothing is left that reaches.

    A cable serves a need that is no longer than itself. Longest need first, each takes the shortest
    cable that still reaches. As many needs are served as any choice could serve, and where all are,
    the cables taken are the shortest in all. Proof: let n be the longest need and c the shortest cable
    that serves it. In a best choice n has some cable at least as long as c. If c lies idle, giving it
    to n takes no more length. If c serves another need m <= n, the two can change cables: m gets one
    that is at least n >= m. So some best choice gives c to n; the same holds for the rest. A need that
    no cable reaches takes nothing from the others. Where cables run out before the needs do, it is the
    shortest needs that go without.
    """
    left = sorted((length, k, count) for k, (length, count) in enumerate(stock) if count > 0)
    given: list[int | None] = [None] * len(needs)
    for need in sorted(range(len(needs)), key=lambda k: -needs[k]):
        place = bisect_left(left, (needs[need],))
        if place == len(left):
            continue
        length, given[need], count = left[place]
        if count == 1:
            left.pop(place)
        else:
            left[place] = (length, left[place][1], count - 1)
    return given


def laid(outlet: float, connector: float, length: float, ends: tuple[float, float]) -> Laid:
    """How a cable of `length` lies from an outlet so that its far end lands at the connector.

    It runs on past the connector, turns and comes back: |turn - outlet| + |turn - connector| = length.
    Where the position ends before the turn, the cable is first taken the other way from the outlet and
    turned there. Where neither side has the room `folds` is false: it turns at an end (past the
    connector, if that serves), comes back and turns again; where two turns do not take it up either, the
    turn is at the roomier end.
    A cable that does not reach is laid straight.
    """
    low, high = min(ends), max(ends)
    straight = abs(connector - outlet)
    spare = max(0.0, length - straight) / 2
    sense = 1.0 if connector >= outlet else -1.0
    past, before = connector + sense * spare, outlet - sense * spare
    for turn in (past, before):
        if low <= turn <= high:
            return Laid(turn, straight + spare, True)
    for end, way in ((high, 1.0), (low, -1.0))[:: int(sense)]:
        # |end - outlet| + |end - again| + |again - connector| = length
        again = end - way * (length - way * (connector - outlet)) / 2
        if low <= again <= high:
            return Laid(end, max(abs(end - at) for at in (outlet, connector, again)), False, again)
    room = {low: min(outlet, connector) - low, high: high - max(outlet, connector)}
    end = max(room, key=lambda place: room[place])
    return Laid(end, straight + room[end], False)


def ties(covers: float, spacing: float) -> int:
    """The fewest ties with one at each end of what is covered and none over `spacing` apart, metres."""
    if covers <= 0:
        return 1
    return ceil(covers / spacing - 1e-9) + 1


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


def _outlet_at(joint: Joint) -> float:
    return joint.outlet.at if joint.outlet is not None else 0.0


def _need(rig: Rig, joint: Joint, places: list[float | None], options: HangOptions) -> float:
    """To the clamp or to the connector, whichever is farther, and what is kept at the unit."""
    landing, beyond = _landing(rig, joint.units[0], places)
    to_connector = abs(landing - _outlet_at(joint)) + beyond
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
    outlet = _outlet_at(joint)
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
        fold_again=None if stock is None else lie.again,
    )


def _plugged_in(rig: Rig, joint: Joint) -> CableRun:
    """A connector at its outlet: no cable, one tie."""
    outlet, run = _outlet_at(joint), _distance(rig, joint, joint.units[0])
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
    return abs((rig.units[k].at or 0.0) - _outlet_at(joint)) + _arm(rig, k)


def _ends(position: Position) -> tuple[float, float]:
    """How far cable can lie along a position; a stand's lies on the deck, as far as need be."""
    ends = span(position)
    return (-inf, inf) if ends is None else (ends.start, ends.end)
