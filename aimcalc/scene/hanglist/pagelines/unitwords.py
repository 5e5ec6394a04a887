"""The length unit that a line says, and of what: "all in cm", "Booms: cm from floor", "18 in apart"."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.lengths import UNITS


def marks_apart(text: str) -> float:
    """The metres from mark to mark of a line that says that marks count from the middle: "marks: 0 in the
    middle, then every half metre"; 0 of another."""
    every = _EVERY.search(text) if _MARKS_FROM_MIDDLE.search(text) else None
    if every is None:
        return 0.0
    many = float((every[2] or "1").replace(",", ".")) * (0.5 if every[1] else 1.0)
    above, below = UNITS[LENGTHS[every[3]]]
    return many * above / below


def unit_said(text: str) -> str:
    if re.search(r"\b(?:feet|ft)\b\W*(?:and|&|-|/)?\W*\b(?:inch(?:es)?|ins?)\b", text):
        return "ft"
    found = _UNIT.search(text)
    return LENGTHS[found[1]] if found else ""


def unit_beside(text: str) -> str:
    """The unit of a line that says it and not of what: "mm, minus = SR of centre", "Gala (metres; from CL)",
    or right behind what is measured, "dims mm from CL"; "" where the line is of something else too."""
    text = text[:LONGEST_LINE]
    found = _UNIT_BESIDE.search(text) if not _OF_OTHERS.search(text) else None
    return LENGTHS[next(word for word in found.groups() if word)] if found else ""


def unit_of_part(text: str) -> str:
    """The word for the unit of a part of a line that speaks of some positions: "LX 1 in feet", "Rails: m up
    and down"; "" where it is of something else."""
    found = (
        None
        if _OF_OTHERS.search(text[:LONGEST_LINE])
        else _UNIT_OF_PART.search(text[:LONGEST_LINE])
    )
    return next((word for word in found.groups() if word), "") if found else ""


def is_of_else(text: str) -> bool:
    """Whether a part of a line in lower case says the unit of another measure than places, and no other:
    "LX 1: overall length in feet", "LX 2 drops in cm"."""
    text = text[:LONGEST_LINE]
    return len(_UNIT_WORD.findall(text)) == 1 and _OF_ELSE.search(text) is not None


def leaves_open(text: str, names: frozenset[str]) -> bool:
    """Whether a part of a line in lower case has other words than names, a unit and those of places, so that
    the unit may be of something else: "LX 1: clearance in feet"."""
    words = _WORD.findall(text[:LONGEST_LINE])
    return any(
        not (w in names or w.removesuffix("s") in names or _PLAIN_WORD.fullmatch(w)) for w in words
    )


def heights_out(text: str) -> tuple[str, str]:
    """A line without the unit that it says of heights, and that unit, "Heights in feet"; as it is, and "",
    where it says the unit of something else with them, "dims and heights in ft"."""
    cut: list[tuple[int, int]] = []  # what is said of what flies, "Pipe heights in feet": no places
    for found in OF_HEIGHTS.finditer(text[:LONGEST_LINE]):
        before, flown = text[: found.start()], _flown(found)
        if _is_joined(before[: flown.start()] if flown else before):
            break
        if flown is None:
            rest = _without(text, [*cut, found.span()])
            if "trim" in text and not _UNIT_WORD.search(rest):
                break
            return rest, LENGTHS[found[1] or found[2]]
        cut.append(found.span())
    return _without(text, cut), ""


def _without(text: str, cut: list[tuple[int, int]]) -> str:
    for start, end in reversed(cut):
        text = f"{text[:start]} {text[end:]}"
    return text


def _flown(found: re.Match[str]) -> re.Match[str] | None:
    """The word for what flies right before heights: "Grid heights in feet"."""
    if _OF_STANDS.search(found[0]):
        return None
    return _FLOWN.search(found.string, max(0, found.start() - LONGEST_FLOWN), found.start())


