"""What headings say in more words than a key needs: a remark in brackets or after a dash, "Cct - house", a
verb of lighting, "Trained on", the wattage beside a kind; and those that count what they name, "No. of
channels"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex

_BRACKETS = regex(r"\([^()]*\)|\[[^\[\]]*\]")
_AFTER_DASH = regex(r"(?<=[\w.)])\s+[-–—]\s+(?=[^\W\d](?:[^\W\d]|\s)).*$")
_REMARK = regex(r"[(\[].*|\s[-–—]\s.*$")
_ANOTHER = regex(  # of another time or place
    r"\b(?:old|prev\w*|alt\w*|spare|second|2nd|was|before|new|act|optional|from|end"
    r"|last|next|also|not|how many)\b"
)
_ELSE = """
load rating ratings amps watts weight cost price date time check checks checked tested test done ok yes
count counts qty quantity size length temp temperature type kelvin sheets iris scroller zoom pan tilt
shutter shutters gobo mode level bottom lower trim intensity max min fuse fused fade value
"""
_OF_ELSE = frozenset(_ELSE.split())  # words of another thing, but beside a kind
_BESIDE_IT = frozenset(
    ("of", "the", "in", "on", "no", "per", "y", "n", "cut", "hookup", "hook", "up", "patched", "by")
)
# What may stand after the dash of a heading that is still of what stands before: whose, where, in which form.
_HEADED_SO = """
a b c d e f g h of the on in at as is it its to from by for and or per see only all if unless where with our
house venue hall theatre desk board console plot plan drawing chalk chalked tape taped patch sheet list hookup
no nos nr num number numbers name names code codes label labels letter id ref lee rosco gam
foh onstage stage bar bars pipe pipes batten boom booms truss trusses tower towers ladder rail grid box bridge
balcony lx electric electrics rung sl sr ps op us ds left right
hung hang rigged marked noted stated written printed tbc tba tbd approx provisional check stock confirm
"""
_MAY_FOLLOW = frozenset(_HEADED_SO.split())
_OF_KINDS = {
    "degrees",
    "degree",
    "deg",
    "beam",
    "angle",
    "lens",
    "make",
    "model",
    "family",
    "wattage",
}
_HOW_MANY = regex(
    r"\W*(?:(?:no|nos|nr|num|number)\b\W{0,3}of|how\s+many|#\s?of)\s+(?:(?:dmx|desk|control)\s+)?"
    r"(?:ch|chan|channel|chnl|dimmer|circuit|cct|ckt|gel|colour|color|filter|way|outlet|socket)s\W*"
)
# How people say that a unit is turned to something, before the word that says to what.
_AIMED = """
point pointed pointing aim aims aimed aiming shine shines shining shone look looks looking throw throws
throwing thrown shoot shoots shooting trained dressed directed focus light lighting beam beams beamed
cast casts casting set lights lit falls falling lands landing spotted panned swung
"""
_AIMING = frozenset(_AIMED.split())
_ONTO = frozenset(("at", "to", "on", "onto", "upon", "toward", "towards", "over", "across"))
_NO_AIM = frozenset(("light over", "lighting over", "look over", "lit to", "set at", "set over"))
_RATINGS = frozenset(
    ("wattage", "watts", "watt", "w", "kw", "power", "degree", "degrees", "beam", "size", "lens")
)


def beside_remark(text: str) -> str:
    """A heading without a remark in brackets or after a dash; as it is where that is of another time."""
    short = _AFTER_DASH.sub(" ", _BRACKETS.sub(" ", text))
    return text if _ANOTHER.search(text) or not short.strip() else short


def remark_in(text: str) -> str:
    """The remark that a heading has in brackets or after a dash."""
    found = _REMARK.search(text)
    return found[0].strip(" ()[]-–—") if found else ""


def is_of_else(text: str) -> bool:
    """Whether a remark in a heading makes another column of it, "Circuit - tested", but of one of kinds."""
    said = set(re.findall(r"[^\W_]+", remark_in(text)))
    yes_or_no = {"y", "n"} <= said
    return said <= _OF_ELSE | _BESIDE_IT and bool(said & _OF_ELSE or yes_or_no)


def may_follow(text: str, *, of_kind: bool) -> bool:
    """Whether the remark after the dash of a heading leaves it what it is: "Cct - house", no "Ch - roll"."""
    said = set(re.findall(r"[^\W_]+", remark_in(text)))
    return said <= (_MAY_FOLLOW | _OF_KINDS if of_kind else _MAY_FOLLOW)


def follows_dash(text: str) -> bool:
    """Whether a heading has a remark after a dash."""
    return bool(_AFTER_DASH.search(text))


def counts_them(text: str) -> bool:
    """Whether a heading counts what it names: "No. of channels", "How many gels"."""
    return bool(_HOW_MANY.fullmatch(text.casefold()))


def says_aim(words: Sequence[str]) -> bool:
    """Whether words say what a unit is turned to, by a verb of it: "trained on", "what it shines upon"."""
    if len(words) == 2:
        return words[0] in _AIMING and words[1] in _ONTO and " ".join(words) not in _NO_AIM
    return len(words) == 3 and words[0] == "where" and words[1] == "to" and words[2] in _AIMING


def says_who_is_there(text: str) -> bool:
    """Whether a heading in lower case names those who stand where a unit is aimed: "dancers at"."""
    return bool(_WHO_IS_AT.fullmatch(text.strip(" .:?")))


_WHO_IS_AT = regex(
    r"(?:(?:lights?|lighting|lit|for|where)\s+)?(?:(?:the|which|whoever)\s+)?"
    r"(?:dancers?|actors?|singers?|players?|performers?|artistes?|artists?|people|persons?|cast|chorus|choir|company|band"
    r"|musicians?|speakers?|soloists?|talent)\s+(?:(?:is|are|stands?|standing|sits?|sitting)\s+)?(?:at|on|in)"
)


def is_rating(part: str) -> bool:
    """Whether a part of a heading says how strong or wide a unit is, which its kind says too: "wattage"."""
    words = re.findall(r"[^\W_]+", part)
    return bool(words) and _RATINGS.issuperset(words)
