"""Nothing on plan, section or map is to be misread: no false minus, no gap in the deck's outline."""

import numpy as np
import pytest

from aimcalc.paper.drawing import Drawing, Shape, Words
from aimcalc.text.stamp import PaperOptions
from tests.sheets.drawn import dashes_before_figures, erased
from tests.sheets.printed import falls, maps, plans, sections
from tests.shows import rig_of

MAKERS = (plans, falls, maps, sections)
CASES = [
    (name, maker, options)
    for name in ("studio", "playhouse", "raked")
    for maker in MAKERS
    for options in (PaperOptions(), PaperOptions(paper="letter", length="ft"))
]


@pytest.mark.parametrize(("name", "maker", "options"), CASES)
def test_no_line_makes_a_figure_negative_and_no_label_erases_the_deck(name, maker, options):
    deck = rig_of(name).scene.stage.outline
    for drawing in maker(name, options):
        assert dashes_before_figures(drawing) == []
        for line in drawing.lines:
            if line.weight == 2.0 and len(line.points) == len(deck) + 1:
                assert not erased(drawing, line.points)


def test_the_finder_of_false_minus_signs_finds_one():
    page = Drawing(100.0, 100.0)
    page.words.append(Words(50.0, 50.0, "2°"))
    page.line((10.0, 51.0), (60.0, 51.5))
    assert dashes_before_figures(page) == ["2°"]
    page.lines.clear()
    page.line((49.0, 10.0), (49.5, 90.0))
    page.line((10.0, 51.0), (47.0, 51.0))  # ends 3 mm off
    assert dashes_before_figures(page) == []


def test_the_finder_of_erased_lines_finds_one():
    page = Drawing(100.0, 100.0)
    box = np.array([(40.0, 40.0), (60.0, 40.0), (60.0, 44.0), (40.0, 44.0)])
    page.shapes.append(Shape(box, 0.0, "white"))
    assert erased(page, np.array([(0.0, 42.0), (100.0, 42.0)]))
    assert not erased(page, np.array([(0.0, 45.0), (100.0, 45.0)]))
