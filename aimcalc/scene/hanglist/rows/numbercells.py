"""The number of a unit, as its cell says it: with words beside it, as a day, or with that of its position."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import COUNT
from aimcalc.scene.hanglist.names.alike import run_together, shortened
from aimcalc.scene.hanglist.names.kindcells import ONE_ROW_EACH
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.spelling import numbers_of, tokens_of
from aimcalc.scene.hanglist.rows.cellaside import of_number
from aimcalc.scene.hanglist.rows.daynumbers import DayNumbers
from aimcalc.scene.hanglist.rows.listrow import Row, day_of, position_and_number, text_of
from aimcalc.scene.hanglist.rows.numberruns import count_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong, show


class NumberCells:
    """Reads the numbers of the units of a table."""

    def __init__(self, positions: Names, log: Log, noticed: Noticed) -> None:
        self.positions, self.log, self.noticed = positions, log, noticed
        self.days = DayNumbers(log, noticed)
        self.prefixed: set[str] = set()  # positions whose numbers begin with that of the position

    def one_unit(self, raw: dict[str, Any], where: Where) -> None:
        """Ask about a row that says it stands for several units."""
        count = raw.pop(COUNT, None)
        if count is not None and count_of(count) != 1:
            wrong = Wrong(f"one unit a row, and this one says {show(text_of(count))}", ONE_ROW_EACH)
            self.log.add(where, COUNT, wrong, count)
            raw["number"] = ASKED

    def aside_out(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
        """Take the words in brackets behind a number, "2 (shin)", for a remark."""
        text = text_of(raw["number"]) if raw.get("number") not in (None, ASKED) else ""
        if text.isdecimal():
            return
        parts = re.fullmatch(r"(\d+\s?[a-z]?)\s*[(\[]([^()\[\]\d]+)[)\]]", text.strip())
        if parts:
            raw["number"] = parts[1]
            remarks.append(("", parts[2]))
            self.noticed.read_as("number", text, parts[1])
            return
        aside = None if day_of(raw.get("number")) else of_number(text.strip())
        if aside:
            raw["number"] = aside.value
            remarks += [("", aside.words)] if aside.words else []
            self.noticed.read_as("number", text, aside.value)

    def read(self, raw: dict[str, Any], where: Where) -> None:
        """Read a number, and ask where a cell may hold several."""
        cell = raw.get("number")
        if cell is None or cell is ASKED:
            return
        day = day_of(cell)
        if day is not None:
            raw["number"] = self.days.read(day, raw, where, cell)
            if raw["number"] is not ASKED:  # "1-13" below is such a number too
                self.prefixed.add(str(raw.get("position", "")))
            return
        text = text_of(cell)
        if text.isdecimal():
            raw["number"] = text
            return
        several = _SEVERAL.fullmatch(text.strip())
        if several and not self._is_prefixed(several, str(raw.get("position", ""))):
            wrong = Wrong(f"one unit a row, and {show(text)} may be several", ONE_ROW_EACH)
            ask(self.log, raw, where, "number", wrong, cell)
            return
        beside_days = self.days.any and _TWO_FIGURES.fullmatch(text.strip())
        parts = None if beside_days else position_and_number(text)
        if parts and raw.get("position") == self.positions.find(parts[1]).name is not None:
            self.noticed.read_as("number", text, parts[2])
            text = parts[2]
        plain = re.fullmatch(
            rf"[(\[']?\s*(?:(?:{_BEFORE})\s*[#.]?\s*)?(\d+\s?[a-z]?|\d\w*)\s*[)\].:]?",
            text.strip(),
            re.IGNORECASE,
        )
        if plain and plain[1] != text.strip():
            self.noticed.read_as("number", text, plain[1])
            text = plain[1]
        raw["number"] = text

    def _is_prefixed(self, several: re.Match[str], position: str) -> bool:
        """Whether "1-3" is number 3 on the first position and no three units: "1-1" was there before."""
        first, mark, last = several.groups()
        if mark in self.days.marks:
            return True
        if mark not in "-–" or re.findall(r"\d+", position) != [first]:
            return False
        if int(last) <= int(first) or position in self.prefixed:
            self.prefixed.add(position)
        return position in self.prefixed


def without_positions(rows: Iterable[Row], positions: Names, noticed: Noticed) -> None:
    """Take the position out of numbers that repeat it, "P2/1" on Perche 2 or "Pont 1" on the Pont de face,
    where all units of a position have such a one, none twice."""
    on: dict[str, list[Row]] = {}
    for row in rows:
        if isinstance(row.raw.get("position"), str) and "number" in row.raw:
            on.setdefault(row.raw["position"], []).append(row)
    for position, units in on.items():
        parts = [_REPEATED.fullmatch(text_of(row.raw["number"]).strip()) for row in units]
        if not all(parts) or not all(_says(part[1], position) for part in parts if part):
            continue
        numbers = [part[2] for part in parts if part]
        named = (positions.spelled(part[0]) for part in parts if part)
        if len({number.casefold() for number in numbers}) < len(units) or any(named):
            continue  # "Bar 3" is a bar
        for row, number in zip(units, numbers, strict=True):
            noticed.read_as("number", text_of(row.raw["number"]), number)
            row.raw["number"] = number


def _says(prefix: str, position: str) -> bool:
    """Whether what stands before a number is the name of its position, a word of it or short for it."""
    name, said = tokens_of(position, {}), tokens_of(prefix, {})
    if numbers_of(said) != numbers_of(name):
        return False
    words, mine = ([t for t in each if t.isalpha()] for each in (name, said))
    if set(mine) <= set(words):
        return bool(mine)
    letters = "".join(mine)
    return bool(words) and (
        letters in ("".join(word[0] for word in words), words[0][: len(letters)])
        or (len(letters) > 1 and shortened(letters, words[0]))
        or run_together(prefix.upper(), name)
    )


# What stands before the number of a unit: "No. 3", "lamp 3", "unit no. 3", "n° 3". A letter that is one with
# its number is the number as typed: "U3" beside "F1", or in the whole column.
_BEFORE = (
    r"(?:unit|lamp[ae]?|lantern|light|fixture|instrument|scheinwerfer|projecteur)?\.?\s*"
    r"(?:no\.?|nr\.?|n\s?[°º.]|number|n[uú]m\.?|num[eé]ro|número|nummer|pos\.?|#)"
    r"|unit|lamp[ae]?|lantern|light|fixture|instrument|scheinwerfer|projecteur|u(?=[\s.#])"
)
_REPEATED = regex(
    r"([^\W\d_]+(?:[ .]?\d{1,2})?)(?:\s*[-–/.:#_]\s*|\s+)(\d{1,3}[a-z]?)", re.IGNORECASE
)
_SEVERAL = regex(r"(\d+)\s*(-|–|to|thru|through|&|and|,|;|\+)\s*(\d+)", re.IGNORECASE)
_TWO_FIGURES = regex(r"\d{1,2}\s?[-–/.]\s?\d{1,2}[a-z]?", re.IGNORECASE)  # as what became a day
