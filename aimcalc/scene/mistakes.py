"""Mistakes in what the user wrote, gathered and told in one report.

A reader of one value raises `Wrong`; whoever knows the place turns it into a `Mistake`; `load_scene`
raises one `SceneError` that holds them all.
"""

from __future__ import annotations

from collections.abc import Sequence

from aimcalc.named import NamedTuple

# Ranks, worst first: a mistake of an early rank is likely to be the cause of later ones, as a key that
# is spelled wrong is of the key that is missing.
FILE, UNKNOWN, MISSING, VALUE, CLASH, QUESTION = range(6)

MOST_KEPT = 5000  # mistakes after which reading stops
MOST_PRINTED = 50
MOST_LISTED = 24  # right spellings, where none is near
MOST_COMPARED = 1000  # right spellings looked through for the nearest
MOST_ROWS_SHOWN = 12  # of those that share a mistake
MOST_CAME = 8  # different things that came, of one sort of mistake
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

    def place(self, others: Sequence[Mistake] = ()) -> str:
        """Where it is: `scene.toml, [[pipe]] "LX 1", trim`; `others` of other entries share it."""
        join = " " if self.table.startswith("[") else ", "
        inside = join.join(part for part in (self.table, _entries((self, *others))) if part)
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

    def text(self, others: Sequence[Mistake] = ()) -> str:
        """The mistake in three or four lines; what came in `others` beside what came here."""
        came = list(dict.fromkeys(mistake.came for mistake in (self, *others)))
        more = f" and {len(came) - MOST_CAME} more" if len(came) > MOST_CAME else ""
        got = ", ".join(came[:MOST_CAME]) + more
        lines = [self.place(others), f"   expected: {self.expected}", f"   got:      {got}"]
        advice = self.advice() if len(came) == 1 else self._advice_of(came)
        return "\n".join([*lines, f"   do:       {advice}"] if advice else lines)

    def _advice_of(self, came: list[str]) -> str:
        """Advice about several words: the nearest right spelling of each that has one."""
        pairs = ((word, nearest(word.strip('"'), self.choices)) for word in came[:MOST_CAME])
        meant = [f'"{near}" by {word}' for word, near in pairs if near]
        if not meant:
            return self.advice()
        return " ".join(part for part in (f"Did you mean {', '.join(meant)}?", self.do) if part)


def _entries(mistakes: Sequence[Mistake]) -> str:
    """The entries that share a mistake: "rows 3, 5 and 8 more", or the first and how many more."""
    entries = list(dict.fromkeys(mistake.entry for mistake in mistakes))
    if len(entries) == 1:
        return entries[0]
    if all(entry.startswith("row ") for entry in entries):
        shown = ", ".join(entry.removeprefix("row ") for entry in entries[:MOST_ROWS_SHOWN])
        more = len(entries) - MOST_ROWS_SHOWN
        return f"rows {shown}" + (f" and {more} more" if more > 0 else "")
    return f"{entries[0]} and {len(entries) - 1} more"


Columns = tuple[tuple[str, str, str], ...]  # of a hang list: letters, heading, what each holds


class SceneError(Exception):
    """A scene that cannot be used. `mistakes` holds every mistake, worst first."""

    def __init__(self, scene: str, mistakes: list[Mistake], columns: Columns = ()) -> None:
        super().__init__(scene)
        self.scene = scene
        self.columns = columns  # of its hang list, as far as they were found
        self.mistakes = tuple(sorted(mistakes, key=lambda mistake: mistake.rank))

    def report(self) -> str:
        """The whole report as text: the sort of mistake first that is likeliest to cause others, then the one
        of most entries. Mistakes of one sort share a paragraph; past MOST_PRINTED paragraphs only the number
        of mistakes left is given."""
        count = len(self.mistakes)
        groups = _groups(self.mistakes)
        shown = [
            f"{number}. {group[0].text(group[1:])}"
            for number, group in enumerate(groups[:MOST_PRINTED], start=1)
        ]
        left = sum(map(len, groups[MOST_PRINTED:]))
        more = [f"and {left} more."] if left else []
        opened = sum(mistake.rank == QUESTION for mistake in self.mistakes)
        words = [_count(count - opened, "mistake")] if count > opened else []
        words += [_count(opened, "open question")] if opened else []
        stopped = " (there may be more: reading stopped here)" if count >= MOST_KEPT else ""
        head = f"{self.scene} cannot be used: {', '.join(words)}{stopped}. Nothing was written."
        return "\n\n".join([head, *shown, *more])

    def __str__(self) -> str:
        return self.report()


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _groups(mistakes: Sequence[Mistake]) -> list[list[Mistake]]:
    """Mistakes that differ by their entry alone, and in a list by what came, together; ranks in order,
    within one what more entries share first."""
    found: dict[Mistake, list[Mistake]] = {}
    for mistake in mistakes:
        in_list = mistake.entry.startswith("row ") and not mistake.table.startswith("[")
        came = "" if in_list else mistake.came
        plain = mistake._replace(entry="", choices=(), came=came)
        found.setdefault(plain, []).append(mistake)
    return sorted(found.values(), key=lambda group: (group[0].rank, -len(group)))


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
    """The place being read. `columns` names the spreadsheet column of each key, if there is one, and `rows`
    its row, if that is not the entry's: in a table that is turned on its side."""

    file: str
    table: str
    entry: str = ""
    columns: dict[str, str] | None = None
    rows: dict[str, int] | None = None

    def mistake(self, key: str, wrong: Wrong, came: str) -> Mistake:
        """`wrong` at this place."""
        column = self.columns.get(key) if self.columns else None
        shown = f"column {column} ({key})" if column else key
        row = self.rows.get(key) if self.rows else None
        return Mistake(
            self.file,
            self.table,
            f"row {row}" if row else self.entry,
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
