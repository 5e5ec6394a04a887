"""Hang lists as people keep them: one row per unit, under headings in the scene's words or the trade's.

What a careful person could read off the page is put into the words of a scene; what was taken for
granted on the way is noted, and where two readings fit, somebody is asked.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from msgspec.structs import replace

from aimcalc.scene.hanglist.columns.byvalues import Cells
from aimcalc.scene.hanglist.columns.columnkeys import APART, REMARK
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.pagelines.legend import (
    Legend,
    legend_of,
    rows_of_text,
    said_beside,
    said_in,
    says_of_all,
)
from aimcalc.scene.hanglist.places.gaps import Gaps
from aimcalc.scene.hanglist.places.heights import point_arms
from aimcalc.scene.hanglist.places.roworder import order_said
from aimcalc.scene.hanglist.places.shelves import number_by_shelf
from aimcalc.scene.hanglist.places.unitfit import unit_that_fits
from aimcalc.scene.hanglist.rows.cellaside import gel_meant
from aimcalc.scene.hanglist.rows.listrow import Around, HangList, Row
from aimcalc.scene.hanglist.rows.unnumbered import ask_which_numbers, number_along
from aimcalc.scene.hanglist.table.sheetfile import ListFile, read_sheets
from aimcalc.scene.hanglist.table.sheettables import Table, tables_of
from aimcalc.scene.hanglist.tablereader import TableReader
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.whole.aimedsides import not_against, of_all_tables
from aimcalc.scene.hanglist.whole.doubts import ask_in_doubt, ask_rising
from aimcalc.scene.hanglist.whole.mirroredrows import with_mirrored
from aimcalc.scene.hanglist.whole.sharedchannels import share_channels
from aimcalc.scene.hanglist.whole.unaimed import (
    may_hold_targets,
    point_unaimed,
    speaks_of_targets,
)
from aimcalc.scene.hanglist.whole.unplaced import Unplaced
from aimcalc.scene.hanglist.whole.unsided import Unsided
from aimcalc.scene.hanglist.whole.upstageplaces import UpstagePlaces
from aimcalc.scene.mistakes import CLASH, Log, Mistake, TooManyError, Where, Wrong
from aimcalc.scene.model import Taken

if TYPE_CHECKING:
    from aimcalc.scene.hanglist.lines.freelines import FreeLines

SURE = 3  # keys named by headings that are those of a table, and no line of free text


def read_list(path: str, name: str, around: Around, log: Log) -> HangList:
    """The units of a hang list as entries of a scene.

    Args:
        path: where the file is.
        name: the file's name as the scene gives it, for messages.
        around: what of the scene it is read by.
        log: takes every mistake of the file, its headings and its rows.
    """
    try:
        file = _sheets(path, name, around)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
        return HangList([])
    before = len(log.mistakes)
    listed = _listed(file, path, name, around, log)
    lacking = len(log.mistakes) - before + _lacking(listed, around)
    if lacking and (sided := _with_sides(path, name, around, lacking)):
        del log.mistakes[before:]
        listed, found = sided
        log.mistakes += found
    for turned in (sheet.turned for sheet in file.sheets if sheet.turned):
        log.mistakes[before:] = [
            each._replace(expected=turned.in_rows(each.expected), do=turned.in_rows(each.do))
            for each in log.mistakes[before:]
        ]
        taken = (replace(each, says=turned.in_rows(each.says)) for each in listed.taken)
        listed = listed._replace(taken=tuple(taken))
    return listed


def _listed(file: ListFile, path: str, name: str, around: Around, log: Log) -> HangList:
    """The units of the sheets of a hang list."""
    legend = _legend(file, name, around)
    shown = ((s.name, s.rows) for s in file.sheets if not s.hidden or says_of_all(s.name))
    beside = tuple(said_beside((name, rows) for name, rows in shown if isinstance(rows, list)))
    around = around._replace(codes=legend.codes, apart=beside)
    if legend.rows:
        sheets = [s._replace(rows=legend.without_its_rows(s.rows)) for s in file.sheets]
        file = file._replace(sheets=sheets)
    before = len(log.mistakes)
    listed, sure = _read(file, name, around, log)
    lacking = len(log.mistakes) - before + _lacking(listed, around)
    if listed.rows and lacking:
        other = _by_other_columns(_sheets(path, name, around), name, around, lacking)
        if isinstance(other, Wrong):
            log.add(Where(name, ""), "", other, name)
        elif other is not None:
            del log.mistakes[before:]
            listed, found, lacking = other
            log.mistakes += found
    if sure or (listed.rows and not lacking):
        return _numbered(listed, name, around)
    from aimcalc.scene.hanglist.lines.freelines import free_lines, lines_of

    meanings = Meanings(name, around, Log(), Noticed(name))
    lines = free_lines(lines_of(file.text, file.sheets), meanings)
    if lines is None or (listed.rows and lines.lacking >= lacking):
        return _numbered(listed, name, around)
    del log.mistakes[before:]
    for number, asked in lines.asked:
        log.add(Where(name, "", f"row {number}"), "", asked)
    return _numbered(_read(file, name, around, log, lines)[0], name, around)


def _with_sides(
    path: str, name: str, around: Around, lacking: int
) -> tuple[HangList, list[Mistake]] | None:
    """A list that lacks something with a bare left and right as those whose they are by what else names
    sides, which is told, and the mistakes that are left; None where nothing tells it, or it lacks as much."""
    from aimcalc.scene.hanglist.whole.takensides import whose_elsewhere

    file, tried = _sheets(path, name, around), Log()
    each = [rows_of_text(file.text)] if file.text else [sheet.rows for sheet in file.sheets]
    told = whose_elsewhere(around, (row for rows in each for row in rows))
    if not told.whose:
        return None
    try:
        file, around = (
            _sheets(path, name, around),
            around._replace(whose=told.whose, borne_out=told.sure, aims_alone=told.aims_alone),
        )
        listed = _listed(file, path, name, around, tried)
    except TooManyError:
        return None
    if not listed.rows or len(tried.mistakes) + _lacking(listed, around) >= lacking:
        return None
    return listed._replace(taken=(*listed.taken, told.taken(name))), tried.mistakes


def _sheets(path: str, name: str, around: Around) -> ListFile:
    """The sheets of a list, with tables that are turned on their side as others. Raises Wrong as
    `read_sheets` does."""
    file = read_sheets(path, name)
    fits = lru_cache(1)(lambda: Meanings(name, around, Log(), Noticed(name)).fits)
    return file._replace(sheets=[sheet.upright(fits) for sheet in file.sheets])


def _numbered(listed: HangList, name: str, around: Around) -> HangList:
    """A list with its units numbered where none of a position has a number."""
    taken = number_along((raw for raw, _, _ in listed.rows), name, around.hung)
    return listed if taken is None else listed._replace(taken=(*listed.taken, taken))


def _legend(file: ListFile, name: str, around: Around) -> Legend:
    """What the list says that its codes stand for."""
    lines = [("", rows_of_text(file.text))] if file.text else []
    rows = lines or [(s.name, s.rows) for s in file.sheets if isinstance(s.rows, list)]
    said = [each for sheet, of_sheet in rows for each in said_in(of_sheet, sheet)]
    if not said:
        return Legend({}, frozenset())
    names = Meanings(name, around, Log(), Noticed(name))
    return legend_of(
        said,
        {
            "kind": names.kinds.of_meaning,
            "position": lambda meaning, _: _spelled(names.positions, meaning),
            "target": lambda meaning, _: names.targets.spelled(meaning),
            "colour": gel_meant,
        },
        {
            "position": names.positions.written,
            "target": names.targets.written,
            "kind": names.kinds.own.written,
        },
        {"position": lambda meaning: names.positions.find(meaning).name},
    )


def _spelled(names: Names, meaning: str) -> str | None:
    """The name that what a legend says spells, with its sides in full or short: Boom 1L by "Boom 1 Left"."""
    return names.spelled(meaning) or names.written(meaning)


NEEDED = {"position", "number", "at", "kind", "target"}


def _lacking(listed: HangList, around: Around) -> int:
    """How many cells that units need are not there; a unit on a stand needs no place."""
    stands = {name for name, place in around.places.items() if place.sort == "stand"}
    missing = (
        NEEDED - raw.keys() - ({"at"} if raw.get("position") in stands else set())
        for raw, _, _ in listed.rows
    )
    return sum(map(len, missing))


def _by_other_columns(
    file: ListFile, name: str, around: Around, lacking: int
) -> tuple[HangList, list[Mistake], int] | Wrong | None:
    """The list read by other columns than its headings say, where its cells clearly do: its units, the
    mistakes that are left, and how many; the question which columns, where two readings are as good."""
    from aimcalc.scene.hanglist.columns.otherclaims import Tried, Way, clearly_best, other_claims

    file = file._replace(sheets=[sheet._replace(rows=list(sheet.rows)) for sheet in file.sheets])
    meanings = Meanings(name, around, Log(), Noticed(name))
    try:
        tables = tables_of(file.sheets, around, meanings.fits, Noticed(name))
    except Wrong:
        return None
    listed: dict[int, tuple[HangList, list[Mistake], int]] = {}

    def read(way: Way) -> Tried | None:
        tried = Log()
        try:
            found, _ = _read(file, name, around._replace(supposed=way.supposed), tried)
        except TooManyError:
            return None
        left = len(tried.mistakes) + _lacking(found, around)
        if not found.rows:
            return None
        listed[id(way)] = found, tried.mistakes, left
        return Tried(left, [raw for raw, _, _ in found.rows], way)

    ways = other_claims(tables[0].head, meanings.fits, around) if len(tables) == 1 else []
    best, wrong = clearly_best([one for one in map(read, ways) if one is not None], lacking)
    return wrong if best is None else listed[id(best.way)]


def _read(
    file: ListFile,
    name: str,
    around: Around,
    log: Log,
    lines: FreeLines | None = None,
    units: tuple[str, ...] = (),
) -> tuple[HangList, bool]:
    """The units of a file's tables, or of its free lines, and whether its headings leave no doubt that it
    has tables. `units` are those of places that name none, a table each, where they are not the scene's."""
    noticed = _noticed_of(file, name)
    before = len(log.mistakes)
    try:
        if lines is not None:
            tables = lines.tables(file.sheets)
            noticed.note("list-lines", lines.told)
            around = around._replace(columns={key: key for key in tables[0].head.headings()})
        else:
            tables = _tables(file, name, around, log, noticed)
        each = units or ("",) * len(tables)
        readers = [
            TableReader(name, table, around, log, noticed, unit)
            for table, unit in zip(tables, each, strict=True)
        ]
        found = [reader.read() for reader in readers]
        if around.whose:
            not_against([one for reader in readers for one in reader.sides.tested], around)
    except Wrong as wrong:
        log.add(Where(name, ""), "", wrong, name)
        return HangList([]), False
    fitting = tuple(unit_that_fits(r.meanings.placing.bare.kept, around.unit) for r in readers)
    if any(fitting) and not units:
        del log.mistakes[before:]
        return _read(file.afresh(), name, around, log, lines, fitting)
    if not around.stage_sides and of_all_tables([reader.sides.sided for reader in readers]):
        del log.mistakes[before:]
        return _read(file.afresh(), name, around._replace(stage_sides=True), log, lines, units)
    found = [with_mirrored(rows, around, log, noticed) for rows in found]
    for reader, unit in zip(readers, units, strict=False):
        _tell_unit(reader, unit, around.unit, noticed)
    placed = {row.raw["position"] for rows in found for row in rows if _is_placed(row)}
    placed |= _in_two_tables(found)
    for reader, rows in zip(readers, found, strict=True):
        _work_out_places(reader, rows, placed)
        ask_in_doubt(rows, reader.lines.alone, log)
        point_arms(rows, around, noticed)
        where = reader.columns.where_headed()
        values = _cells_of(reader)
        number_by_shelf(rows, reader.meanings.placing.shelves)
        ask_which_numbers(rows, reader.columns.headings, values, log, where)
        share_channels(
            rows, reader.columns.headings, reader.kinds.titles, reader.rows.no_channel, noticed
        )
    every = [row for rows in found for row in rows]
    if beside := [more for table in tables for more in table.beside]:
        from aimcalc.scene.hanglist.rows.joined import join_sheets

        join_sheets(beside, every, around, log, noticed, readers)
    if not every and not log.mistakes:
        _ask_for_units(readers, name, log)
    tabled = () if lines is not None else readers
    if lines is None and any(not row.raw.keys() & {"target", "point"} for row in every):
        _point_unaimed(file, every, readers, around, noticed)
    columns = tuple(line for reader in tabled for line in reader.columns.column_table())
    rows_found = [(row.raw, row.where, row.source) for row in every]
    sure = all(table.head.first >= 0 and table.head.score >= SURE for table in tables)
    return HangList(rows_found, noticed.taken(), columns), sure


