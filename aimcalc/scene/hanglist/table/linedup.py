"""Text whose columns are lined up with spaces, as rows of cells.

Two spaces or more part two cells. A row with as many cells as there are headings has one under each, unless
it begins under the second; one of another row belongs to the heading that it stands nearest to. Dashes under
headings say where a column begins and ends, and headings that come again say it anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from aimcalc.named import regex
from aimcalc.scene.hanglist.columns.headings import heading_score, meaning
from aimcalc.scene.hanglist.table.textmarks import (
    FEWEST_ALIKE,
    LOOKED_AT,
    MARKS,
    alike,
    best_score,
)

Span = tuple[int, int]

_PIECE = regex(r"\S+(?: \S+)*")
_RULE = regex(r"\s*(?:[-=_]{2,}|-)(?:[ +|]+(?:[-=_]{2,}|-)){2,}\s*")
_GROUP = regex(r"[-=_]+")


def lined_up(text: str) -> list[list[str]] | None:
    """The rows of text whose columns are lined up with spaces; None where it is no such text."""
    head = text[:LOOKED_AT].splitlines()[:60]
    if any(best_score(text[:LOOKED_AT], mark) for mark in MARKS):
        return None
    scores = [heading_score(_words(head, k)) for k in range(len(head))]
    first = scores.index(max(scores)) if any(scores) else _first_wide(head)
    if first is None:
        return None
    lines = [line.expandtabs() for line in text.splitlines()]
    rows: list[list[str]] = []
    starts = _starts(lines, first)
    for begin, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        block = lines[begin:end]
        if begin == starts[0]:
            block, lead = lines[first:end], lines[:first]
            rows += _cells(block, lead)
        else:
            rows += _cells(block, [])
    return rows


def _starts(lines: Sequence[str], first: int) -> list[int]:
    """The lines with headings: the first one, and those that come after it with columns elsewhere."""
    found = [first]
    begins = _begins(lines, first)
    for k in range(first + 1, len(lines)):
        words = _words(lines, k)
        if len(words) < FEWEST_ALIKE or _begins(lines, k) == begins:
            continue
        if heading_score(words) >= FEWEST_ALIKE:
            found.append(k)
            begins = _begins(lines, k)
    return found


def _rule_under(lines: Sequence[str], k: int) -> list[Span]:
    """Where the columns of a line with dashes under it are; none where it has no dashes."""
    below = lines[k + 1] if k + 1 < len(lines) else ""
    return [found.span() for found in _GROUP.finditer(below)] if _RULE.fullmatch(below) else []


def _words(lines: Sequence[str], k: int) -> list[str]:
    """The words of a line that may be headings, cut as its dashes say."""
    rule = _rule_under(lines, k)
    return _ruled(lines[k], rule) if rule else _PIECE.findall(lines[k])


def _begins(lines: Sequence[str], k: int) -> list[int]:
    """Where the columns under a line of headings begin."""
    spans = _rule_under(lines, k) or [found.span() for found in _PIECE.finditer(lines[k])]
    return [begin for begin, _ in spans]


def _cells(block: Sequence[str], lead: Sequence[str]) -> list[list[str]]:
    """The cells of the lines under a row of headings, which is the first, after those of the lines that lead
    to it."""
    rule = _rule_under(block, 0)
    if rule:
        return [_ruled(line, rule) for line in (*lead, *block)]
    spans = _with_edges(_parted(block[0], block[1:]), block[1:])
    rows = [_nearest(line, spans) for line in (*lead, *block)]
    for n in range(1, len(block)):
        k = _goes_on(block[n - 1], block[n], spans)
        if k:
            rows[len(lead) + n] = ["" if j != k else block[n].strip() for j in range(len(spans))]
    return rows


def _parted(head: str, below: Sequence[str]) -> list[Span]:
    """The columns of a line of headings, with those parted that one space is between, "CIRCUIT CHAN", where
    most of the lines have a cell under each and none has one across."""
    wide = [line for line in below if len(_PIECE.findall(line)) > 2]
    found: list[Span] = []
    for piece in _PIECE.finditer(head):
        begin, end = piece.span()
        for blank in (k for k in range(begin, end) if head[k] == " "):
            if _are_two(head[begin:blank], head[blank + 1 : end]) and _part(
                (begin, blank), (blank + 1, end), wide
            ):
                found.append((begin, blank))
                begin = blank + 1
        found.append((begin, end))
    return found


def _are_two(one: str, other: str) -> bool:
    """Whether the words of a heading before a space, and some that follow, mean two things, and not one
    together."""
    keys, words = meaning(one).keys, other.split(" ")
    for k in range(len(words), 0, -1):
        rest = " ".join(words[:k])
        if others := meaning(rest).keys:
            return bool(keys) and keys != others and not meaning(f"{one} {rest}").keys
    return False


def _part(one: Span, other: Span, lines: Sequence[str]) -> bool:
    """Whether cells begin under each of two headings in most of the lines, and none has a letter between
    them."""
    both = [
        line
        for line in lines
        if all(
            any(heading[0] <= found.start() < heading[1] for found in _PIECE.finditer(line))
            for heading in (one, other)
        )
    ]
    between = any(line[one[1] : one[1] + 1].strip() for line in lines)
    return not between and len(both) >= FEWEST_ALIKE and 2 * len(both) > len(lines)


def _goes_on(above: str, line: str, spans: Sequence[Span]) -> int:
    """The column in which a line of one piece goes on with the line above it, which fills most columns and
    has a cell that begins just there; 0 where it does not."""
    pieces = [found.span() for found in _PIECE.finditer(line)]
    over = [found.span() for found in _PIECE.finditer(above)]
    if len(pieces) != 1 or 2 * len(over) <= len(spans) or len(over) < FEWEST_ALIKE:
        return 0
    if pieces[0][0] not in [begin for begin, _ in over]:
        return 0
    return min(range(len(spans)), key=lambda k: _away(spans[k], pieces[0]))


def _with_edges(spans: list[Span], below: Sequence[str]) -> list[Span]:
    """The columns of headings, with one before the first and one after the last that have no heading, where
    most of the lines have a cell there."""
    pieces = [[found.span() for found in _PIECE.finditer(line)] for line in below]
    wide = [line for line in pieces if len(line) > 2]
    left = [line[0] for line in wide if line[0][1] < spans[0][0]]
    right = [line[-1] for line in wide if line[-1][0] > spans[-1][1]]
    if len(left) >= FEWEST_ALIKE and 2 * len(left) > len(wide):
        spans = [max(left, key=lambda span: span[1]), *spans]
    if len(right) >= FEWEST_ALIKE and 2 * len(right) > len(wide):
        return [*spans, min(right)]
    return [*spans, *_remarks(pieces, spans)]


def _remarks(pieces: Sequence[Sequence[Span]], spans: Sequence[Span]) -> list[Span]:
    """The column of remarks behind the last heading: of words that stand right of all that the last column
    holds, in lines that fill every column; none where there are no such."""
    full = [line for line in pieces if len(line) > len(spans)]
    if not full or any(len(line) > len(spans) + 1 for line in full):
        return []
    begins = min(line[-1][0] for line in full)
    ends = [line[-2 if line in full else -1][1] for line in pieces if len(line) >= len(spans)]
    return [min(line[-1] for line in full)] if max(*ends, spans[-1][1]) < begins else []


def _ruled(line: str, spans: list[Span]) -> list[str]:
    """The cells of a line in columns whose dashes say where they begin; by how they line up, where a word
    stands across one's beginning."""
    pieces = _PIECE.findall(line)
    begins = [begin for begin, _ in spans[1:]]
    crossed = any(line[b - 1 : b].strip() and line[b : b + 1].strip() for b in begins)
    if crossed or len(pieces) == 1:
        return _nearest(line, spans)
    ends = [*begins, max(len(line), spans[-1][1])]
    return [line[b:e].strip() for b, e in zip([0, *begins], ends, strict=True)]


