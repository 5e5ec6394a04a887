"""The actor's left and right behind the figure of a place are the stage's, in every language."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.scene.hanglist.listed import asked_in, scene_in
from tests.scene.hanglist.test_stagelines import HOUSE, _rows

HEAD = "Position;No;Distance (m);Lamp;Focus"


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("4,5 izq. actor", "2 der. actor"),
        ("4,5 m izquierda del actor", "2 m derecha del actor"),
        ("4,5 gauche acteur", "2 droite acteur"),
        ("4,5 links acteur", "2 rechts acteur"),
        ("4,5 li. Darsteller", "2 re. Darsteller"),
        ("4,5 sin. attore", "2 des. attore"),
        ("4,5 sx attore", "2 dx attore"),
        ("4,5 vänster skådespelare", "2 höger skådespelare"),
        ("4,5 esq. ator", "2 dir. ator"),
    ],
)
def test_the_actors_left_is_the_stages(left: str, right: str, tmp_path: Path) -> None:
    rows = _rows(left, right, position="Bar 1")
    assert [unit.at for unit in scene_in(tmp_path, HOUSE, [HEAD, *rows]).units] == [4.5, -2.0]


def test_a_left_of_nobody_is_asked(tmp_path: Path) -> None:
    assert asked_in(tmp_path, HOUSE, [HEAD, *_rows("4,5 izq.", "2 der.", position="Bar 1")])
