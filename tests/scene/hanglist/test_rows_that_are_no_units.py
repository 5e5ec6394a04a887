"""Rows of a list that are no units: counts in words, and those with a line through them."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.listrow import is_total
from aimcalc.scene.hanglist.rowkinds import lined_out
from tests.scene.hanglist.places import HEADINGS, places, read, told, units


@pytest.mark.parametrize(
    "row", [["", 2, "lanterns in total"], ["", "", "Lanterns:", 2], ["Units: ", 2]]
)
def test_a_count_in_words_is_no_unit(tmp_path: Path, row: list[object]) -> None:
    scene = read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", "1 m SR"), row])
    assert places(scene) == [3.0, -1.0]


@pytest.mark.parametrize("words", ["lantern", "Lamp 3:", "lights: off", "no"])
def test_other_words_count_nothing(words: str) -> None:
    assert not is_total(words)


def test_a_row_that_is_lined_out_in_a_text_is_cut(tmp_path: Path) -> None:
    row = ["~~LX 1~~", "~~3~~", "~~0~~", "-", "~~A~~"]
    scene = read(tmp_path, [HEADINGS, *units("LX 1", "3 m SL", "1 m SR"), row])
    assert places(scene) == [3.0, -1.0]
    assert told(scene, "cut", "row 4")


def test_a_word_that_is_lined_out_cuts_no_row() -> None:
    assert not lined_out(["LX 1", "~~3~~ 4", "0"])
    assert not lined_out(["-", "--", ""])


def test_a_line_says_of_what_a_vague_column_of_lengths_is(tmp_path: Path) -> None:
    head = ["Bar", "Unit", "from end", "Type", "Focus"]
    line = ["All bar measurements from SR END of bar, metres"]
    scene = read(tmp_path, [line, head, *units("LX 1", "1.50", "4.80")])
    assert places(scene) == [-3.5, -0.2]
