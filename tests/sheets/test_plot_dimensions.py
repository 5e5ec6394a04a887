"""The marks of a light plot as dimensions, and tags whose lines cross no word: measured on the board."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from shapely import LineString, box

from aimcalc.paper.drawing import text_width
from aimcalc.scene.model import Pipe, Target, Unit
from aimcalc.sheets.plot.light_plot import board_of
from aimcalc.solid.rig import solve_rig
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_scene
from tests.shows import rig_of

SCENES = ["playhouse", "studio", "raked", "arena"]
QUARTER = 48.0  # 1/4" = 1'-0"
HANG = Path(__file__).parents[2] / "scenes" / "playhouse" / "hang.csv"


@cache
def board(name: str, length: str, scale: float | None = None):
    return board_of(rig_of(name), PaperOptions(length=length, scale=scale))


BOARDS = [*((name, "m", None) for name in SCENES), ("playhouse", "ft", QUARTER)]


def room_of(words):
    """The rectangle of one row of level words, less a hair: capitals are 0.73 of the type size high."""
    wide, high = text_width(words.text, words.size, words.bold), 0.73 * words.size * 25.4 / 72
    left = words.x - {"left": 0.0, "centre": wide / 2, "right": wide}[words.align]
    return box(left + 0.1, words.y + 0.1, left + wide - 0.1, words.y + high - 0.1)


def tag_words(placed):
    return placed.tag.drawn(*placed.at.tolist())[1]


@pytest.mark.parametrize("asked", BOARDS)
def test_no_line_from_a_tag_crosses_a_word_or_another_tag(asked):
    inside = board(*asked).inside
    told = {k: [room_of(each) for each in tag_words(placed)] for k, placed in inside.tags.items()}
    figures = [room_of(each) for each in inside.dimensions.words if not each.turn]
    every = [*figures, *(each for rooms in told.values() for each in rooms)]
    for line in inside.leaders:
        crossed = [each for each in every if LineString(line.points).intersects(each)]
        assert crossed == [], line.points.tolist()


@pytest.mark.parametrize("asked", BOARDS)
def test_no_tag_lies_on_another_or_on_a_figure(asked):
    inside = board(*asked).inside
    rooms = [
        box(*placed.at, *(placed.at + np.array(placed.tag.size))) for placed in inside.tags.values()
    ]
    rooms += [room_of(each) for each in inside.dimensions.words if not each.turn]
    for k, one in enumerate(rooms):
        assert not any(one.intersection(other).area > 0.05 for other in rooms[:k])


def ticks(inside):
    """The middles of all ticks, (n, 2): short lines at 45 degrees."""
    lines = [line.points for line in inside.dimensions.lines]
    long = [np.hypot(*(line[1] - line[0])) for line in lines]
    return np.array([line.mean(axis=0) for line, far in zip(lines, long, strict=True) if far < 4.0])


def test_the_house_pipe_has_a_tick_and_a_figure_at_every_mark_of_the_hang_list():
    """1/4" = 1'-0": a foot is 6.35 mm; units of the house pipe are typed at 19' SL, 17' SL ... 19' SR."""
    inside = board("playhouse", "ft", QUARTER).inside
    with HANG.open(encoding="utf-8-sig") as file:
        typed = [row["at"] for row in csv.DictReader(file) if row["position"] == "house pipe"]
    assert "house pipe" in inside.dimensions.positions
    (first,) = [each for each in inside.dimensions.words if each.text == "house pipe, SR"]
    row = [at for at in ticks(inside) if abs(at[1] - first.y) < 2.0]
    zero = sorted(at[0] for at in row)[len(row) // 2]
    assert len(row) == len(typed) + 1
    feet = sorted(round((at[0] - zero) / 6.35, 2) for at in row)
    assert feet == [*range(-19, 0, 2), 0.0, *range(1, 20, 2)]
    told = [each for each in inside.dimensions.words if 0.0 < each.y - first.y < 6.0]
    for at in row:
        beside = min((each for each in told if each.x > at[0]), key=lambda each: each.x - at[0])
        far = abs(round((at[0] - zero) / 6.35))
        assert beside.text == (f"{far}'-0\"" if far else "0")


def test_where_its_line_tells_the_marks_a_tag_does_not_and_else_it_does():
    rig, inside = rig_of("raked"), board("raked", "m").inside
    assert inside.dimensions.positions == {"back bar", "house bar"}  # the others are askew
    for k, placed in inside.tags.items():
        cells = {cell.name for row in placed.tag.cells for cell in row}
        if placed.tag.cells:
            told = rig.units[k].position in inside.dimensions.positions
            assert ("MARK" in cells) != told, rig.names[k]


def test_the_figures_of_a_pipe_up_and_down_the_stage_are_turned():
    pipe = Pipe(name="bar", start=(5.0, -4.0, 6.0), end=(5.0, 4.0, 6.0), zero="middle")
    units = [
        Unit(position="bar", number=n, kind="k", at=at, target="A")
        for n, at in (("1", 3.0), ("2", -1.5))
    ]
    kinds = [a_kind(length=0.6, width=0.2)]
    rig = solve_rig(a_scene(units, [Target(name="A", x=0.0, y=0.0)], pipes=[pipe], kinds=kinds))
    drawn = board_of(rig, PaperOptions(length="m", scale=50.0)).inside.dimensions
    assert {each.text for each in drawn.words} == {"bar, DS", "1.50 m", "0", "3.00 m", "US"}
    assert {each.turn for each in drawn.words} == {90.0}
    y = sorted(line.points.mean(axis=0)[1] for line in drawn.lines if np.ptp(line.points[:, 1]) < 4)
    assert np.diff(y) == pytest.approx([30.0, 60.0])  # 1.50 m and 3.00 m at 1:50
