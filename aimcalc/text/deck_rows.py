"""What the helper on the deck reads of one unit: the call, STAND, where the light stops, its cable."""

from __future__ import annotations

from math import floor, isfinite
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.text import words as w
from aimcalc.text.cables import folded_lines
from aimcalc.text.calls import call_of
from aimcalc.text.facts import MARK, POINT, face_heights, point_height, sighted, stood_on
from aimcalc.text.hang_rows import HangRow, hang_rows
from aimcalc.text.ladder_rows import ladder_rows
from aimcalc.text.rows import Row, rows_of
from aimcalc.text.stops import Mark

if TYPE_CHECKING:
    from aimcalc.show import Show
    from aimcalc.solid.rig import SolidRig


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
    sighted: str = ""  # face, mark or point, where those up the ladder sight at it


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
            stand=_stand(rig, row, length),
            lands=_lands(rig, row, length),
            miss=_miss(rig, k, row.mark, length),
            cable=_cable(hung[k]),
            told=_told(row, length),
            sighted=up.sighted,
        )
        for k, (row, up) in enumerate(zip(rows, ladder, strict=True))
    ]


def _stand(rig: SolidRig, row: Row, length: w.LengthUnit) -> tuple[str, ...]:
    """STAND, or the POINT that nobody stands at: name, place, and how high where there is no usual face."""
    k = row.k
    name, across, deep = row.stand
    what = sighted(rig, k)
    if what == MARK:
        return name, across, deep, f"MARK on the {under(rig, k)}"
    if what == POINT:
        named = f"POINT {name}" if rig.answers[k].target else name
        return tuple(filter(None, (named, across, deep, point_height(rig, k, length))))
    face = face_heights(rig, [k], length)
    several = face_heights(rig, rig.rows[rig.units[k].position], length) != face
    return name, across, deep, *((f"face {face}",) if several else ())


def _lands(rig: SolidRig, row: Row, length: w.LengthUnit) -> tuple[str, ...]:
    """Where the light stops; a height on a pole says above what, and where the pole is held."""
    if row.mark.word != "POLE":
        return tuple(row.mark.lines)
    return f"POLE {row.mark.first}", f"above the {under(rig, row.k)}", row.mark.second


def under(rig: SolidRig, k: int) -> str:
    """What is under a target: the platform stood on, else the deck."""
    x, y, _ = (float(one) for one in rig.arrays.point[:, k])
    return stood_on(rig, x, y, float(rig.surface_z[k]))


def _miss(rig: SolidRig, k: int, mark: Mark, length: w.LengthUnit) -> str:
    """How far from its place the middle of the light may be where it is read, rounded down."""
    far = float((rig.misses.face if mark.word == "POLE" else rig.misses.met)[k])
    if not isfinite(far) or not mark.word:
        return ""
    step = w.DECK.size(length)
    return w.length(max(step, floor(far / step + 1e-6) * step), length)


def _cable(hang: HangRow) -> tuple[str, ...]:
    """From the outlet to the unit: circuit and place, the cable, its fold, its ties."""
    if not hang.circuit:
        return ("no circuit",)
    outlet = hang.outlet.removeprefix("at ")
    lines = [f"{hang.circuit} at {outlet}" if outlet else hang.circuit]
    cable = [
        words.replace("TAIL REACHES OUTLET", "tail reaches it") for words in hang.cable if words
    ]
    folded = folded_lines(tuple(cable))
    if folded == tuple(cable) and len(cable) > 2:  # ties beside the fold
        folded = cable[0], ", ".join(cable[1:])
    twofer = [
        words.replace("TWOFER", "twofer")
        .replace("twoferS", "twofers")
        .replace(" at the outlet with ", " at outlet: ")
        for words in hang.twofer
    ]
    return (*lines, *folded, *twofer)


def _told(row: Row, length: w.LengthUnit) -> tuple[tuple[str, str], ...]:
    """The further spots of its target, to check it by."""
    told = []
    for spot in row.spots:
        miss = _miss(spot.rig, row.k, spot.mark, length)
        near = f", MISS over {miss}" if miss else ""
        told.append((spot.name, f"to check by: {spot.stand}, {spot.mark.said}{near}."))
    return tuple(told)
