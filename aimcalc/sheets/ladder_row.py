"""The cells of a ladder sheet's row: what stands in each, and how large."""

from __future__ import annotations

from math import cos, sin

from aimcalc.geometry.vectors import to_radians
from aimcalc.paper.page import Box, Sheet
from aimcalc.sheets.sides import (
    BIG,
    LEAST,
    LOWER,
    PAD,
    ROW,
    TYPE,
    UPPER,
    Column,
    pair,
    plain,
    stack,
)
from aimcalc.text.ladder_rows import LadderRow
from aimcalc.text.typeset import BOLD, text_width
from aimcalc.text.words import SIDES

SHORT_LINE = 18  # letters that one line of the kind cell takes
SIDE = 15.0  # pt, SL, SR, US, DS under a figure
TICKS = (
    Column(("hung", ""), 32.0, fixed=True),
    Column(("safety", "cable"), 38.0, fixed=True),
    Column(("upright,", "tail"), 46.0, fixed=True),
    Column(("aimed", ""), 38.0, fixed=True),
)
UPRIGHT = Column(("upright", ""), 46.0, fixed=True)  # of a stand, whose tail has no cell


def pipe_columns(zero: str, tape: str) -> list[Column]:
    """Columns of a pipe or a truss; `zero` is what its marks count from, `tape` the head of the sights."""
    return [
        Column(("UNIT", "channel"), 50, _unit),
        Column(("HANG AT", f"from {zero}"), 82, _hang),
        Column(("KIND, circuit", "colour"), 103, _kind),
        Column(("SQUARE", "faces"), 54, _square),
        Column(("SWING", "from square"), 82, _swing),
        Column((tape, "the fine swing"), 88, _sight),
        Column(("DOWN / UP", "or plumb"), 91, _tip),
        Column(("WITHIN", "either way"), 74, _within),
        Column(("TAIL", "from clamp"), 63, _tail),
        *TICKS,
    ]


def upright_columns(dials: bool, hangs: bool) -> list[Column]:
    """Columns of a boom (`hangs`) or a stand; `dials` where a clamp of it has a turn of its own."""
    columns = [
        Column(("UNIT", "channel"), 52, _unit),
        Column(("HANG AT", "up the boom"), 96, _hang),
        Column(("STAND AT", "its foot"), 96, _stands),
        Column(("KIND, circuit", "colour"), 112, _kind),
        Column(("FACES", "turn to it"), 60, _square),
        Column(("HEADING", "of where it faces"), 100, _sight),
        Column(("AT CLAMP", "tip it there"), 92, _swing),
        Column(("DOWN / UP", "or plumb"), 88, _tip),
        Column(("WITHIN", "either way"), 72, _within),
        Column(("TAIL", "from clamp"), 67, _tail),
        *(TICKS if hangs else (UPRIGHT, *TICKS[3:])),
    ]
    skipped = {*([] if dials else [_swing]), *([_stands] if hangs else [_hang, _tail])}
    return [column for column in columns if column.draw not in skipped]


def _black(sheet: Sheet, box: Box, words: str) -> None:
    """Words white on black, in the lower half of a cell."""
    base = (box.top + box.bottom) / 2
    sheet.box(Box(box.left - 2, base - 16, box.right + 2, base - 1), black=True)
    middle = (box.left + box.right) / 2
    plain(
        sheet,
        middle,
        base - LOWER + 0.5,
        words,
        TYPE,
        box.width,
        bold=True,
        white=True,
        centred=True,
    )


def _unit(sheet: Sheet, box: Box, row: LadderRow) -> None:
    pair(sheet, box, row.number, row.channel)


def _hang(sheet: Sheet, box: Box, row: LadderRow) -> None:
    """The mark, its side, and how it hangs where it does not simply hang under."""
    figure, side = row.hang
    base = (box.top + box.bottom) / 2
    if not (row.over or row.how):
        plain(sheet, box.left, base + UPPER, figure, BIG, box.width, bold=True)
        plain(sheet, box.left, base - LOWER, side, SIDE, box.width, bold=True)
        return
    how = row.how.replace("CHORD", "chord").split(", ") if row.how else []
    high = base + (UPPER if len(how) < 2 else 4.5)
    plain(sheet, box.left, high, f"{figure} {side}".rstrip(), BIG, box.width, bold=True)
    if row.over:
        _black(sheet, box, ", ".join(("OVER PIPE", *how)))
    for k, words in enumerate(how if not row.over else ()):
        low = base - LOWER if len(how) < 2 else base - 5.0 - 10.5 * k
        bold = not words.startswith("chord")
        size = TYPE if len(how) < 2 else 10.5
        plain(sheet, box.left, low, words, size, box.width, bold=bold)


def _stands(sheet: Sheet, box: Box, row: LadderRow) -> None:
    """Where the stand is put on the deck, and on what."""
    stack(sheet, box, row.stands, bold=len(row.stands))


