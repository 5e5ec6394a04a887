"""Which side a sign is, where words name it after a point of the compass or after what lies there:
"+ = east", "+ hacia Torre Norte", "plus is towards the pulpit", "N+ / S-".
"""

from __future__ import annotations

import re
from collections.abc import Callable

from aimcalc.named import regex
from aimcalc.scene.hanglist.places.compass import ASIDE, point_of
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.hanglist.tongues.tongues import in_english

_SIGN_WORDS = ("+", "=", "plus", "posit", "minus", "negat", "moins")


class SignWays:
    """The words of a scene for the side that a sign is."""

    def __init__(self, around: Around, side_of: Callable[[str], str]) -> None:
        """`side_of` is the side of one word, a point of the compass in English or a word in the names of
        targets and booms: sl, sr, us or ds, "" where nothing tells."""
        self.around, self.side_of = around, side_of

    def plain(self, text: str) -> str:
        """A heading or a line with the side that a sign is in the plainest words, "+ = SL"; as it is where
        the house does not tell it."""
        folded = text.casefold()
        if not any(word in folded for word in _SIGN_WORDS):
            return text
        return _SIGN_LAST.sub(self._behind, _SIGN_FIRST.sub(self._before, text))

    def _before(self, found: re.Match[str]) -> str:
        """A sign before its side: "+ = east", "plus to the pulpit side"."""
        way, minus = found["way"], found["minus"]
        dash = minus in ("-", "–", "−") and not found["opened"] and "=" not in (way or "")
        if dash or (minus and not way and "+" not in found.string):
            return found[0]  # "Position - East"
        side, rest = self._named(found["name"], bare=not way)
        if not side:
            return found[0]
        tongue = found["tongue"] or "="  # the rest of the heading is in that language
        return f"{found['opened'] or ''}{'-' if minus else '+'} {tongue} {side}{rest}"

    def _behind(self, found: re.Match[str]) -> str:
        """A sign behind its side: "East is plus", "N+"."""
        words = found["name"].split()
        for first in range(len(words)):  # "m from CL E+"
            side, rest = self._named(" ".join(words[first:]), bare=not found["way"])
            if side and not rest:
                return " ".join([*words[:first], "+" if found["plus"] else "-", "=", side])
        return found[0]

    def _named(self, phrase: str, *, bare: bool) -> tuple[str, str]:
        """The side that the first words of a phrase name, and the rest of it; `bare` where nothing stands
        between them and the sign: a point of the compass then, or a whole name."""
        words = [_ELIDED.sub("", word) for word in phrase.replace("-", " ").split()]
        articles = 0
        while articles < len(words) - 1 and words[articles].casefold() in _ARTICLES:
            articles += 1
        for count in range(len(words), 0, -1):
            for first in range(min(articles, len(words) - count), -1, -1):
                side = self._of_place(" ".join(words[first : first + count]).casefold())
                if side:
                    return side, _rest(_past_side(words[first + count :]))
        del words[:articles]
        point = point_of(words[0])
        if not point and (bare or len(words[0]) < 4 or _is_left_or_right(words[0])):
            return "", ""
        if any(_LEFT_OR_RIGHT.fullmatch(word) for word in words[1:]):
            return "", ""  # "audience left", "house right side"
        side = self.side_of(point or words[0].casefold())
        return side.upper(), _rest(_past_side(words[1:]))

    def _of_place(self, name: str) -> str:
        """The side that a position or a boom of a name lies on; "" for what lies in the middle."""
        for position, place in self.around.places.items():
            if position.casefold() == name:
                aside = place.x if place.sort == "boom" else place.aside
                return "" if abs(aside) < ASIDE else "SL" if aside > 0 else "SR"
        return ""


def _is_left_or_right(word: str) -> bool:
    """Whether a word is left or right in some language: whose it is, others say, and no "Turm links" of the
    house."""
    return in_english(word.casefold()).strip() in ("left", "right") or word.casefold() in _OTHERS


_OTHERS = frozenset(["linke", "linker", "linkes", "rechte", "rechter", "rechtes"])


def _past_side(words: list[str]) -> list[str]:
    """Words without those for a side, a wall or an end that they begin with."""
    while words and words[0].casefold() in _OF_A_SIDE:
        words = words[1:]
    return words


def _rest(words: list[str]) -> str:
    return " ".join(["", *words])


_ARTICLE_WORDS = (
    "the die der das den dem le la les l el los il lo i det de du des of von vom zu zum zur al alla side"
    " seite cote côté lato lado zijde sida"
)
_ARTICLES = frozenset(_ARTICLE_WORDS.split())
_LEFT_OR_RIGHT = regex(r"l(?:eft)?|r(?:ight)?|links?|rechts?", re.IGNORECASE)
_ELIDED = regex(r"^(?:l|d|dell|all)['’]|(?<=[a-z])(?:seite|zijde|kant|sidan?|side)$", re.IGNORECASE)
_SIDE_WORDS = (
    "side end wall aisle seite wand côté cote mur lato parete lado pared muro zijde kant sida vägg"
)
_OF_A_SIDE = frozenset(_SIDE_WORDS.split())
_WAY = (
    r"(?P<way>(?:\s*(?:=|:|→|[-=]>|\b(?:figures|values|numbers|places|werte|is|are|means|goe?s?|ist|(?:in|on)?to|towards?|on|in|lies?|para|est|es|vers|richtung|richting"
    r"|mot|mod|gegen|nach|(?P<tongue>hacia|verso|naar))\b|\bè)){1,3})"
)
_NAME = r"(?P<name>[^\W\d_][\w'’]*(?:[ -][^\W_][\w'’]*){0,5}"
_SIGN_FIRST = regex(
    r"(?P<opened>[(\[,;/]\s*)?(?:(?P<minus>[−–-](?!>)|\b(?:minus|moins|negat(?:if|iv\w?))\b)"
    rf"|\+(?:\s*ve\b)?|\bplus\b|\bposit(?:if|iv\w?)\b){_WAY}?\s*{_NAME})",
    re.IGNORECASE,
)
_SIGN_LAST = regex(
    rf"(?<![\w+=−–-])(?<!= ){_NAME}?)\s*{_WAY}?\s*(?:(?P<plus>\+|plus\b|posit(?:if|iv\w?)\b)"
    r"|[−–-]|minus\b|negat(?:if|iv\w?)\b)(?=\s*(?:[)\],;/]|$))",
    re.IGNORECASE,
)
