"""What lists in other languages say of places, in English words: "3,60 m der.", "2 m lato corte", "+ = linke
Bühnenseite vom Darsteller aus", "cotes en mètres depuis l'axe".

Left and right become SL and SR only where the same words say whose they are; else they stay left and right,
which the rest of the list must tell, or somebody is asked: no language has one habit. "Bühne links" and
"toneel rechts" are therefore no stage left and right. Cour and jardin are the same sides everywhere.
"""

from __future__ import annotations

import re
from functools import lru_cache

from aimcalc.named import regex
from aimcalc.scene.hanglist.pagelines.standpoints import (
    AWAY,
    BOARDS,
    FACES,
    HOUSE,
    SEEN_MARK,
    STAGE,
    VIEW,
    as_stood,
    tells_no_view,
)
from aimcalc.scene.hanglist.tongues.tongueorder import in_order
from aimcalc.scene.hanglist.tongues.tongueshort import SHORT, in_full, in_middle
from aimcalc.scene.hanglist.tongues.tonguewords import (
    ENGLISH_TOO,
    EVENLY,
    FACING,
    FOREIGN_UNITS,
    LOOKERS,
    MEASURED,
    SEEN,
    SIDES,
    UNITS,
)

_LETTERS = r"[^\W\d_]"
_STAGE, _HOUSE, _SEEN_MARK, _BOARDS = STAGE, HOUSE, SEEN_MARK, BOARDS
_MARKED = {"stage": _STAGE, "house": _HOUSE, "seen": _SEEN_MARK, "on stage": _BOARDS}
_MARKED |= {f"{who} view": f"{_SEEN_MARK} {_MARKED[who]}" for who in ("stage", "house")}
_MARKED |= {"to house": f"{FACES} to {_HOUSE}", "to stage": f"{FACES} to {_BOARDS}"}
_LOOKING = {"facing": FACES, "view": VIEW, "away": AWAY}


def unaccented(text: str) -> str:
    """Words without their accents: "Maß", "Gélat.", "Posición"."""
    from unicodedata import combining, normalize

    plain = text.translate(_STROKES)
    return "".join(c for c in normalize("NFD", plain) if not combining(c))


_STROKES = str.maketrans({"ø": "o", "Ø": "O", "æ": "ae", "Æ": "Ae", "ł": "l", "Ł": "L"})


