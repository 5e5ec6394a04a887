"""The cards' small drawings as strokes and words, which the page on the phone draws in its own look."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin
from typing import TYPE_CHECKING, Any

from aimcalc.paper.page import THIN, Align, Box, Sheet
from aimcalc.paper.stance import draw_plan, draw_side, turned
from aimcalc.scene.model import Pipe
from aimcalc.text.rows import STOP, Row
from aimcalc.text.typeset import BOLD, REGULAR, text_width

if TYPE_CHECKING:
    from aimcalc.paper.stance import Stance
    from aimcalc.solid.rig import SolidRig

PLAN, SIDE = Box(0.0, 0.0, 96.0, 72.0), Box(0.0, 0.0, 96.0, 64.0)
ROUND = 20  # corners of a circle
OVER = 13.0  # pt over and under what is drawn, for words that stand out of the box


class Picture(Sheet):
    """A sheet that keeps what is drawn on it: strokes and words in points, y downwards from `body.top`."""

    def __init__(self, body: Box) -> None:
        super().__init__(None, body)
        self.strokes: list[list[Any]] = []
        self.words: list[list[Any]] = []

    @property
    def drawn(self) -> dict[str, Any]:
        """For the page: size, then [path, weight, fill, dash] and [x, y, size, align, white, words] each."""
        size = [round(self.body.width), round(self.body.height + 2 * OVER)]
        return {"s": size, "p": self.strokes, "t": self.words}

    def text(
        self,
        x: float,
        y: float,
        words: str,
        size: float,
        *,
        bold: bool = False,
        align: Align = "l",
        width: float | None = None,
        white: bool = False,
    ) -> float:
        """Keep one line of words."""
        if words:
            self.words.append([*self._at(x, y), round(size), align, int(white), words])
        return text_width(words, BOLD if bold else REGULAR, size)

    def line(
        self, x0: float, y0: float, x1: float, y1: float, *, weight: float = THIN, dash: float = 0
    ) -> None:
        """Keep a straight line."""
        self._keep([(x0, y0), (x1, y1)], weight, "", dash)

    def curve(self, points: Sequence[tuple[float, float]], *, weight: float = THIN) -> None:
        """Keep a curve through a start, two guides and an end."""
        (x, y), *rest = (self._at(*point) for point in points)
        path = f"M{x} {y}C" + " ".join(f"{x} {y}" for x, y in rest)
        self.strokes.append([path, round(weight, 1), "", 0])

    def box(self, box: Box, *, weight: float = THIN, black: bool = False) -> None:
        """Keep a box."""
        left, bottom, right, top = box
        corners = ((left, bottom), (right, bottom), (right, top), (left, top))
        self.shape(corners, weight=weight, black=black)

    def shape(
        self,
        points: Sequence[tuple[float, float]],
        *,
        weight: float = THIN,
        black: bool = False,
        white: bool = False,
    ) -> None:
        """Keep a closed outline."""
        self._keep([*points, points[0]], weight, "b" if black else "w" if white else "", 0)

    def circle(self, x: float, y: float, radius: float, *, weight: float = THIN) -> None:
        """Keep a circle."""
        turns = [2 * pi * k / ROUND for k in range(ROUND + 1)]
        round_ = [(x + radius * sin(t), y + radius * cos(t)) for t in turns]
        self._keep(round_, weight, "", 0)

    def _keep(
        self, points: Sequence[tuple[float, float]], weight: float, fill: str, dash: float
    ) -> None:
        path = "M" + "L".join("{} {}".format(*self._at(*point)) for point in points)
        self.strokes.append([path, round(weight, 1), fill, round(dash)])

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return round(x, 1) + 0.0, round(self.body.top + OVER - y, 1) + 0.0


def pictures(rig: SolidRig, row: Row, stance: Stance) -> dict[str, Any]:
    """A unit from above, turned to how its hanger stands, and from its side; nothing of what has no aim."""
    k = row.k
    answer, position, leaning = rig.answers[k], rig.positions[k], bool(row.clamp)
    found: dict[str, Any] = {}
    way = turned(answer, position, leaning, row.base)
    if way and row.turn != STOP:
        plan = Picture(PLAN)
        on_pipe = isinstance(position, Pipe)
        draw_plan(plan, plan.body, way, on_pipe=on_pipe, reader=stance.facing)
        found["plan"] = plan.drawn
    if row.tip.word != STOP and answer.down is not None:
        side = Picture(SIDE)
        draw_side(side, side.body, answer, row.clip)
        found["side"] = side.drawn
    return found
