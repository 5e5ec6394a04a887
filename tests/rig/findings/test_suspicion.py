"""Pipes mirrored, and figures in another unit."""

from __future__ import annotations

import numpy as np
import pytest

from aimcalc.rig.findings.suspicion import count_crossings
from tests.rig.findings.clean import (
    CLEAN,
    Scene,
    a_face,
    a_kind,
    a_unit,
    changed,
    found,
    says,
    told,
    with_kind,
    with_pipe,
    with_settings,
    with_unit,
)

FOOT = 0.3048


def scaled(by: float, *names: str) -> Scene:
    """The clean rig with the places of some units multiplied."""
    scene = CLEAN
    for unit in CLEAN.units:
        name = f"{unit.position}/{unit.number}"
        if unit.position in names or name in names:
            scene = with_unit(name, scene, at=(unit.at or 0.0) * by)
    return scene


def test_a_pipe_whose_places_were_counted_from_the_wrong_end_warns() -> None:
    scene = scaled(-1.0, "front")
    # Light for A now comes 7 m across (21 degrees down: flat) and 1 m across: no mirror pair either.
    assert told(scene) == [
        ("warn", "mirrored", "front"),
        ("note", "flat", "front"),
        ("note", "pair-uneven", None),
    ]
    assert says(scene, "mirrored") == (
        "Mirrored? With SL and SR of its places swapped, 0 pairs of units would cross their aims instead "
        "of 6."
    )


def crossing(places: list[float], targets: list[float], system: str | None = "cross") -> Scene:
    """Only a front pipe, its units aimed at points 6 m US."""
    units = [
        a_unit("front", n, at, None, point=(x, 2.0, 1.65), system=system)
        for n, (at, x) in enumerate(zip(places, targets, strict=True), 1)
    ]
    return changed(units=tuple(units), targets=(), booms=())


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


def another_unit(scene: Scene) -> list[str]:
    return [f.says for f in found(scene) if f.rule == "another-unit"]


def test_places_in_feet_read_as_metres_warn() -> None:
    scene = scaled(1 / FOOT, "front")
    assert [t for t in told(scene) if t[0] != "note"][:2] == [
        ("stop", "off-the-end", "front"),  # past the SL end
        ("stop", "off-the-end", "front"),  # and the SR end
    ]
    assert another_unit(scene) == [
        "Its places spread over 32.81 m, the pipe is 12.00 m long: looks like feet read as metres."
    ]


@pytest.mark.parametrize(
    ("ratio", "unit", "guess"),
    [
        (100.0, "m", "centimetres read as metres"),
        (1000.0, "m", "millimetres read as metres"),
        (1 / 0.0254, "m", "inches read as metres"),
        (12.0, "ft", "inches read as feet"),
        (25.4, "in", "millimetres read as inches"),
    ],
)
def test_other_units_are_told_by_their_ratio(ratio: float, unit: str, guess: str) -> None:
    scene = with_settings(scaled(ratio, "front"), unit=unit)
    assert [guess in sentence for sentence in another_unit(scene)] == [True]


def test_half_of_the_units_off_the_pipe_is_no_matter_of_units() -> None:
    scene = scaled(1 / FOOT, "front/1", "front/2", "front/6")
    assert another_unit(scene) == []


def test_places_in_metres_read_as_feet_warn() -> None:
    places = [x * 0.5 for x in (3, 2, 1, 0, -1, -2, -3)]
    rig = crossing([x * FOOT for x in places], places)
    scene = with_settings(rig, unit="ft")
    assert another_unit(scene) == [  # 0.5 m typed as 0.5 ft = 6 in
        "Its units would hang 0'-6\" apart: looks like metres read as feet."
    ]
    assert another_unit(crossing(places, places)) == []


@pytest.mark.parametrize(("trim", "warns"), [(5.5 / FOOT, True), (13.75, False), (6.5, False)])
def test_a_trim_in_feet_read_as_metres_warns(trim: float, warns: bool) -> None:
    scene = with_pipe("front", start=(-6.0, -4.0, trim), end=(6.0, -4.0, trim))
    assert bool(another_unit(scene)) is warns


def test_a_low_pipe_is_only_suspect_at_the_ratio_of_two_units() -> None:
    low = with_pipe("front", start=(-6.0, -4.0, 0.7), end=(6.0, -4.0, 0.7))
    assert another_unit(low) == []
    inches = with_pipe("front", start=(-6.0, -4.0, 5.5 / 12), end=(6.0, -4.0, 5.5 / 12))
    assert another_unit(inches) == [
        "Its height of 0.458 m is far from the other pipes' 5.50 m: looks like feet read as inches."
    ]


@pytest.mark.parametrize(("scale", "warns"), [(1.0, False), (1 / FOOT, True), (100.0, True)])
def test_targets_in_another_unit_warn(scale: float, warns: bool) -> None:
    spots = [(3.0, 6.0), (-3.0, 6.0), (6.0, 7.0), (-6.0, 7.0)]
    targets = [a_face(f"T{n}", x * scale, y * scale) for n, (x, y) in enumerate(spots)]
    assert bool(another_unit(changed(targets=tuple(targets), units=()))) is warns


@pytest.mark.parametrize(
    ("sizes", "warns"),
    [
        ({"drop_under": 14.0}, True),
        ({"drop_under": 2.9}, False),
        ({"width": 30.0}, True),
        ({"width": 0.04}, True),
        ({"width": 0.06}, False),
        ({"nose": 0.02}, False),
    ],
)
def test_sizes_that_no_unit_has_warn(sizes: dict[str, float], warns: bool) -> None:
    scene = with_unit("boom/1", with_kind(a_kind("odd", **sizes)), kind="odd")
    assert bool(another_unit(scene)) is warns
