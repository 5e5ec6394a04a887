"""The cover of the aim sheets: what is in it, what was assumed, what to fix, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from aimcalc.scene.model import Pipe
from aimcalc.sheets import words as w
from aimcalc.sheets.cautions import LONG, SHORT
from aimcalc.sheets.facts import face_words, footer, trim_words
from aimcalc.sheets.flow import HEADING, Line, Paragraph, columns, draw_column, set_lines
from aimcalc.sheets.names import short, short_unit
from aimcalc.sheets.paper import KEY, Box, Page, PaperOptions, Sheet, body_of
from aimcalc.sheets.tables import counts
from aimcalc.sheets.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.rig.answers import Finding
    from aimcalc.rig.solve import Rig

TITLE = 26.0  # pt
TOP = 36.0  # pt, what the title takes
BETWEEN = 18.0  # pt between the two columns

READING = (
    (
        "Rows",
        "go the way the ladder travels, from START END. Read one aloud: unit, square, swing, sight tape, "
        "down, match, tail.",
    ),
    (
        "SQUARE",
        "is straight away from the pipe, on the side named: the nose starts from there. AT YOU: it faces "
        "back at you, unlike the rest.",
    ),
    (
        "SWING NOSE",
        "turns the yoke at the clamp, from square to the side named. The stem stays square to its pipe: "
        "plumb, unless the pipe slopes. SQUARE: do not turn.",
    ),
    (
        "SIGHT TAPE",
        "is a tape measure on the deck, parallel to the pipe and as far out as printed, on the square side; "
        "the head of its column says where its 0 lies. Sight along the barrel to the mark, nose near its "
        "final down. Pipe slopes: the tape gives the heading, a level the down; the dial differs. Stem not "
        "plumb otherwise: no tape; the box gives the true heading; the dial differs.",
    ),
    (
        "HEADING",
        "on a boom or stand, is how far the nose turns off straight across the stage, and to which side. A "
        "unit clamped straight to a boom has its height set at the clamp (NOSE), its heading at the yoke.",
    ),
    (
        "DOWN, UP",
        "are from level, read on the barrel. Some levels show the other figure, plumb: either one will do.",
    ),
    (
        "STAND",
        "is where the performer stands; the light goes through the face. POINT: an object, not a person.",
    ),
    (
        "LANDS",
        "is where the centre of the light then comes down: on the deck, or on the platform named. ON names "
        "what stops it before that, how high up from the deck, and where along it. POLE is the height of the "
        "centre on a pole held at STAND (or POINT), where there is no floor mark to use.",
    ),
    (
        "WITHIN",
        "is how far out you may be and still hit. MATCH: set it parallel to that unit, then check.",
    ),
    (
        "TAIL",
        "names the side of the clamp its connector is tied on, as on the hang sheet. Where a kind's tail is "
        "not known it is the side that the back of the unit swings to.",
    ),
)


class Section(NamedTuple):
    """The pages of one sort for one position."""

    name: str
    title: str
    pages: Sequence[Page]


def cover_pages(
    rig: Rig, findings: Sequence[Finding], sections: Sequence[Section], options: PaperOptions
) -> list[Page]:
    """The cover, over as many pages as the findings need."""
    body = body_of(options, True, SHORT)
    width, height = _width(body), body.height - TOP
    # The contents tell page numbers, which follow the cover: set it once to count its pages.
    first = columns(set_lines(_paragraphs(rig, findings, sections, 1, options), width), height)
    covers = -(-len(first) // 2)
    told = _paragraphs(rig, findings, sections, covers, options)
    cuts = columns(set_lines(told, width), height)
    facts = footer(rig, "cover", [face_words(rig, range(len(rig.units)), options.length)])
    return [
        Page(partial(_draw, rig, cuts[k : k + 2], k == 0), facts, SHORT)
        for k in range(0, len(cuts), 2)
    ]


def _paragraphs(
    rig: Rig,
    findings: Sequence[Finding],
    sections: Sequence[Section],
    covers: int,
    options: PaperOptions,
) -> list[Paragraph]:
    """Everything the cover says, `covers` being the pages it takes itself."""
    return [
        *_counts(rig, findings),
        *_contents(rig, sections, covers, options),
        *_assumed(rig, options),
        *_told(rig, findings),
        Paragraph("How to read the sheets", "", True),
        *(Paragraph(lead, words) for lead, words in READING),
        Paragraph("Cautions", "", True),
        *(Paragraph(lead, words) for lead, words in LONG),
    ]


def _counts(rig: Rig, findings: Sequence[Finding]) -> Iterator[Paragraph]:
    used = sum(1 for members in rig.rows.values() if members)
    yield Paragraph(f"{w.count(len(rig.units), 'unit')} on {w.count(used, 'position')}", "", True)
    told = counts(findings).removesuffix(".")
    yield Paragraph("", f"{told}. Stops and warnings are listed below and on each row.")
    if rig.scene.settings.note:
        yield Paragraph("Note:", rig.scene.settings.note)


def _contents(
    rig: Rig, sections: Sequence[Section], covers: int, options: PaperOptions
) -> Iterator[Paragraph]:
    yield Paragraph("Pages", "", True)
    page = covers + 1
    told: dict[str, list[str]] = {}
    for section in sections:
        last = page + len(section.pages) - 1
        pages = f"page {page}" if last == page else f"pages {page} to {last}"
        told.setdefault(section.name, []).append(f"{section.title} {pages}")
        page = last + 1
    for name, places in told.items():
        trim = trim_words(rig.scene.positions[name], options.length)
        units = w.count(len(rig.rows[name]), "unit")
        yield Paragraph(short(rig, name), f"{units}, {trim}: {', '.join(places)}")


def _assumed(rig: Rig, options: PaperOptions) -> Iterator[Paragraph]:
    """What nobody has measured or looked up yet."""
    yield Paragraph("Assumed until somebody measures", "", True)
    plotted = [
        name
        for name, members in rig.rows.items()
        if members and isinstance(p := rig.scene.positions[name], Pipe) and not p.measured
    ]
    if plotted:
        yield Paragraph("Trim", f"as plotted, not measured: {_list(rig, plotted)}.")
    typical = sorted({kind.name for kind in rig.kinds if kind.typical})
    if typical:
        yield Paragraph(
            "Kinds",
            f"with typical figures, until the maker's are put in: {_list(rig, typical)}.",
        )
    no_drop = sorted({rig.kinds[k].name for k in range(len(rig.units)) if rig.arrays.drop[k] == 0})
    if no_drop:
        yield Paragraph(
            "Drop",
            f"from pipe to pivot is taken as 0 for {_list(rig, no_drop)}: measure one of each.",
        )
    faces = face_words(rig, range(len(rig.units)), options.length)
    height = faces.removeprefix("face height ")
    stood = f"are taken {height} above what they stand on" if height != faces else f"none: {faces}"
    yield Paragraph("Faces", f"{stood}.")
    yield Paragraph(
        "Stems",
        "are square to their pipe, plumb where it is level; clamps are not kicked, pipes are straight and "
        "do not sag.",
    )


def _told(rig: Rig, findings: Sequence[Finding]) -> Iterator[Paragraph]:
    for severity, heading in (
        ("stop", "Stops: fix these before anything is issued"),
        ("warn", "Warnings"),
    ):
        told = [found for found in findings if found.severity == severity]
        if told:
            yield Paragraph(heading, "", True)
        for found in told:
            where = short(rig, found.position) if found.position else "Scene"
            if found.unit:
                where = short_unit(rig, rig.by_name[found.unit])
            yield Paragraph(f"{where}:", f"{found.says} {found.do}")


def _list(rig: Rig, names: Sequence[str]) -> str:
    return ", ".join(short(rig, name) for name in names)


def _draw(rig: Rig, columns: Sequence[Sequence[Line]], is_first: bool, sheet: Sheet) -> None:
    """Draw one page of the cover: a title on the first, then two columns."""
    body = sheet.body
    title, revision = (
        shorten(rig.scene.settings.title, 70, keep_end=True),
        shorten(rig.scene.settings.revision, 20, keep_end=True),
    )
    told = f"revision {revision}" if revision else "no revision given"
    size = TITLE if is_first else HEADING
    sheet.text(body.left, body.top - 0.8 * size, title, size, bold=True, width=0.72 * body.width)
    sheet.text(
        body.right,
        body.top - 0.8 * size,
        f"Aim sheets, {told}",
        HEADING,
        align="r",
        width=0.26 * body.width,
    )
    sheet.line(body.left, body.top - TOP + 4, body.right, body.top - TOP + 4, weight=KEY)
    width = _width(body)
    for k, column in enumerate(columns):
        draw_column(sheet, body.left + k * (width + BETWEEN), body.top - TOP, column, width)


def _width(body: Box) -> float:
    return (body.width - BETWEEN) / 2
