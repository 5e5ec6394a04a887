"""Where the units of a hang list hang: a place along a pipe or up a boom from the cells that say it, or from
the spacing of the pipe where none does."""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.boomunits import headed_boom_unit
from aimcalc.scene.hanglist.columns.columnkeys import (
    AGAIN,
    AT_PARTS,
    GAP,
    HEIGHT,
    MARK,
    SIDE,
    UPSTAGE,
    Column,
    Headings,
    Meaning,
)
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.whosewords import whose_in_brackets
from aimcalc.scene.hanglist.places.along import Along, Read, told
from aimcalc.scene.hanglist.places.barefigures import BareFigures
from aimcalc.scene.hanglist.places.ends import sides_plain
from aimcalc.scene.hanglist.places.fromgrid import below_grid, grid_out, heads_grid
from aimcalc.scene.hanglist.places.gapwords import defers
from aimcalc.scene.hanglist.places.heights import (
    below_top,
    down_out,
    height_alone,
    is_height_of,
    is_up,
    says_top,
    says_up,
    top_out,
)
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
    onward,
)
from aimcalc.scene.hanglist.places.placeasides import said_once
from aimcalc.scene.hanglist.places.placeforms import SIDED, is_relative, says_side
from aimcalc.scene.hanglist.places.placewords import from_plaster, read_place, x_out
from aimcalc.scene.hanglist.places.reading import (
    Reading,
    as_typed,
    aside_out,
    from_marks,
    hangs_in_middle,
    of_section,
    one_side,
    refuse_unplaced,
    refuse_vague,
    steps_on,
    thing_counted,
)
from aimcalc.scene.hanglist.places.rowwhence import NOWHERE, taken_from, whence_of
from aimcalc.scene.hanglist.places.shelves import refuse_other_end, shelf_of
from aimcalc.scene.hanglist.places.sidewording import (
    DASHES,
    NO_SIDE,
    NOUGHT,
    SideWords,
    by_initials,
)
from aimcalc.scene.hanglist.places.spacing import along_of
from aimcalc.scene.hanglist.places.spacingcells import Spacing, spacing_of
from aimcalc.scene.hanglist.places.stagelines import (
    at_line,
    deep_plain,
    lines_plain,
    out_plain,
    side_of_line,
    up_plain,
    ways_plain,
)
from aimcalc.scene.hanglist.places.steps import onward as steps_onward
from aimcalc.scene.hanglist.places.things import (
    thing_of,
    thing_out,
    titled_things,
    upstage_of,
    ways_from_thing,
)
from aimcalc.scene.hanglist.places.unitfit import dotted_out, is_bare
from aimcalc.scene.hanglist.rows.listrow import Around, any_of, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.stagewords import StageWords
from aimcalc.scene.hanglist.tongues.tongues import by_plaster, in_english
from aimcalc.scene.mistakes import CLASH, Log, Where, Wrong
from aimcalc.scene.model import Taken
from aimcalc.scene.records import Place


def _counts(side: Any) -> bool:
    """Whether a cell of a side says too from where the place beside it counts."""
    return isinstance(side, str) and len(side.split()) > 1


