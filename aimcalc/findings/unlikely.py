"""Figures that may be right and seldom are, each told with the slip that is likely behind it.

All warn: a giant's face, a factory's trim and a kilowatt flown as one unit exist. The limits are estimates
(no source) but where one is given.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from aimcalc.findings.mixed_units import NAMES
from aimcalc.findings.positions import TOUCH, sides
from aimcalc.findings.report import WARN, about, by_position, subject
from aimcalc.geometry.vectors import Array
from aimcalc.rig.places import EDGE, inside, pipe_ends, tube_ends
from aimcalc.rig.wording import along, count, length, weight
from aimcalc.scene.model import Boom, Pipe, PlanPoint
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig

LOW_FACE, HIGH_FACE = 0.5, 2.2  # m above what is stood on: who lies down, and the tallest people
HIGH_EYE = 12.0  # m; the top balconies of large houses are about there
HIGH_TRIM = 15.0  # m; few grids are higher
WIDE_STAGE = 60.0  # m; an arena's floor
LIGHT, HEAVY = 0.5, 150.0  # kg a unit: a birdie, and the largest follow spot with its stand
DIM = 5.0  # W
ORDINARY_VOLTS = (
    (100, 100),
    (110, 127),
    (200, 208),
    (220, 240),
    (277, 277),
)  # from memory, no source
LONG_ARM = 2.0  # m; two people hold one of 1 m
SHORT_PIPE = 0.2  # m; narrower than the unit that hangs on it
STEEP_RAKE = 0.25  # 1 in 4; the steepest that is built to be danced on is 1 in 10
VAST, TINY = 10.0, 0.001  # times the stage


def _misread(rig: SolidRig, *, large: bool) -> str:
    """The slip behind a figure too large or too small, by the scene's own unit: "feet read as metres?"."""
    own = rig.scene.settings.unit
    typed = {"m": "feet", "ft": "inches", "cm": "millimetres", "in": "millimetres", "mm": "tenths"}
    if not large:
        typed = {"m": "kilometres", "ft": "metres", "cm": "metres", "in": "feet", "mm": "metres"}
    return f"{typed[own].capitalize()} read as {NAMES[own]}?"


def _told(rule: str, says: str, do: str, position: str | None = None) -> Finding:
    return Finding(WARN, rule, says, do, position=position)


WRITE_UNIT = "Write it with its unit, or leave it as it is."


def faces(rig: SolidRig) -> Iterator[Finding]:
    """Warns of face heights that nobody's face has."""
    heights = {"face_height in [scene]": rig.scene.settings.face_height}
    heights |= {
        f"face_height of target {target.name}": target.face_height
        for target in rig.scene.targets
        if target.face_height is not None
    }
    for name, high in heights.items():
        if not LOW_FACE <= high <= HIGH_FACE:
            slip = _misread(rig, large=high > HIGH_FACE)
            says = (
                f"{name} is {length(high, rig.scene.settings.unit)} above what is stood on. {slip}"
            )
            yield _told("face-height-unlikely", says, WRITE_UNIT)


def trims(rig: SolidRig) -> Iterator[Finding]:
    """Warns where every pipe is higher than nearly any grid."""
    lows = [min(pipe.start[2], pipe.end[2]) for pipe in rig.scene.pipes]
    if lows and min(lows) > HIGH_TRIM:
        least = length(min(lows), rig.scene.settings.unit)
        says = f"Every pipe is at least {least} up. {_misread(rig, large=True)}"
        yield _told(
            "trims-unlikely", says, "Write the trims with their unit, or leave them as they are."
        )


def stage_size(rig: SolidRig) -> Iterator[Finding]:
    """Warns of a stage larger than an arena."""
    size = _stage_size(rig)
    if size > WIDE_STAGE:
        long = length(size, rig.scene.settings.unit)
        says = f"The stage is {long} long or wide. {_misread(rig, large=True)}"
        yield _told("stage-unlikely", says, WRITE_UNIT)


def _stage_size(rig: SolidRig) -> float:
    """The longer side of the outline, metres; 0 without one."""
    outline = np.array(rig.scene.stage.outline, dtype=float).reshape(-1, 2)
    return float(np.ptp(outline, axis=0).max()) if outline.size else 0.0


