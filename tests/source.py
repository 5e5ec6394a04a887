"""The package's own source, each module read and parsed once for all tests of a process that look at it."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

import aimcalc

PACKAGE = Path(aimcalc.__file__).parent


def _name(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts).removesuffix(".__init__")


# Every module by its whole name; a folder by its `__init__`.
MODULES = {_name(path): path for path in sorted(PACKAGE.rglob("*.py"))}


@cache
def text(name: str) -> str:
    """A module as it is written."""
    return MODULES[name].read_text(encoding="utf-8")


@cache
def tree(name: str) -> ast.Module:
    """A module's syntax tree, to be looked at only."""
    return ast.parse(text(name))


@cache
def nodes(name: str) -> tuple[ast.AST, ...]:
    """Every node of a module's tree."""
    return tuple(ast.walk(tree(name)))
