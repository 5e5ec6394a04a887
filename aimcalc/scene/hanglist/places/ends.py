"""Sides in plain words, and the ends of a pipe that places count from: "house left" as sr, "US of DS end"."""

from __future__ import annotations

import re

from aimcalc.named import regex


def sides_plain(text: str) -> str:
    """Words in lower case with their sides as sl, sr, us and ds."""
    plain = text.casefold()
    if "left" in plain or "right" in plain:
        for people, side in _OF_PEOPLE:
            plain = people.sub(side, plain)
    if any(part in plain for part in ("stage", "house", "cam", "hl", "hr", ".", "/s")):
        for pattern, side in _SIDES:
            plain = re.sub(pattern, side, plain)
    return _ONWARD.sub(" from ", plain) if " end" in plain else plain


def stood(text: str) -> str:
    """Words in lower case with the way that somebody faces as where they stand: "facing the audience" as
    stage, whose left and right it is."""
    if not any(word in text for word in ("fac", "look", "turned", "pointing", "nose")):
        return text
    return _FACING.sub(lambda found: " house " if found[1] == "stage" else " stage ", text)


_FACING = regex(
    r"\b(?:fac(?:e|es|ing)|look(?:s|ing)?(?:\s+(?:out|at|to|towards?|onto?|into))*"
    r"|(?:turned|pointing|nose)(?:\s+(?:out|at|to|towards?|onto?|into))+)\s+(?:the\s+|our\s+)?"
    r"(stage|house|audience|congregation|auditorium|seats)\b"
)
_WHO = r"(?:['’]?s['’]?)?(?:\s+own)?\s+"
_FACES_STAGE = rf"\b(?:audience|public|spectators?|auditorium|congregation|house){_WHO}"
_FACES_HOUSE = rf"\b(?:actors?|performers?|artistes?|dancers?|singers?|players?){_WHO}"
_IS, _ACTOR, _PUBLIC = (
    r"(?<=[=+:] )",
    r"(?:actor|performer)(?!['’]?s)",
    r"(?:audience|public|spectator)(?!['’]?s)",
)
_OF_PEOPLE = (  # "audience left", "the actor's right"
    (regex(rf"{_FACES_STAGE}left\b|{_FACES_HOUSE}right\b"), "sr"),
    (regex(rf"{_FACES_STAGE}right\b|{_FACES_HOUSE}left\b"), "sl"),
    (regex(rf"{_IS}left\s+{_PUBLIC}\b|{_IS}right\s+{_ACTOR}\b"), "sr"),  # "+ = right actor"
    (regex(rf"{_IS}right\s+{_PUBLIC}\b|{_IS}left\s+{_ACTOR}\b"), "sl"),
)
_SIDES = (
    (r"\bhouse[\s-]*left\b|\bhl\b|\bcam(?:era)?[\s-]*l(?:eft)?\b", "sr"),
    (r"\bhouse[\s-]*right\b|\bhr\b|\bcam(?:era)?[\s-]*r(?:ight)?\b", "sl"),
    (r"\bstage[\s-]*left\b|\bs\.l\b\.?", "sl"),
    (r"\bstage[\s-]*right\b|\bs\.r\b\.?", "sr"),
    (r"\bup[\s-]*stage\b|\bu[./]s\b\.?", "us"),
    (r"\bdown[\s-]*stage\b|\bd[./]s\b\.?", "ds"),
)


def own_end(heading: str, whose: str, end: str, vague: str = "") -> str:
    """A heading with its left or right end as that of SL or SR, where the list says whose they are, stage or
    house; "from left", "from SR" or "from end" alone where the list says that places count from that end.
    Where a line says the one, "from the end of the bar", and the heading the other, they say it together;
    `vague` is what the line says."""
    told = side_from(heading)
    if told and (told == end.casefold() or _END_ALONE.fullmatch(vague.strip())):
        return _FROM_SIDE.sub(f"from {told} end ", sides_plain(heading))
    one = _FROM_SIDE.fullmatch(vague.strip())
    if one and not end and "end" in heading:
        heading = _FROM_IT.sub(f"from {one[1]} end", heading.casefold())
    if end and "end" in heading:
        heading = _FROM_IT.sub(f"from {end.casefold()} end", heading)
    if not whose or ("left" not in heading and "right" not in heading):
        return heading
    left, right = ("sl", "sr") if whose == "stage" else ("sr", "sl")

    def sided(found: re.Match[str]) -> str:
        side = left if (found[1] or found[2] or found[3]) == "left" else right
        if found[3] and side != end.casefold():
            return found[0]
        return f"from {side} end" if found[3] else f"{side} end"

    return _BARE_END.sub(sided, heading)


