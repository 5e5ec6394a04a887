"""The aim sheets: for every position a page a hanger can work from in the dark, and a cover.

Each position has AT TRIM pages. A pipe that comes in also has PIPE IN pages: with the pipe at chest
height the sight tape, the pan and the down are what they are at trim, but nothing lands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.page import Target, body_of, write_pages
from aimcalc.paper.stance import Stance, stance_of
from aimcalc.paper.table import (
    Column,
    Marks,
    Table,
    at_trim,
    grid,
    pipe_in,
    table_pages,
    upright_at_trim,
)
from aimcalc.scene.model import Boom, Pipe
from aimcalc.sheets.aim_cover import Section, cover_pages
from aimcalc.text import words as w
from aimcalc.text.cables import tail_words
from aimcalc.text.facts import SHORT, comes_in, footer, noun, position_facts, trim_words
from aimcalc.text.names import short, short_number
from aimcalc.text.rows import CURVED, NO_DECK, PRINTED, Row, rows_of, tape_zero, zero_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer, Finding
    from aimcalc.solid.rig import SolidRig


LONGEST_NUMBER = 6  # letters of a unit's number in the START END box


def aim_sheets(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the aim sheets, written to a path or a binary stream.

    Findings of severity stop and warn are printed on their rows and on the cover.
    """
    rig, findings = show.rig, show.findings
    tails = tail_words(rig, show.hang, options.length)
    told = zip(rows_of(rig, findings, options.length), tails, strict=True)
    rows, answers = [row._replace(tail=tail) for row, tail in told], rig.answers
    sections = [
        section
        for name, members in rig.rows.items()
        if any(options.holds(rig.names[k]) for k in members)
        for section in _sections(rig, findings, name, rows, answers, options)
    ]
    sections += _of_acts(show, options)
    sections.sort(key=lambda section: list(rig.rows).index(section.name))
    cover = cover_pages(rig, _of_part(rig, findings, options), sections, options)
    pages = [*cover, *(page for section in sections for page in section.pages)]
    title = f"{rig.scene.settings.title}: aim sheets"
    return write_pages(target, pages, options, title=title, landscape=True)


def _of_part(
    rig: SolidRig, findings: Sequence[Finding], options: PaperOptions
) -> Sequence[Finding]:
    """The findings that concern what is printed: its units, its positions, and the scene."""
    if not options.part:
        return findings
    places = {
        p for p, members in rig.rows.items() if any(rig.names[k] in options.part for k in members)
    }
    return [
        found
        for found in findings
        if (found.unit in options.part if found.unit else found.position in (None, *places))
    ]


def _of_acts(show: Show, options: PaperOptions) -> Iterator[Section]:
    """The AT TRIM pages of pipes at their further trims: what the units there are checked by."""
    for further in show.rig.further:
        told = rows_of(further.rig, (), options.length)
        for name in (name for name in show.rig.rows if name in further.positions):
            members = further.rig.rows[name]
            if any(options.holds(further.rig.names[k]) for k in members):
                answers = further.rig.answers
                yield from _sections(further.rig, (), name, told, answers, options)[:1]


def _sections(
    rig: SolidRig,
    findings: Sequence[Finding],
    name: str,
    rows: Sequence[Row],
    answers: Sequence[Answer],
    options: PaperOptions,
) -> list[Section]:
    """AT TRIM pages of a position and, where it comes in, PIPE IN pages."""
    members = rig.rows[name]
    mine = [answers[k] for k in members]
    stance = stance_of(rig.scene.positions[name], [rig.units[k] for k in members], mine)
    sides = _tape_sides(mine)
    printed = [k for k in members if options.holds(rig.names[k])]
    seen = [_as_seen(rows[k], answers[k], stance, sides) for k in printed]
    told = tuple(
        f"{found.severity.upper()}: {found.says}"
        for found in findings
        if found.position == name and not found.unit and found.severity in PRINTED
    )
    body = body_of(options, True, SHORT)
    return [
        Section(name, table.title, table_pages(table, seen, body))
        for table in _tables(rig, name, stance, seen, told, options, sides)
    ]


