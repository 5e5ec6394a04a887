"""What goes where on a hang strip."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from aimcalc.scene.model import Boom, Pipe, Unit
from aimcalc.sheets.strip.label import kept
from aimcalc.sheets.strip.marks import (
    BEYOND,
    Mark,
    check_step,
    checks,
    grouped,
    pitch,
    strips,
    tiling,
)
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene
from tests.shows import rig_of

INCH = 0.0254


def unit(number, at, point=(0.0, 5.0, 1.0), **values):
    return Unit(position="p", number=number, kind="k", at=at, point=point, **values)


def strip_of(units, length="m", **scene):
    (strip,) = strips(solve_rig(a_scene(units, **scene)), length)
    return strip


@pytest.mark.parametrize(("length", "tile", "step"), [("m", 0.25, 1.0), ("ft", 0.254, 0.9144)])
def test_tiles_and_checks_have_their_lengths(length, tile, step):
    assert pitch(length) == pytest.approx(tile)
    assert check_step(length) == pytest.approx(step)


@pytest.mark.parametrize(
    ("low", "high", "tiles"),
    [(-0.12, 0.12, 1), (-0.12, 0.13, 2), (-0.13, 0.12, 2), (-3.6, 3.6, 29), (1.0, 2.0, 5)],
)
def test_the_fewest_tiles_hold_the_strip_with_zero_in_the_middle_of_one(low, high, tiles):
    over = tiling(low, high, 0.25)
    assert over.tiles == tiles
    assert over.start <= low + 1e-12
    assert over.end >= high - 1e-12
    assert (over.start / 0.25) % 1 == pytest.approx(0.5)


def test_every_place_is_on_one_tile():
    over = tiling(-0.3, 0.3, 0.25)  # tiles from -0.375
    assert [over.tile_of(x) for x in (-0.3, -0.126, -0.125, 0.0, 0.124, 0.3)] == [0, 0, 1, 1, 1, 2]


def test_checks_are_whole_steps_from_zero_either_way():
    over = tiling(-1.1, 2.2, 0.25)
    assert checks(over, 1.0) == [(-1.0, 1), (0.0, 0), (1.0, 1), (2.0, 2)]


def test_marks_run_as_the_reader_sees_them():
    # Facing US, SL (+x) is at the reader's second hand; facing DS it is at the first.
    us = strip_of([unit("1", 1.5), unit("2", -0.5)])
    assert [(mark.number, mark.place) for mark in us.marks] == [("2", -0.5), ("1", 1.5)]
    assert (us.first, us.second, us.up, us.low) == ("SR", "SL", "US", "DS")
    ds = strip_of([unit("1", 1.5, (0, -5, 1)), unit("2", -0.5, (0, -5, 1))])
    assert [(mark.number, mark.place) for mark in ds.marks] == [("1", -1.5), ("2", 0.5)]
    assert (ds.first, ds.second, ds.up, ds.low) == ("SL", "SR", "DS", "US")


@pytest.mark.parametrize(
    ("start", "end"),
    [((-4, 0, 6), (3, 0, 6)), ((3, 0, 6), (-4, 0, 6))],
    ids=["SR first", "SL first"],
)
def test_the_position_s_ends_are_named_whichever_was_written_first(start, end):
    pipe = Pipe(name="p", start=start, end=end)
    strip = strip_of([unit("1", 1.0)], pipes=[pipe])
    assert strip.ends == ((-4.0, "SR END"), (3.0, "SL END"))
    assert strip.zero == "CENTRE LINE"


def test_a_pipe_s_strip_holds_its_zero_mark_and_room_for_end():
    strip = strip_of([unit("1", 2.0), unit("2", 1.0)])
    assert strip.tiling.start <= -BEYOND
    assert strip.tiling.end >= 2.0 + BEYOND


def test_a_boom_s_strip_begins_at_the_check_below_its_lowest_unit():
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    arm = {"mount": "arm", "arm": 0.4, "arm_to": 90.0}
    strip = strip_of([unit("1", 3.4, **arm), unit("2", 2.6, **arm)], pipes=[], booms=[boom])
    assert 1.5 < strip.tiling.start <= 2.0 - BEYOND
    assert (strip.first, strip.second, strip.up, strip.zero) == ("FOOT", "TOP", "", "FOOT")
    assert [mark.number for mark in strip.marks] == ["2", "1"]
    assert [mark.bar for mark in strip.marks] == [None, None]
    assert strip.marks[0].kind == "k ARM SL"


# Worked by hand, as in tests/rig/hang/test_bars.py: the bar's end on the side that the nose swings to goes
# away from the side that is square.
@pytest.mark.parametrize(
    ("point", "words", "nose"),
    [
        ((2.0, 5.0, 1.0), "YOKE BAR 22°: SL end DS", "lens US, swung SL 22°"),
        ((-2.0, 5.0, 1.0), "YOKE BAR 22°: SR end DS", "lens US, swung SR 22°"),
        ((0.0, 5.0, 1.0), "YOKE BAR along the pipe", "lens US"),
    ],
)
@pytest.mark.parametrize("mount", ["under", "over"])
def test_words_say_which_end_of_the_bar_comes_towards_the_reader(mount, point, words, nose):
    (mark,) = strip_of([unit("1", 0.0, point, mount=mount)]).marks
    assert (mark.bar_words, mark.nose) == (words, nose)
    assert mark.kind == ("k OVER" if mount == "over" else "k")


# A rail bent to a circle, from 4.2 m SR and 3.4 m DS through 5.2 m DS on the centre line: half its chord is
# 4.2, its rise 1.8, so its radius is (4.2^2 + 1.8^2) / 3.6 = 5.8 and its middle 0.6 m US of the centre.
# Unit 1, 3.2 m SL: 3.2 / 5.8 = 31.61 degrees round. Clamp at (5.8 sin 31.61, 0.6 - 5.8 cos 31.61) =
# (3.040, -4.339). To (0, -1.8): atan(3.040 / 2.539) = 50.13 SR of US; square, to the circle's middle, is
# 31.61 SR of US. Pan 18.52 SR; facing US, SR is anticlockwise on paper.
# Unit 2, 1.1 m SL: 10.87 round, clamp at (1.093, -5.096). To (1.8, 0): atan(0.707 / 5.096) = 7.89 SL of US.
# Pan 10.87 + 7.89 = 18.76 SL, clockwise. Units 3 and 4 are their images in the centre line.
@pytest.mark.parametrize(
    ("at", "point", "bar", "words"),
    [
        (3.2, (0.0, -1.8, 1.6), 18.52, "YOKE BAR 19°: SR end DS"),
        (1.1, (1.8, 0.0, 1.6), -18.76, "YOKE BAR 19°: SL end DS"),
        (-1.1, (-1.8, 0.0, 1.6), 18.76, "YOKE BAR 19°: SR end DS"),
        (-3.2, (0.0, -1.8, 1.6), -18.52, "YOKE BAR 19°: SL end DS"),
    ],
)
@pytest.mark.parametrize("from_sl", [False, True])
def test_the_bar_on_a_curved_pipe_is_drawn_from_the_tube_at_the_clamp(
    at, point, bar, words, from_sl
):
    ends = ((-4.2, -3.4, 5.0), (4.2, -3.4, 5.0))
    start, end = ends[::-1] if from_sl else ends
    rail = Pipe(name="p", start=start, through=(0.0, -5.2, 5.0), end=end, zero="middle")
    (mark,) = strip_of([unit("1", at, point)], pipes=[rail]).marks
    assert mark.bar == pytest.approx(bar, abs=0.01)
    assert mark.bar_words == words


@pytest.mark.parametrize(
    ("swing_out", "line"), [(0.5, True), (1.5, False), (45.0, False), (90.0, False)]
)
def test_a_unit_swung_out_round_its_pipe_has_no_line_to_read_from_above(swing_out, line):
    out = unit("1", 0.0, (1.0, -5.0, 1.0), mount="out", swing_out=swing_out, out_to="DS")
    (mark,) = strip_of([out]).marks
    assert (mark.bar is not None) == line
    assert (mark.bar_words == "STEM LEANS: use the dial") != line


def test_a_pipe_that_slopes_keeps_its_lines():
    # Its stems lean along it only: read square to the pipe, the line is true.
    slope = Pipe(name="p", start=(-4.0, 0.0, 6.0), end=(4.0, 0.0, 5.0), zero="middle")
    (mark,) = strip_of([unit("1", 0.0, (1.0, 5.0, 1.0))], pipes=[slope]).marks
    assert mark.bar is not None


def test_words_for_a_unit_that_faces_the_other_way_than_its_row():
    # The row faces US. Unit 3 faces DS, swung SL by 22 degrees: its SL end goes US, so its SR end goes DS.
    row = [unit("1", 2.0), unit("2", 1.0), unit("3", 0.0, (2.0, -5.0, 1.0))]
    mark = next(m for m in strip_of(row).marks if m.number == "3")
    assert (mark.bar_words, mark.nose) == ("YOKE BAR 22°: SR end DS", "lens DS, swung SL 22°")


def test_a_unit_straight_down_has_no_line_unless_its_turn_matters():
    down = unit("1", 0.0, (0.05, 0.1, 0.0))
    (plain,) = strip_of([down]).marks
    assert (plain.bar, plain.bar_words, plain.nose) == (None, "PAN FREE", "")
    (oval,) = strip_of([down], kinds=[a_kind(oval=(24.0, 48.0))]).marks
    assert oval.bar is not None


def test_marks_nearer_than_three_centimetres_share_a_label():
    def mark(place):
        return Mark(place, str(place), "", "", None, "", "")

    groups = grouped([mark(0.0), mark(0.02), mark(0.04), mark(0.5)])
    assert [[m.place for m in group] for group in groups] == [[0.0, 0.02, 0.04], [0.5]]


@pytest.mark.parametrize("scene", ["studio", "playhouse", "raked"])
def test_every_unit_on_a_pipe_or_boom_has_its_mark_where_its_clamp_is(scene):
    """Clamp points come from the solver; the strip is laid along its pipe with its zero on the zero mark."""
    rig = rig_of(scene)
    made = {strip.name: strip for strip in strips(rig, "m")}
    for name, rows in rig.rows.items():
        position = rig.scene.positions[name]
        if not rows or not isinstance(position, Pipe):
            continue
        marks = {mark.number: mark.place for mark in made[name].marks}
        clamps = [rig.arrays.clamp[:, k] for k in rows]
        for a, b in pairwise(rows):
            apart = np.linalg.norm(clamps[rows.index(a)] - clamps[rows.index(b)])
            told = marks[rig.units[a].number] - marks[rig.units[b].number]
            assert abs(told) == pytest.approx(apart, abs=1e-9)
        towards = {"SL": (0, 1), "SR": (0, -1), "US": (1, 1), "DS": (1, -1)}[made[name].second]
        order = sorted(rows, key=lambda k: towards[1] * rig.arrays.clamp[towards[0], k])
        assert [rig.units[k].number for k in order] == list(marks)
        assert all(math.isfinite(mark.bar) for mark in made[name].marks if mark.bar is not None)


def test_floor_stands_have_no_strip():
    rig = rig_of("playhouse")
    assert "floor SL" not in {strip.name for strip in strips(rig, "ft")}


def test_long_kinds_are_cut_and_pipes_without_units_left_out():
    pipes = [a_pipe(), a_pipe("empty", y=2.0)]
    kind = a_kind("a very long name for a kind of unit indeed")
    one = Unit(position="p", number="1", kind=kind.name, at=0.0, point=(0, 5, 1))
    strip = strip_of([one], pipes=pipes, kinds=[kind])
    assert len(strip.marks[0].kind) <= 18
    assert strip.marks[0].kind.endswith("…")


def test_tiles_that_would_be_empty_are_left_out_from_the_end_where_the_sheets_begin():
    # Marks at -0.5 and 1.5, 0.12 m of strip beyond: tiles of 0.25 m from -0.625, 9 of them. On the first the
    # mark at -0.5, which points straight ahead: a bar of 55 mm either way stays on it (-0.555 to -0.445).
    # Zero on the third. The mark at 1.5 is in the middle of the last.
    marks = [unit("1", 1.5, (1.5, 5.0, 1.0)), unit("2", -0.5, (-0.5, 5.0, 1.0))]
    assert kept(strip_of(marks)) == [[8], [2], [0]]
    facing_ds = [unit("1", 1.5, (1.5, -5.0, 1.0)), unit("2", -0.5, (-0.5, -5.0, 1.0))]
    assert kept(strip_of(facing_ds)) == [[0], [6], [8]]


def test_a_bar_that_reaches_over_a_joint_keeps_the_next_tile():
    # The mark at 0.1 m: its bar along the pipe reaches 0.155, over the joint at 0.125.
    assert kept(strip_of([unit("1", 0.1, (0.1, 5.0, 1.0))])) == [[1, 0]]


def test_marks_come_as_the_sheets_rows_do():
    row = [unit("1", 1.5), unit("2", -0.5)]
    assert [mark.number for mark in strip_of(row).in_order] == ["1", "2"]
    boom = Boom(name="p", x=-6.0, y=0.0, height=5.0)
    arm = {"mount": "arm", "arm": 0.4, "arm_to": 90.0}
    units = [unit("1", 3.4, **arm), unit("2", 2.6, **arm)]
    strip = strip_of(units, pipes=[], booms=[boom])
    assert [mark.number for mark in strip.in_order] == ["1", "2"]
    assert [mark.where for mark in strip.in_order] == ["3.40 m UP", "2.60 m UP"]
