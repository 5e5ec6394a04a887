"""The columns of the hang sheets."""

from __future__ import annotations

from aimcalc.sheets.columns import TYPE, Column, key_cell, lines_cell
from aimcalc.sheets.hang_rows import HangRow
from aimcalc.sheets.paper import Box, Sheet
from aimcalc.sheets.typeset import BOLD, REGULAR, text_width, wrap


def hang_columns(sort: str, zero: str) -> list[Column]:
    """Columns for a pipe, a boom or a stand; `zero` is what its marks are measured from."""
    columns = [
        Column(("UNIT", "channel"), 40, unit_cell),
        Column(("TYPE", "weight, load"), 88, type_cell),
        Column(("MARK", f"from {zero}"), 88, mark_cell),
        Column(("FROM ENDS", "of the " + sort), 80, ends_cell),
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
    lines_cell(sheet, box, [part for part in (row.kind, row.how, heavy) if part])


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
    lines = row.cable if len(row.cable) > 1 else wrap(row.cable[0], BOLD, TYPE, box.width)
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
