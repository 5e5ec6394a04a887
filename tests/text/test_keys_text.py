"""The words of a scene as a list, as Markdown, and as a schema that a public validator understands."""

from __future__ import annotations

import json
import math
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from aimcalc import cli
from aimcalc.scene import loading
from aimcalc.scene.keys import TABLES
from aimcalc.scene.mistakes import Wrong
from aimcalc.text.keys_text import keys_in_short, keys_markdown, keys_schema, keys_text
from tests.scene.test_keys import READERS

ROOT = Path(__file__).parents[2]
SCENES = sorted((ROOT / "scenes").rglob("*.toml"))
SCHEMA = json.loads(keys_schema())
CHECKER = jsonschema.Draft7Validator(SCHEMA)


def _mistakes(scene: dict[str, Any]) -> list[str]:
    return [f"{list(error.path)}: {error.message}" for error in CHECKER.iter_errors(scene)]


def test_the_schema_is_one() -> None:
    jsonschema.Draft7Validator.check_schema(SCHEMA)
    with pytest.raises(jsonschema.SchemaError):  # that it would be seen
        jsonschema.Draft7Validator.check_schema(SCHEMA | {"required": "scene"})


def test_the_schema_takes_every_worked_scene_and_the_starter() -> None:
    starter = Path(loading.__file__).with_name("starter.toml")
    assert len(SCENES) >= 3
    for path in (*SCENES, starter):
        assert _mistakes(tomllib.loads(path.read_text(encoding="utf-8"))) == [], path


def test_the_schema_takes_the_generic_kinds() -> None:
    kinds = tomllib.loads(Path(loading.CATALOGUE).read_text(encoding="utf-8"))["kind"]
    assert _mistakes({"scene": {"title": "t"}, "kind": kinds}) == []


PLANTED = [  # in the studio: what stood there, what stands there now, where the schema points
    ('title = "', 'titel = "', "['scene']"),
    ("face_height = 1.2 ", 'face_height = "tall" ', "['scene', 'face_height']"),
    ('unit = "m"', 'unit = "yd"', "['scene', 'unit']"),
    ("volts = 230", 'volts = "230 W"', "['scene', 'volts']"),
    ("volts = 230", "volts = 230\ncontinuous_share = 80", "['scene', 'continuous_share']"),
    ("measured = true", 'measured = "perhaps"', "['pipe', 0, 'measured']"),
    ('plane = "face"', 'plane = "floor"', "['target', 0, 'plane']"),
    ('pipe_weight = "', 'pipe_weight = "x', "['pipe', 0, 'pipe_weight']"),
    ('\nat = "2.70 m SL"', '\nat = "2.70 yards"', "['unit', 0, 'at']"),
    ('\nat = "2.70 m SL"', '\nat = "SL"', "['unit', 0, 'at']"),
    ('colour = "cool 1"', 'color = "cool 1"', "['unit', 0]"),
    ("[[target]]", "[[tagret]]", "[]"),
    ("[[target]]", "[[target]]\nz = [1]", "['target', 0, 'z']"),
]


@pytest.mark.parametrize(("clean", "wrong", "where"), PLANTED)
def test_the_schema_points_at_a_planted_mistake(clean: str, wrong: str, where: str) -> None:
    text = (ROOT / "scenes" / "studio" / "scene.toml").read_text(encoding="utf-8")
    assert clean in text
    told = _mistakes(tomllib.loads(text.replace(clean, wrong, 1)))
    assert any(mistake.startswith(f"{where}: ") for mistake in told), told


def test_the_schema_asks_for_what_an_entry_needs() -> None:
    scene: dict[str, Any] = {"scene": {"title": "t"}}
    pipe = {"name": "p", "trim": 5, "y": 0, "from": -1, "to": 1}
    assert _mistakes(scene | {"pipe": [pipe]}) == []
    assert _mistakes(scene | {"pipe": [{"name": "p", "start": [0, 0, 5], "end": [1, 1, 5]}]}) == []
    for key in pipe:
        less = {other: value for other, value in pipe.items() if other != key}
        assert _mistakes(scene | {"pipe": [less]}), key
    assert _mistakes({})


