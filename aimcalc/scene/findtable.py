"""The table on a sheet: where its headings stand, what each column holds, which rows are units and
which are not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import chain, islice
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.byvalues import Cells, Held, by_values, numbers_among, told
from aimcalc.scene.headings import (
    APART,
    AT_PARTS,
    COUPLED,
    KEYS,
    MARK,
    REMARK,
    SIDE,
    Meaning,
    heading_score,
    meaning,
    meaning_words,
    misspelled,
)
from aimcalc.scene.listrow import blank, is_ditto
from aimcalc.scene.mistakes import CLASH, FILE, Wrong, show
from aimcalc.scene.tradewords import LENGTHS

LOOKED_AT = 200  # first rows among which headings are looked for
ENOUGH = 4  # keys in one row, after which no better headings are looked for far below
LOOKED_THROUGH = 40  # cells of a column that say what it holds
FITTING = 0.6  # of its cells that fit a key, for a column to be taken for it
FIRST_OF_ALL = ("position", "number", "at", "kind", "target")

Fits = Callable[[str, Any], bool | None]  # key and cell; None: the key says nothing about its cells


class Column(NamedTuple):
    """One column: its place, its heading, what it holds and how that was found."""

    place: int  # counted from 0
    heading: str
    key: str  # a unit's key, `side`, `height`, `lens`, or `remark`
    meaning: Meaning = Meaning()
    settled: bool = False  # by [hang_columns]
    holds: str = ""  # what its cells hold, where they and no heading tell its key

    @property
    def letters(self) -> str:
        """The spreadsheet's letters of it."""
        return column_letters(self.place)


class Headings(NamedTuple):
    """Where the headings stand (rows from 1), and the columns."""

    first: int
    last: int
    columns: tuple[Column, ...]

    @property
    def by_key(self) -> dict[str, Column]:
        """The column of each key but `remark`."""
        return {column.key: column for column in self.columns if column.key not in (REMARK, APART)}


class Head(NamedTuple):
    """The first rows of a sheet, its rows of headings among them, and the rest still to be read."""

    rows: list[list[Any]]
    first: int  # index of the first row of headings; -1 where there are none
    last: int
    score: int
    rest: Iterable[list[Any]]

    def headings(self) -> list[Any]:
        """The cells of the headings, those over more lines than one joined."""
        rows = self.rows[self.first : self.last + 1]
        return rows[0] if len(rows) == 1 else joined(*rows)

    def all_rows(self) -> Iterable[list[Any]]:
        """Every row of the sheet."""
        return chain(self.rows, self.rest)


def find_head(rows: Iterable[list[Any]]) -> Head:
    """Where the headings of a sheet are: the first of the rows that name the most keys, two lines
    where they do so together."""
    rest = iter(rows)
    head = list(islice(rest, LOOKED_AT))
    scores: list[int] = []
    for row in head:
        scores.append(heading_score(row))
        if max(scores) >= ENOUGH and scores.index(max(scores)) < len(scores) - 5:
            break  # what comes below are units
    best = max(scores, default=0)
    if not best:
        scores = [heading_score(row, near=True) for row in head[:LOOKED_THROUGH]]
        best = max(scores, default=0)
    if not best:
        return Head(head, -1, -1, 0, rest)
    at = scores.index(best)
    for above, below in ((1, 1), (2, 0), (0, 2), (1, 0), (0, 1)):
        first, last = at - above, at + below
        if first >= 0 and last < len(head) and _as_one(head[first : last + 1], best):
            return Head(head, first, last, heading_score(joined(*head[first : last + 1])), rest)
    return Head(head, at, at, best, rest)


def _as_one(rows: list[list[Any]], best: int) -> bool:
    """Whether rows are one heading over two or three lines: together they name no less, and all say
    something."""
    for row in rows:
        words = [cell for cell in row if not blank(cell)]
        if len(words) < 2 or not all(
            isinstance(w, str) and any(map(str.isalpha, w)) and not any(map(str.isdigit, w))
            for w in words
        ):
            return False
    every = joined(*rows)
    fewer = (joined(*rows[:k], *rows[k + 1 :]) for k in range(len(rows)))
    return heading_score(every) >= best and all(every != joined(each, []) for each in fewer)


