"""Who sees the left and right that a line speaks of, as people say it that are no people of the theatre: "as
the mums and dads see it", "from the control box", "the drummer's left", "when you sit in the hall". They are
put as the audience and the performer, and only where they look, or where left, right or a view is theirs.

Whoever may look either way stays as it is, and somebody is asked: children play and look on, a choir stands
on the stage or behind the seats, a conductor has the back to them.
"""

from __future__ import annotations

import re

from aimcalc.named import regex

_ON = (  # who looks on
    r"(?:mums?\s+(?:and|&|n|or)\s+dads?|dads?\s+(?:and|&)\s+mums?|moms?\s+(?:and|&)\s+dads?|parents?|families|punters?"
    r"|crowd|guests?|visitors?|viewers?|onlookers?|watchers?|spectators?|judges|public|worshippers|audience\s+members?"
    r"|(?:people|folks?|those|anyone|somebody|someone|everyone)\s+(?:watching|(?:sitting\s+|seated\s+)?in\s+the\s+"
    r"(?:seats|hall|audience|pews|stalls|auditorium|front\s+row|house))|(?:theatre|theater|concert|church)?goers?)"
)
_PLAY = (  # who stands on the stage with the face to the seats
    r"(?:musicians?|drummers?|guitarists?|bassists?|band|bands|ballerinas?|models?|narrators?|storytellers?|soloists?|vocalists?"
    r"|hosts?|mc|magicians?|acrobats?|entertainers?|pastors?|vicars?|ministers?|chaplains?|panell?ists?|poets?|lead\s+singers?|compères?"
    r"|(?:children|kids|pupils|students|choir|choristers|people|those|someone|somebody|person)\s+"
    r"(?:(?:who\s+(?:is|are|stands?)|standing|singing|playing|performing|acting|up|when)\s+)?on\s+(?:the\s+|our\s+)?stage)"
)
_ROOM = (
    r"(?:hall|room|house|church|auditorium|theatre|theater|venue|nave|gym|barn|tent|seats?|stalls)"
)
_DESK = r"(?:sound|light(?:ing|s)?|lx|mix(?:ing)?|foh|tech(?:nical)?|production|control)"
_PLACE = (  # where somebody is who looks at the stage
    rf"(?:(?:the\s+)?(?:very\s+)?back\s+of\s+the\s+{_ROOM}|(?:the\s+)?(?:back|front)\s+row|(?:the\s+|our\s+|a\s+)?{_DESK}\s+(?:desk|box|booth|position|room)|(?:the|our)\s+(?:desk|console)(?!\s+(?:on|at|in|side|left|right)\b)"
    r"|foh|front\s+of\s+house|(?:the\s+)?(?:stalls|pews|auditorium|seats|seating|nave|bleachers|circle|balcony))"
)
_FACES = r"(?:faces?|facing|look(?:s|ing)?\s+(?:out\s+|up\s+)?(?:at|to|towards?|on(?:to)?|into))"
_PLAYERS = (  # known as such elsewhere; whoever looks at them looks at the stage
    r"(?:performers?|actors?|artiste?s?|singers?|dancers?|players?|cast|speakers?|preachers?|presenters?|lecturers?|comedians?"
    r"|priests?|celebrants?|clergy|rabbis?|orchestra|set|scenery)"
)
_CONDUCTS = r"(?:conductors?|choir\s?masters?|choir\s+(?:leader|director)s?|musical\s+directors?)"
_AT_THEM = regex(
    rf"\b{_CONDUCTS}\s+(?:(?:is|stands?|who|when)\s+){{0,2}}{_FACES}\s+(?:the\s+|our\s+|his\s+|her\s+)?"
    r"(?:choir|chorus|choristers)\b(?!['’])|"
    rf"\b{_FACES}\s+(?:the\s+|our\s+)?(?:(?:{_PLAY}|{_PLAYERS})\b(?!['’])|(?:[a-z]+\s+){{1,3}}on\s+(?:the\s+)?stage\b)"
)
_FROM_FRONT = regex(
    r"\bfrom\s+(?:out|in)\s+front\b(?:\s+of\s+(?:the\s+|our\s+)?stage\b)?"
    r"|\b(?:as|when|if|while)\s+(?:you|we|they|people|one)(?:\s+are|['’]re)?\s+(?:watch|watching)\b"
)
_MARKED = regex(  # and nobody's view
    r"\b(?:printed|marked|drawn|taped|shown|painted|written)\s+(?:down\s+)?(?:on|in)\s+(?:the\s+|our\s+)?stage\s+[a-z]+"
)
_ROLES = regex(
    rf"(?P<before>\b(?:(?:seen|viewed|view|looked\s+at)(?:\s+(?:by|from))?|{_FACES}"
    rf"|(?:as|how|what|where|way|for|by|from|of|to|are|is|always|means?|=|:)\b)\s*(?:the\s+|our\s+|your\s+|an?\s+)?|[(,=:–-]\s*(?:the\s+)?)"
    rf"(?:(?P<on>{_ON})|(?P<play>{_PLAY}))(?P<own>['’]?s?['’]?)(?=(?P<after>\s+(?:would\s+|will\s+|actually\s+)?(?:see|sees|look|looks|face|faces)\b"
    r"|\s+(?:own\s+)?(?:left|right|l|r|sides?|view\w*|point|perspective|eyes?|hands?|angle)\b|(?<=['’])(?=\W*(?:$|[,;.)]))"
    r"|(?<=['’]s)(?=\W*(?:$|[,;.)])))?)"
)
_LOOKS = regex(
    r"\b(?:see[ns]?|view(?:ed)?|fac(?:e|es|ing)|look(?:s|ing|ed)?|point\s+of\s+view|perspective|eyes?)\b"
)
_FROM_PLACE = regex(
    rf"\b(?:(?:as\s+)?(?:seen|viewed|looking|view|see\s+(?:it|them))\s+|(?<=right)[\s:,–-]+|(?<=left)[\s:,–-]+|(?<=/[lr])\s+|\b(?:are|is|all|both)\s+)"
    rf"from\s+(?:the\s+|our\s+)?{_PLACE}\b"
    rf"|\bfrom\s+(?:the\s+|our\s+)?{_PLACE}(?:['’]s)?\s+(?:perspective|view\w*|point\s+of\s+view|side)\b"
)
_SITS = regex(
    r"\b(?:sit|sits|sitting|sat|seated|stand|stands|standing|stood)\s+(?:down\s+)?(?:in|at|on|among|by|with)\s+"
    rf"(?:{_PLACE}|the\s+{_ROOM}|(?:the\s+|your\s+)?(?:audience|congregation))\b"
)
_SIDE_OF = regex(
    r"\b(left|right)\s+of\s+(?:the\s+|an?\s+)?(?:spectators?|public|viewers?|onlookers?)\b(?!['’])"
)
_ON_STAGE = regex(
    r"\b(?:you(?:['’]re|\s+are)?|your|we|i|somebody|someone|one|standing|stood|stand|stands)\s+(?:are\s+|is\s+|were\s+|left\s+|right\s+)?"
    r"(?:(?:when|if|as)\s+(?:you\s+(?:are\s+)?|standing\s+)?)?(?:stand(?:ing)?\s+)?(?:up\s+)?on\s+(?:the\s+|our\s+)?stage\b"
)
_UPSTAGE = regex(
    r"\b(?:seen|viewed|looking|view)\s+(?:down\s+|out\s+)?from\s+(?:the\s+)?(?:up\s?stage|us|back\s?stage|back\s+of\s+the\s+stage|cyc|back\s+wall)\b"
)
_OTHER_WAY = regex(
    r"\b(?:fac(?:e|es|ing)|look(?:s|ing)?)\s+(?:at\s+|to\s+|towards?\s+)?(?:the\s+)?(?:us\b|up\s?stage|cyc|back\s?wall|back\s?cloth|backdrop|rear)"
    r"|\bbacks?\s+to\b"
)
_TO_ALTAR = regex(
    r"\s+(?:(?:would|will|who|stands?|is|are|when)\s+){0,2}(?:fac(?:e|es|ing)|look(?:s|ing)?)\s+(?:up\s+)?(?:at\s+|to\s+|towards?\s+)?"
    r"(?:the\s+|our\s+)?(?:(?:high\s+)?altar|chancel|cross|crucifix|choir|east|reredos|organ)\b"
)
MOST = 400  # characters of a line


