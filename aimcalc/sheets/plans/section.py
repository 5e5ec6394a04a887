"""The section: the rig from the side, to scale, at the centre line and through units asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.geometry.vectors import Array, to_degrees
from aimcalc.paper.drawing import Drawing, Words
from aimcalc.paper.drawpdf import write_drawings
from aimcalc.paper.plancanvas import Canvas
from aimcalc.paper.planpage import Axes, Notes, View, new_page
from aimcalc.rig.places import tubes_of
from aimcalc.sheets.plans import sectiondraw as draw
from aimcalc.sheets.plans.sectiondraw import (
    BAND,
    FOOT,
    Place,
    distances,
    heights,
    paper_mm,
    view_of,
    write_rows,
)
from aimcalc.solid.side_view import Beams, Plane, beams, centre_plane, chosen, plane_of
from aimcalc.text import words as w
from aimcalc.text.facts import drop_and_face, revision_words, trim_words
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


HEADERS = (
    "unit",
    "kind",
    "field",
    "pivot",
    "square",
    "pan",
    "tip",
    "plumb",
    "throw",
    "field edges",
    "aimed at",
)


def rows_of(rig: SolidRig, shown: Beams, length: w.LengthUnit) -> list[list[str]]:
    """The header and a row for each unit shown: what it is, how it is set, how far its light goes."""
    answers = rig.answers
    rows = [list(HEADERS)]
    for row, k in enumerate(shown.unit.tolist()):
        a, unit = answers[k], rig.units[k]
        tip = w.tip(a.down or 0.0)
        rows.append(
            [
                a.unit,
                a.kind,
                _field(rig, k),
                w.length(a.pivot[2], length, w.HANG),
                a.square or "",
                w.turn(a.pan, a.swing),
                f"{tip.word} {tip.angle}".rstrip(),
                tip.plumb,
                w.length(a.throw or 0.0, length, w.SIZE),
                _edges(rig, shown, row),
                unit.target or "a point",
            ]
        )
    return rows


def _field(rig: SolidRig, k: int) -> str:
    """The field's full angle, both of an oval's."""
    oval = rig.kinds[k].oval or (float(to_degrees(rig.arrays.field[k])),)
    return " x ".join(w.angle(full) for full in oval)


def _edges(rig: SolidRig, shown: Beams, row: int) -> str:
    """The field's two edges as angles from level, the lower first: "DOWN 41° to DOWN 15°"."""
    axis = rig.aims.axis[:, shown.unit[row]]
    told = [
        _edge(axis, end[:, row] - rig.aims.lens[:, shown.unit[row]])
        for end in (shown.lower, shown.upper)
    ]
    return " to ".join(told)


def _edge(axis: Array, way: Array) -> str:
    """An edge's tip; one that has gone past straight down or up says so, as it then points the other way."""
    tip = w.tip(float(to_degrees(np.arctan2(-way[2], np.hypot(way[0], way[1])))))
    past = " past plumb" if axis[:2] @ way[:2] < 0 else ""
    return f"{tip.word} {tip.angle}".rstrip() + past


PLASTER = Axes("", "", "", "", ("PL", "US", "DS"), ("deck", "", "below"))
LONGEST_TITLE = 60  # letters
LINES = (
    "Thick: axis; dashed: on to what stops it. Thin: field edges. Dotted: faces, eyes, plumb. "
    "Chain: what the front row sees past what hangs."
)


def section(show: Show, pdf: BinaryIO, options: PaperOptions) -> int:
    """Number of pages of the section: the centre line, then a page for each unit that was asked for."""
    rig = show.rig
    return write_drawings(rig, "section", draw_sections(rig, options), options, pdf)


def draw_sections(rig: SolidRig, options: PaperOptions) -> list[Drawing]:
    """One drawing for the centre line, one for each unit of `options.section`, A3 or tabloid, lying."""
    asked = [rig.names.index(name) for name in options.section]
    count = 1 + len(asked)
    pages = [_centre(rig, options, options.numbered(1, count))]
    for number, k in enumerate(asked, 2):
        pages.append(_through(rig, k, options, options.numbered(number, count)))
    return pages


