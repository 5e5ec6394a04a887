"""Heights on booms that count down from what hangs over them, and not up from the deck: "Boom heights are
measured down from the grid", "ab Schnürboden", "sous le gril", a column "Below grid". How high the grid is,
a line says, "grid at 9 m", or nobody does: then they are asked about.
"""

from __future__ import annotations

import re
from typing import Any

from aimcalc.named import regex
from aimcalc.scene.hanglist.tongues.tongues import unaccented
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import Wrong

LONGEST = 300  # characters of a text that is looked through

_GRID = (  # as they are without their accents
    r"(?:grids?|gridirons?|ceiling|roof|soffit|fly\s?floor|rafters|schn(?:u|ue)rboden\w*|rollenboden|hallendecke"
    r"|decke|dach|grill?e?|cintres?|plafond|peine|telar|parrilla|emparrillado|techo|graticc\w+|soffitto|rollenzolder"
    r"|zolder|teia|urdimento|sno(?:r|re)loft\w*|lin?lav\w*|tak|taket|loft|loftet|tetto|dak|rost|rostu|rostem|provazist\w+|ruszt\w{0,3}"
    r"|sznurown\w+|strop\w{0,3}|ritila\w*|koysisto\w*|katosta|katto)\b"
)
_NO_MORE = (  # behind a name that is part of another: "from grid line A", "off grid 2"
    r"(?!\s*-?\s*(?:lines?|plans?|drawings?|pos\w*|pipes?|bars?|ref\w*|square\w*|pocket\w*|[a-z]?\d{1,2}\b(?![.,'\"]|\s*(?:m|ft|feet)\b)))"
)
_THE = (
    r"(?:(?:the|our|house|lighting|rigging|tension|underside|bottom|of|der|dem|des|den|die|le|la|l|el|il|lo|het|de|du|do"
    r"|da|della|del|dei)\b['’\s]*){0,4}"
)
_FROM = (
    r"(?:from|off|ab|vom|von|depuis|desde|dal|dalla|vanaf|van|fra|fran|od|du|de|da|del|della"
    r"|a\s+partir\s+d[eo]|a\s+partire\s+da)"
)
_UNDER = (
    r"(?:below|under|beneath|underneath|unter|unterhalb|sous|bajo|debajo|sotto|onder|beneden|pod|sob|abaixo|en[\s-]dessous"
    r"|au[\s-]dessous)"
)
_AWAY = (
    r"(?:down|downwards?|abwarts|nach\s+unten|vers\s+le\s+bas|hacia\s+abajo|in\s+giu|naar\s+beneden|nedat"
    r"|nedover|drops?)"
)
_GRID_DOWN = (
    rf"\b{_GRID}\s*(?:to\s+(?:the\s+)?(?:units?|lamps?|clamps?|lights?|lanterns?|yokes?|hook)\b"
    r"|(?:drop|downwards?|down)\b)"
)
_TO_GRID = (
    r"\b(?:dist\w*|drops?|abst\w*|afst\w*|avst\w*|ecart|gap)\s+(?:to|bis|zum|zur|au|al|tot|till|til)"
    rf"\s+{_THE}{_GRID}{_NO_MORE}"
)
_DOWN = (
    rf"(?:\b{_UNDER}\s+(?:(?:of|von|de)\s+)?{_THE}{_GRID}{_NO_MORE}|{_GRID_DOWN}|{_TO_GRID}"
    rf"|\b{_AWAY}\s+{_FROM}\s+{_THE}{_GRID}{_NO_MORE})"
)
_PHRASE = regex(rf"{_DOWN}|\b{_FROM}\s*['’]?\s*{_THE}{_GRID}{_NO_MORE}")
_ABOVE = regex(r"\b(?:up|above)\b[^.;]*\bto\s+the\s")  # from the deck "up to the grid"
# A line that speaks of heights, or of what has them; not of what the grid feeds or carries.
_OF_HEIGHTS = regex(
    r"\b(?:h(?:eights?|ts?|gts?|ohen?|oehen?|auteurs?|oogt\w*|ojd\w*|ojde\w*|oyde\w*)|altur\w+|altezz\w+|wysokos\w+|vysk\w+"
    r"|korkeu\w*|measur\w*|dims?|dimensions|dist\w*|figures|places|all|booms?|towers?|ladders?|trees?|torms?|perch\w*"
    r"|stative?n?|turme?n?|tour\w*|torr[ei]s?|calles?|torens?|gassen\w*|echelles?|masse|maten|cotes|cotas|quote|misur\w+"
    r"|mesur\w+|medid\w+|gemessen|gemeten|abst\w*|metres|meters|feet|ft|cm|mm|m|inches)\b"
)
_OF_ELSE = regex(
    r"\b(?:trims?|fed|feeds?|power\w*|cables?|circuits?|plug\w*|hung|hangs?|hanging|suspended|rigged|safet\w+|pipes?|bars?|battens?)\b"
)
_OF_BOOMS = regex(r"\b(?:heights?|hts?|(?:booms?|towers?|ladders?)\b.*\bmeasured)\b")
_TRIMS = regex(
    r"\b(?:trims?|pipes?|bars?)(?:\s+(?:heights?|hts?))?\b.*\bmeasured\b|\btrim\s+(?:heights?|hts?)\b"
)
_SIZE = (
    r"(\d[\d.,]{0,7}\s*(?:'(?:\s*-?\s*\d[\d./ ]{0,8}\")?|\"|(?:ft|feet|foot|in|m|cm|mm|met(?:re|er|ro)s?"
    r"|metri)\b(?!\.?\d)))"
)
_HIGH = regex(
    rf"\b{_GRID}\W{{0,3}}(?:(?:is|at|height|ht|stands|sits|lies|itself|hohe|liegt|ist|auf|bei|ar|er|a|est|esta|sta|e|alto|alta|di|de|en|op"
    rf"|ligger|pa|na|hoogte|hoog|hauteur|haut|altura|altezza|the|of|clear)\b\W{{0,3}}|[=:]\s*){{0,4}}{_SIZE}"
    r"(?!\s*(?:below|under|down|from|unter|sous|onder|sotto|bajo|(?:or|oder|ou|of|to|/|-|–)\s*\d)|[\s\d.,a-z]*\?)"
)
_CELL = regex(
    rf"^(\D{{0,3}}\d[^a-z]*(?:(?:ft|feet|in|m|cm|mm)\b\.?)?[^a-z]*?(?:\d[^a-z]*(?:(?:in|cm)\b\.?)?)?)\s*\W?(?:{_DOWN}|\b{_FROM}\s*['’]?\s*{_THE}{_GRID}{_NO_MORE})\W*(?:{_AWAY})?\W*$"
)


