"""Units that a list gives no target: moving lights, lights in reserve. They hang, so they are read, each
pointed straight down, from a boom level to the centre line, and that is told with a warning."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Collection, Iterable
from math import dist
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.byvalues import Cells
from aimcalc.scene.hanglist.columns.columnkeys import REMARK, Headings
from aimcalc.scene.hanglist.rows.listrow import Around, Row, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Taken
from aimcalc.scene.readers import length
from aimcalc.scene.records import Place

LEAST_ASIDE = 0.5  # metres off the centre line, of a boom whose units point across to it
UPSTAGE = 2.0  # metres to the point of a unit on the centre line
NO_TARGET_IN_LIST = "no target in the list"  # on the rows of the crew's sheets
LONGEST = 60  # characters of a cell that may be a target
MOST_WORDS = 5  # of such a cell: a sentence may name a target for something else
SHORTEST = 3  # letters of a target's name that is looked for among other words
_AIMED = regex(r"\b(?:focus\w*|aim(?:ed|s)?|targets?|points? at|lights? the)\b")
_WORD = regex(r"[^\W\d_]{3}")
_OF_OTHER_THINGS = regex(
    r"\b(?:modes?|watts?|power|patch|dmx|addr\w*|univ\w*|suppl\w*|owners?|hire\w*|stock|check\w*|done|ticks?"
    r"|cables?|leads?|access\w*|gobos?|lamps?|weight|status|qty|serial|cases?|clamps?|safety|crew|who|notes?"
    r"|remarks?|comments?|bemerk\w*|remarque\w*|observ\w*|opm\w*|anm\w*|note|zubeh\w*|ger\w*nr|phase)\b"
)
MOST_ROWS = 12  # that are told by their numbers


class Pointed(NamedTuple):
    """Where a unit without a target is pointed, metres, and how that is said."""

    point: tuple[float, float, float]
    how: str


def point_unaimed(
    rows: list[Row],
    around: Around,
    noticed: Noticed,
    *,
    may_say: bool,
    in_reserve: Collection[str],
) -> None:
    """Point the units that have no target, where that is no slip: none of their kind has one, or their row
    calls them spare. Where another column of the list may hold targets, they are asked for.

    Args:
        rows: all units of the list.
        around: what of the scene the list is read by.
        noticed: takes the warning.
        may_say: whether what is not understood of the list may say targets (`may_hold_targets`).
        in_reserve: the sources of units that are called spare.
    """
    by_kind: dict[str, list[Row]] = defaultdict(list)
    for row in rows:
        by_kind[text_of(row.raw.get("kind", ""))].append(row)
    done: dict[str, list[Row]] = defaultdict(list)
    for of_kind in by_kind.values():
        meant = not any(map(_is_aimed, of_kind))
        for row in of_kind:
            spare = row.source in in_reserve
            if _is_aimed(row) or not (spare or (meant and not may_say)):
                continue
            pointed = _pointed(row, around)
            if pointed is not None:
                row.raw["point"] = [f"{round(each, 6)!r} m" for each in pointed.point]
                row.raw["note"] = "; ".join(filter(None, (row.raw.get("note"), NO_TARGET_IN_LIST)))
                done[pointed.how].append(row)
    for how, pointed_so in done.items():
        noticed.last.append(_told(pointed_so, how, noticed.name))


def may_hold_targets(headings: Headings, cells: Cells, targets: Iterable[str]) -> bool:
    """Whether a list without a column of targets has one that may hold them: its heading is none of those of
    other things, and most of its cells are words, or numbers where targets have some."""
    numbered = any(map(str.isdecimal, "".join(targets)))
    return any(
        column.key == REMARK
        and not _OF_OTHER_THINGS.search(column.heading.casefold())
        and _may_be_targets(cells.of(column.place), len(cells.rows), numbered=numbered)
        for column in headings.columns
    )


def speaks_of_targets(cells: Iterable[Any], targets: Iterable[str]) -> bool:
    """Whether some cell of a file names a target, or has a word for being aimed: it may be said there."""
    names = "|".join(re.escape(name.casefold()) for name in targets if len(name) >= SHORTEST)
    said = re.compile(rf"(?:^|\W)(?:{names})(?:\W|$)") if names else None
    for cell in cells:
        if isinstance(cell, str) and len(cell) <= LONGEST and len(cell.split()) <= MOST_WORDS:
            plain = cell.casefold()
            if _AIMED.search(plain) or (said is not None and said.search(plain)):
                return True
    return False


def _may_be_targets(cells: list[Any], rows: int, *, numbered: bool) -> bool:
    texts = [text_of(cell)[:LONGEST].strip() for cell in cells]
    may_be = [text for text in texts if _WORD.search(text) or (numbered and text.isdecimal())]
    return 2 * len(may_be) >= max(rows, 1)


def _is_aimed(row: Row) -> bool:
    return bool(row.raw.keys() & {"target", "point"})


def _pointed(row: Row, around: Around) -> Pointed | None:
    """Where a unit without a target is pointed; None where it has no place of its own, or nobody can say."""
    place = around.places.get(str(row.raw.get("position")))
    if place is not None and place.stood is not None:
        return _level(*place.stood)
    if place is None or place.chords or "at" not in row.raw:
        return None
    try:
        at = length(around.unit, place.axis, centre=place.centre)(row.raw["at"])
    except Wrong:
        return None
    if place.pipe is not None and place.pipe.through is None:
        x, y = _on(place, place.pipe, at)
        return Pointed((x, y, 0.0), "straight down")
    return _level(place.x, place.y, at) if place.sort == "boom" else None


def _level(x: float, y: float, z: float) -> Pointed:
    """Level to the centre line, or, from there, upstage."""
    if abs(x) < LEAST_ASIDE:
        return Pointed((x, y + UPSTAGE, z), "level upstage")
    return Pointed((0.0, y, z), "level across, to the centre line")


def _on(place: Place, pipe: Pipe, at: float) -> tuple[float, float]:
    """Where on the plan a place of a straight pipe is, metres: `at` counts to SL, or US, from its zero."""
    axis = 0 if place.axis == "x" else 1
    low, high = sorted((pipe.start, pipe.end), key=lambda end: end[axis])
    run = [(h - low_end) / dist(low, high) for low_end, h in zip(low, high, strict=True)]
    if pipe.zero == "centre line":
        along = -low[0] / run[0]
    elif pipe.zero == "middle":
        along = dist(low, high) / 2
    else:
        along = dist(low, pipe.start if pipe.zero == "start" else pipe.end)
    along += pipe.zero_off + at
    return low[0] + run[0] * along, low[1] + run[1] * along


def _told(rows: list[Row], how: str, name: str) -> Taken:
    """The warning of what units without a target were taken for."""
    numbers = [row.where.entry.removeprefix("row ") for row in rows]
    more = len(numbers) - MOST_ROWS
    listed = ", ".join(numbers[:MOST_ROWS]) + (f" and {more} more" if more > 0 else "")
    one = len(rows) == 1
    kinds = ", ".join(dict.fromkeys(text_of(row.raw.get("kind", "")) for row in rows))
    says = (
        f"{name}: {'the unit' if one else 'the units'} of row{'' if one else 's'} {listed} ({kinds}) "
        f"{'has' if one else 'have'} no target: read as pointed {how}, and {'its' if one else 'their'} light "
        "is counted there."
    )
    do = "Write what they light in the column of targets, before you trust what is said of light and holes."
    return Taken("list-target", says, do, severity="warn")
