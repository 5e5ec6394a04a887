"""Reading ANSI/IES LM-63 files: the editions of 1986, 1991, 1995, 2002 and 2019.

Labels come first (1986: any lines; later: lines that begin with a keyword in brackets), then TILT=, then
numbers only: ten, three, the vertical angles, the horizontal ones, and the candela of every vertical angle
for each horizontal one. Lists may wrap between any two numbers.
"""

from __future__ import annotations

import os
import re

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.photometry import planes
from aimcalc.light.photometry.record import Photometry, Tilt
from aimcalc.light.photometry.textfile import (
    MOST_VALUES,
    Numbers,
    PhotometryError,
    no_negatives,
    read_lines,
    rising,
    scaled,
)
from aimcalc.named import NamedTuple

FOOT = 0.3048  # m, exact: international yard and pound agreement, 1959
LAYOUTS = {1: "C", 2: "B", 3: "A"}
MOST_ANGLES = 7200
SLACK = 1e-6  # degrees

_TILT_LINE = re.compile(r"\s*TILT\s*=\s*(.*?)\s*$", re.IGNORECASE)
_EDITION = re.compile(r"\s*IES(?:NA)?\s*:?\s*(?:LM-?63-?)?\s*((?:19|20)?\d\d)?", re.IGNORECASE)


class _Head(NamedTuple):
    """The thirteen numbers between TILT and the angles."""

    lamps: float
    lumens: float  # per lamp
    multiplier: float
    verticals: int
    horizontals: int
    layout: str
    opening: tuple[float, float, float]  # metres
    ballast: float
    future: float
    watts: float


def read_lm63(path: str, lines: list[str]) -> Photometry:
    """What an LM-63 file says; raises PhotometryError with the line of the mistake."""
    at, word = _tilt_line(path, lines)
    edition = _edition(lines)
    notes: list[str] = []
    numbers = Numbers(path, lines, at + 1)
    tilt = _tilt(path, at, word, numbers)
    head = _head(numbers)
    table = _table(numbers, head, notes)
    factor = head.multiplier * head.ballast
    if edition <= 1991:
        factor *= head.future  # ballast-lamp photometric factor of the first two editions
    c, gamma, candela = _common(path, head.layout, table, notes)
    return Photometry(
        path=path,
        standard=f"LM-63-{edition}",
        layout=head.layout,
        c_deg=c,
        gamma_deg=gamma,
        candela=scaled(path, candela, factor),
        lamp_lumens=None if head.lumens < 0 else head.lamps * head.lumens,
        watts=head.watts,
        tilt=tilt,
        opening=head.opening,
        labels=tuple(line.strip() for line in lines[:at] if line.strip()),
        notes=tuple(notes),
    )


def _tilt_line(path: str, lines: list[str]) -> tuple[int, str]:
    for k, line in enumerate(lines):
        found = _TILT_LINE.match(line)
        if found:
            return k, found.group(1)
    says = "expected a line that begins TILT= (TILT=NONE, TILT=INCLUDE or a file), found none"
    raise PhotometryError(path, len(lines), says)


def _edition(lines: list[str]) -> int:
    """Year of the edition by the first line; 1986 had no such line."""
    first = next((line for line in lines if line.strip()), "")
    found = _EDITION.match(first)
    if not found:
        return 1986
    year = int(found.group(1) or 2002)
    return year + 1900 if year < 100 else year


def _tilt(path: str, at: int, word: str, numbers: Numbers) -> Tilt | None:
    if not word or word.upper() == "NONE":
        return None
    if word.upper() == "INCLUDE":
        return _tilt_table(numbers)
    name = word.strip("\"'")
    if os.path.basename(name) != name or "\\" in name or ":" in name:
        says = f"expected TILT= a file in the same folder, without a path, found {name[:60]!r}"
        raise PhotometryError(path, at + 1, says)
    beside = os.path.join(os.path.dirname(path), name)
    if not os.path.isfile(beside):
        says = f"expected the tilt file {name[:60]!r} beside this one, found none of that name"
        raise PhotometryError(path, at + 1, says)
    return _tilt_table(Numbers(beside, read_lines(beside), 0))


def _tilt_table(numbers: Numbers) -> Tilt:
    geometry = numbers.whole("lamp-to-luminaire geometry", least=1, most=3)
    count = numbers.whole("number of tilt angles", least=1, most=MOST_ANGLES)
    angles, where = numbers.take(count, "tilt angles")
    rising(numbers.path, angles, where, "tilt angles")
    return Tilt(geometry, angles, numbers.take(count, "tilt factors")[0])


