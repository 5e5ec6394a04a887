"""Heights on booms: words for them by a legend, "shin 0.4, mid 1.3, head 2.2", what counts down from the top,
what other languages write beside one, "wys. 260", "2,40 m de alto"; and the way units stand from booms."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import Around, Row, blank, text_of
from aimcalc.scene.hanglist.taken import Noticed
from aimcalc.scene.hanglist.tongues.tongues import in_english, unaccented
from aimcalc.scene.mistakes import Wrong
from aimcalc.scene.model import Taken
from aimcalc.scene.readers import length
from aimcalc.scene.records import Place

_SAID = """
ankle bottom chest eye floor head high hi hip kicker knee lo low lower mid middle shin shoulder thigh top
upper waist oben mitte unten kopf schulter hüfte knie schienbein boden haut milieu bas tête hanche genou
tibia cheville alto medio bajo cabeza cadera rodilla espinilla alta media baja testa stinco basso
ginocchio caviglia hoog midden laag hoofd heup scheen boven onder overhead belly shinbuster shinnie
buster sternum taille poitrine hüft brust nabel knöchel pecho cintura tobillo suelo petto vita terra deck
borst enkel grond bröst höft knä fot hode bryst hofte
"""
SHELVES = tuple(dict.fromkeys(_SAID.split()))
FORMS = frozenset(form for word in SHELVES for form in (word, f"{word}s"))
FEWEST = 2  # words with their heights in a line that is a legend of them
LENGTH = (
    r"(\d+(?:[.,]\d+)?\s*(?:(?:mm|cm|m|ft|feet|in)\b(?:\s*\d+\s*(?:\"|ins?\b))?"
    r"|['’′](?:\s*-?\s*\d+\s*(?:[\"”″]|in\b)?)?|[\"”″])?)"
)
_WORD = rf"\b({'|'.join(SHELVES)})s?\b"
_PAIR = regex(rf"{_WORD}\s*(?:=|:|-|–|\bat\b|\bis\b)?\s*{LENGTH}", re.IGNORECASE)
# A row of one of them, "Shins at 1'-6\" above the deck", and a heading of a column of one, "HEAD".
_ROW = regex(
    rf"\W*{_WORD}(?:\s+(?:heights?|levels?|rows?|units?|lamps?|lights?|hts?|position)\b)?"
    rf"\W*(?:(?:at|is|are|hang|clamp)\b\s*)*{LENGTH}"
    r"\W*(?:(?:up|high|above|off|from|over|the|deck|floor|stage|ground|aff|afd|to|clamp|centre|center)\b\W*)*",
    re.IGNORECASE,
)
_HEADED = regex(rf"\W*{_WORD}\W*", re.IGNORECASE)
_MOST_CELLS = 3  # of a row of one of them
_TOP = r"(?:from|off|below|under)\s+(?:the\s+|its\s+|their\s+)?top\b"
_HEADED_TOP = regex(rf"\b{_TOP}", re.IGNORECASE)
_CELL_TOP = regex(
    rf"\s*(?:\bdown\s+)?\b{_TOP}(?:\s+of\s+(?:the\s+|its\s+)?(?:boom|tower|ladder|tree|pipe|pole|post))?\W*$",
    re.IGNORECASE,
)
_FROM_TOP = regex(  # and no order of hanging, "hang from top down"
    r"\b(?:down|measur\w*|taken|dist\w*|dims?|dimensions|heights?|figures|places|mm|cm|m|metres?|meters?|ft|feet|in|inches)"
    rf"['’\"”)]?\s+(?:(?:are|is|all|taken|given|means|=|:|measured|counted|counts|distance)\s+)*{_TOP}(?!\s+down)"
    rf"|[=:]\s*(?:(?:measured|distance|dist|down|taken|counted|metres|feet|inches|cm)\s+)*{_TOP}(?!\s+down)",
    re.IGNORECASE,
)
_IS_UP = regex(
    r"\W*(?:ht|hgt|height|high|up|vertical|above(?:\s+(?:the\s+)?(?:deck|floor|stage))?|hauteur|haut|höhe|hoch|hoog"
    r"|altezza|alto|alta|alt|haut|hö|h)\W*",
    re.IGNORECASE,
)


def legend_of(lines: Iterable[Sequence[Any]]) -> dict[str, str]:
    """The words for heights on booms that the lines round a table explain, with the height of each: in one
    line, in a row each, or each over its height."""
    found: dict[str, str] = {}
    rows: dict[str, str] = {}
    over: dict[int, str] = {}
    for line in lines:
        filled = {k: text_of(cell).strip() for k, cell in enumerate(line) if not blank(cell)}
        words = ", ".join(filled.values())
        _take(found, _under(over, filled))
        over = {}
        many = len(FORMS.intersection(re.findall(r"[^\W\d_]+", words.casefold())))
        if not many:
            continue  # most lines: no pattern is made for them
        if len(filled) <= _MOST_CELLS and (one := _ROW.fullmatch(" ".join(filled.values()))):
            rows.setdefault(one[1].casefold(), one[2].strip())
        if many < FEWEST:
            continue
        _take(found, dict(reversed(_PAIR.findall(words))))
        headed = {k: _HEADED.fullmatch(text) for k, text in filled.items()}
        over = {k: one[1] for k, one in headed.items() if one} if all(headed.values()) else {}
    _take(found, rows)
    return {form: height for word, height in found.items() for form in (word, f"{word}s")}


def _take(found: dict[str, str], heights: dict[str, str]) -> None:
    """Add the heights of a legend that explains several; the first that explains a word stands."""
    if len(heights) >= FEWEST:
        for word, height in heights.items():
            found.setdefault(word.casefold(), height.strip())


def _under(over: dict[int, str], filled: dict[int, str]) -> dict[str, str]:
    """The words of the row before as the heights that stand under each of them; none where some do not."""
    if over.keys() != filled.keys() or not all(_ALONE.fullmatch(text) for text in filled.values()):
        return {}
    return {word: filled[k] for k, word in over.items()}


_ALONE = regex(LENGTH, re.IGNORECASE)


def is_up(side: Any) -> bool:
    """Whether a cell of a column of sides says that the figure beside it is a height: "ht"."""
    return _IS_UP.fullmatch(in_english(text_of(side))) is not None


def says_up(cell: Any) -> bool:
    """Whether a cell says itself that it is a height: "5.5 m up", "6' AFF"."""
    return isinstance(cell, str) and _HIGH.search(in_english(cell)) is not None


_HIGH = regex(
    r"\d.*(?<![a-z])(?:up|high|height|h|alt(?:a|o)?|haut|hoch|hoog|a\.?f\.?(?:f|d)\b\.?|(?:above|off|from|over)\s+(?:the\s+)?(?:deck|floor|stage|ground))\b"
    r"|^\W*(?:up|ht|hgt|height|h|alt|haut|hö|hoch|hoog|alto)\b\.?\s*[:=]?\s*\d",
    re.IGNORECASE,
)


def says_top(words: str, *, heading: bool = False) -> bool:
    """Whether words say that heights count down from the top of a boom."""
    return (_HEADED_TOP if heading else _FROM_TOP).search(words) is not None


def is_of_heights(words: str) -> bool:
    """Whether a line says that the figures below are heights, and no more: "heights above the deck, m"."""
    return _OF_HEIGHTS.fullmatch(in_english(words)) is not None


_OF_HEIGHTS = regex(
    r"\W*(?:(?:all|the|in|clamp|hook|unit|m|cm|mm|ft|feet|metres|meters|measured)\W+)*(?:heights?|hts?)\b"
    r"(?:\W+(?:above|from|off|over|to|of|in|at|up|the|deck|floor|stage|ground|clamps?|hooks?|units?|cent(?:re|er)s?"
    r"|all|are|measured|m|cm|mm|ft|feet|inches|metres|meters)\b)*\W*",
    re.IGNORECASE,
)


def top_out(cell: Any) -> tuple[Any, bool]:
    """A place on a boom without the words that count it down from the top, "10 in down from top", and
    whether it has some."""
    if not isinstance(cell, str) or "top" not in cell.casefold():
        return cell, False
    if _AT_TOP.fullmatch(cell):
        return 0, True
    plain = _CELL_TOP.sub("", cell)
    return plain, plain != cell


_AT_TOP = regex(
    r"\W*(?:(?:at|on)\s+)?(?:the\s+)?(?:very\s+)?top(?:\s+of\s+(?:the\s+)?(?:boom|tower|ladder|pipe))?\W*",
    re.IGNORECASE,
)
_DOWN = regex(r"(?<=[\d'\"a-z.])\s*\bdown\W*$|^\W*down\s+(?=\d)", re.IGNORECASE)


def down_out(cell: Any) -> Any:
    """A place on a boom without its down, "3' down", where a line says from where heights count down."""
    return _DOWN.sub("", cell) if isinstance(cell, str) and len(cell) <= LONGEST else cell


def below_top(metres: float, reach: tuple[float, float]) -> float:
    """A height on a boom that counts down from its top.

    Raises:
        Wrong: when it is not on the boom.
    """
    foot, top = reach
    if not 0 <= metres <= top - foot:
        raise Wrong("a place that is on the boom, down from its top", "Check the unit.")
    return top - metres


LONGEST = 60  # characters of a place
_AT = r"(?:auf|a|at|op|pa|po|i|na|em|ad|ve|en|in|w|til|till|bei|kl)"
_HEIGHT = (  # as they are without their accents
    r"(?:h|ht|hgt|ho|hohe|hoehe|haut|hauteur|hoch|hoog|hoogte|alt|alto|alta|altura|altezza|height|elev|wys|wysoko"
    r"|wysokosc|wysokosci|vys|vyska|vysce|vysky|vysoko|hojd|hojden|hojde|hojden|hoyde|hoyden|kork|korkeus|korkeudella"
    r"|korkealla|alcada|hog|hogt|hojt|hoj|hoyt|hoy|u[.]?\s?b[.]?)"
)
_UPWARDS = r"(?:up|upp|uppe|uppat|op|oppe|opad|opp|oppover|omhoog|gore|nahoru|ylos|amunt|arriba|acima|oben)"
_FLOOR = (
    r"(?:\w*boden|buhne|grund|gulv|gulvet|golv|golvet|scen|scenen|scenegulv|scenegulvet|scengolv|scengolvet|vloer|toneel"
    r"|sol|plateau|suelo|piso|tablas|terra|suolo|pavimento|palco|palcoscenico|chao|podlogi|podloga|podlahy|podlahou"
    r"|ziemi|ziemia|zeme|zemi|sceny|scena|jeviste|jevistem|deck|floor|stage|ground|marken)"
)
_ABOVE = (
    r"(?:nad|over|boven|uber|ueber|ab|vom|von|vanaf|van|de|fra|fran|od|dal|du|do|del|da|desde|depuis|above|sobre|acima"
    r"|ovan|ovenfor|sopra|au[\s-]dessus)"
)
_HEIGHT_FIRST = regex(
    rf"^\W*(?:(?:{_AT}\s+)?{_HEIGHT}\b\.?|{_AT}\b|v\.|upp\b|opp\b|ylos\b)\s*(?:(?:de|di|von|van|av|pa|a|ca)\b\s*)?[:=]?\s*(?=\d)"
)
_HEIGHT_BEHIND = regex(
    r"(?<=\d)(\s*(?:(?:mm|cm|mts?|m|ft|in|metr\w{0,4}|metern?|centim\w{0,7}|feet)(?![a-z])\.?|['\"])?)\s*(?<![a-z'])(?:(?:"
    rf"(?:(?:de|di|in|w|i|em|en|op|na|ve|v|til|till)\s+|d['’]\s*)?(?:{_HEIGHT}|{_UPWARDS})\b\.?)"
    rf"|{_ABOVE}\s+(?:(?:de|der|dem|den|het|la|le|el|o|du|do|della|del)\s+)*{_FLOOR}\b|lattiasta\b|lavasta\b)[\s.,;)]*$"
)
_HEIGHT_BRACKETED = regex(rf"\s*[(\[]\s*(?:{_HEIGHT}|{_UPWARDS})\.?\s*[)\]]\s*$")


def height_alone(cell: Any) -> Any:
    """A place on a boom without the words of other languages that say that it is a height: a figure there is
    nothing else; from the top is said elsewhere."""
    if not isinstance(cell, str) or len(cell) > LONGEST or not any(map(str.isalpha, cell)):
        return cell
    plain = unaccented(cell.casefold())
    rest = _HEIGHT_BEHIND.sub(
        r"\1", _HEIGHT_BRACKETED.sub("", _HEIGHT_FIRST.sub("", plain))
    ).strip()
    return rest if rest != plain.strip() and rest[:1].isdigit() else cell


def point_arms(rows: list[Row], around: Around, noticed: Noticed) -> None:
    """Point the units of booms that say no direction to the stage's middle, and warn of it."""
    assumed: dict[str, list[Row]] = {}
    for row in rows:
        position = row.raw.get("position")
        place = around.places.get(position) if isinstance(position, str) else None
        side = _inwards(place) if place and place.sort == "boom" else ""
        if side and "arm_to" not in row.raw:
            row.raw["arm_to"] = side
            assumed.setdefault(str(position), []).append(row)
    for position, without in assumed.items():
        many = "1 unit has" if len(without) == 1 else f"{len(without)} units have"
        side = without[0].raw["arm_to"]
        towards = "the middle" if side in ("SL", "SR") else "the stage"
        says = f"{many} no arm_to in {noticed.name}: assumed {side} of the boom, towards {towards}."
        do = "Write arm_to in the list: SL, SR, US, DS or degrees from the boom to the unit."
        noticed.last.append(Taken("arms-assumed", says, do, severity="warn", position=position))


def _inwards(place: Place) -> str:
    """The way from a boom to the middle of the stage; of one on the centre line in the house, upstage. "" of
    one on the stage's own centre line: it may face either way."""
    if place.x:
        return "SR" if place.x > 0 else "SL"
    return "US" if place.y < 0 else ""


def is_height_of(cell: Any, place: Place | None, unit: str) -> bool:
    """Whether a cell is a length alone, with its unit, and as high as the scene says that a stand is: "2.5 m"
    of a stand of 2.5 m, which says nothing new."""
    text = text_of(cell).strip() if cell is not None else ""
    if place is None or place.stood is None or not _LENGTH_ALONE.fullmatch(text):
        return False
    try:
        high = length(unit)(text)
    except Wrong:
        return False
    return isinstance(high, float) and abs(high - place.stood[2]) <= AS_HIGH


AS_HIGH = 0.02  # metres
_LENGTH_ALONE = regex(LENGTH, re.IGNORECASE)
