"""Every number that reaches paper, as the words a person reads on a ladder.

There is never a minus sign: a side is named by SL, SR, US or DS, a tip by DOWN, UP or LEVEL. Lengths
are rounded to what a person can set, in the user's own unit (`"m"` or `"ft"`), halves away from zero.
All functions take metres and degrees and return text.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor
from typing import Literal

from aimcalc.named import NamedTuple
from aimcalc.rig.wording import DECK as DECK
from aimcalc.rig.wording import HANG as HANG
from aimcalc.rig.wording import INCH as INCH
from aimcalc.rig.wording import Step as Step
from aimcalc.rig.wording import feet_and_inches
from aimcalc.rig.wording import rounded as rounded
from aimcalc.rig.wording import steps as steps

LengthUnit = Literal["m", "ft"]


SIZE = Step(0.01, 1.0)  # a throw, the size of a pool

SIDES = ("US", "SL", "DS", "SR")  # clockwise seen from above, a quarter turn apart; US is heading 0
APART = (
    45.0  # degrees between headings that nobody takes for neighbours (common practice, no source)
)
OPPOSITE = {"US": "DS", "DS": "US", "SL": "SR", "SR": "SL"}
CENTRE = "CENTRE LINE"
PLASTER = "PLASTER LINE"
FREE = "PAN FREE"
SQUARE = "SQUARE"


class Tip(NamedTuple):
    """How far the lens axis is from level, both ways of reading it."""

    word: str  # DOWN, UP or LEVEL
    angle: str  # "52°", empty for LEVEL
    plumb: str  # the complement, "38°"


def length(metres: float, unit: LengthUnit, step: Step = DECK) -> str:
    """The size of a length in metres: "1.60 m", "0.355 m" or "18'-6 1/2"". The sign is not told."""
    if unit == "m":
        return _metres(steps(metres, step.metres) * step.metres)
    return feet_and_inches(steps(metres / INCH, step.inches) * round(step.inches * 4))


def length_up(metres: float, unit: LengthUnit, step: Step = SIZE) -> str:
    """A length in metres that something must reach: rounded up, so that what is printed is never short."""
    size = step.size(unit)
    return length(ceil(metres / size - 1e-6) * size, unit, step)


def mark(metres: float, sides: tuple[str, str], zero: str, unit: LengthUnit, step: Step) -> str:
    """A place along a line: its distance and the side it lies on, `zero` where it rounds to none.

    `sides` names the + side first: ("SL", "SR").
    """
    if rounded(metres, unit, step) == 0:
        return zero
    return f"{length(metres, unit, step)} {sides[metres < 0]}"


def across(x_m: float, unit: LengthUnit, step: Step = DECK) -> str:
    """Distance from the centre line, metres with + to SL: "1.60 m SR"."""
    return mark(x_m, ("SL", "SR"), CENTRE, unit, step)


def upstage(y_m: float, unit: LengthUnit, step: Step = DECK) -> str:
    """Distance from the plaster line, metres with + upstage: "4.60 m US"."""
    return mark(y_m, ("US", "DS"), PLASTER, unit, step)


def place(x_m: float, y_m: float, unit: LengthUnit, step: Step = DECK) -> str:
    """A point on the plan, metres to SL and upstage: "1.60 m SR, 4.60 m US"."""
    return f"{across(x_m, unit, step)}, {upstage(y_m, unit, step)}"


def angle(angle_deg: float) -> str:
    """The size of an angle to the nearest degree: "23°"."""
    return f"{steps(angle_deg, 1.0)}°"


def tip(down_deg: float) -> Tip:
    """DOWN, UP or LEVEL with its angle and the complement; the two always sum to 90.

    Degrees below level, minus for above.
    """
    whole = steps(down_deg, 1.0)
    word = "LEVEL" if whole == 0 else "DOWN" if down_deg > 0 else "UP"
    return Tip(word, f"{whole}°" if whole else "", f"{90 - whole}°")


def turn(pan_deg: float | None, swing: str | None) -> str:
    """The turn from square, degrees: "SR 23°", SQUARE for none, PAN FREE where any turn will do (None)."""
    if pan_deg is None:
        return FREE
    return SQUARE if steps(pan_deg, 1.0) == 0 or swing is None else f"{swing} {angle(pan_deg)}"


def nearest_side(heading_deg: float) -> str:
    """The one of US, SL, DS, SR that a heading (degrees clockwise from US) is nearest to."""
    return SIDES[floor(heading_deg / 90 + 0.5) % 4]


def heading(heading_deg: float, base: str | None = None) -> str:
    """A plan direction counted from one of the four sides: "20° SR of US", or "US" itself.

    `base` is the side to count from, the nearest one unless given.
    """
    base = base or nearest_side(heading_deg)
    off = _off(heading_deg, base)
    if steps(off, 1.0) == 0:
        return base
    return f"{angle(off)} {SIDES[(SIDES.index(base) + (1 if off > 0 else 3)) % 4]} of {base}"


def bases(headings: Sequence[float | None], own: str) -> list[str]:
    """The side that each heading of a row is counted from: one for neighbours under nearly one heading.

    Headings are parted where more than `APART` degrees lie open between them. A part is told from `own`
    (the row's square) where none of it is over 90 degrees off, else from its opposite, else from a side
    that serves it whole. A part that no one side serves: each from `own` or its opposite.
    """
    told = sorted({heading % 360.0 for heading in headings if heading is not None})
    sides = (own, OPPOSITE[own], *(side for side in SIDES if side not in (own, OPPOSITE[own])))
    found: dict[float, str] = {}
    for part in _parts(told):
        whole = [side for side in sides if all(abs(_off(one, side)) <= 90.0 for one in part)]
        for one in part:
            found[one] = whole[0] if whole else sides[abs(_off(one, own)) > 90.0]
    return [own if heading is None else found[heading % 360.0] for heading in headings]


def _parts(told: list[float]) -> list[list[float]]:
    """Rising headings parted at the gaps, the last joined to the first where no gap lies between."""
    parts: list[list[float]] = []
    for one in told:
        if parts and one - parts[-1][-1] <= APART:
            parts[-1].append(one)
        else:
            parts.append([one])
    if len(parts) > 1 and told[0] + 360.0 - told[-1] <= APART:
        parts[0] = parts.pop() + parts[0]
    return parts


def _off(heading: float, side: str) -> float:
    """Degrees clockwise from a side, in [-180, 180)."""
    return (heading - 90 * SIDES.index(side) + 180) % 360 - 180


def within(within_deg: float | None) -> str:
    """A tolerance in whole degrees, rounded down so that paper never allows more, at least 1.

    "any" where there is none to keep, or it is an eighth of a turn or more: a steep unit hardly moves
    its light when it turns, and the sum that gives a pan tolerance no longer holds.
    """
    if within_deg is None or within_deg >= 45:
        return "any"
    return f"{max(1, floor(within_deg + 1e-9))}°"


def count(number: int, one: str, many: str | None = None) -> str:
    """ "1 unit", "12 units"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def _metres(metres: float) -> str:
    text = f"{metres:.3f}"
    return (text[:-1] if text.endswith("0") else text) + " m"


MOST_NAMES = 6


def some(names: Sequence[str]) -> str:
    """The first few of a list, and how many more there are."""
    shown = ", ".join(names[:MOST_NAMES])
    more = len(names) - MOST_NAMES
    return f"{shown} and {more} more" if more > 0 else shown
