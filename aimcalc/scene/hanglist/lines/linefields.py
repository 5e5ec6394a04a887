"""The fields of one unit that is written as a free line, in any order: its number, place, channel, circuit,
colour and target by how they are written, its kind and target by the names of the scene."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise, product

from aimcalc.named import NamedTuple
from aimcalc.scene.hanglist.columns.byvalues import LEVELS
from aimcalc.scene.hanglist.columns.tradewords import COLOURS
from aimcalc.scene.hanglist.lines.linewords import (
    AIMED,
    ASIDE,
    BRACKETS,
    DANGLING,
    FIGURE,
    FILL,
    GLUED,
    HEDGED,
    LABELS,
    LETTERS,
    MARKED,
    PART,
    PLACES,
    SEPARATORS,
    SIDE_ALONE,
    TARGET_LABELS,
    UNIT,
    UNSURE,
    WORTH,
    numbered,
)
from aimcalc.scene.hanglist.meanings import Meanings
from aimcalc.scene.hanglist.names.sparewords import is_spare
from aimcalc.scene.hanglist.places.placeforms import SIDED
from aimcalc.scene.hanglist.rows.listrow import is_ditto
from aimcalc.scene.mistakes import show

LONGEST_NAME = 6  # words of a kind or a target
MOST_WORDS = 32  # among which they are looked for
MOST_NAMES = 12  # of one sort that are held against those of the others
AROUND = " .:-–—/"
SURE = 3  # how surely words name something: all but for case and spaces


class Fields(NamedTuple):
    """What a line says of its unit, by key; words left over; what of it cannot be told."""

    cells: dict[str, str]
    left: tuple[str, ...] = ()
    doubt: str = ""

    @property
    def is_unit(self) -> bool:
        """Whether it looks like a unit: a number or a kind beside a place, or both names of the scene."""
        told = self.cells.keys()
        return len({"number", "at", "kind"} & told) > 1 or {"kind", "target", "channel"} <= told


class _Name(NamedTuple):
    """Words that may name a kind, a target or a position: the first word, the one behind the last."""

    key: str
    low: int
    high: int
    words: str
    name: str
    worth: float


class _Split(NamedTuple):
    """One way to read the names of a line, and how well it fits."""

    score: float
    found: tuple[tuple[str, str, str], ...]  # key, words, the name that they mean
    left: tuple[str, ...]


class LineReader:
    """Reads units by the names of a scene."""

    def __init__(self, meanings: Meanings) -> None:
        self.meanings = meanings
        self.known: dict[tuple[str, str], tuple[int, str]] = {}
        self.figures: re.Pattern[str] | None = None  # that are places, as a line says

    def fields(self, text: str, *, placed: bool) -> Fields:
        """The fields of a line or a part of one; `placed` where its position is known."""
        cells: dict[str, str] = {}
        doubts: list[str] = []
        if UNSURE.search(BRACKETS.sub("", text)):
            doubts.append("what its ? or ~ leaves open")
        text = TARGET_LABELS.sub("focus ", LABELS.sub("", GLUED.sub(r"\1 ", text)))
        before, number, text = numbered(text)
        if number:
            cells["number"] = number
        text = _marked_out(text, cells, doubts)
        ways = [
            (sure + split.score, at, split)
            for at, sure, rest in _place_ways(text, self.figures)
            for split in self._splits(rest, placed)
        ]
        score = max(way[0] for way in ways)
        best = {(at, _meant(split)): (at, split) for s, at, split in ways if s == score}
        at, split = next(iter(best.values()))
        if len(best) > 1:
            doubts.append(_either(list(best.values())))
        cells |= {"at": at} if at else {}
        cells |= {key: words for key, words, _ in split.found}
        left = list(split.left)
        if before and left[:1] == [before] and "position" not in cells:
            cells["position"] = left.pop(0)
        return Fields(cells, self._loose(left, cells, doubts), "; ".join(doubts))

    def _loose(self, left: list[str], cells: dict[str, str], doubts: list[str]) -> tuple[str, ...]:
        """What stays as a remark, after a colour in words and names that the scene does not know."""
        kept = []
        for words in left:
            is_gel = not ASIDE.match(words) and self.meanings.fits("gel", words)
            if is_gel and words.casefold() != "no" and not FIGURE.search(words):
                if "colour" in cells:
                    doubts.append(f"which colour it has: {show(cells['colour'])} or {show(words)}")
                cells["colour"] = words
            else:
                kept.append(words)
        is_unit = Fields(cells).is_unit
        for key in ("kind", "target"):
            may_be = [w for w in kept if not ASIDE.match(w) and LETTERS.search(w)]
            may_be = [w for w in may_be if w.casefold() not in LEVELS and not is_spare(w)]
            may_be = [w for w in may_be if not HEDGED.search(w) or is_ditto(w)]
            if key not in cells and is_unit and len(may_be) == 1:
                cells[key] = may_be[0]
                kept.remove(may_be[0])
        doubts += [f"what {show(w)} is" for w in kept if self._is_doubtful(w, cells)]
        return tuple(kept)

    def _is_doubtful(self, words: str, cells: dict[str, str]) -> bool:
        """Whether words that are left over may change what a line says."""
        parts = words.split()
        spans = [" ".join(parts[a:b]) for a, b, _ in _spans([(word, 0) for word in parts])]
        grades = [(self._grade("target", s)[0], self._grade("kind", s)[0]) for s in spans]
        named = any(max(grade) >= SURE - 1 for grade in grades)
        hedged = HEDGED.search(words)
        if ASIDE.match(words):  # "(was Sofa)", "+ top hat SR"
            return bool(hedged) and (named or not SIDED.search(cells.get("at", "")))
        coloured = "colour" not in cells and COLOURS & set(words.casefold().split())
        return bool(
            named or hedged or coloured or FIGURE.search(words) or DANGLING.fullmatch(words)
        )

    def _splits(self, text: str, placed: bool) -> list[_Split]:
        """The ways to find a kind, a target and a position in the rest of a line that fit it best."""
        chunks, aimed = self._aimed(text)
        words = [(word, k) for k, chunk in enumerate(chunks) for word in chunk.split()]
        words, rest = words[:MOST_WORDS], " ".join(word for word, _ in words[MOST_WORDS:])
        options: list[list[_Name]] = [[], [], []]
        for low, high, whole in _spans(words):
            text = " ".join(word for word, _ in words[low:high])
            for several, key in zip(options, ("kind", "target", "position"), strict=True):
                grade, name = self._grade(key, text) if key != "target" or not aimed else (0, "")
                if grade == SURE or (grade and not (placed and key == "position")):
                    several.append(_Name(key, low, high, text, name, 2 * grade + whole))
        most = [sorted(each, key=lambda n: -n.worth)[:MOST_NAMES] for each in options]
        found = []
        for chosen in product(*([None, *each] for each in most)):
            names = sorted((n for n in chosen if n is not None), key=lambda n: n.low)
            if any(a.high > b.low for a, b in pairwise(names)):
                continue
            left = (*_left(words, names), *([rest] if rest else []))
            score = sum(n.worth + (0 if placed and n.key == "position" else 10) for n in names)
            score -= sum(0.5 * len(w.split()) + 3 * bool(FIGURE.search(w)) for w in left)
            told = [(n.key, n.words, n.name) for n in names]
            found.append(_Split(score, (*told, *aimed), left))
        best = max(split.score for split in found)
        return [split for split in found if split.score == best]

    def _aimed(self, text: str) -> tuple[list[str], list[tuple[str, str, str]]]:
        """The parts of a line, and the target that stands behind a word for it, taken out of them."""
        text = BRACKETS.sub(lambda found: re.sub(r"[,;:|]|\s{2,}", " ", found[0]), text)
        chunks = [c.strip(AROUND) for c in SEPARATORS.split(text) if c and c.strip(AROUND)]
        for k, chunk in enumerate(chunks):
            mark = AIMED.search(chunk)
            if mark is None:
                continue
            words = chunk[mark.end() :].split()
            after = [chunk[: mark.start()].strip()]
            if not words and k + 1 < len(chunks):  # "focus - Sofa"
                words, chunks[k + 1] = chunks[k + 1].split(), ""
            if not words:
                continue
            ends = range(min(len(words), LONGEST_NAME), 0, -1)
            graded = [(self._grade("target", " ".join(words[:n]), bare=True), n) for n in ends]
            (grade, name), n = max(graded, key=lambda one: one[0][0])
            n = n if grade else len(words)
            rest = [*after, " ".join(words[n:])]
            chunks[k : k + 1] = [part for part in rest if part]
            target = " ".join(words[:n])
            return [c for c in chunks if c], [("target", target, name or target)]
        return chunks, []

    def _grade(self, key: str, words: str, *, bare: bool = False) -> tuple[int, str]:
        """How surely words name a kind, a target or a position of the scene, 0 to 3, and which."""
        if (key, words) not in self.known:
            self.known[key, words] = self._graded(key, words, bare)
        return self.known[key, words]

    def _graded(self, key: str, words: str, bare: bool) -> tuple[int, str]:
        parts = words.casefold().split()
        if SIDE_ALONE.fullmatch(words):
            return 0, ""  # and no first letters of a Stand Left
        if key == "position" and not LETTERS.search(SIDE_ALONE.sub(" ", words)):
            return 0, ""  # "(2) SL" of a Boom 2 SL
        named = len(parts) > 1 and re.fullmatch("[A-Z]", words.split()[-1])  # the A of "Area A"
        if (not bare and {parts[0], "" if named else parts[-1]} & FILL) or not WORTH[key].search(
            words
        ):
            return 0, ""
        names = {
            "kind": self.meanings.kinds.own,
            "target": self.meanings.targets,
            "position": self.meanings.positions,
        }[key]
        meant = names.find(words)
        if meant.name:
            return (SURE if meant.sure else SURE - 1), meant.name
        if key == "kind" and meant.several:
            return SURE - 1, words  # "Fresnel" of two: asked about as any kind is
        near = names.near(words) if key != "position" and len(words) > len("near") else None
        fits = key == "kind" and self.meanings.fits("kind", words)
        if near or fits or (key == "target" and meant.several):
            return 1, near or words
        return 0, ""


def _marked_out(text: str, cells: dict[str, str], doubts: list[str]) -> str:
    """Take channel, circuit and colour out of a line; a doubt where one is there twice."""
    for key, pattern in MARKED:
        for found in list(pattern.finditer(text))[::-1]:
            value = " ".join(next(group for group in found.groups() if group).split())
            if key in cells and cells[key] != value:
                doubts.append(f"which {key} it has: {show(value)} or {show(cells[key])}")
            cells[key] = value
            text = text[: found.start()] + PART + text[found.end() :]
    return text


def _place_ways(text: str, figures: re.Pattern[str] | None) -> Iterator[tuple[str, float, str]]:
    """The places that may stand in a line, how sure each is, and the line without it; first none."""
    yield "", 0.0, text
    for pattern, sure in (*PLACES, *([(figures, 1.0)] if figures else [])):
        for found in pattern.finditer(text):
            at = " ".join(found[0].strip(" ,-@\t").split())
            unit = 0.5 * bool(re.search(rf"\d\s*(?:{UNIT})|\d-\d", at, re.IGNORECASE))
            yield at, 3 * (sure + unit), text[: found.start()] + PART + text[found.end() :]


def _spans(words: Sequence[tuple[str, int]]) -> Iterator[tuple[int, int, int]]:
    """Runs of words of one part of a line, and of two parts as they stand; the third is 1 where no part is
    cut."""
    for low in range(len(words)):
        for high in range(low + 1, min(len(words), low + LONGEST_NAME) + 1):
            parts = {k for _, k in words[low:high]}
            begins = low == 0 or words[low - 1][1] != words[low][1]
            ends = high == len(words) or words[high][1] != words[high - 1][1]
            if len(parts) == 1 or (begins and ends and len(parts) == 2):
                yield low, high, int(begins and ends and len(parts) == 1)


def _left(words: Sequence[tuple[str, int]], names: Sequence[_Name]) -> tuple[str, ...]:
    """The runs of words beside names, without those that say nothing."""
    taken = {k for n in names for k in range(n.low, n.high)}
    runs: dict[tuple[int, int], list[str]] = {}
    for k, (word, chunk) in enumerate(words):
        if k not in taken:
            runs.setdefault((chunk, sum(n.high <= k for n in names)), []).append(word)
    found = []
    for run in runs.values():
        whole = " ".join(run)
        while run and run[0].casefold().strip(".,:") in FILL:
            run.pop(0)
        while (
            run and run[-1].casefold().strip(".,:") in FILL and not re.fullmatch("[A-Z]", run[-1])
        ):
            run.pop()
        said = " ".join(run).strip(" .,:-–—")
        if any(map(str.isalnum, said)):
            found.append(whole if ASIDE.match(whole) else said)
    return tuple(found)


def _meant(split: _Split) -> tuple[tuple[str, str], ...]:
    return tuple(sorted((key, name) for key, _, name in split.found))


def _either(ways: Sequence[tuple[str, _Split]]) -> str:
    """The doubt between readings that fit as well."""
    told = []
    for at, split in ways[:3]:
        fields = [f"{key} {show(words)}" for key, words, _ in split.found]
        told.append(", ".join([*([f"at {show(at)}"] if at else []), *fields]))
    return f"whether it is {' or '.join(told)}"
