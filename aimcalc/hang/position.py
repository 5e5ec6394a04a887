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
from aimcalc.hang.ties import known
from aimcalc.hang.tubes import Span, span
from aimcalc.hang.weights import counted, fewest_wedges
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


Row = tuple[Connector, Tail, CableRun]


def position_plan(rig: Rig, name: str, rows: list[Row]) -> PositionPlan:
    """What is told about one position; `rows` has one entry for each unit of the rig."""
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
        wedges=_wedges(rig, position, mine),
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


def _wedges(rig: Rig, position: Position, mine: list[int]) -> list[WedgePlan]:
    """The fewest wedges to cut for a pipe, each told once for every square side and swing that it serves.

    Turned over, a wedge serves the other swing: only the size of a pan counts. A unit that stands square
    needs none, nor one that points straight down or up, nor one whose stem leans: the dial sets its turn. A
    boom's turns are set from the world, not from a tube.
    """
    if not isinstance(position, Pipe):
        return []
    turned = (rig.aims.attitude[mine] != PLUMB) & (np.abs(rig.arrays.stem[2, mine]) >= LEANS)
    pans = to_degrees(np.where(turned, rig.aims.pan[mine], np.nan)).tolist()
    tolerances = to_degrees(rig.tolerances.pan[mine]).tolist()
    ways = {i: way for i, way in enumerate(_turn_words(rig, mine)) if way and isfinite(pans[i])}
    rows = list(ways)
    plans = []
    for wedge in fewest_wedges([pans[i] for i in rows], [tolerances[i] for i in rows]):
        served: dict[tuple[str, str], list[str]] = {}
        for i in (rows[j] for j in wedge.rows):
            served.setdefault(ways[i], []).append(rig.names[mine[i]])
        plans += [WedgePlan(*way, wedge.pan, units) for way, units in served.items()]
    return plans


def _turn_words(rig: Rig, mine: list[int]) -> list[tuple[str, str] | None]:
    """Square side and swing word of some units; None where a unit stands square."""
    square_sign, swing_sign = rig.aims.square_sign[mine], rig.aims.swing_sign[mine]
    square = np.where(square_sign < 0, rig.words.square[mine] ^ 1, rig.words.square[mine])
    swing = np.where(swing_sign < 0, rig.words.swing[mine] ^ 1, rig.words.swing[mine])
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
    told = zip(befores, mine, weights, strict=False)
    return [_unit(rig, before, k, weight, ends, rows[k]) for before, k, weight in told]


def _unit(
    rig: Rig, before: int | None, k: int, weight: float | None, ends: Span | None, row: Row
) -> UnitPlan:
    unit = rig.units[k]
    start, end = None, None
    if ends is not None and unit.at is not None:
        start, end = from_ends(unit.at, ends.start, ends.end)
    connector, tail, cable = row
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
    return known(float(np.maximum(_radius(rig, before), _radius(rig, k))))


def _radius(rig: Rig, k: int) -> float:
    kind = rig.kinds[k]
    return swept_radius(
        length=kind.length, width=kind.width, nose=kind.nose, ahead=kind.top_hat or 0.0
    )
