"""What is drawn inside the frame of a pool plan: stage, positions, units, pools, marks and labels."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import chain, count
from string import ascii_lowercase
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

import numpy as np

from aimcalc.geometry.polygon import hull
from aimcalc.geometry.solids import part
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper import marks
from aimcalc.paper.drawing import Line, Shape, Words
from aimcalc.paper.plancanvas import UP_PAGE, Canvas, along
from aimcalc.paper.planpage import View
from aimcalc.rig.places import tubes_of
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.sheets.plans.rims import level_rims
from aimcalc.solid.answers import Answer
from aimcalc.solid.light_fall import light_an_upright, trace
from aimcalc.text import words
from aimcalc.text.names import short, short_number, short_unit
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


TAG = 14.0  # pt, numbers of units
BODY_LENGTH = 0.6  # m, of a unit whose kind gives no length
SYMBOL = (5.5, 11.0)  # mm, shortest and longest symbol
POLE = 1.3  # mm, radius of a boom's ring
ONE_SPOT = 3.0  # mm: units of a boom nearer than this share a tag
ON = 0.85  # mm, half the side of an ON square
ON_UPRIGHT = 1.75  # pt, what a field covers of an upright surface
ASIDE, TICK = 1.2, 0.7  # mm from one such line to the next, and half of the strokes at its ends
THIN = 1.0  # pt, deck and pipes where the light is drawn thick
LONG_PIECE = 9.0  # mm of a piece of light that is labelled
TAGS_APART = 90.0  # mm from label to label on it
UPRIGHT = 1e-3  # of its length: an outline that is no wider in plan runs up a wall
OVERHEAD = 2.0  # m: what is higher all over is on the section, not on plans
NAME_IN, NAME_STEP = 22.0, 8.0  # mm from a pipe's end to where its name may stand beside it, and on
LONGEST_CODE = 8  # letters
BELOW_LEFT, DOWN_PAGE = -np.pi * 3 / 4, -np.pi / 2


class Drawn(NamedTuple):
    """The inside of the frame, and what the page must say about it."""

    lines: list[Line]
    shapes: list[Shape]
    words: list[Words]
    families: Sequence[str]  # of the units shown
    has_points: bool  # whether some unit points where nobody stands
    has_uprights: bool  # whether some axis stops on something upright
    has_traces: bool  # whether what some field covers of that is drawn
    remarks: list[str]
    left_out: list[str]  # labels that found no room
    full_at: int | None  # the unit whose label was the first to find none


def draw_inside(
    rig: SolidRig,
    answers: list[Answer],
    units: list[int],
    view: View,
    options: PaperOptions,
    light: Callable[[Canvas, int], list[Array]] | None = None,
    *,
    or_none: bool = False,
) -> Drawn:
    """Stage, positions and the `units` of one system (indices), as they look in `view`.

    `light` draws a unit's light, thick, and gives back its pieces on paper, (n, 2) each, which are then
    labelled; all else is thin. Without it the pools at the face are drawn. `or_none` gives up, with
    `full_at`, where a unit cannot be told from the others for want of room.
    """
    inside = Canvas(view)
    used = list(dict.fromkeys(answers[k].position for k in units))
    codes = codes_of(rig, units)
    heavy = THIN if light else 2.0
    stage_lines(inside, rig, heavy)
    _scenery(inside, rig, units)
    _positions(inside, rig, used, heavy)
    lit = PlanLight(inside, rig, light)
    for k in units:
        lit.draw(k)
    spots = view.to_page(np.array([answers[k].pivot[:2] for k in units]).reshape(-1, 2))
    for mine in _together(dict(zip(units, spots, strict=True)), rig, answers):
        away = spots[~np.isin(units, mine)]
        _units(inside, rig, answers, mine, away)
    _position_names(inside, rig, used, codes, options)
    stand_marks(inside, rig, [answers[k] for k in units])
    for k in units:
        tag = "" if lit.pieces.get(k) else _tag(rig, k, codes)
        lit.cut |= _landing(inside, rig, answers[k], k, tag, lit.beside.get(k))
    for k in units:  # when all lines are drawn
        lit.name(k, _tag(rig, k, codes))
    inside.place_labels(or_none=or_none)
    families = list(dict.fromkeys(rig.kinds[k].family for k in units))
    goes_on = ["Arrow: goes on, off the page or the deck."] if lit.cut else []
    return Drawn(
        inside.lines,
        inside.shapes,
        inside.words,
        families,
        any(answers[k].stand is None for k in units),
        bool(rig.meets.upright[np.array(units, dtype=np.intp)].any()),
        bool(lit.beside),
        goes_on + _lost(rig, answers, units),
        inside.left_out,
        inside.full_at,
    )


def codes_of(rig: SolidRig, units: Sequence[int]) -> dict[str, str]:
    """The short codes of the positions of some units; none where there is only one.

    A code is one position's on every page.
    """
    used = {rig.units[k].position for k in units}
    every = position_codes([name for name, rows in rig.rows.items() if rows])
    return {name: code for name, code in every.items() if name in used} if len(used) > 1 else {}


class PlanLight:
    """Draws units' light on a plan; remembers how far off its surface each trace lies, and cuts."""

    def __init__(
        self, inside: Canvas, rig: SolidRig, light: Callable[[Canvas, int], list[Array]] | None
    ) -> None:
        self.inside, self.rig, self.light = inside, rig, light
        self._upright = light_an_upright(rig)
        self.cut = False  # whether some light goes on beyond the frame or the deck
        self.beside: dict[
            int, Array
        ] = {}  # mm on paper from a surface to the trace that lies beside it
        self._on: dict[int, int] = {}  # traces drawn beside each surface
        self.pieces: dict[int, list[Array]] = {}  # of a unit's light, on paper

    def draw(self, k: int) -> None:
        if self.light is not None:
            self.pieces[k] = self.light(self.inside, k)
        elif self._upright[k]:
            self._trace(k)
        else:
            self._pools(k)

    def name(self, k: int, tag: str) -> None:
        """Set a unit's tag on every piece of its light that is long enough, on its longest in any case."""
        pieces = sorted(self.pieces.get(k, []), key=lambda piece: -along(piece)[-1])
        for n, piece in enumerate(pieces):
            if n and along(piece)[-1] < LONG_PIECE:
                break
            if not self.inside.on_line(piece, tag, apart=TAGS_APART, bold=True):
                x, y = piece[len(piece) // 2].tolist()
                self.inside.label(tag, at=[(x, y)], clear=0.6, bold=True, unit=k)

    def _trace(self, k: int) -> None:
        """What a field covers of something upright: thick, along it on the side of the light.

        Where several light one surface each has a line of its own, further off than the last.
        """
        met, view = self.rig.meets, self.inside.view
        surface = int(met.surface[k])
        plan = trace(self.rig, k).T
        flat = runs_up(plan)
        off = np.zeros(2)
        if flat:
            count = self._on[surface] = self._on.get(surface, 0) + 1
            ahead = met.normal[:2, k] / max(float(np.hypot(*met.normal[:2, k])), 1e-9)
            off = ahead * count * ASIDE
            places = plan @ run_of(plan)
            plan = plan[[places.argmin(), places.argmax()]]
        self.beside[k] = off
        shifted = plan + off * view.scale / 1000
        line = shifted if flat else np.concatenate([shifted, shifted[:1]])
        for run in self.inside.line(line, ON_UPRIGHT):
            self.cut |= run.cut_start or run.cut_end
            if flat:
                for end in run.points[[0, -1]]:
                    tick = ahead * TICK
                    self.inside.lines.append(Line(np.array([end - tick, end + tick]), 1.0))

    def _pools(self, k: int) -> None:
        """Field solid and beam dashed, on the level plane at the face; where cut, arrow heads."""
        for pool in level_rims(self.rig, k):
            for run in self.inside.line(pool.rim, pool.weight, pool.dash):
                for start, cut in ((True, run.cut_start), (False, run.cut_end)):
                    if cut:
                        self.cut = True
                        self.inside.arrow(run, start=start)


def _tag(rig: SolidRig, k: int, codes: dict[str, str]) -> str:
    """What a LANDS dot is called: the unit's number, with its position where there are several."""
    number = short_number(rig, k)
    return f"{codes[rig.units[k].position]}/{number}" if codes else number


def position_codes(names: list[str]) -> dict[str, str]:
    """Short codes for positions: first letters and figures, "LX 1" LX1, "House pipe" HP; all unlike."""
    codes: dict[str, str] = {}
    taken: set[str] = set()  # in small letters: HPa and HPA are too much alike
    for name in names:
        code = _initials(name)
        lettered = (f"{code}{end}" for end in ("", *ascii_lowercase))
        tries = chain(lettered, map("P{}".format, count(1)))
        code = next(one for one in tries if one.lower() not in taken)
        taken.add(code.lower())
        codes[name] = code
    return codes


def _initials(name: str) -> str:
    parts = name.replace("-", " ").split()
    short = [p if len(p) <= 2 or p.isdigit() or p in words.SIDES else p[0] for p in parts]
    return shorten("".join(short).upper() if len(parts) > 1 else name, LONGEST_CODE)


def stage_lines(inside: Canvas, rig: SolidRig, heavy: float = 2.0) -> None:
    """Deck outline (`heavy` pt), acting area, platforms, boxes; what hangs belongs on the section."""
    stage = rig.scene.stage
    if stage.outline:
        inside.key_line(np.array([*stage.outline, stage.outline[0]]), heavy)
    if stage.acting and stage.acting != stage.outline:
        inside.outline(np.array(stage.acting), 0.75, "dotted")
    for solid in rig.scene.solids:
        if solid.box:
            x0, y0, _, x1, y1, _ = solid.box
            inside.outline(np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)]), 0.75)
        elif solid.panel and solid.stand_on:
            inside.outline(np.array([corner[:2] for corner in solid.panel]), 0.75)


