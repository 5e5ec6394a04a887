"""Drawings to scale on sheets of any size: what scales and sheets are called, and how many sheets it takes.

A drawing that is larger than its sheet goes on several, each of which shows again a strip of what its
neighbours show; ticks beyond the drawing tell where sheets are cut and laid on each other.
"""

from __future__ import annotations

import re
from math import ceil

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import (
    BORDER,
    NARROW,
    PT,
    Drawing,
    Inset,
    Line,
    Shape,
    Words,
    shrink_to_fit,
    text_width,
    wrapped,
)
from aimcalc.paper.marks import inside
from aimcalc.paper.planpage import BODY, FOOT_SCALES, METRIC_SCALES, ROW
from aimcalc.rig.wording import INCH
from aimcalc.scene.mistakes import nearest
from aimcalc.text.facts import SHORT
from aimcalc.text.stamp import PaperOptions

# Short and long side, mm. A series: ISO 216. Letter to tabloid: ANSI/ASME Y14.1 A and B, and legal (from
# memory); arch sheets: 9 by 12 in and their doubles (from memory).
SHEETS = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "A2": (420.0, 594.0),
    "A1": (594.0, 841.0),
    "A0": (841.0, 1189.0),
    "letter": (215.9, 279.4),
    "legal": (215.9, 355.6),
    "tabloid": (279.4, 431.8),
    "arch-a": (228.6, 304.8),
    "arch-b": (304.8, 457.2),
    "arch-c": (457.2, 609.6),
    "arch-d": (609.6, 914.4),
    "arch-e": (914.4, 1219.2),
}
LEAST_SHEET, MOST_SHEET = 180.0, 5000.0  # mm of a side (our choice)
UNITS = {"mm": 1.0, "cm": 10.0, "in": 1000 * INCH, '"': 1000 * INCH}
SIZE = re.compile(r'([\d.]+)\s*(mm|cm|in|")?\s*[x×]\s*([\d.]+)\s*(mm|cm|in|")', re.IGNORECASE)
RATIO = re.compile(r"1\s*:\s*(\d+)")
INCHES = re.compile(r'(\d+)(?:/(\d+))?\s*(?:"|in)?(?:\s*=\s*1\'(?:-0")?)?')
FINEST = (
    200  # 1 to so much is the smallest drawing that can be asked for: a smaller one shows no unit
)

EDGE = 11.0  # mm of white at the edges of a sheet
OVERLAP = 25.0  # mm that two neighbours both show
TICK = 4.0  # mm, of the marks where sheets meet
HINT = 8.0  # pt, of the words beside them
MAP = 3.0  # mm, a sheet on the small map of them
BEAM = 4.0  # mm between drawing and foot

Size = tuple[float, float]  # mm across and up


def scale_named(text: str) -> int:
    """How many times smaller a drawing is: 50 of "1:50", 48 of `1/4"` or `1/4" = 1'-0"`.

    Raises ValueError for one that no scale rule has.
    """
    plain = " ".join(text.split())
    if ratio := RATIO.fullmatch(plain):
        scale = int(ratio[1])
    elif inches := INCHES.fullmatch(plain):
        above, below = int(inches[1]), int(inches[2] or 1)
        scale = 12 * below // above if above and below and 12 * below % above == 0 else 0
    else:
        scale = 0
    known = sorted({*METRIC_SCALES, *FOOT_SCALES})
    if scale not in known or scale > FINEST:
        metric = ", ".join(f"1:{k}" for k in METRIC_SCALES if k <= FINEST)
        feet = ", ".join(f'{inch}"' for k, inch in FOOT_SCALES.items() if k <= FINEST)
        raise ValueError(
            f"expected a scale that a scale rule has, {metric}, or inches to the foot, {feet}; got {text!r}."
        )
    return scale