def _tape_sides(answers: Sequence[Answer]) -> dict[str, float]:
    """The sides of the pipe that a sight tape lies on, and how far out."""
    return {a.square: a.sight_out for a in answers if a.square and a.sight_out is not None}


def _as_seen(row: Row, answer: Answer, stance: Stance, tapes: dict[str, float]) -> Row:
    """A row as the reader sees it: who faces the reader, and which of two tapes it is sighted on."""
    if stance.sort != "pipe" or answer.square is None or not row.turn_note:
        return row
    if answer.square == stance.standing == row.counted.side:
        row = row._replace(counted=row.counted._replace(at_you=True))
    if len(tapes) > 1 and answer.sight is not None and row.sight and not row.sight_note:
        row = row._replace(sight_note=f"tape {answer.square} of {stance.noun}")
    if not tapes and row.sight_note in (NO_DECK, CURVED):  # the head of the column says so for all
        row = row._replace(sight="", sight_note="")
    return row


def _tables(
    rig: SolidRig,
    name: str,
    stance: Stance,
    rows: Sequence[Row],
    told: tuple[str, ...],
    options: PaperOptions,
    tapes: dict[str, float],
) -> list[Table]:
    """The tables of one position, empty of rows: what their pages share."""
    position = rig.scene.positions[name]
    body = body_of(options, True, SHORT)

    def table(title: str, columns: Sequence[Column], note: str) -> Table:
        start = (
            f"{short_number(rig, rows[0].k, LONGEST_NUMBER)} = {stance.start}"
            if stance.start and rows[0].k == rig.rows[name][0]
            else ""
        )
        over = grid(columns, body.left, body.right)
        facts = footer(rig, name, position_facts(rig, name, options.length))
        return Table(short(rig, name), title, note, stance, start, over, told, facts)

    if not isinstance(position, Pipe):
        dials, at = (
            any(row.turn for row in rows),
            w.place(position.x, position.y, options.length, w.SIZE),
        )
        if isinstance(position, Boom):
            columns = upright_at_trim(dials, "hang at", "above the deck")
            return [
                table("ON THE BOOM", columns, f"{trim_words(position, options.length)}, at {at}")
            ]
        return [table("ON THE STAND", upright_at_trim(dials), f"at {at}")]
    wanted = any(tape.position == name for tape in rig.tapes.every)
    marks = _marks(position, tapes, wanted, options.length)
    at = f"AT TRIM, {position.trims[0].act}" if position.trims else "AT TRIM"
    tables = [table(at, at_trim(marks), trim_words(position, options.length))]
    if comes_in(position):
        called = noun(position)
        when = "set before it flies" if position.lines else f"if this {called} comes in"
        tables.append(table(f"{called.upper()} IN", pipe_in(marks), f"{when}: nothing lands yet"))
    return tables


def _marks(pipe: Pipe, tapes: dict[str, float], no_deck: bool, length: w.LengthUnit) -> Marks:
    """What a pipe's marks are counted from, and where its sight tapes lie.

    Without a tape, `no_deck` where one was wanted; else no unit has a mark on one, turned too far or plumb.
    """
    hung = f"from {zero_words(pipe)}"
    if pipe.through is not None:
        along_it = f"{hung}, along it"
        return Marks(along_it, ("NO SIGHT TAPE", f"{CURVED}:", "the dial leads"))
    if not tapes:
        why = "no clear deck for it:" if no_deck else "none here:"
        return Marks(hung, ("NO SIGHT TAPE" if no_deck else "SIGHT TAPE", why, "the dial leads"))
    outs = {side: w.length(out, length, w.HANG) for side, out in tapes.items()}
    lies = ", ".join(f"{out} {side}" for side, out in outs.items())
    if len(outs) > 1 and len(set(outs.values())) == 1:
        lies = f"{next(iter(outs.values()))} {' and '.join(outs)}"
    return Marks(hung, ("SIGHT TAPE", f"{lies} of {noun(pipe)}", tape_zero(pipe)))
