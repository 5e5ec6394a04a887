"""The generic kinds that ship with the package, named by family and field angle."""

from __future__ import annotations

import os
from typing import Any

from msgspec.structs import replace

from aimcalc.scene.entries import open_entry
from aimcalc.scene.mistakes import Log, SceneError, Where
from aimcalc.scene.model import Kind
from aimcalc.scene.tables import kind_readers
from aimcalc.scene.things import build_kind

CATALOGUE = os.path.join(os.path.dirname(__file__), "generic_kinds.toml")


def generic_tables() -> dict[str, dict[str, Any]]:
    """The table of every generic kind by its name, as it stands in the catalogue."""
    import tomllib

    with open(CATALOGUE, "rb") as file:
        return {table["name"]: table for table in tomllib.load(file)["kind"]}


def generic_kinds(tables: dict[str, dict[str, Any]] | None = None) -> dict[str, Kind]:
    """Generic kinds by name, made of some tables of the catalogue or of all. Each is marked `typical`:
    round figures that no maker stands for.

    Raises:
        SceneError: when the catalogue itself is wrong.
    """
    log = Log()
    readers = kind_readers("m")
    found: dict[str, Kind] = {}
    for name, table in (generic_tables() if tables is None else tables).items():
        where = Where("generic_kinds.toml", "[[kind]]", name)
        kind = build_kind(open_entry(table, readers, where, log), "")
        if kind is not None:
            found[name] = replace(kind, typical=True)
    if log.mistakes:
        raise SceneError(CATALOGUE, log.mistakes)
    return found
