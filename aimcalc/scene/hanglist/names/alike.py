"""Whether a word is another one spelled wrong, cut short or told by its first letters."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.spelling import fold_case

SHORTEST_NEAR = 4  # letters of a word that may be misspelled, by two where it is long
LONG_WORD = 8


def starts_short(name: str, came: str) -> bool:
    """Whether a word stands for the first letters of a name's first words, and the rest is the same: "BB SL"
    of Box Boom SL."""
    mine, theirs = came.casefold().split(), name.casefold().split()
    count = len(mine[0]) if mine else 0
    return (
        len(mine) > 1
        and 1 < count < len(theirs)
        and mine[0] == "".join(word[0] for word in theirs[:count])
        and mine[1:] == theirs[count:]
    )


def by_initials(came: str, names: Iterable[str]) -> dict[str, None]:
    """The one of several names that each word of `came` is a word of, or a letter the first of one: Tower
    East for "Tower E", where E is no electric; none where no letter tells."""
    mine = re.findall(r"\d+|[^\W\d_]+", fold_case(came))
    if not any(map(_is_letter, mine)) or all(map(_is_letter, mine)):
        return {}
    found = {name: None for name in names if _begin(mine, name)}
    return found if len(found) == 1 else {}


def _begin(mine: list[str], name: str) -> bool:
    theirs = re.findall(r"\d+|[^\W\d_]+", fold_case(name))
    return len(mine) == len(theirs) and all(
        a == b or (_is_letter(a) and b.startswith(a)) for a, b in zip(mine, theirs, strict=True)
    )


def _is_letter(word: str) -> bool:
    return len(word) == 1 and word.isalpha()


def initials_of(name: str) -> str:
    """The first letters of a name of two words or more, with its number, "sb1"; else nothing."""
    words = re.findall(r"[^\W\d_]+|\d+", name.casefold())
    letters = sum(word.isalpha() for word in words)
    return "".join(w if w.isdigit() else w[0] for w in words) if letters > 1 else ""


def may_run_together(came: str) -> bool:
    """Whether words may be a code without blanks: with a figure or in capitals; "track" is no Truss Rack."""
    return bool(_TOGETHER.fullmatch(came)) and (any(map(str.isdigit, came)) or came.isupper())


def run_together(came: str, name: list[str]) -> bool:
    """Whether a code without blanks is a beginning of each word of a name, in their order, with its side
    whole and its numbers: "LADSL1" of Ladder SL 1, "BMSL1" of Boom SL 1. `name` are its words and numbers."""
    words = [word for word in name if word.isalpha()]
    if len(words) < 2 or not may_run_together(came):
        return False
    plain = fold_case(came)
    numbers = [number.lstrip("0") for number in re.findall(r"\d+", plain)]
    theirs = [number.lstrip("0") for number in name if number.isdigit()]
    letters = re.sub(r"\d+", "", plain)
    turned = [*words[-1:], *words[:-1]]  # "ABAR" of Bar A
    return numbers == theirs and any(_of_beginnings(letters, each) for each in (words, turned))


def _of_beginnings(letters: str, words: list[str]) -> bool:
    """Whether letters are those of words, of each its first and maybe more; a side keeps all its letters."""
    if not words:
        return not letters
    first, rest = words[0], words[1:]
    for count in range(1, len(letters) - len(rest) + 1):
        part = letters[:count]
        short = first not in _SIDES and (first.startswith(part) or shortened(part, first))
        if (part == first or short) and _of_beginnings(letters[count:], rest):
            return True
    return False


def compounded(came: str, names: Iterable[str]) -> dict[str, None]:
    """The names that begin and end as a word that a dot and a dash cut short, "Horiz.-Fluter" of
    Horizontfluter."""
    parts = _CUT_SHORT.fullmatch(came.strip())
    if parts is None:
        return {}
    first, last = parts[1].casefold(), parts[2].casefold()
    folded = {name: name.casefold() for name in names}
    fit = (name for name, it in folded.items() if it.startswith(first) and it.endswith(last))
    return dict.fromkeys(
        name for name in fit if len(name) > len(first) + len(last) and " " not in name
    )


def slashed(came: str, names: Iterable[str]) -> list[str]:
    """A name with the word in place of a letter and a slash that begin one of the names' words, "B/cloth" of
    Backcloth; one way for each word that it may be, that of two words too, none where no word is such."""
    cut = _SLASHED.search(came) if len(came) <= LONGEST_SLASHED else None
    if cut is None or (cut[1] in "wW" and cut.start()) or _SLASHED.search(came, cut.end()):
        return []  # "par w/flood"; of two such words each way would be tried with each
    first, last = fold_case(cut[1]), fold_case(cut[2])
    folded = [fold_case(name) for name in names]
    words = dict.fromkeys(word for name in folded for word in re.findall(r"[^\W\d_]+", name))
    fit = [w for w in words if w[0] == first and w.endswith(last) and len(w) > len(last) + 1]
    two = rf"\b{re.escape(first)}[^\W\d_]*[^\w/]+{re.escape(last)}\b"
    beside = dict.fromkeys(found[0] for name in folded if (found := re.search(two, name)))
    every = (*fit, *beside) if fit else ()
    return [came[: cut.start()] + word + came[cut.end() :] for word in every]


_SLASHED = regex(r"(?<![\w/])([^\W\d_])/([^\W\d_]{4,20})(?![\w/])")
LONGEST_SLASHED = 60  # characters of a name with such a word
_CUT_SHORT = regex(r"([^\W\d_]{3,20})\.\s?-\s?([^\W\d_]{4,20})")
_SIDES = ("sl", "sr", "l", "r", "us", "ds", "ps", "op")
_TOGETHER = regex(r"(?=.{3,14}$)[^\W\d_]{2,}\d*[^\W\d_]*\d*")


def all_alike(mine: list[str], theirs: list[str], alike: Callable[[str, str], bool]) -> bool:
    """Whether two names are the same but for words that are `alike`."""
    return len(mine) == len(theirs) and all(
        a == b or (a.isalpha() and b.isalpha() and alike(a, b))
        for a, b in zip(mine, theirs, strict=True)
    )


def slip(a: str, b: str) -> bool:
    """Whether a longer word is one letter off another, or a long one two."""
    return min(len(a), len(b)) >= SHORTEST_NEAR and _slips(a, b) <= (
        2 if len(a) >= LONG_WORD else 1
    )


def shortened(a: str, b: str) -> bool:
    """Whether a word is short for another: its beginning, or its first letter and some of its consonants,
    "frt" of "front"."""
    if len(a) < 2 or a[0] != b[0] or len(a) >= len(b):
        return False
    left = iter(b[1:])
    return b.startswith(a) or all(c not in "aeiou" and c in left for c in a[1:])


def ends(a: str, b: str) -> bool:
    """Whether a word is the end of a longer one, "cloth" of "backcloth"."""
    return len(a) >= SHORTEST_NEAR and b.endswith(a)


def _slips(a: str, b: str) -> int:
    """How many letters are changed, left out, put in or swapped with the next between two words (optimal
    string alignment distance)."""
    if abs(len(a) - len(b)) > 2:
        return 3
    rows = [list(range(len(b) + 1))]
    for i, x in enumerate(a, 1):
        row = [i]
        for j, y in enumerate(b, 1):
            row.append(min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (x != y)))
            if i > 1 and j > 1 and x == b[j - 2] and a[i - 2] == y:
                row[-1] = min(row[-1], rows[-2][j - 2] + 1)
        rows.append(row)
    return rows[-1][-1]


def begins(word: str, token: str, least: int | None) -> bool:
    """Whether a token is a word, or begins it with `least` letters or more; None: no beginnings."""
    plural = f"{word}es" if word.endswith(("s", "sh", "ch", "x")) else f"{word}s"
    return token in (word, f"{word}s", plural) or (
        least is not None and len(token) >= least and word.startswith(token)
    )
