"""Open pools, and light too steep or too flat for faces."""

from __future__ import annotations

from math import radians, tan

import pytest

from aimcalc.scene.model import Stage
from tests.findings.clean import (
    DROP,
    Scene,
    a_face,
    a_unit,
    changed,
    says,
    told,
    with_special,
    with_target,
    with_units,
)

PIVOT = 5.5 - DROP


def upstage(down: float) -> Scene:
    """back/4 aimed straight US at a thing 8 m away, so many degrees down."""
    return with_special((-4.0, 14.0, PIVOT - 8 * tan(radians(down))))


@pytest.mark.parametrize(
    ("down", "warns"), [(13.1, False), (12.9, True), (-12.0, True), (-13.1, False)]
)
def test_a_pool_is_open_where_the_fields_edge_is_level_or_above(down: float, warns: bool) -> None:
    # Field 26 degrees: edges 13 either side. Below -13 nothing of it goes down at all.
    assert told(upstage(down)) == ([("warn", "open-pool", "back/4")] if warns else [])


def test_how_far_above_level_is_told() -> None:
    assert "the top of the field is 5° above level" in says(upstage(8.0), "open-pool")


STAGE = Stage(
    outline=((-7, -3), (7, -3), (7, 8), (-7, 8)), acting=((-7, -1), (7, -1), (7, 8), (-7, 8))
)


def front(out: float) -> Scene:
    """front/7, 6 m SR, aimed at a face straight US of it and so far out from the pipe."""
    scene = changed(stage=STAGE, targets=(*changed().targets, a_face("S", -6.0, -4.0 + out)))
    return with_units(a_unit("front", 7, -6.0, "S"), scene=scene)


@pytest.mark.parametrize(
    ("out", "notes"),  # pivot 3.49 m above the face: 3.49 / tan 60 = 2.015, 3.49 / tan 25 = 7.484
    [(1.99, "steep"), (2.04, None), (7.46, None), (7.51, "flat")],
)
def test_front_light_over_60_or_under_25_degrees_is_noted(out: float, notes: str | None) -> None:
    assert told(front(out)) == ([("note", notes, "front/7")] if notes else [])


def test_only_faces_are_too_steep_or_too_flat() -> None:
    for out in (1.99, 7.51):
        assert told(with_target("S", front(out), plane="deck")) == []


def test_back_light_may_be_steep() -> None:
    scene = changed(targets=(*changed().targets, a_face("S", -4.0, 4.5)))
    scene = with_units(a_unit("back", 4, -4.0, "S"), scene=scene)  # atan(3.49 / 1.5) = 66.7
    assert told(scene) == []


def test_side_light_may_be_flat() -> None:
    # 14 m across and 2 m US: heading 82 degrees from US, 14 degrees down.
    scene = changed(targets=(*changed().targets, a_face("S", 5.0, 7.9)))
    unit = a_unit("back", 4, -6.0, "S")
    side = with_units(unit, scene=scene)
    assert told(side) == [("note", "wide-pan", "back/4")]


def test_flat_units_of_a_position_share_one_note_with_their_span() -> None:
    scene = changed(targets=(*changed().targets, a_face("S", -6.0, 4.0), a_face("T", 6.0, 6.0)))
    units = (a_unit("front", 0, 6.0, "T"), a_unit("front", 7, -6.0, "S"))
    scene = with_units(*units, scene=scene)  # atan(3.49 / 8) = 23.6, atan(3.49 / 10) = 19.2
    assert told(scene) == [("note", "flat", "front")]
    assert says(scene, "flat").startswith("Units 0 and 7 hit faces only 19° to 24° down")
