"""The columns of the aim sheets."""

from __future__ import annotations

import pytest

from aimcalc.paper.table import (
    INITIALS,
    ROW,
    TICK_WIDTH,
    TICKS,
    Marks,
    at_trim,
    grid,
    pipe_in,
    upright_at_trim,
)

MARKS = Marks("from SL end", ("SIGHT TAPE", "3.00 m US of pipe", "zero opposite SL end"))


@pytest.mark.parametrize(
    "columns",
    [at_trim(MARKS), pipe_in(MARKS), upright_at_trim(True), upright_at_trim(False)],
)
def test_columns_fill_the_page_and_leave_the_tick_cells_their_width(columns):
    over = grid(columns, 17.0, 775.0)
    assert (over.edges[0], over.edges[-1]) == (17.0, 775.0)
    assert len(over.edges) == len(columns) + len(TICKS) + 2
    widths = [b - a for a, b in zip(over.edges, over.edges[1:], strict=False)]
    assert widths[-len(TICKS) - 1 : -1] == pytest.approx([TICK_WIDTH] * len(TICKS))
    assert widths[-1] == pytest.approx(INITIALS)
    assert min(widths) > 0


def test_a_row_is_thirteen_millimetres_tall():
    assert ROW >= 13 / 25.4 * 72


def test_the_clamp_s_own_reading_has_a_column_only_where_it_differs():
    with_dials = [column.head[0] for column in upright_at_trim(True)]
    assert with_dials.count("AT CLAMP") == 1
    assert [column.head[0] for column in upright_at_trim(False)] == [
        head for head in with_dials if head != "AT CLAMP"
    ]


def test_a_pipe_that_is_in_has_no_landing():
    heads = {column.head[0] for column in pipe_in(MARKS)}
    assert not heads & {"LANDS", "STAND"}
    assert {"SIGHT TAPE", "DOWN / UP", "SWING NOSE"} <= heads


@pytest.mark.parametrize("columns", [at_trim(MARKS), pipe_in(MARKS)])
def test_heads_say_what_marks_and_tape_are_counted_from(columns):
    heads = {column.head[0]: column.head[1:] for column in columns}
    assert heads["TYPE, lens"] == ("hang at", "from SL end")
    assert heads["SIGHT TAPE"] == ("3.00 m US of pipe", "zero opposite SL end")
