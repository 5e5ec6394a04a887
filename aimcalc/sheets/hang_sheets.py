"""The hang sheets: for every position, where each unit is clamped, what it plugs into, and its steps."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import compress
from typing import TYPE_CHECKING

from aimcalc.geometry.aim import ON_ITS_SIDE
from aimcalc.named import NamedTuple
from aimcalc.paper.page import Box, Page, Sheet, Target, body_of, write_pages
from aimcalc.paper.stance import stance_of
from aimcalc.paper.table import (
    TYPE,
    Column,
    Table,
    grid,
    how_lines,
    key_cell,
    lines_cell,
    table_pages,
)
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.text.cables import folded_lines
from aimcalc.text.facts import SHORT, footer, noun, trim_words
from aimcalc.text.hang_rows import HangRow, hang_rows, position_lines
from aimcalc.text.names import short, short_number
from aimcalc.text.rows import PRINTED, ZERO_MARKS
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import BOLD, REGULAR, text_width, wrap

if TYPE_CHECKING:
    from aimcalc.hang.records import PositionPlan
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer, Finding
    from aimcalc.solid.rig import SolidRig


def hang_columns(sort: str, zero: str, called: str = "") -> list[Column]:
    """Columns for a pipe, a boom or a stand; `zero` is what its marks are measured from.

    `called` is its word where that is another one: truss.
    """
    columns = [
        Column(("UNIT", "channel"), 40, unit_cell),
        Column(("TYPE", "weight, load"), 88, type_cell),
        Column(("MARK", f"from {zero}"), 88, mark_cell),
        Column(("FROM ENDS", f"of the {called or sort}"), 80, ends_cell),
        Column(("SPACING", "from unit"), 66, spacing_cell),
        Column(("CIRCUIT", "outlet at"), 64, circuit_cell),
        Column(("CABLE", "fold back"), 88, cable_cell),
        Column(("TAIL TIED", "from clamp"), 84, connector_cell),
    ]
    if sort == "stand":
        return [c for c in columns if c.draw not in (mark_cell, ends_cell, spacing_cell)]
    return columns


def unit_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """Number, and channel below."""
    key_cell(sheet, box, row.number, row.channel)


def type_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """Kind, how it hangs where it is not simply under, weight and load."""
    heavy = ", ".join(part for part in (row.weight, row.load) if part)
    lines_cell(sheet, box, [part for part in (row.kind, *how_lines(row.how), heavy) if part])


def mark_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """The clamp's place from the zero mark, as large as it can be."""
    key_cell(sheet, box, row.mark, "")


def ends_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """The clamp's place from both ends."""
    if row.ends:
        lines_cell(sheet, box, row.ends, bold=False)


def spacing_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """From the unit before, clamp to clamp."""
    if row.spacing:
        sheet.text(box.left, box.top - 16, row.spacing, TYPE + 1, bold=True, width=box.width)
        sheet.text(box.left, box.bottom + 5.5, row.before, TYPE, width=box.width)


def circuit_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """Circuit, and where its outlet is below."""
    key_cell(sheet, box, row.circuit, row.outlet)


def cable_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """Which cable, where it is folded back, its ties."""
    cable = folded_lines(row.cable)
    lines = cable if len(cable) > 1 else wrap(cable[0], BOLD, TYPE, box.width)
    lines_cell(sheet, box, lines or [""])


def connector_cell(sheet: Sheet, box: Box, row: HangRow) -> None:
    """The side the tail is tied on, how far from the clamp, and within how far."""
    *lines, reach = [part for part in row.connector if part] or [""]
    if len(lines) == 1 and text_width(reach, REGULAR, TYPE) > box.width:
        word, _, far = reach.partition(" within ")
        lines += [f"{word} within", far]
    else:
        lines.append(reach)
    lines_cell(sheet, box, lines)


class Step(NamedTuple):
    """One step: the word over its tick box, and what is done."""

    word: str
    words: str


_HANGING = (
    Step("clamp", "clamp over the {tube}, on its mark"),
    Step("opening", "clamp opening {opens}"),
    Step("snug", "snug by hand"),
    Step("wrench", "wrench tight, then try it"),
    Step("safety", "safety cable round the {tube} and through the yoke"),
)
_STANDING = (
    Step("stand", "stand on its mark, legs out and weighted"),
    Step("spigot", "spigot home and locked, then try it"),
)
_POINTING = (
    Step("tail", "tail free"),
    Step("shutters", "shutters out"),
    Step("clip", "{clip}"),
    Step("point", "{point}"),
    Step("lock", "lock pan and tilt for good"),
    Step("cable", "lay the cable"),
    Step("tie", "tie it, loop hanging free"),
    Step("test", "test it"),
)


_UPRIGHT = "upright: clip above, tail below"
_LYING = "it lies on its side: clip to the side its row names, tail to the other"
_POINT = "point it: wedge (rough), then its row"
_POINT_DIRECT = f"{_POINT} (DIRECT: the clamp tips the nose, the yoke turns it)"


class Bodies(NamedTuple):
    """How the bodies of a row lie: whether any is upright, any on its side, any clamped DIRECT."""

    upright: bool = True
    lying: bool = False
    direct: bool = False