def joined(*rows: list[Any]) -> list[str]:
    """Rows of headings as one."""
    width = max(map(len, rows))
    cells = []
    for k in range(width):
        parts = [row[k] for row in rows if k < len(row) and not blank(row[k])]
        cells.append(" ".join(str(part).strip() for part in parts))
    return cells


def headings_of(
    cells: Sequence[Any],
    place: tuple[int, int],
    below: Sequence[list[Any]],
    fits: Fits,
    settled: dict[str, Any],
    *,
    placed: bool = False,
) -> tuple[Headings, list[tuple[int, Wrong]]]:
    """What each column holds, by its heading and its cells below, and what must be asked, by column.

    Args:
        cells: the headings.
        place: first and last row of them, from 1.
        below: the rows under them that are looked at.
        fits: whether a cell can be a value of a key.
        settled: `[hang_columns]`: headings or letters by key, and those under `remark`.
        placed: whether the name of the sheet is the position of its units.
    """
    texts = ["" if blank(cell) else " ".join(str(cell).split()) for cell in cells]
    width = max([len(texts), *(len(row) for row in below)], default=0)
    texts += [""] * (min(width, len(texts) + LOOKED_AT) - len(texts))
    keys, asked = _settled(texts, settled)
    meanings = {k: meaning(text) for k, text in enumerate(texts) if text and k not in keys}
    taken = set(keys.values())
    claims: dict[str, list[int]] = {}
    for exact in (True, False):
        for k, found in meanings.items():
            one = len(found.keys) == 1 and not found.fitting
            if found.exact is exact and one and found.keys[0] not in taken:
                claims.setdefault(found.keys[0], []).append(k)
        if exact:
            taken |= {key for key, columns in claims.items() if len(columns) == 1}
    share = _Shares(below, fits)
    _give_way(claims, meanings, share)
    values = Cells(below, fits)
    holds = _number_among(claims, keys, values)
    for key, several in claims.items():
        found_column, wrong = _choose(key, several, texts, meanings, share)
        if wrong is not None:
            asked.append((several[-1], wrong))
        if found_column is not None:
            keys[found_column] = key
    taken = set(keys.values())
    claimed = {k for several in claims.values() for k in several}
    for k, found in meanings.items():
        left = [key for key in found.keys if key not in taken]
        if k not in keys and k not in claimed and (len(found.keys) > 1 or found.fitting) and left:
            key = max(left, key=lambda one: (share(one, k) >= FITTING, -left.index(one)))
            if found.fitting and share(key, k) < FITTING:
                continue
            keys[k] = key
            taken.add(key)
    for k, found in list(meanings.items()):
        if k not in keys and k not in claimed and not found.keys:
            near = misspelled(texts[k])
            if near.keys and near.keys[0] not in taken and share(near.keys[0], k) != 0.0:
                keys[k], meanings[k] = near.keys[0], near
                taken.add(near.keys[0])
    for k in meanings:
        if k not in keys and SIDE not in keys.values() and share("which side", k) == 1.0:
            keys[k] = SIDE
    _by_cells(keys, meanings, share)
    fixed = frozenset(k for k in keys if k not in meanings or meanings[k].exact or k in holds)
    held = by_values(keys, fixed, texts, values, placed=placed)
    asked += _held(held, keys, meanings, texts)
    holds |= held.says
    if not {"at", *AT_PARTS} & set(keys.values()):
        question = _place_by_cells(keys, meanings, texts, share)
        if question is not None:
            asked.append(question)
    for k, key in keys.items():
        if key == "at" and k in meanings and set(meaning_words(texts[k])) <= _MARKS:
            counted = not meanings[k].unit and share("mark", k) == 1.0
            if counted:
                meanings[k] = meanings[k]._replace(unit=MARK)
                holds[k] = f"{told(values.of(k))}, which count the marks of the pipe"
    for k, key in list(keys.items()):
        said = SIDE in keys.values() or k not in meanings or not meanings[k].sides
        if key == "at" and not said and share("which place", k) == 0.0:
            del keys[k]  # which side each cell is on, nobody says
    by_settling = {k for k in keys if k not in meanings}
    first_apart = _apart(texts, below, keys)
    if first_apart is not None:
        keys |= dict.fromkeys(range(first_apart, len(texts)), APART)
    columns = tuple(
        Column(
            k,
            text,
            keys.get(k, REMARK),
            meanings.get(k, Meaning()),
            k in by_settling,
            holds.get(k, ""),
        )
        for k, text in enumerate(texts)
        if text or k in keys or any(k < len(row) and not blank(row[k]) for row in below)
    )
    return Headings(*place, columns), asked


