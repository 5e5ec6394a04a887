"""What the lines round a hang list's table say of its places: their unit, the end that they count from, the
side that plus is, whose left and right is meant."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.columns.headings import Meaning, signs_out
from aimcalc.scene.hanglist.columns.sidesigns import says_sign, signs_said
from aimcalc.scene.hanglist.columns.tradewords import LENGTHS
from aimcalc.scene.hanglist.pagelines.lookers import looked, says_looking
from aimcalc.scene.hanglist.pagelines.mixedsides import is_mixed, whose_of
from aimcalc.scene.hanglist.places.ends import ENDS, end_of, sides_plain, stood
from aimcalc.scene.hanglist.places.heights import says_top
from aimcalc.scene.hanglist.places.origins import Upstage
from aimcalc.scene.hanglist.places.steps import steps_said
from aimcalc.scene.hanglist.rows.listrow import blank
from aimcalc.scene.hanglist.tongues.tongues import garden_plain, in_english
from aimcalc.scene.lengths import UNITS

MOST_CELLS = 2  # of a row that may be a line of words
MOST_PARTS = 6  # of a line that is parted where its words are explained
SHORTEST = 12  # characters of such a line
FEWEST_WORDS = 3  # in a part of a line that commas part


class Said(NamedTuple):
    """What is said, "" where nothing is; `rows` are those that say it, from 1."""

    unit: str = ""
    end: str = ""  # SL or SR
    plus: str = ""  # SL or SR
    upstage: Upstage = Upstage()  # of pipes up and down the stage
    bare: str = ""  # stage or house
    named: bool = False  # the line that says `bare` is on names of positions alone
    aims: str = ""  # as `bare`, of names of targets where a line says another of these
    vague: str = ""  # an end of the pipe without its side, in the words that name it
    step: str = ""  # from unit to unit: "18 in"
    from_sr: bool = False  # numbers count from SR
    even: bool = False  # units are spread evenly over their pipes
    sides: tuple[tuple[str, str], ...] = ()  # words of the list's own for a side: ("ps", "SL")
    plaster: bool = False  # places up and down the stage count from the plaster line
    marks: float = 0.0  # metres from mark to mark, counted from the middle to each side
    middle: bool = False  # a unit without a place hangs in the middle
    top: bool = False  # heights on booms count down from their tops
    heights: bool = False  # places on booms are heights
    boom_unit: str = ""  # of places on booms, where a line says one for these alone
    doubt: bool = False  # a line speaks of left and right, and not of whose
    mixed: bool = (
        False  # some are seen from the stage and some from the house, and nobody knows which
    )
    centred: bool = False  # places across the stage count from the centre line
    away: bool = False  # a line says that, whatever else it says
    plus_bare: str = ""  # left or right: the side of plus, of nobody knows whom
    # "+", or a heading, which stands for a distance from the unit before
    steps: tuple[str, ...] = ()
    disputed: bool = False  # two lines say whose left and right is meant, and do not agree
    rows: tuple[int, ...] = ()

    def with_sides(self, cell: Any) -> Any:
        """A heading with the list's own words for a side as that side: "PS (m)"."""
        if not isinstance(cell, str) or not self.sides:
            return cell
        return own_words(cell, [(w, side) for w, side in self.sides if w in ("ps", "op")])

    def over(self, other: Said) -> Said:
        """What two lines say together: the first comes first."""
        both: dict[str, Any] = {
            key: one or two for key, one, two in zip(self._fields, self, other, strict=True)
        }
        both |= {"upstage": self.upstage.beside(other.upstage), "rows": self.rows}
        if self.centred:  # and not from the end that the other says
            both |= {"end": self.end, "vague": self.vague}
        return self._replace(**both)

    def beside(self, meaning: Meaning, heading: str) -> Meaning:
        """A heading's meaning with what the lines add to it: the heading comes first."""
        centred = counts_from_centre(heading)
        signed = meaning.plus or meaning.end
        return meaning._replace(
            unit=meaning.unit or self.unit,
            end="" if centred and not meaning.end else (meaning.end if signed else self.end),
            plus=meaning.plus if signed else self.plus,
            bare=meaning.bare or self.bare,
        )


def counts_from_centre(heading: str) -> bool:
    """Whether a heading says that places count from the centre line."""
    return bool(_CENTRE.search(sides_plain(in_english(heading))))


def said_by(
    rows: Iterable[tuple[int, Sequence[Any]]], across: frozenset[str] = frozenset()
) -> Said:
    """What the rows that are lines of words say, by their numbers; one that begins with a position that runs
    `across` the stage, "Balcony rail: feet from the middle", says nothing of places up and down it."""
    said = Said()
    for number, row in rows:
        cells = [cell for cell in row if not blank(cell)]
        if not cells:
            continue
        texts = [cell.strip() for cell in cells if isinstance(cell, str)]
        signed = len(texts) == len(cells) <= MOST_PARTS and any(map(says_sign, texts))
        if len(cells) > MOST_CELLS and not (signed or _is_legend(cells) or _is_parted(row)):
            texts = [_bracketed(cells)]
            if not texts[0]:
                continue
        texts = signs_said(texts)
        words = " ".join(garden_plain(in_english(text, line=True)) for text in texts)
        long = any(len(text) >= SHORTEST for text in (words, *texts))
        told = _line(words) if long else _short(words)
        if across and words.partition(":")[0].strip().casefold() in across:
            told = told._replace(upstage=Upstage())
        away = said.away or (told.centred and bool(_OF_PLACES.search(words.casefold())))
        if told._replace(centred=False) != Said():
            said, told = _of_places_first(said, told)
            disputed = said.disputed or _disagree(said, told)
            said = said.over(told)._replace(rows=(*said.rows, number), disputed=disputed)
        said = said._replace(away=away)
    if said.mixed:
        said = said._replace(bare="", aims="", doubt=True)
    return _end_of_bare(_plus_of_bare(_of_nobody(said) if said.disputed else said))


