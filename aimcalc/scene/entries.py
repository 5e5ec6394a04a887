"""One entry of a table, read key by key so that every mistake of it is told."""

from __future__ import annotations

from typing import Any

from aimcalc.scene.mistakes import CLASH, MISSING, UNKNOWN, Log, Where, Wrong
from aimcalc.scene.readers import Reader


class Entry:
    """The values of one entry that could be read, and where to tell what is wrong with the rest."""

    __slots__ = ("_before", "log", "raw", "values", "where")

    def __init__(self, raw: dict[str, Any], where: Where, log: Log) -> None:
        self.raw = raw
        self.where = where
        self.log = log
        self.values: dict[str, Any] = {}
        self._before = len(log.mistakes)

    @property
    def sound(self) -> bool:
        """True while nothing wrong was found in this entry, whatever is wrong with others."""
        since = self.log.mistakes[self._before :]
        return all((m.file, m.table, m.entry) != self.where[:3] for m in since)

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
                self.log.add(self.where, key, wrong, item)

    def unknown(self, key: str, readers: dict[str, Reader]) -> None:
        """Note a key that no such entry has."""
        known = ", ".join(readers)
        wrong = Wrong(f"one of these keys: {known}", choices=tuple(readers), rank=UNKNOWN)
        self.log.add(self.where, "", wrong, key)

    def needs(self, *keys: str) -> None:
        """Note each of `keys` that was not written."""
        for key in keys:
            if key not in self.raw:
                self.missing(key, f"{key}, which this entry needs")

    def missing(self, key: str, expected: str, do: str = "") -> None:
        """Note that something needed was not written."""
        self.log.add(self.where, key, Wrong(expected, do or f"Add {key}.", rank=MISSING))

    def wrong(self, key: str, expected: str, do: str = "") -> None:
        """Note that the value of `key` cannot be used beside the others."""
        self.log.add(self.where, key, Wrong(expected, do), self.raw.get(key))

    def clash(self, key: str, expected: str, do: str = "") -> None:
        """Note that `key` cannot stand beside the other keys."""
        self.log.add(self.where, key, Wrong(expected, do, rank=CLASH), self.raw.get(key))

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
