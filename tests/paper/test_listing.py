"""Plain lists on pages."""

from __future__ import annotations

import io

from aimcalc.paper.listing import Col, Section, list_pages
from aimcalc.paper.page import body_of, write_pages
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading

COLUMNS = (
    Col("name", 100, bold=True),
    Col("number\nof them", 60, align="r"),
    Col("done", 40, tick=True),
)


def made(sections):
    body = body_of(PaperOptions(), False, "Mind your head.")
    stream = io.BytesIO()
    pages = list_pages("A list", sections, body, "facts", "Mind your head.")
    write_pages(stream, pages, PaperOptions(), title="t")
    return stream.getvalue()


def rows(count):
    return [[f"thing {k}", f"{k} pc"] for k in range(count)]


def test_every_row_is_there_once_in_order_with_its_cells_on_one_line():
    data = made([Section("First", COLUMNS, rows(120))])
    names = []
    for page in pdf_reading.runs(data):
        things = sorted((r for r in page if r.words.startswith("thing ")), key=lambda r: -r.bottom)
        for run in things:
            number = run.words.removeprefix("thing ")
            beside = [r.words for r in page if abs(r.top - run.top) < 3 and r is not run]
            assert beside == [f"{number} pc"]
        names += [run.words for run in things]
    assert names == [f"thing {k}" for k in range(120)]


def test_a_section_goes_on_under_its_heading_and_heads():
    data = made([Section("First", COLUMNS, rows(120), note="Only once.")])
    first, *others = pdf_reading.pages(data)
    assert others
    assert "Only once." in first
    for text in others:
        assert "First, continued" in text
        assert "of them" in text
        assert "Only once." not in text


def test_a_heading_is_never_left_alone_at_the_foot():
    for count in range(30, 60):
        texts = pdf_reading.pages(
            made([Section("First", COLUMNS, rows(count)), Section("Second", COLUMNS, rows(5))])
        )
        for text in texts:
            if "Second" in text:
                assert text.index("Second") < text.rindex("thing 1")
                break


def test_no_row_goes_on_alone():
    for count in range(30, 60):
        last = pdf_reading.pages(made([Section("First", COLUMNS, rows(count))]))[-1]
        assert last.count("thing ") > 1


def test_long_cells_wrap_where_they_may_and_the_row_grows():
    words = "many words in one cell that never fit on a single line of it " * 3
    wide = (Col("", 50, wrap=True), Col("", 150))
    data = made([Section("Wrapped", wide, [[words, "beside"], ["next", "after"]])])
    page = pdf_reading.runs(data)[0]
    assert pdf_reading.overlaps(page) == []
    told = " ".join(r.words for r in sorted(page, key=lambda r: -r.top) if r.left < 150)
    assert "fit on a single" in " ".join(told.split())
    assert all(run.size == 11 for run in page if run.words in ("beside", "next", "after"))


def test_blank_rows_and_tick_boxes_are_lines_without_words():
    data = made([Section("Spare", COLUMNS, (), blank=4)])
    words = [run.words for run in pdf_reading.runs(data)[0]]
    assert set(words) == {
        "A list",
        "Spare",
        "name",
        "number",
        "of them",
        "done",
        "Mind your head.",
        "facts",
        "page 1 of 1",
    }


def test_nothing_overlaps_or_leaves_the_page():
    data = made([Section(f"Section {k}", COLUMNS, rows(k)) for k in range(25)])
    pdf_reading.assert_apart(data)
