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

# What stands for a target where there is none, or none yet, or all of the stage.
NO_TARGET = regex(
    r"\s*(?:-+|–|—|/|\?+|n\.?/?a\.?|none|t\.?b\.?(?:a|c|d|n)\.?"
    r"|(?:no|not|un)[\s-]?(?:focus(?:s?ed)?|target|aim)"
    r"|mov(?:er?s?|ing|ements?)(?:\s+(?:heads?|lights?))?(?:\s*[-–—:,]\s[^;]{0,40})?"
    r"|all over|everywhere|various|general|effects?|fx|programmed|busk(?:ed|ing)?"
    r"|(?:(?:whole|full|all|general|stage|colou?r|over\s?all)\s+)+(?:stage|wash|cover)|wash"
    r"|[uü]berall|diverse?s?|divers|partout|varios|vari|overal|hela scenen|allgemein)\s*"
    r"(?:\([^()]{0,40}\)\s*)?",
    re.IGNORECASE,
)

# Centre stage in words, and the names that it has where each of nine parts of the stage has its own.
CENTRE_STAGE = regex(
    r"\s*(?:the\s+)?(?:(?:cent(?:re|er)|ctr|mid(?:dle)?|c)[\s./-]*(?:stage|s)\.?|stage[\s-]+cent(?:re|er))\s*",
    re.IGNORECASE,
)
CENTRES = ("csc", "msc")

_BESIDE = """
warm cool cold front back side top down high low key fill wash light lights backlight toplight sidelight
frontlight downlight special spec spcl soft sharp edge wm wrm clr cl bk bkl chill steel lav
 hard general cover acting playing head heads mid mids
shin shins knee knees kicker kickers tight wide clear cross sun moon day night dawn dusk glow
bax bx bkl sx frt diag hi lo
red blue green amber pink lavender straw purple yellow white orange gold
"""
BESIDE = regex(rf"\b(?:{'|'.join(_BESIDE.split())})\b", re.IGNORECASE)
# Those that are also words for a part of the stage, before its side or its middle: "Down Center", and "Front
# left", of which the first is never light alone.
_SIDED = r"(?=\W*\b(?:cent\w*|cntr|ctr|middle|left|right|[lrc])\b)"
_PART = regex(rf"\b(?:front|back|side|top|high|low|down|mids?|cross)\b{_SIDED}", re.IGNORECASE)
_ROW = regex(rf"\b(?:down|mids?)\b{_SIDED}", re.IGNORECASE)


def apart_from_light(text: str, *, whole: bool = False) -> tuple[str, str]:
    """A cell without the words that say how, from where or in which cue its target is lit, "Cyc from
    above", "Sofa blue from SL", "Bench LQ 12", and those words; with `whole` those stay that may say with a
    side where it is, "Back Left"."""
    if len(text) > LONGEST:
        return text, ""
    said: list[str] = []
    for words in (_AT, _CUE, _FROM, _LIGHT, BESIDE):
        kept = {found.start() for found in (_PART if whole else _ROW).finditer(text)}
        gone = [found for found in words.finditer(text) if found.start() not in kept]
        said += (found[0].strip(" ,(") for found in gone)
        for found in reversed(gone):
            text = f"{text[: found.start()]} {text[found.end() :]}"
    return " ".join(text.strip(" -\u2013,;()/").split()), " ".join(said)


LONGEST = 100
# From where a target is lit, which is no part of its name, in a dozen languages.
_FROM = regex(
    r"(?<=\w)[\s,(]+(?:lit\s+)?(?:(?:straight\s+|directly\s+|high\s+|low\s+)?from\s+(?:the\s+)?(?:above|below|behind|beneath"
    r"|underneath|overhead|front|back|rear|top|sides?|(?:both|either)\s+sides?|foh|up|down|(?:up|down)stage|us|ds"
    r"|(?:stage\s+|house\s+)?(?:left|right)|[sh]\.?[lr]|[lr]|ps|op|in\s+front)"
    r"|von\s+(?:oben|unten|vorne?|hinten|links|rechts|der\s+seite|beiden\s+seiten)"
    r"|(?:vu\s+)?(?:de|du|par)\s+(?:face|dessus|dessous|c[oô]t[eé]|derri[eè]re|haut|bas|l['’]arri[eè]re)|d['’]en\s+(?:haut|bas)"
    r"|dall?['’]\s?alto|dal\s+(?:basso|fronte|davanti|dietro|lato|retro)|da\s+(?:dietro|sopra|sotto|davanti)"
    r"|(?:desde|de|por)\s+(?:arriba|abajo|atr[aá]s|detr[aá]s|delante|cima|baixo|tr[aá]s|frente)"
    r"|van\s+(?:boven|onder(?:en)?|achter(?:en)?|voor|voren|opzij|links|rechts)"
    r"|(?:ovan|under|bak|fram|upp)ifr[aå]n|fr[aå]n\s+sidan|(?:oven|neden|bag|bak|for)fra|fra\s+siden"
    r"|ylh[aä][aä]lt[aä]|alhaalta|takaa|edest[aä]|sivulta"
    r"|z\s+(?:g[oó]ry|do[lł]u|ty[lł]u|przodu|boku)|shora|zdola|zezadu|zep[rř]edu)"
    r"(?:\s+(?:high|low|only))?(?=[\s)]*$|\s*[(,;–-])",
    re.IGNORECASE,
)
# That it is aimed there; and in which cue.
_AT = regex(
    r"^\s*(?:(?:aim(?:s|ed|ing)?|point(?:s|ed|ing)?|focus(?:es|s?ed|s?ing)?|hits?|hitting|covers?|covering|shoots?)"
    r"(?:\s+(?:at|to|on|onto|into))?|onto|into|at|towards?)\s+(?:the\s+)?(?=\w)",
    re.IGNORECASE,
)
_CUE = regex(
    r"(?<=\w)[\s,(–-]+(?:lx\s?|l)?(?:q|cue)s?\s?\.?\d{1,4}(?:\.\d{1,2})?(?:\s?[-–&,]\s?\d{1,4})?\s*\)?\s*$",
    re.IGNORECASE,
)
# Light by the way it comes, or what breaks it, in one word.
_LIGHT = regex(
    r"(?<!\w)(?:n/c|o/w)(?!\w)|\b(?:(?:gegen|front|seiten|ober|vorder|hinter|kontra)licht|gasse|contre(?:-?jour)?|douche|lat[eé]ra(?:l|ux|le)"
    r"|controluce|contraluz|cenital|contra-?luz|(?:tegen|zij|top|front)licht|(?:mot|sido?|topp?|front)ljus"
    r"|(?:mod|mot|side|topp?|front)lys|(?:taka|etu|sivu|yl[aä])valo|gobos?|break-?ups?|dapple|texture|template|pattern)\b",
    re.IGNORECASE,
)
