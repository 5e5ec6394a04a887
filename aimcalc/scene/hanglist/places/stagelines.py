"""The line across the stage that places up and down it count from, by its other names: the curtain line, the
arch, the portal, and whatever a list calls zero, are the plaster line (common practice, no source).

A step, a wall or the edge of the stage of which nobody says where it lies is none: it is asked about.
"""

from __future__ import annotations

import re

from aimcalc.named import regex

LONGEST = 300  # characters of a text that is looked through

_THE = r"(?:(?:the|our|its|inside|back|face|of)\s+){0,4}"
_LINE = r"(?:\W?line)?"
_NAME = (
    rf"(?:(?:house|main|front|act)\W?(?:curtain|tabs|rag){_LINE}|curtain\W?line|tab\W?line|setting\W?line"
    rf"|pros(?:c|cenium)?\b\.?(?:\s+(?:arch|opening|frame|wall|line))?|(?:stage\s+|pros\w*\s+)?arch{_LINE}|portal{_LINE}"
    rf"|(?:iron|(?:safety|fire)\s+curtain){_LINE}|zero\W?line|line\s+(?:zero|0)|0\W?line|plaster{_LINE})"
)
# Behind a name of the line that is part of another: "of the portal bridge", "from the pros end".
_NO_MORE = r"(?![\w-])(?!\s*(?:end|side|bridge|boom|booms|pipe|bar|truss|tower|left|right|sl|sr|no\b|#|\d)\b)"
_HOOKED = r"hook(?:ed|s)?\s+(?:on|at|to|onto|over)"
_NAMED = regex(rf"\b(of|from|off|{_HOOKED})\s+{_THE}{_NAME}{_NO_MORE}", re.IGNORECASE)
_BARE = regex(  # "3 m US plaster", and no position of that name
    r"((?:\d\s*|\b)(?:m|cm|mm|ft|feet|metres|meters|inches|['\"])\.?\s*|\d\s*)\b(?:(u/?s|up\W?stage)|d/?s|down\W?stage)"
    rf"\s+(?:the\s+)?{_NAME}{_NO_MORE}(?=\W*$)",
    re.IGNORECASE,
)
_ADDED = regex(
    rf"^\W*(?:{_NAME}|p/?l)\s*([+−–-])\s*(\d.*)$", re.IGNORECASE | re.DOTALL
)  # "PL + 3 m"
_BEYOND = regex(
    rf"\b(?:(behind|inside)|in\s+front\s+of|out\s+front\s+of|before)\s+{_THE}{_NAME}{_NO_MORE}",
    re.IGNORECASE,
)
_NO_LINE = (  # what has no place by being zero: the tape begins there
    r"(?!\w*wall|doors?\b|font|organ|pulpit|lectern|pews?\b|row|pillar|column|fence|barrier"
    r"|altar\b(?!\s+(?:step|rail)))"
)
_ZERO = r"(?:0(?:[.,]0+)?\s*(?:m|cm|mm|ft|')?|zero|nought|the\s+zero|plaster(?:\W?line)?|p\W?l)"
_WORD = r"(?!(?:us|ds|sl|sr|end)\b|cent|mid)[^\W\d_][\w'’]{0,24}"
# "from the chancel step line (0)", "off the stage edge = zero", "from the step (= plaster line)".
_CALLED = regex(
    rf"\b(of|from|off)\s+(?:the\s+)?(?:{_NO_LINE}{_WORD}[\s-]+){{0,4}}{_NO_LINE}{_WORD}\s*(?:[(\[]\s*(?:=|:|is|at|as|(?:that|this|which)(?:['’]s|\s+is))?\s*(?:the\s+)?{_ZERO}\s*[)\]]"
    rf"|\s*(?:=|,\s*which\s+is|\bbeing|\bas)\s*(?:the\s+)?{_ZERO}(?!\w|[.,]?\d))",
    re.IGNORECASE,
)
_THING = (
    r"(?:(?:stage|apron|platform|forestage|dais)(?:\s+(?:edge|front|lip))?|edge|lip|nosing|apron|steps?|arch|portal|pros\w*"
    r"|(?:plaster|curtain|setting|step|stage|chancel|tape|chalk|red|white)\s+line|threshold|screen|curtain)"
)
# A line of its own that says what is zero: "stage edge = 0", "0 is at the chancel step".
_IS_ZERO = regex(
    rf"\b{_THING}\s*(?:\(\s*)?(?:=|:|\b(?:is|at)\b)\s*(?:the\s+)?{_ZERO}(?!\w|[.,]?\d|\s?['\"])"
    rf"|(?<![\w.,])(?:0|zero)\s*(?:=|:|\b(?:is|at)\b)\s*(?:(?:is|at|on|the)\s+){{0,3}}(?:(?!cent)[^\W\d_]{{2,20}}\s+){{0,2}}{_THING}\b"
    rf"(?!\s+end)",
    re.IGNORECASE,
)
_NAMES = "line curtain pros arch portal zero 0 iron tabs rag plast pl"
_MAY_NAME = tuple(_NAMES.split())


