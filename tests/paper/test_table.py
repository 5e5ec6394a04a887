"""Rows cut into pages."""

from __future__ import annotations

import pytest

from aimcalc.paper.table import GAP, ROW, Block, _best_cut, _lines
from aimcalc.scene.model import Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.rows import rows_of
from tests.rigs import a_scene

ROOM = 12 * ROW + 2 * GAP  # just twelve rows with the gaps between their three groups
UNIT = Unit(position="p", number="1", kind="k", at=0, point=(0, 5, 1))
PLAIN = rows_of(solve_rig(a_scene([UNIT])), (), "m")[0]


def blocks(count, *, told=(), lines=3):
    """Plain blocks; those whose places are in `told` have more lines under them."""
    return [Block(PLAIN, [("WARN", "x")] * lines if k in told else []) for k in range(count)]


@pytest.mark.parametrize(
    ("count", "told", "pages"),
    [
        (1, (), [1]),
        (12, (), [12]),
        (13, (), [8, 5]),  # two pages either way: whole groups, evenly
        (20, (), [12, 8]),
        (24, (), [12, 12]),
        (12, (3,), [8, 4]),  # one finding too tall for one page
        (20, (3,), [8, 12]),  # the page with the finding takes a group less
        (24, (3, 15), [8, 8, 8]),
    ],
)
def test_pages_are_as_few_as_hold_the_rows_and_cut_between_groups(count, told, pages):
    cut = _best_cut(blocks(count, told=told), ROOM, 0.0)
    assert [len(page) for page in cut] == pages


def test_what_is_told_of_the_position_takes_room_on_the_first_page_only():
    assert [len(page) for page in _best_cut(blocks(20), ROOM, 12.0)] == [8, 12]


def test_a_group_that_no_page_holds_is_cut_between_rows():
    pages = _best_cut(blocks(4, told=range(4), lines=10), 2.5 * (ROW + 120), 0.0)
    assert [len(page) for page in pages] == [2, 2]


def test_findings_stand_beside_their_severity_and_are_told_four_at_most():
    lines = _lines(["WARN: The field is cut.", "STOP: It is upside down.", ""], 400)
    assert lines == [("WARN", "The field is cut."), ("STOP", "It is upside down.")]
    many = _lines([f"WARN: Trouble {k}." for k in range(6)], 400)
    assert [words for _, words in many] == [
        *(f"Trouble {k}." for k in range(4)),
        "and 2 more: see the cover",
    ]


def test_a_long_finding_wraps_with_its_severity_on_the_first_line():
    lines = _lines(["WARN: " + "many words " * 12], 200)
    assert [word for word, _ in lines] == ["WARN"] + [""] * (len(lines) - 1)
    assert len(lines) > 2
