"""What a ladder's row says of one unit, all that the hands must do with it: the ladder sheet only draws it.

It joins what the aim says (`aimcalc.text.rows`) and what the hang says (`aimcalc.text.hang_rows`), in the
order in which hands need it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from aimcalc.named import NamedTuple
from aimcalc.scene.model import Pipe, Stand, Unit
from aimcalc.text import words as w
from aimcalc.text.cables import tail_words
from aimcalc.text.facts import EYED, POINT, point_height, sighted, stand_words
from aimcalc.text.hang_rows import HangRow, hang_rows
from aimcalc.text.rows import (
    PRINTED,
    STOP,
    USE_DIAL,
    Row,
    lines_under,
    rows_of,
    square_heading,
    square_word,
)

if TYPE_CHECKING:
    from aimcalc.hang.records import PositionPlan
    from aimcalc.show import Show
    from aimcalc.solid.answers import Answer, Finding
    from aimcalc.solid.rig import Further, SolidRig


# What concerns the light alone, or the whole plot: nothing that hands at this unit would do otherwise.
OF_THE_LIGHT = frozenset(
    {
        "field-cut",
        "field-in-seats",
        "neighbour-in-light",
        "open-pool",
        "lands-in-house",
        "seen-under-border",
        "border-trim",
        "border-no-trim",
        "clamps-open-to-light",
        "front-angles",
        "pair-uneven",
        "levels-unlike",
        "hole-in-system",
        "area-not-covered",
        "one-spot",
        "target-off-stage",
        "target-in-scenery",
        "target-too-near",
        "candela-lumens-disagree",
        "no-candela",
        "stock-short",
    }
)
TIPPED, BY_DIAL, BY_BAR = "tip at the clamp", "on the dial", "bar along tube"
THEN_DIAL = "then the dial"  # after the wedge, where no tape serves
LEANS, ASIDE = "STEM LEANS", "ON ITS SIDE"
SHOUTED = (STOP, LEANS, ASIDE)  # words of lines under a row that stand white on black


class LadderRow(NamedTuple):
    """One unit in words; what does not exist is empty. `way` is where its arrow points on the page.

    Degrees clockwise from the way the reader faces; None where it has no way to face.
    """

    k: int  # its place in the rig's hang order
    number: str
    channel: str
    kind: str
    circuit: str  # "circuit H1"; its twofer where it has one
    colour: str
    pattern: str  # which way an oval or a pattern lies
    edge: str  # "EDGE soft"
    hang: tuple[str, str]  # "19'-0\"", "SL"
    how: str  # "ARM 1'-6\" US", "CHORD top"
    over: bool  # it stands over its pipe
    at_you: bool  # it faces the reader
    square: str  # the side it faces before it swings
    way: float | None
    swing: str  # "SR 23°", SQUARE, PAN FREE
    swing_note: (
        str  # the tool: "wedge 21°", "on the dial"; "bar along tube" where square needs none
    )
    sight: tuple[str, str]  # "14'-9\"", "SL"; a true heading "20°", "SR of US"
    sight_note: str
    tip: w.Tip
    within: tuple[str, ...]  # "down 6°", "pan 7°", "match 5"
    tail: tuple[str, str]  # "SL", "0'-10\""
    told: tuple[tuple[str, str], ...] = ()  # lines under the row: (NOTE, words)
    leans: bool = False  # its stem is not plumb
    stands: tuple[str, ...] = ()  # where its stand is put
    sighted: str = (
        ""  # face, mark or point: what the eye is laid on; empty where tape or dial serves
    )
    point: str = ""  # of a point that is sighted: its name and place
    steps: bool = False  # lines under it number its own steps


def ladder_rows(
    show: Show, length: w.LengthUnit, facing: dict[str, str], act: Further | None = None
) -> list[LadderRow]:
    """A row for every unit, in hang order; `facing` says which side the reader of each position faces.

    With an `act` what each unit would be set to as pipes hang then, without what is found of any.
    """
    rig, plan = show.rig if act is None else act.rig, show.hang
    found = show.findings if act is None else []
    told = [f for f in found if f.severity == "stop" or f.rule not in OF_THE_LIGHT]
    rows = rows_of(rig, told, length)
    tails = tail_words(rig, plan, length)
    hung = hang_rows(rig, plan, (), length)
    printed = lines_under(told)
    made: dict[int, LadderRow] = {}
    for position in plan.positions:
        wedges = wedges_of(position)
        mine = hung[position.position]
        two_tapes = len({a.square for a in _answers(rig, mine) if a.sight is not None}) > 1
        for hang, unit in zip(mine, position.units, strict=True):
            k = hang.k
            row = _joined(rig, rows[k], hang, facing[position.position], length)
            if not row.swing_note and row.swing not in ("", STOP):
                row = row._replace(swing_note=_tool(row.swing, wedges.get(unit.unit, "")))
            if row.swing_note.startswith("wedge") and row.sight[1] == USE_DIAL:
                row = row._replace(sight=(row.sight[0], THEN_DIAL))
            if two_tapes and rig.answers[k].sight is not None and not row.sight_note:
                row = row._replace(sight_note=f"{rig.answers[k].square} tape")
            lines = (
                *((("POINT", f"{row.point}."),) if row.point else ()),
                *row.told,
                *_spots(rows[k]),
                *(_parted(line) for line in printed.get(unit.unit, ())),
            )
            made[k] = row._replace(tail=_tail(tails[k], hang), told=lines)
    return [made[k] for k in range(len(rig.units))]


def _tool(swing: str, wedge: str) -> str:
    """What the rough swing of a unit under or over a level pipe is set by."""
    return wedge or (BY_BAR if swing == w.SQUARE else BY_DIAL)


def _spots(row: Row) -> list[tuple[str, str]]:
    """Which of its aims a unit is locked at, and the others."""
    if not row.spots:
        return []
    others = " and ".join(spot.name for spot in row.spots)
    lock = (
        f"at the aim of this row, {row.stand[0]}. {others}: to check it by, a card for each. "
        "CHECK ONLY: turn nothing."
    )
    told = ((spot.name, f"{spot.aim}, {spot.within}.") for spot in row.spots)
    return [("LOCK", lock), *told]


def _answers(rig: SolidRig, rows: Sequence[HangRow]) -> list[Answer]:
    """Of some units, at the further spots of their targets too."""
    ks = {row.k for row in rows}
    spots = [further for further in rig.further if not further.positions]
    more = [further.rig.answers[k] for further in spots for k in further.rows if k in ks]
    return [*(rig.answers[k] for k in ks), *more]


def position_findings(findings: Sequence[Finding], position: str) -> list[tuple[str, str]]:
    """What is found of a whole position that concerns its hands, worst first: (WARN, sentence).

    A pipe that flies is told last of all what on booms and stands is in its way.
    """
    told = [
        (found.severity.upper(), found.says)
        for found in findings
        if found.position == position
        and not found.unit
        and found.severity in PRINTED
        and (found.severity == "stop" or found.rule not in OF_THE_LIGHT)
    ]
    below = [
        found
        for found in findings
        if found.rule == "under-line-set" and f" of {position} as it flies" in found.says
    ]
    if below:
        what = ", ".join(dict.fromkeys(found.position or found.unit or "" for found in below))
        told.append(("WARN", f"In the way of {position} as it flies: {what}. {below[0].do}"))
    return told


def wedges_of(plan: PositionPlan) -> dict[str, str]:
    """The wedge that each unit of a position is set by, by the unit's name: "wedge 21°"."""
    return {unit: f"wedge {w.angle(wedge.pan)}" for wedge in plan.wedges for unit in wedge.units}


