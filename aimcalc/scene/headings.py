"""What the headings of a hang list mean: the trade's ordinary words for each key of a unit.

Beside the keys there are columns that help one: `side` (SL or SR of a place), `height` (the place on a boom),
`lens` (the degrees of a kind), and `note`, to which whatever has no key goes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import NamedTuple
from aimcalc.scene.tables import unit_readers

KEYS = tuple(unit_readers("m"))
SIDE, HEIGHT, LENS, REMARK = "side", "height", "lens", "remark"
APART = "apart"  # no column of the table: a key of colours beside it
COUNT = "count"  # how many units a row stands for
# A place that stands in two columns: one a side, or feet beside inches.
AT_PARTS = ("at_SL", "at_SR", "at_feet", "at_inches")

# Words that stand for one another, once a heading is in lower case with its marks taken out.
_WORDS = {
    **dict.fromkeys(("color", "colours", "colors", "colour", "clr", "col"), "colour"),
    **dict.fromkeys(("gels",), "gel"),
    **dict.fromkeys(("center", "centre", "ctr", "centreline", "centerline"), "centre"),
    **dict.fromkeys(("number", "numbers", "num", "nbr", "no", "nos", "nr", "n°", "№"), "no"),
    **dict.fromkeys(("position", "positions", "pos", "posn"), "position"),
    **dict.fromkeys(("location", "locations", "loc", "locn"), "location"),
    **dict.fromkeys(("channel", "channels", "chan", "chans", "ch", "chnl", "chn"), "channel"),
    **dict.fromkeys(("control", "ctrl", "ctl", "desk", "console", "board"), "control"),
    **dict.fromkeys(("instrument", "instruments", "inst", "instr"), "instrument"),
    **dict.fromkeys(("fixture", "fixtures", "fixt", "fix", "fxt"), "fixture"),
    **dict.fromkeys(("luminaire", "luminaires", "lum"), "luminaire"),
    **dict.fromkeys(("lantern", "lanterns"), "lantern"),
    **dict.fromkeys(("distance", "distances", "dist"), "distance"),
    **dict.fromkeys(("dimmer", "dimmers", "dim", "dims", "dmr"), "dimmer"),
    **dict.fromkeys(("circuit", "circuits", "ckt", "cct", "circ", "cir"), "circuit"),
    **dict.fromkeys(("unit", "units", "u"), "unit"),
    **dict.fromkeys(("type", "types", "typ"), "type"),
    **dict.fromkeys(("degree", "degrees", "deg", "degs", "°"), "degree"),
    **dict.fromkeys(("notes", "note"), "note"),
    **dict.fromkeys(("remarks", "remark", "rem"), "remark"),
    **dict.fromkeys(("comments", "comment"), "comment"),
    **dict.fromkeys(("electrics", "electric", "elec"), "electric"),
    **dict.fromkeys(("areas", "area"), "area"),
    **dict.fromkeys(("targets", "target"), "target"),
    **dict.fromkeys(("systems", "system", "sys"), "system"),
    **dict.fromkeys(("focused", "focussed", "foc", "focus"), "focus"),
    **dict.fromkeys(("purposes", "purpose", "purp"), "purpose"),
    **dict.fromkeys(("gobos", "gobo"), "gobo"),
}
# What a column holds, likeliest first, and the headings that say so, in those words.
_TRADE = """
position: position, location, hanging position, hang position, hung on, hang on, hangs on, hung from
position: hanging location, position name, pipe, pipe name, bar, bar name, batten, electric, lx, lx bar
position: lx pipe, truss, hang location, lighting position, mounting position, rigging position, where
position: where hung, unit position
number: no, unit no, fixture no, instrument no, lantern no, light no, luminaire no, hang no, unit id
number: position no, no on position, no on pipe, no on bar
number kind: unit, item, item no, id
at: at, distance, distance from, from cl, from centre, from centre line, distance from cl
at: distance from centre, distance from centre line, distance cl, cl distance, distance to cl, offset
at: offset from cl, offset from centre, cl offset, off cl, off centre, position on pipe, position on bar
at: place, place on pipe, place on bar, on pipe, on bar, hang at, hung at, hangs at, hang point
at: hanging point, location on pipe, location on bar, along, along pipe, along bar, cl, centre line
at: from zero, position from cl, position from centre, location from cl, distance along, from
at: x, distance along pipe, measurement, hang mark, mark
at_SL: sl, distance sl, sl distance, distance to sl, sl of cl, sl of centre, sl of centre line
at_SR: sr, distance sr, sr distance, distance to sr, sr of cl, sr of centre, sr of centre line
side: l r, r l, left right, left or right
side: side, sl sr, sr sl, stage side, side of cl, side of centre, dir, direction
height: height, height on boom, boom height, height above deck, height above floor
kind: kind, type, instrument, fixture, lantern, luminaire, instrument type, fixture type, unit type
kind: lantern type, luminaire type, light type, light, equipment, kind of unit, type of unit, unit kind
kind: instrument kind, model, equipment type, instrument name, fixture name
lens: degree, lens, field, field angle, beam angle, angle, lens angle, lens degree, lens tube
target: target, focus, area, focus area, acting area, aim, aim at, aimed at, aim point, aiming point
target: focus point, focus to, focus on, focus at, hits, lights, lights area, area lit, focus position
target: focus target, zone, area no, stage area, lighting area
target system: purpose, used for, use
system: system, group, wash, function, job, lighting system, system name
channel: channel, channel no, control, control channel, control no
circuit: circuit, circuit no, circuit name, dimmer, dimmer no, dimmer circuit, circuit dimmer, outlet
circuit: socket, plugged into, dimmer or circuit
colour: colour, gel, filter, colour gel, gel colour, gel no, colour no, filter no, colour filter, medium
colour: colour medium, gel filter, filter colour, colour frost, colour and frost, gel frost, gel and frost
colour: colour diffusion, gel diffusion, colour and diffusion, gel and diffusion
count: count, qty, quantity, how many, pcs, pieces, no of units, amount
mount: mount, mounting, mount type, hang type, hanging method, rigging, how hung
arm: arm, sidearm, side arm, arm length, side arm length
arm_to: arm to, arm towards, arm toward, arm direction
transmission: transmission, transmittance
note: note, remark, comment, accessories, accessory, special instructions
"""


def _phrases() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for line in _TRADE.strip().splitlines():
        keys, _, phrases = line.partition(": ")
        found |= dict.fromkeys(phrases.split(", "), tuple(keys.split()))
    return found


_PHRASES = _phrases()
_BY_WORDS = {frozenset(phrase.split()): keys for phrase, keys in _PHRASES.items() if " " in phrase}
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
}

_LENGTHS = {
    **dict.fromkeys(("ft", "feet", "foot", "'"), "ft"),
    **dict.fromkeys(("in", "ins", "inch", "inches", '"'), "in"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("cm", "centimetres", "centimeters"), "cm"),
    **dict.fromkeys(("mm", "millimetres", "millimeters"), "mm"),
}
_PLAIN_KEYS = {key.replace("_", ""): key for key in KEYS}
WORD_NEAR = 0.7  # and how like each of its words must be
TOGETHER_NEAR = 0.95  # or all of them without their spaces: "posi tion"
NEAR = 0.8  # how like a known heading a misspelled one must be (difflib's ratio)
LONGEST = 40  # characters; a longer cell is no heading


class Meaning(NamedTuple):
    """What one heading may mean."""

    keys: tuple[str, ...] = ()  # likeliest first; none where it is no key
    exact: bool = False  # spelled as the key is
    rank: int = 0  # 0 before 1 where two columns claim a key
    unit: str = ""  # the length unit that the heading names: "(cm)"
    near: bool = False  # read in spite of a slip of the finger
    end: str = ""  # SL, SR, US or DS: places count from that end of the position
    plus: str = ""  # the side that the heading gives to figures without a minus


_known: dict[str, Meaning] = {}


def meaning(heading: object) -> Meaning:
    """What a heading means, in spite of case, spaces, marks, plurals and spelling of either shore."""
    text = "" if heading is None else str(heading)
    if text not in _known:
        if len(_known) > 10_000:
            _known.clear()
        _known[text] = _meaning(text)
    return _known[text]


def _meaning(text: str) -> Meaning:
    if len(text) > LONGEST or not text.strip() or text.isdigit():
        return Meaning()
    key = _PLAIN_KEYS.get(re.sub(r"[\s_-]", "", text.strip().strip('"').lower()))
    if key is not None:
        return Meaning((key,), exact=True)
    text, plus = _taken_out(_PLUS, _sides(text))
    text, end = _taken_out(_END, text)
    if plus:
        text = re.sub(r"[\(\[][^\)\]]*[\)\]]|[/,;]?\s*[-–−]\s*=?\s*(?:sl|sr|us|ds)\b", " ", text)
    words, unit = _words(text)
    phrase = " ".join(words)
    if re.search(r"\bfrom (?:sl|sr|us|ds)\b", text):
        return Meaning()  # from its end, or from the centre line towards it
    if end or plus:
        keys = _keys_of(words) or (("at",) if end and not words else ())
        return Meaning(keys, unit=unit, end=end, plus=plus) if keys == ("at",) else Meaning()
    keys = _keys_of(words)
    if not keys:
        keys = _first_of(text)
        keys = () if keys and keys[0] in AT_PARTS else keys  # "SL or SR" is neither
    if unit and phrase in ("position", "location"):
        keys = ("at",)  # the name of a pipe has no unit
    if keys and unit and not set(keys) & {"at", HEIGHT, "arm", "connector", *AT_PARTS}:
        unit = ""
    if text.strip(" .()[]").casefold() in _LENGTHS:  # alone over a column, said of a place
        part = {"ft": "at_feet", "in": "at_inches"}.get(_LENGTHS[text.strip(" .()[]").casefold()])
        return Meaning((part,) if part else ())
    return Meaning(keys, rank=_WEAKER.get(phrase, 0), unit=unit)


def _keys_of(words: list[str]) -> tuple[str, ...]:
    """What words mean, in whatever order, with their little ones or without."""
    keys = _PHRASES.get(" ".join(words), ())
    if not keys and len(words) > 1:
        plain = [word for word in words if word not in ("the", "of", "or", "to", "from")]
        keys = _PHRASES.get(" ".join(plain), ()) or _BY_WORDS.get(frozenset(words), ())
    return keys


def _first_of(text: str) -> tuple[str, ...]:
    """What the first of two things in a heading means, where the second is no key of its own: "Colour
    & Template"."""
    parts = re.split(r"\s*(?:&|\+|,|;|/|\band\b)\s*", text.casefold().replace("c/l", "cl"))
    if len(parts) < 2 or not all(parts):
        return ()
    first, *others = (_keys_of(_words(part)[0]) for part in parts)
    return first if first and not any(other and other != first for other in others) else ()


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


