"""Random scenes as text: never a traceback, never a number that JSON lacks, and what must hold of any aim."""

from __future__ import annotations

import json
import re
from math import asin, atan2, cos, degrees, dist, hypot, radians, sin

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from aimcalc.findings import findings
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.solid.rig import solve_rig
from tests.studies import cases
from tests.toml_rig import table, written

QUIET = settings(
    max_examples=cases(40, 400),
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
SIDES = ("SL", "SR", "US", "DS")


def metres(low, high):
    """Lengths, many of them round: round numbers are where rays are level and points coincide."""
    return st.one_of(
        st.integers(int(low), int(high)).map(float),
        st.floats(low, high).map(lambda x: round(x, 3)),
    )


PLACE = (metres(-8, 8), metres(-8, 8))
POINT = st.tuples(*PLACE, metres(0, 6)).map(list)


@st.composite
def pipes(draw):
    if draw(st.booleans()):
        ends = {"from_": -9, "to": 9} if draw(st.booleans()) else {"from_": 9, "to": -9}
        zero = draw(st.sampled_from(("centre line", "middle")))
        return table("pipe", name="p", trim=draw(metres(3, 9)), y=draw(PLACE[1]), zero=zero, **ends)
    start, run = draw(POINT), draw(st.tuples(metres(-8, 8), metres(-8, 8), metres(-1, 1)))
    if hypot(run[0], run[1]) < 1:
        run = (run[0] + 3.0, run[1], run[2])
    start[2] += 3
    end = [a + b for a, b in zip(start, run, strict=True)]
    zero = draw(st.sampled_from(("middle", "start", "end")))
    return table("pipe", name="p", start=start, end=end, zero=zero)


@st.composite
def solids(draw, name):
    x, y = draw(PLACE[0]), draw(PLACE[1])
    w, d, z = draw(metres(1, 5)), draw(metres(1, 5)), draw(metres(0, 2)) + 0.25
    if draw(st.booleans()):
        return table("solid", name=name, box=[x, y, 0, x + w, y + d, z], stand_on=True)
    high = z + draw(metres(0, 1))
    panel = [[x, y, z], [x + w, y, z], [x + w, y + d, high], [x, y + d, high]]
    return table("solid", name=name, panel=panel, stand_on=True)


@st.composite
def kinds(draw):
    keys = {"nose": draw(metres(0, 1)), "rise": draw(metres(0, 1)) / 10}
    if draw(st.booleans()):
        keys |= {"length": 0.6, "width": 0.25, "has_frame": True}
    if draw(st.booleans()):
        low = draw(st.integers(-180, 90))
        keys["yoke_range"] = [low, low + draw(st.integers(1, 90))]
    drops = {"drop_under": draw(metres(0, 1)) / 2, "drop_over": draw(metres(0, 1)) / 2}
    return table("kind", name="k", family="ers", field=draw(st.integers(4, 120)), **drops, **keys)


@st.composite
def units(draw, number):
    mount = draw(st.sampled_from(("under", "over", "out", "arm", "direct", "stand")))
    position = {"arm": "b", "direct": "b", "stand": "s"}.get(mount, "p")
    keys = {"position": position, "number": number, "kind": "k", "mount": mount}
    if position != "s":
        keys["at"] = draw(metres(0, 4) if position == "b" else metres(-4, 4))
    if mount == "out":
        keys["swing_out"] = draw(st.integers(1, 179))
    if position == "b":
        keys["arm_to"] = draw(st.one_of(st.sampled_from(SIDES), st.integers(0, 359)))
    if mount == "arm":
        keys["arm"] = draw(metres(0, 1)) + 0.1
    aim = {"target": draw(st.sampled_from("abc"))}
    keys |= draw(st.one_of(st.just(aim), st.builds(lambda p: {"point": p}, POINT)))
    keys |= draw(st.sampled_from(({}, {"precise": True}, {"hung": "tail up"}, {"system": "front"})))
    return table("unit", **keys)


@st.composite
def targets(draw, name):
    keys = {"x": draw(PLACE[0]), "y": draw(PLACE[1])}
    plane = draw(st.sampled_from(("face", "deck", "point", None)))
    if plane:
        keys["plane"] = plane
    if plane == "point" or draw(st.integers(0, 5)) == 0:
        keys["z"] = draw(metres(0, 3))
    return table("target", name=name, **keys)


@st.composite
def scenes(draw):
    rake, begins = draw(st.sampled_from((0, 0, 0.05, 0.125, -0.05))), draw(metres(-4, 4))
    stage = f"[stage]\noutline = [[-9, -9], [9, -9], [9, 9], [-9, 9]]\nrake = {rake}\nrake_from = {begins}\n"
    return [
        stage,
        draw(pipes()),
        table("boom", name="b", x=draw(PLACE[0]), y=draw(PLACE[1]), height=5),
        table("stand", name="s", x=draw(PLACE[0]), y=draw(PLACE[1])),
        *(draw(targets(name)) for name in "abc"),
        *(draw(solids(f"riser {k}")) for k in range(draw(st.integers(0, 2)))),
        *(draw(units(k)) for k in range(1, draw(st.integers(1, 6)) + 1)),
        draw(kinds()),
    ]


def refuse(word):
    raise AssertionError(f"{word} is no JSON number")


@pytest.mark.long
@QUIET
@given(tables=scenes())
def test_what_must_hold_of_any_aim_holds(tmp_path, tables):
    path = written(tmp_path, *tables, kinds=" ")
    try:
        scene = load_scene(path)
    except SceneError as error:  # a pipe whose `at` ends beside the stage, and the like
        pytest.fail(error.report())
    rig = solve_rig(scene)
    found = msgspec.to_builtins(findings(rig))
    assert all(f["says"] and f["do"] and f["severity"] in ("stop", "warn", "note") for f in found)
    assert not any(re.search(r"\b(nan|inf)\b", f["says"]) for f in found)
    answers = json.loads(msgspec.json.encode(rig.answers), parse_constant=refuse)
    assert len(answers) == len(scene.units)
    stops = {(f["rule"], f["unit"]) for f in found if f["severity"] == "stop"}
    for answer, given_unit in zip(answers, rig.units, strict=True):
        if answer["down"] is not None:
            check_angles(answer)
            check_ray(answer)
            check_dial(answer)
            check_stops(answer, stops, given_unit)
            check_pools(answer)
            check_landing(answer, scene)


def check_angles(answer):
    assert answer["heading"] is None or 0 <= answer["heading"] < 360
    assert answer["pan"] is None or 0 <= answer["pan"] <= 90
    assert -90 <= answer["down"] <= 90
    assert -180 < answer["yoke"] <= 180
    if abs(answer["down"]) > 87 + 1e-6:
        assert (answer["attitude"], answer["roll"]) == ("plumb", None)
    elif abs(answer["down"]) < 87 - 1e-6:
        roll = answer["roll"]
        word = "upright" if roll < 45 else "on its side" if roll <= 135 else "upside down"
        assert answer["attitude"] == word
    assert answer["square"] in SIDES
    assert answer["swing"] in (*SIDES, "UP", "DOWN", None)
    if answer["sight"] is not None:
        assert answer["pan"] <= 60 + 1e-6


def axis_of(answer):
    down, heading = radians(answer["down"]), radians(answer["heading"] or 0)
    flat = cos(down) if answer["heading"] is not None else 0
    return flat * sin(heading), flat * cos(heading), -sin(down)


def check_ray(answer):
    """The lens, thrown along heading and down, comes to the point."""
    if answer["throw"] is None:
        return
    assert answer["throw"] > 0
    to = [p + answer["throw"] * d for p, d in zip(answer["lens"], axis_of(answer), strict=True)]
    assert dist(to, answer["face"]) < 1e-6


def check_dial(answer):
    """On a plumb stem across the stage or on boom and stand: heading is the square word's, turned by pan."""
    if answer["mount"] not in ("arm", "stand") or answer["heading"] is None or not answer["swing"]:
        return
    word = {"US": 0, "SL": 90, "DS": 180, "SR": 270}
    turn = (word[answer["swing"]] - word[answer["square"]] + 180) % 360 - 180
    heading = word[answer["square"]] + answer["pan"] * (1 if turn > 0 else -1)
    assert abs((heading - answer["heading"] + 180) % 360 - 180) < 1e-5 or answer["throw"] is None


def check_stops(answer, stops, given_unit):
    """Upside down and out of reach are stops whatever else is said; a plain upright hit is not."""
    name = answer["unit"]
    if answer["attitude"] == "upside down":
        assert ("upside-down", name) in stops
    if answer["attitude"] == "upright":
        assert ("upside-down", name) not in stops
    assert (("target-too-near", name) in stops) == (answer["throw"] is None)


def check_pools(answer):
    for key in ("face_pool", "deck_pool"):
        pool = answer[key]
        if pool is None:
            continue
        if not pool["closed"]:
            assert {pool[k] for k in ("far", "length", "width", "area", "centre")} == {None}
            continue
        assert pool["near"] < pool["far"]
        assert pool["length"] == pytest.approx(pool["far"] - pool["near"], rel=1e-6)
        assert pool["width"] <= pool["length"] * (1 + 1e-9)
        x, y = (pool["centre"][i] - answer["lens"][i] for i in (0, 1))
        assert hypot(x, y) == pytest.approx(abs(pool["near"] + pool["far"]) / 2, rel=1e-5, abs=1e-5)


def check_landing(answer, scene):
    """It is on the deck or a platform, on from the point along the axis, as far past STAND as told."""
    lands = answer["lands"]
    if lands is None:
        assert answer["past_stand"] is None
        return
    on = [a - b for a, b in zip(lands, answer["face"], strict=True)]
    along = sum(a * b for a, b in zip(on, axis_of(answer), strict=True))
    assert along >= -1e-6
    assert dist(
        lands, [f + along * d for f, d in zip(answer["face"], axis_of(answer), strict=True)]
    ) < (1e-6 * (1 + along))
    assert on_something(lands, scene, 1e-6 * (1 + along))
    if answer["past_stand"] is not None:
        assert answer["past_stand"] == pytest.approx(
            dist(lands[:2], answer["stand"][:2]), abs=1e-6 * (1 + along)
        )


def on_something(point, scene, near):
    _, y, z = point
    if abs(z - scene.stage.rake * max(0.0, y - scene.stage.rake_from)) < near:
        return True
    return any(
        on_box(point, s.box, near) if s.box else on_panel(point, s.panel, near)
        for s in scene.solids
    )


def on_box(point, box, near):
    inside = all(
        lo - near <= p <= hi + near for p, lo, hi in zip(point, box[:3], box[3:], strict=True)
    )
    faces = [abs(p - edge) for p, edge in zip(point * 2, box, strict=True)]
    return inside and min(faces) < near


def on_panel(point, panel, near):
    """Panels here are rectangles in plan that rise along y."""
    (x0, y0, z0), _, (x1, y1, z1), _ = panel
    x, y, z = point
    within = x0 - near <= x <= x1 + near and y0 - near <= y <= y1 + near
    return within and abs(z - (z0 + (z1 - z0) * (y - y0) / (y1 - y0))) < near


JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**20), 10**20),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=12),
    st.lists(st.one_of(st.floats(-10, 10), st.text(max_size=3)), max_size=7),
    st.sampled_from(
        ("nan", "inf", "-1 m", "1e308 m", "12' 13\"", "5 SL SL", "30 DS", "1:0", "=1+1")
    ),
)
KEYS = {
    "pipe": (
        "trim",
        "y",
        "from",
        "to",
        "start",
        "end",
        "zero",
        "lines",
        "circuits",
        "rating",
        "clamp_opens",
    ),
    "boom": ("x", "y", "height", "square"),
    "stand": ("x", "y", "z"),
    "target": ("name", "x", "y", "z", "face_height", "plane"),
    "kind": (
        "name",
        "field",
        "beam",
        "oval",
        "drop_under",
        "nose",
        "rise",
        "yoke_range",
        "tail_exit",
        "watts",
    ),
    "unit": (
        "position",
        "number",
        "at",
        "mount",
        "swing_out",
        "arm",
        "arm_to",
        "point",
        "precise",
        "hung",
    ),
    "solid": ("box", "panel", "mesh", "stand_on"),
}
BASE = {
    "pipe": {"name": "p", "trim": 6, "y": 0, "from": -5, "to": 5},
    "boom": {"name": "b", "x": -5, "y": 1, "height": 5},
    "stand": {"name": "s", "x": 2, "y": 1},
    "target": {"name": "a", "x": 0, "y": 4},
    "kind": {"name": "k", "family": "ers", "field": 20},
    "unit": {"position": "p", "number": 1, "at": 0, "kind": "k", "target": "a"},
    "solid": {"name": "riser", "box": [0, 0, 0, 1, 1, 1]},
}


