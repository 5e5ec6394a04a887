"""Hang lists typed, each with its right reading, before how lists are read was looked at.

First reading: 22 of 40 as a careful person reads them. The other 18:

- silently wrong: from-sr-end (places from an end read as from the centre line), ranges (three units as one),
  cut (a unit that was cut hung), id-column (brackets kept round its channels);
- wrong, and a note told so: many-hands, signed, signed-right, two-sides (places kept as remarks, others
  assumed in their stead), no-colour, legend-beside (a remark too many);
- read, and told by `aimcalc check` only: hidden-rows;
- refused, and a person could read them: columns-of-spaces, feet-and-inches, kinds-said, memo-in-the-middle,
  position-lines; and with a question that a person may ask too: dates-day-first, line-numbers.

What was typed beside them has changed in five since: a unit that is called cut is left out and warned of,
where it was asked about (cut); and in four, where it was wrong: units on a stand have its mount
(memo-in-the-middle), a hidden row is read and warned of (hidden-rows), a sheet named after each pipe is read
as the pipe's (sheet-a-pipe), and "area 1 warm" is area 1 (purposes). Notes are named by the words that they
have.
"""

from __future__ import annotations

from pathlib import Path

import pytest

import aimcalc
from tests.messy import cases

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))


@pytest.mark.parametrize("name", NAMES)
def test_an_unseen_list_is_read_as_it_is_typed_or_asked_about(name: str, tmp_path: Path) -> None:
    assert cases.wrong(cases.case(name, HERE), tmp_path / "scene", HERE) == []


def test_there_are_forty_and_most_of_them_load() -> None:
    typed = [cases.case(name, HERE) for name in NAMES]
    assert len(typed) == 40
    assert sum("units" in what for what in typed) >= 34


def test_a_hidden_row_is_warned_of(tmp_path: Path) -> None:
    show = aimcalc.read(cases.write(cases.case("hidden-rows", HERE), tmp_path / "scene", HERE))
    assert "hidden-rows" in {finding.rule for finding in show.findings}
