"""The PDF toolkit: fitted type, frame, footer, DRAFT, the same bytes."""

from __future__ import annotations

import io

import pytest

from aimcalc.paper.page import Box, Page, body_of, write_pages
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading

CAUTION = "Nobody stands under work. " * 12


def made(pages, options=PaperOptions(), *, landscape=False):  # noqa: B008 - a frozen record
    stream = io.BytesIO()
    write_pages(stream, pages, options, title="Test", landscape=landscape)
    return stream.getvalue()


def saying(words):
    return Page(
        lambda sheet: sheet.text(sheet.body.left, sheet.body.top - 20, words, 20),
        "a footer",
        CAUTION,
    )


# ISO 216 A4 is 210 x 297 mm; US letter is 8.5 x 11 in; 72 points to the inch.
@pytest.mark.parametrize(
    ("paper", "landscape", "size"),
    [
        ("a4", False, (210 / 25.4 * 72, 297 / 25.4 * 72)),
        ("a4", True, (297 / 25.4 * 72, 210 / 25.4 * 72)),
        ("letter", False, (612, 792)),
        ("letter", True, (792, 612)),
    ],
)
def test_pages_have_the_size_asked_for(paper, landscape, size):
    data = made([saying("x")], PaperOptions(paper=paper), landscape=landscape)
    assert pdf_reading.sizes(data)[0] == pytest.approx(size, abs=0.01)


def test_every_footer_counts_its_page_of_all():
    texts = pdf_reading.pages(made([saying("a"), saying("b"), saying("c")]))
    assert len(texts) == 3
    for number, text in enumerate(texts, 1):
        assert f"page {number} of 3" in text
        assert "a footer" in text


def test_the_same_calls_give_the_same_bytes_whatever_came_between():
    first = made([saying("one")])
    made([saying("αβγδ other letters Жъ")])
    assert made([saying("one")]) == first


def test_draft_lies_across_every_page_and_only_of_a_draft():
    pages = [saying("a"), saying("b")]
    for draft in (True, False):
        data = made(pages, PaperOptions(draft=draft))
        for text, level in zip(pdf_reading.pages(data), pdf_reading.runs(data), strict=True):
            assert ("DRAFT" in text) is draft
            level_words = " ".join(run.words for run in level)
            # Twice on a draft: aslant across the page, and level in the footer.
            assert text.count("DRAFT") - level_words.count("DRAFT") == int(draft)


def test_frame_keeps_cautions_footer_and_body_apart():
    seen = []

    def draw(sheet):
        seen.append(sheet.body)
        sheet.text(sheet.body.left, sheet.body.bottom + 3, "lowest line of the body gjpq", 12)

    data = made([Page(draw, "footer " * 9, CAUTION)])
    (runs,) = pdf_reading.runs(data)
    assert pdf_reading.overlaps(runs) == []
    assert pdf_reading.outside(runs, pdf_reading.sizes(data)[0]) == []
    assert seen == [body_of(PaperOptions(), False, CAUTION)]
    assert "Nobody stands under work." in pdf_reading.pages(data)[0]


@pytest.mark.parametrize("align", ["l", "c", "r"])
def test_text_is_drawn_inside_the_width_it_was_given(align):
    at = {"l": 100.0, "c": 150.0, "r": 200.0}[align]

    def draw(sheet):
        sheet.text(at, 300, "far too long for a hundred points", 20, align=align, width=100)

    ((run,),) = (
        [r for r in page if "far" in r.words] for page in pdf_reading.runs(made([Page(draw, "f")]))
    )
    assert run.left >= 99.5
    assert run.right <= 200.5
    assert run.right - run.left > 90


def test_a_file_is_written_and_counted(tmp_path):
    path = tmp_path / "sheet.pdf"
    assert write_pages(path, [saying("a")], PaperOptions(), title="Test") == 1
    assert pdf_reading.pages(path.read_bytes())[0].startswith("a")


def test_typeface_is_embedded():
    data = made([saying("a")])
    assert b"DejaVuSans" in data
    assert b"/FontFile2" in data


def test_a_box_inset_is_smaller_on_every_side():
    box = Box(0, 0, 10, 20).inset(2)
    assert (box.left, box.bottom, box.right, box.top) == (2, 2, 8, 18)
    assert (box.width, box.height) == (6, 16)
