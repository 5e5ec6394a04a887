"""Columns of places, one a side: left and right, PS and OP, court and garden, with one of the middle between
them or without."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnclaims import Claiming
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.rows.listrow import blank, float_of, text_of
from aimcalc.scene.hanglist.tongues.tongues import in_english, says_middle

# Whose they are, somebody must say.
BARE = (("left", "right"), ("l", "r"), ("vä", "hö"), ("ve", "hø"), ("left", "dir"), ("left", "der"))
PROMPT = (("ps", "op"), ("p", "o"))
GARDEN = (("cour", "jardin"), ("court", "garden"), ("c", "j"))  # stage left, stage right
# Letters of left and right in other languages, which a line explains.
TONGUES = (("v", "h"), ("g", "d"), ("e", "d"), ("i", "d"), ("s", "d"), ("l", "p"), ("v", "o"))
MIDDLE = frozenset(("centre", "center", "cl", "c", "c/l", "middle", "mid", "axis", "axe"))
ON_MIDDLE = frozenset(
    ("x", "cl", "c", "c/l", "centre", "center", "middle", "axis", "axe", "✓", "●")
)
VAGUE = frozenset(("where", "pos", "posn", "position", "location", "loc", "place", "at", "hung"))
LONGEST_SIDE = 200  # characters of a heading that names a side
SIDES_ALONE = 0.8  # of the cells of a column that is nothing else; a total may stand below them
MOSTLY = 0.9  # of the cells of a column that have their side before them
USUAL = {"ps": "SL", "op": "SR"}  # common practice, no source

NAMED = (("sl", "sr"),)  # with a column of the middle between them
_SIDES = frozenset(word for pair in (*BARE, *PROMPT, *GARDEN, *NAMED) for word in pair)
_BEFORE_SIDE = regex(
    r"^(?:(?:to|out|off|dist(?:ance)?|offset|meas(?:ure(?:ment)?)?|how\s+far|towards?|the|place|location"
    r"|from\s+(?:the\s+)?(?:cent(?:re|er)(?:\s*line)?|middle|cl|c/l))\b\.?\s*)+"
)
_BEHIND_SIDE = regex(r"\s+side(?:\s+of\s+(?:the\s+)?(?:cent(?:re|er)(?:\s*line)?|cl))?$")
_UNIT_FIRST = regex(r"^([a-z]+)\s+(.*)$")
_OFF_MIDDLE = regex(r"\s+(?:of|off|from)\s+(?:the\s+)?(?:cent(?:re|er)(?:\s*line)?|middle|cl|c/l)$")
# Of a heading over two columns, with that below it: "Offset (ft)" and SR.
_UNIT_BETWEEN = regex(
    r"^([^(\[,\d]+?)(?:\s*[(\[]\s*(?:in\s+)?([a-z]+)\s*[)\]]|,?\s(ft|feet|m|cm|mm|metres|meters|inches))"
    r"\s+(?!of\b|off\b|from\b)(?=[a-z])"
)
_UNIT = regex(r"^(.*?)\W*[(\[]?\s*\b(?:in\s+)?([a-z]+)\W*$")


def sides_first(c: Claiming) -> None:
    """Take a column of positions that holds places with the side before them for that of places, "Where" over
    L 4 and R 2.5, where another names the positions, or the sheet (`placed`): L1 alone may be a ladder.
    One of sides alone, SL and SR, gives up the position to another."""
    several = c.claims.get("position", [])
    vague = [k for k in several if VAGUE.issuperset(meaning_words(c.texts[k]))]
    sides = [k for k in vague if c.share("which side", k) >= SIDES_ALONE]
    if 0 < len(sides) < len(several):
        c.claims["position"] = several = [k for k in several if k not in sides]
    if "at" in c.claims or "at" in c.keys.values() or not (c.placed or len(several) > 1):
        return
    found = [k for k in vague if k in several and c.share("side first", k) >= MOSTLY]
    if len(found) == 1:
        c.claims["at"] = found
        several.remove(found[0])
        if not several:
            del c.claims["position"]


class SideColumns(NamedTuple):
    """The column of places to SL, that to SR and that of the middle (-1 where there is none)."""

    sl: int
    sr: int
    middle: int = -1

    def headings(self, cells: Sequence[Any]) -> list[Any]:
        """The headings with these as SL and SR."""
        found = list(cells)
        both = _unit_of_one(cells[self.sl], cells[self.sr])
        for k, side in ((self.sl, "SL"), (self.sr, "SR")):
            unit = _parted(cells[k])[1] or both
            found[k] = f"{side} ({unit})" if unit else side
        if self.middle >= 0:
            found[self.middle] = ""
        return found


def side_columns(
    cells: Sequence[Any], below: Sequence[list[Any]], said: Said, prompt: Sequence[tuple[str, str]]
) -> SideColumns | None:
    """The two columns of places under the names of the two sides, where it is told which side each is;
    `prompt` is what the house tells of PS and OP."""
    words = [_side_word(cell) for cell in cells]
    sides = {**USUAL, **dict(prompt), **dict(said.sides)}
    for pair in (*BARE, *PROMPT, *GARDEN, *NAMED, *TONGUES):
        if not all(words.count(word) == 1 for word in pair):
            continue
        first, second = (words.index(word) for word in pair)
        if not all(_holds_figures(k, below) for k in (first, second)):
            continue
        left = _side_of_first(pair, said, sides)
        more = any(_parted(cells[k])[0] != words[k] for k in (first, second))
        if more and any(_in_both(row, first, second) for row in below):
            continue  # from either end, it may be
        if left:
            sl, sr = (first, second) if left == "SL" else (second, first)
            middle = _middle(words, below, {sl, sr})
            more = more or bool(_unit_of_one(cells[sl], cells[sr]))
            return (
                None if pair in NAMED and middle < 0 and not more else SideColumns(sl, sr, middle)
            )
    return None


def in_doubt(headings: Sequence[str]) -> list[int]:
    """The columns under the words or letters of the two sides, of which nobody may say which is which."""
    words = [_parted(heading)[0] for heading in headings]
    for pair in (*BARE, *TONGUES):
        if all(words.count(word) == 1 for word in pair):
            return [words.index(word) for word in pair]
    return []


def _side_of_first(pair: tuple[str, str], said: Said, sides: dict[str, str]) -> str:
    """The side that the first word of a pair is; "" where nobody says."""
    if pair in BARE:
        return {"stage": "SL", "house": "SR"}.get(said.bare, "")
    told = dict(said.sides)
    if pair[0] in told or pair[1] in told:
        other = {"SL": "SR", "SR": "SL"}.get(told.get(pair[1], ""), "")
        first = told.get(pair[0], other)
        return first if other in ("", first) else ""
    if pair in TONGUES:  # "strony widza" over L and P
        return {"stage": "SL", "house": "SR"}.get(said.bare, "")
    return "SL" if pair in (*GARDEN, *NAMED) else sides["ps"]


def _unit_of_one(first: Any, second: Any) -> str:
    """The unit that one heading of two has, which is that of both columns: "Offset (ft)" over SR and SL is
    joined to the first alone; "" where none has, or each its own."""
    units = _parted(first)[1], _parted(second)[1]
    return "" if all(units) else "".join(units)


def _middle(words: list[str], below: Sequence[list[Any]], sides: set[int]) -> int:
    """The column of the middle beside those of the sides; -1 where there is none, or it holds others."""
    near = [k for k, word in enumerate(words) if word in MIDDLE and {k - 1, k + 1} & sides]
    return near[0] if len(near) == 1 and all(map(is_middle, _filled(near[0], below))) else -1


def is_middle(cell: Any) -> bool:
    """Whether a cell of a column of the middle says that its unit hangs there."""
    text = text_of(cell).strip().casefold()
    return text in ON_MIDDLE or float_of(text) == 0


def _holds_figures(k: int, below: Sequence[list[Any]]) -> bool:
    """Whether a column holds figures, some of which may be the word of the middle: "4,00", "centro"."""
    figures = [bool(re.match(r"\s*\d", text_of(cell))) for cell in _filled(k, below)]
    words = (cell for cell in _filled(k, below) if not re.match(r"\s*\d", text_of(cell)))
    return any(figures) and all(isinstance(w, str) and _on_middle(w) for w in words)


def _on_middle(word: str) -> bool:
    """Whether a cell of a column of one side says that its unit is on the middle: "centro", "C", "on CL"."""
    plain = re.sub(r"^on\s+(?:the\s+)?", "", word.strip().casefold())
    return says_middle(word) or plain in MIDDLE


def _fills(row: list[Any], k: int) -> bool:
    return k < len(row) and not blank(row[k]) and not _DASH.fullmatch(text_of(row[k]))


def _in_both(row: list[Any], first: int, second: int) -> bool:
    """Whether both columns of a row hold a place, but for the middle."""
    both = [row[k] for k in (first, second) if _fills(row, k)]
    return len(both) > 1 and not all(isinstance(cell, str) and _on_middle(cell) for cell in both)


_DASH = regex(r"\s*[-–—]+\s*")  # leaves a cell empty: the place is in the other column


def _side_word(cell: Any) -> str:
    """The word of a heading without the little ones of a distance: "Dist. to left", "left side"."""
    word = _parted(cell)[0]
    plain = _BEHIND_SIDE.sub("", _BEFORE_SIDE.sub("", word))
    return plain if plain in _SIDES else word


_IN_BRACKETS = regex(  # "Jardin (cm de l'axe)"
    r"[(\[]\s*([a-z]{1,11})\s+(?:of|from|off)\s+(?:the\s+)?(?:cl|cent(?:re|er)(?:\s*line)?|middle)\s*[)\]]"
)


def _filled(k: int, below: Sequence[list[Any]]) -> list[Any]:
    return [row[k] for row in below if _fills(row, k)]


def _parted(cell: Any) -> tuple[str, str]:
    """The word of a heading, and the length unit behind it or before it: "metres left of centre"."""
    text = (
        prompt_plain(sides_plain(in_english(" ".join(cell.split())))).strip(" .:*")
        if isinstance(cell, str) and len(cell) <= LONGEST_SIDE
        else ""
    )
    text = _OFF_MIDDLE.sub("", _IN_BRACKETS.sub(r"(\1)", text))
    first = _UNIT_FIRST.match(text)
    if first and first[1] in LENGTHS:
        return first[2], LENGTHS[first[1]]
    between = _UNIT_BETWEEN.match(text)
    if between and (unit := between[2] or between[3]) in LENGTHS:
        return f"{between[1].strip()} {text[between.end() :]}", LENGTHS[unit]
    found = _UNIT.match(text)
    if found and found[1].strip() and found[2] in LENGTHS:
        return _OFF_MIDDLE.sub("", found[1].strip(" .([/-,")), LENGTHS[found[2]]
    return text, ""
