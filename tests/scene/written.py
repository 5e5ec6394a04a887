"""Small scenes written to a folder, for the tests of reading."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import Mistake, SceneError

# One pipe across, one up and down the stage, a boom, a stand, a target and a kind. In metres.
BASE = """
[scene]
title = "Read me"
{settings}

[[pipe]]
name = "LX 1"
trim = 6
y = 2
from = -5
to = 5

[[pipe]]
name = "side"
start = [4, 0, 5]
end = [4, 6, 5]

[[boom]]
name = "boom SR"
x = "6 m SR"
y = 1
height = 4

[[stand]]
name = "floor"
x = 1
y = 3

[[target]]
name = "A"
x = 0
y = 3

[[kind]]
name = "spot"
family = "ers"
field = 26
"""

UNIT = """
[[unit]]
position = "LX 1"
number = 1
at = 0
kind = "spot"
target = "A"
"""

# Two targets that sides may be mistaken for.
WAYS = """
[[target]]
name = "Left"
x = 2
y = 3

[[target]]
name = "Right"
x = -2
y = 3
"""


def write_scene(folder: Path, *parts: str, settings: str = "", base: str = BASE) -> str:
    """The path of a scene folder with `parts` appended to the base scene."""
    text = base.replace("{settings}", settings) + "".join(parts)
    folder.mkdir(exist_ok=True)
    (folder / "scene.toml").write_text(text, encoding="utf-8")
    return os.fspath(folder)


def unit(**keys: object) -> str:
    """A `[[unit]]` that is right but for `keys`; None leaves a key out. Values are TOML text."""
    given = {
        "position": '"LX 1"',
        "number": "1",
        "at": "0",
        "kind": '"spot"',
        "target": '"A"',
        **keys,
    }
    lines = [f"{key} = {value}" for key, value in given.items() if value is not None]
    return "\n".join(["", "[[unit]]", *lines, ""])


def refused(path: str) -> list[Mistake]:
    """The mistakes for which the scene is refused, worst first."""
    with pytest.raises(SceneError) as caught:
        load_scene(path)
    assert caught.value.mistakes
    assert "Traceback" not in caught.value.report()
    return list(caught.value.mistakes)


def only(path: str) -> Mistake:
    """The one mistake for which the scene is refused."""
    mistakes = refused(path)
    assert len(mistakes) == 1, [mistake.text() for mistake in mistakes]
    return mistakes[0]
