"""Rows of a list as people keep it, CSV, a workbook or TOML, by the words of its headings."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import Any

from aimcalc.scene.document import parse
from aimcalc.scene.files import csv_rows, read_whole
from aimcalc.scene.hanglist.columns.columnkeys import column_letters
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.hanglist.table.sheetfile import (
    ENDINGS,
    HANG_MEGABYTES,
    TEXTS,
    decoded,
    read_sheets,
)
from aimcalc.scene.hanglist.table.textmarks import MARKS
from aimcalc.scene.mistakes import FILE, MISSING, UNKNOWN, Log, Where, Wrong, show

MOST_ROWS = 5_000
LOOKED_AT = 60  # first rows among which the headings are looked for
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
