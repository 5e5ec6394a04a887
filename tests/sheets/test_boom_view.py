"""A boom from the side: clamps at their heights to scale, numbers, and the way each unit faces."""

import re
from pathlib import Path

import numpy as np
import pytest

from aimcalc.paper.drawing import Drawing
from aimcalc.scene.model import Boom, Target, Unit
from aimcalc.sheets.plans.boom_view import booms_of, draw_booms
from aimcalc.solid.rig import solve_rig
from tests.rigs import a_kind, a_scene
from tests.shows import rig_of

SCENES = Path(__file__).parents[2] / "scenes"
BOX = (10.0, 20.0, 90.0, 100.0)


def side_of(rig, name, unit="ft", box=BOX):
    page = Drawing(200.0, 200.0)
    draw_booms(page, rig, rig.answers, {name: "B"}, {name: box}, unit)
    return page


def dots(page):
    round_ones = [s.points for s in page.shapes if s.fill == "black"]
    return np.array([s[:-1].mean(axis=0) for s in round_ones])


def test_clamps_are_as_far_apart_as_the_hang_list_says():
    """15'-6", 14'-0", 12'-6", 11'-0" and 9'-6" up: 18 in apart, at the scale that the page names."""
    rig = rig_of("playhouse")
    page = side_of(rig, "boom SL")
    said = [word.text for word in page.words]
    (head,) = [text for text in said if "high, seen from" in text]
    scale = int(re.search(r"1:(\d+)", head)[1])
    heights = np.sort(dots(page)[:, 1])
    assert np.diff(heights) == pytest.approx(np.full(4, 18 * 25.4 / scale))
    ground = min(line.points[:, 1].min() for line in page.lines)
    assert heights[0] - ground == pytest.approx(9.5 * 12 * 25.4 / scale)
    for number, high in enumerate(("15'-6\"", "14'-0\"", "12'-6\"", "11'-0\"", "9'-6\""), 1):
        assert f"unit {number}, {high}" in said
    assert head.startswith("16'-0\" high, seen from DS")


def test_the_way_each_unit_faces_is_told_and_shown_from_its_side():
    """From 3 m SR at 2.65 m: one across to a face 1.65 m up on the centre line, down atan(1/3) = 18."""
    boom = Boom(name="b", x=-3.0, y=2.0, height=4.0)
    kind = a_kind(drop_under=0.0, drop_over=0.0)
    unit = Unit(
        position="b", number="1", kind="k", at=2.65, target="A", mount="arm", arm=0.0, arm_to=0.0
    )
    across = solve_rig(
        a_scene([unit], [Target(name="A", x=0.0, y=2.0)], booms=[boom], pipes=[], kinds=[kind])
    )
    along = solve_rig(
        a_scene([unit], [Target(name="A", x=-3.0, y=5.0)], booms=[boom], pipes=[], kinds=[kind])
    )
    for rig, way, seen, sides in (
        (across, "SL", "DS", {"SR", "SL"}),
        (along, "US", "SL", {"DS", "US"}),
    ):
        said = {word.text for word in side_of(rig, "b", "m").words}
        assert f"DOWN 18°, {way}" in said
        assert any(f"seen from {seen}" in text for text in said)
        assert sides <= said


def test_only_booms_are_shown_from_the_side():
    rig = rig_of("playhouse")
    assert booms_of(rig, list(range(len(rig.units)))) == ["boom SL", "boom SR"]
    assert booms_of(rig, rig.rows["floor SL"]) == []
