"""What each unit's row says, as words: the aim sheets and the unit cards only draw these."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, isfinite, sin
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from aimcalc.findings.pose import holds_back
from aimcalc.geometry.aim import ON_ITS_SIDE
from aimcalc.geometry.vectors import heading_degrees, to_degrees, to_radians
from aimcalc.named import NamedTuple
from aimcalc.rig.places import LEANS, WORDS, across, nearest_word, place
from aimcalc.scene.model import Boom, Kind, Pipe, Position, Unit
from aimcalc.text import words as w
from aimcalc.text.facts import EYED, sighted
from aimcalc.text.names import LONGEST_KIND, short
from aimcalc.text.stops import Mark, mark_of, match_leaders

if TYPE_CHECKING:
    from aimcalc.solid.answers import Answer, Finding
    from aimcalc.solid.rig import Further, SolidRig


ZERO_MARKS = {"centre line": "CENTRE", "middle": "MIDDLE"}
STOP = "STOP"
CURVED = "curved pipe"  # why a unit has no sight tape
USE_DIAL = "use the dial"  # what serves where a unit is turned too far for a tape
NO_DECK = "no clear deck"  # why a unit has no sight tape that its pan would allow
FIRST = {"turn-first": "TURN, THEN TIP", "set-in-order": "IN ITS ORDER"}  # on cards, by finding
PRINTED = ("stop", "warn")  # severities that go on the row; notes are only reported
MOST_LINES = 24  # under the row of one unit


class Counted(NamedTuple):
    """What a turn is counted from: "square US", "tail DS", or in words "at the clamp", "as heading".

    `dial` where it is read on the clamp's own dial, `at_you` where that side is the reader's.
    """

    word: str = ""
    side: str = ""
    dial: bool = False
    at_you: bool = False

    @property
    def side_words(self) -> str:
        """The words without the dial's: "square US", "square US, at you", of a dial "US, at you"."""
        word = "" if self.dial and self.at_you else self.word
        return f"{word} {self.side}".strip() + (", at you" if self.at_you else "")


class Spot(NamedTuple):
    """A unit's aim at a further spot of its target, in words to check it by, and the rig as it is then."""

    name: str  # "SPOT 2"
    aim: str  # "swing SR 30° from square DS, sight 0.25 m SL on the tape 2.00 m DS, DOWN 72°, plumb 18°"
    within: str  # "within down 5°, pan 17°"
    stand: str  # "STAND 0.90 m SL 0.90 m DS"
    mark: Mark
    rig: SolidRig

    @property
    def said(self) -> str:
        """All of it in one line."""
        parts = (self.aim, self.within, self.stand, self.mark.said)
        return f"{self.name}: {', '.join(filter(None, parts))}"


class Row(NamedTuple):
    """One unit as the ladder reads it."""

    k: int  # its place in the rig's hang order
    number: str
    channel: str
    kind: str
    field: str  # field angle
    hangs: tuple[str, str]  # where along the position, and how where it is not simply under it
    turned: str  # which way an oval pool or a pattern lies
    turn: str  # "SR 23°", SQUARE, PAN FREE; the clamp's own dial where the stem is not plumb
    counted: Counted  # what the turn is counted from
    sight: str  # sight tape, or the true heading where there is no tape to sight along
    sight_note: str
    tip: w.Tip
    stand: tuple[str, str, str]  # name, across, up and down the stage
    mark: Mark
    within: tuple[str, str]  # how close is close enough: "down 7°", "pan 11°"
    match: str
    base: str  # the side that a true heading is counted from
    clip: str  # where the clip of a body on its side is
    clamp: str  # the three separate answers of a stem that is not plumb
    findings: tuple[str, ...]
    remarks: tuple[str, ...] = ()  # what the user wrote of it: "EDGE: soft", "NOTE: ..."
    first: str = ""  # what comes first at this unit: "TURN, THEN TIP"
    tail: str = ""  # filled in for the aim sheets, as the hang sheets have it
    spots: tuple[Spot, ...] = ()  # its aims at the further spots of its target

    @property
    def turn_note(self) -> str:
        """What the turn is counted from: "square US", "dial, square US"."""
        return f"{'dial, ' if self.counted.dial else ''}{self.counted.side_words}"


