"""How people write the fields of a unit in a free line: its number, place, channel, circuit and colour, what
stands before a target, what parts them, and what makes a line doubtful."""

from __future__ import annotations

import re

PART = " \x1f "  # where a field was taken out
UNIT = r"(?:m|mtrs?|met(?:re|er)s?|cm|mm|ft|feet|foot|ins?|inch(?:es)?)(?![^\W_])\.?|['’′\"”″]{1,2}"
_FEET = r"\d{1,3}\s*(?:['’′]|(?:ft|feet|foot)\b\.?)\s*-?\s*"
_INCHES = r"(?:1[01]|\d)(?:\.\d+)?(?:\s\d/\d|\s?[½¼¾])?(?![\d.]|\s?[^\W\d_]{2}|\s?[a-hj-z]\b)\s*"
_LENGTH = (
    rf"(?:{_FEET}{_INCHES}(?:[\"”″]|['’′]{{2}}|in\b\.?)?|\d+m\d\d?\b|\d{{1,3}}-\d\d?[\"”″]?(?![\d.])"
    rf"|\d+(?:[.,]\d+)?(?:\s?[½¼¾])?\s*(?:{UNIT})?)"
)
_MIDDLE = r"(?:c\W?l\b|cent(?:re|er)\b(?:\W?line\b)?|ctr\b|℄|mid(?:dle)?\b)"
_OFF = rf"(?:\s*\b(?:of|from|off)\s+(?:the\s+)?{_MIDDLE})?"
_SIDE = (
    r"(?:[sh]\W?[lr]\b\.?|[ud]\W?s\b\.?|(?:stage|house|camera|audience)\W?(?:left|right)\b|(?:up|down)\W?stage\b"
    r"|(?:opposite\W)?prompt\b(?:\Wside\b)?|p\.?s\b\.?|o\.?p\b\.?|left\b|right\b|[lr]\b(?!\W?\d))"
)
SIDE_ALONE = re.compile(_SIDE, re.IGNORECASE)
# A place as people write it, with how surely it is one: beside a length its side, the centre, a length.
PLACES = tuple(
    (re.compile(pattern, re.IGNORECASE), sure)
    for pattern, sure in (
        (
            rf"(?<![\w.,/-])(?:(?:@|at)\s*)?{_LENGTH}{_OFF}\s*(?:[-,]\s*)?(?:(?:to|on)\s+(?:the\s+)?)?{_SIDE}{_OFF}",
            3,
        ),
        (
            rf"(?<![\w.-])(?:(?:@|at)\s*)?{_SIDE}\s*(?:[-,@]\s*|by\s+|at\s+)?{_LENGTH}{_OFF}(?![\w])",
            2,
        ),
        (
            rf"(?<![\w.,/-])(?:(?:@|at)\s*)?{_LENGTH}\s*(?:up|high|above)\b(?:\s+(?:from\s+)?(?:the\s+)?(?:deck|floor|stage|ground)\b)?",
            3,
        ),
        (r"(?<!\w)(?:on\s+)?(?:the\s+)?(?:mark\s*\d+|\d+(?:st|nd|rd|th)\s+mark)\b", 3),
        (rf"(?<!\w)@\s*{_LENGTH}(?![\w])", 3),
        (
            rf"(?<!\w)(?:dead\s+|bang\s+)?(?:(?:on|at|in)\s+)(?:the\s+)?{_MIDDLE}(?:\s+of\s+(?:the\s+)?\w+)?",
            2,
        ),
        (rf"(?<!\w)(?:dead\s+)?{_MIDDLE}(?=\s*(?:$|[,;|\t\x1f]|-\s|\s\s))", 1.5),
        (
            rf"(?<![\w.,/-])[+-]?\d+(?:[.,]\d+)?\s*(?:{UNIT})(?!\s*(?:cable|tail|lead|drop|trim|x\b))",
            1,
        ),
        (rf"(?<![\w.,/-]){_FEET}{_INCHES}(?:[\"”″]|in(?:s|ch(?:es)?)?\b\.?)", 2),
        (  # "8 ft. 9" between two gaps
            r"(?<![\w.,/-])\d{1,3} ?(?:['’′]|(?:ft|feet|foot)\b\.?) ?(?:1[01]|\d)(?: ?[½¼¾])?"
            r"(?=\s*$|[,;|\t\x1f]|\s\s)",
            2,
        ),
        (
            r"(?:(?<=[,;|\t\x1f])|(?<=\s-)|(?<=\s\s))\s*[+-]\d+(?:\.\d+)?\s*(?=$|[,;|\t\x1f]|\s[-\s])",
            1,
        ),
    )
)
# Alone between two gaps, where a line says in what unit and from where: of all units, or of those below it.
_ALONE = r"(?:(?<=[,;|\t\x1f])|(?<=\s\s)|^)\s*{}\s*(?=$|[,;|\t\x1f]|\s\s)"
DECIMAL_ALONE = re.compile(_ALONE.format(r"\d{1,3}[.,]\d{1,3}"))
FIGURE_ALONE = re.compile(_ALONE.format(r"\d{1,5}(?:[.,]\d{1,3})?"))
_CODE = (
    r"(?:(?:[LRGE]\s?\d{2,4}|(?:no\s+colou?r|open\s+white|n\s?/\s?c|o\s?/\s?w|nc|ow)"
    r"|(?:(?:full|half|quarter|eighth|double|1/[248]|[½¼⅛])\s*)?(?:c\.?t\.?[bo]\.?|(?:minus|plus)\W?green))(?!\w))"
)
# Names of fields: of what is told without them, and of a target.
LABELS = re.compile(
    r"\b(?:type|kind|instrument|lantern|fixture|luminaire|location|place|dist(?:ance)?|hung\s+at|at|position|pos)\s*[:=]\s*",
    re.IGNORECASE,
)
TARGET_LABELS = re.compile(r"\b(?:target|area|purpose|aim)\s*[:=]\s*", re.IGNORECASE)
GLUED = re.compile(
    r"(?<=\d)(m|cm|mm|ft|in|['’′\"”″])(?=(?:s\W?[lr]|[ud]s|ps|op)\b)", re.IGNORECASE
)  # "2.5mSR"
# Key, and what it is told by.
MARKED = tuple(
    (key, re.compile(pattern, re.IGNORECASE))
    for key, pattern in (
        (
            "channel",
            r"\b(?:(?:on|in)\s+)?(?:ch(?:an(?:nel)?)?s?|control)(?![^\W\d])\s*[.#:=]?\s*(?:no\.?\s*)?"
            r"(\d{1,5}(?:\s*[+&/]\s*\d{1,5})*)(?!\w|\.\d)|\bch?(\d{1,4})\b"
            r"|[(\[]\s*(\d{1,4})\s*[)\]](?! ?[^\W\d_])",
        ),
        (
            "circuit",
            r"\b(?:(?:on|in|into)\s+)?(?:cct|ckt|circ?|circuit|dim(?:mer)?|patch(?:ed)?|socket)s?\b\s*[.#:=]?\s*"
            r"(?:(?:no|to|in|into)\b\.?\s*)?((?:[a-z]{1,2}[-/]?)?\d{1,4}(?:[-/.]\d{1,3})?[a-z]?)\b",
        ),
        (
            "colour",
            r"\b(?:gel(?:led)?|colou?r(?:ed)?|col|filter)\b\s*(?:is\b|in\b|with\b|[.:=#])?\s*"
            rf"({_CODE}(?:\s*[+/&]\s*{_CODE})*|\w[^,;|\t\x1f()]*?(?=\s*(?:$|[,;|\t\x1f()]|\s-\s|\s\s)))",
        ),
        ("colour", rf"(?<![\w.-])({_CODE}(?:\s*[+/&]\s*{_CODE})*)"),
    )
)
SEPARATORS = re.compile(
    r"\s*(?:[,;|\t\x1f]|(?:^|\s)[-–—/:]+(?=\s|$)|:(?=\s|$)|\s\s)\s*|\s*(?=\()|(?<=\))\s*"
)
AIMED = re.compile(
    r"(?:\b(?:foc(?:us(?:s?ed|s?ing|s?es)?)?|aim(?:ed|ing|s)?|point(?:ed|ing|s)?|hits?|hitting|lights|lighting|shoots?"
    r"|onto)\b[\s.:=]*(?:(?:on|at|to|in)\s*(?:to|onto)?\b|towards?\b|(?=.|$))|->|=>|→|>)\s*(?:the\s+)?",
    re.IGNORECASE,
)
_FILLING = """
is a an the it its it's and one of in on at with to for from
please use hang hung hangs has be then goes gets will would
"""
FILL = frozenset(_FILLING.split())
DANGLING = re.compile(
    r"(?:ch(?:an(?:nel)?)?|cct|ckt|circuit|dim(?:mer)?|gel|colou?r|foc(?:us(?:ed)?)?)\W*",
    re.IGNORECASE,
)
ASIDE = re.compile(r"\(.*[^\W\d_]{2}|(?:w/|\+|with\b|note\b|nb\b)", re.IGNORECASE)
BRACKETS = re.compile(r"\([^()]*\)")
UNSURE = re.compile(r"[?~]")
# What makes a line say something else than its fields do, or makes them doubtful.
HEDGED = re.compile(
    r"\b(?:not|no\s+longer|was|were|now|moved?|swap\w*|instead|replac\w*|or|either|maybe|perhaps|old|new|tb[acds]"
    r"|don['’]?t|never|end|about|approx\w*|roughly|between|next\s+to|near|above|below|behind|beside|under|over"
    r"|(?:off|on|up|down)\W?stage|[sh]\W?[lr]|[ud]\W?s|ps|op|left|right|cl|cent(?:re|er)|middle|same|ditto|except|if|when)\b",
    re.IGNORECASE,
)
_NUMBER = r"(\d{1,3}[a-hA-H]?(?:(?:\s?&\s?|\s(?:to|and)\s|[-–])\d{1,3}(?!\d))?)"
LEADING = re.compile(
    rf"\W*?(?:(?:unit|no|nr|num|number|lamp|lantern|light|fixture|u)\b\s*[.:#]?\s*|#\s*)?{_NUMBER}"
    r"(?![\w'’′\"”″]|[.,/]\d|\s*(?:mm|cm|m|ft|feet|x|×|k|kw|w|deg\w*|°)\b|\s*[°×])\s*(?:[).:\]]+|-(?=\s))?\s*",
    re.IGNORECASE,
)
LATER = re.compile(
    rf"(?:\b(?:unit|no|nr|number|lamp|lantern)\b\s*[.:#]?\s*|#\s*){_NUMBER}(?![\w'’\"”]|[.,/]\d)\s*[).:\]]*",
    re.IGNORECASE,
)
FIGURE = re.compile(r"\d")
LETTERS = re.compile(r"[^\W\d_]{2}")
# Words that are looked at as names: a figure alone may be a kind, of its watts.
WORTH = {
    "kind": re.compile(r"[^\W\d_]{2}|\d{3}|\d\s?k|[^\W\d_]\s?\d", re.IGNORECASE),
    "target": re.compile(r"[^\W\d_]{2}|[^\W\d_]\s?\d"),
    "position": re.compile(r"[^\W\d_]{2}|[^\W\d_]\s?\d"),
}


