"""What each column of a table holds: by its heading, and by its cells where no heading tells."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.byvalues import NEARLY, Cells, Held, by_values, numbers_among, told
from aimcalc.scene.headings import (
    AGAIN,
    APART,
    AT_PARTS,
    COUPLED,
    KEYS,
    MARK,
    REMARK,
    SIDE,
    Meaning,
    meaning,
    meaning_words,
    misspelled,
)
from aimcalc.scene.listrow import blank, is_ditto
from aimcalc.scene.mistakes import CLASH, Wrong, show
from aimcalc.scene.tradewords import LENGTHS

MOST_UNHEADED = 200  # columns beyond the last heading
LOOKED_THROUGH = 40  # cells of a column that say what it holds
FITTING = 0.6  # of its cells that fit a key, for a column to be taken for it

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
    texts += [""] * (min(width, len(texts) + MOST_UNHEADED) - len(texts))
    keys, asked = _settled(texts, settled)
    meanings = {k: meaning(text) for k, text in enumerate(texts) if text and k not in keys}
    taken = set(keys.values())
    share = _Shares(below, fits)
    for k, found in meanings.items():
        if found.keys == ("at",) and share("which side", k) == 1.0:
            meanings[k] = found._replace(keys=(SIDE,), unit="")  # "L/R of center" beside feet
    claims: dict[str, list[int]] = {}
    for exact in (True, False):
        for k, found in meanings.items():
            one = len(found.keys) == 1 and not found.fitting
            if found.exact is exact and one and found.keys[0] not in taken:
                claims.setdefault(found.keys[0], []).append(k)
        if exact:
            taken |= {key for key, columns in claims.items() if len(columns) == 1}
    _give_way(claims, meanings, share)
    values = Cells(below, fits)
    holds = _number_among(claims, keys, values)
    _twice_placed(claims, keys, meanings)
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
    _parts_alone(keys, meanings)
    _no_places(keys, share)
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


def _twice_placed(
    claims: dict[str, list[int]], keys: dict[int, str], meanings: dict[int, Meaning]
) -> None:
    """Take the second of two columns of places for the same again, where one counts from an end and the other
    does not, or they are in two units: they must agree, row by row."""
    if len(claims.get("at", ())) != 2:
        return
    first, second = claims["at"]
    one, other = meanings[first], meanings[second]
    two_units = one.unit and other.unit and one.unit != other.unit
    if bool(one.end) != bool(other.end) or two_units:
        if not (one.end or one.plus) and (other.end or other.plus):
            first, second = second, first
        claims["at"], keys[second] = [first], AGAIN


def _parts_alone(keys: dict[int, str], meanings: dict[int, Meaning]) -> None:
    """Take feet or inches alone for the whole place: "(inches)" over 150."""
    held = set(keys.values())
    for part, other, unit in (("at_feet", "at_inches", "ft"), ("at_inches", "at_feet", "in")):
        if part in held and not {"at", other} & held:
            k = next(k for k, key in keys.items() if key == part)
            keys[k], meanings[k] = "at", meanings.get(k, Meaning())._replace(unit=unit)


def _no_places(keys: dict[int, str], share: _Shares) -> None:
    """Free a column headed as that of places which holds none, where another holds them."""
    for k, key in list(keys.items()):
        if key == "at" and share("at", k) == 0.0 and any(map(share.of_places, range(share.width))):
            del keys[k]


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
    keys |= {k: "at" for k, key in keys.items() if key == SIDE and share.of_places(k)}
    if "at" in keys.values():
        return None
    free = [
        k
        for k in range(len(texts))
        if share.of_places(k)
        and (k not in keys or k in meanings)
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
    meanings |= {k: Meaning() for k in free if k not in meanings}
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


SOME_SIDES = 0.25  # of a column of lengths that have a side, for it to be one of places


class _Shares:
    """What share of a column's filled cells can be values of a key."""

    def __init__(self, below: Sequence[list[Any]], fits: Fits) -> None:
        self.below, self.fits = below, fits
        self.width = max(map(len, below), default=0)

    def of_places(self, column: int) -> bool:
        """Whether cells are places, whatever the heading: most with a side, or some among lengths alone."""
        sided = self("place", column)
        return sided >= FITTING or (sided >= SOME_SIDES and self("at", column) >= NEARLY)

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
                AGAIN: "at a second time, which must agree",
                "at_metres": "at: its metres",
                "at_centimetres": "at: its centimetres",
                APART: "nothing: apart from the table",
                **dict.fromkeys(COUPLED, "channel and circuit"),
            }[key]
        rows.append((column.letters, column.heading, holds))
    return rows