def rake(rig: SolidRig) -> Iterator[Finding]:
    """Warns of a rake steeper than stairs are."""
    slope = abs(rig.scene.stage.rake)
    if slope > STEEP_RAKE:
        says = f"The rake rises 1 in {1 / slope:.2g}. Degrees, or per cent, read as rise per run?"
        yield _told("rake-unlikely", says, 'Write it as "1:16", rise to run.')


def acting_area(rig: SolidRig) -> Iterator[Finding]:
    """Warns of an acting area that reaches off the deck."""
    stage = rig.scene.stage
    if not stage.outline or not stage.acting or stage.acting == stage.outline:
        return
    x, y = _along_edges(stage.acting)
    off = np.flatnonzero(~inside(stage.outline, x, y))
    if off.size:
        far = max(_off_edge(stage.outline, float(x[j]), float(y[j])) for j in off.tolist())
        if far > 2 * EDGE:
            says = (
                f"The acting area reaches {length(far, rig.scene.settings.unit)} off the deck's outline. "
                "A corner with the wrong sign, or an apron left out of the outline?"
            )
            yield _told(
                "acting-off-deck", says, "Correct the corner, or put the apron into the outline."
            )


STEPS = 9  # places looked at along each edge of a polygon


def _along_edges(outline: Sequence[PlanPoint]) -> tuple[Array, Array]:
    start = np.array(outline, dtype=float)
    share = np.linspace(0.0, 1.0, STEPS)[:, None, None]
    every = start + share * (np.roll(start, -1, axis=0) - start)
    return every[..., 0].ravel(), every[..., 1].ravel()


def _off_edge(outline: Sequence[PlanPoint], x: float, y: float) -> float:
    """How far a plan point is from the nearest edge of a polygon."""
    start = np.array(outline, dtype=float)
    run = np.roll(start, -1, axis=0) - start
    way = np.array([x, y]) - start
    share = np.clip((way * run).sum(axis=1) / np.maximum((run * run).sum(axis=1), 1e-300), 0.0, 1.0)
    return float(np.hypot(*(way - share[:, None] * run).T).min())


def eyes(rig: SolidRig) -> Iterator[Finding]:
    """Warns of seats whose eyes are above a pipe that hangs over the stage; a balcony's rail is before it."""
    over = [pipe for pipe in rig.scene.pipes if _over_stage(rig, pipe)]
    low = min(over, key=lambda pipe: min(pipe.start[2], pipe.end[2]), default=None)
    for block in rig.scene.seats:
        if block.eye > HIGH_EYE:
            high = length(block.eye, rig.scene.settings.unit)
            says = f"The eyes of seats {block.name} are {high} up. {_misread(rig, large=True)}"
            do = "Give eye as the height of the eyes above the deck, with its unit, or leave it."
            yield _told("eyes-unlikely", says, do)
            continue
        least = min(low.start[2], low.end[2]) if low else 0.0
        if low and block.eye > least:
            unit = rig.scene.settings.unit
            says = (
                f"The eyes of seats {block.name}, {length(block.eye, unit)} up, are above {low.name}, "
                f"{length(least, unit)} up over the stage. {_misread(rig, large=True)}"
            )
            do = "Give eye as the height of the eyes above the deck, with its unit."
            yield _told("eyes-unlikely", says, do)


def _over_stage(rig: SolidRig, pipe: Pipe) -> bool:
    x, y = ((a + b) / 2 for a, b in zip(pipe.start[:2], pipe.end[:2], strict=True))
    outline = rig.scene.stage.outline
    return bool(inside(outline, np.array([x]), np.array([y]))[0]) if outline else y >= 0.0


