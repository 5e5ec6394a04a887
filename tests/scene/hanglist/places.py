"""The places of the units of a small hang list, for the tests of reading them."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Scene
from tests.scene.written import write_scene

HEADINGS = ["Bar", "Unit", "Distance", "Type", "Focus"]


def listed(folder: Path, rows: Sequence[Sequence[Any]], *settings: str) -> str:
    """The path of a scene with a hang list of these rows."""
    path = write_scene(folder, settings="\n".join(('hang = "hang.csv"', *settings)))
    with (folder / "hang.csv").open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(rows)
    return path


def units(position: str, *places: Any) -> list[list[Any]]:
    """Rows of units at these places under HEADINGS."""
    return [[position, n, place, "spot", "A"] for n, place in enumerate(places, 1)]


def read(folder: Path, rows: Sequence[Sequence[Any]], *settings: str) -> Scene:
    """The scene with a hang list of these rows."""
    return load_scene(listed(folder, rows, *settings))


def places(scene: Scene, position: str = "LX 1") -> list[float]:
    """Where the units of a position are, by their numbers, in metres."""
    found = [unit for unit in scene.units if unit.position == position]
    return [round(unit.at, 6) for unit in sorted(found, key=lambda unit: str(unit.number))]


def told(scene: Scene, *words: str) -> bool:
    """Whether one note says all these words."""
    return any(all(word in taken.says for word in words) for taken in scene.taken)
