"""A line on a sign and a side that nobody understands, over signed places in one column or in two, of feet
and of inches: which side plus is, is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.places import listed, places, read
from tests.scene.written import refused

ONE = [["Bar", "Unit", "Distance", "Type", "Focus"], ["LX 1", 1, "4'6\"", "spot", "A"]]
ONE += [["LX 1", 2, "-3'6\"", "spot", "A"]]
TWO = [["Bar", "Unit", "Feet", "Inches", "Type", "Focus"], ["LX 1", 1, 4, 6, "spot", "A"]]
TWO += [["LX 1", 2, -3, 6, "spot", "A"]]


@pytest.mark.parametrize("rows", [ONE, TWO])
@pytest.mark.parametrize(
    "line",
    [
        "the negative ones all lie on the jardin part",
        "les valeurs négatives sont toutes vers le coin jardin",
        "plus kõik mis house left jääb",
    ],
)
def test_it_is_asked(tmp_path: Path, line: str, rows: list[list[object]]) -> None:
    mistakes = refused(listed(tmp_path, [[line], *rows]))
    assert any(line[:9] in mistake.text() or "sign" in mistake.text() for mistake in mistakes)


@pytest.mark.parametrize("rows", [ONE, TWO])
def test_what_is_understood_is_read(tmp_path: Path, rows: list[list[object]]) -> None:
    assert places(read(tmp_path, [["SR is the + end"], *rows])) == [-1.3716, 1.0668]
