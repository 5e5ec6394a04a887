"""The package's layers: an import never points upward."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import aimcalc

PACKAGE = Path(aimcalc.__file__).parent

MAY_IMPORT = {
    "scene": {"scene"},
    "geometry": {"geometry"},
    "light": {"light", "geometry"},
    "rig": {"rig", "light", "geometry", "scene"},
    "sheets": {"sheets", "rig", "light", "geometry", "scene"},
}


def imported(path: Path) -> set[str]:
    """Names of our own layers that a file imports, anywhere in it."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: say the whole name of what is imported"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        found |= {n.split(".")[1] for n in names if n.startswith("aimcalc.")}
    return found


@pytest.mark.parametrize("layer", MAY_IMPORT)
def test_no_import_points_upward(layer):
    files = sorted((PACKAGE / layer).rglob("*.py"))
    assert len(files) > 1
    upward = {
        f"{path.relative_to(PACKAGE)} imports {name}"
        for path in files
        for name in imported(path) - MAY_IMPORT[layer] - {"__version__"}
    }
    assert upward == set()


def test_every_folder_of_the_package_is_a_known_layer():
    folders = {p.name for p in PACKAGE.iterdir() if p.is_dir() and p.name != "__pycache__"}
    assert folders == set(MAY_IMPORT)
