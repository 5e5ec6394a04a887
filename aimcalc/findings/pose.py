"""How a body hangs at its aim: right way up, within its yoke, with a turn that somebody can set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from aimcalc.findings.report import NOTE, STOP, WARN, about, angles, by_position, numbers, subject
from aimcalc.geometry.aim import PLUMB, Flags
from aimcalc.geometry.vectors import cross, to_degrees, to_radians
from aimcalc.light.profiles import flux_per_candela
from aimcalc.rig.kinds import missing, size_of
from aimcalc.rig.places import WORDS, nearest_word
from aimcalc.rig.rig import lens_in_tube, upright_halves
from aimcalc.rig.wording import angle, count, length, listed, tip
from aimcalc.scene.model import Boom, Kind, Unit
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

TURNED = "upside-down"
SIDEWAYS_FROM, SIDEWAYS_TO = (
    60.0,
    120.0,
)  # roll: within 30 degrees of sideways (common practice, no source)


def _roll(rig: SolidRig) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Roll in degrees; -1 where there is none (plumb, or no aim)."""
    return np.nan_to_num(to_degrees(rig.aims.roll), nan=-1.0)


def upside_down(rig: SolidRig) -> Iterator[Finding]:
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


def holds_back(rig: SolidRig, findings: Iterable[Finding]) -> list[Finding]:
    """The stops that hold back every sheet. A unit reported tail up stops its own row and no other."""
    units = zip(rig.names, rig.units, strict=True)
    up = {name for name, unit in units if unit.hung == "tail up"}
    return [f for f in findings if f.severity == STOP and not (f.rule == TURNED and f.unit in up)]


def on_its_side(rig: SolidRig) -> Iterator[Finding]:
    """Warns of bodies near sideways that take a frame or a pattern: the slot then faces sideways."""
    roll = _roll(rig)
    fitted = np.array([kind.has_frame or kind.has_gobo for kind in rig.kinds], dtype=bool)
    sideways = (roll >= SIDEWAYS_FROM) & (roll <= SIDEWAYS_TO)
    told = sideways & fitted & ~(rig.arrays.tail_up & (roll > 90.0))
    for rows in by_position(rig, told):
        lies = subject(rig, rows, "lies on its side", "lie on their sides")
        slots = (
            "a frame or pattern in it faces"
            if len(rows) == 1
            else "frames or patterns in them face"
        )
        says = f"{lies}, rolled {angles(roll[rows])} from upright: {slots} sideways."
        do = "Secure frame and pattern holder, leave them out, or hang it under a side arm."
        yield about(rig, rows, WARN, "on-its-side", says=says, do=do)


def plumb(rig: SolidRig) -> Iterator[Finding]:
    """Notes units that point straight down or up: pan says nothing, so the tail's side is told."""
    for rows in by_position(rig, rig.aims.attitude == PLUMB):
        off = [90.0 - abs(d) for d in to_degrees(rig.aims.down[rows]).tolist()]
        tails = [WORDS[nearest_word(tuple((-rig.up[:, k]).tolist()))] for k in rows]
        told = [f"{n} tail {t}" for n, t in zip(numbers(rig, rows), tails, strict=True)]
        points = subject(rig, rows, "points", "point")
        says = f"{points} within {angle(max(off), 1)} of plumb, where pan means nothing: {listed(told)}."
        do = "Set the tail by its side and the lens by plumb; leave the pan."
        yield about(rig, rows, NOTE, "plumb", says=says, do=do)


def yoke_travel(rig: SolidRig) -> Iterator[Finding]:
    """Stops for aims beyond the travel of the kind's yoke, either way up."""
    yoke = to_degrees(rig.aims.yoke)
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


def out_of_reach(rig: SolidRig) -> Iterator[Finding]:
    """Stops for targets inside the unit itself, which no turn can light; by a typical nose, warns."""
    for k in np.flatnonzero(np.isnan(rig.aims.throw)).tolist():
        says = (
            f"The target of unit {rig.units[k].number} lies inside the unit, nearer than its lens."
        )
        do = "Correct the target, the place of the unit, or the nose of its kind."
        assumed = rig.kinds[k].typical and not np.isnan(rig.aims.yoke[k])
        says += f" By the typical nose of {rig.kinds[k].name}." if assumed else ""
        yield about(rig, [k], WARN if assumed else STOP, "target-too-near", says=says, do=do)


