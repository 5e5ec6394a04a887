"""What the page on the phone throws a unit's light from: how it is held, how it is set as printed, the deck.

`throw.js` has the lines of `aimcalc.landings.forward` with nothing out, of `aimcalc.landings.where` for the
miss and of `aimcalc.geometry.deck` for where the light comes down. Metres and radians.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from aimcalc.geometry.vectors import to_degrees
from aimcalc.landings.forward import DIAL, HEADING, LEANING, held, printed
from aimcalc.named import NamedTuple
from aimcalc.rig.places import WORDS, place
from aimcalc.rig.wording import whole
from aimcalc.scene.model import Pipe
from aimcalc.text import words as w
from aimcalc.text.names import short
from aimcalc.text.rows import along

if TYPE_CHECKING:
    from aimcalc.solid.rig import SolidRig


def throws_of(rig: SolidRig, bases: list[str], length: w.LengthUnit) -> list[dict[str, Any] | None]:
    """What each unit is thrown from; None of one without an aim. `bases` are its headings' own sides."""
    units, given, aims = held(rig), printed(rig), rig.aims
    ovals = _ovals(rig)
    found: list[dict[str, Any] | None] = []
    for k, answer in enumerate(rig.answers):
        if answer.yoke is None or answer.down is None:
            found.append(None)
            continue
        plus = int(rig.words.swing[k])
        side = {1: WORDS[plus], -1: WORDS[plus ^ 1]}.get(int(aims.swing_sign[k]), "")
        free = bool(np.isinf(aims.pan_tolerance[k]))
        found.append(
            {
                "stem": _point(units.stem[:, k]),
                "reference": _point(units.reference[:, k]),
                "pivot": _point(aims.pivot[:, k]),
                "nose": float(rig.arrays.nose[k]),
                "rise": float(units.rise[k]),
                "faces": float(units.faces[k]),
                "root": float(units.root[k]),
                "square": int(aims.square_sign[k]),
                "by": _usual(rig, k, int(given.by[k])),
                "dial": bool(given.by[k] == DIAL) and not free,
                "free": free,
                "pan": [int(whole(to_degrees(aims.pan[k : k + 1]))[0]), side],
                "swings": [WORDS[plus], WORDS[plus ^ 1]],
                "heading": float(given.heading[k]),
                "base": bases[k],
                "down": int(whole(to_degrees(aims.down[k : k + 1]))[0]),
                "sight": _tape(rig, k, length),
                "face": _point(rig.arrays.point[:, k]),
                "axis": _point(rig.axis[:, k]),
                "may": float(rig.arrays.tolerance[k]),
                "field": float(rig.arrays.field[k]),
                "oval": ovals.get(k),
            }
        )
    return found


def deck_of(rig: SolidRig) -> dict[str, Any]:
    """The deck as the page has it: `boxes` are platforms; `more` where there are some of other shapes."""
    boxes = [s for s in rig.scene.solids if s.stand_on and s.box]
    return {
        "rake": rig.deck.rake,
        "rake_from": rig.deck.rake_from,
        "boxes": [list(map(float, s.box or ())) for s in boxes],
        "names": [short(rig, s.name) for s in boxes],
        "more": bool(rig.deck.triangles.size),
    }


def _usual(rig: SolidRig, k: int, by: int) -> str:
    """What the paper has a unit turned by."""
    if rig.answers[k].sight is not None and isinstance(rig.positions[k], Pipe):
        return "sight"
    leans = abs(float(rig.arrays.stem[2, k])) < LEANING
    if by == HEADING or leans or not isinstance(rig.positions[k], Pipe):
        return "heading"
    return "dial"


class _Tape(NamedTuple):
    """Where a mark of a sight tape lies on plan: zero + sight along + out."""

    zero: list[float]
    along: list[float]
    out: list[float]
    sides: tuple[str, str]
    sight: float
    printed: str  # as the sheets have it, without its side


def _tape(rig: SolidRig, k: int, length: w.LengthUnit) -> dict[str, Any] | None:
    """The sight tape of a unit that has one."""
    answer, position = rig.answers[k], rig.positions[k]
    if answer.sight is None or answer.sight_out is None or not isinstance(position, Pipe):
        return None
    here = place(position)
    level = np.array(here.along[:2]) / np.hypot(*here.along[:2])
    out = np.array(here.square[:2]) * float(rig.aims.square_sign[k]) * answer.sight_out
    zero = [float(each) for each in here.zero[:2]]
    printed = w.length(answer.sight, length, w.DECK)
    tape = _Tape(zero, level.tolist(), out.tolist(), along(position), answer.sight, printed)
    return tape._asdict()


def _ovals(rig: SolidRig) -> dict[int, list[list[float]]]:
    """The edges of each oval field over the square of their size: what a miss along a way is held against."""
    first, second = rig.ovals.rims(rig.ovals.field, rig.axis)
    return {
        int(k): [_point(edge[:, j] / (edge[:, j] @ edge[:, j])) for edge in (first, second)]
        for j, k in enumerate(rig.ovals.rows)
    }


def _point(column: Any) -> list[float]:
    return [float(each) for each in column]
