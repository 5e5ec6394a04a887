"""The words for sides in the cells of places, put into ours: bare letters by whose they are, PS and OP by the
house or the list, and slips of the keyboard, "12 ft rigth", "3 m lfet", "2 m Stage Rihgt"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.columns.sidecolumns import TONGUES
from aimcalc.scene.hanglist.names.namesides import paired_sides
from aimcalc.scene.hanglist.pagelines.said import Said
from aimcalc.scene.hanglist.pagelines.sidenames import own_words
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.ends import own_end, sides_plain
from aimcalc.scene.hanglist.places.origins import Ways
from aimcalc.scene.hanglist.places.placeforms import (
    OFF_CENTRE,
    SIDED,
    bare_as,
    garden_sides,
    is_middle_letter,
    prompt_sides,
)
from aimcalc.scene.hanglist.rows.listrow import Around, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.stagewords import StageWords, stage_first
from aimcalc.scene.hanglist.tongues.tongues import in_english, says_middle


class SideWords:
    """The words for sides of one house and its lists."""

    def __init__(
        self, around: Around, noticed: Noticed, ways: Ways, stage_words: StageWords
    ) -> None:
        self.around, self.noticed, self.ways, self.stage_words = around, noticed, ways, stage_words
        self.named = paired_sides(around.places)
        self._custom = (*prompt_sides(around), *garden_sides(around))
        self.letters = False  # P and O are the sides of places, as others beside them tell
        self.of_prompt = (
            _PROMPT_LETTERS  # letters of a column of sides, of the prompt and of jardin
        )

    def take_column(self, cells: Iterable[Any], told: Iterable[tuple[str, str]]) -> None:
        """Know whether P or O behind figures is a side, in a column that has its other too: "9ft 6 P" beside
        "3ft 0 OP"; not where lines have `told` what these letters stand for, "P = pulpit side"."""
        if {word.casefold() for word, _ in told} & {"p", "o"}:
            return
        found = (_PROMPT_LETTER.fullmatch(cell) for cell in cells if isinstance(cell, str))
        said = {
            re.sub(r"[\s.]", "", each["behind"] or each["before"]).casefold()
            for each in found
            if each
        }
        self.letters = bool(said & {"p", "ps"}) and bool(said & {"o", "op", "opp"})

    def take_sides(self, cells: Iterable[Any], said: Said, headed: str, *, foreign: bool) -> Said:
        """What lines say, with the letters of left and right that places, or a column of sides, have in
        another language, where they or a heading say whose left and right is meant: L and P in Polish.

        P, O and J beside letters of other pairs, or which a line explains, are not the prompt side, opposite
        prompt and jardin: P is right beside L, and O is right beside V, or
        alone under a `foreign` heading.
        """
        letters = {letter for cell in cells if (letter := _letter_of(cell))}
        told = {word for word, _ in said.sides}
        strange = foreign or letters - _BESIDE_PROMPT
        self.of_prompt = {
            word: side
            for word, side in _PROMPT_LETTERS.items()
            if word not in told
            and not (strange and word in "po")
            and not (word == "j" and "b" in letters)
        }
        whose = headed or said.bare
        pairs = [pair for pair in _LETTER_PAIRS if letters - _MIDDLES == set(pair)]
        left, right = pairs[0] if len(pairs) == 1 else ("", "")
        if foreign and letters - _MIDDLES <= _RIGHT_ALONE:  # "strony widza" over P alone
            right = "".join(letters - _MIDDLES)[:1]
        if not (left or right) or told & letters or not whose:
            return said
        sides = ("SL", "SR") if whose == "stage" else ("SR", "SL")
        found = ((left, sides[0]), (right, sides[1]))
        own = tuple((word, side) for word, side in found if word and word not in "lr")
        return said._replace(sides=(*said.sides, *own))

    def english(self, cell: Any, meaning: Meaning) -> Any:
        """A place in English words, with the end that it counts from as that of SL, SR, US or DS."""
        if not isinstance(cell, str):
            return cell
        if says_middle(cell):
            return "centre"
        cell = stage_first(_JOINED.sub(r"\1 ", cell))
        english = in_english(self.stage_words.plain(cell))
        cell = own_end(english, meaning.bare, "") if "end" in english else cell
        return self.ways.plain(cell)

    def own_words(self, text: str, said: Said) -> str:
        """A text with the list's own words for a side, "PS", as the side that it or the house says."""
        if not text or (text[0] in "0123456789+-" and text[-1].isdigit()):
            return text
        text = own_words(text, self.named)
        text = respelled(in_english(self.stage_words.plain(text)))
        told = {word for word, _ in said.sides}
        custom = [(word, side) for word, side in self._custom if word not in told]
        if "ps" in told or "op" in told:
            custom = [(word, side) for word, side in custom if word not in ("ps", "op")]
        return own_words(own_words(text, said.sides), custom)

    def of_column(self, side: Any, cell: Any, said: Said, meaning: Meaning, along: Along) -> str:
        """A cell of its own for the side, with the side that plus or a bare L or R is."""
        side = self._garden_c(side, cell)
        text = text_of(side).strip() if side is not None else ""
        text = "L" if text.strip(" .") in ("Ľ", "ľ") else text
        text = "centre" if text.isalpha() and says_middle(text) else text
        if (
            text in ("+", "-", "−", "–")
            and along.axis in ("x", "any")
            and meaning.plus in ("SL", "SR")
        ):
            plus = text == "+"
            return meaning.plus if plus else ("SR" if meaning.plus == "SL" else "SL")
        own = self.own_words(self.of_prompt.get(text.casefold().strip(" ."), text), said).strip()
        own = self.ways.side(own)
        if own != text:
            self.noticed.read_as("at", text, own)
            text = own
        if along.axis not in ("x", "any") or SIDED.search(text):
            return text
        if is_middle_letter(text):
            return "centre"
        return bare_as(meaning.bare, text)

    def in_cell(self, cell: Any, side: str, said: Said, meaning: Meaning, along: Along) -> Any:
        """A cell with the side that its bare L or R is, where the list says whose they are."""
        if side or not isinstance(cell, str):
            return cell
        letter = _PROMPT_LETTER.fullmatch(cell) if self.letters else None
        if letter:
            word = "PS" if (letter["behind"] or letter["before"])[0] in "pP" else "OP"
            cell = f"{letter['figures'] or letter['more']} {word}"
        cell = self.own_words(cell, said)
        if along.axis not in ("x", "any"):
            return cell
        if is_middle_letter(cell) and along.centre:
            return "centre"
        plain = OFF_CENTRE.sub(" ", cell)  # "10 ft right of centre"
        return cell if SIDED.search(plain) else bare_as(meaning.bare, plain)

    def _garden_c(self, side: Any, cell: Any) -> Any:
        """A cell of a column of sides whose "C" beside a distance is cour, in a house of jardin and cour."""
        letter = text_of(side).strip(" .").casefold() if side is not None else ""
        away = re.search(r"[1-9]", text_of(cell)) if cell is not None else None
        return "SL" if letter == "c" and away and garden_sides(self.around) else side


