"""Cells that say that units are spread evenly, and from which end they are numbered. The pipe is 10 m long,
its zero in the middle."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from aimcalc.scene.hanglist.places.evenspread import even_from
from tests.scene.hanglist.places import HEADINGS, listed, places, read, units
from tests.scene.written import refused


@pytest.mark.parametrize(
    ("cell", "begins"),
    [
        ("evenly spaced, SL to SR", "SL"),
        ("evenly spaced, unit 1 at stage left", "SL"),
        ("even, stage right to stage left", "SR"),
        ("equal spacing, start at SR end", "SR"),
        ("spread evenly end to end, #1 is SR", "SR"),
        ("evenly spaced PS - OP", "SL"),
        ("evenly, numbered from the US end", "US"),
        ("evenly spaced end to end", ""),
        ("evenly spaced, SL to US", None),
        ("even, left to right", None),  # whose?
        ("evenly spaced from 2 m SL", None),
        ("spread evenly, SL to SR, 1 at SR", None),
        ("1 m SL", None),
    ],
)
def test_the_end_that_a_cell_says(cell: str, begins: str | None) -> None:
    assert even_from(cell) == begins


def _rows(*cells: Any) -> list[list[Any]]:
    return [HEADINGS, *units("LX 1", *cells), ["side", 1, "1 m US", "spot", "A"]]


@pytest.mark.parametrize("rest", ["", "even", "evenly spaced, SR to SL"])
def test_the_first_number_hangs_at_the_end_that_is_said(tmp_path: Path, rest: str) -> None:
    scene = read(tmp_path, _rows("evenly spaced, SR to SL", rest, rest, rest))
    assert places(scene) == [-3.75, -1.25, 1.25, 3.75]


def test_a_cell_over_empty_ones_speaks_of_all(tmp_path: Path) -> None:
    assert places(read(tmp_path, _rows("evenly spaced", "", ""))) == [3.333333, 0.0, -3.333333]


@pytest.mark.parametrize(
    "cells",
    [
        ("evenly spaced, SR to SL", "evenly spaced, SL to SR"),
        ("evenly spaced, US to DS", "even"),  # of a pipe across the stage
        ("evenly spaced, SL to SR", "1 m SL", ""),
    ],
)
def test_what_does_not_agree_is_asked(tmp_path: Path, cells: tuple[str, ...]) -> None:
    assert refused(listed(tmp_path, _rows(*cells)))
