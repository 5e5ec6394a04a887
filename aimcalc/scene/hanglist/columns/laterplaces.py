"""Where units hang now, in a column beside that of where they hung: "Moved to" beside "Distance"."""

from __future__ import annotations

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.byvalues import told
from aimcalc.scene.hanglist.columns.columnclaims import Claiming, Shares
from aimcalc.scene.hanglist.columns.columnkeys import AT_PARTS, ELSE, SIDE
from aimcalc.scene.hanglist.rows.listrow import is_dash


def moved_places(c: Claiming) -> None:
    """Take for the place a column of those to which units are moved, "Moved to", and where it is empty or
    a dash the column that says where they hang without that. It has its sides, unless the other has none
    either."""
    moved = [k for k, text in enumerate(c.texts) if _MOVED.fullmatch(text.casefold())]
    share = (
        Shares([[None if is_dash(cell) else cell for cell in row] for row in c.below], c.fits)
        if moved
        else c.share
    )
    moved = [k for k in moved if k not in c.keys and places_alone(k, share)]
    olds = [
        k
        for k, found in c.meanings.items()
        if found.keys == ("at",) and k not in moved and k not in c.keys
    ]
    held = {*c.keys.values(), *(key for found in c.meanings.values() for key in found.keys)}
    if len(moved) != 1 or len(olds) != 1 or held & {SIDE, *AT_PARTS} or _is_timed(olds[0], c):
        return
    (new,), (old,) = moved, olds
    if share("place", new) == 1.0 or c.share("place", old) == 0.0:
        c.meanings[new] = c.meanings[old]
        c.keys[new], c.keys[old] = "at", ELSE
        c.holds[new] = told(c.values.of(new))


def places_alone(k: int, share: Shares) -> bool:
    """Whether a column holds places and nothing else."""
    return share("at", k) == 1.0 and (share.of_places(k) or share("length", k) == 1.0)


def said_later(k: int, c: Claiming) -> str:
    """What a column headed by a later time alone says anew: the place, of "Revised", "New" or "3rd" over
    places, and of "Moved to" over one, or over bars the position, and "Refocus to" the target; else ""."""
    if k >= len(c.texts):
        return ""  # a cell beyond the headings
    heading = c.texts[k].casefold()
    moved = _MOVED.fullmatch(heading)
    if moved or _LATER.fullmatch(heading):
        if places_alone(k, c.share) or (moved and c.share("at", k) > 0):
            return "at"
        return "position" if moved and c.share("position", k) > 0 else ""
    return "target" if _REFOCUSED.fullmatch(heading) and c.share("target", k) > 0 else ""


def _is_timed(k: int, c: Claiming) -> bool:
    """Whether a column is headed by a time: "Was" may not hold where the other is empty."""
    return bool(_TIMED.search(c.texts[k].casefold()))


_MOVED = regex(
    r"\W*(?:moved?|re-?hung|re-?hang|relocated?|shift(?:ed)?|correct(?:ed)?|changed?)\s+(?:to|at)\W*"
)
_REFOCUSED = regex(r"\W*re-?(?:focus|aim|point)(?:ed)?(?:\s+(?:to|on|at))?\W*")
_LATER = regex(
    r"\W*(?:new|newest|rev(?:ised|ision)?|updated?|moved?|now|actual(?:ly)?|final|as\s+(?:hung|built|is)|correct(?:ed|ion)"
    r"|changed?|change|(?:re-?hung|relocated|shift(?:ed)?|moved?|changed?|corrected|revised|now)\s+(?:to|at)"
    r"|(?:on\s+)?(?:the\s+)?\d{1,2}(?:st|nd|rd|th)(?:\s+(?:of\s+)?[a-z]{3,9}\.?)?)\W*"
)
_TIMED = regex(r"\b(?:was|were|before|old|prev\w*|former\w*|last|new|now|rev\w*|original\w*)\b")
