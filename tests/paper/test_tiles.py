"""Scales and sheets by name, and drawings that go on several sheets."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.paper.drawing import Drawing, Words
from aimcalc.paper.tiles import (
    EDGE,
    OVERLAP,
    Foot,
    across_and_up,
    best_turned,
    pages_of,
    room_on,
    scale_named,
    sheet_around,
    sheet_named,
    sheet_words,
)
from aimcalc.text.stamp import PaperOptions

FOOT = Foot("The show | light plot")


@pytest.mark.parametrize(
    ("typed", "scale"),
    [
        ("1:50", 50),
        ("1 : 25", 25),
        ('1/4"', 48),
        ("1/4", 48),
        ("1/2 in", 24),
        ('1/2" = 1\'-0"', 24),
        ('1"', 12),
        ("3/8", 32),
        ("1:48", 48),
    ],
)
def test_a_scale_is_read_as_people_write_it(typed, scale):
    assert scale_named(typed) == scale


@pytest.mark.parametrize(
    "typed", ["", "50", "1:51", "1:0", "1:1000", "2:1", "1/0", "1/7", "0/4", "1:50 m", "1:-50"]
)
def test_a_scale_that_no_rule_has_is_refused_with_those_that_there_are(typed):
    with pytest.raises(ValueError, match="expected a scale that a scale rule has") as refused:
        scale_named(typed)
    assert "1:25, 1:50" in str(refused.value)
    assert '1/2", 3/8", 1/4"' in str(refused.value)
    assert str(refused.value).endswith(f"got {typed!r}.")


@pytest.mark.parametrize(
    ("typed", "sides"),
    [
        ("A3", (297.0, 420.0)),
        ("a4", (210.0, 297.0)),
        ("ARCH-D", (609.6, 914.4)),
        ("600x900 mm", (600.0, 900.0)),
        ("90 cm x 600 mm", (600.0, 900.0)),
        ("36 x 24 in", (609.6, 914.4)),
        ('24"x36"', (609.6, 914.4)),
    ],
)
def test_a_sheet_is_read_by_name_or_by_size(typed, sides):
    assert sheet_named(typed) == pytest.approx(sides)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("A33", 'Did you mean "A3"?'),
        ("tabliod", 'Did you mean "tabloid"?'),
        ("600x900", "got '600x900'"),
        ("1.2.3x900 mm", "got '1.2.3x900 mm'"),
        ("100x900 mm", "180 mm or more each way"),
        ("1000x9000 mm", "at most 5 m"),
        ("", "expected one of A4, A3"),
    ],
)
def test_a_wrong_sheet_is_refused_with_a_sentence(typed, said):
    with pytest.raises(ValueError, match="expected") as refused:
        sheet_named(typed)
    assert said in str(refused.value)


def test_a_sheet_is_called_by_its_name_where_it_has_one():
    assert sheet_words((420.0, 297.0)) == "A3"
    assert sheet_words((600.0, 900.0)) == "600 x 900 mm"


def test_how_many_sheets_a_drawing_takes_each_way():
    """Each sheet after the first brings its room less the strip that it shares."""
    wide, high = room_on((297.0, 420.0))
    assert wide == pytest.approx(297 - 2 * EDGE)
    assert across_and_up((wide, high), (297.0, 420.0)) == (1, 1)
    assert across_and_up((wide + 1, high), (297.0, 420.0)) == (2, 1)
    assert across_and_up((2 * wide - OVERLAP, high), (297.0, 420.0)) == (2, 1)
    assert across_and_up((2 * wide - OVERLAP + 1, 3 * high), (297.0, 420.0)) == (3, 4)


def test_the_sheet_is_turned_as_takes_fewest():
    assert best_turned((380.0, 200.0), (297.0, 420.0)) == (420.0, 297.0)
    assert best_turned((200.0, 300.0), (297.0, 420.0)) == (297.0, 420.0)


def board(wide: float, high: float) -> Drawing:
    """A drawing with a cross and a word every 20 mm, each word told by its place."""
    drawing = Drawing(wide, high)
    for x in np.arange(10.0, wide, 20.0).tolist():
        for y in np.arange(10.0, high, 20.0).tolist():
            drawing.line((x - 2, y), (x + 2, y))
            drawing.words.append(Words(x, y + 1, f"{x:.0f},{y:.0f}", 6.0))
    return drawing


def test_one_sheet_is_told_as_page_1_of_1_and_shows_all():
    drawing = board(150, 100)
    (page,) = pages_of(drawing, sheet_around((150, 100)), FOOT, PaperOptions())
    assert page.inset.seen.words == drawing.words
    assert {"page 1 of 1", "The show | light plot"} <= {words.text for words in page.words}
    assert any(words.text.startswith("GEOMETRY ONLY") for words in page.words)
    assert page.inset.box[2:] == pytest.approx((150, 100))


def test_every_part_is_on_some_sheet_and_what_is_shared_on_both():
    drawing = board(500, 400)
    pages = pages_of(drawing, (210.0, 297.0), FOOT, PaperOptions())
    shown = [{words.text for words in page.inset.seen.words} for page in pages]
    every = {words.text for words in drawing.words}
    assert set.union(*shown) >= every
    for cut in set.union(*shown) - every:  # the letters of a word on the edge that the sheet shows
        assert any(words.startswith(cut) or words.endswith(cut) for words in every)
    room = room_on((210.0, 297.0))
    assert len(pages) == 3 * 2  # 500 is more than 2 * 188 - 25, less than 3 * 188 - 2 * 25
    for number, page in enumerate(pages, 1):
        assert f"page {number} of 6" in {words.text for words in page.words}
        assert page.inset.box[2] <= room[0] + 1e-9
    # The first two windows share a strip of OVERLAP.
    first, second = pages[0].inset.window, pages[1].inset.window
    assert first[2] - second[0] == pytest.approx(OVERLAP)
    assert first[3] == second[3] == 400.0


def test_neighbours_have_their_ticks_on_the_same_line_of_the_drawing():
    pages = pages_of(board(350, 100), (210.0, 297.0), FOOT, PaperOptions())
    places = []
    for page in pages:
        across, _ = page.inset.shift
        ticks = {
            round(float(line.points[0, 0]) - across, 6)
            for line in page.lines
            if line.points[0, 0] == line.points[1, 0]
        }
        places.append(ticks)
    assert len(pages) == 2
    assert len(places[0]) == 1
    assert places[0] == places[1]
    said = [[words.text for words in page.words if "ticks" in words.text] for page in pages]
    assert said == [
        ["cut at the ticks and lay on the ticks of page 2"],
        ["cut at the ticks and lay on the ticks of page 1"],
    ]


def test_a_sheet_with_nothing_on_it_is_left_out_and_not_counted():
    drawing = Drawing(800, 300)
    drawing.line((10, 10), (20, 10))
    drawing.line((700, 10), (710, 10))
    pages = pages_of(drawing, (210.0, 297.0), FOOT, PaperOptions())
    told = [next(w.text for w in page.words if w.text.startswith("page")) for page in pages]
    assert told == ["page 1 of 2", "page 2 of 2"]
