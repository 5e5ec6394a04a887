"""Drapes nearer than a unit's label allows."""

from __future__ import annotations

import pytest

from tests.findings.clean import a_kind, a_unit, with_kind, with_units
from tests.findings.judged import found, says, told, upright, with_solids

# back/4 hangs 4 m SR and lights a point 2 m DS of its lens, level with it: the lens is at y = 5.7.
AIM = (-4.0, 3.0, 5.14)


def lit(drape_y: float | None, label: float | None = 1.0):
    scene = with_kind(a_kind("hot", label_distance=label, yoke_range=(-150.0, 150.0)))
    scene = with_units(a_unit("back", 4, -4.0, None, point=AIM, kind="hot"), scene=scene)
    if drape_y is None:
        return scene
    return with_solids(upright("drape", drape_y, 4.0, 6.0, -5.0, -3.0), scene=scene)


def stops(scene):
    return [f for f in told(scene) if f[1] == "label-distance"]


@pytest.mark.parametrize(("far", "stop"), [(0.9, True), (1.1, False)])
def test_a_drape_in_the_light_nearer_than_the_label_says_is_a_stop(far: float, stop: bool):
    assert stops(lit(5.7 - far)) == ([("stop", "label-distance", "back/4")] if stop else [])


def test_the_sentence_gives_both_distances():
    assert says(lit(5.7 - 0.8), "label-distance") == (
        "Unit 4 has drape 0.80 m in front of the lens, in the light; the label asks for 1.00 m."
    )


def test_a_kind_that_declares_no_distance_is_left_alone():
    assert stops(lit(5.7 - 0.3, label=None)) == []


def test_what_is_beside_the_light_does_not_count():
    scene = with_solids(upright("drape", 5.2, 6.0, 7.0, -5.0, -3.0), scene=lit(None))
    assert stops(scene) == []


def test_it_permits_nothing():
    (finding,) = [f for f in found(lit(5.0)) if f.rule == "label-distance"]
    assert finding.do.endswith("The label and the fire rules judge heat; this sheet does not.")
