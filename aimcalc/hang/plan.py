"""Everything about hanging and plugging a solved rig, as one record."""

from __future__ import annotations

from collections import Counter
from itertools import islice
from math import ceil

from aimcalc.hang.cables import cable_plug, cable_runs, pull_list
from aimcalc.hang.circuits import circuit_plans, outlets_of
from aimcalc.hang.position import position_plan, turns
from aimcalc.hang.records import (
    FEET,
    STORE,
    CableRun,
    ColourCut,
    HangOptions,
    HangPlan,
    Pull,
    ToDo,
)
from aimcalc.hang.ties import tied
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Kind

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


class Item(NamedTuple):
    """What a store gives out: its sort, which of that sort it is, and the length that a cable is called."""

    sort: str
    name: str = ""
    length: float = 0.0

    @property
    def words(self) -> str:
        """The item as it is asked for: "unit ers-26", "colour frame, 7.5 in", "cable 3 m"."""
        between = ", " if self.sort == "colour frame" else " "
        return f"{self.sort}{between}{self.name}" if self.name else self.sort

    @property
    def walk(self) -> tuple[int, float, str]:
        """Sorts by the way through a store: units first, ties last; cables by length."""
        return STORE.index(self.sort), self.length, self.words


def counts(rig: Rig, runs: list[CableRun], options: HangOptions) -> list[Pull]:
    """Items by position in the scene's order, then the whole rig's with spare, rounded up.

    Those of a position, and of the whole rig, come in the order in which a store is walked.
    """
    by_position: dict[str, Counter[Item]] = {name: Counter() for name in rig.scene.positions}
    alike: dict[_Brings, dict[str, int]] = {}  # how many units of each sort a position has
    for unit, run, outlet in zip(rig.units, runs, outlets_of(rig), strict=True):
        plug = cable_plug(rig, outlet)
        brings = _Brings(unit.kind, unit.mount, unit.colour, run.stock, run.ties, plug)
        places = alike.setdefault(brings, {})
        places[unit.position] = places.get(unit.position, 0) + 1
    kinds = {unit.kind: kind for unit, kind in zip(rig.units, rig.kinds, strict=True)}
    for brings, places in alike.items():
        items = _items(rig, kinds[brings.kind], brings)
        for position, units in places.items():
            for item, count in items.items():
                by_position[position][item] += count * units
    for group in _one_outlet(rig, runs):
        by_position[rig.units[group[0]].position][Item("twofer")] += len(group) - 1
    pulls = [
        Pull(position, item.words, items[item], 0, None, item.sort, item.name)
        for position, items in by_position.items()
        for item in sorted(items, key=lambda item: item.walk)
    ]
    whole: Counter[Item] = Counter()
    for items in by_position.values():
        whole.update(items)
    owned = _owned(rig)
    order = sorted(whole, key=lambda item: item.walk)
    return pulls + [_with_spare(item, whole[item], owned.get(item), options) for item in order]


def colour_cuts(rig: Rig, options: HangOptions) -> list[ColourCut]:
    """Pieces of colour to cut for the rig, by frame in the order of first use, then by colour."""
    cuts: dict[str, Counter[str]] = {}
    for unit, kind in zip(rig.units, rig.kinds, strict=True):
        if unit.colour:
            cuts.setdefault(frame_of(kind), Counter()).update(pieces(unit.colour))
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


def pieces(colour: str | None) -> list[str]:
    """The pieces of colour in a unit's frame: "straw + frost" is two."""
    return [part.strip() for part in (colour or "").split("+") if part.strip()]


def frame_of(kind: Kind) -> str:
    """The size of a kind's colour frame as typed, else the kind."""
    return kind.frame_size or kind.name


def cable_name(rig: Rig, length: float) -> str:
    """A cable's length (m) in the scene's own system: whole or tenths of feet, or hundredths of metres."""
    return f"{_called_length(rig, length):g} {'ft' if _in_feet(rig) else 'm'}"


def _called_length(rig: Rig, length: float) -> float:
    return round(length / FEET, 1) if _in_feet(rig) else round(length, 2)


