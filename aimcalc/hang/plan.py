"""Everything about hanging and plugging a solved rig, as one record."""

from __future__ import annotations

from collections import Counter
from itertools import islice
from math import ceil
from typing import NamedTuple

from aimcalc.hang.cables import cable_plug, cable_runs, pull_list
from aimcalc.hang.circuits import circuit_plans, outlets_of
from aimcalc.hang.position import position_plan
from aimcalc.hang.records import CableRun, ColourCut, HangOptions, HangPlan, Left, Pull
from aimcalc.hang.ties import tied
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Circuit, Kind, Unit

MOST_SHARING = (
    24  # units of a circuit that are named to each of the others; a full one has some four
)


class Twofer(NamedTuple):
    """The other units that share a unit's circuit by a twofer: at the units themselves, or at the outlet.

    Of each the first MOST_SHARING, and how many more there are.
    """

    here: list[int]
    at_outlet: list[int]
    more_here: int = 0
    more_at_outlet: int = 0


def counts(rig: Rig, runs: list[CableRun], options: HangOptions) -> list[Pull]:
    """Things by position in the scene's order, then the whole rig's with spare, rounded up."""
    by_position: dict[str, Counter[str]] = {name: Counter() for name in rig.scene.positions}
    outlets = outlets_of(rig)
    for k, unit in enumerate(rig.units):
        by_position[unit.position].update(_things(rig, k, runs[k], outlets[k]))
    for group in _one_outlet(rig, runs):
        by_position[rig.units[group[0]].position]["twofer"] += len(group) - 1
    pulls = [
        Pull(name, item, count, 0)
        for name, things in by_position.items()
        for item, count in things.items()
    ]
    whole: Counter[str] = Counter()
    for things in by_position.values():
        whole.update(things)
    owned = _owned(rig)
    return pulls + [_with_spare(item, n, owned.get(item), options) for item, n in whole.items()]


def colour_cuts(rig: Rig, options: HangOptions) -> list[ColourCut]:
    """Pieces of colour to cut for the rig, by frame in the order of first use, then by colour."""
    cuts: dict[str, Counter[str]] = {}
    for unit, kind in zip(rig.units, rig.kinds, strict=True):
        if unit.colour:
            cuts.setdefault(frame_of(kind), Counter()).update(pieces(unit))
    return [
        ColourCut(frame, colour, n, ceil(n * options.spare))
        for frame, colours in cuts.items()
        for colour, n in sorted(colours.items())
    ]


def twofers(rig: Rig, runs: list[CableRun]) -> dict[int, Twofer]:
    """Every unit that is on a twofer, with whom and where. Units on one cable have theirs at the units."""
    found: dict[int, Twofer] = {}
    for group in _one_outlet(rig, runs):
        cables: dict[tuple[str, bool], list[int]] = {}
        for k in group:
            on = runs[k].with_unit or rig.names[k], runs[k].plugs_in
            cables.setdefault(on, []).append(k)
        for (_, plugs_in), mine in cables.items():
            found |= _plugged_together(group, mine) if plugs_in else _on_one_cable(group, mine)
    return found


def _plugged_together(group: list[int], mine: list[int]) -> dict[int, Twofer]:
    """Twofers of units that plug in at the outlet itself: with all of their group, there."""
    others = ((k, *_without(group, k)) for k in mine)
    return {k: Twofer([], there, 0, more) for k, there, more in others}


def _on_one_cable(group: list[int], mine: list[int]) -> dict[int, Twofer]:
    """Twofers of units on one cable: with one another at the units, with the rest at the outlet."""
    own = set(mine)
    rest = list(islice((k for k in group if k not in own), MOST_SHARING))
    more = len(group) - len(mine) - len(rest)
    others = ((k, *_without(mine, k)) for k in mine)
    return {k: Twofer(here, rest, more_here, more) for k, here, more_here in others}


def _without(units: list[int], k: int) -> tuple[list[int], int]:
    """The first units but one of them, and how many more there are."""
    first = [j for j in units[: MOST_SHARING + 1] if j != k][:MOST_SHARING]
    return first, len(units) - 1 - len(first)