class FromAbove(NamedTuple):
    """A solid as a plan shows it: its outline (n, 2), the middle of its corners, and how low it comes."""

    outline: Array
    middle: tuple[float, float]
    low: float


_above: WeakKeyDictionary[SolidRig, list[FromAbove]] = WeakKeyDictionary()


def seen_from_above(rig: SolidRig) -> list[FromAbove]:
    """Every solid of the scene from above, metres; they are made once a rig, for all its pages."""
    if rig not in _above:
        owners = range(len(rig.scene.solids))
        _above[rig] = [_from_above(part(rig.scenery, n).vertices) for n in owners]
    return _above[rig]


def _from_above(corners: Array) -> FromAbove:
    x, y = corners[:2].mean(axis=1).tolist() if corners.size else (0.0, 0.0)
    return FromAbove(hull(corners[:2]).T, (x, y), float(corners[2].min(initial=np.inf)))


def _scenery(inside: Canvas, rig: SolidRig, units: Sequence[int]) -> None:
    """What stands on the deck, or stops an axis of these units, as thin outlines; names of the latter."""
    met = rig.meets
    lit = {int(met.surface[k]) for k in units if met.upright[k]}
    for n, (solid, (plan, middle, low)) in enumerate(
        zip(rig.scene.solids, seen_from_above(rig), strict=True)
    ):
        if n not in lit and (solid.box or solid.stand_on or low > OVERHEAD):
            continue
        if not solid.box:
            inside.outline(plan, 0.75)
        if n in lit and solid.box:
            at = [inside.view.at(*middle)]
            inside.label(short(rig, solid.name), at=at, clear=0.8)
        elif n in lit:
            ends = plan[[plan[:, 0].argmin(), plan[:, 0].argmax()]]
            at = [inside.view.at(*end) for end in ends.tolist() if inside.view.holds(*end)]
            if at:
                name = short(rig, solid.name)
                inside.label(name, at=at, clear=0.8, toward=[np.pi, 0.0][-len(at) :])


