"""Things that places up and down the stage count from and a line of the list places: "stage edge = 0", "the
back wall is 10 m upstage of the plaster line".
"""

from __future__ import annotations

import re

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.places.along import Along
from aimcalc.scene.lengths import parse_length
from aimcalc.scene.mistakes import Wrong, show

LONGEST = 300  # characters of a text that is looked through
NEAR = 0.3  # metres within which the end of a pipe is at a thing


class Thing(NamedTuple):
    """A thing by its name, as a line has it in lower case, and how far upstage of the plaster line it is."""

    name: str
    metres: float


_NO_WORDS = "the|on|from|at|of|is|our|an?|in|to|off|are|and|or|where|hooked|rails?|places?|measured"
_NO_NAME = rf"(?!(?:{_NO_WORDS}|cent\w*|ctr)\b)"
_NOUN = (
    r"(?:edge|lip|nosing|apron|steps?|arch|threshold|screen|wall|curtain|doors?|pillar|font|fence|barrier"
    r"|platform|forestage|portal|pros\w*|(?<=\s)(?<!centre\s)(?<!center\s)line|(?<=altar\s)rail|lectern|altar|pulpit|organ)"
)
_OF_IT = r"(?:\s+of\s+(?:the\s+)?(?:stage|platform|apron))?"
_NAME = rf"((?:{_NO_NAME}[a-z][a-z'’-]{{0,20}}\s+){{0,2}}{_NOUN}{_OF_IT})"
_WHICH, _AT = r"\s*[,(]?\s*(?:(?:which|that|it)\s+)?", r"\s*(?:at\s+)?(?:the\s+)?(?:y\s*=\s*)?"
_ZERO = (
    r"(?:0(?:[.,]0+)?\s*(?:m|cm|mm|ft|')?|zero|nought|plaster(?:\W?line)?)(?!\w|[.,]?\d|\s?['\"])"
)
_SIZE = (
    r"(\d[\d.,]{0,7}\s*(?:'(?:\s*-?\s*\d[\d./ ]{0,8}\")?|\""
    r"|(?:ft|feet|foot|in|m|cm|mm|met(?:re|er)s?)\b\.?))"
)
_AT_SIZE = regex(
    rf"\b{_NAME}{_WHICH}(?:=|:|\b(?:is|at|stands|lies|being)\b)?{_AT}{_SIZE}\s*(us|ds)\s+(?:of|from)\s+(?:the\s+)?plaster"
    r"(?:\W?line)?\b"
)
_AT_ZERO = regex(
    rf"\b{_NAME}{_WHICH}(?:=|:|\b(?:is|at|being)\b){_AT}{_ZERO}"
    rf"|(?<![\w.,])(?:0|zero)(?:\s+(?:line|point|mark))?\s*(?:=|:|\b(?:is|at)\b)\s*(?:(?:is|at|on|the)\s+){{0,3}}{_NAME}\b(?!\s+end)"
)
# What a line says to be the plaster line by its name alone: "(line = plaster line)", "the mark is the plaster
# line", "plaster line is the lip of the stage".
_SHORT = (
    r"(?:(?<!plaster\s)(?<!centre\s)(?<!center\s)(?<!curtain\s)(?<!setting\s)(?<!zero\s)line|mark|tape|string|spike"
    r"|rope|seam|joint|chalk|strip|edge|lip|nosing|apron|steps?|threshold|screen|barrier"
    r"|linie|linje|lijn|ligne|linea|kante|stufe|marke)"
)
_BEHIND = r"(?:behind|hinter|derri[eè]re|achter|dietro|bakom|bak|detr[aá]s\s+de)"
_BEFORE = r"(?:in\s+front\s+of|vor|devant|voor|davanti\s+a|framf[oö]r|foran|delante\s+de)"
_ARTICLE = r"(?:(?:the|der|dem|la|de|het|el|il)\s+)?"
_PLASTER = (
    r"(?:(?:plaster|(?:main|house)\s+curtain|pros(?:c|cenium)?\b\.?(?:\s+arch)?|p\s?l\b)(?:\W?line)?\b"
    r"|(?:curtain|setting|portal)\W?line\b)"
)
_IS_PLASTER = regex(
    rf"(?<![\w-])({_SHORT}){_OF_IT}[\"'”’]?\s*(?:=|:|\b(?:is|means?|being|stands\s+for|(?:we|i)\s+mean)\b)\s*"
    rf"(?:(?:is|at|on|the|our|always)\s+){{0,3}}{_PLASTER}(?!\s*(?:[+−–-]|\d|end\b|side\b))"
    rf"|\bplaster(?:\W?line)?\s*(?:=|\bis\b)\s*(?:(?:at|the|our)\s+){{0,2}}({_SHORT})\b"
)
# What lies across the stage; where another thing is zero, the tape begins there, which may be anywhere.
_LINES = regex(
    r"\b(?:edge|lip|nosing|apron|steps?|arch|threshold|screen|curtain|platform|forestage|portal|pros\w*|line)\b"
)
_STANDS = regex(rf"{_SIZE}\s*(?:us|ds)?\s*(?:of|from)\s+(?:the\s+)?plaster")