def lines_plain(text: str) -> str:
    """A text in English with the line that it counts from as the plaster line, where it plainly is that or
    the text calls it zero: "3' upstage of curtain line", "1 m behind the arch"."""
    plain = text.casefold()
    if len(text) > LONGEST or not any(word in plain for word in _MAY_NAME):
        return text
    text = _ZERO_TOWARDS.sub(
        lambda found: f"{'us' if found[1] else 'ds'} of the plaster line", text
    )
    text = _CALLED.sub(r"\1 the plaster line", text)
    text = _OF_ZERO.sub(r"\1 of the plaster line", text)
    text = _ADDED.sub(r"\1\2 from the plaster line", text)
    text = _NAMED.sub(_from_it, _BARE.sub(_way_of, _BEYOND.sub(_side_of, text)))
    return _WAY_BESIDE.sub(_in_short, _ASIDE.sub(_side_of, text))


def _in_short(found: re.Match[str]) -> str:
    return f"{'us' if found[1].lower() == 'up' else 'ds'}{found[2]}"


_WAY_BESIDE = regex(  # "up or down of the line", of which the second is DS of it by now
    r"\b(up|down)(\s*(?:/|\bor\b|\band\b|&)\s*)(?=(?:us|ds)\s+of\s+the\s+plaster)",
    re.IGNORECASE,
)
_OF_ZERO = regex(  # "upstage of zero", "US of the zero tape"
    r"\b(us|ds|[ud]/s|[ud]\.\s?s\.?|(?:up|down)\W?stage)\s+(?:of|from)\s+(?:the\s+)?(?:zero|0|nought|datum)(?:\s+(?:tape|mark|point|line))?"
    r"(?![\w'’]|[.,]\d|\s*(?:mm|cm|m|ft|feet)\b)",
    re.IGNORECASE,
)


def _way_of(found: re.Match[str]) -> str:
    return f"{found[1]} {'us' if found[2] else 'ds'} of the plaster line"


def _from_it(found: re.Match[str]) -> str:
    word = found[1].lower()
    return f"{word if word in ('of', 'off') else 'from'} the plaster line"


_ASIDE = regex(  # "3 m house side of the plaster line"
    r"\b(?:(on\s?stage|up|(?:up)?stage\s+side)|(?:house|audience|aud|auditorium|seats|public)\s+side|foh(?:\s+side)?|out|down|forward)"
    r"\s+(?:of|from|off)\s+(?:the\s+plaster\s+line|(?:the\s+)?p/?l\b(?!\W?\d))",
    re.IGNORECASE,
)


def _side_of(found: re.Match[str]) -> str:
    return f"{'us' if found[1] else 'ds'} of the plaster line"


def says_zero(text: str) -> bool:
    """Whether a line says that something across the stage is zero: "stage edge = 0", "zero: the arch"."""
    return bool(_IS_ZERO.search(text[:LONGEST]))


_HOUSE = (
    r"(?:house|audience|auditorium|seats|seating|public|publico|pews|congregation|nave|stalls|hall|foh|punters|spectators"
    r"|salle|saal|sala|platea|zaal|salongen|salen|publikum|publiek|pubblico)"
)
_UP = (
    r"(?:(?:back|upstage|rear|us)\s+wall|backdrop|cyc\w*|hinten|lointain|fond|fondo|fondale|foro|achter\w*"
    r"|back(?!\s+end)|(?:rear\s+of\s+(?:the\s+)?)?(?:stage|platform|chancel)|buehne|bühne|sc[eè]ne|palco|escenario|toneel)"
)
_INTO = regex(
    r"(?<=[\d'\"a-z\s])\s*\b(?:(?:out\s+)?(?:in|on|out)?to(?:wards?)?|vers|richtung|en\s+direction|direction|zum|naar|hacia|verso|mot|mod)"
    rf"\s+(?:(?:the|of|le|la|les|el|il|de|het|du|l['’])\s+){{0,2}}(?:({_UP})|{_HOUSE})\b(?!\W*(?:left|right|l|r|side|end|edge|floor|deck)\b)"
    r"|(?<=[\d'\"a-z\s])\s*\bover\s+(?:the\s+)?(?:seats|audience|pews|stalls)\b",
    re.IGNORECASE,
)


