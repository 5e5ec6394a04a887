"""What messages and sheets tell a user to type exists: keys, tables, options, commands."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache

import click
import pytest

from aimcalc import cli
from aimcalc.scene import tables
from tests.source import MODULES, nodes

READERS = {
    "scene": tables.scene_readers,
    "stage": tables.stage_readers,
    "errors": tables.errors_readers,
    "pipe": tables.pipe_readers,
    "boom": tables.boom_readers,
    "stand": tables.stand_readers,
    "target": tables.target_readers,
    "kind": tables.kind_readers,
    "unit": tables.unit_readers,
    "hang_columns": tables.hang_columns_readers,
    "solid": tables.solid_readers,
    "seats": tables.seats_readers,
    "stock": tables.stock_readers,
    "cable": tables.cable_readers,
}
KEYS = {key for readers in READERS.values() for key in readers("m")}
KEYS |= set(tables.circuit_readers("m", "x", True)) | set(READERS)
KEYS |= set(tables.chord_readers("m", "y"))
# Files beside a scene: what a corrections file and a file of landings hold.
BESIDE = {"correction": set(tables.correction_readers("m")), "landing": {"unit"}, "measured": set()}
KEYS |= set().union(*BESIDE.values())
COMMANDS = {name: cli.command_of(name) for name in cli.MODULE_OF}
OPTIONS = {
    name
    for command in (cli.commands, *COMMANDS.values())
    for parameter in command.params
    if isinstance(parameter, click.Option)
    for name in parameter.opts
} | {"--help"}

WHAT = {  # what a sentence may name, how it is recognised, and all there are of it
    "key": (r"(?<![\w{(.])([a-z]+(?:_[a-z]+)+)(?![\w(}]|\.\w)", KEYS),
    "key with a value": (r"(?<![\w.])([a-z_]+) = (?=[\"\d]|true|$)", KEYS),
    "table": (r"(?<!\[)\[\[?([a-z]+)\]\]?(?!\])", set(READERS) | set(BESIDE)),
    "option": (r"(?<![\w-])(--[a-z]+(?:-[a-z]+)*)", OPTIONS),
    "command": (r"\baimcalc ([a-z]+)", set(COMMANDS)),
}
# Not what a scene or a call is to hold: "aimcalc itself has failed", an option of `hang_plan` that only a
# program gives, and a key of the file that `lens` writes.
OTHERS = {"itself", "tie_spacing", "cost"}


def _sentences(module: str) -> Iterator[str]:
    """Every text of two words or more that is no docstring, what is filled in left out."""
    of = nodes(module)
    docs = {id(n.value) for n in of if isinstance(n, ast.Expr)}
    inside = {id(v) for n in of if isinstance(n, ast.JoinedStr) for v in n.values}
    for node in of:
        text = ""
        if isinstance(node, ast.JoinedStr):
            text = "".join(str(v.value) for v in node.values if isinstance(v, ast.Constant))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = "" if id(node) in docs or id(node) in inside else node.value
        if " " in text.strip():
            yield text


@cache
def texts() -> list[tuple[str, str]]:
    """Every sentence of the package, with the module that says it."""
    return [(module, text) for module in MODULES for text in _sentences(module)]


@pytest.mark.parametrize("what", WHAT)
def test_what_a_sentence_names_exists(what: str) -> None:
    pattern, known = WHAT[what]
    named = [(place, name) for place, text in texts() for name in re.findall(pattern, text)]
    assert len(named) >= 3, "the pattern finds nothing any more"
    strange = {(place, name) for place, name in named if name not in known | OTHERS}
    assert not strange


def test_an_invented_name_would_be_seen() -> None:
    invented = {
        "key": "Give the kind a yoke_reach.",
        "key with a value": "put continuous_part = 0.8 into [scene]",
        "table": "Add it to [[trusses]].",
        "option": "Run it with --no-continuous.",
        "command": "aimcalc patch proposes one.",
    }
    for what, text in invented.items():
        pattern, known = WHAT[what]
        (name,) = re.findall(pattern, text)
        assert name not in known
