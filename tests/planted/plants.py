"""Mistakes to plant in the worked scenes, each with what must be said about it.

    python tests/planted/plants.py reading playhouse /tmp/planted-playhouse

writes a copy of a scene with all its reading (or rig) mistakes, to look at with `aimcalc check`.
Reading mistakes get a scene refused; rig mistakes are read, and found when the rig is looked over.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterable
from typing import NamedTuple

SCENES = os.path.join(os.path.dirname(__file__), "..", "..", "scenes")


class Plant(NamedTuple):
    """One mistake: the text it takes the place of (its first occurrence) and what must be said."""

    file: str
    clean: str
    wrong: str
    says: tuple[str, ...]  # all of them in one mistake of the report, or in one finding


READING: dict[str, tuple[Plant, ...]] = {
    "studio": (
        Plant(
            "scene.toml",
            "face_height = 1.2 ",
            "face_height = nan ",
            ("scene.toml, [scene], face_height", "came:     nan"),
        ),
        Plant(
            "scene.toml",
            'colour = "cool 1"',
            'color = "cool 1"',
            ('[[unit]] "front pipe/1"', '"color"', 'did you mean "colour"?'),
        ),
        Plant(
            "scene.toml",
            'at = "0.25 m SL"',
            'at = "0.25 m US"',
            ('[[unit]] "back pipe/2", at', "US says nothing along this direction"),
        ),
        Plant(
            "scene.toml",
            'target = "chair SR"',
            'target = "chairs SR"',
            ('[[unit]] "front pipe/4", target', 'did you mean "chair SR"?'),
        ),
        Plant(
            "scene.toml",
            'rating = "120 kg"',
            'rating = "120"',
            ('[[pipe]] "front pipe", rating', 'came:     "120"', "kg"),
        ),
        Plant(
            "scene.toml",
            'kind = "pc-50"',
            'kind = "pc 5O"',
            ('[[unit]] "back pipe/1", kind', 'did you mean "pc-50"?'),
        ),
        Plant(
            "scene.toml",
            'mount = "direct"',
            'mount = "clamped"',
            ('[[unit]] "boom SL/2", mount', "direct"),
        ),
        Plant(
            "scene.toml",
            "transmission = 0.70",
            "transmission = 70",
            ('[[unit]] "front pipe/3", transmission', "came:     70"),
        ),
        Plant("scene.toml", "[[seats]]", "[[seat]]", ("seat", 'did you mean "seats"?')),
        Plant(
            "scene.toml",
            'kind = "ers-30"\ncount = 4',
            'kind = "ers-30"\ncount = -4',
            ("[[stock]]", "count", "came:     -4"),
        ),
        Plant(
            "scene.toml",
            'note = "Lesson',
            'hang = "../playhouse/hang.csv"\nnote = "Lesson',
            ("scene.toml, [scene], hang", "folder", "../playhouse/hang.csv"),
        ),
    ),
    "playhouse": (
        Plant(
            "hang.csv",
            'house pipe,1,"19\'-0"" SL"',
            "house pipe,1,nineteen",
            ("hang.csv, row 2, column C (at)", 'came:     "nineteen"'),
        ),
        Plant(
            "hang.csv",
            "balcony rail,1,",
            "balcony rial,1,",
            ("hang.csv, row 22, column A (position)", 'did you mean "balcony rail"?'),
        ),
        Plant(
            "hang.csv",
            "narrator SR,under",
            "narator SR,under",
            ("hang.csv, row 27, column E (target)", 'did you mean "narrator SR"?'),
        ),
        Plant(
            "hang.csv",
            'arm,"1\'-3""",DS,side,62',
            'arm,"1\'-3""",out,side,62',
            ("column H (arm_to)", 'came:     "out"'),
        ),
        Plant(
            "hang.csv",
            'pipe 2,1,"19\'-3"" SL",ers-40,area 6,under',
            'pipe 2,1,"19\'-3"" SL",ers-40,area 6,stand',
            ("column F (mount)", "under"),
        ),
        Plant(
            "scene.toml",
            'mesh = "tree.obj"',
            'mesh = "../tree.obj"',
            ('[[solid]] "apple tree", mesh', "folder", '"../tree.obj"'),
        ),
        Plant(
            "scene.toml",
            "beam = 16",
            "beam = 61",
            ('[[kind]] "ers-24 house", beam', "no wider than the field"),
        ),
        Plant(
            "scene.toml",
            'limit = "20 A", plug',
            'limit = "20", plug',
            ('[[pipe]] "house pipe", circuit 1, limit', "Add A or W."),
        ),
        Plant(
            "scene.toml",
            "box = [-2, 10, 0, 2, 12, 2]",
            "box = [-2, 10, 0, 2, 10, 2]",
            ('[[solid]] "step", box', "A thin sheet is a panel."),
        ),
        Plant(
            "scene.toml",
            'name = "leg 1 SR"',
            'name = "leg 1 SL"',
            ('[[solid]] "leg 1 SL", name', "a name of its own"),
        ),
        Plant(
            "scene.toml",
            'plane = "deck"',
            'plane = "floor"',
            ('[[target]] "shade SL", plane', "face, deck, point"),
        ),
    ),
    "raked": (
        Plant("scene.toml", 'rake = "1:16"', 'rake = "16:1"', ("[stage], rake", "1:16")),
        Plant(
            "scene.toml",
            'zero = "start"',
            'zero = "strat"',
            ('[[pipe]] "gallery bar SL", zero', 'did you mean "start"?'),
        ),
        Plant(
            "scene.toml",
            'trim = 6.00\ny = "7.9 m US"',
            'trim = inf\ny = "7.9 m US"',
            ('[[pipe]] "back bar", trim', "came:     inf"),
        ),
        Plant(
            "hang.csv",
            "out,30 SL",
            "out,30 DS",
            ("column G (swing_out)", "SL or SR"),
        ),
        Plant(
            "hang.csv",
            "fresnel-40,mark 2,under",
            "fresnel-40,mark 2,over head",
            ("column F (mount)", "under"),
        ),
        Plant(
            "hang.csv",
            "house bar,3,0.60 m SL",
            "house bar,3,0.60 yd SL",
            ("column C (at)", '"0.60 yd SL"'),
        ),
        Plant(
            "scene.toml",
            'name = "mark 5"\nx = "0 m"',
            'name = "mark 5"\nx = "0 m US"',
            ('[[target]] "mark 5", x', '"0 m US"'),
        ),
        Plant(
            "scene.toml",
            "stand_on = true",
            "standon = true",
            ('[[solid]] "hilltop"', '"standon"', 'did you mean "stand_on"?'),
        ),
    ),
}


def plant(scene: str, plants: Iterable[Plant], folder: str) -> str:
    """The path of a copy of a worked scene in `folder`, with every one of `plants` in it.

    A scene with a hang list in both forms reads the CSV one, which is where plants are put.
    """
    shutil.copytree(os.path.join(SCENES, scene), folder, dirs_exist_ok=True)
    _edit(folder, Plant("scene.toml", 'hang = "hang.xlsx"', 'hang = "hang.csv"', ()), must=False)
    for one in plants:
        _edit(folder, one)
    return folder


def _edit(folder: str, one: Plant, *, must: bool = True) -> None:
    path = os.path.join(folder, one.file)
    with open(path, encoding="utf-8", newline="") as file:
        text = file.read()
    if must and one.clean not in text:
        raise LookupError(f"{one.file} no longer holds {one.clean!r}")
    with open(path, "w", encoding="utf-8", newline="") as file:
        file.write(text.replace(one.clean, one.wrong, 1))


if __name__ == "__main__":
    plant(sys.argv[2], {"reading": READING}[sys.argv[1]][sys.argv[2]], sys.argv[3])
