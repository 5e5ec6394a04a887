"""Unit numbers and channels."""

from __future__ import annotations

import pytest

from tests.findings.clean import CLEAN, Scene, a_unit, says, told, with_unit, with_units


def renumbered(*numbers: str) -> Scene:
    """The six units of the front pipe with other numbers, from SL to SR."""
    scene = CLEAN
    for k in range(6):  # by way of words, so that no number is there twice on the way
        scene = with_unit(f"front/{k + 1}", scene, number=f"word {k}")
    for k, number in enumerate(numbers):
        scene = with_unit(f"front/word {k}", scene, number=number)
    return scene


def test_a_number_used_twice_on_a_position_stops() -> None:
    scene = renumbered("1", "2", "2", "4", "5", "6")
    assert told(scene) == [("stop", "number-twice", "front")]
    assert says(scene, "number-twice") == "2 units here have the number 2."


def test_the_same_number_on_two_positions_is_nothing() -> None:
    assert {u.position for u in CLEAN.units if u.number == "1"} == {"front", "back", "boom"}
    assert told(CLEAN) == []


@pytest.mark.parametrize(
    "numbers",
    [
        ("6", "5", "4", "3", "2", "1"),
        ("1", "2", "3", "8", "9", "10"),
        ("1", "2", "2a", "3", "4", "5"),
        ("101", "102", "103", "201", "202", "203"),
        ("A", "1", "B", "2", "C", "3"),
    ],
)
def test_numbers_that_run_one_way_are_in_order(numbers: tuple[str, ...]) -> None:
    assert told(renumbered(*numbers)) == []


def test_numbers_out_of_order_warn_once_a_position() -> None:
    scene = renumbered("1", "3", "2", "4", "6", "5")
    assert told(scene) == [("warn", "numbers-out-of-order", "front")]
    assert "2 comes after 3 and 5 comes after 6" in says(scene, "numbers-out-of-order")


@pytest.mark.parametrize(("top", "foot"), [("1", "3"), ("3", "1")])
def test_a_boom_may_be_numbered_from_either_end_also_where_arms_share_a_height(
    top: str, foot: str
) -> None:
    scene = with_unit("boom/1", number=top)
    low = a_unit("boom", foot, 4.5, "C", mount="arm", arm=0.4, arm_to=270.0)
    beside = a_unit("boom", 2, 4.5, "B", mount="arm", arm=0.4, arm_to=0.0)
    assert told(with_units(low, beside, scene=scene)) == []


def on_one_channel(*names: str, **more: object) -> Scene:
    scene = CLEAN
    for name in names:
        scene = with_unit(name, scene, channel="7", **more)
    return scene


def test_a_channel_over_two_systems_warns() -> None:
    scene = on_one_channel("front/1", "front/4")
    assert told(scene) == [("warn", "channel-shared", "front/1")]
    assert says(scene, "channel-shared") == (
        "Channel 7 holds units with different jobs: front/1 (cool, A) and front/4 (warm, A)."
    )


def test_a_channel_over_two_areas_warns_in_a_system_of_single_channels() -> None:
    assert told(on_one_channel("back/1", "back/3")) == [("warn", "channel-shared", "back/1")]


def test_units_on_one_circuit_share_their_channel_on_purpose() -> None:
    assert told(on_one_channel("back/1", "back/3", circuit="B1")) == []


def test_a_system_that_is_all_on_shared_channels_is_meant_so() -> None:
    assert told(on_one_channel("back/1", "back/2", "back/3")) == []


def test_units_with_the_same_job_may_share_a_channel() -> None:
    double = a_unit("back", 4, -4.0, "C", system="back", channel="back 3")
    assert told(with_units(double)) == []


def test_units_without_a_channel_share_nothing() -> None:
    scene = with_unit("front/1", with_unit("front/4", channel=None), channel=None)
    assert told(scene) == []
