"""The plumb card: its scale as pixels, and what the string reads."""

from __future__ import annotations

import io

import numpy as np
import pytest

from aimcalc.sheets.plumb_card import page_angle, plumb_card
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_scene
from tests.sheets import pdf_reading
from tests.sheets.ink import MM, ink
from tests.shows import a_show

PAPERS = [("a4", "m"), ("letter", "ft"), ("a4", "ft"), ("letter", "m")]
SIZE = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
RADIUS = {"m": 150.0, "ft": 152.4}


def card(**options) -> bytes:
    stream = io.BytesIO()
    assert plumb_card(a_show(solve_rig(a_scene([])), []), stream, PaperOptions(**options)) == 2
    return stream.getvalue()


def measured(paper, length, way):
    """Ink of one side, and the middle of its string hole found as a ring of ink."""
    page = ink(card(paper=paper, length=length), 0 if way > 0 else 1, 300)
    width, height = SIZE[paper]
    # Hole: 12 mm from the card's edge, which is 2 pt inside the margin; under the title, the lip and 12 mm.
    x = (17.0 + 2.0) / MM + 12.0
    x = x if way > 0 else width - x
    y = height - (14.0 + 34.0) / MM - 34.0
    ring = page.part(x - 3, y - 3, x + 3, y + 3)
    rows, columns = np.nonzero(ring)
    middle = (rows.min() + rows.max() + 1) / 2, (columns.min() + columns.max() + 1) / 2
    base = round((y - 3) * page.per_mm), round((x - 3) * page.per_mm)
    return page, (base[1] + middle[1]) / page.per_mm, (base[0] + middle[0]) / page.per_mm


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_ticks_are_every_degree_to_a_fifth_of_a_degree_about_the_hole(paper, length, way):
    page, x, y = measured(paper, length, way)
    radius = RADIUS[length]
    sector = (-89.5, -0.5) if way > 0 else (-179.5, -90.5)
    found = np.sort(page.angles(x, y, radius - 5.0, radius - 1.0, sector))
    ticks = [tick.mean() for tick in np.split(found, np.flatnonzero(np.diff(found) > 0.3) + 1)]
    expected = np.arange(-89.0, 0.0) if way > 0 else np.arange(-179.0, -90.0)
    assert ticks == pytest.approx(expected.tolist(), abs=0.2)


@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_the_rim_has_its_radius_about_the_hole(paper, length):
    page, x, y = measured(paper, length, 1)
    radius = RADIUS[length]
    for angle in (-10.3, -45.5, -80.7):
        along = np.arange(radius - 0.9, radius + 1.5, 0.02)
        a = np.radians(angle)
        rim = along[page.at(x + along * np.cos(a), y + along * np.sin(a))]
        assert rim.mean() == pytest.approx(radius, abs=0.2)


@pytest.mark.parametrize("side", [0, 1])
@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_proof_bars_measure_true_both_ways(paper, length, side):
    true = 101.6 if length == "ft" else 100.0
    data = card(paper=paper, length=length)
    page = ink(data, side, 400)
    (words,) = (run for run in pdf_reading.runs(data)[side] if "measure both bars" in run.words)
    x = words.left / MM + 50
    rows = [
        row for row in np.arange(words.bottom / MM - 4, words.bottom / MM, 0.03) if page.at(x, row)
    ]
    start, end = page.across(x, float(np.mean(rows)))
    assert end - start == pytest.approx(true, abs=0.2)
    width = SIZE[paper][0]
    upright = width - (17.0 + 8.0) / MM if side == 0 else (17.0 + 8.0) / MM
    low, high = page.upright(upright, words.bottom / MM + 60)
    assert high - low == pytest.approx(true, abs=0.2)


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize("down", [0.0, 30.0, 52.0, 90.0])
def test_the_string_hangs_over_the_figure_that_the_nose_is_down_by(way, down):
    """The card turned with the barrel, nose down: plumb, as the card sees it, is where the figure is."""
    turn = np.radians(-way * down)  # nose to the end of the lines goes down clockwise
    c, s = np.cos(turn), np.sin(turn)
    plumb = np.array([[c, s], [-s, c]]) @ (0.0, -1.0)  # the room's plumb in the card's own axes
    figure = np.radians(page_angle(way, down))
    assert plumb == pytest.approx((np.cos(figure), np.sin(figure)), abs=1e-12)


def test_large_figures_are_down_and_small_ones_the_rest_to_ninety():
    (front, _) = pdf_reading.runs(card())
    large = {run.words: run for run in front if run.size == 20}
    small = {run.words: run for run in front if run.size == 10 and run.words.endswith("°")}
    assert set(large) == set(small) == {f"{k}°" for k in range(0, 91, 10)}
    for down in range(10, 90, 10):
        a, b = large[f"{down}°"], small[f"{90 - down}°"]
        between = (
            np.hypot(a.left + a.right - b.left - b.right, a.top + a.bottom - b.top - b.bottom) / 2
        )
        assert between / MM < 13  # side by side on one radius
    assert (
        large["0°"].bottom < large["40°"].bottom < large["90°"].bottom
    )  # level hangs along the page


@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_no_text_overlaps_leaves_the_page_or_has_a_minus_sign(paper, length):
    data = card(paper=paper, length=length)
    pdf_reading.assert_apart(data)
    pdf_reading.assert_no_signs(data)
    for text in pdf_reading.pages(data):
        assert "Uniform scaling keeps angles, ruins lengths" in " ".join(text.split())
        assert "GEOMETRY ONLY" in text