class _Kept(NamedTuple):
    """What of a rig's rows no finding changes: the rows, and whom each unit may be matched to."""

    rows: list[Row]
    leaders: list[int | None]


_known: WeakKeyDictionary[SolidRig, dict[w.LengthUnit, _Kept]] = WeakKeyDictionary()


def _kept(rig: SolidRig, unit: w.LengthUnit) -> _Kept:
    """They are kept with the rig: every sheet prints them, each with findings of its own."""
    known = _known.setdefault(rig, {})
    if unit not in known:
        bases = heading_bases(rig)
        rows = [_row(rig, k, answer, bases[k], unit) for k, answer in enumerate(rig.answers)]
        known[unit] = _Kept(rows, match_leaders(rig))
    return known[unit]


def rows_of(rig: SolidRig, findings: Sequence[Finding], unit: w.LengthUnit) -> list[Row]:
    """A row for every unit, in hang order; `unit` is the length unit of the paper."""
    bare, leaders = _kept(rig, unit)
    printed = lines_under(findings)
    first: dict[str, dict[str, None]] = {}
    for found in findings:
        if found.unit and found.rule in FIRST:
            first.setdefault(found.unit, {})[FIRST[found.rule]] = None
    held = {found.unit for found in findings if found.severity == "stop"}
    held -= {found.unit for found in holds_back(rig, findings)}
    rows = [
        row._replace(
            match="" if leader is None else _match(rig, leader, held),
            findings=printed.get(name, ()),
            first=", ".join(first.get(name, ())),
        )
        for name, row, leader in zip(rig.names, bare, leaders, strict=True)
    ]
    for further in rig.further:
        if not further.positions:  # a further trim has a table of its own
            there = heading_bases(further.rig)
            for k in further.rows:
                spot, row = _spot(further, k, there[k], unit), rows[k]
                rows[k] = row._replace(remarks=(*row.remarks, spot.said), spots=(*row.spots, spot))
    return [
        _stopped(row) if name in held else row for name, row in zip(rig.names, rows, strict=True)
    ]


def _spot(further: Further, k: int, base: str, unit: w.LengthUnit) -> Spot:
    """A unit's aim at a further spot of its target."""
    row = _row(further.rig, k, further.rig.answers[k], base, unit)
    at = row.sight_note if row.sight == "NO TAPE" else row.sight
    sight = f"sight {at}" if isinstance(further.rig.positions[k], Pipe) and at else at
    there = further.rig.answers[k]
    if there.sight is not None and there.sight_out is not None:
        sight += f" on the tape {w.length(there.sight_out, unit, w.HANG)} {there.square}"
    tip = f"{row.tip.word} {row.tip.angle}".strip()
    plumb = f"plumb {row.tip.plumb}" if row.tip.plumb else ""
    _, across_, deep = row.stand
    turn = row.turn if row.turn in ("", w.FREE, w.SQUARE) else f"swing {row.turn}"
    side = f"from {row.turn_note}" if row.counted.word == "square" else row.turn_note
    near = ", ".join(filter(None, row.within))
    return Spot(
        name=further.name.upper(),
        aim=", ".join(filter(None, (f"{turn} {side}".strip(), sight, tip, plumb))),
        within=f"within {near}" if near else "",
        stand=f"STAND {across_} {deep}",
        mark=row.mark,
        rig=further.rig,
    )


def lines_under(findings: Sequence[Finding]) -> dict[str, tuple[str, ...]]:
    """What is printed under the row of each unit that has a stop or a warning, each line once.

    Units of one name share all that is found of any of them: past MOST_LINES the rest are counted.
    """
    told: dict[str, dict[str, None]] = {}
    for found in findings:
        if found.unit and found.severity in PRINTED:
            told.setdefault(found.unit, {})[f"{found.severity.upper()}: {found.says}"] = None
    return {unit: _at_most(list(lines)) for unit, lines in told.items()}


def _at_most(lines: list[str]) -> tuple[str, ...]:
    more = len(lines) - MOST_LINES
    return (
        tuple(lines) if more <= 0 else (*lines[:MOST_LINES], f"and {more} more: see aimcalc check")
    )


def _match(rig: SolidRig, leader: int, held: set[str | None]) -> str:
    return "" if rig.names[leader] in held else f"match {rig.units[leader].number}"