_PLUS = re.compile(
    r"\+\s*(?:=|is|to|towards?|for|:)?\s*(sl|sr|us|ds)\b|\b(sl|sr|us|ds)\s*(?:=|is|:)?\s*\+"
)
_END = re.compile(
    r"(?:\b(?:from|off|to)\s+)?(?:the\s+)?\b(sl|sr|us|ds)\s+end\b(?:\s+of\s+(?:the\s+)?(?:pipe|bar))?"
)


def _taken_out(pattern: re.Pattern[str], text: str) -> tuple[str, str]:
    """A heading without what a pattern finds, and the side that this names, "" where there is none."""
    found = pattern.search(text)
    if found is None:
        return text, ""
    side = (found[1] or (found[2] if pattern.groups > 1 else "")).upper()
    whole = re.search(r"[\(\[][^\)\]]*" + re.escape(found[0]) + r"[^\)\]]*[\)\]]", text)
    return text.replace(whole[0] if whole else found[0], " "), side


def _sides(text: str) -> str:
    """A heading in lower case with its sides as SL, SR, US and DS."""
    plain = text.casefold()
    for pattern, side in _SIDES:
        plain = re.sub(pattern, side, plain)
    return plain


_SIDES = (
    (r"\bhouse[\s-]*left\b|\bhl\b", "sr"),
    (r"\bhouse[\s-]*right\b|\bhr\b", "sl"),
    (r"\bstage[\s-]*left\b|\bs\.l\b\.?", "sl"),
    (r"\bstage[\s-]*right\b|\bs\.r\b\.?", "sr"),
    (r"\bup[\s-]*stage\b|\bu\.s\b\.?", "us"),
    (r"\bdown[\s-]*stage\b|\bd\.s\b\.?", "ds"),
)


def _words(text: str) -> tuple[list[str], str]:
    """A heading's words in their plain form, and the length unit that it names."""
    plain = (
        text.casefold()
        .replace("c/l", "cl")
        .replace("c.l.", "cl")
        .replace("℄", "cl")
        .replace("#", " no ")
    )
    plain = re.sub(r"\bfrom c l\b", "from cl", plain)
    unit = ""
    bracketed = re.search(r"[\(\[]\s*([^\)\]]*?)\s*\.?[\)\]]", plain)
    if bracketed and bracketed[1].strip(".") in _LENGTHS:
        unit = _LENGTHS[bracketed[1].strip(".")]
        plain = plain.replace(bracketed[0], " ")
    words = [_WORDS.get(word, word) for word in re.findall(r"[^\W_]+|[°№]", plain)]
    if len(words) > 1 and not unit:
        for end in (0, -1):
            if words[end] in _LENGTHS:
                unit = _LENGTHS[words.pop(end)]
                break
    return [word for word in words if word != "the"], unit


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
