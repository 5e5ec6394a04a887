"""Reading EULUMDAT (.ldt) files: one value a line, intensities in candela per 1000 lm of lamp flux.

A. Stockmar, "EULUMDAT - ein Leuchtendatenformat fur den europaischen Beleuchtungsplaner", Licht '90,
pp. 641-644. Line numbers in the comments are those of that format.
"""

from __future__ import annotations

import numpy as np

from aimcalc.geometry.vectors import Array
from aimcalc.light.photometry import planes
from aimcalc.light.photometry.record import Photometry
from aimcalc.light.photometry.textfile import (
    MOST_VALUES,
    PhotometryError,
    no_negatives,
    number,
    rising,
    scaled,
)
from aimcalc.named import NamedTuple

MOST_PLANES, MOST_STEPS, MOST_SETS = 3600, 7200, 100
SLACK = 1e-6  # degrees


class _Values:
    """Lines taken one after the other, each one value."""

    def __init__(self, path: str, lines: list[str]) -> None:
        self.path = path
        self._lines = lines
        self._next = 0

    @property
    def line(self) -> int:
        return max(1, self._next)

    def text(self, what: str) -> str:
        if self._next >= len(self._lines):
            raise PhotometryError(self.path, self.line, f"expected {what}, the file ends")
        self._next += 1
        return self._lines[self._next - 1].strip()

    def number(self, what: str, blank: float | None = None) -> float:
        """One number; a comma is a decimal point; an empty line is `blank` where that is given."""
        word = self.text(what)
        if not word and blank is not None:
            return blank
        return number(self.path, self.line, word.replace(",", "."), what)

    def whole(self, what: str, *, least: int, most: int) -> int:
        value = self.number(what)
        if value != int(value) or not least <= value <= most:
            says = f"expected a whole number from {least} to {most} ({what}), found {value:g}"
            raise PhotometryError(self.path, self.line, says)
        return int(value)

    def many(self, count: int, what: str) -> tuple[Array, list[int]]:
        first = self.line + 1
        values = np.array([self.number(what) for _ in range(count)])
        return values, list(range(first, first + count))

    def finish(self) -> None:
        for k in range(self._next, len(self._lines)):
            if self._lines[k].strip():
                says = "expected the file to end after the last intensity, found more"
                raise PhotometryError(self.path, k + 1, f"{says}: {self._lines[k].strip()[:40]!r}")


class _Head(NamedTuple):
    """Lines 1 to 26."""

    symmetry: int
    half_planes: int
    steps: int
    labels: tuple[str, ...]
    opening: tuple[float, float, float]  # metres
    conversion: float
    lamps: tuple[float, float, float]  # number (negative: absolute photometry), lumens, watts


def read_eulumdat(path: str, lines: list[str]) -> Photometry:
    """What an EULUMDAT file says; raises PhotometryError with the line of the mistake."""
    values = _Values(path, lines)
    notes: list[str] = []
    head = _head(values, notes)
    c, gamma, table = _table(values, head, notes)
    count, lumens, watts = head.lamps
    return Photometry(
        path=path,
        standard="EULUMDAT",
        layout="C",
        c_deg=c,
        gamma_deg=gamma,
        candela=scaled(path, table, lumens / 1000.0 * head.conversion),  # candela per 1000 lm
        lamp_lumens=None if count < 0 else lumens,
        watts=watts,
        opening=head.opening,
        labels=head.labels,
        notes=tuple(notes),
    )


