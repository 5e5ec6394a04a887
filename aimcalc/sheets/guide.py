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
LEANING = 112.0  # pt wide
TYPE = 10.0  # pt


class Tape(NamedTuple):
    """The sight tapes of a pipe: how far out on each side, in words, and where their 0 lies."""

    outs: dict[str, str]  # {"US": "13'-0\""}
    zero: str  # "centre line"
    opposite: bool  # 0 lies square out from the zero mark, not on the centre line itself


class Guide(NamedTuple):
    """What is to be said over the rows of one position."""

    stance: Stance
    tape: Tape | None
    leaning: bool
    lines: Sequence[tuple[str, str]]  # (bold word, words)
    level: bool = True  # the unit with a level on it is drawn


def guide_height(guide: Guide, width: float) -> float:
    """How tall pictures and words are in a width."""
    room = width - _pictures(guide)
    return max(HEIGHT, _count(guide.lines, TYPE, room) * TYPE * LEADING + 2.0)


def _pictures(guide: Guide) -> float:
    """What the pictures take of the width."""
    taken = PICTURE + 6 if guide.tape else 0.0
    taken += LEANING + 6 if guide.leaning else 0.0
    return taken + (LEVEL + 8 if guide.level else 0.0)


def draw_guide(sheet: Sheet, box: Box, guide: Guide) -> None:
    """Draw the pictures from where lines begin, the words in what is over."""
    left = box.left
    if guide.tape:
        _tape(sheet, Box(left, box.bottom, left + PICTURE, box.top), guide.stance, guide.tape)
        left += PICTURE + 6
    if guide.leaning:
        _leaning(sheet, Box(left, box.bottom, left + LEANING, box.top), guide.stance)
        left += LEANING + 6
    if guide.level:
        _level(sheet, Box(left, box.bottom, left + LEVEL, box.top))
        left += LEVEL + 8
    _words(sheet, Box(left, box.bottom, box.right, box.top), guide.lines)


def _words(sheet: Sheet, box: Box, lines: Sequence[tuple[str, str]]) -> None:
    size, y = TYPE, box.top
    for word, says in lines:
        indent = text_width(word, BOLD, size) + 4
        for k, line in enumerate(wrap(says, REGULAR, size, box.width, indent)):
            y -= size * LEADING
            at = box.left
            if k == 0 and word:
                at += sheet.text(at, y + 3, word, size, bold=True) + 4
            sheet.text(at, y + 3, line, size, width=box.right - at)


def _count(lines: Sequence[tuple[str, str]], size: float, width: float) -> int:
    return sum(
        len(wrap(says, REGULAR, size, width, text_width(word, BOLD, size) + 4))
        for word, says in lines
    )


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
        low = y - (17 if up > 0 else -9)
        wide = text_width(where, BOLD, SMALL)
        start = max(box.left + 2, zero + 3 - wide)
        sheet.text(start, low, where, SMALL, bold=True)
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


def _leaning(sheet: Sheet, box: Box, stance: Stance) -> None:
    """A stem that leans, from the front: tilting swings the nose, so the eye comes after the tilt."""
    x, y = box.left + 36, box.top - 16
    sheet.line(box.left + 4, y + 7, box.left + 78, y - 9, weight=4.0)
    lean = to_radians(12.0)
    end = (x - 40 * sin(lean), y - 1 - 40 * cos(lean))
    sheet.line(x, y - 1, *end, weight=KEY)
    sheet.circle(*end, 9, weight=1.6)
    sheet.line(x, y - 2, x, y - 44, weight=1.0, dash=2.5)
    words = ("leans: by", "FIRST, THEN,", "LAST below")
    for k, line in enumerate(words):
        sheet.text(box.left + 50, y - 22 - 12 * k, line, SMALL, bold=True)
    sheet.text(box.left + 2, box.top - 74, "plumb dashed", SMALL)
