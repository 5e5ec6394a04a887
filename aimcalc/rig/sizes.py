"""How big units are taken to be: as their kinds say, or where those are silent as typical ones of the family.

A stop may rest on sizes that the user typed, and on nothing that was assumed: not on a typical kind, not on
a family's size, not on a yoke, a clamp or a tube, which no scene gives.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from aimcalc.geometry.aim import Flags, Indices
from aimcalc.geometry.vectors import Array
from aimcalc.rig.wording import by_typical

if TYPE_CHECKING:
    from collections.abc import Iterable

    from aimcalc.rig.solve import Rig
    from aimcalc.scene.model import Kind


class Size(NamedTuple):
    """A body in metres: its length, its width, and from its pivot to its lens."""

    length: float
    width: float
    nose: float


# Those of scene/generic_kinds.toml (common practice, no source).
TYPICAL = {
    "ers": Size(0.60, 0.22, 0.34),
    "fresnel": Size(0.38, 0.34, 0.18),
    "pc": Size(0.38, 0.34, 0.18),
    "par": Size(0.42, 0.26, 0.24),
    "flood": Size(0.22, 0.36, 0.11),
    "cyc": Size(0.30, 0.40, 0.14),
}


class Sizes(NamedTuple):
    """What N units are taken to measure, metres, (N,), and whether the user `typed` all of it."""

    length: Array
    width: Array
    nose: Array
    typed: Flags


def sizes_of(rig: Rig) -> Sizes:
    """The sizes of every unit."""
    taken = np.array([size_of(kind) for kind in rig.kinds], dtype=float).reshape(-1, 3).T
    typed = [not kind.typical and not missing(kind) and kind.nose > 0 for kind in rig.kinds]
    known = np.array(typed, dtype=bool) & (rig.arrays.drop > 0)
    return Sizes(taken[0], taken[1], taken[2], known)


def size_of(kind: Kind) -> Size:
    """A kind's own sizes, each that it lacks as its family's."""
    usual = TYPICAL[kind.family]
    nose = kind.nose if kind.nose > 0 or not missing(kind) else usual.nose
    return Size(kind.length or usual.length, kind.width or usual.width, nose)


def missing(kind: Kind) -> list[str]:
    """The keys of a body that a kind lacks."""
    given = {"length": kind.length, "width": kind.width}
    return [key for key, value in given.items() if value is None]


def rests_on(rig: Rig, rows: Iterable[int] | Indices) -> str:
    """What is assumed about the bodies of some units, as a sentence to follow a warning of theirs."""
    kinds = {rig.kinds[k].name: rig.kinds[k] for k in map(int, rows)}
    whose = [name for name, kind in kinds.items() if kind.typical or missing(kind)]
    return by_typical("sizes", whose) or " By assumed sizes of yokes, clamps and tubes."
