"""What a sheet was worked out from: title, revision, trim, drop, face height, in a footer's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from aimcalc.rig.places import across
from aimcalc.scene.model import Boom, Pipe, Position
from aimcalc.sheets import words as w
from aimcalc.sheets.names import short
from aimcalc.sheets.typeset import shorten

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig

LONGEST_TITLE = 48  # letters; a longer one would squeeze the facts beside it


def footer(rig: Rig, what: str = "", more: Sequence[str] = ()) -> str:
    """Title, `what` the page is about, revision, then `more` facts, parted by bars."""
    settings = rig.scene.settings
    parts = [shorten(settings.title, LONGEST_TITLE, keep_end=True), short(rig, what)]
    revision = shorten(settings.revision, 16, keep_end=True)
    parts.append(f"rev {revision}" if revision else "no revision")
    return " | ".join(part for part in (*parts, *more) if part)


def revision_words(rig: Rig) -> str:
    """ "revision C", or that there is none."""
    revision = rig.scene.settings.revision
    return f"revision {revision}" if revision else "no revision"


def headline(rig: Rig) -> str:
    """What a terminal shows first: "The Orchard Clock, revision D: 78 units"."""
    settings = rig.scene.settings
    named = ", ".join(filter(None, (settings.title, settings.revision and revision_words(rig))))
    return f"{named}: {w.count(len(rig.units), 'unit')}"


def position_facts(rig: Rig, name: str, length: w.LengthUnit) -> list[str]:
    """Trim and whether it was measured, drop and face height used for one position's units."""
    trim = trim_words(rig.scene.positions[name], length)
    return [trim, *drop_and_face(rig, rig.rows[name], length)]


def drop_and_face(rig: Rig, units: Sequence[int], length: w.LengthUnit) -> list[str]:
    """The drops and the face heights of some units; nothing of none."""
    if not units:
        return []
    drops = span((float(rig.arrays.drop[k]) for k in units), length, w.HANG)
    return [f"drop {drops}", face_words(rig, units, length)]


def tape_words(rig: Rig, name: str, length: w.LengthUnit) -> list[str]:
    """Where a position's sight tapes lie, a few words for each side of it that needs one."""
    told = []
    for tape in rig.tapes.every:
        if tape.position == name:
            out = "" if np.isnan(tape.out) else f" {w.length(tape.out, length, w.HANG)} {tape.side}"
            told.append(f"sight tape{out}" if out else f"no sight tape {tape.side}")
    return told


def trim_words(position: Position, length: w.LengthUnit) -> str:
    """ "trim 6.10 m plotted"; both ends of a sloping pipe by name; a boom's height."""
    if isinstance(position, Pipe):
        return f"trim {_trims(position, length)} {'measured' if position.measured else 'plotted'}"
    if isinstance(position, Boom):
        return f"boom {w.length(position.height, length, w.SIZE)} high"
    return "stand"


def _trims(pipe: Pipe, length: w.LengthUnit) -> str:
    """ "6.10 m", or "SL 5.60 m, SR 6.20 m"."""
    axis, sides = (0, ("SL", "SR")) if across(pipe) else (1, ("US", "DS"))
    ends = sorted((pipe.start, pipe.end), key=lambda end: -end[axis])
    first, last = (w.length(end[2], length, w.HANG) for end in ends)
    return first if first == last else f"{sides[0]} {first}, {sides[1]} {last}"


def face_words(rig: Rig, units: Sequence[int], length: w.LengthUnit) -> str:
    """The face heights that some units are aimed at; units that aim at no face are left out."""
    some = np.asarray(units, dtype=np.intp)
    rises = rig.arrays.point[2, some] - rig.surface_z[some]
    stands = rig.arrays.stand[2, some]
    faces = [float(r) for r, s in zip(rises, stands, strict=True) if s == s and r > 1e-9]
    return f"face height {span(faces, length, w.SIZE)}" if faces else "no face height used"


def span(values: Iterable[float], length: w.LengthUnit, step: w.Step) -> str:
    """One length, or the least and the most of several: "0.35 m to 0.42 m"."""
    told = sorted(values)
    low, high = w.length(told[0], length, step), w.length(told[-1], length, step)
    return low if low == high else f"{low} to {high}"