def _of_places_first(said: Said, told: Said) -> tuple[Said, Said]:
    """What is said, and what one more line says, without whose left and right are in names of positions,
    where the other says whose they are elsewhere."""
    if told.bare and said.bare and told.named != said.named:
        if told.named:
            return said, told._replace(bare="", named=False)
        return said._replace(bare="", named=False), told
    return said, told


def _differ(one: str, other: str) -> bool:
    return bool(one and other) and one != other


def _disagree(said: Said, told: Said) -> bool:
    """Whether two lines say different things of whose left and right is meant, or of a word for a side."""
    sides = dict(said.sides)
    own = [(word, side) for word, side in told.sides if word not in _NO_LEFT_OR_RIGHT]
    words = any(sides.get(word, side) != side for word, side in own)
    return words or _differ(said.bare, told.bare)


def _of_nobody(said: Said) -> Said:
    """What is said, with left and right, and their letters, as nobody's: "left = stage left" at the top, and
    "all as the audience sees it" at the foot."""
    sides = tuple((word, side) for word, side in said.sides if word in _NO_LEFT_OR_RIGHT)
    return said._replace(bare="", doubt=True, sides=sides)


def _plus_of_bare(said: Said) -> Said:
    """What is said, with plus to a bare left or right as the side that it is, where a line says whose; else
    as vague."""
    if not said.plus_bare or said.plus:
        return said
    if not said.bare:
        return said if said.vague else said._replace(vague=f"+ = {said.plus_bare}")
    own = (said.plus_bare == "left") == (said.bare == "stage")
    return said._replace(plus="SL" if own else "SR")


def _end_of_bare(said: Said) -> Said:
    """What is said, with the left or right end of a line as the side that it is, where one says whose."""
    found = re.search(r"\b(left|right)(?:[\s-]*hand)?\s+end\b", said.vague)
    if not found or not said.bare or said.end or said.centred:
        return said
    own = (found[1] == "left") == (said.bare == "stage")
    return said._replace(end="SL" if own else "SR", vague="")


def _bracketed(cells: Sequence[Any]) -> str:
    """What stands in brackets in the cells of a title, where all of them are words and one alone is in
    brackets: "RIG LIST", "June", "(metres, L and R are the stage's)"."""
    texts = [cell.strip() for cell in cells if isinstance(cell, str)]
    found = [text for text in texts if text[:1] in "([" and text[-1:] in ")]"]
    plain = len(texts) == len(cells) <= MOST_PARTS and not any(text[:1].isdigit() for text in texts)
    return found[0] if plain and len(found) == 1 and len(found[0]) >= SHORTEST else ""


def says_figures(words: str) -> bool:
    """Whether a line says in what unit and from where figures are places: "metres from centre", "(ft up)"."""
    if not _MEASURED.search(words):
        return False
    said = said_by([(1, [words])])
    whence = said.centred or said.plaster or said.end or said.heights or said.top or said.plus
    return bool((said.unit or said.boom_unit) and (whence or _UPWARDS.search(words)))


def _marks(text: str) -> float:
    """The metres from mark to mark of a line that says that marks count from the middle: "marks: 0 in the
    middle, then every half metre"; 0 of another."""
    every = _EVERY.search(text) if _MARKS_FROM_MIDDLE.search(text) else None
    if every is None:
        return 0.0
    many = float((every[2] or "1").replace(",", ".")) * (0.5 if every[1] else 1.0)
    above, below = UNITS[LENGTHS[every[3]]]
    return many * above / below


def _is_parted(row: Sequence[Any]) -> bool:
    """Whether a row is one line of words that its commas parted: "Maße in m, ab Mitte, + = rechts vom
    Publikum" in a file of commas."""
    filled = [k for k, cell in enumerate(row) if not blank(cell)]
    cells = [row[k] for k in filled]
    if len(filled) > MOST_PARTS or filled[-1] != len(filled) - 1:
        return False
    if not all(isinstance(cell, str) and re.search(r"[^\W\d_]", cell) for cell in cells):
        return False
    return any(len(cell.split()) >= FEWEST_WORDS for cell in cells)


def _is_legend(cells: Sequence[Any]) -> bool:
    """Whether cells are the parts of a line that says what words stand for: "J = jardin", "C = cour"."""
    texts = [cell for cell in cells if isinstance(cell, str)]
    return len(texts) == len(cells) <= MOST_PARTS and sum(map(bool, map(_STANDS.search, texts))) > 1


