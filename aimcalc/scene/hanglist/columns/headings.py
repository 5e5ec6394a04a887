"""What the headings of a hang list mean: the trade's ordinary words for each key of a unit."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.columnkeys import (
    AT_PARTS,
    COUNT,
    GAP,
    HEIGHT,
    KEYS,
    SIDE,
    UPSTAGE,
    Meaning,
)
from aimcalc.scene.hanglist.columns.headingasides import (
    beside_remark,
    counts_them,
    follows_dash,
    is_of_else,
    may_follow,
    remark_in,
    says_who_is_there,
)
from aimcalc.scene.hanglist.columns.headingparts import composed
from aimcalc.scene.hanglist.columns.headingsides import (
    SIGNS,
    both_sides,
    end_out,
    letters_out,
    signed_sides,
    signs_out,
    view_out,
    whose_out,
)
from aimcalc.scene.hanglist.columns.headingwords import (
    LONGEST,
    is_beside_target,
    keys_of,
    misspelled,
    no_plug,
    parts_of,
    split_words,
)
from aimcalc.scene.hanglist.columns.tradewords import FROM, LENGTHS, LITTLE, MEASURES, UNSURE
from aimcalc.scene.hanglist.pagelines.mirrored import unmirrored
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.pagelines.signpairs import paired_plain
from aimcalc.scene.hanglist.pagelines.whosewords import turned_round
from aimcalc.scene.hanglist.places.ends import ENDS, sides_plain, stood
from aimcalc.scene.hanglist.places.stagelines import lines_plain, ways_plain
from aimcalc.scene.hanglist.tongues.tongues import garden_plain, in_english, unaccented

LONGEST_PLACE = 90  # unless it says in other words where places count from
_PLAIN_KEYS = {key.replace("_", ""): key for key in KEYS}
# Where two columns may be one key, a word of a lower rank gives way: a dimmer beside a circuit.
_WEAKER = {
    "dimmer": 1,
    "dimmer no": 1,
    "control": 1,
    "purpose": 2,
    "used for": 2,
    "use": 2,
    "mark": 1,
    **dict.fromkeys(("dmx channel", "channel dmx"), 1),  # beside the desk's it may be an address
    "place": 1,
    "no": 1,  # "#" may count the rows
    **dict.fromkeys(("lp", "l p"), 1),  # it counts the rows
    "was": 2,  # German for what; in English it was so before
    **dict.fromkeys(("unit id", "lamp id", "light id", "instrument id", "item"), 1),
}


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
    text = _SIDE_SEEN.sub("side", text) if "ôt" in text else text
    plain = garden_plain(text.casefold()) if "jardin" in text or "cour" in text else text
    text = _SIDE_OF_WHOM.sub(r"\1 (\2)", text)
    signed = not SIGNS.isdisjoint(text)
    found = Meaning() if signed else _meaning(plain)
    english = text if found.keys else _in_english(text)
    if english != text:
        return _meaning(english)
    if not signed and found.keys and found.keys[0] in _OF_PLACES and not (found.bare or found.plus):
        return _with_whose(found, text)
    return _meaning(plain) if signed else found


def _in_english(text: str) -> str:
    """A heading in English, with the letters of its language that it says whose they are as those sides:
    "Dist. centro (D/S spettatore)"."""
    explained = in_english(text, line=True).partition(" . ")[0]
    return garden_plain(explained if _EXPLAINED.search(explained) else in_english(text))


_EXPLAINED = regex(r"\b[a-z] = (?:sl|sr), [a-z] = (?:sl|sr)\b")
_OF_PLACES = ("at", SIDE, "position")
_SIDE_SEEN = regex(r"\bcôtés?\b(?=\s*,?\s+(?:vue?s?|depuis)\b)", re.IGNORECASE)  # and no measure
_SIDE_OF_WHOM = regex(  # "Strona aktora" is the side as the actor has it
    r"^\W*(strona|strana|lato|lado|seite|kant|zijde|sida|side)\s+(?:(?:d[aeiou]|del|des|da|van|vom|de|la|il|el|o)\s+|dell['’]|d['’])*"
    r"(aktora?|herce|herca|attore|actor|ator|acteur|speler|darsteller|darstellers|widza|diváka|spettatore|pubblico|público|espectador|publiek)\W*$",
    re.IGNORECASE,
)
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
    """What a heading means in English: as a key, of the plaster line, or in the trade's words."""
    if len(text) > longest or not text.strip() or text.isdigit():
        return Meaning()
    if "__" in text or not _UNREAD.isdisjoint(text):
        text = re.sub(r"[*_`~]{2,}|[\u200b\ufeff\u00ad]|(?<=[A-Za-z])['’](?=[a-z])", "", text)
    key = _PLAIN_KEYS.get(re.sub(r"[\s_-]", "", text.strip().strip('"*:.').lower()))
    if key is not None:
        return Meaning((key,), exact=True)
    if text.strip()[1:2] == " " and re.fullmatch(r"(?:\w ){3,}\w", text.strip()):
        return _meaning(text.replace(" ", ""))  # "U N I T"
    text = lines_plain(text)
    on_line = _OF_PLASTER.sub(" ", text) if "p" in text.casefold() else text
    return _of_plaster(ways_plain(on_line)) if on_line != text else _seen(text)


