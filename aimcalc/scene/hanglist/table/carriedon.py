"""Units of one rig on several sheets of the same headings, whose numbers go on from one to the next: the
house rig, and the specials that are added to it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import chain, combinations
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, Headings
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.sections import position_in
from aimcalc.scene.hanglist.rows.cellfits import parted_in
from aimcalc.scene.hanglist.rows.listrow import blank, text_of
from aimcalc.scene.hanglist.table.findhead import LOOKED_AT, Head

Unit = tuple[str, str, str, str]  # position, number, place and channel, as they are written


class Part(NamedTuple):
    """One of several sheets: its name and titles, its other cells, the keys of its headings and its units;
    these are None where a row of it can not be told."""

    name: str
    titles: tuple[str, ...]
    cells: tuple[str, ...]
    keys: frozenset[str]
    units: list[Unit] | None


def carried_on(parts: Sequence[Part]) -> bool:
    """Whether sheets hold different units of one rig, by what they say and by their numbers."""
    if any(not part.units for part in parts) or len({part.keys - {"note"} for part in parts}) > 1:
        return False
    said = ["; ".join((part.name, *part.titles)) for part in parts]
    if any(_OTHERWISE.search(words) for words in said):
        return False
    if any(_INSTEAD.search(cell) for part in parts for cell in part.cells):
        return False
    if len({frozenset(_YEAR.findall(words)) for words in said}) > 1:
        return False
    added = (
        sum(bool(_ADDED.search(words)) for words in said) == 1
    )  # those of two shows may change over
    paged = all(_PAGE.search(words) for words in said)
    if not (added or paged):
        return False
    units = [part.units or [] for part in parts]
    return _apart(units) and any(_go_on(way, gaps=added) for way in (units, units[::-1]))


def part_of(
    name: str, head: Head, headings: Headings, below: list[list[Any]], positions: Names
) -> Part:
    """The sheet of this name beside others that may go on with its units."""
    titles, cells = (
        tuple(text_of(cell) for row in rows for cell in row if not blank(cell))
        for rows in (head.above, below)
    )
    keys = frozenset(headings.by_key)
    told = {"number", "kind", "target"} <= keys and len(head.rows) < LOOKED_AT
    return Part(
        name, titles, cells, keys, _units(headings, below, name, positions) if told else None
    )


def _units(
    headings: Headings, below: list[list[Any]], name: str, positions: Names
) -> list[Unit] | None:
    """The units of a sheet as they are written; None where one can not be told."""
    position = position_in(name, positions) or ""
    units: list[Unit] = []
    for row in below:
        filled = [text_of(cell) for cell in row if not blank(cell)]
        over = position_in(filled[0], positions) if len(filled) == 1 else None
        if over:
            position = over
            continue
        cells = {
            key: text_of(row[column.place]).strip()
            for key, column in headings.by_key.items()
            if column.place < len(row) and not blank(row[column.place])
        }
        place = "".join(cells.get(key, "") for key in ("at", HEIGHT, *AT_PARTS)).casefold()
        cell, number = cells.get("position", ""), cells.get("number", "")
        parted = parted_in(number, positions) if number and not cell else None
        if parted:
            cell, number = parted
        position = positions.find(cell).name or cell or position
        if number and position:
            units.append((position, number, place, cells.get("channel", "")))
        elif place:
            return None
    return units


def _apart(units: Sequence[Sequence[Unit]]) -> bool:
    """Whether no unit, place of a position or channel is on two sheets."""
    held = [
        {(position, number) for position, number, _, _ in each}
        | {(position, "at", place) for position, _, place, _ in each if place}
        | {channel for _, _, _, channel in each if channel}
        for each in units
    ]
    return not any(one & other for one, other in combinations(held, 2))


def _go_on(units: Sequence[Sequence[Unit]], *, gaps: bool) -> bool:
    """Whether the numbers of each position go on from sheet to sheet, with `gaps` after any number."""
    last: dict[str, int] = {}
    if not all(number.isdecimal() for _, number, _, _ in chain.from_iterable(units)):
        return False
    for each in units:
        numbers: dict[str, list[int]] = {}
        for position, number, _, _ in each:
            numbers.setdefault(position, []).append(int(number))
        for position, found in numbers.items():
            before, first = last.get(position), min(found)
            if before is not None and not (first > before if gaps else first == before + 1):
                return False
        last |= {position: max(found) for position, found in numbers.items()}
    return True


# A name or a title that says that its units are an addition to others.
_ADDED = regex(
    r"\b(?:specials?|add(?:ed|s|itions?|itional|-?ons?)|extras?|(?:more|further)\s+(?:units?|lights?|lamps?|lanterns?|fixtures?)"
    r"|supplement\w*|continued|cont(?:['’]?d)?|zusätz\w*|zusatz\w*|spezial\w*|sonder\w*|spéciaux|supplément\w*|complément\w*|ajouts?"
    r"|ajoutée?s|speciali|speciale|aggiunt\w*|especiales|añadid\w*|toegevoegd\w*|aanvull\w*|tillägg\w*)\b",
    re.IGNORECASE,
)
_PAGE = regex(
    r"\b(?:page|p|sheet|pg|seite|blatt|tabelle|feuil(?:le)?|foglio|hoja|blad|part|teil)\s*\.?\s*\d+\b",
    re.IGNORECASE,
)
# One that says that they may not be: another time, another show, another choice, or lamps that do not hang.
_OTHERWISE = regex(
    r"\b(?:old|cop(?:y|ies)|backup|draft|superseded|archive|prev(?:ious)?|ver(?:sion)?|v\s?\d+|rev(?:ision)?"
    r"|spares?|strike|struck|stor(?:es?|ed|age)|stock|hire|hired|rentals?|returns?|returned|workshop|repairs?"
    r"|inventory|unused|broken|out of use|cut|removed?|not (?:yet|hung|used|in use|needed)"
    r"|alt|alternat\w*|options?|optional|variants?|proposed|proposal|plan [b-z]|if|maybe|perhaps"
    r"|tbc|tba|wish\w*"
    r"|other|another|next|earlier|later|former|last|original|new|now|before|after|re-?hang|changeover"
    r"|turn-?(?:around|over)|night|matin[eé]e|evening|afternoon|morning|(?:mon|tues|wednes|thurs|fri|satur|sun)day"
    r"|(?:mon|tue|wed|thu|fri|sat|sun)s?|tour(?:ing)?|venue|casts?"
    r"|(?:show|act|play|piece|day|week|bill|programme|program|performance|half)\s*(?:\d+|i{1,3}|iv|v|[a-d]|one|two|three)"
    r"|(?:first|second|third|1st|2nd|3rd)\s+(?:show|act|play|piece|day|week|half|house)"
    r"|alte|alter|altes|neue?|ersatz|lager|reserve|réserve|ancien\w*|nouveau|nouvelle|variante\w*"
    r"|vecchi\w|nuov\w|viej\w|nuev\w|oude?|nieuwe?|gammal|ny|magazijn|magazzino|abend|soir\w*|sera|noche)\b"
    r"|instead|replac|\bin (?:the )?place of|\bin lieu",
    re.IGNORECASE,
)
_INSTEAD = regex(
    r"\b(?:instead|replac(?:es|ed|ing|ement)|in (?:the )?place of|in lieu|swap(?:s|ped)?|substitut\w*"
    r"|statt|anstelle|anstatt|ersetzt|au lieu|à la place|remplac\w*|al posto|sostitui\w*|invece|en lugar"
    r"|en vez|reemplaz\w*|in plaats|vervang\w*|i stället|ersätter)\b",
    re.IGNORECASE,
)
_YEAR = regex(r"\b(?:19|20)\d\d\b")
