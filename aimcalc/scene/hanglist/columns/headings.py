"""What the headings of a hang list mean: the trade's ordinary words for each key of a unit.

Beside the keys there are columns that help one: `side` (SL or SR of a place), `height` (the place on a boom),
`lens` (the degrees of a kind), and `note`, to which whatever has no key goes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.foreignwords import FOREIGN
from aimcalc.scene.hanglist.columns.headingparts import composed
from aimcalc.scene.hanglist.columns.tradewords import (
    CENTRES,
    FROM,
    FROM_BELOW,
    GROUNDS,
    HIGH,
    LENGTHS,
    LITTLE,
    MEASURES,
    OF_HEIGHTS,
    TRADE,
    UNSURE,
    WORDS,
)
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain, stood
from aimcalc.scene.hanglist.tongues.tongues import garden_plain, in_english, unaccented
from aimcalc.scene.tables import unit_readers

KEYS = tuple(unit_readers("m"))
SIDE, HEIGHT, LENS, REMARK = "side", "height", "lens", "remark"
APART = "apart"  # no column of the table: a key of colours beside it
# Two in one column: "12/101".
COUPLED = ("channel+circuit", "circuit+channel", "channel+colour", "colour+channel")
MARK = "mark"  # in the place of a length unit: figures count the marks of a pipe
AGAIN = "at_again"  # the place a second time, from elsewhere or in another unit
ELSE = "at_else"  # the place of the rows in which the column of places is empty
GAP = "gap"  # how far a unit hangs from the one before it
UPSTAGE = "upstage"  # how far upstage of the plaster line, beside places across the stage
COUNT = "count"  # how many units a row stands for
# A place that stands in two columns: one a side, or feet beside inches, metres beside centimetres.
AT_PARTS = ("at_SL", "at_SR", "at_feet", "at_inches", "at_metres", "at_centimetres")


def _phrases() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for line in (
        FOREIGN.strip() + TRADE
    ).splitlines():  # the trade's own words before those of others
        keys, _, phrases = line.partition(": ")
        found |= dict.fromkeys(phrases.split(", "), tuple(keys.split()))
    for phrase, meant in list(found.items()):  # "what it lights", as its words are compared
        words = phrase.split()
        if not WORDS.keys().isdisjoint(words):
            found.setdefault(" ".join([WORDS.get(word, word) for word in words]), meant)
    return found


_PHRASES = _phrases()
_BY_WORDS = {frozenset(phrase.split()): keys for phrase, keys in _PHRASES.items() if " " in phrase}
_PHRASES["patch channel"] = ("channel",)  # in this order: "Ch/Patch" is both
# Where two columns may be one key, a word of a lower rank gives way: a dimmer beside a circuit.
_WEAKER = {
    "dimmer": 1,
    "dimmer no": 1,
    "control": 1,
    "purpose": 2,
    "used for": 2,
    "use": 2,
    "mark": 1,
    "place": 1,
    "no": 1,  # "#" may count the rows
    **dict.fromkeys(("lp", "l p"), 1),  # it counts the rows
    "was": 2,  # German for what; in English it was so before
    **dict.fromkeys(("unit id", "lamp id", "light id", "instrument id", "item"), 1),
}

_PLAIN_KEYS = {key.replace("_", ""): key for key in KEYS}
WORD_NEAR = 0.7  # and how like each of its words must be
TOGETHER_NEAR = 0.95  # or all of them without their spaces: "posi tion"
NEAR = 0.8  # how like a known heading a misspelled one must be (difflib's ratio)
LONGEST = 60  # characters; a longer cell is no heading
LONGEST_PLACE = 90  # unless it says in other words where places count from


class Meaning(NamedTuple):
    """What one heading may mean."""

    keys: tuple[str, ...] = ()  # likeliest first; none where it is no key
    exact: bool = False  # spelled as the key is
    rank: int = 0  # 0 before 1 where two columns claim a key
    unit: str = ""  # the length unit that the heading names: "(cm)"
    near: bool = False  # read in spite of a slip of the finger
    end: str = ""  # SL, SR, US or DS: places count from that end of the position
    plus: str = ""  # the side that the heading gives to figures without a minus
    bare: str = ""  # stage or house: whose left and right a bare L or R is
    sides: bool = False  # it names both sides, so that its cells say which
    fitting: bool = False  # it is a key only where the cells below are fit for one
    plaster: bool = False  # places count from the plaster line


_known: dict[str, Meaning] = {}


def meaning(heading: object) -> Meaning:
    """What a heading means, in spite of case, spaces, marks, plurals and spelling of either shore."""
    text = "" if heading is None else str(heading)
    if text not in _known:
        if len(_known) > 10_000:
            _known.clear()
        _known[text] = _in_any_tongue(text)
    return _known[text]


def _in_any_tongue(text: str) -> Meaning:
    """What a heading means as it is, or else in English; one with a sign in English first."""
    if len(text) > LONGEST:
        return _long_place(text)
    plain = garden_plain(text.casefold()) if "jardin" in text or "cour" in text else text
    signed = not _SIGNS.isdisjoint(text)
    found = Meaning() if signed else _meaning(plain)
    english = text if found.keys else garden_plain(in_english(text))
    if english != text:
        return _meaning(english)
    if not signed and found.keys and found.keys[0] in _OF_PLACES and not (found.bare or found.plus):
        return _with_whose(found, text)
    return _meaning(plain) if signed else found


_OF_PLACES = ("at", SIDE, "position")
_BESIDE = regex(r"\bcôtés?\b(?=\s*\()", re.IGNORECASE)


def _with_whose(found: Meaning, text: str) -> Meaning:
    """A heading's meaning with whose sides they are, as another language says beside it: "Lato (attore)";
    that of a place, of "Plaats (cm uit het midden)"."""
    english = garden_plain(in_english(_BESIDE.sub("side", text)))  # and no measurement
    if english == text:
        return found
    said = _meaning(english)
    if found.keys[0] == "position":
        return said if said.keys[:1] == ("at",) and said.unit else found
    if said.bare and said.keys[:1] == found.keys[:1]:
        return said
    return found._replace(bare=said.bare) if said.bare else found


def _long_place(text: str) -> Meaning:
    """What a long heading means that is one of places, in other words: "cm desde el centro (+ izquierda del
    actor, - derecha del actor)"."""
    if len(text) > LONGEST_PLACE:
        return Meaning()
    english = garden_plain(in_english(text))
    found = _meaning(english, LONGEST_PLACE)
    return found if "at" in found.keys and (found.plus or found.end or found.bare) else Meaning()


