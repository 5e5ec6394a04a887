"""Where units hang whose rows say a number alone: on the marks of their pipe, by its spacing, or spread
evenly from end to end; and where the ends of a pipe are, as places count."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.model import Pipe, runs_across
from aimcalc.scene.quantities import FOOT
from aimcalc.scene.records import Place

USUAL_METRES, USUAL_FEET = (
    0.45,
    1.5 * FOOT,
)  # 0.45 m, 18 in between clamps (common practice, no source)


class Spaced(NamedTuple):
    """Places of units, metres as `at`, and how they came about."""

    at: list[float]
    how: str
    assumed: bool  # rests on the usual spacing


def usual_spacing(feet: bool) -> float:
    """The distance from clamp to clamp where nobody says another, metres."""
    return USUAL_FEET if feet else USUAL_METRES


def whole_numbers(numbers: Sequence[str], position: str) -> list[int] | None:
    """Unit numbers as whole ones, all different, behind what all of a position begin with, "1-1"
    and "1-2" of the first pipe; None where they are not. A lone "1/2" may be two."""
    plain = [_NUMBER.fullmatch(number.strip()) for number in numbers]
    found = [int(one[2]) for one in plain if one]
    before = {one[1].casefold() for one in plain if one}
    own = set(re.findall(r"\d+", position))
    alike = len(before) <= 1 and (
        len(numbers) > 1 or own >= set(re.findall(r"\d+", *before or ("",)))
    )
    return found if alike and len(found) == len(numbers) == len(set(found)) else None


_NUMBER = regex(r"((?:\w{0,8}[-./ #_]|[^\W\d_]{1,4})?)0*(\d{1,4})")


def spaced(pipe: Pipe, numbers: Sequence[int], feet: bool, begins: str = "") -> Spaced | None:
    """Where units hang on a pipe by their numbers; None where its marks do not reach.

    On a pipe with marks number n hangs on the n-th. Else they hang one spacing apart, a missing number
    keeping its place: about the zero mark in the middle of the pipe (about the middle itself where zero is an
    end), the lowest number nearest the SL end (the DS end of a pipe up and down the stage: common
    practice, no source) or the one that `begins` says; or, with `spaced_from`, from that end, the lowest
    number one spacing in.
    """
    if pipe.marks:
        if min(numbers) < 1 or max(numbers) > len(pipe.marks):
            return None
        return Spaced(
            [pipe.marks[n - 1] for n in numbers],
            "each on the pipe's mark of its number (marks)",
            False,
        )
    step = pipe.spacing or usual_spacing(feet)
    ends = span(pipe)
    if ends is None:
        return None
    low, high = ends
    across = runs_across(pipe.start, pipe.end)
    plus, minus = ("SL", "SR") if across else ("US", "DS")
    first, last = min(numbers), max(numbers)
    side = pipe.spaced_from
    if side in (plus, minus):
        end, way = (high, -1.0) if side == plus else (low, 1.0)
        at = [end + way * step * (n - first + 1) for n in numbers]
        return Spaced(at, f"from the {side} end, number {first} first", pipe.spacing is None)
    middle = 0.0 if pipe.zero in ("centre line", "middle") else (low + high) / 2
    one = begins if begins in (plus, minus) else plus if across else minus
    way = -1.0 if one == plus else 1.0
    at = [middle + way * step * (n - (first + last) / 2) + 0.0 for n in numbers]
    about = "the centre line" if pipe.zero == "centre line" else "the middle of the pipe"
    return Spaced(at, f"about {about}, number {first} at the {one} end", pipe.spacing is None)


def spread(pipe: Pipe, numbers: Sequence[int], begins: str) -> Spaced | None:
    """Where units hang that are spread evenly over a pipe, one gap from clamp to clamp and half of one at its
    ends; None on a curved pipe. The lowest number is nearest the end that `begins` says, or the SL end (the
    DS end of a pipe up and down the stage: common practice, no source).
    """
    ends = span(pipe)
    if ends is None:
        return None
    low, high = ends
    across = runs_across(pipe.start, pipe.end)
    first, many = min(numbers), max(numbers) - min(numbers) + 1
    end = begins if begins in (("SL", "SR") if across else ("US", "DS")) else ""
    end = end or ("SL" if across else "DS")
    gap, upwards = (high - low) / many, end in ("SR", "DS")
    begin, way = (low, 1.0) if upwards else (high, -1.0)
    at = [round(begin + way * gap * (n - first + 0.5), 12) + 0.0 for n in numbers]
    return Spaced(at, f"spread evenly from end to end, number {first} at the {end} end", True)


def along_of(place: Place | None, unit: str, day_first: bool | None) -> Along:
    """How places are measured on a position, in a scene of a unit; on none, or one that nobody knows, in any
    direction."""
    if place is None:
        return Along(unit, "any", True)
    pipe = place.pipe
    if pipe is None:
        return Along(unit, place.axis, place.centre, day_first=day_first)
    plaster = plaster_line(pipe) if place.axis == "y" else None
    return Along(unit, place.axis, place.centre, pipe.marks, span(pipe), day_first, plaster)


def plaster_line(pipe: Pipe) -> float | None:
    """Where a straight pipe or its line on beyond its ends crosses the plaster line, as `at` counts, metres;
    None where it does not."""
    ends, (near, far) = span(pipe), sorted((pipe.start[1], pipe.end[1]))
    if ends is None or near == far:
        return None
    low, high = ends
    return low + (high - low) * (0.0 - near) / (far - near)


def span(pipe: Pipe) -> tuple[float, float] | None:
    """The ends of a straight pipe as `at` counts, the lower first, metres; None of a curved one."""
    if pipe.through is not None:
        return None
    length = sum((b - a) ** 2 for a, b in zip(pipe.start, pipe.end, strict=True)) ** 0.5
    axis = 0 if runs_across(pipe.start, pipe.end) else 1
    forward = pipe.end[axis] >= pipe.start[axis]
    if pipe.zero == "middle":
        return -length / 2, length / 2
    if pipe.zero == "centre line":
        run = pipe.end[0] - pipe.start[0]
        share = -pipe.start[0] / run if run else 0.5  # of the way from its start to the centre line
        ends = (
            (-share * length, (1 - share) * length)
            if forward
            else ((share - 1) * length, share * length)
        )
        return min(ends), max(ends)
    from_start = pipe.zero == "start"
    return (0.0, length) if from_start == forward else (-length, 0.0)