def faces_away(rig: SolidRig) -> Iterator[Finding]:
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


def wide_pan(rig: SolidRig) -> Iterator[Finding]:
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
            f"{turns} {angles(to_degrees(turned[rows]))} from square: no sight-tape mark over 60°."
        )
        do = "Set the pan by dial, wedge or the line on the hang strip."
        yield about(rig, rows, NOTE, "wide-pan", says=says, do=do)


def no_turn(rig: SolidRig) -> Iterator[Finding]:
    """Warns of oval lamps and patterns whose long axis nobody has given a direction."""
    unset = [
        unit.turn is None and (kind.has_gobo or (kind.oval is not None and _turns(rig, unit, kind)))
        for unit, kind in zip(rig.units, rig.kinds, strict=True)
    ]
    for rows in by_position(rig, unset):
        says = f"{subject(rig, rows, 'has', 'have')} an oval lamp or a pattern without a direction."
        do = 'Give turn: "across", "up and down" or degrees from level.'
        yield about(rig, rows, WARN, "no-turn", says=says, do=do)


def _turns(rig: SolidRig, unit: Unit, kind: Kind) -> bool:
    """Whether an oval can be turned in its housing: a par's lamp, and any kind that is oval by its own key.

    An oval out of a photometric file is else the body's own, and lies as the body does.
    """
    return unit.kind not in rig.file_ovals or kind.family == "par"


SAME_FILE = 1.1  # of lumens for the same candela (estimates, no source)
SAME_ANGLES = 1.5
PEAKED, FLAT = 0.4, 0.95  # beam over field


def typical_kinds(rig: SolidRig) -> Iterator[Finding]:
    """Notes once which kinds are generic."""
    names = sorted({kind.name for kind in rig.kinds if kind.typical})
    if names:
        says = f"Figures of {count(names, 'kind')} are typical; yours are not measured."
        do = "Put your maker's figures in [[kind]], or measure one of each."
        yield Finding(NOTE, "typical-kind", says, do)


def no_drop(rig: SolidRig) -> Iterator[Finding]:
    """Warns once of kinds used without a drop: the pipe's height is then taken for the lens's."""
    names = sorted(
        {kind.name for kind, drop in zip(rig.kinds, rig.arrays.drop, strict=True) if drop == 0}
    )
    if names:
        says = (
            f"No drop from pipe to pivot is known for {count(names, 'kind')} as hung: taken as 0."
        )
        if lens_in_tube(rig).any():
            says += " A lens in the pipe casts no light: what stands in its way is not checked."
        do = "Measure one of each, clamp to yoke bolts, and give drop_under or drop_over."
        yield Finding(WARN, "no-drop", says, do)


def body_not_known(rig: SolidRig) -> Iterator[Finding]:
    """Warns of each kind without a length or a width: what its body touches goes by its family's."""
    kinds = {kind.name: kind for kind in rig.kinds}
    for name, kind in kinds.items():
        if keys := missing(kind):
            unit, size = rig.scene.settings.unit, size_of(kind)
            says = (
                f"Kind {name} has no {' and no '.join(keys)}: light that its body stops, the order to set it "
                "in and its own yoke are not checked; what it touches goes by a typical "
                f"{kind.family}, {length(size.length, unit)} long and {length(size.width, unit)} wide."
            )
            do = f"Measure one and add {' and '.join(keys)} to its [[kind]]."
            yield Finding(WARN, "body-not-known", says, do)


def candela_and_lumens(rig: SolidRig) -> Iterator[Finding]:
    """Warns of kinds whose candela and lumens cannot both be right: a wrong digit, or the bare lamp's lumens.

    Lumens are the smooth profile integrated over all directions, or a file's own light scaled; see `_likely`
    for how far they may be off.
    """
    for name in dict.fromkeys(unit.kind for unit in rig.units):
        kind = rig.scene.kinds[name]
        if not kind.peak_cd or not kind.lumens:
            continue
        made, least, most = _likely(rig, name, kind.peak_cd)
        if least <= kind.lumens <= most:
            continue
        says = (
            f"Kind {name} is given {kind.peak_cd:.0f} cd and {kind.lumens:.0f} lm, but these candela over "
            f"its field make about {float(f'{made:.3g}'):.0f} lm. Its light goes by the candela."
        )
        do = "Correct peak_cd or lumens (of the unit, not of its bare lamp), or leave one out."
        yield Finding(WARN, "candela-lumens-disagree", says, do)


