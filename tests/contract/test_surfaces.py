"""What is stood on, where light lands, what pools it makes: scenes worked out by hand.

Pivots of kind `k` hang at 6 m under the plain pipe at y = 0.
"""

from __future__ import annotations

from math import atan, cos, degrees, hypot, pi, radians, sin, sqrt, tan

import pytest

from tests.toml_rig import kind, level_pipe, one, table, unit


def stage(rake=0.0, rake_from=None):
    begins = "" if rake_from is None else f"rake_from = {rake_from}\n"
    return f"[stage]\noutline = [[-9, -9], [9, -9], [9, 12], [-9, 12]]\nrake = {rake}\n{begins}"


def target(**keys):
    return table("target", **{"name": "t", "x": 0, "y": 4, **keys})


def aimed(folder, *tables, scene="", **keys):
    return one(
        folder, level_pipe(), *tables, target(**keys), unit(target="t"), scene=scene, kinds=kind()
    )


@pytest.mark.parametrize(
    ("keys", "stand_z", "face_z"),
    [
        ({}, 0, 1.65),
        ({"plane": "face"}, 0, 1.65),
        ({"face_height": 1.2}, 0, 1.2),
        ({"face_height": "4'"}, 0, 1.2192),
        ({"z": 0.6}, 0.6, 2.25),
        ({"z": 0.6, "face_height": 1}, 0.6, 1.6),
        ({"plane": "deck"}, 0, 0),
        ({"plane": "deck", "z": 0.6}, 0.6, 0.6),
        ({"plane": "deck", "face_height": 1.2}, 0, 0),  # no face on the deck
        ({"plane": "point", "z": 2.2}, None, 2.2),
    ],
)
def test_the_axis_goes_through_the_point_that_the_plane_names(tmp_path, keys, stand_z, face_z):
    answer = aimed(tmp_path, **keys)
    assert answer["face"] == pytest.approx([0, 4, face_z])
    assert answer["stand"] == (None if stand_z is None else pytest.approx([0, 4, stand_z]))
    assert answer["down"] == pytest.approx(degrees(atan((6 - face_z) / 4)))


def test_the_scene_s_face_height_is_taken_unless_the_target_has_its_own(tmp_path):
    assert aimed(tmp_path, scene="face_height = 1.2")["face"][2] == pytest.approx(1.2)
    assert aimed(tmp_path, scene="face_height = 1.2", face_height=1.7)["face"][2] == 1.7


@pytest.mark.parametrize(
    ("rake", "begins", "y", "deck"),
    [
        ("0.1", None, 4, 0.4),
        ("0.1", None, -2, 0),  # level downstage of the plaster line
        ('"1:8"', 2, 4, 0.25),
        ('"1:8"', 2, 1, 0),
        ("0.1", -3, -2, 0.1),
    ],
)
def test_the_rake_rises_from_where_it_begins(tmp_path, rake, begins, y, deck):
    answer = aimed(tmp_path, stage(rake, begins), y=y)
    assert answer["stand"] == pytest.approx([0, y, deck])
    assert answer["face"][2] == pytest.approx(deck + 1.65)


def test_on_a_rake_the_axis_lands_where_the_deck_meets_it(tmp_path):
    """Rake 0.1 from 2: face (0, 4, 1.85). Slope (6 - 1.85) / 4 = 1.0375: 6 - 1.0375 y = 0.1 (y - 2)."""
    answer = aimed(tmp_path, stage("0.1", 2))
    y = 6.2 / 1.1375
    assert answer["lands"] == pytest.approx([0, y, 0.1 * (y - 2)])
    assert answer["past_stand"] == pytest.approx(y - 4)


def test_light_from_behind_leaves_the_rake_and_lands_on_the_level_deck(tmp_path):
    """Pipe at y = 8, face (0, 3, 1.75): slope (6 - 1.75) / 5 = 0.85; z = 0 at y = 3 - 1.75 / 0.85 = 0.94."""
    tables = (level_pipe(y=8), target(y=3), unit(target="t"))
    answer = one(tmp_path, stage("0.1", 2), *tables)
    assert answer["lands"] == pytest.approx([0, 3 - 1.75 / 0.85, 0], abs=1e-12)


