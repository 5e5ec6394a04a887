"""Which way north is in a house, as the names of its positions and targets tell: "North Aisle Pipe" and
"South Aisle Pipe" on either side, or a North Aisle alone that lies on one."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import Around

COMPASS = ("north", "east", "south", "west")  # clockwise, as the sides below
CLOCKWISE = ("us", "sl", "ds", "sr")
ASIDE = 1.0  # metres


def names_of(around: Around) -> list[tuple[str, float, float]]:
    """The targets and straight pipes of a scene with where their middle is."""
    found = [(name, x, y) for name, (x, y) in around.spots.items()]
    for name, place in around.places.items():
        if place.pipe is not None:
            (x, y, *_), (x2, y2, *_) = place.pipe.start, place.pipe.end
            found.append((name, (x + x2) / 2, (y + y2) / 2))
    return found


def in_points(text: str) -> str:
    """A text with the points of the compass of other languages in English: "2 m nord", "Südempore"."""
    return _FOREIGN.sub(lambda found: point_of(found[1]) or found[0], text)


_POINTS = {
    "north": "n nord norden norte noord noorden norra norr nordre",
    "south": "s süd süden sud sur sul zuid zuiden södra söder syd søndre sør sydlig",
    "east": "e ost osten est este leste oost oosten öst östra øst østre",
    "west": "w westen ouest oeste ovest väst västra vest vestre",
}
_FOREIGN = regex(  # and not "est", "este" and "vest", which are words of their own
    r"(?<![^\W\d_])(nord|norte|noord|norra|norr|nordre|süd|sud|zuid|södra|söder|syd|søndre|sør"
    r"|ost|oost|öst|östra|øst|østre|ouest|oeste|ovest|väst|västra|vestre)(?:liche[rnsm]?|er|seite|kant|sida|side)?(?![^\W\d_])",
    re.IGNORECASE,
)
_O_IS = regex(
    r"(?<!\w)O\s*(?:=|:|ist|is)\s*(?:[^\W\d_]+\s+){0,2}?(ost|oost|öst|øst|est|ouest|oeste|ovest)(?:seite|kant|sida|side)?(?!\w)",
    re.IGNORECASE,
)
LONGEST_SAID = 300  # characters of a line that says what the letter O is


def o_said(line: str) -> str:
    """East or west, where a line says that the letter O is one of them: "O = zur Ostseite", "O = ouest"; ""
    where it says neither."""
    found = _O_IS.search(line[:LONGEST_SAID])
    return point_of(found[1]) if found else ""


_POINT_OF = {word: point for point, words in _POINTS.items() for word in (point, *words.split())}


def point_of(word: str) -> str:
    """The point of the compass that a word beside a sign is, in whatever language; "" for another. Letters
    are capitals: "e" is a word of its own in some."""
    point = _POINT_OF.get(word.casefold(), "")
    return "" if len(word) == 1 and word.islower() else point


def compass_of(around: Around) -> dict[str, str]:
    """Which way the points of the compass are, by the end of the stage at which each lies; nothing where no
    name tells it, or two do not agree. A pair that differs by the point alone tells more than one name."""
    booms = [(name, p.x, p.y) for name, p in around.places.items() if p.sort == "boom"]
    where = {
        " ".join(in_points(name).casefold().split()): (x, y)
        for name, x, y in (*names_of(around), *booms)
    }
    turns = _by_pairs(where)
    if turns == set():
        turns = _by_sides(where, around)
    if turns is None or len(turns) != 1:
        return {}
    turn = turns.pop()
    return {word: CLOCKWISE[(k + turn) % 4] for k, word in enumerate(COMPASS)}


def _by_pairs(where: dict[str, tuple[float, float]]) -> set[int] | None:
    """How far the compass is turned, as pairs of names say that differ by one alone; None where a pair lies
    neither across the stage nor along it."""
    turns = set()
    for name, (x, y) in where.items():
        for k, word in enumerate(COMPASS[:2]):
            other = where.get(re.sub(rf"\b{word}\b", COMPASS[k + 2], name))
            if not re.search(rf"\b{word}\b", name) or other is None:
                continue
            across, along = x - other[0], y - other[1]
            if max(abs(across), abs(along)) < ASIDE or min(abs(across), abs(along)) > ASIDE / 2:
                return None
            over, up = "sl" if across > 0 else "sr", "us" if along > 0 else "ds"
            way = over if abs(across) > abs(along) else up
            turns.add((CLOCKWISE.index(way) - k) % 4)
    return turns


def _by_sides(where: dict[str, tuple[float, float]], around: Around) -> set[int] | None:
    """The same by names without a partner: an aisle, a rail up and down the stage, or a boom further aside
    than up, lies on the side that it is named after. None where something of such a name lies in the
    middle: north may be upstage."""
    rails = {name.casefold() for name, place in around.places.items() if place.axis == "y"}
    booms = ((name, place) for name, place in around.places.items() if place.sort == "boom")
    apart = {in_points(name).casefold() for name, place in booms if abs(place.x) >= abs(place.y)}
    turns = set()
    for name, (x, _) in where.items():
        points = [k for k, word in enumerate(COMPASS) if re.search(rf"\b{word}\b", name)]
        if len(points) != 1:
            continue
        if abs(x) < ASIDE:
            return None
        if name in rails or name in apart or _ASIDE_THERE.search(name):
            turns.add((CLOCKWISE.index("sl" if x > 0 else "sr") - points[0]) % 4)
    return turns


_ASIDE_THERE = regex(r"\b(?:aisles?|transepts?|arcade|side|pillars?|columns?|boom)\b")
