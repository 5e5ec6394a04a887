"""Groups, and who does which job when: everyone does each job, and each job always has one who does it."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.named import NamedTuple

LEAST, MOST = 4, 40  # people of a class
JOBS = ("ladder", "foot", "deck mark", "sheet")
WATCH = "next up"
DOES = {
    "ladder": "hands at the unit: clamp, safety cable, point, lock, tie",
    "foot": "foots the ladder, hands up and takes down, calls what moves",
    "deck mark": "tapes, spots, the hand to sight at, where the light lands",
    "sheet": "reads the figures out, hears them back, ticks, writes the log",
    WATCH: "stands clear, reads the next row, says STOP when something looks wrong",
}


class Rota(NamedTuple):
    """One group: its members by number, and for each round the job of each of them, in their order."""

    members: tuple[int, ...]
    rounds: tuple[tuple[str, ...], ...]


def groups_of(count: int) -> list[int]:
    """The sizes of the groups of a class: fours, and what is left over spread on them."""
    groups = max(1, count // len(JOBS))
    size, over = divmod(count, groups)
    return [size + (k < over) for k in range(groups)]


def rota(order: Sequence[int]) -> list[Rota]:
    """A rota for the people of a class, `LEAST` to `MOST` of them, in the order in which they are given.

    As many rounds as a group has members: in round r member m has job m + r, counted round. Raises
    ValueError for a class that is smaller or larger.
    """
    if not LEAST <= len(order) <= MOST:
        raise ValueError(f"expected a class of {LEAST} to {MOST}, got {len(order)}")
    found, first = [], 0
    for size in groups_of(len(order)):
        jobs = (*JOBS, *[WATCH] * (size - len(JOBS)))
        rounds = tuple(tuple(jobs[(m + r) % size] for m in range(size)) for r in range(size))
        found.append(Rota(tuple(order[first : first + size]), rounds))
        first += size
    return found
