"""The ladder sheet: one side for every position, with all that hands at the pipe must know of each unit.

A pipe that is flown in and one at its trim use the same sheet: swing, tape and down are the same. What lands
where is the deck sheet's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.page import Page, Target, body_of
from aimcalc.scene.model import Boom, Pipe
from aimcalc.sheets.aim_sheets import comes_in
from aimcalc.sheets.at_position import At, at_positions, pages_at, stance_at, write_sides
from aimcalc.sheets.guide import Guide
from aimcalc.sheets.ladder_row import least_of, pipe_columns, upright_columns
from aimcalc.sheets.sides import Block, Column, set_lines
from aimcalc.text.facts import SHORT
from aimcalc.text.ladder_rows import LEANS, SHOUTED, LadderRow, ladder_rows, position_findings
from aimcalc.text.rows import zero_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show


WITHIN = (
    "WITHIN:",
    "near enough: the light still covers the face, wherever it lands. Further out, or sheet and eye "
    "disagree: STOP, ask the head electrician.",
)
SIDES = ("US, DS:", "from the plaster line. SL, SR: from the centre line.")
PIPE_IN = (
    "PIPE IN:",
    "set all three, lock snug, no force. AT TRIM: check where it lands, pan again if out, lock.",
)
AT_ONCE = ("LOCK:", "snug, no force. Light on: check where it lands, turn again if out, lock.")


def ladder(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the ladder sheets, written to a path, a binary stream or a book."""
    return write_sides(show, target, options, "ladder sheets", ladder_pages)


def ladder_pages(show: Show, options: PaperOptions) -> dict[str, list[Page]]:
    """The sides of every position that has units to print, by its name."""
    rig = show.rig
    facing = {name: stance_at(rig, name).facing for name, members in rig.rows.items() if members}
    rows = ladder_rows(show, options.length, facing)
    return {at.name: list(_sides(show, at, rows, options)) for at in at_positions(rig, options)}


def _sides(show: Show, at: At, rows: Sequence[LadderRow], options: PaperOptions) -> Iterator[Page]:
    mine = [rows[k] for k in at.printed]
    width = body_of(options, True, SHORT).width
    blocks = [Block(row, set_lines(row.told, width), least_of(row)) for row in mine]
    guide = Guide(at.stance, at.tape, _leaning(mine), _lines(at, mine))
    told = position_findings(show.findings, at.name)
    columns = _columns(at, mine)
    return pages_at(show.rig, at, "LADDER", columns, guide, blocks, told, options, SHOUTED)


def _columns(at: At, rows: Sequence[LadderRow]) -> list[Column]:
    if isinstance(at.position, Pipe):
        return pipe_columns(zero_words(at.position), "SIGHT TAPE" if at.tape else "NO TAPE")
    return upright_columns(any(row.swing for row in rows), isinstance(at.position, Boom))


def _lines(at: At, rows: Sequence[LadderRow]) -> list[tuple[str, str]]:
    """The lines over the rows: in what order a unit is set, and what the words mean."""
    lock = PIPE_IN if comes_in(at.position) else AT_ONCE
    told = [("Set each unit:", _order(at, rows)), lock, WITHIN, SIDES]
    if at.tape and len(at.tape.outs) > 1:
        told.insert(1, ("TAPES:", f"lay each along the {at.stance.noun}'s line."))
    return told


def _order(at: At, rows: Sequence[LadderRow]) -> str:
    """What is rough, what is fine, and what comes last."""
    if not isinstance(at.position, Pipe):
        return (
            "1 ARROW: turn it about so.  2 HELPER's raised hand at STAND, at face height: sight along the "
            "barrel.  3 LEVEL: set DOWN or UP."
        )
    wedge = "WEDGE or DIAL" if any(row.swing_note.startswith("wedge") for row in rows) else "DIAL"
    fine = "2 SIGHT TAPE: fine swing, eye along the barrel to the mark."
    if at.tape is None:
        wedge, fine = "WEDGE", "2 DIAL: fine swing, no tape lies here."
    leans = "  Stem leans: 3 before 2." if _leaning(rows) else ""
    return f"1 {wedge}: rough swing.  {fine}  3 LEVEL: set DOWN.{leans}"


def _leaning(rows: Sequence[LadderRow]) -> bool:
    return any(word == LEANS for row in rows for word, _ in row.told)
