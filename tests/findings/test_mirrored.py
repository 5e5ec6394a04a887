"""Pipes whose places were counted from the wrong end."""

from __future__ import annotations

import numpy as np

from aimcalc.findings.numbering import count_crossings
from tests.findings.clean import (
    Scene,
    a_unit,
    changed,
    crossing,
    says,
    scaled,
    told,
    with_pipe,
)


def test_a_pipe_whose_places_were_counted_from_the_wrong_end_warns() -> None:
    scene = scaled(-1.0, "front")
    # Light for A now comes 7 m across (21 degrees down: flat) and 1 m across: no mirror pair either.
    assert told(scene) == [
        ("warn", "mirrored", "front"),
        ("note", "flat", "front"),
        ("note", "pair-uneven", None),
    ]
    assert says(scene, "mirrored") == (
        "Mirrored? 6 pairs of units cross their aims; with SL and SR of their places swapped, 0 would."
    )


def is_mirrored(scene: Scene) -> bool:
    return ("warn", "mirrored", "front") in told(scene)


def test_a_pipe_that_is_cross_focused_on_purpose_is_not_taken_for_mirrored() -> None:
    # The SL half lights SR and the SR half lights SL, each half in order: between the halves every pair
    # crosses, within them none.
    assert not is_mirrored(crossing([5, 4, 3, -3, -4, -5], [-1, -2, -3, 3, 2, 1]))
    assert not is_mirrored(crossing([4, 3, -3, -4], [-1, -2, 2, 1]))
    # The same with both halves out of order as well is a mirrored pipe.
    assert is_mirrored(crossing([5, 4, 3, -3, -4, -5], [-3, -2, -1, 1, 2, 3]))


def test_a_straight_wash_mirrored_warns_and_as_drawn_does_not() -> None:
    places = [5.0, 3.0, 1.0, -1.0, -3.0, -5.0]
    assert not is_mirrored(crossing(places, places))
    assert is_mirrored(crossing(places, [-x for x in places]))


def test_fewer_than_four_units_are_too_few_to_tell() -> None:
    assert not is_mirrored(crossing([4.0, 2.0, -3.0], [-4.0, -2.0, 3.0]))


def test_specials_cross_as_they_please_unless_nothing_has_a_system() -> None:
    fan = crossing([5.0, 3.0, -3.0, -5.0], [-5.0, -3.0, 3.0, 5.0], system=None)
    assert is_mirrored(fan)
    wash = a_unit("back", 1, 0.0, None, point=(0.0, 2.0, 1.65), system="back")
    assert not is_mirrored(changed(fan, units=(*fan.units, wash)))


def test_a_pipe_counted_from_one_end_is_mirrored_about_its_middle() -> None:
    # zero = "start", the SR end: places 1 to 11 m. Counted from the SL end they read 11 to 1.
    pipe = {"zero": "start"}
    right = crossing([11.0, 9.0, 3.0, 1.0], [5.0, 3.0, -3.0, -5.0])
    wrong = crossing([1.0, 3.0, 9.0, 11.0], [5.0, 3.0, -3.0, -5.0])
    assert not is_mirrored(with_pipe("front", right, **pipe))
    assert is_mirrored(with_pipe("front", wrong, **pipe))


def test_crossings_are_counted_as_pair_by_pair() -> None:
    rng = np.random.default_rng(7)
    for _ in range(20):
        at = rng.permutation(30).astype(float).tolist()
        to = rng.integers(0, 12, 30).astype(float).tolist()
        products = [(at[i] - at[j]) * (to[i] - to[j]) for i in range(30) for j in range(i)]
        assert count_crossings(at, to) == (
            sum(p < 0 for p in products),
            sum(p > 0 for p in products),
        )
