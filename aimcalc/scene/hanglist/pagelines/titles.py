"""What the lines round a hang list's table say of its places: their unit, the end that they count from, the
side that plus is, whose left and right is meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.boomunits import boom_unit_out
from aimcalc.scene.hanglist.columns.headingsides import says_sign, signs_said
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.pagelines.mixedsides import desk_moved, is_mixed, whose_of
from aimcalc.scene.hanglist.pagelines.said import (
    Said,
    disagree,
    end_of_bare,
    of_nobody,
    of_places_first,
    plus_of_bare,
)
from aimcalc.scene.hanglist.pagelines.sidenames import (
    bare_plus,
    half_said,
    own_sides,
    plus_unsaid,
    prompt_plain,
    sides_of_plus,
)
from aimcalc.scene.hanglist.pagelines.signpairs import house_plain, signs_plain
from aimcalc.scene.hanglist.pagelines.unitwords import (
    MEASURED,
    OF_BOOMS,
    UNIT_ALONE,
    heights_out,
    marks_apart,
    step_said,
    unit_beside,
    unit_said,
)
from aimcalc.scene.hanglist.pagelines.whosewords import LEFT_AND_RIGHT, SAYS, whose_left
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain, zero_ends
from aimcalc.scene.hanglist.places.fromgrid import grid_heights, says_grid
from aimcalc.scene.hanglist.places.heights import says_top
from aimcalc.scene.hanglist.places.origins import BOTH_WAYS, Upstage
from aimcalc.scene.hanglist.places.stagelines import lines_plain, says_zero, unplaced
from aimcalc.scene.hanglist.places.steps import steps_said
from aimcalc.scene.hanglist.places.things import named_plaster, places_a_thing, things_said
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.hanglist.tongues.tongues import garden_plain, in_english

MOST_CELLS = 2  # of a row that may be a line of words
MOST_PARTS = 6  # of a line that is parted where its words are explained
SHORTEST = 12  # characters of such a line
FEWEST_WORDS = 3  # in a part of a line that commas part


def said_by(
    rows: Iterable[tuple[int, Sequence[Any]]], across: frozenset[str] = frozenset()
) -> Said:
    """What the rows that are lines of words say, by their numbers; one that begins with a position that runs
    `across` the stage, "Balcony rail: feet from the middle", says nothing of places up and down it."""
    said = Said()
    lines: list[str] = []
    for number, row in rows:
        cells = [cell for cell in row if not blank(cell)]
        if not cells:
            continue
        texts = [cell.strip() for cell in cells if isinstance(cell, str)]
        signed = len(texts) == len(cells) <= MOST_PARTS and any(map(says_sign, texts))
        if len(cells) > MOST_CELLS and not (signed or _is_legend(cells) or _is_parted(row)):
            texts = [_bracketed(cells) or _unit_alone(texts if len(texts) == len(cells) else ())]
            if not texts[0]:
                continue
        texts = signs_said(texts)
        words = " ".join(garden_plain(in_english(text, line=True)) for text in texts)
        words = zero_ends(words)
        lines.append(words.casefold())
        long = any(len(text) >= SHORTEST for text in (words, *texts))
        told = _line(words) if long or _SHORT_END.fullmatch(words) else _short(words)
        if across and words.partition(":")[0].strip().casefold() in across:
            told = told._replace(upstage=Upstage())
        away = said.away or (told.centred and bool(_OF_PLACES.search(words.casefold())))
        if told._replace(centred=False) != Said():
            said, told = of_places_first(said, told)
            disputed = said.disputed or disagree(said, told)
            said = said.over(told)._replace(rows=(*said.rows, number), disputed=disputed)
        said = said._replace(away=away)
    if said.mixed or desk_moved(lines):
        said = said._replace(bare="", aims="", doubt=True)
    return end_of_bare(plus_of_bare(of_nobody(said) if said.disputed else said))


def _bracketed(cells: Sequence[Any]) -> str:
    """What stands in brackets in the cells of a title, where all of them are words and one alone is in
    brackets: "RIG LIST", "June", "(metres, L and R are the stage's)"."""
    texts = [cell.strip() for cell in cells if isinstance(cell, str)]
    found = [text for text in texts if text[:1] in "([" and text[-1:] in ")]"]
    plain = len(texts) == len(cells) <= MOST_PARTS and not any(text[:1].isdigit() for text in texts)
    return found[0] if plain and len(found) == 1 and len(found[0]) >= SHORTEST else ""


def _unit_alone(texts: Sequence[str]) -> str:
    """The one cell of a title that says the unit of places and no more: "Nachtzug", "Licht: H.", "Maße in
    cm"; "" where none does."""
    if len(texts) > MOST_PARTS:
        return ""
    texts = [t for t in texts if not _INITIALS.fullmatch(t)]
    found = [t for t in texts if _unit_in(t, sides_plain(in_english(t, line=True)))]
    return found[0] if len(found) == 1 else ""