@pytest.mark.parametrize(
    ("pipe_y", "target_y", "lands_y", "lands_z"),
    [
        # Falls 0.1 a metre from y = 2. Face (0, 4, 1.45): slope 4.55 / 4; 6 - 1.1375 y = -0.1 (y - 2).
        (0, 4, 5.8 / 1.0375, -0.1 * (5.8 / 1.0375 - 2)),
        # From the level part over the edge: face (0, 0, 1.65) from y = -4: slope 4.35 / 4 = 1.0875 meets
        # z = 0 at y = 1.65 / 1.0875 = 1.517, still level.
        (-4, 0, 1.65 / 1.0875, 0),
        # Face (0, 1.5, 1.65) from y = -4: slope 4.35 / 5.5; z = 0 would be at 3.586, past the edge:
        # 1.65 - s (y - 1.5) = -0.1 (y - 2) with s = 4.35 / 5.5.
        (
            -4,
            1.5,
            (1.65 + 1.5 * 4.35 / 5.5 - 0.2) / (4.35 / 5.5 - 0.1),
            -0.1 * ((1.65 + 1.5 * 4.35 / 5.5 - 0.2) / (4.35 / 5.5 - 0.1) - 2),
        ),
        # From behind, up the fall: face (0, 4, 1.45) from y = 8: slope 4.55 / 4; z = 0 at 4 - 1.275 = 2.73,
        # under it the deck is lower: 1.45 - 1.1375 u = -0.1 (2 - u).
        (8, 4, 4 - 1.65 / 1.2375, -0.1 * (2 - 1.65 / 1.2375)),
    ],
)
def test_a_deck_that_falls_upstage_is_landed_on_where_it_is(
    tmp_path, pipe_y, target_y, lands_y, lands_z
):
    tables = (level_pipe(y=pipe_y), target(y=target_y), unit(target="t"))
    answer = one(tmp_path, stage("-0.1", 2), *tables)
    assert answer["lands"] == pytest.approx([0, lands_y, lands_z], abs=1e-9)
    assert answer["past_stand"] == pytest.approx(abs(lands_y - target_y))


BOX = table("solid", name="riser", box=[-2, 3, 0, 2, 5, 1], stand_on=True)
LONG = table("solid", name="long riser", box=[2, 3, 1, -2, 9, 0], stand_on=True)  # any two corners


def test_on_a_platform_face_and_landing_rise_with_it(tmp_path):
    """Face (0, 4, 2.65): slope 3.35 / 4 = 0.8375. Top z = 1 at y = 4 + 1.65 / 0.8375."""
    answer = aimed(tmp_path, LONG)
    assert answer["stand"] == [0, 4, 1]
    assert answer["lands"] == pytest.approx([0, 4 + 1.65 / 0.8375, 1])


def test_past_the_end_of_a_platform_light_drops_to_the_deck(tmp_path):
    """The top ends at 5, the axis is 1.81 up there; z = 0 at y = 4 + 2.65 / 0.8375."""
    answer = aimed(tmp_path, BOX)
    assert answer["stand"] == [0, 4, 1]
    assert answer["lands"] == pytest.approx([0, 4 + 2.65 / 0.8375, 0], abs=1e-9)


def test_light_that_meets_the_front_of_a_platform_lands_there(tmp_path):
    """Face (0, 2, 1.65): slope 4.35 / 2 would land at 2.76; a riser from 2.5 is met half a slope lower."""
    near = table("solid", name="riser", box=[-2, 2.5, 0, 2, 5, 1], stand_on=True)
    answer = aimed(tmp_path, near, y=2)
    assert answer["stand"] == [0, 2, 0]
    assert answer["lands"] == pytest.approx([0, 2.5, 1.65 - 0.5 * 2.175])


def test_scenery_that_is_not_stood_on_does_not_lift_a_target(tmp_path):
    wall = table("solid", name="wall", box=[-2, 3, 0, 2, 5, 1])
    assert aimed(tmp_path, wall)["stand"] == [0, 4, 0]


