"""Sheets that call themselves old beside one that does not, and versions of which none does."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.test_joined import Rows, _asked, _read, _told

HEAD = ["Position", "No", "Place", "Type", "Focus"]
NOW: Rows = [HEAD, ["LX 1", 1, "3 m SL", "spot", "A"]]
BEFORE: Rows = [HEAD, ["LX 1", 1, "3 m SR", "spot", "A"], ["LX 2", 1, "1 m SR", "wide", "Door"]]


@pytest.mark.parametrize(
    ("name", "old"),
    [
        ("Act 2", "OLD last season"),
        ("Hang", "Hang (old)"),
        ("Hang v2", "Hang v1 OLD"),
        ("Hang", "Archive 2024"),
        ("Hang", "Template"),
        ("Hang", "Copy of Hang"),
        ("Hang", "DON'T USE"),
        ("Hang", "Hang - previous version"),
        ("Spring play", "Autumn play (old)"),
        ("Show", "last year's list"),
        ("Final", "Draft"),
        ("Liste", "Alte Version"),
        ("Plan de feu", "Saison dernière"),
        ("LX1", "LX1 old"),
    ],
)
@pytest.mark.parametrize("first", [True, False])
def test_a_sheet_that_calls_itself_old_is_left_out(
    name: str, old: str, first: bool, tmp_path: Path
) -> None:
    sheets = {old: BEFORE, name: NOW} if first else {name: NOW, old: BEFORE}
    scene = _read(tmp_path, sheets)
    assert [(unit.position, unit.at) for unit in scene.units] == [("LX 1", 3.0)]
    assert f'left out, for it says that it is not to be used: sheet "{old}"' in _told(scene)


@pytest.mark.parametrize("line", ["OLD", "Old version - keep for reference", "ARCHIVE", "v1 OLD"])
def test_a_sheet_whose_title_calls_it_old_is_left_out(line: str, tmp_path: Path) -> None:
    scene = _read(tmp_path, {"Sheet1": NOW, "Sheet2": [[line], *BEFORE]})
    assert [unit.at for unit in scene.units] == [3.0]


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("Hang v2", "Hang v1"),
        ("Hang", "Hang (2)"),
        ("Hang 2026", "Hang 2025"),
        ("Hang", "Draft"),
        ("Hang", "Copy of Plot"),
        ("Show", "Old specials"),
        ("Show", "Old Mill"),
        ("Show", "Last night"),
        ("Show", "Alt"),
        ("Show", "Dead hang"),
        ("Old rig", "Old list"),
    ],
)
def test_two_versions_are_asked_about(name: str, other: str, tmp_path: Path) -> None:
    asked = _asked(tmp_path, {name: NOW, other: BEFORE})
    assert "one sheet that holds the units, and 2 may" in asked


@pytest.mark.parametrize("line", ["Old rig of the hall", "Hang list of the Old Mill"])
def test_a_title_with_another_old_thing_is_asked_about(line: str, tmp_path: Path) -> None:
    assert "and 2 may" in _asked(tmp_path, {"Sheet1": NOW, "Sheet2": [[line], *BEFORE]})


def test_a_sheet_named_after_a_bar_that_is_called_old_is_asked_about(tmp_path: Path) -> None:
    bar = '[[pipe]]\nname = "Old Hang"\ntrim = 6\ny = 5\nfrom = -5\nto = 5\n'
    one: Rows = [HEAD[1:], [1, "3 m SL", "spot", "A"]]
    with pytest.raises(SceneError) as refused:
        _read(tmp_path, {"LX 2": one, "Old Hang": one}, bar)
    assert "and 2 may" in refused.value.report()
