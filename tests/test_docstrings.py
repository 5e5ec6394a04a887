"""Who takes or gives an array in public says in the docstring what shape or unit it has."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.source import MODULES, tree

ARRAY = re.compile(r"\b(Array|ArrayLike|ndarray|NDArray|Flags|Indices|Ints|Bools)\b")
# (3, N), (..., M), (ny, nx), (2 corners, 3, N), (owners,) but not (see above) or (our choice, for now)
SHAPE = r"\((?=[^()]*(\b[A-Zn]\w?\b|\d|\.\.\.))[^()]*,[^()]*\)|\(\w+,\)|\bshape\b|\bbroadcast"
UNIT = (
    r"\b(m|mm|m2|kg|N|lx|lux|cd|candela|lumens|amperes|watts|volts|degrees?|radians?|metres?|millimetres?"
    r"|in the unit of|0 to 1)\b"
)
SAYS = re.compile(f"{SHAPE}|{UNIT}")
Function = ast.FunctionDef


def public(module: ast.Module) -> Iterator[Function]:
    """Public functions of a module and methods of its public classes, without declared overloads."""
    classes = [n for n in module.body if isinstance(n, ast.ClassDef) and n.name[0] != "_"]
    for node in (*module.body, *(n for each in classes for n in each.body)):
        if isinstance(node, Function) and node.name[0] != "_":
            overloads = [ast.unparse(mark) for mark in node.decorator_list]
            if "overload" not in overloads:
                yield node


def has_arrays(function: Function) -> bool:
    """Whether an argument or the result is annotated as an array."""
    arguments = (*function.args.args, *function.args.kwonlyargs)
    notes = [*(a.annotation for a in arguments), function.returns]
    return any(ARRAY.search(ast.unparse(note)) for note in notes if note is not None)


def silent(module: ast.Module) -> list[str]:
    """The functions with arrays whose docstring tells nothing of them."""
    return [
        f.name
        for f in public(module)
        if has_arrays(f) and not SAYS.search(ast.get_docstring(f) or "")
    ]


def test_every_public_function_with_arrays_says_a_shape_or_a_unit():
    """But for sheets, which are drawn from a show."""
    found = {name: silent(tree(name)) for name in MODULES if ".sheets" not in name}
    assert {name: functions for name, functions in found.items() if functions} == {}
    assert sum(has_arrays(f) for name in MODULES for f in public(tree(name))) > 250


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("Points (3, N).", True),
        ("Lines (2 ends, K).", True),
        ("The arguments broadcast.", True),
        ("How far, in metres.", True),
        ("Some of them.", False),
        ("The same (our choice, for now).", False),
        ("Rows that come near, as nobody asked.", False),
    ],
)
def test_a_docstring_that_tells_nothing_would_be_seen(says, told):
    code = f'class Lot:\n    def of(self, which: "Indices") -> Lot:\n        """{says}"""\n'
    assert silent(ast.parse(code)) == ([] if told else ["of"])
