"""Change slips: only the rows that changed since an earlier scene or print, old struck out, new bold.

A cover says what changed, who must be given what and which older sheets serve no more; then each position's
rows, for the ladder and the deck, and the programmer's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any

from aimcalc.landings.changes import Row
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, Box, Page, Sheet, Target, body_of, write_pages
from aimcalc.paper.stance import stance_of
from aimcalc.paper.table import (
    HEAD,
    PAD,
    ROW,
    Column,
    Grid,
    Table,
    draw_heads,
    draw_row,
    grid,
    table_pages,
)
from aimcalc.sheets.stale import of_a_set, stale_words
from aimcalc.text import words as w
from aimcalc.text.changes.change_words import change_words, figure_words
from aimcalc.text.changes.changeover_text import changeover_words
from aimcalc.text.changes.compare import CHANGE_HEADS
from aimcalc.text.changes.compared import Compared
from aimcalc.text.facts import SHORT, footer, position_facts
from aimcalc.text.names import short, short_number
from aimcalc.text.rows import Row as SheetRow
from aimcalc.text.rows import rows_of
from aimcalc.text.typeset import LEADING, REGULAR, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions

WAS_TYPE, NOW_TYPE, SAME_TYPE = 10.0, 15.0, 12.0  # pt: struck through, in its place, as it was
TITLE = 22.0  # pt
TEXT = 11.0  # pt, of the cover and the programmer's rows
HIT = 0.3  # of the type size, where the line that strikes out lies over the base line
NOBODY = "nobody"


class Cell(NamedTuple):
    """What a cell shows: the old figure, empty where nothing changed, and the one to go by."""

    was: str
    now: str


class Slip(NamedTuple):
    """One unit's row of a slip, its cells in the order of the columns."""

    cells: tuple[Cell, ...]
    findings: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    clamp: str = ""
    new: bool = False  # all of it is to be done


def change_slips(show: Show, target: Target, options: PaperOptions, found: Compared) -> int:
    """Number of pages of the slips, written to a path or a binary stream."""
    rig = show.rig
    rows = rows_of(rig, show.findings, options.length)
    sections = [page for name in rig.rows for page in _position(rig, name, rows, options, found)]
    pages = [*_cover(rig, options, found), *sections, *_programmer(rig, options, found)]
    title = f"{rig.scene.settings.title}: change slips"
    return write_pages(target, pages, options, title=title, landscape=True)


def revisions(found: Compared) -> str:
    """ "revision C to revision D"."""
    return f"{found.old.words} to {found.new.words}"


def _position(
    rig: SolidRig,
    name: str,
    rows: Sequence[SheetRow],
    options: PaperOptions,
    found: Compared,
) -> Iterator[Page]:
    """The pages of one position's slips; none where nothing of it changed or nothing hangs there now."""
    mine = [row for row in found.changes.rows if row.position == name and set(row.touch) - {"desk"}]
    members = rig.rows[name]
    if not mine or not members:
        return
    by_name = {rig.names[k]: k for k in reversed(members)}
    slips = [
        _slip(found, row, rows[by_name[row.unit]] if row.unit in by_name else None)
        for row in sorted(mine, key=lambda row: by_name.get(row.unit, len(rig.units)))
    ]
    position, body = rig.scene.positions[name], body_of(options, True, SHORT)
    stance = stance_of(position, [rig.units[k] for k in members], [rig.answers[k] for k in members])
    who = ", ".join(
        dict.fromkeys(holder for row in mine for holder in row.who if holder != "programmer")
    )
    start = f"{short_number(rig, members[0], 6)} = {stance.start}" if stance.start else ""
    facts = footer(rig, name, position_facts(rig, name, options.length))
    over = grid(COLUMNS, body.left, body.right, ("done",))
    note = f"{revisions(found)}, for {who}"
    table = Table(short(rig, name), "CHANGE SLIP", note, stance, start, over, (), facts)
    yield from table_pages(table, slips, body)