def _in_feet(rig: Rig) -> bool:
    return rig.scene.settings.own_unit in ("ft", "in")


def _one_outlet(rig: Rig, runs: list[CableRun]) -> list[list[int]]:
    """Units that are plugged to one outlet, where there are several: those on twofers."""
    groups: dict[tuple[str, str, float | None], list[int]] = {}
    for k, unit in enumerate(rig.units):
        if unit.circuit is not None:
            groups.setdefault((unit.position, unit.circuit, runs[k].outlet), []).append(k)
    return [group for group in groups.values() if len(group) > 1]


def _with_spare(item: Item, count: int, owned: int | None, options: HangOptions) -> Pull:
    spare = ceil(count * options.spare)
    if owned is not None:
        spare = min(spare, max(0, owned - count))
    return Pull(None, item.words, count, spare, owned, item.sort, item.name)


def _owned(rig: Rig) -> Counter[Item]:
    """How many the store lists of each item; what it does not list is not in it."""
    owned: Counter[Item] = Counter()
    for stock in rig.scene.stock:
        owned[Item("unit", stock.kind)] += stock.count
    for cable in rig.scene.cables:
        owned[_cable(rig, cable.length, cable.plug)] += cable.count
    return owned


class _Brings(NamedTuple):
    """All that it hangs on what a unit brings with it."""

    kind: str
    mount: str
    colour: str | None
    cable: float | None
    ties: int | None
    plug: str | None


def _items(rig: Rig, kind: Kind, unit: _Brings) -> Counter[Item]:
    """What one unit brings with it. A floor stand needs neither clamp nor safety; a colour needs a frame."""
    items = Counter([Item("unit", unit.kind)])
    if unit.mount != "stand":
        items.update([Item("clamp"), Item("safety cable")])
    if unit.mount == "arm":
        items[Item("side arm")] = 1
    if unit.colour:
        items[Item("colour frame", frame_of(kind))] = 1
    items.update(Item("colour", piece) for piece in pieces(unit.colour))
    if kind.has_gobo:
        items[Item("pattern holder")] = 1
    if kind.top_hat is not None:
        items[Item("top hat")] = 1
    if unit.cable is not None:
        items[_cable(rig, unit.cable, unit.plug)] = 1
    if unit.ties:
        items[Item("tie")] = unit.ties
    return items


def _cable(rig: Rig, length: float, plug: str | None) -> Item:
    """A cable by the length that it is called; two lengths with one name are one item."""
    name = cable_name(rig, length)
    return Item("cable", f"{name}, {plug}" if plug else name, _called_length(rig, length))


def to_do(rig: Rig) -> ToDo:
    """Unit names by what the crew has reported. A unit that was tested counts as hung; one
    that is not hung yet is still to be tested as well.
    """
    reports = list(zip(rig.names, rig.units, strict=True))
    hung = [name for name, unit in reports if unit.hung is not None or unit.works is not None]
    return ToDo(
        hung=hung,
        to_hang=[n for n, unit in reports if unit.hung is None and unit.works is None],
        to_test=[n for n, unit in reports if unit.works is None],
        failed=[n for n, unit in reports if unit.works is False],
    )


USUAL = HangOptions()


def hang_plan(rig: Rig, options: HangOptions = USUAL) -> HangPlan:
    """Marks, loads, tails, cable, circuits, counts and what is left, for every position of a rig."""
    ask = rig.kept.ask
    connectors, tails, shared = tied(rig, options)
    runs = ask(cable_runs, shared, [c.place for c in connectors], options)
    rows = list(zip(connectors, tails, runs, turns(rig), strict=True))
    return HangPlan(
        positions=[
            ask(position_plan, name, [rows[k] for k in mine], key=name)
            for name, mine in rig.rows.items()
        ],
        circuits=ask(circuit_plans, runs, options),
        cables=ask(pull_list, shared, runs),
        counts=ask(counts, runs, options),
        cuts=ask(colour_cuts, options),
        left=ask(to_do),
        options=options,
    )
