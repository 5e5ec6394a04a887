"""Aims as lists: JSON for programs, CSV for anything, a workbook for people. Metres and degrees.

Text that a spreadsheet would take for a formula stays text: a workbook has cells of their own kind for
it, a CSV file gets an apostrophe in front.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any, BinaryIO

import msgspec

from aimcalc.solid.answers import Answer, Finding

if TYPE_CHECKING:
    from aimcalc.scene.model import Unit
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.stamp import PaperOptions


Cell = str | float | None
Table = tuple[str, Sequence[str], Iterable[Sequence[Cell]]]

FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")
OWN_WORDS = {  # parts of a workbook that name a program, and what they say instead
    "docProps/app.xml": [
        (b"<Application>.*?</Application>", b"<Application>aimcalc</Application>"),
        (b"<AppVersion>.*?</AppVersion>", b""),
    ],
    "xl/workbook.xml": [(b'<fileVersion appName="xl"[^>]*/>', b"")],
    "xl/theme/theme1.xml": [
        (b'name="Office( Theme)?"', b'name="aimcalc"'),
        (
            b"<a:font script=[^>]*/>",
            b"",
        ),  # faces of many makers, for scripts that have none of ours
    ],
}
EPOCH = datetime(2000, 1, 1)  # when a workbook without a time was made
LONGEST_CELL = 32767  # characters a workbook's cell holds
DIGITS = 6  # decimals in CSV: a micrometre, a millionth of a degree
POINTS = ("clamp", "pivot", "lens", "face", "stand", "lands")
POOLS = ("face_pool", "deck_pool")
WRITTEN = ("system", "channel", "circuit", "colour")  # what the user wrote of each unit
UNITS = {
    **dict.fromkeys(("heading", "down", "pan", "yoke", "roll"), "deg"),
    **dict.fromkeys(("down_tolerance", "pan_tolerance"), "deg"),
    **dict.fromkeys(
        ("throw", "beam_diameter", "field_diameter", "past_stand", "sight", "sight_out"), "m"
    ),
    **dict.fromkeys(("per_degree_pan", "per_degree_down", "length", "width", "near", "far"), "m"),
    "area": "m2",
}


class Solved(msgspec.Struct, frozen=True):
    """What `solve --json` prints."""

    scene: str
    unit_of_length: str
    units: list[Answer]
    findings: list[Finding]


class Tried(Solved, frozen=True):
    """The same of a scene with something set for one call alone."""

    what_if: tuple[str, ...]


class Issued(Solved, frozen=True):
    """What `aims.json` holds: the same, then which set it is of."""

    revision: str
    set: str
    printed: str | None
    draft: bool
    cautions: str
    what_if: tuple[str, ...]
    part: str


def lists(
    show: Show,
    csv: BinaryIO,
    workbook: BinaryIO,
    json: BinaryIO,
    options: PaperOptions,
) -> None:
    """Write `aims.csv`, `aims.xlsx` and `aims.json`."""
    rig, findings = show.rig, show.findings
    csv.write(as_csv(rig, findings, options))
    write_workbook(rig, findings, workbook, options)
    json.write(as_json(rig, findings, options))


def as_json(
    rig: SolidRig, findings: Sequence[Finding], options: PaperOptions | None = None
) -> bytes:
    """The whole answer as one JSON object, indented. What does not exist is null.

    What was set for this call alone is told last. With `options` that have a stamp, its set is told after
    the answer.
    """
    answers = [a for a in rig.answers_with_losses if options is None or options.holds(a.unit)]
    said = [f for f in findings if options is None or not f.unit or options.holds(f.unit)]
    solved = (rig.scene.settings.title, "m", answers, said)
    tried = rig.scene.what_if
    told = Tried(*solved, tried) if tried else Solved(*solved)
    if options and options.stamp.mark:
        from aimcalc.text.facts import SHORT

        stamp = options.stamp
        of = (stamp.revision, stamp.mark, stamp.iso)
        told = Issued(*solved, *of, options.draft, SHORT, tried, options.part_words)
    return json_bytes(told)


def json_bytes(told: Any) -> bytes:
    """Anything as JSON, indented, a line's end after it. What is not known (NaN) is null."""
    return msgspec.json.format(msgspec.json.encode(told), indent=1) + b"\n"


