"""The sight tapes: one along each side of a pipe that its units face, where a tape can lie.

How far out a tape lies is what the user typed for the pipe, or for the whole scene. Where nothing was
typed it is the whole distance nearest to the usual one at which the tape and all its marks lie on clear
deck; where there is none, there is no tape.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import PLUMB, Flags, Indices
from aimcalc.geometry.solids import Soup
from aimcalc.geometry.tape import Ground, Lines, in_the_way
from aimcalc.geometry.vectors import Array
from aimcalc.rig.arrays import FOOT, asked_out, in_feet
from aimcalc.rig.places import WORDS, place
from aimcalc.scene.model import Pipe

if TYPE_CHECKING:
    from aimcalc.rig.rig import Rig


AT_ONCE = 8  # distances looked at together
FARTHEST = 18.3  # m; 60 ft: a mark farther off is hardly seen (our choice)


class Tape(NamedTuple):
    """One side of one pipe: the units sighted on its tape, and how far out it lies (NaN: there is none).

    `in_the_way` says what keeps a tape from lying at `asked`, the distance typed, else the usual one.
    """

    position: str
    side: str
    units: Indices
    typed: bool
    asked: float
    out: float
    in_the_way: tuple[str, ...]


class Tapes(NamedTuple):
    """All tapes of a rig, and for each unit how far out its tape lies and its mark, (N,); NaN: none."""

    every: tuple[Tape, ...]
    out: Array
    sight: Array


def tapes_of(rig: Rig, solids: Soup) -> Tapes:
    """Every sight tape of a rig. Raises SceneError where a mesh file cannot be used."""
    every = tuple(_laid(rig, solids))
    out = np.full(len(rig.units), np.nan)
    for tape in every:
        out[tape.units] = tape.out
    at, per_metre = rig.arrays.tape_at, _per_metre(rig)
    return Tapes(every, out, at + out * per_metre)


def _per_metre(rig: Rig) -> Array:
    """How far along a tape a mark moves for each metre that the tape lies farther out, (N,)."""
    return np.asarray((rig.aims.sight - rig.arrays.tape_at) / rig.arrays.sight_out)


def lies_at(rig: Rig, solids: Soup, position: str) -> float | None:
    """The whole distance nearest to that asked for at which tapes on every side of a pipe can lie."""
    sides = list(_sides(rig, position))
    return _nearest(
        rig,
        position,
        _ground(rig, solids),
        asked_out(rig.scene, rig.scene.positions[position]),
        sides,
    )


def _laid(rig: Rig, solids: Soup) -> Iterator[Tape]:
    sides = [(name, *side) for name in rig.rows for side in _sides(rig, name)]
    if sides:
        ground = _ground(rig, solids)
        for name, sign, units in sides:
            yield _tape(rig, name, ground, sign, units)


def _sides(rig: Rig, name: str) -> Iterator[tuple[int, Indices]]:
    """The sides of a position that units with a mark face: +1 for its square side, and the units."""
    rows = np.array(rig.rows[name], dtype=np.intp)
    rows = rows[~np.isnan(rig.aims.sight[rows]) & (rig.aims.attitude[rows] != PLUMB)]
    for sign in (1, -1):
        facing = rows[rig.aims.square_sign[rows] == sign]
        if facing.size:
            yield sign, facing


def _ground(rig: Rig, solids: Soup) -> Ground:
    return Ground(
        rig.deck,
        np.array(rig.scene.stage.outline, dtype=float).reshape(-1, 2).T,
        [np.array(block.outline).T for block in rig.scene.seats],
        solids,
        len(rig.scene.solids),
    )


def _tape(rig: Rig, name: str, ground: Ground, sign: int, units: Indices) -> Tape:
    scene, position = rig.scene, rig.scene.positions[name]
    asked = asked_out(scene, position)
    own = isinstance(position, Pipe) and position.sight_out is not None
    typed = own or scene.settings.sight_out is not None
    wrong = in_the_way(ground, _lines(rig, name, sign, units, np.array([asked])))[:, 0]
    out: float | None = asked
    if wrong.any() and not typed:
        out = _nearest(rig, name, ground, asked, [(sign, units)])
    square = place(position).square_word
    word = WORDS[square if sign > 0 else square ^ 1]
    return Tape(name, word, units, typed, asked, np.nan if out is None else out, _told(rig, wrong))


def _nearest(
    rig: Rig, name: str, ground: Ground, asked: float, sides: list[tuple[int, Indices]]
) -> float | None:
    """The nearest whole distance at which tapes on these sides can lie; of two the farther, the finer one."""
    step = FOOT if in_feet(rig.scene) else 1.0
    out = np.arange(1.0, FARTHEST / step) * step
    out = out[np.lexsort((-out, np.round(np.abs(out - asked), 6)))]
    for some in np.split(out, range(AT_ONCE, out.size, AT_ONCE)):
        wrong = [in_the_way(ground, _lines(rig, name, *side, some)).any(axis=0) for side in sides]
        clear = np.flatnonzero(~np.logical_or.reduce(wrong))
        if clear.size:
            return float(some[clear[0]])
    return None


def _lines(rig: Rig, name: str, sign: int, units: Indices, out: Array) -> Lines:
    """Tapes at some distances `out` (C,): from the pipe's zero mark to the marks of the units."""
    here = place(rig.scene.positions[name])
    along = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    foot = np.array(here.zero[:2])[:, None] + sign * np.outer(here.square[:2], out)
    mark = rig.arrays.tape_at[units] + np.outer(out, _per_metre(rig)[units])
    low, high = np.minimum(mark.min(axis=1), 0.0), np.maximum(mark.max(axis=1), 0.0)
    return Lines(
        start=foot + np.outer(along, low),
        end=foot + np.outer(along, high),
        marks=foot[:, :, None] + along[:, None, None] * mark,
        eyes=rig.aims.pivot[:, units],
    )


def _told(rig: Rig, wrong: Flags) -> tuple[str, ...]:
    """What is in the way, in words that follow "the tape"."""
    scene = rig.scene
    solids = [solid.name for solid in scene.solids]
    rows = [
        "runs off the deck",
        *(f"lies in the seats ({block.name})" for block in scene.seats),
        *(f"meets {name}" for name in solids),
        *(f"is hidden by {name}" for name in solids),
    ]
    return tuple(rows[k] for k in np.flatnonzero(wrong).tolist())
