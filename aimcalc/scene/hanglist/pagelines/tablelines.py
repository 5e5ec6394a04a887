"""The lines round a table, which say how places are read, and rows that name a position over its units."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import count
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headingsides import signed_sides
from aimcalc.scene.hanglist.columns.ownheadings import headings_said
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.positioncells import group_over
from aimcalc.scene.hanglist.names.sections import position_in, read_over, titled_positions
from aimcalc.scene.hanglist.pagelines.legend import says_of_all
from aimcalc.scene.hanglist.pagelines.namedunits import says_unit, units_out
from aimcalc.scene.hanglist.pagelines.ownlines import parted, says_whence
from aimcalc.scene.hanglist.pagelines.said import Said, end_of_bare, plus_of_bare
from aimcalc.scene.hanglist.pagelines.titles import MOST_CELLS, said_by
from aimcalc.scene.hanglist.pagelines.unitwords import is_of_places
from aimcalc.scene.hanglist.pagelines.whosewords import end_in_brackets
from aimcalc.scene.hanglist.places.ends import own_end, sides_plain
from aimcalc.scene.hanglist.places.fromgrid import heading_plain, heads_grid
from aimcalc.scene.hanglist.places.heights import is_of_heights, legend_of
from aimcalc.scene.hanglist.places.roworder import order_said
from aimcalc.scene.hanglist.places.things import thing_of, thing_out
from aimcalc.scene.hanglist.rows.listrow import Around, any_of, blank
from aimcalc.scene.hanglist.rows.rowcuts import lined_are_cut
from aimcalc.scene.hanglist.rows.rowkinds import RowKinds
from aimcalc.scene.hanglist.rows.runs import lower_said
from aimcalc.scene.hanglist.table.findhead import Head
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.mistakes import CLASH, Wrong

FEW_CELLS = 3  # of a line
LEAST_OF_SORTS, MOST_OF_SORTS = 20, 200  # characters of a heading that says it of each sort
LONG_LINE = 12  # characters of a line that says something of gaps


_BRACKET_LAST = regex(r"[(\[]([^()\[\]]{20,200})[)\]]\W{0,3}$")
_FROM_JARDIN = regex(r"\b(?:from|depuis|de|du)\s+(?:the\s+)?j\b\.?(?!\s*/)", re.IGNORECASE)
_DIMS = regex(r"\bdims?\b", re.IGNORECASE)


_OF_ALL = regex(
    r"\W*(?:all|every)\s+(?:the\s+)?(?:dist\w*|dim\w*|meas\w*|places?|figures?|offsets?|lengths?|sizes?)\s+(?:are\s+)?(?:in|given)\b"
    r"|\W*everything\s+(?:is\s+)?in\b",
    re.IGNORECASE,
)


def _says_of_all(row: Sequence[Any]) -> bool:
    """Whether a line begins as one on the places of all: "All distances in metres"."""
    return any(isinstance(cell, str) and _OF_ALL.match(cell[:60]) for cell in row)


class TableLines:
    """What the lines round one table say, and which position its rows hang on by what stands over them."""

    def __init__(self, meanings: Meanings, kinds: RowKinds, noticed: Noticed) -> None:
        self.meanings, self.kinds, self.noticed = meanings, kinds, noticed
        self.placing, self.positions = meanings.placing, meanings.positions
        self.said = Said()  # by the lines round the table
        self.over: dict[int, Said] = {}  # by rows over the units of a position, of these alone
        self.beneath: set[int] = (
            set()
        )  # lines right under such rows, which speak of these units alone
        self.words: list[str] = []  # of all lines that are long enough
        self.alone: list[str] = []  # lines that stand by themselves, of whatever length
        self.of_sorts: list[str] = []  # what headings say of each sort of position
        self.beside_feet = False  # a heading says feet, so that "in" is inches
        self.cuts_lined = False  # rows with a line through them are said to be cut
        self.lower = ""  # the side of the lower number of a pair "each side"

    # --- what lines say ---

    def hear(self, lines: Mapping[int, list[Any]], unit: str) -> Said:
        """Take what lines say of places, by the numbers of their rows, and note it.

        Args:
            lines: the rows round the headings; those below 0 stand on a sheet that is a legend.
            unit: that of places where no line says one.
        """
        ways = self.placing.ways
        ways.say_where(_line_of(row) for row in lines.values())
        self.placing.heights = legend_of(lines.values())
        plain = {number: [self._plain_cell(cell) for cell in row] for number, row in lines.items()}
        over = {number: row for number, row in plain.items() if self.kinds.section(row, {})}
        self.over = {number: said_by([(number, row)]) for number, row in over.items()}
        places = self.placing.around.places.items()
        across = frozenset(name.casefold() for name, place in places if place.axis == "x")
        self.placing.own = self._own_beneath(plain)
        lines_alone = (
            (number, row)
            for number, row in plain.items()
            if number not in self.beneath and (number not in over or self._is_of_booms(row, number))
        )
        said = said_by(lines_alone, across)
        units = {said_by([(k, row)]).unit for k, row in plain.items() if _says_of_all(row)} - {""}
        if len(units) > 1:
            expected = (
                f"one unit of length for all places, and the lines say {any_of(sorted(units))}"
            )
            raise Wrong(expected, "Take one of these lines out.", rank=CLASH)
        self._hear_units(plain)
        if whose := self.placing.around.whose:
            if said.bare or said.doubt:
                raise Wrong("left and right as the lines say it", rank=CLASH)
            said = end_of_bare(plus_of_bare(said._replace(bare=whose)))
        cells = (cell for row in lines.values() for cell in row if not blank(cell))
        self.words = [cell for cell in cells if isinstance(cell, str) and len(cell) > LONG_LINE]
        few = (row for row in lines.values() if sum(not blank(cell) for cell in row) <= FEW_CELLS)
        self.cuts_lined = any(lined_are_cut(_line_of(row)) for row in few)
        self.alone = [_line_of(row) for row in lines.values() if _is_line(row)]
        self.lower = lower_said(map(_words_of, lines.values()))
        self.take(said._replace(unit=said.unit or unit))
        first = order_said(self.alone, said.bare)
        self.lower = self.lower or (
            "".join(first) if len(first) == 1 and first <= {"SL", "SR"} else ""
        )
        if said.sides or said.bare:
            self.meanings.by_sides(said.sides, said.bare, said.aims)
        for row in said.rows:
            if row > 0:
                self.noticed.row("said", row, _line_of(lines[row]))
            else:
                says = f'the legend says how places are read: "{_line_of(lines[row])[:80]}".'
                self.noticed.note("list-at", says)
        return self.said

    def _hear_units(self, plain: Mapping[int, list[Any]]) -> None:
        """Know which lines say a unit of all places where they say two."""
        found: dict[str, str] = {}
        for number, row in plain.items():
            if number in self.beneath or number in self.over or not _is_line(row):
                continue
            line = "; ".join(str(cell).strip() for cell in row if not blank(cell))
            for of, words in self.meanings.own_lines.parts(line):
                unit = "" if of else said_by([(number, [words])]).unit
                if unit:
                    found.setdefault(unit, words)
        self.placing.two_units = tuple(found.values()) if len(found) > 1 else ()
        self.placing.lined = {u: words if is_of_places(words) else "" for u, words in found.items()}

    def _is_of_booms(self, row: list[Any], number: int) -> bool:
        """Whether a row that names the one boom of a scene, "Boom heights are down from the grid", does not
        have its name in full: it speaks of all booms."""
        name = self.kinds.section(row, {})
        words = " ".join(_line_of(row).casefold().split())
        of_all = self.over[number].grid or bool(self.over[number].boom_unit)
        return of_all and str(name).casefold() not in words

    def _own_beneath(self, lines: Mapping[int, list[Any]]) -> dict[str, Said]:
        """What lines right under the name of a position, before its units, say of it alone."""
        own: dict[str, Said] = {}
        name, last = "", 0
        found: set[int] = set()
        for number, row in lines.items():
            if number in self.over:
                name = self.kinds.section(row, {}) or ""
            elif number != last + 1 or not (all(map(blank, row)) or _is_line(row)):
                name = ""
            elif name and _is_line(row):
                said = said_by([(number, row)])
                if says_whence(said) or said.top or is_of_heights(_line_of(row)):
                    own[name] = own.get(name, Said()).over(said)
                    found.add(number)
                else:
                    name = ""
            last = number
        self.beneath = found
        return own

    def hear_own(self, lines: Mapping[int, list[Any]], unit: str) -> None:
        """Take what lines say of some positions alone for those, where a column names the position of each
        unit; the lines as `hear` has them."""
        cells = {k: [c for c in row if not blank(c)] for k, row in lines.items() if _is_line(row)}
        told = [(k, "; ".join(str(cell).strip() for cell in row)) for k, row in cells.items()]
        told = [
            (k, line) for k, line in told if len(line) > LONG_LINE or ":" in line or says_unit(line)
        ]
        told = [
            (k, self._of_its_own(k, line, lines[k])) for k, line in told if k not in self.beneath
        ]
        told += [(0, line) for line in self.of_sorts]
        found = parted(
            told, self.said, self.meanings.own_lines, lambda words: str(self._plain_cell(words))
        )
        if found.own:
            for row in set(found.of_all.rows).difference(self.said.rows):
                if row > 0:
                    self.noticed.row("said", row, _line_of(lines[row]))
            self.placing.own = {**found.own, **self.placing.own}
            self.take(found.of_all._replace(unit=found.of_all.unit or unit))

    def _of_its_own(self, number: int, line: str, row: list[Any]) -> str:
        """A line that stands over the units of a position, led by its name where its words name none."""
        if number not in self.over or any(of for of, _ in self.meanings.own_lines.parts(line)):
            return line
        return f"{self.kinds.section(row, {})}: {line}"

    def take(self, said: Said) -> None:
        """Take what is said of all places of the table."""
        self.said = self.placing.said = said

    def speaks_of_dims(self) -> bool:
        """Whether a line that says how places are read calls them dims."""
        return any(_DIMS.search(line) and said_by([(1, [line])]) != Said() for line in self.words)

    def plain(self, heading: str) -> str:
        """A heading in plain words: the ways of the scene, and down from the top where a line says so."""
        told = (self.said, *self.over.values())
        down = heading.casefold().strip(" .:") == "down" and any(said.top for said in told)
        if down:
            return "from top"
        if heads_grid(heading):
            return heading_plain(heading)
        thing = thing_of(sides_plain(heading), self.said.things)
        if thing is not None:
            heading = f"{thing_out(sides_plain(heading), thing)} from the plaster line"
        if self.said.end == "SR":  # the line says "from the jardin end"
            heading = _FROM_JARDIN.sub("from SR", heading)
        heading = end_in_brackets(heading)
        explained = headings_said(heading, self.words)
        if not explained and self.said.end and self._is_way_in(heading):
            return f"from {self.said.end} end"
        heading = self.placing.stage_words.plain(self.placing.ways.signs.plain(heading))
        english = in_english(heading)
        if self.said.bare and signed_sides(english.casefold()) is None:  # "- = right"
            heading = english = signed_sides(f"{english.casefold()} {self.said.bare}") or english
        sided = own_end(english, self.said.bare, self.said.end, self.said.vague)
        turned = self.placing.ways.plain(sided)
        return explained or (turned if turned != english else self.placing.ways.plain(heading))

    def sorts_out(self, heading: Any) -> Any:
        """A heading without its bracket, where this says something of each sort of position: "m (bars: from
        CL; booms: from the floor)"."""
        if not isinstance(heading, str):
            return heading
        heading = self._units_out(heading)
        found = _BRACKET_LAST.search(heading)
        bracket = found is not None and found.start() > 0
        words = found[1] if found is not None and bracket else heading
        alone = bracket or (LEAST_OF_SORTS < len(words) < MOST_OF_SORTS and words.count(":") > 1)
        if not alone or not self.meanings.own_lines.of_sorts(words):
            return heading
        if words not in self.of_sorts:
            self.of_sorts.append(words)
            said = f'the heading says how places are read: "{words[:80]}".'
            self.noticed.note("list-at", said)
        return heading[: found.start()].strip() if found is not None and bracket else "Place"

    def _units_out(self, heading: str) -> str:
        """A heading without the units that it says of positions by their names, which are theirs."""
        apart = units_out(heading, self.meanings.own_lines.meant)
        if apart.units and not self.placing.headed_units.items() >= apart.units.items():
            self.placing.headed_units |= apart.units
            said = f'the heading says how places are read: "{heading[:80]}".'
            self.noticed.note("list-at", said)
        return apart.rest

    def _is_way_in(self, heading: str) -> bool:
        """Whether a heading is the word "in", and no inches, as of a scene in metres without feet beside."""
        metric = self.placing.around.unit not in ("ft", "in")
        return metric and not self.beside_feet and heading.casefold().strip(" .:") == "in"

    def _plain_cell(self, cell: Any) -> Any:
        """A cell of a line with the ways that it names after what is there as us, ds, sl or sr."""
        plain = self.placing.ways.plain(cell)
        if not isinstance(plain, str):
            return plain
        plain = self.placing.stage_words.plain(plain)
        english = in_english(plain, line=True)
        return plain if english == plain else self.placing.ways.plain(english)

    # --- positions over their units ---

    def under(self, section: str, number: int, row: list[Any]) -> None:
        """Take a position over its units for theirs, with what its row says of their places."""
        self._now(section)
        self.placing.said = self.over.get(number, Said()).over(self.said)
        words = dict.fromkeys(str(cell).strip() for cell in row if not blank(cell))
        self.placing.over[section] = ", ".join(words)
        self.noticed.row("section", number, read_over(section, row))

    def is_group(self, row: list[Any], number: int) -> bool:
        """Whether a row is the word of several positions over their units, "TRIPODS", which is taken."""
        group = group_over(row, self.positions)
        if group:
            self._now(None)
            self.meanings.group = self.meanings.over = group
            self.noticed.row("section", number, group)
        return bool(group)

    def none_over(self) -> None:
        """Take no position for that of the units below, after a row that names none of the scene."""
        self.meanings.current, self.placing.said = None, self.said

    def section_above(self, row: list[Any], number: int) -> bool:
        """Whether a row above the headings is the name of a position, which its units stand under."""
        section = self.kinds.section(row, {})
        if section:
            self.under(section, number, row)
        return bool(section)

    def target_above(self, row: list[Any], number: int) -> bool:
        """Whether a row above the headings names the target of the units under it, and no position."""
        aimed = "" if self.kinds.section(row, {}) else self.kinds.target_over(row)
        if aimed:
            self.meanings.aim = aimed
            self.noticed.row("aimed", number, read_over(aimed, row))
        return bool(aimed)

    def taken_over(self, cells: list[Any], k: int, number: int) -> None:
        """Take the position among headings for that of the units below, and its cell out."""
        name = position_in(str(cells[k]), self.positions)
        self._now(name)
        cells[k] = ""
        self.noticed.row("section", number, str(name))

    def is_named(self, above: list[list[Any]]) -> bool:
        """Whether what stands above the headings names the position of the units."""
        words = (cell for row in above for cell in row if isinstance(cell, str))
        return any(titled_positions(cell, self.positions) for cell in words) or any(
            self.kinds.section(row, {}) for row in above
        )

    def in_title(self, rows: list[list[Any]]) -> int:
        """Take the one position that the titles name for its units, where no row does:
        "House of Paper: Bar 2". The row, from 1; 0 where there is none."""
        if self.meanings.current is not None:
            return 0
        named = {
            name: (number, str(cell))
            for number, row in enumerate(rows, 1)
            for cell in row
            if isinstance(cell, str)
            for name in titled_positions(cell, self.positions)
        }
        if len(named) != 1:
            return 0
        ((name, (number, words)),) = named.items()
        self._now(name)
        self.noticed.row("section", number, f"{name} ({' '.join(words.split())[:40]})")
        return number

    def _now(self, position: str | None) -> None:
        self.meanings.current, self.meanings.by_section = position, True
        self.placing.said = self.said