def _plainly(text: str) -> str:
    """A heading as its words are compared: without capitals, accents and brackets round a sign."""
    text = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text).replace("_", " ")
    if not text.isascii():
        text = re.sub(r"(?i)\bcôté\b", "side", re.sub(r"\b[nN][°º]", "No", text))
        text = unaccented(text)  # the French "cote" is a measure
    text = stood(text.casefold().replace("#s", "#"))
    text = _SHORT_FROM.sub("from ", text) if "centre" in text else text
    if "s/" in text:
        text = _SLASHED.sub(r"s\1", text)  # "S/L (m)"
    if "(" in text:
        text = re.sub(r"\(\s*([+−–-])\s*\)", r"\1, ", text)  # "SL (+)"
    if " fm " in text:
        text = text.replace(" fm ", " from ")
    if text.rstrip(" .()").endswith(" c") or " c " in text:
        text = _OF_C.sub(r"\1 of centre", text)
    if "right" in text:
        text = re.sub(r"\bright(\s*(?:/|or|and|&)\s*)left\b", r"left\1right", text)
    return text


_SLASHED = regex(r"(?<![\w/])s/([lr])(?![\w/])")
# "SL of C (m)", "L. of C.": the centre, and no letter of a side.
_OF_C = regex(
    r"\b((?:s\W?)?[lr]|left|right)\b\.?\s(?:of|from|off)\s(?:the\s)?c\b\.?(?=\W*$|\s*[(\[])"
)
_SHORT_FROM = regex(r"\b(?:[vz]\.(?:\s?[dh]\.)?|v/[dh])\s*(?=centre)")  # a "V" alone is a side


def _seen(text: str) -> Meaning:
    """What a heading of places or sides means beside how somebody stands who sees these."""
    text = unmirrored(text.casefold()) if " " in text else text
    head, whose = view_out(text.casefold())
    found = _sided(_plainly(head)) if whose else Meaning()
    if found.keys[:1] in (("at",), (SIDE,)) and found.bare in ("", whose):
        return found._replace(bare=whose)
    return _sided(_plainly(text))


# The numbers of units, and at which end they begin: "Order from SR", "Lamp no. (from the SL end)".
_NUMBERED_FROM = regex(
    r"(?:(?:unit|lamp|lantern|light|fixture|instrument)\s)?\W?(?:no|nr|number|num|#|count|order|seq(?:uence)?)\W{0,3}"
    r"(?:(?:counted|counting|numbered)\s)?from\s(?:the\s)?(?:sl|sr|us|ds|ps|op|left|right)(?:\s(?:end|side))?\W?"
)