_ZERO_TOWARDS = regex(  # the zero of the house, "distance from the zero to the back wall"
    r"\b(?:from|off)\s+(?:the\s+)?z[eé]ro(?:\s+point)?\s*,?\s+(?:(?:going|running|measured)\s+)?(?:to|towards?)\s+(?:the\s+)?"
    rf"(?:(us|up\W?stage|{_UP})|ds|down\W?stage|{_HOUSE})\b(?!\W*(?:end|side|edge))",
    re.IGNORECASE,
)
_BARE_WAY = regex(
    r"(\d\s*(?:m|cm|mm|ft|feet|in|['\"])?\.?)\s+(?:(on\s?stage|stage(?:\s?wards?)?)"
    r"|(?:in\s+)?(?:house|hall|audience|auditorium|foh|seats)(?:\s?wards?)?)(?:\s+side)?\W*",
    re.IGNORECASE,
)


def ways_plain(cell: str) -> str:
    """A place with what it lies towards as US or DS: "3 m into the house", "2 ft toward the back wall"."""
    if len(cell) > LONGEST:
        return cell
    return _INTO.sub(lambda found: " US" if found[1] else " DS", cell)


def side_of_line(cell: str) -> str:
    """A place on a pipe up and down the stage whose way is a bare "house" or "stage" as DS or US:
    "4.2 house", "2 m stage"."""
    if len(cell) > LONGEST:
        return cell
    found = _BARE_WAY.search(cell)
    if found is None or found.end() != len(cell):
        return cell
    return f"{cell[: found.start()]}{found[1]} {'US' if found[2] else 'DS'}"


def up_plain(cell: str) -> str:
    """A place that counts from the plaster line, up or down, as US or DS of it: "8' down"."""
    found = _UP_OR_DOWN.fullmatch(cell.strip()) if len(cell) <= LONGEST else None
    return cell if found is None else f"{found[1]} {'US' if found[2].lower() == 'up' else 'DS'}"


_UP_OR_DOWN = regex(
    r"(\d[\d\s.,'\"’”′″½¼¾/-]{0,20}(?:mm|cm|m|ft|feet|foot|in|inches|metres|meters)?\.?)\s*\b(up|down)\.?",
    re.IGNORECASE,
)
_AT_LINE = regex(
    r"\W*(?:(?:right|directly|exactly|dead|just)\s+)?(?:(?:level|flush|even|aligned|in\s+line|lined\s+up)\s+(?:with|to|on)"
    rf"|on|at|over|above|under|below)\s+{_THE}{_NAME}\W*|\W*(?:0\s*\(\s*)?p\.?/?l\W*"
    r"|\W*(?:(?:auf|in|zu)\s+(?:der\s+)?(?:hohe|höhe|linie|flucht)\s+(?:der\s+|des\s+|vom\s+|mit\s+(?:dem|der)\s+)?"
    r"|(?:a|à)\s+(?:l['’]aplomb|(?:la\s+)?hauteur|filo)\s+(?:du\s+|de\s+|di\s+|del\s+|con\s+(?:il\s+)?)?"
    r"|a\s+la\s+altura\s+de\s+(?:la\s+)?|ter\s+hoogte\s+van\s+(?:de\s+|het\s+)?|all['’]altezza\s+del\s+)"
    r"(?:portal\w{0,6}|portaal\w{0,5}|null?(?:linie|lijn)|cadre(?:\s+de\s+sc[eè]ne)?|boccascena|embocadura"
    r"|proscen\w{0,8}|manteau(?:\s+d['’]arlequin)?|sipario|vorhang)\W*",
    re.IGNORECASE,
)


def at_line(cell: str) -> bool:
    """Whether a place on a pipe up and down the stage says that it is on the plaster line, and no more:
    "level with the proscenium line"."""
    return len(cell) <= LONGEST and _AT_LINE.fullmatch(cell) is not None


_OUT = regex(
    r"(?<=\d)(\s*(?:m|cm|mm|ft|feet|metres|meters|'|\")\.?)?\s*\b(out(?:wards?)?|(?(1)in|inside)(?:wards?)?|up)\W*$",
    re.IGNORECASE,
)


def out_plain(cell: str) -> str:
    """A place where a line says that out is from the plaster line into the house: "13 ft out" is DS of it,
    and "2 ft in" US."""
    if len(cell) > LONGEST:
        return cell
    return _OUT.sub(
        lambda one: f"{one[1] or ''} {'DS' if one[2][0] in 'oO' else 'US'} of the plaster line",
        cell,
    )


_DEPTHS = (
    r"(?:tief|tiefe|deep|depth|prof|profond|profondeur|profundidad|profondita|profondità|profundidade|fondo|diep|diepte"
    r"|djup|djupt|dyb|dybt|dybde|dypt|dybde|hluboko|hloubka|gleboko|glebokosc|głębokość)\b"
)
_DEEP = regex(
    r"(?<=\d)(\s*(?:m|cm|mm|ft|feet|in|['\"])?)\s*(?:(?:de|di|in|en|w|i)\s+)?"
    rf"{_DEPTHS}\.?\W*$",
    re.IGNORECASE,
)


