"""The pan dial: a half disc at true scale that reads the turn of the yoke bar off the pipe.

Its straight edge goes along the pipe, its centre to the spigot, on the side where the backs of the units
are. Seen from above, the bar end on the side that the nose swings to comes off the pipe on that
side by just the pan. So each half of the scale starts with 0 at its own end and is named for its end.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, THIN, Align, Page, Sheet, Target, write_pages
from aimcalc.paper.true_scale import (
    CAP,
    MM,
    Round,
    bar_across,
    bar_upright,
    proof_length,
    proof_words,
)
from aimcalc.scene.model import Pipe
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.words import INCH, OPPOSITE, SIDES, LengthUnit

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


STEP = 5  # degrees between ticks
NOTCH = 15.0  # mm, cut out round the spigot
TOP = 36.0  # pt, what the title takes
FIGURES = 14.0  # pt
ENDS: tuple[Align, Align] = ("l", "r")


class Dial(NamedTuple):
    """One side of the card, for units that face one way."""

    facing: str
    length: LengthUnit

    @property
    def standing(self) -> str:
        """The side of the pipe that the reader and the disc are on."""
        return OPPOSITE[self.facing]

    @property
    def hands(self) -> tuple[str, str]:
        """The sides at the first and the second end of the straight edge, as the reader sees them."""
        at = SIDES.index(self.facing)
        return SIDES[(at + 3) % 4], SIDES[(at + 1) % 4]

    @property
    def radius(self) -> float:
        """In mm: 125 mm, or 5 in."""
        return 5000 * INCH if self.length == "ft" else 125.0


def pan_dial(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the pan dial, one for each way that units on pipes face."""
    rig = show.rig
    facts = footer(rig, "pan dial", ["true scale: measure the proof bars"])
    pages = [
        Page(partial(_draw, Dial(facing, options.length)), facts, SHORT) for facing in facings(rig)
    ]
    title = f"{rig.scene.settings.title}: pan dial"
    return write_pages(target, pages, options, title=title, landscape=True)


def facings(rig: SolidRig) -> list[str]:
    """The square sides of units on pipes, in the order US, DS, SL, SR; US where there are none."""
    pipes = [isinstance(position, Pipe) for position in rig.positions]
    used = {a.square for a, pipe in zip(rig.answers, pipes, strict=True) if pipe and a.square}
    return [side for side in ("US", "DS", "SL", "SR") if side in used] or ["US"]


def _draw(dial: Dial, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(
        body.left, body.top - 22, f"PAN DIAL for units that face {dial.facing}", 24, bold=True
    )
    x, y = (body.left + body.right) / 2, body.top - TOP - 20
    _draw_scale(sheet, dial, x, y)
    _draw_words(sheet, dial, x, y)
    _draw_foot(sheet, dial)


def page_angle(half: int, reading: float) -> float:
    """Where a reading is on the page, degrees anticlockwise from its x; `half` 0 first, 1 second end."""
    return reading - 180.0 if half == 0 else -reading


def _draw_scale(sheet: Sheet, dial: Dial, x: float, y: float) -> None:
    """Draw edge, rim and both halves of the scale, hanging from the centre (x, y)."""
    r = dial.radius
    for half in (0, 1):
        scale = Round(sheet, x, y, partial(page_angle, half))
        scale.arc(0, 90, r, KEY)
        scale.arc(0, 90, NOTCH)
        scale.tick(0, NOTCH, r, KEY)
        for reading in range(STEP, 90 + half, STEP):
            tens = reading % 10 == 0
            scale.tick(reading, r - (11 if tens else 7), r, 1.6 if tens else 1.0)
            if tens:
                scale.figure(reading, r - 18, f"{reading}°", FIGURES, bold=True)
    sheet.text(x, y - 9.5 * MM, "SPIGOT", SMALL, align="c", width=2 * NOTCH * MM - 8)


def _draw_words(sheet: Sheet, dial: Dial, x: float, y: float) -> None:
    """Draw what is on the card itself."""
    reach = (dial.radius - 26) * MM
    for start, side, align in zip((x - reach, x + reach), dial.hands, ENDS, strict=True):
        sheet.text(start, y - 24, f"{side} END", 20, bold=True, align=align)
        sheet.text(start, y - 40, f"nose swung {side}", 12, align=align)
    sheet.text(x, y + 6, "THIS EDGE ALONG THE PIPE, centre at the spigot", 12, bold=True, align="c")
    lines = (
        ("read the YOKE BAR", 20),
        ("not the beam: the bar is a quarter turn from it", 12),
        (f"disc on the {dial.standing} side of the pipe", 14),
        (f"you stand {dial.standing}, facing {dial.facing}, looking down on it", 12),
    )
    low = y - 70
    for words, size in lines:
        sheet.text(x, low, words, size, bold=size > 12, align="c", width=1.2 * dial.radius * MM)
        low -= size + 8
    lanyard = y - (dial.radius - 30) * MM
    sheet.circle(x, lanyard, 3 * MM, weight=THIN)
    sheet.text(x + 5 * MM, lanyard - CAP * SMALL / 2, "lanyard", SMALL)


def _draw_foot(sheet: Sheet, dial: Dial) -> None:
    """Draw the proof bars and how the dial is made and read."""
    body, long = sheet.body, proof_length(dial.length)
    bar_across(sheet, body.left + 20, body.bottom + 8, long)
    bar_upright(sheet, body.left + 6, body.bottom + 8, long)
    name = proof_words(dial.length)
    x = body.left + 24
    sheet.text(
        x, body.bottom + 16, f"{name} both ways, or bin it", 12, bold=True, width=long * MM - 16
    )
    words = (
        "Uniform scaling keeps angles, ruins lengths: the dial still reads true where both bars came out "
        "equally short, and is wrong where one of the two is off. Stick it on card, cut round, cut the "
        "notch. Use it where a row has no sight tape. For units that hang over or under alike. Another "
        "facing has another page: never turn this one round. Sloping or swung-out clamp: hold it square to "
        "the stem."
    )
    left = body.left + long * MM + 36
    sheet.paragraph(left, body.bottom + 66, words, SMALL, body.right - left)
