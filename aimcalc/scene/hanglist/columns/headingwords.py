"""Which key the words of a heading mean, in whatever order, with a length unit or in spite of a slip."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import (
    AT_PARTS,
    HEIGHT,
    KEYS,
    LENS,
    SIDE,
    UPSTAGE,
    Meaning,
)
from aimcalc.scene.hanglist.columns.foreignwords import FOREIGN
from aimcalc.scene.hanglist.columns.headingasides import is_rating, says_aim
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
    by_phrase,
)

NEAR = 0.8  # how like a known heading a misspelled one must be (difflib's ratio)
WORD_NEAR = 0.7  # and how like each of its words must be
TOGETHER_NEAR = 0.95  # or all of them without their spaces: "posi tion"
LONGEST = 60  # characters; a longer cell is no heading
LONGEST_BRACKETED = 300  # of one whose brackets are looked at for a unit


def _phrases() -> dict[str, tuple[str, ...]]:
    """The keys of each phrase, as it is written and as its words are compared."""
    found = by_phrase(FOREIGN.strip() + TRADE)  # the trade's own words before those of others
    for phrase, meant in list(found.items()):  # "what it lights", as its words are compared
        words = phrase.split()
        if not WORDS.keys().isdisjoint(words):
            found.setdefault(" ".join([WORDS.get(word, word) for word in words]), meant)
    return found


_PHRASES = _phrases()
_BY_WORDS = {frozenset(phrase.split()): keys for phrase, keys in _PHRASES.items() if " " in phrase}
_PHRASES["patch channel"] = ("channel",)  # in this order: "Ch/Patch" is both


def split_words(text: str) -> tuple[list[str], str]:
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
    short = len(plain) <= LONGEST_BRACKETED
    bracketed = re.search(_BRACKETED, plain) if short and set("([") & set(plain) else None
    if not unit and bracketed and bracketed[1].strip(".") in LENGTHS:
        unit = LENGTHS[bracketed[1].strip(".")]
        rest = plain.replace(bracketed[0], " ")
        words = [WORDS.get(word, word) for word in re.findall(r"[^\W_]+|[°№]", rest)]
    elif short and not unit and (first := _FIRST_IN_BRACKET.search(plain)) and first[1] in LENGTHS:
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
    return split_words(heading)[0]


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


def keys_of(words: list[str], unit: str = "") -> tuple[str, ...]:
    """What words mean, in whatever order, with their little ones or without."""
    keys = _PHRASES.get(" ".join(words), ())
    if not keys and len(words) > 1:
        plain = [word for word in words if word not in ("the", "of", "or", "to", "from")]
        keys = _PHRASES.get(" ".join(plain), ()) or _BY_WORDS.get(frozenset(words), ())
    if not keys and len(words) > 1 and words[0] in ("what", "which"):
        keys = keys_of(words[1:], unit)
        asked = next((k for k, word in enumerate(words) if word not in _ASKING), len(words))
        if not keys and asked > 1 and len(words) - asked > 1:
            keys = _PHRASES.get(" ".join(words[asked:]), ())
    if not keys and len(words) > 2 and {"l", "r"} <= set(words):
        rest = _PHRASES.get(" ".join(word for word in words if word not in ("l", "r")), ())
        keys = ("at",) if rest[:1] == ("at",) else ()  # "Cote l r"
    if not keys and says_aim(words) and not unit:
        keys = ("target",)
    if not keys and "its" in words[1:]:
        keys = _in_full(words, unit)
    if not keys and words[-1:] and words[-1] in _ENDS_IT and "it" in words[1:]:
        keys = _of_it(words)
    if not keys and len(words) > 1 and words[0] in _BEFORE:
        keys = tuple(key for key in keys_of(words[1:]) if key not in ("at", *AT_PARTS))
    return keys or (("at",) if _is_measure(words, unit) else ()) or _height_of(words)


def _of_it(words: list[str]) -> tuple[str, ...]:
    """What words mean that say of a unit what it is or hangs on: "bar it hangs on", "sort of lamp it is"."""
    cut = next(k for k, word in enumerate(words) if k and word == "it")
    said = keys_of(words[:cut])
    may = ("kind",) if words[cut:] == ["it", "is"] else ("position", "circuit", "channel")
    return said if said[:1] and said[0] in may and words[cut + 1] in ("is", "hangs") else ()


def _in_full(words: list[str], unit: str) -> tuple[str, ...]:
    """What words with a short "it's" among them mean: "Bar it's on", "Where it's focused"."""
    k = words.index("its", 1)
    full = [*words[:k], "it", "is", *words[k + 1 :]]
    return keys_of(full, unit) or keys_of(words[:k] + words[k + 1 :], unit)


_ENDS_IT = frozenset(("is", "on", "from"))
_BEFORE = frozenset(("on", "in", "by", "our", "my", "this"))
_ASKING = frozenset(("what", "which", "is", "it", "does", "do", "will", "are", "they", "this"))


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


def parts_of(text: str) -> tuple[str, ...]:
    """What a heading of two things means: what both may be, "Purpose / Focus"; one of them where the other is
    no key of its own, "Colour & Template", or is one with it, "Type / Lens"; none where each is a key."""
    parts = re.split(r"\s*(?:&|\+|,|;|=|/|\band\b|\bor\b|\bw/)\s*", text.replace("c/l", "cl"))
    if len(parts) < 2 or not all(parts):
        return ()
    rated = [part for part in parts if not is_rating(part)]
    if len(rated) == 1 < len(parts) and _may_be_kind(rated[0]):
        return ("kind",)
    said = [keys_of(split_words(part)[0]) for part in parts]
    if ("channel",) in said:  # "Mémoire / canal"
        said = [keys for keys, part in zip(said, parts, strict=True) if part not in _MEMORIES]
    first, *others = said
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


def _may_be_kind(part: str) -> bool:
    """Whether a part of a heading is one of kinds and of nothing else that cells could tell from it."""
    words = split_words(part)[0]
    return (keys_of(words) or UNSURE.get(" ".join(words), ()))[:1] == ("kind",)


# What a desk keeps, beside its channel.
_MEMORIES = frozenset(
    ("memoire", "memory", "mem", "memoria", "speicher", "geheugen", "minne", "preset", "pamiec")
)
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


def is_beside_target(text: str) -> bool:
    """Whether one part of a heading is that of targets and the rest no key: "Scene / focus"."""
    parts = [keys_of(split_words(part)[0]) for part in re.split(r"\s*[/&+,]\s*", text) if part]
    return len(parts) > 1 and [keys for keys in parts if keys] == [("target",)]


def no_plug(keys: tuple[str, ...], text: str, unit: str) -> bool:
    """Whether a heading of plugs or channels says a share or a length of them: "Dimmer %", "Circuit (ft)"."""
    return bool({"channel", "circuit"} & set(keys[:1])) and ("%" in text or unit == "ft")


def misspelled(heading: object) -> Meaning:
    """What a heading means that is one slip of the finger off a known one."""
    words, unit = split_words(str(heading))
    phrase = " ".join(words)
    if no_plug(keys_of(words), str(heading), unit):
        return Meaning()
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
