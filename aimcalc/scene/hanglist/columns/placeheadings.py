"""Headings of places in free words, which the words of headings do not explain: "Inches? no - FEET from SL
end", "cm (bars: from centre, + SL / towers: above floor)", "Across (m; +SL)". They are read part by part, as
the lines round a table are: the unit, from where it counts, which side a sign is, heights, gaps."""

from __future__ import annotations

import re
from collections.abc import Iterable

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.boomunits import headed_boom_unit
from aimcalc.scene.hanglist.columns.columnclaims import FITTING, SOME_SIDES, Claiming
from aimcalc.scene.hanglist.columns.columnkeys import GAP, HEIGHT, UPSTAGE, Meaning
from aimcalc.scene.hanglist.columns.headingparts import word_lists
from aimcalc.scene.hanglist.columns.headings import LONGEST_PLACE
from aimcalc.scene.hanglist.columns.headingsides import signed_sides, signs_out
from aimcalc.scene.hanglist.columns.tradewords import (
    CENTRES,
    FROM,
    FROM_BELOW,
    GROUNDS,
    HIGH,
    LENGTHS,
    LITTLE,
    MEASURES,
    WORDS,
)
from aimcalc.scene.hanglist.pagelines.sidenames import prompt_plain
from aimcalc.scene.hanglist.pagelines.signpairs import paired_plain
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain, stood
from aimcalc.scene.hanglist.places.stagelines import heads_depths
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.hanglist.tongues.tongues import garden_plain, in_english, unaccented
from aimcalc.scene.mistakes import CLASH, Wrong

# Words of headings: what stands and what hangs, in several languages, and what says a place without a length.
_SAID = """
onto: boom booms tower towers ladder ladders post posts stand stands tree trees pole poles tour tours torre
onto: torres statief statieven pied pieds stativ stative statyw wieza wieze
pipe: pipe bar batten truss zug zuge perche perches trek vara barra stange rail tah
site: at place position location where sitio lugar posto posizione posicion ort stelle plaats plek plads plats
site: emplacement lieu miejsce misto paikka point punto
across: across lateral sideways
upstage: us upstage y depth
setting: setting plaster pros proscenium portal
last: last previous prev before preceding
gap: gap gaps spacing spacings interval intervals step steps
apart: from off to gap space spacing distance
little: a an am an auf sur la le el en sulla pa op na of o or ou oder eller in the from
rung: rung rungs
"""
_OF = word_lists(_SAID)
# A word over lengths that are of something else, or of another time.
_OF_ELSE = regex(
    r"\b(?:weight|watt|amps?\b|price|cost|load|hour|time|date|lens|angle|deg|beam|field|circ|chan|sock|cue|gels?\b|col"
    r"|cable|throw|lumen|reel|drop|safety|tail|lead|chain|sling|iris|shutter|frame|pool|spread|old\b|new\b|was\b|focus"
    r"|aim|target|trim|size|number|count|order|no\b)"
)
_BARE = regex(r"(?<!stage )(?<!house )\b(?:left|right)\b", re.IGNORECASE)
_PARTS = regex(
    r"[()\[\]/;:,+]|\b(?:o|of|ou|oder|eller|lub|bzw)\b|(?<=\s)[-–—−](?=\s|$)|\b(?:then|and|or)\b|(?<=\S)\?"
)
_SIGN_EACH = regex(r"\b(sl|sr|us|ds)\s?\+\s*(sl|sr|us|ds)\s?[-–−](?!\s*\w)")
_FROM_SIDE = regex(
    r"\bfrom\s+(?:the\s+)?(us|ds)\b(?=\s*(?:$|[()\],;/]|in\s|m\b|mm\b|cm\b|ft\b|feet\b))"
)
_NOT = regex(r"\b(?:[a-z]+)\s*\?\s*no\b|\bnot\s+(?:in\s+)?[a-z]+\b")


