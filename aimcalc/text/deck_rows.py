"""What the helper on the deck reads of one unit: the call, STAND, where the light stops, its cable."""

from __future__ import annotations

from math import dist, floor, tan
from typing import TYPE_CHECKING

from aimcalc.geometry.vectors import to_radians
from aimcalc.named import NamedTuple
from aimcalc.text import words as w
from aimcalc.text.calls import call_of
from aimcalc.text.facts import MARK, POINT, face_heights, sighted, stood_on
from aimcalc.text.hang_rows import HangRow, hang_rows
from aimcalc.text.ladder_rows import ladder_rows
from aimcalc.text.rows import Row, rows_of, spots_of
from aimcalc.text.stops import Mark

if TYPE_CHECKING:
    from aimcalc.hang.records import UnitPlan
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer
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


def deck_rows(show: Show, length: w.LengthUnit, facing: dict[str, str]) -> list[DeckRow]:
    """A row for every unit, in hang order; `facing` says which side the reader of each position faces."""
    rig = show.rig
    rows, ladder = rows_of(rig, (), length), ladder_rows(show, length, facing)
    hung = {row.k: row for rows in hang_rows(rig, show.hang, (), length).values() for row in rows}
    plans = {unit.unit: unit for position in show.hang.positions for unit in position.units}
    return [
        DeckRow(
            k=k,
            number=row.number,
            channel=row.channel,
            call=call_of(row, up),
            stand=_stand(rig, row, length),
            lands=_lands(rig, row, length),
            miss=_miss(rig.answers[k], row.mark, length),
            cable=_cable(hung[k], away=_folds_away(plans[rig.names[k]], rig.units[k].at)),
            told=_told(row),
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


def point_height(rig: SolidRig, k: int, length: w.LengthUnit) -> str:
    """How high a point is that nobody stands at: "8'-0" UP"; empty of any other, and at the deck."""
    z = float(rig.arrays.point[2, k])
    if sighted(rig, k) != POINT or not w.rounded(z, length, w.SIZE):
        return ""
    return f"{w.length(z, length, w.SIZE)} {'UP' if z > 0 else 'BELOW DECK'}"


def _lands(rig: SolidRig, row: Row, length: w.LengthUnit) -> tuple[str, ...]:
    """Where the light stops; a height on a pole says above what, and where the pole is held."""
    if row.mark.word != "POLE":
        return tuple(row.mark.lines)
    return f"POLE {row.mark.first}", f"above the {under(rig, row.k)}", row.mark.second


def under(rig: SolidRig, k: int) -> str:
    """What is under a target: the platform stood on, else the deck."""
    x, y, _ = (float(one) for one in rig.arrays.point[:, k])
    return stood_on(rig, x, y, float(rig.surface_z[k]))


def _miss(answer: Answer, mark: Mark, length: w.LengthUnit) -> str:
    """How far from its place the middle of the light may be where it is read, rounded down.

    Square to the axis, which is the least of all ways across a surface: how far it is from the pivot, which
    the unit turns about, times the tangent of what the unit may be out.
    """
    met = answer.meets.point if answer.meets else None
    read = answer.face if mark.word == "POLE" else met
    if answer.yoke is None or read is None or not mark.word:
        return ""
    far = dist(answer.pivot, read) * tan(to_radians(answer.down_tolerance))
    step = w.DECK.size(length)
    return w.length(max(step, floor(far / step + 1e-6) * step), length)


def _folds_away(unit: UnitPlan, at: float | None) -> bool:
    """True where a cable first runs from its outlet away from its unit, and is laid back from there."""
    outlet, fold = unit.cable.outlet, unit.cable.double_back
    if outlet is None or fold is None or at is None:
        return False
    return (fold - outlet) * (at - outlet) < 0.0


def _cable(hang: HangRow, *, away: bool) -> tuple[str, ...]:
    """From the outlet to the unit: circuit and place, the cable, its fold, its ties."""
    if not hang.circuit:
        return ("no circuit",)
    outlet = hang.outlet.removeprefix("at ")
    lines = [f"{hang.circuit} at {outlet}" if outlet else hang.circuit]
    cable = [
        words.replace("TAIL REACHES OUTLET", "tail reaches it") for words in hang.cable if words
    ]
    if away:
        cable = [words.replace("back at", "first to") for words in cable]
    if len(cable) > 2:  # ties beside the fold
        cable = [cable[0], ", ".join(cable[1:])]
    twofer = [
        words.replace("TWOFER", "twofer").replace("twoferS", "twofers") for words in hang.twofer
    ]
    return (*lines, *cable, *twofer)


def _told(row: Row) -> tuple[tuple[str, str], ...]:
    """The further spots of its target, to check it by."""
    parted = (words.partition(": ") for words in spots_of(row))
    return tuple((word, says) for word, _, says in parted)
