"""A scene from its file: read, checked whole, and given as records or refused in one report."""

from __future__ import annotations

import functools
import os
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from msgspec.structs import replace

from aimcalc.named import NamedTuple
from aimcalc.scene import records, tables
from aimcalc.scene.document import (
    SCENE_FILE,
    Document,
    Entry,
    check_names,
    names_of,
    open_entry,
    parse,
)
from aimcalc.scene.files import named_file
from aimcalc.scene.mistakes import FILE, Log, SceneError, TooManyError, Where, Wrong
from aimcalc.scene.model import Boom, Errors, Kind, Pipe, Scene, Settings, Stand, Unit
from aimcalc.scene.readers import choice, name, try_reading
from aimcalc.scene.records import Place, build_boom, build_kind, build_pipe, build_stand, place_of
from aimcalc.scene.tables import kind_readers
from aimcalc.scene.units import KIND_OF, Names, UnitReader

if TYPE_CHECKING:
    from aimcalc.scene.what_if import Setting, WhatIf

CATALOGUE = os.path.join(os.path.dirname(__file__), "generic_kinds.toml")


@functools.cache
def generic_tables() -> dict[str, dict[str, Any]]:
    """The table of every generic kind by its name, as it stands in the catalogue."""
    import tomli

    with open(CATALOGUE, "rb") as file:
        return {table["name"]: table for table in tomli.load(file)["kind"]}


def generic_kinds(tables: dict[str, dict[str, Any]] | None = None) -> dict[str, Kind]:
    """Generic kinds by name, made of some tables of the catalogue or of all. Each is marked `typical`:
    round figures that no maker stands for.

    Raises:
        SceneError: when the catalogue itself is wrong.
    """
    log = Log()
    readers = kind_readers("m")
    found: dict[str, Kind] = {}
    for called, table in (generic_tables() if tables is None else tables).items():
        where = Where("generic_kinds.toml", "[[kind]]", called)
        kind = build_kind(open_entry(table, readers, where, log), "")
        if kind is not None:
            found[called] = replace(kind, typical=True)
    if log.mistakes:
        raise SceneError(CATALOGUE, log.mistakes)
    return found


Row = tuple[dict[str, Any], Where, str]
T = TypeVar("T")


class Reading(NamedTuple):
    """A scene, the document that it was made of, and where in it what was set went."""

    scene: Scene
    document: Document
    changes: WhatIf | None


def load_scene(path: str | os.PathLike[str], what_if: Sequence[str | Setting] = ()) -> Scene:
    """The scene in a TOML file, or in the folder that holds `scene.toml`.

    `what_if` changes values of it before they are read, each "NAME.KEY=VALUE" or a `Setting`
    (`aimcalc.scene.what_if`).

    Raises:
        SceneError: when anything is wrong with it; its `report()` tells all of it.
    """
    return read_scene(path, what_if).scene


def read_scene(path: str | os.PathLike[str], what_if: Sequence[str | Setting] = ()) -> Reading:
    """What `load_scene` gives, and what it was made of. Raises SceneError as that does."""
    path = os.fspath(path)
    log = Log()
    file = path
    try:
        file = scene_file(path)
        raw = parse(file)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, file)
        raise SceneError(path, log.mistakes) from None
    changes = None
    document = None
    try:
        if what_if:
            from aimcalc.scene.what_if import WhatIf

            changes = WhatIf(what_if, log)
        document = Document(raw, file, log)
        scene = _read(document, changes)
    except TooManyError:
        scene = None
    if scene is None or document is None:
        blamed = changes.blamed if changes else (lambda mistake: mistake)
        raise SceneError(path, [blamed(mistake) for mistake in log.mistakes], log.columns)
    return Reading(scene, document, changes)


def scene_file(path: str) -> str:
    """The TOML file that a path names, itself or by its folder. Raises Wrong where it names none."""
    if "\0" in path:
        raise Wrong("the name of a file or folder", rank=FILE)
    if not os.path.isdir(path):
        return path
    file = os.path.join(path, SCENE_FILE)
    if not os.path.lexists(file):
        expected = f"a TOML file, or a folder that holds {SCENE_FILE}"
        raise Wrong(expected, came=f"a folder without {SCENE_FILE}", rank=FILE)
    return file


