"""Where clamps go along a position: marks from the ends, spacing, and what a forearm would make of it.

Lengths are metres along the position, measured as `at`. Unit spacing runs from clamp centre to clamp
centre, and marks from the middle outwards both ways (J. D. Sutton, Another System to Facilitate Hanging
Lights, Technical Design Solutions for Theatre, ch. 3, by its abstract).
"""

from __future__ import annotations

from math import hypot, nan
from typing import NamedTuple

USUAL_SPACING = 0.4572  # 18 in / 46 cm, common practice, no source

# Elbow to fingertip of men and of women: mean, 5th and 95th percentile. C. C. Gordon et al., 2012
# Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007 (2014), forearm-hand length.
FOREARMS = {"men": (0.48021, 0.444, 0.520), "women": (0.43986, 0.404, 0.480)}


class ByArm(NamedTuple):
    """How far off the last clamp lands when a row is stepped out by forearm; + is too far."""

    lengths: float
    men: float
    women: float
    shortest: float
    longest: float


def from_ends(at: float, start: float, end: float) -> tuple[float, float]:
    """Distances of a mark from the start and from the end of its pipe; negative beyond that end."""
    sense = 1.0 if end >= start else -1.0
    return sense * (at - start), sense * (end - at)


def swept_radius(
    *, length: float | None, width: float | None, nose: float, ahead: float = 0.0
) -> float:
    """Radius of the circle that a level body sweeps about its stem, seen from above.

    The body reaches `nose` (and a top hat of `ahead`) in front of its pivot and the rest of `length` behind
    it. NaN where length or width is not known.
    """
    if length is None or width is None:
        return nan
    return hypot(max(nose + ahead, length - nose), width / 2)


def by_forearm(row: float, step: float = USUAL_SPACING) -> ByArm:
    """What stepping out a row of length `row` by forearm, taken as `step` each, would get wrong.

    Means of men and women, and the shortest and longest forearm between the women's 5th and the men's
    95th percentile.
    """
    count = row / step
    men, women = FOREARMS["men"], FOREARMS["women"]
    off = [count * (arm - step) for arm in (men[0], women[0], women[1], men[2])]
    return ByArm(count, *off)
