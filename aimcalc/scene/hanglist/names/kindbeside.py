"""What people write beside a kind in its cell, and which does not tell which kind it is: its watts, its lamp,
the frame and what hangs on it, "19 deg 575w", "PC 500 T18", "6in Fresnel 1kW w/ 4-way BD"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.kindtrade import KIND_ASIDE, KIND_TRADE
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 70  # characters of a kind with what stands beside it
LEAST_WATTS = 300  # of a bare figure that may be watts
USUAL_WATTS = (300, 500, 575, 600, 650, 750, 800, 1000, 1200, 2000, 2500, 5000)

_BARE = "|".join(map(str, USUAL_WATTS))
_SAID_WATTS = (
    r"(?<![\w.,/])(?:\d+\s*[x×]\s*)?\d+(?:[.,]\d+)?\s*(?:k(?:ilo)?w(?:atts?)?|w(?:atts?)?|k)\b\.?"
    r"(?:\s*(?:/|per|a)\s*(?:cell|cct|circuit|lamp|pan)\b)?"
)
_SIZE = r"\d{1,2}(?:[.,]\d+|[-\s]\d/\d|[½¼¾])?\s*(?:[\"”″]|''|in(?:ch)?\b\.?)"
_HOW = (
    rf"(?:(?:{_SIZE}|\d|[2-8]\W?(?:way|leaf|door|fach)|[abdm]\W?size|full|half|short|long|glass|steel|metal|two|four|own"
    r"|a|an|the|its)[\s-]+|\d\W?(?:way|leaf|fach)\s*)"
)
HUNG_ON = (
    r"(?:barn\W?doors?|doors|(?-i:B\W?D['’]?s?)|b/d|top\W?hats?|half\W?hats?|hats?|(?-i:T/?H|H/?H|C/?F)|snoots?|iris(?:es)?"
    r"|do(?:ugh)?nuts?|(?:gobo|template|pattern|temp|colou?r|gel|iris|filter)\W?(?:holder|frame|slot|changer|scroller)s?"
    r"|(?:gobos?|templates?|patterns?)(?:\W{0,2}(?:no\.?\s*|#)?[a-z]{0,2}\d{2,6})?|gobo\W?rotators?|rotators?|scrollers?"
    r"|egg\W?crates?|louv(?:er|re)s?|diffus(?:er|ion)s?|frames?|shutters?|safet(?:y|ies)(?:\s+(?:chain|bond|wire)s?)?"
    r"|(?:hook\W?|g\W)?clamps?|(?:side|boom|drop)\W?arms?|floor\W?(?:stand|plate)s?|spigots?|(?:short|long)\W?nose"
    r"|black|silver|chrome"
    # The same in other languages.
    r"|(?:flügel)?tor(?:e|en)?|(?:torb|irisb|b)lenden?|(?:farb|filter|gobo)(?:rahmen|halter|wechsler)|(?:licht)?klappen"
    r"|flügel(?:begrenzer)?|tubus|volets?|coupe\W?flux|porte?a?\W?(?:gobo|filtr[eo]|gel(?:atina)?)s?|couteaux|bandier(?:[ae]|ine)|alette"
    r"|viseras?|palas|aletas|banderas?|bandeiras|viseiras|(?:licht)?kleppen|flappen|goboho(?:u)?der|filterra(?:am|men)"
    r"|(?:ljus)?klaffar|irisbländare|klapper|skrzydełka|klapky|läpät)"
)
_LED_IN = (
    r"(?:\bc/w|\bw/o?|\bs/|\bw\.|\bm[./]|\b(?:with|inc(?:l(?:uding|\.)?|\.)?|plus|and|on|mit|avec|con|met|med|com"
    r"|und|et|without|no|ohne|sans|senza|sin|sem|zonder|utan|uden|uten)\b\.?|\bu\.|[+&,])"
)
_BESIDE = regex(
    rf"(?:{_LED_IN}\s*)?(?<![\w.,]){_HOW}{{0,2}}{HUNG_ON}(?![\w'’])(?:\s*{_SIZE})?", re.IGNORECASE
)
_STATE = (
    r"(?:new|old|spare|added|extra|moved|changed|revised|special|check(?:ed)?|re-?hang|re-?hung|hired?|own|temp(?:orary)?"
    r"|tbc|existing|practical|dead\W?hung|on\s+(?:an?\s+|the\s+)?(?:boom\W?|side\W?|drop\W?)?arm|(?:w/|with|c/w|\+)?\s*"
    rf"{HUNG_ON})"
)
# What is said of a unit in a cell of something else: its state, and what hangs on it.
BESIDE_UNIT = regex(rf"{_STATE}(?:\s*(?:[,&/+]|\band\b)?\s*{_STATE})*", re.IGNORECASE)
# A lamp by its code; those of a PAR tell its beam and so which it is.
_LAMPS = regex(
    r"(?<![\w])(?:HPL|HPR|GL[ACDEF]|GKV|FEL|FL[EK]|EH[CDFGM]|BT[LMNR]|BV[TVW]|BW[MN]|EG[EFGJMNRT]|FK[BW]|FR[EGHK]|FN[TV]"
    r"|FMR|FD[AF]|FCM|FHM|HX\W?\d{3}|T\W?[12]\d|A1/\d{3}|CP\W?(?:2[2-9]|4[01]|51|7[0-9]|8[1-9]|9[0-4]))"
    r"(?:\s*[-/]?\s*\d{3,4}(?:/?x)?)?(?![\w])",
    re.IGNORECASE,
)
_WATTS = regex(_SAID_WATTS, re.IGNORECASE)
_VOLTS = regex(r"(?<![\w.,])\d{2,3}\s*v(?:olts?)?\b", re.IGNORECASE)
_FRAME = regex(
    r"(?<![\w.,])(?:6[.,]25|7[.,]5|6[-\s]1/4|7[-\s]1/2|6¼|7½)\s*(?:[\"”″]|''|in(?:ch)?\b\.?)?"
)
_BARE_WATTS = regex(rf"(?<![\w.,])(?:{_BARE})(?![\w.,\"”″])")
_EMPTY = regex(r"[(\[]\W*[)\]]")
_LEFT = regex(rf"\s*{_LED_IN}\s*$", re.IGNORECASE)


def by_words(text: str, kinds: Iterable[str]) -> str:
    """The one kind whose words a cell has, in whatever order and in the trade's other words: "Mover - spot",
    "4-ckt strip"; else the one whose words it has with some that tell nothing, "PAR 64 medium (MFL)"; ""
    where there is none, or more than one."""
    said = _words_of(text)
    kinds = tuple(kinds)
    beam = re.fullmatch(_PAR_BEAM, text.strip(), re.IGNORECASE)
    if beam:  # "Par 64 wide", of the lamps by their beams
        codes = _BEAMS[beam["beam"].lower()]
        named = [
            k for k in kinds if codes & set(k.casefold().split()) and _of_size(k, beam["size"])
        ]
        return named[0] if len(named) == 1 else ""
    every = {kind: _words_of(kind) for kind in kinds}
    alike = [kind for kind, words in every.items() if words == said]
    if not alike and len(said) > 1:
        within = {kind: words for kind, words in every.items() if len(words) > 1 and words < said}
        alike = [kind for kind, words in within.items() if said - words <= _TELLS_NOTHING]
    if not alike:
        return _moving(text, every)
    return alike[0] if len(alike) == 1 and len(said) > 1 else ""


def beams_of(text: str, kinds: Iterable[str]) -> list[str]:
    """The PARs whose beam a text says: PAR 64 WFL by "par 64 wide"; none where it says none, or several."""
    said = [found[0].casefold() for found in _BEAM.finditer(text)]
    if len(said) != 1:
        return []
    codes = _BEAMS[" ".join(said[0].split())]
    return [kind for kind in kinds if codes & set(kind.casefold().split())]


def _moving(text: str, every: dict[str, frozenset[str]]) -> str:
    """The kind of a moving light that a cell says to be one and the house calls by its sort alone, Wash by
    "Wash mover" and "testa mobile wash", where no other kind is of that sort; "" where none is. A spot may
    be no moving light in a house that calls nothing else by such a word."""
    plain = _MOVER.sub(" ", unaccented(text).casefold())
    sort = " ".join(plain.replace("-", " ").split())
    if sort not in _MOVING_SORTS or len(plain) == len(text):
        return ""
    found = [kind for kind, words in every.items() if sort in words]
    others = [kind for kind in every if kind.casefold() in _MOVING_SORTS - {sort}]
    alone = len(found) == 1 and found[0].casefold() == sort
    return found[0] if alone and (sort != "spot" or others) else ""


_MOVING_SORTS = frozenset(("wash", "spot", "beam"))
_MOVER = regex(
    r"\b(?:moving[\s-]?(?:heads?|lights?|yokes?)?|movers?|mh|test[ae]\s+mobil[ei]|(?:cabezas?\s+)?movil(?:es)?"
    r"|(?:cabecas?\s+)?move(?:l|is)|lyres?|(?:tetes?\s+)?(?:mobiles?|asservie?s?|motorisee?s?)|asservie?s?"
    r"|bewegende?|bewegliche[rs]?|kopfbewegte?[rs]?|rorligt?|rorliga)\b"
)


def _of_size(kind: str, size: str) -> bool:
    """Whether a PAR is of a size, or says none and it is that of nearly all of them."""
    sizes = re.findall(r"(?<![a-z\d])(?:par)?(\d{2})(?!\d)", kind.casefold())
    return size in sizes or (size == "64" and not sizes and "led" not in kind.casefold().split())


def _words_of(text: str) -> frozenset[str]:
    plain = _LED_BAR.sub("led batten", unaccented(text).casefold())
    words = re.findall(r"[a-z]+|\d+", plain)
    return frozenset(KIND_TRADE.get(word) or _SHORT.get(word, word) for word in words)


# A batten of LEDs in several languages, "LED-ramp", "Barra LED".
_BAR = r"(?:bars?|barras?|barres?|barrette|ramp(?:e[nr]?|es)?|rampas?|leisten?|balk(?:en)?|battens?|strips?)"
_LED_BAR = regex(rf"\bled[\s-]?{_BAR}\b|\b{_BAR}\s+(?:a\s+|de\s+|di\s+)?leds?\b")


# The lamps of a PAR by their beams, of either mains (common practice, no source).
_PAR_BEAM = r"par\W?(?:can\W?)?(?P<size>\d{2})\W+"
_PAR_BEAM += r"\(?(?P<beam>wide|medium|narrow|very narrow|mfl|wfl|v?nsp|cp60|cp61|cp62)\)?"
_PAR_BEAM += r"(?:\s+(?:flood|spot|beam))?"
_BEAMS = {
    "wide": {"wfl", "wide"},
    "medium": {"mfl", "medium", "cp62"},
    "narrow": {"nsp", "narrow", "cp61"},
    "very narrow": {"vnsp", "cp60"},
    "wfl": {"wfl", "wide"},
    "mfl": {"mfl", "medium", "cp62"},
    "cp62": {"mfl", "medium", "cp62"},
    "nsp": {"nsp", "narrow", "cp61"},
    "cp61": {"nsp", "narrow", "cp61"},
    "vnsp": {"vnsp", "cp60"},
    "cp60": {"vnsp", "cp60"},
}
_BEAM = regex(
    rf"(?<![^\W_])(?:very\s+narrow|{'|'.join(word for word in _BEAMS if ' ' not in word)})(?![^\W_])",
    re.IGNORECASE,
)
_SHORT = {
    **dict.fromkeys(("ckt", "cct", "circ", "ccts", "ckts", "circuits"), "circuit"),
    **dict.fromkeys(("cells",), "cell"),
    **dict.fromkeys(("med",), "medium"),
}
_TELLS_NOTHING = KIND_ASIDE - {"spot", "spots", "old", "new"} | {"medium", "house", "rep", "of"}


def without_beside(text: str) -> list[str]:
    """A cell of a kind without what stands beside it: first with its watts, which may tell which it is, then
    without; none where nothing stands beside it, or nothing is left."""
    if len(text) > LONGEST:
        return []
    kept = _FRAME.sub(" ", _LAMPS.sub(" ", _VOLTS.sub(" ", _BESIDE.sub(" ", text))))
    rest = _WATTS.sub(" ", kept)
    bare = _BARE_WATTS.sub(" ", rest)
    rest = bare if re.search(r"\d", bare) else rest  # "26 575", and "PC 500" as it is
    found = dict.fromkeys((_ends_off(kept), _ends_off(rest)))
    return [plain for plain in found if plain != text and re.search(r"[^\W_]", plain)]


def _ends_off(text: str) -> str:
    """A text without the marks, and words such as "with", that nothing follows any more."""
    while (plain := _LEFT.sub("", _EMPTY.sub(" ", text).strip(" \t,;/-–—@:"))) != text:
        text = plain
    return " ".join(text.split())


def hangs_on(text: str) -> bool:
    """Whether a text names what hangs on a light, and nothing more: "w/ iris", "colour frame"."""
    return _BESIDE.fullmatch(text.strip()) is not None


def joined(text: str) -> list[str]:
    """The parts of a cell that may be two kinds."""
    return [part for part in re.split(r"\s*(?:[+&/]|\band\b)\s*", text) if part]


def other_watts(text: str, name: str) -> bool:
    """Whether a cell says other watts than those which alone tell a kind from others: "Fresnel 2kW" of a
    Fresnel 1kW."""
    said, own = watts_of(text), watts_of(name)
    numbers = re.findall(r"\d+(?:[.,]\d+)?", name)
    return len(numbers) == len(own) == 1 and bool(said) and own != said


def watts_of(text: str) -> set[int]:
    """The watts that a text says, or that its bare figures may be."""
    found = set()
    for number, kilo, watts in _FIGURES.findall(text):
        figure = float(number.replace(",", "."))
        size = round(figure * (1000 if kilo else 1))
        if kilo or watts or size in USUAL_WATTS:
            found.add(size)
    return {size for size in found if size >= LEAST_WATTS}


_FIGURES = regex(
    r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s*(?:(k)(?:ilo)?w?(?:atts?)?|(w)(?:atts?)?)?(?![a-z\d])",
    re.IGNORECASE,
)
