"""The ladder's order along a position, and the end it starts from."""

from __future__ import annotations

import pytest

from aimcalc.rig.solve import hang_order, number_key, start_end
from aimcalc.scene.model import Boom, Pipe, Stand, Unit
from tests.rigs import a_pipe, a_scene

UP_AND_DOWN = Pipe(name="p", start=(3, -4, 5), end=(3, 6, 5), zero="middle")


def row(position, *numbered):
    """Units of one position from (number, at) pairs."""
    return [
        Unit(position=position, number=n, at=at, kind="k", point=(0, 5, 0)) for n, at in numbered
    ]


@pytest.mark.parametrize(
    ("pipe", "units", "words"),
    [
        (a_pipe(), row("p", ("1", 4.0), ("2", 0.0), ("3", -4.0)), "SL END"),
        (a_pipe(), row("p", ("1", -4.0), ("2", 0.0), ("3", 4.0)), "SR END"),
        (a_pipe(), row("p", ("1", 4.0), ("3", 3.0), ("2", 0.0), ("4", -4.0)), "SL END"),
        (UP_AND_DOWN, row("p", ("1", 4.0), ("2", 0.0)), "US END"),
        (UP_AND_DOWN, row("p", ("1", -2.0), ("2", 0.0)), "DS END"),
        (a_pipe(), row("p", ("7", 1.0)), "SL END"),
    ],
)
def test_a_row_starts_at_the_end_its_numbers_start_from(pipe, units, words):
    assert start_end(pipe, units) == words
    ordered = hang_order(a_scene(units, pipes=[pipe]))
    assert ordered[0].number == units[0].number
    places = [unit.at for unit in ordered]
    assert places in (sorted(places), sorted(places, reverse=True))


def test_a_boom_runs_from_the_top_however_it_is_numbered():
    boom = Boom(name="b", x=-5, y=2, height=4)
    units = row("b", ("1", 1.0), ("2", 3.0), ("3", 2.0))
    assert start_end(boom, units) == "TOP"
    ordered = hang_order(a_scene(units, booms=[boom], pipes=[]))
    assert [unit.at for unit in ordered] == [3.0, 2.0, 1.0]


def test_a_stand_has_no_end_and_numbers_decide():
    stand = Stand(name="s", x=1, y=2)
    units = row("s", ("10", None), ("2", None))
    assert start_end(stand, units) == ""
    ordered = hang_order(a_scene(units, stands=[stand], pipes=[]))
    assert [unit.number for unit in ordered] == ["2", "10"]


def test_positions_come_in_the_order_written():
    pipes = [a_pipe("second"), a_pipe("first")]
    units = row("first", ("1", 0.0)) + row("second", ("1", 0.0))
    assert [u.position for u in hang_order(a_scene(units, pipes=pipes))] == ["second", "first"]


def test_numbers_sort_as_people_count():
    assert sorted(["10", "2", "7a", "7", "spare"], key=number_key) == [
        "2",
        "7",
        "7a",
        "10",
        "spare",
    ]
