"""Positions that do not stand whole in cells of their own: a name over two rows, one with the number of its
unit or in the column of places, a letter among others of one sort."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.columns.nameclaims import sort_word
from aimcalc.scene.hanglist.names.kindbeside import BESIDE_UNIT
from aimcalc.scene.hanglist.names.meant import Meant, Names
from aimcalc.scene.hanglist.names.namewords import SORTS
from aimcalc.scene.hanglist.names.spelling import plain
from aimcalc.scene.hanglist.places.heights import FORMS
from aimcalc.scene.hanglist.rows.cellfits import parted_in
from aimcalc.scene.hanglist.rows.listrow import blank, position_and_number, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.records import Place

LONGEST_CELL = 200  # characters of a position with what is said beside it
FEWEST_OF_UNIT = 3  # filled cells of a row that holds a unit


def over_two_rows(rows: Iterable[Sequence[Any]], k: int, names: Names) -> dict[int, str]:
    """Positions whose names go on in the row below, by the indices of both: "TOWER" over "SL", each beside a
    unit: a word alone in its row stands over units of its own."""
    found: dict[int, str] = {}
    cells = [
        text_of(row[k]).strip()
        if k < len(row) and sum(not blank(cell) for cell in row) >= FEWEST_OF_UNIT
        else ""
        for row in rows
    ]
    for n, (first, second) in enumerate(pairwise(cells)):
        if not first or not second or n in found or first.casefold() == second.casefold():
            continue
        meant = names.find(first)
        if meant.name is not None or (names.find(second).sure and names.find(second).name):
            continue
        both = names.find(f"{first} {second}")
        if both.name and (both.sure or both.name in meant.several):
            found[n] = found[n + 1] = both.name
    return found


def spelled_by(heading: str, text: str, several: Iterable[str]) -> str:
    """The one of several names that the sort in a heading and a number below it spell: Bar 1 by "bar" over
    "1", 1st Electric by "Electric" over "1st", whatever side the unit is on, where
    Tower SL 1 has the number too. "" where none is."""
    if not _SHORT.fullmatch(text.strip()):
        return ""
    sorts = {*SORTS.intersection(meaning_words(heading)), *filter(None, [sort_word(heading)])}
    spelled = {plain(f"{sort} {text}") for sort in sorts} | {
        plain(f"{text} {sort}") for sort in sorts
    }
    for way in (plain, _unnumbered):  # "No. 1 Bar", by "Bar No." over "1"
        found = [name for name in several if way(name) in spelled]
        if found:
            return found[0] if len(found) == 1 else ""
    return ""


def _unnumbered(name: str) -> str:
    """A name as its letters alone, without the word of its number."""
    return plain(re.sub(r"(?i)\b(?:no|nr|number|num)\b\.?", " ", name))


def short_by(heading: str, text: str, several: Iterable[str], cells: Iterable[str]) -> str:
    """The one of several names whose sort a heading names and whose code stands below it: Perche 1 by "P1"
    under "Perche", where Pied 1 has the code too. "" where the heading names another sort or several, or
    where the column spells that sort in full, so that a code may be of another."""
    code = _CODE.fullmatch(text.strip())
    if code is None:
        return ""
    sorts = {*meaning_words(heading), sort_word(heading).casefold()}
    sorts |= {sort.removesuffix("s") for sort in sorts}
    begun = {sort for sort in sorts if sort.startswith(code[1].casefold()) and sort not in _ANY}
    spelled = {plain(f"{sort} {code[2]}") for sort in begun}
    found = [name for name in several if plain(name) in spelled]
    in_full = any(plain(cell).startswith(tuple(map(plain, begun))) for cell in cells)
    return found[0] if len(found) == 1 and not in_full else ""


_CODE = regex(r"([^\W\d_]{1,2})[\s.-]?(\d{1,2}[a-z]?)", re.IGNORECASE)
_ANY = frozenset(("", "position", "lx", "el", "e"))  # words for whatever lamps hang on


def of_one_sort(text: str, several: Iterable[str], cells: Iterable[str], names: Names) -> str:
    """The one of several names that a letter or a number means where the others of its column are of one
    sort: Grid A by "A", where "C" and "D" can be Grid C and Grid D alone. "" where they do not tell."""
    if not _SHORT.fullmatch(text):
        return ""
    sorts = set()
    for cell in set(cells):
        name = names.find(cell).name if _SHORT.fullmatch(cell) and cell != text else None
        if name is not None:
            sorts.add(_sort_of(name, cell))
    found = [name for name in several if _sort_of(name, text) in sorts]
    return found[0] if len(found) == len(sorts) == 1 else ""


_SHORT = regex(r"[^\W\d_]|\d{1,2}(?:st|nd|rd|th)?", re.IGNORECASE)


def _sort_of(name: str, cell: str) -> str:
    """A name without the letter or number that a cell says of it."""
    return re.sub(rf"(?i)(?<![^\W_]){re.escape(cell)}(?![^\W_])", "", name).strip().casefold()


def named_in_place(
    raw: dict[str, Any], positions: Names, fits: Callable[[str, Any], bool | None]
) -> Any:
    """The position of a unit that stands in its column of places, "stand SR", taken out; None where none
    does."""
    text = text_of(raw["at"]) if isinstance(raw.get("at"), str) else ""
    words = text[:1].isalpha() and not fits("at", text)
    return raw.pop("at") if words and positions.find(text).name is not None else None


def number_out(cell: Any, raw: dict[str, Any], positions: Names, noticed: Noticed) -> Any:
    """A position without the number of its unit behind it, "A/1", which goes into the row."""
    text = text_of(cell)
    if not position_and_number(text):
        return cell
    meant = positions.find(text)
    parted = None if meant.name and meant.sure else parted_in(text, positions)
    if parted is None or not parted[1][:1].isdigit():
        return cell
    raw["number"] = parted[1]
    noticed.read_as("position", text, f"{parted[0]}, number {parted[1]}")
    return parted[0]


def shelf_out(
    cell: Any,
    raw: dict[str, Any],
    remarks: list[tuple[str, Any]],
    places: Mapping[str, Place],
    positions: Names,
    noticed: Noticed,
) -> Any:
    """A boom without the shelf of its unit behind it, "SL 1 top", which numbers a unit that has no number and
    is a remark of another."""
    text = text_of(cell).strip()
    name, _, shelf = text.rstrip(")]").rpartition(" ")
    name, shelf = name.rstrip(" -–—,:/(["), shelf.strip("([-–—,:/")
    if shelf.casefold() not in FORMS or positions.written(text):
        return cell
    meant = positions.find(name)
    boom = meant.name is not None and places[meant.name].sort == "boom"
    if not boom or positions.find(text).name not in (None, meant.name):
        return cell
    if "number" in raw:
        remarks.append(("", shelf))
    else:
        raw["number"] = shelf
    noticed.read_as("position", text, f"{meant.name}, {shelf}")
    return meant.name


def side_out_of_number(cell: Any, raw: dict[str, Any], positions: Names, noticed: Noticed) -> Any:
    """A position whose side stands in the column of numbers, "FLR BASE" beside "L", with that side; its unit
    then has no number."""
    text, number = text_of(cell).strip(), text_of(raw.get("number", "")).strip()
    if not _SIDE_ALONE.fullmatch(number) or positions.find(text).name:
        return cell
    both = f"{text} {number}"
    name = positions.find(both).name or positions.near(both)
    if name is None:
        return cell
    del raw["number"]
    noticed.read_as("position", both, name)
    return name


_SIDE_ALONE = regex(r"[sh]?[./]?[lr]\.?|left|right|ps|op", re.IGNORECASE)


def group_over(row: Sequence[Any], positions: Names) -> str:
    """The word that several positions have in common, alone in a row over their units: "TRIPODS" over
    those of Tripod North and Tripod South; "" where a row is no such."""
    words = [text_of(cell) for cell in row if not blank(cell)]
    return group_of(words[0], positions) if len(words) == 1 else ""


def group_of(words: str, positions: Names) -> str:
    """The word in the singular that several positions have in common, as a title or a sheet names it, with
    what it says of them: "Perches - metres off the deck"; "" where it names none."""
    plain, *more = re.split(
        r"\s+[-–—]\s+|\s*[(:,;]", words.strip(" *_=~#<>|·•:-–—.[]{}"), maxsplit=1
    )
    if not re.fullmatch(r"[^\W\d_]{3,}(?: [^\W\d_]{3,})?", plain):
        return ""
    ends = (("s", ""), ("es", ""), ("ies", "y"))
    low = plain.casefold()
    singular = [plain[: -len(end)] + one for end, one in ends if low.endswith(end)]
    for single in (*singular, *([] if more else [plain])):
        several = positions.find(single).several
        if len(several) > 1 and all(_has_words(name, single) for name in several):
            return single
    return ""


def _has_words(name: str, words: str) -> bool:
    return set(words.casefold().split()) <= set(re.findall(r"[^\W\d_]+", name.casefold()))


def out_of_group(
    group: str,
    raw: dict[str, Any],
    remarks: list[tuple[str, Any]],
    positions: Names,
    noticed: Noticed,
) -> Any:
    """The position of a unit that says which of a group it is on, "N" of the tripods, as its number, its
    place or under a heading that is no key; None where it does not."""
    several = positions.find(group).several
    for key in ("number", "side", "at"):
        text = text_of(raw.get(key, "")).strip()
        told = re.search(r"[^\W\d_]", text)  # a bare number may be that of a unit
        name = positions.find(f"{group} {text}").name if told else None
        if name in several:
            del raw[key]
            noticed.read_as("position", f"{group}: {text}", name)
            return name
    named = [(each, positions.find(f"{group} {text_of(each[1])}").name) for each in remarks]
    named = [(each, name) for each, name in named if name in several]
    if len(named) != 1:
        return None
    ((each, name),) = named
    remarks.remove(each)
    noticed.read_as("position", f"{group}: {text_of(each[1])}", name or "")
    return name


def aside_out(
    cell: Any,
    raw: dict[str, Any],
    remarks: list[tuple[str, Any]],
    positions: Names,
    noticed: Noticed,
) -> Any:
    """A position without what is said of its unit behind it, "LX 1 spare", without the house's number of it,
    "LX 1 (bar 14)", or without the number of the unit, which is in its own column too, "LX1-4"."""
    text = text_of(cell).strip()
    if text.isdecimal() or len(text) > LONGEST_CELL or positions.find(text) != Meant():
        return cell
    begun = _CONTINUED.sub("", text)
    if begun != text and (name := positions.find(begun).name):
        noticed.read_as("position", text, name)
        return name
    parted = parted_in(text, positions)
    if parted and parted[1] == text_of(raw.get("number", "")).strip():
        noticed.read_as("position", text, f"{parted[0]}, number {parted[1]}")
        return parted[0]
    lineset = _LINESET.fullmatch(text)
    name = positions.find(lineset[1]).name if lineset else None
    if lineset and name and positions.find(lineset[2]).name in (None, name):
        remarks.append(("", lineset[2]))
        noticed.read_as("position", text, name)
        return name
    for mark in _BEHIND.finditer(text):
        words = text[mark.end() :].strip()
        meant = positions.find(text[: mark.start()])
        if meant.name and meant.sure and BESIDE_UNIT.fullmatch(words):
            remarks.append(("", words))
            noticed.read_as("position", text, meant.name)
            return meant.name
    return cell


_CONTINUED = regex(r"\W*\b(?:cont(?:['’]?d|inued)?|continues)\b\W*$", re.IGNORECASE)
_BEHIND = regex(r"\s+[-–—]\s+|\s*[,;]\s*|\s+")
_LINESET = regex(
    r"(.*\w)\s*[(\[]\s*((?:fly\W?|house\s+)?(?:bar|line\W?set|line|set|cwt|hemp|winch)\s*(?:no\.?|#)?\s*\d+[a-z]?)\s*[)\]]",
    re.IGNORECASE,
)