def _centre(rig: SolidRig, options: PaperOptions, number: str) -> Drawing:
    plane, shown = centre_plane(), beams(rig, chosen(rig))
    rows = rows_of(rig, shown, options.length)
    view = view_of(_points(rig, plane, shown), _eyes(rig, plane), options, len(rows))
    inside = Canvas(view)
    draw.deck(inside, rig, plane)
    pipes = draw.pipes(inside, rig, plane, shown)
    draw.units(inside, rig, plane, shown, options.length)
    hanging = draw.scenery(inside, rig, plane)
    draw.faces(inside, rig, plane, options.length)
    draw.audience(inside, rig, plane, hanging, options.length)
    seen = "Seen from SL. Beams are drawn as they look from there; every angle is the unit's own."
    heading = "SECTION at the centre line"
    page = _page(rig, shown, inside, options, Notes(heading, "", [seen], LINES, number), PLASTER)
    unit = options.length
    ups = [Place(float(p[2]), f"{name} {_trim(rig, name, unit)}") for name, p in pipes]
    ups += [Place(h.low, f"{h.name} {w.length(h.low, unit, w.HANG)}") for h in hanging]
    outs = [Place(float(p[1]), w.upstage(float(p[1]), unit, w.HANG)) for _, p in pipes]
    outs += [Place(h.far, w.upstage(h.far, unit, w.HANG)) for h in hanging]
    _finish(page, view, ups, outs, rows, ("DS", "US"))
    return page


def _trim(rig: SolidRig, name: str, unit: w.LengthUnit) -> str:
    return trim_words(rig.scene.positions[name], unit, word="")


def _through(rig: SolidRig, k: int, options: PaperOptions, number: str) -> Drawing:
    """The upright plane of one unit's axis, with everything that its angle was worked out from."""
    plane, shown = plane_of(rig, k), beams(rig, np.array([k]))
    rows = rows_of(rig, shown, options.length)
    view = view_of(_near(rig, plane, shown), _eyes(rig, plane), options, len(rows))
    inside = Canvas(view)
    draw.deck(inside, rig, plane)
    draw.units(inside, rig, plane, shown, options.length)
    hanging = draw.scenery(inside, rig, plane)
    draw.faces(inside, rig, plane, options.length)
    draw.audience(inside, rig, plane, hanging, options.length)
    seen = "Cut upright along the beam. Distances are from under the pivot."
    heading = f"SECTION through unit {rig.names[k]}"
    axes = PLASTER._replace(across=("pivot", "", ""))
    page = _page(rig, shown, inside, options, Notes(heading, "", [seen], LINES, number), axes)
    unit = options.length
    ups, outs = _unit_places(rig, plane, shown, unit)
    ups += [Place(h.low, f"{h.name} {w.length(h.low, unit, w.HANG)}") for h in hanging]
    right = float(to_degrees(np.arctan2(plane.along[0], plane.along[1])))
    _finish(page, view, ups, outs, rows, (w.heading(right + 180), w.heading(right)))
    return page


def _unit_places(
    rig: SolidRig, plane: Plane, shown: Beams, unit: w.LengthUnit
) -> tuple[list[Place], list[Place]]:
    """Heights and distances of one unit's clamp, pivot, lens, face, STAND and of where its light falls."""
    k = int(shown.unit[0])
    points = [
        ("clamp", rig.arrays.clamp[:, k], w.HANG),
        ("pivot", rig.aims.pivot[:, k], w.HANG),
        ("lens", rig.aims.lens[:, k], w.SIZE),
        (
            "face" if np.isfinite(rig.arrays.stand[0, k]) else "point",
            rig.arrays.point[:, k],
            w.SIZE,
        ),
    ]
    falls = zip(("axis falls", "high edge", "low edge"), shown[1:4], shown.fell, strict=True)
    points += [(name, end[:, 0], w.DECK) for name, end, fell in falls if fell[0]]
    ups, outs = [], []
    for name, point, step in points:
        far, z = plane.seen(point).tolist()
        ups.append(Place(z, f"{name} {_up(z, unit, step)}"))
        if name not in ("clamp", "pivot"):
            outs.append(Place(far, f"{name} {w.length(far, unit, step)}"))
    return ups, outs


