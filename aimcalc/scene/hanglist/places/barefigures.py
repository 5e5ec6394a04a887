"""Places of a hang list that are figures without a length unit: in which unit they are, as the most of their
column, their thousands or all of them together tell, and which are past the end of their pipe."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.places.along import Along, told
from aimcalc.scene.hanglist.places.placeforms import SIDED
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.places.unitfit import PAST, Figure, is_bare
from aimcalc.scene.hanglist.rows.listrow import Around, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Wrong

THOUSAND = 1000  # metres that nothing on a stage is away, and millimetres of a metre


class BareFigures:
    """The places without a unit of one table, and the column that they stand in."""

    def __init__(self, around: Around, noticed: Noticed) -> None:
        self.around, self.noticed = around, noticed
        self.kept: list[Figure] = []
        # Of rows past the end of their pipe as counted from its middle, and not from the plaster line.
        self.past: list[tuple[dict[str, Any], float, Along]] = []
        self._column: list[Any] = []
        self._unit_of_column: str | None = None  # as `_unit_of_most` of it, once that is asked for

    def take_column(self, cells: list[Any]) -> None:
        """Keep the column of places whole, for what most of it says of one."""
        self._column, self._unit_of_column = cells, None

    @property
    def signed(self) -> bool:
        """Whether a place of the column has a minus."""
        return any(text_of(cell).lstrip()[:1] in ("-", "−", "–") for cell in self._column if cell)

    def of_most(self, cell: Any, meaning: Meaning, along: Along) -> tuple[Any, Meaning]:
        """A bare figure past the end of its pipe with the unit that the most of its column are written in,
        where it is on the pipe in that."""
        if meaning.unit or along.span is None or not _is_figure(cell):
            return cell, meaning
        furthest = max(-along.span[0], along.span[1])
        figure = re.findall(r"\d+(?:[.,]\d+)?", text_of(cell))[0]
        unit = self._unit_of_column
        if unit is None:
            unit = self._unit_of_column = _unit_of_most(self._column)
        if not unit or read_place(figure, Along(along.unit, "any", True)).metres <= furthest + PAST:
            return cell, meaning
        if read_place(figure, Along(unit, "any", True)).metres > furthest:
            return cell, meaning
        self.noticed.read_as("at", text_of(cell), f"in {unit}, as most of its column")
        return cell, meaning._replace(unit=unit)

    def keep(
        self,
        raw: dict[str, Any],
        cell: Any,
        side: str,
        meaning: Meaning,
        along: Along,
        middle: bool,
    ) -> None:
        """Keep a place without a length unit, for what all of them tell together; `middle` is whether it
        counts from the middle of its pipe."""
        text = f"{text_of(cell)} {side}"
        place = self.around.places.get(str(raw.get("position")))
        if meaning.unit or place is None or not is_bare(text):
            return
        low, high = along.span or place.reach
        if middle:
            low, high = (low - high) / 2, (high - low) / 2
        if high <= low:
            return
        try:
            value = read_place(cell, along._replace(unit="cm"), "cm", side).metres * 100
        except Wrong:
            return
        sided = bool(SIDED.search(text)) or text[:1] in "+-−–" or bool(meaning.plus)
        figure = Figure(str(raw["position"]), value, sided, low, high, bool(meaning.end))
        self.kept.append(figure)

    def of_thousands(self, cell: Any, side: str, meaning: Meaning, along: Along) -> Meaning:
        """A meaning in millimetres where a place with its side is thousands of metres, "4500 SL" among
        "2.2 SL", and on the pipe in millimetres."""
        text = f"{text_of(cell)} {side}"
        figures = re.findall(r"\d+(?:[.,]\d+)?", text)
        bare = (meaning.unit or along.unit) == "m" and along.span and is_bare(text)
        if not bare or not along.span or not SIDED.search(text) or len(figures) != 1:
            return meaning
        furthest = max(-along.span[0], along.span[1])
        if not (figures[0].isdecimal() and THOUSAND <= int(figures[0]) <= furthest * THOUSAND):
            return meaning
        self.noticed.read_as("at", text_of(cell), f"{figures[0]} mm")
        return meaning._replace(unit="mm")

    def check_end(
        self, raw: dict[str, Any], cell: Any, metres: float, meaning: Meaning, along: Along
    ) -> None:
        """Refuse a bare figure that lies past the end of its pipe: it is likely of another unit; one that is
        on it as counted from the plaster line is kept, for all of them to tell together."""
        if meaning.unit or not is_bare(text_of(cell)) or not along.span or _is_on(metres, along):
            return
        if along.axis == "y" and _is_on((along.plaster or 0.0) + metres, along):
            self.past.append((raw, metres, along))
            return
        raise past_end(metres, along)


def _is_on(metres: float, along: Along) -> bool:
    low, high = along.span or (metres, metres)
    return low - PAST <= metres <= high + PAST


def past_end(metres: float, along: Along) -> Wrong:
    """What is asked about a bare figure past the end of its pipe."""
    low, high = along.span or (0.0, 0.0)
    end = high if metres > 0 else low
    return Wrong(
        f"a place on the pipe, which ends at {told(end, along)}: {told(metres, along)} is past it, "
        "so that the figure may be of another unit",
        "Write it with its unit, or head the column with the unit: at (in).",
    )


_BARE_FIGURE = (
    r"[+−–-]?\s*\d+(?:[.,]\d+)?\s*(?:s\W?[lr]\W?|[lr])?|(?:s\W?[lr]\W?)\s*\d+(?:[.,]\d+)?"
)


def _is_figure(cell: Any) -> bool:
    return bool(re.fullmatch(_BARE_FIGURE, text_of(cell), re.IGNORECASE))


def _unit_of_most(cells: list[Any]) -> str:
    """The one length unit that most filled cells of a column are written in; "" where there is none."""
    texts = [text_of(cell).casefold() for cell in cells if cell is not None]
    found = [re.search(_UNIT_WRITTEN, text) for text in texts]
    units = [LENGTHS[one[1]] for one in found if one]
    filled = sum(bool(re.search(r"[1-9]", text)) for text in texts)
    return units[0] if 2 * len(units) > filled and len(set(units)) == 1 else ""


_UNIT_WRITTEN = (
    rf"\d\s*({'|'.join(sorted((w for w in LENGTHS if w.isalpha()), key=len, reverse=True))})\b"
)
