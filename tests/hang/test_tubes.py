"""Which tube a connector is tied to, where it ends and what its ways are called."""

import numpy as np
import pytest

from aimcalc.hang.tubes import span, tubes, ways
from aimcalc.scene.model import Boom, Pipe, Stand, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_pipe, a_scene

BOOM = Boom(name="b", x=6.0, y=1.0, height=4.0)


def hung(position, at, **values):
    return Unit(position=position, number="1", at=at, kind="k", point=(0.0, 4.0, 1.6), **values)


def test_ends_are_named_in_the_order_they_were_written():
    there = span(a_pipe())
    assert (there.start_word, there.end_word) == ("SR END", "SL END")
    assert (there.start, there.end) == (-10.0, 10.0)
    back = span(Pipe(name="p", start=(10.0, 0, 6), end=(-10.0, 0, 6)))
    assert (back.start_word, back.end_word) == ("SL END", "SR END")
    assert (back.start, back.end) == (10.0, -10.0)


def test_a_pipe_up_and_down_the_stage_runs_us_and_ds():
    pipe = Pipe(name="p", start=(5.0, 1.0, 6.0), end=(5.0, 9.0, 6.0), zero="start")
    there = span(pipe)
    assert (there.start_word, there.end_word) == ("DS END", "US END")
    assert (there.start, there.end) == (0.0, 8.0)
    assert ways(pipe) == ("US", "DS")


def test_a_sloping_pipe_is_measured_along_itself():
    # 3-4-5: 8 across and 6 up is 10 long, the middle is the zero mark.
    there = span(Pipe(name="p", start=(-4.0, 0, 3.0), end=(4.0, 0, 9.0), zero="middle"))
    assert (there.start, there.end) == pytest.approx((-5.0, 5.0))


def test_a_boom_counts_up_from_its_foot():
    assert span(BOOM) == (0.0, 4.0, "FOOT", "TOP")
    assert ways(BOOM) == ("UP", "DOWN")
    assert span(Stand(name="s", x=0.0, y=0.0)) is None


def test_the_tube_of_a_pipe_runs_to_its_ends_from_the_clamp():
    tied = tubes(solve_rig(a_scene([hung("p", 7.0)])))
    assert tied.along[:, 0] == pytest.approx([1, 0, 0])
    assert (tied.low[0], tied.high[0]) == pytest.approx((-17.0, 3.0))
    assert tied.words == [("SL", "SR")]


def test_the_tube_of_a_side_arm_is_the_arm_from_the_unit_inwards():
    arm = hung("b", 3.0, mount="arm", arm=0.5, arm_to=270.0)  # towards SR
    tied = tubes(solve_rig(a_scene([arm], booms=[BOOM])))
    assert tied.base[:, 0] == pytest.approx([5.5, 1.0, 3.0])
    assert tied.along[:, 0] == pytest.approx([1, 0, 0], abs=1e-12)
    assert (tied.low[0], tied.high[0]) == (0.0, 0.5)
    assert tied.words == [("SL", "SR")]


def test_the_tube_of_a_unit_clamped_to_the_boom_is_the_boom():
    direct = hung("b", 3.0, mount="direct", arm_to=270.0)
    tied = tubes(solve_rig(a_scene([direct], booms=[BOOM])))
    assert tied.along[:, 0] == pytest.approx([0, 0, 1])
    assert (tied.low[0], tied.high[0]) == (-3.0, 1.0)


def test_a_stand_has_no_tube():
    stand = Stand(name="s", x=1.0, y=2.0)
    unit = Unit(position="s", number="1", kind="k", mount="stand", point=(0.0, 4.0, 1.6))
    tied = tubes(solve_rig(a_scene([unit], stands=[stand])))
    assert np.array_equal(tied.low, [0.0])
    assert np.array_equal(tied.high, [0.0])


def test_a_clamp_past_the_end_has_no_tube_on_that_side():
    tied = tubes(solve_rig(a_scene([hung("p", 10.5)])))
    assert (tied.low[0], tied.high[0]) == (-20.5, 0.0)
