"""Cable along a position: runs, which cable goes where, where it is doubled back, how many ties.

Lengths are metres; places are measured along the position as `at`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from math import ceil
from typing import NamedTuple


class Laid(NamedTuple):
    """How one cable lies: where it is doubled back, and how much of the position it covers.

    `folds` is false where the position has no room to double all of it back in one turn.
    """

    turn: float
    covers: float
    folds: bool


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
    turned there. Where neither side has the room, the turn is at the roomier end and `folds` is false.
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
    room = {low: min(outlet, connector) - low, high: high - max(outlet, connector)}
    end = max(room, key=lambda place: room[place])
    return Laid(end, straight + room[end], False)


def ties(covers: float, spacing: float) -> int:
    """The fewest ties with one at each end of what is covered and none farther apart than `spacing`."""
    if covers <= 0:
        return 1
    return ceil(covers / spacing - 1e-9) + 1
