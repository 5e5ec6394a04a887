"""The side of the tail: the hang sheet's own, or where nothing is worked out the side the back swings to."""

from __future__ import annotations

import pytest

from aimcalc.hang.plan import hang_plan
from aimcalc.scene.model import Boom, Pipe, Stand, Unit
from aimcalc.solid.rig import solve_rig
from aimcalc.text.cables import tail_words
from aimcalc.text.hang_rows import hang_rows
from tests.rigs import a_kind, a_scene
from tests.shows import rig_of


def unit(**values):
    return Unit(**{"position": "p", "number": "1", "kind": "k", "at": 0.0, **values})


def tails(*units, **scene):
    rig = solve_rig(a_scene(units, **scene))
    return tail_words(rig, hang_plan(rig), "m")


@pytest.mark.parametrize("scene", ["studio", "playhouse", "raked"])
@pytest.mark.parametrize("length", ["m", "ft"])
def test_aim_sheet_and_hang_sheet_of_one_rig_never_name_different_sides(scene, length):
    rig = rig_of(scene)
    hung = [row for rows in hang_rows(rig, hang_plan(rig), [], length).values() for row in rows]
    told = tail_words(rig, hang_plan(rig), length)
    compared = 0
    for row in hung:
        if not row.connector[0] or isinstance(rig.positions[row.k], Stand):
            continue
        side = row.connector[0].replace(" SIDE", "").replace("AT CLAMP", "at clamp")
        assert told[row.k] == f"tail {side}", rig.units[row.k]
        compared += 1
    assert compared > len(rig.units) / 2


@pytest.mark.parametrize(
    ("x", "connector", "tail"),
    [
        (2.0, None, "tail SR"),  # nose to SL, so the back swings to SR
        (-2.0, None, "tail SL"),
        (0.0, None, "tail either"),
        (2.0, 0.25, "tail SL"),  # where it is tied wins
        (2.0, -0.25, "tail SR"),
    ],
)
def test_a_tail_of_unknown_length_goes_where_it_is_tied_or_where_the_back_swings(
    x, connector, tail
):
    kinds = [a_kind(tail=None, tail_exit=None)]
    assert tails(unit(point=(x, 5.0, 1.0), connector=connector), kinds=kinds) == [tail]


def test_the_back_of_a_unit_on_a_pipe_up_and_down_the_stage_swings_up_or_down_it():
    pipe = Pipe(name="p", start=(5, -4, 6), end=(5, 4, 6), zero="middle")
    kinds = [a_kind(tail=None, tail_exit=None)]
    assert tails(unit(at=-1.0, point=(0.0, 1.0, 1.0)), pipes=[pipe], kinds=kinds) == ["tail DS"]


def test_a_tail_that_reaches_from_nowhere_names_no_side():
    kinds = [a_kind(tail=0.02, tail_exit=(0.25, 0.1))]  # 2 cm of tail, 25 cm behind the pivot
    assert tails(unit(point=(2.0, 5.0, 1.0)), kinds=kinds) == [""]


def test_booms_tell_the_hang_sheet_s_way_and_stands_nothing():
    boom, stand = Boom(name="b", x=5, y=1, height=4), Stand(name="s", x=3, y=1)
    kinds = [a_kind(tail=1.2, tail_exit=(0.25, 0.1), drop_over=0.3)]
    on_boom = unit(position="b", at=2.0, mount="direct", arm_to=180.0, point=(0.0, 1.0, 1.5))
    on_stand = unit(position="s", at=None, mount="stand", point=(0.0, 4.0, 1.5))
    told = tails(on_boom, on_stand, booms=[boom], stands=[stand], kinds=kinds)
    assert told[0] in ("tail UP", "tail DOWN")
    assert told[1] == ""