def _number_among(
    claims: dict[str, list[int]], keys: dict[int, str], values: Cells
) -> dict[int, str]:
    """Take for the number the one of two columns of positions that holds numbers; what it holds."""
    number = None
    if "number" not in claims and "number" not in keys.values():
        number = numbers_among(claims.get("position", []), values)
    if number is None:
        return {}
    claims["position"].remove(number)
    claims["number"] = [number]
    return {number: told(values.of(number))}


def _held(
    held: Held, keys: dict[int, str], meanings: dict[int, Meaning], texts: list[str]
) -> list[tuple[int, Wrong]]:
    """Give columns what their cells tell, and ask which where several may be it."""
    for k in held.freed:
        del keys[k]
    keys |= held.keys
    for k in held.keys:
        meanings[k] = Meaning()  # of what it holds, its heading says nothing
    return [(several[-1], _which(key, several, texts)) for key, several in held.doubtful.items()]


_UNITS = ("number", "kind", "position")


def _by_cells(keys: dict[int, str], meanings: dict[int, Meaning], share: _Shares) -> None:
    """Give a column that its heading calls the number, the kind or the position of a unit, and that holds
    none, to another of the three that it does hold and nobody else: "Instrument" over 1, 2, 3."""
    for k, found in meanings.items():
        mine = keys.get(k)
        unfit = mine in _UNITS and share(mine, k) == 0.0
        spare = mine is None and bool({"kind", "number"} & set(found.keys))
        if (unfit or spare) and mine not in [key for j, key in keys.items() if j != k]:
            for key in ("number", "kind", "position"):
                if key not in keys.values() and share(key, k) >= FITTING and not found.exact:
                    keys[k] = key
                    break


def _place_by_cells(
    keys: dict[int, str], meanings: dict[int, Meaning], texts: list[str], share: _Shares
) -> tuple[int, Wrong] | None:
    """Find the column of places where no heading tells it: the one whose cells are places, under a
    heading of something else that they are not; or the lengths beside a column of sides."""
    keys |= {k: "at" for k, key in keys.items() if key == SIDE and share("place", k) >= FITTING}
    if "at" in keys.values():
        return None
    free = [
        k
        for k in meanings
        if share("place", k) >= FITTING
        and (k not in keys or (not meanings[k].exact or share(keys[k], k) == 0.0))
        and (k not in keys or share(keys[k], k) <= 0.0)
    ]
    side = next((k for k, key in keys.items() if key == SIDE), None)
    if not free and side is not None:
        beside = (k for k in (side - 1, side + 1) if k in meanings and share("at", k) >= FITTING)
        free = [k for k in beside if not set(meaning_words(texts[k])) - _MAY_BE_PLACE][:1]
    if not free:
        if side is not None:
            _by_unit(side, keys, meanings, texts, share)
        return None
    _, wrong = _choose("at", free, texts, meanings, share)
    keys[free[0]] = "at"
    meanings[free[0]] = meanings[free[0]]._replace(exact=False)
    return None if wrong is None else (free[-1], wrong)


