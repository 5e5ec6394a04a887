"""Cells of a place or a position that say something else beside it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, scene_of, told_of

HEAD = "position,number,at,kind,target\nLX 1,1,1 m SL,spot,A\n"


@pytest.mark.parametrize(
    ("cell", "note"),
    [
        ("2 m SL (new)", "new"),
        ("2 m SL - iris", "iris"),
        ("2 m SL, top hat", "top hat"),
        ("2 m SL on boom arm", "on boom arm"),
        ("2 m SL w/ BD", "w/ BD"),
        ("2 m SL was 1.8 m", "was 1.8 m"),
        ("2 m SL (was 1.8 m SR)", "was 1.8 m SR"),
    ],
)
def test_a_place_with_more(tmp_path: Path, cell: str, note: str) -> None:
    text = f'{HEAD}LX 1,2,"{cell}",spot,A\n'
    unit = scene_of(tmp_path / "a", text).units[1]
    assert (unit.at, unit.note) == (2.0, note)
    assert cell in told_of(tmp_path / "b", text)


@pytest.mark.parametrize(
    "cell",
    [
        "2 m SL?",
        "~2 m SL",
        "approx. 2 m SL",
        "2 m SL or so",
        "±2 m",
        "2 m SL*",  # of which a line may say from where it counts
        "2 m SL -> 3 m SL",
        "2 m SL not 3",
        "2 m SL x2",
        "2 m SL / SR",
        "2 m SL, US side",
        "2 m (from the wall)",
        "2 m SL (other way round)",
        "2 m SL - see drawing",
    ],
)
def test_what_may_be_another_place_is_asked(tmp_path: Path, cell: str) -> None:
    assert "at" in asked_of(tmp_path, f'{HEAD}LX 1,2,"{cell}",spot,A\n')


@pytest.mark.parametrize(
    ("cell", "note"),
    [
        ("LX 1 spare", "spare"),
        ("LX1 - dead hung", "dead hung"),
        ("LX1 on boom arm", "on boom arm"),
        ("LX 1 (bar 14)", "bar 14"),
        ("LX 1 (line set 7)", "line set 7"),
        ("LX1-4", None),
        ("LX 1/4", None),
    ],
)
def test_a_position_with_more(tmp_path: Path, cell: str, note: str | None) -> None:
    unit = scene_of(tmp_path, f"{HEAD}{cell},4,2 m SL,spot,A\n").units[1]
    assert (unit.position, unit.number, unit.note) == ("LX 1", "4", note)


@pytest.mark.parametrize("cell", ["LX1-5", "LX 1 below", "LX 1 US side", "LX 1 (LX 2)", "LX 1 SL"])
def test_what_may_be_another_position_is_asked(tmp_path: Path, cell: str) -> None:
    assert "position" in asked_of(tmp_path, f"{HEAD}{cell},4,2 m SL,spot,A\n")
