"""The ladder sheet: one side for every position, with all that hands at the pipe must know of each unit.

A pipe that is flown in and one at its trim use the same sheet: swing, tape and down are the same. What lands
where is the deck sheet's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.page import Page, Target, body_of
from aimcalc.scene.model import Boom, Pipe
from aimcalc.sheets.at_position import At, pages_at, sides_by_position, write_sides
from aimcalc.sheets.guide import Guide
from aimcalc.sheets.ladder_row import least_of, pipe_columns, upright_columns
from aimcalc.sheets.sides import Block, Column, set_lines
from aimcalc.text import words as w
from aimcalc.text.facts import FACE, MARK, POINT, SHORT, comes_in
from aimcalc.text.ladder_rows import LEANS, SHOUTED, LadderRow, ladder_rows, position_findings
from aimcalc.text.rows import zero_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


WITHIN = (
    "WITHIN:",
    "near enough: the light still covers the face, wherever it lands. Outside: unlock, set once more. "
    "Still out, or the eye disagrees: STOP, ask the head electrician.",
)
SIDES = (
    "HANG AT, TAPE:",
    "as headed; else US, DS from the plaster line, SL, SR from the centre line.",
)
UPRIGHT_SIDES = ("US, DS:", "from the plaster line. SL, SR: from the centre line.")
SIGHTED = {
    FACE: "the HELPER's raised hand at STAND, at face height",
    MARK: "the MARK on the floor, nobody in front",
    POINT: "the POINT itself",
}
ASKEW = 1e-6  # m2, across times up and down the stage
PIPE_IN = (
    "PIPE IN:",
    "set all three, lock snug, no force. AT TRIM: check where it lands, pan again if out, lock.",
)
AT_ONCE = ("LOCK:", "snug, no force. Light on: check where it lands, turn again if out.")


def ladder(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the ladder sheets, written to a path, a binary stream or a book."""
    return write_sides(show, target, options, "ladder sheets", ladder_pages)


def ladder_pages(show: Show, options: PaperOptions) -> dict[str, list[Page]]:
    """The sides of every position that has units to print, by its name."""
    return sides_by_position(show, options, ladder_rows, _sides)


def _sides(show: Show, at: At, rows: Sequence[LadderRow], options: PaperOptions) -> Iterator[Page]:
    mine = [rows[k] for k in at.printed]
    width = body_of(options, True, SHORT).width
    blocks = [Block(row, set_lines(row.told, width), least_of(row)) for row in mine]
    guide = Guide(at.stance, at.tape, _leaning(mine), _lines(show.rig, at, mine, options.length))
    told = position_findings(show.findings, at.name)
    columns = _columns(at, mine)
    return pages_at(show.rig, at, "LADDER", columns, guide, blocks, told, options, SHOUTED)


def _columns(at: At, rows: Sequence[LadderRow]) -> list[Column]:
    if isinstance(at.position, Pipe):
        return pipe_columns(zero_words(at.position), "SIGHT TAPE" if at.tape else "NO TAPE")
    return upright_columns(any(row.swing for row in rows), isinstance(at.position, Boom))


def _lines(
    rig: SolidRig, at: At, rows: Sequence[LadderRow], length: w.LengthUnit
) -> list[tuple[str, str]]:
    """The lines over the rows: in what order a unit is set, and what the words mean."""
    lock = PIPE_IN if comes_in(at.position) else AT_ONCE
    told = [("Set each unit:", _order(at, rows)), lock, WITHIN]
    told.append(SIDES if isinstance(at.position, Pipe) else UPRIGHT_SIDES)
    if isinstance(at.position, Pipe):
        told[1:1] = _square_lines(at.position)
        told += _trim_lines(rig, at.position, length)
    if at.tape and len(at.tape.outs) > 1:
        told.insert(1, ("TAPES:", f"lay each along the {at.stance.noun}'s line."))
    return told


def _square_lines(pipe: Pipe) -> list[tuple[str, str]]:
    """What square is on a pipe that is curved or askew; nothing of any other, where the order says it."""
    if pipe.through is not None:
        says = (
            "measure HANG AT along the curve. SQUARE: yoke bar along the tube just where it hangs."
        )
        return [("CURVED:", says)]
    askew = abs((pipe.end[0] - pipe.start[0]) * (pipe.end[1] - pipe.start[1])) > ASKEW
    says = "askew pipe: square, and the tape's 0, go by the yoke bar."
    return [("SQUARE:", says)] if askew else []


def _trim_lines(rig: SolidRig, pipe: Pipe, length: w.LengthUnit) -> Iterator[tuple[str, str]]:
    """Above what a trim is where the deck is raked, and where a pipe hangs in other acts."""
    if rig.scene.stage.rake:
        yield "TRIM:", "above the deck at the plaster line, not above the rake."
    if len(pipe.trims) > 1:
        acts = (f"{t.act} {w.length(t.trim, length, w.HANG)}" for t in pipe.trims[1:])
        yield "ALSO AT:", f"{', '.join(acts)}: check where the light lands there too."


def _order(at: At, rows: Sequence[LadderRow]) -> str:
    """What is rough, what is fine, and what comes last."""
    if not isinstance(at.position, Pipe):
        told = {row.sighted for row in rows}
        eye = " or ".join(words for what, words in SIGHTED.items() if what in told)
        own = (
            "  A row with its own FIRST, THEN, LAST: by that."
            if any(row.steps for row in rows)
            else ""
        )
        sight = f"2 SIGHT along the barrel at {eye}."
        return f"1 ARROW: turn it about so.  {sight}  3 LEVEL: set DOWN or UP.{own}"
    wedge = "WEDGE or DIAL" if any(row.swing_note.startswith("wedge") for row in rows) else "DIAL"
    fine = "2 SIGHT TAPE: fine swing, eye along the barrel to the mark."
    if at.tape is None:
        wedge, fine = "WEDGE", "2 DIAL: fine swing, no tape lies here."
    leans = "  STEM LEANS: by FIRST, THEN, LAST under its row." if _leaning(rows) else ""
    return f"1 {wedge}: rough swing from SQUARE, yoke bar along the tube.  {fine}  3 LEVEL: set DOWN.{leans}"


def _leaning(rows: Sequence[LadderRow]) -> bool:
    return any(word == LEANS for row in rows for word, _ in row.told)
