"""Rows of dots between the columns of a text."""

from __future__ import annotations

from aimcalc.scene.hanglist.table.textmarks import without_leaders


def test_rows_of_dots_part_cells() -> None:
    text = (
        "POSITION ...... NO. .. PLACE ....... SHINES ON\n"
        "Bar 1 ......... 1 .... 10 ft S.L. .. Altar\n"
        "Stand ......... 1 .... ............. Pulpit....\n"
    )
    rows = [line.split("\t") for line in without_leaders(text).splitlines()]
    assert rows[0] == ["POSITION", "NO.", "PLACE", "SHINES ON"]
    assert rows[1] == ["Bar 1", "1", "10 ft S.L.", "Altar"]
    assert rows[2][:4] == ["Stand", "1", "", "Pulpit"]


def test_dots_in_words_and_figures_part_nothing() -> None:
    for text in (
        "a, 1.5, wait ... then\n" * 5,
        "Bar 1 .5 .75 ..\n" * 5,
        "Act 1 ... and so on\n" * 5,
    ):
        assert without_leaders(text) == text
