"""Mistakes in what the user wrote, gathered and told in one report.

A reader of one value raises `Wrong`; whoever knows the place turns it into a `Mistake`; `load_scene`
raises one `SceneError` that holds them all.
"""

from __future__ import annotations

from typing import NamedTuple

# Ranks, worst first: a mistake of an early rank is likely to be the cause of later ones, as a key that
# is spelled wrong is of the key that is missing.
FILE, UNKNOWN, MISSING, VALUE, CLASH = range(5)

MOST_KEPT = 5000  # mistakes after which reading stops
MOST_PRINTED = 50
MOST_LISTED = 24  # right spellings, where none is near
MOST_COMPARED = 1000  # right spellings looked through for the nearest
LONGEST_SHOWN = 60  # characters of what came that are worth printing


class Wrong(ValueError):  # noqa: N818 - it is raised to be told, and reads as what it says
    """A value that cannot be used: what was expected instead, and what to do about it."""

    def __init__(
        self,
        expected: str,
        do: str = "",
        *,
        choices: tuple[str, ...] = (),
        came: str | None = None,
        rank: int = VALUE,
    ) -> None:
        super().__init__(expected)
        self.expected = expected
        self.do = do
        self.choices = choices
        self.came = came  # in words, where the value alone would not say it
        self.rank = rank


class Mistake(NamedTuple):
    """One mistake: where it is, what was expected, what came and what to do."""

    file: str
    table: str  # "[[pipe]]", "sheet Hang", or "" for the file itself
    entry: str  # the entry's name or number, "row 7"
    key: str  # the key, or "column C (at)"
    expected: str
    came: str
    do: str = ""
    choices: tuple[str, ...] = ()  # the right spellings, where there is a list of them
    rank: int = VALUE

    def place(self, others: int = 0) -> str:
        """Where it is: `scene.toml, [[pipe]] "LX 1", trim`; `others` entries share the mistake."""
        entry = f"{self.entry} and {others} more" if others else self.entry
        join = " " if self.table.startswith("[") else ", "
        inside = join.join(part for part in (self.table, entry) if part)
        return ", ".join(part for part in (self.file, inside, self.key) if part)

    def advice(self) -> str:
        """What to do, the nearest right spelling first."""
        near = nearest(self.came.strip('"'), self.choices)
        listed = ", ".join(self.choices[:MOST_LISTED])
        if near:
            meant = f'Did you mean "{near}"?'
        elif listed and listed not in self.expected:
            meant = f"There is: {listed}{' ...' if len(self.choices) > MOST_LISTED else '.'}"
        else:
            meant = ""
        return " ".join(part for part in (meant, self.do) if part)

    def text(self, others: int = 0) -> str:
        """The mistake in three or four lines."""
        lines = [self.place(others), f"   expected: {self.expected}", f"   got:      {self.came}"]
        advice = self.advice()
        return "\n".join([*lines, f"   do:       {advice}"] if advice else lines)


Columns = tuple[tuple[str, str, str], ...]  # of a hang list: letters, heading, what each holds


class SceneError(Exception):
    """A scene that cannot be used. `mistakes` holds every mistake, worst first."""

    def __init__(self, scene: str, mistakes: list[Mistake], columns: Columns = ()) -> None:
        super().__init__(scene)
        self.scene = scene
        self.columns = columns  # of its hang list, as far as they were found
        self.mistakes = tuple(sorted(mistakes, key=lambda mistake: mistake.rank))

    def report(self) -> str:
        """The whole report as text. Entries with the very same mistake share a paragraph; past
        MOST_PRINTED paragraphs only their number is given."""
        count = len(self.mistakes)
        groups = _groups(self.mistakes)
        shown = [
            f"{number}. {mistake.text(others)}"
            for number, (mistake, others) in enumerate(groups[:MOST_PRINTED], start=1)
        ]
        more = [f"and {len(groups) - MOST_PRINTED} more."] if len(groups) > MOST_PRINTED else []
        word = "mistake" if count == 1 else "mistakes"
        word += " (there may be more: reading stopped here)" if count >= MOST_KEPT else ""
        head = f"{self.scene} cannot be used: {count} {word}. Nothing was written."
        return "\n\n".join([head, *shown, *more])

    def __str__(self) -> str:
        return self.report()


def _groups(mistakes: tuple[Mistake, ...]) -> list[tuple[Mistake, int]]:
    """Each mistake that differs by more than its entry, and how many other entries have it."""
    first: dict[Mistake, Mistake] = {}
    others: dict[Mistake, int] = {}
    for mistake in mistakes:
        plain = mistake._replace(entry="", choices=())
        first.setdefault(plain, mistake)
        others[plain] = others.get(plain, -1) + 1
    return [(mistake, others[plain]) for plain, mistake in first.items()]


def nearest(came: str, choices: tuple[str, ...]) -> str | None:
    """The choice spelled most like `came`, or None when none is near."""
    if not choices or len(came) > LONGEST_SHOWN:
        return None
    from difflib import get_close_matches

    plain = {_plain(choice): choice for choice in choices[:MOST_COMPARED]}
    found = get_close_matches(_plain(came), plain, n=1, cutoff=0.6)
    return plain[found[0]] if found else None


def _plain(word: str) -> str:
    return word.lower().replace("_", " ").replace("-", " ").strip()


def show(value: object) -> str:
    """What came, on one short line with nothing unprintable in it."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{_printable(value)}"' if value else "empty text"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, (list, tuple)):
        return _cut("[" + ", ".join(map(show, value[:12])) + "]")
    if isinstance(value, int) and abs(value) > 10**LONGEST_SHOWN:
        return f"a whole number of more than {LONGEST_SHOWN} figures"
    if isinstance(value, (int, float)):
        return str(value)
    return f"the date or time {value} (put text in quotes; format the cell as text)"


def _printable(text: str) -> str:
    cut = _cut(text)
    if cut.isprintable():
        return cut
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in cut)


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."


class Where(NamedTuple):
    """The place being read. `columns` names the spreadsheet column of each key, if there is one."""

    file: str
    table: str
    entry: str = ""
    columns: dict[str, str] | None = None

    def mistake(self, key: str, wrong: Wrong, came: str) -> Mistake:
        """`wrong` at this place."""
        column = self.columns.get(key) if self.columns else None
        shown = f"column {column} ({key})" if column else key
        return Mistake(
            self.file,
            self.table,
            self.entry,
            shown,
            wrong.expected,
            came,
            wrong.do,
            wrong.choices,
            wrong.rank,
        )


class TooManyError(Exception):
    """So many mistakes that reading on would only cost time."""


class Log:
    """Where mistakes are gathered while a scene is read."""

    def __init__(self) -> None:
        self.mistakes: list[Mistake] = []
        self.columns: Columns = ()  # of the hang list, as far as it was read

    def add(self, where: Where, key: str, wrong: Wrong, came: object = None) -> None:
        """Note that `came` at `key` is wrong.

        Raises:
            TooManyError: when this is the last mistake that is kept.
        """
        self.mistakes.append(where.mistake(key, wrong, wrong.came or show(came)))
        if len(self.mistakes) >= MOST_KEPT:
            raise TooManyError
