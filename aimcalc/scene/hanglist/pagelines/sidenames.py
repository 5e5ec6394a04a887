"""Sides that lines name: a list's own words for one, "PS = SL", "C = cour", "pulpit side (P)", and the side
that plus is, or that all places of a table are to."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headingsides import GARDEN_PAIR, signs_out


def sides_of_plus(text: str) -> list[str]:
    """The sides that plus is in a line: one a sort of position, and none where two contradict each other."""
    plain = re.sub(r"\bop\b", "sr", re.sub(r"\bps\b", "sl", prompt_plain(text)))
    if _ADDS.search(plain) and not _MINUS_TOO.search(plain):
        return []
    said = {signs_out(part)[1] for part in (plain, *re.split(r"[.;,/]\s", plain))}
    return [side for side in ("SL", "SR", "US", "DS") if side in said and _OTHER[side] not in said]


_ADDS = regex(r"\b(sl|sr)\b[^,;.=:+]{0,30}(?:[+]|\bplus\b)\s+(?!\1)(?:sl|sr)\b")  # two towers
_MINUS_TOO = regex(r"\b(?:minus|neg)|[–−]|(?<!\w)-|-(?!\w)")
_VALUES = (
    r"(?:\s+(?:numbers?|figures?|values?|places?|distances?))?\s*(?:=|is|are|to|towards?|for|:)?\s*"
    r"(?:(?:to|the|on|at)\s+)*(left|right)\b"
)
_PLUS_BARE = regex(rf"(?<!left )(?<!right )(?:[+]|\b(?:plus|positive))(?:\s*ve\b)?{_VALUES}")
_MINUS_BARE = regex(rf"(?:(?<!\w)[-–−]\s*(?==)|\b(?:minus|negative)){_VALUES}")
_OTHER = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}


def bare_plus(text: str) -> str:
    """Left or right, where a line says that plus is one of them, or minus the other, and not whose."""
    plus, minus = _PLUS_BARE.search(text), _MINUS_BARE.search(text)
    if plus:
        return plus[1]
    return {"left": "right", "right": "left"}[minus[1]] if minus else ""


def plus_unsaid(text: str) -> str:
    """What a line says that plus, or minus, is, where that is the left or right of somebody of whom nobody
    knows how they stand, "+ = the pulpit's left", or the way to what nobody places, "+ = east"; "" of
    others."""
    found = None if bare_plus(text) else _PLUS_OF.search(text)
    if found is None and not bare_plus(text):
        found = _PLUS_SOMEHOW.search(text)
    if found is None and not _UP_OR_DOWN.search(text):  # "upstage of the line, minus to the door"
        found = _PLUS_THERE.search(text) or _PLUS_IS.search(text)
    return found[0] if found else ""


_PLUS_SOMEHOW = regex(  # "plus ... left", which no other rule reads
    r"(?:^|[.;,:(]\s*)(?:(?!(?:left|right)\b)[^\W\d_]{3,12}\s+)?(?:[+](?!\s*\d)|plus\w{0,9}\b|positi[vf]\w{0,4}\b)[^.;,:()+\d]{1,40}\b(?:left|right|sl|sr)\b"
    r"|(?:^|[.;,:]\s*)(?:(?:to|at|on|of|the)\s+){0,3}(?:left|right|sl|sr)\b[^.;,:+\d]{0,40}\s(?:plus|minus|positive|negative)\W*(?:$|[.;,])"
)
_UP_OR_DOWN = regex(r"\b(?:us|ds)\b")
_THEIR_SIGN = (
    r"(?:(?:^|(?<=[\s(,;]))[+](?:\s*ve\b)?"
    r"|\b(?:plus|minus|positive|negative)(?:\s+(?:figures?|numbers?|values?|places?))?\b)"
)
_PLUS_THERE = regex(
    rf"{_THEIR_SIGN}\s*(?:(?:=|:|\b(?:is|are|means|goes|go)\b)\s*(?:(?:on|to|towards?|the)\s+)*"
    r"(?:(?:north|south|east|west)(?:ern)?\b|[^\W\d_]+\s+(?:side|wall|door|window|aisle)\b)"
    r"|(?:(?:=|:|\b(?:is|are|means|goes|go)\b)\s*)?\btowards?\s+(?:the\s+)?(?!next|prev|last|unit|lamp|zero|cent|cl\b"
    r"|the\b|us\b|ds\b|house\b|audience|auditorium|seats|public|people\b|congregation|pews|nave\b|crowd)[^\W\d_]{3,})"
)
_PLUS_IS = regex(  # "+ = the moon", and no gap, height or lamp
    r"(?:(?:^|(?<=[\s(,;]))[+−–-](?=\s*=)|\b(?:plus|minus)\b)\s*(?:=|\b(?:is|means)\b)\s*(?:the|our|your|my)\s+"
    r"(?!(?:distance|gap|space|spacing|height|drop|number|same|last|previous|next|first|second|other|new|old|unit|lamp|light"
    r"|lantern|fixture|plaster|middle|zero|deck|floor|top|cl|cent\w{1,8})\b)"
    r"(?:[^\W\d_]{1,24}\s+){0,2}[^\W\d_]{2,24}(?=\W*$|\s*[.;,)])"
)
_PLUS_OF = regex(  # and no position that is called so, "+ = side Gallery left"
    r"(?:[+]|\b(?:plus|positive|minus|negative))(?:\s*ve\b)?\s*(?:=|\bis\b|:|\bto(?:wards?)?\b)\s*"
    r"(?:[^\W\d_]+\s+){0,3}[^\W\d_]+(?:['’]s?|s['’])\s+(?:left|right)\b(?!\s+end)"
)


def half_said(text: str) -> str:
    """The side that a title says all places of its table are to, "SR side", "CL / SL half", or those without
    one."""
    plain = prompt_plain(text)
    found = _HALF.fullmatch(plain.strip(" .:-"))
    if found:
        return found[1].upper()
    told = {side for side in _NO_SIDE.findall(plain) if side}
    return told.pop().upper() if len(told) == 1 else ""


def own_sides(text: str) -> tuple[tuple[str, str], ...]:
    """The list's own words for a side or the middle; the other of a pair with them, "PS = SL" alone."""
    longer = tuple((word, side.upper()) for word, side in _LONG_WORD.findall(text))
    told = {word for word, _ in longer}
    longer += tuple(
        (_ACROSS_FROM[word], "SR" if side == "SL" else "SL")
        for word, side in longer
        if _ACROSS_FROM.get(word, word) not in told
    )
    longer += _royal_sides(text)
    letters = (*_GARDEN_LETTER.findall(text), *((b, a) for a, b in _LETTER_BEHIND.findall(text)))
    longer += tuple((letter, _GARDEN[side]) for letter, side in letters)
    if "j" in text and not letters and GARDEN_PAIR.search(text):
        longer += (("c", "SL"), ("j", "SR"))  # the French letters, which nobody explains
    longer += tuple((letter, side.upper()) for side, letter in _SIDE_LETTER.findall(text))
    centres = tuple((word, "CL") for word in _OWN_CENTRE.findall(text))
    return _sided_words(text) + longer + centres


