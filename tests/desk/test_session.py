"""What is tried on a scene: undone, done again, kept when its files change, equal to the command line's."""

from __future__ import annotations

import shutil

import pytest

from aimcalc.desk import asked as ask
from aimcalc.desk.edits import Edit
from aimcalc.desk.session import Session
from aimcalc.desk.told import things_told
from aimcalc.scene.mistakes import SceneError
from aimcalc.show import Show
from aimcalc.text.lists import as_json
from tests.shows import SCENES


@pytest.fixture
def session(tmp_path):
    folder = tmp_path / "studio"
    shutil.copytree(SCENES / "studio", folder)
    return Session(str(folder))


def solved(show):
    """What `solve --json` prints of a show."""
    return as_json(show.rig, show.findings)


def target(session, name):
    return next(t for t in session.show.scene.targets if t.name == name)


def first_target(session):
    return session.show.scene.targets[0].name


def moved(session, name, x, y):
    """A hand that drags a target there, by way of two other places."""
    session.grab(ask.step_of(session, ask.Grab("target", name)))
    for n, (a, b) in enumerate([(0.11, 0.22), (0.33, 0.44), (x, y)]):
        session.move(ask.step_of(session, ask.Move(n, "target", name, a, b)))
    session.drop()


def test_a_drag_is_one_change_in_words(session):
    name = first_target(session)
    moved(session, name, 1.0, -0.5)
    assert len(session.changes.done) == 1
    assert target(session, name).x == 1.0
    assert target(session, name).y == -0.5


def test_a_drag_gives_what_the_command_line_gives_for_the_same_values(session):
    """The other way: the reader of `--set`, from nothing."""
    name = first_target(session)
    moved(session, name, 1.0, -0.5)
    other = Show.read(session.path, what_if=[f"{name}.x=1 m SL", f"{name}.y=0.5 m DS"])
    assert solved(session.show) == solved(other)


def test_undo_and_redo_lead_back_and_forth(session):
    name = first_target(session)
    states = [solved(session.show)]
    for x in (0.5, 1.0, 1.5):
        moved(session, name, x, 0.5)
        states.append(solved(session.show))
    for state in states[-2::-1]:
        session.undo()
        assert solved(session.show) == state
    session.undo()  # nothing is left
    assert solved(session.show) == states[0]
    for state in states[1:]:
        session.redo()
        assert solved(session.show) == state
    session.redo()
    assert len(session.changes.done) == 3


def test_a_new_change_forgets_what_was_undone(session):
    name = first_target(session)
    moved(session, name, 0.5, 0.5)
    session.undo()
    moved(session, name, 1.0, 0.5)
    assert session.changes.undone == ()


def test_what_the_call_sets_is_the_first_change(session):
    name = first_target(session)
    session.begin([f"{name}.x=1 m SL", f"{name}.y=0.5 m DS"])
    other = Show.read(session.path, what_if=[f"{name}.x=1 m SL", f"{name}.y=0.5 m DS"])
    assert solved(session.show) == solved(other)
    session.undo()
    assert solved(session.show) == solved(session.base)
    with pytest.raises(SceneError, match=r"NAME\.KEY=VALUE"):
        session.begin(["nonsense"])
    with pytest.raises(SceneError, match="nobody"):
        session.begin(["nobody.x=1 m"])


def test_a_refused_value_changes_nothing(session):
    before = solved(session.show)
    with pytest.raises(SceneError, match="a length"):
        session.do((Edit(first_target(session), "x", "3 apples"),))
    assert solved(session.show) == before
    assert session.changes.done == ()


def test_what_is_tried_stays_when_a_file_changes(session, tmp_path):
    name = first_target(session)
    moved(session, name, 1.0, -0.5)
    file = tmp_path / "studio" / "scene.toml"
    file.write_text(file.read_text().replace('revision = "A"', 'revision = "B, typed beside"'))
    assert session.reload()
    assert not session.reload()
    assert session.show.scene.settings.revision == "B, typed beside"
    assert target(session, name).x == 1.0


def test_a_mistake_in_the_file_is_told_and_the_last_good_state_stays(session, tmp_path):
    name = first_target(session)
    moved(session, name, 1.0, -0.5)
    good = solved(session.show)
    file = tmp_path / "studio" / "scene.toml"
    right = file.read_text()
    file.write_text(right.replace('unit = "m"', 'unit = "ells"'))
    assert session.reload()
    assert "ells" in session.trouble
    assert solved(session.show) == good
    file.write_text(right)
    assert session.reload()
    assert session.trouble == ""
    assert solved(session.show) == good


def test_a_file_that_is_gone_for_a_moment_is_no_end(session, tmp_path):
    file = tmp_path / "studio" / "scene.toml"
    right = file.read_text()
    file.unlink()
    assert session.reload()
    assert "scene.toml" in session.trouble
    file.write_text(right)
    assert session.reload()
    assert session.trouble == ""


@pytest.mark.parametrize("scene", ["studio", "raked", "playhouse"])
def test_every_result_after_drags_is_that_of_a_show_from_nothing(scene):
    """Units, pipes, trims and targets, one after the other; findings and light lost with them."""
    session = Session(str(SCENES / scene))
    rig = session.show.rig
    steps = [
        ask.Move(1, "target", first_target(session), 0.4, 1.1),
        ask.Move(2, "unit", rig.names[0], *rig.arrays.clamp[:2, 0].tolist()),
        ask.Move(3, "unit", rig.names[1], *(rig.arrays.clamp[:2, 1] + 0.4).tolist()),
        ask.Move(4, "pipe", rig.scene.pipes[0].name, None, rig.scene.pipes[0].start[1] + 0.3),
        ask.Move(5, "trim", rig.scene.pipes[0].name, None, None, rig.scene.pipes[0].start[2] + 0.2),
    ]
    for step in steps:
        session.grab(ask.step_of(session, ask.Grab(step.sort, step.name)))
        session.move(ask.step_of(session, step))
        session.drop()
        session.known = session.show
    assert len(session.changes.done) >= 4
    assert solved(session.show) == solved(Show(session.show.scene))


def test_a_pipe_that_was_corrected_is_typed_as_plotted_and_goes_where_the_hand_puts_it(tmp_path):
    """It hangs 0.1 m over its plotted trim: plotted 4 m it hangs at 4.1, and put at 4.3 it is plotted 4.2."""
    folder = tmp_path / "studio"
    shutil.copytree(SCENES / "studio", folder)
    corrected = '[[correction]]\nwhat = "trim"\nof = "front pipe"\nvalue = "0.1 m"\n'
    (folder / "corrections.toml").write_text(corrected)
    file = folder / "scene.toml"
    file.write_text(
        file.read_text().replace("volts = 230", 'volts = 230\ncorrections = "corrections.toml"')
    )
    session = Session(str(folder))

    def stands():
        told_now = dict(things_told(session))["p/front pipe"]
        return told_now["typed"]["trim"], session.show.scene.positions["front pipe"].start[2]

    assert stands() == ("3.5 m", pytest.approx(3.6))
    session.do((Edit("front pipe", "trim", "4 m"),))
    assert stands() == ("4 m", pytest.approx(4.1))
    session.grab(ask.step_of(session, ask.Grab("trim", "front pipe")))
    session.move(ask.step_of(session, ask.Move(1, "trim", "front pipe", z=4.3)))
    session.drop()
    assert stands() == ("4.2 m", pytest.approx(4.3))
    session.undo()
    session.undo()
    assert stands() == ("3.5 m", pytest.approx(3.6))
