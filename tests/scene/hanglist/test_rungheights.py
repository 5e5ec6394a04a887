"""Units of a boom with a number alone hang on its rungs, where a line tells their heights."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, HALL, asked_in, scene_in

BOOM = '[[boom]]\nname = "Boom 1"\nx = 6\ny = 1\nheight = 4\n'
HOUSE = HALL + BOOM + ALTAR
ROWS = ["Position;Rung;Lamp;Focus", *(f"Boom 1;{n};Spot;Altar" for n in (1, 2, 3))]


def _heights(folder: Path, *lines: str) -> list[float]:
    units = scene_in(folder, HOUSE, [*lines, *ROWS]).units
    return [round(unit.at, 3) for unit in sorted(units, key=lambda unit: str(unit.number))]


@pytest.mark.parametrize(
    "line",
    [
        "rungs: 1 = 0.5 m off the deck, then every 0.8 m",
        "First rung 50 cm off the floor, every 80 cm",
        "Boom arms start at 0.5m off the deck, 0.8m apart",
        "numbered from the floor, bottom rung 0.5 m and 0.8 m between rungs",
        "rung 1 = 0.5m, rung 2 = 1.3m, rung 3 = 2.1m",
        "Booms: 1 at 0.5 m, 2 at 1.3 m, 3 at 2.1 m",
        "Booms SL 1 at 0.5 m, 2 at 1.3 m, 3 at 2.1 m",
        "rungs start at 0.5 m and go up in 0.8 m",
        "Boom 1 is 2 m US; rungs 1 at 0.5 m, 2 at 1.3 m, 3 at 2.1 m",
        "Boom units: 1 at 0.5 m off the stage, 2 at 1.3 m, 3 at 2.1 m",
    ],
)
def test_a_line_tells_the_heights_of_rungs(tmp_path: Path, line: str) -> None:
    assert _heights(tmp_path, line) == [0.5, 1.3, 2.1]


@pytest.mark.parametrize(
    "line",
    [
        "bottom rung 0.5 m off the deck, 0.8 m between",  # is the bottom one number 1?
        "rungs at 0.5 m, 1.3 m, 2.1 m",
        "rung 1 = 0.5 m, rung 2 = 1.3 m",
        "rung 1 is 0.5 m below the top, then every 0.8 m",
        "rung 1 = 2 m, then every 1.5 m",  # past the top
        "Unit 1 is the bottom one",
        "Rungs from the top 1 at 0.5 m, 2 at 1.3 m, 3 at 2.1 m",
        "Boom 2: 1 at 0.5 m, 2 at 1.3 m, 3 at 2.1 m",
    ],
)
def test_rungs_whose_heights_are_not_all_told_are_asked(tmp_path: Path, line: str) -> None:
    assert "a height for each unit" in asked_in(tmp_path, HOUSE, [line, *ROWS])


@pytest.mark.parametrize(
    "line",
    [
        "Booms 4 m tall, 1 m off the legs",
        "Boom 1 is 4 ft US, boom 2 is 9 ft US, boom 3 is 11 ft US",
        "Boom 1 is 4' off the leg, 2 is 9', 3 is 11'",
        "SL booms: boom 1 is 2 m DS of the pros, 2 is 3 m, 3 is 4 m",
        "Booms 1 and 2 are 14' tall",
    ],
)
def test_other_lines_of_booms_leave_the_usual_heights(tmp_path: Path, line: str) -> None:
    assert _heights(tmp_path, line) == _heights(tmp_path)
