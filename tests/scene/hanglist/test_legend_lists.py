"""Lines that tell several names at once, and positions by the words of another language."""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.mistakes import SceneError
from tests.scene.hanglist.listed import asked_in, scene_in


def _house(*pipes: str, more: str = "") -> str:
    each = "".join(
        f'[[pipe]]\nname = "{name}"\ntrim = 6\ny = {k}\nfrom = -6\nto = 6\n'
        for k, name in enumerate(pipes)
    )
    return f"""
[scene]
title = "House"
unit = "m"
hang = "list.csv"

{each}
[[target]]
name = "Door"
x = 1
y = 4

[[kind]]
name = "spot"
family = "ers"
field = 26
{more}
"""


STAND = '[[stand]]\nname = "Statyw 1"\nx = 0\ny = 3\nz = 2\n'
SWEDISH = _house("Salongsrå", "Rå 1", "Rå 2", "Rå 3", "Rå 4")
POLISH = _house("Most", "Sztankiet 1", "Sztankiet 2", "Sztankiet 3", more=STAND)
HEAD = "position,number,at,kind,target"


def _rows(*positions: str) -> list[str]:
    return [f"{name},{k},{k} m SL,spot,Door" for k, name in enumerate(positions, 1)]


@pytest.mark.parametrize(
    ("line", "first", "last"),
    [
        ("E1 to E4 are their Rå 1 to Rå 4. Metres from the centre line.", "E1", "E4"),
        ("E1 - E4 = Rå 1 - 4", "E1", "E4"),
        ("E1-4 = Rå 1-4", "E1", "E4"),
        ('"E1, E2, E3 and E4 are Rå 1, 2, 3 and 4"', "E1", "E4"),
        ("Electric # = Rå #", "Electric 1", "Electric 4"),
        ("Electrics 1-4 are the house's Rå 1-4", "Electric 1", "Electric 4"),
        ("Rå 1 = Pipe A; Rå 4 = Pipe D", "Pipe A", "Pipe D"),
        ("Their Rå 1 is our Pipe A. Their Rå 4 is our Pipe D.", "Pipe A", "Pipe D"),
        ("Pipe A/B/C/D = Rå 1/2/3/4", "Pipe A", "Pipe D"),
        ('"A = Rå 1, D = Rå 4 (upstage)"', "A", "D"),
        ("P = Rå", "P1", "P4"),
        ("Key: X1 Rå 1 / X4 Rå 4", "X1", "X4"),
        ("Rå 1 (our Pipe A); Rå 4 (our Pipe D)", "Pipe A", "Pipe D"),
    ],
)
def test_a_line_tells_several_names(tmp_path: Path, line: str, first: str, last: str) -> None:
    above = [line, "", HEAD, *_rows(first, last)]
    below = [HEAD, *_rows(first, last), "", line]
    for lines in (above, below):
        units = scene_in(tmp_path, SWEDISH, lines).units
        assert [unit.position for unit in units] == ["Rå 1", "Rå 4"]


def test_statements_that_a_stroke_parts_may_have_words_and_numbers(tmp_path: Path) -> None:
    house = _house("Saalbrücke", "Portalbrücke", "Zug 1", "Zug 2", "Zug 3")
    line = "Bridge = Portalbrücke / Batten 1 2 3 = Zug 1 2 3"
    units = scene_in(
        tmp_path, house, [line, "", HEAD, *_rows("Bridge", "Batten 1", "Batten 3")]
    ).units
    assert [unit.position for unit in units] == ["Portalbrücke", "Zug 1", "Zug 3"]
    assert '"Bridge"' in asked_in(tmp_path, house, [HEAD, *_rows("Bridge")])


def test_a_list_of_codes_wins_over_initials_that_two_positions_share(tmp_path: Path) -> None:
    line = '"Metres from the centre. S1, S2, S3 = Sztankiet 1, 2, 3"'
    units = scene_in(tmp_path, POLISH, [line, "", HEAD, *_rows("S1", "S3")]).units
    assert [unit.position for unit in units] == ["Sztankiet 1", "Sztankiet 3"]
    assert "may be" in asked_in(tmp_path, POLISH, [HEAD, "S1,1,,spot,Door"])


