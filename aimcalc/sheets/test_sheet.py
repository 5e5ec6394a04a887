"""The test sheet: circuit by circuit, what to see when it comes on, and what to type back afterwards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import Target, body_of, write_pages
from aimcalc.text import words as w
from aimcalc.text.facts import SHORT, footer
from aimcalc.text.hang_rows import load_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.hang.records import CircuitPlan, HangPlan
    from aimcalc.scene.model import Kind, Unit
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


ROW = 24.0  # pt, so that a gloved hand can tick it
SPARE = 6  # lines left empty at the end
SHUTTERS = Col("shutters\nout", 48, tick=True)
WITH_SHUTTERS = ("ers",)  # families whose units have shutters of their own
COLUMNS = (
    Col("circuit", 54, bold=True),
    Col("load", 92),
    Col("unit", 36, bold=True),
    Col("channel", 48),
    Col("kind", 92, name=True),
    Col("comes\non", 42, tick=True),
    Col("unit\nnamed", 42, tick=True),
    SHUTTERS,
    Col("tail\ndown", 42, tick=True),
    Col("tail\nup", 42, tick=True),
    Col("reported,\ninitials", 74, wrap=True),
)
HOW = (
    "Bring one circuit up at a time, low, and only where that is allowed. Tick what you see: it comes on, it "
    "is the unit named, its shutters are out where it has any, and its tail hangs down (or is up: the body "
    "is rolled over)."
)
TYPE_BACK = (
    "Type back into the unit's own row of the hang list: hung = tail down (or tail up), works = yes (or no). "
    "aimcalc check then lists what is still to do."
)


def check_out(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the test sheet, written to a path or a binary stream."""
    rig, plan = show.rig, show.hang
    body = body_of(options, False, SHORT)
    facts = footer(rig, "test sheet")
    pages = list_pages("Test sheet, circuit by circuit", sections(rig, plan), body, facts, SHORT)
    return write_pages(target, pages, options, title=f"{rig.scene.settings.title}: test sheet")


def sections(rig: SolidRig, plan: HangPlan) -> list[Section]:
    """What is left, then the circuits of each position, units without one, and spare lines."""
    units = dict(zip(rig.names, zip(rig.units, rig.kinds, strict=True), strict=True))
    parts = []
    for position in plan.positions:
        mine = [c for c in plan.circuits if c.positions and c.positions[0] == position.position]
        rows = [row for circuit in mine for row in _rows(circuit, units)]
        idle = [circuit.circuit for circuit in mine if not circuit.units]
        if rows or idle:
            note = f"Not in use: {', '.join(idle)}." if idle else ""
            parts.append(Section(position.position, COLUMNS, rows, note, row=ROW))
    without = [name for name, (unit, _) in units.items() if unit.circuit is None]
    if without:
        rows = [_row("", "", name, *units[name], whole=True) for name in without]
        parts.append(Section("No circuit given", COLUMNS, rows, row=ROW))
    parts.append(Section("Spare lines", COLUMNS, (), blank=SPARE, row=ROW))
    first = parts[0]
    note = " ".join(part for part in (to_do_words(plan), HOW, TYPE_BACK, first.note) if part)
    return [first._replace(note=note), *parts[1:]]


def to_do_words(plan: HangPlan) -> str:
    """What the crew has reported so far: "Still to hang: 3 units. Still to test: 78 units." """
    left = plan.left
    hang, test = (
        w.count(len(some), "unit") if some else "none" for some in (left.to_hang, left.to_test)
    )
    told = f"Still to hang: {hang}. Still to test: {test}."
    return f"{told} Did not come on: {', '.join(left.failed)}." if left.failed else told


def _rows(circuit: CircuitPlan, units: dict[str, tuple[Unit, Kind]]) -> list[list[str]]:
    """A row a unit of one circuit; circuit and load on the first."""
    elsewhere = len({units[name][0].position for name in circuit.units}) > 1
    rows = []
    for k, name in enumerate(circuit.units):
        head = (circuit.circuit, load_words(circuit)) if k == 0 else ("", "")
        rows.append(_row(*head, name, *units[name], whole=elsewhere))
    return rows


def _row(circuit: str, load: str, name: str, unit: Unit, kind: Kind, *, whole: bool) -> list[str]:
    number = name if whole else unit.number
    bare = kind.family not in WITH_SHUTTERS
    boxes = ["none" if bare and col is SHUTTERS else "" for col in COLUMNS if col.tick]
    return [circuit, load, number, unit.channel or "", unit.kind, *boxes, reported(unit)]


def reported(unit: Unit) -> str:
    """What was typed back of a unit: "tail down, works"."""
    works = "" if unit.works is None else "works" if unit.works else "NOT WORKING"
    return ", ".join(part for part in (unit.hung or "", works) if part)