def looked(text: str) -> str:
    """A line in lower case with whoever sees its left and right as the audience or the performer."""
    if len(text) > MOST or not _SPEAKS.search(text):
        return text
    plain = _ROLES.sub(_role, _AT_THEM.sub("facing the stage", _MARKED.sub(" ", text)))
    plain = _SIDE_OF.sub(r"\1 of the audience", plain)
    plain = _FROM_FRONT.sub("seen from the audience", plain)
    if _OTHER_WAY.search(plain):
        return plain  # "standing on the stage with your back to the seats"
    plain = _SITS.sub("seen from the audience", _FROM_PLACE.sub(" seen from the audience", plain))
    return _UPSTAGE.sub("seen from the performer", _ON_STAGE.sub(" seen from the performer", plain))


def says_looking(text: str) -> bool:
    """Whether a heading in lower case says how its left and right are seen."""
    return bool(_SPEAKS.search(text) and (_LOOKING.search(text) or looked(text) != text))


_LOOKING = regex(
    r"\b(?:sees?|seen|view(?:ed)?|viewpoint|fac(?:e|es|ing)|look(?:s|ing)|perspective|sits?|sitting|stands?|standing|watch\w*)\b"
    r"|['’]s?\s+(?:own\s+)?(?:left|right|l|r|side)\b"
)
_SPEAKS = regex(r"\b(?:lefts?|rights?|l|r|sides?)\b")


def _role(found: re.Match[str]) -> str:
    """Who looks, or whose left, right or view it is, in a word; others as they are."""
    if not (found["after"] is not None or _LOOKS.search(found["before"])):
        return found[0]
    if _TO_ALTAR.match(found.string, found.end()):
        return found[0]  # with the back to the seats, or behind it
    who = "audience" if found["on"] else "performer"
    return f"{found['before']}{who}{found['own']}"
