"""Lists for the store and the floor: what to pull, cables in laying order, circuits, wedges to cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING, BinaryIO

from aimcalc.findings.report import in_hang_order
from aimcalc.hang.circuits import conductor
from aimcalc.hang.plan import cable_name, twofers
from aimcalc.hang.records import WARM
from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import body_of, write_pages
from aimcalc.rig.wording import weight
from aimcalc.text import words as w
from aimcalc.text.cables import fold_words, in_one_cell, place_words, twofer_words
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.hang_rows import (
    HangRow,
    hang_rows,
    load_words,
)
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.wedges import rise_words, wedge_words, wedges_to_cut

if TYPE_CHECKING:
    from aimcalc.hang.records import CircuitPlan, HangPlan, Pull, UnitPlan
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.lists import Cell, Table


WHOLE = (
    Col("item", 220, bold=True),
    Col("needed", 60, align="r"),
    Col("spare", 60, align="r"),
    Col("take", 60, bold=True, align="r"),
    Col("in store", 60, align="r"),
    Col("pulled", 50, tick=True),
    Col("note", 80),
)
CUTS = (
    Col("frame", 140, bold=True),
    Col("colour", 180, bold=True),
    Col("needed", 60, align="r"),
    Col("spare", 60, align="r"),
    Col("cut", 60, bold=True, align="r"),
    Col("done", 50, tick=True),
    Col("", 40),
)
ONE = (
    Col("", 250),
    Col("", 70, bold=True, align="r"),
    Col("", 50, tick=True),
    Col("", 220),
)
CABLES = (
    Col("position", 90, bold=True, name=True),
    Col("circuit", 50, bold=True),
    Col("units", 96, wrap=True),
    Col("cable", 66, bold=True),
    Col("must\nreach", 66),
    Col("from\noutlet at", 84),
    Col("fold\nback at", 84, wrap=True),
    Col("ties", 32, align="r"),
    Col("laid", 36, tick=True),
)
CIRCUITS = (
    Col("circuit", 56, bold=True),
    Col("position", 110, name=True),
    Col("units", 100, wrap=True),
    Col("load", 110),
    Col("amperes", 70, align="r"),
    Col("share of\nthe limit", 70, align="r"),
    Col("volts\nlost", 60, align="r"),
)
LAYING = (
    "The longest way first, so that no cable crosses one already laid. Run spare past the unit and fold it "
    "back once, tied with a double wrap and a bow; never coil it. Outlet to fold and fold to tie add up to "
    "the cable less {kept}, kept at the unit."
)


def counts(
    show: Show,
    pdf: BinaryIO | None,
    workbook: BinaryIO,
    options: PaperOptions,
) -> int:
    """Number of pages of `pdf`, none without it; `workbook` has the same lists, a sheet each."""
    from aimcalc.text.lists import write_tables

    rig, plan = show.rig, show.hang
    write_tables(workbook, tables(rig, plan, options.length), options)
    if pdf is None:
        return 0
    facts = footer(rig, "counts")
    body = body_of(options, False, SHORT)
    sections = list(_sections(rig, plan, options.length))
    from aimcalc.sheets.wedge_pages import wedge_pages  # what a workbook does without

    pages = [
        *list_pages("Pull list, cable, circuits", sections, body, facts, SHORT),
        *wedge_pages(rig, plan, options.length, facts),
    ]
    return write_pages(pdf, pages, options, title=f"{rig.scene.settings.title}: counts")


def _sections(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> Iterator[Section]:
    spare = f"{100 * plan.options.spare:g} % spare, rounded up"
    rows = [_pull_row(plan, pull) for pull in _whole_show(plan) if pull.sort != "colour"]
    whole = [[*row[:5], "", row[5]] for row in rows]
    note = f"{spare}, but never more than the store has. Colours are in the cut list."
    yield Section("The whole show", WHOLE, whole, note, blank=2, row=16)
    if plan.cuts:
        note = f"{spare}. By the size of the colour frame, or by kind where its frame_size is not typed."
        yield Section("Colour cut list", CUTS, cut_rows(plan), note, row=16)
    for position in plan.positions:
        mine = [p for p in plan.counts if p.position == position.position]
        if mine:
            title = f"{position.position}: {weight(position.weight, length)} in all"
            yield Section(title, ONE, [[p.item, str(p.count)] for p in mine], row=15)
    cables = cable_rows(rig, plan, length)
    if cables:
        kept = w.length(plan.options.cable_extra, length, w.SIZE)
        yield Section("Cable, in laying order", CABLES, cables, LAYING.format(kept=kept), row=18)
    yield Section(
        "Circuits in use", CIRCUITS, circuit_rows(rig, plan), _limits(rig, plan), row=15, size=10
    )


def _limits(rig: SolidRig, plan: HangPlan) -> str:
    """What the columns of the circuits mean."""
    share = rig.scene.settings.continuous_share
    hours = (
        "Local code and qualified people say what share of it a load kept on for hours may take."
    )
    if share is not None:
        hours = f"A load kept on for hours: at most {100 * share:g} % of it, as typed (continuous_share)."
    return (
        f"Load against the entered limit. {hours} Volts lost: along the longest cable on the position "
        f"alone, {conductor(rig, plan.options)} copper at {WARM} °C."
    )


def pull_rows(plan: HangPlan) -> list[list[str]]:
    """What to pull for the whole show, in the order of `PULLS`."""
    return [_pull_row(plan, pull) for pull in _whole_show(plan)]


def _pull_row(plan: HangPlan, pull: Pull) -> list[str]:
    owned = "" if pull.owned is None else str(pull.owned)
    numbers = (str(n) for n in (pull.count, pull.spare, pull.take))
    return [pull.item, *numbers, owned, pull_note(plan, pull)]


def pull_note(plan: HangPlan, pull: Pull) -> str:
    """What the store cannot give: "SHORT 3", "no spare"."""
    if pull.short:
        return f"SHORT {pull.short}"
    if pull.spare < ceil(pull.count * plan.options.spare):
        return f"only {pull.spare} spare" if pull.spare else "no spare"
    return ""


def cut_rows(plan: HangPlan) -> list[list[str]]:
    """Cells of the colours to cut: frame, colour, needed, spare, both together."""
    return [
        [cut.frame, cut.colour, str(cut.count), str(cut.spare), str(cut.count + cut.spare)]
        for cut in plan.cuts
    ]


def _whole_show(plan: HangPlan) -> list[Pull]:
    return [pull for pull in plan.counts if pull.position is None]


def cable_rows(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[list[str]]:
    """Cells of every cable, in the order of `CABLES`."""
    units = {u.unit: u for position in plan.positions for u in position.units}
    shared = twofers(rig, [unit.cable for unit in in_hang_order(plan)])
    rows = []
    for cable in plan.cables:
        position, unit = rig.scene.positions[cable.position], units[cable.units[0]]
        run, k = unit.cable, rig.by_name[cable.units[0]]
        numbers = in_one_cell([rig.number(unit) for unit in cable.units])
        twofer = ", ".join(twofer_words(rig, run, shared.get(k)))
        rows.append(
            [
                cable.position,
                cable.circuit,
                f"{numbers}: {twofer}" if twofer else numbers,
                "NONE LEFT" if cable.stock is None else cable_name(rig, cable.stock),
                w.length_up(cable.need, length, w.SIZE),
                "" if run.outlet is None else place_words(position, run.outlet, length),
                _fold(rig, k, unit, length),
                "" if run.ties is None else str(run.ties),
            ]
        )
    return rows


def _fold(rig: SolidRig, k: int, unit: UnitPlan, length: w.LengthUnit) -> str:
    """Where a cable is folded back: "3.18 m SL", "twice", "at the unit"."""
    if unit.cable.double_back is None:
        return ""
    return fold_words(rig, k, unit, length)[1]


def circuit_rows(rig: SolidRig, plan: HangPlan) -> list[list[str]]:
    """Cells of every circuit in use, in the order of `CIRCUITS`."""
    return [
        [
            circuit.circuit,
            circuit.positions[0],
            _units(rig, circuit),
            load_words(circuit),
            "" if circuit.amps is None else f"{circuit.amps:.1f} A",
            "" if circuit.used is None else f"{100 * circuit.used:.0f} %",
            "" if not circuit.drop else f"{circuit.drop:.1f} V",
        ]
        for circuit in plan.circuits
        if circuit.units
    ]


def _units(rig: SolidRig, circuit: CircuitPlan) -> str:
    apart = len({rig.units[rig.by_name[name]].position for name in circuit.units}) > 1
    return in_one_cell([name if apart else rig.number(name) for name in circuit.units])


def tables(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> list[Table]:
    """The workbook's sheets: counts by position, colours to cut, marks, cable, circuits, wedges."""
    return [
        _count_table(plan),
        ("colours", heads(CUTS[:-2]), _cut_table(plan)),
        ("marks", MARKS, _mark_rows(rig, plan, length)),
        ("cable", heads(CABLES[:-1]), cable_rows(rig, plan, length)),
        ("circuits", heads(CIRCUITS), circuit_rows(rig, plan)),
        ("wedges", ("position", "pan", "set out", "for"), _wedge_rows(rig, plan, length)),
    ]


