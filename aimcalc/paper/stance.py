"""The stance: where the reader stands and faces, in words and as a small picture seen from above.

Every SL and SR on a sheet is read by somebody who stands behind most of the row's units and faces the
way they face. The picture has that reader at the bottom, facing up the page.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, cos, sin
from typing import TYPE_CHECKING

from aimcalc.geometry.vectors import to_degrees, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, SMALL, Box, Sheet
from aimcalc.rig.places import WORDS, arc_of, place
from aimcalc.rig.solve import start_end
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.text.facts import noun
from aimcalc.text.typeset import BOLD, text_width
from aimcalc.text.words import OPPOSITE, SIDES

if TYPE_CHECKING:
    from aimcalc.scene.model import Unit
    from aimcalc.solid.answers import Answer


class Stance(NamedTuple):
    """Where the reader of a row is, and what lies to either hand."""

    sort: str  # pipe, boom, stand
    standing: str  # US, DS, SL or SR of it
    facing: str
    first_hand: str  # the side drawn where the page's lines begin
    second_hand: str  # the side drawn where they end
    start: str  # "SL END", "TOP", empty for a stand
    mouths: str  # where the clamps open, as the reader sees it; empty where not told
    noun: str  # what the position is called: pipe, truss, boom, stand


def stance_of(position: Position, units: Sequence[Unit], answers: Sequence[Answer]) -> Stance:
    """The stance for a row: behind most of its units, facing as they face."""
    facing = _facing(position, answers)
    at = SIDES.index(facing)
    standing = OPPOSITE[facing]
    return Stance(
        sort=_sort(position),
        standing=standing,
        facing=facing,
        first_hand=SIDES[(at + 3) % 4],
        second_hand=SIDES[(at + 1) % 4],
        start=start_end(position, units),
        mouths=_mouths(position, standing),
        noun=noun(position),
    )


def _sort(position: Position) -> str:
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
    return f"You stand {stance.standing} of the {stance.noun}, facing {stance.facing}"


def draw_stance(sheet: Sheet, box: Box, stance: Stance, who: str = "YOU") -> None:
    """Draw the picture: the position seen from above, the reader below it, an arrow the way they face."""
    middle, bar = (box.left + box.right) / 2, box.bottom + 0.57 * box.height
    sheet.text(box.left, bar - 4.5, stance.first_hand, 12, bold=True)
    sheet.text(box.right, bar - 4.5, stance.second_hand, 12, bold=True, align="r")
    half = 17.0 if who == "YOU" else 20.0
    reader = Box(middle - half, box.bottom, middle + half, box.bottom + 13)
    sheet.box(reader, weight=1.6)
    sheet.text(middle, reader.bottom + 2.8, who, 10.5, bold=True, align="c")
    sheet.line(middle, reader.top, middle, bar - 3, weight=1.6)
    sheet.arrow(middle, bar + 3, middle, box.top, weight=1.6)
    sheet.text(middle + 8, box.top - 9.5, stance.facing, 12, bold=True)
    if stance.sort == "pipe":
        _draw_bar(sheet, box.left + 29, box.right - 29, bar, stance)
    else:
        sheet.circle(middle, bar, 3, weight=KEY)


def _draw_bar(sheet: Sheet, first: float, last: float, y: float, stance: Stance) -> None:
    """The pipe as a tube, with a black block at its start end."""
    sheet.box(Box(first, y - 2.5, last, y + 2.5), weight=1.6)
    x = first if stance.start.startswith(stance.first_hand) else last
    sheet.box(Box(x - 5, y - 5, x + 5, y + 5), black=True)


Point = tuple[float, float]

LETTERS = 20.0  # pt that SL and SR take beside a drawing from above
LOWER = 10.0  # pt that they stand lower where an arrow goes over them
BESIDE = 14.0  # pt; an arrow that ends no higher than this would touch them
SMALL_SIDE = 0.6  # of the full drawing; under it words find no room beside the body
UPWARD = to_radians(10.0)  # tipped up by more than this, a body's nose is beside its clip


class Turned(NamedTuple):
    """A unit's plan direction: degrees clockwise from the side that the reader faces.

    `pipe` is its pipe's own direction, either way along it, counted likewise.
    """

    facing: str
    clockwise: float
    pipe: float = 90.0


def turned(answer: Answer, position: Position, leaning: bool, base: str) -> Turned | None:
    """How a unit stands seen from above; None where it points straight down or up, or has no aim.

    From the pipe's own square where the stem is plumb. Else from `base`, the side that its row counts its
    true heading from.
    """
    if answer.pan is None or answer.heading is None or answer.attitude == "plumb":
        return None
    if isinstance(position, Pipe) and not leaning and answer.square:
        ahead = SIDES[(SIDES.index(answer.square) + 1) % 4]
        return Turned(answer.square, answer.pan if answer.swing == ahead else -answer.pan)
    off = 90.0 * SIDES.index(base)
    pipe = _runs(position, answer) if isinstance(position, Pipe) else 90.0 + off
    return Turned(base, (answer.heading - off + 180.0) % 360.0 - 180.0, (pipe - off) % 180.0)


def _runs(pipe: Pipe, answer: Answer) -> float:
    """The plan heading of a pipe, one way along it; of a curved one where the unit's clamp is."""
    if pipe.through is None:
        x, y, _ = place(pipe).along
    else:  # square to the line from the clamp to the middle of its circle
        arc = arc_of(pipe.start, pipe.through, pipe.end)
        x, y = arc.y - answer.clamp[1], answer.clamp[0] - arc.x
    return to_degrees(atan2(x, y))