def _nearest(line: str, spans: list[Span]) -> list[str]:
    """The cells of a line, each in the column that it stands nearest to."""
    pieces = [(found.span(), found[0]) for found in _PIECE.finditer(line)]
    if 1 < len(pieces) < len(spans):
        pieces = _cut_close(line, pieces, spans)
    full = len(pieces) == len(spans) and (len(spans) == 1 or pieces[0][0][0] < spans[1][0])
    if full:  # one that begins under the second heading has nothing in the first column
        return [text for _, text in pieces]
    cells = [""] * len(spans)
    for span, text in pieces:
        k = min(range(len(spans)), key=lambda k: _away(spans[k], span))
        cells[k] = f"{cells[k]} {text}".strip()
    return cells


def _cut_close(
    line: str, pieces: list[tuple[Span, str]], spans: list[Span]
) -> list[tuple[Span, str]]:
    """The pieces of a line cut where a column begins behind one space, if that gives each column one: "solo
    chair no" under "to" and "gel"."""
    cut: list[tuple[Span, str]] = []
    begins = {begin for begin, _ in spans}
    for (begin, end), _ in pieces:
        inside = [b for b in sorted(begins) if begin < b < end and line[b - 1] == " "]
        edges = [begin, *inside, end]
        cut += [((b, e), line[b:e].strip()) for b, e in pairwise(edges)]
    return cut if len(cut) == len(spans) else pieces


def _first_wide(lines: list[str]) -> int | None:
    """The first of the lines that have as many pieces as most, three or more; None where marks part them."""
    if any(alike("\n".join(lines), mark) >= FEWEST_ALIKE for mark in MARKS):
        return None
    counts = [len(_PIECE.findall(line)) for line in lines]
    wide = [n for n in counts if n > 2]
    usual = max(set(wide), key=wide.count, default=0)
    return counts.index(usual) if usual and wide.count(usual) >= FEWEST_ALIKE else None


def _away(heading: Span, cell: Span) -> Span:
    """How far a cell stands from a heading: characters between them, then between their beginnings."""
    between = max(heading[0] - cell[1], cell[0] - heading[1], 0)
    return between, abs(heading[0] - cell[0])
