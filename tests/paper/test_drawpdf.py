"""A drawing on paper: right size, right place, real text, the same bytes each time."""

import io

import numpy as np
import pypdfium2
import pytest

from aimcalc.paper.drawing import PT, Drawing, Line, Shape, Words
from aimcalc.paper.drawpdf import write_pdf
from tests.sheets import pdf_reading

SQUARE = np.array([(20.0, 30.0), (40.0, 30.0), (40.0, 50.0), (20.0, 50.0)])


def written(*drawings, title="A plan"):
    stream = io.BytesIO()
    write_pdf(stream, drawings, title)
    return stream.getvalue()


def page(*, draft=False):
    drawing = Drawing(100.0, 80.0, draft=draft)
    drawing.words.append(Words(10.0, 70.0, "front warm", 14.0, True))
    return drawing


def ink(data, number=0, scale=4):
    """Grey values of a page as pdfium draws it, rows from the top; `scale` pixels a point."""
    bitmap = pypdfium2.PdfDocument(io.BytesIO(data))[number].render(scale=scale, grayscale=True)
    return bitmap.to_numpy().squeeze()


def test_every_drawing_is_a_page_of_its_own_size():
    data = written(page(), Drawing(200.0, 120.0))
    assert pdf_reading.sizes(data) == [
        pytest.approx((100 / PT, 80 / PT), abs=0.01),
        pytest.approx((200 / PT, 120 / PT), abs=0.01),
    ]


def test_words_can_be_read_back_and_stand_where_they_were_put():
    (run,) = pdf_reading.runs(written(page()))[0]
    assert run.words == "front warm"
    assert run.left == pytest.approx(10 / PT, abs=1.5)
    assert run.bottom == pytest.approx(70 / PT, abs=0.5)


def test_lines_and_shapes_lie_where_they_were_put():
    drawing = Drawing(100.0, 80.0)
    drawing.lines.append(Line(np.array([(5.0, 10.0), (95.0, 10.0)]), 2.0))
    drawing.shapes.append(Shape(SQUARE, 0.75, "black"))
    grey = ink(written(drawing)) < 128
    rows = np.flatnonzero(grey[:, 8 * grey.shape[1] // 10])  # at x = 80 mm: the line only
    assert rows.mean() / grey.shape[0] * 80 == pytest.approx(70.0, abs=0.2)  # 10 mm from the foot
    assert len(rows) / 4 == pytest.approx(2.0, abs=0.5)  # points
    columns = np.flatnonzero(grey[grey.shape[0] // 2])  # at y = 40 mm: the square only
    assert columns[[0, -1]] / grey.shape[1] * 100 == pytest.approx((20, 40), abs=0.3)


def test_a_white_shape_hides_the_line_under_it():
    drawing = Drawing(100.0, 80.0)
    drawing.lines.append(Line(np.array([(5.0, 40.0), (95.0, 40.0)])))
    drawing.shapes.append(Shape(SQUARE, 0.0, "white"))
    row = ink(written(drawing))[-ink(written(drawing)).shape[0] // 2] < 128
    across = row.reshape(-1)
    at = np.arange(len(across)) / len(across) * 100
    assert not across[(at > 21) & (at < 39)].any()
    assert across[(at > 50) & (at < 90)].all()


def test_the_same_drawings_give_the_same_bytes():
    assert written(page(), page(draft=True)) == written(page(), page(draft=True))


def test_draft_is_written_across_a_draft_only():
    texts = pdf_reading.pages(written(page(draft=True), page()))
    assert "DRAFT" in texts[0]
    assert "DRAFT" not in texts[1]
