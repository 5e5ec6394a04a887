"""Where somebody stands whose left and right a line means, by the way that they look: "set fra scenen mod
salen" is seen from the stage, "mit Blick auf die Bühne" from the house.

The words of other languages for the stage, the house and for looking are marks here, one character each.
"""

from __future__ import annotations

import re

from aimcalc.named import regex

STAGE, HOUSE, SEEN_MARK, BOARDS = (
    "\x01",
    "\x02",
    "\x03",
    "\x04",
)  # who plays, who looks on; seen; where
FACES, VIEW, AWAY = "\x05", "\x06", "\x07"


def as_stood(text: str) -> str:
    """A text of marks with each way that somebody looks as the place that they look from."""
    if not set(text) & _MARKS:
        return _ONLOOKER.sub(HOUSE, text)
    text = _FROM_SLAVIC.sub("from ", " ".join(text.split()))  # long gaps would take long
    text = _FACE.sub(" ", text)
    text = _FROM_TO.sub(_from_first, text)
    text = _LOOKED_AT_LAST.sub(r"\3 \1 \2", text)
    return _ONLOOKER.sub(HOUSE, _SEEN_TOWARDS.sub(_seen_towards, _LOOKED_AT.sub(_looking, text)))


def _from_first(found: re.Match[str]) -> str:
    """What is seen from one side towards the other, as seen from the first; two of one say nothing."""
    first, last = found[1], found[2]
    if (first == HOUSE) == (last == HOUSE):
        return found[0]
    return f"{SEEN_MARK} from {HOUSE if first == HOUSE else STAGE}"


def _seen_towards(found: re.Match[str]) -> str:
    """What is seen towards the seats is seen from the stage, "sett mot publiken", and the other way round."""
    return f"{SEEN_MARK} from {STAGE if found[1] == HOUSE else HOUSE}"


def _looking(found: re.Match[str]) -> str:
    """Whose left and right are those of somebody who looks at the seats or at the stage, or who turns the
    back to them; nobody's where "Blickrichtung Publikum" may be either way."""
    way, between, what = found.groups()
    towards = _TOWARDS.search(between)
    if not towards and (_WHENCE if way != VIEW else _BELONGS).search(between):
        return f"{SEEN_MARK} {between} {what}"
    if way == VIEW and not towards:
        return " "
    seats = (what == HOUSE) != (way == AWAY)
    return f"{SEEN_MARK} from {STAGE if seats else HOUSE}"


def tells_no_view(text: str, same: bool) -> bool:
    """Whether a line of marks that has left and right has somebody on each of them, or things, and nobody who
    looks: "left the singer, right the actor", and not "left and right of the actor", nor the `same` one on
    both, nor what a sign stands for, "plus = left of the actor"."""
    sides = set(_SIDE.findall(text))
    if not sides or set(text) & _LOOKERS:
        return False
    if len(sides) == 1:
        return not _SIGN_OF_SIDE.search(text) and bool(_LIT.search(text))  # "left bar: singer"
    if same or _SIGN_OF_SIDE.search(text):
        return False
    return not (_TOGETHER.search(text) or _BELONGING.search(text))


_SIGN_OF_SIDE = regex(r"(?:=|\b(?:plus|minus|positive|negative)\b)[^=;,]{0,40}?\b(?:left|right)\b")
_LIT = regex(
    r"\b(?:left|right)\b\s*(?:[:–-]|\b(?:per|pour|para|auf|na|pa|voor|fur|til)\b)\s*(?:(?:the|of)\s+)*[\x01\x02\x04]"
)
_SIDE = regex(r"\b(?:left|right)\b")
_LOOKERS = frozenset((SEEN_MARK, FACES, VIEW, AWAY))
_BETWEEN = (
    r"[^\w\x01-\x07]+(?:(?:and|und|och|oder|eller|oppure|the|side|of|from|[^\W\d_]{1,2}|\d+)"
    r"[^\w\x01-\x07]+){0,6}"
)
_TOGETHER = regex(rf"\bleft{_BETWEEN}right\b|\bright{_BETWEEN}left\b")
_BELONGING = regex(
    r"\b(?:left|right)\b\s*(?:side\s*)?(?:[(\[]|(?:of|from)\b)\W*(?:(?:of|from|the)\W+)*[\x01\x02\x04]"
)
_MARKS = frozenset((STAGE, HOUSE, BOARDS))
_FROM_SLAVIC = regex("\\bze?\\s+(?=[\x01-\x04])")  # "ze sceny", "z pohledu herce"
_ONWARD = (  # towards what somebody looks
    r"(?:to|of|into|ins?|i|na|do|ku|k|op|richtung|richting|direccion|direction|direzione|direcao|smerem|strone|kierunku)"
)
_NO_SIDE = r"(?!(?:left|right|centre|and|or|sl|sr|not|from)\b)"
_FROM_TO = regex(
    "(?:\x03|[\x05\x06])?\\s*\\b(?:from|(?<=\x03 )of)\\s+(?:the\\s+)?([\x01\x02\x04])"
    rf"(?:\s*[\x03\x05\x06]|\s+{_NO_SIDE}[^\W\d_]{{1,10}}){{0,5}}?\s+{_ONWARD}\s+(?:(?:the|to|of|at)\s+)*"
    "([\x01\x02\x04])"
)
_SEEN_TOWARDS = regex("\x03\\s+(?:(?:out|ut|ud|uit)\\s+)?to\\s+(?:the\\s+)?([\x01\x02\x04])")
_LOOKED_AT = regex(
    r"([\x05-\x07])((?:\s+(?!left\b|right\b|centre\b)[^\W\d_]{1,8}){0,4})\s*([\x01\x02\x04])"
)
_LOOKED_AT_LAST = regex(  # "wenn man ins Publikum schaut"
    r"\b((?:to|auf|ins?|in|op|naar)(?:\s+the)*)\s*([\x01\x02\x04])\s*([\x05\x06])"
)
_FACE = regex("\\b(?:face|visage)\\s*\x02")  # "face public" is to the seats, "de face" from them
_ONLOOKER = regex("\\b(?:qui|chi|quien|quem)\\s+\x05")  # who looks, and nobody says where
_WHENCE = regex(r"^\s*(?:from|of)\b")
_BELONGS = regex(r"^\s*(?:from|of|the)\b")  # "Blick der Zuschauer"
_TOWARDS = regex(r"^\s*(?:out\s+|ut\s+|ud\s+|uit\s+)?(?:to|auf|ins?|i|op|na|do|richtung|gegen)\b")
