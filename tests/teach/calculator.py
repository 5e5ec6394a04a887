"""A pocket calculator: keys as they are printed, worked out one after the other, with letters for results.

Written for the tests alone. It knows numbers, letters, brackets, squares, roots, five functions of degrees,
and that × and ÷ come before + and less.
"""

from __future__ import annotations

import math
import re

TOKEN = re.compile(r"\s*(inv sin|inv tan|sin|cos|tan|less|√|²|[A-Z]\d*|\d+(?:\.\d+)?|[()+×÷])")
TURN = math.pi / 180
FUNCTIONS = {
    "sin": lambda v: math.sin(v * TURN),
    "cos": lambda v: math.cos(v * TURN),
    "tan": lambda v: math.tan(v * TURN),
    "inv sin": lambda v: math.asin(v) / TURN,
    "inv tan": lambda v: math.atan2(v, 1.0) / TURN,
    "√": math.sqrt,
}


def key_in(keys: str, letters: dict[str, float]) -> float:
    """What a calculator shows for these keys."""
    tokens, at = [], 0
    while at < len(keys):
        found = TOKEN.match(keys, at)
        assert found, f"no such key: {keys[at:]!r}"
        tokens.append(found[1])
        at = found.end()
    value, rest = _sum(tokens, letters)
    assert not rest, rest
    return value


def _sum(tokens: list[str], letters: dict[str, float]) -> tuple[float, list[str]]:
    value, rest = _product(tokens, letters)
    while rest and rest[0] in ("+", "less"):
        sign = 1 if rest[0] == "+" else -1
        more, rest = _product(rest[1:], letters)
        value += sign * more
    return value, rest


def _product(tokens: list[str], letters: dict[str, float]) -> tuple[float, list[str]]:
    value, rest = _single(tokens, letters)
    while rest and rest[0] in ("×", "÷"):
        more, left = _single(rest[1:], letters)
        value = value * more if rest[0] == "×" else value / more
        rest = left
    return value, rest


def _single(tokens: list[str], letters: dict[str, float]) -> tuple[float, list[str]]:
    first, rest = tokens[0], tokens[1:]
    if first in FUNCTIONS:
        inside, rest = _single(rest, letters)
        value = FUNCTIONS[first](inside)
    elif first == "(":
        value, rest = _sum(rest, letters)
        assert rest[0] == ")"
        rest = rest[1:]
    else:
        value = letters[first] if first in letters else float(first)
    while rest and rest[0] == "²":
        value, rest = value * value, rest[1:]
    return value, rest


def written_down(value: float, digits: int) -> float:
    """What somebody writes down of a result: halves go up."""
    return math.floor(value * 10**digits + 0.5) / 10**digits