def _is_joined(before: str) -> bool:
    """Whether what stands before heights has their unit too: "dims and heights in ft"."""
    return bool(_JOINED.search(before)) and not _UNIT_WORD.search(before)


LONGEST_FLOWN = 20  # characters of what flies
_OF_STANDS = regex(r"\b(?:booms?|towers?|ladders?)\b")
_FLOWN = regex(
    r"\b(?:pipes?|bars?|battens?|electrics?|lx(?:\s?\d{1,2})?|grids?|truss(?:es)?|fly(?:ing|tower)?|flown|borders?|masking|drapes?|tabs"
    r"|legs|cloths?|scenery|set|rails?|ceiling|proscenium|pros|sill)['’]?s?['’]?\s?[:–-]?\s?$"
)
_JOINED = regex(r"(?:\band|\bor|[&+/,])\s*$")
_LENGTH = "|".join(sorted((re.escape(w) for w in LENGTHS if w.isalpha()), key=len, reverse=True))
_MARKS_FROM_MIDDLE = regex(
    r"\b(?:marks?|holes?|rungs?|slots?|notch(?:es)?|rings?)\b.*(?:\b(?:0|zero|nought)\s*(?:=|is|in|at|on)+\s*(?:in\s+|at\s+|on\s+)?(?:the\s+)?"
    r"|\bfrom\s+(?:the\s+)?)(?:middle|cent(?:re|er)|cl\b)"
)
_EVERY = regex(rf"\bevery\s+(?:(half)(?:\s+an?)?\s+|an?\s+)?(\d+(?:[.,]\d+)?)?\s*({_LENGTH})\b")
_IN_SOMETHING = (  # "(in the round)" is no inches
    r"in\s+(?:the|an?|our|my|your|this|that|its|his|her|their|one|two|three|every|each|memory|aid|rep|association|order"
    r"|case|use|front|town)\b"
)
_UNIT = regex(
    rf"(?:\bin\b|[:=(]|\b(?:are|is)\b(?!\s+in\b)|^(?=\w+\s+(?:off|from)\b)"
    rf"|,(?=\s*\w+\s*(?:[,;.]|$))|\b(?:offsets?|dist(?:ance)?s?|dim(?:ension)?s?|heights?|places?)(?=\s+\w+\s+(?:off|from)\b))"
    rf"\s*(?:(?:decimal|whole|all|everything|in)\s+)*(?!{_IN_SOMETHING})({_LENGTH})\b"
    rf"(?!(?<=\bin)\s+(?:(?:decimal|whole|all)\s+)*(?:{_LENGTH})\b)"
)
_PLAIN_LENGTH = "|".join(
    sorted((w for w in LENGTHS if w.isalpha() and w != "in"), key=len, reverse=True)
)
_UNIT_WORD = regex(rf"\b(?:{_PLAIN_LENGTH})\b")
OF_BOOMS = regex(  # "Booms: cm from floor", "torri: altezza in cm"
    r"\b(?:booms?|towers?|ladders?)\b\s*(?:[:=(,–-]\s*)?(?:(?:are|is|all|the|in|hung|set|measured|taped|to|by|heights?|distance|measurement|given|places?"
    rf"|above|from|floor)[\s:=(]+){{0,5}}({_PLAIN_LENGTH})\b[^.;,/]{{0,30}}"
)
_HEIGHT_WORDS = r"\b(?:heights?|hts)\b(?!\s*(?:and|&|[+/]))"
OF_HEIGHTS = regex(  # "heights m", "Heights above the deck (feet)"
    rf"(?:(?:boom|all|the)\s+){{0,3}}{_HEIGHT_WORDS}\s*(?:[:=(,–-]\s*)?(?:(?:are|is|all|in|given|measured|above|over|off|from|on|of|the|deck"
    rf"|floor|stage|ground|booms?|towers?|ladders?|decimal|whole)[\s:=(]+){{0,7}}({_PLAIN_LENGTH})\b(?:\s*(?:and|&|/|-)\s*in(?:che)?s?\b)?"
    rf"|\b({_PLAIN_LENGTH})\s+(?:for|on)\s+(?:(?:the|all|boom)\s+){{0,3}}{_HEIGHT_WORDS}"
)
_OF_ELSE = regex(
    r"\b(?:(?:overall|total|full|bar|pipe|batten|truss|cable)\s+lengths?|length|drops?|widths?|masking|borders?|legs|tabs|heights?|hts?|clearances?"
    r"|depths?|thickness|weights?|throws?|frames?|cables?|trims?)"
    rf"\W{{1,3}}(?:(?:is|are|all|given|measured|in)\W{{1,3}}){{0,3}}(?:{_PLAIN_LENGTH})\b"
)
_WORD = regex(r"[^\W\d_]{2,}")  # of a name's letters nobody knows what they are
_PLAIN_WORD = regex(
    rf"(?:{_PLAIN_LENGTH}|dim(?:ension)?s?|places?|positions?|dist(?:ance)?s?|offsets?|measure(?:ment)?s?|figures|numbers|marks?|units?|lamps?|lights?"
    r"|lanterns?|fixtures?|instruments?|all|both|each|every|everything|the|an|of|on|for|in|is|are|was|were|and|but|only|here|these|they|which|that"
    r"|it|its|from|off|to|at|by|as|with|per|given|shown|written|taken|measured|marked|taped|read|hung|decimal|whole|imperial|metric|except|while"
    r"|whereas|apart|throughout|up|down|out|cl|centre|center|line|middle|end|back|front|floor|deck|stage|house|left|right|sl|sr|us|ds|plus|minus"
    r"|side|please|note|nb|bars?|pipes?|battens?|truss(?:es)?|booms?|rails?|lx|electrics?|positions?)"
)
_UNIT_BESIDE = regex(
    rf"(?:^|[:;.,(]\s)[\s\"'(]{{0,4}}({_PLAIN_LENGTH})\s+(?:us|ds|sl|sr)\s+(?:of|from|off)\b"
    rf"|^\W*({_PLAIN_LENGTH})\s+(?:l|left)\s*(?:/|or\b|and\b|&)\s*(?:r|right)\b"
    rf"|^\W*({_PLAIN_LENGTH})\s*(?:[,;:](?=.*(?:minus|plus|\bfrom\b|\boff\b|cent|\bcl\b|[+=]))|from\b|off\b)"
    rf"|[(\[]\s*(?:(?:all|in|everything|decimal|whole)\s+)*({_PLAIN_LENGTH})\s*(?:[,;)\]]|(?:up|high|above|off|from)\b)"
    r"|\b(?:dim(?:ension)?s?|sizes?|dist(?:ance)?s?|figures|measure(?:ment)?s?|places|heights|spacings?|gaps?|offsets?)"
    rf"\s+(?:are\s+|all\s+|in\s+)*({_PLAIN_LENGTH})\b"
    rf"|\b(?:work(?:s|ing|ed)?|everything|every\s+figure|it\W?s\s+all)\s+(?:is\s+|are\s+)?(?:all\s+)?in\s+({_PLAIN_LENGTH})\b"
    rf"|[(\[]\s*({_PLAIN_LENGTH})\s+(?:up|high|above|(?:up|down)stage|us|ds|each|either)\b"
    rf"|(?<![\d.,½¼¾])(?<![\d½¼¾]\s)\b({_PLAIN_LENGTH})\s+(?:(?:off|from|of)\s+(?:the\s+)?(?:c/?l\b|c\.l|ctr\b|cent|mid|plaster|s[lr]\b|[ud]s\b)"
    r"|(?:on\s+|to\s+)?(?:either|each)\s+(?:side|way)\s+of\b|(?:sl|sr)\s*(?:/|or|and)\s*s[lr]\b|throughout\b|only\b)"
    rf"|\b({_PLAIN_LENGTH})\W{{1,3}}please\b|\bplease\s+(?:(?:read|use|note|in|all)\s+){{0,3}}({_PLAIN_LENGTH})\b"
    rf"|\b(?:given|shown|written|typed|marked|taped|metric)\s*(?:,\s*)?(?:as\s+|in\s+)?({_PLAIN_LENGTH})\b"
    r"|\beverything\s+(?:is\s+)?(mm|cms?|ft|inches|feet|metres|meters)\b|\bunits?\s*[=:]?\s*(mm|cms?|inches|feet|metres|meters)\b"
    rf"|^\W*({_PLAIN_LENGTH})\s*(?:[(](?!s\))|\b(?:unless|except|everywhere)\b)"
    rf"|\bwhich\s+(?:are|is)\s+(?:all\s+)?in\s+({_PLAIN_LENGTH})\b"
    r"|[/,;.–-]\s*(mm|cms?|inches|feet|metres|meters|centimet\w+s|millimet\w+s)\W*$"
)
_UNIT_OF_PART = regex(
    rf"\b(?:in|are|is)\s+(?:all\s+|in\s+|decimal\s+|whole\s+){{0,3}}({_PLAIN_LENGTH})\b|[:=(]\s*(?:all\s+|in\s+){{0,2}}({_PLAIN_LENGTH})\b"
    rf"|^\W*({_PLAIN_LENGTH})\s+(?:up\s+)?(?:on|for)\b|[^\W\d]\W*\s({_PLAIN_LENGTH})\W*$"
)
MEASURED = regex(rf"(?<![^\W\d_])(?:{_LENGTH})(?![^\W\d_])", re.IGNORECASE)
_OF_OTHERS = regex(r"\b(?:trims?|weights?|throws?|loads?|gels?|cables?|frames?|deep|wide|long)\b")
UNIT_ALONE = (
    rf"\W*(?:all\s+(?:in\s+)?|(?:all\s+)?(?:dim\w*|meas\w*|units?|places?|dist\w*|lengths?|figures)\W*(?:are\s+)?(?:in\s+)?|in\s+)"
    rf"({_LENGTH})\W*|\W*[(\[]\s*(?:all\s+)?(?:in\s+)?({_LENGTH})\s*[)\]]\W*"
    r"|(?:(?:scale|units?)\s*[:=]\s*)?(mm|cms?|ft|feet|inches|met(?:re|er)s|centimet(?:re|er)s|millimet(?:re|er)s)\W*"
)
INCH = {"”": '"', "″": '"', "''": '"', "’": "'", "′": "'"}
LONGEST_LINE = (
    600  # characters that are searched: each pattern may look ahead from every one of them
)
_STEP_UNIT = r"(?:''|[\"”″'’′]|(?:in|ins|inch|inches|ft|feet|foot|m|metres?|meters?|metros|metri|cm|mm)\b)\.?"
_STEP = (
    r"(?:(\d+)\s*(?:['’′](?!')|(?:ft|feet|foot)\b\.?)[\s-]*(?=\d))?"
    rf"(?<![\d.,])(\d+(?:[.,]\d+)?)\s*({_STEP_UNIT})"
)
_LAMPS = (  # in other languages, as lines say what is so far apart
    r"(?:scheinwerfer\w*|lampen?|lampor|lamper|projecteurs?|appareils?|spots?|proyectores|focos|aparatos|proiettor[ei]"
    r"|armatur\w*|refletores|refle[kt]\w+|fixtures?|units?|lights?|lanterns?|instruments?)"
)
_APART = (  # how far units are from each other, in other languages
    r"(?:\b[^\W\d_]{0,20}abst[aä]nd(?:e|en)?|\bentraxe|\b[eé]cartement|\bespac(?:ement|[eé]e?s?|i?ad[oa]s?|io|iamento)\b"
    r"|interasse|spaziat\w+|distanziat\w+|separa(?:dos?|das?|ção|cion|ción)|(?:tussen|onderlinge\s+)afstand|afstand"
    r"|hart\s+op\s+hart|h\.?\s?o\.?\s?h\.?|mellanrum|mellemrum|avst[aå]nd|odst[eę]p|rozst[aw]\w*|rozte[cč]|espaçamento"
    r"|(?:all\s+the|alle|jede|a\s+cada)(?=\s+\d)|(?<![a-z])(?:c/c|c-c|ctc|cc)(?=\s*[:=]?\s*\d)"
    rf"|\bdistances?(?=\s+(?:(?:the|der|between|of|de|des)\s+){{0,3}}{_LAMPS}|\s+je\b)|^\W*distances?(?=\s*[:=]?\s*\d))"
)
_STEP_FIRST = regex(
    rf"{_STEP}[\s-]*(?:on\s+)?(?:distance\s+)?(?:cent(?:er|re)s?\b(?!\s+line)|ctrs?\b|c/c|c-c|o\.?c\b|apart\b|spacings?\b|pitch\b"
    rf"|intervals?\b|(?:between|zwischen|entre|tra|mellan|mellem)\s+(?:the\s+|each\s+|den\s+)?{_LAMPS}"
    r"|spaced\b|mellanrum\b)"
)
_STEP_BEHIND = regex(
    rf"(?:{_APART}"
    r"|\bspac(?:ed|es?|ings?)\b|\bintervals?\b|\bpitch\b|\bapart\b|\bevery\b|\bcada\b|\bogni\b|\bhver\b|\bvar\b|\bom\s+de\b|\bco\b(?=\s*\d)"
    r"|\bdistances?\s+(?:between|from\s+unit\s+to\s+unit)\b[^\d.;]{0,30}|\beven(?:ly)?\b"
    r"|(?=[^.;]*(?:\beven(?:ly)?\b|\bsymm|\bcentred\b|\bcentered\b|\bcentres?\b))\b(?:all\b(?:\s+the)?|distance\b))"
    rf"\s*(?:[:=,(–-]\s*|(?:of|at|is|are|by|every|units?|evenly|equally|a|de|di|each|je|von|the"
    rf"|der|den|des|between|mellan|mellem|zwischen|entre|{_LAMPS})\s+)*{_STEP}"
    r"(?!\s*(?:in\s+|out\s+)?(?:from|off|to|of)\b|\s*(?:in\b|high|up|above|long|wide|s[lr]\b|us\b|ds\b))"
)


