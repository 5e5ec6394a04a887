"""Bodies at their aims that touch something, or come nearer to it than a hand is thick.

A body's size is what its kind says. Its yoke and clamp are not measured; they are taken as
`aimcalc.geometry.bodies` says, for the longest that the drop leaves room for.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from aimcalc.findings.alike import depth
from aimcalc.findings.report import (
    STOP,
    WARN,
    about,
    by_position,
    grouped,
    name_beside,
    of_pair,
    subject,
)
from aimcalc.geometry.bodies import BODY, PART_NAMES, yoke_reach
from aimcalc.geometry.clearance import Gaps, between_units, to_others, to_own_yoke
from aimcalc.geometry.hulls import Hulls, spaces
from aimcalc.geometry.solids import Indices
from aimcalc.geometry.vectors import Array, most, points, to_degrees
from aimcalc.rig.kept import Each, each
from aimcalc.rig.kinds import rests_on
from aimcalc.rig.places import TUBE_RADIUS, tubes_of
from aimcalc.rig.rig import MOST_BESIDE
from aimcalc.rig.wording import count, length, listed, tip
from aimcalc.scene.model import Boom, Pipe
from aimcalc.solid.answers import Finding
from aimcalc.solid.own_pipe import MIDDLE
from aimcalc.solid.rig import SolidRig
from aimcalc.solid.solids import ARM, BOOM, NEAR, PIPE, STAND, TOUCH

GRID = 30.0  # m; line sets fly up to here, over any grid there is
TRY = "Measure them and give the kind its sizes, or try it before the pipe goes out."
MOVE = "Move one along, turn or tip it less, or hang it the other way (over, out, on an arm)."


def neighbours(rig: SolidRig) -> Iterator[Finding]:
    """Units whose bodies touch at their aims, or come within 5 cm of each other.

    A stop where bodies of typed sizes touch; a warning where that rests on sizes that are assumed.
    """
    gaps, unit = rig.solids.close_units, rig.scene.settings.unit
    rows = _rows(np.concatenate((gaps.unit, gaps.other)))
    sure = between_units(rig.solids.sure[:, rows], within=TOUCH)
    stops = set(zip(rows[sure.unit].tolist(), rows[sure.other].tolist(), strict=True))
    for i, j, gap, part, other in zip(*(column.tolist() for column in gaps), strict=True):
        pair = f"unit {rig.units[i].number}", f"unit {name_beside(rig, i, j)}"
        parts = f"The {PART_NAMES[part]} of {pair[0]} and the {PART_NAMES[other]} of {pair[1]}"
        if (i, j) in stops:
            says = f"{parts} touch as aimed."
            yield of_pair(rig, i, j, STOP, "bodies-touch", says=says, do=MOVE)
        elif gap <= TOUCH:
            says = f"{parts} touch as aimed.{rests_on(rig, (i, j))}"
            yield of_pair(rig, i, j, WARN, "bodies-touch", says=says, do=f"{TRY} {MOVE}")
        else:
            says = f"{parts} are {length(gap, unit)} apart as aimed."
            do = f"Set them one at a time; leave {length(NEAR, unit)} where you can."
            yield of_pair(rig, i, j, WARN, "bodies-close", says=says, do=do)


def crowded(rig: SolidRig) -> Iterator[Finding]:
    """Stops once for units with so many others about them that their bodies are not looked at."""
    rows = rig.solids.crowded.tolist()
    if rows:
        has = "has" if len(rows) == 1 else "have"
        says = (
            f"{count([rig.names[k] for k in rows], 'Unit')} {has} over {MOST_BESIDE} others within reach of "
            "their bodies: so many cannot hang there, and what they touch is not checked."
        )
        do = "Correct their places, or the length and width of their kinds."
        yield Finding(STOP, "too-crowded", says, do)


def own_yoke(rig: SolidRig) -> Iterator[Finding]:
    """Warns of bodies that do not pass the bar of their own yoke, which nobody has measured.

    A kind whose `yoke_range` is typed has been tried: whether it tips so far is told by `pose.yoke_travel`.
    """
    tried = [kind.yoke_range is not None and not kind.typical for kind in rig.kinds]
    gaps = rig.kept.of_units(_to_yoke, [rig.solids.corners.transpose(1, 0, 2, 3)]).value
    touches = (gaps <= TOUCH) & ~np.array(tried, bool)
    reach = yoke_reach(rig.solids.hung.build)
    for rows in by_position(rig, touches):
        far = length(float(reach[rows].max()), rig.scene.settings.unit)
        tipped = tip(float(to_degrees(rig.aims.down[rows]).max()))
        says = (
            f"{subject(rig, rows, 'may strike its', 'may strike their')} own yoke at {tipped}: the bar is "
            f"taken {far} from the pivot of "
            f"{listed(dict.fromkeys(rig.units[k].kind for k in rows))}, not measured."
        )
        do = "Try one on the floor and give the kind its yoke_range; hang it flatter if that is too little."
        yield about(rig, rows, WARN, "strikes-own-yoke", says=says, do=do)


def _to_yoke(corners: Array) -> Each:
    return each(to_own_yoke(corners.transpose(1, 0, 2, 3), within=TOUCH))


def own_tube(rig: SolidRig) -> Iterator[Finding]:
    """Warns of bodies under 5 cm from the tube they hang on; those that strike it are told elsewhere."""
    gap = rig.own_gaps
    near = (gap >= 0) & (gap < NEAR)
    for rows in by_position(rig, near):
        least = length(float(gap[rows].min()), rig.scene.settings.unit)
        comes = subject(rig, rows, "comes", "come")
        says = (
            f"{comes} within {least} of the tube that holds {'it' if len(rows) == 1 else 'them'}."
        )
        do = "Keep cable and cable ties out of that gap; tip it by hand, not by force."
        yield about(rig, rows, WARN, "close-to-own-pipe", says=says, do=do)


def tubes(rig: SolidRig) -> Iterator[Finding]:
    """Units that touch, or nearly, pipes, booms, arms and stands other than their own.

    How thick a tube is no scene says: a stop needs a body in its very middle.
    """
    solids, sorts = rig.solids, (PIPE, BOOM, STAND, ARM)
    held = solids.held_by()
    near = solids.gaps(solids.rods(*sorts), passed_over=held, key="tubes")
    yield from _near_things(rig, near, _sure(rig, near, solids.rods(*sorts, radius=0.0), held))


def scenery(rig: SolidRig) -> Iterator[Finding]:
    """Units that touch, or nearly, a solid of the scene. What a floor stand stands on does not count."""
    others, stood_on = rig.solids.scenery_triangles, _stood_on(rig)
    near = rig.solids.gaps(others, passed_over=stood_on, key="scenery")
    yield from _near_things(rig, near, _sure(rig, near, others, stood_on))


def deck(rig: SolidRig) -> Iterator[Finding]:
    """Bodies that reach under the deck, their pivots above it: a stop where their sizes are typed."""
    above = depth(rig, rig.aims.pivot) <= TOUCH
    taken, sure = (_deepest(rig, corners) for corners in (rig.solids.taken, rig.solids.sure))
    for severity, some, under in (
        (STOP, above & (sure > TOUCH), sure),
        (WARN, above & (taken > TOUCH) & (sure <= TOUCH), taken),
    ):
        for rows in by_position(rig, some):
            deepest = length(float(under[rows].max()), rig.scene.settings.unit)
            says = f"{subject(rig, rows, 'reaches', 'reach')} {deepest} under the deck as aimed."
            says += "" if severity == STOP else rests_on(rig, rows)
            do = "Hang it higher, or correct the height or the sizes of its kind."
            yield about(rig, rows, severity, "under-deck", says=says, do=do)


def _deepest(rig: SolidRig, corners: Array) -> Array:
    """How far the bodies of N units reach under the deck, (N,); -inf where they are not known."""
    body = corners[:, :, BODY]
    under = depth(rig, np.nan_to_num(body).reshape(3, -1)).reshape(body.shape[1:])
    known = ~np.isnan(body).any(axis=0)
    return most(np.where(known, under, -np.inf))


def _stood_on(rig: SolidRig) -> Indices:
    """For each solid that may be stood on, the units on stands over it: its owner number, else -1, (K, N)."""
    stands = np.array([unit.mount == "stand" for unit in rig.units], dtype=bool)
    under = [np.full(stands.size, -1)]
    for k, solid in enumerate(rig.scene.solids):
        if solid.stand_on:
            plan = rig.solids.obstacles[k].shape.vertices[:2]
            low, high = plan.min(axis=1)[:, None], plan.max(axis=1)[:, None]
            over = ((rig.arrays.clamp[:2] >= low) & (rig.arrays.clamp[:2] <= high)).all(axis=0)
            under.append(np.where(stands & over, k, -1))
    return np.stack(under)


def _rows(units: Indices) -> Indices:
    """Rows of units, each once, rising."""
    return np.flatnonzero(np.bincount(units))


def _sure(rig: SolidRig, near: Gaps, others: Hulls, passed_over: Indices) -> set[tuple[int, int]]:
    """Which of those units that are `near` touch one of the `others` for sure, each pair by its numbers."""
    rows = _rows(near.unit)
    if not rows.size:
        return set()
    touch = to_others(
        rig.solids.sure[:, rows], others, within=TOUCH, passed_over=passed_over[..., rows]
    )
    return set(zip(rows[touch.unit].tolist(), touch.other.tolist(), strict=True))


def _near_things(rig: SolidRig, gaps: Gaps, sure: set[tuple[int, int]]) -> Iterator[Finding]:
    """One finding for each position and thing: a stop for those that are `sure` to touch, else warnings."""
    unit = rig.scene.settings.unit
    for group, severity, touch in _judged(rig, gaps, sure):
        rows = gaps.unit[group].tolist()
        thing = rig.solids.obstacles[int(gaps.other[group[0]])].name
        if touch:
            says = f"{subject(rig, rows, 'touches', 'touch')} {thing} as aimed."
            says += "" if severity == STOP else rests_on(rig, rows)
            do = MOVE if severity == STOP else f"{TRY} {MOVE}"
            yield about(rig, rows, severity, "touches-solid", says=says, do=do)
        else:
            least = length(float(gaps.gap[group].min()), unit)
            says = f"{subject(rig, rows, 'comes', 'come')} within {least} of {thing} as aimed."
            do = f"Leave {length(NEAR, unit)} where you can; keep what is hot off drapes."
            yield about(rig, rows, WARN, "close-to-solid", says=says, do=do)


def _judged(
    rig: SolidRig, gaps: Gaps, sure: set[tuple[int, int]]
) -> Iterator[tuple[list[int], str, bool]]:
    """Rows of `gaps` by position, other thing and how bad: STOP or WARN, and whether they touch."""
    pairs = zip(gaps.unit.tolist(), gaps.other.tolist(), strict=True)
    severity = [STOP if pair in sure else WARN for pair in pairs]
    touch = [s == STOP or gap <= TOUCH for s, gap in zip(severity, gaps.gap.tolist(), strict=True)]
    keys = list(zip(gaps.other.tolist(), severity, touch, strict=True))
    for group in grouped(rig, gaps.unit.tolist(), keys):
        yield group, severity[group[0]], touch[group[0]]


def line_sets(rig: SolidRig) -> Iterator[Finding]:
    """Units in, or within 5 cm of, the space in which another pipe flies up and down.

    A stop for what is sure to hang there; a warning for what stands on the floor and can be carried off.
    """
    flown = [pipe for pipe in rig.scene.pipes if pipe.lines]
    if not flown:
        return
    row = {pipe.name: k for k, pipe in enumerate(flown)}
    own = np.array([row.get(unit.position, -1) for unit in rig.units], dtype=int)
    near = rig.solids.gaps(_spaces(flown), passed_over=own, key="flown")
    sure = _sure(rig, near, _spaces(flown, half_width=0.0), own)
    for group, severity, touch in _judged(rig, near, sure):
        rows, pipe = near.unit[group].tolist(), flown[int(near.other[group[0]])]
        least = None if touch else float(near.gap[group].min())
        yield _fouls(rig, rows, pipe, severity, least)


def _spaces(flown: list[Pipe], *, half_width: float = TUBE_RADIUS) -> Hulls:
    """The spaces of pipes that fly, one for each straight piece of their tubes, owned by the pipe's row."""
    pieces = [
        (k, start, end)
        for k, pipe in enumerate(flown)
        for _, line in tubes_of(pipe)
        for start, end in pairwise(line.T.tolist())
    ]
    ends = (points([piece[n] for piece in pieces]) for n in (1, 2))
    every = spaces(*ends, half_width=half_width, low=0.0, high=GRID)
    return every._replace(
        owner=np.array([piece[0] for piece in pieces], dtype=np.intp)[every.owner]
    )