def _slip(found: Compared, row: Row, now: SheetRow | None) -> Slip:
    """A row's cells: those of its new sheet, and what was there where it is printed otherwise."""
    was = {
        each.figure: figure_words(found, row, each)
        for each in row.figures
        if each.left or each.figure not in ("tail", "wedge")  # those serve on as they are
    }
    number = row.number
    if now is None:
        return Slip((Cell(number, "GONE"), *([Cell("", "")] * 6), Cell("", "take it down")))

    def cell(told: str, *figures: str) -> Cell:
        return Cell(", ".join(was[f][0] for f in figures if f in was and told), told)

    turn = f"{now.turn} {now.turn_note}".strip() if now.turn_note == "at the clamp" else now.turn
    if row.change == "new":
        was = {}
        number = f"{now.number} NEW"
    return Slip(
        (
            Cell("", number),
            cell(now.kind, "kind"),
            cell("\n".join(filter(None, now.hangs)), "at", "mounted"),
            cell(turn, "square", "pan"),
            cell(now.sight, "sight", "heading"),
            cell(f"{now.tip.word} {now.tip.angle}".strip(), "down"),
            cell(*_stand(now, "target" in was)),
            cell(
                "\n".join(filter(None, (now.mark.head, _joined(now.mark[1:3])))),
                "lands on",
                "lands",
            ),
        ),
        remarks=tuple(_remarks(was)),
        new=row.change == "new",
    )


BESIDE = (
    *("circuit", "outlet", "cable", "tail", "wedge", "colour", "turn", "edge", "note"),
    "sight tape",
)


def _stand(now: SheetRow, renamed: bool) -> tuple[str, str]:
    """STAND in two lines, and the figure that tells what was there: the target where it is another."""
    name, across, up = now.stand
    return (f"{name}\n{across}, {up}", "target") if renamed else (f"{across}\n{up}", "stand")


def _joined(parts: Sequence[str]) -> str:
    return ", ".join(filter(None, parts))


def _remarks(was: dict[str, tuple[str, str]]) -> Iterator[str]:
    """What has no column of its own: a circuit, a colour, a remark, a sight tape that lies elsewhere now."""
    for key in BESIDE:
        if key in was:
            yield f"{key.removeprefix('sight ').upper()}: it was {was[key][0]}, now {was[key][1]}."


def _changed(k: int) -> Callable[[Sheet, Box, Any], None]:
    """What draws the cell in place `k` of a slip: the old struck through over the new in bold."""

    def draw(sheet: Sheet, box: Box, slip: Slip) -> None:
        was, now = slip.cells[k]
        lines, top = now.split("\n"), box.top
        if was:
            taken = sheet.text(box.left, top - 10.5, was, WAS_TYPE, width=box.width)
            middle = top - 10.5 + HIT * WAS_TYPE
            sheet.line(box.left - 1, middle, box.left + taken + 1, middle, weight=RULE)
            top -= WAS_TYPE + 1.0
        step = (top - box.bottom) / len(lines)
        largest = NOW_TYPE if was or k == 0 else SAME_TYPE
        size = min(largest, 0.95 * step)
        for n, line in enumerate(lines):
            y = top - (n + 0.5) * step - 0.36 * size
            sheet.text(
                box.left, y, line, size, bold=bool(was) or slip.new or k == 0, width=box.width
            )

    return draw


HEADS = (
    (("UNIT", "old struck out"), 62),
    (("TYPE",), 72),
    (("HANG AT",), 84),
    (("SWING NOSE", "from square"), 92),
    (("SIGHT TAPE", "or heading"), 92),
    (("DOWN / UP",), 84),
    (("STAND", "or POINT"), 110),
    (("LANDS, ON", "or POLE"), 150),
)
COLUMNS = [Column(head, share, _changed(k)) for k, (head, share) in enumerate(HEADS)]
PROGRAMMED = ("channel", "kind", "colour", "target")
PATCH = [
    Column((head,), share, _changed(k))
    for k, (head, share) in enumerate(
        (("UNIT", 130), ("CHANNEL", 80), ("TYPE", 100), ("COLOUR", 100), ("TARGET", 130))
    )
]


def _programmer(rig: SolidRig, options: PaperOptions, found: Compared) -> Iterator[Page]:
    """The programmer's slip: channels, types, colours and targets, of the units where one of them changed."""
    slips = []
    units = {name: rig.units[k] for k, name in reversed(list(enumerate(rig.names)))}
    for row in found.changes.rows:
        if "programmer" not in row.who:
            continue
        if row.unit not in units:
            slips.append(Slip((Cell(row.unit, "GONE"), *([Cell("", "")] * 4))))
            continue
        was = {each.figure: figure_words(found, row, each)[0] for each in row.figures}
        told = {key: str(getattr(units[row.unit], key) or "none") for key in PROGRAMMED}
        new = " NEW" if row.change == "new" else ""
        cells = [Cell(was.get(key, ""), told[key]) for key in PROGRAMMED]
        slips.append(Slip((Cell("", f"{row.unit}{new}"), *cells), new=bool(new)))
    body = body_of(options, True, SHORT)
    over = grid(PATCH, body.left, body.right, ("done",))
    most = int((body.height - TITLE * 1.6 - HEAD) / ROW)
    facts = footer(rig, "for the programmer")
    for first in range(0, len(slips), most):
        yield Page(partial(_draw_patch, found, over, slips[first : first + most]), facts, SHORT)