def _stopped(row: Row) -> Row:
    """A row whose aim is not to be used: STOP stands where its figures would."""
    return row._replace(
        turn=STOP,
        counted=Counted(),
        sight="",
        sight_note="",
        tip=w.Tip(STOP, "", ""),
        mark=Mark(STOP, "TAIL UP", "turn it over"),
        within=("", ""),
        match="",
        clamp="",
    )


def _row(rig: SolidRig, k: int, answer: Answer, base: str, length: w.LengthUnit) -> Row:
    unit, kind, position = rig.units[k], rig.kinds[k], rig.positions[k]
    leaning = abs(float(rig.arrays.stem[2, k])) < LEANS
    turn, counted = _turn(rig, k, answer, leaning)
    if not isinstance(position, Pipe) and not leaning and turn != w.FREE:
        turn, counted = "", Counted("as heading")
    sight, sight_note = _sight(answer, position, leaning, base, length)
    return Row(
        k=k,
        number=unit.number,
        channel=f"ch {unit.channel}" if unit.channel else "",
        kind=short(rig, kind.name, LONGEST_KIND),
        field=_field(kind),
        hangs=hangs(unit, position, length),
        turned=_turned(rig, k),
        turn=turn,
        counted=counted,
        sight=sight,
        sight_note=sight_note,
        tip=w.Tip("NO AIM", "", "") if answer.down is None else w.tip(answer.down),
        stand=_stand(rig, answer, length),
        mark=mark_of(rig, k, answer, length),
        within=_within(rig, k, answer, leaning) if turn != w.FREE else _within_free(answer),
        match="",
        base=base,
        clip=clip_words(rig, k),
        clamp=_clamp(rig, k, answer, base) if leaning else "",
        findings=(),
        remarks=remarks_of(unit),
    )


def _field(kind: Kind) -> str:
    if kind.oval:
        return f"{w.angle(kind.oval[0])} x {w.angle(kind.oval[1])}"
    return "" if kind.field is None else w.angle(kind.field)


def _turned(rig: SolidRig, k: int) -> str:
    """The way the pool's long axis (or a pattern's level line) lies, by what is lit, not by the lamp."""
    unit, kind = rig.units[k], rig.kinds[k]
    turn = unit.turn
    if unit.kind in rig.file_ovals:  # it lies as its body does where nobody says
        turn = to_degrees(rig.ovals.turn[rig.ovals.row_of(k)])
    if turn is None or not (kind.oval or kind.has_gobo):
        return ""
    thing, off = ("OVAL" if kind.oval else "PATTERN"), w.steps(turn, 1.0) % 180
    if off in (0, 90):
        return f"{thing} {'UP AND DOWN' if off else 'ACROSS'}"
    return f"{thing} {min(off, 180 - off)}° off level"


def hangs(unit: Unit, position: Position, length: w.LengthUnit) -> tuple[str, str]:
    """Where and how it hangs: ("3'-0" SL", ""), ("1 m DS", "OVER PIPE"), ("2 m UP", "DIRECT, US side")."""
    how = {"over": "OVER PIPE", "stand": "ON STAND"}.get(unit.mount, "")
    if unit.mount == "direct":
        how = f"DIRECT, {w.heading(unit.arm_to or 0.0)} side"
    if unit.mount == "out":
        how = f"OUT {w.angle(unit.swing_out)} {unit.out_to or ''}".rstrip()
    if unit.mount == "arm":
        how = f"ARM {w.length(unit.arm, length, w.SIZE)} {w.heading(unit.arm_to or 0.0)}"
    if unit.chord:
        how = ", ".join(filter(None, (f"CHORD {unit.chord}", how)))
    return _at(unit, position, length), how


def remarks_of(unit: Unit) -> tuple[str, ...]:
    """What the user wants read on a unit's row: "EDGE: soft", "NOTE: iris in the case"."""
    told = (("EDGE", unit.edge), ("NOTE", unit.note))
    return tuple(f"{word}: {said}" for word, said in told if said)


def clip_words(rig: SolidRig, k: int) -> str:
    """Where the clip of a body on its side is to be found: "CLIP SL"; empty for any other."""
    if rig.aims.attitude[k] != ON_ITS_SIDE:
        return ""
    x, y, z = rig.up[:, k].tolist()
    return f"CLIP {WORDS[nearest_word((x, y, z))]}"


