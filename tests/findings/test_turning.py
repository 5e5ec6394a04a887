"""The order in which a row has to be set."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from aimcalc.scene.model import Scene
from tests.findings.clean import a_kind, a_unit, with_kind, with_units
from tests.findings.judged import INCH, found, says, told, upright, with_solids

SPOT = {"length": 26 * INCH, "width": 8 * INCH, "nose": 13 * INCH, "drop_under": 14 * INCH}


def pair(
    first: float, second: float, *, hat: float | None = None, spacing: float = 18 * INCH
) -> Scene:
    """back/4 and back/5 on 18 in centres, panned towards SR and both 35 down; 5 hangs on the SR side of 4."""

    def aimed(number: int, at: float, pan: float):
        turn = radians(pan)
        point = (
            at - 3 * sin(turn),
            6 - 3 * cos(turn),
            5.5 - SPOT["drop_under"] - 3 * sin(radians(35)) / cos(radians(35)),
        )
        return a_unit("back", number, at, None, point=point, kind="spot")

    scene = with_kind(a_kind("spot", **SPOT, top_hat=hat))
    return with_units(aimed(4, -3.0, first), aimed(5, -3.0 - spacing, second), scene=scene)


def rules(scene: Scene) -> list[str]:
    return [f.rule for f in found(scene)]


@pytest.mark.parametrize("pan", [30.0, 60.0, 70.0])
def test_bare_bodies_on_18_in_centres_turn_past_each_other(pan: float):
    # Common practice, no source: bare, panned 70 towards a square neighbour, it clears by about an inch.
    assert "set-in-order" not in rules(pair(pan, 0.0))
    assert "no-way-past" not in rules(pair(pan, 0.0))


def test_a_unit_that_ends_where_a_set_neighbour_lets_it_and_a_square_one_does_not_has_to_wait():
    # With 6 in top hats unit 4 touches a square neighbour from about 40 to 80 (common practice,
    # no source, worked):
    # it can be turned to 70 only once 5 has been turned 40 the same way.
    scene = pair(70.0, 40.0, hat=6 * INCH)
    # A warning on the row that waits: a note on the position stood on no sheet, and nobody read it.
    assert ("warn", "set-in-order", "back/4") in told(scene)
    assert says(scene, "set-in-order") == (
        "Set 5 before 4: turned in another order, their bodies would touch."
    )
    (finding,) = [f for f in found(scene) if f.rule == "set-in-order"]
    order = finding.do.removeprefix("Set the row in this order: ").rstrip(".").split(", ")
    assert order.index("5") < order.index("4")
    assert sorted(order) == ["1", "2", "3", "4", "5"]


def test_units_that_touch_at_their_aims_have_no_order_to_tell():
    scene = pair(70.0, 0.0, hat=6 * INCH)
    assert "bodies-touch" in rules(scene)
    assert "no-way-past" not in rules(scene)


def test_a_post_between_square_and_aim_is_a_note_on_the_row():
    # Panned 80 towards SR, the nose goes round at 13 to 14 in; a post stands in its way at 45.
    out = 12 * INCH
    x, y = -3.0 - out * sin(radians(45)), 6 - out * cos(radians(45))
    post = upright("post", y, 4.0, 5.4, x - 0.01, x + 0.01)
    scene = with_solids(post, scene=pair(80.0, 0.0, spacing=1.5))
    (finding,) = [f for f in found(scene) if f.rule == "touches-on-the-way"]
    assert (finding.severity, finding.unit) == ("note", "back/4")
    assert finding.says.startswith("Unit 4 touches post on the way from square to the aim")
    assert "touches-on-the-way" not in rules(pair(80.0, 0.0, spacing=1.5))


def low_post(side: float):
    """A post in front of unit 4 whose top is under its level body and in the way of its tip at square.

    Pivot at 5.5 m less 14 in; at 35 down and 12 in out the axis is 0.250 m out and 0.175 m lower, 4.970 m
    up, with 4 in of body below it: 4.85 or so. The level body's underside is at 5.043 m, the post's top at
    4.93 m. `side` moves it along the pipe.
    """
    y = 6 - 12 * INCH * cos(radians(35))
    return upright("post", y, 4.4, 4.93, -3.0 + side - 0.01, -3.0 + side + 0.01)


def test_a_unit_that_must_be_turned_before_it_is_tipped_says_so_on_its_row():
    # Panned 70 first, the post is 0.25 sin 70 = 0.235 m off the axis: 4 in of body pass it.
    scene = with_solids(low_post(0.0), scene=pair(70.0, 0.0, spacing=1.5))
    assert ("warn", "turn-first", "back/4") in told(scene)
    assert says(scene, "turn-first") == (
        "Turn unit 4 before it is tipped: tipped first, it touches post."
    )
    aside = with_solids(low_post(0.6), scene=pair(70.0, 0.0, spacing=1.5))
    assert "turn-first" not in rules(aside)
    tipped = with_solids(low_post(0.0), scene=pair(0.0, 0.0, spacing=1.5))
    assert "turn-first" not in rules(tipped)  # it touches at its aim as well


def test_a_unit_that_needs_both_first_is_told_so():
    # A lintel where the level nose comes round at 45, from 2 cm over its axis upwards: the level body (4 in
    # to either side) touches it. Tipped 35 the axis is 0.175 m lower there, and the body passes beneath.
    out = 12 * INCH
    x, y = -3.0 - out * sin(radians(45)), 6 - out * cos(radians(45))
    pivot = 5.5 - SPOT["drop_under"]
    high = upright("lintel", y, pivot + 0.02, 5.4, x - 0.01, x + 0.01)
    alone = with_solids(high, scene=pair(70.0, 0.0, spacing=1.5))
    assert "turn-first" not in rules(alone)  # tipped first it passes underneath
    scene = with_solids(low_post(0.0), high, scene=pair(70.0, 0.0, spacing=1.5))
    assert says(scene, "turn-first") == (
        "Unit 4 clears post only when it is turned first, and lintel only when it is tipped first."
    )
