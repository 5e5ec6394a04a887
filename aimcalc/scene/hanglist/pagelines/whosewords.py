"""Whose left and right a line or a heading means: "left = stage left", "as the audience sees it"."""

from __future__ import annotations

import re

from aimcalc.named import regex
from aimcalc.scene.hanglist.pagelines.lookers import looked, says_looking
from aimcalc.scene.hanglist.pagelines.mirrored import is_denied, unmirrored
from aimcalc.scene.hanglist.places.ends import sides_plain, stood
from aimcalc.scene.hanglist.tongues.tongues import in_english

LONGEST = 2000  # characters of a line that says whose they are


def whose_in_brackets(heading: str) -> str:
    """Whose left and right a heading explains in brackets, "Distance (left = stage left)", or says beside the
    place how they are seen, "Place (left/right as the congregation sees it)": stage or house; "" where it
    explains none."""
    found = re.search(
        r"[(\[]([^()\[\]]*=[^()\[\]]*|[^()\[\]]*\b(?:is|are|means?)\b[^()\[\]]*)[)\]]", heading
    )
    if found:
        return whose_left(in_english(found[1], line=True).casefold())
    text = in_english(heading, line=True).casefold()
    return whose_left(text) if says_looking(text) else ""


def end_in_brackets(heading: str) -> str:
    """A heading that counts from the left or right end and explains in brackets whose that is, as from SL or
    SR end: "From left end of the bar (left = seen from the hall)"; others as they are."""
    found = _END_EXPLAINED.fullmatch(heading) if len(heading) <= LONGEST_HEADING else None
    if found is None:
        return heading
    says = found[3] or found[4]
    told = in_english(f"left and right {says}", line=True).casefold()
    whose = whose_in_brackets(heading) if "=" in says else whose_left(told)
    if not whose:
        return heading
    side = "SL" if (found[2].casefold() == "left") == (whose == "stage") else "SR"
    return f"{found[1] or ''} from {side} end"


LONGEST_HEADING = 120  # characters
_END_EXPLAINED = regex(
    r"([^()\[\]]{1,40}?)?\s*\bfrom\s+(?:the\s+)?(left|right)(?:[\s-]*hand)?\s+end(?:\s+of\s+(?:the|each|its|every)\s+[^\W\d_]+)?"
    r"\s*(?:[(\[]([^()\[\]]+)[)\]]|[,;:–-]?\s+((?:as\s+)?(?:seen|viewed|looking|looked)\b[^()\[\]]{3,60}))\W*",
    re.IGNORECASE,
)


def whose_left(text: str) -> str:
    """Whose left and right is meant, of a line that says so; "" of a line too long to be looked at."""
    if len(text) > LONGEST:
        return ""
    text = unmirrored(text)
    explained = _SIDE_IS.search(sides_plain(text))
    if explained and explained[1][1] == explained[2][0] and _STANDS_THERE.search(text):
        return "stage"
    text = _NOT_WHOSE.sub(" ", looked(text))
    own = _OF_WHOM.search(text)
    if own:
        whose = "house" if own[2] else "stage"
        return whose if own[1][0] == own[3][0] else _OTHERS[whose]
    said = re.search(
        _MEANS, _PROMPT.sub("sl", _OPPOSITE.sub("sr", letters_plain(sides_plain(text))))
    )
    if said:  # "L = stage left", "R/L = stage right/left": the first is the first
        return "stage" if said[1][0] == said[2] else "house"
    if turned_round(text):
        return ""
    pairs = _PAIR_OF_PAIR.search(sides_plain(text))
    if pairs and pairs[1] != pairs[2] and pairs[3] != pairs[4]:
        by_house = "house" in text and "stage" not in text  # "L/R house left/house right"
        crossed = "house" if by_house else ""  # crossed without a sign may be a slip
        return "stage" if pairs[1] == pairs[3] else crossed
    if beside := _whose_pair(text):
        return beside
    pair = re.search(_PAIR, text)
    if not (pair or _ONE_SEEN.search(text) or _ONE_OF_PAIR.search(text)):
        return ""
    stands = {whose for whose, pattern in _LOOKED.items() if pattern.search(text)}
    if len(stands) == 1:
        return stands.pop()
    text = stood(text)
    if not SAYS.search(text):
        return ""
    house = bool(re.search(r"\b(?:house|audience|congregation|auditorium|seats|cameras?)\b", text))
    stage = bool(
        re.search(
            rf"\b(?:{'stage|' if pair else ''}{_FACING_OUT})(?:['’]s?)?\b|\bs\.?[lr]\b",
            text,
        )
    )  # one side alone, and a stage, may be an end of the stage
    return "" if house == stage else "house" if house else "stage"


# Who stands on the stage and looks to the seats; who conducts, or plays a piano, does not.
_FACING_OUT = (
    r"performers?|actors?|artiste?s?|singers?|dancers?|players?|cast|speakers?|preachers?|presenters?|lecturers?|comperes?"
    r"|comedians?|comics?"
)


