"""Which tables of a hang list hold the units: that of one sheet, one a sheet, or two side by side."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnclaims import LOOKED_THROUGH, Fits
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, HEIGHT, Headings
from aimcalc.scene.hanglist.columns.columnsteps import headings_of
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingwords import meaning_words
from aimcalc.scene.hanglist.columns.ownheadings import again_over, over_headings, without_over
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.namewords import POSITION_SPARE, POSITION_WORDS, SORTS
from aimcalc.scene.hanglist.names.overunits import named_on_tab
from aimcalc.scene.hanglist.names.positioncells import group_of, group_over
from aimcalc.scene.hanglist.names.sections import labelled, position_in
from aimcalc.scene.hanglist.rows.cellfits import parted_in
from aimcalc.scene.hanglist.rows.listrow import Around, blank, says_nothing, text_of
from aimcalc.scene.hanglist.table.carriedon import carried_on, part_of
from aimcalc.scene.hanglist.table.findhead import Head, find_head, no_table
from aimcalc.scene.hanglist.table.oldsheets import in_use, said_once
from aimcalc.scene.hanglist.table.secondtable import CODES, OF_UNITS, parted, patches
from aimcalc.scene.hanglist.table.sheetfile import Sheet
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.mistakes import FILE, UNKNOWN, Wrong, show

ALIKE = 3  # headings that come again in their order begin another table beside the first


class Table(NamedTuple):
    """A table of units: its sheet, its first rows, and the position that its sheet is named after; with the
    first of a list, other tables that may say more of the same units."""

    sheet: Sheet
    head: Head
    position: str = ""
    beside: tuple[Table, ...] = ()


def tables_of(sheets: list[Sheet], around: Around, fits: Fits, noticed: Noticed) -> list[Table]:
    """The tables that hold the units, in the order in which they stand.

    Raises:
        Wrong: when there is none, or several that may be one and the same list.
    """
    wanted = around.sheet
    if wanted is not None:
        sheets = _called(sheets, wanted)
    heads = [find_head(sheet.rows, fits) for sheet in sheets]
    shown = _with_tables(sheets, heads)
    if wanted is None:
        shown = in_use(shown, sheets, heads, tuple(around.places), noticed)
        shown = said_once(shown, sheets, heads, fits)
    positions = Names(around.places, POSITION_WORDS, POSITION_SPARE, sides=True)
    if len(shown) == 1:
        k = shown[0]
        more = [] if wanted is not None else _patches(sheets, heads, k, positions, fits)
        _tell_sheet(sheets, k, noticed, more)
        return _with_more(side_by_side(sheets[k], heads[k], noticed), sheets, heads, more)
    looked = [_Looked(heads[k], sheets[k].name, positions, fits) for k in shown]
    placed = [k for k, look in zip(shown, looked, strict=True) if look.has_places]
    elsewhere = _elsewhere(looked)  # a sheet of the same units, a patch, may be left out
    if (
        len(placed) == 1
        and not elsewhere
        and not (_apart(looked) and all(look.has_units for look in looked))
    ):
        more = _more(sheets, heads, dict(zip(shown, looked, strict=True)), placed)
        _tell_sheet(sheets, placed[0], noticed, more)
        found = side_by_side(sheets[placed[0]], heads[placed[0]], noticed)
        return _with_more(found, sheets, heads, more)
    each = dict(zip(shown, looked, strict=True))
    alone = _alone(each)
    if alone is not None:
        _tell_sheet(sheets, alone, noticed)
        return side_by_side(sheets[alone], heads[alone], noticed)
    held = [k for k, look in zip(shown, looked, strict=True) if look.has_units]
    if 1 < len(held) < len(shown) and not _says_more(looked):
        looked = [look for look in looked if look.has_units]
        shown = held
    names = [sheets[k].name for k in shown]
    apart = _apart(looked)
    one_rig = not apart and carried_on([look.part for look in looked])
    one_rig = one_rig or (not apart and _by_kind(looked, names, fits))
    if not (apart or one_rig) or any(_OTHER_TIME.search(name) for name in names):
        raise Wrong(
            f"one sheet that holds the units, and {len(names)} may: {', '.join(names[:8])}",
            f'Say which in [scene]: hang_sheet = "{names[0]}".',
            came=f"{len(names)} sheets with headings",
            rank=FILE,
        )
    more = _more(sheets, heads, each, shown)
    noticed.note(
        "list-sheet",
        f"the units are read from {len(names)} sheets, {_of_what(looked, one_rig=one_rig)}: "
        f"{', '.join(names[:8])}"
        f"{_unread(sheets, [*shown, *more])}.",
        "hang_sheet in [scene] names one of them alone.",
    )
    found = []
    for k, look in zip(shown, looked, strict=True):
        tables = side_by_side(sheets[k], heads[k], noticed)
        if look.named and look.named != sheets[k].name:
            noticed.read_as("position", sheets[k].name, look.named)
        found += [table._replace(position=look.named) for table in tables]
    return _with_more(found, sheets, heads, more)


def _alone(looked: dict[int, _Looked]) -> int | None:
    """The one sheet that holds units, where the others name no position and hold nothing that is of units:
    "Props" over "Item | Who"; None where there are more, or none."""
    held = [k for k, look in looked.items() if look.has_units]
    others = [look for k, look in looked.items() if k not in held]
    if len(held) != 1 or any(o.positions or o.has_places or o.keyed or o.coded for o in others):
        return None
    return held[0]


def _called(sheets: list[Sheet], wanted: str) -> list[Sheet]:
    """The sheets of a name that the scene says. Raises Wrong where there is none."""
    named = [sheet for sheet in sheets if sheet.name.casefold() == wanted.strip().casefold()]
    if not named:
        expected = "hang_sheet in [scene]: the name of a sheet of the hang list"
        raise Wrong(
            expected, came=show(wanted), choices=tuple(s.name for s in sheets), rank=UNKNOWN
        )
    return named


_OF_OWN = "each of positions of its own"
_OF_ONE_RIG = "of one rig, whose numbers go on from one to the next and of which no unit is on two"
_OF_KINDS = "each of the kind that it is named after and of which no unit is on two"


def _of_what(looked: Sequence[_Looked], *, one_rig: bool) -> str:
    if not one_rig:
        return _OF_OWN
    return _OF_ONE_RIG if any("kind" in look.keys for look in looked) else _OF_KINDS


def _by_kind(looked: Sequence[_Looked], names: Sequence[str], fits: Fits) -> bool:
    """Whether sheets are named after the kinds of their units, which no column says, and none is on two."""
    named = all(
        "kind" not in look.keys and look.units and fits("named kind", name)
        for look, name in zip(looked, names, strict=True)
    )
    every = [unit for look in looked for unit in look.units]
    return named and len(every) == len(set(every))


def _more(
    sheets: list[Sheet], heads: list[Head], looked: dict[int, _Looked], read: list[int]
) -> list[int]:
    """The sheets that may say more of the units than those that are read: they name position and number, or
    else channels or circuits that these name too, and hold a key that these lack."""
    known = set().union(*(looked[k].keys for k in read))
    return [
        k
        for k, look in looked.items()
        if k not in read and (look.keyed or look.coded & known) and look.keys & OF_UNITS - known
        if not _OTHER_TIME.search(sheets[k].name)
    ]


def _patches(
    sheets: list[Sheet], heads: list[Head], read: int, positions: Names, fits: Fits
) -> list[int]:
    """The sheets without a table of units that say more of the circuits or channels of the one that is read;
    their heads are put in."""
    shown = (k for k, sheet in enumerate(sheets) if k != read and not sheet.hidden)
    others = [k for k in shown if not heads[k].score and not _OTHER_TIME.search(sheets[k].name)]
    known = _Looked(heads[read], sheets[read].name, positions, fits).keys if others else frozenset()
    return patches(heads, others, known)


def _with_more(
    tables: list[Table], sheets: list[Sheet], heads: list[Head], more: list[int]
) -> list[Table]:
    if not more:
        return tables
    beside = tuple(Table(sheets[k], heads[k]) for k in more)
    return [tables[0]._replace(beside=(*tables[0].beside, *beside)), *tables[1:]]


def _with_tables(sheets: list[Sheet], heads: list[Head]) -> list[int]:
    lists = [k for k, head in enumerate(heads) if head.score and _has_rows(head)]
    lists = lists or [k for k, head in enumerate(heads) if head.score]
    shown = [k for k in lists if not sheets[k].hidden] or lists
    if not shown:
        filled = [
            k for k, head in enumerate(heads) if any(not all(map(blank, row)) for row in head.rows)
        ]
        k = (filled or [0])[0]
        raise no_table(heads[k], sheets[k].name)
    return shown


def _tell_sheet(sheets: list[Sheet], k: int, noticed: Noticed, more: Sequence[int] = ()) -> None:
    if len(sheets) > 1 or sheets[k].hidden:
        here = f"sheet {sheets[k].name}{', which is hidden,' if sheets[k].hidden else ''}"
        noticed.note(
            "list-sheet",
            f"the units are read from {here}{_unread(sheets, [k, *more])}.",
            "hang_sheet in [scene] names another.",
        )


def _unread(sheets: list[Sheet], read: list[int]) -> str:
    others = [
        f'"{s.name}"{" (hidden)" if s.hidden else ""}'
        for j, s in enumerate(sheets)
        if j not in read
    ]
    return f"; not read: {', '.join(others[:8])}" if others else ""


def _has_rows(head: Head) -> bool:
    return any(not all(map(blank, row)) for row in head.rows[head.last + 1 :])


# A sheet of these names may be an earlier state of another.
_OTHER_TIME = regex(
    r"\b(?:old|copy|backup|draft|superseded|archive|previous|prev|spare|version|ver|v\d|rev)\b",
    re.IGNORECASE,
)


class _Looked:
    """What one of several sheets holds: the positions of its units, and whether they have places."""

    def __init__(self, head: Head, name: str, positions: Names, fits: Fits) -> None:
        below = [
            row
            for row in head.rows[head.last + 1 :]
            if not says_nothing(row) and not head.is_again(row)
        ]
        self.named = named_on_tab(name, positions) or ""
        group = "" if self.named else _group(name, head, positions)
        cells = head.headings()
        over = over_headings(cells, below[:LOOKED_THROUGH], positions, fits)
        titles = [cells, *(row for row in below if over >= 0 and again_over(row, cells, over))]
        over_them = (position_in(str(row[over]), positions) for row in titles if over >= 0)
        titled = {each for each in over_them if each}
        if over >= 0:
            cells = without_over(cells, below[:LOOKED_THROUGH], over, fits)
            below = [row for row in below if row not in titles]
        headings, _ = headings_of(
            cells,
            (head.first + 1, head.last + 1),
            below[:LOOKED_THROUGH],
            fits,
            {},
            placed=bool(self.named or group),
        )
        self.part = part_of(name, head, headings, below, positions)
        self.has_places = bool({"at", HEIGHT, *AT_PARTS} & set(headings.by_key))
        self.has_units = {"kind", "target"} <= headings.by_key.keys()
        self.keys = frozenset(headings.by_key)
        self.positions = set(_positions(headings, below, head.above, positions)) | titled
        if not self.positions and group:
            self.positions = set(positions.find(group).several)
        if not self.positions and self.named:
            self.positions = {self.named}
        elif self.named not in self.positions or "position" in headings.by_key:
            self.named = ""
        self.units = [] if "kind" in self.keys else _numbered(headings, below, positions)
        self.keyed = "number" in self.keys and bool(self.positions)
        alone = not self.has_places and "number" not in self.keys
        self.coded = self.keys.intersection(CODES) if alone else frozenset()


def _numbered(
    headings: Headings, below: Sequence[list[Any]], positions: Names
) -> list[tuple[str, str]]:
    """The units of rows by position and number; none where a row does not name both."""
    columns = [
        headings.by_key[key].place for key in ("position", "number") if key in headings.by_key
    ]
    cells = [[text_of(row[k]).strip() if k < len(row) else "" for k in columns] for row in below]
    if len(columns) != len(("position", "number")) or not all(all(each) for each in cells):
        return []
    return [(positions.find(position).name or position, number) for position, number in cells]


def _group(name: str, head: Head, positions: Names) -> str:
    """The word of several positions that the name of a sheet is, or a title above its table: "Perches"."""
    titles = {group_over(row, positions) for row in head.above} - {""}
    return group_of(name, positions) or (titles.pop() if len(titles) == 1 else "")


def _positions(
    headings: Headings, below: list[list[Any]], above: list[list[Any]], positions: Names
) -> Iterable[str]:
    column, number = headings.by_key.get("position"), headings.by_key.get("number")
    joint = number is not None and any(
        parted_in(text_of(row[number.place]), positions) for row in below if number.place < len(row)
    )
    found: Iterable[str | None]
    if column is not None:
        k, words = column.place, meaning_words(column.heading)
        cells = [text_of(row[k]) for row in below if k < len(row) and not blank(row[k])]
        found = [_named(cell, words, positions) for cell in cells]
    elif number is not None and joint:  # "Tower SL 1"
        k = number.place
        parted = [parted_in(text_of(row[k]), positions) for row in below if k < len(row)]
        found = [each[0] for each in parted if each]
    else:
        filled = ([text_of(cell) for cell in row if not blank(cell)] for row in (*above, *below))
        found = (
            position_in(row[0], positions) if len(row) == 1 else labelled(row, positions)
            for row in filled
        )
    return [name for name in found if name]


def _named(cell: str, words: Sequence[str], positions: Names) -> str | None:
    """The position that a cell names, with the word of its heading where it is a number or no name: "1" of a
    pipe, "SL" of a boom."""
    name = None if cell.isdecimal() else positions.find(cell).name
    if name:
        return name
    each = (positions.find(f"{word} {cell}").name for word in words if word not in NOT_SORTS)
    return next((name for name in each if name), positions.find(cell).name)


NOT_SORTS = frozenset(POSITION_SPARE) - SORTS  # "no", "number"


def _elsewhere(looked: list[_Looked]) -> bool:
    """Whether a sheet without places has units on positions of which the one with places says nothing."""
    known = set().union(*(look.positions for look in looked if look.has_places))
    return any(look.has_units and not look.has_places and look.positions - known for look in looked)


def _says_more(looked: list[_Looked]) -> bool:
    """Whether a sheet without kinds and targets names positions that the others do not: it is no summary."""
    known = set().union(*(look.positions for look in looked if look.has_units))
    return any(look.positions - known for look in looked)


def _apart(looked: list[_Looked]) -> bool:
    """Whether every sheet has positions that no other has."""
    every = [name for look in looked for name in look.positions]
    return all(look.positions for look in looked) and len(every) == len(set(every))


# --- Side by side -----------------------------------------------------------------------------------


def side_by_side(sheet: Sheet, head: Head, noticed: Noticed) -> list[Table]:
    """The tables of a sheet: one, or several whose headings come again beside the first."""
    starts = _starts(head.headings())
    starts = starts if len(starts) > 1 else _other_starts(head)
    if len(starts) < 2:
        both = parted(head)
        return [
            Table(sheet, both[0], beside=(Table(sheet, both[1]),)) if both else Table(sheet, head)
        ]
    noticed.note(
        "list-columns", f"{len(starts)} tables stand side by side, read one after another."
    )
    rows = [list(row) for row in head.all_rows()]
    filled = [sum(not blank(cell) for cell in row) for row in rows]
    foot = max((k for k, many in enumerate(filled) if many > 1), default=0)
    tables = []
    for first, end in zip(starts, [*starts[1:], None], strict=True):
        cut = [
            row
            if not head.first <= k <= foot and filled[k] == 1 and not blank(row[0])
            else [""] * min(first, len(row)) + row[first:end]
            for k, row in enumerate(rows)
        ]  # a line above the headings, or below all units, is said of every table
        looked_at = len(head.rows)
        tables.append(Table(sheet, head._replace(rows=cut[:looked_at], rest=iter(cut[looked_at:]))))
    return tables


def _other_starts(head: Head) -> list[int]:
    """The columns at which tables of other headings begin, with an empty column between them: pipes, and
    booms by their heights. None of them may lack what makes its rows units."""
    if head.first < 0:
        return []
    cells, below = head.headings(), head.rows[head.last + 1 :]
    filled = [k for k, cell in enumerate(cells) if not blank(cell)]
    gaps = [
        k
        for k, cell in enumerate(cells)
        if blank(cell) and filled and filled[0] < k < filled[-1]
        if all(k >= len(row) or blank(row[k]) for row in below)
    ]
    edges = [-1, *gaps, len(cells)]
    blocks = [cells[one + 1 : other] for one, other in pairwise(edges)]
    starts = [one + 1 for one, block in zip(edges, blocks, strict=False) if any(block)]
    blocks = [block for block in blocks if any(block)]
    keys = [{each for c in block if not blank(c) for each in meaning(c).keys} for block in blocks]
    return starts if all({"position", "number", "kind", "target"} <= each for each in keys) else []


def _starts(cells: list[Any]) -> list[int]:
    """The columns at which the headings begin, and begin again."""
    texts = [" ".join(str(cell).casefold().split()) if not blank(cell) else "" for cell in cells]
    filled = [k for k, text in enumerate(texts) if text]
    first = next((k for k in filled if meaning(cells[k]).keys), None)
    if first is None:
        return []
    mine = [texts[k] for k in filled if k >= first]
    starts = [first]
    for k in filled:
        again = [texts[j] for j in filled if j >= k]
        same = 0
        while same < min(len(mine), len(again)) and mine[same] == again[same]:
            same += 1
        if k > first and same >= ALIKE:
            starts.append(k)
    return starts
