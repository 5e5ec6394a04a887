"""Fields as lines for a picture: the two edges of each cone that an eye sees, and where its light falls."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from aimcalc.geometry.line_view import Camera
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array
from aimcalc.rig.solid.falls import falls
from aimcalc.rig.solid.model import field_rings, lit_units

if TYPE_CHECKING:
    from aimcalc.rig.solve import Rig


def where_it_falls(rig: Rig, units: Indices) -> list[Array]:
    """The true outlines of some units' fields as straight pieces, (3, 2, K) each."""
    found = []
    for fall in falls(rig, units):
        points = fall.points
        if fall.closed:
            points = np.concatenate((points, points[:, :1]), axis=1)
        found.append(np.stack((points[:, :-1], points[:, 1:]), axis=1))
    return found


def light_edges(rig: Rig, units: Indices, eye: Camera) -> Array:
    """The two edges of each cone against what is behind it, lens to where they fall, (3, 2, K).

    A cone that is seen from within its own light has none, nor has a unit whose point is within itself.
    """
    rings = dict(zip(lit_units(rig).tolist(), field_rings(rig).transpose(1, 0, 2), strict=True))
    found = [np.zeros((3, 2, 0))]
    for k in filter(rings.__contains__, units.tolist()):
        lens, ring = rig.aims.lens[:, k], rings[k]
        out = eye.seen(ring) - eye.seen(lens[:, None])
        middle = out.sum(axis=1)
        turn = np.arctan2(
            middle[0] * out[1] - middle[1] * out[0], middle[0] * out[0] + middle[1] * out[1]
        )
        if turn.max() - turn.min() < np.pi:
            ends = ring[:, [int(turn.argmin()), int(turn.argmax())]]
            found.append(np.stack((np.repeat(lens[:, None], 2, axis=1), ends), axis=1))
    return np.concatenate(found, axis=2)
