"""Random days at the desk: whatever is dragged, done, undone and saved, the page shows what the files say."""

from __future__ import annotations

import shutil

import numpy as np
import pytest

from aimcalc.desk import edits
from aimcalc.desk.edits import Edit, Step
from aimcalc.desk.session import Session
from aimcalc.scene.mistakes import SceneError
from aimcalc.scene.model import Scene
from tests.shows import SCENES
from tests.studies import cases
from tests.test_changed import told

KINDS = ("ers-20", "ers-30", "fresnel-40")


def one(items, rng):
    return items[int(rng.integers(len(items)))]


def places(session: Session, rng: np.random.Generator) -> list[Step]:
    """A drag of something, as the steps of it."""
    scene = session.show.scene
    what = rng.integers(3)
    spots = rng.uniform((-4, -2, 4), (4, 6, 7), (int(rng.integers(1, 4)), 3)).tolist()
    if what == 0:
        name = one(scene.targets, rng).name
        return [edits.target_to(scene, name, x, y) for x, y, _ in spots]
    if what == 1:
        name = one(scene.pipes, rng).name
        ends = name in session.by_points
        return [edits.pipe_to(scene, name, ends, y=y, trim=z) for _, y, z in spots]
    k = int(rng.integers(len(scene.units)))
    unit, was = scene.units[k], session.show.rig.arrays.clamp[:, k].tolist()
    name = f"{unit.position}/{unit.number}"
    return [edits.unit_to(scene, name, was, (x, y, None)) for x, y, _ in spots]


def do_something(session: Session, rng: np.random.Generator) -> None:
    unit = one(session.show.scene.units, rng)
    name = f"{unit.position}/{unit.number}"
    what = int(rng.integers(12))
    if what < 6:
        for step in (steps := [step for step in places(session, rng) if step]):
            session.grab(step)
            session.move(step)
        if steps:
            session.drop()
    elif what == 6:
        session.do((Edit(name, "kind", one(KINDS, rng)),))
    elif what == 7:
        session.do((Edit(name, "colour", one(["pale blue", "amber, and more"], rng)),))
    elif what in (8, 9):
        session.undo()
    elif what == 10:
        session.redo()
    else:
        session.save(None)


def of(scene: Scene) -> object:
    return told((scene.units, scene.targets, scene.pipes, scene.booms, scene.stands, scene.kinds))


@pytest.mark.long
@pytest.mark.parametrize("name", ["studio", "raked", "arena", "playhouse"])
def test_the_page_always_shows_what_the_files_and_the_changes_say(name, tmp_path) -> None:
    """The other way: the files read from nothing with all changes set, to the last bit."""
    rng = np.random.default_rng(7)
    folder = tmp_path / name
    shutil.copytree(SCENES / name, folder)
    session = Session(str(folder))
    for _ in range(cases(25, 400)):
        try:
            do_something(session, rng)
        except SceneError:  # a kind or a place that this unit cannot have: nothing has changed
            session.drop()
        assert of(session.show.scene) == of(edits.changed(str(folder), session.changes.edits))
