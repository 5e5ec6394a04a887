"""What a terminal shows: the aims as a table for each position, the findings as a list, counts.

Words of aims load when aims are asked for: a list of findings needs none of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.scene.model import Pipe, Position, Unit
from aimcalc.text import words as w
from aimcalc.text.columns import folded, table

if TYPE_CHECKING:
    from aimcalc.solid.answers import Answer, Finding, Pool
    from aimcalc.solid.rig import SolidRig
    from aimcalc.text.rows import Row


SEVERITIES = {"stop": "stop", "warn": "warning", "note": "note"}  # and what one of each is called
AIM_HEADERS = (
    "position",
    "unit",
    "channel",
    "system",
    "kind",
    "field",
    "at",
    "hung",
    "square",
    "pan and swing",
    "sight tape or heading",
    "down or up",
    "plumb",
    "throw",
    "field at face",
    "target",
    "STAND across",
    "STAND up and down",
    "LANDS, ON or POLE",
    "match",
    "within",
    "findings",
    "remarks",
)
# Columns of the terminal's table: their heads, and their places among `AIM_HEADERS`.
_SHOWN = {
    "unit": (1,),
    "ch": (2,),
    "kind": (4,),
    "at": (6, 7),
    "square": (8,),
    "pan": (9,),
    "sight": (10,),
    "tip": (11,),
    "plumb": (12,),
    "throw": (13,),
    "field pool": (14,),
    "STAND": (15, 16, 17),
    "LANDS, ON or POLE": (18,),
    "": (21, 22),
}
# The same where the terminal is narrow: what is set, then in a second line where the light goes.
_NARROW = {
    **{head: at for head, at in _SHOWN.items() if head not in ("throw", "field pool", "")},
    "at": (6,),
    "hung": (7,),
    "": (21, 22),
}
_SECOND_LINE = ("STAND", "hung")
_NO_RAYS = "Every stop is counted. Light cut off and what the audience sees: aimcalc check."
_LEFT_OUT = "Throws and pools are left out: widen the terminal, or see --csv."


def aim_rows(rig: SolidRig, findings: Sequence[Finding], length: w.LengthUnit) -> list[list[str]]:
    """The aims in words, a row for every unit, its cells in the order of `AIM_HEADERS`."""
    from aimcalc.text.rows import rows_of

    marks = _marks(findings)
    return [
        _aim_row(row, rig.units[row.k], answer, length, marks.get(answer.unit, ""))
        for row, answer in zip(rows_of(rig, findings, length), rig.answers, strict=True)
    ]


def aims_text(
    rig: SolidRig, findings: Sequence[Finding], length: w.LengthUnit, width: int | None = None
) -> str:
    """A table of the aims for each position in ladder order, and the count of findings.

    `width` is the terminal's, see `aimcalc.text.columns`.
    """
    from aimcalc.text.facts import headline, position_facts, tape_words

    rows = aim_rows(rig, findings, length)
    parts = [headline(rig)]
    acts = [(f.rig, f.positions, aim_rows(f.rig, (), length)) for f in rig.further if f.positions]
    some_left_out = False
    for name, units in rig.rows.items():
        here = [(rig, rows), *((there, told) for there, moved, told in acts if name in moved)]
        for each, cells in here if units else ():
            facts = [*position_facts(each, name, length), *tape_words(each, name, length)]
            told = ", ".join([w.count(len(units), "unit"), *facts])
            mine, position = [cells[k] for k in units], rig.scene.positions[name]
            lines = _table(_SHOWN, position, mine, None)
            if width is not None and max(map(len, lines)) > width:
                lines = _table(_NARROW, position, mine, width)
                some_left_out = True
            parts.append("\n".join([f"{name}: {told}", *lines]))
    if some_left_out:
        parts.append(_LEFT_OUT)
    told = tally(rig, findings)
    parts.append(f"{_NO_RAYS}\n{told}" if rows else told)
    return "\n\n".join(folded(part, width) for part in parts)


def findings_text(
    findings: Sequence[Finding], width: int | None = None, of: Sequence[Finding] | None = None
) -> str:
    """Every finding with its rule, where, what is so and what to do, worst first, and the count.

    Where `findings` are only some `of` all that were found, those are what is counted.
    """
    told = (folded(_finding(found), width) for found in findings)
    return "\n\n".join([*told, counts(findings if of is None else of)])


def columns_text(columns: Sequence[tuple[str, str, str]], width: int | None = None) -> str:
    """Each column of a hang list: its letters, its heading, the key of a unit that it holds."""
    if not columns:
        return "No columns: the scene names no hang list, or none in which headings were found."
    return "\n".join(
        ["The hang list's columns:", *table(("column", "heading", "is read as"), columns, width)]
    )


def counts(findings: Sequence[Finding]) -> str:
    """How many findings of each severity: "2 stops, 1 warning, 0 notes", or that there are none."""
    if not findings:
        return "Nothing found: no stop, no warning, no note."
    told = (
        (word, sum(f.severity == severity for f in findings))
        for severity, word in SEVERITIES.items()
    )
    return ", ".join(w.count(number, word) for word, number in told)


def tally(rig: SolidRig, findings: Sequence[Finding]) -> str:
    """How many findings there are; all of them where there is no unit for anything else to be said of."""
    return counts(findings) if rig.units else findings_text(findings)


def _finding(found: Finding) -> str:
    where = found.unit or found.position or "the scene"
    row = f"  ({found.row})" if found.row else ""
    return f"{found.severity.upper()}  {found.rule}  {where}{row}\n    {found.says}\n    Do: {found.do}"


def _table(
    shown: dict[str, tuple[int, ...]],
    position: Position,
    rows: Sequence[Sequence[str]],
    width: int | None,
) -> list[str]:
    """One position's lines; a boom or stand has a heading where a pipe has a tape to sight along."""
    sight = "sight" if isinstance(position, Pipe) else "heading"
    heads = [sight if head == "sight" else head for head in shown]
    cells = [
        [", ".join(filter(None, (row[k] for k in at))) for at in shown.values()] for row in rows
    ]
    return table(heads, cells, width, _SECOND_LINE)


