"""Lines that tell several names at once, or in a sentence: "S1, S2, S3 = Bar 1, 2, 3", "E1 to E4 are their
Bar 1 to Bar 4", "Bridge = FOH Bridge / Batten 1 2 3 = Bar 1 2 3", "T = Truss"."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from aimcalc.named import NamedTuple, regex
from aimcalc.scene.hanglist.names.spelling import fold_code

LONGEST_LINE = 400
MOST_STATEMENTS = 24
MOST_MISSED = 3  # statements one behind the other that tell nothing
MOST_NAMES = 24  # of one run, "E1 to E4"
LONGEST_PART = 80  # of a line, the codes or the names of one statement
LONGEST_CODE = 24
SHORT_CODE = 4  # letters of codes that nothing but spaces part, "VL VM VR"

Spelled = Callable[[str], str | None]  # the name of the scene that words spell


class Told(NamedTuple):
    """What a line tells: key, code and name each; and whether it says nothing else."""

    found: tuple[tuple[str, str, str], ...] = ()
    alone: bool = False


NOTHING = Told()


def may_tell(line: str) -> bool:
    """Whether a line of many cells may tell names: it says so by a sign or in words."""
    return len(line) <= LONGEST_LINE and bool(_STRONG_SIGNS.search(line) or _VERBS.search(line))


def told_by(
    line: str, spelled: Mapping[str, Spelled], loosely: Mapping[str, Spelled] | None = None
) -> Told:
    """What a line says that codes stand for, by the keys whose names it spells; or names short, in several
    statements of which each finds one name `loosely`: "T1 = front, T2 = back"."""
    if len(line) > LONGEST_LINE:
        return NOTHING
    best = NOTHING
    for signs in (_STRONG_SIGNS, _VERBS, _MARKS):
        told = _told(line, signs, spelled)
        best = told if len(told.found) > len(best.found) else best
    if loosely and "=" in line and "position" not in {key for key, _, _ in best.found}:
        short = _told(line, _STRONG_SIGNS, loosely)
        whole = len({name for _, _, name in short.found}) == len(_STRONG_SIGNS.findall(line)) > 1
        best = Told((*best.found, *short.found), alone=False) if whole else best
    if best.found or "=" in line:
        return best
    opened = _BRACKET.sub(r" = \1, ", line) if "(" in line or "[" in line else line
    told = _told(opened, _STRONG_SIGNS, spelled) if opened != line else NOTHING
    return Told(told.found or _side_by_side(line, spelled))


def _told(line: str, signs: re.Pattern[str], spelled: Mapping[str, Spelled]) -> Told:
    """What a line says of codes by signs of one sort between them and their names."""
    verbs = list(signs.finditer(line))[:MOST_STATEMENTS]
    if not verbs:
        return NOTHING
    ends = [*(verb.start() for verb in verbs[1:]), len(line)]
    codes, alone = _last_sentence(line[: verbs[0].start()])
    found: list[tuple[str, str, str]] = []
    one = len(verbs) == 1
    missed = 0
    for verb, end in zip(verbs, ends, strict=True):
        says = line[verb.end() : end]
        pairs, rest = _best_parted(codes, says, spelled, last=end == len(line))
        if signs is _MARKS and one:
            pairs = tuple(pair for pair in pairs if _CODED.search(pair[1]))
        found += pairs
        missed = 0 if pairs else missed + 1
        if missed > MOST_MISSED:
            break
        alone = alone and bool(pairs) and signs is _STRONG_SIGNS and (not one or _figured(pairs))
        codes = rest
    alone = alone and len(found) > 1 and not codes.strip(" .,;)")  # one may stand over its units
    return Told(tuple(dict.fromkeys(found)), alone)


def _side_by_side(line: str, spelled: Mapping[str, Spelled]) -> tuple[tuple[str, str, str], ...]:
    """Short codes each before its name without a sign: "Key: LX1 Bar 1 / LX4 Bar 4"."""
    parts = [part.split(None, 1) for part in _PARTED.split(_SENTENCE.split(line)[-1])]
    if not 1 < len(parts) <= MOST_NAMES or not all(len(part) == 2 for part in parts):
        return ()
    if not all(len(code) <= 2 * SHORT_CODE and _CODED.search(code) for code, _ in parts):
        return ()
    for key, find in spelled.items():
        found = [(key, code, find(name.strip(_SIGNS))) for code, name in parts]
        if all(name and find(code) is None for _, code, name in found):
            return tuple((key, code, name) for key, code, name in found if name)
    return ()


def _figured(pairs: tuple[tuple[str, str, str], ...]) -> bool:
    """Whether codes are no words: "Position = LX 1" stands over units."""
    return all(_CODED.search(code) for _, code, _ in pairs)


def _last_sentence(text: str) -> tuple[str, bool]:
    """The words before a sign that may be codes, and whether nothing stands before them."""
    found = _SENTENCE.split(text)
    return found[-1], not any(part.strip() for part in found[:-1])


def _best_parted(
    codes: str, says: str, spelled: Mapping[str, Spelled], *, last: bool
) -> tuple[tuple[tuple[str, str, str], ...], str]:
    """Codes with the names that follow their sign, as many as there are, and what is left behind these."""
    found = ((_paired(codes, each, spelled), rest) for each, rest in _partings(says, last=last))
    best = max(found, key=lambda one: len(one[0]), default=((), ""))
    return best if best[0] else ((), _codes_behind(says))


def _codes_behind(says: str) -> str:
    """The codes at the end of what tells nothing, all of a list: "VL/VM/VR" behind "rechts; VL/VM/VR"."""
    parted = next((found for mark in _FROM_STRONGEST if len(found := mark.split(says)) > 1), [says])
    return parted[-1]


def _partings(says: str, *, last: bool) -> Iterator[tuple[str, str]]:
    """The ways to part what stands between two signs into names and the codes that follow."""
    if last:
        yield says, ""
    marks = list(_PARTED.finditer(says))
    if last:  # and no part of a list, "Vorne links/Mitte/rechts"
        marks = [mark for mark in marks if mark[0] != "/"]
    for mark in marks[:MOST_NAMES]:
        yield says[: mark.start()], says[mark.end() :]
    if not last and not marks:
        words = says.rsplit(None, 1)
        if len(words) == 2:
            yield words[0], words[1]  # "T1=Front Truss T2=Mid Truss"


def _paired(
    codes: str, meaning: str, spelled: Mapping[str, Spelled]
) -> tuple[tuple[str, str, str], ...]:
    """Codes with the names of the scene that they stand for, whichever of both is said first."""
    if len(codes) > LONGEST_PART or len(meaning) > LONGEST_PART:
        return ()
    for key, find in spelled.items():
        for names, shorts in ((meaning, codes), (codes, meaning)):
            turned = names is codes
            if pairs := _one_each(names, shorts, find, turned=turned):
                return tuple((key, code, name) for code, name in pairs)
        if pairs := _by_sort(codes, meaning, find):
            return tuple((key, code, name) for code, name in pairs)
    return ()


def _one_each(
    names: str, shorts: str, find: Spelled, *, turned: bool
) -> tuple[tuple[str, str], ...]:
    for each in _lists(_plain_names(names)):
        found = [find(name) for name in each]
        if not all(found) or len(set(found)) < len(found):
            continue
        pairs = tuple(
            (way, name)
            for codes in _lists(_plain_codes(shorts))
            if len(codes) == len(found) == len(set(codes))
            and all(_is_code(code, find, turned=turned) for code in codes)
            for code, name in zip(codes, found, strict=True)
            if name
            for way in _ways(code)
        )
        if pairs:
            return pairs
    return ()


def _is_code(code: str, find: Spelled, *, turned: bool) -> bool:
    fits = 0 < len(code) <= LONGEST_CODE and bool(fold_code(code)) and find(code) is None
    if turned and SIDE.fullmatch(code):
        return False  # "Tower (SL)" says where it is
    return fits and (not turned or bool(re.search(r"[^\W\d_]", code)))


def _ways(code: str) -> Iterator[str]:
    """A code as its cells may write it: one of several battens is a batten."""
    yield code
    singular = _PLURAL.sub(r"\1\2", code)
    if singular != code:
        yield singular


def _by_sort(codes: str, meaning: str, find: Spelled) -> tuple[tuple[str, str], ...]:
    """Codes of a sort whose names are numbered: "E = Bar", "Batten # = Bar #"."""
    sort, code = _NUMBERED.sub("", _plain_names(meaning)), _NUMBERED.sub("", _plain_codes(codes))
    if not sort or not re.fullmatch(r"[^\W\d_]+(?: [^\W\d_]+)?", code) or find(sort):
        return ()
    if find(code) or len(code) > LONGEST_CODE:
        return ()
    found = [(number, find(f"{sort} {number}")) for number in range(1, MOST_NAMES + 1)]
    named = [(number, name) for number, name in found if name]
    if len(named) < FEWEST_OF_SORT:
        return ()
    return tuple((way, name) for number, name in named for way in _ways(f"{code} {number}"))


FEWEST_OF_SORT = 2


def _plain_names(text: str) -> str:
    """The names of a statement without the words round them: "their Bar 1 (upstage)"."""
    return _WHOSE.sub("", _bare(text)).strip(_SIGNS)


def _plain_codes(text: str) -> str:
    return _INTRO.sub("", _bare(text)).strip(_SIGNS)


def _bare(text: str) -> str:
    """A text without what explains it behind."""
    return _BEHIND.sub("", text.strip(_SEPARATORS)).strip(_SIGNS)


def _lists(text: str) -> Iterator[list[str]]:
    """The names that a text may hold, in each way to read it."""
    run = _RUN.fullmatch(text)
    if run and int(run[2]) < int(run[4]) < int(run[2]) + MOST_NAMES:
        first, again = run[1].strip(), (run[3] or "").strip()
        if not again or fold_code(again) == fold_code(first):
            yield [f"{first} {n}".strip() for n in range(int(run[2]), int(run[4]) + 1)]
    several = _NUMBERS.fullmatch(text)
    if several:
        yield [f"{several[1].strip()} {n}" for n in re.findall(r"\d+", several[2])]
    yield [text]
    listed = _LISTED.split(text) if "/" in text else []
    if 1 < len(listed) <= MOST_NAMES:
        yield [part.strip(_SIGNS) for part in listed]  # "B/OP, B/PS"
    parts = [_WHOSE.sub("", part.strip(_SIGNS)) for part in _AND.split(text)]
    parts = [part for part in parts if part]
    if 1 < len(parts) <= MOST_NAMES:
        yield parts
        first, last = parts[0].split(), parts[-1].split()
        if len(last) > 1:  # "Front, Mid and Back Truss"
            yield [*(f"{part} {last[-1]}" for part in parts[:-1]), parts[-1]]
        if len(first) > 1 and _MANY.fullmatch(first[0]):  # "booms OP and PS"
            sort = first[0][:-1]
            yield [f"{sort} {part}" for part in (" ".join(first[1:]), *parts[1:])]
        if len(first) > 1:  # "Tower left / right"
            yield [parts[0], *(f"{' '.join(first[:-1])} {part}" for part in parts[1:])]
    words = text.split()
    if run or len(parts) > 1:
        return
    if 1 < len(words) <= MOST_NAMES and all(len(word) <= SHORT_CODE for word in words):
        yield words


_SEPARATORS = " \t.,;:=·•|\"'“”„"
_SIGNS = f"{_SEPARATORS}()[]"
# What stands between a code and its name: signs that say it, words, and marks that stand in other lines too.
_STRONG_SIGNS = regex(r"\s*(?:=>|:?={1,2}|≙|≡|→|->|\.{3,}|…+)\s*")
_VERBS = regex(
    r"\s+(?:is|are|means?|stands?\s+for|equals?|refers?\s+to|corresponds?\s+to|sont|est|sind|ist"
    r"|heissen|heißen|heißt|heisst|entspr(?:icht|echen)|bedeute[tn]|steht\s+für|stehen\s+für|signifie(?:nt)?|è|sono|es|son"
    r"|significan?|är|betyder|er|zijn|betekent|betekenen|são|é|oznaczają?|znamená|jsou|je|ovat|tarkoittaa)\s+",
    re.IGNORECASE,
)
_MARKS = regex(r"\s*:\s+|\s+[-–—]\s+")
SIDE = regex(
    r"[sh]?\W?[lr]\W?|[ud]\W?s\W?|p\W?s|o\W?p|c|c/?l|left|right|cent(?:re|er)", re.IGNORECASE
)
_BRACKET = regex(r"\s*[(\[]([^()\[\]]{1,40})[)\]]")
_SENTENCE = regex(r"[.!?]\s+|[:;(|]|\s{3,}")
_CODED = regex(r"\d|^[^\W\d_]{1,3}$")
_PLURAL = regex(r"([^\W\d_]{3,})s(\s*\d+)")
_NUMBERED = regex(r"\s*(?:\b[nx]\b|[#№*])\s*$")
_AND_WORDS = r"\b(?:and|und|et|y|e|och|og|en|ja|i|a|or)\b"
_AND = regex(rf"\s*(?:[,;/&+]|(?<=\s){_AND_WORDS}(?=\s))\s*")
_LISTED = regex(rf"\s*(?:[,;&+]|(?<=\s){_AND_WORDS}(?=\s))\s*")
_MANY = regex(r"[^\W\d_]{3,}s")
_PARTED = regex(rf"\s*[,;/|.·•]\s*|\s{{2,}}|\s+{_AND_WORDS}\s+")
_FROM_STRONGEST = tuple(
    map(regex, (r"[;|•]", r"\.\s|\s{2,}", r",|·", r"\s/\s", rf"\s+{_AND_WORDS}\s+", r"/"))
)
_TO = r"(?:-|–|—|\.\.+|…|to|thru|through|till|bis|à|au|al?|do|til|tot|tot en met|t/m|až)"
_RUN = regex(rf"([^\d]{{0,40}})(\d{{1,2}})\s*{_TO}\s*([^\d]{{0,40}})(\d{{1,2}})", re.IGNORECASE)
_NUMBERS = regex(
    r"([^\d]{0,40}[^\W\d_])\s*"
    rf"(\d{{1,2}}(?:(?:\s*[,;/&+]\s*|\s+{_AND_WORDS}\s+|\s*,\s*{_AND_WORDS}\s+|\s+)\d{{1,2}})+)"
)
# Whose names they are, and what a line says before or behind them.
_WHOSE = regex(
    r"^(?:(?:the|their|our|your|its|his|her|house|venue|theatre|theater|local|names?|called|known\s+as|positions?|pipes?\s+called"
    r"|der|die|das|den|dem|unsere?|eure|ihre?|haus|le|la|les|notre|nos|votre|leurs?|il|lo|gli|i|el|los|las|su|nuestr[ao]s?"
    r"|het|de|det|deras|vår|våra|vores|deres|ons|onze|hun|equivalent\s+to|same\s+as|in\s+the\s+house)"
    r"(?:['’]s)?\s+)+(?=\S)",
    re.IGNORECASE,
)
_INTRO = regex(
    r"^(?:(?:in|this|list|here|the|our|their|your|my|codes?|key|note|notes|nb|please|where|with|and|bars?\s+called|on|plan|below"
    r"|above|abbreviations?|positions?|legend|legende|légende|hier|ici|aquí|qui)\W+)+(?=\S)",
    re.IGNORECASE,
)
_BEHIND = regex(
    r"\s*(?:\([^()]*\)|,?\s+(?:(?:counted|numbered|counting|going)\s+)?(?:from|starting)\s+(?:the\s+|at\s+the\s+)?"
    r"(?:front|back|house|down\W?stage|up\W?stage|d\W?s|u\W?s)\b(?:\s+(?:to\s+(?:the\s+)?back|up(?:wards)?|on))?|,?\s+(?:respectively|resp\.?|bzw\.?|in\s+(?:that|this)\s+order|here|there|below|above"
    r"|(?:in|of|on|at|for)\s+(?:the|their|our|this|your|that)\s+(?:house|venue|theatre|theater|plan|list|drawing|plot|table)"
    r"|in\s+the\s+(?:table|list)\s+below))[\s.]*$",
    re.IGNORECASE,
)
