"""Positions over their units that a row names beside another word for them, "Spot Bar (LX1)", or in several
cells: "Position | LX 1 | Trim | 6 m", "LX | 1", the same name in each cell."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.meant import Names
from aimcalc.scene.hanglist.names.sections import position_in, titled_positions

LONGEST = 80  # characters of such a cell
MOST_PARTS = 4
MOST_CELLS = 8
FEWEST_ALIKE = 3  # cells of a row that repeat one name, as merged cells are saved
LONGEST_COUNT = 3  # characters of the number of a position in a cell of its own


def named_twice(words: str, positions: Names) -> str | None:
    """The one position that a part of a cell spells, where each other part is a word for a position, its
    number, its trim or a count: "No. 2 (LX2)", "Spot bar - LX1", "LX1 spot bar"; None of any other."""
    plain = words.strip(" *_#·•\"'“”")
    if not plain or len(plain) > LONGEST:
        return None
    parts = [part.strip(" .:") for part in _APART.split(_INDEX.sub("", plain)) if part.strip(" .:")]
    if len(parts) > MOST_PARTS:
        return None
    each = [(part, _spelled(part, positions)) for part in parts]
    named = {name for _, name in each if name}
    if not named and len(parts) == 1:
        return _before_alias(parts[0], positions)
    if len(named) != 1:
        return None
    (name,) = named
    others = [part for part, own in each if own is None]
    fit = all(
        _MORE.fullmatch(part)
        or (_is_alias(part, name) and positions.find(part).name in (None, name))
        for part in others
    )
    return name if fit else None


def _is_alias(part: str, name: str) -> bool:
    """Whether words may stand for a position: those of no bar, where its name has them too."""
    if not _ALIAS.fullmatch(part):
        return False
    other = _NO_BAR.search(part)
    return other is None or other[0].casefold().rstrip("s") in name.casefold()


def named_on_tab(tab: str, positions: Names) -> str | None:
    """The position that the name of a sheet spells beside its own number or words for a list: "01_LX1",
    "Hang LX1", "LX1 rev3", "Show - LX1"; None where it names several."""
    if len(tab) > LONGEST:
        return None
    if name := position_in(tab, positions) or named_twice(tab, positions):
        return name
    words = [word for word in re.split(r"[\s_]+", tab) if word.strip("-–—")]
    first = next((k for k, word in enumerate(words) if not _TAB.fullmatch(word)), 0)
    last = next((k for k in range(len(words), 0, -1) if not _TAB_END.fullmatch(words[k - 1])), 0)
    ways = (
        words[start:end] for start in range(first + 1) for end in range(len(words), last - 1, -1)
    )
    named = {name for way in ways if (name := positions.spelled(" ".join(way)))}
    named = named or set(titled_positions(tab, positions))
    return named.pop() if len(named) == 1 else None


def _spelled(part: str, positions: Names) -> str | None:
    """The position that a part spells, with whose it is before it or its units behind: "house LX1"."""
    ways = (part, _WHOSE.sub("", part), _UNITS.sub("", part))
    return next((name for way in ways if way and (name := positions.spelled(way))), None)


def _before_alias(words: str, positions: Names) -> str | None:
    """The position that the first words of a cell spell, the rest being another word for a bar."""
    each = words.split()
    for count in range(len(each) - 1, 0, -1):
        name = positions.spelled(" ".join(each[:count]))
        if name:
            return name if _BAR.fullmatch(" ".join(each[count:])) else None
    return None


def in_cells(cells: Sequence[str], positions: Names) -> str | None:
    """The position that several cells of a row name and nothing else."""
    if len(cells) >= FEWEST_ALIKE and len(set(cells)) == 1:
        return positions.spelled(cells[0])
    if not 2 <= len(cells) <= MOST_CELLS:
        return None
    if len(cells) == 2 and re.search(r"[^\W\d_]", cells[0]) and len(cells[1]) <= LONGEST_COUNT:
        name = None if positions.find(cells[0]).name else positions.spelled(" ".join(cells))
        if name:
            return name
    if not (_LABEL.fullmatch(cells[0]) and all(map(_MORE.fullmatch, cells[2:]))):
        return None
    return positions.spelled(cells[1])


_LIST = r"hang(?:s|ing)?|lists?|sheets?|plots?|units?|lights?|lanterns?|schedule"
_TAB = regex(rf"\d{{1,2}}[.)]?|[a-h][.)]?|p\.?\d{{1,2}}|{_LIST}", re.IGNORECASE)
_TAB_END = regex(
    rf"\(\d{{1,2}}\)|(?:v|r|rev\.?)\d{{1,2}}|final|latest|current|{_LIST}", re.IGNORECASE
)
# Bars and other positions in the words of several languages, at the end of a word too: "Beleuchtungszug".
_SORT = (
    r"(?:\w*(?:bar|bars|pipe|batten|truss|zug|stange|rohr|traverse|brücke|brug|trek)|electrics?|elec|lx|booms?|perch"
    r"|ladder|tower|bridge|stand|rail|position|pos|line|lineset|turm|portal|perches?|pont|cintre|herse|rampe|tour"
    r"|americana|ponte|barra|torre|vara|varal|toren|bom|rå|torn|tårn|tanko|silta|sztankiet|most|wieża|tah|věž|catwalk"
    r"|cove|slot|gallery)"
)
_NO_BAR = regex(
    r"booms?|perch(?:es)?\b|ladders?|towers?|bridges?|stands?|rails?|turm|tour\b|torre|toren|torn|tårn|wieża|věž|catwalk|cove"
    r"|slot|gallery|pont\b|ponte|most\b|silta|portal|line",
    re.IGNORECASE,
)
_NUMBER = r"(?:no\.?|nr\.?|number|#)?\s*(?:\d{1,2}|one|two|three|four|five|six|[ivx]{1,4}|[a-h])"
_ORDINAL = (
    r"(?:\d(?:st|nd|rd|th|\.|er|e|ème|º|ª)|first|second|third|fourth|fifth|last"
    r"|erste[rs]?|zweite[rs]?|dritte[rs]?)"
)
_ALIAS = regex(
    rf"(?:(?:the|our|your|house|\w+['’]s)\s+)?(?:[^\W\d_]+\s+){{0,2}}(?:{_ORDINAL}\s+)?{_SORT}(?:\s+{_NUMBER})?"
    r"(?:\s+(?:s\.?[lr]\.?|p\.?s\.?|o\.?p\.?|left|right|us|ds))?"
    rf"|(?:no\.?|nr\.?|number|#)\s*\d{{1,2}}|{_ORDINAL}",
    re.IGNORECASE,
)
_BAR = regex(
    r"(?:[^\W\d_]+\s+){0,2}(?:bar|pipe|batten|zug|stange|perche|trek|barra)", re.IGNORECASE
)
_WHOSE = regex(
    r"^(?:(?:the|our|your|their|house|venue|theatre|=|here|really|now|on)\s*)+|\s+(?:on|in)\s+(?:the|our|your)\s+"
    r"(?:plan|plot|drawing|house\s+list)$",
    re.IGNORECASE,
)
_UNITS = regex(
    r"\s+(?:units?|lights?|lamps?|lanterns?|list|hang|fixtures?|instruments?|schedule|geräte|lampen|scheinwerfer"
    r"|appareils|projecteurs|proiettori|aparatos|focos|toestellen|armaturer)$",
    re.IGNORECASE,
)
_APART = regex(
    r"\s*[()\[\]/|;]\s*|\s*[:,](?=\s|$)|\s+[-–—]+\s+|,?\s+(?:i\.?e\.?|a\.?k\.?a\.?|alias|known\s+as|called|d\.?h\.?|also)\s+",
    re.IGNORECASE,
)
_INDEX = regex(r"^(?:\d{1,2}|[a-z])[.)]\s+", re.IGNORECASE)
_LENGTH = r"\d+(?:[.,]\d+)?\s*(?:m|cm|mm|ft|feet|['’′])(?:[\s-]*\d+(?:\s*(?:in|[\"”″]))?)?"
_THINGS = (
    r"(?:units?|lamps?|lights?|fixtures?|lanterns?|instruments?|heads?|geräte|lampen|appareils|projecteurs"
    r"|proiettori|aparatos)"
)
_MORE = regex(
    rf"(?:(?:trim|height|high|hung|flown|at|@|höhe|hauteur|altezza|altura|hoogte|höjd|høyde)\s*(?:height)?\s*[:=]?\s*)?(?:{_LENGTH})?"
    rf"|\d{{1,3}}(?:\s*x)?\s*{_THINGS}?|{_THINGS}\s*[:=]?\s*\d{{0,3}}|(?:sheet|page|card|list|section|part|blatt|seite|feuille)\s*\d{{1,2}}"
    r"(?:\s*(?:of|/)\s*\d{1,2})?|\d+(?:[.,]\d+)?\s*k?[wg]|trim",
    re.IGNORECASE,
)
_LABEL = regex(
    r"\W*(?:(?:hang(?:ing)?\s+)?(?:position|location|pos|loc)|bar|pipe|batten|electric|lx(?:\s+bar)?|boom|truss"
    r"|zug|perche|pont|barra|vara|trek|standort|emplacement|posizione|posición|positie|plats|plassering)\W*",
    re.IGNORECASE,
)