def _marks(findings: Sequence[Finding]) -> dict[str, str]:
    """The stops and warnings of each unit by rule: "STOP clip-under, WARN tight"."""
    marks: dict[str, dict[str, None]] = {}
    for found in findings:
        if found.unit and found.severity != "note":
            marks.setdefault(found.unit, {})[f"{found.severity.upper()} {found.rule}"] = None
    return {unit: ", ".join(texts) for unit, texts in marks.items()}


def _aim_row(row: Row, unit: Unit, answer: Answer, length: w.LengthUnit, told: str) -> list[str]:
    turn = row.turn or row.turn_note
    if row.counted.dial:  # of a stem that is not plumb: it is not the heading
        turn = f"dial {turn}"
    return [
        answer.position,
        row.number,
        unit.channel or "",
        unit.system or "",
        row.kind,
        row.field,
        row.hangs[0],
        row.hangs[1],
        answer.square or "",
        turn,
        row.sight,
        f"{row.tip.word} {row.tip.angle}".strip(),
        row.tip.plumb,
        "" if answer.throw is None else w.length(answer.throw, length, w.SIZE),
        _pool(answer.face_pool, length),
        row.stand[0],
        row.stand[1],
        row.stand[2],
        row.mark.said,
        row.match,
        ", ".join(part for part in row.within if part),
        told,
        ", ".join(row.remarks),
    ]


def _pool(pool: Pool | None, length: w.LengthUnit) -> str:
    """The field on the level plane at the face: its length and width, or that it is open."""
    if pool is None:
        return ""
    if pool.length is None or pool.width is None:
        return "OPEN"
    return f"{w.length(pool.length, length, w.SIZE)} x {w.length(pool.width, length, w.SIZE)}"