def _unit_in(words: str, text: str) -> re.Match[str] | None:
    """The unit that words are, in plain words and as they stand: "FT" over units is the Front Truss."""
    code = words.strip().isupper() and len(words.strip()) <= SHORTEST_CODE
    return None if code else re.fullmatch(UNIT_ALONE, text)


SHORTEST_CODE = 2  # capitals that may be a position


def says_figures(words: str) -> bool:
    """Whether a line says in what unit and from where figures are places: "metres from centre", "(ft up)"."""
    if not MEASURED.search(words):
        return False
    said = said_by([(1, [words])])
    whence = said.centred or said.plaster or said.end or said.heights or said.top or said.plus
    return bool((said.unit or said.boom_unit) and (whence or _UPWARDS.search(words)))


def _is_parted(row: Sequence[Any]) -> bool:
    """Whether a row is one line of words that its commas parted: "Maße in m, ab Mitte, + = rechts vom
    Publikum" in a file of commas."""
    filled = [k for k, cell in enumerate(row) if not blank(cell)]
    cells = [row[k] for k in filled]
    if len(filled) > MOST_PARTS or filled[-1] != len(filled) - 1:
        return False
    if not all(isinstance(cell, str) and re.search(r"[^\W\d_]", cell) for cell in cells):
        return False
    return any(len(cell.split()) >= FEWEST_WORDS for cell in cells)


def _is_legend(cells: Sequence[Any]) -> bool:
    """Whether cells are the parts of a line that says what words stand for: "J = jardin", "C = cour"."""
    texts = [cell for cell in cells if isinstance(cell, str)]
    return len(texts) == len(cells) <= MOST_PARTS and sum(map(bool, map(_STANDS.search, texts))) > 1


