"""Figures that look as if they had been typed in one unit of length and read in another.

Every one of them may be right, so these warn and say what gave rise to it.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from aimcalc.findings.report import NOTE, WARN
from aimcalc.geometry.vectors import Array
from aimcalc.rig.arrays import FOOT, in_feet
from aimcalc.rig.places import inside, pipe_ends
from aimcalc.rig.solve import hung
from aimcalc.rig.wording import joined, length
from aimcalc.scene.model import Pipe
from aimcalc.solid.answers import Finding
from aimcalc.solid.rig import SolidRig
from aimcalc.solid.tapes import Tape, lies_at

FEWEST_UNITS = 4
FAR_OUT = 1.2  # times what would fit, from which a slip of unit is likelier than one of the tape (estimate)
ALMOST = 0.15  # how near a ratio of two figures must be to a ratio of two units
LOW, HIGH = 1.2, 12.0  # m; between these a pipe's height is nothing out of the way
BIGGEST, SMALLEST = 3.0, 0.05  # m; no unit's drop or body is beyond these
NAMES = {"m": "metres", "cm": "centimetres", "mm": "millimetres", "ft": "feet", "in": "inches"}
RATIOS = {  # what was typed, as if it were, and how many of one go into the other
    ("feet", "metres"): 1 / 0.3048,
    ("inches", "feet"): 12.0,
    ("inches", "metres"): 1 / 0.0254,
    ("millimetres", "inches"): 25.4,
    ("centimetres", "metres"): 100.0,
    ("millimetres", "metres"): 1000.0,
}


def another_unit(rig: SolidRig) -> Iterator[Finding]:
    """Warns of figures that fit the rest only when read in another unit of length."""
    yield from rig.kept.ask(_of_positions)
    yield from _targets(rig)
    yield from _kinds(rig)


def _of_positions(rig: SolidRig) -> list[Finding]:
    return [*_places_too_far(rig), *_places_too_near(rig), *_trims(rig)]


def _finding(what: str, guess: tuple[str, str], position: str | None = None) -> Finding:
    typed, read = guess
    says = f"{what}: looks like {typed} read as {read}."
    do = "Write these lengths with their unit."
    return Finding(WARN, "another-unit", says, do, position=position)


def _likely(rig: SolidRig) -> list[tuple[tuple[str, str], float]]:
    """Ratios with those first where a bare number was read in the scene's own unit."""
    own = NAMES[rig.scene.settings.own_unit]
    return sorted(RATIOS.items(), key=lambda item: item[0][1] != own)


def slip(rig: SolidRig, fits: Callable[[float], bool]) -> str:
    """The slip of unit by which a figure, times a ratio, would fit: " Feet read as metres?"; "" where
    none would, or where a sixth less would do."""
    if fits(1 / FAR_OUT):
        return ""
    own = NAMES[rig.scene.settings.own_unit]
    for (typed, read), ratio in RATIOS.items():
        if read == own and fits(1 / ratio):
            return f" {typed.capitalize()} read as {read}?"
    return ""


def _pipes_with_places(rig: SolidRig) -> Iterator[tuple[Pipe, Array]]:
    for pipe, rows in hung(rig):
        if len(rows) >= FEWEST_UNITS and isinstance(pipe, Pipe):
            yield pipe, np.array([rig.units[k].at or 0.0 for k in rows])


def _places_too_far(rig: SolidRig) -> Iterator[Finding]:
    """Most units are off the pipe, and a change of unit would put every one on it."""
    for pipe, at in _pipes_with_places(rig):
        low, high = pipe_ends(pipe)
        if 2 * int(((at < low) | (at > high)).sum()) <= at.size:
            continue
        for guess, ratio in _likely(rig):
            if (at / ratio >= low - 0.01).all() and (at / ratio <= high + 0.01).all():
                over = _len(rig, float(np.ptp(at)))
                what = f"Its places spread over {over}, the pipe is {_len(rig, high - low)} long"
                yield _finding(what, guess, pipe.name)
                break