def _meaning(text: str, longest: int = LONGEST) -> Meaning:
    if len(text) > longest or not text.strip() or text.isdigit():
        return Meaning()
    if "__" in text or not _UNREAD.isdisjoint(text):
        text = re.sub(r"[*_`~]{2,}|[\u200b\ufeff\u00ad]|(?<=[A-Za-z])['’](?=[a-z])", "", text)
    key = _PLAIN_KEYS.get(re.sub(r"[\s_-]", "", text.strip().strip('"*:.').lower()))
    if key is not None:
        return Meaning((key,), exact=True)
    if text.strip()[1:2] == " " and re.fullmatch(r"(?:\w ){3,}\w", text.strip()):
        return _meaning(text.replace(" ", ""))  # "U N I T"
    on_line = _OF_PLASTER.sub(" ", text) if "p" in text.casefold() else text
    if on_line != text:
        return _of_plaster(on_line)
    text = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text).replace("_", " ")
    if not text.isascii():
        text = re.sub(r"(?i)\bcôté\b", "side", re.sub(r"\b[nN][°º]", "No", text))
        text = unaccented(text)  # the French "cote" is a measure
    text = stood(text.casefold().replace("#s", "#"))
    if "(" in text:
        text = re.sub(r"\(\s*([+−–-])\s*\)", r"\1, ", text)  # "SL (+)"
    if "right" in text:
        text = re.sub(r"\bright(\s*(?:/|or|and|&)\s*)left\b", r"left\1right", text)
    told = _signed_sides(text)
    if told is None:
        return Meaning()  # plus is left, and nobody says whose
    told, seen_by = _whose_out(told)
    text, bare = _both_sides(told)
    bare = bare or seen_by
    text, plus = signs_out(sides_plain(text))
    if plus is None:
        return Meaning()  # it says two things
    text, end = _taken_out(ENDS, text)
    words, unit = _words(text)
    phrase = " ".join(words)
    if re.search(r"\bfrom (?:sl|sr|us|ds)\b", text):
        return Meaning()  # from its end, or from the centre line towards it
    if (end or plus) and text.strip(" .()[],") in LENGTHS:
        words, unit = [], LENGTHS[text.strip(" .()[],")]
    if end or plus:
        keys = (
            _keys_of(words)
            or _keys_of(words, unit)
            or (("at",) if _is_end(words, end or unit) else ())
        )
        if keys and (keys[0] in AT_PARTS[2:] or phrase in ("position", "location")):
            keys = ("at",)  # feet alone; the name of a pipe has no side
        return (
            Meaning(keys, unit=unit, end=end, plus=plus, bare=bare) if "at" in keys else Meaning()
        )
    if text.strip(" .()[]") in LENGTHS:  # alone over a column, said of a place
        part = {"ft": "at_feet", "in": "at_inches"}.get(LENGTHS[text.strip(" .()[]")])
        return Meaning((part,) if part else ())
    keys = _keys_of(words, unit) or ((HEIGHT,) if unit and words in _UPWARDS else ())
    if unit and phrase == "dimmer" and "dimmer" not in text:
        keys = ("at",)  # "Dim (in)" is a dimension
    if phrase == "dimmer channel" and _JOINS.isdisjoint(text):
        keys = ("circuit",)  # "Dim ch"; "Dim/Ch" is both
    if not keys:
        keys = _parts_of(text)
        keys = () if keys and keys[0] in AT_PARTS else keys  # "SL or SR" is neither
    if unit and (phrase == "location" or "position" in keys or keys == (SIDE,)):
        keys = ("at",)  # the name of a pipe has no unit, nor has a side alone
    if (
        keys
        and unit
        and not set(keys) & {"at", HEIGHT, GAP, UPSTAGE, "arm", "connector", *AT_PARTS}
    ):
        unit = ""
    if not keys and (short := re.sub(r"\([^()]*\)|\[[^\[\]]*\]", " ", text)) != text:
        keys = _bracket_aside(short, text)
    if not keys and _is_beside_target(text):
        return Meaning(("target",), rank=3, fitting=True)
    if not keys and phrase in UNSURE:
        if unit and "at" in UNSURE[phrase]:
            return Meaning(("at",), unit=unit)
        return Meaning(UNSURE[phrase], rank=3, fitting=True)
    if not keys and (put := _put_together(words, text)).keys:
        return put
    if keys in ((SIDE,), ()) and not bare:
        whose = re.search(
            r"\(\s*(?:(?:side|of|from|the)\s+)*(stage|house|audience|public)\s*\)|^\W*(stage|house|audience)\b",
            text,
        )
        bare = ("stage" if "stage" in whose.groups() else "house") if whose else ""
        seen = (
            set(re.findall(r"\b(stage|house|audience)\b", text)) if {"l", "r"} <= set(words) else ()
        )
        if not bare and len(seen) == 1:  # "left or right of centre (audience view)"
            bare = "stage" if "stage" in seen else "house"
    sides = {"l", "r"} <= set(words) or {"sl", "sr"} <= set(words)
    return Meaning(keys, rank=_WEAKER.get(phrase, 0), unit=unit, bare=bare, sides=sides)


