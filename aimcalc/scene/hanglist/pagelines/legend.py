"""What a hang list says that its codes stand for: "F = fresnel" in a line, or a key of two columns beside or
below its units, or on a sheet of its own."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headings import meaning
from aimcalc.scene.hanglist.names.spelling import fold_code
from aimcalc.scene.hanglist.pagelines.legendlists import NOTHING, SIDE, Spelled, may_tell, told_by
from aimcalc.scene.hanglist.pagelines.titles import said_by
from aimcalc.scene.hanglist.rows.listrow import blank, text_of

MOST_ROWS = 2000  # of a sheet that are looked through for a key
MOST_LINES = 100  # first and last of those that may tell names in a list or a sentence
MOST_CELLS = 3  # of a row of a key: a code, what it stands for, a remark
LONGEST_CODE = 8
LONGEST_MEANING = 60
FEWEST_PAIRS = 2  # rows of a sheet that is a legend by its rows

# What a code may name, by the key that holds it: its meaning and the code, and the name of the scene.
Finder = Callable[[str, str], str | None]


class Legend(NamedTuple):
    """The names that codes stand for, by key and `fold_code` of the code, and the rows that say no more."""

    codes: dict[str, dict[str, str]]
    rows: frozenset[str]  # each as `letters_of` it

    def without_its_rows(self, rows: Iterable[list[Any]]) -> Iterable[list[Any]]:
        """The rows of a sheet, with nothing in those that say what codes stand for."""
        if not self.rows:
            return rows
        each = ([""] * len(row) if letters_of(row) in self.rows else row for row in rows)
        return list(each) if isinstance(rows, list) else each


class Said(NamedTuple):
    """A row that may say what codes stand for."""

    row: str
    pairs: tuple[tuple[str, str], ...]  # codes and their meanings
    alone: bool  # the row says nothing else
    line: str = ""  # its cells one behind the other
    loose: bool = False  # no word says that it is of a key: its code is no name of the scene


def letters_of(row: list[Any]) -> str:
    """The letters and figures of a row, however its cells are parted."""
    return "".join(char for cell in row for char in text_of(cell) if char.isalnum())


def rows_of_text(text: str) -> list[list[Any]]:
    """The lines of a text, parted as their cells may be."""
    return [_PARTED.split(line) for line in text.splitlines()[:MOST_ROWS]]


def is_legend(sheet: str) -> bool:
    """Whether a sheet is a legend by its name."""
    return bool(_KEY.fullmatch(sheet))


def says_of_all(sheet: str) -> bool:
    """Whether what a sheet says of places holds for the tables of the others, by its name."""
    return is_legend(sheet) or bool(_NOTES.fullmatch(sheet))


def is_keyed(row: Sequence[Any]) -> bool:
    """Whether each of several cells of a row says what a code stands for, of the scene's names or not, "OW =
    open white": none is a unit's."""
    cells = [text_of(cell).strip() for cell in row if not blank(cell)]
    keys = [cell for cell in cells if not _KEY.fullmatch(cell)]
    return len(cells) > 1 and bool(keys) and all(map(_STANDS_FOR.fullmatch, keys))


def said_beside(sheets: Iterable[tuple[str, list[list[Any]]]]) -> list[list[Any]]:
    """The rows that say how places of every sheet are read: those of a sheet of notes, and of any other the
    lines that tell which side plus is, or whose left and right is meant."""
    named = list(sheets)
    found = [row for name, rows in named if says_of_all(name) for row in rows[:MOST_ROWS]]
    if len(named) > 1:
        others = (row for name, rows in named if not says_of_all(name) for row in rows[:MOST_ROWS])
        lines = (row for row in others if 0 < sum(not blank(cell) for cell in row) <= MOST_CELLS)
        found += [row for row in lines if _of_sides(row)]
    return found


def _of_sides(row: list[Any]) -> bool:
    said = said_by([(1, row)])
    return bool(said.plus or said.bare or said.sides)


