"""Inside the frame of a pool plan: pools, marks and symbols lie where plain trigonometry puts them."""

import math

import numpy as np
import pytest

from aimcalc.paper.planpage import View
from aimcalc.scene.model import Boom, Solid, Stage, Target, Unit
from aimcalc.sheets.plans.plandraw import ASIDE, ON_UPRIGHT, draw_inside, position_codes
from aimcalc.solid.rig import solve_rig
from aimcalc.text import words
from aimcalc.text.stamp import PaperOptions
from tests.rigs import a_kind, a_pipe, a_scene

VIEW = View((0.0, 0.0, 400.0, 400.0), 50.0, (-10.0, -10.0))  # 20 m by 20 m at 1:50
FIELD, BEAM, TRIM, FACE = 30.0, 16.0, 6.0, 1.65


def drawn(scene, view=VIEW):
    rig = solve_rig(scene)
    return draw_inside(rig, rig.answers, list(range(len(rig.units))), view, PaperOptions())


def one_unit(depth, **settings):
    """One unit without drop on a pipe at y = 0, aimed at a face on the centre line at `depth`."""
    kind = a_kind(field=FIELD, beam=BEAM, drop_under=0.0, drop_over=0.0)
    unit = Unit(position="p", number="7", kind="k", at=0.0, target="A")
    return a_scene(
        [unit],
        [Target(name="A", x=0.0, y=depth)],
        pipes=[a_pipe(trim=TRIM)],
        kinds=[kind],
        **settings,
    )


def pool_lines(result, weight, dash):
    """The longest line of a look, as plan metres."""
    lines = [line.points for line in result.lines if (line.weight, line.dash) == (weight, dash)]
    longest = max(lines, key=len)
    return longest * VIEW.scale / 1000 + np.array(VIEW.origin)


@pytest.mark.parametrize(
    ("angle", "weight", "dash"), [(FIELD, 1.0, "solid"), (BEAM, 0.75, "dashed")]
)
def test_field_is_solid_and_beam_dashed_at_the_face_plane(angle, weight, dash):
    depth, height = 4.0, TRIM - FACE
    points = pool_lines(drawn(one_unit(depth)), weight, dash)
    down = math.atan2(height, depth)
    near = height / math.tan(down + math.radians(angle / 2))
    far = height / math.tan(down - math.radians(angle / 2))
    assert points[:, 1].min() == pytest.approx(near, abs=2e-3)
    assert points[:, 1].max() == pytest.approx(far, abs=2e-3)
    assert points[0] == pytest.approx(points[-1])
    assert points[:, 0].max() == pytest.approx(-points[:, 0].min(), abs=2e-3)


def test_stand_is_a_cross_and_lands_a_dot_joined_to_it():
    depth = 4.0
    result = drawn(one_unit(depth))
    lands = depth * TRIM / (TRIM - FACE)  # similar triangles under the lens
    cross = [line.points.mean(axis=0) for line in result.lines if line.weight == 1.5]
    assert cross == [pytest.approx(VIEW.at(0.0, depth))] * 2
    dots = [s.points.mean(axis=0) for s in result.shapes if s.fill == "black"]
    assert dots[0] == pytest.approx(VIEW.at(0.0, lands), abs=0.1)
    joins = [line.points for line in result.lines if line.weight == 0.75 and len(line.points) == 2]
    joined = np.array([VIEW.at(0.0, depth), VIEW.at(0.0, lands)])
    assert any(np.allclose(points, joined, atol=0.01) for points in joins)


