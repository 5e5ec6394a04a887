"""Columns a side that are headed by what lies there, where a line says which side that is."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, told_of

HEADED = "{}\nposition,number,{},{},kind,target\n"
ROWS = "LX 1,1,2,,spot,Door\nLX 1,2,,1,wide,Table\nLX 2,1,,3,spot,A\nLX 2,2,centre,,spot,A\n"


def _listed(line: str, one: str = "Street", other: str = "Yard") -> str:
    return HEADED.format(line, one, other) + ROWS


@pytest.mark.parametrize(
    "line",
    [
        "Street = SR",
        "Street is stage right",
        "Yard side = stage left",
        "SL is the yard side",
        "Street (SR) / Yard (SL)",
        "All in metres from centre. Stage right = street; stage left = yard.",
    ],
)
def test_a_line_says_which_side_a_name_is(tmp_path: Path, line: str) -> None:
    assert places_of(tmp_path, _listed(f'"{line}"')) == [-2.0, 1.0, 3.0, 0.0]
    told = told_of(tmp_path, _listed(f'"{line}"'))
    assert '"Street" is SR' in told
    assert "passed over" not in told


@pytest.mark.parametrize("form", ["{} side", "Distance {}", "m from CL {}", "{} (m)"])
def test_in_headings_of_more_words(tmp_path: Path, form: str) -> None:
    text = _listed("Street = SR", form.format("Street"), form.format("Yard"))
    assert places_of(tmp_path, text) == [-2.0, 1.0, 3.0, 0.0]


@pytest.mark.parametrize("line", ["", "Spring show", "Street = SR and Yard = SR"])
def test_what_no_line_says_is_asked(tmp_path: Path, line: str) -> None:
    assert asked_of(tmp_path, _listed(line, "m from CL Street", "m from CL Yard"))


def test_one_column_of_a_name_is_no_side(tmp_path: Path) -> None:
    text = "Street = SR\nposition,number,at,Street,kind,target\nLX 1,1,2 m SL,3,spot,Door\n"
    assert places_of(tmp_path, text) == [2.0]


@pytest.mark.parametrize("pair", [("Street", "Yard"), ("L of C", "R of C"), ("To L", "To R")])
def test_figures_in_the_one_column_or_the_other_are_asked_about(
    tmp_path: Path, pair: tuple[str, str]
) -> None:
    text = _listed("", *pair).replace("LX 2,2,centre,,spot,A\n", "")
    assert pair[0] in asked_of(tmp_path, text)


def test_stage_left_of_the_letter_of_the_centre(tmp_path: Path) -> None:
    text = _listed("", "SR of C", "SL of C (m)")
    assert places_of(tmp_path, text) == [-2.0, 1.0, 3.0, 0.0]
