"""Right and wrong hangs, drawn from the geometry of mounts: for a quiz without answers, for a wall with them.

Each panel is one unit solved as the program solves it, seen from its side, or that unit hung another way that
puts its light on the same point (the second of the two ways to hit, or rolled over, or tipped past straight
down). What is right follows from where its clip comes to be.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from aimcalc.geometry.aim import pose
from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, RULE, SMALL, Box, Page, Sheet, Target, write_pages
from aimcalc.rig.solve import Solved
from aimcalc.scene.model import Boom, Kind, Mount, Pipe, Scene, Settings, Stage, Unit
from aimcalc.teach.explain_page import sign_boxes
from aimcalc.text.facts import LONG, SHORT
from aimcalc.text.stamp import PaperOptions

TURNED, ROLLED, PAST = "turned", "rolled", "past"
ACROSS, DOWN = 3, 4  # panels on a page
PER_METRE = 124.0  # pt
NOSE, LENGTH, HALF, DROP = (
    0.34,
    0.60,
    0.11,
    0.36,
)  # m, a round figure of ours, as the generic kinds have
PIPE = 0.024


class Case(NamedTuple):
    """One panel: its title, the mount, where it points (ahead and below its clamp, m), and what was done."""

    title: str
    mount: Mount
    ahead: float
    below: float
    done: str = ""
    frame: bool = False
    why: str = ""


CASES = (
    Case("Under its pipe", "under", 3.0, 2.4, why="clip on top, tail below"),
    Case(
        "Under its pipe",
        "under",
        3.0,
        2.4,
        TURNED,
        why="tipped over backwards: half a turn at the clamp first",
    ),
    Case(
        "Under, at a spot behind it",
        "under",
        -1.4,
        3.0,
        PAST,
        why="tipped past straight down: swing it round to face the spot",
    ),
    Case("Over its pipe", "over", 3.0, 2.0, why="body rolled over in its yoke: clip on top"),
    Case("Over its pipe", "over", 3.0, 2.0, TURNED, why="not rolled over in its yoke"),
    Case("Clamp swung out", "out", 3.2, 2.0, why="swung out, and still clip on top"),
    Case("Clamp swung out", "out", 3.2, 2.0, TURNED, why="half a turn wrong at the clamp"),
    Case("Straight on a boom", "direct", 3.2, 1.6, why="clip on top"),
    Case("Straight on a boom", "direct", 3.2, 1.6, TURNED, why="turned half round at the clamp"),
    Case("Where is the tail?", "under", 3.0, 1.6, ROLLED, why="tail on top: it lies on a hot body"),
    Case("Frame fitted", "under", 3.0, 2.0, frame=True, why="frame in from above, clip shut"),
    Case(
        "Frame fitted",
        "under",
        3.0,
        2.0,
        TURNED,
        frame=True,
        why="its slot opens downwards: the frame falls out",
    ),
)


Spot = tuple[float, float]
View = Callable[[Array], Spot]  # from metres (2,) to the page, pt


class Hang(NamedTuple):
    """One unit as it hangs, seen from its side: points and unit directions (2,), ahead and up, m."""

    clamp: Array
    pivot: Array
    axis: Array
    up: Array
    boom: bool

    @property
    def right(self) -> bool:
        """Whether its clip is on top: in this view a body's own up goes up, or it goes down."""
        return bool(self.up[1] > 0)


def hang_of(case: Case) -> Hang:
    """The unit of a panel: solved, then hung as the panel has it."""
    rig = Solved(_scene(case))
    aims = rig.aims
    turn, yoke = aims.turn.copy(), aims.yoke.copy()
    if case.done in (
        TURNED,
        PAST,
    ):  # past straight down is what becomes of a clamp that is not swung round
        turn, yoke = turn + np.pi, np.pi - yoke
    axis, up = pose(aims.stem, aims.reference, turn, yoke)
    up = -up if case.done == ROLLED else up
    clamp, pivot, axis, up = (_seen(v) for v in (rig.arrays.clamp, aims.pivot, axis, up))
    return Hang(clamp, pivot, axis, up, boom=case.mount == "direct")


def _seen(v: Array) -> Array:
    """Points or directions (3, 1) from the side, (2,): upstage to the page's end, up."""
    return np.array([float(v[1, 0]), float(v[2, 0])])


def _scene(case: Case) -> Scene:
    kind = Kind(
        name="k",
        family="ers",
        field=30.0,
        drop_under=DROP,
        drop_over=DROP,
        nose=NOSE,
        length=LENGTH,
    )
    height = 5.0
    point = (0.0, case.ahead, height - case.below)
    pipes: tuple[Pipe, ...] = (Pipe(name="p", start=(-1.0, 0.0, height), end=(1.0, 0.0, height)),)
    booms: tuple[Boom, ...] = ()
    if case.mount == "direct":
        pipes, booms = (), (Boom(name="p", x=0.0, y=0.0, height=6.0),)
    unit = Unit(
        position="p",
        number="1",
        kind="k",
        at=height if booms else 0.0,
        point=point,
        mount=case.mount,
        swing_out=60.0 if case.mount == "out" else 0.0,
        out_to="US" if case.mount == "out" else None,
        arm_to=0.0 if booms else None,
    )
    return Scene(
        settings=Settings(title="right way up"),
        stage=Stage(),
        pipes=pipes,
        booms=booms,
        stands=(),
        targets=(),
        kinds={"k": kind},
        units=(unit,),
    )


