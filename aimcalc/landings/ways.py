"""Causes by which units were set, or hang, in another way than they should: mirrored, from plumb ..."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array
from aimcalc.landings.forward import SIGHT, Held, Set, held, printed, some
from aimcalc.landings.spots import RIG, Problem
from aimcalc.named import NamedTuple


class Cause(NamedTuple):
    """One cause: its word, what it is of, which unknown is far out (-1: none), how units were really set."""

    cause: str
    of: str
    unknown: int = -1
    given: Set | None = None
    units: Held | None = None
    share: float = 1.0  # of the chance of its sort


def otherwise(problem: Problem) -> Iterator[Cause]:
    """Causes by which units were set, or hang, in another way than they should."""
    yield from _each(problem, "mirrored", _mirrored(problem))
    yield from _each(problem, "from-plumb", _from_plumb(problem))
    yield from _each(problem, "face-for-floor", _to_floor(problem))
    yield from _wrong_end(problem)
    yield from _swapped(problem)


def _each(problem: Problem, cause: str, given: Set) -> Iterator[Cause]:
    """A cause of each unit, of each position with several, and of the rig where it has several of those."""
    was = problem.spots.given
    pairs = zip(was, given, strict=True)
    differs = np.any([np.atleast_2d(a != b).any(axis=0) for a, b in pairs], axis=0)
    places = np.array([problem.rig.units[k].position for k in problem.spots.unit])
    ofs: list[tuple[str, Flags]] = []
    for name in dict.fromkeys(places.tolist()):
        mine = (places == name) & differs
        ofs += [(problem.names[k], np.arange(mine.size) == k) for k in np.flatnonzero(mine)]
        if mine.sum() > 1:
            ofs.append((name, mine))
    if len({name for name, mine in ofs if mine.sum() > 1}) > 1:
        ofs.append((RIG, differs))
    for of, mine in ofs:
        yield Cause(cause, of, given=_where(mine, given, was), share=1.0 if mine.sum() > 1 else 0.5)


def _where(mine: Flags, given: Set, was: Set) -> Set:
    return Set._make(np.where(mine, new, old) for new, old in zip(given, was, strict=True))


def _mirrored(problem: Problem) -> Set:
    """Every unit swung to the other side of square."""
    given, reference = problem.spots.given, problem.units.reference
    square = np.arctan2(reference[0], reference[1])
    along = problem.units.tube
    aside = np.einsum("ck,ck->k", given.mark, along)
    return given._replace(
        turn=-given.turn,  # square is the reference or its opposite
        heading=2 * square - given.heading,
        mark=given.mark - 2 * along * (aside - _at(problem)),
    )


def _at(problem: Problem) -> Array:
    """How far along its position each unit is from the middle of it, (K,)."""
    return np.asarray(np.einsum("ck,ck->k", problem.units.spot, problem.units.tube))


def _from_plumb(problem: Problem) -> Set:
    """Every level read from plumb where it should be from level, and the other way round."""
    given = problem.spots.given
    return given._replace(down=np.copysign(np.pi / 2 - np.abs(given.down), given.down))


def _to_floor(problem: Problem) -> Set:
    """Every unit tipped at the spot stood on in place of the face; those that were read back as they were."""
    rig, unit, given = problem.rig, problem.spots.unit, problem.spots.given
    stand, pivot = rig.arrays.stand[:, unit], rig.aims.pivot[:, unit]
    way = stand - pivot
    down = np.arctan2(-way[2], np.hypot(way[0], way[1]))
    kept = np.isnan(down) | problem.spots.read_back
    return given._replace(down=np.where(kept, given.down, down))


def _wrong_end(problem: Problem) -> Iterator[Cause]:
    """A position counted from its other end: numbers of the other units set, or the units hung there."""
    rig, unit = problem.rig, problem.spots.unit
    every, all_held = printed(rig), held(rig)
    for name, rows in rig.rows.items():
        mine = np.array([rig.units[k].position == name for k in unit])
        if not mine.any() or len(rows) < 2:
            continue
        other = dict(zip(rows, rows[::-1], strict=True))
        partner = np.array([other.get(k, k) for k in unit])
        yield from _exchanged(problem, "wrong-end", name, mine, partner, (every, all_held))


def _swapped(problem: Problem) -> Iterator[Cause]:
    """Two units of one position, of one of which at least a spot is known, each set or hung as the other."""
    rig, unit = problem.rig, problem.spots.unit
    every, all_held = printed(rig), held(rig)
    known = set(unit.tolist())
    for rows in rig.rows.values():
        for i, a in enumerate(rows):
            for j, b in enumerate(rows[i + 1 :], i + 1):
                both = a in known and b in known
                if both or (j == i + 1 and (a in known or b in known)):
                    mine = (unit == a) | (unit == b)
                    partner = np.where(unit == a, b, np.where(unit == b, a, unit))
                    of = f"{rig.names[a]} and {rig.names[b]}"
                    yield from _exchanged(problem, "swapped", of, mine, partner, (every, all_held))


def _exchanged(
    problem: Problem, cause: str, of: str, mine: Flags, partner: Indices, whole: tuple[Set, Held]
) -> Iterator[Cause]:
    """Units with the numbers of their partners, in the places of their partners, or taken for them.

    Who read back what was set did not set the partner's numbers.
    """
    every, all_held = whole
    was = problem.spots.given
    place = Held._make(
        np.where(mine, new, old)
        for new, old in zip(some(all_held, partner), problem.units, strict=True)
    )
    yield Cause(cause, of, units=place)
    if not problem.spots.read_back[mine].any() and (was.by[mine] != SIGHT).all():
        theirs = _where(mine, some(every, partner), was)
        yield Cause(cause, of, given=theirs)
        yield Cause(cause, of, given=theirs, units=place)
