"""Landings as people note them: CSV, a workbook or TOML, one row a spot or a direct measurement.

A row names a unit and where its hot spot landed (`x`, `y`; `height` on a pole, a wall or a drop; `on` what),
and may tell what was set: `down`, `pan`, `sight`. Or it names a position or a kind and what was measured of
it: `trim` with `at`, `plaster` (its distance from the plaster line) with `at`, `drop`.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING, Any

from aimcalc.landings.lists import entries
from aimcalc.landings.said import down_of, pan_of
from aimcalc.named import NamedTuple
from aimcalc.scene.document import Entry, open_entry
from aimcalc.scene.hanglist.names.kindtrade import KIND_SPARE, KIND_WORDS
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import (
    CLASH,
    MISSING,
    UNKNOWN,
    Log,
    SceneError,
    TooManyError,
    Where,
    Wrong,
)
from aimcalc.scene.model import Pipe, Position, runs_across
from aimcalc.scene.readers import Reader, between, length, name, over, remark

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved

SAME_SPOT = 0.10  # m: nearer than that a spot noted twice is one (our choice)
POLE = ("pole", "a pole", "pole at stand")
DECK = ("deck", "the deck", "floor", "the floor", "stage", "stage floor")
SPOT = ("x", "y", "height", "throw")
DIRECT = ("trim", "plaster", "drop")


class Reading(NamedTuple):
    """One spot: the unit's index, where it was noted, and what was noted of it; metres and degrees.

    None: not noted. `pan` has its side, which may be empty.
    """

    unit: int
    where: Where
    x: float | None = None
    y: float | None = None
    on: str | None = None
    height: float | None = None
    down: float | None = None
    pan: tuple[float, str] | None = None
    sight: float | None = None
    throw: float | None = None


class Measured(NamedTuple):
    """One direct measurement of a position or a kind: `what` is trim, plaster or drop; metres."""

    what: str
    of: str
    value: float
    at: float | None
    where: Where


class Noted(NamedTuple):
    """All that a file of landings holds."""

    spots: tuple[Reading, ...]
    direct: tuple[Measured, ...]


def written_down(each: Reading | Measured, rig: Solved) -> str:
    """A landing in a line, to know it again by: "pipe 2/1 x 1.230 y 3.200"; metres, however it was typed."""
    if isinstance(each, Measured):
        told = {each.what: each.value, "at": each.at}
        of = each.of
    else:
        of = rig.names[each.unit]
        told = {key: getattr(each, key) for key in ("x", "y", "on", "height", "throw")}
    parts = (
        f"{k} {v:.3f}" if isinstance(v, float) else f"{k} {v}"
        for k, v in told.items()
        if v is not None
    )
    return " ".join((of, *parts))


def read_landings(path: str, rig: Solved) -> Noted:
    """The landings in a file. Raises SceneError with every mistake of it, its row and its column."""
    file, log = os.path.basename(path), Log()
    spots: list[Reading] = []
    direct: list[Measured] = []
    try:
        reader = Rows(rig, log)
        for raw, where in entries(path, file, log):
            for found in reader.read(raw, where):
                if isinstance(found, Reading):
                    spots.append(found)
                else:
                    direct.append(found)
        spots = _once(spots, rig, log)
        if not spots and not direct and not log.mistakes:
            expected = "at least one landing: a unit, and where its light landed"
            raise Wrong(expected, "Fill in x and y.", came="none", rank=MISSING)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, file)
    except TooManyError:
        pass  # the report says that there may be more
    if log.mistakes:
        raise SceneError(file, log.mistakes)
    return Noted(tuple(spots), tuple(direct))


class Rows:
    """Reads rows by what the rig has."""

    def __init__(self, rig: Solved, log: Log) -> None:
        self.rig, self.log = rig, log
        self.unit = rig.scene.settings.own_unit
        positions = list(rig.scene.positions)
        self.units = Names(rig.names, ordered=True)
        self.positions = Names(positions, POSITION_WORDS, POSITION_SPARE, ordered=True)
        self.kinds = Names([kind.name for kind in rig.kinds], KIND_WORDS, KIND_SPARE)
        self.readers = _readers(self.unit)

    def read(self, raw: dict[str, Any], where: Where) -> Iterator[Reading | Measured]:
        """What one row tells; nothing where only a unit is named. Mistakes are noted."""
        entry = open_entry(raw, self.readers, where, self.log)
        values = entry.values
        told = [key for key in (*SPOT, *DIRECT) if key in raw]
        if not told or not entry.sound:
            return
        called = self._called(values)
        found = self._found(called)
        if found is None:
            self._unknown(entry, called, spot=any(key in raw for key in SPOT))
            return
        sort, of = found
        if sort == "unit":
            yield from self._unit(entry, self.rig.by_name[of])
        else:
            yield from self._direct(entry, sort, of)

    def unit_of(self, raw: dict[str, Any], where: Where) -> int | None:
        """The unit that a row names; None, with the mistake noted, where it names none."""
        names = {key: value for key, value in raw.items() if key in ("position", "unit")}
        entry = open_entry(names, self.readers, where, self.log)
        called = self._called(entry.values)
        found = self._found(called) if entry.sound else None
        if found is not None and found[0] == "unit":
            return self.rig.by_name[found[1]]
        if entry.sound:
            self._unknown(entry, called, spot=True)
        return None

    def _called(self, values: dict[str, Any]) -> str:
        position, unit = values.get("position"), values.get("unit")
        if position and unit:
            meant = self.positions.find(position).name or position
            return f"{meant}/{unit}"
        return str(unit or position or "")

    def _found(self, called: str) -> tuple[str, str] | None:
        """What a row is of: a unit, a position or a kind, by its name."""
        if called in self.rig.scene.positions:
            return "position", called
        meant = self.units.find(called)
        unit = (meant.name if meant.sure else None) or self._by_number(called)
        if unit is not None:
            return "unit", unit
        position = self.positions.find(called).name
        if position is not None:
            return "position", position
        kind = self.kinds.find(called).name
        return None if kind is None else ("kind", kind)

    def _by_number(self, called: str) -> str | None:
        """The one unit of a number, or of a channel told as such; of "LX 1-3" or "LX 1 3" unit 3 of LX 1."""
        rig, plain = self.rig, called.strip()
        channel = re.fullmatch(r"(?i)(?:ch(?:an(?:nel)?)?\.?\s*#?)\s*(\w+)", plain)
        if channel:
            mine = [k for k, u in enumerate(rig.units) if u.channel == channel[1]]
        else:
            mine = [k for k, u in enumerate(rig.units) if u.number == plain]
        if len(mine) == 1:
            return rig.names[mine[0]]
        parts = re.fullmatch(r"(.+?)[\s/#-]+(?:unit\s*)?#?(\w+)", plain)
        if parts:
            position = self.positions.find(parts[1]).name
            joined = f"{position}/{parts[2]}"
            return joined if joined in rig.by_name else None
        return None

    def _unknown(self, entry: Entry, called: str, *, spot: bool) -> None:
        what = "a unit of the scene, position/number" if spot else "a unit, position or kind"
        key = "unit" if "unit" in entry.raw else "position"
        if not called:
            entry.missing("unit", "the unit whose light this is", "Name it: position/number.")
            return
        wrong = Wrong(what, choices=tuple(self.rig.names), rank=UNKNOWN)
        entry.note(key, wrong, called)

    def _unit(self, entry: Entry, k: int) -> Iterator[Reading | Measured]:
        values, rig = entry.values, self.rig
        entry.take("sight", self._along(rig.positions[k], entry))
        if not entry.sound:
            return
        if "drop" in values:
            yield Measured("drop", rig.units[k].kind, values["drop"], None, entry.where)
        entry.refuse(("trim", "plaster"), "a unit has none; name its position")
        if not any(key in entry.raw for key in SPOT) or not entry.sound:
            return
        if set(SPOT) & set(entry.raw) == {"throw"}:
            entry.missing("x", "the spot that the throw goes to", "Add x and y.")
            return
        kept = ("x", "y", "on", "height", "down", "pan", "sight", "throw")
        yield Reading(k, entry.where, **{key: values.get(key) for key in kept})

    def _direct(self, entry: Entry, sort: str, of: str) -> Iterator[Measured]:
        values = entry.values
        if any(key in entry.raw for key in SPOT):
            entry.note("unit", Wrong("a unit, position/number: a spot is one unit's"), of)
            return
        if sort == "kind":
            entry.refuse(("trim", "plaster", "at"), "a kind has a drop alone")
        else:
            position = self.rig.scene.positions[of]
            entry.take("at", self._along(position, entry))
            if not isinstance(position, Pipe):
                entry.refuse(("trim", "plaster"), "only a pipe has one")
            elif not runs_across(position.start, position.end):
                entry.refuse(("plaster",), "this pipe runs up and down the stage")
            entry.refuse(("drop",), "a drop is a kind's: name the kind, or a unit of it")
        if entry.sound:
            for what in DIRECT:
                if what in values:
                    yield Measured(what, of, values[what], values.get("at"), entry.where)

    def _along(self, position: Position, entry: Entry) -> Reader:
        """A reader of places along a position."""
        if not isinstance(position, Pipe):
            return lambda raw: parse_length(raw, self.unit)
        axis = "x" if runs_across(position.start, position.end) else "y"
        along = Along(self.unit, axis, True)
        return lambda raw: read_place(raw, along).metres


def _readers(unit: str) -> dict[str, Reader]:
    def place(axis: str) -> Callable[[Any], float]:
        return lambda raw: read_place(raw, Along(unit, axis, True)).metres

    return {
        "position": name,
        "unit": name,
        "x": place("x"),
        "y": place("y"),
        "on": name,
        "height": length(unit),
        "down": down_of,
        "pan": pan_of,
        "throw": over(0, length(unit), "a length"),
        "trim": over(0, length(unit), "a height"),
        "drop": between(0, 20, length(unit), "a length in metres"),
        "plaster": place("y"),
        **dict.fromkeys(("sight", "at", "yoke"), lambda raw: raw),  # a yoke is of what was focused
        **dict.fromkeys(("edge", "cut", "note"), remark),
    }


def _once(spots: Iterable[Reading], rig: Solved, log: Log) -> list[Reading]:
    """Each unit once; noted again at another spot it is a mistake."""
    found: dict[int, Reading] = {}
    for spot in spots:
        first = found.setdefault(spot.unit, spot)
        if first is not spot and not _same(first, spot):
            unit = rig.names[spot.unit]
            wrong = Wrong(
                f"one spot of {unit}",
                "Strike out the one that is wrong.",
                came=f"another spot of {unit} than in {first.where.entry}",
                rank=CLASH,
            )
            log.add(spot.where, "", wrong)
    return list(found.values())


def _same(a: Reading, b: Reading) -> bool:
    """Whether two readings are of one spot, set alike."""
    if a.on != b.on or (a.down, a.pan, a.sight) != (b.down, b.pan, b.sight):
        return False
    pairs = ((a.x, b.x), (a.y, b.y), (a.height, b.height))
    return all(m is n if m is None or n is None else abs(m - n) <= SAME_SPOT for m, n in pairs)
