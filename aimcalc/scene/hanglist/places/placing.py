"""Where the units of a hang list hang: a place along a pipe or up a boom from the cells that say it, or from
the spacing of the pipe where none does."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import Column, Headings
from aimcalc.scene.hanglist.columns.headings import (
    AGAIN,
    GAP,
    HEIGHT,
    MARK,
    SIDE,
    UPSTAGE,
    Meaning,
)
from aimcalc.scene.hanglist.names.namesides import paired_sides
from aimcalc.scene.hanglist.pagelines.said import Said, counts_from_centre
from aimcalc.scene.hanglist.pagelines.sidenames import own_words
from aimcalc.scene.hanglist.pagelines.titles import NUMBERED
from aimcalc.scene.hanglist.pagelines.whosewords import whose_in_brackets
from aimcalc.scene.hanglist.places.along import Along, Read, told
from aimcalc.scene.hanglist.places.barefigures import BareFigures
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, own_end, sides_plain
from aimcalc.scene.hanglist.places.gapwords import defers, onward
from aimcalc.scene.hanglist.places.heights import below_top, is_up, says_top, says_up, top_out
from aimcalc.scene.hanglist.places.ordinates import Ordinates
from aimcalc.scene.hanglist.places.origins import (
    Upstage,
    Ways,
    at_middle,
    by_heading,
    end_said,
    from_middle,
    of_axis,
    of_middle,
    one_side,
)
from aimcalc.scene.hanglist.places.placeasides import aside_of, said_once
from aimcalc.scene.hanglist.places.placeforms import (
    OFF_CENTRE,
    SIDED,
    bare_as,
    garden_sides,
    is_middle_letter,
    is_place,
    is_relative,
    prompt_sides,
)
from aimcalc.scene.hanglist.places.placewords import EVEN, from_plaster, read_place
from aimcalc.scene.hanglist.places.rowwhence import NOWHERE, taken_from, whence_of
from aimcalc.scene.hanglist.places.slips import respelled
from aimcalc.scene.hanglist.places.spacing import plaster_line, span
from aimcalc.scene.hanglist.places.steps import is_plus
from aimcalc.scene.hanglist.places.unitfit import is_bare
from aimcalc.scene.hanglist.rows.listrow import Around, float_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.stagewords import StageWords, stage_first
from aimcalc.scene.hanglist.tongues.tongueheights import height_alone
from aimcalc.scene.hanglist.tongues.tongues import by_plaster, in_english, says_middle
from aimcalc.scene.mistakes import Log, Where, Wrong, show
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place


class Reading:
    """A place of a row while it is read: its cell and side in the list's words at first, in ours at last."""

    def __init__(
        self,
        raw: dict[str, Any],
        key: str,
        side: Any,
        place: Place | None,
        meaning: Meaning,
        along: Along,
    ) -> None:
        self.raw, self.key, self.place = raw, key, place
        self.cell, self.side = raw.get("at"), side
        self.typed = self.cell, side  # which questions show
        self.meaning, self.along = meaning, along
        self.boom = place is not None and place.sort == "boom"
        self.middle = False  # it counts from the middle of its pipe
        self.plaster = False  # or from the plaster line
        self.top = False  # or down from the top of its boom
        self.whence = NOWHERE  # or from what the words beside it say