def said_in(rows: Iterable[list[Any]], sheet: str) -> list[Said]:
    """The rows of a sheet that may say what codes stand for."""
    looked = rows if isinstance(rows, list) else list(rows)
    return list(_said(looked, is_legend(sheet) or _is_of_pairs(looked)))


def _is_of_pairs(rows: Sequence[list[Any]]) -> bool:
    """Whether a sheet holds nothing but short codes, no two the same, each beside something longer: a legend,
    whatever it is called."""
    if len(rows) > MOST_ROWS:
        return False
    each = [[text_of(cell).strip() for cell in row if not blank(cell)] for row in rows]
    each = [cells for cells in each if cells]
    if len(each) < FEWEST_PAIRS or any(len(cells) != len(("code", "meaning")) for cells in each):
        return False
    return any(
        sum(len(code) <= LONGEST_CODE and len(code) < len(said) for code, said in pairs)
        >= len(each) - 1
        and len({code for code, _ in pairs}) == len(each)
        for pairs in (each, [cells[::-1] for cells in each])
    )


def legend_of(
    said: Iterable[Said],
    finders: Mapping[str, Finder],
    spelled: Mapping[str, Spelled],
    loosely: Mapping[str, Spelled],
) -> Legend:
    """What the rows say, of those codes that stand for a name of the scene, and for one alone. `spelled`
    finds the names that a line may tell several of, `loosely` those that it tells short."""
    codes: dict[str, dict[str, str]] = {key: {} for key in finders}
    twice: set[tuple[str, str]] = set()
    rows: set[str] = set()
    each_said = list(said)
    tried = [k for k, row in enumerate(each_said) if row.line]
    tried_of = {*tried[:MOST_LINES], *tried[-MOST_LINES:]}
    for number, row in enumerate(each_said):
        told = told_by(row.line, spelled, loosely) if number in tried_of else NOTHING
        if row.pairs:  # beside the cells of a unit, which are no part of the code
            told = told._replace(
                found=tuple(each for each in told.found if each[1].count(",") < MOST_CELLS)
            )
        listed = {key for key, _, _ in told.found} - {"kind"}  # short words for it are found too
        if row.loose and any(find(code) for code, _ in row.pairs for find in spelled.values()):
            continue
        named = _named if row.line else _either  # "Door = DSL" may be where the door is
        found = [named(code, meaning, finders) for code, meaning in row.pairs]
        others = [[one for one in each if one[0] not in listed] for each in found]
        for each in (*others, [(key, fold_code(code), name) for key, code, name in told.found]):
            for key, code, name in each:
                if codes[key].setdefault(code, name) != name:
                    twice.add((key, code))
        if told.alone or (row.alone and found and all(found)):
            rows.add(row.row)
    for key, code in twice:
        del codes[key][code]
    return Legend(codes, frozenset(rows))


def _either(code: str, meaning: str, finders: Mapping[str, Finder]) -> list[tuple[str, str, str]]:
    """What a code stands for, or else the words before it, in two cells of a legend: "Beam 1" beside "B1"."""
    is_code = len(meaning) <= LONGEST_CODE and len(meaning) < len(code) and not meaning.isdecimal()
    turned = is_code and not SIDE.fullmatch(meaning) and _named(meaning, code, finders)
    return turned or _named(code, meaning, finders)


def _named(code: str, meaning: str, finders: Mapping[str, Finder]) -> list[tuple[str, str, str]]:
    """The keys in which a code stands for a name, each with the code and the name: "19 / 26 = ERS" and
    "DC / DL = Downstage Centre / Downstage Left" are two codes each."""
    parts = [part.strip() for part in code.split("/")]
    meanings = [part.strip() for part in meaning.split("/")]
    alike = len(parts) == len(meanings) > 1
    each = list(zip(parts, meanings, strict=True)) if alike else []
    for pairs in (each, [(part, meaning) for part in parts]):
        found = [
            [
                (key, fold_code(one), name)
                for key, find in finders.items()
                if (name := find(said, one))
            ]
            for one, said in pairs
        ]
        if found and all(found):
            return [named for one in found for named in one]
    return []


