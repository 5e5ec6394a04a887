"""The TOML document of a scene: parsed, and handed out table by table."""

from __future__ import annotations

import os
from collections.abc import Callable, Collection
from typing import Any

from aimcalc.scene.files import as_text, read_whole
from aimcalc.scene.mistakes import CLASH, FILE, MISSING, QUESTION, UNKNOWN, Log, Where, Wrong, show
from aimcalc.scene.readers import Reader, name, try_reading
from aimcalc.scene.tables import Readers

# A value that somebody has been asked about already: nothing more is said of it.
ASKED: Any = object()


def ask(log: Log, raw: dict[str, Any], where: Where, key: str, wrong: Wrong, came: Any) -> None:
    """Ask about the value of a key."""
    log.add(where, key, wrong, came)
    raw[key] = ASKED


# Open questions: a value of "?" that somebody has still to find out.
MARK = "?"
FREE = (
    "system",
    "channel",
    "circuit",
    "colour",
    "note",
)  # where a question mark is a word as any other

QUESTIONS = {
    ("scene", "title"): "What is the show called?",
    ("scene", "unit"): "Which unit are bare numbers in: m, cm, mm, ft or in?",
    ("pipe", "trim"): "How high is the pipe's centre above the deck?",
    ("pipe", "y"): "How far US or DS of the plaster line is it?",
    ("pipe", "from"): "Where is its SR end, from the centre line?",
    ("pipe", "to"): "Where is its SL end, from the centre line?",
    ("boom", "x"): "How far SL or SR of the centre line does it stand?",
    ("boom", "y"): "How far US or DS of the plaster line does it stand?",
    ("boom", "height"): "How high is it?",
    ("stand", "x"): "How far SL or SR of the centre line does it stand?",
    ("stand", "y"): "How far US or DS of the plaster line does it stand?",
    ("target", "x"): "How far SL or SR of the centre line is it?",
    ("target", "y"): "How far US or DS of the plaster line is it?",
    ("kind", "family"): "Which family is it of: ers, fresnel, pc, par, flood or cyc?",
    (
        "kind",
        "field",
    ): "What is its field angle, the full angle to a tenth of the middle, in degrees?",
}


def is_open(key: str, value: object) -> bool:
    """Whether the value of a key is a question that nobody has answered yet."""
    return key not in FREE and isinstance(value, str) and value.strip() == MARK


def question(where: Where, key: str) -> Wrong:
    """What is asked at a key whose value is a question mark."""
    asked = QUESTIONS.get((where.table.strip("[]"), key), f"What is {key}?")
    return Wrong(f"an answer: {asked}", 'Write it in place of "?".', rank=QUESTION)


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
            if item is ASKED:
                self.sound = False
                continue
            if is_open(key, item):
                self.note(key, question(self.where, key), item)
                continue
            try:
                self.values[key] = reader(item)
            except Wrong as wrong:
                self.note(key, wrong, item)

    def take(self, key: str, read: Reader) -> None:
        """Read one key, where it was written, that had to wait for others."""
        if key not in self.raw or self.raw[key] is ASKED or is_open(key, self.raw[key]):
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
        for given in self.values.get(key, ()):
            if given not in known:
                wrong = Wrong(f"the name of a {what}", choices=tuple(known), rank=UNKNOWN)
                self.note(key, wrong, given)

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


SCENE_FILE = "scene.toml"
SCENE_MEGABYTES = 3
MOST_DOTS = 16  # in a dotted key; a scene needs none

SINGLE = ("scene", "stage", "errors", "hang_columns")
LISTS = ("pipe", "boom", "stand", "target", "kind", "unit", "solid", "seats", "stock", "cable")


def parse(file: str) -> dict[str, Any]:
    """The tables of a TOML file.

    Raises:
        Wrong: when it cannot be read, is too large, no text, nested too deep, or no TOML.
    """
    import tomli

    data = read_whole(
        file, SCENE_MEGABYTES, "Put the units in a hang list, meshes in their own files."
    )
    text = as_text(data).replace("\r\n", "\n")
    if _is_too_deep(text):
        raise Wrong("keys without so many dots", came="a key of many dotted parts", rank=FILE)
    try:
        return tomli.loads(text)
    except RecursionError:
        raise Wrong("lists in lists, a few deep", came="lists nested too deep", rank=FILE) from None
    except ValueError as error:
        raise _syntax(str(error), text) from None