def side_from(heading: str) -> str:
    """The side that a heading counts from and does not say whether it is an end, "cm from SR"; "" where it
    says none, or more."""
    if "from" not in heading.casefold():
        return ""
    text = sides_plain(heading)
    found = _FROM_SIDE.search(text)
    return found[1] if found and not _MORE_SAID.search(text.replace(found[0], " ")) else ""


_FROM_SIDE = regex(
    r"\bfrom\s+(?:the\s+)?(sl|sr|us|ds)\b(?:\s+side\b)?(?!\W*(?:end|tip|of|to|[+=])\b)\s*"
)
_MORE_SAID = regex(r"\b(?:sl|sr|us|ds|cl|c/l|cent\w*|ctr|plaster\w*|mid\w*)\b|[+=]")
_END_ALONE = regex(r"from\s+(?:the\s+|an?\s+|one\s+)?end")
_FROM_IT = regex(r"\bfrom\s+(?:the\s+)?(?:(?:pipe|bar|batten|truss|rail)(?:['’]?s)?\s+)?end\b")
_BARE_END = regex(
    r"\b(left|right)(?:[\s-]*hand)?\s+end\b|\bend\s+(left|right)\b"
    r"|\bfrom\s+(?:the\s+)?(left|right)\b(?![\s-]*(?:of|end|hand)\b)"
)


def end_of(found: re.Match[str]) -> str:
    """The side of an end that ENDS found; PS is SL, OP is SR (common practice, no source)."""
    side = next(group for group in found.groups() if group).upper()
    return {"PS": "SL", "OP": "SR"}.get(side, side)


ENDS = regex(
    r"(?:(?:(?<=[\w.]\s)in\s+)?\b(?:from|fr|frm|off|to)\b\.?\s+)?(?:(?:the|its|their|each|every)\s+)*(?:(?:pipe|bar|batten|truss|rail)\W?s?\s+)?\b(sl|sr|us|ds|ps|op)[\s-]+(?:end|tip)\b"
    r"(?:\s+of\s+(?:the\s+|each\s+|its\s+|a\s+)?(?:(?:fly|flown|lx|lighting|internally\s+wired)\s+)?"
    r"(?:pipe|barrel|bar|batten|truss|electric|lx|boom|track|rail|bridge|catwalk|beam|scaff|pole|tube|position)s?\b)?"
    r"|(?:\b(?:from|off|to)\s+)?(?:the\s+)?\bend\s+(sl|sr|us|ds|ps|op)\b"
)
_NOUGHT = r"(?:0(?:[.,]0)?\s*(?:m|cm|mm|ft|')?|zero(?:\s+point)?|nought|null?(?:punkt|punt)?|datum|origin)"
_ZERO_END = regex(  # "0 = SR end", "SL end is zero", "tape 0 at SL"
    rf"(?<![\w.,]){_NOUGHT}\s*(?:=|:|\b(?:is|at|on)\b)\s*(?:(?:is|at|on|the)\s+){{0,3}}(sl|sr|us|ds)\s+(?:end|tip)\b"
    rf"|\b(sl|sr|us|ds)\s+(?:end|tip)\b(?:\s+of\s+(?:the\s+|each\s+)?\w+)?\s*(?:=|:|\bis\b)\s*(?:at\s+|the\s+)?"
    rf"{_NOUGHT}(?![\w.,]*\d)\b"
    rf"|\btapes?\s+(?:is\s+)?{_NOUGHT}\s+(?:is\s+)?(?:at|on)\s+(?:the\s+)?(sl|sr|us|ds)\b"
)


def zero_ends(words: str) -> str:
    """A line in which zero is at an end as one that counts from there: "0 = SR end of pipe"."""
    plain = sides_plain(words)
    found = _ZERO_END.search(plain)
    if found is None:
        return words
    side = next(group for group in found.groups() if group)
    return f"{plain[: found.start()]}from the {side} end{plain[found.end() :]}"


# Onward from the other end: "60 cm US of DS end", "up from DS end".
_ONWARD = regex(
    r"\s*\b(?:(?:us|up)\s+(?:of|from)(?=.*\bds\s+end)|(?:ds|down)\s+(?:of|from)(?=.*\bus\s+end)"
    r"|sl\s+(?:of|from)(?=.*\bsr\s+end)|sr\s+(?:of|from)(?=.*\bsl\s+end))\s+"
)