def _draw_patch(found: Compared, over: Grid, slips: Sequence[Slip], sheet: Sheet) -> None:
    y = _draw_title(sheet, "CHANGE SLIP for the programmer", revisions(found))
    draw_heads(sheet, over, y)
    y -= HEAD
    top = y
    for slip in slips:
        sheet.line(over.edges[0], y, over.edges[-1], y, weight=RULE)
        draw_row(sheet, over, y, y - ROW, slip)
        y -= ROW
    sheet.box(Box(over.edges[0], y, over.edges[-1], top), weight=KEY)


def _draw_title(sheet: Sheet, title: str, beside: str) -> float:
    """A title with a few words beside it; the y under it comes back."""
    body = sheet.body
    taken = sheet.text(body.left, body.top - TITLE, title, TITLE, bold=True, width=0.6 * body.width)
    room = body.width - taken - 14
    sheet.text(body.right, body.top - TITLE, beside, 14, align="r", width=room)
    return body.top - 1.6 * TITLE


class Said(NamedTuple):
    """One line of the cover."""

    words: str
    bold: bool = False
    inset: float = 0.0


def _cover(rig: SolidRig, options: PaperOptions, found: Compared) -> Iterator[Page]:
    body = body_of(options, True, SHORT)
    lines = list(_said(rig, found, body.width))
    most = int((body.height - 1.6 * TITLE) / (TEXT * LEADING))
    facts = footer(rig, "change slips")
    for first in range(0, len(lines), most):
        yield Page(partial(_draw_cover, found, lines[first : first + most]), facts, SHORT)


def _said(rig: SolidRig, found: Compared, width: float) -> Iterator[Said]:
    """All that the cover says, cut into lines of a width in points."""
    changes = found.changes
    yield Said("Who must be given these slips", True)
    for holder in ("ladder", "deck", "programmer"):
        rows = [row for row in changes.rows if holder in row.who]
        places: dict[str, list[str]] = {}
        for row in rows:
            places.setdefault(row.position, []).append(row.number)
        told = "; ".join(
            f"{short(rig, name)}: {', '.join(units)}" for name, units in places.items()
        )
        yield from _set(f"{holder.upper()}: {told or NOBODY}", width)
    gone = {row.position for row in changes.rows} - {n for n, m in rig.rows.items() if m}
    for name in sorted(gone):
        units = [row.number for row in changes.rows if row.position == name]
        yield from _set(f"Nothing hangs on {name} any more: take down {', '.join(units)}.", width)
    yield from (Said(""), Said("What changed", True))
    if changes.rows:
        yield from _set(changeover_words(found), width)
    for change in changes.changes:
        what, where, was, now = change_words(found, change)
        value = f": {was or CHANGE_HEADS[2]} to {now}" if was and now else f" {now}" if now else ""
        yield from _set(f"{where}, {what}{value}", width)
    for load in changes.loads:
        value = f"{load.was or 'none'} to {load.now or 'none'}"
        yield from _set(f"{short(rig, load.position)}, {load.what}: {value}", width)
    yield from (Said(""), Said("Older sheets", True))
    files = of_a_set(name for name, members in rig.rows.items() if members)
    for sentence in stale_words(changes, files, f"of {found.old.words}"):
        yield from _set(sentence, width)
    if found.no_light:
        yield from _set(found.no_light, width)


def _set(words: str, width: float) -> Iterator[Said]:
    inset = 2 * PAD
    for line in wrap(words, REGULAR, TEXT, width - inset):
        yield Said(line, False, inset)


def _draw_cover(found: Compared, lines: Sequence[Said], sheet: Sheet) -> None:
    rows = w.count(len(found.changes.rows), "row")
    y = _draw_title(sheet, "CHANGE SLIPS", f"{revisions(found)}, {rows}")
    for line in lines:
        y -= TEXT * LEADING
        x = sheet.body.left + line.inset
        sheet.text(x, y, line.words, TEXT, bold=line.bold, width=sheet.body.width - line.inset)