def _put_together(words: Sequence[str], text: str) -> Meaning:
    """What a heading of one thing means that is put together of known words: "Lysdæmper", "LX colour"."""
    found = composed(words)
    one = _JOINS.isdisjoint(text) or found.key == "colour"  # "Lee / Rosco"
    keys = (found.key,) if found.key and one else ()
    return Meaning(keys, rank=found.rank, fitting=found.fitting)


def _of_plaster(text: str) -> Meaning:
    """What a heading means of which the plaster line is taken out, "D/S of PL": a place, that figures without
    a side lie downstage of it."""
    ways = {(found[1] or found[2])[0].lower() for found in _UP_OR_DOWN.finditer(text)}
    rest = _UP_OR_DOWN.sub(" ", text).strip(" .,()")
    alone = LENGTHS.get(rest.casefold(), "")  # "ft U/S of PL"
    found = Meaning(unit=alone) if alone or not rest else _meaning(rest)
    plus = "DS" if ways == {"d"} else ""
    if not set(found.keys) <= {"at"}:
        return Meaning()
    return Meaning(("at",), unit=found.unit, plus=plus, plaster=True)


_OF_PLASTER = regex(
    r"\b(?:of|from|off|to|fr\.?|past|behind|beyond)\s+(?:the\s+)?(?:plaster(?:\W?line)?\b|p\.l\.|p/?l\b)",
    re.IGNORECASE,
)
_UP_OR_DOWN = regex(r"\b(?:(u|d)[./]?s\.?|(up|down)\W?stage)(?![a-z])", re.IGNORECASE)


