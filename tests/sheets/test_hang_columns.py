"""The columns of the hang sheets."""

from __future__ import annotations

import pytest

from aimcalc.paper.table import INITIALS, TICK_WIDTH, grid
from aimcalc.sheets.hang_sheets import hang_columns, steps


@pytest.mark.parametrize("sort", ["pipe", "boom", "stand"])
def test_columns_and_a_tick_a_step_fill_the_page(sort):
    ticks = [step.word for step in steps(sort, None)]
    columns = hang_columns(sort, "CENTRE")
    over = grid(columns, 17.0, 775.0, ticks)
    widths = [b - a for a, b in zip(over.edges, over.edges[1:], strict=False)]
    assert (over.edges[0], over.edges[-1]) == (17.0, 775.0)
    assert len(widths) == len(columns) + len(ticks) + 1
    assert widths[len(columns) : -1] == pytest.approx([TICK_WIDTH] * len(ticks))
    assert widths[-1] == pytest.approx(INITIALS)
    assert min(widths) > 0


def test_marks_are_counted_from_the_zero_mark_and_a_stand_has_none():
    heads = [column.head for column in hang_columns("pipe", "MIDDLE")]
    assert ("MARK", "from MIDDLE") in heads
    assert ("FROM ENDS", "of the pipe") in heads
    stand = {column.head[0] for column in hang_columns("stand", "")}
    assert not stand & {"MARK", "FROM ENDS", "SPACING"}
    assert {"UNIT", "TYPE", "CIRCUIT", "CABLE", "TAIL TIED"} == stand
