"""Proof bars and round scales, measured in pixels."""

from __future__ import annotations

import io

import numpy as np
import pytest

from aimcalc.paper.page import Page, write_pages
from aimcalc.paper.true_scale import MM, Round, bar_across, bar_upright, proof_length, proof_words
from aimcalc.text.stamp import PaperOptions
from tests.sheets.ink import ink

PIXEL = 1.6 * 25.4 / 400  # mm; both edges are found to within one


def drawn(draw):
    stream = io.BytesIO()
    write_pages(stream, [Page(draw, "")], PaperOptions(), title="t")
    return ink(stream.getvalue(), 0)


def test_a_proof_bar_is_a_hundred_millimetres_or_four_inches():
    assert (proof_length("m"), proof_words("m")) == (100.0, "100 mm")
    assert (proof_length("ft"), proof_words("ft")) == (pytest.approx(101.6), "4 in")


@pytest.mark.parametrize("length", [20.0, 100.0, 101.6])
def test_bars_measure_from_outer_edge_to_outer_edge(length):
    def draw(sheet):
        bar_across(sheet, 50 * MM, 100 * MM, length)
        bar_upright(sheet, 40 * MM, 120 * MM, length)

    page = drawn(draw)
    assert page.across(50 + length / 2, 100) == pytest.approx((50, 50 + length), abs=PIXEL)
    assert page.upright(40, 120 + length / 2) == pytest.approx((120, 120 + length), abs=PIXEL)


def test_ticks_arcs_and_places_follow_the_scale_s_own_angles():
    def draw(sheet):
        scale = Round(sheet, 100 * MM, 150 * MM, lambda reading: 90 - reading)
        scale.tick(30, 20, 40, 1.0)
        scale.arc(60, 90, 50, 1.0)
        assert scale.place(0, 10) == pytest.approx((100 * MM, 160 * MM))

    page = drawn(draw)
    tick = page.angles(100, 150, 22, 38, (0.1, 89.9))
    assert tick.mean() == pytest.approx(60.0, abs=0.1)
    arc = page.angles(100, 150, 49, 51, (-180, 180))
    assert (arc.min(), arc.max()) == pytest.approx((0.0, 30.0), abs=0.4)
    assert np.ptp(arc) > 29