def _signed_sides(text: str) -> str | None:
    """A heading with a bare left or right beside a sign as SL or SR, by whose it is, "+ left of house"; None
    where nobody says."""
    if _SIGNS.isdisjoint(text):
        return text
    text = re.sub(r"\b(l(?:eft)?)\s*[-–]\s*(r(?:ight)?)\b", r"\1/\2", text)
    text = _THEIR_SIDE.sub(" stage ", text)
    if not re.search(_SIGN_BESIDE, text):
        return text
    house, stage = (re.search(rf"\b{word}", text) for word in ("(?:house|audience)", "stage"))
    if bool(house) == bool(stage):
        return None
    left, right = ("sr", "sl") if house else ("sl", "sr")

    def side(found: re.Match[str]) -> str:
        word = next(group for group in found.groups() if group)
        return found[0].replace(word, left if word.startswith("l") else right)

    plain = re.sub(_SIGN_BESIDE, side, text)
    return _WHOSE_BESIDE.sub(" ", plain)


_WHOSE_BESIDE = regex(
    r"(?:(?:as\s+)?(?:seen\s+)?(?:of|from|by)\s+|\()?(?:the\s+)?\b(?:house|audience|stage)\b(?:['’]?s?['’]?)(?![a-z])"
    r"(?:\s+(?:view|sides?|own|seen|point\s+of\s+view))?\)?"
)


# Who stands on the stage and looks to the seats, and whose left and right are the stage's: "actor's".
_THEIR_SIDE = regex(
    r"\b(?:as\s+)?(?:the\s+|an?\s+)?(?:actor|performer|player|singer|dancer|artist)(?:['’]?s?['’]?)(?![a-z])"
    r"(?:\s+(?:view|side|point\s+of\s+view|own))?"
)
# Without these a text has nothing of what the patterns that they stand before look for.
_UNREAD = frozenset("*`~\u200b\ufeff\u00ad'’")
_SIGNS = frozenset("+−–-")
_JOINS = frozenset("/&+,;|")  # between two things of one heading
_SIGN_WORDS = ("plus", "pos", "minus", "neg")
_SIGN_BESIDE = (
    r"(?<![a-z][−–-])(?<=[+−–-])\s*(?:=|is|for)?\s*\b(left|right|l|r)\b"
    r"|(?<![a-z./])\b(left|right|l|r)\b(?=\s*[=:]?\s*(?:[+−–]|-\s*(?:[)\],;/]|$)))"
)


def _bracket_aside(short: str, text: str) -> tuple[str, ...]:
    """What a heading means beside its bracket, "Position (pipe)", where this does not say another time, or
    from where a place counts."""
    keys = _keys_of(_words(short)[0])
    other = re.search(
        r"\b(?:old|prev\w*|alt\w*|spare|second|2nd|was|before|new|act|optional|from|end)\b", text
    )
    return () if other or set(keys) & {"at", HEIGHT, *AT_PARTS} else keys


def _is_end(words: list[str], end: str) -> bool:
    """Whether what is left beside an end of the pipe says nothing else."""
    return bool(end) and set(words) <= MEASURES | FROM | LITTLE | _TAPED


# How a tape is laid along a pipe: "Pull from SR end", "0 at SL end".
_TAPED = frozenset(
    ("0", "zero", "datum", "start", "starts", "origin", "hook", "hooked", "tape", "taped", "tapes")
) | frozenset(("pull", "pulled", "walk", "walked", "run", "reads", "reading", "read", "ruler"))


