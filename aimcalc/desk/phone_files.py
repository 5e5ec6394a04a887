"""The files that phones give back, joined: landings with landings, ticks with ticks, nothing of either lost.

A row that another says it takes the place of (`over`) was put right by somebody who saw it, and is left out
of landings; in ticks all rows stay, since they are what happened. What two phones say of one thing and
did not know of each other is told, and stays.
"""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Iterator, Sequence

from aimcalc.landings.readings import SAME_SPOT
from aimcalc.named import NamedTuple
from aimcalc.scene.files import csv_rows, read_whole
from aimcalc.scene.hanglist.table.sheetfile import HANG_MEGABYTES, decoded
from aimcalc.scene.hanglist.table.textmarks import MARKS
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import FILE, MISSING, Log, SceneError, Where, Wrong
from aimcalc.text.words import count

SPOT = {"x": "x", "y": "y", "height": ""}  # of a landing: its lengths, and the sides each may have
SET = ("on", "down", "pan", "sight")
LANDINGS, TICKS = "landings", "ticks"
Row = dict[str, str]


class Joined(NamedTuple):
    """Rows by their headings, in the order of the files; `told` is a sentence for each thing that differs."""

    what: str
    heads: list[str]
    rows: list[Row]
    told: list[str]
    corrected: int  # rows left out because another takes their place


def joined(paths: Sequence[str]) -> Joined:
    """The rows of phones' files as one list. Raises SceneError with what is wrong with which file."""
    log, found = Log(), []
    for path in paths:
        try:
            found.append(_read(path))
        except Wrong as wrong:
            log.add(Where(os.path.basename(path), ""), "", wrong, os.path.basename(path))
    sorts = {what for what, _, _ in found}
    if len(sorts) > 1 and not log.mistakes:
        advice = "Join landings with landings, ticks with ticks."
        mixed = Wrong("files of one sort", advice, rank=FILE)
        log.add(Where(os.path.basename(paths[-1]), ""), "", mixed, " and ".join(sorted(sorts)))
    if log.mistakes:
        raise SceneError(log.mistakes[0].file, log.mistakes)
    heads = list(dict.fromkeys(head for _, each, _ in found for head in each))
    every = {tuple(sorted(row.items())): row for _, _, rows in found for row in rows}
    rows, (what,) = list(every.values()), sorts
    if what == TICKS:
        return Joined(what, heads, rows, [*_changed(rows), *_ticks_differ(rows)], 0)
    open_ = _open(rows)
    told = [*_changed(open_), *_spots_differ(open_)]
    return Joined(what, heads, open_, told, len(rows) - len(open_))


def joined_bytes(found: Joined) -> bytes:
    """The rows as comma-separated UTF-8 with a mark in front, by which a spreadsheet knows it."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, found.heads, restval="")
    writer.writeheader()
    writer.writerows(found.rows)
    return text.getvalue().encode("utf-8-sig")


def joined_text(found: Joined, path: str) -> str:
    """What was joined, and a line for each thing that phones differ on."""
    left = ""
    if found.corrected:
        left = f" {count(found.corrected, 'row')} left out: put right later."
    first = f"{path}: {count(len(found.rows), 'row')} of {found.what}.{left}"
    return "\n".join([first, *found.told])


def _read(path: str) -> tuple[str, list[str], list[Row]]:
    """The sort of a file, its headings, its rows without what is empty."""
    text = decoded(read_whole(path, HANG_MEGABYTES))[0]
    first = text.partition("\n")[0]
    lines = csv_rows(text, max(MARKS, key=first.count))
    heads = [head.strip() for head in next(iter(lines), [])]
    if "unit" not in heads or not {"tick", *SPOT} & set(heads):
        came = ", ".join(filter(None, heads))[:60] or "nothing"
        raise Wrong(
            "a file saved from the phone's page: headings position, unit, and x, y or tick",
            "Save it from More, on the page.",
            came=came,
            rank=MISSING,
        )
    rows = []
    for cells in lines:
        row = {h: c.strip() for h, c in zip(heads, cells, strict=False) if h and c.strip()}
        if row:
            rows.append(row)
    return (TICKS if "tick" in heads else LANDINGS), [h for h in heads if h], rows


def _unit(row: Row) -> str:
    return "/".join(filter(None, (row.get("position", ""), row.get("unit", ""))))


def _by(rows: Sequence[Row], *keys: str) -> Iterator[tuple[str, list[Row]]]:
    """The rows of each unit, or of each thing of it, where there is more than one."""
    groups: dict[tuple[str, ...], list[Row]] = {}
    for row in rows:
        name = (_unit(row).casefold(), *(row.get(key, "") for key in keys))
        groups.setdefault(name, []).append(row)
    for mine in groups.values():
        if len(mine) > 1:
            yield _unit(mine[0]), mine


def _open(rows: Sequence[Row]) -> list[Row]:
    """Rows that no other says it takes the place of."""
    gone = {each for row in rows for each in row.get("over", "").split("+") if each}
    return [row for row in rows if row.get("id", "") not in gone or "id" not in row]


def _changed(rows: Sequence[Row]) -> Iterator[str]:
    """Rows of one name that read differently: somebody has edited a file."""
    seen: dict[str, Row] = {}
    for row in rows:
        if row.get("id") and seen.setdefault(row["id"], row) is not row:
            yield f"{_unit(row)}: the row {row['id']} was edited in one of the files. Both are kept."


def _who(row: Row) -> str:
    return f"on {row['phone']}" if row.get("phone") else "in one of the files"


def _spots_differ(rows: Sequence[Row]) -> Iterator[str]:
    for unit, mine in _by(rows):
        if any(not _same(mine[0], row) for row in mine[1:]):
            spots = "; ".join(f"{_spot(row)} {_who(row)}" for row in mine)
            yield f"{unit} landed at {spots}. All are kept: look again, strike out what is wrong."


def _spot(row: Row) -> str:
    keys = (*SPOT, *SET)
    words = [f"{k} {row[k]}" if k not in ("x", "y") else row[k] for k in keys if row.get(k)]
    return ", ".join(words)


def _same(a: Row, b: Row) -> bool:
    """Whether two rows are of one spot, set alike: nearer than anybody reads it."""
    if any(a.get(key, "") != b.get(key, "") for key in SET):
        return False
    return all(_near(a.get(key, ""), b.get(key, ""), sides) for key, sides in SPOT.items())


def _near(a: str, b: str, sides: str) -> bool:
    """Whether two lengths with their units are one spot's; of what is no length, whether it reads alike."""
    if a == b or not (a and b):
        return a == b
    try:
        return abs(parse_length(a, "m", sides) - parse_length(b, "m", sides)) <= SAME_SPOT
    except Wrong:
        return False


def _ticks_differ(rows: Sequence[Row]) -> Iterator[str]:
    for unit, mine in _by(_open(rows), "tick"):
        if len({row.get("value", "") for row in mine}) < 2:
            continue
        tick = mine[0].get("tick", "")
        said = "; ".join(f"{row.get('value', 'nothing')} {_who(row)}" for row in mine)
        does = "All are kept." if tick == "note" else "It counts as not done: look at the unit."
        yield f"{unit}, {tick}: {said}. {does}"