def _positions(inside: Canvas, rig: SolidRig, used: list[str], heavy: float) -> None:
    for name, position in rig.scene.positions.items():
        weight = heavy if name in used else 0.75
        if isinstance(position, Pipe):
            draw = inside.key_line if name in used else inside.line
            for _, line in tubes_of(position):
                draw(line[:2].T, weight)
        elif inside.view.holds(position.x, position.y):
            x, y = inside.view.at(position.x, position.y)
            inside.shapes.append(Shape(marks.circle(x, y, POLE), weight))
            inside.block(x, y, POLE)


def _together(spots: dict[int, Array], rig: SolidRig, answers: list[Answer]) -> list[list[int]]:
    """The units in groups that share a tag: those over one another on a boom or stand, top one first.

    `spots` (2,) mm is where on paper each unit is.
    """
    groups: list[list[int]] = []
    for k in sorted(spots, key=lambda k: (-answers[k].pivot[2], k)):
        pipe = isinstance(rig.scene.positions[answers[k].position], Pipe)
        near = [
            mine
            for mine in groups
            if not pipe
            and answers[mine[0]].position == answers[k].position
            and np.hypot(*(spots[mine[0]] - spots[k])) < ONE_SPOT
        ]
        if near:
            near[0].append(k)
        else:
            groups.append([k])
    return sorted(groups, key=min)