def test_a_target_under_a_gallery_may_give_the_height_it_stands_at(tmp_path):
    """z = 0 under a gallery at 3 m: face at 1.65, the axis lands on the deck, not on the gallery."""
    gallery = table("solid", name="gallery", box=[-2, 3, 3, 2, 9, 3.2], stand_on=True)
    assert aimed(tmp_path, gallery)["stand"][2] == pytest.approx(3.2)
    below = aimed(tmp_path, gallery, z=0)
    assert below["stand"] == [0, 4, 0]
    assert below["lands"] == pytest.approx([0, 4 * 6 / 4.35, 0])


RAMP = table(
    "solid",
    name="ramp",
    panel=[[-2, 2, 0], [2, 2, 0], [2, 6, 1], [-2, 6, 1]],
    stand_on=True,
)


def test_a_panel_may_be_a_ramp(tmp_path):
    """Up 0.25 a metre from y = 2: at 4 it is 0.5. Face 2.15, slope 3.85 / 4: 6 - 0.9625 y = 0.25 (y - 2)."""
    answer = aimed(tmp_path, RAMP)
    assert answer["stand"] == pytest.approx([0, 4, 0.5])
    y = 6.5 / 1.2125
    assert answer["lands"] == pytest.approx([0, y, 0.25 * (y - 2)])


def test_past_the_top_of_a_ramp_light_drops_to_the_deck(tmp_path):
    """Face at 5: 0.75 + 1.65 = 2.4, slope 3.6 / 5 = 0.72; at 6 it is 1.68, over the top edge at 1."""
    answer = aimed(tmp_path, RAMP, y=5)
    assert answer["lands"] == pytest.approx([0, 5 + 2.4 / 0.72, 0], abs=1e-9)


def test_a_platform_on_a_rake_is_as_high_as_its_own_top(tmp_path):
    answer = aimed(tmp_path, stage("0.1", 0), BOX)
    assert answer["stand"] == [0, 4, 1]
    beside = aimed(tmp_path, stage("0.1", 0), BOX, x=3)
    assert beside["stand"] == pytest.approx([3, 4, 0.4])


def test_a_deck_mark_lands_on_itself(tmp_path):
    answer = aimed(tmp_path, plane="deck")
    assert answer["lands"] == pytest.approx([0, 4, 0], abs=1e-12)
    assert answer["past_stand"] == pytest.approx(0, abs=1e-9)


def test_a_point_over_the_deck_lands_behind_it_and_nobody_stands_there(tmp_path):
    answer = aimed(tmp_path, plane="point", z=3)
    assert answer["lands"] == pytest.approx([0, 8, 0], abs=1e-9)
    assert (answer["stand"], answer["past_stand"]) == (None, None)


@pytest.mark.parametrize("z", [6, 7])
def test_level_and_upward_light_never_lands(tmp_path, z):
    answer = aimed(tmp_path, plane="point", z=z)
    assert (answer["lands"], answer["past_stand"]) == (None, None)


def ellipse(height, down, half):
    """Near, far, width of a pool by rays: the edges in the plane of the axis, and the cone's own equation
    (M - L) . f = |M - L| cos(half) beside the middle M of the two edges."""
    near, far = height / tan(down + half), height / tan(down - half)
    middle = (near + far) / 2
    ahead = middle * cos(down) + height * sin(down)
    aside = sqrt((ahead / cos(half)) ** 2 - middle**2 - height**2)
    return near, far, 2 * aside


@pytest.mark.parametrize("down", [30, 45, 60, 75, 85])
def test_a_closed_pool_has_the_edges_that_rays_have(tmp_path, down):
    """Face at 1.65, pivot at 6, so the lens is 4.35 over the face plane and 6 over the deck."""
    answer = aimed(tmp_path, x=0, y=4.35 / tan(radians(down)))
    for key, height in (("face_pool", 4.35), ("deck_pool", 6)):
        pool = answer[key]
        near, far, width = ellipse(height, radians(down), radians(10))
        assert pool["closed"]
        assert (pool["near"], pool["far"]) == pytest.approx((near, far))
        assert pool["length"] == pytest.approx(far - near)
        assert pool["width"] == pytest.approx(width)
        assert pool["area"] == pytest.approx(pi / 4 * (far - near) * width)
        assert pool["centre"] == pytest.approx([0, (near + far) / 2, 6 - height])


