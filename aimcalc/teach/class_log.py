"""Predict, then light it: a class's log read group by group, and what its landings tell of each group.

The log is CSV, a row a unit: group, unit, where the group said that it would land (predicted x, predicted
y), where it landed (x, y; height, on, down, pan, sight as for `learn`), where it landed after nudges (after
x, after y), how many nudges, and in the group's own words what to look for (learnt).
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.landings.learn import ContradictError, Likely, learn
from aimcalc.landings.readings import Noted, Reading, Rows
from aimcalc.landings.spots import Problem
from aimcalc.landings.surfaces import spots_of
from aimcalc.named import NamedTuple
from aimcalc.rig.wording import joined
from aimcalc.scene.files import csv_rows, read_whole
from aimcalc.scene.hanglist.table.sheetfile import HANG_MEGABYTES, decoded
from aimcalc.scene.mistakes import MISSING, Log, SceneError, Where, Wrong

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig

PLAIN = ("unit", "x", "y", "on", "height", "down", "pan", "sight")  # columns that `learn` reads too
COLUMNS = (
    *("group", "unit", "predicted x", "predicted y", "x", "y", "down", "pan"),
    *("after x", "after y", "nudges", "learnt"),
)
MOST_NUDGES = 99
# What a group is to look for next time, by the likeliest cause (common practice, no source).
LOOK_FOR = {
    "none": "Nothing stands out: what is left is hand and mark. Lock, then read both once more.",
    "trim": "Put a tape on the trim before anything is pointed.",
    "slope": "Put a level on the pipe, and a tape on both its ends.",
    "moved": "Measure how far the pipe is from the plaster line before anything is pointed.",
    "skew": "Measure both ends of the pipe to the plaster line.",
    "marks": "Find the pipe's zero first, and measure every mark from it.",
    "dial": "Hold the dial to a true square before it is read.",
    "level": "Hold the level to something level, along the straight top of the barrel.",
    "drop": "Measure the drop of one of these units.",
    "kick": "See that the clamp hangs plumb before it is locked.",
    "mirrored": "Say SL or SR aloud, from the stage's side, before anybody swings.",
    "face-for-floor": "The sheet's down is to the face: look for the light at the face, not at the feet.",
    "wrong-end": "Ask which end the marks are counted from, and say it aloud.",
    "from-plumb": "Say DOWN or plumb with every angle: the two add to 90.",
    "swapped": "Read the unit's number off the unit, not off its place.",
}


class Try(NamedTuple):
    """One unit of a group: misses in metres (None: not noted), nudges, the group's own words."""

    unit: str
    predicted: float | None
    before: float | None
    after: float | None
    nudges: int | None
    learnt: str


class Group(NamedTuple):
    """What one group did; `causes` the likeliest first, none where it noted no landing or they contradict.

    `doubted` names the units whose landings fit no likely cause.
    """

    name: str
    tries: tuple[Try, ...]
    causes: tuple[Likely, ...]
    doubted: tuple[str, ...] = ()
    contradicts: str = ""

    @property
    def nudges(self) -> int:
        """How many nudges in all."""
        return sum(each.nudges or 0 for each in self.tries)

    def middle(self, which: str) -> float | None:
        """The middle one of its misses `before` or `after`, metres; None where none is noted."""
        sizes = [getattr(each, which) for each in self.tries if getattr(each, which) is not None]
        return float(np.median(sizes)) if sizes else None

    @property
    def look_for(self) -> str:
        """What to look for next time."""
        told = [LOOK_FOR[self.causes[0].cause]] if self.causes else []
        if self.doubted:
            told.insert(
                0, f"Look again at {joined(self.doubted)}: which side, which end, which number."
            )
        return " ".join(told)


class _Row(NamedTuple):
    group: str
    reading: Reading | None
    predicted: Reading | None
    after: Reading | None
    unit: int
    nudges: int | None
    learnt: str


def read_class(show: Show, path: str) -> list[Group]:
    """The groups of a log in the order they come. Raises SceneError with every mistake of the file."""
    rig, file, log = show.rig, os.path.basename(path), Log()
    rows: dict[str, list[_Row]] = {}
    try:
        for raw, where in _entries(path, file):
            row = _read(rig, raw, where, log)
            if row is not None:
                rows.setdefault(row.group, []).append(row)
        if not rows and not log.mistakes:
            expected = "at least one row: a group, a unit, and where its light landed"
            raise Wrong(expected, "Fill in the log.", came="none", rank=MISSING)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, file)
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    return [_group(rig, name, mine, file) for name, mine in rows.items()]


