"""The deck sheet: what the helper below reads out, where to stand, where the light stops, how the cable runs.

There is one side for every position, its rows in the order of the ladder sheet's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.page import Box, Page, Sheet, Target, body_of
from aimcalc.sheets.at_position import At, at_positions, pages_at, stance_at, write_sides
from aimcalc.sheets.guide import Guide, Tape
from aimcalc.sheets.sides import Block, Column, pair, set_lines, stack
from aimcalc.text import words as w
from aimcalc.text.deck_rows import DeckRow, deck_rows
from aimcalc.text.facts import SHORT, face_words
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import BOLD, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


CALL = 12.0  # pt


def deck(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the deck sheets, written to a path, a binary stream or a book."""
    return write_sides(show, target, options, "deck sheets", deck_pages)


def deck_pages(show: Show, options: PaperOptions) -> dict[str, list[Page]]:
    """The sides of every position that has units to print, by its name."""
    rig = show.rig
    facing = {name: stance_at(rig, name).facing for name, members in rig.rows.items() if members}
    rows = deck_rows(show, options.length, facing)
    return {at.name: list(_sides(show, at, rows, options)) for at in at_positions(rig, options)}


def _sides(show: Show, at: At, rows: Sequence[DeckRow], options: PaperOptions) -> Iterator[Page]:
    mine = [rows[k] for k in at.printed]
    width = body_of(options, True, SHORT).width
    blocks = [Block(row, set_lines(row.told, width)) for row in mine]
    guide = Guide(at.stance, at.tape, False, _lines(show.rig, at, options.length), level=False)
    return pages_at(show.rig, at, "DECK", _columns(), guide, blocks, (), options)


def _columns() -> list[Column]:
    return [
        Column(("UNIT", "channel"), 48, _unit),
        Column(("CALL", "read it out, they say it back"), 200, _call),
        Column(("STAND", "or POINT"), 84, _stand),
        Column(("LIGHT STOPS", "LANDS, ON or POLE"), 104, _lands),
        Column(("MISS", "over this"), 56, _miss),
        Column(("LANDED AT", "write it here"), 112.0, fixed=True),
        Column(("CABLE", "outlet to unit"), 124, _cable),
        Column(("plugged,", "tied"), 48.0, fixed=True),
        Column(("lit", ""), 30.0, fixed=True),
    ]


def _lines(rig: SolidRig, at: At, length: w.LengthUnit) -> list[tuple[str, str]]:
    """The lines over the rows."""
    faces = face_words(rig, at.printed, length)
    told = [
        (
            "STAND:",
            f"stand on the mark, raise a hand to the face ({faces}): they sight at it.",
        ),
        (
            "LIGHT STOPS:",
            "LANDS on the floor, ON what is named, or POLE: hold it upright where the row says. Write where "
            "the middle of the light is. Further off than MISS: call it up. Twice out: ask the head "
            "electrician.",
        ),
        (
            "CABLE:",
            "outlet to unit, spare run on past the unit and doubled back; each tie two turns and a bow.",
        ),
        ("US, DS:", "from the plaster line. SL, SR: from the centre line."),
    ]
    if at.tape:
        lies = _tape_words(at, at.tape)
        told.insert(0, ("TAPE:", lies))
    return told


def _tape_words(at: At, tape: Tape) -> str:
    """Where each tape of a pipe is laid, out from under it, and where its 0 lies."""
    lies = [f"{out} {side} of the {at.stance.noun}" for side, out in tape.outs.items()]
    zero = f"opposite the {tape.zero}" if tape.opposite else f"on the {tape.zero}"
    return f"lay it {' and '.join(lies)}, along its line, measured on the deck from under it; 0 {zero}."


def _unit(sheet: Sheet, box: Box, row: DeckRow) -> None:
    pair(sheet, box, row.number, row.channel)


def _call(sheet: Sheet, box: Box, row: DeckRow) -> None:
    """The sentence, in up to three lines."""
    lines = wrap(row.call, BOLD, CALL, box.width)
    stack(sheet, box, lines, bold=len(lines))


def _stand(sheet: Sheet, box: Box, row: DeckRow) -> None:
    stack(sheet, box, row.stand, bold=1)


def _lands(sheet: Sheet, box: Box, row: DeckRow) -> None:
    stack(sheet, box, row.lands, bold=1)


def _miss(sheet: Sheet, box: Box, row: DeckRow) -> None:
    stack(sheet, box, [row.miss] if row.miss else [])


def _cable(sheet: Sheet, box: Box, row: DeckRow) -> None:
    stack(sheet, box, row.cable, bold=1)
