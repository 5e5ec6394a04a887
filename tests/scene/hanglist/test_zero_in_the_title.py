"""A thing that places on pipes up and down the stage count from, and that the title of the scene says to be
at its zero: "(zero line = front edge of platform)".

By hand: the rail runs from 6 m downstage of the line to 8 m upstage of it, with its zero 1 m upstage of it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from aimcalc.scene.hanglist.places.things import titled_things
from tests.scene.hanglist.listed import ALTAR, BAR_AND_RAIL, HALL, asked_in, scene_in
from tests.scene.hanglist.places import told

LINES = [
    "On the rails: metres from the platform edge",
    "Position;No;Place;Lamp;Focus",
    "North Rail;1;4 m DS;Spot;Altar",
]


def _house(title: str, front: float) -> str:
    hall = HALL.replace('title = "', f'title = "{title} ', 1)
    assert title in hall
    stage = f"\n[stage]\noutline = [[-5, {front}], [5, {front}], [5, 6], [-5, 6]]\n"
    return f"{hall}{stage}{BAR_AND_RAIL}{ALTAR}"


def test_the_title_places_it(tmp_path: Path) -> None:
    scene = scene_in(tmp_path, _house("Hall (zero line = front edge of platform)", 0), LINES)
    assert [unit.at for unit in scene.units] == [-5]
    assert told(scene, "title of the scene", "front edge of platform")


@pytest.mark.parametrize(
    ("title", "front"),
    [
        ("Hall", 0),
        ("Hall (zero line = front edge of platform)", -1),
        ("Hall (zero line = chancel step)", 0),
        ("Hall (0 = edge of the pit)", 0),
    ],
)
def test_nobody_places_it(tmp_path: Path, title: str, front: float) -> None:
    assert asked_in(tmp_path, _house(title, front), LINES)


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("y = 0 at the plaster line; 0 = stage edge", "edge of the stage"),
        ("Zero line: platform edge", "platform edge"),
        ("zero point = edge of the platform", "platform edge"),
    ],
)
def test_by_all_that_it_is_called(title: str, name: str) -> None:
    assert name in {thing.name for thing in titled_things(title, 0.0)}
