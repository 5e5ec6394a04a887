"""Two signs and two sides that stand beside each other without more words, in a line or a heading:
"(-) stage right (+) stage left", "jardin + cour -"; which belongs to which, in the plainest words.
"""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.ends import sides_plain

LONGEST = 300  # characters of a line that is looked through
_SAME = {"ps": "sl", "op": "sr", "cour": "sl", "court": "sl", "jardin": "sr", "garden": "sr"}
_OPPOSITE = {"sl": "sr", "us": "ds", "left": "right"}
_OPPOSITE |= {other: one for one, other in _OPPOSITE.items()}
_PAIRS = 2
_GAP = 30  # characters at most between a sign and its side, "(-) figures are to the right"


def signs_plain(text: str) -> str:
    """A text with each sign before its side, "- = sr, + = sl", in every sentence that names two signs and two
    opposite sides by turns; any other sentence as it is. One that begins with a sign has each before its
    side, one that begins with a side each behind it."""
    if len(text) > LONGEST or not _ANY_SIGN.search(text):
        return text
    return "".join(map(_plain, _SENTENCES.split(text)))


def paired_plain(heading: str) -> str:
    """A heading with such signs each before its side; any other as it is."""
    sided = sides_plain(heading)
    plain = signs_plain(sided)
    return heading if plain == sided else plain


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


_ANY_SIGN = regex(r"[+]|\b(?:plus|pos)")
_IS = regex(r"(?:is|are|means?|to|towards?|the|on|for|figures?|numbers?|values?|places?|\s)*")
_SENTENCES = regex(r"([.;]\s)")
_ENDS = regex(r"[,/|]\s|\d")
_IS_PLUS = regex(r"[+]|plus|pos")
_TOKEN = regex(
    r"(?P<sign>(?:(?<![a-z0-9])[-–−+]|[-–−+](?![a-z0-9]))(?!\s*\d)(?:\s*ve\b\.?)?"
    r"|\b(?:plus|minus|positive|negative)\b|\b(?:pos|neg)\b\.?)"
    r"|\b(?P<side>sl|sr|us|ds|left|right|ps|op|cour|court|jardin|garden)\b"
)