def _said(rows: Iterable[list[Any]], is_key: bool) -> Iterator[Said]:
    in_key = is_key
    rows = list(islice(rows, MOST_ROWS))
    loose = frozenset() if is_key else _in_pairs(rows)
    beside = False  # a key stands beside the units, under its word
    explains = False  # or under "area | what is there"
    headings: set[str] = set()  # of which one stands alone over a key of its column
    for number, row in enumerate(rows):
        beside = beside or _has_key_beside(row)
        explains = explains or (not beside and _explains_beside(row))
        if (beside or explains) and (pair := _pair_behind(row)):
            yield Said("", (pair,), False, loose=not beside)
        cells = [text_of(cell).strip() for cell in row if not blank(cell)]
        if not cells:
            in_key = is_key
            continue
        pairs, alone = _equated(cells)
        line = ", ".join(cells)
        if len(cells) > MOST_CELLS and not headings:
            headings = {cell.casefold() for cell in cells}
        if pairs:
            yield Said(letters_of(row), pairs, alone, line)
        elif len(cells) > MOST_CELLS:
            in_key = is_key
            if may_tell(line):  # and is no row of a unit
                yield Said(letters_of(row), (), False, line)
        elif any(_KEY.fullmatch(cell) for cell in cells) or _heads(cells, headings):
            in_key = True
        elif len(cells) > 1 and in_key and len(cells[0]) <= LONGEST_KEY_CODE:
            yield Said(letters_of(row), ((cells[0], cells[1]),), True)
        elif number in loose:
            yield Said(letters_of(row), ((cells[0], cells[1]),), True, loose=True)
        elif len(cells) == 1 and (colon := (_COLON if in_key else _LETTER).fullmatch(cells[0])):
            yield Said(letters_of(row), ((colon[1], colon[2]),), in_key, line)
        elif len(cells) <= MOST_CELLS:
            yield Said(letters_of(row), (), False, line)


def _heads(cells: Sequence[str], headings: Collection[str]) -> bool:
    """Whether a row is one of the headings with a colon, "T:" of a column T: a key of it may stand below."""
    alone = cells[0] if len(cells) == 1 else ""
    return alone.endswith(":") and alone.rstrip(" :").casefold() in headings


def _has_key_beside(row: Sequence[Any]) -> bool:
    """Whether a row of headings has the word for a key behind an empty cell."""
    if sum(not blank(cell) for cell in row) <= MOST_CELLS:
        return False
    said = (k for k in range(2, len(row)) if blank(row[k - 1]) and isinstance(row[k], str))
    return any(_KEY.fullmatch(row[k]) for k in said)


def _explains_beside(row: Sequence[Any]) -> bool:
    """Whether a row of headings ends, behind an empty cell, in one of names and a word that is none."""
    heads = _pair_behind(row)
    of_names = heads and {"target", "position", "kind"} & set(meaning(heads[0]).keys)
    return bool(heads and of_names and not meaning(heads[1]).keys)


def _pair_behind(row: Sequence[Any]) -> tuple[str, str] | None:
    """The last two cells of a row behind an empty one: a code and what it stands for."""
    last = [text_of(cell).strip() for cell in row]
    while last and not last[-1]:
        last.pop()
    behind = len(last) > MOST_CELLS and not last[-3] and last[-2]
    return (last[-2], last[-1]) if behind else None


def _in_pairs(rows: Sequence[list[Any]]) -> frozenset[int]:
    """The rows of two cells each, a short code with a letter beside something longer, of which several stand
    one below the other after a blank row: a key at the foot without a word for it."""
    found: set[int] = set()
    run: list[int] = []
    apart = True  # nothing but such rows since the blank one
    for number, row in enumerate([*rows, []]):
        cells = [cell for cell in row if not blank(cell)]
        is_pair = len(cells) == len(("code", "meaning")) and not blank(row[0])
        cells = [text_of(cell).strip() for cell in cells] if is_pair else cells
        if is_pair and apart and _PAIR_CODE.fullmatch(cells[0]) and len(cells[0]) < len(cells[1]):
            run.append(number)
            continue
        if not cells and len(run) >= FEWEST_PAIRS:
            found |= set(run)
        run, apart = [], not cells
    return frozenset(found)