class Placing:
    """Reads what is measured along the positions, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.headings = Headings(0, 0, ())
        self.said = Said()
        self.own: dict[str, Said] = {}  # what lines say of some positions alone
        self.ways = Ways(around)
        self.titled = titled_things(around.title, around.front)
        self.ordinates = Ordinates(around.unit)
        self.heights: dict[str, str] = {}  # words for heights on booms, as the list explains them
        self.headed_units: dict[str, str] = {}  # of positions that a heading names
        # Lines that say a unit of all places, where they say two.
        self.two_units: tuple[str, ...] = ()
        self.lined: dict[
            str, str
        ] = {}  # by unit, the line that says it of all places; "" of others
        self.shelves: list[tuple[dict[str, Any], str]] = []  # rows with the shelves of their units
        self.middles = False  # a place of the list counts from the middle of its pipe, as it says
        # Rows whose remark says that their place counts from the plaster line.
        self.by_remark: list[dict[str, Any]] = []
        self.unread: tuple[Column, ...] = ()  # columns of lengths that are no key
        # Positions spread evenly, as their rows say, and from which side.
        self.even: dict[str, str] = {}
        self.spacings: dict[str, Spacing] = {}  # positions spaced as their rows say
        self.onward: list[dict[str, Any]] = []  # rows that say a way alone, "2 m toward the seats"
        self.over: dict[str, str] = {}  # the words of the rows that name positions over their units
        self.bare = BareFigures(around, noticed)
        self.stage_words = StageWords(around)
        self.words = SideWords(around, noticed, self.ways, self.stage_words)
        self.named_sides = self.words.named
        self.day_first: bool | None = None  # how dates are written that were feet and inches

    def measured(self, raw: dict[str, Any]) -> Along:
        """How the places of the position of a row are measured."""
        place = (
            self.around.places.get(raw.get("position") or "")
            if raw.get("position") is not ASKED
            else None
        )
        return along_of(place, self.around.unit, self.day_first)

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
        if place is not None and place.axis == "y" and _counts(side) and "at" in raw:
            raw["at"], side = f"{text_of(raw['at'])} {side}", None  # "2.5" and "u/s of 0"
        key = self._key_of(raw, remarks, where, place)
        if not self._says_place(raw, remarks, key, side, place):
            return 0
        one = Reading(raw, key, side, place, self.meaning_of(key), self.measured(raw))
        self._shelf_out(one, remarks)
        try:
            self._put_plainly(one)
            self._put_aside(one, remarks)
            self._count_from(one)
            self._put_in_lengths(one)
            sided = self._find(one)
            if one.shelf and place is not None:
                metres = float(str(one.raw["at"]).removesuffix(" m"))
                refuse_other_end(one.shelf, metres, place.reach)
            return sided
        except Wrong as wrong:
            if self.said.disputed and "SL or SR" in wrong.expected:
                wrong.expected += "; two lines of the list say whose it is, and do not agree"
            ask(self.log, raw, where, "at", wrong, as_typed(one))
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
        placed = "at" in raw
        if ordinate is not None:
            try:
                self.ordinates.place(raw, ordinate, self.headings.by_key[UPSTAGE], place)
            except Wrong as wrong:
                ask(self.log, raw, where, "at", wrong, ordinate)
        if height is None:
            return UPSTAGE if "at" in raw and not placed else "at"
        column = self.headings.by_key.get("at")
        across = ordinate is not None or bool(SIDED.search(text_of(raw.get("at", ""))))
        across = across or (column is not None and column.meaning.plus in ("SL", "SR"))
        if place is None or place.sort != "boom" or ("at" in raw and not across):
            remarks.append((self.headings.by_key[HEIGHT].heading, height))
            return "at"
        if "at" in raw:  # where the boom stands: X beside Z
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
        if cell is None and side is None and place and hangs_in_middle(place, self.said):
            raw["at"], cell = 0, 0
            self.noticed.read_as("at", "nothing", "centre, as the list says")
        stands = place is not None and place.sort == "stand"
        if stands and (
            not re.search(r"\d", text_of(cell or ""))
            or re.search(_IS_UP, text_of(cell))
            or is_height_of(cell, place, self.around.unit)
        ):
            raw.pop("at", None)  # "on floor"
            if cell is not None and cell is not ASKED:
                column = self.headings.by_key.get(key)
                remarks.append((column.heading if column else "", cell))
            return False
        if cell is ASKED or stands or (cell is None and side is None):
            return False
        on = isinstance(cell, str) and (is_relative(cell) or defers(cell) or steps_onward(cell))
        on = on or bool(place and place.pipe and spacing_of(cell))
        if on or steps_on(cell, self.headings.by_key.get(key), self.said.steps):
            raw[GAP] = raw.pop("at")
            return False
        return True

    def shelf_of_number(self, raw: dict[str, Any]) -> None:
        """Take a shelf with its height, "top 9'6\"", out of the cell of a number for the place, where a unit
        of a boom has no other."""
        place = self.around.places.get(str(raw.get("position")))
        placed = {"at", HEIGHT, GAP, *AT_PARTS} & raw.keys()
        if place and place.sort == "boom" and not placed and shelf_of(raw.get("number")):
            raw["at"] = raw.pop("number")

    def _shelf_out(self, one: Reading, remarks: list[tuple[str, Any]]) -> None:
        """Take the name of a shelf of a boom out of the cell of its height; it is a remark."""
        shelf = shelf_of(one.cell, lengths=bool(one.meaning.unit)) if one.boom else None
        if shelf is None:
            return
        one.cell, one.shelf = shelf.height, shelf.name
        remarks.append(("", shelf.name))
        self.shelves.append((one.raw, shelf.name))

    def _put_plainly(self, one: Reading) -> None:
        """Put a place's cell and side into English words, its sides into ours, and take out the line that it
        counts from."""
        column = self.headings.by_key.get(one.key)
        meaning, along = one.meaning, one.along
        one.cell = x_out(one.cell, along)
        if self.said.dotted:
            one.cell = dotted_out(one.cell)
        if meaning.unit == MARK:
            meaning = meaning._replace(unit="")
            if one.cell is not None and text_of(one.cell).isdecimal():
                one.cell = f"mark {text_of(one.cell)}"
        meaning = self._in_unit(one, meaning, column)
        own = column is not None and bool(column.meaning.plus or column.meaning.end)
        if own and self.middles and along.axis == "y" and meaning.plus in ("SL", "SR"):
            own = False  # a remark said that places count from the middle there, and not to a side
        headed = column is not None and column.meaning.heights
        if column is not None and along.axis == "" and column.meaning.plus and not headed:
            self._heights_noted(str(one.raw.get("position")), column)
        meaning = of_axis(meaning, own, self.said.upstage, along)
        meaning = of_section(
            meaning, column, self.over.get(str(one.raw.get("position")), ""), along
        )
        if one.boom:
            one.cell, one.grid = grid_out(one.cell)
            if self.said.top or self.said.grid:
                one.cell = down_out(one.cell)
        if along.axis == "y" and isinstance(one.cell, str) and at_line(one.cell):
            one.cell = "on the plaster line"
        cell = height_alone(one.cell) if one.boom else one.cell
        high = cell is not one.cell
        cell, plaster = self._line_out(
            self._thing_out(one, self.words.english(cell, meaning)), along, headed=meaning.plaster
        )
        if not (plaster or one.thing):
            up = self.said.upstage
            elsewhere = bool(self.said.plaster or self.said.things or up.unplaced or up.vague)
            said = cell
            cell, one.middle = of_middle(cell, along, elsewhere=elsewhere or bool(meaning.end))
            if one.middle and cell is said:
                self.onward.append(one.raw)
            cell = 0 if at_middle(cell, along) else cell
        side, beside = from_plaster(one.side)
        one.plaster = plaster or beside
        if one.boom and meaning.end and (headed or self.said.heights or high or says_up(cell)):
            meaning = meaning._replace(end="")  # that is of the pipes in the list
            if self.said.heights and column is not None:
                self._heights_noted(str(one.raw.get("position")), column)
        sides = self.headings.by_key.get(SIDE)
        if sides is not None and isinstance(side, str):
            side = by_initials(sides.heading).get(side.casefold().strip(" ."), side)
        if side is not None and along.axis != "x":
            none = text_of(side) in DASHES and bool(one.boom or meaning.end or one.middle)
            side = None if none or is_up(side) else side  # "height", in a column of sides
        if one.boom:
            cell = self.heights.get(text_of(cell).casefold().strip(), cell)
            cell, one.top = top_out(in_english(cell) if isinstance(cell, str) else cell)
        one.cell, one.meaning = cell, meaning
        one.side = self.words.of_column(side, cell, self.said, meaning, along)
        if one.side in NO_SIDE and NOUGHT.fullmatch(text_of(cell or 0)):
            one.side = ""

    def _in_unit(self, one: Reading, meaning: Meaning, column: Column | None) -> Meaning:
        """What a heading means, with the unit that it or a line says of booms, or of a position alone."""
        position = str(one.raw.get("position"))
        own = self.own.get(position, Said())
        headed = self.headed_units.get(position, "") if one.key == "at" else ""
        if one.key == "at" and position in self.headed_units and not headed:
            raise Wrong(f"one unit of length for {position} in a heading", _TAKE_OUT, rank=CLASH)
        headed = headed or (headed_boom_unit(column.heading).unit if column and one.boom else "")
        if column is not None and one.key == HEIGHT:
            headed = headed or column.meaning.unit
        said = own.unit or own.boom_unit or (self.said.boom_unit if one.boom else "")
        of_all = column.meaning.unit if column is not None and own.open_unit else ""
        if of_all and is_bare(text_of(one.cell)) and own.unit not in ("", of_all):
            expected = (
                f"one unit of length: the heading says {of_all}, a line {own.unit} of {position}"
            )
            raise Wrong(expected, "Take one of the two out.", rank=CLASH)
        if headed and said and headed != said:
            raise Wrong(f"one unit of length: the heading says {headed}, a line {said}", _TAKE_OUT)
        named = headed or said or (column.meaning.unit if column else "")
        if self.two_units and not named and is_bare(text_of(one.cell)):
            lines = any_of([f'"{line[:60]}"' for line in self.two_units])
            raise Wrong(
                f"one unit of length for all places, and lines say {lines}", _TAKE_OUT, rank=CLASH
            )
        if not (headed or said) and column is not None and one.key == "at":
            self._agree(column, text_of(one.cell))
        return meaning._replace(unit=headed or said or meaning.unit)

    def _agree(self, column: Column, cell: str) -> None:
        """Refuse a figure below a heading that says one unit, where a line says another of all places, and no
        other line or heading says either."""
        unit, lines = column.meaning.unit, [line for line in self.lined.values() if line]
        others = {each.meaning.unit for each in self.headings.columns if each is not column}
        if (
            unit
            and lines
            and unit not in self.lined
            and is_bare(cell)
            and not self.lined.keys() <= others
        ):
            said = f'the heading says {unit}, and a line says "{lines[0][:60]}"'
            expected = f"one unit of length: {said}"
            raise Wrong(expected, _TAKE_OUT, rank=CLASH)

    def _thing_out(self, one: Reading, cell: Any) -> Any:
        """A place without the thing that it counts from, which a line places."""
        if not isinstance(cell, str) or one.along.axis != "y" or not self.said.things:
            return cell
        text = ways_from_thing(sides_plain(ways_plain(in_english(cell))), self.said.things)
        one.thing = thing_of(text, self.said.things)
        return thing_out(text, one.thing) if one.thing else cell

    def _line_out(self, cell: Any, along: Along, *, headed: bool) -> tuple[Any, bool]:
        """A place without the plaster line that it counts from, by whatever name, and whether it does."""
        if not isinstance(cell, str):
            return cell, False
        if along.axis == "y":
            english = in_english(cell)
            if at_line(english):
                return 0, True
            turned = ways_plain(out_plain(english) if self.said.out else english)
            turned = deep_plain(side_of_line(turned))
            turned = up_plain(turned) if headed or self.said.plaster else turned
            cell = turned if turned != english else cell
        if along.axis == "x":
            return cell, False
        rest, plaster = from_plaster(lines_plain(by_plaster(cell)))
        if plaster and not re.search(r"\d", str(rest)):
            return (0, True) if rest == "" else (cell, False)  # "on the plaster line"
        return rest, plaster

    def _put_aside(self, one: Reading, remarks: list[tuple[str, Any]]) -> None:
        """Take the words beside a place out of its cell, and from where they or the remarks say it counts."""
        if one.cell is None:
            return
        known = len(remarks)
        one.cell = aside_out(one.cell, one.along, remarks, exact=one.meaning.exact)
        beside = [("", f"measured {words}") for _, words in remarks[known:] if _FROM.match(words)]
        note = one.raw.get("note")
        one.whence = whence_of([*beside, *remarks], note, self.ways, boom=one.boom)

    def _count_from(self, one: Reading) -> None:
        """Take a place from where the words beside it say that it counts."""
        where = one.whence
        if where.plaster and not (where.measured or where.side or one.along.axis == "y"):
            one.whence = NOWHERE  # "hard edge, off the pros": of the beam
        if one.whence == NOWHERE:
            return
        side, words = f" {one.side}" if one.side else "", one.whence.words
        one.raw["at"] = f"{text_of(one.raw['at'])}{side} ({words})"
        both = f"{text_of(one.cell)} {one.side}".strip() if one.side else one.cell
        if where.unit:
            one.meaning = one.meaning._replace(unit=where.unit)
        if where._replace(words="", unit="", measured=True) == NOWHERE:
            return  # a unit, and no more
        taken = taken_from(one.whence, both, one.meaning, one.along, boom=one.boom)
        one.cell, one.meaning = taken
        one.side = ""
        if one.whence.plaster:
            self.by_remark.append(one.raw)
        one.top = one.boom and (one.top or one.whence.top)

    def _put_in_lengths(self, one: Reading) -> None:
        """Put a place's cell into one length, and settle the line that it counts from."""
        along = one.along
        one.cell, one.meaning = self.bare.of_most(one.cell, one.meaning, along)
        one.cell, one.meaning = end_said(one.cell, one.meaning)
        one.cell = said_once(
            self.words.in_cell(one.cell, one.side, self.said, one.meaning, along), along
        )
        one.cell = from_marks(one.cell, self.headings.by_key.get(one.key), self.said.marks)
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
        sided = bool(one.side) or says_side(str(one.cell))
        headed = (meaning.end or meaning.plus) and not sided
        found = by_heading(read.metres, meaning, along) if headed else read.metres
        column = self.headings.by_key.get(one.key)
        headed_top = column is not None and says_top(in_english(column.heading), heading=True)
        top = (self.said.top or headed_top) and not one.whence.foot
        headed_grid = column is not None and heads_grid(column.heading)
        grid = self.said.grid or headed_grid
        if one.boom and place is not None and (one.grid or (grid and not one.top)):
            found = below_grid(found, self.said.grids, place.reach)
            return self._found(raw, found, along, 0)
        if one.boom and place is not None and (one.top or top):
            return self._found(raw, below_top(found, place.reach), along, 0)
        one.thing = thing_counted(one, column, self.said, self.titled)
        if one.thing in self.titled and one.thing not in self.said.things:
            says = f'the title of the scene says where zero is: "{self.around.title[:80]}".'
            self.noticed.note("list-at", says)
        refuse_unplaced(one, column, self.said)
        if sided and along.axis == "y" and meaning.end and read.metres and not _is_apart(one):
            return self._found(raw, onward(read.metres, meaning, along), along, WHENCE)
        if one.middle or (headed and (meaning.end or not one.plaster)):
            found = from_middle(found, along) if one.middle else found
            self.middles = self.middles or one.middle
            elsewhere = one.middle or (along.axis == "y" and bool(meaning.end))
            return self._found(raw, found, along, WHENCE if elsewhere else 1)
        if not sided and read.metres and along.axis:
            refuse_vague(one, column, self.said, self.own, signed=self.bare.signed)
        if one.thing is not None and one.thing.metres:
            signed = bool(sided or headed or text_of(one.cell)[:1] in ("+", "-", "−", "–"))
            away = upstage_of(found, one.thing, along, signed=signed)
            return self._from_plaster(raw, away, along)
        if one.plaster or one.thing is not None:
            unsigned = not (sided or headed) and "+" not in str(one.cell)
            found = -found if unsigned and found > 0 and one_side(along) == "DS" else found
            return self._from_plaster(raw, found, along)
        self.bare.check_end(raw, one.cell, read.metres, meaning, along)
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
            said = self.words.in_cell(cell, "", self.said, meaning, along)
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

    def own_words(self, text: str) -> str:
        """A text with the list's own words for a side, "PS", as the side that it or the house says."""
        return self.words.own_words(text, self.said)


def _is_apart(one: Reading) -> bool:
    """Whether a place says itself from where it counts."""
    return one.middle or one.plaster or one.thing is not None or one.whence != NOWHERE


WHENCE = 2  # in place of the 1 of a place with its side: it says from where it counts
AGREE = 0.03  # metres between two places that are one, each rounded as it was typed
_TAKE_OUT = "Take one of the two out."
_FROM = regex(r"(?:from|off)\b", re.IGNORECASE)
_IS_UP = r"(?i)\b(?:height|high|up|above|tall)\b"