@pytest.mark.parametrize(
    "line",
    [
        "X1 to X4 are Rå 1 to Rå 3",  # not as many
        "X1 is Rå 1 and X1 is Rå 4",  # two names
        "Tower (SL) is not Rå 4",
        "X1 is not Rå 1",
        "Rå 1 (SL); Rå 4 (SR)",
    ],
)
def test_lines_that_do_not_tell_which_are_asked_about(tmp_path: Path, line: str) -> None:
    assert '"X1"' in asked_in(tmp_path, SWEDISH, [line, "", HEAD, *_rows("X1")])


@pytest.mark.parametrize(
    "line",
    [
        '"T1, T2 and T3 are the Front, Mid and Back Truss respectively"',
        "T1/T2/T3 = Front/Mid/Back Truss",
        "T1 = front; T2 = mid; T3 = back",
        "Trusses: T1 = front, T2 = mid, T3 = back",
        "T1=Front Truss T2=Mid Truss T3=Back Truss",
        "T1 is Front Truss; T3 is Back Truss",
        "NB T1 = Front Truss (house), T3 = Back Truss (ours)",
    ],
)
def test_trusses_that_have_no_numbers(tmp_path: Path, line: str) -> None:
    house = _house("Front Truss", "Mid Truss", "Back Truss")
    units = scene_in(tmp_path, house, [line, "", HEAD, *_rows("T1", "T3")]).units
    assert [unit.position for unit in units] == ["Front Truss", "Back Truss"]


def test_names_told_short_are_taken_where_all_of_a_line_are(tmp_path: Path) -> None:
    house = _house("Front Truss", "Mid Truss", "Back Truss")
    lines = ["T1 = front; T2 = spare", "", HEAD, *_rows("T1")]
    assert '"T1"' in asked_in(tmp_path, house, lines)


def test_a_letter_of_a_side_is_a_code_where_a_line_says_so(tmp_path: Path) -> None:
    house = _house("Face", "Contre")
    units = scene_in(tmp_path, house, ['"F = Face, C = Contre"', "", HEAD, *_rows("F", "C")]).units
    assert [unit.position for unit in units] == ["Face", "Contre"]


def test_a_name_of_the_house_is_not_taken_for_another(tmp_path: Path) -> None:
    line = "Rå 1 = Rå 4"
    units = scene_in(tmp_path, SWEDISH, [line, "", HEAD, *_rows("Rå 1")]).units
    assert [unit.position for unit in units] == ["Rå 1"]


@pytest.mark.parametrize("words", ["Batten", "Bar", "Pipe", "Perche", "Zug", "Electric", "Vara"])
def test_bars_by_the_word_of_another_language(tmp_path: Path, words: str) -> None:
    for house, name in ((SWEDISH, "Rå 1"), (POLISH, "Sztankiet 1"), (_house("Bar 1"), "Bar 1")):
        units = scene_in(tmp_path, house, [HEAD, *_rows(f"{words} 1")]).units
        assert [unit.position for unit in units] == [name]


def test_a_word_of_another_language_that_two_positions_fit_is_asked_about(tmp_path: Path) -> None:
    house = _house("Perche 1", "Barra 1", "Pont 2", "Brücke", "Passerelle")
    assert "may be" in asked_in(tmp_path, house, [HEAD, *_rows("Batten 1")])
    assert "may be" in asked_in(tmp_path, house, [HEAD, *_rows("Bridge")])
    units = scene_in(tmp_path, house, [HEAD, *_rows("Truss 2")]).units
    assert [unit.position for unit in units] == ["Pont 2"]


def test_a_letter_is_no_beginning_of_a_word_of_another_language(tmp_path: Path) -> None:
    house = _house("Front Truss", "Back Truss", more=STAND)
    with pytest.raises(SceneError):
        scene_in(tmp_path, house, [HEAD, *_rows("P1")])
