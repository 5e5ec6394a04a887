"""Other readings of a table's columns, for one whose cells do not fit what its headings say.

A heading means what it mostly means until the cells below speak against it: "pos" over -3.9 and +1.1, under
rows that name the pipes, is no position, and "where" over DSL and DSC is a target. Where the first reading
leaves mistakes, the columns that do not hold what was taken for theirs, and those that nobody claimed, are
tried in the place of each other; each try reads the list whole, and the one that leaves clearly the fewest
cells unread stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, Cells, is_another
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, HALF, LOOKED_THROUGH, Fits
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, SIDE, Column, Headings
from aimcalc.scene.hanglist.columns.columnsteps import headings_of
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.rows.listrow import Around, says_nothing, text_of
from aimcalc.scene.hanglist.table.findhead import Head, are_headings
from aimcalc.scene.mistakes import CLASH, Wrong

MOST_TRIED = 24  # whole readings of one list
BETTER = 2  # as many times fewer mistakes than at first, for another reading to be clearly better
NEEDED = ("position", "number", "at", "kind", "target")
# Keys that a heading in a loose word claims for want of a better: their column may be had.
_LOOSE = frozenset((REMARK, SIDE, "system", "note", "mount", "lens", "point", "height"))
# What the heading of a column may say, for its cells to make it that of a key.
_SAYS = {
    "position": {"position", "at", "mount", "side", "system", "number"},
    "number": {"number", "kind", "position"},
    "at": {"at", "position", "side"},
    "kind": {"kind", "number", "system", "target"},
    "target": {"target", "position", "system", "side", "at", "note", "point"},
}

# Keys that what stands over the units may hold in place of a column, and none is taken for granted.
_ELSEWHERE = ("position", "kind", "target")

Supposed = dict[tuple[int, str], str]


class Way(NamedTuple):
    """A way to read the columns of a table: what they are supposed to hold, and whether nearly all of their
    cells do."""

    supposed: Supposed
    sure: bool


class Tried(NamedTuple):
    """A reading of a list in another way: how many mistakes it leaves, and what it found."""

    mistakes: int
    units: Any
    way: Way


def other_claims(head: Head, fits: Fits, around: Around) -> list[Way]:
    """The other ways in which the columns of a table may be read, likeliest first."""
    if head.first < 0:
        return []
    below = [
        row
        for row in head.rows[head.last + 1 :]
        if not (says_nothing(row) or head.is_again(row) or are_headings(row))
    ][:LOOKED_THROUGH]
    place = (head.first + 1, head.last + 1)
    headings, _ = headings_of(head.headings(), place, below, fits, around.columns)
    cells = Cells(below, fits)
    loose = [c for c in headings.columns if not c.settled and _is_loose(c, cells)]
    open_keys = [key for key in NEEDED if _is_open(key, headings, loose)]
    if not loose or not open_keys:
        return []
    found: list[tuple[float, Way]] = []
    for chosen in _choices(open_keys, loose, headings, cells):
        way = _supposed(chosen, loose)
        if way:
            shares = [cells.share(key, c.place) for key, c in chosen.items() if c is not None]
            found.append((sum(shares), Way(way, min(shares, default=0.0) >= NEARLY)))
    found.sort(key=lambda one: -one[0])
    return [way for _, way in found[:MOST_TRIED]]


def clearly_best(tried: Sequence[Tried], first: int) -> tuple[Tried | None, Wrong | None]:
    """The reading that leaves clearly the fewest mistakes, fewer than the `first` one, or the question
    which of two that do."""
    fewest = min((one.mistakes for one in tried), default=first)
    best = [one for one in tried if one.mistakes == fewest < first]
    if not best or (BETTER * fewest > first and not best[0].way.sure):
        return None, None
    others = [one for one in best if one.units != best[0].units]
    if others:
        return None, _which_reading(best[0].way.supposed, others[0].way.supposed)
    return best[0], None


def _which_reading(one: Supposed, other: Supposed) -> Wrong:
    differ = [(at, key) for at, key in one.items() if other.get(at) != key and key != REMARK]
    differ = differ or [(at, key) for at, key in other.items() if key != REMARK]
    told = " and ".join(f'{key} = "{text}"' for (_, text), key in differ[:3])
    return Wrong(
        "columns that read in one way, and by their cells they read in two",
        f"Say in [hang_columns] what they hold: {told}, or otherwise.",
        came=" and ".join(f'"{text}"' for (_, text), _ in differ[:3]),
        rank=CLASH,
    )


def _is_loose(column: Column, cells: Cells) -> bool:
    """Whether a column may hold something else than it was taken for; sides are no positions where these
    stand over the units."""
    if column.key == SIDE and cells.under_positions() and SIDE in meaning(column.heading).keys:
        return cells.share("which side", column.place) < NEARLY
    if column.key in _LOOSE:
        return bool(cells.of(column.place)) and not is_another(column.heading)
    return column.key in NEEDED and cells.share(column.key, column.place) < HALF


def _is_open(key: str, headings: Headings, loose: list[Column]) -> bool:
    """Whether no column holds a key, or one that may hold something else."""
    return key not in headings.by_key or headings.by_key[key] in loose


def _choices(
    keys: list[str], loose: list[Column], headings: Headings, cells: Cells
) -> Iterator[dict[str, Column | None]]:
    """The ways to give loose columns to the keys that are open, one column to one key."""
    kept = [headings.by_key.get(key) for key in keys]
    fitting = [[c for c in loose if _may_hold(key, c, cells)] for key in keys]
    options = [
        list(dict.fromkeys((mine, *others, *([None] if _may_lack(key, mine, cells) else []))))
        for key, mine, others in zip(keys, kept, fitting, strict=True)
    ]
    for chosen in product(*options):
        used = {column.place for column in chosen if column is not None}
        if len(used) < sum(column is not None for column in chosen):
            continue
        idle = (
            column is None and any(c.place not in used for c in others)
            for column, others in zip(chosen, fitting, strict=True)
        )
        if not any(idle):  # or what a column tells would be taken for granted
            yield dict(zip(keys, chosen, strict=True))


def _may_lack(key: str, mine: Column | None, cells: Cells) -> bool:
    """Whether no column need hold a key: none does, or what stands over the units may; but not where a column
    headed as that of positions names some of them, and none of its cells is a place."""
    if mine is None or key != "position":
        return mine is None or key in _ELSEWHERE
    return cells.share("at", mine.place) > 0 or cells.share(key, mine.place) == 0.0


def _may_hold(key: str, column: Column, cells: Cells) -> bool:
    """Whether the cells of a column are values of a key, under a heading that may be said of one."""
    k = column.place
    says = set(meaning(column.heading).keys)
    if says and not says & _SAYS[key]:
        return False
    if key == "number":
        # Whole numbers under a word that nobody knows may count anything: they are asked about elsewhere.
        named = bool(says) or not column.heading
        return named and cells.share(key, k) >= NEARLY and cells.counts(k)
    if key == "at":
        sided = cells.share("place", k) >= FITTING
        return cells.share(key, k) >= FITTING and (
            sided or (bool(says) and not _counts_up(cells.of(k)))
        )
    return cells.names(key, k) or (cells.share(key, k) >= FITTING and bool(says))


def _supposed(chosen: dict[str, Column | None], loose: list[Column]) -> Supposed:
    """The columns that are something else than at first, those that gave a key up for it as remarks."""
    given = {column.place: key for key, column in chosen.items() if column is not None}
    supposed = {}
    for column in loose:
        key = given.get(column.place, REMARK if column.key in chosen else column.key)
        claims = chosen.keys() & set(_ELSEWHERE) & set(meaning(column.heading).keys)
        if key != column.key or (claims and key == REMARK):
            supposed[column.place, column.heading.casefold()] = key
    return supposed


def _counts_up(cells: Sequence[Any]) -> bool:
    """Whether cells count 1, 2, 3 ... and are no places."""
    return [text_of(cell).strip() for cell in cells] == [str(k) for k in range(1, len(cells) + 1)]
