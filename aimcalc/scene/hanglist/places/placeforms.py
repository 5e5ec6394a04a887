"""Forms that places of a hang list have: with a side, beside another unit, in letters of the house."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import Column
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.heights import height_alone
from aimcalc.scene.hanglist.places.placeasides import aside_of
from aimcalc.scene.hanglist.places.placewords import from_plaster, read_place
from aimcalc.scene.hanglist.places.shelves import shelf_of
from aimcalc.scene.hanglist.rows.listrow import Around, float_of, text_of
from aimcalc.scene.mistakes import Wrong

SIDED = regex(
    r"(?<![^\W\d_])(?:s\W?[lr]|u\W?s|d\W?s|h\W?[lr])\b|stage|house|cam(?:era)?\b|cent|c/?l\b|mark"
    r"|jardin|\bcour\b|(?:on|in)\sax[ei]s?\b",
    re.IGNORECASE,
)
_PROMPTED = regex(
    r"^\W*(?:p\W?s|o\W?p)\b|(?<![^\W\d_])(?:p\W?s|o\W?p)\W*$", re.IGNORECASE
)  # "6m OP"
# "+ 2,00 m from lamp 1": a place that counts from another unit by its number, or from the last one.
RELATIVE = regex(
    r"\s*\+?\s*(\d[^a-z]*?(?:'|\"|[a-z]{1,6})?)\s+(?:from|after|past|beyond)\s+(?:the\s+)?"
    r"(?:(?:lamp|unit|light|lantern|fixture|instrument|no|nr|number|#)\W*(\d+)|(?:last|previous)(?:\s+\w+)?)\s*",
    re.IGNORECASE,
)
_RELATES = ("from", "after", "past", "beyond")


def says_side(text: str) -> bool:
    """Whether a place says its side, or a mark, PS and OP too."""
    return bool(SIDED.search(text) or _PROMPTED.search(text))


def is_relative(cell: str) -> bool:
    """Whether a place counts from another unit."""
    return any(word in cell.casefold() for word in _RELATES) and bool(RELATIVE.fullmatch(cell))


OFF_CENTRE = regex(
    r"\b(?:of|from|off)\s+(?:the\s+)?(?:c\W?l\b\.?|cent(?:re|er)(?:\W?line)?\b|ctr\b\.?|mid(?:dle)?\b)",
    re.IGNORECASE,
)
# No letter of the centre line: "C.L.", "C/L", "C. L.".
BARE_SIDE = regex(
    r"(?<![^\W\d_])(?<!\bc[./-])(?<!\bc\. )(?:(l|left)|r|right)(?![^\W\d_])\.?", re.IGNORECASE
)


def bare_as(whose: str, text: str) -> str:
    """A bare L or R as SL or SR, seen from the stage or from the house; as it is where nobody says."""
    if not whose:
        return text
    left, right = ("SL", "SR") if whose == "stage" else ("SR", "SL")
    return BARE_SIDE.sub(lambda found: f" {left if found[1] else right} ", text).strip()


def prompt_sides(around: Around) -> tuple[tuple[str, str], ...]:
    """Which side PS and OP are, where booms that are named after them stand so; else nothing."""
    told = set()
    for name, place in around.places.items():
        words = re.findall(r"[a-z]+", prompt_plain(name.casefold()))
        for word in {"ps", "op"} & set(words) if place.x else ():
            told.add((word == "ps") == (place.x > 0))
    if len(told) != 1:
        return ()
    return (("ps", "SL"), ("op", "SR")) if told.pop() else (("ps", "SR"), ("op", "SL"))


def garden_sides(around: Around) -> tuple[tuple[str, str], ...]:
    """The letters of cour, stage left, and jardin, stage right (common practice, no source), behind a figure
    or before one, where the scene has names with these words."""
    words = {w for name in (*around.places, *around.targets) for w in name.casefold().split()}
    if not {"cour", "jardin", "corte", "giardino", "tuin"} & words:
        return ()
    return tuple(
        (beside, side)
        for letter, side in (("c", "SL"), ("j", "SR"))
        for beside in (rf"{_BEHIND_FIGURE}{letter}", rf"{letter}(?=\s*\d)")
    )


_BEHIND_FIGURE = (
    "(?:"
    + "|".join((r"(?<=\d)\s*", *(rf"(?<=\d{s}{u} )" for u in ("m", "cm", "mm") for s in ("", " "))))
    + ")"
)


def placed_else(cell: Any, column: Column) -> Any:
    """A place out of a second column of places, with the unit and the line or end that its heading says."""
    text, meaning = text_of(cell).strip(), column.meaning
    unit = f" {meaning.unit}" if meaning.unit and float_of(text) is not None else ""
    line = " of the plaster line" if meaning.plaster else ""
    figure = float_of(text)
    way = meaning.plus or ("US" if _UPSTAGE.search(column.heading) else "")
    if line and way in ("US", "DS") and figure is not None and not meaning.sides:
        text = text.lstrip("-−–+ ")
        line = f" {way if figure >= 0 else {'US': 'DS', 'DS': 'US'}[way]}{line}"
    line = f" from {meaning.end} end" if meaning.end and "end" not in text.casefold() else line
    return f"{text}{unit}{line}" if unit or line else cell


_UPSTAGE = regex(r"\bup\W?stage\b|\bu/?s\b", re.IGNORECASE)


def is_middle_letter(text: str) -> bool:
    """Whether a cell of sides or places is the first letter of the middle in most languages, and no metre."""
    return text.strip(" .") == "M"


def is_place(cell: Any, unit: str) -> bool:
    """Whether a cell can be a place, or is asked about as one."""
    cell, _ = from_plaster(cell)
    shelf = shelf_of(cell)
    cell = shelf.height if shelf else cell
    aside = aside_of(cell)
    if aside is not None:
        return is_place(aside.place, unit)
    if isinstance(cell, str) and cell.strip().casefold() in ("middle", "mid", "in the middle"):
        return True
    try:
        read_place(height_alone(cell), Along(unit, "any", True))
    except Wrong as wrong:
        return (
            "SL or SR" in wrong.expected
            or "reads in one way" in wrong.expected
            or "marks" in wrong.expected
        )
    return True
