"""What the cells of one unit's row mean: its names, its place, its number, in the words of a scene."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Iterable, Sequence
from itertools import islice
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.document import ASKED
from aimcalc.scene.findtable import Headings, blank
from aimcalc.scene.headings import AT_PARTS, COUNT, HEIGHT, LENS, REMARK, SIDE, Meaning
from aimcalc.scene.meant import (
    KIND_SPARE,
    KIND_WORDS,
    POSITION_SPARE,
    POSITION_WORDS,
    Meant,
    Names,
    several_of,
)
from aimcalc.scene.mistakes import CLASH, UNKNOWN, Log, Where, Wrong, show
from aimcalc.scene.model import Taken
from aimcalc.scene.placewords import (
    Along,
    length_words,
    read_place,
    spaced,
    span,
    told,
    usual_spacing,
    whole_numbers,
)
from aimcalc.scene.records import Place
from aimcalc.scene.taken import Noticed

_ONE_ROW_EACH = "Give each unit a row of its own, with its own number and place."
LONGEST_CUT = 16  # characters of a remark that says it of the whole unit
LONGEST_REMARK = 200  # characters of a unit's note


class Around(NamedTuple):
    """What of a scene its hang list is read by."""

    unit: str
    places: dict[str, Place]
    targets: tuple[str, ...]
    kinds: tuple[tuple[str, str, float | None], ...]  # the scene's own: name, family, field
    generic: Callable[[], Iterable[str]]  # the names of the generic kinds
    hung: frozenset[str] = frozenset()  # positions that have units in the scene file
    columns: dict[str, Any] = {}  # noqa: RUF012 - [hang_columns], never changed
    sheet: str | None = None


class Row(NamedTuple):
    """One row of units as it was found: its cells by key, its place."""

    raw: dict[str, Any]
    where: Where
    source: str
    sided: int = 0  # 1: its place says SL or SR, -1: it might and does not, 0: it need not


class Meanings:
    """Puts rows into the words of a scene, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.positions = Names(around.places, POSITION_WORDS, POSITION_SPARE)
        self.targets = Names(around.targets, ordered=True)
        self.own_kinds = dict.fromkeys(name for name, _, _ in around.kinds)
        self.kinds: Names | None = None
        self.headings = Headings(0, 0, ())
        self.current: Any = None  # the position of the rows above
        self.prefixed: set[str] = set()  # positions whose numbers begin with that of the position
        self.by_section = False  # it stands in a row of its own
        self.day_first: bool | None = None  # how dates are written that were feet and inches

    def unit(
        self,
        raw: dict[str, Any],
        remarks: list[tuple[str, Any]],
        where: Where,
        source: str,
        number: int,
    ) -> Row:
        """One unit, from its cells by key and by heading."""
        raw = {key: _one_line(cell) for key, cell in raw.items()}
        self._position(raw, where, number)
        self._one_unit(raw, where)
        self._number(raw, where)
        self._target(raw, where)
        self._kind(raw, remarks, where)
        self._in_parts(raw, where)
        sided = self._along(raw, remarks, where)
        self._others(raw)
        self._cut(raw, remarks, where)
        self._note(raw, remarks)
        return Row(raw, where, source, sided)

    def _ask(self, raw: dict[str, Any], where: Where, key: str, wrong: Wrong, came: Any) -> None:
        """Ask about the value of a key; nothing more is said of it."""
        self.log.add(where, key, wrong, came)
        raw[key] = ASKED

    def _position(self, raw: dict[str, Any], where: Where, number: int) -> None:
        cell = raw.get("position")
        if cell is None:
            if self.current is None and "number" in raw:
                self._split_number(raw)
            elif self.current is not None:
                raw["position"] = self.current
                if not self.by_section:
                    self.noticed.row("blank", number)
            return
        if cell is ASKED:
            self.current = ASKED
            return
        raw["position"] = self._named("position", cell, self.positions, where)
        self.current, self.by_section = raw["position"], False

    def _one_unit(self, raw: dict[str, Any], where: Where) -> None:
        """Ask about a row that says it stands for several units."""
        count = raw.pop(COUNT, None)
        if count is not None and text_of(count).strip() not in ("1", "one"):
            wrong = Wrong(
                f"one unit a row, and this one says {show(text_of(count))}", _ONE_ROW_EACH
            )
            self.log.add(where, COUNT, wrong, count)
            raw["number"] = ASKED

    def _split_number(self, raw: dict[str, Any]) -> None:
        """A position and a number in one cell: "LX1/3"."""
        text = text_of(raw["number"]).strip()
        parts = position_and_number(text)
        meant = self.positions.find(parts[1]) if parts else Meant()
        if parts and meant.name:
            raw["position"], raw["number"] = meant.name, parts[2]
            self.noticed.read_as("number", text, f"position {meant.name}, number {parts[2]}")

    def _named(self, key: str, cell: Any, names: Names, where: Where) -> Any:
        """The name that a cell means; what fits several is asked."""
        text = text_of(cell)
        meant = names.find(text)
        if meant.name is not None:
            if not meant.sure:
                self.noticed.read_as(key, text, meant.name)
            return meant.name
        if meant.several:
            expected = f"one {key}, and {show(text)} may be {_or(meant.several)}"
            self.log.add(where, key, Wrong(expected, "Write which.", rank=UNKNOWN), cell)
            return ASKED
        return cell

    def _number(self, raw: dict[str, Any], where: Where) -> None:
        cell = raw.get("number")
        if cell is None or cell is ASKED:
            return
        day = _day(cell)
        if day is not None:
            raw["number"] = self._number_from_day(day, raw, where, cell)
            return
        text = text_of(cell)
        several = _SEVERAL.fullmatch(text.strip())
        if several and not self._is_prefixed(several, str(raw.get("position", ""))):
            wrong = Wrong(f"one unit a row, and {show(text)} may be several", _ONE_ROW_EACH)
            self._ask(raw, where, "number", wrong, cell)
            return
        plain = re.fullmatch(
            r"(?:unit|no\.?|number|#|u)\s*#?\s*(\d\w*)", text.strip(), re.IGNORECASE
        )
        if plain:
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
            f"one number: a spreadsheet made a date of it, which was {_or(ways)}",
            "Format the column as text, and type the number again.",
            came=text_of(cell),
        )
        self.log.add(where, "number", wrong, cell)
        return ASKED

    def _target(self, raw: dict[str, Any], where: Where) -> None:
        cell = raw.get("target")
        if cell is None or cell is ASKED:
            return
        text = text_of(cell)
        if self.targets.find(text).name is None:
            several = several_of(text, self.targets)
            if several:
                expected = (
                    f"one target, and {show(text)} holds {len(several)}: {', '.join(several)}"
                )
                do = "Write the one that it is aimed at; the others can stand in a column of remarks."
                self._ask(raw, where, "target", Wrong(expected, do, rank=UNKNOWN), cell)
                return
        raw["target"] = self._named("target", cell, self.targets, where)

    def _all_kinds(self) -> Names:
        if self.kinds is None:
            also = [
                (f"{family} {field:g}", name)
                for name, family, field in self.around.kinds
                if field is not None
            ]
            every = (*self.own_kinds, *self.around.generic())
            self.kinds = Names(every, KIND_WORDS, KIND_SPARE, also=also)
        return self.kinds

    def _kind(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> None:
        cell, lens = raw.get("kind"), raw.pop(LENS, None)
        if cell is None and lens is None:
            return
        if cell is ASKED or lens is ASKED:
            raw["kind"] = ASKED
            return
        text = text_of(cell) if cell is not None else ""
        if lens is None:
            if text in self.own_kinds:
                raw["kind"] = text
                return
            raw["kind"] = self._named("kind", cell, self._all_kinds(), where)
            return
        names, both = self._all_kinds(), f"{text} {text_of(lens)}".strip()
        together, alone = names.find(both), names.find(text) if text else Meant()
        if together.name is not None:
            raw["kind"] = self._named("kind", both, names, where)
        elif alone.name is None:
            raw["kind"] = self._named(
                "kind", both if together.several else (cell or lens), names, where
            )
        elif _degrees(text_of(lens)) - _degrees(alone.name):
            expected = f"a kind and degrees that agree: {alone.name} is not of {text_of(lens)}"
            self._ask(raw, where, "kind", Wrong(expected, "Correct one of the two columns."), both)
        else:
            raw["kind"] = self._named("kind", text, names, where)
            if not _degrees(text_of(lens)):
                remarks.append((self.headings.by_key[LENS].heading, lens))

    # --- where it hangs ---

    def _in_parts(self, raw: dict[str, Any], where: Where) -> None:
        """Put a place that stands in two columns into one cell: feet and inches, or a column a side."""
        cells = {key: raw.pop(key) for key in AT_PARTS if key in raw}
        if not cells or raw.get("at") is ASKED:
            return
        if ASKED in cells.values():
            raw["at"] = ASKED
            return
        if "at" in raw:
            self._inches_beside(raw, cells, where)
            return
        parts = {key: text_of(cell).strip() for key, cell in cells.items()}
        if "at_feet" in parts or "at_inches" in parts:
            feet, inches = parts.get("at_feet") or "0", parts.get("at_inches", "")
            raw["at"] = f"{feet}'{_rest(inches)}"
            return
        filled = {key: text for key, text in parts.items() if float_of(text) != 0} or dict(
            list(parts.items())[:1]
        )
        if len(filled) > 1:
            wrong = Wrong("a place on one side", "Leave one of the two columns empty.")
            self._ask(
                raw, where, "at", wrong, " and ".join(f"{v} {k[3:]}" for k, v in filled.items())
            )
            return
        ((key, text),) = filled.items()
        unit = self.headings.by_key[key].meaning.unit
        size = f"{text} {unit}" if unit and float_of(text) is not None else text
        raw["at"] = f"{size} {key[3:]}" if float_of(text) != 0 else 0

    def _inches_beside(self, raw: dict[str, Any], cells: dict[str, Any], where: Where) -> None:
        """Add a column of inches to a place in whole feet beside it, "Distance (ft)"; ask where the two
        may be something else."""
        if "at_inches" not in cells:
            return
        at, inches = text_of(raw["at"]).strip(), text_of(cells["at_inches"]).strip()
        column = self.headings.by_key.get("at")
        unit = (column.meaning.unit if column else "") or self.around.unit
        feet = _WHOLE_FEET.fullmatch(at)
        if feet and (feet[2] or unit == "ft") and "at_feet" not in cells:
            raw["at"] = f"{feet[1]}'{_rest(inches)} {feet[3]}".strip()
        elif _rest(inches):
            wrong = Wrong(
                "whole feet beside a column of inches",
                "Write the whole place in one column, with its units.",
            )
            self._ask(raw, where, "at", wrong, f"{at} and {inches} in")

    def _by_heading(self, metres: float, meaning: Meaning, along: Along) -> float:
        """A place without a side, as its heading says: from an end, or with a sign of its own."""
        way = meaning.end or meaning.plus
        if along.axis != ("x" if way in ("SL", "SR") else "y"):
            raise Wrong(
                f"a place on a position that has an end or side {way}, as the heading says",
                "Write its place in a column of its own, from the position's zero.",
            )
        if not meaning.end:
            return metres if way in ("SL", "US") else 0.0 - metres
        if along.span is None:
            raise Wrong(f"a pipe that has one {way} end", "Write the place from the pipe's zero.")
        low, high = along.span
        return high - metres if way in ("SL", "US") else low + metres

    def _measured(self, raw: dict[str, Any]) -> Along:
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
        return Along(self.around.unit, place.axis, place.centre, pipe.marks, ends, self.day_first)

    def _along(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> int:
        """Read what is measured along the position; as `sided` of a row."""
        place = (
            self.around.places.get(raw["position"])
            if isinstance(raw.get("position"), str)
            else None
        )
        height, side = raw.pop(HEIGHT, None), raw.pop(SIDE, None)
        key = "at"
        if height is not None:
            if place is not None and place.sort == "boom" and "at" not in raw:
                raw["at"], key = height, HEIGHT
            else:
                remarks.append((self.headings.by_key[HEIGHT].heading, height))
        cell = raw.get("at")
        if (
            cell is ASKED
            or (cell is None and side is None)
            or (place is not None and place.sort == "stand")
        ):
            return 0
        column = self.headings.by_key.get(key)
        along = self._measured(raw)
        try:
            read = read_place(
                cell, along, column.meaning.unit if column else "", text_of(side) if side else ""
            )
        except Wrong as wrong:
            if side is not None:
                cell = f"{text_of(cell) if cell is not None else ''} {text_of(side)}".strip()
            self._ask(raw, where, "at", wrong, cell)
            return 0
        meaning = column.meaning if column else Meaning()
        if (meaning.end or meaning.plus) and side is None and not _SIDED.search(str(cell)):
            try:
                metres = self._by_heading(read.metres, meaning, along)
            except Wrong as wrong:
                self._ask(raw, where, "at", wrong, cell)
                return 0
            self.noticed.read_as("at", text_of(cell), told(metres, along))
            raw["at"] = f"{round(metres, 12)!r} m"
            return 1
        if read.said:
            self.noticed.read_as("at", text_of(cell), read.said)
        raw["at"] = f"{read.metres!r} m"
        if side is not None or _SIDED.search(str(cell)):
            return 1
        return -1 if along.axis == "x" and read.metres > 0 and "+" not in str(cell) else 0

    def without_side(self, rows: list[Row]) -> None:
        """Note places without a side on pipes where others have one, or none has a sign: + is towards SL."""
        column = self.headings.by_key.get("at")
        all_of_them = column is None or not column.meaning.exact
        sided = {row.raw.get("position") for row in rows if row.sided > 0 or all_of_them}
        signed = [row for row in rows if not row.sided and str(row.raw.get("at")).startswith("-")]
        sided -= {row.raw.get("position") for row in signed}
        if all_of_them:
            self._signed(signed)
        for row in rows:
            at, position = row.raw.get("at"), row.raw.get("position")
            place = self.around.places.get(position) if isinstance(position, str) else None
            if (
                row.sided >= 0
                or position not in sided
                or not isinstance(at, str)
                or not place
                or place.axis != "x"
            ):
                continue
            metres = float(at.removesuffix(" m"))
            along = Along(self.around.unit, "x", place.centre)
            came = told(metres, along).removesuffix(" SL").removesuffix(" SR")
            column = self.headings.by_key.get("at")
            if column is not None and not column.meaning.unit:
                size = metres / {"ft": 0.3048, "in": 0.0254, "cm": 0.01, "mm": 0.001}.get(
                    self.around.unit, 1.0
                )
                came = f"{size:.6g}"
            self.noticed.read_as("at", came, f"{told(metres, along)}, as no side is written")

    def _signed(self, rows: list[Row]) -> None:
        """Note which side is plus in a column of signed places that does not say it."""
        first: dict[str, tuple[str, str]] = {}  # axis -> its first row, and how that is read
        for row in rows:
            place = self.around.places.get(str(row.raw.get("position")))
            if place and place.axis in ("x", "y"):
                metres = float(row.raw["at"].removesuffix(" m"))
                read = told(metres, Along(self.around.unit, place.axis, place.centre))
                first.setdefault(place.axis, (row.where.entry, read))
        for axis, (entry, read) in first.items():
            plus, minus = ("SL", "SR") if axis == "x" else ("US", "DS")
            says = f"places have a sign and no side: plus is read as {plus}, so {entry} is {read}."
            do = f"Ask whoever wrote it; if plus is {minus}, head the column: at (+ = {minus})."
            self.noticed.note("list-at", says, do)

    def without_place(self, rows: list[Row]) -> None:
        """Give places to the units of pipes where none has one."""
        lacking: dict[str, list[Row]] = {}
        placed = set(self.around.hung)
        for row in rows:
            position = row.raw.get("position")
            if isinstance(position, str):
                if "at" in row.raw:
                    placed.add(position)
                else:
                    lacking.setdefault(position, []).append(row)
        feet = self.around.unit in ("ft", "in")
        if lacking and self._asked_for_places([row for each in lacking.values() for row in each]):
            return
        for position, without in lacking.items():
            place = self.around.places.get(position)
            pipe = place.pipe if place else None
            if position in placed or pipe is None:
                continue
            numbers = whole_numbers([text_of(row.raw.get("number", "")) for row in without])
            found = spaced(pipe, numbers, feet) if numbers else None
            if found is None:
                continue
            for row, at in zip(without, found.at, strict=True):
                row.raw["at"] = f"{at!r} m"
            step = length_words(pipe.spacing or usual_spacing(feet), feet)
            apart = "" if pipe.marks else f"{step} apart "
            many = "1 unit has" if len(without) == 1 else f"{len(without)} units have"
            units = f"{many} no place in {self.name}"
            if found.assumed:
                says = f"{units}: assumed {apart}{found.how}."
                do = "Write their places, or give the pipe its spacing, or the marks that it has."
                self.noticed.last.append(
                    Taken("places-assumed", says, do, severity="warn", position=position)
                )
            else:
                by = "" if pipe.marks else " (spacing)"
                says = f"{units}: {apart}{found.how}{by}."
                self.noticed.last.append(
                    Taken("list-spacing", says, "Write the places that differ.", position=position)
                )

    def _asked_for_places(self, without: list[Row]) -> bool:
        """Whether units have no place because it is not clear what a column of distances counts from;
        that is asked, and no place is assumed."""
        may_be = [
            column
            for column in self.headings.columns
            if column.key == REMARK and not column.settled and _IS_DISTANCE.search(column.heading)
        ]
        rows = [row for row in without if not self._is_stand(row)]
        if not may_be or not rows or "at" in self.headings.by_key:
            return False
        heading = may_be[0].heading
        wrong = Wrong(
            f"a place for each unit, and column {may_be[0].letters} ({show(heading)}) may hold it",
            f'Say in [hang_columns]: at = "{heading}" where it counts from the zero of the position, '
            f'remark = "{heading}" where not.',
            came="a heading that does not tell where it counts from",
            rank=CLASH,
        )
        self.log.add(Where(self.name, "", f"row {self.headings.first}"), "at", wrong)
        for row in rows:
            row.raw["at"] = ASKED
        return True

    def _is_stand(self, row: Row) -> bool:
        place = self.around.places.get(str(row.raw.get("position")))
        return place is not None and place.sort == "stand"

    # --- the rest ---

    def _others(self, raw: dict[str, Any]) -> None:
        for key in ("channel", "circuit"):
            if key in raw and raw[key] is not ASKED:
                raw[key] = re.sub(r"^\s*[(\[<{]\s*(\w+)\s*[)\]>}]\s*$", r"\1", text_of(raw[key]))
        mount = raw.get("mount")
        if isinstance(mount, str):
            word = _MOUNTS.get(re.sub(r"[^a-z]", "", mount.casefold()))
            if word and word != mount.strip().casefold():
                self.noticed.read_as("mount", mount, word)
                raw["mount"] = word
        share = raw.get("transmission")
        percent = (
            re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*%\s*", share) if isinstance(share, str) else None
        )
        if percent:
            raw["transmission"] = float(percent[1].replace(",", ".")) / 100
        if isinstance(raw.get("precise"), str) and raw["precise"].strip() in "✓✔☑":
            raw["precise"] = True

    def _cut(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> None:
        """Ask about a unit that its remarks call cut: it may not hang."""
        for heading, cell in (("note", raw.get("note")), *remarks):
            said = text_of(cell).strip()
            ticked = _IS_CUT.fullmatch(heading) and said.casefold() in _YES
            whole = len(said) <= LONGEST_CUT and _CUT.fullmatch(said)
            if ticked or whole or _CUT_FIRST.match(said):
                told_as = show(f"{heading} {said}" if ticked else said)
                expected = f"a unit that hangs, and {told_as} may mean that it does not"
                do = "Take the row out of the list; if it hangs, say it in other words."
                self.log.add(where, "note", Wrong(expected, do), cell)
                raw.pop("note", None)
                return

    def _note(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
        parts = (
            [text_of(raw.pop("note"))]
            if not blank(raw.get("note")) and raw.get("note") is not ASKED
            else []
        )
        parts += [
            f"{heading}: {text_of(cell)}" if heading else text_of(cell) for heading, cell in remarks
        ]
        told_all = " ".join("; ".join(part.strip() for part in parts if part.strip()).split())
        told_all = "".join(c for c in told_all if c.isprintable())
        if told_all:
            raw["note"] = (
                told_all
                if len(told_all) <= LONGEST_REMARK
                else told_all[: LONGEST_REMARK - 3] + "..."
            )

    def fits(self, key: str, cell: Any) -> bool | None:
        """Whether a cell can be a value of a key; None where the key takes anything."""
        text = text_of(cell).strip()
        if key == "position":
            return _found(self.positions.find(text))
        if key == "target":
            return _found(self.targets.find(text)) or bool(several_of(text, self.targets))
        if key == "kind":
            return text in self.own_kinds or _found(self._all_kinds().find(text))
        if key == "number":
            return _day(cell) is not None or bool(re.fullmatch(_NUMBER, text, re.IGNORECASE))
        if key == "place":  # written as places along a position are, whatever the heading
            return bool(_PLACE.search(text)) and is_place(cell, self.around.unit)
        if key == "which side":
            return bool(_WHICH_SIDE.fullmatch(text))
        if key == "at":
            return _day(cell) is not None or is_place(cell, self.around.unit)
        if key == SIDE:
            return bool(_SIDED.search(text)) or text.casefold() in (
                "cl",
                "c",
                "centre",
                "center",
                "c/l",
            )
        if key == LENS:
            return bool(re.search(r"\d", text)) and len(text) <= 12
        return None


# Text, compiled when a column is guessed: that of most lists is named.
_NUMBER = r"(?:no\.?|unit|#)?\s*\d{1,4}\s*[a-z]?(?:\W\d{1,3})?|[a-z]{1,2}\W?\d{1,3}[a-z]?|[a-z]"
_SIDED = re.compile(
    r"\b(?:s\W?[lr]|u\W?s|d\W?s|h\W?[lr])\b|stage|house|cent|c/?l\b|mark", re.IGNORECASE
)
# A side or the centre: a length alone may be a trim, or the length of a cable.
_PLACE = re.compile(r"\b(?:s\W?[lr]|house|stage|cl|c/l)\b", re.IGNORECASE)
_WHICH_SIDE = re.compile(
    r"[+−–-]|l|r|left|right|s\W?(?:l|r)\W?|stage (?:left|right)", re.IGNORECASE
)
_IS_DISTANCE = re.compile(r"\b(?:dist\w*|offset|from|measure\w*)\b", re.IGNORECASE)
_IS_CUT = re.compile(r"\W*(?:cut|deleted?|omit(?:ted)?)\W*", re.IGNORECASE)
_YES = ("y", "yes", "x", "true", "✓", "✔", "1")
_CUT = re.compile(
    r"\W*(?:cut|deleted?|omit(?:ted)?|struck|removed?|not (?:used|hung)|do not hang|n/u)\W*",
    re.IGNORECASE,
)
# At the start of a longer remark; "cut top shutter" is of the beam, so that more must tell it of the unit.
_CUT_FIRST = re.compile(
    r"\W*(?:(?:deleted?|omit(?:ted)?|struck|do not hang)\b"
    r"|cut\b(?:\s*[.;,(–—-]|\s+(?:per|as per|as of|by|from (?:the )?(?:show|plot|rig|list)|\d)))",
    re.IGNORECASE,
)
_WHOLE_FEET = re.compile(r"([+-]?\d+)\s*('|ft|feet|foot)?\.?\s*((?:s[lr]|us|ds)?)", re.IGNORECASE)
_SEVERAL = re.compile(r"(\d+)\s*(-|–|to|thru|through|&|and|,|;|\+)\s*(\d+)", re.IGNORECASE)
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MOUNTS = {
    **dict.fromkeys(
        ("under", "underhung", "underslung", "hungunder", "yokedown", "hanging", "down"), "under"
    ),
    **dict.fromkeys(
        ("over", "overhung", "tophung", "ontop", "standing", "standingover", "yokeup"), "over"
    ),
    **dict.fromkeys(("arm", "sidearm", "onsidearm", "onarm"), "arm"),
    **dict.fromkeys(("out", "outrigged", "swungout"), "out"),
    **dict.fromkeys(("direct", "straight", "clampeddirect"), "direct"),
    **dict.fromkeys(("stand", "floorstand", "floor", "onstand"), "stand"),
}


_TOTAL = re.compile(r"\s*(?:grand\s+|sub-?)?(?:totals?|sum|count)\b", re.IGNORECASE)


def position_and_number(text: str) -> re.Match[str] | None:
    """A position and a number written in one, "LX1/3": its two groups."""
    return re.fullmatch(r"(.*[^\W_].*?)\s*[/:#–-]\s*(\w+)", text)


def is_total(text: str) -> bool:
    """Whether a row that begins so counts units and is none."""
    return bool(_TOTAL.match(text))


def float_of(text: str) -> float | None:
    """A figure without its unit; None of anything else."""
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return None


def _rest(inches: str) -> str:
    """What a cell of inches adds to feet; nothing where it is empty or naught."""
    inches = re.sub(
        r"\s*(?:[\"”″]|''|in(?:s|ch|ches)?\.?)$", "", inches.strip(), flags=re.IGNORECASE
    )
    return f'-{inches}"' if inches and float_of(inches) != 0 else ""


def text_of(cell: Any) -> str:
    """A cell as somebody reads it: 7 for 7.0, a day as a day."""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else f"{cell:.10g}"
    if isinstance(cell, str):
        whole = re.fullmatch(r"\s*(\d+)\.0+\s*", cell)
        return whole[1] if whole else cell.replace("\u00a0", " ").strip(" ")
    return str(cell)


def _one_line(cell: Any) -> Any:
    return " ".join(cell.split()) if isinstance(cell, str) and not cell.isprintable() else cell


def _day(cell: Any) -> tuple[int, int] | None:
    """Month and day of a date, or of text that a spreadsheet has made of one: "2-Jan"."""
    if isinstance(cell, (datetime.date, datetime.datetime)):
        return cell.month, cell.day
    if not isinstance(cell, str):
        return None
    found = re.fullmatch(
        r"\s*(?:(\d{1,2})[-. ]([a-z]{3})[a-z]*|([a-z]{3})[a-z]*[-. ](\d{1,2}))\s*", cell.casefold()
    )
    if not found:
        return None
    month, day = found[2] or found[3], int(found[1] or found[4])
    return (_MONTHS.index(month) + 1, day) if month in _MONTHS and 1 <= day <= 31 else None


def _degrees(text: str) -> set[str]:
    """The numbers of a lens in degrees; none of what is told in inches or by two lengths."""
    return set() if re.search(r"[\"”″x×]|in\b|mm", text) else set(re.findall(r"\d+", text))


def _found(meant: Meant) -> bool:
    return meant.name is not None or bool(meant.several)


def is_place(cell: Any, unit: str) -> bool:
    try:
        read_place(cell, Along(unit, "any", True))
    except Wrong as wrong:
        return (
            "SL or SR" in wrong.expected
            or "reads in one way" in wrong.expected
            or "marks" in wrong.expected
        )
    return True


def _or(words: Sequence[str]) -> str:
    shown = list(islice(words, 8))
    return ", ".join(shown[:-1]) + f" or {shown[-1]}" + (" ..." if len(words) > len(shown) else "")
