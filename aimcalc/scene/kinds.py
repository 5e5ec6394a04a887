"""The generic kinds that ship with the package, named by family and field angle."""

from __future__ import annotations

import os

from aimcalc.scene.entries import open_entry
from aimcalc.scene.mistakes import Log, SceneError, Where
from aimcalc.scene.model import Kind
from aimcalc.scene.tables import kind_readers
from aimcalc.scene.things import build_kind

CATALOGUE = os.path.join(os.path.dirname(__file__), "generic_kinds.toml")


def generic_kinds() -> dict[str, Kind]:
    """Every generic kind by name: round, plausible figures, each marked `typical`."""
    import tomllib

    with open(CATALOGUE, "rb") as file:
        tables = tomllib.load(file)["kind"]
    log = Log()
    readers = kind_readers("m")
    kinds: dict[str, Kind] = {}
    for table in tables:
        where = Where("generic_kinds.toml", "[[kind]]", table["name"])
        kind = build_kind(open_entry(table, readers, where, log), "")
        if kind is not None:
            kinds[kind.name] = _typical(kind)
    if log.mistakes:
        raise SceneError(CATALOGUE, log.mistakes)
    return kinds


def _typical(kind: Kind) -> Kind:
    from msgspec.structs import replace

    return replace(kind, typical=True)