def _sided(text: str) -> Meaning:
    """What a heading means, with what it says of ends and sides taken out of it; nothing where it contradicts
    itself."""
    if "from" in text and _NUMBERED_FROM.fullmatch(sides_plain(text)):
        return Meaning(("number",), rank=1, fitting=True)
    text, lettered = letters_out(text)
    if not SIGNS.isdisjoint(text) or "plus" in text:  # PS is SL (common practice, no source)
        text = re.sub(r"\bop\b", "sr", re.sub(r"\bps\b", "sl", prompt_plain(text)))
    told = signed_sides(paired_plain(text))
    if told is None:
        return Meaning()  # plus is left, and nobody says whose
    told, seen_by = whose_out(told)
    text, bare = both_sides(told)
    bare = lettered or bare or seen_by
    text, plus = signs_out(sides_plain(text))
    if plus:  # "SL of centre (minus = SR)"
        text = re.sub(rf"\b{plus.casefold()}\s+(?:of|from)\b", "from", text)
    if plus is None or (not plus and _SIGN_UNREAD.search(text)):
        return Meaning()  # it says two things, or a side and a sign in other words
    text, end = end_out(ENDS, text)
    if re.search(r"\bfrom (?:sl|sr|us|ds)\b", text):
        return Meaning()  # from its end, or from the centre line towards it
    if end or plus:
        return _from_end(text, end, plus, bare)
    alone = text.strip(" .()[]")
    if alone in LENGTHS:  # over a column, said of a place
        part = {"ft": "at_feet", "in": "at_inches"}.get(LENGTHS[alone])
        return Meaning((part,) if part else ())
    return _in_words(text, bare)


_SIGN_UNREAD = regex(r"[+][^/,;]{0,15}\b(?:sl|sr)\b")


def _from_end(text: str, end: str, plus: str, bare: str) -> Meaning:
    """What a heading means that says from which end places count, or to which side: a place or nothing."""
    words, unit = split_words(text)
    named = " ".join(words) in ("position", "location")
    alone = text.strip(" .()[],")
    if alone in LENGTHS:
        words, unit = [], LENGTHS[alone]
    keys = keys_of(words) or keys_of(words, unit)
    if not keys and _is_end(words, end or unit):
        keys = ("at",)
    if keys and (keys[0] in AT_PARTS[2:] or named):
        keys = ("at",)  # feet alone; the name of a pipe has no side
    return Meaning(keys, unit=unit, end=end, plus=plus, bare=bare) if "at" in keys else Meaning()


def _in_words(text: str, bare: str) -> Meaning:
    """What a heading means by its words alone, and beside its bracket or in part where they mean nothing."""
    if counts_them(text):
        return Meaning()
    words, unit = split_words(text)
    keys = _keys_in(words, unit, text)
    if no_plug(keys, text, unit):
        return Meaning()
    if keys and unit and not set(keys) & _MEASURED:
        unit = ""
    if not keys and (short := beside_remark(text)) != text:
        keys = _beside(short, text)
    if not keys and (found := _unsure(words, unit, text)) is not None:
        return found
    of_edge = keys == ("at",) and "stage" in text  # from the edge of it
    if keys in ((SIDE,), (), ("at",)) and not (bare or of_edge or turned_round(text)):
        bare = _whose(words, text)
    sides = {"l", "r"} <= set(words) or {"sl", "sr"} <= set(words)
    return Meaning(keys, rank=_WEAKER.get(" ".join(words), 0), unit=unit, bare=bare, sides=sides)


def _keys_in(words: list[str], unit: str, text: str) -> tuple[str, ...]:
    """The keys that words mean beside a length unit, and those of a heading of two things."""
    phrase = " ".join(words)
    keys = keys_of(words, unit) or ((HEIGHT,) if unit and words in _UPWARDS else ())
    if unit and phrase == "dimmer" and "dimmer" not in text:
        keys = ("at",)  # "Dim (in)" is a dimension
    if phrase == "dimmer channel" and _JOINS.isdisjoint(text):
        keys = ("circuit",)  # "Dim ch"; "Dim/Ch" is both
    if not keys:
        keys = parts_of(text)
        keys = () if keys and keys[0] in AT_PARTS else keys  # "SL or SR" is neither
    if unit and (phrase == "location" or "position" in keys or keys == (SIDE,)):
        keys = ("at",)  # the name of a pipe has no unit, nor has a side alone
    return keys