PULLS = ("item", "needed", "spare", "take", "in store", "note")
MARKS = (
    "position",
    "unit",
    "kind",
    "mark",
    "how",
    "from one end",
    "from the other",
    "spacing",
    "circuit",
    "cable",
    "tail tied",
    "weight",
)


def heads(columns: Sequence[Col]) -> tuple[str, ...]:
    """The heads of some columns, each on one line."""
    return tuple(col.head.replace("\n", " ") for col in columns)


def _count_table(plan: HangPlan) -> Table:
    """Items down, positions across, then needed, spare and what to take, as numbers."""
    names = [p.position for p in plan.positions if p.units]
    by_position = {(p.item, p.position): p.count for p in plan.counts if p.position is not None}
    rows: list[list[Cell]] = [
        [
            pull.item,
            *(by_position.get((pull.item, name)) for name in names),
            pull.count,
            pull.spare,
            pull.take,
            pull.owned,
            pull_note(plan, pull),
        ]
        for pull in _whole_show(plan)
    ]
    return "counts", ("item", *names, *PULLS[1:]), rows


def _cut_table(plan: HangPlan) -> list[list[Cell]]:
    return [[c.frame, c.colour, c.count, c.spare, c.count + c.spare] for c in plan.cuts]


def _mark_rows(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> Iterator[list[Cell]]:
    for name, rows in hang_rows(rig, plan, (), length).items():
        for row in rows:
            yield [name, *mark_cells(row)]


def mark_cells(row: HangRow) -> list[str]:
    """Cells of one unit, in the order of `MARKS` after the position."""
    ends = (*row.ends, "", "")[:2]
    return [
        row.number,
        row.kind,
        row.mark,
        row.how,
        *ends,
        row.spacing,
        row.circuit,
        ", ".join(filter(None, (*row.cable, *row.twofer))),
        ", ".join(filter(None, row.connector)),
        row.weight,
    ]


def _wedge_rows(rig: SolidRig, plan: HangPlan, length: w.LengthUnit) -> Iterator[list[Cell]]:
    for position in plan.positions:
        for cut in wedges_to_cut(position):
            pan = cut[0].pan
            yield [position.position, pan, rise_words(pan, length), wedge_words(rig, cut)]