def least_of(row: LadderRow) -> float:
    """The least height of a row: three lines fit, four take more."""
    return ROW + max(0, len(_kind_lines(row)) - 3) * 10.5


def _kind_lines(row: LadderRow) -> list[str]:
    """Kind, circuit, then colour, pattern and edge, in one line where that is short."""
    more = [part for part in (row.colour, row.pattern, row.edge) if part]
    joined = ", ".join(more)
    return [row.kind, row.circuit, *([joined] if len(joined) <= SHORT_LINE else more)]


def _kind(sheet: Sheet, box: Box, row: LadderRow) -> None:
    """Kind, circuit, colour and the way a pattern lies."""
    stack(sheet, box, _kind_lines(row), bold=2)


def _square(sheet: Sheet, box: Box, row: LadderRow) -> None:
    """An arrow the way it faces, as the reader stands, and the word; AT YOU is white on black."""
    y = (box.top + box.bottom) / 2
    if row.way is None:
        stack(sheet, box, row.square.split(), bold=2)
        return
    if row.at_you:
        sheet.box(Box(box.left - PAD, box.bottom, box.right + PAD, box.top), black=True)
    dx, dy = 13.0 * sin(to_radians(row.way)), 13.0 * cos(to_radians(row.way))
    x = box.left + max(9.0, abs(dx))
    _arrow(sheet, x - dx, y - dy, x + dx, y + dy, white=row.at_you)
    words = x + max(8.0, abs(dx) + 3.5)  # neither head nor tail touches them
    room = box.right - words
    if row.at_you:
        for k, word in enumerate(("AT", "YOU")):
            plain(sheet, words, y + 2 - 13 * k, word, TYPE, room, bold=True, white=True)
        return
    plain(sheet, words, y - 5, row.square, 14.0, room, bold=True)


def _arrow(sheet: Sheet, x0: float, y0: float, x1: float, y1: float, *, white: bool) -> None:
    """A thick arrow, black, or white on what is black."""
    if white:
        sheet.canvas.addLiteral("1 G 1 g")
    long = max(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5, 1e-6)
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    bx, by = x1 - 10 * ux, y1 - 10 * uy
    sheet.line(x0, y0, bx, by, weight=3.0)
    head = [(x1, y1), (bx - 5.5 * uy, by + 5.5 * ux), (bx + 5.5 * uy, by - 5.5 * ux)]
    sheet.shape(head, black=not white, white=white)
    if white:
        sheet.canvas.addLiteral("0 G 0 g")


def _swing(sheet: Sheet, box: Box, row: LadderRow) -> None:
    pair(sheet, box, row.swing, row.swing_note)


def _sight(sheet: Sheet, box: Box, row: LadderRow) -> None:
    """The tape's mark with its side, or the true heading."""
    figure, side = row.sight
    if not figure:
        return
    base = (box.top + box.bottom) / 2
    plain(sheet, box.left, base + UPPER, figure, BIG, box.width, bold=True)
    taken = 0.0
    if side:
        size = SIDE if side in SIDES else TYPE
        taken = plain(sheet, box.left, base - LOWER, side, size, box.width, bold=True) + 4
    if row.sight_note:
        plain(sheet, box.left + taken, base - LOWER, row.sight_note, TYPE, box.width - taken)


def _tip(sheet: Sheet, box: Box, row: LadderRow) -> None:
    word, angle, plumb = row.tip
    base = (box.top + box.bottom) / 2
    if angle:
        shouts = word == "UP"  # what tips up among all that tip down
        wide = text_width(word, BOLD, TYPE if shouts else LEAST)
        if shouts:
            sheet.box(Box(box.left - 2, base, box.left + wide + 2, base + 15), black=True)
        size = TYPE if shouts else LEAST
        taken = sheet.text(box.left, base + UPPER, word, size, bold=True, white=shouts) + 4
        plain(sheet, box.left + taken, base + UPPER, angle, BIG, box.width - taken, bold=True)
    else:
        plain(sheet, box.left, base + UPPER, word, BIG, box.width, bold=True)
    if plumb:
        plain(sheet, box.left, base - LOWER, f"plumb {plumb}", TYPE, box.width)


def _within(sheet: Sheet, box: Box, row: LadderRow) -> None:
    stack(sheet, box._replace(right=box.right - 3), row.within)


def _tail(sheet: Sheet, box: Box, row: LadderRow) -> None:
    side, far = row.tail
    if side == "AT CLAMP":
        side, far = "at", "clamp"
    base = (box.top + box.bottom) / 2
    size = TYPE if side in ("at", "EITHER") else SIDE
    plain(sheet, box.left, base + UPPER, side, size, box.width, bold=True)
    if far:
        plain(sheet, box.left, base - LOWER, far, TYPE, box.width)
