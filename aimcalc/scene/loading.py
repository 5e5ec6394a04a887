"""A scene from its file: read, checked whole, and refused in one report or given as records."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any, TypeVar

from aimcalc.scene import tables, things
from aimcalc.scene.entries import Entry, open_entry
from aimcalc.scene.files import as_text, named_file, read_whole
from aimcalc.scene.kinds import generic_kinds
from aimcalc.scene.mistakes import CLASH, FILE, UNKNOWN, Log, SceneError, Where, Wrong, show
from aimcalc.scene.model import Boom, Kind, Pipe, Scene, Settings, Stand
from aimcalc.scene.positions import Place, build_boom, build_pipe, build_stand, place_of
from aimcalc.scene.units import Names, UnitReader

SCENE_FILE = "scene.toml"
SCENE_MEGABYTES = 8

T = TypeVar("T")

SINGLE = ("scene", "stage")
LISTS = (
    "pipe",
    "boom",
    "stand",
    "target",
    "kind",
    "unit",
    "solid",
    "seats",
    "stock",
    "cable",
)


def load_scene(path: str | os.PathLike[str]) -> Scene:
    """The scene in a TOML file, or in the folder that holds `scene.toml`.

    Raises:
        SceneError: when anything is wrong with it; its `report()` tells all of it.
    """
    path = os.fspath(path)
    file = os.path.join(path, SCENE_FILE) if os.path.isdir(path) else path
    log = Log()
    try:
        document = _parse(file)
    except Wrong as wrong:
        log.add(Where(file, ""), "", wrong, os.path.basename(file))
        raise SceneError(path, log.mistakes) from None
    scene = _Loader(document, file, log).scene()
    if scene is None:
        raise SceneError(path, log.mistakes)
    return scene


def _parse(file: str) -> dict[str, Any]:
    import tomllib

    if not os.path.exists(file) and os.path.isdir(os.path.dirname(file) or "."):
        raise Wrong(f"a scene: a TOML file, or a folder that holds {SCENE_FILE}", rank=FILE)
    text = as_text(read_whole(file, SCENE_MEGABYTES))
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise Wrong("tables that are not nested so deeply", rank=FILE) from None
    except ValueError as error:
        raise Wrong(f"TOML that can be read: {error}", rank=FILE) from None


class _Loader:
    """One reading of one document."""

    def __init__(self, document: dict[str, Any], file: str, log: Log) -> None:
        self.document = document
        self.file = os.path.basename(file)
        self.folder = os.path.dirname(file) or "."
        self.log = log
        self.unit = "m"

    def scene(self) -> Scene | None:
        """The scene, or None when anything was refused."""
        self._check_tables()
        settings = self._settings()
        stage = things.build_stage(self._single("stage", tables.stage_readers))
        pipes, booms, stands, places = self._positions()
        targets = self._list("target", tables.target_readers, things.build_target)
        kinds = self._list("kind", tables.kind_readers, lambda e: things.build_kind(e, self.folder))
        solids = self._list(
            "solid", tables.solid_readers, lambda e: things.build_solid(e, self.folder)
        )
        seats = self._list("seats", tables.seats_readers, things.build_seats)
        stock = self._list("stock", tables.stock_readers, things.build_stock)
        cables = self._list("cable", tables.cable_readers, things.build_cable)
        rows = self._unit_rows()
        by_name = self._kinds(kinds, [raw.get("kind") for raw, _, _ in rows])
        names = Names(places, self._names("target"), tuple(by_name))
        reader = UnitReader(names, self.unit, self.log)
        units = [reader.read(raw, where, source) for raw, where, source in rows]
        if self.log.mistakes or settings is None or stage is None:
            return None
        used = {unit.kind for unit in units if unit is not None}
        own = {kind.name for kind in kinds}
        return Scene(
            settings=settings,
            stage=stage,
            pipes=pipes,
            booms=booms,
            stands=stands,
            targets=targets,
            kinds={n: k for n, k in by_name.items() if k and (n in own or n in used)},
            units=tuple(unit for unit in units if unit is not None),
            solids=solids,
            seats=seats,
            stock=stock,
            cables=cables,
            folder=self.folder,
        )

    def _check_tables(self) -> None:
        known = (*SINGLE, *LISTS)
        for key in self.document:
            if key not in known:
                wrong = Wrong(
                    f"one of these tables: {', '.join(known)}", choices=known, rank=UNKNOWN
                )
                self.log.add(Where(self.file, ""), "", wrong, key)

    def _single(self, key: str, readers: Callable[[str], tables.Readers]) -> Entry:
        where = Where(self.file, f"[{key}]")
        raw = self.document.get(key, {})
        if not isinstance(raw, dict):
            self.log.add(where, "", Wrong(f"one table [{key}]"), raw)
            raw = {}
        return open_entry(raw, readers(self.unit), where, self.log)

    def _settings(self) -> Settings | None:
        raw = self.document.get("scene", {})
        unit = raw.get("unit", "m") if isinstance(raw, dict) else "m"
        self.unit = unit if unit in tables.LENGTH_UNITS else "mm"
        entry = self._single("scene", tables.scene_readers)
        entry.needs("title")
        if not entry.sound:
            return None
        values = dict(entry.values)
        if self.unit in ("ft", "in"):
            values.setdefault("sight_out", 3.048)
        return Settings(**values)

    def _tables(self, key: str) -> list[tuple[dict[str, Any], Where]]:
        """Each entry of a list of tables, and where it is."""
        raw = self.document.get(key, [])
        if isinstance(raw, dict):
            wrong = Wrong(f"[[{key}]] in double brackets")
            self.log.add(Where(self.file, f"[{key}]"), "", wrong, f"[{key}]")
            raw = [raw]
        elif not isinstance(raw, list):
            self.log.add(Where(self.file, key), "", Wrong(f"tables [[{key}]]"), raw)
            raw = []
        found = []
        for index, item in enumerate(raw, start=1):
            where = Where(self.file, f"[[{key}]]", f"no. {index}")
            if isinstance(item, dict):
                found.append((item, where._replace(entry=_entry_name(item, index))))
            else:
                self.log.add(where, "", Wrong("a table"), item)
        return found

    def _list(
        self,
        key: str,
        readers: Callable[[str], tables.Readers],
        build: Callable[[Entry], T | None],
    ) -> tuple[T, ...]:
        made = readers(self.unit)
        entries = [open_entry(raw, made, where, self.log) for raw, where in self._tables(key)]
        found = [build(entry) for entry in entries]
        self._check_twice(entries, {})
        return tuple(item for item in found if item is not None)

    def _check_twice(self, entries: list[Entry], seen: dict[str, Where]) -> None:
        for entry in entries:
            name = entry.values.get("name")
            if name is None:
                continue
            if name in seen:
                first = seen[name]
                entry.log.add(
                    entry.where,
                    "name",
                    Wrong(f"a name of its own; {first.table} has it too", rank=CLASH),
                    name,
                )
            seen.setdefault(name, entry.where)

    def _positions(
        self,
    ) -> tuple[tuple[Pipe, ...], tuple[Boom, ...], tuple[Stand, ...], dict[str, Place]]:
        places: dict[str, Place] = {}
        seen: dict[str, Where] = {}
        pipes = self._position_list("pipe", tables.pipe_readers, build_pipe, places, seen)
        booms = self._position_list("boom", tables.boom_readers, build_boom, places, seen)
        stands = self._position_list("stand", tables.stand_readers, build_stand, places, seen)
        return pipes, booms, stands, places

    def _position_list(
        self,
        sort: str,
        readers: Callable[[str], tables.Readers],
        build: Callable[[Entry, str], Any],
        places: dict[str, Place],
        seen: dict[str, Where],
    ) -> tuple[Any, ...]:
        made = readers(self.unit)
        entries = [open_entry(raw, made, where, self.log) for raw, where in self._tables(sort)]
        found = [build(entry, self.unit) for entry in entries]
        for entry, position in zip(entries, found, strict=True):
            if "name" in entry.values:
                places.setdefault(entry.values["name"], place_of(position, sort))
        self._check_twice(entries, seen)
        return tuple(item for item in found if item is not None)

    def _names(self, key: str) -> tuple[str, ...]:
        """Every name written in the tables `key`, those of refused entries too."""
        raw = self.document.get(key, [])
        items = [raw] if isinstance(raw, dict) else raw if isinstance(raw, list) else []
        return tuple(str(item["name"]).strip() for item in items if _has_name(item))

    def _kinds(self, own: tuple[Kind, ...], wanted: list[Any]) -> dict[str, Kind | None]:
        kinds: dict[str, Kind | None] = dict.fromkeys(self._names("kind"))
        kinds.update((kind.name, kind) for kind in own)
        stock = self.document.get("stock", [])
        wanted = wanted + [item.get("kind") for item in stock if isinstance(item, dict)]
        if any(isinstance(name, str) and name.strip() not in kinds for name in wanted):
            kinds = {**generic_kinds(), **kinds}
        return kinds

    def _unit_rows(self) -> list[tuple[dict[str, Any], Where, str]]:
        rows = []
        for index, (raw, where) in enumerate(self._tables("unit"), start=1):
            rows.append((raw, where, f"{self.file}, [[unit]] no. {index}"))
        scene = self.document.get("scene", {})
        name = scene.get("hang") if isinstance(scene, dict) else None
        if isinstance(name, str):
            rows += self._hang_rows(name)
        return rows

    def _hang_rows(self, name: str) -> list[tuple[dict[str, Any], Where, str]]:
        from aimcalc.scene.hanglist import hang_rows

        where = Where(self.file, "[scene]")
        try:
            path = named_file(self.folder, name)
        except Wrong as wrong:
            self.log.add(where, "hang", wrong, name)
            return []
        return hang_rows(path, name, self.log)


def _has_name(item: object) -> bool:
    return isinstance(item, dict) and isinstance(item.get("name"), (str, int, float))


def _entry_name(item: dict[str, Any], index: int) -> str:
    if "position" in item and "number" in item:
        return show(f"{item['position']}/{item['number']}")
    name = item.get("name")
    return show(name) if isinstance(name, str) and name else f"no. {index}"
