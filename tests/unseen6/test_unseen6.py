"""Forty more hang lists of ordinary rigs, typed with their right readings before any was read.

A case is written and compared as in `tests.unseen3.test_unseen3`; `# ...` at its top says what the list is.
`workbooks.py` writes the XLSX and ODS files.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.unseen3.test_unseen3 import case, wrong

HERE = Path(__file__).parent
NAMES = sorted(path.stem for path in HERE.glob("*.toml"))
WRONG: dict[str, str] = {}


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.xfail(strict=True, reason=WRONG[name]))
        if name in WRONG
        else name
        for name in NAMES
    ],
)
def test_a_list_is_read_as_a_careful_person_reads_it(name: str, tmp_path: Path) -> None:
    assert wrong(name, tmp_path / "scene", HERE) == []


def test_there_are_forty_and_four_at_most_must_be_asked_about() -> None:
    assert len(NAMES) == 40
    assert sum("asked" in case(name, HERE) for name in NAMES) <= 4
