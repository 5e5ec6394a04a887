"""How a body hangs at its aim: right way up, within its yoke, with a turn that somebody can set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from aimcalc.geometry.aim import PLUMB, Flags
from aimcalc.geometry.vectors import cross
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import (
    NOTE,
    STOP,
    WARN,
    about,
    angles,
    by_position,
    numbers,
    subject,
)
from aimcalc.rig.places import WORDS, nearest_word
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import angle, listed
from aimcalc.scene.model import Boom, Kind, Unit

TURNED = "upside-down"
SIDEWAYS_FROM, SIDEWAYS_TO = (
    60.0,
    120.0,
)  # roll: within 30 degrees of sideways (common practice, no source)


def _roll(rig: Rig) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Roll in degrees; -1 where there is none (plumb, or no aim)."""
    return np.nan_to_num(np.degrees(rig.aims.roll), nan=-1.0)


def upside_down(rig: Rig) -> Iterator[Finding]:
    """Stops for bodies whose gel-frame clip is underneath; frames and patterns fall out of them.

    A body on its side is still let pass here: it counts as underneath from 30 degrees below sideways
    on, or from sideways on where the crew reports the unit tail up.
    """
    roll, reported = _roll(rig), rig.arrays.tail_up
    for k in np.flatnonzero((roll > SIDEWAYS_TO) | (reported & (roll > 90.0))).tolist():
        number, turned = rig.units[k].number, f"rolled {angle(roll[k])} from upright"
        if reported[k]:
            says = (
                f"Unit {number} is reported tail up: its frame clip is underneath, {turned}. "
                "Its aim is not to be used."
            )
            do = 'Turn the body over in its yoke, then report it "tail down".'
        else:
            says = f"Unit {number} can only hit its target with its clip underneath, {turned}."
            do = "Hang it the other way (under or over), move it, or correct its kind's yoke_range."
        yield about(rig, [k], STOP, TURNED, says=says, do=do)


def holds_back(rig: Rig, findings: Iterable[Finding]) -> list[Finding]:
    """The stops that hold back every sheet. A unit reported tail up stops its own row and no other."""
    units = zip(rig.names, rig.units, strict=True)
    up = {name for name, unit in units if unit.hung == "tail up"}
    return [f for f in findings if f.severity == STOP and not (f.rule == TURNED and f.unit in up)]


def on_its_side(rig: Rig) -> Iterator[Finding]:
    """Warns of bodies near sideways that carry a frame or a pattern: the slot then faces sideways."""
    roll = _roll(rig)
    fitted = np.array([kind.has_frame or kind.has_gobo for kind in rig.kinds], dtype=bool)
    sideways = (roll >= SIDEWAYS_FROM) & (roll <= SIDEWAYS_TO)
    told = sideways & fitted & ~(rig.arrays.tail_up & (roll > 90.0))
    for rows in by_position(rig, told):
        lies = subject(rig, rows, "lies on its side", "lie on their sides")
        says = f"{lies}, rolled {angles(roll[rows])} from upright, with a frame or pattern fitted."
        do = "Secure frame and pattern holder, leave them out, or hang it under a side arm."
        yield about(rig, rows, WARN, "on-its-side", says=says, do=do)


def plumb(rig: Rig) -> Iterator[Finding]:
    """Notes units that point straight down or up: pan says nothing, so the tail's side is told."""
    for rows in by_position(rig, rig.aims.attitude == PLUMB):
        off = [90.0 - abs(d) for d in np.degrees(rig.aims.down[rows]).tolist()]
        tails = [WORDS[nearest_word(tuple((-rig.up[:, k]).tolist()))] for k in rows]
        told = [f"{n} tail {t}" for n, t in zip(numbers(rig, rows), tails, strict=True)]
        points = subject(rig, rows, "points", "point")
        says = f"{points} within {angle(max(off), 1)} of plumb, where pan means nothing: {listed(told)}."
        do = "Set the tail by its side and the lens by plumb; leave the pan."
        yield about(rig, rows, NOTE, "plumb", says=says, do=do)