# Values of all sorts, right and wrong; some are right for each form.
NUMBERS = [0, 1, 2, -1, 0.25, 1.5, 30, -30, 90, 200, 400, 5000.0, 1e10, math.inf, math.nan]
LENGTHS = [
    *(
        "5.64 m",
        "564cm",
        "222in",
        "18'-6 1/2\"",
        "18'-6.5\"",
        "18 ft 6 in",
        "6′ 2″",
        "3 M",
        "-2.5 m",
    ),
    *("− 3 m", "+2 ft", "½ in", "6-1/2 in", "1,5 m", "12 inches", "3 metres", "4 feet", "2 ''"),
    *("2 m SL", "SR 2 m", "2 m us", "1.5 DS", "centre", "CL", "center  line", ".5 m", "3 m.", "m"),
    *(
        "3 yards",
        "2 m XX",
        "",
        " ",
        "1/0 m",
        "7",
        "-7",
        "1e3",
        "1e-05",
        "6 ft 2 in SL",
        "6ft.2in. US",
    ),
]
QUANTITIES = [
    *("12 kg", "26 lb", "500 g", "4.05 kg/m", "2.72 lb/ft", "750 W", "1.2 kW", "120 V", "20 A"),
    *("2400w", "-5 kg", "0 kg", "12 st", "25 deg", "25°", "25 degrees", "-30 deg", "200°", "1:16"),
    *("1/16", "1 in 16", "2:1", "30 DS", "30° us", "180 DS", "across", "Up and Down", "us", "SR"),
]
WORDS = [
    *(
        "true",
        "YES",
        "x",
        "no",
        "maybe",
        "under",
        "Over",
        "stand",
        "face",
        "Deck",
        "soft",
        "tail up",
    ),
    *(
        "tail  down",
        "ers",
        "PAR",
        "cyc",
        "m",
        "ft",
        "IN",
        "circuit",
        "DATA",
        "centre line",
        "middle",
    ),
    *(
        "start",
        "N/C",
        "a name",
        "two\nlines",
        "x" * 150,
        "front.ies",
        "1; 2; 3",
        "1, 2, 3, 4, 5, 6",
    ),
]
LISTS = [
    *([], [1], [1, 2], [1, 2, 3], ["1 m SL", "2 m US", "3 m"], ["2 m US", "1 m SL", "3 m"]),
    *([0, 0, 0, 1, 1, 1], [[0, 0], [1, 0], [1, 1]], [[0, 0], [1, 0]], [15, 30], [-90, 100]),
    *([[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]], ["a", "b"], ["back"], [["1 m", "2 m"]], {}),
    *(
        [{"name": "1", "at": 0}],
        [True],
        ["1 m DS", "2 m"],
        {"act 1": 5, "act 2": "6 m"},
        {"act 1": "high"},
        [[1, "2 m SR"]],
        [["3 m"]],
    ),
]
VALUES: list[Any] = [True, False, *NUMBERS, *LENGTHS, *QUANTITIES, *WORDS, *LISTS]
KEYS = [(table, key) for table, told in TABLES.items() for key in told.keys]


def _taken(read: Any, value: Any) -> bool:
    try:
        read(value)
    except Wrong:
        return False
    return True


@pytest.mark.parametrize(("table", "key"), KEYS)
def test_the_schema_refuses_nothing_that_is_read(table: str, key: str) -> None:
    whole = SCHEMA["properties"].get(table)
    if whole is None:  # within a list of a pipe's
        whole = SCHEMA["properties"]["pipe"]["items"]["properties"][table]
    one = whole.get("items", whole)["properties"][key]
    checker = jsonschema.Draft7Validator({**one, "definitions": SCHEMA["definitions"]})
    taken = [value for value in VALUES if _taken(READERS[table][key], value)]
    assert taken
    if len(taken) < len(VALUES):  # a key whose reader waits for others takes all
        assert [value for value in taken if not checker.is_valid(value)] == []
        refused = [value for value in VALUES if value not in taken]
        seen = [value for value in refused if not checker.is_valid(value)]
        assert len(seen) > 0.6 * len(refused), [v for v in refused if v not in seen]
    else:
        assert [value for value in VALUES if not checker.is_valid(value)]


def test_the_list_fits_a_terminal_of_80_columns() -> None:
    lines = keys_text(list(TABLES), 80).splitlines()
    assert max(map(len, lines)) <= 80
    starts = {line.split()[0] for line in lines if line.startswith("  ") and line[2] != " "}
    assert {key for _, key in KEYS} <= starts


def test_the_list_for_a_file_has_a_line_a_key() -> None:
    lines = [line.split() for line in keys_text(["unit"]).splitlines()[2:]]
    assert [line[0] for line in lines] == list(TABLES["unit"].keys)


def test_markdown_has_a_row_a_key_with_as_many_cells_each() -> None:
    rows = [line for line in keys_markdown(["pipe"]).splitlines() if line.startswith("|")]
    assert len(rows) == 2 + len(TABLES["pipe"].keys)
    assert {row.count(" | ") for row in rows} == {4}


def test_the_command_names_the_tables_where_one_is_unknown(capsys: Any) -> None:
    assert cli.run(["keys", "truss"]) == 2
    told = capsys.readouterr().err
    assert "'truss'" in told
    assert "chords" in told
    assert cli.run(["keys", "unit", "--json-schema"]) == 2
    capsys.readouterr()
    assert cli.run(["keys", "[[unit]]"]) == 0
    assert "where its clamp is along the position" in capsys.readouterr().out


def test_the_command_writes_the_schema(capsys: Any) -> None:
    assert cli.run(["keys", "--json-schema"]) == 0
    assert json.loads(capsys.readouterr().out) == SCHEMA


def test_readme_has_the_tables_in_short() -> None:
    assert keys_in_short() in (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("aimcalc ke", ["plain,keys"]),
        ("aimcalc keys st", ["plain,stage", "plain,stand", "plain,stock"]),
        ("aimcalc check sc", ["file,sc"]),
        ("aimcalc prep x --pa", ["plain,--paper"]),
    ],
)
def test_a_shell_can_complete(line: str, offered: list[str], monkeypatch: Any, capsys: Any) -> None:
    """What bash asks and is told, as README's line for it sets up."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert 'eval "$(_AIMCALC_COMPLETE=bash_source aimcalc)"' in readme
    monkeypatch.setenv("_AIMCALC_COMPLETE", "bash_complete")
    monkeypatch.setenv("COMP_WORDS", line)
    monkeypatch.setenv("COMP_CWORD", str(len(line.split()) - 1))
    with pytest.raises(SystemExit):
        cli.run([])
    assert capsys.readouterr().out.splitlines() == offered
