"""DEVELOPERS.md leads to files and functions that are there."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.source import tree

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
FORMULAS = PAGE.split("| what | function | file |")[1].split("\n\n")[0].splitlines()[2:]


def steps(row: str) -> list[tuple[str, str]]:
    """Functions of a row and their files: "`a`, `b`" in one file, "`a`; `b`" each in its own."""
    _, _, functions, files, _ = row.split("|")
    paths = [re.findall(r"`([^`]+\.py)`", part) for part in files.split(";")]
    parts = functions.split(";")
    assert len(parts) == 1 or len(parts) == len(paths), row
    return [
        (name, path[0])
        for part, path in zip(parts, paths, strict=False)
        for name in re.findall(r"`(\w+)`", part)
    ]


def functions_in(path: str) -> set[str]:
    """Functions that a module of the package defines, or, of a folder's front, offers."""
    whole = "aimcalc." + path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    body = tree(whole).body
    names = {node.name for node in body if isinstance(node, ast.FunctionDef)}
    if path.endswith("__init__.py"):
        imports = (node for node in body if isinstance(node, ast.ImportFrom))
        names |= {alias.asname or alias.name for node in imports for alias in node.names}
    return names


def test_the_page_leads_to_a_dozen_formulas_and_more():
    assert len(FORMULAS) >= 12
    assert all(steps(row) for row in FORMULAS)


@pytest.mark.parametrize("row", FORMULAS)
def test_where_the_formula_is_said_to_be_it_is(row):
    for name, path in steps(row):
        assert name in functions_in(path)


def test_every_file_that_is_named_is_there():
    named = set(re.findall(r"`([\w./]+\.(?:py|toml|csv|md))`", PAGE))
    assert len(named) > 40
    homes = ROOT, ROOT / "aimcalc", *(p for p in (ROOT / "aimcalc").iterdir() if p.is_dir())
    lost = {name for name in named if not any((home / name).exists() for home in homes)}
    assert lost == set()