def turned_round(text: str) -> bool:
    """Whether a text in lower case says that left and right are the other way round, "SL/SR swapped", or not
    always those that it names."""
    return _TURNED_ROUND.search(text) is not None or is_denied(text)


def _whose_pair(text: str) -> str:
    """Whose left and right is meant, of a line that says it beside the two: "actors' L/R", "L/R house"."""
    if re.search(r"\bstage[\s./-]+l(?:eft)?\s*(?:/|&|\band\b|\bor\b)\s*r|" + _DIRECTIONS, text):
        return "stage"
    if view := _VIEW_ALONE.fullmatch(text):
        return "stage" if view[1] or view[2] == "stage" else "house"
    said = {"stage" if one else "house" for one, _ in _THEIR_PAIR.findall(text)}
    if not said and (behind := _PAIR_THEIRS.search(text)):
        said = {"stage" if behind[1] == "stage" else "house"}
    return said.pop() if len(said) == 1 else ""


def letters_plain(text: str) -> str:
    """A text with one side of the stage or the house beside its letter, "stage r", as sl or sr."""
    return _STAGE_LETTER.sub(_one_side, text) if "stage" in text or "house" in text else text


def _one_side(found: re.Match[str]) -> str:
    own = (found[1] == "stage") == (found[2] == "l")
    return "sl" if own else "sr"


