"""Names that are taken for one another."""

from __future__ import annotations

import pytest

from tests import toml_rig
from tests.findings.clean import CLEAN, Scene, found, says, told, with_unit


def renamed(first: str, second: str) -> Scene:
    """Two units of the front pipe, at its SL end, with these numbers."""
    return with_unit("front/2", with_unit("front/1", number=first), number=second)


def alike(scene: Scene) -> list[tuple[str, str]]:
    """Severities and positions of what is told of names; numbers that are words are in no order."""
    return [(f.severity, f.position or "") for f in found(scene) if f.rule == "names-alike"]


@pytest.mark.parametrize(
    ("first", "second"),
    [("01", "1"), ("1A", "1a"), ("A 1", "A1"), ("A-1", "A_1"), ("x 007", "X7")],
)
def test_numbers_that_are_called_out_alike_warn(first: str, second: str) -> None:
    assert alike(renamed(first, second)) == [("warn", "front")]


@pytest.mark.parametrize(
    ("first", "second"),
    [("1", "10"), ("1-1", "11"), ("1.05", "1.5"), ("1 1", "11"), ("100", "1"), ("A", "B")],
)
def test_numbers_that_are_told_apart_are_nothing(first: str, second: str) -> None:
    assert alike(renamed(first, second)) == []


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("A1", "\u0410" + "1"),  # Latin A, Cyrillic A
        ("P1", "\u03a1" + "1"),  # Latin P, Greek Rho
        ("caf\u00e9", "cafe\u0301"),  # one letter, letter and accent
        ("A 1", "A  1"),
    ],
)
def test_numbers_that_print_the_same_stop(first: str, second: str) -> None:
    assert alike(renamed(first, second)) == [("stop", "front")]
    assert "print the same" in says(renamed(first, second), "names-alike")


def test_pipes_targets_and_systems_that_differ_in_case_warn() -> None:
    assert told(CLEAN) == []
    systems = {unit.system for unit in CLEAN.units if unit.system}
    name = sorted(systems)[0]
    scene = with_unit("front/1", system=name.upper())
    assert ("warn", "") in alike(scene)
    assert f'"{name}"' in says(scene, "names-alike")


def test_two_units_of_one_joined_name_stop(tmp_path) -> None:  # type: ignore[no-untyped-def]
    """Position "a" unit "b/1" and position "a/b" unit "1" are both "a/b/1"."""
    tables = []
    for n, (name, number) in enumerate((("a", "b/1"), ("a/b", "1"))):
        tables += [
            toml_rig.table("pipe", name=name, y=-n, trim=6.0, from_=-5, to=5),
            toml_rig.unit(position=name, number=number, point=[0, 3, 1]),
        ]
    (finding,) = (f for f in found(toml_rig.rig(tmp_path, *tables).scene) if f.severity == "stop")
    assert finding.rule == "names-alike"
    assert finding.position == "a"
    assert finding.says == 'Both are called "a/b/1": unit "b/1" of "a" and unit "1" of "a/b".'
