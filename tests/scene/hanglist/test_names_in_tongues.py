"""Positions and kinds in other words than the house's: bars over the seats, ladders and booms, a side of
cour and jardin, kinds by their first letters."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

HOUSE = '\n[scene]\ntitle = "Names"\nunit = "m"\nhang = "list.csv"\n'
TARGET = '\n[[target]]\nname = "A"\nx = 0\ny = 3\n'
LADDERS = {"Échelle cour": 5.0, "Échelle jardin": -5.0}
TOWERS = {"Turm links": -5.0, "Turm rechts": 5.0}  # as the seats see them
PROFILES = {
    "Profil 26": "ers",
    "Horizontflut": "cyc",
    "Linsenscheinwerfer": "pc",
    "Stufenlinse": "fresnel",
}


def _house(pipes: tuple[str, ...], booms: dict[str, float], kinds: dict[str, str]) -> str:
    hung = (
        f'[[pipe]]\nname = "{n}"\ntrim = 6\ny = {y}\nfrom = -6\nto = 6' for y, n in enumerate(pipes)
    )
    stood = (f'[[boom]]\nname = "{n}"\nx = {x}\ny = 2\nheight = 4' for n, x in booms.items())
    lit = (f'[[kind]]\nname = "{n}"\nfamily = "{f}"\nfield = 26' for n, f in kinds.items())
    return "\n\n".join([HOUSE, *hung, *stood, TARGET, *lit])


def _lines(positions: str, kinds: str) -> list[str]:
    each = zip(positions.split("; "), kinds.split("; "), strict=True)
    return [
        "position,number,at,kind,target",
        *(f"{p},{n},{n},{k},A" for n, (p, k) in enumerate(each, 1)),
    ]


@pytest.mark.parametrize(
    ("pipes", "booms", "said", "meant"),
    [
        (("Pont de face", "Perche 1"), {}, "FOH; Bar 1", "Pont de face; Perche 1"),
        (("Zaalbrug", "Trek 1"), {}, "FOH bridge; Bar 1", "Zaalbrug; Trek 1"),
        (("Puente frontal", "Vara 1"), {}, "Front of house; LX1", "Puente frontal; Vara 1"),
        (("Salongsrör", "Rör 1"), {}, "FOH; Pipe 1", "Salongsrör; Rör 1"),
        (("FOH Bar", "Bar 1"), {}, "Pont de face; Perche 1", "FOH Bar; Bar 1"),
        (("FOH Bar", "Bar 1"), {}, "Auditorium bar; Vara 1", "FOH Bar; Bar 1"),
        (("FOH 1", "FOH 2"), {}, "Face 2; Sala 1", "FOH 2; FOH 1"),
        (("Perche 1",), LADDERS, "Ladder SL; Boom SR", "Échelle cour; Échelle jardin"),
        (("Zug 1",), TOWERS, "Ladder SL; Tour jardin", "Turm rechts; Turm links"),
    ],
)
def test_a_position_by_what_it_is_elsewhere(
    tmp_path: Path, pipes: tuple[str, ...], booms: dict[str, float], said: str, meant: str
) -> None:
    scene = scene_in(tmp_path, _house(pipes, booms, {"spot": "ers"}), _lines(said, "spot; spot"))
    assert [unit.position for unit in scene.units] == meant.split("; ")


@pytest.mark.parametrize(
    ("pipes", "booms", "said"),
    [
        (("FOH 1", "FOH 2"), {}, "Face"),
        (("Zug 1", "Zug 2"), {}, "FOH"),
        (("Perche 1",), LADDERS, "Ladder left"),
        (("Bar 1",), {}, "Boom SL"),
    ],
)
def test_a_position_that_may_be_another_is_asked(
    tmp_path: Path, pipes: tuple[str, ...], booms: dict[str, float], said: str
) -> None:
    house = _house(pipes, booms, {"spot": "ers"})
    assert said in asked_in(tmp_path, house, _lines(said, "spot"))


def test_kinds_by_both_parts_of_a_word_and_in_other_languages(tmp_path: Path) -> None:
    said = "HF; LS; Leko; Perfil; Stufe"
    house = _house(("Zug 1",), {}, PROFILES)
    scene = scene_in(tmp_path, house, _lines("; ".join(["Zug 1"] * 5), said))
    assert [unit.kind for unit in scene.units] == [
        *("Horizontflut", "Linsenscheinwerfer", "Profil 26", "Profil 26", "Stufenlinse"),
    ]


@pytest.mark.parametrize("said", ["SL", "PS", "XF"])
def test_letters_of_a_side_are_no_kind(tmp_path: Path, said: str) -> None:
    assert said in asked_in(tmp_path, _house(("Zug 1",), {}, PROFILES), _lines("Zug 1", said))


def test_everyday_words_over_lamps_and_what_they_are_on(tmp_path: Path) -> None:
    lines = [
        "Which bar,Which lamp,How far out (m),Way,Sort,On to,Plug",
        "Bar 1,1,2.5,stage right,spot,A,A1",
        "Bar 1,2,0.5,stage left,spot,A,A2",
    ]
    scene = scene_in(tmp_path, _house(("Bar 1",), {}, {"spot": "ers"}), lines)
    read = [(unit.number, unit.at, unit.target, unit.circuit) for unit in scene.units]
    assert read == [("1", -2.5, "A", "A1"), ("2", 0.5, "A", "A2")]
