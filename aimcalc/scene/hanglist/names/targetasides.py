"""Targets of which a cell says more than one, at different times: "was Cross, now Altar", "Desk (part 2:
refocus to Window)"; and one with a remark that holds a figure, "Zone 5 (see note 3)"."""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.meant import Meant, Names, several_of
from aimcalc.scene.hanglist.tongues.tongues import unaccented

LONGEST = 120  # characters of such a cell


class Now(NamedTuple):
    """The target that a unit is hung for, and the words beside it."""

    name: str
    words: str


def now_meant(text: str, targets: Names) -> Now | None:
    """The target that a cell says to be that of now, of the first part of a show, or alone beside a remark;
    None where it says none of it, or does not tell which."""
    if len(text) > LONGEST or not _MORE.search(text) or targets.find(text) != Meant():
        return None
    own = " ".join(text.split())
    plain = unaccented(own)
    changed = None if _LATER.search(plain) else _changed(plain, targets)
    name = changed or _first(plain, targets)
    return Now(name, own) if name else _remarked(own, targets)


def _changed(text: str, targets: Names) -> str:
    """The target of a cell that says another was meant before: "was Cross, now Altar", "Altar (was Cross)",
    "Cross, now Altar"."""
    said = [(found[0], *found.span()) for found in _TURNS.finditer(text)]
    if not said:
        return ""
    ends = [*(start for _, start, _ in said[1:]), len(text)]
    parts = [("", text[: said[0][1]])]
    parts += [(word, text[end:stop]) for (word, _, end), stop in zip(said, ends, strict=True)]
    before = [part for word, part in parts if word and _WAS.fullmatch(word)]
    now = [part for word, part in parts if word and not _WAS.fullmatch(word)]
    alone = [part for word, part in parts if not word and _is_said(part)]
    if len(now) == 1 and (before or alone) and _is_said(now[0]):
        return _named(now[0], targets)
    if not now and len(alone) == 1 and before and all(map(_is_said, before)):
        return _named(alone[0], targets)
    return ""


def _first(text: str, targets: Names) -> str:
    """The target of a cell that says another for a later part of the show: "Desk (part 2: Window)", "part 1
    Desk, part 2 Window", "Desk, then Window"; the one that it says for a part, where it is the only one."""
    plain = _FOR_ONE.sub("", _PART_ONE.sub("", text))
    later = _LATER.search(plain)
    if later is None:
        return _named(plain, targets) if plain != text else ""
    rest = plain[later.end() :]
    if not _is_said(_ENDS.sub("", plain[: later.start()])):
        return _named(rest, targets)  # "part 2: Window" alone
    if _FROM.search(rest):
        return ""  # "Window (part 2: from Desk)" may be the other way round
    return _named(_ENDS.sub("", plain[: later.start()]), targets)


def _remarked(text: str, targets: Names) -> Now | None:
    """The target before brackets with a remark that holds a figure and names no target."""
    parts = _REMARK.fullmatch(text)
    if parts is None or not re.search(r"\d", parts[2]) or not re.search(r"[^\W\d_]{3}", parts[2]):
        return None
    meant = targets.find(parts[1])
    chunks = re.split(r"[,;:/&+]|\band\b|\s[-–—]\s", parts[2])
    if not meant.name or not meant.sure or _NO_REMARK.search(parts[2]):
        return None
    if _LATER.search(unaccented(parts[2])):
        return None
    other = any(targets.find(chunk.strip()) != Meant() for chunk in (parts[2], *chunks) if chunk)
    return None if other or several_of(parts[2], targets) else Now(meant.name, parts[2])


def _named(text: str, targets: Names) -> str:
    """The one target that words name, without the marks round them; "" where they name none."""
    plain = text.strip(_MARKS)
    plain = re.sub(r"(?i)^(?:(?:is|on|at|to|the|only)\s+)+|\s+only$", "", plain)
    undated = re.sub(r"\s+\d+[./-]\d[\d./-]*$", "", plain)
    ways = (plain, undated, re.split(r"\s*[(\[;,]", plain, maxsplit=1)[0])
    return next((name for way in ways if way and (name := targets.find(way).name)), "")


def _is_said(text: str) -> bool:
    return bool(re.search(r"[^\W_]", text))