def says_grid(words: str) -> bool:
    """Whether a line says that heights on booms count down from the grid; what pipes hang from, or what the
    grid feeds, is nothing such."""
    plain = _plain(words)
    rest = _PHRASE.sub(" ", plain)
    if rest == plain or _ABOVE.search(plain):
        return False
    if not re.search(r"[^\W\d_]", _UNIT.sub(" ", rest)):
        return True  # "Drop from grid (m)"
    other = _TRIMS.sub(" ", rest)
    if other != rest or _OF_ELSE.search(rest):
        return bool(_OF_BOOMS.search(other))
    return bool(_OF_HEIGHTS.search(rest))


def grid_heights(words: str) -> tuple[float, ...]:
    """How high a line says that the grid is, in metres; without a unit it says nothing."""
    found = []
    for one in _HIGH.finditer(_plain(words)):
        try:
            found.append(parse_length(one[1].strip(" .")))
        except Wrong:
            continue
    return tuple(found)


def heads_grid(heading: str) -> bool:
    """Whether a heading says that the figures under it count down from the grid."""
    return bool(_PHRASE.search(_plain(heading)))


def heading_plain(heading: str) -> str:
    """A heading that counts down from the grid, in whatever words, as "below grid", with its unit."""
    plain = _plain(heading)
    rest = _PHRASE.sub(" ", plain)
    if rest == plain:
        return heading
    unit = _UNIT.search(rest)
    return f"below grid ({unit[0]})" if unit else "below grid"


_UNIT = regex(r"\b(?:m|cm|mm|ft|feet|in|inches|metres|meters)\b")


def grid_out(cell: Any) -> tuple[Any, bool]:
    """A place on a boom without the grid that it counts down from, "14 ft below grid", and whether it
    does."""
    if not isinstance(cell, str) or not any(map(str.isalpha, cell)):
        return cell, False
    plain = _plain(cell)
    found = _CELL.match(plain) if _PHRASE.search(plain) else None
    return (found[1].strip(" ,("), True) if found else (cell, False)


def below_grid(
    metres: float, grids: tuple[float, ...], reach: tuple[float, float], slack: float = 0.01
) -> float:
    """A height on a boom that counts down from the grid.

    Raises:
        Wrong: where nothing says how high the grid is, two lines say it, or the place is not on the boom.
    """
    if len(set(grids)) != 1:
        raise Wrong(
            "a height above the deck: this one counts down from the grid, or what else is overhead, and "
            + ("lines say two heights of it" if grids else "nothing says how high that is"),
            'Write a line in the list that says it, such as "grid at 9 m", or the height above the deck.',
        )
    foot, top = reach
    found = grids[0] - metres
    if top > grids[0] + slack:
        raise Wrong("a grid that is above the boom", "Check the height of the grid.")
    if not foot - slack <= found <= top + slack:
        raise Wrong(
            "a place that is on the boom, down from the grid", "Check the height of the grid."
        )
    return found


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        return ""
    return " ".join(unaccented(text.casefold().replace("’", "'").replace("′", "'")).split())
