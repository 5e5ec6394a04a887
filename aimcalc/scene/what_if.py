"""What if: values of a scene changed before it is read, for one call, its file left as it is.

Each is typed NAME.KEY=VALUE, the value as in TOML or as plain text: "pipe 1.trim=5.8 m", a unit by its
position and number ("pipe 1/3.target=area 2"), "scene.face_height=1.5 m". Without a value the key is left
out. Units of a hang list are found like those of the scene.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Sequence
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene import tables
from aimcalc.scene.document import SINGLE, Document, entry_name
from aimcalc.scene.mistakes import CLASH, UNKNOWN, Log, Mistake, Where, Wrong, nearest, show
from aimcalc.scene.readers import name, try_reading
from aimcalc.scene.tables import Readers

READERS: dict[str, Callable[[str], Readers]] = {
    "scene": tables.scene_readers,
    "stage": tables.stage_readers,
    "errors": tables.errors_readers,
    "hang_columns": tables.hang_columns_readers,
    "pipe": tables.pipe_readers,
    "boom": tables.boom_readers,
    "stand": tables.stand_readers,
    "target": tables.target_readers,
    "kind": tables.kind_readers,
    "solid": tables.solid_readers,
    "seats": tables.seats_readers,
    "stock": tables.stock_readers,
    "unit": tables.unit_readers,
}
CALLED = {"stock": "kind"}  # what an entry without a name is called by
TYPED = re.compile(r"\s*(.+?)\s*\.\s*([A-Za-z_]+)\s*=(.*)", re.DOTALL)
FORM = 'NAME.KEY=VALUE, such as "pipe 1.trim=5.8 m", "pipe 1/3.target=area 2", "scene.face_height=1.5 m"'
GENERIC = "It is a generic kind: to change it, write it as a [[kind]] of the scene."
LONGEST = 500  # characters of one of them


class Setting(NamedTuple):
    """One value to be changed."""

    typed: str  # all of it on one line
    name: str
    key: str
    value: object  # None: the key is left out
    place: str  # what a mistake of it is told as


class Entry(NamedTuple):
    """Something of a scene whose keys can be set."""

    table: str
    name: str
    raw: dict[str, Any]
    where: Where


class WhatIf:
    """The settings of one call, and where each of them went, so that a mistake of one names it."""

    def __init__(self, typed: Sequence[str | Setting], log: Log) -> None:
        self.log = log
        read = (self._read(each) if isinstance(each, str) else each for each in typed)
        self.asked = [setting for setting in read if setting is not None]
        self._waiting: list[Setting] = []  # for the units, which are read last
        self.placed: list[tuple[Setting, Entry]] = []  # as far as they were set
        self._renamed: dict[
            tuple[str, str, str], str
        ] = {}  # entries, as they are told by a name set here
        self._names: list[str] = []

    @property
    def words(self) -> tuple[str, ...]:
        """Each setting as it was typed, on one line."""
        return tuple(setting.typed for setting in self.asked)

    def set_tables(self, document: Document) -> None:
        """Change the tables of a document, all but its units."""
        entries = [*_singles(document), *_entries(document)]
        self._names = [entry.name for entry in entries]
        for setting in self.asked:
            if not self._place(setting, entries):
                self._waiting.append(setting)

    def set_units(
        self,
        rows: Sequence[tuple[dict[str, Any], Where, str]],
        generic: Callable[[], Collection[str]],
        *,
        all_read: bool,
    ) -> None:
        """Change the entries of units; what is then still nobody's is a mistake where `all_read`.

        `generic` gives the names of the generic kinds, which stand in no scene.
        """
        if not self._waiting:
            return
        entries = [Entry("unit", _unit_name(raw), raw, where) for raw, where, _ in rows]
        units = [entry.name for entry in entries]
        for setting in self._waiting:
            is_unit = "/" in setting.name
            if not self._place(setting, entries) and (all_read or not is_unit):
                names = self._names + units
                choices = _units_near(setting.name, units) if is_unit else tuple(names)
                do = GENERIC if setting.name in generic() else ""
                expected = "the name of something in the scene, or position/number of a unit"
                wrong = Wrong(expected, do, choices=() if do else choices, rank=UNKNOWN)
                self._note(setting.place, wrong, setting.name)

    def blamed(self, mistake: Mistake) -> Mistake:
        """A mistake of a value that was set here, told as that; any other as it is."""
        for setting, changed in self.placed:
            file, table, entry = changed.where[:3]
            entry = self._renamed.get((file, table, entry), entry)
            same = (mistake.file, mistake.table, mistake.entry) == (file, table, entry)
            if same and mistake.key.removesuffix(")").split("(")[-1] == setting.key:
                return mistake._replace(file=setting.place, table="", entry="", key="")
        return mistake

    def _read(self, text: str) -> Setting | None:
        typed = " ".join(text.split())
        found = TYPED.fullmatch(text) if len(text) <= LONGEST and typed.isprintable() else None
        if found is None:
            self._note(_option(typed), Wrong(FORM), text)
            return None
        who, value = " ".join(found[1].split()), plain_value(found[3].strip())
        return Setting(typed, who, found[2], value, _option(typed))

    def _place(self, setting: Setting, entries: Sequence[Entry]) -> bool:
        """Whether the name of a setting is that of an entry; it is then set, or the mistake noted."""
        named = _named(setting.name, entries)
        if not named:
            return False
        fitting = [entry for entry in named if setting.key in READERS[entry.table]("m")]
        if not fitting:
            keys = tuple(key for entry in named for key in READERS[entry.table]("m"))
            what = " or ".join(dict.fromkeys(_brackets(entry.table) for entry in named))
            wrong = Wrong(f"a key of {what}", choices=keys, rank=UNKNOWN)
            self._note(setting.place, wrong, setting.key)
        elif len(fitting) > 1:
            ways = " or ".join(
                dict.fromkeys(f'"{e.table} {e.name}.{setting.key}"' for e in fitting)
            )
            do = (
                f"Say {ways}." if len({e.table for e in fitting}) > 1 else "Give each its own name."
            )
            wrong = Wrong("a name that only one thing has", do, rank=CLASH)
            self._note(setting.place, wrong, setting.name)
        else:
            self._change(setting, fitting[0])
        return True

    def _change(self, setting: Setting, entry: Entry) -> None:
        where = entry.where
        if any(s.key == setting.key and e.where[:3] == where[:3] for s, e in self.placed):
            wrong = Wrong("each key set once", "Leave one of them out.", rank=CLASH)
            self._note(setting.place, wrong, f"{setting.key} a second time")
            return
        if setting.value is None:
            entry.raw.pop(setting.key, None)
        else:
            entry.raw[setting.key] = setting.value
        if setting.key == "name":  # what it is called by from here on
            self._renamed[where[:3]] = show(setting.value)
        self.placed.append((setting, entry))

    def _note(self, place: str, wrong: Wrong, came: str) -> None:
        self.log.add(Where(place, ""), "", wrong, came)


def _option(typed: str) -> str:
    return f"--set {show(typed)}"


def _brackets(table: str) -> str:
    return f"[{table}]" if table in SINGLE else f"[[{table}]]"


def plain_value(text: str) -> object:
    """A value as TOML reads it, else the text itself; None of empty text."""
    import tomli

    if not text:
        return None
    try:
        read = tomli.loads(f"value={text}")
    except (ValueError, RecursionError):
        return text
    plain = isinstance(read.get("value"), str | bool | int | float | list | dict)
    return read["value"] if plain and len(read) == 1 else text


def _singles(document: Document) -> Iterator[Entry]:
    """`[scene]`, `[stage]` and the others of their sort, made where they were not written."""
    for table in SINGLE:
        raw = document.raw.setdefault(table, {})
        if isinstance(raw, dict):
            yield Entry(table, table, raw, Where(document.file, f"[{table}]"))


def _entries(document: Document) -> Iterator[Entry]:
    for table in READERS:
        items = document.raw.get(table) if table not in (*SINGLE, "unit") else None
        for index, raw in enumerate(items if isinstance(items, list) else (), start=1):
            if isinstance(raw, dict):
                called = try_reading(name, raw.get(CALLED.get(table, "name")))
                where = Where(document.file, f"[[{table}]]", entry_name(raw, index))
                yield Entry(table, called or "", raw, where)


def _unit_name(raw: dict[str, Any]) -> str:
    parts = (try_reading(name, raw.get(key)) or "" for key in ("position", "number"))
    return "/".join(parts)


def _units_near(asked: str, units: Sequence[str]) -> tuple[str, ...]:
    """What to choose from where a unit's name is none: its position's units, one like it, or positions."""
    position = asked.rpartition("/")[0].casefold()
    same = [unit for unit in units if unit.rpartition("/")[0].casefold() == position]
    near = nearest(asked, tuple(units))
    return tuple(same or ([near] if near else dict.fromkeys(u.rpartition("/")[0] for u in units)))


def _named(asked: str, entries: Sequence[Entry]) -> list[Entry]:
    """The entries of a name: as written, else whatever its capitals, else with its table before it."""
    plain = asked.casefold()
    ways: tuple[Callable[[Entry], bool], ...] = (
        lambda entry: entry.name == asked,
        lambda entry: " ".join(entry.name.split()).casefold() == plain,
        lambda entry: f"{entry.table} {' '.join(entry.name.split())}".casefold() == plain,
    )
    return next((found for way in ways if (found := [e for e in entries if way(e)])), [])
