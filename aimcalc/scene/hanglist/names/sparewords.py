"""Words of a hang list for what is kept free or in reserve, in a dozen languages: "spare, not rigged",
"empty", "di scorta", "Reserve", "frei"."""

from __future__ import annotations

import re
from functools import lru_cache

from aimcalc.named import regex
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 100  # characters of such a cell

# All in lower case, without accents.
_FREE = (
    r"empty|vacant|unused|not\sused|free|blank|reserved|available|no\sunit|void|frei|leer|unbelegt"
    r"|nicht\sbelegt|libre|lliure"
    r"|nothing(?:\s(?:in|on|at|here|there)\b.*)?|no\s(?:lamp|lantern|light|fixture|instrument)|nix|nichts|niets"
    r"|rien|niente|nada|ingenting|tomt|(?:faulty|dead|broken)?\W*do\snot\suse|dead|out\sof\s(?:order|use)|defekt"
    r"|hors\sservice|fuori\suso|(?:non\s|in)utilise|unbenutzt"
    r"|vide|vuot[oa]|liber[oa]|vaci[oa]|livre|vazi[oa]|vrij|leeg|ledig|vapaa|tyhja|woln[ey]|volne"
)
_SPARE = (
    r"spares?|(?:in\s|the\s)?reserve|(?:di\s|in\s)?(?:scorta|riserva)|ricambio|(?:de\s|en\s)?(?:reserve|secours"
    r"|rechange)|(?:de\s)?(?:reserva|repuesto)"
    r"|sobressalente|suplente|(?:als\s)?reserve\w*|ersatz\w*|reserv|vara(?:lla|valo)?"
    r"|zapas(?:ow[aey])?|rezerwa|rezerva|nahradni"
    r"|tartalek|(?:de\s)?recanvi"
)
_NOUN = (
    r"(?:\s+(?:circuit|channel|ckt|cct|dimmer|outlet|position|place|unit|way|socket|hole|number|no"
    r"|lantern|fixture"
    r"|instrument|head|luminaire|one)s?)?"
)
_HOW = r"(?:(?:1|one|a|hot|hung|hanging|rigged|house|general|as|kept\sas|for|hang\sas|rig\sas)\s+)*"
_TAIL = r"\W*(?:\s[-–—]\s.*|[:(].*)?"
_SPARE_TAIL = (
    r"\W*(?:(?:\s[-–—]+\s?|-\s|[:(\[,;/.–—]).*"
    r"|\s(?:not|do\s+not|don|leave|left|stays?|keep|kept|in|on|for|hung|unfocused|unpatched|nicht"
    r"|im|non|non|ne|no|niet|ej|ikke)\b.*)?"
)
_EITHER = regex(rf"\W*(?:{_FREE}){_NOUN}{_TAIL}|\W*{_HOW}(?:{_SPARE}){_NOUN}{_SPARE_TAIL}")
_IN_RESERVE = regex(rf"\W*{_HOW}(?:{_SPARE}){_NOUN}{_SPARE_TAIL}")
_NUMBERED = regex(r"\W*(?:sp|spr|spare|res)\W?\s*\d{0,2}[a-z]?\W*", re.IGNORECASE)


@lru_cache(4096)
def is_spare(words: str) -> bool:
    """Whether a cell says that nothing hangs there, or a light in reserve."""
    return len(words) <= LONGEST and bool(_EITHER.fullmatch(_plain(words)))


@lru_cache(1024)
def is_in_reserve(words: str) -> bool:
    """Whether a cell says of a light that it is in reserve, "SPARE", "Spares (in store)": "free" may be of a
    place."""
    return len(words) <= LONGEST and bool(_IN_RESERVE.fullmatch(_plain(words)))


def numbered_spare(number: str) -> bool:
    """Whether the number of a unit calls it spare: "SP", "SP 2"."""
    return bool(_NUMBERED.fullmatch(number))


def _plain(words: str) -> str:
    return (words if words.isascii() else unaccented(words)).casefold()
