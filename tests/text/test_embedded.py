"""Documents that share codes and font files of the usual letters, read back by pdfium and fontTools."""

from __future__ import annotations

import ctypes
import io
import re
import zlib

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from fontTools.ttLib import TTFont

from aimcalc.text.embedded import usual_codes
from aimcalc.text.typeset import BOLD, REGULAR, fit, font_file, new_canvas, pdf_bytes, show

USUAL = "DOWN 23° of area…"
OTHER = "pipe é Ж Ω 23°…"


def a_document(*lines: str, font: str = REGULAR) -> bytes:
    canvas = new_canvas("x", (400.0, 400.0))
    for k, line in enumerate(lines):
        place = f"1 0 0 1 10 {380 - 20 * k} Tm"
        canvas.addLiteral(f"BT {place} {show(fit(line, font, 12.0), font, canvas)} ET")
    canvas.showPage()
    return pdf_bytes(canvas)


def font_files(data: bytes) -> list[bytes]:
    """The TrueType files that a document carries, unpacked."""
    streams = re.findall(rb"stream\n(.*?)endstream", data, re.DOTALL)
    plain = [zlib.decompress(s) for s in streams if s[:1] == b"x"]
    return [each for each in plain if each[:4] == b"\0\1\0\0"]


def text_of(data: bytes) -> list[str]:
    return pypdfium2.PdfDocument(data)[0].get_textpage().get_text_range().split("\r\n")


@pytest.mark.parametrize("font", [REGULAR, BOLD])
def test_usual_and_other_letters_are_read_back_whatever_was_written_before(font):
    for lines in ([USUAL], [OTHER, USUAL], [USUAL, OTHER], [USUAL]):
        assert text_of(a_document(*lines, font=font)) == lines


def test_documents_of_the_usual_letters_carry_the_same_file_and_others_one_of_their_own():
    (one,), (two,) = (font_files(a_document(words)) for words in ("abc", USUAL))
    (other,) = font_files(a_document(OTHER))
    assert one == two
    more = len("éЖΩ") + len("´")  # the accent that é is put together from; its e is there already
    before, after = (TTFont(io.BytesIO(file))["maxp"].numGlyphs for file in (one, other))
    assert after == before + more


def test_letters_have_the_widths_of_the_typeface():
    """The advances of the font's own table, by another reader; pdfium takes them in whole thousandths."""
    page = pypdfium2.PdfDocument(a_document(USUAL))[0].get_textpage()
    whole = TTFont(font_file(REGULAR))
    em, names = whole["head"].unitsPerEm, whole.getBestCmap()
    for k, letter in enumerate(USUAL[:-1]):
        x = [ctypes.c_double(), ctypes.c_double()]
        for at, place in enumerate(x):
            pdfium.FPDFText_GetCharOrigin(page, k + at, ctypes.byref(place), ctypes.c_double())
        wide = whole["hmtx"][names[ord(letter)]][0] / em * 12.0
        assert x[1].value - x[0].value == pytest.approx(wide, abs=12.0 / 1000)


def test_letters_of_ascii_have_codes_of_their_own_and_an_unusual_one_has_none():
    assert usual_codes("A z~") == "41207a7e"  # ISO/IEC 646
    assert usual_codes("é") is None
