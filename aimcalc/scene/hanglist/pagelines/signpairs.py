"""Which side a sign is, in a line or a heading that says it in other words than "+ = SL": two signs and two
sides beside each other, "(-) stage right (+) stage left", "jardin + cour -", or one of each in a part of a
sentence, "all dims SR of CL are positive"; and what speaks of a sign and is not understood.
"""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.ends import sides_plain

LONGEST = 300  # characters of a line that is looked through
LONGEST_ASKED = 2000  # of one that is asked about
_SAME = {"ps": "sl", "op": "sr", "cour": "sl", "court": "sl", "jardin": "sr", "garden": "sr"}
_SAME |= {"l": "left", "r": "right"}
_OPPOSITE = {"sl": "sr", "us": "ds", "left": "right"}
_OPPOSITE |= {other: one for one, other in _OPPOSITE.items()}
_PAIRS = 2
_GAP = 30  # characters at most between a sign and its side, "(-) figures are to the right"


def signs_plain(text: str) -> str:
    """A text with each sign before its side, "- = sr, + = sl", in every sentence that names two signs and two
    opposite sides by turns, and in every part of one that names one of each and says that it is so; any
    other as it is. One that begins with a sign has each before its side, one that begins with a side each
    behind it."""
    if len(text) > LONGEST or not _ANY_SIGN.search(text):
        return text
    text = _QUOTED_SIGN.sub(r"\1", text)
    text = _BEHIND_LETTERS.sub(_by_letters, _BEFORE_LETTERS.sub(_by_letters, text))
    return "".join(map(_sentence, _SENTENCES.split(text)))


def _by_letters(found: re.Match[str]) -> str:
    """The letters of jardin and cour, or of prompt and the other, each beside a sign: "J +, C -"."""
    told = found.groupdict()
    if {told["one"], told["two"]} not in ({"c", "j"}, {"p", "o"}):
        return found[0]
    side = {"c": "sl", "j": "sr", "p": "sl", "o": "sr"}
    return f"{told['first']} = {side[told['one']]}, {told['second']} = {side[told['two']]}"


_MARK = r"[+−–-]|plus|minus"
_BEFORE_LETTERS = regex(
    rf"(?<!\w)(?P<first>{_MARK})\s?=?\s?(?P<one>[cjpo])\s?[,;/&]?\s?(?<!\w)(?P<second>{_MARK})\s?=?\s?(?P<two>[cjpo])(?!\w)"
)
_BEHIND_LETTERS = regex(
    rf"(?<!\w)(?P<one>[cjpo])\s?=?\s?(?P<first>{_MARK})\s?[,;/&]?\s?(?<!\w)(?P<two>[cjpo])\s?=?\s?(?P<second>{_MARK})(?!\w)"
)


def house_plain(text: str) -> str:
    """A text with a sign that is towards the house as that of downstage: "minus = toward the people"."""
    return _TO_HOUSE.sub(r"\1 = ds", text) if "toward" in text else text


def paired_plain(heading: str) -> str:
    """A heading with such signs each before its side; any other as it is."""
    sided = sides_plain(heading)
    plain = signs_plain(sided)
    return heading if plain == sided else plain


def speaks_of_sign(text: str) -> str:
    """What a line says of a sign and a side, or of what a sign is that is nothing of the trade, in whatever
    words: "SR is the + end", "+ = moon"; "" of one that says nothing so, "+ = with barndoors"."""
    if len(text) > LONGEST_ASKED:
        return ""
    for part in _SENTENCES.split(sides_plain(text)):
        found = None if _LETTER_LEFT.fullmatch(part) else _SPOKEN.search(part)
        if found and (_SIDE_LIKE.search(part) or _stands_for(part)):
            return part.strip()
    return ""


def _stands_for(text: str) -> bool:
    """Whether a plus stands for something that is no thing or word of the trade."""
    found = _STANDS_FOR.search(text)
    return found is not None and not _OF_TRADE.search(found[1])


def _sentence(text: str) -> str:
    paired = _plain(text)
    if paired != text:
        return paired
    parts = _CLAUSES.split(text)
    read = "".join(_single(part, whole=len(parts) == 1) for part in parts)
    if read != text or "(" not in text:
        return read
    bare = _ASIDE.sub(" ", text)  # "stage right (north, pulpit side) is negative"
    parts = _CLAUSES.split(bare)
    read = "".join(_single(part, whole=len(parts) == 1) for part in parts)
    return text if read == bare else read