@lru_cache(maxsize=256)  # of each row
def by_initials(heading: str) -> dict[str, str]:
    """The sides that a heading of sides says in two words each by their first letters, as its cells may have
    them: ZL and ZR under "Zaal links / zaal rechts"."""
    words = re.findall(r"[^\W\d_]+", heading.casefold())
    if len(heading) > LONGEST_HEADING or len(words) != 2 * TWO:
        return {}
    found = {}
    for people, way in zip(words[::2], words[1::2], strict=True):
        side = sides_plain(in_english(f"{people} {way}")).strip()
        if side in ("sl", "sr"):
            found[people[0] + way[0]] = side.upper()
    return found if set(found.values()) == {"SL", "SR"} else {}


LONGEST_HEADING = 60  # characters
TWO = 2  # sides of a heading

_PROMPT_LETTER = regex(
    r"\W*(?:(?P<figures>\d.*?)[\s.(]{0,4}(?<![a-z])(?P<behind>p\.?\s?s|o\.?\s?p|opp|p|o)(?:[\s.]+side)?"
    r"|(?P<before>p\.?\s?s|o\.?\s?p|opp|p|o)(?:\s+side)?[\s.:]{0,4}(?P<more>\d.*?))\W*",
    re.IGNORECASE,
)
_JOINED = regex(r"(?<=\d)(m|cm|mm)(?=[A-Z]{1,2}\W*$)")  # "1,6mD"
DASHES = ("-", "–", "—")
NO_SIDE = (
    *DASHES,
    "--",
    "---",
    "−",
    "/",
    "x",
    "X",
    ".",
    "0",
    "=",
    "n/a",
    "N/A",
    "na",
    "none",
    "None",
    "nil",
)
NOUGHT = regex(  # "0' 0\"", "0.00 m": on the centre line, which has no side
    r"\s*(?:[+−–-]\s*)?0(?:[.,]0+)?\s*(?:['\"′″’”]|[a-z]{1,6}\.?)?(?:[\s-]*0(?:[.,]0+)?\s*(?:[\"″”]|[a-z]{1,6}\.?)?)?\s*",
    re.IGNORECASE,
)
_PROMPT_LETTERS = {
    "p": "PS",
    "o": "OP",
    "j": "SR",
    "jardin": "SR",
    "cour": "SL",
}  # in a column of sides
_MIDDLES = frozenset("cmxk")  # letters of the middle: centre, mitte, axis, keski
_LETTER_PAIRS = (*TONGUES, ("b", "j"), ("l", "d"), ("v", "p"))  # Hungarian, Croatian, Estonian
_RIGHT_ALONE = frozenset("po")  # right in every language that has them
_BESIDE_PROMPT = frozenset(("p", "o", "j", *_MIDDLES))
_LETTER_ALONE = regex(
    r"\W*(?:\d[\d.,\s]*(?:m|cm|mm)?[\s.(]{0,4}(?<![a-z]))?([a-zľ])\W*|\W*([a-zľ])[\s.:]{0,3}\d[\d.,\s]*(?:m|cm|mm)?\W*",
    re.IGNORECASE,
)


