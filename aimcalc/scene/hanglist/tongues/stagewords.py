"""Stage left and right as they are written in other languages, "toneel links", "Bühne rechts", "scenvänster",
"esquerda de cena": of the stage in one house and as the seats see it in another. They are taken for SL and
SR where the house's own names have left on SL and right on SR; else somebody is asked."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.rows.listrow import Around
from aimcalc.scene.hanglist.tongues.tongues import in_english

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
# The stage's left or right with the stage in brackets behind it, "320 li. (Bühne)", or shortened: "Bü. re.".
_LETTER_LEFT, _LETTER_RIGHT = r"li?|g|e|s|v|iz", r"re?|d|h"
_IN_BRACKETS = regex(
    rf"{_EDGE}(?:({_LEFT}|{_LETTER_LEFT})|{_RIGHT}|{_LETTER_RIGHT})\.?\s*"
    r"[(\[]\s*(?:(?:v|von|vom|vd|d|der|die|de|du|da|do|del|della|van|het|la|le|på|aus|côté|seite)\b\.?\s*){0,3}"
    r"(toneel|b(?:ü|ue|u)(?:hnen?)?|sc[èe]ne|plateau|escena|escenario|cena|palco(?:scenico)?|scen(?:en|e|a)?|jeviště)(?:seite|nseite|kant|zijde|sidan|siden)?\.?"
    r"(\s+(?:aus|gesehen|gezien|sett|set|seen))*\s*[)\]]",
    re.IGNORECASE,
)
_IN_ENGLISH = regex(
    rf"{_EDGE}(?:(l(?:eft)?)|r(?:ight)?)\.?\s*[(\[]\s*(?:(?:as\s+)?(?:seen\s+|viewed\s+)?(?:from|by)\s+)?(?:the\s+)?"
    r"(?:(stage|actors?|performers?)|house|audience|aud)['’.]?s?(?:\s+(?:side|view|pov))?\s*[)\]]",
    re.IGNORECASE,
)
_CUT_SHORT = regex(
    r"(?<![^\W\d_])b(?:ü|ue)(?:hnen?)?(?:\.\s*|[\s-]+)(?:(l(?:i|inks)?)|r(?:e|echts)?)(?![^\W\d_])(?!\.?\s*[/&+|])\.?",
    re.IGNORECASE,
)
_NAMED = regex(r"(?<![^\W\d_])(left|right)(?![^\W\d_])")
_VANSTER = regex(rf"{_EDGE}(?:vänster|venstre){_BEHIND}", re.IGNORECASE)
_ANY = regex(r"toneel|b(?:ü|ue)hne|sc[eèé]n|cena|palco|plateau|jevi", re.IGNORECASE)


# The actor's left or right behind a figure, "4,5 izq. actor", or the spectator's, the same in every house.
_OF_ACTOR = regex(
    rf"(?<=\d)(\s*(?:m|cm|mm)?\.?)\s*\b(?:(left|{_LEFT}|gche|izqda|sin|vänst|vä|li)|(?:right|{_RIGHT}|höger|hög|hö|drte|dte|re))\.?\s*"
    r"(?:(?:de\s+l['’]|de\s+la|dell['’]|d['’]|del|do|des|de|du|vom|van\s+de|von|van|of\s+the|of)\s*)?"
    r"(?:(?:actor|acteur|actrice|actriz|ator|attore|attrice|comédien|schauspieler|darsteller|spieler|speler|performer|player"
    r"|skådespelare|skådespelaren|skuespiller|aktora?|herec|herce|herca)"
    r"|(public|audience|spectator|público|pubblico|publiek|publikum|widza|diváka?))['’]?s?\W*$",
    re.IGNORECASE,
)
# Before the second of a pair, "left and right (stage)", which is not of the second alone.
_PAIRED = regex(
    rf"{_EDGE}(?:left|right|{_LEFT}|{_RIGHT}|{_LETTER_LEFT}|{_LETTER_RIGHT})\.?\s?"
    r"(?:[/&+,|-]\s?|(?:and|or|und|oder|et|ou|en|of|och|og|eller|y|o|e|i)\s)$",
    re.IGNORECASE,
)


def stage_first(text: str) -> str:
    """A text with the stage that stands behind its left or right in brackets before them, in full."""
    if ("(" in text or "[" in text) and len(text) <= LONGEST:
        text = _IN_BRACKETS.sub(_put_first, _IN_ENGLISH.sub(_in_english_order, text))
    if len(text) <= LONGEST:
        text = _OF_ACTOR.sub(
            lambda found: f"{found[1]} {'SL' if bool(found[2]) != bool(found[3]) else 'SR'}", text
        )
    if "b" in text.casefold() and len(text) <= LONGEST:
        text = _CUT_SHORT.sub(lambda found: f"Bühne {'links' if found[1] else 'rechts'}", text)
    return text


def _put_first(found: re.Match[str]) -> str:
    """The side in German, whatever its language: its own words may stand in another order. What is seen from
    the stage is seen so in every house."""
    if _PAIRED.search(found.string[: found.start()]):
        return found[0]
    if found[3]:
        return "SL" if found[1] else "SR"
    return f"Bühne {'links' if found[1] else 'rechts'}"


def _in_english_order(found: re.Match[str]) -> str:
    if _PAIRED.search(found.string[: found.start()]):
        return found[0]
    return f"{'stage' if found[2] else 'house'} {'left' if found[1] else 'right'}"


LONGEST = 60  # characters of a cell of a place


class StageWords:
    """The words of a scene's house for the sides of its stage."""

    def __init__(self, around: Around) -> None:
        self.around = around
        self._own: bool | None = None

    def plain(self, text: str) -> str:
        """A text with "toneel links" as SL, where the house's names tell that it is, and the text not that
        the house sees it so."""
        text = stage_first(text)
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