def _table(lines: str, marks: dict[str, str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for line in lines.strip().splitlines():
        english, _, words = line.partition(": ")
        for word in words.split(", "):
            found.setdefault(_plain(word), marks.get(english, english))
    return found


def _plain(text: str) -> str:
    """A text in lower case without accents; Swedish "höger" is right, and Dutch "hoger" is higher; Slovak
    "ľavá" is left, and Finnish "lava" the stage; Polish "oś" is the axis, and "os" may be off stage."""
    text = text.casefold().replace("höger", "derecha").replace("ľav", "lev")
    return unaccented(_AXIS.sub("osi", text) if "oś" in text else text)


_AXIS = regex(r"\boś\b")


@lru_cache(maxsize=1)
def _words() -> dict[str, str]:
    said = {**_table(SEEN + LOOKERS, _MARKED), **_table(FACING, _LOOKING)}
    return {**said, **_table(UNITS + EVENLY + MEASURED, {}), **_table(SIDES, {})}


@lru_cache(maxsize=1)
def _anchors() -> frozenset[str]:
    """The words of which one makes a text foreign."""
    units = _table(UNITS, {}).keys() - FOREIGN_UNITS
    return frozenset(word for word in _words() if " " not in word) - ENGLISH_TOO - units


@lru_cache(maxsize=1)
def _pattern() -> re.Pattern[str]:
    longest = sorted(_words(), key=len, reverse=True)
    return re.compile(rf"(?<!{_LETTERS})(?:{'|'.join(map(re.escape, longest))})(?!{_LETTERS})")


_PEOPLE = frozenset((STAGE, HOUSE))


@lru_cache(maxsize=8192)
def in_english(text: str, line: bool = False) -> str:
    """A text with the words of other languages for places in English; as it is where it has none.

    Args:
        text: a cell, a heading or a line.
        line: whether it is one round the table, which says whose left and right are that stand elsewhere.
    """
    if not any(map(str.isalpha, text)):
        return text
    text = _PLUSS.sub("plus", text) if "luss" in text else text
    plain = _plain(text)
    if (beside := by_plaster(plain)) != plain:
        text = plain = beside
    if "links" in plain or "rechts" in plain:
        plain = _IN_ONE.sub(r"\2 vom \1", plain)
    if line and any(sign in plain for sign in ("+", "-", "–", "−", "plus", "minus", "ti")):
        plain = _SIGN_IS.sub(r"\1 = ", _SIGN_WORD.sub(_as_sign, plain))  # "znak + oznacza lewą"
        if (lettered := _SIGN_LETTERS.sub(_sign_letters, plain)) != plain:
            text = plain = lettered
    plain = _TO_IS.sub(r"\1 = ", plain) if " to " in plain else plain
    words = set(_WORD.findall(plain))
    if (
        words.isdisjoint(_anchors())
        and not {"bal", "jobb"} <= words
        and not any(odd.search(plain) for odd in _ODD)
    ):
        return text
    plain = in_full(plain)
    if {"bal", "jobb"} <= words or (words & _HUNGARIAN and words & {"bal", "jobb"}):
        plain = _JOBB.sub("rechts", _BAL.sub("links", plain))  # a ball, and Swedish work
    if "left" not in words and not words.isdisjoint(("izq", "izquierda", "esq", "esquerda")):
        plain = _DER.sub("derecha", plain)
    for elided, english in _ELIDED:
        plain = elided.sub(english, plain)
    plain = _ABOVE_FLOOR.sub(_over, plain)
    plain = _SLAVIC_PAIR.sub("l/p", plain)
    people = (
        [found for found in _pattern().findall(plain) if _words()[found] in _PEOPLE] if line else ()
    )
    plain = _pattern().sub(lambda found: _words()[found[0]], plain)
    if "v." in plain:
        plain = _V_DOT.sub("from ", plain)
    if "camera" in plain and _SEEN_MARK in plain:
        plain = _BY_CAMERAS.sub(lambda found: f"{found[1]} {_HOUSE}", plain)
    plain = as_stood(_HOUSE_BRIDGE.sub(" ", plain))
    if line:
        plain = (
            _NOISE.sub(" ", plain)
            if tells_no_view(plain, len(people) > len(set(people)) == 1)
            else plain
        )
        plain = _letters_said(plain)
        if not _LEFT_RIGHT.search(plain):
            plain = _SIDES_OF.sub(rf"sides {_SEEN_MARK} from \1", plain)  # "strony aktora"
    sided = _whose_sides(plain) if line else ""
    parts = re.split(r"(?<=[.;])\s", plain)
    apart = any(_tells_whose(part) for part in parts)
    plain = " ".join(_whose_said(part, line) for part in (parts if apart else [plain]))
    return in_order(plain) + (_initials(words, plain) + sided if line else "")


_HUNGARIAN = frozenset(
    ("szinesz", "szineszek", "nezoter", "nezoterrol", "nezo", "nezok", "kozonseg")
)
_BAL, _JOBB = regex(r"\bbal(?:\s+oldal)?\b"), regex(r"\bjobb(?:\s+oldal)?\b")
_PLUSS = regex(r"\b[Pp]luss\b")  # Norwegian
_IN_ONE = regex(  # "Spielerlinks", "Publikums-rechts"
    r"\b((?:schau)?spieler|darsteller|publikum|zuschauer)s?-?(links|rechts)\b"
)


def says_middle(text: str) -> bool:
    """Whether a cell of places says the middle and no more, in a word that is a name elsewhere: "Milieu"."""
    return in_middle(_plain(text))


def by_plaster(text: str) -> str:
    """A text with what counts from the plaster line, or lies in front of it or behind it, as from it, ds or
    us of it, in English."""
    plain = _plain(text)
    return _BY_PLASTER.sub(_of_plaster, plain) if any(word in plain for word in _PLASTERS) else text


def _of_plaster(found: re.Match[str]) -> str:
    way = "us of" if found[1] else "ds of" if found[2] else "from"
    return f"{way} the plaster line"


_PLASTERS = (
    *(
        "portal",
        "portaal",
        "plaster",
        "cadre",
        "boccascena",
        "embocadura",
        "boca",
        "proscen",
        "nul",
    ),
    *("arlequin", "rideau", "sipario", "telon", "eisern", "vorhang", "toneellijst", "doek", "rida"),
    *("nollinje", "arcoscenico", "taeppe", "opon", "ligne", "linea", "linha"),
)
_BY_PLASTER = regex(  # "hinter der Portallinie", "voor de portaallijn", "du cadre de scène", "ab Portal"
    r"\b(?:(hinter|derriere|dietro|detras|achter|bakom|bag|bak|za|per\s+darrere)"
    r"|(vor|devant|en\s+avant|davanti|delante|voor|framfor|foran|pred|przed)"
    r"|ab|vom|von|depuis|du|a\s+partir|dal|dalla|dallo|desde|del|vanaf|vanuit|van|fran|fra|od)"
    r"(?:\s+(?:dem|der|das|den|de|du|la|le|les|het|il|al|alla|del|della|a|el|da|do))*\s+"
    r"(?:portal\w{0,6}|portaal\w{0,5}|plaster\w*(?:\s+line)?|cadre(?:\s+de\s+scene)?|manteau\s+d['’]arlequin|boccascena"
    r"|arco\s?scenico|embocadura|boca(?:\s+(?:de|do|del)\s+(?:escena|escenario|cena))?|telon(?:\s+de\s+boca)?|sipario|rideau(?!\s+(?:de|du)\s+fond)"
    r"(?:\s+de\s+(?:fer|scene))?|proscen\w{0,8}|null?(?:linie|lijn)|(?:eisern\w{2}\s+|haupt)vorhang|eisernen|toneellijst|(?:voor|hoofd)doek"
    r"|rida(?:n|linjen?)|n[ou]l?llinjen?|fortaeppet?|oponou|opony|(?:ligne|linea|linha)(?:\s+d[ei])?\s+(?:zero|cero|0)(?:\s+(?:del|di|du|de)\s+(?:palco|plateau|scene))?)\b(?!\s*(?:ende?|seite|links|rechts|\d))"
)


def _over(found: re.Match[str]) -> str:
    """Above the floor, and not "viste dal palcoscenico"."""
    return found[0] if _SEEN_BEFORE.search(found.string[: found.start()]) else " above floor"


def _letters_said(text: str) -> str:
    """A line that says whose left and right are, with the letters of its language for them explained."""
    if not set(text) & {_STAGE, _HOUSE, _BOARDS}:
        return text
    text = _LETTER_BEHIND.sub(r"\2 = \1", _LETTER_BEFORE.sub(r"\1 = \2", text))

    def explained(found: re.Match[str]) -> str:
        one, other = (word for word in found.groups() if word)
        right_first = one in "rdhpo" and f"{other}{one}" in PAIRED
        left, right = (other, one) if right_first else (one, other)
        if f"{left}{right}" not in PAIRED:
            return found[0]
        return "left / right" if right == "r" else f"{left} = left, {right} = right"

    return _LETTER_PAIR.sub(explained, text)


def _initials(words: set[str], english: str) -> str:
    """The first letters of left and right in the language of a line that has both words and says whose they
    are: "gauche et droite du comédien" over places with G and D."""
    seen = re.search(r"\bseen from the (stage|house)\b", english)
    found = [letters for left, right, letters in _INITIALS if {left, right} <= words]
    if not seen or len(found) != 1:
        return ""
    left, right = ("sl", "sr") if seen[1] == "stage" else ("sr", "sl")
    return f" . {found[0][0]} = {left}, {found[0][1]} = {right}"


_INITIALS = (
    ("gauche", "droite", "gd"),
    ("izquierda", "derecha", "id"),
    ("sinistra", "destra", "sd"),
    ("esquerda", "direita", "ed"),
    ("esquerra", "dreta", "ed"),
    ("vanster", "derecha", "vh"),  # as `_plain` has it
    ("venstre", "hojre", "vh"),
    ("venstre", "hoyre", "vh"),
    ("vasen", "oikea", "vo"),
    ("sx", "dx", "sd"),
    ("izq", "der", "id"),
    ("izq", "dcha", "id"),
    ("esq", "dir", "ed"),
)
# Letters of left and right: English, Polish, French, Spanish, Portuguese, Italian, Swedish, Finnish.
PAIRED = frozenset(("lr", "lp", "gd", "id", "ed", "sd", "vh", "vo"))


def _whose_sides(text: str) -> str:
    """What a line says of its sides in a part of it that names neither: "Maße in cm, vom Publikum aus", and
    "(Richtungen aus Zuschauersicht)"; "" where it says nothing, or two things."""
    if _SEEN_MARK not in text or _LEFT_RIGHT.search(text):
        return ""
    seen = [part for part in _CLAUSE.split(text) if _SEEN_FROM.search(part)]
    told = {"house" if _HOUSE in part else "stage" for part in seen}
    plain = [
        part for part in seen if not re.search(r"\w", _OF_SIDES.sub(" ", _NOISE.sub(" ", part)))
    ]
    both = any(_HOUSE in part and set(part) & {_STAGE, _BOARDS} for part in seen)
    return f" . sides seen from the {told.pop()}" if plain and len(told) == 1 and not both else ""


def garden_plain(text: str) -> str:
    """A line or heading with cour and jardin as SL and SR where it says that a sign is one, "+ vers cour", or
    names an end so, "from its JARDIN end"."""
    folded = text.casefold()
    if "cour" not in folded and "jardin" not in folded:
        return text
    text = _GARDEN_END.sub(lambda found: _GARDEN_SIDES[found[1].casefold()], text)
    return _GARDEN.sub(
        lambda found: f"{found[1]}{' =' if found[2] else ''} {_GARDEN_SIDES[found[3]]}", text
    )


_GARDEN_SIDES = {"cour": "sl", "jardin": "sr"}
_GARDEN_END = regex(r"\b(cour|jardin)(?:\s+side)?(?=\s+end\b)", re.IGNORECASE)
_GARDEN = regex(
    r"((?:[+]|(?<!\w)[-–−]|\b(?:plus|minus|moins|(?:values\s+)?(?:positi|negati|négati)\w*(?:\s+values)?)\b))"
    r"\s*(=|:|(?:is|to|towards?|vers|est)\b)?\s*"
    r"(?:(?:the|la|le|il|lato|lado|side|c[oô]t[eé])\s+){0,2}(cour|jardin)\b"
)


def _tells_whose(text: str) -> bool:
    return bool(_LEFT_RIGHT.search(text)) and (_STAGE in text) != (_HOUSE in text)


def _whose_said(text: str, line: bool) -> str:
    """A text with its left and right as the sides that it says they are."""
    sides = set(_LEFT_RIGHT.findall(text))
    if not sides and line and _SEEN_MARK in text and _tells_whose(f"left {text}"):
        rest = _NOISE.sub(" ", text)
        if re.search(r"\ball\b", rest) or not re.search(r"\w", rest):  # "all seen from the house"
            return f"{rest} . sides seen from the {'stage' if _STAGE in text else 'house'} "
    if not sides:
        return (
            re.sub("[\x01\x04]", "stage", text).replace(_HOUSE, "house").replace(_SEEN_MARK, "seen")
        )
    seen, boards = _SEEN_MARK in text, _BOARDS in text
    whose = {mark for mark in (_STAGE, _HOUSE) if mark in text}
    if boards and seen and not whose:
        whose = {_STAGE}
    if len(whose) != 1:
        return _NOISE.sub(" ", text)
    from_stage = whose == {_STAGE}
    spoken = f" seen from the {'stage' if from_stage else 'house'} "
    explained = len(sides) < 2 or _SIGNED.search(text)
    if not explained:
        first = True

        def once(_: re.Match[str]) -> str:
            nonlocal first
            said, first = (spoken if first else " "), False
            return said

        return _NOISE.sub(once, text)
    left, right = ("sl", "sr") if from_stage else ("sr", "sl")
    text = _NOISE.sub(" ", text)
    text = _LEFT_RIGHT.sub(lambda found: left if found[0] == "left" else right, text)
    apart = _SAID_AGAIN.sub(" ", text)
    text = apart if not sides or re.search(r"\bs[lr]\b", apart) else text
    return f"{text} . left and right {spoken}" if line else text


_WORD = regex(rf"{_LETTERS}+")
_SAID_AGAIN = regex(r"\(\s*(?:s[lr])?\s*[=:,]?\s*\)")  # "(right of the actor)"
_LETTER_BEHIND = regex(r"\b(left|right)\s*\(\s*([a-z]{1,2})\s*\)")
_LETTER_BEFORE = regex(r"(?<![a-z])([a-z]{1,2})\s*\(\s*(left|right)\s*\)")
_LETTER_PAIR = regex(
    r"(?<![\w='’.])([lgiesvrdhpo])\.?\s*(?:[-/,|&+]|en|et|und|y|e|i|och|og|and|or|ou)\s*([lgiesvrdhpo])(?![\w='’])"
)
_HOUSE_BRIDGE = regex(r"\b(?:puente|ponte|pont|pasarela)\s+(?:of\s+|di\s+)?\x02")
_SIDES_OF = regex(r"\bsides\s+(?:(?:of|the)\s+)*([\x01\x02])")
_SIGN_WORD = regex(
    r"\b(?:znak|znamenko|segno|signo|signe|sinal|teken|tecken|tegn|merkki|zeichen|vorzeichen)\s+(?:[\"'„“]\s*)?([+−–-])(?=\W*\s)"
    r"|\b(plus|minus|plusz|minusz)(?:zeichen|teken|tecken|tecknet|tegn|merkki|tal|tall|waarden?|werte?)\b"
)
_SIGN_IS = regex(
    r"((?:^|(?<=[\s(,;:]))(?:[+]|[−–-])|\b(?:plus|minus)|\b(?:positi|negati)\w{1,4})\s+(?:[\"'”“]\s*)?(?:oznacza(?:ja)?|to|znamena(?:ji)?|betekent|betekenen"
    r"|bedeutet|bedeuten|heisst|betyder|signifie|significa|veut\s+dire|indica|indique|indicates|tarkoittaa|ar|er|es|est|e|je|jest"
    r"|on|ist|jelenti)\s+(?:(?:a|la|il|el|la|na|w|i|at|til|till|mot|zu|nach|de|der|die|das|den)\s+){0,2}(?=[^\W\d_])"
)


_TO_IS = regex(r"\b([lp])\s+to\s+(?=(?:lew|praw)[aeoy])")  # "L to lewa", where "to" is is
_SIGN_LETTERS = regex(  # "+ = L, - = P"
    r"(?<!\w)([+−–-]|plus|minus)\s*(?:=\s*)?([a-z])\b(\s*[,;/|]?\s*)(?<!\w)([+−–-]|plus|minus)\s*(?:=\s*)?([a-z])(?!\w)"
)


def _sign_letters(found: re.Match[str]) -> str:
    """The letters of left and right of one language behind a plus and a minus, in full."""
    one, other = found[2], found[5]
    left_first = f"{one}{other}" in PAIRED
    if not left_first and f"{other}{one}" not in PAIRED:
        return found[0]
    sides = ("left", "right") if left_first else ("right", "left")
    return f"{found[1]} = {sides[0]}, {found[4]} = {sides[1]}"


def _as_sign(found: re.Match[str]) -> str:
    """A sign without the word that it is one, "znak +", and a word for one in ours, "Pluszeichen"."""
    return found[1] or {"p": "plus", "m": "minus"}[found[2][0]]


_SLAVIC_PAIR = regex(r"\bl\s+[ai]\s+p\b")  # "L a P při pohledu na jeviště", where "a" is no at
_LEFT_RIGHT = regex(r"\b(?:left|right)\b")
# Of which no word alone is foreign.
_TOGETHER = regex(
    r"\d\s*(?:m|cm|mm)?\.?\s*(?:jardi|jardin|corte)\b|\b(?:ab|vom)\s+(?:dem\s+)?portal\b|\bmasse\s+(?:ab|von|vom|in|sind)\b|['’]axe\b|\bdu\s+sol\b|\b(?:von|ab)\s+(?:oben|unten)\b|\bvan(?:af)?\s+(?:boven|onder)\b"
    r"|\bdu\s+cadre\b|\b(?:do|del|de\s+l['’])\s*actor\b"
    r"|\b(?:du|depuis\s+le)\s+(?:haut|bas)\b|\bde\s+(?:cima|baixo)\b|\bdal(?:l['’]|\s)(?:alto|basso)\b"
)
_ODD = (_TOGETHER, *SHORT)
_DER = regex(r"\b(?:der|dir)\b")
_ELIDED = (
    (regex(r"\bd(?:ell)?['’]"), " of "),
    (regex(r"\bdall['’]"), " from "),
    (regex(r"\b(?:all|nell|sull)['’]"), " to "),
    (regex(r"\bl(?:['’]|\s+(?=axe\b|eix|eje\b|asse\b|altre\b|ext|est))"), " "),
)
_ABOVE_FLOOR = regex(
    r"\s+(?:uber|ueber|ub\.|u\.|ab|vom|boven|vanaf|depuis|au[ -]dessus|sobre|desde|sopra|da|dal|do|over|od"
    r"|nad|from)\s+"
    r"(?:(?:dem|den|de|du|le|la|el|il|del|der|l|o|van)\s+)*(?:buhnenboden|boden|fussboden|buhne|sol|plateau|suelo|piso|terra"
    r"|pavimento|palco|palcoscenico|chao|vloer|toneelvloer|toneel|golv|golvet|gulv|gulvet|podlogi|podlahy)\b"
)
_V_DOT = regex("\\bv\\.\\s*(?:d\\.?\\s*)?(?=[\x01-\x04])")  # "v. Publikum aus"
_BY_CAMERAS = regex("((?:\x03|\\bfrom\\b)(?:\\s+(?:from|of|to|the))*)\\s+camera\\b")
_SEEN_BEFORE = regex(
    r"\b(?:vist[aeio]s?|vues?|vus|gezien|gesehen|sett|set|vidno|videno|widok|sicht)\s*$"
)
# A part of a line that says from where something is seen, and what may be seen there: sides, and no photo.
_CLAUSE = regex(r"[.,;:()\[\]|–]|\s-\s")
_SEEN_FROM = regex(
    "\x03(?:\\s+(?:from|of|to|in|the|l))*\\s*[\x01\x02]|\x03\\s*from(?:\\s+(?:the|of))*\\s*\x04"
    "|from\\s+(?:the\\s+)*[\x01\x02\x04]\\s*\x03"
)
_OF_SIDES = regex(
    r"\b(?:sides?|all|the|of|as|is|are|from|measurement|distance|values|richtung\w*|richting\w*|direcci\w*|direzion\w*"
    r"|direction\w*|direcoe\w*|riktning\w*|retning\w*|kierunk\w*|smer\w*|seiten\w*|angaben?|opgaven?|indicaci\w*|indicazion\w*"
    r"|ansicht|sichtweise|comme|come|como|som|jak|je|gli|i|e)\b"
)
_NOISE = regex(r"(?:\b(?:from|of|to|the|at|in|o)\s+)*[\x01-\x04](?:\s*[\x01-\x04])*")
_SIGNED = regex(
    r"[+]|\b(?:plus|minus|min|positive|negative)\b|(?<!\w)[-−–]\s*=|\b[a-z]{1,2}\s*=\s*(?:left|right)|(?:left|right)\s*=\s*[-+−–]"
)