def _royal_sides(text: str) -> tuple[tuple[str, str], ...]:
    """The letters of the king's and the ladies' side of a Danish stage, in a line that says them, and not
    that they are the other way round there."""
    found = [(w, s, lr) for w, s, lr in _ROYAL.findall(text)]
    found += [(w, s, "") for s, w in _ROYAL_BEHIND.findall(text)]
    seen = re.search(r"\bseen from the (stage|house)\b", text)
    left = "" if seen is None else "SL" if seen[1] == "stage" else "SR"
    is_side = {"left": left, "right": _OTHER.get(left, ""), "sl": "SL", "sr": "SR", "": ""}
    turned = any(is_side[said] not in ("", _GARDEN[side]) for _, side, said in found)
    return () if turned else tuple((word, _GARDEN[side]) for word, side, _ in found)


def _sided_words(text: str) -> tuple[tuple[str, str], ...]:
    if "ps" not in text and "op" not in text and "prompt" not in text and "p.s" not in text:
        return tuple((word, side.upper()) for word, side in _OWN_WORD.findall(text))
    found = {word: side.upper() for word, side in _OWN_WORD.findall(prompt_plain(text))}
    found |= {word: side.upper() for word, side in _PROMPT_LETTER.findall(prompt_plain(text))}
    found |= {word: side.upper() for side, word in re.findall(_OTHER_WAY, prompt_plain(text))}
    for word, other in (("ps", "op"), ("op", "ps")):
        if word in found and other not in found and found[word] in ("SL", "SR"):
            found[other] = "SR" if found[word] == "SL" else "SL"
    return tuple(found.items())


def prompt_plain(text: str) -> str:
    """Words with prompt side and opposite prompt as ps and op."""
    if "prompt" not in text.casefold() and "." not in text:
        return text
    return re.sub(_PROMPT, "ps", re.sub(_OPPOSITE, "op", text))


def own_words(text: str, sides: Iterable[tuple[str, str]]) -> str:
    """A text with words of a list's own for a side as that side."""
    plain = prompt_plain(text)
    for word, side in sides:
        plain = re.sub(rf"(?<![^\W\d_]){word}(?![^\W\d_])", f" {side}", plain, flags=re.IGNORECASE)
    return plain