def step_said(text: str) -> str:
    """How far a line says that units are apart, "18 in": of "18\" centers", "evenly spaced at 1 m", "every 2
    ft"; "" where it says none, in as much of it as a line has."""
    text = text[:LONGEST_LINE]
    behind = None if _OF_OTHERS.search(text) else _STEP_BEHIND.search(text)
    found = _STEP_FIRST.search(text) or behind
    if found is None:
        return _bare_step(text)
    feet, size, unit = found.groups()
    plain = unit.rstrip(".")
    length = LENGTHS.get(INCH.get(plain, plain), "m")
    many = float(size.replace(",", "."))
    if feet and length == "in":
        return f"{float(feet) * 12 + many:.10g} in"
    return "" if feet else f"{many:.10g} {length}"


def _bare_step(text: str) -> str:
    """How far apart units are by a figure without a unit, "900 centres": millimetres where it cannot be so
    many feet or metres, and with decimals in the unit of the house; "" of any other."""
    found = None if _OF_ELSE_APART.search(text) else _STEP_BARE.search(text)
    if found is None or _PARTS_APART.search(text):
        return ""
    size = str(next(filter(None, found.groups()))).replace(",", ".")
    if "." in size:
        return size
    return f"{size} mm" if LEAST_MM <= int(size) <= MOST_MM else ""