_MARKS = frozenset(("mark", "marks", "hang", "tape", "no"))


def _by_unit(
    side: int,
    keys: dict[int, str],
    meanings: dict[int, Meaning],
    texts: list[str],
    share: _Shares,
) -> None:
    """Take for the place what is beside the sides under a length unit alone: "Metres", or "m" and "cm"."""
    units = {
        k: LENGTHS[word]
        for k, text in enumerate(texts)
        if k not in keys
        and (word := text.casefold().strip(" .()[]")) in LENGTHS
        and share("at", k) >= FITTING
    }
    run = sorted(units)
    if not run or run[-1] - run[0] != len(run) - 1 or side not in (run[0] - 1, run[-1] + 1):
        return
    if len(run) == 1:
        keys[run[0]] = "at"
        meanings[run[0]] = Meaning(("at",), unit=units[run[0]])
    elif [units[k] for k in run] == ["m", "cm"]:
        keys |= dict(zip(run, ("at_metres", "at_centimetres"), strict=True))


# Words over lengths beside a column of sides that may be those of a place.
_MAY_BE_PLACE = frozenset(
    ("dimmer", "location", "position", "dimension", "amount", "no", "how", "far", "length", "away")
)


def _give_way(claims: dict[str, list[int]], meanings: dict[int, Meaning], share: _Shares) -> None:
    """Let a column spelled as a key give way to one that means the same, where its own cells never fit
    and the other's do: "Position" with places under it, beside "Pipe"."""
    for key, columns in claims.items():
        if len(columns) != 1 or not meanings[columns[0]].exact or share(key, columns[0]) != 0.0:
            continue
        others = [k for k, m in meanings.items() if m.keys == (key,) and share(key, k) >= FITTING]
        if len(others) == 1:
            claims[key] = others


def _apart(texts: list[str], below: Sequence[list[Any]], keys: dict[int, str]) -> int | None:
    """The first column beyond the table, where two empty ones part it from others that are no keys."""
    last = max(keys, default=-1)
    for k in range(last + 1, len(texts) - 2):
        if not any(
            texts[j] or any(j < len(row) and not blank(row[j]) for row in below) for j in (k, k + 1)
        ):
            return k + 2 if last >= 0 else None
    return None


class _Shares:
    """What share of a column's filled cells can be values of a key."""

    def __init__(self, below: Sequence[list[Any]], fits: Fits) -> None:
        self.below, self.fits = below, fits

    def __call__(self, key: str, column: int) -> float:
        """The share; -1 where the key says nothing about its cells, or there are none."""
        cells = [row[column] for row in self.below if column < len(row) and not blank(row[column])]
        cells = [cell for cell in cells if not is_ditto(cell)]
        fit = [self.fits(key, cell) for cell in cells[:LOOKED_THROUGH]]
        if not fit or None in fit:
            return -1.0
        return sum(map(bool, fit)) / len(fit)


def _choose(
    key: str, columns: list[int], texts: list[str], meanings: dict[int, Meaning], share: _Shares
) -> tuple[int | None, Wrong | None]:
    """The one of several columns that holds a key, or the question which."""
    if len(columns) == 1:
        return columns[0], None
    shares = [share(key, k) for k in columns]
    ranks = [meanings[k].rank for k in columns]
    fitting = [k for k, part in zip(columns, shares, strict=True) if part >= FITTING]
    if len(fitting) == 1 and max(shares) > 2 * sorted(shares)[-2]:
        return fitting[0], None
    first = [k for k, rank in zip(columns, ranks, strict=True) if rank == min(ranks)]
    if len(first) == 1:
        return first[0], None
    return columns[0], _which(key, columns, texts)