QUOTED = re.compile(r"\s*>")
EDGES = " *•·‣◦▪–—-\t_"
LETTER = re.compile(r"[^\W\d_]")
ON = re.compile(
    r"(?:(?:and|then|now|next|also)\s+)*(?:(?:on|for|from)\s+(?:the\s+)?)?", re.IGNORECASE
)
# A short line that is no name of a position.
REMARK = re.compile(
    r"^(?:hi|hello|hey|dear|g['’]?day|morning|evening|thanks?|thx|cheers|ok(?:ay)?|regards|greetings|best|yours|sent\s+from"
    r"|nb|re|fwd?|total\w*|page|sheet|cont\w*|nice|yes|no)\b|[.!?)]\s*$",
    re.IGNORECASE,
)
# Words directly under the name of a position that are no other name.
OF_OVER = re.compile(r"[(\[]|.*\b(?:from|to|all|in|off|are|is)\b", re.IGNORECASE)
PLEASE = re.compile(r"\W*\b(?:please|pls)\W*$", re.IGNORECASE)
# Over units that may not hang.
GONE = re.compile(
    r"\b(?:(?:take|taken|took|takes)\s+(?:\w+\s+)?down|remov\w+|de-?rig\w*|struck|strike\s+(?:these|this|the)|cut|no\s+longer"
    r"|do(?:n['’]?t|\s+not)\s+hang|not\s+hung|instead\s+of|previous\w*|old\s+(?:rig|plot|list|positions?))\b",
    re.IGNORECASE,
)
OWN = re.compile(r"\b([a-z]{1,4})\s*=\s*(?:the\s+)?([a-z]{3,})\b", re.IGNORECASE)
JOINT = re.compile(r"(.{0,30}?[^\W_])\s*[/#.:–-]\s*(?=#?\s*\d{1,3}[a-h]?\b)")
NAMES_ONE = re.compile(
    r"\b(?:lx|bar|pipe|truss|boom|electric|elec|batten|bridge|gallery|tower|perch|ladder|rail|stand|cove|catwalk"
    r"|position|tree|grid|foh)s?\b|\b(?:lx|b|p|e)\s?\d+\b",
    re.IGNORECASE,
)


def numbered(text: str) -> tuple[str, str, str]:
    """What stands before a unit's number, the number, and the line without it; "" where there is none."""
    leading = LEADING.match(text)
    if leading and leading.end() < len(text):
        return "", leading[1], text[leading.end() :]
    later = LATER.search(text)
    if later is None:
        return "", "", text
    before = text[: later.start()].strip(" -–—:,.\t")
    return before, later[1], f"{before}{PART}{text[later.end() :]}"


def starts_unit(text: str) -> bool:
    """Whether a text begins with the number of a unit."""
    leading = LEADING.match(text)
    return leading is not None and leading.end() < len(text)
