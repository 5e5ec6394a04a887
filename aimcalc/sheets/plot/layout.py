"""How a light plot is laid out: a plan of a known size, blocks of one width beside it or under it."""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.named import NamedTuple
from aimcalc.paper.planpage import Frame
from aimcalc.paper.tiles import Size, across_and_up, best_turned, room_on

PANEL = 112.0  # mm, width of a block
STEP = 5.0  # mm
MOST_COLUMNS = 8


class Layout(NamedTuple):
    """A board's size, mm, the part of it that is the plan's, and the top left corner of each block."""

    size: Size
    plan: Frame
    blocks: list[tuple[float, float]]

    @property
    def area(self) -> float:
        """Of the board, mm2."""
        return self.size[0] * self.size[1]


def best(plan: Size, heights: Sequence[float], sheet: Size) -> tuple[Size, Layout]:
    """The layout that takes the fewest sheets, then the least paper, and its sheet as it lies.

    A board that one sheet holds is made as large as the sheet allows: the plan has the gain. The last block
    is the title, at the foot of its column.
    """
    ways = [_beside(plan, heights, columns, 0.0) for columns in range(1, MOST_COLUMNS + 1)]
    most = max(1, int(max(plan[0], max(sheet)) / PANEL))
    ways += [_under(plan, heights, columns, 0.0, 0.0) for columns in range(1, most + 1)]
    found = [(best_turned(way.size, sheet), way) for way in ways]

    def cost(way: tuple[Size, Layout]) -> tuple[int, bool, float]:
        count = sheets(way[1].size, way[0])
        return count, count == 1 and way[1].plan[1] > 0.0, way[1].area

    lying, chosen = min(found, key=cost)
    if sheets(chosen.size, lying) > 1:
        return lying, chosen
    columns = len({left for left, _ in chosen.blocks})
    room = room_on(lying)
    if chosen.plan[1] == 0.0:
        return lying, _beside((room[0] - columns * PANEL, plan[1]), heights, columns, room[1])
    return lying, _under(plan, heights, columns, *room)


def sheets(board: Size, sheet: Size) -> int:
    """How many sheets a board takes."""
    across, up = across_and_up(board, sheet)
    return across * up


def _beside(plan: Size, heights: Sequence[float], columns: int, least: float) -> Layout:
    """Blocks in columns at the right of the plan, on a board that is at least so high."""
    tall = _least_height(heights, columns, max(plan[1], max(heights), least))
    spots = _packed(heights, tall)
    used = spots[-1][0] + 1
    blocks = [(plan[0] + column * PANEL, tall - down) for column, down in spots]
    blocks[-1] = (blocks[-1][0], heights[-1])
    return Layout((plan[0] + used * PANEL, tall), (0.0, 0.0, plan[0], tall), blocks)


def _under(plan: Size, heights: Sequence[float], columns: int, wide: float, high: float) -> Layout:
    """Blocks in columns under the plan, at the right; the board is at least so wide and so high."""
    tall = _least_height(heights, columns, max(heights))
    spots = _packed(heights, tall)
    used = spots[-1][0] + 1
    across, up = max(plan[0], used * PANEL, wide), max(plan[1] + tall, high)
    blocks = [(across - (used - column) * PANEL, tall - down) for column, down in spots]
    blocks[-1] = (blocks[-1][0], heights[-1])
    return Layout((across, up), (0.0, tall, across, up), blocks)


def _least_height(heights: Sequence[float], columns: int, least: float) -> float:
    """The least height, in steps, at which so many columns hold the blocks in their order."""
    tall = least
    while _packed(heights, tall)[-1][0] >= columns:
        tall += STEP
    return tall


def _packed(heights: Sequence[float], tall: float) -> list[tuple[int, float]]:
    """The column of each block, and how far its top is from the column's, in columns so high."""
    column, down = 0, 0.0
    spots = []
    for height in heights:
        if down and down + height > tall + 1e-6:
            column, down = column + 1, 0.0
        spots.append((column, down))
        down += height
    return spots
