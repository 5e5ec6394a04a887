"""A drawing is plain lists, sorted by look, and its text is measured before it is drawn."""

import io

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from aimcalc.paper.drawing import (
    PT,
    Drawing,
    Inset,
    Line,
    Shape,
    Words,
    shrink_to_fit,
    text_width,
    wrapped,
)
from aimcalc.paper.drawpdf import write_pdf
from aimcalc.paper.drawpng import write_png

TRIANGLE = np.array([(0.0, 0.0), (5.0, 0.0), (0.0, 5.0)])


def test_lines_of_one_look_are_drawn_together():
    drawing = Drawing(100, 100)
    drawing.line((0, 0), (1, 1))
    drawing.line((0, 0), (2, 2), dash="dashed")
    drawing.line((3, 3), (4, 4))
    looks = drawing.lines_by_look()
    assert list(looks) == [(0.75, "solid"), (0.75, "dashed")]
    assert len(looks[0.75, "solid"]) == 2


def test_shapes_without_an_outline_lie_under_the_others():
    drawing = Drawing(100, 100)
    drawing.shapes = [Shape(TRIANGLE, 1.0), Shape(TRIANGLE, 0.0), Shape(TRIANGLE, 1.0, "black")]
    assert list(drawing.shapes_by_look()) == [(0.0, "white"), (1.0, "white"), (1.0, "black")]


def test_the_width_of_a_figure_is_that_of_the_typeface():
    # DejaVu Sans: every figure is 1303 of 2048 units wide (the font's own hmtx table).
    assert text_width("8", 10.0) == pytest.approx(1303 / 2048 * 10 * PT, rel=1e-3)
    assert text_width("8888", 20.0) == pytest.approx(8 * text_width("8", 10.0))
    assert text_width("8", 10.0, bold=True) > text_width("8", 10.0)


def test_words_start_where_their_alignment_says():
    width = text_width("STAND", 10.0)
    assert Words(50, 20, "STAND").start == (50, 20)
    assert Words(50, 20, "STAND", align="centre").start == pytest.approx((50 - width / 2, 20))
    assert Words(50, 20, "STAND", align="right").start == pytest.approx((50 - width, 20))
    upwards = Words(50, 20, "STAND", align="centre", turn=90.0).start
    assert upwards == pytest.approx((50, 20 - width / 2))


def test_text_shrinks_only_as_far_as_it_must():
    wide = text_width("a long line of text", 10.0)
    assert shrink_to_fit("a long line of text", 10.0, wide + 1) == 10.0
    assert shrink_to_fit("a long line of text", 10.0, wide / 2) == pytest.approx(5.0)
    assert shrink_to_fit("", 10.0, 5.0) == 10.0


def test_wrapped_lines_fit_and_lose_no_word():
    text = "geometry only it rates nothing and permits nothing"
    rows = wrapped(text, 10.0, 30.0)
    assert " ".join(rows) == text
    assert len(rows) > 1
    assert all(text_width(row, 10.0) <= 30.0 for row in rows)


def test_a_line_keeps_its_points_and_look():
    drawing = Drawing(10, 10)
    drawing.line((1, 2), (3, 4), weight=2.0)
    (line,) = drawing.lines
    assert isinstance(line, Line)
    assert line.points.tolist() == [[1, 2], [3, 4]]
    assert line.weight == 2.0


@pytest.mark.parametrize("backend", ["pdf", "png"])
def test_a_page_shows_a_window_of_a_larger_drawing(backend):
    """A square at 100 mm from left and foot is 20 mm from the page's left, 25 from its foot; one that the
    window cuts shows 5 of its 10 mm.
    """
    large = Drawing(400, 300)
    for x in (100.0, 125.0):
        square = np.array([(x, 100.0), (x + 10, 100.0), (x + 10, 110.0), (x, 110.0)])
        large.shapes.append(Shape(square, 0.0, "black"))
    page = Drawing(60, 50)
    page.inset = Inset(large, (90.0, 80.0, 130.0, 120.0), (10.0, 5.0))
    stream = io.BytesIO()
    if backend == "pdf":
        write_pdf(stream, [page], "x")
        sheet = pypdfium2.PdfDocument(stream.getvalue())[0]
        ink = sheet.render(scale=254 / 72, grayscale=True).to_numpy().squeeze()[-500:, :600]
    else:
        write_png(stream, [page], dpi=254)
        ink = np.asarray(Image.open(stream))
    black = ink < 128
    rows, columns = np.flatnonzero(black.any(axis=1)), np.flatnonzero(black.any(axis=0))
    assert (rows[0], rows[-1] + 1) == pytest.approx((500 - 350, 500 - 250), abs=1)
    assert (columns[0], columns[-1] + 1) == pytest.approx((200, 500), abs=1)
    assert black[200].sum() == pytest.approx(150, abs=2)


def test_words_on_the_edge_of_a_window_keep_the_letters_in_it():
    words = Words(10.0, 5.0, "HHHHHHHHHH", 10.0)
    step = text_width("H", 10.0)
    cut = words.within((10.0 + 2.5 * step, 0.0, 10.0 + 7.5 * step, 10.0))
    assert cut.text == "HHHHHH", "the third to the eighth, two of them in part"
    assert cut.x == pytest.approx(10.0 + 2 * step)
    upright = Words(10.0, 5.0, "HHHH", 10.0, turn=90.0).within((0.0, 0.0, 20.0, 5.0 + 1.5 * step))
    assert (upright.text, upright.y) == ("HH", 5.0)
    assert words.within((0.0, 0.0, 100.0, 10.0)) is words
