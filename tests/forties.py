"""Forties of hang lists with their right readings, a folder each: their names, and how they are read."""

from __future__ import annotations

from pathlib import Path

from tests.unseen7.test_unseen7 import case, differences

FEWEST_READ = 37  # of forty; of the others a careful person has to ask


def names_in(here: Path) -> list[str]:
    """The lists of the forties of a folder, as forty/list."""
    return sorted(f"{path.parent.name}/{path.stem}" for path in here.glob("*/*.toml"))


def read_otherwise(name: str, here: Path, folder: Path) -> list[str]:
    """Where a list is read in another way than a careful person reads it; `folder` takes its scene."""
    forty, _, stem = name.partition("/")
    return differences(stem, folder / "scene", here / forty)


def check_forty(forty: str, here: Path) -> None:
    """A forty is forty, of which three at most have to be asked about."""
    names = sorted(path.stem for path in (here / forty).glob("*.toml"))
    assert len(names) == 40
    assert sum("asked" not in case(name, here / forty) for name in names) >= FEWEST_READ
