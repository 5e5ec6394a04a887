"""A column of y beside one of x: the place on a pipe up and down the stage, from the plaster line.

By hand: the pipe "side" runs from the plaster line to 6 m upstage, its middle at 3 m; LX 1 hangs at y = 2 m.
"""

from __future__ import annotations

from pathlib import Path

from tests.scene.hanglist.test_heights import _asked, _places, _scene

HEAD = "Position;No;X (m);Y (m);Lamp;Focus"


def test_y_is_the_place_of_a_pipe_up_and_down_the_stage(tmp_path: Path) -> None:
    scene = _scene(tmp_path, HEAD, "LX 1;1;-2;2;spot;A", "side;1;;5;spot;A", "side;2;4;1;spot;A")
    assert _places(scene) == [-2.0, 2.0, -2.0]
    assert not [taken for taken in scene.taken if taken.severity == "warn"]


def test_without_a_pipe_across_that_has_its_y_whence_it_counts_is_warned_of(tmp_path: Path) -> None:
    scene = _scene(tmp_path, HEAD, "LX 1;1;-2;;spot;A", "side;1;;5;spot;A")
    assert _places(scene) == [-2.0, 2.0]
    (warned,) = [taken for taken in scene.taken if taken.severity == "warn"]
    assert "upstage of the plaster line" in warned.says


def test_a_y_that_is_not_that_of_its_pipe_is_asked_about(tmp_path: Path) -> None:
    report = _asked(tmp_path, HEAD, "LX 1;1;-2;-2;spot;A", "side;1;;5;spot;A")
    assert "the y of the pipe as the scene has it" in report
