"""The smallest set of re-aims that closes the holes of a system.

The candidates are the best aims of a few units found for each hole, and those that units came to when they
were moved together (`moves`). `aimcalc.light.reaims` searches them for the
smallest set and says how far that is proved. Points that no candidates bring over the threshold, even if each
unit did its best for every one of them at once, are left out of the search. Out of reach for good are those
that would be dark with all units of the system pointed straight at them: told, and not counted as holes left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from aimcalc.coverage.moves import Moves, Wanted, grown, thinned, widened
from aimcalc.coverage.new_aims import joined_aims, lit, lit_anew, new_aims_at
from aimcalc.coverage.sources import NewAims
from aimcalc.coverage.study import Study
from aimcalc.coverage.systems import SystemLight
from aimcalc.light.evenness import open_area
from aimcalc.light.illuminance import illuminance
from aimcalc.light.lamps import SMOOTH, Flags
from aimcalc.light.reaims import Problem, Reaims, fewest_reaims
from aimcalc.named import NamedTuple

DOWN, ACROSS = np.array([[0.0], [0.0], [-1.0]]), np.array([[1.0], [0.0], [0.0]])
ALL_ROUND = 1e9  # radians: the width of a profile that does not fall off
LOOKS = 1500  # distributions of light looked at, for each system
Progress = Callable[[str, float], None]  # the system's name, the share done


class Fewest(NamedTuple):
    """A system's re-aims: `new` aims, best taken together.

    `closed`: no hole is left that can be closed. `at_least`: fewer of the aims tried are proved not to do;
    `proved`: these are the fewest (or, where not `closed`, no set of them closes all). `left` is the m2
    of holes after all of them, `out_of_reach` the m2 that stay dark whatever is done.
    """

    new: NewAims
    closed: bool
    proved: bool
    at_least: int
    left: float
    out_of_reach: float


def fewest_for(
    study: Study, system: SystemLight, tries: Sequence[NewAims], progress: Progress | None = None
) -> Fewest:
    """The fewest re-aims for a system, from the tries made for each of its holes (one lot at least)."""
    wanted = Wanted(study, system.taken, system.below)
    first = wanted.moves(joined_aims(tries))
    wanted.level = np.where(_hopeless(system, first), np.inf, system.taken)
    together = _together(wanted, first)
    every = first.joined(together)
    found = fewest_reaims(
        Problem(study.plane.grid, wanted.level, every.change, every.unit, system.below),
        looks=LOOKS,
        progress=None
        if progress is None
        else lambda done, most: progress(system.name, done / most),
    )
    one = every.take(np.array(found.chosen, dtype=np.intp))
    return _better(study, system, (one, together), found)


def _together(wanted: Wanted, tries: Moves) -> Moves:
    """A set of moves found by moving units together."""
    moves = grown(wanted, tries)
    if wanted.area(wanted.after(moves)) > 0:
        moves = widened(wanted, moves, np.unique(tries.unit))
    return thinned(wanted, moves)


def _better(study: Study, system: SystemLight, sets: tuple[Moves, Moves], found: Reaims) -> Fewest:
    """Whichever set leaves less of the holes by rays from the new lenses; of two alike the smaller."""
    lost = _out_of_reach(study, system)
    told = [_told(study, system, moves, found, lost) for moves in sets]
    return min(told, key=lambda each: (each.left, each.new.unit.size))


def _told(study: Study, system: SystemLight, chosen: Moves, found: Reaims, lost: Flags) -> Fewest:
    """What of the set has room on the stage, with its light worked out by rays from the new lenses."""
    new = study.room.together(new_aims_at(study, chosen.unit, *chosen.place))
    one = study.sources.lamps.take(new.unit)
    after = system.taken - lit(one, study.plane.points, study.seen.of(new.unit)).sum(axis=0)
    which = np.flatnonzero(after < system.below)  # elsewhere nothing hangs on the new aims
    after[which] += lit_anew(study, new.lamps, study.plane.points[:, which]).sum(axis=0)
    dark, grid = after < system.below, study.plane.grid
    closed = open_area(grid, dark & ~lost) == 0
    return Fewest(
        new=new,
        closed=closed,
        proved=new.unit.size <= found.at_least
        if closed
        else found.proved and new.unit.size == chosen.unit.size,
        at_least=min(found.at_least, new.unit.size) if closed else found.at_least,
        left=open_area(grid, dark),
        out_of_reach=open_area(grid, lost),
    )


def _hopeless(system: SystemLight, tries: Moves) -> Flags:
    """Points that stay dark even if each unit could make its best try for every one of them at once."""
    most = system.taken
    for own in np.unique(tries.unit):
        most += np.maximum(tries.change[tries.unit == own].max(axis=0), 0.0)
    return np.asarray(most < system.below)


def _out_of_reach(study: Study, system: SystemLight) -> Flags:
    """Points, of those now dark, that would be so with every unit pointed straight at them, (M,)."""
    which = np.flatnonzero(~(system.level >= system.below))
    seen = study.seen.of(system.units)
    lamps = seen.mark(study.sources.lamps.take(system.units))
    ones = np.ones(lamps.size)
    everywhere = lamps._replace(
        axis=np.repeat(DOWN, lamps.size, axis=1),
        across=np.repeat(ACROSS, lamps.size, axis=1),
        power=2 * ones,
        wide=ALL_ROUND * ones,
        narrow=ALL_ROUND * ones,
        table=np.full(lamps.size, SMOOTH),
    )
    flags = seen.flags
    reaches = None if flags is None else lambda unit, some: flags[unit, which[some]]
    most = illuminance(everywhere, study.plane.points[:, which], visible=reaches)[0]
    lost = np.zeros(system.level.size, np.bool_)
    lost[which[most < system.below]] = True
    return lost