def sheet_named(text: str) -> Size:
    """Short and long side, mm, of "A3", "arch-d", "600 x 900 mm", "24x36 in". Raises ValueError otherwise."""
    plain = " ".join(text.split())
    named = {name.lower(): size for name, size in SHEETS.items()}
    if plain.lower() in named:
        return named[plain.lower()]
    size = SIZE.fullmatch(plain)
    sides: list[float] = []
    if size is not None:
        unit = size[4].lower()
        try:
            sides = [
                float(size[1]) * UNITS[(size[2] or unit).lower()],
                float(size[3]) * UNITS[unit],
            ]
        except ValueError:
            sides = []
    if not sides:
        near = nearest(plain, tuple(SHEETS))
        meant = f' Did you mean "{near}"?' if near else ""
        raise ValueError(
            f'expected one of {", ".join(SHEETS)}, or a size such as "600x900 mm" or "24x36 in"; got '
            f"{text!r}.{meant}"
        )
    short, long = sorted(sides)
    if short < LEAST_SHEET or long > MOST_SHEET:
        raise ValueError(
            f"expected a sheet of {LEAST_SHEET:.0f} mm or more each way, at most {MOST_SHEET / 1000:.0f} m; "
            f"got {text!r}."
        )
    return short, long


def sheet_words(sheet: Size) -> str:
    """What a sheet is called: "A3", "600 x 900 mm"."""
    sides = sorted(sheet)
    for name, size in SHEETS.items():
        if max(abs(a - b) for a, b in zip(sides, size, strict=True)) < 1.0:
            return name
    return f"{sides[0]:.0f} x {sides[1]:.0f} mm"


def room_on(sheet: Size) -> Size:
    """What of a sheet a drawing may take, mm: less the white round it and the foot under it."""
    return sheet[0] - 2 * EDGE, sheet[1] - 2 * EDGE - _foot(sheet[0]) - BEAM


def sheet_around(size: Size) -> Size:
    """The sheet that a drawing of some size fills."""
    wide = size[0] + 2 * EDGE
    return wide, size[1] + 2 * EDGE + _foot(wide) + BEAM


def across_and_up(size: Size, sheet: Size) -> tuple[int, int]:
    """How many sheets a drawing takes each way."""
    room = room_on(sheet)
    count = [
        1 if length <= most + 1e-6 else ceil((length - OVERLAP) / (most - OVERLAP) - 1e-9)
        for length, most in zip(size, room, strict=True)
    ]
    return count[0], count[1]


def best_turned(size: Size, sheet: Size) -> Size:
    """The sheet upright or on its side, whichever takes fewer of them; lying like the drawing where equal."""
    short, long = sorted(sheet)
    ways = [(short, long), (long, short)]
    if size[0] > size[1]:
        ways.reverse()

    def sheets(way: Size) -> int:
        across, up = across_and_up(size, way)
        return across * up

    return min(ways, key=sheets)


class Foot(NamedTuple):
    """What stands under the drawing on every sheet, before the number of its page."""

    told: str


def pages_of(board: Drawing, sheet: Size, foot: Foot, options: PaperOptions) -> list[Drawing]:
    """The sheets of a drawing: one, or as many as it takes, without those on which there would be nothing."""
    columns, rows = across_and_up((board.width, board.height), sheet)
    if columns * rows == 1:
        page = _sheet(board, sheet, (0.0, 0.0), options)
        _foot_of(page, foot, options.numbered(1, 1))
        return [page]
    room = room_on(sheet)
    spots = [(column, row) for row in range(rows) for column in range(columns)]
    pages = {
        spot: _sheet(board, sheet, _corner(spot, room, board.height, rows), options)
        for spot in spots
    }
    used = [spot for spot in spots if _has_ink(pages[spot])]
    for n, spot in enumerate(used, 1):
        told = f"{foot.told} | row {spot[1] + 1}, column {spot[0] + 1}"
        _foot_of(pages[spot], Foot(told), options.numbered(n, len(used)), map_room=columns * MAP)
        _joints(pages[spot], spot, {other: k for k, other in enumerate(used, 1)}, room)
        _map(pages[spot], spot, used, rows)
    return [pages[spot] for spot in used]


def _corner(spot: tuple[int, int], room: Size, height: float, rows: int) -> tuple[float, float]:
    """Where a sheet's window begins on the drawing: columns from the left, rows from the top down."""
    left = spot[0] * (room[0] - OVERLAP)
    return left, height - room[1] - spot[1] * (room[1] - OVERLAP)


