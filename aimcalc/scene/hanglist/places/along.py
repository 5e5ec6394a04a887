"""How a place along a position is measured, and how it is told: `12'-6" SL`, "3.50 m SL", "centre"."""

from __future__ import annotations

from aimcalc.named import NamedTuple
from aimcalc.scene.lengths import UNITS

INCHES = 12


class Along(NamedTuple):
    """How a place is measured: the unit of bare numbers, the words of its direction, the marks of its
    pipe."""

    unit: str  # of the scene
    axis: str = ""
    centre: bool = False
    marks: tuple[float, ...] = ()
    span: tuple[float, float] | None = None  # of the pipe, as `at`
    day_first: bool | None = None  # of dates that were feet and inches; None where nothing tells
    plaster: float | None = (
        None  # where a pipe up and down the stage crosses the plaster line, as `at`
    )

    @property
    def feet(self) -> bool:
        """Whether the scene is in feet and inches."""
        return self.unit in ("ft", "in")


class Read(NamedTuple):
    """A place, metres, and how it was understood ("" where it was written as a scene has it)."""

    metres: float
    said: str = ""


def told(metres: float, along: Along, feet: bool | None = None) -> str:
    """A place as people write it: `12'-6" SL`, "3.50 m SL", "centre"."""
    words = {"x": ("SL", "SR"), "y": ("US", "DS")}.get(along.axis, ("", ""))
    side = words[metres < 0]
    size = length_words(abs(metres), along.feet if feet is None else feet)
    if not metres and along.centre:
        return "centre"
    if not side and metres < 0:
        size = f"-{size}"
    return f"{size} {side}".strip()


def length_words(metres: float, feet: bool) -> str:
    """A length of 0 or more in feet and inches, or in metres."""
    if not feet:
        exact = f"{metres:.3f}"
        return f"{exact[:-1] if exact.endswith('0') else exact} m"
    total = metres * UNITS["in"][1] / UNITS["in"][0]
    whole = int((total + 1e-6) // INCHES)
    inches = f"{max(0.0, round(total - INCHES * whole, 4)):.4g}"
    if float(inches) == 0:
        return f"{whole}'"
    return f"{whole}'-{inches}\""