def draw_plan(
    sheet: Sheet, box: Box, way: Turned, *, on_pipe: bool, reader: str | None = None
) -> None:
    """Draw the unit from above: the pipe, square dashed, an arrow the way the nose goes.

    Up the page is the way that `reader` faces, who stands at its foot; without one the way that the unit
    faces.
    """
    facing = reader or way.facing
    at = SIDES.index(facing)
    square = 90.0 * ((SIDES.index(way.facing) - at) % 4)
    turn, middle, room = square + way.clockwise, (box.left + box.right) / 2, box.width / 2 - 4
    flat = abs(cos(to_radians(turn))) * room < BESIDE  # its arrow would go into SL or SR
    y = (box.bottom + box.top) / 2
    if reader is None:
        y = box.bottom + (9 + LOWER if flat else 9)
    reach = box.top - 12 - y if reader is None else 0.5 * box.height
    hands = y - 4.5 - (LOWER if flat and reader is None else 0.0)
    beside = 4.0 if flat and reader is None else LETTERS + 4.0  # that the pipe leaves to them
    sheet.text(box.left, hands, SIDES[(at + 3) % 4], 12, bold=True)
    sheet.text(box.right, hands, SIDES[(at + 1) % 4], 12, bold=True, align="r")
    if reader is None:
        sheet.text(middle, box.top - 9, facing, 12, bold=True, align="c")
    else:
        sheet.text(box.left, box.bottom, "YOU", SMALL, bold=True)
        sheet.text(box.left, box.top - 8, facing, SMALL, bold=True)
    if on_pipe:
        tube = Box(box.left + beside, box.bottom + 4, box.right - beside, box.top - 12)
        _draw_tube(sheet, (middle, y), tube, square + way.pipe)
    else:
        sheet.circle(middle, y, 5, weight=KEY)

    def out(clockwise: float, far: float) -> Point:
        angle = to_radians(clockwise)
        return middle + far * sin(angle), y + far * cos(angle)

    sheet.line(*out(square, 6), *out(square, reach), dash=3)
    if flat and reader is not None:
        room -= LETTERS
    along = min(reach - 3, room / max(abs(sin(to_radians(turn))), 0.01))
    if flat:  # it never comes near the top
        along = room / abs(sin(to_radians(turn)))
    sheet.arrow(middle, y, *out(turn, along), weight=2.2 if reader is None else 1.6)


