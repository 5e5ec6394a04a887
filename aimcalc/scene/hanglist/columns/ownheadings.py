"""Headings in a list's own words: those that a line round the table explains, "Width from centre, depth from
plaster line", and the position of the units as one of them, "CATWALK" over their places."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, Fits, Shares
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, SIDE
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.sections import position_in
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.rows.listrow import blank

LONGEST = 20  # characters of such a heading

_BEHIND = (
    r"s?\b['’\"”»)]?\s*(?:=|:|-|\bis\b|\bare\b|\bmeans?\b)?\s*(?:(?:measured|taken|given|counted|distance|dist|down|up|in|mm|cm|m|metres|meters|ft"
    r"|feet|inches)\s+)*(?:from|off|above)\s+(?:the\s+)?"
    r"(c/?l\b|cent(?:re|er)(?:\s*line)?\b|plaster(?:\W?line)?\b|(?:sl|sr|us|ds)\s+end\b|deck\b|floor\b|ground\b|stage\b)"
)
_SAYS_WHAT = regex(r"in\s*(?:['’\"”»)]|[=:]|\b(?:is|means)\b)")
_UNIT = regex(r"[(\[]\s*([a-z]+|['\"])\s*[)\]]")


def headings_said(heading: str, lines: Iterable[str]) -> str:
    """A heading that means nothing in the trade's words, as a line says from where its figures count; ""
    where none does, or two do not agree."""
    plain = " ".join(_UNIT.sub(" ", heading.casefold()).split()).strip(" .:")
    if (
        not 1 < len(plain) <= LONGEST
        or not plain.replace(" ", "").isalpha()
        or plain in LENGTHS.keys() - {"in"}
    ):
        return ""
    told = {found[1] for line in lines for found in _explained(plain, line)}
    whence = {_as_heading(word) for word in told}
    if len(whence) != 1 or (meaning(heading).keys and plain != "in"):
        return ""
    unit = _UNIT.search(heading.casefold())
    return f"{whence.pop()} ({unit[1]})" if unit else whence.pop()


def _explained(plain: str, line: str) -> list[re.Match[str]]:
    if plain not in line.casefold():
        return []  # most lines: no pattern is made for them
    found = re.finditer(rf"\b{re.escape(plain)}{_BEHIND}", sides_plain(line))
    if plain != "in":
        return list(found)
    return [each for each in found if _SAYS_WHAT.match(each[0])]  # "In" = from the SL end


def _as_heading(word: str) -> str:
    """The trade's heading for figures that count from what a line says."""
    if word.startswith("plaster"):
        return "y"
    if word.endswith("end"):
        return f"from {word}"
    return "height" if word in ("deck", "floor", "ground", "stage") else "from centre"


def over_headings(
    cells: Sequence[Any], below: Sequence[list[Any]], positions: Names, fits: Fits
) -> int:
    """The column in which the position of the units stands among their headings; -1 where none does.
    "Position" itself names none, nor does a heading of positions beside another: "Where | Bar"."""
    if not 1 < heading_score(cells) < sum(not blank(cell) for cell in cells) + 1:
        return -1
    beside = sum(meaning(cell).keys == ("position",) for cell in cells) > 1
    for k, cell in enumerate(cells):
        if not isinstance(cell, str) or not cell.strip() or meaning(cell).exact:
            continue
        keys = meaning(cell).keys  # "Catwalk" may head a column of names; over places it is one
        if keys not in ((), ("position",)) or not position_in(cell, positions):
            continue
        if keys and beside:
            continue
        shares = Shares(_first_block(below, cells, k), fits)
        if shares("position", k) >= FITTING:
            continue  # "SL 1" over booms that are called so, "Rør" over names of pipes
        if not keys or shares("place", k) >= FITTING:
            return k
    return -1


def without_over(
    cells: Sequence[Any], below: Sequence[list[Any]], over: int, fits: Fits
) -> list[Any]:
    """The headings with that of places in the column whose heading names the position: where it holds
    lengths, another the numbers and none the places. Else nothing stands there."""
    others = [*cells[:over], "", *cells[over + 1 :]]
    keys = {key for cell in others if not blank(cell) for key in meaning(cell).keys}
    holds = Shares(_first_block(below, cells, over), fits)("at", over) >= FITTING
    if holds and "number" in keys and not keys & {"at", HEIGHT, SIDE, *AT_PARTS}:
        others[over] = "at"
    return others


def _first_block(
    below: Sequence[list[Any]], cells: Sequence[Any], over: int
) -> Sequence[list[Any]]:
    """The rows before the headings come again with another position."""
    end = next((n for n, row in enumerate(below) if again_over(row, cells, over)), len(below))
    return below[:end]


def again_over(row: Sequence[Any], cells: Sequence[Any], over: int) -> bool:
    """Whether a row is that of the headings again, with another position or the same."""
    here = list(row)
    return here[:over] + here[over + 1 :] == [*cells[:over], *cells[over + 1 :]]