def _up(z: float, unit: w.LengthUnit, step: w.Step) -> str:
    if w.rounded(z, unit, step) == 0:
        return "at deck level"
    return f"{w.length(z, unit, step)}{' below the deck' if z < 0 else ''}"


def _points(rig: SolidRig, plane: Plane, shown: Beams) -> np.ndarray:
    """What must be seen from the side: pipes, stage, the units shown and their faces, (2, N)."""
    points = [line for p in rig.scene.pipes for _, line in tubes_of(p)]
    points += [rig.aims.pivot[:, shown.unit], rig.arrays.point[:, shown.unit]]
    outline = np.array(rig.scene.stage.outline or ((0.0, -1.0), (0.0, 1.0))).T
    points.append(np.concatenate((outline, np.zeros((1, outline.shape[1])))))
    return plane.seen(np.concatenate(points, axis=1))


def _near(rig: SolidRig, plane: Plane, shown: Beams) -> np.ndarray:
    """What must be seen of one unit: from its clamp to where its light falls, if that is not far off."""
    k = int(shown.unit[0])
    reach = 2.0 * float(rig.aims.throw[k])
    ends = [end for end, fell in zip(shown[1:4], shown.fell, strict=True) if fell[0]]
    core = np.stack((rig.arrays.clamp[:, k], rig.arrays.point[:, k], rig.aims.pivot[:, k]), axis=1)
    floor = core * np.array([[1.0], [1.0], [0.0]])
    near = [e for e in ends if np.linalg.norm(e[:, 0] - rig.aims.lens[:, k]) <= reach]
    return plane.seen(np.concatenate((core, floor, *near), axis=1))


def _eyes(rig: SolidRig, plane: Plane) -> np.ndarray:
    """The corners of the audience at eye height, which would be good to see, (2, N)."""
    eyes = [(*corner, block.eye) for block in rig.scene.seats for corner in block.outline]
    return plane.seen(np.array(eyes, dtype=float).reshape(-1, 3).T)


def _page(
    rig: SolidRig, shown: Beams, inside: Canvas, options: PaperOptions, notes: Notes, axes: Axes
) -> Drawing:
    """The page with everything inside its frame drawn; `notes` gets what every page tells."""
    inside.place_labels()
    used = drop_and_face(rig, shown.unit.tolist(), options.length)
    left_out = f" No room for {w.some(inside.left_out)}." if inside.left_out else ""
    notes = notes._replace(
        title=f"{shorten(rig.scene.settings.title, LONGEST_TITLE, keep_end=True)}: section",
        facts=[", ".join([revision_words(rig), *used]), *notes.facts],
        foot=notes.foot + left_out,
    )
    page = new_page(options, *paper_mm(options), inside.view, notes, axes)
    page.add(inside)
    return page


def _finish(
    page: Drawing,
    view: View,
    ups: list[Place],
    outs: list[Place],
    rows: list[list[str]],
    sides: tuple[str, str],
) -> None:
    """What stands round the drawing: heights, distances, its two sides, the units' figures."""
    left, bottom, right, top = view.frame
    page.words.append(Words(left, top + 1.6, sides[0], 12, True))
    page.words.append(Words(right, top + 1.6, sides[1], 12, True, "right"))
    heights(page, view, ups, BAND)
    distances(page, view, outs, bottom - 6.0, FOOT)
    write_rows(page, rows, left, bottom - 6.0 - FOOT)