def _line(words: str) -> Said:
    whose = whose_of(words.casefold(), _whose)
    text = _PLASTER_BY_NAME.sub("from the plaster line", sides_plain(words))
    text = _NAMED_END.sub(" ", text)
    of_places = bool(_OF_PLACES.search(text)) and "trim" not in text
    plain = prompt_plain(text)
    found = ENDS.finditer(plain) if of_places else ()
    ends = [end_of(each) for each in found if not _is_of_else(plain, each)]
    both = _both_ends(plain) if {"SL", "SR"} <= set(ends) else ""
    vague = _VAGUE.search(text) if of_places and not ends else None
    if vague is None and of_places and not ends and not NUMBERED.search(text):
        vague = re.search(r"\bfrom\s+(?:the\s+)?s[lr]\b(?!\s*(?:end|\+|-|=|is|to)\b)", text)
        vague = vague or (None if _LOOKS.search(text) else _FROM_SIDE.search(text))
    step = _STEP.search(text)
    of_booms = _OF_BOOMS.search(text)
    of_others = _OF_BOOMS.sub(" ", text) if of_booms else text
    plus = _plus(text) if _SAYS.search(text) else []
    middle = bool(_FROM_MIDDLE.search(text))
    even = bool(_EVEN.search(text) and _SPACE.search(text))
    return Said(
        unit=(_unit(of_others) if of_places else "") or _unit_beside(of_others),
        boom_unit=LENGTHS[of_booms[1]] if of_booms else "",
        end="" if both else _first(ends, "SL", "SR"),
        plus=_first(plus, "SL", "SR") or _half(text),
        plus_bare="" if plus else _bare_plus(text),
        upstage=Upstage(
            _first(ends, "US", "DS"),
            _first(plus, "US", "DS") or ("DS" if _DOWN_FROM.search(text) else ""),
            middle,
            "" if ends or middle or not of_places else _vague_upstage(text),
        ),
        bare=whose.places,
        named=whose.named,
        aims=whose.aims,
        vague=both or (vague[0] if vague else ""),
        step=f"{step[1].replace(',', '.')} {LENGTHS[_INCH.get(step[2], step[2])]}" if step else "",
        from_sr=bool((NUMBERED.search(text) or even) and _begins_sr(text, words)),
        even=even,
        sides=_own_sides(text),
        plaster=bool(_FROM_PLASTER.search(text)),
        marks=_marks(text),
        middle=bool(_NONE_IS_MIDDLE.search(text)),
        centred=bool(_OF_CENTRE.search(text)),
        steps=steps_said(text),
        top=says_top(text),
        heights=bool(_HEIGHTS.search(text)),
        doubt=bool(_LEFT_AND_RIGHT.search(text)) and not whose.places,
        mixed=is_mixed(words.casefold()),
    )


def _both_ends(text: str) -> str:
    """What a line says that places count from either end, and not where each does; "" where it says one."""
    ends = [
        found
        for found in ENDS.finditer(text)
        if not _ONWARDS.search(text[: found.start()] + found[0])
        and not _READS_THERE.search(text[: found.start()])
    ]
    sides = {end_of(found) for found in ends}
    return "from the SL end, and from the SR end" if {"SL", "SR"} <= sides else ""


_READS_THERE = regex(  # "13 m = PS end": what the tape reads at the other end
    r"[1-9][\d.,'\"]*\s*(?:m|cm|mm|ft|feet|in)?\s*(?:=|\bis\b|\bat\b)\s*(?:the\s+)?$"
)


def _vague_upstage(text: str) -> str:
    """What a line on places says they count from where that may be an end of a pipe up and down the stage
    or something else there: "from DS"; "" where it says none, or how units are numbered or set."""
    onward = _TOWARDS_WHAT.search(text) if _FROM_PLASTER.search(text) else None
    if onward and not _DOWN_FROM.search(text):
        return onward[0]  # to a side of the plaster line that nobody knows
    found = _FROM_WAY.search(text)
    return f"from {found[1].upper()}" if found and not NUMBERED.search(text) else ""


def _begins_sr(text: str, words: str) -> bool:
    """Whether a line says that units are counted from SR: "left to right as the audience sees them"."""
    order = _ORDER.search(text)
    whose = _whose(words.casefold()) if order else ""
    return bool(_FROM_SR.search(text)) or (
        order is not None and whose == {"left": "house", "right": "stage"}[order[1]]
    )


_ORDER = regex(r"\b(left|right)\s+(?:(?:to|the)\s+)*(?!\1)(?:left|right)\b")


def _is_of_else(text: str, end: re.Match[str]) -> bool:
    """Whether an end is none that places count from: units are numbered from it, or a line says where it is,
    "DS end is on the plaster line"."""
    stands = _STANDS_THERE.match(text, end.end()) and not re.search(r"from|off|to\b", end[0])
    return bool(stands) or _counts_units(text, end)


def _counts_units(text: str, end: re.Match[str]) -> bool:
    """Whether an end is that from which units are numbered, and not their places: "numbered from SR end"."""
    before = text[: end.end()]
    return bool(_NUMBERED_FROM.search(before)) and not _OF_PLACES_TOO.search(before)


def _plus(text: str) -> list[str]:
    """The sides that plus is in a line: one a sort of position, and none where two contradict each other."""
    plain = re.sub(r"\bop\b", "sr", re.sub(r"\bps\b", "sl", prompt_plain(text)))
    said = {signs_out(part)[1] for part in (plain, *re.split(r"[.;,/]\s", plain))}
    return [side for side in ("SL", "SR", "US", "DS") if side in said and _OTHER[side] not in said]


_VALUES = (
    r"(?:\s+(?:numbers?|figures?|values?|places?|distances?))?\s*(?:=|is|are|to|towards?|for|:)?\s*"
    r"(?:(?:to|the|on|at)\s+)*(left|right)\b"
)
_PLUS_BARE = regex(rf"(?:[+]|\b(?:plus|positive))(?:\s*ve\b)?{_VALUES}")
_MINUS_BARE = regex(rf"(?:(?<!\w)[-–−]\s*(?==)|\b(?:minus|negative)){_VALUES}")
_OTHER = {"SL": "SR", "SR": "SL", "US": "DS", "DS": "US"}


def _bare_plus(text: str) -> str:
    """Left or right, where a line says that plus is one of them, or minus the other, and not whose."""
    plus, minus = _PLUS_BARE.search(text), _MINUS_BARE.search(text)
    if plus:
        return plus[1]
    return {"left": "right", "right": "left"}[minus[1]] if minus else ""


