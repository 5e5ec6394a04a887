"""What the helper on the deck reads of one unit: the call, STAND, where the light stops, its cable."""

from __future__ import annotations

from math import floor
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.text import words as w
from aimcalc.text.calls import call_of
from aimcalc.text.hang_rows import HangRow, hang_rows
from aimcalc.text.ladder_rows import ladder_rows
from aimcalc.text.names import short
from aimcalc.text.rows import Row, rows_of

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer
    from aimcalc.solid.rig import SolidRig


SAME_LEVEL = 0.01  # m between a platform's top and what a target stands on (our choice)


class DeckRow(NamedTuple):
    """One unit in words; what does not exist is empty."""

    k: int
    number: str
    channel: str
    call: str
    stand: tuple[str, ...]  # "area 6", "12'-0\" SL", "8'-0\" US"
    lands: tuple[str, ...]  # LANDS, ON or POLE, with its place
    miss: str  # how far off the face is a miss: "1'-9\""
    cable: tuple[str, ...]  # circuit and outlet, which cable, where it is folded, its ties
    told: tuple[tuple[str, str], ...] = ()  # lines under the row


def deck_rows(show: Show, length: w.LengthUnit, facing: dict[str, str]) -> list[DeckRow]:
    """A row for every unit, in hang order; `facing` says which side the reader of each position faces."""
    rig = show.rig
    rows, ladder = rows_of(rig, (), length), ladder_rows(show, length, facing)
    hung = {row.k: row for rows in hang_rows(rig, show.hang, (), length).values() for row in rows}
    return [
        DeckRow(
            k=k,
            number=row.number,
            channel=row.channel,
            call=call_of(row, up),
            stand=tuple(filter(None, row.stand)),
            lands=_lands(rig, row, length),
            miss=_miss(rig.answers[k], length),
            cable=_cable(hung[k]),
            told=_told(row),
        )
        for k, (row, up) in enumerate(zip(rows, ladder, strict=True))
    ]


def _lands(rig: SolidRig, row: Row, length: w.LengthUnit) -> tuple[str, ...]:
    """Where the light stops; a height on a pole says above what, and where the pole is held."""
    if row.mark.word != "POLE":
        return tuple(row.mark.lines)
    return f"POLE {row.mark.first}", f"above the {under(rig, row.k)}", row.mark.second


def under(rig: SolidRig, k: int) -> str:
    """What is under a target: the platform stood on, else the deck."""
    x, y, _ = (float(one) for one in rig.arrays.point[:, k])
    z = float(rig.surface_z[k])
    for solid in rig.scene.solids:
        if solid.stand_on and solid.box is not None:
            x0, y0, _, x1, y1, z1 = solid.box
            if x0 <= x <= x1 and y0 <= y <= y1 and abs(z1 - z) < SAME_LEVEL:
                return short(rig, solid.name)
    return "deck"


def _miss(answer: Answer, length: w.LengthUnit) -> str:
    """How far off the face the middle of the light may be, rounded down; the smaller of its two ways."""
    ways = [
        answer.per_degree_down and answer.per_degree_down * answer.down_tolerance,
        answer.per_degree_pan
        and answer.pan_tolerance
        and answer.per_degree_pan * answer.pan_tolerance,
    ]
    known = [way for way in ways if way]
    if not known:
        return ""
    step = w.DECK.size(length)
    return w.length(max(step, floor(min(known) / step + 1e-6) * step), length)


def _cable(hang: HangRow) -> tuple[str, ...]:
    """From the outlet to the unit: circuit and place, the cable, its fold, its ties."""
    if not hang.circuit:
        return ("no circuit",)
    lines = [f"{hang.circuit} at {hang.outlet}" if hang.outlet else hang.circuit]
    cable = [
        words.replace("TAIL REACHES OUTLET", "tail reaches it") for words in hang.cable if words
    ]
    if len(cable) > 2:  # ties beside the fold
        cable = [cable[0], ", ".join(cable[1:])]
    twofer = [words.replace("TWOFER", "twofer") for words in hang.twofer]
    return (*lines, *cable, *twofer)


def _told(row: Row) -> tuple[tuple[str, str], ...]:
    """The further spots of its target, to check it by."""
    spots = [words for words in row.remarks if not words.startswith(("EDGE", "NOTE"))]
    parted = (words.partition(": ") for words in spots)
    return tuple((word, says) for word, _, says in parted)