def place_said(heading: str) -> Meaning:
    """What a heading says of places, part by part; nothing where it says none, or two things at once."""
    if len(heading) > LONGEST_PLACE or re.search(r"[1-9]", heading):
        return Meaning()  # "Rung (18 in)" counts what is so far apart
    text = re.sub(r"(?<=[a-z])(?=[A-Z])|_", " ", heading)
    text = unaccented(garden_plain(in_english(text))).casefold()
    text = re.sub(r"\bcour\b", "sl", re.sub(r"\bjardin\b", "sr", text))
    text = re.sub(r"\bc[/.]\s?l\b\.?", "cl", _NOT.sub(" ", text))
    text = re.sub(r"\bo/p\b\.?", "op", text)  # of the other side alone
    told = signed_sides(paired_plain(stood(text)))
    if told is None:
        return Meaning()  # plus is left, and nobody says whose
    plain = re.sub(r"\bps\b", "sl", re.sub(r"\bop\b", "sr", prompt_plain(sides_plain(told))))
    plain = _FROM_SIDE.sub(r"from \1 end", plain)  # "Dist (from DS)": from the end there
    plain, plus = signs_out(_SIGN_EACH.sub(r"+ \1, - \2, ", plain))
    ends = {end_of(found) for found in ENDS.finditer(plain)}
    if plus is None or len(ends) > 1:
        return Meaning()
    parts = [_words(part) for part in _PARTS.split(ENDS.sub(" , ", plain))]
    parts = [part for part in parts if part]
    words = {word for part in parts for word in part}
    units = {LENGTHS[word] for word in words if word in LENGTHS}
    units -= {"in"} if len(units) > 1 else set()
    if len(units) > 1 or _OF_ELSE.search(" ".join(words)) or _is_open(parts, words):
        return Meaning()
    key = _key_of(parts, words, plus or "", ends, units)
    heights = key in ("at", GAP) and any(map(_says_height, parts))
    return Meaning(
        (key,) if key else (),
        unit=units.pop() if units else "",
        end=ends.pop() if ends else "",
        plus="" if key == UPSTAGE else plus or "",
        sides={"sl", "sr"} <= words,
        heights=heights,
    )


def _key_of(
    parts: list[list[str]], words: set[str], plus: str, ends: set[str], units: set[str]
) -> str:
    """The key of a column by the parts of its heading; "" where they do not say that it is one of places."""
    follows = any(set(part) & _OF["last"] and set(part) & _OF["apart"] for part in parts)
    if follows or words & _OF["gap"]:
        return "" if plus else GAP
    high = [part for part in parts if _says_height(part)]
    if words & _OF["rung"] and units:
        return HEIGHT
    up = any(set(part) & _OF["upstage"] for part in parts) or plus in ("US", "DS")
    across = any(map(_says_across, parts)) or bool(words & _OF["across"]) or plus in ("SL", "SR")
    if up and not (across or ends or high):
        known = _OF["upstage"] | _OF["setting"] | MEASURES | FROM | LITTLE | set(LENGTHS)
        counted = plus != "DS" and (units or plus or words & _OF["setting"])
        return UPSTAGE if counted and words <= known else ""  # and not from a curtain or a wall
    if not high:
        return "at" if (across or ends) and not up else ""
    if across or ends:
        return "" if up else "at"
    sites = _OF["site"] | _OF["pipe"] | _OF["little"] | set(LENGTHS)
    if any(set(part) & _OF["site"] and set(part) <= sites for part in parts):
        return "at"
    if any(heads_depths(" ".join(part)) and len(part) == 1 for part in parts):
        return "at"  # "Höhe / Tiefe (m)"
    known = HIGH | _OF["onto"] | FROM_BELOW | GROUNDS | _OF["little"] | set(LENGTHS)
    return HEIGHT if words <= known else ""


def _words(part: str) -> list[str]:
    """The words of a part of a heading in their plain form."""
    part = _OWNERS.sub("", part)
    found = re.findall(r"[^\W\d_]+|['\"]", part.replace("c/l", "cl"))
    return [WORDS.get(word, word) if word not in LENGTHS else word for word in found]


