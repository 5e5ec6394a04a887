"""Headings that say which side a letter or a sign is, and which of two columns of plugs a crew needs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of, scene_of

LINES = "Pipe;No;{};Type;Focus\nLX 1;1;{};spot;Door\nLX 1;2;0;spot;A\nLX 1;3;{};spot;Table\n"


def _text(heading: str, one: str, other: str) -> str:
    return LINES.format(heading, one, other)


@pytest.mark.parametrize(
    ("heading", "one", "other"),
    [
        ("Dist (SL=L SR=R)", "3L", "2R"),
        ("Dist (SL=L SR=R)", "3.5L", "2.5R"),
        ("Offset, L=SL", "3L", "2R"),
        ("Dist, HL=L HR=R", "3R", "2L"),
        ("Distance (L = house left)", "3R", "2L"),
        ("Dist (L/R, actor's)", "3L", "2R"),
        ("Abstand (L/R v. Publ.)", "3R", "2L"),
        ("Cote (J/C)", "3 C", "2 J"),
        ("Dist. J / C", "3 C", "2 J"),
        ("Distance (J = jardin, C = cour)", "3 C", "2 J"),
        ("G/D comédien", "3 G", "2 D"),
        ("Dist. centro (D/S spettatore)", "3 D", "2 S"),
        ("PS/OP m", "3 PS", "2 OP"),
    ],
)
def test_letters_that_a_heading_says_the_sides_of(
    tmp_path: Path, heading: str, one: str, other: str
) -> None:
    found = places_of(tmp_path, _text(heading, one, other))
    assert [float(str(at)) for at in found] == pytest.approx(
        [3.0, 0.0, -2.0] if "." not in one else [3.5, 0.0, -2.5]
    )


@pytest.mark.parametrize(
    ("heading", "plus"),
    [
        ("Dist. (+ = stage L)", 1),
        ("Dist (plus = audience left)", -1),
        ("Dist (+ => SR)", -1),
        ("Dist + → SL", 1),
        ("X (+ vers jardin)", -1),
        ("x (+ vers la cour)", 1),
        ("Distance (+ côté cour)", 1),
        ("m (+cour/SL)", 1),
        ("Dist (+ = OP)", -1),
        ("dist, plus on the prompt side", 1),
        ("Från centrum (+ = SL)", 1),
    ],
)
def test_the_side_that_plus_is(tmp_path: Path, heading: str, plus: int) -> None:
    text = _text(heading, str(3 * plus), str(-2 * plus))
    assert places_of(tmp_path, text) == [3.0, 0.0, -2.0]


@pytest.mark.parametrize("heading", ["Dist (+ = pulpit)", "X (+ kitchen, - door)"])
def test_a_sign_in_words_that_nobody_knows_is_asked_about(tmp_path: Path, heading: str) -> None:
    assert "+ = SL" in asked_of(tmp_path, _text(heading, "3", "-2"))


@pytest.mark.parametrize("heading", ["Offset", "Offset +/-", "Dist (±)", "Position in m"])
def test_a_sign_that_no_heading_explains_is_noted(tmp_path: Path, heading: str) -> None:
    scene = scene_of(tmp_path, _text(heading, "3", "-2"))
    assert any("plus is read as SL" in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("dimmer", "plug"),
    [("Dimmer", "Socket"), ("Gradateur", "Prise"), ("Dæmper", "Stik"), ("Dimmer", "Steckdose")],
)
def test_what_is_plugged_is_the_circuit_and_the_dimmer_is_a_remark(
    tmp_path: Path, dimmer: str, plug: str
) -> None:
    text = (
        f"Pipe,No,At,Type,Focus,Channel,{dimmer},{plug}\n"
        "LX 1,1,3 m SL,spot,A,1,21,101\nLX 1,2,2 m SR,spot,Door,2,22,104\n"
    )
    units = scene_of(tmp_path, text).units
    assert [(unit.channel, unit.circuit) for unit in units] == [("1", "101"), ("2", "104")]
    assert [f"{dimmer}: 21" in str(unit.note) for unit in units] == [True, False]


def test_bare_letters_round_a_zero_are_places(tmp_path: Path) -> None:
    text = (
        "Pipe,Light,Spot,Focus,Chan,Color\nLX 1,spot,3L,Door,1,R54\nLX 1,spot,0,A,2,R54\n"
        "LX 1,spot,3R,Table,3,R54\nLX 2,wide,2L,Door,4,\nLX 2,wide,2R,Table,5,\n"
    )
    assert places_of(tmp_path, text) == [3.0, 0.0, -3.0, 2.0, -2.0]
    assert asked_of(tmp_path, text.replace(",0,", ",1L,"))  # which may be plugs or numbers


@pytest.mark.parametrize(("line", "plus"), [("(+ = boom SR)", -1), ("+ = the side of boom SR", -1)])
def test_plus_is_the_side_of_a_position_that_a_line_names(
    tmp_path: Path, line: str, plus: int
) -> None:
    text = f"Hang list of the spring show {line}\n" + _text("m", str(3 * plus), str(-2 * plus))
    assert places_of(tmp_path, text) == [3.0, 0.0, -2.0]