def _point_unaimed(
    file: ListFile,
    rows: list[Row],
    readers: list[TableReader],
    around: Around,
    noticed: Noticed,
) -> None:
    """Point the units that have no target, where nothing of the list may say one."""
    headed = any("target" in reader.columns.headings.by_key for reader in readers)
    if headed:
        may_say = not any("target" in row.raw for row in rows)  # nobody has filled it yet
    else:
        sheets = [rows_of_text(file.text)] if file.text else [sheet.rows for sheet in file.sheets]
        cells = (cell for sheet in sheets for row in sheet or () for cell in row)
        may_say = speaks_of_targets(cells, around.targets) or any(
            may_hold_targets(reader.columns.headings, _cells_of(reader), around.targets)
            for reader in readers
        )
    in_reserve = {source for reader in readers for source in reader.rows.in_reserve.values()}
    point_unaimed(rows, around, noticed, may_say=may_say, in_reserve=in_reserve)


def _cells_of(reader: TableReader) -> Cells:
    """The cells of the rows of a table that are as full as those of units are."""
    return Cells(reader.head.rows[reader.head.last + 1 :], reader.meanings.fits)


def _noticed_of(file: ListFile, name: str) -> Noticed:
    """What is noticed of a file, with how its letters are written first where that is guessed."""
    noticed = Noticed(name)
    if file.encoding:
        noticed.note("list-encoding", f"it is not UTF-8, and read as {file.encoding}.")
    return noticed


