"""Every sort of question that a drill asks, in the order of a worksheet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.teach.aim_questions import down, lands, pool, sight, square
from aimcalc.teach.pipe_questions import mark, plot, reach, tie_side, turn_back, way_up, weigh
from aimcalc.teach.question import LANDING, SAFE, TAIL, UPRIGHT, Asked, Question

if TYPE_CHECKING:
    from aimcalc.show import Show


class Sort(NamedTuple):
    """A sort of question: what makes it, what it is marked under, from which level on it is asked."""

    make: Callable[[Asked], Question | None]
    group: str
    level: int


SORTS = {  # in the order of a worksheet: safe, upright, tail, landing
    "weigh": Sort(weigh, SAFE, 1),
    "way up": Sort(way_up, UPRIGHT, 1),
    "tie side": Sort(tie_side, TAIL, 2),
    "reach": Sort(reach, TAIL, 2),
    "turn back": Sort(turn_back, TAIL, 3),
    "plot": Sort(plot, LANDING, 1),
    "mark": Sort(mark, LANDING, 1),
    "square": Sort(square, LANDING, 1),
    "sight": Sort(sight, LANDING, 2),
    "down": Sort(down, LANDING, 2),
    "lands": Sort(lands, LANDING, 2),
    "pool": Sort(pool, LANDING, 3),
}
LEVELS = (1, 2, 3)


def questions_of(show: Show, sort: str) -> Iterator[Question]:
    """Every question of a sort that a show offers, in the order of its ladder."""
    rig = show.rig
    for position in show.hang.positions:
        for k, unit in zip(rig.rows[position.position], position.units, strict=True):
            made = SORTS[sort].make(Asked(show, k, position, unit))
            if made is not None:
                yield made._replace(group=SORTS[sort].group)
