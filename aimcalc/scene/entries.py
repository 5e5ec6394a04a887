"""One entry of a table, read key by key so that every mistake of it is told."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from aimcalc.scene.mistakes import CLASH, MISSING, UNKNOWN, Log, Where, Wrong
from aimcalc.scene.readers import Reader


class Entry:
    """The values of one entry that could be read, and where to tell what is wrong with the rest."""

    __slots__ = ("log", "raw", "sound", "values", "where")

    def __init__(self, raw: dict[str, Any], where: Where, log: Log) -> None:
        self.raw = raw
        self.where = where
        self.log = log
        self.values: dict[str, Any] = {}
        self.sound = True  # until something wrong is found in it

    def note(self, key: str, wrong: Wrong, came: object = None) -> None:
        """Note that `came` at `key` is wrong."""
        self.sound = False
        self.log.add(self.where, key, wrong, came)

    def read(self, readers: dict[str, Reader]) -> None:
        """Read every key; unknown keys and refused values are noted."""
        for key, item in self.raw.items():
            reader = readers.get(key)
            if reader is None:
                self.unknown(key, readers)
                continue
            try:
                self.values[key] = reader(item)
            except Wrong as wrong:
                self.note(key, wrong, item)

    def take(self, key: str, read: Reader) -> None:
        """Read one key, where it was written, that had to wait for others."""
        if key not in self.raw:
            return
        self.values.pop(key, None)
        try:
            self.values[key] = read(self.raw[key])
        except Wrong as wrong:
            self.note(key, wrong, self.raw[key])

    def check_name(self, key: str, what: str, known: Collection[str]) -> None:
        """Note a name at `key` that is none of those `known`."""
        name = self.values.get(key)
        if name is not None and name not in known:
            do = "" if known else "The scene has none."
            wrong = Wrong(f"the name of a {what}", do, choices=tuple(known), rank=UNKNOWN)
            self.note(key, wrong, self.raw[key])

    def check_names(self, key: str, what: str, known: Collection[str]) -> None:
        """The same of a list of names at `key`."""
        for name in self.values.get(key, ()):
            if name not in known:
                wrong = Wrong(f"the name of a {what}", choices=tuple(known), rank=UNKNOWN)
                self.note(key, wrong, name)

    def unknown(self, key: str, readers: dict[str, Reader]) -> None:
        """Note a key that no such entry has."""
        wrong = Wrong("a known key", choices=tuple(readers), rank=UNKNOWN)
        self.note("", wrong, key)

    def needs(self, *keys: str) -> None:
        """Note each of `keys` that was not written."""
        for key in keys:
            if key not in self.raw:
                self.missing(key, f"{key}, which this entry needs")

    def missing(self, key: str, expected: str, do: str = "") -> None:
        """Note that something needed was not written."""
        self.note(key, Wrong(expected, do or f"Add {key}.", rank=MISSING))

    def wrong(self, key: str, expected: str, do: str = "") -> None:
        """Note that the value of `key` cannot be used beside the others."""
        self.note(key, Wrong(expected, do), self.raw.get(key))

    def clash(self, key: str, expected: str, do: str = "") -> None:
        """Note that `key` cannot stand beside the other keys."""
        self.note(key, Wrong(expected, do, rank=CLASH), self.raw.get(key))

    def refuse(self, keys: tuple[str, ...], because: str) -> None:
        """Note each of `keys` that was written although it must not be."""
        for key in keys:
            if key in self.raw:
                self.clash(key, f"no {key} here: {because}", f"Leave out {key}.")


def open_entry(raw: dict[str, Any], readers: dict[str, Reader], where: Where, log: Log) -> Entry:
    """An entry with all its keys read."""
    entry = Entry(raw, where, log)
    entry.read(readers)
    return entry