LEAST_MM, MOST_MM = 300, 2500  # between units of one bar (common practice, no source)
_BARE = r"(\d{3,4}|[0-4][.,]\d{1,2})(?![\d.,]*\d|\s?[-–]\s?\d|\s?['’′\"”″%])"
_STEP_BARE = regex(
    rf"(?:^|[-–—@:,=(;]\s?|\b(?:at|on|of|are|is|units?|lamps|lanterns|lights|all|to|\d{{1,2}})\s){_BARE}"
    r"\s?(?:mil\s)?(?:on\s)?(?:cent(?:re|er)s\b|ctrs?\b|crs\b|c/c|c-c\b|c\sto\sc\b|o\.?c\b|apart\b|spacings?\b|pitch\b|intervals\b)"
    rf"|\b(?:spac(?:ed|ing)|intervals\sof)(?:\s(?:evenly|equally))?\s?(?:(?:[:=@,]|at|of|is|by)\s?)?{_BARE}"
    r"(?!\s?(?:[a-z]{1,2}\b(?<!cl)(?<!on)(?<!to)|ft|feet|inch|met|(?:in\s|out\s)?(?:from|off)\b(?!\s(?:the\s)?s[lr]\b)))"
)
_OF_ELSE_APART = regex(
    r"\b(?:trims?|weights?|loads?|gels?|cables?|frames?|deep|high|channels?|ch|dmx|address\w*|circuits?|seats?|rows?"
    r"|bars|pipes|trusses|booms|ladders|legs|tabs|borders|chairs|tables|treads|steps|rungs?|taps?|lines)\b"
)


