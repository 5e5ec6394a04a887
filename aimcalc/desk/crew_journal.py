"""What the crew's phones have sent, kept in one SQLite file: a journal that only grows, each entry once.

An entry has a name of its own, so whatever is sent again after a broken link changes nothing. The file also
keeps the key and the port of its address: phones that have the page open go on after a restart.
"""

from __future__ import annotations

import os
import sqlite3
import threading
from collections.abc import Sequence
from contextlib import suppress
from typing import Annotated, Literal

import msgspec

from aimcalc.named import NamedTuple

TICKS = ("hung", "safety", "upright", "tail", "pan", "down", "tested")
MOST = 200_000  # entries of a file: a thousand units ticked thirty times over by whoever has the address
FORMAT = 1
MADE = """
create table if not exists kept (name text primary key, value text not null);
create table if not exists event (
    seq integer primary key autoincrement, id text not null unique, print text not null, body text not null
);
"""

Name = Annotated[str, msgspec.Meta(min_length=1, max_length=60, pattern=r"\A[^+\s]+\Z")]
Cell = Annotated[str, msgspec.Meta(max_length=60)]
Text = Annotated[str, msgspec.Meta(max_length=500)]
When = Annotated[str, msgspec.Meta(pattern=r"\A\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z\Z")]


class Spot(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Where a unit's light landed, and what it was set to, as typed."""

    x: Cell = ""
    y: Cell = ""
    on: Text = ""
    height: Cell = ""
    down: Cell = ""
    pan: Cell = ""
    sight: Cell = ""


class Event(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One thing that was ticked, noted or landed; `over` are the earlier ones that it takes the place of."""

    id: Name
    when: When
    phone: Annotated[str, msgspec.Meta(min_length=1, max_length=30)]
    unit: Text
    what: Literal["hung", "safety", "upright", "tail", "pan", "down", "tested", "note", "landing"]
    value: bool | Text | Spot | None
    over: Annotated[list[Name], msgspec.Meta(max_length=50)]

    @property
    def sound(self) -> bool:
        """Whether the value is of the sort that such an entry has."""
        if self.what == "landing":
            return self.value is None or isinstance(self.value, Spot)
        return isinstance(self.value, bool if self.what in TICKS else str)


class Kept(NamedTuple):
    """An entry with its place in the journal."""

    seq: int
    event: Event


class JournalError(Exception):
    """A file that cannot be used as a journal; the text says why, and what to do."""


class Journal:
    """One file of entries. Every call is whole or not at all, from any thread."""

    def __init__(self, path: str) -> None:
        """Open a file, made where there is none. Raises JournalError."""
        self.path = path
        self._lock = threading.Lock()
        with suppress(
            OSError
        ):  # it holds the key: nobody else's to read, nor what SQLite lays beside it
            os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
        try:
            self._base = sqlite3.connect(path, check_same_thread=False, timeout=5.0)
            self._base.execute("pragma journal_mode(wal)")
            self._base.execute("pragma synchronous(full)")  # an entry that was answered for stays
            with self._base:
                self._base.executescript(MADE)
            if self.get("format", str(FORMAT)) != str(FORMAT):
                raise JournalError(
                    f"{path} is of another version of this program. Name another file."
                )
            self.put("format", str(FORMAT))
        except sqlite3.Error as error:
            raise JournalError(
                f"{path} cannot keep what the crew ticks: {error}. Name another file with --keep."
            ) from None

    def get(self, name: str, otherwise: str = "") -> str:
        """Something that is kept beside the entries."""
        with self._lock:
            row = self._base.execute("select value from kept where name = ?", (name,)).fetchone()
        return str(row[0]) if row else otherwise

    def put(self, name: str, value: str) -> None:
        """Keep something beside the entries."""
        with self._lock, self._base:
            self._base.execute("insert or replace into kept values (?, ?)", (name, value))

    def add(self, of: str, events: Sequence[Event]) -> list[Kept]:
        """Keep entries of one print; those that were not there before come back, on disk by then.

        Raises JournalError where the file is full, or the disk.
        """
        fresh = []
        try:
            with self._lock, self._base:
                (there,) = self._base.execute("select count(*) from event").fetchone()
                if there + len(events) > MOST:
                    raise JournalError(f"{self.path} is full: {MOST:,} entries.")
                for event in events:
                    body = msgspec.json.encode(event).decode()
                    done = self._base.execute(
                        "insert or ignore into event (id, print, body) values (?, ?, ?)",
                        (event.id, of, body),
                    )
                    if done.rowcount and done.lastrowid is not None:
                        fresh.append(Kept(done.lastrowid, event))
        except sqlite3.Error as error:
            raise JournalError(f"{self.path} cannot be written: {error}.") from None
        return fresh

    def since(self, of: str, seq: int, most: int) -> list[Kept]:
        """Up to `most` entries of one print after a place in the journal, in their order."""
        with self._lock:
            rows = self._base.execute(
                "select seq, body from event where print = ? and seq > ? order by seq limit ?",
                (of, seq, most),
            ).fetchall()
        return [Kept(int(seq), msgspec.json.decode(body, type=Event)) for seq, body in rows]

    def count(self, of: str) -> tuple[int, int]:
        """How many entries there are of one print, and of all others."""
        with self._lock:
            (mine,) = self._base.execute(
                "select count(*) from event where print = ?", (of,)
            ).fetchone()
            (every,) = self._base.execute("select count(*) from event").fetchone()
        return int(mine), int(every) - int(mine)

    def close(self) -> None:
        """Let go of the file."""
        with self._lock:
            self._base.close()