def pieces(unit: Unit) -> list[str]:
    """The pieces of colour in a unit's frame: "straw + frost" is two."""
    return [part.strip() for part in (unit.colour or "").split("+") if part.strip()]


def frame_of(kind: Kind) -> str:
    """The size of a kind's colour frame as typed, else the kind."""
    return kind.frame_size or kind.name


def cable_name(rig: Rig, length: float) -> str:
    """A cable's length in the scene's own system: whole or tenths of feet or metres."""
    if rig.scene.settings.own_unit in ("ft", "in"):
        return f"{round(length / 0.3048, 1):g} ft"
    return f"{round(length, 2):g} m"


def _one_outlet(rig: Rig, runs: list[CableRun]) -> list[list[int]]:
    """Units that are plugged to one outlet, where there are several: those on twofers."""
    groups: dict[tuple[str, str, float | None], list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.circuit is not None:
            groups.setdefault((unit.position, unit.circuit, runs[k].outlet), []).append(k)
    return [group for group in groups.values() if len(group) > 1]


def _with_spare(item: str, count: int, owned: int | None, options: HangOptions) -> Pull:
    spare = ceil(count * options.spare)
    return Pull(
        None, item, count, spare if owned is None else min(spare, max(0, owned - count)), owned
    )


def _owned(rig: Rig) -> Counter[str]:
    """How many the store lists of each item; what it does not list is not in it."""
    owned: Counter[str] = Counter()
    for stock in rig.scene.stock:
        owned[f"unit {stock.kind}"] += stock.count
    for cable in rig.scene.cables:
        owned[_cable_item(rig, cable.length, cable.plug)] += cable.count
    return owned


def _things(rig: Rig, k: int, run: CableRun, outlet: Circuit | None) -> Counter[str]:
    """What one unit brings with it. A floor stand needs neither clamp nor safety; a colour needs a frame."""
    unit, kind = rig.units[k], rig.kinds[k]
    things = Counter({f"unit {unit.kind}": 1})
    if unit.mount != "stand":
        things["clamp"] = things["safety cable"] = 1
    if unit.mount == "arm":
        things["side arm"] = 1
    if unit.colour:
        things[f"colour frame, {frame_of(kind)}"] = 1
    things.update(f"colour {piece}" for piece in pieces(unit))
    if kind.has_gobo:
        things["pattern holder"] = 1
    if kind.top_hat is not None:
        things["top hat"] = 1
    if run.stock is not None:
        things[_cable_item(rig, run.stock, cable_plug(rig, outlet))] = 1
    if run.ties:
        things["tie"] = run.ties
    return things


def _cable_item(rig: Rig, length: float, plug: str | None) -> str:
    return f"cable {cable_name(rig, length)}" + (f", {plug}" if plug else "")


def left(rig: Rig) -> Left:
    """Unit names by what the crew has reported. A unit that was tested counts as hung; one
    that is not hung yet is still to be tested as well.
    """
    reports = list(zip(rig.names, rig.units, strict=True))
    hung = [name for name, unit in reports if unit.hung is not None or unit.works is not None]
    return Left(
        hung=hung,
        to_hang=[n for n, unit in reports if unit.hung is None and unit.works is None],
        to_test=[n for n, unit in reports if unit.works is None],
        failed=[n for n, unit in reports if unit.works is False],
    )


USUAL = HangOptions()


def hang_plan(rig: Rig, options: HangOptions = USUAL) -> HangPlan:
    """Marks, loads, tails, cable, circuits, counts and what is left, for every position of a rig."""
    connectors, tails, shared = tied(rig, options)
    runs = cable_runs(rig, shared, [c.place for c in connectors], options)
    rows = list(zip(connectors, tails, runs, strict=True))
    return HangPlan(
        positions=[position_plan(rig, name, rows) for name in rig.scene.positions],
        circuits=circuit_plans(rig, runs, options),
        cables=pull_list(rig, shared, runs),
        counts=counts(rig, runs, options),
        cuts=colour_cuts(rig, options),
        left=left(rig),
        options=options,
    )
