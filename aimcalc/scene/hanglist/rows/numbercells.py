"""The number of a unit, as its cell says it: with words beside it, as a day, or with that of its position."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import COUNT
from aimcalc.scene.hanglist.names.kindcells import ONE_ROW_EACH
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.rows.cellaside import of_number
from aimcalc.scene.hanglist.rows.listrow import any_of, day_of, position_and_number, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong, show


class NumberCells:
    """Reads the numbers of the units of a table."""

    def __init__(self, positions: Names, log: Log, noticed: Noticed) -> None:
        self.positions, self.log, self.noticed = positions, log, noticed
        self.prefixed: set[str] = set()  # positions whose numbers begin with that of the position

    def one_unit(self, raw: dict[str, Any], where: Where) -> None:
        """Ask about a row that says it stands for several units."""
        count = raw.pop(COUNT, None)
        if count is not None and text_of(count).strip() not in ("1", "one"):
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
            raw["number"] = self._number_from_day(day, raw, where, cell)
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
        parts = position_and_number(text)
        if parts and raw.get("position") == self.positions.find(parts[1]).name is not None:
            self.noticed.read_as("number", text, parts[2])
            text = parts[2]
        plain = re.fullmatch(
            r"[(\[]?\s*(?:(?:unit|no\.?|nr\.?|number|num\.?|#|u)\s*[#.]?\s*)?(\d+\s?[a-z]?|\d\w*)\s*[)\].:]?",
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
        if mark not in "-–" or re.findall(r"\d+", position) != [first]:
            return False
        if int(last) <= int(first) or position in self.prefixed:
            self.prefixed.add(position)
        return position in self.prefixed

    def _number_from_day(
        self, day: tuple[int, int], raw: dict[str, Any], where: Where, cell: Any
    ) -> Any:
        """A unit number that a spreadsheet took for a day: 1/2 is the second of January or the first
        of February."""
        ways = list(dict.fromkeys((f"{day[0]}/{day[1]}", f"{day[1]}/{day[0]}")))
        own = re.findall(r"\d+", str(raw.get("position", "")))
        fit = [way for way in ways if len(own) == 1 and way.partition("/")[0] == own[0]]
        if len(ways) == 1 or len(fit) == 1:
            number = (fit or ways)[0]
            self.noticed.dates[text_of(cell)] = number
            return number
        wrong = Wrong(
            f"one number: a spreadsheet made a date of it, which was {any_of(ways)}",
            "Format the column as text, and type the number again.",
            came=text_of(cell),
        )
        self.log.add(where, "number", wrong, cell)
        return ASKED


_SEVERAL = regex(r"(\d+)\s*(-|–|to|thru|through|&|and|,|;|\+)\s*(\d+)", re.IGNORECASE)