def _read(document: Document, changes: WhatIf | None) -> Scene | None:
    """The scene, or None when anything was refused."""
    if changes:
        changes.set_tables(document)
    settings, hang, sheet = _settings(document)
    stage = records.build_stage(document.single("stage", tables.stage_readers))
    errors = Errors(**document.single("errors", tables.errors_readers).values)
    positions, places = _positions(document)
    target_entries = document.entries("target", tables.target_readers)
    target_names = names_of(target_entries)
    folder = document.folder
    own_kinds, kind_names = _named(
        document, "kind", tables.kind_readers, lambda entry: records.build_kind(entry, folder)
    )
    solids, _ = _named(
        document, "solid", tables.solid_readers, lambda entry: records.build_solid(entry, folder)
    )
    seats, _ = _named(document, "seats", tables.seats_readers, records.build_seats)
    stock = document.entries("stock", tables.stock_readers)
    cables = _built(document.entries("cable", tables.cable_readers), records.build_cable)
    own = tuple((kind.name, kind.family, kind.field) for kind in own_kinds)
    spots = [e.values for e in target_entries if {"name", "x"} <= e.values.keys()]
    around = {
        "unit": document.unit,
        "places": places,
        "targets": tuple(target_names),
        "aims": {spot["name"]: spot["x"] for spot in spots if spot["x"]},
        "spots": {spot["name"]: (spot["x"], spot["y"]) for spot in spots if "y" in spot},
        "kinds": (*own, *((name, "", None) for name in kind_names)),
        "generic": generic_tables,
        "columns": _hang_columns(document),
        "sheet": sheet,
        "title": settings.title if settings else "",
        "front": min((y for _, y in stage.outline), default=None) if stage else None,
    }
    known = len(document.log.mistakes)
    rows, listed = _unit_rows(document, hang, around)
    if changes:
        all_read = len(document.log.mistakes) == known
        changes.set_units(rows, generic_tables, all_read=all_read)
    wanted = [raw.get("kind") for raw, _, _ in rows] + [entry.raw.get("kind") for entry in stock]
    generic = _generic(kind_names, wanted)
    known_kinds = (*kind_names, *(kind for kind in generic if kind not in kind_names))
    for entry in stock:
        entry.check_name("kind", KIND_OF, known_kinds)
    units = _units(document, rows, Names(places, tuple(target_names), known_kinds))
    written = (try_reading(name, raw.get("system", "")) for raw, _, _ in rows)
    systems = dict.fromkeys(system for system in written if system)
    for entry in target_entries:
        entry.check_names("without", "system", systems)
    check_names(target_entries)
    targets = _built(target_entries, records.build_target)
    stocked = _built(stock, records.build_stock)
    if document.log.mistakes or settings is None or stage is None:
        return None
    scene = Scene(
        settings=settings,
        stage=stage,
        pipes=tuple(p for p in positions if isinstance(p, Pipe)),
        booms=tuple(p for p in positions if isinstance(p, Boom)),
        stands=tuple(p for p in positions if isinstance(p, Stand)),
        targets=targets,
        kinds=_used_kinds(own_kinds, generic, [u.kind for u in units] + [s.kind for s in stocked]),
        units=units,
        solids=solids,
        seats=seats,
        errors=errors,
        stock=stocked,
        cables=cables,
        **listed,
        folder=folder,
        file=document.file,
        what_if=changes.words if changes else (),
    )
    if settings.corrections is None:
        return scene
    from aimcalc.scene.corrected import corrected_by

    return corrected_by(scene, settings.corrections, document.log)


def _settings(document: Document) -> tuple[Settings | None, str | None, str | None]:
    """`[scene]`, the hang list it names and its sheet. Settles the unit of the document's bare numbers."""
    raw = document.raw.get("scene")
    written = raw.get("unit", "m") if isinstance(raw, dict) else "m"
    # A unit that is refused must not make every bare number look too long: take the smallest.
    document.unit = try_reading(choice(*tables.LENGTH_UNITS), written) or "mm"
    entry = document.single("scene", tables.scene_readers)
    entry.needs("title")
    records.check_file(entry, "typeface", document.folder, records.TYPEFACES)
    hang, sheet = entry.values.get("hang"), entry.values.get("hang_sheet")
    if not entry.sound:
        return None, hang, sheet
    return Settings(**entry.values), hang, sheet