def _units(
    inside: Canvas, rig: SolidRig, answers: list[Answer], mine: list[int], others: Array
) -> None:
    """Symbols where the units are, the top one on top, and a tag that seems none of the `others`'."""
    length = 0.0
    for k in reversed(mine):
        kind = rig.kinds[k]
        scaled = (kind.length or BODY_LENGTH) * 1000 / inside.view.scale
        length = min(max(scaled, SYMBOL[0]), SYMBOL[1])
        spot = inside.view.at(*answers[k].pivot[:2])
        symbol = marks.unit_symbol(kind.family, *spot, answers[k].heading, length)
        inside.shapes.append(Shape(symbol.outline, 1.0))
        inside.shapes += [Shape(stroke, 0.75, "none") for stroke in symbol.strokes]
        inside.room.block(*symbol.outline.min(axis=0), *symbol.outline.max(axis=0))
    behind = to_radians(270.0 - (answers[mine[0]].heading or 0.0))
    inside.label(
        ", ".join(short_number(rig, k) for k in mine),
        at=[spot],
        clear=0.5 * length,
        toward=[behind],
        size=TAG,
        bold=True,
        rivals=others,
        unit=mine[0],
    )


def stand_marks(inside: Canvas, rig: SolidRig, here: list[Answer]) -> None:
    """A cross for each place where somebody stands, with the target's name; once for each place."""
    done: set[tuple[float, float, str | None]] = set()
    for a in here:
        x, y = a.face[:2]
        spot = (round(x, 3), round(y, 3), a.target)
        if spot in done or not inside.view.holds(x, y):
            continue
        done.add(spot)
        at = inside.view.at(x, y)
        if a.stand is not None:
            inside.lines += [Line(stroke, 1.5) for stroke in marks.cross(*at)]
        else:
            inside.shapes.append(Shape(marks.circle(*at, marks.DOT), 1.0))
        inside.block(*at, marks.CROSS)
        if a.target:
            name = short(rig, a.target)
            inside.label(name, at=[at], clear=marks.CROSS + 0.4, toward=[BELOW_LEFT])


def _landing(
    inside: Canvas, rig: SolidRig, a: Answer, k: int, tag: str, beside: Array | None
) -> bool:
    """The mark where the axis stops, joined to that of its point: LANDS a dot, ON a square.

    An arrow where that lies outside the frame, or where the light goes off the deck and nothing stops it;
    whether there is one comes back. `tag` is empty where the unit's light bears it, `beside` (mm) how far
    the unit's trace lies off what it is on.
    """
    stop = a.meets.point if a.meets else a.lands
    if stop is None:
        if inside.view.holds(*a.face[:2]):
            at = inside.view.at(*a.face[:2])
            if tag:
                inside.label(tag, at=[at], clear=marks.CROSS + 0.4, bold=True, unit=k)
        return False
    off = np.zeros(2) if beside is None else beside * inside.view.scale / 1000
    away = np.array([a.face[:2], stop[:2]])
    away[1] += off
    onward = float(np.arctan2(*(away[1] - away[0])[::-1]))
    runs = inside.line(away, 0.75)
    if inside.view.holds(*away[1]) and a.meets:
        at = inside.view.at(*away[1])
        upright = bool(rig.meets.upright[k])
        mark = marks.square(*at, ON) if upright else marks.circle(*at, marks.DOT)
        inside.shapes.append(Shape(mark, 0.75, "black"))
        inside.block(*at, marks.DOT)
        if tag:
            inside.label(tag, at=[at], clear=marks.DOT + 0.5, toward=[onward], bold=True, unit=k)
        return False
    if runs:
        at = inside.arrow(runs[-1], start=False)
        x, y = runs[-1].points[[0, -1]].mean(axis=0).tolist()
        ways = [onward, onward + np.pi / 2]
        if tag:
            inside.label(tag, at=[at, (x, y)], clear=marks.DOT, toward=ways, bold=True, unit=k)
    return bool(runs)


