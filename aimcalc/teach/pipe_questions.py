"""Questions of the work at the pipe: what it carries, which way up, tail and cable, marks, the plot."""

from __future__ import annotations

from aimcalc.rig.wording import along as place_along
from aimcalc.rig.wording import weight as weight_of
from aimcalc.teach.question import (
    NEAR,
    OPPOSITE,
    SAME_SPOT,
    Asked,
    Mistake,
    Question,
    in_feet,
    posed,
)
from aimcalc.text.rows import along, zero_words

ATTITUDES = ("upright", "on its side", "upside down")


def weigh(one: Asked) -> Question | None:
    """What the units of a position weigh together; asked of its first unit."""
    units = one.position.units
    if units[0] is not one.plan or len(units) < 2 or any(u.weight is None for u in units):
        return None
    each: dict[tuple[str, float], int] = {}
    for u in units:
        key = u.kind, round(u.weight or 0.0, 6)
        each[key] = each.get(key, 0) + 1
    told = ", ".join(f"{n} {kind} of {weight_of(kg, one.unit)}" for (kind, kg), n in each.items())
    total = sum(u.weight or 0.0 for u in units)
    wrong = [Mistake("one of each sort", sum(kg for _, kg in each))]
    if one.position.own_weight:
        wrong.append(Mistake("the pipe as well", total + one.position.own_weight))
    return posed(
        one,
        "weigh",
        f"{one.position.position} carries {told}, with what they hang by. What do its units weigh together?",
        total,
        wrong,
        form="weight",
        subject=one.position.position,
    )


def way_up(one: Asked) -> Question | None:
    """How a body ends as it is hung and aimed."""
    answer = one.answer
    if answer.attitude not in ATTITUDES:
        return None
    hung = {"out": "swung out", "arm": "on a side arm", "direct": "direct", "stand": "on a stand"}
    tipped = "level" if answer.down is None else f"{abs(answer.down):.0f}° {_way(answer.down)}"
    return posed(
        one,
        "way up",
        f"{one.called}: it hangs {hung.get(answer.mount, answer.mount)} and is aimed {tipped}. Does its body "
        "end upright, on its side or upside down?",
        answer.attitude,
        [Mistake("wrong way up", other) for other in ATTITUDES if other != answer.attitude],
        choices=ATTITUDES,
    )


def _way(down_deg: float) -> str:
    return "up" if down_deg < 0 else "down"


def tie_side(one: Asked) -> Question | None:
    """To which side of the clamp the tail reaches farther."""
    link, answer, pipe = one.plan.connector, one.answer, one.pipe
    if pipe is None or link.side not in OPPOSITE or link.furthest is None or link.other is None:
        return None
    if link.furthest - link.other < 2 * NEAR["reach"] or not answer.pan or answer.pan < 5:
        return None
    return posed(
        one,
        "tie side",
        f"{one.called}: square is {answer.square}, it swings {answer.pan:.0f}° {answer.swing} and its tail "
        "leaves the back. With the loop left for every turn, to which side of the clamp does the tail reach "
        "farther?",
        link.side,
        [Mistake("wrong side", OPPOSITE[link.side])],
        choices=along(pipe),
    )


def reach(one: Asked) -> Question | None:
    """What is left of a tail at the worst of its swing."""
    tail, whole = one.plan.tail, one.show.rig.kinds[one.k].tail
    if tail.worst is None or tail.usable is None or whole is None or tail.usable <= tail.worst:
        return None
    kept = whole - tail.usable
    return posed(
        one,
        "reach",
        f"{one.called}: its tail is {one.size(whole)} long, {one.size(kept)} of it go for tie and bend. At "
        f"the worst of its swing the straight way to its connector is {one.size(tail.worst)}. How much of "
        "the tail is left then?",
        tail.usable - tail.worst,
        [
            Mistake("tie and bend left out", whole - tail.worst),
            Mistake("tie and bend alone taken off", tail.usable),
        ],
        form="length",
    )


def turn_back(one: Asked) -> Question | None:
    """Where a cable that is too long turns back."""
    cable, pipe, link = one.plan.cable, one.pipe, one.plan.connector
    if pipe is None or cable.double_back is None or not cable.folds or one.plan.at is None:
        return None
    if cable.outlet is None or cable.stock is None or cable.with_unit or link.place is None:
        return None
    ends = one.plan.at + link.place
    turn, sides = cable.double_back, along(pipe)
    laid = abs(turn - cable.outlet) + abs(turn - ends)
    past = turn - ends
    if one.plan.mount == "arm" or past * (ends - cable.outlet) <= 0:
        return None  # it is doubled on the far side of the outlet: another exercise
    return posed(
        one,
        "turn back",
        f"{one.called}: the outlet is at {place_along(cable.outlet, sides, one.unit)}, the connector at "
        f"{place_along(ends, sides, one.unit)}. The cable is {one.size(cable.stock)} long, "
        f"{one.size(cable.stock - laid)} of it stays at the unit. It runs on past the connector and comes "
        "back. Where does it turn?",
        turn,
        [
            Mistake("mirrored", -turn),
            Mistake("all that is over, not half of it", ends + 2 * past),
            Mistake("wrong side", ends - past),
            *in_feet(turn),
        ],
        form="place",
        sides=sides,
    )


def plot(one: Asked) -> Question | None:
    """Which unit hangs at a place: the plot read the right way round."""
    pipe, at = one.pipe, one.plan.at
    if pipe is None or at is None:
        return None
    others = {u.number: u.at for u in one.position.units if u.at is not None}
    if sum(abs(there - at) < SAME_SPOT / 4 for there in others.values()) > 1:
        return None
    names = [u.number for u in one.position.units]
    counted = names[len(names) - 1 - names.index(one.plan.number)]
    where = place_along(at, along(pipe), one.unit)
    return posed(
        one,
        "plot",
        f"On the plot: which unit of {one.position.position} hangs at {where}, "
        f"counted from the {zero_words(pipe)}?",
        one.plan.number,
        [
            Mistake("mirrored", _there(others, -at, SAME_SPOT / 4)),
            Mistake("wrong end", counted),
        ],
    )


def _there(places: dict[str, float], at: float, within: float) -> str:
    """The number of the unit that hangs at a place, "" for none."""
    near = [number for number, there in places.items() if abs(there - at) < within]
    return near[0] if near else ""


def mark(one: Asked) -> Question | None:
    """How far from the end where the marks begin a clamp's mark is."""
    pipe, at = one.pipe, one.plan.at
    start, end = one.position.start, one.position.end
    if pipe is None or at is None or start is None or end is None:
        return None
    sides = along(pipe)
    first, last = (place_along(end_at, sides, one.unit) for end_at in (start, end))
    return posed(
        one,
        "mark",
        f"{one.position.position} runs from {first} to {last} and is marked from its "
        f"{one.position.start_word.replace('END', 'end')}. Unit {one.plan.number} hangs at "
        f"{place_along(at, sides, one.unit)}. How far from that end is its mark?",
        abs(at - start),
        [
            Mistake("wrong end", abs(end - at)),
            Mistake("mirrored", abs(-at - start)),
            *in_feet(abs(at - start)),
        ],
        form="length",
    )
