"""The rig in one picture, seen from the house: stage, scenery, units in pose, light of some of them.

Lines that something solid hides are left out. Borders, legs, drops and walls would hide the rig and are
drawn as if of glass, dotted.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.geometry.deck import bare_height
from aimcalc.geometry.models import camera, drawn_edges, visible
from aimcalc.geometry.rays import Caster, NoRayEngineError, caster
from aimcalc.geometry.solids import Shape, soup
from aimcalc.geometry.vectors import Array, to_radians
from aimcalc.named import NamedTuple
from aimcalc.paper.drawing import Dash, Drawing, Line, Words, shrink_to_fit
from aimcalc.paper.plancanvas import Canvas
from aimcalc.paper.planpage import Frame, View
from aimcalc.sheets.plans.sectiondraw import paper_mm
from aimcalc.solid.model import light_edges, unit_shapes, where_it_falls
from aimcalc.solid.side_view import chosen
from aimcalc.solid.solids import SOLID, deck_shape
from aimcalc.text import words
from aimcalc.text.facts import revision_words
from aimcalc.text.names import short, short_unit
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


EYE = camera(
    heading=to_radians(-30.0), down=to_radians(28.0)
)  # from the house, SL of the centre line
GLASS = 3.0  # m: a panel that reaches higher than this would hide the rig
STEP = 0.04  # m along a line from one look to the next
DPI = 100
EDGE = 9.0  # mm of white round the page
HEAD = 21.0  # mm for the title
AIR = 0.5  # m round the rig
BIG = 12.0  # pt
TEXT = 10.0  # pt


class Drawn(NamedTuple):
    """Lines of one look, (3, 2, K) metres."""

    lines: Array
    weight: float
    dash: Dash = "solid"


def overview(show: Show, png: BinaryIO, options: PaperOptions) -> None:
    """Write the picture."""
    from aimcalc.paper.drawpng import write_png

    write_png(png, [draw_overview(show.rig, options)], dpi=DPI)


def draw_overview(rig: SolidRig, options: PaperOptions) -> Drawing:
    """The picture as a drawing the size of A3 or tabloid, on its long side."""
    shown = chosen(rig)
    solid, glass = _shapes(rig)
    try:
        ready: Caster | None = caster(soup(solid))
        light = [*where_it_falls(rig, shown), light_edges(rig, shown, EYE)]
    except NoRayEngineError:
        ready, light = None, []
    axes = np.stack((rig.aims.lens[:, shown], rig.arrays.point[:, shown]), axis=1)
    tubes = [thing.ends for thing in rig.solids.obstacles if thing.ends]
    groups = [
        Drawn(_edges(solid), 1.0),
        Drawn(_edges(glass), 0.75, "dotted"),
        Drawn(np.array(tubes, dtype=float).reshape(-1, 2, 3).transpose(2, 1, 0), 2.0),
    ]
    view = _view(groups, options)
    rays = [Drawn(axes, 1.5), *(Drawn(lines, 0.75) for lines in light)]
    inside = Canvas(view)
    for group in [*groups, *rays]:
        _put(inside, _seen(ready, group.lines), group)
    _names(inside, rig)
    return _page(rig, shown, inside, options, hidden=ready is not None)


def _shapes(rig: SolidRig) -> tuple[list[Shape], list[Shape]]:
    """What hides what is behind it, and what is drawn as glass."""
    deck = deck_shape(rig)
    solid: list[Shape] = unit_shapes(rig)
    glass: list[Shape] = []
    if deck is not None:
        solid.append(deck)
    for described, thing in zip(rig.scene.solids, rig.solids.obstacles, strict=False):
        high = described.panel is not None and max(z for _, _, z in described.panel) > GLASS
        (glass if high else solid).append(thing.shape)
    return solid, glass


def _edges(shapes: Sequence[Shape]) -> Array:
    none = np.zeros((3, 2, 0))
    return np.concatenate([none, *(drawn_edges(s, EYE.toward) for s in shapes)], axis=2)


def _seen(ready: Caster | None, lines: Array) -> Array:
    return lines if ready is None else visible(ready, lines, EYE.toward, step=STEP)


def _view(groups: Sequence[Drawn], options: PaperOptions) -> View:
    """The largest picture of everything that stands and hangs."""
    width, height = paper_mm(options)
    frame: Frame = (EDGE, EDGE, width - EDGE, height - EDGE - HEAD)
    corners = np.concatenate([EYE.seen(g.lines.reshape(3, -1)) for g in groups], axis=1)
    low = corners.min(axis=1, initial=np.inf) - AIR if corners.size else np.full(2, -AIR)
    high = corners.max(axis=1, initial=-np.inf) + AIR if corners.size else np.full(2, AIR)
    room = np.array([frame[2] - frame[0], frame[3] - frame[1]])
    scale = float(1000 * ((high - low) / room).max())
    start = (low + high - room * scale / 1000) / 2
    return View(frame, scale, (float(start[0]), float(start[1])))


def _put(inside: Canvas, lines: Array, look: Drawn) -> None:
    """Draw lines; those that leave the frame are cut there."""
    page = inside.view.to_page(EYE.seen(lines.reshape(3, -1)).T).reshape(2, -1, 2)
    left, bottom, right, top = inside.view.frame
    low, high = page.min(axis=0), page.max(axis=0)
    whole = (low >= (left, bottom)).all(axis=1) & (high <= (right, top)).all(axis=1)
    inside.lines += [Line(page[:, k], look.weight, look.dash) for k in np.flatnonzero(whole)]
    for k in np.flatnonzero(~whole).tolist():
        inside.line(EYE.seen(lines[:, :, k]).T, look.weight, look.dash)


def _names(inside: Canvas, rig: SolidRig) -> None:
    """Names of positions at their ends, and the words for the stage's sides, clear of the units."""
    for k in range(len(rig.units)):
        corners = rig.solids.corners[:, k].reshape(3, -1)
        if np.isfinite(corners).all():
            page = inside.view.to_page(EYE.seen(corners).T)
            inside.room.block(*page.min(axis=0).tolist(), *page.max(axis=0).tolist())
    for name, units in rig.rows.items():
        if not units:
            continue
        tubes = (t for t in rig.solids.obstacles if (t.held or (t.name,))[0] == name)
        ends = next((tube.ends for tube in tubes if tube.sort != SOLID), None)
        points = np.array(ends or [rig.arrays.clamp[:, units[0]]] * 2, dtype=float).T
        (x0, y0), (x1, y1) = sorted(inside.view.to_page(EYE.seen(points).T).tolist())
        out = float(np.arctan2(y0 - y1, x0 - x1)) if (x0, y0) != (x1, y1) else 0.0
        inside.label(
            short(rig, name),
            at=[(x0, y0), (x1, y1)],
            clear=1.5,
            toward=[out, out + np.pi],
            size=BIG,
            bold=True,
        )
    _sides(inside, rig)
    inside.place_labels()


