"""Names of a concert or a conference in other words than the house's: moving lights by their sort, battens of
LEDs, players and the public, trusses of a letter and a number."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in

HOUSE = '\n[scene]\ntitle = "Concert"\nunit = "m"\nhang = "list.csv"\n'
MOVERS = "Spot; Beam; Wash; LED Bar"
TARGETS = "Vox; Git; Keys; Drums; Crowd; Logo"


def _house(pipes: str, kinds: str, targets: str = "A", booms: str = "") -> str:
    hung = (
        f'[[pipe]]\nname = "{n}"\ntrim = 6\ny = {y}\nfrom = -6\nto = 6'
        for y, n in enumerate(pipes.split("; "))
    )
    stood = (
        f'[[boom]]\nname = "{n}"\nx = {x}\ny = 2\nheight = 4'
        for x, n in zip((5, -5), filter(None, booms.split("; ")), strict=False)
    )
    lit = (f'[[kind]]\nname = "{n}"\nfamily = "ers"\nfield = 26' for n in kinds.split("; "))
    aimed = (f'[[target]]\nname = "{n}"\nx = {x}\ny = 3' for x, n in enumerate(targets.split("; ")))
    return "\n\n".join([HOUSE, *hung, *stood, *lit, *aimed])


def _lines(position: str = "T1", kind: str = "Spot", target: str = "A") -> list[str]:
    return ["position,number,at,kind,target", f"{position},1,2,{kind},{target}"]


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("Wash mover", "Wash"),
        ("Moving head spot", "Spot"),
        ("Testa mobile wash", "Wash"),
        ("Móvil spot", "Spot"),
        ("Beam moving light", "Beam"),
        ("Barra LED", "LED Bar"),
        ("LED-ramp", "LED Bar"),
        ("LED batten", "LED Bar"),
    ],
)
def test_a_light_of_a_concert_by_its_sort(tmp_path: Path, said: str, meant: str) -> None:
    scene = scene_in(tmp_path, _house("T1", MOVERS), _lines(kind=said))
    assert [unit.kind for unit in scene.units] == [meant]
    assert any(said in taken.says for taken in scene.taken)


@pytest.mark.parametrize(
    ("kinds", "said"),
    [
        ("Wash; LED Wash", "Wash mover"),  # either may move
        ("Spot; Fresnel", "Moving spot"),  # a spot may be any lantern
        ("Profile; Wash", "Moving profile"),
        ("Wash; LED Bar; LED Batten", "LED-ramp"),
        ("Beam; Wash", "Mover"),
    ],
)
def test_a_sort_that_may_be_another_light_is_asked(tmp_path: Path, kinds: str, said: str) -> None:
    assert said in asked_in(tmp_path, _house("T1", kinds), _lines(kind=said))


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("Voce", "Vox"),
        ("Voz", "Vox"),
        ("zang", "Vox"),
        ("Guitarra", "Git"),
        ("Chitarra", "Git"),
        ("toetsen", "Keys"),
        ("Tastiere", "Keys"),
        ("Batería", "Drums"),
        ("Pubblico", "Crowd"),
        ("the audience", "Crowd"),
        ("Loggan", "Logo"),
    ],
)
def test_players_and_the_public_in_other_languages(tmp_path: Path, said: str, meant: str) -> None:
    scene = scene_in(tmp_path, _house("T1", MOVERS, TARGETS), _lines(target=said))
    assert [unit.target for unit in scene.units] == [meant]


def test_the_publics_side_is_no_crowd(tmp_path: Path) -> None:
    house = _house("T1", MOVERS, TARGETS)
    assert "audience left" in asked_in(tmp_path, house, _lines(target="audience left"))


@pytest.mark.parametrize(
    ("pipes", "booms", "said", "meant"),
    [
        ("T1; T2", "", "Truss 2", "T2"),
        ("B1; B2", "", "Bar 1", "B1"),
        ("LX1", "B1; B2", "Boom 2", "B2"),
        ("T1", "TL; TR", "Laterale TL", "TL"),
        ("T1", "TL; TR", "side truss TR", "TR"),
        ("T1; Truss 1", "", "Truss 1", "Truss 1"),
    ],
)
def test_a_truss_by_its_letter_and_number(
    tmp_path: Path, pipes: str, booms: str, said: str, meant: str
) -> None:
    scene = scene_in(tmp_path, _house(pipes, MOVERS, booms=booms), _lines(position=said))
    assert [unit.position for unit in scene.units] == [meant]


@pytest.mark.parametrize(
    ("pipes", "booms", "said"),
    [
        ("T1; T2", "", "Tower 2"),  # a T that hangs is no tower
        ("T1; T2", "", "Truss 3"),
        ("LX1", "SL; SR", "Laterale SL 2"),
        ("LX1", "TL; TR", "near TL"),
    ],
)
def test_another_truss_is_asked(tmp_path: Path, pipes: str, booms: str, said: str) -> None:
    house = _house(pipes, MOVERS, booms=booms)
    assert said in asked_in(tmp_path, house, _lines(position=said))
