"""Columns whose heading has the word of a colour, a channel or a circuit, and that are of something else."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import scene_of


def _read(tmp_path: Path, head: str, cells: str) -> list[tuple[object, ...]]:
    rows = [f"LX 1,{n},spot,{n / 2} SL,A,{cell}" for n, cell in enumerate(cells.split(), start=1)]
    text = "\n".join([f"Bar,Unit,Type,Place,Focus,{head}", *rows]) + "\n"
    scene = scene_of(tmp_path, text)
    told = "\n".join(taken.says for taken in scene.taken)
    units = scene.units
    remarks = [unit.note for unit in units if unit.note]
    assert bool(remarks) == (f'kept as a remark of the unit: "{head}"' in told)
    return [(unit.colour, unit.channel, unit.circuit) for unit in units]


@pytest.mark.parametrize(
    ("head", "cells"),
    [
        ("Gel sheets", "1 2 1"),
        ("Channels used", "1 1 4 1"),
        ("Ch used", "4 4 4"),
        ("Circuit (A)", "15 16 15"),
        ("Circuit (A)", "15A 16A 15A"),
        ("Socket (A)", "15 16 16"),
        ("Plug", "15A 16A 15A"),
        ("15A outlet", "y n y"),
        ("Colour (K)", "3200 5600 3200"),
    ],
)
def test_they_are_remarks_where_the_heading_says_so(tmp_path: Path, head: str, cells: str) -> None:
    assert set(_read(tmp_path, head, cells)) == {(None, None, None)}


@pytest.mark.parametrize(
    ("head", "cells"),
    [
        ("Gel sheets", "L201 L202 L203"),
        ("Gel sheet", "2 2 19"),
        ("Channels used", "5 6 7"),
        ("Ch used", "1 1 1 2 2 2"),
        ("Circuit (A)", "A1 A2 A3"),
        ("Circuit (A)", "1 2 3"),
        ("Plug", "15 16 17"),
        ("15A outlet", "3 4 5"),
        ("Circuit", "15A 16A 17A"),
    ],
)
def test_and_what_they_are_called_where_the_cells_are_such(
    tmp_path: Path, head: str, cells: str
) -> None:
    assert all(any(found) for found in _read(tmp_path, head, cells))