def _is_too_deep(text: str) -> bool:
    """Whether a line has a dotted key of so many parts that parsing it would never end."""
    lines = [line for line in text.split("\n") if line.count(".") > MOST_DOTS]
    if not lines:
        return False
    import re

    part = r"""(?:"[^"]*"|'[^']*'|[^\s.,="'\[\]{}#]+)[ \t]*"""
    chain = re.compile(rf"{part}(?:\.[ \t]*{part}){{{MOST_DOTS}}}")
    return any(chain.search(line) for line in lines)


def _syntax(error: str, text: str) -> Wrong:
    """What is wrong with the TOML, with the line that holds it."""
    do = 'Text, and lengths with a unit, stand in quotes; an inch mark inside them is written ".'
    _, found, rest = error.partition("(at line ")
    number = rest.partition(",")[0]
    if not found or not number.isdigit():
        return Wrong("TOML that can be read", came=error.partition(";")[0], rank=FILE)
    line = text.split("\n")[int(number) - 1].strip()
    came = f"line {number}, {show(line)}: {error.partition(' (at')[0].lower()}"
    return Wrong("TOML that can be read", do, came=came, rank=FILE)


class Document:
    """A parsed scene, the place of its files, the unit of its bare numbers, and its mistakes."""

    def __init__(self, raw: dict[str, Any], file: str, log: Log) -> None:
        self.raw = raw
        self.file = os.path.basename(file)
        self.folder = os.path.dirname(file) or "."
        self.log = log
        self.unit = "m"
        self._check_tables()

    def single(self, key: str, readers: Callable[[str], Readers]) -> Entry:
        """The one table `[key]`, read; empty when it was not written."""
        where = Where(self.file, f"[{key}]")
        raw = self.raw.get(key, {})
        if not isinstance(raw, dict):
            self.log.add(where, "", Wrong(f"one table [{key}], in single brackets"), raw)
            raw = {}
        return open_entry(raw, readers(self.unit), where, self.log)

    def tables(self, key: str) -> list[tuple[dict[str, Any], Where]]:
        """Each table `[[key]]`, unread, and where it is."""
        raw = self.raw.get(key, [])
        if not isinstance(raw, list):
            wrong = Wrong(f"[[{key}]], in double brackets: there may be several")
            self.log.add(Where(self.file, f"[{key}]"), "", wrong, raw)
            raw = [raw]
        found = []
        for index, item in enumerate(raw, start=1):
            where = Where(self.file, f"[[{key}]]", f"no. {index}")
            if isinstance(item, dict):
                found.append((item, where._replace(entry=entry_name(item, index))))
            else:
                self.log.add(where, "", Wrong(f"a table [[{key}]]"), item)
        return found

    def entries(self, key: str, readers: Callable[[str], Readers]) -> list[Entry]:
        """Each table `[[key]]`, read."""
        made = readers(self.unit)
        return [open_entry(raw, made, where, self.log) for raw, where in self.tables(key)]

    def _check_tables(self) -> None:
        known = (*SINGLE, *LISTS)
        for key in self.raw:
            if key not in known:
                wrong = Wrong("a table that a scene has", choices=known, rank=UNKNOWN)
                self.log.add(Where(self.file, ""), "", wrong, key)


def check_names(entries: list[Entry], seen: dict[str, Entry] | None = None) -> None:
    """Note every name that was given before; `seen` carries names over from other tables."""
    seen = {} if seen is None else seen
    for entry in entries:
        written = entry.values.get("name")
        if written is None:
            continue
        first = seen.setdefault(written, entry)
        if first is not entry:
            wrong = Wrong(f"a name that no other {first.where.table} has", rank=CLASH)
            entry.note("name", wrong, written)


def names_of(entries: list[Entry]) -> list[str]:
    """The names written in `entries`, those of refused entries too."""
    return [entry.values["name"] for entry in entries if "name" in entry.values]


def entry_name(item: dict[str, Any], index: int) -> str:
    """What messages call an entry: its name, a unit's "position/number", else its place in the table."""
    written = try_reading(name, item["name"]) if "name" in item else None
    if written is None and "position" in item and "number" in item:
        return show(f"{item['position']}/{item['number']}")
    return show(written) if written else f"no. {index}"