def _at(unit: Unit, position: Position, length: w.LengthUnit) -> str:
    if isinstance(position, Pipe):
        return w.mark(unit.at or 0.0, along(position), zero_mark(position), length, w.HANG)
    return f"{w.length(unit.at or 0.0, length, w.HANG)} UP" if isinstance(position, Boom) else ""


def along(pipe: Pipe) -> tuple[str, str]:
    """The sides a pipe's ends are on, the one that `at` counts towards first."""
    return ("SL", "SR") if across(pipe) else ("US", "DS")


def zero_words(pipe: Pipe) -> str:
    """What marks along a pipe are counted from: "centre line", "middle" (of the pipe), "SL end"."""
    if pipe.zero not in ("start", "end"):
        return pipe.zero
    axis = 0 if across(pipe) else 1
    start_is_plus = pipe.start[axis] > pipe.end[axis]
    return f"{along(pipe)[(pipe.zero == 'start') != start_is_plus]} end"


def zero_mark(pipe: Pipe) -> str:
    """What a place on a pipe's zero mark is called: CENTRE, MIDDLE, "SL END"."""
    return ZERO_MARKS.get(pipe.zero) or zero_words(pipe).upper()


def tape_zero(pipe: Pipe) -> str:
    """Where the 0 of a pipe's sight tape lies: on the centre line, or out square from the zero mark."""
    straight = abs(pipe.end[1] - pipe.start[1]) < 1e-9 and pipe.zero == "centre line"
    return f"zero on {zero_words(pipe)}" if straight else f"zero opposite {zero_words(pipe)}"


def _turn(rig: SolidRig, k: int, answer: Answer, leaning: bool) -> tuple[str, Counted]:
    """The turn at the clamp and what it is counted from."""
    if answer.yoke is None:
        return "", Counted()
    if pan_is_free(rig.kinds[k], answer):
        x, y, z = (-rig.up[:, k]).tolist()
        return w.FREE, Counted("tail", WORDS[nearest_word((x, y, z))])
    if answer.mount == "direct":
        return _nose(answer), Counted("at the clamp")
    return w.turn(answer.pan, answer.swing), Counted("square", square_word(rig, k), leaning)


STEEP = sin(to_radians(45.0))  # a square nearer to plumb than to level is named for it (our choice)


def square_word(rig: SolidRig, k: int) -> str:
    """The way a unit faces before it turns: a side, or of a clamp swung far out "straight down".

    Empty where it has no aim.
    """
    side = rig.answers[k].square or ""
    up = _square_way(rig, k)[2]
    return side if not side or abs(up) <= STEEP else f"straight {'up' if up > 0 else 'down'}"


def square_heading(rig: SolidRig, k: int) -> float:
    """The plan direction of a unit's square, degrees clockwise from US: across its tube where it hangs."""
    x, y, _ = _square_way(rig, k)
    return heading_degrees(atan2(x, y))


def _square_way(rig: SolidRig, k: int) -> tuple[float, float, float]:
    sign = float(rig.aims.square_sign[k])
    x, y, z = rig.arrays.reference[:, k].tolist()
    return x * sign, y * sign, z * sign


def _nose(answer: Answer) -> str:
    """The turn at a clamp whose stem is level: it tips the nose."""
    turn = w.turn(answer.pan, answer.swing)
    return "NOSE LEVEL" if turn == w.SQUARE else f"NOSE {turn}"


def pan_is_free(kind: Kind, answer: Answer) -> bool:
    """Any turn will do: plumb, and neither an oval pool nor a pattern to turn."""
    wants_turn = kind.oval is not None or kind.has_gobo
    return answer.pan is None or (answer.attitude == "plumb" and not wants_turn)


def _sight(
    answer: Answer, position: Position, leaning: bool, base: str, length: w.LengthUnit
) -> tuple[str, str]:
    """The sight-tape mark of a pipe; the true heading where there is no tape and the dial differs."""
    if answer.yoke is None or answer.attitude == "plumb":
        return "", ""
    if not isinstance(position, Pipe):
        return _from_across(answer, position, base)
    if answer.sight is None and leaning:
        return (
            (w.heading(answer.heading, base), "true heading")
            if answer.heading is not None
            else ("", "")
        )
    if answer.sight is None:
        why = USE_DIAL if (answer.pan or 0.0) > 60.0 else NO_DECK
        return "NO TAPE", why if position.through is None else CURVED
    return w.mark(answer.sight, along(position), "AT ZERO", length, w.DECK), ""


