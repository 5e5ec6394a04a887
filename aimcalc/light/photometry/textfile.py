"""Photometric files as lines and numbers, each with the line it stands on."""

from __future__ import annotations

import os
from math import isfinite

import numpy as np

from aimcalc.geometry.vectors import Array


class PhotometryError(ValueError):
    """A photometric file that cannot be used: which file, which line, what was expected, what came."""

    def __init__(self, path: str, line: int | None, says: str) -> None:
        place = path if line is None else f"{path}, line {line}"
        super().__init__(f"{place}: {says}")
        self.path = path
        self.line = line
        self.says = says


MOST_BYTES = 20_000_000
MOST_VALUES = 4_000_000  # candela values of one file
MOST_CANDELA = 1e12


def read_lines(path: str) -> list[str]:
    """The lines of a text file of any common encoding and line ending; a bad file is refused.

    Bytes that are not UTF-8 are read as Latin-1: only labels hold them. An end-of-file mark (Ctrl-Z) ends
    the text; empty lines at its end are dropped.
    """
    try:
        if not os.path.isfile(path):
            raise PhotometryError(
                path, None, "expected a photometric file, found none of this name"
            )
        size = os.path.getsize(path)
        if size > MOST_BYTES:
            says = f"expected at most {MOST_BYTES // 10**6} MB, the file has {size / 1e6:.1f} MB"
            raise PhotometryError(path, None, says)
        with open(path, "rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise PhotometryError(path, None, f"cannot be read: {error.strerror}") from error
    text = _decoded(data)
    if "\0" in text:
        raise PhotometryError(path, None, "expected text, found zero bytes: not a photometric file")
    text = text.split("\x1a")[0].replace("\r\n", "\n").replace("\r", "\n")
    return text.rstrip().split("\n")


def _decoded(data: bytes) -> str:
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def number(path: str, line: int, word: str, what: str) -> float:
    """One finite number from a word of the file."""
    try:
        value = float(word) if "_" not in word else float("nan")
    except ValueError:
        value = float("nan")
    if not isfinite(value):
        raise PhotometryError(path, line, f"expected a number ({what}), found {word[:40]!r}")
    return value


class Numbers:
    """Numbers taken one after the other from lines, wherever those break; commas count as spaces."""

    def __init__(self, path: str, lines: list[str], first: int) -> None:
        """`first` is the index in `lines` where the numbers begin."""
        self.path = path
        self._lines = lines
        self._next = first
        self._words: list[str] = []
        self._used = 0

    @property
    def line(self) -> int:
        """Number of the line last read from, counted from 1."""
        return max(1, self._next)

    def take(self, count: int, what: str) -> tuple[Array, list[int]]:
        """The next `count` numbers (count,) and the line each stands on.

        Raises PhotometryError where the file ends before them, or has a word that is no number.
        """
        values: list[float] = []
        where: list[int] = []
        while len(values) < count:
            if self._used == len(self._words) and not self._turn():
                says = f"expected {count} numbers ({what}), the file ends after {len(values)}"
                raise PhotometryError(self.path, self.line, says)
            words = self._words[self._used : self._used + count - len(values)]
            values += [number(self.path, self.line, word, what) for word in words]
            where += [self.line] * len(words)
            self._used += len(words)
        return np.array(values), where

    def whole(self, what: str, *, least: int, most: int) -> int:
        """The next number, which is a whole one from `least` to `most`."""
        value = self.take(1, what)[0][0]
        if value != int(value) or not least <= value <= most:
            says = f"expected a whole number from {least} to {most} ({what}), found {value:g}"
            raise PhotometryError(self.path, self.line, says)
        return int(value)

    def finish(self, what: str) -> None:
        """Refuse the file if there are more words after the last number."""
        if self._used == len(self._words):
            while self._turn():
                if self._words:
                    break
        if self._used < len(self._words):
            word = self._words[self._used]
            says = f"expected the file to end after {what}, found more: {word[:40]!r}"
            raise PhotometryError(self.path, self.line, says)

    def _turn(self) -> bool:
        if self._next >= len(self._lines):
            return False
        self._words = self._lines[self._next].replace(",", " ").split()
        self._used = 0
        self._next += 1
        return True


def rising(path: str, values: Array, where: list[int], what: str) -> None:
    """Refuse a list of angles (K,) that does not rise from one to the next; `where` has the line of each.

    Raises PhotometryError at the first that does not.
    """
    falls = np.flatnonzero(np.diff(values) <= 0)
    if falls.size:
        k = int(falls[0]) + 1
        says = f"expected {what} that rise, found {values[k]:g} after {values[k - 1]:g}"
        raise PhotometryError(path, where[k], says)


def no_negatives(path: str, candela: Array, where: list[int], notes: list[str]) -> Array:
    """The candela values, any shape, with small negative ones (measuring noise) set to zero.

    `where` has the line of each. Small is up to a hundredth of the peak; PhotometryError for one beyond it.
    """
    low = float(candela.min(initial=0.0))
    if low >= 0:
        return candela
    k = int(candela.argmin())
    if -low > 0.01 * float(candela.max()):
        raise PhotometryError(path, where[k], f"expected candela of 0 or more, found {low:g}")
    notes.append(f"negative candela (down to {low:g}, line {where[k]}) taken as 0")
    return np.maximum(candela, 0.0)


def scaled(path: str, candela: Array, factor: float) -> Array:
    """The candela, any shape, times the file's own factors.

    Raises PhotometryError where the peak is then nothing, or more than any light has.
    """
    if not 0 < factor * float(candela.max()) <= MOST_CANDELA:
        says = f"expected a peak over 0 and up to {MOST_CANDELA:g} cd, found {candela.max():g}"
        raise PhotometryError(path, None, f"{says} times the file's factors, {factor:g}")
    return np.asarray(candela * factor)
