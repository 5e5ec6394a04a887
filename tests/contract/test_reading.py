"""What the scene's tables promise: keys needed, keys that may stand, one report of all mistakes."""

from __future__ import annotations

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from tests.toml_rig import KIND, kind, level_pipe, one, table, unit, written

# Every key of every table, with a value that is right.
FULL = {
    "pipe": {
        "name": "p", "trim": "6 m", "y": "1 m US", "from": "5 m SR", "to": "5 m SL", "zero": "middle",
        "clamp_opens": "DS", "measured": True, "rating": "200 kg", "pipe_weight": "4.05 kg/m",
        "lines": [-4, "4 m SL"],
        "circuits": [{"name": "c1", "at": "1 m SL", "limit": "20 A"},
                     {"name": "c2", "at": -1, "limit": "2400 W"}],
    },
    "boom": {"name": "b", "x": -5, "y": 1, "height": "4 m", "square": "SL"},
    "stand": {"name": "s", "x": 2, "y": "3 m DS", "z": 0.1},
    "target": {"name": "t", "x": 0, "y": 4, "z": 0, "face_height": 1.5, "plane": "face"},
    "kind": {
        **KIND, "beam": 12, "peak_cd": 90000, "lumens": 9000, "oval": [10, 20], "nose": "0.3 m",
        "rise": "1 cm", "length": 0.6, "width": "10 in", "weight": "15 lb", "watts": 750,
        "yoke_range": [-90, 90], "tail": "3'", "tail_exit": [0.2, 0.1], "has_frame": True, "has_gobo": False,
    },
    "unit": {
        "position": "p", "number": 1, "at": 0, "kind": "k", "target": "t", "mount": "out", "swing_out": 20,
        "system": "front", "channel": 14, "circuit": "c1", "colour": "blue", "transmission": 0.4,
        "precise": True, "hung": "tail down", "connector": "0.3 m",
    },
    "solid": {"name": "riser", "box": [0, 6, 0, 2, 8, 0.5], "stand_on": True},
    "seats": {"name": "stalls", "outline": [[-5, -9], [5, -9], [5, -6], [-5, -6]], "eye": 1.1},
}  # fmt: skip
SCENE = (
    'unit = "m"\nface_height = 1.6\nsight_out = "2 m"\ntolerance = 0.2\nvolts = 230\nrevision = "B"\n'
    'note = "After the rehearsal"'
)
STAGE = (
    "[stage]\noutline = [[-6, 0], [6, 0], [6, 9], [-6, 9]]\nacting = [[-5, 1], [5, 1], [5, 8]]\n"
    'rake = "1:20"\nrake_from = 1\n'
)


def toml(spare=None, **changed):
    """All tables, one key of one table left out or changed."""
    tables = {name: dict(keys) for name, keys in FULL.items()}
    if spare:
        del tables[spare[0]][spare[1]]
    for name, keys in changed.items():
        tables[name] |= keys
    circuits = [
        f"{{{', '.join(f'{k} = {_value(v)}' for k, v in c.items())}}}"
        for c in tables["pipe"].pop("circuits")
    ]
    plain = {name: table(name, **keys) for name, keys in tables.items()}
    plain["pipe"] += f"circuits = [{', '.join(circuits)}]\n"
    return [STAGE, *plain.values()]


def _value(value):
    return f'"{value}"' if isinstance(value, str) else value


def report(folder, *tables, scene=SCENE):
    with pytest.raises(SceneError) as caught:
        load_scene(written(folder, *tables, scene=scene, kinds=" "))
    return caught.value


def test_every_key_of_the_contract_is_taken(tmp_path):
    scene = load_scene(written(tmp_path, *toml(), scene=SCENE, kinds=" "))
    (pipe,), (told,), k = scene.pipes, scene.units, scene.kinds["k"]
    assert pipe.lines == (-4, 4)
    assert [(c.limit_amps, c.limit_watts) for c in pipe.circuits] == [(20, None), (None, 2400)]
    assert pipe.pipe_weight == pytest.approx(4.05)
    assert k.width == pytest.approx(0.254)
    assert k.tail == pytest.approx(0.9144)
    assert k.weight == pytest.approx(6.80388555)  # 15 lb of 0.45359237 kg
    assert (told.channel, told.transmission, told.connector) == ("14", 0.4, pytest.approx(0.3))
    assert (scene.stage.rake, scene.settings.sight_out) == (0.05, 2)
    assert scene.seats[0].eye == 1.1