def _keys_of(words: list[str], unit: str = "") -> tuple[str, ...]:
    """What words mean, in whatever order, with their little ones or without."""
    keys = _PHRASES.get(" ".join(words), ())
    if not keys and len(words) > 1:
        plain = [word for word in words if word not in ("the", "of", "or", "to", "from")]
        keys = _PHRASES.get(" ".join(plain), ()) or _BY_WORDS.get(frozenset(words), ())
    if not keys and len(words) > 1 and words[0] in ("what", "which"):
        keys = _keys_of(words[1:], unit)
        asked = next((k for k, word in enumerate(words) if word not in _ASKING), len(words))
        if not keys and asked > 1 and len(words) - asked > 1:
            keys = _PHRASES.get(" ".join(words[asked:]), ())
    if not keys and len(words) > 1 and words[0] in _BEFORE:
        keys = tuple(key for key in _keys_of(words[1:]) if key not in ("at", *AT_PARTS))
    return keys or (("at",) if _is_measure(words, unit) else ()) or _height_of(words)


def _height_of(words: list[str]) -> tuple[str, ...]:
    """The height, where words say one in whatever way: "Height off floor", "Clamp height", "Ht. above the
    deck to clamp", "From deck to yoke"."""
    said = set(words)
    over = bool(said & FROM_BELOW and said & GROUNDS)
    high = bool(said & HIGH) or over
    if said & MEASURES and not over:
        return ()  # "Height / Dist" is both
    if {"stage", "level"} & said and not said & (HIGH | {"above", "over"}):
        return ()  # up or off stage
    return (HEIGHT,) if high and said <= HIGH | FROM_BELOW | GROUNDS | MEASURES | OF_HEIGHTS else ()


_UPWARDS = (["up"], ["aff"], ["afd"])  # beside a unit: "cm up", "AFF (ft)"
_BEFORE = frozenset(("on", "in", "by", "our", "my", "this"))


_ASKING = frozenset(("what", "which", "is", "it", "does", "do", "will", "are", "they", "this"))


def _is_measure(words: list[str], unit: str) -> bool:
    """Whether words say a distance along the position, in whatever way: "Metres from C", "Dist. to centre
    line of stage", "Dim from CL SL/SR"."""
    both = {"sl", "sr"} <= set(words) or {"l", "r"} <= set(words)
    left = {word for word in words if not (both and word in ("sl", "sr", "l", "r"))}
    if left & FROM and "c" in left:
        left = (left - {"c"}) | {"centre"}
    from_centre = bool(left & FROM and left & CENTRES)
    if from_centre:
        left -= {
            "position",
            "location",
            *_PLACES,
            "dimmer",
            "lamp",
            "unit",
            "light",
            "lantern",
            "fixture",
            "d",
        }
    measured = bool(left & MEASURES - {"x", "at", "along", "place"}) or from_centre
    return measured and left <= MEASURES | CENTRES | FROM | LITTLE


_PLACES = (  # which is the name of a pipe where nothing is measured
    "plaats",
    "plek",
    "plads",
    "plats",
    "posizione",
    "posicion",
    "posicao",
    "posisjon",
    "emplacement",
    "hangepunkt",
    "haengepunkt",
    "lugar",
    "ubicacion",
    "pozice",
    "pozycja",
    "paikka",
    "placering",
    "plassering",
    "platz",
)


def _parts_of(text: str) -> tuple[str, ...]:
    """What a heading of two things means: what both may be, "Purpose / Focus"; one of them where the other is
    no key of its own, "Colour & Template", or is one with it, "Type / Lens"; none where each is a key."""
    parts = re.split(r"\s*(?:&|\+|,|;|/|\band\b|\bor\b|\bw/)\s*", text.replace("c/l", "cl"))
    if len(parts) < 2 or not all(parts):
        return ()
    first, *others = (_keys_of(_words(part)[0]) for part in parts)
    known = [keys for keys in (first, *others) if keys and keys != ("note",)]
    if not known or not first:
        return ()
    shared = tuple(key for key in known[0] if all(key in keys for keys in known))
    if shared:
        return shared
    every = {key for keys in known for key in keys}
    if every == {"circuit", "colour"}:
        return ("colour", "circuit")  # as its cells tell
    if every in ({"channel", "circuit"}, {"channel", "colour"}) and len(parts) == len(known) == 2:
        return ("+".join(keys[0] for keys in known),)
    for pair, key in _AS_ONE.items():
        if every == pair:
            return (key,)
    return ()


