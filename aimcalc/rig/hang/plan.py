"""Everything about hanging and plugging a solved rig, as one record."""

from __future__ import annotations

from functools import lru_cache

from aimcalc.rig.hang.circuits import circuit_plans
from aimcalc.rig.hang.counts import colour_cuts, counts
from aimcalc.rig.hang.left import left
from aimcalc.rig.hang.position import position_plan
from aimcalc.rig.hang.records import HangOptions, HangPlan
from aimcalc.rig.hang.runs import cable_runs, pull_list
from aimcalc.rig.hang.ties import tied
from aimcalc.rig.solve import Rig

USUAL = HangOptions()


def hang_plan(rig: Rig, options: HangOptions = USUAL) -> HangPlan:
    """Marks, loads, tails, cable, circuits, counts and what is left, for every position of a rig."""
    connectors, tails, shared = tied(rig, options)
    runs = cable_runs(rig, shared, [c.place for c in connectors], options)
    rows = list(zip(connectors, tails, runs, strict=True))
    return HangPlan(
        positions=[position_plan(rig, name, rows) for name in rig.scene.positions],
        circuits=circuit_plans(rig, runs, options),
        cables=pull_list(rig, shared, runs),
        counts=counts(rig, runs, options),
        cuts=colour_cuts(rig, options),
        left=left(rig),
        options=options,
    )


@lru_cache(maxsize=1)
def usual_plan(rig: Rig) -> HangPlan:
    """The plan with the usual habits, worked out once for the rig that is asked for again and again."""
    return hang_plan(rig)