def _line(words: str) -> Said:
    whose = whose_of(words.casefold(), whose_left)
    text = _PLASTER_BY_NAME.sub("from the plaster line", sides_plain(lines_plain(words)))
    text = _IN_FRONT.sub(" ds", _THERE.sub(" ", text))
    text = _BEGINS_AT.sub(r"from the \1 end", _NAMED_END.sub(" ", text))
    of_places = bool(_OF_PLACES.search(text)) and "trim" not in text
    plain = prompt_plain(text)
    found = ENDS.finditer(plain) if of_places else ()
    ends = [end_of(each) for each in found if not _is_of_else(plain, each)]
    both = _both_ends(plain) if {"SL", "SR"} <= set(ends) else ""
    vague = _VAGUE.search(text) if of_places and not ends else None
    if vague is None and of_places and not ends and not NUMBERED.search(text):
        vague = re.search(r"\bfrom\s+(?:the\s+)?s[lr]\b(?!\s*(?:end|\+|-|=|is|to)\b)", text)
        vague = vague or (None if _LOOKS.search(text) else _FROM_SIDE.search(text))
    rest, of_heights = heights_out(text)
    of_booms = OF_BOOMS.search(rest)
    of_others = OF_BOOMS.sub(" ", rest) if of_booms else rest
    apart = boom_unit_out(text)
    of_others = heights_out(apart.rest)[0] if apart.unit else of_others
    text = signs_plain(house_plain(text))
    plus = sides_of_plus(_SIGN.sub(r"\1, ", text)) if SAYS.search(text) else []
    middle = bool(_FROM_MIDDLE.search(text))
    even = bool(_EVEN.search(text) and _SPACE.search(text))
    things, named = things_said(text), named_plaster(sides_plain(words))
    zero = says_zero(text) or any(not thing.metres for thing in things)
    plaster = zero or bool(_FROM_PLASTER.search(text) and not places_a_thing(text))
    both_ways = bool(_BOTH_WAYS.search(text) or _OUT_IS.search(text))
    open_way = plaster and both_ways and not plus
    step = step_said(text)
    return Said(
        unit=(unit_said(of_others) if of_places else "") or unit_beside(of_others),
        boom_unit=apart.unit or (LENGTHS[of_booms[1]] if of_booms else of_heights),
        end="" if both else _first(ends, "SL", "SR"),
        plus=_first(plus, "SL", "SR") or half_said(text),
        plus_bare="" if plus else bare_plus(text),
        upstage=Upstage(
            _first(ends, "US", "DS"),
            _first(plus, "US", "DS")
            or ("DS" if plaster and not both_ways and _DOWN_FROM.search(text) else ""),
            middle,
            (BOTH_WAYS if open_way else "")
            if ends or middle or open_way or not of_places
            else _vague_upstage(text),
            "" if ends or middle or plaster else unplaced(text),
        ),
        bare=whose.places,
        named=whose.named,
        aims=whose.aims,
        vague=both or (vague[0] if vague else "" if plus else plus_unsaid(text)),
        step=step,
        from_sr=bool((NUMBERED.search(text) or even or step) and _begins_sr(text, words)),
        even=even,
        sides=own_sides(text),
        plaster=plaster,
        things=tuple(dict.fromkeys((*things, *named))),
        out=plaster and bool(_DOWN_FROM.search(text) or _OUT_IS.search(text)),
        marks=marks_apart(text),
        middle=bool(_NONE_IS_MIDDLE.search(text)),
        centred=bool(_OF_CENTRE.search(text)),
        steps=steps_said(text),
        top=says_top(text),
        grid=says_grid(words),
        grids=grid_heights(words),
        heights=bool(_HEIGHTS.search(text)),
        doubt=bool(LEFT_AND_RIGHT.search(text)) and not whose.places,
        mixed=is_mixed(words.casefold()),
        dotted=bool(_DOTTED.search(words.casefold())),
    )


def _both_ends(text: str) -> str:
    """What a line says that places count from either end, and not where each does; "" where it says one."""
    ends = [
        found
        for found in ENDS.finditer(text)
        if not _ONWARDS.search(text[: found.start()] + found[0])
        and not _READS_THERE.search(text[: found.start()])
    ]
    sides = {end_of(found) for found in ends}
    return "from the SL end, and from the SR end" if {"SL", "SR"} <= sides else ""


_READS_THERE = regex(  # "13 m = PS end": what the tape reads at the other end
    r"[1-9][\d.,'\"]*\s*(?:m|cm|mm|ft|feet|in)?\s*(?:=|\bis\b|\bat\b)\s*(?:the\s+)?$"
)


def _vague_upstage(text: str) -> str:
    """What a line on places says they count from where that may be an end of a pipe up and down the stage
    or something else there: "from DS"; "" where it says none, or how units are numbered or set."""
    onward = _TOWARDS_WHAT.search(text) if _FROM_PLASTER.search(text) else None
    if onward and not _DOWN_FROM.search(text):
        return onward[0]  # to a side of the plaster line that nobody knows
    found = _FROM_WAY.search(text)
    return f"from {found[1].upper()}" if found and not NUMBERED.search(text) else ""