def way_up_sheet(target: Target, options: PaperOptions, seed: int | None = None) -> int:
    """Number of pages, two: the quiz, and the same panels with their answers for the wall.

    `seed` shuffles the panels; without one they stand in the order of the mounts.
    """
    return write_pages(target, way_up_pages(options, seed), options, title="right way up")


def way_up_pages(options: PaperOptions, seed: int | None = None) -> list[Page]:
    """The pages themselves: the quiz, then the wall."""
    cases = list(CASES)
    if seed is not None:
        random.Random(seed).shuffle(cases)
    facts = "right way up"
    return [
        Page(partial(_draw, cases, answers), f"{facts} | {what}", SHORT)
        for answers, what in ((False, "quiz"), (True, "for the wall"))
    ]


HEAD = (
    "The clip is the black block at the nose; the tail comes out at the back. Each light is on its spot. "
    "Which hang right?"
)
CLASS = LONG[-1][1]


def _draw(cases: Sequence[Case], answers: bool, sheet: Sheet) -> None:
    body = sheet.body
    sheet.text(body.left, body.top - 20, "RIGHT WAY UP", 20, bold=True)
    name = "" if answers else "name, group: ______________________________"
    sheet.text(body.right, body.top - 18, name, 11, align="r")
    y = sheet.paragraph(body.left, body.top - 24, HEAD, SMALL, body.width)
    y = sheet.paragraph(body.left, y, CLASS, SMALL, body.width)
    sign_boxes(sheet, y - 2)
    y -= 24
    wide, tall = body.width / ACROSS, (y - body.bottom - 4) / DOWN
    for k, case in enumerate(cases):
        left, top = body.left + (k % ACROSS) * wide, y - 2 - (k // ACROSS) * tall
        box = Box(left, top - tall, left + wide, top).inset(2.0)
        _panel(sheet, box, k + 1, case, answers)


def _panel(sheet: Sheet, box: Box, number: int, case: Case, answers: bool) -> None:
    hang = hang_of(case)
    sheet.box(box, weight=RULE)
    sheet.text(
        box.left + 4, box.top - 13, f"{number}. {case.title}", 11, bold=True, width=box.width - 8
    )
    foot = 40.0
    middle = np.array([(box.left + box.right) / 2, (box.bottom + foot + box.top - 14) / 2])
    centre = (hang.clamp + hang.pivot + hang.pivot + 0.2 * hang.axis) / 3

    def at(point: Array) -> Spot:
        x, y = middle + (point - centre) * PER_METRE
        return float(x), float(y)

    _mount(sheet, box, hang, at)
    _body(sheet, hang, at, frame=case.frame)
    if not answers:
        sheet.text(box.left + 4, box.bottom + 27, "right or wrong?  why?", SMALL)
        for low in (16.0, 5.0):
            sheet.line(box.left + 4, box.bottom + low, box.right - 4, box.bottom + low)
        return
    verdict = "RIGHT" if hang.right else "WRONG"
    sheet.text(box.left + 4, box.bottom + 27, verdict, 13, bold=True)
    sheet.paragraph(box.left + 4, box.bottom + 26, case.why, SMALL, box.width - 8)


def _mount(sheet: Sheet, box: Box, hang: Hang, at: View) -> None:
    """Pipe seen along it, or a boom from its side; the clamp and the yoke down to the pivot."""
    x, y = at(hang.clamp)
    if hang.boom:
        half = PIPE * PER_METRE
        sheet.box(Box(x - half, box.bottom + 42, x + half, box.top - 18), weight=1.6)
    else:
        sheet.circle(x, y, PIPE * PER_METRE, weight=3.0)
    px, py = at(hang.pivot)
    sheet.line(x, y, px, py, weight=3.0)


def _body(sheet: Sheet, hang: Hang, at: View, *, frame: bool) -> None:
    """The body at its pivot, its clip on its own upper side, its tail at the back of its lower side."""

    def of(ahead: float, above: float) -> Spot:
        return at(hang.pivot + ahead * hang.axis + above * hang.up)

    back = NOSE - LENGTH
    outline = [(back, -0.7), (back + 0.08, -1), (0.06, -1), (0.06, -0.7), (NOSE, -0.85)]
    points = [(a, b * HALF) for a, b in outline]
    points += [(a, -b) for a, b in reversed(points)]
    sheet.shape([of(*point) for point in points], weight=1.6, white=True)
    px, py = at(hang.pivot)
    sheet.circle(px, py, 3.0, weight=KEY)
    clip = [
        (NOSE - 0.08, 0.85 * HALF),
        (NOSE, 0.85 * HALF),
        (NOSE, 1.6 * HALF),
        (NOSE - 0.08, 1.6 * HALF),
    ]
    sheet.shape([of(*point) for point in clip], black=True)
    if frame:
        slot = NOSE + 0.03
        low, high = (-0.9, 1.2) if hang.right else (-0.4, 1.9)
        sheet.line(*of(slot, low * HALF), *of(slot, high * HALF), weight=3.5)
    sheet.line(*of(NOSE + 0.05, 0.0), *of(NOSE + 0.18, 0.0), weight=1.2, dash=3)
    start = of(back, -0.6 * HALF)
    sheet.line(*start, start[0], start[1] - 24, weight=2.2)
    sheet.box(Box(start[0] - 3.5, start[1] - 32, start[0] + 3.5, start[1] - 24), black=True)
