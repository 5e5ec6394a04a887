"""The hang sheets: for every position, where each unit is clamped, what it plugs into, and its steps."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.geometry.aim import ON_ITS_SIDE
from aimcalc.rig.hang.findings import hang_findings
from aimcalc.rig.hang.plan import usual_plan
from aimcalc.scene.model import Pipe, Position
from aimcalc.sheets.cautions import SHORT
from aimcalc.sheets.columns import grid
from aimcalc.sheets.facts import footer, trim_words
from aimcalc.sheets.hang_columns import hang_columns
from aimcalc.sheets.hang_facts import position_lines
from aimcalc.sheets.hang_rows import PRINTED, HangRow, hang_rows
from aimcalc.sheets.hang_steps import Bodies, sentence, steps
from aimcalc.sheets.names import short, short_number
from aimcalc.sheets.paper import Page, PaperOptions, Sheet, Target, body_of, write_pages
from aimcalc.sheets.rows import ZERO_MARKS
from aimcalc.sheets.stance import stance_of
from aimcalc.sheets.table import Table, table_pages

if TYPE_CHECKING:
    from aimcalc.rig.answers import Answer, Finding
    from aimcalc.rig.hang.records import PositionPlan
    from aimcalc.rig.solve import Rig

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


def hang_sheets(
    rig: Rig, findings: Sequence[Finding], target: Target, options: PaperOptions
) -> int:
    """Number of pages of the hang sheets, written to a path or a binary stream.

    Printed are the findings about the work at the pipe, and those of `findings` that matter there.
    """
    plan = usual_plan(rig)
    told = to_tell(rig, findings)
    rows = hang_rows(rig, plan, told, options.length)
    answers = rig.answers()
    pages = [
        page
        for position in plan.positions
        if position.units
        for page in _pages(rig, position, rows[position.position], told, answers, options)
    ]
    if not pages:
        pages = [Page(_draw_none, footer(rig, "hang sheets"), SHORT)]
    title = f"{rig.scene.settings.title}: hang sheets"
    return write_pages(target, pages, options, title=title, landscape=True)


def to_tell(rig: Rig, findings: Sequence[Finding]) -> list[Finding]:
    """Findings for whoever hangs: about the work at the pipe, then the others that matter there."""
    about_hanging = hang_findings(rig, usual_plan(rig))
    return [*about_hanging, *(found for found in findings if found.rule in WHILE_HANGING)]


def _draw_none(sheet: Sheet) -> None:
    sheet.text(sheet.body.left, sheet.body.top - 20, "This scene has no units.", 14)


def _pages(
    rig: Rig,
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
    every = steps(plan.sort, opens, _bodies(rig, members))
    body = body_of(options, True, SHORT)
    ticks = [step.word for step in every]
    trim = trim_words(position, options.length)
    start = (
        f"{short_number(rig, members[0], LONGEST_NUMBER)} = {stance.start}" if stance.start else ""
    )
    table = Table(
        name=short(rig, name),
        title=TITLES[plan.sort],
        note=trim,
        stance=stance,
        start=start,
        grid=grid(hang_columns(plan.sort, _zero(position)), body.left, body.right, ticks),
        findings=tuple(
            f"{found.severity.upper()}: {found.says}"
            for found in findings
            if found.position == name and not found.unit and found.severity in PRINTED
        ),
        facts=footer(rig, name, [trim]),
        always=(f"STEPS: {sentence(every)}",),
        first=tuple(position_lines(rig, plan, options.length)),
    )
    return table_pages(table, rows, body)


def _bodies(rig: Rig, members: Sequence[int]) -> Bodies:
    """How the bodies of a row lie."""
    lying = [bool(rig.aims.attitude[k] == ON_ITS_SIDE) for k in members]
    direct = any(rig.units[k].mount == "direct" for k in members)
    return Bodies(not all(lying), any(lying), direct)


def _zero(position: Position) -> str:
    """What the marks are measured from, as the head of their column says it."""
    if not isinstance(position, Pipe):
        return "the FOOT"
    return ZERO_MARKS.get(position.zero, "ZERO MARK")
