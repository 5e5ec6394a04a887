"""Rungs that places count, a bar at the back that is no other bar, a unit that is not used."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.places import HEADINGS, places, read, units

RUNGS = ["Bar", "Unit", "rung", "Type", "Focus"]


@pytest.mark.parametrize("word", ["rungs", "slots", "marks"])
def test_rungs_are_counted_where_a_line_says_their_spacing(tmp_path: Path, word: str) -> None:
    line = [f"a unit every 50 cm on the {word} - number 0 is centre"]
    heads = ["Bar", "Unit", word[:-1], "Type", "Focus"]
    line[0] = line[0].replace("number 0", "0")
    scene = read(tmp_path, [line, heads, *units("LX 1", "4 SR", "3 SL")])
    assert places(scene) == [-2.0, 1.5]


def test_rungs_of_no_spacing_are_asked(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="rungs"):
        read(tmp_path, [RUNGS, *units("LX 1", "4 SR", "3 SL")])


def test_a_back_bar_is_not_the_one_bar_with_a_name(tmp_path: Path) -> None:
    rows = [HEADINGS, *units("Back bar", "2 SR", "2 SL")]
    with pytest.raises(SceneError, match="Back bar"):
        read(tmp_path, rows)


@pytest.mark.parametrize("words", ["not this year", "Not in use", "not needed", "not tonight"])
def test_a_unit_that_is_not_used_is_left_out(tmp_path: Path, words: str) -> None:
    rows = [[*HEADINGS, "OK?"], *units("LX 1", "2 SR", "1 SR", "2 SL")]
    assert len(read(tmp_path, [*rows[:-1], [*rows[-1], words]]).units) == 2


def test_a_remark_that_begins_so_is_of_something_else(tmp_path: Path) -> None:
    rows = [[*HEADINGS, "OK?"], *units("LX 1", "2 SR", "1 SR", "2 SL")]
    scene = read(tmp_path, [*rows[:-1], [*rows[-1], "not needed before act 2"]])
    assert len(scene.units) == 3