_MARKS = " ,;:.-–—/|([{)]}=>→*!"
_MORE = regex(r"[^\W_]\W+[^\W_]")
_WAS_WORDS = (
    r"was|were|formerly|previously|originally|ex|instead\s+of|in\s+place\s+of|used\s+to\s+be|era"
    r"|anziche|invece\s+(?:di|del"
    r"|della)|al\s+posto\s+di|war|fruher|vorher|ehemals|bisher|zuvor|statt|anstatt|anstelle\s+von"
    r"|etait|anciennement"
    r"|au\s+lieu\s+(?:de|du)|en\s+(?:vez|lugar)\s+de|em\s+vez\s+de|eerst|vroeger|voorheen"
    r"|i\.?p\.?v\.?|in\s+plaats\s+van"
    r"|tidligere|i\s+stedet\s+for|tidigare|istallet\s+for|i\s+stallet\s+for|zamiast|misto"
)
_NOW_WORDS = (
    r"now|changed\s+to|moved\s+to|re-?aimed\s+(?:at|to)|becomes?|ora|adesso|diventa|cambiato\s+in"
    r"|spostato\s+su|jetzt|nun"
    r"|nunmehr|geandert\s+(?:auf|in|zu)|maintenant|desormais|devient|change\s+en|ahora"
    r"|cambiado\s+a|agora|thans|wordt"
    r"|nu|na|nyt|teraz|nyni|ara"
)
_WAS = regex(rf"(?:{_WAS_WORDS})", re.IGNORECASE)
_TURNS = regex(rf"(?<!\w)(?:{_WAS_WORDS}|{_NOW_WORDS})(?!\w)", re.IGNORECASE)
_PIECES = (
    r"(?:part|pt|act|half|scene|sc|look|song|number|teil|akt|bild|halfte|parte|atto|tempo|acte"
    r"|partie"
    r"|tableau|acto|cuadro"
    r"|deel|bedrijf|helft|del|naytos)"
)
_TWO = r"(?:[2-9]\b|ii+\b|iv\b|two\b|three\b|zwei\b|due\b|deux\b|dos\b|twee\b)"
_SECOND = (
    r"(?:2nd|3rd|second|third|[23][.ºªo°e]?(?:eme)?|zweite[rnms]?|second[oa]|deuxieme|segund[oa]"
    r"|tweede|andra|anden|annen)"
)
_LATER = regex(
    rf"(?<!\w)(?:{_PIECES}\.?\s*{_TWO}|{_SECOND}\s*{_PIECES}\b"
    r"|(?:after|nach|dopo|apres|despues|na|efter|etter|at|in)\s+(?:(?:the|der|dem|de|la|le|el|il"
    r"|du)\s+|del\s+|l['’]\s*)?"
    r"(?:interval|intermission|break|interlude|pausen?|pausa|intervallo|entracte|descanso|pauze)\b"
    r"|(?:then|later|afterwards|dann|danach|spater|poi|puis|ensuite|luego|despues|daarna|sedan"
    r"|senere)\b)",
    re.IGNORECASE,
)
_PART_ONE = regex(
    rf"^\W*(?:{_PIECES}\.?\s*(?:1|i|one|ein|uno|un)\b|(?:1st|first|1[.ºªe°]?|erste[rnms]?|prim[oa]"
    rf"|premiere?)\s*{_PIECES}\b)"
    r"\W*",
    re.IGNORECASE,
)
_FOR_ONE = regex(  # behind it: "Bench (act 1)"
    rf"(?<=\w)[\s,(\[]+(?:(?:in|for|en|im|fur)\s+)?(?:{_PIECES}\.?\s*(?:1|i|one|eins|uno|un)"
    rf"|(?:1st|first)\s*{_PIECES})[\s)\]]*(?:only\s*)?$",
    re.IGNORECASE,
)
# What may stand between the first target and the words for the later part.
_ENDS = regex(
    r"[\s,;:/|(\[{&+>→–—-]*(?:\b(?:re-?focus(?:ed)?|changes?|for|from|in|and|but|und|fur|ab|e|et"
    r"|pour|per|da|des|y|para|en|voor"
    r"|vanaf|och|og|fran|fra|i|im)\b[\s,;:/|(\[{&+>→–—-]*)*$",
    re.IGNORECASE,
)
_FROM = regex(r"(?i)\b(?:from|von|vom|depuis|dal|dalla|vanaf|desde|fran|fra)\b")
_REMARK = regex(r"([^()\[\]]*[^\W_])\s*[(\[]([^()\[\]]+)[)\]]")
_NO_REMARK = regex(
    r"(?i)\b(?:not|off|avoid|near|between|behind|or|to|above|below|past|next|beside|left|right"
    r"|side|of|half)\b|\?"
)
