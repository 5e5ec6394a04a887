"""Where the words beside a clamp mark go on a tile, and how long its yoke-bar line may be; millimetres.

A bar line crosses two of the four quarters round its mark: the words take one of the other two. Words and
line keep to the mark's own stretch of the strip, half way to its neighbours.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos

from aimcalc.geometry.vectors import to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.true_scale import AWAY, LEAST, half_bar
from aimcalc.sheets.strip.marks import BEYOND, Mark, Strip, Tiling, grouped

END_ROOM = 0.05  # metres at both ends of a strip for END and its words
WIDE = 95.0  # room that words ask for; more is not used
SAME = 0.001  # metres; a line this near to a mark is hidden by it
SLIGHT = 2.0  # of a bar's line on a tile that holds nothing else: not worth the tile


class Label(NamedTuple):
    """Marks that share their words: where on which tile, and in which quarter the words are.

    `x` is from the tile's beginning to the first mark, `start` to where the words begin.
    """

    tile: int
    x: float
    start: float
    upper: bool
    width: float
    marks: tuple[Mark, ...]


class Line(NamedTuple):
    """A mark on a tile: its place from the tile's beginning, its bar's angle and half length."""

    x: float
    angle: float | None
    half: float


def labels(marks: Sequence[Mark], over: Tiling, keep_off: Sequence[float] = ()) -> list[Label]:
    """Words of every mark, a group of marks close together having one set of them.

    The words keep off the upright lines at the places `keep_off`.
    """
    groups = grouped(marks)
    rooms = _rooms([(group[0].place, group[-1].place) for group in groups])
    return [
        _label(group, _clear(group, room, keep_off), over)
        for group, room in zip(groups, rooms, strict=True)
    ]


def marks_on(marks: Sequence[Mark], over: Tiling, tile: int) -> list[Line]:
    """Marks of one tile, with those beside it whose bar lines reach into it."""
    begin, width = over.start + tile * over.pitch, 1000 * over.pitch
    rooms = [1000 * min(room) for room in _rooms([(mark.place, mark.place) for mark in marks])]
    found = []
    for mark, room in zip(marks, rooms, strict=True):
        x, half = 1000 * (mark.place - begin), half_bar(mark.bar, room)
        if -half < x < width + half:
            found.append(Line(x, mark.bar, half))
    return found


def kept(strip: Strip) -> list[list[int]]:
    """The tiles of a strip that hold a mark, a bar line, an END or the zero mark, from the sheets' START END.

    Tiles that lie edge to edge make one piece, a list; what lies between two pieces is left out.
    """
    over = strip.tiling
    held = {0, over.tiles - 1}
    if over.start <= 0.0 <= over.end:
        held.add(over.tile_of(0.0))
    rooms = _rooms([(mark.place, mark.place) for mark in strip.marks])
    for mark, room in zip(strip.marks, rooms, strict=True):
        half = 0.0
        if mark.bar is not None:
            reach = half_bar(mark.bar, 1000 * min(room)) * cos(to_radians(mark.bar))
            half = max(0.0, reach - SLIGHT) / 1000
        ends = (over.tile_of(mark.place - half), over.tile_of(mark.place + half))
        held.update((over.tile_of(mark.place), *ends))
    step = -1 if strip.backwards else 1
    pieces: list[list[int]] = []
    for tile in sorted(held, reverse=strip.backwards):
        if pieces and pieces[-1][-1] + step == tile:
            pieces[-1].append(tile)
        else:
            pieces.append([tile])
    return pieces


def _rooms(places: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """What lies free before and after each (first, last): half way to the next, or to the END words."""
    end = BEYOND - END_ROOM
    gaps = [b[0] - a[1] for a, b in pairwise(places)]
    halves = [end, *(gap / 2 for gap in gaps), end]
    return list(pairwise(halves))


def _clear(
    group: Sequence[Mark], room: tuple[float, float], keep_off: Sequence[float]
) -> tuple[float, float]:
    """The room before and after a group, up to the nearest line to keep off."""
    first, last = group[0].place, group[-1].place
    before, after = room
    for place in keep_off:
        if place < first - SAME:
            before = min(before, first - place)
        elif place > last + SAME:
            after = min(after, place - last)
    return before, after


def _label(group: Sequence[Mark], room: tuple[float, float], over: Tiling) -> Label:
    tile = over.tile_of(group[0].place)
    begin = over.start + tile * over.pitch
    first, last = (1000 * (mark.place - begin) for mark in (group[0], group[-1]))
    before = min(1000 * room[0], first - 1.0) - AWAY
    after = min(1000 * room[1], 1000 * over.pitch - last - 1.0) - AWAY
    upper, right = _quarter(group[0].bar, before, after)
    width = max(LEAST, min(WIDE, after if right else before))
    start = last + AWAY if right else first - AWAY - width
    return Label(tile, first, start, upper, width, tuple(group))


def _quarter(bar: float | None, before: float, after: float) -> tuple[bool, bool]:
    """(upper, after the mark): the upper of the two free quarters where it is wide enough."""
    if bar is None or abs(bar) < 0.5:
        return True, after >= min(WIDE, before)
    upper_right = bar < 0
    upper, lower = (after, before) if upper_right else (before, after)
    if upper >= WIDE or upper >= lower:
        return True, upper_right
    return False, not upper_right
