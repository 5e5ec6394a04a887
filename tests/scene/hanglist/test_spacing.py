"""Units with a number and no place, hung by a spacing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, scene_of, told_of, units_of

HEAD = "Position,Unit,Type,Focus"


def _rows(*numbers: str) -> str:
    return "\n".join([HEAD, *(f"LX 2,{number},wide,Door" for number in numbers)]) + "\n"


@pytest.mark.parametrize(
    "numbers", ["2-1 2-2 2-4", "A1 A2 A4", "2.1 2.2 2.4", "LX2/01 LX2/02 LX2/04"]
)
def test_numbers_that_begin_alike_are_spaced_as_whole_ones(tmp_path: Path, numbers: str) -> None:
    found = places_of(tmp_path, _rows(*numbers.split()))
    assert found == pytest.approx([0.675, 0.225, -0.675])
    assert "assumed 0.45 m apart about the centre line" in told_of(
        tmp_path, _rows(*numbers.split())
    )


@pytest.mark.parametrize("numbers", ["1-1 2-1", "1 2 2A", "1/2"])
def test_other_numbers_are_not_spaced(tmp_path: Path, numbers: str) -> None:
    assert "Add at" in asked_of(tmp_path, _rows(*numbers.split()))


def test_numbers_that_became_dates_are_written_as_a_line_writes_them(tmp_path: Path) -> None:
    rows = _rows("1-Feb", "2-Feb", "3-Feb")
    line = '"Unit = electric-number (2-1, 2-2 ...), revised 4/9",,,\n'
    assert [number for _, number, *_ in units_of(tmp_path, line + rows)] == ["2-1", "2-2", "2-3"]
    assert [number for _, number, *_ in units_of(tmp_path, rows)] == ["2-1", "2-2", "2-3"]


def test_numbers_that_became_dates_are_written_as_those_that_did_not(tmp_path: Path) -> None:
    found = units_of(tmp_path, _rows("1-Feb", "2-Feb", "2-13"))
    assert [number for _, number, *_ in found] == ["2-1", "2-2", "2-13"]


def _spaced(*cells: str, head: str = "Spacing") -> str:
    rows = [f"LX 2,{n},wide,Door,{cell}" for n, cell in enumerate(cells, start=1)]
    return "\n".join([f"{HEAD},{head}", *rows]) + "\n"


@pytest.mark.parametrize(
    ("head", "cell"),
    [
        ("Spacing", "1.5 m about centre"),
        ("Place", "1.5 m about centre"),
        ("Place", "every 1.5m about CL"),
        ("Spacing", "1.5 m spacing"),
        ("Spacing", "150 cm apart"),
        ("Spacing", '"equal, 1.5 m"'),
        ("Distance", "1500 spacing about CL"),
        ("Distance (mm)", "1500 spacing about CL"),
        ("Distance (cm)", "150 spacing about CL"),
    ],
)
def test_cells_that_say_how_far_apart_the_units_are(tmp_path: Path, cell: str, head: str) -> None:
    found = scene_of(tmp_path, _spaced(cell, cell, cell, head=head))
    assert [unit.at for unit in found.units] == [1.5, 0.0, -1.5]
    told = [taken.says for taken in found.taken if taken.rule == "list-spacing"]
    assert "1.50 m apart about the centre line, number 1 at the SL end, as the list says" in told[0]
    assert asked_of(tmp_path, _spaced(*["1.5 m apart"] * 3, head="Place"))


def test_a_figure_read_as_millimetres_is_told(tmp_path: Path) -> None:
    told = told_of(tmp_path, _spaced(*["1500 spacing about CL"] * 3, head="Distance"))
    assert '"1500" from unit to unit is read as millimetres' in told


@pytest.mark.parametrize("head", ["Distance", "Spacing"])
@pytest.mark.parametrize("size", ["0 m", "0.00001 m", "9000", "3000 m"])
def test_units_that_cannot_hang_so_far_apart_are_asked(
    tmp_path: Path, size: str, head: str
) -> None:
    asked = asked_of(tmp_path, _spaced(*[f"{size} spacing about CL"] * 3, head=head))
    assert "rows 2, 3, 4" in asked


def test_the_first_cell_alone_may_say_it(tmp_path: Path) -> None:
    assert places_of(tmp_path, _spaced("@ 2 m", "", "")) == [2.0, 0.0, -2.0]


def test_lines_that_say_where_the_first_hangs_or_its_side_are_heard(tmp_path: Path) -> None:
    for first in ("First unit 3 m SL", "First unit 3 m SL then towards SR"):
        assert asked_of(tmp_path, f"{first},,,,\n" + _spaced(*["1.5 m spacing"] * 3))
    for turned in ("Numbered from SR", "Units go towards SL", "Number 1 is at the SR end"):
        for cell in ("1.5 m about centre", "1.5 m spacing"):
            found = places_of(tmp_path, f"{turned},,,,\n" + _spaced(*[cell] * 3))
            assert found == [-1.5, 0.0, 1.5]


def test_cells_of_a_spacing_from_an_end_are_told_with_a_warning(tmp_path: Path) -> None:
    """LX 2 ends at 5 m SL: the first unit is one spacing in from there."""
    found = scene_of(tmp_path, _spaced(*["every 60 cm from SL end"] * 3))
    assert [unit.at for unit in found.units] == pytest.approx([4.4, 3.8, 3.2])
    told = [taken for taken in found.taken if taken.rule == "list-spacing"]
    assert [taken.severity for taken in told] == ["warn"]
    assert "from the SL end, number 1 first, one spacing in from it" in told[0].says


@pytest.mark.parametrize(
    "cells",
    [
        ("1.5 m about centre", "2 m about centre"),
        ("1.5 m about centre", "2 m SL"),
        ("1.5 m about centre",),
        ("1.5 m off centre", "1.5 m off centre"),
        ("1.5 m each side of centre",) * 2,
        ("every 1 m from US end",) * 2,
    ],
)
def test_cells_that_say_no_one_spacing_are_asked_about(
    tmp_path: Path, cells: tuple[str, ...]
) -> None:
    assert asked_of(tmp_path, _spaced(*cells))
