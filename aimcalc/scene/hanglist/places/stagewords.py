"""Stage left and right as the Dutch and the Germans write them, "toneel links", "Bühne rechts": of the stage
in one house and as the seats see it in another. They are taken for SL and SR where the house's own names
have links on SL and rechts on SR; else somebody is asked."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.listrow import Around

ASIDE = 1.0  # metres from the centre line of what is to a side
_SIDE = {"links": "SL", "rechts": "SR"}
_OF_STAGE = regex(
    r"(?<![^\W\d_])(?:toneel|b(?:ü|ue)hnen?)[\s-]*(links|rechts)(?![^\W\d_])", re.IGNORECASE
)
_SHORT = regex(
    r"(?<=\d)\s*(m|cm|mm)?\s*\bT\.?([LR])\b\.?|^\W*T\.?([LR])\b\.?(?=\W*\d|\W*$)"
)  # "2,8 TL"
_NAMED = regex(r"(?<![^\W\d_])(links|rechts)(?![^\W\d_])", re.IGNORECASE)


def _in_full(found: re.Match[str]) -> str:
    letter = found[2] or found[3]
    return f" {found[1] or ''} toneel {'links' if letter == 'L' else 'rechts'} "


class StageWords:
    """The words of a scene's house for the sides of its stage."""

    def __init__(self, around: Around) -> None:
        self.around = around
        self._own: bool | None = None

    def plain(self, text: str) -> str:
        """A text with "toneel links" as SL, where the house's names tell that it is."""
        if "TL" in text or "TR" in text or "T." in text:
            text = _SHORT.sub(_in_full, text)
        if "links" not in text.casefold() and "rechts" not in text.casefold():
            return text
        if not _OF_STAGE.search(text) or not self.own:
            return text
        return _OF_STAGE.sub(lambda found: _SIDE[found[1].casefold()], text)

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
            said = [(_NAMED.findall(name), x) for name, x in across]
            told = [(words[0].casefold(), x) for words, x in said if len(words) == 1]
            stands = [(word == "links") == (x > 0) for word, x in told if abs(x) >= ASIDE]
            self._own = bool(stands) and all(stands)
        return self._own
