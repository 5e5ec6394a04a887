"""What each column of a table holds, by its heading, and by its cells where no heading tells: settled step by
step."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any

from aimcalc.scene.hanglist.columns.boomunits import headed_boom_unit
from aimcalc.scene.hanglist.columns.byvalues import by_values, told
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, Claiming, Fits, choose, which_of
from aimcalc.scene.hanglist.columns.columnkeys import (
    APART,
    AT_PARTS,
    COUNT,
    HEIGHT,
    REMARK,
    Column,
    Headings,
    Meaning,
    column_letters,
)
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.columns.headingwords import misspelled
from aimcalc.scene.hanglist.columns.keybeside import key_beside
from aimcalc.scene.hanglist.columns.kindnumbers import (
    numbers_on_positions,
    numbers_with_kinds,
    positions_headed_with_numbers,
)
from aimcalc.scene.hanglist.columns.laterplaces import moved_places, said_later
from aimcalc.scene.hanglist.columns.nameclaims import (
    aimed_better,
    aims_elsewhere,
    aims_out,
    best_of,
    give_way,
    headed_names,
    houses_name,
    initialled,
    kinds_elsewhere,
    kinds_run_out,
    number_among,
    numbers_cables,
    numbers_plugs,
    placed_positions,
    restarting,
    swapped,
)
from aimcalc.scene.hanglist.columns.ofelse import notes_out, of_else
from aimcalc.scene.hanglist.columns.placeclaims import (
    dimensions_out,
    feet_beside,
    later_of_two,
    marks_counted,
    no_places,
    one_a_row,
    parts_alone,
    place_by_cells,
    places_out,
    sides_alone,
    sides_by_cells,
    sides_unsaid,
    twice_placed,
    words_out,
)
from aimcalc.scene.hanglist.columns.placeheadings import one_unit, spoken_places
from aimcalc.scene.hanglist.columns.plugclaims import (
    desk_and_plug,
    french_plugs,
    lengths_of_cables,
    numbers_of_named,
    plugs_first,
    temperatures,
)
from aimcalc.scene.hanglist.columns.sidecolumns import sides_first
from aimcalc.scene.hanglist.columns.unclaimed import (
    aimed_at,
    both_in_one,
    heights_among_places,
    heights_with_places,
    joint_out,
    places_in_disguise,
    word_among,
)
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.mistakes import CLASH, Wrong, show

MOST_UNHEADED = 200  # columns beyond the last heading


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
    meanings = {
        k: meaning(plain(headed_boom_unit(text).rest))
        for k, text in enumerate(texts)
        if text and k not in keys
    }
    c = Claiming(texts, below, fits, keys, meanings, placed=placed)
    c.asked += asked
    if supposed:
        _suppose(c, supposed)
    for step in STEPS:
        step(c)
    columns = _columns(c)
    by_key = {column.key: column for column in columns if column.key not in (REMARK, APART)}
    return Headings(*place, columns, by_key), c.asked


def claimed_by_heading(c: Claiming) -> None:
    """Let each column whose heading means one key claim it, where none is settled for that: those spelled as
    a key before those that mean it."""
    taken = set(c.keys.values())
    for exact in (True, False):
        for k, found in c.meanings.items():
            one = len(found.keys) == 1 and not found.fitting
            if found.exact is exact and one and found.keys[0] not in taken:
                c.claims.setdefault(found.keys[0], []).append(k)
        if exact:
            taken |= {key for key, columns in c.claims.items() if len(columns) == 1}


def one_of_claimants(c: Claiming) -> None:
    """Settle each key that is claimed, and ask which column holds it where several may."""
    for key, several in c.claims.items():
        column, wrong = choose(key, several, c)
        if wrong is not None:
            c.asked.append((several[-1], wrong))
        if column is not None:
            c.keys[column] = key


def one_of_meanings(c: Claiming) -> None:
    """Settle each column whose heading may mean several keys, "Unit", or one where its cells are fit for it,
    by what is left of them."""
    for k, found in c.meanings.items():
        left = [key for key in found.keys if key not in c.keys.values()]
        if "target" in left[: len(left) - 1] and aimed_better(k, c):
            left.remove("target")
        several = len(found.keys) > 1 or found.fitting
        if k in c.keys or c.is_claimed(k) or not (several and left):
            continue
        key, fitting = best_of(left, k, c)
        fitting = fitting or (key == "circuit" and (numbers_cables(k, c) or numbers_plugs(k, c)))
        none = key in ("kind", "target", "position") and c.share(key, k) == 0.0
        if not none and (fitting or not found.fitting):
            c.keys[k] = key


def slips_of_keys(c: Claiming) -> None:
    """Take a heading that means nothing for the key that it is one slip off, "Postion", where nobody else has
    that and the cells do not speak against it: "Reads" over 1.2 m is no lead."""
    for k, found in list(c.meanings.items()):
        if k in c.keys or c.is_claimed(k) or found.keys:
            continue
        near = misspelled(c.texts[k])
        lengths = c.share("length", k) >= FITTING or c.share("minus", k) > 0
        other = lengths and not {"at", HEIGHT} & set(near.keys)
        other = other or (
            bool(near.keys) and near.keys[0] in _IN_FIGURES and c.share("figure", k) < FITTING
        )
        known = bool(near.keys) and near.keys[0] not in c.keys.values() and not other
        if known and c.share(near.keys[0], k) != 0.0:
            c.keys[k], c.meanings[k] = near.keys[0], near


_IN_FIGURES = (
    "point",
    "chord",
    COUNT,
)  # "Paint" over gels is no point, "Stock" no number of pieces


def held_by_cells(c: Claiming) -> None:
    """Give columns what their cells alone tell, and ask which where several may be it."""
    exact = (k for k in c.keys if k not in c.meanings or c.meanings[k].exact or k in c.holds)
    held = by_values(c.keys, frozenset(exact), c.texts, c.values, placed=c.placed)
    for k in held.freed:
        del c.keys[k]
    c.keys |= held.keys
    for k in held.keys:
        c.meanings[k] = Meaning()  # of what it holds, its heading says nothing
    c.asked += [(ks[-1], which_of(key, ks, c.texts)) for key, ks in held.doubtful.items()]
    c.holds |= held.says


def remarks_all(c: Claiming) -> None:
    """Keep every column of remarks: the first as the note, what the others say beside it."""
    if len(c.claims.get("note", ())) > 1:
        c.claims["note"] = c.claims["note"][:1]


def newer(c: Claiming) -> None:
    """Ask about a column that says again, and later, what another says: "New distance" beside "Distance";
    not where the scene says which it is."""
    by_key = {key: k for k, key in c.keys.items()}
    parts = [by_key[part] for part in AT_PARTS if part in by_key]
    by_key |= {"at": parts[-1]} if parts and "at" not in by_key else {}
    for k, text in enumerate(c.texts):
        filled = any(k < len(row) and not blank(row[k]) for row in c.below)
        rest, later = re.sub(_LATER, " ", text), said_later(k, c)
        if k in c.keys or not filled or (rest == text and not later):
            continue
        key = later or next(iter(meaning(rest).keys), "")
        said = key in by_key and key in ("at", "position", "kind", "target")
        settled = said and by_key[key] not in c.meanings  # by the scene
        if said and not settled and not any(asked in (k, by_key[key]) for asked, _ in c.asked):
            wrong = which_of(key, [by_key[key], k], c.texts)
            wrong.do += f' Or remark = "{text}", if that is of something else.'
            c.asked.append((k, wrong))


_LATER = r"(?i)\b(?:new|revised|updated|moved?(?:\s+to)?|changed(?:\s+to)?|now|actual|as\s+hung)\b"


# Each looks at what those before it left: their order is part of the rules.
STEPS: tuple[Callable[[Claiming], None], ...] = (
    # What headings mean, and which columns claim it.
    key_beside,
    spoken_places,
    feet_beside,
    dimensions_out,
    places_in_disguise,
    later_of_two,
    moved_places,
    lengths_of_cables,
    temperatures,
    of_else,
    notes_out,
    claimed_by_heading,
    # Which of several claims is kept.
    give_way,
    positions_headed_with_numbers,
    number_among,
    places_out,
    houses_name,
    sides_first,
    words_out,
    one_a_row,
    twice_placed,
    remarks_all,
    numbers_of_named,
    desk_and_plug,
    french_plugs,
    plugs_first,
    kinds_run_out,
    sides_alone,
    kinds_elsewhere,
    numbers_on_positions,
    # Each column gets its key.
    one_of_claimants,
    one_of_meanings,
    slips_of_keys,
    numbers_with_kinds,
    sides_by_cells,
    word_among,
    both_in_one,
    # What the cells below say against it.
    swapped,
    aims_out,
    aims_elsewhere,
    restarting,
    initialled,
    aimed_at,
    parts_alone,
    placed_positions,
    headed_names,
    joint_out,
    no_places,
    # What they tell where no heading does.
    held_by_cells,
    heights_with_places,
    place_by_cells,
    heights_among_places,
    marks_counted,
    sides_unsaid,
    newer,
    one_unit,
)


def _columns(c: Claiming) -> tuple[Column, ...]:
    """The columns of the table with their keys, those with nothing in them left out."""
    by_settling = {k for k in c.keys if k not in c.meanings}
    first_apart = _apart(c.texts, c.below, c.keys)
    if first_apart is not None:
        c.keys |= dict.fromkeys(range(first_apart, len(c.texts)), APART)
    return tuple(
        Column(
            k,
            text,
            c.keys.get(k, REMARK),
            c.meanings.get(k, Meaning()),
            k in by_settling,
            c.holds.get(k, ""),
        )
        for k, text in enumerate(c.texts)
        if text or k in c.keys or any(k < len(row) and not blank(row[k]) for row in c.below)
    )


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


def _suppose(c: Claiming, supposed: dict[tuple[int, str], str]) -> None:
    """Give columns the keys that they are supposed to hold; what else a heading says stays."""
    tried = {
        k: supposed[k, text.casefold()]
        for k, text in enumerate(c.texts)
        if (k, text.casefold()) in supposed
    }
    for k in tried.keys() & c.meanings.keys():
        c.meanings[k] = c.meanings[k]._replace(keys=(tried[k],), exact=True, fitting=False)
    c.keys |= tried
    c.holds |= {k: told(c.values.of(k)) for k, key in tried.items() if key != REMARK}
