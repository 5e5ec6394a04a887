"""The paper of "predict, then light it": a log sheet to fill in, and the class's page made from the logs."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import Page, Target, body_of, write_pages
from aimcalc.rig.wording import joined
from aimcalc.teach.class_log import COLUMNS, Group, Try
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table
from aimcalc.text.facts import LONG, SHORT, footer
from aimcalc.text.learn_text import cause_words
from aimcalc.text.names import short_unit

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.text.stamp import PaperOptions

CLASS = LONG[-1][1]
HOW = (
    "Before it is lit: read dial and level, work out where it will land, write that under predicted. "
    "Then light it: mark the centre of its light, measure, write it under landed. Nudge, count, measure "
    "again. Distances are from the centre line (SL, SR) and the plaster line (US, DS)."
)
LOG = (
    Col("unit", 96, bold=True, name=True),
    *(Col(head, 58, tick=True) for head in ("read\ndown", "read\npan")),
    *(
        Col(f"{head}\n{side}", 66, tick=True)
        for head in ("predicted", "landed", "after")
        for side in ("across", "up stage")
    ),
    Col("nudges", 46, tick=True),
    Col("signed", 46, tick=True),
)
BLANK = 4  # rows to write in, under each group's units
SUMMED = (
    Col("group", 60, bold=True, wrap=True),
    Col("middle miss\nbefore", 64),
    Col("middle miss\nafter", 64),
    Col("nudges", 44, align="r"),
    Col("most likely", 190, wrap=True),
    Col("look for", 210, wrap=True),
)
EACH = (
    Col("unit", 110, bold=True, name=True),
    Col("predicted,\noff by", 70),
    Col("miss\nbefore", 70),
    Col("miss\nafter", 70),
    Col("nudges", 50, align="r"),
    Col("what we learnt to look for", 230, wrap=True),
)


def log_pages(show: Show, groups: Sequence[str], options: PaperOptions) -> list[Page]:
    """A log sheet with a page a group: its units, and rows for more."""
    rig = show.rig
    units = [(short_unit(rig, k), *[""] * (len(LOG) - 1)) for k in range(len(rig.units))]
    sections = [
        Section(
            f"GROUP {group}", LOG, units, note=f"{HOW} {CLASS}", blank=BLANK, row=30.0, anew=True
        )
        for group in groups
    ]
    body = body_of(options, landscape=True, cautions=SHORT)
    return list_pages("PREDICT, THEN LIGHT IT", sections, body, footer(rig, "log"), SHORT)


def log_csv(show: Show, groups: Sequence[str]) -> bytes:
    """The log to type, a row for each unit of each group."""
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for group in groups:
        for name in show.rig.names:
            rows.writerow([group, name, *[""] * (len(COLUMNS) - 2)])
    return text.getvalue().encode()


def class_page(show: Show, groups: Sequence[Group], target: Target, options: PaperOptions) -> int:
    """Number of pages of the class's page."""
    unit = options.length
    sections = [
        Section("GROUP BY GROUP", SUMMED, [_summed(group, unit) for group in groups], size=10.0)
    ]
    for group in groups:
        rows = [_each(one, unit) for one in group.tries]
        note = group.contradicts or _causes(group)
        sections.append(Section(f"GROUP {group.name}", EACH, rows, note=note, size=10.0))
    body = body_of(options, landscape=False, cautions=SHORT)
    facts = footer(show.rig, "the class's page")
    pages = list_pages("WHAT THE LIGHT SAID", sections, body, facts, SHORT)
    title = f"{show.scene.settings.title}: the class's page"
    return write_pages(target, pages, options, title=title)


def class_text(groups: Sequence[Group], unit: w.LengthUnit, width: int | None = None) -> str:
    """The same for a terminal."""
    heads = [head.head.replace("\n", " ") for head in SUMMED]
    lines = table(heads, [_summed(group, unit) for group in groups], width)
    heads = [head.head.replace("\n", " ") for head in EACH]
    for group in groups:
        lines += ["", f"Group {group.name}: {group.contradicts or _causes(group)}"]
        lines += table(heads, [_each(one, unit) for one in group.tries], width)
    return folded("\n".join(lines), width)


def _summed(group: Group, unit: w.LengthUnit) -> tuple[str, ...]:
    likely = cause_words(group.causes[0]) if group.causes else ""
    return (
        group.name,
        _size(group.middle("before"), unit),
        _size(group.middle("after"), unit),
        str(group.nudges),
        "landings contradict each other" if group.contradicts else likely,
        group.look_for,
    )


def _each(one: Try, unit: w.LengthUnit) -> tuple[str, ...]:
    sizes = (_size(each, unit) for each in (one.predicted, one.before, one.after))
    return one.unit, *sizes, "" if one.nudges is None else str(one.nudges), one.learnt


def _size(metres: float | None, unit: w.LengthUnit) -> str:
    return "" if metres is None else w.length(metres, unit, w.SIZE)


def _causes(group: Group) -> str:
    """The causes that its landings leave, with their chances."""
    told = [
        f"{cause_words(each)} ({max(1, min(99, round(100 * each.chance)))} %)"
        for each in group.causes
        if each.chance >= 0.02
    ]
    doubt = f" What fits none of it: {joined(group.doubted)}." if group.doubted else ""
    return f"Its landings tell: {'; '.join(told)}.{doubt}" if told else "No landing noted."
