"""Positions that the rest of their row, or of their column, tells: of one sort, with a place or a number."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, SIDE, Headings
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.names.meant import Meant, Names
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, SORTS
from aimcalc.scene.hanglist.names.placedpositions import placed_position
from aimcalc.scene.hanglist.names.positioncells import of_one_sort, short_by, spelled_by
from aimcalc.scene.hanglist.places.placeforms import SIDED
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.cellfits import CellFits, parted_in, put_together
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import in_english


class PositionByRow:
    """Finds positions by what stands with them in a row."""

    def __init__(self, positions: Names, fits: CellFits, placing: Placing) -> None:
        self.positions, self.fits, self.placing = positions, fits, placing
        self.noticed = placing.noticed

    def of_sort(
        self, cell: Any, raw: dict[str, Any], headings: Headings, sort: str, cells: frozenset[str]
    ) -> Any:
        """A position of which several might be meant, "1" or "First", as the one of the sort that its heading
        names, "Electric", or of the side in a column of its own; `sort` is that of a row above, `cells`
        are those of the column. What is spelled out stays: below "TRUSSES" a "Back Bar" is no Rear Truss."""
        if re.search(r"[^\W\d_]{2}", text_of(cell)) and self.positions.written(text_of(cell)):
            return cell
        column = headings.by_key.get("position")
        several = self.positions.find(text_of(cell)).several
        heading = column.heading if column else ""
        headed = spelled_by(heading, text_of(cell), several) or short_by(
            heading, text_of(cell), several, cells
        )
        if headed:
            self.noticed.read_as("position", text_of(cell), headed)
            return headed
        sided = self.positions.find(f"{text_of(cell)} {text_of(raw.get(SIDE, ''))}").name
        if sided in several and _NAMES_SIDE.search(sided) and not self._other(heading, sided):
            # "Boom 2", beside a column that says SL
            self.noticed.read_as("position", text_of(cell), sided)
            raw.pop(SIDE)
            return sided
        over = self.positions.find(f"{sort} {text_of(cell)}").name if sort else None
        if over and self.positions.find(text_of(cell)).name != over:
            self.noticed.read_as("position", text_of(cell), over)
            return over
        if column is None or not several:
            return cell
        hung = self._of_place(several, raw)
        if hung:
            self.noticed.read_as("position", text_of(cell), hung)
            return hung
        alone = of_one_sort(text_of(cell).strip(), several, cells, self.positions)
        if alone:
            self.noticed.read_as("position", text_of(cell), alone)
            return alone
        words = meaning_words(column.heading)
        if len(SORTS.intersection(words)) > 1:
            return cell  # "Bar / boom" over "B1"
        for word in words:
            coded = (
                re.search(r"[^\W\d_]\W?\d", text_of(cell)) is not None
            )  # "B1" of a boom, under "Bar"
            if word in POSITION_SPARE and (coded or word not in SORTS):
                continue
            name = self.positions.find(f"{word} {text_of(cell)}").name
            if name in several:
                self.noticed.read_as("position", text_of(cell), name)
                return name
        return cell

    def _other(self, heading: str, name: str) -> bool:
        """Whether a heading says that its numbers are of bars, "Bar No.", and a name is of no bar."""
        sorts = SORTS.intersection(meaning_words(heading))
        return bool(sorts) and sorts <= _BARS and self.placing.around.places[name].sort != "pipe"

    def _of_place(self, several: tuple[str, ...], raw: dict[str, Any]) -> str:
        """The one of several positions of the same letter that the place of a row can be on: Perche 1 rather
        than Pied 1 by "1.6 m SL", Boom 1 rather than Bar 1 by a height; "" where that tells none apart."""
        text, side = text_of(raw.get("at", "")).strip(), text_of(raw.get(SIDE, "")).strip()
        if len(text) > LONGEST_PLACE or raw.keys() & set(AT_PARTS):
            return ""
        plain = in_english(f"{text} {side}").strip()
        middle = _MIDDLE.fullmatch(plain) is not None
        places = self.placing.around.places
        if (HEIGHT in raw and not (text or side)) or _HIGH.search(text):
            stands = any(places[name].sort == "stand" for name in several)  # they are raised too
            can = set() if stands else {"boom"}
        elif middle or (_FIGURE.match(text) and SIDED.search(plain)):
            can = {"pipe"}
        else:
            can = {"pipe", "boom"} if _FIGURE.match(text) else set()
        found = [name for name in several if places[name].sort in can]
        return found[0] if len(found) == 1 else ""

    def place_out(self, cell: Any, raw: dict[str, Any], headings: Headings) -> Any:
        """A position without the place that stands behind it, "LX 1, 12' SL", where no column is that of
        places."""
        text = text_of(cell)
        if {"at", *AT_PARTS} & set(headings.by_key) or self.positions.find(text) != Meant():
            return cell
        parts = re.fullmatch(_AND_PLACE, text)
        name = (
            None
            if parts is None or self.fits("place", text)
            else self.positions.find(parts[1]).name
        )
        if parts is None or name is None:
            return self._placed(cell, raw)
        if not self.fits("place", parts[2]) and parts[2].strip("0"):
            return self._placed(cell, raw)
        raw["at"] = parts[2]
        self.noticed.read_as("position", text, f"{name}, at {parts[2]}")
        return name

    def _placed(self, cell: Any, raw: dict[str, Any]) -> Any:
        """A position without the place, and the number of the unit, that its cell says beside it: "House Pipe
        #1, 9' stage left"; a number that is not the one in its own column is left."""
        text = text_of(cell)
        placed = placed_position(text, self.positions, self.fits, self.placing.runs_across)
        if placed is None or placed.number not in ("", text_of(raw.get("number", placed.number))):
            return cell
        raw["at"] = placed.place
        number = f", number {placed.number}" if placed.number else ""
        if placed.number:
            raw["number"] = placed.number
        self.noticed.read_as("position", text, f"{placed.position}{number}, at {placed.place}")
        return placed.position

    def split_number(self, raw: dict[str, Any]) -> None:
        """A position and a number in one cell: "LX1/3"; or "A3" where a position is called A."""
        text = text_of(raw["number"]).strip()
        parted = parted_in(text, self.positions) or parted_in(text, self.positions, loosely=True)
        meant = self.positions.find(text)
        if (
            not parted
            and meant.name
            and not meant.sure
            and self._of_place((meant.name,), raw) == ""
        ):
            mark = put_together(text, self.positions) if "at" in raw else None
            parted = (
                mark if mark and self._of_place((mark[0],), raw) else None
            )  # "F2" of Pipe F, no Floor 2
        if parted:
            raw["position"], raw["number"] = parted
            self.noticed.read_as("number", text, f"position {parted[0]}, number {parted[1]}")


_BARS = frozenset(("pipe", "bar", "batten"))  # and on a truss or an LX stands much else
LONGEST_PLACE = 30  # characters of a place that tells a bar from a boom
_HIGH = regex(
    r"^(?:h|ht|height|z)\W*\d|\d.*\b(?:high|height|up(?!\W*st)|above|hoch|haut|alto|hoog|h)\b",
    re.IGNORECASE,
)
_FIGURE = regex(r"[+−–-]?\d")  # what a place begins with that is no height in words
_MIDDLE = regex(
    r"(?:(?:on|at|in)\s+)?(?:the\s+)?(?:c|cl|c/l|ctr|cent(?:re|er)(?:\s?line)?|ax[ei]s?|asse|eje|midden|milieu)",
    re.IGNORECASE,
)
_NAMES_SIDE = regex(
    r"(?<![^\W\d_])(?:[sh]\W?[lr]|[lr]|left|right|ps|op|prompt|cour|jardin)(?![^\W\d_])",
    re.IGNORECASE,
)
_AND_PLACE = (
    r"(?i)"
    r"(.*?\w)\s*(?:[,;:@(]|\bat\b|\s[-–—]\s)\s*(.*\w.*?)\)?"
)
