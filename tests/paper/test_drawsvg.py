"""SVG is XML in true millimetres, with the same lines, shapes and words as the other backends."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
from datetime import UTC, datetime

import numpy as np
import pytest

from aimcalc.paper.drawing import Drawing, Inset, Shape, Words, text_width
from aimcalc.paper.drawsvg import svg, write_svg
from aimcalc.text.stamp import Stamp

NS = {"s": "http://www.w3.org/2000/svg"}


def page() -> Drawing:
    """A line of 50 mm, a black square of 10 mm, and words on end."""
    drawing = Drawing(120, 80)
    drawing.line((10, 20), (60, 20), weight=0.5 * 72 / 25.4)
    square = np.array([(70.0, 30.0), (80.0, 30.0), (80.0, 40.0), (70.0, 40.0)])
    drawing.shapes.append(Shape(square, 0.0, "black"))
    drawing.words.append(Words(15.0, 50.0, 'A<b> & "c"', 10.0, True, turn=90.0))
    return drawing


def read(drawing: Drawing, **more: object) -> ET.Element:
    stream = io.BytesIO()
    write_svg(stream, drawing, "Two < three & four", **more)  # type: ignore[arg-type]
    return ET.fromstring(stream.getvalue().decode())


def test_its_size_is_told_in_millimetres_and_one_unit_is_one():
    root = read(page())
    assert (root.get("width"), root.get("height")) == ("120mm", "80mm")
    assert root.get("viewBox") == "0 0 120 80"


def test_lines_and_shapes_are_where_they_were_drawn_with_y_downwards():
    paths = [element.get("d") for element in read(page()).iterfind(".//s:path", NS)]
    assert paths == ["M10 60L60 60", "M70 50L80 50L80 40L70 40Z"]


def test_a_width_of_half_a_millimetre_is_one():
    (line, square) = read(page()).iterfind(".//s:path", NS)
    assert (line.get("stroke-width"), line.get("fill")) == ("0.5", "none")
    assert (square.get("stroke"), square.get("fill")) == ("none", "#000")


def test_words_are_escaped_and_as_wide_as_they_were_measured():
    (words,) = read(page()).iterfind(".//s:text", NS)
    assert words.text == 'A<b> & "c"'
    assert float(words.get("textLength")) == pytest.approx(
        text_width('A<b> & "c"', 10.0, True), abs=1e-3
    )
    assert words.get("transform") == "rotate(270 15 30)"
    assert float(words.get("font-size")) == pytest.approx(10 * 25.4 / 72, abs=1e-3)


def test_the_head_tells_title_and_set():
    stamp = Stamp("K7MP4", datetime(2025, 11, 14, 16, 2, tzinfo=UTC))
    root = read(page(), stamp=stamp)
    assert root.find("s:title", NS).text == "Two < three & four"
    assert root.find("s:desc", NS).text == "set K7MP4, 14 Nov, 16:02"


def test_what_xml_forbids_is_never_in_it():
    drawing = Drawing(50, 20)
    drawing.words.append(Words(1.0, 1.0, "a\x0cb\x01c\x1cd"))
    (words,) = ET.fromstring(svg(drawing)).iterfind(".//s:text", NS)
    assert words.text == "a b c d"


def test_a_page_shows_a_window_of_a_larger_drawing():
    large = Drawing(400, 300)
    large.line((100, 100), (110, 100))
    large.line((300, 100), (310, 100))
    small = Drawing(60, 50)
    small.inset = Inset(large, (90.0, 80.0, 130.0, 120.0), (10.0, 5.0))
    root = ET.fromstring(svg(small))
    box = root.find(".//s:clipPath/s:rect", NS)
    assert [box.get(key) for key in ("x", "y", "width", "height")] == ["10", "5", "40", "40"]
    (path,) = root.iterfind(".//s:path", NS)
    moved = next(g.get("transform") for g in root.iterfind(".//s:g", NS) if g.get("transform"))
    assert moved == "translate(-80 -175)"
    # 100 from the left is 20 on the page; 100 from the foot is 25 from the foot, 25 from the top.
    assert path.get("d") == "M100 200L110 200"


def test_the_same_drawing_gives_the_same_bytes_and_draft_lies_under_it():
    drawing = page()
    drawing.draft = True
    assert svg(drawing) == svg(drawing)
    first = next(ET.fromstring(svg(drawing)).iterfind(".//s:text", NS))
    assert (first.text, first.get("fill")) == ("DRAFT", "none")
