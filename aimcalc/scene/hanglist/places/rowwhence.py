"""From where the place of one unit counts, as a remark in its row says: "tape from altar end", "from top"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.columnkeys import Meaning
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain
from aimcalc.scene.hanglist.places.origins import Ways
from aimcalc.scene.hanglist.places.stagelines import lines_plain
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import by_plaster, in_english
from aimcalc.scene.mistakes import Wrong, show

LONGEST = 60  # characters of what says it
ONWARD = {"US": "ds", "DS": "us"}  # a way and the end that a place so far along it may count from
ACROSS = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}

_MEASURED = (
    r"(?:tap(?:e|es|ed|ing)|meas(?:ured?|ures|uring|urements?)?\b\.?|dims|dimensions?|dist(?:ance)?s?|offsets?"
    r"|figures?|readings?|counted|counting|counts)"
)
_UNITS = r"m|cm|mm|ft|feet|inches|met(?:re|er)s|centimet(?:re|er)s|millimet(?:re|er)s"
_UNIT_ALONE = regex(  # "feet", "in metres"
    r"\W*(?:(?:all|measured|taped|given|is|are)\s+)?(?:in\s+)?(feet|inches|met(?:re|er)s|centimet(?:re|er)s|millimet(?:re|er)s)\W*",
    re.IGNORECASE,
)
# Something is measured, and from where: "measured up from DS", "tape from the organ end".
_FROM = regex(
    rf"(?:.*?\b({_MEASURED})\b\.?(?:\s+[a-z]+){{0,3}}?\s+|(?:({_UNITS})\s+)?(?:all\s+|this\s+one\s+|(?:in|up|down|out)\s+)*)"
    r"(?:from|off|fr\.?|frm)\s+(?:the\s+|its\s+)?(\S.*)",
    re.IGNORECASE,
)
# The tape is hooked on there: "zero at SR end", "datum: DS end".
_ZERO = regex(
    r"(?:(?:zero|0|datum|origin|tape\s+(?:is\s+)?hook(?:ed)?)\s*(?:=|:|\bis\b)?\s*(?:at|on|is)?\s+|(?:zero|0|datum|origin)\s*[=:]\s*)"
    r"(?:the\s+|its\s+)?(\S.*)",
    re.IGNORECASE,
)
_OTHER_WAY = regex(
    rf"(?:.*\b{_MEASURED}\b.*\s)?(?:the\s+)?(?:other|wrong|opposite)\s+(?:way|direction)(?:\s+(?:round|around|about))?"
    rf"|(?:{_MEASURED}\s+)?(?:backwards|reversed|back\s+to\s+front)(?<!^reversed)",
    re.IGNORECASE,
)
_OTHER_END = regex(r"(?:other|opposite|far)\s+end\b.*", re.IGNORECASE)
_TOP = regex(r"top\b(?:\s+of\b.*|\s+down)?", re.IGNORECASE)
_FOOT = regex(
    r"(?:floor|deck|ground|bottom|foot|base|stage(?:\s+(?:floor|level))?)\b(?!\W*(?:edge|front|lip)).*",
    re.IGNORECASE,
)
_CENTRE = regex(
    r"(?:c\W?l|cent(?:re|er)(?:\W?line)?(?:\s+of\s+(?:the\s+)?stage)?|ctr)\W*", re.IGNORECASE
)
_MIDDLE = regex(
    r"(?:mid(?:dle|point)?|cent(?:re|er)\s+of\s+(?:the\s+)?(?:pipe|bar|truss|rail|batten|beam))\b.*",
    re.IGNORECASE,
)
_PLASTER = regex(r"(?:plaster(?:\W?line)?|pl)\W*", re.IGNORECASE)
_WAYS = r"sl|sr|us|ds|left|right|l|r"
_CL = r"(?:the\s+)?(?:c\W?l|cent(?:re|er)(?:\W?line)?|ctr)"
_CENTRE_TO = regex(
    rf"\W*(?:(?:{_MEASURED})\s+)?(?:from|off)\s+(?:the\s+)?(?:{_CL}\b(?:[\s,;:()/>+–—-]|\b(?:to|towards?|going|heading"
    rf"|out|working|on|and|the)\b){{1,12}}(?P<behind>{_WAYS})|(?P<before>{_WAYS})(?:\s+side)?\s+(?:of|from|off)\s+{_CL})"
    r"\b(?:\s+(?:side|of\s+it))?\W*"
)
_SIDE = regex(r"(sl|sr|us|ds)(?:\s+side)?\W*")
_SPEAKS = ("from", "off", "fr", "way", "zero", "datum", "origin", "hook", "0", "backwards", "rever")


class Whence(NamedTuple):
    """From where a place counts: one of these, and the words that say it; "" and False where none does."""

    words: str = ""
    end: str = ""
    side: str = ""  # a side alone, of which its end may be meant
    middle: bool = False
    centre: bool = False
    top: bool = False
    foot: bool = False
    plaster: bool = False
    other_end: bool = False
    open: bool = False  # something is measured, and from where is not clear
    unit: str = ""  # that the words say of the place, "feet from plaster"
    measured: bool = True  # a word says that something is; "from the top" may be of the show


NOWHERE = Whence()


def whence_of(remarks: Iterable[tuple[str, Any]], note: Any, ways: Ways, *, boom: bool) -> Whence:
    """What the remarks of a row, and its note, say of its place, on a boom or elsewhere."""
    for heading, cell in (*remarks, ("", note)):
        if not isinstance(cell, str):
            continue
        if (line := _beside_line(cell)) != NOWHERE:
            return line
        if unit := _UNIT_ALONE.fullmatch(cell):
            return Whence(cell.strip(), unit=LENGTHS[unit[1].casefold()], measured=False)
        headed = _HEADED.fullmatch(heading.strip()) if heading else None
        text = f"measured from {cell}" if headed else cell
        if heading and not headed and _REFERS.fullmatch(heading.strip()):
            way = _centre_and_way(f"measured from {cell}")
            if way != NOWHERE:
                return way
            end = _of_words(lines_plain(f"measured from {cell.strip(' .')}"), ways)
            if end.end:
                return end
        if not headed and not any(word in text.casefold() for word in _SPEAKS):
            continue
        way = _centre_and_way(text)
        way = _restated(text) if way == NOWHERE else way
        if way != NOWHERE:
            return way
        for part in re.split(r"[;,()\[\]]|\.\s|\s[-–—]\s", text_of(text)):
            found = _of_words(lines_plain(part.strip(" .!*:")), ways)
            of_show = found.top and not (boom or found.measured)
            if found != NOWHERE and not of_show:
                return found
    return NOWHERE


_HEADED = regex(
    r"(?:(?:meas\w*|taped?|dist\w*|dim\w*|counts?|counted|taken|set\s+out|pulled|read|start(?:s|ed|ing)?|where"
    r"|offset)\W*)?from(?:\s+(?:where|which|what))?(?:\s+(?:end|side))?|datum|origin|zero(?:\s+(?:at|point))?",
    re.IGNORECASE,
)
# A column of what places refer to, or of anything else: "Ref" over "CL to SL", or over "A12".
_REFERS = regex(
    r"ref(?:erence|\.)?(?:\s+(?:point|line|end|from))?|from\W?/\W?to|measur(?:e|ed|ing|ement)s?|dir(?:ection|n|\.)?|way",
    re.IGNORECASE,
)


@lru_cache(maxsize=1024)  # remarks are the same from row to row
def _beside_line(text: str) -> Whence:
    """The side of the plaster line that a place lies on, by words that say no more, "US of curtain line", or
    that it counts from there, "y ab Portal"."""
    if len(text) > LONGEST or not any(map(str.isalpha, text)) or any(map(str.isdigit, text)):
        return NOWHERE
    plain = sides_plain(lines_plain(in_english(by_plaster(text))))
    if _Y_FROM_LINE.fullmatch(plain):
        return Whence(text.strip(), plaster=True, measured=False)
    found = _OF_LINE.fullmatch(plain)
    return (
        Whence(text.strip(), side=found[1].upper(), plaster=True, measured=False)
        if found
        else NOWHERE
    )


# Of a pipe up and down the stage; of others it is where they hang.
_FROM_LINE = regex(
    r"(?:from|off)\s+(?:the\s+)?(?:[a-z]+\s+){0,2}(?:edge|steps?|line|arch|wall|lip|nosing|apron)",
    re.IGNORECASE,
)
_OF_LINE = regex(r"\W*(us|ds)\s+(?:of|from)\s+(?:the\s+)?plaster(?:\W?line)?\W*", re.IGNORECASE)


_Y_FROM_LINE = regex(  # "y ab Portal", and no thing that hangs there
    r"\W*(?:y|(?:all\s+)?(?:measured|measurements?|distances?|depths?|places))\s*[:=]?\s*(?:are\s+|all\s+)?"
    r"(?:from|off)\s+(?:the\s+)?plaster(?:\W?line)?\W*",
    re.IGNORECASE,
)


def _centre_and_way(text: str) -> Whence:
    """The centre line with the side that a place is on from there: "measured from centre to SL"; a bare
    left or right stays as it is."""
    if len(text) > LONGEST:
        return NOWHERE
    found = _CENTRE_TO.fullmatch(sides_plain(in_english(text)).replace("→", " to "))
    if found is None:
        return NOWHERE
    side = found["behind"] or found["before"]
    return Whence(text.strip(), centre=True, side=side.upper() if len(side) == 2 else side)


def _restated(text: str) -> Whence:
    """That a place counts from the plaster line, by words that say the place again: "4,50 dalla linea zero
    verso il fondo"."""
    if len(text) > LONGEST:
        return NOWHERE
    found = _RESTATED.fullmatch(sides_plain(lines_plain(in_english(by_plaster(text)))))
    if found is None:
        return NOWHERE
    way = found[1] or found[3] or ""
    side = "DS" if way.startswith("d") else "US" if way or found[2] else ""
    return Whence(text.strip(), side=side, plaster=True)


