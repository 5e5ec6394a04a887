"""What a sheet was worked out from: title, revision, trim, drop, face height, in a footer's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.rig.places import across
from aimcalc.scene.model import Boom, Pipe, Position, Stand
from aimcalc.text import words as w
from aimcalc.text.names import short
from aimcalc.text.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


# what stands up from where it is held, by its mount, and above what its pivot is measured
PIVOTS = {"over": "pivot above pipe", "stand": "pivot above stand"}
LONGEST_TITLE = 48  # letters; a longer one would squeeze the facts beside it


def footer(rig: SolidRig, what: str = "", more: Sequence[str] = ()) -> str:
    """Title, `what` the page is about, revision, then `more` facts, parted by bars."""
    settings = rig.scene.settings
    parts = [shorten(settings.title, LONGEST_TITLE, keep_end=True), short(rig, what)]
    revision = shorten(settings.revision, 16, keep_end=True)
    parts.append(f"rev {revision}" if revision else "no revision")
    return " | ".join(part for part in (*parts, *more) if part)


def revision_words(rig: SolidRig) -> str:
    """ "revision C", or that there is none."""
    revision = rig.scene.settings.revision
    return f"revision {revision}" if revision else "no revision"


def headline(rig: SolidRig) -> str:
    """What a terminal shows first: "The Orchard Clock, revision D: 78 units"."""
    settings = rig.scene.settings
    named = ", ".join(filter(None, (settings.title, settings.revision and revision_words(rig))))
    return f"{named}: {w.count(len(rig.units), 'unit')}"


def position_facts(rig: SolidRig, name: str, length: w.LengthUnit) -> list[str]:
    """Trim and whether it was measured, drop and face height used for one position's units."""
    trim = trim_words(rig.scene.positions[name], length)
    return [trim, *drop_and_face(rig, rig.rows[name], length)]


def drop_and_face(rig: SolidRig, units: Sequence[int], length: w.LengthUnit) -> list[str]:
    """The drops and the face heights of some units; nothing of none.

    What stands on its pipe or its stand has no drop: its pivot is so far above.
    """
    if not units:
        return []
    told: dict[str, list[float]] = {}
    for k in units:
        word = PIVOTS.get(rig.units[k].mount, "drop")
        told.setdefault(word, []).append(float(rig.arrays.drop[k]))
    drops = (f"{word} {span(found, length, w.HANG)}" for word, found in sorted(told.items()))
    return [*drops, face_words(rig, units, length)]


def tape_words(rig: SolidRig, name: str, length: w.LengthUnit) -> list[str]:
    """Where a position's sight tapes lie, a few words for each side of it that needs one."""
    told = []
    for tape in rig.tapes.every:
        if tape.position == name:
            out = "" if np.isnan(tape.out) else f" {w.length(tape.out, length, w.HANG)} {tape.side}"
            told.append(f"sight tape{out}" if out else f"no sight tape {tape.side}")
    return told


def noun(position: Position) -> str:
    """What a position is called in a sentence: pipe, truss, boom or stand."""
    if isinstance(position, Pipe):
        return "truss" if position.chords else "pipe"
    return "boom" if isinstance(position, Boom) else "stand"


def trim_words(position: Position, length: w.LengthUnit, *, word: str = "trim ") -> str:
    """ "trim 6.10 m plotted"; both ends of a sloping pipe by name; a boom's height.

    `word` is what a pipe's begins with: nothing where the trim stands beside the pipe's name.
    """
    if isinstance(position, Pipe):
        act = f"{position.trims[0].act}: " if position.trims else ""
        measured = "measured" if position.measured else "plotted"
        told = f"{act}{word}{_trims(position, length)} {measured}"
        return f"{told}, dead hung" if position.dead_hung else told
    if isinstance(position, Boom) and position.foot is not None:
        foot, top = (w.length(z, length, w.SIZE) for z in (position.foot, position.height))
        return f"tube from {foot} up to {top}"
    if isinstance(position, Boom):
        return f"boom {w.length(position.height, length, w.SIZE)} high"
    return "stand"