def _is_beside_target(text: str) -> bool:
    """Whether one part of a heading is that of targets and the rest no key: "Scene / focus"."""
    parts = [_keys_of(_words(part)[0]) for part in re.split(r"\s*[/&+,]\s*", text) if part]
    return len(parts) > 1 and [keys for keys in parts if keys] == [("target",)]


_AS_ONE = {
    frozenset(("at", UPSTAGE)): "at",
    frozenset(("at", UPSTAGE, HEIGHT)): "at",
    frozenset(("at", HEIGHT)): "at",
    frozenset(("at", SIDE)): "at",
    frozenset(("kind", LENS)): "kind",
    frozenset(("kind", "colour")): "kind",
    frozenset(("position", "number")): "number",
    frozenset(("number", "kind", "position")): "number",
    frozenset(("target", "system")): "target",
}


def misspelled(heading: object) -> Meaning:
    """What a heading means that is one slip of the finger off a known one."""
    words, _ = _words(str(heading))
    phrase = " ".join(words)
    if not 4 < len(phrase) <= LONGEST or re.search(r"\d", phrase):
        return Meaning()
    from difflib import get_close_matches

    choices = {phrase: keys for phrase, keys in _PHRASES.items() if len(phrase) > 4}
    choices |= {key.replace("_", " "): (key,) for key in KEYS}
    near = [
        one for one in get_close_matches(phrase, choices, n=3, cutoff=NEAR) if _alike(phrase, one)
    ]
    meant = {choices[one] for one in near}
    return Meaning(meant.pop(), near=True) if len(meant) == 1 else Meaning()


def _alike(phrase: str, known: str) -> bool:
    """Whether two phrases differ by slips within their words: "from end" is no slip of "from centre"."""
    from difflib import SequenceMatcher

    mine, theirs = phrase.split(), known.split()
    together = SequenceMatcher(None, "".join(mine), "".join(theirs)).ratio()
    return (len(mine) != len(theirs) and together >= TOGETHER_NEAR) or (
        len(mine) == len(theirs)
        and all(
            SequenceMatcher(None, a, b).ratio() >= WORD_NEAR
            for a, b in zip(mine, theirs, strict=True)
        )
    )


_SIDE = r"(sl|sr|us|ds)\b"
_PLUS = regex(
    rf"(?:\+|\bplus\b|\bpos(?:itive)?\b\.?)(?:\s+(?:numbers?|figures?|values?|places?|distances?|dimensions?))?\s*(?:=|is|to|towards?|for|:|are)?\s*(?:the\s+)?{_SIDE}"
    rf"|\b{_SIDE}\s*(?:=|is|:|are)?\s*(?:\+(?!\s*{_SIDE})|\bplus\b|\bpos(?:itive)?\b)"
)
_MINUS = regex(
    rf"(?:[-–−]\s*(?:=|is|:|for)|\bminus\b|\bneg(?:ative)?\b\.?|(?<=[(\[,/;])\s*[-–−])"
    rf"(?:\s+(?:numbers?|figures?|values?|places?|distances?|dimensions?))?\s*(?:=|is|to|towards?|for|:|are)?\s*(?:the\s+)?{_SIDE}"
    rf"|\b{_SIDE}\s*(?:=|is|:|are)?\s*(?:\bminus\b|\bneg(?:ative)?\b)|\b{_SIDE}\s*(?:=|is|:)\s*[-–−]"
    rf"|\b{_SIDE}\s*[-–−](?=\s*(?:[)\],;/]|$))"
)
_OTHER = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}
_BOTH = regex(
    r"\b(stage|house|s|h)?[\s./-]*(?:l(?:eft)?)\b\.?\s*(?:/|or|and|&|,|-|\+)?\s*"
    r"(?:(?:stage|house|s|h)[\s./-]*)?\b(?:r(?:ight)?)\b\.?(?:\s+of\s+(?:the\s+)?(stage|house)\b)?"
)