def _head(values: _Values, notes: list[str]) -> _Head:
    company = values.text("the company")  # 1
    values.number("type indicator", blank=0.0)  # 2
    symmetry = values.whole("symmetry indicator", least=0, most=4)  # 3
    half_planes = values.whole("number of C planes", least=1, most=MOST_PLANES)  # 4
    values.number("distance between C planes", blank=0.0)  # 5
    steps = values.whole("number of intensities in a plane", least=2, most=MOST_STEPS)  # 6
    if half_planes * steps > MOST_VALUES:
        says = f"expected at most {MOST_VALUES} intensities, found {half_planes} x {steps}"
        raise PhotometryError(values.path, values.line, says)
    values.number("distance between intensities", blank=0.0)  # 7
    labels = [company, *(values.text("a label") for _ in range(5))]  # 8 to 12
    sides = [values.number("a length in mm", blank=0.0) / 1000.0 for _ in range(9)]  # 13 to 21
    for what in ("downward flux fraction", "light output ratio"):  # 22, 23
        values.number(what, blank=0.0)
    conversion = values.number("conversion factor for intensities", blank=1.0)  # 24
    tilt = values.number("tilt while measured", blank=0.0)  # 25
    if tilt:
        notes.append(f"measured at a tilt of {tilt:g} degrees; the lens axis is as measured")
    return _Head(
        symmetry=symmetry,
        half_planes=half_planes,
        steps=steps,
        labels=tuple(label for label in labels if label),
        opening=(sides[4] or sides[3], sides[3], 0.0),  # a round opening has no width
        conversion=conversion,
        lamps=_lamps(values, notes),  # 26
    )


def _table(values: _Values, head: _Head, notes: list[str]) -> planes.Table:
    for _ in range(10):
        values.number("direct ratio", blank=0.0)  # 27
    c, where = values.many(head.half_planes, "C angles")  # 28
    rising(values.path, c, where, "C angles")
    gamma, where = values.many(head.steps, "gamma angles")  # 29
    rising(values.path, gamma, where, "gamma angles")
    _within(values.path, gamma, where)
    first, count = _stored(values, head.symmetry, head.half_planes)
    numbers, where = values.many(count * head.steps, "intensities")  # 30
    values.finish()
    candela = no_negatives(values.path, numbers, where, notes).reshape(count, head.steps)
    if not candela.any():
        raise PhotometryError(values.path, values.line, "expected light, found all intensities 0")
    stored = c[(first + np.arange(count)) % head.half_planes]
    c, candela = _unfolded(head.symmetry, stored, candela)
    return planes.from_axis(c, gamma, candela, notes)


def _lamps(values: _Values, notes: list[str]) -> tuple[float, float, float]:
    """Number (negative: absolute photometry), lumens and watts of the first set of lamps."""
    sets = values.whole("number of sets of lamps", least=1, most=MOST_SETS)
    first = (0.0, 0.0, 0.0)
    for k in range(sets):
        lamps = values.number("number of lamps", blank=1.0)
        values.text("the type of lamp")
        lumens = values.number("lumens of the set")
        if k == 0 and lumens <= 0:
            raise PhotometryError(
                values.path, values.line, f"expected lumens over 0, found {lumens:g}"
            )
        values.text("the colour of the light")
        values.text("the colour rendering group")
        watts = values.number("watts of the set", blank=0.0)
        first = (lamps, lumens, watts) if k == 0 else first
    if sets > 1:
        notes.append(f"{sets} sets of lamps: the first is taken, {first[1]:g} lm")
    return first


def _within(path: str, gamma: Array, where: list[int]) -> None:
    if gamma[0] < -SLACK or gamma[-1] > 180.0 + SLACK:
        says = f"expected gamma angles within 0 to 180, found {gamma[0]:g} to {gamma[-1]:g}"
        raise PhotometryError(path, where[-1], says)


def _stored(values: _Values, symmetry: int, half_planes: int) -> tuple[int, int]:
    """Index of the first C angle that has intensities, and how many have, by the symmetry indicator."""
    need = {2: 2, 3: 4, 4: 4}.get(symmetry, 1)
    if half_planes % need:
        says = f"expected a number of C planes that divides by {need} for symmetry {symmetry}"
        raise PhotometryError(values.path, 4, f"{says}, found {half_planes}")
    if symmetry == 1:
        return 0, 1
    if symmetry == 2:
        return 0, half_planes // 2 + 1
    if symmetry == 3:
        return 3 * half_planes // 4, half_planes // 2 + 1
    return 0, half_planes if symmetry == 0 else half_planes // 4 + 1


def _unfolded(symmetry: int, c: Array, table: Array) -> tuple[Array, Array]:
    if symmetry == 1 or c.size == 1:
        return np.zeros(1), table[:1]
    if symmetry in (3, 4):
        c, table = planes.mirrored(c, table, 90.0)
    if symmetry in (2, 4):
        c, table = planes.mirrored(c, table, 0.0)
    return planes.full_turn(c, table)