def _position_names(
    inside: Canvas, rig: SolidRig, used: list[str], codes: dict[str, str], options: PaperOptions
) -> None:
    """Names by their positions, booms and stands first: a pipe has more places."""
    positions = rig.scene.positions
    for name in sorted(used, key=lambda name: isinstance(positions[name], Pipe)):
        position = positions[name]
        others = [p for p in rig.scene.pipes if p.name not in used]
        ends = np.array([(p.start[:2], p.end[:2]) for p in others]).reshape(-1, 2, 2)
        code = f" ({codes[name]})" if codes.get(name, name) != name else ""
        rows = [f"{short(rig, name)}{code}", _height(position, options)]
        at, toward = _name_spots(inside, position)
        strange = inside.view.to_page(ends)
        inside.label(
            *[r for r in rows if r],
            at=at,
            clear=POLE + 0.3,
            toward=toward,
            bold=True,
            strange=strange,
        )


def _name_spots(
    inside: Canvas, position: Position
) -> tuple[list[tuple[float, float]], list[float]]:
    """Marks a position's name may stand by, and on which side.

    Of a pipe: beyond its ends, then beside it from its ends inwards.
    """
    if not isinstance(position, Pipe):
        out = 0.0 if position.x > 0 else np.pi
        return [inside.view.at(position.x, position.y)] * 4, [out, DOWN_PAGE, UP_PAGE, np.pi - out]
    frame = inside.view.frame
    plan = inside.view.to_page(np.array([position.start[:2], position.end[:2]]))
    runs = marks.inside(plan, frame)
    ends = runs[0].points[[0, -1]] if runs else np.clip(plan, frame[:2], frame[2:])
    ends = ends[np.argsort(ends[:, 0], kind="stable")]
    if position.through is not None:
        return _along_arc(inside, position)
    (x0, y0), (x1, y1) = ends.tolist()
    outwards = float(np.arctan2(y0 - y1, x0 - x1))
    spots, ways = [(x0, y0), (x1, y1)], [outwards, outwards + np.pi]
    along = np.array([x1 - x0, y1 - y0]) / max(float(np.hypot(x1 - x0, y1 - y0)), 1e-9)
    for inwards in np.arange(NAME_IN, np.hypot(x1 - x0, y1 - y0) - NAME_IN, NAME_STEP):
        for x, y in (ends[0] + inwards * along, ends[1] - inwards * along):
            spots += [(float(x), float(y))] * 2
            ways += [UP_PAGE, DOWN_PAGE]
    return spots, ways


def _along_arc(inside: Canvas, pipe: Pipe) -> tuple[list[tuple[float, float]], list[float]]:
    """Marks beside a curved pipe from its middle outwards: on the outside of its bend, then inside."""
    _, line = tubes_of(pipe)[0]
    plan = inside.view.to_page(line[:2].T)
    order = sorted(range(1, len(plan) - 1), key=lambda k: abs(k - len(plan) / 2))
    middle = (plan[0] + plan[-1]) / 2
    spots, ways = [], []
    for k in order:
        x, y = plan[k].tolist()
        out = float(np.arctan2(*(plan[k] - middle)[::-1]))
        spots += [(x, y)] * 2
        ways += [out, out + np.pi]
    return spots, ways


def _height(position: Position, options: PaperOptions) -> str:
    """Trim of a pipe and whether somebody measured it; a boom's height stands on its side view."""
    if isinstance(position, Stand | Boom):
        return ""
    ends = [
        words.length(z, options.length, words.HANG) for z in (position.start[2], position.end[2])
    ]
    trim = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    return f"trim {trim} {'measured' if position.measured else 'plotted'}"


def _lost(rig: SolidRig, answers: list[Answer], units: list[int]) -> list[str]:
    lost = [short_unit(rig, k) for k in units if answers[k].yoke is None]
    return [f"No aim, so no pool: {words.some(lost)}."] if lost else []


def runs_up(line: Array) -> bool:
    """Whether plan points (n, 2) lie on one straight line, as those on an upright surface do."""
    off = line - line.mean(axis=0)
    way = run_of(line)
    across = np.abs(off @ np.array([-way[1], way[0]])).max()
    return bool(across <= UPRIGHT * np.abs(off @ way).max())


def run_of(line: Array) -> Array:
    """The unit direction in which points (n, 2) spread most: the axis of their second moments."""
    x, y = (line - line.mean(axis=0)).T
    turn = np.arctan2(2 * (x @ y), x @ x - y @ y) / 2
    return np.array([np.cos(turn), np.sin(turn)])
