"""Sums for a pocket calculator: what is keyed in, as text, beside what the display shows.

A sum is written as people key it: "inv tan(A ÷ B)", "6.1 less 0.35". Nothing is ever below nought: where a
difference would be, its size is taken, and which way it goes is said in words. "less" is the key that takes
away, since paper has no minus sign. Functions of angles are in degrees.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import asin, atan, cos, floor, sin, sqrt, tan

import msgspec

from aimcalc.geometry.vectors import to_degrees, to_radians
from aimcalc.named import NamedTuple

ZERO = 1e-9  # metres or degrees: nothing that anybody keys in
FINEST = 64  # parts of an inch that are told as a fraction


FUNCTIONS: dict[str, Callable[[float], float]] = {
    "sin": lambda v: sin(to_radians(v)),
    "cos": lambda v: cos(to_radians(v)),
    "tan": lambda v: tan(to_radians(v)),
    "inv sin": lambda v: to_degrees(asin(max(-1.0, min(1.0, v)))),
    "inv tan": lambda v: to_degrees(atan(v)),
}


class Sum(msgspec.Struct, frozen=True):
    """What is keyed in, what it comes to, and whether it must stand in brackets beside another sum."""

    keys: str
    value: float
    loose: bool = False  # its parts are held together by + or less alone

    @property
    def held(self) -> str:
        """The keys, in brackets where they need them."""
        return f"({self.keys})" if self.loose else self.keys

    def __mul__(self, other: Sum) -> Sum:
        return Sum(f"{self.held} × {other.held}", self.value * other.value)

    def __truediv__(self, other: Sum) -> Sum:
        below = f"({other.keys})" if "×" in other.keys or "÷" in other.keys else other.held
        return Sum(f"{self.held} ÷ {below}", self.value / other.value)

    @property
    def squared(self) -> Sum:
        """It times itself."""
        return Sum(f"{self.keys}²", self.value**2)


def number(value: float, digits: int) -> Sum:
    """The size of a number that is keyed in, to so many digits after the point at most."""
    size = _rounded(abs(value), digits)
    text = f"{size:.{digits}f}"
    return Sum(text.rstrip("0").rstrip(".") if "." in text else text, size)


def root(of: Sum) -> Sum:
    """The square root of a sum."""
    return Sum(f"√({of.keys})", sqrt(of.value))


def called(name: str, of: Sum) -> Sum:
    """sin, cos, tan, inv sin or inv tan of a sum, degrees."""
    return Sum(f"{name}({of.keys})", FUNCTIONS[name](of.value))


def total(parts: Sequence[tuple[float, Sum]]) -> tuple[Sum, int]:
    """The size of a sum of parts, each with its sign, and the sign of the whole: +1, -1, or 0 for nothing.

    The first part keyed is never one that is taken away.
    """
    some = [(sign, part) for sign, part in parts if sign and abs(part.value) > ZERO]
    whole = sum((1 if sign > 0 else -1) * part.value for sign, part in some)
    if abs(whole) <= ZERO:
        return Sum("0", 0.0), 0
    way = 1 if whole > 0 else -1
    added = [part for sign, part in some if sign * way > 0]
    taken = [part for sign, part in some if sign * way < 0]
    if not taken and len(added) == 1:
        return Sum(added[0].keys, abs(whole), added[0].loose), way
    keys = " + ".join(part.keys for part in added)
    keys += "".join(f" less {part.held}" for part in taken)
    return Sum(keys, abs(whole), loose=True), way


class Step(NamedTuple):
    """One line to key in: the letter it is kept in, what it is, the keys, what is written down.

    `prints` is the figure of the sheet that it comes to, empty for a step on the way; `rounding` says how.
    """

    letter: str
    what: str
    keys: str
    shows: str
    prints: str = ""
    rounding: str = ""


class Tape:
    """Steps in their order; what each comes to is written down to `digits` and goes on from there."""

    def __init__(self, digits: int) -> None:
        self.digits = digits
        self.steps: list[Step] = []

    def step(self, what: str, made: Sum, prints: str = "", rounding: str = "") -> Sum:
        """Write down one sum, and have its letter; a letter alone stays as it is."""
        if not prints and any(made.keys == each.letter for each in self.steps):
            return made
        turn, place = divmod(len(self.steps), 26)
        letter = f"{chr(ord('A') + place)}{turn or ''}"
        value = number(made.value, self.digits)
        self.steps.append(Step(letter, what, made.keys, value.keys, prints, rounding))
        return Sum(letter, value.value)


def _rounded(size: float, digits: int) -> float:
    whole: int = floor(size * 10**digits + 0.5 + 1e-9)
    return float(whole / 10**digits)


def inches(metres: float) -> str:
    """A length as inches with an exact fraction, "222 1/2 in"; to 4 digits where it is no 64th of an inch."""
    value = Fraction(round(abs(metres) / 0.0254 * 1e9), 10**9)
    near = Fraction(round(value * FINEST), FINEST)
    if abs(near - value) > Fraction(1, 10**6):
        return f"{float(value):.4f} in"
    whole, rest = divmod(near, 1)
    if not rest:
        return f"{whole} in"
    return f"{whole} {rest} in" if whole else f"{rest} in"