def test_an_open_pool_ends_in_arrow_heads_at_the_frame():
    # 9 m out and 4.35 m down is 25.8 below level; a field of 60 reaches 4.2 above level.
    scene = one_unit(9.0)
    wide = a_kind(field=60.0, beam=30.0, drop_under=0.0, drop_over=0.0)
    scene = a_scene(list(scene.units), list(scene.targets), pipes=list(scene.pipes), kinds=[wide])
    heads = [s.points for s in drawn(scene).shapes if s.fill == "black" and len(s.points) == 3]
    tips = np.array([head[0] for head in heads])
    on_edge = np.isclose(tips, 0.0, atol=1e-6) | np.isclose(tips, 400.0, atol=1e-6)
    assert on_edge.any(axis=1).all()
    sides = {(bool(x < 200), bool(y > 200)) for x, y in tips}
    assert {(True, True), (False, True)} <= sides  # one end each side of the centre line, upstage


def test_a_closed_pool_has_no_arrow_head():
    heads = [s for s in drawn(one_unit(4.0)).shapes if s.fill == "black" and len(s.points) == 3]
    assert heads == []


def test_a_landing_off_the_sheet_is_an_arrow_and_keeps_its_name():
    result = drawn(one_unit(8.5))  # lands 8.5 * 6 / 4.35 = 11.7 m upstage, past the 10 m shown
    heads = [s.points[0] for s in result.shapes if s.fill == "black" and len(s.points) == 3]
    assert any(tip == pytest.approx((200.0, 400.0), abs=0.01) for tip in heads)
    assert [w.text for w in result.words].count("7") == 2


def test_a_unit_stands_on_its_pipe_and_points_at_its_target():
    result = drawn(one_unit(4.0))
    (symbol,) = [s.points for s in result.shapes if s.weight == 1.0 and s.fill == "white"]
    middle = (symbol.min(axis=0) + symbol.max(axis=0)) / 2
    assert middle == pytest.approx(VIEW.at(0.0, 0.0))
    nose = symbol[np.argmax(symbol[:, 1])]
    assert nose[0] == pytest.approx(middle[0])


def test_units_of_a_boom_are_drawn_where_they_are_and_share_a_tag_where_they_lie_over_one_another():
    """Arms of 0.3 m, two to SL and one to DS: 6 - 0.3 m SR of the centre line, and 0.3 m DS."""
    boom = Boom(name="b", x=-6.0, y=0.0, height=4.0)
    units = [
        Unit(position="b", number=n, kind="k", at=at, target="A", mount="arm", arm=0.3, arm_to=way)
        for n, at, way in (("1", 3.6, 90.0), ("2", 2.4, 90.0), ("3", 1.2, 180.0))
    ]
    result = drawn(a_scene(units, [Target(name="A", x=0.0, y=0.0)], pipes=[], booms=[boom]))
    tags = {w.text for w in result.words if w.size == 14.0}
    assert tags == {"1, 2", "3"}
    symbols = [s.points for s in result.shapes if s.weight == 1.0 and s.fill == "white"]
    middles = sorted(tuple((s.min(axis=0) + s.max(axis=0)) / 2) for s in symbols)
    wanted = sorted([VIEW.at(-5.7, 0.0), VIEW.at(-5.7, 0.0), VIEW.at(-6.0, -0.3)])
    assert np.array(middles) == pytest.approx(np.array(wanted), abs=0.5)


def an_upright(**more):
    """One unit 1 m over the deck that shines level on a wall across the stage, 4 m upstage of its lens."""
    kind = a_kind(field=FIELD, beam=BEAM, drop_under=0.0, drop_over=0.0)
    unit = Unit(position="p", number="7", kind="k", at=0.0, point=(0.0, 4.0, 2.5))
    corners = ((-6.0, 4.0, 0.0), (6.0, 4.0, 0.0), (6.0, 4.0, 5.0), (-6.0, 4.0, 5.0))
    wall = Solid(name="wall", panel=corners)
    scene = a_scene([unit], pipes=[a_pipe(trim=2.5)], kinds=[kind], solids=[wall])
    return drawn(scene, **more)


