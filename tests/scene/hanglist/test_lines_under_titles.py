"""Lines under the name of a position that say from where its places count, and signs that are the left or
right of people."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import asked_of, places_of, scene_in

HEAD = "Unit,Place,Type,Focus"


def under(title: str, line: str, *places: str) -> str:
    """A list of one position whose name stands over its units, with a line between."""
    rows = [f"{n},{place},spot,A" for n, place in enumerate(places, 1)]
    return "\n".join([HEAD, f"{title},,,", f'"{line}",,,', *rows]) + "\n"


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("from centre, + SL", 3),
        ("+ = SR", -3),
        ("plus to house left", -3),
        ("plus is the audience's left", -3),
        ("positive = actors' left", 3),
        ("from the SL end", 2),
        ("from SR end", -2),
    ],
)
def test_a_line_under_a_title_says_how_its_places_count(
    tmp_path: Path, line: str, first: float
) -> None:
    assert places_of(tmp_path, under("LX 1", line, "3")) == [pytest.approx(first)]


@pytest.mark.parametrize(
    ("line", "y"),
    [
        ("from DS end", 2),
        ("from the upstage end", 4),
        ("measured upstage from plaster line", 2),
        ("in metres, from the downstage end", 2),
    ],
)
def test_it_says_it_of_a_pipe_up_and_down_the_stage(tmp_path: Path, line: str, y: float) -> None:
    (at,) = places_of(tmp_path, under("side", line, "2"))
    assert at is not None
    assert at + 3 == pytest.approx(y)  # the middle of the pipe is 3 m upstage


@pytest.mark.parametrize(
    ("line", "height"), [("heights", 3), ("height to clamp, above deck", 3), ("down from top", 1)]
)
def test_it_says_it_of_a_boom(tmp_path: Path, line: str, height: float) -> None:
    assert places_of(tmp_path, under("boom SR", line, "3")) == [pytest.approx(height)]


def test_each_position_has_its_own_line(tmp_path: Path) -> None:
    rows = ["LX 1,,,", "from SL end,,,", "1,3,spot,A", "side,,,", "from DS end,,,", "1,2,spot,A"]
    rows += ["LX 2,,,", "+ = SR,,,", "1,3,spot,A", "2,-1,spot,A"]
    text = "\n".join([HEAD, *rows]) + "\n"
    assert places_of(tmp_path, text) == [pytest.approx(at) for at in (2, -1, -3, 1)]


def test_a_line_under_one_title_alone_leaves_the_other_asked(tmp_path: Path) -> None:
    rows = ["LX 1,,,", "+ = SR,,,", "1,3,spot,A", "LX 2,,,", "1,3,spot,A", "2,-1,spot,A"]
    assert "from where only those of LX 1 count" in asked_of(tmp_path, "\n".join([HEAD, *rows]))


def test_words_under_a_title_that_say_nothing_of_places_may_name_another(tmp_path: Path) -> None:
    assert asked_of(tmp_path, under("LX 1", "Spare bar", "3 SL"))


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("+ = audience left", -3),
        ("- = audience left", 3),
        ("plus is to the spectators' right", 3),
        ("positive = performer's right", -3),
        ("+ = house's left", -3),
        ("+ towards the audience's left", -3),
    ],
)
def test_a_sign_is_the_left_or_right_of_people(tmp_path: Path, line: str, first: float) -> None:
    rows = ["Bar,Unit,Place,Type,Focus", "LX 1,1,3,spot,A", "LX 1,2,-1,spot,A"]
    found = places_of(tmp_path, "\n".join([f'"{line}",,,,', *rows]) + "\n")
    assert found[0] == pytest.approx(first)


@pytest.mark.parametrize("line", ["+ = the pulpit's left", "minus is the band's right"])
def test_a_sign_of_people_who_may_stand_either_way_is_asked(tmp_path: Path, line: str) -> None:
    rows = ["Bar,Unit,Place,Type,Focus", "LX 1,1,3,spot,A", "LX 1,2,-1,spot,A"]
    assert asked_of(tmp_path, "\n".join([f'"{line}",,,,', *rows]) + "\n")


def test_out_towards_the_house_over_a_pipe_upstage_of_the_line(tmp_path: Path) -> None:
    line = '"Distances from plaster line, out is toward the audience",,,,'
    rows = ["Bar,Unit,Place,Type,Focus", "side,1,2.5,spot,A", "side,2,4,spot,A"]
    # The pipe lies upstage of that line alone: whatever counts from there counts so.
    assert places_of(tmp_path, "\n".join([line, *rows]) + "\n") == [
        pytest.approx(-0.5),
        pytest.approx(1),
    ]


def test_out_towards_the_house_leaves_bare_figures_asked(tmp_path: Path) -> None:
    line = '"Distances from plaster line, out is toward the audience",,,,'
    house = """[scene]
title = "House"
hang = "list.csv"
[[pipe]]
name = "Rail"
start = [4, -4, 5]
end = [4, 6, 5]
[[target]]
name = "A"
x = 0
y = 3
[[kind]]
name = "spot"
family = "ers"
field = 26
"""
    rows = [line, "Bar,Unit,Place,Type,Focus", "Rail,1,2.5,spot,A", "Rail,2,3,spot,A"]
    with pytest.raises(SceneError, match="US or DS of the plaster line"):
        scene_in(tmp_path, house, rows)
