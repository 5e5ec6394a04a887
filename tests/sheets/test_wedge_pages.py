"""Wedges to cut: their angle as pixels, and how they are set out."""

from __future__ import annotations

import io
import re
from math import atan, degrees

import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.paper.page import Page, write_pages
from aimcalc.paper.true_scale import MM
from aimcalc.sheets.wedge_pages import draw_wedge, wedge_pages
from aimcalc.text.stamp import PaperOptions
from aimcalc.text.wedges import rise_words, wedges_to_cut
from tests.sheets import pdf_reading
from tests.sheets.ink import ink
from tests.shows import rig_of


@pytest.mark.parametrize("pan", [2.0, 8.5, 23.0, 45.0, 46.0, 73.0, 84.0])
def test_a_wedge_is_drawn_at_its_true_angle(pan):
    stream = io.BytesIO()
    page = Page(lambda sheet: draw_wedge(sheet, 50 * MM, 100 * MM, pan), "")
    write_pages(stream, [page], PaperOptions(), title="t")
    drawn = ink(stream.getvalue(), 0)
    # The slanting edge passes the tip; far from it the pipe's edge and the third edge are cut off.
    reach = 26.0 if pan > 33 else 38.0
    found = drawn.angles(50, 100, 0.5 * reach, 0.7 * reach, (pan - 1.5, pan + 1.5))
    if pan < 4:
        found = found[found > pan / 2 + 0.2]
    assert found.mean() == pytest.approx(pan, abs=0.2)


@pytest.mark.parametrize(
    ("pan", "feet", "metres"),
    [
        # 12 tan 23 = 5.094 in, 300 tan 23 = 127.3 mm
        (23.0, "5 1/8 in out per 12 in along", "127 mm out per 300 mm along"),
        (45.0, "12 in out per 12 in along", "300 mm out per 300 mm along"),
        # Over 45 it is set out from the pipe: 12 tan 17 = 3.669 in, 300 tan 17 = 91.7 mm
        (73.0, "3 5/8 in along per 12 in out", "92 mm along per 300 mm out"),
        (2.0, "3/8 in out per 12 in along", "10 mm out per 300 mm along"),
        (0.2, "0 in out per 12 in along", "1 mm out per 300 mm along"),
    ],
)
def test_a_wedge_is_set_out_by_its_rise_and_run(pan, feet, metres):
    assert rise_words(pan, "ft") == feet
    assert rise_words(pan, "m") == metres


@pytest.mark.parametrize("pan", range(1, 90))
def test_setting_out_keeps_the_angle_to_a_third_of_a_degree(pan):
    rise, run = (int(x) for x in re.findall(r"(\d+) mm", rise_words(float(pan), "m")))
    found = degrees(atan(rise / run))
    assert (90 - found if pan > 45 else found) == pytest.approx(pan, abs=0.33)


@pytest.mark.parametrize(
    ("scene", "paper", "length"), [("playhouse", "letter", "ft"), ("raked", "a4", "m")]
)
def test_every_wedge_of_the_plan_is_there_with_its_units(scene, paper, length):
    rig = rig_of(scene)
    plan, stream = hang_plan(rig), io.BytesIO()
    options = PaperOptions(paper=paper, length=length)
    write_pages(stream, wedge_pages(rig, plan, length, "facts"), options, title="t")
    texts = " ".join(" ".join(text.split()) for text in pdf_reading.pages(stream.getvalue()))
    cuts = [cut for position in plan.positions for cut in wedges_to_cut(position)]
    assert len(cuts) == sum(len({x.pan for x in p.wedges}) for p in plan.positions)
    per = "mm" if length == "m" else "in"
    assert len(re.findall(rf"per (?:12|300) {per}", texts)) == len(cuts)  # one drawing a wedge
    for wedge in (wedge for cut in cuts for wedge in cut):
        numbers = ", ".join(unit.split("/")[1] for unit in wedge.units)
        noun = "unit" if len(wedge.units) == 1 else "units"
        assert f"{wedge.swing} of {wedge.square} {noun} {numbers}" in texts
    for page, size in zip(
        pdf_reading.runs(stream.getvalue()), pdf_reading.sizes(stream.getvalue()), strict=True
    ):
        assert pdf_reading.overlaps(page) == []
        assert pdf_reading.outside(page, size) == []
    assert pdf_reading.minus_signs(texts) == []
    assert pdf_reading.bare_sides(texts) == []