class Placing:
    """Reads what is measured along the positions, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.headings = Headings(0, 0, ())
        self.said = Said()
        self.own: dict[str, Said] = {}  # what lines say of some positions alone
        self.ways = Ways(around)
        self.ordinates = Ordinates(around.unit)
        self.heights: dict[str, str] = {}  # words for heights on booms, as the list explains them
        self.unread: tuple[Column, ...] = ()  # columns of lengths that are no key
        self._column: list[Any] = []  # the cells of the column of places
        self._unit_of_column: str | None = None  # as `unit_of_most` of it, once that is asked for
        # Positions spread evenly, as their rows say, and from which side.
        self.even: dict[str, str] = {}
        self.over: dict[str, str] = {}  # the words of the rows that name positions over their units
        self.bare = BareFigures(around, noticed)
        self.stage_words = StageWords(around)
        self._prompt_sides = (*prompt_sides(around), *garden_sides(around))
        self.named_sides = paired_sides(around.places)
        self.day_first: bool | None = None  # how dates are written that were feet and inches

    def measured(self, raw: dict[str, Any]) -> Along:
        """How the places of the position of a row are measured."""
        place = (
            self.around.places.get(raw.get("position") or "")
            if raw.get("position") is not ASKED
            else None
        )
        if place is None:
            return Along(self.around.unit, "any", True)
        pipe = place.pipe
        if pipe is None:
            return Along(self.around.unit, place.axis, place.centre, day_first=self.day_first)
        ends = span(pipe)
        plaster = plaster_line(pipe) if place.axis == "y" else None
        unit, axis, centre = self.around.unit, place.axis, place.centre
        return Along(unit, axis, centre, pipe.marks, ends, self.day_first, plaster)

    def runs_across(self, position: str) -> bool:
        """Whether a position runs across the stage, so that its places have a side."""
        place = self.around.places.get(position)
        return place is None or place.axis not in ("", "y")

    def said_on(self, position: Any) -> Said:
        """What the lines say of the places on a position: what they say of it alone comes first."""
        own = self.own.get(position) if isinstance(position, str) else None
        if own is None:
            return self.said
        apart = own.end or own.plus or own.centred or own.vague or own.upstage != Upstage()
        other = self.said._replace(end="", plus="", plus_bare="", vague="", upstage=Upstage())
        return own.over(other if apart else self.said)

    def along(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> int:
        """Read what is measured along the position; as `sided` of a row."""
        of_all, self.said = self.said, self.said_on(raw.get("position"))
        try:
            return self._along(raw, remarks, where)
        finally:
            self.said = of_all

    def _along(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> int:
        """As `along`, with what the lines say of the position."""
        position = raw.get("position")
        place = self.around.places.get(position) if isinstance(position, str) else None
        side = raw.pop(SIDE, None)
        key = self._key_of(raw, remarks, where, place)
        if not self._says_place(raw, remarks, key, side, place):
            return 0
        one = Reading(raw, key, side, place, self.meaning_of(key), self.measured(raw))
        self._put_plainly(one)
        self._put_aside(one, remarks)
        try:
            self._count_from(one)
            self._put_in_lengths(one)
            return self._find(one)
        except Wrong as wrong:
            if self.said.disputed and "SL or SR" in wrong.expected:
                wrong.expected += "; two lines of the list say whose it is, and do not agree"
            ask(self.log, raw, where, "at", wrong, _as_typed(one))
            return 0

    def _key_of(
        self,
        raw: dict[str, Any],
        remarks: list[tuple[str, Any]],
        where: Where,
        place: Place | None,
    ) -> str:
        """The column that a row's place stands in: of heights for a boom that has one, else of places."""
        height, ordinate = raw.pop(HEIGHT, None), raw.pop(UPSTAGE, None)
        if ordinate is not None:
            try:
                self.ordinates.place(raw, ordinate, self.headings.by_key[UPSTAGE], place)
            except Wrong as wrong:
                ask(self.log, raw, where, "at", wrong, ordinate)
        if height is None:
            return "at"
        across = ordinate is not None or SIDED.search(text_of(raw.get("at", "")))
        if place is None or place.sort != "boom" or ("at" in raw and not across):
            remarks.append((self.headings.by_key[HEIGHT].heading, height))
            return "at"
        if "at" in raw:  # where the boom stands: X beside Z
            column = self.headings.by_key.get("at")
            remarks.append((column.heading if column else "", raw["at"]))
        raw["at"] = height
        return HEIGHT

    def _says_place(
        self,
        raw: dict[str, Any],
        remarks: list[tuple[str, Any]],
        key: str,
        side: Any,
        place: Place | None,
    ) -> bool:
        """Whether a row says where along its position it hangs; what stands there of a stand is a remark, and
        what counts from another unit is a gap."""
        cell = raw.get("at")
        if cell is None and side is None and place and self._hangs_in_middle(place):
            raw["at"], cell = 0, 0
            self.noticed.read_as("at", "nothing", "centre, as the list says")
        stands = place is not None and place.sort == "stand"
        if stands and (
            not re.search(r"\d", text_of(cell or "")) or re.search(_IS_UP, text_of(cell))
        ):
            raw.pop("at", None)  # "on floor"
            if cell is not None and cell is not ASKED:
                column = self.headings.by_key.get(key)
                remarks.append((column.heading if column else "", cell))
            return False
        if cell is ASKED or stands or (cell is None and side is None):
            return False
        on = isinstance(cell, str) and (is_relative(cell) or defers(cell) or onward(cell))
        if on or self._steps_on(key, cell):
            raw[GAP] = raw.pop("at")
            return False
        return True

    def _steps_on(self, key: str, cell: Any) -> bool:
        """Whether a cell is a length from the unit before, as a line says of its plus or of its heading."""
        text, steps = text_of(cell), self.said.steps
        if not steps or not is_plus(text if text[:1] == "+" else f"+{text}"):
            return False
        column = self.headings.by_key.get(key)
        heading = column.heading.casefold().strip(" :") if column else ""
        headed = any(heading == word or heading in word.split() for word in steps)
        return headed or (text[:1] == "+" and bool({"+", "plus"} & set(steps)))

    def _put_plainly(self, one: Reading) -> None:
        """Put a place's cell and side into English words, its sides into ours, and take out the line that it
        counts from."""
        column = self.headings.by_key.get(one.key)
        meaning, along = one.meaning, one.along
        if meaning.unit == MARK:
            meaning = meaning._replace(unit="")
            if one.cell is not None and text_of(one.cell).isdecimal():
                one.cell = f"mark {text_of(one.cell)}"
        if one.boom and self.said.boom_unit and not (column and column.meaning.unit):
            meaning = meaning._replace(unit=self.said.boom_unit)
        own = column is not None and bool(column.meaning.plus or column.meaning.end)
        if column is not None and along.axis == "" and column.meaning.plus:
            self._heights_noted(str(one.raw.get("position")), column)
        meaning = of_axis(meaning, own, self.said.upstage, along)
        meaning = self._of_section(meaning, one.key, one.raw, along)
        cell = height_alone(one.cell) if one.boom else one.cell
        high = cell is not one.cell
        cell, one.middle = of_middle(self._english(cell, meaning), along)
        cell = 0 if at_middle(cell, along) else cell
        cell, plaster = from_plaster(by_plaster(cell) if isinstance(cell, str) else cell)
        cell = 0 if plaster and cell == "" else cell  # "on the plaster line"
        side, beside = from_plaster(one.side)
        one.plaster = plaster or beside
        if one.boom and meaning.end and (self.said.heights or high or says_up(cell)):
            meaning = meaning._replace(end="")  # that is of the pipes in the list
            if self.said.heights and column is not None:
                self._heights_noted(str(one.raw.get("position")), column)
        if side is not None and along.axis != "x":
            none = text_of(side) in DASHES and bool(one.boom or meaning.end or one.middle)
            side = None if none or is_up(side) else side  # "height", in a column of sides
        if one.boom:
            cell = self.heights.get(text_of(cell).casefold().strip(), cell)
            cell, one.top = top_out(in_english(cell) if isinstance(cell, str) else cell)
        one.cell, one.meaning = cell, meaning
        one.side = self._side_said(self._garden_c(side, cell), meaning, along)
        if one.side in NO_SIDE and _NOUGHT.fullmatch(text_of(cell or 0)):
            one.side = ""

    def _put_aside(self, one: Reading, remarks: list[tuple[str, Any]]) -> None:
        """Take the words beside a place out of its cell, and from where they or the remarks say it counts."""
        if one.cell is None:
            return
        known = len(remarks)
        one.cell = self._aside_out(one.cell, one.along, remarks)
        beside = [("", f"measured {words}") for _, words in remarks[known:] if _FROM.match(words)]
        note = one.raw.get("note")
        one.whence = whence_of([*beside, *remarks], note, self.ways, boom=one.boom)

    def _count_from(self, one: Reading) -> None:
        """Take a place from where the words beside it say that it counts."""
        if one.whence == NOWHERE:
            return
        side, words = f" {one.side}" if one.side else "", one.whence.words
        one.raw["at"] = f"{text_of(one.raw['at'])}{side} ({words})"
        both = f"{text_of(one.cell)} {one.side}".strip() if one.side else one.cell
        taken = taken_from(one.whence, both, one.meaning, one.along, boom=one.boom)
        one.cell, one.meaning = taken
        one.side = ""
        one.top = one.boom and (one.top or one.whence.top)

    def _put_in_lengths(self, one: Reading) -> None:
        """Put a place's cell into one length, and settle the line that it counts from."""
        along = one.along
        one.cell, one.meaning = self.bare.of_most(one.cell, one.meaning, along)
        one.cell, one.meaning = end_said(one.cell, one.meaning)
        one.cell = said_once(self._cell_said(one.cell, one.side, one.meaning, along), along)
        one.cell = self._from_marks(one.cell, one.key)
        upstage, whence = along.axis == "y", one.whence
        middle = one.middle or (upstage and self.said.upstage.middle and not one.meaning.end)
        one.middle = (middle or (upstage and whence.centre) or whence.middle) and not whence.plaster
        plaster = upstage and (one.plaster or one.meaning.plaster or self.said.plaster)
        one.plaster = (plaster and not whence.middle) or whence.plaster
        self.bare.keep(one.raw, one.cell, one.side, one.meaning, along, one.middle)
        one.meaning = self.bare.of_thousands(one.cell, one.side, one.meaning, along)

    def _find(self, one: Reading) -> int:
        """Read the length that a place is, from the line, end or top that it counts from; as `sided` of
        a row."""
        raw, along, meaning, place = one.raw, one.along, one.meaning, one.place
        read = read_place(one.cell, along, meaning.unit, one.side)
        sided = bool(one.side) or bool(SIDED.search(str(one.cell)))
        headed = (meaning.end or meaning.plus) and not sided
        found = by_heading(read.metres, meaning, along) if headed else read.metres
        column = self.headings.by_key.get(one.key)
        headed_top = column is not None and says_top(in_english(column.heading), heading=True)
        top = (self.said.top or headed_top) and not one.whence.foot
        if one.boom and place is not None and (one.top or top):
            return self._found(raw, below_top(found, place.reach), along, 0)
        if one.middle or (headed and (meaning.end or not one.plaster)):
            found = from_middle(found, along) if one.middle else found
            elsewhere = one.middle or (along.axis == "y" and bool(meaning.end))
            return self._found(raw, found, along, WHENCE if elsewhere else 1)
        if not sided and read.metres and along.axis:
            self._refuse_vague(one)
        if one.plaster:
            unsigned = not (sided or headed) and "+" not in str(one.cell)
            found = -found if unsigned and found > 0 and one_side(along) == "DS" else found
            return self._from_plaster(raw, found, along)
        self.bare.check_end(one.cell, read.metres, meaning, along)
        self._note_read(one, read)
        raw["at"] = f"{read.metres!r} m"
        if sided:
            return 1
        return -1 if along.axis == "x" and read.metres > 0 and "+" not in str(one.cell) else 0

    def _note_read(self, one: Reading, read: Read) -> None:
        """Note what a place was read as, where that is not what stands in the list."""
        if read.said:
            side = f" {one.side}" if one.side else ""
            self.noticed.read_as("at", f"{text_of(one.raw['at'])}{side}", read.said)
        elif one.cell != one.raw.get("at"):
            came = text_of(one.raw.get("at", ""))
            self.noticed.read_as("at", came, told(read.metres, one.along))

    def _refuse_vague(self, one: Reading) -> None:
        """Ask from which end a place without a side counts, where the list's line does not tell."""
        upstage = one.along.axis == "y" and not one.plaster
        vague = self.said.vague or (self.said.upstage.vague if upstage else "")
        if one.plaster and self.said.upstage.vague.startswith("toward"):
            vague = "" if one_side(one.along) else self.said.upstage.vague
        if not (vague or one.plaster or one.middle or self._is_told(one)):
            vague = f"from where only those of {next(iter(self.own))} count"
        if not vague:
            return
        way, other = ("SL", "SR") if one.along.axis == "x" else ("US", "DS")
        raise Wrong(
            f"a place that tells where it counts from: the list says {show(vague)}",
            f"Write {way} or {other} and the place from the position's zero, or head the "
            f"column: from the {way} end, or from the {other} end.",
        )

    def _is_told(self, one: Reading) -> bool:
        """Whether the lines, or the heading, say from where the places on a position count, or say it of no
        other position alone."""
        across = one.along.axis == "x"
        others = [own for own in self.own.values() if (own.end if across else own.upstage.end)]
        column = self.headings.by_key.get(one.key)
        headed = column is not None and counts_from_centre(column.heading)
        said = (
            self.said.centred
            or self.said.away
            or headed
            or str(one.raw.get("position")) in self.own
        )
        return said or not others or bool(one.meaning.end or one.meaning.plus)

    def _from_marks(self, cell: Any, key: str) -> Any:
        """A place that counts marks from the middle to each side as a length, where a line says how far they
        are apart."""
        column = self.headings.by_key.get(key)
        step, text = self.said.marks, text_of(cell)
        counts = column is not None and _COUNTS_MARKS.search(column.heading)
        rungs = column is not None and re.fullmatch(_RUNGS, column.heading)
        if rungs and not step and is_bare(text) and re.search(r"[1-9]", text):
            raise Wrong(
                "a length: it is a number of rungs, and no line says how far they are apart",
                "Write above the table: rungs from the centre, every 18 in (or as it is).",
            )
        if not step or not counts or not is_bare(text):
            return cell
        return re.sub(r"\d+(?:[.,]\d+)?", lambda n: f"{(float_of(n[0]) or 0) * step:.6g} m", text)

    def _hangs_in_middle(self, place: Place) -> bool:
        """Whether a unit without a place hangs in the middle of its pipe, as a line says, and that is where
        its places count from."""
        ends = span(place.pipe) if place.pipe and self.said.middle else None
        return ends is not None and place.centre and abs(sum(ends)) < EVEN

    def _aside_out(self, cell: Any, along: Along, remarks: list[tuple[str, Any]]) -> Any:
        """A place without the words beside it, "2.2 m SL (was 1.8)", which become a remark."""
        aside = aside_of(cell)
        if aside is None or not is_place(aside.place, along.unit):
            return cell
        if SIDED.search(aside.words) and not _WAS.match(aside.words):
            return cell
        said = SIDED.search(in_english(str(cell))) and not SIDED.search(in_english(aside.place))
        if said and not _WAS.match(aside.words):
            return cell
        remarks.append(("", aside.words))
        return aside.place

    def _of_section(self, meaning: Meaning, key: str, raw: dict[str, Any], along: Along) -> Meaning:
        """A meaning with the end that the row over the units says that they count from: "from SR end"."""
        over = sides_plain(self.over.get(str(raw.get("position")), ""))
        column = self.headings.by_key.get(key)
        centred = column is not None and counts_from_centre(column.heading)
        if meaning.end or meaning.plus or centred or along.span is None or "end" not in over:
            return meaning
        found = None if NUMBERED.search(over) else ENDS.search(over)
        counts = found is not None and "from" in found[0]
        return meaning._replace(end=end_of(found)) if found and counts else meaning

    def _from_plaster(self, raw: dict[str, Any], metres: float, along: Along) -> int:
        """A place that counts from the plaster line, on a position that runs up and down the stage."""
        if along.plaster is None:
            raise Wrong("a place that counts from the position's zero", "Write it so.")
        found = along.plaster + metres
        words = f"{told(metres, along)} of the plaster line, {told(found, along)} of the zero"
        self.noticed.read_as("at", text_of(raw.get("at", "")), words)
        raw["at"] = f"{round(found, 12)!r} m"
        return WHENCE

    def again(self, raw: dict[str, Any], where: Where) -> None:
        """Hold the place against a second column of it, and ask where the two do not agree."""
        cell, at = raw.pop(AGAIN, None), raw.get("at")
        if cell is None or not isinstance(at, str):
            return
        meaning, along = self.meaning_of(AGAIN), self.measured(raw)
        metres = float(at.removesuffix(" m"))
        try:
            cell, meaning = end_said(cell, meaning)
            said = self._cell_said(cell, "", meaning, along)
            other = read_place(said, along, meaning.unit).metres
            signed = bool(meaning.end or meaning.plus or SIDED.search(str(cell)))
            if meaning.end or meaning.plus:
                other = by_heading(other, meaning, along)
            agree = abs(metres - other) < AGREE or (
                not signed and abs(abs(metres) - abs(other)) < AGREE
            )
        except Wrong:
            agree = False
        if not agree:
            came = f"{told(metres, along)}, and {text_of(cell)} in the other column"
            wrong = Wrong(
                "one place: two columns say it, and they do not agree", "Correct one of the two."
            )
            ask(self.log, raw, where, "at", wrong, came)

    def meaning_of(self, key: str) -> Meaning:
        """What the heading of a place says of it, with what the lines round the table add."""
        column = self.headings.by_key.get(key)
        side = self.headings.by_key.get(SIDE)
        if column is None:
            bare = (side.meaning.bare if side else "") or self.said.bare
            said = self.said  # of a place in two columns, feet and inches
            return Meaning(bare=bare, unit=said.unit, end=said.end, plus=said.plus)
        found = self.said.beside(column.meaning, column.heading)
        own = column.meaning.bare or whose_in_brackets(column.heading)
        if side and not own:
            own = side.meaning.bare or whose_in_brackets(side.heading)
        agree = not own or self.said.bare in ("", own)
        return found._replace(bare=(own or self.said.bare) if agree else "")

    def _heights_noted(self, position: str, column: Column) -> None:
        """Note that the figures of a boom are heights in a column whose heading gives them a sign."""
        says = f'heights on {position} stand in column {column.letters} ("{column.heading}").'
        if self.said.heights:
            self.noticed.note("list-at", says)
            return
        do = "Ask whoever wrote it whether they are heights above the deck."
        taken = Taken("list-at", f"{self.name}: {says}", do, severity="warn")
        if taken not in self.noticed.last:
            self.noticed.last.append(taken)

    def _found(self, raw: dict[str, Any], found: float, along: Along, sided: int) -> int:
        """Take a place that counted from elsewhere than the zero of its position, and note it."""
        self.noticed.read_as("at", text_of(raw.get("at", "")), told(found, along))
        raw["at"] = f"{round(found, 12)!r} m"
        return sided

    def _english(self, cell: Any, meaning: Meaning) -> Any:
        """A place in English words, with the end that it counts from as that of SL, SR, US or DS."""
        if not isinstance(cell, str):
            return cell
        if says_middle(cell):
            return "centre"
        cell = stage_first(_JOINED.sub(r"\1 ", cell))
        english = in_english(self.stage_words.plain(cell))
        cell = own_end(english, meaning.bare, "") if "end" in english else cell
        return self.ways.plain(cell)

    def _garden_c(self, side: Any, cell: Any) -> Any:
        """A cell of a column of sides whose "C" beside a distance is cour, in a house of jardin and cour."""
        letter = text_of(side).strip(" .").casefold() if side is not None else ""
        away = re.search(r"[1-9]", text_of(cell)) if cell is not None else None
        return "SL" if letter == "c" and away and garden_sides(self.around) else side

    def _side_said(self, side: Any, meaning: Meaning, along: Along) -> str:
        """A cell of its own for the side, with the side that plus or a bare L or R is."""
        text = text_of(side).strip() if side is not None else ""
        text = "centre" if text.isalpha() and says_middle(text) else text
        if (
            text in ("+", "-", "−", "–")
            and along.axis in ("x", "any")
            and meaning.plus in ("SL", "SR")
        ):
            plus = text == "+"
            return meaning.plus if plus else ("SR" if meaning.plus == "SL" else "SL")
        own = self.own_words(_PROMPT_LETTERS.get(text.casefold().strip(" ."), text)).strip()
        own = self.ways.side(own)
        if own != text:
            self.noticed.read_as("at", text, own)
            text = own
        if along.axis not in ("x", "any") or SIDED.search(text):
            return text
        if is_middle_letter(text):
            return "centre"
        return bare_as(meaning.bare, text)

    def own_words(self, text: str) -> str:
        """A text with the list's own words for a side, "PS", as the side that it or the house says."""
        if not text or (text[0] in "0123456789+-" and text[-1].isdigit()):
            return text
        text = own_words(text, self.named_sides)
        text = respelled(in_english(self.stage_words.plain(text)))
        told = {word for word, _ in self.said.sides}
        custom = [(word, side) for word, side in self._prompt_sides if word not in told]
        if "ps" in told or "op" in told:
            custom = [(word, side) for word, side in custom if word not in ("ps", "op")]
        return own_words(own_words(text, self.said.sides), custom)

    def _cell_said(self, cell: Any, side: str, meaning: Meaning, along: Along) -> Any:
        """A cell with the side that its bare L or R is, where the list says whose they are."""
        if side or not isinstance(cell, str):
            return cell
        cell = self.own_words(cell)
        if along.axis not in ("x", "any"):
            return cell
        if is_middle_letter(cell) and along.centre:
            return "centre"
        plain = OFF_CENTRE.sub(" ", cell)  # "10 ft right of centre"
        return cell if SIDED.search(plain) else bare_as(meaning.bare, plain)


