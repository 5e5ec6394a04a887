"""What the crew carries is often a copy of a copy: every word must live through two.

A copier is taken as a scan at 100 dots to the inch, blurred by one dot each way, then black or white. A
light copier prints what is more than 43 % black after the blur, a dark one what is more than 35 % (common
practice, no source).
"""

from __future__ import annotations

import io

import numpy as np
import pypdfium2
import pytest
from scipy.ndimage import gaussian_filter

from aimcalc.paper.page import RULE, Page, write_pages
from aimcalc.sheets.aim_sheets import aim_sheets
from aimcalc.sheets.cards import unit_cards
from aimcalc.sheets.head_page import head_page
from aimcalc.sheets.steps import steps_card
from aimcalc.sheets.strip.saddles import saddle_labels
from aimcalc.sheets.unit_labels import labels
from aimcalc.text.stamp import PaperOptions
from tests.sheets import pdf_reading
from tests.shows import a_show, rig_of

DOTS = 100 / 72  # a point
LIGHT, DARK = 0.43, 0.35


def scanned(page):
    """The ink of every dot, 0 to 1."""
    pixels = page.render(scale=DOTS, grayscale=True).to_numpy()
    return 1.0 - pixels.reshape(pixels.shape[0], -1)[:, : pixels.shape[1]] / 255.0


def copied_twice(ink, threshold):
    for _ in range(2):
        ink = (gaussian_filter(ink, 1.0) > threshold).astype(float)
    return ink


def within(ink, run):
    """The part of a page that a run of text covers."""
    height = ink.shape[0]
    rows = slice(max(0, int(height - run.top * DOTS)), int(height - run.bottom * DOTS) + 1)
    return ink[rows, int(run.left * DOTS) : int(run.right * DOTS) + 1]


def round_about(ink, run):
    """How dark the paper is about a run of text, two dots away: a lone figure says nothing of its ground."""
    height = ink.shape[0]
    top, low = int(height - run.top * DOTS) - 2, int(height - run.bottom * DOTS) + 3
    left, right = int(run.left * DOTS) - 2, int(run.right * DOTS) + 3
    ring = [ink[[top, low], left : right + 1].ravel(), ink[top:low, [left, right]].ravel()]
    return np.concatenate(ring).mean()


@pytest.mark.parametrize(
    "make", [aim_sheets, unit_cards, head_page, steps_card, labels, saddle_labels]
)
@pytest.mark.parametrize("threshold", [LIGHT, DARK])
def test_every_word_keeps_its_ink_and_its_white_through_two_photocopies(make, threshold):
    rig = rig_of("studio")
    stream = io.BytesIO()
    make(a_show(rig), stream, PaperOptions())
    data, looked_at = stream.getvalue(), 0
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    for page, runs in zip(document, pdf_reading.runs(data), strict=True):
        first = scanned(page)
        last = copied_twice(first, threshold)
        for run in runs:
            before, after = within(first, run), within(last, run)
            if before.mean() > 0.6 < round_about(first, run):  # white on black: the white must live
                before, after = 1.0 - before, 1.0 - after
                assert after.sum() > 0.5 * before.sum(), run
            else:
                assert after.sum() > 0.85 * before.sum(), run
                assert after.mean() < 0.9, run
            looked_at += 1
    assert looked_at > (50 if make is steps_card else 150)


def test_a_line_between_cells_lives_through_two_light_photocopies_on_every_dot():
    heights = [100 + 20.03 * k for k in range(24)]

    def draw(sheet):
        for y in heights:
            sheet.line(100, y, 400, y, weight=RULE)

    stream = io.BytesIO()
    write_pages(stream, [Page(draw, "")], PaperOptions(), title="Test")
    ink = scanned(pypdfium2.PdfDocument(stream.getvalue())[0])
    column = copied_twice(ink, 0.40)[:, int(250 * DOTS)]
    at = (ink.shape[0] - np.array(heights) * DOTS).astype(int)
    assert all(column[dot - 3 : dot + 4].any() for dot in at)
