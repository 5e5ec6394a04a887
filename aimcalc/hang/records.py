"""What is told about the work at the pipe: the records behind `aimcalc hang --json` and its sheets.

Lengths are metres, weights kilograms, angles degrees, loads watts and amperes. Places along a position
are measured as `at`: + towards the SL or US end of a pipe, upwards on a boom. What does not exist or is
not known is None, and never stands for nothing. The field names are the public JSON keys.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from aimcalc.named import NamedTuple

ARTICLE = "NFPA 70 210.19(A)(1) and 210.20(A)"
ARTICLE_SHARE = 1 / 1.25  # of a limit: what ARTICLE leaves to a continuous load
LONG_DROP = 0.03  # of the volts; a figure commonly advised for a branch circuit, from memory
FEET = 0.3048
WARM = 75  # °C, of every conductor here: a loaded cable is warm, and the drop errs towards too much
ALPHA = 0.00393  # per °C at 20 °C: annealed copper (IEC 60028, from memory)
WARMER = 1 + ALPHA * (WARM - 20)  # resistance at WARM over that at 20 °C

# Ohms per metre of one conductor at WARM. AWG: copper, uncoated, stranded, at 75 °C: NFPA 70 ch. 9 Table 8.
# mm2: flexible (class 5) plain copper, the most allowed at 20 °C (IEC 60228:2004), warmed.
CONDUCTORS = {
    "14 AWG": 3.14 / (1000 * FEET),
    "12 AWG": 1.98 / (1000 * FEET),
    "10 AWG": 1.24 / (1000 * FEET),
    "1.5 mm2": 13.3e-3 * WARMER,
    "2.5 mm2": 7.98e-3 * WARMER,
    "4 mm2": 4.95e-3 * WARMER,
    "6 mm2": 3.30e-3 * WARMER,
}


class Posted(NamedTuple):
    """A limit that was typed for a circuit; `unit` is "A" or "W"."""

    value: float
    unit: str


def amps(watts: float, volts: float | None) -> float | None:
    """Current of a resistive load, amperes; None where the volts are not known."""
    return watts / volts if volts else None


def used(watts: float, limit: Posted | None, volts: float | None) -> float | None:
    """Share of the limit that a load takes: 1 is all of it.

    A limit in amperes needs the volts. None where there is no limit or no way to compare; infinite for
    any load on a limit of nothing.
    """
    if limit is None:
        return None
    load = amps(watts, volts) if limit.unit == "A" else watts
    if load is None:
        return None
    if limit.value == 0:
        return float("inf") if load > 0 else 0.0
    return load / limit.value


def voltage_drop(length_m: float, ohms_per_metre: float, current: float) -> float:
    """Volts lost along a run out and back: 2 L R I. Metres, ohms per metre of one conductor, amperes."""
    return 2 * length_m * ohms_per_metre * current


class HangOptions(msgspec.Struct, frozen=True, kw_only=True):
    """Habits of the work at the pipe, as the JSON tells them. None of them is a rating.

    `allowance` of the tail goes for tie and bend; `focus_extra` (degrees) widens the focus swing past the
    targets of a unit's system; a connector is tied at `tie_at` from the clamp where the scene says nothing
    and it reaches (9 to 12 in, common practice, no source); `cable_extra` is kept at the unit; ties are no
    farther apart than `tie_spacing`; `spare` is a share, rounded up. `conductor` is one of
    CONDUCTORS; None takes 12 AWG or 2.5 mm2 by the scene's unit.
    """

    allowance: float = 0.15
    focus_extra: float = 15.0
    tie_at: float = 0.25
    cable_extra: float = 0.3
    tie_spacing: float = 0.6
    spare: float = 0.1
    conductor: str | None = None


class Connector(msgspec.Struct, frozen=True):
    """Where the tail's connector is tied.

    `side` of the clamp reaches farther, up to `furthest` from it, with the loop left for every pose (None:
    no place does, or the tail is not known); `other` is how far the other side goes. `place` is where it
    is taken to be tied, from the clamp and signed as `at`: what the scene says (`typed`), or what suits.
    """

    side: str | None
    furthest: float | None
    other: float | None
    place: float | None
    typed: bool


class Tail(msgspec.Struct, frozen=True):
    """Straight distances from the tail's exit to the connector at its `place`, against what is usable.

    `aim` is at the aim; `worst` over the turn from square to the aim, at the aim's own down; `tipping` also
    while the lens is brought down from level; `focus` over the declared focus swing.
    """

    worst: float | None
    usable: float | None
    aim: float | None
    tipping: float | None
    focus: float | None


class CableRun(msgspec.Struct, frozen=True):
    """The cable of one unit. `with_unit` names the unit whose cable and twofer serve this one too.

    `run` is from the outlet along the position to the unit's clamp (an arm's length included), `need` what
    the cable must measure at least, `stock` the cable given out, `extra` what of it (of the need, where none
    is given out) is left over beyond the straight way, what is kept at the unit included, `double_back`
    where it turns and `covers` how much of the position it lies along; `folds` is False where one turn has no
    room, and `fold_again` where it then turns once more (None where two turns do not take it up). `plugs_in`
    says that the connector is at the outlet itself, and no cable is needed (`need` 0).
    """

    outlet: float | None
    run: float | None
    need: float | None
    stock: float | None
    extra: float | None
    double_back: float | None
    covers: float | None
    folds: bool | None
    ties: int | None
    with_unit: str | None
    plugs_in: bool
    fold_again: float | None = None


class UnitPlan(msgspec.Struct, frozen=True):
    """One unit at the pipe. `spacing` is from the unit before it in ladder order, clamp to clamp.

    `envelope` is the larger of the circles that this body and the one before it sweep. `weight` is the unit
    with what is typed of its gear.
    """

    unit: str
    number: str
    kind: str
    mount: str
    at: float | None
    from_start: float | None
    from_end: float | None
    spacing: float | None
    envelope: float | None
    weight: float | None
    circuit: str | None
    connector: Connector
    tail: Tail
    cable: CableRun

    @property
    def folds_away(self) -> bool:
        """Whether its cable first runs from the outlet away from the unit, and is laid back from there."""
        outlet, fold = self.cable.outlet, self.cable.double_back
        if outlet is None or fold is None or self.at is None:
            return False
        return (fold - outlet) * (self.at - outlet) < 0.0


class LineLoad(msgspec.Struct, frozen=True):
    """One lift line and what it carries, in kilograms."""

    at: float
    load: float
    slack: bool


class WedgePlan(msgspec.Struct, frozen=True):
    """A wedge laid one way, and the units it serves so. One `pan` of a position is one wedge to cut."""

    square: str
    swing: str
    pan: float
    units: list[str]


class ByForearm(msgspec.Struct, frozen=True):
    """How far off the far clamp of a row lands when spacing is stepped out by forearm; + too far."""

    row: float
    men: float
    women: float
    shortest: float
    longest: float


class PositionPlan(msgspec.Struct, frozen=True):
    """One position. `weight` sums what is known; `missing` names what weighs something not typed.

    `counted` names the gear (clamps, side arms, colour frames, safety cables) whose weight is in the sums,
    `left_out` what is not.

    `sort` is pipe, boom or stand; `start` and `end` are the places of its ends, `start_word` and `end_word`
    what they are called. `shared` says how the lines carry the load (`beams.Shares.how`).
    """

    position: str
    sort: str
    weight: float
    own_weight: float | None
    counted: list[str]
    left_out: list[str]
    rating: float | None
    missing: list[str]
    shared: str
    lines: list[LineLoad]
    start: float | None
    end: float | None
    start_word: str
    end_word: str
    clamp_opens: str | None
    by_forearm: ByForearm | None
    wedges: list[WedgePlan]
    units: list[UnitPlan]


class CircuitPlan(msgspec.Struct, frozen=True):
    """One circuit. `limit` is in `limit_unit` ("A" or "W"), as typed; `used` is its share that is taken.

    `missing` names the units whose watts are not typed: they are not in `watts`.
    """

    circuit: str
    watts: float
    amps: float | None
    limit: float | None
    limit_unit: str | None
    used: float | None
    drop: float | None
    positions: list[str]
    units: list[str]
    missing: list[str]


class PullCable(msgspec.Struct, frozen=True):
    """One cable, in the order of laying: position by position, the longest way first.

    `plug` is what its outlet takes.
    """

    position: str
    circuit: str
    units: list[str]
    stock: float | None
    need: float
    plug: str | None = None


STORE = (  # sorts of items, in the order in which a store is walked
    "unit",
    "clamp",
    "safety cable",
    "side arm",
    "colour frame",
    "colour",
    "pattern holder",
    "top hat",
    "twofer",
    "cable",
    "tie",
)


class Pull(msgspec.Struct, frozen=True):
    """So many of one item for one position, or for the whole rig with spare (`position` None).

    `item` is the words for it, `sort` one of STORE, `name` which of its sort: a kind, a colour, a frame's
    size, a cable's length and plug. `owned` is how many the store lists, None where it lists none; `spare`
    never goes past it.
    """

    position: str | None
    item: str
    count: int
    spare: int
    owned: int | None = None
    sort: str = ""
    name: str = ""

    @property
    def take(self) -> int:
        """What leaves the store: never more than it has."""
        wanted = self.count + self.spare
        return wanted if self.owned is None else min(wanted, self.owned)

    @property
    def short(self) -> int:
        """How many are needed that the store does not have."""
        return self.count - min(self.count, self.take)


class ColourCut(msgspec.Struct, frozen=True):
    """So many pieces of one colour for frames of one size: `frame` as typed, or the kind's name."""

    frame: str
    colour: str
    count: int
    spare: int


class ToDo(msgspec.Struct, frozen=True):
    """What the crew has reported so far, as unit names: the test sheet typed back."""

    hung: list[str]
    to_hang: list[str]
    to_test: list[str]
    failed: list[str]


class HangPlan(msgspec.Struct, frozen=True):
    """All of it."""

    positions: list[PositionPlan]
    circuits: list[CircuitPlan]
    cables: list[PullCable]
    counts: list[Pull]
    cuts: list[ColourCut]
    left: ToDo
    options: HangOptions


def stabbed(intervals: Sequence[tuple[float, float]]) -> list[list[int]]:
    """Indices in the fewest groups such that the intervals of each group have a point in common.

    Greedy by upper end, and exact: the interval that ends first must be touched by some point, and no
    point serves the rest better than its upper end; what that point touches is one group, and the same
    holds for what is left. Groups come in rising order; an interval goes to the first that serves it.
    """
    order = sorted(range(len(intervals)), key=lambda k: intervals[k][1])
    groups: list[list[int]] = []
    point = float("-inf")
    for k in order:
        low, high = intervals[k]
        if groups and low <= point:
            groups[-1].append(k)
        else:
            groups.append([k])
            point = high
    return [sorted(group) for group in groups]