_PAIR_CODE = regex(r"(?=.{1,8}$)(?!\d+$)\w+(?:[ ./-]\w+)?")
LONGEST_KEY_CODE = 24  # with several codes in it


def _equated(cells: list[str]) -> tuple[tuple[tuple[str, str], ...], bool]:
    """The codes and meanings of the cells that have a sign between them, and whether the row has no more."""
    if not any("=" in cell for cell in cells):
        return (), False
    first = next(k for k, cell in enumerate(cells) if "=" in cell)
    text = "  ".join(cells[first:])
    codes = list(_CODES.finditer(text))
    if not codes or any(_SIGNED.fullmatch(code[1]) for code in codes):
        return (), False
    ends = [code.start() for code in codes[1:]] + [len(text)]
    pairs = []
    more = _SENTENCE.search(text, codes[-1].end())  # of something else, behind the key
    ends[-1] = more.start() if more else ends[-1]
    for code, end in zip(codes, ends, strict=True):
        meaning = text[code.end() : end].strip(' =,;.·|"\t')
        if meaning and len(meaning) <= LONGEST_MEANING:
            pairs.append((code[1], re.split(r"\s{2,}|[;|]", meaning)[0].strip(" ,")))
    begun = text[: codes[0].start()]
    return tuple(pairs), first == 0 and len(begun.split()) < 2 and more is None


_SENTENCE = regex(r"(?<=\w)\.\s+(?=[^\W\d]+(?:\s+\w+){3})")  # four words or more
_STANDS_FOR = regex(rf"[^\s=][^=]{{0,{LONGEST_KEY_CODE - 1}}}=[^=]*[^\W_].*")
_PARTED = regex(r"\t|\s{2,}|[;|]|(?<!\d),|,(?!\d)")  # and at no decimal comma
# "F6 / F8 =" of "F6 / F8 = fresnel, P = par64 mfl".
# Or a sign that is drawn: "[] = profile   > = PC", "(x) = fresnel".
_SIGN = r"[^\w\s=,;|/\"]{1,3}|[(\[{<][^\w\s]?\w?[)\]}>]"
_CODE = rf"(?:[^\W_][\w.]{{0,{LONGEST_CODE - 1}}}|{_SIGN})"
_CODES = regex(rf"(?<![^\s,;:(|\"])({_CODE}(?:\s*/\s*{_CODE})*)\s*=\s*")
_SIGNED = regex(r"[+−–-]|plus|minus|posi\w*|nega\w*", re.IGNORECASE)  # "+ = Tower West" is a side
_COLON = regex(r"(\w[\w. /]{0,20}?)\s*(?::|->|→|\s[-\u2013\u2014])\s*(.{2,60})")
_LETTER = regex(r"([A-Z]{1,2})\s*(?::|->|→|\s[-\u2013\u2014])\s*(.{2,60})")  # without words over it
_NOTES = regex(
    r"\W*(?:read\W?me|(?:general\W+|lx\W+)?(?:notes?|info|information|conventions?))\W*",
    re.IGNORECASE,
)
_KEY = regex(
    r"\W*(?:[^\W\d_]+\s+){0,2}(?:key|legend|codes?|symbols?|abbr\w*|legende|légende|leyenda|legenda|codici|codes?"
    r"|abréviations?|abkürzungen|zeichenerklärung|teckenförklaring|forklaring|símbolos|simboli|symbole)"
    r"(?:\s+(?:to|of|for)\b[^\d]{0,30}|\s+[^\W\d_]+)?\W*",
    re.IGNORECASE,
)