def _likely(rig: SolidRig, name: str, peak: float) -> tuple[float, float, float]:
    """Lumens that a kind's candela make, and the least and the most that they may be.

    A file's shape is known, and typed figures of it are rounded. The smooth profile goes through half and a
    tenth only, and no real unit is dark beyond its field. Where the beam is not given either, any from a
    peaked one to a flat field may be meant: 0.9 to 2.0 times the lumens of the one that is taken.
    """
    file = rig.photometry.get(name)
    if file is not None:
        made = peak * file.lumens / file.peak_cd
        return made, made / SAME_FILE, made * SAME_FILE
    k = next(k for k, unit in enumerate(rig.units) if unit.kind == name)
    field, beam = float(rig.arrays.field[k]), float(rig.arrays.beam[k])
    narrow, wide = (to_radians(full) for full in rig.kinds[k].oval or (to_degrees(field),) * 2)
    ends = (beam / field,) * 2 if rig.kinds[k].beam else (PEAKED, FLAT)
    made, least, most = (
        peak * float(flux_per_candela(beam=share * field, field=field, narrow=narrow, wide=wide))
        for share in (min(beam / field, FLAT), *(min(end, FLAT) for end in ends))
    )
    return made, least / SAME_ANGLES, most * SAME_ANGLES


STEEP, FLAT_AT_FACE = (
    to_radians(60.0),
    to_radians(25.0),
)  # at the face (as taught: eye sockets; flat)
FRONT_WITHIN = to_radians(60.0)  # of straight US: light from the front (common practice, no source)
HAIR = 1e-9  # radians


def open_pools(rig: SolidRig) -> Iterator[Finding]:
    """Warns of pools on the deck that never close: the field's upper edge is level or above.

    Units that look up with their whole field have no pool on the deck at all and are left alone.
    """
    half = upright_halves(rig)
    down = rig.aims.down
    opens = (down - half <= HAIR) & (down + half > HAIR)
    for rows in by_position(rig, opens):
        above = angles(to_degrees(half[rows] - down[rows]))
        edge = subject(rig, rows, "throws", "throw")
        says = f"{edge} an open pool: the top of the field is {above} above level and never comes down."
        do = "Cut the top, hang higher, or use a narrower lens; mind eyes, walls and cloths."
        yield about(rig, rows, WARN, "open-pool", says=says, do=do)


def from_the_front(rig: SolidRig) -> Flags:
    """Units, (N,), that light somebody's face from the front.

    Within 60 degrees of straight on, as it faces.
    """
    faces = {t.name for t in rig.scene.targets if t.plane == "face"}
    at_face = np.array([unit.target in faces for unit in rig.units], dtype=bool)
    return np.asarray(at_face & (np.abs(rig.off_front) <= FRONT_WITHIN + HAIR))


def steep(rig: SolidRig) -> Iterator[Finding]:
    """Notes front light over 60 degrees down at the face: eye sockets stay dark."""
    for rows in by_position(rig, from_the_front(rig) & (rig.aims.down > STEEP + HAIR)):
        hits = subject(rig, rows, "hits", "hit")
        says = f"{hits} faces {angles(to_degrees(rig.aims.down[rows]))} down: eyes in shadow."
        do = "Light these faces from lower or farther out, or fill them from elsewhere."
        yield about(rig, rows, NOTE, "steep", says=says, do=do)


def flat(rig: SolidRig) -> Iterator[Finding]:
    """Notes front light under 25 degrees down at the face: flat, with shadows on the drop."""
    for rows in by_position(rig, from_the_front(rig) & (rig.aims.down < FLAT_AT_FACE - HAIR)):
        hits = subject(rig, rows, "hits", "hit")
        behind = "upstage" if (rig.fronts[1, rows] < -0.5).all() else "behind them"
        says = f"{hits} faces only {_down(rig, rows)}: flat; shadows land {behind}."
        do = "Run it low, or hang it higher or nearer."
        yield about(rig, rows, NOTE, "flat", says=says, do=do)


def _down(rig: SolidRig, rows: list[int]) -> str:
    """How far down units come in: "2° to 7° down", "4° up to 7° down"."""
    down = to_degrees(rig.aims.down[rows])
    if down.min() >= 0.5:
        return f"{angles(down)} down"
    low, high = tip(float(down.min())), tip(float(down.max()))
    return low if low == high else f"{low} to {high}"
