"""The package's layers: no import points upward and none closes a circle, types and inner imports too."""

from __future__ import annotations

import ast
import re
from functools import cache

import pytest

from tests.source import MODULES, nodes, text

# What each folder, and `show.py`, may import besides itself; all that those may import is allowed with it.
ON_TOP_OF = {
    "scene": (),
    "geometry": (),
    "light": ("geometry",),
    "rig": ("scene", "geometry", "light"),
    "solid": ("rig",),
    "hang": ("rig",),
    "coverage": ("solid",),
    "landings": ("rig",),
    "findings": ("coverage", "hang", "landings"),
    "show": ("findings",),
    "text": ("show",),
    "paper": ("text",),
    "sheets": ("paper",),
    "desk": ("sheets",),
    "teach": ("sheets",),
}


ABOVE_ALL = ("cli", "door", "__main__")  # may import everything
BELOW_ALL = ("named",)  # may import nothing of ours, and everything may import it


def allowed(layer: str) -> set[str]:
    """A layer, those it stands on, and all below them."""
    return {layer}.union(*(allowed(below) for below in ON_TOP_OF[layer]))


def imported(module: str) -> set[str]:
    """Modules of ours that a module imports, anywhere in it."""
    found = set()
    for node in nodes(module):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: say the whole name of what is imported"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        found |= {n if n in MODULES else n.rsplit(".", 1)[0] for n in names}
    return (found & set(MODULES)) - {"aimcalc", *(f"aimcalc.{name}" for name in BELOW_ALL)}


@cache
def edges() -> dict[str, set[str]]:
    """What every module imports of ours."""
    return {name: imported(name) - {name} for name in MODULES}


def circles(of: dict[str, set[str]]) -> list[set[str]]:
    """Groups of modules that reach each other: those that reach and are reached by the same one."""
    reach = {name: set(to) for name, to in of.items()}
    grown = True
    while grown:
        grown = False
        for to in reach.values():
            more = set().union(*(reach[other] for other in to)) - to
            grown |= bool(more)
            to |= more
    in_one = {name: {o for o in to if name in reach[o]} for name, to in reach.items()}
    return [group for name, group in in_one.items() if name in group]


def folder(name: str) -> str:
    return name.split(".")[1]


@pytest.mark.parametrize("layer", ON_TOP_OF)
def test_no_import_points_upward(layer):
    mine = [name for name in MODULES if name != "aimcalc" and folder(name) == layer]
    assert mine
    may = allowed(layer)
    assert {(m, to) for m in mine for to in edges()[m] if folder(to) not in may} == set()


@pytest.mark.parametrize("name", BELOW_ALL)
def test_what_everything_may_import_imports_nothing_of_ours(name):
    assert edges()[f"aimcalc.{name}"] == set()


def test_no_imports_run_in_a_circle_between_modules():
    assert circles(edges()) == []


def test_no_imports_run_in_a_circle_between_folders():
    between: dict[str, set[str]] = {}
    for name, to in edges().items():
        if name != "aimcalc":
            between.setdefault(folder(name), set()).update(folder(other) for other in to)
    assert circles({name: to - {name} for name, to in between.items()}) == []


def test_a_circle_would_be_seen():
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"b"}}) == [{"b", "c"}, {"b", "c"}]


def test_every_folder_and_module_of_the_package_is_a_known_layer():
    found = {folder(name) for name in MODULES if name != "aimcalc"}
    assert found == {*ON_TOP_OF, *ABOVE_ALL, *BELOW_ALL}


CONVERTED = re.compile(
    r"\b(np|numpy|math)\.(radians|degrees)\b|\b(deg2rad|rad2deg)\b|import\b[^\n]*[ (](radians|degrees)\b"
    r"|pi\s*/\s*180|180(\.0)?\s*/\s*(np\.|math\.)?pi|57\.29|0\.01745"
)


def test_degrees_become_radians_and_radians_degrees_in_one_module():
    converting = {name for name in MODULES if CONVERTED.search(text(name))}
    assert converting == {"aimcalc.geometry.vectors"}


@pytest.mark.parametrize(
    "line",
    [
        "a = np.radians(3)",
        "from math import cos, radians",
        "x * np.pi / 180",
        "180.0 / pi",
        "np.deg2rad(x)",
    ],
)
def test_a_conversion_in_another_module_would_be_found(line):
    assert CONVERTED.search(line)