def _first(sides: Iterable[str], *of: str) -> str:
    """The first of some sides that is one of two; "" where none is."""
    return next((side for side in sides if side in of), "")


def _half(text: str) -> str:
    """The side that a title says all places of its table are to, "SR side", "CL / SL half", or those without
    one."""
    plain = prompt_plain(text)
    found = _HALF.fullmatch(plain.strip(" .:-"))
    if found:
        return found[1].upper()
    told = {side for side in _NO_SIDE.findall(plain) if side}
    return told.pop().upper() if len(told) == 1 else ""


def _short(words: str) -> Said:
    """What a line of a word or two says: "All in cm", "(mm)", "PS = SL"."""
    text = sides_plain(words)
    unit = re.fullmatch(_UNIT_ALONE, text)
    plus = _plus(text) if _SAYS.search(text) else []
    whose = whose_of(words.casefold(), _whose)
    return Said(
        bare=whose.places,
        named=whose.named,
        unit=LENGTHS[unit[1] or unit[2]] if unit else _unit_beside(text),
        plus=_first(plus, "SL", "SR") or _half(text),
        plus_bare="" if plus else _bare_plus(text),
        upstage=Upstage(plus=_first(plus, "US", "DS")),
        sides=_own_sides(text),
    )


def _own_sides(text: str) -> tuple[tuple[str, str], ...]:
    """The list's own words for a side or the middle; the other of a pair with them, "PS = SL" alone."""
    longer = tuple((word, side.upper()) for word, side in _LONG_WORD.findall(text))
    told = {word for word, _ in longer}
    longer += tuple(
        (_ACROSS_FROM[word], "SR" if side == "SL" else "SL")
        for word, side in longer
        if _ACROSS_FROM.get(word, word) not in told
    )
    longer += _royal_sides(text)
    letters = (*_GARDEN_LETTER.findall(text), *((b, a) for a, b in _LETTER_BEHIND.findall(text)))
    longer += tuple((letter, _GARDEN[side]) for letter, side in letters)
    longer += tuple((letter, side.upper()) for side, letter in _SIDE_LETTER.findall(text))
    centres = tuple((word, "CL") for word in _OWN_CENTRE.findall(text))
    return _sided_words(text) + longer + centres


def _royal_sides(text: str) -> tuple[tuple[str, str], ...]:
    """The letters of the king's and the ladies' side of a Danish stage, in a line that says them, and not
    that they are the other way round there."""
    found = [(w, s, lr) for w, s, lr in _ROYAL.findall(text)]
    found += [(w, s, "") for s, w in _ROYAL_BEHIND.findall(text)]
    seen = re.search(r"\bseen from the (stage|house)\b", text)
    left = "" if seen is None else "SL" if seen[1] == "stage" else "SR"
    is_side = {"left": left, "right": _OTHER.get(left, ""), "sl": "SL", "sr": "SR", "": ""}
    turned = any(is_side[said] not in ("", _GARDEN[side]) for _, side, said in found)
    return () if turned else tuple((word, _GARDEN[side]) for word, side, _ in found)


def _sided_words(text: str) -> tuple[tuple[str, str], ...]:
    if "ps" not in text and "op" not in text and "prompt" not in text and "p.s" not in text:
        return tuple((word, side.upper()) for word, side in _OWN_WORD.findall(text))
    found = {word: side.upper() for word, side in _OWN_WORD.findall(prompt_plain(text))}
    found |= {word: side.upper() for word, side in _PROMPT_LETTER.findall(prompt_plain(text))}
    found |= {word: side.upper() for side, word in re.findall(_OTHER_WAY, prompt_plain(text))}
    for word, other in (("ps", "op"), ("op", "ps")):
        if word in found and other not in found and found[word] in ("SL", "SR"):
            found[other] = "SR" if found[word] == "SL" else "SL"
    return tuple(found.items())


def prompt_plain(text: str) -> str:
    """Words with prompt side and opposite prompt as ps and op."""
    if "prompt" not in text.casefold() and "." not in text:
        return text
    return re.sub(_PROMPT, "ps", re.sub(_OPPOSITE, "op", text))


def own_words(text: str, sides: Iterable[tuple[str, str]]) -> str:
    """A text with words of a list's own for a side as that side."""
    plain = prompt_plain(text)
    for word, side in sides:
        plain = re.sub(rf"(?<![^\W\d_]){word}(?![^\W\d_])", f" {side}", plain, flags=re.IGNORECASE)
    return plain


_OPPOSITE = (
    r"(?i)"
    r"\b(?:opposite|opp\b\.?|off)[\s-]*prompt(?:[\s-]*side)?\b|\bo\.\s?p\b\.?"
)
_PROMPT = (
    r"(?i)"
    r"\bprompt(?:[\s-]*(?:side|corner))?\b|\bp\.\s?s\b\.?"
)


def _unit(text: str) -> str:
    if re.search(r"\b(?:feet|ft)\b\W*(?:and|&|-|/)?\W*\b(?:inch(?:es)?|ins?)\b", text):
        return "ft"
    found = _UNIT.search(text)
    return LENGTHS[found[1]] if found else ""


def _unit_beside(text: str) -> str:
    """The unit of a line that says it and not of what: "mm, minus = SR of centre", "Gala (metres; from CL)",
    or right behind what is measured, "dims mm from CL"; "" where the line is of something else too."""
    found = _UNIT_BESIDE.search(text) if not _OF_OTHERS.search(text) else None
    return LENGTHS[next(word for word in found.groups() if word)] if found else ""


