"""Messy hang lists with the right reading typed beside each.

A case is a TOML file that names a list in this folder:

    what = "what is messy about it"
    scene = "feet"            # feet.toml or metres.toml: the house that the list is for
    list = "title-above.csv"
    settings = ''             # more lines of [scene], if any; `spacing` more of the pipe "bar 2" in metres,
    more = ''                 # `more` more of the scene's end
    at = "in"                 # what the places below are in: in or m, + to SL (US), on a boom up
    units = \"\"\"
    position | number | at | kind | target | any other key = its value | ...
    \"\"\"
    told = [["words", "of one note"], ...]     # every note that there is, by words that stand in it

or, for a list that must be asked about,

    asked = [["row 4", "column E (target)", "words"], ...]     # every mistake that there is

All keys of a unit that a case does not write have their default, so that nothing is read out of nowhere.
"""

from __future__ import annotations

import shutil
import tomllib
from pathlib import Path
from typing import Any

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene, Unit

HERE = Path(__file__).parent
HOUSES = ("feet", "metres")
METRES = {"in": 0.0254, "ft": 0.3048, "m": 1.0, "cm": 0.01}
WITHIN = 1e-9  # metres: a place is converted once, and read once
KEYS = ("position", "number", "at", "kind", "target")
OTHERS = tuple(f for f in Unit.__struct_fields__ if f not in (*KEYS, "source"))


def names() -> list[str]:
    """Every case of this folder."""
    return sorted(path.stem for path in HERE.glob("*.toml") if path.stem not in HOUSES)


def case(name: str, folder: Path = HERE) -> dict[str, Any]:
    """A case as it is typed."""
    return tomllib.loads((folder / f"{name}.toml").read_text(encoding="utf-8"))


def write(what: dict[str, Any], root: Path, folder: Path = HERE) -> str:
    """The scene of a case in a folder of its own."""
    house = (HERE / f"{what['scene']}.toml").read_text(encoding="utf-8")
    hang = f'hang = "{what["list"]}"\n{what.get("settings", "")}'
    house = house.replace("HANG", hang).replace("SPACING", what.get("spacing", ""))
    root.mkdir(parents=True, exist_ok=True)
    (root / "scene.toml").write_text(house + what.get("more", ""), encoding="utf-8")
    shutil.copy(folder / what["list"], root)
    return str(root)


def wrong(what: dict[str, Any], root: Path, folder: Path = HERE) -> list[str]:
    """What is wrong with how a case is read; nothing where it is read as typed."""
    path = write(what, root, folder)
    try:
        scene = load_scene(path)
    except SceneError as error:
        if "asked" not in what:
            return [f"refused: {error.report()}"]
        told = [mistake.text() for mistake in error.mistakes]
        return _unmatched(what["asked"], told, "mistake")
    if "asked" in what:
        return [f"SILENT: {len(scene.units)} units are read, and it should have been asked"]
    return _units_wrong(what, scene) + _unmatched(
        what["told"], [f"{taken.position or ''}: {taken.says}" for taken in scene.taken], "note"
    )


def _unmatched(wanted: list[list[str]], told: list[str], what: str) -> list[str]:
    """What is wanted and not told, and what is told and not wanted."""
    found = [f"no {what} with {words}" for words in wanted if not any(_has(t, words) for t in told)]
    strange = [t for t in told if not any(_has(t, words) for words in wanted)]
    return found + [f"a {what} that is not expected: {t}" for t in strange]


def _has(text: str, words: list[str]) -> bool:
    return all(word in text for word in words)


def _units_wrong(what: dict[str, Any], scene: Scene) -> list[str]:
    rows = [[c.strip() for c in line.split("|")] for line in what["units"].strip().splitlines()]
    found = []
    if len(rows) != len(scene.units):
        found.append(f"{len(scene.units)} units instead of {len(rows)}")
    for row, unit in zip(rows, scene.units, strict=False):
        found += _unit_wrong(row, unit, METRES[what["at"]])
    return found


def _unit_wrong(row: list[str], unit: Unit, metres: float) -> list[str]:
    name, found = f"{row[0]}/{row[1]}", []
    for key, cell in zip(KEYS, row, strict=False):
        have = getattr(unit, key)
        if key == "at":
            right = (have is None) == (cell == "") and (
                have is None or abs(have - float(cell) * metres) < WITHIN
            )
        else:
            right = have == cell
        if not right:
            found.append(f"{name}: {key} is {have!r}, not {cell!r}")
    typed = dict(part.split("=", 1) for part in row[len(KEYS) :])
    bare = Unit(position="", number="", kind="")
    for key in OTHERS:
        want = typed.get(key, str(getattr(bare, key)))
        if str(getattr(unit, key)) != want:
            found.append(f"{name}: {key} is {getattr(unit, key)!r}, not {want!r}")
    return found
