"""The deck sheet: what the helper below reads out, where to stand, where the light stops, how the cable runs.

There is one side for every position, its rows in the order of the ladder sheet's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist
from typing import TYPE_CHECKING

from aimcalc.paper.page import Box, Page, Sheet, Target, body_of
from aimcalc.sheets.at_position import At, pages_at, sides_by_position, write_sides
from aimcalc.sheets.guide import Guide, Tape
from aimcalc.sheets.sides import PAD, ROW, Block, Column, edges_of, pair, set_lines, stack
from aimcalc.text import words as w
from aimcalc.text.deck_rows import DeckRow, deck_rows
from aimcalc.text.facts import FACE, MARK, POINT, SHORT, face_words, sighted, trim_words
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.typeset import BOLD, wrap

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


CALL = 12.0  # pt
NEAR = 0.3  # m: a point that light stops so near to is on what stops it (our choice)
FOURTH, MORE = 6.5, 8.0  # pt, what a fourth line adds to a row, and how much more any after it


def deck(show: Show, target: Target, options: PaperOptions) -> int:
    """Number of pages of the deck sheets, written to a path, a binary stream or a book."""
    return write_sides(show, target, options, "deck sheets", deck_pages)


def deck_pages(show: Show, options: PaperOptions) -> dict[str, list[Page]]:
    """The sides of every position that has units to print, by its name."""
    return sides_by_position(show, options, deck_rows, _sides)


def _sides(show: Show, at: At, rows: Sequence[DeckRow], options: PaperOptions) -> Iterator[Page]:
    mine = [rows[k] for k in at.printed]
    width = body_of(options, True, SHORT).width
    edges = edges_of(_columns(), 0.0, width)
    room = edges[2] - edges[1] - 2 * PAD
    blocks = [Block(row, set_lines(row.told, width), _least_of(row, room)) for row in mine]
    if told := list(deck_acts(show, at, options)):
        blocks[-1] = blocks[-1]._replace(lines=[*blocks[-1].lines, *set_lines(told, width)])
    guide = Guide(
        at.stance, at.tape, (), deck_lines(show.rig, at, mine, options.length), level=False
    )
    return pages_at(show.rig, at, "DECK", _columns(), guide, blocks, (), options)


def deck_acts(show: Show, at: At, options: PaperOptions) -> Iterator[tuple[str, str]]:
    """What to look for where a pipe hangs in each further act: nothing is set anew for it."""
    for act in show.rig.further:
        if at.name in act.positions:
            trim = trim_words(act.rig.scene.positions[at.name], options.length)
            faces = {sighted(show.rig, k) == FACE for k in at.printed}
            who = " or ".join(
                "who stands there" if f else "its mark or point" for f in sorted(faces)[::-1]
            )
            yield (
                "ACT",
                f"{trim}: the light, as locked above, lands elsewhere then. Look whether it still covers "
                f"{who}, turn nothing, tell the head electrician.",
            )


def _least_of(row: DeckRow, room: float) -> float:
    """The least height of a row: three lines fit, more take more; its call is `room` wide, points."""
    lines = max(len(wrap(row.call, BOLD, CALL, room)), len(row.stand), len(row.lands))
    over = max(lines, len(row.cable)) - 3
    return ROW + max(0, over) * FOURTH + max(0, over - 1) * MORE


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


def deck_lines(
    rig: SolidRig, at: At, rows: Sequence[DeckRow], length: w.LengthUnit
) -> list[tuple[str, str]]:
    """The lines over the rows."""
    twice = any(words.startswith("then ") for row in rows for words in row.cable)
    again = ', from "then" back to the unit once more' if twice else ""
    told = [
        *_sighted_lines(rig, at, rows, length),
        (
            "LIGHT STOPS:",
            "LANDS on the floor, ON what is named, or POLE: held upright where told. Write where the middle "
            "of the light is. Over MISS: call it up, they set it once more. Still out: ask the head "
            "electrician.",
        ),
        (
            "CABLE:",
            f"outlet, placed as HANG AT, to unit; spare run on past it and doubled back{again}; each tie two "
            "turns and a bow.",
        ),
        (
            "STAND, LIGHT STOPS:",
            "US, DS from the plaster line; SL, SR from the centre line; UP from the deck.",
        ),
    ]
    if at.tape:
        lies = _tape_words(at, at.tape)
        told.insert(0, ("TAPE:", lies))
    return told


def _sighted_lines(
    rig: SolidRig, at: At, rows: Sequence[DeckRow], length: w.LengthUnit
) -> list[tuple[str, str]]:
    """What the helper does at STAND, at a mark and at a point, each where a row has one."""
    face = face_words(rig, at.printed, length)
    by_eye = {
        FACE: f'called to "sight my hand", stand on the mark, raise a hand to the face ({face}).',
        MARK: "lay a mark on the floor, keep clear: they sight at the mark itself.",
        POINT: f"nobody stands there: they sight at the thing itself, as high as told{_on_what(rig, rows)}.",
    }
    by_tool = {
        FACE: f"tape or dial sets it. Light on: stand there, see it cover your face ({face}).",
        MARK: "nobody stands there: tape or dial sets it.",
        POINT: "nobody stands there: tape or dial sets it.",
    }
    told = []
    for kind, word in ((FACE, "STAND:"), (MARK, "MARK:"), (POINT, "POINT:")):
        mine = [row for row in rows if sighted(rig, row.k) == kind]
        seen = by_eye[kind] if any(row.sighted for row in mine) else ""
        rest = by_tool[kind] if any(not row.sighted for row in mine) else ""
        if seen:
            rest = rest.replace(f" ({face})", "")
        if mine:
            told.append((word, f"{seen}{' Else ' if seen and rest else ''}{rest}"))
    return told


def _on_what(rig: SolidRig, rows: Sequence[DeckRow]) -> str:
    """Of a point that is on something of another name: "; clock is on tall clock"."""
    told = {}
    for row in rows:
        stop, aimed = rig.answers[row.k].meets, rig.answers[row.k].target
        on, named = row.lands[0].removeprefix("ON "), row.stand[0].removeprefix("POINT ")
        if sighted(rig, row.k) != POINT or stop is None or not aimed or on == row.lands[0]:
            continue
        if on != named and dist(stop.point, rig.arrays.point[:, row.k].tolist()) < NEAR:
            told[named] = f"; {named} is on {on}"
    return "".join(told.values())


def _tape_words(at: At, tape: Tape) -> str:
    """Where each tape of a pipe is laid, and where its 0 lies.

    Of a pipe straight across from the plaster line too: under one that hangs over seats nothing is measured.
    """
    lies = [
        f"{out} {side} of the {at.stance.noun}"
        + (f" ({tape.places[side]})" if side in tape.places else "")
        for side, out in tape.outs.items()
    ]
    how = "on clear deck" if tape.places else "measured on the deck from under it"
    zero = f"square off from the {tape.zero}" if tape.opposite else f"on the {tape.zero}"
    return f"lay it {' and '.join(lies)}, along its line, {how}; 0 {zero}. It decides, not the degrees."


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