def whose_in_brackets(heading: str) -> str:
    """Whose left and right a heading explains in brackets, "Distance (left = stage left)", or says beside the
    place how they are seen, "Place (left/right as the congregation sees it)": stage or house; "" where it
    explains none."""
    found = re.search(r"[(\[]([^()\[\]]*=[^()\[\]]*|[^()\[\]]*\bis\b[^()\[\]]*)[)\]]", heading)
    if found:
        return _whose(in_english(found[1], line=True).casefold())
    text = in_english(heading, line=True).casefold()
    return _whose(text) if says_looking(text) else ""


def _whose(text: str) -> str:
    """Whose left and right is meant, of a line that says so."""
    text = _NOT_WHOSE.sub(" ", looked(text))
    own = _OF_WHOM.search(text)
    if own:
        whose = "house" if own[2] else "stage"
        return whose if own[1][0] == own[3][0] else _OTHERS[whose]
    said = re.search(_MEANS, sides_plain(text))
    if said:  # "L = stage left", "R/L = stage right/left": the first is the first
        return "stage" if said[1][0] == said[2] else "house"
    if _TURNED_ROUND.search(text):
        return ""
    pairs = _PAIR_OF_PAIR.search(sides_plain(text))
    if pairs and pairs[1] != pairs[2] and pairs[3] != pairs[4]:
        by_house = "house" in text and "stage" not in text  # "L/R house left/house right"
        crossed = "house" if by_house else ""  # crossed without a sign may be a slip
        return "stage" if pairs[1] == pairs[3] else crossed
    if re.search(r"\bstage[\s./-]+l(?:eft)?\s*(?:/|&|\band\b|\bor\b)\s*r", text):
        return "stage"
    pair = re.search(_PAIR, text)
    if not (pair or _ONE_SEEN.search(text) or _ONE_OF_PAIR.search(text)):
        return ""
    stands = {whose for whose, pattern in _LOOKED.items() if pattern.search(text)}
    if len(stands) == 1:
        return stands.pop()
    text = stood(text)
    if not _SAYS.search(text):
        return ""
    house = bool(re.search(r"\b(?:house|audience|congregation|auditorium|seats|cameras?)\b", text))
    stage = bool(
        re.search(
            rf"\b(?:{'stage|' if pair else ''}{_FACING_OUT})(?:['’]s?)?\b|\bs\.?[lr]\b",
            text,
        )
    )  # one side alone, and a stage, may be an end of the stage
    return "" if house == stage else "house" if house else "stage"