def as_csv(
    rig: SolidRig, findings: Sequence[Finding], options: PaperOptions | None = None
) -> bytes:
    """One row a unit in hang order, comma-separated UTF-8. What does not exist is an empty cell."""
    return csv_bytes(headers(), rows(rig, findings, options), options)


def csv_bytes(
    heads: Sequence[str], cells: Iterable[Sequence[Cell]], options: PaperOptions | None = None
) -> bytes:
    """Any table as comma-separated UTF-8, text that a spreadsheet would take for a formula kept as text.

    What set it is of is told in the last columns of every row: a line before or after the table would be
    taken for a unit by whatever reads the file, and rows that are sorted or copied keep their set.
    """
    import csv
    import io

    from aimcalc.text.stamp import imprint

    told = imprint(options)
    last = [_csv_cell(cell) for cell in told.values()]
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow([*heads, *told])
    writer.writerows([*(_csv_cell(cell) for cell in row), *last] for row in cells)
    return text.getvalue().encode()


def headers() -> list[str]:
    """The column names of the flat table, each with its unit: the JSON keys, points and pools taken apart."""
    return [*_columns(), "findings"]


def rows(
    rig: SolidRig, findings: Sequence[Finding], options: PaperOptions | None = None
) -> Iterable[list[Cell]]:
    """The cells of the flat table, a row for every unit that is printed."""
    getters = list(_columns().values())
    told = _told(findings)
    for answer, unit in zip(rig.answers_with_losses, rig.units, strict=True):
        if options is None or options.holds(answer.unit):
            yield [*(get(answer, unit) for get in getters), told.get(answer.unit)]


def write_workbook(
    rig: SolidRig, findings: Sequence[Finding], stream: BinaryIO, options: PaperOptions
) -> None:
    """A workbook: the aims as the crew reads them, the exact numbers, the findings."""
    from aimcalc.text.tables import AIM_HEADERS, aim_rows

    told = [
        [f.severity, f.rule, f.unit or f.position, f.says, f.do]
        for f in findings
        if not f.unit or options.holds(f.unit)
    ]
    aims = [
        row
        for row, name in zip(aim_rows(rig, findings, options.length), rig.names, strict=True)
        if options.holds(name)
    ]
    write_tables(
        stream,
        [
            ("aims", AIM_HEADERS, aims),
            ("numbers", headers(), rows(rig, findings, options)),
            ("findings", ("severity", "rule", "where", "says", "do"), told),
        ],
        options,
    )


def write_tables(
    stream: BinaryIO, tables: Iterable[Table], options: PaperOptions | None = None
) -> None:
    """A workbook with a sheet for every table: (name, heads, rows), under what set it is of.

    The lines over a table stay in sight when it is scrolled, and stand on every page that is printed of it.
    """
    from xlsxwriter import Workbook

    from aimcalc.text.stamp import NO_SET, headlines

    stamp = options.stamp if options else NO_SET
    made = stamp.printed.astimezone(UTC).replace(tzinfo=None) if stamp.printed else EPOCH
    lines = headlines(options)

    settings = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    data = BytesIO()
    book = Workbook(data, settings)
    book.set_properties(
        {"created": made, "comments": "aimcalc", "title": stamp.title, "subject": stamp.words}
    )
    loud = book.add_format({"bold": True})
    bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
    for name, names, cells in tables:
        sheet = book.add_worksheet(name)
        for row, line in enumerate(lines):
            sheet.write_string(row, 0, line, loud)
        _fill(sheet, bold, names, cells, len(lines))
    book.close()
    stream.write(own_properties(data.getvalue()))


def own_properties(workbook: bytes) -> bytes:
    """The same XLSX, naming this program as its maker in place of the one that the library imitates."""
    from zipfile import ZipFile

    out = BytesIO()
    with ZipFile(BytesIO(workbook)) as given, ZipFile(out, "w") as made:
        for entry in given.infolist():
            part = given.read(entry)
            for old, new in OWN_WORDS.get(entry.filename, ()):
                part = re.sub(old, new, part)
            made.writestr(entry, part)
    return out.getvalue()