def _begins_sr(text: str, words: str) -> bool:
    """Whether a line says that units are counted from SR: "left to right as the audience sees them"."""
    order = _ORDER.search(text)
    whose = whose_left(words.casefold()) if order else ""
    return bool(_FROM_SR.search(text)) or (
        order is not None and whose == {"left": "house", "right": "stage"}[order[1]]
    )


_ORDER = regex(r"\b(left|right)\s+(?:(?:to|the)\s+)*(?!\1)(?:left|right)\b")


def _is_of_else(text: str, end: re.Match[str]) -> bool:
    """Whether an end is none that places count from: units are numbered from it, or a line says where it is,
    "DS end is on the plaster line"."""
    stands = _STANDS_THERE.match(text, end.end()) and not re.search(r"from|off|to\b", end[0])
    return bool(stands) or _counts_units(text, end)


def _counts_units(text: str, end: re.Match[str]) -> bool:
    """Whether an end is that from which units are numbered, and not their places: "numbered from SR end"."""
    before = text[: end.end()]
    return bool(_NUMBERED_FROM.search(before)) and not _OF_PLACES_TOO.search(before)


def _first(sides: Iterable[str], *of: str) -> str:
    """The first of some sides that is one of two; "" where none is."""
    return next((side for side in sides if side in of), "")


def _short(words: str) -> Said:
    """What a line of a word or two says: "All in cm", "(mm)", "PS = SL"."""
    apart = boom_unit_out(sides_plain(words))
    text, of_heights = heights_out(apart.rest)
    unit = _unit_in(words, text)
    text = signs_plain(text)
    plus = sides_of_plus(text) if SAYS.search(text) else []
    whose = whose_of(words.casefold(), whose_left)
    return Said(
        bare=whose.places,
        named=whose.named,
        unit=LENGTHS[unit[1] or unit[2] or unit[3]] if unit else unit_beside(text),
        boom_unit=apart.unit or of_heights,
        plus=_first(plus, "SL", "SR") or half_said(text),
        plus_bare="" if plus else bare_plus(text),
        vague="" if plus else plus_unsaid(text),
        upstage=Upstage(plus=_first(plus, "US", "DS")),
        sides=own_sides(text),
        step=step_said(text),
        grid=says_grid(words),
        grids=grid_heights(words),
    )