def deep_plain(cell: str) -> str:
    """A place on a pipe up and down the stage that is called deep as upstage of the plaster line: "3,00 m
    tief" (common practice, no source)."""
    return cell if len(cell) > LONGEST else _DEEP.sub(r"\1 US of the plaster line", cell)


_HEADS_DEPTHS = regex(rf"\b(?:b(?:ü|ue)hnen|toneel|scen)?{_DEPTHS}", re.IGNORECASE)


_DEPTHS_ALONE = regex(rf"\W*{_DEPTHS}\W*(?:(?:in\s+)?(?:m|cm|mm|ft)\b)?\W*", re.IGNORECASE)


def depths_alone(heading: str) -> bool:
    """Whether a heading says depth and no more, "Tiefe (m)": of places where a line says from which line they
    count."""
    return len(heading) <= LONGEST and bool(_DEPTHS_ALONE.fullmatch(heading))


def heads_depths(heading: str) -> bool:
    """Whether a heading of places calls them depths, "Höhe / Tiefe (m)"."""
    return bool(_HEADS_DEPTHS.search(heading[:LONGEST]))


_FROM = (
    rf"(?:\b(?:from|off|ab|vom|depuis|desde|dal|dalla|vanaf|fran|fra|från|{_HOOKED}|hook\s+(?:the\s+)?tape\s+on)"
    r"|\b(?:start|begin)(?:s|ed|ing|ning)?\s+(?:(?:of|the|tape|measuring|to|measure)\s+){0,3}(?:at|on)"
    r"|\bstart\s+of\s+(?:the\s+)?tape\s*[:=]"
    r"|(?<![\w.,])(?:zero|datum|origin|0)\s*(?:=|:|\b(?:is|at|on)\b)(?:\s*(?:at|on)\b)?)(?:\s+|(?<=[:=])\s*)"
    r"(?:(?:the|our|its|der|dem|la|le|el|il|de|het)\s+)?"
)
_HEARD = (  # what else a line counts from, or takes its units from
    r"(?!(?:the|our|its|their|an?|der|dem|la|le|el|il|de|het)\b|us\b|ds\b|sl\b|sr\b|ps\b|op\b|c\W?l\b|c\b|cent|ctr|mid|plaster|floor|deck|ground|top\b|bottom\b|last\b|each\b|every\b|end\b"
    r"|to\b|and\b|or\b|for\b|on\b|one\b|unit|lamp|previous|before|there\b|it\b|left|right|north|south|east|west|house\b(?!\s+wall)|seats\b"
    r"|audience|public|stage\b(?!\s+(?:edge|front|lip))|\d)"
)
_UNPLACED = regex(
    rf"{_FROM}((?:{_HEARD}[^\W\d_][\w'’]{{0,24}}[\s-]+){{0,3}}{_HEARD}"
    r"(?:line|edge|steps?|lip|nosing|apron|arch|wall|threshold|screen|doors?|curtain|column|pillar|font|pit|fence"
    r"|balustrade|parapet|barrier|row|pews?|lectern|altar|pulpit|organ|tabs))\b(?!\s+(?:end|side)\b)"
    rf"|(?:{_FROM}(?:front|face|back|rear)\s+of\s+(?:the\s+|our\s+)?(?!pipe|bar|rail|truss|house|each|gallery)[^\W\d_]+)"
    rf"|(?:{_FROM}(?:west|east|north|south|front|back|stage|seats?)\s+(?:line|edge|steps?|lip|wall|doors?|row|front))\b(?!\s+(?:end|side)\b)",
    re.IGNORECASE,
)
_MEASURED_FROM = regex(
    rf"\b(?:m|cm|mm|ft|feet|inches|metres|meters|metern|metros|metri|measure\w*|measured|dist\w*|dims?|tap(?:e|es|ed|ing)|offsets?)"
    rf"\b[^.;:]{{0,25}}?({_FROM}{_HEARD}[^\W\d_]{{3,24}})\b(?![\w\s'’-]{{0,30}}\b(?:us|ds|sl|sr|cl|cent\w*|mid\w*|end|ends)\b)(?!\s+(?:\w{{1,9}}\s+)?(?:floor|deck|ground)\b)",
    re.IGNORECASE,
)


def unplaced(text: str) -> str:
    """What a text says that places count from and nobody places, "from the font step"; "" where it says
    nothing such."""
    text = text[:LONGEST]
    if found := _UNPLACED.search(text):
        return found[0]
    measured = _MEASURED_FROM.search(text)
    return measured[1] if measured else ""
