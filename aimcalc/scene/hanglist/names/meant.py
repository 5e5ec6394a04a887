"""Which name of the scene a list means: "A3" is `area 3`, "1st Electric" is `LX 1`, "30° ellipsoidal"
is `ers-30`.

A name is found where one alone fits; where several do, they are told, and somebody is asked.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from itertools import product

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.sidewords import side_words
from aimcalc.scene.hanglist.names.stageparts import Part, part_of
from aimcalc.scene.hanglist.names.targetwords import CENTRE_STAGE, CENTRES
from aimcalc.scene.hanglist.tongues.positiontongues import LOOSELY, TONGUES


class Meant(NamedTuple):
    """What a word was found to mean: one name, or several that fit, or none."""

    name: str | None = None
    sure: bool = True  # but for case, spaces and punctuation it is spelled so
    several: tuple[str, ...] = ()


ORDINALS = (
    *("first", "second", "third", "fourth", "fifth", "sixth"),
    *("seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"),
)
_CARDINALS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_ORDINAL = {word: str(n) for words in (ORDINALS, _CARDINALS) for n, word in enumerate(words, 1)}
_WORDS = {
    "stageleft": "sl",
    "stageright": "sr",
    **dict.fromkeys(("houseleft", "hl"), "sr"),
    **dict.fromkeys(("houseright", "hr"), "sl"),
    **dict.fromkeys(("upstage", "upst", "upstg"), "us"),
    **dict.fromkeys(("downstage", "downst", "downstg", "dnst", "dnstg"), "ds"),
    **dict.fromkeys(("centre", "center", "ctr", "cs"), "c"),
    "nth": "north",
    "sth": "south",
    "left": "l",
    "right": "r",
    **{f"{row}{side}": f"{row}s{side}" for row in "dum" for side in "lrc"},  # "DL" of DSL
}
_ELECTRIC = ("lx", "electric", "electrics", "elec", "elecs", "elx", "el", "e")
_TUBE = ("pipe", "bar", "batten", "position", "truss")
# Words of a heading that say which sort of position its cells name.
SORTS = frozenset(
    (*_ELECTRIC, *_TUBE, "boom", "ladder", "stand", "floor", "rail", "track", "perch")
) - {"position"}
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6"}
# Words of positions that stand for one another, then such as a careful reader also takes for each other.
POSITION_WORDS: tuple[dict[str, str], ...] = (
    {
        **dict.fromkeys(_ELECTRIC, "lx"),
        "foh": "foh",
        "frontofhouse": "foh",
        "bal": "balcony",
        **_ROMAN,
    },
    {**dict.fromkeys((*_ELECTRIC, *_TUBE), "lx"), "frontofhouse": "foh", **_ROMAN},
    {**dict.fromkeys((*_ELECTRIC, *_TUBE), "lx"), "frontofhouse": "front", "foh": "front"},
    {**TONGUES, **dict.fromkeys(_ELECTRIC, "lx")},
    {**LOOSELY, **dict.fromkeys((*_ELECTRIC, *_TUBE), "lx")},
)
WHOLE_WORDS = frozenset((3, 4))  # levels of words of other languages, of which no beginning is read
POSITION_SPARE = (
    *("pipe", "bar", "batten", "position", "lx", "electric", "the"),
    *("no", "nr", "number", "lighting", "on", "stage"),
    *("zug", "trek", "perche", "stange"),  # bars of other tongues: "Zug Bar 3"
)
_ARTICLE = regex(
    r"\s*(?:(?:to|on|onto|towards?)\s+(?:(?:the|our)\s+)?|(?:the|our)\s+)(?=[^\W\d_]{2})",
    re.IGNORECASE,
)
# "Centre C." of Centre Circle; the letter of a side is that side.
_AND_LETTER = regex(r"\s*[^\W\d_]{4,}\s+(?![lrud]\b)[^\W\d_]\.\s*$", re.IGNORECASE)
_WATTS = regex(r"\b(\d+(?:\.\d+)?)\s*(k?)w(?:atts?)?\b")
SHORTEST_NEAR = 4  # letters of a word that may be misspelled, by two where it is long
LONG_WORD = 8
SHORTEST = 3  # letters of a word without a number that may stand for a longer one


class Names:
    """The names of one sort that a scene has, found again as people write them."""

    def __init__(
        self,
        names: Iterable[str],
        words: Sequence[dict[str, str]] = ({},),
        spare: Sequence[str] = (),
        *,
        ordered: bool = False,
        also: Iterable[tuple[str, str]] = (),
        whole: bool = False,
        mixed: bool = False,
        sides: bool = False,
    ) -> None:
        """`words` are levels of words that stand for one another, `spare` may be left out or be too many;
        `ordered` keeps letters before a number apart from letters after it; `also` are other ways to
        write a name; `whole` finds no name that has a word more; with `mixed` numbers may
        stand in another order; with `sides` left and right may be shortened and bent."""
        self.names = dict.fromkeys(names)
        self.words, self.spare, self.ordered = words, frozenset(spare), ordered
        self.whole, self.mixed, self.sides = whole, mixed, sides
        self.plain: dict[str, dict[str, None]] = {}
        self.folded: dict[str, dict[str, None]] = {}
        for name in self.names:
            self.plain.setdefault(plain(name), {})[name] = None
            self.folded.setdefault(fold(name), {})[name] = None
        if sides:
            own = side_words({t for name in self.names for t in _tokens(name, {})})
            self.words = (*words, {**words[-1], **own}) if own else words
        self.bare = ""  # whose a bare left and right is, where somebody says it
        self.sided = len(words) if sides else len(self.words)  # the level of those words
        self.also_as(also)

    def also_as(self, also: Iterable[tuple[str, str]]) -> None:
        """Take other ways to write the names, in the place of those before."""
        self.ways = [(name, name) for name in self.names]
        self.ways += [(way, name) for way, name in also if name in self.names]
        self.parts: list[tuple[Part | None, str]] | None = None  # of the stage, of each way
        self.codes: dict[
            str, str
        ] = {}  # what the list's own legend says, by `fold_code` of the code
        self.known: dict[str, Meant] = {}
        self.tokens: dict[
            tuple[int, bool], list[tuple[list[str], str]]
        ] = {}  # of each way, by level of words

    def find(self, came: str) -> Meant:
        """What `came` means."""
        if came in self.names:
            return Meant(came)
        if came not in self.known:
            self.known[came] = self._find(came)
        return self.known[came]

    def spelled(self, came: str) -> str | None:
        """The one name that `came` spells, but for case, spaces and punctuation."""
        meant = self.find(came)
        return meant.name if meant.sure else None

    def written(self, came: str) -> str | None:
        """The one name that `came` is, but for case, accents and spaces; nothing else is tried."""
        for index, key in ((self.plain, plain(came)), (self.folded, fold(came))):
            if key and key in index:
                return next(iter(index[key])) if len(index[key]) == 1 else None
        return None

    def _find(self, came: str) -> Meant:
        if self.codes and (name := self.codes.get(fold_code(came))) in self.names:
            return Meant(name, False)
        if not plain(came) or len(came) > 100:
            return Meant()
        for sure, index, key in ((True, self.plain, plain(came)), (False, self.folded, fold(came))):
            if key in index:
                return _one(index[key], sure)
        for level, watts in product(
            range(len(self.words)), (True, False) if self.mixed else (False,)
        ):
            mine = _tokens(came, self.words[level], watts=watts)
            if level == self.sided and len(mine) < 2:
                continue  # a side alone is no name
            if (level, watts) not in self.tokens:
                self.tokens[level, watts] = [
                    (_tokens(way, self.words[level], watts=watts), name) for way, name in self.ways
                ]
            foreign = self.words is POSITION_WORDS and level in WHOLE_WORDS
            for least in (None,) if foreign else (None, SHORTEST, 1):
                short = least == 1 and bool(_AND_LETTER.match(came))
                fits = {
                    n: None
                    for theirs, n in self.tokens[level, watts]
                    if self._fits(mine, theirs, least, short)
                }
                if fits:
                    found = self._spelled(mine, fits, (level, watts))
                    return _one(by_initials(came, found) or found, False)
        initials = [
            name
            for name in self.names
            if _initials(name) == came.casefold().replace(" ", "") or _starts_short(name, came)
        ]
        if initials:
            return _one(dict.fromkeys(initials), False)  # "FT" of Front Truss
        if self.mixed and (fits := self._fewer_numbers(came)):
            return _one(fits, False)
        article = _ARTICLE.match(came)
        if article:
            return self.find(came[article.end() :])._replace(sure=False)
        if part := self._part(came):
            return _one(part, False)
        centre = [way for way in CENTRES if way in self.folded and CENTRE_STAGE.fullmatch(came)]
        return _one(self.folded[centre[0]], False) if centre else Meant()

    def _part(self, came: str) -> dict[str, None]:
        """The names that are the part of the stage that `came` says otherwise: Centre Left for "CSL"."""
        part = part_of(fold_case(came)) if self.sides and self.bare != "house" else None
        if part is None:
            return {}
        if self.parts is None:
            self.parts = [(part_of(fold_case(way)), name) for way, name in self.ways]
        return {name: None for theirs, name in self.parts if theirs == part}

    def _spelled(
        self, mine: list[str], fits: dict[str, None], level: tuple[int, bool]
    ) -> dict[str, None]:
        """Of names that fit, the one that says no word more: Centre Stage for "CENTRE", not Apron Centre."""
        if len(fits) < 2 or not any(t[0].isalpha() for t in mine):
            return fits
        whole = {n: None for theirs, n in self.tokens[level] if n in fits and theirs == mine}
        return whole if len(whole) == 1 else fits

    def _fewer_numbers(self, came: str) -> dict[str, None]:
        """The names that have each word and number of `came` and a number more: "CP62" of Par 64 CP62."""
        mine = _tokens(came, self.words[0])
        numbers, letters = set(_numbers(mine)), [t for t in mine if not t[0].isdigit()]
        theirs = {name: _tokens(name, self.words[0]) for name in self.names}
        return {
            name: None
            for name, tokens in theirs.items()
            if numbers
            and letters
            and numbers < set(_numbers(tokens))
            and self._fits(letters, tokens, SHORTEST)
        }

    def near(self, came: str) -> str | None:
        """The one name that `came` is a slip of the finger off, or is short for: its numbers are the same,
        and each of its words is like that of the name."""
        for words in ({}, self.words[0]):
            mine = self._plain_tokens(came, words)
            if not mine or (len(mine) == 1 and len(mine[0]) < SHORTEST):
                return None  # ">", or spare words alone
            theirs = [(name, self._plain_tokens(way, words)) for way, name in self.ways]
            for alike in (slip, shortened, _ends):
                found = list(
                    dict.fromkeys(n for n, tokens in theirs if _alike(mine, tokens, alike))
                )
                if found:
                    return found[0] if len(found) == 1 else None
        return None

    def _plain_tokens(self, text: str, words: dict[str, str]) -> list[str]:
        """The words and numbers of a name without spare ones; its words first where their order is free."""
        tokens = [t for t in _tokens(text, words) if not self.mixed or t not in self.spare]
        return sorted(tokens, key=lambda t: t[0].isdigit()) if self.mixed else tokens

    def _fits(
        self, mine: list[str], theirs: list[str], least: int | None, short: bool = False
    ) -> bool:
        """Whether every word of `mine` is one of `theirs`, or begins one (`least` letters, None: no
        beginnings); `short` where a letter of it is said to be one of a word."""
        numbers, others = _numbers(mine), _numbers(theirs)
        if self.mixed:
            numbers, others = sorted(numbers), sorted(others)
        if numbers and numbers != others:
            return False
        left = [t for t in theirs if not t[0].isdigit()]
        letters = [t for t in mine if not t[0].isdigit()]
        kept = [t for t in letters if t not in self.spare or t in left]
        if not kept and not numbers:
            return False
        if (
            self.ordered
            and numbers
            and letters
            and mine[0][0].isdigit()
            and not theirs[0][0].isdigit()
        ):
            return False
        whole = (short and mine[0] in left) or any(
            len(token) > SHORTEST and token in left for token in kept
        )
        if least == 1 and not numbers and not whole:
            return False  # "C" alone; "Chorus R" has a whole word beside its letter
        for token in kept:
            at = next((i for i, t in enumerate(left) if _begins(t, token, least)), None)
            if at is None:
                return False
            del left[at]
        if self.whole and set(left) - self.spare - {"k"}:
            return False
        if (
            not kept
        ):  # a bare number is the loosest reading; a spare word does not stand for another
            return not left if letters or least is None else True
        return True


def _starts_short(name: str, came: str) -> bool:
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


def _initials(name: str) -> str:
    """The first letters of a name of two words or more, with its number, "sb1"; else nothing."""
    words = re.findall(r"[^\W\d_]+|\d+", name.casefold())
    letters = sum(word.isalpha() for word in words)
    return "".join(w if w.isdigit() else w[0] for w in words) if letters > 1 else ""


def _alike(mine: list[str], theirs: list[str], alike: Callable[[str, str], bool]) -> bool:
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


def _ends(a: str, b: str) -> bool:
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


def _begins(word: str, token: str, least: int | None) -> bool:
    return token in (word, f"{word}s") or (
        least is not None and len(token) >= least and word.startswith(token)
    )


def _one(names: dict[str, None], sure: bool) -> Meant:
    found = tuple(names)
    return Meant(found[0], sure) if len(found) == 1 else Meant(None, False, found)


def _numbers(tokens: list[str]) -> list[str]:
    return [t.lstrip("0") or "0" for t in tokens if t[0].isdigit()]


def _tokens(text: str, words: dict[str, str], *, watts: bool = False) -> list[str]:
    """Words and numbers of a name, those that stand for others in their plain form; its watts among them
    where these are asked for."""
    text = fold_case(text)
    if re.search(r"\d\s*k?w", text):
        text = _WATTS.sub(_watts_plain if watts else " ", text)
    text = re.sub(r"(?<![\d/])1/4(?![\d/])|¼", "quarter ", text)
    text = re.sub(r"(?<![\d/])1/2(?![\d/])|½", "half ", text)
    text = re.sub(r"\b(\d+)(?:(?:st|nd|rd|th)\b|[º°])", r"\1 ", text)
    text = re.sub(r"\b([a-z])\.(?=[a-z]\b)", r"\1", text)  # s.l.
    text = _PARTED.sub(r"\1\2", text)
    text = re.sub(r"\bcent(?:re|er)[\s-]+stage\b", "c", text)
    text = _CORNER.sub(_cornered, text)
    text = re.sub(
        r"\b(stage|house|up|down|front[\s-]of|plano)[\s-]+(left|right|stage|house|convex)\b",
        _joined,
        text,
    )
    found = []
    for token in re.findall(r"\d+|[^\W\d_]+", text):
        token = _ORDINAL.get(token, _WORDS.get(token, token))
        found.append(words.get(token, token))
    return found


def _watts_plain(found: re.Match[str]) -> str:
    """Watts as they are said: "1kW" and "1000W" as 1k, "650W" as 650."""
    if found[2] or "." in found[1]:
        return f"{found[1]}{found[2]} "
    watts = int(found[1])
    return f"{watts / 1000:g}k " if watts >= 1000 and watts % 100 == 0 else f"{watts} "


_PARTED = regex(r"\b([cud])/(?=s\b)|\b(s)/(?=[lr]\b)")  # C/S, D/S, S/L
# A sixth of the stage in words, "down stage left", or "up centre": its three letters are its usual name.
_CORNER = regex(
    r"\b(up|down|mid)(?:dle)?[\s-]*(?:stage\b[\s-]*)?\b(left|right|cent(?:re|er)|[lrc])\b(?![\s-]*stage)"
)


def _cornered(found: re.Match[str]) -> str:
    return f"{found[1][0]}s{found[2][0]}"


def _joined(found: re.Match[str]) -> str:
    return re.sub(r"[\s-]", "", found[1] + found[2])


def plain(text: str) -> str:
    """A name without case, spaces and punctuation; numbers stay apart."""
    return "".join(re.findall(r"[^\W_]+", re.sub(r"(?<=\d)[^\w]+(?=\d)", "n", text.casefold())))


def fold(text: str) -> str:
    """`plain`, without accents and leading zeros, with stage words as they are spoken."""
    text = _CORNER.sub(_cornered, fold_case(text))
    text = re.sub(r"\b(stage|up|down)[\s-]+(left|right|stage)\b", _joined, text)
    words = (_WORDS.get(word, word) for word in re.findall(r"\d+|[^\W\d_]+", text))
    return re.sub(r"(?<![\d])0+(?=\d)", "", " ".join(words)).replace(" ", "")


def fold_code(text: str) -> str:
    """A code of a legend as it is found again: `fold` of it, or its signs where it has no letters."""
    return fold(text) or "".join(text.split())


def fold_case(text: str) -> str:
    """Lower case without accents."""
    if text.isascii():
        return text.lower()
    text = text.casefold().replace("º", "°")  # typed for a degree
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


def several_of(came: str, names: Names) -> tuple[str, ...]:
    """The names that a cell holds several of: "area 1 & 2", "A3/A4"; none where it does not."""
    parts = [
        part.strip()
        for part in re.split(r"[,;/&+\n]|\band\b|(?<=\d)\s*-\s*(?=\d)", came)
        if part.strip()
    ]
    if len(parts) < 2:
        return ()
    first = names.find(parts[0])
    found = [first.name]
    word = re.match(r"[^\W\d_]+", (first.name or "").strip())
    for part in parts[1:]:
        meant = names.find(part)
        if meant.name is None and word and part.isdigit():
            meant = names.find(f"{word[0]} {part}")
        found.append(meant.name)
    return tuple(dict.fromkeys(name for name in found if name)) if all(found) else ()
