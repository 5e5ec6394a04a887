"""Words of targets that stand for one another, and those beside one that say how it is lit."""

from __future__ import annotations

import re

from aimcalc.named import regex

TARGET_SPARE = ("area", "zone", "acting", "section", "point", "the")  # "area A" of A
_PLAYERS = {
    **dict.fromkeys(("vox", "vocals", "voc"), "vocal"),
    **dict.fromkeys(("gtr", "guitars", "gtrs"), "guitar"),
    **dict.fromkeys(("keyboard", "keyboards", "kbd", "keys"), "key"),
    **dict.fromkeys(("drums", "kit", "drumkit", "drum"), "drum"),
}
# Things of a set that a careful reader takes for each other, where the scene has one of them alone.
_THINGS = {
    **dict.fromkeys(("stairs", "staircase", "stair", "steps", "step", "stairway"), "stair"),
    **dict.fromkeys(("backcloth", "backdrop", "cloth", "drop"), "cloth"),
    **dict.fromkeys(("cyc", "cyclorama"), "cyc"),
    **dict.fromkeys(("sofa", "couch", "settee"), "sofa"),
    **dict.fromkeys(("doorway", "door"), "door"),
}
TARGET_WORDS: tuple[dict[str, str], ...] = (_PLAYERS, _PLAYERS | _THINGS)

# Centre stage in words, and the names that it has where each of nine parts of the stage has its own.
CENTRE_STAGE = regex(
    r"\s*(?:the\s+)?(?:(?:cent(?:re|er)|ctr|mid(?:dle)?|c)[\s./-]*(?:stage|s)\.?|stage[\s-]+cent(?:re|er))\s*",
    re.IGNORECASE,
)
CENTRES = ("csc", "msc")

_BESIDE = """
warm cool cold front back side top down high low key fill wash light lights backlight toplight sidelight
frontlight downlight special spec spcl soft sharp edge hard general cover acting playing head heads mid mids
shin shins knee knees kicker kickers tight wide clear cross sun moon day night dawn dusk glow
bax bx bkl sx frt diag hi lo
red blue green amber pink lavender straw purple yellow white orange gold
"""
BESIDE = regex(rf"\b(?:{'|'.join(_BESIDE.split())})\b", re.IGNORECASE)