def _positions(document: Document) -> tuple[list[Pipe | Boom | Stand], dict[str, Place]]:
    """Every position that could be read, and the place of every one that was named."""
    builders: tuple[tuple[str, Any, Callable[[Entry, str], Any]], ...] = (
        ("pipe", tables.pipe_readers, build_pipe),
        ("boom", tables.boom_readers, build_boom),
        ("stand", tables.stand_readers, build_stand),
    )
    found: list[Pipe | Boom | Stand] = []
    places: dict[str, Place] = {}
    seen: dict[str, Entry] = {}
    for sort, readers, build in builders:
        entries = document.entries(sort, readers)
        for entry in entries:
            position = build(entry, document.unit)
            if position is not None:
                found.append(position)
            if "name" in entry.values:
                places.setdefault(entry.values["name"], place_of(position, sort))
        check_names(entries, seen)
    return found, places


def _named(
    document: Document,
    key: str,
    readers: Callable[[str], tables.Readers],
    build: Callable[[Entry], T | None],
) -> tuple[tuple[T, ...], list[str]]:
    """The records of a table whose entries have names, and every name written."""
    entries = document.entries(key, readers)
    records = _built(entries, build)
    check_names(entries)
    return records, names_of(entries)


def _built(entries: list[Entry], build: Callable[[Entry], T | None]) -> tuple[T, ...]:
    found = [build(entry) for entry in entries]
    return tuple(record for record in found if record is not None)


def _generic(own: list[str], wanted: list[Any]) -> dict[str, dict[str, Any]]:
    """The tables of the generic kinds, where some name wanted is not the scene's own."""
    known = set(own)
    strange = (try_reading(name, raw) for raw in wanted if raw is not None)
    return generic_tables() if any(n and n not in known for n in strange) else {}


def _used_kinds(
    own: tuple[Kind, ...], generic: dict[str, dict[str, Any]], used: list[str]
) -> dict[str, Kind]:
    """The scene's own kinds, and the generic ones that are used."""
    kinds = {kind.name: kind for kind in own}
    borrowed = {kind: generic[kind] for kind in used if kind not in kinds}
    return kinds | (generic_kinds(borrowed) if borrowed else {})


def _unit_rows(
    document: Document, hang: str | None, around: dict[str, Any]
) -> tuple[list[Row], dict[str, Any]]:
    """The entries of `[[unit]]`, then those of the hang list, read by what is `around` it; and what a
    scene keeps of how it was read."""
    rows: list[Row] = []
    for index, (raw, where) in enumerate(document.tables("unit"), start=1):
        rows.append((raw, where, f"{document.file}, [[unit]] no. {index}"))
    if hang is None:
        return rows, {}
    from aimcalc.scene.hanglist.plainlist import read_plain
    from aimcalc.scene.hanglist.rows.listrow import Around

    hung = frozenset(str(raw.get("position")) for raw, _, _ in rows)
    try:
        path = named_file(document.folder, hang)
    except Wrong as wrong:
        document.log.add(Where(document.file, "[scene]"), "hang", wrong, hang)
        return rows, {}
    read_by = Around(**around, hung=hung)
    listed = read_plain(path, hang, read_by)
    if listed is None:
        from aimcalc.scene.hanglist.lists import read_list

        listed = read_list(path, hang, read_by, document.log)
    document.log.columns = listed.columns
    return rows + listed.rows, {"taken": listed.taken, "hang_columns": listed.columns}


def _hang_columns(document: Document) -> dict[str, Any]:
    """`[hang_columns]`: for a key of a unit, or for `remark`, the heading or the letter of its column."""
    entry = document.single("hang_columns", tables.hang_columns_readers)
    return entry.values


def _units(document: Document, rows: list[Row], names: Names) -> tuple[Unit, ...]:
    reader = UnitReader(names, document.unit, document.log)
    found = [reader.read(raw, where, source) for raw, where, source in rows]
    return tuple(unit for unit in found if unit is not None)
