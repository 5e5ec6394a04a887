"""Columns that no heading claims as a whole, by one word of it and by their cells: "Cue board channel" over
figures, "Gel cut" over codes of gels, "Dim/Ch" over one number, "Height" over heights and places."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import NEARLY, told
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, SOME_SIDES, Claiming
from aimcalc.scene.hanglist.columns.columnkeys import (
    AT_PARTS,
    COUNT,
    COUPLED,
    HEIGHT,
    LENS,
    SIDE,
    Meaning,
)
from aimcalc.scene.hanglist.columns.headingparts import is_of_another_time, role_of
from aimcalc.scene.hanglist.columns.headingwords import keys_of, split_words
from aimcalc.scene.hanglist.rows.listrow import text_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

# The keys that words of a heading may tell, by the roles that these have in headings put together.
_BY_ROLE = {
    "channel": "channel",
    "console": "channel",
    "circuit": "circuit",
    "dimmer": "circuit",
    "colour": "colour",
    "kind": "kind",
    "type": "kind",
}
_NAMED = ("target", "kind", "position")
_PLUGGED = ("channel", "circuit", "colour")
# Words of a heading over figures of plugs that say of what else they are.
_OF_ELSE = regex(
    r"\b(?:mode|modes|count|counts|load\w*|watt\w*|amps?|kva|kw|weight|size|width|length|temp\w*|curve|level|intensity"
    r"|percent|dmx|addr\w*|universe|page|group|scene|cost|price|qty|total|per|cue|type|kind|many|used|needed"
    r"|required|rate|phase|step|year|date|time|ip|footprint|param\w*|breaker|fuse|rating|slots?|min|max|cable|name|sound|audio|ton|son|mics?|radio|video|comms?|tv|wireless"
    r"|intercom|talkback|order|full)\b"
)
_OF_GELS = regex(
    r"\b(?:size|sizes|sheets?|holders?|frames?|temp\w*|kelvin|counts?|qty|quantity|total|many|cost|price|stock|order|width"
    r"|length|date|time|changes)\b"
)
_LETTER = regex(r"[^\W\d_]")
_CUE_DESK = regex(r"\bcue\s+(?:board|desk|console)\b")
# Before what is said beside the word that counts: "Ch on new board", "Circuit (behind bar)".
_BEHIND = regex(r"\b(?:in|on|at)\b")  # "Ch on new board" is no old one
_NEW_DESK = regex(r"\bnew\s+(?:desk|board|console)\b")
_ASIDE = regex(
    r"[(\[,;:]|\b(?:in|on|at|behind|along|for|with|from|by|as|if|this|under|over|near|beside|of|upstairs|downstairs"
    r"|backstage|sur|dans|pour|au|aux|du|de|des|im|am|auf|fur|furs|fuer|mit|an|en|von|vom|hinten|vorne|oben|unten"
    r"|con|del|della|di|da|al|alla|op|voor|aan|met|van|pa|i|vid|til|ved|na|w|we|przy)\b"
)


def places_in_disguise(c: Claiming) -> None:
    """Take for the places the one column of lengths with their sides, where no heading says that of one:
    "Lens" or "Socket" over 3 m SL, whose heading means a key that takes nearly anything."""
    said = {key for found in c.meanings.values() for key in found.keys} | set(c.keys.values())
    if {"at", *AT_PARTS} & said:
        return
    found = [k for k in range(len(c.texts)) if _are_places(k, c)]
    if len(found) != 1 or found[0] not in c.meanings:
        return
    k = found[0]
    if c.meanings[k].keys[:1] and c.meanings[k].keys[0] in _TAKE_ANYTHING:
        c.meanings[k] = Meaning(("at",))
        c.holds[k] = told(c.values.of(k))


_TAKE_ANYTHING = ("circuit", "channel", "system", "note", LENS, COUNT, "mount", "arm", "colour")


def _are_places(k: int, c: Claiming) -> bool:
    """Whether a column says in nearly every row how far to which side, with the length's unit or decimals."""
    lengths = max(c.share("length", k), c.share("length and more", k))
    sure = c.share("at", k) >= NEARLY and lengths >= FITTING
    return sure and c.values.is_full(k) and c.share("on a side", k) >= SOME_SIDES


def both_in_one(c: Claiming) -> None:
    """Take a column headed as that of channels and circuits, "Dim/Ch", for the channel where each cell is one
    number: the dimmer has the same. Where another column holds the channels it is the circuit."""
    for k, key in list(c.keys.items()):
        parts = key.split("+")
        if key not in COUPLED or "colour" in parts or k not in c.meanings:
            continue
        cells = [text_of(cell).strip() for cell in c.values.of(k)]
        if cells and all(re.fullmatch(r"\d{1,4}", cell) for cell in cells):
            held = set(c.keys.values())
            left = next((part for part in ("channel", "circuit") if part not in held), None)
            if left:
                c.keys[k], c.holds[k] = left, told(c.values.of(k))


def word_among(c: Claiming) -> None:
    """Give a column whose heading nobody knows as a whole to the key that one of its words tells, where its
    cells fit it and no other column has it: "Cue board channel", "Lantern kind used"."""
    found: dict[str, list[int]] = {}
    for k, text in enumerate(c.texts):
        if not text or k in c.keys or c.is_claimed(k) or c.meanings.get(k, Meaning()).keys:
            continue
        key = _told_by_word(k, text, c)
        if key:
            found.setdefault(key, []).append(k)
    for key, columns in found.items():
        if len(columns) == 1:
            c.keys[columns[0]] = key
            c.holds[columns[0]] = told(c.values.of(columns[0]))