def _trims(pipe: Pipe, length: w.LengthUnit) -> str:
    """ "6.10 m", or "SL 5.60 m, SR 6.20 m"."""
    axis, sides = (0, ("SL", "SR")) if across(pipe) else (1, ("US", "DS"))
    ends = sorted((pipe.start, pipe.end), key=lambda end: -end[axis])
    first, last = (w.length(end[2], length, w.HANG) for end in ends)
    return first if first == last else f"{sides[0]} {first}, {sides[1]} {last}"


SAME_LEVEL = 0.01  # m between a platform's top and what stands on it (our choice)


def stood_on(rig: SolidRig, x: float, y: float, z: float) -> str:
    """What is under a point, in metres: the platform whose top it lies on, else the deck."""
    for solid in rig.scene.solids:
        if solid.stand_on and solid.box is not None:
            x0, y0, _, x1, y1, z1 = solid.box
            if x0 <= x <= x1 and y0 <= y <= y1 and abs(z1 - z) < SAME_LEVEL:
                return short(rig, solid.name)
    return "deck"


def stand_words(rig: SolidRig, position: Stand, length: w.LengthUnit) -> tuple[str, ...]:
    """Where a stand is put: across, up and down the stage, and on what, or how high, if not on the deck."""
    k = rig.rows[position.name][0]
    x, y, z = (float(one) for one in rig.arrays.clamp[:, k])
    on = stood_on(rig, x, y, z)
    height = f"{w.length(z, length, w.SIZE)} UP" if w.rounded(z, length, w.SIZE) else ""
    if position.z is not None:
        third = f"its top {height}" if height else ""
    else:
        third = "" if on == "deck" else f"on {on}, {height}"
    places = w.across(x, length, w.SIZE), w.upstage(y, length, w.SIZE), third
    return tuple(filter(None, places))


FACE, MARK, POINT = "face", "mark", "point"
EYED = {FACE: "the hand", MARK: "the mark", POINT: "the POINT"}  # what the eye is laid on


def sighted(rig: SolidRig, k: int) -> str:
    """What a unit is sighted at: a FACE above STAND, a MARK on what is stood on, or a POINT in the air."""
    if rig.answers[k].stand is None:
        return POINT
    return FACE if float(rig.arrays.point[2, k] - rig.surface_z[k]) > 1e-9 else MARK


def point_height(rig: SolidRig, k: int, length: w.LengthUnit) -> str:
    """How high a point is that nobody stands at: "8'-0" UP"; empty of any other, and at the deck."""
    z = float(rig.arrays.point[2, k])
    if sighted(rig, k) != POINT or not w.rounded(z, length, w.SIZE):
        return ""
    return f"{w.length(z, length, w.SIZE)} {'UP' if z > 0 else 'BELOW DECK'}"


NO_FACE = "no face height used"


def face_words(rig: SolidRig, units: Sequence[int], length: w.LengthUnit) -> str:
    """The face heights that some units are aimed at, or that none is used: "face height 1.65 m"."""
    heights = face_heights(rig, units, length)
    return f"face height {heights}" if heights else NO_FACE


def face_heights(rig: SolidRig, units: Sequence[int], length: w.LengthUnit) -> str:
    """The heights of faces above what is stood on, empty where no unit aims at a face."""
    some = np.asarray(units, dtype=np.intp)
    rises = rig.arrays.point[2, some] - rig.surface_z[some]
    stands = rig.arrays.stand[2, some]
    faces = [float(r) for r, s in zip(rises, stands, strict=True) if s == s and r > 1e-9]
    return span(faces, length, w.SIZE) if faces else ""


