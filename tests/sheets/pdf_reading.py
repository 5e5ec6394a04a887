"""What a PDF says, read back by a reader that had no part in writing it (pdfium)."""

from __future__ import annotations

import ctypes
import io
import re
from functools import cache
from typing import NamedTuple

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium


class Said(NamedTuple):
    """One run of text and the box of its ink, in points."""

    words: str
    left: float
    bottom: float
    right: float
    top: float
    size: float  # of the type, before it is squeezed


@cache
def pages(data: bytes) -> list[str]:
    """The text of every page."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    return [page.get_textpage().get_text_bounded() for page in document]


@cache
def sizes(data: bytes) -> list[tuple[float, float]]:
    """Width and height of every page."""
    return [page.get_size() for page in pypdfium2.PdfDocument(io.BytesIO(data))]


@cache
def runs(data: bytes) -> list[list[Said]]:
    """Every level or upright run of text of every page (DRAFT lies aslant and is not among them)."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    return [_runs_of(page) for page in document]


def _runs_of(page: pypdfium2.PdfPage) -> list[Said]:
    text = page.get_textpage()
    found = []
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]):
        matrix = item.get_matrix()
        if abs(matrix.a * matrix.b) < 1e-6:
            words = _words(item, text)
            if words.strip():
                found.append(Said(words.strip(), *item.get_bounds(), _size(item)))
    return found


def _size(item: pypdfium2.PdfObject) -> float:
    size = ctypes.c_float()
    pdfium.FPDFTextObj_GetFontSize(item.raw, size)
    return size.value


def _words(item: pypdfium2.PdfObject, text: pypdfium2.PdfTextPage) -> str:
    size = pdfium.FPDFTextObj_GetText(item.raw, text.raw, None, 0)
    buffer = (pdfium.FPDF_WCHAR * (size // 2 + 1))()
    pdfium.FPDFTextObj_GetText(item.raw, text.raw, buffer, size)
    return bytes(buffer).decode("utf-16-le").rstrip("\0")


def overlaps(page: list[Said], by: float = 0.2) -> list[tuple[str, str]]:
    """Pairs of runs whose ink shares more than `by` points both ways."""
    if not page:
        return []
    low = np.array([(run.left, run.bottom) for run in page])
    high = np.array([(run.right, run.top) for run in page])
    shared = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    pairs = np.argwhere(np.triu((shared > by).all(axis=2), k=1)).tolist()
    return [(page[a].words, page[b].words) for a, b in pairs]


def outside(page: list[Said], size: tuple[float, float], margin: float = 12.0) -> list[str]:
    """Runs that come nearer to the paper's edge than a printer reaches."""
    return [
        run.words
        for run in page
        if run.left < margin
        or run.bottom < margin
        or run.right > size[0] - margin
        or run.top > size[1] - margin
    ]


def minus_signs(text: str) -> list[str]:
    """Things that read as a minus sign: U+2212, or a dash before a digit (but not 18'-6", ers-30)."""
    return re.findall(r"\u2212.{0,5}|(?<![\w'])[-\u2010-\u2013]\s?\d.{0,5}", text)


def bare_sides(text: str) -> list[str]:
    """The words left and right, but for "right way up"."""
    return re.findall(r"(?i)\b(?:left|right)\b", re.sub(r"(?i)right way up", "", text))


def assert_apart(data: bytes) -> None:
    """Nothing covers anything else, and all that is said is where a printer reaches, on every page."""
    for number, (page, size) in enumerate(zip(runs(data), sizes(data), strict=True), 1):
        wrong = [*overlaps(page), *outside(page, size)]
        assert wrong == [], f"page {number}: {wrong}"


def assert_no_signs(data: bytes) -> None:
    """Nothing on any page reads as a minus sign, and no side is the reader's left or right."""
    for number, text in enumerate(pages(data), 1):
        wrong = [*minus_signs(text), *bare_sides(text)]
        assert wrong == [], f"page {number}: {wrong}"
