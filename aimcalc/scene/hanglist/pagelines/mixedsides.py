"""Lines round a table that speak of more than one left and right: one of places and another of what units are
aimed at, or of some places one and of some the other, which nobody can tell apart."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from aimcalc.named import NamedTuple, regex


class Whose(NamedTuple):
    """Whose left and right places have, and whose the names of targets where it is another: stage or house;
    "" where nobody says."""

    places: str = ""
    aims: str = ""
    named: bool = False  # it is said of names of positions alone


def whose_of(text: str, whose: Callable[[str], str]) -> Whose:
    """Whose left and right a line in lower case means; `whose` tells it of a line that speaks of one."""
    if is_mixed(text):
        return Whose()
    parts = _parts(text)
    said = {part: found for part in parts if (found := whose(part))} if len(parts) > 1 else {}
    if len(set(said.values())) < 2:
        one = whose(text) or (whose(parts[0]) if len(parts) == 1 else "")
        named = bool(one) and all(map(_is_of_names, said or parts or [text]))
        return Whose(one, named=named)
    said = {part: found for part, found in said.items() if not _is_of_names(part)} or said
    aims = {found for part, found in said.items() if _is_of_aims(part)}
    places = {found for part, found in said.items() if not _is_of_aims(part)}
    if len(places) != 1 or len(aims) > 1:
        return Whose()
    return Whose(places.pop(), aims.pop() if aims else "")


def is_mixed(text: str) -> bool:
    """Whether a line says that some sides are seen one way and some the other, or that nobody knows."""
    return any(
        _SIDE.search(part) and _SEEN_BY.search(part) and _MIXED.search(part)
        for part in _SENTENCE.split(text)
    )


def desk_moved(lines: Iterable[str]) -> bool:
    """Whether of some lines in lower case one has left and right as seen from the desk, and one says that the
    desk has moved."""
    lines = list(lines)
    return any(map(_FROM_DESK.search, lines)) and any(map(_DESK_MOVED.search, lines))


_FROM_DESK = regex(r"\bfrom\s+(?:the\s+|our\s+)?(?:\w+\s+)?(?:desk|console)\b")
_DESK_MOVED = regex(
    r"\b(?:desk|console)\b[^;]{0,80}\b(?:moved?|moves|moving|shifted|relocated|somewhere\s+else)\b"
)


def _parts(text: str) -> list[str]:
    """The sentences of a line that speak of left and right, and what "but" parts."""
    return [part for part in _PARTED.split(text) if _LEFT_OR_RIGHT.search(part)]


def _is_of_names(text: str) -> bool:
    """Whether a line, or a part of one, is on the left and right in names alone: "stand names: performers'
    left and right"."""
    if _NAMES.search(text) is None or _OF_AIMS.search(text):
        return False
    return _OF_PLACES.search(_NAMES.sub(" ", text)) is None


def _is_of_aims(part: str) -> bool:
    return _OF_AIMS.search(part) is not None and _OF_PLACES.search(part) is None


_LEFT_OR_RIGHT = regex(r"\b(?:lefts?|rights?|l|r)\b")
_PARTED = regex(
    r"[.;!?]\s+|;|,\s*(?=[\w\s]{0,30}\bnames?\b)|,\s*(?=(?:but|while|whereas|though)\b)|\s(?=but\b)"
)
_NAMES = regex(  # of what hangs or stands, and no column of theirs
    r"(?:(?!and\b|or\b)\b[^\W\d_]+\s+)?\b(?:names|name|noms|nom|nomi|nombres|nomes|navne|navn|namnen|nazwy|namen|[^\W\d_]{3,15}namen)\b"
    r"(?!\s+columns?\b)(?:\s+(?:of|for|on)\s+(?:the\s+)?[^\W\d_]+(?:\s+and\s+[^\W\d_]+)?)?"
    r"|\b(?:stands?|booms?|ladders?|towers?|bars?|pipes?|positions?|trees?|booths?)\s+(?:are\s+|is\s+)?(?:named|called|labell?ed)\b"
)
_SENTENCE = regex(r"[.;!]\s+|;")
_SEEN_BY = regex(
    r"\b(?:stage|house|audience|seats?|auditorium|public|hall|stalls|s[lr]|performers?|actors?|salle|saal|zuschauer\w*|bühne"
    r"|sala|zaal|toneel)\b|[\x01\x02]"
)
_OF_AIMS = regex(
    r"\b(?:shin(?:e|es|ing)|focus\w*|aim(?:s|ed|ing)?|targets?|point(?:s|ed|ing)?\s+at|areas?|purpose|acting)\b"
)
_OF_PLACES = regex(
    r"\b(?:dist\w*|how\s+far|places?|hang\w*|hung|bars?|pipes?|measure\w*|offsets?|dims?|figures?|feet|ft|metres"
    r"|meters|cm|mm|(?:from|off)\s+(?:the\s+)?(?:cl|cent\w+|mid\w*))\b"
)
_SIDE = regex(r"\b(?:lefts?|rights?|l|r|sides?|s[lr])\b|\bl\s?/\s?r\b")
_SOME = (
    r"some(?:times|\s+of)?|a\s+few|half|part(?:ly|s)?|most(?:ly)?|teils|deels|dels|tant[oô]t|parfois|certain\w*"
    r"|alcun\w|unos"
)
_OTHERS = (
    r"some(?:times)?|others?|half|(?:the\s+)?rest|part(?:ly|s)?|teils|deels|dels|tant[oô]t|d['’]autres|altr\w"
    r"|otros|autres"
)
_MIXED = regex(
    rf"\b(?:{_SOME})\b[^.]{{1,80}}\b(?:{_OTHERS})\b"
    r"|\b(?:mixed|mix\s+of|mixture|jumbled|muddled|teilweise|gemischt|door\s+elkaar)\b"
    r"|\b(?:not|never|un)\s?(?:sure|certain)\b|\b(?:don['’]?t|do\s+not|nobody|no\s+one|didn['’]?t)\s+(?:know|remember|wrote|noted|say)\w*"
    r"|\b(?:can['’]?t|cannot|can\s+not)\s+(?:remember|recall|tell)\b|\bforgot\w*\b|\bno\s+idea\b"
    r"|\b(?:stage|house|audience)\W*(?:left|right)?\W*\bor\b[^.?]{0,30}\b(?:stage|house|audience)\b[^.?]{0,20}\?"
)
