"""What a head electrician would want to know of a rig before anybody climbs.

A rule is a function from a solved rig to findings; a new one takes its place in `RULES` with one line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from aimcalc.rig.answers import Finding
from aimcalc.rig.findings import (
    alike,
    assumed,
    below,
    clamps,
    house,
    mirrored,
    mixed_units,
    numbering,
    own_pipe,
    places,
    pools,
    pose,
    printed,
    systems,
    tapes,
    targets,
    trims,
    unlikely,
    unprintable,
)
from aimcalc.rig.findings.telling import WORST_FIRST
from aimcalc.rig.solve import Rig

__all__ = ["RULES", "WORST_FIRST", "Rule", "findings", "in_order"]

Rule = Callable[[Rig], Iterable[Finding]]

RULES: tuple[Rule, ...] = (
    numbering.no_units,
    numbering.hidden,
    pose.out_of_reach,
    pose.upside_down,
    pose.yoke_travel,
    own_pipe.strikes,
    places.off_the_end,
    places.on_lift_line,
    places.one_spot,
    below.positions,
    below.pivots,
    numbering.twice,
    alike.one_key,
    alike.look_alike,
    unprintable.letters,
    printed.misses,
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
    mirrored.mirrored,
    trims.not_measured,
    trims.out_of_level,
    assumed.no_drop,
    assumed.body_not_known,
    assumed.candela_and_lumens,
    numbering.out_of_order,
    numbering.shared_channels,
    places.too_close,
    places.over_on_flown,
    house.over_people,
    clamps.clamp_openings,
    pose.on_its_side,
    pose.faces_away,
    pose.no_turn,
    tapes.cannot_lie,
    targets.off_stage,
    targets.in_scenery,
    targets.height_differs,
    targets.z_or_face,
    pools.open_pools,
    house.lands_in_house,
    systems.area_not_covered,
    systems.uneven_pairs,
    pools.steep,
    pools.flat,
    pose.plumb,
    pose.wide_pan,
    tapes.no_tape,
    targets.planes_not_stated,
    targets.not_lit,
    assumed.typical_kinds,
)


def findings(rig: Rig) -> list[Finding]:
    """Everything found in a rig, in order (see `in_order`)."""
    return in_order(rig, [finding for rule in RULES for finding in rule(rig)])


def in_order(rig: Rig, found: Iterable[Finding]) -> list[Finding]:
    """Stops, then warns, then notes, each in the order of the ladder.

    A finding about a whole position comes before those about its units, one about the whole scene after
    all positions.
    """
    units, positions = _places(rig)
    last = len(rig.units) + len(positions)
    return sorted(
        found,
        key=lambda f: (
            WORST_FIRST[f.severity],
            units.get(f.unit or "", positions.get(f.position or "", last)),
        ),
    )


def _places(rig: Rig) -> tuple[dict[str, int], dict[str, int]]:
    """Where units and positions come in the order of the ladder."""
    units: dict[str, int] = {}
    positions: dict[str, int] = {}
    for position, rows in rig.rows.items():
        positions[position] = len(units) + len(positions)
        for k in rows:
            units.setdefault(rig.names[k], len(units) + len(positions))
    return units, positions
