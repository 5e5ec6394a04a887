"""Landings as people note them: CSV, a workbook or TOML, one row a spot or a direct measurement.

A row names a unit and where its hot spot landed (`x`, `y`; `height` on a pole, a wall or a drop; `on` what),
and may tell what was set: `down`, `pan`, `sight`. Or it names a position or a kind and what was measured of
it: `trim` with `at`, `plaster` (its distance from the plaster line) with `at`, `drop`.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Any

from aimcalc.named import NamedTuple
from aimcalc.scene import quantities as q
from aimcalc.scene.document import Entry, open_entry, parse
from aimcalc.scene.files import csv_rows, read_whole
from aimcalc.scene.headings import column_letters
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.listrow import blank
from aimcalc.scene.meant import KIND_SPARE, KIND_WORDS, POSITION_SPARE, POSITION_WORDS, Names
from aimcalc.scene.mistakes import (
    CLASH,
    FILE,
    MISSING,
    UNKNOWN,
    Log,
    SceneError,
    TooManyError,
    Where,
    Wrong,
    show,
)
from aimcalc.scene.model import Pipe, Position, runs_across
from aimcalc.scene.placewords import Along, read_place
from aimcalc.scene.readers import Reader, between, length, name, over, remark
from aimcalc.scene.sheetfile import ENDINGS, HANG_MEGABYTES, MARKS, TEXTS, decoded, read_sheets

if TYPE_CHECKING:
    from aimcalc.rig.solve import Solved

MOST_ROWS = 5_000
LOOKED_AT = 60  # first rows among which the headings are looked for
SAME_SPOT = 0.10  # m: nearer than that a spot noted twice is one (our choice)
POLE = ("pole", "a pole", "pole at stand")
DECK = ("deck", "the deck", "floor", "the floor", "stage", "stage floor")
HEADINGS = {
    "position": "position, pipe, bar, batten, electric, boom, where hung",
    "unit": "unit, units, unit no, number, no, fixture, light, lantern, instrument",
    "x": "x, across, landed across, lands across, spot x, from centre, from centre line, sl sr",
    "y": "y, up, deep, landed up, lands up, spot y, from plaster line, up stage, us ds",
    "on": "on, surface, lands on, landed on",
    "height": "height, z, pole, pole height, height on pole, h",
    "down": "down, down read, read down, tilt, level, down set",
    "pan": "pan, dial, pan read, dial read, swing, turn",
    "sight": "sight, sight tape, tape, sight mark, sight read",
    "throw": "throw, laser, throw by laser, distance to spot",
    "trim": "trim, trim measured, measured trim",
    "at": "at, trim at, measured at",
    "drop": "drop, drop measured, measured drop",
    "plaster": "plaster, pipe from plaster line, plaster line",
    "yoke": "yoke, yoke read, yoke angle",
    "edge": "edge, focus edge",
    "cut": "cut, cuts, shutters, shutter cuts, barn doors",
    "note": "note, notes, remark, remarks, comment",
}
WORDS = {word.strip(): key for key, words in HEADINGS.items() for word in words.split(",")}
SPOT = ("x", "y", "height", "throw")
DIRECT = ("trim", "plaster", "drop")
_SIDE = re.compile(r"(?i)\b(SL|SR|US|DS|UP|DOWN)\b")


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


Raw = tuple[dict[str, Any], Where]


def entries(path: str, file: str, log: Log, heads: str = "unit, x, y ...") -> Iterator[Raw]:
    """Every filled row of a file, by the words of `HEADINGS`."""
    lower = file.lower()
    if lower.endswith(".toml"):
        yield from _tables(path, file, log)
        return
    if lower.endswith(TEXTS):
        yield from _rows(_parted(decoded(read_whole(path, HANG_MEGABYTES))[0]), file, "", heads)
        return
    try:
        sheets = read_sheets(path, file).sheets
    except Wrong as wrong:
        if wrong.rank == FILE and ENDINGS in wrong.expected:
            raise Wrong(f"landings in a file ending in .toml, {ENDINGS}", rank=FILE) from None
        raise
    filled = [(sheet.name, list(islice(sheet.rows, MOST_ROWS))) for sheet in sheets]
    named = [(called, rows) for called, rows in filled if _head(rows) is not None]
    if len(named) > 1:
        came = " and ".join(show(called) for called, _ in named)
        raise Wrong("one sheet of landings", "Keep them in one sheet.", came=came, rank=FILE)
    yield from _rows(*((named or filled)[0][1],), file, (named or filled)[0][0], heads)


def _tables(path: str, file: str, log: Log) -> Iterator[Raw]:
    """The tables `[[landing]]` and `[[measured]]` of a TOML file."""
    for table, entries in parse(path).items():
        if table not in ("landing", "measured") or not isinstance(entries, list):
            wrong = Wrong(
                "[[landing]] or [[measured]]", choices=("landing", "measured"), rank=UNKNOWN
            )
            log.add(Where(file, ""), "", wrong, table)
            continue
        for number, raw in enumerate(entries, start=1):
            where = Where(file, f"[[{table}]]", f"no. {number}")
            if isinstance(raw, dict):
                yield dict(raw), where
            else:
                log.add(where, "", Wrong(f"a table [[{table}]]"), raw)


def _parted(text: str) -> list[list[str]]:
    """The rows of text, parted by whichever mark gives the most headings."""
    lines = text.splitlines()[:LOOKED_AT]

    def named(mark: str) -> int:
        return max((_score([c.strip('" ') for c in line.split(mark)]) for line in lines), default=0)

    return list(islice(csv_rows(text, max(MARKS, key=named)), MOST_ROWS))


def _plain(cell: object) -> str:
    return " ".join(re.sub(r"[^a-z0-9]+", " ", str(cell).casefold()).split())


def _score(cells: Sequence[object]) -> int:
    return len({WORDS[_plain(cell)] for cell in cells if _plain(cell) in WORDS})


def _head(rows: Sequence[Sequence[Any]]) -> int | None:
    """Which row has the headings: the first that names the most, `unit` or `position` among them."""
    scores = [
        _score(row) if {"unit", "position"} & {WORDS.get(_plain(cell)) for cell in row} else 0
        for row in rows[:LOOKED_AT]
    ]
    best = max(scores, default=0)
    return scores.index(best) if best > 1 else None


def _rows(rows: Sequence[Sequence[Any]], file: str, sheet: str, heads: str) -> Iterator[Raw]:
    head = _head(rows)
    if head is None:
        first = next((row for row in rows if not all(map(blank, row))), [])
        came = ", ".join(str(cell) for cell in first if not blank(cell))[:60] or "nothing"
        raise Wrong(f"a row of headings: {heads}", came=came, rank=MISSING)
    keys: dict[int, str] = {}
    for k, cell in enumerate(rows[head]):
        key = WORDS.get(_plain(cell))
        if key is not None and key not in keys.values():
            keys[k] = key
    letters = {key: column_letters(k) for k, key in keys.items()}
    table = f"sheet {sheet}" if sheet else ""
    for number, row in enumerate(rows[head + 1 :], start=head + 2):
        raw = {key: row[k] for k, key in keys.items() if k < len(row) and not blank(row[k])}
        if set(raw) - {"note", "on", "edge", "cut"}:
            yield raw, Where(file, table, f"row {number}", letters)


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
        "down": _down,
        "pan": _pan,
        "sight": lambda raw: raw,
        "throw": over(0, length(unit), "a length"),
        "trim": over(0, length(unit), "a height"),
        "at": lambda raw: raw,
        "drop": between(0, 20, length(unit), "a length in metres"),
        "plaster": place("y"),
        "yoke": lambda raw: raw,  # of what was focused alone
        "edge": remark,
        "cut": remark,
        "note": remark,
    }


def _down(raw: object) -> float:
    """Degrees below level, from "47", "DOWN 47", "UP 5", "plumb 43"."""
    expected = 'degrees down: 47, "DOWN 47", "UP 5" or "plumb 43"'
    text = str(raw).strip() if isinstance(raw, str) else raw
    sign, plumb = 1.0, False
    if isinstance(text, str):
        plumb = "plumb" in text.casefold()
        sign = -1.0 if re.search(r"(?i)\bup\b", text) else 1.0
        text = re.sub(r"(?i)\b(plumb|down|up|from|off|level)\b", " ", text).strip()
    try:
        value = q.degrees(text)
    except Wrong:
        raise Wrong(expected) from None
    if not 0.0 <= value <= 90.0:
        raise Wrong(expected, "Say UP, without a sign." if value < 0 else "")
    return sign * (90.0 - value if plumb else value)


def _pan(raw: object) -> tuple[float, str]:
    """Degrees from square and the side swung to, from "22 SL", "SL 22" or "square"; bare: as printed."""
    expected = 'degrees from square, 0 to 90, with the side swung to: "22 SL", or "square"'
    text = str(raw).strip() if isinstance(raw, str) else raw
    side = ""
    if isinstance(text, str):
        if text.casefold() == "square":
            return 0.0, ""
        found = _SIDE.search(text)
        side = found[0].upper() if found else ""
        text = _SIDE.sub(" ", text).strip()
    try:
        value = q.degrees(text)
    except Wrong:
        raise Wrong(expected) from None
    if not 0.0 <= value <= 90.0:
        raise Wrong(expected, "Say the side as a word." if value < 0 else "")
    return value, side


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
