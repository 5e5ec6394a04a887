"""Cells that give a place on both sides of the centre: "14' each side", "+/- 6", "3 m SL & SR", "je 3 m
links und rechts". Which side is the first one's, a cell says only where it writes both, by their order."""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.ends import sides_plain

LONGEST = 60  # characters of such a cell


class Mirrored(NamedTuple):
    """The places of a cell, the first one's first, and whether the cell says which that is."""

    places: tuple[str, ...]
    ordered: bool
    about: bool = False  # it may be one place, and not an exact one: "3 m +/-"


def mirrored(text: str, side: str = "") -> Mirrored | None:
    """What a cell says of places on both sides of the centre, with the cell of its own for the side; None
    where it says no such thing."""
    text = f"{text.strip()} {side.strip()}".strip()
    if len(text) > LONGEST or not re.search(r"\d", text) or not _MAY.search(text):
        return None
    ends = _EACH_END.fullmatch(text)
    if ends:
        length = ends[1].strip()
        return Mirrored((f"{length} from SL end", f"{length} from SR end"), False)
    for pattern in (_EACH, _EACH_BEFORE, _PLUS_MINUS, _PLUS_MINUS_BEHIND):
        each = pattern.fullmatch(text)
        if each and _IS_LENGTH.fullmatch(each[1].strip()):
            places = (f"{each[1].strip()} SL", f"{each[1].strip()} SR")
            return Mirrored(places, False, pattern is _PLUS_MINUS_BEHIND)
    other = _AND_OTHER.fullmatch(text)
    if other and _IS_LENGTH.fullmatch(other[1].strip()):
        length, one = other[1].strip(), other[2]
        return Mirrored((f"{length} {one}", f"{length} {_turned(one)}"), True)
    whole = _WHOLE.fullmatch(text)
    if whole and _kind(whole["one"]) + _kind(whole["two"]) in ("lr", "rl"):
        return Mirrored((whole["first"].strip(), whole["second"].strip()), True)
    signed = _SIGNED.fullmatch(text)
    if signed and (signed[1][0] == "+") != (signed[2][0] == "+"):
        return Mirrored((signed[1].strip(), signed[2].strip()), True)
    both = _BEHIND.fullmatch(text) or _BEFORE.fullmatch(text)
    if both is None:
        return None
    length, one, two = both["length"].strip(" ,:@"), both["one"], both["two"]
    if not _IS_LENGTH.fullmatch(length) or _kind(one) + _kind(two) not in ("lr", "rl"):
        return None
    return Mirrored((f"{length} {one}", f"{length} {two}"), True)


def is_one_place(text: str) -> bool:
    """Whether a text is a length with its side, or the centre, and nothing else: no "was 3 m SL"."""
    plain = " ".join(text.split())
    return len(plain) <= LONGEST and bool(_ONE.fullmatch(plain))


def _kind(side: str) -> str:
    """The one letter that a word of a side is known by: l or r of SL and SR, of a bare left and right, of
    prompt side, cour and jardin; "" of another."""
    word = re.sub(r"[\W_]", "", sides_plain(side.casefold()))
    return _LETTERS.get(word, "")


def _turned(side: str) -> str:
    """The other side in the words of a side: "SR" for "SL", "left" for "right"."""
    word = re.sub(r"[\W_]", "", side.casefold())
    return _OTHERS.get(word, {"l": "SR", "r": "SL"}.get(_kind(side), ""))


