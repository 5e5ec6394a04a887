"""A scene begun from somebody's hang list: what the list names is there, what only the stage can tell
is asked.

A value of "?" is an open question (`aimcalc.scene.document`); `aimcalc check` lists them all.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.document import QUESTIONS
from aimcalc.scene.hanglist.columns.columnkeys import LENS, Headings
from aimcalc.scene.hanglist.columns.columnsteps import headings_of
from aimcalc.scene.hanglist.names.kindtrade import KIND_SPARE, KIND_WORDS
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.spelling import plain
from aimcalc.scene.hanglist.rows.listrow import blank, is_total, position_and_number, text_of
from aimcalc.scene.hanglist.table.findhead import LOOKED_AT, find_head, headings_again, no_table
from aimcalc.scene.hanglist.table.sheetfile import Sheet, read_sheets
from aimcalc.scene.loading import generic_tables
from aimcalc.scene.mistakes import FILE, Wrong

MOST_NAMES = 500  # of one sort; a list with more is no hang list
MOST_READ = 20_000  # rows
_BOOM = re.compile(r"\b(?:boom|ladder|tree|tower|torm)s?\b", re.IGNORECASE)
_STAND = re.compile(r"\b(?:stand|floor|deck|ground|trap)s?\b", re.IGNORECASE)
_FEET = re.compile(r"\d\s*(?:['’′\"”″]|ft\b|feet|in\b|inch)|\d\s*-\s*\d", re.IGNORECASE)
_METRES = re.compile(r"\d\s*(?:m|cm|mm|metres?|meters?)\b|\dm\d", re.IGNORECASE)


class Found(NamedTuple):
    """What a list names, each in the order in which it comes."""

    positions: list[str]
    kinds: list[str]
    targets: list[str]
    places: list[str]
    unit: str | None
    sheet: str | None  # where several may have the units
    other_sheets: list[str]
    columns: dict[str, tuple[str, str]]  # key -> the column guessed, and what it may be too


def begun(path: str, name: str) -> str:
    """The text of a scene for the hang list at `path`, which will lie beside it as `name`.

    Raises:
        Wrong: when the list cannot be read, or holds no units.
    """
    found = _look(path, name)
    if not found.positions and not found.kinds:
        raise Wrong("a hang list with units in it", came="none", rank=FILE)
    return "\n".join(_text(found, name)) + "\n"


# --- what is there -----------------------------------------------------------------------------------


def _look(path: str, name: str) -> Found:
    sheets = read_sheets(path, name).sheets
    heads = [find_head(sheet.rows) for sheet in sheets]
    lists = [k for k, head in enumerate(heads) if head.score]
    lists = [k for k in lists if not sheets[k].hidden] or lists
    if not lists:
        raise no_table(heads[0], sheets[0].name)
    head, sheet = heads[lists[0]], sheets[lists[0]]
    cells = head.headings()
    below = [row for row in head.rows[head.last + 1 :] if not all(map(blank, row))]
    place = head.first + 1, head.last + 1
    headings, asked = headings_of(cells, place, below[:LOOKED_AT], _says_nothing, {})
    columns = {}
    for column, wrong in asked:
        key = wrong.expected.removeprefix("one column that holds the ").partition(",")[0]
        mine = headings.by_key.get(key)
        if mine is not None:
            columns[key] = mine.heading, str(cells[column])
    rows = islice(head.all_rows(), head.last + 1, MOST_READ)
    return _gathered(
        list(_cells(rows, headings, sheet, head.last + 1)),
        headings,
        sheet=sheet.name if len(lists) > 1 else None,
        others=[sheets[k].name for k in lists[1:]],
        columns=columns,
    )


def _says_nothing(key: str, cell: Any) -> bool | None:
    """No scene is there that could say what fits; but a unit's number has a digit."""
    return any(map(str.isdigit, text_of(cell))) if key == "number" else None


def _cells(
    rows: Iterable[list[Any]], headings: Headings, sheet: Sheet, first: int
) -> Iterator[dict[str, Any]]:
    """The cells of each row by key; a row with one cell alone has it under "alone"."""
    keys = {column.place: column.key for column in headings.columns}
    for row in rows:
        filled = {k: cell for k, cell in enumerate(row) if not blank(cell)}
        if not filled or headings_again(row, headings):
            continue
        if len({text_of(cell) for cell in filled.values()}) == 1:
            yield {"alone": next(iter(filled.values()))}
        elif not is_total(text_of(next(iter(filled.values())))):
            yield {keys[k]: cell for k, cell in filled.items() if k in keys}


def _gathered(
    rows: list[dict[str, Any]],
    headings: Headings,
    *,
    sheet: str | None,
    others: list[str],
    columns: dict[str, tuple[str, str]],
) -> Found:
    units = [row for row in rows if "kind" in row or "target" in row]
    positions = [text_of(row["position"]) for row in units if "position" in row]
    if "position" not in headings.by_key:
        positions = [text_of(row["alone"]) for row in rows if "alone" in row]
        positions = [one for one in positions if not is_total(one) and not one.isdigit()]
        split = (position_and_number(text_of(row.get("number", ""))) for row in units)
        positions = positions or [parts[1] for parts in split if parts]
    kinds = [_kind_text(row) for row in units]
    places = [text_of(row["at"]) for row in units if "at" in row]
    at = headings.by_key.get("at")
    return Found(
        positions=_each(positions),
        kinds=_each(kind for kind in kinds if kind),
        targets=_targets(text_of(row["target"]) for row in units if "target" in row),
        places=places,
        unit=_unit(places, at.meaning.unit if at else ""),
        sheet=sheet,
        other_sheets=others,
        columns=columns,
    )


