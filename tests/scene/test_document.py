"""The TOML of a scene: parsed in bounded time, or refused with its line."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from aimcalc.scene.document import parse
from aimcalc.scene.mistakes import Wrong
from tests.scene.written import BASE, UNIT, only, refused, write_scene


def _parse(tmp_path: Path, text: str) -> object:
    path = tmp_path / "scene.toml"
    path.write_text(text, encoding="utf-8")
    return parse(str(path))


def test_a_mark_and_line_ends_of_another_system_change_nothing(tmp_path: Path) -> None:
    assert _parse(tmp_path, "\ufeff[scene]\r\ntitle = 'x'\r\n") == {"scene": {"title": "x"}}


def test_a_syntax_error_names_its_line_and_shows_it(tmp_path: Path) -> None:
    with pytest.raises(Wrong, match="TOML") as caught:
        _parse(tmp_path, "[scene]\ntitle = 'x'\n\n[[pipe]]\ntrim = 18'-6\"\n")
    assert caught.value.came is not None
    assert caught.value.came.startswith('line 5, "trim = 18\'-6"')
    assert "in quotes" in caught.value.do


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("a = " + "[" * 500_000, "lists in lists"),
        ("a = " + "{a = " * 100_000, "lists in lists"),
        (".".join(["a"] * 100_000) + " = 1", "so many dots"),
        (" . ".join(['"a b"'] * 50_000) + " = 1", "so many dots"),
        ("[" + ".".join(["a"] * 100_000) + "]", "so many dots"),
        ("a = " + "9" * 5000, "TOML that can be read"),
        ("x" * 3_100_000, "at most 3 MB"),
    ],
)
def test_text_made_to_choke_the_parser_is_refused_quickly(
    tmp_path: Path, text: str, reason: str
) -> None:
    begun = time.process_time()
    with pytest.raises(Wrong, match=reason):
        _parse(tmp_path, text)
    assert time.process_time() - begun < 2.0


def test_a_line_of_many_decimal_numbers_is_no_dotted_key(tmp_path: Path) -> None:
    row = ", ".join(["[1.25, 2.5]"] * 200)
    assert _parse(tmp_path, f"a = [{row}]  # 1.1 2.2 3.3 and so on") == {"a": [[1.25, 2.5]] * 200}


def test_an_unknown_table_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    mistake = only(write_scene(tmp_path, "[[pipes]]\nname = 'x'\n"))
    assert mistake.came == '"pipes"'
    assert mistake.advice() == 'Did you mean "pipe"?'


def test_brackets_of_the_wrong_number_are_told(tmp_path: Path) -> None:
    single = write_scene(tmp_path / "single", UNIT.replace("[[unit]]", "[unit]"))
    assert only(single).expected.startswith("[[unit]], in double brackets")
    double = write_scene(tmp_path / "double", base=BASE.replace("[scene]", "[[scene]]"))
    assert "in single brackets" in refused(double)[1].expected
    number = write_scene(tmp_path / "number", base="pipe = 3\n" + BASE.split("[[pipe]]")[0])
    assert {mistake.came for mistake in refused(number)} == {"3"}


def test_a_name_given_twice_is_told_across_the_sorts_of_position(tmp_path: Path) -> None:
    mistake = only(write_scene(tmp_path, '[[boom]]\nname = "LX 1"\nx = 1\ny = 1\nheight = 3\n'))
    assert mistake.place() == 'scene.toml, [[boom]] "LX 1", name'
    assert mistake.expected == "a name that no other [[pipe]] has"


@pytest.mark.parametrize(
    "twice",
    [
        '[[target]]\nname = "A"\nx = 1\ny = 1\n',
        '[[kind]]\nname = "spot"\nfamily = "pc"\nfield = 30\n',
        '[[solid]]\nname = "s"\nbox = [0, 0, 0, 1, 1, 1]\n' * 2,
        '[[seats]]\nname = "s"\noutline = [[0, 0], [1, 0], [0, 1]]\neye = 1\n' * 2,
    ],
)
def test_a_name_given_twice_is_told_in_every_table(tmp_path: Path, twice: str) -> None:
    assert "a name that no other" in only(write_scene(tmp_path, twice)).expected