def steps(
    sort: str, opens: str | None, bodies: Bodies | None = None, called: str = ""
) -> tuple[Step, ...]:
    """Steps for the units of a pipe, a boom or a stand; `opens` is the side its clamps open to, if told.

    `called` is its word where that is another one: truss.
    """
    pointing = _pointing(bodies or Bodies())
    if sort == "stand":
        return (*_STANDING, *pointing)
    told = opens or "one way along the row"
    tube = called or sort
    hanging = [Step(step.word, step.words.format(opens=told, tube=tube)) for step in _HANGING]
    if sort == "boom":
        hanging[0] = Step("clamp", "clamp round the boom, at its mark")
    return (*hanging, *pointing)


def _pointing(bodies: Bodies) -> list[Step]:
    """The steps from tail to test, for bodies that lie as they do."""
    clip, point = _UPRIGHT, _POINT
    if bodies.lying:
        clip = f"{_UPRIGHT}; where the row says CLIP, {_LYING}" if bodies.upright else _LYING
    if bodies.direct:
        point = _POINT_DIRECT
    return [Step(step.word, step.words.format(clip=clip, point=point)) for step in _POINTING]


def sentence(every: tuple[Step, ...]) -> str:
    """All steps in one sentence, numbered."""
    return ". ".join(f"{k} {step.words}" for k, step in enumerate(every, 1)) + "."


LONGEST_NUMBER = 6  # letters of a unit's number in the START END box
TITLES = {"pipe": "HANG", "boom": "HANG ON THE BOOM", "stand": "SET UP"}

# Findings about aims that whoever hangs must know as well.
WHILE_HANGING = {
    "off-the-end",
    "on-lift-line",
    "too-close",
    "over-on-flown",
    "over-people",
    "clamps-mixed",
    "number-twice",
    "numbers-out-of-order",
    "strikes-own-pipe",
    "set-in-order",
    "turn-first",
    "upside-down",
}


def hang_sheets(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the hang sheets, written to a path or a binary stream.

    Printed are the findings about the work at the pipe, and the others that matter there.
    """
    rig, plan = show.rig, show.hang
    told = [*show.hang_findings, *(f for f in show.findings if f.rule in WHILE_HANGING)]
    rows = hang_rows(rig, plan, told, options.length)
    answers = rig.answers
    pages = [
        page
        for position in plan.positions
        if any(options.holds(rig.names[k]) for k in rig.rows[position.position])
        for page in _pages(rig, position, rows[position.position], told, answers, options)
    ]
    if not pages:
        pages = [Page(_draw_none, footer(rig, "hang sheets"), SHORT)]
    title = f"{rig.scene.settings.title}: hang sheets"
    return write_pages(target, pages, options, title=title, landscape=True)


def _draw_none(sheet: Sheet) -> None:
    sheet.text(sheet.body.left, sheet.body.top - 20, "This scene has no units.", 14)


def _pages(
    rig: SolidRig,
    plan: PositionPlan,
    rows: Sequence[HangRow],
    findings: Sequence[Finding],
    answers: Sequence[Answer],
    options: PaperOptions,
) -> list[Page]:
    name, position = plan.position, rig.scene.positions[plan.position]
    members = rig.rows[name]
    stance = stance_of(position, [rig.units[k] for k in members], [answers[k] for k in members])
    opens = position.clamp_opens if isinstance(position, Pipe) else None
    every = steps(plan.sort, opens, _bodies(rig, members), noun(position))
    body = body_of(options, True, SHORT)
    ticks = [step.word for step in every]
    trim = trim_words(position, options.length)
    start = (
        f"{short_number(rig, members[0], LONGEST_NUMBER)} = {stance.start}" if stance.start else ""
    )
    printed = [options.holds(rig.names[k]) for k in members]
    start = start if printed[0] else ""
    table = Table(
        name=short(rig, name),
        title=TITLES[plan.sort],
        note=trim,
        stance=stance,
        start=start,
        grid=grid(
            hang_columns(plan.sort, _zero(position), noun(position)), body.left, body.right, ticks
        ),
        findings=tuple(
            f"{found.severity.upper()}: {found.says}"
            for found in findings
            if found.position == name and not found.unit and found.severity in PRINTED
        ),
        facts=footer(rig, name, [trim]),
        always=(f"STEPS: {sentence(every)}",),
        first=tuple(position_lines(rig, plan, options.length)),
    )
    return table_pages(table, list(compress(rows, printed)), body)


def _bodies(rig: SolidRig, members: Sequence[int]) -> Bodies:
    """How the bodies of a row lie."""
    lying = [bool(rig.aims.attitude[k] == ON_ITS_SIDE) for k in members]
    direct = any(rig.units[k].mount == "direct" for k in members)
    return Bodies(not all(lying), any(lying), direct)


def _zero(position: Position) -> str:
    """What the marks are measured from, as the head of their column says it."""
    if not isinstance(position, Pipe):
        up = isinstance(position, Boom) and position.foot is not None
        return "the DECK" if up else "the FOOT"
    return ZERO_MARKS.get(position.zero, "ZERO MARK")
