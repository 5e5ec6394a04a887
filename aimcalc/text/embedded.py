"""The typeface as documents carry it: what nearly all of them have in common is made once a process.

The library would make a font file of each document's own letters, pack it and write out their widths. But
most documents of a set have the same letters, those of ASCII and a few more: they have the same codes
everywhere. A document with others gives them codes behind these, and has a file of its own.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Iterable
from functools import cache, lru_cache
from typing import Any

USUAL = "°…"  # beside the letters of ASCII, whose codes are their own
QUICK = 2  # of 9 levels of packing: in half the time of the library's 6, a tenth larger
KEPT = 1 << 14  # lines of text whose codes are kept
_CODES = {ord(letter): code for code, letter in enumerate(USUAL, 1)}


def register(files: dict[str, str]) -> None:
    """Give the library a typeface: font files by their names."""
    from reportlab.pdfbase import pdfdoc, pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    packed: dict[bytes, bytes] = {}  # font files that many documents carry

    def pack(content: str | bytes) -> bytes:
        plain = content.encode() if isinstance(content, str) else content
        return packed.get(plain) or zlib.compress(plain, QUICK)

    def kept(make: Callable[[list[int]], bytes]) -> Callable[[list[int]], bytes]:
        @cache
        def made(letters: tuple[int, ...]) -> bytes:
            file = make(list(letters))
            packed[file] = zlib.compress(file, QUICK)
            return file

        return lambda letters: made(tuple(letters))

    pdfdoc.PDFZCompress.encode = pack
    for name, file in files.items():
        font = TTFont(name, file)
        font.face.makeSubset = kept(font.face.makeSubset)
        font.face.getCharWidth = _written(font.face.getCharWidth)
        pdfmetrics.registerFont(font)


def _written(width: Callable[[int], float]) -> Callable[[int], bytes]:
    """Widths as a document writes them."""
    from reportlab.pdfbase.pdfdoc import fp_str

    return cache(lambda letter: str(fp_str(width(letter))).encode())


def begin(document: Any, names: Iterable[str]) -> None:
    """Give the usual letters their codes in an empty document, in fonts by their names."""
    from reportlab.pdfbase import pdfmetrics

    for name in names:
        pdfmetrics.getFont(name).splitString(USUAL, document)


@lru_cache(KEPT)
def usual_codes(words: str) -> str | None:
    """The codes of a line of text in hexadecimal; None where it has a letter that is not usual."""
    try:
        return words.translate(_CODES).encode("ascii").hex()
    except UnicodeEncodeError:
        return None