_RESTATED = regex(
    rf"\W*\d+(?:[.,]\d+)?\s*(?:(?:{_UNITS})\b|['’])?\s*(?:(us|ds)\s+)?(?:of|from|off)\s+(?:the\s+)?plaster(?:\W?line)?"
    r"(?:\W+(?:(?:going|heading|running|out)\s+)?(?:to(?:wards?)?\s+)?(?:the\s+)?"
    r"(?:(back|rear|fondo|lointain|hinten|achteren)|(us|ds))(?:\s+(?:wall|end))?)?\W*",
    re.IGNORECASE,
)


def _of_words(words: str, ways: Ways) -> Whence:
    if not words or len(words) > LONGEST:
        return NOWHERE
    if _OTHER_WAY.fullmatch(words):
        return Whence(words, open=True)
    found = _FROM.fullmatch(words)
    if found is None:
        zero = _ZERO.fullmatch(words)
        return _named(words, zero[1], ways) if zero else NOWHERE
    measured = bool(found[1] or found[2])
    where = _named(words, found[3], ways)
    if not measured and (where.plaster or (where == NOWHERE and _FROM_LINE.fullmatch(words))):
        return Whence(words, plaster=where.plaster, open=not where.plaster, measured=False)
    if where == NOWHERE or (not measured and (where.side or where.foot)):
        return Whence(words, open=True) if measured else NOWHERE
    unit = LENGTHS[found[2].casefold()] if found[2] else ""
    return where._replace(measured=measured, unit=unit)