def _places_too_near(rig: SolidRig) -> Iterator[Finding]:
    """Units sit inside each other, and a change of unit would spread them and keep them on the pipe."""
    for pipe, at in _pipes_with_places(rig):
        low, high = pipe_ends(pipe)
        gaps = np.sort(np.diff(np.sort(at)))
        gap = float(gaps[len(gaps) // 2])  # np.median would load all of numpy.ma
        for typed, read in (("feet", "metres"), ("inches", "feet")):
            ratio = RATIOS[typed, read]
            fits = (at * ratio >= low).all() and (at * ratio <= high).all()
            if 0 < gap < 0.2 and gap * ratio >= 0.4 and fits:
                what = f"Its units would hang {_len(rig, gap)} apart"
                yield _finding(what, (read, typed), pipe.name)
                break


def _trims(rig: SolidRig) -> Iterator[Finding]:
    """One pipe is out of all proportion to the others' middle height, by a ratio of two units."""
    heights = [(p.start[2] + p.end[2]) / 2 for p in rig.scene.pipes]
    ordered = sorted(heights)
    for pipe, high in zip(rig.scene.pipes, heights, strict=True):
        if len(ordered) < 2 or LOW <= high <= HIGH:
            continue
        others = _middle_without(ordered, high)
        if LOW < others < HIGH:
            what = (
                f"Its height of {_len(rig, high)} is far from the other pipes' {_len(rig, others)}"
            )
            yield from _by_ratio(high / others, what, pipe.name)


def _middle_without(ordered: Sequence[float], value: float) -> float:
    """The (lower) middle of sorted values with one of them left out."""
    middle = (len(ordered) - 2) // 2
    return ordered[middle if middle < bisect_left(ordered, value) else middle + 1]


def _by_ratio(ratio: float, what: str, position: str | None = None) -> Iterator[Finding]:
    for (typed, read), known in RATIOS.items():
        if abs(ratio / known - 1) < ALMOST:
            yield _finding(what, (typed, read), position)
            return
        if abs(ratio * known - 1) < ALMOST:
            yield _finding(what, (read, typed), position)
            return


def _targets(rig: SolidRig) -> Iterator[Finding]:
    """Most targets are off the stage, and a change of unit would put every one on it."""
    outline = rig.scene.stage.outline
    x, y = (np.array([getattr(t, axis) for t in rig.scene.targets]) for axis in "xy")
    if not outline or x.size < FEWEST_UNITS or 2 * int((~inside(outline, x, y)).sum()) <= x.size:
        return
    for guess, ratio in _likely(rig):
        if inside(outline, x / ratio, y / ratio).all():
            what = (
                f"The targets spread over {_len(rig, float(np.ptp(x)))} across, far off the stage"
            )
            yield _finding(what, guess)
            return


def _kinds(rig: SolidRig) -> Iterator[Finding]:
    """A unit has sizes that no unit has."""
    for kind in {kind.name: kind for kind in rig.kinds}.values():
        sizes = {"drop_under": kind.drop_under, "drop_over": kind.drop_over, "nose": kind.nose}
        bodies = {"length": kind.length or 0.5, "width": kind.width or 0.5}
        for key, size in (sizes | bodies).items():
            what = f"Kind {kind.name} has a {key} of {_len(rig, size)}"
            read = NAMES[rig.scene.settings.own_unit]
            if size > BIGGEST:
                yield _finding(what, ("a smaller unit", read))
                break
            if key in bodies and size < SMALLEST:
                yield _finding(what, ("a bigger unit", read))
                break


def _len(rig: SolidRig, metres: float) -> str:
    return length(metres, rig.scene.settings.unit)


def cannot_lie(rig: SolidRig) -> Iterator[Finding]:
    """Warns of tapes that cannot lie at the distance typed for them."""
    for tape in rig.tapes.every:
        if tape.typed and tape.in_the_way:
            yield Finding(
                WARN, "tape-cannot-lie", _says(rig, tape), _do(rig, tape), position=tape.position
            )


def no_tape(rig: SolidRig) -> Iterator[Finding]:
    """Notes sides of pipes along which no tape can lie at any whole distance."""
    for tape in rig.tapes.every:
        if np.isnan(tape.out):
            says = f"{_says(rig, tape)} No other whole distance is clear, so there is no tape."
            do = "Set the swing by the dial, or by the line on the hang strip."
            yield Finding(NOTE, "no-tape", says, do, position=tape.position)


def _says(rig: SolidRig, tape: Tape) -> str:
    out = length(tape.asked, rig.scene.settings.unit)
    return f"The sight tape {out} {tape.side} of the pipe {joined(tape.in_the_way)}."


def _do(rig: SolidRig, tape: Tape) -> str:
    """The nearest distance that serves every side of the pipe, since one key speaks for both."""
    better = lies_at(rig, rig.scenery, tape.position)
    if better is None:
        return (
            "No one whole distance does: take sight_out out of the pipe and of [scene]; each side then has "
            "the nearest that does, or where there is none the dial leads."
        )
    written = f"{better / FOOT:.0f}'" if in_feet(rig.scene) else f"{better:.0f} m"
    return f'Give the pipe sight_out = "{written}", the nearest that can be laid.'
