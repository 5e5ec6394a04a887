"""The practice pipe on paper: a plan to lay out with two tapes, then units to sign, spots, limits."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import KEY, SMALL, THIN, Box, Page, Sheet, Target, body_of, write_pages
from aimcalc.rig.places import place
from aimcalc.teach.explain_page import SIGNED, TITLE, heading, rows
from aimcalc.teach.scaled import Scaled
from aimcalc.teach.scaled_text import (
    SPOTS,
    headline,
    layout,
    lost,
    spot_rows,
    spots,
    unit_rows,
)
from aimcalc.teach.triangles import Picture
from aimcalc.text.facts import LONG, SHORT, footer
from aimcalc.text.typeset import LEADING

if TYPE_CHECKING:
    from aimcalc.text.stamp import PaperOptions


HEADS = (
    Col("unit", 30, bold=True),
    Col("mark on\npipe", 84, bold=True),
    Col("PAN", 92, wrap=True),
    Col("tip", 70, bold=True),
    Col("plumb", 42),
    Col("tape", 84),
    Col("spot", 74, name=True),
    *(Col(word, 50, tick=True) for word in SIGNED),
    Col("initials", 50, tick=True),
)
SHARES = (0.0, 0.26, 0.45, 0.66, 0.83)  # of the width, where the columns of the spots begin
DRAWN = 0.56  # of the page, the most that the drawing takes
ORDER = (
    "Boxes are signed in this order by whoever is in charge: safe, upright, tail, landing. No box before the "
    "one that comes first."
)
CLASS = LONG[-1][1]


def scaled_page(practice: Scaled, target: Target, options: PaperOptions) -> int:
    """Number of pages of the practice pipe's sheet."""
    title = practice.show.scene.settings.title
    return write_pages(target, scaled_pages(practice, options), options, title=title)


def scaled_pages(practice: Scaled, options: PaperOptions) -> list[Page]:
    """The pages themselves: the plan, then lists."""
    length = options.length
    facts = footer(practice.show.rig, practice.position)
    told = [(*row[:-1], *("" for _ in range(5))) for row in unit_rows(practice, length)]
    sections = [
        Section("UNITS", HEADS, told, note=f"{ORDER} {CLASS}", size=10.0),
        _said("WHAT CANNOT BE KEPT", lost(practice, length)),
    ]
    body = body_of(options, landscape=False, cautions=SHORT)
    lists = list_pages(headline(practice, length), sections, body, facts, SHORT)
    return [Page(partial(_room, practice, options), facts, SHORT), *lists]


def _said(title: str, lines: list[str]) -> Section:
    rows = [(str(k), line) for k, line in enumerate(lines, 1)]
    return Section(title, (Col("", 20, bold=True), Col("", 540, wrap=True)), rows, size=10.0)


def _room(practice: Scaled, options: PaperOptions, sheet: Sheet) -> None:
    """Draw the room, and under it the spots and what is done in which order."""
    body, length = sheet.body, options.length
    found, lines = spot_rows(practice, length), layout(practice, length)
    under = (len(found) + 1.5 * len(lines)) * SMALL * LEADING + 3 * TITLE
    low = max(body.bottom + under, body.top - DRAWN * body.height)
    _plan(practice, body._replace(bottom=low), options, sheet)
    y = heading(sheet, low, "SPOTS, by two tapes")
    y = rows(sheet, y, [SPOTS, *found], SHARES)
    y = heading(sheet, y, "LAY IT OUT")
    for k, line in enumerate(lines, 1):
        y = sheet.paragraph(body.left, y, f"{k}. {line}", SMALL, body.width)


def _plan(practice: Scaled, box: Box, options: PaperOptions, sheet: Sheet) -> None:
    """Draw the room from above: pipe and its marks, tapes, spots, each light as a line."""
    rig = practice.show.rig
    pipe = practice.show.scene.pipes[0]
    marks, points = rig.arrays.clamp[:2], rig.arrays.point[:2]
    ends = [np.array(end[:2]) for end in (pipe.start, pipe.end)]
    every = [*ends, *marks.T, *points.T]
    here = place(pipe)
    level = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    tapes: dict[str, list[Array]] = {}
    for k, answer in enumerate(rig.answers):
        if answer.sight is not None:
            square = np.array(here.square[:2]) * float(rig.aims.square_sign[k])
            foot = square * float(rig.tapes.out[k])
            tapes.setdefault(str(answer.square), []).append(foot + level * answer.sight)
    every += [point for tape in tapes.values() for point in tape]
    picture = Picture(sheet, box, headline(practice, options.length), every, options.length)
    picture.sides()
    picture.line(picture.at(ends[0]), picture.at(ends[1]), weight=3.5)
    for side, crossed in tapes.items():
        along = np.array([float(point @ level) for point in crossed])
        off = crossed[0] - level * along[0]
        reach = [off + level * far for far in (min(along.min(), 0.0), max(along.max(), 0.0))]
        picture.line(picture.at(reach[0]), picture.at(reach[1]), weight=1.6)
        picture.label(picture.at(off), f"sight tape {side}, 0", -level)
    for k in range(len(rig.units)):
        picture.line(picture.at(marks[:, k]), picture.at(points[:, k]), weight=THIN, dash=3)
        picture.ring(picture.at(marks[:, k]), 3.0, KEY)
        picture.label(picture.at(marks[:, k]), rig.units[k].number, -np.array(here.square[:2]))
    picture.label(picture.at(np.zeros(2)), "pipe's zero", -np.array(here.square[:2]))
    for name, units in spots(practice).items():
        at = picture.at(points[:, units[0]])
        picture.face(at)
        picture.label(at, name, np.array(here.square[:2]))
    picture.put_labels()