def _named(words: str, where: str, ways: Ways) -> Whence:
    """What is named as that from which a place counts."""
    plain = sides_plain(str(ways.plain(in_english(where)))).strip(" .")
    end = ENDS.match(plain)
    if end is not None and not plain[end.end() :].strip(" ."):
        return Whence(words, end=end_of(end))
    side = _SIDE.fullmatch(plain)
    if side is not None:
        return Whence(words, side=side[1].upper())
    for key, pattern in _PLACES.items():
        if pattern.fullmatch(plain):
            known: dict[str, Any] = {key: True}
            return Whence(words)._replace(**known)
    return Whence(words, open=True) if re.search(r"\bend\b", plain) else NOWHERE


_PLACES = {
    "other_end": _OTHER_END,
    "top": _TOP,
    "foot": _FOOT,
    "centre": _CENTRE,
    "middle": _MIDDLE,
    "plaster": _PLASTER,
}


def taken_from(
    whence: Whence, cell: Any, meaning: Meaning, along: Along, *, boom: bool
) -> tuple[Any, Meaning]:
    """A place and the meaning of its heading as they are where its row says from where it counts; `cell` has
    its side with it.

    Raises:
        Wrong: when that is not clear, or is not of its position.
    """
    if along.axis == "any":  # its position is asked about
        return cell, meaning
    if not whence.measured and (whence.open or whence.plaster) and (along.axis != "y" or boom):
        return cell, meaning
    if whence.plaster and whence.side:
        if along.axis != "y" or boom:  # a whole pipe across the stage lies there
            return cell, meaning
        return _on_side(whence, cell, along), meaning._replace(end="", plus="")
    end = whence.end or (whence.side if along.axis == "y" and not whence.centre else "")
    if whence.other_end and meaning.end:
        end = ACROSS[meaning.end]
    if boom and (whence.foot or (whence.top and not _OF_SHOW.fullmatch(whence.words))):
        return cell, meaning._replace(end="", plus="")
    if whence.centre and whence.side and not boom:
        cell, meaning = _on_side(whence, cell, along), meaning._replace(end="", plus="")
    if not boom and whence.centre and along.centre and not (meaning.end and not _sided(cell)):
        return cell, meaning
    if not boom and (whence.middle or whence.plaster or whence.centre) and along.axis == "y":
        return cell, meaning._replace(end="", plus="")
    if not end or boom or along.axis != ("x" if end in ("SL", "SR") else "y"):
        raise _unclear(whence)
    said = _sided(cell)
    if not said or _SAME_END[end].search(sides_plain(text_of(cell))):
        return cell, meaning._replace(end=end, plus="")
    onward = said.casefold() == ONWARD.get(end)
    plain = re.sub(_WAY, " ", sides_plain(text_of(cell))).strip() if onward else ""
    if not plain or _sided(plain):
        raise _unclear(whence)
    return plain, meaning._replace(end=end, plus="")