NEEDED = {
    "pipe": ("name", "trim", "y", "from", "to"),
    "boom": ("name", "x", "y", "height"),
    "stand": ("name", "x", "y"),
    "target": ("name", "x", "y"),
    "kind": ("name", "family"),
    "unit": ("position", "number", "at", "kind", "target"),
    "solid": ("name", "box"),
    "seats": ("name", "outline", "eye"),
}


@pytest.mark.parametrize(("name", "key"), [(n, k) for n, keys in NEEDED.items() for k in keys])
def test_a_needed_key_is_missed_by_name(tmp_path, name, key):
    told = report(tmp_path, *toml(spare=(name, key)))
    assert any(m.table == f"[[{name}]]" and m.key == key for m in told.mistakes), told.report()


def test_a_kind_needs_its_field_unless_something_else_gives_it(tmp_path):
    bare = {key: value for key, value in KIND.items() if key != "field"}
    told = report(tmp_path, level_pipe(), unit(point=[0, 4, 1]), table("kind", **bare))
    assert [m.key for m in told.mistakes] == ["field"]


def test_a_scene_needs_its_title(tmp_path):
    path = tmp_path / "s.toml"
    path.write_text("[scene]\nunit = 'm'\n")
    with pytest.raises(SceneError, match="title"):
        load_scene(path)


WRONG = [
    ("pipe", {"trimm": 6}, "trim"),  # unknown key, nearest spelling
    ("pipe", {"zero": "centreline"}, "centre line"),
    ("pipe", {"clamp_opens": "upstage"}, "US"),
    ("pipe", {"trim": "-6 m"}, "greater than 0"),
    ("pipe", {"trim": "6 furlongs"}, "length"),
    ("pipe", {"to": "5 m SR"}, "not in one place"),
    ("pipe", {"rating": 200}, "kg"),  # a weight without its unit
    ("boom", {"square": "left"}, "SL"),
    ("target", {"plane": "floor"}, "deck"),
    ("kind", {"family": "profile"}, "ers"),
    ("kind", {"field": 200}, "180"),
    ("kind", {"yoke_range": [90, -90]}, "least"),
    ("unit", {"position": "q"}, "pipe, boom or stand"),
    ("unit", {"kind": "kk"}, "k"),
    ("unit", {"target": "T1"}, "t"),
    ("unit", {"mount": "hanging"}, "under"),
    ("unit", {"mount": "arm", "arm": 0.5}, "under"),  # a pipe takes no arm
    ("unit", {"point": [0, 4, 1]}, "either"),
    ("unit", {"hung": "up"}, "tail up"),
    ("unit", {"transmission": 40}, "0.25"),
    ("unit", {"at": "2 m US"}, "SL or SR"),
    ("solid", {"panel": [[0, 0, 0], [1, 0, 0], [1, 0, 1], [0, 0, 1]]}, "one shape"),
    ("seats", {"outline": [[0, 0], [1, 1]]}, "3"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "keys", "said"), WRONG)
def test_a_wrong_value_is_told_with_table_key_and_what_would_do(tmp_path, name, keys, said):
    told = report(tmp_path, *toml(**{name: keys}))
    text = told.report()
    assert f"[[{name}]]" in text
    assert next(iter(keys)) in text
    assert said in text
    assert "rig.toml" in text


def test_all_mistakes_come_in_one_report(tmp_path):
    told = report(tmp_path, *toml(pipe={"trimm": 6}, boom={"x": "up"}, kind={"field": -3}))
    assert {m.table for m in told.mistakes} >= {"[[pipe]]", "[[boom]]", "[[kind]]"}


def test_start_and_end_leave_trim_out(tmp_path):
    both = table("pipe", name="p", trim=6, start=[-3, 0, 6], end=[3, 0, 6])
    assert "trim" in report(tmp_path, both, kind()).report()


def test_a_pipe_that_never_meets_the_centre_line_has_no_zero_there(tmp_path):
    beside = table("pipe", name="p", start=[4, 0, 6], end=[4, 6, 6], zero="centre line")
    assert "centre line" in report(tmp_path, beside, kind()).report()


def test_a_scene_may_do_without_a_stage(tmp_path):
    assert one(tmp_path, level_pipe(), unit(point=[0, 4, 1]))["down"] > 0