def _single(text: str, *, whole: bool) -> str:
    """A part of a sentence with one sign and one side, which says that the one is the other, in the plainest
    words; any other as it is."""
    if _LETTER_LEFT.fullmatch(text):
        return text
    text_plain = _ARROW.sub(" = ", text)
    found = list(_TOKEN.finditer(text_plain))
    if len(found) != _PAIRS or (found[0]["sign"] is None) == (found[1]["sign"] is None):
        return text
    one, other = found
    between = text_plain[one.end() : other.start()].strip(" ()[]\"'“”‘’")
    sign, side = one["sign"] or other["sign"], one["side"] or other["side"]
    alone = whole and (one.start(), other.end()) == (0, len(text_plain.rstrip(" .")))
    links = alone or _LINKS.search(between) or _SURE.search(sign)
    if not (links and _FILLED.fullmatch(between)) or _NEGATED.search(text_plain):
        return text
    if (
        sign in _DASHES
        and not alone
        and not _stands_alone(text_plain, one if one["sign"] else other)
    ):
        return text
    said = _Pair("+" if _IS_PLUS.search(sign) else "-", _SAME.get(side, side), "").said
    return f"{text_plain[: one.start()]} {said} {text_plain[other.end() :]}"


def _stands_alone(text: str, sign: re.Match[str]) -> bool:
    """Whether a dash begins or ends a part of a sentence, or is in brackets or quotes: it is a sign then."""
    before, behind = text[: sign.start()].strip(), text[sign.end() :].strip()
    return before in _OPENED or behind in _CLOSED or before[-1:] in _QUOTES


def _plain(text: str) -> str:
    found = list(_TOKEN.finditer(text))
    signs = [each["sign"] is not None for each in found]
    if len(found) != 2 * _PAIRS or signs not in ([True, False] * _PAIRS, [False, True] * _PAIRS):
        return text
    pairs = [_pair(text, found[k], found[k + 1]) for k in (0, _PAIRS)]
    if None in pairs:
        return text
    first, second = (pair for pair in pairs if pair is not None)
    if first.sign == second.sign or _OPPOSITE[first.side] != second.side:
        return text
    begin = found[0].start() - (text[: found[0].start()][-1:] in ("(", "["))
    return f"{text[:begin]} {first.said}, {second.said} {text[found[-1].end() :]}"


def _pair(text: str, one: re.Match[str], other: re.Match[str]) -> _Pair | None:
    """A sign and the side beside it, with what says whose it is; None where something else stands between."""
    between = text[one.end() : other.start()].strip(" ()[]=:")
    if len(between) > _GAP or _ENDS.search(between):
        return None
    sign, side = (one["sign"] or other["sign"]), (one["side"] or other["side"])
    whose = "" if one["side"] or _IS.fullmatch(between) else between
    return _Pair("+" if _IS_PLUS.search(sign) else "-", _SAME.get(side, side), whose)


class _Pair(NamedTuple):
    """A sign, its side and the words between them, "the house's"."""

    sign: str
    side: str
    whose: str

    @property
    def said(self) -> str:
        return " ".join(filter(None, (self.sign, "=", self.whose, self.side)))


