"""The test sheet typed back: what hangs, what came on, and what is left to do."""

from __future__ import annotations

from aimcalc.rig.hang.records import Left
from aimcalc.rig.solve import Rig


def left(rig: Rig) -> Left:
    """Unit names by what the crew has reported. A unit that was tested counts as hung; one
    that is not hung yet is still to be tested as well.
    """
    reports = list(zip(rig.names, rig.units, strict=True))
    hung = [name for name, unit in reports if unit.hung is not None or unit.works is not None]
    return Left(
        hung=hung,
        to_hang=[n for n, unit in reports if unit.hung is None and unit.works is None],
        to_test=[n for n, unit in reports if unit.works is None],
        failed=[n for n, unit in reports if unit.works is False],
    )
