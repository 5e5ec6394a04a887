"""One position at a time: its marks, its weight, its lines and its wedges."""

from __future__ import annotations

from math import hypot, isfinite, nan

import numpy as np

from aimcalc.geometry.aim import PLUMB
from aimcalc.geometry.vectors import to_degrees
from aimcalc.hang.beams import Load, Shares, line_loads
from aimcalc.hang.records import (
    ByForearm,
    CableRun,
    Connector,
    LineLoad,
    PositionPlan,
    Tail,
    UnitPlan,
    WedgePlan,
)
from aimcalc.hang.tubes import Span, span
from aimcalc.hang.weights import counted, fewest_wedges
from aimcalc.named import NamedTuple
from aimcalc.rig.places import LEANS, WORDS
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Pipe, Position

USUAL_SPACING = 0.4572  # 18 in / 46 cm, common practice, no source

# Elbow to fingertip of men and of women: mean, 5th and 95th percentile. C. C. Gordon et al., 2012
# Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007 (2014), forearm-hand length.
FOREARMS = {"men": (0.48021, 0.444, 0.520), "women": (0.43986, 0.404, 0.480)}


def from_ends(at: float, start: float, end: float) -> tuple[float, float]:
    """Distances of a mark from the start and the end of its pipe, all metres; negative beyond that end."""
    sense = 1.0 if end >= start else -1.0
    return sense * (at - start), sense * (end - at)


def swept_radius(
    *, length: float | None, width: float | None, nose: float, ahead: float = 0.0
) -> float:
    """Radius of the circle that a level body sweeps about its stem, seen from above.

    The body reaches `nose` (and a top hat of `ahead`) in front of its pivot and the rest of `length` behind
    it. NaN where length or width is not known.
    """
    if length is None or width is None:
        return nan
    return hypot(max(nose + ahead, length - nose), width / 2)


def by_forearm(row: float) -> ByForearm:
    """What stepping out a row of length `row` by forearm, taken as USUAL_SPACING each, would get wrong.

    Means of men and women, and the shortest and longest forearm between the women's 5th and the men's
    95th percentile.
    """
    count = row / USUAL_SPACING
    men, women = FOREARMS["men"], FOREARMS["women"]
    off = [count * (arm - USUAL_SPACING) for arm in (men[0], women[0], women[1], men[2])]
    return ByForearm(row, *off)


class Turn(NamedTuple):
    """Which way a unit on a pipe is turned, square side and swing, by what pan, and how far off that may be.

    Degrees; no way for one that stands square, and no pan (NaN) for one that no wedge sets.
    """

    way: tuple[str, str] | None
    pan: float
    tolerance: float


def turns(rig: Rig) -> list[Turn]:
    """The turns of all units, in hang order.

    A unit that points straight down or up needs no wedge, nor one whose stem leans: the dial sets its turn.
    """
    turned = (rig.aims.attitude != PLUMB) & (np.abs(rig.arrays.stem[2]) >= LEANS)
    pans = to_degrees(np.where(turned, rig.aims.pan, np.nan)).tolist()
    rows = zip(_turn_words(rig), pans, to_degrees(rig.tolerances.pan).tolist(), strict=True)
    return [Turn(*row) for row in rows]


Row = tuple[Connector, Tail, CableRun, Turn]


def position_plan(rig: Rig, name: str, rows: list[Row]) -> PositionPlan:
    """What is told about one position; `rows` has one entry for each of its units, all that hangs on aims."""
    position, mine = rig.scene.positions[name], rig.rows[name]
    ends = span(position)
    carried = counted(rig, position, mine)
    shares = _shares(rig, position, mine, carried.units, ends)
    return PositionPlan(
        position=name,
        sort=type(position).__name__.lower(),
        weight=carried.weight,
        own_weight=carried.own,
        counted=carried.counted,
        left_out=carried.left_out,
        rating=position.rating if isinstance(position, Pipe) else None,
        missing=carried.missing,
        shared=shares.how,
        lines=_lines(position, shares),
        start=ends.start if ends else None,
        end=ends.end if ends else None,
        start_word=ends.start_word if ends else "",
        end_word=ends.end_word if ends else "",
        clamp_opens=position.clamp_opens if isinstance(position, Pipe) else None,
        by_forearm=_forearm(rig, mine),
        wedges=_wedges(rig, position, mine, [row[3] for row in rows]),
        units=_units(rig, mine, carried.units, ends, rows),
    )