def _joined(rig: SolidRig, row: Row, hang: HangRow, facing: str, length: w.LengthUnit) -> LadderRow:
    unit, position = rig.units[row.k], rig.positions[row.k]
    leans = isinstance(position, Pipe) and bool(row.clamp)
    square = square_word(rig, row.k) if isinstance(position, Pipe) else row.base
    way = _way(rig, row.k, facing)
    where, how = row.hangs
    over = how.endswith("OVER PIPE")
    how = how.removesuffix("OVER PIPE").removesuffix(", ")
    if isinstance(position, Pipe) and position.chords:
        how = how.replace("PIPE", "TRUSS")
    by_eye = bool(row.sight) and (not isinstance(position, Pipe) or _no_tape(row, leans))
    what = sighted(rig, row.k) if by_eye else ""
    sight, note = _sight(row, what if leans else "")
    return LadderRow(
        k=row.k,
        number=row.number,
        channel=row.channel,
        kind=_kind(row),
        circuit=_circuit(hang),
        colour=unit.colour or "no colour",
        pattern=row.turned,
        edge=f"EDGE {unit.edge}" if unit.edge else "",
        hang=_two(where),
        how=how,
        over=over,
        at_you=isinstance(position, Pipe) and square == w.OPPOSITE[facing],
        square=square,
        way=way,
        swing=row.turn.removeprefix("NOSE "),
        swing_note=_swing_note(row),
        sight=sight,
        sight_note=note,
        tip=row.tip,
        within=tuple(filter(None, (*row.within, row.match))),
        tail=("", ""),
        told=_told(unit, row, leans),
        leans=leans,
        stands=stand_words(rig, position, length) if isinstance(position, Stand) else (),
        sighted=what,
        point=_point(rig, row, length) if what == POINT else "",
        steps=bool(row.clamp),
    )


