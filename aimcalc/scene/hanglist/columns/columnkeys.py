"""What each column of a table holds: by its heading, and by its cells where no heading tells."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.byvalues import Cells, Held, by_values, numbers_among, told
from aimcalc.scene.hanglist.columns.columnclaims import (
    FITTING,
    MARKS,
    Fits,
    Shares,
    aims_out,
    best_of,
    choose,
    dimensions_out,
    give_way,
    houses_name,
    kinds_elsewhere,
    kinds_run_out,
    newer,
    no_places,
    numbers_cables,
    one_a_row,
    parts_alone,
    place_by_cells,
    placed_positions,
    places_out,
    remarks_all,
    sides_alone,
    swapped,
    twice_placed,
    which_of,
)
from aimcalc.scene.hanglist.columns.headednames import headed_names
from aimcalc.scene.hanglist.columns.headings import (
    AGAIN,
    APART,
    AT_PARTS,
    COUNT,
    COUPLED,
    ELSE,
    GAP,
    HEIGHT,
    KEYS,
    MARK,
    REMARK,
    SIDE,
    UPSTAGE,
    Meaning,
    column_letters,
    meaning,
    meaning_words,
    misspelled,
)
from aimcalc.scene.hanglist.columns.numberclaims import initialled, restarting
from aimcalc.scene.hanglist.columns.sidecolumns import SIDES_ALONE, sides_first
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.mistakes import CLASH, Wrong, show

MOST_UNHEADED = 200  # columns beyond the last heading


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
    by_key: dict[str, Column] = {}  # noqa: RUF012 - of each key but `remark`, never changed

    def heading(self, key: str) -> str:
        """The heading of the column of a key; "" where there is none."""
        return self.by_key[key].heading if key in self.by_key else ""


def headings_of(
    cells: Sequence[Any],
    place: tuple[int, int],
    below: Sequence[list[Any]],
    fits: Fits,
    settled: dict[str, Any],
    *,
    placed: bool = False,
    supposed: dict[tuple[int, str], str] | None = None,
    plain: Callable[[str], str] = str,
) -> tuple[Headings, list[tuple[int, Wrong]]]:
    """What each column holds, by its heading and its cells below, and what must be asked, by column.

    Args:
        cells: the headings.
        place: first and last row of them, from 1.
        below: the rows under them that are looked at.
        fits: whether a cell can be a value of a key.
        settled: `[hang_columns]`: headings or letters by key, and those under `remark`.
        placed: whether the name of the sheet is the position of its units.
        supposed: keys of columns, by their place and heading, that are tried in place of what headings mean.
        plain: a heading with the ways of the scene in its words as us, ds, sl or sr.
    """
    fits = lru_cache(None, typed=True)(fits)  # the same words stand in many cells of a column
    texts = ["" if blank(cell) else " ".join(str(cell).split()) for cell in cells]
    width = max([len(texts), *(len(row) for row in below)], default=0)
    texts += [""] * (min(width, len(texts) + MOST_UNHEADED) - len(texts))
    keys, asked = _settled(texts, settled)
    meanings = {k: meaning(plain(text)) for k, text in enumerate(texts) if text and k not in keys}
    tried = _tried(texts, supposed or {}, meanings) if supposed else {}
    keys |= tried
    taken = set(keys.values())
    share = Shares(below, fits)
    for k, found in meanings.items():
        if found.keys == ("at",) and share("which side", k) == 1.0:
            meanings[k] = found._replace(keys=(SIDE,), unit="")  # "L/R of center" beside feet
    dimensions_out(texts, meanings, share)
    claims: dict[str, list[int]] = {}
    for exact in (True, False):
        for k, found in meanings.items():
            one = len(found.keys) == 1 and not found.fitting
            if found.exact is exact and one and found.keys[0] not in taken:
                claims.setdefault(found.keys[0], []).append(k)
        if exact:
            taken |= {key for key, columns in claims.items() if len(columns) == 1}
    give_way(claims, meanings, share)
    values = Cells(below, fits)
    holds = {k: told(values.of(k)) for k, key in tried.items() if key != REMARK}
    holds |= _number_among(claims, keys, values)
    places_out(claims, keys, share, placed=placed)
    houses_name(claims, texts, share)
    sides_first(claims, keys, share, texts, placed)
    if len(claims.get("at", ())) > 1:
        claims["at"] = [k for k in claims["at"] if share("words", k) < 1.0] or claims["at"]
    one_a_row(claims, keys, meanings, values)
    twice_placed(claims, keys, meanings)
    remarks_all(claims)
    kinds_run_out(claims, values)
    sides_alone(claims, share)
    kinds_elsewhere(claims, meanings, values)
    for key, several in claims.items():
        found_column, wrong = choose(key, several, texts, meanings, share)
        if wrong is not None:
            asked.append((several[-1], wrong))
        if found_column is not None:
            keys[found_column] = key
    taken = set(keys.values())
    claimed = {k for several in claims.values() for k in several}
    for k, found in meanings.items():
        left = [key for key in found.keys if key not in taken]
        if k not in keys and k not in claimed and (len(found.keys) > 1 or found.fitting) and left:
            key, fitting = best_of(left, k, share, values, keys)
            fitting = fitting or (key == "circuit" and numbers_cables(texts[k], k, values))
            none = key in ("kind", "target", "position") and share(key, k) == 0.0
            if none or (found.fitting and not fitting):
                continue
            keys[k] = key
            taken.add(key)
    for k, found in list(meanings.items()):
        if k not in keys and k not in claimed and not found.keys:
            near = misspelled(texts[k])
            lengths = share("length", k) >= FITTING or share("minus", k) > 0
            other = lengths and not {"at", HEIGHT} & set(near.keys)  # "Reads" over 1.2 m is no lead
            known = bool(near.keys) and near.keys[0] not in taken and not other
            if known and share(near.keys[0], k) != 0.0:
                keys[k], meanings[k] = near.keys[0], near
                taken.add(near.keys[0])
    for k in range(width):
        guessed = k in meanings and not meanings[k].exact
        said = k not in keys or (guessed and keys[k] in ("circuit", "channel", "system"))
        least = 1.0 if k in keys else SIDES_ALONE
        if said and SIDE not in keys.values() and share("which side", k) >= least:
            keys[k] = SIDE
    swapped(keys, meanings, share)
    aims_out(keys, meanings, share)
    holds |= restarting(keys, meanings, values)
    holds |= initialled(keys, meanings, values)
    parts_alone(keys, meanings, texts)
    together = None if placed else placed_positions(keys, meanings, values, texts)
    holds |= {} if together is None else {together: told(values.of(together))}
    holds |= {} if placed else headed_names(keys, texts, below, fits)
    no_places(keys, meanings, share)
    fixed = frozenset(k for k in keys if k not in meanings or meanings[k].exact or k in holds)
    held = by_values(keys, fixed, texts, values, placed=placed)
    asked += _held(held, keys, meanings, texts)
    holds |= held.says
    if not {"at", *AT_PARTS} & set(keys.values()):
        question = place_by_cells(keys, meanings, texts, share, values)
        if question is not None:
            asked.append(question)
    for k, key in keys.items():
        if key == "at" and k in meanings and set(meaning_words(texts[k])) <= MARKS:
            counted = not meanings[k].unit and share("mark", k) == 1.0
            if counted:
                meanings[k] = meanings[k]._replace(unit=MARK)
                holds[k] = f"{told(values.of(k))}, which count the marks of the pipe"
    for k, key in list(keys.items()):
        said = SIDE in keys.values() or k not in meanings or not meanings[k].sides
        if key == "at" and not said and share("which place", k) == 0.0:
            del keys[k]  # which side each cell is on, nobody says
    by_settling = {k for k in keys if k not in meanings}
    asked += newer(keys, texts, below)
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
    by_key = {column.key: column for column in columns if column.key not in (REMARK, APART)}
    return Headings(*place, columns, by_key), asked


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
    return [(several[-1], which_of(key, several, texts)) for key, several in held.doubtful.items()]


def _apart(texts: list[str], below: Sequence[list[Any]], keys: dict[int, str]) -> int | None:
    """The first column beyond the table, where empty ones part it from others that are no keys: two, or one
    before a count of something else."""
    last = max((k for k, key in keys.items() if key != COUNT), default=-1)
    gap = last + 1
    beyond = last >= 0 and any(k > gap for k in keys) and not texts[gap]
    if beyond and not any(gap < len(row) and not blank(row[gap]) for row in below):
        return gap + 1
    for k in range(last + 1, len(texts) - 2):
        if not any(
            texts[j] or any(j < len(row) and not blank(row[j]) for row in below) for j in (k, k + 1)
        ):
            return k + 2 if last >= 0 else None
    return None


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


def _tried(
    texts: list[str], supposed: dict[tuple[int, str], str], meanings: dict[int, Meaning]
) -> dict[int, str]:
    """The keys of the columns that are supposed to hold something; what else a heading says stays."""
    tried = {
        k: supposed[k, text.casefold()]
        for k, text in enumerate(texts)
        if (k, text.casefold()) in supposed
    }
    for k in tried.keys() & meanings.keys():
        meanings[k] = meanings[k]._replace(keys=(tried[k],), exact=True, fitting=False)
    return tried


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
                GAP: "at, from the unit before",
                UPSTAGE: "at, of pipes up and down the stage",
                AGAIN: "at a second time, which must agree",
                ELSE: "at, where its column is empty",
                "at_metres": "at: its metres",
                "at_centimetres": "at: its centimetres",
                APART: "nothing: apart from the table",
                **{key: key.replace("+", " and ") for key in COUPLED},
            }[key]
        rows.append((column.letters, column.heading, holds))
    return rows