def _whose_out(text: str) -> tuple[str, str]:
    """A heading without what says from where its sides are seen, and who sees them, stage or house; "" where
    nobody says: "Distance (m, seen from the audience)"."""
    if "seen" not in text and "view" not in text:
        return text, ""
    found = {group for each in _SEEN_BY.finditer(text) for group in each.groups() if group}
    whose = {"stage" if who.startswith(_PLAYERS) else "house" for who in found}
    if len(whose) != 1:
        return text, ""
    plain = re.sub(r"[(\[]\W*[)\]]", " ", _SEEN_BY.sub(" ", text))
    return plain.strip(" ,;:–-"), whose.pop()


_PLAYERS = ("stage", "actor", "performer")
_WHO = r"(stage|actors?|performers?|house|audience|auditorium|seats|cameras?|congregation)\b"
_SEEN_BY = regex(
    rf"[,;:/–-]?\s*(?:\bas\s+)?(?:\b(?:seen|viewed)\s+)+(?:(?:from|by|of|in|the|to)\s+)*{_WHO}(?:['’]s?)?(?:\s+side\b)?"
    rf"|[,;:/–-]?\s*(?:\b(?:from|in|the|of)\s+)*\b{_WHO}(?:['’]s?)?\s+(?:seen|view|point\s+of\s+view)\b"
)


def _both_sides(text: str) -> tuple[str, str]:
    """A heading with both sides as `l r`, and whose they are: stage or house, "" where nobody says."""
    if not set("lr") <= set(text):
        return text, ""
    found = _BOTH.search(text)
    if found is None:
        both = re.search(r"\bs\.?l\b.*\bs\.?r\b|\bs\.?r\b.*\bs\.?l\b", text)
        return text, "stage" if both else ""
    whose = (found[1] or found[2] or "")[:1]
    if not whose and re.search(r"\bhouse\b|\bstage\b", text[: found.start()] + text[found.end() :]):
        whose = re.search(r"\b(h|s)(?:ouse|tage)\b", text)[1]  # type: ignore[index]
        text = re.sub(r"\b(?:house|stage)\b", " ", text)
        found = _BOTH.search(text) or found
    return text.replace(found[0], " l r "), {"s": "stage", "h": "house"}.get(whose, "")


def signs_out(text: str) -> tuple[str, str | None]:
    """Words without what they say of a sign, and the side of figures without a minus; None where they
    contradict themselves."""
    if _SIGNS.isdisjoint(text) and not any(word in text for word in _SIGN_WORDS):
        return text, ""
    text = re.sub(r"([+−–-])\s*ve\b\.?", r"\1", text)
    if not any(side in text for side in ("sl", "sr", "us", "ds")):
        return text, ""
    said = {side for found in _PLUS.finditer(text) for side in found.groups() if side}
    minus = {side for found in _MINUS.finditer(text) for side in found.groups() if side}
    plus = {side.upper() for side in said} | {_OTHER[side.upper()] for side in minus}
    if not plus:
        return text, ""
    if len(plus) > 1:
        return text, None

    text = _MINUS.sub(" ", _PLUS.sub(" ", text))
    return re.sub(rf"[/,;]?\s*[-–−]\s*=?\s*{_SIDE}", " ", text), plus.pop()


def _taken_out(pattern: re.Pattern[str], text: str) -> tuple[str, str]:
    """A heading without what a pattern finds, and the side that this names, "" where there is none."""
    found = pattern.search(text)
    if found is None:
        return text, ""
    side = end_of(found)
    whole = re.search(r"[\(\[][^\)\]]*" + re.escape(found[0]) + r"[^\)\]]*[\)\]]", text)
    return text.replace(whole[0] if whole else found[0], " "), side


