"""What a head electrician would want to know of a rig before anybody climbs.

A rule is a function from a solved rig to findings; a new one takes its place in `RULES` with one line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from msgspec.structs import replace

from aimcalc.findings import (
    alike,
    in_light,
    mixed_units,
    nudges,
    numbering,
    pose,
    positions,
    systems,
    targets,
    touching,
    turning,
    unlikely,
)
from aimcalc.findings.hanging import (
    progress_findings,
    spacing_findings,
    tail_findings,
    weight_findings,
)
from aimcalc.findings.power import cable_findings, circuit_findings
from aimcalc.findings.report import WARN, WORST_FIRST, list_row
from aimcalc.geometry.rays import NoRayEngineError
from aimcalc.hang.records import HangPlan
from aimcalc.landings.budget import Budget
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

__all__ = ["RULES", "WORST_FIRST", "Rule", "findings", "in_order"]

Rule = Callable[[SolidRig], Iterable[Finding]]

RULES: tuple[Rule, ...] = (
    numbering.no_units,
    numbering.hidden,
    numbering.taken,
    pose.out_of_reach,
    pose.upside_down,
    pose.yoke_travel,
    touching.strikes,
    positions.off_the_end,
    positions.kept_clear,
    positions.on_lift_line,
    positions.one_spot,
    alike.positions,
    alike.pivots,
    numbering.twice,
    alike.one_key,
    alike.look_alike,
    alike.letters,
    targets.misses,
    mixed_units.another_unit,
    unlikely.faces,
    unlikely.trims,
    unlikely.stage_size,
    unlikely.rake,
    unlikely.acting_area,
    unlikely.eyes,
    unlikely.kinds,
    unlikely.volts,
    unlikely.outlets,
    unlikely.arms,
    unlikely.pipes,
    unlikely.solids,
    numbering.mirrored,
    positions.not_measured,
    positions.out_of_level,
    pose.no_drop,
    pose.body_not_known,
    pose.candela_and_lumens,
    numbering.out_of_order,
    numbering.shared_channels,
    positions.too_close,
    positions.over_on_flown,
    systems.over_people,
    positions.clamp_openings,
    pose.on_its_side,
    pose.faces_away,
    pose.no_turn,
    mixed_units.cannot_lie,
    targets.off_stage,
    targets.in_scenery,
    targets.height_differs,
    targets.z_or_face,
    pose.open_pools,
    systems.lands_in_house,
    systems.area_not_covered,
    systems.uneven_pairs,
    pose.steep,
    pose.flat,
    pose.plumb,
    pose.wide_pan,
    mixed_units.no_tape,
    targets.planes_not_stated,
    targets.not_lit,
    pose.typical_kinds,
)


FURTHER_RULES: tuple[Rule, ...] = (
    pose.out_of_reach,
    pose.upside_down,
    pose.yoke_travel,
    touching.strikes,
    targets.off_stage,
)


def findings(rig: SolidRig) -> list[Finding]:
    """Everything found in a rig, in order (see `in_order`)."""
    return in_order(rig, [*_found(RULES, rig), *_of_further(rig)])


def _found(rules: Iterable[Rule], rig: SolidRig) -> list[Finding]:
    """What some rules find; a rule that reads nothing that a change has touched is not asked again."""
    return [found for rule in rules for found in rig.kept.ask(_told_by, rule, key=rule)]


def _told_by(rig: SolidRig, rule: Rule) -> tuple[Finding, ...]:
    return tuple(rule(rig))


def _of_further(rig: SolidRig) -> Iterator[Finding]:
    """What is found of aims at further trims and spots, and not of the units as they hang."""
    if not rig.further:
        return
    first = {(f.rule, f.unit, f.position) for rule in FURTHER_RULES for f in rule(rig)}
    for further in rig.further:
        when = f"At {further.name}"
        for found in (found for rule in FURTHER_RULES for found in rule(further.rig)):
            if (found.rule, found.unit, found.position) not in first:
                yield replace(found, says=f"{when}: {found.says}")


def in_order(rig: SolidRig, found: Iterable[Finding]) -> list[Finding]:
    """Stops, then warns, then notes, each in the order of the ladder.

    A finding about a whole position comes before those about its units, one about the whole scene after
    all positions.
    """
    units, positions = _places(rig)
    last = len(rig.units) + len(positions)
    return sorted(
        _with_rows(rig, found),
        key=lambda f: (
            WORST_FIRST[f.severity],
            units.get(f.unit or "", positions.get(f.position or "", last)),
        ),
    )


def _with_rows(rig: SolidRig, found: Iterable[Finding]) -> Iterator[Finding]:
    """Findings about a unit of the hang list with its row there."""
    first: dict[str, int] = {}
    for finding in found:
        if finding.unit is not None and finding.row is None:
            first = first or {name: k for k, name in reversed(list(enumerate(rig.names)))}
            k = first.get(finding.unit)
            row = None if k is None else list_row(rig, [k])
            yield finding if row is None else replace(finding, row=row)
        else:
            yield finding


def _places(rig: SolidRig) -> tuple[dict[str, int], dict[str, int]]:
    """Where units and positions come in the order of the ladder."""
    units: dict[str, int] = {}
    positions: dict[str, int] = {}
    for position, rows in rig.rows.items():
        positions[position] = len(units) + len(positions)
        for k in rows:
            units.setdefault(rig.names[k], len(units) + len(positions))
    return units, positions


BODY_RULES: tuple[Rule, ...] = (
    touching.neighbours,
    touching.crowded,
    touching.own_yoke,
    touching.own_tube,
    touching.tubes,
    touching.scenery,
    touching.deck,
    touching.line_sets,
    in_light.too_near,
    turning.in_scenery,
    turning.setting,
    in_light.not_closed,
)
RAY_RULES: tuple[Rule, ...] = (
    in_light.neighbours,
    in_light.scenery,
    in_light.all_lost,
    in_light.in_eyes,
    in_light.seen_under_borders,
    in_light.trims,
)


def solid_findings(rig: SolidRig) -> list[Finding]:
    """Everything about solids that somebody must know, in the order of `in_order`.

    Raises SceneError where a mesh file cannot be used.
    """
    return in_order(rig, [*body_findings(rig), *ray_findings(rig)])


def body_findings(rig: SolidRig) -> list[Finding]:
    """What bodies run into: every stop there is about solids."""
    return _found(BODY_RULES, rig)


def ray_findings(rig: SolidRig) -> list[Finding]:
    """What light and sight run into; without the library for rays, that nobody has looked."""
    try:
        return _found(RAY_RULES, rig)
    except NoRayEngineError:
        says = (
            "What stands in the light, and what the audience sees, is not known: the library embreex, which "
            "casts the rays, is not installed."
        )
        return [
            Finding(WARN, "no-ray-engine", says, "Install it (pip install embreex); run again.")
        ]


def hang_findings(rig: SolidRig, plan: HangPlan) -> list[Finding]:
    """Everything about hanging and plugging that somebody must know, worst first."""
    found = [
        *weight_findings(rig, plan),
        *circuit_findings(rig, plan),
        *tail_findings(rig, plan),
        *cable_findings(rig, plan),
        *spacing_findings(rig, plan),
        *progress_findings(rig, plan),
    ]
    return sorted(found, key=lambda finding: WORST_FIRST[finding.severity])


def landing_findings(rig: SolidRig, budget: Budget) -> list[Finding]:
    """What is to be known of where the light will land, things being off as they usually are."""
    return list(nudges.expected_nudges(rig, budget))


def checks(rig: SolidRig, others: Iterable[Finding], *, rays: bool = True) -> list[Finding]:
    """Findings about aims and solids with the `others` (of hanging, of landing), in one list, worst first.

    Without `rays`, what takes the longest is left out: light that is cut, and what the audience sees. Every
    stop is found without them. Raises SceneError where a mesh file cannot be used.
    """
    solids = solid_findings(rig) if rays else body_findings(rig)
    return in_order(rig, [*findings(rig), *solids, *others])