def things_said(text: str) -> tuple[Thing, ...]:
    """What a line in lower case, with its sides as us and ds, says of where things are."""
    text = text[:LONGEST]
    zeros = [one for one in _AT_ZERO.finditer(text) if "plaster" in one[0] or _LINES.search(one[0])]
    found = [Thing((one[1] or one[2]).strip(), 0.0) for one in zeros]
    for one in _AT_SIZE.finditer(text):
        try:
            metres = parse_length(one[2].strip(" ."))
        except Wrong:
            continue
        found.append(Thing(one[1].strip(), metres if one[3] == "us" else -metres))
    return tuple(found)


def named_plaster(text: str) -> tuple[Thing, ...]:
    """What a line in lower case says to be the plaster line; figures that name nothing need not count from
    there."""
    found = _IS_PLASTER.finditer(text[:LONGEST])
    return tuple(Thing(one[1] or one[2], 0.0) for one in found)


def titled_things(title: str, front: float | None) -> tuple[Thing, ...]:
    """What the title of a scene says to be at its zero, "(zero line = front edge of platform)", by all that
    it may be called; an edge only where the outline of the stage, whose front is at `front`, begins there."""
    text = title.casefold()
    names = [thing.name for thing in (*things_said(text), *named_plaster(text)) if not thing.metres]
    begins = front is not None and abs(front) < NEAR
    known = [name for name in names if begins or not _EDGES.search(name)]
    return tuple(Thing(name, 0.0) for one in known for name in _names_of(one))


_EDGES = regex(r"\b(?:edge|lip|nosing|apron|front)\b")


def _names_of(name: str) -> tuple[str, ...]:
    """What a thing is called: "front edge of platform", "edge of the platform", "platform edge"."""
    head, _, whole = name.partition(" of ")
    last, whole = head.split()[-1], whole.removeprefix("the ")
    if not whole:
        words = head.split()
        return (
            (head, f"{last} of {words[-2]}", f"{last} of the {words[-2]}") if words[1:] else (head,)
        )
    heads = dict.fromkeys((head, last))
    of_it = (f"{one} of {the}{whole}" for one in heads for the in ("", "the "))
    return (*of_it, *(f"{whole} {one}" for one in heads))


def ways_from_thing(text: str, things: tuple[Thing, ...]) -> str:
    """A text in lower case with "behind the line" and "in front of the line" as us and ds of it."""
    for name in {thing.name for thing in things}:
        last = re.escape(name.split(" of ")[0].split()[-1])
        text = re.sub(rf"\b{_BEHIND}\s+{_ARTICLE}(?={last}\b)", "us of ", text)
        text = re.sub(rf"\b{_BEFORE}\s+{_ARTICLE}(?={last}\b)", "ds of ", text)
        text = re.sub(rf"\b(us|ds)\s+(?:the\s+)?(?={last}\b)", r"\1 of ", text)
    return text


def places_a_thing(text: str) -> bool:
    """Whether a line names the plaster line for where something else is: "the wall is 10 m US of plaster"."""
    return bool(_STANDS.search(text[:LONGEST]))


def thing_of(text: str, things: tuple[Thing, ...]) -> Thing | None:
    """The thing that a text in lower case says that something counts from; None where it says none that a
    line places, or two things have its name."""
    named = [thing for thing in things if _counts_from(thing.name).search(text)]
    last = [t for t in things if _counts_from(t.name.split(" of ")[0].split()[-1]).search(text)]
    found = {thing.metres: thing for thing in named or last}
    return found.popitem()[1] if len(found) == 1 else None


def thing_out(text: str, thing: Thing) -> str:
    """A text without the thing that it counts from."""
    for name in (thing.name, thing.name.split(" of ")[0].split()[-1]):
        text = _counts_from(name).sub(" ", text)
    return " ".join(text.split())


def _counts_from(name: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:of|from|off)\s+(?:the\s+)?{re.escape(name)}\b(?!\s+(?:end|side)\b)")


def upstage_of(metres: float, thing: Thing, along: Along, *, signed: bool) -> float:
    """How far upstage of the plaster line a place is that counts from a thing; one without a sign or a way
    counts towards the pipe, where this lies on one side of the thing.

    Raises:
        Wrong: where it lies on both.
    """
    if signed or not thing.metres:
        return thing.metres + metres
    low, high = along.span or (0.0, 0.0)
    near, far = (end - (along.plaster or 0.0) - thing.metres for end in (low, high))
    if near < -NEAR and far > NEAR:
        raise Wrong(
            f"US or DS with the place: it counts from what stands along the pipe, {show(thing.name)}",
            "Write US or DS behind the place.",
        )
    return thing.metres + (metres if far > NEAR else -metres)
