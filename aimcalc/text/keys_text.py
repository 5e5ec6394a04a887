"""The words of a scene as a list for a terminal, as Markdown, and as a JSON Schema for editors."""

from __future__ import annotations

import json
from collections.abc import Sequence
from contextlib import suppress
from typing import Any

import tomli

from aimcalc.scene import forms
from aimcalc.scene.forms import Form, Schema, plain
from aimcalc.scene.keys import INSIDE, NEEDED, SINGLE, TABLES, UNIT, Key, Table
from aimcalc.text.columns import folded, table

HEADS = ("key", "meaning", "written as", "default", "example")
NARROW = ("key", "meaning", "written as; default; example")


def keys_text(names: Sequence[str], width: int | None = None) -> str:
    """The keys of some tables, a table each; `width` is the terminal's, see `aimcalc.text.columns`."""
    return "\n\n".join(_table(TABLES[name], width) for name in names)


def _table(told: Table, width: int | None) -> str:
    rows = [row(name, key) for name, key in told.keys.items()]
    lines = table(HEADS, rows)
    if width is not None and max(map(len, lines)) > width:
        short = [(name, key.means, _how(name, key)) for name, key in told.keys.items()]
        lines = table(NARROW, short, width, NARROW[2:])
    return "\n".join([folded(f"{told.head}: {told.means}", width), *lines])


def _how(name: str, key: Key) -> str:
    """How a key is written, what is taken where it is left out, and an example, in one line."""
    default = key.told_default
    taken = default if default.startswith(NEEDED) else f"default: {default}"
    return f"{key.form.words}; {taken}; {name} = {key.example}"


def row(name: str, key: Key) -> tuple[str, ...]:
    """One key in the order of `HEADS`."""
    return (name, key.means, key.form.words, key.told_default, key.example)


def keys_markdown(names: Sequence[str]) -> str:
    """The same as tables of Markdown."""
    return "\n\n".join(_markdown(TABLES[name]) for name in names)


def _markdown(told: Table) -> str:
    lines = [f"## `{told.head}`", "", f"{told.means[0].upper()}{told.means[1:]}.", ""]
    lines += [_cells(HEADS), _cells(["---"] * len(HEADS))]
    for name, key in told.keys.items():
        _, *words, example = row(name, key)
        lines.append(_cells([f"`{name}`", *words, f"`{name} = {example}`"]))
    return "\n".join(lines)


def _cells(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in cells)} |"


def keys_in_short() -> str:
    """Every table with its keys in one row of Markdown, those that are needed first, in bold."""
    lines = [_cells(("table", "is", "keys (those in bold are needed)")), _cells(["---"] * 3)]
    for told in TABLES.values():
        needed = [f"**`{name}`**" for name, key in told.keys.items() if key.default == NEEDED]
        others = [f"`{name}`" for name, key in told.keys.items() if key.default != NEEDED]
        if told is TABLES["hang_columns"]:  # too many to repeat
            others = ["the keys of `[[unit]]`", *(k for k in others if k[1:-1] not in UNIT)]
        lines.append(_cells((f"`{told.head}`", told.means, ", ".join([*needed, *others]))))
    return "\n".join(lines)


def keys_schema() -> str:
    """A JSON Schema (draft 7) of a scene: an editor that knows it completes keys and marks mistakes."""
    tables = {name: _object(told) for name, told in TABLES.items()}
    for name, told in TABLES.items():
        for inner in INSIDE:
            if inner in told.keys:
                listed = {"type": "array", "items": tables[inner]}
                tables[name]["properties"][inner] |= listed
    whole = {
        "$schema": "http://json-schema.org/draft-07/schema#",
        "title": "A scene of aimcalc",
        "type": "object",
        "properties": {
            name: made if name in SINGLE else {"type": "array", "items": made}
            for name, made in tables.items()
            if name not in INSIDE
        },
        "required": ["scene"],
        "additionalProperties": False,
        "definitions": {form.name: form.schema for form in _named_forms()},
    }
    return json.dumps(whole, indent=1, ensure_ascii=False) + "\n"


def _named_forms() -> list[Form]:
    return [form for form in vars(forms).values() if isinstance(form, Form) and form.name]


def _object(told: Table) -> dict[str, Any]:
    """The schema of one entry of a table."""
    made: dict[str, Any] = {
        "type": "object",
        "description": told.means,
        "properties": {name: _property(name, key) for name, key in told.keys.items()},
        "additionalProperties": False,
    }
    choices = [
        {"required": list(sets[0])}
        if len(sets) == 1
        else {"anyOf": [{"required": list(keys)} for keys in sets]}
        for sets in told.needs
    ]
    return made | ({"allOf": choices} if choices else {})


def _property(name: str, key: Key) -> Schema:
    """The schema of one key, with its words for whoever points at it in an editor."""
    told = f"{key.means}: {_how(name, key)}"
    made: Schema = {
        "description": told,
        "examples": [tomli.loads(f"x = {key.example}")["x"]],
    }
    with suppress(tomli.TOMLDecodeError):  # words, not a value
        made["default"] = tomli.loads(f"x = {key.default}")["x"]
    schema = plain(key.form)
    return made | ({"allOf": [schema]} if "$ref" in schema else schema)