def span(values: Iterable[float], length: w.LengthUnit, step: w.Step) -> str:
    """One length, or the least and the most of several: "0.35 m to 0.42 m"."""
    told = sorted(values)
    low, high = w.length(told[0], length, step), w.length(told[-1], length, step)
    return low if low == high else f"{low} to {high}"


SHORT = (
    "GEOMETRY ONLY: rates nothing, permits nothing. Only trained, authorised people go up; nobody stands "
    "under work; tools and cards tied on. Lock and check the clamp, fit the safety cable, THEN aim. Loads "
    "and power: posted ratings, local code, qualified people. If light, eye and sheet disagree: STOP, ask, "
    "believe the light."
)

# of a stand, which has no clamp to lock
ON_STAND = SHORT.replace(
    "Lock and check the clamp, fit the safety cable, THEN aim.",
    "Legs out and weighted, spigot locked, THEN aim.",
)

CARD = "Lock, safety cable, THEN aim. Light disagrees? STOP, ask."

LONG = (
    (
        "What this is.",
        "Geometry and nothing more. It gives no permission to hang, climb, load or energise, and no "
        "opinion on whether any of it may be done. Local law and codes and the venue's rules come first.",
    ),
    (
        "Height.",
        "Only people trained and authorised for this very ladder, lift or platform go up, with a second "
        "person who stays with them, under the venue's fall-protection rules. No number here is a reason "
        "to lean or reach.",
    ),
    (
        "Overhead.",
        "Nobody stands under work. Pockets are emptied first; tools, phones, dials and cards hang on "
        "lanyards. Call out before anything moves. The helper on deck stays clear of what is "
        "overhead until called in.",
    ),
    (
        "Unit.",
        "The clamp is locked and tried by hand before anyone lets go, and the safety cable is round the "
        "pipe and through the yoke before anything is aimed. Loosen only the fixing you are turning and "
        "tighten it before the next. Frames, doors, top hats and pattern holders are held captive.",
    ),
    (
        "Load.",
        "Pipes, battens, booms, clamps and lines are not rated here. A weight is the sum of what was typed "
        "in. Limits come from the rating posted by the venue or from a qualified person; where there is "
        "neither, do not load it. A flown pipe moves only under its trained operator, who re-balances it.",
    ),
    (
        "Electrical.",
        "Isolate before plugging, opening or relamping where the maker or local code asks for it. Take "
        "damaged tails out of service. Limits of circuits and connectors are a matter of local code and "
        "of licensed or qualified people.",
    ),
    (
        "Hot and bright.",
        "Lamps and housings burn: let them cool, wear gloves. Keep the distance on the unit's label from "
        "drapes and scenery. Do not look into a lit lens, and point no laser or torch at eyes to aim by.",
    ),
    (
        "Numbers can be wrong.",
        "Trim, drop and skew are assumed until somebody has measured them. If the light, the eye and the "
        "sheet disagree: stop, ask, and believe the light.",
    ),
    (
        "Classes.",
        "A competent adult in charge of each group signs every unit before its next step. Minors and "
        "untrained people work on the deck only, unless local rules and the venue allow otherwise.",
    ),
)


REACH = 3.0  # m: above this nobody standing on the deck reaches a pipe (common practice, no source)
LEVEL = 0.05  # m: a pipe whose ends differ by more is hung to slope (common practice, no source)


def comes_in(position: Position) -> bool:
    """True for a position that gets a PIPE IN page: its units can be set with the pipe let in.

    A pipe with lift lines flies, unless it is dead hung. The scene need not tell the lines, so a level pipe
    over the stage that nobody standing can reach is taken to fly as well: a page too many does no harm, one
    too few costs a climb. A pipe out over the house without lines is fixed, as is a sloping one: both are
    worked from a ladder at trim.
    """
    if not isinstance(position, Pipe) or position.dead_hung:
        return False
    if position.lines:
        return True
    over_stage = position.start[1] + position.end[1] >= 0
    low, high = sorted((position.start[2], position.end[2]))
    return over_stage and low > REACH and high - low < LEVEL