def _kind_text(row: dict[str, Any]) -> str:
    """A kind as it is written; its family and its degrees where they have a column each."""
    parts = [text_of(row[key]) for key in ("kind", LENS) if key in row]
    return " ".join(parts)


def _each(names: Iterable[str]) -> list[str]:
    """Names that differ by more than case, spaces and punctuation, as they are written first."""
    first: dict[str, str] = {}
    for name in names:
        clean = "".join(c for c in " ".join(name.split()) if c.isprintable())[:100]
        if plain(clean):
            first.setdefault(plain(clean), clean)
    return list(first.values())[:MOST_NAMES]


def _targets(written: Iterable[str]) -> list[str]:
    """The targets of a list; what is a shorter word for one that is there, is none of its own."""
    single = [
        part for text in written for part in re.split(r"\s*(?:[,;/&+]|\band\b)\s*", text) if part
    ]
    names = _each(single)
    long = sorted(names, key=lambda name: -len(name))
    kept: list[str] = []
    for name in long:
        if Names(kept, ordered=True).find(name).name is None:
            kept.append(name)
    return [name for name in names if name in kept]


def _unit(places: list[str], heading: str) -> str | None:
    """The unit that places are written in: ft or m; None where they do not say."""
    if heading:
        return "ft" if heading in ("ft", "in") else "m"
    feet = sum(bool(_FEET.search(place)) for place in places)
    metres = sum(bool(_METRES.search(place)) for place in places)
    return None if feet == metres else ("ft" if feet > metres else "m")


# --- what is written ---------------------------------------------------------------------------------


def _text(found: Found, name: str) -> Iterator[str]:
    yield f"# Begun from {_comment(name)}."
    yield '# A value of "?" is a question that only the stage, the plot or a tape'
    yield "# can answer: write the answer in its place. aimcalc check lists those that are still open."
    yield ""
    yield "[scene]"
    yield from _asked("scene", "title")
    if found.unit:
        yield f'unit = "{found.unit}"' + _beside("as the places in the list are written")
    else:
        yield from _asked("scene", "unit")
    yield f"hang = {_quoted(name)}"
    if found.sheet is not None:
        others = ", ".join(found.other_sheets)
        yield f"hang_sheet = {_quoted(found.sheet)}" + _beside(f"guessed: it may be {others}")
    yield ""
    yield "# [stage]"
    yield f"# outline = ...{_beside('the corners of the deck, in order: [[x, y], ...], x to SL, y upstage')}"
    if found.columns:
        yield ""
        yield "[hang_columns]"
        for key, (mine, other) in found.columns.items():
            yield f"{key} = {_quoted(mine)}" + _beside(f"guessed: it may be {other}")
    for position in found.positions:
        sort, keys = _sort(position)
        guessed = "" if sort == "pipe" else _beside("a " + sort + ", guessed from its name")
        yield from ("", f"[[{sort}]]{guessed}", f"name = {_quoted(position)}")
        for key in keys:
            yield from _asked(sort, key)
    for target in found.targets:
        yield from ("", "[[target]]", f"name = {_quoted(target)}")
        yield from (*_asked("target", "x"), *_asked("target", "y"))
    yield from _kinds(found.kinds)


def _sort(position: str) -> tuple[str, tuple[str, ...]]:
    """What a position is by its name, and what has to be asked of it."""
    if _BOOM.search(position):
        return "boom", ("x", "y", "height")
    if _STAND.search(position):
        return "stand", ("x", "y")
    return "pipe", ("trim", "y", "from", "to")


def _kinds(kinds: list[str]) -> Iterator[str]:
    generic = Names(generic_tables(), KIND_WORDS, KIND_SPARE)
    known = [(kind, generic.find(kind).name) for kind in kinds]
    read = [f"{_comment(kind)} is read as {name}" for kind, name in known if name and kind != name]
    if read:
        yield from ("", "# Kinds with typical figures, guessed from what the list says:")
        yield from (f"#   {line}" for line in read)
        yield "# Give a kind of your own, by the same name as in the list, where they are others."
    for kind, name in known:
        if name is None:
            yield from _own_kind(kind)


def _own_kind(kind: str) -> Iterator[str]:
    words = [KIND_WORDS[0].get(word) for word in re.findall(r"[a-z]+", kind.lower())]
    family = next((word for word in words if word), None)
    degrees = re.findall(r"(\d{1,2})\s*(?:°|deg)", kind) or re.findall(
        r"(?<!\d)(\d{2})(?!\d|\s*\")", kind
    )
    yield from ("", "[[kind]]", f"name = {_quoted(kind)}")
    if family:
        yield f'family = "{family}"' + _beside("guessed from its name")
    else:
        yield from _asked("kind", "family")
    if len(degrees) == 1 and 5 <= int(degrees[0]) <= 90:
        yield f"field = {int(degrees[0])}" + _beside("guessed from its name: degrees, full angle")
    else:
        yield from _asked("kind", "field")


def _asked(table: str, key: str) -> Iterator[str]:
    yield f'{key} = "?"' + _beside(QUESTIONS[table, key])


def _beside(comment: str) -> str:
    return f"    # {_comment(comment)}"


def _comment(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in text)


def _quoted(text: str) -> str:
    """A TOML string."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
