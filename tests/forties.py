"""Forties of hang lists with their right readings, a folder each: their names, and how they are read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from tests.unseen3.test_unseen3 import marked
from tests.unseen7.test_unseen7 import case, differences

MANY = 40
MOST_ASKED = 3  # of forty: a careful person has to ask about these


def forties_of(
    file: str, wrong: Mapping[str, str], most_asked: int = MOST_ASKED
) -> tuple[Callable[[str, Path], None], Callable[[str], None]]:
    """The tests of the forties beside a file: that each list is read as a careful person reads it, but for
    those that are `wrong`, and that each forty is one."""
    here = Path(file).parent
    names = sorted(f"{path.parent.name}/{path.stem}" for path in here.glob("*/*.toml"))

    @pytest.mark.parametrize("name", marked(names, wrong))
    def test_reading(name: str, tmp_path: Path) -> None:
        forty, _, stem = name.partition("/")
        assert differences(stem, tmp_path / "scene", here / forty) == []

    @pytest.mark.parametrize("forty", sorted({name.partition("/")[0] for name in names}))
    def test_forty(forty: str) -> None:
        lists = [path.stem for path in (here / forty).glob("*.toml")]
        assert len(lists) == MANY
        assert sum("asked" in case(name, here / forty) for name in lists) <= most_asked

    return test_reading, test_forty