_QUOTED_SIGN = regex(r"[\"'“”‘’]\s?([+−–-])\s?[\"'“”‘’]")  # \"+\" = stage left
_ASIDE = regex(r"\([^()]*\)")
_TO_HOUSE = regex(
    r"((?:(?<![a-z0-9])[-–−+]|\b(?:plus|minus|positive|negative))(?:\s*ve\b)?)"
    r"(?:\s+(?:figures?|numbers?|values?|places?))?\s*(?:(?:=|:|\b(?:is|are|means|goes|go)\b)\s*)?"
    r"towards?\s+(?:the\s+)?(?:house|audience|auditorium|seats|seating|public|people|congregation|pews|nave|crowd)\b"
)
_ANY_SIGN = regex(
    r"[+]|\b(?:plus|pos|minus|neg)|[–−-](?:\s?ve\b|\W{0,3}(?:=|is\b|means\b|[a-z]+s\b))"
)
_IS = regex(r"(?:is|are|means?|to|towards?|the|on|for|figures?|numbers?|values?|places?|\s)*")
_DASHES = frozenset("-–−")
_OPENED, _CLOSED = ("", "a", "(", "["), ("", ")", "]", ".")
_QUOTES = ("(", "[", '"', "'", "“", "‘")
# "L is +" of nobody is what plus is taken for where no line says it, which a note says.
_LETTER_LEFT = regex(r"\W*l\s+is\s+(?:[+]|plus|positive)\W*")
_ARROW = regex(r"[-=]>|→|⇒")
_CLAUSES = regex(r"(,\s|\s/\s|[()\[\]|;])")
_NEGATED = regex(r"\b(?:no|not|non|without|never|unless|except|nor|neither|[a-z]+n['’]t)\b")
_FILLED = regex(
    r"(?:\b(?:of|off|from|the|an?|cent(?:re|er)|middle|mid|cl|c/l|line|centreline|centerline|side|sides|sign|signs|figures?"
    r"|numbers?|values?|places?|positions?|distances?|dims?|dimensions?|offsets?|measurements?|readings?|units?|lamps?"
    r"|direction|way|axis|x|in|front|before|with|is|are|be|being|was|means?|denotes?|indicates?|signif(?:y|ies)"
    r"|represents?|stands?|to|towards?|for|on|goes|going|go|runs?|running|reads?|increas(?:es|ing)|counts?|counted|as"
    r"|gets?|have|has|takes?|use|used|written|shown|given|marked|all|always|measured|heading|your|our|lies)\b|[=:>]|\s)*"
)
_LINKS = regex(
    r"[=:>]|\b(?:is|are|be|being|means?|denotes?|indicates?|signif(?:y|ies)|represents?|stands?|to|towards?|for|on|goes"
    r"|going|go|runs?|running|increas(?:es|ing)|gets?|have|has|takes?|written|shown|given|marked|side)\b"
)
_SURE = regex(r"ve\b|pos|neg")
_SAID_OF = (
    r"(?:\s+(?:figures?|numbers?|values?|places?|dims?|dimensions?|distances?|offsets?|signs?|x|side"
    r"|direction|way))*"
)
_SIGN_WORD = r"(?:\b(?:plus|minus|positive|negative)\b|[+–−-]\s?ve\b)"
_SPOKEN = regex(  # a sign, and what it is or is used for
    rf"(?:(?<![^\s(\[,;:/\"'“‘])[+]|{_SIGN_WORD})[\"'”’)\]]?{_SAID_OF}\s*"
    r"(?:[=:→>]|->|\b(?:is|are|being|means?|denotes?|indicates?|goes|going|runs?|to|towards?|for|on)\b)"
    rf"|(?<![^\s(\[,;:/\"'“‘])[–−-][\"'”’)\]]?\s*="
    rf"|(?:[=:→>]|\b(?:is|are|being|have|has|gets?|use|an?|the|side|s[lr]|left|right)\b)\s*"
    r"(?:(?:an?|the|not|never|always|all|now|as|called|shown|taken|marked|counted)\s+){0,3}[\"'“‘(]?"
    rf"(?:{_SIGN_WORD}|[+](?!\s*\w))"
    r"|\b[lr]\s?[+](?!\s*\w)|(?<![^\s(\[,;/])[+][lr]\b|\b(?:positive|negative)\b|[+–−-]\s?ve\b"
)
_SIDE_LIKE = regex(
    r"\b(?:sl|sr|left|right|l|r|ps|op|prompt|sides?|north|south|east|west|cour|jardin)\b"
)
_STANDS_FOR = regex(
    r"(?:(?<![^\s(\[,;:/\"'“‘])[+][\"'”’)\]]?|\b(?:plus|positive)\b)\s*(?:=|\b(?:is|means)\b)\s*([^,;()]{2,})"
)
_OF_TRADE = regex(
    r"\d|\b(?:distances?|gaps?|space|spacing|heights?|drop|number|same|last|previous|next|first|second|other|new|old|extra"
    r"|added?|moved?|cut|spares?|more|and|with|has|have|needs?|units?|lamps?|lights?|lanterns?|fixtures?|instruments?|circuits?"
    r"|channels?|dimmers?|gels?|colours?|colors?|frames?|scrollers?|barn\s?doors?|doors?|iris|gobos?|shutters?|hats?|snoots?|safety|clamps?"
    r"|stands?|hired?|rental|checked|done|ok|yes|no|none|not|plaster|zero|deck|floor|top|up|down|us|ds|cl|cent\w*|middle"
    r"|audience|house|stage|focus\w*|specials?|twofers?|pair\w*|ditto|repeat\w*|movers?|moving|led|data|dmx|power|cables?|non|dim|practicals?|hot|live|doubled?|twins?)\b"
)
_SENTENCES = regex(r"([.;]\s)")
_ENDS = regex(r"[,/|]\s|\d")
_IS_PLUS = regex(r"[+]|plus|pos")
_TOKEN = regex(
    r"(?P<sign>[-–−+]\s?ve\b\.?|(?:(?<![a-z0-9])[-–−+]|[-–−+](?![a-z0-9]))(?!\s*\d)(?:\s*ve\b\.?)?"
    r"|\b(?:plus|minus|positive|negative)\b|\b(?:pos|neg)\b\.?)"
    r"|\b(?P<side>sl|sr|us|ds|left|right|ps|op|cour|court|jardin|garden|(?<![/&])[lr](?!['’/&]))\b"
)
