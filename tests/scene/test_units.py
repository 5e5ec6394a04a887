"""Units: mounts by their position, stage words by its direction, names that must exist."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Unit
from tests.scene.written import BASE, only, refused, unit, write_scene


def _unit(tmp_path: Path, **keys: object) -> Unit:
    return load_scene(write_scene(tmp_path, unit(**keys))).units[0]


def test_everything_of_a_unit_is_kept(tmp_path: Path) -> None:
    found = _unit(
        tmp_path,
        number='"7A"',
        at='"1.5 m SR"',
        system='"front warm"',
        channel=101,
        circuit='"1-4"',
        colour=201,
        transmission=0.7,
        precise="true",
        turn='"up and down"',
        hung='"tail up"',
        works="false",
        connector='"25 cm SL"',
    )
    assert (found.position, found.number, found.at) == ("LX 1", "7A", -1.5)
    assert (found.system, found.channel, found.circuit) == ("front warm", "101", "1-4")
    assert (found.colour, found.transmission, found.precise) == ("201", 0.7, True)
    assert (found.turn, found.hung, found.works) == (90.0, "tail up", False)
    assert (found.connector, found.target, found.point) == (0.25, "A", None)
    assert found.source == "scene.toml, [[unit]] no. 1"


def test_a_unit_may_point_at_a_point(tmp_path: Path) -> None:
    found = _unit(tmp_path, target=None, point='["1 m SR", "2 m US", 1.5]')
    assert (found.target, found.point) == (None, (-1.0, 2.0, 1.5))


@pytest.mark.parametrize(
    ("keys", "mount"),
    [
        ({}, "under"),
        ({"mount": '"over"'}, "over"),
        ({"swing_out": '"30 DS"'}, "out"),
        ({"position": '"boom SR"', "arm_to": '"SL"'}, "direct"),
        ({"position": '"boom SR"', "arm_to": '"SL"', "arm": 0.4}, "arm"),
        ({"position": '"floor"', "at": None}, "stand"),
    ],
)
def test_the_mount_is_the_usual_one_of_the_position(
    tmp_path: Path, keys: dict[str, object], mount: str
) -> None:
    assert _unit(tmp_path, **keys).mount == mount


def test_an_arm_reaches_towards_a_word_or_a_heading(tmp_path: Path) -> None:
    keys: dict[str, object] = {"position": '"boom SR"', "at": 3, "arm": 0.4}
    assert _unit(tmp_path, **keys, arm_to='"DS"').arm_to == 180.0
    assert _unit(tmp_path, **keys, arm_to="45").arm_to == 45.0


@pytest.mark.parametrize(
    ("keys", "swing", "side"),
    [
        ({"swing_out": '"30 DS"'}, 30.0, "DS"),
        ({"swing_out": "45", "mount": '"out"'}, 45.0, "US"),
        ({"swing_out": "45", "arm_to": '"US"'}, 45.0, "US"),
        ({"swing_out": '"45 SL"', "position": '"side"'}, 45.0, "SL"),
    ],
)
def test_a_unit_swung_out_knows_its_side(
    tmp_path: Path, keys: dict[str, object], swing: float, side: str | None
) -> None:
    found = _unit(tmp_path, **keys)
    assert (found.mount, found.swing_out, found.out_to) == ("out", swing, side)
    assert found.arm_to is None


@pytest.mark.parametrize(
    ("position", "at", "metres"),
    [
        ("LX 1", "3 m SL", 3.0),
        ("LX 1", "3 m SR", -3.0),
        ("LX 1", "centre", 0.0),
        ("side", "2 m US", 2.0),
        ("side", "2 m DS", -2.0),
    ],
)
def test_along_a_pipe_the_plus_side_is_stage_left_or_upstage(
    tmp_path: Path, position: str, at: str, metres: float
) -> None:
    assert _unit(tmp_path, position=f'"{position}"', at=f'"{at}"').at == metres


@pytest.mark.parametrize(
    ("position", "at"), [("LX 1", "3 m US"), ("side", "2 m SL"), ("boom SR", "2 m US")]
)
def test_a_stage_word_across_the_position_is_refused(
    tmp_path: Path, position: str, at: str
) -> None:
    keys: dict[str, object] = {"position": f'"{position}"', "at": f'"{at}"'}
    if position == "boom SR":
        keys["arm_to"] = '"SL"'
    mistake = only(write_scene(tmp_path, unit(**keys)))
    assert (mistake.key, mistake.do.endswith("it does not go with this key.")) == ("at", True)


def test_centre_is_no_place_on_a_pipe_measured_from_its_end(tmp_path: Path) -> None:
    base = BASE.replace("to = 5\n", 'to = 5\nzero = "start"\n')
    assert only(write_scene(tmp_path, unit(at='"centre"'), base=base)).key == "at"


def test_numbers_given_twice_and_places_off_the_pipe_are_left_to_the_findings(
    tmp_path: Path,
) -> None:
    scene = load_scene(write_scene(tmp_path, unit(at="9"), unit(at="-9"), unit(at="-9")))
    assert [u.number for u in scene.units] == ["1", "1", "1"]


@pytest.mark.parametrize(
    ("keys", "key", "expected"),
    [
        ({"position": None}, "position", "position, which this entry needs"),
        ({"number": None}, "number", "number, which this entry needs"),
        ({"kind": None}, "kind", "kind, which this entry needs"),
        ({"at": None}, "at", "at, which this entry needs"),
        ({"target": None}, "target", "a target's name, or a point"),
        ({"point": "[0, 0, 0]"}, "point", "either a target or a point"),
        ({"position": '"LX1"'}, "position", "the name of a pipe, boom or stand"),
        ({"target": '"a"'}, "target", "the name of a target"),
        ({"kind": '"spot light"'}, "kind", "the name of a kind, of the scene or generic"),
        ({"mount": '"arm"'}, "mount", "a pipe takes under, over, out"),
        ({"mount": '"sideways"'}, "mount", "one of: under, over, out, arm, direct, stand"),
        ({"mount": '"under"', "swing_out": "30"}, "swing_out", "no swing_out"),
        ({"mount": '"out"'}, "swing_out", "degrees round the pipe"),
        ({"swing_out": '"30 SL"'}, "swing_out", "can swing to: US or DS"),
        ({"swing_out": "30", "arm_to": "45"}, "arm_to", "can swing to: US or DS"),
        ({"arm": "0.4"}, "arm", "only a unit on a boom has an arm"),
        ({"position": '"floor"'}, "at", "a stand is a point"),
        ({"position": '"floor"', "at": None, "mount": '"under"'}, "mount", "a stand takes stand"),
        ({"position": '"boom SR"'}, "arm_to", "the direction from the boom to the unit"),
        ({"position": '"boom SR"', "mount": '"arm"', "arm_to": "0"}, "arm", "arm, which"),
        (
            {"position": '"boom SR"', "mount": '"direct"', "arm_to": "0", "arm": "1"},
            "arm",
            "no arm with a unit clamped straight",
        ),
        ({"transmission": "0"}, "transmission", "a share over 0"),
        ({"transmission": "1.1"}, "transmission", "a share over 0"),
        ({"hung": '"sideways"'}, "hung", "one of: tail down, tail up"),
        ({"at": "nan"}, "at", "at most 1000 m"),
        ({"at": "1e308"}, "at", "at most 1000 m"),
        ({"number": '"7\\u0007"'}, "number", "without control characters"),
        ({"color": '"red"'}, "", "a known key"),
    ],
)
def test_an_impossible_unit_is_refused(
    tmp_path: Path, keys: dict[str, object], key: str, expected: str
) -> None:
    mistake = only(write_scene(tmp_path, unit(**keys)))
    assert (mistake.key, expected in mistake.expected) == (key, True), mistake.text()


def test_what_hangs_on_a_refused_pipe_is_not_refused_for_it(tmp_path: Path) -> None:
    base = BASE.replace("trim = 6", "trim = 0")
    path = write_scene(tmp_path, unit(at='"3 m SL"'), unit(at='"3 m US"'), base=base)
    assert only(path).key == "trim"


def test_a_generic_kind_is_known_and_an_own_one_of_its_name_wins(tmp_path: Path) -> None:
    text = unit(kind='"ers-30"')
    assert load_scene(write_scene(tmp_path / "a", text)).kinds["ers-30"].typical is True
    own = '[[kind]]\nname = "ers-30"\nfamily = "ers"\nfield = 31\n'
    kind = load_scene(write_scene(tmp_path / "b", text, own)).kinds["ers-30"]
    assert (kind.field, kind.typical) == (31.0, False)


def test_the_scene_holds_its_own_kinds_and_the_generic_ones_it_uses(tmp_path: Path) -> None:
    scene = load_scene(write_scene(tmp_path, unit(kind='"pc-30"')))
    assert sorted(scene.kinds) == ["pc-30", "spot"]


def test_every_mistake_of_a_unit_is_told_at_once(tmp_path: Path) -> None:
    text = unit(position='"LX"', target='"Z"', kind='"?"', number='""', hung='"x"', turn='"x"')
    keys = {mistake.key for mistake in refused(write_scene(tmp_path, text))}
    assert keys == {"position", "target", "kind", "number", "hung", "turn"}