def _columns() -> dict[str, Callable[[Answer, Unit], Cell]]:
    """How each column is got from a unit's answer and from what the user wrote of it."""
    columns: dict[str, Callable[[Answer, Unit], Cell]] = {}
    for key in Answer.__struct_fields__:
        if key in POINTS:
            for axis, name in enumerate("xyz"):
                columns[f"{key} {name} (m)"] = _point(key, axis)
        elif key == "meets":
            columns["meets"] = _stop("name")
            for axis, name in enumerate("xyz"):
                columns[f"meets {name} (m)"] = _stop("point", axis)
            columns["meets height (m)"] = _stop("height")
        elif key in POOLS:
            for part in ("closed", "length", "width", "near", "far", "area"):
                columns[_named(f"{key} {part}", part)] = _pool(key, part)
        elif key == "blocked_by":
            columns["blocked_by"] = _losses
        elif key == "further":
            columns["further"] = _further
        else:
            columns[_named(key, key)] = _plain(key)
        if key == "number":
            columns |= {written: _written(written) for written in WRITTEN}
    return columns


def _named(name: str, key: str) -> str:
    return f"{name} ({UNITS[key]})" if key in UNITS else name


def _plain(key: str) -> Callable[[Answer, Unit], Cell]:
    return lambda answer, unit: getattr(answer, key)


def _losses(answer: Answer, unit: Unit) -> Cell:
    """What takes of the light, each with its share: "border 2 0.042; leg 1 SL 0.012"."""
    return "; ".join(f"{loss.name} {loss.share:.3f}" for loss in answer.blocked_by or ()) or None


def _further(answer: Answer, unit: Unit) -> Cell:
    """Heading and down at further trims and spots: "act 2: heading 12.3, down 40.1; spot 2: ..."."""
    told = [
        f"{aim.name}: heading {aim.heading:.1f}, down {aim.down:.1f}"
        for aim in answer.further or ()
        if aim.heading is not None and aim.down is not None
    ]
    return "; ".join(told) or None


def _written(key: str) -> Callable[[Answer, Unit], Cell]:
    return lambda answer, unit: getattr(unit, key)


def _point(key: str, axis: int) -> Callable[[Answer, Unit], Cell]:
    def get(answer: Answer, unit: Unit) -> Cell:
        point = getattr(answer, key)
        return None if point is None else point[axis]

    return get


def _stop(part: str, axis: int | None = None) -> Callable[[Answer, Unit], Cell]:
    """A part of what the axis meets first."""

    def get(answer: Answer, unit: Unit) -> Cell:
        stop = answer.meets
        value: Any = None if stop is None else getattr(stop, part)
        cell: Cell = value if stop is None or axis is None else value[axis]
        return cell

    return get


def _pool(key: str, part: str) -> Callable[[Answer, Unit], Cell]:
    def get(answer: Answer, unit: Unit) -> Cell:
        pool = getattr(answer, key)
        value: Any = None if pool is None else getattr(pool, part)
        return ("yes" if value else "no") if isinstance(value, bool) else value

    return get


def _told(findings: Sequence[Finding]) -> dict[str, str]:
    """What is told of each unit, worst first, in one cell."""
    told: dict[str, list[str]] = {}
    for found in findings:
        if found.unit:
            told.setdefault(found.unit, []).append(f"{found.severity} {found.rule}")
    return {unit: "; ".join(texts) for unit, texts in told.items()}


def _csv_cell(cell: Cell) -> Cell:
    if isinstance(cell, str):
        return f"'{cell}" if cell.startswith(FORMULA_STARTS) else cell
    return None if cell is None else round(cell, DIGITS) + 0.0  # no "-0.0"


def _fill(
    sheet: Any, bold: Any, names: Sequence[str], rows: Iterable[Sequence[Cell]], top: int
) -> None:
    """Write a table into a worksheet from row `top` on, its header fixed and bold, cells as what they are."""
    for column, name in enumerate(names):
        sheet.write_string(top, column, name, bold)
    count = top
    for count, row in enumerate(rows, top + 1):
        for column, cell in enumerate(row):
            if isinstance(cell, str):
                sheet.write_string(count, column, cell[:LONGEST_CELL])
            elif cell is not None:
                sheet.write_number(count, column, cell)
    sheet.freeze_panes(top + 1, 0)
    sheet.repeat_rows(0, top)
    sheet.autofilter(top, 0, count, len(names) - 1)
    sheet.set_column(0, len(names) - 1, 13)
