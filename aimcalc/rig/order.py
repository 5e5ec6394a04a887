"""The order in which the ladder travels: positions as written, and along each from its START END."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.rig.places import across
from aimcalc.scene.model import Boom, Pipe, Position, Scene, Unit


def number_key(number: str) -> tuple[int, str]:
    """Sorts unit numbers as people count: 2 before 10, 7 before 7a, words last."""
    digits = re.match(r"\d+", number)
    return (int(digits.group()) if digits else 10**9, number)


def starts_at_plus(units: Sequence[Unit]) -> bool:
    """True where the row starts at the end that `at` counts towards (SL or US).

    Pipes are numbered from stage left to stage right (hstech.org, How to design lights, Dimensioning
    lighting units); a row numbered the other way starts at the other end. Decided by how the order of the
    numbers and the places run together over the whole row, so that one unit out of order, or one number of
    another series, does not turn the sheet round. Units without a number (a word) say nothing.
    """
    numbered = [unit for unit in units if unit.number[:1].isdecimal()]
    numbered.sort(key=lambda unit: number_key(unit.number))
    middle = (len(numbered) - 1) / 2
    together = sum((rank - middle) * (unit.at or 0.0) for rank, unit in enumerate(numbered))
    return together <= 1e-9


def start_end(position: Position, units: Sequence[Unit]) -> str:
    """The words for where the row begins: "SL END", "DS END", "TOP"; empty for a stand."""
    if isinstance(position, Boom):
        return "TOP"
    if not isinstance(position, Pipe):
        return ""
    plus, minus = ("SL", "SR") if across(position) else ("US", "DS")
    return f"{plus if starts_at_plus(units) else minus} END"


def hang_order(scene: Scene) -> tuple[Unit, ...]:
    """Every unit of the scene, in the order of the sheets."""
    rows: dict[str, list[Unit]] = {name: [] for name in scene.positions}
    for unit in scene.units:
        rows[unit.position].append(unit)
    ordered: list[Unit] = []
    for name, position in scene.positions.items():
        ordered += _row(position, rows[name])
    return tuple(ordered)


def _row(position: Position, units: list[Unit]) -> list[Unit]:
    if not isinstance(position, Pipe | Boom):
        return sorted(units, key=lambda unit: number_key(unit.number))
    from_plus = isinstance(position, Boom) or starts_at_plus(units)
    sign = -1.0 if from_plus else 1.0
    return sorted(units, key=lambda unit: (sign * (unit.at or 0.0), number_key(unit.number)))