_PAIRS = (
    ("sl", "sr"),
    ("l", "r"),
    ("left", "right"),
    ("ps", "op"),
    ("links", "rechts"),
    ("gauche", "droite"),
    ("cour", "jardin"),
    ("c", "j"),
    ("izquierda", "derecha"),
    ("izq", "der"),
    ("sinistra", "destra"),
    ("sx", "dx"),
    ("esquerda", "direita"),
    ("vänster", "höger"),
    ("venstre", "højre"),
    ("vasen", "oikea"),
    ("lewa", "prawa"),
    ("lewo", "prawo"),
    ("hl", "hr"),
)
_LETTERS = {word: letter for pair in _PAIRS for word, letter in zip(pair, "lr", strict=True)}
_LETTERS |= {"hl": "r", "hr": "l"}
_OTHERS = {one: two for pair in _PAIRS for one, two in (pair, pair[::-1])}
_MAY = regex(
    r"(?i)[±&/+(,]|each|both|either|e/s|beid|seite|chaque|part|deux|ambos|cada|entramb|weersz|elke|mirror|gespiegelt|symm|pair"
    r"|per\s|båda|begge|varje|hver|obu|molemm|\b(?:and|und|et|y|e|en|och|og|i|ja|plus|sym|opp)\b"
)
_FIGURE = r"\d+(?:[.,]\d+)?(?:[\s-]\d+/\d+)?"
_LENGTH = (
    rf"(?:[+]?\s*{_FIGURE}\s*(?:['′’]\s*-?\s*(?:{_FIGURE}\s*[\"″”])?|[\"″”]"
    rf"|(?:ft|feet|foot)\.?\s*(?:{_FIGURE}\s*(?:ins?|inch(?:es)?)\b)?|(?:mm|cm|m|ins?|inch(?:es)?|met(?:re|er)s?)\b)?\.?)"
)
_OFF = (
    r"(?:\s*(?:off|from|of|out\s+from|ab|von|du|de|da|dal|van|från|fra)\s+(?:the\s+|der\s+|het\s+|l[ea]?\s+)?"
    r"(?:cl|c/l|cent(?:re|er)(?:[\s-]*line)?|ctr|mitte|centre|axe|eje|centro|midden|mitt|midt))?"
)
_IS_LENGTH = regex(rf"(?i){_LENGTH}")
_SIDES = (
    r"(?:(?:on\s+|to\s+|at\s+)?(?:both|each|either)[\s-]*(?:sides?|ways?|hand|directions?)(?:\s+of\s+(?:the\s+)?(?:cl|c/l|cent(?:re|er)(?:[\s-]*line)?))?"
    r"|both|e/s|beidseit\w*|(?:auf\s+)?beide[nr]?\s+seiten|(?:auf\s+)?jeder\s+seite|beiderseits|je\s+seite|pro\s+seite|jeweils\s+beidseit\w*"
    r"|de\s+chaque\s+c[oô]t[eé]|de\s+part\s+et\s+d['’]autre|des\s+deux\s+c[oô]t[eé]s|chaque\s+c[oô]t[eé]"
    r"|(?:a|en|de)\s+cada\s+lado|(?:a|en|por|de)\s+ambos\s+lados|(?:a|de|para)\s+cada\s+lado|em\s+ambos\s+os\s+lados"
    r"|(?:da|su)\s+entrambi\s+i\s+lati|per\s+(?:lato|parte)|aan\s+weerszijden|(?:aan|op)\s+(?:beide|elke)\s+(?:kant(?:en)?|zijden?)"
    r"|(?:på\s+)?(?:båda|begge|varje|hver)\s+(?:sidor(?:na)?|sider|sida|side)|po\s+obu\s+stronach|molemmin\s+puolin"
    r"|mirrored|mirror(?:\s+pair)?|symm?etri\w*|sym\.?|gespiegelt|pair|as\s+a\s+pair|either\s+side)"
)
_EACH = regex(
    rf"(?i)(?:à\s+|a\s+|at\s+|bei\s+|op\s+|på\s+)?({_LENGTH}){_OFF}[\s,;:(–-]*{_SIDES}\)?\.?"
)
_EACH_BEFORE = regex(
    rf"(?i){_SIDES}[\s,;:(–@-]*(?:at\s+|à\s+|a\s+|bei\s+|op\s+)?({_LENGTH}){_OFF}\)?\.?"
)
_SIGNS = (
    r"(?:±|\+\s*/\s*[-−–]|[-−–]\s*/\s*\+|\+[-−–]|[-−–]\+|\+\s+[-−–]|plus\s*(?:/|or|and|oder|et|y)?\s*minus"
    r"|\+\s*(?:and|&|und|et)\s*[-−–])"
)
_PLUS_MINUS = regex(rf"(?i){_SIGNS}\s*({_LENGTH}){_OFF}")
_PLUS_MINUS_BEHIND = regex(rf"(?i)({_LENGTH}){_OFF}\s*\(?{_SIGNS}\)?")
_EACH_END = regex(
    rf"(?i)({_LENGTH})\s*(?:in\s+)?(?:from|off)\s+(?:each|either|both)\s+(?:pipe\s+|bar\s+)?ends?"
)
_WORD = (
    r"[cj]\b|s\.?[lr]\.?|stage[\s-]*(?:left|right)|house[\s-]*(?:left|right)|[lr]\.?|p\.?s\.?|o\.?p\.?|h\.?[lr]\.?"
    r"|[^\W\d_]{2,9}"
)
_AND = (
    r"\s*(?:[&/+,]|\band\b|\bund\b|\bet\b|\by\b|\be\b|\ben\b|\boch\b|\bog\b|\bi\b|\bja\b)\s*"
    r"(?:to\s+|à\s+|a\s+)?"
)
_BEHIND = regex(
    rf"(?i)(?:je\s+|each\s+)?(?P<length>{_LENGTH}){_OFF}[\s,:(]*(?:each\s+|to\s+|on\s+|à\s+|nach\s+)?"
    rf"(?P<one>{_WORD}){_AND}(?P<two>{_WORD})\)?(?:\s+each)?"
)
_BEFORE = regex(
    rf"(?i)(?P<one>{_WORD}){_AND}(?P<two>{_WORD})[\s,:@]+(?:je\s+|at\s+|each\s+)?"
    rf"(?P<length>{_LENGTH}){_OFF}(?:\s+each)?"
)
_ONE = regex(
    rf"(?i)(?:[+−–-]\s*)?{_LENGTH}{_OFF}\s*(?:{_WORD})?|(?:{_WORD})\s*{_LENGTH}{_OFF}|c|cl|c/l|cent(?:re|er)(?:\s+line)?"
)
_WHOLE = regex(  # "3 m SL + 2.5 m SR"
    rf"(?i)(?P<first>{_LENGTH}\s*(?P<one>{_WORD})){_AND}(?P<second>{_LENGTH}\s*(?P<two>{_WORD}))"
)
_SIGNED = regex(rf"(?i)([+−–-]\s*{_LENGTH})(?:\s*(?:[/&,;]|\band\b)\s*)([+−–-]\s*{_LENGTH})")
_AND_OTHER = regex(
    rf"(?i)({_LENGTH})\s*({_WORD}?)\s*(?:[&+,(]|\band\b)\s*(?:the\s+)?(?:its\s+)?(?:mirror(?:ed)?|opp(?:osite|\.)?|same|other\s+side|mirror\s+image|vice\s+versa|gespiegelt)(?:\s+(?:on|to|in)?\s*(?:the\s+)?(?:{_WORD}))?\)?\.?"
)
