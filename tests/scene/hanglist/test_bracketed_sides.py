"""The stage, or the house, in brackets behind a left or right, and ends that brackets tell."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.tongues.stagewords import stage_first
from aimcalc.scene.loading import load_scene
from tests.scene.hanglist.places import HEADINGS, places, units
from tests.scene.hanglist.places import listed as listed_plain
from tests.scene.written import refused, write_scene

WINGS = """
[[boom]]
name = "Gasse links"
x = 4
y = 2
height = 4

[[boom]]
name = "Gasse rechts"
x = -4
y = 2
height = 4
"""


def _at_wings(folder: Path, *cells: str) -> list[float]:
    """Where units hang in a house whose wings have the stage's left and right."""
    path = write_scene(folder, WINGS, settings='hang = "hang.csv"')
    rows = [HEADINGS, *units("LX 1", *cells)]
    text = "\n".join(";".join(map(str, row)) for row in rows)
    (folder / "hang.csv").write_text(f"{text}\n", encoding="utf-8")
    return places(load_scene(path))


@pytest.mark.parametrize(
    "cells",
    [
        ("3,2 li. (Bühne)", "2 re. (Bühne)"),
        ("3,2 m links (Bü.)", "2 m rechts (Bü.)"),
        ("3,2 Bü. li.", "2 Bü. re."),
        ("Bü li 3,2", "Bü re 2"),
        ("3,2 g. (scène)", "2 d. (scène)"),
        ("3,2 sx (palco)", "2 dx (palco)"),
        ("3,2 links (toneel)", "2 rechts (toneel)"),
        ("3,2 vänster (scen)", "2 höger (scen)"),
    ],
)
def test_the_stage_behind_its_side(tmp_path: Path, cells: tuple[str, str]) -> None:
    assert _at_wings(tmp_path, *cells) == [3.2, -2.0]
    asked = refused(listed_plain(tmp_path, [HEADINGS, *units("LX 1", *cells)]))
    assert {mistake.entry for mistake in asked} == {"row 2", "row 3"}  # no wings tell whose it is


@pytest.mark.parametrize(
    ("cells", "sign"),
    [
        (("3,2 li. (v. d. Bühne aus)", "2 re. (v. d. Bühne aus)"), 1),
        (("3.2 L (stage)", "2 R (stage)"), 1),
        (("3.2 left (seen from the stage)", "2 right (seen from the stage)"), 1),
        (("3.2 L (house)", "2 R (house)"), -1),
        (("3.2 left (audience)", "2 right (audience)"), -1),
    ],
)
def test_who_sees_it_in_brackets(tmp_path: Path, cells: tuple[str, str], sign: int) -> None:
    path = listed_plain(tmp_path, [HEADINGS, *units("LX 1", *cells)])
    assert places(load_scene(path)) == [3.2 * sign, -2.0 * sign]


@pytest.mark.parametrize(
    "text",
    ["L/R (stage)", "left and right (audience)", "li./re. (Bühne)", "SL (stage)", "3 li. (alt)"],
)
def test_what_is_not_of_one_side_alone(text: str) -> None:
    assert stage_first(text) == text


AISLE = """
[[pipe]]
name = "Aisle Pipe"
start = [-5, {start}, 6]
end = [-5, {end}, 6]
zero = "middle"
"""


@pytest.mark.parametrize(
    "line",
    [
        "Aisle pipe: metres from the back (pew) end of the pipe, walking toward the stage",
        "Aisle pipe: metres from the pew (back) end of the pipe",
        "Aisle pipe: metres from the back end (pews)",
        "Aisle pipe: metres from the far end (by the seats)",
        "Aisle pipe: metres from the end nearest the pews",
    ],
)
@pytest.mark.parametrize(("start", "end"), [(-7, 1), (-2, 6)])  # over the seats, over the stage
def test_an_end_with_what_is_there_in_brackets(
    tmp_path: Path, line: str, start: int, end: int
) -> None:
    path = write_scene(tmp_path, AISLE.format(start=start, end=end), settings='hang = "hang.csv"')
    rows = [HEADINGS, *units("Aisle Pipe", 1, 5)]
    text = "\n".join(";".join(map(str, row)) for row in ([line], *rows))
    (tmp_path / "hang.csv").write_text(f"{text}\n", encoding="utf-8")
    assert places(load_scene(path), "Aisle Pipe") == [-3.0, 1.0]


def test_an_end_that_nothing_tells_is_asked(tmp_path: Path) -> None:
    path = write_scene(tmp_path, AISLE.format(start=-7, end=1), settings='hang = "hang.csv"')
    rows = [["Metres from the back (red) end"], HEADINGS, *units("Aisle Pipe", 1, 5)]
    text = "\n".join(";".join(map(str, row)) for row in rows)
    (tmp_path / "hang.csv").write_text(f"{text}\n", encoding="utf-8")
    assert refused(path)
