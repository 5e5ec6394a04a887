"""The words of a scene are those of the keys that its readers take: no key without, none beside."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from aimcalc.coverage.systems import HALF
from aimcalc.scene import loading, tables
from aimcalc.scene.document import LISTS
from aimcalc.scene.document import SINGLE as SINGLE_TABLES
from aimcalc.scene.keys import INSIDE, NEEDED, SINGLE, TABLES
from aimcalc.scene.loading import load_scene
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene

STARTER = Path(loading.__file__).with_name("starter.toml")
READERS = {
    **{name: getattr(tables, f"{name}_readers")("m") for name in (*SINGLE_TABLES, *LISTS)},
    "chords": tables.chord_readers("m", "y"),
    "circuits": tables.circuit_readers("m", "x", True),
}
EVERY = [(table, key) for table, told in TABLES.items() for key in told.keys]

# An entry of each table with nothing in it that could be left out. Values are TOML.
LEAST: dict[str, dict[str, str]] = {
    "scene": {"title": '"t"'},
    "stage": {},
    "errors": {},
    "hang_columns": {},
    "pipe": {"name": '"pipe 1"', "trim": "5", "y": "0", "from": "-5", "to": "5"},
    "boom": {"name": '"boom"', "x": "6", "y": "1", "height": "4"},
    "stand": {"name": '"stand"', "x": "0", "y": "3"},
    "target": {"name": '"area 3"', "x": "0", "y": "3"},
    "kind": {"name": '"ers-30"', "family": '"ers"', "field": "30"},
    "unit": {
        "position": '"pipe 1"',
        "number": "1",
        "at": "0",
        "kind": '"ers-30"',
        "target": '"area 3"',
    },
    "solid": {"name": '"s"', "box": "[0, 0, 0, 1, 1, 1]"},
    "seats": {"name": '"s"', "outline": "[[0, 0], [1, 0], [1, 1]]", "eye": "1"},
    "stock": {"kind": '"ers-30"', "count": "1"},
    "cable": {"length": "5", "count": "1"},
}
BY_POINTS = {"trim": None, "y": None, "from": None, "to": None}
ENDS = {**BY_POINTS, "start": "[-4, 0, 5.2]", "end": "[4, 0, 5.2]"}
ON_BOOM = {"position": '"boom"', "arm_to": '"US"'}
# What else its entry has to say, or must not say, where one key is written (None: left out).
BESIDE: dict[tuple[str, str], dict[str, str | None]] = {
    ("pipe", "trims"): {"trim": None},
    ("pipe", "start"): ENDS,
    ("pipe", "end"): ENDS,
    ("pipe", "through"): ENDS,
    ("kind", "oval"): {"field": None},
    ("kind", "photometry"): {"field": None},
    ("unit", "point"): {"target": None},
    ("unit", "swing_out"): {"mount": '"out"'},
    ("unit", "arm"): ON_BOOM,
    ("unit", "arm_to"): ON_BOOM,
    ("unit", "arm_weight"): {**ON_BOOM, "arm": "0.5"},
    ("solid", "panel"): {"box": None},
    ("solid", "mesh"): {"box": None},
    ("solid", "scale"): {"box": None, "mesh": '"tree.stl"'},
    ("solid", "move"): {"box": None, "mesh": '"tree.stl"'},
}
# Words that another entry has to have, so that one key can be written.
ELSEWHERE: dict[tuple[str, str], dict[str, dict[str, str]]] = {
    ("pipe", "chords"): {"unit": {"chord": '"top"'}},
    ("unit", "chord"): {"pipe": {"chords": '[{ name = "bottom" }]'}},
    ("target", "without"): {"unit": {"system": '"back"'}},
}
FILES = ("corrections.toml", "hang.xlsx", "letters.ttf", "front.ies", "tree.stl")


def _written(entries: dict[str, dict[str, str | None]]) -> str:
    lines = []
    for table, keys in entries.items():
        lines.append(f"[{table}]" if table in SINGLE else f"[[{table}]]")
        lines += [f"{key} = {value}" for key, value in keys.items() if value is not None]
    return "\n".join(lines) + "\n"


def _load(folder: Path, entries: dict[str, dict[str, str | None]]) -> Scene:
    folder.mkdir(exist_ok=True)
    (folder / "scene.toml").write_text(_written(entries), encoding="utf-8")
    for name in FILES:
        (folder / name).write_bytes(b"")
    return load_scene(folder)


def _with(table: str, key: str, value: str) -> dict[str, dict[str, str | None]]:
    entries: dict[str, dict[str, str | None]] = {name: dict(keys) for name, keys in LEAST.items()}
    for name, more in ELSEWHERE.get((table, key), {}).items():
        entries[name] |= more
    entries[table] |= BESIDE.get((table, key), {}) | {key: value}
    return entries


def test_every_table_and_key_that_is_read_is_explained_and_no_other() -> None:
    assert tuple(SINGLE) == SINGLE_TABLES
    assert {name: set(told.keys) for name, told in TABLES.items()} == {
        name: set(readers) for name, readers in READERS.items()
    }


@pytest.mark.parametrize(("table", "key"), EVERY)
def test_the_words_of_a_key_are_there_and_short(table: str, key: str) -> None:
    told = TABLES[table].keys[key]
    assert all(told)
    width = max(map(len, TABLES[table].keys))
    assert 2 + width + 2 + len(told.means) <= 80  # columns of a terminal
    assert not told.means.endswith(".")


@pytest.mark.parametrize(("table", "key"), [each for each in EVERY if each[0] not in INSIDE])
def test_the_example_of_a_key_can_be_written(table: str, key: str, tmp_path: Path) -> None:
    told = TABLES[table].keys[key]
    if (table, key) in (("scene", "hang"), ("scene", "typeface")):  # read whole: named alone here
        READERS[table][key](tomllib.loads(f"x = {told.example}")["x"])
        return
    entries = _with(table, key, told.example)
    if (table, key) == ("unit", "kind"):
        entries["kind"]["name"] = '"another"'
        entries["stock"]["kind"] = '"another"'
    if key == "name" and table in ("pipe", "boom", "target", "kind"):
        entries["unit"]["position"] = '"floor"'
        entries["stand"]["name"] = '"floor"'
        entries["unit"]["at"] = None
        entries["unit"]["target"] = entries["target"]["name"]
        entries["unit"]["kind"] = entries["stock"]["kind"] = entries["kind"]["name"]
    scene = _load(tmp_path, entries)
    assert len(scene.units) == 1


@pytest.mark.parametrize(("table", "key"), [each for each in EVERY if each[0] in INSIDE])
def test_the_example_within_a_list_can_be_written(table: str, key: str, tmp_path: Path) -> None:
    entry = {"name": '"bottom"', **({"at": "0"} if table == "circuits" else {})}
    entry[key] = TABLES[table].keys[key].example
    inside = ", ".join(f"{name} = {value}" for name, value in entry.items())
    entries = _with("pipe", table, f"[{{ {inside} }}]")
    entries["unit"] |= {"chord": entry["name"]} if table == "chords" else {}
    pipe = _load(tmp_path, entries).pipes[0]
    assert len(getattr(pipe, table)) == 1


@pytest.mark.parametrize("table", LEAST)
def test_an_entry_without_a_needed_key_is_refused_and_without_the_others_is_not(
    table: str, tmp_path: Path
) -> None:
    _load(tmp_path, {name: dict(keys) for name, keys in LEAST.items()})
    needed = {key for key, told in TABLES[table].keys.items() if told.default == NEEDED}
    always = {key for sets in TABLES[table].needs if len(sets) == 1 for key in sets[0]}
    assert needed == always
    for key in LEAST[table]:
        entries = {name: dict(keys) for name, keys in LEAST.items()}
        del entries[table][key]
        with pytest.raises(SceneError) as caught:
            _load(tmp_path, entries)
        assert key in {mistake.key for mistake in caught.value.mistakes} or table == "unit"
        assert TABLES[table].keys[key].default.startswith(NEEDED), key


def _given(scene: Scene, table: str, key: str) -> object:
    """What a scene that leaves a key out has for it."""
    record = {
        "scene": scene.settings,
        "stage": scene.stage,
        "errors": scene.errors,
        "pipe": scene.pipes[0],
        "boom": scene.booms[0],
        "stand": scene.stands[0],
        "target": scene.targets[0],
        "kind": scene.kinds["ers-30"],
        "unit": scene.units[0],
        "solid": scene.solids[0],
        "seats": scene.seats[0],
        "stock": scene.stock[0],
        "cable": scene.cables[0],
    }[table]
    return getattr(record, key)


WORKED_OUT_LATER = {  # where the reader leaves None
    ("scene", "gap_below"): HALF,
    ("target", "faces"): 180.0,  # DS, a heading in degrees
}
OTHERWISE = {  # a default told in words whose record has a value all the same
    ("stage", "acting"): (),  # the outline, which is not given either
    ("pipe", "zero"): "centre line",
    ("unit", "mount"): "under",
    ("unit", "arm"): 0.0,
    ("unit", "swing_out"): 0.0,
}


@pytest.mark.parametrize(
    ("table", "key"),
    [
        (table, key)
        for table, key in EVERY
        if table not in (*INSIDE, "hang_columns")
        and not TABLES[table].keys[key].default.startswith(NEEDED)
    ],
)
def test_the_default_told_is_what_a_scene_without_the_key_has(
    table: str, key: str, tmp_path: Path
) -> None:
    default = TABLES[table].keys[key].default
    scene = _load(tmp_path, {name: dict(keys) for name, keys in LEAST.items()})
    given = _given(scene, table, key)
    try:
        raw = tomllib.loads(f"x = {default}")["x"]
    except tomllib.TOMLDecodeError:  # told in words: nothing stands in the record
        assert given in (None, (), "", OTHERWISE.get((table, key))), (default, given)
        return
    told = READERS[table][key](raw)
    assert told == (given if given is not None else WORKED_OUT_LATER[table, key])


STARTER_LINE = re.compile(r"^(\w+) = .*?(?: {2,}# (.*))?$")


def test_the_starter_explains_every_key_where_it_is_first_written() -> None:
    table, seen = "", set()
    for line in STARTER.read_text(encoding="utf-8").splitlines():
        head = re.match(r"\[+(\w+)\]+", line)
        table = head[1] if head else table
        key = STARTER_LINE.match(line)
        if key and (table, key[1]) not in seen:
            seen.add((table, key[1]))
            assert (key[2] or "").startswith(TABLES[table].keys[key[1]].means), line
    assert len(seen) > 30
