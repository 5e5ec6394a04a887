"""What the cells of one unit's row mean: its names, its place, its number, in the words of a scene."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.scene.document import ASKED, ask
from aimcalc.scene.hanglist.columns.columnkeys import LENS, Headings
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.names.kindcells import Kinds, Naming
from aimcalc.scene.hanglist.names.meant import Names, several_of
from aimcalc.scene.hanglist.names.meantareas import Areas
from aimcalc.scene.hanglist.names.namesides import (
    back_bar,
    bare_names,
    speaks_of_stage,
    ways_by_side,
    ways_in_full,
    ways_where_they_stand,
)
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS
from aimcalc.scene.hanglist.names.positionbyrow import PositionByRow
from aimcalc.scene.hanglist.names.positioncells import (
    aside_out,
    named_in_place,
    number_out,
    of_one_sort,
    out_of_group,
    shelf_out,
    side_out_of_number,
)
from aimcalc.scene.hanglist.names.sidewords import LEFT_AND_RIGHT, USUAL, Sides
from aimcalc.scene.hanglist.names.targetasides import Now, now_meant
from aimcalc.scene.hanglist.names.targetwords import NO_TARGET, TARGET_SPARE, TARGET_WORDS
from aimcalc.scene.hanglist.pagelines.ownlines import OwnLines
from aimcalc.scene.hanglist.places.placeforms import prompt_sides
from aimcalc.scene.hanglist.places.placeparts import in_parts
from aimcalc.scene.hanglist.places.placing import Placing
from aimcalc.scene.hanglist.rows.cellfits import CellFits
from aimcalc.scene.hanglist.rows.listrow import Around, Row, blank, one_line, text_of
from aimcalc.scene.hanglist.rows.numbercells import NumberCells
from aimcalc.scene.hanglist.rows.plugcells import PlugCells, PlugDays
from aimcalc.scene.hanglist.rows.rowcuts import cut_by
from aimcalc.scene.hanglist.rows.rowmoves import moved
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import UNKNOWN, Log, Where, Wrong, show
from aimcalc.scene.model import Taken

LONGEST_REMARK = 200  # characters of a unit's note


class Meanings:
    """Puts rows into the words of a scene, and asks or notes what it took for granted."""

    def __init__(self, name: str, around: Around, log: Log, noticed: Noticed) -> None:
        self.name, self.around, self.log, self.noticed = name, around, log, noticed
        self.positions = Names(around.places, POSITION_WORDS, POSITION_SPARE, sides=True)
        self.targets = Names(around.targets, TARGET_WORDS, TARGET_SPARE, ordered=True, sides=True)
        self.targets.areas = Areas(
            {name: around.spots.get(name, (0.0, 0.0))[0] for name in around.targets}
        )
        self.by_sides(())
        self.naming = Naming(log, noticed)
        self.kinds = Kinds(around, self.naming)
        self.placing = Placing(name, around, log, noticed)
        self.own_lines = OwnLines(self.positions)
        self.fits = CellFits(around, self.positions, self.targets, self.kinds, self.placing)
        self.by_row = PositionByRow(self.positions, self.fits, self.placing)
        self.numbers = NumberCells(self.positions, log, noticed)
        self.plugs, self.days = PlugCells(self.fits, noticed), PlugDays(log, noticed)
        self.headings = Headings(0, 0, ())
        self.current: Any = None  # the position of the rows above
        self.by_section = False  # it stands in a row of its own
        self.group = ""  # the word of several positions over the rows below
        self.aim: str | None = None  # the target of the rows below a heading that names it
        self.position_cells: frozenset[str] = frozenset()  # of their column
        self.target_cells: frozenset[str] = frozenset()
        self.over_units: dict[str, str] = {}  # kind, colour, channel, as a row above them says it
        self.over = ""  # the sort of positions that a row of its own names over several: "TOWERS"

    def by_sides(self, said: Sides, bare: str = "", aims: str = "") -> None:
        """Know the names with a side in the words of either habit, as the list says, the house or custom, and
        by left and right where these are said to be `bare`, of stage or house, those of targets `aims`."""
        told = tuple((word, side) for word, side in said if word in ("ps", "op"))
        sides = told or prompt_sides(self.around) or USUAL
        for names, whose in ((self.positions, bare), (self.targets, aims or bare)):
            names.bare = whose
            places = self.around.places if names.is_place else {}
            stand = [*ways_where_they_stand(places), *ways_in_full(places)]
            ways = [*((name, name) for name in names.names), *stand]
            said_sides = (*sides, *LEFT_AND_RIGHT.get(whose, ()))
            names.also_as([*stand, *ways_by_side(ways, said_sides)])
        if self.targets.areas:
            self.targets.areas.said(dict(sides), aims or bare)
        at_back = back_bar(self.around.places)
        self.positions.codes = {**at_back, **self.around.codes.get("position", {})}
        self.targets.codes = self.around.codes.get("target", {})

    def take_targets(self, cells: Iterable[str]) -> None:
        """Know the cells of the column of targets: they tell of one another what a word of theirs means."""
        self.target_cells = frozenset(cells)
        if self.targets.areas:
            self.targets.areas.beside = self.target_cells
            self.targets.known.clear()

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
        self.placing.shelf_of_number(raw)
        self.numbers.one_unit(raw, where)
        self.numbers.aside_out(raw, remarks)
        self.numbers.read(raw, where)
        self._target(raw, remarks, where)
        self.plugs.gel_out(raw, self.headings)
        for key, said in self.over_units.items():
            raw.setdefault(key, said)
        lens = self.headings.by_key.get(LENS)
        self.kinds.read(raw, remarks, where, lens.heading if lens else "")
        in_parts(self.placing, raw, remarks, where)
        sided = self.placing.along(raw, remarks, where)
        self.placing.again(raw, where)
        self.days.read(raw, where)
        self.plugs.part_coupled(raw, remarks, self.headings)
        self.plugs.plugs_out(raw, remarks)
        self.plugs.read(raw)
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
                self.by_row.split_number(raw)
            elif self.current is not None:
                raw["position"] = self.current
                if not self.by_section:
                    self.noticed.row("blank", number)
            return
        if cell is ASKED:
            self.current = ASKED
            return
        cell = shelf_out(cell, raw, remarks, self.around.places, self.positions, self.noticed)
        cell = self.by_row.place_out(cell, raw, self.headings)
        if "number" not in self.headings.by_key:
            cell = number_out(cell, raw, self.positions, self.noticed)
        cell = side_out_of_number(cell, raw, self.positions, self.noticed)
        cell = aside_out(cell, raw, remarks, self.positions, self.noticed)
        cell = self.by_row.of_sort(cell, raw, self.headings, self.over, self.position_cells)
        several = several_of(text_of(cell), self.positions)
        if len(several) > 1 and self.positions.find(text_of(cell)).name is None:
            expected = f"one position, and {show(text_of(cell))} holds {len(several)}"
            wrong = Wrong(expected, "Write a row for the units of each.", rank=UNKNOWN)
            ask(self.log, raw, where, "position", wrong, cell)
            self.current = ASKED
            return
        raw["position"] = self.naming.named("position", cell, self.positions, where, remarks)
        self.current, self.by_section = raw["position"], False

    def _target(self, raw: dict[str, Any], remarks: list[tuple[str, Any]], where: Where) -> None:
        cell = raw.get("target")
        if cell is None and self.aim is not None and "point" not in raw:
            raw["target"] = self.aim
        if cell is None or cell is ASKED:
            return
        text = text_of(cell)
        if NO_TARGET.fullmatch(text) and self.targets.find(text).name is None:
            del raw["target"]
            remarks += [("", text)] if text.strip(" -–—/?") else []
            return
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
