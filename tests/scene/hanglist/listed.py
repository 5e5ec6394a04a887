"""Small hang lists written beside a scene, for the tests of reading them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.scene.written import write_scene

# Beside the pipe, the boom and the stand of the base.
MORE = """
[[pipe]]
name = "LX 2"
trim = 6
y = 4
from = -5
to = 5

[[target]]
name = "Door"
x = 1
y = 4

[[target]]
name = "Table"
x = -1
y = 4

[[kind]]
name = "wide"
family = "fresnel"
field = 50
"""


# A hall of a few lines: what it begins with, and what is lit there by what.
HALL = """
[scene]
title = "Hall"
hang = "list.csv"
"""
ALTAR = """
[[target]]
name = "Altar"
x = 0
y = 6

[[kind]]
name = "Spot"
family = "ers"
field = 26
"""
BAR = """
[[pipe]]
name = "Bar 1"
trim = 5
y = 2
from = -6
to = 6
"""
BAR_AND_RAIL = f"""{BAR}

[[pipe]]
name = "North Rail"
start = [-7, -6, 4]
end = [-7, 8, 4]
"""


def scene_of(tmp_path: Path, text: str, name: str = "hang.csv", encoding: str = "utf-8") -> Scene:
    """The scene whose hang list holds a text."""
    path = write_scene(tmp_path, MORE, settings=f'hang = "{name}"')
    (tmp_path / name).write_text(text, encoding=encoding)
    return load_scene(path)


def units_of(
    tmp_path: Path, text: str, name: str = "hang.csv", encoding: str = "utf-8"
) -> list[tuple[str, ...]]:
    """Position, number, kind, target of each unit of a list."""
    scene = scene_of(tmp_path, text, name, encoding)
    return [(u.position, str(u.number), str(u.kind), str(u.target)) for u in scene.units]


def places_of(tmp_path: Path, text: str, name: str = "hang.csv") -> list[float | None]:
    """The place of each unit of a list."""
    return [unit.at for unit in scene_of(tmp_path, text, name).units]


def told_of(tmp_path: Path, text: str, name: str = "hang.csv") -> str:
    """What was taken for granted in reading a list."""
    return "\n".join(taken.says for taken in scene_of(tmp_path, text, name).taken)


def asked_of(tmp_path: Path, text: str, name: str = "hang.csv") -> str:
    """The mistakes of a list."""
    try:
        scene_of(tmp_path, text, name)
    except SceneError as error:
        return str(error)
    return ""


def scene_in(root: Path, house: str, lines: Sequence[str]) -> Scene:
    """The scene of a house that names list.csv, with these lines in it."""
    (root / "scene.toml").write_text(house, "utf-8")
    (root / "list.csv").write_text("\n".join(lines) + "\n", "utf-8")
    return load_scene(str(root))


def asked_in(root: Path, house: str, lines: Sequence[str]) -> str:
    """What is asked about such a list."""
    with pytest.raises(SceneError) as refused:
        scene_in(root, house, lines)
    return refused.value.report()