_OWNERS = regex(  # no feet: "the actor's", "the actors'", "I've"
    r"(?<=[a-z]{3})['’](?=s\b)|(?<=[a-z]{4}s)['’](?=\W|$)|(?<=[a-z])['’](?=(?:ve|re|ll)\b)"
)


def _says_height(part: Iterable[str]) -> bool:
    """Whether a part says a height: "height on post", "up boom", "above floor", "trees: up from deck"."""
    said = set(part)
    return bool(
        said & HIGH
        or ("up" in said and said & (_OF["onto"] | GROUNDS))
        or (said & {"above", "off", "from"} and said & (GROUNDS - {"stage", "level"}))
    )


def _says_across(part: Iterable[str]) -> bool:
    """Whether a part says a place from the centre line: "ft off centre", "mm ex cl", "distance"."""
    said = set(part)
    measured = said & (FROM | {"ex", "v", "depuis"} | set(LENGTHS)) and said & {"c", *CENTRES}
    plain = said <= MEASURES | CENTRES | FROM | LITTLE | _OF["pipe"] | set(LENGTHS)
    return bool(measured or (plain and said & (MEASURES - {"x", "at", "mark"})))


def _is_open(parts: list[list[str]], words: set[str]) -> bool:
    """Whether a heading leaves open whose left it says, which side of two, or from what it counts: "m from
    back wall"."""
    sides = words & {"sl", "sr"}
    told = {"c"} | CENTRES | GROUNDS | _OF["last"] | _OF["setting"] | _OF["onto"] | HIGH
    whence = any({"from", "off", "ex"} & set(part) and not told & set(part) for part in parts)
    return bool(words & {"left", "right", "l", "r"}) or len(sides) == 1 or whence


def spoken_places(c: Claiming) -> None:
    """Read the headings of columns of lengths that the words of headings do not explain, where no row fills
    one of them and a column of places that they do."""
    known = [k for k, found in c.meanings.items() if "at" in found.keys or found.keys[:1] == (GAP,)]
    known += [k for k, key in c.keys.items() if key == "at"]
    known = [k for k in known if c.share("at", k) != 0.0]  # of names, no place
    for k, found in list(c.meanings.items()):
        odd = bool(found.keys and found.unit) and 0.0 <= c.share(found.keys[0], k) < SOME_SIDES
        if found.keys and not odd:
            both = (
                place_said(headed_boom_unit(c.texts[k]).rest)
                if found.end or found.keys == (HEIGHT,)
                else Meaning()
            )
            if found.keys == (HEIGHT,) and _BARE.search(in_english(c.texts[k])):
                c.meanings[k] = found._replace(keys=())  # "Höhe / links": of whom?
            if both.heights and found.keys[0] in ("at", HEIGHT):
                c.meanings[k] = found._replace(heights=True) if found.end else both
            continue
        if max(c.share("at", k), c.share("figure", k)) < FITTING:
            continue
        said = place_said(headed_boom_unit(c.texts[k]).rest)
        if said.keys and not any(_both(k, j, c) for j in known if j != k):
            c.meanings[k] = said


def _both(one: int, other: int, c: Claiming) -> bool:
    """Whether a row fills both of two columns."""
    return any(
        max(one, other) < len(row) and not (blank(row[one]) or blank(row[other]))
        for row in c.values.rows
    )


def one_unit(c: Claiming) -> None:
    """Ask which unit is meant where a heading of places says two, and not of what each is."""
    for k, key in c.keys.items():
        bare = key in ("at", HEIGHT) and k in c.meanings and c.share("figure", k) > 0.0
        if bare and len(headed_boom_unit(_NOT.sub(" ", c.texts[k].casefold())).others) > 1:
            c.asked.append((k, Wrong(_ASK_UNIT, "Write the unit beside each.", rank=CLASH)))


_ASK_UNIT = "one unit of length for the places below a heading, or of which positions each is"
