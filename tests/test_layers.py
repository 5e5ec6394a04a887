"""The package's layers: an import never points upward, and heavy libraries load only where used."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

import aimcalc

PACKAGE = Path(aimcalc.__file__).parent
ROOT = Path(__file__).parent.parent

MAY_IMPORT = {
    "scene": {"scene"},
    "geometry": {"geometry"},
    "light": {"light", "geometry"},
    "rig": {"rig", "light", "geometry", "scene"},
    "sheets": {"sheets", "rig", "light", "geometry", "scene"},
}
HEAVY = {"scipy", "matplotlib", "trimesh", "reportlab", "xlsxwriter", "embreex"}


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


def loaded_by(*words: str) -> set[str]:
    """Top-level modules in memory after a command has run in a process of its own."""
    code = (
        "import sys, json\n"
        "from aimcalc.cli import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "print('\\n' + json.dumps(sorted({m.split('.')[0] for m in sys.modules})))"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, *words], capture_output=True, text=True, check=True, cwd=ROOT
    )
    return set(json.loads(run.stdout.splitlines()[-1]))


@pytest.mark.parametrize("words", [("check",), ("solve",), ("solve", "--json"), ("solve", "--csv")])
def test_check_and_solve_load_no_heavy_library(words):
    loaded = loaded_by(words[0], str(ROOT / "scenes" / "playhouse"), *words[1:])
    assert "numpy" in loaded
    assert not loaded & HEAVY


def test_help_does_not_even_load_numpy():
    loaded = loaded_by("--help")
    assert "click" in loaded
    assert not loaded & (HEAVY | {"numpy", "msgspec"})
