"""A tail that fails only after aiming.

36 in long, 6 in of it for tie and bend, so 30 usable; its exit 10 in behind and 4 in under
the pivot, the pivot 14 in under the pipe, lens down 50 degrees. A worked case (common practice, no
source); every expected figure below is worked again from right triangles, in inches.
"""

from math import cos, hypot, radians, sin, sqrt

import numpy as np
import pytest

from aimcalc.findings import hang_findings
from aimcalc.hang.plan import hang_plan
from aimcalc.hang.records import HangOptions
from aimcalc.hang.tails import Body, Swing, stretch, tie_places, worst_stretch
from aimcalc.scene.loading import load_scene
from aimcalc.solid.rig import solve_rig

INCH = 0.0254
DOWN = radians(50)
# Level distance from pivot to exit, behind, and how far the exit is under the pipe.
BEHIND = 10 * cos(DOWN) + 4 * sin(DOWN)
UNDER = 14 - (10 * sin(DOWN) - 4 * cos(DOWN))


def by_triangles(connector, pan, away):
    """Inches from exit to connector: the back moves along the pipe by BEHIND sin(pan)."""
    along = connector + (BEHIND if away else -BEHIND) * sin(radians(pan))
    return sqrt(along**2 + (BEHIND * cos(radians(pan))) ** 2 + UNDER**2)


def column(x, y, z):
    return np.array([[x], [y], [z]], dtype=float) * INCH


def numbers(*values):
    return [np.array([value]) for value in values]


# A pipe across the stage through the origin, the unit under it, square upstage, swinging its nose SL.
BACK, BELOW = numbers(10 * INCH, 4 * INCH)
UNIT = Body(column(0, 0, -14), column(0, 0, -1) / INCH, column(0, 1, 0) / INCH, BACK, BELOW)
USABLE = np.array([30 * INCH])


def sl(degrees):
    """Turn at the clamp for a swing SL: a x r with a down and r upstage is +x, stage left."""
    return np.array([radians(degrees)])


YOKE = np.array([DOWN])


@pytest.mark.parametrize(
    ("connector", "pan", "away", "printed"),
    [
        (24, 0, True, 27),
        (24, 60, True, 34),
        (24, 60, False, 19),
        (9, 0, True, 16),
        (9, 60, True, 20),
    ],
)
def test_tail_stretch_is_that_of_the_triangles(connector, pan, away, printed):
    # Nose to SL, so the back swings to SR: a connector on the SL side is the one it swings away from.
    tie = column(connector if away else -connector, 0, 0)
    inches = stretch(UNIT, sl(pan), YOKE, tie)[0] / INCH
    assert inches == pytest.approx(by_triangles(connector, pan, away), abs=1e-9)
    assert inches == pytest.approx(printed, abs=0.5)  # as printed in whole inches


def test_the_far_connector_fails_only_after_aiming():
    square = stretch(UNIT, sl(0), YOKE, column(24, 0, 0))
    aimed = stretch(UNIT, sl(60), YOKE, column(24, 0, 0))
    assert square < USABLE < aimed


def test_the_worst_on_the_way_is_at_the_end_that_swings_away_and_at_square_on_the_other():
    way = Swing(sl(0), sl(60), YOKE, YOKE)
    away = worst_stretch(UNIT, way, column(24, 0, 0))[0] / INCH
    towards = worst_stretch(UNIT, way, column(-24, 0, 0))[0] / INCH
    assert away == pytest.approx(by_triangles(24, 60, True), abs=1e-9)
    assert towards == pytest.approx(by_triangles(24, 0, True), abs=1e-9)


def test_the_furthest_connector_uses_the_tail_up_exactly():
    way = Swing(sl(0), sl(60), YOKE, YOKE)
    along = column(1, 0, 0) / INCH
    low, high = tie_places(UNIT, way, column(0, 0, 0), along, USABLE)
    # SL: the pose at 60 is worst. SR: square is worst.
    at_60 = sqrt(30**2 - (BEHIND * cos(radians(60))) ** 2 - UNDER**2) - BEHIND * sin(radians(60))
    at_square = sqrt(30**2 - BEHIND**2 - UNDER**2)
    assert high[0] / INCH == pytest.approx(at_60, abs=1e-6)
    assert -low[0] / INCH == pytest.approx(at_square, abs=1e-6)


def test_a_unit_standing_over_its_pipe_with_its_body_turned_over_reaches_alike():
    # Upright over the pipe: yoke 180 - t with the stem up, so that the exit lies behind and below
    # as before, the pivot 14 in above. The exit is then 14 + 10 sin 50 - 4 cos 50 over the pipe.
    over = Body(column(0, 0, 14), column(0, 0, 1) / INCH, column(0, 1, 0) / INCH, BACK, BELOW)
    # Axis US and down: f = cos t h + sin t z, sin t = -sin 50, cos t = -cos 50 with h = -y.
    turn, yoke = np.array([radians(180)]), np.array([radians(-130)])
    above = 14 + 10 * sin(DOWN) - 4 * cos(DOWN)
    expected = hypot(12, BEHIND, above)
    assert stretch(over, turn, yoke, column(12, 0, 0))[0] / INCH == pytest.approx(
        expected, abs=1e-9
    )


SCENE = """
[scene]
title = "A tail that fails only after aiming"
unit = "in"
[[pipe]]
name = "p"
trim = "20'"
y = 0
from = "10' SR"
to = "10' SL"
[[kind]]
name = "k"
family = "ers"
field = 26
drop_under = 14
tail = 36
tail_exit = [10, 4]
[[unit]]
position = "p"
number = 1
at = 0
kind = "k"
point = [{x}, {y}, {z}]
connector = "24\\" {side}"
"""


@pytest.mark.parametrize(
    ("side", "worst", "pulls"),
    [("SL", by_triangles(24, 60, True), True), ("SR", by_triangles(24, 0, True), False)],
)
def test_a_scene_says_which_side_of_the_clamp_keeps_the_loop(tmp_path, side, worst, pulls):
    # Down 50, swung 60 to SL from square US; the point is 200 in away along the axis.
    level, turn = 200 * cos(DOWN), radians(60)
    point = {"x": level * sin(turn), "y": level * cos(turn), "z": 240 - 14 - 200 * sin(DOWN)}
    (tmp_path / "scene.toml").write_text(SCENE.format(side=side, **point), encoding="utf-8")
    rig = solve_rig(load_scene(str(tmp_path)))
    plan = hang_plan(rig, HangOptions(allowance=6 * INCH))
    unit = plan.positions[0].units[0]
    assert unit.tail.worst / INCH == pytest.approx(worst, abs=1e-6)
    assert unit.tail.usable / INCH == pytest.approx(30)
    assert unit.connector.side == "SR"
    told = {f.rule: f.severity for f in hang_findings(rig, plan)}
    # Within the 36 in of tail and past the 30 that leave a loop: told, and no stop.
    assert told.get("tail-pulls-out") == ("warn" if pulls else None)
