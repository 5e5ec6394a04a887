"""Places along a position as people write them: `6-2`, `8ft6 S.L.`, `1m50`, `on CL`, `house left`,
"third mark".

What `aimcalc.scene.lengths` reads is left as it is; the rest is put into its words, or asked about where two
readings fit.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.namewords import ORDINALS
from aimcalc.scene.hanglist.places.along import INCHES, Along, Read, told
from aimcalc.scene.hanglist.rows.listrow import day_of
from aimcalc.scene.hanglist.tongues.tongues import in_english
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import Wrong

LONGEST = 60  # characters of a place
_HOUSE = r"(?:house|audience|auditorium|aud|hse|cam|camera)(?:['’]?s)?\b\.?"
_STAGE = r"(?:stage|stg|actors?|performers?|perf)(?:['’]?s)?\b\.?"
_SIDES = (
    (rf"\b{_HOUSE}\W*l(?:eft)?\b|\bh[./ ]?l\.?(?![a-z])", "SR"),
    (rf"\b{_HOUSE}\W*r(?:ight)?\b|\bh[./ ]?r\.?(?![a-z])", "SL"),
    (rf"\b{_STAGE}\W*l(?:eft)?\b|\bs[./ ]l\b\.?|\bsl\.", "SL"),
    (rf"\b{_STAGE}\W*r(?:ight)?\b|\bs[./ ]r\b\.?|\bsr\.", "SR"),
    (r"\bup\W*stage\b|\bu[./ ]s\b\.?|\bus\.", "US"),
    (r"\bdown\W*stage\b|\bd[./ ]s\b\.?|\bds\.", "DS"),
)
_CENTRE_WORDS = (
    r"(?:(?:on|at|in|dead|to|w|na|auf|im|dans|sur|en|sul|i|pa|på|no|ao|op|zu)\s+)?(?:the\s+)?"
    r"(?:c(?:\W|\.\s)?l\.?|cx\.?|(?:stage\W?)?cent(?:re|er)(?:\W?line)?|cent(?:re|er)(?:\s+of)?(?:\s+the)?\W?stage"
    r"|ctr\.?|℄|c\.?|axis|axe|mitte|milieu|centro|midden|mezzo|meio)"
)
_CENTRE = regex(_CENTRE_WORDS)
_NAUGHT = (
    r"0(?:[.,]0+)?\s*(?:'(?:\s*-?\s*0\s*\"?)?|-\s*0\s*\"?|\"|ft|feet|in|m|cm|mm|metres?|meters?)?"
)
_NAUGHT_THERE = (
    rf"(?:{_NAUGHT}\s*[-,]?\s*(?:{_CENTRE_WORDS}|mid(?:dle)?)"
    rf"|(?:{_CENTRE_WORDS})\s*[-,]?\s*{_NAUGHT})\s*"
)
_MIDDLE = regex(r"(?:(?:on|at|in)\s+)?(?:the\s+)?mid(?:dle)?")
_OF_PLASTER = regex(
    r"\s*\b(?:of|from|off|on|at)\s+(?:the\s+)?(?:plaster(?:\W?line)?\b|p\.?l\b\.?)", re.IGNORECASE
)
_PLASTER = regex(r"(?:(?:on|at)\s+)?(?:the\s+)?plaster\W?line")
EVEN = 0.01  # metres: a pipe whose ends are so nearly alike far from its zero has it in its middle
_FROM_CENTRE = (
    r"\b(?:of|from|off|to)\s+(?:the\s+)?(?:c\W?l\b\.?|cent(?:re|er)(?:\W?line)?\b|ctr\b|c\b|mid(?:dle)?\b|℄)"
    r"|^(?:c\W?l|c|cent(?:re|er)(?:\W?line)?|ctr)\s*(?:\+|plus\b)\s*(?=\d)"
    r"|(?<=[\d'\"a-z.])\s(?:c/?l|cent(?:re|er)(?:\W?line)?|ctr)[\s.,>→–—-]{1,4}"  # "2 m CL to SL"
    r"(?:(?:going|heading|out|working)\s)?(?=s\W?(?:l|r)\W*$|stage\s(?:left|right)\W*$)"
)
# What people write round a place that says no more, and how it is written without: on lower case.
_PLAINER = (
    (r"\b(\d+)\s+(?:and|&)\s+a\s+half(?=\s*(?:m|ft|feet|foot|met(?:re|er)s?)\b)", r"\1.5"),
    (r"\bhalf\s+an?\s+(?:metre|meter)\b", "0.5 m"),
    (r"\b(?:an?|one)\s+(?:metre|meter)\b", "1 m"),
    (r"\b(?:[àa]\s+)?(?:c[oô]t[ée]\s+)?jardin\b(?:\W*s\W?r\b)?", " sr "),
    (r"\b(?:[àa]\s+)?(?:c[oô]t[ée]\s+)?cour\b(?:\W*s\W?l\b)?", " sl "),
    (r"\bhalf\s+an?\s+foot\b", "0.5 ft"),
    (r"\b(?:an?|one)\s+(foot|inch)\b", r"1 \1"),
    (r"\b(ft\.?|feet|foot|')\s*(?:and|&)\s*(?=\d)", r"\1 "),
    (r"(?<=\d)\s*f\.?\s*(\d+)\s*(?:i\b\.?)?", r" ft \1 "),
    (r"(?<=\d)\s*ins\b\.?", " in"),
    (r"^(sl|sr|us|ds)\s*\+\s*(?=\d)", r"\1 "),
    (r"\b(sl|sr|us|ds|left|right)\s+side\b", r"\1"),
    (r"^(?:bang|slap|right)\s+(?=on\s+c)", ""),
    (r"(?<=[\d'\"m])\s*(?:/|\s-\s|:|,)\s*(?=s\W?[lr]\b|stage|house)", " "),
    (r"^(sl|sr|s\.l\.?|s\.r\.?|stage \w+|house \w+)\s*(?:-\s|:|,)\s*(?=\d)", r"\1 "),
    (
        r"^((?:sl|sr|us|ds)\s+)?(?:mtrs?|mts?|mtres?|met(?:re|er|ri|ro|ros)s?)\b\.?\s*(?=[+-]?\d)",
        r"\1m ",
    ),
    (r"^((?:sl|sr|us|ds)\s+)?(?:cms?|centimet(?:re|er|ri|ro)s?)\b\.?\s*(?=[+-]?\d)", r"\1cm "),
    (r"(?<=\d)\s*(?:mtrs?|mts?|mtres?|metr?es?)\b\.?", " m"),
    (r"(?<=\d)\s*(?:fts|f|feets?)\b\.?", " ft"),
    (r"(?<=\d)\s*(?:cms|centimetres?|centimeters?)\b\.?", " cm"),
    (r"(?<=\d)\s*(?:mms|millimetres?|millimeters?)\b\.?", " mm"),
)
_PROMPT = r"(?<![a-z])(?:ps|op|p\.s\.|o\.p\.|prompt|opposite prompt)(?![a-z])"
_BARE_SIDE = regex(r"(?<![^\W\d_])(?:left|right|l|r)\.?(?![^\W\d_])")
_MARK = regex(
    rf"(?:on\s+)?(?:the\s+)?(?:(?:mark|hole)\s*(?:no\.?\s*|#\s*)?(\d+)|(?:(\d+)(?:st|nd|rd|th)|({'|'.join(ORDINALS)}))\s+(?:mark|hole))"
)
# Behind a height on a boom.
_UP = (
    r"(?<=[\d'\"mtn.])\s*(?<![a-z])"
    r"(?:up|high|height|haut(?:eur)?|hoch|höhe|hoog|alt(?:a|o)?|altezza|h|hö"
    r"|a\.?f\.?(?:f|d)\.?|elev(?:ation)?\.?"
    r"|(?:above|off|from|over)(?: the)? (?:deck|floor|stage|ground))\b.*$"
)
_DAY = regex(
    r"\s*(\d{1,2}-[a-z]{3}|[a-z]{3}-\d{1,2})(?!\w)\s*(s?[lr]|[ud]s|stage\s(?:left|right)|)\s*$",
    re.IGNORECASE,
)
_FRACTION = r"^\D*\b(\d{1,2})\s*/\s*(\d{1,2})\b(?!\s*/)\D*$"  # and nothing whole before it
_PARTS = (2, 4, 8, 16)  # of an inch, a foot or a metre
_UNIT_FIRST = regex(r"(mm|cm|m|ft|in)\.? ?([+-]?\d+(?:[.,]\d+)?)")  # "cm 310"
_BRACKETED = regex(r"\s*\(\s*[\d.,]+\s*\)\s*")
_FOOT, _INCH = "'′’‘´`", '"″”“'
_MARKED = str.maketrans(
    {
        **dict.fromkeys(_FOOT, "'"),
        **dict.fromkeys(_INCH, '"'),
        **dict.fromkeys("–—−‐‑", "-"),
        "·": ".",  # 2·4
    }
)


def read_place(cell: object, along: Along, column: str = "", side: str = "") -> Read:
    """A place from a cell; `column` is the length unit that its heading names, `side` what a column of
    its own says.

    Raises:
        Wrong: when it is none, or may be two.
    """
    if isinstance(cell, (datetime.date, datetime.datetime)):
        return _from_date((cell.month, cell.day), along, side)
    shown = _DAY.match(cell) if isinstance(cell, str) else None
    day = day_of(shown[1]) if shown else None
    if shown and day:  # "2-Jun L", where a spreadsheet has written its date into a file of text
        return _from_date(day, along, side or shown[2])
    if isinstance(cell, str) and _BRACKETED.fullmatch(cell):
        raise Wrong("a place without brackets: they may stand for a minus", "Write SL or SR.")
    fraction = re.search(_FRACTION, cell) if isinstance(cell, str) and "/" in cell else None
    if fraction and not (int(fraction[1]) < int(fraction[2]) and int(fraction[2]) in _PARTS):
        raise Wrong(
            "a place that reads in one way: a fraction, or feet and inches",
            f"Write {fraction[1]}'-{fraction[2]}\" if that is meant.",
        )
    if side:
        cell = _with_side(cell, side)
    unit = column or along.unit
    if unit == "mm" and isinstance(cell, str):  # whole ones: "2,350" has its thousands parted
        cell = re.sub(r"(?<![\d.,])(\d{1,3})[,. ](\d{3})(?![\d.,])", r"\1\2", cell)
    if column:
        along = along._replace(unit=column)
    try:
        return Read(parse_length(cell, unit, along.axis, centre=along.centre))
    except Wrong as wrong:
        if not isinstance(cell, str) or len(cell) > LONGEST:
            raise
        refused = wrong
    words = _in_scene_words(cell, along)
    if words is None:
        raise refused
    if not isinstance(words, str):
        return Read(words, told(words, along))
    try:
        metres = parse_length(words, unit, along.axis, centre=along.centre)
    except Wrong:
        raise refused from None
    return Read(metres, told(metres, along, _is_in_feet(words)))


def from_plaster(cell: object) -> tuple[object, bool]:
    """A cell without the plaster line that it counts from, and whether it does: "4' DS of plaster"."""
    if not isinstance(cell, str):
        return cell, False
    ordinate = re.fullmatch(r"\s*y\s*(?:[=:]\s*|\s(?=\s*[+−–-]?\s*\d))(.*)", cell, re.IGNORECASE)
    if ordinate:
        return ordinate[1], True
    if not _OF_PLASTER.search(cell):
        return cell, False
    return _OF_PLASTER.sub("", cell).strip(), True


def x_out(cell: object, along: Along) -> object:
    """A place across the stage without the letter of its axis: "X -3250", "x = 2.5"."""
    if not isinstance(cell, str) or along.axis not in ("x", "any"):
        return cell
    return _X_FIRST.sub("", cell, count=1)


_X_FIRST = regex(r"^\s*x\s*(?:[=:]\s*|(?=[+−–-]\s*\d)|\s(?=\d))", re.IGNORECASE)


def _is_in_feet(words: str) -> bool | None:
    """Whether a place is written in feet and inches; None where it has no unit."""
    if re.search(r"['\"]|ft|feet|foot|in", words):
        return True
    return False if re.search(r"\d\s*(?:m|cm|mm|met\w+)\b", words) else None


def _with_side(cell: object, side: str) -> object:
    """A place with the side that stands in a column of its own."""
    plain = side.strip()
    if _CENTRE.fullmatch(plain.casefold()) or _MIDDLE.fullmatch(plain.casefold()):
        if cell in (None, "") or re.fullmatch(rf"[0.,]+\W*|{_NAUGHT}\s*", str(cell)):
            return 0.0
        raise Wrong(
            "a place beside a side",
            "It is not on the centre line: correct one of the two.",
            came=f"{cell} {side}",
        )
    if isinstance(cell, bool) or not isinstance(cell, (int, float, str)):
        return cell
    return f"{_number(cell)} {plain}" if not _has_side(str(cell)) else cell


def _number(cell: object) -> str:
    return f"{cell:.10g}" if isinstance(cell, float) else str(cell)


def _has_side(text: str) -> bool:
    return bool(re.search(r"\b(sl|sr|us|ds)\b", text.casefold()))


def _in_scene_words(cell: str, along: Along) -> str | float | None:
    """A cell in the words of a scene, or its metres where it is a mark of the pipe; None where it
    cannot be said."""
    text = " ".join(in_english(cell.translate(_MARKED)).casefold().split())
    text = str(x_out(text, along))
    text = re.sub(r"^[hz]\s*=\s*", "", text)
    text = re.sub(r"^(?:'(?=[\d-])|@\s*|at\s+|on\s+(?=\d))", "", text).strip()
    text = re.sub(r"[()\[\]]", " ", text)
    for pattern, plainer in _PLAINER:
        text = re.sub(pattern, plainer, text)
    text = re.sub(r"\b(sl|sr|us|ds)(?=\d)", r"\1 ", text)
    text = re.sub(r"(?<=\d)(?=(?:sl|sr|us|ds)\b)", " ", text)
    text = re.sub(
        r"\b(?:to|towards?|onto|on)\s+(?:the\s+)?(?=[su][lrs]\b|ds\b|s\W[lr]\b|stage|house|ps\b|op\b)",
        "",
        text,
    )
    text = " ".join(re.sub(r"(ft\.?|feet|foot|'),(?=\s*\d)", r"\1 ", text).split())
    if along.axis in ("", "any"):
        text = re.sub(_UP, "", text).strip()
        text = re.sub(
            r"^(?:h|z|ht|hgt|hö|haut|hoch|hoog|alt(?:a|o)?|height|up|elev(?:ation)?)\b\.?\s*[:=]?\s*(?=(?:(?:cm|m)\b\.?\s*)?\d)",
            "",
            text,
        )
    mark = _MARK.fullmatch(text)
    if mark:
        return _marked(mark, along)
    if along.centre and _CENTRE.fullmatch(text):
        return 0.0
    if _MIDDLE.fullmatch(text) and along.centre and along.span and abs(sum(along.span)) < EVEN:
        return 0.0
    on_pipe = (
        along.plaster is not None and along.span and along.span[0] <= along.plaster <= along.span[1]
    )
    if on_pipe and _PLASTER.fullmatch(text):
        return along.plaster
    if along.centre:
        text = " ".join(re.sub(_FROM_CENTRE, " ", text).split())
        for pattern, plainer in _PLAINER[:2]:
            text = re.sub(pattern, plainer, text)
    if along.centre and re.fullmatch(_NAUGHT_THERE, text):
        return 0.0
    text, side = _take_side(text, along)
    text = text.strip(" ,;")
    unit_first = _UNIT_FIRST.fullmatch(text)
    if unit_first and (side or not cell.lstrip().startswith("M")):  # "M 3" may be a mark
        text = f"{unit_first[2]} {unit_first[1]}"
    amount = _amount(text, along)
    return f"{amount} {side}".strip() if amount else None


def _take_side(text: str, along: Along) -> tuple[str, str]:
    for pattern, side in _SIDES:
        if re.search(pattern, text):
            text = re.sub(pattern, " ", text)
            again = _BARE_SIDE.search(text)  # "left of centre (stage left)"
            if again and pattern.startswith(rf"\b{_STAGE}") and again[0][0] == side[1].lower():
                text = text.replace(again[0], " ")
            return text, side
    found = re.search(r"\b(sl|sr|us|ds)\b", text)
    if found:
        return text.replace(found[0], " "), found[0].upper()
    prompt = re.search(_PROMPT, text)
    if prompt and along.axis in ("x", "any") and re.search(r"\d", text):
        side = (
            "SR" if prompt[0].startswith("o") else "SL"
        )  # common practice where the words are used
        return text.replace(prompt[0], " "), side
    bare = _BARE_SIDE.search(text)
    if bare and along.axis in ("x", "any") and re.search(r"\d", text):
        left = bare[0].startswith("l")
        stage, house = ("SL", "SR") if left else ("SR", "SL")
        rest = _BARE_SIDE.sub("", text).strip()
        raise Wrong(
            f"SL or SR: {'left' if left else 'right'} is {rest} {stage} seen by the performer and "
            f"{rest} {house} seen from the house",
            "Write SL or SR.",
        )
    return text, ""


def _amount(text: str, along: Along) -> str | None:
    """A size without its side, in a scene's words."""
    text = re.sub(r'"{2,}', '"', text).replace("''", '"')
    text = re.sub(r"\s+", " ", text).strip()
    metres = re.fullmatch(r"(\d+) ?m ?(\d+)(?: ?cm)?", text)
    if metres:
        return _metres(text, metres[1], metres[2])
    text = re.sub(r"(?<=\d)(ft|feet|foot|in|m|cm|mm)(?=[\d\s.-]|$)\.?", r" \1 ", text)
    text = re.sub(r"\s+", " ", text).strip()
    both_feet = re.fullmatch(r"(\d+) ?' ?-? ?(\d+(?:\.\d+)?(?: \d+/\d+)?) ?'", text)
    if both_feet and float(both_feet[2].split()[0]) < INCHES:
        return f"{both_feet[1]}'-{both_feet[2]}\""
    bare = re.fullmatch(r"([+-]?\d+) ?- ?(\d+(?:\.\d+)?(?: \d+/\d+)?|\d+/\d+) ?\"?", text)
    if bare:
        return _feet_and_inches(bare[1], bare[2], along)
    return text if re.search(r"\d", text) else None


