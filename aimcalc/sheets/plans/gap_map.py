"""The gap map: where each system's light is thin at the face, how thin, and which unit could fill it.

A page a system, "all" last. It draws what the survey of the rig's light found; the only thing worked out
here is where on the paper it goes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from aimcalc.coverage.systems import ALL
from aimcalc.geometry.vectors import Array, heading_degrees, to_degrees
from aimcalc.paper.drawing import PT, Drawing, Words, shrink_to_fit, wrapped
from aimcalc.paper.drawpdf import Book, write_drawings
from aimcalc.paper.planpage import (
    EDGE,
    Frame,
    Notes,
    View,
    fit_view,
    footer_row,
    frame_of,
    from_above,
    new_page,
    paper_mm,
)
from aimcalc.sheets.plans.gapdraw import draw_light, legend
from aimcalc.text import words as w
from aimcalc.text.light import cover_lists as lw
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.coverage.survey import Survey
    from aimcalc.coverage.systems import SystemLight
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


TYPE = 14.0  # pt
LEAST_TYPE = 11.0  # pt, of a table of many holes
STEP = TYPE * PT * 1.22  # mm from line to line
BETWEEN = 1.4  # mm between holes
INSET = 6.0  # mm, of the second line
BORDER = 0.03  # white round the stage, of its size
BESIDE = 0.12  # white round the area, of its size: room for what is said of holes
NEARLY = 1.2  # how much smaller a drawing may be to show the whole stage
MOST_MAP = 0.62  # of the height that map and table share
RULER_FOOT = 14.0  # mm under the frame for its figures and a stage word


def gap_map(
    show: Show,
    pdf: BinaryIO | Book,
    png: BinaryIO | None,
    options: PaperOptions,
) -> int:
    """Number of pages of the gap map: a page a system in `pdf`, all in one picture in `png`."""
    return write_drawings(show.rig, "gap map", draw_gap_map(show, options), options, pdf, png)


def draw_gap_map(show: Show, options: PaperOptions) -> list[Drawing]:
    """One drawing per system, "all" last; one that says why where the light cannot be worked out."""
    found = show.survey
    if isinstance(found, str):
        return [_no_map(show.rig, found, options)]
    systems = list(found.study.systems.values())
    return [
        _page(found, system, options.numbered(k, len(systems)), options)
        for k, system in enumerate(systems, 1)
    ]


def _page(found: Survey, system: SystemLight, number: str, options: PaperOptions) -> Drawing:
    width, height = paper_mm(options, False)
    rows = _wrapped(_table(found, system, options.length), width - 2 * EDGE)
    view = _view(found, width, height, rows, options)
    drawn = draw_light(found.study, system, view, options.length)
    page = new_page(
        options,
        width,
        height,
        view,
        _notes(found, system, drawn.left_out, number, options),
        from_above(found.study.rig.scene),
    )
    page.lines += drawn.lines
    page.shapes += drawn.shapes
    page.words += drawn.words
    below = f"under {lw.lux(system.below)}" if system.known else lw.NOT_KNOWN
    for mine, more in zip(
        (page.lines, page.shapes, page.words),
        legend(EDGE, footer_row(width, 1), below),
        strict=True,
    ):
        mine += more  # type: ignore[operator]
    _write_table(page, view.frame[1] - RULER_FOOT, footer_row(width, 2) + 1.0, rows)
    return page


def _view(
    found: Survey, width: float, height: float, rows: list[list[str]], options: PaperOptions
) -> View:
    """The area above its table: as large as its room allows, the frame no taller than it needs."""
    must, wish = _extents(found.study.rig)
    left, bottom, right, top = frame_of(width, height)
    table = sum(len(row) * STEP + BETWEEN for row in rows) + RULER_FOOT
    share = (1 - MOST_MAP) * (top - bottom)
    frame = (left, bottom + min(table, share + RULER_FOOT), right, top)
    view = fit_view(must, must, frame, options.length)
    if fit_view(wish, wish, frame, options.length).scale <= NEARLY * view.scale:
        must = wish
        view = fit_view(must, must, frame, options.length)
    need = (wish[3] - wish[1]) * 1000 / view.scale + 0.01
    frame = (left, max(frame[1], top - need), right, top)
    return fit_view(must, wish, frame, options.length)


def _extents(rig: SolidRig) -> tuple[Frame, Frame]:
    """What of the plan must be seen, the area with white round it, and what would be good, the stage."""
    stage = rig.scene.stage
    area = np.array(stage.acting or stage.outline, np.float64)
    every = np.array([*stage.outline, *stage.acting], np.float64)
    must = _around(area, BESIDE)
    low, high = (
        np.minimum(must[:2], _around(every, BORDER)[:2]),
        np.maximum(must[2:], _around(every, BORDER)[2:]),
    )
    return must, (float(low[0]), float(low[1]), float(high[0]), float(high[1]))


def _around(points: Array, border: float) -> Frame:
    """The rectangle round points, wider on every side by `border` of its size."""
    low, high = points.min(axis=0), points.max(axis=0)
    more = np.maximum(border * (high - low), 0.1)
    (x0, y0), (x1, y1) = (low - more).tolist(), (high + more).tolist()
    return x0, y0, x1, y1


def _notes(
    found: Survey,
    system: SystemLight,
    left_out: list[str],
    number: str,
    options: PaperOptions,
) -> Notes:
    study = found.study
    settings, length = study.rig.scene.settings, options.length
    revision = f"revision {settings.revision}" if settings.revision else "no revision"
    face = w.length(settings.face_height, length, w.HANG)
    scenery = "scenery casts its shadow" if study.sight.ready else "no scenery"
    facts = [
        f"{revision}, {w.count(system.units.size, 'unit')}. FACE PLANE: level, {face} above deck and "
        f"platforms; lux on it; {scenery}.",
        f"Figures and holes are of one grid: {lw.grid(study.plane, length)}",
    ]
    name = "all systems together" if system.name == ALL else system.name
    foot = f"No room on the map for {w.some(left_out)}." if left_out else ""
    return Notes(name, f"{settings.title}: gap map", facts, foot, number)


def _table(found: Survey, system: SystemLight, unit: w.LengthUnit) -> list[list[str]]:
    """What is told under the map: figures first, then two lines for each hole, the largest first."""
    figures = system.figures
    unknown = lw.unknown_light(found.study.rig, system)
    if not system.known:
        return [[f"WARN: {unknown}"]]
    mean, least, most = (lw.lux(v) for v in (figures.mean, figures.least, figures.most))
    of_mean = f", {lw.share(system.below / figures.mean)} of the mean" if figures.mean else ""
    head = [
        f"mean {mean}, least {least}, most {most}, U0 {figures.u0:.2f}",
        f"over half the mean: {lw.share(figures.share_above_half)}; hole: under "
        f"{lw.lux(system.below)}{of_mean}",
    ]
    if unknown:
        head.append(f"WARN: {unknown}")
    if not system.gaps:
        return [head, ["No holes."]]
    return [head, *(_hole(found, system, k, unit) for k in range(len(system.gaps)))]


def _wrapped(rows: list[list[str]], width: float) -> list[list[str]]:
    """The same rows with what would be squeezed under the least type on more lines."""
    return [
        [
            line
            for n, text in enumerate(row)
            for line in wrapped(text, LEAST_TYPE, width - INSET, bold=n == 0 and k > 0)
        ]
        for k, row in enumerate(rows)
    ]


def _hole(found: Survey, system: SystemLight, number: int, unit: w.LengthUnit) -> list[str]:
    """One hole: size, darkest, the unit that fills it best, how it is then set and what that does."""
    rig, gap, helpers = found.study.rig, system.gaps[number], found.helpers[system.name]
    head = f"hole {number + 1}, {lw.area(gap.area, unit)}, darkest {lw.lux(gap.least)}"
    if number >= len(helpers):
        return [f"{head}: no fix searched for"]
    if not helpers[number]:
        return [f"{head}: {lw.why_no_help(found, system, number)}"]
    best = helpers[number][0]
    tip = w.tip(to_degrees(best.down))
    turn = w.heading(heading_degrees(best.heading))
    opens = lw.area(best.uncovers, unit) if best.uncovers else "nothing"
    return [
        f"{head}: {lw.named(rig, best.unit)} to {w.place(*best.face[:2], unit)}",
        f"heading {turn}, {tip.word} {tip.angle}: closes {lw.area(best.gain, unit)} of it, "
        f"uncovers {opens}",
    ]


def _write_table(page: Drawing, top: float, bottom: float, rows: list[list[str]]) -> None:
    """Rows from `top` down, in smaller type where they are many; what does not fit is counted last."""
    needed = sum(len(row) * STEP + BETWEEN for row in rows)
    share = min(1.0, max(LEAST_TYPE / TYPE, (top - bottom) / needed))
    step, y = STEP * share, top
    for k, row in enumerate(rows):
        more = len(rows) - k
        full = k > 0 and y - len(row) * step - (step if more > 1 else 0.0) < bottom
        told = [f"{w.count(more, 'more hole')}: listed by aimcalc cover."] if full else row
        for n, text in enumerate(told):
            inset, bold = (INSET if n and k else 0.0), n == 0 and k > 0
            size = shrink_to_fit(text, TYPE * share, page.width - 2 * EDGE - inset, bold)
            page.words.append(Words(EDGE + inset, y - step * 0.8, text, size, bold))
            y -= step
        if full:
            return
        y -= BETWEEN * share


def _no_map(rig: SolidRig, why: str, options: PaperOptions) -> Drawing:
    """A page that says why there is no map."""
    width, height = paper_mm(options, False)
    page = Drawing(width, height, draft=options.draft, over=options.over)
    title = f"{rig.scene.settings.title}: gap map"
    y = height - EDGE - 10
    size = shrink_to_fit(title, 24, width - 2 * EDGE, True)
    page.words.append(Words(EDGE, y, title, size, True))
    for line in wrapped(why, TYPE, width - 2 * EDGE):
        y -= STEP
        page.words.append(Words(EDGE, y - 4, line, TYPE))
    return page
