"""Drapes and scenery nearer to a lens than the unit's own label allows."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from aimcalc.geometry.ahead import nearest_ahead
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings.telling import STOP, about, subject
from aimcalc.rig.solid.findings.pairs import grouped
from aimcalc.rig.solve import Rig
from aimcalc.rig.wording import length, listed

WIDEST = np.radians(85.0)  # half angle; wider light than this is not looked along


def too_near(rig: Rig) -> Iterator[Finding]:
    """Stops for solids in the light nearer than `label_distance`; kinds that declare none are left alone."""
    asked = np.array([kind.label_distance or 0.0 for kind in rig.kinds], dtype=float)
    some = np.flatnonzero((asked > 0) & np.isfinite(rig.aims.throw))
    distance, owner = nearest_ahead(
        lens=rig.aims.lens[:, some],
        axis=rig.aims.axis[:, some],
        half=np.minimum(rig.arrays.field[some] / 2, WIDEST),
        within=asked[some],
        others=rig.solids.scenery_triangles,
    )
    found = np.flatnonzero(owner >= 0)
    unit = some[found]
    for group in grouped(rig, unit.tolist(), owner[found].tolist()):
        rows, here = unit[group].tolist(), found[group]
        thing = rig.solids.things[int(owner[here[0]])].name
        least = length(float(distance[here].min()), rig.scene.settings.unit)
        labels = dict.fromkeys(length(float(asked[k]), rig.scene.settings.unit) for k in rows)
        says = (
            f"{subject(rig, rows, 'has', 'have')} {thing} {least} in front of the lens, in the light; "
            f"the label asks for {listed(labels)}."
        )
        do = "Move the unit or the scenery. The label and the fire rules judge heat; this sheet does not."
        yield about(rig, rows, STOP, "label-distance", says=says, do=do)