def _metres(text: str, whole: str, rest: str) -> str:
    if "cm" in text:
        if int(rest) < 100:
            return f"{whole}.{int(rest):02d} m"
        raise Wrong("less than 100 cm where metres come before them")
    if len(rest) == 1:
        raise Wrong(
            f"a place that reads in one way: {whole}.{rest}0 m or {whole}.0{rest} m",
            "Write it with a point.",
        )
    return f"{whole}.{rest} m"


def _feet_and_inches(feet: str, inches: str, along: Along) -> str:
    said = f"{feet}'-{inches}\""
    if not along.feet:
        raise Wrong(
            f"a length with its unit: {said}, or metres",
            "Write the unit; the scene is not in feet, so that this may be either.",
        )
    return said


def _marked(mark: re.Match[str], along: Along) -> float:
    number = int(mark[1] or mark[2] or ORDINALS.index(mark[3]) + 1)
    if not along.marks:
        raise Wrong(
            "a place along the position: it has no marks",
            "Give the [[pipe]] its marks, or write the length.",
        )
    if not 1 <= number <= len(along.marks):
        raise Wrong(f"one of the {len(along.marks)} marks that the pipe has")
    return along.marks[number - 1]


def day_comes_first(cells: Sequence[object]) -> bool | None:
    """How the dates of a column were written that were feet and inches: no inches are over 11."""
    days = [day for cell in cells if (day := day_of(cell)) is not None]
    day_first = any(day >= INCHES for _, day in days)
    month_first = any(month >= INCHES for month, _ in days)
    return day_first if day_first != month_first else None


