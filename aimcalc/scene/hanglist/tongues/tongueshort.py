"""Left and right as other languages shorten them, written out: "4,00 sin.", "li/re", "1,5 m dcha."; a word
that is another one too, the Italian "des" or the Spanish "sin", only where it stands as a side does: behind a
figure, alone, beside its opposite. Words for the middle that are others too, "mitt", "oś",
where they stand alone."""

from __future__ import annotations

import re

from aimcalc.named import regex

_DOTTED = (
    "izq",
    "izqda",
    "izda",
    "izdo",
    "der",
    "dcha",
    "dcho",
    "dto",
    "dta",
    "drcha",
    "sx",
    "dx",
    "esq",
    "dir",
    "lks",
)
_LEFT = ("leva", "sin", "sinis", "vas", "gche", "gau", "vst", "lew", "lev", "izqu", "ve", "va")
_RIGHT = (
    "dto",
    "des",
    "dest",
    "oik",
    "dte",
    "dta",
    "hst",
    "praw",
    "prav",
    "drch",
    "ho",
    "dr",
    "pr",
    "prava",
)
_SIDE = (
    r"(?:leva|prava|sin|sinis|vas|gche|gau|vst|lew|lev|izqu|des|dest|oik|dte|dto|dta|hst|praw|prav|drch)\b\.?"
    r"|(?:ve|va|ho|dr|pr)\."
)
_SHORTEST = r"(?:ve|va|ho|dr)\b"  # "310 cm vä", "vä/hö"
_JOINED = r"\s*(?:[-/,|&+]|\b(?:e|y|i|et|og|och|ja|a|und)\b)\s*"
_FULL = {**dict.fromkeys(_LEFT, "left"), **dict.fromkeys(_RIGHT, "right")}


def in_full(plain: str) -> str:
    """A text in lower case and without accents, with left and right as their languages write them out."""
    plain = _SHORTENED.sub(_as_side, plain)
    plain = _FROM_MIDDLE.sub("von ", plain) if "mitte" in plain else plain
    plain = _LI_RE.sub(_written_out, plain)
    plain = _SHORT_RIGHT.sub(lambda found: f"{found[1] or ''} derecha", plain)
    return _ABBREVIATED.sub(r"\1 ", plain)


_FROM_MIDDLE = regex(r"\bv\.?\s*(?:d\.?\s*)?(?=(?:buhnen)?mitte\b)")  # "2 m links v. d. Mitte"


def in_middle(plain: str) -> bool:
    """Whether a text in lower case and without accents says the middle and no more: "mitt", "w osi"."""
    return len(plain) <= LONGEST_MIDDLE and _MIDDLE.fullmatch(plain) is not None


LONGEST_MIDDLE = 40  # characters
_MIDDLE = regex(
    r"\W*(?:0+(?:[.,]0+)?\s*(?:m|cm|mm)?\W*)?(?:(?:precis|exakt|genau|exactement|precies|dokladnie|przesne|tarkalleen)\s+)?"
    r"(?:(?:i|pa|in|im|auf|der|die|dem|am|an|zur|en|el|al|a|au|a\s+l['’]|dans|sur|le|la|l['’]|no|na|nel|nella|ao|w|we|ve|v|o|op|het|de"
    r"|sull['’]|all['’]|nell['’]|sull|all|su|em|sobre|po|d['’])(?:\s+|(?<=['’])))*"
    r"(?:mitt(?:en?|el|ig|punkt\w*|axe|achse|linie|linje\w*|lijn)?|mitt\s+pa|midt(?:en?|pa|er|linje\w*|lijn)?|midt\s+pa|centrum"
    r"|(?:scene?|buhnen|toneel|scen)(?:mitt\w*|midt\w*|midden|centrum)"
    r"|senter(?:linje\w*)?|sentrum|centerlinje\w*"
    r"|osi|osie|ose|osa|osy|os\s+sceny|osi\s+sceny|osa\s+jeviste|srodek|srodku|srodka|posrodku|stred|stredu|uprostred"
    r"|keski|keskella|keskelle|keskilinja\w*|keskiviiva\w*|keskikohta|keskus"
    r"|centro(?:\s+(?:scena|palco|escena|de\s+escena|de\s+cena|della\s+scena))?|mezzo|mezzeria|asse|meio|eixo|eje|medio|centre"
    r"|milieu|axe|mig|eix|midden"
    r"|(?<=op )as|(?<=op de )as|hart|hartlijn|middellijn|middenas|achse|mittelachse|nullachse"
    r"|symmetrieachse)\W*(?:0+(?:[.,]0+)?\W*(?:m|cm|mm)?\W*)?"
)


def _as_side(found: re.Match[str]) -> str:
    """A shortened side as a whole word; a pair only where it is one of both sides."""
    words = [_FULL[word] for word in re.findall(r"[a-z]+", found[0]) if word in _FULL]
    if found[1] and len(set(words)) != 2:
        return found[0]
    return re.sub(
        r"\b[a-z]+\b\.?",
        lambda word: {"left": " links ", "right": " rechts "}.get(
            _FULL.get(word[0].strip("."), ""), word[0]
        ),
        found[0],
    )


def _written_out(found: re.Match[str]) -> str:
    """The German "li" and "re" that stand beside a figure, beside each other or alone, in full."""
    full = {"li": "links", "re": "rechts"}
    return re.sub(r"\b(li|re)\b\.?", lambda short: f" {full[short[1]]} ", found[0])


_SHORTENED = regex(
    rf"(?<![^\W\d_])({_SIDE}|{_SHORTEST}){_JOINED}(?:{_SIDE}|{_SHORTEST})(?![^\W\d_])"
    rf"|(?<=\d)\s*(?:(?:m|cm|mm)\b)?\.?\s*(?:(?<![^\W\d_])(?:{_SIDE}|{_SHORTEST}))(?=\s*(?:$|[(,;]))"
    rf"|^\W*(?:{_SIDE}|{_SHORTEST})\.?(?=\s*[:=]?\s*\d)|^\W*(?:{_SIDE})\W*$"
)
_LI_RE = regex(
    r"^\W*(?:li|re)\b\.?(?=\s*\d)|(?<=\d)\s*(?:(?:m|cm|mm)\b)?\.?\s*\b(?:li|re)\b\.?(?=\s*$)"
    r"|^\W*(?:li|re)\W*$|[=:]\s*(?:li|re)\b\.?|\b(?:li|re)\b\.?\s*=|(?<=\d)\s*(?:li|re)\b\.?(?=\s*\()|\bli\b\.?\s*(?:[-/,|&+]|und|u\.)\s*re\b\.?|\bre\b\.?\s*(?:[-/,|&+]|und|u\.)\s*li\b\.?"
)
_ABBREVIATED = regex(rf"(?<![^\W\d_])({'|'.join(_DOTTED)})\.")
# "der." and "dir." behind a figure, and alone with their dot: "der" is an article too.
_SHORT_RIGHT = regex(
    r"(?<=\d)\s*((?:m|cm|mm|mts?|metros|pies|ft|')?\.?)\s*\b(?:der|dir)\b\.?(?=\s*$)|^\W*(?:der|dir)\.?(?=\W*$|\s*\d)"
)
SHORT = (_SHORT_RIGHT, _LI_RE, _SHORTENED)
