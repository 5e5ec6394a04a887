"""Units without a place: spaced as the list or the pipe says, spread evenly, or as is usual."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import chain

import msgspec

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.places.along import Along, length_words
from aimcalc.scene.hanglist.places.evenspread import begins_at, is_even
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.places.roworder import Order, order_of
from aimcalc.scene.hanglist.places.spacing import (
    Spaced,
    along_of,
    spaced,
    spread,
    usual_spacing,
    whole_numbers,
)
from aimcalc.scene.hanglist.places.spacingcells import Spacing, fits_units, spaced_so
from aimcalc.scene.hanglist.rows.listrow import Row, text_of
from aimcalc.scene.hanglist.whole.rungheights import heights_said
from aimcalc.scene.hanglist.whole.unreadlengths import UnreadLengths
from aimcalc.scene.mistakes import CLASH, Wrong
from aimcalc.scene.model import Pipe, Taken
from aimcalc.scene.records import Place

SAME_PLACE = 0.05  # metres between a place and where an even spread puts it
SAME_STEP = 0.01  # metres between two spacings that are one


class Unplaced:
    """The rows of a table without a place, looked at together."""

    def __init__(self, placing: Placing, lines: Sequence[str]) -> None:
        self.lines = lines
        self.name, self.around, self.log = placing.name, placing.around, placing.log
        self.noticed, self.said = placing.noticed, placing.said
        self.over, self.even, self.said_on = placing.over, placing.even, placing.said_on
        self.spacings = placing.spacings
        self.may_be_places = UnreadLengths(placing)

    def place(
        self, rows: list[Row], placed: set[str], ordered: frozenset[str] = frozenset()
    ) -> None:
        """Give places to the units of pipes where none has one.

        Args:
            rows: the units of a table.
            placed: positions whose units have places.
            ordered: the sides at which lines say that units without numbers begin (`order_said`).
        """
        lacking: dict[str, list[Row]] = {}
        placed = placed | self.around.hung
        for row in rows:
            position = row.raw.get("position")
            if isinstance(position, str) and "at" not in row.raw:
                lacking.setdefault(position, []).append(row)
        for position in lacking.keys() & placed - self.around.hung:
            every = [row for row in rows if row.raw.get("position") == position]
            if self._borne_out(position, every):
                lacking[position] = every
                placed = placed - {position}
        feet = self.around.unit in ("ft", "in")
        if lacking and self.may_be_places.asked([row for each in lacking.values() for row in each]):
            return
        for position, without in lacking.items():
            place = self.around.places.get(position)
            pipe = place.pipe if place else None
            if place and place.sort == "boom" and position not in placed:
                self._down_from_top(position, place, without, feet)
            if position in placed or pipe is None:
                continue
            says_even = self.said_on(position).even or position in self.even or _notes_even(without)
            own = position in self.spacings or pipe.spacing or pipe.marks
            even = says_even and not (self.said_on(position).step or own)
            begins = self._begins(position, place, without, even=even)
            stepped = pipe if even else self._stepped(pipe, without)
            numbers = _numbers_of(without)
            order = self._order(pipe, without, ordered, begins)
            if stepped is None or not numbers or begins is None or order is None:
                continue
            pipe, begins = stepped, order.side or begins
            found = spread(pipe, numbers, begins) if even else spaced(pipe, numbers, feet, begins)
            if found is None:
                continue
            for row, at in zip(without, found.at, strict=True):
                row.raw["at"] = f"{at!r} m"
            self._tell(position, pipe, without, found, order, even=even)

    def _borne_out(self, position: str, rows: list[Row]) -> bool:
        """Whether units that a line says are spread evenly would hang where those of them that have a place
        are: the middle one of five, at CL."""
        place, said = self.around.places.get(position), self.said_on(position)
        pipe = place.pipe if place else None
        numbers = _numbers_of(rows)
        if pipe is None or numbers is None or not said.even or said.step:
            return False
        begins = self._begins(position, place, rows, even=True)
        found = None if begins is None else spread(pipe, numbers, begins)
        given = [row.raw.get("at", "") for row in rows]
        if found is None or ASKED in given:
            return False
        along = along_of(place, self.around.unit, None)
        return all(
            at == "" or abs(read_place(at, along).metres - where) < SAME_PLACE
            for at, where in zip(given, found.at, strict=True)
        )

    def _tell(
        self,
        position: str,
        pipe: Pipe,
        rows: list[Row],
        found: Spaced,
        order: Order,
        *,
        even: bool,
    ) -> None:
        """Tell where the units of a pipe were put, and what of it is assumed: the distance from unit to unit,
        and the side from which units without numbers go."""
        feet = self.around.unit in ("ft", "in")
        step = length_words(pipe.spacing or usual_spacing(feet), feet)
        apart = "" if pipe.marks or even else f"{step} apart "
        many = "1 unit has" if len(rows) == 1 else f"{len(rows)} units have"
        why = f", {order.why}" if order.why else ""
        if found.assumed:
            says = f"{many} no place in {self.name}: assumed {apart}{found.how}{why}."
            do = "Write their places, or give the pipe its spacing, or the marks that it has."
            taken = Taken("places-assumed", says, do, severity="warn", position=position)
        else:
            place = self.around.places.get(position)
            own = place is not None and place.pipe is not None and place.pipe.spacing is not None
            by = "" if pipe.marks else " (spacing)" if own else ", as the list says"
            cells = self.spacings.get(position)
            first = ", one spacing in from it" if cells and cells.end else ""
            says = f"{many} no place in {self.name}: {apart}{found.how}{first}{by}{why}."
            do = "Write the places that differ."
            taken = Taken("list-spacing", says, do, position=position)
            if first:
                taken = msgspec.structs.replace(taken, severity="warn")
        self.noticed.last.append(taken)

    def _order(
        self, pipe: Pipe, rows: list[Row], said: frozenset[str], begins: str | None
    ) -> Order | None:
        """From which side units without numbers go over a pipe, where its marks, `spaced_from` or `begins` do
        not say it; None where lines do not agree, which is asked."""
        place = self.around.places.get(str(rows[0].raw.get("position")))
        if place is None or any("number" in row.raw for row in rows):
            return Order()
        try:
            order = order_of(rows, place, said, self.around)
            if order.said and pipe.spaced_from not in (None, order.side):
                raise Wrong(
                    f"one end at which the units begin: a line says {order.side}, and the pipe "
                    f"{pipe.spaced_from}",
                    "Correct the line, or spaced_from of the pipe.",
                    rank=CLASH,
                )
        except Wrong as wrong:
            for row in rows:
                ask(self.log, row.raw, row.where, "at", wrong, None)
            return None
        settled = pipe.marks or pipe.spaced_from or (begins and not order.said)
        return Order() if settled else order

    def _begins(
        self, position: str, place: Place | None, rows: list[Row], *, even: bool
    ) -> str | None:
        """The end at which units that are spread evenly begin, as their rows or a line say; None where the
        pipe has no such end, or a spacing of its own that may begin elsewhere, which is asked."""
        axis = place.axis if place else ""
        try:
            own = self.even.get(position, "") or begins_at(chain.from_iterable(_notes_of(rows)))
            if not own:
                return "SR" if self.said_on(position).from_sr else ""
            if even and own in (("SL", "SR") if axis == "x" else ("US", "DS")):
                return own
            wrong = Wrong(
                f"units spread evenly from an end of {position}: its rows say that they begin at {own}",
                "Write their places in a column at.",
                rank=CLASH,
            )
        except Wrong as two:
            wrong = two
        for row in rows:
            ask(self.log, row.raw, row.where, "at", wrong, None)
        return None

    def _down_from_top(self, position: str, place: Place, rows: list[Row], feet: bool) -> None:
        """Give heights to the units of a boom where none has one: the lowest number nearest its top (common
        practice, no source), one usual spacing apart; none where they do not all fit."""
        numbers = whole_numbers([text_of(row.raw.get("number", "")) for row in rows], position)
        if numbers and self._by_rungs(position, place, rows, numbers):
            return
        step, (foot, top) = usual_spacing(feet), place.reach
        heights = [top - step * (n - min(numbers) + 1) for n in numbers or ()] if numbers else []
        if not heights or min(heights) <= foot:
            return
        for row, height in zip(rows, heights, strict=True):
            row.raw["at"] = f"{round(height, 12)!r} m"
        many = "1 unit has" if len(rows) == 1 else f"{len(rows)} units have"
        says = (
            f"{many} no height in {self.name}: assumed {length_words(step, feet)} apart down from "
            f"the top, number {min(numbers or [1])} uppermost."
        )
        do = "Write their heights above what the boom stands on."
        self.noticed.last.append(
            Taken("places-assumed", says, do, severity="warn", position=position)
        )

    def _by_rungs(self, position: str, place: Place, rows: list[Row], numbers: list[int]) -> bool:
        """Whether a line speaks of the heights of the units of a boom, which is told; asked about where it
        does not tell them all."""
        try:
            heights = heights_said(self.lines, numbers, place.reach, self.around.unit)
        except Wrong as wrong:
            for row in rows:
                ask(self.log, row.raw, row.where, "at", wrong, wrong.came)
            return True
        for row, height in zip(rows, heights or (), strict=False):
            row.raw["at"] = f"{round(height, 12)!r} m"
        if heights:
            says = "units of booms hang on the rungs of their numbers, at heights that a line says"
            self.noticed.note("list-at", f"{says}.")
        return bool(heights)

    def _stepped(self, pipe: Pipe, without: list[Row]) -> Pipe | None:
        """The pipe with the spacing that the lines round the table say; None where this is another than the
        pipe's own, or its units count from SR, which is asked."""
        over = self.over.get(str(without[0].raw.get("position")), "")
        said = said_by([(1, [over])]) if over else Said()
        if not said.step:
            said = self.said_on(without[0].raw.get("position"))
        cells = self.spacings.get(str(without[0].raw.get("position")))
        if cells is not None:
            return self._as_cells_say(pipe, without, cells, said)
        if pipe.marks or not (said.step or said.from_sr):
            return pipe
        try:
            step = self._metres(said.step) if said.step else None
        except Wrong as misfit:
            for row in without:
                ask(self.log, row.raw, row.where, "at", misfit, said.step)
            return None
        own, numbered = pipe.spacing, any("number" in row.raw for row in without)
        other = step is not None and own is not None and abs(step - own) > SAME_STEP
        from_end = (said.from_sr and numbered) or (
            bool(said.step or said is not self.said) and bool(said.end or _is_of_end(said.vague))
        )
        if other or (from_end and pipe.spaced_from is None):
            wrong = Wrong(
                "a place for each unit: a line of the list says how they are spaced, and the pipe "
                + (
                    "has another spacing"
                    if other
                    else f"does not say that they count from {said.end or 'SR'}"
                ),
                "Write their places, or correct spacing and spaced_from of the pipe.",
                rank=CLASH,
            )
            for row in without:
                ask(self.log, row.raw, row.where, "at", wrong, None)
            return None
        return pipe if step is None else msgspec.structs.replace(pipe, spacing=step)

    def _metres(self, step: str) -> float:
        unit = self.said.unit or self.around.unit  # of a bare figure
        return fits_units(read_place(step, Along(self.around.unit, "any", True), unit).metres)

    def _as_cells_say(
        self, pipe: Pipe, without: list[Row], cells: Spacing, said: Said
    ) -> Pipe | None:
        """The pipe with the spacing that the cells of its units say; None where that cannot be, which is
        asked."""
        try:
            other = self._metres(said.step) if said.step else None
            step = self._metres(cells.size)
            return spaced_so(pipe, cells, step, other)
        except Wrong as wrong:
            for row in without:
                ask(self.log, row.raw, row.where, "at", wrong, None)
        return None


def _is_of_end(vague: str) -> bool:
    """Whether words that say from where units count may be of an end: "from the SL side" is where number 1
    is, of units about the centre."""
    return bool(vague) and _FROM_SL.fullmatch(vague) is None


_FROM_SL = regex(r"from\s+(?:the\s+)?sl")


def _numbers_of(rows: list[Row]) -> list[int] | None:
    """The numbers of the units of a pipe of which none has a place, in their order where none has a number;
    None where they are no whole ones, or some have none."""
    if any("number" in row.raw for row in rows):
        numbers = [text_of(row.raw.get("number", "")) for row in rows]
        return whole_numbers(numbers, str(rows[0].raw.get("position", "")))
    return list(range(1, len(rows) + 1))


def _notes_even(rows: list[Row]) -> bool:
    """Whether the remarks of all units without a place say that they are spread evenly."""
    return all(any(map(is_even, parts)) for parts in _notes_of(rows))


def _notes_of(rows: list[Row]) -> list[list[str]]:
    return [re.split(r";\s*|:\s*", str(row.raw.get("note", ""))) for row in rows]