def _entries(path: str, file: str) -> Iterator[tuple[dict[str, str], Where]]:
    """Every row that names a unit, by its headings; parted by commas or semicolons."""
    text, _ = decoded(read_whole(path, HANG_MEGABYTES))
    first = text.split("\n", 1)[0]
    mark = ";" if first.count(";") > first.count(",") else ","
    rows = csv_rows(text, mark)
    heads = [" ".join(cell.casefold().replace("_", " ").split()) for cell in next(rows, [])]
    if not {"group", "unit"} <= set(heads):
        expected = f"a row of headings: {', '.join(COLUMNS)}"
        raise Wrong(expected, came=first[:60] or "nothing", rank=MISSING)
    for number, cells in enumerate(rows, 2):
        raw = {head: cell.strip() for head, cell in zip(heads, cells, strict=False) if cell.strip()}
        if set(raw) - {"group", "unit"}:
            yield raw, Where(file, "", f"row {number}")


def _read(rig: SolidRig, raw: dict[str, str], where: Where, log: Log) -> _Row | None:
    reader = Rows(rig, log)
    group = raw.get("group", "")
    if not group:
        log.add(where, "group", Wrong("the group whose row this is", rank=MISSING), "")
    unit = reader.unit_of(dict(raw), where)
    if not group or unit is None:
        return None

    def spot(prefix: str) -> Reading | None:
        kept = {key: raw[f"{prefix}{key}"] for key in PLAIN[1:] if f"{prefix}{key}" in raw}
        if not {"x", "y", "height"} & set(kept):
            return None
        told = list(reader.read({"unit": rig.names[unit], **kept}, where))
        return next((each for each in told if isinstance(each, Reading)), None)

    spots = spot(""), spot("predicted "), spot("after ")
    return _Row(group, *spots, unit, _nudges(raw, where, log), raw.get("learnt", ""))


def _nudges(raw: dict[str, str], where: Where, log: Log) -> int | None:
    told = raw.get("nudges")
    if told is None:
        return None
    if not told.isdecimal() or int(told) > MOST_NUDGES:
        log.add(where, "nudges", Wrong(f"how many nudges, 0 to {MOST_NUDGES}"), told)
        return None
    return int(told)


def _group(rig: SolidRig, name: str, rows: list[_Row], file: str) -> Group:
    tries = tuple(
        Try(
            rig.names[row.unit],
            _apart(rig, row.predicted, row.reading),
            _off(rig, row.reading),
            _off(rig, row.after),
            row.nudges,
            row.learnt,
        )
        for row in rows
    )
    readings = tuple(row.reading for row in rows if row.reading is not None)
    if not readings:
        return Group(name, tries, ())
    spots, direct = spots_of(rig, Noted(readings, ()), rig.tapes.out, file)
    try:
        learned = learn(Problem(rig, spots, direct))
    except ContradictError as error:
        return Group(name, tries, (), contradicts=str(error))
    return Group(name, tries, learned.causes, learned.doubted)


def _off(rig: SolidRig, reading: Reading | None) -> float | None:
    """How far a spot is from where its unit's light is to be, metres; None where that cannot be told."""
    if reading is None:
        return None
    stop = rig.answers[reading.unit].meets
    return None if stop is None else _far(_place(reading), stop.point, reading.height is not None)


def _apart(rig: SolidRig, one: Reading | None, other: Reading | None) -> float | None:
    if one is None or other is None:
        return None
    return _far(_place(one), _place(other), one.height is not None and other.height is not None)


def _place(reading: Reading) -> tuple[float | None, float | None, float | None]:
    return reading.x, reading.y, reading.height


def _far(one: Any, other: Any, upright: bool) -> float | None:
    """The distance of two places by what both of them tell; heights only where they count."""
    pairs = [
        (a, b)
        for a, b in list(zip(one, other, strict=True))[: 3 if upright else 2]
        if a is not None and b is not None
    ]
    return float(np.hypot.reduce([a - b for a, b in pairs])) if pairs else None