def _on_side(whence: Whence, cell: Any, along: Along) -> Any:
    """A place with the side of the centre line that its row says.

    Raises:
        Wrong: when it says another itself, or its position has no such side.
    """
    side = whence.side
    if len(side) == 2 and side not in (("SL", "SR") if along.axis == "x" else ("US", "DS")):
        raise _unclear(whence)
    said, text = _sided(cell), text_of(cell)
    if said and said.casefold() != side.casefold():
        raise _unclear(whence)
    if said or not re.search(r"[1-9]", text):
        return cell
    if text[:1] in "+-−–":
        raise _unclear(whence)
    return f"{text} {side}"


_OF_SHOW = regex(r"from\s+the\s+top", re.IGNORECASE)
_WAY = r"\b(?:us|ds)\b\.?"
_SAME_END = {end: regex(rf"\b{end.casefold()}\s+end\b") for end in ACROSS}
_SIDED = regex(
    r"(?<![^\W\d_])(sl|sr|us|ds)(?![^\W\d_])|\bc/?l\b|\bcent|(?<![^\W\d_])[lr](?![^\W\d_])"
)


def _sided(cell: Any) -> str:
    """The side that a place says itself; "" where it says none."""
    found = _SIDED.search(sides_plain(text_of(cell)))
    return (found[1] or found[0]) if found else ""


def _unclear(whence: Whence) -> Wrong:
    return Wrong(
        f"a place that tells where it counts from: its row says {show(whence.words)}",
        "Write the place from the zero of its position, and take the words out of the row.",
    )