def test_straight_down_the_pool_is_round(tmp_path):
    pool = aimed(tmp_path, y=0, plane="deck")["deck_pool"]
    size = 12 * tan(radians(10))
    assert (pool["length"], pool["width"]) == pytest.approx((size, size))
    assert (pool["near"], pool["far"]) == pytest.approx((-size / 2, size / 2))


def test_the_deck_pool_is_at_the_height_stood_on(tmp_path):
    """On a 1 m platform: lens 5 over it, 3.35 over the face; 4 m ahead."""
    answer = aimed(tmp_path, BOX)
    down = atan(3.35 / 4)
    near, far, _ = ellipse(5, down, radians(10))
    assert (answer["deck_pool"]["near"], answer["deck_pool"]["far"]) == pytest.approx((near, far))
    assert answer["deck_pool"]["centre"][2] == 1


def test_the_nose_lowers_and_carries_the_apex_of_the_cone(tmp_path):
    """Nose 0.5 along (4, -3) / 5 to (0, 0.4, 5.7): 2.7 over the point's plane, near from y = 0.4."""
    answer = one(tmp_path, level_pipe(), unit(point=[0, 4, 3]), kinds=kind(nose=0.5))
    near, far, _ = ellipse(2.7, atan(3 / 4), radians(10))
    pool = answer["face_pool"]
    assert (pool["near"], pool["far"]) == pytest.approx((near, far))
    assert pool["centre"][1] == pytest.approx(0.4 + (near + far) / 2)


@pytest.mark.parametrize(
    ("down", "open_"), [(10.001, False), (9.999, True), (0, True), (-9.999, True)]
)
def test_a_pool_is_open_once_the_field_s_upper_edge_is_level(tmp_path, down, open_):
    """Field 20: the upper edge is down - 10. An open pool has a near edge and nothing more."""
    point = [0, 10, 6 - 10 * tan(radians(down))]
    pool = one(tmp_path, level_pipe(), unit(point=point))["deck_pool"]
    assert pool["closed"] is not open_
    assert pool["near"] == pytest.approx(6 / tan(radians(down + 10)))
    if open_:
        for key in ("far", "length", "width", "area", "centre"):
            assert pool[key] is None


def test_no_ray_of_the_field_reaches_the_deck_when_its_lower_edge_is_above_level(tmp_path):
    point = [0, 10, 6 + 10 * tan(radians(10.001))]
    answer = one(tmp_path, level_pipe(), unit(point=point))
    assert answer["deck_pool"] is None
    assert answer["face_pool"]["near"] > 0  # the plane above the lens is reached


def test_a_plane_above_the_lens_has_a_pool_too(tmp_path):
    """Stand: pivot at 0.3; point 3 ahead, 3 above: UP 45 on a plane 3 over the lens."""
    stand = table("stand", name="p", x=0, y=0)
    answer = one(tmp_path, stand, unit(at=None, point=[0, 3, 3.3]))
    near, far, width = ellipse(3, radians(45), radians(10))
    pool = answer["face_pool"]
    assert (pool["near"], pool["far"], pool["width"]) == pytest.approx((near, far, width))
    assert pool["centre"] == pytest.approx([0, (near + far) / 2, 3.3])
    assert answer["deck_pool"] is None


def test_a_lens_in_the_plane_has_no_pool_on_it(tmp_path):
    answer = one(tmp_path, level_pipe(), unit(point=[0, 5, 6]))
    assert answer["face_pool"] is None
    assert answer["down"] == pytest.approx(0, abs=1e-9)


def test_past_stand_is_measured_along_the_deck(tmp_path):
    """Face 3 SL and 4 US of the pivot, 5 in plan: it lands 1.65 / 4.35 as far again."""
    answer = aimed(tmp_path, x=3, y=4)
    assert answer["past_stand"] == pytest.approx(5 * 1.65 / 4.35)
    on = 6 / 4.35
    assert answer["lands"] == pytest.approx([3 * on, 4 * on, 0], abs=1e-9)
    assert hypot(answer["lands"][0] - 3, answer["lands"][1] - 4) == pytest.approx(
        answer["past_stand"]
    )
