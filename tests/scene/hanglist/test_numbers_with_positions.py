"""Numbers that repeat the position of their unit: what follows is the number, where all units have such."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.loading import load_scene
from tests.scene.written import write_scene

HEAD = "Channel,Unit,Bar,Place,Type,Focus\n"


def _numbers(folder: Path, names: tuple[str, ...], *numbers: tuple[str, str]) -> list[str]:
    pipes = [
        f'\n[[pipe]]\nname = "{name}"\ntrim = 6\ny = {y}\nfrom = -9\nto = 9\n'
        for y, name in enumerate(names, 3)
    ]
    path = write_scene(folder, *pipes, settings='hang = "hang.csv"')
    rows = [f"{n},{number},{bar},{n} m SL,spot,A" for n, (bar, number) in enumerate(numbers, 1)]
    (folder / "hang.csv").write_text(HEAD + "\n".join(rows) + "\n", encoding="utf-8")
    return [str(unit.number) for unit in load_scene(path).units]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Perche 2", "P2/"),
        ("Perche 2", "Perche 2 - "),
        ("Pont de face", "Pont "),
        ("Pont de face", "PDF-"),
        ("Bar 3", "B3."),
        ("Bar 3", "Bar3-"),
        ("Front Truss", "FT-"),
        ("Front Truss", "FRT/"),
        ("Track A", "A-"),
        ("Advance", "ADV#"),
    ],
)
def test_the_number_is_what_follows_the_position(name: str, said: str, tmp_path: Path) -> None:
    rows = [(name, f"{said}{n}") for n in (1, 2, 3)]
    assert _numbers(tmp_path, (name, "Pied 2"), *rows) == ["1", "2", "3"]


@pytest.mark.parametrize(
    ("name", "numbers"),
    [
        ("Perche 2", ("P2/1", "7")),  # not all
        ("Perche 2", ("P3/1", "P3/2")),  # those of another
        ("Perche 2", ("P-1", "P-2")),  # of which one
        ("Front Truss", ("FT1", "FT2")),  # an ID
        ("Bar 3", ("Spot 1", "Spot 2")),
    ],
)
def test_other_numbers_stay_as_they_are(
    name: str, numbers: tuple[str, ...], tmp_path: Path
) -> None:
    read = _numbers(tmp_path, (name, "Pied 2"), *((name, number) for number in numbers))
    assert read == list(numbers)


def test_numbers_that_would_be_two_alike_stay(tmp_path: Path) -> None:
    rows = [("Perche 2", "P2/1"), ("Perche 2", "P 2-1")]
    assert _numbers(tmp_path, ("Perche 2", "Pied 2"), *rows) == ["P2/1", "P 2-1"]
