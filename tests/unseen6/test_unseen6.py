"""Forty more hang lists of ordinary rigs, typed with their right readings before any was read.

A case is written and compared as in `tests.unseen3.test_unseen3`; `# ...` at its top says what the list is.
`workbooks.py` writes the XLSX and ODS files.

First reading: 28 of 40 as a careful person reads them: 25 read right and told, 3 asked about as they should.
The other 12: 8 refused though they can be read, 3 read wrong with a note that tells it, and 1 whose question
`check` asks, as a STOP, and the reading itself does not. None silently, none asked about without need.
Of the 28 four failed as typed and were put right, by how a scene is typed alone: units on booms and stands
have their own `mount` and `arm_to`. No unit, place or name was changed after the reading.
Since then: 40 of 40, by the rules that the twelve lacked (`test_rules.py`). `WRONG` is for what becomes of
one that is not.

One list was to be asked about and is read with a warning by a later rule: a bare L or R is the stage's where
most units are then aimed to their own side (bare-sides).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unseen3.test_unseen3 import case, marked, wrong

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))
WRONG: dict[str, str] = {}


@pytest.mark.parametrize("name", marked(NAMES, WRONG))
def test_a_list_is_read_as_a_careful_person_reads_it(name: str, tmp_path: Path) -> None:
    assert wrong(name, tmp_path / "scene", HERE) == []


def test_there_are_forty_and_four_at_most_must_be_asked_about() -> None:
    assert len(NAMES) == 40
    assert sum("asked" in case(name, HERE) for name in NAMES) <= 4