def kinds(rig: SolidRig) -> Iterator[Finding]:
    """Warns of weights and watts that no unit has."""
    unit = rig.scene.settings.unit
    for kind in {kind.name: kind for kind in rig.kinds}.values():
        if kind.weight is not None and not LIGHT <= kind.weight <= HEAVY:
            slip = "Grams read as kilograms" if kind.weight > HEAVY else "Tonnes read as kilograms"
            each = weight(kind.weight, unit)
            says = f"Kind {kind.name} weighs {each} a unit. {slip}, or the point misplaced?"
            yield _told("weight-unlikely", says, 'Write it as on its label, with "kg" or "lb".')
        if kind.watts is not None and kind.watts < DIM:
            says = f"Kind {kind.name} takes {kind.watts:g} W. Kilowatts read as watts?"
            yield _told(
                "watts-unlikely", says, "Give the watts of its lamp or its label: 575, not 0.575."
            )


def volts(rig: SolidRig) -> Iterator[Finding]:
    """Warns of volts that no outlet gives."""
    given = rig.scene.settings.volts
    if given is not None and not any(low <= given <= high for low, high in ORDINARY_VOLTS):
        between = " Volts between phases?" if 346 <= given <= 480 else ""
        rests = "and every ampere is worked out from it."
        says = f"{given:g} V is no ordinary voltage of an outlet, {rests}{between}"
        yield _told("volts-unlikely", says, "Give the volts at the outlet: 120, 208, 230 ...")


def outlets(rig: SolidRig) -> Iterator[Finding]:
    """Warns of circuits whose outlet is beyond its pipe or boom."""
    unit = rig.scene.settings.unit
    for position in rig.scene.positions.values():
        ends = tube_ends(position)
        if ends is None:
            continue
        for circuit in position.circuits:
            past = max(circuit.at - ends[1], ends[0] - circuit.at)
            if past > TOUCH:
                where = "the boom" if isinstance(position, Boom) else "the pipe"
                at = along(circuit.at, sides(position), unit)
                far = f"{length(past, unit)} past the end of {where}"
                says = f"The outlet of circuit {circuit.name}, at {at}, is {far}. A wrong side or zero?"
                do = "Measure it from the units' own zero; cable from the side comes in at the end."
                yield _told("outlet-unlikely", says, do, position.name)


def arms(rig: SolidRig) -> Iterator[Finding]:
    """Warns of side arms longer than anybody hangs a unit on."""
    long = [unit.arm > LONG_ARM for unit in rig.units]
    for rows in by_position(rig, long):
        most = length(max(rig.units[k].arm for k in rows), rig.scene.settings.unit)
        says = f"{subject(rig, rows, 'hangs', 'hang')} on a side arm of {most}. {_misread(rig, large=True)}"
        yield about(rig, rows, WARN, "arm-unlikely", says=says, do=WRITE_UNIT)


def pipes(rig: SolidRig) -> Iterator[Finding]:
    """Warns of pipes too short to hang one unit on."""
    for pipe in rig.scene.pipes:
        low, high = pipe_ends(pipe)
        long = high - low
        if long < SHORT_PIPE:
            says = (
                f"It is {length(long, rig.scene.settings.unit)} long. {_misread(rig, large=False)}"
            )
            yield _told(
                "pipe-unlikely", says, "Correct its ends, from and to, with their unit.", pipe.name
            )


def solids(rig: SolidRig) -> Iterator[Finding]:
    """Warns of solids out of all proportion to the stage: a file in millimetres, a box in inches."""
    stage, scenery = _stage_size(rig), rig.scenery
    if not stage:
        return
    vast: list[str] = []
    tiny: list[str] = []
    sizes = scenery.sizes(len(rig.scene.solids)).tolist()
    for solid, size in zip(rig.scene.solids, sizes, strict=True):
        (vast if size > VAST * stage else tiny if size < TINY * stage else []).append(solid.name)
    if vast:
        big = f"{count(vast, 'Solid')}: over ten times the size of the stage."
        says = f"{big} Millimetres or inches read as metres?"
        yield _told(
            "solid-unlikely",
            says,
            "Correct the lengths, or the scale of a mesh (0.001 for millimetres).",
        )
    if tiny:
        small = f"{count(tiny, 'Solid')}: under a thousandth of the stage."
        says = f"{small} Scaled twice, or metres read as millimetres?"
        yield _told(
            "solid-unlikely", says, "Correct the lengths, or the scale of a mesh (1 for metres)."
        )