_LENGTH = "|".join(sorted((re.escape(w) for w in LENGTHS if w.isalpha()), key=len, reverse=True))
_WITH_OTHER = (  # "L R", "L & R", "'left' and 'right'"
    r"(?:[^\w=:;.]{0,3}(?:\b(?:and|or)\b)?[^\w=:;.]{1,3}(?:l|left|r|right)\b)?"
)
_MEANS = (
    rf"\b(l|left|r|right)\b{_WITH_OTHER}[\"'”’)\]]?\s*"
    r"(?:=|\b(?:is|are|means?)\b)\s*s\W?([lr])\b"
)
# Who stands on the stage and looks to the seats; who conducts, or plays a piano, does not.
_FACING_OUT = (
    r"performers?|actors?|artists?|singers?|dancers?|players?|cast|speakers?|preachers?|presenters?|lecturers?|comperes?"
    r"|comedians?|comics?"
)
_OF_WHOM = regex(  # "left is the dancer's left", "L = audience right"
    rf"(?<![/,&])(?<![/,&] )(?<!and )(?<!or )(?<!and [^\w\s])(?<!or [^\w\s])(?<![/,&][^\w\s])"
    rf"\b(l|left|r|right)\b{_WITH_OTHER}[\"'”’)\]]?\s*(?:=|:|\b(?:is|are|means?)\b)\s*"
    rf"(?:the\s+|an?\s+|as\s+)*(?:(?:{_FACING_OUT})|(audience|public|house|spectators?|congregation))(?:['’]?s?['’]?)\s+(?:own\s+)?(l|left|r|right)\b"
)
_OTHERS = {"house": "stage", "stage": "house"}
_TURNED_ROUND = regex(
    r"\bopposite\s+(?:of|to|from|way)\b|\b(?:wrong|other)\s+way\s+(?:a?round|about)\b|\b(?:swapped|reversed|mirror\w*|flipped)\b"
    r"|\bback\s+to\s+front\b|\b(?:ge)?spiegel\w*|\bumgekehrt\b|\bomgekeerd\b|\binvers\w+|\bspecular\w*|\binvert\w+"
)
_NO_LEFT_OR_RIGHT = frozenset(
    (
        "ps",
        "op",
        "ks",
        "ds",
        "c",
        "j",
        "cour",
        "court",
        "jardin",
        "garden",
        "north",
        "south",
        "east",
        "west",
    )
)
_PAIR_OF_PAIR = regex(  # "L/R stage left/stage right", without a sign between
    r"(?<![\w/])([lr])(?:eft|ight)?\s*(?:[/,&+|]|\band\b)\s*([lr])(?:eft|ight)?\b[\s:,(–-]*"
    r"\bs([lr])\b\s*(?:[/,&+|]|\band\b)\s*s([lr])\b"
)
_PAIR = r"\b(?:l|lefts?)\b.*\b(?:r|rights?)\b|\b(?:r|rights?)\b.*\b(?:l|lefts?)\b|\bsides?\b"
# One of them, and how somebody stands who calls it so: "the left-hand end, as you face the stage".
_ONE_SEEN = regex(
    r"\b(?:left|right)\b(?:[\s-]*hand)?(?:\s+(?:end|side|of|the|each|every|its|bar|pipe|batten|truss))*\W{0,3}"
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
        rf"|\b(?:looking|facing|look|face)\s+(?:out\s+)?(?:at|to|towards?|into|on)?\s*{_SEATS}"
    ),
}
_LEFT_AND_RIGHT = regex(
    r"\b(?:lefts?|rights?|sides?)\b|\bl\s*(?:and|or|[&/+,])\s*r\b|\br\s*(?:and|or|[&/+,])\s*l\b|\b(?:standing|stood|looking|look|facing|seen|viewed)\b"
)
_MARKS_FROM_MIDDLE = regex(
    r"\b(?:marks?|holes?|rungs?|slots?|notch(?:es)?|rings?)\b.*(?:\b(?:0|zero|nought)\s*(?:=|is|in|at|on)+\s*(?:in\s+|at\s+|on\s+)?(?:the\s+)?"
    r"|\bfrom\s+(?:the\s+)?)(?:middle|cent(?:re|er)|cl\b)"
)
_EVERY = regex(rf"\bevery\s+(?:(half)(?:\s+an?)?\s+|an?\s+)?(\d+(?:[.,]\d+)?)?\s*({_LENGTH})\b")
_NONE_IS_MIDDLE = regex(
    r"\b(?:(?:no|without(?:\s+an?)?)\s+(?:number|figure|measure\w*|distance|place|dim\w*|offset|value)|blanks?|empty|nothing)"
    r"(?:\s+(?:written|given|cells?|there))?\s*(?:=|:|->|→|\bis\b|\bare\b|\bmeans?\b)\s*(?:hangs?\s+)?(?:in|on|at)?\s*(?:the\s+)?"
    r"(?:middle|cent(?:re|er)|cl\b)"
)
_PLASTER_BY_NAME = regex(  # "from the chancel step (plaster line)"
    r"\bfrom\s+(?:the\s+)?[\w\s]{3,30}?\(\s*(?:=\s*|the\s+)*plaster(?:\W?line)?\s*\)"
)
_DOWN_FROM = regex(  # "feet downstage of the plaster line"
    r"\b(?:ds|in\s+front|out\s+front|towards?\s+the\s+(?:house|audience|seats))\b"
    r"(?:\s+(?:of|from|off))?\s+(?:the\s+)?plaster(?:\W?line)?\b"
    r"|\b(?:of|from|off)\s+(?:the\s+)?plaster(?:\W?line)?\W+(?:(?:going|running|towards?|to|the)\s+)*(?:ds\b|down\b)"
)
_FROM_PLASTER = regex(r"(?:\b(?:of|from|off|is)\b|=)\s*(?:the\s+)?plaster(?:\W?line)?\b")
_OF_CENTRE = regex(r"\b(?:from|off|of)\s+(?:the\s+)?(?:cl\b|c/l|c\.l|ctr\b|cent(?:re|er))")
_HALF = regex(
    r"(?:(?:c/?l|cent(?:re|er)(?:\s*line)?)\s*(?:/|to|and|&|\+)\s*)?(s[lr])\s*(?:side|half)"
)
_NO_SIDE = regex(  # "no side = SL", "unmarked: SR"
    r"\b(?:no\s+side|without\s+(?:an?\s+)?side|unmarked|unsided|no\s+letter|side\s+not\s+(?:given|written))"
    r"(?:\s+(?:given|written|marked))?\s*(?:=|:|\bis\b|\bare\b|\bmeans?\b|,)\s*(?:on\s+|to\s+|the\s+)*(s[lr])\b"
)
_HEIGHTS = regex(
    r"\b(?:booms?|towers?|ladders?|stands?)\b.*\bheights?\b|\bheights?\b.*\b(?:booms?|towers?|ladders?)\b"
    r"|\b(?:booms?|towers?|ladders?)\b[^.;]{0,30}\b(?:from|off|above)\s+(?:the\s+)?(?:floor|deck|ground|stage)\b"
)
_FROM_MIDDLE = regex(
    r"\b(?:from|off|of)\s+(?:the\s+|its\s+|their\s+)*(?:mid(?:dle|way)?\b|cent(?:re|er)\s+of\s+(?:the\s+|its\s+|each\s+)?"
    r"(?:pipe|rail|bar|truss|batten)s?\b)"
)
_UNIT = regex(
    rf"(?:\bin\b|[:=(]|\b(?:are|is)\b(?!\s+in\b)|^(?=\w+\s+(?:off|from)\b)"
    rf"|,(?=\s*\w+\s*(?:[,;.]|$))|\b(?:offsets?|dist(?:ance)?s?|dim(?:ension)?s?|heights?|places?)(?=\s+\w+\s+(?:off|from)\b))"
    rf"\s*(?:(?:decimal|whole|all|everything|in)\s+)*({_LENGTH})\b"
    rf"(?!(?<=\bin)\s+(?:(?:decimal|whole|all)\s+)*(?:{_LENGTH})\b)"
)
_PLAIN_LENGTH = "|".join(
    sorted((w for w in LENGTHS if w.isalpha() and w != "in"), key=len, reverse=True)
)
_OF_BOOMS = regex(  # "Booms: cm from floor", "torri: altezza in cm"
    r"\b(?:booms?|towers?|ladders?)\b\s*(?:[:=(,–-]\s*)?(?:(?:are|is|all|the|in|heights?|distance|measurement|given|places?"
    rf"|above|from|floor)[\s:=(]+){{0,5}}({_PLAIN_LENGTH})\b[^.;,/]{{0,30}}"
)
_UNIT_BESIDE = regex(
    rf"^\W*({_PLAIN_LENGTH})\s*(?:[,;:](?=.*(?:minus|plus|\bfrom\b|\boff\b|cent|\bcl\b|[+=]))|from\b|off\b)"
    rf"|[(\[]\s*(?:(?:all|in|everything|decimal|whole)\s+)*({_PLAIN_LENGTH})\s*(?:[,;)\]]|(?:up|high|above|off|from)\b)"
    r"|\b(?:dim(?:ension)?s?|sizes?|dist(?:ance)?s?|figures|measure(?:ment)?s?|places|heights|spacings?|gaps?|offsets?)"
    rf"\s+(?:are\s+|all\s+|in\s+)*({_PLAIN_LENGTH})\b"
    rf"|\b(?:work(?:s|ing|ed)?|everything|every\s+figure|it\W?s\s+all)\s+(?:is\s+|are\s+)?(?:all\s+)?in\s+({_PLAIN_LENGTH})\b"
    rf"|[(\[]\s*({_PLAIN_LENGTH})\s+(?:up|high|above|(?:up|down)stage|us|ds|each|either)\b"
    rf"|(?<![\d.,½¼¾])(?<![\d½¼¾]\s)\b({_PLAIN_LENGTH})\s+(?:(?:off|from|of)\s+(?:the\s+)?(?:c/?l\b|c\.l|ctr\b|cent|mid|plaster|s[lr]\b|[ud]s\b)"
    r"|(?:on\s+|to\s+)?(?:either|each)\s+(?:side|way)\s+of\b|(?:sl|sr)\s*(?:/|or|and)\s*s[lr]\b|throughout\b|only\b)"
    rf"|\b(?:given|shown|written|typed|marked|taped|metric)\s*(?:,\s*)?(?:as\s+|in\s+)?({_PLAIN_LENGTH})\b"
    r"|\beverything\s+(?:is\s+)?(mm|cms?|inches|feet|metres|meters)\b|\bunits?\s*[=:]?\s*(mm|cms?|inches|feet|metres|meters)\b"
    r"|[/,;–-]\s*(mm|cms?|inches|feet|metres|meters|centimet\w+s|millimet\w+s)\W*$"
)
_UPWARDS = regex(
    r"[(\[]\s*[a-z]+\s+(?:up|high|above|off\s+(?:the\s+)?(?:deck|floor))\b", re.IGNORECASE
)
_MEASURED = regex(rf"(?<![^\W\d_])(?:{_LENGTH})(?![^\W\d_])", re.IGNORECASE)
_OF_OTHERS = regex(r"\b(?:trims?|weights?|throws?|loads?|gels?|cables?|frames?|deep|wide|long)\b")
_UNIT_ALONE = (
    rf"\W*(?:all\s+(?:in\s+)?|(?:dim\w*|meas\w*|units?|places?|dist\w*|lengths?|figures)\W*(?:are\s+)?(?:in\s+)?|in\s+)"
    rf"({_LENGTH})\W*|\W*[(\[]\s*(?:all\s+)?(?:in\s+)?({_LENGTH})\s*[)\]]\W*"
)
_OF_PLACES = regex(
    r"\b(?:dim(?:ension)?s?|dist(?:ance)?s?|measure\w*|lengths?|hts?|heights?|places?|positions?|offsets?|figures|units?|all"
    r"|taken|from|off\s+(?:cl|cent(?:re|er))|tapes?|hook(?:ed)?|zero|readings?|spacings?|gaps?)\b"
)
_SAYS = regex(
    r"=|:|\b(?:is|are|as|means?|always|throughout|all|seen|views?|own|from|to|towards?|positive|negative|plus|minus)\b"
)
_OWN_WORD = regex(
    r"(?<![a-z])(?!(?:l|r|is|are|it|plus|sl|sr|us|ds)\b)([a-z]{1,3})\)?\s*(?:\([^()]*\)\s*)?"
    r"(?:=|:|->|→|\b(?:is|means)\b)\s*(?:(?:on|at|the)\s+|(?:north|south|east|west)\b[\s,(–-]+|(?:cour|court|jardin|garden|prompt)(?:\s+side)?(?:\s*\([a-z]+\))?\s*[=(]\s*|cam\w*\s+\w+\s*\(\s*)*(sl|sr|us|ds)\b"
)
_LONG_WORD = regex(
    r"(?<![a-z])(court|garden|cour|jardin|north|south|east|west)\b(?:\s+side)?\s*(?:\([a-z]\)\s*)?(?:=|:|->|→|\b(?:is|means)\b)\s*(sl|sr)\b"
)
_ACROSS_FROM = {"north": "south", "south": "north", "east": "west", "west": "east"}
_OWN_CENTRE = regex(
    r"(?<![a-z])(?!(?:c|cl)\b)([a-z]{1,3})\s*=\s*(?:the\s+|on\s+(?:the\s+)?)?(?:axe|axis|cl|cent(?:re|er)(?:\W?line)?|middle)\b"
)
_PROMPT_LETTER = regex(r"(?<![a-z])([po])\)?\s*(?:=|:|\bis\b|\bfor\b)\s*(ps|op)\b")
# Stage left and stage right in French (common practice, no source).
_GARDEN = {"cour": "SL", "court": "SL", "jardin": "SR", "garden": "SR"}
_GARDEN_LETTER = regex(
    r"(?<![a-z])([cjg])\)?\s*(?:=|:|\bis\b|\bfor\b|\bmeans\b)\s*(?:c[oô]t[eé]\s+)?(cour|court|jardin|garden)\b"
    r"(?!\W*s[lr]\b)"
)
_ROYAL = regex(
    r"(?<![a-z])(ks?|ds?)\)?\s*(?:=|:|\bis\b|\bfor\b)\s*(cour|jardin)\b(?:\s*[(=,]\s*(left|right|sl|sr)\b)?"
)
_ROYAL_BEHIND = regex(r"(?<![a-z])(cour|jardin)\s*\((ks?|ds?)\)")
_SIDE_LETTER = regex(r"\b(s[lr])\s+side\s*[(\[]\s*([a-z])\s*[)\]]")  # "pulpit side (P)"
_LETTER_BEHIND = regex(r"(?<![a-z])(cour|court|jardin|garden)(?:\s+side)?\s*\(([cjg])\)")
_STANDS = regex(r"[^\W\d_]\s*(?:=|:)\s*[^\W\d_]")
_OTHER_WAY = r"\b(sl|sr)\s*(?:=|:|->|→|\(|\b(?:is|means)\b)\s*(?:the\s+)?(ps|op)\b"
_INCH = {"”": '"', "″": '"', "''": '"', "’": "'", "′": "'"}
_STEP = regex(
    r"(\d+(?:[.,]\d+)?)\s*(''|[\"”″'’′]|(?:in|ins|inch|inches|ft|feet|foot|m|metres?|meters?|cm|mm)\b)\.?[\s-]*"
    r"(?:on\s+)?(?:cent(?:er|re)s?\b|ctrs?\b|c/c|c-c|o\.?c\b|apart\b|spacing\b)"
)
_NOT_WHOSE = regex(  # "as the audience sees it, not the actors"; "as on the stage plan"
    r"\b(?:stage|house|lighting)[\s-]+(?:plots?|plans?|drawings?|maps?|diagrams?|managers?|crews?|hands?|box|times?|lights?"
    r"|electrician|electrics?|rig|lx|lanterns?|door|manager['’]s)\b"
    r"|\b(?:and\s+|but\s+)?not\s+(?:as\s+|from\s+|seen\s+|by\s+|for\s+|to\s+)*(?:the\s+)?"
    r"(?:actors?|performers?|stage|house|audience|auditorium|seats|cameras?)(?:['’]s?|s['’])?(?:\s+(?:view|side|own|left|right|see\w*))*"
)
_TOWARDS_WHAT = regex(
    r"\btowards?\s+(?:the\s+|its\s+)?(?!us\b|ds\b|sl\b|sr\b|house|audience|seats|plaster|cl\b|cent|back\s+wall|cyc)[a-z]{3,}"
)
_STANDS_THERE = regex(
    r"\W*(?:of\s+(?:\w+\s+){1,3})?(?:(?:is|are|=)\s+(?:at|on|by|over|above|against|near)\b|(?:at|on|=)\s+(?:the\s+)?plaster)"
)
_FROM_WAY = regex(r"\bfrom\s+(?:the\s+)?(us|ds)\b(?!\W*(?:end|tip|of|edge|to|[+=–-]))")
# What an end is called beside its side: "from their upstage (chancel) end", "from DS wall end".
_NAMED_END = regex(
    r"(?<=\b(?:sl|sr|us|ds))\s*(?:\([^()]*\)|/\s*\w+|(?!end\b|tip\b|of\b|and\b|or\b|to\b|the\b)[a-z]{3,})\s*(?=(?:end|tip)\b)"
)
_NUMBERED_FROM = regex(r"\b(?:number\w*|count\w*)\s+(?:\w+\s+){0,2}?from\b[^.;,]*$")
_OF_PLACES_TOO = regex(
    r"\b(?:measur\w*|dist\w*|dims?\w*|places?|offsets?|taped?|metres|meters|feet)\b[^.;]*$"
)
NUMBERED = regex(r"\bnumber|\bunits?\b|\bno\b|\bcount|#")
_FROM_SR = regex(
    r"\bsr\s*(?:to|-|–|>|→|thru|through)\s*sl\b|\bfrom\s+(?:the\s+)?sr\b|\b(?:1|one|first)\s+(?:is\s+)?(?:at\s+)?"
    r"(?:the\s+)?sr\b|\bsr\s+end\b|\bsr\s+(?:side\s+)?first\b"
)
_EVEN = regex(r"\b(?:even(?:ly)?|equal(?:ly)?|equidistant(?:ly)?)\b")
_SPACE = regex(
    r"\b(?:spac\w+|spread\w*|distribut\w+|hang|hung|rig(?:ged)?|apart|gaps?)\b|\bdistances?\s+between\b"
)
_CENTRE = regex(r"\bcl\b|c/l|c\.l|\bcent(?:re|er)|\bctr\b|℄|\bmid")
_LOOKS = regex(r"\b(?:seen|view\w*|look\w*|fac\w+|stand\w*|stood)\b")
_FROM_SIDE = regex(  # "all distances from the left", and not "left of centre"
    r"\bfrom\s+(?:the\s+)?(?:left|right)(?:[\s-]*hand)?(?:\s+side)?"
    r"(?=\s*(?:[.;,()]|$|measured|in\s+(?:mm|cm|m|ft)\b|of\s+(?:the\s+|each\s+)?(?:bar|pipe|batten|truss)))"
)
_ONWARDS = regex(r"\b(?:to|towards?|through|thru)\s+(?:the\s+)?(?:\w+\s+){1,2}$")
_VAGUE = regex(  # "from the organ end" is no nearer to a side than "from the left-hand end"
    r"\bfrom\s+(?:the\s+|an?\s+|one\s+)?(?:left|right|l|r|(?!the\b|an?\b|one\b)[^\W\d]{3,})?[\s-]*\b(?:hand\s+)?end\b"
)