def _letter_of(cell: Any) -> str:
    """The letter that a cell of sides is, or that stands beside the figures of a place, in lower case; ""
    where there is none, or it is a metre's."""
    if not isinstance(cell, str) or len(cell) > LONGEST_LETTERED:
        return ""
    found = _LETTER_ALONE.fullmatch(cell)
    letter = (found[1] or found[2]).casefold().replace("ľ", "l") if found else ""
    return "" if letter == "m" and any(map(str.isdigit, cell)) else letter


LONGEST_LETTERED = 20  # characters


_WORDS = (
    "left",
    "right",
    "stage",
    "house",
    "centre",
    "center",
    "upstage",
    "downstage",
    "prompt",
    "opposite",
)
# Words that are no slip of the others: "contre" is back light in French.
_OTHER_WORDS = (
    "lift loft eight light lights height hose horse stages contre contra state stake stale stave staged stag"
    " centred centered central cents houses"
)
_RIGHT = frozenset((*_WORDS, *_OTHER_WORDS.split()))
_WORD = regex(r"[^\W\d_]{4,}")
LONG = 5  # letters of a word of which one may be another


def respelled(text: str) -> str:
    """A text with the words for sides and the centre that are misspelled in it as they are spelled."""
    if text.isdecimal() or _WORD.search(text) is None:
        return text
    return _WORD.sub(_meant, text)


def _meant(found: re.Match[str]) -> str:
    word = found[0].casefold()
    if word in _RIGHT:
        return found[0]
    near = [known for known in _WORDS if _is_slip(word, known)]
    if {"centre", "center"} <= set(near):
        near.remove("center")
    return near[0] if len(near) == 1 else found[0]


def _is_slip(word: str, known: str) -> bool:
    """Whether two neighbours of a word are swapped, one letter of it is lost or one too many, or one of a
    long word another; its first letter stays, but for a swap."""
    swaps = (known[:k] + known[k + 1] + known[k] + known[k + 2 :] for k in range(len(known) - 1))
    if word in swaps:
        return True
    if word[0] != known[0]:
        return False
    short, long = sorted((word, known), key=len)
    if len(long) == len(short) + 1:
        return any(long[:k] + long[k + 1 :] == short for k in range(len(long)))
    differ = sum(a != b for a, b in zip(word, known, strict=False))
    return len(word) == len(known) >= LONG and differ == 1
