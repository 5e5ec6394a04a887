"""What stands over the rows of a crew sheet: how a unit is set, in small drawings and a few lines."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin

from aimcalc.geometry.vectors import to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, Box, Sheet
from aimcalc.paper.stance import Stance
from aimcalc.text.typeset import BOLD, LEADING, REGULAR, text_width, wrap

HEIGHT = 78.0  # pt, the least
PICTURE = 176.0  # pt wide, of a tape
LEVEL = 134.0  # pt wide
LEANING = 66.0  # pt wide, of each way to lean
TYPE = 10.0  # pt
SLOPES, OUT = "with its pipe", "swung out"  # how a stem leans


class Tape(NamedTuple):
    """The sight tapes of a pipe: how far out on each side, in words, and where their 0 lies."""

    outs: dict[str, str]  # {"US": "13'-0\""}
    zero: str  # "centre line"
    opposite: bool  # 0 lies square out from the zero mark, not on the centre line itself
    places: dict[
        str, str
    ]  # of a pipe straight across: where each lies, {"US": "1'-0\" DS of the plaster line"}


class Guide(NamedTuple):
    """What is to be said over the rows of one position."""

    stance: Stance
    tape: Tape | None
    leaning: Sequence[str]  # how stems lean, of those that do
    lines: Sequence[tuple[str, str]]  # (bold word, words)
    level: bool = True  # the unit with a level on it is drawn


def guide_height(guide: Guide, width: float) -> float:
    """How tall pictures and words are in a width."""
    laid = _laid(guide, width)
    tall = laid[-1].top + len(laid[-1].lines) * TYPE * LEADING + 1.0 if laid else 0.0
    return max(HEIGHT, tall) if _pictures(guide) else tall


def _pictures(guide: Guide) -> float:
    """What the pictures take of the width."""
    taken = PICTURE + 6 if guide.tape else 0.0
    taken += (LEANING + 6) * len(guide.leaning)
    return taken + (LEVEL + 8 if guide.level else 0.0)


class Paragraph(NamedTuple):
    """A bold word and its lines, how far below and right of where all begin."""

    top: float
    left: float
    word: str
    lines: list[str]


def _laid(guide: Guide, width: float) -> list[Paragraph]:
    """Each paragraph beside the pictures while it fits there, then in the whole width below them."""
    left, y, laid = _pictures(guide), 0.0, list[Paragraph]()
    for word, says in guide.lines:
        indent = text_width(word, BOLD, TYPE) + 4
        lines = wrap(says, REGULAR, TYPE, width - left, indent)
        if left and y + len(lines) * TYPE * LEADING > HEIGHT + 0.5 * TYPE:
            left, y = 0.0, max(y, HEIGHT - 1.5)
            lines = wrap(says, REGULAR, TYPE, width, indent)
        laid.append(Paragraph(y, left, word, lines))
        y += len(lines) * TYPE * LEADING
    return laid


def draw_guide(sheet: Sheet, box: Box, guide: Guide) -> None:
    """Draw the pictures from where lines begin, the words in what is over."""
    left = box.left
    if guide.tape:
        _tape(sheet, Box(left, box.bottom, left + PICTURE, box.top), guide.stance, guide.tape)
        left += PICTURE + 6
    for how in guide.leaning:
        _leaning(sheet, Box(left, box.bottom, left + LEANING, box.top), how)
        left += LEANING + 6
    if guide.level:
        _level(sheet, Box(left, box.bottom, left + LEVEL, box.top))
    _words(sheet, box, guide)


def _words(sheet: Sheet, box: Box, guide: Guide) -> None:
    for top, left, word, lines in _laid(guide, box.width):
        for k, line in enumerate(lines):
            y, at = box.top - top - (k + 1) * TYPE * LEADING + 3, box.left + left
            if k == 0 and word:
                at += sheet.text(at, y, word, TYPE, bold=True) + 4
            sheet.text(at, y, line, TYPE, width=box.right - at)


def _tape(sheet: Sheet, box: Box, stance: Stance, tape: Tape) -> None:
    """From above, the reader below: the pipe, the tape along its line, its 0, the eye, the mark."""
    ahead = [side for side in tape.outs if side == stance.facing]
    behind = [side for side in tape.outs if side != stance.facing]
    middle = (box.left + box.right) / 2
    box = box._replace(bottom=box.top - HEIGHT)
    pipe = box.bottom + (12 if ahead and not behind else HEIGHT - 12 if not ahead else HEIGHT / 2)
    sheet.box(Box(box.left + 2, pipe - 2.5, box.right - 2, pipe + 2.5), weight=1.6)
    sheet.text(box.right - 4, pipe + 5, stance.noun, SMALL, bold=True, align="r")
    for side in (*ahead, *behind):
        up = 1.0 if side == stance.facing else -1.0
        y = pipe + up * (HEIGHT - 26 if not (ahead and behind) else 25)
        _one_tape(sheet, box, side, y, up, middle, pipe, tape, side == (ahead or behind)[0])
    if not (ahead and behind):
        for k, words in enumerate(("lay it along", f"the {stance.noun}'s line")):
            sheet.text(box.left + 2, pipe + (24 if ahead else -32) - 11 * k, words, SMALL)


def _one_tape(
    sheet: Sheet,
    box: Box,
    side: str,
    y: float,
    up: float,
    zero: float,
    pipe: float,
    tape: Tape,
    told: bool,
) -> None:
    """One of them; the words for its 0 and for the eye stand at the first alone."""
    sheet.line(box.left + 2, y, box.right - 2, y, weight=KEY)
    for k in range(-7, 8):
        sheet.line(zero + 11 * k, y, zero + 11 * k, y - up * (7 if k == 0 else 3.5), weight=1.0)
    label = y + 4 if up > 0 else y - SMALL - 1
    sheet.text(box.left + 2, label, f"tape {tape.outs[side]} {side}", SMALL, bold=True)
    where = f"0 {'opposite' if tape.opposite else 'on'} {tape.zero}"
    if told:
        low = y - (17 if up > 0 else -9) + (1.5 if len(tape.outs) > 1 else 0.0)  # clear of the eye
        wide = text_width(where, BOLD, SMALL)
        start = max(box.left + 2, zero + 3 - wide)
        sheet.text(start, low, where, SMALL, bold=True)
        if len(tape.outs) > 1:  # the words for its 0 come up to the eye: it is told behind the pipe
            sheet.text(zero, pipe - up * 8.5 - 3.5, "eye", SMALL, bold=True, align="r")
        else:
            eyed = max(zero + 16, start + wide + 4)
            sheet.text(eyed, pipe + (5.5 if up > 0 else -12), "eye", SMALL, bold=True)
    eye, mark = zero + 8, zero + 40
    sheet.circle(eye, pipe, 5.0, weight=1.6)
    sheet.circle(eye, pipe, 1.5, weight=KEY)
    sheet.line(eye, pipe + up * 5, mark, y, weight=1.2, dash=3)
    sheet.text(mark + 4, label, "mark", SMALL, bold=True)


def _level(sheet: Sheet, box: Box) -> None:
    """A unit from its side: clip above, tail below, the level lying along the top of its barrel."""
    down = to_radians(33.0)
    x, y, s = box.left + 36, box.top - 44, 0.84

    def at(ahead: float, above: float) -> tuple[float, float]:
        return (
            x + s * (ahead * cos(down) + above * sin(down)),
            y + s * (above * cos(down) - ahead * sin(down)),
        )

    sheet.line(x, y, x, y + 33, weight=KEY)
    sheet.circle(x, y + 37, 4.0, weight=KEY)
    corners = [(-28, -9), (14, -9), (28, -11), (28, 11), (14, 9), (-28, 9)]
    sheet.shape([at(*corner) for corner in corners], weight=1.6, white=True)
    sheet.shape([at(18, 11), at(25, 12), at(25, 17), at(18, 16)], black=True)
    sheet.shape([at(-22, 10), at(8, 10), at(8, 15), at(-22, 15)], black=True)
    sheet.circle(x, y, 2.5, weight=1.6)
    sheet.line(*at(-27, -6), at(-27, -6)[0] - 8, y - 16, weight=1.6)
    sheet.text(box.left, y - 27, "tail", SMALL, bold=True)
    for k, words in enumerate(("LEVEL along the", "top of the barrel")):
        sheet.text(x + 9, y + 30 - 12 * k, words, SMALL, bold=True)
    sheet.text(at(30, 14)[0] - 2, at(30, 14)[1] + 2, "clip up", SMALL, bold=True)


def _leaning(sheet: Sheet, box: Box, how: str) -> None:
    """A stem that leans, from the front of its pipe or along it; plumb is dashed."""
    x, y, lean = box.left + 32, box.top - 14, to_radians(16.0 if how == SLOPES else 42.0)
    if how == SLOPES:
        sheet.line(box.left + 2, y + 9, box.right - 2, y - 9, weight=4.0)
    else:
        sheet.circle(x, y, 5.0, weight=KEY)
        x, y = x - 5 * sin(lean), y - 5 * cos(lean)
    end = (x - 31 * sin(lean), y - 31 * cos(lean))
    sheet.line(x, y, *end, weight=KEY)
    sheet.circle(*end, 7.0, weight=1.6)
    sheet.line(x, y - 2, x, y - 38, weight=1.0, dash=2.5)
    for k, words in enumerate(("stem leans,", how)):
        sheet.text(box.left, box.top - 63 - 10.5 * k, words, SMALL, bold=True, width=box.width)