def _from_across(answer: Answer, position: Position, base: str) -> tuple[str, str]:
    """True heading of a unit on a boom or stand, off straight across (or the side that serves its row)."""
    if answer.heading is None:
        return "", ""
    told, own = w.heading(answer.heading, base), WORDS[place(position).square_word]
    way = "across to " if base in (own, w.OPPOSITE[own]) else ""
    if told == base:
        return "STRAIGHT", f"{way}{base}"
    angle, side, *_ = told.split(" ")
    return f"{side} {angle}", f"off {way}{base}"


def heading_bases(rig: SolidRig) -> list[str]:
    """The side that each unit's true heading is counted from, one for neighbours under one heading."""
    found = [""] * len(rig.units)
    headings = to_degrees(rig.aims.heading).tolist()
    for name, members in rig.rows.items():
        own = WORDS[place(rig.scene.positions[name]).square_word]
        row = [headings[k] if isfinite(headings[k]) else None for k in members]
        for k, base in zip(members, w.bases(row, own), strict=True):
            found[k] = base
    return found


def _clamp(rig: SolidRig, k: int, answer: Answer, base: str) -> str:
    """The answers of a stem that is not plumb, each named for what it is, in their order of use.

    Under a pipe that slopes a tape and a level serve as ever; what reads otherwise is the dial.
    """
    position = rig.positions[k]
    if answer.yoke is None or answer.heading is None or answer.down is None:
        return ""
    tip, turn = w.tip(answer.down), w.turn(answer.pan, answer.swing)
    level = f"level {tip.word} {tip.angle}".strip()
    within = w.within(answer.pan_tolerance)
    within = "" if within == "any" else f", within {within}"
    way = "away from" if answer.yoke >= 0 else "towards"
    yoke = f"{w.angle(answer.yoke)} {way} clamp"
    slopes = isinstance(position, Pipe) and answer.mount != "out"
    why, at = "STEM: not plumb", f"sight {EYED[sighted(rig, k)]}"
    used = (f"dial {turn}{within}", level, f"{at}, yoke {yoke}")
    if answer.sight is not None:
        why = "SLOPE: the dial differs"
        used = (level, "tape", f"check dial {turn}{within}, yoke {yoke}")
    elif answer.mount == "direct":
        used = (f"clamp {_nose(answer)}{within}", f"{at}, yoke {yoke}", f"check {level}")
    elif slopes:
        why = "SLOPE: no tape"
    order = "; ".join(map(" ".join, zip(("FIRST", "THEN", "LAST"), used, strict=True)))
    return f"{why}. True heading {w.heading(answer.heading, base)}: {order}."


def _stand(rig: SolidRig, answer: Answer, length: w.LengthUnit) -> tuple[str, str, str]:
    """The target's name and the two distances of STAND; of the point itself where nobody stands."""
    x, y, _ = answer.stand or answer.face
    name = short(rig, answer.target) if answer.target else "POINT"
    return name, w.across(x, length), w.upstage(y, length)


def _within(rig: SolidRig, k: int, answer: Answer, leaning: bool) -> tuple[str, str]:
    """Tolerances of the tip and of the turn beside it, rounded down: of the pan, or of the heading.

    Where the stem is not plumb the heading is what stands beside; the dial's own is told with the dial.
    """
    if answer.down is None:
        return "", ""
    turn = ("heading", to_degrees(float(rig.tolerances.heading[k])))
    name, tolerance = turn if leaning else ("pan", answer.pan_tolerance)
    return _within_tip(answer), f"{name} {w.within(tolerance)}"


def _within_free(answer: Answer) -> tuple[str, str]:
    return ("", "") if answer.down is None else (_within_tip(answer), "pan any")


def _within_tip(answer: Answer) -> str:
    return f"{w.tip(answer.down or 0.0).word.lower()} {w.within(answer.down_tolerance)}"