def _which(key: str, columns: list[int], texts: list[str]) -> Wrong:
    """The question which of several columns holds a key."""
    may_be = " or ".join(f'column {column_letters(k)} ("{texts[k]}")' for k in columns[:4])
    expected = f"one column that holds the {key}, and it may be {may_be}"
    do = f'Say which in the scene: [hang_columns] {key} = "{texts[columns[0]]}", or the column\'s letter.'
    return Wrong(expected, do, came=f"{len(columns)} of them", rank=CLASH)


def _settled(
    texts: list[str], settled: dict[str, Any]
) -> tuple[dict[int, str], list[tuple[int, Wrong]]]:
    """The keys of the columns that `[hang_columns]` names, and what is wrong with it."""
    keys: dict[int, str] = {}
    asked: list[tuple[int, Wrong]] = []
    plain = [text.casefold() for text in texts]
    for key, names in settled.items():
        for name in names if isinstance(names, (list, tuple)) else (names,):
            wanted = " ".join(str(name).split()).casefold()
            found = [k for k, text in enumerate(plain) if text == wanted]
            letters = wanted.removeprefix("column ").upper()
            if not found:
                found = [k for k in range(len(texts)) if column_letters(k) == letters]
            if len(found) != 1:
                known = tuple(text for text in texts if text)
                expected = f"[hang_columns] {key}: the heading of one column, or its letter"
                do = "Several have it: give the letter." if found else ""
                asked.append(
                    (
                        0,
                        Wrong(
                            expected,
                            do,
                            came=show(name),
                            choices=() if found else known,
                            rank=CLASH,
                        ),
                    )
                )
            else:
                keys[found[0]] = key
    return keys, asked


# --- Rows -----------------------------------------------------------------------------------------


def headings_again(row: list[Any], headings: Headings) -> int:
    """Whether a row below the headings is one of headings itself: 0 no, 1 the same ones, 2 others."""
    words = [cell for cell in row if not blank(cell)]
    if len(words) < 2 or not all(isinstance(word, str) for word in words):
        return 0
    mine = {c.place: c.heading.casefold() for c in headings.columns}
    same = sum(
        1
        for k, cell in enumerate(row)
        if not blank(cell) and " ".join(str(cell).split()).casefold() == mine.get(k)
    )
    if same == len(words):
        return 1
    known = sum(bool(meaning(word).keys) for word in words)
    if known == len(words) and heading_score(row) >= 3:
        return 2
    return 0


def no_table(head: Head, sheet: str) -> Wrong:
    """What to say of a sheet without headings."""
    first = next((row for row in head.rows if not all(map(blank, row))), [])
    told = [str(cell) for cell in first if not blank(cell)]
    place = f"sheet {sheet}: " if sheet else ""
    came = f"{place}{', '.join(map(show, told[:3]))}{' ...' if len(told) > 3 else ''}"
    do = "Write the headings in one row above the units, in the scene's words or the trade's."
    expected = f"a row of headings: {', '.join(FIRST_OF_ALL[:4])} ..."
    return Wrong(expected, do, came=came if told else "nothing", rank=FILE)


def column_letters(index: int) -> str:
    """The spreadsheet's letters of a column counted from 0: A, B ... Z, AA."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def column_table(headings: Headings) -> list[tuple[str, str, str]]:
    """Letters, heading and what each column holds, for a table of them."""
    rows = []
    for column in headings.columns:
        key = column.key
        if key in KEYS or key == "note":
            holds = key
        elif key == REMARK:
            holds = "note (kept as a remark)"
        else:
            holds = {
                "count": "how many units",
                "side": "at: its side",
                "height": "at, on a boom",
                "lens": "kind: its degrees",
                "at_SL": "at, on the SL side",
                "at_SR": "at, on the SR side",
                "at_feet": "at: its feet",
                "at_inches": "at: its inches",
                "at_metres": "at: its metres",
                "at_centimetres": "at: its centimetres",
                APART: "nothing: apart from the table",
                **dict.fromkeys(COUPLED, "channel and circuit"),
            }[key]
        rows.append((column.letters, column.heading, holds))
    return rows
