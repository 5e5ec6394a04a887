"""Units over people, and light that lands in the house."""

from __future__ import annotations

import pytest

from aimcalc.scene.model import Seats, Solid, Stage
from tests.findings.clean import OUTLINE, Scene, changed, says, told, with_special


def seats(front_row: float) -> Scene:
    outline = ((-6.5, -14.0), (6.5, -14.0), (6.5, front_row), (-6.5, front_row))
    return changed(seats=(Seats(name="stalls", outline=outline, eye=0.5),))


@pytest.mark.parametrize(("front_row", "warns"), [(-3.9, True), (-4.05, False)])
def test_a_pipe_over_seats_warns(front_row: float, warns: bool) -> None:
    # The front pipe is 4 m DS of the plaster line.
    assert told(seats(front_row)) == ([("warn", "over-people", "front")] if warns else [])


def test_the_seats_are_named() -> None:
    assert says(seats(-3.9), "over-people") == "All 6 units hang over seats (stalls)."


def test_where_no_seats_are_given_a_pipe_ds_of_the_stage_hangs_over_the_house() -> None:
    assert told(changed(seats=())) == [("warn", "over-people", "front")]
    apron = ((-7.0, -4.5), (7.0, -4.5), (7.0, 8.0), (-7.0, 8.0))
    assert told(changed(seats=(), stage=Stage(outline=apron, acting=apron))) == []


@pytest.mark.parametrize(("y", "warns"), [(1.27, False), (1.22, True)])
def test_light_that_comes_down_ds_of_the_stages_edge_warns(y: float, warns: bool) -> None:
    # From 5.14 m up at y = 6 through 1.65 m up at y: down at y - 1.65 (6 - y) / 3.49, which is the
    # edge, y = -1, for y = 1.247.
    scene = with_special((-4.0, y, 1.65))
    assert told(scene) == ([("warn", "lands-in-house", "back/4")] if warns else [])


def test_the_distance_into_the_house_is_told() -> None:
    # y = 1: 5 m out, lands 1.65 * 5 / 3.49 = 2.364 m on, at -1.364.
    told_of = says(with_special((-4.0, 1.0, 1.65)), "lands-in-house")
    assert told_of == "Unit 4 lands in the house, 0.36 m DS of the stage's edge."


def test_without_an_outline_the_plaster_line_is_the_edge() -> None:
    bare = changed(stage=Stage())
    assert [t[1] for t in told(with_special((-4.0, 2.0, 1.65), bare))] == []
    scene = with_special((-4.0, 1.8, 1.65), bare)  # lands at 1.8 - 1.986 = -0.186
    assert "0.19 m DS of the plaster line" in says(scene, "lands-in-house")


def test_light_that_is_meant_for_the_house_is_let_be() -> None:
    assert OUTLINE[0][1] == -1.0
    assert told(with_special((-4.0, -2.0, 1.65))) == []


@pytest.mark.parametrize(("top", "warns"), [(0.5, True), (0.7, False)])
def test_what_a_wall_stops_does_not_come_down_in_the_house(top: float, warns: bool) -> None:
    # Through 1.65 m up at y = 1 the axis is 1.65 - 1.5 x 3.49 / 5 = 0.603 m up at y = -0.5.
    wall = Solid(name="wall", panel=((-7, -0.5, 0), (7, -0.5, 0), (7, -0.5, top), (-7, -0.5, top)))
    scene = with_special((-4.0, 1.0, 1.65), changed(solids=(wall,)))
    assert ("lands-in-house" in [rule for _, rule, _ in told(scene)]) == warns
