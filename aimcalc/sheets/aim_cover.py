"""The cover of the aim sheets: what is in it, what was assumed, what to fix, the cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.paper.page import KEY, Box, Page, Sheet, body_of
from aimcalc.scene.model import Pipe
from aimcalc.text import words as w
from aimcalc.text.facts import LONG, NO_FACE, SHORT, face_heights, face_words, footer, trim_words
from aimcalc.text.names import short, short_unit
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.tables import counts
from aimcalc.text.typeset import ABOVE, BOLD, LEADING, REGULAR, shorten, text_width, wrap

if TYPE_CHECKING:
    from aimcalc.solid.answers import Finding
    from aimcalc.solid.rig import SolidRig


TYPE = 10.5  # pt
HEADING = 14.0  # pt
ABOVE_HEADING = 7.0  # pt
ABOVE_PARAGRAPH = 2.0  # pt
SPACE = 4.0  # pt between the bold words and the text


class Paragraph(NamedTuple):
    """A heading, or a text that starts with some words in bold."""

    lead: str
    words: str
    heading: bool = False


class Line(NamedTuple):
    """One line as it is set; `gap` is left above it."""

    lead: str
    words: str
    size: float
    gap: float

    @property
    def height(self) -> float:
        """Gap and line."""
        return self.gap + self.size * LEADING


def set_lines(paragraphs: Sequence[Paragraph], width: float) -> list[list[Line]]:
    """Lines of the paragraphs set in `width`; what must stay together is one list.

    A paragraph stays together, and a heading with the paragraph after it.
    """
    blocks: list[list[Line]] = []
    held: list[Line] = []
    for paragraph in paragraphs:
        if paragraph.heading:
            held += _heading(paragraph.lead, width)
        else:
            blocks.append([*held, *_lines(paragraph, width)])
            held = []
    return [*blocks, held] if held else blocks


def columns(blocks: Sequence[Sequence[Line]], height: float) -> list[list[Line]]:
    """Blocks filled into columns of one height. A block taller than a column is cut."""
    filled: list[list[Line]] = [[]]
    used = 0.0
    for block in blocks:
        tall = sum(line.height for line in block)
        whole = tall <= height
        if whole and used + tall > height:
            filled.append([])
            used = 0.0
        for line in block:
            if used + line.height > height and filled[-1]:
                filled.append([])
                used = 0.0
            filled[-1].append(line)
            used += line.height
    return filled


def draw_column(sheet: Sheet, x: float, top: float, lines: Sequence[Line], width: float) -> None:
    """Draw the lines of one column below `top`."""
    y = top
    for line in lines:
        y -= line.height
        base, at = y + line.size * (LEADING - ABOVE), x
        if line.lead:
            at += sheet.text(x, base, line.lead, line.size, bold=True, width=width) + SPACE
        if line.words:
            sheet.text(at, base, line.words, line.size, width=x + width - at)


def _heading(words: str, width: float) -> Iterator[Line]:
    for k, line in enumerate(wrap(words, BOLD, HEADING, width)):
        yield Line(line, "", HEADING, 0.0 if k else ABOVE_HEADING)


def _lines(paragraph: Paragraph, width: float) -> Iterator[Line]:
    """A text beside its bold words, or under them where they take more than half a line."""
    lead, gap = paragraph.lead, ABOVE_PARAGRAPH
    taken = text_width(lead, BOLD, TYPE) + SPACE if lead else 0.0
    if taken > 0.5 * width:
        for line in wrap(lead, BOLD, TYPE, width):
            yield Line(line, "", TYPE, gap)
            gap = 0.0
        lead, taken = "", 0.0
    for k, line in enumerate(wrap(paragraph.words, REGULAR, TYPE, width, taken)):
        yield Line(lead if k == 0 else "", line, TYPE, 0.0 if k else gap)


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
        "plumb otherwise: no tape; the box gives dial, level and true heading in their order of use.",
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
        "is where the performer stands; the light goes through the face. POINT: an object, not a person. SL "
        "and SR count from the centre line, US and DS from the plaster line.",
    ),
    (
        "LANDS",
        "is where the centre of the light then comes down: on the deck, or on the platform named. ON names "
        "what stops it before that, how high up from the deck, and where along it. POLE is the height of the "
        "centre on a pole held at STAND (or POINT), where there is no floor mark to use.",
    ),
    (
        "WITHIN",
        "is how far out you may be and the light still covers the face: set it again past that, ask where it "
        "stays out. LANDS is told for no miss at all. MATCH: set it parallel to that unit, then check.",
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
    rig: SolidRig, findings: Sequence[Finding], sections: Sequence[Section], options: PaperOptions
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
    rig: SolidRig,
    findings: Sequence[Finding],
    sections: Sequence[Section],
    covers: int,
    options: PaperOptions,
) -> list[Paragraph]:
    """Everything the cover says, `covers` being the pages it takes itself."""
    return [
        *_counts(rig, findings, options),
        *_contents(rig, sections, covers, options),
        *_assumed(rig, options),
        *_told(rig, findings),
        Paragraph("How to read the sheets", "", True),
        *(Paragraph(lead, words) for lead, words in READING),
        *_of_other_stages(rig),
        Paragraph("Cautions", "", True),
        *(Paragraph(lead, words) for lead, words in LONG),
    ]


def _of_other_stages(rig: SolidRig) -> Iterator[Paragraph]:
    """How to read what only some stages have: chords of a truss, further trims, further spots."""
    if any(unit.chord for unit in rig.units):
        says = "names the tube of a truss that a unit is clamped to; marks and tape go by the truss's line."
        yield Paragraph("CHORD", says)
    if any(further.positions for further in rig.further):
        says = (
            "with an act's name: the pipe as it hangs in that act. Units are hung and set at the first one; "
            "the others say what they would be set to there, to check them by."
        )
        yield Paragraph("AT TRIM", says)
    if any(not further.positions for further in rig.further):
        says = "and on: where the target is later, and what the unit would be set to there, to check it by."
        yield Paragraph("SPOT 2", says)


def _counts(
    rig: SolidRig, findings: Sequence[Finding], options: PaperOptions
) -> Iterator[Paragraph]:
    used = sum(1 for members in rig.rows.values() if members)
    whole = f"{w.count(len(rig.units), 'unit')} on {w.count(used, 'position')}"
    if options.part:
        yield Paragraph(options.part_words, "", True)
        yield Paragraph(
            "", f"{w.count(len(options.part), 'unit')} of {whole}. The others are not shown."
        )
    else:
        yield Paragraph(whole, "", True)
    told = counts(findings).removesuffix(".")
    yield Paragraph("", f"{told}. Stops and warnings are listed below and on each row.")
    if rig.scene.settings.note:
        yield Paragraph("Note:", rig.scene.settings.note)


def _contents(
    rig: SolidRig, sections: Sequence[Section], covers: int, options: PaperOptions
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


def _assumed(rig: SolidRig, options: PaperOptions) -> Iterator[Paragraph]:
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
    height = face_heights(rig, range(len(rig.units)), options.length)
    stood = f"are taken {height} above what they stand on" if height else f"none: {NO_FACE}"
    yield Paragraph("Faces", f"{stood}.")
    yield Paragraph(
        "Stems",
        "are square to their pipe, plumb where it is level; clamps are not kicked, pipes are straight and "
        "do not sag.",
    )


def _told(rig: SolidRig, findings: Sequence[Finding]) -> Iterator[Paragraph]:
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


def _list(rig: SolidRig, names: Sequence[str]) -> str:
    return ", ".join(short(rig, name) for name in names)


def _draw(rig: SolidRig, columns: Sequence[Sequence[Line]], is_first: bool, sheet: Sheet) -> None:
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
