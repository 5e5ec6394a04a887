"""Which sides a heading speaks of: both, whose they are, who sees them and which of them a sign is, "mm from
centre (SL +)"; and cells of a row over the headings that say so: "SL +", "SR -"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from aimcalc.named import regex
from aimcalc.scene.hanglist.pagelines.whosewords import letters_plain, turned_round, whose_left
from aimcalc.scene.hanglist.places.ends import end_of, sides_plain

SIGNS = frozenset("+−–-")  # without these a text has nothing of what the patterns look for
_SIGN_WORDS = ("plus", "pos", "minus", "neg")


def signed_sides(text: str) -> str | None:
    """A heading with a bare left or right beside a sign as SL or SR, by whose it is, "+ left of house"; None
    where nobody says."""
    text = _SEEN_FROM_SEATS.sub("seen from audience", text)
    text = _WHOSE_SIDE_IS.sub(_in_full, _ARROW.sub(" to ", text))
    if any(word in text for word in _SIGN_WORDS) and _SIDE_WORD.search(text):
        text = _MINUS_WORD.sub("−", _PLUS_WORD.sub("+", text))  # "right is minus"
    if SIGNS.isdisjoint(text):
        return text
    text = re.sub(r"\b(l(?:eft)?)\s*[-–]\s*(r(?:ight)?)\b", r"\1/\2", text)
    text = _THEIR_SIDE.sub(" stage ", text)
    if not re.search(_SIGN_BESIDE, text):
        return text
    house, stage = (re.search(rf"\b{word}", text) for word in ("(?:house|audience)", "stage"))
    if bool(house) == bool(stage):
        return None
    left, right = ("sr", "sl") if house else ("sl", "sr")

    def side(found: re.Match[str]) -> str:
        word = next(group for group in found.groups() if group)
        return found[0].replace(word, left if word.startswith("l") else right)

    plain = re.sub(_SIGN_BESIDE, side, text)
    return _WHOSE_BESIDE.sub(" ", plain)


def _in_full(found: re.Match[str]) -> str:
    whose = "stage" if found[1] == "stage" else "house"
    return f"{whose} {'left' if found[2].startswith('l') else 'right'}"


_SEEN_FROM_SEATS = regex(
    r"\b(?:seen|viewed|view|looking)\s+(?:from|by|of)\s+(?:the\s+)?(?:public|hall|auditorium|seats?|seating|stalls|pews"
    r"|spectators?|congregation|front|foh)\b(?:['’]?s\s+side)?"
)
_ARROW = regex(r"(?<=[+−–-])\s*(?:[-=]>|→|⇒)\s*")
_WHOSE_SIDE_IS = regex(  # "stage L", "audience left"
    r"\b(stage|house|audience|public)(?:['’]?s)?[\s-]+(l|r|left|right)\b(?!\s*(?:/|or\b|and\b|&))"
)
_SIDE_WORD = regex(r"\b(?:left|right|l|r)\b")
_PLUS_WORD = regex(r"\b(?:plus|positi[fv]e?)\b")  # "pos." is position
_MINUS_WORD = regex(r"\b(?:minus|negati[fv]e?)\b")
_SIGN_BESIDE = (
    r"(?<![a-z][−–-])(?<=[+−–-])\s*(?:=|is|to|for)?\s*(?:the\s+)?\b(left|right|l|r)\b"
    r"|(?<![a-z./])\b(left|right|l|r)\b(?=\s*(?:[=:]|\bis\b)?\s*(?:[+−–]|-\s*(?:[)\],;/]|$)))"
)
_WHOSE_BESIDE = regex(
    r"(?:(?:as\s+)?(?:seen\s+)?(?:of|from|by)\s+|\()?(?:the\s+)?\b(?:house|audience|stage)\b(?:['’]?s?['’]?)(?![a-z])"
    r"(?:\s+(?:view|sides?|own|seen|point\s+of\s+view))?\)?"
)
# Who stands on the stage and looks to the seats, and whose left and right are the stage's: "actor's".
_THEIR_SIDE = regex(
    r"\b(?:as\s+)?(?:the\s+|an?\s+)?(?:actor|performer|player|singer|dancer|artiste?)(?:['’]?s?['’]?)(?![a-z])"
    r"(?:\s+(?:view|side|point\s+of\s+view|own))?"
)


def whose_out(text: str) -> tuple[str, str]:
    """A heading without what says from where its sides are seen, and who sees them, stage or house; "" where
    nobody says: "Distance (m, seen from the audience)"."""
    if "seen" not in text and "view" not in text:
        return text, ""
    found = {group for each in _SEEN_BY.finditer(text) for group in each.groups() if group}
    whose = {"stage" if who.startswith(_PLAYERS) else "house" for who in found}
    if len(whose) != 1:
        return text, ""
    plain = re.sub(r"[(\[]\W*[)\]]", " ", _SEEN_BY.sub(" ", text))
    return plain.strip(" ,;:–-"), whose.pop()


_PLAYERS = ("stage", "actor", "performer", "artist")
_WHO = r"(stage|actors?|performers?|artiste?s?|house|audience|auditorium|seats|cameras?|congregation)\b"
_SEEN_BY = regex(
    rf"[,;:/–-]?\s*(?:\bas\s+)?(?:\b(?:seen|viewed)\s+)+(?:(?:from|by|of|in|the|to)\s+)*{_WHO}(?:['’]s?)?(?:\s+side\b)?"
    rf"|[,;:/–-]?\s*(?:\b(?:from|in|the|of)\s+)*\b{_WHO}(?:['’]s?)?\s+(?:seen|view|point\s+of\s+view)\b"
)


def view_out(text: str) -> tuple[str, str]:
    """A heading without how somebody stands who sees its sides, and whose these are then, stage or house; ""
    where nobody says: "side facing audience", "distance (as you look at the stage)", "side from the house".
    A distance from the stage is one."""
    if not any(word in text for word in _LOOKS):
        return text, ""
    own = _WHOSE_SIDE.fullmatch(text)
    if own:
        return "side", "house" if own[1] else "stage"
    found = _VIEW.search(text) or _FROM_THERE.search(text)
    if found is None:
        return text, ""
    head = text[: found.start()].strip(" ,;:([/–-")
    tail = text[found.start() :].strip(" ,;:()[]/–-")
    of_side = _SIDE_ALONE.fullmatch(head)
    if tail.startswith("from"):
        if not of_side and not _FROM_SEATS.match(tail):
            return text, ""
        tail = f"seen {tail}"
    if re.search(r"\b(?:[ud]s|s[lr]|ends?|walls?|edge)\b", sides_plain(tail)):
        return text, ""
    return head, whose_left(f"left and right {tail}")


_LOOKS = (
    "look",
    "fac",
    "view",
    "seen",
    "sit",
    "seat",
    "stand",
    "watch",
    "from",
    "'s",
    "’s",
    "side",
)
_VIEW = regex(
    r"[\s,;:(\[/–-]+(?:(?:as|when|if|while)\s+)?(?:(?:you|we|they|people|one|somebody)(?:\s+are|['’]re)?\s+)?"
    r"\b(?:seen|viewed|looking|looks?|facing|faces?|watch(?:es|ing)?|sit(?:s|ting)?|seated|standing|stands?)\b"
)
_FROM_THERE = regex(
    r"[\s,;:(\[/–-]+from\s+(?:the\s+|our\s+)?(?:house|audience|auditorium|seats|seating|stalls|pews|hall|front|stage"
    r"|performers?|actors?|congregation|public|balcony)(?:['’]s?)?(?:\s+(?:view|perspective))?\W*$"
)
_FROM_SEATS = regex(r"from\s+(?:the\s+|our\s+)?(?:house|audience|auditorium|congregation|public)\b")
_SIDE_ALONE = regex(
    r"(?:(?:which|the|on)\s+)*(?:stage\s+)?(?:sides?|l\s?/\s?r|l\s+(?:or|and)\s+r|left\s*(?:/|or|and)\s*right)"
)
_WHOSE_SIDE = regex(
    r"(?:the\s+)?(?:(audience|public|congregation|spectator)|actor|performer|player|singer|dancer)s?['’]?s?\s+sides?"
)


def both_sides(text: str) -> tuple[str, str]:
    """A heading with both sides as `l r`, and whose they are: stage or house, "" where nobody says."""
    if not set("lr") <= set(text):
        return text, ""
    found = _BOTH.search(text)
    if found is None:
        both = re.search(r"\bs\.?l\b.*\bs\.?r\b|\bs\.?r\b.*\bs\.?l\b", text)
        return text, "stage" if both and not turned_round(text) else ""
    whose = (found[1] or found[2] or "")[:1]
    rest = text[: found.start()] + text[found.end() :]
    if not whose and re.search(r"\bhouse\b|\bstage\b", rest):
        if _STANDS.search(rest):  # how somebody stands who sees them
            return text.replace(found[0], " l r "), whose_left(text)
        said = {
            who[0].replace("a", "h") for who in re.findall(_WHOSE_ONE, _NOT_THEIRS.sub("", rest))
        }
        whose = said.pop() if len(said) == 1 else ""
        text = re.sub(r"\b(?:house|stage)\b", " ", text)
        found = _BOTH.search(text) or found
    whose = "" if turned_round(rest) else whose
    return text.replace(found[0], " l r "), {"s": "stage", "h": "house"}.get(whose, "")


def letters_out(text: str) -> tuple[str, str]:
    """A heading with the letters that it explains as sides as `l r`, and whose left and right these are,
    stage or house; "" where they are other letters, or it explains none: "Dist (SL=L SR=R)", "Cote (J/C)"."""
    if set("=:/").isdisjoint(text) and " is " not in text:
        return text, ""
    plain = letters_plain(sides_plain(text))
    found = [each.groups() for each in _LETTER_IS.finditer(plain)]
    said = [(one or other, side or its) for one, side, its, other in found]
    if not said:
        beside = GARDEN_PAIR.sub(" l r ", text)
        if _FROM_CENTRE.search(text):
            beside = _PROMPT_PAIR.sub(" l r ", beside)
        return (beside if set(beside) - set("lr .()[]") else text), ""
    whose = {"stage" if w[0] == side[-1] else "house" for w, side in said if w[0] in "lr"}
    if len(whose) > 1:
        return text, ""
    return _LETTER_IS.sub(" ", plain) + " l r", "".join(whose)


# A letter and the side that it is, in either order; no sign stands beside them.
_LETTER = r"([a-ln-w]|li|re|dx|sx|iz|der|izq|esq|dir|left|right)"
_ALONE = r"(?<!\bl/)(?<!\br/)(?<!\bl / )(?<!\br / )(?<!\bleft/)(?<!\bright/)(?<!& )(?<!and )"  # no "L/R = "
_LETTER_IS = regex(
    rf"(?<![\w+−–-]){_ALONE}{_LETTER}\s*(?:=|:|\bis\b)\s*(?:c[oô]t[eé]\s+)?(s[lr]|cour|jardin)\b(?!\s*(?:[+−–-]|end))"
    rf"|(?<![\w+−–-])(s[lr]|cour|jardin)\s*(?:=|:|\bis\b)\s*{_LETTER}(?![\w'’])"
)
GARDEN_PAIR = regex(
    r"(?<!\w)(?:j(?:ardin)?\s?/\s?c(?:our)?|c(?:our)?\s?/\s?j(?:ardin)?)(?!\w)", re.IGNORECASE
)
_PROMPT_PAIR = regex(  # "P/O from C/L": prompt side and the other; "O/P" is the other alone
    r"(?<!\w)(?:ps?\s?/\s?op?|op\s?/\s?ps?)(?!\w)", re.IGNORECASE
)
_FROM_CENTRE = regex(
    r"\b(?:from|off|of)\s+(?:the\s+)?(?:c\W?l\b|cent(?:re|er)|ctr\b|mid(?:dle)?\b)", re.IGNORECASE
)


_STANDS = regex(
    r"\b(?:look\w*|fac(?:e|es|ing)|viewed|seen|sit\w*|stand\w*|enter\w*|walk\w*|come|opposite|reverse\w*|mirror\w*|swapped)\b"
)
_WHOSE_ONE = r"\b(?:house|stage|audience)\b"
_NOT_THEIRS = regex(r"\bnot\s+(?:the\s+)?(?:house|stage|audience)\b")
_BOTH = regex(
    r"\b(stage|house|s|h)?[\s./-]*(?:l(?:eft)?)\b\.?\s*(?:/|or|and|&|,|-|\+)?\s*"
    r"(?:(?:stage|house|s|h)[\s./-]*)?\b(?:r(?:ight)?)\b\.?(?:\s+of\s+(?:the\s+)?(stage|house)\b)?"
)


def signs_out(text: str) -> tuple[str, str | None]:
    """Words without what they say of a sign, and the side of figures without a minus; None where they
    contradict themselves."""
    if SIGNS.isdisjoint(text) and not any(word in text for word in _SIGN_WORDS):
        return text, ""
    text = re.sub(r"([+−–-])\s*ve\b\.?", r"\1", text)
    if not any(side in text for side in ("sl", "sr", "us", "ds")):
        return text, ""
    said = {side for found in _PLUS.finditer(text) for side in found.groups() if side}
    minus = {side for found in _MINUS.finditer(text) for side in found.groups() if side}
    plus = {side.upper() for side in said} | {_OTHER[side.upper()] for side in minus}
    if not plus:
        return text, ""
    if len(plus) > 1:
        return text, None

    side = plus.pop()
    text = _MINUS.sub(" ", _PLUS.sub(" ", text))
    text = re.sub(rf"[/=]\s*{side.lower()}\b", " ", text)  # "+ cour/SL"
    return re.sub(rf"[/,;]?\s*[-–−]\s*=?\s*{_SIDE}", " ", text), side


_SIDE = r"(sl|sr|us|ds)\b"
_PLUS = regex(
    rf"(?:\+|\bplus\b|\bpos(?:itive)?\b\.?)(?:\s+(?:numbers?|figures?|values?|places?|distances?|dimensions?))?\s*(?:=|is|to|towards?|for|on|:|are)?\s*(?:the\s+)?{_SIDE}"
    rf"|\b{_SIDE}\s*(?:=|is|:|are)?\s*(?:\+(?!\s*{_SIDE})|\bplus\b|\bpos(?:itive)?\b)"
)
_MINUS = regex(
    rf"(?:[-–−]\s*(?:=|is|:|for)|\bminus\b|\bneg(?:ative)?\b\.?|(?<=[(\[,/;])\s*[-–−])"
    rf"(?:\s+(?:numbers?|figures?|values?|places?|distances?|dimensions?))?\s*(?:=|is|to|towards?|for|on|:|are)?\s*(?:the\s+)?{_SIDE}"
    rf"|\b{_SIDE}\s*(?:=|is|:|are)?\s*(?:\bminus\b|\bneg(?:ative)?\b)|\b{_SIDE}\s*(?:=|is|:)\s*[-–−]"
    rf"|\b{_SIDE}\s*[-–−](?=\s*(?:[)\],;/]|$))"
)
_OTHER = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}


def leaves_sign(heading: str) -> bool:
    """Whether a heading says something of a sign, which is no pair of both, and not in words that tell which
    side it is: "Dist (+ = pulpit)"."""
    return bool(_SIGN_AND_WORD.search(heading.casefold()))


_SIGN_AND_WORD = regex(
    r"[+](?![/|−–-])\W{0,4}[^\W\d_]|(?<!\w)[−–-]\s*=\s*[^\W\d_]|[^\W\d_]\W{0,3}(?<![/|−–±-])[+](?![/|−–-])|\b(?:plus|minus|moins|(?:posit|negat)i[fv]\w*)\b"
)


def end_out(pattern: re.Pattern[str], text: str) -> tuple[str, str]:
    """A heading without what a pattern finds, and the side that this names, "" where there is none."""
    found = pattern.search(text)
    if found is None:
        return text, ""
    side = end_of(found)
    whole = re.search(r"[\(\[][^\)\]]*" + re.escape(found[0]) + r"[^\)\]]*[\)\]]", text)
    return text.replace(whole[0] if whole else found[0], " "), side


def says_sign(text: str) -> bool:
    """Whether a cell says which side a sign is, and nothing else."""
    return _SIDE_AND_SIGN.fullmatch(text.strip()) is not None


def signs_said(texts: Sequence[str]) -> list[str]:
    """Cells of a line, those that say which side a sign is in the plainest words, "+ = SL", each apart."""
    if not any(map(says_sign, texts)):
        return list(texts)
    return [f"{_plain(text.strip())};" for text in texts]


def _plain(text: str) -> str:
    """A side and its sign in the plainest words; what is neither as it stands."""
    found = _SIDE_AND_SIGN.fullmatch(text)
    if found is None:
        return text
    side = found[1] or found[6]
    return f"+ = {side}" if found[2] or found[4] else f"- = {side}"


_WORD = (
    r"((?:[sh]\W?[lr]|[ud]\W?s|p\W?s|o\W?p|left|right|up|down|(?:up|down)\W?stage|(?:stage|house)\W?(?:left|right)"
    r"|cour|jardin)(?:\s+side)?)"
)
_SIGN = r"\(?(?:([+]|plus|pos(?:itive)?)|([−–-]|minus|neg(?:ative)?))\)?"
_EQUAL = r"\s*(?:=|is|:)?\s*"
_SIDE_AND_SIGN = regex(rf"{_WORD}{_EQUAL}{_SIGN}|{_SIGN}{_EQUAL}{_WORD}", re.IGNORECASE)
