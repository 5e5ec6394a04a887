"""Words that names are made of: numbers and sides as they are spoken, and those of positions that stand for
one another."""

from __future__ import annotations

from aimcalc.scene.hanglist.tongues.tonguewords import LOOSELY, TONGUES

ORDINALS = (
    *("first", "second", "third", "fourth", "fifth", "sixth"),
    *("seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth"),
)
_CARDINALS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
# Numbers in words, in figures.
AS_FIGURES = {word: str(n) for words in (ORDINALS, _CARDINALS) for n, word in enumerate(words, 1)}
# Sides and parts of the stage, as they are spoken and typed.
AS_SPOKEN = {
    "stageleft": "sl",
    "stageright": "sr",
    **dict.fromkeys(("houseleft", "hl"), "sr"),
    **dict.fromkeys(("houseright", "hr"), "sl"),
    **dict.fromkeys(("upstage", "upst", "upstg"), "us"),
    **dict.fromkeys(("downstage", "downst", "downstg", "dnst", "dnstg"), "ds"),
    **dict.fromkeys(("ms", "midstage", "midst", "midstg"), "mid"),
    **dict.fromkeys(("centre", "center", "ctr", "cs"), "c"),
    "nth": "north",
    "sth": "south",
    **dict.fromkeys(("left", "lft"), "l"),
    **dict.fromkeys(("right", "rgt"), "r"),
    **{f"{row}{side}": f"{row}s{side}" for row in "dum" for side in "lrc"},  # "DL" of DSL
}
# What a bar of lights is called.
_ELECTRIC = ("lx", "electric", "electrics", "elec", "elecs", "elx", "el", "e")
_TUBE = ("pipe", "bar", "batten", "position", "truss")
# Words of a heading that say which sort of position its cells name.
SORTS = frozenset(
    (*_ELECTRIC, *_TUBE, "boom", "ladder", "stand", "floor", "rail", "track", "perch")
) - {"position"}
_STOOD = dict.fromkeys(("floor", "deck", "stand", "tripod", "flr"), "stand")
_MID = dict.fromkeys(("ms", "midstage"), "mid")  # a truss "MS" among "DS" and "US"
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6"}
# Words of positions that stand for one another, then such as a careful reader also takes for each other.
POSITION_WORDS: tuple[dict[str, str], ...] = (
    {
        **dict.fromkeys(_ELECTRIC, "lx"),
        "foh": "foh",
        "frontofhouse": "foh",
        "bal": "balcony",
        **_MID,
        **_ROMAN,
    },
    {**dict.fromkeys((*_ELECTRIC, *_TUBE), "lx"), "frontofhouse": "foh", **_MID, **_ROMAN},
    {**dict.fromkeys((*_ELECTRIC, *_TUBE), "lx"), "frontofhouse": "front", "foh": "front"},
    {**TONGUES, **dict.fromkeys(_ELECTRIC, "lx")},
    {**LOOSELY, **dict.fromkeys((*_ELECTRIC, *_TUBE), "lx")},
    _STOOD,
)
WHOLE_WORDS = frozenset(
    (3, 4, 5)
)  # levels of words, most of other languages, of which no beginning is read
NUMBERED = ("no", "nr", "number")  # a bare number with its word
POSITION_SPARE = (
    *("pipe", "bar", "batten", "position", "lx", "electric", "the"),
    *(*NUMBERED, "lighting", "on", "stage", "bay"),
    *("de", "di", "du", "da", "del", "della", "van"),
    *("zug", "trek", "perche", "stange"),  # bars of other tongues: "Zug Bar 3"
)