def rows_round(head: Head, sheet: str, around: Around) -> dict[int, list[Any]]:
    """The rows that may be lines of words, by their numbers; those of a sheet that is a legend below 0."""
    numbered = zip(head.numbers or count(1), head.rows, strict=False)
    found = {
        k: row
        for k, row in numbered
        if not head.first < k <= head.last + 1 or (k > head.first + 1 and _is_aside(row))
    }
    if around.apart and not says_of_all(sheet):
        others = [row for row in around.apart if row not in found.values()]
        found |= {-k: row for k, row in enumerate(others, 1)}
    return found


def _is_aside(row: Sequence[Any]) -> bool:
    """Whether a row below the first one of the headings is a line in brackets, "(all from the SR end)"."""
    words = _words_of(list(row)).strip()
    return len(words) > LONG_LINE and words[0] in "([" and words[-1] in ")]"


def _is_line(row: Sequence[Any]) -> bool:
    """Whether a row is words in its first cell, or in two, and nothing else."""
    filled = [cell for cell in row if not blank(cell)]
    return 0 < len(filled) <= MOST_CELLS and all(isinstance(cell, str) for cell in filled)


def _words_of(row: list[Any]) -> str:
    """The text of a row that has no more than one filled cell."""
    words = [cell for cell in row if not blank(cell)]
    return str(words[0]) if len(words) == 1 else ""


def _line_of(row: Sequence[Any]) -> str:
    return " ".join(str(cell).strip() for cell in row if not blank(cell))