def _draw_tube(sheet: Sheet, middle: Point, box: Box, clockwise: float) -> None:
    """Draw the pipe through a point, `clockwise` degrees from up the page, as far as the box goes."""
    x, y = middle
    s, c = sin(to_radians(clockwise)), cos(to_radians(clockwise))

    def reach(way: float) -> float:
        """How far the pipe goes that way along it."""
        up = box.top - y if way * c > 0 else y - box.bottom
        return min(box.width / 2 / max(abs(s), 1e-9), up / max(abs(c), 1e-9))

    far, near = reach(1.0), -reach(-1.0)
    ends = ((near, -2.5), (far, -2.5), (far, 2.5), (near, 2.5))
    sheet.shape([(x + a * s - b * c, y + a * c + b * s) for a, b in ends], weight=1.6)


def draw_side(sheet: Sheet, box: Box, answer: Answer, clip: str = "") -> None:
    """Draw the unit from its side at its own tip: clip on top, tail below, nose to the page's end.

    `clip` says where the clip of a body on its side is: "CLIP SL".
    """
    scale = box.height / 86.0
    down = to_radians(answer.down or 0.0)
    share = 0.62 if answer.mount == "direct" else 0.58 if down < -UPWARD else 0.46
    x, y = box.left + share * box.width, box.bottom + 0.5 * box.height
    f, u = (cos(down), -sin(down)), (sin(down), cos(down))

    def at(ahead: float, above: float) -> Point:
        """A point of the body, from the pivot."""
        return (
            x + scale * (ahead * f[0] + above * u[0]),
            y + scale * (ahead * f[1] + above * u[1]),
        )

    _draw_mount(sheet, (x, y), scale, answer.mount)
    sheet.shape(
        [at(-26, -9), at(14, -9), at(26, -11), at(26, 11), at(14, 9), at(-26, 9)],
        weight=1.6,
        white=True,
    )
    aside = answer.attitude == "on its side"
    sheet.shape(_clip(at, aside), black=True)
    sheet.circle(x, y, 2.5 * scale, weight=1.6)
    ahead, end = at(29, 0), at(46, 0)
    sheet.line(*ahead, *end, weight=1.2, dash=3)
    _draw_tail(sheet, at(-22, -9), scale)
    if aside:
        sheet.text(box.right, box.top - SMALL, clip, SMALL, bold=True, align="r")
        return
    across, up = at(24, 22)
    up = min(max(up - 3, box.bottom + 2), box.top - 8)
    if scale < SMALL_SIDE:
        up = box.top - 8
    if down < -UPWARD:  # to the right the nose would be under it
        sheet.text(at(17, 20)[0] - 2, up - 4, "CLIP up", SMALL, bold=True, align="r")
    else:
        across = min(across, box.right - text_width("CLIP up", BOLD, SMALL))
        sheet.text(across, up, "CLIP up", SMALL, bold=True)


def _clip(at: Callable[[float, float], Point], aside: bool) -> list[Point]:
    """The frame clip: on top of the nose, or turned to the reader where the body lies on its side."""
    if aside:
        return [at(17, -4), at(25, -4), at(25, 4), at(17, 4)]
    return [at(17, 10), at(25, 11), at(25, 17), at(17, 16)]


def _draw_mount(sheet: Sheet, pivot: Point, scale: float, mount: str) -> None:
    """The pipe and the yoke: pipe above, below (over), behind (direct), or a stand."""
    x, y = pivot
    if mount == "direct":
        sheet.box(Box(x - 88 * scale, y - 40 * scale, x - 83 * scale, y + 40 * scale), weight=1.6)
        sheet.line(x - 83 * scale, y, x, y, weight=KEY)
        return
    reach = -34 * scale if mount in ("over", "stand") else 34 * scale
    sheet.line(x, y, x, y + reach, weight=KEY)
    if mount == "stand":
        sheet.line(x - 18 * scale, y + reach, x + 18 * scale, y + reach, weight=KEY)
    else:
        sheet.circle(x, y + reach, 5 * scale, weight=KEY)


def _draw_tail(sheet: Sheet, start: Point, scale: float) -> None:
    """A tail that hangs from the back of the body."""
    x, y = start
    bends = ((4.0, 8.0), (4.0, 14.0), (10.0, 16.0))
    sheet.curve([start, *((x - a * scale, y - b * scale) for a, b in bends)], weight=1.6)
    sheet.text(x - 12 * scale, y - 19 * scale, "tail", SMALL, bold=True, align="r")