def _told_by_word(k: int, text: str, c: Claiming) -> str:
    """The one key that a word of a heading tells and its cells fit; "" where there is none, or several."""
    plain = unaccented(text.casefold())
    if is_of_another_time(_BEHIND.split(_NEW_DESK.sub(" ", plain))[0]):
        return ""
    head, unit = split_words(_ASIDE.split(plain)[0])
    if unit or "%" in plain:
        return ""  # "Dimmer %", "Circuit ft"
    words = head if _keys_of_words(head) else split_words(plain)[0]
    keys = _keys_of_words(words)
    if not _ends_in_plug(head):
        keys = [key for key in keys if key not in ("channel", "circuit")]
    fits = [key for key in keys if key not in c.keys.values() and _fits(key, k, plain, c)]
    if set(fits) == {"channel", "circuit"}:
        roles = {role_of(word) for word in words}
        desk = "console" in roles and ("channel" in roles or "dimmer" not in roles)
        fits = ["channel"] if desk else ["circuit"] if "dimmer" in roles else []
    return fits[0] if len(fits) == 1 else ""


def _ends_in_plug(head: list[str]) -> bool:
    """Whether what a heading is of is a plug or a channel, which other words tell apart: "Cue board channel",
    "House circuit ref", and not "Dimmer cards"."""
    words = [word for word in head if word not in _NUMBERED]
    return bool({"channel", "circuit"} & set(map(_key_of_word, words[-1:])))


_NUMBERED = ("no", "reference", "id", "code")


def _keys_of_words(words: list[str]) -> list[str]:
    """The keys that single words of a heading tell."""
    return list(dict.fromkeys(key for key in map(_key_of_word, words) if key))


def _key_of_word(word: str) -> str:
    key = _BY_ROLE.get(role_of(word), "")
    if key or len(word) < LONGEST_LETTERS:
        return key
    key = next(iter(keys_of([word])), "")
    return key if key in (*_NAMED, *_PLUGGED) else ""


LONGEST_LETTERS = 3  # shorter words are letters that may stand for anything


def _fits(key: str, k: int, heading: str, c: Claiming) -> bool:
    """Whether the cells of a column are those of a key; figures are no plugs where a word says of what else
    they are, or where most are the same."""
    if not c.values.is_full(k):
        return False
    if key in ("channel", "circuit"):
        codes = c.share("channel code", k)
        codes = max(codes, c.share("circuit code", k)) if key == "circuit" else codes
        else_of = _OF_ELSE.search(_CUE_DESK.sub(" ", heading))
        cells = [text_of(cell).strip() for cell in c.values.of(k)]
        return codes >= NEARLY and not else_of and 2 * len(set(cells)) >= len(cells)
    if key == "colour":
        if _OF_GELS.search(heading) and not any(map(_LETTER.search, map(text_of, c.values.of(k)))):
            return False  # "Filter size" over 185
        return c.share("gel code", k) >= NEARLY  # in words, it may be that of a cable
    return c.values.names(key, k)


def joint_out(c: Claiming) -> None:
    """Free a column headed as that of places, or of how units hang, whose cells are positions and numbers in
    one, "Hung at" over "LX1 #3", or positions, where no column has these."""
    held = set(c.keys.values())
    for k in [k for k, key in c.keys.items() if key in ("at", "hung") and k in c.meanings]:
        joint = not {"position", "number"} & held and c.values.share("joint", k) == 1.0
        bars = c.keys[k] == "hung" and "position" not in held
        spelled = bars and c.values.share("spelled position", k) == 1.0  # also over merged cells
        if spelled and not joint and len({*map(text_of, c.values.of(k))}) > 1:
            c.keys[k] = "position"
        elif joint or (bars and c.values.names("position", k)):
            del c.keys[k]


def aimed_at(c: Claiming) -> None:
    """Take a column headed "at" for the targets where each of its cells names one, none has a figure, and
    another column holds the places in feet or metres."""
    held = set(c.keys.values())
    if "target" in held or not held.intersection(AT_PARTS):
        return
    for k in [k for k, key in c.keys.items() if key == "at" and k in c.meanings]:
        cells = [text_of(cell) for cell in c.values.of(k)]
        figures = any(char.isdigit() for cell in cells for char in cell)
        if len(set(cells)) > 1 and not figures and c.values.share("target", k) == 1.0:
            c.keys[k], c.meanings[k] = "target", Meaning(("target",))


def heights_with_places(c: Claiming) -> None:
    """Take a column headed as that of heights for that of places too, where some of its cells have a side:
    the heights are those of booms, and no other column holds the places of pipes."""
    if {"at", SIDE, *AT_PARTS} & set(c.keys.values()):
        return
    for k, key in list(c.keys.items()):
        if key == HEIGHT and k in c.meanings and c.share("at", k) >= NEARLY:
            if c.share("on a side", k) > 0:
                c.keys[k] = "at"
                c.meanings[k] = c.meanings[k]._replace(exact=False, heights=True)
                c.holds[k] = told(c.values.of(k))
            return


def heights_among_places(c: Claiming) -> None:
    """Take for the places the one column that nobody claims of lengths of which some have a side, where no
    other holds any: the others are heights on booms, whatever word stands over it."""
    held = set(c.keys.values())
    if {"at", HEIGHT, SIDE, *AT_PARTS} & held:
        return
    found = [
        k
        for k in range(len(c.texts))
        if k not in c.keys
        and c.share("at", k) >= NEARLY
        and c.share("length", k) >= FITTING
        and c.share("on a side", k) > 0
    ]
    if len(found) == 1:
        k = found[0]
        c.keys[k] = "at"
        c.meanings[k] = Meaning(heights=True)
        c.holds[k] = told(c.values.of(k))