def day_order(line: str) -> bool | None:
    """Whether a line explains that days have become dates by their day, "2-Jun is 2-6", or by their month,
    "2-Jun is 6-2"; None of another line."""
    line = line[:LONGEST_EXPLAINED]
    found = _EXPLAINED.search(line) or _BECAME.search(line)
    day = day_of(found["day"]) if found else None
    if found is None or day is None or day[0] == day[1]:
        return None
    figures = (int(found["first"]), int(found["second"]))
    return False if figures == day else True if figures == day[::-1] else None


LONGEST_EXPLAINED = 500  # characters of a line that explains it
_THE_DAY = r"\b(?P<day>\d{1,2}[- ][a-z]{3,9}|[a-z]{3,9}[- ]\d{1,2})"
_FIGURES = r"(?P<first>\d{1,2})\s*(?:-|'|ft)\s*(?P<second>\d{1,2})\b"
_EXPLAINED = regex(
    rf"{_THE_DAY}[\"'”’]?\s*(?:is|=|means|was|for|stands\sfor|(?:should|ought\sto)\s(?:be|read|say))\s*"
    rf"(?:really\s|actually\s)?[\"'“‘]?{_FIGURES}",
    re.IGNORECASE,
)
_BECAME = regex(  # "6-2 came out as 2-Jun", "it turned 6-2 into 2-Jun"
    rf"(?<![\d./-]){_FIGURES}[\"'”’]?\s*(?:(?:now\s)?(?:came|comes|shows?|went|reads?|appears?|goes)(?:\s(?:out|up))?"
    r"\s(?:as|to|in\s?to)|(?:has\s|have\s)?bec[ao]mes?|(?:was\s|is\s|got\s|gets\s|been\s|has\s)*"
    r"(?:turn|chang|convert|mad)(?:s|es|ed|e)?\s?(?:in\s?to|to)?|in\s?to|[-=]{1,2}>|→)\s*[\"'“‘]?"
    rf"{_THE_DAY}",
    re.IGNORECASE,
)


def _from_date(date: tuple[int, int], along: Along, side: str = "") -> Read:
    """A place that a spreadsheet took for a day: 6-2 is 6 ft 2 in, the second of June or the sixth of
    February."""
    fits = []
    month, day = date
    for feet, inches in dict.fromkeys(((month, day), (day, month))):
        metres = (feet * INCHES + inches) * 0.0254
        other_way = along.day_first is not None and (feet == day) != along.day_first
        if other_way and day != month:
            continue
        if inches < INCHES and (along.span is None or metres <= max(map(abs, along.span))):
            fits.append((metres, f"{feet}'-{inches}\""))
    if not along.feet or not fits:
        raise Wrong("a length", "Format the cell as text, and type the place again.")
    if len(fits) > 1:
        raise Wrong(
            f"one place: a spreadsheet made a date of it, which was {fits[0][1]} or {fits[1][1]}",
            "Format the cell as text, and type the place again.",
        )
    metres = read_place(fits[0][1], along, side=side).metres
    return Read(metres, told(metres, along, True))
