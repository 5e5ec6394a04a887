"""The pan dial: its scale as pixels, and what its readings mean."""

from __future__ import annotations

import io

import numpy as np
import pytest

from aimcalc.scene.model import Pipe, Unit
from aimcalc.sheets.pan_dial import Dial, facings, page_angle, pan_dial
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import WORD, a_scene, thrown
from tests.sheets import pdf_reading
from tests.sheets.ink import MM, ink
from tests.shows import a_show, rig_of

PAPERS = [("a4", "m"), ("letter", "ft"), ("a4", "ft"), ("letter", "m")]
SIZE = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}


def dial(rig, **options) -> bytes:
    stream = io.BytesIO()
    told = pan_dial(a_show(rig, []), stream, PaperOptions(**options))
    assert told == len(pdf_reading.sizes(stream.getvalue()))
    return stream.getvalue()


def one_unit(point=(2.0, 5.0, 1.0), **values):
    return Unit(position="p", number="1", kind="k", at=0.0, point=point, **values)


def measured(paper, length):
    """Ink of the dial's page and the centre of its scale: middle of the page, on the straight edge."""
    page = ink(dial(solve_rig(a_scene([one_unit()])), paper=paper, length=length), 0, 400)
    width, height = SIZE[paper]
    xs = width / 2 + 100.0
    column = page.dark[:, int(xs * page.per_mm)]
    rows = np.flatnonzero(column) / page.per_mm
    # The edge is the uppermost line but the title's letters, 14 pt + 36 pt + 20 pt under the paper's edge.
    edge = [row for row in rows if abs(row - (height - 70 / MM)) < 1.0]
    return page, width / 2, float(np.mean(edge))


@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_ticks_are_every_five_degrees_to_a_fifth_of_a_degree(paper, length):
    page, x, y = measured(paper, length)
    radius = 127.0 if length == "ft" else 125.0
    # From the first end: 5, 10 ... 85; then the second half's. The tick at 90 is left out of both.
    for first, last in ((-175.0, -95.0), (-85.0, -5.0)):
        found = np.sort(page.angles(x, y, radius - 5.5, radius - 2.0, (first - 2.5, last + 2.5)))
        ticks = [tick.mean() for tick in np.split(found, np.flatnonzero(np.diff(found) > 1.0) + 1)]
        assert ticks == pytest.approx(np.arange(first, last + 1, 5.0).tolist(), abs=0.2)


@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_the_disc_has_its_radius_and_the_proof_bars_measure_true(paper, length):
    page, x, y = measured(paper, length)
    radius = 127.0 if length == "ft" else 125.0
    for angle in (-32.5, -62.5, -117.5, -152.5):  # between ticks
        along = np.arange(radius - 1.5, radius + 1.5, 0.02)
        a = np.radians(angle)
        rim = along[page.at(x + along * np.cos(a), y + along * np.sin(a))]
        assert rim.mean() == pytest.approx(radius, abs=0.2)
    true = 101.6 if length == "ft" else 100.0
    left, bottom = 17.0 / MM, _bar(page)
    start, end = page.across(left + 60, bottom)
    assert end - start == pytest.approx(true, abs=0.2)
    low, high = page.upright(left + 6.0 / MM, bottom + 50)
    assert high - low == pytest.approx(true, abs=0.2)


def _bar(page):
    """The y of the level proof bar: ink over 80 mm, but not over the page as the cautions' line is."""
    rows = np.arange(15.0, 40.0, 0.03)
    bar = [row for row in rows if page.part(20.0, row, 100.0, row + 0.1).mean() > 0.95]
    return np.mean([row for row in bar if not page.at(200.0, row)])


@pytest.mark.parametrize("mount", ["under", "over"])
@pytest.mark.parametrize("facing", ["US", "DS", "SL", "SR"])
@pytest.mark.parametrize("aside", [2.0, -2.0])
def test_the_bar_end_on_the_dial_s_side_reads_the_pan_at_the_end_named_for_the_swing(
    mount, facing, aside
):
    """The bar by another package's turns; the page as a plan with the facing side up."""
    out = np.array(WORD[facing], float)
    across = np.array((out[1], -out[0], 0.0))  # to the second hand of whoever faces that way
    target = 5 * out + aside * across + (0, 0, 1)
    ends = 4 * across
    pipe = Pipe(name="p", start=(*(-ends[:2]), 6.0), end=(*ends[:2], 6.0), zero="middle")
    rig = solve_rig(a_scene([one_unit(tuple(target.tolist()), mount=mount)], pipes=[pipe]))
    (answer,) = rig.answers
    _, axis, _ = thrown(answer, rig.scene)
    bar = np.cross((0.0, 0.0, 1.0), axis)
    bar /= np.linalg.norm(bar)
    if np.dot(bar, out) > 0:
        bar = -bar  # the end on the side of the backs, where the disc is
    card = Dial(facing, "m")
    half = card.hands.index(answer.swing)
    on_page = np.degrees(np.arctan2(np.dot(bar, out), np.dot(bar, across)))
    assert answer.square == facing
    assert on_page == pytest.approx(page_angle(half, answer.pan), abs=1e-6)
    assert answer.pan == pytest.approx(np.degrees(np.arctan2(2, 5)), abs=1e-6)


@pytest.mark.parametrize(
    ("facing", "first", "second"),
    [("US", "SR", "SL"), ("DS", "SL", "SR"), ("SL", "US", "DS"), ("SR", "DS", "US")],
)
def test_the_ends_are_named_as_the_reader_sees_them(facing, first, second):
    data = dial(rig_of("raked"))
    (page,) = (
        p
        for p in pdf_reading.runs(data)
        if any(run.words == f"PAN DIAL for units that face {facing}" for run in p)
    )
    at = {run.words: run.left for run in page}
    assert at[f"{first} END"] < at["SPIGOT"] < at[f"{second} END"]
    assert "read the YOKE BAR" in at


def test_a_page_for_every_way_that_units_on_pipes_face():
    assert facings(rig_of("studio")) == ["US", "DS"]
    assert facings(rig_of("raked")) == ["US", "DS", "SL", "SR"]
    assert facings(solve_rig(a_scene([]))) == ["US"]


@pytest.mark.parametrize(("paper", "length"), PAPERS)
def test_no_text_overlaps_leaves_the_page_or_has_a_minus_sign(paper, length):
    data = dial(rig_of("raked"), paper=paper, length=length)
    pdf_reading.assert_apart(data)
    pdf_reading.assert_no_signs(data)
    for text in pdf_reading.pages(data):
        assert "Uniform scaling keeps angles, ruins lengths" in " ".join(text.split())
        assert "GEOMETRY ONLY" in text
