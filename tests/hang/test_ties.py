"""Where connectors are taken to be tied, and on which side."""

from math import nan

import msgspec
import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import HangOptions
from aimcalc.hang.ties import best_side, tied, typed_place
from aimcalc.scene.model import Boom, Circuit, Unit
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_pipe, a_scene

KIND = a_kind(tail=0.9, tail_exit=(0.24, 0.1))
OPTIONS = HangOptions()


def one(point, **unit):
    """The connector and tail of one unit at the zero mark of a pipe across the stage."""
    circuits = unit.pop("circuits", ())
    row = Unit(position="p", number="1", at=0.0, kind="k", point=point, **unit)
    rig = solve_rig(a_scene([row], pipes=[a_pipe(circuits=circuits)], kinds=[KIND]))
    found = tied(rig, OPTIONS)
    return found.connectors[0], found.tails[0]


@pytest.mark.parametrize(
    ("point", "side"),
    [((5, 2, 1.6), "SR"), ((-5, 2, 1.6), "SL"), ((5, -2, 1.6), "SR"), ((-5, -2, 1.6), "SL")],
)
def test_the_connector_goes_to_the_side_that_the_back_swings_to(point, side):
    # Nose to SL means the back goes to SR, whichever way the unit faces.
    assert one(point)[0].side == side


def test_square_units_take_the_side_of_their_outlet():
    for at, side in ((3.0, "SL"), (-3.0, "SR")):
        outlet = (Circuit(name="1", at=at),)
        assert one((0, 4, 1.6), circuit="1", circuits=outlet)[0].side == side


def test_what_the_scene_says_is_where_it_is():
    connector, _ = one((5, 2, 1.6), connector=0.4)
    assert connector.place == 0.4
    assert connector.typed
    assert connector.side == "SR"


def test_a_connector_nobody_placed_is_tied_at_the_usual_distance_on_the_better_side():
    connector, tail = one((5, 2, 1.6))
    assert connector.place == -0.25
    assert not connector.typed
    assert tail.worst < tail.usable
    assert tail.focus < tail.usable


def test_the_furthest_place_uses_up_the_tail_at_its_worst_pose():
    connector, _ = one((5, 2, 1.6))
    _, tail = one((5, 2, 1.6), connector=-connector.furthest)
    assert max(tail.tipping, tail.focus) == pytest.approx(tail.usable, abs=1e-6)
    _, beyond = one((5, 2, 1.6), connector=-connector.furthest - 0.01)
    assert max(beyond.tipping, beyond.focus) > beyond.usable


def test_a_short_tail_leaves_no_place_and_says_none():
    short = msgspec.structs.replace(KIND, tail=0.4)
    row = Unit(position="p", number="1", at=0.0, kind="k", point=(5, 2, 1.6))
    connector = tied(solve_rig(a_scene([row], kinds=[short])), OPTIONS).connectors[0]
    assert connector == type(connector)(None, None, None, None, False)


def test_sides_alike_take_the_outlets_then_plus():
    assert best_side(-0.4, 0.4, -2.0) == -1
    assert best_side(-0.4, 0.4, 2.0) == 1
    assert best_side(-0.4, 0.4, 0.0) == 1
    assert best_side(-0.5, 0.4, 2.0) == -1
    assert best_side(nan, nan, 1.0) == 0
    assert best_side(0.0, 0.0, 1.0) == 0


def test_places_all_on_one_side_choose_that_side():
    assert best_side(0.1, 0.4, -2.0) == 1
    assert best_side(-0.4, -0.1, 2.0) == -1


def test_along_a_side_arm_there_is_one_way_only():
    boom = Boom(name="b", x=6.0, y=1.0, height=4.0)
    arm = Unit(
        position="b",
        number="1",
        at=3.0,
        kind="k",
        mount="arm",
        arm=0.5,
        arm_to=270.0,
        point=(0.0, 4.0, 1.6),
        connector=-0.2,
    )
    assert typed_place(arm) == 0.2
    plan = hang_plan(solve_rig(a_scene([arm], booms=[boom], kinds=[KIND])))
    connector = plan.positions[1].units[0].connector
    assert (
        connector.side == "SL"
    )  # from the unit under the SR end of the arm, back towards the boom
    assert connector.furthest <= 0.5