def _words(text: str) -> tuple[list[str], str]:
    """A heading's words in their plain form, and the length unit that it names."""
    plain = re.sub(r"(?<=[a-z])(?=[A-Z])|_", " ", text)
    plain = plain.casefold().replace("c/l", "cl").replace("c.l.", "cl").replace("℄", "cl")
    plain = re.sub(r"\bfrom c l\b", "from cl", plain.replace("#", " no "))
    plain, both = _FEET_INCHES.subn(" ", plain) if set("f'′’") & set(plain) else (plain, 0)
    unit = "ft" if both else ""
    words = [
        WORDS.get(word, word)
        for word in re.findall(r"[^\W_]+|[°№]|(?<=[(\s])['\"](?=[)\s])", plain)
    ]
    bracketed = re.search(_BRACKETED, plain) if set("([") & set(plain) else None
    if not unit and bracketed and bracketed[1].strip(".") in LENGTHS:
        unit = LENGTHS[bracketed[1].strip(".")]
        rest = plain.replace(bracketed[0], " ")
        words = [WORDS.get(word, word) for word in re.findall(r"[^\W_]+|[°№]", rest)]
    elif not unit and (first := _FIRST_IN_BRACKET.search(plain)) and first[1] in LENGTHS:
        rest = plain.replace(first[0], "(")
        words = [WORDS.get(word, word) for word in re.findall(r"[^\W_]+|[°№]", rest)]
        unit = LENGTHS[first[1]]
    elif not unit and len(words) > 1:
        words, unit = _unit_out(words)
    elif not unit and words and words[0] in LENGTHS and plain.strip(" .()[]") not in LENGTHS:
        words, unit = [], LENGTHS[words[0]]
    return [word for word in words if word != "the"], unit


def meaning_words(heading: str) -> list[str]:
    """The words of a heading in their plain form, without its length unit."""
    return _words(heading)[0]


_BRACKETED = r"[\(\[]\s*(?:in\s+|all in\s+)?([^\)\]]*?)\s*\.?[\)\]]"
_FIRST_IN_BRACKET = regex(r"[(\[]\s*([a-z]+)\.?\s*[,;]")  # "Distance (cm, L/R of centre)"
_FEET_INCHES = regex(
    r"[\(\[]?\s*(?:\bin\s+)?(?:\b(?:ft|feet|foot)\b\.?\s*['′’]?\s*(?:-|–|/|&|\+|,|and)?\s*\b(?:ins?|inch(?:es)?)\b\.?"
    r"|['′’]\s*(?:-|/|&|and)?\s*[\"″”])\s*[\)\]]?"
)


def _unit_out(words: list[str]) -> tuple[list[str], str]:
    """Words without their length unit: at either end of them, or after "in"."""
    for k, word in enumerate(words[:-1]):
        if word == "in" and words[k + 1] in LENGTHS:
            return words[:k] + words[k + 2 :], LENGTHS[words[k + 1]]
        if word == "in" and k and words[k + 1] in FROM and words[k - 1] in MEASURES:
            return words[:k] + words[k + 1 :], ""  # "distance in from the end"
        if k and word in LENGTHS and words[k + 1] in FROM:
            return words[:k] + words[k + 1 :], LENGTHS[word]  # "distance (feet from centre)"
    for end in (0, -1):
        if words[end] in LENGTHS:
            unit = LENGTHS[words.pop(end)]
            return words, unit
    return words, ""


def heading_score(cells: Sequence[object], *, near: bool = False) -> int:
    """How many different keys the cells of a row name as its headings, with `near` misspelled ones
    too; 0 where it is no row of headings.

    It names three keys at least, or all its cells are keys, with one of those that make a unit.
    """
    filled = [cell for cell in cells if isinstance(cell, str) and cell.strip()]
    if len(filled) < 2:
        return 0
    found = [meaning(cell).keys for cell in filled[:200]]
    if near and len(filled) <= 60:
        found = [keys or misspelled(c).keys for keys, c in zip(found, filled, strict=True)]
    keys = {each[0] for each in found if each} - {COUNT}
    if len(keys) < 2 or not keys & {"position", "number", "kind", "target"}:
        return 0
    few = sum(isinstance(cell, (int, float)) for cell in cells) * 2 >= len(filled)
    enough = len(keys) >= 3 or (not near and sum(map(bool, found)) == len(filled))
    return (
        len(keys)
        if enough and not few and (len(keys) >= 5 or 3 * sum(map(bool, found)) >= len(filled))
        else 0
    )


def column_letters(index: int) -> str:
    """The spreadsheet's letters of a column counted from 0: A, B ... Z, AA."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(65 + rest) + letters
    return letters