def _sides(inside: Canvas, rig: SolidRig) -> None:
    """SL, SR and US beside the deck's outline, DS before it."""
    if not rig.scene.stage.outline:
        return
    plan = np.array(rig.scene.stage.outline).T
    low, high = plan.min(axis=1), plan.max(axis=1)
    middle = (low + high) / 2
    for word, x, y in (
        ("SL", high[0], middle[1]),
        ("SR", low[0], middle[1]),
        ("DS", middle[0], low[1]),
        ("US", middle[0], high[1]),
    ):
        deck = bare_height(rig.deck, np.array([y]))
        spot = EYE.seen(np.array([[x], [y], deck.tolist()]))[:, 0]
        at = inside.view.at(float(spot[0]), float(spot[1]))
        away = spot - EYE.seen(np.append(middle, 0.0)[:, None])[:, 0]
        toward = float(np.arctan2(away[1], away[0]))
        inside.label(word, at=[at], clear=3.0, toward=[toward], size=BIG, bold=True)


def _page(
    rig: SolidRig, shown: np.ndarray, inside: Canvas, options: PaperOptions, *, hidden: bool
) -> Drawing:
    """The title and what the picture shows, over it."""
    width, height = paper_mm(options)
    page = Drawing(width, height, draft=options.draft, over=options.over)
    room = width - 2 * EDGE
    title = "THE RIG, seen from the house"
    page.words.append(Words(EDGE, height - EDGE - 6.0, title, 20, True))
    corner = (width - EDGE, height - EDGE - 6.0)
    page.words.append(Words(*corner, options.stamp.words, TEXT, True, "right"))
    told = [
        f"{rig.scene.settings.title}, {revision_words(rig)}, {words.count(len(rig.units), 'unit')} as aimed. "
        "Not to scale.",
        _light_of(rig, shown)
        if hidden
        else "Hidden lines show: the library embreex is not installed.",
    ]
    for row, text in enumerate(told):
        size = shrink_to_fit(text, TEXT, room)
        page.words.append(Words(EDGE, height - EDGE - 12.0 - 4.6 * row, text, size))
    page.add(inside)
    return page


def _light_of(rig: SolidRig, shown: np.ndarray) -> str:
    names = ", ".join(short_unit(rig, k) for k in shown.tolist())
    return f"Light of {names}: axis thick, edge of the field thin. Dotted: masking and walls, as glass."
