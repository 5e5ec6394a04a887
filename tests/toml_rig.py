"""Rigs written as TOML, read back and solved as a user's would be; answers come as the JSON objects."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import msgspec

from aimcalc.rig.rig import Rig
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig

KIND = {"name": "k", "family": "ers", "field": 20, "drop_under": 0.4, "drop_over": 0.3}


def table(name: str, /, **keys: object) -> str:
    """One `[[name]]` entry; a trailing underscore (`from_`) is left out of a key."""
    lines = [f"{key.rstrip('_')} = {json.dumps(value)}" for key, value in keys.items()]
    return "\n".join((f"[[{name}]]", *lines, ""))


def level_pipe(**keys: object) -> str:
    """A level pipe `p` across the stage at y = 0, trim 6.4: pivots of kind `k` hang at 6."""
    return table("pipe", **{"name": "p", "trim": 6.4, "y": 0, "from_": -5, "to": 5, **keys})


def unit(**keys: object) -> str:
    """Unit 1 of kind `k` on `p` at its zero mark."""
    given = {"position": "p", "number": 1, "kind": "k", "at": 0, **keys}
    return table("unit", **{key: value for key, value in given.items() if value is not None})


def kind(**keys: object) -> str:
    """The kind `k`."""
    return table("kind", **{**KIND, **keys})


def written(folder: Path, *tables: str, scene: str = "", kinds: str = "") -> str:
    """The path of a scene file; `scene` holds more lines of `[scene]`."""
    path = folder / "rig.toml"
    head = f'[scene]\ntitle = "By hand"\n{scene}\n'
    path.write_text("\n".join((head, *tables, kinds or kind())), encoding="utf-8")
    return str(path)


def rig(folder: Path, *tables: str, scene: str = "", kinds: str = "") -> Rig:
    """A rig written to `folder`, read and solved."""
    return solve_rig(load_scene(written(folder, *tables, scene=scene, kinds=kinds)))


def told(folder: Path, *tables: str, scene: str = "", kinds: str = "") -> dict[str, dict[str, Any]]:
    """The JSON answers of a rig, by unit name, in hang order."""
    solved = rig(folder, *tables, scene=scene, kinds=kinds)
    text = msgspec.json.encode(solved.answers)
    return {answer["unit"]: answer for answer in json.loads(text, parse_constant=_refuse)}


def one(folder: Path, *tables: str, scene: str = "", kinds: str = "") -> dict[str, Any]:
    """The JSON answer of a rig of one unit."""
    (answer,) = told(folder, *tables, scene=scene, kinds=kinds).values()
    return answer


def _refuse(word: str) -> None:
    raise AssertionError(f"{word} is no JSON number")
