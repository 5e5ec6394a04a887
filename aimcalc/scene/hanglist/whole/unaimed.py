"""Units that a list gives no target: moving lights, lights in reserve. They hang, so they are read, each
pointed straight down, from a boom level to the centre line, and that is told with a warning."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from math import dist

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.rows.listrow import Around, Row, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Pipe, Taken
from aimcalc.scene.readers import length
from aimcalc.scene.records import Place

LEAST_ASIDE = 0.5  # metres off the centre line, of a boom whose units point across to it
REMARK = "no target in the list"  # on the rows of the crew's sheets
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
    headed: bool,
    in_reserve: Collection[str],
) -> None:
    """Point the units that have no target, where that is no slip: none of their kind has one, or their row
    calls them spare. What may say a target elsewhere, remarks of a list without a column of them, is asked.

    Args:
        rows: all units of the list.
        around: what of the scene the list is read by.
        noticed: takes the warning.
        headed: whether a column of it holds targets.
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
            if (
                _is_aimed(row)
                or not (meant or spare)
                or not (headed or spare or "note" not in row.raw)
            ):
                continue
            pointed = _pointed(row, around)
            if pointed is not None:
                row.raw["point"] = [f"{round(each, 6)!r} m" for each in pointed.point]
                row.raw["note"] = "; ".join(filter(None, (row.raw.get("note"), REMARK)))
                done[pointed.how].append(row)
    for how, pointed_so in done.items():
        noticed.last.append(_told(pointed_so, how, noticed.name))


def _is_aimed(row: Row) -> bool:
    return bool(row.raw.keys() & {"target", "point"})


def _pointed(row: Row, around: Around) -> Pointed | None:
    """Where a unit without a target is pointed; None where it has no place of its own, or nobody can say."""
    place = around.places.get(str(row.raw.get("position")))
    if place is None or place.chords or "at" not in row.raw:
        return None
    try:
        at = length(around.unit, place.axis, centre=place.centre)(row.raw["at"])
    except Wrong:
        return None
    if place.pipe is not None and place.pipe.through is None:
        x, y = _on(place, place.pipe, at)
        return Pointed((x, y, 0.0), "straight down")
    if place.sort == "boom" and abs(place.x) >= LEAST_ASIDE:
        return Pointed((0.0, place.y, at), "level across, to the centre line")
    return None


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