@st.composite
def spoilt(draw):
    name = draw(st.sampled_from(sorted(BASE)))
    keys = draw(st.lists(st.sampled_from(KEYS[name]), min_size=1, max_size=3, unique=True))
    changed = {key: draw(JUNK) for key in keys}
    tables = {n: dict(values) for n, values in BASE.items()}
    tables[name] |= changed
    for key, value in changed.items():
        if value is None:
            tables[name].pop(key, None)
    return [table(n, **values) for n, values in tables.items()]


@pytest.mark.long
@QUIET
@given(tables=spoilt())
def test_a_spoilt_scene_is_refused_with_a_report_or_solved_never_a_traceback(tmp_path, tables):
    path = written(tmp_path, *tables, kinds=" ")
    try:
        scene = load_scene(path)
    except SceneError as error:
        report = error.report()
        assert "Traceback" not in report
        assert path.rsplit("/", 1)[1] in report
        return
    rig = solve_rig(scene)
    json.loads(msgspec.json.encode([rig.answers, findings(rig)]), parse_constant=refuse)


@pytest.mark.parametrize("table_of", [name for name in BASE if name != "unit"])
@pytest.mark.parametrize("name", [[], ["a"], [["a"]], True])
def test_a_name_that_is_no_text_is_refused_where_it_stands(tmp_path, table_of, name):
    tables = {n: dict(values) for n, values in BASE.items()}
    tables["target"]["x"] = 0.5  # places of targets are kept by name
    tables[table_of]["name"] = name
    path = written(tmp_path, *(table(n, **values) for n, values in tables.items()), kinds=" ")
    with pytest.raises(SceneError) as refused:
        load_scene(path)
    assert f"[[{table_of}]]" in refused.value.report()


def test_the_checks_themselves_catch_a_bent_answer():
    """A landing in mid-air, a ray a degree out: both are noticed."""
    answer = {"lens": [0, 0, 6], "face": [0, 4, 3], "throw": 5.0, "heading": 0.0}
    check_ray(answer | {"down": degrees(atan2(3, 4))})
    with pytest.raises(AssertionError):
        check_ray(answer | {"down": degrees(asin(3 / 5)) + 1})
    assert on_box([0.5, 0.5, 1.0], (0, 0, 0, 1, 1, 1), 1e-9)
    assert not on_box([0.5, 0.5, 0.7], (0, 0, 0, 1, 1, 1), 1e-9)
    assert not on_panel([0.5, 0.5, 0.7], ((0, 0, 1), (1, 0, 1), (1, 1, 2), (0, 1, 2)), 1e-9)
