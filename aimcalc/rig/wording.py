"""Numbers inside a sentence, as people say them: sides by name, no minus sign, the scene's own unit.

Metres and degrees in, text out. Paper has its own rounding; a sentence keeps enough of a number to
show why it was said.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import floor

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.named import NamedTuple
from aimcalc.scene.quantities import POUND

INCH = 0.0254  # m, exact: international inch, 1959 agreement
MOST_NAMES = 8

_QUARTERS = ("", " 1/4", " 1/2", " 3/4")


def steps(value: float, step: float) -> int:
    """How many steps the size of `value` is, to the nearest; a half counts as a whole one."""
    return floor(abs(value) / step + 0.5 + 1e-9)


class Step(NamedTuple):
    """The smallest difference of length that is printed, in either system."""

    metres: float
    inches: float  # a multiple of a quarter

    def size(self, unit: str) -> float:
        """The step in metres, for whoever reads in `unit`: inches for ft and in, else metric."""
        return self.inches * INCH if unit in ("ft", "in") else self.metres


HANG = Step(0.005, 0.25)  # a mark on a pipe, a trim, a drop
DECK = Step(0.05, 3.0)  # a mark on the deck, on the sight tape or on a pole


def rounded(metres: float, unit: str, step: Step = DECK) -> float:
    """`metres` as they are printed: to the nearest step of the unit, sign kept, in metres again."""
    size = step.size(unit)
    return steps(metres, size) * size * (-1.0 if metres < 0 else 1.0) + 0.0


def length(metres: float, unit: str) -> str:
    """The size of a length in m, cm, mm, ft or in: "1.65 m", "0.46 m", "18'-6 1/2\\"", "222 in".

    The sign is not told. Metres go to the nearest centimetre, under a tenth to the nearest millimetre;
    inches to the nearest quarter.
    """
    size = abs(metres)
    if unit == "ft":
        return feet_and_inches(steps(size / INCH, 0.25))
    if unit == "in":
        return f"{_inches(steps(size / INCH, 0.25))} in"
    if unit == "mm":
        return f"{steps(size, 0.001)} mm"
    whole = steps(size, 0.001)  # millimetres
    if whole >= 100 or whole % 10 == 0:
        whole = steps(size, 0.01)
        return f"{whole} cm" if unit == "cm" else f"{whole / 100:.2f} m"
    return f"{whole / 10:.1f} cm" if unit == "cm" else f"{whole / 1000:.3f} m"


def feet_and_inches(quarters: int) -> str:
    """So many quarters of an inch: 18'-6 1/2"."""
    feet, rest = divmod(quarters, 48)
    return f"{feet}'-{_inches(rest)}\""


def _inches(quarters: int) -> str:
    whole, rest = divmod(quarters, 4)
    return f"{whole}{_QUARTERS[rest]}"


def weight(kilograms: float, unit: str) -> str:
    """A weight in the system of the scene's unit of length: "203.5 kg", "448.6 lb"."""
    if unit in ("ft", "in"):
        return f"{kilograms / POUND:.1f} lb"
    return f"{kilograms:.1f} kg"


def along(metres: float, sides: Sequence[str], unit: str) -> str:
    """A place along a line, `sides` with the + side first: "1.20 m SR", or "the zero mark"."""
    if abs(metres) < 0.0005:
        return "the zero mark"
    return f"{length(metres, unit)} {sides[metres < 0]}"


def plan(x: float, y: float, unit: str) -> str:
    """A point on the plan: "1.60 m SR, 4.60 m US", "on the centre line, 4.60 m US"."""
    across = "on the centre line" if abs(x) < 0.0005 else along(x, ("SL", "SR"), unit)
    deep = "on the plaster line" if abs(y) < 0.0005 else along(y, ("US", "DS"), unit)
    return f"{across}, {deep}"


def level(z_m: float, unit: str) -> str:
    """A height above the deck at the plaster line: "1.22 m up", "0.30 m below the deck's zero"."""
    if abs(z_m) < 0.0005:
        return "level with the deck at the plaster line"
    return f"{length(z_m, unit)} {'up' if z_m > 0 else 'below the deck at the plaster line'}"


def angle(angle_deg: float, digits: int = 0) -> str:
    """The size of an angle: "23°"."""
    return f"{abs(angle_deg):.{digits}f}°"


def tip(down_deg: float) -> str:
    """An angle from level with its word: "30° down", "12° up", "level"."""
    if abs(down_deg) < 0.5:
        return "level"
    return f"{angle(down_deg)} {'down' if down_deg > 0 else 'up'}"


def span(low_deg: float, high_deg: float) -> str:
    """Two angles: "8° to 14°", or one where they read alike."""
    first, last = angle(low_deg), angle(high_deg)
    return first if first == last else f"{first} to {last}"


def listed(names: Iterable[str]) -> str:
    """Names in a row: "1", "1 and 2", "1, 2 and 3"; a long row ends in "and 4 more"."""
    every = list(names)
    if len(every) > MOST_NAMES:
        rest = len(every) - MOST_NAMES + 1
        return f"{', '.join(every[: MOST_NAMES - 1])} and {rest} more"
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}"


def joined(parts: Sequence[str]) -> str:
    """Parts of a sentence, all of them: "a", "a and b", "a, b and c"."""
    return " and ".join(filter(None, (", ".join(parts[:-1]), parts[-1])))


def count(names: Sequence[str], one: str, many: str | None = None) -> str:
    """A noun with names: "unit 3", "units 3 and 5"."""
    return f"{one if len(names) == 1 else many or one + 's'} {listed(names)}"


def by_typical(what: str, kinds: Sequence[str]) -> str:
    """A sentence to follow a warning that rests on figures nobody has measured; nothing where none does."""
    return f" By typical {what} of {listed(kinds)}." if kinds else ""


def whole(degrees: Array) -> Array:
    """Whole degrees as paper prints them, any shape: to the nearest, halves away from zero; NaN stays NaN."""
    return np.asarray(np.copysign(np.floor(np.abs(degrees) + 0.5 + 1e-9), degrees))


SQUARE_FOOT = 0.3048**2  # m2


def area(m2: float, unit: str) -> str:
    """An area in square metres, told in a unit of length's own: "0.82 m2", "8.8 ft2"."""
    return f"{m2 / SQUARE_FOOT:.1f} ft2" if unit in ("ft", "in") else f"{m2:.2f} m2"
