"""What a rig runs into once it is solid: bodies that touch, light that is cut, eyes that are lit.

Rules that may give a stop need no rays: what a rig is stopped for never depends on the library that
casts them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from aimcalc.geometry.occlusion import NoRayEngineError
from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import in_order
from aimcalc.rig.findings.telling import WARN
from aimcalc.rig.solid.findings import (
    audience,
    border_trims,
    in_light,
    inside,
    label_distance,
    meshes,
    touching,
    turning,
)
from aimcalc.rig.solve import Rig

Rule = Callable[[Rig], Iterable[Finding]]

BODY_RULES: tuple[Rule, ...] = (
    touching.neighbours,
    touching.crowded,
    touching.own_yoke,
    touching.own_tube,
    touching.tubes,
    touching.scenery,
    touching.deck,
    touching.line_sets,
    label_distance.too_near,
    inside.in_scenery,
    turning.setting,
    meshes.not_closed,
)
RAY_RULES: tuple[Rule, ...] = (
    in_light.neighbours,
    in_light.scenery,
    in_light.all_lost,
    audience.in_eyes,
    audience.seen_under_borders,
    border_trims.trims,
)


def solid_findings(rig: Rig) -> list[Finding]:
    """Everything about solids that somebody must know, in the order of `in_order`.

    Raises SceneError where a mesh file cannot be used.
    """
    return in_order(rig, [*body_findings(rig), *ray_findings(rig)])


def body_findings(rig: Rig) -> list[Finding]:
    """What bodies run into: every stop there is about solids."""
    return [finding for rule in BODY_RULES for finding in rule(rig)]


def ray_findings(rig: Rig) -> list[Finding]:
    """What light and sight run into; without the library for rays, that nobody has looked."""
    try:
        return [finding for rule in RAY_RULES for finding in rule(rig)]
    except NoRayEngineError:
        says = (
            "What stands in the light, and what the audience sees, is not known: the library embreex, which "
            "casts the rays, is not installed."
        )
        return [
            Finding(WARN, "no-ray-engine", says, "Install it (pip install embreex); run again.")
        ]