_OPPOSITE = (
    r"(?i)"
    r"\b(?:opposite|opp\b\.?|off)[\s-]*prompt(?:[\s-]*side)?\b|\bo\.\s?p\b\.?"
)
_PROMPT = (
    r"(?i)"
    r"\bprompt(?:[\s-]*(?:side|corner))?\b|\bp\.\s?s\b\.?"
)
_HALF = regex(
    r"(?:(?:c/?l|cent(?:re|er)(?:\s*line)?)\s*(?:/|to|and|&|\+)\s*)?(s[lr])\s*(?:side|half)"
)
_NO_SIDE = regex(  # "no side = SL", "unmarked: SR"
    r"\b(?:no\s+side|without\s+(?:an?\s+)?side|unmarked|unsided|no\s+letter|side\s+not\s+(?:given|written))"
    r"(?:\s+(?:given|written|marked))?\s*(?:=|:|\bis\b|\bare\b|\bmeans?\b|,)\s*(?:on\s+|to\s+|the\s+)*(s[lr])\b"
)
# What is on that side, before the side: "N = north aisle = SR", "K: kitchen side (SL)".
_THERE = (
    r"(?!left|right|stage|house|opposite)"
    r"(?:(?!(?:on|at|the|north|south|east|west|cour|court|jardin|garden|prompt)\b|cam)[a-z]{2,15}\s+){0,2}"
    r"(?:aisle|side|wall|transept|end|door|wing|seats|half)s?\s*(?:=|\(|,|–|-|:|\bis\b|\bmeans\b)\s*"
)
_OWN_WORD = regex(
    r"(?<![a-z])(?!(?:l|r|is|are|it|plus|sl|sr|us|ds)\b)([a-z]{1,3})\)?\s*(?:\([^()]*\)\s*)?"
    rf"(?:=|:|->|→|\b(?:is|means)\b)\s*(?:(?:on|at|the)\s+|(?:north|south|east|west)\b[\s,=(–-]+|{_THERE}"
    r"|(?:cour|court|jardin|garden|prompt)(?:\s+side)?(?:\s*\([a-z]+\))?\s*[=(]\s*|cam\w*\s+\w+\s*\(\s*)*(sl|sr|us|ds)\b"
)
_LONG_WORD = regex(
    r"(?<![a-z])(court|garden|cour|jardin|north|south|east|west)\b(?:\s+side)?\s*(?:\([a-z]\)\s*)?(?:=|:|->|→|\b(?:is|means)\b)\s*(sl|sr)\b"
)
_ACROSS_FROM = {"north": "south", "south": "north", "east": "west", "west": "east"}
_OWN_CENTRE = regex(
    r"(?<![a-z])(?!(?:c|cl)\b)([a-z]{1,3})\s*=\s*(?:the\s+|on\s+(?:the\s+)?)?(?:axe|axis|cl|cent(?:re|er)(?:\W?line)?|middle)\b"
)
_PROMPT_LETTER = regex(r"(?<![a-z])([po])\)?\s*(?:=|:|\bis\b|\bfor\b)\s*(ps|op)\b")
# Stage left and stage right in French (common practice, no source).
_GARDEN = {"cour": "SL", "court": "SL", "jardin": "SR", "garden": "SR"}
_GARDEN_LETTER = regex(
    r"(?<![a-z])([cjg])\)?\s*(?:=|:|\bis\b|\bfor\b|\bmeans\b)\s*(?:(?:c[oô]t[eé]|side)\s+)?(cour|court|jardin|garden)\b"
    r"(?!\W*s[lr]\b)"
)
_ROYAL = regex(
    r"(?<![a-z])(ks?|ds?)\)?\s*(?:=|:|\bis\b|\bfor\b)\s*(cour|jardin)\b(?:\s*[(=,]\s*(left|right|sl|sr)\b)?"
)
_ROYAL_BEHIND = regex(r"(?<![a-z])(cour|jardin)\s*\((ks?|ds?)\)")
_SIDE_LETTER = regex(r"\b(s[lr])\s+side\s*[(\[]\s*([a-z])\s*[)\]]")  # "pulpit side (P)"
_LETTER_BEHIND = regex(r"(?<![a-z])(cour|court|jardin|garden)(?:\s+side)?\s*\(([cjg])\)")
_OTHER_WAY = r"\b(sl|sr)\s*(?:=|:|->|→|\(|\b(?:is|means)\b)\s*(?:the\s+)?(ps|op)\b"
