"""What the cells of one unit's row mean: its names, its place, its number, in the words of a scene."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import Headings
from aimcalc.scene.hanglist.columns.headings import (
    AT_PARTS,
    COUNT,
    COUPLED,
    LENS,
    SIDE,
    meaning_words,
)
from aimcalc.scene.hanglist.names.kindcells import ONE_ROW_EACH, Kinds, Naming
from aimcalc.scene.hanglist.names.meant import Meant, Names, several_of
from aimcalc.scene.hanglist.names.namesides import (
    LEFT_AND_RIGHT,
    USUAL,
    Sides,
    back_bar,
    bare_names,
    speaks_of_stage,
    ways_by_side,
)
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS, SORTS
from aimcalc.scene.hanglist.names.placedpositions import placed_position
from aimcalc.scene.hanglist.names.positioncells import (
    aside_out,
    named_in_place,
    number_out,
    of_one_sort,
    out_of_group,
    side_out_of_number,
    spelled_by,
)
from aimcalc.scene.hanglist.names.targetasides import Now, now_meant
from aimcalc.scene.hanglist.names.targetwords import TARGET_SPARE, TARGET_WORDS
from aimcalc.scene.hanglist.pagelines.ownlines import OwnLines
from aimcalc.scene.hanglist.places.placeforms import prompt_sides
from aimcalc.scene.hanglist.places.placeparts import in_parts
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.cellaside import of_both, of_colour, of_number, of_plug
from aimcalc.scene.hanglist.rows.cellfits import CHANNEL, CIRCUIT, CellFits, parted_in
from aimcalc.scene.hanglist.rows.listrow import (
    NO_GEL,
    Around,
    Row,
    any_of,
    blank,
    day_of,
    one_line,
    position_and_number,
    text_of,
)
from aimcalc.scene.hanglist.rows.rowcuts import cut_by
from aimcalc.scene.hanglist.rows.rowmoves import moved
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import UNKNOWN, Log, Where, Wrong, show
from aimcalc.scene.model import Taken

LONGEST_REMARK = 200  # characters of a unit's note
LONGEST_PLUG = 50  # of a channel, a circuit or a colour with what stands beside it


class Meanings:
    """Puts rows into the words of a scene, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.positions = Names(around.places, POSITION_WORDS, POSITION_SPARE, sides=True)
        self.targets = Names(around.targets, TARGET_WORDS, TARGET_SPARE, ordered=True, sides=True)
        self.by_sides(())
        self.naming = Naming(log, noticed)
        self.kinds = Kinds(around, self.naming)
        self.placing = Placing(name, around, log, noticed)
        self.own_lines = OwnLines(self.positions)
        self.fits = CellFits(around, self.positions, self.targets, self.kinds, self.placing)
        self.headings = Headings(0, 0, ())
        self.current: Any = None  # the position of the rows above
        self.group = ""  # the word of several positions over the rows below
        self.aim: str | None = None  # the target of the rows below a heading that names it
        self.position_cells: frozenset[str] = frozenset()  # of their column
        self.target_cells: frozenset[str] = frozenset()
        self.prefixed: set[str] = set()  # positions whose numbers begin with that of the position
        self.by_section = False  # it stands in a row of its own
        self.kind_over = (
            ""  # the kind of units that have none in their rows, as a row above them says it
        )
        self.over = ""  # the sort of positions that a row of its own names over several: "TOWERS"

    def by_sides(self, said: Sides, bare: str = "", aims: str = "") -> None:
        """Know the names with a side in the words of either habit, as the list says, the house or custom, and
        by left and right where these are said to be `bare`, of stage or house, those of targets `aims`."""
        told = tuple((word, side) for word, side in said if word in ("ps", "op"))
        sides = told or prompt_sides(self.around) or USUAL
        for names, whose in ((self.positions, bare), (self.targets, aims or bare)):
            names.bare = whose
            names.also_as(ways_by_side(names.names, (*sides, *LEFT_AND_RIGHT.get(whose, ()))))
        at_back = back_bar(self.around.places)
        self.positions.codes = {**at_back, **self.around.codes.get("position", {})}
        self.targets.codes = self.around.codes.get("target", {})

    def left_and_right(self, names: Iterable[str], cells: Sequence[str], said: Sides) -> None:
        """Take L and R in names of positions, "PERCH L" of Perch SL, for the stage's where the cells of the
        list say other sides as those of the stage; told where a name is found by it alone."""
        bare = [cell for cell in bare_names(names) if self.positions.find(cell).name is None]
        if not bare or not speaks_of_stage(cells):
            return
        self.by_sides(said, "stage")
        found = {cell.strip(): self.positions.find(cell).name for cell in bare}
        read = [f'"{cell}" as {name}' for cell, name in found.items() if name]
        if not read:
            self.by_sides(said)
            return
        says = (
            "left and right in names of positions are read as those of the stage, as its other sides are: "
            f"{'; '.join(read[:6])}."
        )
        do = "Ask whoever wrote it; if they are seen from the house, write the names of the scene."
        self.noticed.last.append(
            Taken("list-position", f"{self.name}: {says}", do, severity="warn")
        )

    def unit(
        self,
        raw: dict[str, Any],
        remarks: list[tuple[str, Any]],
        where: Where,
        source: str,
        number: int,
    ) -> Row:
        """One unit, from its cells by key and by heading."""
        raw = {key: one_line(cell) for key, cell in raw.items()}
        self._position(raw, remarks, where, number)
        self._one_unit(raw, where)
        self._aside_out(raw, remarks)
        self._number(raw, where)
        self._target(raw, remarks, where)
        self._gel_out(raw)
        if self.kind_over:
            raw.setdefault("kind", self.kind_over)
        lens = self.headings.by_key.get(LENS)
        self.kinds.read(raw, remarks, where, lens.heading if lens else "")
        in_parts(self.placing, raw, where)
        sided = self.placing.along(raw, remarks, where)
        self.placing.again(raw, where)
        self._coupled(raw, remarks)
        self._plugs_out(raw, remarks)
        self._others(raw)
        self._cut(raw, remarks, where)
        self._moved(raw, remarks, where)
        self._note(raw, remarks)
        return Row(raw, where, source, sided)

    def hang_from(self, raw: dict[str, Any]) -> None:
        """Take the position of a row whose unit does not hang for that of the rows below it."""
        name = self.positions.find(text_of(raw["position"])).name if "position" in raw else None
        if name:
            self.current, self.by_section = name, False

    def _position(
        self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where, number: int
    ) -> None:
        cell = raw.get("position")
        if cell is None:
            cell = named_in_place(raw, self.positions, self.fits)
        if cell is None and self.group and self.current is None:
            raw["position"] = out_of_group(self.group, raw, remarks, self.positions, self.noticed)
            if raw["position"] is None:
                del raw["position"]
            return
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
        cell = self._place_out(cell, raw)
        if "number" not in self.headings.by_key:
            cell = number_out(cell, raw, self.positions, self.noticed)
        cell = side_out_of_number(cell, raw, self.positions, self.noticed)
        cell = aside_out(cell, raw, remarks, self.positions, self.noticed)
        cell = self._of_sort(cell, raw)
        several = several_of(text_of(cell), self.positions)
        if len(several) > 1 and self.positions.find(text_of(cell)).name is None:
            expected = f"one position, and {show(text_of(cell))} holds {len(several)}"
            wrong = Wrong(expected, "Write a row for the units of each.", rank=UNKNOWN)
            ask(self.log, raw, where, "position", wrong, cell)
            self.current = ASKED
            return
        raw["position"] = self.naming.named("position", cell, self.positions, where, remarks)
        self.current, self.by_section = raw["position"], False

    def _of_sort(self, cell: Any, raw: dict[str, Any]) -> Any:
        """A position of which several might be meant, "1" or "First", as the one of the sort that its heading
        names, "Electric", or of the side in a column of its own."""
        column = self.headings.by_key.get("position")
        several = self.positions.find(text_of(cell)).several
        headed = spelled_by(column.heading if column else "", text_of(cell), several)
        if headed:
            self.noticed.read_as("position", text_of(cell), headed)
            return headed
        sided = self.positions.find(f"{text_of(cell)} {text_of(raw.get(SIDE, ''))}").name
        if sided in several and _NAMES_SIDE.search(sided):  # "Boom 2", beside a column that says SL
            self.noticed.read_as("position", text_of(cell), sided)
            raw.pop(SIDE)
            return sided
        over = self.positions.find(f"{self.over} {text_of(cell)}").name if self.over else None
        if over and self.positions.find(text_of(cell)).name != over:
            self.noticed.read_as("position", text_of(cell), over)
            return over
        if column is None or not several:
            return cell
        alone = of_one_sort(text_of(cell).strip(), several, self.position_cells, self.positions)
        if alone:
            self.noticed.read_as("position", text_of(cell), alone)
            return alone
        for word in meaning_words(column.heading):
            if word not in SORTS and word in POSITION_SPARE:
                continue
            name = self.positions.find(f"{word} {text_of(cell)}").name
            if name in several:
                self.noticed.read_as("position", text_of(cell), name)
                return name
        return cell

    def _place_out(self, cell: Any, raw: dict[str, Any]) -> Any:
        """A position without the place that stands behind it, "LX 1, 12' SL", where no column is that of
        places."""
        text = text_of(cell)
        if {"at", *AT_PARTS} & set(self.headings.by_key) or self.positions.find(text) != Meant():
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

    def _one_unit(self, raw: dict[str, Any], where: Where) -> None:
        """Ask about a row that says it stands for several units."""
        count = raw.pop(COUNT, None)
        if count is not None and text_of(count).strip() not in ("1", "one"):
            wrong = Wrong(f"one unit a row, and this one says {show(text_of(count))}", ONE_ROW_EACH)
            self.log.add(where, COUNT, wrong, count)
            raw["number"] = ASKED

    def _aside_out(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
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

    def _plugs_out(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
        """Take words beside a channel, a circuit or a colour for a remark, "12 (spare)", "L201 (new)", and
        part a channel and a circuit that one cell names, "Ch 12 / Dim 34"."""
        for key, other in (("channel", "circuit"), ("circuit", "channel")):
            text = text_of(raw[key]).strip() if raw.get(key) not in (None, ASKED) else ""
            if text.isdecimal() or len(text) > LONGEST_PLUG:
                continue
            both = of_both(text)
            if both:
                mine, its = both if key == "channel" else both[::-1]
                raw[key] = mine
                if raw.setdefault(other, its) is not ASKED and text_of(raw[other]).strip() != its:
                    remarks.append((other, its))
                self.noticed.read_as(key, text, f"{key} {mine}, {other} {its}")
            elif aside := of_plug(text):
                raw[key] = aside.value
                remarks.append(("", aside.words))
                self.noticed.read_as(key, text, aside.value)
        text = text_of(raw["colour"]).strip() if raw.get("colour") not in (None, ASKED) else ""
        aside = of_colour(text) if len(text) <= LONGEST_PLUG else None
        if aside and self.fits("gel", aside.value):
            raw["colour"] = aside.value
            remarks.append(("", aside.words))
            self.noticed.read_as("colour", text, aside.value)

    def _split_number(self, raw: dict[str, Any]) -> None:
        """A position and a number in one cell: "LX1/3"; or "A3" where a position is called A."""
        text = text_of(raw["number"]).strip()
        parted = parted_in(text, self.positions) or parted_in(text, self.positions, loosely=True)
        if parted:
            raw["position"], raw["number"] = parted
            self.noticed.read_as("number", text, f"position {parted[0]}, number {parted[1]}")

    def _number(self, raw: dict[str, Any], where: Where) -> None:
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

    def _target(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> None:
        cell = raw.get("target")
        if cell is None and self.aim is not None and "point" not in raw:
            raw["target"] = self.aim
        if cell is None or cell is ASKED:
            return
        text = text_of(cell)
        column = self.headings.by_key.get("target")
        for word in (
            meaning_words(column.heading) if column and self.targets.find(text).several else ()
        ):
            name = self.targets.find(f"{word} {text}")
            if name.name and name.sure:  # "C" under AREA
                self.noticed.read_as("target", text, name.name)
                raw["target"] = name.name
                return
        several = self.targets.find(text).several
        alone = several and of_one_sort(text.strip(), several, self.target_cells, self.targets)
        now = Now(alone, "") if alone else now_meant(text, self.targets)
        if now:
            told = f"{now.name}, with the remark {show(now.words)}" if now.words else now.name
            self.noticed.read_as("target", text, told)
            raw["target"] = now.name
            remarks += [("", now.words)] if now.words else []
            return
        if self.targets.find(text).name is None:
            several = several_of(text, self.targets)
            if several:
                expected = (
                    f"one target, and {show(text)} holds {len(several)}: {', '.join(several)}"
                )
                do = "Write the one that it is aimed at; the others can stand in a column of remarks."
                ask(self.log, raw, where, "target", Wrong(expected, do, rank=UNKNOWN), cell)
                return
        raw["target"] = self.naming.named("target", cell, self.targets, where, remarks)

    def _coupled(self, raw: dict[str, Any], remarks: list[tuple[str, Any]]) -> None:
        """Part a channel and a circuit that stand in one cell: "12/101", "(12) 101"."""
        for key in COUPLED:
            if key not in raw:
                continue
            cell = raw.pop(key)
            apart = r"[^/,;|]+" if "colour" in key else r"\w+"
            parts = [part.strip() for part in re.findall(apart, text_of(cell))]
            first, _, second = key.partition("+")
            if len(parts) == 2 and not raw.keys() & {first, second}:
                raw[first], raw[second] = parts
                self.noticed.read_as(
                    first, text_of(cell), f"{first} {parts[0]}, {second} {parts[1]}"
                )
            else:
                remarks.append((self.headings.by_key[key].heading, cell))

    def _gel_out(self, raw: dict[str, Any]) -> None:
        """Part a gel from the kind before it, "PC 500 + L205", where no column is that of colours."""
        text = text_of(raw.get("kind", ""))
        parts = re.fullmatch(_AND_GEL, text) if "colour" not in self.headings.by_key else None
        if parts and not self.fits("kind", text) and self.fits("kind", parts[1]):
            raw["kind"], raw["colour"] = parts[1], parts[2]
            self.noticed.read_as("kind", text, f"{parts[1]}, with the colour {parts[2]}")
        note = text_of(raw.get("note", "")).strip()
        if self.headings.by_key.keys() & {"colour", *COUPLED} or "colour" in raw:
            return
        if self.fits("lettered gel", note):  # "R80" among the remarks
            raw["colour"] = raw.pop("note")
            self.noticed.read_as("note", note, f"the colour {note}")

    def _others(self, raw: dict[str, Any]) -> None:
        for key, prefix in (("channel", CHANNEL), ("circuit", CIRCUIT)):
            if key in raw and raw[key] is not ASKED:
                text = text_of(raw[key]).strip()
                if text[:1].casefold() not in _TOLD_FIRST:
                    raw[key] = text
                    continue
                bare = re.sub(r"^[(\[<{]\s*(\w+)\s*[)\]>}]$", r"\1", text)
                raw[key] = re.sub(prefix, "", bare)
                if raw[key] != bare:
                    self.noticed.read_as(key, text, raw[key])
        if text_of(raw.get("colour", "")).strip().casefold() in NO_GEL:
            raw.pop("colour")
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
        """Ask about a unit of which its row asks whether it is cut: "CUT?"."""
        said = cut_by({"note": raw["note"]} if "note" in raw else {}, remarks)
        if said:
            expected = f"a unit that hangs, and {show(said)} may mean that it does not"
            do = "Take the row out of the list; if it hangs, say it in other words."
            self.log.add(where, "note", Wrong(expected, do), said)
            raw.pop("note", None)

    def _moved(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> None:
        """Ask about a unit of which a remark says another place than its row."""
        along = self.placing.measured(raw)
        wrong = moved(raw, remarks, self.positions, self.targets, along)
        if wrong is not None:
            self.log.add(where, "note", wrong, text_of(raw.get("at", "")))

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


_NAMES_SIDE = regex(r"\b(?:[sh]\W?[lr]|[lr]|left|right|ps|op|prompt|cour|jardin)\b", re.IGNORECASE)
_AND_PLACE = (
    r"(?i)"
    r"(.*?\w)\s*(?:[,;:@(]|\bat\b|\s[-–—]\s)\s*(.*\w.*?)\)?"
)
_AND_GEL = r"(.*\w)\s*(?:[+,/&]|\s[-–—]|\bw/)\s*([A-Za-z]{1,2}\s?\d{2,4}|[NnOo]/?[CcWw])"
_SEVERAL = regex(r"(\d+)\s*(-|–|to|thru|through|&|and|,|;|\+)\s*(\d+)", re.IGNORECASE)
_TOLD_FIRST = "([<{cd"  # what a bracket, or the word for a channel or a circuit, begins with
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
