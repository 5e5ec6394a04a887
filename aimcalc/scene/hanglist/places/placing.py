"""Where the units of a hang list hang: a place along a pipe or up a boom from the cells that say it, or from
the spacing of the pipe where none does."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.listrow import Around, float_of, text_of
from aimcalc.scene.hanglist.names.namesides import paired_sides
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, own_end, sides_plain
from aimcalc.scene.hanglist.places.gapwords import defers
from aimcalc.scene.hanglist.places.heights import below_top, is_up, says_top, says_up, top_out
from aimcalc.scene.hanglist.places.ordinates import Ordinates
from aimcalc.scene.hanglist.places.origins import (
    Ways,
    at_middle,
    by_heading,
    end_said,
    from_middle,
    of_axis,
    of_middle,
)
from aimcalc.scene.hanglist.places.placeasides import aside_of, said_once
from aimcalc.scene.hanglist.places.placewords import (
    EVEN,
    Along,
    from_plaster,
    plaster_line,
    read_place,
    span,
    told,
)
from aimcalc.scene.hanglist.places.rowwhence import NOWHERE, taken_from, whence_of
from aimcalc.scene.hanglist.places.slips import respelled
from aimcalc.scene.hanglist.places.stagewords import StageWords
from aimcalc.scene.hanglist.places.tongues import by_plaster, in_english
from aimcalc.scene.hanglist.places.unitfit import PAST, Figure, is_bare
from aimcalc.scene.hanglist.table.findtable import Column, Headings
from aimcalc.scene.hanglist.table.headings import (
    AGAIN,
    GAP,
    HEIGHT,
    MARK,
    SIDE,
    UPSTAGE,
    Meaning,
)
from aimcalc.scene.hanglist.table.titles import (
    NUMBERED,
    Said,
    counts_from_centre,
    own_words,
    prompt_plain,
    whose_in_brackets,
)
from aimcalc.scene.hanglist.table.tradewords import LENGTHS
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import Log, Where, Wrong, show
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place


class Placing:
    """Reads what is measured along the positions, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.headings = Headings(0, 0, ())
        self.said = Said()
        self.ways = Ways(around)
        self.ordinates = Ordinates(around.unit)
        self.heights: dict[str, str] = {}  # words for heights on booms, as the list explains them
        self.unread: tuple[Column, ...] = ()  # columns of lengths that are no key
        self._column: list[Any] = []  # the cells of the column of places
        self._unit_of_column: str | None = None  # as `_unit_of_most` of it, once that is asked for
        self.even: set[str] = set()  # positions whose units are spread evenly, as their rows say
        self.over: dict[str, str] = {}  # the words of the rows that name positions over their units
        self.figures: list[Figure] = []  # places that have no length unit
        self.stage_words = StageWords(around)
        self._prompt_sides = (*prompt_sides(around), *_garden_sides(around))
        self.named_sides = paired_sides(around.places)
        self.day_first: bool | None = None  # how dates are written that were feet and inches

    def take_column(self, cells: list[Any]) -> None:
        """Keep the column of places whole, for what most of it says of one."""
        self._column, self._unit_of_column = cells, None

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

    def along(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> int:
        """Read what is measured along the position; as `sided` of a row."""
        place = (
            self.around.places.get(raw["position"])
            if isinstance(raw.get("position"), str)
            else None
        )
        height, side = raw.pop(HEIGHT, None), raw.pop(SIDE, None)
        key, ordinate = "at", raw.pop(UPSTAGE, None)
        if ordinate is not None:
            try:
                self.ordinates.place(raw, ordinate, self.headings.by_key[UPSTAGE], place)
            except Wrong as wrong:
                ask(self.log, raw, where, "at", wrong, ordinate)
        if height is not None:
            across = ordinate is not None or SIDED.search(text_of(raw.get("at", "")))
            if place is not None and place.sort == "boom" and ("at" not in raw or across):
                if "at" in raw:  # where the boom stands: X beside Z
                    remarks.append((self.headings.by_key["at"].heading, raw["at"]))
                raw["at"], key = height, HEIGHT
            else:
                remarks.append((self.headings.by_key[HEIGHT].heading, height))
        cell = raw.get("at")
        if cell is None and side is None and place and self._hangs_in_middle(place):
            raw["at"], cell = 0, 0
            self.noticed.read_as("at", "nothing", "centre, as the list says")
        if (
            place is not None
            and place.sort == "stand"
            and (not re.search(r"\d", text_of(cell or "")) or re.search(_IS_UP, text_of(cell)))
        ):
            raw.pop("at", None)  # "on floor"
            if cell is not None and cell is not ASKED:
                column = self.headings.by_key.get(key)
                remarks.append((column.heading if column else "", cell))
            return 0
        if (
            cell is ASKED
            or (cell is None and side is None)
            or (place is not None and place.sort == "stand")
        ):
            return 0
        if isinstance(cell, str) and (is_relative(cell) or defers(cell)):
            raw[GAP] = raw.pop("at")
            return 0
        meaning, along = self.meaning_of(key), self.measured(raw)
        if meaning.unit == MARK:
            meaning = meaning._replace(unit="")
            if cell is not None and text_of(cell).isdecimal():
                cell = f"mark {text_of(cell)}"
        column = self.headings.by_key.get(key)
        own = column is not None and bool(column.meaning.plus or column.meaning.end)
        if column is not None and along.axis == "" and column.meaning.plus:
            self._heights_noted(str(raw.get("position")), column)
        meaning = of_axis(meaning, own, self.said.upstage, along)
        meaning = self._of_section(meaning, key, raw, along)
        cell, middle = of_middle(self._english(cell, meaning), along)
        cell = 0 if at_middle(cell, along) else cell
        cell, plaster = from_plaster(by_plaster(cell) if isinstance(cell, str) else cell)
        cell = 0 if plaster and cell == "" else cell  # "on the plaster line"
        side, beside = from_plaster(side)
        plaster = plaster or beside
        boom = place is not None and place.sort == "boom"
        if boom and meaning.end and (self.said.heights or says_up(cell)):
            meaning = meaning._replace(end="")  # that is of the pipes in the list
            if self.said.heights and column is not None:
                self._heights_noted(str(raw.get("position")), column)
        if side is not None and along.axis != "x":
            none = text_of(side) in DASHES and bool(boom or meaning.end or middle)
            side = None if none or is_up(side) else side  # "height", in a column of sides
        cell = self.heights.get(text_of(cell).casefold().strip(), cell) if boom else cell
        cell, down = (
            top_out(in_english(cell) if isinstance(cell, str) else cell) if boom else (cell, False)
        )
        side = self._side_said(self._garden_c(side, cell), meaning, along)
        if side in DASHES and float_of(text_of(cell or 0)) == 0:
            side = ""
        whence = NOWHERE
        if cell is not None:
            known = len(remarks)
            cell = self._aside_out(cell, along, remarks)
            beside_it = [
                ("", f"measured {words}") for _, words in remarks[known:] if _FROM.match(words)
            ]
            whence = whence_of([*beside_it, *remarks], raw.get("note"), self.ways, boom=boom)
        try:
            if whence != NOWHERE:
                raw["at"] = f"{text_of(raw['at'])}{f' {side}' if side else ''} ({whence.words})"
                both = f"{text_of(cell)} {side}".strip() if side else cell
                cell, meaning = taken_from(whence, both, meaning, along, boom=boom)
                side = ""
                down = (down or whence.top) if boom else False
            cell, meaning = self._of_most(cell, meaning, along)
            cell, meaning = end_said(cell, meaning)
            cell = said_once(self._cell_said(cell, side, meaning, along), along)
            cell = self._from_marks(cell, key)
            upstage = along.axis == "y"
            middle = middle or (upstage and self.said.upstage.middle and not meaning.end)
            middle = (middle or (upstage and whence.centre) or whence.middle) and not whence.plaster
            plaster = upstage and (plaster or meaning.plaster or self.said.plaster)
            plaster = (plaster and not whence.middle) or whence.plaster
            self._figure(raw, cell, side, meaning, along, middle)
            meaning = self._of_thousands(cell, side, meaning, along)
            read = read_place(cell, along, meaning.unit, side)
            sided = bool(side) or bool(SIDED.search(str(cell)))
            headed = (meaning.end or meaning.plus) and not sided
            found = by_heading(read.metres, meaning, along) if headed else read.metres
            headed_top = column is not None and says_top(in_english(column.heading), heading=True)
            top = (self.said.top or headed_top) and not whence.foot
            if boom and place is not None and (down or top):
                return self._found(raw, below_top(found, place.reach), along, 0)
            if middle or (headed and (meaning.end or not plaster)):
                found = from_middle(found, along) if middle else found
                elsewhere = middle or (upstage and bool(meaning.end))
                return self._found(raw, found, along, WHENCE if elsewhere else 1)
            vague = self.said.vague or (self.said.upstage.vague if upstage and not plaster else "")
            if vague and not sided and read.metres and along.axis:
                way, other = ("SL", "SR") if along.axis == "x" else ("US", "DS")
                raise Wrong(
                    f"a place that tells where it counts from: the list says {show(vague)}",
                    f"Write {way} or {other} and the place from the position's zero, or head the "
                    f"column: from the {way} end, or from the {other} end.",
                )
            if plaster:
                return self._from_plaster(raw, found, along)
            self._check_end(cell, read.metres, meaning, along)
        except Wrong as wrong:
            if side:
                cell = f"{text_of(cell) if cell is not None else ''} {side}".strip()
            ask(self.log, raw, where, "at", wrong, cell)
            return 0
        if read.said:
            self.noticed.read_as(
                "at", f"{text_of(raw['at'])}{f' {side}' if side else ''}", read.said
            )
        elif cell != raw.get("at"):
            self.noticed.read_as("at", text_of(raw.get("at", "")), told(read.metres, along))
        raw["at"] = f"{read.metres!r} m"
        if sided:
            return 1
        return -1 if along.axis == "x" and read.metres > 0 and "+" not in str(cell) else 0

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

    def _of_most(self, cell: Any, meaning: Meaning, along: Along) -> tuple[Any, Meaning]:
        """A bare figure past the end of its pipe with the unit that the most of its column are written in,
        where it is on the pipe in that."""
        if meaning.unit or along.span is None or not _is_bare(cell):
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

    def _figure(
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
        self.figures.append(figure)

    def _of_thousands(self, cell: Any, side: str, meaning: Meaning, along: Along) -> Meaning:
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

    def _check_end(self, cell: Any, metres: float, meaning: Meaning, along: Along) -> None:
        """Refuse a bare figure that lies past the end of its pipe: it is likely of another unit."""
        if (
            not meaning.unit
            and is_bare(text_of(cell))
            and along.span
            and not along.span[0] - PAST <= metres <= along.span[1] + PAST
        ):
            end = along.span[1] if metres > 0 else along.span[0]
            raise Wrong(
                f"a place on the pipe, which ends at {told(end, along)}: {told(metres, along)} is past it, "
                "so that the figure may be of another unit",
                "Write it with its unit, or head the column with the unit: at (in).",
            )

    def meaning_of(self, key: str) -> Meaning:
        """What the heading of a place says of it, with what the lines round the table add."""
        column = self.headings.by_key.get(key)
        side = self.headings.by_key.get(SIDE)
        if column is None:
            bare = (side.meaning.bare if side else "") or self.said.bare
            said = self.said  # of a place in two columns, feet and inches
            return Meaning(bare=bare, unit=said.unit, end=said.end, plus=said.plus)
        found = self.said.beside(column.meaning, column.heading)
        bare = found.bare or (side.meaning.bare if side else "")
        return found._replace(bare=bare or whose_in_brackets(column.heading))

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
        english = in_english(self.stage_words.plain(cell))
        cell = own_end(english, meaning.bare, "") if "end" in english else cell
        return self.ways.plain(cell)

    def _garden_c(self, side: Any, cell: Any) -> Any:
        """A cell of a column of sides whose "C" beside a distance is cour, in a house of jardin and cour."""
        letter = text_of(side).strip(" .").casefold() if side is not None else ""
        away = re.search(r"[1-9]", text_of(cell)) if cell is not None else None
        return "SL" if letter == "c" and away and _garden_sides(self.around) else side

    def _side_said(self, side: Any, meaning: Meaning, along: Along) -> str:
        """A cell of its own for the side, with the side that plus or a bare L or R is."""
        text = text_of(side).strip() if side is not None else ""
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
        return _bare_as(meaning.bare, text)

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
        plain = _OFF_CENTRE.sub(" ", cell)  # "10 ft right of centre"
        return cell if SIDED.search(plain) else _bare_as(meaning.bare, plain)


SIDED = regex(
    r"(?<![^\W\d_])(?:s\W?[lr]|u\W?s|d\W?s|h\W?[lr])\b|stage|house|cam(?:era)?\b|cent|c/?l\b|mark"
    r"|jardin|\bcour\b|(?:on|in)\sax[ei]s?\b",
    re.IGNORECASE,
)
# "+ 2,00 m from lamp 1": a place that counts from another unit by its number, or from the last one.
RELATIVE = regex(
    r"\s*\+?\s*(\d[^a-z]*?(?:'|\"|[a-z]{1,6})?)\s+(?:from|after|past|beyond)\s+(?:the\s+)?"
    r"(?:(?:lamp|unit|light|lantern|fixture|instrument|no|nr|number|#)\W*(\d+)|(?:last|previous)(?:\s+\w+)?)\s*",
    re.IGNORECASE,
)
_RELATES = ("from", "after", "past", "beyond")


def is_relative(cell: str) -> bool:
    """Whether a place counts from another unit."""
    return any(word in cell.casefold() for word in _RELATES) and bool(RELATIVE.fullmatch(cell))


_OFF_CENTRE = regex(
    r"\b(?:of|from|off)\s+(?:the\s+)?(?:c\W?l\b\.?|cent(?:re|er)(?:\W?line)?\b|ctr\b\.?|mid(?:dle)?\b)",
    re.IGNORECASE,
)
WHENCE = 2  # in place of the 1 of a place with its side: it says from where it counts
THOUSAND = 1000  # metres that nothing on a stage is away, and millimetres of a metre
_RUNGS = r"(?i)\W*(?:rungs?|slots?|notch(?:es)?)(?:\W*(?:no|nr|number|#))?\W*"
_COUNTS_MARKS = regex(r"\b(?:marks?|holes?|rungs?|slots?|notch(?:es)?|rings?)\b", re.IGNORECASE)
AGREE = 0.03  # metres between two places that are one, each rounded as it was typed
DASHES = ("-", "–", "—")
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
_BARE_FIGURE = (
    r"[+−–-]?\s*\d+(?:[.,]\d+)?\s*(?:s\W?[lr]\W?|[lr])?|(?:s\W?[lr]\W?)\s*\d+(?:[.,]\d+)?"
)
BARE_SIDE = regex(r"(?<![a-z])(?:(l|left)|r|right)(?![a-z])\.?", re.IGNORECASE)


def _bare_as(whose: str, text: str) -> str:
    """A bare L or R as SL or SR, seen from the stage or from the house; as it is where nobody says."""
    if not whose:
        return text
    left, right = ("SL", "SR") if whose == "stage" else ("SR", "SL")
    return BARE_SIDE.sub(lambda found: f" {left if found[1] else right} ", text).strip()


def _is_bare(cell: Any) -> bool:
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


def prompt_sides(around: Around) -> tuple[tuple[str, str], ...]:
    """Which side PS and OP are, where booms that are named after them stand so; else nothing."""
    told = set()
    for name, place in around.places.items():
        words = re.findall(r"[a-z]+", prompt_plain(name.casefold()))
        for word in {"ps", "op"} & set(words) if place.x else ():
            told.add((word == "ps") == (place.x > 0))
    if len(told) != 1:
        return ()
    return (("ps", "SL"), ("op", "SR")) if told.pop() else (("ps", "SR"), ("op", "SL"))


def _garden_sides(around: Around) -> tuple[tuple[str, str], ...]:
    """The letters of cour, stage left, and jardin, stage right (common practice, no source), behind a figure
    or before one, where the scene has names with these words."""
    words = {w for name in (*around.places, *around.targets) for w in name.casefold().split()}
    if not {"cour", "jardin", "corte", "giardino", "tuin"} & words:
        return ()
    return tuple(
        (beside, side)
        for letter, side in (("c", "SL"), ("j", "SR"))
        for beside in (rf"(?:(?<=\d)\s*|(?<=\dm )|(?<=\d m )){letter}", rf"{letter}(?=\s*\d)")
    )


def placed_else(cell: Any, column: Column) -> Any:
    """A place out of a second column of places, with the unit and the line that its heading says."""
    text, meaning = text_of(cell).strip(), column.meaning
    unit = f" {meaning.unit}" if meaning.unit and float_of(text) is not None else ""
    line = " of the plaster line" if meaning.plaster else ""
    return f"{text}{unit}{line}" if unit or line else cell


def is_place(cell: Any, unit: str) -> bool:
    """Whether a cell can be a place, or is asked about as one."""
    cell, _ = from_plaster(cell)
    aside = aside_of(cell)
    if aside is not None:
        return is_place(aside.place, unit)
    if isinstance(cell, str) and cell.strip().casefold() in ("middle", "mid", "in the middle"):
        return True
    try:
        read_place(cell, Along(unit, "any", True))
    except Wrong as wrong:
        return (
            "SL or SR" in wrong.expected
            or "reads in one way" in wrong.expected
            or "marks" in wrong.expected
        )
    return True
