"""Hang lists as people keep them are read as a careful person would, or asked about: none is silently
wrong."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.messy import cases


@pytest.mark.parametrize("name", cases.names())
def test_a_messy_list_is_read_as_it_is_typed_or_asked_about(name: str, tmp_path: Path) -> None:
    assert cases.wrong(cases.case(name), tmp_path / "scene") == []


def test_there_are_forty_of_many_sorts() -> None:
    typed = [cases.case(name) for name in cases.names()]
    assert len(typed) >= 40
    endings = {what["list"].rpartition(".")[2] for what in typed}
    assert endings >= {"csv", "tsv", "xlsx", "ods", "xls"}
    assert sum("asked" in what for what in typed) >= 8