_STAGE_LETTER = regex(r"\b(stage|house)[\s-]+([lr])\b(?!\s*(?:[/&+,]|or\b|and\b|['’]))(?<!/)")
_PROMPT = regex(r"(?<=[=:]\s)(?:the\s+)?(?:ps|p\.s\.?|prompt(?:\s+side)?)(?![a-z])")
_OPPOSITE = regex(r"(?<=[=:]\s)(?:the\s+)?(?:op|o\.p\.?|opposite\s+prompt(?:\s+side)?)(?![a-z])")
_VIEW_ALONE = regex(
    rf"\W*(?:(?:all|everything|measured|sides?|as|seen|viewed|from|the|is|are|in|by|per)\s+)*(?:({_FACING_OUT})|(audience|house|public"
    r"|spectators?|congregation))(?:['’]?s?['’]?)\s+(?:view|perspective|point\s+of\s+view|pov|viewpoint)\W*"
)
_DIRECTIONS = r"\bstage\s+directions\s+(?:are\s+)?(?:used|throughout|apply|given)\b"
_WITH_OTHER = (  # "L R", "L & R", "'left' and 'right'"
    r"(?:[^\w=:;.]{0,3}(?:\b(?:and|or)\b)?[^\w=:;.]{1,3}(?:l|left|r|right)\b)?"
)
_MEANS = (
    rf"\b(l|left|r|right)\b{_WITH_OTHER}[\"'”’)\]]?\s*"
    r"(?:=|\b(?:is|are|means?)\b)\s*s\W?([lr])\b"
)
_JOINED = r"\s*(?:/|&|\+|\band\b|\bor\b)\s*"
_THEIR_PAIR = regex(  # and nothing that is there, "house left / right doors"
    rf"\b(?:((?:{_FACING_OUT})(?=['’])|(?:actor|performer|artiste|dancer|singer)s?)|(audience|public|house|spectators?|congregation))"
    rf"(?:['’]?s?['’]?)\s+(?:own\s+)?(?:l(?:efts?)?{_JOINED}r(?:ights?)?|r(?:ights?)?{_JOINED}l(?:efts?)?)\b"
    r"(?=\s*(?:$|[)\].;,!]|(?:used|throughout|everywhere|please|always|applies|apply|in\s+use)\b))"
)
_PAIR_THEIRS = regex(
    r"(?<![\w/])l(?:eft)?\s*(?:[/&]|\bor\b)\s*r(?:ight)?(?:\s+of\s+(?:the\s+)?(?:cl|cent(?:re|er)(?:\s*line)?))?\W{1,6}(?:the\s+)?(house|audience|stage)(?:['’]?s?['’]?)(?:\s+sides?)?\W*$"
)
_OF_WHOM = regex(  # "left is the dancer's left", "L = audience right"
    rf"(?<![/,&])(?<![/,&] )(?<!and )(?<!or )(?<!and [^\w\s])(?<!or [^\w\s])(?<![/,&][^\w\s])"
    rf"\b(l|left|r|right)\b{_WITH_OTHER}[\"'”’)\]]?\s*(?:=|:|\b(?:is|are|means?)\b)\s*"
    rf"(?:the\s+|an?\s+|as\s+)*(?:(?:{_FACING_OUT})|(audience|public|house|spectators?|congregation))(?:['’]?s?['’]?)\s+(?:own\s+)?(l|left|r|right)\b"
)
_SIDE_IS = regex(  # "SR = your right standing on stage facing the audience"
    r"\b(s[lr])\s*(?:=|:|\bis\b|\bmeans\b)\s*(?:to\s+|on\s+)?(?:your|the|their)\s+(left|right)\b"
)
_STANDS_THERE = regex(
    r"\b(?:on\s+(?:the\s+)?stage|(?:facing|looking|look|face)\s+(?:out\s+)?(?:at|to|towards?|into)?\s*(?:the\s+)?(?:audience|house|seats|public))\b"
)
_OTHERS = {"house": "stage", "stage": "house"}
_TURNED_ROUND = regex(
    r"\b(?:as|when|where|if)\s+(?:you|we|they|people|one)\s+(?:enter|walk|come|arrive|go)\b|\bopposite\s+(?:of|to|from|way)\b|\b(?:wrong|other)\s+way\s+(?:a?round|about)\b|\b(?:swapped|reversed|mirror\w*|flipped)\b"
    r"|\bback\s+to\s+front\b|\b(?:ge)?spiegel\w*|\bumgekehrt\b|\bomgekeerd\b|\binvers\w+|\bspecular\w*|\binvert\w+"
)
_PAIR_OF_PAIR = regex(  # "L/R stage left/stage right", without a sign between
    r"(?<![\w/])([lr])(?:eft|ight)?\s*(?:[/,&+|]|\band\b)\s*([lr])(?:eft|ight)?\b[\s:,(–-]*"
    r"\bs([lr])\b\s*(?:[/,&+|]|\band\b)\s*s([lr])\b"
)
_SIDES = (  # and no pipe or lamp called so, "side rails from the house end"
    r"\bsides?\b(?!\s+(?:rails?|pipes?|bars?|booms?|trusses|truss|ladders?|towers?|lights?|lighting|stands?|trees?)\b)"
)
_PAIR = r"\b(?:l|lefts?)\b.*\b(?:r|rights?)\b|\b(?:r|rights?)\b.*\b(?:l|lefts?)\b|" + _SIDES
# One of them, and how somebody stands who calls it so: "the left-hand end, as you face the stage".
_ONE_SEEN = regex(
    r"\b(?:left|right)\b(?:[\s-]*hand)?(?:\s+(?:end|side|of|the|each|every|its|bar|pipe|batten|truss|cent(?:re|er)|line|middle))*\W{0,3}"
    r"(?:(?:is|being|means|=)\s+)?\b(?:as|when|if|while|seen|viewed|looking|facing|standing|stood|sitting|from)\b"
)
_ONE_OF_PAIR = regex(  # "L = the left of a person who faces the pews"
    r"(?<![\w/&+-])(?:l|left)\s*(?:=|:|\bis\b|\bmeans\b)(?:\s+[a-z]+){0,4}?\s+left\b"
    r"|(?<![\w/&+-])(?:r|right)\s*(?:=|:|\bis\b|\bmeans\b)(?:\s+[a-z]+){0,4}?\s+right\b"
)
_SEATS = (
    r"(?:the\s+)?(?:people|audience|house|congregation|public|seats?|seating|pews|hall|auditorium|nave|stalls"
    r"|balcony)\b"
)
_LOOKED = {
    "house": regex(
        rf"\b(?:see|seen|viewed|view|looking|look|looked|sitting|sat|standing)\s+(?:them\s+|it\s+)?(?:in|from)\s+(?!.*\blook)(?:{_SEATS}|(?:the\s+)?front\b)"
        r"|\b(?:looking|facing|look|face)\s+(?:up\s+)?(?:at|to|towards?|on(?:to)?)?\s*(?:the\s+)?(?:stage|altar|chancel)\b"
    ),
    "stage": regex(
        r"\bfrom\s+(?:the\s+)?(?:stage|altar|chancel)\b(?!\W*(?:left|right|edge|end|front))"
        r"|\b(?:looking|facing)\s+(?:out\s+)?(?:down\s?stage|ds)(?=\W*$|\s*[).;,])"
        rf"|\b(?:looks?|looking|facing|faces?)\s+(?:out\s+)?(?:at|to|towards?|into|on)?\s*{_SEATS}"
    ),
}
LEFT_AND_RIGHT = regex(
    rf"\b(?:lefts?|rights?)\b|{_SIDES}|\bl\s*(?:and|or|[&/+,])\s*r\b|\br\s*(?:and|or|[&/+,])\s*l\b|\b(?:standing|stood|looking|look|facing|seen|viewed)\b"
)
SAYS = regex(
    r"=|:|\b(?:is|are|as|per|means?|always|throughout|all|seen|views?|own|from|to|towards?|positive|negative|plus|minus)\b"
)
_NOT_WHOSE = regex(  # "as the audience sees it, not the actors"; "as on the stage plan"
    r"\b(?:stage|house|lighting)[\s-]+(?:plots?|plans?|drawings?|maps?|diagrams?|managers?|crews?|hands?|box|times?|lights?"
    r"|electrician|electrics?|rig|lx|lanterns?|door|manager['’]s)\b"
    r"|\b(?:and\s+|but\s+)?not\s+(?:as\s+|from\s+|seen\s+|by\s+|for\s+|to\s+)*(?:the\s+)?"
    r"(?:actors?|performers?|stage|house|audience|auditorium|seats|cameras?)(?:['’]s?|s['’])?(?:\s+(?:view|side|own|left|right|see\w*))*"
)
