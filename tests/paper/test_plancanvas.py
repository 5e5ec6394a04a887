"""What is asked for is drawn inside the frame, and labels keep off the marks."""

import numpy as np
import pytest

from aimcalc.paper.drawing import text_width
from aimcalc.paper.plancanvas import MOST_REFUSED, Canvas, label_size
from aimcalc.paper.planpage import View

VIEW = View((20.0, 60.0, 120.0, 160.0), 100.0, (0.0, 0.0))  # 10 m by 10 m at 1:100


def test_a_line_is_cut_at_the_frame():
    canvas = Canvas(VIEW)
    canvas.line(np.array([(-5.0, 5.0), (5.0, 5.0)]), 1.0)
    assert canvas.lines[0].points == pytest.approx(np.array([(20.0, 110.0), (70.0, 110.0)]))


def test_an_outline_closes():
    canvas = Canvas(VIEW)
    canvas.outline(np.array([(1.0, 1.0), (2.0, 1.0), (2.0, 2.0)]), 1.0)
    (line,) = canvas.lines
    assert line.points[0] == pytest.approx(line.points[-1])


@pytest.mark.parametrize(("start", "tip"), [(True, (20.0, 110.0)), (False, (120.0, 110.0))])
def test_an_arrow_points_out_of_the_frame(start, tip):
    canvas = Canvas(VIEW)
    (run,) = canvas.line(np.array([(-5.0, 5.0), (15.0, 5.0)]), 1.0)
    assert canvas.arrow(run, start=start) == pytest.approx(tip)
    head = canvas.shapes[0]
    assert head.fill == "black"
    inwards = head.points[1:, 0].mean() - tip[0]
    assert (inwards > 0) == start


def test_a_label_lies_on_white_beside_its_mark():
    canvas = Canvas(VIEW)
    canvas.block(70.0, 110.0, 2.0)
    canvas.label("A5", at=[(70.0, 110.0)], clear=2.0, toward=[0.0])
    canvas.place_labels()
    (word,), (box,) = canvas.words, canvas.shapes
    assert (box.fill, box.weight) == ("white", 0.0)
    low, high = box.points.min(axis=0), box.points.max(axis=0)
    assert low[0] >= 72.0
    assert low[0] < word.x
    assert word.x + text_width("A5", word.size) < high[0]
    assert low[1] < word.y < high[1]


def test_rows_of_a_label_stand_under_one_another():
    canvas = Canvas(VIEW)
    canvas.label("house pipe", "trim 6.10 m", at=[(70.0, 110.0)], clear=1.0, toward=[0.0])
    canvas.place_labels()
    rows = {word.text: word.y for word in canvas.words}
    assert rows["house pipe"] > rows["trim 6.10 m"] + 3.0


def test_a_label_without_room_is_named():
    canvas = Canvas(VIEW)
    canvas.room.block(*VIEW.frame)
    canvas.label("A5", at=[(70.0, 110.0)], clear=2.0)
    canvas.place_labels()
    assert canvas.left_out == ["A5"]
    assert canvas.words == []


def test_a_full_drawing_asks_for_no_more_room(monkeypatch):
    canvas, asked = Canvas(VIEW), []
    monkeypatch.setattr(canvas.room, "place", lambda *wishes: asked.append(wishes))
    for k in range(5000):
        canvas.label(f"A{k}", at=[(70.0, 110.0 + k / 10)], clear=2.0)
    canvas.place_labels()
    assert len(asked) == MOST_REFUSED
    assert len(canvas.left_out) == 5000  # and all are named


def test_the_first_unit_that_cannot_be_told_is_named_and_the_rest_can_be_saved_the_trouble():
    for or_none, placed in ((False, ["A8"]), (True, [])):
        canvas = Canvas(VIEW)
        canvas.room.block(20.0, 60.0, 120.0, 140.0)
        canvas.label("a name", at=[(70.0, 70.0)], clear=2.0)  # no unit waits for it
        canvas.label("A6", at=[(70.0, 70.0)], clear=2.0, unit=6)
        canvas.label("A7", at=[(70.0, 70.0)], clear=2.0, unit=7)
        canvas.label("A8", at=[(70.0, 150.0)], clear=2.0, unit=8)
        canvas.place_labels(or_none=or_none)
        assert canvas.full_at == 6
        assert [word.text for word in canvas.words] == placed


def test_a_label_with_tails_is_higher_than_plain_figures():
    assert label_size(["gap"], 10.0, False)[1] > label_size(["12"], 10.0, False)[1]
