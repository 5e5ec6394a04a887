"""Pipes, booms and stands as they are written, and the pipes that cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from aimcalc.scene.model import Circuit
from aimcalc.scene.records import Place, place_of
from tests.scene.written import only, refused, write_scene


def _pipe(**keys: object) -> str:
    lines = [f"{key} = {value}" for key, value in keys.items()]
    return "\n".join(["", "[[pipe]]", *lines, ""])


ACROSS: dict[str, object] = {"name": '"P"', "trim": 6, "y": 2, "from": -5, "to": 5}


def test_a_pipe_across_has_two_ends_at_its_trim(tmp_path: Path) -> None:
    scene = load_scene(write_scene(tmp_path, _pipe(**ACROSS)))
    pipe = scene.pipes[-1]
    assert (pipe.start, pipe.end) == ((-5.0, 2.0, 6.0), (5.0, 2.0, 6.0))
    assert pipe.zero == "centre line"


def test_a_pipe_keeps_its_ends_in_the_order_written(tmp_path: Path) -> None:
    scene = load_scene(write_scene(tmp_path, _pipe(**{**ACROSS, "from": 5, "to": -5})))
    assert scene.pipes[-1].start == (5.0, 2.0, 6.0)


def test_a_pipe_by_two_points_is_measured_from_its_middle(tmp_path: Path) -> None:
    text = _pipe(name='"P"', start='["3 m SR", "1 m US", 5]', end="[3, 2, 5.5]")
    pipe = load_scene(write_scene(tmp_path, text)).pipes[-1]
    assert (pipe.start, pipe.end) == ((-3.0, 1.0, 5.0), (3.0, 2.0, 5.5))
    assert pipe.zero == "middle"


def test_everything_else_of_a_pipe_is_kept(tmp_path: Path) -> None:
    text = _pipe(
        **ACROSS,
        zero='"start"',
        clamp_opens='"us"',
        measured="true",
        rating='"250 kg"',
        pipe_weight='"4.05 kg/m"',
        lines='[1, "5 m SL", 9]',
        circuits='[{name = 12, at = "1 m SL", limit = "20 A", plug = "stage pin"}, {name = "b", at = 2}]',
    )
    pipe = load_scene(write_scene(tmp_path, text)).pipes[-1]
    assert pipe.clamp_opens == "US"
    assert pipe.measured is True
    assert (pipe.rating, pipe.pipe_weight) == (250.0, 4.05)
    assert pipe.lines == (1.0, 5.0, 9.0)
    assert pipe.circuits == (
        Circuit(name="12", at=1.0, limit_amps=20.0, plug="stage pin"),
        Circuit(name="b", at=2.0),
    )


def test_booms_and_stands_are_kept(tmp_path: Path) -> None:
    text = '[[boom]]\nname = "B"\nx = 3\ny = "2 m DS"\nheight = 4\nsquare = "SR"\n'
    text += 'circuits = [{name = "1", at = 3}]\n'
    text += '[[stand]]\nname = "S"\nx = 1\ny = 2\nz = 0.4\ncircuits = [{name = "2"}]\n'
    scene = load_scene(write_scene(tmp_path, text))
    boom, stand = scene.booms[-1], scene.stands[-1]
    assert (boom.x, boom.y, boom.height, boom.square) == (3.0, -2.0, 4.0, "SR")
    assert boom.circuits == (Circuit(name="1", at=3.0),)
    assert (stand.x, stand.y, stand.z) == (1.0, 2.0, 0.4)
    assert stand.circuits == (Circuit(name="2", at=0.0),)
    assert scene.stands[0].z is None


def test_a_place_says_how_its_units_are_measured(tmp_path: Path) -> None:
    scene = load_scene(write_scene(tmp_path))
    places = {p.name: place_of(p, "pipe") for p in scene.pipes}
    across, along = scene.pipes
    assert places == {
        "LX 1": Place("pipe", "x", True, pipe=across),
        "side": Place("pipe", "y", True, pipe=along),
    }
    assert place_of(None, "boom") == Place("boom", "any", True)


@pytest.mark.parametrize(
    ("changes", "key", "expected"),
    [
        ({"trim": 0}, "trim", "a height greater than 0"),
        ({"trim": '"-6 m"'}, "trim", "a height greater than 0"),
        ({"trim": "nan"}, "trim", "at most 1000 m"),
        ({"from": 5}, "to", "two ends that are not in one place"),
        ({"y": '"2 m SL"'}, "y", "with US or DS"),
        ({"from": '"5 m US"'}, "from", "with SL or SR"),
        ({"zero": '"center"'}, "zero", "one of: centre line, middle, start, end"),
        ({"clamp_opens": '"up"'}, "clamp_opens", "one of: SL, SR, US, DS"),
        ({"rating": 250}, "rating", "a weight with its unit"),
        ({"pipe_weight": '"4 kg"'}, "pipe_weight", "a weight per length with its unit"),
        ({"measured": '"perhaps"'}, "measured", "true or false"),
        ({"lines": 3}, "lines", "a list of lengths along the pipe"),
        ({"lines": '["1 m US"]'}, "lines", 'value 1 is "1 m US"'),
        ({"start": "[0, 0, 0]"}, "end", "end, which this entry needs"),
        ({"circuits": "[1]"}, "circuits", "a table {name, at, limit}"),
        ({"circuits": '[{name = "1"}]'}, "at", "at, which this entry needs"),
        ({"circuits": '[{name = "1", at = 0, limit = 20}]'}, "limit", '"20 A" or "2400 W"'),
        ({"name": '""'}, "name", "a name"),
    ],
)
def test_an_impossible_pipe_is_refused(
    tmp_path: Path, changes: dict[str, object], key: str, expected: str
) -> None:
    mistakes = refused(write_scene(tmp_path, _pipe(**{**ACROSS, **changes})))
    assert (mistakes[0].key, expected in mistakes[0].expected) == (key, True), mistakes


def test_a_pipe_that_runs_beside_the_centre_line_has_no_zero_there(tmp_path: Path) -> None:
    text = _pipe(name='"P"', start="[3, 0, 5]", end="[3, 4, 5]", zero='"centre line"')
    assert only(write_scene(tmp_path, text)).expected == "a pipe that crosses the centre line"


def test_an_upright_pipe_is_sent_to_the_booms(tmp_path: Path) -> None:
    text = _pipe(name='"P"', start="[3, 0, 0]", end="[3, 0, 4]")
    assert "[[boom]]" in only(write_scene(tmp_path, text)).do


def test_a_pipe_is_given_in_one_way_only(tmp_path: Path) -> None:
    text = _pipe(name='"P"', start="[0, 0, 5]", end="[3, 0, 5]", trim=5, y=0)
    assert [m.key for m in refused(write_scene(tmp_path, text))] == ["trim", "y"]


def test_every_mistake_of_a_pipe_is_told_at_once(tmp_path: Path) -> None:
    text = _pipe(**{**ACROSS, "trim": -1, "y": '"x"', "rating": 3, "colour": 1, "zero": '"no"'})
    assert {m.key for m in refused(write_scene(tmp_path, text))} == {
        "trim",
        "y",
        "rating",
        "",
        "zero",
    }


@pytest.mark.parametrize(
    ("table", "missing"),
    [("pipe", ["trim", "y", "from", "to"]), ("boom", ["x", "y", "height"]), ("stand", ["x", "y"])],
)
def test_what_a_position_needs_is_asked_for(tmp_path: Path, table: str, missing: list[str]) -> None:
    mistakes = refused(write_scene(tmp_path, f'[[{table}]]\nname = "P"\n'))
    assert [m.key for m in mistakes] == missing