def _sheet(
    board: Drawing, sheet: Size, corner: tuple[float, float], options: PaperOptions
) -> Drawing:
    """A sheet that shows the drawing from a corner on, as much as there is room for."""
    page = Drawing(*sheet, draft=options.draft, over=options.over)
    room = room_on(sheet)
    left, bottom = corner
    window = (
        max(left, 0.0),
        max(bottom, 0.0),
        min(left + room[0], board.width),
        min(bottom + room[1], board.height),
    )
    base = EDGE + _foot(sheet[0]) + BEAM
    at = (EDGE + window[0] - left, base + window[1] - bottom)
    page.inset = Inset(board, window, at)
    return page


def _has_ink(page: Drawing) -> bool:
    """Whether a sheet's window shows a line, an outline or a word."""
    assert page.inset is not None
    seen = page.inset.seen
    window = page.inset.window
    outlines = [line.points for line in seen.lines] + [shape.points for shape in seen.shapes]
    return bool(seen.words) or any(inside(points, window) for points in outlines)


def _foot(width: float) -> float:
    """Height of the foot of a sheet, mm."""
    return (len(_cautions(width)) + 1) * ROW + 1.0


def _cautions(width: float) -> list[str]:
    return wrapped(SHORT, BODY, width - 2 * EDGE, bold=True)


def _foot_of(page: Drawing, foot: Foot, number: str, *, map_room: float = 0.0) -> None:
    """Title and number of the page in a row, the cautions under it."""
    rows = _cautions(page.width)
    y = EDGE + len(rows) * ROW + 1.0
    right = page.width - EDGE
    page.words.append(Words(right, y, number, BODY, True, "right"))
    room = right - EDGE - map_room - text_width(number, BODY, True) - 6.0
    size = shrink_to_fit(foot.told, BODY, room, True)
    page.words.append(Words(EDGE + (map_room and map_room + 2.0), y, foot.told, size, True))
    for k, row in enumerate(reversed(rows)):
        page.words.append(Words(EDGE, EDGE + k * ROW, row, BODY, True))


def _map(page: Drawing, spot: tuple[int, int], used: list[tuple[int, int]], rows: int) -> None:
    """All sheets as they lie, small, this one black."""
    base = EDGE + len(_cautions(page.width)) * ROW + 0.8
    high = min(MAP, (ROW - 0.6) / rows)
    for column, row in used:
        x, y = EDGE + column * MAP, base + (rows - 1 - row) * high
        box = np.array([(x, y), (x + MAP, y), (x + MAP, y + high), (x, y + high)])
        page.shapes.append(Shape(box, NARROW, "black" if (column, row) == spot else "white"))


def _joints(
    page: Drawing, spot: tuple[int, int], numbers: dict[tuple[int, int], int], room: Size
) -> None:
    """Ticks beyond the drawing on the middle of every strip that two sheets share, and whose it is."""
    left, bottom = EDGE, EDGE + _foot(page.width) + BEAM
    right, top = left + room[0], bottom + room[1]
    half = OVERLAP / 2
    column, row = spot
    for (across, down), x in (((-1, 0), left + half), ((1, 0), right - half)):
        number = numbers.get((column + across, row + down))
        if number:
            for y0, y1 in ((bottom, bottom - TICK / 2), (top, top + TICK)):
                page.line((x, y0), (x, y1), weight=BORDER)
            edge, turn = (left - 3.0, 90.0) if across < 0 else (right + 3.0 + HINT * 0.26, 90.0)
            page.words.append(
                Words(edge, (bottom + top) / 2, _joins(number), HINT, True, "centre", turn)
            )
    for down, y in ((-1, top - half), (1, bottom + half)):
        number = numbers.get((column, row + down))
        if number:
            for x0, x1 in ((left, left - TICK), (right, right + TICK)):
                page.line((x0, y), (x1, y), weight=BORDER)
            base = top + 0.8 if down < 0 else bottom - 3.2
            page.words.append(Words((left + right) / 2, base, _joins(number), HINT, True, "centre"))


def _joins(number: int) -> str:
    return f"cut at the ticks and lay on the ticks of page {number}"


def border(board: Drawing) -> None:
    """The line round a drawing."""
    w, h, b = board.width, board.height, BORDER * PT / 2
    corners: Array = np.array([(b, b), (w - b, b), (w - b, h - b), (b, h - b), (b, b)])
    board.lines.append(Line(corners, BORDER))
