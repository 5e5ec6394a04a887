"""Units with a number and no place, hung by a spacing."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, told_of, units_of

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
    assert [number for _, number, *_ in units_of(tmp_path, rows)] == ["2/1", "2/2", "2/3"]


def test_numbers_that_became_dates_are_written_as_those_that_did_not(tmp_path: Path) -> None:
    found = units_of(tmp_path, _rows("1-Feb", "2-Feb", "2-13"))
    assert [number for _, number, *_ in found] == ["2-1", "2-2", "2-13"]
