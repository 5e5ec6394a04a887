"""Drawings as a picture: grey only, to scale, the same bytes each time."""

import io

import numpy as np
import pytest
from PIL import Image

from aimcalc.paper.drawing import Drawing, Line, Shape, Words, text_width
from aimcalc.paper.drawpng import DPI, write_png

PIXELS = DPI / 25.4  # per mm


def picture(*drawings):
    stream = io.BytesIO()
    write_png(stream, drawings)
    return Image.open(io.BytesIO(stream.getvalue()))


def ink(*drawings):
    return np.asarray(picture(*drawings)) < 128


def test_the_picture_is_to_scale_and_grey():
    image = picture(Drawing(127.0, 76.2))
    assert image.mode == "L"
    assert image.size == (5 * DPI, 3 * DPI)  # inches


def test_lines_and_shapes_lie_where_they_were_put():
    drawing = Drawing(101.6, 76.2)
    drawing.lines.append(Line(np.array([(5.0, 10.0), (95.0, 10.0)]), 2.0))
    square = np.array([(20.0, 30.0), (40.0, 30.0), (40.0, 50.0), (20.0, 50.0)])
    drawing.shapes.append(Shape(square, 0.75, "black"))
    dark = ink(drawing)
    rows = np.flatnonzero(dark[:, round(70 * PIXELS)]) + 0.5
    assert rows.mean() / PIXELS == pytest.approx(76.2 - 10.0, abs=0.2)
    columns = np.flatnonzero(dark[round(36 * PIXELS)]) + 0.5
    assert columns[[0, -1]] / PIXELS == pytest.approx((20, 40), abs=0.4)


@pytest.mark.parametrize("bold", [False, True])
def test_words_take_the_room_they_were_measured_to_take(bold):
    drawing = Drawing(150.0, 40.0)
    drawing.words.append(Words(10.0, 20.0, "HOUSE PIPE 8", 24.0, bold))
    columns = np.flatnonzero(ink(drawing).any(axis=0)) / PIXELS
    assert columns[0] == pytest.approx(10.0, abs=1.2)
    assert columns[-1] == pytest.approx(10 + text_width("HOUSE PIPE 8", 24.0, bold), abs=1.2)


def test_turned_words_run_up_the_page():
    drawing = Drawing(101.6, 101.6)
    drawing.words.append(Words(50.0, 20.0, "HOUSE PIPE", 24.0, turn=90.0))
    rows = np.flatnonzero(ink(drawing).any(axis=1)) / PIXELS
    assert rows[-1] == pytest.approx(81.6, abs=1.5)
    assert np.ptp(rows) == pytest.approx(text_width("HOUSE PIPE", 24.0), abs=2.0)


def test_many_drawings_stand_in_rows():
    inch = Drawing(25.4, 25.4)
    assert picture(*[inch] * 2).size == (2 * DPI, DPI)
    assert picture(*[inch] * 4).size == (3 * DPI, 2 * DPI)
    assert picture(*[inch] * 20).size == (5 * DPI, 4 * DPI)


def test_draft_is_drawn_half_black_across_the_page():
    plain, draft = Drawing(100.0, 80.0), Drawing(100.0, 80.0, draft=True)
    assert np.asarray(picture(plain)).min() == 255
    grey = np.asarray(picture(draft))
    assert 100 < grey.min() <= 150
    rows, columns = np.nonzero(grey < 200)
    assert np.ptp(columns) > 0.6 * grey.shape[1]
    assert np.ptp(rows) > 0.6 * grey.shape[0]


def test_the_same_drawings_give_the_same_bytes():
    def data():
        stream = io.BytesIO()
        drawing = Drawing(60.0, 60.0)
        drawing.words.append(Words(10.0, 20.0, "same", 12.0))
        write_png(stream, [drawing])
        return stream.getvalue()

    assert data() == data()
