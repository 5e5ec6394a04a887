"""Stage left and right as they are written in other languages, "toneel links", "Bühne rechts", "scenvänster",
"esquerda de cena": of the stage in one house and as the seats see it in another. They are taken for SL and
SR where the house's own names have left on SL and right on SR; else somebody is asked."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.listrow import Around
from aimcalc.scene.hanglist.places.tongues import in_english

ASIDE = 1.0  # metres from the centre line of what is to a side
_LEFT = (
    r"links|linke|vänster|venstre|esquerd[ao]|izq(?:uierd[ao])?|sinistr[ao]|gauche|esquerr[ae]|lew[aoy]|vlevo"
    r"|lev[áa]|esq|izda|sx|sin"
)
_RIGHT = (
    r"rechts|rechte|höger|højre|høyre|direit[ao]|derech[ao]|destr[ao]|droite|dret[ao]|praw[aoy]|vpravo"
    r"|prav[áa]|dir|dta|dcha|der|dx|des"
)
_EDGE, _BEHIND = r"(?<![^\W\d_])", r"(?![^\W\d_])"
_STAGE_FIRST = r"(?:toneel|b(?:ü|ue)hnen?|scen(?:e|ens|en|s|a)?|sc[èé]ne|escena|cena)"
_STAGE_LAST = (
    r"\.?(?:\s+(?:strona|stranou))?(?:\s+(?:d[aeio]|des?|du|del|della|dell|de\s+la|der|van|het|w|na|en|em))+\s+"
    r"(?:cena|palco|escena|escenario|escenari|sc[èe]ne|plateau|scena|palcoscenico|sceny|scenie|jeviští?|jevište"
    r"|b(?:ü|ue)hne|toneel)"
)
_OF_STAGE = regex(
    rf"{_EDGE}(?:{_STAGE_FIRST}[\s-]*(?:({_LEFT})|{_RIGHT})|(?:({_LEFT})|(?:{_RIGHT})){_STAGE_LAST}){_BEHIND}",
    re.IGNORECASE,
)
_SHORT = regex(
    r"(?<=\d)\s*(m|cm|mm)?\s*\b(?:T\.?([LR])|S\.?([VH]))\b\.?"
    r"|^\W*(?:T\.?([LR])|S\.?([VH]))\b\.?(?=\W*\d|\W*$)"
)  # "2,8 TL", "2,8 SV"
_NAMED = regex(r"(?<![^\W\d_])(left|right)(?![^\W\d_])")
_VANSTER = regex(rf"{_EDGE}(?:vänster|venstre){_BEHIND}", re.IGNORECASE)
_ANY = regex(r"toneel|b(?:ü|ue)hne|sc[eèé]n|cena|palco|plateau|jevi", re.IGNORECASE)


class StageWords:
    """The words of a scene's house for the sides of its stage."""

    def __init__(self, around: Around) -> None:
        self.around = around
        self._own: bool | None = None

    def plain(self, text: str) -> str:
        """A text with "toneel links" as SL, where the house's names tell that it is, and the text not that
        the house sees it so."""
        short = any(sign in text for sign in ("TL", "TR", "T.", "SV", "SH", "S."))
        if short:
            text = _SHORT.sub(self._in_full, text)
        if not _ANY.search(text) or not _OF_STAGE.search(text) or not self.own:
            return text
        if "house" in in_english(text, line=True):
            return text
        return _OF_STAGE.sub(lambda found: "SL" if found[1] or found[2] else "SR", text)

    def _in_full(self, found: re.Match[str]) -> str:
        """The Dutch TL and TR, and SV and SH in a house with Scandinavian names, in full."""
        letter, scandinavian = found[2] or found[4], found[3] or found[5]
        if scandinavian:
            if not any(map(_VANSTER.search, (*self.around.places, *self.around.targets))):
                return found[0]
            return f" {found[1] or ''} scene {'venstre' if scandinavian == 'V' else 'højre'} "
        return f" {found[1] or ''} toneel {'links' if letter == 'L' else 'rechts'} "

    @property
    def own(self) -> bool:
        """Whether all that is named after a side stands on that side as the stage sees it."""
        if self._own is None:
            places = self.around.places.items()
            across = [(name, place.x) for name, place in places if place.sort != "pipe"]
            across += [
                (name, (place.pipe.start[0] + place.pipe.end[0]) / 2)
                for name, place in places
                if place.pipe is not None
            ]
            across += [(name, x) for name, (x, _) in self.around.spots.items()]
            said = [(_NAMED.findall(in_english(name).casefold()), x) for name, x in across]
            told = [(words[0], x) for words, x in said if len(words) == 1]
            stands = [(word == "left") == (x > 0) for word, x in told if abs(x) >= ASIDE]
            self._own = bool(stands) and all(stands)
        return self._own