def _unsure(words: list[str], unit: str, text: str) -> Meaning | None:
    """What a heading may mean that means nothing by its words as they stand."""
    phrase = " ".join(words)
    if is_beside_target(text) or says_who_is_there(text):
        return Meaning(("target",), rank=3, fitting=True)
    if phrase in UNSURE:
        if unit and "at" in UNSURE[phrase]:
            return Meaning(("at",), unit=unit)
        return Meaning(UNSURE[phrase], rank=3, fitting=True)
    put = _put_together(words, text)
    return put if put.keys else None


def _whose(words: list[str], text: str) -> str:
    """Whose left and right a heading of sides speaks of, stage or house; "" where it does not say."""
    whose = re.search(
        r"\(\s*(?:(?:side|of|from|the)\s+)*(stage|actors?|performers?|house|audience|public)\W*\)|^\W*(stage|house|audience)\b",
        text,
    )
    if whose:
        return "house" if {"house", "audience", "public"} & set(whose.groups()) else "stage"
    seen = _WHO.findall(text) if {"l", "r"} <= set(words) else ()
    told = {"house" if who in ("house", "audience") else "stage" for who in seen}
    if len(told) == 1:  # "left or right of centre (audience view)", "L/R, actor's"
        return told.pop()
    return ""


_WHO = regex(r"\b(stage|house|audience|actor|performer)(?:['’]?s['’]?)?(?!\w)")
_MEASURED = frozenset(("at", HEIGHT, GAP, UPSTAGE, "arm", "connector", *AT_PARTS))
# Without these a text has nothing of what the patterns that they stand before look for.
_UNREAD = frozenset("*`~\u200b\ufeff\u00ad'’")
_JOINS = frozenset("/&+,;|=")  # between two things of one heading
_UPWARDS = (["up"], ["aff"], ["afd"])  # beside a unit: "cm up", "AFF (ft)"


def _put_together(words: Sequence[str], text: str) -> Meaning:
    """What a heading of one thing means that is put together of known words: "Lysdæmper", "LX colour"."""
    found = composed(words)
    one = _JOINS.isdisjoint(text) or found.key == "colour"  # "Lee / Rosco"
    one = one or (found.key == "circuit" and len(words) == 2 and "addr" in text)  # "Addr/dim"
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
    sides = found.sides or len(ways) > 1
    return Meaning(("at",), unit=found.unit, plus=plus, sides=sides, bare=found.bare, plaster=True)


_OF_PLASTER = regex(
    r"\b(?:of|from|off|to|fr\.?|past|behind|beyond)\s+(?:the\s+)?(?:plaster(?:\W?line)?\b|p\.l\.|p/?l\b)",
    re.IGNORECASE,
)
_UP_OR_DOWN = regex(r"\b(?:(u|d)[./]?s\.?|(up|down)\W?stage)(?![a-z])", re.IGNORECASE)


def _beside(short: str, text: str) -> tuple[str, ...]:
    """What a heading means beside its remark, "Position (pipe)", "Type - degrees", but for where a place
    counts from; nothing where a second key stands after a dash, "Position - lantern", or another thing."""
    keys = keys_of(split_words(short)[0])
    if set(keys) & {"at", HEIGHT, *AT_PARTS} or (keys != ("kind",) and is_of_else(text)):
        return ()
    if not keys or not follows_dash(text):
        return keys
    second = keys_of(split_words(remark_in(text))[0])
    if second[:1] == ("note",):
        return keys
    same = not second or second[0] in (keys[0], "lens")
    return keys if same and may_follow(text, of_kind=keys[0] == "kind") else ()


def _is_end(words: list[str], end: str) -> bool:
    """Whether what is left beside an end of the pipe says nothing else."""
    return bool(end) and set(words) <= MEASURES | FROM | LITTLE | _TAPED


# How a tape is laid along a pipe: "Pull from SR end", "0 at SL end".
_TAPED = frozenset(
    ("0", "zero", "datum", "start", "starts", "origin", "hook", "hooked", "tape", "taped", "tapes")
) | frozenset(("pull", "pulled", "walk", "walked", "run", "reads", "reading", "read", "ruler"))


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
