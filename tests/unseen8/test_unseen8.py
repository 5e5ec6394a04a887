"""Forty more hang lists of forty imagined people, a third of them tidy, typed blind with right readings.

Written and compared as those of `tests/unseen7`. First reading: 31 of 40 as a careful person reads them; the
other 9 were refused though they can be read (PS and OP without a line that says which, a heading "Job",
"25/50" for a zoom, "Window sun"), none read wrong in silence. `WRONG` is what becomes of those still wrong.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unseen3.test_unseen3 import marked
from tests.unseen7.test_unseen7 import case, differences

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))
WRONG: dict[str, str] = {}


@pytest.mark.parametrize("name", marked(NAMES, WRONG))
def test_a_list_is_read_as_a_careful_person_reads_it(name: str, tmp_path: Path) -> None:
    assert differences(name, tmp_path / "scene", HERE) == []


def test_there_are_forty_and_two_at_most_must_be_asked_about() -> None:
    assert len(NAMES) == 40
    assert sum("asked" in case(name, HERE) for name in NAMES) <= 2
