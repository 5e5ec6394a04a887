"""The sheet of right and wrong hangs: drawn from solved mounts, answered by where the clip comes to be."""

from __future__ import annotations

import io

import numpy as np
import pytest

from aimcalc.teach.way_up import CASES, DROP, hang_of, way_up_pages, way_up_sheet
from aimcalc.text.stamp import PaperOptions
from tests.sheets.pdf_reading import overlaps, pages, runs

# By hand: a body is the right way up where nothing was done to it, and upside down otherwise.
RIGHT, WRONG = "RIGHT", "WRONG"
ANSWERS = [RIGHT, WRONG, WRONG, RIGHT, WRONG, RIGHT, WRONG, RIGHT, WRONG, WRONG, RIGHT, WRONG]


def drawn(seed=None):
    out = io.BytesIO()
    assert way_up_sheet(out, PaperOptions(), seed) == 2
    return out.getvalue()


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.mount} {case.done}")
def test_every_hang_has_its_light_on_the_spot(case):
    """The ray from the pivot along the drawn axis passes the point that the panel is about."""
    hang = hang_of(case)
    spot = np.array([case.ahead, 5.0 - case.below])
    way = spot - hang.pivot
    assert hang.axis @ way == pytest.approx(np.linalg.norm(way))
    assert abs(hang.axis @ hang.up) < 1e-12


@pytest.mark.parametrize(
    ("mount", "pivot"),
    [
        ("under", (0.0, 5.0 - DROP)),
        ("over", (0.0, 5.0 + DROP)),
        ("out", (DROP * np.sin(np.radians(60)), 5.0 - DROP * np.cos(np.radians(60)))),
        ("direct", (DROP, 5.0)),
    ],
)
def test_the_pivot_is_the_drop_away_along_each_mounts_stem(mount, pivot):
    assert {case.mount for case in CASES} == {"under", "over", "out", "direct"}
    for case in CASES:
        if case.mount == mount:
            assert hang_of(case).pivot == pytest.approx(pivot)


def test_the_answers_are_those_by_hand():
    assert [("WRONG", "RIGHT")[hang_of(case).right] for case in CASES] == ANSWERS
    text = pages(drawn())[1]
    assert [word for word in text.split() if word in ("RIGHT", "WRONG")][1:] == ANSWERS


def test_the_quiz_tells_no_answer_and_the_wall_tells_all():
    quiz, wall = pages(drawn())
    assert "WRONG" not in quiz
    assert quiz.count("right or wrong?") == len(CASES)
    assert all(" ".join(case.why.split()[:3]) in " ".join(wall.split()) for case in CASES)


def test_a_seed_shuffles_the_panels_and_gives_the_same_bytes():
    assert drawn(3) == drawn(3)
    assert drawn(3) != drawn(4)
    assert len(way_up_pages(PaperOptions(), 3)) == 2


def test_nothing_overlaps_and_care_is_on_every_page():
    data = drawn(1)
    assert all(overlaps(page) == [] for page in runs(data))
    for text in pages(data):
        assert "GEOMETRY ONLY" in text
        assert "Minors and untrained people" in text
