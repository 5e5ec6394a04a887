"""The ladder sheet: one side for every position, with all that hands at the pipe must know of each unit.

A pipe that is flown in and one at its trim use the same sheet: swing, tape and down are the same. What lands
where is the deck sheet's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from aimcalc.paper.page import Page, Target, body_of
from aimcalc.scene.model import Boom, Pipe, Stand
from aimcalc.sheets.at_position import At, pages_at, sides_by_position, stance_at, write_sides
from aimcalc.sheets.guide import OUT, SLOPES, Guide
from aimcalc.sheets.ladder_row import least_of, pipe_columns, upright_columns
from aimcalc.sheets.sides import Block, Column, set_lines
from aimcalc.text.facts import FACE, MARK, POINT, SHORT, comes_in, trim_words
from aimcalc.text.ladder_rows import LEANS, SHOUTED, LadderRow, ladder_rows, position_findings
from aimcalc.text.rows import zero_words
from aimcalc.text.stamp import PaperOptions

if TYPE_CHECKING:
    from aimcalc.show import Show


WITHIN = (
    "WITHIN:",
    "near enough: the light still covers the face, wherever it lands. Outside: unlock, set again. "
    "Still out, or the eye disagrees: STOP, ask the head electrician.",
)
SIDES = (
    "SIDES:",
    "US, DS from the plaster line, SL, SR from the centre line, unless headed.",
)
STEPS = "by the steps card, one to each crew, from pack-head."
OPENING = "Clamps open towards you, unless the crew chief decides otherwise."
TRIM = "Trim: above the deck at the plaster line, not above the rake."
ACT = "ACT"
CHECK = "CHECK ONLY"
# What a word of a row means; told where a row has it.
MEANS = (
    ("OVER PIPE", "it stands on the pipe: first roll the body over in its yoke, clip on top."),
    (
        "ARM",
        "the unit hangs under the end of an arm so long, to that side; TAIL from the clamp at its end.",
    ),
    ("OUT", "the clamp is swung round the pipe, so far from straight down, to that side."),
    (
        "DIRECT",
        "clamped straight to the boom: CLAMP tips it (its pan bolt; the bolt on the boom stays tight), YOKE "
        "turns it.",
    ),
    ("yoke", "how far the lens tips in its yoke, from square to it."),
    ("OVAL", "which way the light's long way lies."),
    ("PATTERN", "which way the pattern's own level line lies."),
    ("chord", "the tube of the truss it clamps to."),
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
    "set all three, lock snug. AT TRIM: check where it lands, pan again if out.",
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
    blocks = _blocks(mine, width)
    for said, then in act_rows(show, at, options):
        blocks[-1] = blocks[-1]._replace(
            lines=[*blocks[-1].lines, *set_lines([(ACT, said)], width)]
        )
        blocks += _blocks(then, width, CHECK)
        mine += then
    guide = Guide(at.stance, at.tape, _leans(mine), guide_lines(show, at, mine))
    told = position_findings(show.findings, at.name)
    columns = _columns(at, mine)
    return pages_at(show.rig, at, "LADDER", columns, guide, blocks, told, options, (*SHOUTED, ACT))


def _blocks(rows: Sequence[LadderRow], width: float, instead: str = "") -> list[Block]:
    """Rows with their lines; `instead` stands where their ticks would."""
    return [Block(row, set_lines(row.told, width), least_of(row), instead) for row in rows]


def act_rows(show: Show, at: At, options: PaperOptions) -> Iterator[tuple[str, list[LadderRow]]]:
    """What a pipe's units would be set to as it hangs in each further act, and what to do with that."""
    for act in show.rig.further:
        if at.name not in act.positions:
            continue
        facing = {
            name: stance_at(act.rig, name).facing for name in act.rig.rows if act.rig.rows[name]
        }
        rows = ladder_rows(show, options.length, facing, act)
        trim = trim_words(act.rig.scene.positions[at.name], options.length)
        said = f"{trim}. Set and lock the rows above. Those below: {CHECK}, what would be set at this trim."
        mine = [rows[k] for k in at.printed]
        yield (
            said,
            [
                row._replace(channel=act.name, told=tuple(t for t in row.told if t[0] == LEANS))
                for row in mine
            ],
        )


def _columns(at: At, rows: Sequence[LadderRow]) -> list[Column]:
    if isinstance(at.position, Pipe):
        return pipe_columns(zero_words(at.position), "SIGHT TAPE" if at.tape else "NO TAPE")
    return upright_columns(any(row.swing for row in rows), isinstance(at.position, Boom))


def guide_lines(show: Show, at: At, rows: Sequence[LadderRow]) -> list[tuple[str, str]]:
    """The lines over the rows: in what order a unit is set, and what the words mean."""
    lock = PIPE_IN if comes_in(at.position) else AT_ONCE
    told = [("Set each unit:", _order(at, rows)), lock, WITHIN]
    told.append(SIDES if isinstance(at.position, Pipe) else UPRIGHT_SIDES)
    if isinstance(at.position, Pipe):
        told[1:1] = _square_lines(at.position)
        if show.scene.stage.rake:
            told[-1] = (told[-1][0], f"{told[-1][1]} {TRIM}")
    if at.tape and len(at.tape.outs) > 1:
        told[0] = (told[0][0], f"{told[0][1]}  TAPES: each along the {at.stance.noun}'s line.")
    opening = "" if at.stance.mouths or isinstance(at.position, Stand) else f" {OPENING}"
    return [*told, ("STEPS:", "  ".join((f"{STEPS}{opening}", *_meanings(rows))))]


def _meanings(rows: Sequence[LadderRow]) -> list[str]:
    """What the words of these rows mean, a sentence each."""
    told = [
        (
            *row.how.split(),
            "OVER PIPE" * row.over,
            row.pattern,
            *row.within,
            *(says for _, says in row.told),
        )
        for row in rows
    ]
    used = " ".join(words for row in told for words in row).replace("CHORD", "chord")
    return [f"{word}: {says}" for word, says in MEANS if re.search(rf"\b{word}\b", used)]


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
        sight = f"2 SIGHT along the barrel at {eye}: that decides."
        by = "by eye" if isinstance(at.position, Stand) else "on the clamp's dial, if it has one"
        return f"1 ARROW, HEADING: about so, {by}.  {sight}  3 LEVEL: set DOWN or UP.{own}"
    wedge = "WEDGE or DIAL" if any(row.swing_note.startswith("wedge") for row in rows) else "DIAL"
    fine = "2 SIGHT TAPE: fine swing, eye along the barrel to the mark."
    if at.tape is None:
        wedge, fine = "WEDGE", "2 DIAL: fine swing, no tape lies here."
    leans = "  STEM LEANS: by FIRST, THEN, LAST under its row." if _leans(rows) else ""
    return f"1 {wedge}: rough swing from SQUARE, yoke bar along the tube.  {fine}  3 LEVEL: set DOWN.{leans}"


def _leans(rows: Sequence[LadderRow]) -> list[str]:
    """How the stems lean of those that do: OUT, swung round the pipe, or SLOPES with it."""
    ways = {
        OUT if "OUT" in row.how else SLOPES
        for row in rows
        if any(word == LEANS for word, _ in row.told)
    }
    return sorted(ways, reverse=True)
