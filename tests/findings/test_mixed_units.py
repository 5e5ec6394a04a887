"""Figures in another unit of length."""

from __future__ import annotations

import pytest

from tests.findings.clean import (
    Scene,
    a_face,
    a_kind,
    changed,
    crossing,
    found,
    scaled,
    told,
    with_kind,
    with_pipe,
    with_settings,
    with_unit,
)

FOOT = 0.3048


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
        "Its height of 0.46 m is far from the other pipes' 5.50 m: looks like feet read as inches."
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