_DOTTED = regex(  # "feet.inches", "12.6 = 12 ft 6 in"
    r"\b(?:feet|ft)\.(?:inches|ins?)\b|\b(\d+)\.(\d+)\s*(?:=|is|means)\s*\1\s*(?:'|ft|feet|foot)\.?\s*\2\s*(?:\"|in)"
)
_INITIALS = regex(r"[A-Z]{2}")  # "MM", and no millimetres
_SHORT_END = regex(r"\W*from\s+(?:the\s+)?[sud]/?[lrs]\s+end\W*", re.IGNORECASE)
_NONE_IS_MIDDLE = regex(
    r"\b(?:(?:no|without(?:\s+an?)?)\s+(?:number|figure|measure\w*|distance|place|dim\w*|offset|value)|blanks?|empty|nothing)"
    r"(?:\s+(?:written|given|cells?|there))?\s*(?:=|:|->|→|\bis\b|\bare\b|\bmeans?\b)\s*(?:hangs?\s+)?(?:in|on|at)?\s*(?:the\s+)?"
    r"(?:middle|cent(?:re|er)|cl\b)"
)
_PLASTER_BY_NAME = regex(  # "from the chancel step (plaster line)"
    r"\bfrom\s+(?:the\s+)?[\w\s]{3,30}?\(\s*(?:=\s*|the\s+)*plaster(?:\W?line)?\s*\)"
)
_INTO_HOUSE = (
    r"\b(?:in|on|out)?to(?:wards?)?\s+(?:the\s+)?(?:house|audience|auditorium|seats|seating|public|pews|stalls|hall"
    r"|congregation|nave)\b"
)
_DOWN_FROM = regex(  # "feet downstage of the plaster line"
    r"\b(?:ds|in\s+front|out\s+front|towards?\s+the\s+(?:house|audience|seats))\b"
    r"(?:\s+(?:of|from|off))?\s+(?:the\s+)?plaster(?:\W?line)?\b"
    r"|\b(?:of|from|off)\s+(?:the\s+)?plaster(?:\W?line)?\W+(?:(?:going|running|towards?|to|the)\s+)*(?:ds\b|down\b)"
    rf"|\b(?:out\s+)?{_INTO_HOUSE}\s+(?:of|from|off)\s+(?:the\s+)?plaster\b"
    rf"|\b(?:of|from|off)\s+(?:the\s+)?plaster(?:\W?line)?\W+(?:(?:going|running|out|outwards?)\W+)*{_INTO_HOUSE}"
)
_OUT_IS = regex(  # "out is toward the audience", and the word in quotes before it
    rf"\bout(?:wards?)?(?:[\"'”’]\s+(?=(?:in|on)?to)|[\"'”’]?\s*(?:=|:|\b(?:is|means)\b))\s*(?:{_INTO_HOUSE}"
    r"|(?:to(?:wards?)?\s+(?:the\s+)?)?ds\b|house\b|audience\b)"
)
_SIGN = regex(r"\(\s*([+−–-])\s*\)")  # "upstage (+), downstage (-)"
_BOTH_WAYS = regex(r"\b(?:us\W+(?:(?:or|and)\W+)?ds|ds\W+(?:(?:or|and)\W+)?us)\b")
_THERE = regex(
    r"(?<=[=:])\s*towards?\s+(?:the\s+)?(?=(?:us|ds|sl|sr)\b)"
)  # "- = towards the DS door"
_IN_FRONT = regex(r"(?<=[=:])\s*in\s+front\b(?!\s+of)")  # "- = in front", and no inches
_FROM_PLASTER = regex(
    r"(?:\b(?:of|from|off|is|(?:distance|metres|meters|feet)\s+to)\b|=)\s*(?:the\s+)?plaster(?:\W?line)?\b"
)
_OF_CENTRE = regex(r"\b(?:from|off|of)\s+(?:the\s+)?(?:cl\b|c/l|c\.l|ctr\b|cent(?:re|er))")
_HEIGHTS = regex(
    r"\b(?:booms?|towers?|ladders?|stands?)\b.*\bheights?\b|\bheights?\b.*\b(?:booms?|towers?|ladders?)\b"
    r"|\b(?:booms?|towers?|ladders?)\b[^.;]{0,30}\b(?:from|off|above)\s+(?:the\s+)?(?:floor|deck|ground|stage)\b"
)
_FROM_MIDDLE = regex(
    r"\b(?:from|off|of)\s+(?:the\s+|its\s+|their\s+)*(?:mid(?:dle|way)?\b|cent(?:re|er)\s+of\s+(?:the\s+|its\s+|each\s+)?"
    r"(?:pipe|rail|bar|truss|batten)s?\b)"
)
_UPWARDS = regex(
    r"[(\[]\s*[a-z]+\s+(?:up|high|above|off\s+(?:the\s+)?(?:deck|floor))\b", re.IGNORECASE
)
_OF_PLACES = regex(
    r"\b(?:dim(?:ension)?s?|dist(?:ance)?s?|measure\w*|lengths?|hts?|heights?|places?|positions?|offsets?|figures|units?|all"
    r"|taken|from|off\s+(?:cl|cent(?:re|er))|tapes?|hook(?:ed)?|zero|readings?|spacings?|gaps?)\b"
)
_STANDS = regex(r"[^\W\d_]\s*(?:=|:)\s*[^\W\d_]")
_TOWARDS_WHAT = regex(
    r"\btowards?\s+(?:the\s+|its\s+)?(?!the\b|its\b|us\b|ds\b|sl\b|sr\b|house|audience|seats|plaster|cl\b|cent|back\s+wall|cyc)[a-z]{3,}"
)
_STANDS_THERE = regex(
    r"\W*(?:of\s+(?:\w+\s+){1,3})?(?:(?:is|are|=)\s+(?:at|on|by|over|above|against|near)\b|(?:at|on|=)\s+(?:the\s+)?plaster)"
)
_FROM_WAY = regex(r"\bfrom\s+(?:the\s+)?(us|ds)\b(?!\W*(?:end|tip|of|edge|to|[+=–-]))")
# What an end is called beside its side: "from their upstage (chancel) end", "from DS wall end".
_NAMED_END = regex(
    r"(?<=\b(?:sl|sr|us|ds))\s*(?:\([^()]*\)|/\s*\w+|(?!end\b|tip\b|of\b|and\b|or\b|to\b|the\b)[a-z]{3,})\s*(?=(?:end|tip)\b)"
)
_BEGINS_AT = regex(  # "the tape begins at the end of the pipe on the left"
    r"\b(?:begins?|starts?|zero(?:\s+is)?|0(?:\s+is)?)\s+(?:at|on|from)\s+(?:the\s+)?end(?:\s+of\s+(?:the|each|every)\s+[^\W\d_]+)?"
    r"\s+(?:on|at|to)\s+(?:the\s+)?(left|right|sl|sr)\b"
)
_NUMBERED_FROM = regex(r"\b(?:number\w*|count\w*)\s+(?:\w+\s+){0,2}?from\b[^.;,]*$")
_OF_PLACES_TOO = regex(
    r"\b(?:measur\w*|dist\w*|dims?\w*|places?|offsets?|taped?|metres|meters|feet)\b[^.;]*$"
)
NUMBERED = regex(r"\bnumber|\bunits?\b|\bno\b|\bcount|#")
_FROM_SR = regex(
    r"\bsr\s*(?:to|-|–|>|→|thru|through)\s*sl\b|\bfrom\s+(?:the\s+)?sr\b|\b(?:1|one|first)(?:\s*[=:]\s*|\s+)"
    r"(?:(?:is|at|on|the|to|all|way|near|nearest|closest|furthest|farthest|far|most|outmost|outermost|outside|extreme|ganz|yderst|ytterst"
    r"|aussen|langst|aan|bij|tout|an|am|i)\s+)*(?:sr|jardin)\b|\bsr\s+end\b|\bsr\s+(?:side\s+)?first\b"
)
_EVEN = regex(r"\b(?:even(?:ly)?|equal(?:ly)?|equidistant(?:ly)?)\b")
_SPACE = regex(
    r"\b(?:spac\w+|spread\w*|distribut\w+|hang|hung|rig(?:ged)?|apart|gaps?)\b|\bdistances?\s+between\b"
)
_LOOKS = regex(r"\b(?:seen|view\w*|look\w*|fac\w+|stand\w*|stood)\b")
_FROM_SIDE = regex(  # "all distances from the left", and not "left of centre"
    r"\bfrom\s+(?:the\s+)?(?:left|right)(?:[\s-]*hand)?(?:\s+side)?"
    r"(?=\s*(?:[.;,()]|$|measured|in\s+(?:mm|cm|m|ft)\b|of\s+(?:the\s+|each\s+)?(?:bar|pipe|batten|truss)))"
)
_ONWARDS = regex(r"\b(?:to|towards?|through|thru)\s+(?:the\s+)?(?:\w+\s+){1,2}$")
_VAGUE = regex(  # "from the organ end" is no nearer to a side than "from the left-hand end"
    r"\bfrom\s+(?:the\s+|an?\s+|one\s+)?(?:left|right|l|r|(?!the\b|an?\b|one\b)[^\W\d]{3,})?[\s-]*\b(?:hand\s+)?end\b"
)