def _fouls(
    rig: SolidRig, rows: list[int], pipe: Pipe, severity: str, apart: float | None
) -> Finding:
    if apart is not None:
        least = length(apart, rig.scene.settings.unit)
        says = f"{subject(rig, rows, 'comes', 'come')} within {least} of {pipe.name} as it flies."
        do = f"Keep a hand on them while {pipe.name} moves, or turn them out of its way."
        return about(rig, rows, WARN, "close-to-line-set", says=says, do=do)
    says = f"{subject(rig, rows, 'is', 'are')} in the way of {pipe.name} as it flies."
    if isinstance(rig.positions[rows[0]], Pipe):
        says += "" if severity == STOP else rests_on(rig, rows)
        do = f"Move them out of its way, or have the fly operator mark the trim of {pipe.name}."
        return about(rig, rows, severity, "in-line-set", says=says, do=do)
    do = f"Clear this before {pipe.name} comes in; warn whoever is flying."
    return about(rig, rows, WARN, "under-line-set", says=says, do=do)


def strikes(rig: SolidRig) -> Iterator[Finding]:
    """Bodies that strike their own pipe, boom, arm or stand at their aim.

    A stop where a body of typed size is in the tube's very middle, however thick it may be; else a warning.
    """
    gaps = rig.own_gaps
    sure = rig.sizes.typed & (gaps <= MIDDLE - TUBE_RADIUS)
    for k in np.flatnonzero(gaps < 0).tolist():
        yield _told(rig, k, STOP if sure[k] else WARN)


def _told(rig: SolidRig, k: int, severity: str) -> Finding:
    unit, position = rig.units[k], rig.positions[k]
    tube = (
        "pipe"
        if isinstance(position, Pipe)
        else "boom or arm"
        if isinstance(position, Boom)
        else "stand"
    )
    drop = length(float(rig.arrays.drop[k]), rig.scene.settings.unit)
    wide = length(float(rig.sizes.width[k]), rig.scene.settings.unit)
    says = (
        f"Unit {unit.number}, {tip(float(to_degrees(rig.aims.down[k])))} with a drop of {drop} and a body "
        f"{wide} across, strikes its own {tube}."
    )
    says += "" if severity == STOP else rests_on(rig, [k])
    do = (
        "Hang it the other way (under or over), swing it out, move it, or correct its kind's sizes."
    )
    return about(rig, [k], severity, "strikes-own-pipe", says=says, do=do)