def _shares(
    rig: Rig,
    position: Position,
    mine: list[int],
    weights: list[float | None],
    ends: Span | None,
) -> Shares:
    if not isinstance(position, Pipe) or ends is None:
        return line_loads([], Load([], []))
    if position.through is not None:  # it also twists, which no beam says
        return line_loads([], Load([], []))._replace(how="curved")
    load = Load(
        at=[rig.units[k].at or 0.0 for k in mine],
        weight=[weight or 0.0 for weight in weights],
        start=ends.start,
        end=ends.end,
        per_length=position.pipe_weight or 0.0,
    )
    return line_loads(position.lines, load)


def _lines(position: Position, shares: Shares) -> list[LineLoad]:
    straight = isinstance(position, Pipe) and position.through is None
    places = position.lines if isinstance(position, Pipe) and straight else ()
    rows = zip(places, shares.load.tolist(), shares.slack.tolist(), strict=True)
    return [LineLoad(at, load, slack) for at, load, slack in rows]


def _forearm(rig: Rig, mine: list[int]) -> ByForearm | None:
    """What stepping out the row by forearm would get wrong; None where there is nothing to step out."""
    places = [rig.units[k].at for k in mine]
    known_places = [at for at in places if at is not None]
    if len(known_places) < 3:
        return None
    return by_forearm(max(known_places) - min(known_places))


def _wedges(rig: Rig, position: Position, mine: list[int], turned: list[Turn]) -> list[WedgePlan]:
    """The fewest wedges to cut for a pipe, each told once for every square side and swing that it serves.

    Turned over, a wedge serves the other swing: only the size of a pan counts. A boom's turns are set from
    the world, not from a tube.
    """
    if not isinstance(position, Pipe):
        return []
    ways = {i: turn.way for i, turn in enumerate(turned) if turn.way and isfinite(turn.pan)}
    rows = list(ways)
    plans = []
    for wedge in fewest_wedges([turned[i].pan for i in rows], [turned[i].tolerance for i in rows]):
        served: dict[tuple[str, str], list[str]] = {}
        for i in (rows[j] for j in wedge.rows):
            served.setdefault(ways[i], []).append(rig.names[mine[i]])
        plans += [WedgePlan(*way, wedge.pan, units) for way, units in served.items()]
    return plans


def _turn_words(rig: Rig) -> list[tuple[str, str] | None]:
    """Square side and swing word of all units; None where a unit stands square."""
    square_sign, swing_sign = rig.aims.square_sign, rig.aims.swing_sign
    square = np.where(square_sign < 0, rig.words.square ^ 1, rig.words.square)
    swing = np.where(swing_sign < 0, rig.words.swing ^ 1, rig.words.swing)
    rows = zip(square.tolist(), swing.tolist(), swing_sign.tolist(), strict=True)
    return [(WORDS[a], WORDS[b]) if sign else None for a, b, sign in rows]


def _units(
    rig: Rig,
    mine: list[int],
    weights: list[float | None],
    ends: Span | None,
    rows: list[Row],
) -> list[UnitPlan]:
    befores: list[int | None] = [None, *mine]
    told = zip(befores, mine, weights, rows, strict=False)
    return [_unit(rig, before, k, weight, ends, row) for before, k, weight, row in told]


def _unit(
    rig: Rig, before: int | None, k: int, weight: float | None, ends: Span | None, row: Row
) -> UnitPlan:
    unit = rig.units[k]
    start, end = None, None
    if ends is not None and unit.at is not None:
        start, end = from_ends(unit.at, ends.start, ends.end)
    connector, tail, cable, _ = row
    return UnitPlan(
        unit=rig.names[k],
        number=unit.number,
        kind=unit.kind,
        mount=unit.mount,
        at=unit.at,
        from_start=start,
        from_end=end,
        spacing=_spacing(rig, before, k),
        envelope=_envelope(rig, before, k),
        weight=weight,
        circuit=unit.circuit,
        connector=connector,
        tail=tail,
        cable=cable,
    )


def _spacing(rig: Rig, before: int | None, k: int) -> float | None:
    if before is None:
        return None
    one, two = rig.units[before].at, rig.units[k].at
    return None if one is None or two is None else abs(two - one)


def _envelope(rig: Rig, before: int | None, k: int) -> float | None:
    if before is None:
        return None
    one, other = _radius(rig, before), _radius(rig, k)
    return max(one, other) if isfinite(one + other) else None


def _radius(rig: Rig, k: int) -> float:
    kind = rig.kinds[k]
    return swept_radius(
        length=kind.length, width=kind.width, nose=kind.nose, ahead=kind.top_hat or 0.0
    )