def _tables(file: ListFile, name: str, around: Around, log: Log, noticed: Noticed) -> list[Table]:
    """The tables of the sheets of a file; told where spaces alone part their columns."""
    if file.by_spaces:
        says = "its columns are parted by spaces, read by how they line up."
        noticed.note("list-columns", says)
    names = Meanings(name, around, log, noticed)
    return tables_of(file.sheets, around, names.fits, noticed)


def _work_out_places(reader: TableReader, rows: list[Row], placed: set[str]) -> None:
    """Give the units of a table the places that its rows tell only together; `placed` are the positions of
    the list of which a unit has one."""
    placing, own = reader.meanings.placing, reader.meanings.own_lines
    Gaps(placing, reader.lines.words, own.parts).place(rows)
    UpstagePlaces(placing).count(rows)
    ask_rising(placing, rows)
    Unsided(placing, reader.lines.alone).note(rows)
    Unplaced(placing, reader.lines.words).place(
        rows, placed, order_said(reader.lines.alone, placing.said.bare)
    )


def _tell_unit(reader: TableReader, unit: str, scene: str, noticed: Noticed) -> None:
    """Warn that the places of a table are read in another unit than the scene's, which nobody says."""
    if unit:
        sheet = f" in {reader.table}" if reader.table else ""
        says = (
            f"{noticed.name}: places without a length unit{sheet} are read in {unit}: it is the only one in "
            f"which all are on their positions; in {scene}, that of the scene, they are not."
        )
        do = f"Look whether that is meant, and write the unit into the heading: at ({unit})."
        noticed.last.append(Taken("list-at", says, do, severity="warn"))


def _ask_for_units(readers: list[TableReader], name: str, log: Log) -> None:
    """Ask about a list in whose rows no unit is found, though they are filled."""
    for reader in readers:
        if passed := reader.rows.passed:
            known = ", ".join(
                c.key for c in reader.columns.headings.columns if c.key not in (REMARK, APART)
            )
            wrong = Wrong(
                f"rows with a unit each, and of {passed} row{'s' * (passed > 1)} none has one: "
                f"the columns known are those of {known}",
                "Say in [hang_columns] which columns hold the rest: position, number, kind, target, at.",
                came="no unit",
                rank=CLASH,
            )
            log.add(reader.columns.where_headed(), "", wrong)


def _is_placed(row: Row) -> bool:
    return "at" in row.raw and isinstance(row.raw.get("position"), str)


def _in_two_tables(found: list[list[Row]]) -> set[str]:
    """The positions that have units without number and place in two tables, which would hang in one another:
    they are asked about."""
    each = [
        {
            str(row.raw["position"])
            for row in rows
            if not row.raw.keys() & {"at", "number"} and "position" in row.raw
        }
        for rows in found
    ]
    return {
        name for k, names in enumerate(each) for name in names if name in set().union(*each[:k])
    }
