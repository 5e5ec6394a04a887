"""Values of a scene set for one call: where they go, and what is told of those that go nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import Mistake, SceneError
from tests.scene.written import UNIT, unit, write_scene

FT = 0.3048


def told(path: str, *typed: str) -> list[Mistake]:
    """What is wrong with a scene of which this is set."""
    with pytest.raises(SceneError) as caught:
        load_scene(path, typed)
    return list(caught.value.mistakes)


@pytest.fixture
def scene(tmp_path: Path) -> str:
    return write_scene(tmp_path / "s", UNIT, unit(number="2", at='"1 m SR"'))


def test_a_trim_is_set_and_the_file_stays_as_it_is(scene: str) -> None:
    file = Path(scene, "scene.toml")
    before = file.read_bytes()
    found = load_scene(scene, ["LX 1.trim=5.8 m"])
    assert [end[2] for end in (found.pipes[0].start, found.pipes[0].end)] == [5.8, 5.8]
    assert found.what_if == ("LX 1.trim=5.8 m",)
    assert load_scene(scene).pipes[0].start[2] == 6.0
    assert load_scene(scene).what_if == ()
    assert file.read_bytes() == before


@pytest.mark.parametrize(
    "typed", ["5.8 m", "5.8", "  5.8  ", '"5.8 m"', "'5.8 m'", "580cm", '"580 cm"']
)
def test_a_value_is_toml_or_plain_text(scene: str, typed: str) -> None:
    assert load_scene(scene, [f"LX 1.trim={typed}"]).pipes[0].start[2] == pytest.approx(5.8)


def test_a_length_with_inch_marks_needs_no_quotes(scene: str) -> None:
    trim = load_scene(scene, ["LX 1.trim=18'-6 1/2\""]).pipes[0].start[2]
    assert trim == pytest.approx(18 * FT + 6.5 * FT / 12)


def test_settings_tables_made_for_it_points_and_lists_are_reached(scene: str) -> None:
    asked = [
        "scene.face_height=1.5 m",
        "stage.rake=0.05",
        "A.x=2 m SL",
        "spot.field=19",
        "boom SR.square=SL",
        "LX 1/2.point=[1, 2, 3]",
        "LX 1/2.target=",
        "LX 1.lines=[-3, 3]",
    ]
    found = load_scene(scene, asked)
    assert found.settings.face_height == 1.5
    assert found.stage.rake == 0.05
    assert found.targets[0].x == 2.0
    assert found.kinds["spot"].field == 19.0
    assert found.booms[0].square == "SL"
    assert (found.units[1].point, found.units[1].target) == ((1.0, 2.0, 3.0), None)
    assert found.pipes[0].lines == (-3.0, 3.0)


def test_the_unit_of_bare_numbers_can_be_set_too(scene: str) -> None:
    assert load_scene(scene, ["scene.unit=ft"]).pipes[0].start[2] == pytest.approx(6 * FT)


def test_a_unit_of_a_hang_list_is_found_like_one_of_the_scene(tmp_path: Path) -> None:
    path = write_scene(tmp_path / "s", settings='hang = "hang.csv"')
    Path(path, "hang.csv").write_text("position,number,at,kind,target\nLX 1,7,1,spot,A\n")
    found = load_scene(path, ["LX 1/7.at=2 m SR", "LX 1/7.channel=12"])
    assert (found.units[0].at, found.units[0].channel) == (-2.0, "12")
    assert Path(path, "hang.csv").read_text().endswith("LX 1,7,1,spot,A\n")


def test_names_are_found_whatever_their_capitals_and_spaces(scene: str) -> None:
    found = load_scene(scene, ["lx  1.trim=5", "BOOM sr.height=3", "lx 1/2.at=0.5"])
    assert (found.pipes[0].start[2], found.booms[0].height, found.units[1].at) == (5.0, 3.0, 0.5)


@pytest.mark.parametrize(
    ("typed", "says", "advice"),
    [
        ("LX1.trim=5", "the name of something in the scene", 'Did you mean "LX 1"?'),
        ("side/3.at=5", "position/number of a unit", "There is: LX 1."),
        ("LX 9/1.at=5", "position/number of a unit", 'Did you mean "LX 1/1"?'),
        ("LX 1.trimm=5", "a key of [[pipe]]", 'Did you mean "trim"?'),
        ("LX 1/1.chanel=5", "a key of [[unit]]", 'Did you mean "channel"?'),
        ("scene.face_hight=5", "a key of [scene]", "face_height"),
        ("LX 1.trim=high", "a length such as", ""),
        ("LX 1/1.target=B", "the name of a target", "There is: A"),
        ("LX 1", "NAME.KEY=VALUE", ""),
        ("trim=5", "NAME.KEY=VALUE", ""),
        ("", "NAME.KEY=VALUE", ""),
        (f"A.x={'9' * 1000}", "NAME.KEY=VALUE", ""),
        ("A.x=1\x00", "NAME.KEY=VALUE", ""),
        ("ers-5.field=20", "the name of something in the scene", "[[kind]]"),
    ],
)
def test_what_is_nobodys_is_told_with_the_option_that_asked(
    scene: str, typed: str, says: str, advice: str
) -> None:
    (mistake,) = told(scene, typed)
    assert mistake.place().startswith("--set ")
    assert says in mistake.expected
    assert advice in mistake.advice()


def test_mistakes_of_what_is_set_and_of_the_file_come_in_one_report(tmp_path: Path) -> None:
    path = write_scene(tmp_path / "s", unit(target='"nowhere"'))
    places = [mistake.place() for mistake in told(path, "LX 1.trim=high", "LX 2.trim=3", "x")]
    assert len(places) == 4
    assert sum(place.startswith("--set") for place in places) == 3


def test_a_mistake_beside_what_is_set_is_still_told_where_it_stands(tmp_path: Path) -> None:
    path = write_scene(tmp_path / "s", unit(colour="3.5", mount='"sideways"'))
    (mistake,) = told(path, "LX 1/1.colour=red")
    assert mistake.file == "scene.toml"
    assert mistake.key == "mount"


def test_one_name_for_two_things_is_asked_about_and_its_table_settles_it(tmp_path: Path) -> None:
    solid = '[[solid]]\nname = "A"\nbox = [0, 0, 0, 1, 1, 1]\n'
    stand = '[[stand]]\nname = "A"\nx = 2\ny = 2\n'
    path = write_scene(tmp_path / "s", UNIT, solid, stand)
    assert load_scene(path, ["A.stand_on=true"]).solids[0].stand_on  # only one of them has the key
    (mistake,) = told(path, "A.x=1")
    assert 'Say "stand A.x" or "target A.x".' in mistake.advice()
    assert load_scene(path, ["target A.x=1"]).targets[0].x == 1.0


def test_a_key_set_twice_is_refused(scene: str) -> None:
    (mistake,) = told(scene, "LX 1.trim=5", "lx 1.trim=6")
    assert "once" in mistake.expected
    assert "lx 1.trim=6" in mistake.place()


def test_a_value_that_looks_like_a_date_or_more_than_one_value_is_text(scene: str) -> None:
    found = load_scene(scene, ["LX 1/1.note=2024-05-01", "LX 1/2.colour=L201, R132"])
    assert [unit.note for unit in found.units] == ["2024-05-01", None]
    assert found.units[1].colour == "L201, R132"
    (mistake,) = told(scene, "LX 1.trim=5\nzero = 1")
    assert mistake.key == ""


def test_a_mistake_beside_a_name_that_is_set_is_told_as_what_was_typed(scene: str) -> None:
    typed = ("A.name=door", "A.x={}", "A.name=gate")
    found = told(scene, *typed)
    assert {mistake.file for mistake in found} >= {f'--set "{one}"' for one in typed[1:]}
