"""Places that a hang list gives as gaps: each unit so far from the one before it, the first from an end of
its position, from the centre line, or at a place of its own."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import GAP
from aimcalc.scene.hanglist.pagelines.gaplines import Parts, Spoken
from aimcalc.scene.hanglist.places.along import Along, length_words, told
from aimcalc.scene.hanglist.places.evenspread import OPPOSITE, begins_at, is_even
from aimcalc.scene.hanglist.places.gapwords import (
    Said,
    defers,
    first_place,
    in_millimetres,
    said_of,
    says_end,
)
from aimcalc.scene.hanglist.places.placeforms import RELATIVE, SIDED
from aimcalc.scene.hanglist.places.placewords import read_place
from aimcalc.scene.hanglist.places.placing import AGREE, Placing
from aimcalc.scene.hanglist.places.spacing import span
from aimcalc.scene.hanglist.places.spacingcells import Spacing, fits_units, one_spacing
from aimcalc.scene.hanglist.places.steps import onward
from aimcalc.scene.hanglist.places.unitfit import PAST
from aimcalc.scene.hanglist.rows.listrow import Row, float_of, text_of
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Taken

_DO = "Write the places of the units, from the position's zero, in a column at."


class Gaps:
    """Adds up the gaps of a table; what tells where they begin and which way they go is noted."""

    def __init__(self, placing: Placing, lines: Sequence[str], parts: Parts) -> None:
        self.placing, self.noticed, self.log = placing, placing.noticed, placing.log
        self.around = placing.around
        self.spoken = Spoken(lines, placing.ways, parts)

    def place(self, rows: list[Row]) -> None:
        """Give places to the units of every position that has gaps."""
        by_position: dict[str, list[int]] = {}
        for k, row in enumerate(rows):
            position = row.raw.get("position")
            if isinstance(position, str):
                by_position.setdefault(position, []).append(k)
        for row in rows:
            if not isinstance(row.raw.get("position"), str):
                row.raw.pop(GAP, None)
        for position, places in by_position.items():
            over = said_of(self.placing.over.get(position, ""))
            gaps = {k: row.raw.pop(GAP) for k in places if GAP in (row := rows[k]).raw}
            over = self._over(position, over, gaps, rows, places)
            spacing = self._spaced(position, over, [rows[k] for k in places], gaps)
            if spacing and not spacing.end and (toward := over.toward or self.spoken.toward):
                over = over._replace(every=spacing.size, about=True, toward=toward)
                gaps = {}
            elif spacing:
                self.placing.spacings[position] = spacing
                continue
            over = over._replace(first=self._first_of(over, len(places)))
            if over.places_all() or (over.first and defers(gaps.get(places[0]))):
                gaps = {k: gap for k, gap in gaps.items() if not defers(gap)}
            if any(rows[k].raw.get("at") is ASKED for k in places):
                continue
            if not over.first and self._evenly(position, [rows[k] for k in places], gaps, places):
                continue
            self._agree([rows[k] for k in places], [gaps.get(k) for k in places])
            goes_on = not gaps and not over.first and _first_alone([rows[k] for k in places])
            if goes_on:
                over = over.beside(self.spoken.rest(position))
            if not (gaps or over.first or goes_on):
                self._ask_unheard(position, [rows[k] for k in places])
            for part in (
                _parts(rows, places) if gaps or over.first or (goes_on and over.every) else ()
            ):
                self._added_up(position, rows, part, gaps, over)

    def _ask_unheard(self, position: str, rows: list[Row]) -> None:
        """Ask for the places of units that a line speaks of, where it does not tell all that they need."""
        place = self.around.places.get(position)
        if place is None or place.pipe is None or any("at" in row.raw for row in rows):
            return
        words = self.spoken.unheard(position)
        if not words:
            return
        wrong = Wrong(f"one line that tells where each unit of {position} hangs", _DO)
        for row in rows:
            ask(self.log, row.raw, row.where, "at", wrong, words[:80])

    def _first_of(self, over: Said, many: int) -> str:
        """Where the first unit hangs, as it is said, or as follows of units evenly about the centre."""
        if not over.is_about() or over.toward not in ("SL", "SR"):
            return over.first
        try:
            half = self._apart_said(over.every) * (many - 1) / 2
        except Wrong:
            return over.first
        return f"{half:.6f} m {OPPOSITE[over.toward].lower()}"

    def _spaced(
        self, position: str, over: Said, rows: list[Row], gaps: dict[int, Any]
    ) -> Spacing | None:
        """How far apart the units of a pipe are, as its rows say, none with a place; None where they do not,
        or a line or the heading says where the first hangs."""
        place = self.around.places.get(position)
        if place is None or place.pipe is None or any("at" in row.raw for row in rows):
            return None
        spacing = one_spacing([*gaps.values()] + [None] * (len(rows) - len(gaps)))
        if spacing is None or over.first or over.last or self.spoken.places_first(position):
            return None
        if spacing.end and spacing.end in (over.toward, self.spoken.toward):
            return None
        column, said = self.placing.headings.by_key.get(GAP), self.placing.said_on(position)
        end = (column.meaning.end if column else "") or said.end or said.upstage.end
        if end and not (spacing.about or spacing.end):
            return None
        column = column or self.placing.headings.by_key.get("at")
        try:
            size = fits_units(self._apart_said(spacing.size, column.meaning.unit if column else ""))
        except Wrong as wrong:
            for row in rows:
                ask(self.log, row.raw, row.where, "at", wrong, text_of(next(iter(gaps.values()))))
            return None
        return spacing._replace(size=f"{size!r} m")

    def _evenly(
        self, position: str, rows: list[Row], gaps: dict[int, Any], places: list[int]
    ) -> bool:
        """Whether the rows of a position say that its units are spread evenly: over the whole of it, where no
        unit has a place, or between those that have one, the first and the last."""
        even = [is_even(gaps.get(k)) for k in places]
        ats = [row.raw.get("at") for row in rows]
        place = self.around.places.get(position)
        if place is None or place.pipe is None or not any(even):
            return False
        first_alone = even[0] and len(gaps) == 1 and ats.count(None) == len(ats)
        if all(even) or first_alone:  # "evenly spaced, SL to SR" over empty cells
            try:
                self.placing.even[position] = begins_at(gaps.values())
            except Wrong as wrong:
                for row in rows:
                    ask(self.log, row.raw, row.where, "at", wrong, text_of(gaps[places[0]]))
            return True
        if not all(one != isinstance(at, str) for one, at in zip(even, ats, strict=True)):
            return False
        if even[0] or even[-1]:
            return False
        _in_order(rows)
        fixed = [n for n, one in enumerate(even) if not one]
        for n, m in pairwise(fixed):
            one, other = (float(str(ats[k]).removesuffix(" m")) for k in (n, m))
            for k in range(n + 1, m):
                at = one + (other - one) * (k - n) / (m - n)
                rows[k].raw["at"] = f"{round(at, 12)!r} m"
        says = f"units of {position} are spread evenly between those before and behind them that have a place"
        self.noticed.note("list-at", f"{says}.")
        return True

    def _over(
        self, position: str, over: Said, gaps: dict[int, Any], rows: list[Row], places: list[int]
    ) -> Said:
        """What is said over the units of a position, with what a line says of all: where no unit has a
        place, or the gaps do not tell where the first hangs."""
        if over.first and not (gaps or over.every or over.last):
            return over._replace(every=self.spoken.every)
        placed = any("at" in rows[k].raw for k in places)
        if not placed and not over.places_all():
            return over.beside(self.spoken.rule(position))
        return over

    def _added_up(
        self, position: str, rows: list[Row], places: list[int], gaps: dict[int, Any], over: Said
    ) -> None:
        pipe = self.around.places[position].pipe if position in self.around.places else None
        ends = span(pipe) if pipe else None
        if pipe is None or ends is None:
            self._on_boom(position, [rows[k] for k in places], [gaps.get(k) for k in places])
            return
        if len(places) == 1 and "at" in rows[places[0]].raw:
            return
        place = self.around.places[position]
        along = Along(self.around.unit, place.axis, place.centre, pipe.marks, ends)
        first = rows[places[0]]
        try:
            start, toward = self._start(first, gaps.get(places[0]), over, along)
            if (over.every or over.last) and not gaps:
                _in_order([rows[k] for k in places])
            if over.last and not gaps:
                over = self._spread(start, over, len(places), along)
            numbers = [text_of(rows[k].raw.get("number", "")) for k in places]
            behind = zip(places[1:], numbers, strict=False)
            steps = [self._step(gaps.get(k), over, number) for k, number in behind]
            toward = over.toward or toward
            sides = _sides_of([gaps.get(k) for k in places], toward)[1:]
            found, way, sure = _along(start, steps, sides, toward, along)
        except Wrong as wrong:
            came = text_of(gaps.get(places[0], self.placing.over.get(position, "")))
            ask(self.log, first.raw, first.where, "at", wrong, came)
            for k in places[1:]:
                rows[k].raw.setdefault("at", ASKED)
            return
        for k, at in zip(places, found, strict=True):
            rows[k].raw["at"] = f"{round(at, 12)!r} m"
            rows[k] = rows[k]._replace(sided=1)
        self._tell(position, found, way, sure, along)

    def _on_boom(self, position: str, rows: list[Row], gaps: list[Any]) -> None:
        """Take the figures of a boom in a column of gaps for heights where a line says so; ask where none
        does."""
        for row, gap in zip(rows, gaps, strict=True):
            if gap is None or "at" in row.raw or self.around.places[position].sort != "boom":
                continue
            column = self.placing.headings.by_key.get(GAP)
            if self.placing.said.heights or (column is not None and column.meaning.heights):
                row.raw["at"] = gap
                continue
            expected = f"a height on {position}, and what counts from the unit before it may be one"
            wrong = Wrong(expected, "Write the heights of its units above the deck in a column at.")
            ask(self.log, row.raw, row.where, "at", wrong, text_of(gap))

    def _agree(self, rows: list[Row], gaps: list[Any]) -> None:
        """Ask about a gap beside a column of places that do not lie so far from each other."""
        for before, row, gap in zip(rows, rows[1:], gaps[1:], strict=False):
            ats = [each.raw.get("at") for each in (before, row)]
            if gap is None or not all(isinstance(at, str) for at in ats):
                continue
            one, other = (float(str(at).removesuffix(" m")) for at in ats)
            try:
                apart = self._step(gap, Said(), text_of(before.raw.get("number", "")))
            except Wrong:
                continue
            if abs(abs(one - other) - apart) > AGREE:
                expected = "places as far apart as the gap between them: they do not agree"
                found = length_words(abs(one - other), self.around.unit in ("ft", "in"))
                wrong = Wrong(expected, "Correct one of the two columns.")
                ask(self.log, row.raw, row.where, "at", wrong, f"{found} and {text_of(gap)}")

    def _tell(self, position: str, found: list[float], way: str, sure: bool, along: Along) -> None:
        which = ", from unit to unit towards {way}" if len(found) > 1 and way else ""
        says = (
            f"places are added up from gaps: on {position} the first unit is {told(found[0], along)}"
            + which.format(way=way)
            + (f", the last {told(found[-1], along)}" if len(found) > 1 else "")
            + self._apart(found)
        )
        if sure:
            self.noticed.note("list-at", f"{says}.")
            return
        why = "the other way they run past the end of the pipe, and nobody says which"
        taken = Taken("list-at", f"{self.noticed.name}: {says}: {why}.", _DO, severity="warn")
        self.noticed.last.append(taken)

    def _apart(self, found: list[float]) -> str:
        """How far apart the units are, in words, where all are the same from the next."""
        steps = [abs(b - a) for a, b in pairwise(found)]
        if len(steps) < 2 or max(steps) - min(steps) > AGREE:
            return ""
        return f", each {length_words(steps[0], self.around.unit in ('ft', 'in'))} from the next"

    def _start(self, row: Row, gap: Any, over: Said, along: Along) -> tuple[float, str]:
        """Where the first unit is, and the side that the others follow towards, "" where nothing tells."""
        said, toward = self.placing.said_on(row.raw.get("position")), self.spoken.toward
        at = row.raw.get("at")
        if isinstance(at, str):
            start = float(at.removesuffix(" m"))
            if over.first and abs(abs(self._said_first(over.first, along)[0]) - abs(start)) > AGREE:
                raise Wrong(_TWO_FIRSTS, "Correct one of the two.", came=over.first)
            return start, toward
        said_first = gap is not None and bool(SIDED.search(text_of(gap)) or says_end(text_of(gap)))
        if over.first:
            start, on = self._said_first(over.first, along)
            if gap is not None and not self._is_there(gap, said_first, start, along):
                raise Wrong(_TWO_FIRSTS, "Correct one of the two.", came=text_of(gap))
            return start, toward or on
        if gap is None:
            raise Wrong("where the first unit of each position hangs", _DO)
        if said_first:
            start, on = self._first_gap(gap, along)
            return start, toward or on
        end = said.upstage.end or said.end if along.axis == "y" else said.end
        column = self.placing.headings.by_key.get(GAP)
        end = (column.meaning.end if column else "") or end
        if not end or along.span is None:
            raise Wrong(
                "where the first gap counts from: an end, or a side of the centre line", _DO
            )
        low, high = along.span
        metres = self._length(gap)
        if end not in (("SL", "SR") if along.axis == "x" else ("US", "DS")):
            raise Wrong(f"a position that has one {end} end", _DO)
        from_high = end in ("SL", "US")
        return (high - metres if from_high else low + metres), self._onward(toward, end)

    def _onward(self, toward: str, end: str) -> str:
        """The side that units go on towards from one that counts from an end; what is said of pipes that run
        the other way says nothing of these."""
        other = OPPOSITE[end]
        return toward if toward in (end, other) else other

    def _said_first(self, first: str, along: Along) -> tuple[float, str]:
        """The place of the first unit as a line says it; one with a sign by what the list says of plus."""
        plus = self.placing.said.plus if along.axis == "x" else self.placing.said.upstage.plus
        signed = first[:1] in "+-−–" and not SIDED.search(first)
        if signed and not plus:
            raise Wrong("which side plus is, where the first unit has a sign", _DO, came=first)
        start, on = first_place(first, along, self._unit())
        return (-start if signed and plus in ("SR", "DS") else start), on

    def _first_gap(self, gap: Any, along: Along) -> tuple[float, str]:
        return first_place(self.placing.ways.plain(gap), along, self._unit())

    def _is_there(self, gap: Any, said: bool, start: float, along: Along) -> bool:
        """Whether the cell of the first unit says where a line has it too: its place, or how far it is from
        the centre line or an end; nought is no gap."""
        if said:
            return abs(start - self._first_gap(gap, along)[0]) <= AGREE
        size = self._length(gap)
        low, high = along.span or (start, start)
        return any(abs(size - way) <= AGREE for way in (0.0, abs(start), high - start, start - low))

    def _spread(self, start: float, over: Said, many: int, along: Along) -> Said:
        """Even gaps from the first unit to the last, and the side that they go towards."""
        end = first_place(over.last, along, self._unit())[0]
        plus, minus = ("SL", "SR") if along.axis == "x" else ("US", "DS")
        if many < 2 or abs(end - start) < AGREE:
            raise Wrong("two places or more, from one to another", _DO, came=over.last)
        every = f"{abs(end - start) / (many - 1):.12f} m"
        return over._replace(every=every, toward=plus if end > start else minus)

    def _step(self, gap: Any, over: Said, before: str) -> float:
        """The gap of a unit from the one of the number `before`, that of the row above it."""
        if gap is None and not over.every:
            raise Wrong("a gap for each unit behind the first", _DO)
        step = onward(gap)
        if step is not None:
            if step.whence and step.whence != before:
                raise Wrong(f"a gap from the unit of the row above, {before}", _DO, came=gap)
            return self._length(step.size)
        found = RELATIVE.fullmatch(gap) if isinstance(gap, str) else None
        if found:
            if found[2] and found[2] != before:
                raise Wrong(f"a gap from the unit of the row above, {before}", _DO, came=gap)
            gap = found[1]
        return self._length(gap) if gap is not None else self._apart_said(over.every)

    def _apart_said(self, every: str, unit: str = "") -> float:
        """How far apart units are, as words say it: "at 900 centres" beside places in metres; a bare figure
        is in the `unit` of its column where that has one."""
        unit = unit or self._unit()
        plain = in_millimetres(every, unit or self.around.unit)
        if plain != every:
            says = f'"{every.strip()}" from unit to unit is read as millimetres: no bar has metres of that.'
            self.noticed.note("list-at", says)
        return self._length(plain, unit)

    def _length(self, gap: Any, unit: str = "") -> float:
        along = Along(self.around.unit, "any", True)
        metres = read_place(gap, along, unit or self._unit()).metres
        if metres < 0 or SIDED.search(text_of(gap)):
            raise Wrong(
                "a gap from the unit before, without a sign or a side", _DO, came=text_of(gap)
            )
        return metres

    def _unit(self) -> str:
        column = self.placing.headings.by_key.get(GAP)
        return (column.meaning.unit if column else "") or self.placing.said.unit


_TWO_FIRSTS = "one place of the first unit: the line that says it and the row do not agree"


def _first_alone(rows: list[Row]) -> bool:
    """Whether of several units the first alone has a place."""
    return len(rows) > 1 and [k for k, row in enumerate(rows) if "at" in row.raw] == [0]


def _sides_of(gaps: list[Any], toward: str) -> list[str]:
    """The side that each gap goes towards by its own words, "4' further to SR", or by those of one before it;
    "" where none has said one. `toward` is what is said of all."""
    side, said, sides = "", {toward} - {""}, []
    for gap in gaps:
        step = onward(gap)
        own = step.toward if step is not None else ""
        said |= {own} - {""}
        if side and not own and len(said) > 1:
            raise Wrong(
                "a side for each gap, as some go towards one and some towards the other", _DO
            )
        side = own or side
        sides.append(side)
    return sides


def _parts(rows: list[Row], places: list[int]) -> list[list[int]]:
    """The rows of a position in runs, each begun by one that has a place of its own."""
    parts: list[list[int]] = []
    for k in places:
        if "at" in rows[k].raw or not parts:
            parts.append([])
        parts[-1].append(k)
    return parts


def _in_order(rows: list[Row]) -> None:
    """Refuse units that are not listed from the first number up, as "the first unit" counts."""
    numbers = [float_of(text_of(row.raw.get("number", ""))) for row in rows]
    if any(b is not None and a is not None and b <= a for a, b in pairwise(numbers)):
        raise Wrong("units in the order of their numbers, from the first on", _DO)


def _along(
    start: float, steps: list[float], sides: list[str], toward: str, along: Along
) -> tuple[list[float], str, bool]:
    """The places from the first on, the side that they run towards, "" for both, and whether somebody says
    it; `sides` are those that the gaps say themselves."""
    plus, minus = ("SL", "SR") if along.axis == "x" else ("US", "DS")
    low, high = along.span or (start, start)
    said = set(sides)
    if said - {"", plus, minus}:
        raise Wrong(f"gaps towards {plus} or {minus}, which this position has", _DO)
    if said and "" not in said:  # each says its own
        toward = plus if len(said) > 1 else said.pop()
    both = len(set(sides)) > 1
    fit = []
    for way, sign in ((plus, 1.0), (minus, -1.0)):
        found = [start]
        for step, side in zip(steps, sides, strict=True):
            own = sign if side == "" else 1.0 if side == plus else -1.0
            found.append(found[-1] + own * step)
        on = all(low - PAST <= at <= high + PAST for at in found)
        if on and toward in ("", way):
            fit.append((found, way, bool(toward) or not steps))
    if not fit:
        side = f" towards {toward}" if toward else ""
        raise Wrong(f"gaps that stay on the pipe{side}: added up they run past its end", _DO)
    if len(fit) > 1 and steps:
        raise Wrong(f"gaps that say which way they go: towards {plus} or {minus}", _DO)
    found, way, sure = fit[0]
    apart = (b - a for a, b in pairwise(sorted(found)))
    if both and any(step < AGREE for step in apart):
        raise Wrong("gaps that bring no unit to where another hangs, on their way back", _DO)
    return found, "" if both else way, sure