_PARTS_APART = regex(  # of the house, and no units on them: "All battens: 900 centres" is of the units
    r"\b(?:(?:sockets?|outlets?|slots?|hooks?|dimmers?|universes?|slats?|joists?|beams|points)\b"
    r"|(?<!on\s)(?<!on\sthe\s)(?<!on\sall\s)(?:battens|electrics|grid)\b(?!\s?[\d:,;(–—-]))"
    rf"(?!.{{0,80}}\b{_LAMPS}\b)"
)


def is_of_places(words: str) -> bool:
    """Whether a line that says a unit says it of the places of all units, "Dims in feet", "all in feet", or a
    part of it does: no trims, heights or sizes of the house."""
    text = in_english(words[:LONGEST_LINE], line=True).casefold()
    parts = [part for part in _PARTS.split(text) if _PLACES.search(part)]
    return not _IN_PART.search(text) and any(not _NO_PLACES.search(part) for part in parts)


_PARTS = regex(r"[,;.]\s")
_PLACES = regex(
    rf"\b(?:dim(?:ension)?s?|dist(?:ance)?s?|places?|offsets?|measure(?:ment|d)?s?|figures|numbers|all|everything|lengths?|units?(?=\s?[:=]))\b"
    rf"(?:\W+(?:and|of|the|units?|lamps?|lights?|on|this|list|sheet|plot|bars?|pipes?|are|is|given|taken|measured|shown|below|here|in|from"
    rf"|off|cl|centre|center|line)\b){{0,8}}\W*\b({_PLAIN_LENGTH})\b"
    rf"|^\W*in\s+({_PLAIN_LENGTH})\W*$|^\W*({_PLAIN_LENGTH})\s+(?:from|off)\s+(?:the\s+)?(?:cl\b|c/l|cent)|^\W*({_PLAIN_LENGTH})\s+throughout\b"
)
_NO_PLACES = regex(
    r"\b(?:trims?|heights?|hts?|high|house|hall|room|grid|drops?|weights?|throws?|loads?|gels?|cables?|frames?|deep|wide|long|booms?|ladders?"
    r"|towers?|rails?|spacings?|gaps?|apart|z|masking|scenery|drapes?|flats?|furniture"
    r"|set(?!\s+(?:out|in|from|to|at|as)\b))\b|\bstage\s+(?:dim|meas|size)|\d\s*(?:ft|feet|m|cm|mm|')"
)
_IN_PART = regex(r"\b(?:unless|except|otherwise|old|was|were|plans?|drawings?|scale|convert\w*)\b")
