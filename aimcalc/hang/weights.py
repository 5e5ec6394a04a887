"""What hangs on a position: the units, and what comes with them as far as its weight is typed.

A unit weighs what its kind says by itself; its clamp, its colour frame, its safety cable and its side arm are
added where their weights are typed, and named as left out where they are not. Cable is never counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, isfinite

from aimcalc.hang.tubes import span
from aimcalc.named import NamedTuple
from aimcalc.rig.rig import Rig
from aimcalc.scene.model import Kind, Pipe, Position, Unit

PARTS = ("clamps", "side arms", "colour frames", "safety cables")
PIPE = "the pipe"
CABLE = "cable"


class Counted(NamedTuple):
    """The weight of a position and of each of its units in hang order (None: the unit's is not typed).

    `counted` and `left_out` name what of the units' gear is in the sums and what is not; a part that is
    typed for some only is in both, with how many.
    """

    weight: float
    units: list[float | None]
    own: float | None
    counted: list[str]
    left_out: list[str]
    missing: list[str]


def counted(rig: Rig, position: Position, mine: Sequence[int]) -> Counted:
    """The weight of what hangs on a position, the position itself (a pipe) included."""
    own = _own_weight(position)
    gear = [_gear(rig.units[k], rig.kinds[k]) for k in mine]
    weights = [
        None if rig.kinds[k].weight is None else (rig.kinds[k].weight or 0.0) + _sum(parts)
        for k, parts in zip(mine, gear, strict=True)
    ]
    known, unknown = _named(gear)
    missing = [PIPE] if isinstance(position, Pipe) and own is None else []
    return Counted(
        weight=sum(w for w in weights if w is not None) + (own or 0.0),
        units=weights,
        own=own,
        counted=known,
        left_out=[*unknown, CABLE],
        missing=missing + [rig.names[k] for k in mine if rig.kinds[k].weight is None],
    )


def _own_weight(position: Position) -> float | None:
    """A pipe's own weight, from its weight per metre."""
    if not isinstance(position, Pipe) or position.pipe_weight is None:
        return None
    ends = span(position)
    return position.pipe_weight * abs(ends.end - ends.start) if ends else None


def _gear(unit: Unit, kind: Kind) -> dict[str, float | None]:
    """What a unit brings with it and what each weighs. A floor stand needs neither clamp nor safety."""
    parts: dict[str, float | None] = {}
    if unit.mount != "stand":
        parts |= {"clamps": kind.clamp_weight, "safety cables": kind.safety_weight}
    if unit.mount == "arm":
        parts["side arms"] = unit.arm_weight
    if unit.colour:
        parts["colour frames"] = kind.frame_weight
    return parts


def _sum(parts: dict[str, float | None]) -> float:
    return sum(weight for weight in parts.values() if weight is not None)


def _named(gear: Sequence[dict[str, float | None]]) -> tuple[list[str], list[str]]:
    """Names of the parts that are counted, and of those that are not."""
    known, unknown = [], []
    for part in PARTS:
        all_of = [parts[part] for parts in gear if part in parts]
        typed = sum(weight is not None for weight in all_of)
        if typed:
            known.append(part if typed == len(all_of) else f"{typed} of {len(all_of)} {part}")
        if typed < len(all_of):
            rest = len(all_of) - typed
            unknown.append(f"{rest} of {len(all_of)} {part}" if typed else part)
    return known, unknown


SHARE = 0.5  # of a row's own tolerance (common practice, no source)
# A hand sets a wedge to some 5 degrees (common practice, no source). A cut 3 degrees off makes that
# sqrt(5^2 + 3^2) = 5.8: still as rough, and the wedge reads as the row does. A swing under 5 degrees is
# nearer to square than a wedge is set.
MOST_OFF = 3.0  # degrees
LEAST = 5  # degrees, as printed
CLOSE = 1e-9  # degrees


class Wedge(NamedTuple):
    """One setting in whole degrees of pan, and the indices of the rows that it serves."""

    pan: float
    rows: tuple[int, ...]


class _Best(NamedTuple):
    """The best way to serve the first rows: how many wedges, how far off in all, where the last begins."""

    wedges: int
    off: float
    first: int
    pan: int


def whole(degrees: float) -> int:
    """The whole degree that a row prints, of an angle in degrees; a half counts as a whole one."""
    return floor(degrees + 0.5 + CLOSE)


def fewest_wedges(pans: Sequence[float], tolerances: Sequence[float]) -> list[Wedge]:
    """The fewest settings within half of each row's tolerance, never more than MOST_OFF off; degrees, rising.

    Of the ways to have so few, the one with the least sum of squared departures. A row whose half
    tolerance holds no whole degree keeps the one it prints. Rows without a pan (NaN: straight down, or no
    aim), and those that print less than LEAST, need no wedge.

    Rows are taken in order of pan and cut into runs. That loses nothing: given the settings, each row
    does no worse with the setting nearest to it, and then every setting serves a run. Settings are whole
    degrees, so that what is nearest changes at half degrees only: rows of one half degree go together,
    and however many rows there are, at most 180 such groups are cut.
    """
    groups = _groups(pans, tolerances)
    best = [_Best(0, 0.0, 0, 0)]
    for last in range(len(groups)):
        best.append(_best_ending(groups, best, last))
    wedges = []
    end = len(groups)
    while end:
        here = best[end]
        rows = [k for group in groups[here.first : end] for k in group.rows]
        wedges.append(Wedge(float(here.pan), tuple(sorted(rows))))
        end = here.first
    return wedges[::-1]


class _Group(NamedTuple):
    """Rows of one half degree: sum and sum of squares of their pans, and the settings that serve them all."""

    rows: list[int]
    total: float
    squares: float
    low: int
    high: int


def _groups(pans: Sequence[float], tolerances: Sequence[float]) -> list[_Group]:
    """Rows that need a wedge, by half degree, rising. The whole degree nearest to a group serves it all."""
    halves: dict[int, list[int]] = {}
    for k, pan in enumerate(pans):
        if isfinite(pan) and whole(pan) >= LEAST:
            halves.setdefault(floor(2 * (pan + CLOSE)), []).append(k)
    groups = []
    for _, rows in sorted(halves.items()):
        spans = [_whole_degrees(pans[k], min(SHARE * tolerances[k], MOST_OFF)) for k in rows]
        low, high = max(low for low, _ in spans), min(high for _, high in spans)
        mine = [pans[k] for k in rows]
        groups.append(_Group(rows, sum(mine), sum(pan * pan for pan in mine), low, high))
    return groups


def _best_ending(groups: Sequence[_Group], best: Sequence[_Best], last: int) -> _Best:
    """The best way to serve groups up to `last`: every run that can end there behind the best before it."""
    low, high = groups[last].low, groups[last].high
    total = squares = 0.0
    count = 0
    found: _Best | None = None
    for first in range(last, -1, -1):
        group = groups[first]
        low, high = max(low, group.low), min(high, group.high)
        if low > high:
            break
        total, squares = total + group.total, squares + group.squares
        count += len(group.rows)
        setting = min(max(whole(total / count), low), high)
        off = squares - 2 * setting * total + count * setting**2
        before = best[first]
        wedges, off = before.wedges + 1, before.off + off
        if found is None or (wedges, off) < found[:2]:
            found = _Best(wedges, off, first, setting)
    assert found is not None  # a group serves itself
    return found


def _whole_degrees(pan: float, within: float) -> tuple[int, int]:
    """The least and the most whole degree within some of a pan; where there is none, what it prints."""
    low, high = ceil(pan - within - CLOSE), floor(pan + within + CLOSE)
    return (low, high) if low <= high else (whole(pan), whole(pan))
