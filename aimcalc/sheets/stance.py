"""The stance: where the reader stands and faces, in words and as a small picture seen from above.

Every SL and SR on a sheet is read by somebody who stands behind most of the row's units and faces the
way they face. The picture has that reader at the bottom, facing up the page.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from aimcalc.rig.order import start_end
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.sheets.paper import KEY, Box, Sheet
from aimcalc.sheets.words import OPPOSITE, SIDES

if TYPE_CHECKING:
    from aimcalc.rig.answers import Answer
    from aimcalc.scene.model import Unit


class Stance(NamedTuple):
    """Where the reader of a row is, and what lies to either hand."""

    thing: str  # pipe, boom, stand
    standing: str  # US, DS, SL or SR of it
    facing: str
    first_hand: str  # the side drawn where the page's lines begin
    second_hand: str  # the side drawn where they end
    start: str  # "SL END", "TOP", empty for a stand
    mouths: str  # where the clamps open, as the reader sees it; empty where not told


def stance_of(position: Position, units: Sequence[Unit], answers: Sequence[Answer]) -> Stance:
    """The stance for a row: behind most of its units, facing as they face."""
    facing = _facing(position, answers)
    at = SIDES.index(facing)
    standing = OPPOSITE[facing]
    return Stance(
        thing=_thing(position),
        standing=standing,
        facing=facing,
        first_hand=SIDES[(at + 3) % 4],
        second_hand=SIDES[(at + 1) % 4],
        start=start_end(position, units),
        mouths=_mouths(position, standing),
    )


def _thing(position: Position) -> str:
    if isinstance(position, Pipe):
        return "pipe"
    return "boom" if isinstance(position, Boom) else "stand"


def _facing(position: Position, answers: Sequence[Answer]) -> str:
    """The side most units face of the two that are square; the position's own where it is a draw."""
    own = WORDS[place(position).square_word]
    if isinstance(position, Pipe):
        sides = [answer.square for answer in answers]
    else:
        sides = [_nearer(own, answer.heading) for answer in answers]
    return OPPOSITE[own] if sides.count(OPPOSITE[own]) > sides.count(own) else own


def _nearer(own: str, heading: float | None) -> str:
    """`own`, or its opposite where the heading is behind it."""
    if heading is None:
        return own
    off = (heading - 90.0 * SIDES.index(own) + 180.0) % 360.0 - 180.0
    return own if abs(off) <= 90.0 else OPPOSITE[own]


def _mouths(position: Position, standing: str) -> str:
    opens = position.clamp_opens if isinstance(position, Pipe) else None
    if opens is None:
        return ""
    return f"clamps open {opens}" + {
        standing: ", toward you",
        OPPOSITE[standing]: ", away from you",
    }.get(opens, "")


def stance_words(stance: Stance) -> str:
    """ "You stand DS of the pipe, facing US"."""
    return f"You stand {stance.standing} of the {stance.thing}, facing {stance.facing}"


def draw_stance(sheet: Sheet, box: Box, stance: Stance) -> None:
    """Draw the picture: the position seen from above, the reader below it, an arrow the way they face."""
    middle, bar = (box.left + box.right) / 2, box.bottom + 0.57 * box.height
    sheet.text(box.left, bar - 4.5, stance.first_hand, 12, bold=True)
    sheet.text(box.right, bar - 4.5, stance.second_hand, 12, bold=True, align="r")
    reader = Box(middle - 17, box.bottom, middle + 17, box.bottom + 13)
    sheet.box(reader, weight=1.6)
    sheet.text(middle, reader.bottom + 2.8, "YOU", 10.5, bold=True, align="c")
    sheet.line(middle, reader.top, middle, bar - 3, weight=1.6)
    sheet.arrow(middle, bar + 3, middle, box.top, weight=1.6)
    sheet.text(middle + 8, box.top - 9.5, stance.facing, 12, bold=True)
    if stance.thing == "pipe":
        _draw_bar(sheet, box.left + 29, box.right - 29, bar, stance)
    else:
        sheet.circle(middle, bar, 3, weight=KEY)


def _draw_bar(sheet: Sheet, first: float, last: float, y: float, stance: Stance) -> None:
    """The pipe as a tube, with a black block at its start end."""
    sheet.box(Box(first, y - 2.5, last, y + 2.5), weight=1.6)
    x = first if stance.start.startswith(stance.first_hand) else last
    sheet.box(Box(x - 5, y - 5, x + 5, y + 5), black=True)
