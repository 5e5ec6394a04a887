"""The page of a plan: a scale that a ruler has, what must be seen is seen, figures without signs."""

import re

import numpy as np
import pytest

from aimcalc.paper.planpage import (
    FOOT_SCALES,
    METRIC_SCALES,
    Notes,
    View,
    fit_view,
    frame_of,
    new_page,
    paper_mm,
    scale_words,
)
from aimcalc.text.stamp import PaperOptions

FRAME = (20.0, 60.0, 200.0, 260.0)  # 180 mm by 200 mm
NOTES = Notes("front warm", "A show: pool plan", ["two", "facts"], "a note", "page 1 of 1")


@pytest.mark.parametrize("options", [PaperOptions(), PaperOptions(paper="letter", length="ft")])
def test_paper_has_its_standard_size(options):
    # ISO 216: A4 is 210 x 297 mm; ANSI Y14.1: letter is 8 1/2 x 11 in.
    size = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}[options.paper]
    assert paper_mm(options, False) == pytest.approx(size, abs=0.1)
    assert paper_mm(options, True) == pytest.approx(size[::-1], abs=0.1)


@pytest.mark.parametrize(("unit", "scales"), [("m", METRIC_SCALES), ("ft", FOOT_SCALES)])
def test_what_must_be_seen_is_seen_at_the_largest_scale_of_a_ruler(unit, scales):
    rng = np.random.default_rng(3)
    for _ in range(50):
        low = rng.uniform(-30, 0, 2)
        high = low + rng.uniform(2, 30, 2)
        extent = (*low.tolist(), *high.tolist())
        view = fit_view(extent, extent, FRAME, unit)
        assert view.scale in scales
        assert view.holds(*low)
        assert view.holds(*high)
        larger = max((s for s in scales if s < view.scale), default=None)
        if larger:
            needed = 1000 * (high - low) / larger
            assert needed[0] > 180 or needed[1] > 200


def test_what_is_wished_for_is_seen_where_there_is_room():
    # 1:100: 18 m by 20 m of room for 10 m by 19 m.
    extent, wish = (-5.0, 0.0, 5.0, 19.0), (-5.0, 0.0, 12.0, 19.0)
    view = fit_view(extent, wish, FRAME, "m")
    assert view.scale == 100
    assert view.holds(12.0, 10.0)
    assert view.holds(-5.0, 0.0)


def test_a_far_wish_never_hides_what_must_be_seen():
    extent, wish = (-5.0, 0.0, 5.0, 19.0), (-300.0, 0.0, 700.0, 900.0)
    view = fit_view(extent, wish, FRAME, "m")
    assert view.scale == 100
    for corner in ((-5.0, 0.0), (5.0, 19.0)):
        assert view.holds(*corner)


def test_a_huge_rig_still_gets_a_scale():
    view = fit_view((-900.0, -900.0, 900.0, 900.0), (-900.0, -900.0, 900.0, 900.0), FRAME, "ft")
    assert view.holds(900.0, 900.0)
    assert scale_words(view.scale, "ft") == f"1:{view.scale:.0f}"


def test_a_plan_point_lies_at_its_place_on_paper():
    view = View(FRAME, 50.0, (-2.0, -1.0))
    # 3 m right and 2 m up of the corner at 1:50 are 60 mm and 40 mm.
    assert view.at(1.0, 1.0) == pytest.approx((80.0, 100.0))
    assert view.reach == pytest.approx((-2.0, -1.0, 7.0, 9.0))


@pytest.mark.parametrize(
    ("scale", "unit", "said"),
    [(50, "m", "1:50"), (48, "ft", '1/4" = 1\'-0" (1:48)'), (96, "ft", '1/8" = 1\'-0" (1:96)')],
)
def test_the_scale_is_said_as_people_say_it(scale, unit, said):
    # A quarter inch to a foot: 12 in / 48.
    assert scale_words(scale, unit) == said


def test_the_foot_scales_are_what_they_are_called():
    for scale, inches in FOOT_SCALES.items():
        above, _, below = inches.partition("/")
        assert 12 / scale == pytest.approx(int(above) / int(below or 1))


@pytest.mark.parametrize("length", ["m", "ft"])
@pytest.mark.parametrize("scale", [20, 48, 96, 150, 1000])
def test_a_page_says_its_sides_in_words_and_no_number_has_a_sign(length, scale):
    options = PaperOptions(length=length)
    width, height = paper_mm(options, False)
    view = View(frame_of(width, height), scale, (-scale / 15, -scale / 20))
    page = new_page(options, width, height, view, NOTES)
    texts = [words.text for words in page.words]
    for side in ("US", "DS", "SL", "SR", "CL", "PL", "page 1 of 1", "front warm", "a note"):
        assert side in texts
    unit = "'" if length == "ft" else " m"
    figures = [t for t in texts if re.fullmatch(r"[\d.]+('| m) (US|DS|SL|SR)", t)]
    assert len(figures) >= 4
    assert all(unit in figure for figure in figures)
    assert not [t for t in texts if re.search(r"[-−]\d", t.replace("1'-0\"", ""))]


def test_ticks_lie_half_a_metre_apart_on_the_centre_line():
    options = PaperOptions()
    width, height = paper_mm(options, False)
    view = View(frame_of(width, height), 50.0, (-2.0, -1.0))
    page = new_page(options, width, height, view, NOTES)
    x0, _ = view.at(0.0, 0.0)
    ticks = [
        line.points[:, 1].mean()
        for line in page.lines
        if line.dash == "solid"
        and line.points[:, 0].mean() == pytest.approx(x0)
        and np.ptp(line.points[:, 1]) == 0
        and np.ptp(line.points[:, 0]) < 3
    ]
    assert len(ticks) > 5
    assert np.diff(sorted(ticks)) == pytest.approx(np.full(len(ticks) - 1, 10.0))  # 0.5 m at 1:50


def test_no_line_of_the_page_is_thinner_than_three_quarters_of_a_point():
    options = PaperOptions()
    width, height = paper_mm(options, False)
    page = new_page(options, width, height, View(frame_of(width, height), 50.0, (-2, -1)), NOTES)
    assert min(line.weight for line in page.lines) >= 0.75


def test_a_piece_that_fills_its_frame_to_the_last_hair_is_shown_whole():
    extent = (0.0, 0.0, 10.0, 5.0)
    view = fit_view(extent, extent, (20.0, 30.0, 20.0 + 200.0 - 1e-9, 130.0), "m")
    assert np.isfinite(view.origin).all()
    assert view.scale in (50, 75)