def _as_typed(one: Reading) -> Any:
    """The cell of a place, with the one of its side where it has its own, as it was typed."""
    cell, side = one.typed
    if side is None:
        return cell
    return f"{text_of(cell) if cell is not None else ''} {text_of(side)}".strip()


WHENCE = 2  # in place of the 1 of a place with its side: it says from where it counts
_RUNGS = r"(?i)\W*(?:rungs?|slots?|notch(?:es)?)(?:\W*(?:no|nr|number|#))?\W*"
_COUNTS_MARKS = regex(r"\b(?:marks?|holes?|rungs?|slots?|notch(?:es)?|rings?)\b", re.IGNORECASE)
AGREE = 0.03  # metres between two places that are one, each rounded as it was typed
_JOINED = regex(r"(?<=\d)(m|cm|mm)(?=[A-Z]{1,2}\W*$)")  # "1,6mD"
DASHES = ("-", "–", "—")
NO_SIDE = (
    *DASHES,
    "--",
    "---",
    "−",
    "/",
    "x",
    "X",
    ".",
    "0",
    "=",
    "n/a",
    "N/A",
    "na",
    "none",
    "None",
    "nil",
)
_NOUGHT = regex(  # "0' 0\"", "0.00 m": on the centre line, which has no side
    r"\s*(?:[+−–-]\s*)?0(?:[.,]0+)?\s*(?:['\"′″’”]|[a-z]{1,6}\.?)?(?:[\s-]*0(?:[.,]0+)?\s*(?:[\"″”]|[a-z]{1,6}\.?)?)?\s*",
    re.IGNORECASE,
)
_FROM = regex(r"(?:from|off)\b", re.IGNORECASE)
_WAS = regex(r"was\b", re.IGNORECASE)
_PROMPT_LETTERS = {
    "p": "PS",
    "o": "OP",
    "j": "SR",
    "jardin": "SR",
    "cour": "SL",
}  # in a column of sides
_IS_UP = r"(?i)\b(?:height|high|up|above|tall)\b"
