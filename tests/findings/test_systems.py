"""Systems: every area covered, pairs alike."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from aimcalc.scene.model import Stage
from tests.findings.clean import (
    CLEAN,
    OUTLINE,
    Scene,
    a_unit,
    changed,
    found,
    says,
    told,
    with_unit,
    with_units,
    without,
)


def test_an_area_left_out_by_a_system_warns() -> None:
    scene = without("back/2")
    assert told(scene) == [("warn", "area-not-covered", None)]
    assert says(scene, "area-not-covered") == "System back lights 2 of 3 areas: no unit at B."


def test_a_unit_added_as_advised_ends_the_warning() -> None:
    added = with_units(a_unit("back", 2, 0.0, "B", system="back"), scene=without("back/2"))
    assert told(added) == []


def test_a_system_over_less_than_half_of_the_areas_is_no_wash() -> None:
    assert told(without("back/1", "back/2")) == []
    assert told(with_unit("boom/1", system="specials")) == []


def test_a_target_off_the_acting_area_need_not_be_covered() -> None:
    acting = ((-7.0, -1.0), (1.0, -1.0), (1.0, 8.0), (-7.0, 8.0))
    scene = changed(without("back/1"), stage=Stage(outline=OUTLINE, acting=acting))
    assert told(scene) == []  # A, 2 m SL, is outside
    assert told(without("back/1")) == [("warn", "area-not-covered", None)]


def test_a_target_that_only_specials_light_is_no_area() -> None:
    scene = without(
        "front/1", "front/4", "back/1", scene=with_unit("boom/1", target="A", system="special")
    )
    assert told(scene) == []


def test_each_system_has_its_own_finding() -> None:
    assert told(without("back/2", "front/2")) == [("warn", "area-not-covered", None)] * 2


def pair(first: float, second: float = -3.0, *more: float) -> Scene:
    """Front units at these places, all aimed at B on the centre line, 6 m US of their pipe."""
    places = (first, second, *more)
    units = [a_unit("front", n, at, "B", system=f"system {n}") for n, at in enumerate(places)]
    return changed(units=tuple(units), targets=(CLEAN.targets[1],), booms=())


@pytest.mark.parametrize(("first", "notes"), [(3.0, False), (1.25, False), (1.2, True)])
def test_a_front_pair_over_15_degrees_from_a_mirror_picture_is_noted(
    first: float, notes: bool
) -> None:
    # 3 m: 26.57 degrees. 1.25 m: 11.77, off by 14.8. 1.2 m: 11.31, off by 15.26.
    assert told(pair(first)) == ([("note", "pair-uneven", None)] if notes else [])


def test_the_two_of_a_pair_are_described() -> None:
    # Down: atan(3.49 / hypot(1, 6)) = 29.8, atan(3.49 / hypot(3, 6)) = 27.5.
    assert says(pair(1.0), "pair-uneven") == (
        "The front pair at B is lopsided by over 15°: at B front/0 comes 9° off straight on from SL, "
        "30° down and front/1 comes 27° off straight on from SR, 27° down."
    )


def test_a_pair_from_one_side_is_no_mirror_picture() -> None:
    assert told(pair(-1.0)) == [("note", "pair-uneven", None)]


def test_three_from_the_front_are_no_pair() -> None:
    assert told(pair(1.0, -1.0, -3.0)) == []


def test_specials_take_no_part_in_pairs() -> None:
    special = a_unit("front", 9, -4.0, "B")
    assert told(with_units(special, scene=pair(3.0))) == []
    alone = with_unit("front/0", pair(1.0), system=None)
    assert told(alone) == []


def test_an_area_that_does_without_a_system_by_its_own_word_is_not_missed() -> None:
    # The finding used to advise "say that the area does without", for which there was no key.
    scene = without("back/2")
    (found_,) = [f for f in found(scene) if f.rule == "area-not-covered"]
    key, value = found_.do.split("give the target ")[1].rstrip(".").split(" = ")
    spared = [
        replace(t, **{key: (value.strip('"'),)}) if t.name == "B" else t for t in scene.targets
    ]
    assert told(changed(scene, targets=tuple(spared))) == []
    other = [replace(t, without=("cool",)) if t.name == "B" else t for t in scene.targets]
    assert told(changed(scene, targets=tuple(other))) == [("warn", "area-not-covered", None)]
