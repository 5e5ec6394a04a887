"""Places that count from the unit before, in their own cells or by a line, and ends that are named after what
is there.

Readings by hand: LX 1 runs from 5 m SR to 5 m SL; 9 m from its SL end are 4 m SR.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.landmarks import lies_at
from aimcalc.scene.hanglist.places.steps import Step, onward
from tests.scene.hanglist.listed import asked_in, asked_of, places_of, scene_in

HEAD = "Bar;Unit;Distance;Type;Focus"


def _list(*lines: str, places: tuple[str, ...]) -> str:
    rows = [f"LX 1;{n};{place};spot;A" for n, place in enumerate(places, 1)]
    return "\n".join((*lines, HEAD, *rows)) + "\n"


@pytest.mark.parametrize(
    ("cell", "step"),
    [
        ("then +1.5", Step("1.5")),
        ("4' further to SR", Step("4'", "SR")),
        ("another 4'-6\"", Step("4'-6\"")),
        ("4' SR of #1", Step("4'", "SR", "1")),
        ("2 m SL of the one before", Step("2 m", "SL")),
        ("dann 1,5 m", Step("1,5 m")),
        ("1,5 m weiter", Step("1,5 m")),
        ("prev + 1.5", Step("1.5")),
        ("1.5 further on towards stage left", Step("1.5", "SL")),
        ('next one 18" SR', Step('18"', "SR")),
        ("4' to SR", None),
        ("4' on SL", None),
        ("2 m SL of centre", None),
        ("3 m from SL end", None),
        ("2 m US of plaster line", None),
        ("then SL", None),
        ("+1.5", None),
    ],
)
def test_a_cell_that_counts_from_the_unit_before(cell: str, step: Step | None) -> None:
    assert onward(cell) == step


@pytest.mark.parametrize(
    ("line", "places", "at"),
    [
        ("", ("3 SR", "then +1.5", "then +1.5", "then +1.5"), [-3.0, -1.5, 0.0, 1.5]),
        ('"then" = further towards SL', ("1 SR", "then +1.5", "then +1.5"), [-1.0, 0.5, 2.0]),
        ("", ("4 SL", "1.5 further to SR", "another 2 m", "2 m more"), [4.0, 2.5, 0.5, -1.5]),
        ("", ("4 SL", "2 m SR of #1", "2 m SR of #2"), [4.0, 2.0, 0.0]),
    ],
)
def test_steps(tmp_path: Path, line: str, places: tuple[str, ...], at: list[float]) -> None:
    assert places_of(tmp_path, _list(line, places=places)) == at


@pytest.mark.parametrize(
    "places",
    [
        ("1 SR", "then +1.5", "then +1.5"),  # both ways stay on the pipe
        ("4 SL", "2 m further to SR", "2 m further to SL"),
        ("4 SL", "2 m SR of #1", "2 m SR of #1"),
        ("then +1.5", "then +1.5"),  # nothing to count from
    ],
)
def test_steps_that_are_asked_about(tmp_path: Path, places: tuple[str, ...]) -> None:
    assert "gap" in asked_of(tmp_path, _list("", places=places))


@pytest.mark.parametrize(
    ("lines", "first", "at"),
    [
        (
            ("m from CL, plus toward SL", "LX 1: unit 1 at +4, then one every 2 m going SR"),
            "4",
            [4.0, 2.0, 0.0, -2.0],
        ),
        (("LX 1: unit 1 at 4 m SL, then every 2 m to SR",), "4 SL", [4.0, 2.0, 0.0, -2.0]),
        (("LX 1: rest every 2 m to SR",), "4 SL", [4.0, 2.0, 0.0, -2.0]),
        (
            ("m from CL, plus toward SR", "LX 1: unit 1 at +4, then one every 2 m going SL"),
            "",
            [-4.0, -2.0, 0.0, 2.0],
        ),
        (
            ("LX 1: four on 2 m centers, symmetrical about the CL. #1 is furthest stage right.",),
            "see above",
            [-3.0, -1.0, 1.0, 3.0],
        ),
        (
            ("2 m centres, half each side of CL, no. 1 is the most SL",),
            "see above",
            [3.0, 1.0, -1.0, -3.0],
        ),
    ],
)
def test_a_line_tells_the_places_of_blank_cells(
    tmp_path: Path, lines: tuple[str, ...], first: str, at: list[float]
) -> None:
    rest = first if first.startswith("see") else ""
    assert places_of(tmp_path, _list(*lines, places=(first, rest, rest, rest))) == at


@pytest.mark.parametrize(
    ("line", "places"),
    [
        ("LX 1: first at 3 m SL then every 2 m to SR", ("4 SL", "", "")),  # two firsts
        ("LX 1: unit 1 at +4, then one every 2 m going SR", ("", "", "")),  # plus of nobody
        ("LX 2: 2 m apart toward SR", ("4 SL", "", "")),  # of another pipe
        ("LX 1: 2 m apart to SR", ("4 SL", "", "1 SL", "")),
        ("LX 1: 1 m apart", ("2 SL", "", "")),  # and not which way
        ("LX 1: 2 m apart, symmetrical about CL", ("see above", "see above", "see above")),
    ],
)
def test_a_line_that_does_not_tell_them_is_asked_about(
    tmp_path: Path, line: str, places: tuple[str, ...]
) -> None:
    assert asked_of(tmp_path, _list(line, places=places))


@pytest.mark.parametrize(
    ("line", "at"),
    [
        ("Measured in m from the kitchen end of each bar (the kitchen is stage left)", [3, -4]),
        ("from the kitchen end (kitchen = SR)", [-3, 4]),
        ("All from the kitchen end. Kitchen end is stage right.", [-3, 4]),
        ("from the kitchen-end; SL is the kitchen side", [3, -4]),
        ("from the end nearest the kitchen; kitchen is SR", [-3, 4]),
        ("measured from the kitchen end, kitchen is house left", [-3, 4]),
    ],
)
def test_an_end_that_a_line_explains(tmp_path: Path, line: str, at: list[float]) -> None:
    assert places_of(tmp_path, _list(line, places=("2", "9"))) == at


@pytest.mark.parametrize(
    "line",
    [
        "from the kitchen end",
        "from the end nearest the kitchen",
        "from the piano end; the piano is SL, the piano is SR",
    ],
)
def test_an_end_that_nobody_explains_is_asked(tmp_path: Path, line: str) -> None:
    assert "where it counts from" in asked_of(tmp_path, _list(line, places=("2", "9")))


def test_what_is_no_landmark() -> None:
    assert lies_at(["plus is SL", "the left is SR", "distances are SL of centre"]) == {}


HALL = (
    '[scene]\ntitle = "Hall"\nhang = "list.csv"\n'
    '\n[[pipe]]\nname = "LX 1"\ntrim = 5\ny = 1\nfrom = -5\nto = 5\n'
    '\n[[target]]\nname = "Organ"\nx = -6\ny = 1\n\n[[target]]\nname = "Bench"\nx = 1\ny = 1\n'
    '\n[[kind]]\nname = "spot"\nfamily = "ers"\nfield = 26\n'
)
GALLERY = (
    '\n[[pipe]]\nname = "Gallery"\nzero = "middle"\nstart = [6, 0, 5]\nend = [6, 6, 5]\n'
    '\n[[target]]\nname = "Pulpit"\nx = -6\ny = 3\n'
)


def test_an_end_at_which_a_target_stands(tmp_path: Path) -> None:
    lines = ["metres from the organ end", HEAD, "LX 1;1;2;spot;Bench"]
    assert [unit.at for unit in scene_in(tmp_path, HALL, lines).units] == [-3.0]


def test_a_target_near_the_middle_names_no_end(tmp_path: Path) -> None:
    lines = ["metres from the bench end", HEAD, "LX 1;1;2;spot;Bench"]
    assert "where it counts from" in asked_in(tmp_path, HALL, lines)


@pytest.mark.parametrize("end", ["bench end", "congregation end", "DS end"])
def test_the_end_of_other_pipes_is_none_of_one_across(tmp_path: Path, end: str) -> None:
    lines = [f"metres from the {end}", HEAD, "LX 1;1;2;spot;Bench"]
    assert "runs across the stage" in asked_in(tmp_path, HALL + GALLERY, lines)


def test_a_target_beside_a_pipe_up_the_stage_names_no_end_across(tmp_path: Path) -> None:
    lines = ["metres from the pulpit end", HEAD, "LX 1;1;2;spot;Bench"]
    assert "where it counts from" in asked_in(tmp_path, HALL + GALLERY, lines)


@pytest.mark.parametrize(
    "line",
    [
        "metres from the congregation end",
        "metres from the end nearest the pews",
        "metres from the congregation end of the rail (the end nearest the pews)",
    ],
)
def test_the_end_where_people_sit(tmp_path: Path, line: str) -> None:
    lines = [line, HEAD, "Gallery;1;2;spot;Bench"]
    assert [unit.at for unit in scene_in(tmp_path, HALL + GALLERY, lines).units] == [-1.0]
