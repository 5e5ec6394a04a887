"""Left and right that words say by whose they are not: "L/R opposite of stage L/R", "mirror of the actors'
left and right", "not stage left/right" are the audience's, and "not house L/R" the stage's."""

from __future__ import annotations

import re

from aimcalc.named import regex

LONGEST = 400  # characters of a line or a heading
_PLAYERS = r"(?:actors?|performers?|artistes?|dancers?|singers?|players?|cast)"
_SEATS = r"(?:audience|public|spectators?|congregation)"
_ONE = r"\b(?:l|r|lefts?|rights?)\b\.?"
_TWO = rf"{_ONE}\s*(?:/|&|[+]|,|\band\b|\bor\b)?\s*(?:(?:stage|house)\s+)?{_ONE}"
_SHORT = r"s\.?l\.?\s*(?:/|&|and|or)\s*s\.?r\b|s\.?r\.?\s*(?:/|&|and|or)\s*s\.?l\b"
_VIEW = r"(?:views?|perspective|point\s+of\s+view|directions?)\b"
_WHOSE = (  # "stage L/R", "the actors' own left and right", "the performer's", "SL/SR"
    rf"(?:(?:the\s+|usual\s+|normal\s+|an?\s+)*(?:(?P<stage>stage|{_PLAYERS})|(?P<house>house|auditorium|{_SEATS}))\b"
    rf"(?:['’]?s?['’]?)(?:\s+own)?(?:\s+(?:{_TWO}|{_VIEW})|(?<!stage)(?<!house)(?<!auditorium)(?=\s*(?:$|[)\].;])))"
    rf"|(?P<short>{_SHORT}))"
    r"(?!\s+(?:entrances?|doors?|walls?|wings?|legs?|booms?|towers?|pipes?|bars?|rails?|truss\w*|ladders?|ends?|lamps?|units?)\b)"
)
_ROUND = (
    r"(?:opposite|contrary|reverse[ds]?|inverse|inverted|mirror(?:s|ed|[\s-]?images?)?|flipped|swapped"
    r"|(?:the\s+)?(?:other|opposite|wrong)\s+way(?:\s+(?:a?round|about))?)"
)
_LINK = r"(?:(?:\s|,|:)+(?:of|to|from|than|against|vs\.?|versus|compared|relative|with|as|is|are|for|by))*"
_NOT_FIRST = r"(?<!\bnot )(?<!\bnot the )(?<!\bnever )(?<!\bno )(?<!n['’]t )(?<!n['’]t the )"
_OPPOSITE = regex(rf"{_NOT_FIRST}\b{_ROUND}\b{_LINK}\s+{_WHOSE}")
_NOT = regex(
    r"(?:\b(?:is|are|do)n['’]?t|\b(?:and\s+|but\s+)?(?:not|never))\s+"
    r"(?:(?:to\s+be\s+)?(?:confused?|mix(?:ed)?|mistaken?)\s+(?:up\s+)?(?:with|for)\s+)?"
    rf"(?:as\s+|in\s+|from\s+|by\s+)*{_WHOSE}(?!\s+(?:but|and|only)\b)"
)
_DENIED = regex(  # "not always stage L/R"
    rf"(?:n['’]t|\b(?:not|never|hardly|rarely|seldom|sometimes|mostly|usually))\s(?:(?!but\b|house\b|audience\b|public\b)[^.;,:]){{0,25}}?"
    rf"\b(?:stage\s+{_TWO}|{_SHORT})"
)
_SIDES = regex(r"\b(?:l|r|lefts?|rights?)\b")
_TURNED = regex(rf"{_ROUND}\s+(?:{_SHORT})")
_SIDE = regex(r"\bsides?\b")
_PLACE = (
    r"dim(?:ension)?s?|places?|positions?|dist(?:ance)?s?|offsets?|measure(?:ment)?s?|figures"
    r"|signs?|sides?"
)
# Words with which nothing but places, or all of them, can be meant: "Dims from CL are not SL/SR".
_OF_PLACES = regex(
    rf"\W*(?:(?:(?P<places>{_PLACE})|all|every|everything|these|they|those|along\s+(?:the\s+)?(?:bar|pipe|batten)|across"
    r"|this|that|list|sheet|plot|here|below|above|given|shown|written|taken|measured|marked|note|please|nb|n\.b|and|but|it|its|it['’]s|are|is|the|of|to"
    r"|from|off|in|on|as|for|cl|c/l|cent(?:re|er)|line|m|cm|mm|ft|feet|met(?:re|er)s?|inches)\b\W*){0,40}"
)


def unmirrored(text: str) -> str:
    """A text in lower case with left and right by whose they are not as seen by the others; any other as it
    is."""
    if len(text) > LONGEST or not _SPEAKS.search(text):
        return text
    return _NOT.sub(_seen_by_others, _OPPOSITE.sub(_seen_by_others, text))


def _seen_by_others(found: re.Match[str]) -> str:
    """What is seen from where; as it is where it may be no places that are, "Focus is mirrored SL/SR"."""
    others = "performer" if found["house"] else "audience"
    rest = found.string[: found.start()] + found.string[found.end() :]
    if _SIDES.search(rest):
        return f"seen from the {others}"
    plain = _OF_PLACES.fullmatch(rest)
    if plain is None or (_TURNED.fullmatch(found[0]) and not plain["places"]):
        return found[0]  # "All mirrored SL/SR" may be the rig
    return f"{'' if _SIDE.search(rest) else 'left/right '}seen from the {others}"


def is_denied(text: str) -> bool:
    """Whether a text in lower case says that left and right are not always, or not all, the stage's."""
    return len(text) <= LONGEST and _DENIED.search(text) is not None


_SPEAKS = regex(rf"n['’]?t\b|\b(?:not|never|{_ROUND})\b")