def _kind(row: Row) -> str:
    """The kind, with its field where its name does not have the figures."""
    figures = row.field.replace("°", "").split(" x ")
    return row.kind if all(each in row.kind for each in figures) else f"{row.kind} {row.field}"


def _circuit(hang: HangRow) -> str:
    if not hang.circuit:
        return "no circuit"
    return f"circuit {hang.circuit}" + (
        ", twofer" if hang.twofer or hang.cable[0] == "TWOFER" else ""
    )


def _swing_note(row: Row) -> str:
    if row.turn == w.FREE:
        return row.counted.side_words
    if row.counted.dial:
        return BY_DIAL
    if row.counted.word == "at the clamp":
        return TIPPED
    return ""


def _no_tape(row: Row, leans: bool) -> bool:
    """Whether it hangs on a stem that leans and has no tape: its true heading is told under the row."""
    return leans and row.sight_note == "true heading"


def _point(rig: SolidRig, row: Row, length: w.LengthUnit) -> str:
    """Where a point is that is sighted: "clock, 3'-0\" SL, 17'-6\" US, 9'-6\" UP"."""
    name, across, deep = row.stand
    named = name if rig.answers[row.k].target else ""
    return ", ".join(filter(None, (named, across, deep, point_height(rig, row.k, length))))


def _sight(row: Row, what: str) -> tuple[tuple[str, str], str]:
    """The mark on the tape, or the true heading, as a figure and the rest, with what else to know of it.

    `what` a unit on a pipe is sighted at serves a stem that leans and has no tape.
    """
    if row.sight == "NO TAPE":
        return ("NO TAPE", USE_DIAL), ""
    if what:
        return ("NO TAPE", f"sight {EYED[what]}".replace("the POINT", "POINT")), ""
    note = row.sight_note.replace("off across to", "of straight").replace("off ", "of ")
    return _two(row.sight), note


def _two(words: str) -> tuple[str, str]:
    """A place as its figure and its side: "19'-0\"", "SL"; what has no side stays whole."""
    for side in (*w.SIDES, "UP"):
        if words.endswith(f" {side}"):
            return words.removesuffix(f" {side}"), side
    return words, ""


def _tail(words: str, hang: HangRow) -> tuple[str, str]:
    side = words.removeprefix("tail ")
    far = hang.connector[1] if len(hang.connector) > 2 else ""
    return side.upper() if side in ("at clamp", "either") else side, far


def _told(unit: Unit, row: Row, leans: bool) -> tuple[tuple[str, str], ...]:
    """Lines under a row, without its findings: what the user wrote, what comes first, its three answers."""
    lines = [f"NOTE: {unit.note}" if unit.note else ""]
    lines.append(f"FIRST: {row.first.lower()}." if row.first else "")
    if row.clip:
        clip = row.clip.removeprefix("CLIP ")
        back = w.OPPOSITE.get(clip, "the other side")
        lines.append(f"{ASIDE}: clip to {clip}, the tail comes out {back}.")
    told = [_parted(line) for line in lines if line]
    if leans:
        _, true, answers = row.clamp.partition("True heading")
        told.append((LEANS, f"{true}{answers}"))
    elif row.clamp:
        told.append(_parted(row.clamp))
    return tuple(told)


def _parted(line: str) -> tuple[str, str]:
    word, _, says = line.partition(": ")
    return word, says


def _way(rig: SolidRig, k: int, facing: str) -> float | None:
    """Where the arrow of a row points: square to the tube where it hangs, or the true heading off a pipe.

    None where a unit points straight down or up, has no aim, or its square is no way on the plan.
    """
    answer, heading = rig.answers[k], rig.answers[k].heading
    if answer.yoke is None or answer.attitude == "plumb":
        return None
    if isinstance(rig.positions[k], Pipe):
        heading = None if square_word(rig, k) not in w.SIDES else square_heading(rig, k)
    return None if heading is None else (heading - 90.0 * w.SIDES.index(facing)) % 360.0
