"""What the other rows of a table tell of one that may be several units: that single ones have a stroke in
their channel, "2/14" of a rack, or that their numbers are plain, so that "1-3" is three of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH
from aimcalc.scene.hanglist.columns.columnkeys import COUNT, SIDE, Column
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.rows.mirrored import mirrored
from aimcalc.scene.hanglist.rows.numberruns import counted_kind, how_many, run_of

_STROKE = regex(r"\d\s*[-–/]\s*\d")
_CODE = regex(r"\s*(\d{1,4})\s*[-–/]\s*(\d{1,4})\s*")


class OtherRows(NamedTuple):
    """The rows below the headings of a table, and its columns by their keys."""

    rows: Sequence[Sequence[Any]] = ()
    columns: Mapping[str, Column] = {}

    def are_coded(self, key: str, apart_from: str = "") -> bool:
        """Whether single units have a channel or a circuit with a stroke in it; those of a row that may be
        two units, "1/2", are no such ones where it is asked of them (`apart_from`)."""
        for row in self.rows[:LOOKED_THROUGH]:
            numbers = (self._text(row, k) for k in ("number", "at", SIDE))
            several = any(run_of(cell) or mirrored(cell) for cell in numbers)
            counted = counted_kind(self._text(row, "kind"))
            several = several or bool(counted and how_many(counted) > 1)
            single = not several and self._text(row, COUNT).strip() in ("", "1")
            text = self._text(row, key)
            itself = text == apart_from and _CODE.fullmatch(self._text(row, "number"))
            if single and not itself and _STROKE.search(text):
                return True
        return False

    def number_plainly(self) -> bool:
        """Whether some units have a plain number, and none one that begins with that of its position, such as
        "1-1" or "3-2"."""
        texts = [self._text(row, "number") for row in self.rows[:LOOKED_THROUGH]]
        codes = list(filter(None, map(_CODE.fullmatch, texts)))
        return any(text.strip().isdecimal() for text in texts) and all(
            int(code[1]) < int(code[2]) for code in codes
        )

    def _text(self, row: Sequence[Any], key: str) -> str:
        column = self.columns.get(key)
        return text_of(row[column.place]) if column and column.place < len(row) else ""
