"""A table for a terminal, and text folded to it. It loads nothing: what lists words alone comes at once.

A `width` is in columns, None where no terminal shows the text and every line may be as long as it likes.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

MARGIN = "  "
UNDER = "      "  # what starts the lines that a row goes on in
BETWEEN = 2  # columns of white between two columns of a table


def table(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    width: int | None = None,
    anew: Sequence[str] = (),
) -> list[str]:
    """The lines of a table, each column as wide as its widest cell; empty columns are left out.

    Where a row is wider than the terminal its columns go on in further lines, under heads of their own:
    at the heads in `anew`, and wherever the next column does not fit.
    """
    columns = [column for column in zip(heads, *rows, strict=True) if any(column[1:])]
    widths = [max(map(len, column)) for column in columns]
    one_line = width is None or len(MARGIN) + sum(widths) + BETWEEN * (len(widths) - 1) <= width
    breaks = {k for k, column in enumerate(columns) if column[0] in anew}
    runs = [(0, len(widths))] if one_line else _runs(widths, width or 0, breaks)
    return [
        line
        for cells in zip(*columns, strict=True)
        for k, (first, last) in enumerate(runs)
        for line in _lines(cells[first:last], widths[first:last], UNDER if k else MARGIN, width)
    ]


def folded(text: str, width: int | None) -> str:
    """A text with every line no wider than the terminal, what goes on indented as its line is."""
    if width is None:
        return text
    lines = []
    for line in text.split("\n"):
        indent = line[: len(line) - len(line.lstrip())]
        lines += _wrapped(line.strip(), indent, width) if len(line) > width else [line]
    return "\n".join(lines)


def _runs(widths: Sequence[int], width: int, breaks: Collection[int]) -> list[tuple[int, int]]:
    """Which columns stand in each line of a row: up to a break as many as fit, one at least."""
    runs, first, used = [], 0, len(MARGIN)
    for k, wide in enumerate(widths):
        if k > first and (k in breaks or used + wide > width):
            runs.append((first, k))
            first, used = k, len(UNDER)
        used += wide + BETWEEN
    return [*runs, (first, len(widths))]


def _lines(
    cells: Sequence[str], widths: Sequence[int], indent: str, width: int | None
) -> list[str]:
    """One line of a row: none where it would be empty, more where a single cell is too wide."""
    line = (" " * BETWEEN).join(map(str.ljust, cells, widths)).rstrip()
    if not line and indent == UNDER:
        return []
    if width is None or len(indent) + len(line) <= width:
        return [indent + line]
    return _wrapped(line, indent, width)


def _wrapped(line: str, indent: str, width: int) -> list[str]:
    """A line broken between words; a word wider than the terminal is left whole."""
    lines, used = [indent], len(indent)
    for word in line.split(" "):
        if used > len(indent) and used + len(word) > width:
            lines.append(indent)
            used = len(indent)
        lines[-1] += word + " "
        used += len(word) + 1
    return [line.rstrip() for line in lines]