def yoke_travel(rig: Rig) -> Iterator[Finding]:
    """Stops for aims beyond the travel of the kind's yoke, either way up."""
    yoke = np.degrees(rig.aims.yoke)
    for k in np.flatnonzero(~rig.aims.in_travel & ~np.isnan(yoke)).tolist():
        unit, kind = rig.units[k], rig.kinds[k]
        low, high = kind.yoke_range or (-180.0, 180.0)
        says = (
            f"Unit {unit.number} needs its yoke at {_yoke(yoke[k])}; the yoke of {kind.name} goes "
            f"from {_yoke(low)} to {_yoke(high)}."
        )
        do = "Hang it another way (over, on an arm, swung out), move it, or choose another kind."
        yield about(rig, [k], STOP, "yoke-travel", says=says, do=do)


def _yoke(degrees: float) -> str:
    """A yoke angle in words: 0 is square to the stem."""
    if abs(degrees) < 0.5:
        return "0°"
    return f"{angle(degrees)} {'away from' if degrees > 0 else 'towards'} the clamp"


def out_of_reach(rig: Rig) -> Iterator[Finding]:
    """Stops for targets inside the unit itself, which no turn can light; by a typical nose, warns."""
    for k in np.flatnonzero(np.isnan(rig.aims.throw)).tolist():
        says = (
            f"The target of unit {rig.units[k].number} lies inside the unit, nearer than its lens."
        )
        do = "Correct the target, the place of the unit, or the nose of its kind."
        assumed = rig.kinds[k].typical and not np.isnan(rig.aims.yoke[k])
        says += f" By the typical nose of {rig.kinds[k].name}." if assumed else ""
        yield about(rig, [k], WARN if assumed else STOP, "target-too-near", says=says, do=do)


def faces_away(rig: Rig) -> Iterator[Finding]:
    """Warns of boom units that face away from the side which the boom's `square` declares."""
    declared = np.array([isinstance(p, Boom) and p.square is not None for p in rig.positions], bool)
    turns = np.array([unit.mount != "direct" for unit in rig.units], dtype=bool)
    away: Flags = declared & turns & (rig.aims.square_sign < 0) & ~np.isnan(rig.aims.yoke)
    for rows in by_position(rig, away):
        word = int(rig.words.square[rows[0]])
        faces = subject(rig, rows, "faces", "face")
        says = f"{faces} {WORDS[word ^ 1]}; the square of its boom is {WORDS[word]}."
        do = "Correct the target, or the boom's square."
        yield about(rig, rows, WARN, "faces-away", says=says, do=do)


def wide_pan(rig: Rig) -> Iterator[Finding]:
    """Notes units on a pipe that turn over 60 degrees from square: their sight mark would run away.

    On a pipe that slopes the dial and the heading differ; the wider of both is told.
    """
    axis, reference = rig.axis, rig.arrays.reference
    ahead, aside = axis[0] * reference[0] + axis[1] * reference[1], cross(reference, axis)[2]
    turned = np.maximum(rig.aims.pan, np.arctan2(np.abs(aside), np.abs(ahead)))
    lost = np.isnan(rig.aims.sight) & ~np.isnan(rig.arrays.tape_at) & ~np.isnan(rig.aims.pan)
    for rows in by_position(rig, lost & (rig.aims.attitude != PLUMB)):
        turns = subject(rig, rows, "turns", "turn")
        says = (
            f"{turns} {angles(np.degrees(turned[rows]))} from square: no sight-tape mark over 60°."
        )
        do = "Set the pan by dial, wedge or the line on the hang strip."
        yield about(rig, rows, NOTE, "wide-pan", says=says, do=do)


def no_turn(rig: Rig) -> Iterator[Finding]:
    """Warns of oval lamps and patterns whose long axis nobody has given a direction."""
    unset = [
        unit.turn is None and (kind.has_gobo or (kind.oval is not None and _turns(rig, unit, kind)))
        for unit, kind in zip(rig.units, rig.kinds, strict=True)
    ]
    for rows in by_position(rig, unset):
        says = f"{subject(rig, rows, 'has', 'have')} an oval lamp or a pattern without a direction."
        do = 'Give turn: "across", "up and down" or degrees from level.'
        yield about(rig, rows, WARN, "no-turn", says=says, do=do)


def _turns(rig: Rig, unit: Unit, kind: Kind) -> bool:
    """Whether an oval can be turned in its housing: a par's lamp, and any kind that is oval by its own key.

    An oval out of a photometric file is else the body's own, and lies as the body does.
    """
    return unit.kind not in rig.file_ovals or kind.family == "par"