def test_light_on_a_wall_is_a_line_along_it_and_no_pool():
    """A level cone of 30 degrees covers 4 tan(15) = 1.07 m of it each side of the axis."""
    result = an_upright()
    (line,) = [ln.points for ln in result.lines if ln.weight == ON_UPRIGHT]
    half = 4 * math.tan(math.radians(15)) * 1000 / VIEW.scale
    x, y = VIEW.at(0.0, 4.0)
    assert sorted(line[:, 0]) == pytest.approx([x - half, x + half], abs=0.05)
    assert line[:, 1] == pytest.approx([y - ASIDE] * 2)  # on the side that the light comes from
    assert not [ln for ln in result.lines if len(ln.points) > 100]  # no ellipse
    assert result.has_uprights
    assert result.has_traces
    squares = [s.points for s in result.shapes if s.fill == "black" and len(s.points) == 4]
    assert squares[0].mean(axis=0) == pytest.approx((x, y - ASIDE))


def test_a_unit_that_lights_a_face_keeps_its_pool_though_its_axis_then_stops_on_a_wall():
    """The face at 4 m; the axis falls 4.35 m in 4 and meets a wall at 4.5 m 1.1 m up."""
    corners = ((-6.0, 4.5, 0.0), (6.0, 4.5, 0.0), (6.0, 4.5, 5.0), (-6.0, 4.5, 5.0))
    result = drawn(one_unit(4.0, solids=[Solid(name="wall", panel=corners)]))
    assert not result.has_traces
    assert result.has_uprights
    squares = [s.points for s in result.shapes if s.fill == "black" and len(s.points) == 4]
    assert squares[0].mean(axis=0) == pytest.approx(VIEW.at(0.0, 4.5), abs=0.1)


def test_a_unit_without_an_aim_is_named_and_nothing_else_is_lost():
    kind = a_kind(drop_under=0.0, drop_over=0.0)
    units = [
        Unit(position="p", number="1", kind="k", at=0.0, point=(0.0, 0.0, 6.0)),  # its own pivot
        Unit(position="p", number="2", kind="k", at=1.0, point=(1.0, 3.0, 1.5)),
    ]
    result = drawn(a_scene(units, pipes=[a_pipe()], kinds=[kind]))
    assert result.remarks == ["No aim, so no pool: p/1."]
    assert [w.text for w in result.words].count("2") == 2
    assert result.has_points


def test_a_straight_down_unit_is_drawn_with_a_round_pool():
    scene = one_unit(0.0)
    points = pool_lines(drawn(scene), 1.0, "solid")
    radius = (TRIM - FACE) * math.tan(math.radians(FIELD / 2))
    assert np.hypot(*points.T) == pytest.approx(np.full(len(points), radius), abs=2e-3)


def test_the_deck_outline_is_a_key_line():
    outline = ((-4.0, -1.0), (4.0, -1.0), (4.0, 6.0), (-4.0, 6.0))
    result = drawn(one_unit(4.0, stage=Stage(outline=outline, acting=outline)))
    deck = [line.points for line in result.lines if line.weight == 2.0 and len(line.points) == 5]
    assert deck[0][:4] == pytest.approx(np.array([VIEW.at(*corner) for corner in outline]))


def test_position_codes_are_short_and_unlike():
    names = [
        "house pipe",
        "high pipe",
        "LX 1",
        "LX 2",
        "balcony rail",
        "boom SL",
        "boom SR",
        "truss",
    ]
    codes = position_codes(names)
    assert [codes[n] for n in names] == ["HP", "HPa", "LX1", "LX2", "BR", "BSL", "BSR", "truss"]
    many = position_codes([f"row {'x' * k} bar" for k in range(60)])
    assert len(set(many.values())) == 60


def test_a_long_list_is_cut_with_its_count():
    assert words.some(["a", "b"]) == "a, b"
    assert words.some([str(k) for k in range(20)]).endswith("and 14 more")


def test_no_line_is_thinner_than_three_quarters_of_a_point():
    result = drawn(one_unit(4.0))
    assert min(line.weight for line in result.lines) >= 0.75
    assert {shape.weight for shape in result.shapes} <= {0.0, 0.75, 1.0, 1.5, 2.0}
