"""Random studies: few cases in an ordinary run, many where `-m long` asks for the studies alone.

A study is marked `long` and takes its number of cases from `cases`.
"""

from __future__ import annotations

at_length = False  # set before any test module is read, see tests/conftest.py


def cases(few: int, many: int) -> int:
    """How many random cases a study takes in this run."""
    return many if at_length else few
