"""Which side clamps open to."""

from __future__ import annotations

import pytest

from aimcalc.scene.model import Pipe
from tests.findings.clean import Scene, a_unit, changed, says, told, with_pipe, with_units


@pytest.mark.parametrize(("pipe", "lights", "away"), [("front", "US", "DS"), ("back", "DS", "US")])
def test_clamps_that_open_to_the_side_that_is_lit_are_noted(
    pipe: str, lights: str, away: str
) -> None:
    # As taught: the clamp's bolt, on its open side, faces away from the direction of focus.
    assert told(with_pipe(pipe, clamp_opens=lights)) == [("note", "clamps-open-to-light", pipe)]
    assert told(with_pipe(pipe, clamp_opens=away)) == []


def two_front_pipes(first: str, second: str) -> Scene:
    scene = with_pipe("front", clamp_opens=first)
    more = Pipe(
        name="bridge", start=(-6, -3, 5.5), end=(6, -3, 5.5), measured=True, clamp_opens=second
    )
    scene = changed(scene, pipes=(*scene.pipes, more))
    return with_units(a_unit("bridge", 1, 0.0, None, point=(0.0, 2.0, 1.65)), scene=scene)


def test_openings_mixed_over_pipes_that_light_one_way_warn_once() -> None:
    scene = two_front_pipes("DS", "US")
    assert told(scene) == [("warn", "clamps-mixed", None)]
    assert says(scene, "clamps-mixed") == (
        "Clamps open DS on front and US on bridge, though all these pipes light towards US."
    )
    assert told(two_front_pipes("DS", "DS")) == []


def test_several_pipes_that_open_to_the_light_are_noted_together() -> None:
    assert told(two_front_pipes("US", "US")) == [("note", "clamps-open-to-light", None)]


def test_a_pipe_with_as_many_units_each_way_has_no_wrong_side() -> None:
    back = [a_unit("back", 4 + n, -3.0 - n, None, point=(-3.0 - n, 7.5, 2.5)) for n in range(3)]
    for side in ("US", "DS"):
        assert told(with_units(*back, scene=with_pipe("back", clamp_opens=side))) == []
