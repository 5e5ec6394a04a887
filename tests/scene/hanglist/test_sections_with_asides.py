"""What stands behind the name of a boom over its units: in which order they are listed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import ALTAR, HALL, asked_in, scene_in

HOUSE = f"""{HALL}
[[boom]]
name = "SL Box Boom"
x = 6
y = 2
height = 5

[[boom]]
name = "SR Box Boom"
x = -6
y = 2
height = 5
{ALTAR}"""
ASIDES = [
    "(top down)",
    "- top to bottom",
    "(floor up)",
    "(bottom to top)",
    "(numbered from the top)",
    "(von oben)",
    "(de haut en bas)",
    "(low to high)",
]


def _lines(aside: str, *heights: str) -> list[str]:
    lines = ["No;Where;Lamp;Focus"]
    for boom in ("BOX BOOM SL", "BOX BOOM SR"):
        lines.append(f"{boom}   {aside};;;")
        lines += [f"{n};{height};Spot;Altar" for n, height in enumerate(heights, 1)]
    return lines


@pytest.mark.parametrize("aside", ASIDES)
def test_units_stand_under_a_boom_whose_order_is_said(tmp_path: Path, aside: str) -> None:
    falls = aside in ASIDES[:2] + ASIDES[4:7]
    heights = ("4 m up", "2 m up") if falls else ("2 m up", "4 m up")
    units = scene_in(tmp_path, HOUSE, _lines(aside, *heights)).units
    read = [float(height.split()[0]) for height in heights]
    assert [(unit.position, unit.at) for unit in units] == [
        (boom, at) for boom in ("SL Box Boom", "SR Box Boom") for at in read
    ]


@pytest.mark.parametrize("aside", ASIDES[:2])
def test_heights_that_rise_from_the_top_down_are_asked(tmp_path: Path, aside: str) -> None:
    assert "they rise" in asked_in(tmp_path, HOUSE, _lines(aside, "1 m", "3 m"))
