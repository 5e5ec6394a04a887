"""How far off its trim a pipe may hang, in a line or two for whoever sets it."""

from __future__ import annotations

from math import floor
from typing import TYPE_CHECKING

from aimcalc.landings.trims import REACH, Trims
from aimcalc.scene.model import Pipe
from aimcalc.text import words as w

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig

STEP = w.Step(0.01, 1.0)  # what a trim is told to, inwards: never farther than it may be
EDGE = 1e-6  # of a step
SLANTED = 0.5  # m from end to end: nobody leaves a pipe farther out of level (our choice)


def trims_line(rig: SolidRig, trims: Trims, length: w.LengthUnit) -> str:
    """ "TRIM, by the light alone: units hit untouched from 5.62 m to 6.35 m (7 misses first); ..." """
    pipe = rig.scene.positions[trims.pipe]
    assert isinstance(pipe, Pipe)
    first = list(dict.fromkeys(rig.number(name) for name in trims.first))
    told = f"{' and '.join(first)} {'miss' if len(first) > 1 else 'misses'} first"
    untouched = f"units hit untouched {_span(pipe, trims.lower, trims.higher, length)} ({told})"
    if min(trims.lower, trims.higher) <= 0:
        untouched = f"untouched, no other trim will do ({told})"
    tipped = _span(pipe, trims.lower_tipped, trims.higher_tipped, length)
    level = w.length(_inwards(min(trims.level, SLANTED), length), length, STEP)
    more = " or more" if trims.level >= SLANTED else ""
    return (
        f"TRIM, by the light alone: {untouched}; re-tilted, {tipped}; out of level, one end up to "
        f"{level}{more} over the other."
    )


def trims_json(trims: Trims) -> dict[str, object]:
    """The same as JSON tells it, metres: how far lower and higher; None where there is no limit in reach."""
    told: dict[str, object] = {
        key: None if isinstance(value, float) and value >= REACH else value
        for key, value in trims._asdict().items()
        if key != "first"
    }
    return {**told, "misses_first_lower": trims.first[0], "misses_first_higher": trims.first[1]}


def _span(pipe: Pipe, lower: float, higher: float, length: w.LengthUnit) -> str:
    """A range of trims: "from 5.62 m to 6.35 m"; of a pipe that slopes, how far lower and higher."""
    down, up = (_inwards(size, length) for size in (lower, higher))
    if min(lower, higher) >= REACH:
        return f"{w.length(down, length, STEP)} or more, lower or higher"
    if pipe.start[2] != pipe.end[2]:
        low, high = (w.length(size, length, STEP) for size in (down, up))
        return f"from {low} lower to {high} higher"
    size = STEP.size(length)
    lowest = -_inwards(-(pipe.start[2] - lower), length) if lower else pipe.start[2]
    highest = floor((pipe.start[2] + higher) / size + EDGE) * size
    return f"from {w.length(lowest, length, STEP)} to {w.length(highest, length, STEP)}"


def _inwards(size: float, length: w.LengthUnit) -> float:
    """A length in whole steps, down."""
    step = STEP.size(length)
    return floor(size / step + EDGE) * step