def _head(numbers: Numbers) -> _Head:
    lamps, lumens, multiplier = numbers.take(3, "lamps, lumens per lamp, multiplier")[0].tolist()
    _over_zero(numbers, multiplier, "candela multiplier")
    verticals = numbers.whole("number of vertical angles", least=2, most=MOST_ANGLES)
    horizontals = numbers.whole("number of horizontal angles", least=1, most=MOST_ANGLES)
    if verticals * horizontals > MOST_VALUES:
        says = f"expected at most {MOST_VALUES} candela values, found {verticals} x {horizontals}"
        raise PhotometryError(numbers.path, numbers.line, says)
    layout = LAYOUTS[numbers.whole("photometric type, 1 = C, 2 = B, 3 = A", least=1, most=3)]
    unit = numbers.whole("unit of length, 1 = feet, 2 = metres", least=1, most=2)
    sides = np.abs(numbers.take(3, "width, length and height of the opening")[0])
    sides *= FOOT if unit == 1 else 1.0  # round openings are written as negative sides
    ballast, future, watts = numbers.take(3, "ballast factor, future use, watts")[0].tolist()
    _over_zero(numbers, ballast, "ballast factor")
    return _Head(
        lamps=lamps,
        lumens=lumens,
        multiplier=multiplier,
        verticals=verticals,
        horizontals=horizontals,
        layout=layout,
        opening=(float(sides[0]), float(sides[1]), float(sides[2])),
        ballast=ballast,
        future=future,
        watts=watts,
    )


def _over_zero(numbers: Numbers, value: float, what: str) -> None:
    if value <= 0:
        says = f"expected a {what} over 0, found {value:g}"
        raise PhotometryError(numbers.path, numbers.line, says)


class _Table(NamedTuple):
    """The angles and the candela (level, upright) as the file has them, and the lines of the angles."""

    upright: Array  # LM-63's vertical angles
    level: Array  # its horizontal ones
    candela: Array
    upright_line: int
    level_line: int


def _table(numbers: Numbers, head: _Head, notes: list[str]) -> _Table:
    upright, lines = numbers.take(head.verticals, "vertical angles")
    rising(numbers.path, upright, lines, "vertical angles")
    level, level_lines = numbers.take(head.horizontals, "horizontal angles")
    rising(numbers.path, level, level_lines, "horizontal angles")
    values, where = numbers.take(head.verticals * head.horizontals, "candela")
    numbers.finish("the last candela value")
    values = no_negatives(numbers.path, values, where, notes)
    if not values.any():
        raise PhotometryError(numbers.path, where[0], "expected light, found all candela 0")
    candela = values.reshape(head.horizontals, head.verticals)
    return _Table(upright, level, candela, lines[0], level_lines[0])


def _common(path: str, layout: str, table: _Table, notes: list[str]) -> planes.Table:
    """The table in the one form that this project uses."""
    low, high = (0.0, 180.0) if layout == "C" else (-90.0, 90.0)
    _within(path, "vertical", layout, table.upright, (low, high), table.upright_line)
    if layout == "C":
        c, candela = _turned(path, table)
        return planes.from_axis(c, table.upright, candela, notes)
    if table.level.size < 2:
        says = f"expected two horizontal angles or more for Type {layout}, found one"
        raise PhotometryError(path, table.level_line, says)
    limit = 180.0 if layout == "A" else 90.0
    _within(path, "horizontal", layout, table.level, (-limit, limit), table.level_line)
    _about_axis(path, "horizontal", table.level, table.level_line, notes)
    _about_axis(path, "vertical", table.upright, table.upright_line, notes)
    turn = planes.from_type_a if layout == "A" else planes.from_type_b
    return turn(table.level, table.upright, table.candela)


def _turned(path: str, table: _Table) -> tuple[Array, Array]:
    """Half-planes all the way round, by the last horizontal angle's rule; one where rotational."""
    level, candela = table.level, table.candela
    first, last = float(level[0]), float(level[-1])
    if level.size == 1:
        return np.zeros(1), candela
    if _same(first, 90.0) and _same(last, 270.0):
        return planes.full_turn(*planes.mirrored(level, candela, 90.0))
    whole = 180.0 + SLACK < last <= 360.0 + SLACK
    if not _same(first, 0.0) or not (whole or _same(last, 90.0) or _same(last, 180.0)):
        says = "expected horizontal angles from 0 to 90, to 180 or further round (or 90 to 270)"
        raise PhotometryError(path, table.level_line, f"{says}, found {first:g} to {last:g}")
    if _same(last, 90.0):
        level, candela = planes.mirrored(level, candela, 90.0)
    if not whole:
        level, candela = planes.mirrored(level, candela, 0.0)
    return planes.full_turn(level, candela)


def _same(angle: float, other: float) -> bool:
    return abs(angle - other) < SLACK


def _within(
    path: str, name: str, layout: str, angles: Array, limits: tuple[float, float], line: int
) -> None:
    if angles[0] < limits[0] - SLACK or angles[-1] > limits[1] + SLACK:
        says = f"expected {name} angles within {limits[0]:g} to {limits[1]:g} for Type {layout}"
        raise PhotometryError(path, line, f"{says}, found {angles[0]:g} to {angles[-1]:g}")


def _about_axis(path: str, name: str, angles: Array, line: int, notes: list[str]) -> None:
    """Refuse angles that leave out the lens axis; note those that give one side of it only."""
    if angles[0] > SLACK or angles[-1] < -SLACK:
        says = f"expected {name} angles that take in 0, the lens axis"
        raise PhotometryError(path, line, f"{says}, found {angles[0]:g} to {angles[-1]:g}")
    if _same(float(angles[0]), 0.0) and angles.size > 1:
        notes.append(f"{name} angles on one side only: taken alike on the other")
