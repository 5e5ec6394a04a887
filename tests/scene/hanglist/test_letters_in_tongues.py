"""Letters and words of left and right in other languages, beside lines that say whose they are: P is right in
Polish and Czech, and no prompt side there; whose sides plus, an end and a place itself say."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_of, places_of

STAGE, HOUSE = [4.2, 1.1, -1.5], [-4.2, -1.1, 1.5]


def _column(line: str, left: str, right: str) -> str:
    over = f"{line}\n\n" if line else ""
    rows = f"LX 1;1;4.2;{left};spot;A\nLX 1;2;1.1;{left};spot;A\nLX 1;3;1.5;{right};spot;A\n"
    return f"{over}Pipe;No;Dist. from centre;Side;Type;Focus\n{rows}"


def _behind(line: str, left: str, right: str) -> str:
    over = f"{line}\n\n" if line else ""
    rows = f"LX 1;1;4,2{left};spot;A\nLX 1;2;1,1{left};spot;A\nLX 1;3;1,5{right};spot;A\n"
    return f"{over}Pipe;No;Dist. from centre;Type;Focus\n{rows}"


def _signed(line: str, heading: str = "Dist. from centre") -> str:
    return _behind(line, "", "").replace("1,5;", "-1,5;").replace("Dist. from centre", heading)


@pytest.mark.parametrize(
    ("line", "left", "right", "read"),
    [
        ("strony aktora: L = lewa aktora, P = prawa aktora", "L", "P", STAGE),
        ("strony widza: L = lewa widza, P = prawa widza", "L", "P", HOUSE),
        ("strony aktora", "L", "P", STAGE),
        ("strony z widowni", "L", "P", HOUSE),
        ("L = lewa, P = prawa (z widowni)", "L", "P", HOUSE),
        ("L – lewa strona aktora, P – prawa strona aktora", "L", "P", STAGE),
        ("lewa i prawa patrząc na scenę", "L", "P", HOUSE),
        ("strany z pohledu herce", "L", "P", STAGE),
        ("L a P při pohledu na jeviště", "L", "P", HOUSE),
        ("levá a pravá z hlediště", "levá", "pravá", HOUSE),
        ("Ľ = ľavá z pohľadu herca, P = pravá z pohľadu herca", "Ľ", "P", STAGE),
        ("vasen ja oikea katsomosta", "V", "O", HOUSE),
        ("V/H sett från salongen", "V", "H", HOUSE),
        ("lati dell'attore", "S", "D", STAGE),
        ("B = bal, J = jobb a nézőtérről nézve", "B", "J", HOUSE),
        ("P = prompt side, O = opposite prompt", "P", "O", STAGE),
        ("", "P", "O", STAGE),
    ],
)
def test_letters_of_sides_are_those_of_their_language(
    tmp_path: Path, line: str, left: str, right: str, read: list[float]
) -> None:
    assert places_of(tmp_path, _column(line, left, right)) == read


@pytest.mark.parametrize("line", ["", "L = lewa, P = prawa"])
def test_letters_of_which_nobody_says_whose_they_are_are_asked(tmp_path: Path, line: str) -> None:
    assert "SL or SR" in asked_of(tmp_path, _column(line, "L", "P"))


def test_p_beside_v_is_not_the_prompt_side(tmp_path: Path) -> None:
    assert "4.2 V" in asked_of(tmp_path, _column("", "V", "P"))


def test_columns_under_the_letters_are_those_of_the_line(tmp_path: Path) -> None:
    text = "strony widza\n\nPipe;No;L;P;Type;Focus\nLX 1;1;4,2;;spot;A\nLX 1;2;;1,5;spot;A\n"
    assert places_of(tmp_path, text) == [-4.2, 1.5]


@pytest.mark.parametrize(
    ("line", "left", "right", "read"),
    [
        ("strony aktora", "L", "P", STAGE),
        ("L/P z widowni", " m L", " m P", HOUSE),
        ("V/O katsomosta", "V", "O", HOUSE),
        ("", " left actor", " right actor", STAGE),
        ("", " left public", " right public", HOUSE),
        ("", " lewa aktora", " prawa aktora", STAGE),
        ("", " levá diváka", " pravá diváka", HOUSE),
        ("G = side garden (jardin) / C = side court (cour)", " C", " G", STAGE),
    ],
)
def test_letters_and_words_behind_figures(
    tmp_path: Path, line: str, left: str, right: str, read: list[float]
) -> None:
    assert places_of(tmp_path, _behind(line, left, right)) == read


@pytest.mark.parametrize(
    ("line", "side", "letter", "read"),
    [
        ("strony aktora", "Strona", "P", [-2.5, -1.0]),
        ("strany z hlediště", "Strana", "P", [2.5, 1.0]),
        ("vasen/oikea katsojasta", "Puoli", "O", [2.5, 1.0]),
        ("", "Strona widza", "P", [2.5, 1.0]),
        ("", "Side", "P", [2.5, 1.0]),
    ],
)
def test_p_and_o_alone_are_right_under_a_heading_of_their_language(
    tmp_path: Path, line: str, side: str, letter: str, read: list[float]
) -> None:
    over = f"{line}\n\n" if line else ""
    rows = f"LX 1;1;2,5;{letter};spot;A\nLX 1;2;1;{letter};spot;A\n"
    text = f"{over}Pipe;No;Dist. from centre;{side};Type;Focus\n{rows}"
    assert places_of(tmp_path, text) == read


@pytest.mark.parametrize(("side", "letter"), [("Strona", "P"), ("Puoli", "O")])
def test_p_and_o_alone_of_nobody_are_asked(tmp_path: Path, side: str, letter: str) -> None:
    text = f"Pipe;No;Dist. from centre;{side};Type;Focus\nLX 1;1;2,5;{letter};spot;A\n"
    assert asked_of(tmp_path, text)


def test_letters_before_figures(tmp_path: Path) -> None:
    line = "P - prawa, L - lewa, patrząc z widowni"
    text = (
        f"{line}\n\nPipe;No;Dist. from centre;Type;Focus\nLX 1;1;P 2,5;spot;A\nLX 1;2;L 1;spot;A\n"
    )
    assert places_of(tmp_path, text) == [2.5, -1.0]


@pytest.mark.parametrize(
    "line",
    [
        "znak + oznacza lewą stronę widza",
        "znaménko + znamená vlevo z hlediště",
        "plusmerkki = katsomosta vasemmalle",
        "il segno + indica la sinistra del pubblico",
        "el signo + es la izquierda del público",
        "le signe + veut dire à gauche du public",
        "Pluszeichen bedeutet links vom Publikum",
        "positief betekent links vanuit de zaal",
        "plustal är till vänster från salongen",
        "plus er til venstre set fra salen",
        "sinal + é a esquerda da plateia",
    ],
)
def test_a_verb_between_a_sign_and_its_side(tmp_path: Path, line: str) -> None:
    assert places_of(tmp_path, _signed(line)) == HOUSE


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("+ = P, - = L (z widowni)", 1),
        ("+ L / - P strony widza", -1),
        ("+ = G, - = D vu de la salle", -1),
        ("+ = D, - = I, vista del público", 1),
        ("w lewo (z widowni) dodatnio, w prawo ujemnie", -1),
        ("J +, C -", -1),
        ("minus P, plus O", -1),
    ],
)
def test_letters_beside_signs(tmp_path: Path, line: str, plus: int) -> None:
    assert places_of(tmp_path, _signed(line)) == [plus * at for at in STAGE]


def test_a_side_before_a_sign_in_words_that_nobody_reads_is_asked(tmp_path: Path) -> None:
    assert asked_of(tmp_path, _signed("à gauche (vu de la salle) c'est plus"))


def test_a_sign_and_a_side_in_words_that_nobody_reads_are_asked(tmp_path: Path) -> None:
    assert "plus" in asked_of(tmp_path, _signed("plus kõik mis house left jääb"))


def test_czech_words_of_nobody_are_asked(tmp_path: Path) -> None:
    assert "SL or SR" in asked_of(tmp_path, _behind("", " levá", " pravá"))


@pytest.mark.parametrize(
    ("line", "plus"),
    [
        ("+ = lewa aktora", 1),
        ("plus na lewo od strony widza", -1),
        ("kladné hodnoty vpravo z pohledu herce", -1),
        ("wartości dodatnie w lewo z widowni", -1),
        ("plus = right actor", -1),
        ("+ = right public", 1),
        ("+ = jobb a nézőtérről", 1),
    ],
)
def test_the_side_of_plus_is_that_of_whom_a_line_names(
    tmp_path: Path, line: str, plus: int
) -> None:
    assert places_of(tmp_path, _signed(line)) == [plus * at for at in STAGE]


@pytest.mark.parametrize(
    ("heading", "plus"),
    [
        ("Place (+ = right seen from public, m)", 1),
        ("Place (+ = left seen from the hall, m)", -1),
        ("Place (+ = right seen from stage, m)", -1),
    ],
)
def test_a_heading_says_who_sees_the_side_of_plus(tmp_path: Path, heading: str, plus: int) -> None:
    assert places_of(tmp_path, _signed("", heading)) == [plus * at for at in STAGE]


def test_a_heading_that_does_not_say_who_sees_it_is_asked(tmp_path: Path) -> None:
    assert asked_of(tmp_path, _signed("", "Place (+ = right, m)"))


@pytest.mark.parametrize(
    ("heading", "read"),
    [
        ("From left end of the trek (left = seen from the hall)", [-3.5, 1.0]),
        ("From left end of each bar (seen from the stage)", [3.5, -1.0]),
        ("From right end seen by the actor", [-3.5, 1.0]),
        ("From right end (left and right = from the audience)", [3.5, -1.0]),
    ],
)
def test_a_heading_explains_in_brackets_whose_end_it_is(
    tmp_path: Path, heading: str, read: list[float]
) -> None:
    text = f"Pipe;No;{heading};Type;Focus\nLX 1;1;1,5;spot;A\nLX 1;2;6;spot;A\n"
    assert places_of(tmp_path, text) == read


def test_an_end_of_nobody_is_asked(tmp_path: Path) -> None:
    text = "Pipe;No;From left end of the trek;Type;Focus\nLX 1;1;1,5;spot;A\n"
    assert asked_of(tmp_path, text)


def test_a_tape_that_begins_at_an_end_of_nobody_is_asked(tmp_path: Path) -> None:
    line = "measure begins at the end of the pipe on the left"
    text = f"{line}\n\nPipe;No;Measure;Type;Focus\nLX 1;1;1;spot;A\nLX 1;2;4;spot;A\n"
    assert "from the left end" in asked_of(tmp_path, text)


def test_the_zero_from_which_places_run_upstage_is_the_plaster_line(tmp_path: Path) -> None:
    line = "Distance depuis le zéro vers le lointain, en cm"
    text = f"{line}\n\nPipe;No;Distance;Type;Focus\nside;1;150;spot;A\nside;2;450;spot;A\n"
    assert places_of(tmp_path, text) == [-1.5, 1.5]  # of the middle of the pipe, 3 m upstage


def test_a_zero_without_a_way_is_asked(tmp_path: Path) -> None:
    text = "Distances depuis le zéro, en cm\n\nPipe;No;Distance;Type;Focus\nside;1;150;spot;A\n"
    assert "from the zero" in asked_of(tmp_path, text)
